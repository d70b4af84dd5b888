//! The room Job in a real browser: a book is planned, made up, marked, kept.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use fantoccini::key::Key;
use serde_json::json;
use support::chrome::Setup;
use support::page::Page;

async fn job(setup: Setup) -> Page {
    let page = Page::open(setup).await;
    page.wait_for_sentence("Take the corner and fold.").await;
    page.click(".rooms nav .room:last-child").await;
    page.wait_until("document.querySelector('.room-job .book-row')").await;
    page
}

async fn part(page: &Page, nth: u32) {
    page.click(&format!(".parts .part:nth-child({nth})")).await;
    page.wait_until(&format!("document.querySelector('.parts .part:nth-child({nth})').ariaPressed === 'true'")).await;
}

/// Types into a field and leaves it.
async fn put(page: &Page, css: &str, text: &str) {
    page.fill(css, text).await;
    page.press(Key::Tab).await;
}

/// A book of 360 pages in thirty-twos: eleven of them, and the odd eight last but one (Cockerell, *Bookbinding and the Care
/// of Books*, 1901, ch. IV: an odd part sheet does not stand at the end of a book).
#[tokio::test]
async fn a_book_is_planned_made_up_and_opened_on_the_bench() {
    let page = job(Setup::default()).await;
    page.wait_for_text(".job-says", "288 pages: 18 sections of 16.").await;
    page.screenshot("job-pages").await;
    put(&page, "#run-1-pages", "360").await;
    page.wait_for_text(".job-wrong", "72 find no place").await;
    part(&page, 2).await;
    put(&page, "#made-up", "10x32 8 32").await;
    let plan = "[...document.querySelectorAll('.plan')].find((p) => p.querySelector('.plan-title').textContent.includes('11 sections of 32 and 1 of 8'))";
    page.wait_until(plan).await;
    page.screenshot("job-plans").await;
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    page.kept(async || {
        page.eval(&format!("{plan}.querySelector('.button.slip').click()")).await;
    })
    .await;
    page.wait_for_text(".job-says", "360 pages: 11 sections of 32 and 1 of 8.").await;
    page.wait_until("document.querySelector('.job-wrong').hidden").await;
    page.wait_until("document.querySelectorAll('.strip [role=option]').length === 12").await;
    page.wait_for_text(".otherwise", "Section 11: 8 pages").await;
    page.screenshot("job-made-up").await;
    // The eight on the bench: pages 321 to 328.
    page.click(".otherwise .on-bench").await;
    page.wait_for_sentence("Take the corner and fold.").await;
    page.wait_until("document.querySelector('.flat [data-page]')").await;
    let pages = "return [...document.querySelectorAll('.flats [data-page]')].map((p) => Number(p.getAttribute('aria-label').match(/[0-9]+/)[0])).sort((a, b) => a - b)";
    assert_eq!(page.eval(pages).await, json!([321, 322, 323, 324, 325, 326, 327, 328]));
    page.screenshot("job-eight").await;
    // And it is there again after the browser has died.
    let page = page.after_a_crash().await;
    page.wait_until("document.querySelectorAll('.strip [role=option]').length === 12").await;
    page.wait_until("document.querySelector('.flat [data-page]')").await;
    assert_eq!(page.eval(pages).await, json!([321, 322, 323, 324, 325, 326, 327, 328]));
    page.click(".rooms nav .room:last-child").await;
    page.wait_for_text(".job-says", "360 pages: 11 sections of 32 and 1 of 8.").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn folios_are_shown_as_they_are_printed() {
    let page = job(Setup::default()).await;
    page.click(".runs + .job-row .button").await;
    page.wait_until("document.querySelectorAll('.runs li').length === 2").await;
    page.wait_for_text(".book-row", "xvi").await;
    put(&page, "#find-folio", "xii").await;
    page.wait_for_text(".found", "page 12").await;
    // Page 17 of the book is printed 1; where a page is spoken of, both are said.
    page.click(".rooms nav .room:first-child").await;
    page.fill("#page", "17").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".about", "printed 1").await;
    page.screenshot("job-folio").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

/// Twenty-four levels of 6 mm from 30 mm are as many as stand on the spine: with 25 sections, 1 and 25 share one.
#[tokio::test]
async fn a_blind_spot_is_told_and_its_change_removes_it() {
    let page = job(Setup::default()).await;
    part(&page, 2).await;
    put(&page, "#sections", "25").await;
    page.wait_for_text(".job-says", "25 sections of 16").await;
    part(&page, 3).await;
    for (field, text) in [("#first", "30"), ("#step", "6"), ("#length", "6"), ("#levels", "24")] {
        put(&page, field, text).await;
    }
    page.wait_for_text(".spine-figure", "begins again once, after section 24").await;
    let spot = "[...document.querySelectorAll('.spots li')].find((s) => s.textContent.includes('1 and 25'))";
    page.wait_until(spot).await;
    page.screenshot("job-blind").await;
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    page.eval(&format!("{spot}.querySelector('.change').click()")).await;
    page.wait_until(&format!("document.querySelector('.blind h2') && !({spot})")).await;
    page.screenshot("job-mended").await;
    page.eval("document.activeElement.blur()").await;
    page.chord(&[char::from(Key::Control), 'z']).await;
    page.wait_until(spot).await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn all_of_it_by_keyboard() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence("Take the corner and fold.").await;
    page.focus(".rooms nav .room:last-child").await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('.room-job .book-row')").await;
    page.tab_to(".parts .part:nth-child(3)").await;
    page.press(Key::Enter).await;
    page.tab_to("#step").await;
    // An arrow key changes a number at once, and the picture with it.
    page.press(Key::Down).await;
    page.wait_until("document.querySelector('#step').value === '8.5'").await;
    page.wait_for_text(".spine-figure", "that of section 18 at 164.5 mm").await;
    page.tab_to("#after-wrap").await;
    page.press(Key::Down).await;
    page.wait_until("document.querySelector('#apart')").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn it_fits_a_phone_and_a_projector() {
    for (name, setup) in
        [("phone", Setup::phone()), ("projector", Setup { viewport: (1920, 1080), ..Setup::default() })]
    {
        let page = job(setup).await;
        for (nth, part_name) in [(1, "pages"), (2, "sections"), (3, "marks"), (4, "case"), (5, "file")] {
            part(&page, nth).await;
            if nth == 2 {
                page.wait_until("document.querySelector('.plan')").await;
            }
            if nth == 3 {
                page.wait_until("document.querySelector('.spots')").await;
            }
            if nth == 4 {
                page.wait_until("document.querySelector('.case-drawn')").await;
            }
            page.screenshot(&format!("job-{part_name}-{name}")).await;
            assert_eq!(page.overflow().await, 0, "{part_name} scrolls sideways on the {name}");
            assert_eq!(page.violations().await, Vec::<String>::new(), "axe: {part_name}, {name}");
        }
        assert_eq!(page.console_errors().await, Vec::<String>::new());
    }
}
