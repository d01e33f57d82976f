//! Speaking to the user: results on standard output, messages on standard error.

use super::commands::Ending;
use std::io::{self, ErrorKind, Write};

/// Writes a line of result.
pub(super) fn result(line: &str) {
    // A result is also a file on disk: a reader that has gone away loses nothing.
    let _ = writeln!(io::stdout().lock(), "{line}");
}

/// Writes a result that exists nowhere else; reports a standard output that does not take it.
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
    let _ = writeln!(io::stderr().lock(), "{text}");
}
