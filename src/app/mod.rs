//! The program without a screen: what is kept, what a person can do, and what follows from it.
//!
//! ```text
//! Action ── update(&State, Action) ── (State, Vec<Effect>)
//! ```
//!
//! [`State`] holds the [`Job`] (all that a person made: saved, undone and redone as a whole) and the [`Look`] (where
//! they stand: saved, but not undone). Effects are requests to the outside, as data; the page performs them.

mod action;
mod asked;
mod blind_asked;
mod book_act;
mod case;
mod case_asked;
mod compare;
mod described;
mod exercise;
mod extent;
mod form;
mod form_book;
mod form_case;
mod form_marks;
mod form_sheet;
mod job;
mod layout_asked;
mod linked;
mod look;
mod making;
mod misfits;
mod nest_told;
mod on_bench;
mod part;
mod plan_asked;
mod saved;
mod section_asked;
mod section_of;
mod sections;
mod sheet;
mod state;
mod stories;
mod strangers;
mod telling;
mod typed_sheet;
mod update;

pub use crate::fold::Lay;
pub use action::{Action, Effect, Spoil};
pub use asked::read_told;
pub use blind_asked::{BlindTold, SpotTold, read_blind};
pub use book_act::BookAct;
pub use case::{CaseAct, Find};
pub use case_asked::{BookCause, BookTold, CaseTold, InsideTold, QuestionTold, read_traced};
pub use compare::Compared;
pub use described::{BoundTold, DescribedTold, read_described};
pub use exercise::{
    BesideRight, beside_right, blank_sheet, lies_sideways, opens_at, printed_bench, printed_sheet, right_sheet,
    state_of_course, state_of_folds,
};
pub use extent::MAX_RUNS;
pub use job::{Casing, Paper, Planning, Tried};
pub use job::{
    Cell, Evidence, Job, Layout, MAX_LAYOUT, MAX_SECTIONS, MAX_TITLE, MadeUp, SectionCase, SectionEvidence, trade_name,
};
pub use layout_asked::{Change, Mend, WorkedBack, read_worked_back, scheme_in_words, worked_bench};
pub use linked::{look_at_scene, scene_of};
pub use look::{Look, Pane, Room, Subject, Task, TraceLook};
pub use making::Role;
pub use misfits::misfit_sentences;
pub use nest_told::NestTold;
pub use plan_asked::{FindingTold, PlanTold, PlannedTold, PlansTold, make_up_text, read_make_up, read_plans};
pub use saved::{FORMAT, Saved, SavedError, read_saved, write_saved};
pub use section_asked::{
    AlikeGroup, AlikeTold, CauseTold, LookAlikes, SectionTold, WayTold, act_out_question, cause_title,
    look_alikes_question, read_acted_out, read_look_alikes, read_section_told,
};
pub use section_of::SectionOf;
pub use sections::{MAX_OTHERWISE, Otherwise};
pub use sheet::Sheet;
pub use state::State;
pub use stories::stories;
pub use telling::{outside_pages, page_name};
pub use typed_sheet::{read_sizes, resized, sizes_text};
pub use update::{update, update_at_once};
