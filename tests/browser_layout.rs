//! Working a layout back in a real browser: written cell by cell with keys alone, folded before the eyes, mended.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use fantoccini::key::Key;
use serde_json::json;
use support::chrome::Setup;
use support::page::Page;

const START: &str = "Write what is printed where";

/// Opens the picker and goes to the layout.
async fn begin(page: &Page) {
    page.click(".tools .slip").await;
    page.wait_until("document.querySelector('dialog[open] .layout-way')").await;
    page.click("dialog[open] .layout-way").await;
    page.wait_for_text(".worked .finding", START).await;
    page.wait_until("document.querySelector('[data-cell=\"A 0 0\"]')").await;
}

/// The octavo's two sides, from J. B. Nicholson, *A Manual of the Art of Bookbinding* (1878), pp. 35-36; `v`: head down.
const OCTAVO: [&str; 16] =
    ["7v", "10v", "11v", "6v", "2", "15", "14", "3", "5v", "12v", "9v", "8v", "4", "13", "16", "1"];

#[tokio::test]
async fn nicholsons_octavo_is_typed_with_keys_alone_and_folds() {
    let page = Page::open(Setup::default()).await;
    begin(&page).await;
    page.focus("[data-cell=\"A 0 0\"]").await;
    for (i, cell) in OCTAVO.into_iter().enumerate() {
        let page_number = cell.trim_end_matches('v');
        page.type_text(page_number).await;
        // A new cell's head is as its neighbour's, so that one key turns a whole row.
        let turns_now = cell.ends_with('v') && i % 4 == 0;
        if turns_now {
            page.type_text("v").await;
        }
        page.press(Key::Enter).await;
    }
    page.wait_for_text(".worked .finding", "One way of folding prints this.").await;
    page.wait_for_text(".worked .way", "Sixteen, three folds: Right over left, top over bottom, right over left").await;
    page.wait_for_step(3).await;
    page.wait_for_sentence("Right over left: 9 falls on 8; 16 is now on top. Slit the bolts: one step on.").await;
    assert_eq!(
        page.eval("return document.querySelector('[data-cell=\"A 0 1\"]').parentElement.className").await,
        json!("head-down")
    );
    page.screenshot("layout-octavo").await;
    assert_eq!(page.violations().await, Vec::<String>::new());

    // Whoever comes again finds it as it was left.
    page.kept(async || page.click(".way-acts .slip").await).await;
    page.wait_until("!document.querySelector('.worked')").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn a_layout_that_cannot_be_folded_says_what_would_mend_it() {
    let page = Page::open(Setup::default()).await;
    begin(&page).await;
    page.click(".way-acts .copy").await;
    page.wait_for_text(".worked .finding", "One way of folding prints this.").await;
    for (cell, number) in [("A 0 0", "6"), ("A 0 3", "7")] {
        let css = format!("[data-cell=\"{cell}\"]");
        page.fill(&css, number).await;
        page.press(Key::Enter).await;
    }
    page.wait_for_text(".worked .finding", "No way of folding prints this. One change would mend it.").await;
    page.wait_for_text(".worked .way", "Exchange 6 and 7").await;
    page.screenshot("layout-mended").await;
    assert_eq!(page.violations().await, Vec::<String>::new());
    // The button turns the head of the cell that was last in hand.
    page.click("[data-cell=\"B 1 0\"]").await;
    page.click(".layout-foot .button").await;
    page.wait_until("document.querySelector('[data-cell=\"B 1 0\"]').parentElement.className.includes('head-down')")
        .await;
    // A rubbish figure is no figure.
    page.fill("[data-cell=\"A 0 0\"]", "x").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".worked .finding", "fold").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn a_phone_has_room_for_both_sides() {
    let page = Page::open(Setup::phone()).await;
    begin(&page).await;
    page.click(".way-acts .copy").await;
    page.wait_for_text(".worked .finding", "One way").await;
    assert_eq!(page.overflow().await, 0, "nothing scrolls sideways");
    page.screenshot("layout-phone").await;
    assert_eq!(page.violations().await, Vec::<String>::new());
}
