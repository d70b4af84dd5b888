//! A page of a document as SVG text, to be looked at before it is printed. Colours are classes, as those of scenes are, so that
//! the page's style sheet (and forced colours) decide.

use super::document::{Align, Drawn, Page, Stroke, Text, Weight};
use super::words::width_of;
use crate::scene::Ink;
use crate::scene::svg::{escaped, name, write_items};
use crate::units::short as number;
use kurbo::Affine;
use std::fmt::Write;

/// Things in things are not followed deeper. A bound on work.
const DEEPEST: u32 = 24;
/// How many pixels of a screen a millimetre of a line's width is taken for.
const PIXELS: f64 = 2.0;
/// What a line is wide at the least, in those: thinner ones are lost on a screen.
const THINNEST: f64 = 0.6;

/// The page as an `svg` element of this class, a millimetre a unit. What it says has to stand in words beside it.
#[must_use]
pub fn page_svg(page: &Page, class: &str) -> String {
    let (w, h) = (number(page.width_mm), number(page.height_mm));
    let mut out = String::with_capacity(8192);
    let _ = write!(out, r#"<svg class="{class}" viewBox="0 0 {w} {h}" focusable="false">"#);
    let _ = write!(out, r#"<rect width="{w}" height="{h}" class="fill-a0"/>"#);
    for drawn in &page.drawn {
        write_drawn(&mut out, drawn, 0);
    }
    out.push_str("</svg>");
    out
}

fn write_drawn(out: &mut String, drawn: &Drawn, depth: u32) {
    match drawn {
        Drawn::Scene { place, items, .. } => {
            begin(out, *place);
            write_items(out, items);
            out.push_str("</g>");
        }
        Drawn::Text(text) => write_text(out, text),
        Drawn::Stroke(stroke) => write_stroke(out, stroke),
        Drawn::Placed { .. } if depth >= DEEPEST => {}
        Drawn::Placed { place, window, drawn } => {
            begin(out, *place);
            // An inner picture is cut off at its edges, without the name that a path to cut along would need.
            if let Some(window) = window {
                let [x, y, w, h] = [window.x0, window.y0, window.width(), window.height()].map(number);
                let _ = write!(
                    out,
                    r#"<svg class="window" x="{x}" y="{y}" width="{w}" height="{h}" viewBox="{x} {y} {w} {h}">"#
                );
            }
            for one in drawn.iter() {
                write_drawn(out, one, depth + 1);
            }
            out.push_str(if window.is_some() { "</svg></g>" } else { "</g>" });
        }
    }
}

fn begin(out: &mut String, place: Affine) {
    if place == Affine::IDENTITY {
        out.push_str("<g>");
        return;
    }
    let [a, b, c, d, e, f] = place.as_coeffs();
    let turned = [a, b, c, d].map(share).join(" ");
    let _ = write!(out, r#"<g transform="matrix({turned} {} {})">"#, number(e), number(f));
}

/// A number of a matrix that turns: these are shares, and need more places than millimetres do.
fn share(v: f64) -> String {
    let all = (v * 1e5).round();
    let all = if all.is_finite() { crate::units::between(all, -1e12, 1e12) as i64 } else { 0 };
    let (sign, all) = (if all < 0 { "-" } else { "" }, all.unsigned_abs());
    format!("{sign}{}.{:05}", all / 100_000, all % 100_000)
}

fn write_text(out: &mut String, text: &Text) {
    let width = width_of(&text.words, text.weight, text.size_mm);
    if width <= 0.0 {
        return;
    }
    let anchor = match text.align {
        Align::Left => "start",
        Align::Middle => "middle",
        Align::Right => "end",
    };
    let class = match text.weight {
        Weight::Plain => "plainly",
        Weight::Bold => "bold",
        Weight::Figures => "numeral",
    };
    // As long as it is on paper, whatever typeface the screen has.
    let _ = write!(
        out,
        r#"<text x="{}" y="{}" font-size="{}" text-anchor="{anchor}" textLength="{}" lengthAdjust="spacingAndGlyphs" class="{class}">{}</text>"#,
        number(text.at.x),
        number(text.at.y),
        number(text.size_mm),
        number(width),
        escaped(&text.words),
    );
}

fn write_stroke(out: &mut String, stroke: &Stroke) {
    let width = (stroke.width_mm * PIXELS).max(THINNEST);
    let ink = match stroke.ink {
        Ink::Black => "ink",
        other => name(other, None),
    };
    let [x1, y1, x2, y2] = [stroke.from.x, stroke.from.y, stroke.to.x, stroke.to.y].map(number);
    let _ = write!(
        out,
        r#"<path d="M{x1} {y1}L{x2} {y2}" class="no-fill line-{ink}" stroke-width="{}" vector-effect="non-scaling-stroke""#,
        number(width)
    );
    if stroke.dash_mm.iter().any(|d| *d > 0.0) {
        let dashes = stroke.dash_mm.map(|d| number(d * PIXELS)).join(" ");
        let _ = write!(out, r#" stroke-dasharray="{dashes}""#);
    }
    out.push_str("/>");
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::print::{Paper, Printer, lines, test_page};
    use kurbo::Rect;

    #[test]
    fn what_a_person_typed_stays_text_and_the_page_is_as_large_as_the_paper() {
        let document = lines("<Ticket> & co", &[("Pages".into(), "1 < 2".into())], &[], Paper::Letter);
        let svg = page_svg(&document.pages[0], "x");
        assert!(svg.starts_with(r#"<svg class="x" viewBox="0 0 215.9 279.4""#), "{svg}");
        assert!(svg.contains("&lt;Ticket&gt; &amp; co") && svg.contains("1 &lt; 2"), "{svg}");
        assert!(!svg.contains("style="), "the content security policy allows no style attribute");
    }

    #[test]
    fn every_word_and_line_of_the_test_page_is_there() {
        let document = test_page(&Printer::default()).unwrap();
        let svg = page_svg(&document.pages[0], "x");
        assert_eq!(svg.matches("Printer test page, side A").count(), 1);
        // 21 marks on each of two scales, 151 on the ruler, its line, three lines of the arrow.
        assert_eq!(svg.matches("<path").count(), 2 * 21 + 151 + 1 + 3);
        assert_eq!(svg.matches("<g").count(), svg.matches("</g>").count());
    }

    #[test]
    fn what_lies_outside_a_window_is_cut_off() {
        let inside: Vec<Drawn> = vec![Text::plain("cut", (5.0, 5.0), 4.0).into()];
        let window = Some(Rect::new(1.0, 2.0, 11.0, 22.0));
        let placed = Drawn::Placed { place: Affine::IDENTITY, window, drawn: inside.into() };
        let svg = page_svg(&Page { width_mm: 20.0, height_mm: 30.0, drawn: vec![placed] }, "x");
        assert!(
            svg.contains(r#"<svg class="window" x="1" y="2" width="10" height="20" viewBox="1 2 10 20">"#),
            "{svg}"
        );
        assert!(svg.ends_with("</svg></g></svg>"), "{svg}");
    }
}
