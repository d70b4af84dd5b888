//! The panes beside the bench: the sheet in millimetres, the section at the trimmer, the folder, in a real browser.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use fantoccini::key::Key;
use support::chrome::Setup;
use support::page::Page;

const FLAT: &str = "Take the corner and fold.";

/// The tabs, from 1, and what is there once their pane is.
const PAPER: u32 = 3;
const SIZE: &str = ".pane.paper #sheet-size";
const FOLDER: u32 = 5;
const DRAWN: &str = ".setup-drawing svg";

async fn pane(setup: Setup, tab: u32, there: &str) -> Page {
    let page = Page::open(setup).await;
    page.wait_for_sentence(FLAT).await;
    page.click(".tools .look-inside").await;
    page.wait_until("document.querySelector('.tabs')").await;
    page.click(&format!(".tabs .plain:nth-child({tab})")).await;
    page.wait_until(&format!("document.querySelector('{there}')")).await;
    page
}

/// The page of the first job is a trimmed demy octavo, 138 by 216 mm (from memory). The sheet of eight such leaves, two
/// rows of four, is 564 by 444 mm: a quarter of quad demy (888 by 1128 mm), lying.
#[tokio::test]
async fn a_sheet_is_measured_and_told_at_the_trimmer() {
    let page = pane(Setup::default(), PAPER, SIZE).await;
    page.wait_for_text(".page-trimmed", "138 × 216 mm").await;
    page.eval("const s = document.querySelector('#sheet-size'); s.value = 'Quad demy'; s.dispatchEvent(new Event('change', {bubbles: true})); return 1")
        .await;
    // Four columns and two rows: leaves of 282 by 444 mm.
    page.wait_for_text(".page-trimmed", "279 × 438 mm").await;
    page.fill("#sheet-width", "45 in").await;
    page.press(Key::Tab).await;
    page.wait_until("document.querySelector('#sheet-width').value === '1143 mm'").await;
    // What can't be read stays, with the reason.
    page.fill("#sheet-width", "wide").await;
    page.press(Key::Tab).await;
    page.wait_for_text("#sheet-width-why", "“wide”").await;
    assert_eq!(page.value("#sheet-width").await, "wide");
    page.fill("#sheet-width", "564").await;
    page.press(Key::Tab).await;
    page.wait_until("document.querySelector('#columns').value === '141, 141, 141, 141'").await;
    // A lip of 8 mm: the panels of one half gain 4 mm.
    page.click(".pane-row .button").await;
    page.wait_until("document.querySelector('#columns').value.includes('145')").await;
    assert_eq!(page.violations().await, Vec::<String>::new());
    page.click(".tabs .plain:nth-child(4)").await;
    page.wait_until("document.querySelector('.findings .told')").await;
    page.wait_until("document.querySelector('.trim-cut svg')").await;
    page.wait_for_text(".trim .leaf", "Leaf 1 of").await;
    page.click(".trim .inside-foot .button:last-child").await;
    page.wait_for_text(".trim .leaf", "Leaf 2 of").await;
    page.click(".trim .inside-foot .button:first-child").await;
    page.wait_for_text(".trim .leaf", "Leaf 1 of").await;
    page.wait_for_text(".trim .caution", "trained people").await;
    assert_eq!(page.violations().await, Vec::<String>::new());
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn both_fit_a_phone() {
    let page = pane(Setup::phone(), PAPER, SIZE).await;
    assert_eq!(page.overflow().await, 0, "the paper scrolls sideways");
    page.click(".tabs .plain:nth-child(4)").await;
    page.wait_until("document.querySelector('.trim-cut svg')").await;
    assert_eq!(page.overflow().await, 0, "the trimmer scrolls sideways");
}

#[tokio::test]
async fn the_set_up_sheet_is_drawn_and_told() {
    let page = pane(Setup::default(), FOLDER, DRAWN).await;
    page.wait_for_text(".setup-lines", "Guards stay shut").await;
    page.wait_for_text(".setup-lines", "side A up").await;
    page.click(".folder-tools .button:first-child").await;
    page.wait_for_text(".setup-lines", "side B up").await;
    assert_eq!(page.violations().await, Vec::<String>::new());
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn the_set_up_sheet_fits_a_phone() {
    let page = pane(Setup::phone(), FOLDER, DRAWN).await;
    assert_eq!(page.overflow().await, 0, "the set-up sheet scrolls sideways");
}
