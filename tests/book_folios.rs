//! Folios: what is printed on a page is found again; every page has one place in one section.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::book::{Added, Book, Folios, Run, read_roman, roman};
use proptest::prelude::*;

/// Roman numerals up to twenty and some others, as *New Hart's Rules* and every style guide write them (common practice).
#[test]
fn roman_numerals_as_prelims_have_them() {
    let twenty = "i ii iii iv v vi vii viii ix x xi xii xiii xiv xv xvi xvii xviii xix xx";
    let written: Vec<String> = (1..=20).map(|n| roman(n).unwrap()).collect();
    assert_eq!(written.join(" "), twenty);
    assert_eq!([24, 29, 44, 99, 100].map(|n| roman(n).unwrap()), ["xxiv", "xxix", "xliv", "xcix", "c"]);
}

fn any_run() -> impl Strategy<Value = Run> {
    let folios = prop_oneof![
        (1..50_u32).prop_map(|first| Folios::Roman { first }),
        (1..50_u32).prop_map(|first| Folios::RomanCapitals { first }),
        (1..500_u32).prop_map(|first| Folios::Arabic { first }),
        Just(Folios::None),
    ];
    (1..60_u32, folios, any::<bool>()).prop_map(|(pages, folios, blank)| Run {
        name: String::new(),
        pages,
        folios,
        blank,
    })
}

/// Runs, filled up with blank pages to whole leaves, and sections of 2 to 32 pages that hold them.
fn any_book() -> impl Strategy<Value = Book> {
    (proptest::collection::vec(any_run(), 1..8), proptest::collection::vec(1..=16_u32, 400)).prop_map(
        |(mut runs, leaves)| {
            let pages: u32 = runs.iter().map(|r| r.pages).sum();
            if pages % 2 == 1 {
                runs.push(Run { name: String::new(), pages: 1, folios: Folios::None, blank: true });
            }
            let mut left = pages.div_ceil(2);
            let mut sections = Vec::new();
            for most in leaves {
                let taken = most.min(left);
                left -= taken;
                sections.extend((taken > 0).then_some(2 * taken));
            }
            Book { runs, added: vec![Added::Plate { after: 2, pages: 2 }], sections }
        },
    )
}

proptest! {
    #[test]
    fn a_folio_is_found_where_it_is_printed(book in any_book()) {
        prop_assert_eq!(book.check(), Ok(()));
        let printed: Vec<(u32, String)> = (1..=book.pages()).filter_map(|p| Some((p, book.folio(p)?))).collect();
        for (position, folio) in &printed {
            prop_assert!(book.positions_of(folio).contains(position));
            prop_assert!(book.say(*position).ends_with(folio.as_str()));
        }
        // And nowhere else: a second way of finding, page by page. Roman numerals count in both cases.
        for folio in ["i", "V", "12", "60", "499"] {
            let same = |f: &str| f.eq_ignore_ascii_case(folio);
            let by_page: Vec<u32> = printed.iter().filter(|(_, f)| same(f)).map(|(p, _)| *p).collect();
            prop_assert_eq!(book.positions_of(folio), by_page);
        }
    }

    #[test]
    fn every_page_lies_once_in_one_section(book in any_book()) {
        let mut position = 0;
        for (section, pages) in (1..).zip(&book.sections) {
            prop_assert_eq!(book.first_of(section), position + 1);
            for page in 1..=*pages {
                position += 1;
                prop_assert_eq!(book.section_of(position), Some((section, page)));
            }
            prop_assert_eq!(book.last_of(section), Some(position));
        }
        prop_assert_eq!(position, book.pages());
        prop_assert_eq!((book.section_of(0), book.section_of(position + 1)), (None, None));
    }

    #[test]
    fn no_book_and_no_text_make_it_stop(
        runs in proptest::collection::vec((any::<u32>(), any::<u32>(), 0..4_u8), 0..4),
        sections in proptest::collection::vec(any::<u32>(), 0..4),
        added in (any::<u32>(), any::<u32>(), 0..3_u8),
        position in any::<u32>(),
        text in "[0-9ivxlcdmIVXj]{0,18}|.{0,8}",
    ) {
        let folios = |first, kind| match kind {
            0 => Folios::Roman { first },
            1 => Folios::RomanCapitals { first },
            2 => Folios::Arabic { first },
            _ => Folios::None,
        };
        let runs = runs.into_iter().map(|(pages, first, kind)| {
            Run { name: text.clone(), pages, folios: folios(first, kind), blank: false }
        });
        let (a, b, kind) = added;
        let added = match kind {
            0 => Added::Plate { after: a, pages: b },
            1 => Added::Wrap { section: a, pages: b },
            _ => Added::Endpapers { pages: b },
        };
        let book = Book { runs: runs.collect(), added: vec![added], sections };
        let _ = (book.check(), book.say(position), book.folio(position), book.find(&text), book.say_added(added));
        let _ = (book.section_of(position), book.first_of(position), book.last_of(position));
        if let Some(n) = read_roman(&text) {
            prop_assert_eq!(roman(n).map(|r| r.replace('j', "i")), Some(text.to_ascii_lowercase().replace('j', "i")));
        }
    }
}
