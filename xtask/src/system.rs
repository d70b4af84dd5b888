//! What comes from the operating system: programs on PATH, and its package manager.

use crate::{Outcome, run};
use std::path::{Path, PathBuf};

/// The packages of each package manager, by its program's name.
pub type Packages = &'static [(&'static str, &'static [&'static str])];

/// A browser and the driver that steers it.
pub const CHROMIUM: Packages = &[
    ("apt-get", &["chromium", "chromium-driver"]),
    ("dnf", &["chromium", "chromedriver"]),
    ("pacman", &["chromium"]),
    ("apk", &["chromium", "chromium-chromedriver"]),
    ("brew", &["--cask", "google-chrome", "chromedriver"]),
];

/// Node.js, for the two tools that npm carries.
pub const NODE: Packages = &[
    ("apt-get", &["nodejs", "npm"]),
    ("dnf", &["nodejs", "npm"]),
    ("pacman", &["nodejs", "npm"]),
    ("apk", &["nodejs", "npm"]),
    ("brew", &["node"]),
];

/// What to do where no package manager of ours has a browser.
pub const BROWSER_BY_HAND: &str = "The browser tests need Chromium (or Chrome) and a chromedriver of the same version. \
    Install both so that they are on PATH, or name them in CHROMIUM and CHROMEDRIVER, then try again.";

/// The browser: `CHROMIUM`, or the first known name on PATH, or where macOS keeps it.
pub fn chromium() -> Option<PathBuf> {
    let names = ["chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome"];
    let places = [
        "/Applications/Chromium.app/Contents/MacOS/Chromium",
        "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    ];
    named_by("CHROMIUM").or_else(|| names.into_iter().find_map(on_path)).or_else(|| first_file(&places))
}

/// The driver: `CHROMEDRIVER`, or the one on PATH, or where some systems hide it.
pub fn chromedriver() -> Option<PathBuf> {
    let places = ["/usr/lib/chromium/chromedriver", "/usr/lib/chromium-browser/chromedriver"];
    named_by("CHROMEDRIVER").or_else(|| on_path("chromedriver")).or_else(|| first_file(&places))
}

/// The program of that name which a shell would run.
pub fn on_path(name: &str) -> Option<PathBuf> {
    let endings: &[&str] = if cfg!(windows) { &[".exe", ".cmd"] } else { &[""] };
    let path = std::env::var_os("PATH")?;
    let files = std::env::split_paths(&path)
        .flat_map(|folder| endings.iter().map(move |end| folder.join(format!("{name}{end}"))));
    files.into_iter().find(|file| file.is_file())
}

/// Installs packages through the system's package manager, as root or through sudo.
pub fn install(what: &str, packages: Packages) -> Outcome {
    let Some((manager, names)) = packages.iter().find(|(manager, _)| on_path(manager).is_some()) else {
        return Err(format!("{what} must be installed by hand: no package manager was found that has them."));
    };
    println!("Installing {what} through {manager}…");
    let steps: &[&[&str]] = match *manager {
        "apt-get" => &[&["update", "-qq"], &["install", "-y", "-qq", "--no-install-recommends"]],
        "dnf" => &[&["install", "-y"]],
        "pacman" => &[&["-Sy", "--needed", "--noconfirm"]],
        "apk" => &[&["add"]],
        _ => &[&["install"]],
    };
    for (index, step) in steps.iter().enumerate() {
        let mut words = step.to_vec();
        if index + 1 == steps.len() {
            words.extend_from_slice(names);
        }
        let mut command = match *manager {
            "brew" => run::command(manager, &words),
            _ => as_root(manager, &words).ok_or_else(|| {
                format!("{what} must be installed as root: {manager} {} {}", step.join(" "), names.join(" "))
            })?,
        };
        run::run(command.env("DEBIAN_FRONTEND", "noninteractive"))?;
    }
    Ok(())
}

fn as_root(program: &str, args: &[&str]) -> Option<std::process::Command> {
    let user = run::answer(&mut run::command("id", &["-u"])).unwrap_or_default();
    if user.trim() == "0" {
        return Some(run::command(program, args));
    }
    on_path("sudo")?;
    let mut sudo = run::command("sudo", &["DEBIAN_FRONTEND=noninteractive", program]);
    // The password, if one is wanted, is asked for at the terminal.
    sudo.args(args);
    Some(sudo)
}

fn named_by(variable: &str) -> Option<PathBuf> {
    std::env::var_os(variable).map(PathBuf::from).filter(|file| file.is_file())
}

fn first_file(places: &[&str]) -> Option<PathBuf> {
    places.iter().map(Path::new).find(|file| file.is_file()).map(Path::to_path_buf)
}
