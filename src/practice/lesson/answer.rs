//! What is said of a doing: what it made, in a sentence. A wrong one is met in the same way, and shown where it leads.

use super::bench::OnBench;
use super::goal::{Goal, goes_with};
use super::{Deed, Step};
use crate::fold::misfold::Cause;
use crate::gather::run::print_run;
use crate::gather::{Fault, retold};
use crate::marks::Found;

/// The most pages that are named one by one.
const MOST_NAMED: usize = 8;

impl OnBench {
    /// How the sheet lies, in a sentence.
    #[must_use]
    pub fn sheet_told(&self) -> String {
        if self.course.is_some() {
            return self.course_told();
        }
        if self.open_at > 0 {
            return match self.facing() {
                Some([left, right]) => format!("It is open at {left} and {right}."),
                None => "It is open at its last page.".into(),
            };
        }
        let Some([top, beneath]) = self.outsides() else { return String::new() };
        match self.reads() {
            _ if self.made.is_empty() && self.turned_over => "The sheet lies open, turned over.".into(),
            _ if self.made.is_empty() => "The sheet lies open.".into(),
            Some(pages) => {
                let (top, beneath) = (listed(&top), listed(&beneath));
                format!("{} Page {top} is on top, page {beneath} beneath.", order_told(&pages))
            }
            None if top.len() == 1 => format!("Page {} is on top now.", listed(&top)),
            None => format!("Pages {} are on top now.", listed(&top)),
        }
    }

    fn course_told(&self) -> String {
        if self.open_at > 0 {
            return self.facing().map_or_else(String::new, |[l, r]| format!("It is open at {l} and {r}."));
        }
        match self.done {
            0 => "The sheet lies open.".into(),
            done if done >= self.course_steps() => "All its pieces are folded.".into(),
            1 => "One step is done.".into(),
            done => format!("{done} steps are done."),
        }
    }

    /// How the book lies, in a sentence: how it runs, and where it leaves the order.
    #[must_use]
    pub fn book_told(&self) -> String {
        let Some(last) = self.row.last() else { return "Nothing lies there yet.".into() };
        let before = self.row.len().checked_sub(2).and_then(|at| self.row.get(at));
        let reads = format!("The book reads {}.", print_run(&self.row));
        match (before, last) {
            (Some(Found::Section { section: a, .. }), Found::Section { section: b, .. })
                if *b != a + 1 && self.row.len() < self.sections as usize =>
            {
                format!("{reads} Section {b} lies on section {a}.")
            }
            _ => reads,
        }
    }
}

/// Numbers as they follow, cut off where they are many.
fn listed(pages: &[u32]) -> String {
    let named: Vec<String> = pages.iter().take(MOST_NAMED).map(u32::to_string).collect();
    let more = if pages.len() > MOST_NAMED { " …" } else { "" };
    match named.as_slice() {
        [rest @ .., last] if !rest.is_empty() && more.is_empty() => format!("{} and {last}", rest.join(", ")),
        named => named.join(", ") + more,
    }
}

/// How a folded section reads.
fn order_told(pages: &[u32]) -> String {
    if (1..).zip(pages).all(|(due, page)| due == *page) {
        return format!("It reads 1 to {}, in order.", pages.len());
    }
    let begin: Vec<String> = pages.iter().take(MOST_NAMED).map(u32::to_string).collect();
    let more = if pages.len() > MOST_NAMED { " …" } else { "" };
    format!("It reads {}{more}.", begin.join(", "))
}

/// Numbers that may be blank, as a section reads.
fn made_told(pages: &[Option<u32>]) -> String {
    let word = |page: &Option<u32>| page.map_or_else(|| "blank".to_owned(), |page| page.to_string());
    let begin: Vec<String> = pages.iter().take(MOST_NAMED).map(word).collect();
    begin.join(", ") + if pages.len() > MOST_NAMED { " …" } else { "" }
}

impl Step {
    /// What lies there after each deed of this step, from what lay there when it began.
    #[must_use]
    pub fn way(&self, began: &OnBench) -> Vec<OnBench> {
        let mut way = vec![began.clone()];
        for deed in &self.deeds {
            way.extend(way.last().map(|bench| bench.after(deed)));
        }
        way
    }

    /// What is said while the step is not done: what was made, and, where that leads nowhere, the way back.
    #[must_use]
    pub fn answer(&self, began: &OnBench, now: &OnBench) -> String {
        match &self.goal {
            Goal::Explained => match now.named {
                Some(fault) => fault_answer(now, &fault),
                None => "Point at a back, and say what happened there.".into(),
            },
            Goal::CausesFit(_) | Goal::Proven => {
                let choose = || "Choose what can have been done.".to_owned();
                now.named_causes.last().map_or_else(choose, |cause| self.cause_answer(now, cause))
            }
            Goal::RightBook(_) | Goal::BookWith(_) => self.book_answer(began, now),
            Goal::Bracketed => bracket_answer(now),
            Goal::HeldAll => held_answer(now),
            Goal::Looked => String::new(),
            _ => self.sheet_answer(began, now),
        }
    }

    fn sheet_answer(&self, began: &OnBench, now: &OnBench) -> String {
        let told = now.sheet_told();
        let way = self.way(began);
        if way.iter().any(|bench| bench.made == now.made) {
            return told;
        }
        // Whoever goes back to what lies on the way needs not be told to.
        let common = |bench: &OnBench| bench.made.iter().zip(&now.made).take_while(|(a, b)| a == b).count();
        let back = now.made.len() - way.iter().map(common).max().unwrap_or(0);
        match back {
            0 => told,
            1 => format!("{told} Take the last fold back, and try it another way."),
            _ => format!("{told} Take the last {back} folds back, and try them another way."),
        }
    }

    fn cause_answer(&self, now: &OnBench, cause: &Cause) -> String {
        let Some(pages) = now.reads() else { return "Fold the sheet down to a page first.".into() };
        if now.is_made_by(cause) {
            let with = now.ticks.filter(|_| now.looked).is_none_or(|ticks| goes_with(cause, ticks));
            return match (&self.goal, with) {
                (Goal::Proven, false) => {
                    "That makes these pages, but then the lay ticks would lie elsewhere. Name the other cause.".into()
                }
                _ => "That makes these pages. Name another one that makes them as well.".into(),
            };
        }
        let reads = made_told(&pages.into_iter().map(Some).collect::<Vec<_>>());
        match now.made_by(cause) {
            Some(made) => format!("That would read {}. This one reads {reads}.", made_told(&made)),
            None => "That can’t be done to this sheet.".into(),
        }
    }

    fn book_answer(&self, began: &OnBench, now: &OnBench) -> String {
        let told = now.book_told();
        let begun = now.row == began.row;
        match self.goal {
            // Laid section by section, it is wrong as soon as it does not go on by one.
            Goal::RightBook(_) if (1..).zip(&now.row).all(|(k, back)| *back == Found::right(k)) => told,
            Goal::RightBook(_) if begun => told,
            Goal::BookWith(fault) if begun || now.row == retold(now.sections, &[fault]) => told,
            _ => format!("{told} Make it good, and begin again."),
        }
    }
}

/// What a named fault would have made of the book.
fn fault_answer(now: &OnBench, fault: &Fault) -> String {
    let made = retold(now.sections, &[*fault]);
    let (made, found) = (print_run(&made), print_run(&now.row));
    format!("Then the book would read {made}. This one reads {found}.")
}

fn bracket_answer(now: &OnBench) -> String {
    let Some(run) = &now.run else { return String::new() };
    let (good, wrong) = run.between();
    match wrong.saturating_sub(good + 1) {
        0 => format!("Book {good} is good, and book {wrong} is wrong."),
        1 => format!("Book {good} is good, book {wrong} is wrong. One book lies between them."),
        n => format!("Book {good} is good, book {wrong} is wrong. {n} books lie between them."),
    }
}

fn held_answer(now: &OnBench) -> String {
    let (Some(run), Some(held)) = (&now.run, now.held) else { return String::new() };
    let (_, first) = run.between();
    match held {
        0 => "Then every wrong book goes on.".into(),
        held => {
            let from = (run.wrong + 1).saturating_sub(held);
            format!("{held} books back from {} begin with {from}. The first wrong one is {first}.", run.wrong)
        }
    }
}

impl Deed {
    /// Whether it is done with the hands at the sheet, and not at a book or by naming something.
    #[must_use]
    pub const fn is_of_sheet(&self) -> bool {
        matches!(self, Self::Make(_) | Self::Undo | Self::Step | Self::TurnOver | Self::Follow(_) | Self::OpenAt(_))
    }
}
