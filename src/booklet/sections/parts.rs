//! Small blocks that several sections share.

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::{Block, CalloutKind, ParagraphStyle, Text};

/// A heading of level 2.
pub(super) fn heading(book: &Book, word: Word) -> Block {
    Block::Heading { level: 2, text: Text::plain(book.words.fixed(word)) }
}

/// A heading of words that are not the templates'.
pub(super) fn heading_text(level: u8, text: &str) -> Block {
    Block::Heading { level, text: Text::plain(text) }
}

/// Running text, marked up.
pub(super) fn paragraph(text: &str) -> Block {
    Block::Paragraph { text: Text::marked(text), style: ParagraphStyle::Body }
}

/// Something set apart, without a title.
pub(super) fn callout(kind: CalloutKind, text: &str) -> Block {
    Block::Callout { kind, title: Text::default(), blocks: vec![paragraph(text)] }
}

/// What to count or measure before going on.
pub(super) fn check(book: &Book, text: &str) -> Block {
    let title = Text::plain(book.words.fixed(Word::StepsCheckTitle));
    Block::Callout { kind: CalloutKind::Check, title, blocks: vec![paragraph(text)] }
}
