//! Wrong books traced in a real browser, from what was found to the report: five stories, the keyboard alone, a run halved to
//! its end, what is kept.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use fantoccini::key::Key;
use serde_json::json;
use support::chrome::Setup;
use support::page::Page;
use support::until;

const TRACE: &str = ".rooms .room:nth-child(3)";

async fn trace(setup: Setup) -> Page {
    let page = Page::open(setup).await;
    page.click(TRACE).await;
    page.wait_for_text(".causes", "Note what was found.").await;
    page
}

async fn fine(page: &Page) {
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    assert_eq!(page.console_errors().await, Vec::<String>::new(), "console");
}

/// Opens a kind of find to be noted.
async fn add(page: &Page, kind: &str) {
    if page.eval("return document.querySelector('.adder').hidden").await == json!(true) {
        page.click(".hold-tools .button:first-child").await;
    }
    page.click(&format!("[data-kind={kind}]")).await;
    page.wait_until(&format!("!document.querySelector('[data-find={kind}] .find-fields').hidden")).await;
}

async fn enter(page: &Page, css: &str, text: &str) {
    page.fill(css, text).await;
    page.press(Key::Enter).await;
}

/// Presses a button by its words.
async fn press(page: &Page, within: &str, words: &str) {
    let button = format!(
        "[...document.querySelectorAll({})].find((b) => b.offsetParent && b.textContent.trim() === {})",
        json!(format!("{within} button")),
        json!(words)
    );
    page.wait_until(&format!("!!{button}")).await;
    page.eval(&format!("{button}.click()")).await;
}

/// Which books the run had.
async fn the_run(page: &Page, last: &str) {
    add(page, "run").await;
    enter(page, "#run-last", last).await;
    page.wait_for_text(".run-drawn", last.trim_start_matches(',')).await;
}

/// The first cause, and what it says.
async fn first_cause(page: &Page, title: &str) {
    page.wait_for_text(".book-cause:first-child .cause-title", title).await;
}

/// Opens the report and reads what is on it.
async fn on_report(page: &Page, lines: &[&str]) {
    page.click(".write-report").await;
    page.wait_until("document.querySelector('.report-picture')").await;
    for line in lines {
        let body = format!(
            "return document.querySelector('.report-rows').textContent.includes({}) && document.querySelector('.report-page').textContent.length > 400",
            json!(line)
        );
        until(&format!("“{line}” on the report"), async || (page.eval(&body).await == json!(true)).then_some(())).await;
    }
    fine(page).await;
}

#[tokio::test]
async fn a_station_reloaded_with_the_wrong_pile_part_way() {
    let page = trace(Setup::default()).await;
    fine(&page).await;
    add(&page, "openings").await;
    page.wait_until("document.activeElement.id === 'openings'").await;
    enter(&page, "#openings", "64 129 | 144 81").await;
    page.wait_until("document.querySelectorAll('.find[data-find=openings] .opened').length === 2").await;
    add(&page, "spine").await;
    page.fill("#spine", "1-4 9 6-18").await;
    // The picture follows each letter; the check waits for Enter.
    page.wait_until("document.querySelectorAll('.find[data-find=spine] .found-slip').length === 18").await;
    page.press(Key::Enter).await;
    first_cause(&page, "9").await;
    page.wait_until("!document.querySelector('.books').hidden").await;
    enter(&page, "#counter", "1,421").await;
    press(&page, ".book-line", "Bad").await;
    add(&page, "bulk").await;
    enter(&page, "#count", "18").await;
    enter(&page, "#bulk", "18").await;
    enter(&page, "#good-bulk", "18").await;
    the_run(&page, "2,000").await;
    add(&page, "log").await;
    for (field, text) in [("counter", "1,380"), ("station", "5"), ("lift", "80"), ("left", "40")] {
        page.fill(&format!("#log-{field}"), text).await;
    }
    press(&page, "[data-find=log]", "Note it").await;
    page.wait_for_text("[data-find=log]", "At 1,380 station 5 was reloaded with 80; 40 were left in it").await;
    add(&page, "left").await;
    for (station, side) in [("5", "Over"), ("9", "Short")] {
        page.fill("#left-station", station).await;
        page.fill("#left-over", "80").await;
        press(&page, "[data-find=left]", side).await;
    }
    page.wait_for_text("[data-find=left] .find-says", "80 over at 5, 80 short at 9.").await;
    first_cause(&page, "Station 5 was loaded with a lift of section 9.").await;
    page.wait_for_text(".book-cause:first-child .why", "The leftovers agree").await;
    page.wait_for_text(".causes", "place 9 would hold section 5. It holds section 9.").await;
    page.wait_for_text(".book-cause:first-child .look-next", "station 5").await;
    // The four questions are answered in order, and their working is one click away.
    assert_eq!(page.count(".questions > li").await, 4);
    page.wait_for_text(".questions > li:nth-child(2)", "Between whole sections.").await;
    page.click(".questions > li:nth-child(3) summary").await;
    page.wait_for_text(".questions > li:nth-child(3) .working", "As many sections as there should be").await;
    page.click(".questions > li:nth-child(3) summary").await;
    // Where the lift went follows from the reload; opened books close it in.
    page.wait_for_text(".hold-says", "1,421").await;
    press(&page, ".hold-tools", "Halve the run").await;
    page.wait_for_text(".open-next", "Open book").await;
    halve(&page, |book| (1_421..=1_500).contains(&book)).await;
    page.wait_for_text(".hold-says", "Hold books 1,421 to 1,500: 80 books.").await;
    // A good book behind the lift shuts the block.
    page.click(".hold-tools .button:first-child").await;
    press(&page, ".adder", "Another book").await;
    page.wait_until("document.querySelector('#counter').value === ''").await;
    enter(&page, "#counter", "1,501").await;
    page.wait_for_text(".book-tabs li:last-child", "1,501").await;
    press(&page, ".book-line", "Good").await;
    page.wait_for_text(".book-tabs li:last-child", "good").await;
    page.click(".book-tabs li:first-child button").await;
    page.wait_for_text(".hold-says", "Hold books 1,421 to 1,500: 80 books.").await;
    // The thread runs from the section on the spine, round its slip among the finds, to the cause.
    press(&page, ".hold-tools", "Halve the run").await;
    page.eval(
        "document.querySelector('.found-spine').scrollIntoView({ block: 'center' }); document.querySelector('.causes').scrollTop = 0",
    )
    .await;
    page.wait_until("document.querySelector('.book-thread .strand').getAttribute('d')?.length > 40").await;
    page.eval("document.activeElement.blur()").await;
    page.screenshot("story-wrong-pile").await;
    fine(&page).await;
    enter_report(&page).await;
    on_report(
        &page,
        &[
            "Station 5 was loaded with a lift of section 9.",
            "F-16",
            "critical",
            "books 1,421 to 1,500: 80 books",
            "J-204",
        ],
    )
    .await;
    page.screenshot("story-report").await;
    let folder = std::env::temp_dir().join(format!("backmark-report-{}", std::process::id()));
    page.downloads_to(&folder).await;
    press(&page, ".report-tools", "Save as a table (CSV)").await;
    let file = folder.join("fault-report.csv");
    let text = until("the table", async || std::fs::read_to_string(&file).ok().filter(|t| !t.is_empty())).await;
    std::fs::remove_dir_all(&folder).unwrap();
    assert!(text.starts_with("Field,Value,From,To,Books\r\n") && text.contains("1421,1500,80"), "{text}");

    // Everything is kept, and comes back where it was.
    page.wait_until("document.documentElement.dataset.kept === 'yes'").await;
    page.reload().await;
    page.wait_until("document.querySelector('.report-picture')").await;
    assert_eq!(page.value("#report-ticket").await, "J-204");
    press(&page, ".report-tools", "Back to the finds").await;
    first_cause(&page, "Station 5 was loaded with a lift of section 9.").await;
    page.wait_for_text(".hold-says", "Hold books 1,421 to 1,500: 80 books.").await;
    fine(&page).await;
}

/// Writes the ticket into the report, and goes back.
async fn enter_report(page: &Page) {
    page.click(".write-report").await;
    enter(page, "#report-ticket", "J-204").await;
    page.wait_for_text(".report-rows", "J-204").await;
    press(page, ".report-tools", "Back to the finds").await;
    page.wait_until("document.querySelector('.hold-says')").await;
}

/// Opens one book after another as the page asks for them, until there is none left to open; and counts them.
async fn halve(page: &Page, bad: impl Fn(u32) -> bool) -> u32 {
    let asked = "return document.querySelector('.judged:not([hidden])')
        && document.querySelector('.judged button').getAttribute('aria-label').replace(/[^0-9]/g, '')";
    let mut opened = 0;
    loop {
        let book = page.eval(asked).await;
        let Some(number) = book.as_str().and_then(|n| n.parse::<u32>().ok()) else { return opened };
        opened += 1;
        assert!(opened < 60, "the halving does not end; it asks for book {number}");
        press(page, ".judged", if bad(number) { "It is bad" } else { "It is good" }).await;
        let body = format!("return ({{ f() {{ {asked} }} }}).f() !== {}", json!(number.to_string()));
        until("another book, or none", async || (page.eval(&body).await == json!(true)).then_some(())).await;
    }
}

#[tokio::test]
async fn two_stations_exchanged() {
    let page = trace(Setup::default()).await;
    add(&page, "spine").await;
    enter(&page, "#spine", "1-4 6 5 7-18").await;
    page.wait_until("!document.querySelector('.books').hidden").await;
    enter(&page, "#counter", "1").await;
    the_run(&page, "2,000").await;
    press(&page, ".hold-tools", "Halve the run").await;
    halve(&page, |_| true).await;
    first_cause(&page, "Stations 5 and 6 were set up in each other's place.").await;
    page.wait_for_text(".questions > li:nth-child(4)", "whole run").await;
    page.wait_for_text(".hold-says", "Hold books 1 to 2,000").await;
    page.screenshot("story-exchanged").await;
    on_report(&page, &["Stations 5 and 6 were set up in each other's place.", "F-16", "2,000 books"]).await;
}

#[tokio::test]
async fn a_folder_fault_shows_as_blank_backs() {
    let page = trace(Setup::default()).await;
    add(&page, "spine").await;
    enter(&page, "#spine", "1-4 _ 6-18").await;
    page.wait_until("!document.querySelector('.books').hidden").await;
    add(&page, "inside").await;
    enter(&page, "#inside-section", "5").await;
    page.wait_until("document.querySelector('#inside-section').value === '5'").await;
    enter(&page, "#inside-pages", "67 68 65 66 71 72 69 70 75 76 73 74 79 80 77 78").await;
    first_cause(&page, "In section 5").await;
    page.wait_for_text(".questions > li:nth-child(1)", "Yes. It was not the press.").await;
    page.wait_for_text(".questions > li:nth-child(2)", "Inside section 5.").await;
    page.wait_for_text(".causes", "fold 1 was made the other way").await;
    page.screenshot("story-folder").await;
    // What lies inside a section is opened on the bench, and the room goes back to the book.
    press(&page, ".book-cause.on", "Open section 5 on the bench").await;
    page.wait_for_text(".cause-head", "Fold 1 was made the other way.").await;
    page.wait_for_text(".half-head", "Section 5, pages 65 to 80").await;
    page.wait_for_text(".small-bench:nth-child(2)", "In front, 67").await;
    press(&page, ".half-head", "The whole book").await;
    first_cause(&page, "In section 5").await;
    on_report(&page, &["In section 5", "pages", "Folder"]).await;
}

#[tokio::test]
async fn a_press_fault_with_perfect_marks() {
    let page = trace(Setup::default()).await;
    add(&page, "spine").await;
    enter(&page, "#spine", "1-18").await;
    page.wait_until("!document.querySelector('.books').hidden").await;
    add(&page, "inside").await;
    enter(&page, "#inside-section", "5").await;
    page.wait_until("document.querySelector('#inside-section').value === '5'").await;
    enter(&page, "#inside-pages", "65 70 71 68 69 66 67 72 73 78 79 76 77 74 75 80").await;
    first_cause(&page, "In section 5, the second side was printed half turned round.").await;
    page.wait_for_text(".questions > li:nth-child(1)", "No. Look at the press.").await;
    // The slip of the section stands out though its mark is right.
    page.wait_until("document.querySelector('.found-slip.on')?.dataset.place === '5'").await;
    page.screenshot("story-press").await;
    on_report(&page, &["the second side was printed half turned round", "Press"]).await;
}

#[tokio::test]
async fn a_book_divided_wrong_at_sewing() {
    let page = trace(Setup::default()).await;
    add(&page, "spine").await;
    enter(&page, "#spine", "7-18 1-6").await;
    page.wait_until("!document.querySelector('.books').hidden").await;
    enter(&page, "#counter", "1,900").await;
    the_run(&page, "2,000").await;
    press(&page, ".hold-tools", "Halve the run").await;
    let opened = halve(&page, |book| book >= 1_204).await;
    // Its beginning among 1,900 books, and that it goes on to the end.
    assert!(opened <= 14, "{opened} openings");
    first_cause(&page, "The sections were parted into books behind section 6").await;
    page.wait_for_text(".hold-says", "Hold books 1,204 to 2,000: 797 books.").await;
    page.screenshot("story-divided").await;
    on_report(&page, &["The sections were parted into books behind section 6", "797 books", "book 1,203"]).await;
}

#[tokio::test]
async fn finds_that_do_not_go_together_are_said_where_they_arise() {
    let page = trace(Setup::default()).await;
    add(&page, "spine").await;
    enter(&page, "#spine", "1-18").await;
    page.wait_until("!document.querySelector('.books').hidden").await;
    add(&page, "bulk").await;
    enter(&page, "#count", "17").await;
    page.wait_for_text(".finds .contradictions", "17").await;
    add(&page, "openings").await;
    enter(&page, "#openings", "64 q").await;
    page.wait_for_text(".causes", "q").await;
    // A run that can't be read says so at its field.
    page.click("[data-find=spine] .find-foot .plain").await;
    page.fill("#spine", "1-4 z").await;
    page.wait_for_text("#spine-wrong", "z").await;
    fine(&page).await;
}

#[tokio::test]
async fn the_odds_are_changed_and_put_back() {
    let page = trace(Setup::default()).await;
    page.click(".stories li:nth-child(2) button").await;
    first_cause(&page, "Stations 5 and 6 were set up in each other's place.").await;
    press(&page, ".causes .half-head", "How likely?").await;
    enter(&page, "#odds-tags_exchanged", "90").await;
    page.wait_for_text("dialog[open] .odds", "As stated: 5").await;
    page.screenshot("story-odds").await;
    fine(&page).await;
    press(&page, "dialog[open]", "Close").await;
    first_cause(&page, "tagged for each other").await;
    press(&page, ".causes .half-head", "How likely?").await;
    press(&page, "dialog[open]", "All as stated").await;
    press(&page, "dialog[open]", "Close").await;
    first_cause(&page, "Stations 5 and 6 were set up in each other's place.").await;
    // Each step can be undone.
    press(&page, ".rooms", "Undo").await;
    first_cause(&page, "tagged for each other").await;
}

#[tokio::test]
async fn a_book_spoiled_in_gather_is_evidence() {
    let page = Page::open(Setup::default()).await;
    page.click(".rooms .room:nth-child(2)").await;
    page.find(".stack").await;
    page.focus(".stack").await;
    for _ in 0..6 {
        page.press(Key::Down).await;
    }
    press(&page, ".foot", "Leave one out").await;
    page.wait_for_text(".verdict", "Section 7 is missing.").await;
    page.click(TRACE).await;
    press(&page, ".adder", "The book gathered here").await;
    page.wait_until("document.querySelectorAll('.find[data-find=spine] .found-slip').length === 17").await;
    first_cause(&page, "Station 7").await;
    fine(&page).await;
}

#[tokio::test]
async fn by_keyboard_alone() {
    let page = trace(Setup::default()).await;
    page.tab_to("[data-kind=spine]").await;
    page.press(Key::Enter).await;
    page.wait_until("document.activeElement.id === 'spine'").await;
    page.type_text("1-6 8-18").await;
    page.press(Key::Enter).await;
    first_cause(&page, "7").await;
    page.tab_to(".book-cause:nth-child(2) .cause-title").await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('.book-cause:nth-child(2)').classList.contains('on')").await;
    assert!(page.has_focus(".book-cause:nth-child(2) .cause-title").await);
    page.tab_to(".write-report").await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('.report-picture')").await;
    page.tab_to("#report-by").await;
    page.type_text("A. Binder").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".report-rows", "A. Binder").await;
    fine(&page).await;
}

#[tokio::test]
async fn on_a_telephone() {
    let page = trace(Setup { viewport: (375, 812), touch: true, ..Setup::default() }).await;
    fine(&page).await;
    page.click(".stories li:nth-child(1) button").await;
    first_cause(&page, "Station 5 was loaded with a lift of section 9.").await;
    assert_eq!(page.overflow().await, 0);
    let small = "[...document.querySelectorAll('.window main button, .window main input, .window main summary, .hold button, .hold summary')]
        .filter((e) => e.offsetParent && (e.offsetHeight < 44 || e.offsetWidth < 24)).map((e) => e.outerHTML)";
    assert_eq!(page.eval(&format!("return {small}")).await, json!([]));
    page.wait_for_text(".to-cause", "Station 5 was loaded").await;
    page.screenshot("story-375").await;
    fine(&page).await;
    page.click(".write-report").await;
    page.wait_until("document.querySelector('.report-picture')").await;
    assert_eq!(page.overflow().await, 0);
    page.screenshot("story-report-375").await;
    fine(&page).await;
}
