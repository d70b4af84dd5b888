//! A cell of a forme as `tests/data/README.md` has it.

use backmark::fold::Direction;

/// The work (empty where there is one alone), the page and its head; none where nothing is printed.
pub fn cell(word: &str) -> Option<(String, u32, Direction)> {
    let head = match word.chars().last() {
        _ if word == "-" => return None,
        Some('v') => Direction::Down,
        Some('<') => Direction::Left,
        Some('>') => Direction::Right,
        _ => Direction::Up,
    };
    let name = word.trim_end_matches(['v', '<', '>']);
    let page = name.trim_start_matches(char::is_alphabetic);
    Some((name.trim_end_matches(page).to_owned(), page.parse().unwrap(), head))
}
