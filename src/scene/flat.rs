//! A flat side of the sheet as it lies printed.

use super::item::{Ground, Group, Ink, Item, Line, Scene, Tag};
use super::printing::Printing;
use crate::fold::{Face, Side};
use kurbo::Affine;

/// One side of the sheet, in millimetres, as seen from that side; side B after turning left to right.
///
/// With `through`, side B is seen through the paper from side A: a mirror image, nothing turned.
#[must_use]
pub fn flat_side(printing: &Printing, side: Side, through: bool) -> Scene {
    let (pw, ph) = printing.panel();
    let (w, h) = (pw * f64::from(printing.columns), ph * f64::from(printing.rows));
    let mirror = if through && side == Side::B { Affine::new([-1.0, 0.0, 0.0, 1.0, w, 0.0]) } else { Affine::IDENTITY };
    let ground = Ground { side: printing.paper(side), tone: 0 };
    let mut items = Vec::new();
    for row in 0..printing.rows {
        for column in 0..printing.columns {
            let face = Face { side, row, column };
            let seen = f64::from(face.column_seen(printing.columns));
            items.push(Item::Group(Group {
                place: mirror * Affine::translate((seen * pw, f64::from(row) * ph)),
                ground: Some(ground),
                tag: Some(Tag::Face(face)),
                size: (pw, ph),
                items: printing.items(&face).into(),
            }));
        }
    }
    let crease = Line::dashed(Ink::Crease, 1.0, 5.0, 4.0);
    for i in 1..printing.columns {
        let x = f64::from(i) * pw;
        items.push(Item::stroke((x, 0.0), (x, h), crease));
    }
    for i in 1..printing.rows {
        let y = f64::from(i) * ph;
        items.push(Item::stroke((0.0, y), (w, y), crease));
    }
    Scene { size: (w, h), items }
}
