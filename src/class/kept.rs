//! The desk as text, as the browser keeps it beside the job.

use super::desk::{Desk, MAX_ASIDE, MAX_NAME, OnDesk};
use crate::practice::{Entry, LEVELS, Logbook};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
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
    aside: Vec<OnDesk>,
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
        aside: desk.aside.clone(),
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
    let can_be_set = |on: &OnDesk| (1..=LEVELS).contains(&on.level) && on.exercise().is_ok();
    let on_desk = kept.on_desk.filter(can_be_set);
    let aside = kept.aside.into_iter().take(MAX_ASIDE).filter(can_be_set).collect();
    let name = kept.name.chars().take(MAX_NAME).collect();
    Ok(Desk { name, on_desk, aside, logbook, lessons: kept.lessons })
}

/// What two windows kept, as one: all that was handed in in either, and the desk of ours. What was begun in theirs lies aside
/// then, as far as there is room. Of entries that both have, each is there
/// as often as in the window that has it more often.
#[must_use]
pub fn merged(ours: &Desk, theirs: &Desk) -> Desk {
    let mut logbook = theirs.logbook.clone();
    // How often each of theirs is still to be met among ours.
    let mut left: BTreeMap<&Entry, usize> = BTreeMap::new();
    for entry in theirs.logbook.entries() {
        *left.entry(entry).or_default() += 1;
    }
    for entry in ours.logbook.entries() {
        match left.get_mut(entry).filter(|count| **count > 0) {
            Some(count) => *count -= 1,
            None if logbook.add(entry.clone()).is_err() => break,
            None => {}
        }
    }
    let lessons = ours.lessons.union(&theirs.lessons).copied().collect();
    let name = if ours.name.is_empty() { theirs.name.clone() } else { ours.name.clone() };
    let on_desk = ours.on_desk.clone().or_else(|| theirs.on_desk.clone());
    let mut aside = ours.aside.clone();
    for begun in theirs.aside.iter().chain(&theirs.on_desk).filter(|on| on.is_begun()) {
        let here = |on: &OnDesk| on.is(begun.kind, begun.level, begun.seed);
        // What ours handed in, or wrote further, is not there a second time.
        let handed_in = logbook.entries().iter().any(|e| begun.is(e.kind, e.level, e.seed));
        if aside.len() < MAX_ASIDE && !handed_in && !aside.iter().chain(&on_desk).any(here) {
            aside.push(OnDesk { since: None, ..begun.clone() });
        }
    }
    Desk { name, on_desk, aside, logbook, lessons }
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

    #[test]
    fn what_was_begun_in_another_window_lies_aside() {
        let begun = |kind| done([DeskAct::Set(kind, 1, 1), DeskAct::Hint]);
        let (ours, theirs) = (begun(Kind::MakeUp), begun(Kind::Bolts));
        let both = merged(&ours, &theirs);
        assert_eq!((both.on_desk.as_ref(), both.aside.len()), (ours.on_desk.as_ref(), 1));
        assert_eq!(merged(&both, &theirs), both, "once");
        assert_eq!(read_desk(&write_desk(&both)).unwrap(), both);
        let handed = ours.after(DeskAct::HandIn { date: String::new(), minutes: 1 }).0;
        assert!(merged(&handed, &begun(Kind::MakeUp)).aside.is_empty(), "what was handed in is not begun again");
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
