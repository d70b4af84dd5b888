//! Backmark: one page followed through the whole book.
//!
//! The core (everything but `ui`) takes values and returns values. It knows no browser, no clock and no
//! randomness, and no input makes it panic.
//!
//! | folder | what lives there | may use |
//! | --- | --- | --- |
//! | [`units`] | numbers as text | nothing |
//! | [`words`] | pieces of sentences: lists, capitals, numbers with their thousands apart | nothing |
//! | [`dice`] | numbers from a seed | nothing |
//! | [`csv`] | tables as comma-separated values | nothing |
//! | [`json`] | a small JSON value | `units` |
//! | [`paper`] | lengths, sheet sizes and stocks | `units` |
//! | [`fold`] | a flat sheet folded into a section; which page lands where | `units`, `paper`, `words` |
//! | [`marks`] | back marks: where they stand, and what a row of them says | `units`, `fold`, `words` |
//! | [`gather`] | sections taken in order, the faults in a gathered book, and their explanation | `units`, `fold`, `marks`, `words` |
//! | [`sampling`] | how likely a lot is accepted by a sample, exactly | `marks` |
//! | [`finish`] | what a folded section means for the bindery: bolts, creep, thickness, grain, trims | `units`, `paper`, `fold`, `words` |
//! | [`book`] | what the book is: extent and folios, sections, signatures, formula, block and case | `units`, `paper`, `fold`, `marks`, `finish`, `words` |
//! | [`setup`] | the folder's set-up sheet, and folding parameters of an open standard | `units`, `paper`, `fold`, `finish` |
//! | [`since`] | since when, how many, and where they are now: books by their counter numbers | `units`, `marks`, `words`, `dice` |
//! | [`line`] | a gathering line played from a seed, with planted faults | `units`, `marks`, `gather`, `since`, `dice` |
//! | [`trace`] | what went wrong with a whole book: evidence, the four questions, ranked causes | `units`, `fold`, `marks`, `gather`, `book`, `since`, `words` |
//! | [`report`] | the report to hand in: lines, counts, hold list, a table | `units`, `marks`, `gather`, `since`, `words`, `csv` |
//! | [`link`] | a scene, an exercise or a job in an address: written, checked, read; as a QR code | `units`, `json`, `fold` |
//! | [`glossary`] | trade words: what they mean, in four languages, found in sentences, with what to draw | `units`, `fold`, `gather` |
//! | [`practice`] | exercises from a seed, marking, logbook, lessons | `units`, `paper`, `fold`, `marks`, `gather`, `finish`, `book`, `line`, `link`, `dice`, `csv` |
//! | [`class`] | the Class room without a screen: a learner's desk, and what is kept of it | `practice` |
//! | [`scene`] | drawing lists in millimetres, and the painters that need no browser | `units`, `paper`, `fold`, `marks`, `gather`, `finish`, `setup`, `since`, `report`, `link` |
//! | [`print`] | documents on paper: folding dummies, strips, cards, worksheets with keys, sheets to sign; painted as PDF | `units`, `paper`, `fold`, `marks`, `gather`, `finish`, `setup`, `book`, `report`, `link`, `practice`, `words`, `scene` |
//! | [`ask`] | the one message protocol that scripts, tests and the page's worker share | all above |
//! | [`app`] | the program without a screen: state, actions, saved form | all above |
//! | `bin` | the core as the worker's program (feature `worker`) | `ask` |
//! | `ui` | the page (feature `ui`): turns gestures into actions, shows scenes | all above |
//!
//! [`line`]: mod@line
//! [`print`]: mod@print

pub mod app;
pub mod ask;
pub mod book;
pub mod class;
pub mod csv;
pub mod dice;
pub mod finish;
pub mod fold;
pub mod gather;
pub mod glossary;
pub mod json;
pub mod line;
pub mod link;
pub mod marks;
pub mod paper;
pub mod practice;
pub mod print;
pub mod report;
pub mod sampling;
pub mod scene;
pub mod setup;
pub mod since;
pub mod trace;
#[cfg(feature = "ui")]
pub mod ui;
pub mod units;
pub mod words;
