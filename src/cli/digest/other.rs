//! Whether a booklet is of another design that only has the same file name.

use super::fields::of_design;
use super::parts::{DESIGN, part};
use crate::design::Design;
use std::collections::BTreeMap;

/// What a design is known by, each of which may change: but not all in one go, for then nothing of it is left.
const KNOWN_BY: [&str; 3] = ["title", "body", "fringe"];

/// Whether the booklet with these parts is of another design than this one. Designs of one file name may
/// stand in several folders; a folder is not recorded, so that a design may be moved.
pub(in crate::cli) fn is_of_another_design(made: &[(String, String)], design: &Design) -> bool {
    let Some(made) = part(made, DESIGN) else { return false };
    let now = of_design(design);
    let (made, now) = (fields(made), fields(&now));
    KNOWN_BY.iter().all(|field| made.get(field) != now.get(field))
}

/// The fields of a part.
pub(super) fn fields(value: &str) -> BTreeMap<&str, &str> {
    value.split(' ').filter_map(|field| field.split_once('=')).collect()
}
