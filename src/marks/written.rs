//! The written form of back marks: the five numbers of the staircase, and beside them only what is not usual. A plain
//! staircase is written as it ever was.

use serde::{Deserialize, Serialize};

use super::back_label::Label;
use super::back_marks::{AfterWrap, BackMarks, Inset, Runs, USUAL_WIDTH_MM};
use super::design::Design;

/// The fields as they stand in a request.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Written {
    spine_mm: f64,
    first_mm: f64,
    step_mm: f64,
    length_mm: f64,
    levels: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    width_mm: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    runs: Option<Runs>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    after_wrap: Option<AfterWrap>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    ends_mm: Option<f64>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    label: Option<Label>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    inset: Option<Inset>,
}

impl From<Written> for BackMarks {
    fn from(w: Written) -> Self {
        let Written { spine_mm, first_mm, step_mm, length_mm, levels, .. } = w;
        Self {
            stairs: Design { spine_mm, first_mm, step_mm, length_mm, levels },
            width_mm: w.width_mm.unwrap_or(USUAL_WIDTH_MM),
            runs: w.runs.unwrap_or_default(),
            after_wrap: w.after_wrap.unwrap_or_default(),
            ends_mm: w.ends_mm,
            label: w.label,
            inset: w.inset.unwrap_or_default(),
        }
    }
}

impl From<BackMarks> for Written {
    fn from(marks: BackMarks) -> Self {
        let Design { spine_mm, first_mm, step_mm, length_mm, levels } = marks.stairs;
        Self {
            spine_mm,
            first_mm,
            step_mm,
            length_mm,
            levels,
            width_mm: Some(marks.width_mm).filter(|&width| width != USUAL_WIDTH_MM),
            runs: Some(marks.runs).filter(|&runs| runs != Runs::default()),
            after_wrap: Some(marks.after_wrap).filter(|&after| after != AfterWrap::default()),
            ends_mm: marks.ends_mm,
            label: marks.label,
            inset: Some(marks.inset).filter(|&inset| inset != Inset::default()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plain_staircase_is_written_as_its_five_numbers() {
        let text = r#"{"spine_mm":216.0,"first_mm":20.0,"step_mm":9.0,"length_mm":9.0,"levels":20}"#;
        assert_eq!(serde_json::to_string(&BackMarks::default()).unwrap(), text);
        assert_eq!(serde_json::from_str::<BackMarks>(text).unwrap(), BackMarks::default());
    }

    #[test]
    fn everything_is_written_and_read_back() {
        let text = r#"{"spine_mm":216.0,"first_mm":20.0,"step_mm":9.0,"length_mm":9.0,"levels":20,"width_mm":1.5,"runs":"up","after_wrap":{"column":{"apart_mm":2.0}},"ends_mm":12.0,"label":{"number":true,"title":"Almanac","from_mm":2.0,"size_mm":2.5},"inset":{"sheets":{"sheets":2,"head":{"first_mm":10.0,"step_mm":5.0,"length_mm":4.0,"depth_mm":3.0}}}}"#;
        let marks = serde_json::from_str::<BackMarks>(text).unwrap();
        assert_eq!(serde_json::to_string(&marks).unwrap(), text);
        assert_eq!(marks.after_wrap, AfterWrap::Column { apart_mm: 2.0 });
        assert!(serde_json::from_str::<BackMarks>(&text.replace("runs", "goes")).is_err());
    }
}
