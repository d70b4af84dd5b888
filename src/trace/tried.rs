//! The faults that are tried on a book whose spine nobody saw: those that touch what was seen.

use super::case::Case;
use super::opening::Says;
use super::pieces::{Piece, acted};
use super::read::Read;
use crate::gather::Fault;
use crate::marks::Lies;

/// The most sections that are tried where the spine was not seen. A bound of this program.
const MOST_TOUCHED: usize = 14;
/// The most single faults of which two are tried together. A bound of this program.
const MOST_PAIRED: usize = 120;

/// The sections that what was seen is about, with their neighbours, ascending.
pub(super) fn touched(case: &Case, read: &Read, sections: u32) -> Vec<u32> {
    let mut near = Vec::new();
    let mut far = Vec::new();
    for opening in read.openings.iter().filter(|opening| opening.jumps()) {
        match opening.says {
            Says::Join(left, right) => {
                near.extend([left.section, right.section]);
                far.extend([left.section + 1, right.section.saturating_sub(1)]);
                far.extend([left.section.saturating_sub(1), right.section + 1]);
            }
            Says::Inside(section, _) => near.push(section),
            _ => {}
        }
    }
    for opening in &read.openings {
        match opening.says {
            Says::Strange(Some(section)) => near.extend([section, section + 1, section.saturating_sub(1)]),
            // What is there in its order is tried, too: another section may have taken its place.
            Says::Inside(section, Lies::Right) => far.push(section),
            Says::Join(left, right) if !opening.jumps() => far.extend([left.section, right.section]),
            _ => {}
        }
    }
    near.extend(read.seen.stopped.map(|stopped| stopped.station));
    near.extend(not_shown(read, sections));
    near.extend(read.inside.iter().flat_map(|inside| std::iter::once(inside.section).chain(inside.instead)));
    near.extend(case.left.iter().filter(|left| left.over != 0).map(|left| left.station));
    let mut touched = Vec::new();
    for section in near.into_iter().chain(far) {
        if (1..=sections).contains(&section) && !touched.contains(&section) && touched.len() < MOST_TOUCHED {
            touched.push(section);
        }
    }
    touched.sort_unstable();
    touched
}

/// The sections that no opening shows, where openings show most: one of them may be the one that is not there.
fn not_shown(read: &Read, sections: u32) -> Vec<u32> {
    let shown = |section: u32| {
        read.openings.iter().any(|opening| match opening.says {
            Says::Join(left, right) => left.section == section || right.section == section,
            Says::Inside(s, _) | Says::Broken(s) | Says::BlankIn(s) => s == section,
            _ => false,
        })
    };
    let hidden = (1..=sections).filter(|section| !shown(*section)).take(MOST_TOUCHED + 1).collect::<Vec<_>>();
    if hidden.len() > MOST_TOUCHED / 2 { Vec::new() } else { hidden }
}

/// Every single fault of these sections.
pub(super) fn singles(read: &Read, sections: u32, touched: &[u32]) -> Vec<Fault> {
    let strange = read.openings.iter().any(|opening| matches!(opening.says, Says::Strange(_)));
    let mut all = Vec::new();
    for &section in touched {
        all.push(Fault::Missing { section });
        all.push(Fault::Double { section });
        for lies in [Lies::HeadToTail, Lies::TurnedInPlane, Lies::SideToSide] {
            all.push(Fault::Lies { section, lies });
        }
        if strange {
            all.push(Fault::Foreign { at: section });
        }
    }
    for &at in touched {
        for &section in touched.iter().filter(|section| **section != at) {
            all.push(Fault::WrongSection { at, section });
            if at < section {
                all.push(Fault::Exchanged { sections: [at, section] });
            }
        }
    }
    all.push(Fault::Reversed);
    all.extend(touched.iter().filter(|after| **after < sections).map(|&after| Fault::DividedWrong { after }));
    for (i, &first) in touched.iter().enumerate() {
        for &last in touched.iter().skip(i) {
            for after in std::iter::once(0).chain(touched.iter().copied()) {
                if after > last || after + 1 < first {
                    all.push(Fault::Moved { sections: [first, last], after });
                }
            }
        }
    }
    all
}

/// Two faults of single stations at once.
pub(super) fn pairs(singles: &[Fault]) -> Vec<Vec<Fault>> {
    let stations = singles
        .iter()
        .filter(|fault| {
            matches!(
                fault,
                Fault::Missing { .. } | Fault::Double { .. } | Fault::Lies { .. } | Fault::WrongSection { .. }
            )
        })
        .take(MOST_PAIRED)
        .collect::<Vec<_>>();
    let mut all = Vec::new();
    for (i, one) in stations.iter().enumerate() {
        for other in stations.iter().skip(i + 1) {
            all.push(vec![**one, **other]);
        }
    }
    all
}

/// Two or three sections in a row missing.
pub(super) fn blocks_missing(touched: &[u32]) -> Vec<Vec<Fault>> {
    let blocks = touched.iter().flat_map(|&first| [2, 3].map(|n| (first..first + n).collect::<Vec<_>>()));
    blocks.map(|block| block.into_iter().map(|section| Fault::Missing { section }).collect()).collect()
}

/// What leftovers alone say was done, for books that are bad and in which nobody looked for what it is.
pub(super) fn by_leftovers(case: &Case, sections: u32, pieces: &[Piece]) -> Vec<Vec<Fault>> {
    let there = case.left.iter().filter(|left| left.over != 0 && left.station <= sections);
    let there = there.collect::<Vec<_>>();
    let mut all = Vec::new();
    for left in &there {
        if left.over > 0 {
            let short = there.iter().filter(|other| other.over < 0);
            all.extend(short.map(|other| vec![Fault::WrongSection { at: left.station, section: other.station }]));
            all.push(vec![Fault::Missing { section: left.station }]);
        } else {
            all.push(vec![Fault::Double { section: left.station }]);
        }
    }
    all.retain(|faults| {
        let row = acted(sections, faults);
        pieces.iter().all(|piece| piece.agrees(&row, sections))
    });
    all
}
