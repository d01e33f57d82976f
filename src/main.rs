//! The `fringebook` command.

use std::process::ExitCode;

fn main() -> ExitCode {
    fringebook::cli::main()
}
