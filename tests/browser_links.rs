//! Links in a real browser: handed on, opened, refused, read off the screen as a QR code; and the page in a frame of another.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use backmark::app::{Job, Look, write_saved};
use backmark::class::{Desk, DeskAct, write_desk};
use backmark::fold::{Crease, Lay};
use backmark::link::{Beside, Exercise, Link, Scene, Sheet};
use backmark::practice::{Answer, Kind};
use fantoccini::key::Key;
use serde_json::{Value, json};
use std::path::PathBuf;
use support::chrome::Setup;
use support::page::Page;
use support::server::Site;

const FLAT: &str = "Take the corner and fold.";
/// What is said of a link.
const SAID: &str = ".from-link p";
const FIRST: &str = ".from-link .button:nth-child(1)";
const SECOND: &str = ".from-link .button:nth-child(2)";
const THIRD: &str = ".from-link .button:nth-child(3)";

/// A sheet as a teacher leaves it: half way through its second fold, turned over, page 5 followed, the paper beside it.
fn scene() -> Scene {
    let sheet = Scene::flat(Sheet::AtHand("Thirty-two, four right-angle folds"));
    let lay = Lay { over: true, quarters: 0 };
    Scene { at: 200, lay, beside: Beside::Paper, followed: Some(5), place: 3, ..sheet }
}

fn job() -> String {
    let job = Job { title: "Letters from the Low Marshes".into(), ..Job::default() };
    write_saved(&job, &Look { at: 1.0, ..Look::default() })
}

fn exercise() -> Exercise {
    Exercise { kind: Kind::MakeUp.number(), level: 2, seed: 41 }
}

fn written(link: &Link) -> String {
    link.write().unwrap()
}

/// The page with a job of one's own that is kept: another sheet, one fold made.
async fn own(setup: Setup) -> Page {
    let page = Page::open(setup).await;
    page.wait_for_sentence(FLAT).await;
    page.kept(async || {
        page.click(".tools .slip").await;
        page.click("dialog[open] .dummy:nth-child(4)").await;
    })
    .await;
    page.wait_for_text(".tools .slip", "Twelve").await;
    page.kept(async || {
        page.eval("document.activeElement.blur()").await;
        page.press(Key::Right).await;
        page.wait_for_step(1).await;
    })
    .await;
    page.wait_for_requests_to_settle().await;
    page
}

/// What the browser keeps under a key, as it is.
async fn kept(page: &Page, key: &str) -> Value {
    page.eval(&format!(
        "return new Promise((done) => {{
             indexedDB.open('backmark', 1).onsuccess = ({{ target: {{ result: db }} }}) => {{
                 db.transaction('jobs').objectStore('jobs').get('{key}').onsuccess = ({{ target }}) => {{
                     done(target.result?.text ?? null); db.close();
                 }};
             }};
         }})"
    ))
    .await
}

/// Follows a link in the window as it is.
async fn follow(page: &Page, link: &str) {
    page.eval(&format!("location.href = {}", json!(link))).await;
}

/// Whether one's own sheet lies there, and nothing is said of a link.
async fn own_sheet_is_back(page: &Page) {
    page.wait_until("!document.querySelector('.from-link')").await;
    page.wait_for_text(".tools .slip", "Twelve").await;
    page.wait_for_step(1).await;
}

async fn address_is_bare(page: &Page) {
    page.wait_until("!location.href.includes('#')").await;
}

#[tokio::test]
async fn a_sheet_from_a_link_lies_as_it_was_left_and_ones_own_job_stays() {
    let page = own(Setup::default()).await;
    let before = kept(&page, "job").await;
    let link = written(&Link::Scene(scene()));
    // Once in the window as it is, and once at the start.
    for at_start in [false, true] {
        if at_start {
            page.client().goto("about:blank").await.unwrap();
            page.visit(&link).await;
        } else {
            follow(&page, &link).await;
        }
        page.wait_for_text(SAID, "A sheet from a link. Your own job is as you left it").await;
        page.wait_for_text(".tools .slip", "Thirty-two").await;
        page.wait_for_step(2).await;
        page.wait_until("document.querySelector('.tools .button').ariaPressed === 'true'").await;
        page.wait_until("document.querySelector('.panes .tabs [aria-pressed=true]').textContent === 'Paper'").await;
        // Page 5 of the third section of thirty-two.
        page.wait_until("document.querySelector('#page').value === '69'").await;
        address_is_bare(&page).await;
        page.screenshot(&format!("link-scene-{at_start}")).await;
        assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
        // It is folded, turned and followed as any sheet is; other rooms show its book.
        page.eval("document.activeElement.blur()").await;
        page.press(Key::Right).await;
        page.wait_for_step(3).await;
        page.click(".panes .tabs button:nth-child(1)").await;
        page.wait_until("document.querySelector('.flat [data-page]')").await;
        page.fill("#page", "70").await;
        page.press(Key::Enter).await;
        page.wait_for_text(".about", "conjugate").await;
        page.click(".rooms .room:nth-child(2)").await;
        page.wait_until("document.querySelector('.room-gather .stack-box svg')").await;
        page.click(".rooms .room:nth-child(1)").await;
        page.wait_until("document.querySelector('.tools .slip')").await;
        assert_eq!(kept(&page, "job").await, before);
        page.click(FIRST).await;
        own_sheet_is_back(&page).await;
        assert_eq!(kept(&page, "job").await, before);
    }
    // Loaded again while it lies there, the page shows what is one's own.
    follow(&page, &link).await;
    page.wait_for_text(SAID, "A sheet from a link").await;
    address_is_bare(&page).await;
    page.reload().await;
    own_sheet_is_back(&page).await;
    // Taken into the job it is a change like any other.
    follow(&page, &link).await;
    page.wait_for_text(SAID, "A sheet from a link").await;
    page.kept(async || page.click(SECOND).await).await;
    page.wait_for_text(".tools .slip", "Thirty-two").await;
    page.wait_until("!document.querySelector('.from-link')").await;
    page.eval("document.activeElement.blur()").await;
    page.kept(async || page.chord(&[char::from(Key::Control), 'z']).await).await;
    page.wait_for_text(".tools .slip", "Twelve").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn a_job_from_a_link_is_asked_about_and_never_costs_ones_own() {
    let page = own(Setup::default()).await;
    let before = kept(&page, "job").await;
    let link = written(&Link::Job(job()));
    page.client().goto("about:blank").await.unwrap();
    page.visit(&link).await;
    let asks =
        "A link holds the job “Letters from the Low Marshes”. Open it? Your own job “The Quillmere Almanac” is kept";
    page.wait_for_text(SAID, asks).await;
    page.wait_for_text(".tools .slip", "Twelve").await;
    address_is_bare(&page).await;
    page.screenshot("link-job").await;
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    page.click(THIRD).await;
    own_sheet_is_back(&page).await;
    assert_eq!(kept(&page, "job").await, before);

    // Looked at: nothing of it is kept.
    follow(&page, &link).await;
    page.wait_for_text(SAID, asks).await;
    page.click(SECOND).await;
    page.wait_for_text(SAID, "The job “Letters from the Low Marshes” from a link.").await;
    page.wait_for_text(".tools .slip", "Sixteen").await;
    page.wait_for_text(".strip-box .title", "Letters").await;
    page.eval("document.activeElement.blur()").await;
    page.press(Key::Right).await;
    page.wait_for_step(2).await;
    page.click(FIRST).await;
    own_sheet_is_back(&page).await;
    assert_eq!(kept(&page, "job").await, before);

    // Opened, by keyboard alone: it is kept in place of one's own, which undo brings back.
    follow(&page, &link).await;
    page.wait_for_text(SAID, asks).await;
    page.focus(FIRST).await;
    page.kept(async || page.press(Key::Enter).await).await;
    page.wait_for_text(".said", "Letters from the Low Marshes is open. Undo brings the last job back.").await;
    page.wait_for_text(".tools .slip", "Sixteen").await;
    page.wait_until("document.activeElement.matches('.room[aria-current]')").await;
    page.kept(async || page.chord(&[char::from(Key::Control), 'z']).await).await;
    page.wait_for_text(".tools .slip", "Twelve").await;
    page.wait_for_text(".strip-box .title", "Quillmere").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn an_exercise_from_a_link_is_set_in_class() {
    let page = own(Setup::default()).await;
    let set = "document.querySelector('.room-class select')?.value === '6' && document.querySelectorAll('.room-class select')[1].value === '2'";
    let link = written(&Link::Exercise(exercise()));
    page.client().goto("about:blank").await.unwrap();
    page.visit(&link).await;
    page.wait_until(set).await;
    address_is_bare(&page).await;
    page.screenshot("link-exercise").await;
    // Handed on from there it is the same link.
    page.click(".room-class .parts .plain:last-child").await;
    page.wait_until("document.querySelector('dialog[open] #hand-link')").await;
    assert!(page.value("#hand-link").await.ends_with(&link));
    page.press(Key::Escape).await;
    page.wait_until("!document.querySelector('dialog[open]')").await;
    page.click(".rooms .room:nth-child(1)").await;
    own_sheet_is_back(&page).await;

    // One that was begun is not lost unasked.
    let mut desk = Desk::default();
    for act in [DeskAct::Set(Kind::MakeUp, 1, 7), DeskAct::Answer(Answer::MakeUp(vec![16, 16]))] {
        desk = desk.after(act).0;
    }
    page.eval(&format!(
        "return backmarkStore.noted('desk').then(() => backmarkStore.note('desk', {}))",
        json!(write_desk(&desk))
    ))
    .await;
    page.client().goto("about:blank").await.unwrap();
    page.visit(&link).await;
    page.wait_for_text(".room-class [role=alert]", "Lay the one that you have begun aside?").await;
    page.click(".room-class [role=alert] .button:nth-child(2)").await;
    page.wait_until("!document.querySelector('.room-class [role=alert]')").await;
    assert_eq!(page.eval("return document.querySelectorAll('.room-class select')[1].value").await, json!("1"));
    follow(&page, &link).await;
    page.wait_for_text(".room-class [role=alert]", "Lay the one that you have begun aside?").await;
    page.click(".room-class [role=alert] .button:nth-child(1)").await;
    page.wait_until(set).await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

#[tokio::test]
async fn a_link_that_is_not_whole_is_refused_with_the_reason_and_ones_own_job_stays() {
    let page = own(Setup::default()).await;
    let before = kept(&page, "job").await;
    let mut refused: Vec<(String, &str)> = vec![
        ("#".into(), "There is no link here."),
        ("#sheet-of-mine".into(), "This is no link of Backmark"),
        // A form that is not there yet; its first signs fit one another.
        (newer(), "This link was made by a newer program: it has form 2"),
        (written(&Link::Job("{\"backmark\":9}".into())), "its job can’t be opened: the file has form 9"),
        (written(&Link::Job("tea".into())), "its job can’t be opened: the file is damaged or not a job"),
        (written(&Link::Exercise(Exercise { kind: 200, ..exercise() })), "this program knows no such exercise"),
    ];
    for link in [Link::Scene(scene()), Link::Job(job()), Link::Exercise(exercise())] {
        let link = written(&link);
        // A sign of its first ones, one in the middle, the last one.
        for (at, says) in [
            (1, "first signs were changed"),
            (link.len() / 2, "its check does not fit"),
            (link.len() - 1, "its check does not fit"),
        ] {
            let other = if &link[at..=at] == "A" { "B" } else { "A" };
            refused.push((format!("{}{other}{}", &link[..at], &link[at + 1..]), says));
        }
        refused.push((link[..link.len() - 3].into(), "This link was cut short: 3 signs are missing."));
        refused.push((link[..3].into(), "This link was cut short; only its first signs are left."));
    }
    for (nth, (link, says)) in refused.iter().enumerate() {
        // Some at the start, most in the window as it is.
        if nth % 5 == 0 {
            page.client().goto("about:blank").await.unwrap();
            page.visit(link).await;
        } else {
            follow(&page, link).await;
        }
        page.wait_for_text(SAID, says).await;
        page.wait_for_text(SAID, "Your own job is as it was.").await;
        page.wait_for_text(".tools .slip", "Twelve").await;
        address_is_bare(&page).await;
        if nth == 0 {
            page.screenshot("link-refused").await;
            assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
        }
        page.focus(FIRST).await;
        page.press(Key::Enter).await;
        own_sheet_is_back(&page).await;
        assert_eq!(kept(&page, "job").await, before, "{link}");
    }
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

/// A link of form 2, as far as a program of form 1 reads it.
fn newer() -> String {
    // The check sign is the only one of the 64 that fits the other three.
    let signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
    let mut fits = signs
        .chars()
        .map(|sign| format!("#2sG{sign}AAAAAA"))
        .filter(|link| Link::read(link).unwrap_err().to_string().contains("newer program"));
    let link = fits.next().unwrap();
    assert_eq!(fits.next(), None);
    link
}

async fn hand_on_bench(page: &Page) {
    page.click(".tools .look-inside").await;
    page.wait_until("document.querySelector('.panes .tabs')").await;
    page.click(".panes .tabs button:last-child").await;
    page.wait_until("document.querySelector('dialog[open] #hand-link')").await;
}

#[tokio::test]
async fn what_is_handed_on_is_copied_by_keyboard_and_comes_back() {
    for viewport in [(1280, 800), (375, 812), (1920, 1080)] {
        let page = own(Setup { viewport, ..Setup::default() }).await;
        hand_on_bench(&page).await;
        page.wait_until("document.querySelector('dialog[open] .code svg')").await;
        page.screenshot(&format!("hand-on-{}", viewport.0)).await;
        assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
        assert!(page.overflow().await <= 0);
        let link = page.value("#hand-link").await;
        let Ok(Link::Scene(scene)) = Link::read(&link) else { panic!("{link}") };
        assert_eq!((scene.at, scene.beside), (100, Beside::Inside(Crease::Horizontal, 0)));
        assert!(link.starts_with(&page.site.address()), "{link}");
        // Tab goes from the link to its button; pressed, it keeps the focus.
        page.focus("#hand-link").await;
        page.press(Key::Tab).await;
        page.press(Key::Enter).await;
        page.wait_for_text(".hand-copied", "Copied.").await;
        page.wait_until("document.activeElement.matches('#hand-link + button')").await;
        // What was copied is pasted where links are opened, in two lines as mail breaks it.
        page.focus("#hand-paste").await;
        page.chord(&[char::from(Key::Control), 'v']).await;
        page.wait_until(&format!("document.querySelector('#hand-paste').value === {}", json!(link))).await;
        page.press(Key::Enter).await;
        page.wait_for_text(SAID, "A sheet from a link").await;
        page.wait_until("!document.querySelector('dialog[open]')").await;
        page.wait_for_text(".tools .slip", "Twelve").await;
        page.screenshot(&format!("link-scene-at-{}", viewport.0)).await;
        assert!(page.overflow().await <= 0);
        assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
        page.click(FIRST).await;
        page.wait_until("!document.querySelector('.from-link')").await;

        // The whole job, from its own room.
        page.click(".rooms .room:last-child").await;
        page.wait_until("document.querySelector('.room-job .job-head')").await;
        page.click(".job-head .part:last-child").await;
        page.click(".job-file .button:nth-of-type(3)").await;
        page.wait_for_text("dialog[open]", "It holds the job “The Quillmere Almanac”").await;
        let Ok(Link::Job(text)) = Link::read(&page.value("#hand-link").await) else { panic!("a job") };
        assert!(backmark::app::read_saved(&text).is_ok());
        page.press(Key::Escape).await;
        page.wait_until("!document.querySelector('dialog[open]')").await;
        assert_eq!(page.console_errors().await, Vec::<String>::new());
    }
}

#[tokio::test]
async fn a_job_too_large_for_a_link_or_for_a_code_is_handed_on_as_a_file() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    // Marks tapped anyhow on 99 backs: nothing that a model of jobs foresees.
    let noise = |count: usize| {
        let mut seed = 1_u64;
        let mut marks = || {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (seed >> 40) as f64 % 2_000.0 / 10.0
        };
        (0..99).map(|_| (0..count).map(|_| marks()).collect()).collect()
    };
    for (marks, has_link) in [(20, true), (80, false)] {
        let job = Job { evidence: backmark::app::Evidence::Tapped(noise(marks)), ..Job::default() };
        let text = write_saved(&job, &Look::default());
        page.eval(&format!("return backmarkStore.load().then(() => backmarkStore.save({}))", json!(text))).await;
        page.reload().await;
        page.wait_until("document.querySelector('.strip-box .title')").await;
        page.click(".strip-box .title").await;
        page.click(".job-head .part:last-child").await;
        page.click(".job-file .button:nth-of-type(3)").await;
        if has_link {
            page.wait_for_text("dialog[open] p.hand-code", "more than a QR code holds").await;
            let Ok(Link::Job(read)) = Link::read(&page.value("#hand-link").await) else { panic!("a job") };
            assert_eq!(backmark::app::read_saved(&read).unwrap().job, job);
        } else {
            page.wait_for_text("dialog[open]", "this is more than goes into a link. Hand it on as a file.").await;
            assert_eq!(page.count("#hand-link").await, 0);
        }
        page.screenshot(&format!("hand-on-too-large-{marks}")).await;
        page.wait_until("!document.querySelector('.hand-foot .button').hidden").await;
        page.press(Key::Escape).await;
        page.wait_until("!document.querySelector('dialog[open]')").await;
    }
    assert_eq!(page.console_errors().await, Vec::<String>::new());
}

/// What the window shows, as grey pixels of its device, read by the browser itself.
async fn pixels(page: &Page) -> (usize, usize, Vec<u8>) {
    let shot = page.chrome.cdp("Page.captureScreenshot", json!({ "format": "png" })).await;
    let body = format!(
        "return new Promise((done) => {{
             const image = new Image();
             image.onload = () => {{
                 const canvas = document.createElement('canvas');
                 [canvas.width, canvas.height] = [image.width, image.height];
                 const to = canvas.getContext('2d');
                 to.drawImage(image, 0, 0);
                 const {{ data }} = to.getImageData(0, 0, image.width, image.height);
                 const grey = [];
                 for (let at = 0; at < data.length; at += 4) grey.push(Math.round((data[at] + data[at + 1] + data[at + 2]) / 3));
                 done([image.width, image.height, grey]);
             }};
             image.src = 'data:image/png;base64,{}';
         }})",
        shot["data"].as_str().unwrap()
    );
    let read = page.eval(&body).await;
    let number = |value: &Value| value.as_u64().unwrap() as usize;
    let grey = read[2].as_array().unwrap().iter().map(|v| number(v) as u8).collect();
    (number(&read[0]), number(&read[1]), grey)
}

#[tokio::test]
async fn the_code_on_the_screen_is_read_from_the_back_row() {
    let page = own(Setup::default()).await;
    hand_on_bench(&page).await;
    let link = page.value("#hand-link").await;
    let read = async |page: &Page| {
        let (width, height, grey) = pixels(page).await;
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(width, height, |x, y| grey[y * width + x]);
        let texts: Vec<String> = image.detect_grids().iter().filter_map(|g| Some(g.decode().ok()?.1)).collect();
        texts
    };
    // Small, beside the address.
    assert_eq!(read(&page).await, std::slice::from_ref(&link));
    // As large as the window, in colours of any kind, and seen a fifth as large: the whole window is 256 dots wide.
    page.click(".hand-code .button").await;
    page.wait_until("document.querySelector('dialog[open] .code-large svg')").await;
    page.screenshot("code-large").await;
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    for features in [[("forced-colors", "none")], [("forced-colors", "active")]] {
        page.preferences(&features).await;
        page.chrome.viewport((1280, 800), 0.2, false).await;
        assert_eq!(read(&page).await, std::slice::from_ref(&link), "{features:?}");
        page.chrome.viewport((1280, 800), 1.0, false).await;
        page.screenshot(&format!("code-large-{}", features[0].1)).await;
    }
    // Escape makes it small, once more closes what it was opened from.
    page.press(Key::Escape).await;
    page.wait_until("!document.querySelector('.code-large') && document.querySelector('dialog[open] #hand-link')")
        .await;
    page.press(Key::Escape).await;
    page.wait_until("!document.querySelector('dialog[open]')").await;
}

fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("backmark-{name}-{}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// A page of somebody else, longer than the window, with Backmark in a frame.
fn other_page(folder: &std::path::Path, attributes: &str) -> Site {
    let page = format!(
        "<!doctype html><html lang=en><title>A course</title><body style='margin:0;height:3000px'><h1>A course</h1>
         <iframe title=Backmark width=1000 height=560 {attributes}></iframe></body></html>"
    );
    std::fs::write(folder.join("index.html"), page).unwrap();
    Site::of(folder.to_owned())
}

/// The wheel, turned over a point of the window.
async fn turn_wheel(page: &Page, (x, y): (f64, f64)) {
    let turn = json!({ "type": "mouseWheel", "x": x, "y": y, "deltaX": 0, "deltaY": 240 });
    page.chrome.cdp("Input.dispatchMouseEvent", turn).await;
}

/// In the page of another site, with a browser that gives a frame of a stranger no store at all.
#[tokio::test]
async fn in_a_frame_without_a_store_everything_works_and_the_wheel_is_the_other_pages() {
    let prefs = json!({ "profile.block_third_party_cookies": true, "profile.cookie_controls_mode": 1 });
    // A browser that keeps the stores of frames apart gives one to each; one that does not gives strangers none.
    let args = vec!["--disable-features=ThirdPartyStoragePartitioning".to_owned()];
    let page = Page::open(Setup { prefs, args, ..Setup::default() }).await;
    page.wait_for_sentence(FLAT).await;
    let outer = folder("framed");
    // The same server by another name is another site.
    let inner = page.site.address().replace("127.0.0.1", "localhost");
    let link = written(&Link::Scene(scene()));
    let site = other_page(&outer, &format!("src='{inner}{link}'"));
    page.client().goto(&site.address()).await.unwrap();
    page.client().enter_frame(0).await.unwrap();
    page.wait_for_text(SAID, "A sheet from a link").await;
    page.wait_for_text(".tools .slip", "Thirty-two").await;
    page.wait_for_text(".said", "This browser keeps nothing here").await;
    assert_eq!(page.eval("return origin").await, json!(inner.trim_end_matches('/')));
    // The names of the rooms are there, and no more of the header than needed.
    assert_eq!(page.eval("return document.querySelector('.rooms').offsetHeight").await, json!(48));
    assert_eq!(page.eval("return document.querySelector('.rooms h1').offsetWidth").await, json!(1));
    page.wait_until("[...document.querySelectorAll('.rooms .room')].every((r) => r.offsetWidth > 24 && r.getBoundingClientRect().right < innerWidth)").await;
    page.click(FIRST).await;
    page.wait_for_text(".tools .slip", "Sixteen").await;
    page.eval("document.activeElement.blur()").await;
    page.press(Key::Right).await;
    page.wait_for_step(1).await;
    page.wait_until("document.documentElement.dataset.kept === 'no'").await;
    assert_eq!(page.text(".said").await, "", "it is said once");
    // The checker answers in here, too.
    page.click(".rooms .room:nth-child(2)").await;
    page.wait_for_text(".room-gather", "in order").await;
    page.screenshot("framed-gather").await;
    page.click(".rooms .room:nth-child(1)").await;
    page.wait_until("document.querySelector('.bench canvas')").await;
    page.client().enter_parent_frame().await.unwrap();
    page.screenshot("framed").await;
    // Over the bench, the flat sides, the rule and the spine: the other page moves.
    for at in [(400.0, 300.0), (950.0, 300.0), (400.0, 560.0), (80.0, 300.0)] {
        page.eval("scrollTo(0, 0)").await;
        page.wait_until("scrollY === 0").await;
        turn_wheel(&page, at).await;
        page.wait_until("scrollY > 100").await;
    }
    drop(page);
    std::fs::remove_dir_all(outer).unwrap();
}

#[tokio::test]
async fn a_frame_that_is_a_stranger_to_its_own_site_says_what_it_needs() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_sentence(FLAT).await;
    let outer = folder("sandboxed");
    let site = other_page(&outer, &format!("sandbox='allow-scripts' src='{}'", page.site.address()));
    page.client().goto(&site.address()).await.unwrap();
    page.client().enter_frame(0).await.unwrap();
    page.wait_for_text("#notice", "its sandbox needs allow-same-origin").await;
    page.client().enter_parent_frame().await.unwrap();
    // With that it works.
    let site = other_page(&outer, &format!("sandbox='allow-scripts allow-same-origin' src='{}'", page.site.address()));
    page.client().goto(&site.address()).await.unwrap();
    page.client().enter_frame(0).await.unwrap();
    page.wait_for_sentence(FLAT).await;
    drop(page);
    std::fs::remove_dir_all(outer).unwrap();
}
