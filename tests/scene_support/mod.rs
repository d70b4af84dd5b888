//! What the picture tests share: schemes at random, and every panel of the sheet as a rigid body in space, turned about
//! the creases by a little geometry that knows nothing of the program's.
#![allow(dead_code, unused_imports, reason = "each test uses some of it")]
#![allow(unreachable_pub, reason = "a part of each test")]

mod act;
mod panel;
mod random;

pub use act::{Act, Told};
pub use panel::{Panel, edge_middle};
pub use random::{Random, any_view, hundred_and_twenty_eight, schemes, views};

use backmark::fold::Face;
use backmark::scene::{Group, Item, Tag};
use kurbo::Point;

/// Schemes made up at random, besides those at hand.
pub const SCHEMES: u32 = 150;
/// The angles of each fold, as shares of the half turn.
pub const TURNS: [f64; 5] = [0.0, 0.2, 0.45, 0.7, 0.95];
/// Paper so thin that its thickness moves nothing, and paper as the room shows it.
pub const THIN: f64 = 1e-4;
pub const THICK: f64 = 3.2;

pub fn middle(group: &Group) -> Point {
    group.place * Point::new(group.size.0 / 2.0, group.size.1 / 2.0)
}

pub fn faced(item: &Item) -> Option<(Face, &Group)> {
    match item {
        Item::Group(group) => match group.tag {
            Some(Tag::Face(face)) => Some((face, group)),
            _ => None,
        },
        _ => None,
    }
}
