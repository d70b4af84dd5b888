//! Roman numerals, written and read.

/// The highest number that is written in roman numerals, with no sign beyond M.
pub(super) const MOST_ROMAN: u32 = 3_999;

/// The signs and their values, the subtractive pairs with them: the common way of writing, as prelims have it.
const SIGNS: [(u32, &str); 13] = [
    (1000, "m"),
    (900, "cm"),
    (500, "d"),
    (400, "cd"),
    (100, "c"),
    (90, "xc"),
    (50, "l"),
    (40, "xl"),
    (10, "x"),
    (9, "ix"),
    (5, "v"),
    (4, "iv"),
    (1, "i"),
];

/// A number from 1 to 3,999 in small roman numerals; `None` beyond.
#[must_use]
pub fn roman(number: u32) -> Option<String> {
    if number == 0 || number > MOST_ROMAN {
        return None;
    }
    let mut left = number;
    let mut text = String::new();
    for (value, sign) in SIGNS {
        while left >= value {
            text.push_str(sign);
            left -= value;
        }
    }
    Some(text)
}

/// Reads roman numerals, small or capital, as [`roman`] writes them; `None` for anything else. A `j` at the end, as
/// in `xij`, is read as an `i`, which is how old prelims have it (from memory).
#[must_use]
pub fn read_roman(text: &str) -> Option<u32> {
    // The longest is mmmdccclxxxviii.
    const LONGEST: usize = 15;
    if text.is_empty() || text.len() > LONGEST || !text.is_ascii() {
        return None;
    }
    let small = text.to_ascii_lowercase();
    let small = match small.strip_suffix('j') {
        Some(stem) => format!("{stem}i"),
        None => small,
    };
    let mut rest = small.as_str();
    let mut number = 0;
    for (value, sign) in SIGNS {
        while let Some(after) = rest.strip_prefix(sign) {
            number += value;
            rest = after;
        }
    }
    // What is not written the common way (`iiii`, `vx`) is no folio that this program prints.
    (rest.is_empty() && roman(number).is_some_and(|again| again == small)).then_some(number)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numerals_are_written_and_read() {
        let all = [1, 4, 9, 14, 40, 49, 90, 400, 1949, 3999].map(|n| roman(n).unwrap());
        assert_eq!(all, ["i", "iv", "ix", "xiv", "xl", "xlix", "xc", "cd", "mcmxlix", "mmmcmxcix"]);
        assert!((1..=MOST_ROMAN).all(|n| read_roman(&roman(n).unwrap()) == Some(n)));
        assert_eq!([roman(0), roman(4_000)], [None, None]);
        assert_eq!(["XII", "xij", "Iv"].map(read_roman), [Some(12), Some(12), Some(4)]);
        for bad in ["", "iiii", "vx", "iix", "12", "xx i", "mmmmm", "ſ", "jj"] {
            assert_eq!(read_roman(bad), None, "{bad}");
        }
    }
}
