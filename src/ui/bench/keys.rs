//! What keys do on a bench.

use super::hands::Hands;
use crate::app::Action;
use crate::fold::Direction;
use crate::ui::store::Act;
use wasm_bindgen::JsCast;
use web_sys::KeyboardEvent;

/// Does what a key asks for, unless it is typed into a field.
pub fn on_key(e: &KeyboardEvent, hands: &Hands, act: &Act) {
    let target = e.target().and_then(|t| t.dyn_into::<web_sys::Element>().ok());
    let in_field =
        target.as_ref().is_some_and(|t| t.closest("input, select, textarea, dialog").ok().flatten().is_some());
    let command = e.ctrl_key() || e.meta_key();
    match e.key().as_str() {
        "z" | "Z" if command && !in_field => act.emit(if e.shift_key() { Action::Redo } else { Action::Undo }),
        "y" if command && !in_field => act.emit(Action::Redo),
        _ if in_field || command || e.alt_key() || !hands.is_open() => return,
        key if hands.is_choosing() => match arrow(key) {
            Some(to) => hands.choose_towards(to, e.shift_key()),
            None if key == "Enter" => hands.choose(),
            None if key == "Escape" => hands.leave_crease(),
            None => return,
        },
        "f" | "F" => hands.choose(),
        "Enter" if target.as_ref().is_some_and(|t| t.tag_name() == "CANVAS") => hands.choose(),
        "Backspace" => hands.unfold(),
        "t" | "T" if hands.can_lay() => act.emit(Action::Lay(hands.lay().turned_over())),
        "r" | "R" if hands.can_lay() => act.emit(Action::Lay(hands.lay().turned_round())),
        "ArrowRight" if e.shift_key() => hands.tilt(-5.0, 0.0),
        "ArrowLeft" if e.shift_key() => hands.tilt(5.0, 0.0),
        "ArrowUp" if e.shift_key() => hands.tilt(0.0, 5.0),
        "ArrowDown" if e.shift_key() => hands.tilt(0.0, -5.0),
        "ArrowRight" => hands.step(1),
        "ArrowLeft" => hands.step(-1),
        _ => return,
    }
    e.prevent_default();
}

fn arrow(key: &str) -> Option<Direction> {
    Some(match key {
        "ArrowLeft" => Direction::Left,
        "ArrowRight" => Direction::Right,
        "ArrowUp" => Direction::Up,
        "ArrowDown" => Direction::Down,
        _ => return None,
    })
}
