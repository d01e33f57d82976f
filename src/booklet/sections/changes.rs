//! What has changed since the edition before.

use crate::booklet::book::Book;
use crate::booklet::record::{Change, Record};
use crate::booklet::words::number_ranges;
use crate::booklet::{Block, ParagraphStyle, Section, Text, Word};
use minijinja::context;

/// `None` for a first edition, and where nothing is known of the one before or nothing that a buyer sees has changed.
pub(super) fn section(book: &Book) -> Option<Section> {
    let words = &book.words;
    let before = book.edition.before.as_ref()?;
    let changes = Record::of(book).changes_since(before);
    if changes.is_empty() {
        return None;
    }
    let values = context! { edition => book.design.edition, before => before.edition };
    let intro = words.say(Word::ChangesIntro, values);
    let items = changes.iter().map(|change| Text::marked(&told(book, change))).collect();
    Some(Section {
        name: "changes".into(),
        title: words.fixed(Word::ChangesTitle),
        new_page: false,
        faces: false,
        listed: true,
        blocks: vec![
            Block::Paragraph { text: Text::plain(intro), style: ParagraphStyle::Body },
            Block::List { numbered: false, items },
        ],
    })
}

fn told(book: &Book, change: &Change) -> String {
    let words = &book.words;
    match change {
        Change::Bead { letter, from, to } => words.say(Word::ChangesBead, context! { letter, from, to }),
        Change::New { letter, bead } => words.say(Word::ChangesNew, context! { letter, bead }),
        Change::Gone { letter, bead } => words.say(Word::ChangesGone, context! { letter, bead }),
        Change::RowsNumber { from, to } => words.say(Word::ChangesRowsNumber, context! { from, to }),
        Change::Rows(numbers) => words
            .say(Word::ChangesRows, context! { count => numbers.len(), numbers => number_ranges(numbers) }),
        Change::StrandsNumber { from, to } => words.say(Word::ChangesStrandsNumber, context! { from, to }),
        Change::Strands(numbers) => words.say(
            Word::ChangesStrands,
            context! { count => numbers.len(), numbers => number_ranges(numbers) },
        ),
        Change::Instead { from, to } => words.say(Word::ChangesInstead, context! { from, to }),
        Change::Added(what) => words.say(Word::ChangesAdded, context! { what }),
        Change::Dropped(what) => words.say(Word::ChangesDropped, context! { what }),
    }
}
