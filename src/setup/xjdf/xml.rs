//! A small, strict reader of XML: elements and attributes, in order. Document types are refused, so that nothing can
//! be drawn in or grow; namespaces are dropped, since the names of folding parameters are plain.

/// The longest text that is read, in bytes.
const LONGEST: usize = 256 * 1024;

/// How deep elements may lie in one another.
const DEEPEST: usize = 64;

/// An element: its name without prefix, how deep it lies, and its attributes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Element {
    pub(super) name: String,
    pub(super) depth: usize,
    pub(super) attributes: Vec<(String, String)>,
}

impl Element {
    pub(super) fn get(&self, name: &str) -> Option<&str> {
        self.attributes.iter().find(|(n, _)| n == name).map(|(_, v)| v.as_str())
    }
}

/// All elements in the order in which they open.
pub(super) fn elements(text: &str) -> Result<Vec<Element>, &'static str> {
    if text.len() > LONGEST {
        return Err("it is longer than 256 KiB");
    }
    let mut rest = text.trim_start_matches('\u{feff}');
    let mut found = Vec::new();
    let mut open: Vec<&str> = Vec::new();
    while let Some((before, tag)) = rest.split_once('<') {
        if open.is_empty() && !before.trim().is_empty() {
            return Err("there is text outside its outermost element");
        }
        rest = if let Some(comment) = tag.strip_prefix("!--") {
            comment.split_once("-->").ok_or("a comment does not end")?.1
        } else if let Some(data) = tag.strip_prefix("![CDATA[") {
            if open.is_empty() {
                return Err("there is text outside its outermost element");
            }
            data.split_once("]]>").ok_or("a piece of text does not end")?.1
        } else if let Some(order) = tag.strip_prefix('?') {
            order.split_once("?>").ok_or("a processing instruction does not end")?.1
        } else if tag.starts_with('!') {
            return Err("it has a document type, which is not read");
        } else if let Some(close) = tag.strip_prefix('/') {
            let (name, after) = close.split_once('>').ok_or("a tag does not end")?;
            if open.pop() != Some(name.trim_end()) {
                return Err("an element is closed that is not open");
            }
            after
        } else {
            if open.is_empty() && !found.is_empty() {
                return Err("it has more than one outermost element");
            }
            if open.len() >= DEEPEST {
                return Err("its elements lie too deep in one another");
            }
            let (name, after) = named(tag)?;
            let (attributes, empty, after) = attributes(after)?;
            found.push(Element { name: plain(name).into(), depth: open.len(), attributes });
            if !empty {
                open.push(name);
            }
            after
        };
    }
    if !open.is_empty() {
        return Err("an element is not closed");
    }
    if found.is_empty() {
        return Err("it has no element");
    }
    if rest.trim().is_empty() { Ok(found) } else { Err("there is text outside its outermost element") }
}

/// A name without its prefix.
fn plain(name: &str) -> &str {
    name.rsplit_once(':').map_or(name, |(_, plain)| plain)
}

fn named(text: &str) -> Result<(&str, &str), &'static str> {
    let ends = |c: char| c.is_whitespace() || matches!(c, '=' | '/' | '>' | '<' | '"' | '\'' | '&');
    let (name, after) = text.split_at(text.find(ends).unwrap_or(text.len()));
    let starts = name.chars().next().is_some_and(|c| c.is_alphabetic() || c == '_' || c == ':');
    if starts { Ok((name, after)) } else { Err("a name is missing") }
}

type Attributes<'a> = (Vec<(String, String)>, bool, &'a str);

/// The attributes of a tag, whether it closes itself, and what follows.
fn attributes(mut text: &str) -> Result<Attributes<'_>, &'static str> {
    let mut found: Vec<(String, String)> = Vec::new();
    loop {
        let next = text.trim_start();
        if let Some(after) = next.strip_prefix("/>") {
            return Ok((found, true, after));
        }
        if let Some(after) = next.strip_prefix('>') {
            return Ok((found, false, after));
        }
        if next.len() == text.len() {
            return Err("a space is missing between attributes, or a tag does not end");
        }
        let (name, after) = named(next)?;
        let after = after.trim_start().strip_prefix('=').ok_or("an attribute has no value")?.trim_start();
        let quote = after.chars().next().filter(|c| matches!(c, '"' | '\'')).ok_or("a value is not quoted")?;
        let (value, after) = after.get(1..).and_then(|v| v.split_once(quote)).ok_or("a value does not end")?;
        if found.iter().any(|(n, _)| n == name) {
            return Err("an attribute is given twice");
        }
        found.push((name.into(), unescaped(value)?));
        text = after;
    }
}

fn unescaped(value: &str) -> Result<String, &'static str> {
    if value.contains('<') {
        return Err("a value holds a tag");
    }
    let mut parts = value.split('&');
    let mut whole = String::from(parts.next().unwrap_or_default());
    for part in parts {
        let (entity, after) = part.split_once(';').ok_or("an entity does not end")?;
        whole.push(match entity {
            "amp" => '&',
            "lt" => '<',
            "gt" => '>',
            "quot" => '"',
            "apos" => '\'',
            _ => {
                let code = entity.strip_prefix('#').ok_or("an entity is not known")?;
                let number = match code.strip_prefix('x') {
                    Some(hex) => u32::from_str_radix(hex, 16),
                    None => code.parse(),
                };
                number.ok().and_then(char::from_u32).ok_or("an entity is no character")?
            }
        });
        whole += after;
    }
    Ok(whole)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn elements_come_in_order() {
        let text = "<?xml version=\"1.0\"?><!-- <no/> --><x:A b='1 &lt; &#x32;'><B/><C></C ></x:A>\n";
        let found = elements(text).unwrap();
        let names: Vec<_> = found.iter().map(|e| (e.name.as_str(), e.depth)).collect();
        assert_eq!(names, [("A", 0), ("B", 1), ("C", 1)]);
        assert_eq!(found[0].get("b"), Some("1 < 2"));
    }

    #[test]
    fn what_is_not_well_formed_is_refused() {
        for text in [
            "",
            "text",
            "<a>",
            "</a>",
            "<a></b>",
            "<a/><b/>",
            "<a b=1/>",
            "<a b='1' b='2'/>",
            "<a b='&x;'/>",
            "<!DOCTYPE a><a/>",
            "<a b='<'/>",
            "<a/>x",
            "<a b='1'c='2'/>",
            "<!-- <a/>",
            "<1/>",
            "<a b='&#0xD800;'/>",
        ] {
            assert!(elements(text).is_err(), "{text}");
        }
        assert!(elements(&"<a>".repeat(100)).is_err());
    }

    proptest! {
        #[test]
        fn nothing_makes_it_panic(parts in proptest::collection::vec(
            prop_oneof!["[<>/&;='\" a!?\\-é:]{1,6}", Just("<a b='".into()), Just("'>".into()), Just("<!--".into()),
            Just("</a>".into()), Just("<![CDATA[".into()), Just("]]>".into()), Just("&#x".into())], 0..20)) {
            let _ = elements(&parts.concat());
        }
    }
}
