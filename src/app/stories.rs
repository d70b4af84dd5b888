//! Wrong books to begin with, for those who have none in hand: what is found, not what was done.

use super::job::Job;
use crate::since::{Fed, Happened, Judged, Left, Line, Logged};
use crate::trace::{Case, Inside, SeenBook, Spine};

/// The fewest sections of a book of which the stories can be told.
const LEAST: u32 = 12;

/// The stories: what is seen, and the case.
#[must_use]
pub fn stories(job: &Job) -> Vec<(&'static str, Case)> {
    let n = job.sections;
    if n < LEAST {
        return Vec::new();
    }
    let page = |section: u32, of: i64| i64::from(job.pages_before(section)) + of;
    let (first, last) = (|s: u32| page(s, 1), |s: u32| page(s + 1, 0));
    let run = |run: String| Spine::Run(run);
    let book =
        |counter: u32, judged: Judged| SeenBook { counter: Some(counter), judged: Some(judged), ..SeenBook::default() };
    let line = Line::of(1, 2_000);
    let sixteen = |pages: [i64; 16]| pages.map(|p| page(5, p).to_string()).join(" ");

    let wrong_pile = Case {
        good_bulk_mm: Some(f64::from(n)),
        books: vec![
            SeenBook {
                spine: run(format!("1-4 9 6-{n}")),
                openings: format!("{} {} | {} {}", last(4), first(9), last(9), first(6)),
                bulk_mm: Some(f64::from(n)),
                count: Some(n),
                ..book(1_421, Judged::Bad)
            },
            book(1_420, Judged::Good),
            book(1_500, Judged::Bad),
            book(1_501, Judged::Good),
        ],
        log: vec![Logged {
            counter: 1_380,
            what: Happened::Reload { station: 5, lift: 80, left: 40, fed: Fed::Bottom },
        }],
        left: vec![Left { station: 5, over: 80 }, Left { station: 9, over: -80 }],
        line: line.clone(),
        ..Case::default()
    };
    let exchanged = Case {
        books: vec![
            SeenBook { spine: run(format!("1-4 6 5 7-{n}")), ..book(1, Judged::Bad) },
            book(1_000, Judged::Bad),
            book(2_000, Judged::Bad),
        ],
        line: line.clone(),
        ..Case::default()
    };
    let inside = |pages: [i64; 16]| Some(Inside { section: 5, pages: sixteen(pages), fore_edge: false });
    let folder = Case {
        books: vec![
            SeenBook {
                spine: run(format!("1-4 _ 6-{n}")),
                inside: inside([3, 4, 1, 2, 7, 8, 5, 6, 11, 12, 9, 10, 15, 16, 13, 14]),
                ..book(640, Judged::Bad)
            },
            book(620, Judged::Good),
            book(621, Judged::Bad),
            book(700, Judged::Bad),
            book(701, Judged::Good),
        ],
        log: vec![Logged { counter: 610, what: Happened::Reload { station: 5, lift: 80, left: 10, fed: Fed::Bottom } }],
        line: line.clone(),
        ..Case::default()
    };
    let press = Case {
        books: vec![SeenBook {
            spine: run(format!("1-{n}")),
            inside: inside([1, 6, 7, 4, 5, 2, 3, 8, 9, 14, 15, 12, 13, 10, 11, 16]),
            count: Some(n),
            ..book(900, Judged::Bad)
        }],
        line: line.clone(),
        ..Case::default()
    };
    let divided = Case {
        books: vec![
            SeenBook { spine: run(format!("7-{n} 1-6")), count: Some(n), ..book(1_204, Judged::Bad) },
            book(1_203, Judged::Good),
            book(1_600, Judged::Bad),
            book(2_000, Judged::Bad),
        ],
        line,
        ..Case::default()
    };
    let mut stories = vec![
        ("A block of books jumps, and two piles do not come out", wrong_pile),
        ("Two marks cross in every book", exchanged),
        ("A back is blank in some books", folder),
        ("The marks are right and the pages are not", press),
        ("From one book on, all begin in the middle", divided),
    ];
    if job.pages_of(5) != 16 {
        // Those are told with the pages of a sixteen.
        stories.drain(2..4);
    }
    stories
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::read_traced;

    /// From the finds to the first cause, through the protocol.
    #[test]
    fn every_story_is_traced_to_what_was_done() {
        let job = Job::default();
        let causes = [
            "Station 5 was loaded with a lift of section 9.",
            "Stations 5 and 6 were set up in each other's place.",
            "In section 5, the sheet was turned over left to right before folding.",
            "In section 5, the second side was printed half turned round.",
            "The sections were parted into books behind section 6",
        ];
        for ((name, case), cause) in stories(&job).into_iter().zip(causes) {
            let line = Job { case, ..job.clone() }.trace_question().unwrap();
            let told = read_traced(&crate::ask::answer(&line)).unwrap();
            let first = &told.causes[0];
            assert!(first.title.starts_with(cause) && first.fits, "{name}: {}", first.title);
            assert_eq!(told.questions.len(), 4);
            assert_eq!(told.contradictions, [], "{name}");
            let inside = cause.starts_with("In section");
            assert_eq!(first.inside.as_ref().map(|i| (i.section, i.first_page)), inside.then_some((5, 65)), "{name}");
        }
    }

    /// The job says how its sections are signed: without J, the tenth letter is K.
    #[test]
    fn a_spine_typed_as_signatures_is_read_as_the_job_signs() {
        let job = Job::default();
        let book = SeenBook { spine: Spine::Run("A-D K F-S".into()), ..SeenBook::default() };
        let case = Case { books: vec![book], ..Case::default() };
        let told = read_traced(&crate::ask::answer(&Job { case, ..job }.trace_question().unwrap())).unwrap();
        assert!(told.causes[0].title.contains("section 10"), "{}", told.causes[0].title);
    }

    #[test]
    fn what_is_no_answer_is_no_case() {
        assert!(read_traced("{").unwrap_err().contains("cut off"));
        assert!(read_traced(r#"{"ok":{}}"#).unwrap_err().contains("extent"));
        assert_eq!(read_traced(r#"{"error":{"at":"case","says":"So."}}"#), Err("So.".into()));
    }

    #[test]
    fn every_story_can_be_kept() {
        let job = Job::default();
        assert_eq!(stories(&job).len(), 5);
        for (name, case) in stories(&job) {
            assert!(case.check(job.sections).is_ok(), "{name}");
        }
        assert!(stories(&Job { sections: 11, ..job }).is_empty());
    }
}
