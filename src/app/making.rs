//! What is said of a sheet in the making: pieces that are larger than a page, loose leaves, how it is backed up. And how its
//! pieces are put together, told piece by piece.

use super::sheet::Sheet;
use crate::fold::{Backing, FoldError, Nest, backing};

/// What becomes of a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// It is a section of its own, or the outermost piece of one.
    Section,
    /// It lies in the middle of this piece, from 0.
    Inside(usize),
    /// It is what this piece is, for the second copy.
    Copy(usize),
    /// It is waste.
    Waste,
}

impl Sheet {
    /// What becomes of each piece.
    #[must_use]
    pub fn roles(&self) -> Vec<Role> {
        let mut roles = vec![Role::Waste; self.course.piece_count()];
        let mut set = |piece: usize, role: Role| {
            if let Some(slot) = roles.get_mut(piece) {
                *slot = role;
            }
        };
        let (first, more) = match self.course.copies.split_first() {
            Some((first, more)) => (first.as_slice(), more),
            None => (&[][..], &[][..]),
        };
        for nest in first {
            for (k, piece) in nest.iter().enumerate() {
                let around = k.checked_sub(1).and_then(|k| nest.get(k));
                set(*piece, around.map_or(Role::Section, |p| Role::Inside(*p)));
            }
        }
        for copy in more {
            for (nest, of) in copy.iter().zip(first) {
                for (piece, of) in nest.iter().zip(of) {
                    set(*piece, Role::Copy(*of));
                }
            }
        }
        roles
    }

    /// The pieces put together so that a piece becomes something else.
    ///
    /// # Errors
    /// A sentence, if it can't be.
    pub fn with_role(&self, piece: usize, role: Role) -> Result<Vec<Vec<Nest>>, String> {
        let mut roles = self.roles();
        let Some(slot) = roles.get_mut(piece) else { return Err("There is no such piece.".into()) };
        *slot = role;
        if let Role::Inside(of) | Role::Copy(of) = role
            && of == piece
        {
            return Err("A piece can't be laid into itself.".into());
        }
        // What lay in it, or was its copy, has to find another place.
        if !matches!(role, Role::Section | Role::Inside(_)) {
            for slot in &mut roles {
                if matches!(slot, Role::Inside(of) | Role::Copy(of) if *of == piece) {
                    *slot = Role::Section;
                }
            }
        }
        let is_section = |p: &usize| roles.get(*p) == Some(&Role::Section);
        // Sections keep the order that they had; new ones follow.
        let mut order: Vec<usize> =
            self.course.copies.iter().take(1).flatten().filter_map(|n| n.first().copied()).filter(is_section).collect();
        order.extend((0..roles.len()).filter(|p| is_section(p) && !order.contains(p)).collect::<Vec<_>>());
        let inside = |of: usize, taken: &Nest| {
            (0..roles.len()).find(|p| roles.get(*p) == Some(&Role::Inside(of)) && !taken.contains(p))
        };
        let first: Vec<Nest> = order
            .iter()
            .map(|outer| {
                let mut nest = vec![*outer];
                while let Some(next) = nest.last().and_then(|last| inside(*last, &nest)) {
                    nest.push(next);
                }
                nest
            })
            .collect();
        let copy_of = |of: &usize| (0..roles.len()).find(|p| roles.get(*p) == Some(&Role::Copy(*of)));
        let second: Vec<Nest> =
            first.iter().filter_map(|nest| nest.iter().map(copy_of).collect::<Option<Nest>>()).collect();
        if first.is_empty() {
            return Err("One piece at least is a section.".into());
        }
        Ok(if second.is_empty() { vec![first] } else { vec![first, second] })
    }

    /// The pieces put together with the section of a piece one place earlier.
    #[must_use]
    pub fn earlier(&self, piece: usize) -> Vec<Vec<Nest>> {
        let mut copies = self.course.copies.clone();
        let at = copies.first().and_then(|first| first.iter().position(|n| n.first() == Some(&piece)));
        if let Some(before) = at.and_then(|at| at.checked_sub(1)) {
            for copy in copies.iter_mut().filter(|copy| before + 1 < copy.len()) {
                copy.swap(before, before + 1);
            }
        }
        copies
    }

    /// What has to be said of the sheet: pieces larger than a page, loose leaves, one forme for both sides.
    #[must_use]
    pub fn sheet_says(&self) -> Vec<String> {
        let Some(worked) = self.making() else { return Vec::new() };
        let mut says = Vec::new();
        let roles = self.roles();
        let whole = self.is_whole();
        for unfinished in worked.unfinished.iter().filter(|u| roles.get(u.piece) != Some(&Role::Waste)) {
            let what = if whole { "The sheet".to_owned() } else { format!("Piece {}", unfinished.piece + 1) };
            match unfinished.why {
                FoldError::Unfinished { rows, columns } => says.push(format!(
                    "{what} is still {columns} by {rows} panels, larger than a page: fold it on, or slit it."
                )),
                _ if whole => {}
                _ => says.push(format!("{what} can’t be read as a section: {}.", unfinished.why)),
            }
        }
        for (i, nest) in self.course.copies.iter().take(1).flatten().enumerate() {
            let Some(section) = worked.nested(nest).filter(|s| s.held.len() > 1) else { continue };
            let loose: Vec<String> =
                (1..).zip(&section.held).filter(|(_, h)| !**h).map(|(n, _): (u32, _)| n.to_string()).collect();
            let of = if self.per_sheet() > 1 { format!(" of section {}", i + 1) } else { String::new() };
            match loose.as_slice() {
                [] => {}
                [one] => says.push(format!("Leaf {one}{of} is loose: no fold holds it at the spine.")),
                [all @ .., last] => says.push(format!(
                    "Leaves {} and {last}{of} are loose: no fold holds them at the spine.",
                    all.join(", ")
                )),
            }
        }
        if !whole && worked.unfinished.iter().all(|u| roles.get(u.piece) == Some(&Role::Waste)) {
            match backing(&worked) {
                Backing::Sheetwise => {}
                Backing::WorkAndTurn => says.push("One forme prints both sides: work and turn.".into()),
                Backing::WorkAndTumble => says.push("One forme prints both sides: work and tumble.".into()),
            }
        }
        says
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{Action, State, update};
    use crate::fold::{Crease, Direction, Fold, Lands, Part};

    fn run(actions: Vec<Action>) -> State {
        actions.into_iter().fold(State::default(), |state, action| {
            let next = update(&state, action).0;
            assert_eq!(next.said, None);
            next
        })
    }

    fn over(after: u32, moves: Part) -> Action {
        Action::AddFold(Fold::new(after, moves, Lands::Over))
    }

    /// The common twelves made step by step: the off-cut folded twice, the rest three times, one in the other.
    #[test]
    fn twelves_are_made_by_hand() {
        let state = run(vec![
            Action::MakeOwn { rows: 3, columns: 4 },
            Action::Slit { crease: Crease::Horizontal, after: 1 },
            over(2, Part::Right),
        ]);
        assert_eq!(state.look.piece, Some(0), "the first piece lies on the bench");
        assert_eq!(
            state.sheet().sheet_says()[0],
            "Piece 1 is still 2 by 1 panels, larger than a page: fold it on, or slit it."
        );
        let state = [
            over(1, Part::Right),
            Action::Piece(Some(1)),
            over(2, Part::Right),
            over(1, Part::Top),
            over(1, Part::Right),
        ]
        .into_iter()
        .fold(state, |state, action| update(&state, action).0);
        assert_eq!(state.sheet().sheet_says(), Vec::<String>::new());
        let copies = state.sheet().with_role(0, Role::Inside(1)).unwrap();
        assert_eq!(copies, [[[1, 0]]]);
        let state = update(&state, Action::PutTogether(copies)).0;
        assert_eq!((state.said.clone(), state.job.pages_of(1), state.sheet().per_sheet()), (None, 24, 1));
        assert_eq!(state.sheet().roles(), [Role::Inside(1), Role::Section]);
    }

    /// A half-sheet: slit in the middle, both halves folded, the second a copy of the first.
    #[test]
    fn a_half_sheet_says_how_it_is_backed_up() {
        let state = run(vec![
            Action::MakeOwn { rows: 2, columns: 4 },
            Action::Slit { crease: Crease::Vertical, after: 2 },
            over(1, Part::Top),
            over(1, Part::Right),
            Action::Piece(Some(1)),
            Action::AddFold(Fold::new(1, Part::Bottom, Lands::Under)),
            over(1, Part::Right),
            Action::Head(Direction::Down),
        ]);
        let copies = state.sheet().with_role(1, Role::Copy(0)).unwrap();
        let state = update(&state, Action::PutTogether(copies)).0;
        assert_eq!(state.sheet().sheet_says(), ["One forme prints both sides: work and turn."]);
        assert_eq!((state.job.pages_of(1), state.sheet().per_sheet()), (8, 1));
        // As waste it is no copy any more.
        assert_eq!(state.sheet().with_role(1, Role::Waste).unwrap(), [[[0]]]);
    }

    #[test]
    fn loose_leaves_are_said() {
        let state = run(vec![Action::MakeOwn { rows: 1, columns: 3 }, over(2, Part::Right), over(1, Part::Left)]);
        assert_eq!(state.sheet().sheet_says(), ["Leaf 2 is loose: no fold holds it at the spine."]);
    }
}
