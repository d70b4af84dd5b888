//! The canvas and all that moves with it from frame to frame.
//!
//! [`Hands`] holds the sheet: it knows the live moment, glides to another, paints the bench, moves the bone folder on
//! its rule and lays the thread. It tells the program only when something begins, ends, or passes a whole step.

mod choose;
mod hands;
mod held;
mod keys;
mod mate;
mod motion;
mod on_bench;
mod picture;
mod pointer;
mod rule;
mod setting;
mod sight;
mod take;
mod thread;

pub use hands::{Hands, Setting};
pub use held::{CanvasProps, follow, use_canvas};
pub use keys::on_key;
pub use on_bench::OnBench;
pub use pointer::Pointed;
pub use rule::{Props as RuleProps, RuleShape, use_rule};
pub use setting::setting;
