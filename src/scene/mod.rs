//! Drawing lists: what a picture shows, in millimetres or in the units its group says, without a painter.
//!
//! One scene, several painters. The bench, the flat sides and the spine are turned into a [`Scene`] here; a canvas
//! (in `ui`), [`svg`] and later paper draw it. A scene can be asked what lies at a point, so picture, pointer and
//! tests cannot disagree.
//!
//! Screen axes: `x` to the right, `y` downwards. The bench has a third one; [`View`] says how it is looked at.

mod bench;
mod cutaway;
mod differences;
mod face;
mod flat;
mod inside;
mod item;
mod joins;
mod moment;
mod nest_cut;
mod overlay;
mod panels;
mod pose;
mod printing;
mod report_sheet;
mod section_cut;
mod setup_sheet;
mod spine;
mod stack;

pub mod svg;
pub mod thread;
mod trig;
mod trim_plan;
mod uppermost;
mod view;

pub use bench::{Act, Asked, Bench, BenchScene, Grip, Held, Hold, Shown};
pub use cutaway::inside;
pub use differences::{Differences, ReadsOtherwise, differences, reading_differences};
pub use face::{PAGE_HEIGHT, PAGE_WIDTH, page_in_panel};
pub use flat::{flat_side, measured_side};
pub use inside::{InsideLayer, inside_count, inside_rows};
pub use item::{Ground, Group, Ink, Item, Line, Scene, Tag, ring};
pub use joins::{Join, joins};
pub use moment::{Rule, Stage};
pub use nest_cut::{CutLeaf, nest_cut};
pub use overlay::Overlay;
pub use panels::Panels;
pub use printing::{Figure, Printing};
pub use report_sheet::report_sheet;
pub use section_cut::{SectionCut, SectionCutRow, section_cut, section_cut_rows};
pub use setup_sheet::setup_sheet;
pub use spine::{SpineLay, head_design, spine_design};
pub use stack::{PilesLay, Space, StackLay};

pub use trim_plan::{trim_plan, trim_plan_says};
pub use uppermost::{Readable, uppermost};
pub use view::{Turned, Vec3, View};
