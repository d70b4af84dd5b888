//! Letters without accents and without case, so that `Rücken`, `rucken` and `RÜCKEN` are found alike.

/// A text in small plain letters.
pub(super) fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars().flat_map(char::to_lowercase) {
        match letters(c) {
            Some(letters) => out.push_str(letters),
            None => out.push(c),
        }
    }
    out
}

/// The plain letters of an accented one of German, French, or Japanese written in Latin letters. Accents that stand as
/// signs of their own are left out.
const fn letters(c: char) -> Option<&'static str> {
    Some(match c {
        'à' | 'á' | 'â' | 'ã' | 'ä' | 'å' | 'ā' => "a",
        'ç' => "c",
        'è' | 'é' | 'ê' | 'ë' | 'ē' => "e",
        'ì' | 'í' | 'î' | 'ï' | 'ī' => "i",
        'ñ' => "n",
        'ò' | 'ó' | 'ô' | 'õ' | 'ö' | 'ō' => "o",
        'ù' | 'ú' | 'û' | 'ü' | 'ū' => "u",
        'ý' | 'ÿ' => "y",
        'ß' => "ss",
        'æ' => "ae",
        'œ' => "oe",
        '\u{300}'..='\u{36f}' => "",
        '\u{2019}' => "'",
        '\u{2010}' | '\u{2011}' => "-",
        _ => return None,
    })
}

/// The words of a text with their places in bytes: runs of letters and figures. A hyphen or one space lets a phrase go on; `joined`
/// says of each word whether it goes on from the one before.
pub(super) fn tokens(text: &str) -> Vec<Token> {
    let mut all: Vec<Token> = Vec::new();
    let mut from = None;
    let mut end_before = 0;
    for (at, c) in text.char_indices().chain([(text.len(), ' ')]) {
        let inside = c.is_alphanumeric() || ('\u{300}'..='\u{36f}').contains(&c);
        match (inside, from) {
            (true, None) => from = Some(at),
            (false, Some(start)) => {
                let between = text.get(end_before..start).unwrap_or_default();
                let joined = !all.is_empty() && matches!(between, " " | "-" | "\u{2010}" | "\u{2011}" | "\u{a0}");
                all.push(Token { from: start, to: at, joined, plain: plain(text.get(start..at).unwrap_or_default()) });
                (from, end_before) = (None, at);
            }
            _ => {}
        }
    }
    all
}

/// One word of a text.
pub(super) struct Token {
    pub from: usize,
    pub to: usize,
    pub joined: bool,
    pub plain: String,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn accents_and_case_are_folded() {
        assert_eq!(plain("Rücken RÜCKEN Bru\u{308}cke Fuß œuvre ranchō"), "rucken rucken brucke fuss oeuvre rancho");
    }

    #[test]
    fn words_know_their_places_and_what_they_go_on_from() {
        let all = tokens("Zig-zag folds; the fore-edge.");
        let plains: Vec<_> = all.iter().map(|t| (t.plain.as_str(), t.joined)).collect();
        let expected = [("zig", false), ("zag", true), ("folds", true), ("the", false), ("fore", true), ("edge", true)];
        assert_eq!(plains, expected);
        assert_eq!((all[2].from, all[2].to), (8, 13));
        assert!(tokens("").is_empty());
    }
}
