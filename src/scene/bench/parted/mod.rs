//! A sheet that is slit: its pieces part, each is folded by its own steps, and those of one section come together again.
//!
//! Every part is a bench of its own, in the places that its panels have on the whole sheet, and seen from a little aside:
//! nothing recedes in this projection, so that a part that lies elsewhere is the same picture moved ([`View::moved`]).

mod act;
mod build;
mod inset;
mod order;
mod slide;
mod told;
mod words;

pub use told::Act;

use super::{Bench, Shown};
use crate::fold::{Crease, Direction, Lands, Lay};
use crate::scene::item::Item;
use crate::scene::view::View;
use kurbo::Rect;
use std::collections::BTreeSet;
use std::rc::Rc;

/// Pairs of neighbouring panels, by column and row, the lesser first.
pub(super) type SlitApart = Rc<BTreeSet<((i32, i32), (i32, i32))>>;

/// How a slit sheet is drawn and told. A bench asks through these and never by name: only what makes a slit sheet needs
/// them, and the page fetches that later.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ways {
    /// Its picture from its slit on; `None` before that.
    pub(super) items: fn(&Bench, f64, &View, &Shown) -> Option<Vec<Item>>,
    /// The room on the screen that this takes.
    pub(super) extent: fn(&Bench, f64, &View, &Shown) -> Option<Rect>,
    /// What is done at a step.
    pub(super) acts: fn(&Bench, usize) -> Vec<Act>,
    /// The same in words: what is done at a step, how the sheet lies, and whether it is being done.
    pub(super) says: fn(&Bench, usize, Lay, bool) -> String,
}

impl Ways {
    pub(super) const fn of_slit_sheets() -> Self {
        Self { items: Bench::slit_items, extent: Bench::slit_extent, acts: Bench::slit_acts, says: words::says }
    }
}

/// What comes after the folds of a bench whose sheet is slit.
#[derive(Clone, Debug)]
pub(super) struct Parted {
    /// How it is drawn and told.
    pub(super) ways: Ways,
    /// Which way the slit runs.
    pub(super) crease: Crease,
    /// Its line in the packet.
    pub(super) at: i32,
    /// The part that is laid on the other, if one is.
    pub(super) laid: Option<Laid>,
    /// The parts as they go on: two, or one if one was laid on the other.
    pub(super) lanes: Vec<Lane>,
}

/// A part that goes on by itself.
#[derive(Clone, Debug)]
pub(super) struct Lane {
    /// It, as it lies on the whole sheet.
    pub(super) bench: Bench,
    /// How far it is led aside, mm: to the right and downwards.
    pub(super) aside: (f64, f64),
    /// What it ever covers, in its own places, mm.
    pub(super) covers: Rect,
    /// The piece that it ends in, if it is not slit again.
    pub(super) piece: Option<usize>,
}

/// One part on its way onto or under the other.
#[derive(Clone, Debug)]
pub(super) struct Laid {
    pub(super) stays: Bench,
    pub(super) moves: Bench,
    /// How far it is slid, mm.
    pub(super) by: (f64, f64),
    pub(super) lands: Lands,
    /// Layers of the packet before the slit.
    pub(super) layers_before: usize,
    /// For each layer of what stays and of what moves: how many lie below it before the slit, and in the end.
    pub(super) levels: [Vec<(usize, usize)>; 2],
}

/// The section that is looked at, from the end of the folds on.
#[derive(Clone, Debug)]
pub(super) struct Finish {
    /// Its pieces, the outermost first.
    pub(super) pieces: Vec<usize>,
    /// One piece into another, the innermost first.
    pub(super) insets: Vec<Inset>,
    /// All of it, as one packet where the outermost piece lies.
    pub(super) bench: Bench,
    /// Where the outermost piece lies, mm aside from its place on the sheet.
    pub(super) aside: (f64, f64),
    /// Where it is opened before its reader: in front of all pieces.
    pub(super) front: (f64, f64),
}

/// A piece, with what lies in it already, that slides into the middle of another.
#[derive(Clone, Debug)]
pub(super) struct Inset {
    /// The piece that it slides into.
    pub(super) host: usize,
    pub(super) host_bench: Bench,
    /// The edge of its packet where its spine is.
    pub(super) host_spine: Direction,
    pub(super) host_aside: (f64, f64),
    /// What slides in.
    pub(super) guest: Bench,
    pub(super) guest_aside: (f64, f64),
    /// Both as one packet.
    pub(super) nested: Bench,
    /// Whether it is turned over, left to right, and half round, to lie as the other does.
    pub(super) over: bool,
    pub(super) round: bool,
    /// Pieces that lie in the guest.
    pub(super) inside: Vec<usize>,
}

impl Bench {
    /// Steps from the flat sheet to the last fold of the last piece.
    pub(super) fn steps_to_pieces(&self) -> usize {
        let after = self
            .parted
            .as_ref()
            .map_or(0, |parted| 1 + parted.lanes.iter().map(|lane| lane.bench.steps_to_pieces()).max().unwrap_or(0));
        self.folding.steps.len() + after
    }

    /// Whether the sheet has been slit at a moment.
    #[must_use]
    pub fn is_parted(&self, at: f64) -> bool {
        self.parted.is_some() && at > self.folding.steps.len() as f64
    }

    /// The picture of a slit sheet from its slit on; `None` before that.
    pub(super) fn parted_items(&self, at: f64, view: &View, shown: &Shown) -> Option<Vec<Item>> {
        (self.parted.as_ref()?.ways.items)(self, at, view, shown)
    }

    /// The room that a slit sheet needs on the screen from its slit on.
    pub(super) fn parted_extent(&self, at: f64, view: &View, shown: &Shown) -> Option<Rect> {
        (self.parted.as_ref()?.ways.extent)(self, at, view, shown)
    }

    /// What is done at a step (from 0) after the folds of the whole sheet, as a sentence. `moving`: while it is done.
    #[must_use]
    pub fn says_step(&self, step: usize, lay: Lay, moving: bool) -> String {
        self.parted.as_ref().map_or_else(String::new, |parted| (parted.ways.says)(self, step, lay, moving))
    }
}
