//! All that is known about the extent of a fault.

use super::{Left, Line, Logged, MOST_LIFT, MOST_STATIONS, Opened, Refusal, check_left, check_log, check_opened};
use super::{MOST_COUNTER, Pattern};
use serde::{Deserialize, Serialize};

/// How many books are held on both sides of a stop, where nobody says (common practice, no source).
pub const GUARD: u32 = 5;

/// What is known of one fault in one run.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Evidence {
    /// The run.
    pub line: Line,
    /// The opened books, judged by this fault alone.
    #[serde(default)]
    pub opened: Vec<Opened>,
    /// Stops, jams and reloads.
    #[serde(default)]
    pub log: Vec<Logged>,
    /// Leftovers.
    #[serde(default)]
    pub left: Vec<Left>,
    /// The station that is suspected: only its reloads and jams count then.
    #[serde(default)]
    pub station: Option<u32>,
    /// How many sections are loaded at once.
    #[serde(default)]
    pub lift: Option<u32>,
    /// How the fault is spread, if a person has decided it; otherwise it is read from the opened books.
    #[serde(default)]
    pub pattern: Option<Pattern>,
    /// Books to hold on both sides of a stop or a jam.
    #[serde(default = "guard")]
    pub guard: u32,
    /// The number from which a sample is drawn. Another number draws another sample.
    #[serde(default)]
    pub seed: u64,
}

const fn guard() -> u32 {
    GUARD
}

impl Evidence {
    /// A run of which nothing else is known.
    #[must_use]
    pub const fn of(line: Line) -> Self {
        Self {
            line,
            opened: Vec::new(),
            log: Vec::new(),
            left: Vec::new(),
            station: None,
            lift: None,
            pattern: None,
            guard: GUARD,
            seed: 0,
        }
    }

    /// Whether it can be worked with.
    ///
    /// # Errors
    /// Where a number is out of bounds, or a book is not of the run.
    pub fn check(&self) -> Result<(), Refusal> {
        let under = |path: &'static str| {
            move |refused: Refusal| {
                let dot = if refused.at.is_empty() || refused.at.starts_with('[') { "" } else { "." };
                Refusal::new(format!("{path}{dot}{}", refused.at), refused.says)
            }
        };
        self.line.check().map_err(under("line"))?;
        check_opened(&self.line, &self.opened).map_err(under("opened"))?;
        check_log(&self.line, &self.log).map_err(under("log"))?;
        check_left(&self.left).map_err(under("left"))?;
        if self.station.is_some_and(|s| !(1..=MOST_STATIONS).contains(&s)) {
            return Err(Refusal::new("station", format!("stations are numbered from 1 to {MOST_STATIONS}")));
        }
        if self.lift.is_some_and(|l| !(1..=MOST_LIFT).contains(&l)) {
            return Err(Refusal::new("lift", format!("a lift is from 1 to {MOST_LIFT} sections")));
        }
        if let Some(Pattern::EveryNth { every }) = self.pattern
            && !(2..=MOST_COUNTER).contains(&every)
        {
            return Err(Refusal::new(
                "pattern.every",
                format!("every second book is the least, every {MOST_COUNTER}th the most"),
            ));
        }
        if self.guard > MOST_LIFT {
            return Err(Refusal::new("guard", format!("at the most {MOST_LIFT} books are held beside a stop")));
        }
        Ok(())
    }
}
