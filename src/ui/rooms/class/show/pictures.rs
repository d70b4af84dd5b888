//! What the engine knows of a picture: the job, the bench, the question.

use super::begin::Begin;
use crate::app::{Look, Question, State, lies, question, spoiled_book, told};
use crate::class::show::{Arrangement, Facts, FlatsLay, On, Picture, flats_lay};
use crate::fold::{Face, Lay};
use crate::scene::Bench;
use crate::ui::shared::Shared;
use std::collections::BTreeSet;
use std::rc::Rc;
use yew::prelude::*;

/// A picture with all that is drawn of it.
#[derive(Clone, PartialEq)]
pub struct Seen {
    /// The picture.
    pub picture: Picture,
    /// The job, and where one stands in it.
    pub state: Rc<State>,
    /// The sheet on the bench.
    pub bench: Option<Shared<Bench>>,
    /// How the flat sides lie.
    pub flats: FlatsLay,
}

/// How high a figure on an upright page stands, for a sheet without any.
const FIGURE: f64 = 84.0;

/// What is drawn of a picture.
#[hook]
pub fn use_seen(begin: &Rc<Begin>, picture: &Picture, window: (f64, f64)) -> Seen {
    let job = use_memo((begin.state.job.clone(), picture.spoiled), |(job, seed)| match seed {
        0 => job.clone(),
        seed => Rc::new(spoiled_book(job, *seed)),
    });
    let look = Look {
        place: picture.place,
        at: f64::from(picture.at),
        lay: lay(picture),
        piece: begin.state.look.piece,
        ..begin.state.look.clone()
    };
    let state = Rc::new(State { job: (*job).clone(), look, ..State::default() });
    let bench = {
        let state = state.clone();
        use_memo((job, picture.place, picture.covered.clone()), move |(_, _, covered)| {
            bench_of(&state, covered).map(Shared::new)
        })
    };
    let (sheet, figure, pages) = match bench.as_deref() {
        Some(bench) => {
            let printing = &bench.printing;
            let panels = printing.rows.saturating_mul(printing.columns);
            (printing.sheet(), printing.least_figure().unwrap_or(FIGURE), panels.saturating_mul(2))
        }
        None => ((1.0, 1.0), FIGURE, 2),
    };
    let flats = flats_lay(window, sheet, figure, pages, picture.sides);
    Seen { picture: picture.clone(), state, bench: (*bench).clone(), flats }
}

/// How the sheet lies.
fn lay(picture: &Picture) -> Lay {
    if picture.over { Lay::default().turned_over() } else { Lay::default() }
}

/// The bench as [`State::bench`] has it, drawn for a class.
fn bench_of(state: &State, covered: &BTreeSet<u32>) -> Option<Bench> {
    let printing = state.printing().before_class(covered.iter().map(|face| *face as usize));
    if state.shows_all_pieces() {
        let section = state.job.on_sheet(state.section_on_bench());
        return Bench::of_course(printing, &state.sheet().course, section).ok();
    }
    Bench::new(printing, &state.folded_scheme()).ok()
}

impl Seen {
    /// How the sheet lies.
    pub fn lay(&self) -> Lay {
        lay(&self.picture)
    }

    /// The face of a place in the list of faces.
    pub fn face(&self, index: u32) -> Option<Face> {
        self.bench.as_ref()?.printing.faces().nth(index as usize)
    }

    /// Sections in the stack.
    pub fn places(&self) -> u32 {
        self.state.job.stack.placed().len() as u32
    }

    /// What the class is asked now.
    pub fn question(&self) -> Question {
        let p = &self.picture;
        match p.on {
            On::Bench => {
                let pointed = p.followed.filter(|face| p.pointing && p.covered.contains(face));
                let page = pointed.and_then(|face| self.bench.as_ref()?.printing.figure(&self.face(face)?));
                if let Some(figure) = page {
                    return Question { says: "Which page is here?".into(), answers: vec![figure.page.to_string()] };
                }
                self.bench.as_deref().and_then(|bench| question(bench, p.at, self.lay())).unwrap_or_default()
            }
            On::Spine if p.verdict => Question::default(),
            On::Spine if p.laid < self.places() => {
                let next = p.laid + 1;
                let mm = self.due(next).map(|(from, _)| crate::units::mm(from) + " mm");
                Question {
                    says: format!("Section {next} comes next. How far from the head does its mark begin?"),
                    answers: mm.into_iter().collect(),
                }
            }
            On::Spine => Question { says: "Is this book right?".into(), answers: Vec::new() },
        }
    }

    /// Where the mark of a right section begins and ends at a place, in mm from the head.
    pub fn due(&self, place: u32) -> Option<(f64, f64)> {
        let job = &self.state.job;
        (place <= job.sections).then(|| job.design.bar(place, job.sections).ends_mm())
    }

    /// What was done last; or, of a page that is followed, where it lies.
    pub fn told(&self) -> String {
        let p = &self.picture;
        let Some(bench) = self.bench.as_deref().filter(|_| p.on == On::Bench) else { return String::new() };
        let followed = p.followed.filter(|face| !p.covered.contains(face)).and_then(|face| self.face(face));
        if let Some(says) = followed.and_then(|face| lies(bench, p.at, self.lay(), &face)) {
            return says;
        }
        told(&self.state, bench, p.at, self.lay(), !p.covered.is_empty())
    }

    /// What the keys need to know.
    pub fn facts(&self) -> Facts {
        let bench = self.bench.as_deref();
        let printing = bench.map(|b| &b.printing);
        let figures = printing.map(|p| p.faces().map(|face| p.figure(&face).is_some()).collect());
        Facts {
            steps: bench.map_or(0, |b| b.rule.end() as u32),
            folds: bench.map_or(0, |b| b.rule.folds as u32),
            answers: self.question().answers.len() as u32,
            figures: figures.unwrap_or_default(),
            columns: printing.map_or(1, |p| p.columns),
            alone: matches!(self.flats.arrangement, Arrangement::OnlyA | Arrangement::OnlyB),
            beside: self.flats.arrangement == Arrangement::Beside,
            places: self.places(),
        }
    }
}
