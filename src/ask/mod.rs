#![doc = include_str!("PROTOCOL.md")]

mod act_out;
mod blind_spots;
mod describe_book;
mod error;
mod explain_book;
mod explain_section;
mod hold_books;
mod landing;
mod look_alikes;
mod next_opening;
mod pieces;
mod plan_book;
mod read_spine;
mod request;
mod signatures;
mod tell_book;
mod tell_section;
mod trace_book;
mod work_back;
mod write_report;

use error::Refusal;
use serde::Serialize;

/// The longest line that is read, in bytes: one mebibyte.
pub const MAX_LINE: usize = 1 << 20;

/// The requests that are served, as the field `ask` names them.
const SERVED: [&str; 18] = [
    "landing",
    "pieces",
    "work_back",
    "explain_section",
    "act_out",
    "look_alikes",
    "tell_section",
    "read_spine",
    "explain_book",
    "tell_book",
    "trace_book",
    "signatures",
    "next_opening",
    "hold_books",
    "write_report",
    "plan_book",
    "blind_spots",
    "describe_book",
];

/// Answers one line: a request in JSON in, an answer in JSON out, without a line break.
///
/// Every line has an answer, `{"ok": …}` or `{"error": {"at": …, "says": …}}`. Nothing in a line makes this panic.
#[must_use]
pub fn answer(line: &str) -> String {
    match request::split(line) {
        Ok((ask, rest)) => match ask.as_str() {
            "landing" => reply(request::read(rest).and_then(|r| landing::answer(&r))),
            "pieces" => reply(request::read(rest).and_then(pieces::answer)),
            "work_back" => reply(request::read(rest).and_then(|r| work_back::answer(&r))),
            "explain_section" => reply(request::read(rest).and_then(|r| explain_section::answer(&r))),
            "act_out" => reply(request::read(rest).and_then(|r| act_out::answer(&r))),
            "look_alikes" => reply(request::read(rest).and_then(|r| look_alikes::answer(&r))),
            "tell_section" => reply(request::read(rest).and_then(tell_section::answer)),
            "read_spine" => reply(request::read(rest).and_then(|r| read_spine::answer(&r))),
            "explain_book" => reply(request::read(rest).and_then(|r| explain_book::answer(&r))),
            "tell_book" => reply(request::read(rest).and_then(|r| tell_book::answer(&r))),
            "trace_book" => reply(request::read(rest).and_then(|r| trace_book::answer(&r))),
            "signatures" => reply(request::read(rest).and_then(|r| signatures::answer(&r))),
            "next_opening" => reply(request::read(rest).and_then(|r| next_opening::answer(&r))),
            "hold_books" => reply(request::read(rest).and_then(|r| hold_books::answer(&r))),
            "write_report" => reply(request::read(rest).and_then(write_report::answer)),
            "plan_book" => reply(request::read(rest).and_then(|r| plan_book::answer(&r))),
            "blind_spots" => reply(request::read(rest).and_then(|r| blind_spots::answer(&r))),
            "describe_book" => reply(request::read(rest).and_then(describe_book::answer)),
            other => refuse(Refusal::unknown_request(other, &SERVED)),
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
