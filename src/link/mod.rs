//! Links: a scene, an exercise or a whole job in the part of an address behind the `#`.
//!
//! ```text
//! Scene ──┐                                    ┌── framed ── #1s…
//! Exercise┼── body, in bytes ── signs, checks ─┤
//! Job ────┘                                    └── qr ── a picture to point a phone at
//! ```
//!
//! - [`Link::write`] and [`Link::read`] are all there is to it. What is behind the `#` never leaves the browser, so no link
//!   tells a server anything.
//! - `frame.rs` has the form: version, kind, length and two checks. Every changed, lost or exchanged sign is found, and a
//!   link that is not whole is refused in words and not opened. What is read in version 1 is read so for ever;
//!   `tests/link.rs` holds links from each version.
//! - `scene.rs` writes bits (`bits.rs`, `course.rs`): a course at hand is a number (`keys.rs`), any other goes along.
//! - `job.rs` takes the saved text of a job as it is, whatever its form, and packs it (`pack.rs`) as what differs from jobs it
//!   has seen (`primer.rs`). So a link to a job is read as long as a job file of its form is.
//! - `exercise.rs` holds no answers.

mod bits;
mod course;
mod crc;
mod exercise;
mod frame;
mod job;
mod keys;
mod pack;
mod primer;
mod qr;
mod refused;
mod scene;
mod signs;

pub use exercise::{Exercise, MOST_LEVELS};
pub use job::MOST_TEXT;
pub use qr::{NoQr, QUIET_ZONE, Qr};
pub use refused::Refused;
pub use scene::{Beside, Scene, Sheet};
pub(crate) use signs::split as six_bits;

use frame::{Framed, framed, unframed};
use refused::holds;

/// What a link holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Link {
    /// What lies on the bench.
    Scene(Scene),
    /// An exercise, without its answer.
    Exercise(Exercise),
    /// A job: the text of a job file.
    Job(String),
}

impl Link {
    /// Writes the link, beginning with `#`.
    ///
    /// # Errors
    /// [`Refused::NotWritten`] if it holds what no link can: a sheet that can't be, a job larger than [`MOST_TEXT`].
    pub fn write(&self) -> Result<String, Refused> {
        let (kind, body) = match self {
            Self::Scene(scene) => ('s', scene.body()),
            Self::Exercise(exercise) => ('e', Some(exercise.body())),
            Self::Job(text) => ('j', job::body(text)),
        };
        let Some(signs) = body.and_then(|body| framed(kind, &body)) else {
            return not_written("this is more than goes into a link. Hand it on as a file.");
        };
        let link = format!("#{signs}");
        // What can't be read again is not given out.
        match Self::read(&link) {
            Ok(read) if read == *self => Ok(link),
            Ok(_) => not_written("it would not be read as it is."),
            Err(Refused::Holds(why)) => not_written(&why),
            Err(why) => Err(why),
        }
    }

    /// Reads a link: an address with `#`, or what stands behind it, with or without the `#`.
    ///
    /// # Errors
    /// Why it is not opened, in words.
    pub fn read(text: &str) -> Result<Self, Refused> {
        let Framed { kind, body } = unframed(text)?;
        match kind {
            's' => Scene::read(&body).map(Self::Scene),
            'e' => Exercise::read(&body).map(Self::Exercise),
            'j' => job::read(&body).map(Self::Job),
            _ => holds("this program does not know what it is."),
        }
    }

    /// What it holds, in a sentence or two, as it stands beside the link.
    #[must_use]
    pub fn says(&self) -> String {
        match self {
            Self::Scene(scene) => scene.says(),
            Self::Exercise(exercise) => exercise.says(),
            Self::Job(text) => job::says(text),
        }
    }
}

fn not_written(says: &str) -> Result<String, Refused> {
    Err(Refused::NotWritten(says.into()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(ProptestConfig { cases: 512, ..ProptestConfig::default() })]

        /// A link whose checks fit, whatever it holds: opened or refused, never more. What is opened is written as it was.
        #[test]
        fn any_body_is_read_or_refused(kind in "[a-z]", body in proptest::collection::vec(any::<u8>(), 0..60)) {
            let kind = kind.chars().next().unwrap();
            let link = framed(kind, &body).unwrap();
            if let Ok(read) = Link::read(&link) {
                prop_assert!(!read.says().is_empty());
                if kind == 'j' {
                    return Ok(());
                }
                prop_assert_eq!(read.write().unwrap(), format!("#{link}"));
            }
        }

        #[test]
        fn a_job_whose_text_was_changed_is_read_or_refused(
            at in any::<prop::sample::Index>(), by in 1_u8.., cut in any::<bool>(),
        ) {
            let text = r#"{"backmark":3,"job":{"title":"An invented book","sections":18}}"#;
            let mut body = job::body(text).unwrap();
            let at = at.index(body.len());
            body[at] ^= by;
            if cut {
                body.truncate(at);
            }
            let _ = Link::read(&framed('j', &body).unwrap());
        }
    }

    #[test]
    fn what_no_link_holds_is_not_written() {
        let says = |link: Link| link.write().unwrap_err().to_string();
        assert!(says(Link::Job("x".repeat(MOST_TEXT + 1))).contains("Hand it on as a file"));
        assert!(says(Link::Exercise(Exercise { kind: 1, level: 0, seed: 1 })).contains("levels 1 to 9"));
        let scene = Scene::flat(Sheet::AtHand("No such sheet"));
        assert!(says(Link::Scene(scene.clone())).starts_with("No link can be made"));
        let course = crate::fold::Course { rows: 4_000, columns: 4_000, ..courses_first() };
        assert!(says(Link::Scene(Scene { sheet: Sheet::Own(course), ..scene })).starts_with("No link can be made"));
    }

    fn courses_first() -> crate::fold::Course {
        crate::fold::courses().swap_remove(0).course
    }
}
