//! `write_link`: a link to a scene, an exercise or a job, and its QR code.

use super::error::Refusal;
use super::link_scene::AskedScene;
use crate::link::{Exercise, Link, Qr};
use serde::{Deserialize, Serialize};

/// The longest address that is put before a link, in bytes; a bound of this program.
const MOST_ADDRESS: usize = 500;

/// The request: one of the three.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    scene: Option<AskedScene>,
    exercise: Option<AskedExercise>,
    job: Option<String>,
    #[serde(default)]
    address: String,
}

/// An exercise as it is asked for and told.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AskedExercise {
    kind: u8,
    level: u8,
    seed: u64,
}

impl From<Exercise> for AskedExercise {
    fn from(Exercise { kind, level, seed }: Exercise) -> Self {
        Self { kind, level, seed }
    }
}

/// The answer.
#[derive(Serialize)]
pub(super) struct Written {
    link: String,
    signs: usize,
    says: String,
    qr: Option<QrTold>,
}

/// A QR code as rows of figures, 1 for a dark module.
#[derive(Serialize)]
struct QrTold {
    version: u8,
    modules: u32,
    quiet_zone: u32,
    rows: Vec<String>,
}

pub(super) fn answer(ask: Ask) -> Result<Written, Refusal> {
    if ask.address.len() > MOST_ADDRESS || ask.address.contains('#') {
        return Err(Refusal::new("address", format!("an address has {MOST_ADDRESS} signs at the most and no #")));
    }
    let (at, link) = match (ask.scene, ask.exercise, ask.job) {
        (Some(scene), None, None) => ("scene", Link::Scene(scene.read()?)),
        (None, Some(AskedExercise { kind, level, seed }), None) => {
            ("exercise", Link::Exercise(Exercise { kind, level, seed }))
        }
        (None, None, Some(text)) => ("job", Link::Job(text)),
        _ => return Err(Refusal::new("", "give one of `scene`, `exercise` and `job`")),
    };
    let signs = link.write().map_err(|why| Refusal::new(at, why.to_string()))?;
    let whole = ask.address + &signs;
    let qr = Qr::of(&whole).ok().map(|code| QrTold {
        version: code.version,
        modules: code.modules(),
        quiet_zone: crate::link::QUIET_ZONE,
        rows: code.rows.iter().map(|row| row.iter().map(|dark| if *dark { '1' } else { '0' }).collect()).collect(),
    });
    Ok(Written { signs: whole.chars().count(), link: whole, says: link.says(), qr })
}
