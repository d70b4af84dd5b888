//! Paints a scene on a 2D canvas.

use crate::scene::svg::name;
use crate::scene::{Ground, Ink, Item, Line, Scene};
use crate::units::short as number;
use kurbo::{Affine, BezPath, PathEl};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

/// The colours of the page by class name, read from its style sheet.
#[derive(Clone, Debug, Default)]
pub struct Colours(Vec<String>);

const NAMES: [&str; 17] = [
    "a0", "a1", "a2", "a3", "b0", "b1", "b2", "b3", "ink", "edge", "crease", "hatch", "cast", "shade", "quiet",
    "light", "bench",
];

impl Colours {
    /// Reads the custom properties that hold now (forced colours change them). `on` is the element that is painted.
    #[must_use]
    pub fn read(on: &HtmlCanvasElement) -> Self {
        let style = web_sys::window().and_then(|w| {
            let root = w.document()?.document_element()?;
            w.get_computed_style(&root).ok().flatten()
        });
        let value = |n: &'static str| {
            let value = style.as_ref().and_then(|s| s.get_property_value(&format!("--{n}")).ok());
            let value = value.map(|v| v.trim().to_string()).filter(|v| !v.is_empty()).unwrap_or_else(|| "#888".into());
            if value.starts_with('#') || value.starts_with("rgb") { value } else { resolved(on, &value) }
        };
        Self(NAMES.into_iter().map(value).collect())
    }

    /// The colour of a class name.
    #[must_use]
    pub fn get(&self, name: &str) -> &str {
        NAMES.iter().position(|n| *n == name).and_then(|i| self.0.get(i)).map_or("#888", String::as_str)
    }
}

/// What a colour of the system is here and now; a canvas itself takes it from the light scheme always.
fn resolved(on: &HtmlCanvasElement, name: &str) -> String {
    let _ = on.style().set_property("color", name);
    let style = web_sys::window().and_then(|w| w.get_computed_style(on).ok().flatten());
    style.and_then(|s| s.get_property_value("color").ok()).unwrap_or_else(|| name.into())
}

/// A canvas ready to be painted on.
#[derive(Clone, Debug)]
pub struct Canvas {
    element: HtmlCanvasElement,
    context: CanvasRenderingContext2d,
    /// Device pixels for a CSS pixel.
    ratio: f64,
    /// Size in CSS pixels.
    pub size: (f64, f64),
    /// Colours.
    pub colours: Colours,
}

impl Canvas {
    /// Takes a canvas element, unless the browser has no 2D context for it.
    #[must_use]
    pub fn of(element: HtmlCanvasElement) -> Option<Self> {
        let context = element.get_context("2d").ok()??.dyn_into().ok()?;
        let mut canvas = Self { element, context, ratio: 1.0, size: (0.0, 0.0), colours: Colours::default() };
        canvas.fit();
        Some(canvas)
    }

    /// Fits the canvas to the room that it has on the page, and reads the colours again.
    pub fn fit(&mut self) {
        let rect = self.element.get_bounding_client_rect();
        self.ratio = crate::units::between(web_sys::window().map_or(1.0, |w| w.device_pixel_ratio()), 1.0, 3.0);
        self.size = (rect.width(), rect.height());
        let device = |v: f64| crate::units::between((v * self.ratio).round(), 1.0, 8192.0) as u32;
        self.element.set_width(device(rect.width()));
        self.element.set_height(device(rect.height()));
        self.colours = Colours::read(&self.element);
    }

    /// Where the canvas lies in the window.
    #[must_use]
    pub fn corner(&self) -> (f64, f64) {
        let rect = self.element.get_bounding_client_rect();
        (rect.left(), rect.top())
    }

    /// Paints a scene (in CSS pixels) on a clear canvas.
    pub fn paint(&self, scene: &Scene) {
        let (w, h) = self.size;
        self.transform(Affine::IDENTITY);
        self.context.clear_rect(0.0, 0.0, w, h);
        for item in &scene.items {
            self.item(item, Affine::IDENTITY, None);
        }
    }

    fn transform(&self, place: Affine) {
        let [a, b, c, d, e, f] = (Affine::scale(self.ratio) * place).as_coeffs();
        // Fails only on values that are not finite; then the item is painted where the last one was.
        let _ = self.context.set_transform(a, b, c, d, e, f);
    }

    fn item(&self, item: &Item, place: Affine, ground: Option<Ground>) {
        match item {
            Item::Path { path, fill, line } => {
                self.transform(place);
                self.outline(path);
                if let Some(ink) = fill {
                    self.context.set_fill_style_str(self.colour(*ink, ground));
                    self.context.fill();
                }
                if let Some(line) = line {
                    self.stroke(line, ground);
                }
            }
            Item::Figure { text, baseline, size, halo } => {
                self.transform(place);
                let c = &self.context;
                c.set_font(&format!("600 {}px Folio, Georgia, serif", number(*size)));
                c.set_text_align("center");
                if let Some(ground) = ground.filter(|g| *halo > 0.0 && g.side == crate::fold::Side::B) {
                    c.set_stroke_style_str(self.colour(Ink::Paper(ground), None));
                    c.set_line_width(2.0 * halo);
                    c.set_line_join("round");
                    let _ = c.set_line_dash(&js_sys::Array::new());
                    let _ = c.stroke_text(text, baseline.x, baseline.y);
                }
                c.set_fill_style_str(self.colours.get("ink"));
                let _ = c.fill_text(text, baseline.x, baseline.y);
            }
            Item::Words { text, start, size } => {
                self.transform(place);
                let c = &self.context;
                c.set_font(&format!("{}px Georgia, serif", number(*size)));
                c.set_text_align("left");
                c.set_fill_style_str(self.colours.get("ink"));
                let _ = c.fill_text(text, start.x, start.y);
            }
            Item::Group(group) => {
                let place = place * group.place;
                if place.determinant().abs() < 1e-6 {
                    return;
                }
                if let Some(ground) = group.ground {
                    self.transform(place);
                    self.context.set_fill_style_str(self.colour(Ink::Paper(ground), None));
                    self.context.fill_rect(0.0, 0.0, group.size.0, group.size.1);
                }
                // A halo reaches as far as its page and no farther.
                let on_b = ground.is_some_and(|g| g.side == crate::fold::Side::B);
                let cut = on_b && group.items.iter().any(|i| matches!(i, Item::Figure { halo, .. } if *halo > 0.0));
                if cut {
                    self.context.save();
                    self.transform(place);
                    self.context.begin_path();
                    self.context.rect(0.0, 0.0, group.size.0, group.size.1);
                    self.context.clip();
                }
                for item in group.items.iter() {
                    self.item(item, place, group.ground.or(ground));
                }
                if cut {
                    self.context.restore();
                }
            }
        }
    }

    fn outline(&self, path: &BezPath) {
        let c = &self.context;
        c.begin_path();
        for el in path.elements() {
            match *el {
                PathEl::MoveTo(p) => c.move_to(p.x, p.y),
                PathEl::LineTo(p) => c.line_to(p.x, p.y),
                PathEl::QuadTo(a, p) => c.quadratic_curve_to(a.x, a.y, p.x, p.y),
                PathEl::CurveTo(a, b, p) => c.bezier_curve_to(a.x, a.y, b.x, b.y, p.x, p.y),
                PathEl::ClosePath => c.close_path(),
            }
        }
    }

    /// Strokes the outline that was just made, with a width in CSS pixels.
    fn stroke(&self, line: &Line, ground: Option<Ground>) {
        self.transform(Affine::IDENTITY);
        let c = &self.context;
        c.set_stroke_style_str(self.colour(line.ink, ground));
        c.set_line_width(line.width);
        c.set_line_join("round");
        let dash = js_sys::Array::new();
        if let Some((a, b)) = line.dash {
            dash.push(&JsValue::from_f64(a));
            dash.push(&JsValue::from_f64(b));
        }
        let _ = c.set_line_dash(&dash);
        c.stroke();
    }

    fn colour(&self, ink: Ink, ground: Option<Ground>) -> &str {
        self.colours.get(name(ink, ground))
    }
}
