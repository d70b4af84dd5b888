//! A grid of panels in millimetres: how large each panel is, and where creases and layers then lie.
//!
//! A fold takes all layers, so that the upright creases of a sheet run through all its rows, and the level ones through
//! all its columns: every folded sheet is a grid of columns and rows, however unequal they are. Which panel lies where is
//! the whole-numbered folding's to say ([`Folding`]); this says how many millimetres that is, and where panels of these
//! sizes would not let themselves be folded so.

use super::folding::Folding;
use super::geometry::{Placement, Rect};
use super::packet::{Layer, Packet, Turn};
use super::scheme::{Crease, Lands, Part};
use super::worked::{Branch, BranchEnd};
use crate::paper::Length;

/// Sizes of the panels of a sheet. Together they are the sheet.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Measure {
    /// Widths of the columns, from the left as seen from side A.
    pub columns: Vec<Length>,
    /// Heights of the rows, from the top.
    pub rows: Vec<Length>,
}

/// A rectangle in the packet or on the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Span {
    /// Left edge.
    pub x0: Length,
    /// Top edge.
    pub y0: Length,
    /// Right edge.
    pub x1: Length,
    /// Bottom edge.
    pub y1: Length,
}

impl Span {
    /// Width.
    #[must_use]
    pub fn width(&self) -> Length {
        self.x1 - self.x0
    }

    /// Height.
    #[must_use]
    pub fn height(&self) -> Length {
        self.y1 - self.y0
    }

    /// The smallest rectangle that holds both.
    #[must_use]
    pub fn union(&self, other: &Self) -> Self {
        Self {
            x0: self.x0.min(other.x0),
            y0: self.y0.min(other.y0),
            x1: self.x1.max(other.x1),
            y1: self.y1.max(other.y1),
        }
    }
}

impl Measure {
    /// Equal panels. What does not divide evenly goes, nanometre by nanometre, to the first ones.
    #[must_use]
    pub fn equal(rows: u32, columns: u32, width: Length, height: Length) -> Self {
        Self { columns: shares(columns, width), rows: shares(rows, height) }
    }

    /// The width of the sheet.
    #[must_use]
    pub fn width(&self) -> Length {
        self.columns.iter().copied().sum()
    }

    /// The height of the sheet.
    #[must_use]
    pub fn height(&self) -> Length {
        self.rows.iter().copied().sum()
    }

    /// Where the line left of column `x` lies, from the left edge of the sheet.
    #[must_use]
    pub fn line_x(&self, x: i32) -> Length {
        line(&self.columns, x)
    }

    /// Where the line above row `y` lies, from the top edge of the sheet.
    #[must_use]
    pub fn line_y(&self, y: i32) -> Length {
        line(&self.rows, y)
    }

    /// A rectangle of panels on the sheet.
    #[must_use]
    pub fn span(&self, area: &Rect) -> Span {
        Span { x0: self.line_x(area.x0), y0: self.line_y(area.y0), x1: self.line_x(area.x1), y1: self.line_y(area.y1) }
    }

    /// The panels of a part of the sheet.
    #[must_use]
    pub fn part(&self, area: &Rect) -> Self {
        let cut = |all: &[Length], from: i32, to: i32| {
            let (from, to) = (from.max(0) as usize, to.max(0) as usize);
            all.get(from..to.min(all.len())).unwrap_or_default().to_vec()
        };
        Self { columns: cut(&self.columns, area.x0, area.x1), rows: cut(&self.rows, area.y0, area.y1) }
    }
}

fn shares(n: u32, whole: Length) -> Vec<Length> {
    let n = i64::from(n.max(1));
    let share = whole.shared(n);
    let rest = (whole - share.times(n)).nm();
    (0..n).map(|i| Length::from_nm(share.nm() + i64::from(i < rest))).collect()
}

fn line(sizes: &[Length], at: i32) -> Length {
    sizes.iter().take(at.max(0) as usize).copied().sum()
}

/// Where a layer lies: what is added to its place on the sheet, mirrored if its [`Placement`] is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Place {
    /// To the right.
    pub dx: Length,
    /// Downwards.
    pub dy: Length,
}

/// A folding in millimetres, and what follows it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Measured {
    /// The places of the layers before the first fold.
    pub flat: Vec<Place>,
    /// What each fold did.
    pub steps: Vec<MeasuredStep>,
    /// The line of the slit that follows, if one does.
    pub slit: Option<Length>,
    /// The parts after the slit: two, or one if one was laid on the other.
    pub parts: Vec<Measured>,
    /// Where panels of these sizes would not fold so.
    pub misfits: Vec<Misfit>,
}

/// One fold in millimetres.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MeasuredStep {
    /// The line of the crease in the packet: `x` of a vertical one, `y` of a horizontal one.
    pub at: Length,
    /// The places of the layers afterwards.
    pub places: Vec<Place>,
}

/// A fold or a slit that panels of these sizes would not let be made so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Misfit {
    /// In some layers the crease would lie elsewhere than in others.
    LinesApart {
        /// The fold, from 0; the number of folds for the slit after them.
        step: usize,
        /// By how much at the most.
        by: Length,
    },
    /// A panel that should end before the crease reaches over it and would be caught in the fold.
    Caught {
        /// The fold, from 0; the number of folds for the slit after them.
        step: usize,
        /// By how much at the most.
        by: Length,
    },
}

/// Panels that differ by less are taken as equal: what is left over in dividing a sheet is a few nanometres.
const ALIKE: Length = Length::from_um(1);

impl Measured {
    /// Measures a sheet that is folded whole.
    #[must_use]
    pub fn of_folding(folding: &Folding, measure: &Measure) -> Self {
        Self::folded(folding, measure, vec![Place::default(); folding.flat.layers.len()])
    }

    /// Measures a course, from the flat sheet on.
    #[must_use]
    pub fn of(trunk: &Branch, measure: &Measure) -> Self {
        Self::branch(trunk, measure, vec![Place::default(); trunk.folding.flat.layers.len()])
    }

    /// The places of the layers after `made` folds.
    #[must_use]
    pub fn places(&self, made: usize) -> &[Place] {
        match made.min(self.steps.len()).checked_sub(1).and_then(|i| self.steps.get(i)) {
            Some(step) => &step.places,
            None => &self.flat,
        }
    }

    /// All misfits of this folding and of what follows it.
    #[must_use]
    pub fn all_misfits(&self) -> Vec<Misfit> {
        let mut all = self.misfits.clone();
        all.extend(self.parts.iter().flat_map(Self::all_misfits));
        all
    }

    fn folded(folding: &Folding, measure: &Measure, flat: Vec<Place>) -> Self {
        let mut measured = Self { flat, steps: Vec::new(), slit: None, parts: Vec::new(), misfits: Vec::new() };
        for (number, step) in folding.steps.iter().enumerate() {
            let before = folding.packet(number);
            let places = measured.places(number).to_vec();
            let at = measured.line(number, before, &places, measure, step.turn.fold.crease, step.turn.at);
            let places = (0..step.after.layers.len()).map(|i| turned(&step.turn, i, &places, at)).collect();
            measured.steps.push(MeasuredStep { at, places });
        }
        measured
    }

    fn branch(branch: &Branch, measure: &Measure, flat: Vec<Place>) -> Self {
        let mut measured = Self::folded(&branch.folding, measure, flat);
        let made = branch.folding.steps.len();
        let (packet, places) = (branch.folding.last(), measured.places(made).to_vec());
        match &branch.end {
            BranchEnd::Piece(_) => {}
            BranchEnd::Apart { crease, at, parts } => {
                measured.slit = Some(measured.line(made, packet, &places, measure, *crease, *at));
                for (part, next) in sides(*crease).into_iter().zip(parts.iter()) {
                    let places = kept(packet, &places, part, *at);
                    measured.parts.push(Self::branch(next, measure, places));
                }
            }
            BranchEnd::Laid { crease, at, moves, lands, then, .. } => {
                let line = measured.line(made, packet, &places, measure, *crease, *at);
                measured.slit = Some(line);
                let [moving, staying] = [*moves, moves.other()].map(|part| kept(packet, &places, part, *at));
                // Both are knocked up to one edge, as in the whole-numbered packet.
                let vertical = *crease == Crease::Vertical;
                let edge = |part: Part| {
                    let layers = packet.layers.iter().zip(&places).filter_map(|(l, p)| Some((l.beside(part, *at)?, p)));
                    let spans = layers.map(|(l, p)| span(&l, p, measure));
                    spans.map(|s| if vertical { s.x0 } else { s.y0 }).min().unwrap_or_default()
                };
                let by = edge(moves.other()) - edge(*moves);
                let slid = moving.into_iter().map(|p| match crease {
                    Crease::Vertical => Place { dx: p.dx + by, ..p },
                    Crease::Horizontal => Place { dy: p.dy + by, ..p },
                });
                let places = match lands {
                    Lands::Over => staying.into_iter().chain(slid).collect(),
                    Lands::Under => slid.chain(staying).collect(),
                };
                measured.parts.push(Self::branch(then, measure, places));
            }
        }
        measured
    }

    /// Where a crease or a slit runs through the layers, and what of them does not fit it.
    fn line(
        &mut self,
        step: usize,
        packet: &Packet,
        places: &[Place],
        measure: &Measure,
        crease: Crease,
        at: i32,
    ) -> Length {
        let mut line: Option<Length> = None;
        let (mut apart, mut caught) = (Length::ZERO, Length::ZERO);
        let ends = |layer: &Layer, place: &Place| {
            let (r, s) = (layer.footprint(), span(layer, place, measure));
            match crease {
                Crease::Vertical => ((r.x0, r.x1), (s.x0, s.x1)),
                Crease::Horizontal => ((r.y0, r.y1), (s.y0, s.y1)),
            }
        };
        for (layer, place) in packet.layers.iter().zip(places) {
            let (low, high) = ends(layer, place).0;
            if low < at && at < high {
                let here = line_of(layer, place, measure, crease, at);
                apart = apart.max((here - *line.get_or_insert(here)).abs());
            }
        }
        let line = line.unwrap_or_default();
        for (layer, place) in packet.layers.iter().zip(places) {
            let ((low, high), (from, to)) = ends(layer, place);
            if high <= at {
                caught = caught.max(to - line);
            } else if low >= at {
                caught = caught.max(line - from);
            }
        }
        if apart > ALIKE {
            self.misfits.push(Misfit::LinesApart { step, by: apart });
        }
        if caught > ALIKE {
            self.misfits.push(Misfit::Caught { step, by: caught });
        }
        line
    }
}

/// The rectangle that a layer covers in the packet.
#[must_use]
pub fn span(layer: &Layer, place: &Place, measure: &Measure) -> Span {
    let on_sheet = measure.span(&layer.area);
    let Placement { mirror_x, mirror_y, .. } = layer.placement;
    let ends = |mirrored: bool, low: Length, high: Length| if mirrored { (-high, -low) } else { (low, high) };
    let ((x0, x1), (y0, y1)) = (ends(mirror_x, on_sheet.x0, on_sheet.x1), ends(mirror_y, on_sheet.y0, on_sheet.y1));
    Span { x0: x0 + place.dx, y0: y0 + place.dy, x1: x1 + place.dx, y1: y1 + place.dy }
}

/// The rectangle that layers cover together; none if there are none.
#[must_use]
pub fn whole_span(layers: &[Layer], places: &[Place], measure: &Measure) -> Option<Span> {
    let spans = layers.iter().zip(places).map(|(layer, place)| span(layer, place, measure));
    spans.reduce(|all, span| all.union(&span))
}

fn line_of(layer: &Layer, place: &Place, measure: &Measure, crease: Crease, at: i32) -> Length {
    let (x, y) = layer.placement.sheet_from_packet(at, at);
    let signed = |mirrored: bool, v: Length| if mirrored { -v } else { v };
    match crease {
        Crease::Vertical => signed(layer.placement.mirror_x, measure.line_x(x)) + place.dx,
        Crease::Horizontal => signed(layer.placement.mirror_y, measure.line_y(y)) + place.dy,
    }
}

/// The place of layer `i` after a fold.
fn turned(turn: &Turn, i: usize, before: &[Place], at: Length) -> Place {
    let parent = turn.parents.get(i).and_then(|p| before.get(*p as usize)).copied().unwrap_or_default();
    match turn.fold.crease {
        _ if !turn.moved(i) => parent,
        Crease::Vertical => Place { dx: at + at - parent.dx, ..parent },
        Crease::Horizontal => Place { dy: at + at - parent.dy, ..parent },
    }
}

/// The places of what lies on one side of a slit.
fn kept(packet: &Packet, places: &[Place], part: Part, at: i32) -> Vec<Place> {
    packet.layers.iter().zip(places).filter(|(l, _)| l.beside(part, at).is_some()).map(|(_, p)| *p).collect()
}

const fn sides(crease: Crease) -> [Part; 2] {
    match crease {
        Crease::Vertical => [Part::Left, Part::Right],
        Crease::Horizontal => [Part::Top, Part::Bottom],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::{Course, Fold, Scheme, Worked, library};

    fn mm(v: i64) -> Length {
        Length::from_whole_mm(v)
    }

    #[test]
    fn equal_panels_lie_where_the_grid_lays_them() {
        for named in library() {
            let Scheme { rows, columns, .. } = named.scheme;
            let measure =
                Measure::equal(rows, columns, mm(100).times(i64::from(columns)), mm(150).times(i64::from(rows)));
            let worked = Worked::of(&Course::of_scheme(&named.scheme)).unwrap();
            let measured = Measured::of(&worked.trunk, &measure);
            assert_eq!(measured.all_misfits(), [], "{}", named.name);
            let made = named.scheme.folds.len();
            let packet = worked.trunk.folding.packet(made);
            for (layer, place) in packet.layers.iter().zip(measured.places(made)) {
                let (r, s) = (layer.footprint(), span(layer, place, &measure));
                assert_eq!((s.x0, s.y1), (mm(100).times(i64::from(r.x0)), mm(150).times(i64::from(r.y1))));
            }
        }
    }

    #[test]
    fn a_letter_fold_wants_its_inner_panel_short() {
        let folds = vec![Fold::new(2, Part::Right, Lands::Over), Fold::new(1, Part::Left, Lands::Over)];
        let head = crate::fold::Direction::Up;
        let scheme = Scheme { rows: 1, columns: 3, folds, head, reads: crate::fold::Reads::LeftToRight };
        let folding = Folding::of(&scheme).unwrap();
        let with = |columns: [i64; 3]| {
            let measure = Measure { columns: columns.map(mm).to_vec(), rows: vec![mm(200)] };
            Measured::of_folding(&folding, &measure)
        };
        assert_eq!(with([100, 100, 98]).misfits, []);
        assert_eq!(with([100, 100, 98]).steps[1].at, mm(100));
        assert_eq!(with([100, 100, 101]).misfits, [Misfit::Caught { step: 1, by: mm(1) }]);
    }

    #[test]
    fn creases_that_do_not_meet_are_told() {
        let folds = vec![Fold::new(2, Part::Right, Lands::Over), Fold::new(1, Part::Right, Lands::Over)];
        let head = crate::fold::Direction::Up;
        let scheme = Scheme { rows: 1, columns: 4, folds, head, reads: crate::fold::Reads::LeftToRight };
        let folding = Folding::of(&scheme).unwrap();
        let with = |columns: [i64; 4]| {
            let measure = Measure { columns: columns.map(mm).to_vec(), rows: vec![mm(200)] };
            Measured::of_folding(&folding, &measure).misfits
        };
        // A lip of 10 mm: the first fold 5 mm off the middle, and the second in the middle of the rest.
        assert_eq!(with([55, 50, 50, 45]), []);
        assert_eq!(with([50, 60, 50, 40]), [Misfit::LinesApart { step: 1, by: mm(10) }]);
    }
}
