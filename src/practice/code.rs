//! An exercise as seven signs, to be typed in from paper.

use super::exercise::Exercise;
use super::kind::{Kind, LEVELS};
use crate::link;
use thiserror::Error;

/// The signs of codes. Left out is what a hand writes alike: O and Q and D beside 0, I and L beside 1, Z beside 2, S beside 5, G
/// beside 6, B beside 8, U beside V, N beside M. There are 23, a prime number, which the check needs.
pub const CODE_SIGNS: [char; 23] =
    ['2', '3', '4', '5', '6', '7', '8', '9', 'A', 'C', 'E', 'F', 'H', 'J', 'K', 'M', 'P', 'R', 'T', 'V', 'W', 'X', 'Y'];

/// Signs that carry the exercise; one more is the check.
const CARRY: usize = 6;

/// How many seeds have a code.
pub const MOST_CODED: u64 = 1_000_000;

/// Kinds that a code has room for.
const KINDS: u64 = 16;

/// Why signs are no code.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum NotACode {
    /// Too few or too many.
    #[error("A code has seven signs.")]
    Length,
    /// A sign that no code has.
    #[error("Codes have figures from 2 to 9 and letters that look like no figure; one of these signs is another one.")]
    Sign,
    /// The check does not fit.
    #[error("This code was written or typed wrongly somewhere: its last sign does not fit the others.")]
    Check,
    /// It fits and is none of ours.
    #[error("There is no exercise of this code.")]
    NoExercise,
}

/// The code of an exercise, as in `2A4C-7KX`; `None` for seeds of [`MOST_CODED`] or more, which go by link only.
#[must_use]
pub fn code(exercise: &link::Exercise) -> Option<String> {
    if exercise.seed >= MOST_CODED
        || Kind::of_number(exercise.kind).is_none()
        || !(1..=LEVELS).contains(&exercise.level)
    {
        return None;
    }
    let mut value =
        (exercise.seed * u64::from(LEVELS) + u64::from(exercise.level - 1)) * KINDS + u64::from(exercise.kind);
    // Neighbouring seeds get codes that look unlike each other: multiplied by a number without a common divisor.
    value = value * STRIDE % ROOM;
    let mut signs = [0_u64; CARRY];
    for sign in &mut signs {
        *sign = value % 23;
        value /= 23;
    }
    let mut text = String::new();
    for (at, sign) in signs.iter().chain(&[check(&signs)]).enumerate() {
        if at == 4 {
            text.push('-');
        }
        text.push(*CODE_SIGNS.get(*sign as usize)?);
    }
    Some(text)
}

/// 23 to the sixth: so many values have six signs.
const ROOM: u64 = 148_035_889;
/// No multiple of 23. Its inverse is [`BACK`].
const STRIDE: u64 = 61_803_399;
/// `STRIDE * BACK % ROOM` is 1.
const BACK: u64 = inverse();

const fn inverse() -> u64 {
    // Euler: the order of the group is 22 * 23^5, so the inverse is the power one below it.
    let (mut power, mut base, mut exponent) = (1_u64, STRIDE % ROOM, 22 * 6_436_343 - 1);
    while exponent > 0 {
        if exponent % 2 == 1 {
            power = power * base % ROOM;
        }
        base = base * base % ROOM;
        exponent /= 2;
    }
    power
}

/// The check sign. Weighted by 1 to 7, all signs add up to a multiple of 23: the weights differ, so that neither one changed
/// sign nor two exchanged ones pass (the reasoning of the check of ISBN-10, ISO 2108:1992, with 23 in place of 11).
fn check(signs: &[u64; CARRY]) -> u64 {
    let sum: u64 = signs.iter().zip(1..).map(|(sign, weight)| sign * weight).sum();
    // 7 times 10 is 1 modulo 23.
    (23 - sum % 23) * 10 % 23
}

/// The exercise of a code. Small letters, spaces and strokes do no harm.
///
/// # Errors
/// Why it is none, in a sentence.
pub fn exercise_of(code: &str) -> Result<link::Exercise, NotACode> {
    let mut signs = [0_u64; CARRY + 1];
    let mut given = code.chars().filter(|c| !c.is_whitespace() && *c != '-');
    for slot in &mut signs {
        let sign = given.next().ok_or(NotACode::Length)?.to_ascii_uppercase();
        let at = CODE_SIGNS.iter().position(|known| *known == sign).ok_or(NotACode::Sign)?;
        *slot = at as u64;
    }
    if given.next().is_some() {
        return Err(NotACode::Length);
    }
    let (Some(carry), Some(last)) = (signs.first_chunk::<CARRY>(), signs.last()) else { return Err(NotACode::Length) };
    if check(carry) != *last {
        return Err(NotACode::Check);
    }
    let value = carry.iter().rev().fold(0, |all, sign| all * 23 + sign) * BACK % ROOM;
    let (rest, kind) = (value / KINDS, (value % KINDS) as u8);
    let (seed, level) = (rest / u64::from(LEVELS), (rest % u64::from(LEVELS)) as u8 + 1);
    if Kind::of_number(kind).is_none() || seed >= MOST_CODED {
        return Err(NotACode::NoExercise);
    }
    Ok(link::Exercise { kind, level, seed })
}

impl Exercise {
    /// Its code, for seeds below [`MOST_CODED`].
    #[must_use]
    pub fn code(&self) -> Option<String> {
        code(&self.link())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn of(kind: u8, level: u8, seed: u64) -> link::Exercise {
        link::Exercise { kind, level, seed }
    }

    #[test]
    fn every_kind_and_level_has_a_code_and_seeds_without_end_have_none() {
        assert_eq!(STRIDE * BACK % ROOM, 1);
        for kind in 1..=8 {
            for level in 1..=LEVELS {
                for seed in [0, 1, 41, MOST_CODED - 1] {
                    let text = code(&of(kind, level, seed)).unwrap();
                    assert_eq!(exercise_of(&text), Ok(of(kind, level, seed)), "{text}");
                    assert_eq!(exercise_of(&text.to_lowercase().replace('-', " ")), Ok(of(kind, level, seed)));
                }
            }
        }
        assert_eq!(code(&of(1, 1, MOST_CODED)), None);
        assert_eq!(code(&of(9, 1, 1)), None);
        assert_eq!(code(&of(1, 6, 1)), None);
        assert_eq!(exercise_of(""), Err(NotACode::Length));
        assert_eq!(exercise_of("2222222222"), Err(NotACode::Length));
        assert_eq!(exercise_of("O222222"), Err(NotACode::Sign));
    }

    proptest! {
        #[test]
        fn every_changed_sign_and_every_exchange_is_found(kind in 1_u8..=8, level in 1_u8..=5, seed in 0..MOST_CODED) {
            let text: Vec<char> = code(&of(kind, level, seed)).unwrap().replace('-', "").chars().collect();
            for at in 0..text.len() {
                for sign in CODE_SIGNS {
                    let mut other = text.clone();
                    other[at] = sign;
                    if other != text {
                        prop_assert_eq!(exercise_of(&other.iter().collect::<String>()), Err(NotACode::Check));
                    }
                }
                for with in 0..at {
                    let mut other = text.clone();
                    other.swap(at, with);
                    if other != text {
                        prop_assert_eq!(exercise_of(&other.iter().collect::<String>()), Err(NotACode::Check));
                    }
                }
            }
        }

        #[test]
        fn any_text_is_read_or_refused(text in ".{0,20}") {
            if let Ok(exercise) = exercise_of(&text) {
                prop_assert!(code(&exercise).is_some());
            }
        }
    }
}
