//! Forms of English words: the plural, and of verbs the usual endings. Others stand in the file of words.

/// The forms of a phrase: only its last word changes. The phrase itself comes first.
pub(super) fn forms(phrase: &str, verb: bool) -> Vec<String> {
    let mut all = vec![phrase.to_owned(), plural(phrase)];
    if verb {
        let (stem, doubled) = match phrase.strip_suffix('e') {
            Some(stem) => (stem.to_owned(), String::new()),
            None => (phrase.to_owned(), doubled(phrase)),
        };
        all.extend(["ed", "ing"].map(|end| format!("{stem}{doubled}{end}")));
    }
    all
}

fn plural(word: &str) -> String {
    let hissing = ["s", "x", "z", "ch", "sh"].iter().any(|end| word.ends_with(end));
    match word.strip_suffix('y') {
        Some(stem) if !stem.ends_with(['a', 'e', 'i', 'o', 'u']) => format!("{stem}ies"),
        _ if hissing => format!("{word}es"),
        _ => format!("{word}s"),
    }
}

/// The last letter once more where it stands alone behind a short vowel: trim, trimmed.
fn doubled(word: &str) -> String {
    let mut back = word.chars().rev();
    let vowel = |c: char| "aeiou".contains(c);
    match (back.next(), back.next(), back.next()) {
        (Some(last), Some(middle), Some(before)) if "bdgmnpt".contains(last) && vowel(middle) && !vowel(before) => {
            last.to_string()
        }
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn endings_as_they_are_spelt() {
        assert_eq!(forms("trim", true), ["trim", "trims", "trimmed", "trimming"]);
        assert_eq!(forms("perforate", true), ["perforate", "perforates", "perforated", "perforating"]);
        assert_eq!(forms("fold", true), ["fold", "folds", "folded", "folding"]);
        assert_eq!(forms("kettle stitch", false), ["kettle stitch", "kettle stitches"]);
        assert_eq!(plural("delivery"), "deliveries");
        assert_eq!(plural("lay"), "lays");
    }
}
