//! Beads as glass: body shading, a soft edge and a highlight. All opaque: gradients from the bead's
//! own colour, no transparency, so that archives and old printers take them.

use super::trace::{ellipse, facet_corners, outline, rounded};
use crate::colour::Colour;
use crate::drawn::Shape;
use crate::paint::operators::Script;
use crate::paint::written::Written;

/// Gradients of a form: the entries of the dictionary that names them.
pub(super) type Shadings = Written;

/// A stop of a gradient: where (0 to 1) and which colour.
type Stop = (f64, Colour);

fn lighter(colour: Colour, share: f64) -> Colour {
    colour.mix(Colour::WHITE, share)
}

fn darker(colour: Colour, share: f64) -> Colour {
    colour.mix(Colour::BLACK, share)
}

/// Draws a lifelike bead and gives the gradients it uses. All shares below were chosen by eye.
pub(super) fn lifelike(script: &mut Script, shape: Shape, colour: Colour, w: f64, h: f64) -> Shadings {
    let mut shadings = Shadings::default();
    // Black glass still shows its shade and white glass its highlight: both leave room beside them.
    let base = if is_dark(colour) {
        lighter(colour, 0.07)
    } else if is_white(colour) {
        darker(colour, 0.07)
    } else {
        colour
    };
    script.fill(darker(base, 0.62));
    outline(script, shape, w, h);
    script.word("f q");
    let edge = 0.035 * w.min(h);
    outline(script, shape, w - 2.0 * edge, h - 2.0 * edge);
    script.word("W n");
    match shape {
        Shape::Cylinder | Shape::Bugle | Shape::Cube => {
            tube(script, &mut shadings, base, w, h, shape == Shape::Cube)
        }
        Shape::Round => ball(script, &mut shadings, base, (0.0, 0.0), (w, h), (w, h)),
        // One roundness over the whole drop, its bright spot on the bulb.
        Shape::Drop => {
            ball(script, &mut shadings, base, (0.0, -0.12 * h), (1.06 * w, 1.28 * h), (w, 0.7 * h))
        }
        Shape::Faceted => facets(script, &mut shadings, base, w, h),
    }
    script.word("Q");
    shadings
}

/// Whether a colour is so dark that shading it darker would show nothing.
fn is_dark(colour: Colour) -> bool {
    u32::from(colour.r) + u32::from(colour.g) + u32::from(colour.b) < 150
}

/// Whether a colour is so light that a highlight on it would not be seen.
fn is_white(colour: Colour) -> bool {
    u32::from(colour.r) + u32::from(colour.g) + u32::from(colour.b) > 715
}

/// Light and shade across a tube lit from the upper left; `lift` lightens all of it.
fn tube_stops(base: Colour, lift: f64) -> [Stop; 8] {
    let up = |c: Colour| if lift >= 0.0 { lighter(c, lift) } else { darker(c, -lift) };
    [
        (0.0, up(darker(base, 0.55))),
        (0.1, up(darker(base, 0.22))),
        (0.26, up(lighter(base, 0.24))),
        (0.36, up(lighter(base, 0.3))),
        (0.52, up(base)),
        (0.8, up(darker(base, 0.3))),
        (0.93, up(darker(base, 0.52))),
        (1.0, up(darker(base, 0.38))),
    ]
}

/// A straight-walled bead: a tube with its two cut ends catching light and shade.
fn tube(script: &mut Script, shadings: &mut Shadings, base: Colour, w: f64, h: f64, cube: bool) {
    let small = w.min(h);
    let rim = 0.085 * small;
    across(shadings, "Body", w, &tube_stops(base, 0.0));
    script.word("/Body sh");
    for (name, lift, y) in [("Head", 0.3, h / 2.0), ("Foot", -0.34, -h / 2.0)] {
        across(shadings, name, w, &tube_stops(base, lift));
        script.word("q");
        rounded(script, (0.0, y), (w, 2.0 * rim), (0.0, 0.0));
        script.word("W n").word(&format!("/{name} sh Q"));
    }
    let glow = if cube { 0.2 } else { 0.3 };
    let lit = lighter(base, glow);
    // The highlight's edges have the body's colour, so that it has no outline.
    let bar = (0.15 * w, h - 4.6 * rim);
    let x = -w / 2.0 + 0.31 * w;
    let bright = lighter(base, 0.86);
    let ends = [x - bar.0 / 2.0, 0.0, x + bar.0 / 2.0, 0.0];
    axial(shadings, "Light", ends, &[(0.0, lit), (0.35, bright), (0.6, bright), (1.0, lit)]);
    script.word("q");
    rounded(script, (x, 0.35 * rim), bar, (bar.0 / 2.0, bar.0 / 2.0));
    script.word("W n /Light sh Q");
}

/// A rounded bead: light from the upper left over a roundness of this size, and a bright spot on the
/// part of it that is `lit`.
fn ball(
    script: &mut Script,
    shadings: &mut Shadings,
    base: Colour,
    centre: (f64, f64),
    (w, h): (f64, f64),
    lit: (f64, f64),
) {
    script.word("q").op("cm", &[w / 2.0, 0.0, 0.0, h / 2.0, centre.0, centre.1]);
    let stops = [
        (0.0, lighter(base, 0.42)),
        (0.3, lighter(base, 0.16)),
        (0.58, base),
        (0.84, darker(base, 0.36)),
        (1.0, darker(base, 0.6)),
    ];
    radial(shadings, "Ball", [-0.34, 0.34, 0.0, 0.0, 0.0, 1.04], &stops);
    script.word("/Ball sh Q");
    let (x, y) = (centre.0 - 0.17 * lit.0, centre.1 + 0.17 * lit.1);
    let (sw, sh) = (0.26 * lit.0, 0.2 * lit.1);
    script.word("q").op("cm", &[sw / 2.0, 0.0, 0.0, sh / 2.0, x, y]);
    let stops = [(0.0, lighter(base, 0.94)), (0.45, lighter(base, 0.82)), (1.0, lighter(base, 0.4))];
    radial(shadings, "Spot", [0.0, 0.0, 0.0, 0.0, 0.0, 1.0], &stops);
    ellipse(script, (2.0, 2.0));
    script.word("W n /Spot sh Q");
}

/// A faceted bead: eight cut faces in steps of light round a middle one.
fn facets(script: &mut Script, shadings: &mut Shadings, base: Colour, w: f64, h: f64) {
    let outer = facet_corners(w, h);
    let inner = facet_corners(0.52 * w, 0.5 * h);
    let light = [0.34, 0.05, -0.3, -0.48, -0.55, -0.34, 0.0, 0.26];
    for (i, lift) in light.into_iter().enumerate() {
        let next = (i + 1) % 8;
        script.fill(if lift >= 0.0 { lighter(base, lift) } else { darker(base, -lift) });
        script.op("m", &[outer[i].0, outer[i].1]).op("l", &[outer[next].0, outer[next].1]);
        script.op("l", &[inner[next].0, inner[next].1]).op("l", &[inner[i].0, inner[i].1]);
        script.word("h f");
    }
    let stops = [(0.0, lighter(base, 0.72)), (0.4, lighter(base, 0.22)), (1.0, darker(base, 0.16))];
    axial(shadings, "Body", [-0.26 * w, 0.25 * h, 0.26 * w, -0.25 * h], &stops);
    script.word("q");
    for (i, (x, y)) in inner.into_iter().enumerate() {
        script.op(if i == 0 { "m" } else { "l" }, &[x, y]);
    }
    script.word("h W n /Body sh Q");
}

/// A gradient from the left to the right edge of a bead.
fn across(shadings: &mut Shadings, name: &str, w: f64, stops: &[Stop]) {
    axial(shadings, name, [-w / 2.0, 0.0, w / 2.0, 0.0], stops);
}

/// A gradient along a line (ISO 32000-1, 8.7.4.5.3).
fn axial(shadings: &mut Shadings, name: &str, ends: [f64; 4], stops: &[Stop]) {
    shading(shadings, name, "2", &ends, stops);
}

/// A gradient between two circles (ISO 32000-1, 8.7.4.5.4): centre and radius of each.
fn radial(shadings: &mut Shadings, name: &str, circles: [f64; 6], stops: &[Stop]) {
    shading(shadings, name, "3", &circles, stops);
}

fn shading(out: &mut Shadings, name: &str, kind: &str, coords: &[f64], stops: &[Stop]) {
    out.raw("/").raw(name).raw("<</ShadingType ").raw(kind).raw("/ColorSpace/DeviceRGB/Coords");
    reals(out, coords);
    out.raw("/Extend[true true]/Function");
    stitched(out, stops);
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
fn stitched(out: &mut Written, stops: &[Stop]) {
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
