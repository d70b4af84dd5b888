//! A cause on a card: what it is, how it shows, where to look, what gives the same pages.

use super::back::back;
use super::nest::Nest;
use super::way::Way;
use crate::fold::misfold::inset::{Fit, Happened, Plan, SheetOf, Stranger, draw, fits, stage_words};
use crate::fold::misfold::words::{Trace, Traces, and, apart, cautions, opening};
use crate::fold::misfold::{Acted, Cause, FoundPage, Mark, Stage, acts_out_all};
use serde::Serialize;

/// How many groups of causes are told.
const MAX_GROUPS: usize = 8;
/// How many look-alikes stand on a card.
const MAX_ALIKE: usize = 12;

/// A cause in words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Card {
    /// What happened, in one sentence.
    pub title: String,
    /// What that does and how it shows.
    pub detail: String,
    /// Where in the shop.
    pub stage: String,
    /// What the back shows.
    pub mark: String,
    /// What settles it.
    pub next_check: String,
    /// What to mind while looking.
    pub caution: String,
    /// The cause; `None` where nothing gives the pages.
    pub cause: Option<Happened>,
    /// What gives the same pages.
    pub alike: Vec<LookAlike>,
    /// How the wrong section is folded from its sheet, where a sheet can show it.
    pub way: Option<Way>,
    /// How it is put together, where one sheet does not show it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub nest: Option<Nest>,
}

/// Something that gives the same pages.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LookAlike {
    /// What happened, in one sentence.
    pub title: String,
    /// The cause.
    pub cause: Happened,
    /// What tells it from the first.
    pub tell: String,
    /// How it is put together, where one sheet does not show it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub nest: Option<Nest>,
}

/// What comes of something: the pages, the mark, the way of it, and how it is put together.
type Done = (Vec<FoundPage>, Mark, Option<Way>, Option<Nest>);

/// What the cards are about.
pub(super) struct Asked<'a> {
    pub(super) plan: &'a Plan,
    pub(super) found: &'a [FoundPage],
    pub(super) made: Option<&'a Happened>,
}

/// The cards, and whether some were left out.
pub(super) struct Cards {
    pub(super) groups: Vec<Card>,
    pub(super) cut: bool,
}

/// How many look-alikes a card has, and that only a look settles it.
pub(super) fn look_alikes(card: &Card) -> String {
    match card.alike.len() {
        1 => "The pages alone can't tell the first cause from the one beside it; look before anything is set.".into(),
        n => format!("The pages alone can't tell the first cause from the {n} beside it; look before anything is set."),
    }
}

impl Asked<'_> {
    pub(super) fn cards(&self, mut fits: Vec<Fit>) -> Cards {
        fits.sort_by_key(|fit| (order(&fit.happened), fit.group));
        let mut groups: Vec<(usize, Vec<Fit>)> = Vec::new();
        for fit in fits {
            match groups.iter_mut().find(|(group, _)| *group == fit.group) {
                Some((_, group)) => group.push(fit),
                None => groups.push((fit.group, vec![fit])),
            }
        }
        let mut cut = groups.len() > MAX_GROUPS;
        groups.truncate(MAX_GROUPS);
        let cards = groups.into_iter().filter_map(|(_, fits)| {
            let (card, less) = self.card(&fits)?;
            cut |= less;
            Some(card)
        });
        let groups = cards.collect();
        Cards { groups, cut }
    }

    /// A card for things that give the same pages, and whether look-alikes were left out.
    fn card(&self, fits: &[Fit]) -> Option<(Card, bool)> {
        let (first, others) = fits.split_first()?;
        let happened = &first.happened;
        let traces = self.traces(happened);
        let made = |fit: &Fit| self.made.is_some_and(|made| made.same(&fit.happened));
        // What was really made is never left out.
        let told = (0..).zip(others).filter(|(at, fit)| *at < MAX_ALIKE || made(fit)).map(|(_, fit)| fit);
        let alike: Vec<LookAlike> = told
            .map(|fit| LookAlike {
                title: self.title(&fit.happened),
                cause: fit.happened.clone(),
                tell: apart((&traces, first.mark), (&self.traces(&fit.happened), fit.mark)),
                nest: self.way(&fit.happened).and_then(|(.., nest)| nest),
            })
            .collect();
        let cut = alike.len() < others.len();
        let named = std::iter::once(happened).chain(alike.iter().map(|a| &a.cause));
        let stages = named.flat_map(Happened::parts).flat_map(|part| stages(&part)).collect();
        let (row, mark, way, nest) =
            self.way(happened).unwrap_or_else(|| (self.found.to_vec(), first.mark, None, None));
        let card = Card {
            title: self.title(happened),
            detail: self.detail(happened, &row),
            stage: stage(happened).1.into(),
            mark: back(self.plan, happened, mark, &row),
            next_check: self.next_check(happened),
            // What tells the look-alikes apart sends to other machines as well.
            caution: cautions(stages),
            cause: Some(happened.clone()),
            alike,
            way,
            nest,
        };
        Some((card, cut))
    }

    fn title(&self, happened: &Happened) -> String {
        let titles: Vec<String> = happened
            .parts()
            .iter()
            .map(|part| match part {
                Happened::Sheet(cause) => cause.title(),
                Happened::Stranger(stranger) => stranger.title(),
                Happened::Together(_) => String::new(),
            })
            .collect();
        and(&titles)
    }

    fn detail(&self, happened: &Happened, row: &[FoundPage]) -> String {
        let mut said: Vec<String> = Vec::new();
        for part in happened.parts() {
            let did = match &part {
                Happened::Sheet(cause) => self.on_sheet(SheetOf::Outer, |traces| traces.did(cause)),
                Happened::Stranger(Stranger::OuterSheet { cause }) => {
                    self.on_sheet(SheetOf::Outer, |traces| traces.did(cause))
                }
                Happened::Stranger(Stranger::InsetSheet { cause }) => {
                    self.on_sheet(SheetOf::Inset, |traces| traces.did(cause))
                }
                Happened::Stranger(stranger) => stranger.did(self.plan),
                Happened::Together(_) => String::new(),
            };
            if !said.contains(&did) {
                said.push(did);
            }
        }
        said.push(format!("The section reads {}.", opening(row)));
        said.retain(|s| !s.is_empty());
        said.join(" ")
    }

    /// What settles whether it was this.
    fn next_check(&self, happened: &Happened) -> String {
        let checks = happened.parts();
        let checks = checks.iter().map(|part| match part {
            Happened::Sheet(cause) => self.on_sheet(SheetOf::Outer, |traces| traces.check(cause)),
            Happened::Stranger(stranger) => stranger.next_check(),
            Happened::Together(_) => String::new(),
        });
        checks.collect::<Vec<_>>().join(" Then: ")
    }

    /// What each part leaves behind.
    fn traces(&self, happened: &Happened) -> Vec<Trace> {
        let parts = happened.parts();
        let traces = parts.iter().flat_map(|part| match part {
            Happened::Sheet(cause) | Happened::Stranger(Stranger::OuterSheet { cause }) => {
                self.on_sheet(SheetOf::Outer, |traces| traces.of_cause(cause))
            }
            Happened::Stranger(Stranger::InsetSheet { cause }) => {
                self.on_sheet(SheetOf::Inset, |traces| traces.of_cause(cause))
            }
            Happened::Stranger(stranger) => stranger.trace().into_iter().collect(),
            Happened::Together(_) => Vec::new(),
        });
        traces.collect()
    }

    fn on_sheet<T>(&self, which: SheetOf, say: impl Fn(&Traces) -> T) -> T {
        let plan = self.plan;
        let number = |page: u32| plan.number(which, i64::from(page));
        let which = if plan.scheme(which).is_some() { which } else { SheetOf::Outer };
        say(&Traces::of(plan.scheme_of(which), &number))
    }

    /// The same with the pages of the next section as those of other sections that were found.
    fn of_elsewhere(&self, way: &Acted) -> Vec<Acted> {
        let section = |page: u32| self.plan.leaf(page).0;
        if !way.pages.iter().filter_map(|p| p.page).any(|page| section(page) == 1) {
            return Vec::new();
        }
        let mut offsets: Vec<i64> = self.found.iter().filter_map(|p| p.page).map(section).collect();
        offsets.sort_unstable();
        offsets.dedup();
        let moved = |offset: i64| {
            let number = |page: u32| match section(page) {
                1 => {
                    u32::try_from(i64::from(page) + self.plan.start_of(offset) - self.plan.start_of(1)).unwrap_or(page)
                }
                _ => page,
            };
            let mut way = way.clone();
            way.pages.iter_mut().for_each(|p| p.page = p.page.map(number));
            for cell in way.sheet.side_a.iter_mut().chain(&mut way.sheet.side_b).flatten().flatten() {
                cell.page = number(cell.page);
            }
            way
        };
        offsets.into_iter().filter(|offset| ![0, 1].contains(offset)).map(moved).collect()
    }

    /// The pages, the mark, the way of it, and how it is put together. Of several ways the one that gives the pages found.
    fn way(&self, happened: &Happened) -> Option<Done> {
        if let (Happened::Sheet(cause), false) = (happened, self.plan.has_inset()) {
            let first = u32::try_from(self.plan.first()).ok()?;
            let ways = acts_out_all(self.plan.scheme_of(SheetOf::Outer), first, cause).ok()?;
            let of_others = ways.iter().flat_map(|way| self.of_elsewhere(way)).collect::<Vec<_>>();
            let way = ways.into_iter().chain(of_others).find(|way| fits(&way.pages, self.found))?;
            return Some((way.pages.clone(), way.mark, Some(Way::of(way)), None));
        }
        let outcomes = draw(self.plan, &happened.parts()).ok()?;
        let outcome = outcomes.into_iter().find(|outcome| fits(&outcome.row.pages, self.found))?;
        let (pages, mark, way) = (outcome.row.pages.clone(), outcome.mark, outcome.way.clone().map(Way::of));
        let nest = if self.plan.has_inset() || way.is_none() { Nest::of(outcome) } else { None };
        Some((pages, mark, way, nest))
    }
}

/// Less comes first; two at once after all single things.
fn order(happened: &Happened) -> u32 {
    let parts = happened.parts();
    let sum: u32 = parts
        .iter()
        .map(|part| match part {
            Happened::Sheet(cause) => cause.order(),
            Happened::Stranger(stranger) => stranger.order(),
            Happened::Together(_) => 0,
        })
        .sum();
    if parts.len() > 1 { 100 + sum } else { sum }
}

/// The earliest stage of it, with its words.
fn stage(happened: &Happened) -> (Stage, &'static str) {
    let of = |part: &Happened| match part {
        Happened::Sheet(cause) => (cause.stage(), stage_words(cause.stage())),
        Happened::Stranger(stranger) => stranger.stage(),
        Happened::Together(_) => (Stage::Gathering, stage_words(Stage::Gathering)),
    };
    let none = (Stage::Gathering, stage_words(Stage::Gathering));
    happened.parts().iter().map(of).min_by_key(|(stage, _)| *stage).unwrap_or(none)
}

/// Every stage that a single thing may send to.
fn stages(part: &Happened) -> Vec<Stage> {
    match part {
        Happened::Stranger(Stranger::OuterSheet { cause } | Stranger::InsetSheet { cause }) => {
            cause.singles().into_iter().map(Cause::stage).collect()
        }
        other => vec![stage(other).0],
    }
}
