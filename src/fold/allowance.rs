//! Panels made larger or smaller on purpose: a lip to open the section by, and panels that are tucked into a fold.

use super::course::Course;
use super::folding::Folding;
use super::geometry::{Direction, Rect};
use super::measure::Measure;
use super::packet::Layer;
use super::scheme::{Crease, Lands, Part};
use super::section::Section;
use super::worked::{Branch, BranchEnd, Worked};
use crate::paper::Length;
use std::collections::BTreeSet;
use thiserror::Error;

/// Which half of the section stands out at the fore-edge, for the gripper of a gatherer to take.
///
/// (The later half longer is a high-folio lip: printwiki.org, "Lip".)
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lip {
    /// The earlier half, with the lower folios.
    LowFolio,
    /// The later half, with the higher folios.
    HighFolio,
}

/// Why an allowance can't be given.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum NoAllowance {
    /// A column or a row lies in both halves.
    #[error("the panels of one column would have to be longer in one piece and shorter in another")]
    BothHalves,
    /// The sheet is not folded to its end.
    #[error("the sheet is not folded down to a page yet")]
    Unfinished,
    /// A panel would be no panel.
    #[error("nothing would be left of a panel")]
    TooLarge,
    /// There is none to be shortened.
    #[error("no panel is tucked into a fold here")]
    NothingTucked,
}

/// The same sheet with one half of each section longer by `by` at the fore-edge than the other.
///
/// The sheet keeps its size: panels of the one half gain half of it, those of the other lose it.
///
/// # Errors
/// When the halves are not columns (or rows) of their own, or nothing would be left of a panel.
pub fn with_lip(worked: &Worked, measure: &Measure, lip: Lip, by: Length) -> Result<Measure, NoAllowance> {
    let mut longer: [Vec<Option<bool>>; 2] = [vec![None; measure.columns.len()], vec![None; measure.rows.len()]];
    let sections: Vec<Section> = worked.course.copies.iter().flatten().filter_map(|nest| worked.nested(nest)).collect();
    if sections.is_empty() {
        return Err(NoAllowance::Unfinished);
    }
    for section in &sections {
        let leaves = section.held.len();
        for (leaf, found) in section.faces.iter().step_by(2).enumerate() {
            let long = (2 * leaf >= leaves) == (lip == Lip::HighFolio);
            let sideways = found.spine.is_sideways();
            let (sizes, at) = if sideways { (0, found.face.column) } else { (1, found.face.row) };
            let Some(slot) = longer.get_mut(sizes).and_then(|s| s.get_mut(at as usize)) else { continue };
            if slot.replace(long).is_some_and(|before| before != long) {
                return Err(NoAllowance::BothHalves);
            }
        }
    }
    let half = by.shared(2);
    let changed = |sizes: &[Length], longer: &[Option<bool>]| {
        let size = |(size, long): (&Length, &Option<bool>)| match long {
            None => *size,
            Some(true) => *size + (by - half),
            Some(false) => *size - half,
        };
        sizes.iter().zip(longer).map(size).collect::<Vec<_>>()
    };
    let [columns, rows] = &longer;
    fit(Measure { columns: changed(&measure.columns, columns), rows: changed(&measure.rows, rows) })
}

/// The same sheet with every panel that is tucked into a fold shorter by `by`: the inner panel of a letter fold, the outer
/// ones of a gate fold. The sheet keeps its size; the other panels share what those lose.
///
/// # Errors
/// When no panel is tucked in, or nothing would be left of a panel.
pub fn with_tucked_short(worked: &Worked, measure: &Measure, by: Length) -> Result<Measure, NoAllowance> {
    let [columns, rows] = tucked(&worked.trunk, &worked.course);
    if columns.is_empty() && rows.is_empty() {
        return Err(NoAllowance::NothingTucked);
    }
    let changed = |sizes: &[Length], tucked: &BTreeSet<u32>| {
        let (short, others) = (tucked.len() as i64, sizes.len() as i64);
        if short == 0 {
            return sizes.to_vec();
        }
        // All panels share the gain, and then the tucked ones lose the whole: what stays equal stays foldable.
        let gain = by.times(short).shared(others);
        let mut left = by.times(short);
        let mut changed: Vec<Length> = (0u32..)
            .zip(sizes)
            .map(|(i, size)| {
                left -= gain;
                let size = *size + gain;
                if tucked.contains(&i) { size - by } else { size }
            })
            .collect();
        // A few nanometres that do not divide go to a tucked panel, which has room.
        if let Some(size) = tucked.first().and_then(|i| changed.get_mut(*i as usize)) {
            *size += left;
        }
        changed
    };
    fit(Measure { columns: changed(&measure.columns, &columns), rows: changed(&measure.rows, &rows) })
}

fn fit(measure: Measure) -> Result<Measure, NoAllowance> {
    let fits = measure.columns.iter().chain(&measure.rows).all(|l| *l >= Length::MM);
    if fits { Ok(measure) } else { Err(NoAllowance::TooLarge) }
}

/// Columns and rows whose free edge lies in a crease that is made later, so that it would be caught there.
#[must_use]
pub fn tucked(trunk: &Branch, course: &Course) -> [BTreeSet<u32>; 2] {
    let mut found = [BTreeSet::new(), BTreeSet::new()];
    let sheet = Rect { x0: 0, y0: 0, x1: course.columns.cast_signed(), y1: course.rows.cast_signed() };
    let mut open = vec![trunk];
    while let Some(branch) = open.pop() {
        tucked_in(&branch.folding, &sheet, &mut found);
        match &branch.end {
            BranchEnd::Piece(_) => {}
            BranchEnd::Apart { parts, .. } => open.extend(parts.iter()),
            BranchEnd::Laid { then, .. } => open.push(then),
        }
    }
    found
}

fn tucked_in(folding: &Folding, sheet: &Rect, found: &mut [BTreeSet<u32>; 2]) {
    for (made, step) in folding.steps.iter().enumerate() {
        let vertical = step.turn.fold.crease == Crease::Vertical;
        let layers = &folding.packet(made).layers;
        let ends = |layer: &Layer| {
            let r = layer.footprint();
            if vertical { (r.x0, r.x1) } else { (r.y0, r.y1) }
        };
        // What is folded over goes round the layers that lie above it, and the reverse.
        let spans = |layer: &Layer| {
            let (low, high) = ends(layer);
            low < step.turn.at && step.turn.at < high
        };
        let outermost = match step.turn.fold.lands {
            Lands::Over => layers.iter().position(spans),
            Lands::Under => layers.iter().rposition(spans),
        };
        for (i, layer) in layers.iter().enumerate() {
            let inside = outermost.is_some_and(|o| if step.turn.fold.lands == Lands::Over { i > o } else { i < o });
            if !inside {
                continue;
            }
            let (low, high) = ends(layer);
            // The edge of the layer that lies in the crease, and its panel there.
            let part = match step.turn.at {
                at if at == high => {
                    if vertical {
                        Part::Right
                    } else {
                        Part::Bottom
                    }
                }
                at if at == low => {
                    if vertical {
                        Part::Left
                    } else {
                        Part::Top
                    }
                }
                _ => continue,
            };
            let way = layer.placement.direction(part.direction());
            let panel = match way {
                Direction::Left => layer.area.x0,
                Direction::Right => layer.area.x1 - 1,
                Direction::Up => layer.area.y0,
                Direction::Down => layer.area.y1 - 1,
            };
            let free = match way {
                Direction::Left => panel == sheet.x0,
                Direction::Right => panel == sheet.x1 - 1,
                Direction::Up => panel == sheet.y0,
                Direction::Down => panel == sheet.y1 - 1,
            };
            if free && let Some(set) = found.get_mut(usize::from(!vertical)) {
                set.insert(panel.unsigned_abs());
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::{Fold, Measured, Reads, Scheme, library};

    fn mm(v: i64) -> Length {
        Length::from_whole_mm(v)
    }

    fn strip(columns: u32, folds: &[(u32, Part)]) -> Worked {
        let folds = folds.iter().map(|(after, part)| Fold::new(*after, *part, Lands::Over)).collect();
        let scheme = Scheme { rows: 1, columns, folds, head: Direction::Up, reads: Reads::LeftToRight };
        Worked::of(&Course::of_scheme(&scheme)).unwrap()
    }

    #[test]
    fn a_letter_fold_has_a_short_inner_panel() {
        let worked = strip(3, &[(2, Part::Right), (1, Part::Left)]);
        let measure = Measure::equal(1, 3, mm(297), mm(210));
        let short = with_tucked_short(&worked, &measure, mm(3)).unwrap();
        assert_eq!(short.columns, [mm(100), mm(100), mm(97)]);
        assert_eq!(Measured::of(&worked.trunk, &short).all_misfits(), []);
        // A zig-zag tucks nothing in.
        let mut course = strip(3, &[(2, Part::Right), (1, Part::Right)]).course;
        course.steps.folds[1].lands = Lands::Under;
        let zig_zag = Worked::of(&course).unwrap();
        assert_eq!(with_tucked_short(&zig_zag, &measure, mm(3)), Err(NoAllowance::NothingTucked));
    }

    #[test]
    fn a_gate_fold_has_two() {
        let worked = strip(4, &[(1, Part::Left), (2, Part::Right), (1, Part::Right)]);
        let measure = Measure::equal(1, 4, mm(400), mm(210));
        let short = with_tucked_short(&worked, &measure, mm(2)).unwrap();
        assert_eq!(short.columns, [mm(99), mm(101), mm(101), mm(99)]);
        assert_eq!(Measured::of(&worked.trunk, &short).all_misfits(), []);
    }

    #[test]
    fn a_lip_makes_one_half_longer_in_every_scheme_at_hand() {
        for named in library() {
            let worked = Worked::of(&Course::of_scheme(&named.scheme)).unwrap();
            let (rows, columns) = (named.scheme.rows, named.scheme.columns);
            let measure =
                Measure::equal(rows, columns, mm(150).times(i64::from(columns)), mm(220).times(i64::from(rows)));
            for lip in [Lip::LowFolio, Lip::HighFolio] {
                let Ok(with) = with_lip(&worked, &measure, lip, mm(10)) else { continue };
                assert_eq!(with.width(), measure.width(), "{}", named.name);
                assert_eq!(Measured::of(&worked.trunk, &with).all_misfits(), [], "{}", named.name);
                let section = &worked.pieces[0].section;
                let width = |leaf: usize| {
                    let face = section.faces[2 * leaf].face;
                    if section.faces[0].spine.is_sideways() {
                        with.columns[face.column as usize]
                    } else {
                        with.rows[face.row as usize]
                    }
                };
                let (front, back) = (width(0), width(section.held.len() - 1));
                let (long, short) = if lip == Lip::LowFolio { (front, back) } else { (back, front) };
                assert_eq!(long - short, mm(10), "{}", named.name);
            }
        }
    }
}
