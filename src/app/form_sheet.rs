//! The sheet in the job file: its course, the sizes of its panels, and lengths.

use super::form::{CREASES, EDGES, HALVES, LANDS, READS, fold_json, given, read_fold};
use super::job::Paper;
use super::part::{Part, Refused, word_for};
use super::sections::usual_measure;
use super::sheet::Sheet;
use crate::fold::{Course, Crease, Direction, End, MAX_PANELS, Measure, Nest, Parted, Slit, Steps};
use crate::json::Json;
use crate::paper::{Edge, Grain, Length, Margins, Press, Stock, Trims, Unit};

pub(super) fn sheet_json(sheet: &Sheet) -> Json {
    Json::object([("course", course_json(&sheet.course)), ("measure", measure_json(&sheet.measure))])
}

pub(super) fn read_sheet(part: &Part<'_>) -> Result<Sheet, Refused> {
    part.only(&["course", "measure"])?;
    read_sheet_parts(part)
}

/// A sheet from what holds its parts, and may hold more.
pub(super) fn read_sheet_parts(part: &Part<'_>) -> Result<Sheet, Refused> {
    let course = read_course(&part.member("course")?)?;
    let measure = match given(part, "measure") {
        Some(measure) if course.rows.saturating_mul(course.columns) <= MAX_PANELS => read_measure(&measure, &course)?,
        // A sheet too large to be is refused later.
        _ if course.rows.saturating_mul(course.columns) > MAX_PANELS => Measure::equal(1, 1, Length::MM, Length::MM),
        _ => usual_measure(&course),
    };
    Ok(Sheet { course, measure })
}

pub(super) fn course_json(course: &Course) -> Json {
    let number = |piece: &usize| Json::from(u32::try_from(*piece).unwrap_or(u32::MAX));
    let nest = |nest: &Nest| Json::list(nest.iter().map(number));
    let copy = |copy: &Vec<Nest>| Json::list(copy.iter().map(nest));
    Json::object([
        ("rows", course.rows.into()),
        ("columns", course.columns.into()),
        ("steps", steps_json(&course.steps)),
        ("copies", Json::list(course.copies.iter().map(copy))),
        ("reads", word_for(&READS, &course.reads)),
    ])
}

pub(super) fn read_course(part: &Part<'_>) -> Result<Course, Refused> {
    part.only(&["rows", "columns", "steps", "copies", "reads"])?;
    let nest = |part: &Part<'_>| -> Result<Nest, Refused> {
        part.list()?.iter().map(|p| p.whole_number().map(|n| n as usize)).collect()
    };
    let copy = |part: &Part<'_>| part.list()?.iter().map(nest).collect::<Result<Vec<_>, _>>();
    Ok(Course {
        rows: part.member("rows")?.whole_number()?,
        columns: part.member("columns")?.whole_number()?,
        steps: read_steps(&part.member("steps")?)?,
        copies: part.member("copies")?.list()?.iter().map(copy).collect::<Result<_, _>>()?,
        reads: part.member("reads")?.word(&READS)?,
    })
}

fn steps_json(steps: &Steps) -> Json {
    let mut all: Vec<Json> = steps.folds.iter().map(fold_json).collect();
    all.push(match &steps.end {
        End::Piece { head } => Json::object([("head", word_for(&EDGES, head))]),
        End::Slit(slit) => {
            let mut members =
                vec![("slit".to_owned(), word_for(&CREASES, &slit.crease)), ("after".to_owned(), slit.after.into())];
            match &slit.then {
                Parted::Apart { first, second } => {
                    let [a, b] = sides(slit.crease);
                    members.extend([(a.to_owned(), steps_json(first)), (b.to_owned(), steps_json(second))]);
                }
                Parted::Laid { moves, lands, then } => members.extend([
                    ("moves".to_owned(), word_for(&HALVES, moves)),
                    ("lands".to_owned(), word_for(&LANDS, lands)),
                    ("then".to_owned(), steps_json(then)),
                ]),
            }
            Json::Object(members)
        }
    });
    Json::List(all)
}

fn read_steps(part: &Part<'_>) -> Result<Steps, Refused> {
    let list = part.list()?;
    let Some((last, folds)) = list.split_last() else { return part.refuse("must end with a head or a slit") };
    let folds = folds.iter().map(read_fold).collect::<Result<_, _>>()?;
    if let Some(head) = last.maybe("head") {
        last.only(&["head"])?;
        let head: Direction = head.word(&EDGES)?;
        return Ok(Steps { folds, end: End::Piece { head } });
    }
    let crease = last.member("slit")?.word(&CREASES)?;
    let after = last.member("after")?.whole_number()?;
    let then = if last.maybe("then").is_some() {
        last.only(&["slit", "after", "moves", "lands", "then"])?;
        Parted::Laid {
            moves: last.member("moves")?.word(&HALVES)?,
            lands: last.member("lands")?.word(&LANDS)?,
            then: read_steps(&last.member("then")?)?,
        }
    } else {
        let [a, b] = sides(crease);
        last.only(&["slit", "after", a, b])?;
        Parted::Apart { first: read_steps(&last.member(a)?)?, second: read_steps(&last.member(b)?)? }
    };
    Ok(Steps { folds, end: End::Slit(Box::new(Slit { crease, after, then })) })
}

/// What the two parts of a slit sheet are called.
const fn sides(crease: Crease) -> [&'static str; 2] {
    match crease {
        Crease::Vertical => ["left", "right"],
        Crease::Horizontal => ["top", "bottom"],
    }
}

pub(super) fn measure_json(measure: &Measure) -> Json {
    let (rows, columns) = (measure.rows.len() as u32, measure.columns.len() as u32);
    if *measure == Measure::equal(rows, columns, measure.width(), measure.height()) {
        return Json::object([("width", length_json(measure.width())), ("height", length_json(measure.height()))]);
    }
    let sizes = |all: &[Length]| Json::list(all.iter().map(|l| length_json(*l)));
    Json::object([("columns", sizes(&measure.columns)), ("rows", sizes(&measure.rows))])
}

/// The sizes of so many panels: all of them, or the sheet that they share equally.
pub(super) fn read_measure(part: &Part<'_>, course: &Course) -> Result<Measure, Refused> {
    if part.maybe("width").is_some() {
        part.only(&["width", "height"])?;
        let size = |name| read_length(&part.member(name)?);
        return Ok(Measure::equal(course.rows, course.columns, size("width")?, size("height")?));
    }
    part.only(&["columns", "rows"])?;
    let sizes = |part: Part<'_>| part.list()?.iter().map(read_length).collect::<Result<Vec<_>, _>>();
    Ok(Measure { columns: sizes(part.member("columns")?)?, rows: sizes(part.member("rows")?)? })
}

const EDGES_OF_SHEET: [(&str, Edge); 4] =
    [("top", Edge::Top), ("right", Edge::Right), ("bottom", Edge::Bottom), ("left", Edge::Left)];
const GRAINS: [(&str, Grain); 2] = [("upright", Grain::Upright), ("level", Grain::Level)];

pub(super) fn paper_json(paper: &Paper) -> Json {
    let Paper { stock, press, trims, margins } = paper;
    let mm = |name, length| (name, length_json(length));
    Json::object([
        ("grammage", stock.grammage.into()),
        ("bulk", stock.bulk.into()),
        ("grain", word_for(&GRAINS, &stock.grain)),
        ("gripper", word_for(&EDGES_OF_SHEET, &press.gripper)),
        ("side_lay", word_for(&EDGES_OF_SHEET, &press.side_lay)),
        mm("gripper_margin", press.gripper_margin),
        (
            "trims",
            Json::object([
                mm("head", trims.head),
                mm("foot", trims.foot),
                mm("fore_edge", trims.fore_edge),
                mm("bleed", trims.bleed),
            ]),
        ),
        (
            "margins",
            Json::object([
                mm("back", margins.back),
                mm("head", margins.head),
                mm("fore_edge", margins.fore_edge),
                mm("foot", margins.foot),
            ]),
        ),
    ])
}

pub(super) fn read_paper(part: &Part<'_>) -> Result<Paper, Refused> {
    part.only(&["grammage", "bulk", "grain", "gripper", "side_lay", "gripper_margin", "trims", "margins"])?;
    let (trims, margins) = (part.member("trims")?, part.member("margins")?);
    trims.only(&["head", "foot", "fore_edge", "bleed"])?;
    margins.only(&["back", "head", "fore_edge", "foot"])?;
    let length = |part: &Part<'_>, name: &str| read_length(&part.member(name)?);
    Ok(Paper {
        stock: Stock {
            grammage: part.member("grammage")?.number()?,
            bulk: part.member("bulk")?.number()?,
            grain: part.member("grain")?.word(&GRAINS)?,
        },
        press: Press {
            gripper: part.member("gripper")?.word(&EDGES_OF_SHEET)?,
            side_lay: part.member("side_lay")?.word(&EDGES_OF_SHEET)?,
            gripper_margin: length(part, "gripper_margin")?,
        },
        trims: Trims {
            head: length(&trims, "head")?,
            foot: length(&trims, "foot")?,
            fore_edge: length(&trims, "fore_edge")?,
            bleed: length(&trims, "bleed")?,
        },
        margins: Margins {
            back: length(&margins, "back")?,
            head: length(&margins, "head")?,
            fore_edge: length(&margins, "fore_edge")?,
            foot: length(&margins, "foot")?,
        },
    })
}

/// A length as a text in millimetres, since it has more decimals than other numbers keep.
pub(super) fn length_json(length: Length) -> Json {
    Json::Text(length.exact_text())
}

pub(super) fn read_length(part: &Part<'_>) -> Result<Length, Refused> {
    match part.text()?.strip_suffix(" mm").map(|text| Length::parse(text, Unit::Mm)) {
        Some(Ok(length)) => Ok(length),
        Some(Err(why)) => part.refuse(&format!("can't be: {why}")),
        None => part.refuse("must be a length in millimetres, as in “107.5 mm”"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_keep_every_nanometre() {
        for nm in [0, 1, 107_500_000, 793_750, 4_999_999_999] {
            let json = length_json(Length::from_nm(nm));
            assert_eq!(read_length(&Part::whole(&json)), Ok(Length::from_nm(nm)), "{json:?}");
        }
        for bad in ["", "5", "5 in", "1.2345678 mm", "1234567 mm", "- mm", "1.2.3 mm", "٣ mm"] {
            assert!(read_length(&Part::whole(&bad.into())).is_err(), "{bad}");
        }
    }
}
