//! Practise in a real browser: a sheet numbered, heads set and folds found with keys alone; wrong answers folded beside right
//! ones; hints, codes, what is kept.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use backmark::fold::{Crease, Direction, Fold, fold_name};
use backmark::practice::{Answer, Cell, Exercise, Kind, Marked, SheetCells, halves};
use fantoccini::key::Key;
use serde_json::json;
use support::chrome::Setup;
use support::page::Page;

async fn class(page: &Page) {
    let find = "[...document.querySelectorAll('.rooms .room')].find(b => b.textContent === 'Class')";
    page.wait_until(find).await;
    page.eval(&format!("{find}.focus()")).await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('.practise .asks-title')").await;
}

/// Sets an exercise by typing its code.
async fn set(page: &Page, kind: Kind, level: u8, seed: u64) -> Exercise {
    let exercise = Exercise::of(kind, level, seed).unwrap();
    let code = exercise.code().unwrap();
    page.wait_until("document.querySelector('.more-choice')").await;
    page.eval("document.querySelector('.more-choice').open = true").await;
    page.fill("#exercise-code", &code.to_lowercase()).await;
    page.wait_until(&format!("document.querySelector('#exercise-code').value === '{}'", code.to_lowercase())).await;
    page.press(Key::Enter).await;
    page.wait_for_text(".own-code", &code).await;
    page.wait_for_text(".asks-title", kind.title()).await;
    page.eval("document.querySelector('.more-choice').open = false").await;
    exercise
}

/// The keys that point a head that nothing was said of.
const fn head_keys(head: Direction) -> &'static str {
    match head {
        Direction::Up => "t",
        Direction::Right => "tt",
        Direction::Down => "v",
        Direction::Left => "vt",
    }
}

const fn head_class(head: Direction) -> &'static str {
    match head {
        Direction::Up => "head-up",
        Direction::Right => "head-right",
        Direction::Down => "head-down",
        Direction::Left => "head-left",
    }
}

/// Writes cells with keys alone, those that hold anything.
async fn write(page: &Page, cells: &SheetCells) {
    for (letter, side) in [("A", &cells.side_a), ("B", &cells.side_b)] {
        for (row, line) in side.iter().enumerate() {
            for (column, cell) in line.iter().enumerate() {
                let css = format!("[data-cell=\"{letter} {row} {column}\"]");
                page.focus(&css).await;
                if let Some(number) = cell.page {
                    page.type_text(&number.to_string()).await;
                    page.wait_until(&format!("document.querySelector('{css}').value === '{number}'")).await;
                }
                if let Some(head) = cell.head {
                    for key in head_keys(head).chars() {
                        page.type_text(&key.to_string()).await;
                    }
                    let is = format!(
                        "document.querySelector('{css}').closest('td').classList.contains('{}')",
                        head_class(head)
                    );
                    page.wait_until(&is).await;
                }
                if cell.page.is_some() {
                    page.press(Key::Enter).await;
                }
            }
        }
    }
}

/// The heads alone.
fn heads(cells: &SheetCells) -> SheetCells {
    let mut heads = cells.clone();
    for cell in heads.side_a.iter_mut().chain(&mut heads.side_b).flatten() {
        *cell = Cell { page: None, head: cell.head };
    }
    heads
}

async fn hand_in(page: &Page) {
    page.focus(".hands-in").await;
    page.press(Key::Enter).await;
}

async fn wait_for_marks(page: &Page, marked: &Marked) {
    page.wait_for_text(".marked .total", &format!("{} of {} marks", halves(marked.got), halves(marked.of))).await;
    assert_eq!(page.count(".marked .items tbody tr").await, marked.items.len());
}

/// Both benches are there, and what is said of where they part.
async fn folded_side_by_side(page: &Page, marked: &Marked) {
    let departs = marked.departs.as_ref().unwrap();
    page.wait_for_text(".in-step .departs", &departs.says).await;
    assert_eq!(page.count(".in-step .small-bench canvas").await, 2);
    assert_eq!(page.eval("return document.querySelector('.in-step .pair').hidden").await, json!(false));
}

async fn at_three_sizes(page: &Page, name: &str) {
    for size in [(375, 812), (1920, 1080), (1280, 800)] {
        page.chrome.viewport(size, 1.0, false).await;
        page.wait_until(&format!("innerWidth === {}", size.0)).await;
        assert_eq!(page.overflow().await, 0, "{name} {size:?}");
        assert_eq!(page.violations().await, Vec::<String>::new(), "{name} {size:?}");
        page.screenshot(&format!("practise-{name}-{}", size.0)).await;
    }
}

#[tokio::test]
async fn a_blank_sheet_is_numbered_with_keys_alone() {
    let page = Page::open(Setup::default()).await;
    class(&page).await;
    // A first visit has an exercise before it at once, and no form.
    page.wait_for_text(".asks-title", Kind::NumberSheet.title()).await;
    page.wait_until("document.querySelector('[data-cell=\"A 0 0\"]') && document.querySelector('.own-bench canvas')")
        .await;
    at_three_sizes(&page, "first").await;
    let exercise = set(&page, Kind::NumberSheet, 2, 3).await;
    let Answer::Sheet(right) = exercise.right() else { panic!() };
    write(&page, &right).await;
    at_three_sizes(&page, "numbered").await;
    hand_in(&page).await;
    let marked = exercise.mark(&exercise.right(), 0);
    assert_eq!(marked.got, marked.of);
    wait_for_marks(&page, &marked).await;
    page.wait_for_text(".says-marks", "Everything is right.").await;
    assert_eq!(page.count(".cells .other").await, 0);
    // It stays as it was handed in, and stands in the logbook: another of the kind is another one.
    page.focus("[data-cell=\"A 0 0\"]").await;
    page.type_text("7").await;
    assert_eq!(page.value("[data-cell=\"A 0 0\"]").await, right.side_a[0][0].page.unwrap().to_string());
    page.reload().await;
    class_after_reload(&page).await;
    wait_for_marks(&page, &marked).await;
    page.focus(".marked .another").await;
    page.press(Key::Enter).await;
    let another = Exercise::of(Kind::NumberSheet, 2, 1).unwrap().code().unwrap();
    page.wait_for_text(".own-code", &another).await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

/// The room is the one that was left; if it is not, it is entered again.
async fn class_after_reload(page: &Page) {
    page.wait_until("document.querySelector('.rooms')").await;
    if page.count(".window.class").await == 0 {
        class(page).await;
    }
    page.wait_until("document.querySelector('.practise .asks-title')").await;
}

#[tokio::test]
async fn a_wrong_sheet_is_asked_about_marked_and_folded_beside_the_right_one() {
    let page = Page::open(Setup::default()).await;
    class(&page).await;
    let exercise = set(&page, Kind::NumberSheet, 2, 3).await;
    let Answer::Sheet(mut cells) = exercise.right() else { panic!() };
    cells.side_a[0][0].page = Some(99);
    cells.side_b[0][1].head = None;
    write(&page, &cells).await;
    hand_in(&page).await;
    page.wait_for_text(".hand-in .question", "1 head is missing. Hand in all the same?").await;
    assert_eq!(page.count(".marked .total").await, 0, "nothing is handed in yet");
    page.wait_for_text(".hands-in", "Hand in all the same").await;
    hand_in(&page).await;
    let marked = exercise.mark(&Answer::Sheet(cells), 0);
    assert!(marked.got < marked.of);
    wait_for_marks(&page, &marked).await;
    folded_side_by_side(&page, &marked).await;
    assert_eq!(page.count(".cells .other").await, 2);
    at_three_sizes(&page, "wrong").await;
    // Fold by fold, in step.
    page.focus(".in-step .pair-tools button:nth-child(1)").await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelectorAll('.in-step .small-bench p')[0].textContent.length > 0").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn heads_are_set_with_keys_alone_and_by_finger() {
    let page = Page::open(Setup::default()).await;
    class(&page).await;
    let exercise = set(&page, Kind::SetHeads, 1, 2).await;
    let Answer::Sheet(right) = exercise.right() else { panic!() };
    write(&page, &heads(&right)).await;
    hand_in(&page).await;
    let marked = exercise.mark(&exercise.right(), 0);
    wait_for_marks(&page, &marked).await;
    // Another one, with one head left as a press made it.
    let exercise = set(&page, Kind::SetHeads, 3, 1).await;
    let Answer::Sheet(mut cells) = exercise.right() else { panic!() };
    let first = cells.side_a[0][0].head.unwrap();
    let mut others = heads(&cells);
    others.side_a[0][0].head = None;
    write(&page, &others).await;
    // A press turns a head: up at first, then down.
    let presses = if first == Direction::Up { 2 } else { 1 };
    for pressed in 1..=presses {
        page.click("[data-cell=\"A 0 0\"]").await;
        let class = if pressed == 1 { "head-up" } else { "head-down" };
        page.wait_until(&format!(
            "document.querySelector('[data-cell=\"A 0 0\"]').closest('td').classList.contains('{class}')"
        ))
        .await;
    }
    cells.side_a[0][0].head = Some(if presses == 1 { Direction::Up } else { Direction::Down });
    hand_in(&page).await;
    let marked = exercise.mark(&Answer::Sheet(cells), 0);
    assert_eq!(marked.got + 1, marked.of);
    wait_for_marks(&page, &marked).await;
    folded_side_by_side(&page, &marked).await;
    at_three_sizes(&page, "heads").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

/// Makes a fold by the list of creases, with keys.
async fn make(page: &Page, fold: &Fold, made: usize) {
    let (way, from) = if fold.crease == Crease::Vertical { ("upright", "left") } else { ("level", "top") };
    let name = format!("{way}, {} from the {from}", fold.after);
    page.wait_until(&format!(
        "[...document.querySelectorAll('#own-crease option')].some(o => o.textContent === '{name}')"
    ))
    .await;
    page.focus("#own-crease").await;
    page.press(Key::Home).await;
    for _ in 0..12 {
        let at =
            page.eval("const s = document.querySelector('#own-crease'); return s.selectedOptions[0].textContent").await;
        if at == json!(name) {
            break;
        }
        page.press(Key::Down).await;
    }
    let button = format!(
        "[...document.querySelectorAll('.creases .button')].find(b => b.textContent === '{}')",
        fold_name(fold)
    );
    page.wait_until(&button).await;
    page.eval(&format!("{button}.focus()")).await;
    page.press(Key::Enter).await;
    page.wait_until(&format!("document.querySelectorAll('.steps.made li').length === {}", made + 1)).await;
}

#[tokio::test]
async fn folds_are_found_with_keys_alone_and_taken_back() {
    let page = Page::open(Setup::default()).await;
    class(&page).await;
    let exercise = set(&page, Kind::FindFolds, 3, 2).await;
    let Answer::Folds(right) = exercise.right() else { panic!() };
    for (made, fold) in right.iter().enumerate() {
        make(&page, fold, made).await;
    }
    at_three_sizes(&page, "folds").await;
    // Taken back by the button, by a step of the answer, and made again.
    page.focus(".take-back").await;
    page.press(Key::Enter).await;
    page.wait_until(&format!("document.querySelectorAll('.steps.made li').length === {}", right.len() - 1)).await;
    page.chord(&[char::from(Key::Control), 'z']).await;
    page.wait_until(&format!("document.querySelectorAll('.steps.made li').length === {}", right.len())).await;
    hand_in(&page).await;
    wait_for_marks(&page, &exercise.mark(&exercise.right(), 0)).await;
    page.wait_for_text(".says-marks", "Everything is right.").await;

    let exercise = set(&page, Kind::FindFolds, 3, 4).await;
    let Answer::Folds(mut wrong) = exercise.right() else { panic!() };
    wrong[0].lands = wrong[0].lands.other();
    for (made, fold) in wrong.iter().enumerate() {
        make(&page, fold, made).await;
    }
    hand_in(&page).await;
    let marked = exercise.mark(&Answer::Folds(wrong), 0);
    assert!(marked.got < marked.of);
    wait_for_marks(&page, &marked).await;
    folded_side_by_side(&page, &marked).await;
    at_three_sizes(&page, "folds-wrong").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn hints_cost_what_they_say_and_what_was_begun_is_kept() {
    let page = Page::open(Setup::default()).await;
    class(&page).await;
    let exercise = set(&page, Kind::NumberSheet, 1, 5).await;
    let hints = exercise.hints();
    page.wait_for_text("#hint-price", &hints[0].price).await;
    page.focus(".hint").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".hints", &hints[0].says).await;
    page.wait_for_text("#hint-price", &hints[1].price).await;
    let Answer::Sheet(right) = exercise.right() else { panic!() };
    let mut half = right.clone();
    half.side_b = Vec::new();
    write(&page, &half).await;
    // A code that was written wrongly is refused in words, and the answer stays.
    page.eval("document.querySelector('.more-choice').open = true").await;
    page.fill("#exercise-code", "2222223").await;
    page.press(Key::Enter).await;
    page.wait_for_text("#code-refused", "typed wrongly somewhere").await;
    // Another one is set: what was begun lies aside, and is taken up again after the page was loaded anew.
    let other = set(&page, Kind::FindFolds, 1, 1).await;
    page.wait_for_text(".aside", "Number the blank sheet, level 1").await;
    kept(&page, &other).await;
    page.reload().await;
    class_after_reload(&page).await;
    page.wait_for_text(".aside", "Number the blank sheet, level 1").await;
    page.focus(".aside .plain").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".hints", &hints[0].says).await;
    assert_eq!(page.value("[data-cell=\"A 0 0\"]").await, right.side_a[0][0].page.unwrap().to_string());
    let rest = SheetCells { side_a: Vec::new(), side_b: right.side_b.clone() };
    write(&page, &rest).await;
    hand_in(&page).await;
    wait_for_marks(&page, &exercise.mark(&exercise.right(), 1)).await;
    page.wait_for_text(".says-marks", "Hints took ½ off.").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

/// Waits until the browser keeps this exercise as the one on the desk.
async fn kept(page: &Page, exercise: &Exercise) {
    let code = json!({ "kind": exercise.kind, "level": exercise.level, "seed": exercise.seed });
    let starts = code.to_string();
    let [kind, level] = ["kind", "level"].map(|field| format!("\"{field}\":{}", code[field]));
    support::until(&format!("the desk kept with {starts}"), async || {
        page.eval("backmarkStore.noted('desk').then((text) => { window.deskKept = text ?? ''; }); return 0").await;
        let text = page.eval("return window.deskKept ?? ''").await;
        let on_desk = text.as_str().unwrap_or_default().split("\"on_desk\":").nth(1).unwrap_or_default().to_owned();
        let own = on_desk.split('}').next().unwrap_or_default().to_owned();
        (own.contains(&kind) && own.contains(&level)).then_some(())
    })
    .await;
}

#[tokio::test]
async fn steps_back_are_of_the_answer_and_never_of_the_job() {
    let page = Page::open(Setup::default()).await;
    page.click(".tools .slip").await;
    let dummy = "[...document.querySelectorAll('dialog[open] .dummy')].find(d => d.textContent.includes('Eight, two right-angle'))";
    page.wait_until(dummy).await;
    page.eval(&format!("{dummy}.click()")).await;
    page.wait_for_text(".tools .slip", "Eight, two right-angle folds").await;
    class(&page).await;
    set(&page, Kind::NumberSheet, 1, 2).await;
    let cell = "[data-cell=\"A 0 0\"]";
    page.focus(cell).await;
    page.type_text("3").await;
    page.press(Key::Enter).await;
    page.wait_until("document.activeElement.dataset.cell !== 'A 0 0'").await;
    page.focus(cell).await;
    page.wait_until(&format!("document.querySelector('{cell}').dataset.kept === '3'")).await;
    for _ in 0..3 {
        page.chord(&[char::from(Key::Control), 'z']).await;
    }
    page.wait_until(&format!("document.querySelector('{cell}').value === ''")).await;
    page.chord(&[char::from(Key::Control), 'y']).await;
    page.wait_until(&format!("document.querySelector('{cell}').value === '3'")).await;
    // From the bench as well, where the keys fold the blank sheet.
    page.focus(".own-bench canvas").await;
    page.press(Key::Right).await;
    page.wait_until("document.querySelector('.own-bench .stand-says').textContent.includes(' over ') || document.querySelector('.own-bench .stand-says').textContent.includes(' under ')").await;
    page.chord(&[char::from(Key::Control), 'z']).await;
    page.wait_until(&format!("document.querySelector('{cell}').value === ''")).await;
    page.eval("[...document.querySelectorAll('.rooms .room')].find(b => b.textContent === 'Fold').click()").await;
    page.wait_for_text(".tools .slip", "Eight, two right-angle folds").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}
