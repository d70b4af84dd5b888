//! Building the page.

use crate::{Outcome, run, split, tools};
use std::fs;
use std::path::{Path, PathBuf};

/// Builds the page in release into dist/, installing first what that takes.
pub fn build() -> Outcome {
    tools::for_page()?;
    let mut trunk = run::command("trunk", &["build", "--release"]);
    trunk.env("PATH", tools::path()?);
    // Trunk takes "true" or "false" here, and not the "1" that others set.
    trunk.env_remove("NO_COLOR");
    run::run(&mut trunk).map_err(|error| format!("{error} The page was not built."))
}

/// The last step of a build, in the folder Trunk is about to make dist/ of: the program is divided, and in a release build
/// put through wasm-opt, if a fitting one is there.
///
/// Trunk could call wasm-opt itself, but fails on one that is too old to read the program.
pub fn finish() -> Outcome {
    let debug = std::env::var("TRUNK_PROFILE").is_ok_and(|profile| profile == "debug");
    let staging =
        std::env::var_os("TRUNK_STAGING_DIR").ok_or("`finish` is for Trunk, which names the folder to finish.")?;
    let staging = Path::new(&staging);
    split::split(staging, if debug { "debug" } else { "release" })?;
    if debug {
        return Ok(());
    }
    match tools::wasm_opt() {
        Some(wasm_opt) => optimise(&wasm_opt, staging)?,
        None => println!(
            "The page is built without wasm-opt: it works, but is a third larger. With npm installed, the next build gets one."
        ),
    }
    match tools::esbuild() {
        Some(esbuild) => shorten(&esbuild, staging)?,
        None => println!("The page's scripts are not shortened. With npm installed, the next build does it."),
    }
    Ok(())
}

fn optimise(wasm_opt: &Path, staging: &Path) -> Outcome {
    for wasm in with_ending(staging, "wasm")? {
        let told = |error: std::io::Error| format!("{}: {error}.", wasm.display());
        let before = fs::metadata(&wasm).map_err(told)?.len();
        let out = wasm.with_extension("optimised");
        run::run(run::command(wasm_opt, LEVEL).arg("-o").arg(&out).arg(&wasm))?;
        fs::rename(&out, &wasm).map_err(told)?;
        let after = fs::metadata(&wasm).map_err(told)?.len();
        let name = wasm.file_name().unwrap_or_default().to_string_lossy();
        println!("wasm-opt: {name}, {before} bytes became {after}");
    }
    Ok(())
}

/// Shortens scripts and style sheets in place. Nothing is bundled and no outer name changes.
fn shorten(esbuild: &Path, staging: &Path) -> Outcome {
    for file in [with_ending(staging, "js")?, with_ending(staging, "css")?].concat() {
        let out = file.with_extension("short");
        let options = ["--minify", "--log-level=warning"];
        let outfile = format!("--outfile={}", out.display());
        run::run(run::command(esbuild, &options).arg(outfile).arg(&file))?;
        fs::rename(&out, &file).map_err(|error| format!("{}: {error}.", file.display()))?;
    }
    Ok(())
}

/// After compression the levels hardly differ in size, so speed decides; but a function that is called once and stays
/// a function of its own compresses better.
const LEVEL: &[&str] = &["-O2", "--one-caller-inline-max-function-size=0"];

/// The files of the page with an ending; there is at least one.
fn with_ending(folder: &Path, ending: &str) -> Outcome<Vec<PathBuf>> {
    let entries = fs::read_dir(folder).map_err(|error| format!("{}: {error}.", folder.display()))?;
    let files = entries.flatten().map(|entry| entry.path());
    let mut found: Vec<_> = files.filter(|file| file.extension().is_some_and(|e| e == ending)).collect();
    found.sort();
    if found.is_empty() { Err(format!("{} holds no .{ending} file to finish.", folder.display())) } else { Ok(found) }
}
