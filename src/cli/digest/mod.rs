//! What went into a booklet, part by part and as one digest. Both stand in the file's own metadata, so
//! that a later run can tell whether the booklet is current, and if not, why.

#[cfg(test)]
mod agreement;
mod fields;
mod other;
mod parts;
mod reasons;
mod value;

pub(super) use other::is_of_another_design;
pub(super) use parts::{
    Inputs, MADE_PAGES, MADE_WARNINGS, SETTINGS, SHOWN, SHOWN_BEFORE, SHOWN_OTHERWISE, SLUG, part, parts_of,
};
pub(super) use reasons::reasons;
pub(super) use value::hash_all;
