//! What happened on the line and when, and what was left over.

use super::line::{MOST_COUNTER, MOST_STATIONS};
use super::{Line, Refusal};
use serde::{Deserialize, Serialize};

/// The most things that happened.
pub const MOST_LOGGED: usize = 1_000;
/// The largest lift, and the most sections left in a hopper.
pub const MOST_LIFT: u32 = 1_000_000;

/// From which end of the pile a hopper is fed to the line. Lifts are put on top of the pile either way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Fed {
    /// From the bottom: what lay there goes first, and a new lift after it.
    Bottom,
    /// From the top: a new lift goes first, and what lay there after it.
    Top,
}

/// What happened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Happened {
    /// The line stopped.
    Stop,
    /// A station jammed and was cleared.
    Jam {
        /// The station.
        station: u32,
    },
    /// A station was reloaded.
    Reload {
        /// The station.
        station: u32,
        /// Sections put in at once.
        lift: u32,
        /// Sections that were still in the hopper.
        left: u32,
        /// From which end it is fed.
        fed: Fed,
    },
}

/// What stopped the line at a station.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Stopper {
    /// The feeler that measures thickness: nothing was fed, or two sections.
    Caliper,
    /// The eye that looks at the section.
    Camera,
}

/// Something that happened, and what the counter showed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Logged {
    /// What the counter showed; 0 before the first book. The last book that had passed has this number.
    pub counter: u32,
    /// What happened.
    pub what: Happened,
}

/// What is left over at a station when the run is done, against as many sections as books were made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Left {
    /// The station, which in a right book gives the section of the same number.
    pub station: u32,
    /// Sections over, or short where it is below 0.
    pub over: i32,
}

fn station(at: String, station: u32) -> Result<(), Refusal> {
    if (1..=MOST_STATIONS).contains(&station) {
        return Ok(());
    }
    Err(Refusal::new(at, format!("stations are numbered from 1 to {MOST_STATIONS}")))
}

/// Whether the log can be of the run. Paths begin with the number in the list: `[0].what.lift`.
///
/// # Errors
/// Where a number is out of bounds, or where there are too many.
pub fn check_log(line: &Line, log: &[Logged]) -> Result<(), Refusal> {
    if log.len() > MOST_LOGGED {
        return Err(Refusal::new("", format!("at the most {MOST_LOGGED} stops, jams and reloads are read")));
    }
    for (i, logged) in log.iter().enumerate() {
        if logged.counter > line.last {
            let says = format!("the counter of this run went no further than {}", line.last);
            return Err(Refusal::new(format!("[{i}].counter"), says));
        }
        match logged.what {
            Happened::Stop => {}
            Happened::Jam { station: s } => station(format!("[{i}].what.station"), s)?,
            Happened::Reload { station: s, lift, left, fed: _ } => {
                station(format!("[{i}].what.station"), s)?;
                if !(1..=MOST_LIFT).contains(&lift) {
                    let says = format!("a lift is from 1 to {MOST_LIFT} sections");
                    return Err(Refusal::new(format!("[{i}].what.lift"), says));
                }
                if left > MOST_LIFT {
                    let says = format!("a hopper holds {MOST_LIFT} sections at the most");
                    return Err(Refusal::new(format!("[{i}].what.left"), says));
                }
            }
        }
    }
    Ok(())
}

/// Whether the leftovers name stations that there are, each once. Paths begin with the number in the list.
///
/// # Errors
/// Where a station is out of bounds or named twice.
pub fn check_left(left: &[Left]) -> Result<(), Refusal> {
    for (i, one) in left.iter().enumerate() {
        station(format!("[{i}].station"), one.station)?;
        if left.iter().take(i).any(|l| l.station == one.station) {
            let says = format!("station {} is in the list twice", one.station);
            return Err(Refusal::new(format!("[{i}].station"), says));
        }
        if one.over.unsigned_abs() > MOST_COUNTER {
            return Err(Refusal::new(format!("[{i}].over"), format!("at the most {MOST_COUNTER} sections are over")));
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_happened_is_written_as_a_script_writes_it() {
        let text = r#"{"counter":2210,"what":{"kind":"reload","station":9,"lift":80,"left":40,"fed":"bottom"}}"#;
        let reload = Happened::Reload { station: 9, lift: 80, left: 40, fed: Fed::Bottom };
        let logged: Logged = serde_json::from_str(text).unwrap();
        assert_eq!(logged, Logged { counter: 2210, what: reload });
        assert_eq!(serde_json::to_string(&logged).unwrap(), text);
        let stop: Logged = serde_json::from_str(r#"{"counter":3,"what":{"kind":"stop"}}"#).unwrap();
        assert_eq!(stop.what, Happened::Stop);
        assert!(serde_json::from_str::<Logged>(r#"{"counter":3,"what":{"kind":"jam","station":1,"lift":1}}"#).is_err());
    }

    #[test]
    fn a_log_out_of_bounds_is_refused_where_it_is() {
        let line = Line::of(1, 100);
        let at = |counter, what| check_log(&line, &[Logged { counter, what }]).unwrap_err().at;
        assert_eq!(at(101, Happened::Stop), "[0].counter");
        assert_eq!(at(1, Happened::Jam { station: 0 }), "[0].what.station");
        assert_eq!(at(1, Happened::Reload { station: 1, lift: 0, left: 0, fed: Fed::Top }), "[0].what.lift");
        let left = [Left { station: 2, over: 1 }, Left { station: 2, over: 1 }];
        assert_eq!(check_left(&left).unwrap_err().at, "[1].station");
    }
}
