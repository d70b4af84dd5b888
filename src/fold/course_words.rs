//! What is done to a sheet in words, so that a hand can do it with a blank one.

use super::course::{Course, End, Parted, Steps};
use super::scheme::{Crease, Lands, Part};
use super::words::fold_name;

/// What is done to a sheet until it is a section, in sentences: folds, slits, and how the pieces come together. Nothing is
/// said of pages.
#[must_use]
pub fn course_in_words(course: &Course) -> Vec<String> {
    let mut says = Vec::new();
    let mut pieces = 0;
    tell(&course.steps, None, &mut pieces, &mut says);
    for nest in course.copies.iter().flatten().filter(|nest| nest.len() > 1) {
        for pair in nest.windows(2).rev() {
            if let [host, guest] = pair {
                says.push(format!("Piece {} goes into the middle of piece {}.", guest + 1, host + 1));
            }
        }
    }
    says
}

fn tell(steps: &Steps, who: Option<&str>, pieces: &mut usize, says: &mut Vec<String>) {
    let folds: Vec<String> = steps.folds.iter().map(fold_name).collect();
    let done = matches!(steps.end, End::Piece { .. });
    match who {
        None => says.extend(folds.iter().map(|fold| format!("{fold}."))),
        Some(who) => {
            let folds = if folds.is_empty() { "not folded".into() } else { folds.join(", then ").to_ascii_lowercase() };
            let name = if done { format!("{who} is piece {}", *pieces + 1) } else { who.to_owned() };
            says.push(format!("{name}: {folds}."));
        }
    }
    let End::Slit(slit) = &steps.end else {
        *pieces += 1;
        return;
    };
    let upright = slit.crease == Crease::Vertical;
    let (way, from) = if upright { ("upright", "left") } else { ("level", "top") };
    let panels = if slit.after == 1 { "1 panel".into() } else { format!("{} panels", slit.after) };
    let it = if who.is_none() && steps.folds.is_empty() { "Slit the sheet" } else { "Slit it" };
    says.push(format!("{it} {way}, {panels} from the {from}."));
    let (one, other) = if upright { ("left", "right") } else { ("upper", "lower") };
    match &slit.then {
        Parted::Apart { first, second } => {
            let of = if who.is_none() { "The" } else { "Of this the" };
            tell(first, Some(&format!("{of} {one} part")), pieces, says);
            tell(second, Some(&format!("{of} {other} part")), pieces, says);
        }
        Parted::Laid { moves, lands, then } => {
            let (moved, still) = if matches!(moves, Part::Left | Part::Top) { (one, other) } else { (other, one) };
            let lands = if *lands == Lands::Over { "on" } else { "under" };
            says.push(format!("Slide the {moved} part {lands} the {still} one; they go on together."));
            tell(then, None, pieces, says);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::courses;

    fn of(name: &str) -> Vec<String> {
        let found = courses().into_iter().find(|c| c.name == name).unwrap();
        course_in_words(&found.course)
    }

    #[test]
    fn folds_slits_and_insets_are_told_in_order() {
        assert_eq!(of("Sixteen, three folds"), ["Right over left.", "Top over bottom.", "Right over left."]);
        assert_eq!(
            of("Twelves, off-cut inset"),
            [
                "Slit the sheet level, 1 panel from the top.",
                "The upper part is piece 1: left under right, then left over right.",
                "The lower part is piece 2: right under left, then top over bottom, then right over left.",
                "Piece 1 goes into the middle of piece 2.",
            ]
        );
        let eight = of("Octavo, twelve and four of other matter");
        assert_eq!(eight[3], "Slit it level, 1 panel from the top.");
        assert_eq!(eight[4], "Of this the upper part is piece 2: right over left.");
    }

    #[test]
    fn every_course_can_be_told() {
        for named in courses() {
            let says = course_in_words(&named.course);
            assert!(
                !says.is_empty() && says.iter().all(|s| s.ends_with('.') && s.len() > 8),
                "{}: {says:?}",
                named.name
            );
            let pieces = named.course.steps.pieces().len();
            assert!(
                pieces == 1 || says.iter().any(|s| s.contains(&format!("is piece {pieces}:"))),
                "{}: {says:?}",
                named.name
            );
        }
    }
}
