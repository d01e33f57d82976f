//! Safety and terms. Printed as information; local rules decide.

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::{Block, CalloutKind, ParagraphStyle, Section, Text};
use minijinja::context;

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let studio = &book.design.studio;
    let cautions = [
        Word::SafetyChildren,
        Word::SafetyNeedle,
        Word::SafetyEyes,
        Word::SafetyMetal,
        Word::SafetySnag,
        Word::SafetySelling,
    ];
    let mut blocks = vec![Block::Callout {
        kind: CalloutKind::Caution,
        title: Text::plain(words.fixed(Word::SafetySafety)),
        blocks: vec![Block::List {
            numbered: false,
            items: cautions.iter().map(|&w| Text::marked(&words.fixed(w))).collect(),
        }],
    }];
    let mut terms = vec![Block::Heading { level: 2, text: Text::plain(words.fixed(Word::SafetyTerms)) }];
    terms.extend(studio.paragraphs().map(|t| paragraph(&words.own(&t), ParagraphStyle::Body)));
    let seller = words.say(
        Word::SafetySeller,
        context! { name => studio.name.as_str(), web => studio.web.as_str(), contact => studio.contact.as_str() },
    );
    let made = words.say(
        Word::SafetyMade,
        context! { edition => book.design.edition, date => book.design.date.map(|d| words.date(d)) },
    );
    for line in [seller, words.own(&studio.copyright), made] {
        if !line.is_empty() {
            terms.push(paragraph(&line, ParagraphStyle::Small));
        }
    }
    blocks.push(Block::Together(terms));
    Section {
        name: "safety".into(),
        title: words.fixed(Word::SafetyTitle),
        new_page: false,
        listed: true,
        blocks,
    }
}

fn paragraph(text: &str, style: ParagraphStyle) -> Block {
    Block::Paragraph { text: Text::plain(text), style }
}
