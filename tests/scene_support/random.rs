//! Schemes and views made up at random, besides those at hand.

use super::SCHEMES;
use backmark::fold::{Crease, Direction, Fold, Folding, Lands, Part, Reads, Scheme, library};
use backmark::scene::{Turned, View};
use std::collections::BTreeMap;

pub fn views(random: &mut Random) -> [View; 5] {
    let beneath = View { eye: -50.0, ..View::OPENING };
    let steep = View { turn: -60.0, eye: 25.0, ..View::OPENING };
    [View::OPENING, beneath, steep, any_view(random), any_view(random)]
}

/// Any view of a sheet that lies, or is on its way to lie, in any way.
pub fn any_view(random: &mut Random) -> View {
    let lay = Turned::NOT.over(random.share() * 360.0).round(random.share() * 360.0);
    View { turn: random.share() * 150.0 - 75.0, eye: random.share() * 178.0 - 89.0, lay, ..View::OPENING }
}

/// The schemes at hand, and made-up ones: any crease, any part, over and under, finished and unfinished.
pub fn schemes(seed: u64) -> BTreeMap<String, Scheme> {
    let mut random = Random::new(seed);
    let mut all: BTreeMap<String, Scheme> = library().into_iter().map(|s| (s.name.to_owned(), s.scheme)).collect();
    for number in 0..SCHEMES {
        all.insert(format!("random {number} of seed {seed:#x},"), any_scheme(&mut random));
    }
    all
}

pub fn any_scheme(random: &mut Random) -> Scheme {
    let (rows, columns) = (1 + random.below(4), 1 + random.below(6));
    let reads = if random.below(4) == 0 { Reads::RightToLeft } else { Reads::LeftToRight };
    let mut scheme = Scheme { rows, columns, folds: Vec::new(), head: Direction::Up, reads };
    loop {
        let folding = Folding::of(&scheme).unwrap();
        let extent = folding.last().extent();
        let (w, h) = (extent.width().unsigned_abs(), extent.height().unsigned_abs());
        if (w == 1 && h == 1) || random.below(40) == 0 {
            break;
        }
        let upright = if w == 1 { false } else { h == 1 || random.below(2) == 0 };
        let (parts, size) = if upright { ([Part::Left, Part::Right], w) } else { ([Part::Top, Part::Bottom], h) };
        let lands = if random.below(2) == 0 { Lands::Over } else { Lands::Under };
        let part = parts[random.below(2) as usize];
        scheme.folds.push(Fold::new(1 + random.below(size - 1), part, lands));
    }
    let last_upright = scheme.folds.last().is_none_or(|f| f.crease == Crease::Vertical);
    let heads = if last_upright { [Direction::Up, Direction::Down] } else { [Direction::Left, Direction::Right] };
    scheme.head = heads[random.below(2) as usize];
    scheme
}

/// A small generator (SplitMix64), so that a failure comes back with its seed.
pub struct Random(u64);

impl Random {
    pub fn new(seed: u64) -> Random {
        Random(seed)
    }

    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    pub fn below(&mut self, n: u32) -> u32 {
        (self.next() % u64::from(n.max(1))) as u32
    }

    pub fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }
}

/// A sheet of sixty-four panels, six right-angle folds: larger than any at hand.
pub fn hundred_and_twenty_eight() -> Scheme {
    use Part::{Bottom, Right, Top};
    let folds = [(4, Bottom), (4, Right), (2, Top), (2, Right), (1, Top), (1, Right)];
    let folds = folds.into_iter().map(|(after, part)| Fold::new(after, part, Lands::Over)).collect();
    Scheme { rows: 8, columns: 8, folds, head: Direction::Up, reads: Reads::LeftToRight }
}
