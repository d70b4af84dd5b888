//! The Fold room in a real browser: folding by keys, mouse and finger, following a page, making one's own scheme.
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
const ELEVEN: &str = "Side A, inner forme, row 1, column 3, head down; backed by 12, conjugate 6.";

#[tokio::test]
async fn a_sixteen_is_folded_and_read_by_keys_and_unfolded_again() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    let told = [
        "Right over left: 3 falls on 2, 6 on 7; 4, 13 and 5, 12 are now on top.",
        "Top over bottom: 5 falls on 4, 12 on 13; 8, 9 are now on top.",
        "Right over left: 9 falls on 8; 16 is now on top. Slit the bolts: one step on.",
        "The head and fore-edge bolts are slit.",
        "Page 1 is in front. Turn the leaves.",
    ];
    let opened = (1..8).map(|leaf| format!("Open at {} and {}.", 2 * leaf, 2 * leaf + 1));
    let last = "It reads 1, 2, 3 … 16, every page in order.".to_owned();
    let told: Vec<String> = told.map(str::to_owned).into_iter().chain(opened).chain([last]).collect();
    for (step, says) in (1..).zip(&told) {
        page.press(Key::Right).await;
        page.wait_for_step(step).await;
        page.wait_for_sentence(says).await;
        if [1, 3, 5, 8, 13].contains(&step) {
            page.screenshot(&format!("fold-keys-{step:02}")).await;
        }
    }
    // Beyond the end nothing happens.
    page.press(Key::Right).await;
    let backwards = told.iter().rev().skip(1).map(String::as_str).chain([FLAT]);
    for (step, says) in (0..told.len() as u32).rev().zip(backwards) {
        page.press(Key::Left).await;
        page.wait_for_step(step).await;
        page.wait_for_sentence(says).await;
    }
    // The rule is a slider of its own.
    page.tab_to(".rule input").await;
    page.press(Key::End).await;
    page.wait_for_step(13).await;
    page.press(Key::Home).await;
    page.wait_for_step(0).await;
    page.wait_for_sentence(FLAT).await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn the_corner_is_led_across_by_mouse_and_by_finger() {
    let finger = Setup { viewport: (375, 812), scale: 2.0, touch: true, ..Setup::default() };
    for (pointer, setup) in [(Pointer::Mouse, Setup::default()), (Pointer::Touch, finger)] {
        let page = Page::open(setup).await;
        page.wait_for_sentence(FLAT).await;
        let corner = page.grip().await;
        // To the left and a little towards the reader, as the sheet lies.
        let across = (6.0, corner.1 + 0.15 * (corner.0 - 6.0));

        // Midway it stays where it was let go.
        let at = page.lead(pointer, corner, across, 40.0).await;
        assert!((40.0..90.0).contains(&at), "the corner led midway by {pointer:?} is at {at}");
        tokio::time::sleep(Duration::from_millis(500)).await;
        assert_eq!(page.moment().await, at, "let go midway");
        page.wait_for_text(".says", "3 falls on 2").await;
        page.wait_for_text(".says", "come on top").await;
        page.screenshot(if pointer == Pointer::Mouse { "fold-midway" } else { "fold-midway-phone" }).await;

        // Near the end it settles.
        let corner = page.grip().await;
        let at = page.lead(pointer, corner, across, 94.0).await;
        assert!((94.0..100.0).contains(&at), "the corner led near the end by {pointer:?} is at {at}");
        page.wait_for_step(1).await;
        page.wait_for_text(".says", "are now on top").await;

        // The whole way at once: the next fold turns the top down.
        let corner = page.grip().await;
        let canvas = page.middle(".bench canvas").await;
        page.drag(pointer, corner, (corner.0, canvas.1 * 2.0 - 60.0)).await;
        page.wait_for_step(2).await;
        page.wait_for_text(".says", "8, 9 are now on top").await;
        assert_eq!(page.console_errors().await, Vec::<String>::new());
    }
}

#[tokio::test]
async fn the_rule_is_drawn_by_mouse_and_by_finger() {
    let finger = Setup { viewport: (375, 812), scale: 2.0, touch: true, ..Setup::default() };
    for (pointer, setup) in [(Pointer::Mouse, Setup::default()), (Pointer::Touch, finger)] {
        let page = Page::open(setup).await;
        page.wait_for_sentence(FLAT).await;
        let rule = async |at: f64| page.on_rule(at, 3, 8).await;
        page.drag(pointer, rule(0.0).await, rule(1.5).await).await;
        let at = page.moment().await;
        assert!((at - 150.0).abs() < 8.0, "the rule drawn to one and a half by {pointer:?} is at {at}");
        page.wait_for_text(".says", "come on top").await;
        page.drag(pointer, rule(1.5).await, rule(2.97).await).await;
        page.wait_for_step(3).await;
        page.wait_for_sentence("Right over left: 9 falls on 8; 16 is now on top. Slit the bolts: one step on.").await;
        page.drag(pointer, rule(3.0).await, rule(13.0).await).await;
        page.wait_for_step(13).await;
        page.wait_for_text(".says", "every page in order").await;
        page.drag(pointer, rule(13.0).await, rule(0.0).await).await;
        page.wait_for_step(0).await;
        page.wait_for_sentence(FLAT).await;
    }
}

/// The thread's loops: one on the bench, one on side A.
async fn followed_on_bench_and_flat(page: &Page, what: &str) {
    page.wait_until("(document.querySelector('.thread .strand').getAttribute('d') ?? '').length > 100").await;
    let loops = page.loops().await;
    let mut places = (false, false);
    for at in &loops {
        places.0 |= page.lies_in(*at, ".bench canvas").await;
        places.1 |= page.lies_in(*at, ".flat.side-a svg").await;
    }
    assert_eq!((loops.len(), places), (2, (true, true)), "{what}: loops at {loops:?}");
}

async fn followed_nowhere(page: &Page, what: &str) {
    page.wait_until("(document.querySelector('.thread .strand').getAttribute('d') ?? '') === ''").await;
    assert_eq!(page.text(".about").await, "", "{what}");
    assert_eq!(page.value("#page").await, "", "{what}");
}

#[tokio::test]
async fn a_page_is_followed_from_the_box_the_flat_side_and_the_bench() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    followed_nowhere(&page, "at first").await;

    page.fill("#page", "11").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".about", ELEVEN).await;
    followed_on_bench_and_flat(&page, "typed").await;
    page.screenshot("follow-typed").await;
    let mut on_bench = None;
    for at in page.loops().await {
        if page.lies_in(at, ".bench canvas").await {
            on_bench = Some(at);
        }
    }
    let on_bench = on_bench.unwrap();
    page.fill("#page", "").await;
    page.press(Key::Enter).await;
    followed_nowhere(&page, "emptied").await;

    page.click(".flat.side-a [data-page='11']").await;
    page.wait_for_text(".about", ELEVEN).await;
    assert_eq!(page.value("#page").await, "11");
    followed_on_bench_and_flat(&page, "clicked on the flat side").await;
    page.click(".flat.side-a [data-page='11']").await;
    followed_nowhere(&page, "clicked again").await;

    page.tap(Pointer::Mouse, on_bench).await;
    page.wait_for_text(".about", ELEVEN).await;
    followed_on_bench_and_flat(&page, "clicked on the bench").await;
    // It goes along while the sheet is folded, and lies inside in the end.
    for step in 1..=3 {
        page.press(Key::Right).await;
        page.wait_for_step(step).await;
    }
    page.screenshot("follow-folded").await;
    for step in (0..3).rev() {
        page.press(Key::Left).await;
        page.wait_for_step(step).await;
    }
    page.tap(Pointer::Mouse, on_bench).await;
    followed_nowhere(&page, "clicked on the bench again").await;

    // From the keyboard on the flat side.
    page.tab_to(".flat.side-a [data-page]").await;
    page.press(Key::Right).await;
    page.press(Key::Right).await;
    page.press(Key::Enter).await;
    page.wait_for_text(".about", ELEVEN).await;
    followed_on_bench_and_flat(&page, "chosen by keys on the flat side").await;

    // A page that the book has not.
    page.fill("#page", "9999").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".said", "The book has pages 1 to 288.").await;
    page.fill("#page", "six").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".said", "“six” is no folio").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

/// Chooses a crease and a way to fold there, by keys alone, and waits for the fold to be made.
async fn fold_by_keys(page: &Page, crease: &str, way: &str, number: u32) {
    page.tab_to("#crease").await;
    page.type_text(crease).await;
    page.wait_until("document.querySelectorAll('.ways button').length === 4").await;
    for _ in 0..8 {
        page.press(Key::Tab).await;
        if page.eval("return document.activeElement.textContent").await == json!(way) {
            page.press(Key::Enter).await;
            page.wait_until(&format!("document.querySelectorAll('ol.made li').length === {number}")).await;
            page.wait_for_step(number).await;
            return;
        }
    }
    panic!("no button {way} after {crease}");
}

#[tokio::test]
async fn ones_own_scheme_is_made_by_keys_alone() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    page.tab_to(".tools .slip").await;
    page.press(Key::Enter).await;
    page.tab_to("dialog[open] .dialog-foot .slip").await;
    page.screenshot("picker").await;
    page.press(Key::Enter).await;
    page.tab_to("#rows").await;
    page.chord(&[char::from(Key::Control), 'a']).await;
    page.type_text("3").await;
    page.press(Key::Tab).await;
    assert!(page.has_focus("#columns").await);
    assert_eq!(page.value("#columns").await, "4");
    page.screenshot("maker-blank").await;

    fold_by_keys(&page, "level, 2", "Bottom over top", 1).await;
    page.screenshot("maker-one-fold").await;
    fold_by_keys(&page, "level, 1", "Top over bottom", 2).await;
    fold_by_keys(&page, "upright, 2", "Right over left", 3).await;
    fold_by_keys(&page, "upright, 1", "Right over left", 4).await;
    page.wait_for_text(".maker", "It is down to one page.").await;
    page.screenshot("maker-finished").await;
    page.tab_to(".rule input").await;
    page.press(Key::End).await;
    // Four folds, slit, turned to the front, twelve leaves.
    page.wait_for_step(4 + 2 + 12).await;
    page.wait_for_text(".says", "It reads 1, 2, 3 … 24, every page in order.").await;

    // Any fold can be taken back; undone and redone.
    let folds = async || page.count("ol.made li").await;
    page.tab_to("ol.made li:nth-child(3) button").await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelectorAll('ol.made li').length === 3").await;
    page.screenshot("maker-taken-back").await;
    let (control, shift) = (char::from(Key::Control), char::from(Key::Shift));
    page.chord(&[control, 'z']).await;
    page.wait_until("document.querySelectorAll('ol.made li').length === 4").await;
    page.chord(&[control, shift, 'Z']).await;
    page.wait_until("document.querySelectorAll('ol.made li').length === 3").await;
    page.chord(&[control, 'z']).await;
    page.chord(&[control, 'z']).await;
    page.wait_until("document.querySelectorAll('ol.made li').length === 3").await;
    page.chord(&[control, 'y']).await;
    page.wait_until("document.querySelectorAll('ol.made li').length === 4").await;
    assert_eq!(folds().await, 4);

    // The head at the other end, and reading from right to left, still read in order.
    page.tab_to(".maker button[aria-pressed='false']").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".maker button[aria-pressed='true']", "Head bottom").await;
    page.tab_to(".rule input").await;
    page.press(Key::End).await;
    page.wait_for_text(".says", "It reads 1, 2, 3 … 24, every page in order.").await;

    // Done leaves the maker and names the scheme.
    page.tab_to(".maker > .plain").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".tools .slip", "24 pages").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn a_crease_is_pointed_at_on_the_bench() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    page.click(".tools .slip").await;
    page.click("dialog[open] .dialog-foot .slip").await;
    // The middle of a two by four sheet is where both middle creases cross.
    let middle = page.middle(".bench canvas").await;
    page.tap(Pointer::Mouse, middle).await;
    page.wait_until("document.querySelectorAll('.ways button').length === 4").await;
    page.screenshot("maker-crease").await;
}

#[tokio::test]
async fn a_sheet_of_a_thousand_panels_is_taken_and_no_larger_one() {
    let page = Page::open(Setup::default()).await;
    page.click(".tools .slip").await;
    page.click("dialog[open] .dialog-foot .slip").await;
    page.fill("#rows", "99").await;
    page.press(Key::Tab).await;
    page.fill("#columns", "32").await;
    page.press(Key::Tab).await;
    page.wait_for_text(".tools .slip", "2048 pages").await;
    assert_eq!(page.value("#rows").await, "32");
    page.wait_for_sentence("Point at a crease, then choose the part that moves.").await;
    page.screenshot("maker-large").await;
    fold_by_keys(&page, "upright, 16", "Right under left", 1).await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn less_motion_and_forced_colours_are_respected() {
    let page = Page::open(Setup::default()).await;
    page.preferences(&[("prefers-reduced-motion", "reduce")]).await;
    page.wait_for_sentence(FLAT).await;
    // A step jumps: no moment between the two is ever seen.
    page.eval(
        "globalThis.seen = new Set();
         const look = () => { seen.add(document.querySelector('.rule input').value); requestAnimationFrame(look); };
         look()",
    )
    .await;
    for step in 1..=6 {
        page.press(Key::Right).await;
        page.wait_for_step(step).await;
    }
    let seen = page.eval("return [...seen].map(Number)").await;
    let between = seen.as_array().unwrap().iter().filter(|v| v.as_f64().unwrap() % 100.0 != 0.0).count();
    assert_eq!(between, 0, "{seen}");

    for step in (0..6).rev() {
        page.press(Key::Left).await;
        page.wait_for_step(step).await;
    }
    page.preferences(&[("forced-colors", "active")]).await;
    page.fill("#page", "11").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".about", ELEVEN).await;
    page.screenshot("forced-colours").await;
    page.press(Key::Tab).await;
    page.eval("document.activeElement.blur()").await;
    page.press(Key::Right).await;
    page.wait_for_step(1).await;
    page.screenshot("forced-colours-folded").await;
    page.preferences(&[("forced-colors", "active"), ("prefers-color-scheme", "dark")]).await;
    tokio::time::sleep(Duration::from_millis(300)).await;
    page.screenshot("forced-colours-dark").await;
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe, forced colours");
}

#[tokio::test]
async fn a_leaf_is_drawn_across_and_falls_to_the_nearer_side() {
    let page = Page::open(Setup::default()).await;
    page.focus(".rule input").await;
    page.press(Key::End).await;
    page.wait_for_text(".says", "every page in order").await;
    let (x, y) = page.middle(".bench canvas").await;
    // The section lies open at its end, with all leaves at the left.
    page.drag(Pointer::Mouse, (x - 60.0, y), (x + 160.0, y)).await;
    page.wait_for_text(".says", "Open at 14 and 15.").await;
    page.drag(Pointer::Mouse, (x + 60.0, y), (x - 160.0, y)).await;
    page.wait_for_text(".says", "every page in order").await;
}

#[tokio::test]
async fn both_sides_are_seen_as_their_formes_lie_and_a_followed_page_with_them() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
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
