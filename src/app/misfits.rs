//! Where panels would not fold as they should, in words.

use crate::fold::{Branch, BranchEnd, Measure, Measured, Misfit, Worked};

/// Every misfit of a sheet as a sentence, in the order in which the folds are made.
#[must_use]
pub fn misfit_sentences(worked: &Worked, measure: &Measure) -> Vec<String> {
    let mut says = Vec::new();
    tell(&worked.trunk, &Measured::of(&worked.trunk, measure), 0, &mut says);
    says
}

/// Folds are counted on from those made before the slit, as the hands count them.
fn tell(branch: &Branch, measured: &Measured, before: usize, says: &mut Vec<String>) {
    let folds = branch.folding.steps.len();
    says.extend(measured.misfits.iter().map(|misfit| sentence(misfit, folds, before)));
    let parts: Vec<&Branch> = match &branch.end {
        BranchEnd::Piece(_) => Vec::new(),
        BranchEnd::Apart { parts, .. } => parts.iter().collect(),
        BranchEnd::Laid { then, .. } => vec![then],
    };
    for (part, measured) in parts.into_iter().zip(&measured.parts) {
        tell(part, measured, before + folds, says);
    }
}

fn sentence(misfit: &Misfit, folds: usize, before: usize) -> String {
    let place = |step: usize| if step < folds { format!("Fold {}", before + step + 1) } else { "The slit".into() };
    match misfit {
        Misfit::LinesApart { step, by } => {
            format!("{}: the layers do not meet at one line; they lie up to {} apart.", place(*step), by.text())
        }
        Misfit::Caught { step, by } if *step < folds => {
            format!("{}: a panel is {} too long and would be caught in the fold.", place(*step), by.text())
        }
        Misfit::Caught { step, by } => {
            format!("{}: a panel reaches {} over the line and would be cut.", place(*step), by.text())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::{Course, Direction, Fold, Lands, Part, Reads, Scheme};
    use crate::paper::Length;

    fn said(folds: Vec<Fold>, columns: &[i64]) -> Vec<String> {
        let head = Direction::Up;
        let scheme = Scheme { rows: 1, columns: columns.len() as u32, folds, head, reads: Reads::LeftToRight };
        let worked = Worked::of(&Course::of_scheme(&scheme)).unwrap();
        let columns = columns.iter().map(|mm| Length::from_whole_mm(*mm)).collect();
        misfit_sentences(&worked, &Measure { columns, rows: vec![Length::from_whole_mm(200)] })
    }

    #[test]
    fn a_panel_too_long_for_a_letter_fold_is_caught() {
        let letter = || vec![Fold::new(2, Part::Right, Lands::Over), Fold::new(1, Part::Left, Lands::Over)];
        assert_eq!(said(letter(), &[100, 100, 98]), Vec::<String>::new());
        let caught = ["Fold 2: a panel is 1 mm too long and would be caught in the fold."];
        assert_eq!(said(letter(), &[100, 100, 101]), caught);
    }

    #[test]
    fn creases_that_do_not_meet_are_told() {
        let twice = vec![Fold::new(2, Part::Right, Lands::Over), Fold::new(1, Part::Right, Lands::Over)];
        let apart = ["Fold 2: the layers do not meet at one line; they lie up to 10 mm apart."];
        assert_eq!(said(twice, &[50, 60, 50, 40]), apart);
    }

    #[test]
    fn the_slit_is_called_so_and_folds_after_it_are_counted_on() {
        let by = Length::MM;
        assert!(sentence(&Misfit::Caught { step: 1, by }, 1, 0).starts_with("The slit: a panel reaches 1 mm"));
        assert!(sentence(&Misfit::LinesApart { step: 0, by }, 2, 3).starts_with("Fold 4:"));
    }
}
