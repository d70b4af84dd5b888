//! Text packed as what a model of jobs did not foresee.
//!
//! A model reads the text bit by bit and says beforehand how likely each bit is 1; the coder then takes few bits for what was
//! likely. The model is a mixture of guesses by what stood before (the last bytes, the name of the member) and by the last
//! place where the same bytes stood. It has read sample jobs before it begins (`primer.rs`), so that a job costs what is
//! its own: a title, sizes, what was done to the stack.
//!
//! The ideas are published: arithmetic coding (Rissanen and Langdon, IBM Journal of Research and Development 23, 1979), guesses
//! by contexts of several lengths (Cleary and Witten, IEEE Transactions on Communications 32, 1984), mixed by their
//! logarithmic odds with weights that learn (M. Mahoney, Florida Institute of Technology report CS-2005-16, 2005).
//!
//! All is whole numbers, so every machine packs and unpacks alike. Nothing here may ever change: links that were given out
//! would not be read any more. A better model is another one, beside this.

/// Bits of the tables' size.
const TABLE_BITS: u32 = 16;
/// Contexts: those of the last 1, 2, 3, 4 and 6 bytes, and the member's name with what stands behind it.
const CONTEXTS: usize = 6;
/// Inputs of the mixture: the contexts, the last match, and one that is always there.
const INPUTS: usize = CONTEXTS + 2;
/// A match is looked up by so many bytes.
const MATCH: usize = 5;

/// `65536 / (1 + e^(-x / 256))` at x = -2048, -1920, … 2048.
const LOGISTIC: [i32; 33] = [
    22, 36, 60, 98, 162, 267, 439, 720, 1179, 1921, 3108, 4971, 7812, 11955, 17625, 24743, 32768, 40793, 47911, 53581,
    57724, 60565, 62428, 63615, 64357, 64816, 65097, 65269, 65374, 65438, 65476, 65500, 65514,
];

/// Odds to a probability of 16 bits: between the points of the table in straight lines.
fn squash(odds: i32) -> i32 {
    let x = odds.clamp(-2047, 2047) + 2048;
    let (at, part) = ((x / 128) as usize, x % 128);
    let [low, high] = [at, at + 1].map(|i| LOGISTIC.get(i).copied().unwrap_or(65514));
    low + (high - low) * part / 128
}

/// A guess that learns: a probability of 22 bits, and below it how often it was tried.
#[derive(Clone, Copy)]
struct Guess(u32);

impl Guess {
    const NONE: Self = Self(1 << 31);

    /// The probability of a 1, 12 bits.
    const fn probability(self) -> usize {
        (self.0 >> 20) as usize
    }

    /// Learns a bit: at first much, later little.
    fn learn(&mut self, bit: bool) {
        let (p, tries) = (i64::from(self.0 >> 10), i64::from(self.0 & 1023));
        let target = if bit { (1 << 22) - 1 } else { 0 };
        let p = p + (target - p) * 2 / (2 * tries + 3);
        self.0 = (p as u32) << 10 | (tries + 1).min(255) as u32;
    }
}

/// What foresees the next bit.
#[derive(Clone)]
pub(super) struct Model {
    /// Odds by probabilities of 12 bits.
    stretch: Vec<i32>,
    tables: Vec<Guess>,
    /// The places in the tables of this bit's guesses.
    slots: [usize; CONTEXTS],
    /// The contexts' hashes at the last whole byte.
    hashes: [u32; CONTEXTS],
    weights: Vec<[i32; INPUTS]>,
    inputs: [i32; INPUTS],
    /// All bytes so far.
    read: Vec<u8>,
    /// The bits of the byte so far, behind a 1.
    partial: u32,
    /// Where each hash of the last bytes was seen last, one more than its place.
    seen: Vec<u32>,
    /// Where the match goes on, and how long it is; 0 for none.
    matched: (usize, usize),
    by_length: [Guess; 64],
    /// The name of the last member, and a hash of what stands behind it.
    member: u32,
    name: u32,
    in_text: bool,
    probability: i32,
}

impl Model {
    /// A model that has read a text.
    pub(super) fn primed(text: &str) -> Self {
        let mut stretch = vec![2047; 4096];
        let mut from = 0;
        for odds in -2047..2048 {
            let to = (squash(odds) >> 4) as usize;
            for slot in stretch.iter_mut().take(to + 1).skip(from) {
                *slot = odds;
            }
            from = from.max(to + 1);
        }
        let mut model = Self {
            stretch,
            tables: vec![Guess::NONE; CONTEXTS << TABLE_BITS],
            slots: [0; CONTEXTS],
            hashes: [0; CONTEXTS],
            weights: vec![[18_000; INPUTS]; 4 * 256],
            inputs: [0; INPUTS],
            read: Vec::new(),
            partial: 1,
            seen: vec![0; 1 << 14],
            matched: (0, 0),
            by_length: [Guess::NONE; 64],
            member: 0,
            name: 0,
            in_text: false,
            probability: 32_768,
        };
        model.foresee();
        for byte in text.bytes() {
            (0..8).rev().for_each(|at| model.learn(byte >> at & 1 == 1));
        }
        model
    }

    /// The probability of a 1 as the next bit, of 65,536; never none and never all.
    pub(super) const fn probability(&self) -> u32 {
        self.probability as u32
    }

    /// Learns the next bit.
    pub(super) fn learn(&mut self, bit: bool) {
        let error = if bit { 65_536 } else { 0 } - self.probability;
        let chosen = self.chosen();
        if let Some(weights) = self.weights.get_mut(chosen) {
            for (weight, input) in weights.iter_mut().zip(self.inputs) {
                *weight = (*weight + ((input * error) >> 17)).clamp(-(1 << 20), 1 << 20);
            }
        }
        for slot in self.slots {
            if let Some(guess) = self.tables.get_mut(slot) {
                guess.learn(bit);
            }
        }
        if let Some(expected) = self.expected() {
            if let Some(guess) = self.by_length.get_mut(self.matched.1.min(63)) {
                guess.learn(expected == bit);
            }
            if expected != bit {
                self.matched.1 = 0;
            }
        }
        self.partial = self.partial << 1 | u32::from(bit);
        if self.partial >= 256 {
            let byte = (self.partial & 255) as u8;
            self.partial = 1;
            self.took(byte);
        }
        self.foresee();
    }

    /// The weights that go with how long the match is and the byte so far.
    fn chosen(&self) -> usize {
        let by = match self.matched.1 {
            0 => 0,
            1..16 => 1,
            16..40 => 2,
            _ => 3,
        };
        by * 256 + (self.partial & 255) as usize
    }

    /// The bit that stood here where the last bytes stood before.
    fn expected(&self) -> Option<bool> {
        let (at, length) = self.matched;
        let byte = u32::from(*self.read.get(at)?) | 256;
        let made = self.partial.ilog2();
        (length > 0 && byte >> (8 - made) == self.partial).then(|| byte >> (7 - made) & 1 == 1)
    }

    /// A whole byte was read.
    fn took(&mut self, byte: u8) {
        self.read.push(byte);
        let n = self.read.len();
        // The name of a member is the last text in quotation marks before a colon.
        match byte {
            b'"' => {
                self.in_text = !self.in_text;
                if self.in_text {
                    self.name = 0;
                }
            }
            b':' if !self.in_text => self.member = self.name,
            _ => self.name = mix(self.name, u32::from(byte)),
        }
        let (at, length) = self.matched;
        self.matched = if length > 0 { (at + 1, length + 1) } else { (0, 0) };
        if let Some(last) = n.checked_sub(MATCH).and_then(|from| self.read.get(from..)) {
            let hash = last.iter().fold(0, |h, b| mix(h, u32::from(*b))) >> 18;
            if let Some(seen) = self.seen.get_mut(hash as usize) {
                if self.matched.1 == 0 && *seen > 0 {
                    let at = *seen as usize;
                    let pairs = self.read.iter().take(at).rev().zip(self.read.iter().rev());
                    self.matched = (at, pairs.take(60).take_while(|(a, b)| a == b).count());
                }
                *seen = n as u32;
            }
        }
        let mut hash = 0;
        let mut before = self.read.iter().rev();
        let mut last = |hash: &mut u32, bytes: usize| {
            for byte in before.by_ref().take(bytes) {
                *hash = mix(*hash, u32::from(*byte) + 1);
            }
            *hash
        };
        let orders = [1, 1, 1, 1, 2].map(|more| last(&mut hash, more));
        for (slot, order) in self.hashes.iter_mut().zip(orders) {
            *slot = order;
        }
        if let Some(slot) = self.hashes.last_mut() {
            *slot = mix(self.member, mix(u32::from(byte), self.name));
        }
    }

    /// Looks at all guesses for the next bit.
    fn foresee(&mut self) {
        for (i, hash) in self.hashes.into_iter().enumerate() {
            let slot = mix(hash.wrapping_add(i as u32), self.partial) >> (32 - TABLE_BITS);
            let slot = (i << TABLE_BITS) + slot as usize;
            let guess = self.tables.get(slot).copied().unwrap_or(Guess::NONE);
            if let (Some(place), Some(input)) = (self.slots.get_mut(i), self.inputs.get_mut(i)) {
                *place = slot;
                *input = self.stretch.get(guess.probability()).copied().unwrap_or(0);
            }
        }
        let matched = self.expected().map_or(0, |bit| {
            let guess = self.by_length.get(self.matched.1.min(63)).copied().unwrap_or(Guess::NONE);
            let odds = self.stretch.get(guess.probability()).copied().unwrap_or(0);
            if bit { odds } else { -odds }
        });
        let [.., input, always] = &mut self.inputs;
        (*input, *always) = (matched, 64);
        let weights = self.weights.get(self.chosen()).copied().unwrap_or([0; INPUTS]);
        let odds: i64 = weights.iter().zip(self.inputs).map(|(w, i)| i64::from(*w) * i64::from(i)).sum();
        let odds = (odds >> 16).clamp(-2047, 2047) as i32;
        self.probability = squash(odds);
    }
}

/// One number of two, every bit of them having its share.
const fn mix(a: u32, b: u32) -> u32 {
    let h = a.wrapping_mul(0x9e37_79b1) ^ b.wrapping_add(0x7f4a_7c15).wrapping_mul(0x85eb_ca6b);
    (h ^ h >> 15).wrapping_mul(0xc2b2_ae35)
}

/// Where the interval of a bit is divided: 1 takes what lies up to here.
fn middle(low: u32, high: u32, probability: u32) -> u32 {
    let span = u64::from(high - low);
    low + ((span * u64::from(probability)) >> 16) as u32
}

/// Packs some bytes by a model.
pub(super) fn pack(model: &mut Model, bytes: &[u8]) -> Vec<u8> {
    let (mut low, mut high, mut out) = (0, u32::MAX, Vec::new());
    for bit in bytes.iter().flat_map(|byte| (0..8).rev().map(move |at| byte >> at & 1 == 1)) {
        let cut = middle(low, high, model.probability());
        if bit {
            high = cut
        } else {
            low = cut + 1
        }
        while (low ^ high) >> 24 == 0 {
            out.push((low >> 24) as u8);
            low <<= 8;
            high = high << 8 | 255;
        }
        model.learn(bit);
    }
    // The shortest end that lies in the last interval, noughts following it.
    for bytes in 0..=4_u32 {
        let keep = u32::MAX.checked_shl(32 - 8 * bytes).unwrap_or(0);
        let end =
            if low & !keep == 0 { Some(low) } else { (low & keep).checked_add(!keep).and_then(|e| e.checked_add(1)) };
        if let Some(end) = end.filter(|e| *e <= high) {
            out.extend(end.to_be_bytes().into_iter().take(bytes as usize));
            break;
        }
    }
    while out.last() == Some(&0) {
        out.pop();
    }
    out
}

/// Unpacks so many bytes. What follows the packed bytes counts as noughts.
pub(super) fn unpack(model: &mut Model, packed: &[u8], count: usize) -> Vec<u8> {
    let mut rest = packed.iter().copied().chain(std::iter::repeat(0));
    let mut next = || rest.next().unwrap_or(0);
    let mut window = (0..4).fold(0_u32, |w, _| w << 8 | u32::from(next()));
    let (mut low, mut high, mut out) = (0, u32::MAX, Vec::new());
    for _ in 0..count {
        let byte = (0..8).fold(0_u8, |byte, _| {
            let cut = middle(low, high, model.probability());
            let bit = window <= cut;
            if bit {
                high = cut
            } else {
                low = cut + 1
            }
            while (low ^ high) >> 24 == 0 {
                low <<= 8;
                high = high << 8 | 255;
                window = window << 8 | u32::from(next());
            }
            model.learn(bit);
            byte << 1 | u8::from(bit)
        });
        out.push(byte);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Against the function itself, which no machine is asked for outside tests.
    #[test]
    fn the_table_is_the_logistic_function() {
        for (i, value) in (-16..=16).zip(LOGISTIC) {
            let exact = 65_536.0 / (1.0 + (-f64::from(i) / 2.0).exp());
            assert!((exact - f64::from(value)).abs() <= 0.5, "{i} {exact} {value}");
        }
        let stretch = Model::primed("").stretch;
        assert!((32..4064).all(|p| (squash(stretch[p]) / 16 - p as i32).abs() <= 4), "and back");
    }

    #[test]
    fn what_was_read_before_costs_next_to_nothing() {
        let text = r#"{"title":"An invented book","sections":18}"#;
        let fresh = pack(&mut Model::primed(""), text.as_bytes()).len();
        let known = pack(&mut Model::primed(text), text.as_bytes()).len();
        assert!(fresh < text.len() + 4 && known * 4 < fresh, "{fresh} {known}");
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

        #[test]
        fn what_is_packed_is_unpacked(bytes in proptest::collection::vec(any::<u8>(), 0..300)) {
            let packed = pack(&mut Model::primed("a b c"), &bytes);
            prop_assert!(packed.len() <= bytes.len() + bytes.len() / 4 + 8);
            prop_assert_eq!(unpack(&mut Model::primed("a b c"), &packed, bytes.len()), bytes);
        }

        #[test]
        fn no_bytes_make_it_panic(bytes in proptest::collection::vec(any::<u8>(), 0..60)) {
            let _ = unpack(&mut Model::primed(""), &bytes, 200);
        }
    }
}
