//! The back marks drawn at true size: the spine lies with its head at the left, a back under the other.

use crate::app::Job;
use crate::ui::widgets::words;
use crate::units::{between, short as s};
use yew::prelude::*;

/// Room for the numbers at the left, mm.
const NUMBERS: f64 = 9.0;
/// Height of a back as drawn, mm: sections are thinner, so that bars stand closer together than they are drawn.
const BACK: f64 = 5.0;
/// Room for the rule below, mm.
const RULE: f64 = 9.0;

/// The drawing, at its true length if the window has room for it.
pub fn drawn(job: &Job) -> Html {
    let design = &job.design;
    let spine = design.stairs.spine_mm;
    let n = job.sections;
    let (width, height) = (NUMBERS + spine + 4.0, BACK * f64::from(n) + RULE);
    let every = if n > 40 { 5 } else { 1 };
    let back = |section: u32| {
        let y = BACK * f64::from(section - 1);
        let bar = design.bar(section, n);
        let (from, _) = bar.ends_mm();
        let wide = between(bar.width_mm, 0.3, BACK);
        let middle = y + BACK / 2.0 + between(bar.across_mm, -BACK / 2.0, BACK / 2.0);
        let label = design.label.as_ref().map(|label| (label.text(section, n), label.from_mm, label.size_mm));
        let numbered = section == 1 || section == n || section.is_multiple_of(every);
        let number = if numbered { section.to_string() } else { String::new() };
        html! {
            <g key={section}>
                <rect class={if section % 2 == 0 { "back even" } else { "back" }} x={s(NUMBERS)} y={s(y)} width={s(spine)} height={s(BACK)} />
                <rect class="bar" x={s(NUMBERS + from)} y={s(middle - wide / 2.0)} width={s(bar.length_mm)} height={s(wide)} />
                { match label {
                    Some((text, at, size)) => html! {
                        <text class="back-label" x={s(NUMBERS + at)} y={s(y + BACK / 2.0 + size * 0.35)} font-size={s(size)}>{ text }</text>
                    },
                    None => html! { <text></text> },
                } }
                <text class="n" x={s(NUMBERS - 1.5)} y={s(y + BACK * 0.74)}>{ number }</text>
            </g>
        }
    };
    let foot = BACK * f64::from(n);
    let steps = (spine / 50.0) as u32;
    let ticks = (0..=steps).map(|i| {
        let (x, mm) = (s(NUMBERS + 50.0 * f64::from(i)), 50 * i);
        html! {
            <g key={i}>
                <line class="tick" x1={x.clone()} x2={x.clone()} y1={s(foot)} y2={s(foot + 2.0)} />
                <text class="n mid" {x} y={s(foot + 6.4)}>{ mm }</text>
            </g>
        }
    });
    html! {
        <svg class="spine-drawn" viewBox={format!("0 0 {} {}", s(width), s(height))} width={format!("{}mm", s(width))}
            height={format!("{}mm", s(height))} aria-hidden="true">
            <g>{ for (1..=n).map(back) }</g>
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
        "The mark of section 1 begins {} mm from the head, that of section {n} {} mm.{again}",
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
pub fn figure(job: &Job) -> Html {
    html! {
        <section class="spine-figure" aria-label="The backs with their marks">
            <div class="spine-box">{ drawn(job) }</div>
            <p>{ words(&says(job)) }</p>
            { table(job) }
        </section>
    }
}
