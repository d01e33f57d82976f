//! The form of a bead: what is drawn, and which forms are the same.

use super::lifelike::{Shadings, lifelike};
use super::pattern::pattern;
use super::trace::outline;
use crate::colour::Colour;
use crate::drawn::{BeadLook, PATTERNS, Shape};
use crate::layout::Bead;
use crate::paint::error::PaintError;
use crate::paint::operators::{Script, external, map, name_of, numbers, points};
use crate::paint::written::Written;
use printpdf::{DictItem, XObject};
use std::collections::BTreeMap;

/// Outline of flat beads: dark enough to be seen on white paper round a white bead (8:1).
const OUTLINE: Colour = Colour::new(0x4d, 0x4d, 0x4d);
/// Outline of faded beads: seen, but behind all others.
const FAINT: Colour = Colour::new(0xa8, 0xa8, 0xa8);

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
    let mut script = Script::default();
    let mut shadings = Shadings::default();
    match kind.look {
        BeadLook::Flat => flat(&mut script, kind, OUTLINE, w, h),
        BeadLook::Faded => flat(&mut script, kind, FAINT, w, h),
        BeadLook::Silhouette => {
            outline(&mut script, kind.shape, w, h);
            script.word("f");
        }
        BeadLook::Lifelike => {
            let colour = kind.colour.unwrap_or(Colour::WHITE);
            shadings = lifelike(&mut script, kind.shape, colour, w, h);
        }
    }
    (external(form_dict([-w / 2.0, -h / 2.0, w / 2.0, h / 2.0]), script.bytes()), shadings)
}

/// The dictionary of a form with this box, still without resources. `Type` and `FormType` may be left out
/// (ISO 32000-1, table 95).
pub(in crate::paint) fn form_dict(bounds: [f64; 4]) -> BTreeMap<String, DictItem> {
    map([("Subtype", name_of("Form")), ("BBox", numbers(&bounds))])
}

/// Filled with the colour of the page, a pattern over it in the page's stroke colour, and a fine
/// outline of its own.
fn flat(script: &mut Script, kind: &Kind, edge: Colour, w: f64, h: f64) {
    let line = line_width(w, h);
    // A hair of paper between beads keeps two dark neighbours apart.
    let gap = 0.35 * line;
    let (iw, ih) = (w - line - 2.0 * gap, h - line - 2.0 * gap);
    if let Some(number) = kind.pattern {
        outline(script, kind.shape, iw, ih);
        script.word("f");
        pattern(script, number, kind.shape, iw, ih);
        script.stroke(edge).op("w", &[line]);
        outline(script, kind.shape, iw, ih);
        script.word("S");
    } else {
        script.stroke(edge).op("w", &[line]);
        outline(script, kind.shape, iw, ih);
        script.word("B");
    }
}

/// Width of a bead's outline: 4 % of its smaller side, within what home printers resolve.
fn line_width(w: f64, h: f64) -> f64 {
    (0.04 * w.min(h)).clamp(0.15, 0.6)
}
