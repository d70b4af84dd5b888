//! `blind_spots`: what the marks of a design can't show in a book, found by acting out what can be wrong with it.

use super::error::Refusal;
use crate::gather::blind::{self, BlindSpots};
use crate::marks::{BackMarks, Backs, MOST_LETTERS};
use serde::Deserialize;

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    sections: u32,
    marks: BackMarks,
    #[serde(default)]
    backs: Backs,
    #[serde(default)]
    title: String,
}

pub(super) fn answer(ask: &Ask) -> Result<BlindSpots, Refusal> {
    let Backs { thickness_mm, folds, head_trim_mm, foot_trim_mm } = ask.backs;
    let lengths = [("thickness_mm", thickness_mm), ("head_trim_mm", head_trim_mm), ("foot_trim_mm", foot_trim_mm)];
    for (field, length) in lengths {
        if length.is_some_and(|length| !(0.0..=500.0).contains(&length)) {
            return Err(Refusal::new(format!("backs.{field}"), "This is a length of 0 to 500 mm."));
        }
    }
    if folds > 20 {
        return Err(Refusal::new("backs.folds", "A sheet is folded at most 20 times."));
    }
    if ask.title.chars().count() > MOST_LETTERS {
        return Err(Refusal::new("title", format!("A short title has at most {MOST_LETTERS} letters.")));
    }
    blind::blind_spots(ask.sections, &ask.marks, &ask.backs, &ask.title).map_err(Refusal::from)
}
