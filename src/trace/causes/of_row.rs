//! What machines and hands can have done to the row of sections, fault by fault (common practice, no source, where none is
//! named).

use super::draft::{Draft, Wish, likes};
use crate::gather::Fault;
use crate::marks::Lies;
use crate::trace::told::Stage;
use crate::trace::words;

const INSERT: &str = "Put the section in before sewing; a sewn book is cut apart and sewn again.";
const DRAW_OUT: &str = "Draw the second copy out before sewing; a sewn book is cut apart and sewn again.";
const SWAP: &str = "Hold every book since that load, take the wrong section out and put the right one in; a sewn book is \
    cut apart and sewn again.";
const RELAY: &str = "Lay the sections in order again before sewing; a sewn book is cut apart and sewn again.";
const TURN: &str = "Turn the section before sewing, and look through the rest of its lift.";

/// All that can have made one fault.
pub(in crate::trace) fn drafts(fault: &Fault) -> Vec<Draft> {
    match *fault {
        Fault::Missing { section } => missing(fault, section),
        Fault::Double { section } => double(fault, section),
        Fault::WrongSection { at, section } => wrong(fault, at, section),
        Fault::Exchanged { sections } => exchanged(fault, sections),
        Fault::Lies { section, lies } => turned(fault, section, lies),
        Fault::Foreign { at } => foreign(fault, at),
        Fault::NoMark { at } => no_mark(fault, at),
        Fault::Moved { sections, after } => moved(fault, sections, after),
        Fault::Reversed => reversed(fault),
        Fault::DividedWrong { after } => vec![divided(fault, after)],
    }
}

fn missing(fault: &Fault, s: u32) -> Vec<Draft> {
    let gathering = |kind, title| Draft::new(kind, Stage::Gathering, &[*fault], title).at(s).of(s).remedy(INSERT);
    vec![
        gathering("station_missed", format!("Station {s} fed nothing for this book."))
            .likes(likes::FEED)
            .check(format!(
                "Count what is left at station {s}: one section over for each such book. Look at its suckers and \
                 separators, and whether its caliper is on."
            )),
        gathering("weak_feed", format!("Station {s} feeds badly and misses now and then.")).likes(likes::WEAK).check(
            format!(
                "Watch station {s} for a hundred books: suckers, air, separators, the height of the pile. See whether its \
                 caliper is on."
            ),
        ),
        gathering("detector_off", format!("The caliper at station {s} is off or set too wide, so misses go through."))
            .likes(likes::OFF)
            .check(format!("With the line stopped, hold back one section at station {s}, and see whether the line stops.")),
        gathering("ran_empty", format!("Station {s} ran empty and the line ran on."))
            .likes([0.2, 1.0, 0.8, 0.1, 0.01, 0.01, 0.03])
            .wish(Wish::Reload(vec![s]))
            .check(format!("Ask when station {s} was last loaded, and look at the books just before.")),
        gathering("filled_by_hand", format!("The book was filled up by hand after a stop, and section {s} forgotten."))
            .likes(likes::STOP)
            .wish(Wish::Stop)
            .check("Read the log of stops, and open the books on either side of each."),
        Draft::new(
            "taken_out",
            Stage::Hand,
            &[*fault],
            format!("Section {s} was drawn out of this book and not put back."),
        )
        .of(s)
        .remedy(INSERT)
        .likes(likes::ONCE)
        .check(format!("Look for a loose section {s} at the checking table and among the samples.")),
    ]
}

fn double(fault: &Fault, s: u32) -> Vec<Draft> {
    let gathering = |kind, title| Draft::new(kind, Stage::Gathering, &[*fault], title).at(s).of(s).remedy(DRAW_OUT);
    vec![
        gathering("two_fed", format!("Station {s} fed two sections at once.")).likes(likes::FEED).check(format!(
            "Feel the two copies of section {s}: do they hang together? The pile at station {s} comes out one short for \
             each such book."
        )),
        gathering("weak_feed", format!("Station {s} feeds badly and doubles now and then.")).likes(likes::WEAK).check(
            format!("Watch station {s} for a hundred books: suckers, air, separators, static. See whether its caliper is on."),
        ),
        gathering("detector_off", format!("The caliper at station {s} is off or set too wide, so doubles go through."))
            .likes(likes::OFF)
            .check(format!("With the line stopped, lay two sections at station {s}, and see whether the line stops.")),
        gathering("filled_by_hand", format!("The book was filled up by hand after a stop, and section {s} put in twice."))
            .likes(likes::STOP)
            .wish(Wish::Stop)
            .check("Read the log of stops, and open the books on either side of each."),
    ]
}

fn wrong(fault: &Fault, at: u32, s: u32) -> Vec<Draft> {
    let gathering = |kind, title| Draft::new(kind, Stage::Gathering, &[*fault], title).at(at).of(s).remedy(SWAP);
    let mut all = vec![
        gathering("wrong_pile", format!("Station {at} was loaded with a lift of section {s}."))
            .likes(likes::LIFT)
            .wish(Wish::Reload(vec![at]))
            .check(format!(
                "Read the signatures in the pile at station {at} and on the tag of its last bundle. Count what is left: \
                 section {at} over, section {s} short, by the number of wrong books."
            )),
        gathering(
            "filled_by_hand",
            format!("The book was filled up by hand after a stop, and section {s} put in for section {at}."),
        )
        .likes(likes::STOP)
        .wish(Wish::Stop)
        .check("Read the log of stops, and open the books on either side of each."),
        gathering("one_strayed", format!("A single section {s} lay in the pile of station {at}."))
            .likes([1.0, 0.15, 0.02, 0.02, 0.05, 0.01, 0.7])
            .check(format!("Riffle the spines of the pile at station {at} for more of section {s}.")),
        Draft::new(
            "tags_exchanged",
            Stage::Folder,
            &[*fault],
            format!("A pallet of section {s} came from the folder with the tag of section {at}."),
        )
        .at(at)
        .of(s)
        .remedy(SWAP)
        .likes(likes::PALLET)
        .wish(Wish::Reload(vec![at]))
        .check(format!(
            "Compare the tag on the pallet at station {at} with what lies on it; then look for the pallet of section {at} \
             that has the tag of section {s}."
        )),
        gathering("wrong_from_the_start", format!("Station {at} was set up with the pile of section {s}."))
            .likes(likes::FROM_THE_START)
            .check(format!("Open the first book of the run, and read the signatures in the pile at station {at}.")),
    ];
    if at.abs_diff(s) <= 3 {
        let mixed = Draft::new(
            "deliveries_mixed",
            Stage::Folder,
            &[*fault],
            format!("Sections {at} and {s} came from two deliveries of one slit sheet into one pile."),
        );
        all.push(mixed.at(at).of(s).remedy("Sort the bundles again by their signatures.").likes(likes::MIXED).check(
            format!("Riffle the spines of the bundles at station {at}: two levels of marks say that two deliveries are mixed."),
        ));
    }
    all
}

fn exchanged(fault: &Fault, [a, b]: [u32; 2]) -> Vec<Draft> {
    vec![
        Draft::new(
            "stations_exchanged",
            Stage::Gathering,
            &[*fault],
            format!("Stations {a} and {b} were set up in each other's place."),
        )
        .at(a)
        .likes(likes::SET_UP)
        .remedy("Change the piles back, and lay every book since the set-up right before it is sewn.")
        .check(format!(
            "Read the signatures in the piles at stations {a} and {b}, and open the first book of the run."
        )),
        Draft::new(
            "lifts_crossed",
            Stage::Gathering,
            &[*fault],
            format!("Two lifts were loaded crosswise at stations {a} and {b}."),
        )
        .at(a)
        .likes(likes::LIFT)
        .wish(Wish::Reload(vec![a, b]))
        .remedy(RELAY)
        .check(format!("Read the signatures in the piles at stations {a} and {b}; find where both were last loaded.")),
        Draft::new(
            "tags_exchanged",
            Stage::Folder,
            &[*fault],
            format!("The pallets of sections {a} and {b} were tagged for each other at the folder."),
        )
        .at(a)
        .likes(likes::PALLET)
        .wish(Wish::Reload(vec![a, b]))
        .remedy(RELAY)
        .check(format!(
            "Compare the tags on the pallets of sections {a} and {b} with what lies on them. It ends with the pallet."
        )),
        Draft::new(
            "relaid",
            Stage::Hand,
            &[*fault],
            format!("The book was taken apart and laid together again, sections {a} and {b} the wrong way round."),
        )
        .likes(likes::ONCE)
        .remedy(RELAY)
        .check("Open the books on either side. If they are right, ask who had this one open."),
    ]
}

fn turned(fault: &Fault, s: u32, lies: Lies) -> Vec<Draft> {
    let how = words::lies(lies);
    let look = match lies {
        Lies::HeadToTail => format!("Look at the heads in the pile at station {s}"),
        _ => format!("Look along the fore-edge for folds, in the book and in the pile at station {s}"),
    };
    let trace = match lies {
        Lies::HeadToTail => "Its mark stands as far from the tail as it should from the head.",
        _ => "Its fold lies at the fore-edge, so its back is blank.",
    };
    let gathering =
        |kind, title| Draft::new(kind, Stage::Gathering, &[*fault], title).at(s).of(s).remedy(TURN).note(trace);
    vec![
        gathering("lift_turned", format!("A lift of section {s} was loaded {how}."))
            .likes(likes::LIFT)
            .wish(Wish::Reload(vec![s]))
            .check(format!("{look}, and open the books since it was loaded.")),
        gathering("one_turned", format!("A single section {s} was turned by hand, {how}."))
            .likes(likes::ONCE)
            .check(format!("{look}. Open the books on either side.")),
        gathering("filled_by_hand", format!("The book was filled up by hand after a stop, section {s} {how}."))
            .likes(likes::STOP)
            .wish(Wish::Stop)
            .check("Read the log of stops, and open the books on either side of each."),
        Draft::new(
            "bundle_turned",
            Stage::Folder,
            &[*fault],
            format!("A bundle of section {s} came turned from the folder."),
        )
        .of(s)
        .remedy(TURN)
        .likes([0.05, 0.3, 0.8, 0.3, 0.02, 0.1, 0.3])
        .check(format!("Open the bundles of section {s} that are left: do all sections in one lie the same way?")),
        gathering("turned_from_the_start", format!("The pile of station {s} was laid {how} from the start."))
            .likes(likes::FROM_THE_START)
            .check(format!("{look}, and open the first book of the run.")),
    ]
}

fn foreign(fault: &Fault, at: u32) -> Vec<Draft> {
    let remedy =
        "Take the strange sections out of every book and pile; look through all hoppers before the run goes on.";
    let gathering = |kind, title| Draft::new(kind, Stage::Gathering, &[*fault], title).at(at).remedy(remedy);
    vec![
        gathering("foreign_pile", format!("A lift of another job was loaded at station {at}."))
            .likes(likes::LIFT)
            .wish(Wish::Reload(vec![at]))
            .check(format!(
                "Open the sections in the pile at station {at}: title, edition, size, the shade of the paper. Read the tag \
                 of the pallet."
            )),
        gathering("foreign_stray", format!("A section of the job before was left at station {at}."))
            .likes([1.0, 0.6, 0.05, 0.02, 0.02, 0.01, 0.4])
            .check(format!("Look into the hopper of station {at} and under its pile; open the first books of the run.")),
    ]
}

fn no_mark(fault: &Fault, at: u32) -> Vec<Draft> {
    let folder = |kind, title| {
        Draft::new(kind, Stage::Folder, &[*fault], title)
            .of(at)
            .at(at)
            .remedy("Fold the section again if its perforation allows; otherwise replace it from the overs.")
            .note("A section folded wrongly has its mark inside, so its back is blank.")
    };
    let open = format!(
        "Open section {at} and read its pages from front to back: they say which fold, or which way it was fed."
    );
    let mut all = vec![
        folder("sheet_fed_wrong", format!("A lift of section {at} was fed to the folder the wrong way."))
            .likes(likes::LIFT)
            .check(format!("{open} Look at the lay ticks: which side was up, which end led?")),
        folder("folder_set_up", format!("The folder made section {at} with a fold the wrong way."))
            .likes(likes::SET_UP)
            .check(format!("{open} Fold a passed sheet beside it.")),
    ];
    for (kind, stage, title, like) in [
        (
            "lift_turned",
            Stage::Gathering,
            format!("A lift of section {at} was loaded with its folds at the fore-edge."),
            likes::LIFT,
        ),
        (
            "one_turned",
            Stage::Hand,
            format!("A single section {at} was turned, its fold at the fore-edge."),
            likes::ONCE,
        ),
    ] {
        all.push(
            Draft::new(kind, stage, &[*fault], title)
                .of(at)
                .at(at)
                .remedy(TURN)
                .likes(like)
                .wish(if kind == "lift_turned" { Wish::Reload(vec![at]) } else { Wish::Nothing })
                .note("A section turned away has its fold at the fore-edge, so its back is blank.")
                .check(format!("Look along the fore-edge of section {at}: a fold there says that it was turned.")),
        );
    }
    all
}

fn moved(fault: &Fault, sections: [u32; 2], after: u32) -> Vec<Draft> {
    let block = words::capital(&words::block(sections));
    let stand = if sections[0] == sections[1] { "stands" } else { "stand" };
    let where_to = if after == 0 { "at the front".to_owned() } else { format!("behind section {after}") };
    let dropped = Draft::new(
        "dropped",
        Stage::Hand,
        &[*fault],
        format!(
            "The stack was dropped or taken apart and laid together again: {} {stand} {where_to}.",
            words::small(&block)
        ),
    );
    let shifted = Draft::new(
        "stations_shifted",
        Stage::Gathering,
        &[*fault],
        format!("The piles were laid shifted along the line: {} {stand} {where_to}.", words::small(&block)),
    );
    vec![
        dropped.remedy(RELAY).likes([1.0, 0.6, 0.1, 0.02, 0.01, 0.01, 0.2]).check(
            "Open the books on either side. If they are right, ask what happened to this stack, and look at the books that \
             lay with it.",
        ),
        shifted
            .remedy("Lay the piles right, and every book since the set-up before it is sewn.")
            .likes(likes::SET_UP)
            .check("Read the signatures from the first station to the last, and open the first book of the run."),
    ]
}

fn reversed(fault: &Fault) -> Vec<Draft> {
    vec![
        Draft::new(
            "laid_backwards",
            Stage::Gathering,
            &[*fault],
            "The piles were laid from the wrong end of the line.".to_owned(),
        )
        .remedy("Lay the piles from the other end; gather the books again before they are sewn.")
        .likes(likes::SET_UP)
        .check("Read the signatures at the first and the last station."),
        Draft::new(
            "relaid",
            Stage::Hand,
            &[*fault],
            "The book was laid together from the wrong end by hand.".to_owned(),
        )
        .remedy(RELAY)
        .likes(likes::ONCE)
        .check("Open the books on either side. If they are right, ask who had this one open."),
    ]
}

/// Two half-books make one. What it makes of a row is a turn round the whole of it.
fn divided(fault: &Fault, after: u32) -> Draft {
    Draft::new(
        "divided_wrong",
        Stage::Sewing,
        &[*fault],
        format!("The sections were parted into books behind section {after}: two halves of two books make one."),
    )
    .remedy("Cut the books apart at the right join, and gather the halves anew; endpapers in the middle are taken out.")
    .likes(likes::SLIP)
    .check(format!(
        "Open the books in the order they were sewn. Where the slip began, one book ends with section {after}; from there \
         on every book begins with section {}. Look for endpapers in the middle of the block.",
        after.saturating_add(1)
    ))
}
