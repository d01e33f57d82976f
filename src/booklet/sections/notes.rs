//! A page for the maker's own notes.

use super::parts::paragraph;
use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::{Block, Section, Text, WritingLines};

/// Fewest lines on it, and most.
const LINES: [usize; 2] = [8, 26];

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let [least, most] = LINES;
    let lines =
        WritingLines { words: Text::default(), least, needed: true, most, alt: words.fixed(Word::NotesAlt) };
    Section {
        name: "notes".into(),
        title: words.fixed(Word::NotesTitle),
        new_page: true,
        faces: false,
        listed: true,
        blocks: vec![paragraph(&words.fixed(Word::NotesIntro)), Block::WritingLines(lines)],
    }
}
