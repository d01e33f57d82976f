//! The tools of a palette.

use super::bounds::text;
use super::files::ToolsField;
use super::model::{Tool, Tools};
use super::yaml::{Check, Node};
use crate::diagnostic::{did_you_mean, shown};

/// The tools that steps use, by their words in a palette.
const TOOLS: [(&str, Tool); 5] = [
    ("needle", Tool::Needle),
    ("scissors", Tool::Scissors),
    ("pliers", Tool::Pliers),
    ("mat", Tool::Mat),
    ("ruler", Tool::Ruler),
];

/// Checks `tools`.
pub(super) fn check(check: &mut Check<'_>, tools: &ToolsField, node: &Node) -> Tools {
    let entries = match tools {
        ToolsField::Listed(list) => return Tools::Listed(check.phrases(list, node, "a tool", text::NAME)),
        ToolsField::ByUse(entries) => entries,
    };
    let mut tools = Vec::new();
    for ((word, field), (key, value)) in entries.0.iter().zip(node.entries()) {
        let Some((_, tool)) = TOOLS.iter().find(|(known, _)| known == word) else {
            let words = TOOLS.map(|(word, _)| word);
            let hint = did_you_mean(word, &words, "they use");
            check.error(key.span.clone(), format!("steps use no tool `{}`", shown(word)), hint);
            continue;
        };
        let what = format!("the name of the tool `{word}`");
        let at = if value.span.is_empty() { key } else { value };
        let Some(given) = check.item(field, &at.span, &what) else { continue };
        let Some(name) = check.one_or_each(given, value, &what, text::NAME) else { continue };
        if name.is_empty() {
            check.error(at.span.clone(), format!("{what} is empty"), "write it, or remove the line");
        }
        tools.push((*tool, name));
    }
    Tools::ByUse(tools)
}
