//! A course written in short, for the list of those at hand: `R2 T1 R1` folds the right part over the left after two
//! panels, the top over the bottom after one, and the right over the left again.
//!
//! | written | means |
//! | --- | --- |
//! | `R2`, `L2`, `T2`, `B2` | the right, left, top or bottom part folds over what stays, after two panels |
//! | `r2`, `l2`, `t2`, `b2` | the same under what stays |
//! | `\|2(one; other)` | a slit from top to bottom after two panels; the left part goes on by `one`, the right by `other` |
//! | `-2(one; other)` | a slit from left to right; the upper part goes on by `one`, the lower by `other` |
//! | `\|2R(on)` | a slit after which the right part is laid over the left (`r`: under it), and both go on together |
//! | `^`, `_`, `<`, `>` | at the end of a piece: its heads point to the top, bottom, left or right. Without it, to the top, or after a level crease to the right |

use crate::fold::course::{End, Parted, Slit, Steps};
use crate::fold::geometry::Direction;
use crate::fold::scheme::{Crease, Fold, Lands, Part};

/// Reads what is written so; `None` if it isn't.
pub(super) fn steps(text: &str) -> Option<Steps> {
    let mut reader = Reader { rest: text };
    let steps = reader.steps()?;
    reader.rest.is_empty().then_some(steps)
}

struct Reader<'a> {
    rest: &'a str,
}

impl Reader<'_> {
    fn peek(&self) -> Option<char> {
        self.rest.chars().next()
    }

    fn take(&mut self) -> Option<char> {
        let c = self.peek()?;
        self.rest = self.rest.get(c.len_utf8()..)?;
        Some(c)
    }

    fn take_if(&mut self, wanted: char) -> Option<()> {
        (self.take()? == wanted).then_some(())
    }

    fn spaces(&mut self) {
        self.rest = self.rest.trim_start();
    }

    fn number(&mut self) -> Option<u32> {
        let end = self.rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(self.rest.len());
        let (number, rest) = self.rest.split_at_checked(end)?;
        self.rest = rest;
        number.parse().ok()
    }

    fn steps(&mut self) -> Option<Steps> {
        let mut folds: Vec<Fold> = Vec::new();
        loop {
            self.spaces();
            match self.peek() {
                Some(c @ ('|' | '-')) => {
                    self.take()?;
                    let crease = if c == '|' { Crease::Vertical } else { Crease::Horizontal };
                    let slit = self.slit(crease)?;
                    return Some(Steps { folds, end: End::Slit(Box::new(slit)) });
                }
                Some(c) if part(c).is_some() => {
                    self.take()?;
                    let (moves, lands) = part(c)?;
                    folds.push(Fold::new(self.number()?, moves, lands));
                }
                other => {
                    let level = folds.last().is_some_and(|f| f.crease == Crease::Horizontal);
                    let head = match other {
                        Some('^') => Direction::Up,
                        Some('_') => Direction::Down,
                        Some('<') => Direction::Left,
                        Some('>') => Direction::Right,
                        _ if level => return Some(Steps::piece(folds, Direction::Right)),
                        _ => return Some(Steps::piece(folds, Direction::Up)),
                    };
                    self.take()?;
                    return Some(Steps::piece(folds, head));
                }
            }
        }
    }

    fn slit(&mut self, crease: Crease) -> Option<Slit> {
        let after = self.number()?;
        let laid = self.peek().and_then(part);
        if laid.is_some() {
            self.take()?;
        }
        self.take_if('(')?;
        let first = self.steps()?;
        self.spaces();
        let then = match laid {
            Some((moves, lands)) => Parted::Laid { moves, lands, then: first },
            None => {
                self.take_if(';')?;
                Parted::Apart { first, second: self.steps()? }
            }
        };
        self.spaces();
        self.take_if(')')?;
        Some(Slit { crease, after, then })
    }
}

fn part(c: char) -> Option<(Part, Lands)> {
    let part = match c.to_ascii_uppercase() {
        'R' => Part::Right,
        'L' => Part::Left,
        'T' => Part::Top,
        'B' => Part::Bottom,
        _ => return None,
    };
    Some((part, if c.is_ascii_uppercase() { Lands::Over } else { Lands::Under }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_read() {
        let twelves = steps("-1(R2 R1; R2 T1 R1_)").unwrap();
        let [off_cut, octavo] = twelves.pieces()[..] else { panic!("{twelves:?}") };
        assert_eq!(off_cut.folds.len(), 2);
        assert_eq!(octavo.folds[1], Fold::new(1, Part::Top, Lands::Over));
        assert_eq!(octavo.end, End::Piece { head: Direction::Down });
        let laid = steps("|4r(R2 B1>)").unwrap();
        assert_eq!(laid.pieces().len(), 1);
        assert_eq!(steps("T1").unwrap().end, End::Piece { head: Direction::Right });
        for bad in ["R", "R2 X1", "-1(R1)", "-1(R1; R1", "|1(R1; R1) R1", "R99999999999", "^R1"] {
            assert_eq!(steps(bad), None, "{bad}");
        }
    }
}
