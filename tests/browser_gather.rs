//! The Gather room in a real browser: spoiled by hand, tapped and typed; each time the check reads the spine.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use fantoccini::key::Key;
use support::chrome::Setup;
use support::page::{Page, Pointer};

/// Opens the page and goes to the room.
async fn room() -> Page {
    let page = Page::open(Setup::default()).await;
    page.click(".rooms nav button:nth-of-type(2)").await;
    page.wait_for_text(".verdict", "The book is right").await;
    page
}

/// Goes to a place of the stack with the keyboard alone.
async fn go_to(page: &Page, place: u32) {
    page.focus(".stack").await;
    page.press(Key::Home).await;
    for at in 2..=place {
        page.press(Key::Down).await;
        page.wait_for_text(".about-row", &format!("Place {at}:")).await;
    }
}

/// Presses the act with this number among the buttons of the foot.
async fn act(page: &Page, number: usize) {
    page.focus(&format!(".acts .button:nth-of-type({number})")).await;
    page.press(Key::Enter).await;
}

#[tokio::test]
async fn spoiled_by_keyboard_the_spine_tells() {
    let page = room().await;
    let spoiled = [(1, "Section 5 is missing."), (2, "Section 5 is there twice."), (5, "Section 5 lies head to tail.")];
    let blank = [(6, "The back at place 5 is blank."), (7, "The back at place 5 is blank.")];
    for (number, says) in spoiled.into_iter().chain(blank).chain([(8, "A section of another job lies at place 5.")]) {
        go_to(&page, 5).await;
        act(&page, number).await;
        page.wait_for_text(".verdict", says).await;
        page.click(".acts .slip").await;
        page.wait_for_text(".verdict", "The book is right").await;
    }
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
}

#[tokio::test]
async fn an_act_asks_for_what_it_lacks() {
    let page = room().await;
    go_to(&page, 3).await;
    act(&page, 4).await;
    page.wait_for_text(".question", "Which changes with the one at place 3?").await;
    page.press(Key::Escape).await;
    page.wait_until("!document.querySelector('.asker')").await;
    act(&page, 4).await;
    page.wait_for_text(".question", "place 3").await;
    page.tap(Pointer::Touch, page.middle("#row-10").await).await;
    page.wait_for_text(".verdict", "Sections 3 and 10 have changed places.").await;
    page.click(".acts .slip").await;
    go_to(&page, 6).await;
    act(&page, 10).await;
    for (number, then) in [("9", "Behind which place do 6 to 9 go?"), ("14", "")] {
        page.wait_until("document.activeElement.id === 'answer'").await;
        page.type_text(number).await;
        page.press(Key::Enter).await;
        if !then.is_empty() {
            page.wait_for_text(".question", then).await;
        }
    }
    page.wait_for_text(".verdict", "Sections 6 to 9 stand behind section 14.").await;
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
}

#[tokio::test]
async fn a_run_is_typed_and_marks_are_tapped() {
    let page = room().await;
    page.fill("#run", "1-4 q").await;
    page.press(Key::Enter).await;
    page.wait_for_text("#run-wrong", "At character 5").await;
    assert_eq!(page.value("#run").await, "1-4 q");
    page.fill("#run", "1-11 12d 13-18").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".verdict", "Section 12 lies head to tail.").await;
    page.click(".acts .tap-tools:not([hidden]) .button").await;
    page.wait_for_text(".verdict", "Tap each mark where it stands.").await;
    page.focus(".stack").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".about-row", "Place 1: section 1").await;
    page.click(".acts > .slip").await;
    page.wait_for_text(".verdict", "The book is right").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new(), "console");
}
