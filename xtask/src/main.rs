//! The commands of the checkout; see [`USAGE`].

use std::process::ExitCode;
use xtask::{Outcome, checks, dist, page, serve, size, tools};

const USAGE: &str = "\
cargo xtask open [--port N]   build the page if need be and serve it on this machine
cargo xtask test              every check and every test, the browser's included
cargo xtask test NAME…        the browser tests whose names contain NAME, against a fresh page
cargo xtask build             build the page into dist/
cargo xtask size              what a first visit loads, in bytes; fails over the limit
cargo xtask path              where the tools are, for use by hand: PATH=\"$(cargo xtask path):$PATH\"
cargo xtask help              this text

What is missing (Trunk, wasm-bindgen, wasm-opt, a browser) is installed at the first call, once per user, in
$BACKMARK_TOOLS or else $XDG_CACHE_HOME/backmark or else ~/.cache/backmark.
";

fn main() -> ExitCode {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = args.iter().map(String::as_str).collect();
    let asks_help = words.iter().any(|word| matches!(*word, "help" | "--help" | "-h"));
    let done = match words.as_slice() {
        _ if asks_help || words.is_empty() => {
            print!("{USAGE}");
            Ok(())
        }
        ["open"] => open(None),
        ["open", "--port", port] => port_number(port).and_then(|port| open(Some(port))),
        ["test"] => checks::everything(),
        ["test", names @ ..] => checks::browser_only(names),
        ["build"] => page::build(),
        ["size"] => size::report(&dist()),
        ["path"] => tools::path_entries().map(|entries| println!("{entries}")),
        // Called by Trunk after each build; see Trunk.toml.
        ["finish"] => page::finish(),
        _ => Err(format!("There is no command `{}`.\n\n{USAGE}", words.join(" "))),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            eprintln!("{sentence}");
            ExitCode::FAILURE
        }
    }
}

fn port_number(text: &str) -> Outcome<u16> {
    text.parse().map_err(|_| format!("--port takes a number from 0 to 65535, not `{text}`."))
}

fn open(port: Option<u16>) -> Outcome {
    page::build()?;
    let server = match port {
        Some(port) => serve::Server::on_port(port, dist(), |_| {})?,
        None => serve::Server::near_port(serve::USUAL_PORT, dist(), |_| {})?,
    };
    println!("\nBackmark is open at {}   (Ctrl+C ends it)", server.address());
    server.wait()
}
