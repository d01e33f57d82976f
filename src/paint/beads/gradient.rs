//! Gradients of forms: the entries of the dictionary that names them.

use crate::colour::Colour;
use crate::drawn::{Gradient, Run};
use crate::paint::written::Written;

/// Adds a gradient under a name: along a line or, in an ellipse's own axes, between two circles (ISO 32000-1,
/// 8.7.4.5.3 and 8.7.4.5.4); y grows upwards as in the form.
pub(super) fn add(out: &mut Written, name: &str, gradient: &Gradient) {
    let (kind, coords) = match gradient.run {
        Run::Line(from, to) => ("2", vec![from.0, -from.1, to.0, -to.1]),
        Run::Ellipse { focus, reach, .. } => ("3", vec![focus.0, -focus.1, 0.0, 0.0, 0.0, reach]),
    };
    out.raw("/").raw(name).raw("<</ShadingType ").raw(kind).raw("/ColorSpace/DeviceRGB/Coords");
    reals(out, &coords);
    out.raw("/Extend[true true]/Function");
    stitched(out, &gradient.stops);
    out.raw(">>");
}

fn reals(out: &mut Written, values: &[f64]) {
    out.raw("[");
    for value in values {
        out.number::<2>(*value);
    }
    out.raw("]");
}

/// Straight ramps from stop to stop, stitched together (ISO 32000-1, 7.10.4).
fn stitched(out: &mut Written, stops: &[(f64, Colour)]) {
    let level = |out: &mut Written, key: &str, c: Colour| {
        out.raw(key).raw("[");
        for v in [c.r, c.g, c.b] {
            out.number::<3>(f64::from(v) / 255.0);
        }
        out.raw("]");
    };
    out.raw("<</FunctionType 3/Domain[0 1]/Functions[");
    for pair in stops.windows(2) {
        out.raw("<</FunctionType 2/Domain[0 1]/N 1");
        level(out, "/C0", pair[0].1);
        level(out, "/C1", pair[1].1);
        out.raw(">>");
    }
    let between = stops.get(1..stops.len().saturating_sub(1)).unwrap_or_default();
    out.raw("]/Bounds");
    reals(out, &between.iter().map(|stop| stop.0).collect::<Vec<_>>());
    out.raw("/Encode");
    reals(out, &stops.windows(2).flat_map(|_| [0.0, 1.0]).collect::<Vec<_>>());
    out.raw(">>");
}
