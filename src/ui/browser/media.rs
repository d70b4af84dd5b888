//! Media queries, and the size of an element.

use gloo_events::EventListener;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, ResizeObserver};

fn query(text: &str) -> Option<web_sys::MediaQueryList> {
    web_sys::window()?.match_media(text).ok().flatten()
}

/// Whether a media query holds now.
#[must_use]
pub fn holds(text: &str) -> bool {
    query(text).is_some_and(|q| q.matches())
}

/// Whether the person asked for less motion.
#[must_use]
pub fn reduced_motion() -> bool {
    holds("(prefers-reduced-motion: reduce)")
}

/// Calls back whenever a media query changes. Dropping the listener ends it.
#[must_use]
pub fn listen(text: &str, changed: impl Fn(bool) + 'static) -> Option<EventListener> {
    let list = query(text)?;
    let asked = list.clone();
    Some(EventListener::new(&list, "change", move |_| changed(asked.matches())))
}

/// Watches the size of an element until it is dropped.
#[derive(Debug)]
pub struct SizeWatch {
    observer: ResizeObserver,
    _changed: Closure<dyn FnMut()>,
}

impl SizeWatch {
    /// Calls back once at the beginning, and before the paint after every change of the size.
    #[must_use]
    pub fn of(element: &Element, changed: impl FnMut() + 'static) -> Option<Self> {
        let changed = Closure::<dyn FnMut()>::new(changed);
        let observer = ResizeObserver::new(changed.as_ref().unchecked_ref()).ok()?;
        observer.observe(element);
        Some(Self { observer, _changed: changed })
    }
}

impl Drop for SizeWatch {
    fn drop(&mut self) {
        self.observer.disconnect();
    }
}
