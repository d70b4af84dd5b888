//! What is to be played, and its bounds.

use serde::{Deserialize, Serialize};

use super::{Planted, Refusal};
use crate::marks::MOST_SECTIONS;
use crate::since::Fed;

/// The most books of a run.
pub const MOST_BOOKS: u32 = 1_000_000;
/// The most books times sections.
pub const MOST_FEEDS: u64 = 20_000_000;
/// The most planted faults.
pub const MOST_PLANTED: usize = 50;
/// The most wrong books that are listed.
pub const MOST_SHOWN: u32 = 1_000;
/// The largest lift.
pub(super) const MOST_LIFT: u32 = 1_000_000;
/// The largest counter number.
const MOST_COUNTER: u32 = 10_000_000;

/// How often a feed goes wrong by itself, out of a million feeds, before anything watches it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Rates {
    /// Feeds that bring nothing. 1,000, from memory: 1 to 5 of 1,000 feeds miss or double; no trustworthy figure was
    /// found.
    pub miss_per_million: u32,
    /// Feeds that bring two. 1,000, from memory as above.
    pub double_per_million: u32,
}

impl Default for Rates {
    fn default() -> Self {
        Self { miss_per_million: 1_000, double_per_million: 1_000 }
    }
}

/// What watches each station.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Detectors {
    /// A feeler that measures the thickness of what is fed and stops the line for none or two. It passes a wrong section
    /// of the same bulk. (Bond, *Mechanics*, of the 1920s, read in an excerpt: such a stop at each feeder feels a single
    /// leaf.)
    pub caliper: bool,
    /// A camera that compares each section with the one that it was taught at the first book. It stops for another
    /// section, a turned one, a foreign one and none; two at once it doesn't see. What was wrong at the first book it
    /// takes to be right.
    pub camera: bool,
    /// Of a million faults that it should stop for, so many the caliper lets pass. 10,000, from memory: with the rates at
    /// hand 20 of a million feeds escape; 10 to 100 are spoken of.
    pub caliper_passes_per_million: u32,
    /// The same of the camera. 10,000, from memory.
    pub camera_passes_per_million: u32,
}

impl Default for Detectors {
    fn default() -> Self {
        Self { caliper: true, camera: false, caliper_passes_per_million: 10_000, camera_passes_per_million: 10_000 }
    }
}

/// A run to be played. Everything but the seed and the books may be left out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Run {
    /// Where the dice begin.
    pub seed: u64,
    /// How many books are made.
    pub books: u32,
    /// The sections of a book, which is as many stations. 12.
    #[serde(default = "twelve")]
    pub sections: u32,
    /// The number of the first book. 1.
    #[serde(default = "one")]
    pub first: u32,
    /// Books between the last station and the counter; each station before it has one more. 10, from memory.
    #[serde(default = "ten")]
    pub after: u32,
    /// Books an hour, which is only passed on. 3,600; 3,000 to 8,000 are usual, from memory.
    #[serde(default = "an_hour")]
    pub per_hour: u32,
    /// Sections that are loaded at once. 100, from memory: a handful of sections of 1 to 2 mm.
    #[serde(default = "hundred")]
    pub lift: u32,
    /// From which end of the pile the hoppers are fed. From the bottom.
    #[serde(default = "bottom")]
    pub fed: Fed,
    /// How often feeds go wrong by themselves.
    #[serde(default)]
    pub rates: Rates,
    /// What watches the stations.
    #[serde(default)]
    pub detectors: Detectors,
    /// Faults that are planted.
    #[serde(default)]
    pub planted: Vec<Planted>,
    /// How many wrong books are listed. 200.
    #[serde(default = "two_hundred")]
    pub shown: u32,
}

const fn one() -> u32 {
    1
}

const fn ten() -> u32 {
    10
}

const fn twelve() -> u32 {
    12
}

const fn hundred() -> u32 {
    100
}

const fn two_hundred() -> u32 {
    200
}

const fn an_hour() -> u32 {
    3_600
}

const fn bottom() -> Fed {
    Fed::Bottom
}

/// Refuses a share of more than a million, beside another one of the same million.
pub(super) fn million(at: &str, parts: u32, besides: u32) -> Result<(), Refusal> {
    match parts.checked_add(besides) {
        Some(0..=1_000_000) => Ok(()),
        _ => Err(Refusal::new(at, "No more than a million of a million feeds go wrong.")),
    }
}

impl Run {
    /// A run with nothing planted and all else as at hand.
    #[must_use]
    pub fn of(seed: u64, books: u32) -> Self {
        Self {
            seed,
            books,
            sections: twelve(),
            first: one(),
            after: ten(),
            per_hour: an_hour(),
            lift: hundred(),
            fed: bottom(),
            rates: Rates::default(),
            detectors: Detectors::default(),
            planted: Vec::new(),
            shown: two_hundred(),
        }
    }

    /// Whether it can be played.
    ///
    /// # Errors
    /// Where a number is out of bounds; planted faults as `planted[0].station`.
    pub fn check(&self) -> Result<(), Refusal> {
        let within = |at: &str, number: u32, least: u32, most: u32, what: &str| {
            if (least..=most).contains(&number) {
                return Ok(());
            }
            Err(Refusal::new(at, format!("{what} from {least} to {most}.")))
        };
        within("books", self.books, 1, MOST_BOOKS, "The books of a run number")?;
        within("sections", self.sections, 1, MOST_SECTIONS, "The sections of a book number")?;
        if u64::from(self.books) * u64::from(self.sections) > MOST_FEEDS {
            return Err(Refusal::new("books", format!("At most {MOST_FEEDS} sections are gathered in a run.")));
        }
        within("first", self.first, 1, MOST_COUNTER - MOST_BOOKS, "The counter begins")?;
        within("after", self.after, 0, 10_000, "The books between the last station and the counter number")?;
        within("per_hour", self.per_hour, 1, 1_000_000, "A line makes books an hour")?;
        within("lift", self.lift, 1, MOST_LIFT, "The sections of a lift number")?;
        within("shown", self.shown, 0, MOST_SHOWN, "The wrong books that are listed number")?;
        million("rates.miss_per_million", self.rates.miss_per_million, 0)?;
        million("rates.double_per_million", self.rates.double_per_million, self.rates.miss_per_million)?;
        million("detectors.caliper_passes_per_million", self.detectors.caliper_passes_per_million, 0)?;
        million("detectors.camera_passes_per_million", self.detectors.camera_passes_per_million, 0)?;
        if self.planted.len() > MOST_PLANTED {
            return Err(Refusal::new("planted", format!("At most {MOST_PLANTED} faults are planted.")));
        }
        for (at, planted) in self.planted.iter().enumerate() {
            planted.check(self).map_err(|why| Refusal::new(format!("planted[{at}].{}", why.at), why.says))?;
        }
        let divided = |planted: &&Planted| matches!(planted, Planted::DividedWrong { .. });
        if self.planted.iter().filter(divided).count() > 1 {
            return Err(Refusal::new("planted", "Books are divided wrong once in a run at the most."));
        }
        Ok(())
    }
}
