//! A document that is made by a worker of its own, so that it can be stopped without a word lost of what else is asked.

use crate::app::{PaperTold, paper_name, paper_question, read_paper};
use crate::json::Json;
use crate::print::Printer;
use crate::ui::browser::checker::{Checker, NOBODY, Question};
use crate::ui::browser::keep;
use std::rc::Rc;
use yew::prelude::*;

/// What is done with a document once it is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// It is saved.
    Save,
    /// It is opened in a window of its own, or saved where the browser opens none.
    Open,
}

/// How far a document has come.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Stage {
    /// Nobody asked for it.
    #[default]
    Nothing,
    /// It is being made, to be saved or opened.
    Making(Way),
    /// It was made: how many pages on what, and whether it was opened.
    Made {
        /// Sizes of its pages, mm.
        pages: Vec<(f64, f64)>,
        /// Whether a window of its own shows it.
        opened: bool,
        /// What was asked for.
        way: Way,
    },
    /// It can't be made: why, in a sentence.
    Refused(String),
    /// A person stopped it.
    Stopped,
}

/// A document that can be asked for.
pub struct Pdf {
    /// How far it has come.
    pub stage: Stage,
    /// Makes it, unless one is being made.
    pub make: Callback<(Json, Printer, Way)>,
    /// Stops making it.
    pub stop: Callback<()>,
}

/// Makes documents one at a time. `made` is called with each that was handed out.
#[hook]
pub fn use_pdf(made: Callback<()>) -> Pdf {
    let stage = use_state_eq(Stage::default);
    let worker = use_memo((), |()| Checker::default());
    let asked = use_mut_ref(|| None::<Question>);
    {
        let worker = worker.clone();
        use_effect_with((), move |()| move || worker.stop());
    }
    let make = {
        let (worker, stage, asked) = (worker.clone(), stage.setter(), asked.clone());
        Callback::from(move |(of, printer, way): (Json, Printer, Way)| {
            if asked.borrow().is_some() {
                return;
            }
            let (set, made, done) = (stage.clone(), made.clone(), Rc::downgrade(&asked));
            let hears = Callback::from(move |text: String| {
                if let Some(asked) = done.upgrade() {
                    asked.replace(None);
                }
                set.set(match read_paper(&text) {
                    Ok(told) => {
                        let stage = handed_out(&told, way);
                        made.emit(());
                        stage
                    }
                    Err(why) => Stage::Refused(why),
                });
            });
            let question = worker.ask(&paper_question(&of, &printer), hears);
            stage.set(if question.is_some() { Stage::Making(way) } else { Stage::Refused(NOBODY.into()) });
            asked.replace(question);
        })
    };
    let stop = {
        let (worker, stage) = (worker.clone(), stage.setter());
        Callback::from(move |()| {
            if asked.replace(None).is_some() {
                worker.stop();
                stage.set(Stage::Stopped);
            }
        })
    };
    Pdf { stage: (*stage).clone(), make, stop }
}

fn handed_out(told: &PaperTold, way: Way) -> Stage {
    let opened = keep::hand_out_bytes(&paper_name(&told.title), &told.pdf, way == Way::Open);
    Stage::Made { pages: told.pages.clone(), opened, way }
}
