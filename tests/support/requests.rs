//! Random requests of the ask protocol, each from one number, so that a case that fails is made again from its number.
//!
//! A request that is new in the protocol is added to [`KINDS`] and gets a function here; the tests and the fuzzing
//! then ask it, too.
#![allow(dead_code, reason = "each of those that use it uses some of it")]

use backmark::fold::{Crease, Direction, Fold, Folding, FoundFace, Landing, Lands, Part, Reads, Scheme, Section, Side};
use serde_json::{Value, json};

/// The most rows and columns of a random scheme.
pub const MOST: (u32, u32) = (8, 16);

/// Makes a request about a scheme, or about a book that has nothing to do with it.
pub type Make = fn(&mut Dice, &Scheme) -> Value;

/// Every request of the protocol: its name, and what makes one.
pub const KINDS: &[(&str, Make)] = &[
    ("landing", landing),
    ("pieces", pieces),
    ("work_back", work_back),
    ("explain_section", explain_section),
    ("act_out", act_out),
    ("look_alikes", look_alikes),
    ("tell_section", tell_section),
    ("read_spine", read_spine),
    ("explain_book", explain_book),
    ("tell_book", tell_book),
    ("weigh_book", weigh_book),
    ("blind_spots", blind_spots),
    ("signatures", signatures),
    ("plan_book", plan_book),
    ("describe_book", describe_book),
    ("trace_book", trace_book),
    ("next_opening", next_opening),
    ("hold_books", hold_books),
    ("write_report", write_report),
    ("sampling", sampling),
    ("simulate", simulate),
    ("write_link", write_link),
    ("read_link", read_link),
    ("exercise", exercise),
    ("mark_exercise", mark_exercise),
    ("practise_next", practise_next),
    ("dummy", dummy),
    ("print", print),
    ("worksheet", worksheet),
    ("preview", preview),
    ("glossary", glossary),
];

/// Random numbers: SplitMix64, from Steele, Lea and Flood, "Fast Splittable Pseudorandom Number Generators",
/// OOPSLA 2014, figure 17; the constants of its mixer are David Stafford's variant 13.
pub struct Dice(u64);

impl Dice {
    /// Dice that fall the same for the same number.
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next number.
    pub const fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number below `end`, or 0 where there is none.
    pub const fn below(&mut self, end: u32) -> u32 {
        (self.next() >> 32) as u32 % if end == 0 { 1 } else { end }
    }

    /// True once in `n` throws.
    pub const fn once_in(&mut self, n: u32) -> bool {
        self.below(n) == 0
    }

    /// One of some.
    pub fn pick<T: Copy>(&mut self, some: &[T]) -> T {
        some[self.below(some.len() as u32) as usize]
    }

    /// Brings a list into a random order.
    pub fn shuffle<T>(&mut self, list: &mut [T]) {
        for last in (1..list.len()).rev() {
            list.swap(last, self.below(last as u32 + 1) as usize);
        }
    }
}

/// A sheet that folds into a section: any size up to [`MOST`] by the other way round, any folds that can be made, the
/// head at either end, read either way.
pub fn scheme(dice: &mut Dice) -> Scheme {
    let (most_rows, most_columns) = if dice.once_in(2) { MOST } else { (MOST.1, MOST.0) };
    // As in the trade, small sheets and powers of two come more often than others.
    let mut size = |most: u32| match dice.below(3) {
        0 => 1 + dice.below(most),
        1 => 1 + dice.below(most.min(4)),
        _ => 1 << dice.below(most.ilog2() + 1),
    };
    let (rows, columns) = (size(most_rows), size(most_columns));
    folded(dice, rows, if rows * columns == 1 { 2 } else { columns })
}

/// A sheet of this size, folded at random down to one panel.
pub fn folded(dice: &mut Dice, rows: u32, columns: u32) -> Scheme {
    let mut scheme = Scheme { rows, columns, folds: Vec::new(), head: Direction::Up, reads: Reads::LeftToRight };
    let halves = dice.once_in(2);
    let (mut high, mut wide) = (rows, columns);
    while high * wide > 1 {
        let vertical = high == 1 || (wide > 1 && dice.once_in(2));
        let (size, parts) =
            if vertical { (&mut wide, [Part::Left, Part::Right]) } else { (&mut high, [Part::Top, Part::Bottom]) };
        let after = if halves && !dice.once_in(8) { (*size / 2).max(1) } else { 1 + dice.below(*size - 1) };
        *size = after.max(*size - after);
        scheme.folds.push(Fold::new(after, dice.pick(&parts), dice.pick(&[Lands::Over, Lands::Under])));
    }
    let upright = scheme.folds.last().is_none_or(|f| f.crease == Crease::Vertical);
    scheme.head =
        dice.pick(if upright { &[Direction::Up, Direction::Down] } else { &[Direction::Left, Direction::Right] });
    scheme.reads = dice.pick(&[Reads::LeftToRight, Reads::RightToLeft]);
    scheme
}

/// A request of the kind `at` in [`KINDS`], or of a random kind.
pub fn request(dice: &mut Dice, at: Option<usize>) -> Value {
    let scheme = scheme(dice);
    let (_, make) = at.and_then(|at| KINDS.get(at)).copied().unwrap_or_else(|| dice.pick(KINDS));
    make(dice, &scheme)
}

/// Where its pages land.
pub fn landing(_: &mut Dice, scheme: &Scheme) -> Value {
    json!({"ask": "landing", "scheme": scheme})
}

/// Folds and slits of a sheet of its size, and some of the pieces put together in any order, nested or not.
pub fn pieces(dice: &mut Dice, scheme: &Scheme) -> Value {
    let mut leaves = Vec::new();
    let flat = vec![vec![1; scheme.columns as usize]; scheme.rows as usize];
    let steps = parted(dice, flat, None, &mut leaves);
    let mut order: Vec<usize> = (0..leaves.len()).collect();
    dice.shuffle(&mut order);
    if dice.once_in(3) {
        order.truncate(1 + dice.below(order.len() as u32) as usize);
    }
    let mut gather: Vec<Value> = Vec::new();
    let mut at = 0;
    while let Some(&piece) = order.get(at) {
        let mut nest = vec![piece];
        // What has an odd number of leaves has no middle.
        while leaves[nest[nest.len() - 1]] % 2 == 0 && at + nest.len() < order.len() && dice.once_in(2) {
            nest.push(order[at + nest.len()]);
        }
        at += nest.len();
        gather.push(if nest.len() == 1 && dice.once_in(2) { json!(piece) } else { json!({"inset": nest}) });
    }
    let (rows, columns) = (scheme.rows, scheme.columns);
    json!({"ask": "pieces", "rows": rows, "columns": columns, "steps": steps, "gather": gather, "reads": scheme.reads})
}

/// Steps that bring a packet down to single panels. `piles` says how many layers lie at each place of it, row by row;
/// `leaves` gets those of each piece.
fn parted(dice: &mut Dice, mut piles: Vec<Vec<u32>>, mut last: Option<Crease>, leaves: &mut Vec<u32>) -> Vec<Value> {
    let mut steps = Vec::new();
    while piles.len() * piles[0].len() > 1 {
        let vertical = piles.len() == 1 || (piles[0].len() > 1 && dice.once_in(2));
        let crease = if vertical { Crease::Vertical } else { Crease::Horizontal };
        // What is done to columns is done to rows of the packet laid on its side.
        let mut lines = if vertical { on_its_side(&piles) } else { piles };
        let size = lines.len() as u32;
        let after = if dice.once_in(2) { size / 2 } else { 1 + dice.below(size - 1) };
        let mut beyond = lines.split_off(after as usize);
        let upright = |lines: Vec<Vec<u32>>| if vertical { on_its_side(&lines) } else { lines };
        if dice.once_in(4) && leaves.len() < 60 {
            let names = if vertical { ["left", "right"] } else { ["top", "bottom"] };
            let first = parted(dice, upright(lines), last, leaves);
            let second = parted(dice, upright(beyond), last, leaves);
            steps.push(json!({"slit": crease, "after": after, names[0]: first, names[1]: second}));
            return steps;
        }
        let parts = if vertical { [Part::Left, Part::Right] } else { [Part::Top, Part::Bottom] };
        let moves = dice.pick(&parts);
        steps.push(json!(Fold::new(after, moves, dice.pick(&[Lands::Over, Lands::Under]))));
        // Both from the crease outwards.
        lines.reverse();
        if lines.len() < beyond.len() {
            std::mem::swap(&mut lines, &mut beyond);
        }
        for (pile, more) in lines.iter_mut().flatten().zip(beyond.iter().flatten()) {
            *pile += more;
        }
        if moves == parts[1] {
            lines.reverse();
        }
        piles = upright(lines);
        last = Some(crease);
    }
    leaves.push(piles[0][0]);
    if dice.once_in(2) {
        let heads: &[&str] = match last {
            Some(Crease::Vertical) => &["top", "bottom"],
            Some(Crease::Horizontal) => &["left", "right"],
            None => &["top", "right", "bottom", "left"],
        };
        steps.push(json!({"head": dice.pick(heads)}));
    }
    steps
}

/// Rows as columns.
fn on_its_side(lines: &[Vec<u32>]) -> Vec<Vec<u32>> {
    (0..lines[0].len()).map(|at| lines.iter().map(|line| line[at]).collect()).collect()
}

/// Its two sides as printed, with cells hidden and sometimes one page wrong.
pub fn work_back(dice: &mut Dice, scheme: &Scheme) -> Value {
    let known = Landing::of(scheme).ok();
    let hidden = dice.pick(&[0, 10, 50, 90, 100]);
    let headless = dice.pick(&[0, 0, 30, 100]);
    let mut side = |side: Side| -> Vec<Vec<Value>> {
        let rows = known.as_ref().map_or_else(Vec::new, |l| l.grid(side));
        let mut cell = |page: u32, head: Direction| match (dice.below(100) < hidden, dice.below(100) < headless) {
            (true, _) => Value::Null,
            (_, true) => json!({"page": page}),
            _ => json!({"page": page, "head": head}),
        };
        rows.into_iter().map(|row| row.into_iter().map(|p| cell(p.page, p.head)).collect()).collect()
    };
    let (mut side_a, side_b) = (side(Side::A), side(Side::B));
    if dice.once_in(4) {
        let row = dice.below(scheme.rows) as usize;
        let column = dice.below(scheme.columns) as usize;
        side_a[row][column] = json!({"page": 1 + dice.below(scheme.pages()), "head": dice.pick(&["up", "down"])});
    }
    json!({"ask": "work_back", "rows": scheme.rows, "columns": scheme.columns, "side_a": side_a, "side_b": side_b})
}

/// A page found: its number, nothing where it is blank, and whether its head is up.
type FoundPage = (Option<u32>, bool);

/// The pages of its section after something went wrong with the sheet, or in no order at all.
pub fn explain_section(dice: &mut Dice, scheme: &Scheme) -> Value {
    let first = dice.pick(&[1, 1, 17, 999_000]);
    let mut pages = wrong_pages(dice, scheme);
    if dice.once_in(6) {
        // Two sheets in one: every leaf twice.
        pages = pages.chunks(2).flat_map(|leaf| [leaf, leaf].concat()).collect();
    }
    let looked = dice.pick(&[0, 50, 100]);
    let page = |(page, up): &FoundPage| {
        let page = page.map(|p| p + first - 1);
        if dice.below(100) < looked {
            json!({"page": page, "head": if *up { "up" } else { "down" }})
        } else {
            json!({"page": page})
        }
    };
    let pages: Vec<Value> = pages.iter().map(page).collect();
    let fold_at = dice.pick(&["spine", "spine", "spine", "fore_edge"]);
    json!({"ask": "explain_section", "scheme": scheme, "first_page": first, "fold_at": fold_at, "pages": pages})
}

fn wrong_pages(dice: &mut Dice, scheme: &Scheme) -> Vec<FoundPage> {
    let mut folded = scheme.clone();
    for _ in 0..dice.pick(&[0, 0, 1, 1, 2]) {
        let other = folded.fold_other_way(1 + dice.below(scheme.folds.len() as u32));
        folded = if Landing::of(&other).is_ok() { other } else { folded };
    }
    let printed = Landing::of(scheme).ok();
    let section = Folding::of(&folded).ok().and_then(|f| Section::of(&folded, &f).ok());
    let (Some(printed), Some(section)) = (printed, section) else { return Vec::new() };
    let blank = dice.once_in(6).then(|| dice.pick(&[Side::A, Side::B]));
    let found = |face: &FoundFace| {
        let page = printed.page_on(&face.face).and_then(|page| printed.page(page));
        let page = page.filter(|_| Some(face.face.side) != blank);
        (page.map(|p| p.page), page.is_none_or(|p| p.head == face.head))
    };
    let mut pages: Vec<FoundPage> = section.faces.iter().map(found).collect();
    let count = pages.len() as u32;
    match dice.below(6) {
        0 => pages.swap(dice.below(count) as usize, dice.below(count) as usize),
        1 => pages[dice.below(count) as usize].1 ^= true,
        2 => {
            pages.reverse();
            pages.iter_mut().for_each(|page| page.1 ^= true);
        }
        3 => dice.shuffle(&mut pages),
        _ => {}
    }
    pages
}

/// A cause of wrong pages. A fold made from the other edge may be none that can be made; that is refused.
fn cause(dice: &mut Dice, scheme: &Scheme) -> Value {
    let fold = 1 + dice.below(scheme.folds.len() as u32);
    let (page, other) = (1 + dice.below(scheme.pages()), 1 + dice.below(scheme.pages()));
    match dice.below(11) {
        0 => json!({"kind": "fold_other_way", "fold": fold}),
        1 => json!({"kind": "fold_from_other_edge", "fold": fold}),
        2 => json!({"kind": "sheet_end_for_end"}),
        3 => json!({"kind": "sheet_turned_over", "about": dice.pick(&["vertical", "horizontal"])}),
        4 => json!({"kind": "second_side_turned_round"}),
        5 => json!({"kind": "second_side_blank", "side": dice.pick(&["A", "B"])}),
        6 => json!({"kind": "wrong_second_side"}),
        7 if page != other => json!({"kind": "pages_exchanged", "pages": [page.min(other), page.max(other)]}),
        8 => json!({"kind": "section_lies", "lies": dice.pick(&["head_to_tail", "turned_in_plane", "side_to_side"])}),
        9 => json!({"kind": "double_sheet"}),
        _ => json!({"kind": "page_head_down", "page": page}),
    }
}

/// What comes from outside the sheet, or from a second one.
fn stranger(dice: &mut Dice, scheme: &Scheme, inset: bool) -> Value {
    let leaf = 1 + dice.below(scheme.leaves());
    let offset = dice.pick(&[1, -1, 5]);
    match dice.below(if inset { 10 } else { 6 }) {
        0 => json!({"kind": "other_section", "section_offset": offset}),
        1 => json!({"kind": "leaf_of_other_section", "leaf": leaf, "section_offset": offset}),
        2 => json!({"kind": "leaf_tucked_in", "after": leaf - 1, "from_leaf": leaf, "section_offset": offset}),
        3 => json!({"kind": "leaf_missing", "leaf": leaf}),
        4 => {
            json!({"kind": "half_sheet", "forme": dice.pick(&["outer", "inner"]), "was": dice.pick(&["tumbled", "turned"])})
        }
        5 => json!({"kind": "lanes_mixed", "section_offset": offset}),
        6 => json!({"kind": dice.pick(&["inset_left_out", "outer_left_out", "inset_outside"])}),
        7 => json!({"kind": "inset_twice", "second": dice.pick(&["inside", "behind"])}),
        8 => json!({"kind": "inset_sheet", "cause": {"kind": "sheet_end_for_end"}}),
        _ => json!({"kind": "inset_beside", "place": "among_leaves", "after": leaf}),
    }
}

/// One cause, or two at once.
pub fn act_out(dice: &mut Dice, scheme: &Scheme) -> Value {
    let one = cause(dice, scheme);
    let cause = if dice.once_in(3) { json!({"kind": "together", "causes": [one, cause(dice, scheme)]}) } else { one };
    json!({"ask": "act_out", "scheme": scheme, "first_page": dice.pick(&[1, 17]), "cause": cause})
}

/// Every cause of a scheme.
pub fn look_alikes(dice: &mut Dice, scheme: &Scheme) -> Value {
    json!({"ask": "look_alikes", "scheme": scheme, "first_page": dice.pick(&[1, 1, 17])})
}

/// Pages found, pages typed or something made, with a second sheet laid in or without.
pub fn tell_section(dice: &mut Dice, outer: &Scheme) -> Value {
    let mut request = explain_section(dice, outer);
    request["ask"] = "tell_section".into();
    let inset = dice.once_in(3).then(|| scheme(dice));
    if let Some(inset) = &inset {
        request["inset"] = json!(inset);
        let within = explain_section(dice, inset)["pages"].take();
        if let (Some(pages), Some(within)) = (request["pages"].as_array_mut(), within.as_array()) {
            let middle = pages.len() / 4 * 2;
            pages.splice(middle..middle, within.iter().cloned());
        }
    }
    if dice.once_in(4) {
        request["lanes"] = dice.pick(&[1, 2, 8, 64]).into();
    }
    if dice.once_in(3) {
        let (sheet, section) = slit_in_two(dice, outer);
        (request["sheet"], request["section"]) = (sheet, section.into());
        if let Some(fields) = request.as_object_mut() {
            fields.remove("scheme");
        }
    }
    let typed = |page: &Value| {
        let number = page["page"].as_u64().map_or("_".to_owned(), |page| page.to_string());
        number + if page["head"] == "down" && !page["page"].is_null() { "v" } else { "" }
    };
    match dice.below(4) {
        0 => {
            let pages = request["pages"].take();
            let words: Vec<String> = pages.as_array().into_iter().flatten().map(typed).collect();
            request["typed"] = words.join(" ").into();
        }
        1 => {
            let mut made = Vec::new();
            for _ in 0..dice.pick(&[1, 1, 2]) {
                let foreign = dice.once_in(2);
                made.push(if foreign { stranger(dice, outer, inset.is_some()) } else { cause(dice, outer) });
            }
            request["made"] = made.into();
        }
        _ => return request,
    }
    if let Some(fields) = request.as_object_mut() {
        fields.remove("pages");
    }
    request
}

/// Two of these sheets printed side by side and slit apart: two sections, two copies, or a section and its inset. Which
/// of the sections is asked about, too.
fn slit_in_two(dice: &mut Dice, half: &Scheme) -> (Value, u32) {
    let mut steps = json!(half.folds);
    let head = json!({"head": json!(half)["head"]});
    steps.as_array_mut().into_iter().for_each(|steps| steps.push(head.clone()));
    let slit = json!({"slit": "vertical", "after": half.columns, "left": steps, "right": steps});
    let even = half.leaves().is_multiple_of(2);
    let (copies, sections) = match dice.below(if even { 3 } else { 2 }) {
        0 => (json!([[[0], [1]]]), 2),
        1 => (json!([[[0]], [[1]]]), 1),
        _ => (json!([[[0, 1]]]), 1),
    };
    let sheet = json!({"rows": half.rows, "columns": 2 * half.columns, "steps": [slit], "copies": copies,
        "reads": json!(half)["reads"]});
    (sheet, 1 + dice.below(sections))
}

fn marks(dice: &mut Dice) -> Value {
    let (spine, levels) = (dice.pick(&[180.0, 216.0, 297.0, 1500.0]), 1 + dice.below(30));
    let step = (spine - 40.0) / f64::from(levels + 1);
    let step = if dice.once_in(3) { step.min(6.0) } else { step };
    json!({"spine_mm": spine, "first_mm": dice.pick(&[0.0, 20.0, 30.0]), "step_mm": step,
        "length_mm": step * dice.pick(&[0.3, 0.5, 1.0]), "levels": levels})
}

/// The book as it was gathered: numbers of sections with what is wrong, `None` for another job's.
fn gathered(dice: &mut Dice, sections: u32) -> Vec<Option<u32>> {
    let mut book: Vec<Option<u32>> = (1..=sections).map(Some).collect();
    for _ in 0..dice.below(4) {
        if book.is_empty() {
            break;
        }
        let places = book.len() as u32;
        let (at, other) = (dice.below(places) as usize, dice.below(places) as usize);
        match dice.below(7) {
            0 => _ = book.remove(at),
            1 => book.insert(at, book[at]),
            2 => book[at] = Some(1 + dice.below(sections)),
            3 => book.swap(at, other),
            4 => book.rotate_left(at),
            5 => book[at] = None,
            _ => {
                let one = book.remove(at);
                book.insert(other.min(book.len()), one);
            }
        }
    }
    if dice.once_in(12) {
        dice.shuffle(&mut book);
    }
    if dice.once_in(12) {
        book.reverse();
    }
    // A book is refused beyond its bound, which is not what is tried here.
    book.truncate(400);
    book
}

fn number_of_sections(dice: &mut Dice) -> u32 {
    match dice.below(8) {
        0 => 1 + dice.below(400),
        1 => 1 + dice.below(3),
        _ => 1 + dice.below(40),
    }
}

fn seen_backs(dice: &mut Dice, sections: u32, marks: &Value) -> Vec<Value> {
    let number = |field: &str| marks[field].as_f64().unwrap_or(1.0);
    let (levels, spine) = (marks["levels"].as_u64().unwrap_or(1) as u32, number("spine_mm"));
    let book = gathered(dice, sections);
    let back = |section: Option<u32>| {
        let section = section.unwrap_or(1 + dice.below(sections));
        let level = f64::from((section - 1) % levels);
        let slip = f64::from(dice.below(21)) / 10.0 - 1.0;
        let middle = number("first_mm") + level * number("step_mm") + number("length_mm") / 2.0 + slip;
        match dice.below(24) {
            0 => json!({"marks_mm": null}),
            1 => json!({"marks_mm": []}),
            2 => json!({"marks_mm": [spine - middle]}),
            3 => json!({"marks_mm": [middle, spine - middle]}),
            _ => json!({"marks_mm": [middle]}),
        }
    };
    book.into_iter().map(back).collect()
}

fn found_sections(dice: &mut Dice, sections: u32) -> Vec<Value> {
    let book = gathered(dice, sections);
    let one = |section: Option<u32>| match (section, dice.below(24)) {
        (_, 0) => json!({"no_mark": true}),
        (_, 1) => json!({"unread": true}),
        (None, _) => json!({"foreign": true}),
        (Some(section), 2) => {
            json!({"section": section, "lies": dice.pick(&["head_to_tail", "turned_in_plane", "side_to_side"])})
        }
        (Some(section), _) => json!({"section": section}),
    };
    book.into_iter().map(one).collect()
}

/// Marks as they would be seen on the backs of a book with faults.
pub fn read_spine(dice: &mut Dice, _: &Scheme) -> Value {
    let (sections, marks) = (number_of_sections(dice), marks(dice));
    let seen = seen_backs(dice, sections, &marks);
    json!({"ask": "read_spine", "sections": sections, "marks": marks, "seen": seen})
}

/// A book with faults.
pub fn explain_book(dice: &mut Dice, _: &Scheme) -> Value {
    let sections = number_of_sections(dice);
    json!({"ask": "explain_book", "sections": sections, "found": found_sections(dice, sections)})
}

/// A book with faults, as marks or as sections.
pub fn tell_book(dice: &mut Dice, scheme: &Scheme) -> Value {
    let mut request = if dice.once_in(2) { read_spine(dice, scheme) } else { explain_book(dice, scheme) };
    request["ask"] = "tell_book".into();
    if request["marks"].is_object() && dice.once_in(2) {
        request["marks"] = back_marks(dice);
        let sections = request["sections"].as_u64().unwrap_or(1) as u32;
        for back in request["seen"].as_array_mut().into_iter().flatten() {
            noted(dice, back, sections);
        }
    }
    request
}

/// The signatures of a book.
pub fn signatures(dice: &mut Dice, _: &Scheme) -> Value {
    let alphabet = dice.pick(&["latin23", "american25", "figures"]);
    let (start, doubling) = (dice.pick(&["A", "B"]), dice.pick(&["figure", "letters"]));
    json!({"ask": "signatures", "sections": number_of_sections(dice), "alphabet": alphabet, "start": start, "doubling": doubling})
}

/// A book that is to be made up, on a sheet that is large enough and of a paper that may not suit it.
pub fn plan_book(dice: &mut Dice, _: &Scheme) -> Value {
    let most = dice.pick(&[40, 400, 1_600]);
    let mut request = json!({
        "ask": "plan_book",
        "extent": 1 + dice.below(most),
        "page": {"width_mm": 40 + dice.below(90), "height_mm": 40 + dice.below(230)},
        "sheet": {"width_mm": 300 + dice.below(1300), "height_mm": 300 + dice.below(1300)},
        "paper": {"grammage": 40 + dice.below(160), "bulk": dice.pick(&[0.8, 1.25, 2.0]), "grain": dice.pick(&["upright", "level"])},
        "copies": dice.pick(&[1, 500, 10_000_000]),
    });
    if dice.once_in(2) {
        let made_up: Vec<u32> = (0..=dice.below(30)).map(|_| 4 * (1 + dice.below(12))).collect();
        request["made_up"] = json!(made_up);
    }
    if dice.once_in(3) {
        request["trims"] = json!({"head_mm": dice.below(6), "foot_mm": 3, "fore_edge_mm": 3.5});
    }
    request
}

/// A book with something of everything.
pub fn describe_book(dice: &mut Dice, _: &Scheme) -> Value {
    let size = dice.pick(&[4, 16, 32]);
    let sections: Vec<u32> = (0..number_of_sections(dice)).map(|_| if dice.once_in(9) { 8 } else { size }).collect();
    let pages: u32 = sections.iter().sum();
    let prelims = 1 + dice.below(200.min(pages - 1));
    let kind = dice.pick(&["roman", "roman_capitals"]);
    let runs = json!([
        {"name": "prelims", "pages": prelims, "folios": {"kind": kind, "first": 1}, "blank": dice.once_in(3)},
        {"pages": pages - prelims, "folios": {"kind": "arabic", "first": 1 + dice.below(20)}},
    ]);
    let added = json!([
        {"kind": "plate", "after": dice.below(pages / 2) * 2, "pages": 2 * (1 + dice.below(3))},
        {"kind": "wrap", "section": 1 + dice.below(sections.len() as u32), "pages": 4 * (1 + dice.below(2))},
        {"kind": "endpapers", "pages": 4},
    ]);
    let mut request = json!({
        "ask": "describe_book",
        "book": {"runs": runs, "added": added, "sections": sections},
        "signing": {"alphabet": dice.pick(&["latin23", "american25", "figures"]), "start": dice.pick(&["A", "B"])},
        "unsigned": dice.below(3).min(sections.len() as u32),
        "positions": [dice.below(pages + 2)],
        "folios": [dice.below(pages).to_string(), "xii"],
        "signatures": ["B", "2C3", dice.below(400).to_string()],
    });
    if dice.once_in(2) {
        let paper = json!({"grammage": 40 + dice.below(100), "bulk": 1.25});
        request["binding"] = json!({
            "page": {"width_mm": 138, "height_mm": 216},
            "paper": paper,
            "back": dice.pick(&["flat", "round"]),
            "thread_mm": 0.3,
            "nipped_percent": dice.below(100),
        });
    }
    request
}

/// A run of books of which some were opened, with a log and leftovers.
pub fn next_opening(dice: &mut Dice, _: &Scheme) -> Value {
    let mut request = run(dice);
    request["ask"] = "next_opening".into();
    request
}

/// The same, to be held.
pub fn hold_books(dice: &mut Dice, _: &Scheme) -> Value {
    let mut request = run(dice);
    request["ask"] = "hold_books".into();
    request
}

/// A printer, seldom one that prints nowhere near.
fn printer(dice: &mut Dice) -> Value {
    let off = f64::from(dice.below(40)) - 19.5;
    let (paper, flip) = (dice.pick(&["a4", "a3", "letter", "tabloid"]), dice.pick(&["long_edge", "short_edge"]));
    json!({"paper": paper, "flip": flip, "off": {"right_mm": off, "down_mm": 0.25}})
}

/// A folding dummy of a scheme.
pub fn dummy(dice: &mut Dice, scheme: &Scheme) -> Value {
    let mut sheet = json!({"scheme": scheme, "first_page": dice.below(400), "name": "Tides – “and” Winds ≤ 日"});
    if dice.once_in(3) {
        let mut mm = |n: u32| (0..n.min(99)).map(|_| 60 + dice.below(160)).collect::<Vec<_>>();
        let (columns, rows) = (mm(scheme.columns), mm(scheme.rows));
        sheet["columns_mm"] = columns.into();
        sheet["rows_mm"] = rows.into();
    }
    let mut request = json!({"ask": "dummy", "sheet": sheet, "printer": printer(dice), "true_size": dice.once_in(4)});
    if dice.once_in(3) {
        request["fault"] = json!({"kind": "fold_other_way", "fold": dice.below(4)});
        request["made"] = dice.pick(&["by_figures", "by_folds"]).into();
    }
    request
}

/// Another document.
pub fn print(dice: &mut Dice, scheme: &Scheme) -> Value {
    let sections = 1 + dice.below(90);
    let marks = json!({"spine_mm": 90 + dice.below(300), "first_mm": 30, "step_mm": 6, "length_mm": 6, "levels": 9});
    let what = match dice.below(7) {
        4 => {
            let mut what = json!({"kind": "marks", "title": "Tides", "sections": sections, "marks": marks,
                                  "trims_mm": [dice.below(9), 3.5]});
            if dice.once_in(2) {
                let mut mm = |n: u32| (0..n.min(99)).map(|_| 60 + dice.below(160)).collect::<Vec<_>>();
                let (columns, rows) = (mm(scheme.columns), mm(scheme.rows));
                what["sheet"] = json!({"scheme": scheme, "columns_mm": columns, "rows_mm": rows});
            }
            what
        }
        5 => json!({"kind": "logbook", "name": "Ann “Example”", "date": "1 April", "logbook": logbook(dice)}),
        0 => json!({"kind": "test_page"}),
        6 => {
            let (columns, rows) = (vec![138; scheme.columns.min(99) as usize], vec![216; scheme.rows.min(99) as usize]);
            let sheet = json!({"scheme": scheme, "columns_mm": columns, "rows_mm": rows});
            json!({"kind": "set_up", "sheet": sheet, "side_up": dice.pick(&["A", "B"]), "gripper": dice.pick(&["left", "bottom"])})
        }
        1 => json!({"kind": "strips", "sections": sections, "marks": marks}),
        2 => json!({"kind": "ticket", "title": "Tides", "rows": vec![["Paper", "90 g/m² × 1.3"]; sections as usize]}),
        _ => {
            json!({"kind": "cards", "sheet": {"scheme": scheme}, "faults": [null, {"kind": "fold_other_way", "fold": 1}]})
        }
    };
    json!({"ask": "print", "what": what, "printer": printer(dice)})
}

/// A page of one of these documents, seldom one that it does not have.
pub fn preview(dice: &mut Dice, scheme: &Scheme) -> Value {
    let of = match dice.below(3) {
        0 => dummy(dice, scheme),
        1 => print(dice, scheme),
        _ => worksheet(dice, scheme),
    };
    json!({"ask": "preview", "of": of, "page": dice.below(4)})
}

/// The kinds of exercise.
const EXERCISES: [&str; 8] =
    ["number_sheet", "set_heads", "find_folds", "wrong_sheet", "wrong_book", "make_up", "back_marks", "bolts"];

/// An exercise by kind, level and seed, or by its code.
pub fn exercise(dice: &mut Dice, _: &Scheme) -> Value {
    let one = of_seed(dice);
    if dice.once_in(3) { json!({"ask": "exercise", "code": code(&one)}) } else { with(one, "exercise") }
}

fn of_seed(dice: &mut Dice) -> Value {
    json!({"kind": dice.pick(&EXERCISES), "level": 1 + dice.below(5), "seed": dice.below(1_000_000)})
}

fn with(mut request: Value, ask: &str) -> Value {
    request["ask"] = ask.into();
    request
}

fn set(one: &Value) -> backmark::practice::Exercise {
    let kind: backmark::practice::Kind =
        serde_json::from_value(one["kind"].clone()).unwrap_or(backmark::practice::Kind::Bolts);
    let (level, seed) = (one["level"].as_u64().unwrap_or(1) as u8, one["seed"].as_u64().unwrap_or(1));
    backmark::practice::Exercise::of(kind, level, seed).ok().unwrap_or_else(|| unreachable!())
}

fn code(one: &Value) -> String {
    set(one).code().unwrap_or_default()
}

/// An answer to an exercise: a right one, that of another exercise, or none.
pub fn mark_exercise(dice: &mut Dice, _: &Scheme) -> Value {
    let one = of_seed(dice);
    let answered = match dice.below(4) {
        0 => json!("nothing"),
        1 => json!(set(&of_seed(dice)).right()),
        2 => {
            // Its own kind and another seed: much of it is wrong.
            let mut other = one.clone();
            other["seed"] = dice.below(1_000_000).into();
            json!(set(&other).right())
        }
        _ => json!(set(&one).right()),
    };
    let mut request = with(one, "mark_exercise");
    request["answer"] = answered;
    request["hints"] = dice.below(4).into();
    request
}

/// What to practise next by a logbook.
pub fn practise_next(dice: &mut Dice, _: &Scheme) -> Value {
    json!({"ask": "practise_next", "logbook": logbook(dice)})
}

fn logbook(dice: &mut Dice) -> Vec<Value> {
    let most = if dice.once_in(20) { 2_000 } else { 30 };
    let entry = |dice: &mut Dice| {
        let mut entry = of_seed(dice);
        let of = 1 + dice.below(60);
        entry["of"] = of.into();
        entry["got"] = dice.below(of + 1).into();
        entry["hints"] = dice.below(4).into();
        entry["date"] = dice.pick(&["", "Monday", "25 November 2026, “late”"]).into();
        entry
    };
    (0..dice.below(most)).map(|_| entry(dice)).collect()
}

/// A worksheet: mixed, of some kinds, or by codes.
pub fn worksheet(dice: &mut Dice, _: &Scheme) -> Value {
    let mut request = json!({
        "ask": "worksheet", "key": !dice.once_in(3), "paper": dice.pick(&["a4", "letter", "a3", "tabloid"]),
        "both_sides": dice.once_in(2), "title": dice.pick(&["", "Folding, “week” 3"]), "class": "Bindery 2 – 日"
    });
    let some = |dice: &mut Dice, with_seed: bool| -> Vec<Value> {
        let one = |dice: &mut Dice| {
            let mut one = of_seed(dice);
            if !with_seed && dice.once_in(2) {
                one.as_object_mut().into_iter().for_each(|one| drop(one.remove("seed")));
            }
            one
        };
        (0..1 + dice.below(4)).map(|_| one(dice)).collect()
    };
    match dice.below(3) {
        0 => {
            let codes: Vec<Vec<String>> =
                (0..1 + dice.below(3)).map(|_| some(dice, true).iter().map(code).collect()).collect();
            request["codes"] = json!(codes);
            return request;
        }
        1 => request["exercises"] = some(dice, false).into(),
        _ => request["level"] = (1 + dice.below(5)).into(),
    }
    request["seed"] = dice.below(u32::MAX).into();
    request["variants"] = (1 + if dice.once_in(20) { dice.below(40) } else { dice.below(3) }).into();
    request
}

/// A report on such a run, or on nothing.
pub fn write_report(dice: &mut Dice, _: &Scheme) -> Value {
    let what = ["missing_section", "wrong_section", "out_of_order", "blank_pages"];
    let mut report = json!({"title": "Tides, \"and\" Winds", "cause": "=1+1", "what": dice.pick(&what)});
    report["station"] = (1 + dice.below(40)).into();
    if dice.once_in(2) {
        report["action"] = vec!["Exchange it."; dice.below(20) as usize].into();
        report["counts"] = json!({"scrapped": dice.below(9)});
    }
    let mut request = json!({"ask": "write_report", "report": report});
    if !dice.once_in(4) {
        request["since"] = run(dice);
    }
    request
}

/// A run with a fault of a random kind; seldom the books are judged by no rule.
fn run(dice: &mut Dice) -> Value {
    let books = if dice.once_in(4) { 1 + dice.below(9_000_000) } else { 1 + dice.below(5_000) };
    let first = 1 + dice.below(2_000);
    let last = first + books - 1;
    let (from, size, kind) = (first + dice.below(books), 1 + dice.below(100), dice.below(5));
    let bad = |n: u32, dice: &mut Dice| match kind {
        0 => n >= from,
        1 => (from..from + size).contains(&n),
        2 => n.is_multiple_of(1 + size % 12),
        3 => n == from,
        _ => dice.once_in(2),
    };
    let mut opened = Vec::new();
    let most = if dice.once_in(20) { 2_000 } else { 20 };
    for _ in 0..dice.below(most) {
        let n = if dice.once_in(2) { (from + dice.below(2 * size)).min(last) } else { first + dice.below(books) };
        opened.push(json!({"counter": n, "judged": if bad(n, dice) { "bad" } else { "good" }}));
    }
    let mut log = Vec::new();
    for _ in 0..dice.below(8) {
        let station = 1 + dice.below(12);
        let what = match dice.below(4) {
            0 => json!({"kind": "stop"}),
            1 => json!({"kind": "jam", "station": station}),
            _ => json!({"kind": "reload", "station": station, "lift": size, "left": dice.below(90),
                        "fed": dice.pick(&["bottom", "top"])}),
        };
        log.push(json!({"counter": first - 1 + dice.below(books + 1), "what": what}));
    }
    let mut request = json!({"line": {"first": first, "last": last}, "opened": opened, "log": log});
    if dice.once_in(2) {
        request["line"]["ahead"] = (0..12).rev().collect::<Vec<u32>>().into();
        request["left"] =
            json!([{"station": 5, "over": size}, {"station": 9, "over": -i64::from(size - dice.below(2))}]);
    }
    if dice.once_in(2) {
        request["lift"] = size.into();
    }
    if dice.once_in(3) {
        request["station"] = 5.into();
    }
    if dice.once_in(3) {
        let word = dice.pick(&["one_book", "block", "from_a_moment", "scattered", "whole_run", "every_nth"]);
        request["pattern"] = json!({"kind": word});
        if word == "every_nth" {
            request["pattern"]["every"] = (2 + dice.below(30)).into();
        }
    }
    request
}

/// What else was seen on backs than heights.
fn noted(dice: &mut Dice, back: &mut Value, sections: u32) {
    let more = [
        ("towards", json!(dice.pick(&["front", "back"]))),
        ("width_mm", json!(dice.pick(&[1.0, 2.0, 4.0]))),
        ("length_mm", json!(dice.pick(&[2.0, 6.0, 12.0]))),
        ("number", json!(dice.below(sections + 2))),
        ("title_ours", json!(!dice.once_in(9))),
        ("upside_down", json!(dice.once_in(9))),
    ];
    for (field, value) in more {
        if dice.once_in(4) {
            back[field] = value;
        }
    }
}

/// Marks with all that can be printed on backs.
pub fn blind_spots(dice: &mut Dice, _: &Scheme) -> Value {
    let (sections, marks) = (1 + dice.below(30), back_marks(dice));
    let mut request = json!({"ask": "blind_spots", "sections": sections, "marks": marks, "title": "Almanac"});
    if dice.once_in(2) {
        request["backs"] = json!({"thickness_mm": dice.pick(&[0.8, 1.5, 4.0]), "folds": dice.below(5),
            "head_trim_mm": dice.pick(&[0.0, 3.0, 40.0]), "foot_trim_mm": 3.0});
    }
    request
}

fn back_marks(dice: &mut Dice) -> Value {
    let mut marks = marks(dice);
    let head = json!({"first_mm": 10.0, "step_mm": dice.pick(&[1.0, 5.0]), "length_mm": 3.0, "depth_mm": 3.0});
    let more = [
        ("width_mm", json!(dice.pick(&[1.0, 2.5]))),
        ("runs", json!(dice.pick(&["up", "down"]))),
        ("after_wrap", json!(dice.pick(&["column", "width"]))),
        ("ends_mm", json!(marks["length_mm"].as_f64().unwrap_or(1.0) + dice.pick(&[0.5, 3.0]))),
        (
            "label",
            json!({"number": dice.once_in(2), "title": "A", "from_mm": dice.pick(&[1.0, 120.0]), "size_mm": 2.5}),
        ),
        ("inset", json!(dice.pick(&["plain", "sheets", "through"]))),
    ];
    // Longer bars run over the head where the first one begins there.
    let at_head = marks["first_mm"] == 0.0;
    for (field, value) in more {
        if dice.once_in(3) && !(at_head && field == "ends_mm") {
            marks[field] = match value.as_str() {
                Some("column") => json!({"column": {"apart_mm": 2.5}}),
                Some("width") => json!({"width": {"width_mm": 4.0}}),
                Some("sheets") if dice.once_in(2) => json!({"sheets": {"sheets": 2, "head": null}}),
                Some("sheets") => json!({"sheets": {"sheets": 3, "head": head}}),
                Some("through") => json!({"through": {"head": head}}),
                _ => value,
            };
        }
    }
    marks
}

/// A wrong book or several, with evidence in any mix; some of it can't be read.
pub fn trace_book(dice: &mut Dice, scheme: &Scheme) -> Value {
    let most = if dice.once_in(10) { 120 } else { 24 };
    let sections = 1 + dice.below(most);
    let pages = 16 * sections;
    let mut books = Vec::new();
    for _ in 0..dice.below(5) {
        let mut book = json!({});
        if dice.once_in(2) {
            book["counter"] = (1 + dice.below(5_000)).into();
            book["judged"] = dice.pick(&["good", "bad"]).into();
        }
        if !dice.once_in(4) {
            let mut run = (1..=sections).map(|n| n.to_string()).collect::<Vec<_>>();
            for _ in 0..dice.below(3) {
                let at = dice.below(run.len() as u32) as usize;
                match dice.below(5) {
                    0 if run.len() > 1 => drop(run.remove(at)),
                    1 => run.insert(at, (1 + dice.below(sections)).to_string()),
                    2 => run[at] = dice.pick(&["_", "?", "x", "1d"]).to_owned(),
                    _ => run[at] = (1 + dice.below(sections)).to_string(),
                }
            }
            book["spine"] = json!({"run": run.join(" ")});
        }
        if dice.once_in(2) {
            let mut openings = Vec::new();
            for _ in 0..dice.below(5) {
                let left = 16 * (1 + dice.below(sections));
                let right = if dice.once_in(2) { left + 1 } else { 16 * dice.below(sections) + 1 };
                openings.push(format!("{left} {}", right.min(pages)));
            }
            book["openings"] = openings.join(" | ").into();
        }
        if dice.once_in(3) {
            let typed = dice.pick(&["3 4 1 2 7 8 5 6 11 12 9 10 15 16 13 14", "16-1v", "1-16", "1 6 7 4 5 2 3 8"]);
            book["inside"] = json!({"section": 1 + dice.below(sections), "pages": typed, "fore_edge": dice.once_in(4)});
        }
        if dice.once_in(3) {
            book["count"] = (sections + dice.below(3)).into();
            book["bulk_mm"] = (2 * sections + 1 - dice.below(3)).into();
        }
        books.push(book);
    }
    let mut request = json!({
        "ask": "trace_book",
        "book": {"runs": [{"pages": pages, "folios": {"kind": "arabic", "first": 1}}], "sections": vec![16; sections as usize]},
        "case": {"books": books, "good_bulk_mm": 2 * sections},
    });
    if dice.once_in(2) {
        request["schemes"] = json!([scheme]);
    }
    if dice.once_in(3) {
        request["case"]["left"] = json!([{"station": 1, "over": dice.below(90)}]);
        request["odds"] = json!({"wrong_pile": dice.below(50)});
    }
    request
}

/// A book with faults, and odds of one's own.
pub fn weigh_book(dice: &mut Dice, scheme: &Scheme) -> Value {
    let mut request = tell_book(dice, scheme);
    request["ask"] = "weigh_book".into();
    let names = ["missing", "double", "wrong_load", "wrong_load_beside", "exchanged", "moved", "shifted", "reversed"];
    let odds: serde_json::Map<String, Value> =
        (0..dice.below(4)).map(|_| (dice.pick(&names).to_owned(), json!(1 + dice.below(100)))).collect();
    request["odds"] = odds.into();
    request["shown"] = json!(1 + dice.below(100));
    request
}

/// A lot and a plan by which it is accepted.
pub fn sampling(dice: &mut Dice, _: &Scheme) -> Value {
    let lot = match dice.below(4) {
        0 => 1 + dice.below(1_000_000),
        1 => 1 + dice.below(10),
        _ => 1 + dice.below(5_000),
    };
    let sample = dice.below(lot + 1);
    let accept = dice.below(sample.min(20) + 1);
    let bad: Vec<u32> = (0..dice.below(20)).map(|_| dice.below(lot + 1)).collect();
    json!({"ask": "sampling", "lot": lot, "sample": sample, "accept": accept, "bad": bad})
}

/// A run with faults planted.
pub fn simulate(dice: &mut Dice, _: &Scheme) -> Value {
    let (books, sections) = (1 + dice.below(3_000), 2 + dice.below(30));
    let planted = |dice: &mut Dice| {
        let (station, section) = (1 + dice.below(sections), 1 + dice.below(sections));
        let (counter, lift) = (dice.below(books + 1), 1 + dice.below(200));
        let other = if station == section { 1 + station % sections } else { section };
        match dice.below(8) {
            0 => {
                json!({"kind": "wrong_pile", "station": station, "section": section, "counter": counter, "lift": lift})
            }
            1 => json!({"kind": "foreign_pile", "station": station, "counter": counter, "lift": lift}),
            2 => {
                let lies = dice.pick(&["head_to_tail", "turned_in_plane", "side_to_side"]);
                json!({"kind": "turned_pile", "station": station, "lies": lies, "counter": counter, "lift": lift})
            }
            3 => json!({"kind": "exchanged", "stations": [station, other]}),
            4 => json!({"kind": "hand_filled", "station": station, "counter": counter, "books": 1, "section": section}),
            5 => json!({"kind": "hand_filled", "station": station, "counter": counter, "books": books}),
            6 => json!({"kind": "every_nth", "station": station, "counter": counter, "every": 1 + dice.below(20)}),
            _ => json!({"kind": "weak_feeder", "station": station, "miss_per_million": dice.below(500_000),
                        "double_per_million": dice.below(500_000)}),
        }
    };
    let mut faults: Vec<Value> = (0..dice.below(4)).map(|_| planted(dice)).collect();
    if dice.once_in(3) {
        let after = 1 + dice.below(sections - 1);
        faults.push(json!({"kind": "divided_wrong", "counter": dice.below(books + 1), "after": after}));
    }
    json!({"ask": "simulate", "seed": dice.next(), "books": books, "sections": sections, "planted": faults,
           "lift": 1 + dice.below(200), "fed": dice.pick(&["bottom", "top"]), "shown": dice.below(300),
           "detectors": {"caliper": dice.once_in(2), "camera": dice.once_in(2)}})
}

/// A link to a sheet folded so far, to an exercise, or to a job.
pub fn write_link(dice: &mut Dice, scheme: &Scheme) -> Value {
    match dice.below(4) {
        0 => {
            let level = 1 + dice.below(9);
            json!({"ask": "write_link", "exercise": {"kind": dice.below(256), "level": level, "seed": dice.next()}})
        }
        1 => {
            let text =
                json!({"backmark": 3, "job": {"title": "An invented book", "sections": dice.below(100)}}).to_string();
            json!({"ask": "write_link", "job": text, "address": "https://example.org/"})
        }
        other => {
            let mut scene = json!({"at": f64::from(dice.below(900)) / 100.0, "place": 1 + dice.below(400),
                "turned_over": dice.once_in(2), "quarters": dice.below(4), "figures": dice.once_in(2)});
            if other == 2 {
                scene["course"] = dice.pick(&["Sixteen, three folds", "Twelves, off-cut inset"]).into();
            } else {
                let mut steps = json!(scheme.folds);
                steps.as_array_mut().into_iter().for_each(|steps| steps.push(json!({"head": json!(scheme)["head"]})));
                scene["sheet"] = json!({"rows": scheme.rows, "columns": scheme.columns, "steps": steps,
                    "copies": [[[0]]], "reads": scheme.reads});
                scene["beside"] = json!({"cut": {"crease": "vertical", "at": dice.below(4)}});
            }
            json!({"ask": "write_link", "scene": scene})
        }
    }
}

/// A link that was written before.
pub fn read_link(dice: &mut Dice, scheme: &Scheme) -> Value {
    let written = backmark::ask::answer(&write_link(dice, scheme).to_string());
    let written: Value = serde_json::from_str(&written).unwrap_or_default();
    json!({"ask": "read_link", "link": written["ok"]["link"].as_str().unwrap_or_default()})
}

/// Trade words in a sentence, or by search.
pub fn glossary(dice: &mut Dice, _: &Scheme) -> Value {
    let some = ["bolt", "Flattermarke", "丁合", "the right-angle folds of a section", "Rücken", "zig", ""];
    match dice.below(3) {
        0 => json!({"ask": "glossary", "sentence": dice.pick(&some)}),
        1 => json!({"ask": "glossary", "search": dice.pick(&some)}),
        _ => json!({"ask": "glossary", "term": "bolt"}),
    }
}
