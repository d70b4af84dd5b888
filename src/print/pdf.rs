//! A document as a PDF file (ISO 32000-1).
//!
//! It holds a title, a language and pages, and nothing about who made it, when or with what: the same document gives the same
//! bytes on every machine. Streams are compressed. Text can be searched and copied, by WinAnsiEncoding and `ToUnicode`.

use super::document::{Document, MAX_PAGES, MAX_SIDE_MM};
use super::painter::{POINTS, content_of, exact, name_of};
use super::words::{Face, SIGNS, win_ansi_codes};
use super::{helvetica, type_cut};
use miniz_oxide::deflate::compress_to_vec_zlib;
use pdf_writer::types::{FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, Settings, Str, TextStr};

const CATALOG: Ref = Ref::new(1);
const TREE: Ref = Ref::new(2);
const INFO: Ref = Ref::new(3);
const FIGURES: Ref = Ref::new(4);
const DESCRIPTOR: Ref = Ref::new(5);
const FILE: Ref = Ref::new(6);
const FIGURES_READ: Ref = Ref::new(7);
const PLAIN: Ref = Ref::new(8);
const BOLD: Ref = Ref::new(9);
const SIGNS_FONT: Ref = Ref::new(10);
const SIGNS_READ: Ref = Ref::new(11);
const WORDS_READ: Ref = Ref::new(12);
const FIRST_PAGE: i32 = 13;

/// How hard streams are compressed, 0 to 10: beyond this, files become no smaller and time is lost.
const EFFORT: u8 = 6;
/// Longer titles are cut.
const MAX_TITLE: usize = 400;

/// The file of a document.
#[must_use]
pub fn pdf(document: &Document) -> Vec<u8> {
    let mut pdf = Pdf::with_settings(Settings { pretty: false });
    pdf.set_version(1, 7);
    let pages = document.pages.get(..MAX_PAGES).unwrap_or(&document.pages);
    let ids = |i: usize| {
        let first = FIRST_PAGE + 2 * i as i32;
        (Ref::new(first), Ref::new(first + 1))
    };
    let title: String = document.title.chars().take(MAX_TITLE).collect();
    let mut catalog = pdf.catalog(CATALOG);
    catalog.pages(TREE).lang(TextStr(&document.lang));
    // What is read out and shown on the window is the title, not the name of the file; printed as it is, at true size.
    catalog.viewer_preferences().display_doc_title(true).pair(Name(b"PrintScaling"), Name(b"None"));
    catalog.finish();
    pdf.document_info(INFO).title(TextStr(&title));
    pdf.pages(TREE).kids((0..pages.len()).map(|i| ids(i).0)).count(pages.len() as i32);
    for (i, page) in pages.iter().enumerate() {
        let (id, content_id) = ids(i);
        let side = |mm: f64| exact(crate::units::between(mm, 1.0, MAX_SIDE_MM) * POINTS);
        let mut written = pdf.page(id);
        written.parent(TREE).media_box(Rect::new(0.0, 0.0, side(page.width_mm), side(page.height_mm)));
        written.contents(content_id);
        let mut resources = written.resources();
        let mut fonts = resources.fonts();
        let all = [(Face::Figures, FIGURES), (Face::Plain, PLAIN), (Face::Bold, BOLD), (Face::Signs, SIGNS_FONT)];
        for (face, font) in all {
            fonts.pair(name_of(face), font);
        }
        fonts.finish();
        resources.finish();
        written.finish();
        let content = compress_to_vec_zlib(&content_of(page), EFFORT);
        pdf.stream(content_id, &content).filter(Filter::FlateDecode);
    }
    fonts(&mut pdf);
    pdf.finish()
}

fn fonts(pdf: &mut Pdf) {
    // A TrueType font with codes of one byte. The library has no writer of its own for it; its dictionary is that of ISO
    // 32000-1, 9.6.3.
    let name = Name(b"BMFOLI+Besley-SemiBold");
    let mut font = pdf.indirect(FIGURES).dict();
    font.pair(Name(b"Type"), Name(b"Font")).pair(Name(b"Subtype"), Name(b"TrueType"));
    font.pair(Name(b"BaseFont"), name).pair(Name(b"FirstChar"), 32).pair(Name(b"LastChar"), 255);
    font.insert(Name(b"Widths")).array().items((32..=255).map(figure_width));
    font.pair(Name(b"FontDescriptor"), DESCRIPTOR).pair(Name(b"Encoding"), Name(b"WinAnsiEncoding"));
    font.pair(Name(b"ToUnicode"), FIGURES_READ);
    font.finish();
    let [x0, y0, x1, y1] = type_cut::BOX;
    let mut descriptor = pdf.font_descriptor(DESCRIPTOR);
    descriptor.name(name).flags(FontFlags::NON_SYMBOLIC | FontFlags::SERIF).bbox(Rect::new(x0, y0, x1, y1));
    descriptor.italic_angle(0.0).ascent(type_cut::ASCENT).descent(type_cut::DESCENT);
    descriptor.cap_height(type_cut::CAP_HEIGHT).stem_v(150.0).font_file2(FILE);
    descriptor.finish();
    let file = compress_to_vec_zlib(type_cut::FILE, EFFORT);
    pdf.stream(FILE, &file).filter(Filter::FlateDecode).pair(Name(b"Length1"), type_cut::FILE.len() as i32);
    read_as(pdf, FIGURES_READ, &type_cut::codes());
    read_as(pdf, WORDS_READ, &win_ansi_codes());
    read_as(pdf, SIGNS_READ, &SIGNS.map(|(letter, code, _)| (code, letter)));
    for (id, name, widths) in
        [(PLAIN, Name(b"Helvetica"), &helvetica::PLAIN), (BOLD, Name(b"Helvetica-Bold"), &helvetica::BOLD)]
    {
        let mut font = pdf.type1_font(id);
        font.base_font(name).encoding_predefined(Name(b"WinAnsiEncoding")).to_unicode(WORDS_READ);
        font.first_char(32).last_char(255).widths(widths.iter().map(|w| f32::from(*w)));
    }
    pdf.type1_font(SIGNS_FONT).base_font(Name(b"Symbol")).to_unicode(SIGNS_READ);
}

/// The width of a code of the figures' font, in thousandths.
fn figure_width(code: u8) -> f32 {
    let letter = type_cut::codes().into_iter().find(|(c, _)| *c == code);
    letter.and_then(|(_, letter)| type_cut::width(letter)).map_or(0.0, |w| exact(w * 1000.0))
}

/// Says which letters the codes of a font are.
fn read_as(pdf: &mut Pdf, id: Ref, codes: &[(u8, char)]) {
    let system = || SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"UCS"), supplement: 0 };
    let mut map = UnicodeCmap::<u8>::new(Name(b"Letters"), system());
    for (code, letter) in codes {
        map.pair(*code, *letter);
    }
    let map = map.finish();
    let packed = compress_to_vec_zlib(map.as_slice(), EFFORT);
    pdf.cmap(id, &packed).filter(Filter::FlateDecode);
}
