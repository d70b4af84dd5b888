//! What is seen as a link, and a link as what is seen.

use super::job::{Job, MAX_SECTIONS};
use super::look::{Look, Pane};
use super::sections::measure_of_leaf;
use super::sheet::Sheet as Worked;
use crate::fold::{Course, courses};
use crate::gather::Stack;
use crate::link::{Beside, Scene, Sheet};
use crate::units::between;

/// The scene of a sheet as a person looks at it. `oblong` says whether its pages lie.
#[must_use]
pub fn scene_of(course: &Course, oblong: bool, look: &Look) -> Scene {
    Scene {
        sheet: Sheet::of(course, oblong),
        piece: look.piece,
        place: look.place.max(1),
        // A cast of a float is bounded by the type, and 0 for what is no number.
        at: (between(look.at, 0.0, 10_000.0) * 100.0).round() as u32,
        lay: look.lay,
        beside: match look.pane {
            Pane::Sides => Beside::Sides,
            Pane::Inside(crease, at) => Beside::Inside(crease, at),
            Pane::Paper => Beside::Paper,
            Pane::Trim => Beside::Trim,
            Pane::Folder => Beside::Folder,
        },
        through: look.through,
        figures: true,
        followed: look.followed,
    }
}

/// Where a person stands who opens a scene: at the bench, before its sheet.
#[must_use]
pub fn look_at_scene(scene: &Scene) -> Look {
    Look {
        place: scene.place,
        piece: scene.piece,
        followed: scene.followed,
        at: f64::from(scene.at) / 100.0,
        lay: scene.lay,
        pane: match scene.beside {
            Beside::Sides => Pane::Sides,
            Beside::Inside(crease, at) => Pane::Inside(crease, at),
            Beside::Paper => Pane::Paper,
            Beside::Trim => Pane::Trim,
            Beside::Folder => Pane::Folder,
        },
        through: scene.through,
        ..Look::default()
    }
}

/// The title of the book that a scene is shown in.
const TITLE: &str = "A sheet from a link";

/// What is shown to a person who opens a scene: a book around its sheet, and where they stand in it. Their own job has no
/// part in it. `None` if the sheet is not at hand.
///
/// The book is the invented one that everybody begins with, made longer if the section of the scene needs it.
#[must_use]
pub fn job_of_scene(scene: &Scene) -> Option<(Job, Look)> {
    let course = scene.sheet.course()?;
    let named = |name: &str| courses().into_iter().find(|n| n.name == name);
    let lies = matches!(&scene.sheet, Sheet::AtHand(name) if named(name).is_some_and(|n| n.oblong));
    let mut sheet = Worked::usual(course);
    let (width, height) = sheet.leaf();
    if lies && width < height {
        sheet.measure = measure_of_leaf(&sheet.course, (height, width));
    }
    let usual = Job::default();
    let sections = usual.sections.max(scene.place).min(MAX_SECTIONS);
    let mut job = Job { title: TITLE.into(), sections, stack: Stack::good(sections), ..usual };
    job.paper.fit(sheet.leaf());
    job.sheet = sheet;
    Some((job, look_at_scene(scene)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{Action, State, read_saved, update_at_once, write_saved};
    use crate::fold::{Crease, Fold, Lands, Lay, Part, Steps};
    use crate::link::Link;

    fn opened(scene: &Scene) -> State {
        let (job, look) = job_of_scene(scene).unwrap();
        // Any job that is shown is one that can be kept: it may be taken for one's own.
        assert_eq!(read_saved(&write_saved(&job, &look)).map(|saved| saved.job), Ok(job.clone()));
        update_at_once(&State::default(), Action::Opened { job: Box::new(job), look, by_hand: false }).unwrap().0
    }

    #[test]
    fn a_scene_of_any_sheet_at_hand_is_shown_as_it_was_seen() {
        for named in courses() {
            let scene = Scene { at: 125, place: 2, ..Scene::flat(Sheet::of(&named.course, named.oblong)) };
            let state = opened(&scene);
            assert_eq!(state.sheet().trade_name(), Some(named.name));
            assert_eq!(scene_of(&state.sheet().course, named.oblong, &state.look), scene, "{}", named.name);
            assert!(state.bench().is_some(), "{}", named.name);
        }
    }

    #[test]
    fn a_section_far_back_lengthens_the_book_and_an_unfinished_sheet_lies_as_far_as_it_goes() {
        let sixteen = Scene::flat(Sheet::AtHand("Sixteen, three folds"));
        assert_eq!(opened(&Scene { place: 60, ..sixteen.clone() }).look.place, 60);
        assert_eq!(opened(&Scene { place: 400, followed: Some(999), ..sixteen }).look.place, MAX_SECTIONS);
        // A narrow strip of very many panels, folded once; a sheet whose second fold can't be made.
        for (rows, columns, after) in [(1, 4_000, 2_000), (2, 4, 9)] {
            let fold = Fold::new(after, Part::Left, Lands::Over);
            let steps =
                Steps::piece(vec![Fold::new(columns / 2, Part::Left, Lands::Over), fold], crate::fold::Direction::Up);
            let mut course = courses().swap_remove(0).course;
            (course.rows, course.columns, course.steps) = (rows, columns, steps);
            let state = opened(&Scene { at: 100, ..Scene::flat(Sheet::Own(course)) });
            assert!(state.bench().is_some());
        }
    }

    #[test]
    fn who_opens_the_link_stands_where_it_was_made() {
        let lay = Lay { over: true, quarters: 3 };
        let panes = [Pane::Sides, Pane::Inside(Crease::Horizontal, 1), Pane::Paper, Pane::Trim, Pane::Folder];
        for (named, pane) in courses().into_iter().zip(panes.into_iter().cycle()) {
            let look = Look { place: 3, piece: Some(1), followed: Some(37), at: 2.25, lay, pane, ..Look::default() };
            let scene = scene_of(&named.course, named.oblong, &look);
            assert_eq!(scene.sheet, Sheet::AtHand(named.name));
            let Ok(Link::Scene(read)) = Link::read(&Link::Scene(scene).write().unwrap()) else { panic!() };
            assert_eq!(read.sheet.course(), Some(named.course));
            assert_eq!(look_at_scene(&read), look, "{}", named.name);
        }
    }
}
