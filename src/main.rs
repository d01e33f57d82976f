//! The `fringebook` command.

use std::process::ExitCode;

/// Booklets are made of many small pieces that live shortly: with the system's allocator a twentieth of
/// the time goes more into making room for them.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    fringebook::cli::main()
}
