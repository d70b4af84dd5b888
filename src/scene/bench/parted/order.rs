//! Which of several parts that lie beside each other is painted first.

use crate::scene::view::Vec3;
use kurbo::Rect;

/// How far rooms may overlap and still count as beside each other, mm.
const TOUCHING: f64 = 1e-6;

/// The order in which parts are painted, each by the room on the bench (mm, downwards on the sheet) that it keeps to:
/// the farthest first.
///
/// What keeps to either side of an upright plane is hidden by nothing on its far side. Where one plane parts two rooms
/// one way and another the other way, neither hides the other, and any order will do.
pub(super) fn farthest_first(rooms: &[Rect], eye: Vec3) -> Vec<usize> {
    let nearer = |a: &Rect, b: &Rect| {
        let beyond = |low: f64, high: f64, eye: f64| eye.abs() > 1e-9 && high - low > -TOUCHING;
        let x = if eye.x > 0.0 { beyond(b.x1, a.x0, eye.x) } else { beyond(a.x1, b.x0, eye.x) };
        let y = if eye.y < 0.0 { beyond(b.y1, a.y0, eye.y) } else { beyond(a.y1, b.y0, eye.y) };
        x || y
    };
    let before = |a: &Rect, b: &Rect| nearer(b, a) && !nearer(a, b);
    let mut left: Vec<usize> = (0..rooms.len()).collect();
    let mut order = Vec::with_capacity(rooms.len());
    while !left.is_empty() {
        let free = |i: &usize| {
            let room = rooms.get(*i);
            !left.iter().any(|o| o != i && rooms.get(*o).zip(room).is_some_and(|(o, room)| before(o, room)))
        };
        // Rooms that lie apart have a farthest one; others are taken as they come.
        let next = left.iter().position(free).unwrap_or(0);
        order.push(left.remove(next));
    }
    order
}

#[cfg(test)]
mod tests {
    use super::*;

    const EYE: Vec3 = Vec3::new(-0.62, -0.17, 0.76);

    #[test]
    fn a_long_part_behind_a_short_one_is_painted_first() {
        // The middle of the long one is nearer to the eye, and yet it lies behind.
        let (long, short) = (Rect::new(0.0, -200.0, 2000.0, 0.0), Rect::new(1500.0, 20.0, 1600.0, 120.0));
        assert_eq!(farthest_first(&[long, short], EYE), [0, 1]);
        assert_eq!(farthest_first(&[short, long], EYE), [1, 0]);
        assert_eq!(farthest_first(&[short, long], EYE * -1.0), [0, 1]);
    }

    #[test]
    fn parts_around_a_middle_have_an_order() {
        let rooms = [
            Rect::new(0.0, 0.0, 2.0, 1.0),
            Rect::new(2.0, 0.0, 3.0, 2.0),
            Rect::new(1.0, 2.0, 3.0, 3.0),
            Rect::new(0.0, 1.0, 1.0, 3.0),
        ];
        for (x, y) in [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)] {
            let order = farthest_first(&rooms, Vec3::new(x, y, 1.0));
            let place = |i: usize| order.iter().position(|o| *o == i).unwrap();
            // Each shares a side with the next: the one on the side of the eye comes later.
            assert_eq!(place(0) < place(1), x > 0.0, "{order:?}");
            assert_eq!(place(1) < place(2), y < 0.0, "{order:?}");
            assert_eq!(place(3) < place(2), x > 0.0, "{order:?}");
            assert_eq!(place(0) < place(3), y < 0.0, "{order:?}");
        }
    }
}
