//! One number from everything that was played.

use crate::marks::{Found, Lies};

/// FNV-1a of 64 bits: G. Fowler, L. C. Noll, K.-P. Vo and D. Eastlake, "The FNV Non-Cryptographic Hash Algorithm",
/// IETF draft-eastlake-fnv. It tells runs apart and is no seal against forging.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Digest(u64);

impl Default for Digest {
    fn default() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }
}

impl Digest {
    /// Takes in bytes.
    pub fn bytes(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.0 = (self.0 ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3);
        }
    }

    /// Takes in a number, least byte first.
    pub fn number(&mut self, number: u32) {
        self.bytes(&number.to_le_bytes());
    }

    /// Takes in a list of backs, with its length.
    pub fn backs(&mut self, found: &[Found]) {
        self.number(found.len() as u32);
        for back in found {
            let code = match *back {
                Found::Section { section, lies } => {
                    let lies = match lies {
                        Lies::Right => 0,
                        Lies::HeadToTail => 1,
                        Lies::TurnedInPlane => 2,
                        Lies::SideToSide => 3,
                    };
                    8 * section + lies
                }
                Found::NoMark => 4,
                Found::Foreign => 5,
                Found::Unread => 6,
            };
            self.number(code);
        }
    }

    /// The digest as sixteen hexadecimal digits.
    #[must_use]
    pub fn hex(&self) -> String {
        format!("{:016x}", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The test vectors of draft-eastlake-fnv for FNV-1a of 64 bits.
    #[test]
    fn published_digests() {
        for (text, hex) in [("", "cbf29ce484222325"), ("a", "af63dc4c8601ec8c"), ("foobar", "85944171f73967e8")] {
            let mut digest = Digest::default();
            digest.bytes(text.as_bytes());
            assert_eq!(digest.hex(), hex, "{text:?}");
        }
    }

    #[test]
    fn backs_that_differ_have_other_digests() {
        let of = |found: &[Found]| {
            let mut digest = Digest::default();
            digest.backs(found);
            digest.hex()
        };
        let turned = Found::Section { section: 1, lies: Lies::HeadToTail };
        let all = [Found::right(1), Found::right(2), turned, Found::Foreign, Found::NoMark, Found::Unread];
        let mut seen = all.map(|found| of(&[found])).to_vec();
        seen.push(of(&[]));
        seen.sort();
        seen.dedup();
        assert_eq!(seen.len(), 7);
    }
}
