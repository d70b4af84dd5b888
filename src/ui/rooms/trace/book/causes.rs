//! What would leave these traces: the causes in their order, each with its picture; the one that is looked at says all that
//! is known of it.

use super::picture::{small, two_books};
use crate::app::{BookCause, CaseTold, InsideTold};
use crate::marks::BackMarks;
use crate::ui::widgets::{figures, words};
use yew::prelude::*;

/// What the causes need.
pub struct Props<'a> {
    /// What was told.
    pub told: &'a CaseTold,
    /// The cause that is looked at.
    pub chosen: usize,
    /// Chooses another one.
    pub choose: Callback<usize>,
    /// Opens a section on the bench.
    pub open: Callback<InsideTold>,
    /// The marks.
    pub design: &'a BackMarks,
    /// The sections of the book.
    pub sections: u32,
}

/// Causes that are shown whatever their share, and the share above which others are shown at once.
const SHOWN: usize = 3;
const LIKELY: f64 = 0.03;
/// How many causes are shown that a person may think of and that do not fit.
const UNFIT: usize = 2;

/// Which causes are shown at once; the others are one click away.
#[must_use]
fn shown(causes: &[BookCause], chosen: usize) -> Vec<bool> {
    let mut unfit = 0;
    let one = |(at, cause): (usize, &BookCause)| {
        unfit += usize::from(!cause.fits);
        at < SHOWN && cause.fits || at == chosen || cause.share >= LIKELY || (!cause.fits && unfit <= UNFIT)
    };
    causes.iter().enumerate().map(one).collect()
}

/// The list of causes.
pub fn causes(props: &Props<'_>) -> Html {
    let shown = shown(&props.told.causes, props.chosen);
    // They are numbered as they are shown.
    let part = |which: bool, from: usize| {
        let all = props.told.causes.iter().enumerate().zip(&shown);
        let part = all.filter(|(_, shown)| **shown == which).map(|(cause, _)| cause);
        part.zip(from..).map(|((at, cause), number)| one(props, (at, number), cause)).collect::<Vec<_>>()
    };
    let first = part(true, 1);
    let others = part(false, first.len() + 1);
    let more = format!("{} more, each less likely", others.len());
    html! {
        <>
            <ol class="book-causes" hidden={first.is_empty()}>{ for first }</ol>
            <details class="more-causes" hidden={others.is_empty()}>
                <summary>{ figures(&more) }</summary>
                <ol class="book-causes">{ for others }</ol>
            </details>
            <ul class="quiet cannot" hidden={props.told.cannot_tell.is_empty()}>
                { for props.told.cannot_tell.iter().map(|line| html! { <li>{ words(line) }</li> }) }
            </ul>
        </>
    }
}

fn one(props: &Props<'_>, (at, number): (usize, usize), cause: &BookCause) -> Html {
    let on = props.chosen == at;
    let choose = props.choose.reform(move |_: MouseEvent| at);
    let line = |line: &String| html! { <p>{ words(line) }</p> };
    // Of a cause that is not looked at, what speaks against it is the one thing to be said.
    let against = |line: &String| html! { <p class="against">{ "Against it: " }{ words(&lowered(line)) }</p> };
    let shown = if on { cause.against.len() } else { 1 };
    // The first reason is the row it makes and the last one its weight; what lies between is of this case.
    let of_case = cause.why.get(1..cause.why.len().saturating_sub(1)).unwrap_or_default();
    let why = of_case.iter().take(if on { 3 } else { 0 });
    let class = classes!("book-cause", on.then_some("on"), (!cause.fits).then_some("unfit"));
    html! {
        <li key={at} {class}>
            <span class="rank" aria-hidden="true">{ number }</span>
            <div class="cause-picture">{ small(cause, props.design, props.sections) }</div>
            <div class="cause-words">
                <h3><button type="button" class="cause-title" aria-expanded={on.to_string()} onclick={choose}>{ figures(&cause.title) }</button></h3>
                <p class="quiet stage">{ stage(cause) }</p>
                <div class="why">{ for why.map(line) }</div>
                <div>{ for cause.against.iter().take(shown).map(against) }</div>
                <p class="look-next"><span>{ "Look next: " }</span>{ words(&lowered(&cause.next_check)) }</p>
                { inside(props, cause.inside.as_ref().filter(|_| on)) }
                <details class="cause-more" hidden={!on}>
                    <summary>{ "Why it stands here, and what to do with the books" }</summary>
                    { for cause.why.iter().map(line) }
                    <p hidden={cause.remedy.is_empty()}><span class="quiet">{ "The books: " }</span>{ words(&lowered(&cause.remedy)) }</p>
                    <p class="quiet caution" hidden={cause.caution.is_empty()}>{ words(&cause.caution) }</p>
                    { if on { two_books(cause, props.design, props.sections) } else { Html::default() } }
                </details>
            </div>
        </li>
    }
}

/// Where in the shop, and at which station.
fn stage(cause: &BookCause) -> Html {
    words(&match cause.station {
        Some(station) => format!("{}, station {station}", cause.place),
        None => cause.place.clone(),
    })
}

fn inside(props: &Props<'_>, inside: Option<&InsideTold>) -> Html {
    let section = inside.map_or(0, |i| i.section);
    let open = {
        let (open, inside) = (props.open.clone(), inside.cloned());
        Callback::from(move |_: MouseEvent| {
            if let Some(inside) = inside.clone() {
                open.emit(inside);
            }
        })
    };
    html! {
        <p hidden={inside.is_none()}>
            <button type="button" class="button" onclick={open}>{ figures(&format!("Open section {section} on the bench")) }</button>
        </p>
    }
}

/// Goes on after a colon: without a capital, unless the first word is a name of a book or machine that has none.
fn lowered(line: &str) -> String {
    if line.chars().nth(1).is_some_and(char::is_lowercase) { crate::words::small(line) } else { line.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rivals_that_do_not_fit_are_shown_beside_the_likely_ones() {
        let cause = |share: f64, fits: bool| BookCause { share, fits, ..BookCause::default() };
        let all = [
            cause(0.9, true),
            cause(0.05, true),
            cause(0.01, true),
            cause(0.01, true),
            cause(0.0, false),
            cause(0.0, false),
            cause(0.0, false),
        ];
        assert_eq!(shown(&all, 0), [true, true, true, false, true, true, false]);
        assert_eq!(shown(&all, 3), [true, true, true, true, true, true, false]);
    }
}
