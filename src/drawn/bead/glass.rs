//! Beads as glass: body shading, a soft edge and a highlight. All opaque: gradients from the bead's
//! own colour, no transparency, so that archives and old printers take them.

use super::Shape;
use super::outline::{facet_corners, outline};
use super::part::{Gradient, Part, Path, Run, Tint};
use crate::colour::Colour;
use crate::drawn::{polygon, rounded};

fn lighter(colour: Colour, share: f64) -> Colour {
    colour.mix(Colour::WHITE, share)
}

fn darker(colour: Colour, share: f64) -> Colour {
    colour.mix(Colour::BLACK, share)
}

/// Lighter by a share, or darker where it is below 0.
fn lifted(colour: Colour, lift: f64) -> Colour {
    if lift >= 0.0 { lighter(colour, lift) } else { darker(colour, -lift) }
}

/// A bead as glass. All shares below were chosen by eye.
pub(super) fn glass(shape: Shape, colour: Colour, w: f64, h: f64) -> Vec<Part> {
    // Black glass still shows its shade and white glass its highlight: both leave room beside them.
    let base = if is_dark(colour) {
        lighter(colour, 0.07)
    } else if is_white(colour) {
        darker(colour, 0.07)
    } else {
        colour
    };
    let edge = 0.035 * w.min(h);
    let body = outline(shape, w - 2.0 * edge, h - 2.0 * edge);
    let painted = match shape {
        Shape::Cylinder | Shape::Bugle | Shape::Cube => tube(base, body, edge, (w, h), shape == Shape::Cube),
        Shape::Round => ball(base, body, (0.0, 0.0), (w, h), (w, h)),
        // One roundness over the whole drop, its bright spot on the bulb.
        Shape::Drop => ball(base, body, (0.0, 0.12 * h), (1.06 * w, 1.28 * h), (w, 0.7 * h)),
        Shape::Faceted => facets(base, w - 2.0 * edge, h - 2.0 * edge),
    };
    let dark = Part::Fill(outline(shape, w, h), Tint::Fixed(darker(base, 0.62)));
    [dark].into_iter().chain(painted).collect()
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
fn across_tube(base: Colour, lift: f64, w: f64) -> Gradient {
    let stops = [
        (0.0, darker(base, 0.55)),
        (0.1, darker(base, 0.22)),
        (0.26, lighter(base, 0.24)),
        (0.36, lighter(base, 0.3)),
        (0.52, base),
        (0.8, darker(base, 0.3)),
        (0.93, darker(base, 0.52)),
        (1.0, darker(base, 0.38)),
    ];
    let stops = stops.map(|(at, colour)| (at, lifted(colour, lift))).to_vec();
    Gradient { run: Run::Line((-w / 2.0, 0.0), (w / 2.0, 0.0)), stops }
}

/// A straight-walled bead: a tube with its two cut ends catching light and shade.
fn tube(base: Colour, body: Path, edge: f64, (w, h): (f64, f64), cube: bool) -> Vec<Part> {
    let small = w.min(h);
    let rim = 0.085 * small;
    let mut parts = vec![Part::Shade(body, across_tube(base, 0.0, w))];
    for (lift, side) in [(0.3, -1.0), (-0.34, 1.0)] {
        // From the dark edge to the rim, its outer corners within those of the body.
        let tall = rim - edge;
        let middle = (0.0, side * (h / 2.0 - edge - tall / 2.0));
        let end = rounded(middle, (w - 2.0 * edge, tall), (tall / 2.0, tall / 2.0));
        parts.push(Part::Shade(end, across_tube(base, lift, w)));
    }
    let lit = lighter(base, if cube { 0.2 } else { 0.3 });
    let bright = lighter(base, 0.86);
    // The highlight's edges have the body's colour, so that it has no outline.
    let bar = (0.15 * w, h - 4.6 * rim);
    let x = -w / 2.0 + 0.31 * w;
    let run = Run::Line((x - bar.0 / 2.0, 0.0), (x + bar.0 / 2.0, 0.0));
    let stops = vec![(0.0, lit), (0.35, bright), (0.6, bright), (1.0, lit)];
    let light = rounded((x, -0.35 * rim), bar, (bar.0 / 2.0, bar.0 / 2.0));
    parts.push(Part::Shade(light, Gradient { run, stops }));
    parts
}

/// A rounded bead: light from the upper left over a roundness of this size, and a bright spot on the
/// part of it that is `lit`.
fn ball(base: Colour, body: Path, centre: (f64, f64), (w, h): (f64, f64), lit: (f64, f64)) -> Vec<Part> {
    let stops = vec![
        (0.0, lighter(base, 0.42)),
        (0.3, lighter(base, 0.16)),
        (0.58, base),
        (0.84, darker(base, 0.36)),
        (1.0, darker(base, 0.6)),
    ];
    let run = Run::Ellipse { centre, axes: (w / 2.0, h / 2.0), focus: (-0.34, -0.34), reach: 1.04 };
    let roundness = Part::Shade(body, Gradient { run, stops });
    let middle = (centre.0 - 0.17 * lit.0, centre.1 - 0.17 * lit.1);
    let spot = (0.26 * lit.0, 0.2 * lit.1);
    let axes = (spot.0 / 2.0, spot.1 / 2.0);
    let stops = vec![(0.0, lighter(base, 0.94)), (0.45, lighter(base, 0.82)), (1.0, lighter(base, 0.4))];
    let run = Run::Ellipse { centre: middle, axes, focus: (0.0, 0.0), reach: 1.0 };
    vec![roundness, Part::Shade(rounded(middle, spot, axes), Gradient { run, stops })]
}

/// A faceted bead: eight cut faces in steps of light round a middle one.
fn facets(base: Colour, w: f64, h: f64) -> Vec<Part> {
    let outer = facet_corners(w, h);
    let inner = facet_corners(0.52 * w, 0.5 * h);
    let light = [0.34, 0.05, -0.3, -0.48, -0.55, -0.34, 0.0, 0.26];
    let face = |(i, lift): (usize, f64)| {
        let next = (i + 1) % light.len();
        let corners = [outer[i], outer[next], inner[next], inner[i]];
        Part::Fill(polygon(corners), Tint::Fixed(lifted(base, lift)))
    };
    let run = Run::Line((-0.26 * w, -0.25 * h), (0.26 * w, 0.25 * h));
    let stops = vec![(0.0, lighter(base, 0.72)), (0.4, lighter(base, 0.22)), (1.0, darker(base, 0.16))];
    let mut parts: Vec<Part> = light.into_iter().enumerate().map(face).collect();
    parts.push(Part::Shade(polygon(inner), Gradient { run, stops }));
    parts
}
