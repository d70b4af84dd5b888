//! Two ways of folding side by side, and the look into the packet, in a real browser.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use fantoccini::key::Key;
use serde_json::json;
use support::chrome::Setup;
use support::page::Page;

const FLAT: &str = "Take the corner and fold.";

/// The rows of the table behind the cut, cells joined by bars.
async fn layers(page: &Page) -> Vec<String> {
    let rows = page
        .eval(
            "return [...document.querySelectorAll('.inside tbody tr')].map(r => [...r.children].map(c => c.textContent).join('|'))",
        )
        .await;
    rows.as_array().unwrap().iter().map(|r| r.as_str().unwrap().to_owned()).collect()
}

/// The order of the layers and which are joined is that of J. B. Nicholson, *A Manual of the Art of Bookbinding* (1878),
/// pp. 35-36: 16 ends outside, and the bolts at head and fore-edge are still closed.
#[tokio::test]
async fn the_packet_is_looked_into_fold_by_fold() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    page.click(".tools .look-inside").await;
    page.wait_until("document.querySelector('.inside .cut svg')").await;
    assert_eq!(layers(&page).await, ["1|7, 10, 11, 6|8, 9, 12, 5|open|open"]);
    for step in 1..=3 {
        page.press(Key::Right).await;
        page.wait_for_step(step).await;
    }
    page.wait_until("document.querySelectorAll('.inside tbody tr').length === 8").await;
    let rows = layers(&page).await;
    assert_eq!(rows.first().map(String::as_str), Some("1|16|15|closed with layer 2|closed with layer 8"));
    assert_eq!(rows.last().map(String::as_str), Some("8|2|1|open|closed with layer 1"));
    page.screenshot("inside-folded").await;
    assert_eq!(page.violations().await, Vec::<String>::new());
    page.press(Key::Right).await;
    page.wait_for_step(4).await;
    page.wait_until("document.querySelector('.inside tbody tr').textContent.includes('slit')").await;
    assert_eq!(layers(&page).await.first().map(String::as_str), Some("1|16|15|slit|closed with layer 8"));
    // Another cut, and a page of it followed.
    page.click(".inside-head .button:nth-child(2)").await;
    page.wait_until("document.querySelector('.inside-head .button:nth-child(2)').ariaPressed === 'true'").await;
    page.eval("document.querySelector('.cut [data-page=\"15\"]').dispatchEvent(new MouseEvent('click', {bubbles: true})); return 1").await;
    page.wait_until("document.querySelector('#page').value === '15'").await;
    page.click(".inside-head .plain").await;
    page.wait_until("document.querySelector('.flat.side-a')").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn two_ways_fold_side_by_side_and_what_differs_is_said() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    page.click(".tools .slip").await;
    page.wait_until("document.querySelector('dialog[open] .two-ways')").await;
    page.click("dialog[open] .two-ways").await;
    page.wait_until("document.querySelector('.bench.beside canvas')").await;
    page.wait_for_text(".differs", "Both lie alike.").await;
    page.eval("const s = document.querySelector('#other-way'); s.value = '0'; s.dispatchEvent(new Event('change', {bubbles: true})); return 1")
        .await;
    page.wait_for_text(".compare select option:checked", "Fold 1 under").await;
    page.focus(".rule input").await;
    for step in 1..=5 {
        page.press(Key::Right).await;
        page.wait_for_step(step).await;
        if step == 2 {
            page.wait_for_text(".differs", "lie otherwise").await;
            page.screenshot("two-ways").await;
            assert_eq!(page.violations().await, Vec::<String>::new());
        }
    }
    // The misfold law, worked out independently of this engine: leaf i stands where i XOR 1 is due, so all are elsewhere.
    page.wait_for_text(".differs", "They part at page 1: 16 pages read otherwise.").await;
    page.kept(async || page.click(".compare .plain").await).await;
    page.wait_until("!document.querySelector('.bench.beside')").await;
    // What was folded stays folded so, and is undone like anything else.
    page.wait_until("document.querySelector('.by-hand .plain')").await;
    page.click(".by-hand .plain").await;
    page.wait_until("document.querySelector('.by-hand').hidden").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn both_fit_a_phone() {
    let page = Page::open(Setup::phone()).await;
    page.wait_for_sentence(FLAT).await;
    page.click(".tools .look-inside").await;
    page.wait_until("document.querySelector('.inside .cut svg')").await;
    assert_eq!(page.overflow().await, 0, "the cut scrolls sideways");
    page.screenshot("inside-phone").await;
    page.click(".inside-head .plain").await;
    page.click(".tools .slip").await;
    page.wait_until("document.querySelector('dialog[open] .two-ways')").await;
    page.click("dialog[open] .two-ways").await;
    page.wait_until("document.querySelector('.bench.beside canvas')").await;
    assert_eq!(page.overflow().await, 0, "two benches scroll sideways");
    let both =
        page.eval("return [...document.querySelectorAll('.bench canvas')].every(c => c.clientHeight > 150)").await;
    assert_eq!(both, json!(true));
    page.screenshot("two-ways-phone").await;
}
