//! What to draw beside a word: a value that the painters of `scene` can be asked for.

use crate::fold::{Crease, courses};
use crate::gather::{Lies, Stack};

/// A picture from the engine. Courses are named as in the library.
///
/// In the file of words: `bench "NAME" MOMENT`, `sides "NAME"` and perhaps `follow PAGE`, `cut "NAME" FOLDS vertical|horizontal AT`,
/// `trimmed "NAME"`, `setup "NAME"`, `nest "NAME"`, `misfolded "NAME" FOLD`, `spine SECTIONS` and perhaps a fault.
#[derive(Clone, Debug, PartialEq)]
pub enum Picture {
    /// A sheet on the bench.
    Bench {
        /// The course.
        course: &'static str,
        /// The moment on the rule: 0 flat, k after k folds, then slit, open, and leaf by leaf.
        at: f64,
    },
    /// Both flat sides of a sheet with their page figures.
    Sides {
        /// The course.
        course: &'static str,
        /// A page that is followed, and its conjugate with it.
        follow: Option<u32>,
    },
    /// A packet cut through.
    Cut {
        /// The course.
        course: &'static str,
        /// Folds that are made.
        folds: u32,
        /// The direction of the cut.
        crease: Crease,
        /// The row or column of panels that it goes through, from 0.
        at: u32,
    },
    /// A folded section seen from its head, with bolts, creep and trims.
    Trimmed {
        /// The course.
        course: &'static str,
    },
    /// The set-up sheet of the folder.
    Setup {
        /// The course.
        course: &'static str,
    },
    /// The pieces of the first section of a sheet, in one another, seen from the head.
    Nest {
        /// The course.
        course: &'static str,
    },
    /// The sheet folded rightly beside the same sheet with one fold made the other way.
    Misfolded {
        /// The course.
        course: &'static str,
        /// The fold, from 1.
        fold: u32,
    },
    /// The spine of a gathered book with its back marks.
    Spine {
        /// Sections of a right book.
        sections: u32,
        /// What is wrong with it.
        fault: Option<Spoilt>,
    },
}

/// What is wrong with a gathered book in a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spoilt {
    /// A section is missing.
    Missing(u32),
    /// A section is there twice.
    Double(u32),
    /// A station held another section.
    Wrong {
        /// The station.
        at: u32,
        /// What it held.
        section: u32,
    },
    /// Two sections stand in each other's place.
    Exchanged(u32, u32),
    /// A section lies otherwise.
    Lies(u32, Lies),
    /// A section of another job.
    Foreign(u32),
    /// The book begins behind this section and ends with it.
    Divided(u32),
}

impl Picture {
    /// Reads a picture as the file of words names it.
    pub(super) fn parse(text: &'static str) -> Option<Self> {
        let (kind, rest) = text.split_once(' ')?;
        if kind == "spine" {
            let mut words = rest.split(' ');
            let sections = words.next()?.parse().ok()?;
            let rest: Vec<&str> = words.collect();
            let fault = if rest.is_empty() { None } else { Some(Spoilt::parse(&rest)?) };
            return Some(Self::Spine { sections, fault });
        }
        let (course, rest) = rest.strip_prefix('"')?.split_once('"')?;
        let words: Vec<&str> = rest.split_whitespace().collect();
        Some(match (kind, words.as_slice()) {
            ("bench", [at]) => Self::Bench { course, at: crate::units::parse_decimal(at)? },
            ("sides", []) => Self::Sides { course, follow: None },
            ("sides", ["follow", page]) => Self::Sides { course, follow: Some(page.parse().ok()?) },
            ("cut", [folds, crease, at]) => {
                let crease = match *crease {
                    "vertical" => Crease::Vertical,
                    "horizontal" => Crease::Horizontal,
                    _ => return None,
                };
                Self::Cut { course, folds: folds.parse().ok()?, crease, at: at.parse().ok()? }
            }
            ("trimmed", []) => Self::Trimmed { course },
            ("setup", []) => Self::Setup { course },
            ("nest", []) => Self::Nest { course },
            ("misfolded", [fold]) => Self::Misfolded { course, fold: fold.parse().ok()? },
            _ => return None,
        })
    }

    /// The course that is drawn, if one is.
    #[must_use]
    pub const fn course(&self) -> Option<&'static str> {
        match self {
            Self::Bench { course, .. }
            | Self::Sides { course, .. }
            | Self::Cut { course, .. }
            | Self::Trimmed { course }
            | Self::Setup { course }
            | Self::Nest { course }
            | Self::Misfolded { course, .. } => Some(course),
            Self::Spine { .. } => None,
        }
    }

    /// The gathered book whose spine is drawn. `None` for other pictures, and for a fault that can't be.
    #[must_use]
    pub fn stack(&self) -> Option<Stack> {
        let Self::Spine { sections, fault } = self else { return None };
        let mut stack = Stack::good(*sections);
        match fault {
            None => Ok(()),
            Some(Spoilt::Missing(at)) => stack.leave_out(*at),
            Some(Spoilt::Double(at)) => stack.take_two(*at),
            Some(Spoilt::Wrong { at, section }) => stack.put_in(*at, *section),
            Some(Spoilt::Exchanged(a, b)) => stack.exchange(*a, *b),
            Some(Spoilt::Lies(at, lies)) => stack.lay(*at, *lies),
            Some(Spoilt::Foreign(at)) => stack.foreign(*at),
            Some(Spoilt::Divided(after)) => stack.carry(1..=*after, *sections),
        }
        .ok()?;
        Some(stack)
    }

    /// The picture in a sentence, for who does not see it.
    #[must_use]
    pub fn says(&self) -> String {
        match self {
            Self::Bench { course, at: 0.0 } => format!("The flat sheet “{course}” on the bench."),
            Self::Bench { course, .. } => format!("The sheet “{course}” on the bench, while it is folded."),
            Self::Sides { course, follow: None } => format!("Both sides of the sheet “{course}” with their pages."),
            Self::Sides { course, follow: Some(page) } => {
                format!("Both sides of the sheet “{course}”; page {page} is followed.")
            }
            Self::Cut { course, folds, .. } => format!("The packet of “{course}” after {folds} folds, cut through."),
            Self::Trimmed { course } => format!("The folded section “{course}” as the trimmer finds it."),
            Self::Setup { course } => format!("The set-up sheet of the folder for “{course}”."),
            Self::Nest { course } => format!("The pieces of “{course}” in one another, seen from the head."),
            Self::Misfolded { course, fold } => {
                format!("The sheet “{course}” folded rightly, and beside it with fold {fold} made the other way.")
            }
            Self::Spine { sections, fault } => match fault {
                None => format!("The spine of a right book of {sections} sections."),
                Some(fault) => format!("The spine of a book of {sections} sections: {}.", fault.says()),
            },
        }
    }

    /// Whether its course is at hand and its numbers can be.
    #[must_use]
    pub fn can_be(&self) -> bool {
        match self.course() {
            Some(name) => courses().iter().any(|c| c.name == name),
            None => self.stack().is_some(),
        }
    }
}

impl Spoilt {
    fn parse(words: &[&str]) -> Option<Self> {
        let number = |at: usize| words.get(at)?.parse::<u32>().ok();
        Some(match (words.first().copied()?, words.len()) {
            ("missing", 2) => Self::Missing(number(1)?),
            ("double", 2) => Self::Double(number(1)?),
            ("wrong", 3) => Self::Wrong { at: number(1)?, section: number(2)? },
            ("exchanged", 3) => Self::Exchanged(number(1)?, number(2)?),
            ("head-to-tail", 2) => Self::Lies(number(1)?, Lies::HeadToTail),
            ("turned-in-plane", 2) => Self::Lies(number(1)?, Lies::TurnedInPlane),
            ("side-to-side", 2) => Self::Lies(number(1)?, Lies::SideToSide),
            ("foreign", 2) => Self::Foreign(number(1)?),
            ("divided", 2) => Self::Divided(number(1)?),
            _ => return None,
        })
    }

    fn says(self) -> String {
        match self {
            Self::Missing(n) => format!("section {n} is missing"),
            Self::Double(n) => format!("section {n} is there twice"),
            Self::Wrong { at, section } => format!("station {at} held section {section}"),
            Self::Exchanged(a, b) => format!("sections {a} and {b} stand in each other's place"),
            Self::Lies(n, Lies::HeadToTail) => format!("section {n} lies head to tail"),
            Self::Lies(n, Lies::TurnedInPlane) => format!("section {n} is turned in its plane"),
            Self::Lies(n, Lies::SideToSide) => format!("section {n} lies side to side"),
            Self::Lies(n, Lies::Right) => format!("section {n} lies right"),
            Self::Foreign(n) => format!("station {n} held a section of another job"),
            Self::Divided(n) => format!("it begins behind section {n} and ends with it"),
        }
    }
}
