//! The grain against the spine.

use crate::fold::Worked;
use crate::paper::Grain;

/// How the grain runs in a folded piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GrainRuns {
    /// Along the spine, from head to tail: as it should. M. T. Roberts and D. Etherington, *Bookbinding and the
    /// Conservation of Books* (1982), "against the grain".
    AlongSpine,
    /// Across it.
    AcrossSpine,
}

/// How the grain of the flat sheet runs in a piece. A fold turns no leaf in its plane, so that it is the same in all of
/// them. `None` where there is no such piece, or it is no section.
#[must_use]
pub fn grain_runs(worked: &Worked, piece: usize, grain: Grain) -> Option<GrainRuns> {
    let section = &worked.pieces.get(piece)?.section;
    // The way to the spine on the flat sheet: the spine itself lies across it.
    let spine_is_upright = section.faces.first()?.spine.is_sideways();
    let along = spine_is_upright == (grain == Grain::Upright);
    Some(if along { GrainRuns::AlongSpine } else { GrainRuns::AcrossSpine })
}
