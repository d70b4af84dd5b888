//! The desk as text, as the browser keeps it beside the job.

use super::desk::{Desk, MAX_NAME, OnDesk};
use crate::practice::{Entry, LEVELS, Logbook};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use thiserror::Error;

/// The form that is written.
const FORM: u32 = 1;

/// Why a kept desk can't be read.
#[derive(Debug, Error)]
pub enum NotRead {
    /// A later program wrote it.
    #[error("it was kept by a later program than this one")]
    Later,
    /// It is no desk.
    #[error("it is damaged: {0}")]
    Damaged(String),
}

#[derive(Serialize, Deserialize)]
struct Kept {
    backmark_desk: u32,
    #[serde(default)]
    name: String,
    #[serde(default)]
    on_desk: Option<OnDesk>,
    #[serde(default)]
    logbook: Vec<Entry>,
    #[serde(default)]
    lessons: BTreeSet<u8>,
}

#[derive(Deserialize)]
struct Form {
    backmark_desk: u32,
}

/// Writes a desk.
#[must_use]
pub fn write_desk(desk: &Desk) -> String {
    let kept = Kept {
        backmark_desk: FORM,
        name: desk.name.clone(),
        on_desk: desk.on_desk.clone(),
        logbook: desk.logbook.entries().to_vec(),
        lessons: desk.lessons.clone(),
    };
    serde_json::to_string(&kept).unwrap_or_default()
}

/// Reads a desk.
///
/// # Errors
/// When it can't be read; then nothing may be written over it.
pub fn read_desk(text: &str) -> Result<Desk, NotRead> {
    let damaged = |why: serde_json::Error| NotRead::Damaged(why.to_string());
    if serde_json::from_str::<Form>(text).map_err(damaged)?.backmark_desk > FORM {
        return Err(NotRead::Later);
    }
    let kept: Kept = serde_json::from_str(text).map_err(damaged)?;
    let logbook = Logbook::of(kept.logbook).map_err(|why| NotRead::Damaged(format!("{}: {}", why.at, why.says)))?;
    // An exercise that no program sets would only stand in the way.
    let on_desk = kept.on_desk.filter(|on| (1..=LEVELS).contains(&on.level) && on.exercise().is_ok());
    let name = kept.name.chars().take(MAX_NAME).collect();
    Ok(Desk { name, on_desk, logbook, lessons: kept.lessons })
}

/// What two windows kept, as one: all that was handed in in either, and the desk of ours. Of entries that both have, each is there
/// as often as in the window that has it more often.
#[must_use]
pub fn merged(ours: &Desk, theirs: &Desk) -> Desk {
    let mut logbook = theirs.logbook.clone();
    let count = |of: &[Entry], entry: &Entry| of.iter().filter(|e| *e == entry).count();
    for entry in ours.logbook.entries() {
        if count(logbook.entries(), entry) < count(ours.logbook.entries(), entry) && logbook.add(entry.clone()).is_err()
        {
            break;
        }
    }
    let lessons = ours.lessons.union(&theirs.lessons).copied().collect();
    let name = if ours.name.is_empty() { theirs.name.clone() } else { ours.name.clone() };
    Desk { name, on_desk: ours.on_desk.clone().or_else(|| theirs.on_desk.clone()), logbook, lessons }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::DeskAct;
    use crate::practice::{Answer, Kind};
    use proptest::prelude::*;

    fn done(acts: impl IntoIterator<Item = DeskAct>) -> Desk {
        acts.into_iter().fold(Desk::default(), |desk, act| desk.after(act).0)
    }

    fn handed_in(seeds: &[u64]) -> Vec<DeskAct> {
        let one =
            |seed: &u64| [DeskAct::Set(Kind::MakeUp, 1, *seed), DeskAct::HandIn { date: "Monday".into(), minutes: 2 }];
        seeds.iter().flat_map(one).collect()
    }

    #[test]
    fn what_is_kept_is_read_as_it_was_without_its_steps_back() {
        for kind in Kind::ALL {
            let mut desk =
                done([DeskAct::Name("Ida".into()), DeskAct::Set(kind, 2, 5), DeskAct::Hint, DeskAct::Finished(3)]);
            let right = desk.on_desk.as_ref().unwrap().exercise().unwrap().right();
            desk = desk.after(DeskAct::Answer(right)).0;
            let read = read_desk(&write_desk(&desk)).unwrap();
            desk.on_desk.as_mut().unwrap().past.clear();
            assert_eq!(read, desk);
        }
    }

    #[test]
    fn later_and_damaged_desks_are_refused() {
        assert!(matches!(read_desk(r#"{"backmark_desk": 2, "new": []}"#), Err(NotRead::Later)));
        assert!(matches!(read_desk("{"), Err(NotRead::Damaged(_))));
        assert!(matches!(read_desk(r#"{"backmark_desk": 1, "logbook": [{}]}"#), Err(NotRead::Damaged(_))));
    }

    #[test]
    fn what_two_windows_handed_in_is_all_there_once() {
        let before = handed_in(&[1, 2]);
        let with = |more: &[u64]| done(before.iter().cloned().chain(handed_in(more)));
        let (ours, theirs) = (with(&[3, 3]), with(&[4, 3]));
        let both = merged(&ours, &theirs);
        let mut seeds: Vec<u64> = both.logbook.entries().iter().map(|e| e.seed).collect();
        seeds.sort_unstable();
        assert_eq!(seeds, [1, 2, 3, 3, 4]);
        assert_eq!(merged(&both, &theirs), both);
        assert_eq!(both.on_desk, ours.on_desk);
    }

    proptest! {
        #[test]
        fn any_text_is_read_or_refused(text in ".{0,200}", at in any::<prop::sample::Index>()) {
            let _ = read_desk(&text);
            let good = write_desk(&done(handed_in(&[1]).into_iter().chain([DeskAct::Set(Kind::MakeUp, 1, 9), DeskAct::Answer(Answer::MakeUp(vec![8]))])));
            let cut = at.index(good.len());
            let _ = read_desk(good.get(..cut).unwrap_or_default());
        }
    }
}
