//! Changing what was found of a wrong book.

use crate::app::case::{CaseAct, Find};
use crate::app::job::Job;
use crate::gather::run::print_run;
use crate::marks::{MOST_SECTIONS, Seen, read_backs};
use crate::report::MOST_TEXT;
use crate::since::{Judged, Line};
use crate::trace::{Case, SeenBook, Spine};

/// The most odds that are stated otherwise, and the highest weight. Bounds of this program.
const MOST_ODDS: usize = 100;
const HIGHEST_ODDS: f64 = 1e6;
/// The most lines of the report that a person writes. A bound of this program.
const MOST_WRITTEN: usize = 40;

/// Carries out a change, or says why it can't be.
pub(super) fn act(job: &mut Job, act: CaseAct) -> Result<(), String> {
    let gathered = if matches!(act, CaseAct::Gathered(_)) { gathered(job)? } else { Spine::Unseen };
    let (sections, case) = (job.sections, &mut job.case);
    match act {
        CaseAct::AddBook => case.books.push(SeenBook::default()),
        CaseAct::DropBook(at) if at < case.books.len() => {
            case.books.remove(at);
        }
        CaseAct::DropBook(_) => {}
        CaseAct::Note(at, find) => note(book(case, at)?, find),
        CaseAct::Gathered(at) => book(case, at)?.spine = gathered,
        CaseAct::GoodBulk(mm) => case.good_bulk_mm = mm.map(hundredths),
        CaseAct::Ends(ends) => {
            let (first, last) = ends.unwrap_or_else(|| {
                let unknown = Case::unknown_line();
                (unknown.first, unknown.last)
            });
            (case.line.first, case.line.last) = (first, last);
        }
        CaseAct::PerHour(books) => case.line.per_hour = books,
        CaseAct::Behind(books) => {
            let (first, last) = (case.line.first, case.line.last);
            case.line.ahead = books.map_or_else(Vec::new, |n| Line::in_a_row(first, last, sections, n).ahead);
        }
        CaseAct::Log(logged) => {
            // In the order of the run; of two at one counter the one noted first stays first.
            let at = case.log.partition_point(|l| l.counter <= logged.counter);
            case.log.insert(at, logged);
        }
        CaseAct::Unlog(at) if at < case.log.len() => {
            case.log.remove(at);
        }
        CaseAct::Unlog(_) => {}
        CaseAct::Left(station, over) => left(case, station, over),
        CaseAct::Judge(counter, judged) => judge(case, counter, judged),
        CaseAct::Odds(name, odds) => stated(&mut job.odds, name, odds.map(hundredths))?,
        CaseAct::OddsAsStated => job.odds.clear(),
        CaseAct::Write(line, text) => {
            job.written.retain(|(name, _)| name != line);
            if !text.is_empty() {
                job.written.push((line.to_owned(), text));
            }
        }
        CaseAct::Put(other) => *case = *other,
    }
    check(job)
}

/// The spine of the gathered book: the marks as they are seen, where they are a plain staircase. Others are read at once.
fn gathered(job: &Job) -> Result<Spine, String> {
    let seen = job.seen();
    if job.design == job.design.stairs.into() {
        let rounded = |marks: Vec<f64>| marks.into_iter().map(hundredths).collect();
        return Ok(Spine::Marks(seen.into_iter().map(|back| Seen { marks_mm: back.marks_mm.map(rounded) }).collect()));
    }
    let reading = read_backs(job.sections, &job.design, &seen).map_err(|why| why.says)?;
    Ok(Spine::Run(print_run(&reading.found)))
}

/// Whether the case of a job can be.
///
/// # Errors
/// A sentence.
pub(in crate::app) fn check(job: &Job) -> Result<(), String> {
    // Stations beyond the book are a finding of the check and no reason to lose what was noted.
    job.case.check(MOST_SECTIONS).map_err(|why| why.says)?;
    if job.odds.len() > MOST_ODDS || job.odds.iter().any(|(_, odds)| !fine(*odds)) {
        return Err("The odds are more, or other, than can be.".into());
    }
    let long = |text: &String| text.chars().count() > MOST_TEXT;
    if job.written.len() > MOST_WRITTEN || job.written.iter().any(|(line, text)| long(line) || long(text)) {
        return Err(format!("A line of the report has at most {MOST_TEXT} characters."));
    }
    Ok(())
}

/// A number as a job file keeps it.
fn hundredths(number: f64) -> f64 {
    (number * 100.0).round() / 100.0
}

fn fine(odds: f64) -> bool {
    odds.is_finite() && (0.0..=HIGHEST_ODDS).contains(&odds)
}

/// A book of the case; the one behind the last is made.
fn book(case: &mut Case, at: usize) -> Result<&mut SeenBook, String> {
    if at == case.books.len() {
        case.books.push(SeenBook::default());
    }
    case.books.get_mut(at).ok_or_else(|| "There is no such book.".into())
}

fn note(book: &mut SeenBook, find: Find) {
    match find {
        Find::Counter(counter) => book.counter = counter,
        Find::Spine(spine) => book.spine = spine,
        Find::Openings(openings) => book.openings = openings,
        Find::Inside(inside) => book.inside = inside,
        Find::Bulk(mm) => book.bulk_mm = mm.map(hundredths),
        Find::Count(count) => book.count = count,
        Find::Stopped(stopped) => book.stopped = stopped,
        Find::Judged(judged) => book.judged = judged,
        Find::Plates(pages) => book.plates = pages,
        Find::Wraps(sections) => book.wraps = sections,
    }
}

/// Notes what is left over at a station, in the order of the stations.
fn left(case: &mut Case, station: u32, over: Option<i32>) {
    case.left.retain(|l| l.station != station);
    if let Some(over) = over {
        let at = case.left.partition_point(|l| l.station < station);
        case.left.insert(at, crate::since::Left { station, over });
    }
}

/// A book that was opened: one that is there already is judged, another one is added.
fn judge(case: &mut Case, counter: u32, judged: Judged) {
    match case.books.iter_mut().find(|b| b.counter == Some(counter)) {
        Some(book) => book.judged = Some(judged),
        None => case.books.push(SeenBook { counter: Some(counter), judged: Some(judged), ..SeenBook::default() }),
    }
}

fn stated(all: &mut Vec<(String, f64)>, name: String, odds: Option<f64>) -> Result<(), String> {
    if odds.is_some_and(|odds| !fine(odds)) {
        return Err("Odds are a number from 0 to 1,000,000.".into());
    }
    let at = all.iter().position(|(n, _)| *n == name);
    match (at, odds) {
        (Some(at), Some(odds)) => {
            if let Some(one) = all.get_mut(at) {
                one.1 = odds;
            }
        }
        (Some(at), None) => {
            all.remove(at);
        }
        (None, Some(_)) if all.len() >= MOST_ODDS => return Err("No more odds can be stated.".into()),
        (None, Some(odds)) => all.push((name, odds)),
        (None, None) => {}
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{Action, Spoil, State, update};
    use crate::since::{Happened, Left, Logged};

    fn run(state: &State, acts: impl IntoIterator<Item = CaseAct>) -> State {
        acts.into_iter().fold(state.clone(), |state, act| update(&state, Action::Case(act)).0)
    }

    #[test]
    fn books_are_noted_judged_and_put_aside_and_each_step_is_undone() {
        let bad = |n| CaseAct::Judge(n, Judged::Bad);
        let openings = |at| CaseAct::Note(at, Find::Openings("64 129".into()));
        let state =
            run(&State::default(), [openings(0), CaseAct::Note(0, Find::Counter(Some(1421))), bad(1421), bad(9)]);
        let books = &state.job.case.books;
        assert_eq!(books.iter().map(|b| b.counter).collect::<Vec<_>>(), [Some(1421), Some(9)]);
        assert_eq!((books[0].openings.as_str(), books[0].judged), ("64 129", Some(Judged::Bad)));
        let dropped = run(&state, [CaseAct::DropBook(0), CaseAct::DropBook(7)]);
        assert_eq!(dropped.job.case.books[0].counter, Some(9));
        assert_eq!(update(&dropped, Action::Undo).0.job, state.job);
        let refused = run(&state, [openings(5)]);
        assert_eq!((refused.said.as_deref(), &refused.job), (Some("There is no such book."), &state.job));
        let refused = run(&state, [CaseAct::Note(0, Find::Counter(Some(0)))]);
        assert!(refused.said.is_some_and(|s| s.contains("Counter numbers")));
    }

    #[test]
    fn the_log_and_what_is_left_over_stay_in_order() {
        let stop = |counter| CaseAct::Log(Logged { counter, what: Happened::Stop });
        let jam = CaseAct::Log(Logged { counter: 5, what: Happened::Jam { station: 2 } });
        let left = |station, over| CaseAct::Left(station, over);
        let state = run(
            &State::default(),
            [
                stop(9),
                stop(5),
                jam,
                left(9, Some(-80)),
                left(5, Some(3)),
                left(5, Some(80)),
                left(7, Some(1)),
                left(7, None),
            ],
        );
        let case = &state.job.case;
        assert_eq!(case.log.iter().map(|l| l.counter).collect::<Vec<_>>(), [5, 5, 9]);
        assert_eq!(case.log[1].what, Happened::Jam { station: 2 });
        assert_eq!(case.left, [Left { station: 5, over: 80 }, Left { station: 9, over: -80 }]);
        assert_eq!(run(&state, [CaseAct::Unlog(0)]).job.case.log.len(), 2);
        let line = run(&state, [CaseAct::Ends(Some((1, 2000))), CaseAct::Behind(Some(2))]).job.case.line.clone();
        assert_eq!((line.first, line.last, line.ahead_of(18), line.ahead_of(1)), (1, 2000, Some(2), Some(19)));
    }

    #[test]
    fn the_gathered_book_is_taken_as_its_backs_are_seen() {
        let state = update(&State::default(), Action::Spoil(Spoil::LeaveOut(7))).0;
        let state = run(&state, [CaseAct::AddBook, CaseAct::Gathered(0)]);
        let [book] = state.job.case.books.as_slice() else { panic!("one book: {:?}", state.job.case) };
        assert!(matches!(&book.spine, Spine::Marks(backs) if backs.len() == 17));
    }

    #[test]
    fn odds_are_stated_otherwise_and_as_stated_again() {
        let odds = |n: Option<f64>| CaseAct::Odds("missing".into(), n);
        let state = run(&State::default(), [odds(Some(3.0)), odds(Some(4.0))]);
        assert_eq!(state.job.odds, [("missing".to_owned(), 4.0)]);
        assert!(run(&state, [odds(None)]).job.odds.is_empty());
        assert!(run(&state, [CaseAct::OddsAsStated]).job.odds.is_empty());
        assert!(run(&state, [odds(Some(f64::NAN))]).said.is_some());
    }
}
