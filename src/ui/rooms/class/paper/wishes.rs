//! What is set for each document, and the question that follows from it.

use super::kinds::What;
use crate::app::{
    Job, Sheet, WorksheetWish, cards_paper, dummy_paper, logbook_paper, paper_sheet, report_paper, set_up_paper,
    strips_paper, test_page_paper, worksheet_paper,
};
use crate::fold::{NamedCourse, Side};
use crate::json::Json;
use crate::practice::{Entry, Kind};
use crate::print::Made;
use crate::report::Report;
use std::rc::Rc;
use yew::Reducible;

/// The largest seed that can be typed.
pub const MOST_SEED: u32 = 999_999;
/// The most variants, exercises of one kind, and cards.
pub const MOST_VARIANTS: u32 = 40;
pub const MOST_OF_KIND: u32 = 5;
pub const MOST_EXERCISES: usize = 12;
pub const MOST_CARDS: usize = 24;

/// All that is set.
#[derive(Clone, PartialEq)]
pub struct Settings {
    /// The worksheets.
    pub worksheet: WorksheetWish,
    /// Exercises of one's own choice: of each kind the level and how many; used if `own`.
    pub kinds: Vec<(Kind, u8, u32)>,
    /// Whether the exercises are chosen, and not the mixed ones.
    pub own: bool,
    /// The sheet of a dummy and of cards; the job's where there is none.
    pub course: Option<NamedCourse>,
    /// The first page of a dummy.
    pub first_page: u32,
    /// Whether a dummy has its true size.
    pub true_size: bool,
    /// The fault of a dummy, as the protocol words it.
    pub fault: Option<Json>,
    /// How it is made.
    pub made: Made,
    /// The cards: right ones, and faults.
    pub cards: Vec<Option<Json>>,
    /// The side that lies up in the folder.
    pub side_up: Side,
}

impl Settings {
    /// As a class begins, with a seed.
    pub fn new(seed: u32) -> Self {
        let worksheet = WorksheetWish {
            exercises: Vec::new(),
            level: 3,
            seed,
            variants: 1,
            class: String::new(),
            date: String::new(),
            both_sides: false,
        };
        let misfold = Json::object([("kind", "fold_other_way".into()), ("fold", 1_u32.into())]);
        let turned = Json::object([("kind", "section_lies".into()), ("lies", "head_to_tail".into())]);
        Self {
            worksheet,
            kinds: Kind::ALL.into_iter().map(|kind| (kind, 2, 0)).collect(),
            own: false,
            course: None,
            first_page: 1,
            true_size: false,
            fault: None,
            made: Made::ByFigures,
            cards: vec![None, Some(misfold), Some(turned)],
            side_up: Side::A,
        }
    }

    /// The sheet of a dummy and what it is called.
    pub fn sheet(&self, job: &Job) -> (Sheet, String) {
        match &self.course {
            Some(named) => (Sheet::at_hand(named.course.clone(), named.oblong), named.name.to_owned()),
            None => (job.sheet.clone(), name_of(job)),
        }
    }

    /// The exercises that were chosen, at most [`MOST_EXERCISES`].
    pub fn exercises(&self) -> Vec<(Kind, u8)> {
        let of = |(kind, level, many): &(Kind, u8, u32)| std::iter::repeat_n((*kind, *level), *many as usize);
        self.kinds.iter().flat_map(of).take(MOST_EXERCISES).collect()
    }
}

/// What the sheet of the job is called.
pub fn name_of(job: &Job) -> String {
    job.sheet.trade_name().map_or_else(|| format!("The sheet of “{}”", job.title), str::to_owned)
}

/// A change of what is set.
#[derive(Clone)]
pub struct Change(Rc<dyn Fn(&mut Settings)>);

impl Change {
    /// A change.
    pub fn of(change: impl Fn(&mut Settings) + 'static) -> Self {
        Self(Rc::new(change))
    }
}

impl Reducible for Settings {
    type Action = Change;

    fn reduce(self: Rc<Self>, Change(change): Change) -> Rc<Self> {
        let mut next = (*self).clone();
        change(&mut next);
        Rc::new(next)
    }
}

/// Where documents come from.
pub struct Sources<'a> {
    /// The job.
    pub job: &'a Job,
    /// The report, once it is told.
    pub report: Option<&'a Rc<Report>>,
    /// What was handed in.
    pub entries: &'a [Entry],
    /// Who sits at the desk.
    pub name: &'a str,
    /// Today.
    pub date: &'a str,
}

/// A document as the worker is asked for it; `None` while something is still missing.
pub fn wish(settings: &Settings, what: What, from: &Sources<'_>) -> Option<Json> {
    let job = from.job;
    let worksheet = |key: bool| {
        let exercises = if settings.own { settings.exercises() } else { Vec::new() };
        let none = settings.own && exercises.is_empty();
        (!none).then(|| worksheet_paper(&WorksheetWish { exercises, ..settings.worksheet.clone() }, key))
    };
    Some(match what {
        What::Worksheet => worksheet(false)?,
        What::Key => worksheet(true)?,
        What::TestPage => test_page_paper(),
        What::Dummy => {
            let (sheet, name) = settings.sheet(job);
            let asked = paper_sheet(&sheet, &name, settings.first_page, settings.true_size);
            dummy_paper(asked, settings.true_size, settings.fault.clone().map(|fault| (fault, settings.made)))
        }
        What::Cards => {
            let (sheet, name) = settings.sheet(job);
            cards_paper(paper_sheet(&sheet, &name, settings.first_page, false), &settings.cards)
        }
        What::Strips => strips_paper(&job.design, job.sections),
        What::Marks => job.marks_paper(),
        What::SetUp => set_up_paper(&job.sheet, &name_of(job), job.paper.press, settings.side_up),
        What::Report => report_paper(from.report?),
        What::Ticket => job.ticket_paper(),
        What::Logbook => logbook_paper(from.entries, from.name, from.date),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{State, paper_question, read_paper};
    use crate::print::{Paper, Printer};

    /// From an empty browser, and on every paper.
    #[test]
    fn every_document_can_be_made_as_it_is_set_at_first() {
        let state = State::default();
        let report = Rc::new(Report::default());
        let from = Sources { job: &state.job, report: Some(&report), entries: &[], name: "", date: "" };
        for paper in Paper::ALL {
            let printer = Printer { paper, ..Printer::default() };
            for what in What::ALL.into_iter().chain([What::Key]) {
                let of = wish(&Settings::new(1), what, &from).unwrap();
                let told = read_paper(&crate::ask::answer(&paper_question(&of, &printer)));
                let told = told.unwrap_or_else(|why| panic!("{what:?} on {paper:?}: {why}"));
                assert!(!told.pages.is_empty() && !told.title.is_empty(), "{what:?}");
            }
        }
    }
}
