//! How likely each thing is to happen beside the others, and how much a piece of evidence counts. A person may change them.
//!
//! The numbers only rank. Nobody has counted these faults in the open (no trustworthy figure was found); the order of them
//! is common practice, no source: a feed that misses or doubles is daily work, a wrong load is rarer, a wrong set-up is
//! rarer still and is mostly seen at once.

use super::words::capital;
use crate::marks::Refusal;
use serde::{Deserialize, Serialize};

/// The largest number that is taken. A bound of this program.
const MOST: f64 = 1_000_000.0;

/// One number of the odds.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Figure {
    /// Its name in a request, and the `kind` of a cause.
    pub key: String,
    /// What it is the weight of.
    pub says: String,
    /// The number.
    pub value: f64,
    /// Where it is from.
    pub source: String,
}

macro_rules! odds {
    ($($key:ident: $value:literal, $says:literal, $source:literal;)*) => {
        /// Weights of what can happen, each against the others, and of evidence.
        #[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
        #[serde(default, deny_unknown_fields)]
        pub struct Odds {
            $(#[doc = $says] #[doc = ""] #[doc = $source] pub $key: f64,)*
            /// The weights of faults in a row of sections, as the search of gathered books has them.
            pub gather: crate::gather::Odds,
        }

        impl Default for Odds {
            fn default() -> Self {
                Self { $($key: $value,)* gather: crate::gather::Odds::default() }
            }
        }

        impl Odds {
            /// All numbers with their names and sources, in an order to show them in.
            #[must_use]
            pub fn figures(&self) -> Vec<Figure> {
                let figure = |key: &str, says: &str, value, source: &str| {
                    Figure { key: key.to_owned(), says: says.to_owned(), value, source: source.to_owned() }
                };
                let mut all = vec![$(figure(stringify!($key), $says, self.$key, $source),)*];
                let of_rows = self.gather.figures().into_iter().map(|row| {
                    let says = format!("{}, in a row of sections.", capital(row.says));
                    figure(&format!("gather.{}", row.name), &says, row.value, &format!("{}.", capital(row.source)))
                });
                all.extend(of_rows);
                all
            }

            /// The number of a kind; 1 for one that is not in the list.
            #[must_use]
            pub(super) fn of(&self, kind: &str) -> f64 {
                match kind {
                    $(stringify!($key) => self.$key,)*
                    _ => 1.0,
                }
            }
        }
    };
}

odds! {
    station_missed: 30.0, "A station feeds nothing for one book.", "From memory: misses are the commonest, 1 to 5 in 1,000 feeds before any detector.";
    two_fed: 30.0, "A station feeds two sections at once.", "From memory: doubles are as common as misses.";
    weak_feed: 10.0, "A station feeds badly and misses or doubles again and again.", "From memory.";
    ran_empty: 6.0, "A station runs empty and the line runs on.", "From memory.";
    detector_off: 4.0, "A caliper is off or set too wide.", "From memory.";
    filled_by_hand: 10.0, "A book is filled up by hand after a jam or a stop.", "Named as a typical cause in trade glossaries of printing houses (koei-printing.co.jp, daidoprinting.co.jp); the weight is from memory.";
    taken_out: 3.0, "A section is drawn out of a finished book and not put back.", "From memory.";
    wrong_pile: 20.0, "A station is loaded with a lift of another section, or of another job.", "From memory: the commonest cause of a block of wrong books.";
    one_strayed: 4.0, "A single section lies in the pile of another.", "From memory.";
    wrong_from_the_start: 3.0, "A station is set up with the wrong pile from the start.", "From memory: mostly seen in the first book.";
    stations_exchanged: 8.0, "Two stations are set up in each other's place.", "From memory.";
    lifts_crossed: 5.0, "Two lifts are loaded crosswise.", "From memory.";
    tags_exchanged: 5.0, "Two pallets or bundles are tagged for each other at the folder.", "From memory.";
    deliveries_mixed: 4.0, "Sections from two deliveries of a slit sheet are put in one pile.", "From memory.";
    relaid: 4.0, "A book is taken apart and laid together again wrongly.", "From memory.";
    dropped: 4.0, "A stack is dropped and laid together again.", "From memory.";
    stations_shifted: 3.0, "The piles are laid shifted along the line.", "From memory.";
    laid_backwards: 3.0, "The piles are laid from the wrong end of the line.", "From memory.";
    lift_turned: 12.0, "A lift is loaded head to tail, or with its folds at the fore-edge.", "From memory.";
    one_turned: 6.0, "A single section is turned by hand.", "From memory.";
    bundle_turned: 4.0, "A bundle comes turned from the folder.", "From memory.";
    turned_from_the_start: 3.0, "A pile is laid turned from the start.", "From memory: mostly seen in the first book.";
    foreign_pile: 6.0, "A lift of another job is loaded.", "From memory.";
    foreign_stray: 5.0, "A section of the job before is left in a hopper.", "From memory.";
    sheet_fed_wrong: 10.0, "A lift of sheets is fed to the folder wrong side up or other end first.", "From memory.";
    folder_set_up: 8.0, "The folder makes a fold the wrong way or from the other edge.", "From memory: mostly seen in the first section.";
    double_sheet: 5.0, "Two sheets are folded as one.", "From memory.";
    leaf_wrong: 2.0, "A leaf of a section is gone, too many or another one.", "From memory.";
    inset_wrong: 4.0, "An inset is left out, wrong or laid in wrongly.", "From memory.";
    pile_turned: 5.0, "The pile is turned the wrong way for its second side at the press.", "From memory.";
    wrong_plate: 3.0, "The second side is printed from the plate of another section.", "From memory.";
    forme_wrong: 3.0, "Pages stand wrong on a forme.", "From memory.";
    missed_pass: 3.0, "A sheet misses a pass, or two stick together at the press.", "From memory.";
    divided_wrong: 8.0, "The row of sections is parted into books at the wrong place at sewing.", "From memory.";
    plate_left_out: 8.0, "A plate or a wrap is left out.", "From memory.";
    plate_misplaced: 8.0, "A plate or a wrap is put to the wrong place.", "From memory.";
    agrees: 4.0, "How much a piece of evidence that agrees counts for a cause.", "This program's own choice.";
    hardly: 0.3, "How much is left of a cause where a piece of evidence speaks against it.", "This program's own choice.";
}

impl Odds {
    /// Whether all numbers can be worked with.
    ///
    /// # Errors
    /// The first that can't.
    pub fn check(&self) -> Result<(), Refusal> {
        self.gather.check().map_err(|why| Refusal::new(format!("gather.{}", why.at), why.says))?;
        let bad = self.figures().into_iter().find(|f| !(f.value.is_finite() && (0.0..=MOST).contains(&f.value)));
        match bad {
            Some(figure) => Err(Refusal::new(figure.key, "A weight is a number from 0 to 1000000.")),
            None => Ok(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_named_and_sourced() {
        let odds = Odds::default();
        let figures = odds.figures();
        assert!(figures.len() > 30);
        for figure in &figures {
            assert!(figure.says.ends_with('.') && figure.source.ends_with('.'), "{figure:?}");
            if !figure.key.starts_with("gather.") {
                assert_eq!(odds.of(&figure.key).to_bits(), figure.value.to_bits());
            }
        }
        assert_eq!(odds.of("luck").to_bits(), 1.0f64.to_bits());
    }

    #[test]
    fn changed_one_by_one() {
        let odds: Odds = serde_json::from_str(r#"{"wrong_pile": 3}"#).unwrap();
        assert_eq!(odds, Odds { wrong_pile: 3.0, ..Odds::default() });
        assert!(serde_json::from_str::<Odds>(r#"{"luck": 3}"#).is_err());
        assert_eq!(Odds { agrees: f64::NAN, ..Odds::default() }.check().unwrap_err().at, "agrees");
        assert_eq!(Odds { two_fed: -1.0, ..Odds::default() }.check().unwrap_err().at, "two_fed");
        assert_eq!(odds.check(), Ok(()));
        let odds: Odds = serde_json::from_str(r#"{"gather": {"missing": 0}}"#).unwrap();
        assert_eq!(odds.check().unwrap_err().at, "gather.missing");
    }
}
