//! What to look at next, in plain words, and the caution beside it.

use crate::gather::fault::Fault;
use crate::gather::say;
use crate::marks::Lies;

/// Stands beside every check at a machine.
pub(crate) const CAUTION: &str = "Stop the machine, isolate it and let it run down before you look. The guards stay \
     shut, the rules of the house come first, and only trained people open a machine.";

/// The next check for a list of faults: one sentence or two for each kind, each said once.
pub(super) fn next_check(faults: &[Fault], shifted: bool) -> String {
    let mut checks = Vec::<String>::new();
    let missing = faults
        .iter()
        .filter_map(|fault| match *fault {
            Fault::Missing { section } => Some(section),
            _ => None,
        })
        .collect::<Vec<_>>();
    for fault in faults {
        let check = match fault {
            Fault::Missing { .. } => gone(&missing),
            fault => check(fault, shifted),
        };
        if !checks.contains(&check) {
            checks.push(check);
        }
    }
    checks.join(" ")
}

/// The caution, or nothing when no machine is to be looked at.
pub(super) fn caution(faults: &[Fault]) -> String {
    let machine = faults.iter().any(|fault| !matches!(fault, Fault::Lies { .. }));
    if machine { CAUTION.to_owned() } else { String::new() }
}

fn check(fault: &Fault, shifted: bool) -> String {
    match *fault {
        Fault::Missing { section } => gone(&[section]),
        Fault::Double { section } => format!(
            "Feel the two copies of section {section}, draw one out and count again. The pile at station {section} \
             comes out one short."
        ),
        Fault::WrongSection { at, section } => format!(
            "Read the signatures in the pile at station {at}. If {section} lies there, hold every book since that \
             pile was loaded."
        ),
        Fault::Exchanged { sections: [a, b] } => format!(
            "Read the signatures at stations {a} and {b}. If both piles lie in each other's place, the books before \
             this one are wrong too."
        ),
        Fault::Lies { section, lies } => match lies {
            Lies::HeadToTail => format!(
                "Draw section {section} out: its heads lie at the tail. Turn it, and look through the lift it came in."
            ),
            _ => format!(
                "Look along the fore-edge for the fold of section {section}. Turn it, and look through the lift it \
                 came in."
            ),
        },
        Fault::Foreign { at } => format!(
            "Open the stray section from station {at}: read its title, feel its paper, lay it on a good one. Look \
             through the whole pile."
        ),
        Fault::NoMark { at } => format!(
            "Open section {at}. A mark inside it says it was folded wrongly; a fold at the fore-edge says it was \
             turned away."
        ),
        Fault::Moved { .. } if shifted => "Lay the books before and after this one beside it: two half-books that \
             make one were divided wrong. If they are all alike, read the signatures at the first and the last station."
            .to_owned(),
        Fault::Moved { sections: [a, b], .. } => {
            let block = if a == b { format!("section {a}") } else { format!("sections {a} to {b}") };
            format!(
                "Look for {block} in the books on either side. If those are right, this stack was dropped or relaid; \
                 if not, read the signatures along the stations."
            )
        }
        Fault::Reversed => "Read the signatures at the first and the last station: the piles may be laid from the \
             wrong end."
            .to_owned(),
        Fault::DividedWrong { after } => {
            format!("Look at the join behind section {after}: the book should end there no earlier and no later.")
        }
    }
}

/// The check for missing sections, ascending.
fn gone(sections: &[u32]) -> String {
    format!(
        "Read the signatures where {} should be, and count. A copy left over at its station says the station missed.",
        say::sections(sections)
    )
}
