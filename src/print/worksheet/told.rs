//! A sheet and its folds in words, so that a hand can fold it from paper.

use crate::fold::{Course, Direction, End, Reads, Worked};
use crate::print::fold_lines;
use crate::words::capital;

/// What a ticket says of a sheet: how it lies, how it is folded, where its head is then.
pub(super) fn sheet(name: &str, course: &Course, pages: usize, first_page: Option<u32>) -> Vec<(&'static str, String)> {
    let begins = first_page.map_or_else(String::new, |first| {
        format!(", from page {first} to page {}", first.saturating_add(pages as u32).saturating_sub(1))
    });
    let counted = format!("{pages} pages");
    let sheet =
        if name.starts_with(&counted) { format!("{name}{begins}.") } else { format!("{name}: {counted}{begins}.") };
    let mut rows = vec![
        ("Sheet", sheet),
        (
            "Lies",
            format!("{} Side A is up, its lay corner (black) at the lower left.", panels(course.rows, course.columns)),
        ),
    ];
    if let Ok(worked) = Worked::of(course) {
        rows.push(("Folds", fold_lines(&worked.trunk).1.join(" ")));
        rows.push(("Then", then(course)));
    }
    rows
}

/// `2 rows of 4 panels.`
pub(super) fn panels(rows: u32, columns: u32) -> String {
    let s = |n: u32| if n == 1 { "" } else { "s" };
    format!("{rows} row{} of {columns} panel{}.", s(rows), s(columns))
}

const fn edge(head: Direction) -> &'static str {
    match head {
        Direction::Up => "at the top",
        Direction::Right => "at the right",
        Direction::Down => "at the bottom",
        Direction::Left => "at the left",
    }
}

/// Where the heads are, how pieces are laid together, and which page is the first.
fn then(course: &Course) -> String {
    let pieces = course.steps.pieces();
    let heads: Vec<Direction> =
        pieces.iter().filter_map(|steps| if let End::Piece { head } = steps.end { Some(head) } else { None }).collect();
    let side = if course.reads == Reads::LeftToRight { "left" } else { "right" };
    let mut says = Vec::new();
    match heads.as_slice() {
        [first, rest @ ..] if rest.iter().all(|head| head == first) => {
            says.push(format!("The head is {} of what then lies there.", edge(*first)));
        }
        all => {
            let each = all.iter().zip(1..).map(|(head, k)| format!("of piece {k} {}", edge(*head))).collect::<Vec<_>>();
            says.push(format!("The head is {}.", each.join(", ")));
        }
    }
    let nest = course.copies.first().and_then(|copy| copy.first());
    if let Some([outer, inner @ ..]) = nest.map(Vec::as_slice)
        && !inner.is_empty()
    {
        let counted = "Pieces count as they are cut, left before right and upper before lower";
        let laid =
            inner.iter().map(|piece| format!("in its middle piece {}", piece + 1)).collect::<Vec<_>>().join(", ");
        says.push(format!("{counted}: piece {} lies outside, {laid}.", outer + 1));
    }
    says.push(format!("Turn it so that the head is up and the spine at the {side}: the first page is then on top."));
    capital(&says.join(" "))
}
