//! Everything that touches the browser beyond Yew: its store, its canvas, its media queries.

pub mod canvas;
pub mod checker;
pub mod keep;
pub mod media;
