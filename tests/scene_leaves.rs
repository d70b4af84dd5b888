//! The opened section: its leaves lie, and turn, as those of a book do.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]

mod scene_support;

use backmark::fold::{Direction, FoundFace, Reads, Section, Side};
use backmark::scene::{Tag, Vec3, View};
use scene_support::{Act, Panel, Random, THIN, TURNS, Told, any_view, edge_middle, schemes};

#[test]
fn opened_leaves_lie_as_a_book_does() {
    let mut finished = 0;
    for (name, scheme) in schemes(0x5EED_0004) {
        let act = Act::of(&name, &scheme);
        let Some(section) = act.bench.section.clone() else { continue };
        finished += 1;
        let (leaves, open) = (section.held.len(), act.bench.rule.folds + 2);
        let page = if section.head.is_sideways() { (act.panel.1, act.panel.0) } else { act.panel };
        let left_to_right = scheme.reads == Reads::LeftToRight;
        for turned in 0..=leaves {
            let view = View { turn: 8.0, eye: 62.0, ..View::OPENING };
            let scene = act.scene((open + turned) as f64, &view, THIN);
            let spine = if left_to_right { 0.0 } else { page.0 };
            let at = |x: f64, y: f64| view.project(Vec3::new(spine + x, -y, 0.0));
            let (earlier, later) = (turned.checked_sub(1).map(|i| 2 * i + 1), (turned < leaves).then_some(2 * turned));
            let (left, right) = if left_to_right { (earlier, later) } else { (later, earlier) };
            for (from, index) in [(-page.0, left), (0.0, right)] {
                let what = format!("{name}: {turned} leaves turned, page beginning at {from}");
                let drawn = scene.pick(at(from + page.0 / 2.0, page.1 / 2.0)).map(|(tag, _)| tag);
                let expected = index.map(|i| section.faces[i]);
                assert_eq!(drawn, expected.map(|f| Tag::Face(f.face)), "{what}");
                let Some(found) = expected else { continue };
                let group = scene.group(Tag::Face(found.face)).unwrap();
                let upright = [(found.head, (from + page.0 / 2.0, 0.0)), (found.spine, (0.0, page.1 / 2.0))];
                for (edge, (x, y)) in upright {
                    let drawn = group.place * edge_middle(act.panel, edge);
                    assert!((drawn - at(x, y)).hypot() < 0.1, "{what}: {edge:?} is at {drawn:?}, not {:?}", at(x, y));
                }
            }
        }
        turning_leaves(&act, &section, page, left_to_right, &name);
    }
    assert!(finished > 60, "only {finished} sections were finished");
}

/// A leaf on its way shows the page that looks at the eye, over whatever lies beneath it.
fn turning_leaves(act: &Act, section: &Section, page: (f64, f64), left_to_right: bool, name: &str) {
    let leaves = section.held.len();
    let mut random = Random::new(leaves as u64);
    let mut told = Told::default();
    for turned in 0..leaves {
        let turn = TURNS[1 + turned % 4];
        let lying = |leaf: usize| {
            let share = match leaf {
                l if l < turned => 1.0,
                l if l == turned => turn,
                _ => 0.0,
            };
            let level = if leaf < turned { leaf as f64 } else { (leaves - leaf) as f64 };
            let level = if leaf == turned { leaves as f64 } else { level };
            bound_leaf([section.faces[2 * leaf], section.faces[2 * leaf + 1]], share, level, page, left_to_right, act)
        };
        let paper: Vec<Panel> = (0..leaves).map(lying).collect();
        let at = (act.bench.rule.folds + 2 + turned) as f64 + turn;
        for view in [View::OPENING, View { eye: -50.0, ..View::OPENING }, any_view(&mut random)] {
            act.compare(at, &view, THIN, &paper, &mut random, &mut told);
        }
    }
    assert!(told.compared > 0, "{name}");
}

/// A leaf of the bound section as the panel of the sheet that it is.
fn bound_leaf(
    found: [FoundFace; 2],
    share: f64,
    level: f64,
    page: (f64, f64),
    left_to_right: bool,
    act: &Act,
) -> Panel {
    let (s, c) = (share * std::f64::consts::PI).sin_cos();
    let out = if left_to_right { Vec3::new(c, 0.0, s) } else { Vec3::new(-c, 0.0, s) };
    let spine = Vec3::new(if left_to_right { 0.0 } else { page.0 }, 0.0, level * THIN);
    let head = Vec3::new(0.0, 1.0, 0.0);
    // The front page as its own side sees it: head away, spine towards the axis.
    let front = found[0];
    let way = |d: Direction| match d {
        d if d == front.head => head,
        d if d == front.head.opposite() => head * -1.0,
        d if d == front.spine => out * -1.0,
        _ => out,
    };
    let middle = spine + out * (page.0 / 2.0) + head * (-page.1 / 2.0);
    let (right, down) = (way(Direction::Right), way(Direction::Down));
    let corner = middle - right * (act.panel.0 / 2.0) - down * (act.panel.1 / 2.0);
    let (row, column) = (front.face.row, front.face.column);
    match front.face.side {
        Side::A => Panel { row, column, corner, eu: right, ev: down },
        Side::B => Panel { row, column, corner: corner + right * act.panel.0, eu: right * -1.0, ev: down },
    }
}
