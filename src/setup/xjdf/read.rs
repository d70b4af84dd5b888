//! Folding parameters as folds.

use super::xml::{Element, elements};
use crate::fold::{CreaseError, Creased, Lands, Part, RealFold};
use crate::paper::Length;
use thiserror::Error;

/// What was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadFolds {
    /// The grid, the folds and the sizes of the panels.
    pub creased: Creased,
    /// What was in it and is not used, or does not agree, in sentences.
    pub notes: Vec<String>,
}

/// Why folding parameters can't be read.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum NotRead {
    /// It is no well-formed XML, or more than is read here.
    #[error("This is no XML that can be read: {0}.")]
    Xml(&'static str),
    /// There is no list of folds, or there are several.
    #[error("There must be one FoldingParams in it; there are {0}.")]
    Lists(usize),
    /// A slit.
    #[error("It has a Cut. One list of folds can't say how each of the two parts goes on.")]
    Cut,
    /// A fold that can't be understood. Folds are counted from 1.
    #[error("Fold {fold}: {why}.")]
    Fold {
        /// The fold.
        fold: usize,
        /// Why not.
        why: &'static str,
    },
    /// The folds can't be made in a sheet of this size.
    #[error("On this sheet {0}.")]
    Crease(#[from] CreaseError),
}

/// More folds than any sheet takes.
const MAX_FOLDS: usize = 64;

/// Reads the folds of a sheet of this size.
///
/// # Errors
/// In words, when it is something else, or can't be folded so.
pub fn read_xjdf(text: &str, width: Length, height: Length) -> Result<ReadFolds, NotRead> {
    let all = elements(text).map_err(NotRead::Xml)?;
    let lists: Vec<usize> = all.iter().enumerate().filter(|(_, e)| e.name == "FoldingParams").map(|(i, _)| i).collect();
    let [at] = lists[..] else { return Err(NotRead::Lists(lists.len())) };
    let Some(list) = all.get(at) else { return Err(NotRead::Lists(0)) };
    let within = || all.iter().skip(at + 1).take_while(|e| e.depth > list.depth).filter(|e| e.depth == list.depth + 1);
    if within().any(|e| e.name == "Cut") {
        return Err(NotRead::Cut);
    }
    let mut notes = Vec::new();
    for (name, what) in [("Perforate", "perforations"), ("Crease", "scored lines")] {
        if within().any(|e| e.name == name) {
            notes.push(format!("It has {what}. They move no page and were left out."));
        }
    }
    if list.get("SheetLay").is_some() {
        notes.push("It says how the sheet is laid on. That was left out.".into());
    }
    let mut folds: Vec<RealFold> = Vec::new();
    let mut creased = Creased::of(width, height, &folds)?;
    for (i, element) in within().filter(|e| e.name == "Fold").enumerate() {
        let refused = |why| NotRead::Fold { fold: i + 1, why };
        if i >= MAX_FOLDS {
            return Err(refused("there are more folds than a sheet takes"));
        }
        folds.push(fold(element, creased.packet.1).map_err(refused)?);
        creased = Creased::of(width, height, &folds)?;
    }
    if let Some(pages) = list.get("FoldCatalog").and_then(catalog_pages) {
        let found = 2 * creased.measure.columns.len() as u64 * creased.measure.rows.len() as u64;
        if u64::from(pages) != found {
            notes.push(format!("Its catalogue number says {pages} pages; these folds make {found}."));
        }
    }
    Ok(ReadFolds { creased, notes })
}

/// A fold of a packet that is so high.
fn fold(element: &Element, height: Length) -> Result<RealFold, &'static str> {
    let moves = match element.get("From") {
        Some("Left") => Part::Left,
        Some("Front") => Part::Bottom,
        _ => return Err("From must be Left or Front"),
    };
    let lands = match element.get("To") {
        Some("Up") => Lands::Over,
        Some("Down") => Lands::Under,
        _ => return Err("To must be Up or Down"),
    };
    let travel = element.get("Travel").ok_or("it has no Travel, and where its crease lies is not said")?;
    let points = travel.trim().parse::<f64>().ok().filter(|t| t.is_finite() && *t > 0.0 && *t < 1e6);
    let points = points.ok_or("its Travel is no number of points above 0")?;
    let travel = Length::from_mm(points * 25.4 / 72.0);
    let stop = if moves == Part::Left { travel } else { height - travel };
    Ok(RealFold { stop, moves, lands })
}

/// The pages in a number as `F16-7`.
fn catalog_pages(number: &str) -> Option<u32> {
    number.strip_prefix('F')?.split_once('-')?.0.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(inside: &str) -> Result<ReadFolds, NotRead> {
        let mm = Length::from_whole_mm;
        read_xjdf(&format!("<FoldingParams FoldCatalog='F8-1'>{inside}</FoldingParams>"), mm(508), mm(254))
    }

    #[test]
    fn two_folds_are_read() {
        let both = "<Fold From='Left' To='Up' Travel='720'/><Fold From='Front' To='Down' Travel='3.6e2'/>";
        let found = read(both).unwrap();
        assert_eq!((found.creased.measure.columns.len(), found.creased.measure.rows.len()), (2, 2));
        assert_eq!(found.creased.folds[1].moves, Part::Bottom);
        assert_eq!(found.notes, Vec::<String>::new());
        assert_eq!(read("<Fold From='Left' To='Up' Travel='720'/>").unwrap().notes.len(), 1);
    }

    #[test]
    fn what_cannot_be_said_is_refused() {
        assert_eq!(read("<Cut/>"), Err(NotRead::Cut));
        assert!(matches!(read("<Fold From='Left' To='Up'/>"), Err(NotRead::Fold { fold: 1, .. })));
        assert!(matches!(read("<Fold From='Right' To='Up' Travel='9'/>"), Err(NotRead::Fold { .. })));
        assert!(matches!(read("<Fold From='Left' To='Up' Travel='NaN'/>"), Err(NotRead::Fold { .. })));
        assert!(matches!(read("<Fold From='Left' To='Up' Travel='1440'/>"), Err(NotRead::Crease(_))));
        assert!(matches!(read_xjdf("<a/>", Length::MM, Length::MM), Err(NotRead::Lists(0))));
    }
}
