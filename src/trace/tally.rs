//! How many books are wrong by the leftovers, and what that says about the pattern.

use super::case::Case;
use super::extent::{BURST, Likely};
use super::told::Pattern;
use super::words::counter;
use crate::gather::Fault;
use crate::since::Happened;

/// How many books are wrong by the leftovers, if a fault made them; `Err` says why they do not agree.
pub(super) fn tally(case: &Case, faults: &[Fault]) -> Result<Option<u32>, String> {
    let over = |station: u32| case.left.iter().find(|left| left.station == station).map(|left| left.over);
    let wanted = expected(faults);
    if case.left.is_empty() || wanted.is_empty() {
        return Ok(None);
    }
    let mut counts = Vec::new();
    for (station, sign) in wanted {
        match over(station) {
            Some(n) if n.signum() == sign => counts.push((station, n.unsigned_abs(), sign)),
            Some(0) | None => return Err(format!("At station {station} nothing is {}.", word(sign))),
            Some(n) => {
                let found = word(n.signum());
                return Err(format!(
                    "Station {station} should have sections {}, and has {} {found}.",
                    word(sign),
                    counter(n.unsigned_abs())
                ));
            }
        }
    }
    match counts.as_slice() {
        [(_, n, _)] => Ok(Some(*n)),
        [(a, n, _), (b, m, _)] if n == m || a == b => Ok(Some(*n)),
        [(a, n, s), (b, m, t), ..] => Err(format!(
            "Station {a} has {} {}, but station {b} {} {}: the two should be one number.",
            counter(*n),
            word(*s),
            counter(*m),
            word(*t)
        )),
        [] => Ok(None),
    }
}

const fn word(sign: i32) -> &'static str {
    if sign < 0 { "short" } else { "over" }
}

/// At which stations a fault leaves sections over (1) or short (-1).
pub(super) fn expected(faults: &[Fault]) -> Vec<(u32, i32)> {
    let each = faults.iter().flat_map(|fault| match *fault {
        Fault::Missing { section } => vec![(section, 1)],
        Fault::Double { section } => vec![(section, -1)],
        Fault::WrongSection { at, section } => vec![(at, 1), (section, -1)],
        Fault::Foreign { at } => vec![(at, 1)],
        _ => Vec::new(),
    });
    each.collect()
}

/// The likelihoods when it is known how many books are wrong.
pub(super) fn with_tally(case: &Case, likely: &Likely, tally: Option<u32>, stations: &[u32]) -> Likely {
    let Some(tally) = tally else { return *likely };
    let lift = case.log.iter().any(|logged| match logged.what {
        Happened::Reload { station, lift, .. } => stations.contains(&station) && lift == tally,
        _ => false,
    });
    let whole = case.line_known() && tally >= case.line.books();
    let mut likely = *likely;
    for (pattern, likely) in Pattern::ALL.iter().zip(&mut likely) {
        *likely *= match pattern {
            Pattern::OneBook if tally > 1 => 0.01,
            Pattern::Burst if tally > BURST => 0.05,
            Pattern::Block | Pattern::FromAMoment if tally == 1 => 0.05,
            Pattern::Block if lift => 3.0,
            Pattern::Scattered | Pattern::EveryMth if tally == 1 => 0.1,
            Pattern::WholeRun if whole => 3.0,
            Pattern::WholeRun if case.line_known() => 0.05,
            _ => 1.0,
        };
    }
    likely
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::since::Left;

    #[test]
    fn leftovers_count_the_books() {
        let wrong = [Fault::WrongSection { at: 5, section: 9 }];
        let case = |five, nine| Case {
            left: vec![Left { station: 5, over: five }, Left { station: 9, over: nine }],
            ..Case::default()
        };
        assert_eq!(tally(&case(80, -80), &wrong), Ok(Some(80)));
        assert!(tally(&case(80, -75), &wrong).unwrap_err().contains("should be one number"));
        assert!(tally(&case(-80, 80), &wrong).unwrap_err().contains("should have sections over, and has 80 short"));
        assert_eq!(tally(&Case::default(), &wrong), Ok(None));
        assert_eq!(tally(&case(80, -80), &[Fault::Missing { section: 5 }]), Ok(Some(80)));
        assert!(tally(&case(80, -80), &[Fault::Missing { section: 4 }]).is_err());
    }
}
