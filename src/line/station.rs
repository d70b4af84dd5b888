//! One station: its hopper, its feed, and what watches it.

use std::collections::VecDeque;

use super::run::{Detectors, Rates};
use crate::dice::{Dice, in_a_million};
use crate::marks::Found;
use crate::since::Fed;
use crate::since::Stopper;

/// What a station brought into a book: none, one or two sections.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Brought {
    None,
    One(Found),
    Two(Found, Found),
}

/// What happened at a feed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Fed1 {
    /// What lies in the book after it.
    pub brought: Brought,
    /// What stopped the line, if anything did.
    pub stopped: Option<Stopper>,
}

/// Sections of one kind in a hopper.
#[derive(Clone, Copy, Debug)]
struct Pile {
    what: Found,
    count: u32,
}

/// A gripper, or whatever comes round every so many books, that is out of order.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cycle {
    pub every: u32,
    /// Books until the next wrong one, counting it.
    pub next: u32,
    pub brings: Option<u32>,
}

/// A station.
#[derive(Clone, Debug)]
pub(super) struct Station {
    /// Its number.
    pub number: u32,
    /// What its lifts hold.
    own: Found,
    /// What the camera was taught.
    taught: Found,
    dice: Dice,
    /// For the hands that load it, so that the feeds fall as they would without.
    loads: Dice,
    miss: u64,
    miss_or_double: u64,
    /// The pile that is fed now; `piles` holds the others.
    now: Pile,
    piles: VecDeque<Pile>,
    /// Sections in the hopper.
    pub stock: u32,
    /// It is reloaded when no more are left.
    reload_at: u32,
    /// Books that are still to be filled by hand, and with what.
    pub by_hand: (u32, Option<u32>),
    pub cycle: Option<Cycle>,
}

/// The shares of a million as numbers for the dice.
#[derive(Clone, Copy, Debug)]
pub(super) struct Watch {
    caliper: bool,
    camera: bool,
    caliper_passes: u64,
    camera_passes: u64,
}

impl Watch {
    pub(super) fn of(detectors: &Detectors) -> Self {
        Self {
            caliper: detectors.caliper,
            camera: detectors.camera,
            caliper_passes: in_a_million(detectors.caliper_passes_per_million),
            camera_passes: in_a_million(detectors.camera_passes_per_million),
        }
    }
}

impl Station {
    /// A station that gives a section, with a hopper somewhere between one lift and two.
    pub(super) fn new(number: u32, gives: u32, lift: u32, dice: &mut Dice) -> Self {
        let [own, mut loads] = [dice.split(), dice.split()];
        let stock = lift + loads.below(lift);
        let what = Found::right(gives);
        let mut station = Self {
            number,
            own: what,
            taught: what,
            dice: own,
            loads,
            miss: 0,
            miss_or_double: 0,
            now: Pile { what, count: stock },
            piles: VecDeque::new(),
            stock,
            reload_at: 1,
            by_hand: (0, None),
            cycle: None,
        };
        station.look_again(lift);
        station
    }

    /// Sets how often its feed goes wrong.
    pub(super) fn rates(&mut self, rates: &Rates) {
        self.miss = in_a_million(rates.miss_per_million);
        self.miss_or_double = in_a_million(rates.miss_per_million + rates.double_per_million);
    }

    /// When hands come to load it next: with 1 section left or more, up to half a lift.
    fn look_again(&mut self, lift: u32) {
        self.reload_at = 1 + self.loads.below(lift.div_ceil(2));
    }

    /// Is it time to reload?
    pub(super) const fn runs_low(&self) -> bool {
        self.stock <= self.reload_at
    }

    /// Puts a lift of its own section in.
    pub(super) fn reload(&mut self, lift: u32, fed: Fed) {
        self.load(self.own, lift, fed);
        self.look_again(lift);
    }

    /// Puts a lift of anything in.
    pub(super) fn load(&mut self, what: Found, count: u32, fed: Fed) {
        self.stock += count;
        match fed {
            Fed::Bottom => match self.piles.back_mut() {
                Some(last) if last.what == what => last.count += count,
                None if self.now.what == what => self.now.count += count,
                _ => self.piles.push_back(Pile { what, count }),
            },
            Fed::Top if self.now.what == what => self.now.count += count,
            Fed::Top => {
                let under = std::mem::replace(&mut self.now, Pile { what, count });
                self.piles.push_front(under);
            }
        }
    }

    /// Takes one section out of the hopper. There is always one more than is taken: see [`Station::runs_low`].
    fn take(&mut self) -> Found {
        let what = self.now.what;
        self.stock = self.stock.saturating_sub(1);
        self.now.count = self.now.count.saturating_sub(1);
        if self.now.count == 0
            && let Some(next) = self.piles.pop_front()
        {
            self.now = next;
        }
        what
    }

    /// Takes piles of anything but its own section out of the hopper.
    fn clear(&mut self) {
        let own = self.own;
        self.piles.push_front(self.now);
        self.piles.retain(|pile| pile.what == own);
        self.stock = self.piles.iter().map(|pile| pile.count).sum();
        self.now = self.piles.pop_front().unwrap_or(Pile { what: own, count: 0 });
    }

    /// Feeds a book. The station has been reloaded where it ran low.
    pub(super) fn feed(&mut self, watch: &Watch) -> Fed1 {
        let roll = self.dice.roll();
        if self.by_hand.0 > 0 {
            self.by_hand.0 -= 1;
            let brought = self.by_hand.1.map_or(Brought::None, |section| Brought::One(Found::right(section)));
            return Fed1 { brought, stopped: None };
        }
        let mut brought = None;
        if let Some(cycle) = &mut self.cycle {
            cycle.next -= 1;
            if cycle.next == 0 {
                cycle.next = cycle.every;
                brought = Some(cycle.brings.map_or(Brought::None, |section| Brought::One(Found::right(section))));
            }
        }
        let brought = match brought {
            Some(brought) => brought,
            None if roll < self.miss => Brought::None,
            None if roll < self.miss_or_double => Brought::Two(self.take(), self.take()),
            None => {
                let what = self.take();
                if what == self.taught {
                    return Fed1 { brought: Brought::One(what), stopped: None };
                }
                Brought::One(what)
            }
        };
        self.watched(brought, watch)
    }

    /// A feed that is not as it should be: what watches it may stop the line, and then it is put right.
    fn watched(&mut self, brought: Brought, watch: &Watch) -> Fed1 {
        let by_caliper = watch.caliper && !matches!(brought, Brought::One(_));
        let by_camera = watch.camera
            && match brought {
                Brought::None => true,
                Brought::One(what) | Brought::Two(what, _) => what != self.taught,
            };
        let stopped = if by_caliper && self.dice.roll() >= watch.caliper_passes {
            Some(Stopper::Caliper)
        } else if by_camera && self.dice.roll() >= watch.camera_passes {
            Some(Stopper::Camera)
        } else {
            None
        };
        let brought = match (stopped, brought) {
            (None, brought) => brought,
            // One is drawn out and goes back.
            (Some(Stopper::Caliper), Brought::Two(what, back)) => {
                self.put_back(back);
                Brought::One(what)
            }
            // What the hand puts in is taken from the pile, whatever that is.
            (Some(Stopper::Caliper), _) => Brought::One(self.take()),
            // Whoever sees what the camera saw clears the hopper and puts the right one in.
            (Some(Stopper::Camera), _) => {
                self.clear();
                Brought::One(self.taught)
            }
        };
        Fed1 { brought, stopped }
    }

    /// Lays a section back on the pile that is fed now.
    fn put_back(&mut self, what: Found) {
        self.stock += 1;
        if self.now.what == what {
            self.now.count += 1;
        } else {
            let under = std::mem::replace(&mut self.now, Pile { what, count: 1 });
            self.piles.push_front(under);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn station(lift: u32) -> Station {
        Station::new(5, 5, lift, &mut Dice::new(1))
    }

    fn nothing() -> Watch {
        Watch::of(&Detectors { caliper: false, ..Detectors::default() })
    }

    #[test]
    fn a_lift_goes_in_at_the_end_that_is_fed_last_or_first() {
        for (fed, wrong) in [(Fed::Bottom, 3..=5), (Fed::Top, 1..=3)] {
            let mut station = station(10);
            station.now.count = 2;
            station.stock = 2;
            station.load(Found::right(9), 3, fed);
            station.load(Found::right(5), 4, Fed::Bottom);
            assert_eq!(station.stock, 9);
            for book in 1..=9 {
                let due = if wrong.contains(&book) { 9 } else { 5 };
                assert_eq!(station.feed(&nothing()).brought, Brought::One(Found::right(due)), "{fed:?} {book}");
            }
        }
    }

    #[test]
    fn a_camera_clears_the_hopper_and_a_caliper_does_not_see_it() {
        let load = |camera, caliper| {
            let mut station = station(10);
            station.load(Found::right(9), 3, Fed::Top);
            let watch = Detectors { camera, caliper, camera_passes_per_million: 0, ..Detectors::default() };
            (0..4).map(|_| station.feed(&Watch::of(&watch))).collect::<Vec<_>>()
        };
        let right = Brought::One(Found::right(5));
        let seen = load(true, true);
        assert_eq!(seen[0], Fed1 { brought: right, stopped: Some(Stopper::Camera) });
        assert!(seen[1..].iter().all(|fed| *fed == Fed1 { brought: right, stopped: None }));
        let passed = load(false, true);
        assert_eq!(passed[2].brought, Brought::One(Found::right(9)));
        assert_eq!(passed[3].brought, right);
    }

    #[test]
    fn a_caliper_stops_for_none_and_for_two() {
        let certain = Detectors { caliper_passes_per_million: 0, ..Detectors::default() };
        for rates in [
            Rates { miss_per_million: 1_000_000, double_per_million: 0 },
            Rates { miss_per_million: 0, double_per_million: 1_000_000 },
        ] {
            let mut station = station(100);
            station.rates(&rates);
            let stock = station.stock;
            let fed = station.feed(&Watch::of(&certain));
            assert_eq!(fed, Fed1 { brought: Brought::One(Found::right(5)), stopped: Some(Stopper::Caliper) });
            assert_eq!(station.stock, stock - 1);
            assert_ne!(station.feed(&nothing()).brought, Brought::One(Found::right(5)));
        }
    }
}
