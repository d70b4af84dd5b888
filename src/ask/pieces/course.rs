//! The steps of a sheet and the order of its pieces, read from the request.
//!
//! A step is a fold, a slit or a head, and which it is shows in its fields; so they are read one by one, and a refusal
//! names the place as a path.

use crate::ask::error::Refusal;
use crate::fold::{Crease, Direction, End, Fold, Nest, Parted, Slit, Steps};
use serde::Deserialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

/// A slit that runs from top to bottom.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Upright {
    #[allow(dead_code, reason = "it is known when this is read")]
    slit: Crease,
    after: u32,
    #[allow(dead_code, reason = "its steps are taken out before; that it is there is checked")]
    left: Vec<Value>,
    #[allow(dead_code, reason = "as of the other part")]
    right: Vec<Value>,
}

/// A slit that runs from left to right.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Level {
    #[allow(dead_code, reason = "it is known when this is read")]
    slit: Crease,
    after: u32,
    #[allow(dead_code, reason = "its steps are taken out before; that it is there is checked")]
    top: Vec<Value>,
    #[allow(dead_code, reason = "as of the other part")]
    bottom: Vec<Value>,
}

/// Which way a slit runs, whatever else it says.
#[derive(Deserialize)]
struct Runs {
    slit: Crease,
}

/// The fields of a slit that hold the steps of a part.
const PARTS: [&str; 4] = ["left", "right", "top", "bottom"];

/// The head end of a piece.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Head {
    #[serde(with = "crate::fold::edge_word")]
    head: Direction,
}

/// Pieces that lie in one another.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Inset {
    inset: Vec<usize>,
}

/// Reads the steps of a sheet, which stand at a path.
pub(in crate::ask) fn steps(list: Vec<Value>, path: &str) -> Result<Steps, Refusal> {
    steps_after(list, path, None)
}

/// Reads a list of steps, which stands at a path. `last_crease` is the last crease made before it: a part that is not folded
/// again has its spine there.
fn steps_after(list: Vec<Value>, path: &str, last_crease: Option<Crease>) -> Result<Steps, Refusal> {
    let mut folds: Vec<Fold> = Vec::new();
    let count = list.len();
    for (i, step) in list.into_iter().enumerate() {
        let here = format!("{path}[{i}]");
        let last = i + 1 == count;
        if step.get("slit").is_some() {
            if !last {
                return Err(Refusal::new(
                    format!("{path}[{}]", i + 1),
                    "a slit ends its list; each part has a list of its own",
                ));
            }
            let last_crease = folds.last().map(|fold| fold.crease).or(last_crease);
            return Ok(Steps { folds, end: End::Slit(Box::new(slit(step, &here, last_crease)?)) });
        }
        if step.get("head").is_some() {
            let Head { head } = part(step, &here)?;
            if !last {
                return Err(Refusal::new(format!("{path}[{}]", i + 1), "the head is the last step of a piece"));
            }
            return Ok(Steps { folds, end: End::Piece { head } });
        }
        folds.push(part(step, &here)?);
    }
    let head = match folds.last().map(|fold| fold.crease).or(last_crease) {
        Some(Crease::Horizontal) => Direction::Right,
        _ => Direction::Up,
    };
    Ok(Steps { folds, end: End::Piece { head } })
}

fn slit(mut step: Value, path: &str, last_crease: Option<Crease>) -> Result<Slit, Refusal> {
    // The lists are taken out before the rest is read: what lies deep in a request is then not gone over at every slit.
    let mut take =
        |part: &str| step.get_mut(part).and_then(Value::as_array_mut).map(std::mem::take).unwrap_or_default();
    let [left, right, top, bottom] = PARTS.map(&mut take);
    let Runs { slit: crease } = part(step.clone(), path)?;
    let (after, names, [first, second]) = match crease {
        Crease::Vertical => (part::<Upright>(step, path)?.after, ["left", "right"], [left, right]),
        Crease::Horizontal => (part::<Level>(step, path)?.after, ["top", "bottom"], [top, bottom]),
    };
    let first = steps_after(first, &format!("{path}.{}", names[0]), last_crease)?;
    let second = steps_after(second, &format!("{path}.{}", names[1]), last_crease)?;
    Ok(Slit { crease, after, then: Parted::Apart { first, second } })
}

/// Reads the order of the pieces.
pub(super) fn gather(list: Vec<Value>) -> Result<Vec<Nest>, Refusal> {
    let nest = |(i, value): (usize, Value)| {
        let here = format!("gather[{i}]");
        if value.is_object() {
            return part::<Inset>(value, &here).map(|nest| nest.inset);
        }
        match value.as_u64().and_then(|n| usize::try_from(n).ok()) {
            Some(piece) => Ok(vec![piece]),
            None => Err(Refusal::new(here, "this should be the number of a piece, or {\"inset\": [numbers]}")),
        }
    };
    list.into_iter().enumerate().map(nest).collect()
}

/// Reads a part of the request that stands at a path.
fn part<T: DeserializeOwned>(value: Value, path: &str) -> Result<T, Refusal> {
    serde_path_to_error::deserialize(value).map_err(|why| Refusal::shape(&why).under(path))
}
