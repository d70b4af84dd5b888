//! Slit sheets in a real browser: sixty-four pages to a side slit, folded and read to the end, gathered; twelves with their
//! off-cut; a half-sheet made by hand.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use fantoccini::key::Key;
use support::chrome::Setup;
use support::page::Page;

/// Chooses a course by the number of its family, from 1, and its name.
async fn choose(page: &Page, family: u32, name: &str) {
    page.click(".tools .slip").await;
    page.wait_until("document.querySelector('dialog[open] .families')").await;
    page.click(&format!("dialog[open] .families .button:nth-child({family})")).await;
    let find =
        format!("[...document.querySelectorAll('dialog[open] .dummy')].find(d => d.textContent.includes('{name}'))");
    page.wait_until(&find).await;
    page.eval(&format!("{find}.click()")).await;
    page.wait_until("!document.querySelector('dialog[open]')").await;
}

/// One step on, up to this one. The rule is given the keys first: what is drawn anew meanwhile may have taken them.
async fn step_to(page: &Page, step: u32) {
    page.focus(".rule input").await;
    page.press(Key::Right).await;
    page.wait_for_step(step).await;
}

#[tokio::test]
async fn a_sheet_of_a_hundred_and_twenty_eight_pages_is_slit_folded_gathered_and_read() {
    let page = Page::open(Setup::default()).await;
    choose(&page, 3, "four thirty-twos").await;
    page.wait_for_sentence("Slit the sheet: one step on.").await;
    page.wait_for_text(".tools .slip", "Sixty-four to a side, four thirty-twos").await;
    page.wait_until("document.querySelector('.pieces option')").await;
    assert_eq!(page.count(".pieces option").await, 5, "the whole sheet and four pieces");
    page.focus(".rule input").await;
    step_to(&page, 1).await;
    page.wait_for_sentence("The sheet is slit, and its parts go on separately.").await;
    step_to(&page, 2).await;
    page.wait_for_sentence("2 parts are slit again.").await;
    page.screenshot("sheet-parted").await;
    step_to(&page, 3).await;
    page.wait_for_sentence("4 pieces: top over bottom.").await;
    for step in 4..=6 {
        step_to(&page, step).await;
    }
    page.screenshot("sheet-folded").await;
    // A page of another section takes that section to the front, and every page of it follows.
    page.fill("#page", "70").await;
    page.focus("#page").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".page-box .about", "Side A, inner forme, row 1, column 8, head down").await;
    page.wait_until("document.querySelector('.pieces select').value === 'whole'").await;
    page.focus(".rule input").await;
    step_to(&page, 7).await;
    step_to(&page, 8).await;
    page.wait_for_sentence("Page 65 is in front. Turn the leaves.").await;
    for turned in 1..16 {
        step_to(&page, 8 + turned).await;
        let (left, right) = (64 + 2 * turned, 65 + 2 * turned);
        page.wait_for_sentence(&format!("Open at {left} and {right}.")).await;
    }
    page.screenshot("sheet-open").await;
    step_to(&page, 24).await;
    page.wait_for_sentence("It reads 65, 66, 67 … 96, every page in order.").await;
    assert_eq!(page.violations().await, Vec::<String>::new());
    // The gathered book of such sections is in order.
    page.click(".rooms .room:nth-child(2)").await;
    page.wait_until("document.querySelector('.verdict, .finds, .stack')").await;
    page.screenshot("sheet-gathered").await;
    // One piece by itself is a sheet like any other.
    page.click(".rooms .room:nth-child(1)").await;
    page.eval(
        "const s = document.querySelector('.pieces select'); s.value = '1'; s.dispatchEvent(new Event('change', { bubbles: true }))",
    )
    .await;
    page.wait_for_sentence("Take the corner and fold.").await;
    page.screenshot("sheet-piece").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn an_off_cut_slides_into_the_middle() {
    let page = Page::open(Setup { viewport: (375, 812), touch: true, ..Setup::default() }).await;
    choose(&page, 2, "Twelves, off-cut inset").await;
    page.wait_for_sentence("Slit the sheet: one step on.").await;
    page.wait_for_text(".tools .slip", "Twelves, off-cut inset").await;
    for step in 1..=4 {
        step_to(&page, step).await;
    }
    step_to(&page, 5).await;
    page.wait_for_sentence(
        "The piece with 9 to 16 lies now in the middle of that with 1 to 24. Slit the bolts: one step on.",
    )
    .await;
    page.press(Key::End).await;
    page.wait_for_sentence("It reads 1, 2, 3 … 24, every page in order.").await;
    page.screenshot("sheet-twelves-375").await;
    assert_eq!(page.overflow().await, 0);
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn a_half_sheet_is_made_by_hand() {
    let page = Page::open(Setup::default()).await;
    page.click(".tools .slip").await;
    page.wait_until("document.querySelector('dialog[open] .dialog-foot .slip')").await;
    page.click("dialog[open] .dialog-foot .slip").await;
    page.wait_until("document.querySelector('.maker #crease')").await;
    let press = async |name: &str| {
        let find = format!(
            "[...document.querySelectorAll('.maker button')].find(b => b.textContent === '{name}' && !b.hidden)"
        );
        page.wait_until(&find).await;
        page.eval(&format!("{find}.click()")).await;
    };
    // The middle crease is considered at first.
    press("Slit here").await;
    page.wait_for_text(".sheet-says", "Piece 1 is still 2 by 2 panels, larger than a page: fold it on, or slit it.")
        .await;
    let crease = async |value: &str| {
        page.wait_until("document.querySelector('.maker #crease')").await;
        page.eval(&format!(
            "const s = document.querySelector('#crease'); const o = [...s.options].find(o => o.textContent.startsWith('{value}')); \
             s.value = o.value; s.dispatchEvent(new Event('change', {{ bubbles: true }}))"
        ))
        .await;
    };
    crease("level").await;
    press("Top over bottom").await;
    press("Right over left").await;
    page.eval(
        "const s = document.querySelector('.pieces select'); s.value = '1'; s.dispatchEvent(new Event('change', { bubbles: true }))",
    )
    .await;
    page.wait_until("document.querySelectorAll('.made button').length === 0 || document.querySelector('.pieces select').value === '1'").await;
    crease("level").await;
    press("Bottom under top").await;
    press("Right over left").await;
    press("Head bottom").await;
    page.eval(
        "const s = document.querySelectorAll('.together select')[1]; s.value = 'copy-0'; s.dispatchEvent(new Event('change', { bubbles: true }))",
    )
    .await;
    page.wait_for_text(".sheet-says", "One forme prints both sides: work and turn.").await;
    page.screenshot("sheet-half").await;
    assert_eq!(page.violations().await, Vec::<String>::new());
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}
