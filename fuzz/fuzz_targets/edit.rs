//! Changes a request and keeps it JSON: a value for another, an item more or less, a field by another name, or a whole
//! new request.

use crate::requests::{Dice, request, scheme};
use serde_json::{Map, Value, json};

/// Numbers at which something changes: bounds of the protocol, and of the numbers themselves.
const NUMBERS: [f64; 22] = [
    0.0, 1.0, 2.0, 3.0, 4.0, 8.0, 16.0, 64.0, 127.0, 128.0, 129.0, 216.0, 400.0, 401.0, 4096.0, 4097.0, 1e6, 4294967295.0,
    -1.0, 0.5, 1e-9, 1e308,
];

/// Words of the protocol.
const WORDS: &str = include_str!("../ask.dict");

/// The line with one to three changes.
pub fn edited(line: &[u8], dice: &mut Dice) -> String {
    let old = serde_json::from_slice::<Value>(line).ok().filter(Value::is_object);
    let Some(mut value) = old.filter(|_| !dice.once_in(24)) else { return request(dice, None).to_string() };
    for _ in 0..=dice.below(3) {
        let nodes = count(&value);
        let copied = nth(&mut value, &mut dice.below(nodes)).cloned().unwrap_or_default();
        if let Some(node) = nth(&mut value, &mut dice.below(nodes)) {
            change(node, copied, dice);
        }
    }
    value.to_string()
}

fn count(value: &Value) -> u32 {
    1 + match value {
        Value::Array(items) => items.iter().map(count).sum(),
        Value::Object(fields) => fields.values().map(count).sum::<u32>(),
        _ => 0,
    }
}

/// The value that is reached after `left` others.
fn nth<'a>(value: &'a mut Value, left: &mut u32) -> Option<&'a mut Value> {
    if *left == 0 {
        return Some(value);
    }
    *left -= 1;
    match value {
        Value::Array(items) => items.iter_mut().find_map(|item| nth(item, left)),
        Value::Object(fields) => fields.values_mut().find_map(|field| nth(field, left)),
        _ => None,
    }
}

fn word(dice: &mut Dice) -> String {
    let words: Vec<&str> = WORDS.lines().filter_map(|l| l.strip_prefix("\"\\\"")?.strip_suffix("\\\"\"")).collect();
    dice.pick(&words).to_owned()
}

fn change(node: &mut Value, copied: Value, dice: &mut Dice) {
    if dice.once_in(8) {
        *node = copied;
        return;
    }
    match node {
        Value::Number(n) => {
            let old = n.as_f64().unwrap_or_default();
            let new = match dice.below(5) {
                0 => old + 1.0,
                1 => old - 1.0,
                2 => old * 2.0,
                3 => f64::from(dice.below(20)),
                _ => dice.pick(&NUMBERS),
            };
            // A whole number is written as one.
            *node = if new.fract() == 0.0 && new.abs() < 1e15 { json!(new as i64) } else { json!(new) };
        }
        Value::String(text) => *text = word(dice),
        Value::Bool(b) => *b = !*b,
        Value::Null => *node = json!(dice.pick(&NUMBERS)),
        Value::Array(items) => change_list(items, copied, dice),
        Value::Object(fields) => change_fields(fields, copied, dice),
    }
}

fn change_list(items: &mut Vec<Value>, copied: Value, dice: &mut Dice) {
    let count = items.len() as u32;
    if count == 0 {
        items.push(copied);
        return;
    }
    let (at, other) = (dice.below(count) as usize, dice.below(count) as usize);
    match dice.below(6) {
        0 => _ = items.remove(at),
        1 => items.insert(other, items[at].clone()),
        2 => items.swap(at, other),
        3 if count < 300 => items.extend(items.clone()),
        4 => items.truncate(at),
        _ => items[at] = copied,
    }
}

fn change_fields(fields: &mut Map<String, Value>, copied: Value, dice: &mut Dice) {
    let names: Vec<String> = fields.keys().cloned().collect();
    let Some(name) = names.get(dice.below(names.len() as u32) as usize) else {
        fields.insert(word(dice), copied);
        return;
    };
    match dice.below(5) {
        0 => _ = fields.remove(name),
        1 => _ = fields.insert(word(dice), copied),
        2 => {
            let value = fields.remove(name).unwrap_or_default();
            fields.insert(word(dice), value);
        }
        3 if fields.contains_key("scheme") => _ = fields.insert("scheme".into(), json!(scheme(dice))),
        _ => _ = fields.insert(name.clone(), copied),
    }
}
