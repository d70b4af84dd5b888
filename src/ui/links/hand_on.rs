//! The dialog in which something is handed on: its address, what it holds, its QR code, and a line for another page. A link that
//! was broken on its way can be put together here as well.

use super::{HandOn, Linked, Props, address, code};
use crate::app::{Action, scene_of, write_saved};
use crate::link::Link;
use crate::ui::widgets::{Dialog, words};
use gloo_utils::document;
use wasm_bindgen::JsCast;
use web_sys::{HtmlDocument, HtmlElement, HtmlInputElement};
use yew::prelude::*;

/// The dialog.
#[component]
pub(super) fn Hand(props: &Props) -> Html {
    // The code that fills the window.
    let large = use_state(|| None::<AttrValue>);
    let handing = props.handing();
    let close = {
        let links = props.links.clone();
        // What was put there meanwhile stays.
        Callback::from(move |()| {
            if matches!(*links, Linked::HandOn(_)) {
                links.set(Linked::Nothing);
            }
        })
    };
    let small = {
        let large = large.clone();
        Callback::from(move |()| large.set(None))
    };
    let exercise = matches!(handing, Some(HandOn::Exercise(_)));
    html! {
        <>
            <Dialog open={handing.is_some()} title={if exercise { "Hand on an exercise" } else { "Hand on" }} {close}>
                <Inside props={props.clone()} enlarge={large.setter()} />
            </Dialog>
            <Dialog open={large.is_some()} title="Point a phone at it" close={small.clone()}>
                <div class="code-large">
                    { (*large).as_ref().map(code::picture).unwrap_or_default() }
                    <button type="button" class="button" onclick={small.reform(|_: MouseEvent| ())}>{ "Small again" }</button>
                </div>
            </Dialog>
        </>
    }
}

#[derive(Clone, PartialEq, Properties)]
struct InsideProps {
    props: Props,
    enlarge: UseStateSetter<Option<AttrValue>>,
}

/// What is handed on, ready to be.
struct Made {
    /// What it holds.
    says: String,
    /// The address with the link, or why there is none.
    address: Result<AttrValue, String>,
    /// Its QR code, or why there is none.
    code: Result<AttrValue, String>,
}

#[component]
fn Inside(InsideProps { props, enlarge }: &InsideProps) -> Html {
    let handing = props.handing();
    let copied = use_state(|| "");
    let made = use_memo(handing, |what| what.map(|what| made(what, props)));
    let Some(made) = made.as_ref() else { return Html::default() };
    let choice = |what: HandOn, name: &'static str| {
        let (links, copied) = (props.links.setter(), copied.clone());
        let pressed = handing == Some(what);
        let onclick = Callback::from(move |_: MouseEvent| {
            links.set(Linked::HandOn(what));
            copied.set("");
        });
        html! { <button type="button" class="plain part" aria-pressed={pressed.to_string()} {onclick}>{ name }</button> }
    };
    let choices = match handing {
        Some(HandOn::Exercise(_)) => Html::default(),
        _ => html! {
            <div class="parts" role="group" aria-label="What is handed on">
                { choice(HandOn::Bench, "What lies on the bench") }
                { choice(HandOn::Job, "The whole job") }
            </div>
        },
    };
    let save = props.act.reform(|_: MouseEvent| Action::Export);
    let of_job = handing == Some(HandOn::Job);
    let field = |id: &'static str, label: &'static str, text: AttrValue| {
        let copied = copied.clone();
        let onclick = Callback::from(move |e: MouseEvent| copied.set(copy(id, &e)));
        html! {
            <div class="hand-field">
                <label for={id}>{ label }</label>
                <input {id} class="field words" readonly=true value={text} />
                <button type="button" class="button" {onclick}>{ "Copy" }</button>
            </div>
        }
    };
    let link = match &made.address {
        Ok(address) => html! {
            <>
                { field("hand-link", "Link", address.clone()) }
                { field("hand-frame", "For a page of yours", frame(address)) }
            </>
        },
        Err(why) => html! { <p>{ words(why) }</p> },
    };
    let code = match &made.code {
        Ok(svg) => {
            let (enlarge, large) = (enlarge.clone(), svg.clone());
            let onclick = Callback::from(move |_: MouseEvent| enlarge.set(Some(large.clone())));
            html! {
                <div class="hand-code">
                    { code::picture(svg) }
                    <button type="button" class="button" {onclick}>{ "Show it large" }</button>
                </div>
            }
        }
        // Why there is no link was said already.
        Err(why) if made.address.is_ok() => html! { <p class="hand-code">{ words(why) }</p> },
        Err(_) => Html::default(),
    };
    html! {
        <div class="hand-on">
            { choices }
            <p>{ words(&made.says) }</p>
            { link }
            <p class="hand-copied" role="status">{ *copied }</p>
            { code }
            <div class="hand-foot">
                <button type="button" class="button" hidden={!of_job} onclick={save}>{ "Save as a file" }</button>
            </div>
            <p class="quiet">{ "All that it holds is in the link itself. What stands behind the # goes to no server; whoever has the link has it." }</p>
            <Paste props={props.clone()} />
        </div>
    }
}

fn made(what: HandOn, props: &Props) -> Made {
    let state = &props.state;
    let link = match what {
        HandOn::Bench => {
            let (width, height) = state.sheet().leaf();
            Link::Scene(scene_of(&state.sheet().course, width > height, &state.look))
        }
        HandOn::Job => Link::Job(write_saved(&state.job, &state.look)),
        HandOn::Exercise(exercise) => Link::Exercise(exercise),
    };
    let mut says = link.says();
    if what == HandOn::Bench {
        says += " Sizes, paper and the book are not in it; the whole job holds them.";
        if props.on_bench || state.folds_by_hand() || state.placed().misfold.is_some() {
            says += " It shows the sheet folded by its scheme, and not as it is folded here just now.";
        }
    }
    let address = link.write().map(|link| AttrValue::from(address::own() + &link)).map_err(|why| why.to_string());
    let code = address.clone().and_then(|address| code::of(&address));
    Made { says, address, code }
}

/// The line that puts the link into another page.
fn frame(address: &str) -> AttrValue {
    // What stands behind the # has no sign that means something in HTML; what stands before it is somebody's address.
    let address = address.replace('&', "&amp;").replace('"', "&quot;");
    format!(r#"<iframe src="{address}" title="Backmark" width="100%" height="640"></iframe>"#).into()
}

/// Copies what a field holds, and says whether it is.
fn copy(id: &str, e: &MouseEvent) -> &'static str {
    let field = document().get_element_by_id(id).and_then(|f| f.dyn_into::<HtmlInputElement>().ok());
    let Some(field) = field else { return "" };
    let _ = field.focus();
    field.select();
    // It is old, and everywhere: the clipboard of today is denied in frames, and where a page is not served safely.
    let done = document().dyn_into::<HtmlDocument>().is_ok_and(|d| d.exec_command("copy").unwrap_or(false));
    if !done {
        return "This browser does not let it be copied here. It is picked out: copy it by hand.";
    }
    // The focus stays where it was pressed.
    if let Some(button) = e.target().and_then(|t| t.dyn_into::<HtmlElement>().ok()) {
        let _ = button.focus();
    }
    "Copied."
}

#[derive(Clone, PartialEq, Properties)]
struct PasteProps {
    props: Props,
}

/// Opens a link that was sent as text, broken lines and all.
#[component]
fn Paste(PasteProps { props }: &PasteProps) -> Html {
    let text = use_state(String::new);
    let typed = {
        let text = text.clone();
        Callback::from(move |e: InputEvent| {
            if let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) {
                text.set(input.value());
            }
        })
    };
    let go = {
        let (links, text) = (props.links.setter(), text.clone());
        move || links.set(Linked::Arrived((*text).clone().into()))
    };
    let entered = {
        let go = go.clone();
        Callback::from(move |e: KeyboardEvent| {
            if e.key() == "Enter" {
                // The dialog closes at once, and the key would go on to the button that opened it.
                e.prevent_default();
                go();
            }
        })
    };
    html! {
        <div class="hand-field">
            <label for="hand-paste">{ "A link that you were given" }</label>
            <input id="hand-paste" class="field words" autocomplete="off" value={(*text).clone()} oninput={typed} onkeydown={entered} />
            <button type="button" class="button" onclick={Callback::from(move |_: MouseEvent| go())}>{ "Open" }</button>
        </div>
    }
}
