//! The Trace room in a real browser: the pages of a wrong section typed, tapped and made, and what is told of them.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use backmark::app::{Action, Room, State, Subject, TraceLook, update, write_saved};
use backmark::fold::{Course, Crease, Direction, End, Fold, Lands, Nest, Part, Parted, Slit, Steps};
use fantoccini::key::Key;
use serde_json::json;
use support::chrome::Setup;
use support::page::Page;

const TRACE: &str = ".rooms .room:nth-child(3)";
const FOLD_1_AWAY: &str = "3 4 1 2 7 8 5 6 11 12 9 10 15 16 13 14";
const SECOND_SIDE_ROUND: [u32; 16] = [1, 6, 7, 4, 5, 2, 3, 8, 9, 14, 15, 12, 13, 10, 11, 16];

async fn trace(setup: Setup) -> Page {
    let page = Page::open(setup).await;
    page.click(TRACE).await;
    // The room's first subject is a whole book.
    page.click(".room-trace.book .finds .half-head .plain").await;
    page.wait_for_text(".causes", "Tap what each page says").await;
    page
}

async fn slip(page: &Page, number: u32) {
    page.click(&format!(".page-slips li:nth-child({number}) button")).await;
}

/// Chooses a fault in the dialog.
async fn choose(page: &Page, begins: &str) {
    let button = format!(
        "[...document.querySelectorAll('dialog[open] li .button')].find((b) => b.textContent.startsWith({}))",
        json!(begins)
    );
    page.wait_until(&button).await;
    page.eval(&format!("{button}.click()")).await;
    page.wait_until(&format!("{button}.ariaPressed === 'true'")).await;
}

async fn fine(page: &Page) {
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    assert_eq!(page.console_errors().await, Vec::<String>::new(), "console");
}

#[tokio::test]
async fn typed_pages_are_told_with_their_look_alike_and_kept() {
    let page = trace(Setup::default()).await;
    fine(&page).await;
    page.fill("#pages", FOLD_1_AWAY).await;
    page.press(Key::Enter).await;
    page.wait_for_text(".cause-head", "Fold 1 was made the other way.").await;
    page.wait_for_text(".cause-head", "At the folder").await;
    page.wait_for_text(".alike", "The sheet was turned over left to right").await;
    page.wait_for_text(".alike", "Look at the pile").await;
    page.wait_for_text(".cause-body", "Look next: Fold a passed sheet beside this one").await;
    page.wait_for_text(".cause-body", "Stop the folder").await;
    page.wait_for_text(".leads", "so it was not the press").await;
    assert_eq!(page.count(".openings .leaf-wrong").await, 16);
    // Both sheets fold by themselves and end open at the first wrong page.
    page.wait_for_text(".small-bench:nth-child(2)", "In front, 3").await;
    page.wait_for_text(".small-bench:nth-child(1)", "In front, 1").await;
    page.screenshot("trace-typed").await;
    // A look-alike folds itself too.
    page.click(".alike li:first-child .button").await;
    page.wait_for_text(".small-bench:nth-child(2) p", "In front, 3").await;
    fine(&page).await;

    page.wait_until("document.documentElement.dataset.kept === 'yes'").await;
    page.reload().await;
    page.wait_for_text(".cause-head", "Fold 1 was made the other way.").await;
    assert_eq!(page.value("#pages").await, FOLD_1_AWAY);
    fine(&page).await;
}

#[tokio::test]
async fn a_press_fault_is_tapped_in_leaf_by_leaf() {
    let page = trace(Setup { viewport: (375, 812), touch: true, ..Setup::default() }).await;
    for number in SECOND_SIDE_ROUND {
        slip(&page, number).await;
    }
    page.wait_for_text(".cause-head", "The second side was printed half turned round.").await;
    page.wait_for_text(".cause-head", "At the press").await;
    page.wait_until("document.activeElement.matches('.hand-says')").await;
    page.wait_for_text(".leads", "Leaf 1 carries 1 and 6").await;
    assert!(page.value("#pages").await.starts_with("1 6 7 4 5 2 3 8 9"));
    assert_eq!(page.overflow().await, 0);
    let small = "[...document.querySelectorAll('.room-trace button, .room-trace input, .room-trace summary')]
        .filter((e) => e.offsetParent && (e.offsetHeight < 44 || e.offsetWidth < 24)).map((e) => e.outerHTML)";
    assert_eq!(page.eval(&format!("return {small}")).await, json!([]));
    page.screenshot("trace-tapped-375").await;

    // One page is corrected, and taken back by undo.
    page.click(".openings li:nth-child(2) .opening").await;
    page.wait_for_text(".hand-says", "Open at 6 and 7, where 2 and 3 are due.").await;
    page.click(".in-hand .leaf:first-child").await;
    slip(&page, 2).await;
    page.wait_until("document.querySelector('#pages').value.startsWith('1 2 7 4')").await;
    page.click(".rooms .plain:not([hidden])").await;
    page.wait_until("document.querySelector('#pages').value.startsWith('1 6 7 4')").await;
    fine(&page).await;
}

#[tokio::test]
async fn entered_by_keyboard_alone_with_heads_down_and_blanks() {
    let page = trace(Setup::default()).await;
    page.focus(".page-slips li:nth-child(3) button").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".hand-says", "Place 2 of 16").await;
    page.wait_for_text(".cause-head", "1 of 16 pages so far.").await;
    page.focus(".pad-tools button:nth-child(1)").await;
    page.press(Key::Space).await;
    page.focus("#other-page").await;
    page.type_text("21").await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('#pages').value === '3 21v'").await;
    page.focus(".pad-tools button:nth-child(2)").await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('#pages').value === '3 21v _'").await;
    page.focus(".pad-tools button:nth-of-type(3)").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".hand-says", "Open at 21, head down and blank, where 2 and 3 are due.").await;
    fine(&page).await;
}

#[tokio::test]
async fn a_fault_is_made_and_read_by_its_pages_alone() {
    let page = trace(Setup::default()).await;
    page.click(".teach .plain:first-child").await;
    page.wait_for_text("dialog[open]", "Fold 2 was made the other way.").await;
    choose(&page, "Fold 2 was made the other").await;
    page.click("dialog[open] .slip").await;
    page.wait_for_text(".cause-head", "Fold 2 was made the other way.").await;
    assert_eq!(page.value("#pages").await, "5-8 1-4 13-16 9-12");
    page.wait_for_text(".alike", "end for end").await;

    page.click(".teach .plain:last-child").await;
    page.wait_for_text("dialog[open] table", "Look at the pile").await;
    page.wait_for_text("dialog[open] table", "3 4 1 2 7 8 5 6").await;
    page.screenshot("trace-alike").await;
    fine(&page).await;
    page.press(Key::Escape).await;

    page.click(".pair-tools .button:last-child").await;
    page.wait_until("document.querySelector('.window.fold.two')").await;
    page.wait_for_text(".says", "Fold 2 was made the other way.").await;
    fine(&page).await;
    page.click(TRACE).await;
    page.wait_for_text(".cause-head", "Fold 2 was made the other way.").await;

    // Two at once, for a class: nothing is told before it is asked for.
    page.click(".teach .plain:first-child").await;
    choose(&page, "Fold 1 was made the other").await;
    choose(&page, "Page 2 stands head down").await;
    page.click("dialog[open] .slip + .button").await;
    page.wait_for_text(".cause-head", "The causes are covered.").await;
    assert!(page.value("#pages").await.contains("2v"));
    assert_eq!(page.count(".leads li").await, 0);
    page.click(".cause-head .slip").await;
    page.wait_for_text(".cause-head", "page 2 stands head down").await;
    fine(&page).await;
}

#[tokio::test]
async fn a_text_that_can_t_be_read_stays_with_its_place_and_reason() {
    let page = trace(Setup::default()).await;
    page.fill("#pages", "3 4 1 q 7").await;
    page.press(Key::Enter).await;
    page.wait_for_text("#pages-wrong", "At character 7, “q”").await;
    assert_eq!(page.value("#pages").await, "3 4 1 q 7");
    page.wait_until("document.documentElement.dataset.kept === 'yes'").await;
    page.reload().await;
    page.wait_for_text("#pages-wrong", "At character 7").await;
    assert_eq!(page.value("#pages").await, "3 4 1 q 7");
    fine(&page).await;
}

#[tokio::test]
async fn an_example_is_one_tap_away_and_right_pages_are_said_to_be_right() {
    let page = trace(Setup::default()).await;
    page.click(".causes .slip").await;
    page.wait_for_text(".cause-head", "Fold 1 was made the other way.").await;
    page.fill("#pages", "1-16").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".cause-head", "These pages are right.").await;
    page.fill("#pages", "1 9 5 3 13 2 7 16 4 11 6 14 8 10 12 15").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".cause-head", "Nothing that was tried gives these pages.").await;
    page.wait_for_text(".cause-body", "Look next:").await;
    fine(&page).await;
}

/// A sheet slit in two, whose job is opened from a file, in the Trace room.
async fn trace_slit(columns: u32, after: u32, parts: [Vec<Fold>; 2], copies: Vec<Vec<Nest>>, name: &str) -> Page {
    let [first, second] = parts.map(|folds| Steps::piece(folds, Direction::Up));
    let slit = Slit { crease: Crease::Vertical, after, then: Parted::Apart { first, second } };
    let steps = Steps { folds: Vec::new(), end: End::Slit(Box::new(slit)) };
    let course = Course { rows: 2, columns, steps, copies, ..State::default().job.sheet.course.clone() };
    let state = update(&State::default(), Action::Take(course)).0;
    let state = update(&state, Action::Go(Room::Trace)).0;
    let section = TraceLook { subject: Subject::Section, ..TraceLook::default() };
    let state = update(&state, Action::Trace(section)).0;
    let folder = std::env::temp_dir().join(format!("backmark-trace-{name}-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let file = folder.join("slit.backmark.json");
    std::fs::write(&file, write_saved(&state.job, &state.look)).unwrap();
    let page = trace(Setup::default()).await;
    page.click(".strip-box .title").await;
    page.click(".parts .part:last-child").await;
    page.wait_until("document.querySelector('.room-job #job-file')").await;
    page.upload("#job-file", &file).await;
    page.wait_for_text("body", "is open. Undo brings the last job back.").await;
    std::fs::remove_dir_all(&folder).unwrap();
    page
}

fn over(after: u32, moves: Part) -> Fold {
    Fold::new(after, moves, Lands::Over)
}

fn under(after: u32, moves: Part) -> Fold {
    Fold::new(after, moves, Lands::Under)
}

#[tokio::test]
async fn a_half_sheet_tumbled_is_told_by_its_pages() {
    let halves = [vec![over(1, Part::Top), over(1, Part::Right)], vec![under(1, Part::Top), under(1, Part::Left)]];
    let page = trace_slit(4, 2, halves, vec![vec![vec![0]], vec![vec![1]]], "half").await;
    page.wait_for_text(".about", "Section 1, pages 1 to 8").await;
    page.fill("#pages", "1 4 1 4 5 8 5 8").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".cause-head", "A half sheet was tumbled for its second side where it should be turned.").await;
    page.wait_for_text(".cause-head", "At the press").await;
    page.wait_for_text(".small-bench:nth-child(2) p", "Open at 4 and 1").await;
    page.fill("#pages", "3 2 3 2 7 6 7 6").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".cause-body", "the other half has the outer ones").await;
    page.wait_for_text(".small-bench:nth-child(2) p", "In front, 3").await;
    page.screenshot("trace-half-sheet").await;
    fine(&page).await;

    // The other way is no fault of this sheet, so it is not offered.
    page.click(".teach .plain:first-child").await;
    page.wait_for_text("dialog[open] .maker-list", "A half sheet was tumbled").await;
    let offered =
        page.eval("return document.querySelector('.maker-list').textContent.includes('half sheet was turned')");
    assert_eq!(offered.await, json!(false));
    choose(&page, "A half sheet was tumbled").await;
    page.click("dialog[open] .slip").await;
    page.wait_until("document.querySelector('#pages').value === '1 4 1 4 5 8 5 8'").await;
    page.wait_for_text(".made-here", "Made here: A half sheet was tumbled").await;
    fine(&page).await;
}

#[tokio::test]
async fn an_inset_beside_the_middle_is_drawn_beside_the_right_way() {
    let parts = [
        vec![over(2, Part::Right), over(1, Part::Top), over(1, Part::Right)],
        vec![over(1, Part::Top), over(1, Part::Right)],
    ];
    let page = trace_slit(6, 4, parts, vec![vec![vec![0, 1]]], "nest").await;
    page.wait_for_text(".about", "Section 1, pages 1 to 24").await;
    page.fill("#pages", "1-4 9-16 5-8 17-24").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".cause-head", "The inset was laid in behind leaf 2, not in the middle.").await;
    assert_eq!(page.count(".nest .nest-picture").await, 2);
    let label = "document.querySelector('.nest:nth-child(2) [role=img]').getAttribute('aria-label')";
    page.wait_until(&format!("{label}.includes('outermost piece 1-4; inset 9-16; outermost piece 5-8 17-24')")).await;
    assert_eq!(page.count(".nest:nth-child(2) [stroke-dasharray]").await, 6);
    assert!(page.eval("return document.querySelector('.pair').hidden").await == json!(true));
    fine(&page).await;

    // What was folded wrongly is folded beside the right piece as well.
    page.fill("#pages", "1-8 11 12 9 10 15 16 13 14 17-24").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".cause-head", "On the inset, fold 1 was made the other way.").await;
    page.wait_for_text(".small-bench:nth-child(1) p", "In front, 9").await;
    page.wait_for_text(".small-bench:nth-child(2) p", "In front, 11").await;
    page.wait_for_text(".pair", "Folded here: the inset alone.").await;
    page.screenshot("trace-inset").await;

    // A person may say otherwise, and take it back.
    page.eval("const inset = document.querySelector('#inset'); inset.value = 'none'; inset.dispatchEvent(new Event('change', {bubbles: true}))").await;
    page.wait_for_text(".about", "Section 1, pages 1 to 16").await;
    page.click(".made-up p .plain").await;
    page.wait_for_text(".cause-head", "On the inset, fold 1 was made the other way.").await;
    fine(&page).await;
}
