//! The signs of a link: the 64 that are safe in an address, six bits each (RFC 4648, section 5, “base64url”, unpadded).

/// The signs in order.
const SIGNS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

/// The sign of a value; only its lowest six bits count.
pub(super) fn sign(value: u8) -> char {
    char::from(SIGNS.get(usize::from(value & 63)).copied().unwrap_or(b'A'))
}

/// The value of a sign.
pub(super) fn value(sign: char) -> Option<u8> {
    let sign = u8::try_from(sign).ok()?;
    SIGNS.iter().position(|s| *s == sign).map(|at| at as u8)
}

/// How many signs so many bytes take.
pub(super) const fn signs_for(bytes: usize) -> usize {
    bytes.saturating_mul(4).div_ceil(3)
}

/// Bytes as the values of signs.
pub(crate) fn split(bytes: &[u8]) -> Vec<u8> {
    let mut values = Vec::with_capacity(signs_for(bytes.len()));
    let (mut held, mut bits) = (0_u32, 0);
    for byte in bytes {
        held = held << 8 | u32::from(*byte);
        bits += 8;
        while bits >= 6 {
            bits -= 6;
            values.push((held >> bits & 63) as u8);
        }
    }
    if bits > 0 {
        values.push((held << (6 - bits) & 63) as u8);
    }
    values
}

/// The bytes again. `None` if the bits left over at the end are not nought, or are a whole sign too many: then a sign was
/// changed that no byte would show.
pub(super) fn join(values: &[u8]) -> Option<Vec<u8>> {
    let mut bytes = Vec::with_capacity(values.len() * 3 / 4);
    let (mut held, mut bits) = (0_u32, 0);
    for value in values {
        held = held << 6 | u32::from(value & 63);
        bits += 6;
        if bits >= 8 {
            bits -= 8;
            bytes.push((held >> bits & 255) as u8);
        }
    }
    let left = held & ((1 << bits) - 1);
    (bits < 6 && left == 0).then_some(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn text(bytes: &[u8]) -> String {
        split(bytes).into_iter().map(sign).collect()
    }

    /// The test vectors of RFC 4648, section 10, without their padding.
    #[test]
    fn the_vectors_of_the_rfc() {
        let all = ["", "f", "fo", "foo", "foob", "fooba", "foobar"].map(|t| text(t.as_bytes()));
        assert_eq!(all, ["", "Zg", "Zm8", "Zm9v", "Zm9vYg", "Zm9vYmE", "Zm9vYmFy"]);
        assert_eq!(text(&[0xfb, 0xff]), "-_8");
    }

    proptest! {
        #[test]
        fn what_is_split_is_joined_again(bytes in proptest::collection::vec(any::<u8>(), 0..100)) {
            let values = split(&bytes);
            prop_assert_eq!(values.len(), signs_for(bytes.len()));
            let signs: Vec<u8> = values.iter().filter_map(|v| value(sign(*v))).collect();
            prop_assert_eq!(join(&signs), Some(bytes));
        }
    }
}
