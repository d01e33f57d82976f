//! The `fringebook` command.

fn main() {}
