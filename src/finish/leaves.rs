//! The leaves of a section as the trimmer gets it: where their edges lie, and where they hang together.

use crate::fold::{
    Branch, BranchEnd, Crease, Direction, LayerPlace, Measure, Measured, Nest, Side, Span, Worked, span,
};
use crate::paper::Length;
use std::collections::{BTreeMap, BTreeSet};

/// An edge of a section that a knife may cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Edge {
    /// The upper edge of the pages.
    Head,
    /// The lower edge.
    Tail,
    /// The edge opposite the spine.
    ForeEdge,
}

impl Edge {
    /// All three, in the order in which a trimmer is spoken of.
    pub const ALL: [Self; 3] = [Self::Head, Self::Tail, Self::ForeEdge];

    /// `head`, `tail` or `fore-edge`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Head => "head",
            Self::Tail => "tail",
            Self::ForeEdge => "fore-edge",
        }
    }
}

/// Where the edges of a leaf lie in the section, by the flat measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lies {
    /// From the back of the section to the leaf's spine edge; 0 for a leaf that the spine holds.
    pub spine: Length,
    /// From the back to its fore-edge.
    pub fore_edge: Length,
    /// From the uppermost edge of its piece down to its head.
    pub head: Length,
    /// From there to its tail.
    pub tail: Length,
}

/// One leaf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leaf {
    /// Counted from 1 at the front of the section.
    pub number: u32,
    /// The piece of the sheet that it belongs to.
    pub piece: usize,
    /// Row of its panel on the whole sheet, from 0 at the top.
    pub row: u32,
    /// Column of its panel as seen from side A, from 0 at the left.
    pub column: u32,
    /// The side of the sheet that is its front, with the odd page.
    pub front: Side,
    /// The leaf that it is one paper with across the spine; `None` for a loose leaf.
    pub across_spine: Option<u32>,
    /// How many folded sheets lie around it at the spine.
    pub around: u32,
    /// Where it lies.
    pub lies: Lies,
}

impl Leaf {
    /// Its width.
    #[must_use]
    pub fn width(&self) -> Length {
        self.lies.fore_edge - self.lies.spine
    }

    /// Its height.
    #[must_use]
    pub fn height(&self) -> Length {
        self.lies.tail - self.lies.head
    }
}

/// A closed fold at an edge that a knife may cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bolt {
    /// The edge.
    pub edge: Edge,
    /// The two leaves that are one paper there, the one nearer the front first.
    pub leaves: (u32, u32),
    /// How far it stands out beyond the usual edge of the section; negative where it lies within.
    pub stands_out: Length,
    /// How many other bolts of this edge lie around it.
    pub around: u32,
}

impl Bolt {
    /// The other leaf.
    #[must_use]
    pub const fn other(&self, leaf: u32) -> u32 {
        if self.leaves.0 == leaf { self.leaves.1 } else { self.leaves.0 }
    }
}

/// All leaves of a section.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leaves {
    /// From front to back.
    pub leaves: Vec<Leaf>,
    /// The bolts, edge by edge, by their first leaf.
    pub bolts: Vec<Bolt>,
    /// Where the edges of most leaves lie. A section that is half long and half short (a lip) counts as short. Trims
    /// are taken from here.
    pub usual: Lies,
}

/// Edges that lie nearer to each other are one edge.
const ALIKE: i64 = 1_000;

/// A panel by column and row.
type Cell = (i32, i32);

/// A leaf before it has its number.
#[derive(Clone, Copy)]
struct Raw {
    piece: usize,
    cell: Cell,
    front: Side,
    /// The panels beyond its spine, head, tail and fore-edge.
    beyond: [Cell; 4],
    lies: Lies,
}

impl Leaves {
    /// The leaves of a section. `None` where a piece of it is not folded down to a page, or is not there.
    #[must_use]
    pub fn of(worked: &Worked, nest: &Nest, measure: &Measure) -> Option<Self> {
        let measured = Measured::of(&worked.trunk, measure);
        let (mut places, mut cut) = (BTreeMap::new(), BTreeSet::new());
        ends(&worked.trunk, &measured, &mut places, &mut cut);
        // The innermost first: each that follows is laid around those before.
        let mut raw: Vec<Raw> = Vec::new();
        for piece in nest.iter().rev() {
            let outer = raw_leaves(worked, *piece, places.get(piece)?, measure)?;
            let (first, second) = outer.split_at(outer.len() / 2);
            raw = [first, &raw, second].concat();
        }
        let numbers: BTreeMap<Cell, (u32, usize)> = (1..).zip(&raw).map(|(n, l)| (l.cell, (n, l.piece))).collect();
        let joined = |leaf: &Raw, beyond: Cell| {
            let (number, piece) = numbers.get(&beyond)?;
            (*piece == leaf.piece && !cut.contains(&sorted(leaf.cell, beyond))).then_some(*number)
        };
        let usual = usual_of(&raw)?;
        let mut leaves: Vec<Leaf> = Vec::with_capacity(raw.len());
        let mut pairs: BTreeMap<(Edge, i64), Vec<(u32, u32)>> = BTreeMap::new();
        for (number, leaf) in (1..).zip(&raw) {
            let [spine, head, tail, fore] = leaf.beyond.map(|beyond| joined(leaf, beyond));
            for (edge, other) in [(Edge::Head, head), (Edge::Tail, tail), (Edge::ForeEdge, fore)] {
                if let Some(other) = other.filter(|other| *other > number) {
                    let line = alike(stands_out(edge, &leaf.lies, &usual));
                    pairs.entry((edge, line)).or_default().push((number, other));
                }
            }
            let (row, column) = (leaf.cell.1.unsigned_abs(), leaf.cell.0.unsigned_abs());
            let Raw { piece, front, lies, .. } = *leaf;
            leaves.push(Leaf { number, piece, row, column, front, across_spine: spine, around: 0, lies });
        }
        let held: Vec<(u32, u32)> = leaves.iter().filter_map(|l| Some((l.number, l.across_spine?))).collect();
        let deep = around(&held, leaves.len());
        for (leaf, deep) in leaves.iter_mut().zip(&deep) {
            leaf.around = *deep;
        }
        let mut bolts = Vec::new();
        for ((edge, line), pairs) in &pairs {
            let deep = around(pairs, leaves.len());
            bolts.extend(pairs.iter().map(|pair| {
                let around = deep.get((pair.0 as usize).saturating_sub(1)).copied().unwrap_or(0);
                Bolt { edge: *edge, leaves: *pair, stands_out: Length::from_nm(line.saturating_mul(ALIKE)), around }
            }));
        }
        bolts.sort_by_key(|b: &Bolt| (b.edge, b.leaves));
        Some(Self { leaves, bolts, usual })
    }

    /// How far an edge of a leaf stands out beyond the usual edge of the section; negative where it lies within.
    #[must_use]
    pub fn stands_out(&self, leaf: &Leaf, edge: Edge) -> Length {
        stands_out(edge, &leaf.lies, &self.usual)
    }

    /// The bolt that shuts an edge of a leaf, counted from 1.
    #[must_use]
    pub fn bolt(&self, leaf: u32, edge: Edge) -> Option<&Bolt> {
        self.bolts.iter().find(|b| b.edge == edge && (b.leaves.0 == leaf || b.leaves.1 == leaf))
    }

    /// The leaves, counted from 1, that no crease holds at the spine.
    #[must_use]
    pub fn loose(&self) -> Vec<u32> {
        self.leaves.iter().filter(|l| l.across_spine.is_none()).map(|l| l.number).collect()
    }

    /// Folded sheets that lie in each other at the spine, at the most: 8 in a section of 32 pages folded from one sheet.
    #[must_use]
    pub fn pairs_deep(&self) -> u32 {
        self.leaves.iter().filter(|l| l.across_spine.is_some()).map(|l| l.around + 1).max().unwrap_or(0)
    }
}

fn stands_out(edge: Edge, lies: &Lies, usual: &Lies) -> Length {
    match edge {
        Edge::Head => usual.head - lies.head,
        Edge::Tail => lies.tail - usual.tail,
        Edge::ForeEdge => lies.fore_edge - usual.fore_edge,
    }
}

/// A position to the micrometre.
const fn alike(length: Length) -> i64 {
    length.nm().saturating_add(ALIKE / 2).div_euclid(ALIKE)
}

fn sorted(a: Cell, b: Cell) -> (Cell, Cell) {
    (a.min(b), a.max(b))
}

/// For each leaf, how many of the pairs lie around it. Pairs of one edge never cross, since paper does not.
fn around(pairs: &[(u32, u32)], leaves: usize) -> Vec<u32> {
    let mut change = vec![0_i64; leaves + 2];
    for (first, last) in pairs.iter().filter(|(first, last)| first < last) {
        // Strictly between them.
        for (leaf, by) in [(*first + 1, 1), (*last, -1)] {
            if let Some(slot) = change.get_mut(leaf as usize) {
                *slot += by;
            }
        }
    }
    let mut deep = 0_i64;
    let sums = change.iter().skip(1).take(leaves);
    sums.map(|by| {
        deep += by;
        u32::try_from(deep).unwrap_or(0)
    })
    .collect()
}

/// The places of the layers of one piece.
pub(super) fn places_of(trunk: &Branch, measured: &Measured, piece: usize) -> Option<Vec<LayerPlace>> {
    let (mut places, mut cut) = (BTreeMap::new(), BTreeSet::new());
    ends(trunk, measured, &mut places, &mut cut);
    places.remove(&piece)
}

/// The places of the layers of every piece, and the edges of panels that a slit parts within a piece.
fn ends(
    branch: &Branch,
    measured: &Measured,
    places: &mut BTreeMap<usize, Vec<LayerPlace>>,
    cut: &mut BTreeSet<(Cell, Cell)>,
) {
    match &branch.end {
        BranchEnd::Piece(piece) => {
            places.insert(*piece, measured.places(branch.folding.steps.len()).to_vec());
        }
        BranchEnd::Apart { parts, .. } => {
            for (part, measured) in parts.iter().zip(&measured.parts) {
                ends(part, measured, places, cut);
            }
        }
        BranchEnd::Laid { crease, at, then, .. } => {
            for layer in &branch.folding.last().layers {
                let (footprint, area) = (layer.footprint(), layer.area);
                let (x, y) = layer.placement.sheet_from_packet(*at, *at);
                match crease {
                    Crease::Vertical if footprint.x0 < *at && *at < footprint.x1 => {
                        cut.extend((area.y0..area.y1).map(|y| ((x - 1, y), (x, y))));
                    }
                    Crease::Horizontal if footprint.y0 < *at && *at < footprint.y1 => {
                        cut.extend((area.x0..area.x1).map(|x| ((x, y - 1), (x, y))));
                    }
                    _ => {}
                }
            }
            if let Some(measured) = measured.parts.first() {
                ends(then, measured, places, cut);
            }
        }
    }
}

/// The leaves of a piece from front to back.
fn raw_leaves(worked: &Worked, number: usize, places: &[LayerPlace], measure: &Measure) -> Option<Vec<Raw>> {
    let piece = worked.pieces.get(number)?;
    let section = &piece.section;
    if section.held.len() != piece.packet.layers.len() || section.held.is_empty() {
        return None;
    }
    let layers: Vec<_> = piece.packet.layers.iter().zip(places).map(|(l, p)| (l, span(l, p, measure))).collect();
    let whole = layers.iter().map(|(_, s)| *s).reduce(|all, s| all.union(&s))?;
    let leaf = |(layer, span): &(&crate::fold::Layer, Span)| {
        let cell = (layer.area.x0, layer.area.y0);
        let beyond = |d: Direction| {
            let (dx, dy) = layer.placement.direction(d).step();
            (cell.0 + dx, cell.1 + dy)
        };
        let (spine, fore_edge) = from_edge(span, &whole, section.spine);
        let (head, tail) = from_edge(span, &whole, section.head);
        let up = layer.placement.side_up();
        Raw {
            piece: number,
            cell,
            front: if section.front_up { up } else { up.other() },
            beyond: [section.spine, section.head, section.head.opposite(), section.spine.opposite()].map(beyond),
            lies: Lies { spine, fore_edge, head, tail },
        }
    };
    let mut leaves: Vec<Raw> = layers.iter().map(leaf).collect();
    if section.front_up {
        leaves.reverse();
    }
    Some(leaves)
}

/// The near and the far edge of a layer, from an edge of the packet.
fn from_edge(span: &Span, whole: &Span, edge: Direction) -> (Length, Length) {
    match edge {
        Direction::Left => (span.x0 - whole.x0, span.x1 - whole.x0),
        Direction::Right => (whole.x1 - span.x1, whole.x1 - span.x0),
        Direction::Up => (span.y0 - whole.y0, span.y1 - whole.y0),
        Direction::Down => (whole.y1 - span.y1, whole.y1 - span.y0),
    }
}

/// Where most leaves have their edges; of two places with as many leaves, the one farther within.
fn usual_of(raw: &[Raw]) -> Option<Lies> {
    let most = |of: &dyn Fn(&Lies) -> Length, inmost_is_largest: bool| {
        let mut counts: BTreeMap<i64, (usize, Length)> = BTreeMap::new();
        for leaf in raw {
            let at = of(&leaf.lies);
            counts.entry(alike(at)).or_insert((0, at)).0 += 1;
        }
        let rank =
            |(line, (count, _)): &(&i64, &(usize, Length))| (*count, if inmost_is_largest { **line } else { -**line });
        counts.iter().max_by_key(rank).map(|(_, (_, at))| *at)
    };
    Some(Lies {
        spine: most(&|l| l.spine, false)?,
        fore_edge: most(&|l| l.fore_edge, false)?,
        head: most(&|l| l.head, true)?,
        tail: most(&|l| l.tail, false)?,
    })
}
