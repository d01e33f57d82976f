//! Wrong files: what a maker is told, to the letter, with the place underlined. Harmless oddities work.

pub mod good;
mod harmless;
mod robust;
mod spoiled;
mod told;
