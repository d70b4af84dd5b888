//! What a person says of the book as a whole: its title, its pages, what it is made of and how it is marked.

use super::job::{Casing, Planning};
use crate::book::{Added, Run, Signing};
use crate::fold::Course;
use crate::marks::BackMarks;

/// Something said of the book.
#[derive(Clone, Debug, PartialEq)]
pub enum BookAct {
    /// Its title.
    Title(String),
    /// The runs of its pages as they are numbered. None: all pages have figures, from 1 on.
    Runs(Vec<Run>),
    /// Plates, wraps and endpapers.
    Added(Vec<Added>),
    /// How its sections are signed.
    Signing(Signing),
    /// What it is planned for.
    Planning(Planning),
    /// How it is bound.
    Casing(Casing),
    /// How many sections it has.
    Sections(u32),
    /// A section is made from a sheet of its own, or from the usual one again.
    Otherwise {
        /// The section, from 1: the first one, if the sheet gives several.
        section: u32,
        /// What is done to its sheet.
        course: Option<Course>,
    },
    /// What all sections are made from.
    MadeUp {
        /// How many there are.
        sections: u32,
        /// The usual sheet.
        course: Box<Course>,
        /// Sheets of their own, each with the first section that comes from it.
        otherwise: Vec<(u32, Course)>,
    },
    /// The back marks.
    Marks(Box<BackMarks>),
}
