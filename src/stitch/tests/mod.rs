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
