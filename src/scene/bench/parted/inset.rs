//! Pieces that lie in one another: the packet that they make, and how one has to be turned to go into the other.

use super::Inset;
use super::build::Sheet;
use crate::fold::{Crease, Packet, Piece};

impl Sheet<'_> {
    /// A nest as one packet that lies as its outermost piece does, and the way there. `None` where a piece would have to
    /// be turned by a quarter, which no fold asks for.
    pub(super) fn nested(
        &self,
        nest: &[usize],
        lies: &dyn Fn(usize) -> Option<(f64, f64)>,
    ) -> Option<(Packet, Vec<Inset>)> {
        let piece = |number: usize| self.worked.pieces.get(number);
        let (&innermost, outer) = nest.split_last()?;
        let mut packet = piece(innermost)?.packet.clone();
        let mut guest = innermost;
        let mut insets = Vec::new();
        for (k, &number) in outer.iter().enumerate().rev() {
            let (host, inner) = (piece(number)?, piece(guest)?);
            let (x, y) = turns(inner, host)?;
            let both = inside(&host.packet, laid_alike(&packet, x, y, host));
            insets.push(Inset {
                host: number,
                host_bench: self.lying(host.packet.clone()),
                host_spine: host.section.spine,
                host_aside: lies(number)?,
                guest: self.lying(packet.clone()),
                guest_aside: lies(guest)?,
                over: x != y,
                round: y,
                nested: self.lying(both.clone()),
                inside: nest.get(k + 1..).unwrap_or_default().to_vec(),
            });
            packet = both;
            guest = number;
        }
        Some((packet, insets))
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

/// A packet turned so, and slid to where another lies.
fn laid_alike(packet: &Packet, x: bool, y: bool, host: &Piece) -> Packet {
    let mut lying = packet.clone();
    if x {
        lying = lying.mirrored(Crease::Vertical, 0);
    }
    if y {
        lying = lying.mirrored(Crease::Horizontal, 0);
    }
    let (from, to) = (lying.extent(), host.packet.extent());
    lying.slid(to.x0 - from.x0, to.y0 - from.y0)
}

/// One packet in the middle of another.
fn inside(host: &Packet, guest: Packet) -> Packet {
    let middle = host.layers.len() / 2;
    let (low, high) = host.layers.split_at(middle);
    Packet::from_layers([low, &guest.layers, high].concat())
}
