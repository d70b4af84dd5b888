//! `dummy`: a folding dummy to be printed on both sides.

use super::error::Refusal;
use super::link_scene::AskedSheet;
use crate::fold::misfold::Cause;
use crate::fold::{Course, Measure, Scheme, courses};
use crate::paper::Length;
use crate::print::{Document, Dummy, Made, Printer, dummy};
use serde::Deserialize;

/// The request: a scheme, or a course by its trade name.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    sheet: Sheet,
    #[serde(default)]
    true_size: bool,
    fault: Option<Cause>,
    #[serde(default = "by_figures")]
    made: Made,
    #[serde(default)]
    printer: Printer,
}

const fn by_figures() -> Made {
    Made::ByFigures
}

/// The sheet of a dummy or of a set of cards.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Sheet {
    scheme: Option<Scheme>,
    course: Option<String>,
    whole: Option<AskedSheet>,
    #[serde(default)]
    oblong: bool,
    name: Option<String>,
    #[serde(default = "super::explain_section::one")]
    first_page: u32,
    columns_mm: Option<Vec<f64>>,
    rows_mm: Option<Vec<f64>>,
}

impl Sheet {
    pub(super) fn dummy(self) -> Result<Dummy, Refusal> {
        let pages = |panels: u32| format!("{} pages", panels.saturating_mul(2));
        let (course, called, oblong) = match (self.scheme, self.course, self.whole) {
            (Some(scheme), None, None) => {
                scheme.check_size().map_err(|why| Refusal::fold("scheme", &why))?;
                (Course::of_scheme(&scheme), pages(scheme.rows * scheme.columns), self.oblong)
            }
            (None, None, Some(whole)) => {
                let course = whole.course("whole.steps")?;
                let panels = course.rows.saturating_mul(course.columns);
                (course, pages(panels), self.oblong)
            }
            (None, Some(name), None) => {
                let found = courses().into_iter().find(|c| c.name == name);
                let Some(found) = found else {
                    return Err(Refusal::new("course", "there is no course of this name in the library"));
                };
                (found.course, name, found.oblong)
            }
            _ => {
                let says = "a sheet has a `scheme`, the name of a `course`, or all that is done to it as `whole`: one of the three";
                return Err(Refusal::new("", says));
            }
        };
        let measure = match (self.columns_mm, self.rows_mm) {
            (None, None) => None,
            (Some(columns), Some(rows)) => {
                let all = |mm: Vec<f64>| mm.into_iter().map(Length::from_mm).collect();
                Some(Measure { columns: all(columns), rows: all(rows) })
            }
            _ => return Err(Refusal::new("", "`columns_mm` and `rows_mm` are given together")),
        };
        let name: String = self.name.unwrap_or(called).chars().take(200).collect();
        Ok(Dummy { name, course, first_page: self.first_page, oblong, measure, true_size: false, fault: None })
    }
}

pub(super) fn document(ask: Ask) -> Result<Document, Refusal> {
    let asked = Dummy {
        true_size: ask.true_size,
        fault: ask.fault.map(|cause| (cause, ask.made)),
        ..ask.sheet.dummy().map_err(|refused| refused.under("sheet"))?
    };
    ask.printer.check().map_err(|refused| Refusal::from(refused).under("printer"))?;
    dummy(&asked, &ask.printer).map_err(|refused| {
        let at = match refused.at.as_str() {
            "fault" => "fault",
            "first_page" => "sheet.first_page",
            "measure" => "sheet.columns_mm",
            _ => "sheet",
        };
        Refusal::new(at, refused.says)
    })
}
