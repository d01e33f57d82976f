//! Safety and terms. Printed as information; local rules decide.

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::{Block, CalloutKind, Floating, ParagraphStyle, RunStyle, Section, Text, TextRun};
use crate::design::link_to;
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
    let mut links = vec![(studio.web.as_str(), link_to(&studio.web))];
    if is_mail(&studio.contact) {
        links.push((studio.contact.as_str(), format!("mailto:{}", studio.contact)));
    }
    terms.push(Block::Paragraph { text: linked(&seller, &links), style: ParagraphStyle::Small });
    for line in [words.own(&studio.copyright), made] {
        if !line.is_empty() {
            terms.push(paragraph(&line, ParagraphStyle::Small));
        }
    }
    blocks.push(Block::Float(Floating { blocks: terms, listed: None }));
    Section {
        name: "safety".into(),
        title: words.fixed(Word::SafetyTitle),
        new_page: false,
        faces: false,
        listed: true,
        blocks,
    }
}

/// A line with the addresses that stand in it as links.
pub(in crate::booklet) fn linked(line: &str, links: &[(&str, String)]) -> Text {
    let mut runs = Vec::new();
    let mut rest = line;
    for (words, address) in links.iter().filter(|(words, _)| !words.is_empty()) {
        let Some((before, after)) = rest.split_once(words) else { continue };
        runs.push(TextRun { text: before.to_owned(), style: RunStyle::Plain });
        runs.push(TextRun { text: (*words).to_owned(), style: RunStyle::WebLink(address.clone()) });
        rest = after;
    }
    runs.push(TextRun { text: rest.to_owned(), style: RunStyle::Plain });
    runs.retain(|run| !run.text.is_empty());
    Text(runs)
}

/// Whether a line is an address of mail and nothing else.
pub(in crate::booklet) fn is_mail(line: &str) -> bool {
    let odd = |c: char| c.is_whitespace() || matches!(c, ',' | ';' | '<' | '>' | '"' | '?' | '&' | '%' | ':');
    let parts = line.split_once('@');
    parts.is_some_and(|(name, host)| !name.is_empty() && host.contains('.') && !host.contains('@'))
        && !line.contains(odd)
}

fn paragraph(text: &str, style: ParagraphStyle) -> Block {
    Block::Paragraph { text: Text::plain(text), style }
}
