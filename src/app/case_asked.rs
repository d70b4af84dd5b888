//! A whole wrong book: the question to the worker, as a line of the ask protocol (`trace_book`), and the answer.

use super::asked::read_found;
use super::form::{read_scheme, scheme_json};
use super::form_book::added_json;
use super::form_case::{found_json, odds_asked};
use super::form_marks::design_json;
use super::job::Job;
use super::part::{Part, Refused};
use crate::book::{Book, Folios, Run};
use crate::fold::Scheme;
use crate::json::Json;
use crate::marks::Found;
use crate::trace::Case;

/// The most ways of folding that are asked about at once.
const MOST_SCHEMES: usize = 16;

/// A case told.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CaseTold {
    /// The books, in the order of the case.
    pub books: Vec<BookTold>,
    /// The four questions, in order.
    pub questions: Vec<QuestionTold>,
    /// What does not go together, and the book that it is about, from 1, if it is about one.
    pub contradictions: Vec<(Option<u32>, String)>,
    /// The causes: those that fit, the likeliest first, then others.
    pub causes: Vec<BookCause>,
    /// The books that are wrong as far as the extent can be reckoned.
    pub wrong: Option<(u32, u32)>,
    /// How the wrong books lie in the run, in the protocol's word; empty where nobody knows.
    pub pattern: String,
    /// What can't be told.
    pub cannot_tell: Vec<String>,
    /// Everything that was looked at is right.
    pub right: bool,
}

/// One book, read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BookTold {
    /// Which book it is, in words.
    pub name: String,
    /// What was seen, each in a sentence.
    pub finds: Vec<String>,
    /// The row of sections that it shows; empty where nobody saw it.
    pub row: Vec<Found>,
    /// What is wrong with it, in a sentence.
    pub says: String,
    /// Good as far as it was seen, where that is known.
    pub right: Option<bool>,
}

/// One of the four questions, answered.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct QuestionTold {
    /// The question.
    pub asks: String,
    /// The answer in a few words.
    pub answer: String,
    /// Whether the evidence answers it.
    pub known: bool,
    /// The evidence, each in a sentence.
    pub evidence: Vec<String>,
    /// The working, each step in a sentence.
    pub reasoning: Vec<String>,
    /// What that rules out.
    pub rules_out: Vec<String>,
    /// What to look at where evidence lacks.
    pub look: Option<String>,
}

/// A cause of a wrong book.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BookCause {
    /// Its name among the odds.
    pub kind: String,
    /// Where in the shop, as a title.
    pub place: String,
    /// The station it is about.
    pub station: Option<u32>,
    /// The section it is about.
    pub section: Option<u32>,
    /// What happened, in a sentence.
    pub title: String,
    /// Whether it gives everything that was seen.
    pub fits: bool,
    /// Its share among the causes that fit, 0 to 1.
    pub share: f64,
    /// What it does to the row, in the protocol's words: the kind of each fault.
    pub faults: Vec<String>,
    /// The sections that lie at another's station: station, section.
    pub wrong_at: Vec<(u32, u32)>,
    /// Sections that are exchanged.
    pub exchanged: Option<(u32, u32)>,
    /// The book it makes; empty where the row stays right.
    pub row: Vec<Found>,
    /// Places at which that book is not a right one, from 1.
    pub places: Vec<u32>,
    /// The books of the case that it gives, from 1.
    pub books: Vec<u32>,
    /// The counter numbers it makes wrong.
    pub counters: Option<(u32, u32)>,
    /// Why it ranks here.
    pub why: Vec<String>,
    /// What speaks against it.
    pub against: Vec<String>,
    /// What to look at next.
    pub next_check: String,
    /// What to mind while looking.
    pub caution: String,
    /// What is done about the books.
    pub remedy: String,
    /// How it is opened on the bench, where it lies inside a section.
    pub inside: Option<InsideTold>,
}

/// A cause inside a section.
#[derive(Clone, Debug, PartialEq)]
pub struct InsideTold {
    /// The section.
    pub section: u32,
    /// The number of its first page as its pages are typed here.
    pub first_page: u32,
    /// Its pages.
    pub typed: String,
    /// Whether its fold was at the fore-edge.
    pub fore_edge: bool,
    /// How it should be folded.
    pub scheme: Option<Scheme>,
}

impl Job {
    /// The question what would leave the finds; `None` while there are none.
    #[must_use]
    pub fn trace_question(&self) -> Option<String> {
        if self.case.books.is_empty() && self.case.left.is_empty() {
            return None;
        }
        let mut members = vec![
            ("ask".to_owned(), "trace_book".into()),
            ("book".to_owned(), self.book_json()),
            // Marks of another kind than a plain staircase are read before they become a find.
            ("marks".to_owned(), design_json(&self.design.stairs.into())),
            ("schemes".to_owned(), Json::list(self.schemes().iter().map(scheme_json))),
            ("case".to_owned(), found_json(&Case { signing: Some(self.signing), ..self.case.clone() })),
        ];
        if !self.odds.is_empty() {
            members.push(("odds".to_owned(), odds_asked(&self.odds)));
        }
        Some(Json::Object(members).write())
    }

    /// How its sections are folded, each way once.
    fn schemes(&self) -> Vec<Scheme> {
        let mut all: Vec<Scheme> = Vec::new();
        for scheme in (1..=self.sections).filter_map(|section| self.scheme_of(section)) {
            if !all.contains(&scheme) && all.len() < MOST_SCHEMES {
                all.push(scheme);
            }
        }
        all
    }

    /// The book as the protocol words it. Where what was said of its pages does not go with its sections, the sections
    /// count, and their pages are numbered from 1.
    fn book_json(&self) -> Json {
        let mut book = self.book();
        if book.check().is_err() {
            let pages = book.pages_of_sections();
            let run = Run { name: String::new(), pages, folios: Folios::Arabic { first: 1 }, blank: false };
            book = Book { runs: vec![run], added: Vec::new(), ..book };
        }
        Json::object([
            ("runs", Json::list(book.runs.iter().map(run_json))),
            ("added", Json::list(book.added.iter().map(added_json))),
            ("sections", Json::list(book.sections.iter().map(|pages| (*pages).into()))),
        ])
    }
}

/// A run of pages, as the protocol words it.
fn run_json(run: &Run) -> Json {
    let folios = |kind: &str, first: u32| Json::object([("kind", kind.into()), ("first", first.into())]);
    let folios = match run.folios {
        Folios::Roman { first } => folios("roman", first),
        Folios::RomanCapitals { first } => folios("roman_capitals", first),
        Folios::Arabic { first } => folios("arabic", first),
        Folios::None => Json::object([("kind", "none".into())]),
    };
    Json::object([
        ("name", run.name.as_str().into()),
        ("pages", run.pages.into()),
        ("folios", folios),
        ("blank", run.blank.into()),
    ])
}

/// Reads the answer to [`Job::trace_question`].
///
/// # Errors
/// The reason that the answer gives, or that it is none.
pub fn read_traced(answer: &str) -> Result<CaseTold, String> {
    let unreadable = |says: String| format!("The answer can't be read: {says}.");
    let answer = Json::parse(answer).map_err(|_| unreadable("it is cut off".into()))?;
    if let Some(Json::Text(says)) = answer.get("error").and_then(|e| e.get("says")) {
        return Err(says.clone());
    }
    traced(&Part::whole(&answer)).map_err(|(at, says)| unreadable(format!("{at} {says}")))
}

fn traced(answer: &Part<'_>) -> Result<CaseTold, Refused> {
    let told = answer.member("ok")?;
    let extent = told.member("extent")?;
    let contradiction = |part: &Part<'_>| Ok((number(part, "book")?, text(part, "says")?));
    Ok(CaseTold {
        books: all(&told, "books", book)?,
        questions: all(&told, "questions", question)?,
        contradictions: all(&told, "contradictions", contradiction)?,
        causes: all(&told, "causes", cause)?,
        wrong: pair(&extent, "books")?,
        pattern: given(&extent, "pattern").map(|p| p.text().map(str::to_owned)).transpose()?.unwrap_or_default(),
        cannot_tell: texts(&told, "cannot_tell")?,
        right: told.member("right")?.truth()?,
    })
}

fn given<'a>(part: &Part<'a>, name: &str) -> Option<Part<'a>> {
    part.maybe(name).filter(|p| !p.is_null())
}

fn all<T>(part: &Part<'_>, name: &str, read: impl Fn(&Part<'_>) -> Result<T, Refused>) -> Result<Vec<T>, Refused> {
    part.member(name)?.list()?.iter().map(read).collect()
}

fn texts(part: &Part<'_>, name: &str) -> Result<Vec<String>, Refused> {
    all(part, name, |p| p.text().map(str::to_owned))
}

fn text(part: &Part<'_>, name: &str) -> Result<String, Refused> {
    part.member(name)?.text().map(str::to_owned)
}

fn number(part: &Part<'_>, name: &str) -> Result<Option<u32>, Refused> {
    given(part, name).map(|p| p.whole_number()).transpose()
}

fn pair(part: &Part<'_>, name: &str) -> Result<Option<(u32, u32)>, Refused> {
    let Some(part) = given(part, name) else { return Ok(None) };
    match part.list()?.as_slice() {
        [a, b] => Ok(Some((a.whole_number()?, b.whole_number()?))),
        _ => part.refuse("must be two numbers"),
    }
}

fn book(part: &Part<'_>) -> Result<BookTold, Refused> {
    Ok(BookTold {
        name: text(part, "name")?,
        finds: texts(part, "finds")?,
        row: all(part, "row", read_found)?,
        says: text(part, "says")?,
        right: given(part, "right").map(|p| p.truth()).transpose()?,
    })
}

fn question(part: &Part<'_>) -> Result<QuestionTold, Refused> {
    Ok(QuestionTold {
        asks: text(part, "asks")?,
        answer: text(part, "answer")?,
        known: part.member("known")?.truth()?,
        evidence: texts(part, "evidence")?,
        reasoning: texts(part, "reasoning")?,
        rules_out: texts(part, "rules_out")?,
        look: given(part, "look").map(|p| p.text().map(str::to_owned)).transpose()?,
    })
}

fn cause(part: &Part<'_>) -> Result<BookCause, Refused> {
    let faults = part.member("faults")?.list()?;
    let kind = |fault: &Part<'_>, kind: &str| fault.maybe("kind").is_some_and(|k| k.text() == Ok(kind));
    let mut wrong_at = Vec::new();
    for fault in faults.iter().filter(|f| kind(f, "wrong_section")) {
        wrong_at.push((fault.member("at")?.whole_number()?, fault.member("section")?.whole_number()?));
    }
    let exchanged = faults.iter().find(|f| kind(f, "exchanged"));
    let inside = |part: Part<'_>| -> Result<InsideTold, Refused> {
        Ok(InsideTold {
            section: part.member("section")?.whole_number()?,
            first_page: part.member("first_page")?.whole_number()?,
            typed: text(&part, "typed")?,
            fore_edge: part.member("fore_edge")?.truth()?,
            scheme: given(&part, "scheme").map(|s| read_scheme(&s)).transpose()?,
        })
    };
    Ok(BookCause {
        kind: text(part, "kind")?,
        place: text(part, "place")?,
        station: number(part, "station")?,
        section: number(part, "section")?,
        title: text(part, "title")?,
        fits: part.member("fits")?.truth()?,
        share: part.member("share")?.number()?,
        faults: faults.iter().map(|fault| text(fault, "kind")).collect::<Result<_, _>>()?,
        wrong_at,
        exchanged: exchanged.map(|f| pair(f, "sections")).transpose()?.flatten(),
        row: all(part, "row", read_found)?,
        places: all(part, "places", |p| p.whole_number())?,
        books: all(part, "books", |p| p.whole_number())?,
        counters: pair(part, "counters")?,
        why: texts(part, "why")?,
        against: texts(part, "against")?,
        next_check: text(part, "next_check")?,
        caution: text(part, "caution")?,
        remedy: text(part, "remedy")?,
        inside: given(part, "inside").map(inside).transpose()?,
    })
}
