//! The courses of the library by which a section can be folded from this sheet and this paper.

use super::Job;
use crate::finish::{air, folds_of, most_folds};
use crate::fold::{Family, NamedCourse, Nest, Worked, courses};
use crate::paper::{Grain, Length};

/// The courses that sections of books are folded by, those that stand by themselves first. All are of the library.
const NAMES: [&str; 11] = [
    "Four, one fold",
    "Eight, two right-angle folds",
    "Eight, two parallel folds",
    "Twelve, letter fold and right angle",
    "Sixteen, three folds",
    "Sixteen, two parallel and right angle",
    "Twenty-four, sixteen with eight inset",
    "Twenty-four, letter fold and two right angles",
    "Thirty-two, three right-angle and parallel",
    "Thirty-two, four right-angle folds",
    "Thirty-two, sixteen in sixteen",
];

/// Whether a paper takes the folds of a course, by the rule of thumb of `finish`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Suits {
    /// Surely.
    Yes,
    /// It may go well.
    Maybe,
    /// It does not.
    No,
}

/// A section folded by a course of the library, on the sheet of a job.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Way {
    /// The name of the course.
    pub course: &'static str,
    /// Pages of the section.
    pub pages: u32,
    /// Pieces that are folded by themselves and put together.
    pub pieces: u32,
    /// Folds of the piece that has most.
    pub folds: u32,
    /// Right-angle folds of the piece that has most.
    pub right_angles: u32,
    /// Whether the paper takes them.
    pub suits: Suits,
    /// Such sections on one press sheet.
    pub on_sheet: u32,
    /// Whether the leaves stand turned on the sheet, their heads to a side.
    pub turned: bool,
    /// Whether the grain runs along the spine.
    pub grain_along: bool,
    /// Rows and columns of leaves on the sheet that are used.
    pub grid: (u32, u32),
    /// The course of the library that folds and slits the whole sheet, if there is one.
    pub whole_sheet: Option<&'static str>,
}

/// All of them, one for each number of pages or two where one is of insets.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Ways(Vec<Way>);

impl Ways {
    /// Those that this sheet is large enough for.
    pub(super) fn on(job: &Job) -> Self {
        let all = courses();
        let named = NAMES.iter().filter_map(|name| all.iter().find(|c| c.name == *name));
        let ways = named.filter_map(|named| {
            let worked = Worked::of(&named.course).ok()?;
            let nest = named.course.copies.first()?.first()?;
            let folds: Vec<(u32, u32)> = nest.iter().map(|piece| folds_of_piece(&worked, *piece)).collect();
            let right_angles = folds.iter().map(|f| f.1).max()?;
            let (sure, perhaps) = most_folds(job.stock.grammage);
            let suits = match right_angles {
                n if n <= sure => Suits::Yes,
                n if n <= perhaps => Suits::Maybe,
                _ => Suits::No,
            };
            let fit = fit(job, named.course.rows, named.course.columns)?;
            let way = Way {
                course: named.name,
                pages: worked.pages_of(nest),
                pieces: nest.len() as u32,
                folds: folds.iter().map(|f| f.0).max()?,
                right_angles,
                suits,
                on_sheet: fit.on_sheet,
                turned: fit.turned,
                grain_along: fit.grain_along,
                grid: fit.grid,
                whole_sheet: None,
            };
            Some(Way { whole_sheet: whole_sheet(&all, &way), ..way })
        });
        Self(ways.collect())
    }

    pub(super) const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The best way to fold so many pages: one that the paper takes, with the grain right, of fewest pieces, with
    /// most on a sheet; of equal ones the first of the list.
    pub(super) fn of(&self, pages: u32) -> Option<&Way> {
        self.0
            .iter()
            .filter(|w| w.pages == pages)
            .min_by_key(|w| (w.suits == Suits::No, !w.grain_along, w.pieces, std::cmp::Reverse(w.on_sheet), w.suits))
    }

    /// A way of so many pages of several pieces put together.
    pub(super) fn of_pieces(&self, pages: u32) -> Option<&Way> {
        self.0.iter().find(|w| w.pages == pages && w.pieces > 1)
    }

    /// The way of a course.
    pub(super) fn named(&self, course: &str) -> Option<&Way> {
        self.0.iter().find(|w| w.course == course)
    }

    /// All of them.
    pub(super) fn iter(&self) -> impl Iterator<Item = &Way> {
        self.0.iter()
    }
}

/// Folds of a piece, and right-angle folds among them.
fn folds_of_piece(worked: &Worked, piece: usize) -> (u32, u32) {
    let folds = folds_of(worked, piece);
    let leaves = worked.pieces.get(piece).map_or(0, |p| p.packet.layers.len() as u32);
    (folds.len() as u32, air(&folds, leaves).right_angles)
}

struct Fit {
    on_sheet: u32,
    turned: bool,
    grain_along: bool,
    grid: (u32, u32),
}

/// How often a sheet of so many rows and columns of leaves lies on the press sheet: upright or turned, with the grain
/// along the spine if it can be, then as often as it can be.
fn fit(job: &Job, rows: u32, columns: u32) -> Option<Fit> {
    let leaf = job.leaf();
    let times = |side: Length, one: Length| u32::try_from(side.nm() / one.nm().max(1)).unwrap_or(0);
    let lies = |turned: bool| {
        let (width, height) =
            if turned { (job.sheet.height, job.sheet.width) } else { (job.sheet.width, job.sheet.height) };
        let (down, across) = (times(height, leaf.height) / rows, times(width, leaf.width) / columns);
        let grain_along = turned == (job.stock.grain == Grain::Level);
        Fit { on_sheet: down * across, turned, grain_along, grid: (down * rows, across * columns) }
    };
    [lies(false), lies(true)]
        .into_iter()
        .filter(|f| f.on_sheet > 0)
        .max_by_key(|f| (f.grain_along, f.on_sheet, !f.turned))
}

/// The course of the library that slits the whole press sheet into sections that are folded like these, if there is
/// one.
fn whole_sheet(all: &[NamedCourse], way: &Way) -> Option<&'static str> {
    if way.on_sheet < 2 || way.pieces > 1 {
        return None;
    }
    let alike = |named: &&NamedCourse| {
        let course = &named.course;
        let sections = course.copies.first().map(Vec::as_slice).unwrap_or_default();
        if named.family != Family::Several
            || (course.rows, course.columns) != way.grid
            || sections.len() != way.on_sheet as usize
            || sections.iter().any(|nest| nest.len() > 1)
        {
            return false;
        }
        let same = |worked: &Worked, nest: &Nest| {
            let folded = nest.first().map(|piece| folds_of_piece(worked, *piece));
            worked.pages_of(nest) == way.pages && folded == Some((way.folds, way.right_angles))
        };
        Worked::of(course).is_ok_and(|worked| sections.iter().all(|nest| same(&worked, nest)))
    };
    all.iter().find(alike).map(|named| named.name)
}
