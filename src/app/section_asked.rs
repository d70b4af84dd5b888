//! A wrong section: the questions to the worker, as lines of the ask protocol (`tell_section`, `act_out`,
//! `look_alikes`), and the answers.

use super::form::{CREASES, HEADS, read_scheme, read_side, scheme_json};
use super::job::Layout;
use super::nest_told::{NestTold, nest};
use super::part::{Part, Refused};
use crate::fold::misfold::{Cause, FoundPage, Lies, Mark};
use crate::fold::{Scheme, Side};
use crate::json::Json;

/// A section told.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SectionTold {
    /// Its pages from front to back.
    pub found: Vec<FoundPage>,
    /// Whether its last fold is at the fore-edge.
    pub fore_edge: bool,
    /// The pages of a right section.
    pub due: Vec<u32>,
    /// Whether it is right as far as its pages show.
    pub right: bool,
    /// What the pages tell before any cause is thought of.
    pub leads: Vec<String>,
    /// What gives these pages, the likeliest first.
    pub causes: Vec<CauseTold>,
    /// What can't be told apart, or was not tried.
    pub cannot_tell: Option<String>,
    /// How the right section is put together, where a cause says how the wrong one is.
    pub nest: Option<NestTold>,
}

impl SectionTold {
    /// What was made, in words, if it is among what is told: a list of one cause or two, as the protocol words them.
    #[must_use]
    pub fn title_of(&self, made: &Json) -> Option<&str> {
        let Json::List(made) = made else { return None };
        let is_made = |cause: &Json| match (made.as_slice(), cause.get("causes")) {
            ([one], _) => cause == one,
            (two, Some(Json::List(both))) => both.len() == two.len() && two.iter().all(|c| both.contains(c)),
            _ => false,
        };
        let firsts = self.causes.iter().filter_map(|c| Some((c.cause.as_ref()?, &c.title)));
        let others = self.causes.iter().flat_map(|c| &c.alike).map(|a| (&a.cause, &a.title));
        firsts.chain(others).find(|(cause, _)| is_made(cause)).map(|(_, title)| title.as_str())
    }
}

/// A cause in words.
#[derive(Clone, Debug, PartialEq)]
pub struct CauseTold {
    /// What happened.
    pub title: String,
    /// What that does and how it shows.
    pub detail: String,
    /// Where in the shop.
    pub stage: String,
    /// What the back shows.
    pub mark: String,
    /// What settles it.
    pub next_check: String,
    /// What to mind while looking.
    pub caution: String,
    /// The cause as the protocol words it; `None` where nothing gives the pages.
    pub cause: Option<Json>,
    /// What gives the same pages.
    pub alike: Vec<AlikeTold>,
    /// How the section is folded from its sheet, where one sheet can show it.
    pub way: Option<WayTold>,
    /// How it is put together, where one sheet does not show it.
    pub nest: Option<NestTold>,
}

impl CauseTold {
    /// Whether it is a fault of the folding or the print of the second piece.
    #[must_use]
    pub fn is_on_inset(&self) -> bool {
        let kind = self.cause.as_ref().and_then(|cause| cause.get("kind"));
        matches!(kind, Some(Json::Text(kind)) if kind == "inset_sheet")
    }
}

/// A look-alike in words.
#[derive(Clone, Debug, PartialEq)]
pub struct AlikeTold {
    /// What happened.
    pub title: String,
    /// The cause as the protocol words it.
    pub cause: Json,
    /// What tells it from the first.
    pub tell: String,
    /// How it is put together, where one sheet does not show it.
    pub nest: Option<NestTold>,
}

/// A printed sheet as it lies, and how it is folded.
#[derive(Clone, Debug, PartialEq)]
pub struct WayTold {
    /// The folds that were really made.
    pub scheme: Scheme,
    /// What is printed on the sheet.
    pub sheet: Layout,
    /// The pages that come of it.
    pub pages: Vec<FoundPage>,
    /// How many sheets were folded as one.
    pub sheets: u32,
}

/// Causes that make the same section.
#[derive(Clone, Debug, PartialEq)]
pub struct AlikeGroup {
    /// The causes as the protocol words them.
    pub causes: Vec<Json>,
    /// The pages that they make.
    pub pages: Vec<FoundPage>,
    /// Whether the fold is at the fore-edge.
    pub fore_edge: bool,
    /// What is seen of the back mark.
    pub mark: Mark,
    /// Whether it is one example of what any page, or any two, may have.
    pub example: bool,
}

/// Every single cause of a scheme.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LookAlikes {
    /// Wrong sections, each with what makes it.
    pub groups: Vec<AlikeGroup>,
    /// Causes that can leave the section right.
    pub no_harm: Vec<Json>,
}

/// The question how a cause is acted out.
#[must_use]
pub fn act_out_question(scheme: &Scheme, first: u32, cause: &Json) -> String {
    let mut members = about("act_out", scheme, first);
    members.push(("cause".to_owned(), cause.clone()));
    Json::Object(members).write()
}

/// The question which causes look alike.
#[must_use]
pub fn look_alikes_question(scheme: &Scheme, first: u32) -> String {
    Json::Object(about("look_alikes", scheme, first)).write()
}

fn about(ask: &str, scheme: &Scheme, first: u32) -> Vec<(String, Json)> {
    vec![
        ("ask".to_owned(), ask.into()),
        ("scheme".to_owned(), scheme_json(scheme)),
        ("first_page".to_owned(), first.into()),
    ]
}

/// Reads the answer to [`SectionCase::question`](crate::app::SectionCase::question).
///
/// # Errors
/// The reason that the answer gives, or that it is none.
pub fn read_section_told(answer: &str) -> Result<SectionTold, String> {
    read(answer, |told| {
        let all = |name: &str| told.member(name)?.list();
        Ok(SectionTold {
            found: pages(&told.member("found")?)?,
            fore_edge: read_fold_at(told)?,
            due: all("due")?.iter().map(Part::whole_number).collect::<Result<_, _>>()?,
            right: told.member("right")?.truth()?,
            leads: all("leads")?.iter().map(|p| p.text().map(str::to_owned)).collect::<Result<_, _>>()?,
            causes: all("causes")?.iter().map(cause).collect::<Result<_, _>>()?,
            cannot_tell: there(told, "cannot_tell").map(|p| p.text().map(str::to_owned)).transpose()?,
            nest: nested(told)?,
        })
    })
}

/// Reads the answer to [`act_out_question`].
///
/// # Errors
/// The reason that the answer gives, or that it is none.
pub fn read_acted_out(answer: &str) -> Result<Vec<WayTold>, String> {
    read(answer, |acted| acted.member("ways")?.list()?.iter().map(way).collect())
}

/// Reads the answer to [`look_alikes_question`].
///
/// # Errors
/// The reason that the answer gives, or that it is none.
pub fn read_look_alikes(answer: &str) -> Result<LookAlikes, String> {
    let group = |part: &Part<'_>| -> Result<AlikeGroup, Refused> {
        Ok(AlikeGroup {
            causes: values(&part.member("causes")?)?,
            pages: pages(&part.member("pages")?)?,
            fore_edge: read_fold_at(part)?,
            mark: part.member("mark")?.word(&MARKS)?,
            example: part.maybe("example").map_or(Ok(false), |e| e.truth())?,
        })
    };
    read(answer, |all| {
        Ok(LookAlikes {
            groups: all.member("groups")?.list()?.iter().map(group).collect::<Result<_, _>>()?,
            no_harm: values(&all.member("no_harm")?)?,
        })
    })
}

/// What a single cause is called, as the core words it; `None` if it is none that is known.
#[must_use]
pub fn cause_title(cause: &Json) -> Option<String> {
    named(&Part::whole(cause)).ok().map(|cause| cause.title())
}

const MARKS: [(&str, Mark); 3] = [("shows", Mark::Shows), ("blank", Mark::Blank), ("mirrored", Mark::Mirrored)];
const SIDES: [(&str, Side); 2] = [("A", Side::A), ("B", Side::B)];
const LIES: [(&str, Lies); 3] =
    [("head_to_tail", Lies::HeadToTail), ("turned_in_plane", Lies::TurnedInPlane), ("side_to_side", Lies::SideToSide)];

fn named(part: &Part<'_>) -> Result<Cause, Refused> {
    let number = |name: &str| part.member(name)?.whole_number();
    Ok(match part.member("kind")?.text()? {
        "fold_other_way" => Cause::FoldOtherWay { fold: number("fold")? },
        "fold_from_other_edge" => Cause::FoldFromOtherEdge { fold: number("fold")? },
        "sheet_end_for_end" => Cause::SheetEndForEnd,
        "sheet_turned_over" => Cause::SheetTurnedOver { about: part.member("about")?.word(&CREASES)? },
        "second_side_turned_round" => Cause::SecondSideTurnedRound,
        "second_side_blank" => Cause::SecondSideBlank { side: part.member("side")?.word(&SIDES)? },
        "wrong_second_side" => Cause::WrongSecondSide,
        "pages_exchanged" => match part.member("pages")?.list()?.as_slice() {
            [a, b] => Cause::PagesExchanged { pages: [a.whole_number()?, b.whole_number()?] },
            _ => return part.refuse("must name two pages"),
        },
        "page_head_down" => Cause::PageHeadDown { page: number("page")? },
        "section_lies" => Cause::SectionLies { lies: part.member("lies")?.word(&LIES)? },
        "double_sheet" => Cause::DoubleSheet,
        "together" => {
            Cause::Together { causes: part.member("causes")?.list()?.iter().map(named).collect::<Result<_, _>>()? }
        }
        _ => return part.refuse("is no cause that is known here"),
    })
}

fn read<T>(answer: &str, of: impl FnOnce(&Part<'_>) -> Result<T, Refused>) -> Result<T, String> {
    let unreadable = |says: String| format!("The answer can't be read: {says}.");
    let answer = Json::parse(answer).map_err(|_| unreadable("it is cut off".into()))?;
    if let Some(Json::Text(says)) = answer.get("error").and_then(|e| e.get("says")) {
        return Err(says.clone());
    }
    let whole = Part::whole(&answer);
    whole.member("ok").and_then(|ok| of(&ok)).map_err(|(at, says)| unreadable(format!("{at} {says}")))
}

/// A member that is there and not `null`.
fn there<'a>(part: &Part<'a>, name: &str) -> Option<Part<'a>> {
    part.maybe(name).filter(|p| !p.is_null())
}

fn values(part: &Part<'_>) -> Result<Vec<Json>, Refused> {
    Ok(part.list()?.iter().map(|p| p.value().clone()).collect())
}

pub(super) fn pages(part: &Part<'_>) -> Result<Vec<FoundPage>, Refused> {
    let page = |part: &Part<'_>| -> Result<FoundPage, Refused> {
        let page = there(part, "page").map(|p| p.whole_number()).transpose()?;
        let head = there(part, "head").map(|h| h.word(&HEADS)).transpose()?;
        Ok(FoundPage { page, head })
    };
    part.list()?.iter().map(page).collect()
}

/// Whether a fold is at the fore-edge.
pub(super) fn read_fold_at(part: &Part<'_>) -> Result<bool, Refused> {
    part.member("fold_at")?.word(&[("spine", false), ("fore_edge", true)])
}

fn cause(part: &Part<'_>) -> Result<CauseTold, Refused> {
    let text = |name: &str| part.member(name)?.text().map(str::to_owned);
    let alike = |part: &Part<'_>| -> Result<AlikeTold, Refused> {
        Ok(AlikeTold {
            title: part.member("title")?.text()?.to_owned(),
            cause: part.member("cause")?.value().clone(),
            tell: part.member("tell")?.text()?.to_owned(),
            nest: nested(part)?,
        })
    };
    Ok(CauseTold {
        title: text("title")?,
        detail: text("detail")?,
        stage: text("stage")?,
        mark: text("mark")?,
        next_check: text("next_check")?,
        caution: text("caution")?,
        cause: there(part, "cause").map(|c| c.value().clone()),
        alike: part.member("alike")?.list()?.iter().map(alike).collect::<Result<_, _>>()?,
        way: there(part, "way").map(|w| way(&w)).transpose()?,
        nest: nested(part)?,
    })
}

/// How something is put together, if it is said.
fn nested(part: &Part<'_>) -> Result<Option<NestTold>, Refused> {
    there(part, "nest").map(|part| nest(&part)).transpose()
}

fn way(part: &Part<'_>) -> Result<WayTold, Refused> {
    let (scheme, sheet) = printed(part)?;
    let sheets = part.member("sheets")?.whole_number()?;
    Ok(WayTold { scheme, sheet, pages: pages(&part.member("pages")?)?, sheets })
}

/// A printed sheet and how it is folded.
pub(super) fn printed(part: &Part<'_>) -> Result<(Scheme, Layout), Refused> {
    let scheme = read_scheme(&part.member("scheme")?)?;
    let (rows, columns) = (scheme.rows, scheme.columns);
    let side = |name: &str| {
        let side = part.member(name)?;
        let cells = read_side(&side, columns)?;
        if cells.len() as u64 == u64::from(rows) * u64::from(columns) {
            Ok(cells)
        } else {
            side.refuse("has not all rows")
        }
    };
    let sheet = Layout { rows, columns, side_a: side("side_a")?, side_b: side("side_b")? };
    Ok((scheme, sheet))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{Job, SectionCase, SectionEvidence};
    use crate::scene::Bench;

    const FOLD_1_AWAY: &str = "3 4 1 2 7 8 5 6 11 12 9 10 15 16 13 14";

    fn told(evidence: SectionEvidence) -> Result<SectionTold, String> {
        let case = SectionCase { evidence, ..SectionCase::default() };
        read_section_told(&crate::ask::answer(&case.question(&Job::default().sheet.trunk().into(), 1).unwrap()))
    }

    fn typed(text: &str) -> Result<SectionTold, String> {
        told(SectionEvidence::Typed(text.into()))
    }

    #[test]
    fn what_was_made_is_named_wherever_it_stands_among_the_causes() {
        let scheme = crate::app::State::default().scheme();
        let ask = |made: &str| {
            let made = Json::parse(made).unwrap();
            let case = SectionCase { evidence: SectionEvidence::Made(made.clone()), ..SectionCase::default() };
            let told =
                read_section_told(&crate::ask::answer(&case.question(&scheme.clone().into(), 1).unwrap())).unwrap();
            (told.title_of(&made).map(str::to_owned), told.causes[0].title.clone())
        };
        let (made, first) = ask(r#"[{"kind":"fold_other_way","fold":1}]"#);
        assert_eq!(
            (made.as_deref(), first.as_str()),
            (Some("Fold 1 was made the other way."), "Fold 1 was made the other way.")
        );
        let (made, first) =
            ask(r#"[{"kind":"section_lies","lies":"head_to_tail"},{"kind":"fold_other_way","fold":3}]"#);
        assert!(made.as_deref().is_some_and(|m| m.contains("Fold 3")), "{made:?}");
        assert_ne!(made.as_deref(), Some(first.as_str()), "something simpler leaves the same pages");
    }

    #[test]
    fn typed_pages_are_told_with_cause_look_alike_and_sheet() {
        let told = typed(FOLD_1_AWAY).unwrap();
        let first = &told.causes[0];
        assert_eq!(first.title, "Fold 1 was made the other way.");
        assert!(first.alike[0].title.contains("turned over") && first.alike[0].tell.contains("pile"), "{first:?}");
        assert!(!told.right && told.due.len() == 16 && !told.leads.is_empty());
        // The sheet of the answer, folded as the answer says, reads the pages found.
        let way = first.way.as_ref().unwrap();
        let bench = Bench::new(way.sheet.printing(), &way.scheme).unwrap();
        let faces = &bench.section.as_ref().unwrap().faces;
        let read: Vec<_> = faces.iter().map(|f| bench.printing.figure(&f.face).map(|f| f.page)).collect();
        assert_eq!(read, told.found.iter().map(|p| p.page).collect::<Vec<_>>());
    }

    #[test]
    fn right_pages_and_pages_that_nothing_gives_are_told() {
        let right = typed("1-16").unwrap();
        assert!(right.right && right.causes.is_empty());
        let nothing = typed("1 9 5 3 13 2 7 16 4 11 6 14 8 10 12 15").unwrap();
        let card = nothing.causes.first().unwrap();
        assert!(!nothing.right && card.cause.is_none() && !card.next_check.is_empty());
    }

    #[test]
    fn a_text_that_can_t_be_read_says_where() {
        assert!(typed("1 6 7 q").unwrap_err().contains("character 7"));
        assert!(SectionCase::default().question(&Job::default().sheet.trunk().into(), 1).is_none());
        assert!(read_section_told("{\"ok\":{}}").unwrap_err().contains("found"));
        assert!(read_section_told("{").unwrap_err().contains("cut off"));
    }

    #[test]
    fn every_cause_of_a_scheme_has_a_title_and_can_be_made() {
        let scheme = Job::default().sheet.trunk();
        let alike = read_look_alikes(&crate::ask::answer(&look_alikes_question(&scheme, 1))).unwrap();
        assert!(alike.groups.iter().any(|g| g.causes.len() > 1) && !alike.no_harm.is_empty());
        for cause in alike.groups.iter().flat_map(|g| &g.causes) {
            assert!(cause_title(cause).is_some(), "{cause:?}");
            let made = told(SectionEvidence::Made(Json::List(vec![cause.clone()]))).unwrap();
            assert!(!made.right, "{cause:?}");
            let ways = read_acted_out(&crate::ask::answer(&act_out_question(&scheme, 1, cause))).unwrap();
            assert!(!ways.is_empty(), "{cause:?}");
        }
        assert_eq!(cause_title(&Json::object([("kind", "leaf_missing".into())])), None);
    }
}
