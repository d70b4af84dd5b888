//! What is seen as a link, and a link as what is seen.

use super::look::{Look, Pane};
use crate::fold::Course;
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::{Crease, Lay, courses};
    use crate::link::Link;

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
