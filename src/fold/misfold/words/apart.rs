//! What tells two causes apart that give the same pages: a look at what each leaves behind.

use super::title::capital;
use super::trace::{Look, Trace};
use crate::fold::misfold::Mark;

/// How to tell another cause from the first one, with what each shows on the back of the section.
pub(in crate::fold::misfold) fn apart(first: (&Trace, Mark), other: (&Trace, Mark)) -> String {
    let ((first, first_mark), (other, mark)) = (first, other);
    let mut said = if first.sign == other.sign {
        format!("Look {}: nothing on the section itself tells the two apart.", other.at)
    } else {
        format!("Look {}: if it was this, {}; if it was the first, {}.", other.at, other.sign, first.sign)
    };
    if let Some(hint) = hint(first.look, other.look) {
        said.push(' ');
        said.push_str(hint);
    }
    if mark != first_mark {
        said.push(' ');
        said.push_str(&capital(match mark {
            Mark::Shows => "with this one the back shows its mark at its place.",
            Mark::Blank => "with this one the back is blank.",
            Mark::Mirrored => "with this one the mark stands at its height from the tail.",
        }));
    }
    said
}

/// What helps with two kinds of places to look at. Common practice, no source.
fn hint(first: Look, other: Look) -> Option<&'static str> {
    Some(match (first, other) {
        (Look::Setting, Look::Pile) | (Look::Pile, Look::Setting) => {
            "One lift of such sections points to the pile, every section since the setting to the fold. Where the pile \
             was turned, the folds keep their distance from an edge away from the lay corner, and a slit or perforation \
             that is not in the middle lies elsewhere on the print."
        }
        (Look::Setting, Look::Setting) => {
            "Go through the folds of a passed section beside it one by one: slits and perforations lie where each fold \
             was made."
        }
        (Look::Pile, Look::Pile) => "Compare the lay ticks of an open section with those of the pile.",
        (Look::Print, Look::Pile | Look::Setting) | (Look::Pile | Look::Setting, Look::Print) => {
            "Open one and lay it on a passed sheet: print that differs points to the press, creases that differ to the \
             folder."
        }
        (Look::Table, Look::Pile | Look::Setting) | (Look::Pile | Look::Setting, Look::Table) => {
            "Draw the section out: if it reads right after one turn on the table, it was folded right."
        }
        (Look::Bundle, Look::Bundle) => {
            "Riffle the spines of the bundle: where the two sections alternate, the deliveries ran together; a block of \
             one is a bundle or a lift mislaid."
        }
        _ => return None,
    })
}
