//! What tells two causes apart that give the same pages: a look at what each leaves behind.

use super::title::list;
use super::trace::{Look, Trace};
use crate::fold::misfold::Mark;

/// How to tell another cause from the first one, with what each shows on the back of the section.
pub(in crate::fold::misfold) fn apart(first: (&[Trace], Mark), other: (&[Trace], Mark)) -> String {
    let ((first, first_mark), (other, mark)) = (first, other);
    // What both leave behind tells nothing.
    let only = |these: &[Trace], those: &[Trace]| -> Vec<Trace> {
        these.iter().filter(|t| !those.iter().any(|o| o.sign == t.sign)).cloned().collect()
    };
    let (firsts, others) = (only(first, other), only(other, first));
    let piles = |traces: &[Trace]| traces.iter().any(|t| t.look == Look::Pile);
    let signs = |these: &[Trace], those: &[Trace]| {
        let settings = these.iter().all(|t| t.look == Look::Setting) && !these.is_empty();
        let right = (settings && piles(those)).then(|| "the pile lies right".to_owned());
        list(&right.into_iter().chain(these.iter().map(|t| t.sign.clone())).collect::<Vec<_>>())
    };
    let mut said = match (firsts.as_slice(), others.as_slice()) {
        ([], []) => "Nothing on the section itself tells the two apart.".to_owned(),
        (firsts, []) => {
            format!(
                "Look {}: if it was the first, {}; if it was this, nothing of the kind is seen.",
                places(firsts),
                signs(firsts, &[])
            )
        }
        ([], others) => {
            format!(
                "Look {}: if it was this, {}; if it was the first, nothing of the kind is seen.",
                places(others),
                signs(others, &[])
            )
        }
        (firsts, others) => format!(
            "Look {}: if it was this, {}; if it was the first, {}.",
            places(others),
            signs(others, firsts),
            signs(firsts, others)
        ),
    };
    let looks = |traces: &[Trace]| traces.first().map(|t| t.look);
    if let Some(hint) = looks(&firsts).zip(looks(&others)).and_then(|(one, another)| hint(one, another)) {
        said.push(' ');
        said.push_str(hint);
    }
    if mark != first_mark {
        said.push_str(match mark {
            Mark::Shows => " With this one the back shows its mark at its place.",
            Mark::Blank => " With this one the back is blank.",
            Mark::Mirrored => " With this one the mark stands at its height from the tail.",
        });
    }
    said
}

/// Where to look, each place once.
fn places(traces: &[Trace]) -> String {
    let mut at: Vec<String> = Vec::new();
    for trace in traces {
        if !at.contains(&trace.at) {
            at.push(trace.at.clone());
        }
    }
    list(&at)
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
        (Look::Pile, Look::Pile) => "Compare the lay corner of an open section with that of the pile.",
        (Look::Print, Look::Pile | Look::Setting) | (Look::Pile | Look::Setting, Look::Print) => {
            "Open one and lay it on a passed sheet: print that differs points to the press, creases that differ to the \
             folder."
        }
        (Look::Table, Look::Pile | Look::Setting) | (Look::Pile | Look::Setting, Look::Table) => {
            "Draw the section out: if it reads right after one turn on the table, it was folded right."
        }
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn trace(look: Look, at: &str, sign: &str) -> Trace {
        Trace { look, at: at.into(), sign: sign.into() }
    }

    #[test]
    fn what_both_leave_behind_is_not_said() {
        let (fold, pile) =
            (trace(Look::Setting, "at fold 1", "fold 1 lands under"), trace(Look::Pile, "at the pile", "side B is up"));
        let print = trace(Look::Print, "at the print", "side A is bare");
        let (fold, pile, both) = ([fold.clone()], [pile], [fold, print]);
        let said = apart((&fold, Mark::Blank), (&pile, Mark::Blank));
        let start = "Look at the pile: if it was this, side B is up; if it was the first, the pile lies right and fold 1 \
                     lands under. One lift";
        assert!(said.starts_with(start), "{said}");
        let said = apart((&fold, Mark::Blank), (&both, Mark::Shows));
        assert_eq!(
            said,
            "Look at the print: if it was this, side A is bare; if it was the first, nothing of the kind is seen. With \
             this one the back shows its mark at its place."
        );
        let none = apart((&fold, Mark::Blank), (&fold, Mark::Blank));
        assert_eq!(none, "Nothing on the section itself tells the two apart.");
    }
}
