//! What keys do before a class: those of a keyboard, and those that a presenter's remote sends.
//!
//! Remotes send Page Down and Page Up, or the right and left arrow; some have a key for a blank screen, which sends a full stop or B,
//! and one to begin and end, which sends F5 and Escape (common practice, no source).

use super::showing::{ShowAct, Way};

/// What a key asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShowKey {
    /// An act.
    Act(ShowAct),
    /// The whole screen, or the window again.
    FullScreen,
    /// The line of keys again.
    Keys,
    /// Leave the class.
    Leave,
}

/// All keys and what they do, for a list.
pub const KEYS: [(&str, &str); 20] = [
    ("Space, Page Down, →", "the next fold; on the spine the next section"),
    ("Backspace, Page Up, ←", "one step back"),
    ("Enter", "the answer; then the next fold"),
    ("A", "the answer"),
    ("N", "all figures covered, or shown"),
    ("P", "the pointer, and the arrows from page to page; Enter shows a covered figure"),
    ("C", "the figure that is pointed at covered, or shown"),
    ("B or full stop", "a blank screen; any key brings the picture back"),
    ("F", "holds what the class sees while you make the next picture; again lets it go"),
    ("↑ ↓", "the section before, the section after"),
    ("Home, End", "the flat sheet, the last fold; on the spine the first section, all sections"),
    ("S", "one flat side alone, the other one, both"),
    ("T", "the sheet turned over"),
    ("G", "the spine of the gathered book, and back to the bench"),
    ("X", "a spoiled book"),
    ("V", "the book as it lies in the stack"),
    ("H or ?", "the line of keys"),
    ("F5", "the whole screen, or the window"),
    ("Escape", "leaves"),
    ("Click or tap", "a covered figure or a slip: shown. A tap in the left third: back, in the right third: on"),
];

/// What a key of this name asks for. `pointing`: the arrows move the pointer.
#[must_use]
pub fn show_key(name: &str, pointing: bool) -> Option<ShowKey> {
    use ShowKey::Act;
    let way = match name {
        "ArrowLeft" => Some(Way::Left),
        "ArrowRight" => Some(Way::Right),
        "ArrowUp" => Some(Way::Up),
        "ArrowDown" => Some(Way::Down),
        _ => None,
    };
    if let Some(way) = way.filter(|_| pointing) {
        return Some(Act(ShowAct::Point(way)));
    }
    Some(match name {
        " " | "PageDown" | "ArrowRight" => Act(ShowAct::On),
        "Backspace" | "PageUp" | "ArrowLeft" => Act(ShowAct::Back),
        "Enter" => Act(ShowAct::AnswerOrOn),
        "a" | "A" => Act(ShowAct::Answer),
        "n" | "N" => Act(ShowAct::Figures),
        "p" | "P" => Act(ShowAct::Pointer),
        "c" | "C" => Act(ShowAct::Cover),
        "b" | "B" | "." => Act(ShowAct::Blank),
        "f" | "F" => Act(ShowAct::Hold),
        "ArrowUp" => Act(ShowAct::Section(-1)),
        "ArrowDown" => Act(ShowAct::Section(1)),
        "Home" => Act(ShowAct::First),
        "End" => Act(ShowAct::Last),
        "s" | "S" => Act(ShowAct::Sides),
        "t" | "T" => Act(ShowAct::TurnOver),
        "g" | "G" => Act(ShowAct::Turn),
        "x" | "X" => Act(ShowAct::Spoil),
        "v" | "V" => Act(ShowAct::AsItLies),
        "h" | "H" | "?" => ShowKey::Keys,
        "F5" => ShowKey::FullScreen,
        "Escape" => ShowKey::Leave,
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_remote_is_understood() {
        for on in [" ", "PageDown", "ArrowRight"] {
            assert_eq!(show_key(on, false), Some(ShowKey::Act(ShowAct::On)));
        }
        for back in ["Backspace", "PageUp", "ArrowLeft"] {
            assert_eq!(show_key(back, false), Some(ShowKey::Act(ShowAct::Back)));
        }
        for blank in ["b", "B", "."] {
            assert_eq!(show_key(blank, true), Some(ShowKey::Act(ShowAct::Blank)));
        }
        // While arrows point, a remote's other keys still fold.
        assert_eq!(show_key("ArrowRight", true), Some(ShowKey::Act(ShowAct::Point(Way::Right))));
        assert_eq!(show_key("PageDown", true), Some(ShowKey::Act(ShowAct::On)));
        assert_eq!(show_key("F5", false), Some(ShowKey::FullScreen));
        assert_eq!(show_key("Tab", false), None);
    }
}
