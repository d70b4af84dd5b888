//! Fault cards: dummies of one sheet, each right or with one fault, and a key. Folded as a right sheet is folded, each shows
//! its fault by its figures.

use super::document::Document;
use super::dummy::{Dummy, Made, dummy};
use super::printer::Printer;
use super::sheets::lines;
use crate::fold::misfold::Cause;
use crate::marks::Refusal;

/// The most cards of a set.
pub const MAX_CARDS: usize = 24;

/// A set of cards, two pages each, and the key as the last page. `None` is a right one.
///
/// # Errors
/// As [`dummy`], and for more cards than [`MAX_CARDS`].
pub fn fault_cards(base: &Dummy, faults: &[Option<Cause>], printer: &Printer) -> Result<Document, Refusal> {
    if faults.is_empty() || faults.len() > MAX_CARDS {
        return Err(Refusal::new("faults", "a set has from 1 to 24 cards"));
    }
    let mut all = Document { title: format!("Fault cards: {}", base.name), lang: "en".into(), pages: Vec::new() };
    let mut key = Vec::new();
    for (i, fault) in faults.iter().enumerate() {
        let name = format!("Card {}", i + 1);
        let card = Dummy {
            name: format!("{name}: fold as the folds below say, and read the pages"),
            fault: fault.clone().map(|cause| (cause, Made::ByFigures)),
            true_size: false,
            ..base.clone()
        };
        let one = dummy(&card, printer).map_err(|e| Refusal::new(format!("faults[{i}]"), e.says))?;
        all.pages.extend(one.pages);
        key.push((name, fault.as_ref().map_or_else(|| "Nothing is wrong.".to_owned(), Cause::title)));
    }
    all.pages.extend(lines("Key to the fault cards", &key, &[], printer.paper).pages);
    Ok(all)
}
