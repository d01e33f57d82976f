//! Paths round a bead's centre as text of its form: there y grows upwards.

use crate::drawn::{self, Segment, Shape};
use crate::paint::operators::Script;

/// Adds a path, y downwards, to a script.
fn trace(script: &mut Script, segments: Vec<Segment<(f64, f64)>>) {
    for segment in segments {
        let key = match segment {
            Segment::Move(_) => "m",
            Segment::Line(_) => "l",
            Segment::Curve(..) => "c",
            Segment::Close => "h",
        };
        for (x, y) in segment.points() {
            script.number::<2>(x).number::<2>(-y);
        }
        script.word(key);
    }
}

/// Adds the closed outline of a shape `w` across and `h` along the hole to a script.
pub(super) fn outline(script: &mut Script, shape: Shape, w: f64, h: f64) {
    trace(script, drawn::outline(shape, w, h));
}

/// Adds a box round a centre with elliptical corners, `y` upwards as in the form.
pub(super) fn rounded(script: &mut Script, (x, y): (f64, f64), size: (f64, f64), corners: (f64, f64)) {
    trace(script, drawn::rounded((x, -y), size, corners));
}

/// Adds an ellipse round the origin.
pub(super) fn ellipse(script: &mut Script, (w, h): (f64, f64)) {
    rounded(script, (0.0, 0.0), (w, h), (w / 2.0, h / 2.0));
}

/// Corners of the faceted shape, clockwise from the top left, `y` upwards as in the form.
pub(super) fn facet_corners(w: f64, h: f64) -> [(f64, f64); 8] {
    drawn::facet_corners(w, h).map(|(x, y)| (x, -y))
}
