//! Words of a paragraph, a heading or a cell: their styles, links, and pictures.

use super::walk::{Until, Walk, is_inline};
use super::{Prose, Span, SpanStyle};
use crate::design::address::{link_to, wrong_link};
use crate::design::bounds::text;
use crate::design::model::Picture;
use crate::design::phrase::Phrase;
use crate::diagnostic::shown;
use pulldown_cmark::{Event, Tag, TagEnd};
use std::ops::Range;

/// A paragraph that is longer is no paragraph.
const LONGEST_PARAGRAPH: usize = text::PARAGRAPH;

impl Walk<'_> {
    /// The next event of a line; `None` at its end. `open` marks of it are not closed yet.
    fn next_of(&mut self, until: Until, open: usize) -> Option<(Event<'static>, Range<usize>)> {
        let (next, _) = self.events.front()?;
        match until {
            Until::Tag(end) if *next == Event::End(end) => {
                self.events.pop_front();
                None
            }
            Until::Block if open == 0 && !is_inline(next) => None,
            Until::Tag(_) | Until::Block => self.events.pop_front(),
        }
    }

    /// The words up to an end; `whole` is where they stand.
    pub(super) fn words(&mut self, until: Until, whole: &Range<usize>) -> Vec<Span> {
        let mut spans: Vec<Span> = Vec::new();
        // What the words stand in, outermost first.
        let mut styles: Vec<SpanStyle> = Vec::new();
        let mut length = 0;
        while let Some((event, at)) = self.next_of(until, styles.len()) {
            match event {
                Event::Start(Tag::Emphasis | Tag::Strikethrough) => styles.push(SpanStyle::Emphasis),
                Event::Start(Tag::Strong) => styles.push(SpanStyle::Strong),
                Event::Start(Tag::Link { dest_url, .. }) => {
                    let style = self.link(&dest_url, &at);
                    styles.push(style);
                    if self.events.front().is_some_and(|(next, _)| *next == Event::End(TagEnd::Link)) {
                        self.error(&at, "this link has no words to press", "write them between `[` and `]`");
                    }
                }
                Event::Start(Tag::Image { .. }) => {
                    self.error(
                        &at,
                        "a picture stands among words",
                        "give it a paragraph of its own, with an empty line before and after it",
                    );
                    self.skip_picture();
                }
                Event::End(TagEnd::Emphasis | TagEnd::Strong | TagEnd::Strikethrough | TagEnd::Link) => {
                    styles.pop();
                }
                Event::Text(words) | Event::Code(words) => {
                    length += words.len();
                    add(&mut spans, &words, &styles);
                }
                Event::SoftBreak => add(&mut spans, " ", &styles),
                Event::HardBreak => add(&mut spans, "\n", &styles),
                Event::InlineHtml(html) | Event::Html(html) => self.html(&html, &at),
                _ => {}
            }
        }
        if length > LONGEST_PARAGRAPH {
            let message = format!("this paragraph has more than {LONGEST_PARAGRAPH} characters");
            self.error(whole, message, "part it with empty lines");
        }
        spans
    }

    /// The style of a link's words.
    fn link(&mut self, address: &str, at: &Range<usize>) -> SpanStyle {
        if let Some(section) = address.strip_prefix('#') {
            let place = self.place(at);
            self.leads.push((section.to_owned(), place));
            return SpanStyle::Section(section.to_owned());
        }
        if let Some((message, hint)) = wrong_link(address) {
            self.error(at, message, hint);
        } else if address.trim().is_empty() {
            self.error(at, "this link leads nowhere", "write its address between `(` and `)`");
        } else if address.chars().count() > text::LINE {
            let message = format!("the address of this link has more than {} characters", text::LINE);
            self.error(at, message, "give a shorter one");
        }
        SpanStyle::Web(link_to(address))
    }

    /// The pictures of a paragraph that holds nothing else.
    pub(super) fn pictures_alone(&mut self, until: Until) -> Option<Vec<Prose>> {
        // Whether it holds nothing else is seen without taking anything.
        let mut open = 0_usize;
        let mut met = 0;
        for (event, _) in &self.events {
            let ends = match until {
                Until::Tag(end) => *event == Event::End(end),
                Until::Block => !is_inline(event),
            };
            if open == 0 && ends {
                break;
            }
            match event {
                Event::Start(Tag::Image { .. }) => {
                    open += 1;
                    met += 1;
                }
                Event::End(TagEnd::Image) => open = open.saturating_sub(1),
                Event::SoftBreak | Event::HardBreak => {}
                _ if open > 0 => {}
                Event::Text(words) if words.trim().is_empty() => {}
                _ => return None,
            }
        }
        if met == 0 {
            return None;
        }
        let mut pictures = Vec::new();
        while let Some((event, at)) = self.next_of(until, 0) {
            if let Event::Start(Tag::Image { dest_url, title, .. }) = event {
                pictures.extend(self.picture(&dest_url, &title, &at));
            }
        }
        Some(pictures)
    }

    fn picture(&mut self, file: &str, caption: &str, at: &Range<usize>) -> Option<Prose> {
        let shows = self.skip_picture();
        self.pictures += 1;
        if shows.trim().is_empty() {
            self.error(
                at,
                "it is not said what this picture shows, for those who cannot see it",
                "say it between `[` and `]`, as in `![the studio’s window](window.jpg)`",
            );
        }
        for (what, words, most) in [
            ("what this picture shows", shows.as_str(), text::SHOWS),
            ("this caption", caption, text::SUMMARY),
        ] {
            if words.chars().count() > most {
                self.error(at, format!("{what} has more than {most} characters"), "write a shorter one");
            }
        }
        if file.contains("://") {
            let message = format!("`{}` is no file beside this one", shown(file));
            self.error(at, message, "save the picture in the folder of this file, and name it");
            return None;
        }
        // A blank is written `%20` in an address.
        let path = self.folder.join(file.replace("%20", " "));
        match self.gallery.image(&path, shows.clone(), Some(self.place(at))) {
            Ok(image) => {
                let picture = Picture { image, shows: Phrase::from(shows.as_str()) };
                Some(Prose::Picture { picture, caption: caption.trim().to_owned() })
            }
            Err(problem) => {
                self.problems.push(problem);
                None
            }
        }
    }

    /// Goes to the end of a picture; its words are what it shows.
    fn skip_picture(&mut self) -> String {
        let mut words = String::new();
        let mut open = 1;
        while let Some((event, _)) = self.events.pop_front() {
            match event {
                Event::Start(Tag::Image { .. }) => open += 1,
                Event::End(TagEnd::Image) => open -= 1,
                Event::Text(text) | Event::Code(text) => words.push_str(&text),
                Event::SoftBreak | Event::HardBreak => words.push(' '),
                _ => {}
            }
            if open == 0 {
                break;
            }
        }
        words.trim().to_owned()
    }
}

/// Adds words in the style they stand in: a link before strong before emphasised.
fn add(spans: &mut Vec<Span>, words: &str, styles: &[SpanStyle]) {
    let link = styles.iter().find(|style| matches!(style, SpanStyle::Web(_) | SpanStyle::Section(_)));
    let style = link.or_else(|| styles.iter().find(|style| **style == SpanStyle::Strong));
    let style = style.or(styles.last()).cloned().unwrap_or(SpanStyle::Plain);
    match spans.last_mut() {
        Some(last) if last.style == style => last.words.push_str(words),
        _ => spans.push(Span { words: words.to_owned(), style }),
    }
}
