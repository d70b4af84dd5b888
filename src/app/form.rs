//! The job file's form: each part of a job as JSON, and back. `FORMAT.md` describes it.

use super::form_book::{
    added_json, casing_json, otherwise_json, planning_json, read_added, read_casing, read_otherwise, read_planning,
    read_run, read_signing, run_json, signing_json,
};
use super::form_case;
use super::form_marks::{design_json, read_design};
use super::form_sheet::{paper_json, read_paper, read_sheet, read_sheet_parts, sheet_json};
use super::job::{Casing, Cell, Evidence, Job, Layout, MadeUp, Paper, Planning, SectionCase, SectionEvidence, Tried};
use super::look::{Look, Pane, Room, Subject, Task, TraceLook};
use super::part::{Part, Refused, word_for};
use super::sheet::Sheet;
use crate::book::Signing;
use crate::fold::{Course, Crease, Direction, Fold, Lands, Lay, Part as Half, Reads, Scheme, Side};
use crate::gather::Stack;
use crate::gather::stack::{Placed, What};
use crate::json::Json;
use crate::marks::Lies;

pub(super) const CREASES: [(&str, Crease); 2] = [("vertical", Crease::Vertical), ("horizontal", Crease::Horizontal)];
pub(super) const HALVES: [(&str, Half); 4] =
    [("left", Half::Left), ("right", Half::Right), ("top", Half::Top), ("bottom", Half::Bottom)];
const TASKS: [(&str, Task); 3] = [("fold", Task::Fold), ("make", Task::Make), ("work_back", Task::WorkBack)];
pub(super) const LANDS: [(&str, Lands); 2] = [("over", Lands::Over), ("under", Lands::Under)];
pub(super) const EDGES: [(&str, Direction); 4] =
    [("top", Direction::Up), ("right", Direction::Right), ("bottom", Direction::Down), ("left", Direction::Left)];
/// The ways a head points, as the ask protocol words them too.
pub(super) const HEADS: [(&str, Direction); 4] =
    [("up", Direction::Up), ("right", Direction::Right), ("down", Direction::Down), ("left", Direction::Left)];
pub(super) const READS: [(&str, Reads); 2] =
    [("left_to_right", Reads::LeftToRight), ("right_to_left", Reads::RightToLeft)];
const PANES: [(&str, Pane); 4] =
    [("sides", Pane::Sides), ("paper", Pane::Paper), ("trim", Pane::Trim), ("folder", Pane::Folder)];
const ROOMS: [(&str, Room); 5] = [
    ("fold", Room::Fold),
    ("gather", Room::Gather),
    ("trace", Room::Trace),
    ("class", Room::Class),
    ("job", Room::Job),
];
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
        ("sheet", sheet_json(&job.sheet)),
        ("otherwise", Json::list(job.otherwise.iter().map(otherwise_json))),
        ("runs", Json::list(job.runs.iter().map(run_json))),
        ("added", Json::list(job.added.iter().map(added_json))),
        ("signing", signing_json(&job.signing)),
        ("planning", planning_json(&job.planning)),
        ("casing", casing_json(&job.casing)),
        ("paper", paper_json(&job.paper)),
        ("design", design_json(&job.design)),
        ("stack", Json::list(job.stack.placed().iter().map(placed_json))),
        ("evidence", evidence_json(&job.evidence)),
        ("tried", job.tried.as_ref().map_or(Json::Null, tried_json)),
        ("layout", layout_json(&job.layout)),
        ("section", case_json(&job.section_case)),
        ("case", form_case::case_json(&job.case, &job.odds, &job.written)),
    ])
}

pub(super) fn read_job(part: &Part<'_>) -> Result<Job, Refused> {
    let sheet = read_sheets(part)?;
    let stack = part.member("stack")?;
    let placed = stack.list()?.iter().map(read_placed).collect::<Result<Vec<_>, _>>()?;
    let Ok(stack) = Stack::try_from(placed) else { return stack.refuse("holds more sections, or others, than can be") };
    // Forms before the fourth knew no wrong books.
    let (case, odds, written) = given(part, "case").map(|c| form_case::read_case(&c)).transpose()?.unwrap_or_default();
    Ok(Job {
        title: part.member("title")?.text()?.to_owned(),
        sections: part.member("sections")?.whole_number()?,
        sheet,
        otherwise: all(part, "otherwise", read_otherwise)?,
        runs: all(part, "runs", read_run)?,
        added: all(part, "added", read_added)?,
        signing: given(part, "signing").map_or_else(|| Ok(Signing::default()), |s| read_signing(&s))?,
        planning: given(part, "planning").map_or_else(|| Ok(Planning::default()), |p| read_planning(&p))?,
        casing: given(part, "casing").map_or_else(|| Ok(Casing::default()), |p| read_casing(&p))?,
        paper: given(part, "paper").map_or_else(|| Ok(Paper::default()), |p| read_paper(&p))?,
        design: read_design(&part.member("design")?)?,
        stack,
        evidence: part.maybe("evidence").map_or(Ok(Evidence::Stack), |e| read_evidence(&e))?,
        tried: given(part, "tried").map(|t| read_tried(&t)).transpose()?,
        // Jobs of form 1 have neither.
        layout: given(part, "layout").map_or_else(|| Ok(Layout::blank(2, 4)), |l| read_layout(&l))?,
        section_case: given(part, "section").map_or_else(|| Ok(SectionCase::default()), |c| read_case(&c))?,
        case,
        odds,
        written,
    })
}

/// The usual sheet. Form 3 had its parts beside the others; forms 1 and 2 knew sheets that are folded whole, and no sizes.
fn read_sheets(part: &Part<'_>) -> Result<Sheet, Refused> {
    let older = ["title", "sections", "design", "stack", "evidence", "tried", "layout", "section"];
    if let Some(sheet) = part.maybe("sheet") {
        let now = ["sheet", "otherwise", "runs", "added", "signing", "planning", "casing", "paper", "case"];
        part.only(&[&older[..], &now].concat())?;
        return read_sheet(&sheet);
    }
    if part.maybe("course").is_some() {
        part.only(&[&older[..], &["course", "measure", "paper"]].concat())?;
        return read_sheet_parts(part);
    }
    part.only(&[&older[..], &["scheme"]].concat())?;
    Ok(Sheet::usual(Course::of_scheme(&read_scheme(&part.member("scheme")?)?)))
}

/// A list that may be missing, as in older forms.
fn all<T>(part: &Part<'_>, name: &str, read: impl Fn(&Part<'_>) -> Result<T, Refused>) -> Result<Vec<T>, Refused> {
    given(part, name).map_or_else(|| Ok(Vec::new()), |list| list.list()?.iter().map(read).collect())
}

/// A member that is there and not `null`.
pub(super) fn given<'a>(part: &Part<'a>, name: &str) -> Option<Part<'a>> {
    part.maybe(name).filter(|p| !p.is_null())
}

fn tried_json(tried: &Tried) -> Json {
    let piece = tried.piece.map_or(Json::Null, |p| u32::try_from(p).unwrap_or(u32::MAX).into());
    let of = tried.kind.map_or(Json::Null, Json::from);
    Json::object([("of", of), ("piece", piece), ("folds", Json::list(tried.folds.iter().map(fold_json)))])
}

fn read_tried(part: &Part<'_>) -> Result<Tried, Refused> {
    // Form 2 had the folds alone.
    if part.maybe("folds").is_none() {
        return Ok(Tried { kind: None, piece: None, folds: read_folds(part)? });
    }
    part.only(&["of", "piece", "folds"])?;
    let kind = given(part, "of").map(|of| of.whole_number()).transpose()?;
    let piece = given(part, "piece").map(|p| p.whole_number()).transpose()?;
    Ok(Tried { kind, piece: piece.map(|p| p as usize), folds: read_folds(&part.member("folds")?)? })
}

pub(super) fn fold_json(fold: &Fold) -> Json {
    Json::object([
        ("crease", word_for(&CREASES, &fold.crease)),
        ("after", fold.after.into()),
        ("moves", word_for(&HALVES, &fold.moves)),
        ("lands", word_for(&LANDS, &fold.lands)),
    ])
}

fn read_folds(part: &Part<'_>) -> Result<Vec<Fold>, Refused> {
    part.list()?.iter().map(read_fold).collect()
}

pub(super) fn read_fold(part: &Part<'_>) -> Result<Fold, Refused> {
    part.only(&["crease", "after", "moves", "lands"])?;
    Ok(Fold {
        crease: part.member("crease")?.word(&CREASES)?,
        after: part.member("after")?.whole_number()?,
        moves: part.member("moves")?.word(&HALVES)?,
        lands: part.member("lands")?.word(&LANDS)?,
    })
}

/// A scheme as the ask protocol words it too.
pub(super) fn scheme_json(scheme: &Scheme) -> Json {
    Json::object([
        ("rows", scheme.rows.into()),
        ("columns", scheme.columns.into()),
        ("folds", Json::list(scheme.folds.iter().map(fold_json))),
        ("head", word_for(&EDGES, &scheme.head)),
        ("reads", word_for(&READS, &scheme.reads)),
    ])
}

/// Reads a scheme, from a file or from an answer of the worker.
pub(super) fn read_scheme(part: &Part<'_>) -> Result<Scheme, Refused> {
    part.only(&["rows", "columns", "folds", "head", "reads"])?;
    Ok(Scheme {
        rows: part.member("rows")?.whole_number()?,
        columns: part.member("columns")?.whole_number()?,
        folds: read_folds(&part.member("folds")?)?,
        head: part.member("head")?.word(&EDGES)?,
        reads: part.maybe("reads").map_or(Ok(Reads::default()), |r| r.word(&READS))?,
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
        ("task", word_for(&TASKS, &look.task)),
        ("over", look.lay.over.into()),
        ("quarters", u32::from(look.lay.quarters).into()),
        ("compare", look.compare.into()),
        ("piece", look.piece.map_or(Json::Null, Into::into)),
        ("pane", pane_json(look.pane)),
        ("through", look.through.into()),
        ("trace", form_case::trace_json(&look.trace)),
    ])
}

pub(super) fn read_look(part: &Part<'_>) -> Result<Look, Refused> {
    part.only(&[
        "room", "place", "piece", "followed", "at", "task", "over", "quarters", "compare", "pane", "inside", "through",
        "making", "trace",
    ])?;
    let usual = Look::default();
    let truth = |name, usual| part.maybe(name).map_or(Ok(usual), |p| p.truth());
    Ok(Look {
        room: part.maybe("room").map_or(Ok(usual.room), |p| p.word(&ROOMS))?,
        place: part.maybe("place").map_or(Ok(usual.place), |p| p.whole_number())?,
        piece: given(part, "piece").map(|p| p.whole_number()).transpose()?,
        followed: part.maybe("followed").filter(|p| !p.is_null()).map(|p| p.whole_number()).transpose()?,
        at: part.maybe("at").map_or(Ok(usual.at), |p| p.number())?,
        // Form 1 knew two things to do at the bench.
        task: match part.maybe("task") {
            Some(task) => task.word(&TASKS)?,
            None if truth("making", false)? => Task::Make,
            None => Task::Fold,
        },
        lay: Lay {
            over: truth("over", false)?,
            quarters: part.maybe("quarters").map_or(Ok(0), |q| q.whole_number())? as u8 % 4,
        },
        compare: truth("compare", false)?,
        // Form 2 knew the cut alone.
        pane: match (given(part, "pane"), given(part, "inside")) {
            (Some(pane), _) if pane.text().is_ok() => pane.word(&PANES)?,
            (Some(cut), _) | (None, Some(cut)) => read_cut(&cut).map(|(along, at)| Pane::Inside(along, at))?,
            (None, None) => Pane::Sides,
        },
        through: truth("through", usual.through)?,
        // Forms before the fourth knew one wrong section.
        trace: part.maybe("trace").map_or_else(
            || Ok(TraceLook { subject: Subject::Section, ..TraceLook::default() }),
            |t| form_case::read_trace(&t),
        )?,
    })
}

/// What lies beside the bench: a word, or the cut that is looked into.
fn pane_json(pane: Pane) -> Json {
    match pane {
        Pane::Inside(crease, at) => Json::list([word_for(&CREASES, &crease), at.into()]),
        pane => word_for(&PANES, &pane),
    }
}

fn read_cut(part: &Part<'_>) -> Result<(Crease, u32), Refused> {
    match part.list()?.as_slice() {
        [crease, at] => Ok((crease.word(&CREASES)?, at.whole_number()?)),
        _ => part.refuse("must be a direction and a number"),
    }
}

/// A side of a layout, row by row, as the ask protocol words it too.
pub(super) fn side_json(layout: &Layout, side: Side) -> Json {
    let cell = |cell: &Option<Cell>| {
        cell.map_or(Json::Null, |cell| {
            let mut members = vec![("page".to_owned(), cell.page.into())];
            members.extend(cell.head.map(|head| ("head".to_owned(), word_for(&HEADS, &head))));
            Json::Object(members)
        })
    };
    let rows = layout.side(side).chunks(layout.columns.max(1) as usize);
    Json::list(rows.map(|row| Json::list(row.iter().map(cell))))
}

/// Reads a side of so many columns: its cells, row by row.
pub(super) fn read_side(part: &Part<'_>, columns: u32) -> Result<Vec<Option<Cell>>, Refused> {
    let cell = |part: &Part<'_>| -> Result<Option<Cell>, Refused> {
        if part.is_null() {
            return Ok(None);
        }
        let head = given(part, "head").map(|head| head.word(&HEADS)).transpose()?;
        Ok(Some(Cell { page: part.member("page")?.whole_number()?, head }))
    };
    let mut cells = Vec::new();
    for row in part.list()? {
        let of_row = row.list()?;
        if of_row.len() != columns as usize {
            return row.refuse("has too many cells, or too few");
        }
        for one in &of_row {
            cells.push(cell(one)?);
        }
    }
    Ok(cells)
}

fn layout_json(layout: &Layout) -> Json {
    Json::object([
        ("rows", layout.rows.into()),
        ("columns", layout.columns.into()),
        ("side_a", side_json(layout, Side::A)),
        ("side_b", side_json(layout, Side::B)),
    ])
}

fn read_layout(part: &Part<'_>) -> Result<Layout, Refused> {
    part.only(&["rows", "columns", "side_a", "side_b"])?;
    let (rows, columns) = (part.member("rows")?.whole_number()?, part.member("columns")?.whole_number()?);
    let side = |name| {
        let side = part.member(name)?;
        let cells = read_side(&side, columns)?;
        if cells.len() as u64 != u64::from(rows) * u64::from(columns) {
            return side.refuse("has too many rows, or too few");
        }
        Ok(cells)
    };
    Ok(Layout { rows, columns, side_a: side("side_a")?, side_b: side("side_b")? })
}

fn case_json(case: &SectionCase) -> Json {
    let (name, evidence) = match &case.evidence {
        SectionEvidence::Typed(text) => ("typed", text.as_str().into()),
        SectionEvidence::Made(causes) => ("made", causes.clone()),
    };
    let made_up = |made: &MadeUp| {
        let inset = made.inset.as_ref().map_or(Json::Null, scheme_json);
        Json::object([("inset", inset), ("lanes", made.lanes.into())])
    };
    Json::object([
        (name, evidence),
        ("fore_edge", case.fore_edge.into()),
        ("made_up", case.made_up.as_ref().map_or(Json::Null, made_up)),
    ])
}

fn read_case(part: &Part<'_>) -> Result<SectionCase, Refused> {
    part.only(&["typed", "made", "fore_edge", "made_up", "inset", "lanes"])?;
    let made_up = |part: &Part<'_>| -> Result<MadeUp, Refused> {
        Ok(MadeUp {
            inset: given(part, "inset").map(|s| read_scheme(&s)).transpose()?,
            lanes: part.member("lanes")?.whole_number()?,
        })
    };
    let made_up = match given(part, "made_up") {
        Some(part) => {
            part.only(&["inset", "lanes"])?;
            Some(made_up(&part)?)
        }
        // Forms 1 and 2 always said it; what their sheets were is no word against the sheet.
        None if part.maybe("lanes").is_some() => {
            Some(made_up(part)?).filter(|made| *made != MadeUp { inset: None, lanes: 1 })
        }
        None => None,
    };
    Ok(SectionCase {
        evidence: match part.maybe("made") {
            Some(made) => SectionEvidence::Made(made.value().clone()),
            None => SectionEvidence::Typed(part.member("typed")?.text()?.to_owned()),
        },
        fore_edge: part.member("fore_edge")?.truth()?,
        made_up,
    })
}
