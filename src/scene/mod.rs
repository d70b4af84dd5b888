//! Drawing lists: what a picture shows, in millimetres or in the units its group says, without a painter.
//!
//! One scene, several painters. The bench, the flat sides and the spine are turned into a [`Scene`] here; a canvas
//! (in `ui`), [`svg`] and later paper draw it. A scene can be asked what lies at a point, so picture, pointer and
//! tests cannot disagree.
//!
//! Screen axes: `x` to the right, `y` downwards. The bench has a third one; [`View`] says how it is looked at.

mod bench;
mod face;
mod flat;
mod item;
mod moment;
mod pose;
mod stack;

pub mod svg;
pub mod thread;
mod trig;
mod view;

pub use bench::{Asked, Bench, BenchScene, Grip, Held, Hold, Shown};
pub use face::{PAGE_HEIGHT, PAGE_WIDTH, Printing, page_in_panel};
pub use flat::flat_side;
pub use item::{Ground, Group, Ink, Item, Line, Scene, Tag, ring};
pub use moment::{Rule, Stage};
pub use stack::{PilesLay, Space, StackLay};

pub use view::{Turned, Vec3, View};
