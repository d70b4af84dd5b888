//! The report: its table read back by another reader, its lines from evidence, its pages.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::report::{Counts, Report, Sheet, What, csv};
use backmark::scene::report_sheet;
use backmark::since::{Evidence, Left, Line, Opened, hold};
use proptest::prelude::*;

/// A table read with the crate `csv`, which reads RFC 4180.
fn read(table: &str) -> Vec<Vec<String>> {
    let mut reader = csv_reader().from_reader(table.as_bytes());
    reader.records().map(|record| record.unwrap().iter().map(str::to_owned).collect()).collect()
}

fn csv_reader() -> ::csv::ReaderBuilder {
    let mut builder = ::csv::ReaderBuilder::new();
    builder.has_headers(false).flexible(false).terminator(::csv::Terminator::CRLF);
    builder
}

/// A lift of 80 sections of 9 in station 5; the numbers are reckoned by hand.
fn reported() -> Report {
    let evidence = Evidence {
        opened: vec![Opened::good(1420), Opened::bad(1421), Opened::bad(1480), Opened::good(1501)],
        left: vec![Left { station: 5, over: 80 }, Left { station: 9, over: -80 }],
        lift: Some(80),
        station: Some(5),
        ..Evidence::of(Line::of(1, 2000))
    };
    let report = Report {
        title: "Tides and Winds".into(),
        ticket: "4711".into(),
        date: "3 May".into(),
        stage: "gathering".into(),
        section: Some(9),
        what: Some(What::WrongSection),
        cause: "Station 5 was loaded with section 9.".into(),
        counts: Counts { reworked: Some(76), scrapped: Some(4), to_make_good: Some(4), ..Counts::default() },
        action: vec!["Exchange section 9 for section 5.".into()],
        cautions: vec!["Stop the line and wait until it has run down before reaching into a hopper.".into()],
        ..Report::default()
    };
    report.with(&evidence, &hold(&evidence).unwrap())
}

#[test]
fn the_sheet_has_all_that_the_run_says() {
    let sheet = reported().sheet();
    let value =
        |label: &str| sheet.rows.iter().filter(|r| r.label == label).map(|r| r.value.clone()).collect::<Vec<_>>();
    assert_eq!(value("Station"), ["5"]);
    assert_eq!(value("Code"), ["F-16, wrong pagination (US GPO Form 1815 and Publication 310.1)"]);
    assert_eq!(value("Extent"), ["a block"]);
    for (label, book) in [
        ("Last good before", "book 1,420"),
        ("First bad", "book 1,421"),
        ("Last bad", "book 1,480"),
        ("First good after", "book 1,501"),
        ("Made", "2,000 books"),
        ("Held", "80 books"),
        ("Released", "1,920 books"),
        ("Reworked", "76 books"),
        ("To make good", "4 books"),
    ] {
        assert_eq!(value(label), [book], "{label}");
    }
    assert_eq!(value("Hold").len(), 1);
    assert!(value("Hold")[0].starts_with("books 1,421 to 1,500: 80 books."), "{:?}", value("Hold"));
    let leftovers = "Station 5 has 80 over and station 9 as many short: station 5 held section 9 for 80 books.";
    assert!(value("Found").iter().any(|f| f == leftovers), "{:?}", value("Found"));
}

#[test]
fn what_a_person_wrote_is_kept() {
    let report = reported();
    let again = Report { first_bad: Some(1400), extent: "one lift".into(), ..report.clone() };
    let evidence = Evidence { opened: vec![Opened::bad(7)], ..Evidence::of(Line::of(1, 10)) };
    let again = again.with(&evidence, &hold(&evidence).unwrap());
    assert_eq!((again.first_bad, again.extent.as_str(), again.counts.made), (Some(1400), "one lift", Some(2000)));
    assert_eq!(again.hold, report.hold);
}

#[test]
fn the_table_is_read_back_as_it_was_written() {
    let sheet = reported().sheet();
    let rows = read(&csv(&sheet));
    assert_eq!(rows[0], ["Field", "Value", "From", "To", "Books"]);
    assert_eq!(rows.len(), 2 + sheet.rows.len() + sheet.sign.len());
    for (row, written) in rows[2..].iter().zip(&sheet.rows) {
        assert_eq!((&row[0], &row[1]), (&written.label, &written.value));
    }
    let hold = rows.iter().find(|r| r[0] == "Hold").unwrap();
    assert_eq!(hold[2..], ["1421", "1500", "80"]);
}

#[test]
fn the_report_is_drawn_on_pages() {
    let pages = report_sheet(&reported().sheet());
    assert_eq!(pages.len(), 1, "it is signed on the sheet itself");
    assert!(pages.iter().all(|p| p.size == (210.0, 297.0)));
}

fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![
        ".{0,40}",
        "[=+@\\-\t\r\n \",;'a-c0-9]{0,12}",
        Just("=HYPERLINK(\"http://x\",\"y\")".to_owned()),
        Just("\"\"\r\n,".to_owned()),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever the texts are, the table has its rows and fields, every text comes back but for the apostrophe before
    /// a formula, and no field is a formula.
    #[test]
    fn any_sheet_is_read_back(rows in proptest::collection::vec((any_text(), any_text()), 0..8), sign in any_text()) {
        let rows: Vec<backmark::report::Row> = rows.into_iter()
            .map(|(label, value)| backmark::report::Row { label, value, ..Default::default() }).collect();
        let sheet = Sheet { heading: "H".into(), rows, sign: vec![sign] };
        let read = read(&csv(&sheet));
        prop_assert_eq!(read.len(), 3 + sheet.rows.len());
        for (row, written) in read[2..].iter().zip(&sheet.rows) {
            for (field, text) in [(&row[0], &written.label), (&row[1], &written.value)] {
                prop_assert!(field == text || *field == format!("'{text}"), "{:?} {:?}", field, text);
            }
        }
        for field in read.iter().flatten() {
            prop_assert!(!field.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']), "{:?}", field);
            prop_assert!(!field.trim_start().starts_with(['=', '+', '-', '@']), "{:?}", field);
        }
    }

    /// Any report has a sheet and pages, every line of it on one line.
    #[test]
    fn any_report_is_a_sheet(texts in proptest::collection::vec(any_text(), 6), evidence in proptest::collection::vec(any_text(), 0..30)) {
        let [title, ticket, date, by, cause, extent] = <[String; 6]>::try_from(texts).unwrap();
        let report = Report { title, ticket, date, by, cause, extent, evidence, ..Report::default() };
        prop_assert_eq!(report.check(), Ok(()));
        let sheet = report.sheet();
        prop_assert!(sheet.rows.iter().all(|r| !r.value.contains(char::is_control)));
        prop_assert!(!report_sheet(&sheet).is_empty());
    }
}
