//! A scene as requests and answers about links word it.

use super::error::Refusal;
use super::pieces::course;
use crate::fold::{Course, Crease, End, Lay, Nest, Parted, Reads, Steps, courses};
use crate::link::{Beside, Scene, Sheet};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

/// A scene as it is asked for and told: a course at hand or a whole sheet, and what is not usual of the self.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AskedScene {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    course: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sheet: Option<AskedSheet>,
    #[serde(default)]
    piece: Option<u32>,
    #[serde(default = "one")]
    place: u32,
    #[serde(default)]
    at: f64,
    #[serde(default)]
    turned_over: bool,
    #[serde(default)]
    quarters: u8,
    #[serde(default)]
    beside: Pane,
    #[serde(default)]
    through: bool,
    #[serde(default = "yes")]
    figures: bool,
    #[serde(default)]
    followed: Option<u32>,
}

/// A whole sheet, as `tell_section` takes it.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AskedSheet {
    rows: u32,
    columns: u32,
    steps: Vec<Value>,
    copies: Vec<Vec<Nest>>,
    #[serde(default)]
    reads: Reads,
}

/// What is shown beside the bench.
#[derive(Clone, Copy, Default, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
enum Pane {
    #[default]
    Sides,
    Paper,
    Trim,
    Folder,
    Cut {
        crease: Crease,
        at: u32,
    },
}

const fn one() -> u32 {
    1
}

const fn yes() -> bool {
    true
}

impl AskedSheet {
    /// What is done to it. `at` is the path of its steps.
    pub(super) fn course(self, at: &str) -> Result<Course, Refusal> {
        let Self { rows, columns, steps, copies, reads } = self;
        Ok(Course { rows, columns, steps: course::steps(steps, at)?, copies, reads })
    }
}

impl AskedScene {
    /// The scene.
    pub(super) fn read(self) -> Result<Scene, Refusal> {
        let sheet = match (self.course, self.sheet) {
            (Some(name), None) => match courses().into_iter().find(|n| n.name == name) {
                Some(named) => Sheet::AtHand(named.name),
                None => return Err(Refusal::new("scene.course", "no course at hand has this name")),
            },
            (None, Some(sheet)) => Sheet::of(&sheet.course("scene.sheet.steps")?, false),
            _ => return Err(Refusal::new("scene", "give either `course` or `sheet`")),
        };
        let hundredths = (self.at * 100.0).round();
        if !(0.0..=1e6).contains(&hundredths) {
            return Err(Refusal::new("scene.at", "a moment is a number from 0 to 10000"));
        }
        if self.place == 0 {
            return Err(Refusal::new("scene.place", "sections are numbered from 1"));
        }
        if self.quarters > 3 {
            return Err(Refusal::new("scene.quarters", "a sheet is turned by 0 to 3 quarters"));
        }
        Ok(Scene {
            sheet,
            piece: self.piece,
            place: self.place,
            at: hundredths as u32,
            lay: Lay { over: self.turned_over, quarters: self.quarters },
            beside: match self.beside {
                Pane::Sides => Beside::Sides,
                Pane::Paper => Beside::Paper,
                Pane::Trim => Beside::Trim,
                Pane::Folder => Beside::Folder,
                Pane::Cut { crease, at } => Beside::Inside(crease, at),
            },
            through: self.through,
            figures: self.figures,
            followed: self.followed,
        })
    }

    /// What a link holds.
    pub(super) fn of(scene: &Scene) -> Self {
        let (course, sheet) = match &scene.sheet {
            Sheet::AtHand(name) => (Some((*name).to_owned()), None),
            Sheet::Own(course) => (None, Some(told_sheet(course))),
        };
        Self {
            course,
            sheet,
            piece: scene.piece,
            place: scene.place,
            at: f64::from(scene.at) / 100.0,
            turned_over: scene.lay.over,
            quarters: scene.lay.quarters,
            beside: match scene.beside {
                Beside::Sides => Pane::Sides,
                Beside::Paper => Pane::Paper,
                Beside::Trim => Pane::Trim,
                Beside::Folder => Pane::Folder,
                Beside::Inside(crease, at) => Pane::Cut { crease, at },
            },
            through: scene.through,
            figures: scene.figures,
            followed: scene.followed,
        }
    }
}

/// A sheet as it is told.
pub(super) fn told_sheet(course: &Course) -> AskedSheet {
    let Course { rows, columns, steps, copies, reads } = course;
    AskedSheet { rows: *rows, columns: *columns, steps: steps_json(steps), copies: copies.clone(), reads: *reads }
}

/// Steps as `pieces` takes them. One part laid on the other is told as the job file does.
fn steps_json(steps: &Steps) -> Vec<Value> {
    let mut all: Vec<Value> = steps.folds.iter().map(|fold| json!(fold)).collect();
    all.push(match &steps.end {
        End::Piece { head } => {
            let edge = match head {
                crate::fold::Direction::Up => "top",
                crate::fold::Direction::Right => "right",
                crate::fold::Direction::Down => "bottom",
                crate::fold::Direction::Left => "left",
            };
            json!({"head": edge})
        }
        End::Slit(slit) => {
            let mut told = json!({"slit": slit.crease, "after": slit.after});
            match &slit.then {
                Parted::Apart { first, second } => {
                    let [a, b] = if slit.crease == Crease::Vertical { ["left", "right"] } else { ["top", "bottom"] };
                    (told[a], told[b]) = (steps_json(first).into(), steps_json(second).into());
                }
                Parted::Laid { moves, lands, then } => {
                    (told["moves"], told["lands"]) = (json!(moves), json!(lands));
                    told["then"] = steps_json(then).into();
                }
            }
            told
        }
    });
    all
}
