//! The shape of a body: which rows brick stitch can work on which.
//!
//! A row lies an odd number of half stacks aside from the row that it hangs on, at both ends; at least one of its
//! stacks lies over a thread bridge of that row, which two neighbouring stacks make between them.

use super::model::Row;
use super::yaml::Check;
use crate::diagnostic::number_of;

/// Whether the rows can be worked: the foundation first, those above it, of which with it there are `above`, then
/// those below it. Sets their leads from the left edge of the body.
pub(super) fn check(check: &mut Check<'_>, rows: &mut [Row], above: usize) -> bool {
    if rows[0].stacks.len() < 2 {
        check.error(
            rows[0].place.span.clone(),
            "the foundation row has only 1 stack",
            "a ladder needs at least 2 stacks side by side",
        );
    }
    let drawn = leads(rows);
    let mut good = rows[0].stacks.len() >= 2;
    for index in 1..rows.len() {
        let on = if index == above { 0 } else { index - 1 };
        let turned = index >= above;
        good &= lies_well(check, rows, &drawn, (index, on), turned);
    }
    let least = drawn.leads.iter().min().copied().unwrap_or(0);
    for (row, lead) in rows.iter_mut().zip(drawn.leads) {
        row.lead = usize::try_from(lead - least).unwrap_or(0);
    }
    good
}

/// Where rows begin, in half stacks.
struct Leads {
    leads: Vec<i64>,
    /// Whether they are drawn, with dots; else rows are centred on the foundation.
    dotted: bool,
}

fn leads(rows: &[Row]) -> Leads {
    let dotted = rows.iter().any(|row| row.lead > 0);
    let width = |row: &Row| row.stacks.len() as i64;
    let lead = |row: &Row| if dotted { row.lead as i64 } else { width(&rows[0]) - width(row) };
    Leads { leads: rows.iter().map(lead).collect(), dotted }
}

/// Whether a row can be worked on the row that it hangs on.
fn lies_well(
    check: &mut Check<'_>,
    rows: &[Row],
    drawn: &Leads,
    (index, on): (usize, usize),
    turned: bool,
) -> bool {
    let (row, under) = (&rows[index], &rows[on]);
    let (lead, beside) = (drawn.leads[index], drawn.leads[on]);
    let (stacks, wide) = (row.stacks.len() as i64, under.stacks.len() as i64);
    let (over, neighbour) = if turned { ("under", "above") } else { ("over", "below") };
    let span = row.place.span.clone();
    if wide == 1 {
        // Told of the foundation already.
        if on > 0 {
            check.error(
                span,
                format!("this row has {} {over} a row of 1", number_of(row.stacks.len(), "stack")),
                format!(
                    "nothing can hang on a row of 1 stack, which has no thread bridge: let that be the {} row",
                    if turned { "lowest" } else { "top" }
                ),
            );
        }
        return false;
    }
    let aside = lead - beside;
    if aside % 2 == 0 {
        let (message, hint) = if drawn.dotted {
            let dots = |lead: i64| number_of(usize::try_from(lead).unwrap_or(0), "dot");
            let nearest = if beside > 0 {
                format!(
                    "{} for half a stack out or {} for half a stack in",
                    dots(beside - 1),
                    dots(beside + 1)
                )
            } else {
                format!("{} for half a stack in, or every other row with one more", dots(beside + 1))
            };
            (
                format!("this row begins with {} {over} a row that begins with {beside}", dots(lead)),
                format!(
                    "rows of brick stitch lie half a stack aside from each other: begin it with {nearest}"
                ),
            )
        } else {
            (
                format!("this row has {} {over} a row of {wide}", number_of(row.stacks.len(), "stack")),
                format!(
                    "without dots rows are centred, so it must be one stack narrower or wider than the row {neighbour} \
                     it ({} or {}); to let it lean to one side, put dots before the rows, one for each half stack",
                    wide - 1,
                    wide + 1
                ),
            )
        };
        check.error(span, message, hint);
        return false;
    }
    // Bridges lie between the middles of that row's outer stacks.
    let first_over = lead <= beside + 2 * wide - 3;
    let last_over = lead + 2 * (stacks - 1) > beside;
    if !(first_over && last_over) {
        check.error(
            span,
            format!("this row floats: none of its stacks lies {over} a thread bridge of the row {neighbour} it"),
            format!("a stack hangs between two neighbouring stacks of the row {neighbour} it: move the row inwards"),
        );
        return false;
    }
    true
}
