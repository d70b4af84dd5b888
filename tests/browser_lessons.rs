//! Lessons and the logbook in a real browser: by keyboard, by mouse, shown, to the end; kept; as a table and as a file.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use backmark::practice::lesson::lessons;
use fantoccini::key::Key;
use serde_json::json;
use support::chrome::Setup;
use support::page::{Page, Pointer};
use support::until;

const SIZES: [(u32, u32); 3] = [(375, 812), (1280, 800), (1920, 1080)];

/// Presses a button by its words.
async fn press(page: &Page, within: &str, name: &str) {
    let find = format!(
        "[...document.querySelectorAll('{within} button')].find(b => b.textContent.trim() === {} && !b.closest('[hidden]'))",
        json!(name)
    );
    page.wait_until(&find).await;
    page.eval(&format!("{find}.click()")).await;
}

async fn open_part(page: &Page, part: &str) {
    press(page, ".rooms", "Class").await;
    press(page, ".room-class .parts", part).await;
}

/// The list of lessons, and a lesson of it.
async fn take(page: &Page, number: usize) {
    page.wait_until("document.querySelectorAll('.lesson-slip').length === 14").await;
    page.click(&format!(".lesson-list li:nth-child({number}) .lesson-slip")).await;
    wait_for_step(page, 1).await;
}

async fn wait_for_step(page: &Page, step: usize) {
    page.wait_until(&format!("document.querySelector('.lesson')?.dataset.step === '{step}'")).await;
}

/// Waits for a step to be done, and reads what it shows.
async fn done(page: &Page, step: usize) -> String {
    wait_for_step(page, step).await;
    page.wait_until("document.querySelector('.lesson').dataset.done === 'true'").await;
    page.text(".lesson-says").await
}

/// On to the next step.
async fn onward(page: &Page, step: usize) {
    page.click(".onward").await;
    wait_for_step(page, step).await;
    page.wait_until("document.querySelector('.lesson').dataset.done === 'false'").await;
}

async fn step_is(page: &Page, moment: u32) {
    page.wait_until(&format!("document.querySelector('.lesson .rule input')?.value === '{}'", 100 * moment)).await;
}

fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[tokio::test]
async fn the_first_lesson_is_played_by_keyboard_alone() {
    let page = Page::open(Setup::default()).await;
    let path = lessons();
    page.tab_to(".rooms .room:nth-child(4)").await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('.room-class .part:nth-child(2)')").await;
    page.tab_to(".room-class .part:nth-child(2)").await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('.lesson-slip')").await;
    page.tab_to(".lesson-list li:nth-child(1) .lesson-slip").await;
    page.press(Key::Enter).await;
    page.tab_to(".lesson canvas").await;
    step_is(&page, 0).await;
    // F, Enter, an arrow: the right half goes left. With Shift it goes under, which is answered and taken back.
    page.type_text("f").await;
    page.press(Key::Enter).await;
    page.chord(&[Key::Shift.into(), Key::Left.into()]).await;
    page.wait_for_text(".lesson-says", "It reads 3, 4, 1, 2.").await;
    page.wait_for_text(".lesson-says", "Take the last fold back").await;
    page.focus(".lesson canvas").await;
    page.press(Key::Backspace).await;
    page.wait_for_text(".lesson-says", "The sheet lies open.").await;
    page.focus(".lesson canvas").await;
    page.type_text("f").await;
    page.press(Key::Enter).await;
    page.press(Key::Left).await;
    assert_eq!(plain(&done(&page, 1).await), plain(path[0].steps[0].shows));
    page.screenshot("lesson-first-1280").await;
    page.focus(".lesson canvas").await;
    page.press(Key::Enter).await;
    wait_for_step(&page, 2).await;
    for moment in 2..=4 {
        page.focus(".lesson canvas").await;
        page.press(Key::Right).await;
        step_is(&page, moment).await;
    }
    done(&page, 2).await;
    page.focus(".lesson canvas").await;
    page.press(Key::Enter).await;
    wait_for_step(&page, 3).await;
    for moment in (0..4).rev() {
        page.focus(".lesson canvas").await;
        page.press(Key::Left).await;
        step_is(&page, moment).await;
    }
    page.type_text("t").await;
    done(&page, 3).await;
    page.focus(".lesson canvas").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".lesson-does", "is finished").await;
    // And on: the second lesson begins.
    page.focus(".lesson canvas").await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('.lesson')?.ariaLabel.startsWith('Lesson 2')").await;
    // What was finished is kept.
    page.wait_for_requests_to_settle().await;
    page.reload().await;
    open_part(&page, "Lessons").await;
    page.wait_until("document.querySelectorAll('.lesson-slip.finished').length === 1").await;
    page.wait_until("document.querySelector('.lesson-list li:nth-child(2) .lesson-slip.next')").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn the_first_lesson_is_played_with_the_mouse() {
    let page = Page::open(Setup::default()).await;
    open_part(&page, "Lessons").await;
    take(&page, 1).await;
    step_is(&page, 0).await;
    let [left, right, ..] = page.edges().await;
    let to = (left.0 + 6.0, left.1);
    let from = (right.0 - 2.0, right.1);
    page.lead(Pointer::Mouse, from, to, 96.0).await;
    done(&page, 1).await;
    onward(&page, 2).await;
    press(&page, ".lesson-tools", "Open it").await;
    done(&page, 2).await;
    onward(&page, 3).await;
    press(&page, ".lesson-tools", "Close it").await;
    step_is(&page, 1).await;
    press(&page, ".lesson-tools", "Take a fold back").await;
    step_is(&page, 0).await;
    press(&page, ".lesson-tools", "Turn over").await;
    done(&page, 3).await;
    press(&page, ".lesson", "Finish").await;
    page.wait_for_text(".lesson-does", "is finished").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn a_wrong_sheet_is_folded_and_its_cause_is_named() {
    let page = Page::open(Setup::default()).await;
    open_part(&page, "Lessons").await;
    take(&page, 9).await;
    step_is(&page, 0).await;
    // Folds are to be found: the rule has none to slide to.
    assert_eq!(page.eval("return document.querySelector('.lesson .rule input').max").await, json!("0"));
    press(&page, ".by-words", "Under").await;
    press(&page, ".by-words", "Right under left").await;
    step_is(&page, 1).await;
    press(&page, ".by-words", "Under").await;
    press(&page, ".by-words", "Top over bottom").await;
    step_is(&page, 2).await;
    press(&page, ".by-words", "Right over left").await;
    done(&page, 1).await;
    onward(&page, 2).await;
    press(&page, ".causes", "Fold 2 was made the other way.").await;
    page.wait_for_text(".lesson-says", "That would read 5, 6, 7, 8, 1, 2, 3, 4").await;
    page.wait_for_text(".lesson-says", "This one reads 3, 4, 1, 2, 7, 8, 5, 6").await;
    press(&page, ".causes", "Fold 1 was made the other way.").await;
    done(&page, 2).await;
    page.screenshot("lesson-cause-1280").await;
    onward(&page, 3).await;
    for moment in (0..3).rev() {
        press(&page, ".lesson-tools", "Take a fold back").await;
        step_is(&page, moment).await;
        page.wait_until(&format!("document.querySelector('.lesson .rule input').max === '{}'", 100 * moment)).await;
    }
    for (moment, fold) in [(1, "Right over left"), (2, "Top over bottom"), (3, "Right over left")] {
        press(&page, ".by-words", fold).await;
        step_is(&page, moment).await;
    }
    done(&page, 3).await;
    assert_eq!(page.violations().await, Vec::<String>::new());
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

/// Goes to a row of the stack with the keys.
async fn row(page: &Page, place: u32) {
    page.focus(".lesson .stack").await;
    page.press(Key::Home).await;
    for _ in 1..place {
        page.press(Key::Down).await;
    }
    page.wait_until(&format!(
        "document.querySelector('.lesson .stack').getAttribute('aria-activedescendant') === 'row-{place}'"
    ))
    .await;
}

#[tokio::test]
async fn a_book_is_laid_out_spoiled_and_told() {
    let page = Page::open(Setup::default()).await;
    open_part(&page, "Lessons").await;
    take(&page, 11).await;
    // From the piles, one after another; a wrong one is answered, and all are taken off again.
    page.wait_until("document.querySelector('.lesson .piles')").await;
    let pile = async |section: u32| {
        page.focus(".lesson .piles").await;
        page.press(Key::Home).await;
        for _ in 1..section {
            page.press(Key::Right).await;
        }
        page.wait_until(&format!(
            "document.querySelector('.lesson .piles').getAttribute('aria-activedescendant') === 'pile-{section}'"
        ))
        .await;
        page.press(Key::Enter).await;
    };
    pile(1).await;
    page.wait_until("document.querySelectorAll('.lesson .back').length === 1").await;
    pile(3).await;
    page.wait_for_text(".lesson-says", "Section 3 lies on section 1.").await;
    press(&page, ".lesson-hands", "Take them off").await;
    page.wait_until("document.querySelectorAll('.lesson .back').length === 0").await;
    for section in 1..=8 {
        pile(section).await;
        page.wait_until(&format!("document.querySelectorAll('.lesson .back').length === {section}")).await;
    }
    done(&page, 1).await;
    page.screenshot("lesson-book-1280").await;
    onward(&page, 2).await;
    row(&page, 4).await;
    press(&page, ".lesson-hands", "Leave one out").await;
    page.wait_for_text(".lesson-says", "The book reads 1-3 5-8.").await;
    press(&page, ".lesson-hands", "Make it good").await;
    page.wait_until("document.querySelectorAll('.lesson .back').length === 8").await;
    row(&page, 5).await;
    press(&page, ".lesson-hands", "Leave one out").await;
    done(&page, 2).await;
    onward(&page, 3).await;
    row(&page, 5).await;
    press(&page, ".lesson-hands", "It is there twice").await;
    page.wait_for_text(".lesson-says", "Then the book would read").await;
    press(&page, ".lesson-hands", "One is missing before it").await;
    done(&page, 3).await;
    press(&page, ".lesson", "Finish").await;
    page.wait_for_text(".lesson-does", "is finished").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

/// All lessons, each step shown: the bench comes to every goal by the deeds alone.
#[tokio::test]
async fn show_me_reaches_every_goal() {
    let page = Page::open(Setup::default()).await;
    page.preferences(&[("prefers-reduced-motion", "reduce")]).await;
    open_part(&page, "Lessons").await;
    for (number, lesson) in (1..).zip(lessons()) {
        take(&page, number).await;
        for (k, step) in (1..).zip(&lesson.steps) {
            wait_for_step(&page, k).await;
            page.wait_until("document.querySelector('.lesson').dataset.done === 'false'").await;
            press(&page, ".lesson", "Show me").await;
            let shows = done(&page, k).await;
            assert_eq!(plain(&shows), plain(step.shows), "{} {k}", lesson.title);
            if k < lesson.steps.len() {
                onward(&page, k + 1).await;
            }
        }
        press(&page, ".lesson", "Finish").await;
        page.wait_for_text(".lesson-does", "is finished").await;
        if number == 14 {
            page.screenshot("lesson-trace-1280").await;
            // From the book to the sheet by the thread.
            page.wait_until("(document.querySelector('.thread .strand').getAttribute('d') ?? '') !== ''").await;
        }
        press(&page, ".lesson-head", "All lessons").await;
        page.wait_until(&format!("document.querySelectorAll('.lesson-slip.finished').length === {number}")).await;
    }
    page.wait_for_text(".lesson-list .lesson-does", "All lessons are finished").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn lessons_fit_three_sizes_and_are_told_to_all() {
    for viewport in SIZES {
        let page = Page::open(Setup { viewport, touch: viewport.0 < 600, ..Setup::default() }).await;
        open_part(&page, "Lessons").await;
        page.wait_until("document.querySelectorAll('.lesson-slip').length === 14").await;
        page.screenshot(&format!("lesson-list-{}", viewport.0)).await;
        assert_eq!((page.violations().await, page.overflow().await), (Vec::<String>::new(), 0), "list {viewport:?}");
        // A sheet, a slit sheet, causes, a book, a run.
        for number in [5, 7, 10, 12, 14] {
            take(&page, number).await;
            page.wait_until("document.querySelector('.lesson-says')").await;
            page.screenshot(&format!("lesson-{number}-{}", viewport.0)).await;
            assert_eq!(
                (page.violations().await, page.overflow().await),
                (Vec::<String>::new(), 0),
                "{number} {viewport:?}"
            );
            if number == 14 {
                press(&page, ".lesson", "Show me").await;
                done(&page, 1).await;
                onward(&page, 2).await;
                page.screenshot(&format!("lesson-run-{}", viewport.0)).await;
                assert_eq!((page.violations().await, page.overflow().await), (Vec::<String>::new(), 0), "{viewport:?}");
            }
            press(&page, ".lesson-head", "All lessons").await;
        }
        assert_eq!(page.console_errors().await, Vec::<String>::new());
    }
}

#[tokio::test]
async fn the_logbook_is_a_table_and_a_file_and_comes_back() {
    let folder = std::env::temp_dir().join(format!("backmark-logbook-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let page = Page::open(Setup::default()).await;
    page.downloads_to(&folder).await;
    open_part(&page, "Logbook").await;
    page.wait_for_text(".logbook", "Nothing was handed in yet.").await;
    assert_eq!(page.violations().await, Vec::<String>::new());
    page.fill("#learner", "Ida Falz").await;
    // A desk with three entries, taken in as a file. The third is weak.
    let entries = [
        json!({ "kind": "find_folds", "level": 1, "seed": 3, "date": "2026-11-24", "got": 8, "of": 8, "hints": 0, "minutes": 4 }),
        json!({ "kind": "find_folds", "level": 1, "seed": 4, "date": "2026-11-24", "got": 8, "of": 8, "hints": 1, "minutes": 3 }),
        json!({ "kind": "wrong_book", "level": 2, "seed": 1, "date": "2026-11-25", "got": 3, "of": 10, "hints": 2, "minutes": 9 }),
    ];
    let kept = json!({ "backmark_desk": 1, "name": "", "on_desk": null, "logbook": entries, "lessons": [1, 2] });
    let file = folder.join("theirs.json");
    std::fs::write(&file, kept.to_string()).unwrap();
    page.upload("#logbook-file", &file).await;
    page.wait_until("document.querySelectorAll('.entries tbody tr').length === 3").await;
    page.wait_for_text(".logbook .weak", "Still weak: “Which section is wrong?”, level 2.").await;
    page.wait_for_text(".logbook .next-rule", "What is weak is practised again").await;
    assert_eq!(page.count(".totals tbody tr").await, 2);
    page.screenshot("logbook-1280").await;
    assert_eq!(page.violations().await, Vec::<String>::new());
    // Taken in again, nothing is there twice.
    page.upload("#logbook-file", &file).await;
    page.wait_for_text(".logbook-said", "here were 3 entries").await;
    assert_eq!(page.count(".entries tbody tr").await, 3);
    let got = async |name: &str| {
        let path = folder.join(name);
        until(name, async || std::fs::read_to_string(&path).ok().filter(|text| !text.is_empty())).await
    };
    press(&page, ".logbook-file", "Save as a table").await;
    let table = got("logbook.csv").await;
    let rows: Vec<&str> = table.split("\r\n").collect();
    assert_eq!(rows[0], "Date,Exercise,Level,Number,Marks,Of,Hints,Minutes");
    assert_eq!(rows[3], "2026-11-25,Which section is wrong?,2,1,1½,5,2,9");
    press(&page, ".logbook-file", "Save the logbook as a file").await;
    let desk = got("logbook.desk.json").await;
    assert!(desk.contains("Ida Falz") && desk.contains("wrong_book"), "{desk}");
    // It is there after a reload; an entry opens its exercise; the file of somebody else's program is refused.
    page.wait_for_requests_to_settle().await;
    page.reload().await;
    open_part(&page, "Logbook").await;
    page.wait_until("document.querySelectorAll('.entries tbody tr').length === 3").await;
    assert_eq!(page.value("#learner").await, "Ida Falz");
    std::fs::write(&file, "{}").unwrap();
    page.upload("#logbook-file", &file).await;
    page.wait_for_text(".logbook-said", "Your logbook is as it was.").await;
    page.client().goto("about:blank").await.unwrap();
    page.chrome.viewport((375, 812), 2.0, true).await;
    page.visit("").await;
    open_part(&page, "Logbook").await;
    page.wait_until("document.querySelectorAll('.entries tbody tr').length === 3").await;
    page.screenshot("logbook-375").await;
    assert_eq!((page.violations().await, page.overflow().await), (Vec::<String>::new(), 0));
    page.click(".entries tbody tr:nth-child(1) .plain").await;
    page.wait_until("document.querySelector('.part[aria-pressed=\"true\"]').textContent === 'Practise'").await;
    page.wait_until("document.querySelector('.practise')").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
    let _ = std::fs::remove_dir_all(&folder);
}
