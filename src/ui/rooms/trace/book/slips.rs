//! The spine of a book as it would be found: slips in a row with their marks, each at its height.

use crate::marks::{BackMarks, Found, Seen};
use crate::units::short as s;
use yew::prelude::*;

/// What one back shows.
#[derive(Clone, Debug, PartialEq)]
pub enum Slip {
    /// Bars, by their middles in mm from the head, and the section they stand for, where that is known.
    Bars(Vec<f64>, Option<u32>),
    /// A section of another book.
    Foreign,
    /// Nobody could read it.
    Unread,
}

/// The back of a find, by these marks.
#[must_use]
pub fn slip_of(found: &Found, design: &BackMarks, sections: u32) -> Slip {
    match *found {
        // The fold of one that is turned, and the mark with it, lies at the fore-edge.
        Found::Section { section, lies } => Slip::Bars(
            design.bar_lying(section, sections, lies).iter().map(|bar| bar.middle_mm).collect(),
            Some(section),
        ),
        Found::NoMark => Slip::Bars(vec![], None),
        Found::Foreign => Slip::Foreign,
        Found::Unread => Slip::Unread,
    }
}

/// The back as it was seen.
#[must_use]
pub fn slip_seen(seen: &Seen) -> Slip {
    seen.marks_mm.as_ref().map_or(Slip::Unread, |bars| Slip::Bars(bars.clone(), None))
}

/// How a row of slips is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// Its width and height, without numbers.
    pub size: (f64, f64),
    /// Whether the places are numbered beneath.
    pub numbered: bool,
}

/// The places (from 1) that stand out, and the row. The words for it stand beside the picture.
pub fn row(slips: &[Slip], design: &BackMarks, row: Row, out: &[u32]) -> Html {
    let (width, height) = row.size;
    let n = slips.len().max(1) as f64;
    // A short book is not blown up.
    let pitch = (width / n).min(height * 0.34);
    let gap = (pitch * 0.09).min(2.0);
    let every = [1u32, 2, 5, 10, 20].into_iter().find(|e| pitch * f64::from(*e) >= 19.0).unwrap_or(20);
    let slip = |(place, slip): (u32, &Slip)| {
        let x = f64::from(place - 1) * pitch;
        let on = out.contains(&place);
        let y = |mm: f64| crate::units::between(mm / design.stairs.spine_mm, 0.0, 1.0) * height;
        let half = design.stairs.length_mm / 2.0;
        let bar = |mm: &f64| {
            let (from, to) = (y(mm - half), y(mm + half));
            let high = (to - from).max(2.6);
            html! { <rect class="slip-mark" x={s(x)} y={s(from.min(height - high))} width={s(pitch - gap)} height={s(high)} /> }
        };
        let (bars, hatched, unread) = match slip {
            Slip::Bars(bars, _) => (bars.iter().map(bar).collect::<Html>(), false, false),
            Slip::Foreign => (Html::default(), true, false),
            Slip::Unread => (Html::default(), false, true),
        };
        let word = if unread { "?" } else { "" };
        let numbered = row.numbered && (on || place == 1 || place.is_multiple_of(every));
        let number = if numbered { place.to_string() } else { String::new() };
        let lines = [0.27, 0.5, 0.73].map(|at| x + (pitch - gap) * at);
        html! {
            <g key={place} class={classes!("found-slip", on.then_some("on"))} data-place={place.to_string()}>
                <rect class="slip-paper" x={s(x)} y="0" width={s(pitch - gap)} height={s(height)} />
                <path class="slip-line" d={lines.map(|x| format!("M{} 0V{}", s(x), s(height))).concat()} />
                <rect class={if hatched { "slip-foreign" } else { "no-frame" }} x={s(x)} y="0" width={s(pitch - gap)} height={s(height)} />
                <g>{ bars }</g>
                <text class="slip-word" x={s(x + (pitch - gap) / 2.0)} y={s(height / 2.0)}>{ word }</text>
                <text class="slip-place" x={s(x + (pitch - gap) / 2.0)} y={s(height + 18.0)}>{ number }</text>
            </g>
        }
    };
    let below = if row.numbered { 24.0 } else { 0.0 };
    html! {
        <svg class="found-spine" viewBox={format!("0 0 {} {}", s(width), s(height + below))} aria-hidden="true">
            { for (1u32..).zip(slips).map(slip) }
        </svg>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::marks::Lies;

    #[test]
    fn a_back_shows_its_mark_as_the_section_lies() {
        let design = BackMarks::default();
        let slip = |lies| slip_of(&Found::Section { section: 1, lies }, &design, 18);
        assert_eq!(slip(Lies::Right), Slip::Bars(vec![24.5], Some(1)));
        assert_eq!(slip(Lies::HeadToTail), Slip::Bars(vec![191.5], Some(1)));
        assert_eq!(slip(Lies::SideToSide), Slip::Bars(vec![], Some(1)));
        assert_eq!(slip_of(&Found::Unread, &design, 18), slip_seen(&Seen { marks_mm: None }));
    }
}
