//! The books, one by one.

use super::digest::Digest;
use super::planted::Planted;
use super::played::{Played, Stopped, WrongBook};
use super::run::Run;
use super::station::{Brought, Cycle, Fed1, Station, Watch};
use super::{Refusal, run};
use crate::dice::Dice;
use crate::gather::run::print_run;
use crate::marks::Found;
use crate::since::{Happened, Left, Line, Logged};

/// The most entries of the log, and of each other list but that of the wrong books.
const MOST_LISTED: usize = 1_000;

/// Plays a run.
///
/// # Errors
/// Where a number of the run is out of bounds.
pub fn play(run: &Run) -> Result<Played, Refusal> {
    run.check()?;
    let mut floor = Floor::of(run);
    for book in run.first..run.first + run.books {
        floor.make(book);
    }
    Ok(floor.played())
}

/// Something planted that is still to come: at which book of its station, and what.
#[derive(Clone, Copy)]
struct Due {
    book: u32,
    planted: Planted,
}

/// The line while it runs.
struct Floor<'a> {
    run: &'a Run,
    stations: Vec<Station>,
    watch: Watch,
    /// What is still to come at each station, the latest first.
    due: Vec<Vec<Due>>,
    /// The earliest book at which something is to come at any station.
    next_due: u32,
    /// What stations brought into this book that they should not have; its station as an index.
    odd: Vec<(usize, Brought)>,
    /// Where books are divided wrong: the last right one, and the section they end with then.
    divided: Option<(u32, u32)>,
    /// The book that is gathered, and what is left of the one before it where books are divided wrong.
    gathered: Vec<Found>,
    rest: Vec<Found>,
    book: Vec<Found>,
    over: Vec<i32>,
    digest: Digest,
    played: Played,
}

impl<'a> Floor<'a> {
    fn of(run: &'a Run) -> Self {
        let mut dice = Dice::new(run.seed);
        let mut gives = (1..=run.sections).collect::<Vec<_>>();
        for planted in &run.planted {
            if let Planted::Exchanged { stations: [a, b] } = *planted {
                gives.swap(a as usize - 1, b as usize - 1);
            }
        }
        let mut stations = (1..=run.sections)
            .zip(&gives)
            .map(|(number, &gives)| {
                let mut station = Station::new(number, gives, run.lift, &mut dice);
                station.rates(&run.rates);
                station
            })
            .collect::<Vec<_>>();
        let ahead = (1..=run.sections).rev().map(|station| run.after + station - 1).collect::<Vec<_>>();
        let mut due = vec![Vec::new(); stations.len()];
        let mut divided = None;
        for &planted in &run.planted {
            let (station, counter) = match planted {
                Planted::WrongPile { station, counter, .. }
                | Planted::ForeignPile { station, counter, .. }
                | Planted::TurnedPile { station, counter, .. }
                | Planted::HandFilled { station, counter, .. }
                | Planted::EveryNth { station, counter, .. } => (station as usize - 1, counter),
                Planted::WeakFeeder { station, miss_per_million, double_per_million } => {
                    stations[station as usize - 1].rates(&run::Rates { miss_per_million, double_per_million });
                    continue;
                }
                Planted::DividedWrong { counter, after } => {
                    divided = Some((counter, after));
                    continue;
                }
                Planted::Exchanged { .. } => continue,
            };
            // Before the first book has passed the counter, it stands still while the line fills.
            let book = if counter < run.first { run.first } else { counter + ahead[station] + 1 };
            due[station].push(Due { book, planted });
        }
        for due in &mut due {
            due.sort_by_key(|due| std::cmp::Reverse(due.book));
        }
        let last = run.first + run.books - 1;
        let line = Line { first: run.first, last, ahead, per_hour: Some(run.per_hour) };
        let mut floor = Self {
            run,
            watch: Watch::of(&run.detectors),
            odd: Vec::with_capacity(stations.len()),
            over: vec![0; stations.len()],
            stations,
            due,
            next_due: 0,
            divided,
            gathered: Vec::new(),
            rest: Vec::new(),
            book: Vec::new(),
            digest: Digest::default(),
            played: Played {
                line,
                books: run.books,
                wrong: 0,
                wrong_books: Vec::new(),
                spans: Vec::new(),
                stops: 0,
                jams: 0,
                reloads: 0,
                log: Vec::new(),
                stopped: Vec::new(),
                left: Vec::new(),
                rest: String::new(),
                complete: true,
                digest: String::new(),
                says: Vec::new(),
            },
        };
        floor.find_next_due();
        floor
    }

    fn find_next_due(&mut self) {
        let next = self.due.iter().filter_map(|due| due.last()).map(|due| due.book).min();
        self.next_due = next.unwrap_or(u32::MAX);
    }

    /// What the counter shows while a station fills a book.
    fn counter(&self, book: u32, station: usize) -> u32 {
        book.saturating_sub(self.played.line.ahead[station] + 1).max(self.run.first - 1)
    }

    /// Makes one book.
    fn make(&mut self, book: u32) {
        if book >= self.next_due {
            self.begin(book);
        }
        self.odd.clear();
        for at in 0..self.stations.len() {
            let station = &mut self.stations[at];
            if station.runs_low() {
                self.reload(book, at);
            }
            let station = &mut self.stations[at];
            let Fed1 { brought, stopped } = station.feed(&self.watch);
            if brought != Brought::One(Found::right(station.number)) {
                self.odd.push((at, brought));
            }
            if let Some(by) = stopped {
                let counter = self.counter(book, at);
                self.played.stops += 1;
                self.log(Logged { counter, what: Happened::Stop });
                let stop = Stopped { counter, book, station: at as u32 + 1, by };
                self.digest.number(stop.book);
                self.digest.number(stop.station);
                push(&mut self.played.stopped, stop, &mut self.played.complete);
            }
        }
        let divided = self.divided.is_some_and(|(last, _)| book > last);
        if divided || !self.odd.is_empty() {
            self.gather();
            self.finish(book);
        }
    }

    /// Begins what was planted for this book.
    fn begin(&mut self, book: u32) {
        for at in 0..self.due.len() {
            while let Some(due) = self.due[at].pop_if(|due| due.book <= book) {
                match due.planted {
                    Planted::WrongPile { section, lift, .. } => self.load(book, at, Found::right(section), lift),
                    Planted::ForeignPile { lift, .. } => self.load(book, at, Found::Foreign, lift),
                    Planted::TurnedPile { lies, lift, station, .. } => {
                        self.load(book, at, Found::Section { section: station, lies }, lift);
                    }
                    Planted::HandFilled { books, section, .. } => {
                        self.stations[at].by_hand = (books, section);
                        self.played.jams += 1;
                        let counter = self.counter(book, at);
                        self.log(Logged { counter, what: Happened::Jam { station: at as u32 + 1 } });
                    }
                    Planted::EveryNth { every, section, .. } => {
                        self.stations[at].cycle = Some(Cycle { every, next: 1, brings: section });
                    }
                    Planted::Exchanged { .. } | Planted::DividedWrong { .. } | Planted::WeakFeeder { .. } => {}
                }
            }
        }
        self.find_next_due();
    }

    /// Loads something else than the station's own section.
    fn load(&mut self, book: u32, at: usize, what: Found, lift: u32) {
        let left = self.stations[at].stock;
        self.stations[at].load(what, lift, self.run.fed);
        self.reloaded(book, at, lift, left);
    }

    /// Reloads a station that ran low.
    fn reload(&mut self, book: u32, at: usize) {
        while self.stations[at].runs_low() {
            let left = self.stations[at].stock;
            self.stations[at].reload(self.run.lift, self.run.fed);
            self.reloaded(book, at, self.run.lift, left);
        }
    }

    fn reloaded(&mut self, book: u32, at: usize, lift: u32, left: u32) {
        self.played.reloads += 1;
        let counter = self.counter(book, at);
        let what = Happened::Reload { station: at as u32 + 1, lift, left, fed: self.run.fed };
        self.log(Logged { counter, what });
    }

    fn log(&mut self, logged: Logged) {
        self.digest.number(logged.counter);
        let (kind, station, left) = match logged.what {
            Happened::Stop => (1, 0, 0),
            Happened::Jam { station } => (2, station, 0),
            Happened::Reload { station, left, .. } => (3, station, left),
        };
        [kind, station, left].into_iter().for_each(|number| self.digest.number(number));
        push(&mut self.played.log, logged, &mut self.played.complete);
    }

    /// Puts the backs of this book together, as they leave the line, and counts what was taken.
    fn gather(&mut self) {
        self.gathered.clear();
        let mut odd = self.odd.iter().peekable();
        for at in 0..self.stations.len() {
            let number = at as u32 + 1;
            let brought = match odd.next_if(|(odd, _)| *odd == at) {
                None => Brought::One(Found::right(number)),
                Some((_, brought)) => {
                    self.over[at] += 1;
                    let backs = match *brought {
                        Brought::None => [None, None],
                        Brought::One(one) => [Some(one), None],
                        Brought::Two(one, two) => [Some(one), Some(two)],
                    };
                    for back in backs.into_iter().flatten() {
                        if let Found::Section { section, .. } = back {
                            self.over[section as usize - 1] -= 1;
                        }
                    }
                    *brought
                }
            };
            match brought {
                Brought::None => {}
                Brought::One(one) => self.gathered.push(one),
                Brought::Two(one, two) => self.gathered.extend([one, two]),
            }
        }
    }

    /// Cuts the book from the row of sections, and notes it if it is wrong.
    fn finish(&mut self, book: u32) {
        self.book.clear();
        match self.divided {
            Some((last, after)) if book > last => {
                // The backs of the stations up to the cut, whatever they brought.
                let mut cut = after as usize;
                for (_, brought) in self.odd.iter().take_while(|(at, _)| *at < after as usize) {
                    match brought {
                        Brought::None => cut -= 1,
                        Brought::One(_) => {}
                        Brought::Two(..) => cut += 1,
                    }
                }
                self.book.append(&mut self.rest);
                let (front, back) = self.gathered.split_at(cut.min(self.gathered.len()));
                self.book.extend_from_slice(front);
                self.rest.extend_from_slice(back);
            }
            _ => self.book.extend_from_slice(&self.gathered),
        }
        if (1..).map(Found::right).take(self.stations.len()).eq(self.book.iter().copied()) {
            return;
        }
        self.digest.number(book);
        self.digest.backs(&self.book);
        self.played.wrong += 1;
        if self.played.wrong_books.len() < self.run.shown as usize {
            let wrong = WrongBook { counter: book, run: print_run(&self.book) };
            self.played.wrong_books.push(wrong);
        } else {
            self.played.complete = false;
        }
        match self.played.spans.last_mut() {
            Some([_, last]) if *last + 1 == book => *last = book,
            _ => push(&mut self.played.spans, [book, book], &mut self.played.complete),
        }
    }

    /// Everything told.
    fn played(mut self) -> Played {
        let left = (1..).zip(&self.over).filter(|(_, over)| **over != 0);
        self.played.left = left.map(|(station, &over)| Left { station, over }).collect();
        for &Left { station, over } in &self.played.left {
            self.digest.number(station);
            self.digest.number(over.cast_unsigned());
        }
        self.digest.backs(&self.rest);
        self.played.rest = print_run(&self.rest);
        self.played.log.sort_by_key(|logged| logged.counter);
        self.played.stopped.sort_by_key(|stop| stop.counter);
        self.played.digest = self.digest.hex();
        self.played.says = says(&self.played);
        self.played
    }
}

/// Adds to a list as long as it has room.
fn push<T>(list: &mut Vec<T>, item: T, complete: &mut bool) {
    if list.len() < MOST_LISTED {
        list.push(item);
    } else {
        *complete = false;
    }
}

/// The run in a few sentences.
fn says(played: &Played) -> Vec<String> {
    let Line { first, last, .. } = played.line;
    let mut says = vec![match played.wrong {
        0 => format!("Books {first} to {last} were made, and all are right."),
        1 => format!("Books {first} to {last} were made, and one is wrong."),
        wrong => format!("Books {first} to {last} were made, and {wrong} are wrong."),
    }];
    match played.spans.as_slice() {
        [] => {}
        [[one, also]] if one == also => says.push(format!("It is book {one}.")),
        [[from, to]] => says.push(format!("They are books {from} to {to}, without a gap.")),
        [[from, _], .., [_, to]] => {
            let spans = played.spans.len();
            says.push(format!("They lie between books {from} and {to}, in {spans} places with right books between."));
        }
    }
    says.push(format!(
        "The line stopped {} to have a feed put right; stations jammed {} and were reloaded {}.",
        times(played.stops),
        times(played.jams),
        times(played.reloads)
    ));
    for left in played.left.iter().take(12) {
        let (count, what) = (left.over.unsigned_abs(), if left.over > 0 { "over" } else { "short" });
        let sections = if count == 1 { "section is" } else { "sections are" };
        says.push(format!("At station {}, {count} {sections} {what}.", left.station));
    }
    if !played.rest.is_empty() {
        says.push(format!("Behind the last book there remains {}.", played.rest));
    }
    says
}

fn times(count: u32) -> String {
    match count {
        0 => "never".to_owned(),
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        count => format!("{count} times"),
    }
}
