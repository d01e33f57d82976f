//! A page for the maker's own notes.

use super::parts::paragraph;
use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::drawing;
use crate::booklet::{Block, Figure, Section, Text};

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let lines = Figure {
        drawing: drawing::lines_to_write_on(book.edition.paper, book.edition.large_print),
        caption: Text::default(),
        alt: words.fixed(Word::NotesAlt),
    };
    Section {
        name: "notes".into(),
        title: words.fixed(Word::NotesTitle),
        new_page: true,
        faces: false,
        listed: true,
        blocks: vec![paragraph(&words.fixed(Word::NotesIntro)), Block::Figure(lines)],
    }
}
