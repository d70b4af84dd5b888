//! All entries, or those that are looked for, and the chosen one beside them.

use super::entry::{self, use_entry};
use super::press;
use crate::glossary::{self, Entry, entries, search};
use gloo_utils::document;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, HtmlInputElement, KeyboardEvent};
use yew::prelude::*;

/// What the list needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// Closes the dialog that it is in.
    pub close: Callback<()>,
}

/// What stands in the list.
#[derive(Clone, Default, PartialEq)]
struct Shown {
    /// What is looked for.
    asked: String,
    /// The chosen entry.
    chosen: Option<&'static str>,
    /// Entries that were left for others, the last one last.
    left: Vec<&'static str>,
    /// Counts how often the entry itself was gone to.
    gone_to: u32,
}

enum Did {
    /// Looked for something.
    Ask(String),
    /// Chose one in the list.
    Choose(&'static str),
    /// Went to an entry from another one, or into it.
    Go(&'static str),
    /// Back to the entry before.
    Back,
}

impl Shown {
    fn found(&self) -> Vec<&'static Entry> {
        if self.asked.trim().is_empty() { entries().iter().collect() } else { search(&self.asked) }
    }

    /// The entry so far below or above the chosen one.
    fn beside(&self, by: isize) -> Option<&'static str> {
        let found = self.found();
        let last = found.len().checked_sub(1)?;
        let at = found.iter().position(|e| Some(e.term) == self.chosen);
        let at = at.map_or(0, |at| at.saturating_add_signed(by).min(last));
        found.get(at).map(|e| e.term)
    }
}

impl Reducible for Shown {
    type Action = Did;

    fn reduce(self: std::rc::Rc<Self>, did: Did) -> std::rc::Rc<Self> {
        let mut shown = (*self).clone();
        match did {
            Did::Ask(asked) => {
                shown.asked = asked;
                if !shown.asked.trim().is_empty() {
                    shown.chosen = shown.found().first().map(|e| e.term);
                }
            }
            Did::Choose(term) => shown.chosen = Some(term),
            Did::Go(term) => {
                if shown.chosen != Some(term) {
                    shown.left.extend(shown.chosen);
                    shown.chosen = Some(term);
                    if !shown.found().iter().any(|e| e.term == term) {
                        shown.asked.clear();
                    }
                }
                shown.gone_to += 1;
            }
            Did::Back => {
                shown.chosen = shown.left.pop().or(shown.chosen);
                shown.asked.clear();
                shown.gone_to += 1;
            }
        }
        shown.into()
    }
}

/// The list of words, inside a dialog.
#[component]
pub fn Words(props: &Props) -> Html {
    let shown = use_reducer(|| {
        let chosen = press::asked();
        Shown { chosen, gone_to: u32::from(chosen.is_some()), ..Shown::default() }
    });
    // Whether a word was pressed to come here.
    let by_word = use_memo((), |()| shown.chosen.is_some());
    let (head, list) = (use_node_ref(), use_node_ref());
    let did = shown.dispatcher();
    {
        let did = did.clone();
        use_effect_with((), move |()| {
            press::tell(Some(Callback::from(move |term| did.dispatch(Did::Go(term)))));
            || press::tell(None)
        });
    }
    {
        let list = list.clone();
        use_effect_with((shown.chosen, shown.asked.clone()), move |(chosen, _)| {
            if let (Some(list), Some(term)) = (list.cast::<HtmlElement>(), chosen) {
                bring_into_view(&list, term);
            }
        });
    }
    {
        let head = head.clone();
        use_effect_with(shown.gone_to, move |times| {
            if let Some(head) = head.cast::<HtmlElement>().filter(|_| *times > 0) {
                let _ = head.focus();
            }
        });
    }
    let typed = {
        let did = did.clone();
        Callback::from(move |e: InputEvent| {
            if let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) {
                did.dispatch(Did::Ask(input.value()));
            }
        })
    };
    let keys = {
        let (did, shown) = (did.clone(), shown.clone());
        Callback::from(move |e: KeyboardEvent| {
            let in_field = e.target().is_some_and(|t| t.has_type::<HtmlInputElement>());
            let by = match e.key().as_str() {
                "ArrowDown" => 1,
                "ArrowUp" => -1,
                "PageDown" => 10,
                "PageUp" => -10,
                "Home" if !in_field => isize::MIN,
                "End" if !in_field => isize::MAX,
                "Enter" => {
                    if let Some(term) = shown.chosen {
                        e.prevent_default();
                        did.dispatch(Did::Go(term));
                    }
                    return;
                }
                _ => return,
            };
            e.prevent_default();
            if let Some(term) = shown.beside(by) {
                did.dispatch(Did::Choose(term));
            }
        })
    };
    let picked = {
        let did = did.clone();
        Callback::from(move |e: MouseEvent| {
            let option = e.target().and_then(|t| t.dyn_into::<Element>().ok());
            let option = option.and_then(|o| o.closest("[role=option]").ok().flatten());
            if let Some(entry) =
                option.and_then(|o| entries().get(o.id().strip_prefix("word-")?.parse::<usize>().ok()?))
            {
                did.dispatch(Did::Choose(entry.term));
            }
        })
    };
    let back = (!shown.left.is_empty()).then(|| Callback::from(move |_: MouseEvent| did.dispatch(Did::Back)));
    let entry = use_entry(entry::Props { entry: shown.chosen.and_then(glossary::entry), head, first: *by_word, back });
    let found = shown.found();
    let count = match found.len() {
        0 => "No word here is called so.".to_owned(),
        1 => "1 word".to_owned(),
        n => format!("{n} words"),
    };
    let active = shown.chosen.filter(|term| found.iter().any(|e| e.term == *term)).and_then(id);
    html! {
        <div class="words-box">
            <div class="words-head">
                <label for="word-search">{ "Look for" }</label>
                <input id="word-search" class="field words" role="combobox" aria-expanded="true" aria-controls="words-list"
                    aria-autocomplete="list" aria-activedescendant={active.clone()} autocomplete="off" autocapitalize="off" spellcheck="false"
                    value={shown.asked.clone()} oninput={typed} onkeydown={keys.clone()} />
                <button type="button" class="button" onclick={props.close.reform(|_: MouseEvent| ())}>{ "Close" }</button>
                <p class="quiet" role="status">{ count }</p>
            </div>
            <ul ref={list} id="words-list" class={classes!("words-list", shown.chosen.is_some().then_some("chosen"))} role="listbox" tabindex="0"
                aria-label="Words" aria-activedescendant={active} onkeydown={keys} onclick={picked}>
                { for found.iter().map(|entry| option(entry, shown.chosen, &shown.asked)) }
            </ul>
            { entry }
        </div>
    }
}

/// The name of an entry's line in the list.
fn id(term: &str) -> Option<String> {
    entries().iter().position(|e| e.term == term).map(|at| format!("word-{at}"))
}

/// A line of the list; where another word was what was looked for, that word as well.
fn option(entry: &'static Entry, chosen: Option<&str>, asked: &str) -> Html {
    let by = glossary::found_by(entry, asked).map_or_else(Html::default, |(lang, word)| {
        html! { <>{ " " }<span class="quiet foreign" {lang}>{ word.text }</span></> }
    });
    let on = chosen == Some(entry.term);
    html! { <li key={entry.term} id={id(entry.term)} role="option" aria-selected={on.to_string()}>{ entry.term }{ by }</li> }
}

/// Scrolls the list, and nothing else, to the line of an entry.
fn bring_into_view(list: &HtmlElement, term: &str) {
    let line = id(term).and_then(|id| document().get_element_by_id(&id));
    let Some(line) = line.and_then(|l| l.dyn_into::<HtmlElement>().ok()) else { return };
    let (top, foot) = (line.offset_top(), line.offset_top() + line.offset_height());
    if top < list.scroll_top() {
        list.set_scroll_top(top);
    } else if foot > list.scroll_top() + list.client_height() {
        list.set_scroll_top(foot - list.client_height());
    }
}
