//! The run of books as a line: counters at its ends, opened books on it, the books to hold as a hatched block, and what
//! happened beneath it.

use crate::units::{between, short as s};
use crate::words::grouped;
use yew::prelude::*;

/// What stands on the line. Everything by counter numbers.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RunLine {
    /// The first and the last book.
    pub ends: (u32, u32),
    /// Books to hold: first and last of each range.
    pub held: Vec<(u32, u32)>,
    /// Opened books, and whether each was good.
    pub opened: Vec<(u32, bool)>,
    /// Stops, jams and reloads.
    pub events: Vec<u32>,
    /// The book to open next.
    pub next: Option<u32>,
}

const WIDE: f64 = 392.0;
const AT: f64 = 34.0;

/// The line drawn. The words for it stand beneath the picture.
pub fn drawn(run: &RunLine) -> Html {
    let (first, last) = run.ends;
    let books = f64::from(last.saturating_sub(first)).max(1.0);
    let x = |n: u32| 1.0 + between((f64::from(n) - f64::from(first)) / books, 0.0, 1.0) * (WIDE - 2.0);
    let block = |(k, (from, to)): (usize, &(u32, u32))| {
        let (mut a, mut b) = (x(*from), x(*to));
        // A single book is still to be seen.
        if b - a < 5.0 {
            let middle = f64::midpoint(a, b);
            (a, b) = (middle - 2.5, middle + 2.5);
        }
        let hatch: String = (0..100)
            .map(|i| a - 26.0 + f64::from(i) * 6.0)
            .take_while(|at| *at < b)
            .filter_map(|at| {
                // From lower left to upper right, cut at both sides.
                let (x0, x1) = (at.max(a), (at + 26.0).min(b));
                (x1 > x0).then(|| {
                    let (y0, y1) = (AT + 13.0 - (x0 - at), AT + 13.0 - (x1 - at));
                    format!("M{} {}L{} {}", s(x0), s(y0), s(x1), s(y1))
                })
            })
            .collect();
        html! {
            <g key={k}>
                <rect class="held-block" x={s(a)} y={s(AT - 13.0)} width={s(b - a)} height="26" />
                <path class="held-hatch" d={hatch} />
            </g>
        }
    };
    let book = |(k, (n, good)): (usize, &(u32, bool))| {
        html! { <rect key={k} class={if *good { "book-good" } else { "book-bad" }} x={s(x(*n) - 2.5)} y={s(AT - 9.0)} width="5" height="18" /> }
    };
    let event = |(k, n): (usize, &u32)| {
        let x = x(*n);
        html! { <path key={k} class="event" d={format!("M{} {}v13m-4 0h8", s(x), s(AT + 3.0))} /> }
    };
    let next = run.next.map_or_else(String::new, |n| format!("M{} {}l-5 -9h10z", s(x(n)), s(AT - 14.0)));
    // The ends of the first block that is held; they keep clear of each other and of the ends of the line.
    let (from, to) = run.held.first().copied().unwrap_or_default();
    let named = !run.held.is_empty();
    let (a, b) = (between(x(from), 44.0, WIDE - 60.0), between(x(to), 50.0, WIDE - 44.0));
    let one = named && from == to;
    html! {
        <svg class="run-drawn" viewBox={format!("0 -4 {} 76", s(WIDE))} aria-hidden="true">
            <path class="run-way" d={format!("M1 {AT}H{}M1 {}v12M{} {}v12", s(WIDE - 1.0), s(AT - 6.0), s(WIDE - 1.0), s(AT - 6.0))} />
            <g>{ for run.events.iter().enumerate().map(event) }</g>
            <g>{ for run.held.iter().enumerate().map(block) }</g>
            <g>{ for run.opened.iter().enumerate().map(book) }</g>
            <path class="run-next" d={next} />
            <text class="run-number held" x={s(if one { f64::midpoint(a, b) } else { a - 3.0 })} y="14"
                text-anchor={if one { "middle" } else { "end" }}>{ if named { grouped(from) } else { String::new() } }</text>
            <text class="run-number held" x={s(b + 3.0)} y="14" text-anchor="start">
                { if named && !one { grouped(to) } else { String::new() } }
            </text>
            <text class="run-number" x="0" y={s(AT + 30.0)} text-anchor="start">{ grouped(first) }</text>
            <text class="run-number" x={s(WIDE)} y={s(AT + 30.0)} text-anchor="end">{ grouped(last) }</text>
        </svg>
    }
}
