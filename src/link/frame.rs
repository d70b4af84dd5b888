//! The form that every link has, whatever it holds.
//!
//! ```text
//! # 1 s W x … … … … … … c c c c c c
//!   │ │ │ │ └── body ──┘ └─────────┘ CRC-32 over all signs before it, lowest bits first
//!   │ │ │ └ check sign of the signs before it (CRC-6)
//!   │ │ └ how many signs follow the check sign: 1 to 3 signs, five bits each, the lowest first; 32 means “more”
//!   │ └ what it holds: s a scene, e an exercise, j a job
//!   └ version of the form, from 1
//! ```
//!
//! Every later version keeps the first signs up to the check sign, so that a program can say of any link whether it is too new
//! for it, or cut short and by how much.

use super::crc::{crc6, crc32};
use super::refused::Refused;
use super::signs::{join, sign, signs_for, split, value};

/// The version that is written here.
pub(super) const VERSION: u8 = 1;

/// The most signs behind the check sign: what three signs of length can say.
pub(super) const MOST_SIGNS: usize = (1 << 15) - 1;

/// Signs of the CRC-32.
const CHECK: usize = 6;

/// Frames a body: all signs of a link, without the `#`. `None` if it is too long.
pub(super) fn framed(kind: char, body: &[u8]) -> Option<String> {
    let follow = signs_for(body.len()) + CHECK;
    if follow > MOST_SIGNS {
        return None;
    }
    let mut values = vec![value(char::from(b'0' + VERSION))?, value(kind)?];
    let mut left = follow;
    while left >= 32 {
        values.push((left & 31) as u8 | 32);
        left >>= 5;
    }
    values.push(left as u8);
    values.push(crc6(values.iter().copied()));
    values.extend(split(body));
    let check = crc32(values.iter().copied(), 6);
    values.extend((0..CHECK).map(|at| (check >> (6 * at) & 63) as u8));
    Some(values.into_iter().map(sign).collect())
}

/// A body and what it holds.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Framed {
    /// The sign of the kind.
    pub kind: char,
    /// The body.
    pub body: Vec<u8>,
}

/// Takes a link as it was found: an address with `#`, or what follows it. White space is left out, since mail breaks long
/// lines, and so are stops and brackets behind the last sign.
pub(super) fn unframed(text: &str) -> Result<Framed, Refused> {
    // Four bytes for a sign, and the address before it: more is no link, and is not gone through.
    if text.len() > 8 * MOST_SIGNS {
        return Err(Refused::TooLong);
    }
    let signs = text.rsplit_once('#').map_or(text, |(_, signs)| signs);
    let closing = |c: char| c.is_whitespace() || ".,;:!?)]}>\"'’”»".contains(c);
    let signs: Vec<char> = signs.trim_end_matches(closing).chars().filter(|c| !c.is_whitespace()).collect();
    if signs.is_empty() {
        return Err(Refused::Empty);
    }
    let mut values = Vec::with_capacity(signs.len());
    for (at, c) in (1..).zip(&signs) {
        let Some(value) = value(*c) else { return Err(Refused::Sign { at, sign: *c }) };
        values.push(value);
    }
    let head = head(&signs, &values)?;
    if head.version > VERSION {
        return Err(Refused::Newer { version: head.version });
    }
    let found = values.len() - head.signs;
    if found < head.follow {
        return Err(Refused::Cut { missing: head.follow - found });
    }
    if found > head.follow {
        return Err(Refused::Surplus { signs: found - head.follow });
    }
    let (body, check) = values.split_at_checked(values.len().saturating_sub(CHECK)).unwrap_or_default();
    let found = check.iter().rev().fold(0_u64, |all, v| all << 6 | u64::from(*v));
    if found != u64::from(crc32(body.iter().copied(), 6)) {
        return Err(Refused::Changed);
    }
    match body.get(head.signs..).and_then(join) {
        Some(body) => Ok(Framed { kind: head.kind, body }),
        None => Err(Refused::Changed),
    }
}

/// What the first signs say.
struct Head {
    version: u8,
    kind: char,
    /// Signs up to the check sign.
    signs: usize,
    /// Signs behind it.
    follow: usize,
}

fn head(signs: &[char], values: &[u8]) -> Result<Head, Refused> {
    let (mut follow, mut at, mut more) = (0, 2, true);
    while more && at < 5 {
        let Some(value) = values.get(at) else { return Err(Refused::CutAtOnce) };
        follow |= usize::from(value & 31) << (5 * (at - 2));
        more = value & 32 == 32;
        at += 1;
    }
    let Some(check) = values.get(at) else { return Err(Refused::CutAtOnce) };
    let version = signs.first().and_then(|c| c.to_digit(10)).filter(|v| *v > 0);
    // A length is written in as few signs as it can be.
    let short = at == 3 || values.get(at - 1) != Some(&0);
    let fits = !more && short && *check == crc6(values.iter().copied().take(at)) && follow >= CHECK;
    match (version, signs.get(1)) {
        (Some(version), Some(kind)) if fits => Ok(Head { version: version as u8, kind: *kind, signs: at + 1, follow }),
        _ => Err(Refused::Beginning),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_a_link_is_wrapped_in_is_left_out() {
        let link = framed('s', &[1, 2, 3]).unwrap();
        assert_eq!(link.len(), 4 + 4 + 6);
        let body = Framed { kind: 's', body: vec![1, 2, 3] };
        for text in [
            format!("https://example.org/b/#{link}"),
            format!("  #{link}). "),
            format!("{}\r\n {}", &link[..6], &link[6..]),
        ] {
            assert_eq!(unframed(&text).unwrap(), body, "{text}");
        }
    }

    #[test]
    fn it_is_said_how_much_is_missing_and_what_does_not_belong() {
        let link = framed('j', &[7; 90]).unwrap();
        assert_eq!(link.len(), 5 + 120 + 6);
        for cut in 1..link.len() {
            let refused = unframed(&link[..link.len() - cut]).unwrap_err();
            let expected = if cut <= 126 { Refused::Cut { missing: cut } } else { Refused::CutAtOnce };
            assert_eq!(refused, expected);
        }
        assert_eq!(unframed(&format!("{link}AAA")), Err(Refused::Surplus { signs: 3 }));
        assert_eq!(unframed(&format!("{}.{}", &link[..20], &link[21..])), Err(Refused::Sign { at: 21, sign: '.' }));
        assert_eq!(unframed(" # "), Err(Refused::Empty));
        assert_eq!(unframed(&"A".repeat(300_000)), Err(Refused::TooLong));
        assert_eq!(framed('j', &vec![0; 30_000]), None);
    }

    #[test]
    fn a_newer_form_is_told_from_a_changed_sign() {
        let mut values: Vec<u8> = ['2', 'x', 'G'].into_iter().filter_map(value).collect();
        values.push(crc6(values.iter().copied()));
        let newer: String = values.into_iter().map(sign).collect();
        assert_eq!(unframed(&newer), Err(Refused::Newer { version: 2 }));
        let link = framed('s', &[1]).unwrap().replacen('1', "2", 1);
        assert_eq!(unframed(&link), Err(Refused::Beginning));
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 16, ..ProptestConfig::default() })]

        /// Every sign changed to any other, and every two signs exchanged.
        #[test]
        fn every_single_change_and_every_exchange_is_found(body in proptest::collection::vec(any::<u8>(), 0..40)) {
            let link: Vec<u8> = framed('j', &body).unwrap().into_bytes();
            prop_assert_eq!(unframed(std::str::from_utf8(&link).unwrap()).unwrap().body, body);
            let refused = |link: &[u8]| unframed(std::str::from_utf8(link).unwrap()).is_err();
            for at in 0..link.len() {
                for other in (0..64).map(|v| sign(v) as u8).filter(|o| *o != link[at]) {
                    let mut changed = link.clone();
                    changed[at] = other;
                    prop_assert!(refused(&changed), "sign {} to {}", at + 1, char::from(other));
                }
                for with in (0..at).filter(|with| link[*with] != link[at]) {
                    let mut changed = link.clone();
                    changed.swap(at, with);
                    prop_assert!(refused(&changed), "signs {} and {}", with + 1, at + 1);
                }
            }
        }

        #[test]
        fn no_text_makes_it_panic(text in "[ -~é#]{0,60}") {
            let _ = unframed(&text);
        }
    }
}
