//! The core in a worker, asked through the ask protocol. The worker starts with the first question.

use js_sys::Array;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;
use web_sys::{MessageEvent, Worker};
use yew::Callback;

/// Who answers. Only the newest question matters: answers to older ones are dropped.
#[derive(Clone, Default)]
pub struct Checker(Rc<Inner>);

/// What hears the worker; it lives as long as the worker does.
type Heard = Closure<dyn FnMut(MessageEvent)>;

#[derive(Default)]
struct Inner {
    worker: RefCell<Option<(Worker, Heard)>>,
    newest: Cell<u32>,
    hears: RefCell<Callback<String>>,
}

impl PartialEq for Checker {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl Checker {
    /// Sets who hears the answers.
    pub fn tell(&self, hears: Callback<String>) {
        *self.0.hears.borrow_mut() = hears;
    }

    /// Asks. Says whether there is anyone to ask.
    pub fn ask(&self, line: &str) -> bool {
        self.forget();
        if self.0.worker.borrow().is_none() {
            self.start();
        }
        let question = Array::of2(&self.0.newest.get().into(), &line.into());
        self.0.worker.borrow().as_ref().is_some_and(|(worker, _)| worker.post_message(&question).is_ok())
    }

    /// Drops the answer that is still to come.
    pub fn forget(&self) {
        self.0.newest.set(self.0.newest.get().wrapping_add(1));
    }

    fn start(&self) {
        let Ok(worker) = Worker::new("worker.js") else { return };
        let inner = Rc::downgrade(&self.0);
        let heard = Closure::<dyn FnMut(MessageEvent)>::new(move |e: MessageEvent| {
            let (Some(inner), Ok(answer)) = (inner.upgrade(), e.data().dyn_into::<Array>()) else { return };
            if answer.get(0).as_f64() == Some(f64::from(inner.newest.get()))
                && let Some(text) = answer.get(1).as_string()
            {
                let hears = inner.hears.borrow().clone();
                hears.emit(text);
            }
        });
        worker.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        *self.0.worker.borrow_mut() = Some((worker, heard));
    }
}
