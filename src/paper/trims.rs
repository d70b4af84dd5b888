//! What is cut off a section, and how far ink runs beyond the cut.

use super::length::Length;

/// What the three knives take off, and the bleed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Trims {
    /// Cut off at the head.
    pub head: Length,
    /// Cut off at the foot.
    pub foot: Length,
    /// Cut off at the fore-edge.
    pub fore_edge: Length,
    /// How far a picture runs beyond the cut.
    pub bleed: Length,
}

impl Default for Trims {
    /// 3 mm all round: common practice, no source. American practice is 1/8 in (3.175 mm) at head, foot and face
    /// (sgmbindery.com).
    fn default() -> Self {
        let three = Length::from_whole_mm(3);
        Self { head: three, foot: three, fore_edge: three, bleed: three }
    }
}

/// The margins of the type area inside the trimmed page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Margins {
    /// At the spine.
    pub back: Length,
    /// At the head.
    pub head: Length,
    /// At the fore-edge.
    pub fore_edge: Length,
    /// At the foot.
    pub foot: Length,
}

impl Default for Margins {
    /// Back, head, fore-edge and foot as 2 : 3 : 4 : 6, an old proportion (common practice, no source).
    fn default() -> Self {
        let mm = Length::from_whole_mm;
        Self { back: mm(12), head: mm(18), fore_edge: mm(24), foot: mm(36) }
    }
}

/// The widest trim, bleed or margin (a bound of this program).
const WIDEST: Length = Length::from_whole_mm(500);

impl Trims {
    /// Whether an untrimmed leaf of a size, width and height, is a page once it is trimmed.
    ///
    /// # Errors
    /// A sentence.
    pub fn check(&self, leaf: (Length, Length)) -> Result<(), String> {
        let all = [self.head, self.foot, self.fore_edge, self.bleed];
        if all.iter().any(|l| *l < Length::ZERO || *l > WIDEST) {
            return Err("Trims and bleed are 0 to 500 mm.".into());
        }
        let (width, height) = self.page(leaf);
        if width < Length::MM || height < Length::MM {
            return Err(format!("Nothing would be left of a leaf of {} by {}.", leaf.0.short_mm(), leaf.1.text()));
        }
        Ok(())
    }

    /// The trimmed page of an untrimmed leaf, width and height.
    #[must_use]
    pub fn page(&self, leaf: (Length, Length)) -> (Length, Length) {
        (leaf.0 - self.fore_edge, leaf.1 - self.head - self.foot)
    }
}

impl Margins {
    /// The type area of a trimmed page, width and height.
    ///
    /// # Errors
    /// A sentence, if nothing is left for it.
    pub fn type_area(&self, page: (Length, Length)) -> Result<(Length, Length), String> {
        let all = [self.back, self.head, self.fore_edge, self.foot];
        if all.iter().any(|l| *l < Length::ZERO || *l > WIDEST) {
            return Err("Margins are 0 to 500 mm.".into());
        }
        let (width, height) = (page.0 - self.back - self.fore_edge, page.1 - self.head - self.foot);
        if width < Length::MM || height < Length::MM {
            return Err(format!(
                "These margins leave no type area on a page of {} by {}.",
                page.0.short_mm(),
                page.1.text()
            ));
        }
        Ok((width, height))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_leaf_is_trimmed_on_three_sides() {
        let leaf = (Length::from_whole_mm(141), Length::from_whole_mm(222));
        let page = Trims::default().page(leaf);
        assert_eq!(page, (Length::from_whole_mm(138), Length::from_whole_mm(216)));
        assert_eq!(Margins::default().type_area(page), Ok((Length::from_whole_mm(102), Length::from_whole_mm(162))));
        let all_off = Trims { fore_edge: leaf.0, ..Trims::default() };
        assert!(all_off.check(leaf).unwrap_err().contains("141 by 222 mm"));
        assert!(Margins { back: leaf.0, ..Margins::default() }.type_area(page).is_err());
    }
}
