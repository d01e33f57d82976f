//! Beads as glass: body shading, a soft edge and a highlight. All opaque: gradients from the bead's
//! own colour, no transparency, so that archives and old printers take them.

use super::outline::{facet_corners, outline};
use super::part::{Gradient, Part, Path, Run, Tint};
use super::{Shape, Shine};
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

/// The glass of one bead, in its own light and shade.
#[derive(Clone, Copy)]
struct Lit {
    base: Colour,
    shine: Shine,
}

impl Lit {
    fn new(colour: Colour, shine: Shine) -> Lit {
        // Black glass still shows its shade and white glass its highlight: both leave room beside them.
        let base = if is_dark(colour) {
            lighter(colour, 0.07)
        } else if is_white(colour) {
            darker(colour, 0.07)
        } else {
            colour
        };
        Lit { base, shine }
    }

    /// Lighter or darker by a share of what its surface shows of it.
    fn lifted(self, lift: f64) -> Colour {
        lifted(self.base, lift * self.shine.contrast())
    }

    /// Stops of a gradient, each lifted once more.
    fn stops(self, lifts: &[(f64, f64)], more: f64) -> Vec<(f64, Colour)> {
        lifts.iter().map(|(at, lift)| (*at, lifted(self.lifted(*lift), more))).collect()
    }
}

/// A bead as glass. All shares below were chosen by eye.
pub(super) fn glass(shape: Shape, shine: Shine, colour: Colour, w: f64, h: f64) -> Vec<Part> {
    let lit = Lit::new(colour, shine);
    let edge = 0.035 * w.min(h);
    let body = outline(shape, w - 2.0 * edge, h - 2.0 * edge);
    let painted = match shape {
        Shape::Cylinder | Shape::Bugle | Shape::Cube => tube(lit, body, edge, (w, h), shape == Shape::Cube),
        Shape::Round => ball(lit, body, (0.0, 0.0), (w, h), (w, h), true),
        // One roundness over the whole drop, its bright spot on the bulb. Its hole lies across.
        Shape::Drop => ball(lit, body, (0.0, 0.12 * h), (1.06 * w, 1.28 * h), (w, 0.7 * h), false),
        Shape::Faceted => facets(lit, w - 2.0 * edge, h - 2.0 * edge),
    };
    let dark = Part::Fill(outline(shape, w, h), Tint::Fixed(darker(lit.base, 0.62)));
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

/// Light and shade across a tube lit from the upper left; `more` lightens all of it.
fn across_tube(lit: Lit, more: f64, w: f64) -> Gradient {
    let run = Run::Line((-w / 2.0, 0.0), (w / 2.0, 0.0));
    Gradient { run, stops: lit.stops(lit.shine.across(), more) }
}

/// An upright band of light, from its edges' colour to its brightest and back.
fn bar((x, y): (f64, f64), (w, h): (f64, f64), stops: Vec<(f64, Colour)>) -> Part {
    let run = Run::Line((x - w / 2.0, 0.0), (x + w / 2.0, 0.0));
    Part::Shade(rounded((x, y), (w, h), (w / 2.0, w / 2.0)), Gradient { run, stops })
}

/// What is seen of the hole: a band along it, `h` high.
fn hole(lit: Lit, w: f64, h: f64) -> Option<Part> {
    let lifts = lit.shine.hole()?;
    // The hole of a seed bead is about half as wide as the bead.
    let across = 0.4 * w;
    let run = Run::Line((-across / 2.0, 0.0), (across / 2.0, 0.0));
    let band = rounded((0.0, 0.0), (across, h), (0.12 * across, 0.12 * across));
    Some(Part::Shade(band, Gradient { run, stops: lit.stops(lifts, 0.0) }))
}

/// A straight-walled bead: a tube with its two cut ends catching light and shade.
fn tube(lit: Lit, body: Path, edge: f64, (w, h): (f64, f64), cube: bool) -> Vec<Part> {
    let small = w.min(h);
    let rim = 0.085 * small;
    let mut parts = vec![Part::Shade(body, across_tube(lit, 0.0, w))];
    parts.extend(hole(lit, w, h - 2.0 * rim));
    for (lift, side) in [(0.3, -1.0), (-0.34, 1.0)] {
        // From the dark edge to the rim, its outer corners within those of the body.
        let tall = rim - edge;
        let middle = (0.0, side * (h / 2.0 - edge - tall / 2.0));
        let end = rounded(middle, (w - 2.0 * edge, tall), (tall / 2.0, tall / 2.0));
        parts.push(Part::Shade(end, across_tube(lit, lift * lit.shine.contrast(), w)));
    }
    let high = h - 4.6 * rim;
    if let Some((wide, brightness)) = lit.shine.reflected() {
        // The highlight's edges have the body's colour, so that it has no outline.
        let beside = lit.lifted(if cube { lit.shine.lit() - 0.1 } else { lit.shine.lit() });
        let bright = lighter(lit.base, brightness);
        let stops = vec![(0.0, beside), (0.35, bright), (0.6, bright), (1.0, beside)];
        parts.push(bar((-w / 2.0 + 0.31 * w, -0.35 * rim), (0.15 * w * wide, high), stops));
    }
    if let Some(brightness) = lit.shine.beyond() {
        let beside = |share: f64| lit.lifted(lit.shine.across_at(share));
        let bright = lifted(beside(0.79), brightness);
        let stops = vec![(0.0, beside(0.73)), (0.5, bright), (1.0, beside(0.85))];
        parts.push(bar((0.29 * w, -0.35 * rim), (0.12 * w, 0.86 * high), stops));
    }
    parts
}

/// A rounded bead: light from the upper left over a roundness of this size, and a bright spot on the
/// part of it that is `bright`.
fn ball(
    lit: Lit,
    body: Path,
    centre: (f64, f64),
    (w, h): (f64, f64),
    bright: (f64, f64),
    upright: bool,
) -> Vec<Part> {
    let run = Run::Ellipse { centre, axes: (w / 2.0, h / 2.0), focus: (-0.34, -0.34), reach: 1.04 };
    let mut parts = vec![Part::Shade(body, Gradient { run, stops: lit.stops(lit.shine.around(), 0.0) })];
    if upright {
        parts.extend(hole(lit, 0.9 * w, 0.74 * h));
    }
    if let Some((wide, brightness)) = lit.shine.reflected() {
        let middle = (centre.0 - 0.17 * bright.0, centre.1 - 0.17 * bright.1);
        let spot = (0.26 * bright.0 * wide, 0.2 * bright.1 * wide);
        let axes = (spot.0 / 2.0, spot.1 / 2.0);
        let beside = lit.lifted(lit.shine.lit() + 0.1);
        let stops = vec![
            (0.0, lighter(lit.base, brightness + 0.08)),
            (0.45, lighter(lit.base, brightness - 0.04)),
            (1.0, beside),
        ];
        let run = Run::Ellipse { centre: middle, axes, focus: (0.0, 0.0), reach: 1.0 };
        parts.push(Part::Shade(rounded(middle, spot, axes), Gradient { run, stops }));
    }
    if let Some(brightness) = lit.shine.beyond() {
        let middle = (centre.0 + 0.2 * bright.0, centre.1 + 0.24 * bright.1);
        let spot = (0.24 * bright.0, 0.12 * bright.1);
        let axes = (spot.0 / 2.0, spot.1 / 2.0);
        let stops = vec![(0.0, lighter(lit.base, brightness)), (1.0, lit.lifted(-0.18))];
        let run = Run::Ellipse { centre: middle, axes, focus: (0.0, 0.0), reach: 1.0 };
        parts.push(Part::Shade(rounded(middle, spot, axes), Gradient { run, stops }));
    }
    parts
}

/// A faceted bead: eight cut faces in steps of light round a middle one.
fn facets(lit: Lit, w: f64, h: f64) -> Vec<Part> {
    let outer = facet_corners(w, h);
    let inner = facet_corners(0.52 * w, 0.5 * h);
    let light = [0.34, 0.05, -0.3, -0.48, -0.55, -0.34, 0.0, 0.26];
    let face = |(i, lift): (usize, f64)| {
        let next = (i + 1) % light.len();
        let corners = [outer[i], outer[next], inner[next], inner[i]];
        // Light that goes in at the lit faces comes out at those opposite.
        let lift = if lit.shine.hole().is_some() { -0.6 * lift } else { lift };
        Part::Fill(polygon(corners), Tint::Fixed(lit.lifted(lift)))
    };
    let run = Run::Line((-0.26 * w, -0.25 * h), (0.26 * w, 0.25 * h));
    let stops = lit.stops(&[(0.0, 0.72), (0.4, 0.22), (1.0, -0.16)], 0.0);
    let mut parts: Vec<Part> = light.into_iter().enumerate().map(face).collect();
    parts.push(Part::Shade(polygon(inner), Gradient { run, stops }));
    parts
}
