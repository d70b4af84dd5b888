//! A line taken apart: which request it is, and its fields.

use super::MAX_LINE;
use super::error::Refusal;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};

/// Splits a line into the word at `ask` and the fields beside it.
pub(super) fn split(line: &str) -> Result<(String, Map<String, Value>), Refusal> {
    if line.len() > MAX_LINE {
        return Err(Refusal::too_long());
    }
    let value: Value =
        serde_json::from_str(line).map_err(|why| Refusal::new("", format!("this line is not JSON: {why}")))?;
    let Value::Object(mut fields) = value else {
        return Err(Refusal::new("", "a request is an object, as in {\"ask\": \"landing\", …}"));
    };
    match fields.remove("ask") {
        Some(Value::String(ask)) => Ok((ask, fields)),
        Some(_) => Err(Refusal::new("ask", "the name of a request is a word in quotation marks")),
        None => Err(Refusal::new("ask", "this field is missing; it names the request")),
    }
}

/// Reads the fields of a request. A field that is missing, of the wrong shape or not known is refused with its path.
pub(super) fn read<T: DeserializeOwned>(fields: Map<String, Value>) -> Result<T, Refusal> {
    serde_path_to_error::deserialize(Value::Object(fields)).map_err(|why| Refusal::shape(&why))
}
