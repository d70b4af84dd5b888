//! Tasks about one sheet.

use super::{checks, from_to, one_of};
use crate::dice::Dice;
use crate::finish::Size;
use crate::fold::misfold::{Cause, act_out, look_alikes};
use crate::fold::{Course, Family, Landing, Scheme, Side, Worked, courses, library};
use crate::paper::{Length, Stock, Trims};
use crate::practice::judge;
use crate::practice::task::{PrintedCell, Task};

/// Pages of a section at each level, from the folio to large sheets. What apprentices begin and end with: common
/// practice, no source.
const PAGES: [&[u32]; 5] = [&[4, 8], &[8, 12], &[16], &[24, 32], &[24, 32, 36]];

/// The most panels of a slit sheet that is set.
const SLIT_PANELS: u32 = 16;

/// Sections of a book that a sheet is taken from.
const SECTIONS: u32 = 12;

/// What is made of a sheet: its name, how it is worked, where its pages land.
struct Sheet {
    name: String,
    course: Course,
    landing: Landing,
}

/// A sheet that is folded whole. From the second level on each fold may land over or under.
fn scheme(level: u8, dice: &mut Dice) -> Option<(String, Scheme)> {
    let pages = PAGES.get(usize::from(level).checked_sub(1)?)?;
    let of_level: Vec<_> = library().into_iter().filter(|n| pages.contains(&n.scheme.pages())).collect();
    let mut scheme = one_of(&of_level, dice)?.scheme.clone();
    for fold in 1..=u32::try_from(scheme.folds.len()).ok()? {
        // The folio can only be varied so.
        if dice.below(2) == 1 && (level > 1 || scheme.folds.len() == 1) {
            scheme = scheme.fold_other_way(fold);
        }
    }
    let landing = Landing::of(&scheme).ok()?;
    if !landing.loose_leaves.is_empty() {
        return None;
    }
    let name = match scheme.named() {
        Some(named) => named.name.to_owned(),
        None => format!("{} pages in {} folds", scheme.pages(), scheme.folds.len()),
    };
    Some((name, scheme))
}

/// A sheet that is slit, of one section.
fn slit(dice: &mut Dice) -> Option<Sheet> {
    let fits = |c: &Course| c.rows * c.columns <= SLIT_PANELS && c.copies.len() == 1 && c.sections() == 1;
    let slit: Vec<_> = courses().into_iter().filter(|n| n.family == Family::Inset && fits(&n.course)).collect();
    let named = one_of(&slit, dice)?;
    let landing = judge::landing(&named.course)?;
    Some(Sheet { name: named.name.to_owned(), course: named.course.clone(), landing })
}

/// Whole sheets, and slit ones at the highest level.
fn sheet(level: u8, dice: &mut Dice) -> Option<Sheet> {
    if level == 5 {
        return slit(dice);
    }
    let (name, scheme) = scheme(level, dice)?;
    let landing = Landing::of(&scheme).ok()?;
    Some(Sheet { name, course: Course::of_scheme(&scheme), landing })
}

/// The first page: that of the first section to begin with, later that of any.
fn first_page(level: u8, pages: usize, dice: &mut Dice) -> Option<u32> {
    let before = if level == 1 { 0 } else { dice.below(SECTIONS) };
    Some(u32::try_from(pages).ok()? * before + 1)
}

pub(super) fn number(level: u8, dice: &mut Dice) -> Option<Task> {
    let Sheet { name, course, landing } = sheet(level, dice)?;
    let first_page = first_page(level, landing.pages.len(), dice)?;
    Some(Task::NumberSheet { name, course, first_page })
}

pub(super) fn heads(level: u8, dice: &mut Dice) -> Option<Task> {
    let Sheet { name, course, landing } = sheet(level, dice)?;
    let first_page = first_page(level, landing.pages.len(), dice)?;
    let side = |side| {
        let rows = landing.grid(side).into_iter();
        rows.map(|row| row.into_iter().map(|p| p.page + first_page - 1).collect()).collect()
    };
    let (side_a, side_b) = (side(Side::A), side(Side::B));
    Some(Task::SetHeads { name, course, first_page, side_a, side_b })
}

pub(super) fn folds(level: u8, dice: &mut Dice) -> Option<Task> {
    let (_, scheme) = scheme(level, dice)?;
    let landing = Landing::of(&scheme).ok()?;
    let side = |side, known: bool| -> Vec<Vec<PrintedCell>> {
        let shown = judge::printed_side(&landing, side, 1);
        if known { shown } else { shown.into_iter().map(|row| vec![None; row.len()]).collect() }
    };
    // At the highest level one forme has to do.
    let (side_a, side_b) = (side(Side::A, true), side(Side::B, level < 5));
    let folds = u32::try_from(scheme.folds.len()).ok()?;
    Some(Task::FindFolds { side_a, side_b, folds })
}

/// What can be said to have been done, at a level.
fn may_be_done(level: u8, cause: &Cause) -> bool {
    match cause {
        Cause::FoldOtherWay { .. } => true,
        Cause::SheetTurnedOver { .. } | Cause::SheetEndForEnd => level >= 2,
        Cause::FoldFromOtherEdge { .. } | Cause::SectionLies { .. } | Cause::DoubleSheet => level >= 3,
        Cause::SecondSideTurnedRound | Cause::SecondSideBlank { .. } | Cause::WrongSecondSide => level >= 3,
        Cause::PagesExchanged { .. } | Cause::PageHeadDown { .. } => level == 4,
        Cause::Together { .. } => false,
    }
}

pub(super) fn wrong(level: u8, dice: &mut Dice) -> Option<Task> {
    // Two faults at once are looked for on a sixteen: they are hard enough there.
    let (name, scheme) = scheme(if level == 5 { 3 } else { level }, dice)?;
    let first_page = first_page(level, scheme.pages() as usize, dice)?;
    let alikes = look_alikes(&scheme, first_page).ok()?;
    let harms: Vec<Cause> =
        alikes.groups.iter().flat_map(|g| g.causes.clone()).filter(|c| may_be_done(level, c)).collect();
    let wrong = if level == 5 { 2 } else { 1 };
    let mut causes: Vec<Cause> = Vec::new();
    for _ in 0..wrong {
        let cause = one_of(&harms, dice)?.clone();
        if causes.contains(&cause) {
            return None;
        }
        causes.push(cause);
    }
    let planted = match causes.as_slice() {
        [one] => one.clone(),
        _ => Cause::Together { causes: causes.clone() },
    };
    let acted = act_out(&scheme, first_page, &planted).ok()?;
    let mut menu: Vec<Cause> = Vec::new();
    for cause in alikes.groups.iter().flat_map(|g| &g.causes).chain(&alikes.no_harm) {
        if !menu.contains(cause) {
            menu.push(cause.clone());
        }
    }
    let accepted = judge::causes(&scheme, first_page, acted.fold_at, &acted.pages, wrong as usize)?;
    // It has to be found again, and by so many causes.
    if !accepted.iter().any(|set| set.len() == causes.len() && causes.iter().all(|c| set.contains(c))) {
        return None;
    }
    let right: Vec<String> = accepted.iter().flatten().map(Cause::next_check).collect();
    let others = menu.iter().map(Cause::next_check).filter(|check| !right.contains(check)).collect();
    let checks = checks(causes.first()?.next_check(), others, dice);
    let (pages, fold_at) = (acted.pages, acted.fold_at);
    Some(Task::WrongSheet { name, scheme, first_page, pages, fold_at, wrong, menu, checks })
}

/// Trims to choose from at a level, in µm. The first ones are 3 mm and 1/8 in; the others make a person think.
const TRIMS: [&[i64]; 5] = [&[3_000], &[3_000, 0], &[3_000, 3_175, 0], &[3_000, 400, 200, 0], &[3_000, 300, 0]];

pub(super) fn bolts(level: u8, dice: &mut Dice) -> Option<Task> {
    let Sheet { name, course, .. } = sheet(level, dice)?;
    let of_level = TRIMS.get(usize::from(level).checked_sub(1)?)?;
    let mut trim = || one_of(of_level, dice).copied().map(Length::from_um);
    let trims = Trims { head: trim()?, foot: trim()?, fore_edge: trim()?, ..Trims::default() };
    let stock = Stock { grammage: f64::from(from_to(8, 14, dice) * 10), ..Stock::default() };
    let leaf = (i64::from(from_to(130, 180, dice)), i64::from(from_to(200, 250, dice)));
    let sheet = Size {
        width: Length::from_whole_mm(leaf.0 * i64::from(course.columns)),
        height: Length::from_whole_mm(leaf.1 * i64::from(course.rows)),
    };
    // A sheet without a bolt asks nothing, but for the folio to begin with.
    Worked::of(&course).ok()?;
    Some(Task::Bolts { name, course, sheet, trims, caliper: stock.caliper() })
}
