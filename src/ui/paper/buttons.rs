//! Saving a document as a PDF, and opening it. The same buttons wherever a document is looked for.

use super::pdf::{Stage, Way, use_pdf};
use super::printer;
use crate::app::pages_say;
use crate::json::Json;
use yew::prelude::*;

/// What the buttons need.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The document, as the worker is asked for it; `None` if there is nothing to print yet.
    pub of: Option<Json>,
    /// What it is called on the button: "Set-up sheet as PDF".
    pub save: AttrValue,
    /// What opening it is called.
    #[prop_or(AttrValue::Static("Open it"))]
    pub open: AttrValue,
    /// Whether it is what one comes here for.
    #[prop_or_default]
    pub first: bool,
    /// How many pages it has, if that is known.
    #[prop_or_default]
    pub pages: Option<usize>,
    /// What is minded with it: "Hand exercise: no machine."
    #[prop_or_default]
    pub mind: AttrValue,
    /// Called when it was handed out.
    #[prop_or_default]
    pub made: Callback<()>,
}

/// The buttons, and what came of them.
#[component]
pub fn PaperOut(props: &Props) -> Html {
    let Props { of, save, open, first, pages, mind, made } = props;
    let pdf = use_pdf(made.clone());
    let making = match pdf.stage {
        Stage::Making(way) => Some(way),
        _ => None,
    };
    let off = (of.is_none() || making.is_some()).to_string();
    let press = |way: Way| {
        let (make, of) = (pdf.make.clone(), of.clone());
        Callback::from(move |_: MouseEvent| {
            if let Some(of) = &of {
                make.emit((of.clone(), printer::kept().printer, way));
            }
        })
    };
    let working = match pages {
        Some(1) => "Making 1 page…".to_owned(),
        Some(n) => format!("Making {n} pages…"),
        None => "Making it…".to_owned(),
    };
    let called = |way: Way, name: &AttrValue| if making == Some(way) { working.clone().into() } else { name.clone() };
    let stop = pdf.stop.reform(|_: MouseEvent| ());
    let class = classes!("button", first.then_some("slip"));
    html! {
        <div class="paper-out">
            <div class="paper-buttons">
                <button type="button" class={class} aria-disabled={off.clone()} onclick={press(Way::Save)}>{ called(Way::Save, save) }</button>
                <button type="button" class="button" aria-disabled={off} onclick={press(Way::Open)}>{ called(Way::Open, open) }</button>
                <button type="button" class="button" hidden={making.is_none()} onclick={stop}>{ "Stop" }</button>
            </div>
            <p role="status">{ says(&pdf.stage) }</p>
            <p class="quiet note" hidden={mind.is_empty()}>{ mind.clone() }</p>
        </div>
    }
}

/// What came of it, in a sentence.
fn says(stage: &Stage) -> String {
    match stage {
        Stage::Nothing | Stage::Making(_) => String::new(),
        Stage::Made { pages, opened: true, .. } => {
            format!("Opened: {}. Print it at 100 % (“actual size”).", pages_say(pages))
        }
        Stage::Made { pages, way: Way::Open, .. } => {
            format!("This browser opens no window here, so it was saved: {}.", pages_say(pages))
        }
        Stage::Made { pages, .. } => format!("Saved: {}. Print it at 100 % (“actual size”).", pages_say(pages)),
        Stage::Refused(why) => format!("Not made. {}.", why.trim_end_matches('.')),
        Stage::Stopped => "Stopped. Nothing was saved.".into(),
    }
}
