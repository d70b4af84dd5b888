//! Signatures against a printed table, and their laws.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::book::{Alphabet, Book, Doubling, Signing, Start, signatures};
use proptest::prelude::*;
use std::collections::BTreeSet;

/// T. MacKellar, *The American Printer* (18th ed., 1893), pp. 215-217, "Table of Signatures": 25 letters, J left out,
/// the second alphabet `2 A`. Each column names the pages of a signature, and ends with the signature and the page
/// below; between them it goes on evenly: signature n stands on page `pages` (n - 1) + 1.
#[test]
fn the_table_of_signatures_of_the_american_printer() {
    let american = Signing { alphabet: Alphabet::American25, start: Start::A, doubling: Doubling::Figure };
    // The letters of the table, reckoned by hand: four alphabets of 25, and of the fifth up to U; two and up to K;
    // three and up to C; one and up to L.
    for (column, pages, last, last_signature, last_page) in [
        ("8vo", 8, 120, "5U", 953),
        ("16mo", 16, 60, "3K", 945),
        ("12mo and 18mo", 12, 78, "4C", 925),
        ("24mo", 24, 36, "2L", 841),
    ] {
        let all = signatures(last, &american).unwrap();
        assert_eq!(all.last().map(String::as_str), Some(last_signature), "{column}");
        let book = Book { runs: Vec::new(), added: Vec::new(), sections: vec![pages; last as usize] };
        assert_eq!(book.first_of(last), last_page, "{column}");
        assert_eq!(
            (all[0].as_str(), all[8].as_str(), all[9].as_str(), all[24].as_str()),
            ("A", "I", "K", "Z"),
            "{column}"
        );
        assert_eq!((all[25].as_str(), all[26].as_str()), ("2A", "2B"), "{column}");
    }
}

/// J. W. Zaehnsdorf, *The Art of Bookbinding* (1890), ch. III, p. 13; D. Cockerell, *Bookbinding and the Care of Books*
/// (1901), p. 43: 23 letters, J, V and W left out; the text begins with B; then AA, BB.
#[test]
fn the_alphabet_of_the_handbooks() {
    let old = Signing { alphabet: Alphabet::Latin23, start: Start::B, doubling: Doubling::Letters };
    let all = signatures(24, &old).unwrap().join(" ");
    assert_eq!(all, "B C D E F G H I K L M N O P Q R S T U X Y Z AA BB");
}

fn any_signing() -> impl Strategy<Value = Signing> {
    let alphabet = prop_oneof![Just(Alphabet::Latin23), Just(Alphabet::American25), Just(Alphabet::Figures)];
    let start = prop_oneof![Just(Start::A), Just(Start::B)];
    let doubling = prop_oneof![Just(Doubling::Figure), Just(Doubling::Letters)];
    (alphabet, start, doubling).prop_map(|(alphabet, start, doubling)| Signing { alphabet, start, doubling })
}

proptest! {
    #[test]
    fn signatures_differ_and_are_read_back(signing in any_signing(), sections in 1..=400_u32) {
        let all = signatures(sections, &signing).unwrap();
        prop_assert_eq!(all.iter().collect::<BTreeSet<_>>().len(), sections as usize);
        for (section, signature) in (1..).zip(&all) {
            let read = signing.section(signature, sections).unwrap();
            prop_assert_eq!((read.section, read.leaf), (section, 1));
            let formula = signing.in_formula(section);
            prop_assert_eq!(signing.section(&formula, sections).unwrap().section, section);
        }
        // One further is refused.
        prop_assert!(signing.section(&signing.signature(sections + 1), sections).is_err());
    }

    #[test]
    fn whatever_is_typed_as_a_signature_is_read_or_refused(signing in any_signing(), text in "[0-9A-Za-z *]{0,12}|.{0,6}") {
        if let Ok(read) = signing.section(&text, 400) {
            prop_assert!((1..=400).contains(&read.section) && read.leaf > 0);
        }
    }
}
