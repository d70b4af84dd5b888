//! The finds of a wrong book in the job file. They are worded as the ask protocol words them, so that the page asks with the
//! same text.

use super::form_book::{read_signing, signing_json};
use super::look::{Subject, TraceLook};
use super::part::{Part, Refused, word_for};
use crate::json::Json;
use crate::marks::Seen;
use crate::since::{Fed, Happened, Judged, Left, Line, Logged};
use crate::trace::{Case, Inside, SeenBook, Spine, Stopped, Stopper};

const JUDGED: [(&str, Judged); 2] = [("good", Judged::Good), ("bad", Judged::Bad)];
const STOPPERS: [(&str, Stopper); 2] = [("caliper", Stopper::Caliper), ("camera", Stopper::Camera)];
const FED: [(&str, Fed); 2] = [("bottom", Fed::Bottom), ("top", Fed::Top)];
const SUBJECTS: [(&str, Subject); 2] = [("book", Subject::Book), ("section", Subject::Section)];

type Members = Vec<(String, Json)>;

/// Adds a member, unless there is nothing.
fn put(members: &mut Members, name: &str, value: Option<Json>) {
    members.extend(value.map(|value| (name.to_owned(), value)));
}

/// The case as the protocol words it.
pub(super) fn found_json(case: &Case) -> Json {
    let mut members = Vec::new();
    put(&mut members, "good_bulk_mm", case.good_bulk_mm.map(Into::into));
    put(&mut members, "books", Some(Json::list(case.books.iter().map(book_json))));
    put(&mut members, "log", Some(Json::list(case.log.iter().map(logged_json))));
    put(&mut members, "left", Some(Json::list(case.left.iter().map(left_json))));
    put(&mut members, "line", (case.line != Case::unknown_line()).then(|| line_json(&case.line)));
    put(&mut members, "signing", case.signing.as_ref().map(signing_json));
    Json::Object(members)
}

/// Reads a case.
pub(super) fn read_found(part: &Part<'_>) -> Result<Case, Refused> {
    part.only(&["good_bulk_mm", "books", "log", "left", "line", "signing"])?;
    let usual = Case::default();
    Ok(Case {
        good_bulk_mm: given(part, "good_bulk_mm").map(|p| p.number()).transpose()?,
        books: list(part, "books", read_book)?,
        log: list(part, "log", read_logged)?,
        left: list(part, "left", read_left)?,
        line: given(part, "line").map_or(Ok(usual.line), |p| read_line(&p))?,
        signing: given(part, "signing").map(|p| read_signing(&p)).transpose()?,
    })
}

/// What a job keeps of a wrong book: the case, the odds that a person stated, and what they wrote into the report.
pub(super) type Kept = (Case, Vec<(String, f64)>, Vec<(String, String)>);

/// The case, and beside it what there is of the others.
pub(super) fn case_json(case: &Case, odds: &[(String, f64)], written: &[(String, String)]) -> Json {
    let mut json = found_json(case);
    if let Json::Object(members) = &mut json {
        put(members, "odds", (!odds.is_empty()).then(|| odds_json(odds)));
        let texts = || Json::Object(written.iter().map(|(line, text)| (line.clone(), text.as_str().into())).collect());
        put(members, "written", (!written.is_empty()).then(texts));
    }
    json
}

/// Reads all three.
pub(super) fn read_case(part: &Part<'_>) -> Result<Kept, Refused> {
    let Json::Object(members) = part.value() else { return part.refuse("must be an object") };
    let odds = part.maybe("odds").map_or_else(|| Ok(Vec::new()), |odds| read_odds(&odds))?;
    let written = part.maybe("written").map_or_else(|| Ok(Vec::new()), |written| read_written(&written))?;
    let is_found = |(name, _): &&(String, Json)| name != "odds" && name != "written";
    let found = Json::Object(members.iter().filter(is_found).cloned().collect());
    let at = |(at, says): Refused| (if at.is_empty() { "job.case".into() } else { format!("job.case.{at}") }, says);
    Ok((read_found(&Part::whole(&found)).map_err(at)?, odds, written))
}

fn read_written(part: &Part<'_>) -> Result<Vec<(String, String)>, Refused> {
    let Json::Object(members) = part.value() else { return part.refuse("must be an object") };
    members.iter().map(|(line, _)| Ok((line.clone(), part.member(line)?.text()?.to_owned()))).collect()
}

/// Odds by their names.
fn odds_json(odds: &[(String, f64)]) -> Json {
    Json::Object(odds.iter().map(|(name, odds)| (name.clone(), Json::Number(*odds))).collect())
}

/// Odds as the protocol words them: a name with a point, `gather.missing`, stands in an object of its own.
pub(super) fn odds_asked(odds: &[(String, f64)]) -> Json {
    let mut members: Members = Vec::new();
    for (name, odds) in odds {
        let Some((group, name)) = name.split_once('.') else {
            members.push((name.clone(), Json::Number(*odds)));
            continue;
        };
        let one = (name.to_owned(), Json::Number(*odds));
        match members.iter_mut().find(|(n, _)| n == group) {
            Some((_, Json::Object(inner))) => inner.push(one),
            _ => members.push((group.to_owned(), Json::Object(vec![one]))),
        }
    }
    Json::Object(members)
}

fn read_odds(part: &Part<'_>) -> Result<Vec<(String, f64)>, Refused> {
    let Json::Object(members) = part.value() else { return part.refuse("must be an object") };
    members.iter().map(|(name, _)| Ok((name.clone(), part.member(name)?.number()?))).collect()
}

pub(super) fn trace_json(look: &TraceLook) -> Json {
    Json::object([
        ("subject", word_for(&SUBJECTS, &look.subject)),
        ("cause", look.cause.into()),
        ("report", look.report.into()),
    ])
}

pub(super) fn read_trace(part: &Part<'_>) -> Result<TraceLook, Refused> {
    part.only(&["subject", "cause", "report"])?;
    Ok(TraceLook {
        subject: part.member("subject")?.word(&SUBJECTS)?,
        cause: part.member("cause")?.whole_number()?,
        report: part.member("report")?.truth()?,
    })
}

/// A member that is there and not `null`.
fn given<'a>(part: &Part<'a>, name: &str) -> Option<Part<'a>> {
    part.maybe(name).filter(|p| !p.is_null())
}

fn list<T>(part: &Part<'_>, name: &str, read: fn(&Part<'_>) -> Result<T, Refused>) -> Result<Vec<T>, Refused> {
    given(part, name).map_or_else(|| Ok(Vec::new()), |all| all.list()?.iter().map(read).collect())
}

fn book_json(book: &SeenBook) -> Json {
    let mut members = Vec::new();
    put(&mut members, "counter", book.counter.map(Into::into));
    let spine = match &book.spine {
        Spine::Unseen => None,
        Spine::Run(run) => Some(Json::object([("run", run.as_str().into())])),
        Spine::Marks(backs) => Some(Json::object([("marks", Json::list(backs.iter().map(seen_json)))])),
    };
    put(&mut members, "spine", spine);
    put(&mut members, "openings", (!book.openings.is_empty()).then(|| book.openings.as_str().into()));
    let inside = book.inside.as_ref().map(|inside| {
        Json::object([
            ("section", inside.section.into()),
            ("pages", inside.pages.as_str().into()),
            ("fore_edge", inside.fore_edge.into()),
        ])
    });
    put(&mut members, "inside", inside);
    put(&mut members, "bulk_mm", book.bulk_mm.map(Into::into));
    put(&mut members, "count", book.count.map(Into::into));
    let stopped = |s: Stopped| Json::object([("station", s.station.into()), ("by", word_for(&STOPPERS, &s.by))]);
    put(&mut members, "stopped", book.stopped.map(stopped));
    put(&mut members, "judged", book.judged.map(|judged| word_for(&JUDGED, &judged)));
    put(&mut members, "plates", book.plates.as_deref().map(Into::into));
    put(&mut members, "wraps", book.wraps.as_deref().map(Into::into));
    Json::Object(members)
}

fn read_book(part: &Part<'_>) -> Result<SeenBook, Refused> {
    part.only(&["counter", "spine", "openings", "inside", "bulk_mm", "count", "stopped", "judged", "plates", "wraps"])?;
    let whole = |name: &str| given(part, name).map(|p| p.whole_number()).transpose();
    let text = |name: &str| given(part, name).map(|p| p.text().map(str::to_owned)).transpose();
    let inside = |part: Part<'_>| -> Result<Inside, Refused> {
        part.only(&["section", "pages", "fore_edge"])?;
        Ok(Inside {
            section: part.member("section")?.whole_number()?,
            pages: part.member("pages")?.text()?.to_owned(),
            fore_edge: part.maybe("fore_edge").map_or(Ok(false), |p| p.truth())?,
        })
    };
    let stopped = |part: Part<'_>| -> Result<Stopped, Refused> {
        part.only(&["station", "by"])?;
        Ok(Stopped { station: part.member("station")?.whole_number()?, by: part.member("by")?.word(&STOPPERS)? })
    };
    Ok(SeenBook {
        counter: whole("counter")?,
        spine: given(part, "spine").map_or(Ok(Spine::Unseen), |p| read_spine(&p))?,
        openings: text("openings")?.unwrap_or_default(),
        inside: given(part, "inside").map(inside).transpose()?,
        bulk_mm: given(part, "bulk_mm").map(|p| p.number()).transpose()?,
        count: whole("count")?,
        stopped: given(part, "stopped").map(stopped).transpose()?,
        judged: given(part, "judged").map(|p| p.word(&JUDGED)).transpose()?,
        plates: text("plates")?,
        wraps: text("wraps")?,
    })
}

fn seen_json(seen: &Seen) -> Json {
    let marks = seen.marks_mm.as_ref().map_or(Json::Null, |m| Json::list(m.iter().map(|m| Json::Number(*m))));
    Json::object([("marks_mm", marks)])
}

fn read_spine(part: &Part<'_>) -> Result<Spine, Refused> {
    if let Some(run) = part.maybe("run") {
        part.only(&["run"])?;
        return Ok(Spine::Run(run.text()?.to_owned()));
    }
    let Some(marks) = part.maybe("marks") else {
        return part.word(&[("unseen", ())]).map(|()| Spine::Unseen);
    };
    part.only(&["marks"])?;
    let seen = |back: &Part<'_>| -> Result<Seen, Refused> {
        let marks = given(back, "marks_mm").map(|m| m.list()?.iter().map(Part::number).collect()).transpose()?;
        Ok(Seen { marks_mm: marks })
    };
    Ok(Spine::Marks(marks.list()?.iter().map(seen).collect::<Result<_, _>>()?))
}

fn logged_json(logged: &Logged) -> Json {
    let what = match logged.what {
        Happened::Stop => Json::object([("kind", "stop".into())]),
        Happened::Jam { station } => Json::object([("kind", "jam".into()), ("station", station.into())]),
        Happened::Reload { station, lift, left, fed } => Json::object([
            ("kind", "reload".into()),
            ("station", station.into()),
            ("lift", lift.into()),
            ("left", left.into()),
            ("fed", word_for(&FED, &fed)),
        ]),
    };
    Json::object([("counter", logged.counter.into()), ("what", what)])
}

fn read_logged(part: &Part<'_>) -> Result<Logged, Refused> {
    part.only(&["counter", "what"])?;
    let what = part.member("what")?;
    let whole = |name: &str| what.member(name)?.whole_number();
    let what = match what.member("kind")?.word(&[("stop", 0), ("jam", 1), ("reload", 2)])? {
        0 => Happened::Stop,
        1 => Happened::Jam { station: whole("station")? },
        _ => Happened::Reload {
            station: whole("station")?,
            lift: whole("lift")?,
            left: whole("left")?,
            fed: what.member("fed")?.word(&FED)?,
        },
    };
    Ok(Logged { counter: part.member("counter")?.whole_number()?, what })
}

fn left_json(left: &Left) -> Json {
    Json::object([("station", left.station.into()), ("over", Json::Number(left.over.into()))])
}

fn read_left(part: &Part<'_>) -> Result<Left, Refused> {
    part.only(&["station", "over"])?;
    let over = part.member("over")?;
    let n = over.number()?;
    if n.fract() != 0.0 || n.abs() > f64::from(i32::MAX) {
        return over.refuse("must be a whole number");
    }
    Ok(Left { station: part.member("station")?.whole_number()?, over: n as i32 })
}

fn line_json(line: &Line) -> Json {
    let mut members = vec![("first".to_owned(), line.first.into()), ("last".to_owned(), line.last.into())];
    let ahead = (!line.ahead.is_empty()).then(|| Json::list(line.ahead.iter().map(|n| (*n).into())));
    put(&mut members, "ahead", ahead);
    put(&mut members, "per_hour", line.per_hour.map(Into::into));
    Json::Object(members)
}

fn read_line(part: &Part<'_>) -> Result<Line, Refused> {
    part.only(&["first", "last", "ahead", "per_hour"])?;
    Ok(Line {
        first: part.member("first")?.whole_number()?,
        last: part.member("last")?.whole_number()?,
        ahead: list(part, "ahead", |n| n.whole_number())?,
        per_hour: given(part, "per_hour").map(|p| p.whole_number()).transpose()?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::Signing;

    fn full() -> Case {
        let book = SeenBook {
            counter: Some(1421),
            spine: Spine::Run("1-4 9 6-18".into()),
            openings: "64 129 | 144 81".into(),
            inside: Some(Inside { section: 5, pages: "1-16".into(), fore_edge: true }),
            bulk_mm: Some(18.25),
            count: Some(18),
            stopped: Some(Stopped { station: 5, by: Stopper::Camera }),
            judged: Some(Judged::Bad),
            plates: Some(String::new()),
            wraps: Some("5".into()),
        };
        let marks = vec![Seen { marks_mm: Some(vec![24.5]) }, Seen { marks_mm: None }];
        let other = SeenBook { spine: Spine::Marks(marks), ..SeenBook::default() };
        let reload = Happened::Reload { station: 5, lift: 80, left: 40, fed: Fed::Top };
        let log = [Happened::Stop, Happened::Jam { station: 3 }, reload];
        Case {
            good_bulk_mm: Some(18.0),
            books: vec![book, other, SeenBook::default()],
            log: log.map(|what| Logged { counter: 1380, what }).to_vec(),
            left: vec![Left { station: 9, over: -80 }],
            line: Line { ahead: vec![3, 2], per_hour: Some(3600), ..Line::of(1, 2000) },
            signing: Some(Signing::default()),
        }
    }

    /// The same text is a job's and the protocol's, which serde reads.
    #[test]
    fn a_case_is_read_back_and_worded_as_the_protocol_words_it() {
        for case in [full(), Case::default()] {
            let text = found_json(&case).write();
            assert_eq!(serde_json::from_str::<Case>(&text).unwrap(), case, "{text}");
            let odds = vec![("missing".to_owned(), 0.5)];
            let written = vec![("ticket".to_owned(), "J-1".to_owned())];
            let json = case_json(&case, &odds, &written);
            assert_eq!(read_case(&Part::whole(&json)).unwrap(), (case.clone(), odds, written));
            assert_eq!(case_json(&case, &[], &[]), found_json(&case));
            let theirs = Json::parse(&serde_json::to_string(&case).unwrap()).unwrap();
            assert_eq!(read_found(&Part::whole(&theirs)).unwrap(), case);
        }
    }

    #[test]
    fn grouped_odds_are_asked_about_in_their_group() {
        let odds = [("two_fed", 1.0), ("gather.missing", 2.0), ("gather.double", 3.0)];
        let odds = odds.map(|(name, odds)| (name.to_owned(), odds));
        assert_eq!(odds_asked(&odds).write(), r#"{"two_fed":1,"gather":{"missing":2,"double":3}}"#);
    }

    #[test]
    fn what_is_no_case_says_where() {
        let says = |text: &str| read_case(&Part::whole(&Json::parse(text).unwrap())).unwrap_err();
        assert_eq!(says(r#"{"books":[{"counter":-1}]}"#).0, "job.case.books[0].counter");
        assert_eq!(says(r#"{"left":[{"station":1,"over":0.5}]}"#).0, "job.case.left[0].over");
        assert!(says(r#"{"bokos":[]}"#).1.contains("bokos"));
        assert_eq!(says(r#"{"log":[{"counter":1,"what":{"kind":"rain"}}]}"#).0, "job.case.log[0].what.kind");
    }
}
