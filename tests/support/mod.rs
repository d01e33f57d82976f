//! What several files of tests build on.

pub mod booklets;
pub mod editions;
pub mod made;
pub mod svg;

use proptest::test_runner::Config;

/// So many cases of a property about shapes, and as many times more as `FRINGEBOOK_SHAPES` says.
pub fn cases(usual: u32) -> Config {
    let more = std::env::var("FRINGEBOOK_SHAPES").ok().and_then(|times| times.parse().ok());
    Config { cases: usual * more.unwrap_or(1), failure_persistence: None, ..Config::default() }
}
