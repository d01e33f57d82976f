//! Pages of a booklet held like a fan, the first in front.

use super::page::{Painter, points};
use super::text::number;
use crate::colour::Colour;
use crate::diagnostic::Problem;
use crate::layout::Page;
use crate::units::{Mm, Size};
use std::fmt::Write;

/// Degrees from one page to the next. This and the measures below were chosen by eye.
const APART: f64 = 12.0;
/// How far below their middle the pages are held, as a share of their height.
const HELD: f64 = 1.05;
/// How much lower a page stands for each place that it is away from the first, as a share of its height.
const LOWER: f64 = 0.012;
/// How far the shadow of a page reaches, in how many steps, and how dark each is.
const SHADOW: Mm = Mm(5.0);
const SHADOW_STEPS: u8 = 6;
const SHADOW_EACH: f64 = 0.022;

/// Pages of one size as a square SVG file: the first upright in front, the others behind it to its left and right in
/// turn. `margin` is a share of the side; `title` and `packet` as for [`super::page()`].
///
/// # Errors
/// When an image on one of them cannot be decoded.
pub fn fan(
    pages: &[&Page],
    (ground, margin): (Option<Colour>, f64),
    title: &str,
    packet: &str,
) -> Result<String, Problem> {
    let mut painter = Painter::default();
    let size = pages.first().map_or(Size { width: Mm(1.0), height: Mm(1.0) }, |page| page.size);
    let (w, h) = (size.width.0, size.height.0);
    let pivot = (w / 2.0, h / 2.0 + HELD * h);
    let turn = |place: usize| {
        let away = place.div_ceil(2) as f64;
        let side = if place % 2 == 1 { -1.0 } else { 1.0 };
        (side * away * APART, away * LOWER * h)
    };
    // The box round all corners.
    let corners = (0..pages.len()).flat_map(|place| {
        let (degrees, lower) = turn(place);
        [(0.0, 0.0), (w, 0.0), (0.0, h), (w, h)].map(|(x, y)| {
            let (sin, cos) = degrees.to_radians().sin_cos();
            let (dx, dy) = (x - pivot.0, y - pivot.1);
            (pivot.0 + dx * cos - dy * sin, pivot.1 + dx * sin + dy * cos + lower)
        })
    });
    let start = (f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY);
    let (left, top, right, bottom) = corners.fold(start, |(left, top, right, bottom), (x, y)| {
        (left.min(x), top.min(y), right.max(x), bottom.max(y))
    });
    let side = (right - left).max(bottom - top) / (1.0 - 2.0 * margin);
    let (dx, dy) = ((side - left - right) / 2.0, (side - top - bottom) / 2.0);
    let _ = writeln!(painter.body, "<g transform=\"translate({} {})\">", points(Mm(dx)), points(Mm(dy)));
    for (place, page) in pages.iter().enumerate().rev() {
        let (degrees, lower) = turn(place);
        let _ = writeln!(
            painter.body,
            "<g transform=\"translate(0 {}) rotate({} {} {})\">",
            points(Mm(lower)),
            number(degrees),
            points(Mm(pivot.0)),
            points(Mm(pivot.1))
        );
        for step in 0..SHADOW_STEPS {
            let reach = SHADOW * (1.0 - f64::from(step) / f64::from(SHADOW_STEPS));
            let _ = writeln!(
                painter.body,
                "<rect x=\"{0}\" y=\"{0}\" width=\"{1}\" height=\"{2}\" rx=\"{3}\" fill-opacity=\"{SHADOW_EACH}\"/>",
                points(-reach),
                points(size.width + reach * 2.0),
                points(size.height + reach * 2.0),
                points(reach)
            );
        }
        let (w, h) = (points(size.width), points(size.height));
        let _ = writeln!(painter.body, "<rect width=\"{w}\" height=\"{h}\" fill=\"#ffffff\"/>");
        painter.items(page)?;
        painter.body.push_str("</g>\n");
    }
    painter.body.push_str("</g>\n");
    Ok(painter.file(Size { width: Mm(side), height: Mm(side) }, ground, title, packet))
}
