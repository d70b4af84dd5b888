//! Published learning outcomes that exercises serve, in our own words. Sources are named as they were read: extracts of the
//! standards, not the whole works.

use super::kind::Kind;

/// A learning outcome.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Outcome {
    /// What is to be learnt.
    pub says: &'static str,
    /// Who published it.
    pub source: &'static str,
    /// The kinds of exercise that serve it.
    pub served_by: &'static [Kind],
}

/// All of them.
pub const OUTCOMES: [Outcome; 6] = [
    Outcome {
        says: "Draw up lay sheets, upright and oblong, to sixteen pages with up to three folds.",
        source: "New Zealand Qualifications Authority, unit standard 17933 (level 3)",
        served_by: &[Kind::NumberSheet, Kind::SetHeads, Kind::FindFolds],
    },
    Outcome {
        says: "Roll folds and slitting.",
        source: "New Zealand Qualifications Authority, unit standard 3655",
        served_by: &[Kind::NumberSheet, Kind::Bolts],
    },
    Outcome {
        says: "Use signatures and spine marks, then set up and run the gathering machine.",
        source: "New Zealand Qualifications Authority, unit standard 3664 (level 4)",
        served_by: &[Kind::WrongBook, Kind::BackMarks],
    },
    Outcome {
        says: "Find and record faults: a logbook of twenty, in material, setting up and workplace.",
        source: "New Zealand Qualifications Authority, unit standard 27780",
        served_by: &[Kind::WrongSheet, Kind::WrongBook],
    },
    Outcome {
        says: "Prepare folding dummies for common layouts, and name the folds.",
        source: "PrintED / SkillsUSA, competencies of finishing and binding",
        served_by: &[Kind::NumberSheet, Kind::SetHeads, Kind::FindFolds],
    },
    Outcome {
        says: "Collate in sequence.",
        source: "PrintED / SkillsUSA, competencies of finishing and binding",
        served_by: &[Kind::WrongBook],
    },
];

/// The outcomes that a kind of exercise serves. Some kinds serve none that was found in print.
pub fn outcomes(kind: Kind) -> impl Iterator<Item = &'static Outcome> {
    OUTCOMES.iter().filter(move |outcome| outcome.served_by.contains(&kind))
}
