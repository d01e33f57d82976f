//! Walking through the events of a Markdown parser: blocks.

use super::{ColumnSide, LONGEST_TITLE, OwnSection, Prose, ProseTable, Span};
use crate::design::bounds::MOST_PHOTOGRAPHS;
use crate::design::gallery::Gallery;
use crate::diagnostic::{Place, Problem, Source};
use pulldown_cmark::{Alignment, Event, HeadingLevel, Options, Parser, Tag, TagEnd};
use std::collections::VecDeque;
use std::ops::Range;
use std::path::Path;
use std::sync::Arc;

/// Deepest nesting of lists and quotes: what is deeper leaves no room for words.
const DEEPEST: usize = 4;
/// Most columns of a table that a page holds.
const MOST_COLUMNS: usize = 12;

/// Where words end.
#[derive(Clone, Copy)]
pub(super) enum Until {
    /// At the end of what they stand in, which is taken too.
    Tag(TagEnd),
    /// Before the next block: the words of a tight list's item stand in no paragraph.
    Block,
}

/// A walk through one file.
pub(super) struct Walk<'w> {
    pub(super) source: Arc<Source>,
    pub(super) folder: &'w Path,
    pub(super) gallery: &'w Gallery<'w>,
    pub(super) events: VecDeque<(Event<'static>, Range<usize>)>,
    pub(super) problems: Vec<Problem>,
    pub(super) leads: Vec<(String, Place)>,
    pub(super) pictures: usize,
    /// How deep lists and quotes stand in each other here.
    depth: usize,
    /// The level of the last heading.
    level: u8,
    title: Option<String>,
}

impl<'w> Walk<'w> {
    pub(super) fn new(source: &Arc<Source>, folder: &'w Path, gallery: &'w Gallery<'w>) -> Walk<'w> {
        let parser = Parser::new_ext(&source.text, Options::ENABLE_TABLES).into_offset_iter();
        let events = parser.map(|(event, at)| (event.into_static(), at)).collect();
        Walk {
            source: Arc::clone(source),
            folder,
            gallery,
            events,
            problems: Vec::new(),
            leads: Vec::new(),
            pictures: 0,
            depth: 0,
            level: 1,
            title: None,
        }
    }

    pub(super) fn place(&self, at: &Range<usize>) -> Place {
        // A block ends before the line feeds that follow it, and is shown by its first line.
        let text = self.source.text.get(at.clone()).unwrap_or("");
        let first = text.trim_end().lines().next().unwrap_or("");
        Place::new(&self.source, at.start..at.start + first.len())
    }

    pub(super) fn error(&mut self, at: &Range<usize>, message: impl Into<String>, hint: impl Into<String>) {
        let place = self.place(at);
        self.problems.push(Problem::error(message).at(place).hint(hint));
    }

    /// The whole file; `None` when it has no title.
    pub(super) fn section(&mut self, hash: String) -> Option<OwnSection> {
        let blocks = self.blocks(None);
        if self.title.is_none() {
            let hint = "begin it with its title, as in `# About the studio`";
            let start = Place::new(&self.source, 0..0);
            self.problems.push(Problem::error("this section has no title").at(start).hint(hint));
        } else if blocks.is_empty() {
            let start = Place::new(&self.source, 0..0);
            let hint = "write what is to stand under it, or take the file out of `order:`";
            self.problems.push(Problem::error("this section has nothing but its title").at(start).hint(hint));
        }
        if self.pictures > MOST_PHOTOGRAPHS {
            let message =
                format!("this section has {} pictures, and can have {MOST_PHOTOGRAPHS}", self.pictures);
            let start = Place::new(&self.source, 0..0);
            self.problems.push(Problem::error(message).at(start).hint("leave some out"));
        }
        let (leads, source) = (std::mem::take(&mut self.leads), Arc::clone(&self.source));
        Some(OwnSection { title: self.title.take()?, blocks, leads, hash, source })
    }

    /// Blocks up to the end of what they stand in.
    fn blocks(&mut self, end: Option<TagEnd>) -> Vec<Prose> {
        let mut blocks = Vec::new();
        while let Some((next, _)) = self.events.front() {
            if is_inline(next) {
                self.paragraph(Until::Block, &mut blocks);
                continue;
            }
            let Some((event, at)) = self.events.pop_front() else { break };
            match event {
                Event::End(closing) if Some(closing) == end => break,
                Event::Start(tag) => self.block(tag, &at, &mut blocks),
                Event::Rule => blocks.push(Prose::NewPage),
                Event::Html(html) => self.html(&html, &at),
                _ => {}
            }
        }
        blocks
    }

    fn block(&mut self, tag: Tag<'static>, at: &Range<usize>, blocks: &mut Vec<Prose>) {
        match tag {
            Tag::Paragraph => self.paragraph(Until::Tag(TagEnd::Paragraph), blocks),
            Tag::Heading { level, .. } => self.heading(level, at, blocks),
            Tag::List(from) => self.list(from, at, blocks),
            Tag::BlockQuote(kind) => {
                let within = self.deeper(at, |walk| walk.blocks(Some(TagEnd::BlockQuote(kind))));
                if !within.is_empty() {
                    blocks.push(Prose::Quote(within));
                }
            }
            Tag::CodeBlock(_) => {
                let mut words = String::new();
                while let Some((event, _)) = self.events.pop_front() {
                    match event {
                        Event::Text(text) => words.push_str(&text),
                        Event::End(TagEnd::CodeBlock) => break,
                        _ => {}
                    }
                }
                let words = words.trim_end().to_owned();
                if !words.trim().is_empty() {
                    blocks.push(Prose::Paragraph(vec![Span { words, style: super::SpanStyle::Plain }]));
                }
            }
            Tag::Table(sides) => self.table(&sides, at, blocks),
            Tag::HtmlBlock => {
                let (mut all, mut whole) = (String::new(), at.clone());
                while let Some((event, here)) = self.events.pop_front() {
                    match event {
                        Event::End(TagEnd::HtmlBlock) => break,
                        Event::Html(html) => {
                            all.push_str(&html);
                            whole.end = whole.end.max(here.end);
                        }
                        _ => {}
                    }
                }
                self.html(&all, &whole);
            }
            _ => {}
        }
    }

    /// Raw HTML: a remark is for the maker alone, anything else cannot be shown.
    pub(super) fn html(&mut self, html: &str, at: &Range<usize>) {
        let html = html.trim();
        let is_remark = html.strip_prefix("<!--").and_then(|rest| rest.split_once("-->"));
        if is_remark.is_some_and(|(_, after)| after.trim().is_empty()) {
            return;
        }
        self.error(
            at,
            "HTML cannot stand in a booklet",
            "write it as Markdown; a `<` that is meant as such is written `\\<`",
        );
    }

    /// Runs what stands one level deeper; what is too deep is told and passed over.
    fn deeper<T: Default>(&mut self, at: &Range<usize>, run: impl FnOnce(&mut Self) -> T) -> T {
        if self.depth == DEEPEST {
            self.error(
                at,
                format!("lists and quotes stand more than {DEEPEST} deep in each other"),
                "write them flatter",
            );
            let mut open = 1_usize;
            while let Some((event, _)) = self.events.pop_front() {
                match event {
                    Event::Start(_) => open += 1,
                    Event::End(_) => open -= 1,
                    _ => {}
                }
                if open == 0 {
                    break;
                }
            }
            return T::default();
        }
        self.depth += 1;
        let done = run(self);
        self.depth -= 1;
        done
    }

    fn heading(&mut self, level: HeadingLevel, at: &Range<usize>, blocks: &mut Vec<Prose>) {
        let words = self.words(Until::Tag(TagEnd::Heading(level)), at);
        let level = level as u8;
        let said: String =
            words.iter().map(|span| span.words.as_str()).collect::<String>().replace('\n', " ");
        if said.trim().is_empty() {
            self.error(at, "this heading has no words", "write them, or remove it");
            return;
        }
        if said.chars().count() > LONGEST_TITLE {
            self.error(
                at,
                format!("this heading has more than {LONGEST_TITLE} characters"),
                "write a shorter one",
            );
        }
        if level == 1 {
            if self.title.is_some() {
                self.error(
                    at,
                    "this section has a second title",
                    "make it a heading (`##`), or a section of its own in another file",
                );
            } else if !blocks.is_empty() || self.depth > 0 {
                self.error(at, "the title does not stand first", "begin the file with it");
            }
            self.title = Some(said.trim().to_owned());
            self.level = 1;
            return;
        }
        if self.depth > 0 {
            self.error(
                at,
                "a heading cannot stand in a list or a quote",
                "put it before, or make its words strong",
            );
        }
        if level > self.level + 1 {
            let wanted = "#".repeat(usize::from(self.level) + 1);
            self.error(
                at,
                "a level of headings is left out here: readers who cannot see the page lose their way",
                format!("write `{wanted}`"),
            );
        }
        self.level = level;
        blocks.push(Prose::Heading { level, words });
    }

    fn paragraph(&mut self, until: Until, blocks: &mut Vec<Prose>) {
        let whole = self.events.front().map_or(0..0, |(_, at)| at.clone());
        if let Some(pictures) = self.pictures_alone(until) {
            blocks.extend(pictures);
            return;
        }
        let words = self.words(until, &whole);
        if words.iter().any(|span| !span.words.trim().is_empty()) {
            blocks.push(Prose::Paragraph(words));
        }
    }

    fn list(&mut self, from: Option<u64>, at: &Range<usize>, blocks: &mut Vec<Prose>) {
        let items = self.deeper(at, |walk| {
            let mut items = Vec::new();
            while let Some((event, here)) = walk.events.pop_front() {
                match event {
                    Event::Start(Tag::Item) => {
                        let item = walk.blocks(Some(TagEnd::Item));
                        if item.is_empty() {
                            walk.error(&here, "this item of the list is empty", "write it, or remove it");
                        }
                        items.push(item);
                    }
                    Event::End(TagEnd::List(_)) => break,
                    _ => {}
                }
            }
            items
        });
        let from = from.map(|from| usize::try_from(from).unwrap_or(1));
        blocks.push(Prose::List { from, items });
    }

    fn table(&mut self, sides: &[Alignment], at: &Range<usize>, blocks: &mut Vec<Prose>) {
        let columns: Vec<ColumnSide> = sides
            .iter()
            .map(|side| match side {
                Alignment::None | Alignment::Left => ColumnSide::Left,
                Alignment::Center => ColumnSide::Middle,
                Alignment::Right => ColumnSide::Right,
            })
            .collect();
        if columns.len() > MOST_COLUMNS {
            let message = format!("this table has {} columns, and can have {MOST_COLUMNS}", columns.len());
            self.error(at, message, "make two of it, or turn it on its side");
        }
        let (mut head, mut rows) = (Vec::new(), Vec::new());
        while let Some((event, here)) = self.events.pop_front() {
            match event {
                Event::Start(Tag::TableHead) => {
                    head = self.cells(TagEnd::TableHead);
                    let is_empty = |cell: &Vec<Span>| cell.iter().all(|span| span.words.trim().is_empty());
                    if head.iter().any(is_empty) {
                        self.error(
                            &here,
                            "a column of this table has no heading: those who cannot see it are not told what it holds",
                            "write one for each column",
                        );
                    }
                }
                Event::Start(Tag::TableRow) => rows.push(self.cells(TagEnd::TableRow)),
                Event::End(TagEnd::Table) => break,
                _ => {}
            }
        }
        if rows.is_empty() {
            self.error(at, "this table has no row under its heading", "add one, or remove the table");
        }
        blocks.push(Prose::Table(ProseTable { columns, head, rows }));
    }

    fn cells(&mut self, end: TagEnd) -> Vec<Vec<Span>> {
        let mut cells = Vec::new();
        while let Some((event, at)) = self.events.pop_front() {
            match event {
                Event::Start(Tag::TableCell) => cells.push(self.words(Until::Tag(TagEnd::TableCell), &at)),
                Event::End(closing) if closing == end => break,
                _ => {}
            }
        }
        cells
    }
}

/// Whether an event is part of a line rather than a block.
pub(super) fn is_inline(event: &Event) -> bool {
    match event {
        Event::Start(tag) => matches!(
            tag,
            Tag::Emphasis | Tag::Strong | Tag::Link { .. } | Tag::Image { .. } | Tag::Strikethrough
        ),
        Event::Text(_) | Event::Code(_) | Event::SoftBreak | Event::HardBreak | Event::InlineHtml(_) => true,
        _ => false,
    }
}
