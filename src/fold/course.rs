//! The course of a sheet as data: folds, slits, and how the pieces come together again.

use super::geometry::Direction;
use super::scheme::{Crease, Fold, Lands, Part, Reads, Scheme};

/// All that is done to a sheet, from the flat sheet to its sections.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Course {
    /// Rows of panels.
    pub rows: u32,
    /// Columns of panels.
    pub columns: u32,
    /// What is done to the whole sheet.
    pub steps: Steps,
    /// How the pieces are put together. Each list is one copy of the same pages: half-sheet work gives two. Pieces that
    /// stand nowhere are waste.
    pub copies: Vec<Vec<Nest>>,
    /// The reading direction.
    pub reads: Reads,
}

/// The pieces of one section, the outermost first: each lies in the middle of the one before. Pieces are counted from 0
/// in the order in which the steps end.
pub type Nest = Vec<usize>;

/// What is done to a sheet or a piece of one.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Steps {
    /// Folds of all that lies there.
    pub folds: Vec<Fold>,
    /// What comes after them.
    pub end: End,
}

/// How a list of steps ends.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum End {
    /// It is folded down to a page: a piece is done.
    Piece {
        /// The edge of the packet, as it lies, that the heads point to.
        head: Direction,
    },
    /// It is slit.
    Slit(Box<Slit>),
}

/// A slit through all that lies there.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Slit {
    /// Which way it runs.
    pub crease: Crease,
    /// Panels between the left or top edge of the packet, as it then lies, and the slit.
    pub after: u32,
    /// What comes of the two parts.
    pub then: Parted,
}

/// What comes of the two parts of a slit packet.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Parted {
    /// Each goes on by itself.
    Apart {
        /// The left or upper one.
        first: Steps,
        /// The right or lower one.
        second: Steps,
    },
    /// One is slid, not turned, onto or under the other, and they go on together.
    Laid {
        /// The part that is slid.
        moves: Part,
        /// Whether it comes to lie on the other or under it.
        lands: Lands,
        /// How they go on.
        then: Steps,
    },
}

/// The most pieces that a sheet may be slit into. A bound on work, not on paper.
pub const MAX_PIECES: usize = 256;

impl Steps {
    /// A list of folds that ends in a piece.
    #[must_use]
    pub const fn piece(folds: Vec<Fold>, head: Direction) -> Self {
        Self { folds, end: End::Piece { head } }
    }

    /// All lists that end in a piece, in the order of the pieces.
    #[must_use]
    pub fn pieces(&self) -> Vec<&Self> {
        let mut found = Vec::new();
        let mut open = vec![self];
        while let Some(steps) = open.pop() {
            match &steps.end {
                End::Piece { .. } => found.push(steps),
                End::Slit(slit) => match &slit.then {
                    Parted::Apart { first, second } => open.extend([second, first]),
                    Parted::Laid { then, .. } => open.push(then),
                },
            }
        }
        found
    }

    /// The same list, to be changed, that ends in piece number `piece`, from 0.
    pub fn piece_mut(&mut self, piece: usize) -> Option<&mut Self> {
        let mut left = piece;
        self.nth(&mut left)
    }

    fn nth(&mut self, left: &mut usize) -> Option<&mut Self> {
        if matches!(self.end, End::Piece { .. }) {
            if *left == 0 {
                return Some(self);
            }
            *left -= 1;
            return None;
        }
        let End::Slit(slit) = &mut self.end else { return None };
        match &mut slit.then {
            Parted::Apart { first, second } => match first.nth(left) {
                Some(found) => Some(found),
                None => second.nth(left),
            },
            Parted::Laid { then, .. } => then.nth(left),
        }
    }
}

impl Course {
    /// A sheet that is folded whole.
    #[must_use]
    pub fn of_scheme(scheme: &Scheme) -> Self {
        Self {
            rows: scheme.rows,
            columns: scheme.columns,
            steps: Steps::piece(scheme.folds.clone(), scheme.head),
            copies: vec![vec![vec![0]]],
            reads: scheme.reads,
        }
    }

    /// The scheme of a sheet that is folded whole.
    #[must_use]
    pub fn scheme(&self) -> Option<Scheme> {
        let End::Piece { head } = self.steps.end else { return None };
        let folds = self.steps.folds.clone();
        Some(Scheme { rows: self.rows, columns: self.columns, folds, head, reads: self.reads })
    }

    /// How many pieces there are.
    #[must_use]
    pub fn piece_count(&self) -> usize {
        self.steps.pieces().len()
    }

    /// How many sections each copy has.
    #[must_use]
    pub fn sections(&self) -> usize {
        self.copies.first().map_or(0, Vec::len)
    }
}
