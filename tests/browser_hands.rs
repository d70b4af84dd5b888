//! The sheet in the hand: taken at any edge or corner, pulled back, turned over and round; by mouse, finger and keys.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use fantoccini::key::Key;
use serde_json::json;
use std::time::Duration;
use support::chrome::Setup;
use support::page::{Page, Pointer};

const FLAT: &str = "Take the corner and fold.";

async fn undo_is_offered(page: &Page) -> bool {
    page.eval("return [...document.querySelectorAll('.rooms .plain')].some((b) => b.textContent.trim() === 'Undo' && !b.hidden)")
        .await
        == json!(true)
}

async fn ways_out(page: &Page) -> String {
    page.wait_until("document.querySelector('.by-hand').hidden || document.querySelector('.by-hand .plain')").await;
    let body = "const box = document.querySelector('.by-hand');
        return box.hidden ? '' : [...box.children].filter((b) => !b.hidden).map((b) => b.textContent).join(' | ')";
    page.eval(body).await.as_str().unwrap().to_owned()
}

async fn open(pointer: Pointer) -> Page {
    let finger = Setup { viewport: (375, 812), scale: 2.0, touch: true, ..Setup::default() };
    let page = Page::open(if pointer == Pointer::Touch { finger } else { Setup::default() }).await;
    page.wait_for_sentence(FLAT).await;
    page
}

#[tokio::test]
async fn the_left_edge_is_folded_over_and_pulled_back() {
    for pointer in [Pointer::Mouse, Pointer::Touch] {
        let page = open(pointer).await;
        let [left, right, ..] = page.edges().await;
        page.drag(pointer, left, right).await;
        page.wait_for_step(1).await;
        page.wait_for_text(".says", "Left over right: 2 falls on 3, 7 on 6;").await;
        page.wait_for_text(".says", "Not the scheme’s fold.").await;
        assert_eq!(ways_out(&page).await, "Back to the scheme | Beside the scheme | Print it so");
        page.screenshot(&format!("hands-left-over-{pointer:?}")).await;

        // Undone it is the flat sheet of the scheme again, and redone it is folded.
        page.chord(&[char::from(Key::Control), 'z']).await;
        page.wait_for_sentence(FLAT).await;
        page.wait_for_step(0).await;
        assert_eq!(ways_out(&page).await, "");
        tokio::time::sleep(Duration::from_millis(400)).await;
        page.drag(pointer, left, right).await;
        page.wait_for_step(1).await;
        page.wait_for_text(".says", "Not the scheme’s fold.").await;

        // The free edge lies at the right now. Led out to the left, past the crease, it unfolds.
        tokio::time::sleep(Duration::from_millis(400)).await;
        let [left_of_it, right, ..] = page.edges().await;
        let out = (2.0 * left_of_it.0 - right.0, left_of_it.1);
        page.drag(pointer, right, (out.0.max(4.0), out.1)).await;
        page.wait_for_step(0).await;
        page.wait_for_sentence(FLAT).await;
        assert_eq!(ways_out(&page).await, "", "{pointer:?}: unfolded, nothing is left of it");
        assert_eq!(page.console_errors().await, Vec::<String>::new());
    }
}

#[tokio::test]
async fn a_drag_that_is_the_schemes_fold_changes_nothing_else() {
    for pointer in [Pointer::Mouse, Pointer::Touch] {
        let page = open(pointer).await;
        let [left, right, ..] = page.edges().await;
        page.drag(pointer, right, left).await;
        page.wait_for_step(1).await;
        page.wait_for_sentence("Right over left: 3 falls on 2, 6 on 7; 4, 13 and 5, 12 are now on top.").await;
        assert!(!undo_is_offered(&page).await, "{pointer:?}");
        assert_eq!(ways_out(&page).await, "");
    }
}

#[tokio::test]
async fn a_small_drag_falls_back() {
    let page = open(Pointer::Mouse).await;
    let [left, ..] = page.edges().await;
    page.drag(Pointer::Mouse, left, (left.0 + 9.0, left.1)).await;
    page.wait_for_step(0).await;
    page.wait_for_sentence(FLAT).await;
    assert!(!undo_is_offered(&page).await);
}

#[tokio::test]
async fn a_corner_goes_either_way_and_with_shift_it_goes_under() {
    let page = open(Pointer::Mouse).await;
    let [upper_left, upper_right, _, lower_left] = page.corners().await;
    page.drag(Pointer::Mouse, lower_left, upper_left).await;
    page.wait_for_step(1).await;
    page.wait_for_text(".says", "Bottom over top:").await;
    page.screenshot("hands-bottom-over").await;
    page.chord(&[char::from(Key::Control), 'z']).await;
    page.wait_for_sentence(FLAT).await;
    page.wait_for_step(0).await;
    tokio::time::sleep(Duration::from_millis(400)).await;
    page.drag(Pointer::Mouse, upper_left, upper_right).await;
    page.wait_for_step(1).await;
    page.wait_for_text(".says", "Left over right:").await;
    page.chord(&[char::from(Key::Control), 'z']).await;
    page.wait_for_sentence(FLAT).await;
    page.wait_for_step(0).await;
    tokio::time::sleep(Duration::from_millis(400)).await;
    // The driver holds no key while it drags: the events are made here.
    let body = format!(
        "const canvas = document.querySelector('.bench canvas'), [a, b] = {};
         const tell = (kind, s) => canvas.dispatchEvent(new PointerEvent(kind, {{ bubbles: true, pointerId: 1, shiftKey: true,
             clientX: a[0] + (b[0] - a[0]) * s, clientY: a[1] + (b[1] - a[1]) * s }}));
         tell('pointerdown', 0);
         for (let i = 1; i <= 20; i++) tell('pointermove', i / 20);
         tell('pointerup', 1)",
        json!([upper_left, upper_right])
    );
    page.eval(&body).await;
    page.wait_for_step(1).await;
    page.wait_for_text(".says", "Left under right:").await;
}

#[tokio::test]
async fn all_of_it_is_done_by_keys() {
    let page = open(Pointer::Mouse).await;
    let (shift, control) = (char::from(Key::Shift), char::from(Key::Control));
    page.tab_to(".bench canvas").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".said", "Crease upright, 2 from the left.").await;
    page.press(Key::Left).await;
    page.wait_for_text(".said", "Crease upright, 1 from the left.").await;
    page.press(Key::Down).await;
    page.wait_for_text(".said", "Crease level, 1 from the top.").await;
    page.press(Key::Right).await;
    page.wait_for_text(".said", "Crease upright, 2 from the left.").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".said", "with Shift it goes under").await;
    page.screenshot("hands-crease").await;
    page.press(Key::Right).await;
    page.wait_for_step(1).await;
    page.wait_for_text(".says", "Left over right:").await;
    page.wait_for_text(".says", "Not the scheme’s fold.").await;

    // Backspace takes it back; under what stays with Shift.
    page.press(Key::Backspace).await;
    page.wait_for_step(0).await;
    page.wait_for_sentence(FLAT).await;
    assert_eq!(ways_out(&page).await, "");
    page.type_text("f").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".said", "with Shift it goes under").await;
    page.chord(&[shift, char::from(Key::Right)]).await;
    page.wait_for_step(1).await;
    page.wait_for_text(".says", "Left under right:").await;

    // On by hand to one page, told as it reads, and back to the scheme.
    page.type_text("f").await;
    page.wait_for_text(".said", "Crease upright, 1 from the left.").await;
    page.press(Key::Enter).await;
    page.press(Key::Right).await;
    page.wait_for_step(2).await;
    page.type_text("f").await;
    page.wait_for_text(".said", "Crease level, 1 from the top.").await;
    page.press(Key::Enter).await;
    page.press(Key::Down).await;
    page.wait_for_step(3).await;
    page.wait_for_text(".says", "It reads").await;
    assert_eq!(ways_out(&page).await, "Back to the scheme | Beside the scheme | Print it so | Read it as found");
    page.screenshot("hands-to-the-end").await;
    page.click(".by-hand button").await;
    page.wait_for_sentence(FLAT).await;
    page.chord(&[control, 'z']).await;
    page.wait_until("!document.querySelector('.by-hand').hidden").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn turned_over_and_round_it_is_folded_and_told_as_it_lies() {
    let page = open(Pointer::Mouse).await;
    page.type_text("t").await;
    page.wait_until("document.querySelector('.tools .row button').getAttribute('aria-pressed') === 'true'").await;
    tokio::time::sleep(Duration::from_millis(600)).await;
    page.screenshot("hands-over").await;
    // The scheme's own fold, as it is seen now.
    page.press(Key::Right).await;
    page.wait_for_step(1).await;
    page.wait_for_text(".says", "Left under right: 3 goes under 2").await;
    page.press(Key::Left).await;
    page.wait_for_step(0).await;
    let [left, right, ..] = page.edges().await;
    page.drag(Pointer::Mouse, left, right).await;
    page.wait_for_step(1).await;
    page.wait_for_text(".says", "Left over right:").await;
    page.wait_for_text(".says", "Not the scheme’s fold.").await;
    page.screenshot("hands-over-folded").await;
    page.press(Key::Backspace).await;
    page.wait_for_sentence(FLAT).await;
    // Twice on the sheet, and a quarter round.
    let middle = page.middle(".bench canvas").await;
    page.tap(Pointer::Mouse, (middle.0 + 20.0, middle.1 + 30.0)).await;
    page.tap(Pointer::Mouse, (middle.0 + 20.0, middle.1 + 30.0)).await;
    page.wait_until("document.querySelector('.tools .row button').getAttribute('aria-pressed') === 'false'").await;
    page.type_text("r").await;
    tokio::time::sleep(Duration::from_millis(600)).await;
    page.screenshot("hands-round").await;
    page.press(Key::Right).await;
    page.wait_for_step(1).await;
    page.wait_for_text(".says", "Bottom over top: 3 falls on 2, 6 on 7;").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}
