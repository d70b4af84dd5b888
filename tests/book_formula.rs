//! The collational formula: examples in the notation of F. Bowers, *Principles of Bibliographical Description* (1949), and P.
//! Gaskell, *A New Introduction to Bibliography* (1972), both from memory; and what is read back from it.

#![allow(clippy::unwrap_used, clippy::panic, reason = "what tests call may panic as tests may")]

use backmark::book::{Added, Alphabet, Book, Doubling, Folios, Run, Signing, Start, extent_told, formula};
use proptest::prelude::*;

const OLD: Signing = Signing { alphabet: Alphabet::Latin23, start: Start::B, doubling: Doubling::Figure };

fn run(pages: u32, folios: Folios, blank: bool) -> Run {
    Run { name: String::new(), pages, folios, blank }
}

/// An octavo of prelims and 25 gatherings of eight, and one of four: B to Z and 2A to 2D by the alphabet of 23 letters.
fn octavo() -> Book {
    Book {
        runs: vec![
            run(14, Folios::Roman { first: 1 }, false),
            run(2, Folios::Roman { first: 15 }, true),
            run(400, Folios::Arabic { first: 1 }, false),
            run(8, Folios::None, false),
        ],
        added: Vec::new(),
        sections: [[16; 26].as_slice(), &[8]].concat(),
    }
}

#[test]
fn an_octavo() {
    let found = formula(&octavo(), &OLD, 1, Some(8)).unwrap();
    assert_eq!(found.text, "8°: π⁸ B–2C⁸ 2D⁴; 212 leaves; pp. i–xiv, [xv–xvi], 1–400, [8]");
    assert_eq!(
        found.spoken,
        "Octavo: one gathering of 8 leaves, not signed (pi); gatherings B to 2C, 25 of them, of 8 leaves each; gathering 2D of 4 \
         leaves. In all 212 leaves. Pages i to xiv, xv to xvi, blank and counted, 1 to 400 and 8 without a folio."
    );
    assert_eq!(found.notes, Vec::<String>::new());
    let letters = Signing { doubling: Doubling::Letters, ..OLD };
    assert!(formula(&octavo(), &letters, 1, Some(8)).unwrap().text.starts_with("8°: π⁸ B–Cc⁸ Dd⁴;"));
    assert!(formula(&octavo(), &OLD, 2, None).unwrap().text.starts_with("8°: π⁸ 2π⁸ B–2B⁸ 2C⁴;"));
    let all_signed = Signing { start: Start::A, ..OLD };
    assert!(formula(&octavo(), &all_signed, 0, None).unwrap().text.starts_with("8°: A–2C⁸ 2D⁴;"));
}

#[test]
fn what_is_inserted() {
    let mut book = octavo();
    // Behind page 24, the second of the fourth leaf of B; behind the last page of C, two; before the first page; a fold round D.
    book.added = vec![
        Added::Plate { after: 24, pages: 2 },
        Added::Plate { after: 48, pages: 4 },
        Added::Plate { after: 0, pages: 2 },
        Added::Wrap { section: 4, pages: 4 },
        Added::Endpapers { pages: 4 },
    ];
    let found = formula(&book, &OLD, 1, Some(8)).unwrap();
    assert_eq!(
        found.text,
        "8°: π⁸(χ1+π1) B–2C⁸(B4+1; C8+1,2; 2χ1+D1, D8+2χ2) 2D⁴; 212 leaves and 6 inserted; pp. i–xiv, [xv–xvi], 1–400, [8]"
    );
    assert!(found.spoken.contains("2 leaves inserted behind C8"), "{}", found.spoken);
    assert!(found.notes.iter().any(|n| n.contains("Endpapers")));
    let figures = Signing { alphabet: Alphabet::Figures, ..OLD };
    let text = formula(&book, &figures, 1, Some(8)).unwrap().text;
    assert!(text.starts_with("8°: π⁸(χ1+π1) 1–25⁸(1₄+1; 2₈+1,2; 2χ1+3₁, 3₈+2χ2) 26⁴;"), "{text}");
    let told = extent_told(&book).unwrap();
    assert!(told.contains(&"The book has 424 pages on 212 leaves, in 27 sections.".to_owned()));
    assert!(
        told.contains(&"The plate behind page 24, printed 8: page positions don't count it.".to_owned()),
        "{told:?}"
    );
}

#[test]
fn what_is_no_book_is_refused() {
    let at = |book: &Book, unsigned, format| formula(book, &OLD, unsigned, format).unwrap_err().at;
    assert_eq!(at(&octavo(), 28, None), "unsigned");
    assert_eq!(at(&octavo(), 0, Some(0)), "leaves_to_sheet");
    assert_eq!(at(&Book::default(), 0, None), "runs");
}

/// Reads the gatherings of a formula back: how many there are, each with its leaves. The signatures are read by the second way,
/// [`Signing::section`].
fn read_back(text: &str, signing: &Signing, sections: u32, unsigned: u32) -> Vec<u32> {
    let (_, rest) = text.split_once("°: ").unwrap();
    let (gatherings, _) = rest.split_once("; ").unwrap();
    let raised = "⁰¹²³⁴⁵⁶⁷⁸⁹";
    let mut found = Vec::new();
    for word in gatherings.split(' ') {
        let at = word.find(|c| raised.contains(c)).unwrap();
        let (range, leaves) = word.split_at(at);
        let leaves = leaves.chars().fold(0, |n, c| 10 * n + raised.chars().position(|d| d == c).unwrap() as u32);
        let number = |label: &str| match label.strip_suffix('π') {
            Some("") => 1,
            Some(n) => n.parse().unwrap(),
            None => signing.section(label, sections - unsigned).unwrap().section + unsigned,
        };
        let (first, last) = range.split_once('–').unwrap_or((range, range));
        assert_eq!(number(first), found.len() as u32 + 1, "gatherings follow one another: {text}");
        found.extend((number(first)..=number(last)).map(|_| leaves));
    }
    found
}

proptest! {
    #[test]
    fn a_formula_tells_every_gathering(
        leaves in proptest::collection::vec(prop_oneof![4 => Just(8_u32), 1 => Just(4), 1 => 1..=20_u32], 1..120),
        unsigned in 0..3_u32,
        letters in any::<bool>(),
        start_b in any::<bool>(),
        figures in any::<bool>(),
    ) {
        let sections: Vec<u32> = leaves.iter().map(|n| 2 * n).collect();
        let runs = vec![run(sections.iter().sum(), Folios::Arabic { first: 1 }, false)];
        let book = Book { runs, added: Vec::new(), sections };
        let signing = Signing {
            alphabet: if figures { Alphabet::Figures } else { Alphabet::American25 },
            start: if start_b { Start::B } else { Start::A },
            doubling: if letters { Doubling::Letters } else { Doubling::Figure },
        };
        let count = leaves.len() as u32;
        let unsigned = unsigned.min(count);
        let found = formula(&book, &signing, unsigned, None).unwrap();
        prop_assert_eq!(read_back(&found.text, &signing, count, unsigned), leaves.clone(), "{}", found.text);
        let in_all = format!("; {} leaves; ", leaves.iter().sum::<u32>());
        prop_assert!(found.text.contains(&in_all));
    }
}
