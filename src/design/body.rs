//! The body: its picture to rows of stacks.

use super::bounds::{LARGEST_DROP, MOST_ROWS, MOST_STACKS};
use super::check::Check;
use super::field::Field;
use super::files::BodyPart;
use super::model::{Body, Row, Stack, StitchName};
use super::outline::Node;
use super::picture::{self, LetterReader, RowLine};
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
    if check.take(&part.below, node, "below").is_some() {
        let span = node.entry("below").map_or(node.span.clone(), |(key, _)| key.span.clone());
        check.error(
            span,
            "rows below the foundation cannot be worked yet",
            "let the foundation be the last row of `picture`, and remove `below`",
        );
    }
    let hint = "draw the body under `picture: |`, one line of letters for each line of beads";
    let drawn = check.need(&part.picture, node, "picture", hint).is_some();
    let Some(drop) = drop.filter(|_| drawn) else { return (None, None) };
    let Some(lines) = picture::lines(check, node, "picture") else { return (None, None) };
    if lines.len() > MOST_ROWS * drop {
        let span = lines[MOST_ROWS * drop].span.clone();
        check.error(
            span,
            format!("the body has more than {} rows", thousands(MOST_ROWS)),
            "draw a smaller body",
        );
        return (None, None);
    }
    let read: Vec<Option<RowLine>> = lines.iter().map(|line| reader.row_line(check, line)).collect();
    let width = read.last().and_then(|l| l.as_ref()).map(|l| l.letters.len());
    if lines.len() % drop != 0 {
        let last = &lines[lines.len() - 1];
        check.error(
            last.span.clone(),
            format!(
                "the picture has {}, which do not make whole rows of {drop}",
                number_of(lines.len(), "line")
            ),
            format!(
                "with `drop: {drop}` every row is {drop} lines: add the missing line or remove one too many"
            ),
        );
        return (None, width);
    }
    let width = width.filter(|w| *w <= MOST_STACKS);
    let rows: Option<Vec<Row>> = read.chunks(drop).map(|group| row(check, group)).collect();
    let Some(mut rows) = rows else { return (None, width) };
    rows.reverse();
    if !shape(check, &mut rows) {
        return (None, width);
    }
    let above = rows.len();
    (stitch.map(|stitch| Body { stitch, drop, rows, above }), width)
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

/// Whether the rows, foundation first, can be worked: each one stack narrower than the one below and
/// half a stack in. Sets their leads from the left edge of the picture.
fn shape(check: &mut Check<'_>, rows: &mut [Row]) -> bool {
    let mut good = true;
    let foundation = rows[0].stacks.len();
    if foundation < 2 {
        check.error(
            rows[0].place.span.clone(),
            "the foundation row has only 1 stack",
            "a ladder needs at least 2 stacks side by side",
        );
        good = false;
    }
    if rows.len() < 2 {
        check.error(
            rows[0].place.span.clone(),
            "the body has only its foundation row",
            "draw at least one row above it, one stack narrower",
        );
        good = false;
    }
    let dotted = rows.iter().any(|r| r.lead > 0);
    for i in 1..rows.len() {
        let (below, above) = (&rows[i - 1], &rows[i]);
        let (under, over) = (below.stacks.len(), above.stacks.len());
        let span = above.place.span.clone();
        if over + 1 != under {
            let message = format!("this row has {} over a row of {under}", number_of(over, "stack"));
            let hint = if under == 1 {
                "nothing can stand on a row of 1 stack: let that be the top row".to_owned()
            } else {
                format!("each row is one stack narrower than the row below it, so it must have {}", under - 1)
            };
            check.error(span, message, hint);
            good = false;
        } else if dotted && above.lead != below.lead + 1 {
            check.error(
                span,
                format!(
                    "this row begins with {} over a row that begins with {}",
                    number_of(above.lead, "dot"),
                    below.lead
                ),
                format!(
                    "each row lies half a stack further in than the row below it, so it must begin with {}",
                    number_of(below.lead + 1, "dot")
                ),
            );
            good = false;
        }
    }
    let edge = rows[0].lead;
    for row in rows.iter_mut() {
        row.lead =
            if dotted { row.lead.saturating_sub(edge) } else { foundation.saturating_sub(row.stacks.len()) };
    }
    good
}
