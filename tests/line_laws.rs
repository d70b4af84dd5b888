//! Laws of the gathering line that is played: what was planted is what comes out, as many and where the counter says; the
//! leftovers agree with the books; the same seed plays the same.

#![expect(clippy::unwrap_used, reason = "a test may panic")]

use backmark::gather::run::parse_run;
use backmark::gather::{Fault, Found, Lies, explain};
use backmark::line::{Detectors, Fed, Happened, Left, Planted, Played, Rates, Run, Stopper, play};
use proptest::prelude::*;

/// A line on which nothing goes wrong by itself.
fn quiet(books: u32, planted: Vec<Planted>) -> Run {
    let rates = Rates { miss_per_million: 0, double_per_million: 0 };
    Run { rates, planted, shown: 1000, ..Run::of(7, books) }
}

/// The reload that was logged at a counter number: what was left in the hopper.
fn left_at(played: &Played, at: u32, counter: u32, lift: u32) -> u32 {
    let left = |what: &Happened| match *what {
        Happened::Reload { station, lift: size, left, .. } if station == at && size == lift => Some(left),
        _ => None,
    };
    let at_counter = played.log.iter().filter(|logged| logged.counter == counter);
    at_counter.filter_map(|logged| left(&logged.what)).next_back().unwrap()
}

#[test]
fn nothing_planted_nothing_wrong() {
    let played = play(&quiet(3000, vec![])).unwrap();
    assert_eq!((played.wrong, played.stops, played.jams), (0, 0, 0));
    assert!(played.left.is_empty() && played.wrong_books.is_empty() && played.complete);
    // Twelve stations use 36,000 sections, a hundred at a time.
    assert!((330..=370).contains(&played.reloads), "{}", played.reloads);
}

#[test]
fn a_wrong_pile_spoils_its_lift_from_the_book_that_the_counter_and_the_hopper_say() {
    for fed in [Fed::Bottom, Fed::Top] {
        let planted = Planted::WrongPile { station: 5, section: 9, counter: 300, lift: 60 };
        let played = play(&Run { fed, ..quiet(1000, vec![planted]) }).unwrap();
        // Station 5 of 12 has 10 + 7 books before the counter.
        let left = if fed == Fed::Bottom { left_at(&played, 5, 300, 60) } else { 0 };
        let first = 300 + 17 + left + 1;
        assert_eq!(played.wrong, 60, "{fed:?}");
        assert_eq!(played.spans.first().map(|span| span[0]), Some(first), "{fed:?}");
        if fed == Fed::Bottom {
            assert_eq!(played.spans, [[first, first + 59]]);
        }
        assert_eq!(played.left, [Left { station: 5, over: 60 }, Left { station: 9, over: -60 }]);
        for book in &played.wrong_books {
            assert_eq!(book.run, "1-4 9 6-12");
            let found = parse_run(&book.run).unwrap();
            let explained = explain(12, &found).unwrap();
            assert_eq!(explained.explanations[0].faults, [Fault::WrongSection { at: 5, section: 9 }]);
        }
    }
}

#[test]
fn a_foreign_and_a_turned_pile() {
    let foreign = Planted::ForeignPile { station: 2, counter: 0, lift: 30 };
    let played = play(&quiet(1000, vec![foreign])).unwrap();
    assert_eq!((played.wrong, played.left.as_slice()), (30, [Left { station: 2, over: 30 }].as_slice()));
    assert_eq!(played.wrong_books[0].run, "1 x 3-12");
    let turned = Planted::TurnedPile { station: 2, lies: Lies::HeadToTail, counter: 100, lift: 30 };
    let played = play(&quiet(1000, vec![turned])).unwrap();
    assert_eq!((played.wrong, played.left.len()), (30, 0));
    assert_eq!(played.wrong_books[0].run, "1 2d 3-12");
}

#[test]
fn stations_exchanged_from_the_start_spoil_every_book_and_leave_nothing_over() {
    let run = quiet(500, vec![Planted::Exchanged { stations: [5, 6] }]);
    let camera = Detectors { camera: true, ..Detectors::default() };
    for detectors in [Detectors::default(), camera] {
        // The camera was taught at the first book, which was wrong already.
        let played = play(&Run { detectors, ..run.clone() }).unwrap();
        assert_eq!((played.wrong, played.spans.as_slice(), played.stops), (500, [[1, 500]].as_slice(), 0));
        assert!(played.left.is_empty());
        assert!(played.wrong_books.iter().all(|book| book.run == "1-4 6 5 7-12"));
    }
}

#[test]
fn books_filled_by_hand_after_a_jam() {
    let by_hand = |section| Planted::HandFilled { station: 3, counter: 200, books: 4, section };
    let played = play(&quiet(1000, vec![by_hand(None)])).unwrap();
    assert_eq!((played.wrong, played.jams, played.spans.as_slice()), (4, 1, [[220, 223]].as_slice()));
    assert_eq!(played.wrong_books[0].run, "1 2 4-12");
    assert_eq!(played.left, [Left { station: 3, over: 4 }]);
    let jam = played.log.iter().find(|logged| matches!(logged.what, Happened::Jam { .. })).unwrap();
    assert_eq!((jam.counter, jam.what), (200, Happened::Jam { station: 3 }));
    let played = play(&quiet(1000, vec![by_hand(Some(4))])).unwrap();
    assert_eq!(played.wrong_books[0].run, "1 2 4 4-12");
    assert_eq!(played.left, [Left { station: 3, over: 4 }, Left { station: 4, over: -4 }]);
}

#[test]
fn books_divided_wrong_from_a_counter_number_on() {
    let played = play(&quiet(400, vec![Planted::DividedWrong { counter: 250, after: 6 }])).unwrap();
    assert_eq!((played.wrong, played.spans.as_slice()), (150, [[251, 400]].as_slice()));
    assert_eq!(played.wrong_books[0].run, "1-6");
    assert!(played.wrong_books[1..].iter().all(|book| book.run == "7-12 1-6"));
    assert_eq!(played.rest, "7-12");
    assert!(played.left.is_empty());
}

#[test]
fn one_gripper_of_eight() {
    let nth = Planted::EveryNth { station: 12, counter: 99, every: 8, section: Some(1) };
    let played = play(&quiet(1000, vec![nth])).unwrap();
    let wrong = played.wrong_books.iter().map(|book| book.counter).collect::<Vec<_>>();
    assert_eq!(wrong.first(), Some(&110));
    assert!(wrong.windows(2).all(|pair| pair[1] - pair[0] == 8));
    assert_eq!(wrong.len(), (1000 - 110) / 8 + 1);
    // A caliper stops for a gripper that lost its section.
    let nth = Planted::EveryNth { station: 12, counter: 99, every: 8, section: None };
    let played = play(&quiet(1000, vec![nth])).unwrap();
    assert!(played.stops + played.wrong == 112 && played.wrong < 6, "{} {}", played.stops, played.wrong);
}

#[test]
fn a_camera_stops_at_the_first_wrong_section_and_a_caliper_never() {
    let planted = vec![Planted::WrongPile { station: 5, section: 9, counter: 300, lift: 60 }];
    let detectors = Detectors { camera: true, camera_passes_per_million: 0, ..Detectors::default() };
    let played = play(&Run { detectors, ..quiet(1000, planted) }).unwrap();
    assert_eq!((played.wrong, played.stops), (0, 1));
    assert_eq!((played.stopped[0].station, played.stopped[0].by), (5, Stopper::Camera));
    assert!(played.left.is_empty());
}

#[test]
fn a_weak_feeder_misses_as_often_as_it_was_told() {
    let planted = vec![Planted::WeakFeeder { station: 4, miss_per_million: 50_000, double_per_million: 20_000 }];
    let detectors = Detectors { caliper: false, ..Detectors::default() };
    let run = Run { detectors, ..quiet(20_000, planted) };
    let played = play(&run).unwrap();
    // 1,000 misses and 400 doubles are due; five standard deviations are 155 and 99.
    let left = played.left.iter().find(|left| left.station == 4).unwrap();
    assert!((1300..=1500).contains(&played.wrong) && (420..=780).contains(&left.over), "{} {left:?}", played.wrong);
    // The caliper stops for 99 of 100.
    let watched = play(&Run { detectors: Detectors::default(), ..run }).unwrap();
    assert!((1..=45).contains(&watched.wrong) && watched.stops > 1250, "{} {}", watched.wrong, watched.stops);
}

#[test]
fn the_same_seed_plays_the_same_on_every_machine() {
    let planted = vec![
        Planted::WrongPile { station: 5, section: 9, counter: 300, lift: 60 },
        Planted::HandFilled { station: 3, counter: 900, books: 2, section: None },
    ];
    let run = Run { planted, ..Run::of(7, 5000) };
    let played = play(&run).unwrap();
    assert_eq!(play(&run).unwrap(), played);
    // Worked out natively and in WebAssembly: it may only change when what is played changes.
    assert_eq!(played.digest, DIGEST, "{:?}", played.says);
    assert_ne!(play(&Run { seed: 8, ..run.clone() }).unwrap().digest, DIGEST);
    // What is listed has no part in it.
    assert_eq!(play(&Run { shown: 0, ..run }).unwrap().digest, DIGEST);
}

const DIGEST: &str = "495c4cd9bc04175a";

#[test]
fn what_is_planted_at_one_station_leaves_the_feeds_of_the_others_as_they_were() {
    let detectors = Detectors { caliper: false, ..Detectors::default() };
    let plain = Run { detectors, shown: 1000, ..Run::of(3, 3000) };
    let planted = Planted::HandFilled { station: 1, counter: 500, books: 1, section: Some(2) };
    let with = Run { planted: vec![planted], ..plain.clone() };
    let [plain, with] = [plain, with].map(|run| play(&run).unwrap());
    let others = |played: &Played| {
        let others = played.wrong_books.iter().filter(|book| book.counter != 522).cloned();
        others.collect::<Vec<_>>()
    };
    assert_eq!(others(&plain), others(&with));
    assert!(with.wrong_books.iter().any(|book| book.counter == 522 && book.run.starts_with("2 2")));
}

#[test]
fn refusals_say_where() {
    let at = |run: Run| play(&run).unwrap_err().at;
    let run = Run::of(1, 100);
    assert_eq!(at(Run { books: 0, ..run.clone() }), "books");
    assert_eq!(at(Run { books: 1_000_000, sections: 400, ..run.clone() }), "books");
    assert_eq!(at(Run { sections: 401, ..run.clone() }), "sections");
    assert_eq!(at(Run { lift: 0, ..run.clone() }), "lift");
    let rates = Rates { miss_per_million: 600_000, double_per_million: 600_000 };
    assert_eq!(at(Run { rates, ..run.clone() }), "rates.double_per_million");
    for (planted, path) in [
        (Planted::WrongPile { station: 13, section: 1, counter: 1, lift: 1 }, "planted[0].station"),
        (Planted::WrongPile { station: 1, section: 0, counter: 1, lift: 1 }, "planted[0].section"),
        (Planted::ForeignPile { station: 1, counter: 101, lift: 1 }, "planted[0].counter"),
        (Planted::ForeignPile { station: 1, counter: 1, lift: 0 }, "planted[0].lift"),
        (Planted::Exchanged { stations: [3, 3] }, "planted[0].stations"),
        (Planted::HandFilled { station: 1, counter: 1, books: 0, section: None }, "planted[0].books"),
        (Planted::DividedWrong { counter: 1, after: 12 }, "planted[0].after"),
        (Planted::EveryNth { station: 1, counter: 1, every: 0, section: None }, "planted[0].every"),
    ] {
        assert_eq!(at(Run { planted: vec![planted], ..run.clone() }), path, "{planted:?}");
    }
    assert_eq!(at(Run { planted: vec![Planted::Exchanged { stations: [1, 2] }; 51], ..run }), "planted");
}

fn any_planted() -> impl Strategy<Value = Planted> {
    let section = prop::option::of(1..=6_u32);
    prop_oneof![
        (1..=6_u32, 1..=6_u32, 0..=300_u32, 1..200_u32)
            .prop_map(|(station, section, counter, lift)| Planted::WrongPile { station, section, counter, lift }),
        (1..=6_u32, 0..=300_u32, 1..200_u32).prop_map(|(station, counter, lift)| Planted::ForeignPile {
            station,
            counter,
            lift
        }),
        (1..=6_u32, 0..=300_u32, 1..200_u32).prop_map(|(station, counter, lift)| Planted::TurnedPile {
            station,
            lies: Lies::SideToSide,
            counter,
            lift
        }),
        (1..=3_u32, 4..=6_u32).prop_map(|(a, b)| Planted::Exchanged { stations: [a, b] }),
        (1..=6_u32, 0..=300_u32, 1..20_u32, section.clone())
            .prop_map(|(station, counter, books, section)| Planted::HandFilled { station, counter, books, section }),
        (1..=6_u32, 0..=300_u32, 1..20_u32, section).prop_map(|(station, counter, every, section)| Planted::EveryNth {
            station,
            counter,
            every,
            section
        }),
        (1..=6_u32, 0..300_000_u32, 0..300_000_u32).prop_map(|(station, miss, double)| Planted::WeakFeeder {
            station,
            miss_per_million: miss,
            double_per_million: double
        }),
    ]
}

proptest! {
    /// Whatever is planted: the leftovers are what the books lack, and the lists agree with the counts.
    #[test]
    fn the_books_and_the_leftovers_agree(
        seed in any::<u64>(),
        planted in prop::collection::vec(any_planted(), 0..5),
        divided in prop::option::of((0..=300_u32, 1..6_u32)),
        [caliper, camera, top] in any::<[bool; 3]>(),
        lift in 1..150_u32,
    ) {
        let mut planted = planted;
        planted.extend(divided.map(|(counter, after)| Planted::DividedWrong { counter, after }));
        let detectors = Detectors { caliper, camera, ..Detectors::default() };
        let fed = if top { Fed::Top } else { Fed::Bottom };
        let rates = Rates { miss_per_million: 20_000, double_per_million: 20_000 };
        let run = Run { sections: 6, planted, detectors, fed, rates, lift, shown: 1000, ..Run::of(seed, 300) };
        let played = play(&run).unwrap();
        prop_assert_eq!(played.wrong as usize, played.wrong_books.len());
        let in_spans = played.spans.iter().map(|[first, last]| last - first + 1).sum::<u32>();
        prop_assert_eq!(played.wrong, in_spans);
        // Count every section of the run: right books have each once.
        let mut count = [(300 - played.wrong) as i32; 7];
        let wrong = played.wrong_books.iter().map(|book| book.run.as_str()).chain([played.rest.as_str()]);
        for run in wrong {
            for back in parse_run(run).unwrap() {
                if let Found::Section { section, .. } = back {
                    count[section as usize] += 1;
                }
            }
        }
        for station in 1..=6_u32 {
            let over = played.left.iter().find(|left| left.station == station).map_or(0, |left| left.over);
            prop_assert_eq!(over, 300 - count[station as usize], "station {}", station);
        }
        prop_assert!(played.log.is_sorted_by_key(|logged| logged.counter));
        prop_assert!(played.wrong_books.is_sorted_by_key(|book| book.counter));
    }
}
