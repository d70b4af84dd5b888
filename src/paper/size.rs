//! Sheet sizes by name.

use super::length::Length;

/// Where a size comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Family {
    /// ISO 216, trimmed sizes: A and B.
    Iso,
    /// ISO 217, untrimmed sizes: RA and SRA.
    IsoUntrimmed,
    /// British book sheets in millimetres.
    BritishMetric,
    /// British printing papers in inches.
    British,
    /// American printing papers in inches.
    American,
}

impl Family {
    /// All, in the order of a list.
    pub const ALL: [Self; 5] = [Self::BritishMetric, Self::IsoUntrimmed, Self::Iso, Self::British, Self::American];

    /// What the family is called, and where its sizes are from.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Iso => "ISO 216",
            Self::IsoUntrimmed => "ISO 217, untrimmed",
            Self::BritishMetric => "British book sheets (from memory)",
            Self::British => "British, inches (Cockerell 1901)",
            Self::American => "American, inches (MacKellar 1893)",
        }
    }
}

/// A sheet with a name. The shorter side first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NamedSize {
    /// What the trade calls it.
    pub name: &'static str,
    /// Where it comes from.
    pub family: Family,
    /// The shorter side.
    pub short: Length,
    /// The longer side.
    pub long: Length,
}

const fn mm(name: &'static str, family: Family, short: i64, long: i64) -> NamedSize {
    NamedSize { name, family, short: Length::from_whole_mm(short), long: Length::from_whole_mm(long) }
}

/// Given in quarters of an inch.
const fn quarters(name: &'static str, family: Family, short: i64, long: i64) -> NamedSize {
    NamedSize { name, family, short: Length::INCH.shared(4).times(short), long: Length::INCH.shared(4).times(long) }
}

const fn inches(name: &'static str, family: Family, short: i64, long: i64) -> NamedSize {
    quarters(name, family, 4 * short, 4 * long)
}

use Family::{American, British, BritishMetric, Iso, IsoUntrimmed};

/// Every size that is known by name.
///
/// ISO 216 and ISO 217: the sizes as papierformate.com and other lists give them; the A series is checked by halving.
/// British book sheets in millimetres: from memory; they are checked against the trimmed octavos that the trade cuts
/// from them. British printing papers: D. Cockerell, *Bookbinding and the Care of Books* (1901), p. 283; quad demy and double
/// quad crown: rhollick.wordpress.com, 2010. American: T. MacKellar, *The American Printer* (18th ed., 1893), p. 298.
pub const SIZES: [NamedSize; 52] = [
    mm("Quad crown", BritishMetric, 768, 1008),
    mm("Quad large crown", BritishMetric, 816, 1056),
    mm("Quad demy", BritishMetric, 888, 1128),
    mm("Quad royal", BritishMetric, 960, 1272),
    mm("Double quad crown", BritishMetric, 1008, 1536),
    mm("Double quad demy", BritishMetric, 1128, 1776),
    mm("RA0", IsoUntrimmed, 860, 1220),
    mm("RA1", IsoUntrimmed, 610, 860),
    mm("RA2", IsoUntrimmed, 430, 610),
    mm("RA3", IsoUntrimmed, 305, 430),
    mm("RA4", IsoUntrimmed, 215, 305),
    mm("SRA0", IsoUntrimmed, 900, 1280),
    mm("SRA1", IsoUntrimmed, 640, 900),
    mm("SRA2", IsoUntrimmed, 450, 640),
    mm("SRA3", IsoUntrimmed, 320, 450),
    mm("SRA4", IsoUntrimmed, 225, 320),
    mm("A0", Iso, 841, 1189),
    mm("A1", Iso, 594, 841),
    mm("A2", Iso, 420, 594),
    mm("A3", Iso, 297, 420),
    mm("A4", Iso, 210, 297),
    mm("A5", Iso, 148, 210),
    mm("A6", Iso, 105, 148),
    mm("B0", Iso, 1000, 1414),
    mm("B1", Iso, 707, 1000),
    mm("B2", Iso, 500, 707),
    mm("B3", Iso, 353, 500),
    mm("B4", Iso, 250, 353),
    mm("B5", Iso, 176, 250),
    quarters("Foolscap", British, 54, 68),
    inches("Crown", British, 15, 20),
    quarters("Post", British, 62, 77),
    quarters("Demy", British, 70, 90),
    inches("Medium", British, 19, 24),
    inches("Royal", British, 20, 25),
    inches("Double pott", British, 15, 25),
    inches("Double foolscap", British, 17, 27),
    inches("Super royal", British, 21, 27),
    inches("Double crown", British, 20, 30),
    inches("Imperial", British, 22, 30),
    quarters("Double post", British, 78, 126),
    inches("Quad crown, inches", British, 30, 40),
    inches("Quad demy, inches", British, 35, 45),
    inches("Double quad crown, inches", British, 40, 60),
    inches("Medium, American", American, 19, 24),
    inches("Royal, American", American, 20, 25),
    inches("Super royal, American", American, 21, 27),
    inches("Imperial, American", American, 22, 32),
    inches("Double medium", American, 24, 38),
    inches("Double imperial", American, 32, 44),
    mm("B6", Iso, 125, 176),
    mm("A7", Iso, 74, 105),
];

/// The name of a size, whichever way round it lies.
#[must_use]
pub fn size_name(width: Length, height: Length) -> Option<&'static NamedSize> {
    let (short, long) = (width.min(height), width.max(height));
    SIZES.iter().find(|s| (s.short, s.long) == (short, long))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn size(name: &str) -> (i64, i64) {
        let found = SIZES.iter().find(|s| s.name == name).unwrap();
        (found.short.nm() / 1_000_000, found.long.nm() / 1_000_000)
    }

    /// ISO 216: each size is the one before halved across its longer side, whole millimetres being kept.
    #[test]
    fn the_a_and_b_series_halve() {
        for series in ["A0 A1 A2 A3 A4 A5 A6 A7", "B0 B1 B2 B3 B4 B5 B6"] {
            let names: Vec<&str> = series.split(' ').collect();
            for pair in names.windows(2) {
                let ((short, long), half) = (size(pair[0]), size(pair[1]));
                assert_eq!(half, (long / 2, short), "{} of {}", pair[1], pair[0]);
            }
        }
        assert_eq!(size("A4"), (210, 297));
    }

    /// ISO 217: the untrimmed series halve likewise.
    #[test]
    fn the_untrimmed_series_halve() {
        for series in ["RA0 RA1 RA2 RA3 RA4", "SRA0 SRA1 SRA2 SRA3 SRA4"] {
            let names: Vec<&str> = series.split(' ').collect();
            for pair in names.windows(2) {
                let ((short, long), half) = (size(pair[0]), size(pair[1]));
                assert_eq!(half, (long / 2, short), "{} of {}", pair[1], pair[0]);
            }
        }
    }

    /// The trimmed octavos of the quad sheets, from memory: an untrimmed leaf is a quarter of the shorter side by an eighth of
    /// the longer one, and 3 mm come off at head, tail and fore-edge.
    #[test]
    fn quad_sheets_give_their_trimmed_octavos() {
        let trims = crate::paper::Trims::default();
        for (name, page) in [
            ("Quad crown", (123, 186)),
            ("Quad large crown", (129, 198)),
            ("Quad demy", (138, 216)),
            ("Quad royal", (156, 234)),
        ] {
            let sheet = SIZES.iter().find(|s| s.name == name).unwrap();
            let mm = Length::from_whole_mm;
            assert_eq!(trims.page((sheet.long.shared(8), sheet.short.shared(4))), (mm(page.0), mm(page.1)), "{name}");
        }
    }

    /// Double is two and quad four basic sheets (gwydir.demon.co.uk, print sizes).
    #[test]
    fn doubles_and_quads_are_multiples() {
        let inches = |name: &str| SIZES.iter().find(|s| s.name == name).map(|s| (s.short, s.long)).unwrap();
        for (basic, double) in [("Crown", "Double crown"), ("Foolscap", "Double foolscap")] {
            let (short, long) = inches(basic);
            assert_eq!(inches(double), (long, short.times(2)), "{double}");
        }
        for (basic, quad) in [("Crown", "Quad crown, inches"), ("Demy", "Quad demy, inches")] {
            let (short, long) = inches(basic);
            assert_eq!(inches(quad), (short.times(2), long.times(2)), "{quad}");
        }
    }

    #[test]
    fn a_size_is_known_either_way_round_and_by_one_name() {
        let name = |a, b| size_name(Length::from_whole_mm(a), Length::from_whole_mm(b)).map(|s| s.name);
        assert_eq!((name(1272, 960), name(960, 1272), name(961, 1272)), (Some("Quad royal"), Some("Quad royal"), None));
        for (i, a) in SIZES.iter().enumerate() {
            assert!(a.short <= a.long && a.short > Length::ZERO, "{}", a.name);
            assert!(SIZES.iter().skip(i + 1).all(|b| a.name != b.name), "{}", a.name);
        }
    }
}
