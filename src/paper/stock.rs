//! What a sheet is made of: how heavy, how thick, and which way its fibres run.

use super::length::Length;
use crate::units::short;

/// Which way the fibres run in the sheet as it lies with side A up, its head away.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Grain {
    /// From top to bottom.
    #[default]
    Upright,
    /// From left to right.
    Level,
}

/// A paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stock {
    /// Weight, g/m².
    pub grammage: f64,
    /// Specific volume (bulk), cm³/g.
    pub bulk: f64,
    /// Which way the fibres run.
    pub grain: Grain,
}

impl Default for Stock {
    /// A book paper, common in practice: 90 g/m², bulk 1.3 (from memory).
    fn default() -> Self {
        Self { grammage: 90.0, bulk: 1.3, grain: Grain::Upright }
    }
}

/// The lightest and the heaviest paper, g/m². Beyond lie tissue and board (bounds of this program).
pub const GRAMMAGES: [f64; 2] = [20.0, 600.0];
/// The densest and the loosest paper, cm³/g (bounds of this program).
pub const BULKS: [f64; 2] = [0.5, 3.5];

impl Stock {
    /// Thickness of one leaf: grammage times bulk is its thickness in µm.
    ///
    /// The relation of grammage (g/m²), specific volume (cm³/g) and thickness (µm) is that of ISO 534, *Paper and board:
    /// determination of thickness, density and specific volume*.
    #[must_use]
    pub fn caliper(&self) -> Length {
        Length::from_mm(self.grammage * self.bulk / 1_000.0)
    }

    /// Whether there is such a paper.
    ///
    /// # Errors
    /// A sentence.
    pub fn check(&self) -> Result<(), String> {
        let within = |value: f64, [least, most]: [f64; 2]| value >= least && value <= most;
        if !within(self.grammage, GRAMMAGES) {
            let [least, most] = GRAMMAGES.map(short);
            return Err(format!("A paper weighs {least} to {most} g/m²."));
        }
        if !within(self.bulk, BULKS) {
            let [least, most] = BULKS.map(short);
            return Err(format!("The bulk of a paper is {least} to {most} cm³/g."));
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stock(grammage: f64, bulk: f64) -> Stock {
        Stock { grammage, bulk, grain: Grain::Upright }
    }

    /// 80 g/m² at 1.5 is 0.120 mm, and a hundred pages of it 6.0 mm (dcc-kaestl.com prints 4 mm, but its own factors give
    /// 6); 115 coated at 0.85 is 0.098 mm (ybj-printing.com gives the ranges of bulk).
    #[test]
    fn caliper_is_grammage_times_bulk() {
        assert_eq!(stock(80.0, 1.5).caliper(), Length::from_um(120));
        assert_eq!(stock(80.0, 1.5).caliper().times(50), Length::from_whole_mm(6));
        assert_eq!(stock(80.0, 1.25).caliper().times(160), Length::from_whole_mm(16));
        assert_eq!(stock(90.0, 1.3).caliper(), Length::from_um(117));
        assert_eq!(stock(115.0, 0.85).caliper(), Length::from_nm(97_750));
    }

    #[test]
    fn a_paper_that_is_none_is_refused() {
        assert_eq!(Stock::default().check(), Ok(()));
        assert!(stock(5.0, 1.0).check().unwrap_err().contains("20 to 600 g/m²"));
        assert!(stock(f64::NAN, 1.0).check().is_err());
        assert!(stock(80.0, f64::INFINITY).check().unwrap_err().contains("cm³/g"));
    }
}
