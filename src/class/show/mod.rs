//! The bench before a class, without a screen: what the class sees, what the keys do, how large the flat sides are.
//!
//! ```text
//! a key ── key ── ShowAct ─┐
//!                          ├─ Showing ─┬─ picture   what the keys have made
//! Facts (the engine’s) ────┘           └─ seen()    what the class sees: the same, or a picture that is held
//! window, sheet, figures ── flats_lay ── FlatsLay
//! ```
//!
//! - *blank* takes the whole picture away: the class looks at the teacher. The next key brings it back.
//! - *hold* lets the class see what it sees while the keys make the next picture unseen: another section, an earlier fold,
//!   other figures covered. Let go, that picture is there at once, without the way that led to it.

mod keys;
mod lay;
mod showing;

pub use keys::{KEYS, ShowKey, show_key};
pub use lay::{Arrangement, FlatsLay, flats_lay};
pub use showing::{Facts, On, Picture, ShowAct, Showing, Sides, Way};
