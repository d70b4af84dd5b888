//! How long explaining takes. Run by hand: `cargo test --release --no-default-features --test gather_time -- --ignored
//! --nocapture`.

#![expect(clippy::disallowed_methods, reason = "a measurement needs a clock")]
#![expect(clippy::unwrap_used, reason = "a test may panic")]

use std::time::Instant;

use backmark::gather::run::parse_run;
use backmark::gather::{Fault, Found, check_found, explain, retold};
use backmark::marks::{Design, Seen};

fn timed(name: &str, n: u32, found: &[Found]) {
    let start = Instant::now();
    let explained = explain(n, found).unwrap();
    let took = start.elapsed();
    let faults = explained.explanations.first().map_or(0, |first| first.faults.len());
    println!(
        "{name:40} n {n:3}  {faults} faults  {:3} shown  complete {:5}  {took:?}",
        explained.explanations.len(),
        explained.complete
    );
    assert!(took.as_millis() < 1000, "{name}");
    let start = Instant::now();
    check_found(n, found).unwrap();
    assert!(start.elapsed().as_millis() < 1000, "{name}: check");
}

#[test]
#[ignore = "a measurement"]
fn how_long() {
    for n in [30, 99, 400] {
        let [a, b, c, d] = [n / 5, n / 3, n / 2, n - 3];
        let missing = |section| Fault::Missing { section };
        let double = |section| Fault::Double { section };
        let wrong = |at, section| Fault::WrongSection { at, section };
        let exchanged = |a, b| Fault::Exchanged { sections: [a, b] };
        let moved = |a, b, after| Fault::Moved { sections: [a, b], after };
        let cases = [
            ("right", vec![]),
            ("missing", vec![missing(b)]),
            ("missing, missing", vec![missing(b), missing(c)]),
            ("missing, double", vec![missing(b), double(d)]),
            ("wrong, wrong", vec![wrong(a, d), wrong(b, c)]),
            ("exchanged, missing", vec![exchanged(a, c), missing(b)]),
            ("moved, missing", vec![moved(a, b, d), missing(c)]),
            ("moved, moved", vec![moved(a, b, d), moved(2, 3, c)]),
            ("moved, exchanged", vec![moved(a, b, d), exchanged(3, c)]),
            ("missing three", vec![missing(a), missing(b), missing(c)]),
            ("missing two, wrong", vec![missing(a), missing(b), wrong(c, d)]),
            ("missing, double, wrong", vec![missing(a), double(b), wrong(c, d)]),
            ("wrong three", vec![wrong(a, b), wrong(b, c), wrong(c, d)]),
            ("moved, missing two", vec![moved(a, b, d), missing(c), missing(c + 2)]),
            ("moved two, missing", vec![moved(a, b, d), moved(2, 3, c), missing(c + 2)]),
            ("moved, exchanged, missing", vec![moved(a, b, d), exchanged(3, c), missing(c + 2)]),
            ("exchanged three", vec![exchanged(a, b), exchanged(b, c), exchanged(c, d)]),
            ("moved, exchanged two", vec![moved(a, b, d), exchanged(3, c), exchanged(2, d)]),
            ("moved two, exchanged", vec![moved(a, b, d), moved(2, 3, c), exchanged(5, c)]),
            ("moved three", vec![moved(a, b, d), moved(2, 3, c), moved(5, 6, c + 1)]),
            ("reversed, moved two", vec![moved(a, b, d), moved(2, 3, c), Fault::Reversed]),
        ];
        for (name, faults) in cases {
            timed(name, n, &retold(n, &faults));
        }
        let mut found = retold(n, &[exchanged(a, d), missing(c)]);
        for at in 1..found.len() / 4 {
            found[3 * at] = Found::Unread;
        }
        timed("a quarter unread", n, &found);
        let mut found = retold(n, &[exchanged(a, d), exchanged(b, c), missing(c + 1)]);
        found[n as usize / 4..n as usize / 3].fill(Found::Unread);
        timed("a block unread", n, &found);
        timed("all unread, two over", n.min(398), &vec![Found::Unread; n.min(398) as usize + 2]);
        timed("all unread, one over", n.min(398), &vec![Found::Unread; n.min(398) as usize + 1]);
        let mixed = (0..n).map(|at| Found::right(at * 37 % n + 1)).collect::<Vec<_>>();
        timed("shuffled", n, &mixed);
        let swapped = (0..n).map(|at| Found::right((at ^ 1).min(n - 1) + 1)).collect::<Vec<_>>();
        timed("all pairs exchanged", n, &swapped);
        let four = [10, 20, 5, 15].map(|at| exchanged(at, at + 8));
        timed("four exchanges", n, &retold(n, &four));
        timed("seven blocks", n.max(60), &parse_run("1-5 16-20 11-15 6-10 26-30 21-25 31-60").unwrap());
    }
}

#[test]
#[ignore = "a measurement"]
fn how_long_with_doubts() {
    for levels in [1, 2, 5, 20] {
        let design = Design { levels, ..Design::default() };
        let n = 400;
        let mut backs =
            (1..=n).map(|section| Seen { marks_mm: Some(vec![design.middle_mm(section)]) }).collect::<Vec<_>>();
        backs.remove(150);
        backs.remove(50);
        backs.swap(200, 300);
        let start = Instant::now();
        let checked = backmark::gather::check(n, &design, &backs).unwrap();
        println!("{levels} levels: {:?} {:?}", start.elapsed(), checked.verdict.lines.first());
    }
}
