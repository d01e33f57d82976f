//! Booklet: sections made of blocks, with this design's numbers and the template's words.
//! Knows no millimetre of a page.

mod bench;
mod book;
mod boxes;
mod compose;
mod diagrams;
mod earring_cards;
mod grey;
mod markup;
mod model;
mod moving;
mod order;
mod plates;
mod record;
mod sections;
mod wording;
mod words;

pub mod drawing;

pub use bench::{BenchEarring, bench};
pub use book::Edition;
pub use boxes::{BoxName, Worked, stand_ins};
pub use compose::compose;
pub use earring_cards::earring_cards;
pub use model::*;
pub use moving::{moves_of_step, step};
pub use order::unshown;
pub use plates::{Shown, plate};
pub use record::{Record, record};
pub use sections::steps::{Telling, telling};
pub use wording::{
    Language, OwnEntry, SectionName, StartFile, TemplateFile, Templates, Word, Wording, start_files,
};
