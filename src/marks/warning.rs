//! What a design of marks can't show, and what of it does not fit the backs it is printed on: as data, and as sentences.

use serde::{Deserialize, Serialize};

use crate::units::mm;
use crate::words;

/// How far in mm a fold may be out: about 1/32 in (cgpl.com, on folding tolerances).
pub(super) const FOLD_OUT_MM: f64 = 0.8;

/// How many folds a section is taken to have where nobody says so: a sixteen has three.
const USUAL_FOLDS: u32 = 3;

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
    /// The letters beside the bars are larger than the back is wide.
    LabelOverBack {
        /// Their size, in mm.
        size_mm: f64,
        /// How thick a section is, in mm.
        back_mm: f64,
    },
    /// The two columns run into each other.
    ColumnsOverlap {
        /// By how much, in mm.
        by_mm: f64,
    },
    /// The spine fold scatters as far as from one column to the other.
    ColumnsInScatter {
        /// From the fold to the middle of a column, in mm.
        off_mm: f64,
        /// How far a fold may be out, in mm.
        out_mm: f64,
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
            Self::LabelOverBack { size_mm, back_mm } => format!(
                "Letters of {} mm run over a back of {} mm on to its pages: to read them, bend the section open.",
                mm(*size_mm),
                mm(*back_mm)
            ),
            Self::ColumnsOverlap { by_mm } => {
                format!("The two columns run into each other by {} mm.", mm(*by_mm))
            }
            Self::ColumnsInScatter { off_mm, out_mm } => format!(
                "The columns stand {} mm off the fold, and a fold may be {} mm out: a bar of one is then seen in the other.",
                mm(*off_mm),
                mm(*out_mm)
            ),
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
