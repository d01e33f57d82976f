//! `fringebook` turns one design file into a printable booklet for a bead-stitched fringe earring.
//!
//! The way of the data, each stage a pure function of the stage before it:
//!
//! 1. [`design`]: the text of a design, palette and studio file becomes a checked [`design::Design`];
//!    every value knows its line.
//! 2. [`stitch`]: the design becomes stitched [`stitch::Work`]: one simulated path a thread, as moves.
//! 3. [`tally`]: beads, grams, packs, thread, fit, size and weight, from the design and the path.
//! 4. [`booklet`]: sections made of blocks (headings, tables, charts, steps), which know no page.
//! 5. [`layout`]: glyphs, lines and beads at millimetre positions on pages: a display list.
//! 6. [`paint`]: the display list becomes a file.
//!
//! [`cli`] holds the commands on top. A stage imports earlier stages only, plus the shared ground
//! floor: [`units`], [`colour`], [`diagnostic`], [`drawn`],
//! [`images`], [`fonts`] and [`holes`].

pub mod booklet;
pub mod cli;
pub mod colour;
pub mod design;
pub mod diagnostic;
pub mod drawn;
pub mod fonts;
pub mod holes;
pub mod images;
pub mod layout;
pub mod paint;
pub mod screen;
pub mod stitch;

pub mod tally;
pub mod units;
