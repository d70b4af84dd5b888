//! Tasks about one sheet.

use super::{checks, from_to, one_of};
use crate::dice::Dice;
use crate::finish::Size;
use crate::fold::misfold::{Cause, act_out, look_alikes};
use crate::fold::{Course, Landing, Scheme, Side, Worked, courses};
use crate::paper::{Length, Stock, Trims};
use crate::practice::judge;
use crate::practice::task::{PrintedCell, Task};

/// Pages of a section at each level, from the folio to large sheets. What apprentices begin and end with: common
/// practice, no source.
const PAGES: [&[u32]; 5] = [&[4, 8], &[8, 12], &[16], &[24, 32], &[24, 32, 36]];

/// The sheets folded whole that are set, by their names among the courses at hand. A list of its own, and in an order of its
/// own: what is set for a seed stays so when a course is added. A further sheet would set other exercises, so it needs a kind or
/// a level of its own.
const WHOLE: [&str; 15] = [
    "Four, one fold",
    "Eight, two right-angle folds",
    "Eight, two parallel folds",
    "Twelve, letter fold and right angle",
    "Twelve, zig-zag and right angle",
    "Sixteen, three folds",
    "Sixteen, two parallel and right angle",
    "Sixteen, right angle and two parallel",
    "Sixteen, imposed from the centre",
    "Twenty-four, letter fold and two right angles",
    "Twenty-four, twelves without cutting",
    "Thirty-two, four right-angle folds",
    "Thirty-two, three right-angle and parallel",
    "Thirty-six, zig-zag, letter fold and right angle",
    "Sixty-four, five folds",
];

/// The slit sheets that are set, likewise.
const SLIT: [&str; 4] = [
    "Twelves, off-cut inset",
    "Twelves from the centre, off-cut inset",
    "Twenty-four, sixteen with eight inset",
    "Thirty-two, sixteen in sixteen",
];

/// Sections of a book that a sheet is taken from.
const SECTIONS: u32 = 12;

/// What is made of a sheet: its name, how it is worked, where its pages land.
struct Sheet {
    name: String,
    course: Course,
    landing: Landing,
}

/// The courses of these names, in the order of the list.
fn named(names: &[&'static str]) -> Vec<(&'static str, Course)> {
    let all = courses();
    let one = |name: &&'static str| all.iter().find(|n| n.name == *name).map(|n| (*name, n.course.clone()));
    names.iter().filter_map(one).collect()
}

/// What a sheet folded whole is called, if it is one of those that are set, however its folds are told.
fn name_of(scheme: &Scheme) -> Option<&'static str> {
    let own = scheme.right_and_bottom()?;
    let same = |course: &Course| course.scheme().and_then(|s| s.right_and_bottom()).as_ref() == Some(&own);
    named(&WHOLE).into_iter().find_map(|(name, course)| same(&course).then_some(name))
}

/// A sheet that is folded whole. From the second level on each fold may land over or under.
fn scheme(level: u8, dice: &mut Dice) -> Option<(String, Scheme)> {
    let pages = PAGES.get(usize::from(level).checked_sub(1)?)?;
    let whole = named(&WHOLE).into_iter().filter_map(|(_, course)| course.scheme());
    let of_level: Vec<Scheme> = whole.filter(|scheme| pages.contains(&scheme.pages())).collect();
    let mut scheme = one_of(&of_level, dice)?.clone();
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
    let name = match name_of(&scheme) {
        Some(name) => name.to_owned(),
        None => format!("{} pages in {} folds", scheme.pages(), scheme.folds.len()),
    };
    Some((name, scheme))
}

/// A sheet that is slit, of one section.
fn slit(dice: &mut Dice) -> Option<Sheet> {
    let slit = named(&SLIT);
    let (name, course) = one_of(&slit, dice)?;
    let landing = judge::landing(course)?;
    Some(Sheet { name: (*name).to_owned(), course: course.clone(), landing })
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sheet_that_is_set_is_at_hand() {
        assert_eq!(named(&WHOLE).len(), WHOLE.len());
        assert!(named(&WHOLE).iter().all(|(_, course)| course.scheme().is_some()));
        assert_eq!(named(&SLIT).len(), SLIT.len());
        assert!(named(&SLIT).iter().all(|(_, course)| course.scheme().is_none() && judge::landing(course).is_some()));
    }
}
