//! One entry: what the word means, what it is called elsewhere, where that is from, and what belongs to it.

use super::drawn;
use super::linked::sentence;
use crate::glossary::{Entry, Word, entries};
use crate::ui::later::use_later;
use yew::prelude::*;

/// What an entry needs.
pub(super) struct Props {
    /// The entry, if one is chosen.
    pub entry: Option<&'static Entry>,
    /// Its heading, for the focus.
    pub head: NodeRef,
    /// Whether the dialog opens with it, and gives the focus to its heading.
    pub first: bool,
    /// Back to the entry before, if there is one.
    pub back: Option<Callback<MouseEvent>>,
}

/// The chosen entry.
#[hook]
pub(super) fn use_entry(props: Props) -> Html {
    let picture = props.entry.and_then(|entry| entry.picture.as_ref());
    let picture = match (use_later(picture.is_some(), drawn::way), picture) {
        (_, None) => Html::default(),
        (Ok(draw), Some(picture)) => draw(picture),
        (Err(meanwhile), Some(_)) => meanwhile,
    };
    let Some(entry) = props.entry else {
        return html! {
            <div class="entry">
                <p class="quiet">{ "Choose a word, or look for one in English, German, French or Japanese." }</p>
            </div>
        };
    };
    let back = props.back.map_or_else(
        || html! { <span></span> },
        |back| html! { <button type="button" class="plain" onclick={back}>{ "Back" }</button> },
    );
    html! {
        <div class="entry">
            <div class="entry-head"><h3 ref={props.head} tabindex="-1" autofocus={props.first}>{ entry.term }</h3>{ back }</div>
            <p class="entry-says">{ sentence(entry.says, entry.term) }</p>
            { picture }
            <dl>
                { words("Also called", "en", &entry.also) }
                { words("German", "de", &entry.german) }
                { words("French", "fr", &entry.french) }
                { words("Japanese", "ja", &entry.japanese) }
                <div class="meaning-from"><dt>{ "The meaning is from" }</dt><dd>{ entry.source }</dd></div>
                { related(entry) }
            </dl>
        </div>
    }
}

/// The words of one language; neighbours that have the same source name it once.
fn words(name: &'static str, lang: &'static str, words: &[Word]) -> Html {
    let of_source = |words: &[Word]| {
        let word = |(at, word): (usize, &Word)| {
            let note = word.note.map_or_else(Html::default, |note| match lang {
                "ja" => html! { <>{ " (" }<span lang="ja-Latn">{ note }</span>{ ")" }</> },
                _ => html! { <>{ " (" }{ note }{ ")" }</> },
            });
            html! { <>{ if at > 0 { ", " } else { "" } }<span class="foreign" {lang}>{ word.text }</span>{ note }</> }
        };
        let source = words.first().map_or("", |word| word.source);
        html! { <dd>{ for words.iter().enumerate().map(word) }{ " " }<span class="quiet">{ source }</span></dd> }
    };
    let sources = words.chunk_by(|a, b| a.source == b.source).map(of_source);
    html! { <div hidden={words.is_empty()}><dt>{ name }</dt>{ for sources }</div> }
}

/// Other meanings of the same word, and words that belong to it.
fn related(entry: &'static Entry) -> Html {
    let others = entries().iter().filter(|e| e.word() == entry.word() && e.term != entry.term).map(|e| e.term);
    let mut all: Vec<&'static str> = others.chain(entry.see.iter().copied()).collect();
    all.dedup();
    let go = |term: &'static str| {
        html! { <li key={term}><button type="button" class="plain" data-term={term}>{ term }</button></li> }
    };
    html! { <div hidden={all.is_empty()}><dt>{ "See also" }</dt><dd><ul class="related">{ for all.into_iter().map(go) }</ul></dd></div> }
}
