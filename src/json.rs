//! A small JSON value, read and written by hand.
//!
//! The page reads and writes JSON in two places only: the saved job, and its questions to the worker. Doing that with
//! serde_json and derived code took 30 KB of the 200 KB (compressed) that a first visit may load, most of it tables for
//! numbers that no job holds. The worker and scripts, where that does not matter, use serde_json for the ask protocol.

use crate::units::short;

/// A JSON value. Members of an object keep their order.
#[derive(Clone, Debug, PartialEq)]
pub enum Json {
    /// `null`
    Null,
    /// `true` or `false`
    Bool(bool),
    /// A number. Written with at most two decimals.
    Number(f64),
    /// A string.
    Text(String),
    /// An array.
    List(Vec<Self>),
    /// An object.
    Object(Vec<(String, Self)>),
}

/// Where a text stops being JSON. Both count from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotJson {
    /// Line.
    pub line: usize,
    /// Column, in characters.
    pub column: usize,
}

/// Arrays and objects inside each other, at the most. Deeper ones are refused before the stack could overflow.
const DEEPEST: u32 = 64;

impl Json {
    /// An object from its members.
    #[must_use]
    pub fn object<const N: usize>(members: [(&str, Self); N]) -> Self {
        Self::Object(members.into_iter().map(|(name, value)| (name.to_owned(), value)).collect())
    }

    /// A list from an iterator.
    #[must_use]
    pub fn list(values: impl IntoIterator<Item = Self>) -> Self {
        Self::List(values.into_iter().collect())
    }

    /// The member of an object with this name. The last one counts where it stands twice.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Self> {
        match self {
            Self::Object(members) => members.iter().rev().find(|(n, _)| n == name).map(|(_, value)| value),
            _ => None,
        }
    }

    /// Reads a text.
    ///
    /// # Errors
    /// Where it stops being JSON, or nests deeper than 64 levels.
    pub fn parse(text: &str) -> Result<Self, NotJson> {
        let mut reader = Reader { text, at: 0 };
        match reader.value(0).filter(|_| reader.ended()) {
            Some(value) => Ok(value),
            None => Err(reader.here()),
        }
    }

    /// Writes the value without white space.
    #[must_use]
    pub fn write(&self) -> String {
        let mut out = String::new();
        self.write_to(&mut out);
        out
    }

    fn write_to(&self, out: &mut String) {
        match self {
            Self::Null => out.push_str("null"),
            Self::Bool(b) => out.push_str(if *b { "true" } else { "false" }),
            Self::Number(n) => out.push_str(&short(*n)),
            Self::Text(text) => write_text(out, text),
            Self::List(values) => {
                out.push('[');
                for (i, value) in values.iter().enumerate() {
                    if i > 0 {
                        out.push(',');
                    }
                    value.write_to(out);
                }
                out.push(']');
            }
            Self::Object(members) => {
                out.push('{');
                for (i, (name, value)) in members.iter().enumerate() {
                    if i > 0 {
                        out.push(',');
                    }
                    write_text(out, name);
                    out.push(':');
                    value.write_to(out);
                }
                out.push('}');
            }
        }
    }
}

impl From<u32> for Json {
    fn from(n: u32) -> Self {
        Self::Number(n.into())
    }
}

impl From<f64> for Json {
    fn from(n: f64) -> Self {
        Self::Number(n)
    }
}

impl From<bool> for Json {
    fn from(b: bool) -> Self {
        Self::Bool(b)
    }
}

impl From<&str> for Json {
    fn from(text: &str) -> Self {
        Self::Text(text.into())
    }
}

fn write_text(out: &mut String, text: &str) {
    out.push('"');
    for c in text.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push_str("\\n"),
            c if u32::from(c) < 0x20 => {
                let digit = |n: u32| char::from_digit(n, 16).unwrap_or('0');
                out.push_str("\\u00");
                out.extend([digit(u32::from(c) >> 4), digit(u32::from(c) & 15)]);
            }
            c => out.push(c),
        }
    }
    out.push('"');
}

struct Reader<'a> {
    text: &'a str,
    at: usize,
}

impl Reader<'_> {
    fn peek(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    fn space(&mut self) {
        while matches!(self.peek(), Some(b' ' | b'\t' | b'\n' | b'\r')) {
            self.at += 1;
        }
    }

    fn eat(&mut self, byte: u8) -> Option<()> {
        self.space();
        (self.peek() == Some(byte)).then(|| self.at += 1)
    }

    fn word(&mut self, word: &str, value: Json) -> Option<Json> {
        let there = self.text.as_bytes().get(self.at..).is_some_and(|rest| rest.starts_with(word.as_bytes()));
        there.then(|| {
            self.at += word.len();
            value
        })
    }

    fn value(&mut self, depth: u32) -> Option<Json> {
        self.space();
        if depth > DEEPEST {
            return None;
        }
        match self.peek()? {
            b'{' => self.members(depth),
            b'[' => {
                self.at += 1;
                let mut values = Vec::new();
                if self.eat(b']').is_some() {
                    return Some(Json::List(values));
                }
                loop {
                    values.push(self.value(depth + 1)?);
                    if self.eat(b',').is_none() {
                        self.eat(b']')?;
                        return Some(Json::List(values));
                    }
                }
            }
            b'"' => self.string().map(Json::Text),
            b't' => self.word("true", Json::Bool(true)),
            b'f' => self.word("false", Json::Bool(false)),
            b'n' => self.word("null", Json::Null),
            _ => self.number().map(Json::Number),
        }
    }

    fn members(&mut self, depth: u32) -> Option<Json> {
        self.at += 1;
        let mut members = Vec::new();
        if self.eat(b'}').is_some() {
            return Some(Json::Object(members));
        }
        loop {
            self.space();
            let name = self.string()?;
            self.eat(b':')?;
            members.push((name, self.value(depth + 1)?));
            if self.eat(b',').is_none() {
                self.eat(b'}')?;
                return Some(Json::Object(members));
            }
        }
    }

    fn string(&mut self) -> Option<String> {
        if self.peek()? != b'"' {
            return None;
        }
        self.at += 1;
        let mut out = String::new();
        loop {
            let c = self.text.get(self.at..)?.chars().next()?;
            self.at += c.len_utf8();
            match c {
                '"' => return Some(out),
                '\\' => out.push(self.escape()?),
                c if u32::from(c) < 0x20 => return None,
                c => out.push(c),
            }
        }
    }

    fn escape(&mut self) -> Option<char> {
        let c = self.peek()?;
        self.at += 1;
        Some(match c {
            b'"' => '"',
            b'\\' => '\\',
            b'/' => '/',
            b'b' => '\u{8}',
            b'f' => '\u{c}',
            b'n' => '\n',
            b'r' => '\r',
            b't' => '\t',
            b'u' => {
                let high = self.hex()?;
                if !(0xd800..0xdc00).contains(&high) {
                    return char::from_u32(high);
                }
                // Two escapes make one character beyond the first 65,536.
                self.word("\\u", Json::Null)?;
                let low = self.hex()?;
                if !(0xdc00..0xe000).contains(&low) {
                    return None;
                }
                return char::from_u32(0x1_0000 + ((high - 0xd800) << 10) + (low - 0xdc00));
            }
            _ => return None,
        })
    }

    fn hex(&mut self) -> Option<u32> {
        let digits = self.text.get(self.at..self.at + 4)?;
        self.at += 4;
        digits.chars().try_fold(0, |n, c| Some(16 * n + c.to_digit(16)?))
    }

    /// Up to 15 digits and 22 decimals are exact: one exact whole number divided by one exact power of ten.
    fn number(&mut self) -> Option<f64> {
        let minus = self.peek()? == b'-';
        self.at += usize::from(minus);
        let start = self.at;
        let mut value = self.digits(0.0)?;
        if self.at - start > 1 && self.text.as_bytes().get(start) == Some(&b'0') {
            return None;
        }
        let mut decimals = 0;
        if self.peek() == Some(b'.') {
            self.at += 1;
            let start = self.at;
            value = self.digits(value)?;
            decimals = i32::try_from(self.at - start).ok()?;
        }
        if matches!(self.peek(), Some(b'e' | b'E')) {
            self.at += 1;
            let down = self.peek() == Some(b'-');
            self.at += usize::from(down || self.peek() == Some(b'+'));
            let power = self.digits(0.0)?.min(400.0) as i32;
            decimals += if down { power } else { -power };
        }
        let value = if decimals >= 0 { value / power_of_ten(decimals) } else { value * power_of_ten(-decimals) };
        Some(if minus { -value } else { value })
    }

    fn digits(&mut self, so_far: f64) -> Option<f64> {
        let start = self.at;
        let mut value = so_far;
        while let Some(d @ b'0'..=b'9') = self.peek() {
            value = value * 10.0 + f64::from(d - b'0');
            self.at += 1;
        }
        (self.at > start).then_some(value)
    }

    fn ended(&mut self) -> bool {
        self.space();
        self.at >= self.text.len()
    }

    fn here(&self) -> NotJson {
        let before = self.text.get(..self.at).unwrap_or(self.text);
        let line = before.matches('\n').count() + 1;
        let column = before.rsplit('\n').next().map_or(0, |l| l.chars().count()) + 1;
        NotJson { line, column }
    }
}

fn power_of_ten(n: i32) -> f64 {
    (0..n.min(400)).fold(1.0, |p, _| p * 10.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn any_json() -> impl Strategy<Value = serde_json::Value> {
        let leaf = prop_oneof![
            Just(serde_json::Value::Null),
            any::<bool>().prop_map(Into::into),
            (-1_000_000_i32..1_000_000).prop_map(|n| serde_json::json!(f64::from(n) / 100.0)),
            any::<String>().prop_map(Into::into),
        ];
        leaf.prop_recursive(4, 64, 8, |inner| {
            prop_oneof![
                prop::collection::vec(inner.clone(), 0..8).prop_map(Into::into),
                prop::collection::vec((any::<String>(), inner), 0..8)
                    .prop_map(|m| serde_json::Value::Object(m.into_iter().collect())),
            ]
        })
    }

    fn same(a: &Json, b: &serde_json::Value) -> bool {
        match (a, b) {
            (Json::Null, serde_json::Value::Null) => true,
            (Json::Bool(a), serde_json::Value::Bool(b)) => a == b,
            (Json::Number(a), serde_json::Value::Number(b)) => Some(*a) == b.as_f64(),
            (Json::Text(a), serde_json::Value::String(b)) => a == b,
            (Json::List(a), serde_json::Value::Array(b)) => {
                a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(a, b))
            }
            (Json::Object(a), serde_json::Value::Object(b)) => {
                a.len() == b.len() && a.iter().all(|(n, a)| b.get(n).is_some_and(|b| same(a, b)))
            }
            _ => false,
        }
    }

    proptest! {
        /// The reference is the serde_json crate: what it writes is read the same, and what is written here it reads.
        #[test]
        fn reads_and_writes_as_serde_json_does(value in any_json()) {
            for text in [serde_json::to_string(&value).unwrap(), serde_json::to_string_pretty(&value).unwrap()] {
                let read = Json::parse(&text).unwrap();
                prop_assert!(same(&read, &value), "{text}");
                let again: serde_json::Value = serde_json::from_str(&read.write()).unwrap();
                prop_assert!(same(&read, &again), "{}", read.write());
            }
        }

        #[test]
        fn refuses_what_serde_json_refuses(text in r#"[-0-9eE.+{}\[\]:,"tfnulrase\\ ]{0,24}"#) {
            let ours = Json::parse(&text).is_ok();
            let theirs = serde_json::from_str::<serde_json::Value>(&text);
            // Numbers out of range are refused there and infinite here; a half pair of \u escapes cannot occur here.
            if theirs.as_ref().is_err_and(|e| e.to_string().contains("out of range")) {
                return Ok(());
            }
            prop_assert_eq!(ours, theirs.is_ok(), "{}", text);
        }

        #[test]
        fn no_text_makes_it_panic(text in any::<String>()) {
            let _ = Json::parse(&text);
        }
    }

    #[test]
    fn says_where_it_stops() {
        assert_eq!(Json::parse("{\n  \"a\": x}"), Err(NotJson { line: 2, column: 8 }));
        assert_eq!(Json::parse(&"[".repeat(100_000)).unwrap_err().line, 1);
        assert_eq!(Json::parse("1 2"), Err(NotJson { line: 1, column: 3 }));
        assert_eq!(Json::parse(r#""\ud83d\ude00""#), Ok(Json::Text("😀".into())));
        assert_eq!(Json::parse(r#""\ud83d""#), Err(NotJson { line: 1, column: 8 }));
    }
}
