//! The found section, opening by opening: one in hand, all in a row, and a table behind them.

use crate::fold::misfold::FoundPage;
use crate::fold::{Direction, Reads};
use crate::ui::rooms::trace::section::found::{openings, sides};
use crate::ui::rooms::trace::section::openings::leaf;
use crate::ui::widgets::words;
use std::rc::Rc;
use web_sys::KeyboardEvent;
use yew::prelude::*;

/// What lies there.
#[derive(Clone, PartialEq, Properties)]
pub struct OpenedProps {
    /// The pages from front to back.
    pub pages: Rc<Vec<FoundPage>>,
    /// On which side odd pages lie.
    pub reads: Reads,
}

/// A page in words.
fn page_words(page: Option<&FoundPage>) -> String {
    let Some(page) = page else { return "nothing".into() };
    let number = page.page.map_or_else(|| "a blank page".to_owned(), |n| n.to_string());
    match page.head {
        Some(Direction::Down) if page.page.is_some() => format!("{number}, head down"),
        _ => number,
    }
}

/// What an opening shows.
fn says(pages: &[FoundPage], opening: usize) -> String {
    let word = |at: Option<usize>| at.map(|at| page_words(pages.get(at)));
    match sides(opening, pages.len()) {
        (None, right) => format!("In front is {}.", word(right).unwrap_or_default()),
        (left, None) => format!("Behind is {}.", word(left).unwrap_or_default()),
        (left, right) => format!("Open at {} and {}.", word(left).unwrap_or_default(), word(right).unwrap_or_default()),
    }
}

/// The section.
#[component]
pub fn Opened(props: &OpenedProps) -> Html {
    let now = use_state_eq(|| 0usize);
    let pages = &props.pages;
    let count = openings(pages.len());
    let opening = (*now).min(count.saturating_sub(1));
    let go = {
        let now = now.setter();
        move |to: usize| {
            let now = now.clone();
            Callback::from(move |_: MouseEvent| now.set(to))
        }
    };
    let keys = {
        let now = now.setter();
        Callback::from(move |e: KeyboardEvent| {
            let to = match e.key().as_str() {
                "ArrowRight" => opening + 1,
                "ArrowLeft" => opening.saturating_sub(1),
                "Home" => 0,
                "End" => count.saturating_sub(1),
                _ => return,
            };
            e.prevent_default();
            e.stop_propagation();
            now.set(to.min(count.saturating_sub(1)));
        })
    };
    let spread = |opening: usize| {
        let (verso, recto) = sides(opening, pages.len());
        let (left, right) = if props.reads == Reads::LeftToRight { (verso, recto) } else { (recto, verso) };
        let half = |at: Option<usize>, x: &'static str| match at {
            None => html! { <g></g> },
            Some(at) => html! { <g transform={format!("translate({x} 0)")}>{ leaf(pages.get(at), false) }</g> },
        };
        html! { <svg viewBox="0 0 300 214" aria-hidden="true">{ half(left, "1") }{ half(right, "151") }</svg> }
    };
    let small = |k: usize| {
        html! {
            <li key={k}>
                <button type="button" class="opening" aria-current={(k == opening).then_some("true")} onclick={go(k)}>
                    <span class="unseen">{ says(pages, k) }</span>
                    { spread(k) }
                </button>
            </li>
        }
    };
    html! {
        <div class="opened">
            <div class="spread" role="group" tabindex="0" aria-label="The section in hand: arrows turn its leaves" onkeydown={keys}>
                { spread(opening) }
            </div>
            <div class="class-row turn-leaves">
                <button type="button" class="button" disabled={opening == 0} onclick={go(opening.saturating_sub(1))}>{ "Back" }</button>
                <p class="hand-says" aria-live="polite">{ words(&says(pages, opening)) }</p>
                <button type="button" class="button" disabled={opening + 1 >= count} onclick={go(opening + 1)}>{ "On" }</button>
            </div>
            <ol class="openings" aria-label="All openings">{ for (0..count).map(small) }</ol>
            <details class="as-table">
                <summary class="plain">{ "As a table" }</summary>
                <div class="table-box" tabindex="0" role="region" aria-label="The pages as a table">
                    <table>
                        <thead><tr><th scope="col">{ "Place" }</th><th scope="col">{ "Page" }</th></tr></thead>
                        <tbody>{ for pages.iter().enumerate().map(|(at, page)| html! {
                            <tr key={at}><th scope="row">{ at + 1 }</th><td>{ page_words(Some(page)) }</td></tr>
                        }) }</tbody>
                    </table>
                </div>
            </details>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn openings_are_told_without_what_is_due() {
        let page = |n: u32, head| FoundPage { page: Some(n), head: Some(head) };
        let pages = [
            page(3, Direction::Up),
            page(4, Direction::Down),
            FoundPage { page: None, head: None },
            page(2, Direction::Up),
        ];
        let all: Vec<String> = (0..openings(4)).map(|k| says(&pages, k)).collect();
        assert_eq!(all, ["In front is 3.", "Open at 4, head down and a blank page.", "Behind is 2."]);
    }
}
