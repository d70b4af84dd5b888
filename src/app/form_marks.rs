//! The back marks as JSON and back, in the job file and in questions to the worker: as the ask protocol words them.

use super::part::{Part, Refused, word_for};
use crate::json::Json;
use crate::marks::{AfterWrap, BackMarks, Design, HeadMarks, Inset, Label, Runs, SeenBack, Towards};

const RUNS: [(&str, Runs); 2] = [("down", Runs::Down), ("up", Runs::Up)];
const TOWARDS: [(&str, Towards); 2] = [("front", Towards::Front), ("back", Towards::Back)];

/// The staircase, and beside it only what is not usual.
pub(super) fn design_json(marks: &BackMarks) -> Json {
    let (d, plain) = (&marks.stairs, BackMarks::from(marks.stairs));
    let mut members = vec![
        ("spine_mm".to_owned(), d.spine_mm.into()),
        ("first_mm".to_owned(), d.first_mm.into()),
        ("step_mm".to_owned(), d.step_mm.into()),
        ("length_mm".to_owned(), d.length_mm.into()),
        ("levels".to_owned(), d.levels.into()),
    ];
    let mut unusual = |name: &str, value: Option<Json>| members.extend(value.map(|value| (name.to_owned(), value)));
    unusual("width_mm", (marks.width_mm != plain.width_mm).then(|| marks.width_mm.into()));
    unusual("runs", (marks.runs != plain.runs).then(|| word_for(&RUNS, &marks.runs)));
    unusual(
        "after_wrap",
        match marks.after_wrap {
            AfterWrap::Again => None,
            AfterWrap::Column { apart_mm } => Some(one("column", Json::object([("apart_mm", apart_mm.into())]))),
            AfterWrap::Width { width_mm } => Some(one("width", Json::object([("width_mm", width_mm.into())]))),
        },
    );
    unusual("ends_mm", marks.ends_mm.map(Json::from));
    unusual("label", marks.label.as_ref().map(label_json));
    unusual(
        "inset",
        match marks.inset {
            Inset::Plain => None,
            Inset::Sheets { sheets, head } => {
                let head = head.map_or(Json::Null, |head| head_json(&head));
                Some(one("sheets", Json::object([("sheets", sheets.into()), ("head", head)])))
            }
            Inset::Through { head } => Some(one("through", Json::object([("head", head_json(&head))]))),
        },
    );
    Json::Object(members)
}

fn one(name: &str, value: Json) -> Json {
    Json::Object(vec![(name.to_owned(), value)])
}

fn label_json(label: &Label) -> Json {
    Json::object([
        ("number", label.number.into()),
        ("of_how_many", label.of_how_many.into()),
        ("title", label.title.as_str().into()),
        ("from_mm", label.from_mm.into()),
        ("size_mm", label.size_mm.into()),
    ])
}

fn head_json(head: &HeadMarks) -> Json {
    Json::object([
        ("first_mm", head.first_mm.into()),
        ("step_mm", head.step_mm.into()),
        ("length_mm", head.length_mm.into()),
        ("depth_mm", head.depth_mm.into()),
    ])
}

/// Reads back marks. Forms 1 to 3 knew the five numbers of the staircase alone.
pub(super) fn read_design(part: &Part<'_>) -> Result<BackMarks, Refused> {
    part.only(&[
        "spine_mm",
        "first_mm",
        "step_mm",
        "length_mm",
        "levels",
        "width_mm",
        "runs",
        "after_wrap",
        "ends_mm",
        "label",
        "inset",
    ])?;
    let stairs = Design {
        spine_mm: mm(part, "spine_mm")?,
        first_mm: mm(part, "first_mm")?,
        step_mm: mm(part, "step_mm")?,
        length_mm: mm(part, "length_mm")?,
        levels: part.member("levels")?.whole_number()?,
    };
    let plain = BackMarks::from(stairs);
    let given = |name: &str| part.maybe(name).filter(|p| !p.is_null());
    Ok(BackMarks {
        width_mm: given("width_mm").map_or(Ok(plain.width_mm), |p| p.number())?,
        runs: given("runs").map_or(Ok(plain.runs), |p| p.word(&RUNS))?,
        after_wrap: given("after_wrap").map_or(Ok(plain.after_wrap), |p| read_after_wrap(&p))?,
        ends_mm: given("ends_mm").map(|p| p.number()).transpose()?,
        label: given("label").map(|p| read_label(&p)).transpose()?,
        inset: given("inset").map_or(Ok(plain.inset), |p| read_inset(&p))?,
        ..plain
    })
}

fn mm(part: &Part<'_>, name: &str) -> Result<f64, Refused> {
    part.member(name)?.number()
}

fn read_after_wrap(part: &Part<'_>) -> Result<AfterWrap, Refused> {
    if let Some(column) = part.maybe("column") {
        return Ok(AfterWrap::Column { apart_mm: mm(&column, "apart_mm")? });
    }
    if let Some(width) = part.maybe("width") {
        return Ok(AfterWrap::Width { width_mm: mm(&width, "width_mm")? });
    }
    part.word(&[("again", AfterWrap::Again)])
}

fn read_label(part: &Part<'_>) -> Result<Label, Refused> {
    part.only(&["number", "of_how_many", "title", "from_mm", "size_mm"])?;
    Ok(Label {
        number: part.member("number")?.truth()?,
        of_how_many: part.maybe("of_how_many").map_or(Ok(false), |p| p.truth())?,
        title: part.maybe("title").map_or(Ok(""), |p| p.text())?.to_owned(),
        from_mm: mm(part, "from_mm")?,
        size_mm: mm(part, "size_mm")?,
    })
}

fn read_inset(part: &Part<'_>) -> Result<Inset, Refused> {
    if let Some(of) = part.maybe("sheets") {
        let head = of.maybe("head").filter(|p| !p.is_null()).map(|p| read_head(&p)).transpose()?;
        return Ok(Inset::Sheets { sheets: of.member("sheets")?.whole_number()?, head });
    }
    if let Some(through) = part.maybe("through") {
        return Ok(Inset::Through { head: read_head(&through.member("head")?)? });
    }
    part.word(&[("plain", Inset::Plain)])
}

fn read_head(part: &Part<'_>) -> Result<HeadMarks, Refused> {
    part.only(&["first_mm", "step_mm", "length_mm", "depth_mm"])?;
    Ok(HeadMarks {
        first_mm: mm(part, "first_mm")?,
        step_mm: mm(part, "step_mm")?,
        length_mm: mm(part, "length_mm")?,
        depth_mm: mm(part, "depth_mm")?,
    })
}

/// What is seen on a back, for the worker: the heights, and what else there is.
pub(super) fn back_json(back: &SeenBack) -> Json {
    let heights = back.marks_mm.as_ref().map_or(Json::Null, |m| Json::list(m.iter().map(|m| Json::Number(*m))));
    let mut members = vec![("marks_mm".to_owned(), heights)];
    let mut noted = |name: &str, value: Option<Json>| members.extend(value.map(|value| (name.to_owned(), value)));
    noted("towards", back.towards.map(|towards| word_for(&TOWARDS, &towards)));
    noted("width_mm", back.width_mm.map(Json::from));
    noted("length_mm", back.length_mm.map(Json::from));
    noted("number", back.number.map(Json::from));
    noted("title_ours", back.title_ours.map(Json::from));
    noted("upside_down", back.upside_down.map(Json::from));
    Json::Object(members)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Both writers and both readers of a design agree.
    #[test]
    fn marks_are_written_as_the_protocol_has_them() {
        let stairs = Design::default();
        let head = HeadMarks { first_mm: 10.0, step_mm: 5.0, length_mm: 4.0, depth_mm: 3.0 };
        let title = String::from("Almanac");
        let label = Label { number: true, of_how_many: true, title, from_mm: 2.0, size_mm: 2.5 };
        let all = [
            BackMarks::default(),
            BackMarks { width_mm: 1.5, runs: Runs::Up, ends_mm: Some(12.0), ..stairs.into() },
            BackMarks { after_wrap: AfterWrap::Column { apart_mm: 3.0 }, label: Some(label), ..stairs.into() },
            BackMarks {
                after_wrap: AfterWrap::Width { width_mm: 4.0 },
                inset: Inset::Through { head },
                ..stairs.into()
            },
            BackMarks { inset: Inset::Sheets { sheets: 2, head: None }, ..stairs.into() },
            BackMarks { inset: Inset::Sheets { sheets: 3, head: Some(head) }, ..stairs.into() },
        ];
        for marks in all {
            let json = design_json(&marks);
            assert_eq!(read_design(&Part::whole(&json)).unwrap(), marks);
            let text = json.write();
            assert_eq!(serde_json::from_str::<BackMarks>(&text).unwrap(), marks, "{text}");
            let written = Json::parse(&serde_json::to_string(&marks).unwrap()).unwrap();
            assert_eq!(read_design(&Part::whole(&written)).unwrap(), marks);
            let back = SeenBack::of(&marks, 3, 20, crate::marks::Lies::HeadToTail);
            let text = back_json(&back).write();
            assert_eq!(serde_json::from_str::<SeenBack>(&text).unwrap(), back, "{text}");
        }
    }

    #[test]
    fn what_is_no_design_is_refused_with_its_path() {
        let json = |text: &str| Json::parse(text).unwrap();
        let five = r#""spine_mm":216,"first_mm":20,"step_mm":9,"length_mm":9,"levels":20"#;
        for (more, at) in [
            (r#""runs":"sideways""#, "runs"),
            (r#""after_wrap":{"column":{}}"#, "after_wrap.column"),
            (r#""after_wrap":"never""#, "after_wrap"),
            (r#""label":{"number":1,"from_mm":2,"size_mm":3}"#, "label.number"),
            (r#""inset":{"sheets":{"sheets":1.5}}"#, "inset.sheets.sheets"),
            (r#""goes":1"#, ""),
        ] {
            let value = json(&format!("{{{five},{more}}}"));
            assert_eq!(read_design(&Part::whole(&value)).unwrap_err().0, at);
        }
        let old = json(&format!("{{{five}}}"));
        assert_eq!(read_design(&Part::whole(&old)).unwrap(), BackMarks::default());
    }
}
