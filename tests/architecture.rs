//! The shape of the program: the core knows no browser, and every folder of `src` uses only what the table in
//! `src/lib.rs` lets it use.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use std::path::{Path, PathBuf};
use std::process::Command;

/// Crates of the page. None of them may be in the core's tree, and none may be named outside `src/ui`.
const OF_THE_PAGE: [&str; 5] = ["yew", "web-sys", "js-sys", "wasm-bindgen", "gloo"];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
    found.sort();
    found
}

/// A file as a path under `src`, and its code without comments.
fn code() -> Vec<(String, String)> {
    let src = root().join("src");
    let read = |path: PathBuf| {
        let text = std::fs::read_to_string(&path).unwrap();
        let name = path.strip_prefix(&src).unwrap().to_string_lossy().replace('\\', "/");
        (name, without_comments(&text))
    };
    let found: Vec<_> = sources(&src).into_iter().map(read).collect();
    assert!(found.len() > 15, "the sources are found");
    found
}

fn without_comments(text: &str) -> String {
    let lines = text.lines().map(|line| match line.find("//") {
        // A web address in a string has a colon before its slashes.
        Some(at) if !line[..at].ends_with(':') => &line[..at],
        _ => line,
    });
    lines.collect::<Vec<_>>().join("\n")
}

/// Every name that follows `crate::` (or `backmark::`), also inside braces: `use crate::{fold::Face, marks};`.
fn modules_used(code: &str) -> Vec<String> {
    let mut used = Vec::new();
    for start in ["crate::", "backmark::"] {
        for (at, _) in code.match_indices(start) {
            let before = code[..at].chars().next_back();
            if before.is_some_and(|c| c.is_alphanumeric() || c == '_') {
                continue;
            }
            let rest = &code[at + start.len()..];
            match rest.strip_prefix('{') {
                Some(inside) => used.extend(outer_names(inside)),
                None => used.push(first_word(rest)),
            }
        }
    }
    used
}

fn first_word(text: &str) -> String {
    text.trim_start().chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect()
}

/// The first word of each item in a braced list, up to the brace that closes it.
fn outer_names(inside: &str) -> Vec<String> {
    let (mut depth, mut item, mut names) = (0, String::new(), Vec::new());
    for c in inside.chars() {
        match c {
            '{' => depth += 1,
            '}' if depth == 0 => break,
            '}' => depth -= 1,
            ',' if depth == 0 => names.push(first_word(&std::mem::take(&mut item))),
            c => item.push(c),
        }
    }
    names.push(first_word(&item));
    names.retain(|n| !n.is_empty());
    names
}

/// The rows of the table in `src/lib.rs`: a folder, and the folders that it may use.
fn layers() -> Vec<(String, Vec<String>)> {
    let lib = std::fs::read_to_string(root().join("src/lib.rs")).unwrap();
    let mut layers: Vec<(String, Vec<String>)> = Vec::new();
    for line in lib.lines().filter_map(|l| l.strip_prefix("//! | ")) {
        let cells: Vec<&str> = line.trim_end_matches('|').split('|').map(str::trim).collect();
        let [folder, _, may] = cells.as_slice() else { panic!("a row of three cells: {line}") };
        let folder: String = folder.chars().filter(|c| c.is_alphanumeric() || *c == '_').collect();
        if matches!(folder.as_str(), "folder" | "") {
            continue;
        }
        let above: Vec<String> = layers.iter().map(|(name, _)| name.clone()).collect();
        let uses = match *may {
            "nothing" => Vec::new(),
            "all above" => above,
            named => {
                let named: Vec<String> = named.split(',').map(|n| n.trim().trim_matches('`').to_owned()).collect();
                assert!(
                    named.iter().all(|n| above.contains(n)),
                    "{folder} may use {named:?}: not in the table above it"
                );
                named
            }
        };
        layers.push((folder, uses));
    }
    layers
}

#[test]
fn the_table_of_layers_names_every_folder() {
    let mut named: Vec<String> = layers().into_iter().map(|(name, _)| name).collect();
    named.sort();
    let mut folders: Vec<String> = std::fs::read_dir(root().join("src"))
        .unwrap()
        .map(|e| e.unwrap().path())
        .map(|p| p.file_stem().unwrap().to_string_lossy().into_owned())
        .filter(|name| !matches!(name.as_str(), "lib" | "main"))
        .collect();
    folders.sort();
    assert_eq!(named, folders);
}

#[test]
fn every_folder_uses_only_what_its_layer_may() {
    let layers = layers();
    let folders: Vec<&String> = layers.iter().map(|(name, _)| name).collect();
    for (file, code) in code() {
        let folder = file.split_once('/').map_or(file.trim_end_matches(".rs"), |(folder, _)| folder);
        if matches!(folder, "lib" | "main") {
            continue;
        }
        let (_, may) = layers.iter().find(|(name, _)| name == folder).unwrap();
        for used in modules_used(&code) {
            let allowed = used == folder || may.contains(&used) || !folders.contains(&&used);
            assert!(allowed, "src/{file} uses crate::{used}; {folder} may use {may:?}");
        }
    }
}

#[test]
fn only_the_page_names_the_crates_of_the_page() {
    for (file, code) in code().into_iter().filter(|(file, _)| !file.starts_with("ui/") && !file.starts_with("bin/")) {
        for word in code.split(|c: char| !c.is_alphanumeric() && c != '_') {
            let of_the_page = OF_THE_PAGE.iter().any(|c| {
                let c = c.replace('-', "_");
                word == c || word.strip_prefix(&c).is_some_and(|rest| c == "gloo" && rest.starts_with('_'))
            });
            assert!(!of_the_page, "src/{file} names {word}");
        }
    }
}

#[test]
fn the_core_has_no_crate_of_the_page_in_its_tree() {
    let output = Command::new(env!("CARGO"))
        .args(["tree", "--offline", "--locked", "--no-default-features", "-e", "normal", "-p", "backmark"])
        .args(["--prefix", "none", "--format", "{p}"])
        .current_dir(root())
        .output()
        .unwrap();
    let tree = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    assert!(tree.lines().any(|l| l.starts_with("serde_json ")), "the tree is read: {tree}");
    for line in tree.lines() {
        let name = line.split(' ').next().unwrap_or_default();
        let of_the_page = OF_THE_PAGE.iter().any(|c| name == *c || name.starts_with(&format!("{c}-")));
        assert!(!of_the_page, "{name} is in the core's tree:\n{tree}");
    }
}

#[test]
fn the_readers_of_this_file_read() {
    assert_eq!(modules_used("use crate::{fold::{A, B}, marks, gather as g};"), ["fold", "marks", "gather"]);
    assert_eq!(modules_used("crate::fold::Face; my_crate::x; pub(in crate::ask) a"), ["fold", "ask"]);
    assert_eq!(without_comments("a // crate::ui\nlet u = \"https://x\";"), "a \nlet u = \"https://x\";");
    let layers = layers();
    assert_eq!(layers.first().map(|(n, may)| (n.as_str(), may.len())), Some(("units", 0)));
    assert_eq!(layers.last().map(|(n, may)| (n.as_str(), may.len())), Some(("ui", layers.len() - 1)));
}

/// Elements that are pressed. Trade words in a sentence are pressed themselves, so none may stand in one of these.
const PRESSED: [&str; 6] = ["button", "a", "summary", "label", "option", "legend"];

/// The tags of a piece of markup that are still open at its end, of those that are pressed.
fn open_at_end(markup: &str) -> Vec<&'static str> {
    let mut open = Vec::new();
    for (at, _) in markup.match_indices('<') {
        let rest = &markup[at + 1..];
        let (closes, rest) = rest.strip_prefix('/').map_or((false, rest), |rest| (true, rest));
        let named = |tag: &&&str| rest.strip_prefix(**tag).is_some_and(|r| r.starts_with([' ', '>', '\n']));
        match PRESSED.iter().find(named) {
            Some(tag) if closes => open.retain(|o| o != tag),
            Some(tag) => open.push(*tag),
            None => {}
        }
    }
    open
}

#[test]
fn no_sentence_with_trade_words_stands_in_what_is_pressed() {
    let mut seen = 0;
    for (file, code) in code() {
        if !file.starts_with("ui/") {
            continue;
        }
        for (at, _) in code.match_indices("words(") {
            let before = &code[..at];
            if before.ends_with(|c: char| c.is_alphanumeric() || c == '_') || before.ends_with("fn ") {
                continue;
            }
            seen += 1;
            let from = ["\nfn ", "\npub fn ", "    let "].iter().filter_map(|start| before.rfind(start)).max();
            let open = open_at_end(&before[from.unwrap_or(0)..]);
            let line = before.matches('\n').count() + 1;
            assert!(open.is_empty(), "src/{file}, about line {line}: `figures`, not `words`, belongs into {open:?}");
        }
    }
    assert!(seen > 60, "the sentences are found: {seen}");
    assert_eq!(open_at_end("<p>{ x }</p><button type=\"button\">{ "), ["button"]);
    assert_eq!(open_at_end("<button>{ x }</button><a href=\"#\">{ x }</a>{ "), [""; 0]);
}
