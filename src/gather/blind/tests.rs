use super::*;
use crate::marks::{AfterWrap, Design, Inset};

fn six_mm(levels: u32) -> BackMarks {
    Design { spine_mm: 216.0, first_mm: 30.0, step_mm: 6.0, length_mm: 6.0, levels }.into()
}

fn report(sections: u32, marks: &BackMarks) -> BlindSpots {
    blind_spots(sections, marks, &Backs::default(), "Almanac").unwrap()
}

fn spot(report: &BlindSpots, why: Why) -> &Spot {
    report.spots.iter().find(|spot| spot.why == why).unwrap_or_else(|| panic!("{why:?} in {report:#?}"))
}

fn whys(report: &BlindSpots) -> Vec<Why> {
    report.spots.iter().map(|spot| spot.why).collect()
}

#[test]
fn the_default_has_only_what_every_design_has() {
    assert_eq!(short(20, &BackMarks::default()).len(), 3);
    let report = report(20, &BackMarks::default());
    assert_eq!(whys(&report), [Why::NoGap, Why::BlankBack, Why::ForeignAlike, Why::PressFault]);
    assert_eq!(report.misfits, Vec::<String>::new());
}

#[test]
fn levels_shared_and_mirrored() {
    let design = Design { spine_mm: 100.0, first_mm: 25.0, step_mm: 10.0, length_mm: 10.0, levels: 5 };
    let says = short(6, &design.into());
    assert!(says.contains(&"Sections that share a level, one for the other: (1 and 6).".to_owned()));
    assert!(says.contains(&"Section 3 head to tail: the mark stands at mid-height either way.".to_owned()));
    assert!(says[5].starts_with("Sections 1, 2 and 4 to 6 head to tail"), "{says:?}");
    let report = report(6, &design.into());
    assert_eq!(spot(&report, Why::SharedLevel).sections, [1, 6]);
    assert_eq!(spot(&report, Why::MidHeight).sections, [3]);
    // Every sentence under a verdict is in the report, word for word.
    let titles = report.spots.iter().map(|spot| spot.title.clone()).collect::<Vec<_>>();
    assert!(says.iter().all(|line| titles.contains(line)), "{says:?} {titles:?}");
}

#[test]
fn twenty_five_sections_on_twenty_four_levels() {
    let report = report(25, &six_mm(24));
    let shared = spot(&report, Why::SharedLevel);
    assert_eq!(shared.title, "Sections that share a level, one for the other: (1 and 25).");
    let change = shared.change.as_ref().unwrap();
    assert!(!whys(&blind_spots(25, &change.marks, &Backs::default(), "").unwrap()).contains(&Why::SharedLevel));
}

#[test]
fn a_missing_end_shows_by_longer_bars() {
    let report = report(24, &six_mm(24));
    let gap = spot(&report, Why::NoGap);
    assert_eq!(gap.sections, [1, 24]);
    assert!(gap.examples[0].says.contains("Section 1 missing"), "{gap:?}");
    let change = gap.change.as_ref().unwrap();
    assert_eq!(change.marks.ends_mm, Some(12.0), "{change:?}");
    assert_eq!(change.says, "Print bars of 12 mm on the first and the last section.");
}

#[test]
fn a_turned_section_at_mid_height_is_removed_by_a_shift() {
    // Twenty steps of 6 mm about the middle of 216 mm: sections 13 and 14 of 26 mirror each other.
    let design = Design { spine_mm: 216.0, first_mm: 33.0, step_mm: 6.0, length_mm: 6.0, levels: 25 };
    let report = report(25, &design.into());
    let middle = spot(&report, Why::MidHeight);
    assert_eq!(middle.sections, [13]);
    assert_eq!(middle.look_right, 1);
    assert!(middle.examples[0].read_as.contains("right book"), "{middle:?}");
    let change = middle.change.as_ref().unwrap();
    assert!((change.marks.stairs.first_mm - 33.0).abs() <= 1.5, "{change:?}");
    assert!(spot(&report, Why::TurnedOntoAnother).change.is_some());
}

#[test]
fn another_book_marked_alike_wants_a_title() {
    let report = report(20, &BackMarks::default());
    let foreign = spot(&report, Why::ForeignAlike);
    assert_eq!(foreign.look_right, 20);
    let label = foreign.change.as_ref().and_then(|change| change.marks.label.as_ref());
    assert_eq!(label.map(|label| label.title.as_str()), Some("Almanac"), "{foreign:?}");
    for why in [Why::BlankBack, Why::PressFault] {
        assert!(spot(&report, why).change.is_none());
    }
}

#[test]
fn inner_sheets_want_bars_at_the_head() {
    let marks = BackMarks { inset: Inset::Sheets { sheets: 2, head: None }, ..BackMarks::default() };
    let report = report(12, &marks);
    let inner = spot(&report, Why::InnerSheet);
    assert_eq!(inner.look_right, 48);
    let change = inner.change.as_ref().unwrap();
    assert!(matches!(change.marks.inset, Inset::Sheets { head: Some(_), .. }), "{change:?}");
    // A missing inner sheet and one that lies head to tail both leave the head blank: told by its own report.
    assert!(short(12, &marks).iter().any(|line| line.contains("inner sheet")));
}

#[test]
fn a_small_step_wants_a_wider_one() {
    let design = Design { spine_mm: 216.0, first_mm: 20.0, step_mm: 3.0, length_mm: 3.0, levels: 30 };
    let report = report(30, &design.into());
    let scatter = spot(&report, Why::Scatter);
    assert!(scatter.title.starts_with("A step of 3 mm is small"), "{scatter:?}");
    assert!(scatter.change.as_ref().unwrap().marks.stairs.step_mm >= 4.16, "{scatter:?}");
}

#[test]
fn the_largest_books_are_answered() {
    let wide = BackMarks { after_wrap: AfterWrap::Column { apart_mm: 2.5 }, ..six_mm(24) };
    for sections in [1, 2, 45] {
        let report = report(sections, &wide);
        assert!(report.acted > 0 && report.acted < 30_000, "{sections}: {}", report.acted);
    }
    assert_eq!(blind_spots(100, &wide, &Backs::default(), "").unwrap_err().at, "sections");
    assert_eq!(blind_spots(401, &wide, &Backs::default(), "").unwrap_err().at, "sections");
    assert_eq!(blind_spots(99, &six_mm(99), &Backs::default(), "").unwrap_err().at, "marks.levels");
}
