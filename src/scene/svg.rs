//! Paints a scene as SVG text. Colours are classes, so that the page's style sheet (and forced colours) decide.

use super::item::{Ground, Group, Ink, Item, Line, Scene, Tag};
use crate::fold::Side;
use crate::units::short as number;
use std::borrow::Cow;
use std::fmt::Write;

/// Attributes and a name for a group that can be picked.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Picked {
    /// Attributes to write into its tag, already escaped; start with a blank.
    pub attributes: String,
}

/// The picture as an `svg` element of class `class`, `aria-hidden` since a table says the same.
#[must_use]
pub fn paint(scene: &Scene, class: &str, picked: &dyn Fn(Tag) -> Option<Picked>) -> String {
    let mut out = String::with_capacity(4096);
    let (w, h) = scene.size;
    let _ = write!(out, r#"<svg class="{class}" viewBox="0 0 {} {}" focusable="false">"#, number(w), number(h));
    for item in &scene.items {
        write_item(&mut out, item, None, picked);
    }
    out.push_str("</svg>");
    out
}

/// The items alone, for a picture that is written elsewhere.
pub fn write_items(out: &mut String, items: &[Item]) {
    for item in items {
        write_item(out, item, None, &|_| None);
    }
}

fn write_item(out: &mut String, item: &Item, ground: Option<Ground>, picked: &dyn Fn(Tag) -> Option<Picked>) {
    match item {
        Item::Path { path, fill, line } => {
            let _ = write!(out, r#"<path d="{}" class=""#, path_data(path));
            out.push_str(&fill.map_or_else(|| "no-fill".into(), |f| format!("fill-{}", name(f, ground))));
            if let Some(line) = line {
                let _ = write!(out, " line-{}", name(line.ink, ground));
            }
            out.push('"');
            if let Some(Line { width, dash, .. }) = line {
                let _ = write!(out, r#" stroke-width="{}" vector-effect="non-scaling-stroke""#, number(*width));
                if let Some((a, b)) = dash {
                    let _ = write!(out, r#" stroke-dasharray="{} {}""#, number(*a), number(*b));
                }
            }
            out.push_str("/>");
        }
        Item::Figure { text, baseline, size, halo } => {
            let _ = write!(
                out,
                r#"<text x="{}" y="{}" font-size="{}" class="figure{}" stroke-width="{}">{}</text>"#,
                number(baseline.x),
                number(baseline.y),
                number(*size),
                ground.map_or_else(String::new, |g| format!(" halo-{}", name(Ink::Paper(g), None))),
                number(2.0 * halo),
                escaped(text),
            );
        }
        Item::Words { text, start, size } => {
            let (x, y, size) = (number(start.x), number(start.y), number(*size));
            let _ = write!(out, r#"<text x="{x}" y="{y}" font-size="{size}" class="written">{}</text>"#, escaped(text));
        }
        Item::Group(group) => write_group(out, group, ground, picked),
    }
}

fn write_group(out: &mut String, g: &Group, outer: Option<Ground>, picked: &dyn Fn(Tag) -> Option<Picked>) {
    let m = g.place.as_coeffs().map(number);
    let _ = write!(out, r#"<g transform="matrix({})""#, m.join(" "));
    let attributes = g.tag.and_then(picked);
    if let Some(a) = &attributes {
        out.push_str(&a.attributes);
    }
    out.push('>');
    let ground = g.ground.or(outer);
    if let Some(own) = g.ground {
        let (w, h, paper) = (number(g.size.0), number(g.size.1), name(Ink::Paper(own), None));
        let _ = write!(out, r#"<rect width="{w}" height="{h}" class="fill-{paper}"/>"#);
    }
    if attributes.is_some() {
        let (w, h) = (number(g.size.0), number(g.size.1));
        let _ = write!(out, r#"<rect width="{w}" height="{h}" class="hit"/>"#);
    }
    for item in g.items.iter() {
        write_item(out, item, ground, picked);
    }
    if attributes.is_some() {
        let (w, h) = (number(g.size.0 - 12.0), number(g.size.1 - 12.0));
        let _ = write!(out, r#"<rect x="6" y="6" width="{w}" height="{h}" class="frame"/>"#);
    }
    out.push_str("</g>");
}

/// A text that a person may have typed, as text of a document.
#[must_use]
pub fn escaped(text: &str) -> Cow<'_, str> {
    if !text.contains(['&', '<', '>']) {
        return Cow::Borrowed(text);
    }
    Cow::Owned(text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;"))
}

/// The class name of an ink.
#[must_use]
pub fn name(ink: Ink, ground: Option<Ground>) -> &'static str {
    match ink {
        Ink::Ground => ground.map_or("light", |g| name(Ink::Paper(g), None)),
        Ink::Paper(Ground { side: Side::A, tone }) => ["a0", "a1", "a2", "a3"][usize::from(tone.min(3))],
        Ink::Paper(Ground { side: Side::B, tone }) => ["b0", "b1", "b2", "b3"][usize::from(tone.min(3))],
        Ink::Black => "ink",
        Ink::Edge => "edge",
        Ink::Crease => "crease",
        Ink::Hatch => "hatch",
        Ink::CastOnBench => "cast",
        Ink::CastOnPaper => "shade",
        Ink::Quiet => "quiet",
        Ink::Light => "light",
    }
}

/// The path as the text of a `d` attribute.
#[must_use]
pub fn path_data(path: &kurbo::BezPath) -> String {
    let mut d = String::new();
    for el in path.elements() {
        let mut put = |c: char, points: &[kurbo::Point]| {
            d.push(c);
            for (i, p) in points.iter().enumerate() {
                let _ = write!(d, "{}{} {}", if i > 0 { " " } else { "" }, number(p.x), number(p.y));
            }
        };
        match *el {
            kurbo::PathEl::MoveTo(p) => put('M', &[p]),
            kurbo::PathEl::LineTo(p) => put('L', &[p]),
            kurbo::PathEl::QuadTo(a, p) => put('Q', &[a, p]),
            kurbo::PathEl::CurveTo(a, b, p) => put('C', &[a, b, p]),
            kurbo::PathEl::ClosePath => put('Z', &[]),
        }
    }
    d
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_person_typed_stays_text() {
        let start = kurbo::Point::ZERO;
        let typed = || "<b>1 & 2</b>".to_owned();
        let items = vec![
            Item::Words { text: typed(), start, size: 4.0 },
            Item::Figure { text: typed(), baseline: start, size: 4.0, halo: 0.0 },
        ];
        let painted = paint(&Scene { size: (1.0, 1.0), items }, "x", &|_| None);
        assert_eq!(painted.matches("&lt;b&gt;1 &amp; 2&lt;/b&gt;").count(), 2);
        assert!(!painted.contains("<b>"));
    }
}
