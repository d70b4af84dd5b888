//! The fault report: what is written into it, how it lies on paper, and the two ways out of here, on paper or as a table.

use super::fields::{Field, plain};
use super::reckon::Reckoned;
use crate::app::{Action, BookCause, CaseAct, CaseTold, Job, report_paper};
use crate::report::{Counts, Report, What, csv};
use crate::scene::report_sheet;
use crate::scene::svg::paint;
use crate::since::Evidence;
use crate::ui::browser::keep;
use crate::ui::paper::PaperOut;
use crate::ui::store::Act;
use crate::ui::widgets::words;
use crate::words::small;
use yew::prelude::*;

/// What the report is made of.
pub struct Props<'a> {
    /// The job.
    pub job: &'a Job,
    /// What was told, and the cause that is reported.
    pub told: &'a CaseTold,
    /// The cause that is reported.
    pub cause: Option<&'a BookCause>,
    /// What is known of the extent.
    pub evidence: Option<&'a Evidence>,
    /// What follows from it.
    pub reckoned: &'a Reckoned,
    /// How to say what happened.
    pub act: Act,
    /// Goes back to the finds.
    pub back: Callback<()>,
}

/// The lines that a person writes: their names and labels.
const LINES: [(&str, &str); 4] =
    [("ticket", "Ticket"), ("date", "Date"), ("by", "Written by"), ("action", "Done and to do")];
const NUMBERS: [(&str, &str); 3] =
    [("reworked", "Reworked"), ("scrapped", "Scrapped"), ("to_make_good", "To make good")];

/// What is wrong with the books, for a report of a cause.
fn what(cause: &BookCause) -> Option<What> {
    if cause.inside.is_some() {
        return Some(What::PagesOutOfOrder);
    }
    Some(match cause.faults.first()?.as_str() {
        "missing" => What::MissingSection,
        "double" => What::DoubleSection,
        "wrong_section" => What::WrongSection,
        "foreign" => What::ForeignSection,
        "lies" => What::UpsideDown,
        "no_mark" => What::PagesOutOfOrder,
        _ => What::OutOfOrder,
    })
}

/// The report of a cause.
#[must_use]
pub fn report(props: &Props<'_>) -> Report {
    let written = |line: &str| {
        let found = props.job.written.iter().find(|(name, _)| name == line);
        found.map(|(_, text)| text.clone()).unwrap_or_default()
    };
    let number = |line: &str| super::fields::read_whole(&written(line)).ok().flatten();
    let cause = props.cause;
    let said = |text: Option<&String>| text.filter(|t| !t.is_empty()).cloned();
    // Of a book that was only judged, the counters tell.
    let found = props.told.books.iter().filter(|book| !book.finds.is_empty()).flat_map(|book| {
        let head = format!("{}: {}", book.name, small(&book.says));
        std::iter::once(head).chain(book.finds.iter().cloned())
    });
    let by_hand = written("action");
    let report = Report {
        title: props.job.title.clone(),
        ticket: written("ticket"),
        date: written("date"),
        by: written("by"),
        stage: cause.map(|c| c.place.clone()).unwrap_or_default(),
        station: cause.and_then(|c| c.station),
        section: cause.and_then(|c| c.section),
        what: cause.and_then(what),
        cause: cause.map(|c| c.title.clone()).unwrap_or_default(),
        evidence: found.take(40).collect(),
        counts: Counts {
            reworked: number("reworked"),
            scrapped: number("scrapped"),
            to_make_good: number("to_make_good"),
            ..Counts::default()
        },
        action: said(Some(&by_hand))
            .into_iter()
            .chain(said(cause.map(|c| &c.remedy)))
            .chain(said(cause.map(|c| &c.next_check)))
            .collect(),
        cautions: said(cause.map(|c| &c.caution)).into_iter().collect(),
        ..Report::default()
    };
    match (props.evidence, &props.reckoned.hold) {
        (Some(evidence), Some(hold)) => report.with(evidence, hold),
        _ => report,
    }
}

/// The report, in place of finds and causes.
pub fn sheet(props: &Props<'_>) -> Html {
    let report = report(props);
    let sheet = report.sheet();
    let refused = report.check().err().map(|why| why.says).unwrap_or_default();
    let pages: Vec<AttrValue> =
        report_sheet(&sheet).iter().map(|scene| AttrValue::from(paint(scene, "report-picture", &|_| None))).collect();
    let line = |(name, label): (&'static str, &'static str)| {
        let written = props.job.written.iter().find(|(line, _)| line == name);
        let enter = props.act.reform(move |text: String| Action::Case(CaseAct::Write(name, text)));
        let field = Field {
            id: format!("report-{name}"),
            label,
            value: written.map(|(_, text)| text.clone()).unwrap_or_default(),
            short: NUMBERS.iter().any(|(n, _)| *n == name),
            wrong: String::new(),
            typing: Callback::noop(),
            enter,
        };
        field.view()
    };
    let table = {
        let text = csv(&sheet);
        Callback::from(move |_: MouseEvent| keep::hand_out("fault-report.csv", &text))
    };
    html! {
        <div class="fault-report">
            <div class="report-tools">
                { plain("Back to the finds", None, &props.back) }
                <button type="button" class="button" onclick={table}>{ "Save as a table (CSV)" }</button>
                <PaperOut of={refused.is_empty().then(|| report_paper(&report))} save="Save as PDF" open="Open as PDF" first={true} />
            </div>
            <div class="report-form">
                <h2>{ "Fault report" }</h2>
                { for LINES.into_iter().map(line) }
                <div class="short-fields">{ for NUMBERS.into_iter().map(line) }</div>
                <p class="quiet">{ "What is left empty has a line on the paper to be written on by hand." }</p>
                <p class="wrong" role="status">{ refused }</p>
            </div>
            <div class="report-pages" role="img" aria-label="The report as it is printed. The list beside it says the same.">
                { for pages.into_iter().map(|page| html! { <div class="report-page">{ Html::from_html_unchecked(page) }</div> }) }
            </div>
            <dl class="report-rows">
                { for sheet.rows.iter().filter(|row| !row.value.is_empty()).map(|row| html! { <div><dt>{ row.label.clone() }</dt><dd>{ words(&row.value) }</dd></div> }) }
            </dl>
        </div>
    }
}
