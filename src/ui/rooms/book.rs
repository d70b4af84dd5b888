//! The book and its marks, and the job as a file.

use crate::app::{Action, State, read_saved};
use crate::marks::{BackMarks, Design};
use crate::ui::browser::keep;
use crate::ui::later::{Later, Missing, wasm_split};
use crate::ui::store::Act;
use crate::units::{parse_decimal, short as number};
use gloo_file::callbacks::{FileReader, read_as_text};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// What the dialog needs.
#[derive(Clone)]
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// How to say what happened.
    pub act: Act,
    /// Closes the dialog.
    pub close: Callback<()>,
    /// A job that was kept here and can't be read.
    pub unread: Option<AttrValue>,
}

/// The way to what the dialog holds, which is a later part.
#[wasm_split(dialogs, fallible)]
pub fn way() -> Result<Later<Props>, Missing> {
    Ok(|Props { state, act, close, unread }| {
        html! {
            <>
                <BookForm {state} act={act.clone()} close={close.clone()} />
                <JobFile {act} {close} {unread} />
            </>
        }
    })
}

/// The text of every field while it is being edited.
#[derive(Clone, Debug, PartialEq)]
struct Draft {
    title: String,
    numbers: [String; 6],
    /// What the form does not show of the marks, which stays as it is.
    marks: BackMarks,
}

/// The numbers of the form: name, label and unit, in the order of [`Draft::numbers`].
const NUMBERS: [(&str, &str, &str); 6] = [
    ("sections", "Sections", ""),
    ("spine", "Spine", "mm"),
    ("first", "First mark from the head", "mm"),
    ("step", "Step", "mm"),
    ("length", "Length of a mark", "mm"),
    ("levels", "Levels before it begins again at the head", ""),
];

impl Draft {
    fn of(state: &State) -> Self {
        let job = &state.job;
        let d = &job.design.stairs;
        let mm = number;
        Self {
            title: job.title.clone(),
            marks: job.design.clone(),
            numbers: [
                job.sections.to_string(),
                mm(d.spine_mm),
                mm(d.first_mm),
                mm(d.step_mm),
                mm(d.length_mm),
                d.levels.to_string(),
            ],
        }
    }

    /// The action that these texts ask for, or which of them is no number.
    fn action(&self) -> Result<Action, String> {
        let number = |i: usize| {
            let (_, label, _) = NUMBERS.get(i).copied().unwrap_or_default();
            let text = self.numbers.get(i).map_or("", |t| t.trim());
            parse_decimal(text).ok_or_else(|| format!("{label}: “{text}” is not a number."))
        };
        let whole = |i: usize| {
            let (_, label, _) = NUMBERS.get(i).copied().unwrap_or_default();
            let n = number(i)?;
            if n.fract() == 0.0 && (0.0..=9999.0).contains(&n) {
                Ok(n as u32)
            } else {
                Err(format!("{label}: a whole number is needed."))
            }
        };
        let stairs = Design {
            spine_mm: number(1)?,
            first_mm: number(2)?,
            step_mm: number(3)?,
            length_mm: number(4)?,
            levels: whole(5)?,
        };
        let design = BackMarks { stairs, ..self.marks.clone() };
        let sections = whole(0)?;
        design.check(sections).map_err(|why| why.says)?;
        Ok(Action::Book { title: self.title.clone(), sections, design: Box::new(design) })
    }
}

#[derive(Clone, PartialEq, Properties)]
struct FormProps {
    state: Rc<State>,
    act: Act,
    close: Callback<()>,
}

#[component]
fn BookForm(props: &FormProps) -> Html {
    let draft = use_state(|| Draft::of(&props.state));
    let title = {
        let draft = draft.clone();
        Callback::from(move |e: InputEvent| draft.set(Draft { title: value(&e), ..(*draft).clone() }))
    };
    let action = draft.action();
    let says = action.as_ref().err().cloned().unwrap_or_default();
    let keep = {
        let (act, close) = (props.act.clone(), props.close.clone());
        Callback::from(move |e: SubmitEvent| {
            e.prevent_default();
            if let Ok(action) = &action {
                act.emit(action.clone());
                close.emit(());
            }
        })
    };
    let fields = NUMBERS.iter().enumerate().map(|(i, (name, label, unit))| {
        let set = {
            let draft = draft.clone();
            Callback::from(move |e: InputEvent| {
                let mut next = (*draft).clone();
                if let Some(n) = next.numbers.get_mut(i) {
                    *n = value(&e);
                }
                draft.set(next);
            })
        };
        let text = draft.numbers.get(i).cloned().unwrap_or_default();
        html! {
            <label for={*name}><span>{ *label }</span>
                <span><input id={*name} class="field" inputmode="decimal" autocomplete="off" value={text} oninput={set}
                    aria-describedby="book-says" />{ " " }{ *unit }</span>
            </label>
        }
    });
    html! {
        <form class="book-form" onsubmit={keep} novalidate=true>
            <label for="book-title"><span>{ "Title" }</span>
                <input id="book-title" class="field words" value={draft.title.clone()} oninput={title} autocomplete="off" />
            </label>
            { for fields }
            <p id="book-says" class="book-says" role="status">{ says.clone() }</p>
            <div class="dialog-foot">
                <button type="submit" class="button slip" aria-disabled={(!says.is_empty()).to_string()}>{ "Keep these" }</button>
                <button type="button" class="button" onclick={props.close.reform(|_: MouseEvent| ())}>{ "Close" }</button>
            </div>
        </form>
    }
}

#[derive(Clone, PartialEq, Properties)]
struct FileProps {
    act: Act,
    close: Callback<()>,
    /// A job that was kept here and can't be read.
    unread: Option<AttrValue>,
}

/// Saving the job as a file, opening one, starting over.
#[component]
fn JobFile(props: &FileProps) -> Html {
    let reading = use_mut_ref(|| None::<FileReader>);
    let says = use_state(String::new);
    let asking = use_state(|| false);
    let input = use_node_ref();
    let chosen = {
        let (reading, says, act, close) = (reading, says.clone(), props.act.clone(), props.close.clone());
        Callback::from(move |e: Event| {
            let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) else { return };
            let Some(file) = input.files().and_then(|f| f.get(0)) else { return };
            let name = file.name();
            let (says, act, close) = (says.clone(), act.clone(), close.clone());
            let reader = read_as_text(&gloo_file::File::from(file).into(), move |text| {
                let saved = text.map_err(|e| e.to_string()).and_then(|t| read_saved(&t).map_err(|e| e.to_string()));
                match saved {
                    Ok(saved) => {
                        act.emit(Action::Opened { job: Box::new(saved.job), look: saved.look, by_hand: true });
                        close.emit(());
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
    let start_over = {
        let (asking, act, close) = (asking.clone(), props.act.clone(), props.close.clone());
        Callback::from(move |_: MouseEvent| {
            if *asking {
                act.emit(Action::StartOver);
                close.emit(());
            }
            asking.set(!*asking);
        })
    };
    html! {
        <section class="job-file" aria-label="The job as a file">
            <p class="quiet">{ "The job is kept in this browser after every change. A file can be carried elsewhere." }</p>
            <div class="dialog-foot">
                <button type="button" class="button" onclick={props.act.reform(|_: MouseEvent| Action::Export)}>{ "Save as a file" }</button>
                <button type="button" class="button" onclick={open}>{ "Open a file" }</button>
                <input ref={input} class="unseen" type="file" id="job-file" aria-label="A job file" tabindex="-1"
                    accept=".json,application/json" onchange={chosen} />
                <button type="button" class="button" onclick={start_over}>
                    { if *asking { "Start over: sure? Undo brings it back" } else { "Start over" } }
                </button>
            </div>
            <p class="book-says" role="status">{ (*says).clone() }</p>
            <button type="button" class="button" hidden={props.unread.is_none()} onclick={hand_out}>
                { "Save the job that can't be read as a file" }
            </button>
        </section>
    }
}

fn value(e: &InputEvent) -> String {
    e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()).map(|i| i.value()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_draft_asks_for_what_it_shows() {
        let state = State::default();
        let draft = Draft::of(&state);
        let Ok(Action::Book { title, sections, design }) = draft.action() else { panic!("{:?}", draft.action()) };
        assert_eq!((title, sections, design), (state.job.title.clone(), 18, Box::new(state.job.design.clone())));
    }

    #[test]
    fn what_does_not_fit_the_spine_says_so() {
        let mut draft = Draft::of(&State::default());
        draft.numbers[0] = "40".into();
        draft.numbers[5] = "40".into();
        assert!(draft.action().unwrap_err().contains("216"), "{:?}", draft.action());
        draft.numbers[1] = "two hundred".into();
        assert_eq!(draft.action().unwrap_err(), "Spine: “two hundred” is not a number.");
    }
}
