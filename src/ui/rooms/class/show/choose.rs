//! Choosing what to show before a class.

use super::begin::Begin;
use crate::app::State;
use crate::class::show::KEYS;
use crate::fold::{Family, NamedCourse, courses};
use crate::ui::rooms::fold::picker::{dummy, note};
use std::rc::Rc;
use yew::prelude::*;

/// The sheet, the book, a course; and what the keys will do.
pub fn choose(state: &Rc<State>, begin: &Callback<Begin>) -> Html {
    html! { <Choose state={state.clone()} begin={begin.clone()} /> }
}

#[derive(Clone, PartialEq, Properties)]
struct Props {
    state: Rc<State>,
    begin: Callback<Begin>,
}

#[component]
fn Choose(props: &Props) -> Html {
    let family = use_state_eq(|| Family::Whole);
    let dummies = use_memo(*family, |family| {
        let own = courses().into_iter().filter(|n| n.family == *family);
        own.map(|n| (AttrValue::from(dummy(&n).unwrap_or_default()), note(&n), n)).collect::<Vec<_>>()
    });
    let with = |make: fn(&State) -> Begin| {
        let (state, begin) = (props.state.clone(), props.begin.clone());
        Callback::from(move |_: MouseEvent| begin.emit(make(&state)))
    };
    let of_family = |of: Family| {
        let (pressed, family) = ((*family == of).to_string(), family.setter());
        let onclick = Callback::from(move |_: MouseEvent| family.set(of));
        html! { <button type="button" class="button" aria-pressed={pressed} {onclick}>{ of.name() }</button> }
    };
    let course = |(picture, note, named): &(AttrValue, String, NamedCourse)| {
        let (begin, course) = (props.begin.clone(), named.clone());
        let onclick = Callback::from(move |_: MouseEvent| begin.emit(Begin::course(&course)));
        html! {
            <button key={named.name} type="button" class="dummy" {onclick}>
                { Html::from_html_unchecked(picture.clone()) }
                <span>{ named.name }</span>
                <span class="quiet note">{ note.clone() }</span>
            </button>
        }
    };
    let key =
        |(keys, does): (&'static str, &'static str)| html! { <tr><th scope="row">{ keys }</th><td>{ does }</td></tr> };
    let section = format!("Section {} on the bench", props.state.section_on_bench());
    html! {
        <section class="show-choose" aria-label="Before the class">
            <h2>{ "Before the class" }</h2>
            <p class="quiet">{ "It fills the window. Whatever you fold or spoil there leaves your job as it is." }</p>
            <div class="class-row">
                <button type="button" class="button slip show-section" onclick={with(Begin::section)}>{ section }</button>
                <button type="button" class="button show-book" onclick={with(|state| Begin::book(state, 0))}>{ "The gathered book" }</button>
                <button type="button" class="button show-spoiled" onclick={with(|state| Begin::book(state, 1))}>{ "A spoiled book" }</button>
            </div>
            <h3>{ "Or any sheet" }</h3>
            <div class="show-families class-row" role="group" aria-label="Kinds of sheets">{ for Family::ALL.map(of_family) }</div>
            <div class="show-dummies">{ for dummies.iter().map(course) }</div>
            <h3>{ "Keys, and what a presenter’s remote sends" }</h3>
            <table class="show-keys"><tbody>{ for KEYS.into_iter().map(key) }</tbody></table>
        </section>
    }
}
