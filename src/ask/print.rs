//! `print`: documents on paper other than folding dummies.

use super::dummy::Sheet;
use super::error::Refusal;
use crate::fold::Side;
use crate::fold::misfold::Cause;
use crate::marks::BackMarks;
use crate::paper::{Edge, Press};
use crate::practice::{Entry, Logbook};
use crate::print::{
    Document, MarkSheet, Paper, Printer, fault_cards, lines, logbook_page, mark_sheet, scene_in_words, scenes, strips,
    test_page,
};
use crate::report::Report;
use crate::scene::{report_sheet, setup_sheet};
use crate::setup::{CAUTIONS, Inputs, set_up};
use serde::Deserialize;

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    what: What,
    #[serde(default)]
    printer: Printer,
}

/// What is printed.
#[derive(Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
enum What {
    /// The test page of the printer.
    TestPage,
    /// Spine strips with back marks.
    Strips { sections: u32, marks: BackMarks },
    /// The report to hand in.
    Report { report: Box<Report> },
    /// A job ticket: labels and values.
    Ticket {
        title: String,
        rows: Vec<[String; 2]>,
        #[serde(default)]
        sign: Vec<String>,
    },
    /// The folder's set-up sheet.
    SetUp {
        sheet: Sheet,
        #[serde(default = "side_a")]
        side_up: Side,
        #[serde(default)]
        gripper: Option<Edge>,
        #[serde(default)]
        side_lay: Option<Edge>,
    },
    /// The mark sheet: the staircase at true size, and where the bars lie on the flat sheet.
    Marks {
        #[serde(default)]
        title: String,
        sections: u32,
        marks: Box<BackMarks>,
        #[serde(default)]
        trims_mm: [f64; 2],
        sheet: Option<Box<Sheet>>,
    },
    /// The logbook, to be handed in.
    Logbook {
        logbook: Vec<Entry>,
        #[serde(default)]
        name: String,
        #[serde(default)]
        date: String,
    },
    /// Fault cards and their key.
    Cards { sheet: Sheet, faults: Vec<Option<Cause>> },
}

const fn side_a() -> Side {
    Side::A
}

/// Who signs a set-up sheet.
const SET_UP_SIGN: [&str; 2] = ["Set by", "First section passed by"];

/// Longer titles are cut.
const MAX_TITLE: usize = 80;
/// The most lines of a ticket.
const MAX_ROWS: usize = 500;

pub(super) fn document(ask: Ask) -> Result<Document, Refusal> {
    let Ask { what, printer } = ask;
    let paper: Paper = printer.paper;
    let in_what = |refused: crate::marks::Refusal| Refusal::from(refused).under("what");
    printer.check().map_err(|refused| Refusal::from(refused).under("printer"))?;
    Ok(match what {
        What::TestPage => test_page(&printer).map_err(|refused| Refusal::from(refused).under("printer"))?,
        What::Strips { sections, marks } => strips(&marks, sections, paper).map_err(in_what)?,
        What::Report { report } => {
            report.check().map_err(|refused| Refusal::from(refused).under("what.report"))?;
            let sheet = report.sheet();
            scenes(&sheet.heading, &report_sheet(&sheet), paper)
        }
        What::Ticket { title, rows, sign } => {
            if rows.len() > MAX_ROWS || sign.len() > MAX_ROWS {
                return Err(Refusal::new("what.rows", format!("a ticket has {MAX_ROWS} lines at the most")));
            }
            let rows: Vec<(String, String)> = rows.into_iter().map(|[label, value]| (label, value)).collect();
            lines(&title, &rows, &sign, paper)
        }
        What::SetUp { sheet, side_up, gripper, side_lay } => {
            let sheet = sheet.dummy().map_err(|refused| refused.under("what.sheet"))?;
            let Some(measure) = sheet.measure else {
                return Err(Refusal::new("what.sheet", "a set-up sheet needs `columns_mm` and `rows_mm`"));
            };
            let fits = (measure.rows.len(), measure.columns.len())
                == (sheet.course.rows as usize, sheet.course.columns as usize);
            if !fits || sheet.course.rows.saturating_mul(sheet.course.columns) > crate::print::MAX_DUMMY_PANELS {
                let says = "there is a width for every column and a height for every row, 256 panels at the most";
                return Err(Refusal::new("what.sheet", says));
            }
            let usual = Press::default();
            let press = Press {
                gripper: gripper.unwrap_or(usual.gripper),
                side_lay: side_lay.unwrap_or(usual.side_lay),
                ..usual
            };
            press.check().map_err(|why| Refusal::new("what.side_lay", why))?;
            let inputs = Inputs { course: &sheet.course, measure: &measure, press, side_up, sheets: None };
            let made = set_up(&inputs).map_err(|why| Refusal::new("what.sheet", why.to_string()))?;
            let title = format!("Set-up sheet: {}", sheet.name);
            let sign = SET_UP_SIGN.map(str::to_owned);
            scene_in_words(&title, &setup_sheet(&made), &CAUTIONS, &made.lines(), &sign, paper)
        }
        What::Marks { title, sections, marks, trims_mm: [head, foot], sheet } => {
            let title = title.chars().take(MAX_TITLE).collect();
            let sheet = match sheet {
                Some(sheet) => {
                    let sheet = sheet.dummy().map_err(|refused| refused.under("what.sheet"))?;
                    let says = "where bars lie on the flat sheet is reckoned from `columns_mm` and `rows_mm`";
                    let measure = sheet.measure.ok_or_else(|| Refusal::new("what.sheet", says))?;
                    Some((sheet.course, measure))
                }
                None => None,
            };
            let asked = MarkSheet { title, marks: *marks, sections, trims_mm: (head, foot), sheet };
            mark_sheet(&asked, paper).map_err(in_what)?
        }
        What::Logbook { logbook, name, date } => {
            let logbook = Logbook::of(logbook).map_err(|why| Refusal::new(why.at, why.says).under("what"))?;
            logbook_page(&logbook, &name, &date, paper).map_err(in_what)?
        }
        What::Cards { sheet, faults } => {
            let base = sheet.dummy().map_err(|refused| refused.under("what.sheet"))?;
            fault_cards(&base, &faults, &printer).map_err(in_what)?
        }
    })
}
