//! The book in the job file: its runs of pages, what is added, how it is signed, sections made otherwise.

use super::form::given;
use super::form_sheet::{length_json, read_length, read_sheet_parts, sheet_json};
use super::job::{Casing, Planning};
use super::part::{Part, Refused, word_for};
use super::sections::Otherwise;
use crate::book::{Added, Alphabet, Back, Doubling, Folios, Run, Signing, Start};
use crate::json::Json;

pub(super) fn otherwise_json(other: &Otherwise) -> Json {
    let first = ("first".to_owned(), other.first.into());
    match sheet_json(&other.sheet) {
        Json::Object(members) => Json::Object(std::iter::once(first).chain(members).collect()),
        sheet => sheet,
    }
}

pub(super) fn read_otherwise(part: &Part<'_>) -> Result<Otherwise, Refused> {
    part.only(&["first", "course", "measure"])?;
    Ok(Otherwise { first: part.member("first")?.whole_number()?, sheet: read_sheet_parts(part)? })
}

pub(super) fn run_json(run: &Run) -> Json {
    let (kind, first) = match run.folios {
        Folios::Roman { first } => ("roman", first),
        Folios::RomanCapitals { first } => ("roman_capitals", first),
        Folios::Arabic { first } => ("arabic", first),
        Folios::None => ("none", 1),
    };
    Json::object([
        ("name", run.name.as_str().into()),
        ("pages", run.pages.into()),
        ("folios", kind.into()),
        ("first", first.into()),
        ("blank", run.blank.into()),
    ])
}

pub(super) fn read_run(part: &Part<'_>) -> Result<Run, Refused> {
    part.only(&["name", "pages", "folios", "first", "blank"])?;
    let first = part.member("first")?.whole_number()?;
    let kinds = [
        ("roman", Folios::Roman { first }),
        ("roman_capitals", Folios::RomanCapitals { first }),
        ("arabic", Folios::Arabic { first }),
        ("none", Folios::None),
    ];
    Ok(Run {
        name: part.member("name")?.text()?.to_owned(),
        pages: part.member("pages")?.whole_number()?,
        folios: part.member("folios")?.word(&kinds)?,
        blank: part.member("blank")?.truth()?,
    })
}

pub(super) fn added_json(added: &Added) -> Json {
    match *added {
        Added::Plate { after, pages } => {
            Json::object([("kind", "plate".into()), ("after", after.into()), ("pages", pages.into())])
        }
        Added::Wrap { section, pages } => {
            Json::object([("kind", "wrap".into()), ("section", section.into()), ("pages", pages.into())])
        }
        Added::Endpapers { pages } => Json::object([("kind", "endpapers".into()), ("pages", pages.into())]),
    }
}

pub(super) fn read_added(part: &Part<'_>) -> Result<Added, Refused> {
    let number = |name| part.member(name)?.whole_number();
    let pages = number("pages")?;
    let kind = part.member("kind")?;
    match kind.word(&[("plate", 0), ("wrap", 1), ("endpapers", 2)])? {
        0 => {
            part.only(&["kind", "after", "pages"])?;
            Ok(Added::Plate { after: number("after")?, pages })
        }
        1 => {
            part.only(&["kind", "section", "pages"])?;
            Ok(Added::Wrap { section: number("section")?, pages })
        }
        _ => {
            part.only(&["kind", "pages"])?;
            Ok(Added::Endpapers { pages })
        }
    }
}

pub(super) fn planning_json(planning: &Planning) -> Json {
    let (width, height) = planning.sheet;
    Json::object([("width", length_json(width)), ("height", length_json(height)), ("copies", planning.copies.into())])
}

pub(super) fn read_planning(part: &Part<'_>) -> Result<Planning, Refused> {
    part.only(&["width", "height", "copies"])?;
    let length = |name| read_length(&part.member(name)?);
    Ok(Planning { sheet: (length("width")?, length("height")?), copies: part.member("copies")?.whole_number()? })
}

const BACKS: [(&str, Back); 2] = [("flat", Back::Flat), ("round", Back::Round)];

pub(super) fn casing_json(casing: &Casing) -> Json {
    Json::object([
        ("thread", length_json(casing.thread)),
        ("nipped_percent", casing.nipped_percent.into()),
        ("back", word_for(&BACKS, &casing.back)),
        ("board", length_json(casing.board)),
        ("square", length_json(casing.square)),
        ("joint", casing.joint.map_or(Json::Null, length_json)),
        ("turn_in", length_json(casing.turn_in)),
    ])
}

pub(super) fn read_casing(part: &Part<'_>) -> Result<Casing, Refused> {
    part.only(&["thread", "nipped_percent", "back", "board", "square", "joint", "turn_in"])?;
    let length = |name| read_length(&part.member(name)?);
    Ok(Casing {
        thread: length("thread")?,
        nipped_percent: part.member("nipped_percent")?.number()?,
        back: part.member("back")?.word(&BACKS)?,
        board: length("board")?,
        square: length("square")?,
        joint: given(part, "joint").map(|joint| read_length(&joint)).transpose()?,
        turn_in: length("turn_in")?,
    })
}

const ALPHABETS: [(&str, Alphabet); 3] =
    [("latin23", Alphabet::Latin23), ("american25", Alphabet::American25), ("figures", Alphabet::Figures)];
const STARTS: [(&str, Start); 2] = [("A", Start::A), ("B", Start::B)];
const DOUBLINGS: [(&str, Doubling); 2] = [("figure", Doubling::Figure), ("letters", Doubling::Letters)];

pub(super) fn signing_json(signing: &Signing) -> Json {
    Json::object([
        ("alphabet", word_for(&ALPHABETS, &signing.alphabet)),
        ("start", word_for(&STARTS, &signing.start)),
        ("doubling", word_for(&DOUBLINGS, &signing.doubling)),
    ])
}

pub(super) fn read_signing(part: &Part<'_>) -> Result<Signing, Refused> {
    part.only(&["alphabet", "start", "doubling"])?;
    Ok(Signing {
        alphabet: part.member("alphabet")?.word(&ALPHABETS)?,
        start: part.member("start")?.word(&STARTS)?,
        doubling: part.member("doubling")?.word(&DOUBLINGS)?,
    })
}
