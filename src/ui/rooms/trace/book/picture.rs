//! The small picture of a cause: the piles that a station was loaded with, or else the wrong book beside the right one.

use super::piles::{self, Pile};
use super::slips::{Row, Slip, row, slip_of};
use crate::app::BookCause;
use crate::marks::{BackMarks, Found};
use yew::prelude::*;

/// Causes of a pile that was loaded wrongly, by their names among the odds: a hatched lift on the pile.
const LOADED: [&str; 4] = ["wrong_pile", "one_strayed", "wrong_from_the_start", "foreign_pile"];
/// Causes of two piles that were taken for each other: tags on them.
const TAGGED: [&str; 3] = ["tags_exchanged", "stations_exchanged", "lifts_crossed"];

/// The piles of a cause, if it is about piles.
#[must_use]
pub fn pile_picture(cause: &BookCause, sections: u32) -> Option<Vec<Pile>> {
    let kind = cause.kind.as_str();
    if TAGGED.contains(&kind)
        && let Some((a, b)) = cause.exchanged
    {
        let pile = |under: u32, tag: u32| Pile { tag: tag.to_string(), ..Pile::plain(under, true) };
        return Some(vec![pile(a, b), pile(b, a)]);
    }
    let at = cause.station.filter(|_| LOADED.contains(&kind))?;
    let what = cause.wrong_at.iter().find(|(station, _)| *station == at).map(|(_, section)| section.to_string());
    // One at the end of the line has its neighbours at one side.
    let from = at.saturating_sub(1).clamp(1, sections.saturating_sub(2).max(1));
    let pile = |station: u32| {
        let on = station == at;
        let lift =
            |pile: Pile| Pile { high: 8, other: 2, other_is: what.clone().unwrap_or_else(|| "x".into()), ..pile };
        let pile = Pile::plain(station, on);
        if on { lift(pile) } else { pile }
    };
    Some((from..=from.saturating_add(2).min(sections.max(from))).map(pile).collect())
}

/// The small picture beside the title.
pub fn small(cause: &BookCause, design: &BackMarks, sections: u32) -> Html {
    match pile_picture(cause, sections) {
        Some(piles) => piles::row(&piles, "small-piles"),
        None => html! {
            <div class="small-spine">{ wrong(cause, (design, sections), Row { size: (132.0, 56.0), numbered: false }) }</div>
        },
    }
}

/// The right book and the one that the cause makes, one under the other.
pub fn two_books(cause: &BookCause, design: &BackMarks, sections: u32) -> Html {
    let right: Vec<Slip> = (1..=sections).map(|section| slip_of(&Found::right(section), design, sections)).collect();
    let size = Row { size: (392.0, 62.0), numbered: false };
    let numbered = Row { numbered: true, ..size };
    html! {
        <div class="two-books" hidden={cause.row.is_empty()}>
            <figure><figcaption>{ "A right book" }</figcaption>{ row(&right, design, size, &[]) }</figure>
            <figure><figcaption>{ "What this makes" }</figcaption>{ wrong(cause, (design, sections), numbered) }</figure>
        </div>
    }
}

fn wrong(cause: &BookCause, (design, sections): (&BackMarks, u32), size: Row) -> Html {
    let slips: Vec<Slip> = cause.row.iter().map(|found| slip_of(found, design, sections)).collect();
    row(&slips, design, size, &cause.places)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_station_is_drawn_with_what_it_was_loaded_with() {
        let cause =
            BookCause { kind: "wrong_pile".into(), station: Some(5), wrong_at: vec![(5, 9)], ..BookCause::default() };
        let piles = pile_picture(&cause, 18).unwrap();
        let said: Vec<_> = piles.iter().map(|p| (p.number.as_str(), p.other_is.as_str())).collect();
        assert_eq!(said, [("4", ""), ("5", "9"), ("6", "")]);
        let at = |station| {
            let piles = pile_picture(&BookCause { station: Some(station), ..cause.clone() }, 18).unwrap();
            piles.iter().map(|p| p.number.clone()).collect::<Vec<_>>().join(" ")
        };
        assert_eq!((at(1), at(18)), ("1 2 3".into(), "16 17 18".into()));
        let tags = BookCause { kind: "tags_exchanged".into(), exchanged: Some((5, 9)), ..cause.clone() };
        let tags: Vec<_> = pile_picture(&tags, 18).unwrap().into_iter().map(|p| (p.number, p.tag)).collect();
        assert_eq!(tags, [("5".into(), "9".into()), ("9".into(), "5".into())]);
        assert_eq!(pile_picture(&BookCause { kind: "divided_wrong".into(), ..cause }, 18), None);
    }
}
