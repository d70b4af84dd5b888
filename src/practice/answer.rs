//! What is given as an answer. Whatever is left out is not answered and costs no more than its own marks.

use crate::fold::misfold::Cause;
use crate::fold::{Direction, Fold};
use crate::gather::Fault;
use crate::marks::Design;
use serde::{Deserialize, Serialize};

/// What is said of one place of a sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cell {
    /// The page that stands there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub page: Option<u32>,
    /// The way its head points, seen from its own side.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head: Option<Direction>,
}

/// Both sides of a sheet, row by row, each as seen from its own side. Rows and cells may be missing.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SheetCells {
    /// The side that is up when folding starts.
    #[serde(default)]
    pub side_a: Vec<Vec<Cell>>,
    /// The other side, as seen after turning the sheet left to right.
    #[serde(default)]
    pub side_b: Vec<Vec<Cell>>,
}

/// A fault that is pointed at in a book.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pointed {
    /// The section, or the station, that is wrong. If it is left out, it is taken from the fault.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub section: Option<u32>,
    /// What happened.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fault: Option<Fault>,
}

/// What is found at an edge of a leaf once it is trimmed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AtEdge {
    /// There was no bolt.
    Free,
    /// There was a bolt, and the trim opens it.
    Opened,
    /// There is a bolt, and it stays closed.
    Closed,
}

/// What is said of the edges of one leaf.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeafEdges {
    /// At the head.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head: Option<AtEdge>,
    /// At the tail.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tail: Option<AtEdge>,
    /// At the fore-edge.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fore_edge: Option<AtEdge>,
}

/// An answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Answer {
    /// Numbers and heads on a sheet.
    Sheet(SheetCells),
    /// Folds in order.
    Folds(Vec<Fold>),
    /// What was done to a sheet, and the check, by its number in the list that is set.
    WrongSheet {
        /// One cause, or two at once.
        #[serde(default)]
        causes: Vec<Cause>,
        /// The next check, from 1.
        #[serde(default)]
        check: Option<u32>,
    },
    /// What is wrong with a book, and the check, by its number in the list that is set.
    WrongBook {
        /// The faults.
        #[serde(default)]
        faults: Vec<Pointed>,
        /// The next check, from 1.
        #[serde(default)]
        check: Option<u32>,
    },
    /// The sections of a book by their pages, front to back.
    MakeUp(Vec<u32>),
    /// Back marks.
    BackMarks(Design),
    /// The edges of the leaves, from leaf 1 on.
    Bolts(Vec<LeafEdges>),
    /// Nothing.
    Nothing,
}
