//! Taking the later parts out of the page's program.
//!
//! Trunk has run wasm-bindgen on the whole program. Here the program is taken as the compiler left it and divided: what
//! only the functions marked `wasm_split` in `src/ui` reach goes into files of its own. wasm-bindgen is run again, on
//! the first file, and `www/later.js`, which fetches the others, is put in front of its script.
//!
//! A part's file is named after the script, and no text names it in full, so `size.rs` does not count it.

use crate::{Outcome, root, run, tools};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use wasm_split_cli_support::{Options, transform};

/// The page's program, as in `Cargo.toml`.
const PROGRAM: &str = "backmark";
/// Where the first file says that the functions which fetch the others come from.
const ORIGIN: &str = "later";

/// Replaces what Trunk made of the page's program in `staging`. `profile` is the compiler's, as a folder's name.
pub fn split(staging: &Path, profile: &str) -> Outcome {
    let stem = stem(staging)?;
    let target = target_folder()?;
    let raw = target.join("wasm32-unknown-unknown").join(profile).join(format!("{PROGRAM}.wasm"));
    let whole = fs::read(&raw).map_err(|error| format!("{}: {error}.", raw.display()))?;
    let folder = target.join("later");
    let first = folder.join(format!("{PROGRAM}.wasm"));
    let mut options = Options::new(&whole);
    options.output_dir = &folder;
    options.main_out_path = &first;
    options.link_name = ORIGIN;
    let parts = transform(options).map_err(|error| format!("The program could not be divided: {error:?}."))?;
    let bindgen = tools::wasm_bindgen()?;
    // The last one keeps the table of functions, which the parts share, among the exports.
    let mut bindgen = run::command(bindgen, &["--target=no-modules", "--no-typescript", "--keep-lld-exports"]);
    bindgen.arg(format!("--out-name={stem}")).arg("--out-dir").arg(staging);
    run::run(bindgen.arg(&first))?;
    for file in &parts.split_modules {
        let name = file.file_stem().unwrap_or_default().to_string_lossy();
        let to = staging.join(format!("{stem}_{}.wasm", short(&name)));
        let part = fs::read(file).map_err(|error| format!("{}: {error}.", file.display()))?;
        fs::write(&to, without_names(&part)).map_err(|error| format!("{}: {error}.", to.display()))?;
    }
    let script = staging.join(format!("{stem}.js"));
    let told = |error: std::io::Error| format!("{}: {error}.", script.display());
    let text = fs::read_to_string(&script).map_err(told)?;
    let loader = fs::read_to_string(root().join("www").join("later.js")).map_err(told)?;
    let text = with_loader(&text, &loader, &parts.prefetch_map.into_iter().collect())?;
    fs::write(&script, text).map_err(told)
}

/// The script with the loader before it, which knows the files of each part and stands in for the module that
/// wasm-bindgen asks for once per part.
fn with_loader(script: &str, loader: &str, parts: &BTreeMap<String, Vec<String>>) -> Outcome<String> {
    let asks = |line: &str| line.trim_end().ends_with(&format!("= require(\"{ORIGIN}\");"));
    let uses = |line: &str| line.trim_start().starts_with(&format!("\"{ORIGIN}\": import"));
    let count = |is: &dyn Fn(&str) -> bool| script.lines().filter(|line| is(line)).count();
    if parts.is_empty() || count(&asks) != parts.len() || count(&uses) != parts.len() {
        return Err("The program has no later parts, or wasm-bindgen asks for them in another way.".to_owned());
    }
    let list =
        |names: &Vec<String>| names.iter().map(|name| format!("\"{}\"", short(name))).collect::<Vec<_>>().join(", ");
    let rows: Vec<String> = parts.iter().map(|(part, names)| format!("{part}: [{}]", list(names))).collect();
    let mut text = loader.replace("(PARTS)", &format!("({{ {} }})", rows.join(", ")));
    let mut given = false;
    for line in script.lines().filter(|line| !asks(line)) {
        if !uses(line) {
            text += line;
        } else if !given {
            text += &format!("\"{ORIGIN}\": backmarkLater,");
            given = true;
        }
        text += "\n";
    }
    Ok(text)
}

/// The name of a file as the loader knows it: a part's own, or that of what several parts share.
fn short(name: &str) -> &str {
    name.strip_prefix("split_").unwrap_or(name)
}

/// A program without the section that names its functions; in the first file that is wasm-bindgen's business.
fn without_names(program: &[u8]) -> Vec<u8> {
    let (head, mut rest) = program.split_at_checked(8).unwrap_or((program, &[]));
    let mut kept = head.to_vec();
    while let Some((&id, after)) = rest.split_first() {
        let (mut size, mut length) = (0usize, 0);
        for &byte in after.iter().take(5) {
            size |= usize::from(byte & 0x7f) << (7 * length);
            length += 1;
            if byte < 0x80 {
                break;
            }
        }
        let (section, next) = rest.split_at_checked(1 + length + size).unwrap_or((rest, &[]));
        let names = id == 0 && section.get(1 + length..).is_some_and(|inside| inside.starts_with(b"\x04name"));
        if !names {
            kept.extend(section);
        }
        rest = next;
    }
    kept
}

/// "backmark-0123456789abcdef", or without the number in a debug build.
fn stem(staging: &Path) -> Outcome<String> {
    let entries = fs::read_dir(staging).map_err(|error| format!("{}: {error}.", staging.display()))?;
    let names = entries.flatten().map(|entry| entry.file_name().to_string_lossy().into_owned());
    let mut stems = names.filter_map(|name| name.strip_suffix("_bg.wasm").map(str::to_owned));
    stems
        .find(|stem| stem.starts_with(PROGRAM))
        .ok_or_else(|| format!("{} holds no program of the page.", staging.display()))
}

/// Where cargo compiles to.
fn target_folder() -> Outcome<PathBuf> {
    let metadata = run::answer(&mut run::cargo(&["metadata", "--no-deps", "--format-version=1", "--offline"]));
    let metadata = metadata.unwrap_or_default();
    let (_, rest) = metadata.split_once("\"target_directory\":\"").ok_or("cargo does not say where it compiles to.")?;
    let path = rest.split('"').next().unwrap_or_default();
    Ok(PathBuf::from(path.replace("\\\\", "\\")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_loader_knows_the_files_of_each_part() {
        let both = |name: &str| vec!["chunk_2".to_owned(), format!("split_{name}")];
        let parts = BTreeMap::from(["one", "two"].map(|name| (name.to_owned(), both(name))));
        let script = "const import1 = require(\"later\");\nconst import2 = require(\"later\");\n\
            return {\n\"later\": import1,\n\"later\": import2,\n};";
        let text = with_loader(script, "f(PARTS);\n", &parts).unwrap();
        let loader = "f({ one: [\"chunk_2\", \"one\"], two: [\"chunk_2\", \"two\"] });\n";
        assert_eq!(text, format!("{loader}return {{\n\"later\": backmarkLater,\n\n}};\n"));
        assert!(with_loader("return {};", "f(PARTS);\n", &parts).is_err());
    }

    #[test]
    fn the_names_of_functions_go_and_all_else_stays() {
        let head = b"\0asm\x01\0\0\0";
        let (types, features, code) = (b"\x01\x01\x00", b"\x00\x05\x04feat", b"\x0a\x81\x00\x00");
        let program = [head, &types[..], features, b"\x00\x85\x00\x04name", code].concat();
        assert_eq!(without_names(&program), [head, &types[..], features, code].concat());
        assert_eq!(without_names(head), head);
    }
}
