//! A closer look: the maker's photographs of details.

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::drawing::photograph;
use crate::booklet::{Block, Section};

/// `None` where the design gives none.
pub(super) fn section(book: &Book) -> Option<Section> {
    let details = &book.design.photographs.details;
    if details.is_empty() {
        return None;
    }
    let figures = details.iter().map(|one| photograph(one, book.words.own(&one.caption)));
    Some(Section {
        name: "details".into(),
        title: book.words.fixed(Word::DetailsTitle),
        new_page: true,
        faces: false,
        listed: true,
        blocks: vec![Block::Pictures(figures.collect())],
    })
}
