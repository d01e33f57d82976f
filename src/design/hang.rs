//! How an earring hangs: from a thread guard or a loop of beads, a wide one from several.

use super::files::LoopKeys;
use super::model::{Hang, Hanging};
use super::picture::LetterReader;
use super::runs;
use super::yaml::{Check, Field, Kind, Node, PartOrMore, TextOr};
use crate::diagnostic::{did_you_mean, number_of, shown};
use std::ops::Range;

/// Fewest beads that make a loop an ear wire goes through (common practice, no source).
const SHORTEST_LOOP: usize = 3;

/// Checks what it hangs from, and from which stacks of a top row of `top`, where it says that: one guard or loop, or
/// several from left to right, in whatever order the file lists them.
pub(super) fn check(
    check: &mut Check<'_>,
    part: &PartOrMore<LoopKeys>,
    node: &Node,
    key: &Node,
    reader: &mut LetterReader<'_>,
    top: Option<usize>,
) -> Option<Vec<Hanging>> {
    if !matches!(node.kind, Kind::List(_)) {
        let here = Node { span: key.span.clone(), kind: node.kind.clone() };
        let Some(Field::Given(only)) = part.0.first() else { return None };
        return one(check, only, node, &here, reader, top).map(|hanging| vec![hanging]);
    }
    if part.0.is_empty() {
        check.error(node.span.clone(), "the earring hangs from nothing", "write `hang: thread guard`");
        return None;
    }
    let mut given = Vec::new();
    let mut read = true;
    for (i, (field, item)) in part.0.iter().zip(node.items()).enumerate() {
        let span = if item.span.is_empty() { &node.span } else { &item.span };
        let hanging = check
            .item(field, span, &format!("hanging {}", i + 1))
            .and_then(|part| one(check, part, item, item, reader, top));
        read &= hanging.is_some();
        given.extend(hanging.map(|hanging| (hanging, span.clone())));
    }
    (read && apart(check, &given)).then(|| in_order(given))
}

/// Whether each of several hangings has a place of its own.
fn apart(check: &mut Check<'_>, given: &[(Hanging, Range<usize>)]) -> bool {
    if given.len() < 2 {
        return true;
    }
    let mut taken: Vec<[usize; 2]> = Vec::new();
    for (hanging, span) in given {
        let Some([left, right]) = hanging.on else {
            let hint = "say which stacks carry each, counted from the left, as in `{thread guard: 2-4}`";
            check.error(span.clone(), "of several hangings each needs its place", hint);
            return false;
        };
        if let Some([from, to]) = taken.iter().find(|[from, to]| left <= *to && *from <= right) {
            let message = format!("stacks {left} and {right} are not clear of {from} and {to}");
            check.error(span.clone(), message, "two hangings need stacks of their own, side by side");
            return false;
        }
        taken.push([left, right]);
    }
    true
}

fn in_order(mut given: Vec<(Hanging, Range<usize>)>) -> Vec<Hanging> {
    given.sort_by_key(|(hanging, _)| hanging.on);
    given.into_iter().map(|(hanging, _)| hanging).collect()
}

/// One hanging, with the node of its value and the node by which to tell what is missing in it.
fn one(
    check: &mut Check<'_>,
    part: &TextOr<LoopKeys>,
    node: &Node,
    here: &Node,
    reader: &mut LetterReader<'_>,
    top: Option<usize>,
) -> Option<Hanging> {
    match part {
        TextOr::Text(word) if word.0.trim() == "thread guard" => Some(Hanging::guard()),
        TextOr::Text(word) => {
            unknown(check, word.0.trim(), node);
            None
        }
        TextOr::Keys(keys) => {
            if !matches!(node.kind, Kind::Mapping(_)) {
                check.error(node.span.clone(), "`hang` must be `thread guard`, or `{loop: 8A}`", "");
                return None;
            }
            check.keys::<LoopKeys>(here);
            let on = match check.take(&keys.at, here, "at") {
                Some(at) => Some(stacks(check, &at.0, node.get("at"), top)?),
                None => None,
            };
            if let (Field::Missing, Some((guard, _))) = (&keys.beads, node.entry("thread guard")) {
                // Its place may stand behind the guard itself: `{thread guard: 2-4}`.
                let place = check.take(&keys.guard, here, "thread guard")?;
                let place = stacks(check, &place.0, node.get("thread guard"), top)?;
                if on.is_some() {
                    let message = "the guard's place stands here twice";
                    check.error(guard.span.clone(), message, "keep one of the two");
                    return None;
                }
                return Some(Hanging { by: Hang::ThreadGuard, on: Some(place) });
            }
            check.need(&keys.beads, here, "loop", "give the loop's beads, as in `{loop: 8A}`")?;
            let beads = runs::read(check, reader, node.get("loop"))?;
            if beads.len() < SHORTEST_LOOP {
                check.error(
                    node.get("loop").span.clone(),
                    format!("a loop of {} does not open for an ear wire", number_of(beads.len(), "bead")),
                    format!("give it at least {SHORTEST_LOOP}"),
                );
                return None;
            }
            Some(Hanging { by: Hang::Loop(beads), on })
        }
    }
}

/// Tells a word that is no way to hang.
fn unknown(check: &mut Check<'_>, word: &str, node: &Node) {
    const WAYS: [&str; 2] = ["thread guard", "loop"];
    let hint = if word == "loop" {
        "give the loop's beads, as in `hang: {loop: 8A}`".to_owned()
    } else {
        did_you_mean(word, &WAYS, "it hangs by `thread guard`, or by `{loop: 8A}`; the words are")
    };
    check.error(node.span.clone(), format!("`{}` is no way to hang an earring here", shown(word)), hint);
}

/// The two stacks of the top row that it hangs from: `2-4`, counted from the left.
fn stacks(check: &mut Check<'_>, text: &str, node: &Node, top: Option<usize>) -> Option<[usize; 2]> {
    let numbers = text.split_once(['-', '–']).map(|(a, b)| (a.trim().parse(), b.trim().parse()));
    let span = node.span.clone();
    let Some((Ok(left), Ok(right))) = numbers else {
        let message = format!("`{}` names no two stacks of the top row", shown(text.trim()));
        check.error(span, message, "write the two that carry it, counted from the left, as in `2-4`");
        return None;
    };
    // Where the body is wrong, its top row is not known.
    if left == 0 || left >= right || top.is_some_and(|top| right > top) {
        let stacks = top.map_or("the left one first".to_owned(), |top| {
            format!("the top row has {}: the left one first, counted from the left", number_of(top, "stack"))
        });
        check.error(span, format!("the earring cannot hang from stacks {left} and {right}"), stacks);
        return None;
    }
    Some([left, right])
}
