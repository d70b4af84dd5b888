//! Pieces that lie in one another: the packet that they make, and how one has to be turned to go into the other.

use super::Inset;
use super::build::{Sheet, bench_of};
use crate::fold::{Crease, Packet, Piece};
use crate::scene::Bench;

impl Sheet<'_> {
    /// A nest as one packet that lies as its outermost piece does, and the way there. `None` where a piece would have to
    /// be turned by a quarter, which no fold asks for.
    pub(super) fn nested(
        &self,
        trunk: &Bench,
        nest: &[usize],
        lies: &dyn Fn(usize) -> Option<(f64, f64)>,
    ) -> Option<(Bench, Vec<Inset>)> {
        let piece = |number: usize| self.worked.pieces.get(number);
        let at_rest = |bench: &Bench| self.lying(bench.folding.last().clone(), bench.places.last().to_vec());
        let (&innermost, outer) = nest.split_last()?;
        let mut all = at_rest(bench_of(trunk, innermost)?);
        let mut guest = innermost;
        let mut insets = Vec::new();
        for (k, &number) in outer.iter().enumerate().rev() {
            let (host, inner) = (piece(number)?, piece(guest)?);
            let (x, y) = turns(inner, host)?;
            let host_bench = bench_of(trunk, number)?.clone();
            let both = self.inside(&host_bench, &self.laid_alike(&all, x, y, &host_bench));
            insets.push(Inset {
                host: number,
                host_spine: host.section.spine,
                host_aside: lies(number)?,
                guest: all.clone(),
                guest_aside: lies(guest)?,
                over: x != y,
                round: y,
                nested: both.clone(),
                inside: nest.get(k + 1..).unwrap_or_default().to_vec(),
                host_bench,
            });
            all = both;
            guest = number;
        }
        Some((all, insets))
    }

    /// A packet turned so, and slid to where another lies: spine on spine.
    fn laid_alike(&self, guest: &Bench, x: bool, y: bool, host: &Bench) -> Bench {
        let mut packet = guest.folding.last().clone();
        let mut places = guest.places.last().to_vec();
        for (mirrored, crease) in [(x, Crease::Vertical), (y, Crease::Horizontal)] {
            if mirrored {
                packet = packet.mirrored(crease, 0);
                places.reverse();
                for at in &mut places {
                    match crease {
                        Crease::Vertical => at.dx = -at.dx,
                        Crease::Horizontal => at.dy = -at.dy,
                    }
                }
            }
        }
        let (from, to) = (packet.extent(), host.folding.last().extent());
        let turned = self.lying(packet.slid(to.x0 - from.x0, to.y0 - from.y0), places.clone());
        let (from, to) = (turned.span(0).center(), host.span(usize::MAX).center());
        for at in &mut places {
            (at.dx, at.dy) = (at.dx + to.x - from.x, at.dy + to.y - from.y);
        }
        self.lying(turned.folding.flat, places)
    }

    /// One packet in the middle of another.
    fn inside(&self, host: &Bench, guest: &Bench) -> Bench {
        let (layers, places) = (&host.folding.last().layers, host.places.last());
        let middle = layers.len() / 2;
        let (low, high) = layers.split_at(middle);
        let (low_at, high_at) = places.split_at(middle.min(places.len()));
        let packet = Packet::from_layers([low, &guest.folding.last().layers, high].concat());
        self.lying(packet, [low_at, guest.places.last(), high_at].concat())
    }
}

/// Whether a piece has to be mirrored left to right, and top to bottom, to lie as another does: spine on spine, head to
/// head. Mirrored one way, it is turned over.
fn turns(guest: &Piece, host: &Piece) -> Option<(bool, bool)> {
    let (g, h) = (&guest.section, &host.section);
    let all = [(false, false), (true, true), (true, false), (false, true)];
    all.into_iter().find(|(x, y)| {
        g.spine.mirrored(*x, *y) == h.spine
            && g.head.mirrored(*x, *y) == h.head
            && (g.front_up != (x != y)) == h.front_up
    })
}
