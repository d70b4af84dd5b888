//! What every section, lying anyhow, shows on its back by one design; and which of them look alike.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::gather::stack::foreign_back;
use crate::marks::{BackMarks, Inset, Lies, Look, SeenBack};

/// Why faults don't show, or not apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Why {
    /// The first or the last section is missing: the staircase has no gap.
    NoGap,
    /// Two sections show the same.
    SharedLevel,
    /// A section head to tail shows what it shows lying right.
    MidHeight,
    /// A section head to tail shows what another one shows.
    TurnedOntoAnother,
    /// The back is blank for several reasons.
    BlankBack,
    /// A section of another job is marked as ours is.
    ForeignAlike,
    /// The sheet is printed wrongly, its mark is right.
    PressFault,
    /// An inner sheet shows no back.
    InnerSheet,
    /// The head of a section shows no bar, for several reasons.
    InnerBlank,
    /// The fold scatters as far as the next level.
    Scatter,
    /// The backs look like no other book, but are read as one.
    ReadOtherwise,
}

/// How something lies at a place, or what is wrong inside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u16)]
pub(super) enum How {
    Right,
    HeadToTail,
    TurnedInPlane,
    SideToSide,
    Misfolded,
    ForeignAlike,
    Press,
    InnerMissing,
    InnerTwice,
    InnerOfOther,
    InnerTurned,
}

/// All of them, by their number.
const HOWS: [How; 11] = [
    How::Right,
    How::HeadToTail,
    How::TurnedInPlane,
    How::SideToSide,
    How::Misfolded,
    How::ForeignAlike,
    How::Press,
    How::InnerMissing,
    How::InnerTwice,
    How::InnerOfOther,
    How::InnerTurned,
];

/// What is wrong with an inner sheet.
const INNER: [How; 4] = [How::InnerMissing, How::InnerTwice, How::InnerOfOther, How::InnerTurned];

/// What lies at a place: a section and how, as one number; [`FOREIGN`] for another job's.
pub(super) type Code = u16;

/// A section of another job with other marks.
pub(super) const FOREIGN: Code = 0;

/// Codes of one section.
const EACH: Code = 16;

pub(super) fn code(section: u32, how: How) -> Code {
    section as Code * EACH + how as Code
}

pub(super) fn section_of(code: Code) -> u32 {
    u32::from(code / EACH)
}

pub(super) fn how_of(code: Code) -> How {
    HOWS.get(usize::from(code % EACH)).copied().unwrap_or(How::Right)
}

/// What is seen in the head trim of a section of several sheets: nothing, one bar, two, one somewhere else.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum AtHead {
    NotLookedAt,
    Blank,
    One(u32),
    Two(u32),
    Far,
}

/// What every code looks like.
pub(super) struct Table {
    /// By code: equal numbers for backs that look alike.
    looks: Vec<u16>,
    /// By code: the back as it is seen.
    backs: Vec<SeenBack>,
    /// Sections of the book.
    pub(super) sections: u32,
    inset: bool,
}

impl Table {
    /// The looks of a book of so many sections by these marks.
    pub(super) fn of(marks: &BackMarks, sections: u32) -> Self {
        let mut numbers = BTreeMap::<(Look, AtHead), u16>::new();
        let (mut looks, mut backs) = (Vec::new(), Vec::new());
        for code in 0..code(sections + 1, How::Right) {
            let unused = code >= EACH && usize::from(code % EACH) >= HOWS.len();
            let back = if unused { SeenBack::blank() } else { back(marks, sections, code) };
            let next = numbers.len() as u16;
            looks.push(*numbers.entry((back.look(marks), at_head(marks, sections, code))).or_insert(next));
            backs.push(back);
        }
        let inset = matches!(marks.inset, Inset::Sheets { .. });
        Self { looks, backs, sections, inset }
    }

    /// What a code looks like.
    pub(super) fn look(&self, code: Code) -> u16 {
        self.looks.get(usize::from(code)).copied().unwrap_or(u16::MAX)
    }

    /// What is seen on the back of a code.
    pub(super) fn back(&self, code: Code) -> SeenBack {
        self.backs.get(usize::from(code)).cloned().unwrap_or_default()
    }

    /// Sections that look alike lying right, by groups of two and more.
    pub(super) fn shared(&self) -> Vec<Vec<u32>> {
        let mut by_look = BTreeMap::<u16, Vec<u32>>::new();
        for section in 1..=self.sections {
            by_look.entry(self.look(code(section, How::Right))).or_default().push(section);
        }
        let mut shared = by_look.into_values().filter(|group| group.len() > 1).collect::<Vec<_>>();
        shared.sort_unstable();
        shared
    }

    /// Sections that look right head to tail.
    pub(super) fn itself(&self) -> Vec<u32> {
        (1..=self.sections).filter(|&s| self.turned(s) == self.look(code(s, How::Right))).collect()
    }

    /// Sections that look head to tail as another one does that lies right.
    pub(super) fn another(&self) -> Vec<u32> {
        let right = (1..=self.sections).map(|s| self.look(code(s, How::Right)));
        let right = right.collect::<std::collections::BTreeSet<_>>();
        let itself = self.itself();
        (1..=self.sections).filter(|s| right.contains(&self.turned(*s)) && !itself.contains(s)).collect()
    }

    fn turned(&self, section: u32) -> u16 {
        self.look(code(section, How::HeadToTail))
    }

    /// Whether anything in it looks alike for this reason.
    pub(super) fn has(&self, why: Why) -> bool {
        let alike = |how: How| self.look(code(1, how)) == self.look(code(1, How::Right));
        match why {
            Why::SharedLevel => !self.shared().is_empty(),
            Why::MidHeight => !self.itself().is_empty(),
            Why::TurnedOntoAnother => !self.another().is_empty(),
            Why::ForeignAlike => alike(How::ForeignAlike),
            Why::PressFault => alike(How::Press),
            Why::InnerSheet => self.inset && INNER.into_iter().any(alike),
            Why::InnerBlank => {
                self.inset
                    && !alike(How::InnerMissing)
                    && self.look(code(1, How::InnerMissing)) == self.look(code(1, How::InnerTurned))
            }
            Why::BlankBack => self.look(code(1, How::Misfolded)) == self.look(code(1, How::SideToSide)),
            Why::NoGap | Why::Scatter | Why::ReadOtherwise => false,
        }
    }

    /// All reasons for which something in it looks alike.
    pub(super) fn blind(&self) -> Vec<Why> {
        let all = [Why::SharedLevel, Why::MidHeight, Why::TurnedOntoAnother, Why::ForeignAlike, Why::InnerSheet];
        all.into_iter().filter(|&why| self.has(why)).collect()
    }

    /// The sections that a reason is about; none where it is about all alike.
    pub(super) fn sections(&self, why: Why) -> Vec<u32> {
        match why {
            Why::NoGap if self.sections == 1 => vec![1],
            Why::NoGap => vec![1, self.sections],
            Why::SharedLevel => {
                let mut all = self.shared().concat();
                all.sort_unstable();
                all
            }
            Why::MidHeight => self.itself(),
            Why::TurnedOntoAnother => self.another(),
            _ => Vec::new(),
        }
    }
}

/// Why two different codes look alike.
pub(super) fn why(one: Code, other: Code) -> Why {
    let hows = [how_of(one), how_of(other)];
    let is = |those: &[How]| hows.iter().any(|how| those.contains(how));
    if hows.iter().all(|how| INNER.contains(how)) {
        Why::InnerBlank
    } else if is(&INNER) {
        Why::InnerSheet
    } else if is(&[How::Press]) {
        Why::PressFault
    } else if is(&[How::ForeignAlike]) {
        Why::ForeignAlike
    } else if is(&[How::TurnedInPlane, How::SideToSide, How::Misfolded]) {
        Why::BlankBack
    } else if hows[0] == hows[1] {
        Why::SharedLevel
    } else if section_of(one) == section_of(other) {
        Why::MidHeight
    } else {
        Why::TurnedOntoAnother
    }
}

/// The back of a code.
fn back(marks: &BackMarks, sections: u32, code: Code) -> SeenBack {
    if code < EACH {
        return foreign_back(marks, Lies::Right);
    }
    let of = |lies: Lies| SeenBack::of(marks, section_of(code), sections, lies);
    match how_of(code) {
        How::HeadToTail => of(Lies::HeadToTail),
        How::TurnedInPlane | How::SideToSide | How::Misfolded => SeenBack::blank(),
        How::ForeignAlike => {
            let ours = of(Lies::Right);
            SeenBack { title_ours: ours.title_ours.map(|_| false), ..ours }
        }
        _ => of(Lies::Right),
    }
}

/// What is seen at the head of a code, where inner sheets are marked there.
fn at_head(marks: &BackMarks, sections: u32, code: Code) -> AtHead {
    let Inset::Sheets { head: Some(_), .. } = marks.inset else { return AtHead::NotLookedAt };
    if code < EACH {
        return AtHead::Blank;
    }
    let section = section_of(code);
    match how_of(code) {
        How::HeadToTail | How::TurnedInPlane | How::InnerMissing | How::InnerTurned => AtHead::Blank,
        How::SideToSide => AtHead::Far,
        How::InnerTwice => AtHead::Two(marks.level(section)),
        How::InnerOfOther => AtHead::One(marks.level(section % sections.max(1) + 1)),
        How::Right | How::Misfolded | How::ForeignAlike | How::Press => AtHead::One(marks.level(section)),
    }
}
