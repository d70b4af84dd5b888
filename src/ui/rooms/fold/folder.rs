//! The folder's set-up sheet: drawn, in words, on paper; and the folds in the form of an open standard.

use crate::app::{Action, State, set_up_paper};
use crate::fold::{Course, Direction, Side};
use crate::scene::setup_sheet;
use crate::scene::svg::paint;
use crate::setup::{Inputs, read_xjdf, set_up, write_xjdf};
use crate::ui::browser::keep;
use crate::ui::paper::PaperOut;
use crate::ui::store::Act;
use gloo_file::callbacks::{FileReader, read_as_text};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// What the pane needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// How to say what happened.
    pub act: Act,
}

/// The pane.
#[component]
pub fn FolderPane(props: &Props) -> Html {
    let (job, of) = (&props.state.job, props.state.sheet());
    let side_up = use_state_eq(|| Side::A);
    let input = use_node_ref();
    let reading = use_mut_ref(|| None::<FileReader>);
    let made = use_memo((of.course.clone(), of.measure.clone(), job.paper.press, *side_up), |deps| {
        let (course, measure, press, side_up) = deps;
        set_up(&Inputs { course, measure, press: *press, side_up: *side_up, sheets: None })
    });
    let (picture, lines) = match &*made {
        Ok(made) => (AttrValue::from(paint(&setup_sheet(made), "setup-picture", &|_| None)), made.lines()),
        Err(why) => (AttrValue::default(), vec![format!("The sheet can’t be worked so: {why}.")]),
    };
    let write = {
        let (act, of) = (props.act.clone(), of.clone());
        Callback::from(move |_: MouseEvent| match write_xjdf(&of.course, &of.measure) {
            Ok(written) => keep::hand_out("folds.xml", &written.text),
            Err(why) => act.emit(Action::Say(format!("Not written: {why}."))),
        })
    };
    let choose = {
        let input = input.clone();
        Callback::from(move |_: MouseEvent| {
            if let Some(input) = input.cast::<HtmlInputElement>() {
                input.click();
            }
        })
    };
    let read = {
        let (act, of) = (props.act.clone(), of.clone());
        Callback::from(move |e: Event| {
            let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) else { return };
            let Some(file) = input.files().and_then(|f| f.get(0)) else { return };
            let (act, of) = (act.clone(), of.clone());
            let reader = read_as_text(&gloo_file::File::from(file).into(), move |text| {
                let Ok(text) = text else {
                    act.emit(Action::Say("The file could not be read.".into()));
                    return;
                };
                match read_xjdf(&text, of.measure.width(), of.measure.height()) {
                    Ok(found) => {
                        let upright =
                            found.creased.folds.last().is_none_or(|f| f.crease == crate::fold::Crease::Vertical);
                        let head = if upright { Direction::Up } else { Direction::Right };
                        let scheme = found.creased.scheme(head, of.course.reads);
                        act.emit(Action::Take(Course::of_scheme(&scheme)));
                        act.emit(Action::Measure(found.creased.measure));
                        if !found.notes.is_empty() {
                            act.emit(Action::Say(found.notes.join(" ")));
                        }
                    }
                    Err(why) => act.emit(Action::Say(format!("Not opened: {why}."))),
                }
            });
            *reading.borrow_mut() = Some(reader);
            // So that the same file can be chosen again.
            input.set_value("");
        })
    };
    let turn = {
        let side_up = side_up.clone();
        Callback::from(move |_: MouseEvent| side_up.set(side_up.other()))
    };
    let named = of.trade_name().map_or_else(|| job.title.clone(), str::to_owned);
    let paper = made.is_ok().then(|| set_up_paper(of, &named, job.paper.press, *side_up));
    html! {
        <div class="folder">
            <div class="folder-tools">
                <button type="button" class="button" aria-pressed={(*side_up == Side::B).to_string()} onclick={turn}>{ "Side B up" }</button>
                <button type="button" class="button" onclick={write}>{ "Save folds as XJDF" }</button>
                <button type="button" class="button" onclick={choose}>{ "Open XJDF" }</button>
                <input ref={input} class="unseen" type="file" id="xjdf-file" aria-label="A file of folds in XJDF" tabindex="-1"
                    accept=".xml,.xjdf,application/xml" onchange={read} />
            </div>
            <PaperOut of={paper} save="Save as PDF" open="Open as PDF" first={true} />
            <div class="setup-sheet">
                <div class="setup-drawing" role="img" aria-label="The set-up sheet, drawn. The list below says the same.">
                    { Html::from_html_unchecked(picture) }
                </div>
                <ol class="setup-lines">{ for lines.iter().map(|line| html! { <li>{ line }</li> }) }</ol>
            </div>
        </div>
    }
}
