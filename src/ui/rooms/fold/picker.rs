//! Choosing a scheme by its drawn dummy and its trade name, or beginning one's own.

use crate::app::{Action, State, Task};
use crate::fold::{Course, NamedScheme, library};
use crate::scene::{Bench, Printing, Shown, View, svg};
use crate::ui::later::{Later, Missing, wasm_split};
use crate::ui::store::Act;
use std::rc::Rc;
use yew::prelude::*;

/// What the picker needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// How to say what happened.
    pub act: Act,
    /// Closes the dialog it is in.
    pub close: Callback<()>,
}

/// The way to the picker, which is a later part.
#[wasm_split(dialogs, fallible)]
pub fn way() -> Result<Later<Props>, Missing> {
    Ok(|props| html! { <Picker ..props /> })
}

/// A drawn dummy for each scheme at hand, inside a dialog.
#[component]
fn Picker(props: &Props) -> Html {
    let dummies = use_memo((), |()| {
        library().into_iter().map(|s| (AttrValue::from(dummy(&s).unwrap_or_default()), s)).collect::<Vec<_>>()
    });
    let choose = |picture: &AttrValue, named: &NamedScheme| {
        let pressed = Some(&named.scheme) == props.state.job.course.scheme().as_ref();
        let (act, close, scheme) = (props.act.clone(), props.close.clone(), named.scheme.clone());
        let onclick = Callback::from(move |_: MouseEvent| {
            act.emit(Action::Take(Course::of_scheme(&scheme)));
            close.emit(());
        });
        html! {
            <button type="button" class="dummy" aria-pressed={pressed.to_string()} {onclick}>
                { Html::from_html_unchecked(picture.clone()) }
                <span>{ named.name }</span>
            </button>
        }
    };
    let own = {
        let (act, close) = (props.act.clone(), props.close.clone());
        Callback::from(move |_: MouseEvent| {
            act.emit(Action::MakeOwn { rows: 2, columns: 4 });
            close.emit(());
        })
    };
    let go_on = {
        let (act, close) = (props.act.clone(), props.close.clone());
        Callback::from(move |_: MouseEvent| {
            act.emit(Action::Task(Task::Make));
            close.emit(());
        })
    };
    let back = {
        let (act, close) = (props.act.clone(), props.close.clone());
        Callback::from(move |_: MouseEvent| {
            act.emit(Action::Task(Task::WorkBack));
            close.emit(());
        })
    };
    let two = {
        let (act, close) = (props.act.clone(), props.close.clone());
        Callback::from(move |_: MouseEvent| {
            act.emit(Action::Task(Task::Fold));
            act.emit(Action::Compare(true));
            close.emit(());
        })
    };
    let shut = props.close.reform(|_: MouseEvent| ());
    html! {
        <>
            <div class="dummies">{ for dummies.iter().map(|(picture, named)| choose(picture, named)) }</div>
            <div class="dialog-foot">
                <button type="button" class="button slip" onclick={own}>{ "Make your own" }</button>
                <button type="button" class="button" onclick={go_on}>{ "Change this one" }</button>
                <button type="button" class="button layout-way" onclick={back}>{ "Find the folds of a layout" }</button>
                <button type="button" class="button two-ways" onclick={two}>{ "Two ways side by side" }</button>
                <button type="button" class="button" onclick={shut}>{ "Close" }</button>
            </div>
        </>
    }
}

/// The blank sheet with its first fold on the way, as the engine folds it.
fn dummy(named: &NamedScheme) -> Option<String> {
    let scheme = &named.scheme;
    let blank = Printing::blank(scheme.rows, scheme.columns);
    let printing = Printing { coarse: true, reads: scheme.reads, ..blank };
    let bench = Bench::new(printing, scheme).ok()?;
    let shown = Shown { leaf: 3.2, crease: None };
    let r = bench.extent(0.0, &View::OPENING, &shown);
    let view = View { origin: kurbo::Point::ORIGIN - r.origin().to_vec2(), ..View::OPENING };
    let mut scene = bench.scene(0.32, &view, &shown).scene;
    scene.size = (r.width(), r.height());
    Some(svg::paint(&scene, "dummy-picture", &|_| None))
}
