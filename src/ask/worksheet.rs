//! `worksheet`: exercises on paper, in variants, with their key.

use super::error::Refusal;
use super::file::File;
use crate::practice::{LEVELS, Wanted, Worksheet, mixed};
use crate::print::{Document, Paper, PrintedWorksheet, WorksheetLook, worksheet, worksheet_key};
use serde::{Deserialize, Serialize};

/// The request: what is wanted, or the codes of a sheet that is made again; without either, the mixed worksheet.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    exercises: Option<Vec<Wanted>>,
    level: Option<u8>,
    codes: Option<Vec<Vec<String>>>,
    seed: Option<u64>,
    variants: Option<u32>,
    #[serde(default = "yes")]
    key: bool,
    #[serde(default)]
    title: String,
    #[serde(default)]
    class: String,
    #[serde(default)]
    date: String,
    #[serde(default)]
    paper: Paper,
    #[serde(default)]
    both_sides: bool,
}

const fn yes() -> bool {
    true
}

/// The level of the mixed worksheet, unless another one is given: a sixteen of three folds.
const USUAL_LEVEL: u8 = 3;

/// The answer: the file of the sheets, and that of the key.
#[derive(Serialize)]
pub(super) struct Answer {
    #[serde(flatten)]
    file: File,
    /// How many pages each variant takes.
    pages_of: Vec<usize>,
    codes: Vec<Vec<String>>,
    key: Option<File>,
}

pub(super) fn answer(ask: Ask) -> Result<Answer, Refusal> {
    let (sheet, printed, key) = printed(ask)?;
    Ok(Answer {
        file: File::of(&printed.sheet),
        pages_of: printed.pages,
        codes: sheet.codes(),
        key: key.map(|key| File::of(&key.sheet)),
    })
}

/// The document that is looked at: the key where one is wanted, or else the sheets.
pub(super) fn document(ask: Ask) -> Result<Document, Refusal> {
    let (_, printed, key) = printed(ask)?;
    Ok(key.unwrap_or(printed).sheet)
}

fn printed(ask: Ask) -> Result<(Worksheet, PrintedWorksheet, Option<PrintedWorksheet>), Refusal> {
    let Ask { exercises, level, codes, seed, variants, key, title, class, date, paper, both_sides } = ask;
    let alone = |at: &str, given: bool| {
        let says = "codes hold kinds, levels and seeds of every variant; give them alone";
        if given { Err(Refusal::new(at, says)) } else { Ok(()) }
    };
    let sheet = if let Some(codes) = codes {
        alone("exercises", exercises.is_some())?;
        alone("level", level.is_some())?;
        alone("seed", seed.is_some())?;
        alone("variants", variants.is_some())?;
        Worksheet::of_codes(&codes)
    } else {
        if exercises.is_some() && level.is_some() {
            return Err(Refusal::new("level", "each of the exercises has a level of its own"));
        }
        if level.is_some_and(|level| !(1..=LEVELS).contains(&level)) {
            return Err(Refusal::new("level", format!("Exercises have levels 1 to {LEVELS}.")));
        }
        let wanted = exercises.unwrap_or_else(|| mixed(level.unwrap_or(USUAL_LEVEL)).to_vec());
        Worksheet::of(&wanted, seed.unwrap_or(1), variants.unwrap_or(1))
    };
    let sheet = sheet.map_err(Refusal::from)?;
    let look = WorksheetLook { title, class, date, paper, both_sides };
    let all = if sheet.seed.is_some() { "variants" } else { "codes" };
    let too_long = |why: crate::marks::Refusal| Refusal::new(all, why.says);
    let printed = worksheet(&sheet, &look).map_err(too_long)?;
    let key = if key { Some(worksheet_key(&sheet, &look).map_err(too_long)?) } else { None };
    Ok((sheet, printed, key))
}
