//! The job as a file: saving, opening, handing on in a link, starting over; and as a ticket on paper.

use crate::app::{Action, State, read_saved};
use crate::ui::browser::keep;
use crate::ui::links::{HandOn, Linked};
use crate::ui::paper::PaperOut;
use crate::ui::store::Act;
use gloo_file::callbacks::{FileReader, read_as_text};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// What the part needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// How to say what happened.
    pub act: Act,
    /// A job that was kept here and can't be read.
    pub unread: Option<AttrValue>,
    /// Hands the job on in a link.
    pub links: UseStateSetter<Linked>,
}

/// Saving the job as a file, opening one, starting over.
#[component]
pub fn JobFile(props: &Props) -> Html {
    let reading = use_mut_ref(|| None::<FileReader>);
    let says = use_state(String::new);
    let asking = use_state(|| false);
    let input = use_node_ref();
    let chosen = {
        let (reading, says, act) = (reading, says.clone(), props.act.clone());
        Callback::from(move |e: Event| {
            let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) else { return };
            let Some(file) = input.files().and_then(|f| f.get(0)) else { return };
            let name = file.name();
            let (says, act) = (says.clone(), act.clone());
            let reader = read_as_text(&gloo_file::File::from(file).into(), move |text| {
                let saved = text.map_err(|e| e.to_string()).and_then(|t| read_saved(&t).map_err(|e| e.to_string()));
                match saved {
                    Ok(saved) => {
                        says.set(String::new());
                        act.emit(Action::Opened { job: Box::new(saved.job), look: saved.look, by_hand: true });
                    }
                    Err(why) => says.set(format!("{name} was not opened: {why}. Your job is as it was.")),
                }
            });
            *reading.borrow_mut() = Some(reader);
            // So that the same file can be chosen again.
            input.set_value("");
        })
    };
    let open = {
        let input = input.clone();
        Callback::from(move |_: MouseEvent| {
            if let Some(input) = input.cast::<HtmlInputElement>() {
                input.click();
            }
        })
    };
    let hand_out = {
        let unread = props.unread.clone().unwrap_or_default();
        Callback::from(move |_: MouseEvent| keep::hand_out("unread.backmark.json", &unread))
    };
    let hand_on = {
        let links = props.links.clone();
        Callback::from(move |_: MouseEvent| links.set(Linked::HandOn(HandOn::Job)))
    };
    let start_over = {
        let (asking, act) = (asking.clone(), props.act.clone());
        Callback::from(move |_: MouseEvent| {
            if *asking {
                act.emit(Action::StartOver);
            }
            asking.set(!*asking);
        })
    };
    html! {
        <section class="job-file" aria-label="The job as a file">
            <p class="quiet">{ "The job is kept in this browser after every change. A file can be carried elsewhere." }</p>
            <div class="job-row">
                <button type="button" class="button slip" onclick={props.act.reform(|_: MouseEvent| Action::Export)}>{ "Save as a file" }</button>
                <button type="button" class="button" onclick={open}>{ "Open a file" }</button>
                <input ref={input} class="unseen" type="file" id="job-file" aria-label="A job file" tabindex="-1"
                    accept=".json,application/json" onchange={chosen} />
                <button type="button" class="button" onclick={hand_on}>{ "Hand on" }</button>
                <button type="button" class="button" onclick={start_over}>
                    { if *asking { "Start over: sure? Undo brings it back" } else { "Start over" } }
                </button>
            </div>
            <p class="job-wrong" role="status">{ (*says).clone() }</p>
            <button type="button" class="button" hidden={props.unread.is_none()} onclick={hand_out}>
                { "Save the job that can't be read as a file" }
            </button>
            <h2>{ "On paper" }</h2>
            <PaperOut of={props.state.job.ticket_paper()} save="Save the job ticket as PDF" open="Open the job ticket" />
        </section>
    }
}
