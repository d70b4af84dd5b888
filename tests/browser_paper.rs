//! Documents on paper in a real browser: each is saved from the page and read by another hand (lopdf).
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use fantoccini::key::Key;
use lopdf::Object;
use lopdf::content::Content;
use serde_json::json;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use support::chrome::Setup;
use support::page::Page;
use support::until;

/// A document as another program reads it.
struct Read {
    title: String,
    /// Width and height of the pages, mm.
    sizes: Vec<(f64, f64)>,
    /// All that stands on each page, piece by piece.
    pieces: Vec<Vec<String>>,
}

impl Read {
    fn text(&self) -> String {
        self.pieces.concat().concat()
    }
}

fn number(object: &Object) -> f64 {
    f64::from(object.as_float().unwrap())
}

fn read(path: &Path) -> Read {
    let file = lopdf::Document::load_mem(&std::fs::read(path).unwrap()).unwrap();
    let info = file.trailer.get(b"Info").unwrap().as_reference().unwrap();
    let title = file.get_dictionary(info).unwrap().get(b"Title").unwrap();
    let title = lopdf::decode_text_string(title).unwrap();
    let (mut sizes, mut pieces) = (Vec::new(), Vec::new());
    for id in file.get_pages().values() {
        let media = file.get_dictionary(*id).unwrap().get(b"MediaBox").unwrap().as_array().unwrap();
        sizes.push((number(&media[2]) * 25.4 / 72.0, number(&media[3]) * 25.4 / 72.0));
        let content = Content::decode(&file.get_page_content(*id)).unwrap();
        let shown = content.operations.iter().filter(|op| op.operator == "Tj");
        let letters =
            |op: &lopdf::content::Operation| op.operands[0].as_str().unwrap().iter().map(|b| char::from(*b)).collect();
        pieces.push(shown.map(letters).collect());
    }
    Read { title, sizes, pieces }
}

fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("backmark-{name}-{}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    folder
}

/// The one file that the page saves while something is done; it is taken out of the folder.
async fn saved(page: &Page, folder: &Path, name: &str, act: &str) -> Read {
    page.eval(act).await;
    let path = folder.join(name);
    until(&format!("the file {name}"), async || {
        // Chromium writes under another name until the file is whole.
        std::fs::metadata(&path).ok().filter(|found| found.len() > 0).map(|_| ())
    })
    .await;
    let read = read(&path);
    std::fs::remove_file(&path).unwrap();
    read
}

/// Presses a button inside `css` by what stands on it.
fn press(css: &str, button: &str) -> String {
    format!(
        "[...document.querySelectorAll({})].find((b) => b.textContent === {}).click()",
        json!(format!("{css} button")),
        json!(button)
    )
}

async fn paper(setup: Setup) -> Page {
    let page = Page::open(setup).await;
    page.wait_for_sentence("Take the corner and fold.").await;
    page.eval("[...document.querySelectorAll('.rooms .room')].find((b) => b.textContent === 'Class').click()").await;
    page.wait_until("document.querySelector('.room-class .parts .part')").await;
    page.eval("[...document.querySelectorAll('.room-class .part')].find((b) => b.textContent === 'Paper').click()")
        .await;
    page.wait_until("document.querySelector('.papers .paper-out .button')").await;
    page
}

/// Chooses a document by its name and waits until its first page is drawn.
async fn choose(page: &Page, name: &str) {
    let find = format!(
        "[...document.querySelectorAll('.paper-kind')].find((b) => b.lastElementChild.textContent === {})",
        json!(name)
    );
    page.wait_until(&find).await;
    page.eval(&format!("{find}.click()")).await;
    page.wait_until(&format!("{find}.ariaPressed === 'true'")).await;
    drawn(page).await;
}

/// Waits until the large picture shows what is set.
async fn drawn(page: &Page) {
    // What was set is asked for first; the picture before it is there meanwhile.
    tokio::time::sleep(std::time::Duration::from_millis(600)).await;
    page.wait_until("document.querySelector('.paper-large .page-picture[aria-busy=false] svg')").await;
}

/// Chooses in a list by the beginning of a choice.
async fn pick(page: &Page, css: &str, begins: &str) {
    let option = format!(
        "[...(document.querySelector({css})?.options ?? [])].find((o) => o.text.startsWith({begins}))",
        css = json!(css),
        begins = json!(begins)
    );
    page.wait_until(&option).await;
    page.eval(&format!(
        "const s = document.querySelector({}); s.value = {option}.value; s.dispatchEvent(new Event('change', {{ bubbles: true }}))",
        json!(css)
    ))
    .await;
}

fn is_a4(read: &Read) -> bool {
    read.sizes.iter().all(|(w, h)| (w - 210.0).abs() < 0.01 && (h - 297.0).abs() < 0.01)
}

/// Every document of the part Paper, from an empty browser, with a click each.
#[tokio::test]
async fn every_paper_is_saved_and_read_by_another_program() {
    let page = paper(Setup::default()).await;
    let folder = folder("papers");
    page.downloads_to(&folder).await;
    page.wait_until("document.querySelectorAll('.paper-kind svg').length === 10").await;
    page.screenshot("paper-kinds").await;
    let all: [(&str, &str, &str, usize, &[&str]); 9] = [
        (
            "Test page",
            "Printer test page.pdf",
            "Printer test page",
            2,
            &["Printer test page, side A", "too far down, mm"],
        ),
        ("Dummy", "Sixteen, three folds.pdf", "Sixteen, three folds", 2, &["Side A up", "no machine"]),
        (
            "Fault cards",
            "Fault cards Sixteen, three folds.pdf",
            "Fault cards: Sixteen, three folds",
            7,
            &["Nothing is wrong.", "no machine"],
        ),
        ("Strips", "Spine strips.pdf", "Spine strips", 3, &["no machine"]),
        ("Mark sheet", "", "", 0, &[]),
        (
            "Set-up",
            "Set-up sheet Sixteen, three folds.pdf",
            "Set-up sheet: Sixteen, three folds",
            2,
            &["Guards stay shut", "leading edge"],
        ),
        ("Report", "", "", 1, &["The Quillmere Almanac"]),
        (
            "Ticket",
            "Job ticket The Quillmere Almanac.pdf",
            "Job ticket: The Quillmere Almanac",
            1,
            &["18 sections of 16", "guillotine"],
        ),
        ("Logbook", "Logbook.pdf", "Logbook", 1, &["Nothing has been practised yet."]),
    ];
    for (name, file, title, pages, says) in all {
        choose(&page, name).await;
        let told = page.text(".paper-large figcaption").await;
        let title = if title.is_empty() { told.split(". ").next().unwrap().to_owned() } else { title.to_owned() };
        let file = if file.is_empty() {
            format!("{}.pdf", title.replace([':', '·', '“', '”'], " ").split_whitespace().collect::<Vec<_>>().join(" "))
        } else {
            file.to_owned()
        };
        let read = saved(&page, &folder, &file, &press(".paper-settings", "Save as PDF")).await;
        assert_eq!(read.title, title);
        assert!(read.sizes.len() == pages || pages == 0, "{name}: {} pages", read.sizes.len());
        assert!(told.contains(&format!("{} page", read.sizes.len())), "{told}");
        assert!(is_a4(&read), "{name}");
        let text = read.text();
        for says in says {
            assert!(text.contains(says), "{name} lacks “{says}”: {text}");
        }
        page.wait_for_text(".paper-out [role=status]", "Saved: ").await;
    }
    // Before axe is run, which measures with inline styles that the page forbids.
    assert_eq!(page.console_errors().await, Vec::<String>::new());
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    let _ = std::fs::remove_dir_all(&folder);
}

/// The codes of exercises, as they are printed: four signs, a stroke, three signs.
fn codes(read: &Read) -> BTreeSet<String> {
    let code = |word: &str| {
        let signs: Vec<char> = word.chars().collect();
        let sign = |c: &char| c.is_ascii_uppercase() || ('2'..='9').contains(c);
        signs.len() == 8 && signs[4] == '-' && signs.iter().enumerate().all(|(at, c)| at == 4 || sign(c))
    };
    let words = read.pieces.concat();
    words.iter().flat_map(|piece| piece.split(' ')).filter(|w| code(w)).map(str::to_owned).collect()
}

/// The teacher's way, by keyboard alone: worksheets in three variants and their key, from an empty browser.
#[tokio::test]
async fn worksheets_and_their_key_are_made_by_keyboard_and_agree_in_their_codes() {
    let page = Page::open(Setup::default()).await;
    let folder = folder("worksheets");
    page.downloads_to(&folder).await;
    page.wait_for_sentence("Take the corner and fold.").await;
    page.eval("[...document.querySelectorAll('.rooms .room')].find((b) => b.textContent === 'Class').focus()").await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('.room-class .parts .part')").await;
    page.eval("[...document.querySelectorAll('.room-class .part')].find((b) => b.textContent === 'Paper').focus()")
        .await;
    page.press(Key::Enter).await;
    page.wait_until("document.querySelector('.papers .paper-out .button')").await;
    drawn(&page).await;
    let one = page.text(".paper-large figcaption").await;
    page.fill("#worksheet-variants", "3").await;
    page.press(Key::Tab).await;
    page.wait_until(&format!(
        "document.querySelector('.paper-large figcaption').textContent.trim() !== {}",
        json!(one.trim())
    ))
    .await;
    drawn(&page).await;
    let focus = |button: &str| {
        format!(
            "[...document.querySelectorAll('.paper-settings button')].find((b) => b.textContent === {}).focus()",
            json!(button)
        )
    };
    page.eval(&focus("Save worksheets as PDF")).await;
    page.press(Key::Enter).await;
    let sheets = saved(&page, &folder, "Worksheet.pdf", "").await;
    page.eval(&focus("Save the key as PDF")).await;
    page.press(Key::Enter).await;
    let key = saved(&page, &folder, "Worksheet key.pdf", "").await;
    assert_eq!((sheets.title.as_str(), key.title.as_str()), ("Worksheet", "Worksheet: key"));
    assert!(is_a4(&sheets) && is_a4(&key));
    let (of_sheets, of_key) = (codes(&sheets), codes(&key));
    assert_eq!(of_sheets, of_key, "sheets and key hold the same exercises");
    assert_eq!(of_sheets.len(), 21, "seven exercises in each of three variants: {of_sheets:?}");
    for variant in 1..=3 {
        let says = format!("variant {variant}");
        assert!(sheets.text().contains(&says) && key.text().contains(&says), "{says}");
    }
    assert!(sheets.text().contains("no machine"));
    // Another seed, other exercises; the same seed again, the same.
    page.fill("#worksheet-seed", "4711").await;
    page.press(Key::Tab).await;
    drawn(&page).await;
    let make = press(".paper-settings", "Save worksheets as PDF");
    let others = saved(&page, &folder, "Worksheet.pdf", &make).await;
    assert!(codes(&others).is_disjoint(&of_sheets));
    page.fill("#worksheet-seed", "1").await;
    page.press(Key::Tab).await;
    drawn(&page).await;
    let again = saved(&page, &folder, "Worksheet.pdf", &make).await;
    assert_eq!(codes(&again), of_sheets);
    // The next class begins with the next seed.
    page.reload().await;
    page.wait_until("document.querySelector('.rooms .room')").await;
    let kept = page.eval("return JSON.parse(localStorage.getItem('backmark-printer')).seed").await;
    assert_eq!(kept, json!(2));
    let _ = std::fs::remove_dir_all(&folder);
}

/// A fault is chosen in the words of the Trace room; the dummy's figures then read as the wrong section does.
#[tokio::test]
async fn a_dummy_is_printed_with_a_fault_on_letter_with_the_offsets_of_the_test_page() {
    let page = paper(Setup::default()).await;
    let folder = folder("dummies");
    page.downloads_to(&folder).await;
    choose(&page, "Dummy").await;
    page.wait_for_text(".paper-first", "test page first").await;
    page.eval(&press(".paper-first", "Printer test page")).await;
    page.wait_until("document.querySelector('#off-right')").await;
    page.fill("#off-right", "-1.5").await;
    page.press(Key::Tab).await;
    pick(&page, "#paper-size", "Letter").await;
    drawn(&page).await;
    let test = saved(&page, &folder, "Printer test page.pdf", &press(".paper-settings", "Save as PDF")).await;
    assert!(test.sizes.iter().all(|(w, h)| (w - 215.9).abs() < 0.01 && (h - 279.4).abs() < 0.01), "{:?}", test.sizes);
    choose(&page, "Dummy").await;
    page.wait_until("document.querySelector('.paper-first').hidden").await;
    let figures = |read: &Read| -> Vec<Vec<u32>> {
        read.pieces.iter().map(|page| page.iter().filter_map(|p| p.parse().ok()).collect()).collect()
    };
    let make = press(".paper-settings", "Save as PDF");
    let right = saved(&page, &folder, "Sixteen, three folds.pdf", &make).await;
    pick(&page, "#dummy-fault", "The second side was printed").await;
    drawn(&page).await;
    page.screenshot("paper-dummy").await;
    let wrong = saved(&page, &folder, "Sixteen, three folds.pdf", &make).await;
    assert_eq!((right.sizes.len(), wrong.sizes.len()), (2, 2));
    let (a, b) = (figures(&right), figures(&wrong));
    assert_ne!(a, b, "the fault shows");
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    // What is known of the printer outlives the page.
    page.reload().await;
    let kept = page.eval("return JSON.parse(localStorage.getItem('backmark-printer')).printer").await;
    assert_eq!(kept, json!({"paper": "letter", "flip": "long_edge", "off": {"right_mm": -1.5, "down_mm": 0}}));
    let _ = std::fs::remove_dir_all(&folder);
}

/// Another course by its drawn dummy, at true size over several pages.
#[tokio::test]
async fn another_sheet_is_chosen_by_its_drawn_dummy_and_tiled_at_true_size() {
    let page = paper(Setup::default()).await;
    let folder = folder("tiles");
    page.downloads_to(&folder).await;
    choose(&page, "Dummy").await;
    page.click(".sheet-choice .other").await;
    page.wait_until("document.querySelector('dialog[open] .dummy')").await;
    page.eval(
        "[...document.querySelectorAll('dialog[open] .dummy')].find((d) => d.textContent.includes('Eight')).click()",
    )
    .await;
    page.wait_until("!document.querySelector('dialog[open]')").await;
    let name = page.text(".sheet-choice .other").await;
    assert!(name.starts_with("Eight"), "{name}");
    pick(&page, "#dummy-size", "true size").await;
    page.wait_until(
        "Number(document.querySelector('.paper-large figcaption').textContent.match(/([0-9]+) pages/)?.[1]) > 4",
    )
    .await;
    let read = saved(&page, &folder, &format!("{name}.pdf"), &press(".paper-settings", "Save as PDF")).await;
    assert!(read.sizes.len() > 4 && read.sizes.len().is_multiple_of(2), "{}", read.sizes.len());
    assert!(read.pieces.iter().all(|page| page.concat().contains("no machine")));
    assert!(read.text().contains("row 1 of"));
    let _ = std::fs::remove_dir_all(&folder);
}

/// While a large document is made the button says so, and it can be stopped; nothing is saved then, and what else is asked is
/// answered.
#[tokio::test]
async fn making_a_large_document_is_stopped() {
    let page = paper(Setup { slower: 6.0, ..Setup::default() }).await;
    let folder = folder("stopped");
    page.downloads_to(&folder).await;
    drawn(&page).await;
    // Whatever the worker answers comes to nobody: as if it were very slow.
    page.eval("const post = Worker.prototype.postMessage; Worker.prototype.postMessage = function (m, ...rest) { if (!String(m[1]).includes('\"preview\"') && !globalThis.letThrough) return; return post.call(this, m, ...rest); }").await;
    page.eval(&press(".paper-settings", "Save worksheets as PDF")).await;
    page.wait_until("[...document.querySelectorAll('.paper-settings button')].some((b) => b.textContent.startsWith('Making ') && b.ariaDisabled === 'true')").await;
    page.screenshot("paper-making").await;
    page.eval(&press(".paper-settings", "Stop")).await;
    page.wait_for_text(".paper-out [role=status]", "Stopped. Nothing was saved.").await;
    assert_eq!(std::fs::read_dir(&folder).unwrap().count(), 0);
    // It can be made after all.
    page.eval("globalThis.letThrough = true").await;
    let read = saved(&page, &folder, "Worksheet.pdf", &press(".paper-settings", "Save worksheets as PDF")).await;
    assert_eq!(read.title, "Worksheet");
    let _ = std::fs::remove_dir_all(&folder);
}

/// Opening: in a window of its own, or saved where the browser opens none.
#[tokio::test]
async fn a_document_is_opened_or_saved_where_no_window_is_opened() {
    let page = paper(Setup::default()).await;
    let folder = folder("opened");
    page.downloads_to(&folder).await;
    drawn(&page).await;
    page.eval("globalThis.opened = []; globalThis.open = (url) => { opened.push(url); return {}; }").await;
    page.eval(&press(".paper-settings", "Open worksheets")).await;
    page.wait_for_text(".paper-out [role=status]", "Opened: ").await;
    let head = page
        .client()
        .execute_async(
            "const done = arguments[0]; fetch(opened[0]).then((r) => r.blob()).then(async (b) => done([b.type, await b.slice(0, 8).text()]), (e) => done(String(e)))",
            vec![],
        )
        .await;
    // The content security policy lets the page fetch from its own origin only; the address is that of a blob all the same.
    match head {
        Ok(head) if head.is_array() => assert_eq!(head, json!(["application/pdf", "%PDF-1.7"])),
        _ => assert!(page.eval("return opened[0]").await.as_str().unwrap().starts_with("blob:")),
    }
    assert_eq!(std::fs::read_dir(&folder).map_or(0, Iterator::count), 0);
    page.eval("globalThis.open = () => null").await;
    let read = saved(&page, &folder, "Worksheet.pdf", &press(".paper-settings", "Open worksheets")).await;
    assert_eq!(read.title, "Worksheet");
    page.wait_for_text(".paper-out [role=status]", "This browser opens no window here, so it was saved").await;
    let _ = std::fs::remove_dir_all(&folder);
}

/// The same documents where one looks for them: set-up sheet beside the bench, strips and mark sheet at the back marks, ticket
/// at the file.
#[tokio::test]
async fn documents_are_saved_where_they_are_looked_for() {
    let page = Page::open(Setup::default()).await;
    let folder = folder("rooms");
    page.downloads_to(&folder).await;
    page.wait_for_sentence("Take the corner and fold.").await;
    page.eval("[...document.querySelectorAll('.rooms .room')].find((b) => b.textContent === 'Job').click()").await;
    page.wait_until("document.querySelector('.room-job .book-row')").await;
    page.click(".room-job .parts .part:nth-child(3)").await;
    page.wait_until("[...document.querySelectorAll('.room-job .paper-out')].length === 2").await;
    let strips = saved(&page, &folder, "Spine strips.pdf", &press(".room-job", "Save spine strips as PDF")).await;
    assert_eq!(strips.sizes.len(), 3);
    assert!(strips.text().contains("no machine"));
    page.screenshot("paper-marks").await;
    page.click(".room-job .parts .part:nth-child(5)").await;
    page.wait_until("document.querySelector('.job-file .paper-out')").await;
    let ticket = saved(
        &page,
        &folder,
        "Job ticket The Quillmere Almanac.pdf",
        &press(".job-file", "Save the job ticket as PDF"),
    )
    .await;
    assert_eq!(ticket.title, "Job ticket: The Quillmere Almanac");
    page.screenshot("paper-ticket").await;
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    page.eval("[...document.querySelectorAll('.rooms .room')].find((b) => b.textContent === 'Fold').click()").await;
    page.wait_until("document.querySelector('.flats .more, .flats button')").await;
    page.eval("[...document.querySelectorAll('button')].find((b) => b.textContent === 'More').click()").await;
    page.wait_until("document.querySelector('.tabs')").await;
    page.eval(&press(".tabs", "Folder")).await;
    page.wait_until("document.querySelector('.folder .paper-out')").await;
    page.eval(&press(".folder-tools", "Side B up")).await;
    page.wait_until("document.querySelector('.folder-tools .button').ariaPressed === 'true'").await;
    let set_up = saved(&page, &folder, "Set-up sheet Sixteen, three folds.pdf", &press(".folder", "Save as PDF")).await;
    assert!(set_up.text().contains("side B up"), "{}", set_up.text());
    // It says all that the page says.
    let lines = page.eval("return [...document.querySelectorAll('.setup-lines li')].map((l) => l.textContent)").await;
    let squeezed = |text: &str| text.chars().filter(|c| c.is_ascii_alphanumeric()).collect::<String>();
    let text = squeezed(&set_up.text());
    for line in lines.as_array().unwrap() {
        assert!(text.contains(&squeezed(line.as_str().unwrap())), "{line}");
    }
    page.screenshot("paper-folder").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new());
    let _ = std::fs::remove_dir_all(&folder);
}

/// On a telephone: nothing sticks out, and a document is made.
#[tokio::test]
async fn on_a_telephone_nothing_sticks_out() {
    let setup = Setup { viewport: (375, 812), scale: 2.0, touch: true, ..Setup::default() };
    let page = paper(setup).await;
    let folder = folder("phone");
    page.downloads_to(&folder).await;
    for name in ["Worksheet", "Test page", "Dummy", "Fault cards", "Logbook"] {
        choose(&page, name).await;
        assert_eq!(page.overflow().await, 0, "{name}");
        let wide = page
            .eval("const main = document.querySelector('.room-class'); return main.scrollWidth - main.clientWidth")
            .await;
        assert_eq!(wide, json!(0), "{name}");
        page.screenshot(&format!("paper-phone-{}", name.replace(' ', "-"))).await;
    }
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    let read = saved(&page, &folder, "Logbook.pdf", &press(".paper-settings", "Save as PDF")).await;
    assert_eq!(read.sizes.len(), 1);
    let _ = std::fs::remove_dir_all(&folder);
}
