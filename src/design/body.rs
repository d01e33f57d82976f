//! The body: its picture to rows of stacks.

use super::bounds::{LARGEST_DROP, MOST_ROWS, MOST_STACKS};
use super::files::BodyPart;
use super::model::{Body, Row, Stack, StitchName};
use super::picture::{self, LetterReader, RowLine};
use super::shape;
use super::yaml::{Check, Field, Node};
use crate::diagnostic::{did_you_mean, number_of, shown, thousands};

/// Checks the body; `None` when no rows can be made of it. Also says how wide its foundation is
/// drawn, if that much can be told, so that the fringe can be checked against it.
pub(super) fn check(
    check: &mut Check<'_>,
    part: &BodyPart,
    node: &Node,
    reader: &mut LetterReader<'_>,
) -> (Option<Body>, Option<usize>) {
    let misspelt = check.keys::<BodyPart>(node);
    let stitch = stitch(check, part, node);
    let drop = drop(check, part, node).filter(|_| part.drop != Field::Missing || !misspelt);
    let hint = "draw the body under `picture: |`, one line of letters for each line of beads";
    let drawn = check.need(&part.picture, node, "picture", hint).is_some();
    let Some(drop) = drop.filter(|_| drawn) else { return (None, None) };
    let Some(drawn) = rows_drawn(check, node, "picture", drop, reader) else { return (None, None) };
    // With rows below, the fringe hangs along other stacks.
    let width = drawn.width.filter(|w| *w <= MOST_STACKS && part.below == Field::Missing);
    let below = match check.take(&part.below, node, "below") {
        None if part.below != Field::Missing => return (None, width),
        None => Vec::new(),
        Some(_) => {
            let below = rows_drawn(check, node, "below", drop, reader).and_then(|drawn| drawn.rows);
            let Some(below) = below else { return (None, width) };
            below
        }
    };
    let Some(mut rows) = drawn.rows else { return (None, width) };
    rows.reverse();
    let above = rows.len();
    rows.extend(below);
    if !shape::check(check, &mut rows, above) {
        return (None, width);
    }
    (stitch.map(|stitch| Body { stitch, drop, rows, above }), width)
}

/// Rows as far as they are drawn.
struct Drawn {
    /// From the top down; `None` where some cannot be read.
    rows: Option<Vec<Row>>,
    /// Stacks of the lowest, if that much can be told.
    width: Option<usize>,
}

/// The rows of a picture; `None` (with a problem) where there is nothing to go on with.
fn rows_drawn(
    check: &mut Check<'_>,
    node: &Node,
    key: &str,
    drop: usize,
    reader: &mut LetterReader<'_>,
) -> Option<Drawn> {
    let lines = picture::lines(check, node, key)?;
    if let Some(line) = lines.get(MOST_ROWS * drop) {
        let message = format!("the body has more than {} rows", thousands(MOST_ROWS));
        check.error(line.span.clone(), message, "draw a smaller body");
        return None;
    }
    let read: Vec<Option<RowLine>> = lines.iter().map(|line| reader.row_line(check, line)).collect();
    let width = read.last().and_then(|l| l.as_ref()).map(|l| l.letters.len());
    if lines.len() % drop != 0 {
        let last = &lines[lines.len() - 1];
        let counted = number_of(lines.len(), "line");
        check.error(
            last.span.clone(),
            format!("the picture has {counted}, which is no whole number of rows of {drop}"),
            format!(
                "with `drop: {drop}` every row is {drop} lines: add the missing line or remove one too many"
            ),
        );
        return Some(Drawn { rows: None, width });
    }
    Some(Drawn { rows: read.chunks(drop).map(|group| row(check, group)).collect(), width })
}

fn stitch(check: &mut Check<'_>, part: &BodyPart, node: &Node) -> Option<StitchName> {
    match check.take(&part.stitch, node, "stitch").map(|t| t.0.trim().to_lowercase()) {
        None if part.stitch != Field::Missing => None,
        None => Some(StitchName::Brick),
        Some(name) if name == "brick" => Some(StitchName::Brick),
        Some(name) => {
            let message = format!("the stitch `{}` is not known here", shown(&name));
            check.error(
                node.get("stitch").span.clone(),
                message,
                did_you_mean(&name, &["brick"], "the stitches are"),
            );
            None
        }
    }
}

fn drop(check: &mut Check<'_>, part: &BodyPart, node: &Node) -> Option<usize> {
    let given = matches!(part.drop, Field::Missing);
    match check.take(&part.drop, node, "drop").map(|w| w.0 as usize) {
        None => given.then_some(1),
        Some(drop) if drop <= LARGEST_DROP => Some(drop),
        Some(drop) => {
            check.error(
                node.get("drop").span.clone(),
                format!("a stack of {drop} beads cannot be worked"),
                "`drop` is 1, 2 or 3 beads in a stack",
            );
            None
        }
    }
}

/// One row from its lines, upper beads first; their shapes must agree.
fn row(check: &mut Check<'_>, lines: &[Option<RowLine>]) -> Option<Row> {
    let lines: Vec<&RowLine> = lines.iter().map(Option::as_ref).collect::<Option<_>>()?;
    let first = lines.first()?;
    for line in &lines[1..] {
        let (a, b) = (first.letters.len(), line.letters.len());
        if a != b {
            check.error(
                line.span.clone(),
                format!("this line has {}, the first line of the same row has {a}", number_of(b, "letter")),
                "the lines of one row are the beads of the same stacks: give them equally many letters",
            );
            return None;
        }
        if first.dots != line.dots {
            check.error(
                line.span.clone(),
                "the lines of this row are shifted against each other",
                format!(
                    "begin both with the same number of dots: the first has {}, this one {}",
                    first.dots, line.dots
                ),
            );
            return None;
        }
    }
    if first.letters.len() > MOST_STACKS {
        check.error(
            first.span.clone(),
            format!("a row can have {MOST_STACKS} stacks; this one has {}", first.letters.len()),
            "draw a narrower body",
        );
        return None;
    }
    let stacks =
        (0..first.letters.len()).map(|i| Stack(lines.iter().map(|l| l.letters[i]).collect())).collect();
    Some(Row { lead: first.dots, stacks, place: check.place(first.span.clone()) })
}
