//! What a fold did, and where a page lands, in trade words.

use super::folding::{Contact, Folding, Step};
use super::geometry::{Direction, Face, Side};
use super::landing::{Landing, PageAt};
use super::lay::Lay;
use super::scheme::{Crease, Fold, Lands};

/// The name of a fold: "Right over left".
#[must_use]
pub fn fold_name(fold: &Fold) -> String {
    let moves = fold.moves.word();
    let mut name = String::with_capacity(20);
    for (i, c) in moves.char_indices() {
        name.push(if i == 0 { c.to_ascii_uppercase() } else { c });
    }
    name + " " + fold.lands.word() + " " + fold.moves.other().word()
}

/// Why a sentence names no more than this many figures in one row.
const ROW_LIMIT: usize = 4;

/// What a fold does while it moves: "Right over left: 3 falls on 2, 6 on 7; 4, 13 and 5, 12 come on top."
///
/// `number` gives the figure printed on a face, `None` on a blank sheet; `lay` is how the sheet lies before those who
/// are told.
#[must_use]
pub fn says_while(step: &Step, number: &dyn Fn(&Face) -> Option<u32>, lay: Lay) -> String {
    sentence(step, number, lay, "come")
}

/// What a fold has done once it is down: "… 4, 13 and 5, 12 are now on top."
#[must_use]
pub fn says_after(step: &Step, number: &dyn Fn(&Face) -> Option<u32>, lay: Lay) -> String {
    sentence(step, number, lay, "are now")
}

fn sentence(step: &Step, number: &dyn Fn(&Face) -> Option<u32>, lay: Lay, verb: &str) -> String {
    let fold = lay.seen(&step.turn.fold, (0, 0));
    let mut says = fold_name(&fold);
    let mut contacts = step.corner_contacts();
    // From the bottom up or from left to right, as it is seen.
    let order = if step.turn.fold.crease == Crease::Vertical { Direction::Up } else { Direction::Right };
    if matches!(lay.direction(order), Direction::Down | Direction::Left) {
        contacts.reverse();
    }
    let pairs: Vec<(u32, u32)> =
        ends(&contacts).into_iter().filter_map(|c: Contact| Some((number(&c.fell)?, number(&c.on)?))).collect();
    let over = fold.lands == Lands::Over;
    let (falls, comes) = if over { ("falls on", "on top") } else { ("goes under", "underneath") };
    for (i, (fell, on)) in pairs.iter().enumerate() {
        says += &match i {
            0 => format!(": {fell} {falls} {on}"),
            _ => format!(", {fell} {} {on}", if over { "on" } else { "under" }),
        };
    }
    let upper = step.turn.fold.lands == Lands::Over;
    let outside = lay.grid(if upper { step.after.uppermost() } else { step.after.undermost() });
    let rows: Vec<String> = outside
        .iter()
        .rev()
        .filter_map(|row| {
            let figures: Vec<String> = row.iter().flatten().filter_map(number).map(|n| n.to_string()).collect();
            match figures.as_slice() {
                [] => None,
                [first, .., last] if figures.len() > ROW_LIMIT => Some(format!("{first} to {last}")),
                _ => Some(figures.join(", ")),
            }
        })
        .collect();
    let shown = ends(&rows);
    if !shown.is_empty() {
        let one = shown.len() == 1 && !shown.iter().any(|r| r.contains([',', ' ']));
        let verb = match (verb, one) {
            ("come", true) => "comes",
            ("are now", true) => "is now",
            (verb, _) => verb,
        };
        says += &format!("{} {} {verb} {comes}", if pairs.is_empty() { ":" } else { ";" }, shown.join(" and "));
    }
    says + "."
}

/// All of a list of one or two; of a longer one the first and the last.
fn ends<T: Clone>(list: &[T]) -> Vec<T> {
    match list {
        [first, _, .., last] if list.len() > 2 => vec![first.clone(), last.clone()],
        _ => list.to_vec(),
    }
}

/// Where a page lands: "Side A, inner forme, row 1, column 3, head down; backed by 12, conjugate 6."
///
/// `shift` is added to every page number (the pages before this section).
#[must_use]
pub fn says_landing(landing: &Landing, page: &PageAt, shift: u32) -> String {
    let forme = if landing.outer_forme() == page.face.side { "outer" } else { "inner" };
    let side = if page.face.side == Side::A { "A" } else { "B" };
    let head = match page.head {
        Direction::Up => "up",
        Direction::Right => "to the right",
        Direction::Down => "down",
        Direction::Left => "to the left",
    };
    let (row, column) = (page.face.row + 1, page.face.column_seen(landing.columns) + 1);
    let conjugate = match page.conjugate {
        Some(c) => format!("conjugate {}", c + shift),
        None => "on a loose leaf".into(),
    };
    format!(
        "Side {side}, {forme} forme, row {row}, column {column}, head {head}; backed by {}, {conjugate}.",
        page.backed_by + shift,
    )
}

impl Folding {
    /// The names of all folds, for a list.
    #[must_use]
    pub fn names(&self) -> Vec<String> {
        self.steps.iter().map(|s| fold_name(&s.turn.fold)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::library;

    /// The sentence of the octavo, from J. B. Nicholson, *A Manual of the Art of Bookbinding* (1878), pp. 35-36.
    #[test]
    fn the_sixteen_says_what_nicholson_says() {
        let scheme = library().into_iter().find(|s| s.name.starts_with("Sixteen, three")).unwrap().scheme;
        let folding = Folding::of(&scheme).unwrap();
        let landing = Landing::of(&scheme).unwrap();
        let number = |f: &Face| landing.page_on(f);
        let says: Vec<String> = folding.steps.iter().map(|s| says_after(s, &number, Lay::default())).collect();
        assert_eq!(
            says,
            [
                "Right over left: 3 falls on 2, 6 on 7; 4, 13 and 5, 12 are now on top.",
                "Top over bottom: 5 falls on 4, 12 on 13; 8, 9 are now on top.",
                "Right over left: 9 falls on 8; 16 is now on top.",
            ]
        );
        assert_eq!(
            says_while(&folding.steps[2], &number, Lay::default()),
            "Right over left: 9 falls on 8; 16 comes on top."
        );
    }

    /// The same folds by one who has turned the sheet over, worked out on paper.
    #[test]
    fn a_sixteen_turned_over_is_told_as_it_is_seen() {
        let scheme = library().into_iter().find(|s| s.name.starts_with("Sixteen, three")).unwrap().scheme;
        let folding = Folding::of(&scheme).unwrap();
        let landing = Landing::of(&scheme).unwrap();
        let number = |f: &Face| landing.page_on(f);
        let over = Lay::default().turned_over();
        let says = |i: usize, lay| says_after(&folding.steps[i], &number, lay);
        assert_eq!(says(0, over), "Left under right: 3 goes under 2, 6 under 7; 13, 4 and 12, 5 are now underneath.");
        assert_eq!(says(1, over), "Top under bottom: 12 goes under 13, 5 under 4; 9, 8 are now underneath.");
        let round = Lay::default().turned_round();
        assert_eq!(says(0, round), "Bottom over top: 3 falls on 2, 6 on 7; 13, 12 and 4, 5 are now on top.");
    }

    #[test]
    fn a_page_says_where_it_lands() {
        let scheme = library().into_iter().find(|s| s.name.starts_with("Sixteen, three")).unwrap().scheme;
        let landing = Landing::of(&scheme).unwrap();
        assert_eq!(
            says_landing(&landing, landing.page(11).unwrap(), 32),
            "Side A, inner forme, row 1, column 3, head down; backed by 44, conjugate 38."
        );
    }
}
