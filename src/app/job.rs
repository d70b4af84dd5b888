//! All that a person made: the book, its sheet, its marks, and the stack as it was gathered.

use super::sections::Otherwise;
use super::sheet::Sheet;
use crate::book::{Added, Back, Binding, Run, Signing};
use crate::fold::{BackMark, Course, Direction, Fold, NamedScheme, Scheme, Showing, Side, library, sixteen};
use crate::gather::stack::{Placed, Stack, What, seen_backs};
use crate::json::Json;
use crate::marks::{BackMarks, SeenBack};
use crate::paper::{Length, Margins, Press, Stock, Trims};
use crate::trace::Case;
use std::collections::BTreeMap;

/// The most sections a book may have.
pub const MAX_SECTIONS: u32 = 99;
/// The longest title, in characters.
pub const MAX_TITLE: usize = 80;

/// What the check in the Gather room looks at.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Evidence {
    /// The backs of the stack that was gathered (and spoiled) here.
    #[default]
    Stack,
    /// Marks tapped onto a blank spine: for each back the middles of its bars in mm from the head.
    Tapped(Vec<Vec<f64>>),
    /// A run that was typed, as in `1-6 8-11 12d`.
    Typed(String),
}

/// What is seen on the layout of a sheet, cell by cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cell {
    /// The page printed there, from 1.
    pub page: u32,
    /// The way its head points as seen from its own side, if that was looked at.
    pub head: Option<Direction>,
}

/// A layout to be worked back to its folds. Each side as seen from that side, row by row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Layout {
    /// Rows of the sheet.
    pub rows: u32,
    /// Columns of the sheet.
    pub columns: u32,
    /// Side A.
    pub side_a: Vec<Option<Cell>>,
    /// Side B.
    pub side_b: Vec<Option<Cell>>,
}

/// The most rows or columns of a layout, and the most panels.
pub const MAX_LAYOUT: u32 = 16;
/// The most panels of a layout.
pub const MAX_LAYOUT_PANELS: u32 = 128;

impl Layout {
    /// A sheet on which nothing is known yet.
    #[must_use]
    pub fn blank(rows: u32, columns: u32) -> Self {
        let none = vec![None; rows.saturating_mul(columns) as usize];
        Self { rows, columns, side_a: none.clone(), side_b: none }
    }

    /// The cells of a side.
    #[must_use]
    pub fn side(&self, side: Side) -> &[Option<Cell>] {
        if side == Side::A { &self.side_a } else { &self.side_b }
    }

    /// The cells of a side, to be changed.
    pub fn side_mut(&mut self, side: Side) -> &mut Vec<Option<Cell>> {
        if side == Side::A { &mut self.side_a } else { &mut self.side_b }
    }
}

/// Where the pages of a wrong section come from.
#[derive(Clone, Debug, PartialEq)]
pub enum SectionEvidence {
    /// Typed or tapped, as in `1 6 7 4v _`.
    Typed(String),
    /// Made here: a list of causes as the ask protocol words them.
    Made(Json),
}

/// A wrong section that is read.
#[derive(Clone, Debug, PartialEq)]
pub struct SectionCase {
    /// Its pages.
    pub evidence: SectionEvidence,
    /// Whether its last fold was found at the fore-edge.
    pub fore_edge: bool,
    /// How it is made up, where a person says otherwise than the sheet of the job.
    pub made_up: Option<MadeUp>,
}

/// How a section is made up beside the sheet that is outermost in it.
#[derive(Clone, Debug, PartialEq)]
pub struct MadeUp {
    /// How a second sheet laid inside is folded, if there is one.
    pub inset: Option<Scheme>,
    /// Sections printed on one sheet and slit apart.
    pub lanes: u32,
}

impl Default for SectionCase {
    fn default() -> Self {
        Self { evidence: SectionEvidence::Typed(String::new()), fore_edge: false, made_up: None }
    }
}

/// The longest list of pages that is kept, in bytes.
const MAX_TYPED: usize = 4_000;
/// The most lanes.
const MAX_LANES: u32 = 16;
/// The most causes at once.
const MAX_CAUSES: usize = 2;

/// Whether a wrong section can be kept.
///
/// # Errors
/// A sentence, if it is too long or has lanes that no sheet has.
pub(super) fn check_case(case: &SectionCase) -> Result<(), String> {
    match &case.evidence {
        SectionEvidence::Typed(text) if text.len() > MAX_TYPED => {
            return Err(format!("A list of pages has {MAX_TYPED} letters at the most."));
        }
        SectionEvidence::Made(Json::List(causes)) if causes.len() <= MAX_CAUSES => {}
        SectionEvidence::Made(_) => return Err("A section is made with one or two causes.".into()),
        SectionEvidence::Typed(_) => {}
    }
    let Some(made_up) = &case.made_up else { return Ok(()) };
    if made_up.lanes == 0 || made_up.lanes > MAX_LANES {
        return Err(format!("A sheet is slit into 1 to {MAX_LANES} lanes."));
    }
    made_up
        .inset
        .as_ref()
        .map_or(Ok(()), |s| s.check_size().map_err(|why| format!("The second sheet can't be: {why}.")))
}

/// The paper of a book, how its sheets lie in the press, and what is cut off its sections.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Paper {
    /// The stock.
    pub stock: Stock,
    /// Gripper edge and side lay.
    pub press: Press,
    /// What the three knives take off, and the bleed.
    pub trims: Trims,
    /// The margins of the type area in the trimmed page.
    pub margins: Margins,
}

impl Paper {
    /// Whether it can be, for untrimmed leaves of a size (width and height as they are read).
    ///
    /// # Errors
    /// A sentence.
    pub fn check(&self, leaf: (Length, Length)) -> Result<(), String> {
        self.stock.check()?;
        self.press.check()?;
        self.trims.check(leaf)?;
        self.margins.type_area(self.trims.page(leaf)).map(|_| ())
    }
}

/// What the book is to be made from, as far as it is planned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Planning {
    /// The press sheet as it lies, width and height.
    pub sheet: (Length, Length),
    /// Copies of the run.
    pub copies: u32,
}

impl Default for Planning {
    /// A sheet of thirty-two leaves of a demy octavo, and an invented run.
    fn default() -> Self {
        Self { sheet: (Length::from_whole_mm(1128), Length::from_whole_mm(888)), copies: 3_000 }
    }
}

/// The most copies, as the planner has it.
const MAX_COPIES: u32 = 10_000_000;
/// The longest side of a press sheet, as for the sheet on the bench.
const LONGEST: Length = Length::from_whole_mm(5_000);

impl Planning {
    /// Whether it can be.
    ///
    /// # Errors
    /// A sentence.
    pub fn check(&self) -> Result<(), String> {
        if self.copies == 0 || self.copies > MAX_COPIES {
            return Err(format!("A run has 1 to {MAX_COPIES} copies."));
        }
        let (w, h) = self.sheet;
        if [w, h].iter().any(|side| *side < Length::from_whole_mm(10) || *side > LONGEST) {
            return Err("A press sheet has sides of 10 to 5000 mm.".into());
        }
        Ok(())
    }
}

/// How the book is bound: what the core's `book::Binding` has beside page and paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Casing {
    /// Thickness of the sewing thread.
    pub thread: Length,
    /// How much of the swell is pressed away, in %.
    pub nipped_percent: f64,
    /// The shape of the back.
    pub back: Back,
    /// Thickness of a board.
    pub board: Length,
    /// How far the boards stand out beyond the block.
    pub square: Length,
    /// Width of a joint; as wide as the square if that is not said.
    pub joint: Option<Length>,
    /// How far the cloth is turned in.
    pub turn_in: Length,
}

impl Default for Casing {
    /// As usual in `book::Binding`.
    fn default() -> Self {
        let size = crate::finish::Size { width: Length::ZERO, height: Length::ZERO };
        let usual = Binding::usual(size, Stock::default());
        Self {
            thread: usual.thread,
            nipped_percent: usual.nipped_percent,
            back: usual.back,
            board: usual.board,
            square: usual.square,
            joint: usual.joint,
            turn_in: usual.turn_in,
        }
    }
}

impl Casing {
    /// Whether it can be.
    ///
    /// # Errors
    /// A sentence.
    pub fn check(&self) -> Result<(), String> {
        let most = Length::from_whole_mm(200);
        let lengths = [self.thread, self.board, self.square, self.joint.unwrap_or_default(), self.turn_in];
        if lengths.iter().any(|length| *length < Length::ZERO || *length > most) {
            return Err("Thread, boards, squares, joints and turn-ins are 0 to 200 mm.".into());
        }
        if !(0.0..=100.0).contains(&self.nipped_percent) {
            return Err("Between 0 and 100 % of the swell is pressed away.".into());
        }
        Ok(())
    }
}

/// Folds as the hands make them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tried {
    /// Which sheet it is, as [`Job::kind`] has it.
    pub kind: Option<u32>,
    /// The piece that was folded by itself, or the whole sheet.
    pub piece: Option<usize>,
    /// All folds from the flat sheet on.
    pub folds: Vec<Fold>,
}

/// One job.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// Title of the book.
    pub title: String,
    /// Sections of the book.
    pub sections: u32,
    /// The sheet that sections come from, as many of each as its course says, where they are not made otherwise.
    pub sheet: Sheet,
    /// Sections that are made otherwise, in the order of the book.
    pub otherwise: Vec<Otherwise>,
    /// The runs of pages as they are numbered; none where all have figures from 1 on.
    pub runs: Vec<Run>,
    /// Plates, wraps and endpapers.
    pub added: Vec<Added>,
    /// How sections are signed.
    pub signing: Signing,
    /// What it is planned for.
    pub planning: Planning,
    /// How it is bound.
    pub casing: Casing,
    /// The paper, how it lies in the press, and what is cut off.
    pub paper: Paper,
    /// The back marks.
    pub design: BackMarks,
    /// The book as it was gathered here.
    pub stack: Stack,
    /// What the check looks at.
    pub evidence: Evidence,
    /// The folds as the hands make them, where they are others than the scheme's.
    pub tried: Option<Tried>,
    /// The layout that is worked back.
    pub layout: Layout,
    /// The wrong section that is read.
    pub section_case: SectionCase,
    /// What was found of a wrong book.
    pub case: Case,
    /// Odds that a person stated otherwise than the program: their names, and what they stated.
    pub odds: Vec<(String, f64)>,
    /// What a person wrote into the report of wrong books: which line, and what.
    pub written: Vec<(String, String)>,
}

impl Default for Job {
    /// An invented book in sixteens.
    fn default() -> Self {
        Self {
            title: "The Quillmere Almanac".into(),
            sections: 18,
            sheet: Sheet::usual(Course::of_scheme(&sixteen().scheme)),
            otherwise: Vec::new(),
            runs: Vec::new(),
            added: Vec::new(),
            signing: Signing::default(),
            planning: Planning::default(),
            casing: Casing::default(),
            paper: Paper::default(),
            design: BackMarks::default(),
            stack: Stack::good(18),
            evidence: Evidence::Stack,
            tried: None,
            layout: Layout::blank(2, 4),
            section_case: SectionCase::default(),
            case: Case::default(),
            odds: Vec::new(),
            written: Vec::new(),
        }
    }
}

/// A sheet without a fold.
#[must_use]
pub fn blank(rows: u32, columns: u32) -> Scheme {
    Scheme { rows, columns, folds: Vec::new(), head: crate::fold::Direction::Up, reads: crate::fold::Reads::default() }
}

/// The trade name of a scheme, if it is one of those at hand.
#[must_use]
pub fn trade_name(scheme: &Scheme) -> Option<&'static str> {
    library().into_iter().find(|n: &NamedScheme| n.scheme == *scheme).map(|n| n.name)
}

impl Job {
    /// What a checker sees on the backs of the stack. The fold engine says where each mark went.
    #[must_use]
    pub fn seen(&self) -> Vec<SeenBack> {
        // One answer for each section of a sheet and each way of folding it, not one for each section of the book.
        let mut ways: BTreeMap<(Option<u32>, usize), Vec<bool>> = BTreeMap::new();
        let of = |section: u32| (self.kind(section), self.on_sheet(section));
        let section_of = |p: &Placed| match p.what {
            What::Ours(section) => section,
            What::Foreign => 1,
        };
        for section in self.stack.placed().iter().map(section_of) {
            ways.entry(of(section)).or_insert_with(|| self.marks_shown(section));
        }
        let back_of = |p: &Placed| {
            let shown = ways.get(&of(section_of(p)));
            shown.and_then(|w| w.get(p.misfold.unwrap_or(0) as usize)).copied().unwrap_or(false)
        };
        seen_backs(&self.stack, &self.design, self.sections, &back_of)
    }

    /// Whether a section shows its mark on its spine: folded rightly, and with each fold made the other way.
    fn marks_shown(&self, section: u32) -> Vec<bool> {
        let Some(scheme) = self.scheme_of(section) else {
            // What was laid together from parts has its mark where its first and last page meet, as any other.
            let section = self.section(section);
            return vec![section.is_some_and(|(section, landing)| BackMark::on_sheet(&section, &landing).is_some())];
        };
        let showing = |misfold: Option<u32>| {
            let folded = misfold.map_or_else(|| scheme.clone(), |f| scheme.fold_other_way(f));
            BackMark::printed_and_folded(&scheme, &folded).ok().flatten() == Some(Showing::OnSpine)
        };
        std::iter::once(None).chain((1u32..).map(Some).take(scheme.folds.len())).map(showing).collect()
    }
}
