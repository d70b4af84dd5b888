//! A section of the job as a question about it says what it is made of.

use super::form::scheme_json;
use super::form_sheet::course_json;
use super::job::{Job, MadeUp, SectionCase, SectionEvidence};
use crate::fold::{Course, Fold, Scheme};
use crate::gather::stack::What;
use crate::json::Json;

/// What a section is made of.
#[derive(Clone, Debug, PartialEq)]
pub struct SectionOf {
    /// How its outermost piece is folded.
    pub scheme: Scheme,
    /// The course of its sheet, and which of the sheet's sections it is, from 1; `None` where it is folded whole.
    pub sheet: Option<(Course, u32)>,
    /// Its pages.
    pub pages: u32,
    /// How the piece is folded that is laid into it, if there is one.
    pub inset: Option<Scheme>,
}

impl From<Scheme> for SectionOf {
    fn from(scheme: Scheme) -> Self {
        Self { pages: scheme.pages(), scheme, sheet: None, inset: None }
    }
}

impl Job {
    /// What a section is made of; `None` for one that was laid together from parts of the sheet, and where the sheet is
    /// unfinished.
    #[must_use]
    pub fn section_of(&self, section: u32) -> Option<SectionOf> {
        let scheme = self.scheme_of(section)?;
        let (sheet, at) = (self.sheet_of(section), self.on_sheet(section));
        if sheet.is_whole() {
            return Some(scheme.into());
        }
        let of = Some((sheet.course.clone(), at as u32 + 1));
        Some(SectionOf { scheme, sheet: of, pages: self.pages_of(section), inset: sheet.inset(at) })
    }

    /// The folds that may be made the other way in the section at a place of the stack: those of its outermost piece. One
    /// of another book is taken for the first section of a sheet.
    #[must_use]
    pub fn folds_at_place(&self, place: u32) -> Vec<Fold> {
        let placed = (place as usize).checked_sub(1).and_then(|at| self.stack.placed().get(at).copied());
        let section = placed.map(|placed| match placed.what {
            What::Ours(section) => section,
            What::Foreign => 1,
        });
        section.and_then(|section| self.scheme_of(section)).map(|scheme| scheme.folds).unwrap_or_default()
    }
}

impl SectionCase {
    /// The pages of the right section.
    #[must_use]
    pub fn pages(&self, of: &SectionOf) -> u32 {
        match &self.made_up {
            None => of.pages,
            Some(made) => of.scheme.pages() + made.inset.as_ref().map_or(0, Scheme::pages),
        }
    }

    /// Whether something belongs inside the outermost piece.
    #[must_use]
    pub fn has_inset(&self, of: &SectionOf) -> bool {
        self.made_up.as_ref().map_or(&of.inset, |made| &made.inset).is_some()
    }

    /// The question what made this section, which should begin with page `first`; `None` while nothing was found.
    #[must_use]
    pub fn question(&self, of: &SectionOf, first: u32) -> Option<String> {
        let mut members = vec![("ask".to_owned(), "tell_section".into()), ("first_page".to_owned(), first.into())];
        match &self.evidence {
            SectionEvidence::Typed(text) if text.trim().is_empty() => return None,
            SectionEvidence::Typed(text) => {
                members.push(("typed".to_owned(), text.as_str().into()));
                members.push(("fold_at".to_owned(), if self.fore_edge { "fore_edge" } else { "spine" }.into()));
            }
            SectionEvidence::Made(causes) => members.push(("made".to_owned(), causes.clone())),
        }
        match (&self.made_up, &of.sheet) {
            (None, Some((course, section))) => {
                members.push(("sheet".to_owned(), course_json(course)));
                members.push(("section".to_owned(), (*section).into()));
            }
            (made_up, _) => {
                let whole = MadeUp { inset: None, lanes: 1 };
                let MadeUp { inset, lanes } = made_up.as_ref().unwrap_or(&whole);
                members.push(("scheme".to_owned(), scheme_json(&of.scheme)));
                members.extend(inset.as_ref().map(|inset| ("inset".to_owned(), scheme_json(inset))));
                members.push(("lanes".to_owned(), (*lanes).into()));
            }
        }
        Some(Json::Object(members).write())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{Action, Sheet, State, read_section_told, update};
    use crate::fold::{Crease, Direction, End, Lands, Part, Parted, Slit, Steps};

    fn job(course: Course) -> Job {
        Job { sheet: Sheet::usual(course), ..Job::default() }
    }

    /// A sixteen with the off-cut of its sheet laid in.
    fn nest() -> Job {
        let over = |after, moves| Fold::new(after, moves, Lands::Over);
        let first = Steps::piece(vec![over(2, Part::Right), over(1, Part::Top), over(1, Part::Right)], Direction::Up);
        let second = Steps::piece(vec![over(1, Part::Top), over(1, Part::Right)], Direction::Up);
        let slit = Slit { crease: Crease::Vertical, after: 4, then: Parted::Apart { first, second } };
        let steps = Steps { folds: vec![], end: End::Slit(Box::new(slit)) };
        let course =
            Course { rows: 2, columns: 6, steps, copies: vec![vec![vec![0, 1]]], ..Job::default().sheet.course };
        job(course)
    }

    #[test]
    fn the_section_at_a_place_says_which_folds_it_has() {
        let mut job = nest();
        job.sheet.course.copies = vec![vec![vec![0], vec![1]]];
        let folds = |job: &Job, place| job.folds_at_place(place).len();
        assert_eq!([1, 2, 3, 0, 99].map(|place| folds(&job, place)), [3, 2, 3, 0, 0]);
        job.stack.exchange(1, 2).unwrap();
        job.stack.foreign(4).unwrap();
        assert_eq!([1, 2, 4].map(|place| folds(&job, place)), [2, 3, 3]);
    }

    /// Whatever can be made of a section of a slit sheet is acted out and told, with a picture, by the name it has here.
    #[test]
    fn whatever_came_with_the_sheet_can_be_made() {
        let over = |after, moves| Fold::new(after, moves, Lands::Over);
        let under = |after, moves| Fold::new(after, moves, Lands::Under);
        let lanes = job(Course { copies: vec![vec![vec![0], vec![1]]], ..nest().sheet.course });
        let half = Slit {
            crease: Crease::Vertical,
            after: 2,
            then: Parted::Apart {
                first: Steps::piece(vec![over(1, Part::Top), over(1, Part::Right)], Direction::Up),
                second: Steps::piece(vec![under(1, Part::Top), under(1, Part::Left)], Direction::Up),
            },
        };
        let steps = Steps { folds: vec![], end: End::Slit(Box::new(half)) };
        let copies = vec![vec![vec![0]], vec![vec![1]]];
        let half = job(Course { rows: 2, columns: 4, steps, copies, ..nest().sheet.course });
        for (job, many) in [(nest(), 11), (lanes, 1), (half, 2), (Job::default(), 0)] {
            let of = job.section_of(1).unwrap();
            let all = SectionCase::default().strangers(&of, 1);
            assert_eq!(all.len(), many, "{all:?}");
            for (name, cause) in all {
                let made = Json::List(vec![cause]);
                let case = SectionCase { evidence: SectionEvidence::Made(made.clone()), ..SectionCase::default() };
                let told = read_section_told(&crate::ask::answer(&case.question(&of, 1).unwrap())).unwrap();
                let title = told.title_of(&made).unwrap();
                assert!(name.starts_with(title), "{name}, {title}");
                let first = &told.causes[0];
                assert!(first.nest.is_some() || first.way.is_some(), "{name}");
                assert_eq!(first.nest.is_some(), told.nest.is_some());
            }
        }
    }

    #[test]
    fn a_piece_folded_by_hand_is_read_in_its_nest() {
        let run = |state: &State, action| update(state, action).0;
        let away = |fold: Fold| Fold { lands: Lands::Under, ..fold };
        let read = |piece: u32| {
            let state = State { job: std::rc::Rc::new(nest()), ..State::default() };
            let state = run(&state, Action::Piece(Some(piece)));
            let mut folds = state.scheme().folds;
            folds[0] = away(folds[0]);
            let state = run(&run(&state, Action::Try { folds, at: 2.0 }), Action::ReadTried);
            let case = state.job.section_case.clone();
            let told = crate::ask::answer(&case.question(&state.job.section_of(1).unwrap(), 1).unwrap());
            let SectionEvidence::Typed(text) = case.evidence else { panic!("{case:?}") };
            (text, read_section_told(&told).unwrap().causes[0].title.clone())
        };
        // Fold 1 the other way puts every two leaves in each other's place.
        let text = "1 2 3 4 5 6 7 8 11 12 9 10 15 16 13 14 17 18 19 20 21 22 23 24";
        assert_eq!(read(1), (text.into(), "On the inset, fold 1 was made the other way.".into()));
        let text = "3 4 1 2 7 8 5 6 9 10 11 12 13 14 15 16 19 20 17 18 23 24 21 22";
        assert_eq!(read(0), (text.into(), "On the outer sheet, fold 1 was made the other way.".into()));
    }

    #[test]
    fn the_sheet_says_what_a_section_is_made_of_unless_a_person_does() {
        let job = nest();
        let of = job.section_of(2).unwrap();
        let evidence = SectionEvidence::Typed("25-32 41-48".into());
        let case = SectionCase { evidence, ..SectionCase::default() };
        assert_eq!((case.pages(&of), case.has_inset(&of)), (24, true));
        let told =
            |case: &SectionCase| read_section_told(&crate::ask::answer(&case.question(&of, 25).unwrap())).unwrap();
        let by_sheet = told(&case);
        assert_eq!(by_sheet.causes[0].title, "The inset was left out.");
        let (right, done) = (by_sheet.nest.unwrap(), by_sheet.causes[0].nest.clone().unwrap());
        assert_eq!((right.leaves.len(), done.leaves.len()), (12, 8));

        let alone = SectionCase { made_up: Some(MadeUp { inset: None, lanes: 2 }), ..case };
        assert_eq!((alone.pages(&of), alone.has_inset(&of)), (16, false));
        assert_eq!(told(&alone).due, (25..=40).collect::<Vec<_>>());
    }
}
