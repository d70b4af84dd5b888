//! `exercise`, `mark_exercise`, `practise_next`: an exercise set from a seed, without its answer; an answer marked; what to
//! practise by a logbook.

use super::error::Refusal;
use super::link_scene::told_sheet;
use crate::fold::Course;
use crate::fold::misfold::PrintedPage;
use crate::practice::{
    Answer, Departs, Entry, Exercise, Item, Kind, Logbook, Marked, PrintedCell, Shown, Task, code, exercise_of, halves,
    outcomes,
};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

/// Which exercise: by kind, level and seed, or by its code.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AskExercise {
    kind: Option<Kind>,
    level: Option<u8>,
    seed: Option<u64>,
    code: Option<String>,
}

/// An answer to one of them.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AskMark {
    kind: Option<Kind>,
    level: Option<u8>,
    seed: Option<u64>,
    code: Option<String>,
    answer: Answer,
    #[serde(default)]
    hints: u32,
}

/// An exercise that is set.
#[derive(Serialize)]
pub(super) struct Set {
    kind: Kind,
    level: u8,
    seed: u64,
    code: Option<String>,
    title: &'static str,
    asks: &'static str,
    task: Value,
    marks: String,
    half_marks: u32,
    hints: Vec<String>,
    outcomes: Vec<Value>,
}

/// A marked answer.
#[derive(Serialize)]
pub(super) struct Told {
    got: u32,
    of: u32,
    hints_cost: u32,
    all_right: bool,
    says: Vec<String>,
    items: Vec<Item>,
    departs: Option<Departs>,
    shown: Option<Value>,
}

fn find(kind: Option<Kind>, level: Option<u8>, seed: Option<u64>, code: Option<&str>) -> Result<Exercise, Refusal> {
    if let Some(code) = code {
        if kind.is_some() || level.is_some() || seed.is_some() {
            return Err(Refusal::new("code", "a code holds kind, level and seed; give it alone, or those three"));
        }
        let link = exercise_of(code).map_err(|why| Refusal::new("code", why.to_string()))?;
        return Exercise::of_link(&link).map_err(|why| Refusal::new("code", why.to_string()));
    }
    let missing = |at: &str| Refusal::new(at, "this field is missing");
    let kind = kind.ok_or_else(|| missing("kind"))?;
    let level = level.ok_or_else(|| missing("level"))?;
    let seed = seed.ok_or_else(|| missing("seed"))?;
    Exercise::of(kind, level, seed).map_err(|why| Refusal::new(why.at(), why.to_string()))
}

pub(super) fn exercise(ask: &AskExercise) -> Result<Set, Refusal> {
    let exercise = find(ask.kind, ask.level, ask.seed, ask.code.as_deref())?;
    let of = exercise.mark(&Answer::Nothing, 0).of;
    Ok(Set {
        kind: exercise.kind,
        level: exercise.level,
        seed: exercise.seed,
        code: code(&exercise.link()),
        title: exercise.kind.title(),
        asks: exercise.kind.asks(),
        task: task(&exercise.task),
        marks: format!("{} marks can be had.", halves(of)),
        half_marks: of,
        hints: exercise.hints().into_iter().map(|hint| hint.price).collect(),
        outcomes: outcomes(exercise.kind).map(|o| json!({"says": o.says, "source": o.source})).collect(),
    })
}

pub(super) fn mark(ask: &AskMark) -> Result<Told, Refusal> {
    let exercise = find(ask.kind, ask.level, ask.seed, ask.code.as_deref())?;
    let marked = exercise.mark(&ask.answer, ask.hints);
    let all_right = marked.all_right();
    let Marked { items, got, of, hints_cost, shown, departs, says } = marked;
    Ok(Told { got, of, hints_cost, all_right, says, items, departs, shown: shown.as_ref().map(told_shown) })
}

fn told_shown(shown: &Shown) -> Value {
    json!({
        "sheet": sheet(&shown.course), "side_a": side(&shown.side_a), "side_b": side(&shown.side_b), "pages": shown.pages
    })
}

fn side(rows: &[Vec<PrintedCell>]) -> Value {
    let cell = |cell: &Option<PrintedPage>| cell.map_or(Value::Null, |c| json!({"page": c.page, "head": c.head}));
    rows.iter().map(|row| row.iter().map(cell).collect::<Value>()).collect()
}

/// A sheet as `tell_section` takes it.
fn sheet(course: &Course) -> Value {
    json!(told_sheet(course))
}

/// What is set, without a word of the answer.
fn task(of: &Task) -> Value {
    match of {
        Task::NumberSheet { name, course, first_page } => {
            json!({"name": name, "sheet": sheet(course), "first_page": first_page})
        }
        Task::SetHeads { name, course, first_page, side_a, side_b } => {
            json!({"name": name, "sheet": sheet(course), "first_page": first_page, "side_a": side_a, "side_b": side_b})
        }
        Task::FindFolds { side_a, side_b, folds } => {
            json!({"side_a": side(side_a), "side_b": side(side_b), "folds": folds})
        }
        Task::WrongSheet { name, scheme, first_page, pages, fold_at, wrong, menu, checks } => json!({
            "name": name, "scheme": scheme, "first_page": first_page, "pages": pages, "fold_at": fold_at, "wrong": wrong,
            "menu": menu.iter().map(|c| json!({"cause": c, "says": c.title()})).collect::<Vec<_>>(), "checks": checks
        }),
        Task::WrongBook { sections, found, wrong, checks } => {
            json!({"sections": sections, "found": found, "wrong": wrong, "checks": checks})
        }
        Task::MakeUp { job } => json!({
            "extent": job.extent, "page_mm": [job.page.width.mm(), job.page.height.mm()],
            "sheet_mm": [job.sheet.width.mm(), job.sheet.height.mm()],
            "trims_mm": {"head": job.trims.head.mm(), "foot": job.trims.foot.mm(), "fore_edge": job.trims.fore_edge.mm()},
            "grammage": job.stock.grammage, "bulk": job.stock.bulk,
            "grain": if job.stock.grain == crate::paper::Grain::Upright { "upright" } else { "level" },
            "copies": job.copies
        }),
        Task::BackMarks { sections, spine_mm, backs } => {
            json!({"sections": sections, "spine_mm": spine_mm, "backs": backs})
        }
        Task::Bolts { name, course, sheet: size, trims, caliper } => json!({
            "name": name, "sheet": sheet(course), "sheet_mm": [size.width.mm(), size.height.mm()],
            "trims_mm": {"head": trims.head.mm(), "foot": trims.foot.mm(), "fore_edge": trims.fore_edge.mm()},
            "caliper_mm": caliper.mm()
        }),
    }
}

/// A logbook.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AskNext {
    logbook: Vec<Entry>,
}

pub(super) fn next(ask: AskNext) -> Result<Value, Refusal> {
    let logbook = Logbook::of(ask.logbook).map_err(|why| Refusal::new(why.at, why.says))?;
    let next = logbook.next();
    Ok(json!({
        "kind": next.kind, "level": next.level, "seed": next.seed, "rule": next.rule, "says": next.says,
        "totals": logbook.totals(), "weak": logbook.weak(), "table": logbook.csv()
    }))
}
