//! `read_link`: what a link holds, or why it is not opened.

use super::error::Refusal;
use super::link_scene::AskedScene;
use super::write_link::AskedExercise;
use crate::link::Link;
use serde::{Deserialize, Serialize};

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    link: String,
}

/// The answer: one of the three, and what it is in words.
#[derive(Serialize)]
pub(super) struct Told {
    #[serde(skip_serializing_if = "Option::is_none")]
    scene: Option<AskedScene>,
    #[serde(skip_serializing_if = "Option::is_none")]
    exercise: Option<AskedExercise>,
    #[serde(skip_serializing_if = "Option::is_none")]
    job: Option<String>,
    says: String,
}

pub(super) fn answer(ask: &Ask) -> Result<Told, Refusal> {
    let link = Link::read(&ask.link).map_err(|why| Refusal::new("link", why.to_string()))?;
    let told = Told { scene: None, exercise: None, job: None, says: link.says() };
    Ok(match link {
        Link::Scene(scene) => Told { scene: Some(AskedScene::of(&scene)), ..told },
        Link::Exercise(exercise) => Told { exercise: Some(exercise.into()), ..told },
        Link::Job(text) => Told { job: Some(text), ..told },
    })
}
