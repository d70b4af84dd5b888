//! A cause as a script writes it. Each kind has its own fields; one that is missing, or belongs to another kind, is
//! refused.

use super::cause::{Cause, Lies};
use crate::fold::{Crease, Side};
use serde::{Deserialize, Deserializer};

#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
enum Kind {
    FoldOtherWay,
    FoldFromOtherEdge,
    SheetEndForEnd,
    SheetTurnedOver,
    SecondSideTurnedRound,
    SecondSideBlank,
    WrongSecondSide,
    PagesExchanged,
    PageHeadDown,
    SectionLies,
    DoubleSheet,
    Together,
}

/// Every field of every kind.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Written {
    kind: Kind,
    #[serde(default, deserialize_with = "given")]
    fold: Option<u32>,
    #[serde(default, deserialize_with = "given")]
    about: Option<Crease>,
    #[serde(default, deserialize_with = "given")]
    side: Option<Side>,
    #[serde(default, deserialize_with = "given")]
    pages: Option<[u32; 2]>,
    #[serde(default, deserialize_with = "given")]
    page: Option<u32>,
    #[serde(default, deserialize_with = "given")]
    lies: Option<Lies>,
    #[serde(default, deserialize_with = "given")]
    causes: Option<Vec<Cause>>,
}

/// A field that may be left out, but not be `null`.
fn given<'de, D: Deserializer<'de>, T: Deserialize<'de>>(d: D) -> Result<Option<T>, D::Error> {
    T::deserialize(d).map(Some)
}

impl TryFrom<Written> for Cause {
    /// In the words of the reader of JSON, like every other refusal of a shape.
    type Error = String;

    fn try_from(mut written: Written) -> Result<Self, String> {
        fn take<T>(field: &mut Option<T>, name: &str) -> Result<T, String> {
            field.take().ok_or_else(|| format!("missing field `{name}`"))
        }
        let (cause, known) = match written.kind {
            Kind::FoldOtherWay => (Self::FoldOtherWay { fold: take(&mut written.fold, "fold")? }, "fold"),
            Kind::FoldFromOtherEdge => (Self::FoldFromOtherEdge { fold: take(&mut written.fold, "fold")? }, "fold"),
            Kind::SheetEndForEnd => (Self::SheetEndForEnd, ""),
            Kind::SheetTurnedOver => (Self::SheetTurnedOver { about: take(&mut written.about, "about")? }, "about"),
            Kind::SecondSideTurnedRound => (Self::SecondSideTurnedRound, ""),
            Kind::SecondSideBlank => (Self::SecondSideBlank { side: take(&mut written.side, "side")? }, "side"),
            Kind::WrongSecondSide => (Self::WrongSecondSide, ""),
            Kind::PagesExchanged => (Self::PagesExchanged { pages: take(&mut written.pages, "pages")? }, "pages"),
            Kind::PageHeadDown => (Self::PageHeadDown { page: take(&mut written.page, "page")? }, "page"),
            Kind::SectionLies => (Self::SectionLies { lies: take(&mut written.lies, "lies")? }, "lies"),
            Kind::DoubleSheet => (Self::DoubleSheet, ""),
            Kind::Together => (Self::Together { causes: take(&mut written.causes, "causes")? }, "causes"),
        };
        let left = [
            ("fold", written.fold.is_some()),
            ("about", written.about.is_some()),
            ("side", written.side.is_some()),
            ("pages", written.pages.is_some()),
            ("page", written.page.is_some()),
            ("lies", written.lies.is_some()),
            ("causes", written.causes.is_some()),
        ];
        match left.into_iter().find(|(_, there)| *there) {
            Some((name, _)) if known.is_empty() => Err(format!("unknown field `{name}`, expected `kind`")),
            Some((name, _)) => Err(format!("unknown field `{name}`, expected `kind`, `{known}`")),
            None => Ok(cause),
        }
    }
}
