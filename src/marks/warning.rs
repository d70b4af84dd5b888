//! What a design of marks can't show, and what of it does not fit the backs it is printed on.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{AfterWrap, BackMarks, HeadMarks, Inset, Lies, Look, MOST_SECTIONS, SeenBack, words};
use crate::units::mm;

/// How far in mm a fold may be out: about 1/32 in (cgpl.com, on folding tolerances).
const FOLD_OUT_MM: f64 = 0.8;

/// How many folds a section is taken to have where nobody says so: a sixteen has three.
const USUAL_FOLDS: u32 = 3;

/// How far in mm the first mark should keep from the head where the trim is not known (from memory).
const HEAD_TRIM_MM: f64 = 5.0;

/// Two widths of bars differ by at least so much in mm, to be told apart at arm's length (from memory).
const WIDTHS_DIFFER_MM: f64 = 1.0;

/// A bar at an end of the book is at least so much longer than the others, as a share of them (from memory).
const ENDS_LONGER: f64 = 0.5;

/// The backs that the marks are printed on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Backs {
    /// How thick a folded section is, in mm: its back is about as wide.
    pub thickness_mm: Option<f64>,
    /// How often a sheet is folded.
    pub folds: u32,
    /// What the knife takes off at the head, in mm.
    pub head_trim_mm: Option<f64>,
    /// What it takes off at the foot, in mm.
    pub foot_trim_mm: Option<f64>,
}

impl Default for Backs {
    fn default() -> Self {
        Self { thickness_mm: None, folds: USUAL_FOLDS, head_trim_mm: None, foot_trim_mm: None }
    }
}

impl Backs {
    /// How far in mm the bars scatter about their levels. Each fold is out by so much on its own, so the squares add up,
    /// as errors that know nothing of each other do.
    #[must_use]
    pub fn scatter_mm(&self) -> f64 {
        FOLD_OUT_MM * f64::from(self.folds.min(100)).sqrt()
    }

    /// The least step in mm that leaves room for that: three times the scatter (from memory; for a sixteen it gives
    /// the 4 to 6 mm that are usual).
    #[must_use]
    pub fn least_step_mm(&self) -> f64 {
        3.0 * self.scatter_mm()
    }
}

/// An end of the spine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Edge {
    /// The head.
    Head,
    /// The foot.
    Foot,
}

/// One weakness of a design, for one book.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Warning {
    /// These sections show the same on their backs: any of them may stand for the other.
    SharedLevel {
        /// The sections, ascending.
        sections: Vec<u32>,
    },
    /// Head to tail, this section's back shows what it shows when the section lies right.
    MirrorsItself {
        /// The section.
        section: u32,
    },
    /// Head to tail, this section's back shows what another section's back should.
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
        /// The least that leaves room for the scatter of the folds, in mm.
        least_mm: f64,
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
    /// A bar stands in what the knife takes off.
    InTrim {
        /// The sections, ascending.
        sections: Vec<u32>,
        /// Where.
        edge: Edge,
        /// What the knife takes off there, in mm.
        trim_mm: f64,
    },
    /// What is printed beside the bars stands in what the knife takes off.
    LabelInTrim {
        /// Where.
        edge: Edge,
    },
    /// What is printed beside the bars runs into some of them.
    LabelOnBars {
        /// The sections, ascending.
        sections: Vec<u32>,
    },
    /// The two columns run into each other.
    ColumnsOverlap {
        /// By how much, in mm.
        by_mm: f64,
    },
    /// A bar off the fold runs over the back on to the page, or stands beside the back altogether.
    OffTheBack {
        /// How far from the fold it reaches, in mm.
        reaches_mm: f64,
        /// How far the back reaches, half the thickness of a section, in mm.
        back_mm: f64,
        /// Whether nothing of it is on the back.
        wholly: bool,
    },
    /// The widths of the two turns are too much alike.
    WidthsAlike {
        /// By how much they differ, in mm.
        by_mm: f64,
    },
    /// The bars at the ends are hardly longer than the others.
    EndsAlike {
        /// By how much, in mm.
        by_mm: f64,
    },
    /// Bars in the head trim reach below it, and stay in the book.
    BelowHeadTrim {
        /// How far down they reach, in mm.
        depth_mm: f64,
        /// What the knife takes off, in mm.
        trim_mm: f64,
    },
    /// Inner sheets carry no mark.
    InnerUnmarked {
        /// Sheets of a section.
        sheets: u32,
    },
}

impl BackMarks {
    /// What these marks can't show in a book of `sections` sections, and what of them does not fit its backs: shared
    /// levels, turned sections, then sizes.
    #[must_use]
    pub fn warnings(&self, sections: u32, backs: &Backs) -> Vec<Warning> {
        let mut warnings = looks(self, sections.min(MOST_SECTIONS));
        warnings.extend(self.misfits(sections, backs));
        warnings
    }

    /// What of these marks does not fit the backs of a book of `sections` sections, whatever it shows.
    #[must_use]
    pub fn misfits(&self, sections: u32, backs: &Backs) -> Vec<Warning> {
        let sections = sections.min(MOST_SECTIONS);
        let mut warnings = Vec::new();
        let (step_mm, least_mm) = (self.step_mm(), backs.least_step_mm());
        if step_mm < least_mm {
            warnings.push(Warning::SmallStep { step_mm, least_mm });
        }
        let length_mm = self.bar(2, sections.max(3)).length_mm;
        if length_mm > step_mm + 1e-6 {
            warnings.push(Warning::BarsOverlap { by_mm: length_mm - step_mm });
        }
        match self.inset {
            Inset::Through { head } => warnings.extend(head_trim(&head, backs)),
            Inset::Sheets { head: Some(head), .. } => {
                warnings.extend(head_trim(&head, backs));
                warnings.extend(on_the_spine(self, sections, backs));
            }
            Inset::Sheets { sheets, head: None } => {
                warnings.push(Warning::InnerUnmarked { sheets });
                warnings.extend(on_the_spine(self, sections, backs));
            }
            Inset::Plain => warnings.extend(on_the_spine(self, sections, backs)),
        }
        warnings
    }
}

/// Sections that look alike, lying right or head to tail.
fn looks(marks: &BackMarks, sections: u32) -> Vec<Warning> {
    let mut warnings = Vec::new();
    let look = |section: u32, lies: Lies| SeenBack::of(marks, section, sections, lies).look(marks);
    let mut sharing = BTreeMap::<Look, Vec<u32>>::new();
    for section in 1..=sections {
        sharing.entry(look(section, Lies::Right)).or_default().push(section);
    }
    let mut shared = sharing.values().filter(|s| s.len() > 1).cloned().collect::<Vec<_>>();
    shared.sort_unstable();
    warnings.extend(shared.into_iter().map(|sections| Warning::SharedLevel { sections }));
    for section in 1..=sections {
        let Some(like) = sharing.get(&look(section, Lies::HeadToTail)) else { continue };
        warnings.push(match like.first() {
            _ if like.contains(&section) => Warning::MirrorsItself { section },
            Some(&looks_like) => Warning::MirrorsAnother { section, looks_like },
            None => continue,
        });
    }
    warnings
}

/// Bars in the head trim that would stay in the book.
fn head_trim(head: &HeadMarks, backs: &Backs) -> Option<Warning> {
    let trim_mm = backs.head_trim_mm?;
    let depth_mm = head.depth_mm;
    (depth_mm > trim_mm + 1e-6).then_some(Warning::BelowHeadTrim { depth_mm, trim_mm })
}

/// What does not fit along the spine, or across it.
fn on_the_spine(marks: &BackMarks, sections: u32, backs: &Backs) -> Vec<Warning> {
    let mut warnings = Vec::new();
    let spine_mm = marks.stairs.spine_mm;
    let bars = (1..=sections).map(|section| (section, marks.bar(section, sections).ends_mm())).collect::<Vec<_>>();
    let those = |so: &dyn Fn(f64, f64) -> bool| {
        let hit = bars.iter().filter(|(_, (begins, ends))| so(*begins, *ends));
        hit.map(|(section, _)| *section).collect::<Vec<_>>()
    };
    let trim = |edge: Edge| match edge {
        Edge::Head => backs.head_trim_mm,
        Edge::Foot => backs.foot_trim_mm,
    };
    for edge in [Edge::Head, Edge::Foot] {
        let Some(trim_mm) = trim(edge) else { continue };
        let sections = match edge {
            Edge::Head => those(&|begins, _| begins < trim_mm - 1e-6),
            Edge::Foot => those(&|_, ends| ends > spine_mm - trim_mm + 1e-6),
        };
        if !sections.is_empty() {
            warnings.push(Warning::InTrim { sections, edge, trim_mm });
        }
    }
    let first_mm = bars.iter().fold(spine_mm, |least, (_, (begins, _))| least.min(*begins));
    if backs.head_trim_mm.is_none() && first_mm < HEAD_TRIM_MM {
        warnings.push(Warning::NearHead { first_mm });
    }
    if let Some(label) = &marks.label {
        let (from, to) = (label.from_mm, label.from_mm + label.length_mm(sections));
        for edge in [Edge::Head, Edge::Foot] {
            let in_trim = match (edge, trim(edge)) {
                (Edge::Head, Some(trim_mm)) => from < trim_mm - 1e-6,
                (Edge::Foot, Some(trim_mm)) => to > spine_mm - trim_mm + 1e-6,
                (_, None) => false,
            };
            warnings.extend(in_trim.then_some(Warning::LabelInTrim { edge }));
        }
        let sections = those(&|begins, ends| begins < to - 1e-6 && ends > from + 1e-6);
        if !sections.is_empty() {
            warnings.push(Warning::LabelOnBars { sections });
        }
    }
    warnings.extend(across_the_back(marks, backs));
    let by_mm = marks.ends_mm.map(|ends_mm| ends_mm - marks.stairs.length_mm);
    let alike = by_mm.filter(|by_mm| *by_mm < ENDS_LONGER * marks.stairs.length_mm);
    warnings.extend(alike.map(|by_mm| Warning::EndsAlike { by_mm }));
    warnings
}

/// Columns and widths.
fn across_the_back(marks: &BackMarks, backs: &Backs) -> Vec<Warning> {
    let mut warnings = Vec::new();
    match marks.after_wrap {
        AfterWrap::Again => {}
        AfterWrap::Column { apart_mm } => {
            if apart_mm < marks.width_mm - 1e-6 {
                warnings.push(Warning::ColumnsOverlap { by_mm: marks.width_mm - apart_mm });
            }
            let half = |mm: f64| mm / 2.0;
            let reaches_mm = half(apart_mm) + half(marks.width_mm);
            if let Some(back_mm) = backs.thickness_mm.map(half).filter(|back| reaches_mm > back + 1e-6) {
                let wholly = half(apart_mm) - half(marks.width_mm) >= back_mm;
                warnings.push(Warning::OffTheBack { reaches_mm, back_mm, wholly });
            }
        }
        AfterWrap::Width { width_mm } => {
            let by_mm = (width_mm - marks.width_mm).abs();
            // What runs over the edge of a thin back is not seen.
            let seen = |width: f64| backs.thickness_mm.map_or(width, |thick| width.min(thick));
            let seen_by_mm = (seen(width_mm) - seen(marks.width_mm)).abs();
            if by_mm.min(seen_by_mm) < WIDTHS_DIFFER_MM - 1e-6 {
                warnings.push(Warning::WidthsAlike { by_mm: by_mm.min(seen_by_mm) });
            }
        }
    }
    warnings
}

impl Warning {
    /// The warning as a sentence or two for a binder.
    #[must_use]
    pub fn says(&self) -> String {
        let them = |sections: &[u32]| words::capital(&words::sections(sections));
        match self {
            Self::SharedLevel { sections } => {
                format!("{} show the same on their backs, so one may stand for the other.", them(sections))
            }
            Self::MirrorsItself { section } => {
                format!("Section {section} head to tail shows its mark where it should be.")
            }
            Self::MirrorsAnother { section, looks_like } => {
                format!("Section {section} head to tail looks like section {looks_like}.")
            }
            Self::SmallStep { step_mm, least_mm } => format!(
                "A step of {} mm is small: a fold a little out looks like the next level. Folds as good as usual want \
                 {} mm.",
                mm(*step_mm),
                mm(*least_mm)
            ),
            Self::BarsOverlap { by_mm } => {
                format!(
                    "Bars of neighbouring levels overlap by {} mm; a gap or a double is then hard to see.",
                    mm(*by_mm)
                )
            }
            Self::NearHead { first_mm } => {
                format!("The first bar begins {} mm from the head and may be lost in the trim.", mm(*first_mm))
            }
            Self::InTrim { sections, edge, trim_mm } => format!(
                "The knife takes {} mm at the {} and with it the bar of {}, or a part of it.",
                mm(*trim_mm),
                edge.word(),
                words::sections(sections)
            ),
            Self::LabelInTrim { edge } => {
                format!("What is printed beside the bars stands in the trim at the {}.", edge.word())
            }
            Self::LabelOnBars { sections } => {
                format!("What is printed beside the bars runs into the bar of {}.", words::sections(sections))
            }
            Self::ColumnsOverlap { by_mm } => {
                format!("The two columns run into each other by {} mm.", mm(*by_mm))
            }
            Self::OffTheBack { back_mm, wholly: true, .. } => format!(
                "The columns do not stand on the back at all: it reaches only {} mm to each side of the fold.",
                mm(*back_mm)
            ),
            Self::OffTheBack { reaches_mm, back_mm, .. } => format!(
                "The bars of a column reach {} mm from the fold, and the back only {} mm: they run over on to the page.",
                mm(*reaches_mm),
                mm(*back_mm)
            ),
            Self::WidthsAlike { by_mm } => format!(
                "The bars of the second turn differ by {} mm in width as far as the back shows them, which is hard to see.",
                mm(*by_mm)
            ),
            Self::EndsAlike { by_mm } => {
                format!("The bars at the ends of the book are only {} mm longer than the others.", mm(*by_mm))
            }
            Self::BelowHeadTrim { depth_mm, trim_mm } => format!(
                "The bars in the head trim reach {} mm down, and the knife takes only {} mm: they stay in the book.",
                mm(*depth_mm),
                mm(*trim_mm)
            ),
            Self::InnerUnmarked { sheets } => format!(
                "Each section is {sheets} sheets inside one another, and only the outer one shows a bar: what is wrong \
                 with an inner one does not show."
            ),
        }
    }
}

impl Edge {
    const fn word(self) -> &'static str {
        match self {
            Self::Head => "head",
            Self::Foot => "foot",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::marks::{Design, Label};

    fn six_mm(levels: u32) -> BackMarks {
        Design { spine_mm: 216.0, first_mm: 30.0, step_mm: 6.0, length_mm: 6.0, levels }.into()
    }

    #[test]
    fn a_staircase_that_begins_again() {
        let design = Design { levels: 4, ..Design::default() };
        let shared: Vec<_> = design
            .warnings(10)
            .into_iter()
            .filter_map(|warning| match warning {
                Warning::SharedLevel { sections } => Some(sections),
                _ => None,
            })
            .collect();
        assert_eq!(shared, [vec![1, 5, 9], vec![2, 6, 10], vec![3, 7], vec![4, 8]]);
    }

    #[test]
    fn twenty_five_sections_on_twenty_four_levels_want_a_second_column() {
        let shared = |marks: &BackMarks, n: u32| {
            let all = marks.warnings(n, &Backs::default()).into_iter();
            all.filter(|w| matches!(w, Warning::SharedLevel { .. })).map(|w| w.says()).collect::<Vec<_>>()
        };
        assert_eq!(shared(&six_mm(24), 24), Vec::<String>::new());
        let says = "Sections 1 and 25 show the same on their backs, so one may stand for the other.";
        assert_eq!(shared(&six_mm(24), 25), [says]);
        let column = BackMarks { after_wrap: AfterWrap::Column { apart_mm: 2.0 }, ..six_mm(24) };
        assert_eq!(shared(&column, 25), Vec::<String>::new());
        assert_eq!(shared(&column, 49).len(), 1);
        let width = BackMarks { after_wrap: AfterWrap::Width { width_mm: 4.0 }, ..six_mm(24) };
        assert_eq!(shared(&width, 25), Vec::<String>::new());
    }

    #[test]
    fn a_mirrored_staircase() {
        // Five steps about the middle of the spine: section 3 stands at mid-height.
        let design = Design { spine_mm: 100.0, first_mm: 25.0, step_mm: 10.0, length_mm: 10.0, levels: 5 };
        let warnings = design.warnings(5);
        assert!(warnings.contains(&Warning::MirrorsItself { section: 3 }));
        assert!(warnings.contains(&Warning::MirrorsAnother { section: 1, looks_like: 5 }));
        // In columns, a turned bar changes sides.
        let column = BackMarks { after_wrap: AfterWrap::Column { apart_mm: 2.0 }, ..design.into() };
        assert_eq!(column.warnings(5, &Backs::default()), []);
    }

    #[test]
    fn sizes() {
        let design = Design { first_mm: 2.0, step_mm: 3.0, length_mm: 5.0, ..Design::default() };
        let warnings = design.warnings(1);
        // Three folds: 3 * 0.8 * root of 3.
        let least = |w: &Warning| if let Warning::SmallStep { least_mm, .. } = w { Some(*least_mm) } else { None };
        let least = warnings.iter().find_map(least).unwrap();
        assert!((least - 4.157).abs() < 0.001, "{least}");
        assert!(warnings.contains(&Warning::BarsOverlap { by_mm: 2.0 }));
        assert!(warnings.contains(&Warning::NearHead { first_mm: 2.0 }));
        let once = Backs { folds: 1, ..Backs::default() };
        let small = |w: &Warning| matches!(w, Warning::SmallStep { .. });
        assert!(!BackMarks::from(design).warnings(1, &once).iter().any(small));
    }

    #[test]
    fn what_the_knife_takes() {
        let backs = Backs { head_trim_mm: Some(31.0), foot_trim_mm: Some(43.0), ..Backs::default() };
        let warnings = six_mm(24).warnings(24, &backs);
        let in_trim = |sections: Vec<u32>, edge, trim_mm| Warning::InTrim { sections, edge, trim_mm };
        assert_eq!(
            warnings[warnings.len() - 2..],
            [in_trim(vec![1], Edge::Head, 31.0), in_trim(vec![24], Edge::Foot, 43.0)]
        );
        let says = warnings.last().map(Warning::says).unwrap();
        assert_eq!(says, "The knife takes 43 mm at the foot and with it the bar of section 24, or a part of it.");
        // The first begins at 30 and the last ends at 174: a knife that takes that and no more leaves them whole.
        let just = Backs { head_trim_mm: Some(30.0), foot_trim_mm: Some(42.0), ..Backs::default() };
        assert!(six_mm(24).warnings(24, &just).iter().all(|w| !matches!(w, Warning::InTrim { .. })));
    }

    #[test]
    fn what_is_printed_beside_the_bars() {
        let label = Label { number: true, of_how_many: false, title: String::new(), from_mm: 28.0, size_mm: 2.5 };
        let marks = BackMarks { label: Some(label), ..six_mm(24) };
        // Two figures of 1.5 mm, from 28 to 31 mm: into the first bar only.
        let warnings = marks.warnings(24, &Backs::default());
        assert!(warnings.contains(&Warning::LabelOnBars { sections: vec![1] }), "{warnings:?}");
        let trimmed = marks.warnings(24, &Backs { head_trim_mm: Some(29.0), ..Backs::default() });
        assert!(trimmed.contains(&Warning::LabelInTrim { edge: Edge::Head }));
    }

    #[test]
    fn columns_on_a_thin_back() {
        let backs = Backs { thickness_mm: Some(2.0), ..Backs::default() };
        let column = |apart_mm: f64, width_mm: f64| {
            let marks = BackMarks { width_mm, after_wrap: AfterWrap::Column { apart_mm }, ..six_mm(24) };
            let all = marks.warnings(1, &backs).into_iter();
            all.filter(|w| !matches!(w, Warning::SmallStep { .. })).collect::<Vec<_>>()
        };
        assert_eq!(column(1.0, 1.0), []);
        assert_eq!(column(2.0, 1.0), [Warning::OffTheBack { reaches_mm: 1.5, back_mm: 1.0, wholly: false }]);
        assert_eq!(column(4.0, 1.0), [Warning::OffTheBack { reaches_mm: 2.5, back_mm: 1.0, wholly: true }]);
        assert_eq!(column(0.5, 1.0), [Warning::ColumnsOverlap { by_mm: 0.5 }]);
        let wide = BackMarks { after_wrap: AfterWrap::Width { width_mm: 4.0 }, ..six_mm(24) };
        assert!(wide.warnings(1, &backs).contains(&Warning::WidthsAlike { by_mm: 0.0 }), "both fill the back");
    }

    #[test]
    fn every_warning_is_a_sentence() {
        let head = HeadMarks { first_mm: 10.0, step_mm: 5.0, length_mm: 6.0, depth_mm: 4.0 };
        let marks = BackMarks {
            after_wrap: AfterWrap::Width { width_mm: 2.5 },
            ends_mm: Some(7.0),
            inset: Inset::Sheets { sheets: 2, head: Some(head) },
            ..six_mm(3)
        };
        let backs = Backs { thickness_mm: Some(1.0), folds: 9, head_trim_mm: Some(3.0), foot_trim_mm: Some(190.0) };
        let unmarked = BackMarks { inset: Inset::Sheets { sheets: 2, head: None }, ..marks.clone() };
        let all = [marks.warnings(9, &backs), unmarked.warnings(9, &backs)].concat();
        for warning in &all {
            let says = warning.says();
            assert!(says.ends_with('.') && says.starts_with(|c: char| c.is_ascii_uppercase()), "{says}");
        }
        for kind in [
            Warning::BelowHeadTrim { depth_mm: 4.0, trim_mm: 3.0 },
            Warning::InnerUnmarked { sheets: 2 },
            Warning::EndsAlike { by_mm: 1.0 },
            Warning::WidthsAlike { by_mm: 0.0 },
        ] {
            assert!(all.contains(&kind), "{kind:?} in {all:?}");
        }
    }
}
