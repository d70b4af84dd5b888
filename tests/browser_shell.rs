//! Everything around the rooms in a real browser: what is kept, files, failures, sizes of window, and what axe says.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use fantoccini::key::Key;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use support::chrome::Setup;
use support::page::Page;
use support::until;

const FLAT: &str = "Take the corner and fold.";

#[tokio::test]
async fn what_was_done_survives_the_browsers_death() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    // Another scheme, another section, a moment, a page.
    page.kept(async || {
        page.click(".tools .slip").await;
        page.click("dialog[open] .dummy:nth-child(4)").await;
    })
    .await;
    page.kept(async || {
        page.focus(".strip").await;
        page.press(Key::PageDown).await;
    })
    .await;
    page.kept(async || {
        page.eval("document.activeElement.blur()").await;
        page.press(Key::Right).await;
        page.wait_for_step(1).await;
        page.press(Key::Right).await;
        page.wait_for_step(2).await;
    })
    .await;
    page.kept(async || {
        page.fill("#page", "125").await;
        page.press(Key::Enter).await;
    })
    .await;
    let told = async |page: &Page| {
        let picked = page.eval("return document.querySelector('.strip [aria-selected=true]').dataset.place").await;
        let scheme = page.text(".tools .slip").await;
        (scheme, picked, page.moment().await, page.sentence().await, page.text(".about").await)
    };
    let before = told(&page).await;
    assert!(before.0.starts_with("Twelve") && before.1 == json!("11") && before.2 == 200.0, "{before:?}");
    let page = page.after_a_crash().await;
    page.wait_for_step(2).await;
    assert_eq!(told(&page).await, before);
    page.screenshot("after-a-crash").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("backmark-{name}-{}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

async fn downloaded(folder: &Path) -> PathBuf {
    until("a file", async || {
        let files = std::fs::read_dir(folder).unwrap().flatten().map(|f| f.path());
        // The browser may have made it and not written it yet.
        let whole = |f: &PathBuf| std::fs::read_to_string(f).is_ok_and(|text| text.ends_with('}'));
        files.filter(|f| f.extension().is_some_and(|e| e == "json") && whole(f)).max()
    })
    .await
}

async fn open_book(page: &Page) {
    page.click(".strip-box .title").await;
    page.click(".parts .part:last-child").await;
    page.wait_until("document.querySelector('.room-job #job-file')").await;
}

async fn to_fold(page: &Page) {
    page.click(".rooms nav .room:first-child").await;
    page.wait_until("document.querySelector('.tools .slip')").await;
}

#[tokio::test]
async fn a_job_goes_out_as_a_file_and_comes_back() {
    let folder = folder("files");
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    page.downloads_to(&folder).await;
    page.click(".tools .slip").await;
    page.click("dialog[open] .dummy:nth-child(7)").await;
    page.wait_for_text(".tools .slip", "two parallel and right angle").await;
    open_book(&page).await;
    page.screenshot("book").await;
    page.click(".job-file button").await;
    let file = downloaded(&folder).await;
    assert_eq!(file.file_name().unwrap(), "the-quillmere-almanac.backmark.json");
    let text = std::fs::read_to_string(&file).unwrap();
    let job: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(job["backmark"], json!(4));

    // Something else meanwhile.
    to_fold(&page).await;
    page.click(".tools .slip").await;
    page.click("dialog[open] .dummy:nth-child(1)").await;
    page.wait_for_text(".tools .slip", "Four").await;

    // What can't be read is refused with the reason, and nothing changes.
    let mut foreign = job.clone();
    foreign.as_object_mut().unwrap().remove("backmark");
    let mut newer = job.clone();
    newer["backmark"] = json!(5);
    let mut wrong = job.clone();
    wrong["job"]["sections"] = json!("many");
    let mut impossible = job.clone();
    impossible["job"]["sections"] = json!(1000);
    let refused = [
        ("broken", text[..text.len() / 2].to_owned(), "damaged or not a job: line"),
        ("picture", "\u{1}\u{2}PNG".to_owned(), "damaged or not a job: line 1"),
        ("foreign", foreign.to_string(), "not a Backmark job"),
        ("newer", newer.to_string(), "has form 5"),
        ("wrong", wrong.to_string(), "job.sections"),
        ("impossible", impossible.to_string(), "job.sections must be 1 to 99"),
    ];
    open_book(&page).await;
    for (name, text, reason) in refused {
        let bad = folder.join(format!("{name}.txt"));
        std::fs::write(&bad, text).unwrap();
        page.upload("#job-file", &bad).await;
        page.wait_for_text(".job-file .job-wrong", reason).await;
        page.wait_for_text(".job-file .job-wrong", &format!("{name}.txt was not opened")).await;
    }
    page.screenshot("book-refused").await;
    to_fold(&page).await;
    page.wait_for_text(".tools .slip", "Four").await;

    open_book(&page).await;
    page.upload("#job-file", &file).await;
    page.wait_for_text(".said", "is open").await;
    to_fold(&page).await;
    page.wait_for_text(".tools .slip", "two parallel and right angle").await;
    page.eval("document.activeElement.blur()").await;
    page.chord(&[char::from(Key::Control), 'z']).await;
    page.wait_for_text(".tools .slip", "Four").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());

    // A fold that can't be made: it is folded as far as it goes, and the room says why it stops.
    let mut stopped = job.clone();
    stopped["job"]["sheet"]["course"]["steps"][1]["after"] = json!(9);
    let stops = folder.join("stops.txt");
    std::fs::write(&stops, stopped.to_string()).unwrap();
    open_book(&page).await;
    page.upload("#job-file", &stops).await;
    page.wait_for_text(".said", "is open").await;
    to_fold(&page).await;
    page.wait_for_text(".says", "It can't be folded on: fold 2 has its crease after 9 panels").await;
    page.screenshot("fold-stops").await;
    page.click(".tools .slip").await;
    page.click("dialog[open] .dialog-foot .button:nth-child(2)").await;
    page.wait_until("document.querySelectorAll('ol.made li').length === 3").await;
    page.screenshot("fold-stops-maker").await;
    page.click("ol.made li:nth-child(2) button").await;
    page.wait_until("!document.querySelector('.says').textContent.includes('It stops')").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
    std::fs::remove_dir_all(folder).unwrap();
}

#[tokio::test]
async fn a_dead_program_says_so_and_hands_out_the_job() {
    let folder = folder("panic");
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    page.downloads_to(&folder).await;
    page.kept(async || page.press(Key::Right).await).await;
    page.wait_for_step(1).await;
    page.console_errors().await;
    // A canvas that breaks off in the middle of a picture leaves the program unfit: the next picture is a panic.
    page.eval(
        "globalThis.begin = CanvasRenderingContext2D.prototype.beginPath;
         CanvasRenderingContext2D.prototype.beginPath = () => { throw new Error('broken on purpose'); }",
    )
    .await;
    page.press(Key::Right).await;
    page.eval("return new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))").await;
    page.eval("CanvasRenderingContext2D.prototype.beginPath = begin; dispatchEvent(new Event('resize'))").await;
    page.wait_until("!document.querySelector('#notice').hidden").await;
    page.screenshot("panic").await;
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    page.click("#notice [data-job]").await;
    let file = downloaded(&folder).await;
    let job: Value = serde_json::from_str(&std::fs::read_to_string(file).unwrap()).unwrap();
    assert_eq!(job["backmark"], json!(4));
    page.click("#notice [data-again]").await;
    page.wait_until("document.querySelector('#notice').hidden && document.querySelector('.rule input')").await;
    // The fold that was on its way when it broke may have been counted or not.
    page.wait_for_text(".says", "falls on").await;
    std::fs::remove_dir_all(folder).unwrap();
}

#[tokio::test]
async fn without_a_store_the_page_works_and_says_that_nothing_is_kept() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    let source = "indexedDB.open = () => { throw new DOMException('denied by the reader', 'SecurityError'); }";
    page.chrome.cdp("Page.addScriptToEvaluateOnNewDocument", json!({ "source": source })).await;
    page.reload().await;
    page.wait_for_text(".said", "keeps nothing here (denied by the reader)").await;
    page.screenshot("no-store").await;
    page.press(Key::Right).await;
    page.wait_for_step(1).await;
    page.wait_for_text(".says", "3 falls on 2").await;
    page.wait_until("document.documentElement.dataset.kept === 'no'").await;
    // It was said once, and is not said again.
    assert_eq!(page.text(".said").await, "");
    let folder = folder("denied");
    page.downloads_to(&folder).await;
    open_book(&page).await;
    page.click(".job-file button").await;
    downloaded(&folder).await;
    std::fs::remove_dir_all(folder).unwrap();
}

#[tokio::test]
async fn a_full_disk_is_told() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    page.eval(
        "IDBObjectStore.prototype.put = () => { throw new DOMException('the disk is full', 'QuotaExceededError'); }",
    )
    .await;
    page.press(Key::Right).await;
    page.wait_for_text(".said", "Not kept in this browser").await;
    println!("full disk: {:?}", page.text(".said").await);
    page.wait_for_step(1).await;
}

/// Words that can be read on the page: no figures, no names of rooms.
const WORDS: &str = "
    const words = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node; (node = walker.nextNode()); ) {
        const box = node.parentElement;
        if (box.closest('.unseen, .room, script, noscript, dialog:not([open]), [hidden]')) continue;
        const range = document.createRange();
        range.selectNodeContents(node);
        const r = range.getBoundingClientRect();
        if (r.width < 1 || r.height < 1 || r.top > innerHeight || getComputedStyle(box).visibility === 'hidden') continue;
        words.push(...node.data.split(/\\s+/).filter((word) => /\\p{L}/u.test(word)));
    }
    return words";

const SIZES: [(u32, u32); 4] = [(1280, 800), (375, 812), (320, 640), (1920, 1080)];

#[tokio::test]
async fn every_look_of_the_fold_room_is_clean_at_every_size() {
    let mut wrong: Vec<String> = Vec::new();
    for size in SIZES {
        let touch = size.0 < 900;
        let page = Page::open(Setup { viewport: size, touch, ..Setup::default() }).await;
        page.wait_for_sentence(FLAT).await;
        let words = page.eval(WORDS).await;
        let count = words.as_array().unwrap().len();
        println!("{size:?}: {count} words: {words}");
        if count > 25 {
            wrong.push(format!("{size:?}: {count} words on the first screen: {words}"));
        }
        let mut check = async |look: &str| {
            let name = format!("{look}-{}", size.0);
            page.screenshot(&name).await;
            for violation in page.violations().await {
                wrong.push(format!("{name}: axe: {violation}"));
            }
            let overflow = page.overflow().await;
            if overflow > 0 {
                wrong.push(format!("{name}: {overflow} px beyond the right edge"));
            }
            if page.eval(STRETCHED).await == json!(true) {
                wrong.push(format!("{name}: the picture of the bench is stretched"));
            }
            let cut = page.eval(CUT_OFF).await;
            for text in cut.as_array().unwrap() {
                wrong.push(format!("{name}: cut off or too small: {text}"));
            }
        };
        check("flat").await;
        page.press(Key::Right).await;
        page.press(Key::Right).await;
        page.wait_for_step(2).await;
        check("folded").await;
        page.focus(".rule input").await;
        for _ in 0..6 {
            page.press(Key::Right).await;
        }
        page.wait_for_step(8).await;
        check("opened").await;
        page.press(Key::Home).await;
        page.wait_for_step(0).await;
        page.fill("#page", "11").await;
        page.press(Key::Enter).await;
        page.wait_for_text(".about", "conjugate").await;
        check("followed").await;
        page.click(".flat-head [title*=through]").await;
        page.wait_until("document.querySelector('.flat.through')").await;
        check("through").await;
        page.click(".flat-head [title*=through]").await;
        page.click(".tools .button").await;
        page.wait_until("document.querySelector('.tools .button').getAttribute('aria-pressed') === 'true'").await;
        tokio::time::sleep(std::time::Duration::from_millis(500)).await;
        check("over").await;
        page.click(".tools .button").await;
        page.click(".tools .slip").await;
        page.wait_until("document.querySelector('dialog[open] .dummy')").await;
        check("picker").await;
        page.click("dialog[open] .dummy:nth-child(15)").await;
        page.wait_for_text(".tools .slip", "Sixty-four").await;
        check("sixty-four").await;
        page.click(".tools .slip").await;
        page.click("dialog[open] .dialog-foot .button:nth-child(2)").await;
        page.wait_until("document.querySelector('.maker #rows')").await;
        check("maker").await;
        for (level, message) in page.chrome.console().await {
            wrong.push(format!("{size:?}: console: {level}: {message}"));
        }
        for url in page.requests_to_strangers().await {
            wrong.push(format!("{size:?}: asked a stranger: {url}"));
        }
    }
    assert!(wrong.is_empty(), "{} faults:\n{}", wrong.len(), wrong.join("\n"));
}

/// Controls that reach beyond the window sideways, or lie under something else.
const CUT_OFF: &str = "
    const bad = [];
    const scope = document.querySelector('dialog[open]') ?? document;
    for (const e of scope.querySelectorAll('button, input:not([type=range]):not(.unseen), select')) {
        const r = e.getBoundingClientRect();
        if (r.width === 0 || e.closest('.unseen')) continue;
        const name = e.getAttribute('aria-label') ?? e.textContent ?? e.id;
        if (r.left < -0.5 || r.right > innerWidth + 0.5) bad.push(`${name} reaches from ${r.left} to ${r.right}`);
        if (r.height < 24 || r.width < 24) bad.push(`${name} is ${r.width} by ${r.height}`);
        if (e.scrollWidth > e.clientWidth + 1 && !e.matches('input, .title')) bad.push(`${name} is wider than its box`);
    }
    return bad";

/// Whether the canvas has other proportions than its place on the page.
const STRETCHED: &str = "
    const canvas = document.querySelector('.bench canvas'), r = canvas.getBoundingClientRect();
    return Math.abs(canvas.width / r.width - canvas.height / r.height) > 0.02";

#[tokio::test]
async fn a_dialog_that_is_opened_again_at_once_stays_open() {
    let page = Page::open(Setup::default()).await;
    page.click(".tools .slip").await;
    page.wait_until("document.querySelector('dialog[open] .dummy:nth-child(15)')").await;
    // The press comes as soon as the dialog is closed, before the browser tells of it.
    page.eval(
        "const close = HTMLDialogElement.prototype.close;
         HTMLDialogElement.prototype.close = function () { close.call(this); document.querySelector('.tools .slip').click(); };
         document.querySelector('dialog[open] .dummy:nth-child(15)').click();",
    )
    .await;
    page.wait_for_text(".tools .slip", "Sixty-four").await;
    page.wait_until("document.querySelector('dialog[open] .dummy')").await;
    tokio::time::sleep(std::time::Duration::from_millis(300)).await;
    assert_eq!(page.count("dialog[open]").await, 1);
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}
