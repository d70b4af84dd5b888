//! Everything that is printed on the backs of a book: the staircase, and what tells its turns, its ends and its job.

use serde::{Deserialize, Serialize};

use super::back_label::Label;
use super::design::within;
use super::{Design, Lies, Refusal};
use crate::fold::MarkSize;
use crate::units::mm;

/// The usual width of a bar across the back in mm: about 6 points (Roberts and Etherington, *Bookbinding and the
/// Conservation of Books*, "black step").
pub const USUAL_WIDTH_MM: f64 = 2.0;

/// The widest bar, and the farthest that two columns stand apart, in mm. A bound of this program.
const WIDEST_MM: f64 = 50.0;

/// The most sheets inside one another in a section. A bound of this program.
const MOST_SHEETS: u32 = 8;

/// Which way the staircase runs, from the first section to the last.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Runs {
    /// From the head down.
    #[default]
    Down,
    /// From the tail up: all heights are then measured from the tail.
    Up,
}

/// What is different where the staircase begins again.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum AfterWrap {
    /// Nothing.
    #[default]
    Again,
    /// The bars stand in two columns: those of the first turn on the side of the section's first page, those of the
    /// second on the side of its last page, and so on by turns.
    Column {
        /// From the middle of one column to the middle of the other, in mm.
        apart_mm: f64,
    },
    /// The bars of every second turn have another width.
    Width {
        /// That width, in mm.
        width_mm: f64,
    },
}

/// Bars in the head trim of an outer page, stepped from the spine towards the fore-edge.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HeadMarks {
    /// Where the first one begins, in mm from the spine.
    pub first_mm: f64,
    /// How much farther each next one stands, in mm.
    pub step_mm: f64,
    /// Length of one bar along the head, in mm.
    pub length_mm: f64,
    /// How far a bar reaches down from the untrimmed head, in mm.
    pub depth_mm: f64,
}

/// Sheets that lie inside one another, and so hide each other's backs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Inset {
    /// Each section is one sheet, and each shows its back.
    #[default]
    Plain,
    /// Each section is so many sheets inside one another, as a thirty-two of two sixteens. Only the outer one shows a
    /// bar on the spine.
    Sheets {
        /// How many, at least two.
        sheets: u32,
        /// Bars in the head trim of the inner ones, if they have any.
        head: Option<HeadMarks>,
    },
    /// All sections lie inside one another, as for wire stitching through the fold: no back shows but the outermost,
    /// and the staircase runs along the head. Heights are then distances from the spine, along the head.
    Through {
        /// The bars in the head trim.
        head: HeadMarks,
    },
}

/// All that is printed on the backs of a book.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(from = "super::written::Written", into = "super::written::Written")]
pub struct BackMarks {
    /// The staircase. Where it runs up, its heights are measured from the tail.
    pub stairs: Design,
    /// Width of a bar across the back, in mm.
    pub width_mm: f64,
    /// Which way it runs.
    pub runs: Runs,
    /// What happens after its last level.
    pub after_wrap: AfterWrap,
    /// The length of the bars of the first and the last section in mm, where they are longer than the others.
    pub ends_mm: Option<f64>,
    /// A number or a title printed on every back.
    pub label: Option<Label>,
    /// Sheets inside one another.
    pub inset: Inset,
}

/// One bar as it stands on a back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// Its middle, in mm from the head.
    pub middle_mm: f64,
    /// Its length along the spine, in mm.
    pub length_mm: f64,
    /// Its width across the back, in mm.
    pub width_mm: f64,
    /// Its middle, in mm from the fold, counted towards the section's last page (negative: towards its first).
    pub across_mm: f64,
}

impl Bar {
    /// The bar as it is seen when its section lies head to tail, on a spine of this length: the back is turned half
    /// round, so both its places are mirrored.
    #[must_use]
    pub fn turned(self, spine_mm: f64) -> Self {
        Self { middle_mm: spine_mm - self.middle_mm, across_mm: 0.0 - self.across_mm, ..self }
    }

    /// The bar as it has to be printed on the flat sheet.
    #[must_use]
    pub fn size(&self) -> MarkSize {
        let (from_mm, to_mm) = self.ends_mm();
        MarkSize { from_mm, to_mm, width_mm: self.width_mm, across_mm: self.across_mm }
    }

    /// Where it begins and ends, in mm from the head.
    #[must_use]
    pub fn ends_mm(&self) -> (f64, f64) {
        (self.middle_mm - self.length_mm / 2.0, self.middle_mm + self.length_mm / 2.0)
    }
}

impl From<Design> for BackMarks {
    /// A staircase and nothing else, its bars of the usual width.
    fn from(stairs: Design) -> Self {
        Self {
            stairs,
            width_mm: USUAL_WIDTH_MM,
            runs: Runs::Down,
            after_wrap: AfterWrap::Again,
            ends_mm: None,
            label: None,
            inset: Inset::Plain,
        }
    }
}

impl Default for BackMarks {
    fn default() -> Self {
        Self::from(Design::default())
    }
}

impl BackMarks {
    /// Are the numbers of use, and do all marks that a book of `sections` sections uses stand on the spine?
    ///
    /// # Errors
    /// Where the design is wrong, and why.
    pub fn check(&self, sections: u32) -> Result<(), Refusal> {
        self.stairs.check(sections)?;
        within("width_mm", "bar", self.width_mm, WIDEST_MM)?;
        match self.after_wrap {
            AfterWrap::Again => {}
            AfterWrap::Column { apart_mm } => {
                within("after_wrap.column.apart_mm", "way between the columns", apart_mm, WIDEST_MM)?;
            }
            AfterWrap::Width { width_mm } => {
                within("after_wrap.width.width_mm", "bar of the second turn", width_mm, WIDEST_MM)?;
            }
        }
        if let Some(length_mm) = self.ends_mm {
            self.check_ends(sections, length_mm)?;
        }
        if let Some(label) = &self.label {
            label.check(self.stairs.spine_mm, sections)?;
        }
        match self.inset {
            Inset::Plain => Ok(()),
            Inset::Sheets { sheets, head } => {
                if !(2..=MOST_SHEETS).contains(&sheets) {
                    return Err(Refusal::new(
                        "inset.sheets.sheets",
                        format!("A section of sheets inside one another has 2 to {MOST_SHEETS} of them."),
                    ));
                }
                head.map_or(Ok(()), |head| head.check("inset.sheets.head", self.stairs.levels.min(sections)))
            }
            Inset::Through { head } => head.check("inset.through.head", self.stairs.levels.min(sections)),
        }
    }

    /// Longer bars at the ends of the book are longer, and still stand on the spine.
    fn check_ends(&self, sections: u32, length_mm: f64) -> Result<(), Refusal> {
        let stairs = &self.stairs;
        if !(length_mm.is_finite() && length_mm > stairs.length_mm) {
            return Err(Refusal::new(
                "ends_mm",
                format!("The bars of the first and the last section must be longer than {} mm.", mm(stairs.length_mm)),
            ));
        }
        for section in [1, sections] {
            let (begins, ends) = self.bar(section, sections).ends_mm();
            // A hundredth of a millimetre is below anything a rule shows.
            if begins < -0.01 || ends > stairs.spine_mm + 0.01 {
                return Err(Refusal::new(
                    "ends_mm",
                    format!("A bar of {} mm for section {section} would run over the end of the spine.", mm(length_mm)),
                ));
            }
        }
        Ok(())
    }

    /// The level of a section, from 1.
    #[must_use]
    pub fn level(&self, section: u32) -> u32 {
        self.stairs.level(section)
    }

    /// How often the staircase has begun again before this section: 0 in the first turn.
    #[must_use]
    pub fn turn(&self, section: u32) -> u32 {
        section.saturating_sub(1) / self.stairs.levels.max(1)
    }

    /// Whether the bar of a section looks, but for its height, as those of the second turn: in the second column, or of
    /// the second width.
    #[must_use]
    pub fn second(&self, section: u32) -> bool {
        !matches!(self.after_wrap, AfterWrap::Again) && !self.turn(section).is_multiple_of(2)
    }

    /// The middle of a section's bar, in mm from the head.
    #[must_use]
    pub fn middle_mm(&self, section: u32) -> f64 {
        if let Inset::Through { head } = self.inset {
            let (begins, ends) = head.ends_mm(self.level(section));
            return f64::midpoint(begins, ends);
        }
        match self.runs {
            Runs::Down => self.stairs.middle_mm(section),
            Runs::Up => self.stairs.mirrored_mm(section),
        }
    }

    /// The same where the section lies head to tail.
    #[must_use]
    pub fn mirrored_mm(&self, section: u32) -> f64 {
        self.stairs.spine_mm - self.middle_mm(section)
    }

    /// How far in mm a bar may stand from its level's middle and still be read as that level without a doubt.
    #[must_use]
    pub fn reach_mm(&self) -> f64 {
        self.step_mm() / 3.0
    }

    /// From one level to the next, in mm.
    #[must_use]
    pub fn step_mm(&self) -> f64 {
        match self.inset {
            Inset::Through { head } => head.step_mm,
            _ => self.stairs.step_mm,
        }
    }

    /// The level whose bar stands at a height, if that is in reach of one; levels count from 1.
    #[must_use]
    pub fn level_at(&self, mm: f64) -> Option<u32> {
        let (first, second) = (self.middle_mm(1), self.middle_mm(2));
        let step = if second < first { -self.step_mm() } else { self.step_mm() };
        let steps = ((mm - first) / step).round();
        // A millionth of a millimetre: sums of decimal fractions are not exact.
        let near = (first + steps * step - mm).abs() <= self.reach_mm() + 1e-6;
        (near && steps >= 0.0 && steps < f64::from(self.stairs.levels)).then_some(steps as u32 + 1)
    }

    /// The bar of a section in a book of so many.
    #[must_use]
    pub fn bar(&self, section: u32, sections: u32) -> Bar {
        if let Inset::Through { head } = self.inset {
            let (length_mm, width_mm) = (head.length_mm, head.depth_mm);
            return Bar { middle_mm: self.middle_mm(section), length_mm, width_mm, across_mm: 0.0 };
        }
        let second = self.second(section);
        let (width_mm, across_mm) = match self.after_wrap {
            AfterWrap::Width { width_mm } if second => (width_mm, 0.0),
            AfterWrap::Column { apart_mm } => (self.width_mm, if second { apart_mm / 2.0 } else { -apart_mm / 2.0 }),
            _ => (self.width_mm, 0.0),
        };
        let at_end = section == 1 || section == sections;
        let length_mm = self.ends_mm.filter(|_| at_end).unwrap_or(self.stairs.length_mm);
        Bar { middle_mm: self.middle_mm(section), length_mm, width_mm, across_mm }
    }

    /// The bar of a section as it is seen on its back, if the section lies so that its fold is at the spine.
    #[must_use]
    pub fn bar_lying(&self, section: u32, sections: u32, lies: Lies) -> Option<Bar> {
        let bar = self.bar(section, sections);
        match lies {
            Lies::Right => Some(bar),
            // The bars in the head trim then lie at the tail.
            Lies::HeadToTail if matches!(self.inset, Inset::Through { .. }) => None,
            Lies::HeadToTail => Some(bar.turned(self.stairs.spine_mm)),
            Lies::TurnedInPlane | Lies::SideToSide => None,
        }
    }
}

impl HeadMarks {
    /// Where the bar of a level begins and ends, in mm from the spine. Levels count from 1.
    #[must_use]
    pub fn ends_mm(&self, level: u32) -> (f64, f64) {
        let begins = self.first_mm + f64::from(level.saturating_sub(1)) * self.step_mm;
        (begins, begins + self.length_mm)
    }

    fn check(&self, at: &str, levels: u32) -> Result<(), Refusal> {
        let path = |field: &str| format!("{at}.{field}");
        let longest = 2000.0;
        if !(self.first_mm.is_finite() && (0.0..=longest).contains(&self.first_mm)) {
            return Err(Refusal::new(
                path("first_mm"),
                "The first bar in the head trim begins 0 to 2000 mm from the spine.",
            ));
        }
        within(&path("step_mm"), "step in the head trim", self.step_mm, longest)?;
        within(&path("length_mm"), "bar in the head trim", self.length_mm, longest)?;
        within(&path("depth_mm"), "bar in the head trim, downwards,", self.depth_mm, WIDEST_MM)?;
        if self.ends_mm(levels).1 > longest {
            return Err(Refusal::new(path("step_mm"), "The last bar would stand farther than 2000 mm from the spine."));
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn six_mm(levels: u32) -> BackMarks {
        Design { spine_mm: 216.0, first_mm: 30.0, step_mm: 6.0, length_mm: 6.0, levels }.into()
    }

    #[test]
    fn the_second_turn_stands_beside_the_first() {
        let marks = BackMarks { after_wrap: AfterWrap::Column { apart_mm: 3.0 }, ..six_mm(24) };
        let [first, again] = [1, 25].map(|section| marks.bar(section, 30));
        assert_eq!((first.middle_mm, again.middle_mm), (33.0, 33.0));
        assert_eq!((first.across_mm, again.across_mm), (-1.5, 1.5));
        // Head to tail, the columns change sides.
        assert_eq!(first.turned(216.0), Bar { middle_mm: 183.0, ..again });
        // A third turn has no column of its own.
        assert_eq!(marks.bar(49, 60), marks.bar(1, 60));
        let wide = BackMarks { after_wrap: AfterWrap::Width { width_mm: 4.0 }, ..six_mm(24) };
        assert_eq!([24, 25].map(|section| wide.bar(section, 30).width_mm), [2.0, 4.0]);
    }

    #[test]
    fn a_staircase_that_runs_up_is_measured_from_the_tail() {
        let up = BackMarks { runs: Runs::Up, ..six_mm(24) };
        up.check(24).unwrap();
        assert_eq!([1, 2, 24].map(|section| up.middle_mm(section)), [183.0, 177.0, 45.0]);
        assert_eq!(up.mirrored_mm(1), 33.0);
    }

    #[test]
    fn longer_bars_at_the_ends_only() {
        let marks = BackMarks { ends_mm: Some(12.0), ..six_mm(24) };
        marks.check(24).unwrap();
        let lengths = [1, 2, 23, 24].map(|section| marks.bar(section, 24).length_mm);
        assert_eq!(lengths, [12.0, 6.0, 6.0, 12.0]);
        assert_eq!(BackMarks { ends_mm: Some(6.0), ..six_mm(24) }.check(24).unwrap_err().at, "ends_mm");
        assert_eq!(BackMarks { ends_mm: Some(90.0), ..six_mm(24) }.check(24).unwrap_err().at, "ends_mm");
    }

    #[test]
    fn what_is_of_no_use_is_refused_where_it_stands() {
        let head = HeadMarks { first_mm: 10.0, step_mm: 5.0, length_mm: 4.0, depth_mm: 3.0 };
        let bad = [
            ("width_mm", BackMarks { width_mm: 0.0, ..six_mm(24) }),
            (
                "after_wrap.column.apart_mm",
                BackMarks { after_wrap: AfterWrap::Column { apart_mm: f64::NAN }, ..six_mm(24) },
            ),
            ("after_wrap.width.width_mm", BackMarks { after_wrap: AfterWrap::Width { width_mm: -1.0 }, ..six_mm(24) }),
            ("inset.sheets.sheets", BackMarks { inset: Inset::Sheets { sheets: 1, head: None }, ..six_mm(24) }),
            (
                "inset.sheets.head.step_mm",
                BackMarks {
                    inset: Inset::Sheets { sheets: 2, head: Some(HeadMarks { step_mm: 0.0, ..head }) },
                    ..six_mm(24)
                },
            ),
            (
                "inset.through.head.first_mm",
                BackMarks { inset: Inset::Through { head: HeadMarks { first_mm: -1.0, ..head } }, ..six_mm(24) },
            ),
            ("levels", six_mm(40)),
        ];
        for (at, marks) in bad {
            assert_eq!(marks.check(40).unwrap_err().at, at, "{marks:?}");
        }
        BackMarks { inset: Inset::Through { head }, ..six_mm(24) }.check(24).unwrap();
    }
}
