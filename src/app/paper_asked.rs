//! Documents on paper: the questions to the worker (`dummy`, `print`, `worksheet`, `preview`), without the printer.
//!
//! A question is a value, so that whoever shows a document can compare it, add the printer and ask for the file or for a
//! picture of a page.

use super::form_marks::design_json;
use super::form_sheet::course_json;
use super::job::Job;
use super::part::{Part, Refused, word_for};
use super::sheet::Sheet;
use crate::fold::{Measure, Side};
use crate::json::Json;
use crate::marks::BackMarks;
use crate::paper::Press;
use crate::practice::{Entry, Kind};
use crate::print::{Flip, Made, Paper, Printer};
use crate::report::Report;
use serde::Serialize;

/// A sheet as `dummy` takes it; without its measure, all its panels are alike.
#[must_use]
pub fn paper_sheet(sheet: &Sheet, name: &str, first_page: u32, sizes: bool) -> Json {
    let (width, height) = sheet.leaf();
    let mut members = vec![
        ("whole".to_owned(), course_json(&sheet.course)),
        ("oblong".to_owned(), (width > height).into()),
        ("name".to_owned(), name.into()),
        ("first_page".to_owned(), first_page.into()),
    ];
    if sizes {
        let Measure { columns, rows } = &sheet.measure;
        let all = |lengths: &[crate::paper::Length]| Json::list(lengths.iter().map(|l| l.mm().into()));
        members.push(("columns_mm".into(), all(columns)));
        members.push(("rows_mm".into(), all(rows)));
    }
    Json::Object(members)
}

/// A folding dummy; a fault as the protocol words it, and how it is made.
#[must_use]
pub fn dummy_paper(sheet: Json, true_size: bool, fault: Option<(Json, Made)>) -> Json {
    let mut members = vec![
        ("ask".to_owned(), "dummy".into()),
        ("sheet".to_owned(), sheet),
        ("true_size".to_owned(), true_size.into()),
    ];
    if let Some((cause, made)) = fault {
        let made = if made == Made::ByFolds { "by_folds" } else { "by_figures" };
        members.push(("fault".into(), cause));
        members.push(("made".into(), made.into()));
    }
    Json::Object(members)
}

/// What `print` prints.
fn print<const N: usize>(what: [(&str, Json); N]) -> Json {
    Json::object([("ask", "print".into()), ("what", Json::object(what))])
}

/// The test page of the printer.
#[must_use]
pub fn test_page_paper() -> Json {
    print([("kind", "test_page".into())])
}

/// Fault cards and their key; `None` is a right one.
#[must_use]
pub fn cards_paper(sheet: Json, faults: &[Option<Json>]) -> Json {
    let fault = |fault: &Option<Json>| fault.clone().unwrap_or(Json::Null);
    print([("kind", "cards".into()), ("sheet", sheet), ("faults", Json::list(faults.iter().map(fault)))])
}

/// Spine strips.
#[must_use]
pub fn strips_paper(marks: &BackMarks, sections: u32) -> Json {
    print([("kind", "strips".into()), ("sections", sections.into()), ("marks", design_json(marks))])
}

/// The folder's set-up sheet.
#[must_use]
pub fn set_up_paper(sheet: &Sheet, name: &str, press: Press, side_up: Side) -> Json {
    print([
        ("kind", "set_up".into()),
        ("sheet", paper_sheet(sheet, name, 1, true)),
        ("side_up", if side_up == Side::A { "A" } else { "B" }.into()),
        ("gripper", press.gripper.word().into()),
        ("side_lay", press.side_lay.word().into()),
    ])
}

/// Worksheets, or their key.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorksheetWish {
    /// The exercises of each; the mixed worksheet of a level where none are named.
    pub exercises: Vec<(Kind, u8)>,
    /// That level.
    pub level: u8,
    /// The number that they are made from.
    pub seed: u32,
    /// How many that differ.
    pub variants: u32,
    /// The class, to stand at the head.
    pub class: String,
    /// The date, to stand there.
    pub date: String,
    /// Whether they are printed on both sides, so that each begins on a leaf of its own.
    pub both_sides: bool,
}

/// Worksheets, or the key to them.
#[must_use]
pub fn worksheet_paper(wish: &WorksheetWish, key: bool) -> Json {
    let mut members = vec![("ask".to_owned(), "worksheet".into())];
    if wish.exercises.is_empty() {
        members.push(("level".into(), u32::from(wish.level).into()));
    } else {
        let one = |(kind, level): &(Kind, u8)| {
            Json::object([("kind", word_for(&KINDS, kind)), ("level", u32::from(*level).into())])
        };
        members.push(("exercises".into(), Json::list(wish.exercises.iter().map(one))));
    }
    members.extend([
        ("seed".to_owned(), wish.seed.into()),
        ("variants".to_owned(), wish.variants.into()),
        ("key".to_owned(), key.into()),
        ("class".to_owned(), wish.class.as_str().into()),
        ("date".to_owned(), wish.date.as_str().into()),
        ("both_sides".to_owned(), wish.both_sides.into()),
    ]);
    Json::Object(members)
}

const KINDS: [(&str, Kind); 8] = [
    ("number_sheet", Kind::NumberSheet),
    ("set_heads", Kind::SetHeads),
    ("find_folds", Kind::FindFolds),
    ("wrong_sheet", Kind::WrongSheet),
    ("wrong_book", Kind::WrongBook),
    ("make_up", Kind::MakeUp),
    ("back_marks", Kind::BackMarks),
    ("bolts", Kind::Bolts),
];

/// A value as serde writes it.
fn written<T: Serialize + ?Sized>(value: &T) -> Json {
    serde_json::to_string(value).ok().and_then(|text| Json::parse(&text).ok()).unwrap_or(Json::Null)
}

/// A logbook, to be handed in by somebody on some day.
#[must_use]
pub fn logbook_paper(entries: &[Entry], name: &str, date: &str) -> Json {
    print([("kind", "logbook".into()), ("logbook", written(entries)), ("name", name.into()), ("date", date.into())])
}

/// The report on wrong books.
#[must_use]
pub fn report_paper(report: &Report) -> Json {
    print([("kind", "report".into()), ("report", written(report))])
}

impl Job {
    /// The staircase of the back marks at true size, and where its bars lie on the flat sheet.
    #[must_use]
    pub fn marks_paper(&self) -> Json {
        let (trims, name) = (&self.paper.trims, self.title.as_str());
        print([
            ("kind", "marks".into()),
            ("title", name.into()),
            ("sections", self.sections.into()),
            ("marks", design_json(&self.design)),
            ("trims_mm", Json::list([trims.head.mm().into(), trims.foot.mm().into()])),
            ("sheet", paper_sheet(&self.sheet, name, 1, true)),
        ])
    }

    /// The job ticket.
    #[must_use]
    pub fn ticket_paper(&self) -> Json {
        let row = |(label, value): (&'static str, String)| Json::list([label.into(), Json::Text(value)]);
        print([
            ("kind", "ticket".into()),
            ("title", Json::Text(format!("Job ticket: {}", self.title))),
            ("rows", Json::list(self.ticket().into_iter().map(row))),
            ("sign", Json::list(["Written by", "First section passed by"].map(Json::from))),
        ])
    }
}

/// A question with the printer it is for, as a line to be asked.
#[must_use]
pub fn paper_question(of: &Json, printer: &Printer) -> String {
    on_printer(of, printer).write()
}

/// The question for a picture of a page (from 1) of a document.
#[must_use]
pub fn preview_question(of: &Json, printer: &Printer, page: u32) -> String {
    Json::object([("ask", "preview".into()), ("of", on_printer(of, printer)), ("page", page.into())]).write()
}

fn on_printer(of: &Json, printer: &Printer) -> Json {
    let mut members = match of {
        Json::Object(members) => members.clone(),
        _ => Vec::new(),
    };
    // What is printed on one side only asks for nothing but the paper.
    members.push(if of.get("ask") == Some(&"worksheet".into()) {
        ("paper".into(), word_for(&PAPERS, &printer.paper))
    } else {
        ("printer".into(), printer_json(printer))
    });
    Json::Object(members)
}

const PAPERS: [(&str, Paper); 4] =
    [("a4", Paper::A4), ("a3", Paper::A3), ("letter", Paper::Letter), ("tabloid", Paper::Tabloid)];
const FLIPS: [(&str, Flip); 2] = [("long_edge", Flip::LongEdge), ("short_edge", Flip::ShortEdge)];

/// A printer as the protocol words it.
#[must_use]
pub fn printer_json(printer: &Printer) -> Json {
    let off = printer.off;
    Json::object([
        ("paper", word_for(&PAPERS, &printer.paper)),
        ("flip", word_for(&FLIPS, &printer.flip)),
        ("off", Json::object([("right_mm", off.right_mm.into()), ("down_mm", off.down_mm.into())])),
    ])
}

/// A printer as [`printer_json`] wrote it.
///
/// # Errors
/// If it is none that can be printed on.
pub fn read_printer(json: &Json) -> Result<Printer, String> {
    let part = Part::whole(json);
    let read = || -> Result<Printer, Refused> {
        let off = part.member("off")?;
        let off = crate::print::Off {
            right_mm: off.member("right_mm")?.number()?,
            down_mm: off.member("down_mm")?.number()?,
        };
        Ok(Printer { paper: part.member("paper")?.word(&PAPERS)?, flip: part.member("flip")?.word(&FLIPS)?, off })
    };
    let printer = read().map_err(|(at, says)| format!("{at} {says}"))?;
    printer.check().map_err(|why| why.says)?;
    Ok(printer)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{PaperTold, State, read_paper, read_preview};

    fn told(of: &Json) -> Result<PaperTold, String> {
        read_paper(&crate::ask::answer(&paper_question(of, &Printer::default())))
    }

    #[test]
    fn every_document_of_a_new_job_can_be_made_and_shown() {
        let job = State::default().job.clone();
        let (sheet, report) = (&job.sheet, Report { title: "A “quoted” title".into(), ..Report::default() });
        let cause = Json::object([("kind", "fold_other_way".into()), ("fold", 1_u32.into())]);
        let all = [
            (test_page_paper(), 2, "Printer test page"),
            (dummy_paper(paper_sheet(sheet, "Sixteen", 1, false), false, None), 2, "Sixteen"),
            (
                dummy_paper(paper_sheet(sheet, "Large", 17, true), true, Some((cause.clone(), Made::ByFolds))),
                0,
                "Large",
            ),
            (cards_paper(paper_sheet(sheet, "Sixteen", 1, false), &[None, Some(cause)]), 5, "Fault cards: Sixteen"),
            (strips_paper(&job.design, job.sections), 3, "Spine strips"),
            (set_up_paper(sheet, "Sixteen", job.paper.press, Side::B), 2, "Set-up sheet: Sixteen"),
            (report_paper(&report), 1, ""),
            (job.ticket_paper(), 1, "Job ticket: The Quillmere Almanac"),
        ];
        for (of, pages, title) in all {
            let made = told(&of).unwrap();
            assert!(made.pdf.starts_with(b"%PDF-1.7") && made.pdf.ends_with(b"%%EOF"), "{title}");
            assert!(
                made.pages.len() == pages || (pages == 0 && made.pages.len() > 8),
                "{title}: {:?}",
                made.pages.len()
            );
            assert!(title.is_empty() || made.title == title, "{}", made.title);
            let shown = read_preview(&crate::ask::answer(&preview_question(&of, &Printer::default(), 1))).unwrap();
            assert_eq!((shown.title, shown.pages), (made.title, made.pages));
            assert!(shown.svg.starts_with("<svg "), "{title}");
        }
    }

    #[test]
    fn kinds_are_written_as_the_protocol_has_them() {
        for (word, kind) in KINDS {
            assert_eq!(written(&kind), word.into());
        }
        assert!(Kind::ALL.iter().all(|kind| KINDS.iter().any(|(_, k)| k == kind)));
    }

    #[test]
    fn a_refusal_is_a_sentence() {
        let why = told(&strips_paper(&BackMarks::default(), 0)).unwrap_err();
        assert!(why.starts_with(|c: char| c.is_uppercase()), "{why}");
    }

    #[test]
    fn a_printer_is_read_back() {
        let off = crate::print::Off { right_mm: -1.25, down_mm: 0.5 };
        let printer = Printer { paper: Paper::Letter, flip: Flip::ShortEdge, off };
        assert_eq!(read_printer(&printer_json(&printer)), Ok(printer));
        let far = Printer { off: crate::print::Off { right_mm: 30.0, ..off }, ..printer };
        assert!(read_printer(&printer_json(&far)).is_err());
        assert!(read_printer(&Json::Null).is_err());
    }
}
