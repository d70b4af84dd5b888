//! Short phrases: numbers in a row, lists.

/// How many items a list names before it only counts.
const NAMED: usize = 6;

/// `3`, `3 and 4`, `3, 4 and 9`; ranges of three or more as `3 to 6`; a long list is counted at its end.
pub(crate) fn numbers(sorted: &[u32]) -> String {
    let mut groups = Vec::<(u32, u32)>::new();
    for &number in sorted {
        match groups.last_mut() {
            Some((_, last)) if last.checked_add(1) == Some(number) => *last = number,
            _ => groups.push((number, number)),
        }
    }
    let words = groups.into_iter().flat_map(|(first, last)| match last - first {
        0 => vec![first.to_string()],
        1 => vec![first.to_string(), last.to_string()],
        _ => vec![format!("{first} to {last}")],
    });
    list(&words.collect::<Vec<_>>())
}

/// `section 3`, or `sections 3 and 4`, of a sorted list.
pub(crate) fn sections(sorted: &[u32]) -> String {
    let noun = if sorted.len() == 1 { "section" } else { "sections" };
    format!("{noun} {}", numbers(sorted))
}

/// With a capital letter; the first character is a plain one.
pub(crate) fn capital(words: &str) -> String {
    let mut words = words.to_owned();
    if let Some(first) = words.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    words
}

/// Words joined by commas and a last `and`; a long list is counted at its end.
pub(crate) fn list(words: &[String]) -> String {
    if words.len() > NAMED {
        let others = words.len() - NAMED;
        return format!("{} and {others} more", words[..NAMED].join(", "));
    }
    match words.split_last() {
        None => String::new(),
        Some((last, [])) => last.clone(),
        Some((last, first)) => format!("{} and {last}", first.join(", ")),
    }
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
    }
}
