//! Two books by their backs, one under the other: what was found, and what was made. A thread leads from one to the other where
//! they first differ.

use crate::marks::{BackMarks, Design, Found, Lies};
use crate::ui::rooms::trace::book::slips::{Slip, slip_of};
use crate::units::short as s;
use web_sys::KeyboardEvent;
use yew::prelude::*;

/// What is drawn.
pub struct Spines<'a> {
    /// Sections of a right book.
    pub sections: u32,
    /// What they are called, and their backs from front to back.
    pub rows: [(&'static str, &'a [Found]); 2],
    /// The place that is pointed at.
    pub picked: u32,
    /// The place from which a thread leads to the other book.
    pub thread: Option<u32>,
    /// Hears a place that is pointed at; `None` where nothing can be.
    pub pick: Option<Callback<u32>>,
    /// Whether the window is narrow.
    pub narrow: bool,
}

/// Sizes of the drawing: a name, a back, the numbers beneath, and what is free between two rows.
const NAME: f64 = 24.0;
const TALL: f64 = 150.0;
const NUMBERS: f64 = 24.0;
const FREE: f64 = 16.0;
const ROW: f64 = NAME + TALL + NUMBERS + FREE;

/// Marks that any book of an exercise has room for.
fn marks(sections: u32) -> BackMarks {
    let step = (170.0 / f64::from(sections.max(1))).min(10.0);
    Design { spine_mm: 210.0, first_mm: 16.0, step_mm: step, length_mm: step, levels: sections.max(1) }.into()
}

/// What a back shows, in words.
pub fn back_words(found: Option<&Found>) -> String {
    match found {
        None => "nothing".into(),
        Some(Found::Section { section, lies: Lies::Right }) => format!("section {section}"),
        Some(Found::Section { section, lies: Lies::HeadToTail }) => format!("section {section}, head to tail"),
        Some(Found::Section { section, .. }) => format!("section {section}, its fold at the fore-edge"),
        Some(Found::NoMark) => "a blank back".into(),
        Some(Found::Foreign) => "a section of another job".into(),
        Some(Found::Unread) => "a back that can’t be read".into(),
    }
}

/// The two books.
pub fn spines(of: &Spines<'_>) -> Html {
    let count = of.rows.iter().map(|(_, backs)| backs.len()).max().unwrap_or(0).max(of.sections as usize).max(1) as u32;
    let width = if of.narrow { 340.0 } else { 640.0 };
    let pitch = (width / f64::from(count)).min(52.0);
    let design = marks(of.sections);
    let picked = of.picked.clamp(1, count);
    let x = |place: u32| f64::from(place - 1) * pitch;
    let row = |(nth, (name, backs)): (usize, &(&'static str, &[Found]))| {
        let top = ROW * nth as f64;
        let slip = |(place, found): (u32, &Found)| {
            let on = of.pick.is_some() && place == picked;
            let pick = of.pick.clone();
            let onclick = Callback::from(move |_: MouseEvent| {
                if let Some(pick) = &pick {
                    pick.emit(place);
                }
            });
            html! {
                <g key={place} class={classes!("spine-back", on.then_some("on"))} data-place={place.to_string()} {onclick}>
                    { back(found, &design, of.sections, (x(place), top + NAME, pitch)) }
                    <text class="spine-place" x={s(x(place) + pitch / 2.0 - 1.0)} y={s(top + NAME + TALL + 17.0)}>{ place }</text>
                </g>
            }
        };
        html! {
            <g key={nth}>
                <text class="spine-name" x="0" y={s(top + 16.0)}>{ *name }</text>
                <g>{ for (1..).zip(backs.iter()).map(slip) }</g>
            </g>
        }
    };
    // It runs down between two backs, so that it crosses no number.
    let at = of.thread.map(|place| (x(place) + pitch / 2.0 - 1.0, x(place) + pitch - 1.0));
    let (middle, gap) = at.unwrap_or_default();
    let (from, to) = (NAME + TALL * 0.62, ROW + NAME + TALL * 0.62);
    let d = format!("M{at} {}H{}V{}H{at}", s(from), s(gap), s(to), at = s(middle));
    let view = format!("0 0 {} {}", s(width), s(2.0 * ROW - FREE));
    let svg = html! {
        <svg class="spines" viewBox={view} aria-hidden="true">
            { for of.rows.iter().enumerate().map(row) }
            <g class="spine-thread" display={if at.is_some() { "inline" } else { "none" }}>
                <path class="casing" d={d.clone()} /><path class="strand" {d} />
                <circle cx={s(middle)} cy={s(from)} r="4" /><circle cx={s(middle)} cy={s(to)} r="4" />
            </g>
        </svg>
    };
    let Some(pick) = of.pick.clone() else { return html! { <div class="spines-box">{ svg }</div> } };
    let keys = Callback::from(move |e: KeyboardEvent| {
        let to = match e.key().as_str() {
            "ArrowRight" | "ArrowUp" => picked + 1,
            "ArrowLeft" | "ArrowDown" => picked.saturating_sub(1),
            "Home" => 1,
            "End" => count,
            _ => return,
        };
        e.prevent_default();
        e.stop_propagation();
        pick.emit(to.clamp(1, count));
    });
    let word = |row: usize| {
        let (name, backs) = of.rows.get(row).copied().unwrap_or_default();
        format!("{name}: {}", back_words(backs.get(picked as usize - 1)))
    };
    html! {
        <div class="spines-box" role="slider" tabindex="0" aria-label="Place in the book" aria-valuemin="1" aria-valuemax={count.to_string()}
            aria-valuenow={picked.to_string()} aria-valuetext={format!("Place {picked}. {}. {}.", word(0), word(1))} onkeydown={keys}>
            { svg }
        </div>
    }
}

/// One back: its paper, its bar, its number.
fn back(found: &Found, design: &BackMarks, sections: u32, (x, y, pitch): (f64, f64, f64)) -> Html {
    let wide = pitch - 2.0;
    let at = |mm: f64| y + crate::units::between(mm / design.stairs.spine_mm, 0.0, 1.0) * TALL;
    let half = design.stairs.length_mm / 2.0;
    let slip = slip_of(found, design, sections);
    let bars = match &slip {
        Slip::Bars(bars, _) => bars.clone(),
        _ => Vec::new(),
    };
    let bar = |mm: f64| {
        let (from, to) = (at(mm - half), at(mm + half));
        html! { <rect class="slip-mark" x={s(x)} y={s(from)} width={s(wide)} height={s((to - from).max(3.0))} /> }
    };
    let (text, turned) = match found {
        Found::Section { section, lies: Lies::Right } => (section.to_string(), false),
        Found::Section { section, lies: Lies::HeadToTail } => (section.to_string(), true),
        Found::Foreign => ("x".into(), false),
        Found::Unread => ("?".into(), false),
        _ => (String::new(), false),
    };
    // The number stands at the foot of the section: at the head where it lies head to tail.
    let (cx, cy) = (x + wide / 2.0, if turned { y + 12.0 } else { y + TALL - 7.0 });
    let turn = if turned { format!("rotate(180 {} {})", s(cx), s(cy - 4.5)) } else { String::new() };
    html! {
        <>
            <rect class="slip-paper" x={s(x)} y={s(y)} width={s(wide)} height={s(TALL)} />
            <rect class={if *found == Found::Foreign { "slip-foreign" } else { "no-frame" }} x={s(x + 2.0)} y={s(y + 2.0)} width={s(wide - 4.0)} height={s(TALL - 4.0)} />
            <g>{ for bars.into_iter().map(bar) }</g>
            <text class="spine-number" x={s(cx)} y={s(cy)} transform={turn}>{ text }</text>
        </>
    }
}
