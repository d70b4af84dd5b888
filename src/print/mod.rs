//! Documents on paper: what is handed to a printer and folded, gathered, signed or cut by hand.
//!
//! A [`Document`] is a list of pages in millimetres. A page holds [`Drawn`] things: scenes, the same that the screen shows
//! ([`crate::scene`]), and what only paper needs, such as lines of an exact width and words of a known one. [`pdf`] paints
//! it, and [`page_svg`] shows a page on the screen. Nothing here is a print of the page of the program.
//!
//! Page axes: `x` to the right, `y` downwards, from the upper left corner, as in scenes.
//!
//! Every page stands upright as the printer takes it in; what lies across is turned on the page. So a printer that turns the
//! paper about its long edge does the same to every document, and what the test page has found holds for all of them.

mod cards;
mod document;
mod dummy;
mod flow;
mod fold_lines;
mod helvetica;
mod logbook_page;
mod mark_sheet;
mod painter;
mod pdf;
mod printer;
mod sheets;
mod strips;
mod svg;
mod test_page;
mod type_cut;
mod words;
mod worksheet;

pub use cards::{MAX_CARDS, fault_cards};
pub use document::{Align, Document, Drawn, MAX_PAGES, MAX_SIDE_MM, Page, Stroke, Text, Weight};
pub use dummy::{Dummy, MAX_DUMMY_PANELS, MAX_TRUE_MM, Made, dummy, printing_of};
pub use fold_lines::{FoldLine, fold_lines};
pub use logbook_page::logbook_page;
pub use mark_sheet::{MarkSheet, mark_sheet};
pub use pdf::pdf;
pub use printer::{Flip, MOST_OFF_MM, Off, Paper, Printer, through};
pub use sheets::{lines, scene_in_words, scenes};
pub use strips::strips;
pub use svg::page_svg;
pub use test_page::test_page;
pub use words::{lines_of, width_of};
pub use worksheet::{PrintedWorksheet, WorksheetLook, worksheet, worksheet_key};
