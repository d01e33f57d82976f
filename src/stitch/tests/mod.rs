//! Tests of stitching by itself, on bodies and fringes made by hand.

mod anchoring;
mod hanging;
mod mirror;
mod properties;
mod random;
mod room;
mod sample;
mod shapes;
mod thread_plan;
mod worked_examples;

use proptest::test_runner::Config;

/// So many cases of a property, and as many times more as `FRINGEBOOK_SHAPES` says.
fn cases(usual: u32) -> Config {
    let more = std::env::var("FRINGEBOOK_SHAPES").ok().and_then(|times| times.parse().ok());
    Config { cases: usual * more.unwrap_or(1), failure_persistence: None, ..Config::default() }
}
