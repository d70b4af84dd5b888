//! Reading a JSON value part by part, so that a refusal says where in the file it is.

use crate::json::Json;

/// Why a part is refused: its path, and what is wrong there.
pub type Refused = (String, String);

/// A value and the path to it.
#[derive(Clone, Debug)]
pub struct Part<'a> {
    value: &'a Json,
    path: String,
}

impl<'a> Part<'a> {
    /// The whole value.
    pub const fn whole(value: &'a Json) -> Self {
        Self { value, path: String::new() }
    }

    /// A refusal of this part.
    pub fn refuse<T>(&self, says: &str) -> Result<T, Refused> {
        Err((self.path.clone(), says.to_owned()))
    }

    /// The value itself.
    pub const fn value(&self) -> &'a Json {
        self.value
    }

    /// Checks that this is an object that has no other members than these.
    pub fn only(&self, names: &[&str]) -> Result<(), Refused> {
        let Json::Object(members) = self.value else { return self.refuse("must be an object") };
        match members.iter().find(|(name, _)| !names.contains(&name.as_str())) {
            Some((name, _)) => self.refuse(&format!("has a member “{name}” that no form knows")),
            None => Ok(()),
        }
    }

    /// A member that must be there.
    pub fn member(&self, name: &str) -> Result<Self, Refused> {
        match self.maybe(name) {
            Some(part) => Ok(part),
            None => self.refuse(&format!("lacks “{name}”")),
        }
    }

    /// A member that may be missing.
    pub fn maybe(&self, name: &str) -> Option<Self> {
        let value = self.value.get(name)?;
        let path = if self.path.is_empty() { name.to_owned() } else { format!("{}.{name}", self.path) };
        Some(Self { value, path })
    }

    /// The parts of a list.
    pub fn list(&self) -> Result<Vec<Self>, Refused> {
        let Json::List(values) = self.value else { return self.refuse("must be a list") };
        let part = |(i, value)| Self { value, path: format!("{}[{i}]", self.path) };
        Ok(values.iter().enumerate().map(part).collect())
    }

    /// A number.
    pub fn number(&self) -> Result<f64, Refused> {
        match self.value {
            Json::Number(n) if n.is_finite() => Ok(*n),
            _ => self.refuse("must be a number"),
        }
    }

    /// A whole number, not negative.
    pub fn whole_number(&self) -> Result<u32, Refused> {
        match self.value {
            Json::Number(n) if n.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(n) => Ok(*n as u32),
            _ => self.refuse("must be a whole number that is not negative"),
        }
    }

    /// True or false.
    pub fn truth(&self) -> Result<bool, Refused> {
        match self.value {
            Json::Bool(b) => Ok(*b),
            _ => self.refuse("must be true or false"),
        }
    }

    /// A text.
    pub fn text(&self) -> Result<&'a str, Refused> {
        match self.value {
            Json::Text(text) => Ok(text),
            _ => self.refuse("must be a text"),
        }
    }

    /// One of some words, each of which stands for a value.
    pub fn word<T: Copy>(&self, words: &[(&str, T)]) -> Result<T, Refused> {
        let found = self.text().ok().and_then(|text| words.iter().find(|(word, _)| *word == text));
        match found {
            Some((_, value)) => Ok(*value),
            None => {
                let words: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
                self.refuse(&format!("must be one of: {}", words.join(", ")))
            }
        }
    }

    /// Whether the value is `null`.
    pub const fn is_null(&self) -> bool {
        matches!(self.value, Json::Null)
    }
}

/// The word for a value, from the same list that reads it.
pub fn word_for<T: PartialEq>(words: &[(&'static str, T)], value: &T) -> Json {
    words.iter().find(|(_, v)| v == value).map_or(Json::Null, |(word, _)| (*word).into())
}
