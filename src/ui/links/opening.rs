//! What is to be done with a link that was read.

use crate::app::{Action, Job, Look, State, job_of_scene, read_saved, update_at_once};
use crate::link::{Exercise, Link};
use crate::practice::{Kind, LEVELS};
use std::rc::Rc;

/// What a link asks for.
pub(super) enum Opening {
    /// To be looked at: a scene.
    Scene(Rc<State>),
    /// To be asked about: a job.
    Job {
        /// The job.
        job: Rc<Job>,
        /// Where its maker stood.
        look: Look,
    },
    /// To be set: an exercise.
    Exercise(Exercise),
}

/// What a link asks for.
///
/// # Errors
/// Why it is not opened, in whole sentences.
pub(super) fn read(text: &str) -> Result<Opening, String> {
    match Link::read(text).map_err(|why| why.to_string())? {
        Link::Scene(scene) => match job_of_scene(&scene) {
            Some((job, look)) => Ok(Opening::Scene(state_of(&job, &look))),
            None => Err("This link is whole, but its sheet is not at hand here.".into()),
        },
        Link::Job(text) => match read_saved(&text) {
            Ok(saved) => Ok(Opening::Job { job: Rc::new(saved.job), look: saved.look }),
            Err(why) => Err(format!("This link is whole, but its job can’t be opened: {why}.")),
        },
        Link::Exercise(exercise) => match Kind::of_number(exercise.kind) {
            Some(_) if (1..=LEVELS).contains(&exercise.level) => Ok(Opening::Exercise(exercise)),
            _ => Err("This link is whole, but this program knows no such exercise. A newer one may.".into()),
        },
    }
}

/// Someone who stands before a job as its maker did.
pub(super) fn state_of(job: &Job, look: &Look) -> Rc<State> {
    let opened = Action::Opened { job: Box::new(job.clone()), look: look.clone(), by_hand: false };
    Rc::new(update_at_once(&State::default(), opened).map(|(state, _)| state).unwrap_or_default())
}
