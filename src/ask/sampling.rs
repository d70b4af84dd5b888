//! `sampling`: how likely a lot is accepted by a sample.

use super::error::Refusal;
use crate::sampling::{MOST_POINTS, Plan};
use serde::{Deserialize, Serialize};

/// The chance above which a lot is as good as sure of being accepted, and that below which it hardly ever is: the
/// producer's and the consumer's point of a plan as they are usually read. Common practice, no source.
const SURE: f64 = 0.95;
const HARDLY: f64 = 0.10;

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    lot: u32,
    sample: u32,
    accept: u32,
    bad: Vec<u32>,
}

/// The answer.
#[derive(Serialize)]
pub(super) struct Answer {
    /// For each number of bad books the chance that the lot is accepted.
    accepted: Vec<f64>,
    /// The most bad books with which the lot is accepted in 95 of 100 cases.
    bad_accepted_95: u32,
    /// The fewest bad books with which it is accepted in fewer than 10 of 100; none if there is no such number.
    bad_refused_90: Option<u32>,
}

pub(super) fn answer(ask: &Ask) -> Result<Answer, Refusal> {
    if ask.bad.len() > MOST_POINTS {
        return Err(Refusal::new("bad", format!("at the most {MOST_POINTS} numbers are asked about at once")));
    }
    let plan = Plan { lot: ask.lot, sample: ask.sample, accept: ask.accept };
    let mut accepted = Vec::with_capacity(ask.bad.len());
    for (at, &bad) in ask.bad.iter().enumerate() {
        let chance = plan.accepted(bad);
        accepted.push(chance.map_err(|why| match why.at.as_str() {
            "bad" => Refusal::new(format!("bad[{at}]"), why.says),
            _ => why.into(),
        })?);
    }
    Ok(Answer {
        accepted,
        bad_accepted_95: plan.bad_below(SURE)?.map_or(ask.lot, |bad| bad.saturating_sub(1)),
        bad_refused_90: plan.bad_below(HARDLY)?,
    })
}
