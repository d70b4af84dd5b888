//! Running other programs.

use crate::{Outcome, root};
use std::ffi::OsStr;
use std::process::{Command, Stdio};

/// A command that starts in the checkout, has no input and sees the tools first.
pub fn command(program: impl AsRef<OsStr>, args: &[&str]) -> Command {
    let mut command = Command::new(program);
    command.args(args).current_dir(root()).stdin(Stdio::null());
    command
}

/// Cargo as this build was started with it.
pub fn cargo(args: &[&str]) -> Command {
    command(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()), args)
}

/// Runs to the end, with the output shown; an error names the command.
pub fn run(command: &mut Command) -> Outcome {
    let line = line_of(command);
    let status = command.status().map_err(|error| format!("`{line}` did not start: {error}."))?;
    if status.success() { Ok(()) } else { Err(format!("`{line}` failed ({status}).")) }
}

/// What a command prints, or `None` if it is missing or fails.
pub fn answer(command: &mut Command) -> Option<String> {
    let output = command.stderr(Stdio::null()).output().ok()?;
    output.status.success().then(|| String::from_utf8_lossy(&output.stdout).into_owned())
}

/// The command as a person would type it.
pub fn line_of(command: &Command) -> String {
    let words = std::iter::once(command.get_program()).chain(command.get_args());
    words.map(|word| word.to_string_lossy()).collect::<Vec<_>>().join(" ")
}
