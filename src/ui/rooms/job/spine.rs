//! The back marks drawn at true size: the spine lies with its head at the left, a back under the other.

use crate::app::Job;
use crate::ui::widgets::words;
use crate::units::{between, short as s};
use yew::prelude::*;

/// Room for the numbers at the left, mm; in a narrow window the drawing is smaller, and its figures larger.
const NUMBERS: [f64; 2] = [9.0, 14.0];
/// Height of a back as drawn, mm: sections are thinner, so that bars stand closer together than they are drawn.
const BACK: f64 = 3.6;
/// Room for the rule below, mm.
const RULE: [f64; 2] = [9.0, 13.0];
/// Size of figures, mm.
const FIGURES: [f64; 2] = [3.5, 8.8];

/// What the knives take off a spine at its head and its foot, mm, to be drawn with it.
pub type Trimmed = [f64; 2];

/// Where a point of the drawing lies, both as shares of its width and height: mm from the head, and the section.
pub fn meant(job: &Job, narrow: bool, (across, down): (f64, f64)) -> (f64, u32) {
    let [numbers, rule] = [NUMBERS, RULE].map(|sizes| if narrow { sizes[1] } else { sizes[0] });
    let (spine, n) = (job.design.stairs.spine_mm, job.sections.max(1));
    let mm = across * (numbers + spine + 4.0) - numbers;
    let back = (down * (BACK * f64::from(n) + rule) / BACK).floor();
    (between(mm, 0.0, spine), between(back, 0.0, f64::from(n - 1)) as u32 + 1)
}

/// The drawing, at its true length if the window has room for it.
pub fn drawn(job: &Job, narrow: bool) -> Html {
    drawn_trimmed(job, narrow, [0.0; 2])
}

/// The same with what is cut off.
pub fn drawn_trimmed(job: &Job, narrow: bool, [head, foot_trim]: Trimmed) -> Html {
    let [numbers, rule, figures] = [NUMBERS, RULE, FIGURES].map(|sizes| if narrow { sizes[1] } else { sizes[0] });
    let design = &job.design;
    let spine = design.stairs.spine_mm;
    let n = job.sections;
    let (width, height) = (numbers + spine + 4.0, BACK * f64::from(n) + rule);
    let every = if narrow || n > 40 { 5 } else { 1 };
    let back = |section: u32| {
        let y = BACK * f64::from(section - 1);
        let bar = design.bar(section, n);
        let (from, _) = bar.ends_mm();
        let wide = between(bar.width_mm, 0.3, BACK);
        let middle = y + BACK / 2.0 + between(bar.across_mm, -BACK / 2.0, BACK / 2.0);
        let label = design.label.as_ref().map(|label| (label.text(section, n), label.from_mm, label.size_mm));
        let numbered =
            section == 1 || section == n || (section.is_multiple_of(every) && section + every / 2 < n.max(every));
        let number = if numbered { section.to_string() } else { String::new() };
        html! {
            <g key={section}>
                <rect class={if section.is_multiple_of(2) { "back even" } else { "back" }} x={s(numbers)} y={s(y)} width={s(spine)} height={s(BACK)} />
                <rect class="bar" x={s(numbers + from)} y={s(middle - wide / 2.0)} width={s(bar.length_mm)} height={s(wide)} />
                { match label {
                    Some((text, at, size)) => html! {
                        <text class="back-label" x={s(numbers + at)} y={s(y + BACK / 2.0 + size * 0.35)} font-size={s(size)}>{ text }</text>
                    },
                    None => html! { <text></text> },
                } }
                <text class="number" x={s(numbers - 1.5)} y={s(y + BACK / 2.0 + 0.36 * figures)} font-size={s(figures)}>{ number }</text>
            </g>
        }
    };
    let foot = BACK * f64::from(n);
    let steps = (spine / 10.0) as u32;
    let ticks = (0..=steps).map(|i| {
        let (x, mm) = (s(numbers + 10.0 * f64::from(i)), 10 * i);
        let whole = mm % 50 == 0;
        let number = if whole { mm.to_string() } else { String::new() };
        html! {
            <g key={i}>
                <line class="tick" x1={x.clone()} x2={x.clone()} y1={s(foot)} y2={s(foot + if whole { 2.0 } else { 1.0 })} />
                <text class="number mid" {x} y={s(foot + 3.0 + figures * 0.9)} font-size={s(figures)}>{ number }</text>
            </g>
        }
    });
    let cut = |key: &'static str, from: f64, wide: f64| {
        html! { <rect {key} class="cut-off" x={s(numbers + from)} y="0" width={s(wide)} height={s(foot)} /> }
    };
    html! {
        <svg class="spine-drawn" viewBox={format!("0 0 {} {}", s(width), s(height))} width={format!("{}mm", s(width))}
            height={format!("{}mm", s(height))} aria-hidden="true">
            <g>{ for (1..=n).map(back) }</g>
            <g>{ cut("head", 0.0, head) }{ cut("foot", spine - foot_trim, foot_trim) }</g>
            <g class="ruler">{ for ticks }</g>
        </svg>
    }
}

/// What is drawn, in words.
pub fn says(job: &Job) -> String {
    let (design, n) = (&job.design, job.sections);
    let [first, last] = [1, n].map(|section| design.bar(section, n).ends_mm().0);
    let wraps = n.saturating_sub(1) / design.stairs.levels.max(1);
    let again = match wraps {
        0 => String::new(),
        1 => format!(" The staircase begins again once, after section {}.", design.stairs.levels),
        n => format!(" The staircase begins again {n} times, after every {} sections.", design.stairs.levels),
    };
    format!(
        "The mark of section 1 begins {} mm from the head, that of section {n} at {} mm.{again}",
        crate::units::mm(first),
        crate::units::mm(last)
    )
}

/// The table behind the drawing.
pub fn table(job: &Job) -> Html {
    let (design, n) = (&job.design, job.sections);
    let row = |section: u32| {
        let bar = design.bar(section, n);
        let (from, to) = bar.ends_mm();
        html! {
            <tr key={section}>
                <th scope="row">{ section }</th><td>{ crate::units::mm(from) }</td><td>{ crate::units::mm(to) }</td>
                <td>{ crate::units::mm(bar.width_mm) }</td><td>{ crate::units::mm(bar.across_mm) }</td>
            </tr>
        }
    };
    html! {
        <details class="as-table">
            <summary class="plain">{ "As a table" }</summary>
            <div class="table-box" tabindex="0" role="region" aria-label="The marks as a table">
                <table>
                    <thead><tr>
                        <th scope="col">{ "Section" }</th><th scope="col">{ "From, mm" }</th><th scope="col">{ "To" }</th>
                        <th scope="col">{ "Width" }</th><th scope="col">{ "Off the fold" }</th>
                    </tr></thead>
                    <tbody>{ for (1..=n).map(row) }</tbody>
                </table>
            </div>
        </details>
    }
}

/// The drawing with its words.
pub fn figure(job: &Job, narrow: bool) -> Html {
    html! {
        <section class="spine-figure" aria-label="The backs with their marks">
            { drawn(job, narrow) }
            <div class="said">
                <p>{ words(&says(job)) }</p>
                { table(job) }
            </div>
        </section>
    }
}
