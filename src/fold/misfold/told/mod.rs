//! A wrong section in plain words: what its pages tell, what gives them, and what tells look-alikes apart.
//!
//! The leads follow the questions of an experienced checker in their order: does each leaf carry its own two pages; is
//! the disorder inside the section or from elsewhere; how many leaves are there, and where do the heads point. The
//! causes are those that were acted out and give the pages found.

mod back;
mod card;
mod leads;
mod nest;
mod nothing;
mod way;

use super::inset::{Fit, Happened, MadeOf, NotPlayed, Plan, SheetOf, draw, fits, play, seek};
use super::{FoldAt, FoundPage, NotExplained};
use crate::fold::Scheme;
use serde::Serialize;

pub use card::{Card, LookAlike};
pub use nest::{Nest, NestPiece};
pub use way::{Sides, Way};

/// What is asked about a section.
#[derive(Clone, Copy, Debug)]
pub struct Question<'a> {
    /// How its sheet should be folded.
    pub scheme: &'a Scheme,
    /// How the sheet should be folded that lies in its middle, if one does.
    pub inset: Option<&'a Scheme>,
    /// What it is made of, where the course of its sheet is known. The two schemes are not looked at then.
    pub made_of: Option<&'a MadeOf>,
    /// The page it should begin with.
    pub first_page: u32,
    /// Into how many deliveries the sheet is slit, each with a section of its own; 1 where it is not.
    pub lanes: u32,
}

/// A section's pages, or what is to be done to a section so that they come of it.
#[derive(Clone, Copy, Debug)]
pub enum Given<'a> {
    /// The pages from front to back, and the edge where the last fold was found.
    Found(&'a [FoundPage], FoldAt),
    /// What is done.
    Made(&'a Happened),
}

/// A section in plain words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Told {
    /// The pages from front to back.
    pub found: Vec<FoundPage>,
    /// The edge where the last fold was found.
    pub fold_at: FoldAt,
    /// The pages of a right section.
    pub due: Vec<u32>,
    /// The places, from 1, where something else was found.
    pub wrong: Vec<usize>,
    /// Whether the section is right as far as its pages show.
    pub right: bool,
    /// Whether everything known was tried and told.
    pub complete: bool,
    /// What the pages tell, step by step.
    pub leads: Vec<String>,
    /// What gives these pages, the likeliest first. Never empty for wrong pages: where nothing gives them, one card says
    /// what holds and what to look at.
    pub causes: Vec<Card>,
    /// What can't be told apart, or was not tried.
    pub cannot_tell: Option<String>,
    /// How the right section is put together, where a cause says how the wrong one is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub nest: Option<Nest>,
}

/// Why a section is not told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotTold {
    /// A scheme gives no section.
    Scheme(SheetOf, NotExplained),
    /// What is to be done can't be done to this section.
    Made(NotPlayed),
}

/// Tells a section.
///
/// # Errors
/// When a scheme gives no section, or what is made can't be acted out.
pub fn tell(question: &Question, given: Given) -> Result<Told, NotTold> {
    let plan = match question.made_of {
        Some(made) => Plan::made_of(made, question.first_page),
        None => Plan::of(question.scheme, question.first_page, question.inset),
    };
    let plan = plan.map_err(|(which, why)| NotTold::Scheme(which, why))?;
    let (found, fold_at, made) = match given {
        Given::Found(found, fold_at) => (found.to_vec(), fold_at, None),
        Given::Made(made) => {
            let outcome = play(&plan, made).map_err(NotTold::Made)?;
            (outcome.row.pages, outcome.fold_at, Some((made, outcome.mark)))
        }
    };
    let due = plan.due();
    let wrong = wrong_places(&due, &found);
    let right = wrong.is_empty() && due.len() == found.len() && fold_at == FoldAt::Spine;
    let leads = leads::leads(&plan, &found, fold_at);
    let (mut causes, mut complete, mut cannot_tell) = (Vec::new(), true, Vec::new());
    if right {
        let unseen = "Pages don't show a dog-ear, a slanting fold or a sheet of another edition, nor which part moved in \
                      the last fold.";
        cannot_tell.push(unseen.to_owned());
    } else {
        let mut sought = seek(&plan, question.lanes, fold_at, &found);
        // What was made gives these pages, also where the search is content with less.
        if let Some((made, mark)) = made.filter(|(made, _)| !sought.fits.iter().any(|fit| fit.happened.same(made))) {
            sought.fits.push(Fit { happened: made.clone(), mark, group: 0 });
        }
        complete = sought.complete;
        let cards = card::Asked { plan: &plan, found: &found, made: made.map(|(made, _)| made) }.cards(sought.fits);
        causes = cards.groups;
        if let Some(first) = causes.first().filter(|first| !first.alike.is_empty()) {
            cannot_tell.push(card::look_alikes(first));
        }
        if causes.len() > 1 {
            cannot_tell.push("Heads that nobody looked at leave more than one section possible.".to_owned());
        }
        if cards.cut {
            complete = false;
            cannot_tell.push("More causes give these pages than are told here.".to_owned());
        }
        if plan.core_pages() > 0 {
            complete = false;
            let untried =
                "Only the two outermost pieces were tried; what lies in the second one was taken to be right.";
            cannot_tell.push(untried.to_owned());
        }
        if !sought.complete {
            cannot_tell.push("Not every two causes at once were tried or kept for this sheet.".to_owned());
        }
        if causes.is_empty() {
            causes.push(nothing::nothing(&plan, &found, fold_at));
        }
    }
    let cannot_tell = if cannot_tell.is_empty() { None } else { Some(cannot_tell.join(" ")) };
    let due = due.iter().filter_map(|p| p.page).collect();
    let put_together = causes.iter().any(|card| card.nest.is_some());
    let drawn = if put_together { draw(&plan, &[]).ok() } else { None };
    let nest = drawn.and_then(|ways| Nest::of(ways.into_iter().next()?));
    Ok(Told { found, fold_at, due, wrong, right, complete, leads, causes, cannot_tell, nest })
}

/// The places, from 1, where something else was found than is due.
fn wrong_places(due: &[FoundPage], found: &[FoundPage]) -> Vec<usize> {
    let right = |at: usize| match (due.get(at), found.get(at)) {
        (Some(due), Some(found)) => fits(std::slice::from_ref(due), std::slice::from_ref(found)),
        _ => false,
    };
    (0..found.len()).filter(|at| !right(*at)).map(|at| at + 1).collect()
}
