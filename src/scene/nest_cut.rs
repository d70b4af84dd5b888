//! A section of several pieces as a look at its head shows it: every leaf, and the folds that join two of them.

use super::item::{Ground, Ink, Item, Line, Scene};
use crate::fold::Reads;
use crate::fold::Side;
use kurbo::{BezPath, Point, Rect};

/// A leaf of such a section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CutLeaf {
    /// The piece that it belongs to, from 1: the outermost.
    pub piece: u32,
    /// Leaves of one piece with the same number are one piece of paper across a fold.
    pub paper: u32,
    /// Whether that fold lies at the fore-edge.
    pub at_fore_edge: bool,
    /// Its two pages, front and back: the number, if one is printed, and whether it stands head down.
    pub pages: [(Option<u32>, bool); 2],
    /// Whether it is another leaf than a right section has there.
    pub differs: bool,
}

/// A leaf's thickness as it is drawn, and what lies between two.
const THICK: f64 = 19.0;
const STEP: f64 = 23.0;
/// A leaf's length from fold to edge, and what the folds of the outermost leaves reach beyond.
const LONG: f64 = 104.0;
const FOLDS: f64 = 42.0;
/// How much farther a fold reaches for each leaf between the two.
const REACH: f64 = 3.0;
const PAD: f64 = 4.0;

/// The picture: the spine at the left, or for right-to-left reading at the right. It has the size that the section beside
/// it needs, too.
#[must_use]
pub fn nest_cut(leaves: &[CutLeaf], beside: &[CutLeaf], reads: Reads) -> Scene {
    let beyond = if leaves.iter().chain(beside).any(|leaf| leaf.at_fore_edge) { FOLDS } else { 0.0 };
    let width = FOLDS + LONG + beyond + 2.0 * PAD;
    let height = leaves.len().max(beside.len()).max(1) as f64 * STEP - (STEP - THICK) + 2.0 * PAD;
    let x = |along: f64| if reads == Reads::LeftToRight { along } else { width - along };
    let y = |at: usize| PAD + at as f64 * STEP + THICK / 2.0;
    let (spine, edge) = (PAD + FOLDS, PAD + FOLDS + LONG);
    let mut items = Vec::new();
    for (at, leaf) in leaves.iter().enumerate() {
        let other =
            leaves.iter().enumerate().skip(at + 1).find(|(_, l)| (l.piece, l.paper) == (leaf.piece, leaf.paper));
        let Some((other, _)) = other else { continue };
        let span = (other - at) as f64;
        let reach = (8.0 + REACH * span).min(FOLDS) * 4.0 / 3.0;
        let (from, to) = if leaf.at_fore_edge { (edge, edge + reach) } else { (spine, spine - reach) };
        let mut fold = BezPath::new();
        fold.move_to((x(from), y(at)));
        fold.curve_to((x(to), y(at)), (x(to), y(other)), (x(from), y(other)));
        items.push(Item::Path { path: fold, fill: None, line: Some(Line::solid(paper(leaf), 4.0)) });
    }
    for (at, leaf) in leaves.iter().enumerate() {
        let rect = Rect::from_points((x(spine), y(at) - THICK / 2.0), (x(edge), y(at) + THICK / 2.0));
        items.push(Item::filled(rect, paper(leaf)));
        // The numbers stand by the edge that is open, the front of the leaf first as it is read.
        let open = if leaf.at_fore_edge { spine + LONG / 3.0 } else { edge - LONG / 3.0 };
        for ((page, down), to) in leaf.pages.into_iter().zip([-1.0, 1.0]) {
            let text = page.map_or_else(|| "–".to_owned(), |n| if down { format!("{n}v") } else { n.to_string() });
            let middle = Point::new(x(open) + to * 17.0, y(at) + 4.5);
            items.push(Item::Figure { text, baseline: middle, size: 13.0, halo: 0.0 });
        }
        let parting = Line::solid(Ink::Crease, 1.0);
        items.push(Item::stroke((x(open), y(at) - 4.0), (x(open), y(at) + 4.0), parting));
        if leaf.differs {
            let Rect { x0, y0, x1, y1 } = rect.inset(-1.2);
            let frame = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(Point::from);
            items.push(Item::polygon(&frame, None, Some(Line::dashed(Ink::Black, 1.5, 6.0, 3.0))));
        }
    }
    Scene { size: (width, height), items }
}

/// The outermost piece is the lightest; what is laid in lies in its shade.
fn paper(leaf: &CutLeaf) -> Ink {
    let tone = match leaf.piece {
        0 | 1 => 0,
        2 => 1,
        _ => 2,
    };
    Ink::Paper(Ground { side: Side::A, tone })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn leaf(piece: u32, paper: u32, front: u32) -> CutLeaf {
        let pages = [(Some(front), false), (Some(front + 1), false)];
        CutLeaf { piece, paper, at_fore_edge: false, pages, differs: false }
    }

    fn figures(scene: &Scene) -> Vec<String> {
        let text = |item: &Item| match item {
            Item::Figure { text, .. } => Some(text.clone()),
            _ => None,
        };
        scene.items.iter().filter_map(text).collect()
    }

    #[test]
    fn folds_join_two_leaves_and_lie_in_one_another() {
        let leaves = [leaf(1, 1, 1), leaf(2, 1, 3), leaf(2, 1, 5), leaf(1, 1, 7)];
        let scene = nest_cut(&leaves, &[], Reads::LeftToRight);
        assert_eq!(figures(&scene), ["1", "2", "3", "4", "5", "6", "7", "8"]);
        let bounds = |item: &Item| match item {
            Item::Path { path, fill: None, line: Some(line) } if line.width > 3.0 => {
                Some(kurbo::Shape::bounding_box(path))
            }
            _ => None,
        };
        let folds: Vec<Rect> = scene.items.iter().filter_map(bounds).collect();
        let [outer, inner] = folds[..] else { panic!("{folds:?}") };
        assert!(outer.x0 < inner.x0 && outer.y0 < inner.y0 && outer.y1 > inner.y1);
        assert!(folds.iter().all(|f| f.x0 >= 0.0));
        // Nothing of a longer section beside it makes the leaves smaller.
        assert_eq!(nest_cut(&leaves[..2], &leaves, Reads::LeftToRight).size, scene.size);
    }

    #[test]
    fn a_fold_at_the_fore_edge_lies_at_the_other_side() {
        let leaves = [leaf(1, 1, 1), leaf(1, 1, 3)].map(|l| CutLeaf { at_fore_edge: true, differs: true, ..l });
        let scene = nest_cut(&leaves, &[], Reads::LeftToRight);
        let all: Rect = scene
            .items
            .iter()
            .filter_map(|i| match i {
                Item::Path { path, fill: None, line: Some(line) } if line.width > 3.0 => {
                    Some(kurbo::Shape::bounding_box(path))
                }
                _ => None,
            })
            .next()
            .unwrap();
        assert!(all.x0 > scene.size.0 / 2.0);
        let dashed = scene.items.iter().filter(|i| matches!(i, Item::Path { line: Some(l), .. } if l.dash.is_some()));
        assert_eq!(dashed.count(), 2);
    }
}
