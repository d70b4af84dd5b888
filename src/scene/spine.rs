//! The marks of a whole book at true size, in millimetres: the backs side by side as the spine faces one, head up, with
//! trims, bars, what is printed beside them, and a rule. A second picture is the head edge, where bars stand in its trim.

use super::item::{Group, Ink, Item, Line, Scene, Tag};
use crate::marks::{BackMarks, Bar, Inset};
use crate::units::short;
use kurbo::{Affine, BezPath, Point, Rect};

/// Room for the rule at the left, and for the numbers of sections above, in mm.
const RULE: f64 = 12.0;
const ABOVE: f64 = 6.0;
/// Free at the right and below, in mm.
const MARGIN: f64 = 3.0;
/// The size of figures on the rule and above the backs, in mm.
const FIGURE: f64 = 2.4;
/// Between two heads in the picture of head edges, in mm.
const APART: f64 = 2.0;

/// How the backs are laid out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpineLay {
    /// How thick a section is, in mm.
    pub thickness_mm: f64,
    /// From one back to the next, in mm; the thickness where they lie on each other. Farther apart, bars that run over
    /// their back are seen whole.
    pub pitch_mm: f64,
    /// What the knife takes off at the head and at the foot, in mm.
    pub trims_mm: (f64, f64),
}

impl SpineLay {
    /// The backs gathered, each as wide as its section is thick.
    #[must_use]
    pub const fn gathered(thickness_mm: f64, trims_mm: (f64, f64)) -> Self {
        Self { thickness_mm, pitch_mm: thickness_mm, trims_mm }
    }

    /// Where the back of a section lies in the picture, in mm.
    #[must_use]
    pub fn back(&self, section: u32, spine_mm: f64) -> Rect {
        let middle = RULE + (f64::from(section) - 0.5) * self.pitch_mm;
        let half = self.thickness_mm / 2.0;
        Rect::new(middle - half, ABOVE, middle + half, ABOVE + spine_mm)
    }

    /// Where a bar stands in the picture, in mm. Where backs lie on each other, only what is on the back is seen; that
    /// may be nothing.
    #[must_use]
    pub fn bar(&self, section: u32, bar: &Bar, spine_mm: f64) -> Option<Rect> {
        let back = self.back(section, spine_mm);
        let middle = back.center().x + bar.across_mm;
        let (begins, ends) = bar.ends_mm();
        let half = bar.width_mm / 2.0;
        let whole = Rect::new(middle - half, back.y0 + begins, middle + half, back.y0 + ends);
        let seen = if self.pitch_mm > self.thickness_mm { whole } else { whole.intersect(back) };
        (seen.width() > 0.0 && seen.height() > 0.0).then_some(seen)
    }
}

/// Draws the backs of a book of so many sections. Where all sections lie inside one another, the backs are bare: see
/// [`head_design`].
#[must_use]
pub fn spine_design(marks: &BackMarks, sections: u32, lay: &SpineLay) -> Scene {
    let spine_mm = marks.stairs.spine_mm;
    let width = RULE + f64::from(sections) * lay.pitch_mm + MARGIN;
    let mut items = rule(spine_mm, ABOVE);
    let shows = !matches!(marks.inset, Inset::Through { .. });
    let every = (FIGURE * 1.6 / lay.pitch_mm).ceil().max(1.0) as u32;
    for section in 1..=sections {
        let back = lay.back(section, spine_mm);
        let mut on_back = vec![outline(Rect::new(0.0, 0.0, back.width(), spine_mm))];
        if shows {
            // In the units of the back itself, so that a tap is in mm from its head.
            let own = |r: Rect| r - back.origin().to_vec2();
            let bar = lay.bar(section, &marks.bar(section, sections), spine_mm);
            on_back.extend(bar.map(|bar| Item::filled(own(bar), Ink::Black)));
            on_back.extend(label(marks, section, sections, back.width() / 2.0));
        }
        items.push(Item::Group(Group {
            place: Affine::translate((back.x0, back.y0)),
            ground: None,
            tag: Some(Tag::Place(section)),
            size: (back.width(), spine_mm),
            items: on_back.into(),
        }));
        if section == 1 || section.is_multiple_of(every) && section > every {
            items.push(text(section.to_string(), back.center().x, ABOVE - 1.5));
        }
    }
    for at in [lay.trims_mm.0, spine_mm - lay.trims_mm.1] {
        if at > 0.0 && at < spine_mm {
            let y = ABOVE + at;
            items.push(Item::stroke((RULE - 2.0, y), (width - 1.0, y), Line::dashed(Ink::Crease, 1.0, 4.0, 3.0)));
        }
    }
    Scene { size: (width, ABOVE + spine_mm + MARGIN), items }
}

/// Draws the head edges of a book whose sheets are marked in the head trim, one strip for each section with its spine at
/// the left; `None` where none is.
#[must_use]
pub fn head_design(marks: &BackMarks, sections: u32) -> Option<Scene> {
    let (Inset::Through { head } | Inset::Sheets { head: Some(head), .. }) = marks.inset else { return None };
    let last = (1..=sections).map(|section| head.ends_mm(marks.level(section)).1).fold(0.0, f64::max);
    let long = (last / 10.0).ceil() * 10.0 + 10.0;
    let mut items = Vec::new();
    for section in 1..=sections {
        let top = ABOVE + f64::from(section - 1) * (head.depth_mm + APART);
        let (begins, ends) = head.ends_mm(marks.level(section));
        items.push(outline(Rect::new(RULE, top, RULE + long, top + head.depth_mm)));
        items.push(Item::filled(Rect::new(RULE + begins, top, RULE + ends, top + head.depth_mm), Ink::Black));
        items.push(text(section.to_string(), RULE / 2.0, top + head.depth_mm / 2.0 + FIGURE * 0.36));
    }
    let high = ABOVE + f64::from(sections) * (head.depth_mm + APART);
    for tens in 0..=(long / 10.0) as u32 {
        let x = RULE + f64::from(tens) * 10.0;
        items.push(Item::stroke((x, ABOVE - 1.5), (x, ABOVE), Line::solid(Ink::Black, 1.0)));
        items.push(text(short(f64::from(tens) * 10.0), x, ABOVE - 2.0));
    }
    Some(Scene { size: (RULE + long + MARGIN, high + MARGIN), items })
}

/// What is printed beside the bar, read from the head down.
fn label(marks: &BackMarks, section: u32, sections: u32, middle: f64) -> Option<Item> {
    let label = marks.label.as_ref()?;
    let text = label.text(section, sections);
    let long = label.long_mm(section, sections);
    let figure = Item::Figure { text, baseline: Point::new(0.0, label.size_mm * 0.36), size: label.size_mm, halo: 0.0 };
    // A quarter turn clockwise: the text runs down.
    let place = Affine::new([0.0, 1.0, -1.0, 0.0, middle, label.from_mm + long / 2.0]);
    Some(Item::Group(Group { place, ground: None, tag: None, size: (long, label.size_mm), items: vec![figure].into() }))
}

/// The rule at the left: a tick for each millimetre, longer ones for fives and tens, and the tens in figures.
fn rule(spine_mm: f64, top: f64) -> Vec<Item> {
    let mut ticks = BezPath::new();
    let mut items = Vec::new();
    for mm in 0..=spine_mm as u32 {
        let long = match mm {
            _ if mm.is_multiple_of(10) => 3.0,
            _ if mm.is_multiple_of(5) => 2.0,
            _ => 1.0,
        };
        let y = top + f64::from(mm);
        ticks.move_to((RULE - 2.0 - long, y));
        ticks.line_to((RULE - 2.0, y));
        if mm.is_multiple_of(10) {
            items.push(text(mm.to_string(), RULE - 7.5, y + FIGURE * 0.36));
        }
    }
    items.push(Item::Path { path: ticks, fill: None, line: Some(Line::solid(Ink::Black, 0.7)) });
    items
}

fn outline(r: Rect) -> Item {
    let corners = [(r.x0, r.y0), (r.x1, r.y0), (r.x1, r.y1), (r.x0, r.y1)].map(Point::from);
    Item::polygon(&corners, None, Some(Line::solid(Ink::Quiet, 0.7)))
}

fn text(text: String, x: f64, y: f64) -> Item {
    Item::Figure { text, baseline: Point::new(x, y), size: FIGURE, halo: 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::marks::{AfterWrap, Design, HeadMarks, Label};
    use kurbo::Shape;

    fn six_mm() -> BackMarks {
        Design { spine_mm: 216.0, first_mm: 30.0, step_mm: 6.0, length_mm: 6.0, levels: 24 }.into()
    }

    /// All black areas with where they are in the picture.
    fn bars(scene: &Scene) -> Vec<Rect> {
        let mut bars = Vec::new();
        for item in &scene.items {
            match item {
                Item::Group(group) => {
                    for item in group.items.iter() {
                        if let Item::Path { path, fill: Some(Ink::Black), .. } = item {
                            bars.push((group.place * path.clone()).bounding_box());
                        }
                    }
                }
                Item::Path { path, fill: Some(Ink::Black), .. } => bars.push(path.bounding_box()),
                _ => {}
            }
        }
        bars
    }

    fn near(one: Rect, other: Rect) -> bool {
        let off = [one.x0 - other.x0, one.y0 - other.y0, one.x1 - other.x1, one.y1 - other.y1];
        off.iter().all(|off| off.abs() < 0.01)
    }

    #[test]
    fn every_bar_is_as_long_and_as_far_down_as_it_is_printed() {
        let lay = SpineLay { thickness_mm: 1.6, pitch_mm: 8.0, trims_mm: (3.0, 3.0) };
        let scene = spine_design(&six_mm(), 24, &lay);
        let bars = bars(&scene);
        assert_eq!(bars.len(), 24);
        for (i, bar) in bars.iter().enumerate() {
            let (i, x) = (i as f64, RULE + (i as f64 + 0.5) * 8.0);
            let begins = ABOVE + 30.0 + 6.0 * i;
            assert!(near(*bar, Rect::new(x - 1.0, begins, x + 1.0, begins + 6.0)), "{bar:?}");
        }
        // The last one begins at 168 mm.
        assert!((bars[23].y0 - ABOVE - 168.0).abs() < 0.01);
        assert!((scene.size.1 - (ABOVE + 216.0 + MARGIN)).abs() < 0.01);
        let trims = scene.items.iter().filter(|i| matches!(i, Item::Path { line: Some(l), .. } if l.dash.is_some()));
        let at: Vec<f64> =
            trims.map(|i| if let Item::Path { path, .. } = i { path.bounding_box().y0 } else { 0.0 }).collect();
        assert!((at[0] - ABOVE - 3.0).abs() < 0.01 && (at[1] - ABOVE - 213.0).abs() < 0.01, "{at:?}");
    }

    #[test]
    fn gathered_backs_show_what_is_on_them() {
        let lay = SpineLay::gathered(1.6, (0.0, 0.0));
        let plain = bars(&spine_design(&six_mm(), 2, &lay));
        assert!(near(plain[0], Rect::new(RULE, ABOVE + 30.0, RULE + 1.6, ABOVE + 36.0)), "{plain:?}");
        let two = Design { levels: 1, ..six_mm().stairs };
        let columns =
            |apart_mm: f64| BackMarks { width_mm: 0.8, after_wrap: AfterWrap::Column { apart_mm }, ..two.into() };
        let at = bars(&spine_design(&columns(0.8), 2, &lay));
        assert!(near(at[0], Rect::new(RULE, ABOVE + 30.0, RULE + 0.8, ABOVE + 36.0)), "{at:?}");
        assert!(near(at[1], Rect::new(RULE + 2.4, ABOVE + 30.0, RULE + 3.2, ABOVE + 36.0)), "{at:?}");
        assert_eq!(bars(&spine_design(&columns(3.0), 2, &lay)), [], "beside the back");
        let wide = BackMarks { width_mm: 0.5, after_wrap: AfterWrap::Width { width_mm: 1.5 }, ..two.into() };
        let widths = bars(&spine_design(&wide, 2, &lay)).iter().map(Rect::width).collect::<Vec<_>>();
        assert!((widths[0] - 0.5).abs() < 0.01 && (widths[1] - 1.5).abs() < 0.01);
    }

    #[test]
    fn what_is_printed_beside_the_bars_runs_down_from_where_it_begins() {
        let label = Label { number: true, of_how_many: false, title: "Ab".into(), from_mm: 180.0, size_mm: 3.0 };
        let marks = BackMarks { label: Some(label), ..six_mm() };
        let scene = spine_design(&marks, 12, &SpineLay::gathered(1.6, (3.0, 3.0)));
        let group = scene.group(Tag::Place(3)).unwrap();
        let Some(Item::Group(label)) = group.items.last() else { panic!("{group:?}") };
        let Some(Item::Figure { text, .. }) = label.items.first() else { panic!("{label:?}") };
        assert_eq!(text, "3 Ab");
        // Four letters of 1.8 mm, about their middle at 183.6.
        let [begins, ends] = [-3.6, 3.6].map(|x| label.place * Point::new(x, 0.0));
        assert!((begins.y - 180.0).abs() < 0.01 && (ends.y - 187.2).abs() < 0.01);
        assert!((begins.x - 0.8).abs() < 0.01);
    }

    #[test]
    fn heads_where_they_are_marked() {
        assert_eq!(head_design(&six_mm(), 4), None);
        let head = HeadMarks { first_mm: 10.0, step_mm: 5.0, length_mm: 4.0, depth_mm: 3.0 };
        let marks = BackMarks { inset: Inset::Through { head }, ..six_mm() };
        let at = bars(&head_design(&marks, 3).unwrap());
        assert!(near(at[2], Rect::new(RULE + 20.0, ABOVE + 10.0, RULE + 24.0, ABOVE + 13.0)), "{at:?}");
        assert_eq!(bars(&spine_design(&marks, 3, &SpineLay::gathered(1.6, (3.0, 3.0)))), []);
    }
}
