//! Five kinds of exercises in a real browser: what was done to a sheet, which section is wrong, sections, back marks and bolts;
//! answered right and wrong by the keyboard, and by the hand where that is another way.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use backmark::app::make_up_text;
use backmark::class::{Desk, DeskAct, write_desk};
use backmark::fold::misfold::Cause;
use backmark::fold::{Crease, Lands, Part};
use backmark::gather::Fault;
use backmark::marks::Lies;
use backmark::practice::{Answer, AtEdge, Exercise, Kind, LEVELS, Marked, Task};
use fantoccini::key::Key;
use serde_json::json;
use support::chrome::Setup;
use support::page::{Page, Pointer};

/// Lays an exercise on the desk, as the browser keeps it, and opens the room.
async fn set(page: &Page, kind: Kind, level: u8, seed: u64) -> Exercise {
    let desk = write_desk(&Desk::default().after(DeskAct::Set(kind, level, seed)).0);
    page.wait_until("document.querySelector('.rooms button')").await;
    page.eval(&format!(
        "window.laid = false; backmarkStore.noted('desk').then(() => backmarkStore.note('desk', {})).then(() => window.laid = true);",
        json!(desk)
    ))
    .await;
    page.wait_until("window.laid").await;
    page.reload().await;
    open_class(page).await;
    page.wait_until("document.querySelector('.answer .ticket')").await;
    Exercise::of(kind, level, seed).unwrap()
}

async fn open_class(page: &Page) {
    let class = "[...document.querySelectorAll('.rooms button')].find(b => b.textContent.includes('Class'))";
    page.wait_until(class).await;
    page.eval(&format!("{class}.click()")).await;
}

/// Hands the answer in, and compares what the logbook has with what the library gives for it.
async fn hand_in(page: &Page, exercise: &Exercise, answer: &Answer) -> Marked {
    let marked = exercise.mark(answer, 0);
    let button = "[...document.querySelectorAll('.practise button')].find(b => b.textContent.trim() === 'Hand in')";
    page.wait_until(button).await;
    page.eval(&format!("{button}.click()")).await;
    page.wait_until("document.querySelector('.answer .at-place:not([hidden])') || document.querySelector('.edge[aria-disabled=\"true\"]')").await;
    page.eval("window.entry = null; (async () => { for (;;) { const desk = JSON.parse(await backmarkStore.noted('desk')); if (desk.logbook.length) { window.entry = desk.logbook.at(-1); return; } await new Promise(f => setTimeout(f, 50)); } })();").await;
    page.wait_until("window.entry").await;
    let entry = page.eval("return window.entry").await;
    assert_eq!((&entry["got"], &entry["of"]), (&json!(marked.got), &json!(marked.of)), "{answer:?} {marked:?}");
    marked
}

/// Chooses a sentence of a list by the keys alone.
async fn choose(page: &Page, list: &str, at: usize) {
    page.focus(&format!("#{list} li:nth-child({}) input", at + 1)).await;
    page.type_text(" ").await;
    page.wait_until(&format!("document.querySelector('#{list} li:nth-child({}) .on')", at + 1)).await;
}

async fn choose_check(page: &Page, check: Option<u32>) {
    choose(page, "next-check", check.unwrap() as usize - 1).await;
}

/// Marks are shown at their places, and as many as there are.
async fn at_places(page: &Page, marked: &Marked) {
    let told = page.count(".answer .at-place:not([hidden])").await;
    assert_eq!(told, marked.items.len());
    let lost = page.count(".answer .at-place.lost").await;
    assert_eq!(lost, marked.items.iter().filter(|i| i.got < i.of).count());
}

async fn sound(page: &Page, name: &str) {
    for (width, height) in [(1280, 800), (375, 812), (1920, 1080)] {
        page.chrome.viewport((width, height), 1.0, false).await;
        page.wait_until(&format!("innerWidth === {width}")).await;
        page.wait_until("document.querySelector('.answer .ticket')").await;
        assert_eq!(page.violations().await, Vec::<String>::new(), "{name} {width}");
        if width == 375 {
            assert!(page.overflow().await <= 0, "{name}: reaches beyond the window");
            let small = page
                .eval("return [...document.querySelectorAll('.answer button, .answer input, .answer select, .answer summary')].filter(b => { const r = b.getBoundingClientRect(); return r.width > 0 && !b.disabled && !b.closest('.rule') && (r.width < 24 || r.height < 24); }).map(b => b.outerHTML)")
                .await;
            assert_eq!(small, json!([]), "{name}");
        }
        page.screenshot(&format!("answers-{name}-{width}")).await;
    }
    page.chrome.viewport((1280, 800), 1.0, false).await;
    page.wait_until("innerWidth === 1280").await;
    assert_eq!(page.console_errors().await, Vec::<String>::new(), "{name}");
}

/// The first exercise of a level of which something is so.
fn find(kind: Kind, level: u8, so: impl Fn(&Exercise) -> bool) -> Exercise {
    (0..400).filter_map(|seed| Exercise::of(kind, level, seed).ok()).find(so).unwrap()
}

#[tokio::test]
async fn causes_and_checks_are_chosen_by_keys_one_and_two_at_once() {
    let page = Page::open(Setup::default()).await;
    for level in [2, 5] {
        let exercise = find(Kind::WrongSheet, level, |e| {
            let Task::WrongSheet { menu, .. } = &e.task else { return false };
            matches!(e.right(), Answer::WrongSheet { causes, .. } if causes.iter().all(|c| menu.contains(c)))
        });
        let exercise = set(&page, Kind::WrongSheet, level, exercise.seed).await;
        let Task::WrongSheet { menu, pages, .. } = &exercise.task else { panic!() };
        let right = exercise.right();
        let Answer::WrongSheet { causes, check } = &right else { panic!() };
        assert_eq!(causes.len(), if level == 5 { 2 } else { 1 });
        // All openings are there, and the arrows leaf through them.
        assert_eq!(page.count(".opened .openings .opening").await, pages.len() / 2 + 1);
        page.focus(".spread").await;
        page.press(Key::Right).await;
        page.wait_for_text(".hand-says", "Open at").await;
        if level == 5 {
            sound(&page, "sheet").await;
        }
        for cause in causes {
            choose(&page, "causes", menu.iter().position(|c| c == cause).unwrap()).await;
        }
        choose_check(&page, *check).await;
        let marked = hand_in(&page, &exercise, &right).await;
        assert_eq!(marked.got, marked.of);
        at_places(&page, &marked).await;
        page.wait_for_text(".pair", "The right sheet").await;
    }
}

#[tokio::test]
async fn a_wrong_cause_folds_beside_what_was_found() {
    let page = Page::open(Setup::default()).await;
    let exercise = set(&page, Kind::WrongSheet, 3, 4).await;
    let Task::WrongSheet { menu, .. } = &exercise.task else { panic!() };
    let Answer::WrongSheet { check, .. } = exercise.right() else { panic!() };
    // One that can be done to this sheet and makes something else.
    let wrong = menu.iter().position(|c| {
        let answer = Answer::WrongSheet { causes: vec![c.clone()], check };
        exercise.mark(&answer, 0).departs.is_some()
    });
    let wrong = wrong.unwrap();
    let answer = Answer::WrongSheet { causes: vec![menu[wrong].clone()], check };
    choose(&page, "causes", wrong).await;
    choose_check(&page, check).await;
    let marked = hand_in(&page, &exercise, &answer).await;
    assert!(marked.got < marked.of);
    at_places(&page, &marked).await;
    page.wait_for_text(".departs", &marked.departs.unwrap().says[..20]).await;
    page.wait_for_text(".pair", "As it was found").await;
    page.wait_until("document.querySelectorAll('.small-bench canvas').length === 2").await;
    // Both stop where they differ.
    page.wait_until("[...document.querySelectorAll('.small-bench')].some(b => b.classList.contains('differs'))").await;
    sound(&page, "sheet-wrong").await;
    // Nothing more can be answered.
    assert!(
        page.eval("return [...document.querySelectorAll('#causes input')].every(i => i.disabled)").await == json!(true)
    );
}

/// The right sheet is folded by keys, its first fold the other way: that is the answer, without a word of the list.
#[tokio::test]
async fn a_fold_made_wrong_by_hand_is_the_answer() {
    let page = Page::open(Setup::default()).await;
    let exercise = find(
        Kind::WrongSheet,
        2,
        |e| matches!(e.right(), Answer::WrongSheet { causes, .. } if causes == [Cause::FoldOtherWay { fold: 1 }]),
    );
    let exercise = set(&page, Kind::WrongSheet, 2, exercise.seed).await;
    let Task::WrongSheet { scheme, .. } = &exercise.task else { panic!() };
    let right = exercise.right();
    let Answer::WrongSheet { check, .. } = &right else { panic!() };
    let mut folds = scheme.folds.clone();
    folds[0].lands = folds[0].lands.other();
    for (made, fold) in folds.iter().enumerate() {
        page.focus(".sheet-stand canvas").await;
        page.wait_until("document.activeElement?.tagName === 'CANVAS'").await;
        page.type_text("f").await;
        page.wait_for_text(".sheet-stand .stand-note", "Crease").await;
        // From the crease that is offered to the one that is meant.
        for _ in 0..8 {
            let wanted = match fold.crease {
                Crease::Vertical => format!("Crease upright, {} from the left", fold.after),
                Crease::Horizontal => format!("Crease level, {} from the top", fold.after),
            };
            let now = page.text(".sheet-stand .stand-note").await;
            if now.contains(&wanted) {
                break;
            }
            let upright = now.contains("upright");
            let key = match (fold.crease, upright) {
                (Crease::Vertical, true) | (Crease::Vertical, false) => {
                    let at: u32 = now
                        .split("upright, ")
                        .nth(1)
                        .and_then(|t| t.split(' ').next())
                        .and_then(|n| n.parse().ok())
                        .unwrap_or(0);
                    if at > fold.after { Key::Left } else { Key::Right }
                }
                (Crease::Horizontal, true) => Key::Down,
                (Crease::Horizontal, false) => {
                    let at: u32 = now
                        .split("level, ")
                        .nth(1)
                        .and_then(|t| t.split(' ').next())
                        .and_then(|n| n.parse().ok())
                        .unwrap_or(0);
                    if at > fold.after { Key::Up } else { Key::Down }
                }
            };
            page.press(key).await;
            page.wait_until(&format!(
                "document.querySelector('.sheet-stand .stand-note').textContent !== {}",
                json!(now)
            ))
            .await;
        }
        page.press(Key::Enter).await;
        page.wait_for_text(".sheet-stand .stand-note", "with Shift it goes under").await;
        let key = match fold.moves {
            Part::Right => Key::Left,
            Part::Left => Key::Right,
            Part::Bottom => Key::Up,
            Part::Top => Key::Down,
        };
        if fold.lands == Lands::Under {
            page.chord(&[Key::Shift.into(), key.into()]).await;
        } else {
            page.press(key).await;
        }
        page.wait_until(&format!(
            "document.querySelector('.sheet-stand .rule input').value === '{}'",
            100 * (made + 1)
        ))
        .await;
    }
    page.wait_for_text(".stand-told", "Fold 1 was made the other way. That is your answer now.").await;
    choose_check(&page, *check).await;
    let marked = hand_in(&page, &exercise, &right).await;
    assert_eq!(marked.got, marked.of);
}

/// Presses the key of what was done, and sets the numbers that it needs.
async fn did(page: &Page, fault: &Fault, section: u32) {
    page.fill("#section", &section.to_string()).await;
    page.press(Key::Tab).await;
    page.wait_until(&format!("document.querySelector('#section').value === '{section}'")).await;
    let (says, numbers): (&str, Vec<(&str, u32)>) = match *fault {
        Fault::Missing { .. } => ("left out", vec![]),
        Fault::Double { .. } => ("taken twice", vec![]),
        Fault::WrongSection { section, .. } => ("Another one was taken", vec![("other", section)]),
        Fault::Exchanged { sections: [a, b] } => ("exchanged", vec![("other", if a == section { b } else { a })]),
        Fault::Lies { lies: Lies::HeadToTail, .. } => ("head to tail", vec![]),
        Fault::Foreign { .. } => ("another job", vec![]),
        Fault::Moved { sections: [_, last], after } => ("elsewhere", vec![("last", last), ("after", after)]),
        Fault::Reversed => ("backwards", vec![]),
        Fault::DividedWrong { .. } => ("divided", vec![]),
        Fault::NoMark { .. } | Fault::Lies { .. } => ("folded wrongly", vec![]),
    };
    let key = format!("[...document.querySelectorAll('.did')].find(b => b.textContent.includes({}))", json!(says));
    page.eval(&format!("{key}.focus()")).await;
    page.type_text(" ").await;
    page.wait_until(&format!("{key}.ariaPressed === 'true'")).await;
    for (id, number) in numbers {
        page.wait_until(&format!("document.querySelector('#{id}')")).await;
        page.fill(&format!("#{id}"), &number.to_string()).await;
        page.press(Key::Tab).await;
        page.wait_until(&format!("document.querySelector('#{id}').value === '{number}'")).await;
    }
}

#[tokio::test]
async fn a_book_is_spoiled_until_it_is_the_one_that_was_found() {
    let page = Page::open(Setup::default()).await;
    for (level, seed) in [(2, 1), (4, 2), (5, 3)] {
        let exercise = set(&page, Kind::WrongBook, level, seed).await;
        let right = exercise.right();
        let Answer::WrongBook { faults, check } = &right else { panic!() };
        // The arrows go along the books, and what stands there is said.
        page.focus(".spines-box").await;
        page.press(Key::Right).await;
        page.wait_until("document.querySelector('.spines-box').getAttribute('aria-valuetext').startsWith('Place 2.')")
            .await;
        for (at, pointed) in faults.iter().enumerate() {
            if faults.len() > 1 {
                page.focus(&format!(".slots li:nth-child({}) button", at + 1)).await;
                page.press(Key::Enter).await;
                page.wait_until(&format!(
                    "document.querySelector('.slots li:nth-child({}) button').ariaPressed === 'true'",
                    at + 1
                ))
                .await;
            }
            did(&page, &pointed.fault.unwrap(), pointed.section.unwrap()).await;
        }
        choose_check(&page, *check).await;
        if level == 5 {
            sound(&page, "book").await;
        }
        let marked = hand_in(&page, &exercise, &right).await;
        assert_eq!(marked.got, marked.of, "{level} {right:?}");
        at_places(&page, &marked).await;
        assert_eq!(
            page.eval("return document.querySelector('.spine-thread').getAttribute('display')").await,
            json!("none")
        );
    }
}

#[tokio::test]
async fn a_wrong_fault_is_drawn_under_the_found_book_with_a_thread_to_the_first_difference() {
    let page = Page::open(Setup::default()).await;
    let exercise = find(
        Kind::WrongBook,
        2,
        |e| matches!(e.right(), Answer::WrongBook { faults, .. } if matches!(faults[0].fault, Some(Fault::Missing { section }) if section > 2)),
    );
    let exercise = set(&page, Kind::WrongBook, 2, exercise.seed).await;
    let Answer::WrongBook { check, .. } = exercise.right() else { panic!() };
    // The second section is pointed at in the picture, and said to be there twice.
    page.click(".spines g:nth-child(2) .spine-back[data-place='2'] .slip-paper").await;
    page.wait_until("document.querySelector('#section').value === '2'").await;
    did(&page, &Fault::Double { section: 2 }, 2).await;
    choose_check(&page, check).await;
    let pointed = backmark::practice::Pointed { section: Some(2), fault: Some(Fault::Double { section: 2 }) };
    let marked = hand_in(&page, &exercise, &Answer::WrongBook { faults: vec![pointed], check }).await;
    assert!(marked.got < marked.of);
    at_places(&page, &marked).await;
    page.wait_for_text(".departs", "place 3").await;
    assert_eq!(
        page.eval("return document.querySelector('.spine-thread').getAttribute('display')").await,
        json!("inline")
    );
    sound(&page, "book-wrong").await;
}

#[tokio::test]
async fn sections_are_set_by_keys_and_as_a_line_and_counted() {
    let page = Page::open(Setup::default()).await;
    let exercise = set(&page, Kind::MakeUp, 4, 2).await;
    let Answer::MakeUp(row) = exercise.right() else { panic!() };
    let Task::MakeUp { job } = &exercise.task else { panic!() };
    // Keys: a sixteen is added, made larger and smaller, another one put before it, and both taken away.
    let add = |pages: u32| {
        format!(
            "[...document.querySelectorAll('.row-tools [role=group] button')].find(b => b.textContent.trim() === '{pages}')"
        )
    };
    page.eval(&format!("{}.focus()", add(16))).await;
    page.press(Key::Enter).await;
    page.wait_for_text(".counted", "1 section of 16").await;
    page.focus(".row-box").await;
    page.type_text("+").await;
    page.wait_for_text(".counted", "1 section of 20").await;
    page.type_text("-").await;
    page.wait_for_text(".counted", "1 section of 16").await;
    page.eval(&format!("{}.focus()", add(8))).await;
    page.press(Key::Enter).await;
    page.wait_for_text(".counted", "1 section of 16 and 1 of 8").await;
    page.focus(".row-box").await;
    page.chord(&[Key::Shift.into(), Key::Left.into()]).await;
    page.wait_for_text(".counted", "1 section of 8 and 1 of 16").await;
    page.wait_for_text(".counted", "find no place yet").await;
    page.press(Key::Delete).await;
    page.wait_for_text(".counted", "1 section of 16:").await;
    sound(&page, "sections").await;
    page.fill("#sections", &make_up_text(&row)).await;
    page.press(Key::Tab).await;
    page.wait_for_text(".counted", &row.iter().sum::<u32>().to_string()).await;
    assert_eq!(page.count(".row-box .packet").await, row.len());
    let marked = hand_in(&page, &exercise, &Answer::MakeUp(row.clone())).await;
    assert_eq!(marked.got, marked.of);
    at_places(&page, &marked).await;
    assert_eq!(page.count(".row-beside .packet").await, row.len());
    // A book that is too short, and right and wrong rows one under the other.
    let exercise = set(&page, Kind::MakeUp, 4, 2).await;
    page.fill("#sections", "2x16").await;
    page.press(Key::Tab).await;
    page.wait_for_text(".counted", &format!("{} of {} pages find no place yet", job.extent - 32, job.extent)).await;
    let marked = hand_in(&page, &exercise, &Answer::MakeUp(vec![16, 16])).await;
    assert_eq!(marked.got, 0);
    at_places(&page, &marked).await;
    assert_eq!((page.count(".row-box .packet").await, page.count(".row-beside .packet").await), (2, row.len()));
    sound(&page, "sections-wrong").await;
}

#[tokio::test]
async fn back_marks_are_typed_and_drawn_with_the_hand() {
    let page = Page::open(Setup::default()).await;
    let exercise = set(&page, Kind::BackMarks, 3, 1).await;
    let Answer::BackMarks(right) = exercise.right() else { panic!() };
    let numbers = [
        ("first", right.first_mm),
        ("length", right.length_mm),
        ("step", right.step_mm),
        ("levels", f64::from(right.levels)),
    ];
    for (id, number) in numbers {
        page.fill(&format!("#{id}"), &number.to_string()).await;
        page.press(Key::Tab).await;
    }
    page.wait_for_text(".back-marks .said", "The mark of section 1 begins").await;
    sound(&page, "marks").await;
    let marked = hand_in(&page, &exercise, &Answer::BackMarks(right)).await;
    assert_eq!(marked.got, marked.of);
    at_places(&page, &marked).await;
    assert_eq!(page.count(".spine-drawn").await, 2, "both staircases");
    // Again, and the first mark is drawn into the head trim.
    let exercise = set(&page, Kind::BackMarks, 3, 1).await;
    for (id, number) in numbers {
        page.fill(&format!("#{id}"), &number.to_string()).await;
        page.press(Key::Tab).await;
    }
    page.wait_until("document.querySelector('.drag-marks .bar')").await;
    page.eval("document.querySelector('.drag-marks').scrollIntoView({ block: 'center' })").await;
    let bar = page.middle(".drag-marks g > g:nth-child(1) .bar").await;
    // To the left edge of the window at the most: beyond the head in any case.
    page.drag(Pointer::Mouse, bar, ((bar.0 - 400.0).max(2.0), bar.1)).await;
    page.wait_until("document.querySelector('#first').value === '0'").await;
    let drawn = backmark::marks::Design { first_mm: 0.0, ..right };
    let marked = hand_in(&page, &exercise, &Answer::BackMarks(drawn)).await;
    assert!(marked.got < marked.of);
    at_places(&page, &marked).await;
    sound(&page, "marks-wrong").await;
}

#[tokio::test]
async fn edges_of_leaves_are_told_by_keys_and_by_presses() {
    let page = Page::open(Setup::default()).await;
    for level in [2, LEVELS] {
        let exercise = set(&page, Kind::Bolts, level, 1).await;
        let right = exercise.right();
        let Answer::Bolts(leaves) = &right else { panic!() };
        assert_eq!(page.count(".leaves .leaf-tile").await, leaves.len());
        for (leaf, edges) in leaves.iter().enumerate() {
            for (nth, at) in [edges.head, edges.tail, edges.fore_edge].into_iter().enumerate() {
                let (key, class) = match at.unwrap() {
                    AtEdge::Free => ("n", "free"),
                    AtEdge::Opened => ("o", "opened"),
                    AtEdge::Closed => ("c", "closed"),
                };
                let edge = format!(".edge[data-edge='{leaf}-{nth}']");
                if (leaf, nth) == (0, 0) {
                    page.focus(&edge).await;
                }
                page.wait_until(&format!("document.activeElement === document.querySelector(\"{edge}\")")).await;
                page.type_text(key).await;
                page.wait_until(&format!("document.querySelector(\"{edge}\").classList.contains('{class}')")).await;
                page.press(Key::Down).await;
            }
        }
        if level == LEVELS {
            sound(&page, "bolts").await;
        }
        let marked = hand_in(&page, &exercise, &right).await;
        assert_eq!(marked.got, marked.of);
    }
    // One edge is pressed until it is wrong; all others have no bolt at one press.
    let exercise = set(&page, Kind::Bolts, 2, 1).await;
    let Answer::Bolts(leaves) = exercise.right() else { panic!() };
    for class in ["free", "opened", "closed"] {
        page.click(".edge[data-edge='0-0']").await;
        page.wait_until(&format!("document.querySelector(\".edge[data-edge='0-0']\").classList.contains('{class}')"))
            .await;
    }
    let rest =
        "[...document.querySelectorAll('.bolts button')].find(b => b.textContent.includes('No bolt at the other'))";
    page.eval(&format!("{rest}.click()")).await;
    page.wait_until("!document.querySelector('.leaves .unsaid')").await;
    let free = backmark::practice::LeafEdges {
        head: Some(AtEdge::Free),
        tail: Some(AtEdge::Free),
        fore_edge: Some(AtEdge::Free),
    };
    let mut answer = vec![free; leaves.len()];
    answer[0].head = Some(AtEdge::Closed);
    let marked = hand_in(&page, &exercise, &Answer::Bolts(answer)).await;
    assert!(marked.got < marked.of);
    let lost = marked.items.iter().filter(|i| i.got < i.of).count();
    assert_eq!(page.count(".leaves button.edge.lost").await, lost);
    page.wait_until("document.querySelectorAll('.leaves').length === 2 && document.querySelector('.trim-cut svg')")
        .await;
    sound(&page, "bolts-wrong").await;
}
