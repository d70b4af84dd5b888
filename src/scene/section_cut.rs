//! A section cut through between head and tail, seen from the head, with its front uppermost: sheets within sheets, how
//! far the inner ones stand out, and where the knife at the fore-edge goes through.
//!
//! Thickness, and with it creep, is drawn many times larger than it is; [`SectionCut::times`] says how many. The line of
//! the knife and the type stand where they do on the outermost leaf.

use super::cutaway::{lines, outline};
use super::item::{Ground, Group, Ink, Item, Line, Scene};
use crate::finish::{BoltCut, Edge, Leaf, Leaves, Trimmed, creep, margins as margins_of, trimmed};
use crate::fold::{Reads, Side};
use crate::paper::{Length, Margins, Trims};
use kurbo::{Affine, BezPath, PathEl, Point, Rect};

/// The picture, and how far it exaggerates.
#[derive(Clone, Debug, PartialEq)]
pub struct SectionCut {
    /// The picture, in pixels.
    pub scene: Scene,
    /// How many times larger creep is drawn than the width of the pages. 0 where nothing creeps.
    pub times: f64,
}

/// One leaf, as the table beside the picture has it.
#[derive(Clone, Debug, PartialEq)]
pub struct SectionCutRow {
    /// Counted from 1.
    pub leaf: u32,
    /// The leaf that it is one paper with at the spine.
    pub across_spine: Option<u32>,
    /// The leaf that it is one paper with at the fore-edge, and whether the knife opens that.
    pub bolt: Option<(u32, bool)>,
    /// How far it stands out if folds are sharp.
    pub creep_flat: Length,
    /// The same if they are round.
    pub creep_round: Length,
    /// What the knife takes off it at the fore-edge (sharp folds); negative where it does not reach the leaf.
    pub taken: Length,
    /// The outer margin after the cut (sharp folds), if one was given.
    pub margin: Option<Length>,
}

/// The leaves from front to back, in words and numbers.
#[must_use]
pub fn section_cut_rows(
    leaves: &Leaves,
    trims: &Trims,
    caliper: Length,
    margins: Option<&Margins>,
) -> Vec<SectionCutRow> {
    let cut = trimmed(leaves, trims, caliper);
    let outer = margins.map_or(Length::ZERO, |m| m.fore_edge);
    let left = margins_of(leaves, trims, caliper, outer);
    let all = leaves.leaves.iter().zip(creep(leaves, caliper)).zip(left);
    all.map(|((leaf, creep), left)| SectionCutRow {
        leaf: leaf.number,
        across_spine: leaf.across_spine,
        bolt: fore_edge_bolt(&cut.bolts, leaf.number).map(|b| (b.bolt.other(leaf.number), b.opened())),
        creep_flat: creep.flat,
        creep_round: creep.round,
        taken: match trims.fore_edge {
            Length::ZERO => Length::ZERO,
            trim => trim + leaves.stands_out(leaf, Edge::ForeEdge) + creep.flat,
        },
        margin: margins.map(|_| left.outer_flat),
    })
    .collect()
}

fn fore_edge_bolt(bolts: &[BoltCut], leaf: u32) -> Option<&BoltCut> {
    bolts.iter().find(|b| b.bolt.edge == Edge::ForeEdge && (b.bolt.leaves.0 == leaf || b.bolt.leaves.1 == leaf))
}

/// From one leaf to the next at the most, px.
const WIDEST_PITCH: f64 = 26.0;
/// Free space at all sides.
const BESIDE: f64 = 14.0;
/// Figures are this large, if leaves are so far apart.
const FIGURE: f64 = 13.0;
/// Width of a figure of size 1.
const WIDE: f64 = 0.64;
/// The share of the width that creep may take, and of the margin.
const CREEP_OF_WIDTH: f64 = 0.3;
const CREEP_OF_MARGIN: f64 = 0.8;

/// Draws the section at `size` pixels. `shift` pages come before it in the book. Type is drawn where `margins` are given.
#[must_use]
pub fn section_cut(
    leaves: &Leaves,
    trims: &Trims,
    caliper: Length,
    margins: Option<&Margins>,
    (reads, shift): (Reads, u32),
    size: (f64, f64),
) -> SectionCut {
    let lay = Lay::of(leaves, trims, caliper, margins, reads, size);
    let mut items = Vec::new();
    let ends = lay.fore_ends(leaves, &trimmed(leaves, trims, caliper));
    lay.paper(leaves, &ends, &mut items);
    lay.type_area(leaves, margins, &mut items);
    if trims.fore_edge > Length::ZERO {
        let x = lay.x(lay.cut);
        let (top, foot) = (lay.y(0) - lay.pitch, lay.y(leaves.leaves.len().saturating_sub(1)) + lay.pitch);
        items.push(Item::stroke((x, top), (x, foot), Line::dashed(Ink::Light, 2.0, 8.0, 5.0)));
    }
    lay.figures(leaves, &ends, shift, &mut items);
    let times = if lay.step > 0.0 && caliper > Length::ZERO { lay.step / (caliper.mm() * lay.scale) } else { 0.0 };
    SectionCut { scene: Scene { size, items }, times }
}

/// Where everything stands.
struct Lay {
    width: f64,
    spine_right: bool,
    top: f64,
    pitch: f64,
    thick: f64,
    /// Pixels to a millimetre across the page.
    scale: f64,
    /// Creep of one sheet, px.
    step: f64,
    /// The knife, px from the back.
    cut: f64,
    cut_mm: f64,
}

impl Lay {
    fn of(
        leaves: &Leaves,
        trims: &Trims,
        caliper: Length,
        margins: Option<&Margins>,
        reads: Reads,
        (width, height): (f64, f64),
    ) -> Self {
        let count = leaves.leaves.len().max(1) as f64;
        let deepest = leaves.leaves.iter().map(|l| l.around).max().unwrap_or(0);
        let deep = f64::from(deepest.max(1));
        let pitch = ((height - 2.0 * BESIDE) / count).clamp(0.5, WIDEST_PITCH);
        let figures = if pitch >= FIGURE { 4.0 * FIGURE * WIDE } else { 0.0 };
        let across = (width - 2.0 * BESIDE - figures).max(1.0);
        let widest = leaves.leaves.iter().map(|l| l.lies.fore_edge.mm()).fold(1.0, f64::max);
        let mut step = pitch.min(across * CREEP_OF_WIDTH / deep);
        // What is not cut off in life must not seem to be.
        let room = margins.map(|m| m.fore_edge).filter(|m| *m > caliper.times(i64::from(deepest))).map(Length::mm);
        if let Some(margin) = room {
            step = step.min(CREEP_OF_MARGIN * margin * across * (1.0 - CREEP_OF_WIDTH) / widest / deep);
        }
        let scale = (across - step * f64::from(deepest)) / widest;
        let thick = (0.72 * pitch.min(if deepest > 0 { step } else { pitch })).max(0.8);
        let cut_mm = (leaves.usual.fore_edge - trims.fore_edge).mm();
        Self {
            width,
            // From the head with the front up, the spine of a book that reads from left to right is at the right.
            spine_right: reads == Reads::LeftToRight,
            top: (height - pitch * count) / 2.0,
            pitch,
            thick,
            scale,
            step: if deepest > 0 { step } else { 0.0 },
            cut: cut_mm * scale,
            cut_mm,
        }
    }

    /// A place so many pixels from the back.
    fn x(&self, from_back: f64) -> f64 {
        if self.spine_right { self.width - BESIDE - from_back } else { BESIDE + from_back }
    }

    fn y(&self, leaf: usize) -> f64 {
        self.top + self.pitch * (leaf as f64 + 0.5)
    }

    fn creep(&self, leaf: &Leaf) -> f64 {
        self.step * f64::from(leaf.around)
    }

    /// How far a bend reaches along the paper.
    fn bend(&self) -> f64 {
        (self.pitch / 2.0).min(self.step.max(self.thick)).max(self.thick / 2.0)
    }

    fn spine_end(&self, leaf: &Leaf) -> f64 {
        leaf.lies.spine.mm() * self.scale + self.creep(leaf)
    }

    /// The fore-edge of every leaf: where its bolt is, if it has one, within the bolts around that. A bolt is drawn on
    /// that side of the knife on which it lies in life.
    fn fore_ends(&self, leaves: &Leaves, trimmed: &Trimmed) -> Vec<f64> {
        let own = |l: &Leaf| l.lies.fore_edge.mm() * self.scale + self.creep(l);
        let mut ends: Vec<f64> = leaves.leaves.iter().map(own).collect();
        // Bolts are sorted by their first leaf, so that those around one come before it; of those the last is the next.
        let mut around: Vec<(u32, f64)> = Vec::new();
        for cut in trimmed.bolts.iter().filter(|b| b.bolt.edge == Edge::ForeEdge) {
            let bolt = cut.bolt;
            while around.last().is_some_and(|(last, _)| *last < bolt.leaves.1) {
                around.pop();
            }
            let both = [bolt.leaves.0, bolt.leaves.1].map(|l| (l as usize).saturating_sub(1));
            let reach = both.iter().filter_map(|l| ends.get(*l)).copied().fold(f64::MAX, f64::min);
            let at = around.last().map_or(reach, |(_, outer)| reach.min(outer - self.step.max(self.thick)));
            let at = match cut.trim {
                _ if cut.opened() => at.max(self.cut + self.thick + 1.0),
                Length::ZERO => at,
                _ => at.min(self.cut - self.thick - 1.0),
            };
            for leaf in both {
                if let Some(end) = ends.get_mut(leaf) {
                    *end = at;
                }
            }
            around.push((bolt.leaves.1, at));
        }
        ends
    }

    /// Outlines, then both halves of every leaf by their side, then the hatch.
    fn paper(&self, leaves: &Leaves, ends: &[f64], items: &mut Vec<Item>) {
        let half = self.thick / 2.0;
        let (mut outlines, mut hatch) = (BezPath::new(), BezPath::new());
        let mut papers = [BezPath::new(), BezPath::new()];
        for (i, (leaf, to)) in leaves.leaves.iter().zip(ends.iter().copied()).enumerate() {
            let bolt = leaves.bolt(leaf.number, Edge::ForeEdge);
            let from = self.spine_end(leaf);
            let inner = (
                from + if leaf.across_spine.is_some() { self.bend() } else { 0.0 },
                to - if bolt.is_some() { self.bend() } else { 0.0 },
            );
            let (x0, x1) = (self.x(inner.0), self.x(inner.1));
            let (x0, x1) = (x0.min(x1), x0.max(x1));
            let y = self.y(i);
            outline(Rect::new(x0, y - half, x1, y + half), &mut outlines);
            let spine = leaf.across_spine.filter(|o| *o > leaf.number).map(|o| (o, from, -1.0));
            let fore = bolt.map(|b| b.other(leaf.number)).filter(|o| *o > leaf.number).map(|o| (o, to, 1.0));
            for (side, upper) in [(leaf.front, true), (leaf.front.other(), false)] {
                let strip = if upper { Rect::new(x0, y - half, x1, y) } else { Rect::new(x0, y, x1, y + half) };
                let Some(path) = papers.get_mut(usize::from(side == Side::B)) else { continue };
                outline(strip, path);
                if side == Side::B {
                    lines(strip, &mut hatch);
                }
                for (other, at, way) in spine.into_iter().chain(fore) {
                    // The upper side of the upper leaf is outside.
                    let band = if upper { (0.0, half) } else { (-half, 0.0) };
                    self.ring((i, other as usize - 1), at, way, band, path);
                }
            }
            for (other, at, way) in spine.into_iter().chain(fore) {
                self.ring((i, other as usize - 1), at, way, (-half, half), &mut outlines);
            }
        }
        items.push(Item::Path { path: outlines, fill: None, line: Some(Line::solid(Ink::Black, 1.2)) });
        for (path, side) in papers.into_iter().zip([Side::A, Side::B]) {
            items.push(Item::Path { path, fill: Some(Ink::Paper(Ground { side, tone: 0 })), line: None });
        }
        items.push(Item::Path { path: hatch, fill: Some(Ink::Hatch), line: None });
    }

    /// The paper of a fold between two leaves, from `inner` to `outer` beside its middle. `at` is where the middle of the
    /// fold lies from the back; `way` is 1 where it points to the fore-edge and -1 where it points to the back.
    fn ring(&self, ends: (usize, usize), at: f64, way: f64, (inner, outer): (f64, f64), path: &mut BezPath) {
        path.extend(self.round(ends, at, way, outer));
        let back = self.round(ends, at, way, inner).reverse_subpaths();
        path.extend(back.into_iter().map(|el| match el {
            PathEl::MoveTo(p) => PathEl::LineTo(p),
            other => other,
        }));
        path.close_path();
    }

    fn round(&self, (i, j): (usize, usize), at: f64, way: f64, out: f64) -> BezPath {
        let (y0, y1) = (self.y(i) - out, self.y(j) + out);
        let reach = self.bend() + out;
        let r = reach.min((y1 - y0) / 2.0).max(0.0);
        // Quarter circles, with the handles of `ring`.
        let k = r * (1.0 - 0.552_284_75);
        let start = at - way * self.bend();
        let place = |along: f64, y: f64| Point::new(self.x(start + way * along), y);
        let mut path = BezPath::new();
        path.move_to(place(0.0, y0));
        path.line_to(place(reach - r, y0));
        path.curve_to(place(reach - k, y0), place(reach, y0 + k), place(reach, y0 + r));
        path.line_to(place(reach, y1 - r));
        path.curve_to(place(reach, y1 - k), place(reach - k, y1), place(reach - r, y1));
        path.line_to(place(0.0, y1));
        path
    }

    /// The type on both pages of every leaf, as bars of ink on the paper.
    fn type_area(&self, leaves: &Leaves, margins: Option<&Margins>, items: &mut Vec<Item>) {
        let type_of = |m: &Margins| (m.back.mm(), self.cut_mm - m.fore_edge.mm());
        let Some((from_mm, to_mm)) = margins.map(type_of).filter(|(a, b)| *a >= 0.0 && a < b) else { return };
        let mut path = BezPath::new();
        let (half, ink) = (self.thick / 2.0, (self.thick * 0.22).max(0.6));
        for (i, leaf) in leaves.leaves.iter().enumerate() {
            let (from, to) = (from_mm * self.scale + self.creep(leaf), to_mm * self.scale + self.creep(leaf));
            let (a, b) = (self.x(from), self.x(to));
            let y = self.y(i);
            outline(Rect::new(a.min(b), y - half, a.max(b), y - half + ink), &mut path);
            outline(Rect::new(a.min(b), y + half - ink, a.max(b), y + half), &mut path);
        }
        items.push(Item::Path { path, fill: Some(Ink::Black), line: None });
    }

    /// The odd page of every leaf, on a flag beyond its fore-edge.
    fn figures(&self, leaves: &Leaves, ends: &[f64], shift: u32, items: &mut Vec<Item>) {
        if self.pitch < FIGURE {
            return;
        }
        for (i, (leaf, end)) in leaves.leaves.iter().zip(ends).enumerate() {
            let text = (2 * leaf.number - 1 + shift).to_string();
            let (w, h) = ((text.len() as f64 + 0.6) * FIGURE * WIDE, FIGURE * 1.1);
            let end = self.x(*end);
            let x = if self.spine_right { end - 6.0 - w } else { end + 6.0 };
            let baseline = Point::new(w / 2.0, h / 2.0 + FIGURE * 0.35);
            items.push(Item::Group(Group {
                place: Affine::translate((x, self.y(i) - h / 2.0)),
                ground: Some(Ground { side: Side::A, tone: 0 }),
                tag: None,
                size: (w, h),
                items: [Item::Figure { text, baseline, size: FIGURE, halo: 0.0 }].into(),
            }));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::{Course, Measure, Worked, library};

    fn three(trim: Length) -> Trims {
        Trims { head: trim, foot: trim, fore_edge: trim, bleed: trim }
    }

    #[test]
    fn bolts_lie_on_the_side_of_the_knife_where_they_lie_in_life() {
        let mut seen = [false; 2];
        for named in library() {
            let worked = Worked::of(&Course::of_scheme(&named.scheme)).unwrap();
            let (rows, columns) = (named.scheme.rows, named.scheme.columns);
            let panel = |n: u32| Length::from_whole_mm(150).times(i64::from(n));
            let leaves =
                Leaves::of(&worked, &vec![0], &Measure::equal(rows, columns, panel(columns), panel(rows))).unwrap();
            for um in [50, 150, 400, 3_000] {
                let (trims, caliper) = (three(Length::from_um(um)), Length::from_um(100));
                let cut = trimmed(&leaves, &trims, caliper);
                let margins = Margins::default();
                let lay = Lay::of(&leaves, &trims, caliper, Some(&margins), Reads::LeftToRight, (640.0, 360.0));
                let ends = lay.fore_ends(&leaves, &cut);
                for bolt in cut.bolts.iter().filter(|b| b.bolt.edge == Edge::ForeEdge) {
                    for leaf in [bolt.bolt.leaves.0, bolt.bolt.leaves.1] {
                        assert_eq!(ends[leaf as usize - 1] > lay.cut, bolt.opened(), "{} {um}", named.name);
                    }
                    seen[usize::from(bolt.opened())] = true;
                }
            }
        }
        assert_eq!(seen, [true; 2], "both kinds are there");
    }
}
