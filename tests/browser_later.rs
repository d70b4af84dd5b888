//! The later parts of the program in a real browser: fetched when they are needed, not before; and where one can't be
//! fetched, a sentence, another try, and nothing lost.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use serde_json::json;
use support::chrome::Setup;
use support::page::Page;

const FLAT: &str = "Take the corner and fold.";
const GATHER: &str = ".rooms .room:nth-child(2)";
const FOLD: &str = ".rooms .room:nth-child(1)";
const MISSING: &str = "could not be loaded. Nothing of yours is lost";

/// The later parts asked for so far.
fn parts(page: &Page) -> Vec<String> {
    let asked = page.site.asked();
    asked.into_iter().filter(|path| path.ends_with(".wasm") && !path.ends_with("_bg.wasm")).collect()
}

async fn offline(page: &Page, offline: bool) {
    let params = json!({ "offline": offline, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1 });
    page.chrome.cdp("Network.emulateNetworkConditions", params).await;
}

#[tokio::test]
async fn a_part_is_fetched_when_it_is_first_needed_and_once() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    page.wait_for_requests_to_settle().await;
    assert_eq!(parts(&page), Vec::<String>::new());

    page.click(GATHER).await;
    page.wait_until("document.querySelector('.room-gather .stack-box svg')").await;
    let gather = parts(&page);
    assert!(gather.iter().any(|path| path.ends_with("_gather.wasm")), "{gather:?}");

    page.click(FOLD).await;
    page.wait_for_sentence(FLAT).await;
    page.click(GATHER).await;
    page.wait_until("document.querySelector('.room-gather .stack-box svg')").await;
    assert_eq!(parts(&page), gather);
    page.click(FOLD).await;
    page.wait_for_sentence(FLAT).await;

    page.click(".tools .slip").await;
    page.wait_until("document.querySelector('dialog[open] .families .button') === document.activeElement").await;
    page.click("dialog[open] .dialog-foot .slip").await;
    page.wait_until("document.querySelector('.maker #rows')").await;
    page.click(".strip-box .title").await;
    page.wait_until("document.querySelector('.room-job #book-title')").await;
    let all = parts(&page);
    for part in ["_gather.wasm", "_dialogs.wasm", "_job.wasm"] {
        assert_eq!(all.iter().filter(|path| path.ends_with(part)).count(), 1, "{all:?}");
    }
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn a_part_that_cannot_be_fetched_says_so_and_is_tried_again() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    page.wait_for_requests_to_settle().await;
    page.fill("#page", "11").await;
    page.wait_until("document.documentElement.dataset.kept !== 'no'").await;
    offline(&page, true).await;

    // In a room: the sentence stands in its place, and the other room is as it was.
    page.click(GATHER).await;
    page.wait_for_text(".later", MISSING).await;
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    page.screenshot("later-missing").await;
    page.click(".later .button").await;
    page.wait_for_text(".later", MISSING).await;
    page.click(FOLD).await;
    page.wait_for_sentence(FLAT).await;

    // In a dialog, which can be closed.
    page.click(".tools .slip").await;
    page.wait_for_text("dialog[open] .later", MISSING).await;
    page.click("dialog[open] .later .in-dialog").await;
    page.wait_until("!document.querySelector('dialog[open]')").await;
    page.click(".tools .slip").await;
    page.wait_for_text("dialog[open] .later", MISSING).await;
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    page.screenshot("later-missing-dialog").await;

    // Back in reach, a new try brings it; and so does asking for it anew.
    offline(&page, false).await;
    page.click("dialog[open] .later .button").await;
    page.wait_until("document.querySelector('dialog[open] .dummy')").await;
    page.press(fantoccini::key::Key::Escape).await;
    page.click(".strip-box .title").await;
    page.wait_until("document.querySelector('.room-job #book-title')").await;
    page.click(GATHER).await;
    page.wait_until("document.querySelector('.room-gather .stack-box svg')").await;
    assert_eq!(page.count("#notice:not([hidden])").await, 0, "the program lives");
}
