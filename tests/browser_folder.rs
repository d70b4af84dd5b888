//! The folder's pane in a real browser: the set-up sheet drawn and in words, within the page at every width.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use support::chrome::Setup;
use support::page::Page;

async fn folder(setup: Setup) -> Page {
    let page = Page::open(setup).await;
    page.wait_for_sentence("Take the corner and fold.").await;
    page.click(".tools .look-inside").await;
    page.wait_until("document.querySelector('.tabs')").await;
    page.click(".tabs .plain:nth-child(5)").await;
    page.wait_until("document.querySelector('.setup-drawing svg')").await;
    page
}

#[tokio::test]
async fn the_set_up_sheet_is_drawn_and_told() {
    let page = folder(Setup::default()).await;
    page.wait_for_text(".setup-lines", "Guards stay shut").await;
    page.wait_for_text(".setup-lines", "side A up").await;
    page.click(".folder-tools .button:first-child").await;
    page.wait_for_text(".setup-lines", "side B up").await;
    assert_eq!(page.violations().await, Vec::<String>::new());
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn both_sides_are_seen_as_their_formes_lie_and_a_followed_page_with_them() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence("Take the corner and fold.").await;
    let left_of = "(() => { const x = n => document.querySelector(`.side-a [data-page=\"${n}\"] .hit`)\
        .getBoundingClientRect().left; return x(7) < x(6); })()";
    page.wait_until(left_of).await;
    page.click(".flat-head [title*=mirrored]").await;
    page.wait_until(&format!("!{left_of}")).await;
    // Through the paper is another way to see it.
    page.click(".flat-head [title*=through]").await;
    page.wait_until(left_of).await;
    page.wait_until("document.querySelector('.flat.through')").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn it_fits_a_phone() {
    let page = folder(Setup::phone()).await;
    assert_eq!(page.overflow().await, 0, "the set-up sheet scrolls sideways");
}
