//! CRC-32, the cyclic redundancy check of IEEE 802.3 (Ethernet), clause 3.2.9.
//!
//! It is taken over the signs of a link, six bits each, lowest bit first, as it is over bytes elsewhere. Its polynomial is
//! primitive, so it finds every change within 32 neighbouring bits, thus every sign that was changed; and every two signs
//! that changed places: both then differ by the same bits, and the polynomial divides neither those six bits nor
//! x^n + 1 for any n below 2^32 - 1. What else is changed slips through once in 4,294,967,296 times.

/// The polynomial of IEEE 802.3, its bits reversed.
const POLYNOMIAL: u32 = 0xedb8_8320;

/// The check of some values of so many bits each.
pub(super) fn crc32(values: impl IntoIterator<Item = u8>, bits: u32) -> u32 {
    // Links are short: bit by bit is quick enough, and needs no table.
    !values.into_iter().fold(u32::MAX, |crc, value| {
        (0..bits).fold(crc ^ u32::from(value), |crc, _| (crc >> 1) ^ if crc & 1 == 1 { POLYNOMIAL } else { 0 })
    })
}

/// A check of one sign over signs of six bits each: the remainder by x^6 + x + 1, which is primitive, too. It finds every
/// change of one sign.
pub(super) fn crc6(signs: impl IntoIterator<Item = u8>) -> u8 {
    signs.into_iter().fold(0, |crc, sign| {
        (0..6).fold((crc ^ sign) & 63, |crc, _| ((crc << 1) ^ if crc & 32 == 32 { 3 } else { 0 }) & 63)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first is the check value of CRC-32/ISO-HDLC in G. Cook's catalogue of parametrised CRC algorithms; the others
    /// are Python's `zlib.crc32` of the same bytes.
    #[test]
    fn known_texts_have_their_known_checks() {
        assert_eq!(crc32(*b"123456789", 8), 0xcbf4_3926);
        assert_eq!(crc32([], 8), 0);
        assert_eq!(crc32(*b"The quick brown fox jumps over the lazy dog", 8), 0x414f_a339);
        assert_eq!(crc32([0; 32], 8), 0x190a_55ad);
    }

    #[test]
    fn every_single_change_and_every_swap_of_neighbours_changes_the_short_check() {
        let signs = [53, 44, 12, 3, 60];
        let good = crc6(signs);
        for at in 0..signs.len() {
            for other in (0..64).filter(|o| *o != signs[at]) {
                let mut changed = signs;
                changed[at] = other;
                assert_ne!(crc6(changed), good, "{at} {other}");
            }
        }
        for at in 1..signs.len() {
            let mut swapped = signs;
            swapped.swap(at - 1, at);
            assert_ne!(crc6(swapped), good, "{at}");
        }
    }
}
