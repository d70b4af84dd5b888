//! The same folds told otherwise. If the other part moves, and lands over or under as before, the same packet lies there
//! turned over; whoever goes on folds it in mirror image, and over where it was under.

use super::folding::Folding;
use super::library::{NamedScheme, library};
use super::scheme::{Crease, Fold, Lands, Part, Scheme};

impl Scheme {
    /// The same folds with the other part moving in every fold that `other` picks. It is given the fold as it then lies,
    /// and where the next one would land if this one stays as it is. `None` where the folds can't be made.
    fn retold(&self, other: impl Fn(&Fold, Option<Lands>) -> bool) -> Option<Self> {
        let folding = Folding::of(self).ok().filter(|f| f.stopped.is_none())?;
        // How the packet lies now against how it lay: mirrored left to right, top to bottom; turned over if one of them.
        let (mut x, mut y) = (false, false);
        let mut told = self.clone();
        for (k, fold) in told.folds.iter_mut().enumerate() {
            let next = self.folds.get(k + 1).map(|f| if x != y { f.lands.other() } else { f.lands });
            let extent = folding.packet(k).extent();
            let (mirrored, size) = match fold.crease {
                Crease::Vertical => (x, extent.width()),
                Crease::Horizontal => (y, extent.height()),
            };
            if mirrored {
                fold.moves = fold.moves.other();
                fold.after = size.unsigned_abs().checked_sub(fold.after)?;
            }
            if x != y {
                fold.lands = fold.lands.other();
            }
            if other(fold, next) {
                match fold.crease {
                    Crease::Vertical => x = !x,
                    Crease::Horizontal => y = !y,
                }
                fold.moves = fold.moves.other();
            }
        }
        told.head = self.head.mirrored(x, y);
        Some(told)
    }

    /// The same folds as a hand likes to make them: each part lands over what stays, but for the first one if the sheet
    /// lies with the wrong side up for that. `None` where the folds can't be made.
    #[must_use]
    pub fn by_hand(&self) -> Option<Self> {
        self.retold(|_, next| next == Some(Lands::Under))
    }

    /// The same folds with the right or the bottom part moving in each, which is one form for all ways of telling them.
    /// `None` where the folds can't be made.
    #[must_use]
    pub fn right_and_bottom(&self) -> Option<Self> {
        self.retold(|fold, _| matches!(fold.moves, Part::Left | Part::Top))
    }

    /// The scheme at hand that is folded so, however it is told.
    #[must_use]
    pub fn named(&self) -> Option<NamedScheme> {
        let own = self.right_and_bottom()?;
        let same = |named: &NamedScheme| named.scheme.right_and_bottom().as_ref() == Some(&own);
        library().into_iter().find(same)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::Landing;
    use proptest::prelude::*;

    fn any_scheme() -> impl Strategy<Value = Scheme> {
        let folds = proptest::collection::vec((any::<u32>(), any::<[bool; 3]>()), 12);
        (1u32..5, 1u32..7, folds, any::<[bool; 2]>()).prop_filter_map("no fold", |(rows, columns, choices, ends)| {
            let (mut w, mut h) = (columns, rows);
            let (head, reads) = (crate::fold::Direction::Up, crate::fold::Reads::LeftToRight);
            let mut scheme = Scheme { rows, columns, folds: Vec::new(), head, reads };
            for (n, [upright, first, over]) in choices {
                let upright = if w > 1 && h > 1 { upright } else { w > 1 };
                let size = if upright { &mut w } else { &mut h };
                if *size < 2 {
                    break;
                }
                let after = 1 + n % (*size - 1);
                *size = after.max(*size - after);
                let part = match (upright, first) {
                    (true, true) => Part::Left,
                    (true, false) => Part::Right,
                    (false, true) => Part::Top,
                    (false, false) => Part::Bottom,
                };
                scheme.folds.push(Fold::new(after, part, if over { Lands::Over } else { Lands::Under }));
            }
            let upright = scheme.folds.last()?.crease == Crease::Vertical;
            use crate::fold::Direction::{Down, Left, Right, Up};
            scheme.head = match (upright, ends[0]) {
                (true, true) => Up,
                (true, false) => Down,
                (false, true) => Left,
                (false, false) => Right,
            };
            if ends[1] {
                scheme.reads = crate::fold::Reads::RightToLeft;
            }
            (w == 1 && h == 1).then_some(scheme)
        })
    }

    proptest! {
        #[test]
        fn folds_told_otherwise_land_alike(scheme in any_scheme()) {
            let over = scheme.by_hand().unwrap();
            prop_assert!(over.folds.iter().skip(1).all(|f| f.lands == Lands::Over));
            let right = scheme.right_and_bottom().unwrap();
            prop_assert!(right.folds.iter().all(|f| matches!(f.moves, Part::Right | Part::Bottom)));
            let landing = Landing::of(&scheme).unwrap();
            prop_assert_eq!(&Landing::of(&over).unwrap(), &landing);
            prop_assert_eq!(&Landing::of(&right).unwrap(), &landing);
            prop_assert_eq!(over.right_and_bottom().unwrap(), right);
        }
    }

    #[test]
    fn every_scheme_at_hand_is_known_by_its_name_however_it_is_told() {
        for named in library() {
            assert_eq!(named.scheme.right_and_bottom().unwrap().named().map(|n| n.name), Some(named.name));
        }
    }
}
