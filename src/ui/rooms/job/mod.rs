//! The room Job: what is this book? Its pages, what its sections are made of, its back marks, its block and case, and the
//! job as a file.
//!
//! - `row`: the book drawn as a row of sections under its pages
//! - `pages`, `added`: runs of pages with their folios; plates, wraps, endpapers
//! - `make_up`, `plans`, `otherwise`: what the sections are made of, and the ways of making the book up
//! - `signed`: signatures
//! - `marks`, `spine`, `blind`: the back marks, drawn at true size, and what they can't show
//! - `case`, `case_drawn`: block and case
//! - `file`: saving, opening, starting over
//! - `fields`: what is typed and chosen

mod added;
mod blind;
mod case;
mod case_drawn;
pub(in crate::ui::rooms) mod fields;
mod file;
mod make_up;
mod marks;
mod otherwise;
mod pages;
mod plans;
pub(in crate::ui::rooms) mod row;
mod signed;
pub(in crate::ui::rooms) mod spine;

use crate::app::{Action, BookAct, State};
use crate::ui::browser::checker::Checker;
use crate::ui::later::{Later, Missing, wasm_split};
use crate::ui::links::Linked;
use crate::ui::store::Act;
use crate::ui::widgets::words;
use fields::Text;
use std::rc::Rc;
use yew::prelude::*;

/// What the room and each of its parts need.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// How to say what happened.
    pub act: Act,
    /// Who plans, and who finds blind spots.
    pub checker: Checker,
    /// A job that was kept here and can't be read.
    pub unread: Option<AttrValue>,
    /// Hands something on in a link.
    pub links: UseStateSetter<Linked>,
    /// Whether the window is narrow.
    pub narrow: bool,
}

/// The way to the room Job, which is a later part.
#[wasm_split(job, fallible)]
pub fn way() -> Result<Later<Props>, Missing> {
    Ok(|props| html! { <JobRoom ..props /> })
}

/// What of the job is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    Pages,
    Sections,
    Marks,
    Case,
    File,
}

const PARTS: [(Part, &str); 5] = [
    (Part::Pages, "Pages"),
    (Part::Sections, "Sections"),
    (Part::Marks, "Back marks"),
    (Part::Case, "Block and case"),
    (Part::File, "File"),
];

/// The room.
#[component]
fn JobRoom(props: &Props) -> Html {
    let Props { state, act, .. } = props;
    // A job that can't be read is why one comes here.
    let part = use_state_eq(|| if props.unread.is_some() { Part::File } else { Part::Pages });
    let pick = |(of, name): (Part, &'static str)| {
        let part_set = part.clone();
        let onclick = Callback::from(move |_: MouseEvent| part_set.set(of));
        html! {
            <button type="button" class="plain part" aria-pressed={(*part == of).to_string()} {onclick}>{ name }</button>
        }
    };
    let title = act.reform(|title: String| Action::Book(BookAct::Title(title)));
    let book = state.job.book();
    let wrong = book.check().err().map(|why| why.says).unwrap_or_default();
    let view = match *part {
        Part::Pages => html! { <pages::Pages ..props.clone() /> },
        Part::Sections => {
            html! { <make_up::MakeUp ..props.clone() /> }
        }
        Part::Marks => {
            html! { <marks::Marks ..props.clone() /> }
        }
        Part::Case => html! { <case::Case ..props.clone() /> },
        Part::File => html! {
            <file::JobFile state={state.clone()} act={act.clone()} unread={props.unread.clone()} links={props.links.clone()} />
        },
    };
    html! {
        <main class="room-job">
            <h1 class="unseen" hidden={!props.narrow}>{ "Job" }</h1>
            <header class="job-head">
                <Text id="book-title" label="Title" now={state.job.title.clone()} set={title} />
                <div class="parts" role="group" aria-label="Parts of the job">{ for PARTS.into_iter().map(pick) }</div>
            </header>
            <p class="job-says">{ words(&row::sentence(state)) }</p>
            <p class="job-wrong" role="status" hidden={wrong.is_empty()}>{ words(&wrong) }</p>
            <div class="job-part">{ view }</div>
        </main>
    }
}
