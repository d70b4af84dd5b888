//! Who hands it in, the logbook as a table, and the desk as a file and back again.

use crate::class::{Desk, DeskAct, MAX_NAME, read_desk, write_desk};
use crate::ui::browser::keep;
use gloo_file::callbacks::{FileReader, read_as_text};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// What the part needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The desk.
    pub desk: Rc<Desk>,
    /// Does something there.
    pub act: Callback<DeskAct>,
}

#[component]
pub fn LogbookFile(props: &Props) -> Html {
    let reading = use_mut_ref(|| None::<FileReader>);
    let says = use_state(String::new);
    let input = use_node_ref();
    let named = props.act.reform(|e: InputEvent| {
        let name = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()).map(|input| input.value());
        DeskAct::Name(name.unwrap_or_default())
    });
    let table = {
        let desk = props.desk.clone();
        Callback::from(move |_: MouseEvent| keep::hand_out("logbook.csv", &desk.logbook.csv()))
    };
    let save = {
        let desk = props.desk.clone();
        Callback::from(move |_: MouseEvent| keep::hand_out("logbook.desk.json", &write_desk(&desk)))
    };
    let chosen = {
        let (says, act, desk) = (says.clone(), props.act.clone(), props.desk.clone());
        Callback::from(move |e: Event| {
            let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) else { return };
            let Some(file) = input.files().and_then(|f| f.get(0)) else { return };
            let (says, act, before) = (says.clone(), act.clone(), desk.logbook.entries().len());
            let name = file.name();
            let reader = read_as_text(&gloo_file::File::from(file).into(), move |text| {
                let read = text.map_err(|e| e.to_string()).and_then(|t| read_desk(&t).map_err(|e| e.to_string()));
                match read {
                    Ok(theirs) => {
                        says.set(taken_in(before, &theirs, &name));
                        act.emit(DeskAct::TakenIn(Box::new(theirs)));
                    }
                    Err(why) => says.set(format!("{name} was not taken in: {why}. Your logbook is as it was.")),
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
    html! {
        <section class="logbook-file" aria-label="The logbook on paper and as a file">
            <label for="learner">{ "Your name, for what you hand in" }
                <input id="learner" class="field words" autocomplete="name" maxlength={MAX_NAME.to_string()}
                    value={props.desk.name.clone()} oninput={named} />
            </label>
            <div class="class-row">
                <button type="button" class="button" hidden={props.desk.logbook.entries().is_empty()} onclick={table}>{ "Save as a table" }</button>
                <button type="button" class="button" onclick={save}>{ "Save the logbook as a file" }</button>
                <button type="button" class="button" onclick={open}>{ "Take in a logbook file" }</button>
                <input ref={input} class="unseen" type="file" id="logbook-file" aria-label="A logbook file" tabindex="-1"
                    accept=".json,application/json" onchange={chosen} />
            </div>
            <p class="quiet">{ "The logbook is kept in this browser. A file that is taken in is added to it, each entry once; nothing is lost." }</p>
            <p class="logbook-said" role="status">{ (*says).clone() }</p>
        </section>
    }
}

fn taken_in(before: usize, theirs: &Desk, name: &str) -> String {
    let entries = |count: usize| if count == 1 { "1 entry".to_owned() } else { format!("{count} entries") };
    format!(
        "{name} holds {}; here were {}. What both have is there once.",
        entries(theirs.logbook.entries().len()),
        entries(before)
    )
}
