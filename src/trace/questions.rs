//! The four questions of an experienced checker, in their order, each with its working.

use super::extent::{self, Known};
use super::plates::Plates;
use super::read::{Read, bulk_words, sections as of_sections, spine_words};
use super::story::Stories;
use super::told::{Answered, Cause, Extent};
use super::words::{capital, counter, faults, list, many, numbers};
use crate::book::Book;
use crate::gather::Fault;
use crate::since::Judged;

/// What the questions are answered by.
pub(super) struct Asked<'a> {
    pub book: &'a Book,
    pub reads: &'a [Read<'a>],
    pub stories: &'a [Stories],
    pub plates: &'a [Plates],
    pub bad: &'a [Option<bool>],
    pub known: &'a Known,
    pub extent: &'a Extent,
    pub causes: &'a [Cause],
}

/// All four.
pub(super) fn questions(asked: &Asked) -> Vec<Answered> {
    vec![asked.leaves(), asked.where_it_is(), asked.how_much(), asked.which_books()]
}

fn question(number: u32, asks: &str) -> Answered {
    Answered {
        number,
        asks: asks.to_owned(),
        answer: "Not known.".to_owned(),
        known: false,
        evidence: Vec::new(),
        reasoning: Vec::new(),
        rules_out: Vec::new(),
        look: None,
    }
}

impl Asked<'_> {
    fn leaves(&self) -> Answered {
        let mut q = question(1, "Does each leaf carry its own two pages?");
        let opened = self.reads.iter().filter_map(|read| Some((read, read.inside.as_ref()?))).collect::<Vec<_>>();
        for (read, inside) in &opened {
            q.evidence.push(format!("Section {} of {}, read from front to back.", inside.section, read.name));
        }
        let torn = opened.iter().filter(|(_, inside)| !inside.torn.is_empty()).collect::<Vec<_>>();
        if let Some((_, inside)) = torn.first() {
            q.known = true;
            q.answer = "No. Look at the press.".to_owned();
            q.reasoning.push(format!(
                "In section {}, {}. A leaf carries an odd page and the even one behind it, both with their heads the same \
                 way.",
                inside.section,
                inside.torn_words()
            ));
            q.reasoning.push(
                "The two sides of a leaf were printed on one piece of paper: nothing after the press parts them."
                    .into(),
            );
            q.rules_out.push("Folder, gathering and sewing: they move whole leaves.".to_owned());
        } else if let Some((_, inside)) = opened.first() {
            q.known = true;
            q.answer = "Yes. It was not the press.".to_owned();
            q.reasoning.push(format!("Every leaf of section {} carries its own two pages.", inside.section));
            if let Some(lead) = inside.told.as_ref().filter(|_| !inside.right).and_then(|told| told.leads.get(1)) {
                q.reasoning.push(lead.clone());
            }
            q.rules_out.push("The press, as far as this section shows.".to_owned());
        } else {
            let whole = |fault: &Fault| !matches!(fault, Fault::NoMark { .. });
            let first = |s: &Stories| s.all.first().is_some_and(|story| story.faults.iter().any(whole));
            if self.stories.iter().any(first) {
                q.reasoning.push(
                    "Whole sections stand wrong, and the press moves none. Marks stay right under a press fault, so the \
                     spine does not answer this."
                        .to_owned(),
                );
            }
            q.look = Some(match self.suspect() {
                Some(section) => {
                    format!("Open section {section} and read its pages from front to back: each odd page is backed by the next even one.")
                }
                None => "Open a wrong section and read its pages from front to back: each odd page is backed by the next even one.".to_owned(),
            });
        }
        q
    }

    /// A section that is best opened.
    fn suspect(&self) -> Option<u32> {
        let broken = self.reads.iter().flat_map(Read::broken).next();
        let of_story = |stories: &Stories| match stories.all.first()?.faults.first()? {
            Fault::NoMark { at } | Fault::Foreign { at } => Some(*at),
            Fault::WrongSection { section, .. } | Fault::Lies { section, .. } => Some(*section),
            _ => None,
        };
        broken.or_else(|| self.stories.iter().find_map(of_story))
    }

    fn where_it_is(&self) -> Answered {
        let mut q = question(2, "Is the disorder inside one section, or between whole sections?");
        let mut inside = Vec::new();
        let mut between = false;
        let mut blank = Vec::new();
        for ((read, stories), plates) in self.reads.iter().zip(self.stories).zip(self.plates) {
            if let Some(row) = &read.spine {
                q.evidence.push(format!("{}: the spine reads {}.", capital(&read.name), spine_words(row)));
            }
            for opening in read.openings.iter().filter(|opening| opening.jumps()) {
                q.evidence.push(format!("{}: the opening {} jumps.", capital(&read.name), opening.text));
            }
            if let Some(opened) = read.inside.as_ref() {
                let how = if opened.right { "in order" } else { "out of order" };
                q.evidence.push(format!("{}: section {} is {how} inside.", capital(&read.name), opened.section));
                if !opened.right {
                    inside.push(opened.section);
                }
            }
            inside.extend(read.broken());
            if let Some(first) = stories.all.first() {
                let hidden = |fault: &Fault| matches!(fault, Fault::NoMark { .. });
                between |= !first.faults.iter().all(hidden);
                blank.extend(first.faults.iter().filter_map(|fault| match fault {
                    Fault::NoMark { at } => Some(*at),
                    _ => None,
                }));
                q.reasoning.push(format!("{}: {}.", capital(&read.name), faults(&first.faults)));
            }
            between |= stories.beyond || stories.half.is_some() || stories.only_counted != 0;
            if plates.looked && !plates.right() {
                q.reasoning.push(format!("{}: {}.", capital(&read.name), list(&plates.says(self.book))));
                if !between && inside.is_empty() {
                    q.answer = "Neither: a plate or a wrap stands wrong.".to_owned();
                    q.known = true;
                }
            }
        }
        inside.sort_unstable();
        inside.dedup();
        blank.retain(|section| !inside.contains(section));
        blank.sort_unstable();
        blank.dedup();
        let named = numbers(&inside);
        match (inside.is_empty(), between, blank.is_empty()) {
            (true, true, _) => {
                q.known = true;
                q.answer = "Between whole sections. Look at gathering and sewing.".to_owned();
                q.rules_out.push("A fold made wrong: it moves leaves inside one section and nothing else.".to_owned());
            }
            (false, false, _) => {
                q.known = true;
                q.answer = format!("Inside section {named}. Look at folder or press.");
                q.reasoning.push("The sections stand in their order as far as they were seen.".to_owned());
                q.rules_out.push("Gathering and sewing: they take sections as they come.".to_owned());
            }
            (false, true, _) => {
                q.known = true;
                q.answer = format!("Both: inside section {named}, and between sections.");
            }
            (true, false, false) => {
                let back = numbers(&blank);
                q.answer = format!("Not decided: the back of section {back} is blank.");
                q.reasoning.push(
                    "Folded wrongly, a section has its mark inside; turned away, it has its fold at the fore-edge. Both \
                     leave a blank back."
                        .to_owned(),
                );
                q.look =
                    Some(format!("Open section {back} and read its pages; look along the fore-edge for its fold."));
            }
            (true, false, true) if !q.known => {
                let seen_right = self.stories.iter().any(|s| s.right);
                if seen_right {
                    q.answer = "Neither, as far as was seen.".to_owned();
                }
                q.look = Some("Read the folios where sections meet, and look along the spine.".to_owned());
            }
            _ => {}
        }
        q
    }

    fn how_much(&self) -> Answered {
        let mut q = question(3, "Are bulk and section count less, the same, or more than in a good book?");
        let sections = self.book.sections.len() as i32;
        let mut more = Vec::new();
        for (read, stories) in self.reads.iter().zip(self.stories) {
            // A half-book has half of its sections in the next one.
            if stories.half.is_some() {
                continue;
            }
            if stories.right && read.seen.judged != Some(Judged::Bad) && read.inside.as_ref().is_none_or(|i| i.right) {
                continue;
            }
            let name = capital(&read.name);
            if let Some(bulk) = read.bulk {
                q.evidence.push(format!("{name}: {}.", bulk_words(bulk)));
            }
            if let Some(count) = read.seen.count {
                q.evidence
                    .push(format!("{name}: {} were counted, and {sections} belong in it.", many(count, "section")));
            } else if let Some(row) = &read.row {
                q.evidence.push(format!(
                    "{name}: {} on the spine, and {sections} belong there.",
                    many(row.len() as u32, "back")
                ));
            }
            let by_count = read.backs().map(|backs| backs as i32 - sections);
            more.extend(by_count.or_else(|| read.bulk.map(|bulk| bulk.sections)));
        }
        let (Some(least), Some(most)) = (more.iter().min().copied(), more.iter().max().copied()) else {
            q.look = Some(
                "Measure a good book and a wrong one, squeezed alike, and count the sections of the wrong one."
                    .to_owned(),
            );
            return q;
        };
        q.known = true;
        match (least, most) {
            (0, 0) => {
                q.answer = "The same.".to_owned();
                q.reasoning.push(
                    "As many sections as there should be: what is missing at one place stands too much at another, or \
                     nothing is missing at all."
                        .to_owned(),
                );
                q.rules_out.push("A section only missing, or only twice.".to_owned());
            }
            (least, most) if most < 0 => {
                q.answer = format!("Less, by {}.", of_sections(if least == most { least } else { most }));
                q.reasoning.push("A station fed nothing, or a section was lost afterwards.".to_owned());
                q.rules_out.push(
                    "Sections in each other's place, and a station that held the wrong section: they change no bulk."
                        .to_owned(),
                );
            }
            (least, most) if least > 0 => {
                q.answer = format!("More, by {}.", of_sections(if least == most { most } else { least }));
                q.reasoning.push("A station fed two, or a section was put in twice.".to_owned());
                q.rules_out.push(
                    "Sections in each other's place, and a station that held the wrong section: they change no bulk."
                        .to_owned(),
                );
            }
            _ => q.answer = "Not alike in all books.".to_owned(),
        }
        q
    }

    fn which_books(&self) -> Answered {
        let mut q = question(4, "Which books: one, a block, from a moment on, every so many, or the whole run?");
        for (read, bad) in self.reads.iter().zip(self.bad).filter(|(read, _)| read.seen.counter.is_some()) {
            let judged = match (read.seen.judged, bad) {
                (Some(Judged::Good), _) => "was judged good",
                (Some(Judged::Bad), _) => "was judged bad",
                (None, Some(true)) => "is wrong by what was seen",
                (None, Some(false)) => "is right as far as it was seen",
                (None, None) => "was not judged",
            };
            q.evidence.push(format!("{} {judged}.", capital(&read.name)));
        }
        let extent = self.extent;
        q.reasoning = extent::reasoning(extent);
        q.look = extent::look(extent);
        let Some(pattern) = extent.pattern.filter(|_| self.known.known || extent.tally.is_some()) else {
            q.look = Some(
                "Open the books on either side and give their counter numbers; count what is left at the stations."
                    .to_owned(),
            );
            return q;
        };
        q.known = extent.sure;
        let books = extent::books(extent).map_or_else(String::new, |books| format!(", {books}"));
        q.answer = if extent.sure {
            format!("{}{books}.", capital(pattern.name()))
        } else {
            format!("Most likely {}{books}.", pattern.name())
        };
        if !extent.or.is_empty() {
            let or = extent.or.iter().map(|p| p.name().to_owned()).collect::<Vec<_>>();
            q.reasoning.push(format!("What is known goes with {} too.", list(&or)));
        }
        let out = super::told::Pattern::ALL
            .iter()
            .zip(&self.known.likely)
            .filter(|(p, likely)| **likely <= 0.0 && extent.pattern != Some(**p));
        let out = out.map(|(p, _)| p.name().to_owned()).collect::<Vec<_>>();
        if !out.is_empty() {
            q.rules_out.push(format!("{}.", capital(&list(&out))));
        }
        if let Some(cause) = self.causes.iter().find(|cause| cause.fits && cause.counters.is_some())
            && let (None, Some([first, last])) = (extent.books, cause.counters)
        {
            q.reasoning.push(format!(
                "By the first cause it is {}, books {} to {}.",
                super::causes::how_many([first, last]),
                counter(first),
                counter(last)
            ));
        }
        q
    }
}
