//! Folds found from a layout.

use super::{FOLD, not_given};
use crate::fold::misfold::FoundPage;
use crate::fold::work_back::{Known, Printed, View, WorkedBack, work_back};
use crate::fold::{Course, Crease, Direction, Fold, Landing, Reads, Scheme, Side, fold_name};
use crate::practice::marked::{Departs, Item, Marked, Shown};
use crate::practice::task::PrintedCell;

/// Folds that are looked at: more than any sheet of this program takes.
const MOST_FOLDS: usize = 12;

type Cells = [Vec<PrintedCell>];

/// A fold and where its crease lies in the packet: "Right over left, crease 2 panels from the left".
#[must_use]
pub fn fold_words(fold: &Fold) -> String {
    let panels = if fold.after == 1 { "panel" } else { "panels" };
    let from = if fold.crease == Crease::Vertical { "left" } else { "top" };
    format!("{}, crease {} {panels} from the {from}", fold_name(fold), fold.after)
}

fn rows_and_columns(side_a: &Cells) -> (u32, u32) {
    (side_a.len() as u32, side_a.first().map_or(0, Vec::len) as u32)
}

/// All that the layout says of its folds.
fn worked(side_a: &Cells, side_b: &Cells) -> WorkedBack {
    let (rows, columns) = rows_and_columns(side_a);
    let view = |cells: &Cells| -> View {
        let known = |cell: &PrintedCell| Known { page: cell.map(|c| c.page), head: cell.map(|c| c.head) };
        cells.iter().map(|row| row.iter().map(known).collect()).collect()
    };
    work_back(&Printed::new(rows, columns, &view(side_a), &view(side_b)))
}

fn candidates(side_a: &Cells, side_b: &Cells) -> Vec<Scheme> {
    worked(side_a, side_b).schemes.into_iter().filter(|s| s.reads == Reads::LeftToRight).collect()
}

/// A way of folding it, told as a hand likes to fold; with so many folds, if there is one.
pub(super) fn right(side_a: &Cells, side_b: &Cells, folds: usize) -> Option<Scheme> {
    let all = candidates(side_a, side_b);
    let one = all.iter().find(|s| s.folds.len() == folds).or(all.first())?;
    Some(one.by_hand().unwrap_or_else(|| one.clone()))
}

/// The sheet with these folds, for each way in which its heads can point.
fn readings(side_a: &Cells, folds: &[Fold]) -> Vec<(Scheme, Landing)> {
    let (rows, columns) = rows_and_columns(side_a);
    let heads = [Direction::Up, Direction::Down, Direction::Left, Direction::Right];
    let scheme = |head| Scheme { rows, columns, folds: folds.to_vec(), head, reads: Reads::LeftToRight };
    heads.into_iter().map(scheme).filter_map(|s| Landing::of(&s).ok().map(|l| (s, l))).collect()
}

/// The pages of the printed sheet from front to back, folded so.
fn read(side_a: &Cells, side_b: &Cells, landing: &Landing) -> Vec<FoundPage> {
    let cell = |p: &crate::fold::PageAt| {
        let side = if p.face.side == Side::A { side_a } else { side_b };
        let seen = p.face.column_seen(landing.columns) as usize;
        let printed = side.get(p.face.row as usize).and_then(|row| row.get(seen)).copied().flatten();
        let head = printed.map(|c| if c.head == p.head { Direction::Up } else { Direction::Down });
        FoundPage { page: printed.map(|c| c.page), head }
    };
    landing.pages.iter().map(cell).collect()
}

fn fits(pages: &[FoundPage]) -> bool {
    (1..).zip(pages).all(|(k, f)| f.page.is_none_or(|p| p == k) && f.head.is_none_or(|h| h == Direction::Up))
}

/// How many pages from the front are in order.
fn in_order(pages: &[FoundPage]) -> usize {
    (1..)
        .zip(pages)
        .take_while(|(k, f)| f.page.is_none_or(|p| p == *k) && f.head.is_none_or(|h| h == Direction::Up))
        .count()
}

/// The folds as far as they can be made, told in the one form that all ways of telling them have.
fn plainly(side_a: &Cells, folds: &[Fold]) -> Vec<Fold> {
    let (rows, columns) = rows_and_columns(side_a);
    let of = |folds: &[Fold]| Scheme {
        rows,
        columns,
        folds: folds.to_vec(),
        head: Direction::Up,
        reads: Reads::LeftToRight,
    };
    (0..=folds.len())
        .rev()
        .find_map(|most| of(folds.get(..most)?).right_and_bottom())
        .map_or_else(Vec::new, |scheme| scheme.folds)
}

/// For each fold of the right ones whether it was given; the better of two readings: as the packet really lies after what was
/// given, or word by word, so that an error in one fold is not punished again in those that follow.
fn agree(side_a: &Cells, right: &Scheme, given: &[Fold]) -> Vec<bool> {
    let by = |right: &[Fold], given: &[Fold]| -> Vec<bool> {
        right.iter().enumerate().map(|(k, fold)| given.get(k) == Some(fold)).collect()
    };
    let plain = right.right_and_bottom().map_or_else(Vec::new, |s| s.folds);
    let mut readings = vec![by(&plain, &plainly(side_a, given)), by(&right.folds, given)];
    readings.extend(right.by_hand().map(|told| by(&told.folds, given)));
    readings.into_iter().max_by_key(|r| r.iter().filter(|b| **b).count()).unwrap_or_default()
}

pub(super) fn mark(side_a: &Cells, side_b: &Cells, folds: usize, given: &[Fold]) -> Option<Marked> {
    let given = given.get(..given.len().min(MOST_FOLDS))?;
    let told = fold_words;
    let mut best: Option<(Scheme, Landing, Vec<FoundPage>)> = None;
    for (scheme, landing) in readings(side_a, given) {
        let pages = read(side_a, side_b, &landing);
        if best.as_ref().is_none_or(|(_, _, other)| (fits(&pages), in_order(&pages)) > (fits(other), in_order(other))) {
            best = Some((scheme, landing, pages));
        }
    }
    if best.as_ref().is_some_and(|(_, _, pages)| fits(pages)) {
        let items = (0..folds.max(1)).map(|k| {
            let text = given.get(k).map_or_else(String::new, told);
            Item::new(format!("Fold {}", k + 1), text.clone(), text, FOLD).worth(FOLD)
        });
        return Some(Marked::of_items(items.collect()));
    }
    let all: Vec<Scheme> = candidates(side_a, side_b).into_iter().filter(|s| s.folds.len() == folds).collect();
    let agreed = all.iter().map(|right| (agree(side_a, right, given), right));
    let (agreed, right) = agreed.rev().max_by_key(|(a, _)| a.iter().filter(|b| **b).count())?;
    let right = right.by_hand().unwrap_or_else(|| right.clone());
    // What does not give this layout is not all right, however it is told.
    let all_agree = agreed.iter().all(|b| *b);
    let items = right.folds.iter().zip(agreed).enumerate().map(|(k, (fold, agrees))| {
        let text = given.get(k).map_or_else(String::new, told);
        let ok = agrees && !(all_agree && k + 1 == right.folds.len());
        let item = Item::new(format!("Fold {}", k + 1), text, told(fold), FOLD).worth(if ok { FOLD } else { 0 });
        let says = if ok {
            String::new()
        } else {
            format!("Fold {} is not so in any way of folding this sheet that comes nearest.", k + 1)
        };
        item.saying(not_given(given.get(k).is_some(), says))
    });
    let mut marked = Marked::of_items(items.collect());
    if given.is_empty() {
        return Some(marked);
    }
    match best {
        Some((scheme, _, pages)) => {
            marked.departs = departs(&pages);
            let sides = (side_a.to_vec(), side_b.to_vec());
            let course = Course::of_scheme(&scheme);
            marked.shown = Some(Shown { course, side_a: sides.0, side_b: sides.1, pages });
        }
        None => marked.says.push("Folded so far, the sheet is no section yet, or a fold can't be made.".into()),
    }
    Some(marked)
}

fn departs(pages: &[FoundPage]) -> Option<Departs> {
    let k = in_order(pages);
    let found = pages.get(k)?;
    let (place, right) = (k as u32 + 1, k as u32 + 1);
    let says = match found.page {
        Some(page) if page != right => {
            format!(
                "Folded as you say, the sheet reads {page} in place {place} from the front, and it should be {right}."
            )
        }
        _ => format!("Folded as you say, page {right} stands head down in place {place} from the front."),
    };
    Some(Departs { place, reads: found.page, right: Some(right), says })
}
