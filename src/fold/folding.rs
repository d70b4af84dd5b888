//! The folding itself: a scheme carried out, with the packet after every fold and what each fold did.

use super::error::FoldError;
use super::geometry::Face;
use super::packet::{Packet, Turn};
use super::scheme::{Crease, Fold, Lands, Scheme};

/// A face of the moving part that came to lie against a face of the part that stayed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Contact {
    /// The face that fell.
    pub fell: Face,
    /// The face that it fell on (or against, when the fold lands under).
    pub on: Face,
    /// The panel of the packet where they meet.
    pub x: i32,
    /// The panel of the packet where they meet.
    pub y: i32,
}

/// One fold that was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// What it did to the layers.
    pub turn: Turn,
    /// The packet afterwards.
    pub after: Packet,
}

impl Step {
    /// What fell on what, row by row from the top, left to right.
    #[must_use]
    pub fn contacts(&self) -> Vec<Contact> {
        let (moves, stays): (Vec<_>, Vec<_>) =
            self.after.layers.iter().enumerate().partition(|(i, _)| self.turn.moved(*i));
        let over = self.turn.fold.lands == Lands::Over;
        let mut contacts = Vec::new();
        for (x, y) in self.after.extent().cells() {
            let here = |layers: &[(usize, &super::packet::Layer)], top: bool| {
                let mut there = layers.iter().map(|(_, l)| **l).filter(|l| l.footprint().holds(x, y));
                if top { there.next_back() } else { there.next() }
            };
            // Over: the lowest moved layer meets the highest one that stayed. Under: the reverse.
            if let (Some(moved), Some(stayed)) = (here(&moves, !over), here(&stays, over)) {
                let (fell, on) = if over {
                    (moved.face_down(x, y), stayed.face_up(x, y))
                } else {
                    (moved.face_up(x, y), stayed.face_down(x, y))
                };
                contacts.push(Contact { fell, on, x, y });
            }
        }
        contacts
    }

    /// The contacts that a folder looks at: the one farthest from the crease in each line across it, from the bottom
    /// up (vertical crease) or from left to right (horizontal crease).
    #[must_use]
    pub fn corner_contacts(&self) -> Vec<Contact> {
        let vertical = self.turn.fold.crease == Crease::Vertical;
        let mut lines: Vec<Contact> = Vec::new();
        for c in self.contacts() {
            let line = |c: &Contact| if vertical { -c.y } else { c.x };
            let away = |c: &Contact| (2 * if vertical { c.x } else { c.y } + 1 - 2 * self.turn.at).abs();
            match lines.binary_search_by_key(&line(&c), line) {
                Ok(i) => {
                    if let Some(best) = lines.get_mut(i).filter(|b| away(b) < away(&c)) {
                        *best = c;
                    }
                }
                Err(i) => lines.insert(i, c),
            }
        }
        lines
    }
}

/// A scheme carried out as far as it goes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Folding {
    /// Rows of the sheet.
    pub rows: u32,
    /// Columns of the sheet.
    pub columns: u32,
    /// What lies on the bench before the first fold: the flat sheet, or a piece as it came from the slit.
    pub flat: Packet,
    /// The folds that could be made, in order.
    pub steps: Vec<Step>,
    /// Why the fold after them could not be made.
    pub stopped: Option<FoldError>,
}

impl Folding {
    /// Folds as far as the folds can be made. An unfinished folding is a value like any other.
    ///
    /// # Errors
    /// When the sheet has no panel or too many.
    pub fn of(scheme: &Scheme) -> Result<Self, FoldError> {
        scheme.check_size()?;
        Ok(Self::from_packet(Packet::flat(scheme.rows, scheme.columns), scheme.rows, scheme.columns, &scheme.folds))
    }

    /// Folds on from a packet of a sheet of `rows` and `columns` as far as the folds can be made.
    pub(super) fn from_packet(flat: Packet, rows: u32, columns: u32, folds: &[Fold]) -> Self {
        let mut folding = Self { rows, columns, flat, steps: Vec::new(), stopped: None };
        for (number, fold) in folds.iter().enumerate() {
            match make(folding.last(), fold, number) {
                Ok(step) => folding.steps.push(step),
                Err(why) => {
                    folding.stopped = Some(why);
                    break;
                }
            }
        }
        folding
    }

    /// The packet after `made` folds; 0 is the flat sheet. Beyond the last fold it is the last packet.
    #[must_use]
    pub fn packet(&self, made: usize) -> &Packet {
        match made.min(self.steps.len()).checked_sub(1).and_then(|i| self.steps.get(i)) {
            Some(step) => &step.after,
            None => &self.flat,
        }
    }

    /// The packet as it lies at the end.
    #[must_use]
    pub fn last(&self) -> &Packet {
        self.packet(self.steps.len())
    }

    /// Makes one more fold on a copy of the last packet, and leaves the folding as it is.
    ///
    /// # Errors
    /// When it can't be made; the error counts it as the fold after those made.
    pub fn try_fold(&self, fold: &Fold) -> Result<Step, FoldError> {
        make(self.last(), fold, self.steps.len())
    }
}

/// The packet after all folds, for a caller who wants the section and not the way to it: every packet of a long
/// accordion kept would be hundreds of megabytes.
pub(super) fn end_of(scheme: &Scheme) -> Result<Packet, FoldError> {
    scheme.check_size()?;
    let mut packet = Packet::flat(scheme.rows, scheme.columns);
    // A layer is a panel at least, so that no fold needs more room.
    let most = scheme.leaves() as usize;
    packet.layers.reserve_exact(most);
    let mut spare = Vec::with_capacity(most);
    for (number, fold) in scheme.folds.iter().enumerate() {
        if packet.fold_in_place(fold, &mut spare).is_none() {
            return Err(refusal(&packet, fold, number));
        }
    }
    Ok(packet)
}

/// Makes one fold, which is number `number` of its scheme, counted from 0.
fn make(packet: &Packet, fold: &Fold, number: usize) -> Result<Step, FoldError> {
    match packet.fold(fold) {
        Some((after, turn)) => Ok(Step { turn, after }),
        None => Err(refusal(packet, fold, number)),
    }
}

/// Why a fold that can't be made can't be made.
#[cold]
pub(super) fn refusal(packet: &Packet, fold: &Fold, number: usize) -> FoldError {
    let vertical = fold.crease == Crease::Vertical;
    if fold.moves.crease() != fold.crease {
        return FoldError::PartBesideOtherCrease { fold: number, vertical };
    }
    let extent = packet.extent();
    let size = if vertical { extent.width() } else { extent.height() }.unsigned_abs();
    FoldError::CreaseOutside { fold: number, after: fold.after, size, vertical }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::{Landing, Section, library};

    #[test]
    fn the_end_alone_gives_the_same_packet_the_same_section_and_the_same_refusals() {
        for mut scheme in library().into_iter().map(|n| n.scheme) {
            let whole = Folding::of(&scheme).unwrap();
            assert_eq!(end_of(&scheme).as_ref(), Ok(whole.last()));
            assert_eq!(Section::of_scheme(&scheme), Section::of(&scheme, &whole));
            if let Some(last) = scheme.folds.last_mut() {
                last.after = 2;
            }
            assert_eq!(end_of(&scheme).err(), Folding::of(&scheme).unwrap().stopped);
            assert_eq!(Landing::of(&scheme).err(), Folding::of(&scheme).unwrap().stopped);
        }
    }
}
