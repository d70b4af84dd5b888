//! The bench: a sheet at any moment of its folding, as it looks from the eye.

mod beside;
mod bolt;
mod corner;
mod grab;
mod paint;
mod parted;
mod places;

pub use grab::{Asked, Held, Hold};
pub use parted::Act;

use crate::fold::{Crease, FoldError, Folding, Scheme, Section};
use crate::scene::item::{Item, Scene};
use crate::scene::moment::{Rule, Stage};
use crate::scene::pose::{self, Frame, Sheaf};
use crate::scene::printing::Printing;
use crate::scene::view::View;
use kurbo::{Affine, Point};
use std::rc::Rc;

/// A sheet that is folded by one scheme and printed for another (or the same one, or not at all).
#[derive(Clone, Debug)]
pub struct Bench {
    /// The folding as it is carried out.
    pub folding: Folding,
    /// The section it ends in, if it is finished.
    pub section: Option<Section>,
    /// What is printed on it.
    pub printing: Printing,
    /// The rule: how many folds, how many leaves.
    pub rule: Rule,
    /// Where the layers lie in mm.
    places: places::Places,
    /// Items of every face, side A first.
    faces: Vec<Rc<[Item]>>,
    /// The edges that the knife slits: closed ones, as the finished packet lies.
    slits: Vec<crate::fold::Direction>,
    /// The piece of each panel, row by row, where the sheet is slit: neighbours of two pieces hang together no more.
    pieces: Option<Rc<[u16]>>,
    /// Neighbouring panels, by column and row, that a slit has parted although both went on in one piece.
    slit_apart: parted::SlitApart,
    /// What comes after the folds, where the sheet is slit then.
    parted: Option<Rc<parted::Parted>>,
    /// The section that is looked at in the end, where the sheet was slit.
    finish: Option<Rc<parted::Finish>>,
}

/// What the bench shows besides the paper.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Shown {
    /// Thickness of a leaf as drawn, mm, before it is cut down for thick packets.
    pub leaf: f64,
    /// A crease that is being considered: which way, and after how many panels.
    pub crease: Option<(Crease, u32)>,
}

/// The corner to be taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grip {
    /// Where it appears.
    pub at: Point,
    /// The number of the fold that it makes, from 0.
    pub fold: usize,
}

/// A picture of the bench.
#[derive(Clone, Debug, PartialEq)]
pub struct BenchScene {
    /// The picture, in pixels.
    pub scene: Scene,
    /// The corner of the part that turns, or that would turn next.
    pub grip: Option<Grip>,
}

/// Thickness of all layers together as drawn is never more than this, mm.
const THICKEST: f64 = 24.0;

impl Bench {
    /// Folds `folded` from a sheet with `printing`.
    ///
    /// # Errors
    /// When the sheet has no panel or too many. A folding that can't go on is shown as far as it goes.
    pub fn new(printing: Printing, folded: &Scheme) -> Result<Self, FoldError> {
        let folding = Folding::of(folded)?;
        let section = Section::of(folded, &folding).ok();
        let leaves = section.as_ref().map_or(0, |s| s.held.len());
        let rule = Rule { folds: folding.steps.len(), leaves };
        let faces = printing.faces().map(|face| printing.items(&face).into()).collect();
        let places = places::Places::of(&folding, vec![pose::At::default(); folding.flat.layers.len()], &printing);
        let mut bench = Self {
            folding,
            section: None,
            printing,
            rule,
            places,
            faces,
            slits: Vec::new(),
            pieces: None,
            slit_apart: parted::SlitApart::default(),
            parted: None,
            finish: None,
        };
        bench.slits = section.as_ref().map_or_else(Vec::new, |s| closed_edges(s, &bench));
        bench.section = section;
        Ok(bench)
    }

    /// The edges of the finished packet that are closed and will be slit.
    #[must_use]
    pub fn slits(&self) -> &[crate::fold::Direction] {
        &self.slits
    }

    pub(super) fn leaf(&self, shown: &Shown, layers: usize) -> f64 {
        shown.leaf.min(THICKEST / layers.max(1) as f64)
    }

    /// Thickness of a leaf while a fold is made: it changes from fold to fold where packets grow thick.
    fn leaf_between(&self, shown: &Shown, made: usize, turn: f64) -> f64 {
        let at = |made: usize| self.leaf(shown, self.folding.packet(made).layers.len());
        at(made) * (1.0 - turn) + at(made + 1) * turn
    }

    fn sheaves(&self, stage: Stage, shown: &Shown, view: &View) -> Vec<Sheaf> {
        let last = self.folding.last();
        let end = self.places.last();
        let mut sheaves = match (stage, &self.section) {
            (Stage::Fold { made, turn }, _) => match self.folding.steps.get(made).filter(|_| turn > 0.0) {
                Some(step) => {
                    let leaf = self.leaf_between(shown, made, turn);
                    let (before, line) = (self.places.packet(made), self.places.crease(made));
                    pose::half_folded(&step.after, before, &step.turn, turn, leaf, line)
                }
                None => {
                    let packet = self.folding.packet(made);
                    pose::at_rest(packet, self.places.packet(made), self.leaf(shown, packet.layers.len()))
                }
            },
            (Stage::Offer { turn }, Some(section)) => {
                let centre = self.span(usize::MAX).center();
                let leaf = self.leaf(shown, last.layers.len());
                pose::offered(last, end, section, turn, leaf, (centre.x, centre.y), self.page_size())
            }
            (Stage::Leaf { turned, turn }, Some(section)) => {
                let width = self.page_size().0;
                let leaf = self.leaf(shown, last.layers.len());
                pose::opened(section.held.len(), turned, turn, leaf, width, self.printing.reads)
            }
            _ => pose::at_rest(last, end, self.leaf(shown, last.layers.len())),
        };
        pose::farthest_first(&mut sheaves, view);
        sheaves
    }

    /// The picture at a moment.
    #[must_use]
    pub fn scene(&self, at: f64, view: &View, shown: &Shown) -> BenchScene {
        if let Some(items) = self.parted_items(at, view, shown) {
            return BenchScene { scene: Scene { size: (0.0, 0.0), items }, grip: None };
        }
        let stage = self.rule.stage(at);
        let items = self.stage_items(stage, view, shown);
        let grip = self.grip(stage, view, shown);
        BenchScene { scene: Scene { size: (0.0, 0.0), items }, grip }
    }

    /// What is seen at a stage.
    fn stage_items(&self, stage: Stage, view: &View, shown: &Shown) -> Vec<Item> {
        let sheaves = self.sheaves(stage, shown, view);
        let mut items = Vec::new();
        self.cast(stage, shown, view, &mut items, true);
        let slit = match stage {
            Stage::Fold { .. } => 0.0,
            Stage::Slit { cut } => cut,
            _ => 1.0,
        };
        // What is offered to its reader is about to be opened, and opened backs lie flat against each other.
        let round = match stage {
            Stage::Offer { turn } => 1.0 - turn,
            Stage::Leaf { .. } => 0.0,
            _ => 1.0,
        };
        let mut crease = bolt::around_crease(self, stage, &sheaves, view);
        for sheaf in &sheaves {
            let eye = view.towards_eye();
            if let Some((_, paper)) = crease.take_if(|(out, _)| out.dot(eye) < sheaf.arm.dot(eye)) {
                items.extend(paper);
            }
            self.paint(sheaf, view, &bolt::Edges { slit, round }, &mut items);
            if sheaf.frame == Frame::BENCH {
                self.cast(stage, shown, view, &mut items, false);
                self.creases_on_top(stage, sheaf, shown, view, &mut items);
            }
        }
        items.extend(crease.into_iter().flat_map(|c| c.1));
        if let Stage::Slit { cut } = stage {
            self.knife(cut, shown, view, &mut items);
        }
        items
    }

    /// The layers of a packet of this sheet that hang together at an edge. What was slit apart does not.
    pub(super) fn joins(&self, layers: &[crate::fold::Layer]) -> Vec<crate::scene::joins::Join> {
        let columns = self.folding.columns;
        let piece = |x: i32, y: i32| {
            let at = (y.unsigned_abs() * columns + x.unsigned_abs()) as usize;
            self.pieces.as_ref().and_then(|p| p.get(at)).copied()
        };
        let one_paper = |a: (i32, i32), b: (i32, i32)| {
            piece(a.0, a.1) == piece(b.0, b.1) && !self.slit_apart.contains(&(a.min(b), a.max(b)))
        };
        crate::scene::joins::joins(layers, self.folding.rows, columns, one_paper)
    }
}

/// The map from a plane (at height `w` over a frame) to the screen.
fn plane(frame: &Frame, w: f64, view: &View) -> Affine {
    let o = view.project(frame.point(0.0, 0.0, w));
    let x = view.project(frame.point(1.0, 0.0, w)) - o;
    let y = view.project(frame.point(0.0, 1.0, w)) - o;
    Affine::new([x.x, x.y, y.x, y.y, o.x, o.y])
}

/// The edges of a finished packet, other than the spine, where some leaf is closed by a bolt.
fn closed_edges(section: &Section, bench: &Bench) -> Vec<crate::fold::Direction> {
    let around = [section.head, section.spine.opposite(), section.head.opposite()];
    let joins = bench.joins(&bench.folding.last().layers);
    around.into_iter().filter(|edge| joins.iter().any(|j| j.edge == *edge)).collect()
}
