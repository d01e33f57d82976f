//! How an earring hangs: a thread guard, or a loop of beads.

use super::files::LoopKeys;
use super::model::Hang;
use super::picture::LetterReader;
use super::runs;
use super::yaml::{Check, Field, Kind, Node, TextOr};
use crate::diagnostic::{did_you_mean, number_of, shown};

/// Fewest beads that make a loop an ear wire goes through (common practice, no source).
const SHORTEST_LOOP: usize = 3;

/// Checks how it hangs, and from which stacks of a top row of `top`, if it says that.
pub(super) fn check(
    check: &mut Check<'_>,
    part: &TextOr<LoopKeys>,
    node: &Node,
    key: &Node,
    reader: &mut LetterReader<'_>,
    top: Option<usize>,
) -> Option<(Hang, Option<[usize; 2]>)> {
    const WAYS: [&str; 2] = ["thread guard", "loop"];
    match part {
        TextOr::Text(word) if word.0.trim() == "thread guard" => Some((Hang::ThreadGuard, None)),
        TextOr::Text(word) => {
            let hint = if word.0.trim() == "loop" {
                "give the loop's beads, as in `hang: {loop: 8A}`".to_owned()
            } else {
                did_you_mean(
                    word.0.trim(),
                    &WAYS,
                    "it hangs by `thread guard`, or by `{loop: 8A}`; the words are",
                )
            };
            check.error(
                node.span.clone(),
                format!("`{}` is no way to hang an earring here", shown(word.0.trim())),
                hint,
            );
            None
        }
        TextOr::Keys(keys) => {
            let here = Node { span: key.span.clone(), kind: node.kind.clone() };
            if !matches!(node.kind, Kind::Mapping(_)) {
                check.error(node.span.clone(), "`hang` must be `thread guard`, or `{loop: 8A}`", "");
                return None;
            }
            check.keys::<LoopKeys>(&here);
            let at = match check.take(&keys.at, &here, "at") {
                Some(at) => Some(stacks(check, &at.0, node.get("at"), top)?),
                None => None,
            };
            if let (Field::Missing, Some((guard, _))) = (&keys.beads, node.entry("thread guard")) {
                // Its place may stand behind the guard itself: `{thread guard: 2-4}`.
                let place = check.take(&keys.guard, &here, "thread guard")?;
                let place = stacks(check, &place.0, node.get("thread guard"), top)?;
                if at.is_some() {
                    check.error(
                        guard.span.clone(),
                        "the guard's place stands here twice",
                        "keep one of the two",
                    );
                    return None;
                }
                return Some((Hang::ThreadGuard, Some(place)));
            }
            check.need(&keys.beads, &here, "loop", "give the loop's beads, as in `{loop: 8A}`")?;
            let beads = runs::read(check, reader, node.get("loop"))?;
            if beads.len() < SHORTEST_LOOP {
                check.error(
                    node.get("loop").span.clone(),
                    format!("a loop of {} does not open for an ear wire", number_of(beads.len(), "bead")),
                    format!("give it at least {SHORTEST_LOOP}"),
                );
                return None;
            }
            Some((Hang::Loop(beads), at))
        }
    }
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
