//! Printed documents as a PDF reader of another hand (lopdf) finds them.
#![allow(
    dead_code,
    clippy::panic,
    clippy::unwrap_used,
    reason = "each of those that use it uses some of it, as tests may"
)]

use backmark::fold::Direction;
use lopdf::Object;
use lopdf::content::Content;

/// A piece of text as it stands in the file: font, letters, matrix in points, size in points.
#[derive(Clone, Debug)]
pub struct Shown {
    pub font: String,
    pub text: String,
    pub matrix: [f64; 6],
    pub size: f64,
}

/// A page as another program reads it: width and height in points, and its text.
pub struct Read {
    pub size: (f64, f64),
    pub shown: Vec<Shown>,
    /// Closed areas filled in black: left, top, right and bottom in mm from the upper left corner.
    pub black: Vec<[f64; 4]>,
    /// All that is drawn and where text begins, as `black`.
    pub reach: [f64; 4],
}

pub fn number(object: &Object) -> f64 {
    f64::from(object.as_float().unwrap())
}

pub fn read(bytes: &[u8]) -> (lopdf::Document, Vec<Read>) {
    let file = lopdf::Document::load_mem(bytes).unwrap();
    let mut pages = Vec::new();
    for id in file.get_pages().values() {
        let page = file.get_dictionary(*id).unwrap();
        let media: Vec<f64> = page.get(b"MediaBox").unwrap().as_array().unwrap().iter().map(number).collect();
        let content = Content::decode(&file.get_page_content(*id)).unwrap();
        let (mut font, mut size, mut matrix, mut shown) = (String::new(), 0.0, [0.0; 6], Vec::new());
        let (mut grey, mut path, mut black, mut all) = (0.0, Vec::new(), Vec::new(), Vec::new());
        for op in &content.operations {
            match op.operator.as_str() {
                "Tf" => {
                    font = String::from_utf8(op.operands[0].as_name().unwrap().to_vec()).unwrap();
                    size = number(&op.operands[1]);
                }
                "Tm" => matrix = std::array::from_fn(|i| number(&op.operands[i])),
                "Tj" => {
                    let codes = op.operands[0].as_str().unwrap();
                    let text = codes.iter().map(|b| char::from(*b)).collect();
                    all.push((matrix[4], matrix[5]));
                    shown.push(Shown { font: font.clone(), text, matrix, size });
                }
                "m" | "l" => path.push((number(&op.operands[0]), number(&op.operands[1]))),
                "c" => path.push((number(&op.operands[4]), number(&op.operands[5]))),
                "g" => grey = number(&op.operands[0]),
                "f" | "B" | "S" | "n" => {
                    if op.operator != "S" && op.operator != "n" && grey < 0.01 {
                        black.push(bounds(&path, media[3]));
                    }
                    if op.operator != "n" {
                        all.extend(&path);
                    }
                    path.clear();
                }
                "cm" => panic!("points are final"),
                _ => {}
            }
        }
        let reach = bounds(&all, media[3]);
        pages.push(Read { size: (media[2], media[3]), shown, black, reach });
    }
    (file, pages)
}

pub const POINTS: f64 = 72.0 / 25.4;

/// Figures of a page in mm from its upper left corner, with the way their heads point on the paper: the middle of the
/// figure, reckoned from widths of this test's own.
pub fn figures(page: &Read) -> Vec<(u32, (f64, f64), Direction)> {
    // Besley's hmtx, of the font file, per 2000.
    let wide =
        |c: char| f64::from([1235, 1095, 1225, 1112, 1149, 1111, 1169, 1094, 1129, 1169][c as usize - 48]) / 2000.0;
    let figure = |shown: &Shown| {
        let [a, b, c, d, e, f] = shown.matrix;
        let width: f64 = shown.text.chars().map(wide).sum::<f64>() * shown.size;
        let high = 0.75 * shown.size;
        let (x, y) = (e + a * width / 2.0 + c * high / 2.0, f + b * width / 2.0 + d * high / 2.0);
        let head = match (c.round() as i32, d.round() as i32) {
            (0, 1) => Direction::Up,
            (0, -1) => Direction::Down,
            (1, 0) => Direction::Right,
            (-1, 0) => Direction::Left,
            other => panic!("a figure stands askew: {other:?}"),
        };
        // No mirror image.
        assert!(a * d - b * c > 0.99, "{shown:?}");
        (shown.text.parse().unwrap(), (x / POINTS, (page.size.1 - y) / POINTS), head)
    };
    page.shown.iter().filter(|s| s.font == "F").map(figure).collect()
}

/// Left, top, right and bottom in mm of points of a page so high.
fn bounds(points: &[(f64, f64)], high: f64) -> [f64; 4] {
    let none = [f64::MAX, f64::MAX, f64::MIN, f64::MIN];
    points.iter().fold(none, |[l, t, r, b], (x, y)| {
        let (x, y) = (x / POINTS, (high - y) / POINTS);
        [l.min(x), t.min(y), r.max(x), b.max(y)]
    })
}

/// All words of a page, in the order in which they stand in the file.
pub fn words(page: &Read) -> String {
    page.shown.iter().map(letters).collect::<Vec<_>>().join(" ")
}

/// The letters of a piece of text; those above ASCII by WinAnsiEncoding (ISO 32000-1, annex D), as far as tests ask for them.
pub fn letters(shown: &Shown) -> String {
    let letter = |c: char| match c as u32 {
        0x93 | 0x94 => '"',
        0x92 => '\'',
        _ => c,
    };
    shown.text.chars().map(letter).collect()
}
