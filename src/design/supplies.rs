//! What a design takes from its palette beside beads: threads and findings.

use super::bounds::text;
use super::files::{DesignFile, ThreadsPart};
use super::model::{Finding, Hang, Hanging, Thread};
use super::palette::PaletteRead;
use super::yaml::{Check, Field, Node, Text};
use crate::diagnostic::{Problem, did_you_mean, shown};

/// The threads of body and fringe: those the design names, or those of these names.
pub(super) fn threads(
    check: &mut Check<'_>,
    file: &DesignFile,
    root: &Node,
    read: &PaletteRead,
) -> (Option<Thread>, Option<Thread>) {
    let node = root.named("threads");
    let part = check.take(&file.threads, root, "threads");
    if part.is_some() {
        check.keys::<ThreadsPart>(&node);
    }
    let mut thread = |use_: &str, field: Option<&Field<Text>>| {
        let given = field.and_then(|f| check.take(f, &node, use_)).map(|t| t.0.trim().to_owned());
        let key = given.clone().unwrap_or_else(|| use_.to_owned());
        let found = read.palette.threads.iter().find(|t| t.key == key);
        if found.is_none() && !read.unreadable && !read.threads_broken.contains(&key) {
            let names: Vec<&str> = read.palette.threads.iter().map(|t| t.key.as_str()).collect();
            let message = format!("the palette has no thread `{}`", shown(&key));
            let hint = did_you_mean(&key, &names, "its threads are");
            if given.is_some() {
                check.error(node.get(use_).span.clone(), message, hint);
            } else {
                let hint = if names.is_empty() {
                    "list it under `threads:` in the palette".to_owned()
                } else {
                    format!("add it, or name one in the design with `threads: {{{use_}: {}}}`", names[0])
                };
                check.note(Problem::error(message).at(read.threads_at.clone()).hint(hint));
            }
        }
        found.cloned()
    };
    (thread("body", part.map(|p| &p.body)), thread("fringe", part.map(|p| &p.fringe)))
}

/// The finding that an earring hangs by where none with holes is listed.
const GUARD: &str = "thread guard";

/// The findings an earring takes: those the design lists, or the ear wire; and if it hangs by one, the thread guard,
/// unless one with holes is listed.
pub(super) fn findings(
    check: &mut Check<'_>,
    file: &DesignFile,
    root: &Node,
    hangings: &[Hanging],
    read: &PaletteRead,
) -> Option<Vec<Finding>> {
    let guards = hangings.iter().filter(|hanging| hanging.by == Hang::ThreadGuard).count() as u32;
    let in_palette = |key: &str| {
        let mut finding = read.palette.findings.iter().find(|f| f.key == key).cloned()?;
        // The palette says how many guards one hanging takes.
        if finding.holes.is_some() {
            finding.per_earring = finding.per_earring.saturating_mul(guards.max(1));
        }
        Some(finding)
    };
    let listed = check.take(&file.findings, root, "findings");
    let known = |key: &str| read.unreadable || read.findings_broken.iter().any(|b| b == key);
    let needed = |check: &mut Check<'_>, key: &str| -> Option<Finding> {
        let finding = in_palette(key);
        if finding.is_none() && !known(key) {
            check.note(
                Problem::error(format!("the palette has no finding `{key}`"))
                    .at(read.findings_at.clone())
                    .hint("add it under `findings:` in the palette, or list what this design takes under its own `findings:`"),
            );
        }
        finding
    };
    let Some(listed) = listed else {
        let wanted: &[&str] = if guards > 0 { &[GUARD, "ear wire"] } else { &["ear wire"] };
        return Some(wanted.iter().filter_map(|key| needed(check, key)).collect());
    };
    let node = root.get("findings");
    let (mut findings, mut listed_broken) = (Vec::new(), false);
    for (key, span) in check.texts(listed, node, "a finding", text::NAME) {
        match in_palette(&key) {
            Some(finding) => findings.push(finding),
            None if known(&key) => listed_broken = true,
            None => {
                listed_broken = true;
                let names: Vec<&str> = read.palette.findings.iter().map(|f| f.key.as_str()).collect();
                check.error(
                    span,
                    format!("the palette has no finding `{}`", shown(&key)),
                    did_you_mean(&key, &names, "its findings are"),
                );
            }
        }
    }
    // What it hangs by is needed, whatever else is listed.
    let guarded = |finding: &Finding| finding.holes.is_some() || finding.key == GUARD;
    if guards > 0 && !findings.iter().any(guarded) && !listed_broken {
        findings.splice(0..0, needed(check, GUARD));
    }
    Some(findings)
}
