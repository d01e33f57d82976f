//! Tests of stitching by itself, on bodies and fringes made by hand.

mod sample;
mod worked_examples;
