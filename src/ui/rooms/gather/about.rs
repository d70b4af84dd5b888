//! The lines about the book and about the picked row, and the table behind the picture.

use super::backs::{Shows, begins, found_words};
use crate::app::{Action, Evidence, Room, State};
use crate::gather::Found;
use crate::marks::BackMarks;
use crate::ui::store::Act;
use crate::ui::widgets::words;
use yew::prelude::*;

/// "The Quillmere Almanac, 17 of 18 sections", which opens the book.
pub fn title(state: &State, count: u32, show_book: &Callback<()>) -> Html {
    let job = &state.job;
    let how = match job.evidence {
        Evidence::Stack => "",
        Evidence::Tapped(_) => ", as tapped",
        Evidence::Typed(_) => ", as typed",
    };
    let says = format!("{} of {} sections{how}", count, job.sections);
    html! {
        <p class="stack-title">
            <button type="button" class="plain" onclick={show_book.reform(|_: MouseEvent| ())}
                aria-label={format!("{}: the book and its marks", job.title)}>{ job.title.clone() }{ "," }</button>
            <span class="quiet">{ " " }{ words(&says) }</span>
        </p>
    }
}

/// The line about the picked row.
pub struct AboutProps {
    /// The picked place.
    pub place: u32,
    /// What its back shows.
    pub back: Option<Shows>,
    /// What was read there.
    pub found: Option<Found>,
    /// The marks of the book.
    pub design: BackMarks,
    /// Where the caret is, while marks are tapped.
    pub caret: Option<f64>,
    /// Whether the stack is looked at.
    pub on_stack: bool,
    /// How to say what happened.
    pub act: Act,
}

/// What the picked row shows, and the way to the bench.
pub fn about(props: &AboutProps) -> Html {
    let begins = props.back.as_ref().and_then(|back| begins(&props.design, back));
    let begins = begins.map(|mm| format!(", mark from {mm}")).unwrap_or_default();
    let caret = props.caret.map(|mm| format!(" Here: {} mm from the head.", crate::units::mm(mm))).unwrap_or_default();
    let what = props.found.map_or_else(|| "not read".into(), found_words);
    let says = format!("Place {}: {what}{begins}.{caret}", props.place);
    let (act, place) = (props.act.clone(), props.place);
    let open = Callback::from(move |_: MouseEvent| {
        act.emit(Action::Pick(place));
        act.emit(Action::Go(Room::Fold));
    });
    html! {
        <div class="about-row">
            <p aria-live="polite">{ words(&says) }</p>
            <button type="button" class="button" hidden={!props.on_stack} onclick={open}>{ "Open on the bench" }</button>
        </div>
    }
}

/// What the marks say at each place, for those who don't see the picture.
pub fn table(found: &[Found]) -> Html {
    let row = |(place, found): (u32, &Found)| html! { <tr><th scope="row">{ place }</th><td>{ found_words(*found) }</td></tr> };
    html! {
        <div class="unseen"><table>
            <caption>{ "What the marks say, from front to back" }</caption>
            <thead><tr><th scope="col">{ "place" }</th><th scope="col">{ "what" }</th></tr></thead>
            <tbody>{ for (1u32..).zip(found.iter()).map(row) }</tbody>
        </table></div>
    }
}
