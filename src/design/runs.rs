//! Runs of beads as text: `8A 2B 3(2A 1B)`.

use super::check::Check;
use super::model::LetterId;
use super::outline::Node;
use super::picture::{LetterReader, inside};
use crate::diagnostic::thousands;
use std::ops::Range;

/// Most beads of a strand.
pub(super) const MOST_BEADS: usize = 2000;
/// Deepest nesting of groups.
const DEEPEST: usize = 8;

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

/// A group that is still open: where it opened, its count, and where its beads begin.
struct Group {
    at: usize,
    count: usize,
    from: usize,
}

/// Letters with their places in the text, groups written out.
fn parse(text: &str) -> Result<Vec<(char, usize)>, Wrong> {
    let mut beads: Vec<(char, usize)> = Vec::new();
    let mut groups: Vec<Group> = Vec::new();
    let mut count: Option<(usize, Range<usize>)> = None;
    let mut at = 0;
    while let Some(c) = text[at..].chars().next() {
        let here = at..at + c.len_utf8();
        at = here.end;
        match c {
            c if c.is_whitespace() => {}
            '0'..='9' => {
                if let Some((_, part)) = count {
                    return Err(Wrong {
                        part,
                        message: "no letter follows this count".into(),
                        hint: "write each run as a count and a letter, as in `8A 2B`",
                    });
                }
                let digits = text[here.start..].bytes().take_while(u8::is_ascii_digit).count();
                at = here.start + digits;
                count = Some((number(text, here.start..at)?, here.start..at));
            }
            '(' => {
                if groups.len() >= DEEPEST {
                    return Err(Wrong {
                        part: here,
                        message: format!("groups are nested more than {DEEPEST} deep"),
                        hint: "write the inner runs out",
                    });
                }
                groups.push(Group {
                    at: here.start,
                    count: count.take().map_or(1, |(n, _)| n),
                    from: beads.len(),
                });
            }
            ')' => {
                if let Some((_, part)) = count.take() {
                    return Err(Wrong {
                        part,
                        message: "no letter follows this count".into(),
                        hint: "write each run as a count and a letter, as in `8A 2B`",
                    });
                }
                let Some(group) = groups.pop() else {
                    return Err(Wrong {
                        part: here,
                        message: "no group is open that this `)` could close".into(),
                        hint: "write a group as in `3(2A 1B)`",
                    });
                };
                let inner = beads.len() - group.from;
                if inner == 0 {
                    return Err(Wrong {
                        part: group.at..here.end,
                        message: "this group holds no beads".into(),
                        hint: "write a group as in `3(2A 1B)`",
                    });
                }
                fits(group.from, inner, group.count, group.at..here.end)?;
                for _ in 1..group.count {
                    beads.extend_from_within(group.from..group.from + inner);
                }
            }
            c if c.is_alphabetic() => {
                let (n, part) = count.take().unwrap_or((1, here.clone()));
                fits(beads.len(), 1, n, part.start..here.end)?;
                beads.extend(std::iter::repeat_n((c, here.start), n));
            }
            _ => {
                return Err(Wrong {
                    part: here,
                    message: format!("`{}` cannot stand in a strand", c.escape_debug()),
                    hint: "write runs as counts and letters with spaces between, as in `8A 2B 3(2A 1B)`",
                });
            }
        }
    }
    if let Some((_, part)) = count {
        return Err(Wrong {
            part,
            message: "no letter follows this count".into(),
            hint: "write each run as a count and a letter, as in `8A 2B`",
        });
    }
    if let Some(group) = groups.pop() {
        return Err(Wrong {
            part: group.at..group.at + 1,
            message: "this group is not closed".into(),
            hint: "add the `)` that belongs to it",
        });
    }
    if beads.is_empty() {
        return Err(Wrong {
            part: 0..text.len(),
            message: "no beads are written here".into(),
            hint: "write runs as counts and letters, as in `8A 2B`",
        });
    }
    Ok(beads)
}

fn number(text: &str, part: Range<usize>) -> Result<usize, Wrong> {
    // More digits than a number holds are certainly too many beads.
    let n: usize = text[part.clone()].parse().unwrap_or(usize::MAX);
    match n {
        0 => Err(Wrong {
            part,
            message: "a run of 0 beads".into(),
            hint: "give a count from 1, or remove the run",
        }),
        n if n > MOST_BEADS => Err(too_many(part)),
        n => Ok(n),
    }
}

fn fits(before: usize, beads: usize, times: usize, part: Range<usize>) -> Result<(), Wrong> {
    let more = beads.saturating_mul(times);
    if before.saturating_add(more) > MOST_BEADS { Err(too_many(part)) } else { Ok(()) }
}

fn too_many(part: Range<usize>) -> Wrong {
    Wrong {
        part,
        message: format!("this makes more than {} beads on one thread", thousands(MOST_BEADS)),
        hint: "give a smaller count",
    }
}
