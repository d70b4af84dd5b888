//! Thickness: of a folded section, of a block; and what a folder takes.

use super::made::folds_of;
use crate::fold::Worked;
use crate::paper::Length;

/// A folder takes packets of about 2 mm (folding guide of printglaze.ie).
pub const FOLDER_TAKES: Length = Length::from_whole_mm(2);
/// After the last fold they may be about 4 mm (the same).
pub const FOLDER_TAKES_AT_LAST: Length = Length::from_whole_mm(4);

/// The thickness of a section pressed flat: leaves × thickness.
#[must_use]
pub const fn section(leaves: u32, caliper: Length) -> Length {
    caliper.times(leaves as i64)
}

/// The thickness of a block pressed flat, from the leaves of its sections. What thread and glue add at the back (swell)
/// is not in it.
#[must_use]
pub fn block(leaves_of_sections: &[u32], caliper: Length) -> Length {
    leaves_of_sections.iter().map(|leaves| section(*leaves, caliper)).sum()
}

/// How thick a piece is at its last fold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Folded {
    /// Layers that the last fold creases at one place.
    pub layers_creased: u32,
    /// Their thickness.
    pub before_last: Length,
    /// Layers of the folded piece.
    pub layers: u32,
    /// Their thickness.
    pub after_last: Length,
}

impl Folded {
    /// Whether a folder takes it, before and after the last fold.
    #[must_use]
    pub fn folder_takes(&self) -> bool {
        self.before_last <= FOLDER_TAKES && self.after_last <= FOLDER_TAKES_AT_LAST
    }
}

/// How thick a piece is at its last fold. `None` where there is no such piece.
#[must_use]
pub fn folded(worked: &Worked, piece: usize, caliper: Length) -> Option<Folded> {
    let layers = worked.pieces.get(piece)?.packet.layers.len() as u32;
    let layers_creased = folds_of(worked, piece).last().map_or(1, |f| f.layers);
    let (before_last, after_last) = (section(layers_creased, caliper), section(layers, caliper));
    Some(Folded { layers_creased, before_last, layers, after_last })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::{Course, library};
    use crate::paper::{Grain, Stock};

    /// dcc-kaestl.com, on paper volume: 100 pages of 80 g/m² and volume 1.5. (It prints 4 mm; its own factors give 6.)
    #[test]
    fn a_block_by_its_factors() {
        let leaf = Stock { grammage: 80.0, bulk: 1.5, grain: Grain::Upright }.caliper();
        assert_eq!(leaf, Length::from_um(120));
        assert_eq!(block(&[8; 6], leaf) + section(2, leaf), Length::from_whole_mm(6));
    }

    #[test]
    fn a_folder_takes_so_much() {
        let scheme = library().into_iter().find(|n| n.name.starts_with("Sixty-four")).unwrap().scheme;
        let worked = Worked::of(&Course::of_scheme(&scheme)).unwrap();
        let at = |um| folded(&worked, 0, Length::from_um(um)).unwrap();
        assert_eq!((at(100).layers_creased, at(100).layers), (16, 32));
        assert_eq!((at(100).before_last, at(100).after_last), (Length::from_um(1_600), Length::from_um(3_200)));
        assert_eq!(
            [125, 126].map(|um| at(um).folder_takes()),
            [true, false],
            "16 and 32 leaves of 0.125 mm are 2 and 4 mm"
        );
        assert_eq!(folded(&worked, 1, Length::MM), None);
    }
}
