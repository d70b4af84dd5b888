//! Strangers in the words of the shop. What each says about hands and machines: common practice, no source.

use super::plan::Plan;
use super::stranger::{Backed, Beside, Forme, Second, Stranger};
use crate::fold::misfold::Stage;
use crate::fold::misfold::words::{Look, Trace, capital, lies_words, small, the_section};

impl Stranger {
    /// Whether it speaks of an inset.
    #[must_use]
    pub fn about_inset(&self) -> bool {
        matches!(
            self,
            Self::InsetLeftOut
                | Self::OuterLeftOut
                | Self::InsetOfOtherSection { .. }
                | Self::InsetTwice { .. }
                | Self::InsetLies { .. }
                | Self::InsetOutside
                | Self::InsetBeside { .. }
                | Self::InsetSheet { .. }
        )
    }

    /// The place in the shop as it is written in an answer, and its stage.
    #[must_use]
    pub fn stage(&self) -> (Stage, &'static str) {
        match self {
            Self::OuterSheet { cause } | Self::InsetSheet { cause } => (cause.stage(), stage_words(cause.stage())),
            Self::LanesMixed { .. } => (Stage::Folder, stage_words(Stage::Folder)),
            Self::HalfSheet { .. } => (Stage::Press, stage_words(Stage::Press)),
            stranger if stranger.about_inset() => (Stage::Gathering, "Laying in"),
            _ => (Stage::Gathering, stage_words(Stage::Gathering)),
        }
    }

    /// Less is looked at sooner, on the scale of [`Cause`]. Common practice, without a count behind it.
    pub(in crate::fold::misfold) fn order(&self) -> u32 {
        match self {
            Self::OuterSheet { cause } | Self::InsetSheet { cause } => cause.order(),
            Self::LanesMixed { .. } | Self::InsetLeftOut => 1,
            Self::OtherSection { .. } | Self::InsetOfOtherSection { .. } => 2,
            Self::InsetLies { .. } => 3,
            Self::InsetTwice { second: Second::Inside } => 4,
            Self::InsetTwice { .. } => 5,
            Self::InsetBeside { .. } => 6,
            Self::InsetOutside => 7,
            Self::HalfSheet { .. } => 8,
            Self::LeafMissing { .. } | Self::PairMissing { .. } => 8,
            Self::LeafOfOtherSection { .. } | Self::PairOfOtherSection { .. } => 9,
            Self::LeafTuckedIn { .. } | Self::PairTuckedIn { .. } => 10,
            Self::OuterLeftOut => 11,
        }
    }

    /// What happened, in one sentence.
    #[must_use]
    pub fn title(&self) -> String {
        let other = the_section(i64::from(self.offset()));
        match self {
            Self::OtherSection { .. } => capital(&format!("{other} stands here.")),
            Self::LanesMixed { .. } => format!("The deliveries of the slit sheet were mixed: {other} stands here."),
            Self::LeafOfOtherSection { leaf, .. } => format!("Leaf {leaf} is one of {other}."),
            Self::PairOfOtherSection { leaves: [a, b], .. } => format!("Leaves {a} and {b} are those of {other}."),
            Self::LeafTuckedIn { after, from_leaf, section_offset: 0 } => {
                format!("A second copy of leaf {from_leaf} is tucked in {}.", behind(*after))
            }
            Self::LeafTuckedIn { .. } => format!("A leaf of {other} is tucked in."),
            Self::PairTuckedIn { from_leaves: [a, b], section_offset: 0, .. } => {
                format!("Leaves {a} and {b} are tucked in a second time.")
            }
            Self::PairTuckedIn { .. } => format!("Two joined leaves of {other} are tucked in."),
            Self::LeafMissing { leaf } => format!("Leaf {leaf} is missing."),
            Self::PairMissing { leaves: [a, b] } => format!("Leaves {a} and {b} are missing."),
            Self::HalfSheet { was: Backed::Tumbled, .. } => {
                "A half sheet was tumbled for its second side where it should be turned.".into()
            }
            Self::HalfSheet { was: Backed::Turned, .. } => {
                "A half sheet was turned for its second side where it should be tumbled.".into()
            }
            Self::InsetLeftOut => "The inset was left out.".into(),
            Self::OuterLeftOut => "The inset lies alone, without its outer sheet.".into(),
            Self::InsetOfOtherSection { .. } => format!("The inset of {other} was laid in."),
            Self::InsetTwice { .. } => "Two insets were laid in.".into(),
            Self::InsetLies { lies } => format!("The inset lies {} in its outer sheet.", lies_words(*lies)),
            Self::InsetOutside => "The inset was laid round its outer sheet.".into(),
            Self::InsetBeside { place: Beside::Before, .. } => "The inset lies before its outer sheet.".into(),
            Self::InsetBeside { place: Beside::Behind, .. } => "The inset lies behind its outer sheet.".into(),
            Self::InsetBeside { after, .. } => {
                format!("The inset was laid in behind leaf {}, not in the middle.", after.unwrap_or(0))
            }
            Self::OuterSheet { cause } => format!("On the outer sheet, {}", small(&cause.title())),
            Self::InsetSheet { cause } => format!("On the inset, {}", small(&cause.title())),
        }
    }

    /// What that does, in a sentence or two; causes of single sheets have words of their own.
    #[must_use]
    pub fn did(&self, plan: &Plan) -> String {
        let joined = |leaf: u32| {
            let leaf = i64::from(leaf);
            let pair = plan.joined().into_iter().find(|pair| pair.contains(&leaf));
            pair.and_then(|pair| pair.into_iter().find(|l| *l != leaf))
        };
        let pages = |leaf: u32, offset: i32| {
            let first = plan.start_of(i64::from(offset)) + 2 * i64::from(leaf) - 2;
            format!("{first} and {}", first + 1)
        };
        match self {
            Self::OtherSection { section_offset } | Self::LanesMixed { section_offset } => {
                let (here, end) = (plan.first(), plan.first() + plan.pages() - 1);
                let offset = i64::from(*section_offset);
                let (there, last) = (plan.start_of(offset), plan.start_of(offset + 1) - 1);
                format!("Pages {there} to {last} stand where {here} to {end} are due.")
            }
            Self::LeafOfOtherSection { leaf, from_leaf, section_offset } => format!(
                "It carries {} where {} are due.",
                pages(from_leaf.unwrap_or(*leaf), *section_offset),
                pages(*leaf, 0)
            ),
            Self::PairOfOtherSection { leaves: [a, b], section_offset } => format!(
                "They are one piece of paper across the spine, and carry {} and {} where {} and {} are due.",
                pages(*a, *section_offset),
                pages(*b, *section_offset),
                pages(*a, 0),
                pages(*b, 0)
            ),
            Self::LeafTuckedIn { after, from_leaf, section_offset } => {
                format!("It carries {} and lies {}.", pages(*from_leaf, *section_offset), behind(*after))
            }
            Self::PairTuckedIn { after: [a, b], from_leaves: [one, other], section_offset } => {
                let (one, other) = (pages(*one, *section_offset), pages(*other, *section_offset));
                if a == b {
                    format!("They are one piece of paper across the spine, carry {one}, {other}, and lie {}.", behind(*a))
                } else {
                    format!(
                        "They are one piece of paper across the spine: {one} lie {}, {other} {}.",
                        behind(*a),
                        behind(*b)
                    )
                }
            }
            Self::LeafMissing { leaf } => {
                let gone = format!("Its pages {} are gone.", pages(*leaf, 0));
                match joined(*leaf) {
                    Some(other) => format!(
                        "{gone} Leaf {other}, the other half of the same paper, is still there, so it was cut or torn \
                         out."
                    ),
                    None => format!("{gone} No crease holds it at the spine, so it can have fallen out."),
                }
            }
            Self::PairMissing { leaves: [a, b] } => format!(
                "Pages {} and {} are gone. They are one piece of paper across the spine, so it slipped out whole.",
                pages(*a, 0),
                pages(*b, 0)
            ),
            Self::HalfSheet { forme, .. } => {
                let (here, there) = match forme {
                    Forme::Outer => ("outer", "inner"),
                    Forme::Inner => ("inner", "outer"),
                };
                format!(
                    "One forme prints both sides and the sheet is cut in two: backed up the wrong way, this half has the \
                     {here} pages on both sides and the other half has the {there} ones."
                )
            }
            Self::InsetLeftOut => "The outer sheet is right and closes on itself: its middle opening jumps.".into(),
            Self::OuterLeftOut => "The inset was gathered as if it were the section.".into(),
            Self::InsetOfOtherSection { section_offset } => {
                format!("The outer sheet is its own; the pages inside are those of {}.", the_section(i64::from(*section_offset)))
            }
            Self::InsetTwice { second: Second::Inside } => {
                "The second lies in the middle of the first, so its pages stand between the halves of the first.".into()
            }
            Self::InsetTwice { second: Second::Behind } => {
                "The second lies behind the first in the middle of the outer sheet; only one of them can be sewn through \
                 its fold."
                    .into()
            }
            Self::InsetLies { lies } => match lies {
                crate::fold::misfold::Lies::HeadToTail => "It is upside down, its fold still in the fold of the outer sheet.".into(),
                _ => "Its fold lies at the fore-edge, so no stitch holds it.".into(),
            },
            Self::InsetOutside => "The outer sheet lies inside, and the back of the inset is the back of the section.".into(),
            Self::InsetBeside { place: Beside::AmongLeaves, .. } => {
                "Its fold does not lie in the fold of the outer sheet, so the stitch misses it.".into()
            }
            Self::InsetBeside { .. } => "The two lie one behind the other, each with a back of its own.".into(),
            Self::OuterSheet { .. } | Self::InsetSheet { .. } => String::new(),
        }
    }

    /// What settles whether this is what happened.
    #[must_use]
    pub fn next_check(&self) -> String {
        match self {
            Self::LanesMixed { .. } => {
                "Riffle the spines of the bundle: where the two sections alternate, the deliveries ran together. Look \
                 where the lanes part behind the slitter."
            }
            Self::OtherSection { .. } => {
                "Riffle the spines of the bundle and read its tag: a block of the wrong section is a bundle mislaid. \
                 Then read the signatures in the pile it was taken from."
            }
            Self::LeafOfOtherSection { .. } => {
                "Look into the fold for a stub: a leaf that was cut out and replaced is pasted or hooked on. Compare \
                 with the next copy."
            }
            Self::PairOfOtherSection { .. } => {
                "Draw the two leaves out at the fold and look for their twins in the section that they belong to."
            }
            Self::LeafTuckedIn { .. } | Self::PairTuckedIn { .. } => {
                "See whether it is held in the fold. A loose one can be drawn out; then look which section lacks it."
            }
            Self::LeafMissing { .. } => {
                "Look into the fold for a stub or a torn edge, and look through the copies on either side for the leaf."
            }
            Self::PairMissing { .. } => {
                "Look for the two leaves by the folder and in the copies on either side; count the leaves of the next \
                 section from the same pile."
            }
            Self::HalfSheet { .. } => {
                "Hold an uncut sheet to the light: does each page back its own leaf? Half of the sections should have the \
                 pages of the other forme alone; find where the pile was brought to its second side."
            }
            Self::InsetLeftOut | Self::OuterLeftOut => {
                "Count the piles of insets and of outer sheets: one copy over tells that it was missed."
            }
            Self::InsetOfOtherSection { .. } => {
                "Read the signatures in the pile of insets, and hold every section since that pile was loaded."
            }
            Self::InsetTwice { .. } => {
                "Feel the bulk, draw one inset out and count the pile: it comes out one short."
            }
            Self::InsetLies { .. } => {
                "Draw the inset out and turn it: does it read right? Look through the lift it came in."
            }
            Self::InsetOutside => {
                "Draw the two sheets apart: which one lies outside? Look whether the two piles stand in each other's \
                 place."
            }
            Self::InsetBeside { .. } => {
                "Look at the back: the fold of the inset should lie in the fold of the outer sheet. See whether the outer \
                 sheet opens at its middle where the inset is laid in."
            }
            Self::OuterSheet { cause } => return format!("Draw the outer sheet off. {}", cause.next_check()),
            Self::InsetSheet { cause } => return format!("Draw the inset out. {}", cause.next_check()),
        }
        .into()
    }

    /// Where to look, and what is seen there if it was this.
    pub(in crate::fold::misfold) fn trace(&self) -> Option<Trace> {
        let trace = |look, at: &str, sign: &str| Trace { look, at: at.into(), sign: sign.into() };
        Some(match self {
            Self::LanesMixed { .. } => trace(
                Look::Bundle,
                "along the spines of the bundle",
                "the two sections alternate, as the lanes ran together",
            ),
            Self::OtherSection { .. } => trace(
                Look::Bundle,
                "along the spines of the bundle",
                "the wrong sections lie in one block, a lift or a bundle",
            ),
            Self::LeafOfOtherSection { .. } | Self::LeafTuckedIn { .. } => {
                trace(Look::Table, "into the fold", "a single leaf stands on a stub or lies loose")
            }
            Self::PairOfOtherSection { .. } | Self::PairTuckedIn { .. } => {
                trace(Look::Table, "into the fold", "two leaves are one piece of paper that can be drawn out")
            }
            Self::LeafMissing { .. } => trace(Look::Table, "into the fold", "a stub or a torn edge is left"),
            Self::PairMissing { .. } => trace(Look::Table, "into the fold", "no stub is left"),
            Self::HalfSheet { .. } => {
                trace(Look::Print, "at both sides of an uncut sheet", "each half is backed by itself")
            }
            Self::InsetLeftOut | Self::OuterLeftOut => {
                trace(Look::Table, "at the two piles", "one copy is left over in one of them")
            }
            Self::InsetOfOtherSection { .. } => {
                trace(Look::Bundle, "at the pile of insets", "the insets there are of the other section")
            }
            Self::InsetTwice { .. } => trace(Look::Table, "between the leaves", "two insets come apart, each complete"),
            Self::InsetLies { .. } => {
                trace(Look::Table, "at the inset alone", "it reads right once it is drawn out and turned")
            }
            Self::InsetOutside => trace(Look::Table, "at the back", "the back of the inset is outside"),
            Self::InsetBeside { .. } => trace(Look::Table, "at the back", "two folds lie one behind the other"),
            // Causes of single sheets have traces of their own.
            Self::OuterSheet { .. } | Self::InsetSheet { .. } => return None,
        })
    }
}

/// `behind leaf 3`, or at the front.
fn behind(leaf: u32) -> String {
    if leaf == 0 { "at the front".into() } else { format!("behind leaf {leaf}") }
}

/// A stage as an answer writes it.
pub(in crate::fold::misfold) fn stage_words(stage: Stage) -> &'static str {
    match stage {
        Stage::Press => "At the press",
        Stage::Folder => "At the folder",
        Stage::Gathering => "Gathering",
    }
}
