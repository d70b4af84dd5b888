//! The job file's form: each part of a job as JSON, and back. `FORMAT.md` describes it.

use super::job::{Evidence, Job};
use super::look::{Look, Room};
use super::part::{Part, Refused, word_for};
use crate::fold::{Crease, Direction, Fold, Lands, Part as Half, Reads, Scheme};
use crate::gather::Stack;
use crate::gather::stack::{Placed, What};
use crate::json::Json;
use crate::marks::{Design, Lies};

const CREASES: [(&str, Crease); 2] = [("vertical", Crease::Vertical), ("horizontal", Crease::Horizontal)];
const HALVES: [(&str, Half); 4] =
    [("left", Half::Left), ("right", Half::Right), ("top", Half::Top), ("bottom", Half::Bottom)];
const LANDS: [(&str, Lands); 2] = [("over", Lands::Over), ("under", Lands::Under)];
const EDGES: [(&str, Direction); 4] =
    [("top", Direction::Up), ("right", Direction::Right), ("bottom", Direction::Down), ("left", Direction::Left)];
const READS: [(&str, Reads); 2] = [("left_to_right", Reads::LeftToRight), ("right_to_left", Reads::RightToLeft)];
const ROOMS: [(&str, Room); 2] = [("fold", Room::Fold), ("gather", Room::Gather)];
/// How a section lies, as the ask protocol words it too.
pub(super) const LIES: [(&str, Lies); 4] = [
    ("right", Lies::Right),
    ("head_to_tail", Lies::HeadToTail),
    ("turned_in_plane", Lies::TurnedInPlane),
    ("side_to_side", Lies::SideToSide),
];

pub(super) fn job_json(job: &Job) -> Json {
    Json::object([
        ("title", job.title.as_str().into()),
        ("sections", job.sections.into()),
        ("scheme", scheme_json(&job.scheme)),
        ("design", design_json(&job.design)),
        ("stack", Json::list(job.stack.placed().iter().map(placed_json))),
        ("evidence", evidence_json(&job.evidence)),
    ])
}

pub(super) fn read_job(part: &Part<'_>) -> Result<Job, Refused> {
    part.only(&["title", "sections", "scheme", "design", "stack", "evidence"])?;
    let stack = part.member("stack")?;
    let placed = stack.list()?.iter().map(read_placed).collect::<Result<Vec<_>, _>>()?;
    let Ok(stack) = Stack::try_from(placed) else { return stack.refuse("holds more sections, or others, than can be") };
    Ok(Job {
        title: part.member("title")?.text()?.to_owned(),
        sections: part.member("sections")?.whole_number()?,
        scheme: read_scheme(&part.member("scheme")?)?,
        design: read_design(&part.member("design")?)?,
        stack,
        evidence: part.maybe("evidence").map_or(Ok(Evidence::Stack), |e| read_evidence(&e))?,
    })
}

fn scheme_json(scheme: &Scheme) -> Json {
    let fold = |fold: &Fold| {
        Json::object([
            ("crease", word_for(&CREASES, &fold.crease)),
            ("after", fold.after.into()),
            ("moves", word_for(&HALVES, &fold.moves)),
            ("lands", word_for(&LANDS, &fold.lands)),
        ])
    };
    Json::object([
        ("rows", scheme.rows.into()),
        ("columns", scheme.columns.into()),
        ("folds", Json::list(scheme.folds.iter().map(fold))),
        ("head", word_for(&EDGES, &scheme.head)),
        ("reads", word_for(&READS, &scheme.reads)),
    ])
}

fn read_scheme(part: &Part<'_>) -> Result<Scheme, Refused> {
    part.only(&["rows", "columns", "folds", "head", "reads"])?;
    let fold = |part: &Part<'_>| -> Result<Fold, Refused> {
        part.only(&["crease", "after", "moves", "lands"])?;
        Ok(Fold {
            crease: part.member("crease")?.word(&CREASES)?,
            after: part.member("after")?.whole_number()?,
            moves: part.member("moves")?.word(&HALVES)?,
            lands: part.member("lands")?.word(&LANDS)?,
        })
    };
    Ok(Scheme {
        rows: part.member("rows")?.whole_number()?,
        columns: part.member("columns")?.whole_number()?,
        folds: part.member("folds")?.list()?.iter().map(fold).collect::<Result<_, _>>()?,
        head: part.member("head")?.word(&EDGES)?,
        reads: part.maybe("reads").map_or(Ok(Reads::default()), |r| r.word(&READS))?,
    })
}

pub(super) fn design_json(design: &Design) -> Json {
    Json::object([
        ("spine_mm", design.spine_mm.into()),
        ("first_mm", design.first_mm.into()),
        ("step_mm", design.step_mm.into()),
        ("length_mm", design.length_mm.into()),
        ("levels", design.levels.into()),
    ])
}

fn read_design(part: &Part<'_>) -> Result<Design, Refused> {
    part.only(&["spine_mm", "first_mm", "step_mm", "length_mm", "levels"])?;
    let mm = |name| part.member(name)?.number();
    Ok(Design {
        spine_mm: mm("spine_mm")?,
        first_mm: mm("first_mm")?,
        step_mm: mm("step_mm")?,
        length_mm: mm("length_mm")?,
        levels: part.member("levels")?.whole_number()?,
    })
}

fn placed_json(placed: &Placed) -> Json {
    let what = match placed.what {
        What::Ours(section) => Json::object([("ours", section.into())]),
        What::Foreign => "foreign".into(),
    };
    let mut members = vec![("what".to_owned(), what), ("lies".to_owned(), word_for(&LIES, &placed.lies))];
    members.extend(placed.misfold.map(|fold| ("misfold".to_owned(), fold.into())));
    Json::Object(members)
}

fn read_placed(part: &Part<'_>) -> Result<Placed, Refused> {
    part.only(&["what", "lies", "misfold"])?;
    let what = part.member("what")?;
    let what = match what.maybe("ours") {
        Some(section) => What::Ours(section.whole_number()?),
        None => what.word(&[("foreign", What::Foreign)])?,
    };
    Ok(Placed {
        what,
        lies: part.maybe("lies").map_or(Ok(Lies::Right), |l| l.word(&LIES))?,
        misfold: part.maybe("misfold").map(|m| m.whole_number()).transpose()?,
    })
}

fn evidence_json(evidence: &Evidence) -> Json {
    match evidence {
        Evidence::Stack => "stack".into(),
        Evidence::Typed(run) => Json::object([("typed", run.as_str().into())]),
        Evidence::Tapped(backs) => {
            let back = |marks: &Vec<f64>| Json::list(marks.iter().map(|m| Json::Number(*m)));
            Json::object([("tapped", Json::list(backs.iter().map(back)))])
        }
    }
}

fn read_evidence(part: &Part<'_>) -> Result<Evidence, Refused> {
    if let Some(typed) = part.maybe("typed") {
        return Ok(Evidence::Typed(typed.text()?.to_owned()));
    }
    if let Some(tapped) = part.maybe("tapped") {
        let marks = |back: &Part<'_>| back.list()?.iter().map(Part::number).collect::<Result<Vec<_>, _>>();
        return Ok(Evidence::Tapped(tapped.list()?.iter().map(marks).collect::<Result<_, _>>()?));
    }
    part.word(&[("stack", ())]).map(|()| Evidence::Stack)
}

pub(super) fn look_json(look: &Look) -> Json {
    Json::object([
        ("room", word_for(&ROOMS, &look.room)),
        ("place", look.place.into()),
        ("followed", look.followed.map_or(Json::Null, Into::into)),
        ("at", look.at.into()),
        ("making", look.making.into()),
        ("through", look.through.into()),
    ])
}

pub(super) fn read_look(part: &Part<'_>) -> Result<Look, Refused> {
    part.only(&["room", "place", "followed", "at", "making", "through"])?;
    let usual = Look::default();
    let truth = |name, usual| part.maybe(name).map_or(Ok(usual), |p| p.truth());
    Ok(Look {
        room: part.maybe("room").map_or(Ok(usual.room), |p| p.word(&ROOMS))?,
        place: part.maybe("place").map_or(Ok(usual.place), |p| p.whole_number())?,
        followed: part.maybe("followed").filter(|p| !p.is_null()).map(|p| p.whole_number()).transpose()?,
        at: part.maybe("at").map_or(Ok(usual.at), |p| p.number())?,
        making: truth("making", usual.making)?,
        through: truth("through", usual.through)?,
    })
}
