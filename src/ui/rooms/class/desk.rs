//! The learner's desk behind a hook: what is done there, and keeping it in the browser beside the job.

use crate::class::{self, DeskAct, merged, read_desk, write_desk};
use crate::ui::browser::keep;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

/// The key under which the browser keeps it.
const KEY: &str = "desk";

/// The desk, and how to do something there.
#[derive(Clone, PartialEq)]
pub struct Desk {
    /// What lies on it.
    pub desk: Rc<class::Desk>,
    /// Whether what was kept is there.
    pub ready: bool,
    /// What was said last: a refusal, or that nothing can be kept.
    pub said: AttrValue,
    /// Does something.
    pub act: Callback<DeskAct>,
}

#[derive(Clone, Default, PartialEq)]
struct Kept {
    desk: Rc<class::Desk>,
    ready: bool,
    said: AttrValue,
}

enum Do {
    Act(DeskAct),
    Say(String),
}

impl Reducible for Kept {
    type Action = Do;

    fn reduce(self: Rc<Self>, action: Do) -> Rc<Self> {
        let mut next = (*self).clone();
        match action {
            Do::Act(act) => {
                next.ready |= matches!(act, DeskAct::Restored(_));
                let (desk, refused) = self.desk.after(act);
                next.desk = Rc::new(desk);
                next.said = refused.unwrap_or_default().into();
            }
            Do::Say(says) => next.said = says.into(),
        }
        Rc::new(next)
    }
}

/// The desk as it was kept, and kept after every change.
#[hook]
pub fn use_desk() -> Desk {
    let kept = use_reducer_eq(Kept::default);
    // Whether anything may be written: nothing is, over what can't be read.
    let may = use_memo((), |()| Cell::new(false));
    let keeping = use_memo((), |()| (RefCell::new(None::<Rc<class::Desk>>), Cell::new(false)));
    {
        let (kept, may) = (kept.dispatcher(), may.clone());
        use_effect_with((), move |()| {
            spawn_local(async move {
                let (desk, says) = match keep::noted(KEY).await {
                    Ok(None) => (class::Desk::default(), None),
                    Ok(Some(text)) => match read_desk(&text) {
                        Ok(desk) => (desk, None),
                        Err(why) => {
                            let aside = keep::set_aside(&text).await;
                            let says = format!("The desk that was kept here can’t be read: {why}.");
                            (class::Desk::default(), Some((says, aside.is_ok())))
                        }
                    },
                    Err(why) => {
                        let says = format!(
                            "This browser keeps nothing here ({why}). Hand the logbook out as a file before you leave."
                        );
                        (class::Desk::default(), Some((says, false)))
                    }
                };
                may.set(says.as_ref().is_none_or(|(_, may)| *may));
                kept.dispatch(Do::Act(DeskAct::Restored(Box::new(desk))));
                if let Some((says, _)) = says {
                    kept.dispatch(Do::Say(says));
                }
            });
        });
    }
    {
        let (dispatcher, ready) = (kept.dispatcher(), kept.ready);
        use_effect_with(kept.desk.clone(), move |desk| {
            if ready && may.get() {
                keeping.0.replace(Some(desk.clone()));
                if !keeping.1.replace(true) {
                    spawn_local(async move {
                        loop {
                            let desk = keeping.0.borrow_mut().take();
                            let Some(desk) = desk else { break };
                            if let Err(why) = keep_one(&desk).await {
                                dispatcher.dispatch(Do::Say(format!("Not kept in this browser: {why}.")));
                            }
                        }
                        keeping.1.set(false);
                    });
                }
            }
        });
    }
    let act = {
        let dispatcher = kept.dispatcher();
        use_callback((), move |act: DeskAct, ()| dispatcher.dispatch(Do::Act(act)))
    };
    Desk { desk: kept.desk.clone(), ready: kept.ready, said: kept.said.clone(), act }
}

/// Keeps the desk; if another window has written since, what both handed in.
async fn keep_one(desk: &class::Desk) -> Result<(), String> {
    let Err(why) = keep::note(KEY, &write_desk(desk)).await else { return Ok(()) };
    let Ok(Some(theirs)) = keep::noted(KEY).await else { return Err(why) };
    let theirs = read_desk(&theirs).map_err(|why| why.to_string())?;
    keep::note(KEY, &write_desk(&merged(desk, &theirs))).await
}

/// Today, as it is written in a logbook: year, month, day.
#[must_use]
pub fn today() -> String {
    let date = js_sys::Date::new_0();
    format!("{}-{:02}-{:02}", date.get_full_year(), date.get_month() + 1, date.get_date())
}
