//! Advice of one kind that would bury all else, told together.

/// So many of one kind are told one by one; more are told together.
pub(super) const TOLD_APART: usize = 5;
/// Most that are named where they are told together.
const NAMED: usize = 12;

/// Names as far as they can be taken in: `A, B, C and 40 more`.
pub(super) fn list(names: impl Iterator<Item = String>) -> String {
    let mut names: Vec<String> = names.collect();
    let more = names.len().saturating_sub(NAMED);
    if more > 0 {
        names.truncate(NAMED);
        names.push(format!("{more} more"));
    }
    crate::diagnostic::list(&names)
}
