//! Piles drawn obliquely: what was left over at the stations, and what a station was loaded with.

use crate::units::short as s;
use std::fmt::Write;
use yew::prelude::*;

/// How a pile is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Pile {
    /// What stands beneath it.
    pub number: String,
    /// How high it stands, in sheets of the drawing.
    pub high: u32,
    /// How many sheets on top are something else, hatched; what they are stands beside them.
    pub other: u32,
    /// The name of what lies on top.
    pub other_is: String,
    /// What hangs on the pile as a tag.
    pub tag: String,
    /// Whether its number stands out.
    pub on: bool,
}

impl Pile {
    /// A pile of usual height.
    #[must_use]
    pub fn plain(number: impl ToString, on: bool) -> Self {
        Self { number: number.to_string(), high: 8, other: 0, other_is: String::new(), tag: String::new(), on }
    }
}

const WIDE: f64 = 31.0;
const SHEET: f64 = 6.0;
const DEEP: (f64, f64) = (10.0, -7.0);
const PITCH: f64 = 52.0;

/// A row of piles on one rim, in a picture of this class.
pub fn row(piles: &[Pile], class: &'static str) -> Html {
    let most = piles.iter().map(|p| p.high + p.other).max().unwrap_or(0).max(8);
    let rim = f64::from(most) * SHEET - DEEP.1 + 2.0;
    let (w, h) = (PITCH * piles.len() as f64, rim + 22.0);
    html! {
        <svg class={classes!("pile-row", class)} viewBox={format!("0 0 {} {}", s(w), s(h))} width={s(w)} height={s(h)} aria-hidden="true">
            { for piles.iter().enumerate().map(|(i, pile)| drawn(pile, PITCH * i as f64 + 2.0, rim)) }
        </svg>
    }
}

fn drawn(pile: &Pile, x: f64, rim: f64) -> Html {
    let (low, high) = (f64::from(pile.high) * SHEET, f64::from(pile.other) * SHEET);
    let top = rim - low - high;
    let block = |class: &'static str, from: f64, to: f64| {
        let front = format!("M{} {}h{}V{}h{}z", s(x), s(from), s(WIDE), s(to), s(-WIDE));
        let side = format!(
            "M{} {}l{} {}V{}l{} {}z",
            s(x + WIDE),
            s(from),
            s(DEEP.0),
            s(DEEP.1),
            s(to + DEEP.1),
            s(-DEEP.0),
            s(-DEEP.1)
        );
        let mut sheets = String::new();
        let mut y = from + SHEET;
        while y < to - 1.0 {
            let _ = write!(sheets, "M{} {}h{}", s(x), s(y), s(WIDE));
            y += SHEET;
        }
        html! {
            <g {class}>
                <path class="pile-front" d={front} /><path class="pile-side" d={side} /><path class="pile-sheets" d={sheets} />
            </g>
        }
    };
    let lid = format!("M{} {}l{} {}h{}l{} {}z", s(x), s(top), s(DEEP.0), s(DEEP.1), s(WIDE), s(-DEEP.0), s(-DEEP.1));
    let tagged = !pile.tag.is_empty();
    let hatch = format!("M{} {}h{}V{}h{}z", s(x), s(top), s(WIDE), s(rim - low), s(-WIDE));
    html! {
        <g class={classes!("one-pile", pile.on.then_some("on"))}>
            { block("pile-low", rim - low, rim) }
            { block(if pile.other > 0 { "pile-other" } else { "no-frame" }, top, rim - low) }
            <path class={if pile.other > 0 { "pile-hatch" } else { "no-frame" }} d={hatch} />
            <path class="pile-top" d={lid} />
            <text class="pile-beside" x={s(x + WIDE + DEEP.0 + 3.0)} y={s(top + 4.0)}>{ pile.other_is.clone() }</text>
            <rect class={if tagged { "pile-tag" } else { "no-frame" }} x={s(x + WIDE / 2.0 - 11.0)} y={s(rim - low / 2.0 - 10.0)} width="22" height="19" />
            <text class="pile-tag-word" x={s(x + WIDE / 2.0)} y={s(rim - low / 2.0 + 5.0)}>{ pile.tag.clone() }</text>
            <text class="pile-number" x={s(x + WIDE / 2.0)} y={s(rim + 17.0)}>{ pile.number.clone() }</text>
        </g>
    }
}
