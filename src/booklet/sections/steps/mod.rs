//! Steps: in the order worked, with this design's numbers and diagrams.

mod body;
mod fringe;
mod notes;

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::booklet::{Block, Figure, ParagraphStyle, Section, Step, Text};
use crate::stitch::{Cut, Shown, ThreadUse};

pub(super) fn section(book: &Book) -> Section {
    let words = &book.words;
    let mut list = Steps { book, diagrams: crate::booklet::diagrams::figures(book), steps: Vec::new() };
    list.begin();
    list.ladder();
    list.rows();
    list.hanging();
    list.anchoring();
    list.fringe();
    let mut blocks = vec![Block::Paragraph {
        text: Text::plain(words.fixed(Word::StepsDiagramNote)),
        style: ParagraphStyle::Small,
    }];
    blocks.extend(list.steps.into_iter().map(Block::Step));
    Section {
        name: "steps".into(),
        title: words.fixed(Word::StepsTitle),
        new_page: true,
        listed: true,
        blocks,
    }
}

/// The steps so far.
struct Steps<'a, 'w> {
    book: &'a Book<'w>,
    /// Diagrams not yet used, each with what it shows.
    diagrams: Vec<(Shown, Figure)>,
    steps: Vec<Step>,
}

impl Steps<'_, '_> {
    /// Adds a step with its paragraphs and the diagrams that show these.
    fn add(&mut self, title: String, blocks: Vec<Block>, shows: &[Shown]) {
        let mut figures = Vec::new();
        for wanted in shows {
            while let Some(at) = self.diagrams.iter().position(|(shown, _)| shown == wanted) {
                figures.push(self.diagrams.remove(at).1);
            }
        }
        self.steps.push(Step { number: self.steps.len() + 1, title: Text::plain(title), blocks, figures });
    }
}

fn cuts_of<'a>(book: &'a Book, thread: ThreadUse) -> Vec<&'a Cut> {
    book.work.cuts.iter().filter(|c| c.thread == thread).collect()
}
