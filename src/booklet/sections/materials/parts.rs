//! Small blocks that the tables of materials share.

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::{Block, Cell, Column, ColumnWidth, ParagraphStyle, Text};
use crate::drawn::Align;

pub(super) fn small(text: &str) -> Block {
    Block::Paragraph { text: Text::marked(text), style: ParagraphStyle::Small }
}

pub(super) fn text_cell(text: impl Into<String>) -> Cell {
    Cell::Text(Text::plain(text))
}

pub(super) fn column(align: Align, width: ColumnWidth) -> Column {
    Column { align, width }
}

/// `Price, EUR`.
pub(super) fn price_head(book: &Book) -> String {
    let currency = book.design.palette.currency.as_deref();
    book.words.say(Word::MaterialsPrice, minijinja::context! { currency => currency })
}
