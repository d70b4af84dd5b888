//! Which books are looked at, and what can be noted.

use super::fields::{choice, plain, whole};
use super::kind::Kind;
use crate::app::{Action, CaseAct, CaseTold, Find};
use crate::since::Judged;
use crate::trace::Case;
use crate::ui::store::Act;
use crate::ui::widgets::figures;
use crate::words::grouped;
use yew::prelude::*;

/// What both need.
pub struct Props<'a> {
    /// The case.
    pub case: &'a Case,
    /// The book that is looked at, from 0.
    pub at: usize,
    /// Whether the kinds are offered.
    pub open: bool,
    /// Opens a kind to be noted.
    pub add: Callback<Option<Kind>>,
    /// Looks at another book.
    pub book: Callback<usize>,
    /// How to say what happened.
    pub act: Act,
}

/// The books, and the counter and judgement of the one that is looked at.
pub fn books(props: &Props<'_>, told: Option<&CaseTold>) -> Html {
    let all = &props.case.books;
    let tab = |(at, book): (usize, &crate::trace::SeenBook)| {
        let name = book.counter.map_or_else(|| format!("Book {}", at + 1), grouped);
        let judged = match (book.judged, told.and_then(|t| t.books.get(at)?.right)) {
            (Some(Judged::Good), _) | (None, Some(true)) => " good",
            (Some(Judged::Bad), _) | (None, Some(false)) => " bad",
            (None, None) => "",
        };
        let onclick = props.book.reform(move |_: MouseEvent| at);
        let on = (at == props.at).to_string();
        html! { <li key={at}><button type="button" class="button book-tab" aria-pressed={on} {onclick}>{ figures(&name) }{ judged }</button></li> }
    };
    let book = all.get(props.at);
    let (at, act) = (props.at, props.act.clone());
    let counter = {
        let act = act.clone();
        Callback::from(move |read: Result<Option<u32>, String>| {
            act.emit(match read {
                Ok(counter) => Action::Case(CaseAct::Note(at, Find::Counter(counter))),
                Err(why) => Action::Say(why),
            });
        })
    };
    let judged = book.and_then(|b| b.judged);
    let judge = act.reform(move |which: usize| {
        let to = if which == 0 { Judged::Good } else { Judged::Bad };
        Action::Case(CaseAct::Note(at, Find::Judged((judged != Some(to)).then_some(to))))
    });
    let drop = act.reform(move |()| Action::Case(CaseAct::DropBook(at)));
    html! {
        <div class="books" hidden={all.is_empty()}>
            <ul class="book-tabs" hidden={all.len() < 2} aria-label="Books that were opened">{ for all.iter().enumerate().map(tab) }</ul>
            <div class="book-line">
                { whole("counter", "Counter", book.and_then(|b| b.counter), counter) }
                { choice("The book is", &[("Good", judged == Some(Judged::Good)), ("Bad", judged == Some(Judged::Bad))], &judge) }
                <span class="push">{ plain("Put aside", Some(format!("Put aside: book {}", at + 1)), &drop) }</span>
            </div>
        </div>
    }
}

/// What can be noted.
pub fn adder(props: &Props<'_>) -> Html {
    let book = props.case.books.get(props.at);
    let kind = |kind: Kind| {
        let there = kind.is_there(props.case, book);
        let onclick = props.add.reform(move |_: MouseEvent| Some(kind));
        html! { <li key={kind.word()}><button type="button" class="button slip" hidden={there} data-kind={kind.word()} {onclick}>{ kind.name() }</button></li> }
    };
    let (of_book, of_run): (Vec<Kind>, Vec<Kind>) = Kind::ALL.into_iter().partition(|k| !k.of_run());
    let (at, count) = (props.at, props.case.books.len());
    let take = props.act.reform(move |()| Action::Case(CaseAct::Gathered(at)));
    let another = {
        let (act, book, add) = (props.act.clone(), props.book.clone(), props.add.clone());
        Callback::from(move |()| {
            act.emit(Action::Case(CaseAct::AddBook));
            book.emit(count);
            add.emit(None);
        })
    };
    html! {
        <div class="adder" hidden={!props.open}>
            <h3>{ "What does the book show?" }</h3>
            <ul class="kinds">{ for of_book.into_iter().map(kind) }</ul>
            <h3>{ "And the run?" }</h3>
            <ul class="kinds">{ for of_run.into_iter().map(kind) }</ul>
            <p class="more-kinds">
                <span hidden={count == 0}>{ plain("Another book", None, &another) }</span>
                { plain("The book gathered here", Some("The book gathered here: take its backs".into()), &take) }
            </p>
        </div>
    }
}
