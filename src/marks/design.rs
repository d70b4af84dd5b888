//! The staircase of marks: where each section's bar stands.

use serde::{Deserialize, Serialize};

use super::{BackMarks, Backs, Refusal, Warning};
use crate::units::mm;

/// The most sections (or levels, or backs) that are worked with. A bound of this program, far above any book.
pub const MOST_SECTIONS: u32 = 400;

/// The longest spine in mm that is worked with. A bound of this program.
const LONGEST_SPINE_MM: f64 = 2000.0;

/// A design of back marks. All lengths in mm, heights from the head downwards.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Design {
    /// Length of the spine, head to tail, in mm.
    pub spine_mm: f64,
    /// Where the bar of section 1 begins, in mm from the head.
    pub first_mm: f64,
    /// How much lower each next section's bar stands, in mm.
    pub step_mm: f64,
    /// Length of one bar along the spine, in mm.
    pub length_mm: f64,
    /// How many steps there are before the staircase begins again at the top.
    pub levels: u32,
}

impl Default for Design {
    /// A 216 mm spine with twenty 9 mm steps from 20 mm. The bar of a section that lies head to tail then falls
    /// between two levels, so it can be told (common practice, no source: step as long as the bar, clear of the trim).
    fn default() -> Self {
        Self { spine_mm: 216.0, first_mm: 20.0, step_mm: 9.0, length_mm: 9.0, levels: 20 }
    }
}

impl Design {
    /// Are the numbers of use at all, and do all levels a book of `sections` sections uses stand on the spine?
    pub fn check(&self, sections: u32) -> Result<(), Refusal> {
        if sections == 0 || sections > MOST_SECTIONS {
            return Err(Refusal::new("sections", format!("A book here has 1 to {MOST_SECTIONS} sections.")));
        }
        let lengths = [
            ("spine_mm", "spine", self.spine_mm),
            ("step_mm", "step", self.step_mm),
            ("length_mm", "mark", self.length_mm),
        ];
        for (at, name, value) in lengths {
            within(at, name, value, LONGEST_SPINE_MM)?;
        }
        if !(self.first_mm.is_finite() && (0.0..=self.spine_mm).contains(&self.first_mm)) {
            return Err(Refusal::new(
                "first_mm",
                format!("The first mark must begin on the spine, 0 to {} mm from the head.", mm(self.spine_mm)),
            ));
        }
        if self.levels == 0 || self.levels > MOST_SECTIONS {
            return Err(Refusal::new("levels", format!("There are 1 to {MOST_SECTIONS} levels.")));
        }
        let last = self.levels.min(sections);
        let end = self.middle_mm(last) + self.length_mm / 2.0;
        // A hundredth of a millimetre is below anything a rule shows.
        if end > self.spine_mm + 0.01 {
            let fit = self.levels_that_fit();
            let fit = match fit {
                0 => "Not even the first mark fits.".to_owned(),
                1 => "1 level fits.".to_owned(),
                fit => format!("{fit} levels fit."),
            };
            return Err(Refusal::new(
                "levels",
                format!(
                    "The mark of section {last} would end {} mm from the head, but the spine is {} mm long. {fit}",
                    mm(end),
                    mm(self.spine_mm)
                ),
            ));
        }
        Ok(())
    }

    /// How many levels stand wholly on the spine, at most [`MOST_SECTIONS`].
    pub fn levels_that_fit(&self) -> u32 {
        (1..=MOST_SECTIONS)
            .take_while(|&level| self.level_mm(level) + self.length_mm / 2.0 <= self.spine_mm + 0.01)
            .last()
            .unwrap_or(0)
    }

    /// The level of a section, from 1. Sections count from 1; 0 is taken as 1.
    pub fn level(&self, section: u32) -> u32 {
        section.saturating_sub(1) % self.levels.max(1) + 1
    }

    /// The middle of a section's mark, in mm from the head.
    pub fn middle_mm(&self, section: u32) -> f64 {
        self.level_mm(self.level(section))
    }

    /// The middle of a section's mark, in mm from the head, when the section lies head to tail.
    pub fn mirrored_mm(&self, section: u32) -> f64 {
        self.spine_mm - self.middle_mm(section)
    }

    /// How far in mm a mark may stand from its level's middle and still be read as that level without a doubt.
    pub fn reach_mm(&self) -> f64 {
        self.step_mm / 3.0
    }

    /// What these marks can't show in a book of `sections` sections, as data.
    pub fn warnings(&self, sections: u32) -> Vec<Warning> {
        BackMarks::from(*self).warnings(sections, &Backs::default())
    }

    /// The middle of a level, in mm from the head.
    fn level_mm(&self, level: u32) -> f64 {
        self.first_mm + f64::from(level - 1) * self.step_mm + self.length_mm / 2.0
    }
}

/// Is a length more than nothing, and within a bound?
pub(super) fn within(at: &str, name: &str, value: f64, most: f64) -> Result<(), Refusal> {
    if value.is_finite() && value > 0.0 && value <= most {
        return Ok(());
    }
    Err(Refusal::new(at, format!("The {name} must be longer than 0 mm and at most {} mm.", mm(most))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn twenty_four_steps_of_six() {
        let design = Design { spine_mm: 216.0, first_mm: 30.0, step_mm: 6.0, length_mm: 6.0, levels: 24 };
        design.check(24).unwrap();
        assert_eq!(design.middle_mm(24), 171.0);
        assert_eq!(design.middle_mm(25), design.middle_mm(1));
        assert_eq!(design.levels_that_fit(), 31);
        let wider = Design { levels: 40, ..design };
        wider.check(12).unwrap();
        let says = wider.check(40).unwrap_err().says;
        assert_eq!(
            says,
            "The mark of section 40 would end 270 mm from the head, but the spine is 216 mm long. 31 levels fit."
        );
    }

    #[test]
    fn the_default_tells_every_turned_section() {
        let design = Design::default();
        design.check(20).unwrap();
        assert_eq!(design.warnings(20), vec![]);
    }

    #[test]
    fn numbers_of_no_use_are_refused() {
        let good = Design::default();
        let bad = [
            ("spine_mm", Design { spine_mm: 0.0, ..good }),
            ("spine_mm", Design { spine_mm: f64::NAN, ..good }),
            ("step_mm", Design { step_mm: -1.0, ..good }),
            ("length_mm", Design { length_mm: f64::INFINITY, ..good }),
            ("first_mm", Design { first_mm: 300.0, ..good }),
            ("levels", Design { levels: 0, ..good }),
            ("levels", Design { levels: u32::MAX, ..good }),
            ("levels", Design { length_mm: 300.0, ..good }),
        ];
        for (at, design) in bad {
            assert_eq!(design.check(20).unwrap_err().at, at, "{design:?}");
        }
        assert_eq!(good.check(0).unwrap_err().at, "sections");
        assert_eq!(good.check(401).unwrap_err().at, "sections");
    }
}
