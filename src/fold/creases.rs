//! Creases anywhere: folds given by where they really lie become the whole-numbered grid and the sizes of its panels.
//!
//! Upright and level creases know nothing of each other, so each way of the sheet is a strip of its own. Every fold
//! cuts each layer of the strip that its line runs through; all cuts together part the strip into panels.

use super::error::FoldError;
use super::folding::Folding;
use super::geometry::Direction;
use super::measure::{Measure, Measured, whole_span};
use super::scheme::{Crease, Fold, Lands, MAX_PANELS, Part, Reads, Scheme};
use crate::paper::Length;
use thiserror::Error;

/// A fold by its place in millimetres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RealFold {
    /// From the left edge (upright crease) or the top edge (level crease) of the packet, as it then lies.
    pub stop: Length,
    /// The part that moves.
    pub moves: Part,
    /// Where that part comes to lie.
    pub lands: Lands,
}

/// The grid of a sheet with creases anywhere.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Creased {
    /// The folds, in panels.
    pub folds: Vec<Fold>,
    /// The sizes of the panels.
    pub measure: Measure,
    /// The width and height of the packet after all folds.
    pub packet: (Length, Length),
}

/// Why folds can't be made where they are said to be. Folds are counted from 0 here, and from 1 in the words.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum CreaseError {
    /// The sheet has no size.
    #[error("a sheet is wider and higher than 0 mm")]
    NoSheet,
    /// The crease is on the edge of the packet or off the paper.
    #[error(
        "fold {} has its crease at {}, but the packet is then {} {} and a crease lies inside it",
        .fold + 1, .stop.text(), .size.text(), if *.vertical { "wide" } else { "high" }
    )]
    Outside {
        /// The fold.
        fold: usize,
        /// Where it was said to be.
        stop: Length,
        /// The packet in that direction.
        size: Length,
        /// Whether the crease is upright.
        vertical: bool,
    },
    /// A panel narrower than 1 mm would be left.
    #[error("fold {} has its crease {} from another crease or an edge of the same layer; leave 1 mm at least", .fold + 1, .by.text())]
    TooNear {
        /// The fold.
        fold: usize,
        /// How near.
        by: Length,
    },
    /// More panels than the program takes.
    #[error("with fold {} the creases part the sheet into more than {MAX_PANELS} panels", .fold + 1)]
    TooMany {
        /// The fold.
        fold: usize,
    },
    /// The layers do not agree on one line.
    #[error("the layers do not meet at the crease of fold {}", .fold + 1)]
    Apart {
        /// The fold.
        fold: usize,
    },
}

/// Creases that are less apart are one.
const ALIKE: Length = Length::from_um(1);

/// The narrowest panel.
const NARROWEST: Length = Length::MM;

/// A stretch of the strip that lies flat: a point `p` of the strip lies at `p + at`, or at `at - p` if mirrored.
#[derive(Clone, Copy)]
struct Stretch {
    from: Length,
    to: Length,
    mirrored: bool,
    at: Length,
}

impl Stretch {
    fn place(&self, p: Length) -> Length {
        if self.mirrored { self.at - p } else { p + self.at }
    }

    /// The point of the strip that lies at a line.
    fn point(&self, line: Length) -> Length {
        if self.mirrored { self.at - line } else { line - self.at }
    }

    fn low(&self) -> Length {
        self.place(self.from).min(self.place(self.to))
    }

    fn high(&self) -> Length {
        self.place(self.from).max(self.place(self.to))
    }

    /// Turned over the line if it lies on the side that moves.
    fn folded(self, line: Length, low_moves: bool) -> Self {
        let is_low = self.low() + self.high() < line + line;
        if is_low == low_moves { Self { mirrored: !self.mirrored, at: line + line - self.at, ..self } } else { self }
    }
}

fn ends(lying: &[Stretch]) -> (Length, Length) {
    let low = lying.iter().map(Stretch::low).min().unwrap_or_default();
    (low, lying.iter().map(Stretch::high).max().unwrap_or_default())
}

const fn moves_low(part: Part) -> bool {
    matches!(part, Part::Left | Part::Top)
}

/// One strip, parted and folded.
struct Strip {
    /// The sizes of its panels.
    panels: Vec<Length>,
    /// After how many panels each of its folds lies.
    after: Vec<u32>,
    /// Its length when folded.
    folded: Length,
}

fn strip(whole: Length, folds: &[(usize, RealFold)]) -> Result<Strip, CreaseError> {
    let mut lying = vec![Stretch { from: Length::ZERO, to: whole, mirrored: false, at: Length::ZERO }];
    let mut lines = Vec::new();
    for &(fold, real) in folds {
        let (low, high) = ends(&lying);
        let size = high - low;
        let RealFold { stop, moves, .. } = real;
        if stop <= ALIKE || size - stop <= ALIKE {
            return Err(CreaseError::Outside { fold, stop, size, vertical: moves.crease() == Crease::Vertical });
        }
        let line = low + stop;
        let mut next = Vec::with_capacity(2 * lying.len());
        for s in lying {
            if line - s.low() <= ALIKE || s.high() - line <= ALIKE {
                next.push(s.folded(line, moves_low(moves)));
                continue;
            }
            let p = s.point(line);
            let by = (p - s.from).min(s.to - p);
            if by < NARROWEST {
                return Err(CreaseError::TooNear { fold, by });
            }
            next.extend([Stretch { to: p, ..s }, Stretch { from: p, ..s }].map(|s| s.folded(line, moves_low(moves))));
        }
        if next.len() > MAX_PANELS as usize {
            return Err(CreaseError::TooMany { fold });
        }
        lying = next;
        lines.push((fold, line, moves_low(moves)));
    }
    // The stretches are still in the order of the strip.
    let folded = ends(&lying).1 - ends(&lying).0;
    let panels: Vec<Stretch> = lying.iter().map(|s| Stretch { mirrored: false, at: Length::ZERO, ..*s }).collect();
    Ok(Strip { panels: panels.iter().map(|s| s.to - s.from).collect(), after: counted(panels, &lines)?, folded })
}

/// After how many panels each fold of a strip lies: the strip is folded once more, in millimetres and in panels.
fn counted(panels: Vec<Stretch>, lines: &[(usize, Length, bool)]) -> Result<Vec<u32>, CreaseError> {
    let mut panels: Vec<(Stretch, bool, i64)> = panels.into_iter().map(|s| (s, false, 0)).collect();
    let mut after = Vec::new();
    for &(fold, line, low_moves) in lines {
        let place = |b: usize, mirrored: bool, at: i64| if mirrored { at - b as i64 } else { b as i64 + at };
        // A crease runs between two panels that still lie flat side by side.
        let mut crossings = panels.windows(2).enumerate().filter_map(|(i, pair)| {
            let [(a, mirrored, at), (b, ..)] = pair else { return None };
            let flat = a.mirrored == b.mirrored && a.at == b.at;
            (flat && (a.place(a.to) - line).abs() <= ALIKE).then(|| place(i + 1, *mirrored, *at))
        });
        let crossing = crossings.next().ok_or(CreaseError::Apart { fold })?;
        if crossings.any(|other| other != crossing) {
            return Err(CreaseError::Apart { fold });
        }
        let lows = panels.iter().enumerate().map(|(i, (_, m, at))| place(i, *m, *at).min(place(i + 1, *m, *at)));
        let low = lows.min().unwrap_or_default();
        after.push(u32::try_from(crossing - low).map_err(|_| CreaseError::Apart { fold })?);
        for (stretch, mirrored, at) in &mut panels {
            let folded = stretch.folded(line, low_moves);
            if folded.mirrored != stretch.mirrored {
                *mirrored = !*mirrored;
                *at = 2 * crossing - *at;
            }
            *stretch = folded;
        }
    }
    Ok(after)
}

impl Creased {
    /// Finds the grid of a sheet and its folds.
    ///
    /// # Errors
    /// When a crease lies off the packet or within 1 mm of another, or there are too many panels.
    pub fn of(width: Length, height: Length, folds: &[RealFold]) -> Result<Self, CreaseError> {
        if width <= Length::ZERO || height <= Length::ZERO {
            return Err(CreaseError::NoSheet);
        }
        let along = |crease: Crease| -> Vec<(usize, RealFold)> {
            folds.iter().copied().enumerate().filter(|(_, f)| f.moves.crease() == crease).collect()
        };
        let across = strip(width, &along(Crease::Vertical))?;
        let down = strip(height, &along(Crease::Horizontal))?;
        if across.panels.len() * down.panels.len() > MAX_PANELS as usize {
            return Err(CreaseError::TooMany { fold: folds.len().saturating_sub(1) });
        }
        let (mut upright, mut level) = (across.after.into_iter(), down.after.into_iter());
        let mut counted = Vec::with_capacity(folds.len());
        for (fold, real) in folds.iter().enumerate() {
            let after = match real.moves.crease() {
                Crease::Vertical => upright.next(),
                Crease::Horizontal => level.next(),
            };
            counted.push(Fold::new(after.ok_or(CreaseError::Apart { fold })?, real.moves, real.lands));
        }
        let measure = Measure { columns: across.panels, rows: down.panels };
        Ok(Self { folds: counted, measure, packet: (across.folded, down.folded) })
    }

    /// The scheme, when it is known where the heads point and how it is read.
    #[must_use]
    pub fn scheme(&self, head: Direction, reads: Reads) -> Scheme {
        let (rows, columns) = (self.measure.rows.len() as u32, self.measure.columns.len() as u32);
        Scheme { rows, columns, folds: self.folds.clone(), head, reads }
    }
}

/// A fold in millimetres, and the packet that it is made in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stop {
    /// The fold; its stop is measured from the left or top edge of the packet.
    pub fold: RealFold,
    /// The width and height of the packet before the fold.
    pub packet: (Length, Length),
}

/// Where the folds of a scheme really lie.
///
/// # Errors
/// When the scheme can't be folded.
pub fn stops(scheme: &Scheme, measure: &Measure) -> Result<Vec<Stop>, FoldError> {
    let folding = Folding::of(scheme)?;
    let measured = Measured::of_folding(&folding, measure);
    let stop = |(i, step): (usize, &super::measure::MeasuredStep)| {
        let all = whole_span(&folding.packet(i).layers, measured.places(i), measure)?;
        let fold = scheme.folds.get(i)?;
        let edge = if fold.crease == Crease::Vertical { all.x0 } else { all.y0 };
        let fold = RealFold { stop: step.at - edge, moves: fold.moves, lands: fold.lands };
        Some(Stop { fold, packet: (all.width(), all.height()) })
    };
    Ok(measured.steps.iter().enumerate().filter_map(stop).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn fold(stop: Length, moves: Part, lands: Lands) -> RealFold {
        RealFold { stop, moves, lands }
    }

    #[test]
    fn a_letter_fold_has_three_panels() {
        let mm = Length::from_whole_mm;
        let folds = [fold(mm(200), Part::Right, Lands::Over), fold(mm(100), Part::Left, Lands::Over)];
        let found = Creased::of(mm(298), mm(210), &folds).unwrap();
        assert_eq!(found.measure.columns, [mm(100), mm(100), mm(98)]);
        assert_eq!(found.folds[0].after, 2);
        assert_eq!(found.folds[1].after, 1);
    }

    #[test]
    fn creases_off_the_packet_and_too_near_are_refused() {
        let mm = Length::from_whole_mm;
        let one = |stop| Creased::of(mm(300), mm(200), &[fold(stop, Part::Right, Lands::Over)]);
        assert!(matches!(one(mm(300)), Err(CreaseError::Outside { fold: 0, .. })));
        assert!(matches!(one(Length::ZERO), Err(CreaseError::Outside { .. })));
        assert!(matches!(one(Length::from_um(999)), Err(CreaseError::TooNear { .. })));
        assert!(matches!(Creased::of(mm(0), mm(200), &[]), Err(CreaseError::NoSheet)));
    }

    proptest! {
        /// Folds in any real place come back from the grid that was found, and the panels fold so.
        #[test]
        fn real_folds_come_back(tries in proptest::collection::vec((0..4usize, any::<bool>(), 0.02..0.98f64), 1..7)) {
            let (width, height) = (Length::from_whole_mm(1000), Length::from_whole_mm(700));
            let mut folds: Vec<RealFold> = Vec::new();
            for (part, over, share) in tries {
                let moves = [Part::Left, Part::Right, Part::Top, Part::Bottom][part];
                let lands = if over { Lands::Over } else { Lands::Under };
                // A fold off the paper tells how large the packet is.
                let probe = fold(Length::ZERO, moves, lands);
                let all: Vec<_> = folds.iter().copied().chain([probe]).collect();
                let Err(CreaseError::Outside { size, .. }) = Creased::of(width, height, &all) else { panic!() };
                folds.push(fold(Length::from_mm(size.mm() * share), moves, lands));
                if Creased::of(width, height, &folds).is_err_and(|e| matches!(e, CreaseError::TooNear { .. })) {
                    folds.pop();
                }
            }
            let found = Creased::of(width, height, &folds).unwrap();
            prop_assert_eq!((found.measure.width(), found.measure.height()), (width, height));
            let scheme = found.scheme(Direction::Up, Reads::LeftToRight);
            let folding = Folding::of(&scheme).unwrap();
            prop_assert_eq!(Measured::of_folding(&folding, &found.measure).misfits, []);
            let back: Vec<RealFold> = stops(&scheme, &found.measure).unwrap().iter().map(|s| s.fold).collect();
            prop_assert_eq!(back, folds);
        }
    }
}
