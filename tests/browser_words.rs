//! Trade words in a real browser: pressed in the sentences of the rooms, looked up in four languages, with their pictures.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use fantoccini::key::Key;
use serde_json::json;
use support::chrome::Setup;
use support::page::Page;

const FLAT: &str = "Take the corner and fold.";
const OPEN: &str = "dialog[open] .words-list";
const HEAD: &str = "dialog[open] .entry h3";

async fn fine(page: &Page) {
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    assert_eq!(page.console_errors().await, Vec::<String>::new(), "console");
}

/// The files of this part that were asked for.
fn asked(page: &Page) -> usize {
    let ours = |path: &&String| path.ends_with("_words.wasm") || path.ends_with("/words.css");
    page.site.asked().iter().filter(ours).count()
}

/// The program of this part is there: a sentence that came after it has its words.
async fn folded(page: &Page) {
    page.wait_for_sentence(FLAT).await;
    page.wait_for_requests_to_settle().await;
    assert_eq!(asked(page), 0, "a first visit has no words");
    for step in 1..=3 {
        page.focus(".rule input").await;
        page.press(Key::Right).await;
        page.wait_for_step(step).await;
        if step == 1 {
            page.wait_until("[...document.styleSheets].some((s) => s.href?.endsWith('/words.css'))").await;
            page.wait_for_requests_to_settle().await;
        }
    }
    page.wait_until("document.querySelector('.says .word')").await;
}

/// Waits for an entry to be shown, with the focus on its heading.
async fn shown(page: &Page, term: &str) {
    page.wait_until(&format!("document.querySelector('{HEAD}')?.textContent === {}", json!(term))).await;
}

async fn closed(page: &Page) {
    page.press(Key::Escape).await;
    page.wait_until("!document.querySelector('dialog[open]')").await;
}

/// Opens the list and looks for something; gives the terms that are found.
async fn look_for(page: &Page, text: &str) -> Vec<String> {
    page.fill("#word-search", text).await;
    page.wait_until(&format!("document.querySelector('#word-search').value === {}", json!(text))).await;
    let first = "document.querySelector('.words-list [role=option]')?.getAttribute('aria-selected') === 'true'";
    page.wait_until(first).await;
    let terms =
        page.eval("return [...document.querySelectorAll('.words-list [role=option]')].map((o) => o.firstChild.data)");
    serde_json::from_value(terms.await).unwrap()
}

#[tokio::test]
async fn a_word_of_a_fold_sentence_opens_its_entry_and_the_focus_comes_back() {
    let page = Page::open(Setup::default()).await;
    folded(&page).await;
    assert!(page.sentence().await.ends_with("16 is now on top. Slit the bolts: one step on."));
    let words = "return [...document.querySelectorAll('.says .word')].map((w) => [w.textContent, w.dataset.term])";
    assert_eq!(page.eval(words).await, json!([["Slit", "slit"], ["bolts", "bolt"]]));
    page.screenshot("words-sentence").await;
    fine(&page).await;

    page.click(".says .word[data-term=bolt]").await;
    shown(&page, "bolt").await;
    page.wait_until(&format!("document.activeElement === document.querySelector('{HEAD}')")).await;
    page.wait_for_text("dialog[open] .entry-says", "A closed fold at the head").await;
    page.wait_for_text("dialog[open] .entry dl", "Roberts and Etherington").await;
    // The picture is drawn by the engine, and says what it is.
    page.wait_until("document.querySelector('dialog[open] .word-drawings[role=img] svg path')").await;
    let name = page.eval("return document.querySelector('.word-drawings').ariaLabel").await;
    assert_eq!(name, json!("The folded section “Sixteen, three folds” as the trimmer finds it."));
    page.screenshot("words-bolt").await;
    fine(&page).await;
    // Words that belong to it, also in its meaning; and back.
    page.click("dialog[open] .entry-says .word[data-term=section], dialog[open] .entry-says .word[data-term=leaf]")
        .await;
    shown(&page, "leaf").await;
    page.click("dialog[open] .related [data-term=verso]").await;
    shown(&page, "verso").await;
    page.click("dialog[open] .entry-head .plain").await;
    shown(&page, "leaf").await;
    page.click("dialog[open] .entry-head .plain").await;
    shown(&page, "bolt").await;
    closed(&page).await;
    assert!(page.has_focus(".says .word[data-term=bolt]").await, "the focus is where it was");
    assert_eq!(asked(&page), 2, "fetched once");
}

#[tokio::test]
async fn words_of_a_trace_cause_and_of_a_job_finding_by_keyboard_alone() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    page.focus(".rooms .room:nth-child(3)").await;
    page.press(Key::Enter).await;
    page.focus(".room-trace.book .finds .half-head .plain").await;
    page.press(Key::Enter).await;
    page.find("#pages").await;
    page.fill("#pages", "3 4 1 2 7 8 5 6 11 12 9 10 15 16 13 14").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".cause-head", "Fold 1 was made the other way.").await;
    // The room came with its words.
    let words = "[...document.querySelectorAll('.causes .word')]";
    page.wait_until(&format!("{words}.length > 2")).await;
    page.screenshot("words-trace").await;
    fine(&page).await;
    page.focus(".causes .word[data-term=fold]").await;
    page.press(Key::Enter).await;
    shown(&page, "fold").await;
    page.wait_until("document.querySelector('dialog[open] .word-drawings svg path')").await;
    closed(&page).await;
    assert!(page.has_focus(".causes .word[data-term=fold]").await);

    page.focus(".rooms nav .room:last-child").await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('.room-job .book-row')").await;
    for (part, fields) in
        [(2, &[("#sections", "25")][..]), (3, &[("#first", "30"), ("#step", "6"), ("#length", "6"), ("#levels", "24")])]
    {
        page.focus(&format!(".parts .part:nth-child({part})")).await;
        page.press(Key::Enter).await;
        for (field, text) in fields {
            page.fill(field, text).await;
            page.press(Key::Tab).await;
        }
    }
    page.wait_until("document.querySelector('.spots li .word')").await;
    page.screenshot("words-job").await;
    fine(&page).await;
    page.focus(".spots li .word").await;
    let term = page.eval("return document.activeElement.dataset.term").await;
    page.press(Key::Space).await;
    shown(&page, term.as_str().unwrap()).await;
    closed(&page).await;
}

#[tokio::test]
async fn the_list_is_reached_from_every_room_and_searched_in_four_languages() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    assert_eq!(page.count(".words-open:not([hidden])").await, 0, "the first screen has few words");
    page.focus(".rule input").await;
    page.press(Key::Right).await;
    page.wait_for_step(1).await;
    page.wait_until("!document.querySelector('.words-open').hidden").await;
    for room in 1..=page.count(".rooms .room").await {
        page.focus(&format!(".rooms .room:nth-child({room})")).await;
        page.press(Key::Enter).await;
        page.wait_until(&format!("document.querySelector('.rooms .room:nth-child({room})').ariaCurrent === 'page'"))
            .await;
        page.focus(".words-open").await;
        page.press(Key::Enter).await;
        page.find(OPEN).await;
        page.wait_until("document.activeElement?.id === 'word-search'").await;
        closed(&page).await;
        assert!(page.has_focus(".words-open").await, "room {room}");
    }
    page.press(Key::Enter).await;
    page.find(OPEN).await;
    assert!(page.count("dialog[open] [role=option]").await >= 130);
    page.screenshot("words-list").await;
    fine(&page).await;
    assert_eq!(look_for(&page, "Bogen").await[0], "sheet");
    assert_eq!(look_for(&page, "cahier").await[0], "section");
    page.wait_until("document.querySelector('.words-list [lang=fr]')?.textContent === 'cahier'").await;
    let of_folds = look_for(&page, "折").await;
    for term in ["fold", "section", "crease", "folder"] {
        assert!(of_folds.iter().any(|t| t == term), "{of_folds:?}");
    }
    assert_eq!(look_for(&page, "rucken").await[0], "back", "without its accent");
    assert_eq!(look_for(&page, "chōai").await[0], "gathering");
    // Down the list by arrows, into the entry by Enter.
    look_for(&page, "fold").await;
    page.press(Key::Down).await;
    page.wait_until("document.querySelectorAll('.words-list [role=option]')[1].ariaSelected === 'true'").await;
    let second = page.eval("return document.querySelectorAll('.words-list [role=option]')[1].firstChild.data").await;
    shown(&page, second.as_str().unwrap()).await;
    page.press(Key::Enter).await;
    page.wait_until(&format!("document.activeElement === document.querySelector('{HEAD}')")).await;
    // What is written in other scripts says so.
    look_for(&page, "gathering").await;
    page.wait_until("document.querySelector('.entry [lang=ja]')?.textContent === '丁合'").await;
    let langs = "return [...document.querySelectorAll('.entry [lang]')].map((e) => e.lang).filter((l, i, all) => all.indexOf(l) === i)";
    assert_eq!(page.eval(langs).await, json!(["de", "fr", "ja", "ja-Latn"]));
    look_for(&page, "misfold").await;
    page.wait_until("document.querySelectorAll('.entry .drawing svg').length === 2").await;
    page.screenshot("words-misfold").await;
    fine(&page).await;
    page.fill("#word-search", "qqqq").await;
    page.wait_for_text(".words-head [role=status]", "No word here is called so.").await;
    fine(&page).await;
}

/// What lies between the words must not move when they come, and what is being said must not be said again.
#[tokio::test]
async fn nothing_moves_and_nothing_is_said_again() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    // Whatever changes inside of what says by itself.
    let watch = "
        window.told = { says: 0, about: 0 };
        for (const name of ['says', 'about'])
            new MutationObserver((all) => { window.told[name] += all.length; }).observe(document.querySelector('.' + name),
                { childList: true, characterData: true, subtree: true, attributes: true })";
    let told = "return [window.told.says, window.told.about]";
    page.focus(".rule input").await;
    page.press(Key::Right).await;
    page.wait_for_step(1).await;
    page.wait_until("document.querySelector('.says').textContent.includes(' now on top')").await;
    page.eval(watch).await;
    page.wait_until("[...document.styleSheets].some((s) => s.href?.endsWith('/words.css'))").await;
    page.wait_for_requests_to_settle().await;
    // The room is shown again, with all sentences as they are.
    for pressed in ["true", "false"] {
        page.click(".look-inside").await;
        page.wait_until(&format!("document.querySelector('.look-inside').ariaPressed === '{pressed}'")).await;
        page.wait_for_requests_to_settle().await;
    }
    assert_eq!(page.eval(told).await, json!([0, 0]), "when the words come");
    for step in 2..=3 {
        page.focus(".rule input").await;
        page.press(Key::Right).await;
        page.wait_for_step(step).await;
    }
    page.wait_until("document.querySelectorAll('.says .word').length === 2").await;
    page.eval("window.told = { says: 0, about: 0 }").await;
    // Another page is followed, which the sentence of the fold says nothing of; the list is opened and closed.
    page.fill("#page", "11").await;
    page.press(Key::Enter).await;
    page.wait_for_text(".about", "Side").await;
    let once = page.eval(told).await;
    assert_eq!(once[0], json!(0), "the sentence of the fold");
    page.click(".words-open").await;
    page.find(OPEN).await;
    closed(&page).await;
    page.wait_for_requests_to_settle().await;
    assert_eq!(page.eval(told).await, once, "nothing more is said by itself");

    // A sentence with its words is exactly as large as without, and reads as a sentence.
    let sizes = "
        const says = document.querySelector('.says'), plain = says.cloneNode(true);
        for (const word of plain.querySelectorAll('.word')) word.replaceWith(...word.childNodes);
        plain.normalize();
        says.after(plain);
        const size = (e) => { const r = document.createRange(); r.selectNodeContents(e);
            return [...r.getClientRects()].reduce((all, b) => [Math.max(all[0], b.right), all[1] + b.height * 0], [0, 0])[0]; };
        const found = [size(says), size(plain), says.textContent === plain.textContent, getComputedStyle(says.querySelector('.word')).display];
        plain.remove();
        return found";
    let found = page.eval(sizes).await;
    let width = |at: usize| found[at].as_f64().unwrap();
    assert!((width(0) - width(1)).abs() < 0.5, "{found}");
    assert_eq!((&found[2], &found[3]), (&json!(true), &json!("inline")));
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn on_a_phone_and_a_projector() {
    for size in [(375, 812), (320, 640), (1920, 1080)] {
        let touch = size.0 < 900;
        let page = Page::open(Setup { viewport: size, touch, ..Setup::default() }).await;
        folded(&page).await;
        assert_eq!(page.overflow().await, 0, "{size:?}");
        page.click(".says .word[data-term=bolt]").await;
        shown(&page, "bolt").await;
        page.wait_until("document.querySelector('dialog[open] .word-drawings svg path')").await;
        page.screenshot(&format!("words-bolt-{}", size.0)).await;
        assert_eq!(page.overflow().await, 0, "{size:?}");
        let inside = "const b = document.querySelector('dialog[open]'); return b.scrollWidth - b.clientWidth";
        assert_eq!(page.eval(inside).await, json!(0), "{size:?}");
        // The heading is in view, with the list above it on a phone and beside it otherwise.
        let places =
            "const [l, h] = ['.words-list', '.entry h3'].map((c) => document.querySelector(c).getBoundingClientRect());
            return [h.top >= l.bottom, h.left >= l.right, h.bottom <= innerHeight]";
        assert_eq!(page.eval(places).await, json!([touch, !touch, true]), "{size:?}");
        fine(&page).await;
        closed(&page).await;
    }
}

#[tokio::test]
async fn without_its_file_sentences_stay_as_they_are_and_the_list_says_why() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    page.wait_for_requests_to_settle().await;
    let offline = async |offline: bool| {
        let params = json!({ "offline": offline, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1 });
        page.chrome.cdp("Network.emulateNetworkConditions", params).await;
    };
    offline(true).await;
    page.focus(".rule input").await;
    page.press(Key::Right).await;
    page.wait_for_step(1).await;
    page.click(".words-open").await;
    page.wait_for_text("dialog[open] .later", "could not be loaded").await;
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    offline(false).await;
    page.click("dialog[open] .later .button").await;
    page.find(OPEN).await;
    closed(&page).await;
}
