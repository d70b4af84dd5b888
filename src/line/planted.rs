//! Faults that can be planted in a run.

use serde::{Deserialize, Serialize};

use super::Refusal;
use super::run::{MOST_LIFT, Run};
use crate::marks::Lies;

/// A planted fault. `counter` is what the counter shows when it happens; see [`super`] for when it is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Planted {
    /// One lift of another section is loaded at a station.
    WrongPile {
        /// The station.
        station: u32,
        /// The section that is loaded.
        section: u32,
        /// When.
        counter: u32,
        /// How many sections the lift has.
        lift: u32,
    },
    /// One lift of another job is loaded at a station.
    ForeignPile {
        /// The station.
        station: u32,
        /// When.
        counter: u32,
        /// How many sections the lift has.
        lift: u32,
    },
    /// One lift is loaded the wrong way round.
    TurnedPile {
        /// The station.
        station: u32,
        /// How its sections lie.
        #[serde(default = "head_to_tail")]
        lies: Lies,
        /// When.
        counter: u32,
        /// How many sections the lift has.
        lift: u32,
    },
    /// Two stations hold each other's section from the start.
    Exchanged {
        /// The two.
        stations: [u32; 2],
    },
    /// A station jams, and some books are filled by hand.
    HandFilled {
        /// The station.
        station: u32,
        /// When.
        counter: u32,
        /// How many books are filled by hand.
        books: u32,
        /// The section that is put in; none: nothing is.
        section: Option<u32>,
    },
    /// Behind the line, the row of sections is cut into books at the wrong place.
    DividedWrong {
        /// The number of the last book that is cut right.
        counter: u32,
        /// The last section in the books from then on.
        after: u32,
    },
    /// Every so many books, a station goes wrong: one of several grippers is out of order.
    EveryNth {
        /// The station.
        station: u32,
        /// When it begins.
        counter: u32,
        /// Of how many books one is wrong.
        every: u32,
        /// The section that lies there; none: nothing does.
        section: Option<u32>,
    },
    /// A station whose feed is weak through the whole run.
    WeakFeeder {
        /// The station.
        station: u32,
        /// Of a million feeds so many miss.
        miss_per_million: u32,
        /// Of a million feeds so many take two.
        double_per_million: u32,
    },
}

const fn head_to_tail() -> Lies {
    Lies::HeadToTail
}

impl Planted {
    /// Whether it can be planted in this run; paths are those of its fields.
    pub(super) fn check(&self, run: &Run) -> Result<(), Refusal> {
        let last = run.first.saturating_add(run.books).saturating_sub(1);
        let of_the_run = |at: &str, counter: u32| {
            let says = format!("The counter of this run goes from {} to {last}.", run.first.saturating_sub(1));
            if (run.first.saturating_sub(1)..=last).contains(&counter) { Ok(()) } else { Err(Refusal::new(at, says)) }
        };
        let station = |at: &str, number: u32| {
            let says = format!("This line has stations 1 to {0}, which give sections 1 to {0}.", run.sections);
            if (1..=run.sections).contains(&number) { Ok(()) } else { Err(Refusal::new(at, says)) }
        };
        let lift = |lift: u32| {
            let says = format!("A lift has 1 to {MOST_LIFT} sections.");
            if (1..=MOST_LIFT).contains(&lift) { Ok(()) } else { Err(Refusal::new("lift", says)) }
        };
        match *self {
            Self::WrongPile { station: at, section, counter, lift: sections } => {
                station("station", at)?;
                station("section", section)?;
                of_the_run("counter", counter)?;
                lift(sections)
            }
            Self::ForeignPile { station: at, counter, lift: sections }
            | Self::TurnedPile { station: at, counter, lift: sections, lies: _ } => {
                station("station", at)?;
                of_the_run("counter", counter)?;
                lift(sections)
            }
            Self::Exchanged { stations: [a, b] } => {
                station("stations[0]", a)?;
                station("stations[1]", b)?;
                if a == b {
                    Err(Refusal::new("stations", "Two stations are exchanged, not one with itself."))
                } else {
                    Ok(())
                }
            }
            Self::HandFilled { station: at, counter, books, section } => {
                station("station", at)?;
                of_the_run("counter", counter)?;
                if books == 0 || books > run.books {
                    return Err(Refusal::new("books", format!("From 1 to {} books are filled by hand.", run.books)));
                }
                section.map_or(Ok(()), |section| station("section", section))
            }
            Self::DividedWrong { counter, after } => {
                of_the_run("counter", counter)?;
                if after == 0 || after >= run.sections {
                    let says = "A book divided wrong ends with a section before the last one.";
                    return Err(Refusal::new("after", says));
                }
                Ok(())
            }
            Self::EveryNth { station: at, counter, every, section } => {
                station("station", at)?;
                of_the_run("counter", counter)?;
                if every == 0 {
                    return Err(Refusal::new("every", "One book of 1 or more is wrong."));
                }
                section.map_or(Ok(()), |section| station("section", section))
            }
            Self::WeakFeeder { station: at, miss_per_million, double_per_million } => {
                station("station", at)?;
                super::run::million("miss_per_million", miss_per_million, 0)?;
                super::run::million("double_per_million", double_per_million, miss_per_million)
            }
        }
    }
}
