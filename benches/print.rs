//! How long it takes to make files of printed documents, measured against another library that writes the same operations: `lopdf`
//! encodes the content of every page from a list of operators, compresses all streams and saves the file. What it is given is
//! already laid out, so the first ratio is painting and writing against writing alone; the second has the setting of the
//! exercises, their right answers and the layout in it.
//!
//! ```text
//! cargo bench --no-default-features --bench print
//! ```
//!
//! Both are measured in turn in the same run, so that the ratio means the same on a slow and on a fast machine. The run fails
//! only where a ratio is far off.

use backmark::fold::courses;
use backmark::practice::{Worksheet, mixed};
use backmark::print::{Document, Dummy, Printer, WorksheetLook, dummy, pdf, worksheet, worksheet_key};
use lopdf::content::Content;
use lopdf::{Object, ObjectId};
use std::hint::black_box;
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// Times the other library that a document of 32 pages may take.
const LIMIT_DUMMIES: f64 = 2.0;
/// Times the other library that a class set of worksheets may take, all of it.
const LIMIT_WORKSHEETS: f64 = 3.0;
/// Variants of that set.
const VARIANTS: u32 = 40;

fn main() -> ExitCode {
    let (Some(dummies), Some(class)) = (dummies(), class()) else {
        println!("nothing was made");
        return ExitCode::FAILURE;
    };
    let (Some(same), Some(both)) = (Control::of(&[pdf(&dummies)]), Control::of(&class.map(|one| pdf(&one)))) else {
        println!("the other library does not read the files");
        return ExitCode::FAILURE;
    };
    let [ours, theirs] =
        fastest_of_both(7, || drop(black_box(pdf(black_box(&dummies)))), || drop(black_box(same.write())));
    let first = ratio(ours, theirs);
    println!("{} pages of dummies in {ours:.1?}, the other library {theirs:.1?}: {first:.2} times", same.pages());
    let [ours, theirs] = fastest_of_both(3, || drop(black_box(written())), || drop(black_box(both.write())));
    let second = ratio(ours, theirs);
    println!(
        "{VARIANTS} variants with their key, {} pages, set, answered and written in {ours:.1?}, the other library {theirs:.1?}: \
         {second:.2} times",
        both.pages()
    );
    if first > LIMIT_DUMMIES || second > LIMIT_WORKSHEETS {
        println!("too slow: the limits are {LIMIT_DUMMIES} and {LIMIT_WORKSHEETS} times");
        return ExitCode::FAILURE;
    }
    ExitCode::SUCCESS
}

/// Sixteen folding dummies of sixteen pages, each on both sides of its paper.
fn dummies() -> Option<Document> {
    let usual = courses().into_iter().find(|c| c.name == "Sixteen, three folds")?;
    let mut all = Document { title: "Sixteen dummies".into(), lang: "en".into(), pages: Vec::new() };
    for section in 0..16 {
        let asked = Dummy {
            name: usual.name.into(),
            course: usual.course.clone(),
            first_page: 16 * section + 1,
            oblong: false,
            measure: None,
            true_size: false,
            fault: None,
        };
        all.pages.extend(dummy(&asked, &Printer::default()).ok()?.pages);
    }
    Some(all)
}

/// A class set of worksheets and its key, from nothing.
fn class() -> Option<[Document; 2]> {
    let (set, look) = (Worksheet::of(&mixed(3), 41, VARIANTS).ok()?, WorksheetLook::default());
    Some([worksheet(&set, &look).ok()?.sheet, worksheet_key(&set, &look).ok()?.sheet])
}

fn written() -> Option<[Vec<u8>; 2]> {
    Some(class()?.map(|one| pdf(&one)))
}

/// Files as the other library holds them: objects with open streams, and the operators of every page.
struct Control(Vec<(lopdf::Document, Vec<(ObjectId, Content)>)>);

impl Control {
    fn of(files: &[Vec<u8>]) -> Option<Self> {
        let file = |bytes: &Vec<u8>| {
            let mut file = lopdf::Document::load_mem(bytes).ok()?;
            file.decompress();
            let mut pages = Vec::new();
            for page in file.get_pages().into_values() {
                let id = file.get_page_contents(page).first().copied()?;
                pages.push((id, Content::decode(&file.get_page_content(page)).ok()?));
            }
            Some((file, pages))
        };
        files.iter().map(file).collect::<Option<_>>().map(Self)
    }

    fn pages(&self) -> usize {
        self.0.iter().map(|(_, pages)| pages.len()).sum()
    }

    fn write(&self) -> Vec<u8> {
        let mut out = Vec::new();
        for (file, pages) in &self.0 {
            let mut file = file.clone();
            for (id, content) in pages {
                if let (Ok(Object::Stream(stream)), Ok(encoded)) = (file.get_object_mut(*id), content.encode()) {
                    stream.set_plain_content(encoded);
                }
            }
            file.compress();
            if file.save_to(&mut out).is_err() {
                println!("not saved");
            }
        }
        out
    }
}

fn ratio(ours: Duration, theirs: Duration) -> f64 {
    ours.as_secs_f64() / theirs.as_secs_f64().max(1e-9)
}

/// The fastest of some rounds of each, in turn: what disturbs a measurement only ever adds to it.
#[allow(clippy::disallowed_methods, reason = "measuring time is what this program is for")]
fn fastest_of_both(rounds: u32, mut one: impl FnMut(), mut other: impl FnMut()) -> [Duration; 2] {
    let mut fastest = [Duration::MAX; 2];
    for _ in 0..rounds {
        let start = Instant::now();
        one();
        let between = Instant::now();
        other();
        for (fastest, took) in fastest.iter_mut().zip([between - start, between.elapsed()]) {
            *fastest = (*fastest).min(took);
        }
    }
    fastest
}
