//! Runs of beads as text: `8A 2B 3(2A 1B)`.

use super::bounds::{DEEPEST_GROUP, MOST_BEADS_OF_STRAND, text};
use super::model::LetterId;
use super::picture::{LetterReader, inside};
use super::yaml::{Check, Node};
use crate::diagnostic::thousands;
use std::ops::Range;

/// What is wrong in a text of runs, with the stretch of that text.
struct Wrong {
    part: Range<usize>,
    message: String,
    hint: &'static str,
}

/// Reads runs of beads, in the order strung; `None` (with a problem) when they cannot be read.
pub(super) fn read(
    check: &mut Check<'_>,
    reader: &mut LetterReader<'_>,
    node: &Node,
) -> Option<Vec<LetterId>> {
    let text = node.text();
    check.short(text, &node.span, "this strand", text::RUNS)?;
    match parse(text) {
        Ok(symbols) => {
            let mut beads = Vec::with_capacity(symbols.len());
            let mut good = true;
            for (symbol, at) in symbols {
                let span = inside(&check.source, node, at..at + symbol.len_utf8());
                match reader.letter(check, symbol, span) {
                    Some(letter) => beads.push(letter),
                    None => good = false,
                }
            }
            good.then_some(beads)
        }
        Err(wrong) => {
            let span = inside(&check.source, node, wrong.part);
            check.error(span, wrong.message, wrong.hint);
            None
        }
    }
}

/// A count that waits for its letter or group.
struct Count {
    number: usize,
    part: Range<usize>,
}

/// A group that is still open: where it opened, its count, and where its beads begin.
struct Group {
    at: usize,
    count: usize,
    from: usize,
}

/// Letters with their places in the text, groups written out.
fn parse(text: &str) -> Result<Vec<(char, usize)>, Wrong> {
    let mut runs = Runs::default();
    let mut at = 0;
    while let Some(c) = text[at..].chars().next() {
        let mut here = at..at + c.len_utf8();
        match c {
            c if c.is_whitespace() => {}
            '0'..='9' => {
                here.end = at + text[at..].bytes().take_while(u8::is_ascii_digit).count();
                runs.count(&text[here.clone()], here.clone())?;
            }
            '(' => runs.open(here.clone())?,
            ')' => runs.close(here.clone())?,
            c if c.is_alphabetic() => runs.letter(c, here.clone())?,
            _ => return Err(no_run(c, here)),
        }
        at = here.end;
    }
    runs.end(text)
}

/// Runs as read so far.
#[derive(Default)]
struct Runs {
    /// Letters with their places in the text.
    beads: Vec<(char, usize)>,
    /// Open groups, the innermost last.
    groups: Vec<Group>,
    count: Option<Count>,
}

impl Runs {
    fn count(&mut self, digits: &str, part: Range<usize>) -> Result<(), Wrong> {
        self.no_count_waits()?;
        self.count = Some(Count { number: number(digits, part.clone())?, part });
        Ok(())
    }

    fn letter(&mut self, letter: char, here: Range<usize>) -> Result<(), Wrong> {
        let count = self.count.take().unwrap_or(Count { number: 1, part: here.clone() });
        fits(self.beads.len(), 1, count.number, count.part.start..here.end)?;
        self.beads.extend(std::iter::repeat_n((letter, here.start), count.number));
        Ok(())
    }

    fn open(&mut self, here: Range<usize>) -> Result<(), Wrong> {
        if self.groups.len() >= DEEPEST_GROUP {
            return Err(Wrong {
                part: here,
                message: format!("groups are nested more than {DEEPEST_GROUP} deep"),
                hint: "write the inner runs out",
            });
        }
        let count = self.count.take().map_or(1, |count| count.number);
        self.groups.push(Group { at: here.start, count, from: self.beads.len() });
        Ok(())
    }

    fn close(&mut self, here: Range<usize>) -> Result<(), Wrong> {
        self.no_count_waits()?;
        let Some(group) = self.groups.pop() else {
            return Err(Wrong {
                part: here,
                message: "no group is open that this `)` could close".into(),
                hint: "write a group as in `3(2A 1B)`",
            });
        };
        let part = group.at..here.end;
        let inner = group.from..self.beads.len();
        if inner.is_empty() {
            return Err(Wrong {
                part,
                message: "this group holds no beads".into(),
                hint: "write a group as in `3(2A 1B)`",
            });
        }
        fits(group.from, inner.len(), group.count, part)?;
        for _ in 1..group.count {
            self.beads.extend_from_within(inner.clone());
        }
        Ok(())
    }

    /// The beads, if nothing is left open at the end of the text.
    fn end(mut self, text: &str) -> Result<Vec<(char, usize)>, Wrong> {
        self.no_count_waits()?;
        if let Some(group) = self.groups.pop() {
            return Err(Wrong {
                part: group.at..group.at + 1,
                message: "this group is not closed".into(),
                hint: "add the `)` that belongs to it",
            });
        }
        if self.beads.is_empty() {
            return Err(Wrong {
                part: 0..text.len(),
                message: "no beads are written here".into(),
                hint: "write runs as counts and letters, as in `8A 2B`",
            });
        }
        Ok(self.beads)
    }

    fn no_count_waits(&mut self) -> Result<(), Wrong> {
        match self.count.take() {
            None => Ok(()),
            Some(count) => Err(Wrong {
                part: count.part,
                message: "no letter follows this count".into(),
                hint: "write each run as a count and a letter, as in `8A 2B`",
            }),
        }
    }
}

fn no_run(c: char, part: Range<usize>) -> Wrong {
    Wrong {
        part,
        message: format!("`{}` cannot stand in a strand", c.escape_debug()),
        hint: "write runs as counts and letters with spaces between, as in `8A 2B 3(2A 1B)`",
    }
}

fn number(digits: &str, part: Range<usize>) -> Result<usize, Wrong> {
    // More digits than a number holds are certainly too many beads.
    let n: usize = digits.parse().unwrap_or(usize::MAX);
    match n {
        0 => Err(Wrong {
            part,
            message: "a run of 0 beads".into(),
            hint: "give a count from 1, or remove the run",
        }),
        n if n > MOST_BEADS_OF_STRAND => Err(too_many(part)),
        n => Ok(n),
    }
}

fn fits(before: usize, beads: usize, times: usize, part: Range<usize>) -> Result<(), Wrong> {
    let more = beads.saturating_mul(times);
    if before.saturating_add(more) > MOST_BEADS_OF_STRAND { Err(too_many(part)) } else { Ok(()) }
}

fn too_many(part: Range<usize>) -> Wrong {
    Wrong {
        part,
        message: format!("this makes more than {} beads on one thread", thousands(MOST_BEADS_OF_STRAND)),
        hint: "give a smaller count",
    }
}
