//! Folds made by hand told as causes, and causes chosen from the list. No web in here.

use crate::fold::Scheme;
use crate::fold::misfold::{Cause, act_out};

/// The causes of the list, at most `most` of them, by which the right sheet comes to be folded so; the fewest there are. `None`
/// where folds were made that no cause tells.
pub fn by_hand(scheme: &Scheme, first_page: u32, menu: &[Cause], folded: &Scheme, most: usize) -> Option<Vec<Cause>> {
    let of_folds = |c: &&Cause| matches!(c, Cause::FoldOtherWay { .. } | Cause::FoldFromOtherEdge { .. });
    let folds: Vec<&Cause> = menu.iter().filter(of_folds).collect();
    let makes =
        |cause: &Cause| act_out(scheme, first_page, cause).is_ok_and(|acted| acted.folded.folds == folded.folds);
    let single = folds.iter().find(|cause| makes(cause)).map(|cause| vec![(**cause).clone()]);
    if single.is_some() || most < 2 {
        return single;
    }
    let pairs = folds.iter().enumerate().flat_map(|(at, a)| folds.iter().skip(at + 1).map(move |b| [*a, *b]));
    let mut pairs = pairs.map(|pair| pair.map(Clone::clone).to_vec());
    pairs.find(|pair| makes(&Cause::Together { causes: pair.clone() }))
}

/// The answer once the folds were made so: what else was answered stays, as far as there is room.
pub fn with_folds(answer: &[Cause], folds: &[Cause], most: usize) -> Vec<Cause> {
    let of_folds = |c: &Cause| matches!(c, Cause::FoldOtherWay { .. } | Cause::FoldFromOtherEdge { .. });
    let others = answer.iter().filter(|c| !of_folds(c) && !folds.contains(c));
    let room = most.saturating_sub(folds.len());
    folds.iter().chain(others.take(room)).take(most).cloned().collect()
}

/// The answer once a sentence of the list was chosen: it is let go if it was chosen, and the first one gives way where there
/// are as many as are asked for.
pub fn chosen(answer: &[Cause], cause: &Cause, most: usize) -> Vec<Cause> {
    let mut causes: Vec<Cause> = answer.iter().filter(|c| *c != cause).cloned().collect();
    if causes.len() == answer.len() {
        causes.push(cause.clone());
    }
    let beyond = causes.len().saturating_sub(most);
    causes.drain(..beyond);
    causes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::{Lands, sixteen};
    use crate::practice::{Exercise, Kind, Task};

    const fn other_way(fold: u32) -> Cause {
        Cause::FoldOtherWay { fold }
    }

    #[test]
    fn a_fold_made_wrong_by_hand_is_told_as_its_cause() {
        let exercise = Exercise::of(Kind::WrongSheet, 3, 1).unwrap();
        let Task::WrongSheet { scheme, first_page, menu, .. } = exercise.task else { panic!() };
        for fold in 1..=2 {
            let mut folded = scheme.clone();
            let lands = &mut folded.folds[fold - 1].lands;
            *lands = lands.other();
            let told = by_hand(&scheme, first_page, &menu, &folded, 1).unwrap();
            assert_eq!(told, [other_way(fold as u32)]);
        }
        // Two at once are two causes, where two are asked for.
        let mut folded = scheme.clone();
        for fold in &mut folded.folds[..2] {
            fold.lands = fold.lands.other();
        }
        assert_eq!(by_hand(&scheme, first_page, &menu, &folded, 1), None);
        assert_eq!(by_hand(&scheme, first_page, &menu, &folded, 2).unwrap(), [other_way(1), other_way(2)]);
        // The same folds are none, and so are folds at other creases.
        assert_eq!(by_hand(&scheme, first_page, &menu, &scheme, 1), None);
        let mut shorter = sixteen().scheme;
        shorter.folds.truncate(1);
        shorter.folds[0].lands = Lands::Under;
        assert_eq!(by_hand(&sixteen().scheme, 1, &menu, &shorter, 2), None);
    }

    #[test]
    fn what_is_chosen_beyond_the_number_takes_the_place_of_the_first() {
        assert_eq!(chosen(&[other_way(1)], &other_way(2), 1), [other_way(2)]);
        assert_eq!(chosen(&[other_way(1)], &other_way(1), 1), []);
        assert_eq!(chosen(&[other_way(1), Cause::DoubleSheet], &other_way(2), 2), [Cause::DoubleSheet, other_way(2)]);
        let answer = [Cause::DoubleSheet, other_way(1)];
        assert_eq!(with_folds(&answer, &[other_way(3)], 2), [other_way(3), Cause::DoubleSheet]);
        assert_eq!(with_folds(&answer, &[other_way(3), other_way(1)], 2), [other_way(3), other_way(1)]);
        assert_eq!(with_folds(&answer, &[other_way(3)], 1), [other_way(3)]);
    }
}
