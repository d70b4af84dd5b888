//! The core as a program for scripts: one JSON request a line on standard input, one JSON answer a line on standard
//! output, until input ends. What can be asked is written in `src/ask/PROTOCOL.md`.
//!
//! ```text
//! cargo run --release --no-default-features --example ask < examples/ask.jsonl
//! ```

use backmark::ask::{MAX_LINE, answer_bytes};
use std::io::{self, BufRead, Read, Write};

fn main() -> io::Result<()> {
    let mut input = io::stdin().lock();
    let mut output = io::stdout().lock();
    while let Some(line) = next_line(&mut input)? {
        let answered = writeln!(output, "{}", answer_bytes(&line)).and_then(|()| output.flush());
        match answered {
            // Whoever asked has stopped listening.
            Err(why) if why.kind() == io::ErrorKind::BrokenPipe => return Ok(()),
            other => other?,
        }
    }
    Ok(())
}

/// The next line without its line break, or `None` at the end of input. Of a line that is too long anyway, no more is
/// kept than shows that it is.
fn next_line(input: &mut impl BufRead) -> io::Result<Option<Vec<u8>>> {
    let mut line = Vec::new();
    if input.by_ref().take(MAX_LINE as u64 + 2).read_until(b'\n', &mut line)? == 0 {
        return Ok(None);
    }
    if line.ends_with(b"\n") {
        line.pop();
    } else {
        input.skip_until(b'\n')?;
    }
    Ok(Some(line))
}
