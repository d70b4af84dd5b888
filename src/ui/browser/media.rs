//! Media queries.

use gloo_events::EventListener;

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
