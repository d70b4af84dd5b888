//! Backmark: one page followed through the whole book.
//!
//! The core (everything but `ui`) takes values and returns values. It knows no browser, no clock and no
//! randomness, and no input makes it panic.
//!
//! | folder | what lives there | may use |
//! | --- | --- | --- |
//! | [`units`] | numbers as text | nothing |
//! | [`json`] | a small JSON value | `units` |
//! | [`paper`] | lengths, sheet sizes and stocks | `units` |
//! | [`fold`] | a flat sheet folded into a section; which page lands where | `units`, `paper` |
//! | [`marks`] | back marks: where they stand, and what a row of them says | `units`, `fold` |
//! | [`gather`] | sections taken in order, the faults in a gathered book, and their explanation | `units`, `fold`, `marks` |
//! | [`finish`] | what a folded section means for the bindery: bolts, creep, thickness, grain, trims | `units`, `paper`, `fold` |
//! | [`setup`] | the folder's set-up sheet, and folding parameters of an open standard | `units`, `paper`, `fold`, `finish` |
//! | [`link`] | a scene, an exercise or a job in an address: written, checked, read; as a QR code | `units`, `json`, `fold` |
//! | [`glossary`] | trade words: what they mean, in four languages, found in sentences, with what to draw | `units`, `fold`, `gather` |
//! | [`ask`] | the one message protocol that scripts, tests and the page's worker share | all above |
//! | [`scene`] | drawing lists in millimetres, and the painters that need no browser | `units`, `paper`, `fold`, `marks`, `gather`, `finish`, `setup`, `link` |
//! | [`app`] | the program without a screen: state, actions, saved form | all above |
//! | `bin` | the core as the worker's program (feature `worker`) | `ask` |
//! | `ui` | the page (feature `ui`): turns gestures into actions, shows scenes | all above |

pub mod app;
pub mod ask;
pub mod finish;
pub mod fold;
pub mod gather;
pub mod glossary;
pub mod json;
pub mod link;
pub mod marks;
pub mod paper;
pub mod scene;
pub mod setup;
#[cfg(feature = "ui")]
pub mod ui;
pub mod units;
