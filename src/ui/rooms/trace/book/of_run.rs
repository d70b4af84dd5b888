//! The finds of the run: its books by their counter, what happened on the line, what was left over.

use super::fields::{Field, choice, plain, read_whole, whole};
use super::finds::Props;
use super::kind::Kind;
use super::piles::{Pile, row};
use super::run_line::{RunLine, drawn};
use crate::app::{Action, CaseAct};
use crate::since::{Fed, Happened, Judged, Left, Logged};
use crate::trace::Case;
use crate::ui::store::Act;
use crate::words::grouped;
use yew::prelude::*;

/// What is being entered of the log and of what is left over.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    counter: String,
    what: usize,
    station: String,
    lift: String,
    left: String,
    top: bool,
    over_at: String,
    over: String,
}

impl Default for Entry {
    /// A reload, since most wrong books come of one.
    fn default() -> Self {
        let none = String::new;
        Self {
            counter: none(),
            what: 2,
            station: none(),
            lift: none(),
            left: none(),
            top: false,
            over_at: none(),
            over: none(),
        }
    }
}

/// What the run needs beside the finds of a book.
pub struct OfRun<'a> {
    /// What is being entered.
    pub entry: &'a Entry,
    /// Changes it.
    pub enter: Callback<Entry>,
    /// Books to hold.
    pub held: &'a [(u32, u32)],
    /// The book to open next.
    pub next: Option<u32>,
    /// What is known of the extent, in a sentence.
    pub says: String,
}

/// What follows from a number of the run: its first book, the number, and both ends where they are known.
type Makes = fn(u32, Option<u32>, Option<(u32, u32)>) -> CaseAct;

/// All finds of the run.
pub fn of_run(props: &Props<'_>, run: &OfRun<'_>) -> Html {
    html! { <>{ the_run(props, run) }{ left_over(props, run) }{ log(props, run) }</> }
}

/// The run as it is drawn; `None` while no counter number is known.
#[must_use]
pub fn line_of(case: &Case, held: &[(u32, u32)], next: Option<u32>) -> Option<RunLine> {
    let opened: Vec<(u32, bool)> =
        case.books.iter().filter_map(|b| Some((b.counter?, b.judged == Some(Judged::Good)))).collect();
    let events: Vec<u32> = case.log.iter().map(|l| l.counter).collect();
    let known = case.line_known();
    let seen = || opened.iter().map(|b| b.0).chain(events.iter().copied()).chain(held.iter().map(|h| h.1));
    let last = if known { case.line.last } else { seen().max()? };
    let ends = (case.line.first, last.max(case.line.first));
    // What is held of a run whose end nobody knows is drawn to the end.
    let held = held.iter().map(|(a, b)| (*a, (*b).min(ends.1))).collect();
    Some(RunLine { ends, held, opened, events, next })
}

fn the_run(props: &Props<'_>, run: &OfRun<'_>) -> Html {
    let (case, act) = (props.case, &props.act);
    let ends = case.line_known().then_some((case.line.first, case.line.last));
    let first = ends.map_or(1, |e| e.0);
    let set = move |act: &Act, make: Makes| {
        let act = act.clone();
        Callback::from(move |read: Result<Option<u32>, String>| {
            act.emit(match read {
                Ok(n) => Action::Case(make(first, n, ends)),
                Err(why) => Action::Say(why),
            });
        })
    };
    let after = case.line.ahead.last().copied();
    let fields = html! {
        <div class="short-fields">
            { whole("run-first", "First book", ends.map(|e| e.0),
                set(act, |_, n, ends| CaseAct::Ends(ends.map(|(first, last)| (n.unwrap_or(first), last))))) }
            { whole("run-last", "Last book", ends.map(|e| e.1),
                set(act, |first, n, _| CaseAct::Ends(n.map(|last| (first.min(last), last))))) }
            { whole("per-hour", "Books an hour", case.line.per_hour, set(act, |_, n, _| CaseAct::PerHour(n))) }
            { whole("behind", "Books from last station to counter", after, set(act, |_, n, _| CaseAct::Behind(n))) }
        </div>
    };
    let line = line_of(case, run.held, run.next);
    let picture = line.as_ref().map_or_else(Html::default, drawn);
    let opened: Vec<String> = case
        .books
        .iter()
        .filter_map(|b| {
            let judged = match b.judged? {
                Judged::Good => "good",
                Judged::Bad => "bad",
            };
            Some(format!("{} {judged}", grouped(b.counter?)))
        })
        .collect();
    let says = if run.says.is_empty() && !opened.is_empty() {
        format!("Opened: {}.", opened.join(", "))
    } else {
        run.says.clone()
    };
    let away = act.reform(|()| Action::Case(CaseAct::Ends(None)));
    props.block(Kind::Run, picture, &says, fields, away)
}

/// The stations beside a pile that is over or short stand beside it as they are.
fn beside(left: &[Left], sections: u32) -> Vec<Vec<Pile>> {
    let mut groups: Vec<Vec<u32>> = Vec::new();
    for one in left.iter().take(6) {
        let around = one.station.saturating_sub(1).max(1)..=one.station.saturating_add(1).min(sections.max(1));
        match groups.last_mut() {
            // Neighbours share what stands between them.
            Some(group) if group.last().is_some_and(|last| *last >= *around.start()) => {
                let last = group.last().copied().unwrap_or(0);
                group.extend(around.filter(|s| *s > last));
            }
            _ => groups.push(around.collect()),
        }
    }
    let pile = |station: &u32| {
        let over = left.iter().find(|l| l.station == *station).map(|l| l.over);
        let high = match over {
            Some(over) if over > 0 => 11,
            Some(over) if over < 0 => 4,
            _ => 8,
        };
        Pile { high, ..Pile::plain(station, over.is_some()) }
    };
    groups.iter().map(|group| group.iter().map(pile).collect()).collect()
}

/// `80 over at 5, 80 short at 9`.
fn left_says(left: &[Left]) -> String {
    let one = |l: &Left| {
        let how = if l.over < 0 { "short" } else { "over" };
        format!("{} {how} at {}", grouped(l.over.unsigned_abs()), l.station)
    };
    let all: Vec<String> = left.iter().map(one).collect();
    if all.is_empty() { String::new() } else { format!("{}.", all.join(", ")) }
}

fn left_over(props: &Props<'_>, run: &OfRun<'_>) -> Html {
    let (left, act) = (&props.case.left, &props.act);
    let entry = run.entry;
    let put = {
        let (act, entry, enter) = (act.clone(), entry.clone(), run.enter.clone());
        Callback::from(move |short: usize| {
            let read = read_whole(&entry.over_at).and_then(|at| Ok((at, read_whole(&entry.over)?)));
            match read {
                Ok((Some(station), Some(n))) if i32::try_from(n).is_ok() => {
                    let n = i32::try_from(n).unwrap_or(0);
                    act.emit(Action::Case(CaseAct::Left(station, Some(if short == 1 { -n } else { n }))));
                    enter.emit(Entry { over_at: String::new(), over: String::new(), ..entry.clone() });
                }
                Ok(_) => {
                    act.emit(Action::Say("Say the station, and how many sections are over or short there.".into()))
                }
                Err(why) => act.emit(Action::Say(why)),
            }
        })
    };
    let typed = |id: &str, label, value: &str, set: fn(&mut Entry, String)| entry_field(run, id, label, value, set);
    let row_of = |(i, one): (usize, &Left)| {
        let station = one.station;
        let away = act.reform(move |()| Action::Case(CaseAct::Left(station, None)));
        html! {
            <li key={i}><span>{ crate::ui::widgets::words(&left_says(&[*one])) }</span>
                { plain("Take away", Some(format!("Take away what is left over at station {station}")), &away) }</li>
        }
    };
    let fields = html! {
        <>
            <ul class="entries" hidden={left.is_empty()}>{ for left.iter().enumerate().map(row_of) }</ul>
            <div class="short-fields">
                { typed("left-station", "Station", &entry.over_at, |e, t| e.over_at = t) }
                { typed("left-over", "Sections", &entry.over, |e, t| e.over = t) }
                { choice("Over or short", &[("Over", false), ("Short", false)], &put) }
            </div>
        </>
    };
    let picture = html! {
        <div class="left-piles">{ for beside(left, props.sections).iter().map(|group| row(group, "left-group")) }</div>
    };
    let away = {
        let (act, all) = (act.clone(), left.clone());
        Callback::from(move |()| all.iter().for_each(|l| act.emit(Action::Case(CaseAct::Left(l.station, None)))))
    };
    props.block(Kind::Left, picture, &left_says(left), fields, away)
}

/// A field of what is being entered.
fn entry_field(run: &OfRun<'_>, id: &str, label: &'static str, value: &str, set: fn(&mut Entry, String)) -> Html {
    let (entry, enter) = (run.entry.clone(), run.enter.clone());
    let typing = Callback::from(move |text: String| {
        let mut next = entry.clone();
        set(&mut next, text);
        enter.emit(next);
    });
    let (id, value, wrong) = (id.to_owned(), value.to_owned(), String::new());
    Field { id, label, value, short: true, wrong, typing, enter: Callback::noop() }.view()
}

/// An entry of the log in words.
#[must_use]
pub fn logged_says(logged: &Logged) -> String {
    let at = grouped(logged.counter);
    match logged.what {
        Happened::Stop => format!("At {at} the line stopped."),
        Happened::Jam { station } => format!("At {at} station {station} jammed."),
        Happened::Reload { station, lift, left, fed } => {
            let end = if fed == Fed::Bottom { "bottom" } else { "top" };
            let (lift, left) = (grouped(lift), grouped(left));
            format!("At {at} station {station} was reloaded with {lift}; {left} were left in it, fed from the {end}.")
        }
    }
}

fn logged(entry: &Entry) -> Result<Logged, String> {
    let need = |text: &str, what: &str| read_whole(text)?.ok_or_else(|| format!("Say {what}."));
    let counter = need(&entry.counter, "what the counter showed")?;
    let what = match entry.what {
        0 => Happened::Stop,
        1 => Happened::Jam { station: need(&entry.station, "which station")? },
        _ => Happened::Reload {
            station: need(&entry.station, "which station")?,
            lift: need(&entry.lift, "how many sections were loaded")?,
            left: read_whole(&entry.left)?.unwrap_or(0),
            fed: if entry.top { Fed::Top } else { Fed::Bottom },
        },
    };
    Ok(Logged { counter, what })
}

fn log(props: &Props<'_>, run: &OfRun<'_>) -> Html {
    let (log, act, entry) = (&props.case.log, &props.act, run.entry);
    let change = |set: fn(&mut Entry, usize)| {
        let (entry, enter) = (entry.clone(), run.enter.clone());
        Callback::from(move |at: usize| {
            let mut next = entry.clone();
            set(&mut next, at);
            enter.emit(next);
        })
    };
    let put = {
        let (act, entry, enter) = (act.clone(), entry.clone(), run.enter.clone());
        Callback::from(move |()| match logged(&entry) {
            Ok(logged) => {
                act.emit(Action::Case(CaseAct::Log(logged)));
                enter.emit(Entry { what: entry.what, top: entry.top, ..Entry::default() });
            }
            Err(why) => act.emit(Action::Say(why)),
        })
    };
    let what = [("Stop", entry.what == 0), ("Jam", entry.what == 1), ("Reload", entry.what == 2)];
    let entry_row = |(i, logged): (usize, &Logged)| {
        let away = act.reform(move |()| Action::Case(CaseAct::Unlog(i)));
        html! {
            <li key={i}><span>{ crate::ui::widgets::words(&logged_says(logged)) }</span>
                { plain("Take away", Some(format!("Take away: {}", logged_says(logged))), &away) }</li>
        }
    };
    let typed = |id: &str, label, value: &str, set: fn(&mut Entry, String)| entry_field(run, id, label, value, set);
    let fields = html! {
        <>
            { choice("What happened", &what, &change(|e, at| e.what = at)) }
            <div class="short-fields">
                { typed("log-counter", "Counter", &entry.counter, |e, t| e.counter = t) }
                <span class="one-field short" hidden={entry.what == 0}>{ typed("log-station", "Station", &entry.station, |e, t| e.station = t) }</span>
                <span class="one-field short" hidden={entry.what != 2}>{ typed("log-lift", "Lift", &entry.lift, |e, t| e.lift = t) }</span>
                <span class="one-field short" hidden={entry.what != 2}>{ typed("log-left", "Left in it", &entry.left, |e, t| e.left = t) }</span>
            </div>
            <p class="fed" hidden={entry.what != 2}>
                { "Fed from the " }
                { choice("Fed from the", &[("bottom", !entry.top), ("top", entry.top)], &change(|e, at| e.top = at == 1)) }
            </p>
            <p><button type="button" class="button slip" onclick={put.reform(|_: MouseEvent| ())}>{ "Note it" }</button></p>
        </>
    };
    // The entries are words; they stand where other finds have a picture.
    let list = html! { <ul class="entries">{ for log.iter().enumerate().map(entry_row) }</ul> };
    let away = {
        let (act, n) = (act.clone(), log.len());
        Callback::from(move |()| (0..n).for_each(|_| act.emit(Action::Case(CaseAct::Unlog(0)))))
    };
    props.block(Kind::Log, list, "", fields, away)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn neighbours_of_a_pile_stand_beside_it_and_are_shared() {
        let left = |station, over| Left { station, over };
        let numbers = |left: &[Left]| {
            let groups = beside(left, 18);
            groups.iter().map(|g| g.iter().map(|p| p.number.clone()).collect::<Vec<_>>().join(" ")).collect::<Vec<_>>()
        };
        assert_eq!(numbers(&[left(5, 80), left(9, -80)]), ["4 5 6", "8 9 10"]);
        assert_eq!(numbers(&[left(1, 1), left(3, -1), left(18, 2)]), ["1 2 3 4", "17 18"]);
        assert_eq!(left_says(&[left(5, 80), left(9, -80)]), "80 over at 5, 80 short at 9.");
    }

    #[test]
    fn an_entry_of_the_log_needs_what_belongs_to_it() {
        let entry = Entry { counter: "1,380".into(), station: "5".into(), lift: "80".into(), ..Entry::default() };
        let reload = Happened::Reload { station: 5, lift: 80, left: 0, fed: Fed::Bottom };
        assert_eq!(logged(&entry), Ok(Logged { counter: 1380, what: reload }));
        assert!(logged(&Entry { station: String::new(), ..entry.clone() }).unwrap_err().contains("station"));
        assert_eq!(logged(&Entry { what: 0, station: String::new(), ..entry }).map(|l| l.what), Ok(Happened::Stop));
    }
}
