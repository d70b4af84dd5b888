//! The picture of the bench against a second opinion: every panel of the sheet as a rigid body in space, turned about
//! the creases by its own little geometry. What the picture shows at a point has to be what a ray from the eye meets
//! first there, at every angle of every fold and from every side.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]

mod scene_support;

use backmark::scene::View;
use scene_support::{Act, Random, THICK, THIN, Told, any_view, schemes, views};

#[test]
fn the_picture_shows_what_is_nearest_the_eye() {
    let mut told = Told::default();
    for (name, scheme) in schemes(0x5EED_0001) {
        let mut random = Random::new(u64::from(scheme.pages()) * 31 + scheme.folds.len() as u64);
        let act = Act::of(&name, &scheme);
        for (fold, turn) in act.moments() {
            let paper = act.rigid(fold, turn);
            let at = fold as f64 + turn;
            for view in views(&mut random) {
                act.compare(at, &view, THIN, &paper, &mut random, &mut told);
            }
        }
    }
    println!("{} points compared, {} too near an outline", told.compared, told.skipped);
    assert!(told.compared > 100_000 && told.compared > told.skipped, "too few points say anything");
}

/// With thickness the piles have sides, which cover; the layers are where the fold engine numbers them.
#[test]
fn thickness_changes_nothing_but_edges() {
    let mut told = Told::default();
    for (name, scheme) in schemes(0x5EED_0002) {
        let mut random = Random::new(u64::from(scheme.pages()) * 37 + scheme.folds.len() as u64);
        let act = Act::of(&name, &scheme);
        for (fold, turn) in act.moments() {
            let paper = act.piled(fold, turn);
            for view in [View::OPENING, View { eye: -50.0, ..View::OPENING }, any_view(&mut random)] {
                act.compare(fold as f64 + turn, &view, THICK, &paper, &mut random, &mut told);
                act.grip_is_a_corner(fold, turn, &view, &paper);
            }
        }
    }
    println!("{} points compared, {} too near an outline or on a pile's side", told.compared, told.skipped);
    assert!(told.compared > 50_000, "too few points say anything");
}
