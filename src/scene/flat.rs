//! A flat side of the sheet as it lies printed.

use super::item::{Ground, Group, Ink, Item, Line, Scene, Tag};
use super::overlay::Overlay;
use super::printing::Printing;
use crate::fold::Side;
use kurbo::Affine;

/// One side of the sheet, in millimetres, as seen from that side; side B after turning left to right.
///
/// With `through`, side B is seen through the paper from side A: a mirror image, nothing turned.
#[must_use]
pub fn flat_side(printing: &Printing, side: Side, through: bool) -> Scene {
    let (w, h) = printing.sheet();
    let ground = Ground { side: printing.paper(side), tone: 0 };
    let mut items = Vec::new();
    for face in printing.faces().filter(|f| f.side == side) {
        items.push(Item::Group(Group {
            place: printing.face_on_side(&face, through),
            ground: Some(ground),
            tag: Some(Tag::Face(face)),
            size: printing.size(&face),
            items: printing.items(&face).into(),
        }));
    }
    let crease = Line::dashed(Ink::Crease, 1.0, 5.0, 4.0);
    let mirrored = side == Side::B && !through;
    for i in 1..printing.columns {
        let x = printing.line_x(i);
        let x = if mirrored { w - x } else { x };
        items.push(Item::stroke((x, 0.0), (x, h), crease));
    }
    for i in 1..printing.rows {
        let y = printing.line_y(i);
        items.push(Item::stroke((0.0, y), (w, y), crease));
    }
    Scene { size: (w, h), items }
}

/// The same with what is measured drawn over it, and room for rulers at the left and at the top.
#[must_use]
pub fn measured_side(printing: &Printing, side: Side, through: bool, overlay: &Overlay) -> Scene {
    let mut scene = flat_side(printing, side, through);
    scene.items.extend(overlay.items(printing, side, through));
    let room = overlay.room(scene.size);
    let moved = Affine::translate((room, room));
    for item in &mut scene.items {
        match item {
            Item::Path { path, .. } => path.apply_affine(moved),
            Item::Figure { baseline, .. } => *baseline = moved * *baseline,
            Item::Words { start, .. } => *start = moved * *start,
            Item::Group(group) => group.place = moved * group.place,
        }
    }
    scene.size = (scene.size.0 + room, scene.size.1 + room);
    scene
}
