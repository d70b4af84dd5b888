//! `write_report`: the report to hand in, line by line and as a table.

use super::error::Refusal;
use crate::report::{Report, Sheet, csv};
use crate::since::{Evidence, hold};
use serde::{Deserialize, Serialize};

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    report: Report,
    since: Option<Evidence>,
}

/// The answer.
#[derive(Serialize)]
pub(super) struct Written {
    #[serde(flatten)]
    sheet: Sheet,
    csv: String,
    report: Report,
}

pub(super) fn answer(ask: Ask) -> Result<Written, Refusal> {
    ask.report.check().map_err(|refused| Refusal::from(refused).under("report"))?;
    let report = match &ask.since {
        Some(evidence) => {
            let held = hold(evidence).map_err(|refused| Refusal::from(refused).under("since"))?;
            ask.report.with(evidence, &held)
        }
        None => ask.report,
    };
    let sheet = report.sheet();
    Ok(Written { csv: csv(&sheet), sheet, report })
}
