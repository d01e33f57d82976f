//! Beads as reusable forms: one a shape, size, look and pattern, drawn upright round its centre.
//! Flat beads take their colours from outside; lifelike ones have one form a colour.

mod form;
mod gradient;
mod trace;

pub(super) use form::{form, form_dict};
pub(super) use trace::trace;
