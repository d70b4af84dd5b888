//! A section of several pieces beside the right one, both seen from the head. It stands where no single sheet shows what was
//! done.

use super::found::down;
use crate::app::NestTold;
use crate::fold::Reads;
use crate::fold::misfold::{FoldAt, FoundPage, print_pages};
use crate::scene::{CutLeaf, nest_cut, svg};
use yew::prelude::*;

/// What lies there.
#[derive(Clone, PartialEq)]
pub struct Nests {
    /// The right section.
    pub right: NestTold,
    /// The section of the cause.
    pub done: NestTold,
    /// The reading direction.
    pub reads: Reads,
}

/// A picture, and the same in words.
type Drawn = (AttrValue, AttrValue);

/// The two pictures.
pub fn drawn(nests: &Nests) -> [Drawn; 2] {
    let Nests { right, done, reads } = nests;
    let [right_cut, done_cut] = [cut(right, &[]), cut(done, &differing(done, right))];
    [(right, &right_cut, &done_cut), (done, &done_cut, &right_cut)].map(|(nest, leaves, beside)| {
        let scene = nest_cut(leaves, beside, *reads);
        (svg::paint(&scene, "nest-picture", &|_| None).into(), says(nest).into())
    })
}

/// Which leaves carry other pages, or the same ones otherwise, than those that a right section has there.
fn differing(done: &NestTold, right: &NestTold) -> Vec<bool> {
    let there = |at: usize| (right.pages.get(2 * at..2 * at + 2), right.leaves.get(at).map(|leaf| leaf.fold_at));
    let one = |at: usize| (done.pages.get(2 * at..2 * at + 2), done.leaves.get(at).map(|leaf| leaf.fold_at));
    (0..done.leaves.len()).map(|at| one(at) != there(at)).collect()
}

fn cut(nest: &NestTold, differs: &[bool]) -> Vec<CutLeaf> {
    let page = |page: Option<&FoundPage>| page.map_or((None, false), |page| (page.page, down(page)));
    let leaves = nest.leaves.iter().zip(nest.pages.chunks(2)).enumerate();
    leaves
        .map(|(at, (leaf, pages))| CutLeaf {
            piece: leaf.piece,
            paper: leaf.paper,
            at_fore_edge: leaf.fold_at == FoldAt::ForeEdge,
            pages: [page(pages.first()), page(pages.get(1))],
            differs: differs.get(at).copied().unwrap_or(false),
        })
        .collect()
}

/// The pieces from front to back with their pages.
fn says(nest: &NestTold) -> String {
    let mut runs: Vec<(u32, Vec<FoundPage>)> = Vec::new();
    for (leaf, pages) in nest.leaves.iter().zip(nest.pages.chunks(2)) {
        match runs.last_mut() {
            Some((piece, run)) if *piece == leaf.piece => run.extend(pages),
            _ => runs.push((leaf.piece, pages.to_vec())),
        }
    }
    let named = |(piece, pages): (u32, Vec<FoundPage>)| {
        let name = match piece {
            1 => "outermost piece",
            2 | 4 => "inset",
            3 | 5 => "innermost piece",
            _ => "from elsewhere",
        };
        format!("{name} {}", print_pages(&pages))
    };
    runs.into_iter().map(named).collect::<Vec<_>>().join("; ")
}

/// The pair of pictures. It is there always, and hidden while there is nothing to show.
pub fn put_together(drawn: Option<&[Drawn; 2]>, done: &str) -> Html {
    let one = |name: &'static str, what: &str, (picture, says): &Drawn| {
        let label = format!("{what} From the front: {says}.");
        html! {
            <figure class="nest">
                <figcaption>{ name }</figcaption>
                <div role="img" aria-label={label}>{ Html::from_html_unchecked(picture.clone()) }</div>
            </figure>
        }
    };
    html! {
        <div class="nests" role="group" aria-label="Put together beside the right way" hidden={drawn.is_none()}>
            if let Some([right, wrong]) = drawn {
                <div class="small-benches">
                    { one("The right way", "The right way.", right) }
                    { one("As it was done", &format!("As it was done. {done}"), wrong) }
                </div>
                <p class="quiet">{ "Leaf by leaf, seen from the head, the front above. Dashed: not the leaf that is due there." }</p>
            }
        </div>
    }
}
