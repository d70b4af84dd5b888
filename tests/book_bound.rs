//! Block and case, against sums by hand.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::book::{Added, Back, Binding, Book, Folios, Run, bound};
use backmark::finish::{Severity, Size};
use backmark::paper::{Grain, Length, Stock};
use proptest::prelude::*;

fn mm(v: f64) -> Length {
    Length::from_mm(v)
}

fn book(sections: &[u32]) -> Book {
    let run =
        Run { name: "text".into(), pages: sections.iter().sum(), folios: Folios::Arabic { first: 1 }, blank: false };
    Book { runs: vec![run], added: Vec::new(), sections: sections.to_vec() }
}

fn demy() -> Binding {
    let page = Size { width: mm(138.0), height: mm(216.0) };
    Binding::usual(page, Stock { grammage: 80.0, bulk: 1.25, grain: Grain::Upright })
}

/// Pages × g/m² × volume / 20,000 cm is the bulk (from memory; ISO 534 for volume): 320 pages of 80 g/m² at 1.25 are 16.0 mm, 360
/// pages 18.0 mm. A hundred pages at 1.5 are 6.0 mm (dcc-kaestl.com, whose own factors give that).
#[test]
fn bulk_of_a_block() {
    assert_eq!(bound(&book(&[32; 10]), &demy()).unwrap().bulk, mm(16.0));
    assert_eq!(bound(&book(&[&[32; 11][..], &[8]].concat()), &demy()).unwrap().bulk, mm(18.0));
    let thicker = Binding { stock: Stock { bulk: 1.5, ..demy().stock }, ..demy() };
    assert_eq!(bound(&book(&[20; 5]), &thicker).unwrap().bulk, mm(6.0));
}

/// Plates, wraps and endpapers by hand: 160 leaves of 0.1 mm, 3 more, and four leaves of 0.144 mm.
#[test]
fn what_is_added_adds_to_the_block() {
    let mut with = book(&[32; 10]);
    with.added =
        vec![Added::Plate { after: 2, pages: 2 }, Added::Wrap { section: 3, pages: 4 }, Added::Endpapers { pages: 4 }];
    let found = bound(&with, &demy()).unwrap();
    assert_eq!((found.bulk, found.block), (mm(16.3), mm(16.876)));
}

/// D. Cockerell, *Bookbinding and the Care of Books* (1901), p. 119: twenty sections swell by twenty threads.
#[test]
fn swell_of_a_back() {
    let found = bound(&book(&[16; 20]), &demy()).unwrap();
    assert_eq!((found.swell, found.back), (mm(6.0), mm(22.0)));
    let says = |b: &Binding| {
        let found = bound(&book(&[16; 20]), b).unwrap().findings;
        found.into_iter().find(|f| f.says.starts_with("Thread swells")).unwrap()
    };
    // 6 of 16 mm are 37.5 %, above the 30 % that are borne.
    let mind = says(&demy());
    assert!(mind.severity == Severity::Mind && mind.says.contains("37.5 %"), "{mind:?}");
    let nipped = says(&Binding { nipped_percent: 50.0, ..demy() });
    assert!(nipped.severity == Severity::Fine && nipped.reckoned.contains("= 3 mm; 16 + 3 = 19 mm"), "{nipped:?}");
}

/// A case by hand, hand binders' joint: the board is as wide as the block, the cloth 2 × 138 + 24 + 2 × 3 + 2 × 15 mm.
#[test]
fn a_flat_case() {
    let found = bound(&book(&[32; 10]), &demy()).unwrap();
    assert_eq!((found.swell, found.back), (mm(3.0), mm(19.0)));
    assert_eq!((found.board.width, found.board.height), (mm(138.0), mm(222.0)));
    assert_eq!((found.strip.width, found.cloth.width, found.cloth.height), (mm(24.0), mm(336.0), mm(252.0)));
    // Machines for flat backs: a joint of 7 mm makes the board 4 mm narrower than the block.
    let machine = bound(&book(&[32; 10]), &Binding { joint: Some(mm(7.0)), ..demy() }).unwrap();
    assert_eq!(machine.board.width, mm(134.0));
    assert_eq!(machine.cloth.width, mm(2.0 * 134.0 + 24.0 + 14.0 + 30.0));
    let wide = bound(&book(&[32; 10]), &Binding { square: mm(9.0), ..demy() }).unwrap();
    assert!(wide.findings.iter().any(|f| f.severity == Severity::Mind && f.says.contains("unusual")));
}

/// A third of a circle, by its angles: chord c, radius c / (2 sin 60°), arc 2π/3 times that, rise radius × (1 − cos 60°).
#[test]
fn a_round_back() {
    let found = bound(&book(&[32; 10]), &Binding { back: Back::Round, ..demy() }).unwrap();
    let radius = 24.0 / (2.0 * 60_f64.to_radians().sin());
    let arc = radius * 120_f64.to_radians();
    let rise = radius * (1.0 - 60_f64.to_radians().cos());
    assert!((found.strip.width.mm() - arc).abs() < 1e-5, "{:?} {arc}", found.strip);
    assert!((found.rise.mm() - rise).abs() < 1e-5);
}

#[test]
fn what_is_no_binding_is_refused() {
    let at = |b: Binding| bound(&book(&[32]), &b).unwrap_err().at;
    assert_eq!(at(Binding { thread: mm(6.0), ..demy() }), "thread_mm");
    assert_eq!(at(Binding { nipped_percent: f64::NAN, ..demy() }), "nipped_percent");
    assert_eq!(at(Binding { board: mm(-1.0), ..demy() }), "board_mm");
    assert_eq!(at(Binding { stock: Stock { bulk: 9.0, ..demy().stock }, ..demy() }), "paper");
    let narrow = Size { width: mm(12.0), ..demy().page };
    assert_eq!(at(Binding { page: narrow, joint: Some(mm(40.0)), ..demy() }), "joint_mm");
    assert_eq!(bound(&Book::default(), &demy()).unwrap_err().at, "runs");
}

proptest! {
    #[test]
    fn the_cloth_covers_the_case(
        sections in proptest::collection::vec((1..=16_u32).prop_map(|n| 4 * n), 1..40),
        grammage in 30.0..200.0_f64,
        round in any::<bool>(),
        square in 0..6_i64,
        joint in proptest::option::of(0..10_i64),
    ) {
        let b = Binding {
            stock: Stock { grammage, ..demy().stock },
            back: if round { Back::Round } else { Back::Flat },
            square: Length::from_whole_mm(square),
            joint: joint.map(Length::from_whole_mm),
            ..demy()
        };
        let found = bound(&book(&sections), &b).unwrap();
        // From fore-edge to fore-edge, the boards with the joints are as wide as the block and its squares.
        let side = found.board.width + found.joint;
        prop_assert_eq!(side, b.page.width + b.square);
        prop_assert_eq!(found.cloth.width, side.times(2) + found.strip.width + b.turn_in.times(2));
        prop_assert!(found.strip.width >= found.back + b.board.times(2) && found.back >= found.block && found.block >= found.bulk);
        prop_assert!(found.findings.iter().all(|f| !f.says.is_empty() && !f.source.is_empty()));
    }
}
