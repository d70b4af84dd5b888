//! The program without a screen under whatever a person might do, in any order: nothing panics, every state is saved
//! and read back as it was, undo goes back to the first job and redo to the last, and what is asked of the outside fits
//! the state.
//!
//! An action that is new gets a line in [`NAMES`], without which this does not compile, and one in [`any_action`],
//! without which a test says that it is missing.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::app::{
    Action, BookAct, CaseAct, Casing, Cell, Effect, Evidence, Find, Job, Lay, Look, MadeUp, Pane, Paper, Planning,
    Room, Saved, SectionCase, SectionEvidence, Spoil, State, Subject, Task, TraceLook, read_saved, update, write_saved,
};
use backmark::book::{Added, Alphabet, Back, Doubling, Folios, Run, Signing, Start};
use backmark::fold::{Course, Crease, Direction, Fold, Lands, Measure, Part, Reads, Scheme, Side, courses, library};
use backmark::json::Json;
use backmark::marks::{AfterWrap, BackMarks, Design, Label, Lies, Runs};
use backmark::paper::{Edge, Grain, Length, Margins, Press, Stock, Trims};
use backmark::since::{Fed, Happened, Judged, Logged};
use backmark::trace::{Inside, Spine, Stopped, Stopper};
use proptest::prelude::*;
use proptest::strategy::{Union, ValueTree};
use proptest::test_runner::TestRunner;
use std::collections::BTreeSet;
use std::rc::Rc;

/// How many steps back undo goes, as the manual has it.
const UNDO_DEPTH: usize = 500;

/// Names every action, and makes a list of the names.
macro_rules! named {
    ($($name:literal: $action:pat,)*) => {
        const NAMES: &[&str] = &[$($name),*];

        fn name(action: &Action) -> &'static str {
            match action {
                $($action => $name,)*
            }
        }
    };
}

named! {
    "Go": Action::Go(_),
    "Pick": Action::Pick(_),
    "Follow": Action::Follow(_),
    "FollowInBook": Action::FollowInBook(_),
    "FollowPrinted": Action::FollowPrinted(_),
    "Moved": Action::Moved(_),
    "Play": Action::Play(_),
    "Through": Action::Through(_),
    "Take": Action::Take(_),
    "TakeOblong": Action::TakeOblong(_),
    "MakeOwn": Action::MakeOwn { .. },
    "AddFold": Action::AddFold(_),
    "RemoveFold": Action::RemoveFold(_),
    "Head": Action::Head(_),
    "Reads": Action::Reads(_),
    "Task": Action::Task(_),
    "Lay": Action::Lay(_),
    "Compare": Action::Compare(_),
    "Pane": Action::Pane(_),
    "Slit": Action::Slit { .. },
    "JoinAgain": Action::JoinAgain,
    "PutTogether": Action::PutTogether(_),
    "Measure": Action::Measure(_),
    "Piece": Action::Piece(_),
    "Paper": Action::Paper(_),
    "Try": Action::Try { .. },
    "ByScheme": Action::ByScheme,
    "PrintForTried": Action::PrintForTried,
    "ReadTried": Action::ReadTried,
    "LayoutSize": Action::LayoutSize { .. },
    "LayoutCell": Action::LayoutCell { .. },
    "LayoutOfScheme": Action::LayoutOfScheme,
    "LayoutClear": Action::LayoutClear,
    "Section": Action::Section(_),
    "Case": Action::Case(_),
    "Trace": Action::Trace(_),
    "Book: Title": Action::Book(BookAct::Title(_)),
    "Book: Runs": Action::Book(BookAct::Runs(_)),
    "Book: Added": Action::Book(BookAct::Added(_)),
    "Book: Signing": Action::Book(BookAct::Signing(_)),
    "Book: Planning": Action::Book(BookAct::Planning(_)),
    "Book: Casing": Action::Book(BookAct::Casing(_)),
    "Book: Sections": Action::Book(BookAct::Sections(_)),
    "Book: Otherwise": Action::Book(BookAct::Otherwise { .. }),
    "Book: MadeUp": Action::Book(BookAct::MadeUp { .. }),
    "Book: Marks": Action::Book(BookAct::Marks(_)),
    "Spoil: LeaveOut": Action::Spoil(Spoil::LeaveOut(_)),
    "Spoil: TakeTwo": Action::Spoil(Spoil::TakeTwo(_)),
    "Spoil: PutIn": Action::Spoil(Spoil::PutIn(..)),
    "Spoil: Exchange": Action::Spoil(Spoil::Exchange(..)),
    "Spoil: Lay": Action::Spoil(Spoil::Lay(..)),
    "Spoil: Foreign": Action::Spoil(Spoil::Foreign(_)),
    "Spoil: Misfold": Action::Spoil(Spoil::Misfold(..)),
    "Spoil: Carry": Action::Spoil(Spoil::Carry(..)),
    "Spoil: MakeGood": Action::Spoil(Spoil::MakeGood),
    "Look": Action::Look(_),
    "Tap": Action::Tap { .. },
    "TapBacks": Action::TapBacks(_),
    "Undo": Action::Undo,
    "Redo": Action::Redo,
    "StartOver": Action::StartOver,
    "Opened": Action::Opened { .. },
    "Say": Action::Say(_),
    "Export": Action::Export,
}

/// Any action, with numbers that mostly make sense and sometimes don't. One line for each kind.
fn any_action() -> impl Strategy<Value = Action> {
    let kinds = vec![
        room().prop_map(Action::Go).boxed(),
        count().prop_map(Action::Pick).boxed(),
        proptest::option::of(count()).prop_map(Action::Follow).boxed(),
        (0..400u32).prop_map(Action::FollowInBook).boxed(),
        prop_oneof!["[ivxlc]{1,4}", "[0-9]{1,3}", ".{0,9}"].prop_map(Action::FollowPrinted).boxed(),
        moment().prop_map(Action::Moved).boxed(),
        (0..9u32).prop_map(Action::Play).boxed(),
        any::<bool>().prop_map(Action::Through).boxed(),
        at_hand().prop_map(|s| Action::Take(Course::of_scheme(&s))).boxed(),
        prop::sample::select(courses()).prop_map(|n| Action::Take(n.course)).boxed(),
        prop::sample::select(courses()).prop_map(|n| Action::TakeOblong(n.course)).boxed(),
        (crease(), 0..5u32).prop_map(|(crease, after)| Action::Slit { crease, after }).boxed(),
        Just(Action::JoinAgain).boxed(),
        copies().prop_map(Action::PutTogether).boxed(),
        measure().prop_map(Action::Measure).boxed(),
        paper().prop_map(Action::Paper).boxed(),
        proptest::option::of(0..4u32).prop_map(Action::Piece).boxed(),
        size().prop_map(|(rows, columns)| Action::MakeOwn { rows, columns }).boxed(),
        a_fold().prop_map(Action::AddFold).boxed(),
        a_fold().prop_map(Action::AddFold).boxed(),
        (0..5usize).prop_map(Action::RemoveFold).boxed(),
        direction().prop_map(Action::Head).boxed(),
        reads().prop_map(Action::Reads).boxed(),
        task().prop_map(Action::Task).boxed(),
        (any::<bool>(), 0..4u8).prop_map(|(over, quarters)| Action::Lay(Lay { over, quarters })).boxed(),
        any::<bool>().prop_map(Action::Compare).boxed(),
        pane().prop_map(Action::Pane).boxed(),
        (some_folds(), moment()).prop_map(|(folds, at)| Action::Try { folds, at }).boxed(),
        // The way of the default scheme, with folds the other way: this can be read and printed.
        (prop::collection::vec(lands(), 0..4)).prop_map(|lands| tried(&lands)).boxed(),
        Just(Action::ByScheme).boxed(),
        Just(Action::PrintForTried).boxed(),
        Just(Action::ReadTried).boxed(),
        size().prop_map(|(rows, columns)| Action::LayoutSize { rows, columns }).boxed(),
        layout_cell().boxed(),
        Just(Action::LayoutOfScheme).boxed(),
        Just(Action::LayoutClear).boxed(),
        section_case().prop_map(Action::Section).boxed(),
        book_act().prop_map(Action::Book).boxed(),
        book_act().prop_map(Action::Book).boxed(),
        book_act().prop_map(Action::Book).boxed(),
        spoil().prop_map(Action::Spoil).boxed(),
        spoil().prop_map(Action::Spoil).boxed(),
        evidence().prop_map(Action::Look).boxed(),
        (count(), millimetres()).prop_map(|(place, mm)| Action::Tap { place, mm }).boxed(),
        prop_oneof![0..30u32, 398..403u32].prop_map(Action::TapBacks).boxed(),
        case_act().prop_map(Action::Case).boxed(),
        trace_look().prop_map(Action::Trace).boxed(),
        Just(Action::Undo).boxed(),
        Just(Action::Redo).boxed(),
        Just(Action::StartOver).boxed(),
        opened().boxed(),
        ".{0,20}".prop_map(Action::Say).boxed(),
        Just(Action::Export).boxed(),
    ];
    Union::new(kinds)
}

fn count() -> impl Strategy<Value = u32> {
    prop_oneof![8 => 0..20u32, 1 => any::<u32>()]
}

fn moment() -> impl Strategy<Value = f64> {
    let odd = prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(-1.0), Just(1e300)];
    prop_oneof![12 => (0..2000u32).prop_map(|n| f64::from(n) / 100.0), 1 => odd]
}

/// In tenths, as they are tapped, and sometimes off the spine or finer.
fn millimetres() -> impl Strategy<Value = f64> {
    let odd = prop_oneof![Just(f64::NAN), Just(f64::NEG_INFINITY), Just(1e9), 0.0..220.0];
    prop_oneof![12 => (0..2200u32).prop_map(|n| f64::from(n) / 10.0), 1 => odd]
}

fn room() -> impl Strategy<Value = Room> {
    prop_oneof![Just(Room::Fold), Just(Room::Gather), Just(Room::Trace), Just(Room::Job)]
}

fn trace_look() -> impl Strategy<Value = TraceLook> {
    let subject = prop_oneof![Just(Subject::Book), Just(Subject::Section)];
    (subject, 0..9u32, any::<bool>()).prop_map(|(subject, cause, report)| TraceLook { subject, cause, report })
}

/// What is noted of a wrong book, mostly so that it can be.
fn case_act() -> impl Strategy<Value = CaseAct> {
    let number = || prop::option::of(prop_oneof![6 => 0..3000u32, 1 => any::<u32>()]);
    let mm = || prop::option::of(prop_oneof![6 => 0.0..60.0, 1 => any::<f64>()]);
    let judged = || prop_oneof![Just(Judged::Good), Just(Judged::Bad)];
    let station = || prop_oneof![8 => 0..20u32, 1 => any::<u32>()];
    let what = prop_oneof![
        Just(Happened::Stop),
        station().prop_map(|station| Happened::Jam { station }),
        (station(), 0..200u32, 0..200u32).prop_map(|(station, lift, left)| Happened::Reload {
            station,
            lift,
            left,
            fed: Fed::Top
        }),
    ];
    let inside = (station(), ".{0,12}", any::<bool>()).prop_map(|(section, pages, fore_edge)| Inside {
        section,
        pages,
        fore_edge,
    });
    let find = prop_oneof![
        number().prop_map(Find::Counter),
        ".{0,20}".prop_map(|run| Find::Spine(Spine::Run(run))),
        ".{0,20}".prop_map(Find::Openings),
        prop::option::of(inside).prop_map(Find::Inside),
        mm().prop_map(Find::Bulk),
        number().prop_map(Find::Count),
        prop::option::of(station().prop_map(|station| Stopped { station, by: Stopper::Camera }))
            .prop_map(Find::Stopped),
        prop::option::of(judged()).prop_map(Find::Judged),
        prop::option::of(".{0,9}").prop_map(Find::Plates),
        prop::option::of(".{0,9}").prop_map(Find::Wraps),
    ];
    prop_oneof![
        Just(CaseAct::AddBook),
        (0..4usize).prop_map(CaseAct::DropBook),
        (0..4usize, find).prop_map(|(at, find)| CaseAct::Note(at, find)),
        (0..4usize).prop_map(CaseAct::Gathered),
        mm().prop_map(CaseAct::GoodBulk),
        prop::option::of((0..9u32, 0..4000u32)).prop_map(CaseAct::Ends),
        number().prop_map(CaseAct::PerHour),
        number().prop_map(CaseAct::Behind),
        (number(), what).prop_map(|(counter, what)| CaseAct::Log(Logged { counter: counter.unwrap_or(0), what })),
        (0..4usize).prop_map(CaseAct::Unlog),
        (station(), prop::option::of(any::<i32>())).prop_map(|(station, over)| CaseAct::Left(station, over)),
        (0..3000u32, judged()).prop_map(|(counter, judged)| CaseAct::Judge(counter, judged)),
        (".{0,6}", mm()).prop_map(|(name, odds)| CaseAct::Odds(name, odds)),
        Just(CaseAct::OddsAsStated),
        ".{0,20}".prop_map(|text| CaseAct::Write("ticket", text)),
    ]
}

fn task() -> impl Strategy<Value = Task> {
    prop_oneof![Just(Task::Fold), Just(Task::Make), Just(Task::WorkBack)]
}

fn crease() -> impl Strategy<Value = Crease> {
    prop_oneof![Just(Crease::Vertical), Just(Crease::Horizontal)]
}

fn direction() -> impl Strategy<Value = Direction> {
    prop_oneof![Just(Direction::Up), Just(Direction::Right), Just(Direction::Down), Just(Direction::Left)]
}

fn reads() -> impl Strategy<Value = Reads> {
    prop_oneof![Just(Reads::LeftToRight), Just(Reads::RightToLeft)]
}

fn lands() -> impl Strategy<Value = Lands> {
    prop_oneof![Just(Lands::Over), Just(Lands::Under)]
}

fn lies() -> impl Strategy<Value = Lies> {
    prop_oneof![Just(Lies::Right), Just(Lies::HeadToTail), Just(Lies::TurnedInPlane), Just(Lies::SideToSide)]
}

fn side() -> impl Strategy<Value = Side> {
    prop_oneof![Just(Side::A), Just(Side::B)]
}

/// Rows and columns, now and then more than there may be.
fn size() -> impl Strategy<Value = (u32, u32)> {
    let large = prop_oneof![Just((64, 64)), Just((65, 64)), Just((4096, 1)), Just((16, 9)), Just((u32::MAX, u32::MAX))];
    prop_oneof![20 => (0..6u32, 0..6u32), 1 => large]
}

/// Pieces put together, mostly so that it can be.
fn copies() -> impl Strategy<Value = Vec<Vec<Vec<usize>>>> {
    let nest = || prop::collection::vec(0..3usize, 0..3);
    let sense = prop::sample::select(vec![
        vec![vec![vec![0], vec![1]]],
        vec![vec![vec![1, 0]]],
        vec![vec![vec![0]], vec![vec![1]]],
        vec![vec![vec![2], vec![0], vec![1]]],
    ]);
    prop_oneof![3 => sense, 1 => prop::collection::vec(prop::collection::vec(nest(), 0..3), 0..3)]
}

/// Sizes for panels, mostly for the first sheet's.
fn measure() -> impl Strategy<Value = Measure> {
    let length =
        || prop_oneof![8 => (100..300i64).prop_map(Length::from_whole_mm), 1 => any::<i64>().prop_map(Length::from_nm)];
    let sizes = |usual: usize| prop_oneof![3 => prop::collection::vec(length(), usual), 1 => prop::collection::vec(length(), 0..9)];
    (sizes(4), sizes(2)).prop_map(|(columns, rows)| Measure { columns, rows })
}

fn paper() -> impl Strategy<Value = Paper> {
    let edge = || prop::sample::select(Edge::ALL.to_vec());
    let mm =
        || prop_oneof![8 => (-1..40i64).prop_map(Length::from_whole_mm), 1 => any::<i64>().prop_map(Length::from_nm)];
    let stock = (prop_oneof![4 => 30.0..300.0, 1 => any::<f64>()], prop_oneof![4 => 0.6..3.0, 1 => any::<f64>()]);
    // A file keeps two decimals of them.
    let stock = stock.prop_map(|(g, b): (f64, f64)| Stock {
        grammage: (g * 100.0).round() / 100.0,
        bulk: (b * 100.0).round() / 100.0,
        grain: if g > 100.0 { Grain::Upright } else { Grain::Level },
    });
    let press = (edge(), edge(), mm()).prop_map(|(gripper, side_lay, gripper_margin)| Press {
        gripper,
        side_lay,
        gripper_margin,
    });
    let trims =
        (mm(), mm(), mm(), mm()).prop_map(|(head, foot, fore_edge, bleed)| Trims { head, foot, fore_edge, bleed });
    let margins =
        (mm(), mm(), mm(), mm()).prop_map(|(back, head, fore_edge, foot)| Margins { back, head, fore_edge, foot });
    (stock, press, trims, margins).prop_map(|(stock, press, trims, margins)| Paper { stock, press, trims, margins })
}

fn pane() -> impl Strategy<Value = Pane> {
    let cut = (crease(), 0..9u32).prop_map(|(along, at)| Pane::Inside(along, at));
    prop_oneof![cut, Just(Pane::Sides), Just(Pane::Paper), Just(Pane::Trim), Just(Pane::Folder)]
}

fn at_hand() -> impl Strategy<Value = Scheme> {
    let schemes: Vec<Scheme> = library().into_iter().map(|named| named.scheme).collect();
    // A scheme of one's own can be larger than any at hand, and larger than a layout.
    prop_oneof![9 => prop::sample::select(schemes), 1 => (5..9u32).prop_map(halved)]
}

/// A strip folded in halves so many times.
fn halved(times: u32) -> Scheme {
    let folds = (0..times).rev().map(|n| Fold::new(1 << n, Part::Right, Lands::Over)).collect();
    Scheme { rows: 1, columns: 1 << times, folds, head: Direction::Up, reads: Reads::LeftToRight }
}

fn a_fold() -> impl Strategy<Value = Fold> {
    let part = prop_oneof![Just(Part::Left), Just(Part::Right), Just(Part::Top), Just(Part::Bottom)];
    let after = prop_oneof![12 => 1..4u32, 1 => prop_oneof![Just(0), Just(u32::MAX)]];
    (after, part, lands(), proptest::option::weighted(0.02, crease())).prop_map(|(after, part, lands, other)| {
        let fold = Fold::new(after, part, lands);
        Fold { crease: other.unwrap_or(fold.crease), ..fold }
    })
}

fn some_folds() -> impl Strategy<Value = Vec<Fold>> {
    prop::collection::vec(a_fold(), 0..4)
}

fn tried(lands: &[Lands]) -> Action {
    let mut folds = Job::default().sheet.course.steps.folds;
    folds.iter_mut().zip(lands).for_each(|(fold, lands)| fold.lands = *lands);
    Action::Try { folds, at: 0.0 }
}

fn layout_cell() -> impl Strategy<Value = Action> {
    let page = prop_oneof![8 => 1..33u32, 1 => prop_oneof![Just(0), Just(9_999), Just(10_000), any::<u32>()]];
    let cell = (page, proptest::option::of(direction())).prop_map(|(page, head)| Cell { page, head });
    (side(), 0..4u32, 0..5u32, proptest::option::of(cell)).prop_map(|(side, row, column, cell)| Action::LayoutCell {
        side,
        row,
        column,
        cell,
    })
}

fn section_case() -> impl Strategy<Value = SectionCase> {
    let cause = prop_oneof![
        (0..4u32).prop_map(|fold| Json::object([("kind", "fold_other_way".into()), ("fold", fold.into())])),
        Just(Json::object([("kind", "double_sheet".into())])),
        Just(Json::object([("kind", "section_lies".into()), ("lies", "head_to_tail".into())])),
    ];
    let evidence = prop_oneof![
        "[0-9v_ ]{0,30}".prop_map(SectionEvidence::Typed),
        ".{0,12}".prop_map(SectionEvidence::Typed),
        prop_oneof![Just(4_000), Just(4_001)].prop_map(|n| SectionEvidence::Typed("1".repeat(n))),
        prop::collection::vec(cause, 0..4).prop_map(|causes| SectionEvidence::Made(Json::list(causes))),
        Just(SectionEvidence::Made(Json::Null)),
    ];
    let made_up = (proptest::option::of(at_hand()), prop_oneof![8 => 1..5u32, 1 => Just(0), 1 => 15..19u32])
        .prop_map(|(inset, lanes)| MadeUp { inset, lanes });
    (evidence, any::<bool>(), proptest::option::of(made_up)).prop_map(|(evidence, fore_edge, made_up)| SectionCase {
        evidence,
        fore_edge,
        made_up,
    })
}

fn title() -> impl Strategy<Value = String> {
    prop_oneof![6 => "[ -~]{0,12}", 2 => ".{0,12}", 1 => Just("🕮".repeat(80)), 1 => Just("x".repeat(81))]
}

/// Lengths as they are typed, with two decimals.
fn design() -> impl Strategy<Value = Design> {
    let mm = |most: u32| (0..most * 100).prop_map(|n| f64::from(n) / 100.0);
    let odd = prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(-1.0), Just(2001.0), Just(0.0)];
    let typed = (150..400u32, mm(30), mm(9), mm(9), 0..31u32).prop_map(|(spine, first, step, length, levels)| Design {
        spine_mm: f64::from(spine),
        first_mm: first,
        step_mm: step,
        length_mm: length,
        levels,
    });
    let wrong = (odd, 0..4u32).prop_map(|(odd, which)| {
        let mut design = Design::default();
        let lengths = [&mut design.spine_mm, &mut design.first_mm, &mut design.step_mm, &mut design.length_mm];
        lengths.into_iter().nth(which as usize).into_iter().for_each(|length| *length = odd);
        design
    });
    prop_oneof![6 => typed, 2 => Just(Design::default()), 1 => wrong]
}

/// Every few books have more on their backs than a staircase.
fn marks(stairs: Design, more: u32) -> BackMarks {
    match more {
        0 => BackMarks { after_wrap: AfterWrap::Column { apart_mm: stairs.step_mm }, ..stairs.into() },
        1 => {
            let ends_mm = Some(((stairs.length_mm + 1.5) * 100.0).round() / 100.0);
            BackMarks { runs: Runs::Up, ends_mm, ..stairs.into() }
        }
        2 => BackMarks { after_wrap: AfterWrap::Width { width_mm: 3.5 }, label: Some(label()), ..stairs.into() },
        _ => stairs.into(),
    }
}

/// What is said of the book, mostly so that it can be.
fn book_act() -> impl Strategy<Value = BookAct> {
    // A hundred is one more than there may be.
    let sections = || prop_oneof![8 => 0..30u32, 1 => Just(100)];
    let course = || prop::sample::select(courses()).prop_map(|named| named.course);
    let other = (1..20u32, course());
    prop_oneof![
        title().prop_map(BookAct::Title),
        prop::collection::vec(run(), 0..5).prop_map(BookAct::Runs),
        prop_oneof![9 => prop::collection::vec(added(), 0..4).boxed(), 1 => added().prop_map(|a| vec![a; 61]).boxed()]
            .prop_map(BookAct::Added),
        (any::<bool>(), any::<bool>(), 0..3usize).prop_map(|(b, letters, alphabet)| BookAct::Signing(Signing {
            alphabet: [Alphabet::Latin23, Alphabet::American25, Alphabet::Figures][alphabet],
            start: if b { Start::B } else { Start::A },
            doubling: if letters { Doubling::Letters } else { Doubling::Figure },
        })),
        (0..3_000i64, any::<u32>()).prop_map(|(side, copies)| BookAct::Planning(Planning {
            sheet: (Length::from_whole_mm(side), Length::from_whole_mm(900)),
            copies: copies >> 8,
        })),
        (casing()).prop_map(BookAct::Casing),
        sections().prop_map(BookAct::Sections),
        (0..20u32, proptest::option::of(course())).prop_map(|(section, course)| BookAct::Otherwise { section, course }),
        (sections(), course(), prop::collection::vec(other, 0..3)).prop_map(|(sections, course, mut otherwise)| {
            otherwise.sort_by_key(|(first, _)| *first);
            BookAct::MadeUp { sections, course: Box::new(course), otherwise }
        }),
        (design(), 0..4u32).prop_map(|(stairs, more)| BookAct::Marks(Box::new(marks(stairs, more)))),
    ]
}

fn casing() -> impl Strategy<Value = Casing> {
    let mm = || (-1..30i64).prop_map(Length::from_whole_mm);
    (mm(), 0..102u32, any::<bool>(), mm(), proptest::option::of(mm())).prop_map(
        |(thread, nipped, round, board, joint)| Casing {
            thread,
            nipped_percent: f64::from(nipped),
            back: if round { Back::Round } else { Back::Flat },
            board,
            joint,
            ..Casing::default()
        },
    )
}

fn run() -> impl Strategy<Value = Run> {
    let pages = prop_oneof![8 => (1..60u32).prop_map(|n| 2 * n), 2 => 0..200u32, 1 => any::<u32>()];
    let first = prop_oneof![8 => 1..40u32, 1 => any::<u32>()];
    (title(), pages, first, 0..4u32, any::<bool>()).prop_map(|(name, pages, first, kind, blank)| Run {
        name,
        pages,
        folios: match kind {
            0 => Folios::Roman { first },
            1 => Folios::RomanCapitals { first },
            2 => Folios::Arabic { first },
            _ => Folios::None,
        },
        blank,
    })
}

fn added() -> impl Strategy<Value = Added> {
    let pages = prop_oneof![8 => (1..5u32).prop_map(|n| 4 * n), 1 => any::<u32>()];
    let at = || prop_oneof![8 => (0..60u32).prop_map(|n| 2 * n), 1 => any::<u32>()];
    (pages, at(), 0..3u32).prop_map(|(pages, at, kind)| match kind {
        0 => Added::Plate { after: at, pages },
        1 => Added::Wrap { section: at, pages },
        _ => Added::Endpapers { pages },
    })
}

fn spoil() -> impl Strategy<Value = Spoil> {
    prop_oneof![
        count().prop_map(Spoil::LeaveOut),
        count().prop_map(Spoil::TakeTwo),
        (count(), count()).prop_map(|(place, section)| Spoil::PutIn(place, section)),
        (count(), count()).prop_map(|(a, b)| Spoil::Exchange(a, b)),
        (count(), lies()).prop_map(|(place, lies)| Spoil::Lay(place, lies)),
        count().prop_map(Spoil::Foreign),
        (count(), 0..5u32).prop_map(|(place, fold)| Spoil::Misfold(place, fold)),
        (count(), count(), count()).prop_map(|(first, last, after)| Spoil::Carry(first, last, after)),
        Just(Spoil::MakeGood),
    ]
}

fn evidence() -> impl Strategy<Value = Evidence> {
    prop_oneof![
        Just(Evidence::Stack),
        // The page begins with blank backs.
        (1..30usize).prop_map(|backs| Evidence::Tapped(vec![Vec::new(); backs])),
        "[0-9dw ,-]{0,20}".prop_map(Evidence::Typed),
        ".{0,20}".prop_map(Evidence::Typed),
    ]
}

/// A job from a file: one that other actions lead to.
fn opened() -> impl Strategy<Value = Action> {
    let before = prop::collection::vec(
        prop_oneof![
            at_hand().prop_map(|s| Action::Take(Course::of_scheme(&s))),
            (crease(), 1..3u32).prop_map(|(crease, after)| Action::Slit { crease, after }),
            a_fold().prop_map(Action::AddFold),
            proptest::option::of(0..3u32).prop_map(Action::Piece),
            book_act().prop_map(Action::Book),
            copies().prop_map(Action::PutTogether),
            spoil().prop_map(Action::Spoil),
            evidence().prop_map(Action::Look),
            section_case().prop_map(Action::Section),
            Just(Action::LayoutOfScheme),
            prop::collection::vec(lands(), 0..4).prop_map(|lands| tried(&lands)),
        ],
        0..4,
    );
    before.prop_map(|actions| {
        let state = actions.into_iter().fold(State::default(), |state, action| update(&state, action).0);
        Action::Opened { job: Box::new((*state.job).clone()), look: state.look, by_hand: true }
    })
}

/// Whether what was read stands where the maker stood. A moment keeps two decimals, and one that is none is not kept.
fn same_look(read: &Look, was: &Look) -> bool {
    let near = !was.at.is_finite() || was.at.abs() > 1e9 || (read.at - was.at).abs() <= 0.005;
    near && Look { at: 0.0, ..read.clone() } == Look { at: 0.0, ..was.clone() }
}

/// A state is saved and read back as it was.
fn check_saved(state: &State) -> Result<(), TestCaseError> {
    let text = write_saved(&state.job, &state.look);
    let Saved { job, look } = match read_saved(&text) {
        Ok(saved) => saved,
        Err(why) => return Err(TestCaseError::fail(format!("{why} in {text}"))),
    };
    prop_assert_eq!(&job, &*state.job);
    prop_assert!(same_look(&look, &state.look), "{:?} was {:?}", look, state.look);
    Ok(())
}

/// What is asked of the outside fits what happened.
fn check_effects(before: &State, did: &Action, after: &State, effects: &[Effect]) -> Result<(), TestCaseError> {
    let changed = before.job != after.job || !same_look(&before.look, &after.look);
    let saves = effects.iter().filter(|effect| matches!(effect, Effect::Save)).count();
    prop_assert!(saves <= 1 && (!changed || saves == 1), "{:?} saves {} times", did, saves);
    for effect in effects {
        match effect {
            Effect::Save => {}
            Effect::Download(name) => {
                let text = write_saved(&after.job, &after.look);
                prop_assert!(matches!(did, Action::Export), "{:?} hands out a file", did);
                prop_assert!(name.ends_with(".backmark.json") && !name.contains(['/', '\\', ':', '\0']), "{}", name);
                prop_assert!(read_saved(&text).is_ok_and(|saved| saved.job == *after.job));
            }
            Effect::Settle(at) => {
                prop_assert_eq!(*at, (after.look.at.max(0.0) * 1000.0) as u32, "the bench stands where the state says");
            }
            // What was put on the bench from outside has folds of its own.
            Effect::Glide(_) if matches!(did, Action::Play(_)) => {}
            Effect::Glide(step) => prop_assert!(*step as usize <= after.folded_scheme().folds.len()),
        }
    }
    Ok(())
}

/// What must hold wherever one stands.
fn check_state(state: &State) -> Result<(), TestCaseError> {
    let places = state.job.stack.placed().len();
    prop_assert!((1..=places.max(1) as u32).contains(&state.look.place), "place {} of {places}", state.look.place);
    prop_assert!(state.past.len() <= UNDO_DEPTH);
    if let Some(page) = state.look.followed {
        prop_assert!((1..=state.job.pages_of(state.section_on_bench())).contains(&page), "page {} is followed", page);
    }
    // What the page asks of every state.
    let _ = (state.placed(), state.section_on_bench(), state.shift(), state.tried_scheme(), state.sheet().trade_name());
    if state.sheet().course.rows * state.sheet().course.columns <= 64 {
        let _ = (
            state.job.seen(),
            state.job.section(state.section_on_bench()),
            state.right_bench(),
            state.printing(),
            state.job.question(),
        );
        if let Some(bench) = state.bench() {
            let _ = (state.fold_sentence(&bench), State::creases(&bench), state.followed_sentence(&bench));
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn whatever_is_done_in_whatever_order(actions in prop::collection::vec(any_action(), 1..40)) {
        let mut state = State::default();
        for action in actions {
            let (next, effects) = update(&state, action.clone());
            check_state(&next)?;
            check_saved(&next)?;
            check_effects(&state, &action, &next, &effects)?;
            match action {
                Action::Undo | Action::Redo => {}
                _ if next.job == state.job => prop_assert_eq!(&next.past, &state.past, "{:?} changes nothing", action),
                _ => {
                    prop_assert_eq!(next.past.last(), Some(&state.job), "{:?} can be undone", action);
                    prop_assert!(next.future.is_empty());
                }
            }
            state = next;
        }
        check_undo(&state)?;
    }
}

/// Undo to the end, redo to the end: the first job, and the last one with whatever was undone before.
fn check_undo(state: &State) -> Result<(), TestCaseError> {
    let last = state.future.first().unwrap_or(&state.job).clone();
    let (steps, undone) = (state.past.len(), state.future.len());
    let again = |state: State, action: Action| update(&state, action).0;
    let first = (0..steps).fold(state.clone(), |state, _| again(state, Action::Undo));
    prop_assert_eq!(&first.job, &Rc::new(Job::default()), "undone to the first job");
    prop_assert_eq!((first.past.len(), first.future.len()), (0, steps + undone));
    let refused = again(first.clone(), Action::Undo);
    prop_assert!(refused.job == first.job && refused.said.is_some());
    let end = (0..steps + undone).fold(first, |state, _| again(state, Action::Redo));
    prop_assert_eq!(&end.job, &last, "redone to the last");
    let back = (0..undone).fold(end, |state, _| again(state, Action::Undo));
    prop_assert_eq!(&back.job, &state.job);
    check_saved(&back)
}

#[test]
fn every_action_is_tried() {
    let mut runner = TestRunner::deterministic();
    let mut tried = BTreeSet::new();
    let actions = any_action();
    for _ in 0..4_000 {
        tried.insert(name(&actions.new_tree(&mut runner).unwrap().current()));
    }
    let missing: Vec<_> = NAMES.iter().filter(|name| !tried.contains(*name)).collect();
    assert!(missing.is_empty(), "not in any_action: {missing:?}");
}

#[test]
fn undo_goes_back_as_far_as_it_says_and_no_farther() {
    let mut state = State::default();
    for n in 0..UNDO_DEPTH as u32 + 20 {
        state = update(&state, Action::Reads(if n % 2 == 0 { Reads::RightToLeft } else { Reads::LeftToRight })).0;
    }
    assert_eq!(state.past.len(), UNDO_DEPTH);
    let first = (0..UNDO_DEPTH).fold(state.clone(), |state, _| update(&state, Action::Undo).0);
    assert!(first.past.is_empty() && update(&first, Action::Undo).0.said.is_some());
    let end = (0..UNDO_DEPTH).fold(first, |state, _| update(&state, Action::Redo).0);
    assert_eq!((end.job, end.past.len()), (state.job, UNDO_DEPTH));
}

fn label() -> Label {
    Label { number: true, of_how_many: true, title: "A book".into(), from_mm: 0.0, size_mm: 2.0 }
}
