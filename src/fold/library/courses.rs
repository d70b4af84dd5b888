//! Courses at hand by their trade names: sheets folded whole, with off-cuts and insets, half-sheets, sheets of several
//! sections.
//!
//! Names are the trade's. Where a layout is printed in a handbook, a test compares it; the others are common practice, no
//! source, unless one is named. `notation.rs` says how the steps are written. In the last column the pieces are put together: `1>0` is
//! piece 0 in the middle of piece 1, sections stand one after the other, copies apart by `/`.

use super::notation;
use crate::fold::course::{Course, Nest};
use crate::fold::scheme::Reads;

/// What a course belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Family {
    /// Sheets folded whole into one section.
    Whole,
    /// Leaflets, whose panels open out.
    Leaflet,
    /// An off-cut, or another piece, laid into the middle.
    Inset,
    /// Several sections from one sheet.
    Several,
    /// One forme prints both sides; the sheet gives two copies.
    HalfSheet,
    /// Two copies of each section, head to head.
    TwoUp,
    /// The spine on the short side.
    Oblong,
    /// Read from right to left.
    RightToLeft,
}

impl Family {
    /// All, in the order of a list.
    pub const ALL: [Self; 8] = [
        Self::Whole,
        Self::Inset,
        Self::Several,
        Self::HalfSheet,
        Self::TwoUp,
        Self::Leaflet,
        Self::Oblong,
        Self::RightToLeft,
    ];

    /// What it is called.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Whole => "Folded whole",
            Self::Leaflet => "Leaflets",
            Self::Inset => "Off-cuts and insets",
            Self::Several => "Several sections from one sheet",
            Self::HalfSheet => "Half-sheets",
            Self::TwoUp => "Two-up",
            Self::Oblong => "Oblong",
            Self::RightToLeft => "Right to left",
        }
    }
}

/// A course and what the trade calls it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NamedCourse {
    /// Its trade name.
    pub name: &'static str,
    /// What it belongs to.
    pub family: Family,
    /// The course.
    pub course: Course,
    /// Whether its pages are wider than high.
    pub oblong: bool,
}

type Line = (Family, &'static str, [u32; 2], &'static str, &'static str);

use Family::{HalfSheet, Inset, Leaflet, Oblong, RightToLeft, Several, TwoUp, Whole};

const LINES: &[Line] = &[
    (Whole, "Four, one fold", [1, 2], "R1", "0"),
    (Whole, "Eight, two right-angle folds", [2, 2], "T1 R1", "0"),
    (Whole, "Eight, two parallel folds", [1, 4], "R2 R1", "0"),
    (Whole, "Twelve, letter fold and right angle", [3, 2], "B2 T1 R1", "0"),
    (Whole, "Twelve, zig-zag and right angle", [3, 2], "B2 b1 R1", "0"),
    (Whole, "Sixteen, three folds", [2, 4], "R2 T1 R1", "0"),
    (Whole, "Sixteen, two parallel and right angle", [4, 2], "T2 T1 R1", "0"),
    (Whole, "Sixteen, right angle and two parallel", [2, 4], "T1 R2 R1", "0"),
    (Whole, "Sixteen, imposed from the centre", [2, 4], "r2 b1 R1_", "0"),
    (Whole, "Twenty-four, letter fold and two right angles", [2, 6], "R4 L2 T1 R1", "0"),
    (Whole, "Twenty-four, twelves without cutting", [3, 4], "B1 B1 R2 r1_", "0"),
    (Whole, "Thirty-two, four right-angle folds", [4, 4], "T2 R2 T1 R1", "0"),
    (Whole, "Thirty-two, three right-angle and parallel", [2, 8], "R4 T1 R2 R1", "0"),
    // Concertina, envelope and right-angle folds: Roberts and Etherington, Bookbinding and the Conservation of Books,
    // "eighteenmo".
    (Whole, "Thirty-six, zig-zag, letter fold and right angle", [3, 6], "R4 r2 B2 T1 R1", "0"),
    (Whole, "Sixty-four, five folds", [4, 8], "T2 R4 T1 R2 R1", "0"),
    (Inset, "Folios quired, two", [2, 2], "-1(R1; R1)", "1>0"),
    (
        Inset,
        "Folios quired, nine",
        [9, 2],
        "-1(R1; -1(R1; -1(R1; -1(R1; -1(R1; -1(R1; -1(R1; -1(R1; R1))))))))",
        "8>7>6>5>4>3>2>1>0",
    ),
    (Inset, "Octavo, twelve and four of other matter", [2, 4], "|2(T1 R1; -1(R1_; r1))", "2>0 1"),
    (Inset, "Twelves, off-cut inset", [3, 4], "-1(l2 L1_; r2 T1 R1)", "1>0"),
    (Inset, "Twelves from the centre, off-cut inset", [3, 4], "-1(r2 R1_; l2 T1 L1)", "1>0"),
    (Inset, "Twenty-four, sixteen with eight inset", [3, 4], "-1(R2 R1; R2 T1 R1)", "1>0"),
    (Inset, "Thirty-two, sixteen in sixteen", [4, 4], "-2(R2 T1 R1; R2 T1 R1)", "1>0"),
    (Inset, "Eighteens, cut and inset", [3, 6], "|2(-1(r1_; T1 R1); -1(l1 L1 L1_; r2 T1 R1))", "3>2>1>0"),
    (Inset, "Forty-eight, thirty-two with sixteen inset", [6, 4], "-2(R2 T1 R1; T2 R2 T1 R1)", "1>0"),
    (Several, "Two eights", [2, 4], "|2(T1 R1; T1 R1)", "0 1"),
    (Several, "Double sixteen, two sixteens", [2, 8], "|4(R2 T1 R1; R2 T1 R1)", "0 1"),
    (Several, "Double sixteen, laid together before the last fold", [4, 4], "R2 T1 B2 -1T(R1)", "0"),
    (
        Several,
        "Quadruple sixteen, four sixteens",
        [4, 8],
        "|4(-2(R2 T1 R1; R2 T1 R1); -2(R2 T1 R1; R2 T1 R1))",
        "0 1 2 3",
    ),
    (
        Several,
        "Quadruple sixteen, two thirty-twos by insets",
        [4, 8],
        "|4(-2(R2 T1 R1; R2 T1 R1); -2(R2 T1 R1; R2 T1 R1))",
        "0>1 2>3",
    ),
    (Several, "Two thirty-twos", [4, 8], "|4(T2 R2 T1 R1; T2 R2 T1 R1)", "0 1"),
    (
        Several,
        "Twenty-fours, two sections, off-cuts inset",
        [3, 8],
        "|4(-1(l2 L1_; r2 T1 R1); -1(l2 L1_; r2 T1 R1))",
        "3>2 1>0",
    ),
    (
        Several,
        "Sixty-four to a side, four thirty-twos",
        [8, 8],
        "|4(-4(T2 R2 T1 R1; T2 R2 T1 R1); -4(T2 R2 T1 R1; T2 R2 T1 R1))",
        "0 1 2 3",
    ),
    (
        Several,
        "Sixty-four to a side, eight sixteens",
        [8, 8],
        "|4(-4(-2(R2 T1 R1; R2 T1 R1); -2(R2 T1 R1; R2 T1 R1)); -4(-2(R2 T1 R1; R2 T1 R1); -2(R2 T1 R1; R2 T1 R1)))",
        "0 1 2 3 4 5 6 7",
    ),
    (HalfSheet, "Folio, half-sheet", [2, 2], "-1(R1_; r1)", "0 / 1"),
    (HalfSheet, "Quarto, two half-sheets worked together", [2, 2], "-1(R1_; r1)", "1 0"),
    (HalfSheet, "Octavo, half-sheet", [2, 4], "|2(T1 R1; b1 R1_)", "0 / 1"),
    (HalfSheet, "Octavo, half-sheet, tumbled", [4, 2], "-2(T1 R1; b1 r1_)", "0 / 1"),
    (HalfSheet, "Octavo, half-sheet from the centre", [2, 4], "|2(b1 R1_; T1 R1)", "0 / 1"),
    (HalfSheet, "Octavo, two quarters worked together", [2, 4], "|2(-1(r1_; R1); -1(R1_; r1))", "2 0 / 3 1"),
    (HalfSheet, "Octavo, two quarters from the centre", [2, 4], "|2(-1(R1_; r1); -1(r1_; R1))", "0 2 / 1 3"),
    (HalfSheet, "Twelves, half-sheet without cutting", [3, 4], "|2(t1 T1 R1; B1 B1 R1_)", "0 / 1"),
    (
        HalfSheet,
        "Twelves, half-sheet from the centre, off-cut inset",
        [3, 4],
        "|2(-1(r1_; B1 R1_); -1(R1_; t1 R1))",
        "1>0 / 3>2",
    ),
    (HalfSheet, "Sixteens, half-sheet", [4, 4], "-2(L2 B1 L1_; r2 T1 R1)", "0 / 1"),
    (HalfSheet, "Sixteens, half-sheet, turned", [2, 8], "|4(R2 T1 R1; l2 t1 l1)", "0 / 1"),
    (
        HalfSheet,
        "Eighteens, half-sheet of sixteen pages",
        [3, 6],
        "|2(-1(R1_; T1 R1); |2(-1(; -1(R1_; r1)); -1(r1_; b1 R1_)))",
        "1>0>3 / 6>5>4",
    ),
    (
        HalfSheet,
        "Eighteens, half-sheet with three single leaves",
        [3, 6],
        "|2(-1(r1_; T1 R1); |1(-1(; -1(; )); |1(-1(; -1(; )); -1(R1_; b1 R1_))))",
        "1>0 4 3 2 / 9>8 7 6 5",
    ),
    (
        HalfSheet,
        "Twenties, half-sheet of two sections",
        [4, 5],
        "|2(-2(R1 B1; l1 B1<); |1(-2(b1<; B1<); -2(r1 B1; L1 B1<)))",
        "0>2 4 / 1>3 5",
    ),
    (
        HalfSheet,
        "Twenty-fours, half-sheet, off-cut inset",
        [3, 8],
        "|4(-1(L2 L1_; R2 T1 R1); -1(l2 L1_; r2 T1 R1))",
        "1>0 / 3>2",
    ),
    (HalfSheet, "Twenty-fours, half-sheet the sixteen way", [4, 6], "-2(L4 B1 R3 R2 R1_; r4 T1 L1 L1 L1)", "0 / 1"),
    (
        HalfSheet,
        "Twenty-fours, half-sheet without inset",
        [4, 6],
        "|2(-2(B1 R1_; b1 R1_); -2(B1 L2 L1_; b1 L2 L1_))",
        "2 0 / 3 1",
    ),
    (
        HalfSheet,
        "Twenty-fours, half-sheet without inset, off-cut above",
        [3, 8],
        "|4(-1(l2 L1_; R2 T1 R1); -1(L2 L1_; r2 T1 R1))",
        "1 0 / 3 2",
    ),
    (HalfSheet, "Twenty-fours, half-sheet without cutting", [3, 8], "|4(t1 T1 R2 R1; B1 B1 L2 L1_)", "0 / 1"),
    (HalfSheet, "Thirty-twos, half-sheet", [4, 8], "|4(T2 R2 T1 R1; b2 L2 B1 L1_)", "0 / 1"),
    (HalfSheet, "Thirty-twos, half-sheet, tumbled", [8, 4], "-4(T2 R2 T1 R1; b2 r2 b1 r1_)", "0 / 1"),
    (
        HalfSheet,
        "Thirty-twos, half-sheet of twenty, four and eight",
        [4, 8],
        "|4(-2(|2(-1(r1_; R1); t1 R1); R2 T1 R1); -2(|2(B1 R1_; -1(R1_; r1)); r2 T1 R1))",
        "3 0 2 1 / 7 5 4 6",
    ),
    (
        HalfSheet,
        "Thirty-twos, half-sheet of twenty, eight and four",
        [4, 8],
        "|4(-2(|2(t1 R1; -1(r1_; R1)); R2 T1 R1); -2(|2(-1(R1_; r1); B1 R1_); r2 T1 R1))",
        "3 2 1 0 / 7 5 4 6",
    ),
    (
        HalfSheet,
        "Thirty-sixes, half-sheet, cut and inset",
        [6, 6],
        "|2(-4(B2 R1 B1; l1 B1<); |1(-4(t2 T1<; B1<); |1(-4(B2 B1; b1); -4(t2 L1 T1<; L1 B1<))))",
        "0>2>1>3 / 6>4>7>5",
    ),
    (
        HalfSheet,
        "Forty-eights, half-sheet of two sections",
        [6, 8],
        "|4(-2(L2 B1 L1_; -1(R2 R1; -1(l2 L1_; r2 T1 R1))); -2(L2 B1 L1_; -1(R2 R1; -1(l2 L1_; r2 T1 R1))))",
        "4>5 0>1 / 7>6 3>2",
    ),
    (HalfSheet, "Sixty-fours, half-sheet", [8, 8], "-4(B2 L4 B1 L2 L1_; b2 L4 B1 L2 L1_)", "0 / 1"),
    (
        HalfSheet,
        "Ninety-sixes, half-sheet of six sections",
        [6, 16],
        "|4(-2(l2 B1 L1_; -2(l2 B1 L1_; R2 T1 R1)); |4(-2(L2 B1 L1_; -2(L2 B1 L1_; r2 T1 R1)); |4(-2(l2 B1 L1_; -2(l2 B1 L1_; R2 T1 R1)); -2(L2 B1 L1_; -2(L2 B1 L1_; r2 T1 R1)))))",
        "2 5 4 1 0 3 / 11 8 7 10 9 6",
    ),
    (
        HalfSheet,
        "Hundred and twenty-eights, half-sheet of eight sections",
        [8, 16],
        "|4(-2(l2 B1 L1_; -2(l2 B1 L1_; -2(l2 B1 L1_; R2 T1 R1))); |4(-2(L2 B1 L1_; -2(L2 B1 L1_; -2(L2 B1 L1_; r2 T1 R1))); |4(-2(l2 B1 L1_; -2(l2 B1 L1_; -2(l2 B1 L1_; R2 T1 R1))); -2(L2 B1 L1_; -2(L2 B1 L1_; -2(L2 B1 L1_; r2 T1 R1))))))",
        "3 7 6 2 1 5 4 0 / 15 11 10 14 13 9 8 12",
    ),
    (TwoUp, "Come-and-go, two eights head to head", [4, 2], "-2(B1 L1_; T1 R1)", "0 / 1"),
    (TwoUp, "Come-and-go, two sixteens head to head", [4, 4], "-2(L2 B1 L1_; R2 T1 R1)", "0 / 1"),
    (TwoUp, "Come-and-go, two thirty-twos head to head", [8, 4], "-4(B2 L2 B1 L1_; T2 R2 T1 R1)", "0 / 1"),
    (Leaflet, "Six, letter fold", [1, 3], "R2 L1", "0"),
    (Leaflet, "Six, zig-zag fold", [1, 3], "R2 r1", "0"),
    (Leaflet, "Eight, gate fold", [1, 4], "L1 R2 R1", "0"),
    (Leaflet, "Eight, accordion fold", [1, 4], "L1 l1 L1", "0"),
    (Leaflet, "Eight, letter fold of four", [1, 4], "R3 R2 L1", "0"),
    (Oblong, "Oblong four, one fold", [1, 2], "R1", "0"),
    (Oblong, "Oblong eight, two right-angle folds", [2, 2], "T1 R1", "0"),
    (Oblong, "Oblong sixteen, two parallel and right angle", [4, 2], "T2 T1 R1", "0"),
    (Oblong, "Oblong sixteen, three folds", [2, 4], "R2 T1 R1", "0"),
    (Oblong, "Oblong thirty-two, four right-angle folds", [4, 4], "T2 R2 T1 R1", "0"),
    (RightToLeft, "Right to left, eight", [2, 2], "T1 L1", "0"),
    (RightToLeft, "Right to left, sixteen", [2, 4], "L2 T1 L1", "0"),
    (RightToLeft, "Right to left, thirty-two", [4, 4], "T2 L2 T1 L1", "0"),
];

/// Every course at hand.
#[must_use]
pub fn courses() -> Vec<NamedCourse> {
    LINES.iter().filter_map(named).collect()
}

fn named((family, name, [rows, columns], steps, gather): &Line) -> Option<NamedCourse> {
    let copies = gather.split('/').map(sections).collect::<Option<Vec<_>>>()?;
    let reads = if *family == RightToLeft { Reads::RightToLeft } else { Reads::LeftToRight };
    let course = Course { rows: *rows, columns: *columns, steps: notation::steps(steps)?, copies, reads };
    Some(NamedCourse { name, family: *family, course, oblong: *family == Oblong })
}

fn sections(text: &str) -> Option<Vec<Nest>> {
    let nest = |nest: &str| nest.split('>').map(|piece| piece.parse().ok()).collect::<Option<Nest>>();
    text.split_whitespace().map(nest).collect()
}

/// How many lines there are, so that a test can tell that each is read.
#[cfg(test)]
pub(super) const fn lines() -> usize {
    LINES.len()
}
