#![doc = include_str!("PROTOCOL.md")]

mod act_out;
mod blind_spots;
mod describe_book;
mod dummy;
mod error;
mod explain_book;
mod explain_section;
mod file;
mod glossary;
mod hold_books;
mod landing;
mod link_scene;
mod look_alikes;
mod next_opening;
mod pieces;
mod plan_book;
mod practice;
mod preview;
mod print;
mod read_link;
mod read_spine;
mod request;
mod sampling;
mod signatures;
mod simulate;
mod tell_book;
mod tell_section;
mod trace_book;
mod weigh_book;
mod work_back;
mod worksheet;
mod write_link;
mod write_report;

use error::Refusal;
use serde::Serialize;
use serde_json::{Map, Value};

/// The longest line that is read, in bytes: one mebibyte.
pub const MAX_LINE: usize = 1 << 20;

/// A request: its name as the field `ask` has it, and what answers its other fields.
type Request = (&'static str, fn(Map<String, Value>) -> String);

/// The requests that are served.
const SERVED: &[Request] = &[
    ("landing", |rest| reply(request::read(rest).and_then(|r| landing::answer(&r)))),
    ("pieces", |rest| reply(request::read(rest).and_then(pieces::answer))),
    ("work_back", |rest| reply(request::read(rest).and_then(|r| work_back::answer(&r)))),
    ("explain_section", |rest| reply(request::read(rest).and_then(|r| explain_section::answer(&r)))),
    ("act_out", |rest| reply(request::read(rest).and_then(|r| act_out::answer(&r)))),
    ("look_alikes", |rest| reply(request::read(rest).and_then(|r| look_alikes::answer(&r)))),
    ("tell_section", |rest| reply(request::read(rest).and_then(tell_section::answer))),
    ("read_spine", |rest| reply(request::read(rest).and_then(|r| read_spine::answer(&r)))),
    ("explain_book", |rest| reply(request::read(rest).and_then(|r| explain_book::answer(&r)))),
    ("tell_book", |rest| reply(request::read(rest).and_then(|r| tell_book::answer(&r)))),
    ("weigh_book", |rest| reply(request::read(rest).and_then(|r| weigh_book::answer(&r)))),
    ("blind_spots", |rest| reply(request::read(rest).and_then(|r| blind_spots::answer(&r)))),
    ("signatures", |rest| reply(request::read(rest).and_then(|r| signatures::answer(&r)))),
    ("plan_book", |rest| reply(request::read(rest).and_then(|r| plan_book::answer(&r)))),
    ("describe_book", |rest| reply(request::read(rest).and_then(describe_book::answer))),
    ("trace_book", |rest| reply(request::read(rest).and_then(|r| trace_book::answer(&r)))),
    ("next_opening", |rest| reply(request::read(rest).and_then(|r| next_opening::answer(&r)))),
    ("hold_books", |rest| reply(request::read(rest).and_then(|r| hold_books::answer(&r)))),
    ("write_report", |rest| reply(request::read(rest).and_then(write_report::answer))),
    ("sampling", |rest| reply(request::read(rest).and_then(|r| sampling::answer(&r)))),
    ("simulate", |rest| reply(request::read(rest).and_then(|r| simulate::answer(&r)))),
    ("write_link", |rest| reply(request::read(rest).and_then(write_link::answer))),
    ("read_link", |rest| reply(request::read(rest).and_then(|r| read_link::answer(&r)))),
    ("exercise", |rest| reply(request::read(rest).and_then(|r| practice::exercise(&r)))),
    ("mark_exercise", |rest| reply(request::read(rest).and_then(|r| practice::mark(&r)))),
    ("practise_next", |rest| reply(request::read(rest).and_then(practice::next))),
    ("dummy", |rest| reply(request::read(rest).and_then(dummy::document).map(|d| file::File::of(&d)))),
    ("print", |rest| reply(request::read(rest).and_then(print::document).map(|d| file::File::of(&d)))),
    ("preview", |rest| reply(request::read(rest).and_then(preview::answer))),
    ("worksheet", |rest| reply(request::read(rest).and_then(worksheet::answer))),
    ("glossary", |rest| reply(request::read(rest).and_then(|r| glossary::answer(&r)))),
];

/// Answers one line: a request in JSON in, an answer in JSON out, without a line break.
///
/// Every line has an answer, `{"ok": …}` or `{"error": {"at": …, "says": …}}`. Nothing in a line makes this panic.
#[must_use]
pub fn answer(line: &str) -> String {
    match request::split(line) {
        Ok((ask, rest)) => match SERVED.iter().find(|(name, _)| *name == ask) {
            Some((_, answer)) => answer(rest),
            None => refuse(Refusal::unknown_request(&ask, SERVED.iter().map(|(name, _)| *name))),
        },
        Err(refusal) => refuse(refusal),
    }
}

/// The same for a line as it comes from a file or a pipe, which may be no text at all.
#[must_use]
pub fn answer_bytes(line: &[u8]) -> String {
    match std::str::from_utf8(line) {
        Ok(line) => answer(line),
        Err(_) if line.len() > MAX_LINE => refuse(Refusal::too_long()),
        Err(why) => refuse(Refusal::new(
            "",
            format!("this line is not UTF-8 text; byte {} is the first wrong one", why.valid_up_to() + 1),
        )),
    }
}

/// The one form of every answer.
#[derive(Serialize)]
#[serde(rename_all = "snake_case")]
enum Answer<T> {
    Ok(T),
    Error(Refusal),
}

fn reply<T: Serialize>(result: Result<T, Refusal>) -> String {
    let answer = match result {
        Ok(found) => Answer::Ok(found),
        Err(refusal) => Answer::Error(refusal),
    };
    // Writing plain data to a string does not fail; if it did, the line still has an answer.
    serde_json::to_string(&answer)
        .unwrap_or_else(|_| r#"{"error":{"at":"","says":"the answer could not be written"}}"#.into())
}

fn refuse(refusal: Refusal) -> String {
    reply::<()>(Err(refusal))
}
