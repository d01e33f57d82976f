//! The form of a bead: what is drawn, and which forms are the same.

use super::trace::Form;
use crate::colour::Colour;
use crate::drawn::{BeadLook, PATTERNS, Shape, parts};
use crate::layout::Bead;
use crate::paint::error::PaintError;
use crate::paint::operators::{external, map, name_of, numbers, points};
use crate::paint::written::Written;
use printpdf::{DictItem, XObject};
use std::collections::BTreeMap;

/// What makes two beads the same form.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::paint) struct Kind {
    shape: Shape,
    /// Width and length in hundredths of a point.
    size: (i64, i64),
    look: BeadLook,
    pattern: Option<u8>,
    /// Only where the form itself depends on it.
    colour: Option<Colour>,
}

impl Kind {
    /// The kind of a bead.
    ///
    /// # Errors
    /// When it asks for a pattern that there is not.
    pub(in crate::paint) fn of(bead: &Bead) -> Result<Kind, PaintError> {
        if let Some(number) = bead.pattern.filter(|n| *n >= PATTERNS) {
            return Err(PaintError::Pattern { number });
        }
        let hundredths = |v: f64| (v * 100.0).round() as i64;
        Ok(Kind {
            shape: bead.shape,
            size: (hundredths(points(bead.width)), hundredths(points(bead.length))),
            look: bead.look,
            pattern: match bead.look {
                BeadLook::Flat | BeadLook::Faded => bead.pattern,
                BeadLook::Lifelike | BeadLook::Silhouette => None,
            },
            colour: (bead.look == BeadLook::Lifelike).then_some(bead.colour),
        })
    }
}

/// The form of a kind of bead, and the gradients that it names: what stands in their dictionary.
pub(in crate::paint) fn form(kind: &Kind) -> (XObject, Written) {
    let (w, h) = (kind.size.0 as f64 / 100.0, kind.size.1 as f64 / 100.0);
    let colour = kind.colour.unwrap_or(Colour::WHITE);
    let mut form = Form::default();
    form.parts(&parts(kind.shape, kind.look, kind.pattern, colour, (w, h)));
    let bounds = [-w / 2.0, -h / 2.0, w / 2.0, h / 2.0];
    (external(form_dict(bounds), form.script.bytes()), form.gradients)
}

/// The dictionary of a form with this box, still without resources. `Type` and `FormType` may be left out
/// (ISO 32000-1, table 95).
pub(in crate::paint) fn form_dict(bounds: [f64; 4]) -> BTreeMap<String, DictItem> {
    map([("Subtype", name_of("Form")), ("BBox", numbers(&bounds))])
}
