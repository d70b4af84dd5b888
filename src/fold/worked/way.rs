//! What is kept of the folds between two slits: every packet, for the bench, or the last one alone, for a caller who asks
//! where the pages land.

use super::branch::{Branch, BranchEnd};
use crate::fold::course::Course;
use crate::fold::error::FoldError;
use crate::fold::folding::{Folding, refusal};
use crate::fold::packet::Packet;
use crate::fold::scheme::{Crease, Fold, Lands, Part};

/// What is kept of the folds between two slits.
pub(super) trait Way {
    /// What is kept of the whole course.
    type Whole;

    /// Makes the folds, telling the line of each.
    fn fold(packet: Packet, course: &Course, folds: &[Fold], tell: impl FnMut(&Fold, i32)) -> Result<Self, FoldError>
    where
        Self: Sized;

    /// The packet that they end in.
    fn last(&self) -> &Packet;

    /// What is kept, with what comes after it.
    fn whole(self, end: AfterFolds<Self::Whole>) -> Self::Whole;
}

/// How a branch ends, whatever is kept of it.
pub(super) enum AfterFolds<W> {
    Piece(usize),
    Apart { crease: Crease, at: i32, parts: Box<[W; 2]> },
    Laid { crease: Crease, at: i32, moves: Part, lands: Lands, stayed: usize, then: Box<W> },
}

/// Every packet on the way.
pub(super) struct Kept(Folding);

impl Way for Kept {
    type Whole = Branch;

    fn fold(
        packet: Packet,
        course: &Course,
        folds: &[Fold],
        mut tell: impl FnMut(&Fold, i32),
    ) -> Result<Self, FoldError> {
        let folding = Folding::from_packet(packet, course.rows, course.columns, folds);
        if let Some(why) = folding.stopped {
            return Err(why);
        }
        folding.steps.iter().for_each(|s| tell(&s.turn.fold, s.turn.at));
        Ok(Self(folding))
    }

    fn last(&self) -> &Packet {
        self.0.last()
    }

    fn whole(self, end: AfterFolds<Branch>) -> Branch {
        let end = match end {
            AfterFolds::Piece(piece) => BranchEnd::Piece(piece),
            AfterFolds::Apart { crease, at, parts } => BranchEnd::Apart { crease, at, parts },
            AfterFolds::Laid { crease, at, moves, lands, stayed, then } => {
                BranchEnd::Laid { crease, at, moves, lands, stayed, then }
            }
        };
        Branch { folding: self.0, end }
    }
}

/// The last packet alone.
pub(super) struct Passing(Packet);

impl Way for Passing {
    type Whole = ();

    fn fold(
        mut packet: Packet,
        _: &Course,
        folds: &[Fold],
        mut tell: impl FnMut(&Fold, i32),
    ) -> Result<Self, FoldError> {
        let mut spare = Vec::new();
        for (number, fold) in folds.iter().enumerate() {
            match packet.fold_in_place(fold, &mut spare) {
                Some(at) => tell(fold, at),
                None => return Err(refusal(&packet, fold, number)),
            }
        }
        Ok(Self(packet))
    }

    fn last(&self) -> &Packet {
        &self.0
    }

    fn whole(self, _: AfterFolds<()>) {}
}
