//! A link to a whole job: the saved text, packed.
//!
//! The text is that of the job file, whatever its form, and comes out as it went in: what it says and whether it can be is for
//! the reader of job files. JSON in the browser's own deflate is 362 signs long for a job of 1,242 bytes; serde with the
//! crate `postcard` would be shorter, but would bind links to the fields that a job had when they were written.
//! Here a usual job is below 100.

use super::exercise::number;
use super::pack::{pack, unpack};
use super::primer;
use super::refused::{Refused, holds};
use crate::json::Json;

/// The longest text of a job that goes into a link, in bytes.
pub const MOST_TEXT: usize = 32 * 1024;

/// The body: which primer, the length of the text, and the text packed.
pub(super) fn body(text: &str) -> Option<Vec<u8>> {
    if text.len() > MOST_TEXT {
        return None;
    }
    let all = primer::models().iter().map(|(number, model)| {
        let mut body = vec![*number];
        let mut left = text.len();
        while left >= 128 {
            body.push((left & 127) as u8 | 128);
            left >>= 7;
        }
        body.push(left as u8);
        body.extend(pack(&mut model.clone(), text.as_bytes()));
        body
    });
    all.min_by_key(Vec::len)
}

/// The text of a body.
pub(super) fn read(body: &[u8]) -> Result<String, Refused> {
    let Some((primer, rest)) = body.split_first() else { return holds("it holds no job.") };
    let Some((_, model)) = primer::models().iter().find(|(number, _)| number == primer) else {
        return holds("its job is packed in a way that this program does not know. A newer one does.");
    };
    let end = rest.iter().position(|b| *b < 128).map_or(rest.len(), |at| at + 1);
    let (length, packed) = rest.split_at_checked(end).unwrap_or_default();
    let length = number(length).and_then(|n| usize::try_from(n).ok()).filter(|n| *n <= MOST_TEXT);
    let Some(length) = length else { return holds("its job is larger than a job in a link can be.") };
    match String::from_utf8(unpack(&mut model.clone(), packed, length)) {
        Ok(text) => Ok(text),
        Err(_) => holds("its job is no text."),
    }
}

/// What the link holds, in a sentence.
pub(super) fn says(text: &str) -> String {
    let json = Json::parse(text).ok();
    let job = json.as_ref().and_then(|j| j.get("job"));
    match job.and_then(|j| j.get("title")) {
        Some(Json::Text(title)) if !title.is_empty() => {
            // No title is longer than 80 characters; what only looks like a job may have any.
            let title: String = title.chars().take(80).collect();
            format!("It holds the job “{title}” as it is now, with all that was made of it.")
        }
        _ => "It holds a job as it is now, with all that was made of it.".into(),
    }
}
