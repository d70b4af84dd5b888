//! What a class is asked before the next step at a bench, and what it is told after it. All of it is read off the bench, as the
//! engine folds it.

use super::state::State;
use crate::fold::{Direction, Face, Lands, Lay, Step, fold_name, says_after};
use crate::scene::{Bench, Stage};

/// What a class is asked before a step is made.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Question {
    /// What is about to be done, and what is asked about it: one or two short sentences.
    pub says: String,
    /// The answer, a slip each: page figures, or words. Empty where nothing is asked.
    pub answers: Vec<String>,
}

/// How many slips an answer has at the most.
const MOST_SLIPS: usize = 4;

/// The question before the step that begins at `at`. After the last step there is none.
#[must_use]
pub fn question(bench: &Bench, at: u32, lay: Lay) -> Option<Question> {
    let made = at as usize;
    if at as f64 >= bench.rule.end() {
        return None;
    }
    if made >= bench.rule.folds {
        return opening(bench, made - bench.rule.folds);
    }
    match bench.folding.steps.get(made) {
        Some(step) => Some(of_fold(bench, made, step, lay)),
        // Beyond the first slit there are several packets; what is done is named, and nothing asked.
        None => Some(Question { says: named(&bench.step_name(made)), answers: Vec::new() }),
    }
}

/// What the step that ended at `at` has done. Where some figures are `covered`, only its name is said.
#[must_use]
pub fn told(state: &State, bench: &Bench, at: u32, lay: Lay, covered: bool) -> String {
    let Some(last) = (at as usize).checked_sub(1) else { return String::new() };
    if last < bench.folding.steps.len()
        && let Some(step) = bench.folding.steps.get(last)
    {
        if covered {
            return fold_name(&lay.seen(&step.turn.fold, (0, 0))) + ".";
        }
        // What fell on what; what lies on top is seen.
        let says = says_after(step, &|face| bench.printing.figure(face).map(|f| f.page), lay);
        return says.split_once(';').map_or(says.clone(), |(fell, _)| format!("{fell}."));
    }
    if last < bench.rule.folds {
        return if covered { named(&bench.step_name(last)) } else { bench.says_step(last, lay, false) };
    }
    if covered && matches!(bench.rule.stage(f64::from(at)), Stage::Leaf { .. }) {
        return String::new();
    }
    let there = State { look: super::Look { at: f64::from(at), lay, ..state.look.clone() }, ..state.clone() };
    there.moment_sentence(bench)
}

/// Where a page lies in the packet after so many folds of the whole sheet: "11 lies inside, on 10." Nothing once the sheet was slit.
#[must_use]
pub fn lies(bench: &Bench, at: u32, lay: Lay, face: &Face) -> Option<String> {
    let made = at as usize;
    if made > bench.folding.steps.len() || bench.is_parted(f64::from(at)) {
        return None;
    }
    let packet = bench.folding.packet(made);
    let number = |face: &Face| bench.printing.figure(face).map(|f| f.page);
    let page = number(face)?;
    let (x, y) = packet.extent().cells().find(|(x, y)| packet.faces_at(*x, *y).contains(face))?;
    let mut pile = packet.faces_at(x, y);
    if lay.over {
        pile.reverse();
    }
    let place = pile.iter().position(|f| f == face)?;
    Some(match place {
        0 => format!("{page} lies on top."),
        last if last + 1 == pile.len() => format!("{page} lies underneath."),
        // A face that is turned up has the next layer on it, one that is turned down lies on the next layer.
        up if up % 2 == 0 => match pile.get(up - 1).and_then(number) {
            Some(other) => format!("{page} lies inside, under {other}."),
            None => format!("{page} lies inside."),
        },
        down => match pile.get(down + 1).and_then(number) {
            Some(other) => format!("{page} lies inside, on {other}."),
            None => format!("{page} lies inside."),
        },
    })
}

fn of_fold(bench: &Bench, made: usize, step: &Step, lay: Lay) -> Question {
    let number = |face: &Face| bench.printing.figure(face).map(|f| f.page);
    let fold = lay.seen(&step.turn.fold, (0, 0));
    let name = fold_name(&fold);
    let over = fold.lands == Lands::Over;
    let uppermost = step.turn.fold.lands == Lands::Over;
    let outside = |packet: &crate::fold::Packet| if uppermost { packet.uppermost() } else { packet.undermost() };
    let before: Vec<_> = outside(bench.folding.packet(made)).into_iter().flatten().flatten().collect();
    // Whatever lay outside before is no answer: it has not come there now.
    let rows = lay.grid(outside(&step.after)).into_iter().flatten().flatten();
    let new: Vec<u32> = rows.filter(|face| !before.contains(face)).filter_map(|face| number(&face)).collect();
    if (1..=MOST_SLIPS).contains(&new.len()) {
        let comes = if over { "on top" } else { "underneath" };
        return Question { says: format!("{name}. Which {} {comes}?", pages_come(new.len())), answers: strings(&new) };
    }
    let pair = step.corner_contacts().into_iter().find_map(|c| Some((number(&c.fell)?, number(&c.on)?)));
    match pair {
        Some((fell, on)) if over => {
            Question { says: format!("{name}. On which page does {fell} fall?"), answers: strings(&[on]) }
        }
        Some((fell, on)) => {
            Question { says: format!("{name}. Under which page does {fell} go?"), answers: strings(&[on]) }
        }
        None => Question { says: name + ".", answers: Vec::new() },
    }
}

/// What comes after the folds: the knife, the front, and leaf after leaf.
fn opening(bench: &Bench, step: usize) -> Option<Question> {
    let section = bench.section.as_ref()?;
    let page = |place: usize| section.faces.get(place).and_then(|f| bench.printing.figure(&f.face)).map(|f| f.page);
    Some(match step {
        0 => {
            let name = |edge: &Direction| match *edge {
                e if e == section.head => "head",
                e if e == section.head.opposite() => "tail",
                _ => "fore-edge",
            };
            let bolts: Vec<String> = bench.slits().iter().map(|edge| name(edge).to_owned()).collect();
            let says = match bolts.len() {
                0 => "No bolt is closed: nothing to slit.",
                1 => "At which edge are bolts slit open?",
                _ => "At which edges are bolts slit open?",
            };
            Question { says: says.into(), answers: bolts }
        }
        1 => Question { says: "Which page is in front?".into(), answers: page(0).iter().map(u32::to_string).collect() },
        step => {
            // Leaf `step - 2` turns: its back lies at the one side then, the front of the next leaf at the other.
            let back = 2 * (step - 2) + 1;
            let open: Vec<u32> = [page(back), page(back + 1)].into_iter().flatten().collect();
            let says = match open.len() {
                0 => "A leaf turns.",
                1 => "Which page is the last?",
                _ => "Between which two pages does it open next?",
            };
            Question { says: says.into(), answers: strings(&open) }
        }
    })
}

fn strings(pages: &[u32]) -> Vec<String> {
    pages.iter().map(u32::to_string).collect()
}

fn pages_come(count: usize) -> &'static str {
    match count {
        1 => "page comes",
        2 => "two pages come",
        3 => "three pages come",
        _ => "four pages come",
    }
}

/// A name as a sentence.
fn named(name: &str) -> String {
    let mut says = String::with_capacity(name.len() + 1);
    for (i, c) in name.char_indices() {
        says.push(if i == 0 { c.to_ascii_uppercase() } else { c });
    }
    says + "."
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{Action, update};
    use crate::fold::courses;

    fn bench_of(name: &str) -> (State, Bench) {
        let named = courses().into_iter().find(|n| n.name == name).unwrap();
        let state = update(&State::default(), Action::Take(named.course)).0;
        let bench = state.bench().unwrap();
        (state, bench)
    }

    fn asked(bench: &Bench, at: u32, lay: Lay) -> (String, String) {
        let question = question(bench, at, lay).unwrap();
        (question.says, question.answers.join(" "))
    }

    /// The folds are J. B. Nicholson's, A Manual of the Art of Bookbinding (1878), pp. 35-36: 3 on 2, then 5 and 12 on 4 and 13, then
    /// 9 on 8; what comes on top backs what falls.
    #[test]
    fn a_sixteen_is_asked_fold_by_fold_and_leaf_by_leaf() {
        let (_, bench) = bench_of("Sixteen, three folds");
        let all: Vec<_> = (0..=6).map(|at| asked(&bench, at, Lay::default())).collect();
        let pairs = [
            ("Right over left. Which four pages come on top?", "5 12 4 13"),
            ("Top over bottom. Which two pages come on top?", "8 9"),
            ("Right over left. Which page comes on top?", "16"),
            ("At which edges are bolts slit open?", "head fore-edge"),
            ("Which page is in front?", "1"),
            ("Between which two pages does it open next?", "2 3"),
            ("Between which two pages does it open next?", "4 5"),
        ];
        for (got, (says, answers)) in all.iter().zip(pairs) {
            assert_eq!(got, &(says.to_owned(), answers.to_owned()));
        }
        assert_eq!(asked(&bench, 12, Lay::default()), ("Which page is the last?".into(), "16".into()));
        assert_eq!(question(&bench, 13, Lay::default()), None);
    }

    #[test]
    fn a_sheet_that_lies_turned_over_is_asked_as_it_is_seen() {
        let (_, bench) = bench_of("Sixteen, three folds");
        let lay = Lay::default().turned_over();
        assert_eq!(asked(&bench, 0, lay).0, "Left under right. Which four pages come underneath?");
    }

    #[test]
    fn a_large_sheet_is_asked_for_one_page() {
        let (_, bench) = bench_of("Thirty-two, four right-angle folds");
        let (says, answer) = asked(&bench, 0, Lay::default());
        assert!(says.starts_with("Top over bottom. On which page does "), "{says}");
        assert!(answer.parse::<u32>().is_ok(), "{answer}");
    }

    #[test]
    fn a_letter_fold_is_asked_for_what_has_come_and_not_for_what_lay_there() {
        // Three rows: the lower third goes up, the upper one comes down over it.
        let (_, bench) = bench_of("Twelve, letter fold and right angle");
        let number = |rows: Vec<Vec<Option<crate::fold::Face>>>| -> Vec<u32> {
            rows.into_iter().flatten().flatten().filter_map(|f| bench.printing.figure(&f)).map(|f| f.page).collect()
        };
        let (before, after) =
            (number(bench.folding.packet(0).uppermost()), number(bench.folding.packet(1).uppermost()));
        let new: Vec<String> = after.iter().filter(|p| !before.contains(p)).map(u32::to_string).collect();
        let first = question(&bench, 0, Lay::default()).unwrap();
        assert_eq!(first.answers, new);
        assert!(new.len() < after.len(), "a part stays where it was");
    }

    /// Nicholson again: 6 falls on 7, 3 on 2; 5 and 12 then come down on 4 and 13.
    #[test]
    fn a_page_is_found_in_the_packet() {
        let (_, bench) = bench_of("Sixteen, three folds");
        let says = |at, page: u32, lay| {
            let face =
                bench.printing.faces().find(|f| bench.printing.figure(f).is_some_and(|f| f.page == page)).unwrap();
            lies(&bench, at, lay, &face).unwrap()
        };
        let (usual, over) = (Lay::default(), Lay::default().turned_over());
        assert_eq!(says(0, 11, usual), "11 lies on top.");
        assert_eq!(says(0, 12, usual), "12 lies underneath.");
        assert_eq!(says(0, 12, over), "12 lies on top.");
        assert_eq!(says(1, 6, usual), "6 lies inside, on 7.");
        assert_eq!(says(1, 7, usual), "7 lies inside, under 6.");
        assert_eq!(says(2, 5, usual), "5 lies inside, on 4.");
        assert_eq!(says(2, 11, usual), "11 lies inside, under 10.");
        assert_eq!(says(3, 1, usual), "1 lies underneath.");
    }

    #[test]
    fn what_is_covered_is_not_told() {
        let (state, bench) = bench_of("Sixteen, three folds");
        let told = |at, covered| told(&state, &bench, at, Lay::default(), covered);
        assert_eq!(told(0, false), "");
        assert_eq!(told(1, false), "Right over left: 3 falls on 2, 6 on 7.");
        assert_eq!(told(1, true), "Right over left.");
        assert_eq!(told(6, false), "Open at 2 and 3.");
        assert_eq!(told(6, true), "");
        for at in 0..=13 {
            assert!(!told(at, true).contains(|c: char| c.is_ascii_digit()), "{at}");
        }
    }

    /// Every course at hand, at every step: what is asked can be answered from what is printed.
    #[test]
    fn every_course_is_asked() {
        for named in courses() {
            let take = if named.oblong { Action::TakeOblong(named.course) } else { Action::Take(named.course) };
            let state = update(&State::default(), take).0;
            let bench = state.bench().unwrap();
            for at in 0..bench.rule.end() as u32 {
                let asked = question(&bench, at, Lay::default()).unwrap();
                assert!(!asked.says.is_empty() && asked.answers.len() <= 4, "{} at {at}: {asked:?}", named.name);
                let silent = asked.answers.is_empty();
                assert_eq!(asked.says.ends_with('?'), !silent, "{} at {at}: {asked:?}", named.name);
            }
        }
    }
}
