//! A link to what lies on the bench: a sheet, how far it is folded, how it lies, and what is shown beside it.

use super::bits::{Reader, Writer};
use super::course::{put, read_course, take, write_course};
use super::keys::{course_of, key_of};
use super::refused::{Refused, holds};
use crate::fold::{Course, Crease, Lay, MAX_PIECES, NamedCourse, Worked, courses};
use crate::units::short;

/// The sheet of a scene.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sheet {
    /// A course at hand, by its trade name.
    AtHand(&'static str),
    /// Any other.
    Own(Course),
}

/// What is shown beside the bench.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Beside {
    /// Both flat sides of the sheet.
    #[default]
    Sides,
    /// The packet cut through: the direction of the cut, and the row or column of panels it goes through, from 0.
    Inside(Crease, u32),
    /// The sheet in millimetres, its paper and its lays.
    Paper,
    /// The folded section at the trimmer.
    Trim,
    /// The set-up sheet of the folder.
    Folder,
}

/// What lies on the bench.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Scene {
    /// The sheet.
    pub sheet: Sheet,
    /// The piece of a slit sheet that lies there alone, from 0.
    pub piece: Option<u32>,
    /// The section of the book that it is, from 1.
    pub place: u32,
    /// The moment on the rule in hundredths: 0 flat, 100 k after k folds, then slit, open and leaf by leaf.
    pub at: u32,
    /// How it lies.
    pub lay: Lay,
    /// What is shown beside it.
    pub beside: Beside,
    /// Whether side B is seen through the paper.
    pub through: bool,
    /// Whether the page figures are shown.
    pub figures: bool,
    /// The page of the section that is followed, from 1.
    pub followed: Option<u32>,
}

/// The last moment that a link holds: more leaves than any section has.
const LAST: u32 = 1_000_000;
/// The highest page that is followed.
const MOST_PAGES: u32 = 1_000_000;
/// The highest place: the most sections that a book may have here.
const MOST_PLACES: u32 = 400;
/// The most rows or columns of a packet.
const MOST_PANELS: u32 = crate::fold::MAX_PANELS;

impl Sheet {
    /// A course by the shortest way to say it: one at hand by its number. Where the same folds have two names, the one for pages
    /// that lie is taken for `oblong` ones.
    #[must_use]
    pub fn of(course: &Course, oblong: bool) -> Self {
        let here = courses().into_iter().filter(|n| n.course == *course);
        match here.min_by_key(|n| n.oblong != oblong) {
            Some(named) => Self::AtHand(named.name),
            None => Self::Own(course.clone()),
        }
    }

    /// The course. `None` if a name is not at hand.
    #[must_use]
    pub fn course(&self) -> Option<Course> {
        match self {
            Self::AtHand(name) => named(name).map(|n| n.course),
            Self::Own(course) => Some(course.clone()),
        }
    }
}

fn named(name: &str) -> Option<NamedCourse> {
    courses().into_iter().find(|n| n.name == name)
}

impl Scene {
    /// A sheet that lies flat on the bench, with both its sides beside it.
    #[must_use]
    pub fn flat(sheet: Sheet) -> Self {
        let (lay, beside) = (Lay::default(), Beside::Sides);
        Self { sheet, piece: None, place: 1, at: 0, lay, beside, through: false, figures: true, followed: None }
    }

    /// What the link shows, in a sentence.
    #[must_use]
    pub fn says(&self) -> String {
        let sheet = match &self.sheet {
            Sheet::AtHand(name) => format!("the sheet “{name}”"),
            Sheet::Own(course) => format!("a sheet of {} by {} panels", course.rows, course.columns),
        };
        let mut says = match self.piece {
            Some(piece) => format!("It shows piece {} of {sheet} on the bench", piece.saturating_add(1)),
            None => format!("It shows {sheet} on the bench"),
        };
        says += &match self.at {
            0 => ", flat".to_owned(),
            at => format!(", at {} on the rule", short(f64::from(at) / 100.0)),
        };
        if self.lay.over {
            says += ", turned over";
        }
        says += match self.lay.quarters % 4 {
            0 => "",
            1 => ", turned a quarter",
            2 => ", turned half round",
            _ => ", turned three quarters",
        };
        if !self.figures {
            says += ", without page figures";
        }
        if let Some(page) = self.followed {
            says += &format!(", and follows page {page}");
        }
        says + "."
    }

    pub(super) fn body(&self) -> Option<Vec<u8>> {
        let mut out = Writer::default();
        match &self.sheet {
            Sheet::AtHand(name) => {
                out.bit(false);
                out.bits(key_of(name)?, 8);
            }
            Sheet::Own(course) => {
                out.bit(true);
                write_course(&mut out, course)?;
            }
        }
        let whole = self.at.is_multiple_of(100);
        out.bit(whole);
        out.number(if whole { self.at / 100 } else { self.at });
        out.bit(self.lay.over);
        out.bits(u32::from(self.lay.quarters % 4), 2);
        let kinds = [Beside::Sides, Beside::Paper, Beside::Trim, Beside::Folder];
        let inside = match self.beside {
            Beside::Inside(crease, at) => Some((crease, at)),
            _ => None,
        };
        out.bit(inside.is_some());
        match inside {
            Some((crease, at)) => {
                put(&mut out, &[Crease::Vertical, Crease::Horizontal], &crease);
                out.number(at);
            }
            None => put(&mut out, &kinds, &self.beside),
        }
        out.bit(self.through);
        out.bit(self.figures);
        out.maybe(self.piece);
        out.maybe(self.followed);
        out.number(self.place.checked_sub(1)?);
        Some(out.done())
    }

    pub(super) fn read(body: &[u8]) -> Result<Self, Refused> {
        let mut from = Reader::new(body);
        let scene = read(&mut from)?;
        match scene {
            Some(scene) if from.ended() => {
                scene.check()?;
                Ok(scene)
            }
            _ => holds("there is no such sheet, or more is said of it than this program knows."),
        }
    }

    /// Whether its sheet can lie on a bench.
    fn check(&self) -> Result<(), Refused> {
        let Sheet::Own(course) = &self.sheet else { return Ok(()) };
        // A sheet that is folded whole may be unfinished, and its folding may stop; one that is slit is worked to its end.
        match course.scheme() {
            Some(scheme) => scheme.check_size().or_else(|why| holds(format!("{why}."))),
            None => match Worked::in_the_making(course) {
                Ok(_) => Ok(()),
                Err(why) => holds(format!("{why}.")),
            },
        }
    }
}

/// `Ok(None)` where it ends too soon or says what can't be.
fn read(from: &mut Reader<'_>) -> Result<Option<Scene>, Refused> {
    let mut sheet = || Some(if from.bit()? { Ok(Sheet::Own(read_course(from)?)) } else { Err(from.bits(8)?) });
    let sheet = match sheet() {
        None => return Ok(None),
        Some(Ok(own)) => own,
        Some(Err(key)) => match course_of(key) {
            Some(named) => Sheet::AtHand(named.name),
            None => return holds("its sheet is not among those at hand in this program."),
        },
    };
    Ok(read_rest(from, sheet))
}

fn read_rest(from: &mut Reader<'_>, sheet: Sheet) -> Option<Scene> {
    let whole = from.bit()?;
    let at = if whole { from.number(LAST / 100)? * 100 } else { from.number(LAST)? };
    // A whole moment is written as one.
    if !whole && at.is_multiple_of(100) {
        return None;
    }
    let lay = Lay { over: from.bit()?, quarters: from.bits(2)? as u8 };
    let beside = if from.bit()? {
        Beside::Inside(take(from, &[Crease::Vertical, Crease::Horizontal])?, from.number(MOST_PANELS)?)
    } else {
        take(from, &[Beside::Sides, Beside::Paper, Beside::Trim, Beside::Folder])?
    };
    let (through, figures) = (from.bit()?, from.bit()?);
    let (piece, followed) = (from.maybe(MAX_PIECES as u32)?, from.maybe(MOST_PAGES)?);
    let place = from.number(MOST_PLACES - 1)? + 1;
    Some(Scene { sheet, piece, place, at, lay, beside, through, figures, followed })
}
