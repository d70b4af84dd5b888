//! One leaf seen from its front, with the lines of the knives, the type and the bleed. An edge that is closed is a doubled
//! line: a strong one where it stays closed after the cut.

use super::face::{PAGE_HEIGHT, PAGE_WIDTH, figure, hatch, page_in_panel};
use super::item::{Ground, Group, Ink, Item, Line, Scene};
use crate::finish::{BoltCut, Edge, Leaf, Leaves, trim_at, trimmed};
use crate::fold::{Direction, Reads, Side};
use crate::paper::{Length, Margins, Trims};
use crate::units::short;
use kurbo::{Affine, Point, Rect};

/// Free space around it, as a share of the width of the leaf, and the distance of the two lines of a closed edge.
const AROUND: f64 = 0.1;
const DOUBLED: f64 = 0.022;

/// Draws a leaf, counted from 1, in millimetres. `margins` are those of the type on the cut page; `shift`
/// pages come before the section. Empty where there is no such leaf.
#[must_use]
pub fn trim_plan(
    leaves: &Leaves,
    trims: &Trims,
    caliper: Length,
    margins: Option<&Margins>,
    number: u32,
    (reads, shift): (Reads, u32),
) -> Scene {
    let Some(leaf) = leaf(leaves, number) else { return Scene::default() };
    let lines = Lines::of(leaves, leaf, trims);
    let paper = Rect::new(0.0, 0.0, leaf.width().mm(), leaf.height().mm());
    let bleed = lines.bled(trims.bleed.mm());
    let space = paper.width() * AROUND;
    let bounds = paper.union(lines.cut).union(bleed).inset(space);
    // A book that is read from right to left has its spine at the right of an odd page.
    let mirror = if reads == Reads::RightToLeft {
        Affine::new([-1.0, 0.0, 0.0, 1.0, bounds.x1, -bounds.y0])
    } else {
        Affine::translate((-bounds.x0, -bounds.y0))
    };
    let place = |r: Rect| mirror.transform_rect_bbox(r);
    let ground = Ground { side: leaf.front, tone: 0 };
    let (w, h) = (paper.width(), paper.height());
    let mut on_paper = Vec::new();
    if leaf.front == Side::B {
        on_paper.push(hatch(w, h, false));
    }
    on_paper.push(Item::Group(Group {
        place: Affine::translate(((w - PAGE_WIDTH * 0.5) / 2.0, (h - PAGE_HEIGHT * 0.5) / 2.0))
            * Affine::scale(0.5)
            * page_in_panel(PAGE_WIDTH, PAGE_HEIGHT, Direction::Up),
        ground: None,
        tag: None,
        size: (PAGE_WIDTH, PAGE_HEIGHT),
        items: figure((2 * number - 1).saturating_add(shift), false, false).into(),
    }));
    let at = place(paper);
    let mut items = vec![Item::Group(Group {
        place: Affine::translate((at.x0, at.y0)),
        ground: Some(ground),
        tag: None,
        size: (w, h),
        items: on_paper.into(),
    })];
    let type_area = margins.map(|m| lines.type_area(m)).filter(|r| r.width() > 0.0 && r.height() > 0.0);
    if let Some(area) = type_area {
        items.push(Item::filled(place(area), Ink::CastOnPaper));
    }
    if trims.bleed > Length::ZERO {
        items.push(frame(place(bleed), Line::dashed(Ink::Crease, 1.2, 2.0, 3.0)));
    }
    for edge in Edge::ALL.into_iter().filter(|e| trim_at(trims, *e) > Length::ZERO) {
        // Light beside the paper, ink upon it.
        items.push(knife(mirror, lines.knife(edge, bounds), Ink::Light));
        let across = lines.knife(edge, bounds).intersect(paper);
        if across.width() >= 0.0 && across.height() >= 0.0 && lines.on_paper(edge, paper) {
            items.push(knife(mirror, across, Ink::Black));
        }
    }
    let cut = trimmed(leaves, trims, caliper);
    for EdgeLine { edge, from, to, out } in edges(paper) {
        let bolt = edge.and_then(|edge| bolt_of(&cut.bolts, number, edge));
        let strong = match (edge, bolt) {
            (None, _) => leaf.across_spine.map(|_| true),
            (Some(_), bolt) => bolt.map(|b| !b.opened()),
        };
        let width = if strong == Some(true) { 3.0 } else { 1.4 };
        items.push(Item::stroke(mirror * from, mirror * to, Line::solid(Ink::Black, width)));
        if strong.is_some() {
            let by = Affine::translate((out.0 * w * DOUBLED, out.1 * w * DOUBLED));
            items.push(Item::stroke(mirror * (by * from), mirror * (by * to), Line::solid(Ink::Light, width)));
        }
    }
    Scene { size: (bounds.width(), bounds.height()), items }
}

/// The same leaf in sentences: one for the spine and one for every other edge.
#[must_use]
pub fn trim_plan_says(leaves: &Leaves, trims: &Trims, caliper: Length, number: u32) -> Vec<String> {
    let Some(leaf) = leaf(leaves, number) else { return Vec::new() };
    let cut = trimmed(leaves, trims, caliper);
    let mut says = vec![match leaf.across_spine {
        Some(other) => format!("Spine: one paper with leaf {other}."),
        None => "Spine: loose, no fold holds it.".to_owned(),
    }];
    for edge in Edge::ALL {
        let trim = trim_at(trims, edge);
        let takes = short(trim.mm());
        let bolt = bolt_of(&cut.bolts, number, edge);
        let missed = cut.missed.iter().find(|m| m.leaf == number && m.edge == edge);
        let is = match bolt {
            Some(b) => format!("one paper with leaf {}", b.bolt.other(number)),
            None => "open".to_owned(),
        };
        let cut = match (missed, bolt) {
            (Some(m), _) => format!("it lies {} mm inside the cut", short(m.inside.mm())),
            (None, _) if trim <= Length::ZERO => "it is not cut".to_owned(),
            (None, Some(b)) if b.opened() => format!("the knife takes {takes} mm and opens it"),
            (None, Some(b)) => {
                format!("the knife takes {takes} mm, and it stays closed, since that wants {} mm", short(b.needs.mm()))
            }
            (None, None) => format!("the knife takes {takes} mm"),
        };
        let name = match edge {
            Edge::Head => "Head",
            Edge::Tail => "Tail",
            Edge::ForeEdge => "Fore-edge",
        };
        says.push(format!("{name}: {is}; {cut}."));
    }
    says
}

fn leaf(leaves: &Leaves, number: u32) -> Option<&Leaf> {
    leaves.leaves.get((number as usize).checked_sub(1)?)
}

fn bolt_of(bolts: &[BoltCut], leaf: u32, edge: Edge) -> Option<&BoltCut> {
    bolts.iter().find(|b| b.bolt.edge == edge && (b.bolt.leaves.0 == leaf || b.bolt.leaves.1 == leaf))
}

/// An edge of a leaf whose spine is at the left.
struct EdgeLine {
    /// `None` is the spine.
    edge: Option<Edge>,
    from: Point,
    to: Point,
    /// The way out.
    out: (f64, f64),
}

fn edges(r: Rect) -> [EdgeLine; 4] {
    let line = |edge, from: (f64, f64), to: (f64, f64), out| EdgeLine { edge, from: from.into(), to: to.into(), out };
    [
        line(None, (r.x0, r.y0), (r.x0, r.y1), (-1.0, 0.0)),
        line(Some(Edge::Head), (r.x0, r.y0), (r.x1, r.y0), (0.0, -1.0)),
        line(Some(Edge::Tail), (r.x0, r.y1), (r.x1, r.y1), (0.0, 1.0)),
        line(Some(Edge::ForeEdge), (r.x1, r.y0), (r.x1, r.y1), (1.0, 0.0)),
    ]
}

/// The page that the knives leave, in the millimetres of the leaf: its spine edge is at 0, its head at 0.
struct Lines {
    cut: Rect,
}

impl Lines {
    fn of(leaves: &Leaves, leaf: &Leaf, trims: &Trims) -> Self {
        let usual = leaves.usual;
        let x1 = usual.fore_edge - trims.fore_edge - leaf.lies.spine;
        let y0 = usual.head + trims.head - leaf.lies.head;
        let y1 = usual.tail - trims.foot - leaf.lies.head;
        let x0 = -leaf.lies.spine.mm();
        Self { cut: Rect::new(x0, y0.mm(), x1.mm().max(x0), y1.mm().max(y0.mm())) }
    }

    /// The type on the odd page.
    fn type_area(&self, m: &Margins) -> Rect {
        let Rect { x0, y0, x1, y1 } = self.cut;
        Rect::new(x0 + m.back.mm(), y0 + m.head.mm(), x1 - m.fore_edge.mm(), y1 - m.foot.mm())
    }

    /// The page with its bleed, which goes beyond three edges.
    fn bled(&self, by: f64) -> Rect {
        let Rect { x0, y0, x1, y1 } = self.cut;
        Rect::new(x0, y0 - by, x1 + by, y1 + by)
    }

    /// The line of a knife through the whole picture, as a rectangle without width or height.
    fn knife(&self, edge: Edge, bounds: Rect) -> Rect {
        match edge {
            Edge::Head => Rect::new(bounds.x0, self.cut.y0, bounds.x1, self.cut.y0),
            Edge::Tail => Rect::new(bounds.x0, self.cut.y1, bounds.x1, self.cut.y1),
            Edge::ForeEdge => Rect::new(self.cut.x1, bounds.y0, self.cut.x1, bounds.y1),
        }
    }

    fn on_paper(&self, edge: Edge, paper: Rect) -> bool {
        match edge {
            Edge::Head => (paper.y0..=paper.y1).contains(&self.cut.y0),
            Edge::Tail => (paper.y0..=paper.y1).contains(&self.cut.y1),
            Edge::ForeEdge => (paper.x0..=paper.x1).contains(&self.cut.x1),
        }
    }
}

fn knife(place: Affine, line: Rect, ink: Ink) -> Item {
    let ends = (Point::new(line.x0, line.y0), Point::new(line.x1, line.y1));
    Item::stroke(place * ends.0, place * ends.1, Line::dashed(ink, 1.6, 8.0, 5.0))
}

fn frame(r: Rect, line: Line) -> Item {
    let points = [(r.x0, r.y0), (r.x1, r.y0), (r.x1, r.y1), (r.x0, r.y1)].map(Point::from);
    Item::polygon(&points, None, Some(line))
}
