//! The fringe: runs or a picture to strands.

use super::along::{self, Along};
use super::bounds::{MOST_BEADS_OF_STRAND, MOST_STRANDS};
use super::files::{FringePart, StrandKeys};
use super::model::{Body, Fringe, LetterId, StackPlace, Strand};
use super::picture::{self, LetterReader};
use super::runs;
use super::yaml::{Check, Field, Node, TextOr};
use crate::diagnostic::{number_of, thousands};
use std::ops::Range;

/// A strand as written, before it is checked against the turn.
struct Written {
    beads: Option<Vec<LetterId>>,
    turn: usize,
    span: Range<usize>,
}

/// Checks the fringe against what it hangs on, as far as that is known: the body, or at least how wide its foundation
/// is drawn.
pub(super) fn check(
    check: &mut Check<'_>,
    part: &FringePart,
    node: &Node,
    reader: &mut LetterReader<'_>,
    body: Option<&Body>,
    width: Option<usize>,
) -> Option<Fringe> {
    check.keys::<FringePart>(node);
    let along = body.and_then(|body| along::along(check, part, node, body));
    let places = body.zip(along).and_then(|(body, along)| along::places(check, part, node, body, along));
    let mirrored = check.take(&part.mirror, node, "mirror").is_some_and(|m| m.0);
    let turn = check.take(&part.turn, node, "turn").map_or(1, |n| n.0 as usize);
    let written = match (&part.strands, &part.picture) {
        (Field::Missing, Field::Missing) => {
            check.error(
                node.span.clone(),
                "the fringe has no strands",
                "list them under `strands:`, or draw them under `picture: |`",
            );
            None
        }
        (strands, Field::Missing) => {
            let strands = check.take(strands, node, "strands")?;
            listed(check, &strands.0, node.get("strands"), reader, turn)
        }
        (Field::Missing, drawing) => {
            check.take(drawing, node, "picture")?;
            drawn(check, node, reader, turn)
        }
        (_, _) => {
            let span = node.entry("picture").map_or(node.span.clone(), |(key, _)| key.span.clone());
            check.error(span, "the fringe has both `strands` and `picture`", "keep one of the two");
            None
        }
    }?;
    let whole = strands(check, &written);
    let span = node
        .entry("strands")
        .or(node.entry("picture"))
        .map_or(node.span.clone(), |(key, _)| key.span.clone());
    // Whether half or all of it is written cannot be told.
    let can_be_told = !matches!(part.mirror, Field::Wrong(_) | Field::Empty);
    // Without a body only a fringe along the whole foundation can be counted.
    let whole_foundation = part.along == Field::Missing
        && [&part.from, &part.to, &part.every, &part.each].into_iter().all(|field| *field == Field::Missing);
    let known =
        if body.is_some() { places.as_ref().map(Vec::len) } else { width.filter(|_| whole_foundation) };
    let told = along.unwrap_or(Along::Foundation);
    if !matches_places(check, (written.len(), mirrored), known.filter(|_| can_be_told), told, span) {
        return None;
    }
    let mut all = whole?;
    let places = places?;
    if mirrored {
        let other_half = places.len().saturating_sub(all.len());
        all.extend_from_within(..other_half);
        all[written.len()..].reverse();
    }
    let hung =
        all.into_iter().zip(places).filter_map(|(strand, hangs_on)| Some(Strand { hangs_on, ..strand? }));
    Some(Fringe { strands: hung.collect(), mirrored })
}

/// Strands written as runs.
fn listed(
    check: &mut Check<'_>,
    strands: &[Field<TextOr<StrandKeys>>],
    node: &Node,
    reader: &mut LetterReader<'_>,
    turn: usize,
) -> Option<Vec<Written>> {
    if strands.is_empty() {
        check.error(
            node.span.clone(),
            "the fringe has no strands",
            "write one line for each strand, as in `- 8A 2B 1D`",
        );
        return None;
    }
    if let Some(item) = node.items().get(MOST_STRANDS) {
        check.error(
            item.span.clone(),
            format!("the fringe has more than {MOST_STRANDS} strands"),
            "draw a narrower earring",
        );
        return None;
    }
    let mut written = Vec::new();
    for (i, (field, item)) in strands.iter().zip(node.items()).enumerate() {
        let name = format!("strand {}", i + 1);
        let span = if item.span.is_empty() { &node.span } else { &item.span };
        let (beads, turn) = match check.item(field, span, &name) {
            Some(TextOr::Text(text)) if is_none(&text.0) => (Some(Vec::new()), turn),
            Some(TextOr::Text(_)) => (runs::read(check, reader, item), turn),
            Some(TextOr::Keys(keys)) => {
                check.keys::<StrandKeys>(item);
                let own = check.take(&keys.turn, item, "turn").map(|n| n.0 as usize);
                let given = check
                    .need(&keys.beads, item, "beads", "write the strand as `{beads: 8A 2B 3D, turn: 3}`")
                    .is_some();
                let beads = if given { runs::read(check, reader, item.get("beads")) } else { None };
                (beads, own.unwrap_or(turn))
            }
            None => (None, turn),
        };
        written.push(Written { beads, turn, span: span.clone() });
    }
    Some(written)
}

/// Strands drawn as a picture: one column a strand, a dot for no bead.
fn drawn(
    check: &mut Check<'_>,
    node: &Node,
    reader: &mut LetterReader<'_>,
    turn: usize,
) -> Option<Vec<Written>> {
    let lines = picture::lines(check, node, "picture")?;
    if let Some(line) = lines.get(MOST_BEADS_OF_STRAND) {
        check.error(
            line.span.clone(),
            format!("the strands have more than {} beads", thousands(MOST_BEADS_OF_STRAND)),
            "draw a shorter fringe",
        );
        return None;
    }
    let mut drawn = Drawn { turn, strands: Vec::new(), ended: Vec::new(), readable: true };
    for (depth, line) in lines.iter().enumerate() {
        for (column, (i, c)) in line.text.char_indices().enumerate() {
            let at = line.span.start + i;
            let span = at..at + c.len_utf8();
            let strand = column / 2;
            let placed = if column % 2 == 1 {
                between(c)
            } else {
                let begun = if strand < drawn.strands.len() { Ok(()) } else { drawn.begin(depth, &span) };
                begun.and_then(|()| drawn.hang(strand, c, || reader.letter(check, c, span.clone())))
            };
            if let Err((message, hint)) = placed {
                check.error(span, message, hint);
                return None;
            }
        }
    }
    if !drawn.readable {
        drawn.strands.iter_mut().for_each(|s| s.beads = None);
    }
    Some(drawn.strands)
}

/// What is wrong in a picture of strands, and what to do.
type Misdrawn = (String, &'static str);

/// Strands as far as their picture is read.
struct Drawn {
    turn: usize,
    strands: Vec<Written>,
    /// Which strands have come to an end.
    ended: Vec<bool>,
    /// Whether every letter so far is known.
    readable: bool,
}

impl Drawn {
    /// Begins a strand, which only the first line can.
    fn begin(&mut self, depth: usize, span: &Range<usize>) -> Result<(), Misdrawn> {
        if depth > 0 {
            let hint = "give every line as many columns as the first, with a dot where a strand has no bead";
            return Err(("this line reaches past the last strand of the first line".into(), hint));
        }
        if self.strands.len() == MOST_STRANDS {
            let message = format!("the fringe has more than {MOST_STRANDS} strands");
            return Err((message, "draw a narrower earring"));
        }
        self.strands.push(Written { beads: Some(Vec::new()), turn: self.turn, span: span.clone() });
        self.ended.push(false);
        Ok(())
    }

    /// Hangs a bead on a strand, or ends it with a dot.
    fn hang(
        &mut self,
        strand: usize,
        c: char,
        letter: impl FnOnce() -> Option<LetterId>,
    ) -> Result<(), Misdrawn> {
        match c {
            '.' => self.ended[strand] = true,
            ' ' | '\t' => {
                let hint = "write a dot where a strand has no bead";
                return Err(("there is a gap in this line of the fringe".into(), hint));
            }
            _ if self.ended[strand] => {
                let message = format!("strand {} has a bead below a place without one", strand + 1);
                return Err((message, "a strand hangs without gaps: move the dots to its lower end"));
            }
            _ => match (letter(), &mut self.strands[strand].beads) {
                (Some(letter), Some(beads)) => beads.push(letter),
                _ => self.readable = false,
            },
        }
        Ok(())
    }
}

/// Nothing stands between two strands.
fn between(c: char) -> Result<(), Misdrawn> {
    if c == ' ' {
        return Ok(());
    }
    let message = "the strands of this picture do not stand two columns apart".into();
    Err((message, "put one space between two strands, as in `A . B`"))
}

/// Whether a strand is written to be none.
fn is_none(text: &str) -> bool {
    text.trim().eq_ignore_ascii_case("none")
}

/// Checks every strand against its turn; `None` in the list where a stack is to have no strand.
fn strands(check: &mut Check<'_>, written: &[Written]) -> Option<Vec<Option<Strand>>> {
    let mut strands = Some(Vec::with_capacity(written.len()));
    for (i, strand) in written.iter().enumerate() {
        let Some(beads) = &strand.beads else {
            strands = None;
            continue;
        };
        if beads.is_empty() {
            if let Some(all) = &mut strands {
                all.push(None);
            }
        } else if beads.len() <= strand.turn {
            let what = if strand.turn == 1 {
                "the turning bead".to_owned()
            } else {
                format!("a picot of {}", strand.turn)
            };
            check.error(
                strand.span.clone(),
                format!("strand {} has {}, too few for {what}", i + 1, number_of(beads.len(), "bead")),
                format!("give it at least {}", number_of(strand.turn + 1, "bead")),
            );
            strands = None;
        } else if let Some(all) = &mut strands {
            all.push(Some(Strand {
                beads: beads.clone(),
                turn: strand.turn,
                hangs_on: StackPlace { row: 0, stack: i },
                place: check.place(strand.span.clone()),
            }));
        }
    }
    strands
}

fn matches_places(
    check: &mut Check<'_>,
    (written, mirrored): (usize, bool),
    places: Option<usize>,
    along: Along,
    span: Range<usize>,
) -> bool {
    let Some(places) = places else { return false };
    let wanted = if mirrored { places.div_ceil(2) } else { places };
    if written == wanted {
        return true;
    }
    let (message, hint) = match (along, mirrored) {
        (Along::Foundation, true) => (
            format!(
                "{} written for half a mirrored fringe; a foundation of {places} needs {wanted}",
                strands_are(written)
            ),
            if places % 2 == 1 { "write the left half and the middle strand" } else { "write the left half" },
        ),
        (Along::Foundation, false) => (
            format!("{} written; the foundation has {}", strands_are(written), number_of(places, "stack")),
            "write one strand for each stack of the foundation",
        ),
        (_, true) => (
            format!(
                "{} written for half a mirrored fringe; {} takes {}, so half of it needs {wanted}",
                strands_are(written),
                along.name(),
                number_of(places, "strand"),
            ),
            if places % 2 == 1 { "write the left half and the middle strand" } else { "write the left half" },
        ),
        (_, false) => (
            format!(
                "{} written; {} takes {}",
                strands_are(written),
                along.name(),
                number_of(places, "strand")
            ),
            "write one strand for each stack that it hangs on, from left to right, and `none` where none is to hang",
        ),
    };
    check.error(span, message, hint);
    false
}

fn strands_are(count: usize) -> String {
    format!("{} {}", number_of(count, "strand"), if count == 1 { "is" } else { "are" })
}
