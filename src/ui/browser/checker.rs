//! The core in a worker, asked through the ask protocol. The worker starts with the first question.

use js_sys::Array;
use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;
use web_sys::{MessageEvent, Worker};
use yew::Callback;

/// Who answers.
#[derive(Clone, Default)]
pub struct Checker(Rc<Inner>);

/// What hears the worker; it lives as long as the worker does.
type Heard = Closure<dyn FnMut(MessageEvent)>;

#[derive(Default)]
struct Inner {
    worker: RefCell<Option<(Worker, Heard)>>,
    asked: Cell<u32>,
    /// Who waits for the answer to which question.
    waiting: RefCell<BTreeMap<u32, Callback<String>>>,
}

/// A question whose answer is still wanted. Once this is dropped, nobody hears the answer.
pub struct Question {
    checker: Checker,
    number: u32,
}

impl Drop for Question {
    fn drop(&mut self) {
        self.checker.0.waiting.borrow_mut().remove(&self.number);
    }
}

impl PartialEq for Checker {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl Checker {
    /// Asks; `None` if there is nobody to ask.
    pub fn ask(&self, line: &str, hears: Callback<String>) -> Option<Question> {
        if self.0.worker.borrow().is_none() {
            self.start();
        }
        let number = self.0.asked.get().wrapping_add(1);
        self.0.asked.set(number);
        let message = Array::of2(&number.into(), &line.into());
        self.0.worker.borrow().as_ref().filter(|(worker, _)| worker.post_message(&message).is_ok())?;
        self.0.waiting.borrow_mut().insert(number, hears);
        Some(Question { checker: self.clone(), number })
    }

    /// Ends the worker, whatever it is at. Nobody hears its answers any more; the next question starts another one.
    pub fn stop(&self) {
        self.0.waiting.borrow_mut().clear();
        if let Some((worker, _)) = self.0.worker.borrow_mut().take() {
            worker.terminate();
        }
    }

    fn start(&self) {
        let Ok(worker) = Worker::new("worker.js") else { return };
        let inner = Rc::downgrade(&self.0);
        let heard = Closure::<dyn FnMut(MessageEvent)>::new(move |e: MessageEvent| {
            let (Some(inner), Ok(answer)) = (inner.upgrade(), e.data().dyn_into::<Array>()) else { return };
            let number = answer.get(0).as_f64().unwrap_or_default() as u32;
            let hears = inner.waiting.borrow_mut().remove(&number);
            if let (Some(hears), Some(text)) = (hears, answer.get(1).as_string()) {
                hears.emit(text);
            }
        });
        worker.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        *self.0.worker.borrow_mut() = Some((worker, heard));
    }
}

/// Why nothing can be asked.
pub const NOBODY: &str = "This browser runs no second program beside the page.";
