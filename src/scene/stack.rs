//! Where things stand in the picture of a gathered book: the stack with its spine facing, and the piles it came from.
//!
//! All in pixels of the picture, so that words keep their size whatever the window's. Both are drawn obliquely, their
//! depth to the right and up.

use crate::marks::{AfterWrap, BackMarks, SeenBack, Towards};
use kurbo::{Point, Rect, Vec2};

/// Room for the place numbers at the left of the spine.
const NUMBERS: f64 = 34.0;
/// Room for the scale along the foot.
const FOOT: f64 = 30.0;
/// The height of a row of a short book, and the least one that is drawn when the window does not bound the height.
const ROW: f64 = 24.0;
const LEAST_ROW: f64 = 5.0;
/// Rows of a short book in a narrow window, and how high the whole spine may become there.
const NARROW_ROW: f64 = 18.0;
const NARROW_HIGH: f64 = 500.0;
/// The narrower of two widths of bars, as a share of a row.
const NARROW_BAR: f64 = 0.4;
/// From one number to the next at the least.
const NUMBER_PITCH: f64 = 18.0;

/// What the picture has to fit into.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Space {
    /// Its width.
    pub width: f64,
    /// Its height, if that is bounded.
    pub height: Option<f64>,
    /// How much larger than on a desk everything is, as on a projector.
    pub scale: f64,
}

/// The stack: rows from front to back, each as long as the spine.
#[derive(Clone, Debug, PartialEq)]
pub struct StackLay {
    /// The spine, facing.
    pub face: Rect,
    /// The depth of the stack.
    pub depth: Vec2,
    /// The height of one row.
    pub pitch: f64,
    /// How many rows there are.
    pub count: u32,
    /// The length of the spine in millimetres.
    pub spine_mm: f64,
    /// The size of the whole picture.
    pub size: (f64, f64),
    /// Larger than on a desk by this.
    pub scale: f64,
}

impl StackLay {
    /// Lays out a stack of `count` rows.
    #[must_use]
    pub fn new(space: Space, count: u32, spine_mm: f64) -> Self {
        let (k, n) = (space.scale, f64::from(count.max(1)));
        let narrow = space.height.is_none();
        let depth = if narrow { Vec2::new(15.0, -13.0) } else { Vec2::new(34.0 * k, -29.0 * k) };
        let left = if narrow { 26.0 } else { NUMBERS * k };
        let foot = if narrow { 24.0 } else { FOOT * k };
        let pitch = match space.height {
            Some(h) => ((h + depth.y - foot) / n).min(ROW * k),
            None => crate::units::between(NARROW_HIGH / n, LEAST_ROW, NARROW_ROW),
        };
        let pitch = pitch.max(0.5);
        let face = Rect::new(left, -depth.y, (space.width - depth.x).max(left + 40.0), pitch * n - depth.y);
        Self { face, depth, pitch, count, spine_mm, size: (space.width, face.y1 + foot), scale: k }
    }

    /// The row of a place, from 1.
    #[must_use]
    pub fn row(&self, place: u32) -> Rect {
        let y = self.face.y0 + f64::from(place.saturating_sub(1)) * self.pitch;
        Rect::new(self.face.x0, y, self.face.x1, y + self.pitch)
    }

    /// The place whose row is at, or nearest to, a height.
    #[must_use]
    pub fn place_at(&self, y: f64) -> u32 {
        let row = ((y - self.face.y0) / self.pitch).floor();
        crate::units::between(row, 0.0, f64::from(self.count.max(1) - 1)) as u32 + 1
    }

    /// Where so many millimetres from the head are.
    #[must_use]
    pub fn x(&self, mm: f64) -> f64 {
        self.face.x0 + self.face.width() * crate::units::between(mm / self.spine_mm, 0.0, 1.0)
    }

    /// How many millimetres from the head a place across is.
    #[must_use]
    pub fn mm_at(&self, x: f64) -> f64 {
        self.spine_mm * crate::units::between((x - self.face.x0) / self.face.width(), 0.0, 1.0)
    }

    /// The millimetres that are named along the foot, clear of the words at both ends.
    #[must_use]
    pub fn ticks(&self) -> Vec<f64> {
        let per_mm = self.face.width() / self.spine_mm;
        let step = [5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0].into_iter().find(|s| s * per_mm >= 72.0 * self.scale);
        let step = step.unwrap_or(1000.0);
        let clear = 58.0 * self.scale;
        (1..)
            .map(|i| f64::from(i) * step)
            .take_while(|mm| *mm < self.spine_mm)
            .filter(|mm| {
                let x = self.x(*mm);
                x - self.face.x0 >= clear && self.face.x1 - x >= clear
            })
            .collect()
    }

    /// The bars on the back at a place. They fill its row, but for what the marks tell apart: bars of two columns fill
    /// the half of it that is nearer to the front or the back of the book, and of two widths the narrower ones the
    /// middle.
    #[must_use]
    pub fn bars(&self, place: u32, marks: &BackMarks, back: &SeenBack) -> Vec<Rect> {
        let row = self.row(place);
        let (y0, y1) = match back.towards {
            Some(Towards::Front) => (row.y0, row.center().y),
            Some(Towards::Back) => (row.center().y, row.y1),
            None => match (back.width_mm, marks.after_wrap) {
                (Some(seen), AfterWrap::Width { width_mm }) if seen < marks.width_mm.max(width_mm) - 1e-6 => {
                    let narrow = row.height() * NARROW_BAR / 2.0;
                    (row.center().y - narrow, row.center().y + narrow)
                }
                _ => (row.y0, row.y1),
            },
        };
        let half = back.length_mm.unwrap_or(marks.stairs.length_mm) / 2.0;
        let bar = |middle: &f64| {
            let (from, to) = (self.x(middle - half), self.x(middle + half));
            Rect::new(from, y0, to.max(from + 2.0), y1)
        };
        back.marks_mm.iter().flatten().map(bar).collect()
    }

    /// Whether the number of a place is written, while another one is picked.
    #[must_use]
    pub fn numbered(&self, place: u32, picked: u32) -> bool {
        numbered(place, picked, self.count, self.pitch, NUMBER_PITCH * self.scale)
    }
}

/// The piles that the sections are gathered from: one row of stations.
#[derive(Clone, Debug, PartialEq)]
pub struct PilesLay {
    /// From one station to the next.
    pub pitch: f64,
    /// How many there are.
    pub count: u32,
    /// The front of a pile, and its depth.
    pub front: (f64, f64),
    /// The depth of a pile.
    pub depth: Vec2,
    /// The size of the whole picture.
    pub size: (f64, f64),
    /// Larger than on a desk by this.
    pub scale: f64,
}

impl PilesLay {
    /// Lays out a row of stations. All piles are alike: how high a pile stands says nothing here.
    #[must_use]
    pub fn new(space: Space, count: u32) -> Self {
        let (k, n) = (space.scale, f64::from(count.max(1)));
        let pitch = (space.width / n).min(66.0 * k);
        let high = if space.width < 600.0 { 34.0 } else { 52.0 * k };
        let depth = Vec2::new(pitch * 0.2, -pitch * 0.17);
        let above = 16.0 * k;
        Self {
            pitch,
            count,
            front: (pitch * 0.61, high),
            depth,
            size: (space.width, above + high + 26.0 * k),
            scale: k,
        }
    }

    /// The front of the pile of a section, from 1.
    #[must_use]
    pub fn pile(&self, section: u32) -> Rect {
        let x = f64::from(section.saturating_sub(1)) * self.pitch;
        let foot = self.size.1 - 24.0 * self.scale;
        Rect::new(x, foot - self.front.1, x + self.front.0, foot)
    }

    /// The hole in the top of a pile, where a thread comes out.
    #[must_use]
    pub fn hole(&self, section: u32) -> Point {
        let pile = self.pile(section);
        Point::new(pile.center().x, pile.y0) + self.depth / 2.0
    }

    /// The section whose pile is at, or nearest to, a place across.
    #[must_use]
    pub fn section_at(&self, x: f64) -> u32 {
        crate::units::between((x / self.pitch).floor(), 0.0, f64::from(self.count.max(1) - 1)) as u32 + 1
    }

    /// Whether the number of a pile is written, while another one is picked.
    #[must_use]
    pub fn numbered(&self, section: u32, picked: u32) -> bool {
        numbered(section, picked, self.count, self.pitch, 30.0 * self.scale)
    }

    /// The first upright gap at or behind a pile that is clear of all numbers: its place across.
    #[must_use]
    pub fn gap(&self, section: u32, picked: u32) -> f64 {
        let gap = |s: u32| f64::from(s) * self.pitch - (self.pitch - self.front.0 - self.depth.x) / 2.0;
        let half = |s: u32| (5.0 * f64::from(s.checked_ilog10().unwrap_or(0) + 1) + 3.0) * self.scale;
        let clear = |x: &f64| {
            let written = (1..=self.count).filter(|s| self.numbered(*s, picked));
            written.into_iter().all(|s| (self.pile(s).center().x - x).abs() > half(s))
        };
        // Behind the last pile there is the margin.
        let margin = || gap(self.count).max(self.pile(self.count).center().x + half(self.count) + 1.0);
        (section..=self.count).map(gap).find(clear).unwrap_or_else(margin)
    }
}

/// Every number if there is room, else every second, fifth, tenth …; always the first and the picked one.
fn numbered(one: u32, picked: u32, count: u32, pitch: f64, room: f64) -> bool {
    let every = [1u32, 2, 5, 10, 20, 50, 100].into_iter().find(|e| f64::from(*e) * pitch >= room).unwrap_or(400);
    let near = |other: u32| f64::from(one.abs_diff(other)) * pitch < room;
    let regular = one == 1 || one.is_multiple_of(every) && (one == count || every == 1 || !near(1));
    one == picked || regular && (!near(picked) || !(1..=count).contains(&picked))
}

#[cfg(test)]
mod tests {
    use super::*;

    const DESK: Space = Space { width: 640.0, height: Some(460.0), scale: 1.0 };

    #[test]
    fn a_stack_fits_whatever_its_length() {
        for count in [0, 1, 18, 99, 400] {
            let lay = StackLay::new(DESK, count, 216.0);
            assert!(lay.size.1 <= 460.5, "{count}: {}", lay.size.1);
            assert!(lay.face.x1 + lay.depth.x <= 640.0);
            for place in 1..=count {
                assert_eq!(lay.place_at(lay.row(place).center().y), place);
            }
        }
        assert_eq!(StackLay::new(DESK, 0, 216.0).place_at(-5.0), 1);
    }

    #[test]
    fn columns_and_widths_are_seen_in_the_row() {
        let lay = StackLay::new(DESK, 4, 216.0);
        let stairs = crate::marks::Design { levels: 2, ..Default::default() };
        let bars = |marks: &BackMarks, section: u32| {
            let back = SeenBack::of(marks, section, 4, crate::marks::Lies::Right);
            lay.bars(section, marks, &back).first().copied().unwrap()
        };
        let plain = BackMarks::from(stairs);
        let row = lay.row(1);
        assert_eq!(bars(&plain, 1), Rect::new(lay.x(20.0), row.y0, lay.x(29.0), row.y1));
        let columns = BackMarks { after_wrap: AfterWrap::Column { apart_mm: 2.0 }, ..plain.clone() };
        assert_eq!((bars(&columns, 1).y0, bars(&columns, 1).y1), (row.y0, row.center().y));
        assert_eq!((bars(&columns, 3).y0, bars(&columns, 3).y1), (lay.row(3).center().y, lay.row(3).y1));
        let widths = BackMarks { after_wrap: AfterWrap::Width { width_mm: 4.0 }, ..plain };
        assert!(bars(&widths, 1).height() < bars(&widths, 3).height());
        assert_eq!(bars(&widths, 3).height(), lay.row(3).height());
        assert_eq!(lay.bars(1, &widths, &SeenBack::blank()), []);
    }

    #[test]
    fn millimetres_there_and_back() {
        let lay = StackLay::new(DESK, 18, 216.0);
        for mm in [0.0, 24.5, 100.0, 216.0] {
            assert!((lay.mm_at(lay.x(mm)) - mm).abs() < 1e-9);
        }
        assert_eq!(lay.ticks(), [50.0, 100.0, 150.0]);
    }

    #[test]
    fn numbers_leave_each_other_room() {
        let lay = StackLay::new(DESK, 99, 216.0);
        for picked in [1, 7, 50, 98] {
            let shown: Vec<u32> = (1..=99).filter(|p| lay.numbered(*p, picked)).collect();
            assert!(shown.contains(&picked));
            for pair in shown.windows(2) {
                assert!(f64::from(pair[1] - pair[0]) * lay.pitch >= NUMBER_PITCH, "{shown:?}");
            }
        }
        let short = StackLay::new(DESK, 18, 216.0);
        assert!((1..=18).all(|p| short.numbered(p, 3)));
    }

    #[test]
    fn ninety_nine_piles_fit() {
        for width in [288.0, 343.0, 1176.0] {
            let lay = PilesLay::new(Space { width, height: None, scale: 1.0 }, 99);
            assert!(lay.pile(99).x1 + lay.depth.x <= width + 1e-9);
            for section in 1..=99 {
                assert_eq!(lay.section_at(lay.pile(section).center().x), section);
                let gap = lay.gap(section, 7);
                assert!((0.0..=width + 12.0).contains(&gap));
            }
        }
    }
}
