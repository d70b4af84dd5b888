//! A sentence with its trade words as what can be pressed.

use crate::glossary::{Found, find};
use crate::ui::widgets::{figures, show_words_by};
use gloo_utils::document;
use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;
use yew::prelude::*;

/// A piece of a sentence, and the term that it leads to.
type Piece = (AttrValue, Option<&'static str>);

/// Sentences that are remembered with their pieces.
const REMEMBERED: usize = 400;

/// What says by itself when it changes.
const LIVE: &str = "[aria-live], [role=status]";

thread_local! {
    static BEGUN: Cell<bool> = const { Cell::new(false) };
    static PIECES: RefCell<BTreeMap<String, Rc<[Piece]>>> = const { RefCell::new(BTreeMap::new()) };
    /// What was being said when this part came. It is left as it is until it changes: a screen reader would say it again.
    static SAID: RefCell<Vec<String>> = const { RefCell::new(Vec::new()) };
}

/// From now on sentences have their words. Says whether that is new.
pub(super) fn begin() -> bool {
    if BEGUN.replace(true) {
        return false;
    }
    SAID.set(said_now());
    show_words_by(|text| sentence(text, ""));
    true
}

/// A sentence with its trade words, but for one.
pub(super) fn sentence(text: &str, but: &str) -> Html {
    if is_being_said(text) {
        return figures(text);
    }
    let piece = |(text, term): &Piece| match term {
        Some(term) if *term != but => html! {
            <span class="word" role="button" tabindex="0" data-term={*term}>{ figures(text) }</span>
        },
        _ => figures(text),
    };
    html! { <>{ for pieces(text).iter().map(piece) }</> }
}

/// The texts of all that says by itself when it changes.
fn said_now() -> Vec<String> {
    let Ok(all) = document().query_selector_all(LIVE) else { return Vec::new() };
    let texts = (0..all.length()).filter_map(|i| all.get(i)?.text_content());
    texts.filter(|text| !text.is_empty()).collect()
}

/// Whether a sentence was on the page when this part came, and is still there unchanged.
fn is_being_said(text: &str) -> bool {
    SAID.with_borrow_mut(|said| {
        let is_there = |said: &[String]| said.iter().any(|s| s.contains(text));
        if said.is_empty() || text.is_empty() || !is_there(said) {
            return false;
        }
        let now = said_now();
        said.retain(|s| now.contains(s));
        is_there(said)
    })
}

/// The pieces of a sentence, from its beginning to its end.
fn pieces(text: &str) -> Rc<[Piece]> {
    PIECES.with_borrow_mut(|known| {
        if let Some(pieces) = known.get(text) {
            return pieces.clone();
        }
        if known.len() >= REMEMBERED {
            known.clear();
        }
        let pieces: Rc<[Piece]> = parted(text).into();
        known.insert(text.to_owned(), pieces.clone());
        pieces
    })
}

/// The first use of each word leads to its entry; everyday words lead nowhere.
fn parted(text: &str) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let mut used = BTreeSet::new();
    let mut at = 0;
    let mut put = |from: usize, to: usize, term| {
        let piece = text.get(from..to).unwrap_or_default();
        if !piece.is_empty() {
            pieces.push((AttrValue::from(piece.to_owned()), term));
        }
    };
    for Found { from, to, entries } in find(text) {
        let Some(entry) = entries.iter().find(|entry| !entry.quiet) else { continue };
        if used.insert(entry.term) {
            put(at, from, None);
            put(from, to, Some(entry.term));
            at = to;
        }
    }
    put(at, text.len(), None);
    pieces
}

#[cfg(all(test, not(target_arch = "wasm32")))]
mod tests {
    use super::*;

    fn parts(text: &str) -> Vec<(String, Option<&'static str>)> {
        pieces(text).iter().map(|(text, term)| (text.to_string(), *term)).collect()
    }

    #[test]
    fn the_first_use_of_each_word_leads_to_its_entry_and_nothing_is_lost() {
        let text = "Slit the bolts: one step on. Both bolts and the head.";
        let parted = parts(text);
        let terms: Vec<_> = parted.iter().filter_map(|(text, term)| Some((text.as_str(), (*term)?))).collect();
        assert_eq!(terms, [("Slit", "slit"), ("bolts", "bolt")]);
        assert_eq!(parted.iter().map(|p| p.0.as_str()).collect::<String>(), text);
        assert_eq!(parts(text), parted, "remembered alike");
        assert_eq!(parts(""), []);
        assert_eq!(parts("Nothing of the kind: ä, 12."), [("Nothing of the kind: ä, 12.".to_owned(), None)]);
    }

    /// The markup alone, rendered without a browser.
    #[tokio::test]
    async fn a_word_is_a_button_in_the_flow_of_its_sentence() {
        #[component]
        fn Shown() -> Html {
            sentence("Open the bolts of 2 sections, then trim.", "trim")
        }
        let html = yew::LocalServerRenderer::<Shown>::new().hydratable(false).render().await;
        // The order of attributes is nobody's business.
        let word = html.split("bolts").next().unwrap_or_default();
        for part in ["Open the <span ", "class=\"word\"", "role=\"button\"", "tabindex=\"0\"", "data-term=\"bolt\""] {
            assert!(word.contains(part), "{part}: {html}");
        }
        assert!(html.ends_with(">bolts</span> of <span class=\"n\">2</span> sections, then trim."), "{html}");
    }
}
