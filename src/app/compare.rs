//! The same sheet folded in two ways: as it is in hand, and by its scheme.

use super::state::State;
use crate::fold::{Face, Fold, Lands, Scheme, library};
use crate::scene::{Bench, Printing, Stage, differences, reading_differences};

/// The two, with what differs marked.
#[derive(Clone, Debug)]
pub struct Compared {
    /// As it is in hand.
    pub in_hand: Bench,
    /// By its scheme.
    pub by_scheme: Bench,
    /// What differs, in a sentence.
    pub says: String,
}

impl State {
    /// Both ways at a moment of the rule. `None` where there is no sheet.
    #[must_use]
    pub fn compared(&self, at: f64) -> Option<Compared> {
        let printing = self.printing();
        let folded = |scheme: &Scheme, printing: &Printing| Bench::new(printing.clone(), scheme).ok();
        let (ours, right) = (self.folded_scheme(), self.scheme());
        let (in_hand, by_scheme) = (folded(&ours, &printing)?, folded(&right, &printing)?);
        let (first, second, says) = match in_hand.rule.stage(at) {
            Stage::Fold { made, .. } => {
                let found = differences(&in_hand, &by_scheme, made.min(by_scheme.rule.folds));
                let says = match found.first.len() {
                    0 => "Both lie alike.".to_owned(),
                    n => format!("{n} of {} pages lie otherwise.", printing.cells.len()),
                };
                (found.first, found.second, says)
            }
            _ => {
                let found = reading_differences(&in_hand, &by_scheme);
                let says = match found.first() {
                    None => "Both read alike.".to_owned(),
                    Some(first) => format!("They part at page {}: {} pages read otherwise.", first.place, found.len()),
                };
                let faces =
                    |of: fn(&crate::scene::ReadsOtherwise) -> Option<Face>| found.iter().filter_map(of).collect();
                (faces(|f| f.first), faces(|f| f.second), says)
            }
        };
        Some(Compared {
            in_hand: folded(&ours, &printing.clone().marking(&first))?,
            by_scheme: folded(&right, &printing.marking(&second))?,
            says,
        })
    }

    /// Other ways to fold the sheet on the bench: each fold the other way, then the schemes at hand of its size.
    #[must_use]
    pub fn other_ways(&self) -> Vec<(String, Vec<Fold>)> {
        let own = &self.scheme();
        let other_way = |(i, fold): (usize, &Fold)| {
            let mut folds = own.folds.clone();
            let lands = fold.lands.other();
            if let Some(fold) = folds.get_mut(i) {
                fold.lands = lands;
            }
            let word = if lands == Lands::Over { "over" } else { "under" };
            (format!("Fold {} {word}", i + 1), folds)
        };
        let of_its_size = library()
            .into_iter()
            .filter(|n| (n.scheme.rows, n.scheme.columns) == (own.rows, own.columns) && n.scheme.folds != own.folds);
        let ways = own.folds.iter().enumerate().map(other_way);
        ways.chain(of_its_size.map(|n| (n.name.to_owned(), n.scheme.folds))).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{Action, update};

    #[test]
    fn a_fold_the_other_way_parts_from_the_scheme_where_it_is_made() {
        let state = State::default();
        assert_eq!(state.compared(2.0).unwrap().says, "Both lie alike.");
        let (name, folds) = state.other_ways().swap_remove(1);
        assert_eq!(name, "Fold 2 under");
        let state = update(&state, Action::Try { folds, at: 0.0 }).0;
        assert_eq!(state.compared(1.0).unwrap().says, "Both lie alike.");
        let parted = state.compared(2.0).unwrap();
        assert!(parted.says.contains("pages lie otherwise"), "{}", parted.says);
        assert!(parted.in_hand.printing.differs.contains(&true));
        // Fold 2 the other way puts leaf i XOR 2 where leaf i is due: no page is at its place.
        assert_eq!(state.compared(5.0).unwrap().says, "They part at page 1: 16 pages read otherwise.");
    }
}
