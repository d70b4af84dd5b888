//! Sheets to read and sign: scenes and lines of words on as many pages as they take, with a running head.

use super::document::{Align, Document, Drawn, MAX_PAGES, Page, Stroke, Text, Weight};
use super::printer::{MARGIN, Paper};
use super::words::{lines_of, width_of};
use crate::scene::{Item, Scene};
use kurbo::{Affine, Rect, Shape};

/// Room for the running head and for the foot, mm.
const HEAD: f64 = 8.0;
const FOOT: f64 = 6.0;
/// Size of words and from line to line, mm.
const WORDS: f64 = 3.6;
const LINE: f64 = 5.2;
/// Where values begin, mm.
const VALUES: f64 = 62.0;

/// Scenes in millimetres as a document: each begins a page, and one that is longer is broken where nothing stands. What is
/// wider than the paper is made smaller.
#[must_use]
pub fn scenes(title: &str, all: &[Scene], paper: Paper) -> Document {
    numbered(title, pages_of(all, paper), paper)
}

/// What stands on the pages of scenes, but for their running heads.
fn pages_of(all: &[Scene], paper: Paper) -> Vec<Vec<Drawn>> {
    let (w, h) = paper.size_mm();
    let mut pages = Vec::new();
    for scene in all {
        let (sw, sh) = (scene.size.0.max(1.0), scene.size.1.max(1.0));
        let scale = (w / sw).min(1.0);
        let room = (h - HEAD - FOOT - 2.0 * MARGIN) / scale;
        // A page made for this paper has its own margins.
        if sh * scale <= h {
            let place = Affine::translate(((w - sw * scale) / 2.0, 0.0)) * Affine::scale(scale);
            pages.push(vec![shown(&scene.items, place)]);
            continue;
        }
        let extents: Vec<(f64, f64)> = scene.items.iter().map(extent).collect();
        let mut top = 0.0;
        while top < sh && pages.len() < MAX_PAGES {
            let foot = break_before(&extents, top, top + room).min(sh);
            let items: Vec<Item> = scene
                .items
                .iter()
                .zip(&extents)
                .filter(|(_, e)| e.1 > top && e.0 < foot)
                .map(|(item, _)| item.clone())
                .collect();
            let place = Affine::translate(((w - sw * scale) / 2.0, MARGIN + HEAD - top * scale)) * Affine::scale(scale);
            let window = Rect::new(0.0, MARGIN + HEAD, w, MARGIN + HEAD + (foot - top) * scale);
            let drawn = vec![shown(&items, place)].into();
            pages.push(vec![Drawn::Placed { place: Affine::IDENTITY, window: Some(window), drawn }]);
            top = foot;
        }
    }
    pages
}

/// A sheet that sends somebody to a machine: drawn, with what is to be minded at its foot wherever there is room, and then in
/// words, in their order, with the same first.
#[must_use]
pub fn scene_in_words(
    title: &str,
    scene: &Scene,
    cautions: &[&str],
    words: &[String],
    sign: &[String],
    paper: Paper,
) -> Document {
    let (w, h) = paper.size_mm();
    let mut pages = pages_of(std::slice::from_ref(scene), paper);
    if let [page] = pages.as_mut_slice() {
        // Below the running head.
        let place = Affine::translate((0.0, HEAD));
        *page = vec![Drawn::Placed { place, window: None, drawn: std::mem::take(page).into() }];
    }
    let drawn = HEAD + scene.size.1 * (w / scene.size.0.max(1.0)).min(1.0);
    let room = w - 2.0 * MARGIN - 16.0;
    let foot: Vec<String> = cautions.iter().flat_map(|c| lines_of(c, Weight::Bold, WORDS, room)).collect();
    let first = h - MARGIN - FOOT - LINE * foot.len() as f64;
    if let (Some(page), true) = (pages.first_mut(), drawn <= first) {
        for (i, says) in foot.into_iter().enumerate() {
            page.push(Text::plain(says, (MARGIN + 8.0, first + LINE * (i + 1) as f64), WORDS).bold().into());
        }
    }
    let row = |(i, says): (usize, &String)| ((i + 1).to_string(), says.clone());
    let rows: Vec<(String, String)> = words.iter().enumerate().map(row).collect();
    pages.extend(pages_of_lines(title, &rows, sign, 12.0, paper));
    numbered(title, pages, paper)
}

/// Labels and values as a document, broken between lines, with room to sign at its end.
#[must_use]
pub fn lines(title: &str, rows: &[(String, String)], sign: &[String], paper: Paper) -> Document {
    numbered(title, pages_of_lines(title, rows, sign, VALUES - MARGIN - 8.0, paper), paper)
}

/// What stands on the pages of labels and values, but for their running heads. `labels_mm` is the room for labels.
fn pages_of_lines(
    title: &str,
    rows: &[(String, String)],
    sign: &[String],
    labels_mm: f64,
    paper: Paper,
) -> Vec<Vec<Drawn>> {
    let (w, h) = paper.size_mm();
    let begin = MARGIN + 8.0 + labels_mm;
    let mut pages: Vec<Vec<Drawn>> = vec![Vec::new()];
    let first = MARGIN + HEAD + 8.0;
    let mut top = first;
    let turn = |top: &mut f64, need: f64, pages: &mut Vec<Vec<Drawn>>| {
        if *top + need > h - MARGIN - FOOT && pages.len() < MAX_PAGES {
            pages.push(Vec::new());
            *top = first;
        }
    };
    let put = |pages: &mut Vec<Vec<Drawn>>, drawn: Drawn| {
        if let Some(page) = pages.last_mut() {
            page.push(drawn);
        }
    };
    put(&mut pages, Text::plain(title, (MARGIN + 8.0, top), 6.0).bold().into());
    top += 2.0 * LINE;
    for (label, value) in rows {
        let labels = lines_of(label, Weight::Bold, WORDS, labels_mm - 3.0);
        let values = lines_of(value, Weight::Plain, WORDS, w - begin - MARGIN - 8.0);
        for i in 0..labels.len().max(values.len()) {
            turn(&mut top, LINE, &mut pages);
            if let Some(says) = labels.get(i) {
                put(&mut pages, Text::plain(says.clone(), (MARGIN + 8.0, top), WORDS).bold().into());
            }
            if let Some(says) = values.get(i) {
                put(&mut pages, Text::plain(says.clone(), (begin, top), WORDS).into());
            }
            top += LINE;
        }
        top += 1.0;
    }
    for role in sign {
        turn(&mut top, 3.0 * LINE, &mut pages);
        top += 2.0 * LINE;
        put(&mut pages, Text::plain(role.clone(), (MARGIN + 8.0, top), WORDS).into());
        put(&mut pages, Stroke::solid((VALUES, top), (w - MARGIN - 8.0, top), 0.2).into());
        top += LINE;
    }
    pages
}

fn shown(items: &[Item], place: Affine) -> Drawn {
    Drawn::Scene { place, items: items.into(), pixel_mm: 0.25 }
}

/// Pages with a running head where there are several, and `page n of m` at the foot.
fn numbered(title: &str, pages: Vec<Vec<Drawn>>, paper: Paper) -> Document {
    let (width_mm, height_mm) = paper.size_mm();
    let count = pages.len();
    let page = |(i, mut drawn): (usize, Vec<Drawn>)| {
        if count > 1 {
            let says = format!("page {} of {count}", i + 1);
            let room = width_mm - 2.0 * MARGIN - width_of(&says, Weight::Plain, 3.0) - 6.0;
            let name = lines_of(title, Weight::Plain, 3.0, room).into_iter().next().unwrap_or_default();
            drawn.push(Text::plain(says, (width_mm - MARGIN, MARGIN + 3.0), 3.0).aligned(Align::Right).into());
            drawn.push(Text::plain(name, (MARGIN, MARGIN + 3.0), 3.0).into());
        }
        Page { width_mm, height_mm, drawn }
    };
    Document { title: title.into(), lang: "en".into(), pages: pages.into_iter().enumerate().map(page).collect() }
}

/// The upper and the lower end of an item.
fn extent(item: &Item) -> (f64, f64) {
    match item {
        Item::Path { path, .. } => {
            let b = path.bounding_box();
            (b.y0, b.y1)
        }
        Item::Figure { baseline, size, .. } => (baseline.y - size, baseline.y + 0.3 * size),
        Item::Words { start, size, .. } => (start.y - size, start.y + 0.3 * size),
        Item::Group(group) => {
            let b = group.place.transform_rect_bbox(Rect::new(0.0, 0.0, group.size.0, group.size.1));
            (b.y0, b.y1)
        }
    }
}

/// The lowest height up to `last` that no item crosses; `last` itself where there is none.
fn break_before(extents: &[(f64, f64)], top: f64, last: f64) -> f64 {
    let crossed = |y: f64| extents.iter().any(|(a, b)| *a < y && y < *b);
    if !crossed(last) {
        return last;
    }
    let free = extents.iter().map(|e| e.0).filter(|y| *y > top + 1.0 && *y < last && !crossed(*y));
    free.fold(None, |best: Option<f64>, y| Some(best.map_or(y, |b| b.max(y)))).unwrap_or(last)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::{Ink, Line};

    #[test]
    fn a_long_scene_is_broken_where_nothing_stands() {
        let rows = (0..40).map(|i| {
            let y = f64::from(i) * 30.0;
            Item::stroke((20.0, y + 1.0), (20.0, y + 29.0), Line::solid(Ink::Black, 1.0))
        });
        let scene = Scene { size: (210.0, 1200.0), items: rows.collect() };
        let document = scenes("Set-up sheet", &[scene], Paper::A4);
        let counts: Vec<usize> = document
            .pages
            .iter()
            .map(|p| match p.drawn.first() {
                Some(Drawn::Placed { drawn, .. }) => match drawn.first() {
                    Some(Drawn::Scene { items, .. }) => items.len(),
                    _ => 0,
                },
                _ => 0,
            })
            .collect();
        assert_eq!(counts.iter().sum::<usize>(), 40, "{counts:?}: every line stands on one page only");
        assert_eq!(counts.len(), 5);
    }

    #[test]
    fn lines_go_on_on_the_next_page() {
        let rows: Vec<_> = (0..120).map(|i| (format!("Row {i}"), "what it says ".repeat(9))).collect();
        let document = lines("Job ticket", &rows, &["Checked by".into()], Paper::Letter);
        assert!(document.pages.len() > 4);
        let last = document.pages.last().unwrap();
        assert!(last.drawn.iter().any(|d| matches!(d, Drawn::Text(t) if t.words == "page 6 of 6")), "{last:?}");
    }
}
