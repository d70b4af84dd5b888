//! Links from outside: what was given out is read for ever, what is damaged is refused in words, and the QR code of a link
//! is read by another library (`rqrr`, a Rust port of D. Beer's quirc).
//!
//! The long runs, a hundred thousand round trips and a million mutations, are
//!
//! ```text
//! cargo test --release --no-default-features --test link -- --ignored --nocapture
//! ```

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

#[path = "support/requests.rs"]
mod requests;

use backmark::app::{Action, Evidence, Pane, Room, Spoil, State, read_saved, update, write_saved};
use backmark::fold::{Course, Crease, Lay, courses};
use backmark::link::{Beside, Exercise, Link, QUIET_ZONE, Qr, Refused, Scene, Sheet};
use backmark::marks::Lies;
use backmark::scene::{Item, qr_code, qr_code_says};
use requests::{Dice, scheme};

/// Links that were given out in version 1. They are never changed, and each has to be read as it was meant.
const GIVEN_OUT: &[(&str, &str)] = &[
    ("a flat sixteen", "#1sKrAuAkI6W8XA"),
    ("a sixteen after two folds, turned", "#1sOnAoBxWUmOsu9LhB"),
    ("a sheet of its own", "#1sUJmFedk_2VeYcBtAUOxTPB"),
    ("an exercise", "#1eKUAwIp3_tQ0C"),
    (
        "a job",
        "#1jiDjAbIOuE4ihG3PDbtO6ZtYHPTfEiuAfgbDzFrZ6sHV_5XD5aWI-TTGhvq7bS7fri54FvEPpa5HHcxQpetv3I24wJZ7Ca1U4OauJD",
    ),
];

/// What they hold.
fn meant() -> Vec<Link> {
    let flat = Scene::flat(Sheet::AtHand("Sixteen, three folds"));
    let folded = Scene {
        at: 225,
        lay: Lay { over: true, quarters: 1 },
        beside: Beside::Inside(Crease::Vertical, 1),
        through: true,
        figures: false,
        followed: Some(5),
        place: 7,
        ..flat.clone()
    };
    let own = Sheet::Own(Course::of_scheme(&scheme(&mut Dice::new(4))));
    let exercise = Exercise { kind: 3, level: 2, seed: 41 };
    vec![
        Link::Scene(flat),
        Link::Scene(folded),
        Link::Scene(Scene { piece: Some(2), ..Scene::flat(own) }),
        Link::Exercise(exercise),
        Link::Job(JOB.into()),
    ]
}

/// The text of a job file of form 3, as it is kept for this test.
const JOB: &str = include_str!("data/job_3.json");

#[test]
fn links_that_were_given_out_are_read_for_ever() {
    let written: Vec<String> = meant().iter().map(|link| link.write().unwrap()).collect();
    for ((name, given), meant) in GIVEN_OUT.iter().zip(meant()) {
        assert_eq!(Link::read(given), Ok(meant.clone()), "{name}; now they would be {written:#?}");
    }
    let Ok(Link::Job(text)) = Link::read(GIVEN_OUT[4].1) else { panic!("a job") };
    assert_eq!(read_saved(&text).unwrap().job.title, "Letters from the Low Marshes");
}

#[test]
fn links_are_short() {
    for named in courses() {
        let scene =
            Scene { at: 99_999, followed: Some(128), place: 99, ..Scene::flat(Sheet::of(&named.course, named.oblong)) };
        let lay = Lay { over: true, quarters: 3 };
        let scene = Scene { lay, beside: Beside::Inside(Crease::Horizontal, 15), piece: Some(15), ..scene };
        let link = Link::Scene(scene).write().unwrap();
        assert!(link.len() <= 60, "{} {link}", link.len());
    }
    let exercise = Link::Exercise(Exercise { kind: u8::MAX, level: 9, seed: u64::MAX }).write().unwrap();
    assert!(exercise.len() <= 30, "{exercise}");
    for case in 0..40 {
        let text = standard_job(&mut Dice::new(case));
        let link = Link::Job(text.clone()).write().unwrap();
        assert!(link.len() <= 200, "case {case}: {} of {}", link.len(), text.len());
        assert_eq!(Link::read(&link), Ok(Link::Job(text)));
        // The goal for such a link at a short address of the program.
        let code = Qr::of(&format!("https://example.org/{link}")).unwrap();
        assert!(code.version <= 10, "case {case}: {}", code.version);
    }
}

/// A job as a person has it: a course, a title, a paper, a book with a few faults. It is made by actions and saved as the
/// program saves it now, whatever form that is.
fn standard_job(dice: &mut Dice) -> String {
    let titles =
        ["Letters from the Low Marshes", "A Bird in Every Hedge", "Über die Brücken der Ostmark", "Tide Tables"];
    let all = courses();
    // Sheets of the trade: the historical ones of sixty steps are no standard job.
    let mut state = update(&State::default(), Action::Take(all[dice.below(34) as usize].course.clone())).0;
    let mut paper = state.job.paper;
    paper.stock.grammage = f64::from(60 + 5 * dice.below(18));
    paper.stock.bulk = dice.pick(&[0.9, 1.25, 1.5]);
    let sections = state.job.stack.placed().len() as u32;
    let mut actions = vec![Action::Paper(paper)];
    for _ in 0..dice.below(4) {
        let place = 1 + dice.below(sections.saturating_sub(2).max(1));
        actions.push(Action::Spoil(match dice.below(5) {
            0 => Spoil::LeaveOut(place),
            1 => Spoil::TakeTwo(place),
            2 => Spoil::PutIn(place, 1 + dice.below(sections)),
            3 => Spoil::Lay(place, Lies::HeadToTail),
            _ => Spoil::Exchange(place, place + 1),
        }));
    }
    if dice.once_in(4) {
        actions.push(Action::Look(Evidence::Typed("1-4 9 6-12".into())));
    }
    actions.push(Action::Go(dice.pick(&[Room::Fold, Room::Gather, Room::Trace])));
    actions.push(Action::Moved(f64::from(dice.below(600)) / 100.0));
    actions.push(Action::Pane(dice.pick(&[Pane::Sides, Pane::Trim, Pane::Inside(Crease::Vertical, 0)])));
    actions.push(Action::Follow(dice.once_in(2).then(|| 1 + dice.below(16))));
    for action in actions {
        state = update(&state, action).0;
    }
    let usual = "The Quillmere Almanac";
    let text = write_saved(&state.job, &state.look);
    assert!(text.contains(usual) && read_saved(&text).is_ok());
    text.replacen(usual, dice.pick(&titles), 1)
}

/// Any link at all.
fn any_link(dice: &mut Dice) -> Link {
    match dice.below(8) {
        0 => Link::Job(standard_job(dice)),
        1..4 => Link::Exercise(Exercise {
            kind: dice.below(256) as u8,
            level: 1 + dice.below(9) as u8,
            seed: dice.next() >> dice.below(64),
        }),
        _ => {
            let sheet = if dice.once_in(2) {
                let all = courses();
                let named = &all[dice.below(all.len() as u32) as usize];
                Sheet::AtHand(named.name)
            } else {
                Sheet::of(&Course::of_scheme(&scheme(dice)), false)
            };
            let maybe = |dice: &mut Dice, below: u32| dice.once_in(2).then(|| dice.below(below));
            Link::Scene(Scene {
                sheet,
                piece: maybe(dice, 257),
                place: 1 + dice.below(400),
                at: if dice.once_in(2) { 100 * dice.below(10_000) } else { dice.below(1_000_000) },
                lay: Lay { over: dice.once_in(2), quarters: dice.below(4) as u8 },
                beside: match dice.below(5) {
                    0 => Beside::Inside(dice.pick(&[Crease::Vertical, Crease::Horizontal]), dice.below(4096)),
                    other => [Beside::Sides, Beside::Paper, Beside::Trim, Beside::Folder][other as usize - 1],
                },
                through: dice.once_in(2),
                figures: dice.once_in(2),
                followed: maybe(dice, 1_000_000),
            })
        }
    }
}

fn round_trips(cases: u64) {
    let mut longest = [0; 3];
    for case in 0..cases {
        let link = any_link(&mut Dice::new(case));
        let written = link.write().unwrap_or_else(|why| panic!("case {case}: {why} {link:?}"));
        assert_eq!(Link::read(&written).as_ref(), Ok(&link), "case {case}");
        let kind = match link {
            Link::Scene(_) => 0,
            Link::Exercise(_) => 1,
            Link::Job(_) => 2,
        };
        longest[kind] = longest[kind].max(written.len());
    }
    println!("{cases} links; the longest scene, exercise and job have {longest:?} signs");
}

#[test]
fn any_link_is_read_as_it_was_written() {
    round_trips(400);
}

#[test]
#[ignore = "minutes, in release; a hundred thousand links"]
fn a_hundred_thousand_links_are_read_as_they_were_written() {
    round_trips(100_000);
}

/// Changes a link as carelessness does: signs changed, lost, doubled, put in, exchanged, in another case, cut, two links run
/// together.
fn damaged(dice: &mut Dice, link: &str, other: &str) -> String {
    let mut signs: Vec<char> = link.chars().collect();
    for _ in 0..1 + dice.below(3) * dice.below(2) {
        let n = signs.len() as u32;
        if n == 0 {
            break;
        }
        let (at, with) = (dice.below(n) as usize, dice.below(n) as usize);
        let new = if dice.once_in(8) {
            dice.pick(&[' ', '#', '\n', 'é', '%', '\0', '🕮', '.', '='])
        } else {
            let signs: Vec<char> = other.chars().collect();
            dice.pick(&signs)
        };
        match dice.below(9) {
            0..3 => signs[at] = new,
            3 => signs.insert(at, new),
            4 => _ = signs.remove(at),
            5 => signs.swap(at, with),
            6 => signs.truncate(at),
            7 => {
                signs[at] = if signs[at].is_ascii_lowercase() {
                    signs[at].to_ascii_uppercase()
                } else {
                    signs[at].to_ascii_lowercase()
                }
            }
            _ => signs.extend(other.chars().skip(with)),
        }
    }
    signs.into_iter().collect()
}

fn mutations(cases: u64) {
    let links: Vec<Link> = (0..200).map(|case| any_link(&mut Dice::new(1_000_000 + case))).collect();
    let written: Vec<String> = links.iter().map(|l| l.write().unwrap()).collect();
    let (mut refused, mut whole) = (0, 0);
    for case in 0..cases {
        let mut dice = Dice::new(case);
        let which = dice.below(200) as usize;
        let other = &written[dice.below(200) as usize];
        let text = damaged(&mut dice, &written[which], other);
        match Link::read(&text) {
            Err(why) => {
                refused += 1;
                assert!(!why.to_string().is_empty());
            }
            // White space and what stands before the # are no part of a link, so some changes change nothing.
            Ok(read) => {
                whole += 1;
                let same = read == links[which] || written.iter().zip(&links).any(|(w, l)| *w == *other && *l == read);
                assert!(same, "case {case}: {text} is read as {read:?}");
            }
        }
    }
    println!("{cases} mutations: {refused} refused, {whole} still whole");
    assert!(refused > whole);
}

#[test]
fn a_damaged_link_is_never_read_as_something_else() {
    mutations(4_000);
}

#[test]
#[ignore = "a minute, in release; a million mutations"]
fn a_million_damaged_links_are_never_read_as_something_else() {
    mutations(1_000_000);
}

#[test]
fn it_is_said_what_is_wrong() {
    let link = Link::Exercise(Exercise { kind: 3, level: 2, seed: 41 }).write().unwrap();
    let says = |text: &str| Link::read(text).unwrap_err().to_string();
    assert_eq!(says(&link[..link.len() - 2]), "This link was cut short: 2 signs are missing.");
    assert_eq!(says(&link[..link.len() - 1]), "This link was cut short: 1 sign is missing.");
    assert_eq!(says(&format!("{link}A")), "This link has 1 sign too many.");
    assert_eq!(says("#2sGV"), says("#2sGV"));
    let lower = link.to_ascii_lowercase();
    assert!(matches!(Link::read(&lower), Err(Refused::Beginning | Refused::Changed)), "{lower}");
    assert!(says(&link.replacen('e', "=", 1)).contains("no link has that sign"));
}

/// The dark modules of a picture, drawn in pixels: `scale` to a module.
fn drawn(code: &Qr, scale: usize) -> (usize, Vec<u8>) {
    let scene = qr_code(code, 0.5);
    let side = scene.size.0;
    let pixels = (side / 0.5).round() as usize * scale;
    let mut grey = vec![255_u8; pixels * pixels];
    let to_pixel = |mm: f64| (mm / 0.5 * scale as f64).round() as usize;
    let Some(Item::Path { path, .. }) = scene.items.last() else { panic!("the modules") };
    let mut corners = Vec::new();
    for element in path.elements() {
        match element {
            kurbo::PathEl::MoveTo(p) => corners = vec![*p],
            kurbo::PathEl::LineTo(p) => corners.push(*p),
            _ => {
                let (x, y): (Vec<usize>, Vec<usize>) = corners.iter().map(|p| (to_pixel(p.x), to_pixel(p.y))).unzip();
                for row in y[0]..y[2] {
                    grey[row * pixels + x[0]..row * pixels + x[2]].fill(16);
                }
            }
        }
    }
    (pixels, grey)
}

#[test]
fn the_qr_code_is_read_by_another_library() {
    let mut texts: Vec<String> = GIVEN_OUT.iter().map(|(_, link)| format!("https://example.org/b/{link}")).collect();
    texts.extend(["A", "0123456789", "é and ü"].map(String::from));
    texts.push("x".repeat(900));
    for text in &texts {
        let code = Qr::of(text).unwrap();
        let (side, grey) = drawn(&code, 4);
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| grey[y * side + x]);
        let grids = image.detect_grids();
        assert_eq!(grids.len(), 1, "{text}");
        let (meta, read) = grids[0].decode().unwrap();
        assert_eq!(&read, text);
        assert_eq!(meta.version.0, usize::from(code.version));
        // ISO/IEC 18004, table 12: the bits 00 stand for level M.
        assert_eq!(meta.ecc_level, 0);
        // Four clear modules on every side.
        let quiet = QUIET_ZONE as usize * 4;
        let clear = |x: usize, y: usize| grey[y * side + x] == 255;
        assert!((0..side).all(|i| {
            (0..quiet).all(|q| clear(i, q) && clear(q, i) && clear(i, side - 1 - q) && clear(side - 1 - q, i))
        }));
        assert!(!clear(quiet, quiet), "and no more than four");
    }
}

#[test]
fn the_code_is_the_smallest_and_its_size_is_said() {
    // ISO/IEC 18004, table 7: bytes that versions hold at level M.
    for (version, bytes) in [(1, 14), (2, 26), (5, 84), (10, 213), (40, 2331)] {
        assert_eq!(Qr::of(&"x".repeat(bytes)).unwrap().version, version);
        assert_eq!(Qr::of(&"x".repeat(bytes + 1)).map(|q| q.version).ok(), (version < 40).then_some(version + 1));
    }
    assert!(Qr::of(&"x".repeat(9_000)).unwrap_err().to_string().contains("9000 signs"));
    let code = Qr::of("https://example.org/").unwrap();
    assert_eq!(
        qr_code_says(&code, 0.5),
        "A QR code of 25 by 25 modules, 16.5 mm wide with its clear edge. Its text is the link."
    );
}
