//! What can have happened to a section beyond its own sheet, and several things at once.

use crate::fold::misfold::{Cause, Lies};
use serde::{Deserialize, Serialize};

/// Where the second of two insets lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Second {
    /// In the middle of the first.
    Inside,
    /// Behind the first, both in the middle of the outer sheet.
    Behind,
}

/// The side of the outer sheet on which an inset lies that is not inside.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Beside {
    /// Before its first page.
    Before,
    /// Behind its last page.
    Behind,
    /// Among its leaves: behind a leaf that is not its middle.
    AmongLeaves,
}

/// The pages of one side of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Forme {
    /// The side of the first page.
    Outer,
    /// The other one.
    Inner,
}

/// How a pile was brought to its second side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Backed {
    /// Turned over left to right.
    Turned,
    /// Turned over top to bottom.
    Tumbled,
}

impl Backed {
    /// The other way.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Turned => Self::Tumbled,
            Self::Tumbled => Self::Turned,
        }
    }
}

/// Something that comes from outside a sheet. Leaves count from 1 in the whole section; `section_offset` counts
/// sections on from this one, backwards below 0.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Stranger {
    /// A whole section of another number stands here.
    OtherSection {
        /// Which one.
        section_offset: i32,
    },
    /// The same, from another delivery of the same slit sheet.
    LanesMixed {
        /// Which one.
        section_offset: i32,
    },
    /// A leaf of another section in the place of the right one.
    LeafOfOtherSection {
        /// The place.
        leaf: u32,
        /// The leaf of the other section; the same number where it is left out.
        #[serde(default)]
        from_leaf: Option<u32>,
        /// Which section.
        section_offset: i32,
    },
    /// Two joined leaves of another section in the place of the right ones.
    PairOfOtherSection {
        /// The two.
        leaves: [u32; 2],
        /// Which section.
        section_offset: i32,
    },
    /// A leaf too many, of another section or a second copy (`section_offset` 0).
    LeafTuckedIn {
        /// The leaf it lies behind; 0 at the front.
        after: u32,
        /// The leaf it is.
        from_leaf: u32,
        /// Of which section.
        section_offset: i32,
    },
    /// Two joined leaves too many.
    PairTuckedIn {
        /// The leaves they lie behind.
        after: [u32; 2],
        /// The leaves they are.
        from_leaves: [u32; 2],
        /// Of which section.
        section_offset: i32,
    },
    /// A leaf is gone.
    LeafMissing {
        /// The leaf.
        leaf: u32,
    },
    /// Two joined leaves are gone.
    PairMissing {
        /// The two.
        leaves: [u32; 2],
    },
    /// A half sheet whose pile came to its second side the wrong way: both sides carry one forme.
    HalfSheet {
        /// The forme on both sides.
        forme: Forme,
        /// What was done.
        was: Backed,
    },
    /// The inset was not laid in.
    InsetLeftOut,
    /// The inset lies alone, without its outer sheet.
    OuterLeftOut,
    /// The inset of another section was laid in.
    InsetOfOtherSection {
        /// Of which section.
        section_offset: i32,
    },
    /// Two insets were laid in.
    InsetTwice {
        /// Where the second one lies.
        second: Second,
    },
    /// The inset does not lie right in its outer sheet.
    InsetLies {
        /// How it lies.
        lies: Lies,
    },
    /// The inset was laid round the outer sheet.
    InsetOutside,
    /// The inset lies beside the middle.
    InsetBeside {
        /// Where.
        place: Beside,
        /// The leaf of the outer sheet it lies behind, where it lies among them.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        after: Option<u32>,
    },
    /// One of the causes of a single sheet, on the outer sheet.
    OuterSheet {
        /// The cause, with the numbers printed.
        cause: Cause,
    },
    /// One of the causes of a single sheet, on the inset.
    InsetSheet {
        /// The cause, with the numbers printed.
        cause: Cause,
    },
}

/// What happened to a section.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(untagged)]
pub enum Happened {
    /// A cause that lies in the sheet, or two.
    Sheet(Cause),
    /// A stranger.
    Stranger(Stranger),
    /// Two at once, one of them a stranger.
    Together(Both),
}

/// Two at once, written as two causes of a sheet are.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Both {
    kind: &'static str,
    causes: Vec<Happened>,
}

impl Happened {
    /// Several at once; those of the sheet become one cause.
    #[must_use]
    pub fn all(parts: Vec<Self>) -> Option<Self> {
        let (mut sheet, mut others): (Vec<Cause>, Vec<Self>) = (Vec::new(), Vec::new());
        for part in parts.iter().flat_map(Self::parts) {
            match part {
                Self::Sheet(cause) => sheet.push(cause),
                other => others.push(other),
            }
        }
        if others.is_empty() {
            return match sheet.len() {
                0 => None,
                1 => sheet.pop().map(Self::Sheet),
                _ => Some(Self::Sheet(Cause::Together { causes: sheet })),
            };
        }
        others.extend(sheet.into_iter().map(Self::Sheet));
        if others.len() == 1 { others.pop() } else { Some(Self::Together(Both { kind: "together", causes: others })) }
    }

    /// Whether two things are one, whatever the order of their parts.
    #[must_use]
    pub fn same(&self, other: &Self) -> bool {
        let (one, other) = (self.parts(), other.parts());
        one.len() == other.len() && one.iter().all(|part| other.contains(part))
    }

    /// The single things in it.
    #[must_use]
    pub fn parts(&self) -> Vec<Self> {
        match self {
            Self::Sheet(cause) => cause.singles().into_iter().cloned().map(Self::Sheet).collect(),
            Self::Stranger(_) => vec![self.clone()],
            Self::Together(both) => both.causes.iter().flat_map(Self::parts).collect(),
        }
    }
}

impl From<Cause> for Happened {
    fn from(cause: Cause) -> Self {
        Self::Sheet(cause)
    }
}

impl From<Stranger> for Happened {
    fn from(stranger: Stranger) -> Self {
        Self::Stranger(stranger)
    }
}

impl Stranger {
    /// The words that name a stranger as `kind`.
    pub const KINDS: [&'static str; 18] = [
        "half_sheet",
        "other_section",
        "lanes_mixed",
        "leaf_of_other_section",
        "pair_of_other_section",
        "leaf_tucked_in",
        "pair_tucked_in",
        "leaf_missing",
        "pair_missing",
        "inset_left_out",
        "outer_left_out",
        "inset_of_other_section",
        "inset_twice",
        "inset_lies",
        "inset_outside",
        "inset_beside",
        "outer_sheet",
        "inset_sheet",
    ];

    /// How many sections on it comes from; 0 where it is this one's.
    #[must_use]
    pub fn offset(&self) -> i32 {
        match self {
            Self::OtherSection { section_offset }
            | Self::LanesMixed { section_offset }
            | Self::LeafOfOtherSection { section_offset, .. }
            | Self::PairOfOtherSection { section_offset, .. }
            | Self::LeafTuckedIn { section_offset, .. }
            | Self::PairTuckedIn { section_offset, .. }
            | Self::InsetOfOtherSection { section_offset } => *section_offset,
            _ => 0,
        }
    }
}
