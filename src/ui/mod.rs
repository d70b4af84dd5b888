//! The page: turns gestures into actions and shows scenes. No trade knowledge lives here.
//!
//! Yew renders what changes by whole steps (words, tables, flat sides, dialogs). What moves from frame to frame (the
//! bench, the thread, the bone folder on its rule) is the `bench::Hands`' business, which paints a canvas and sets a
//! few attributes inside an animation frame, without the framework.
//!
//! - `app`: the root; performs effects, listens to keys
//! - `store`: the state behind one reducer
//! - `asked`: questions to the worker, and the newest answer
//! - `later`: parts that are fetched when they are needed; `restoring` is one of them
//! - `links`: what came in a link, and what is handed on in one; a later part. Rooms get the setter of a `Linked` as a prop:
//!   `links.set(Linked::HandOn(HandOn::Job))`, or `links.set(link_of_exercise(kind, level, seed))`, opens the dialog. An exercise
//!   that came in a link is there as `Linked::Set` until the room Class has set it
//! - `rooms`: a room each
//! - `words`: trade words pressed in sentences, and the list of them
//! - `paper`: documents made by the worker and handed out as PDF
//! - `widgets`: pieces that rooms share
//! - `bench`: the canvas and all that moves with it
//! - `browser`: the browser's store, canvas, files, media queries

mod app;
mod asked;
mod bench;
mod browser;
mod later;
mod links;
mod paper;
mod requested;
mod restoring;
mod rooms;
mod shared;
mod store;
mod widgets;
mod words;

pub use app::App;
pub use store::Store;

/// Starts the page, or nothing at all in a worker.
#[cfg(target_arch = "wasm32")]
pub fn run() {
    if web_sys::window().is_none() {
        return;
    }
    // Yew puts a hook of its own in place of any other that was not given through it.
    yew::set_custom_panic_hook(Box::new(|info| {
        web_sys::console::error_1(&info.to_string().into());
        browser::keep::panic();
    }));
    if let Some(root) = gloo_utils::document().get_element_by_id("app") {
        root.set_inner_html("");
        yew::Renderer::<App>::with_root(root).render();
    }
}
