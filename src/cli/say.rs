//! Speaking to the user: results on standard output, messages on standard error.
//!
//! Names of files may hold what a terminal would obey; it is kept from it here, and where problems are
//! rendered. Texts of design, palette and studio files hold nothing of the kind: reading refuses it.

use super::commands::Ending;
use crate::diagnostic::{Look, Problem, harmless, render_all};
use std::io::{self, ErrorKind, IsTerminal, Write};

/// Writes a line of result.
pub(super) fn result(line: &str) {
    // A result is also a file on disk: a reader that has gone away loses nothing.
    let _ = writeln!(io::stdout().lock(), "{}", harmless(line));
}

/// Writes a result that exists nowhere else, as it is: tables with swatches, or what other programs read; reports a standard output that does not take it.
pub(super) fn result_bytes(bytes: &[u8]) -> Ending {
    let mut out = io::stdout().lock();
    match out.write_all(bytes).and_then(|()| out.flush()) {
        Ok(()) => Ending::Done,
        // The reader has seen enough (`… | head`).
        Err(e) if e.kind() == ErrorKind::BrokenPipe => Ending::Done,
        Err(e) => {
            message(&format!("standard output does not take the result: {e}"));
            Ending::NotAll
        }
    }
}

/// Writes a message, of one line or several.
pub(super) fn message(text: &str) {
    // With standard error gone there is nowhere left to say so.
    let _ = writeln!(io::stderr().lock(), "{}", harmless(text));
}

/// Shows problems, an empty line between two.
pub(super) fn problems(problems: &[Problem]) {
    if problems.is_empty() {
        return;
    }
    // With standard error gone there is nowhere left to say so.
    let _ = writeln!(io::stderr().lock(), "{}", render_all(problems, look()));
}

/// Shows one problem.
pub(super) fn problem(problem: &Problem) {
    problems(std::slice::from_ref(problem));
}

/// Colours only on a terminal that may have them (the convention of no-color.org).
fn look() -> Look {
    let wanted = std::env::var_os("NO_COLOR").is_none_or(|value| value.is_empty());
    let able = std::env::var_os("TERM").is_none_or(|term| term != "dumb");
    if wanted && able && io::stderr().is_terminal() { Look::Coloured } else { Look::Plain }
}
