//! The bench and the spine before a class, in a real browser: figures measured, every key, remotes, taps, questions against the engine.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use backmark::fold::{Face, Folding, Landing, courses};
use fantoccini::key::Key;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use support::chrome::Setup;
use support::page::{Page, Pointer};

const SIXTEEN: &str = "Sixteen, three folds";

/// Opens the part of the room where a class is begun.
async fn room(setup: Setup) -> Page {
    let page = Page::open(setup).await;
    page.click(".rooms .room:nth-child(4)").await;
    page.click(".room-class .parts .part:nth-child(5)").await;
    page.wait_until("document.querySelector('.show-choose .show-section')").await;
    page
}

/// Begins with what a button shows.
async fn begin(page: &Page, css: &str) {
    page.click(css).await;
    page.wait_until("document.querySelector('.show')?.contains(document.activeElement)").await;
}

/// Begins with a course of the first family.
async fn begin_course(page: &Page, name: &str) {
    let find =
        format!("[...document.querySelectorAll('.show-dummies .dummy')].find(d => d.textContent.includes('{name}'))");
    page.wait_until(&find).await;
    page.eval(&format!("const d = {find}; d.focus(); d.click()")).await;
    page.wait_until("document.querySelector('.show')?.contains(document.activeElement)").await;
}

async fn at_size(width: u32, height: u32) -> Page {
    room(Setup { viewport: (width, height), ..Setup::default() }).await
}

/// Waits until so many steps are made and the sheet rests, so that the next question is asked.
async fn step(page: &Page, step: u32) {
    page.wait_until(&format!("document.querySelector('.show[data-step=\"{step}\"][data-rests=true]')")).await;
}

async fn asks(page: &Page, says: &str) {
    page.wait_until(&format!("document.querySelector('.show .asks').textContent === {}", json!(says))).await;
}

/// What stands on the slips.
async fn slips(page: &Page) -> Vec<String> {
    let texts = page.eval("return [...document.querySelectorAll('.answer-slip')].map(s => s.textContent)").await;
    texts.as_array().unwrap().iter().map(|t| t.as_str().unwrap().to_owned()).collect()
}

async fn letter(page: &Page, text: &str) {
    page.type_text(text).await;
}

async fn covered(page: &Page) -> usize {
    page.count(".show .flat [data-covered]").await
}

async fn leave(page: &Page) {
    page.press(Key::Escape).await;
    page.wait_until("!document.querySelector('.show')").await;
}

/// How high each figure on the flat sides stands in ink, in CSS pixels, by the outlines of the typeface.
async fn figures(page: &Page) -> Vec<(String, f64)> {
    let body = "
        const pen = document.createElement('canvas').getContext('2d');
        pen.font = '600 1000px Folio';
        return [...document.querySelectorAll('.show .flat [data-page] .figure')].map((text) => {
            const m = text.getScreenCTM(), ink = pen.measureText(text.textContent);
            const size = Number(text.getAttribute('font-size')) * Math.hypot(m.a, m.b);
            return [text.textContent, (ink.actualBoundingBoxAscent + ink.actualBoundingBoxDescent) / 1000 * size];
        })";
    let found: Value = page.eval(body).await;
    found.as_array().unwrap().iter().map(|f| (f[0].as_str().unwrap().to_owned(), f[1].as_f64().unwrap())).collect()
}

/// What is wrong with the picture as a whole: it scrolls, words are cut off or too small for the back row.
async fn ill_fitting(page: &Page) -> Vec<String> {
    let body = "
        const wrong = [], root = document.documentElement, show = document.querySelector('.show');
        if (root.scrollHeight > innerHeight || root.scrollWidth > innerWidth) wrong.push('the page scrolls');
        if (show.scrollHeight > show.clientHeight || show.scrollWidth > show.clientWidth) wrong.push('the picture scrolls');
        const front = document.querySelector('.show-front');
        if (front.scrollHeight > front.clientHeight + 1) wrong.push(`the words are cut off: ${front.scrollHeight} of ${front.clientHeight}`);
        const inside = show.getBoundingClientRect();
        for (const e of show.querySelectorAll('.flat svg, .show-bench canvas, .show-strip svg, .show-spine svg')) {
            const r = e.getBoundingClientRect();
            if (r.right > inside.right + 1 || r.bottom > inside.bottom + 1 || r.left < -1 || r.top < -1) wrong.push(`${e.parentElement.className} leaves the window`);
        }
        for (const e of show.querySelectorAll('.asks, .told, .show-title, .flat-head span, .show-verdict h2, .show-verdict p')) {
            if (!e.textContent || !e.getClientRects().length) continue;
            const size = parseFloat(getComputedStyle(e).fontSize);
            if (size < 26) wrong.push(`${e.className}: ${size} px`);
        }
        return wrong";
    let found = page.eval(body).await;
    found.as_array().unwrap().iter().map(|w| w.as_str().unwrap().to_owned()).collect()
}

#[tokio::test]
async fn figures_are_a_twelfth_of_the_picture_and_nothing_scrolls() {
    for (width, height) in [(1920, 1080), (1366, 768), (1280, 720), (1024, 768)] {
        let page = at_size(width, height).await;
        begin_course(&page, SIXTEEN).await;
        asks(&page, "Right over left. Which four pages come on top?").await;
        let all = figures(&page).await;
        assert_eq!(all.len(), 16, "both sides at once");
        for (figure, high) in &all {
            assert!(*high >= f64::from(height) / 12.0, "{figure} is {high} px high at {width} x {height}");
        }
        assert_eq!(ill_fitting(&page).await, Vec::<String>::new(), "{width} x {height}");
        page.screenshot(&format!("show-flat-{width}")).await;
        letter(&page, " ").await;
        step(&page, 1).await;
        page.press(Key::Enter).await;
        page.screenshot(&format!("show-fold-{width}")).await;
        assert_eq!(ill_fitting(&page).await, Vec::<String>::new(), "{width} x {height}, folded");
        page.press(Key::End).await;
        step(&page, 3).await;
        assert_eq!(ill_fitting(&page).await, Vec::<String>::new(), "{width} x {height}, folded up");
        letter(&page, "g").await;
        page.wait_until("document.querySelector('.show.of-spine')").await;
        page.press(Key::End).await;
        page.press(Key::Enter).await;
        page.wait_until("document.querySelector('.show-verdict h2')").await;
        assert_eq!(ill_fitting(&page).await, Vec::<String>::new(), "{width} x {height}, spine");
        page.screenshot(&format!("show-spine-{width}")).await;
        leave(&page).await;
        // The job's own section, and one whose figures have two digits all over.
        begin(&page, ".show-section").await;
        step(&page, 0).await;
        for section in 1..=2 {
            if section == 2 {
                page.press(Key::Down).await;
                page.wait_until("document.querySelector('.show .flat [data-page=\"17\"]')").await;
            }
            let all = figures(&page).await;
            assert_eq!(all.len(), 16, "both sides at once, section {section}, {width} x {height}");
            for (figure, high) in &all {
                assert!(*high >= f64::from(height) / 12.0, "{figure} is {high} px high at {width} x {height}");
            }
        }
        assert_eq!(page.console_errors().await, Vec::<String>::new());
    }
}

#[tokio::test]
async fn keys_and_a_remote_fold_and_unfold() {
    let page = at_size(1366, 768).await;
    begin_course(&page, SIXTEEN).await;
    step(&page, 0).await;
    let mut made = 0;
    for on in [" ", "\u{e014}", "\u{e00f}"] {
        // Space, the right arrow, Page Down.
        letter(&page, on).await;
        made += 1;
        step(&page, made).await;
    }
    for back in ["\u{e003}", "\u{e00e}", "\u{e012}"] {
        // Backspace, Page Up, the left arrow.
        letter(&page, back).await;
        made -= 1;
        step(&page, made).await;
    }
    // Enter answers, and then folds.
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('.answer-slip').textContent === '5'").await;
    assert_eq!(slips(&page).await, ["5", "12", "4", "13"]);
    assert_eq!(page.eval("return document.querySelector('.show').dataset.step").await, json!("0"));
    page.press(Key::Enter).await;
    step(&page, 1).await;
    assert_eq!(slips(&page).await, ["", ""], "the next answer is blank");
    letter(&page, "a").await;
    page.wait_until("document.querySelector('.answer-slip').textContent === '8'").await;
    page.press(Key::End).await;
    step(&page, 3).await;
    page.press(Key::Home).await;
    step(&page, 0).await;
    // Turned over, a fold is called as it is seen.
    letter(&page, "t").await;
    asks(&page, "Left under right. Which four pages come underneath?").await;
    letter(&page, "t").await;
    asks(&page, "Right over left. Which four pages come on top?").await;
    // Sections of the book.
    page.press(Key::Down).await;
    page.wait_for_text(".show-title", "section 2").await;
    page.wait_until("document.querySelector('.show .flat [data-page=\"17\"]')").await;
    page.press(Key::Up).await;
    page.wait_for_text(".show-title", "section 1").await;
    // One side alone, the other one, both.
    letter(&page, "s").await;
    page.wait_until("document.querySelectorAll('.show .flat').length === 1 && document.querySelector('.show .side-a')")
        .await;
    letter(&page, "s").await;
    page.wait_until("document.querySelectorAll('.show .flat').length === 1 && document.querySelector('.show .side-b')")
        .await;
    letter(&page, "s").await;
    page.wait_until("document.querySelectorAll('.show .flat').length === 2").await;
    // The line of keys fades, and comes back.
    let faded = "getComputedStyle(document.querySelector('.key-line')).opacity === '0'";
    page.wait_until(faded).await;
    letter(&page, "h").await;
    page.wait_until(&format!("!({faded})")).await;
    // Keys of the job do nothing here.
    page.chord(&[char::from(Key::Control), 'z']).await;
    assert_eq!(page.violations().await, Vec::<String>::new());
    leave(&page).await;
    assert!(page.has_focus(".show-dummies .dummy").await, "whoever had the focus has it again");
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn a_blank_screen_a_held_picture_and_the_whole_screen() {
    let page = at_size(1366, 768).await;
    begin_course(&page, SIXTEEN).await;
    step(&page, 0).await;
    for key in ["b", "."] {
        letter(&page, key).await;
        page.wait_until("!document.querySelector('.show-blank').hidden").await;
        let black = page
            .eval("const r = document.querySelector('.show-blank').getBoundingClientRect(); return [r.width, r.height]")
            .await;
        assert_eq!(black, json!([1366, 768]));
        letter(&page, " ").await;
        page.wait_until("document.querySelector('.show-blank').hidden").await;
        assert_eq!(
            page.eval("return document.querySelector('.show').dataset.step").await,
            json!("0"),
            "it only shows again"
        );
    }
    // Held: what the class sees stays, and the corner says what is ready.
    letter(&page, "f").await;
    page.wait_for_text(".show-note", "Held: the class sees the picture from before.").await;
    page.press(Key::End).await;
    letter(&page, "n").await;
    page.wait_for_text(".show-note", "section 1, step 3, figures covered").await;
    assert_eq!(covered(&page).await, 0);
    asks(&page, "Right over left. Which four pages come on top?").await;
    page.screenshot("show-held").await;
    letter(&page, "f").await;
    step(&page, 3).await;
    assert_eq!(covered(&page).await, 16);
    assert!(page.eval("return document.querySelector('.show-note').hidden").await == json!(true));
    // F5 must not load the page anew, which would lose what is shown.
    page.eval("window.stillHere = true").await;
    letter(&page, "\u{e035}").await;
    step(&page, 3).await;
    assert_eq!(page.eval("return window.stillHere").await, json!(true));
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn figures_are_covered_and_guessed_one_by_one() {
    let page = at_size(1366, 768).await;
    begin_course(&page, SIXTEEN).await;
    step(&page, 0).await;
    letter(&page, "n").await;
    page.wait_until("document.querySelectorAll('.show .flat [data-covered]').length === 16").await;
    assert_eq!(figures(&page).await, [], "no figure is left to read");
    let names = page
        .eval("return [...document.querySelectorAll('.show .flat [data-face]')].map(f => f.getAttribute('aria-label'))")
        .await;
    assert!(names.as_array().unwrap().iter().all(|n| n == "covered"), "{names}");
    page.screenshot("show-covered").await;
    assert_eq!(page.violations().await, Vec::<String>::new());
    // A click shows one.
    page.click(".show .side-a [data-page='15']").await;
    page.wait_until("document.querySelectorAll('.show .flat [data-covered]').length === 15").await;
    assert_eq!(figures(&page).await.iter().map(|f| f.0.as_str()).collect::<Vec<_>>(), ["15"]);
    // What a fold did is told without figures.
    letter(&page, " ").await;
    step(&page, 1).await;
    assert_eq!(page.text(".show .told").await, "Right over left.");
    page.press(Key::Left).await;
    step(&page, 0).await;
    // The pointer asks for the page where it is; keys alone show it.
    letter(&page, "p").await;
    asks(&page, "Which page is here?").await;
    page.press(Key::Right).await;
    page.press(Key::Down).await;
    // That one was shown by the click.
    asks(&page, "Right over left. Which four pages come on top?").await;
    page.press(Key::Right).await;
    asks(&page, "Which page is here?").await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelectorAll('.show .flat [data-covered]').length === 14").await;
    page.wait_for_text(".show .told", "14 lies on top.").await;
    letter(&page, "c").await;
    page.wait_until("document.querySelectorAll('.show .flat [data-covered]').length === 15").await;
    letter(&page, "p").await;
    letter(&page, "n").await;
    page.wait_until("document.querySelectorAll('.show .flat [data-covered]').length === 0").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn the_pointer_leads_the_thread_to_a_page_in_all_its_places() {
    let page = at_size(1920, 1080).await;
    begin_course(&page, SIXTEEN).await;
    step(&page, 0).await;
    letter(&page, "p").await;
    page.wait_until("document.querySelector('.show .thread .strand').getAttribute('d')").await;
    page.press(Key::Right).await;
    page.press(Key::Right).await;
    page.wait_for_text(".show .told", "11 lies on top.").await;
    letter(&page, "\u{e00f}").await;
    step(&page, 1).await;
    letter(&page, "\u{e00f}").await;
    page.wait_for_text(".show .told", "11 lies inside, under 10.").await;
    // The thread begins at the slip of the section, and its loop lies around 11 on side A.
    let ends = page
        .eval(
            "const d = document.querySelector('.show .thread .strand').getAttribute('d');
             const cell = document.querySelector('.show .flat [data-page=\"11\"] .hit').getBoundingClientRect();
             const slip = document.querySelector('.show .strip [data-place=\"1\"] .slip-paper').getBoundingClientRect();
             const near = (r) => d.match(/[-\\d.]+ [-\\d.]+/g).map((p) => p.split(' ').map(Number))
                 .some(([x, y]) => r.left <= x && x <= r.right && r.top <= y && y <= r.bottom);
             return [near(cell), near(slip)]",
        )
        .await;
    assert_eq!(ends, json!([true, true]));
    // The ring goes with the mouse.
    page.pointer_path(Pointer::Mouse, &[(500.0, 400.0), (640.0, 420.0)]).await;
    page.wait_until("document.querySelector('.show-ring g').getAttribute('transform') === 'translate(640 420)'").await;
    page.screenshot("show-pointer").await;
    assert_eq!(page.violations().await, Vec::<String>::new());
    letter(&page, "p").await;
    page.wait_until("!document.querySelector('.show .thread .strand').getAttribute('d')").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

/// What lies uppermost that did not before, by the packets themselves.
fn comes_on_top(name: &str) -> Vec<BTreeSet<u32>> {
    let course = courses().into_iter().find(|n| n.name == name).unwrap().course;
    let scheme = course.scheme().unwrap();
    let (folding, landing) = (Folding::of(&scheme).unwrap(), Landing::of(&scheme).unwrap());
    let top =
        |made: usize| -> BTreeSet<Face> { folding.packet(made).uppermost().into_iter().flatten().flatten().collect() };
    (0..folding.steps.len())
        .map(|made| top(made + 1).difference(&top(made)).filter_map(|face| landing.page_on(face)).collect())
        .collect()
}

#[tokio::test]
async fn the_question_before_every_fold_has_the_answer_that_the_fold_gives() {
    let page = at_size(1366, 768).await;
    for name in [SIXTEEN, "Eight, two parallel folds", "Twelve, letter fold and right angle"] {
        begin_course(&page, name).await;
        for (made, on_top) in (0u32..).zip(comes_on_top(name)) {
            step(&page, made).await;
            assert!(slips(&page).await.iter().all(String::is_empty), "the question comes first");
            let asked = page.text(".show .asks").await;
            assert!(asked.ends_with("on top?"), "{name}, fold {made}: {asked}");
            letter(&page, "a").await;
            page.wait_until("[...document.querySelectorAll('.answer-slip')].every(s => s.textContent !== '')").await;
            let answer: BTreeSet<u32> = slips(&page).await.iter().map(|s| s.parse().unwrap()).collect();
            assert_eq!(answer, on_top, "{name}, fold {made}");
            letter(&page, " ").await;
        }
        // Then the knife, the front, and leaf after leaf to the last page.
        let folds = comes_on_top(name).len() as u32;
        step(&page, folds).await;
        letter(&page, " ").await;
        asks(&page, "Which page is in front?").await;
        letter(&page, "a").await;
        page.wait_until("document.querySelector('.answer-slip').textContent === '1'").await;
        leave(&page).await;
    }
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn the_spine_is_laid_and_what_is_wrong_is_said_last() {
    let page = at_size(1366, 768).await;
    begin(&page, ".show-spoiled").await;
    page.wait_until("document.querySelector('.show.of-spine')").await;
    page.wait_until("document.querySelectorAll('.show-back').length === 1").await;
    let said = page.text(".show-title").await;
    assert_eq!(said, "Book 1", "its name gives nothing away");
    // Where is the next mark due? By the design of the book: 29 mm for the second one, 9 mm a step.
    asks(&page, "Section 2 comes next. How far from the head does its mark begin?").await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('.show-spine .due')").await;
    assert_eq!(slips(&page).await, ["29 mm"]);
    letter(&page, "\u{e00f}").await;
    page.wait_until("document.querySelectorAll('.show-back').length === 2").await;
    letter(&page, "\u{e00e}").await;
    page.wait_until("document.querySelectorAll('.show-back').length === 1").await;
    page.press(Key::End).await;
    asks(&page, "Is this book right?").await;
    assert!(
        page.eval("return document.querySelector('.show-verdict').hidden").await == json!(true),
        "the class finds out"
    );
    assert_eq!(page.violations().await, Vec::<String>::new());
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('.show-verdict .stitch')").await;
    page.wait_until("document.querySelector('.show-thread path').getAttribute('d')").await;
    let told = page.text(".show-verdict h2").await;
    assert!(!told.contains("right"), "{told}");
    page.screenshot("show-verdict").await;
    assert_eq!(page.violations().await, Vec::<String>::new());
    page.press(Key::Backspace).await;
    page.wait_until("document.querySelector('.show-verdict').hidden").await;
    // Another one, and the book as it lies in the stack, which is right.
    letter(&page, "x").await;
    page.wait_for_text(".show-title", "Book 2").await;
    letter(&page, "v").await;
    page.wait_for_text(".show-title", "The Quillmere Almanac").await;
    page.press(Key::End).await;
    asks(&page, "Is this book right?").await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('.show-verdict .no-stitch')").await;
    letter(&page, "g").await;
    page.wait_until("document.querySelector('.show.of-bench')").await;
    step(&page, 0).await;
    leave(&page).await;
    assert!(page.has_focus(".show-spoiled").await);
    // The job is as it was: flat on the bench, nothing to undo, the book gathered right.
    page.click(".rooms .room:nth-child(1)").await;
    page.wait_for_sentence("Take the corner and fold.").await;
    assert_eq!(
        page.eval("return [...document.querySelectorAll('.rooms .plain:not(.words-open)')].every(b => b.hidden)").await,
        json!(true)
    );
    page.click(".rooms .room:nth-child(2)").await;
    page.wait_until("document.querySelector('.verdict .no-stitch')").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn a_finger_folds_answers_and_uncovers() {
    let page = room(Setup { viewport: (1366, 768), touch: true, ..Setup::default() }).await;
    page.click(".show-section").await;
    page.wait_until("document.querySelector('.show')").await;
    step(&page, 0).await;
    let tap = async |x: f64, y: f64| page.tap(Pointer::Touch, (x, y)).await;
    // The right third, on a page that is not covered: on. The left one: back.
    tap(1200.0, 300.0).await;
    step(&page, 1).await;
    tap(16.0, 650.0).await;
    step(&page, 0).await;
    // The middle, on bare bench: the answer.
    tap(700.0, 88.0).await;
    page.wait_until("document.querySelector('.answer-slip').textContent === '5'").await;
    // A slip by itself is blank again.
    page.click(".answer-slip:nth-child(2)").await;
    page.wait_until("document.querySelector('.answer-slip:nth-child(2)').textContent === ''").await;
    // The keys are words to press; a covered page shows itself.
    page.click(".key-word:nth-child(3)").await;
    page.wait_until("document.querySelectorAll('.show .flat [data-covered]').length === 16").await;
    let (x, y) = page.middle(".show .side-b [data-page='1'] .hit").await;
    tap(x, y).await;
    page.wait_until("document.querySelectorAll('.show .flat [data-covered]').length === 15").await;
    page.click(".key-word:last-child").await;
    page.wait_until("!document.querySelector('.show')").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn large_sheets_are_shown_one_side_at_a_time_and_say_so() {
    let page = at_size(1920, 1080).await;
    begin_course(&page, "Sixty-four, five folds").await;
    step(&page, 0).await;
    assert_eq!(page.count(".show .flat").await, 1);
    page.wait_for_text(".show .flat-head .alone", "S: the other side").await;
    assert_eq!(ill_fitting(&page).await, Vec::<String>::new());
    page.screenshot("show-large").await;
    letter(&page, "s").await;
    page.wait_until("document.querySelector('.show .side-b')").await;
    leave(&page).await;
    // A leaflet of eight panels in a row lies over the bench.
    page.click(".show-families .button:nth-child(6)").await;
    begin_course(&page, "").await;
    page.wait_until("document.querySelector('.show .flat')").await;
    assert_eq!(ill_fitting(&page).await, Vec::<String>::new());
    page.screenshot("show-leaflet").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn a_telephone_shows_it_too_and_less_motion_is_respected() {
    let page = room(Setup { viewport: (375, 812), touch: true, ..Setup::default() }).await;
    page.preferences(&[("prefers-reduced-motion", "reduce")]).await;
    assert_eq!(page.overflow().await, 0);
    assert_eq!(page.violations().await, Vec::<String>::new());
    page.screenshot("show-choose-375").await;
    page.click(".show-section").await;
    page.wait_until("document.querySelector('.show')").await;
    step(&page, 0).await;
    letter(&page, " ").await;
    step(&page, 1).await;
    assert_eq!(page.overflow().await, 0);
    assert_eq!(page.violations().await, Vec::<String>::new());
    page.screenshot("show-375").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}
