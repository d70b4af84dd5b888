//! `plan_book`: the ways of making a book up in sections.

use super::error::Refusal;
use crate::book::{Job, Plans, plan};
use crate::finish::Size;
use crate::paper::{Grain, Length, Stock, Trims};
use serde::Deserialize;

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    extent: u32,
    page: Sides,
    sheet: Sides,
    paper: Paper,
    copies: u32,
    trims: Option<Cuts>,
    made_up: Option<Vec<u32>>,
}

/// A size in millimetres.
#[derive(Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Sides {
    width_mm: f64,
    height_mm: f64,
}

/// A paper.
#[derive(Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Paper {
    grammage: f64,
    bulk: f64,
    #[serde(default)]
    grain: Runs,
}

/// Which way the fibres run.
#[derive(Clone, Copy, Default, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Runs {
    #[default]
    Upright,
    Level,
}

/// What the knives take off.
#[derive(Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Cuts {
    head_mm: f64,
    foot_mm: f64,
    fore_edge_mm: f64,
}

impl From<Sides> for Size {
    fn from(sides: Sides) -> Self {
        Self { width: Length::from_mm(sides.width_mm), height: Length::from_mm(sides.height_mm) }
    }
}

impl From<Paper> for Stock {
    fn from(paper: Paper) -> Self {
        let grain = match paper.grain {
            Runs::Upright => Grain::Upright,
            Runs::Level => Grain::Level,
        };
        Self { grammage: paper.grammage, bulk: paper.bulk, grain }
    }
}

impl From<Cuts> for Trims {
    fn from(cuts: Cuts) -> Self {
        let [head, foot, fore_edge] = [cuts.head_mm, cuts.foot_mm, cuts.fore_edge_mm].map(Length::from_mm);
        Self { head, foot, fore_edge, ..Self::default() }
    }
}

pub(super) fn answer(ask: &Ask) -> Result<Plans, Refusal> {
    let job = Job {
        extent: ask.extent,
        page: ask.page.into(),
        trims: ask.trims.map(Trims::from).unwrap_or_default(),
        sheet: ask.sheet.into(),
        stock: ask.paper.into(),
        copies: ask.copies,
    };
    Ok(plan(&job, ask.made_up.as_deref())?)
}
