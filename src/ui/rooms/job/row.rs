//! The book as a row: its pages with their folios, and under them the sections that hold them.

use crate::app::{State, of_sizes};
use crate::book::{Added, Book, Folios, Run};
use crate::ui::widgets::words;
use crate::units::short as s;
use yew::prelude::*;

/// Between two sections, and the least width of one, in units of the drawing.
const GAP: f64 = 2.0;
const LEAST: f64 = 3.0;
/// Where things stand below each other.
const LINE: f64 = 24.0;
const TOP: f64 = 36.0;
const TALL: f64 = 44.0;
const NUMBERS: f64 = TOP + TALL + 17.0;
const ROW: f64 = NUMBERS + 14.0;

/// What the book comes to in a sentence: "360 pages: 11 sections of 32 and 1 of 8."
pub fn sentence(state: &State) -> String {
    let book = state.job.book();
    format!("{} pages: {}.", book.pages_of_sections(), of_sizes(&book.sections))
}

/// The folio at a place in a run, as it is counted.
fn counted(run: &Run, nth: u32) -> String {
    match run.folios {
        Folios::Roman { first } => crate::book::roman(first + nth).unwrap_or_default(),
        Folios::RomanCapitals { first } => crate::book::roman(first + nth).unwrap_or_default().to_ascii_uppercase(),
        Folios::Arabic { first } => (first + nth).to_string(),
        Folios::None => String::new(),
    }
}

/// The sections of one line of the drawing: the first one (from 0), and how many.
fn lines(book: &Book, narrow: bool) -> Vec<(usize, usize)> {
    let all = book.sections.len();
    let most = if narrow { 10 } else { 48 };
    let count = all.div_ceil(most).max(1);
    let each = all.div_ceil(count).max(1);
    (0..count).map(|i| (i * each, each.min(all.saturating_sub(i * each)))).filter(|(_, n)| *n > 0).collect()
}

/// The drawing. `followed` is the page that the thread leads to; `pick` is called with the number of a section that was
/// pointed at.
pub fn drawn(
    book: &Book,
    (usual, picked): (u32, u32),
    followed: Option<u32>,
    narrow: bool,
    pick: &Callback<u32>,
) -> Html {
    let width = if narrow { 340.0 } else { 1000.0 };
    let lines = lines(book, narrow);
    let first_of = |section: usize| book.sections.iter().take(section).sum::<u32>();
    let longest = lines.iter().map(|(from, n)| first_of(from + n) - first_of(*from)).max().unwrap_or(1).max(1);
    let ends = 16.0;
    let scale = (width - 2.0 * ends) / f64::from(longest);
    let line = |(nth, (from, count)): (usize, &(usize, usize))| {
        let (before, after) = (first_of(*from), first_of(from + count));
        let x = |page: u32| ends + f64::from(page.saturating_sub(before)) * scale;
        let y = ROW * nth as f64;
        let sections = (*from..from + count).map(|i| {
            let number = i as u32 + 1;
            let pages = book.sections.get(i).copied().unwrap_or(0);
            let (x0, x1) = (x(first_of(i)), x(first_of(i + 1)));
            let w = (x1 - x0 - GAP).max(LEAST);
            let class = classes!("packet", (pages != usual).then_some("odd"), (picked == number).then_some("on"));
            let leaves = (pages / 4).min(16);
            let hair = (1..leaves).map(|leaf| {
                let at = s(x0 + w * f64::from(leaf) / f64::from(leaves));
                html! { <line class="hair" x1={at.clone()} x2={at} y1={s(TOP + 3.0)} y2={s(TOP + TALL - 3.0)} /> }
            });
            let every = if count * 24 > width as usize { 5 } else { 1 };
            let numbered = number == 1 || number.is_multiple_of(every) || pages != usual || picked == number;
            let shift = if picked == number { -6.0 } else { 0.0 };
            let pick = pick.reform(move |_: MouseEvent| number);
            html! {
                <g key={number} {class} onclick={pick}>
                    <rect class="packet-paper" x={s(x0)} y={s(TOP + shift)} width={s(w)} height={s(TALL)} />
                    { for hair }
                    { if numbered {
                        html! { <text class="n" x={s(x0 + w / 2.0)} y={s(NUMBERS)}>{ number }</text> }
                    } else { html! { <text></text> } } }
                </g>
            }
        });
        let mut at = 0u32;
        let mut runs = Vec::new();
        for (i, run) in book.runs.iter().enumerate() {
            let (start, end) = (at, at.saturating_add(run.pages));
            at = end;
            let (a, b) = (start.max(before), end.min(after));
            if a < b {
                runs.push(run_line(i, run, (a - start, b - 1 - start), (x(a), x(b) - GAP)));
            }
        }
        html! {
            <g key={nth} transform={format!("translate(0 {})", s(y))}>
                { for runs }
                <g>{ for sections }</g>
                { added(book, (*from, from + count), &x, (before, after)) }
                { thread(followed.filter(|page| (before + 1..=after).contains(page)).map(|page| (x(page - 1) + x(page)) / 2.0)) }
            </g>
        }
    };
    let height = ROW * lines.len() as f64;
    html! {
        <svg class="book-row" viewBox={format!("0 0 {} {}", s(width), s(height))} aria-hidden="true">
            { for lines.iter().enumerate().map(line) }
        </svg>
    }
}

/// The thread from the line of the folios into the section that holds the page that is followed.
fn thread(at: Option<f64>) -> Html {
    let (d, at) = at.map_or((String::new(), 0.0), |x| (format!("M{} {}V{}", s(x), s(LINE), s(TOP + TALL / 2.0)), x));
    html! {
        <g class="row-thread" display={if d.is_empty() { "none" } else { "inline" }}>
            <path class="casing" d={d.clone()} /><path class="strand" {d} />
            <circle cx={s(at)} cy={s(TOP + TALL / 2.0)} r="4" />
        </g>
    }
}

/// The line over the pages of a run, with its first and last folio.
fn run_line(key: usize, run: &Run, (first, last): (u32, u32), (x0, x1): (f64, f64)) -> Html {
    let ends = (counted(run, first), counted(run, last));
    let class = classes!("run", run.blank.then_some("blank"));
    let wide = x1 - x0;
    let name = if run.name.chars().count() as f64 * 7.0 + 90.0 < wide { run.name.clone() } else { String::new() };
    // Where there is no room for both, they stand as one.
    let (start, end) = match ends {
        (first, last) if first == last => (first, String::new()),
        (first, last) if wide < 56.0 => (format!("{first}–{last}"), String::new()),
        both => both,
    };
    html! {
        <g key={key} {class}>
            <path d={format!("M{} {}V{}H{}V{}", s(x0), s(LINE + 6.0), s(LINE), s(x1), s(LINE + 6.0))} />
            <text class={figures("start", &start)} x={s(x0)} y={s(LINE - 6.0)}>{ start }</text>
            <text class="name" x={s((x0 + x1) / 2.0)} y={s(LINE - 6.0)}>{ name }</text>
            <text class={figures("end", &end)} x={s(x1)} y={s(LINE - 6.0)}>{ end }</text>
        </g>
    }
}

/// The typeface of figures has no roman numerals.
fn figures(class: &'static str, folio: &str) -> Classes {
    classes!(class, folio.starts_with(|c: char| c.is_ascii_digit()).then_some("n"))
}

/// Plates, wraps and endpapers that lie in these sections.
fn added(book: &Book, (from, to): (usize, usize), x: &dyn Fn(u32) -> f64, (before, after): (u32, u32)) -> Html {
    let all = book.added.iter().enumerate().filter_map(|(i, one)| {
        match *one {
            Added::Plate { after: page, .. } => {
                (before <= page && page <= after && (page > before || page == 0)).then(|| {
                    let at = x(page) - GAP / 2.0;
                    html! { <path key={i} class="plate" d={format!("M{} {}V{}", s(at), s(TOP - 5.0), s(TOP + TALL + 5.0))} /> }
                })
            }
            Added::Wrap { section, .. } => {
                let at = section.checked_sub(1).map(|at| at as usize).filter(|at| (from..to).contains(at))?;
                let first: u32 = book.sections.iter().take(at).sum();
                let pages = book.sections.get(at).copied().unwrap_or(0);
                let (x0, x1) = (x(first) - 1.0, x(first + pages) - GAP + 1.0);
                let (y0, y1) = (s(TOP - 4.0), s(TOP + TALL + 4.0));
                Some(html! { <path key={i} class="wrap" d={format!("M{} {y1}V{y0}H{}V{y1}", s(x0), s(x1))} /> })
            }
            Added::Endpapers { .. } => {
                let ends = [(from == 0).then(|| x(before) - 9.0), (to == book.sections.len()).then(|| x(after) + 4.0)];
                let slip = |at: f64| html! { <rect class="endpaper" x={s(at)} y={s(TOP - 2.0)} width="4" height={s(TALL + 4.0)} /> };
                Some(html! { <g key={i}>{ for ends.into_iter().flatten().map(slip) }</g> })
            }
        }
    });
    html! { <g class="added">{ for all }</g> }
}

/// The table that says the same.
pub fn table(state: &State) -> Html {
    let job = &state.job;
    let book = job.book();
    let mut first = 1;
    let row = |(number, pages): (u32, &u32)| {
        let last = first + pages - 1;
        let folio = |page: u32| book.folio(page).unwrap_or_else(|| "none".into());
        let cells = html! {
            <tr key={number}>
                <th scope="row">{ number }</th><td>{ job.signing.signature(number) }</td><td>{ *pages }</td>
                <td>{ format!("{first} to {last}") }</td><td>{ format!("{} to {}", folio(first), folio(last)) }</td>
            </tr>
        };
        first = last + 1;
        cells
    };
    let rows: Vec<Html> = (1u32..).zip(&book.sections).map(row).collect();
    html! {
        <details class="as-table">
            <summary class="plain">{ "As a table" }</summary>
            <div class="table-box" tabindex="0" role="region" aria-label="The sections as a table">
                <table>
                    <thead><tr>
                        <th scope="col">{ "Section" }</th><th scope="col">{ "Signature" }</th><th scope="col">{ "Pages" }</th>
                        <th scope="col">{ "From page" }</th><th scope="col">{ "Printed" }</th>
                    </tr></thead>
                    <tbody>{ for rows }</tbody>
                </table>
            </div>
        </details>
    }
}

/// The picture with the words that stand for it.
pub fn figure(state: &State, narrow: bool, pick: &Callback<u32>) -> Html {
    let book = state.job.book();
    let usual = state.job.sheet.pages().first().copied().unwrap_or(0);
    let followed = state.look.followed.map(|page| page + state.shift());
    html! {
        <section class="book-figure" aria-label="The book as a row of sections">
            { drawn(&book, (usual, state.section_on_bench()), followed, narrow, pick) }
            { table(state) }
        </section>
    }
}

/// A finding of the core, with its sum and its source behind it.
pub fn finding(told: &crate::app::FindingTold) -> Html {
    let wrong = told.severity == crate::finish::Severity::Wrong;
    let mind = told.severity == crate::finish::Severity::Mind;
    html! {
        <li class={classes!("finding", wrong.then_some("wrong"), mind.then_some("mind"))}>
            <p>{ words(&told.says) }</p>
            <p class="sum" hidden={told.reckoned.is_empty()}>{ told.reckoned.clone() }</p>
            <p class="sum" hidden={told.source.is_empty()}>{ told.source.clone() }</p>
        </li>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_section_stands_in_one_line() {
        for sections in [1, 9, 10, 11, 48, 49, 99] {
            let book = Book { sections: vec![16; sections], ..Book::default() };
            for narrow in [true, false] {
                let lines = lines(&book, narrow);
                let all: Vec<usize> = lines.iter().flat_map(|(from, n)| *from..from + n).collect();
                assert!(all.iter().copied().eq(0..sections), "{sections}: {lines:?}");
            }
        }
    }
}
