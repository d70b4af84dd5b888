//! What can be done to a section of a slit sheet beside the causes of a single sheet: for those who make a wrong one.

use super::job::SectionCase;
use super::section_of::SectionOf;
use crate::fold::misfold::{Backed, Beside, Forme, HalfSheets, Lies, Second, Stranger};
use crate::json::Json;

impl SectionCase {
    /// What came with the sheet: half sheets, deliveries and insets gone wrong, each with its name and as the ask protocol
    /// words it. The section begins with page `first`.
    #[must_use]
    pub fn strangers(&self, of: &SectionOf, first: u32) -> Vec<(String, Json)> {
        let mut all = Vec::new();
        if let Some((course, section)) = of.sheet.as_ref().filter(|_| self.made_up.is_none()) {
            let halves = HalfSheets::of(course, (*section as usize).saturating_sub(1), first);
            if let Some(was) = halves.map(|halves| halves.right().other()) {
                all.extend([Forme::Outer, Forme::Inner].map(|forme| Stranger::HalfSheet { forme, was }));
            }
            let (section, sections) = (*section as i32, course.sections() as i32);
            let beside = [1, -1].into_iter().filter(|offset| (1..=sections).contains(&(section + offset)));
            all.extend(beside.map(|section_offset| Stranger::LanesMixed { section_offset }));
        }
        if self.has_inset(of) {
            all.push(Stranger::InsetLeftOut);
            all.push(Stranger::InsetOfOtherSection { section_offset: 1 });
            all.extend([Second::Inside, Second::Behind].map(|second| Stranger::InsetTwice { second }));
            let lies = [Lies::HeadToTail, Lies::TurnedInPlane, Lies::SideToSide];
            all.extend(lies.map(|lies| Stranger::InsetLies { lies }));
            all.push(Stranger::InsetOutside);
            all.extend([Beside::Before, Beside::Behind].map(|place| Stranger::InsetBeside { place, after: None }));
            all.push(Stranger::InsetBeside { place: Beside::AmongLeaves, after: Some(1) });
        }
        // Behind the only leaf before the middle the inset lies right.
        let right = |s: &Stranger| matches!(s, Stranger::InsetBeside { after: Some(1), .. }) && of.scheme.pages() < 8;
        all.iter().filter(|s| !right(s)).filter_map(|s| Some((name(s), json(s)?))).collect()
    }
}

/// What it is called among others like it.
fn name(stranger: &Stranger) -> String {
    let title = stranger.title();
    let more = match stranger {
        Stranger::HalfSheet { forme: Forme::Outer, .. } => " The half with the outer forme.",
        Stranger::HalfSheet { forme: Forme::Inner, .. } => " The half with the inner forme.",
        Stranger::InsetTwice { second: Second::Inside } => " One lies in the other.",
        Stranger::InsetTwice { second: Second::Behind } => " One lies behind the other.",
        _ => "",
    };
    title + more
}

/// As the protocol words it; `None` for what is not made here.
fn json(stranger: &Stranger) -> Option<Json> {
    let kind = |kind: &'static str, more: Vec<(&'static str, Json)>| {
        let kind = ("kind", kind.into());
        Some(Json::Object(std::iter::once(kind).chain(more).map(|(name, value)| (name.to_owned(), value)).collect()))
    };
    let number = |n: i32| Json::Number(f64::from(n));
    match stranger {
        Stranger::HalfSheet { forme, was } => {
            let forme = if *forme == Forme::Outer { "outer" } else { "inner" };
            let was = if *was == Backed::Turned { "turned" } else { "tumbled" };
            kind("half_sheet", vec![("forme", forme.into()), ("was", was.into())])
        }
        Stranger::LanesMixed { section_offset } => {
            kind("lanes_mixed", vec![("section_offset", number(*section_offset))])
        }
        Stranger::InsetLeftOut => kind("inset_left_out", vec![]),
        Stranger::InsetOfOtherSection { section_offset } => {
            kind("inset_of_other_section", vec![("section_offset", number(*section_offset))])
        }
        Stranger::InsetTwice { second } => {
            let second = if *second == Second::Inside { "inside" } else { "behind" };
            kind("inset_twice", vec![("second", second.into())])
        }
        Stranger::InsetLies { lies } => {
            let lies = match lies {
                Lies::HeadToTail => "head_to_tail",
                Lies::TurnedInPlane => "turned_in_plane",
                Lies::SideToSide => "side_to_side",
            };
            kind("inset_lies", vec![("lies", lies.into())])
        }
        Stranger::InsetOutside => kind("inset_outside", vec![]),
        Stranger::InsetBeside { place, after } => {
            let place = match place {
                Beside::Before => "before",
                Beside::Behind => "behind",
                Beside::AmongLeaves => "among_leaves",
            };
            let after = after.map(|after| ("after", after.into()));
            kind("inset_beside", std::iter::once(("place", place.into())).chain(after).collect())
        }
        _ => None,
    }
}
