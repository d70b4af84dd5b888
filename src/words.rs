//! Pieces of sentences: lists, numbers with their thousands apart, small letters and capitals.

/// How many items a list names before it only counts.
const NAMED: usize = 6;

/// Words joined by commas and a last `and`: all of them if there are no more than `whole`, otherwise the first `named`, and
/// how many more.
pub(crate) fn list_of(words: &[String], whole: usize, named: usize) -> String {
    if words.len() > whole {
        let (first, others) = words.split_at(named.min(words.len()));
        return format!("{} and {} more", first.join(", "), others.len());
    }
    match words.split_last() {
        None => String::new(),
        Some((last, [])) => last.clone(),
        Some((last, first)) => format!("{} and {last}", first.join(", ")),
    }
}

/// Words joined by commas and a last `and`; a long list is counted at its end.
pub(crate) fn list(words: &[String]) -> String {
    list_of(words, NAMED, NAMED)
}

/// `3`, `3 and 4`, `3, 4 and 9`; ranges of three or more as `3 to 6`; a long list is counted at its end.
pub(crate) fn numbers(sorted: &[u32]) -> String {
    numbers_as(sorted, &|number| number.to_string())
}

/// `section 3`, or `sections 3 and 4`, of a sorted list.
pub(crate) fn sections(sorted: &[u32]) -> String {
    let noun = if sorted.len() == 1 { "section" } else { "sections" };
    format!("{noun} {}", numbers(sorted))
}

/// As [`numbers`], for counter numbers: `1,421 to 1,500`.
pub(crate) fn counters(sorted: &[u32]) -> String {
    numbers_as(sorted, &grouped)
}

fn numbers_as(sorted: &[u32], write: &dyn Fn(u32) -> String) -> String {
    let mut groups = Vec::<(u32, u32)>::new();
    for &number in sorted {
        match groups.last_mut() {
            Some((_, last)) if last.checked_add(1) == Some(number) => *last = number,
            _ => groups.push((number, number)),
        }
    }
    let words = groups.into_iter().flat_map(|(first, last)| match last - first {
        0 => vec![write(first)],
        1 => vec![write(first), write(last)],
        _ => vec![format!("{} to {}", write(first), write(last))],
    });
    list(&words.collect::<Vec<_>>())
}

/// A whole number with commas between thousands.
#[must_use]
pub fn grouped(number: u32) -> String {
    let digits = number.to_string();
    let mut out = String::with_capacity(digits.len() + 3);
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}

/// A number of things: `1 book`, `80 books`.
#[must_use]
pub fn how_many(number: u32, thing: &str) -> String {
    format!("{} {thing}{}", grouped(number), if number == 1 { "" } else { "s" })
}

/// With a capital letter; the first character is a plain one.
pub(crate) fn capital(words: &str) -> String {
    first_letter(words, str::make_ascii_uppercase)
}

/// With a small letter; the first character is a plain one.
pub(crate) fn small(words: &str) -> String {
    first_letter(words, str::make_ascii_lowercase)
}

fn first_letter(words: &str, change: fn(&mut str)) -> String {
    let mut words = words.to_owned();
    if let Some(first) = words.get_mut(..1) {
        change(first);
    }
    words
}

/// Begins with a capital and ends with a point.
pub(crate) fn sentence(words: &str) -> String {
    capital(words) + "."
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_in_a_row() {
        assert_eq!(numbers(&[]), "");
        assert_eq!(numbers(&[3]), "3");
        assert_eq!(sections(&[3]), "section 3");
        assert_eq!(capital(&sections(&[3, 4])), "Sections 3 and 4");
        assert_eq!(numbers(&[3, 4]), "3 and 4");
        assert_eq!(numbers(&[1, 3, 4, 5, 9]), "1, 3 to 5 and 9");
        assert_eq!(numbers(&[1, 3, 5, 7, 9, 11, 13, 15]), "1, 3, 5, 7, 9, 11 and 2 more");
        assert_eq!(counters(&[999, 1_421, 1_422, 1_423]), "999 and 1,421 to 1,423");
    }

    #[test]
    fn counters_have_their_thousands_apart() {
        assert_eq!([7, 999, 1_421, 2_000, 1_234_567].map(grouped), ["7", "999", "1,421", "2,000", "1,234,567"]);
        assert_eq!([0, 999, 1000, 1_421, 1_000_000].map(grouped), ["0", "999", "1,000", "1,421", "1,000,000"]);
        assert_eq!([how_many(1, "book"), how_many(1200, "book")], ["1 book", "1,200 books"]);
    }

    #[test]
    fn letters_in_front() {
        assert_eq!([capital("section 3"), small("Section 3"), sentence("x")], ["Section 3", "section 3", "X."]);
        // A first letter of more than one byte stays.
        assert_eq!([capital("é"), small(""), capital("")], ["é", "", ""]);
    }
}
