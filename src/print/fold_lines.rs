//! Where a sheet is folded and slit, drawn on the flat sheet: told from the layers before and after each step.

use crate::fold::{Branch, BranchEnd, Crease, Fold, Lands, Layer, Packet, Part, Side, fold_name};

/// One straight piece of a fold or a slit on the flat sheet, in panels from the upper left corner of side A.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FoldLine {
    /// The fold's number from 1, or `None` for a slit.
    pub fold: Option<u32>,
    /// One end.
    pub from: (i32, i32),
    /// The other end.
    pub to: (i32, i32),
    /// Whether side A lies inside this fold, so that from side A it is a valley.
    pub valley_on_a: bool,
}

/// All lines of a course, and what is done in order, one sentence a step.
///
/// The parts of a slit sheet count on from the same number, since each is a sheet of its own then.
#[must_use]
pub fn fold_lines(trunk: &Branch) -> (Vec<FoldLine>, Vec<String>) {
    let mut told = Told { lines: Vec::new(), says: Vec::new() };
    told.branch(trunk, 1, "");
    (told.lines, told.says)
}

struct Told {
    lines: Vec<FoldLine>,
    says: Vec<String>,
}

impl Told {
    fn branch(&mut self, branch: &Branch, first: u32, who: &str) {
        let mut number = first;
        let mut before = &branch.folding.flat;
        let mut folds = Vec::new();
        for step in &branch.folding.steps {
            let over = step.turn.fold.lands == Lands::Over;
            for (parent, from, to) in parted(before, &step.after.layers) {
                let valley_on_a = over == (parent.placement.side_up() == Side::A);
                self.lines.push(FoldLine { fold: Some(number), from, to, valley_on_a });
            }
            let name = fold_name(&step.turn.fold);
            let name = if folds.is_empty() { name } else { name.to_lowercase() };
            folds.push(format!("{number} {name}{}", uneven(before, &step.turn.fold)));
            before = &step.after;
            number += 1;
        }
        if !folds.is_empty() {
            self.says.push(format!("{who}{}.", folds.join(", ")));
        }
        match &branch.end {
            BranchEnd::Piece(_) => (),
            BranchEnd::Apart { crease, parts, .. } => {
                let [one, other] = parts.as_ref();
                let after: Vec<Layer> = [one, other].iter().flat_map(|p| p.folding.flat.layers.clone()).collect();
                self.slit(before, &after);
                self.says.push(format!("{who}Slit {}.", way(*crease)));
                let names = if *crease == Crease::Vertical { ["Left", "Right"] } else { ["Upper", "Lower"] };
                if same(one, other) {
                    let from = self.says.len();
                    self.branch(one, number, &format!("{who}Each part: "));
                    let kept = self.says.len();
                    self.branch(other, number, "");
                    self.says.truncate(kept.max(from));
                } else {
                    for (part, name) in parts.iter().zip(names) {
                        self.branch(part, number, &format!("{who}{name} part: "));
                    }
                }
            }
            BranchEnd::Laid { crease, moves, lands, then, .. } => {
                self.slit(before, &then.folding.flat.layers);
                let (moves, rest): (Part, _) = (*moves, moves.other());
                let (part, lands) = (moves.word(), if *lands == Lands::Over { "on" } else { "under" });
                let says =
                    format!("{who}Slit {}, and lay the {part} part {lands} the {} one.", way(*crease), rest.word());
                self.says.push(says);
                self.branch(then, number, who);
            }
        }
    }

    fn slit(&mut self, before: &Packet, after: &[Layer]) {
        let all = parted(before, after).into_iter();
        self.lines.extend(all.map(|(_, from, to)| FoldLine { fold: None, from, to, valley_on_a: false }));
    }
}

/// Where a fold is that does not go through the middle.
fn uneven(before: &Packet, fold: &Fold) -> String {
    let Some(all) = before.layers.iter().map(|l| l.placement.rect_in_packet(&l.area)).reduce(|a, b| a.union(&b)) else {
        return String::new();
    };
    let upright = fold.crease == Crease::Vertical;
    let panels = if upright { all.width() } else { all.height() };
    if i64::from(panels) == 2 * i64::from(fold.after) {
        return String::new();
    }
    let s = if fold.after == 1 { "" } else { "s" };
    format!(" after {} panel{s} from the {}", fold.after, if upright { "left" } else { "top" })
}

const fn way(crease: Crease) -> &'static str {
    match crease {
        Crease::Vertical => "from head to foot of what lies there",
        Crease::Horizontal => "across what lies there",
    }
}

/// Whether two parts are folded alike all the way.
fn same(one: &Branch, other: &Branch) -> bool {
    let folds = |b: &Branch| b.folding.steps.iter().map(|s| s.turn.fold).collect::<Vec<_>>();
    folds(one) == folds(other)
        && match (&one.end, &other.end) {
            (BranchEnd::Piece(_), BranchEnd::Piece(_)) => true,
            (BranchEnd::Apart { parts: a, crease: c, .. }, BranchEnd::Apart { parts: b, crease: d, .. }) => {
                let ([a1, a2], [b1, b2]) = (a.as_ref(), b.as_ref());
                c == d && same(a1, b1) && same(a2, b2)
            }
            _ => false,
        }
}

/// A layer that was parted, and the two ends of the line between its parts.
type Parted = (Layer, (i32, i32), (i32, i32));

/// The layers that were parted, and the line on the sheet between the two parts of each.
fn parted(before: &Packet, after: &[Layer]) -> Vec<Parted> {
    let mut lines = Vec::new();
    for parent in &before.layers {
        let p = parent.area;
        let inside = |l: &&Layer| p.x0 <= l.area.x0 && l.area.x1 <= p.x1 && p.y0 <= l.area.y0 && l.area.y1 <= p.y1;
        let mut parts = after.iter().filter(inside).map(|l| l.area).filter(|a| *a != p);
        let (Some(a), Some(b)) = (parts.next(), parts.next()) else { continue };
        let line = if (a.y0, a.y1) == (b.y0, b.y1) {
            let x = a.x0.max(b.x0);
            ((x, a.y0), (x, a.y1))
        } else {
            let y = a.y0.max(b.y0);
            ((a.x0, y), (a.x1, y))
        };
        lines.push((*parent, line.0, line.1));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::{Course, Worked, courses, sixteen};

    #[test]
    fn a_sixteen_has_seven_lines() {
        // Nicholson, A Manual of the Art of Bookbinding (1856), pp. 35-36: right over left, head down, right over left. The
        // first fold has one layer, the second two, the third four.
        let worked = Worked::of(&Course::of_scheme(&sixteen().scheme)).unwrap();
        let (lines, says) = fold_lines(&worked.trunk);
        let of = |fold: u32| lines.iter().filter(|l| l.fold == Some(fold)).count();
        assert_eq!([1, 2, 3].map(of), [1, 2, 4]);
        assert_eq!(says, ["1 Right over left, 2 top over bottom, 3 right over left."]);
        // The first fold is a valley from above. The second bends one layer upwards and one downwards.
        assert!(lines.iter().all(|l| l.fold != Some(1) || l.valley_on_a));
        assert_eq!(lines.iter().filter(|l| l.fold == Some(2) && l.valley_on_a).count(), 1);
        assert_eq!(lines[0], FoldLine { fold: Some(1), from: (2, 0), to: (2, 2), valley_on_a: true });
    }

    #[test]
    fn lines_of_every_course_cut_the_sheet_into_panels() {
        for named in courses() {
            let course = &named.course;
            let worked = Worked::of(course).unwrap();
            let (lines, _) = fold_lines(&worked.trunk);
            let long: i32 = lines.iter().map(|l| (l.to.0 - l.from.0) + (l.to.1 - l.from.1)).sum();
            let (rows, columns) = (course.rows.cast_signed(), course.columns.cast_signed());
            // Waste is left as it is: it may be larger than a page.
            let all = rows * (columns - 1) + columns * (rows - 1);
            let wasted = !worked.unfinished.is_empty();
            assert!(long == all || wasted && long < all, "{}: {long} of {all}", named.name);
        }
    }
}
