//! The report on paper: lines with their labels, room to fill in what is not known, and where to sign. Black on white, in
//! millimetres of A4 pages.

use super::item::{Ink, Item, Line, Scene};
use crate::report::Sheet;
use kurbo::Point;

const PAGE: (f64, f64) = (210.0, 297.0);
const MARGIN: f64 = 18.0;
/// Where values begin, and where they end.
const VALUES: (f64, f64) = (62.0, PAGE.0 - MARGIN);
const TEXT: f64 = 3.6;
const LINE: f64 = 5.0;
/// Between one line of the sheet and the next.
const GAP: f64 = 1.0;
/// Where the second of two short lines has its label and its value.
const HALF: (f64, f64) = (116.0, 152.0);
/// The last line of text stands above this.
const FOOT: f64 = PAGE.1 - MARGIN - 8.0;

/// Draws a sheet on as many A4 pages as it takes.
#[must_use]
pub fn report_sheet(sheet: &Sheet) -> Vec<Scene> {
    let mut paper = Paper { pages: vec![Vec::new()], top: MARGIN };
    paper.top += 7.0;
    paper.words(&sheet.heading, MARGIN, 6.5);
    paper.top += 4.0;
    paper.stroke(MARGIN, VALUES.1, 1.5);
    paper.top += LINE + 2.0;
    let mut last = "";
    let mut rows = sheet.rows.iter().peekable();
    while let Some(row) = rows.next() {
        // A line and its label stay together.
        paper.room(LINE);
        let (top, label) = (paper.top, if row.label == last { "" } else { row.label.as_str() });
        last = &row.label;
        let pair = if row.short { rows.next_if(|next| next.short) } else { None };
        let right = if pair.is_some() { HALF.0 - 6.0 } else { VALUES.1 };
        paper.row(label, &row.value, (MARGIN, VALUES.0, right));
        if let Some(next) = pair {
            let end = std::mem::replace(&mut paper.top, top);
            paper.row(&next.label, &next.value, (HALF.0, HALF.1, VALUES.1));
            paper.top = paper.top.max(end);
        }
        paper.top += GAP;
    }
    paper.top += 2.0 * LINE;
    for role in &sheet.sign {
        paper.room(3.0 * LINE);
        for words in wrapped(role, VALUES.0 - MARGIN - 3.0, TEXT).into_iter().take(2) {
            paper.words(&words, MARGIN, TEXT);
            paper.top += LINE;
        }
        paper.top -= LINE;
        paper.stroke(VALUES.0, 140.0, 0.75);
        paper.stroke(148.0, VALUES.1, 0.75);
        paper.top += LINE - 1.0;
        paper.words("name", VALUES.0, TEXT * 0.8);
        paper.words("date", 148.0, TEXT * 0.8);
        paper.top += 1.6 * LINE;
    }
    paper.finish()
}

/// Pages being filled from the top.
struct Paper {
    pages: Vec<Vec<Item>>,
    top: f64,
}

impl Paper {
    fn put(&mut self, item: Item) {
        if let Some(page) = self.pages.last_mut() {
            page.push(item);
        }
    }

    /// Words at the height that is reached.
    fn words(&mut self, text: &str, left: f64, size: f64) {
        if !text.is_empty() {
            self.put(Item::Words { text: text.into(), start: Point::new(left, self.top), size });
        }
    }

    fn stroke(&mut self, from: f64, to: f64, width: f64) {
        let y = self.top;
        self.put(Item::stroke((from, y), (to, y), Line::solid(Ink::Black, width)));
    }

    /// A label and its value, from the height that is reached on; `at` is where they begin, and where the value ends.
    fn row(&mut self, label: &str, value: &str, at: (f64, f64, f64)) {
        let (left, from, to) = at;
        self.words(wrapped(label, from - left - 3.0, TEXT).first().map_or("", |l| l), left, TEXT);
        if value.is_empty() {
            // Room for a hand.
            self.top += 1.0;
            self.stroke(from, to, 0.75);
            self.top += LINE;
        }
        for (i, words) in wrapped(value, to - from, TEXT).iter().enumerate() {
            if i > 0 {
                self.room(LINE);
            }
            self.words(words, from, TEXT);
            self.top += LINE;
        }
    }

    /// A new page, unless there is so much room on this one.
    fn room(&mut self, height: f64) {
        if self.top + height > FOOT {
            self.pages.push(Vec::new());
            self.top = MARGIN + LINE;
        }
    }

    fn finish(self) -> Vec<Scene> {
        let of = self.pages.len();
        let foot = |(i, mut items): (usize, Vec<Item>)| {
            let start = Point::new(MARGIN, PAGE.1 - MARGIN);
            items.push(Item::Words { text: format!("Page {} of {of}", i + 1), start, size: TEXT * 0.8 });
            Scene { size: PAGE, items }
        };
        self.pages.into_iter().enumerate().map(foot).collect()
    }
}

/// How wide a letter is at the most, as a share of the size. Measured generously, since the typeface is that of the machine;
/// letters of Chinese and Japanese are as wide as high.
const fn wide(c: char) -> f64 {
    match c {
        'i' | 'j' | 'l' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' | ' ' | '(' | ')' | 'f' | 't' | 'r' => 0.42,
        'm' | 'w' | 'M' | 'W' | '%' | '@' | '—' => 1.0,
        'A'..='Z' | '&' | '+' | '−' | '=' => 0.8,
        c if (c as u32) < 0x250 => 0.62,
        _ => 1.1,
    }
}

/// A text broken into lines that are no wider than `width`; a word that is wider is broken where it must be.
fn wrapped(text: &str, width: f64, size: f64) -> Vec<String> {
    let long = |s: &str| s.chars().map(wide).sum::<f64>() * size;
    let (mut lines, mut line): (Vec<String>, String) = (Vec::new(), String::new());
    for word in text.split(' ').filter(|w| !w.is_empty()) {
        let more = if line.is_empty() { 0.0 } else { long(&line) + long(" ") };
        if !line.is_empty() && more + long(word) > width {
            lines.push(std::mem::take(&mut line));
        } else if !line.is_empty() {
            line.push(' ');
        }
        for c in word.chars() {
            if !line.is_empty() && long(&line) + wide(c) * size > width {
                lines.push(std::mem::take(&mut line));
            }
            line.push(c);
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::{Report, Row, What};

    fn words(scene: &Scene) -> Vec<(&str, Point, f64)> {
        let mut found = Vec::new();
        for item in &scene.items {
            if let Item::Words { text, start, size } = item {
                found.push((text.as_str(), *start, *size));
            }
        }
        found
    }

    #[test]
    fn a_short_report_is_one_page_and_says_all() {
        let report = Report { title: "Tides & Winds".into(), what: Some(What::WrongSection), ..Report::default() };
        let sheet = report.sheet();
        let pages = report_sheet(&sheet);
        assert_eq!((pages.len(), pages[0].size), (1, PAGE));
        let said: Vec<&str> = words(&pages[0]).into_iter().map(|w| w.0).collect();
        for row in &sheet.rows {
            assert!(said.contains(&row.label.as_str()), "{}", row.label);
        }
        let whole = said.join(" ");
        assert!(whole.contains("Tides & Winds") && whole.contains("US GPO Form 1815"), "{whole}");
        assert!(sheet.sign.iter().all(|s| said.contains(&s.as_str())));
    }

    #[test]
    fn a_long_report_runs_on_and_nothing_leaves_its_page() {
        let long = "A long sentence that has to be broken into lines more than once before it ends. ".repeat(3);
        let word = "x".repeat(400);
        let row = |i: usize| Row { label: "Found".into(), value: format!("{i} {long}{word}"), ..Row::default() };
        let sheet = Sheet { heading: "Report".into(), rows: (0..40).map(row).collect(), sign: vec!["Me".into(); 9] };
        let pages = report_sheet(&sheet);
        assert!(pages.len() > 3);
        let mut letters = 0;
        for page in &pages {
            let mut bottoms: Vec<(f64, f64)> = Vec::new();
            for (text, at, size) in words(page) {
                let right = at.x + text.chars().map(wide).sum::<f64>() * size;
                assert!(at.x >= MARGIN && right <= VALUES.1 + 1e-9, "{text}");
                assert!(at.y - size >= 0.0 && at.y <= PAGE.1 - MARGIN, "{text}");
                assert!(!bottoms.contains(&(at.x, at.y)), "two texts at one place: {text}");
                bottoms.push((at.x, at.y));
                letters += text.matches('x').count();
            }
        }
        assert_eq!(letters, 40 * 400, "nothing is lost");
    }

    #[test]
    fn lines_are_broken_between_words() {
        assert_eq!(wrapped("aa bb cc", 4.0 * 0.62 + 0.42 + 0.01, 1.0), ["aa bb", "cc"]);
        assert_eq!(wrapped("aaaaa", 2.0 * 0.62 + 0.01, 1.0), ["aa", "aa", "a"]);
        assert_eq!(wrapped("", 10.0, 1.0), Vec::<String>::new());
    }
}
