//! A QR code as a picture, and what stands beside it.

use super::item::{Ground, Ink, Item, Scene};
use crate::fold::Side;
use crate::link::{QUIET_ZONE, Qr};
use crate::units::{mm, short};
use kurbo::{BezPath, Rect};

/// The code in mm, dark on light paper, with its quiet zone of four modules.
///
/// A painter has to keep ink darker than paper, whatever colours a person prefers: readers take nothing else for granted.
#[must_use]
pub fn qr_code(code: &Qr, module_mm: f64) -> Scene {
    let module = if module_mm.is_finite() && module_mm > 0.0 { module_mm } else { 1.0 };
    let side = f64::from(code.side()) * module;
    let at = |modules: u32| f64::from(modules + QUIET_ZONE) * module;
    // Dark modules that touch are one run, so that no painter leaves hairlines between them.
    let mut path = BezPath::new();
    for (y, row) in (0_u32..).zip(&code.rows) {
        let mut from = None;
        for (x, dark) in (0_u32..).zip(row.iter().copied().chain([false])) {
            match (dark, from) {
                (true, None) => from = Some(x),
                (false, Some(start)) => {
                    path.move_to((at(start), at(y)));
                    path.line_to((at(x), at(y)));
                    path.line_to((at(x), at(y + 1)));
                    path.line_to((at(start), at(y + 1)));
                    path.close_path();
                    from = None;
                }
                _ => {}
            }
        }
    }
    let paper = Item::filled(Rect::new(0.0, 0.0, side, side), Ink::Paper(Ground { side: Side::A, tone: 0 }));
    Scene { size: (side, side), items: vec![paper, Item::Path { path, fill: Some(Ink::Black), line: None }] }
}

/// How large it is, as it stands beside the picture under what the link holds.
#[must_use]
pub fn qr_code_says(code: &Qr, module_mm: f64) -> String {
    let modules = short(f64::from(code.modules()));
    format!(
        "A QR code of {modules} by {modules} modules, {} mm wide with its clear edge. Its text is the link.",
        mm(f64::from(code.side()) * module_mm)
    )
}
