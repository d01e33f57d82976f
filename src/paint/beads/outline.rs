//! Outlines of bead shapes, seen from the side, hole upright: points round the centre, y upwards.

use crate::booklet::drawing::QUARTER;
use crate::design::Shape;
use crate::paint::operators::Script;

/// Adds the closed outline of a shape `w` across and `h` along the hole to a script.
pub(super) fn outline(script: &mut Script, shape: Shape, w: f64, h: f64) {
    let small = w.min(h);
    match shape {
        Shape::Cylinder => rounded(script, (0.0, 0.0), (w, h), (0.1 * small, 0.1 * small)),
        Shape::Bugle => rounded(script, (0.0, 0.0), (w, h), (0.05 * small, 0.05 * small)),
        Shape::Cube => rounded(script, (0.0, 0.0), (w, h), (0.14 * small, 0.14 * small)),
        Shape::Round => rounded(script, (0.0, 0.0), (w, h), (0.4 * w, 0.5 * h)),
        Shape::Faceted => faceted(script, w, h),
        Shape::Drop => drop(script, w, h),
    }
}

/// A box round a centre with elliptical corners.
pub(super) fn rounded(script: &mut Script, (cx, cy): (f64, f64), (w, h): (f64, f64), (rx, ry): (f64, f64)) {
    let (x, y) = (w / 2.0, h / 2.0);
    let (kx, ky) = (rx * (1.0 - QUARTER), ry * (1.0 - QUARTER));
    let mut at = |key: &str, points: &[(f64, f64)]| {
        let numbers: Vec<f64> = points.iter().flat_map(|(px, py)| [cx + px, cy + py]).collect();
        script.op(key, &numbers);
    };
    at("m", &[(-x + rx, y)]);
    at("l", &[(x - rx, y)]);
    at("c", &[(x - kx, y), (x, y - ky), (x, y - ry)]);
    at("l", &[(x, -y + ry)]);
    at("c", &[(x, -y + ky), (x - kx, -y), (x - rx, -y)]);
    at("l", &[(-x + rx, -y)]);
    at("c", &[(-x + kx, -y), (-x, -y + ky), (-x, -y + ry)]);
    at("l", &[(-x, y - ry)]);
    at("c", &[(-x, y - ky), (-x + kx, y), (-x + rx, y)]);
    script.word("h");
}

/// An ellipse round a centre.
pub(super) fn ellipse(script: &mut Script, centre: (f64, f64), (w, h): (f64, f64)) {
    rounded(script, centre, (w, h), (w / 2.0, h / 2.0));
}

/// Corners of the faceted shape, clockwise from the top left: widest in a band round its waist.
pub(super) fn facet_corners(w: f64, h: f64) -> [(f64, f64); 8] {
    let (x, y) = (w / 2.0, h / 2.0);
    [
        (-0.56 * x, y),
        (0.56 * x, y),
        (x, 0.22 * y),
        (x, -0.22 * y),
        (0.56 * x, -y),
        (-0.56 * x, -y),
        (-x, -0.22 * y),
        (-x, 0.22 * y),
    ]
}

fn faceted(script: &mut Script, w: f64, h: f64) {
    for (i, (x, y)) in facet_corners(w, h).into_iter().enumerate() {
        script.op(if i == 0 { "m" } else { "l" }, &[x, y]);
    }
    script.word("h");
}

/// Narrow and rounded at the top, where its hole is, and round at the bottom.
fn drop(script: &mut Script, w: f64, h: f64) {
    let (x, top, foot) = (w / 2.0, h / 2.0, -h / 2.0);
    let r = x.min(0.42 * h);
    let middle = foot + r;
    let (kx, ky) = (x * QUARTER, r * QUARTER);
    script.op("m", &[0.0, top]);
    script.op("c", &[0.3 * x, top, 0.42 * x, top - 0.1 * h, 0.5 * x, top - 0.22 * h]);
    script.op("c", &[0.62 * x, top - 0.38 * h, x, middle + 1.25 * ky, x, middle]);
    script.op("c", &[x, middle - ky, kx, foot, 0.0, foot]);
    script.op("c", &[-kx, foot, -x, middle - ky, -x, middle]);
    script.op("c", &[-x, middle + 1.25 * ky, -0.62 * x, top - 0.38 * h, -0.5 * x, top - 0.22 * h]);
    script.op("c", &[-0.42 * x, top - 0.1 * h, -0.3 * x, top, 0.0, top]);
    script.word("h");
}
