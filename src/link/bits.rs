//! Small numbers written bit by bit, so that what is usual takes little room.

/// Writes bits, the highest of each byte first.
#[derive(Default)]
pub(super) struct Writer {
    bytes: Vec<u8>,
    used: u32,
}

impl Writer {
    /// One bit.
    pub(super) fn bit(&mut self, bit: bool) {
        if self.used.is_multiple_of(8) {
            self.bytes.push(0);
        }
        if let Some(last) = self.bytes.last_mut() {
            *last |= u8::from(bit) << (7 - self.used % 8);
        }
        self.used += 1;
    }

    /// The lowest `count` bits of a number.
    pub(super) fn bits(&mut self, value: u32, count: u32) {
        (0..count.min(32)).rev().for_each(|at| self.bit(value >> at & 1 == 1));
    }

    /// A number: as many noughts as it has bits after its first, and then its bits (P. Elias's gamma code, IEEE Transactions
    /// on Information Theory 21, 1975, of the number and one).
    pub(super) fn number(&mut self, value: u32) {
        let value = value.saturating_add(1);
        let more = value.ilog2();
        (0..more).for_each(|_| self.bit(false));
        self.bits(value, more + 1);
    }

    /// A number that may not be there.
    pub(super) fn maybe(&mut self, value: Option<u32>) {
        self.bit(value.is_some());
        if let Some(value) = value {
            self.number(value);
        }
    }

    /// The bytes; what is left of the last is nought.
    pub(super) fn done(self) -> Vec<u8> {
        self.bytes
    }
}

/// Reads them again. `None` where the bits end too soon.
pub(super) struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl<'a> Reader<'a> {
    /// From the first bit on.
    pub(super) const fn new(bytes: &'a [u8]) -> Self {
        Self { bytes, at: 0 }
    }

    /// One bit.
    pub(super) fn bit(&mut self) -> Option<bool> {
        let byte = self.bytes.get(self.at / 8)?;
        let bit = byte >> (7 - self.at % 8) & 1 == 1;
        self.at += 1;
        Some(bit)
    }

    /// So many bits.
    pub(super) fn bits(&mut self, count: u32) -> Option<u32> {
        (0..count.min(32)).try_fold(0, |value: u32, _| Some(value << 1 | u32::from(self.bit()?)))
    }

    /// A number, if it is not above `most`.
    pub(super) fn number(&mut self, most: u32) -> Option<u32> {
        let mut more = 0;
        while !self.bit()? {
            more += 1;
            if more > 31 {
                return None;
            }
        }
        let value = (1 << more | self.bits(more)?) - 1;
        (value <= most).then_some(value)
    }

    /// A number that may not be there.
    pub(super) fn maybe(&mut self, most: u32) -> Option<Option<u32>> {
        if self.bit()? { self.number(most).map(Some) } else { Some(None) }
    }

    /// Whether nothing is left but the noughts that fill the last byte.
    pub(super) fn ended(mut self) -> bool {
        let left = (self.bytes.len() * 8).saturating_sub(self.at);
        left < 8 && (0..left).all(|_| self.bit() == Some(false))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn small_numbers_take_few_bits() {
        let bits = |value| {
            let mut writer = Writer::default();
            writer.number(value);
            writer.used
        };
        assert_eq!([0, 1, 2, 6, 7, u32::MAX - 1].map(bits), [1, 3, 3, 5, 7, 63]);
    }

    proptest! {
        #[test]
        fn what_is_written_is_read(numbers in proptest::collection::vec(proptest::option::of(0..u32::MAX), 0..20)) {
            let mut writer = Writer::default();
            numbers.iter().for_each(|n| writer.maybe(*n));
            let bytes = writer.done();
            let mut reader = Reader::new(&bytes);
            for n in numbers {
                prop_assert_eq!(reader.maybe(u32::MAX), Some(n));
            }
            prop_assert!(reader.ended());
        }

        #[test]
        fn no_bytes_make_it_panic(bytes in proptest::collection::vec(any::<u8>(), 0..40)) {
            let mut reader = Reader::new(&bytes);
            while reader.maybe(1000).is_some() {}
        }
    }
}
