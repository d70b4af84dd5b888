//! The tools a build needs beside cargo, and the folder they are kept in.
//!
//! A tool on PATH is used if its version fits, then one in the folder; otherwise it is installed into the folder,
//! which all checkouts of a user share. Cargo compiles the Rust tools from their sources, in debug: that costs half
//! the time of a release build of theirs and makes the page's build no slower.

use crate::{Outcome, root, run, system};
use std::fs::{self, File, TryLockError};
use std::path::{Path, PathBuf};

/// Newer ones need a newer compiler than rust-toolchain.toml names.
const TRUNK: &str = "0.21.14";
const BINARYEN: &str = "132";
/// The npm package that shortens scripts and style sheets.
const ESBUILD: &str = "0.28.2";
const AXE: &str = "4.14.1";
/// Older ones cannot read what today's compiler writes.
const OLDEST_WASM_OPT: u32 = 116;

/// The folder, which may not exist yet.
pub fn folder() -> Outcome<PathBuf> {
    let from = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty()).map(PathBuf::from);
    let folder = from("BACKMARK_TOOLS")
        .or_else(|| from("XDG_CACHE_HOME").map(|cache| cache.join("backmark")))
        .or_else(|| from("HOME").or_else(|| from("USERPROFILE")).map(|home| home.join(".cache").join("backmark")))
        .ok_or("There is no home folder to keep the tools in: set BACKMARK_TOOLS to a folder.")?;
    std::path::absolute(&folder).map_err(|error| format!("{}: {error}.", folder.display()))
}

/// PATH as the build wants it: the tools' folders before the user's.
pub fn path() -> Outcome<std::ffi::OsString> {
    let users = std::env::var_os("PATH").unwrap_or_default();
    let all = folders()?.into_iter().chain(std::env::split_paths(&users));
    std::env::join_paths(all).map_err(|error| format!("PATH cannot be extended: {error}."))
}

/// The tools' folders alone, joined as in PATH.
pub fn path_entries() -> Outcome<String> {
    let joined = std::env::join_paths(folders()?).map_err(|error| format!("PATH cannot be made: {error}."))?;
    Ok(joined.to_string_lossy().into_owned())
}

fn folders() -> Outcome<[PathBuf; 2]> {
    let folder = folder()?;
    Ok([folder.join("cargo").join("bin"), folder.join("npm").join("node_modules").join(".bin")])
}

/// All that the page's build needs. Only wasm-opt may be absent afterwards, which [`wasm_opt`] tells.
pub fn for_page() -> Outcome {
    add_wasm_target()?;
    let bindgen = locked_version("wasm-bindgen")?;
    // What makes the page smaller: it works without, so a failure is told and the build goes on.
    let mut smaller = Vec::new();
    if system::on_path("npm").is_some() {
        smaller.extend(wasm_opt().is_none().then_some(("binaryen", BINARYEN)));
        smaller.extend(esbuild().is_none().then_some(("esbuild", ESBUILD)));
    }
    let trunk_args = ["--locked", "--no-default-features", "--features", "rustls"];
    if cargo_tool("trunk", TRUNK).is_some() && cargo_tool("wasm-bindgen", &bindgen).is_some() && smaller.is_empty() {
        return Ok(());
    }
    let _lock = lock()?;
    if cargo_tool("trunk", TRUNK).is_none() {
        cargo_install("trunk", TRUNK, &trunk_args)?;
    }
    if cargo_tool("wasm-bindgen", &bindgen).is_none() {
        // Its own lock file names releases that not every mirror has.
        cargo_install("wasm-bindgen-cli", &bindgen, &[])?;
    }
    for (package, version) in smaller {
        if let Err(sentence) = npm_install(package, version) {
            println!("{sentence}");
        }
    }
    Ok(())
}

/// All that the browser tests need beside the page.
pub fn for_browser() -> Outcome {
    if system::chromedriver().is_none() || system::chromium().is_none() {
        system::install("Chromium and chromedriver", system::CHROMIUM)?;
    }
    if system::chromedriver().is_none() || system::chromium().is_none() {
        return Err(system::BROWSER_BY_HAND.to_owned());
    }
    if axe().is_none() {
        ensure_npm()?;
        let _lock = lock()?;
        if axe().is_none() {
            npm_install("axe-core", AXE)?;
        }
    }
    Ok(())
}

/// Node's package manager, from the system's if it is absent.
pub fn ensure_npm() -> Outcome {
    if system::on_path("npm").is_some() {
        return Ok(());
    }
    system::install("Node.js and npm", system::NODE)?;
    if system::on_path("npm").is_some() { Ok(()) } else { Err("Install Node.js with npm, then try again.".to_owned()) }
}

/// The accessibility checker the browser tests inject into the page.
pub fn axe() -> Option<PathBuf> {
    let package = npm_package("axe-core", AXE)?;
    Some(package.join("axe.min.js")).filter(|file| file.is_file())
}

/// A wasm-opt that can read our output: the npm package in the folder or whatever is on PATH.
pub fn wasm_opt() -> Option<PathBuf> {
    let ours = npm_package("binaryen", &format!("{BINARYEN}.0.0")).map(|package| package.join("bin").join("wasm-opt"));
    let fits = |program: &Path| {
        let answer = run::answer(&mut run::command(program, &["--version"])).unwrap_or_default();
        // "wasm-opt version 132 (version_132)"
        let number = answer.split_whitespace().find_map(|word| word.parse::<u32>().ok());
        number.is_some_and(|number| number >= OLDEST_WASM_OPT)
    };
    ours.into_iter().chain(system::on_path("wasm-opt")).find(|program| fits(program))
}

/// The wasm-bindgen that fits the program, which [`for_page`] has installed.
pub fn wasm_bindgen() -> Outcome<PathBuf> {
    let version = locked_version("wasm-bindgen")?;
    cargo_tool("wasm-bindgen", &version)
        .ok_or_else(|| format!("wasm-bindgen {version} is missing: `cargo xtask build` installs it."))
}

/// What shortens scripts and style sheets.
pub fn esbuild() -> Option<PathBuf> {
    npm_package("esbuild", ESBUILD).map(|package| package.join("bin").join("esbuild")).filter(|file| file.is_file())
}

/// The version of a dependency in Cargo.lock.
fn locked_version(name: &str) -> Outcome<String> {
    let file = root().join("Cargo.lock");
    let text = fs::read_to_string(&file).map_err(|error| format!("{}: {error}.", file.display()))?;
    let heading = format!("name = \"{name}\"");
    let mut lines = text.lines().skip_while(|line| *line != heading);
    let version = lines.nth(1).and_then(|line| line.strip_prefix("version = \"")?.strip_suffix('"'));
    version.map(str::to_owned).ok_or_else(|| format!("Cargo.lock names no version of {name}."))
}

fn add_wasm_target() -> Outcome {
    const TARGET: &str = "wasm32-unknown-unknown";
    let sysroot = run::answer(&mut run::command("rustc", &["--print", "sysroot"])).unwrap_or_default();
    if Path::new(sysroot.trim()).join("lib").join("rustlib").join(TARGET).is_dir() {
        return Ok(());
    }
    run::run(&mut run::command("rustup", &["target", "add", TARGET]))
        .map_err(|error| format!("{error} The page needs the compiler's {TARGET} target, which rustup would add."))
}

fn cargo_tool(program: &str, version: &str) -> Option<PathBuf> {
    let ours = folder().ok()?.join("cargo").join("bin").join(format!("{program}{}", std::env::consts::EXE_SUFFIX));
    let fits = |program: &Path| {
        let answer = run::answer(&mut run::command(program, &["--version"])).unwrap_or_default();
        answer.split_whitespace().any(|word| word == version)
    };
    std::iter::once(ours).chain(system::on_path(program)).find(|program| fits(program))
}

fn cargo_install(package: &str, version: &str, more: &[&str]) -> Outcome {
    let place = folder()?.join("cargo");
    println!("Installing {package} {version} into {} (once; some minutes)…", place.display());
    let mut cargo = run::cargo(&["install", package, "--version", version, "--debug", "--force", "--root"]);
    // The checkout's own target folder and flags are none of a tool's business; symbols only cost time.
    cargo.arg(&place).args(more).env("CARGO_PROFILE_DEV_DEBUG", "false");
    cargo.env_remove("CARGO_TARGET_DIR").env_remove("CARGO_BUILD_TARGET").env_remove("RUSTFLAGS");
    run::run(&mut cargo).map_err(|error| format!("{error} {package} {version} could not be installed."))
}

fn npm_package(name: &str, version: &str) -> Option<PathBuf> {
    let package = folder().ok()?.join("npm").join("node_modules").join(name);
    let text = fs::read_to_string(package.join("package.json")).ok()?;
    let is_version = |line: &str| line.trim().trim_end_matches(',') == format!("\"version\": \"{version}\"");
    text.lines().any(is_version).then_some(package)
}

fn npm_install(package: &str, version: &str) -> Outcome {
    let place = folder()?.join("npm");
    fs::create_dir_all(&place).map_err(|error| format!("{}: {error}.", place.display()))?;
    println!("Installing {package} {version} into {}…", place.display());
    let npm = system::on_path("npm").ok_or("npm is missing.")?;
    let mut npm = run::command(npm, &["install", "--no-fund", "--no-audit", "--loglevel=error", "--prefix"]);
    run::run(npm.arg(&place).arg(format!("{package}@{version}")))
        .map_err(|error| format!("{error} {package} {version} could not be installed."))
}

/// Holds other calls of this user back while one installs. The system gives it up when the process ends.
fn lock() -> Outcome<File> {
    let place = folder()?;
    let told = |error: std::io::Error| format!("{}: {error}.", place.display());
    fs::create_dir_all(&place).map_err(told)?;
    let file = File::create(place.join("lock")).map_err(told)?;
    match file.try_lock() {
        Ok(()) => return Ok(file),
        Err(TryLockError::WouldBlock) => {
            println!("Another call is installing tools; waiting for it…")
        }
        Err(TryLockError::Error(error)) => return Err(told(error)),
    }
    file.lock().map_err(told)?;
    Ok(file)
}
