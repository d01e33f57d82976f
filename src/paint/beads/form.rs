//! The form of a bead.

use super::trace::Form;
use crate::layout::BeadKind;
use crate::paint::operators::{external, map, name_of, numbers};
use crate::paint::written::Written;
use printpdf::{DictItem, XObject};
use std::collections::BTreeMap;

/// The form of a kind of bead, and the gradients that it names: what stands in their dictionary.
pub(in crate::paint) fn form(kind: &BeadKind) -> (XObject, Written) {
    let (w, h) = kind.size();
    let mut form = Form::default();
    form.parts(&kind.parts());
    let bounds = [-w / 2.0, -h / 2.0, w / 2.0, h / 2.0];
    (external(form_dict(bounds), form.script.bytes()), form.gradients)
}

/// The dictionary of a form with this box, still without resources. `Type` and `FormType` may be left out
/// (ISO 32000-1, table 95).
pub(in crate::paint) fn form_dict(bounds: [f64; 4]) -> BTreeMap<String, DictItem> {
    map([("Subtype", name_of("Form")), ("BBox", numbers(&bounds))])
}
