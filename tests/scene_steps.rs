//! The picture at whole steps: the outside of the packet, figures the right way up, and nothing that jumps.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]

mod scene_support;

use backmark::scene::{Group, Tag, Vec3, View};
use scene_support::{Act, THICK, THIN, edge_middle, faced, middle, schemes};

#[test]
fn whole_steps_show_the_outside_of_the_packet() {
    for (name, scheme) in schemes(0x5EED_0003) {
        let act = Act::of(&name, &scheme);
        let (pw, ph) = act.bench.printing.panel();
        for made in 0..=act.bench.folding.steps.len() {
            let packet = act.bench.folding.packet(made);
            let extent = packet.extent();
            for (eye, grid) in [(90.0, packet.uppermost()), (-90.0, packet.undermost())] {
                let view = View { turn: 0.0, eye, ..View::OPENING };
                let scene = act.scene(made as f64, &view, THIN);
                for (x, y) in extent.cells() {
                    let face = grid[(y - extent.y0) as usize][(x - extent.x0) as usize];
                    let middle = Vec3::new((f64::from(x) + 0.5) * pw, -(f64::from(y) + 0.5) * ph, 0.0);
                    let seen = scene.pick(view.project(middle)).map(|(tag, _)| tag);
                    assert_eq!(seen, face.map(Tag::Face), "{name}: {made} folds made, eye {eye}, panel ({x}, {y})");
                }
            }
        }
    }
}

#[test]
fn figures_stand_as_the_landing_says() {
    for (name, scheme) in schemes(0x5EED_0005) {
        let act = Act::of(&name, &scheme);
        let Some(landing) = act.bench.printing.landing.clone() else { continue };
        for made in 0..=act.bench.folding.steps.len() {
            let paper = act.rigid(made, 0.0);
            for view in [View::OPENING, View { eye: -50.0, ..View::OPENING }] {
                let scene = act.scene(made as f64, &view, THIN);
                for group in scene.items.iter().filter_map(faced) {
                    let (face, group) = group;
                    let page = landing.page(landing.page_on(&face).unwrap()).unwrap();
                    let panel = paper.iter().find(|p| (p.row, p.column) == (face.row, face.column)).unwrap();
                    let head = edge_middle(act.panel, page.head);
                    let expected = view.project(panel.on_face(face.side, head, act.panel));
                    let drawn = group.place * head;
                    assert!(
                        (drawn - expected).hypot() < 0.1,
                        "{name}: page {} after {made} folds has its head at {drawn:?}, not {expected:?}",
                        page.page
                    );
                }
            }
        }
    }
}

/// Where the rule passes a whole step, nothing may jump.
#[test]
fn nothing_jumps_at_a_whole_step() {
    for (name, scheme) in schemes(0x5EED_0006) {
        let act = Act::of(&name, &scheme);
        let end = act.bench.rule.end() as u32;
        for step in 1..=end {
            let at = f64::from(step);
            for view in [View::OPENING, View { eye: -50.0, ..View::OPENING }] {
                let [before, now] = [at - 1e-7, at].map(|at| act.scene(at, &view, THICK));
                let mut places = now.items.iter().filter_map(faced);
                let jumped = places.find(|(face, group)| {
                    let was = before.group(Tag::Face(*face));
                    let visible = |g: &Group| now.pick(middle(g)).map(|(tag, _)| tag) == Some(Tag::Face(*face));
                    visible(group) && was.is_none_or(|w| (middle(w) - middle(group)).hypot() > 0.5)
                });
                let jumped = jumped.map(|(face, group)| (face, middle(group)));
                assert_eq!(jumped, None, "{name}: at {at}, eye {}", view.eye);
            }
        }
    }
}
