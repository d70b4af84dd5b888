//! What a design of marks can't show.

use serde::Serialize;

use super::Design;

/// The smallest step in mm that is still told apart with ease: three times the scatter of the spine fold
/// (from memory: 4 to 6 mm).
const SMALL_STEP_MM: f64 = 4.0;

/// How far in mm the first mark should keep from the head, because of the trim (from memory).
const HEAD_TRIM_MM: f64 = 5.0;

/// One weakness of a design, for one book.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Warning {
    /// These sections share one level: any of them may stand for the other.
    SharedLevel {
        /// The sections, ascending.
        sections: Vec<u32>,
    },
    /// Head to tail, this section's mark stands where it stands when the section lies right.
    MirrorsItself {
        /// The section.
        section: u32,
    },
    /// Head to tail, this section's mark stands where another section's mark should.
    MirrorsAnother {
        /// The section that is turned.
        section: u32,
        /// The section it looks like (the first one, if several share the level).
        looks_like: u32,
    },
    /// The steps are so small that a fold a little out shifts one mark to the next level.
    SmallStep {
        /// The step in mm.
        step_mm: f64,
    },
    /// Bars of neighbouring levels overlap.
    BarsOverlap {
        /// By how much, in mm.
        by_mm: f64,
    },
    /// The first mark may be lost in the head trim.
    NearHead {
        /// Where it begins, in mm from the head.
        first_mm: f64,
    },
}

/// All weaknesses, in a fixed order: shared levels, turned sections, sizes.
pub(super) fn warnings(design: &Design, sections: u32) -> Vec<Warning> {
    let mut warnings = Vec::new();
    if sections > design.levels {
        for level in 1..=design.levels.min(sections - design.levels) {
            let step = design.levels as usize;
            let sharing = (level..=sections).step_by(step).collect();
            warnings.push(Warning::SharedLevel { sections: sharing });
        }
    }
    for section in 1..=sections {
        let seen = design.mirrored_mm(section);
        let near = |other: u32| (design.middle_mm(other) - seen).abs() <= design.reach_mm();
        if near(section) {
            warnings.push(Warning::MirrorsItself { section });
        } else if let Some(looks_like) = (1..=sections).find(|&other| near(other)) {
            warnings.push(Warning::MirrorsAnother {
                section,
                looks_like,
            });
        }
    }
    if design.step_mm < SMALL_STEP_MM {
        warnings.push(Warning::SmallStep {
            step_mm: design.step_mm,
        });
    }
    if design.length_mm > design.step_mm {
        warnings.push(Warning::BarsOverlap {
            by_mm: design.length_mm - design.step_mm,
        });
    }
    if design.first_mm < HEAD_TRIM_MM {
        warnings.push(Warning::NearHead {
            first_mm: design.first_mm,
        });
    }
    warnings
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_staircase_that_begins_again() {
        let design = Design {
            levels: 4,
            ..Design::default()
        };
        let shared: Vec<_> = design
            .warnings(10)
            .into_iter()
            .filter_map(|warning| match warning {
                Warning::SharedLevel { sections } => Some(sections),
                _ => None,
            })
            .collect();
        assert_eq!(
            shared,
            [vec![1, 5, 9], vec![2, 6, 10], vec![3, 7], vec![4, 8]]
        );
    }

    #[test]
    fn a_mirrored_staircase() {
        // Five steps about the middle of the spine: section 3 stands at mid-height.
        let design = Design {
            spine_mm: 100.0,
            first_mm: 25.0,
            step_mm: 10.0,
            length_mm: 10.0,
            levels: 5,
        };
        let warnings = design.warnings(5);
        assert!(warnings.contains(&Warning::MirrorsItself { section: 3 }));
        assert!(warnings.contains(&Warning::MirrorsAnother {
            section: 1,
            looks_like: 5
        }));
    }

    #[test]
    fn sizes() {
        let design = Design {
            first_mm: 2.0,
            step_mm: 3.0,
            length_mm: 5.0,
            ..Design::default()
        };
        let warnings = design.warnings(1);
        assert!(warnings.contains(&Warning::SmallStep { step_mm: 3.0 }));
        assert!(warnings.contains(&Warning::BarsOverlap { by_mm: 2.0 }));
        assert!(warnings.contains(&Warning::NearHead { first_mm: 2.0 }));
    }
}
