//! The spine beside the bench: a slip a section with its back mark, the one on the bench drawn out.

use super::pictures::Seen;
use crate::marks::SeenBack;
use crate::units::{between, short as s};
use std::rc::Rc;
use yew::prelude::*;

/// Units across: the room for numbers, the length of a slip, how far the picked one is drawn out.
const NUMBERS: f64 = 34.0;
const LONG: f64 = 104.0;
const OUT: f64 = 14.0;
/// Units from one slip to the next, at the most, and of all slips together.
const PITCH: f64 = 30.0;
const HIGH: f64 = 640.0;

/// The spine. Each slip can be pressed; keys go from section to section.
pub fn strip(seen: &Seen, backs: &Rc<Vec<SeenBack>>) -> Html {
    let count = backs.len().max(1) as f64;
    let pitch = PITCH.min(HIGH / count);
    let spine = seen.state.job.design.stairs.spine_mm;
    let usual = seen.state.job.design.stairs.length_mm;
    let every = [1u32, 2, 5, 10, 20, 50].into_iter().find(|e| pitch * f64::from(*e) >= 26.0).unwrap_or(100);
    let here = seen.picture.place;
    let slip = |(place, back): (u32, &SeenBack)| {
        let on = place == here;
        let (y, high) = (f64::from(place - 1) * pitch, (pitch - (pitch * 0.1).min(3.0)).max(0.5));
        let left = NUMBERS + 8.0 + if on { OUT } else { 0.0 };
        let half = back.length_mm.unwrap_or(usual) / 2.0;
        let bars = back.marks_mm.iter().flatten().map(|mm| {
            let share = |mm: f64| between(mm / spine, 0.0, 1.0) * LONG;
            let (from, to) = (share(mm - half), share(mm + half));
            html! { <rect class="slip-mark" x={s(left + from)} y={s(y)} width={s((to - from).max(4.0))} height={s(high)} /> }
        });
        let numbered = on || place == 1 || place.is_multiple_of(every);
        html! {
            <g key={place} data-place={place.to_string()} class={classes!("slip", on.then_some("on"))}>
                <text x={s(NUMBERS)} y={s(y + pitch / 2.0 + 7.0)}>{ if numbered { place.to_string() } else { String::new() } }</text>
                <rect class="slip-paper" x={s(left)} y={s(y)} width={s(LONG)} height={s(high)} />
                <line class="slip-line" x1={s(left)} y1={s(y + high / 2.0)} x2={s(left + LONG)} y2={s(y + high / 2.0)} />
                { for bars }
            </g>
        }
    };
    let view = format!("0 0 {} {}", s(NUMBERS + 8.0 + LONG + OUT), s(pitch * count));
    html! {
        <div class="strip" role="img" aria-label={format!("The spine: section {here} of {} is on the bench", backs.len())}>
            <svg viewBox={view} preserveAspectRatio="xMinYMin meet">{ for (1u32..).zip(backs.iter()).map(slip) }</svg>
        </div>
    }
}
