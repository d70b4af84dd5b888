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
    use crate::fold::{Course, Scheme, library};
    use crate::paper::Length;

    fn letter() -> Scheme {
        let all = library();
        let three = |s: &&crate::fold::NamedScheme| (s.scheme.rows, s.scheme.columns) == (1, 3);
        all.iter().find(three).map(|s| s.scheme.clone()).expect("a sheet of three panels is in the library")
    }

    #[test]
    fn equal_panels_of_a_crossed_fold_fit() {
        let scheme = crate::fold::sixteen().scheme;
        let worked = Worked::of(&Course::of_scheme(&scheme)).unwrap();
        let mm = Length::from_whole_mm;
        let measure = Measure::equal(scheme.rows, scheme.columns, mm(564), mm(444));
        assert_eq!(misfit_sentences(&worked, &measure), Vec::<String>::new());
        let mut uneven = measure;
        if let Some(first) = uneven.columns.first_mut() {
            *first = *first + Length::MM;
        }
        let says = misfit_sentences(&worked, &uneven);
        assert!(says.iter().any(|s| s.starts_with("Fold ")), "{says:?}");
    }

    #[test]
    fn a_panel_too_long_for_its_fold_is_caught() {
        let scheme = letter();
        let worked = Worked::of(&Course::of_scheme(&scheme)).unwrap();
        let mm = Length::from_whole_mm;
        let caught = |columns: [i64; 3]| {
            let measure = Measure { columns: columns.map(mm).to_vec(), rows: vec![mm(297)] };
            misfit_sentences(&worked, &measure)
        };
        // Whichever outer panel is folded first is the one that is tucked in.
        let both = [caught([101, 100, 100]), caught([100, 100, 101])];
        let expected = "a panel is 1 mm too long and would be caught in the fold.";
        assert!(both.iter().flatten().any(|s| s.ends_with(expected)), "{both:?}");
    }
}
