//! Where a fringe hangs: along the foundation, the lowest row, or the stepped lower edge of the body.

use super::bounds::MOST_STRANDS;
use super::files::FringePart;
use super::measure::Whole;
use super::model::{Body, StackPlace};
use super::yaml::{Check, Field, Node};
use crate::diagnostic::{did_you_mean, number_of, shown};
use std::collections::BTreeSet;

/// What a fringe hangs along.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Along {
    Foundation,
    LowestRow,
    Edge,
}

impl Along {
    const NAMES: [(&'static str, Along); 3] =
        [("foundation", Along::Foundation), ("lowest row", Along::LowestRow), ("edge", Along::Edge)];

    /// Its name with its article.
    pub fn name(self) -> &'static str {
        match self {
            Along::Foundation => "the foundation",
            Along::LowestRow => "the lowest row",
            Along::Edge => "the edge",
        }
    }
}

/// What a fringe hangs along: what it says, or the edge where there are rows below the foundation, else the
/// foundation; `None` (with a problem) when that cannot be told.
pub(super) fn along(check: &mut Check<'_>, part: &FringePart, node: &Node, body: &Body) -> Option<Along> {
    let default = if body.above < body.rows.len() { Along::Edge } else { Along::Foundation };
    let Some(text) = check.take(&part.along, node, "along") else {
        return matches!(part.along, Field::Missing).then_some(default);
    };
    let text = text.0.trim().to_lowercase();
    let found = Along::NAMES.iter().find(|(name, _)| *name == text).map(|(_, along)| *along);
    if found.is_none() {
        let names = Along::NAMES.map(|(name, _)| name);
        let message = format!("a fringe cannot hang along `{}`", shown(&text));
        let hint = did_you_mean(&text, &names, "it hangs along");
        check.error(node.get("along").span.clone(), message, hint);
    }
    found
}

/// The stacks that the strands hang on, from left to right: those along which the fringe hangs, of them `from`–`to`,
/// of these one in `every`, with `each` so many strands.
pub(super) fn places(
    check: &mut Check<'_>,
    part: &FringePart,
    node: &Node,
    body: &Body,
    along: Along,
) -> Option<Vec<StackPlace>> {
    let row =
        |row: usize| (0..body.rows[row].stacks.len()).map(move |stack| StackPlace { row, stack }).collect();
    let all: Vec<StackPlace> = match along {
        Along::Foundation => row(0),
        Along::LowestRow if body.above < body.rows.len() => row(body.rows.len() - 1),
        Along::LowestRow => row(0),
        Along::Edge => edge(body),
    };
    let mut number = |field: &Field<Whole>, key| check.take(field, node, key).map(|whole| whole.0 as usize);
    let from = number(&part.from, "from").unwrap_or(1);
    let to = number(&part.to, "to").unwrap_or(all.len());
    let every = number(&part.every, "every").unwrap_or(1);
    let each = number(&part.each, "each").unwrap_or(1);
    if from > to || to > all.len() {
        let key = if part.to == Field::Missing { "from" } else { "to" };
        let stacks = number_of(all.len(), "stack");
        check.error(
            node.get(key).span.clone(),
            format!("the stretch from {from} to {to} is none of {}, which has {stacks}", along.name()),
            format!("`from` and `to` count its stacks from the left, from 1 to {}", all.len()),
        );
        return None;
    }
    if each > MOST_EACH {
        let hint = format!("`each` hangs up to {MOST_EACH} strands on every stack");
        check.error(node.get("each").span.clone(), format!("{each} strands cannot hang on one stack"), hint);
        return None;
    }
    let chosen = all[from - 1..to].iter().step_by(every);
    let places: Vec<StackPlace> = chosen.flat_map(|place| std::iter::repeat_n(*place, each)).collect();
    if places.len() > MOST_STRANDS {
        let message =
            format!("the fringe has {}, and can have {MOST_STRANDS}", number_of(places.len(), "strand"));
        check.error(node.span.clone(), message, "hang it along a shorter stretch");
        return None;
    }
    Some(places)
}

/// Most strands on one stack: more do not fit a hole (our choice).
const MOST_EACH: usize = 3;

/// Every stack whose lower end is free by half or all, from left to right; of two above each other the lower first.
fn edge(body: &Body) -> Vec<StackPlace> {
    let below = body.rows.len() - body.above;
    let line = |row: usize| if row < body.above { below + row } else { body.rows.len() - 1 - row };
    let column = |place: &StackPlace| body.rows[place.row].lead + 2 * place.stack;
    let all: Vec<StackPlace> = (0..body.rows.len())
        .flat_map(|row| (0..body.rows[row].stacks.len()).map(move |stack| StackPlace { row, stack }))
        .collect();
    let taken: BTreeSet<(usize, usize)> = all.iter().map(|place| (line(place.row), column(place))).collect();
    let is_free = |place: &&StackPlace| {
        let Some(under) = line(place.row).checked_sub(1) else { return true };
        let column = column(place);
        let there = |column: Option<usize>| column.is_some_and(|column| taken.contains(&(under, column)));
        !(there(column.checked_sub(1)) && there(Some(column + 1)))
    };
    let mut edge: Vec<StackPlace> = all.iter().filter(is_free).copied().collect();
    edge.sort_by_key(|place| (column(place), line(place.row)));
    edge
}
