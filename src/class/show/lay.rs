//! How large the flat sides are before a class, and how they lie beside the bench.
//!
//! From the back row a page figure is read if it is a twelfth of the picture high (common practice, no source). A sheet of up to
//! sixteen pages has both sides at once with such figures; a larger one as large as they get, and one side at a time where two
//! would be too small.

use super::showing::Sides;

/// How the flat sides lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Arrangement {
    /// Both, A above B.
    Stacked,
    /// Both, A at the left of B.
    Beside,
    /// Side A alone.
    OnlyA,
    /// Side B alone.
    OnlyB,
}

/// The flat sides as they are laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlatsLay {
    /// How they lie.
    pub arrangement: Arrangement,
    /// Pixels to a unit of the sheet.
    pub scale: f64,
    /// Whether the lowest figure is as high as it should be.
    pub enough: bool,
    /// Whether they lie over the bench, across the window, and not at its right.
    pub across: bool,
}

/// A figure’s share of the height of the picture.
const SHARE: f64 = 1.0 / 12.0;
/// A little more than that, for what is cut off in rounding.
const AMPLE: f64 = 1.004;
/// What is this much too small, and no more, is left as it is: both sides at once are worth it.
const NEARLY: f64 = 0.98;
/// The share of a large sheet’s figures below which one side is shown at a time.
const LEAST: f64 = 1.0 / 18.0;
/// Sheets of so many pages are promised figures that are large enough.
const PROMISED: u32 = 16;
/// The share of the window’s width that the sides take if nothing asks for more, and the most that they get.
const USUAL: f64 = 0.355;
const MOST: f64 = 0.64;
/// The same of a sheet that is larger than promised.
const USUAL_LARGE: f64 = 0.45;
/// Pixels over each side for its letter, beside and between the sides. As in the style sheet.
pub(super) const HEAD: f64 = 32.0;
pub(super) const EDGE: f64 = 6.0;
/// A window less wide than this has the sides over the bench, too, as in the style sheet.
const NARROW: f64 = 900.0;
/// Sheets so much wider than high lie across the window.
const LONG: f64 = 2.4;

/// How the flat sides of a sheet are laid in a window. `window` and `sheet` are widths and heights, in pixels and in the sheet’s
/// own units; `figure` is how high the lowest figure stands, in the sheet’s units; `pages` counts what the sheet has on both
/// sides.
#[must_use]
pub fn flats_lay(window: (f64, f64), sheet: (f64, f64), figure: f64, pages: u32, asked: Sides) -> FlatsLay {
    let (w, h) = (sheet.0.max(1.0), sheet.1.max(1.0));
    let figure = figure.max(1e-3);
    let need = window.1 * SHARE * AMPLE / figure;
    let promised = pages <= PROMISED;
    let across = w / h > LONG || window.0 < NARROW;
    let usual = window.0 * if promised { USUAL } else { USUAL_LARGE };
    let scale_of = |arrangement: Arrangement| {
        let (wide, high) = match arrangement {
            Arrangement::Stacked => (1.0, 2.0),
            Arrangement::Beside => (2.0, 1.0),
            Arrangement::OnlyA | Arrangement::OnlyB => (1.0, 1.0),
        };
        if across {
            // Over the bench: as wide as the window, and no more than two fifths of its height.
            let room = (window.0 - EDGE * (wide + 1.0), window.1 * 0.46 - HEAD * high - EDGE);
            return (room.0 / wide / w).min(room.1 / high / h);
        }
        let most = ((window.1 - HEAD * high - EDGE) / high / h).min((window.0 * MOST - EDGE * (wide - 1.0)) / wide / w);
        let wished = (usual - EDGE * (wide - 1.0)) / wide / w;
        let wished = if promised { wished.max(need) } else { wished };
        wished.min(most).max(0.05)
    };
    let both = [Arrangement::Stacked, Arrangement::Beside];
    let [stacked, beside] = both.map(scale_of);
    let (of_both, scale) =
        if stacked >= beside { (Arrangement::Stacked, stacked) } else { (Arrangement::Beside, beside) };
    let one = scale_of(Arrangement::OnlyA);
    // A promised sheet whose figures are long, as those of a late section, is shown side by side in time rather than small.
    let too_small =
        if promised { scale * figure < window.1 * SHARE * NEARLY } else { scale * figure < window.1 * LEAST };
    let arrangement = match asked {
        Sides::A => Arrangement::OnlyA,
        Sides::B => Arrangement::OnlyB,
        Sides::AsFits if too_small && one > scale * 1.1 => Arrangement::OnlyA,
        Sides::AsFits | Sides::Both => of_both,
    };
    let scale = scale_of(arrangement);
    FlatsLay { arrangement, scale, enough: scale * figure >= window.1 * SHARE, across }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WINDOWS: [(f64, f64); 4] = [(1920.0, 1080.0), (1280.0, 720.0), (1366.0, 768.0), (1024.0, 768.0)];

    /// A sixteen of two rows, of pages of 148 by 210, whose lowest figure stands 84 units high.
    fn sixteen(window: (f64, f64), asked: Sides) -> FlatsLay {
        flats_lay(window, (592.0, 420.0), 84.0, 16, asked)
    }

    #[test]
    fn a_sixteen_has_both_sides_with_figures_of_a_twelfth() {
        for window in WINDOWS {
            let lay = sixteen(window, Sides::AsFits);
            assert_eq!(lay.arrangement, Arrangement::Stacked, "{window:?}");
            assert!(lay.enough && lay.scale * 84.0 >= window.1 / 12.0, "{window:?} {lay:?}");
            assert!(lay.scale * 592.0 < 0.5 * window.0, "the bench has its room: {window:?} {lay:?}");
            assert!(2.0 * (lay.scale * 420.0 + HEAD) + EDGE <= window.1 + 0.01, "{window:?} {lay:?}");
        }
    }

    /// The sheet of the book that everyone begins with: pages of 140.5 by 221.2 units, figures at 0.949 of their size.
    #[test]
    fn narrower_pages_have_both_sides_too() {
        for window in WINDOWS {
            let lay = flats_lay(window, (562.0, 442.4), 118.0 * 0.736 * 0.949, 16, Sides::AsFits);
            assert_eq!(lay.arrangement, Arrangement::Stacked, "{window:?}");
            assert!(lay.enough, "{window:?} {lay:?}");
        }
    }

    #[test]
    fn a_high_sheet_has_its_sides_beside_each_other() {
        let lay = flats_lay(WINDOWS[0], (296.0, 840.0), 84.0, 16, Sides::AsFits);
        assert_eq!(lay.arrangement, Arrangement::Beside);
        assert!(lay.enough);
    }

    #[test]
    fn a_long_sheet_lies_across() {
        assert!(flats_lay(WINDOWS[0], (592.0, 210.0), 84.0, 8, Sides::AsFits).across);
        assert!(!sixteen(WINDOWS[0], Sides::AsFits).across);
    }

    #[test]
    fn a_large_sheet_is_shown_one_side_at_a_time() {
        let lay = flats_lay(WINDOWS[0], (1184.0, 840.0), 84.0, 64, Sides::AsFits);
        assert_eq!(lay.arrangement, Arrangement::OnlyA);
        let both = flats_lay(WINDOWS[0], (1184.0, 840.0), 84.0, 64, Sides::Both);
        assert!(both.scale < lay.scale);
        assert_eq!(flats_lay(WINDOWS[0], (1184.0, 840.0), 84.0, 64, Sides::B).arrangement, Arrangement::OnlyB);
    }

    #[test]
    fn long_figures_are_shown_one_side_at_a_time() {
        // Pages of three figures stand 55 units high.
        let lay = flats_lay(WINDOWS[0], (592.0, 420.0), 55.0, 16, Sides::AsFits);
        assert_eq!(lay.arrangement, Arrangement::OnlyA);
        assert!(lay.enough, "{lay:?}");
    }

    #[test]
    fn any_window_and_sheet_has_a_scale() {
        for window in [(320.0, 200.0), (1.0, 1.0), (8000.0, 4000.0)] {
            for sheet in [(148.0, 210.0), (20_000.0, 20.0), (0.0, 0.0)] {
                let lay = flats_lay(window, sheet, 0.0, 2, Sides::AsFits);
                assert!(lay.scale.is_finite(), "{window:?} {sheet:?}");
            }
        }
    }
}
