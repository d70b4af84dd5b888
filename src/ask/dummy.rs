//! `dummy`: a folding dummy to be printed on both sides.

use super::error::Refusal;
use super::file::File;
use crate::fold::misfold::Cause;
use crate::fold::{Course, Measure, Scheme, courses};
use crate::paper::Length;
use crate::print::{Dummy, Made, Printer, dummy};
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
    name: Option<String>,
    #[serde(default = "super::explain_section::one")]
    first_page: u32,
    columns_mm: Option<Vec<f64>>,
    rows_mm: Option<Vec<f64>>,
}

impl Sheet {
    pub(super) fn dummy(self) -> Result<Dummy, Refusal> {
        let (course, called, oblong) = match (self.scheme, self.course) {
            (Some(scheme), None) => {
                scheme.check_size().map_err(|why| Refusal::fold("scheme", &why))?;
                (Course::of_scheme(&scheme), format!("{} pages", scheme.pages()), false)
            }
            (None, Some(name)) => {
                let found = courses().into_iter().find(|c| c.name == name);
                let Some(found) = found else {
                    return Err(Refusal::new("course", "there is no course of this name in the library"));
                };
                (found.course, name, found.oblong)
            }
            _ => return Err(Refusal::new("", "a dummy has a `scheme` or the name of a `course`, one of the two")),
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

pub(super) fn answer(ask: Ask) -> Result<File, Refusal> {
    let asked = Dummy {
        true_size: ask.true_size,
        fault: ask.fault.map(|cause| (cause, ask.made)),
        ..ask.sheet.dummy().map_err(|refused| refused.under("sheet"))?
    };
    ask.printer.check().map_err(|refused| Refusal::from(refused).under("printer"))?;
    let document = dummy(&asked, &ask.printer).map_err(|refused| {
        let at = match refused.at.as_str() {
            "fault" => "fault",
            "first_page" => "sheet.first_page",
            "measure" => "sheet.columns_mm",
            _ => "sheet",
        };
        Refusal::new(at, refused.says)
    })?;
    Ok(File::of(&document))
}
