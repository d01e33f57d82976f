//! How an earring hangs: a thread guard, or a loop of beads.

use super::files::LoopKeys;
use super::model::Hang;
use super::picture::LetterReader;
use super::runs;
use super::yaml::{Check, Kind, Node, TextOr};
use crate::diagnostic::{did_you_mean, number_of, shown};

/// Fewest beads that make a loop an ear wire goes through (common practice, no source).
const SHORTEST_LOOP: usize = 3;

/// Checks how it hangs.
pub(super) fn check(
    check: &mut Check<'_>,
    part: &TextOr<LoopKeys>,
    node: &Node,
    key: &Node,
    reader: &mut LetterReader<'_>,
) -> Option<Hang> {
    const WAYS: [&str; 2] = ["thread guard", "loop"];
    match part {
        TextOr::Text(word) if word.0.trim() == "thread guard" => Some(Hang::ThreadGuard),
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
            Some(Hang::Loop(beads))
        }
    }
}
