//! A worksheet: exercises to be done on paper, in as many variants as there are people, each with seeds of its own. Whoever has
//! the codes has the exercises, and so the key.

use super::code::{MOST_CODED, exercise_of};
use super::exercise::Exercise;
use super::kind::{Kind, LEVELS};
use crate::dice::Dice;
use crate::marks::Refusal;
use serde::{Deserialize, Serialize};

/// The most variants of a worksheet. A bound of this program: a class and a few more.
pub const MOST_VARIANTS: u32 = 40;
/// The most exercises of a variant. A bound of this program: more than a lesson holds.
pub const MOST_ON_SHEET: usize = 12;
/// How often a seed is rolled again if it sets what stands on the sheet already.
const TRIES: u32 = 20;

/// An exercise that is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wanted {
    /// Its kind.
    pub kind: Kind,
    /// Its level.
    pub level: u8,
    /// The number that it is made from in the first variant; all others are rolled.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seed: Option<u64>,
}

/// A worksheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Worksheet {
    /// The number that the seeds were rolled from; `None` where the exercises came by their codes.
    pub seed: Option<u64>,
    /// The exercises of each variant. All of them have codes.
    pub variants: Vec<Vec<Exercise>>,
}

/// The mixed worksheet of a level: a sheet to number, folds to find, five spines to judge. What a teacher of the trade puts on
/// one: common practice, no source.
#[must_use]
pub fn mixed(level: u8) -> [Wanted; 7] {
    let easier = level.saturating_sub(1).max(1);
    let of = |kind, level| Wanted { kind, level, seed: None };
    let spine = |level| of(Kind::WrongBook, level);
    [
        of(Kind::NumberSheet, level),
        of(Kind::FindFolds, level),
        spine(easier),
        spine(easier),
        spine(level),
        spine(level),
        spine(level),
    ]
}

impl Worksheet {
    /// Sets so many variants of the exercises that are wanted. A variant is the same however many follow it.
    ///
    /// # Errors
    /// When there are none or too many of them, a level is none, or a seed is too large to have a code.
    pub fn of(wanted: &[Wanted], seed: u64, variants: u32) -> Result<Self, Refusal> {
        if wanted.is_empty() || wanted.len() > MOST_ON_SHEET {
            return Err(Refusal::new("exercises", format!("A worksheet has from 1 to {MOST_ON_SHEET} exercises.")));
        }
        if variants == 0 || variants > MOST_VARIANTS {
            return Err(Refusal::new("variants", format!("A worksheet has from 1 to {MOST_VARIANTS} variants.")));
        }
        for (at, one) in wanted.iter().enumerate() {
            if !(1..=LEVELS).contains(&one.level) {
                return Err(Refusal::new(
                    format!("exercises[{at}].level"),
                    format!("Exercises have levels 1 to {LEVELS}."),
                ));
            }
            if one.seed.is_some_and(|seed| seed >= MOST_CODED) {
                let says = "On paper an exercise goes by its code, and only numbers below a million have one.";
                return Err(Refusal::new(format!("exercises[{at}].seed"), says));
            }
        }
        let mut dice = Dice::new(seed);
        let mut all = Vec::new();
        for variant in 0..variants {
            // A variant has dice of its own: what is rolled again in one does not change those after it.
            let mut own = dice.split();
            let mut exercises: Vec<Exercise> = Vec::new();
            for (at, one) in wanted.iter().enumerate() {
                let given = one.seed.filter(|_| variant == 0);
                let set = match given {
                    Some(seed) => Exercise::of(one.kind, one.level, seed).ok(),
                    None => rolled(one, &exercises, &mut own),
                };
                let nothing = || Refusal::new(format!("exercises[{at}]"), "Nothing could be set from this number.");
                exercises.push(set.ok_or_else(nothing)?);
            }
            all.push(exercises);
        }
        Ok(Self { seed: Some(seed), variants: all })
    }

    /// The worksheet of these codes, a list for each variant.
    ///
    /// # Errors
    /// Where a code is none, and why; and as [`Worksheet::of`].
    pub fn of_codes(codes: &[Vec<String>]) -> Result<Self, Refusal> {
        if codes.is_empty() || codes.len() > MOST_VARIANTS as usize {
            return Err(Refusal::new("codes", format!("A worksheet has from 1 to {MOST_VARIANTS} variants.")));
        }
        let mut variants = Vec::new();
        for (k, codes) in codes.iter().enumerate() {
            if codes.is_empty() || codes.len() > MOST_ON_SHEET {
                let says = format!("A worksheet has from 1 to {MOST_ON_SHEET} exercises.");
                return Err(Refusal::new(format!("codes[{k}]"), says));
            }
            let set = |(at, code): (usize, &String)| {
                let refused = |says: String| Refusal::new(format!("codes[{k}][{at}]"), says);
                let link = exercise_of(code).map_err(|why| refused(why.to_string()))?;
                Exercise::of_link(&link).map_err(|why| refused(why.to_string()))
            };
            variants.push(codes.iter().enumerate().map(set).collect::<Result<_, _>>()?);
        }
        Ok(Self { seed: None, variants })
    }

    /// The codes of all exercises, a list for each variant.
    #[must_use]
    pub fn codes(&self) -> Vec<Vec<String>> {
        let of = |one: &Exercise| one.code().unwrap_or_default();
        self.variants.iter().map(|exercises| exercises.iter().map(of).collect()).collect()
    }
}

/// An exercise from a seed of the dice, not the same as one that stands on the sheet, if there is another.
fn rolled(wanted: &Wanted, before: &[Exercise], dice: &mut Dice) -> Option<Exercise> {
    let mut last = None;
    for _ in 0..TRIES {
        let seed = u64::from(dice.below(MOST_CODED as u32));
        let Ok(set) = Exercise::of(wanted.kind, wanted.level, seed) else { continue };
        if before.iter().all(|other| other.task != set.task) {
            return Some(set);
        }
        last = Some(set);
    }
    last
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_set_the_same_again() {
        let sheet = Worksheet::of(&mixed(2), 41, 3).unwrap();
        assert_eq!(sheet.variants.len(), 3);
        let again = Worksheet::of_codes(&sheet.codes()).unwrap();
        assert_eq!(again.variants, sheet.variants);
        assert_eq!(again.seed, None);
        // A variant is the same however many there are, and differs from the others.
        assert_eq!(Worksheet::of(&mixed(2), 41, 2).unwrap().variants, sheet.variants[..2]);
        assert_ne!(sheet.variants[0], sheet.variants[1]);
    }

    #[test]
    fn a_seed_that_is_given_is_that_of_the_first_variant() {
        let wanted = [Wanted { kind: Kind::FindFolds, level: 1, seed: Some(7) }];
        let sheet = Worksheet::of(&wanted, 1, 2).unwrap();
        assert_eq!(sheet.variants[0][0].seed, 7);
        assert_ne!(sheet.variants[1][0].seed, 7);
    }

    #[test]
    fn one_sheet_asks_nothing_twice() {
        for seed in 0..20 {
            let sheet = Worksheet::of(&mixed(2), seed, 1).unwrap();
            for (i, one) in sheet.variants[0].iter().enumerate() {
                assert!(sheet.variants[0][..i].iter().all(|other| other.task != one.task), "{seed}");
            }
        }
    }

    #[test]
    fn refused_in_words() {
        let one = Wanted { kind: Kind::Bolts, level: 1, seed: None };
        let at = |wanted: &[Wanted], variants| Worksheet::of(wanted, 1, variants).unwrap_err().at;
        assert_eq!(at(&[], 1), "exercises");
        assert_eq!(at(&[one; MOST_ON_SHEET + 1], 1), "exercises");
        assert_eq!(at(&[one], 0), "variants");
        assert_eq!(at(&[one], MOST_VARIANTS + 1), "variants");
        assert_eq!(at(&[one, Wanted { level: 6, ..one }], 1), "exercises[1].level");
        assert_eq!(at(&[Wanted { seed: Some(MOST_CODED), ..one }], 1), "exercises[0].seed");
        let of_codes = |codes: &[&[&str]]| {
            let codes: Vec<Vec<String>> = codes.iter().map(|c| c.iter().map(ToString::to_string).collect()).collect();
            Worksheet::of_codes(&codes).unwrap_err().at
        };
        assert_eq!(of_codes(&[]), "codes");
        assert_eq!(of_codes(&[&[]]), "codes[0]");
        assert_eq!(of_codes(&[&["2222-222", "2A4C"]]), "codes[0][0]");
    }
}
