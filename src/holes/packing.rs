//! Circles in a circle: how wide a hole must be for so many threads.

use crate::units::Mm;

/// Radius of the smallest circle that holds `n` equal circles of radius 1, for `n` = 1…12
/// (published tables; OEIS A281115).
const TIGHTEST: [f64; 12] = [
    1.0,
    2.0,
    2.154_700_538,
    2.414_213_562,
    2.701_301_617,
    3.0,
    3.0,
    3.304_764_871,
    3.613_125_930,
    3.813_025_631,
    3.923_804_400,
    4.029_601_910,
];
/// Lengths nearer than this share of a hole count as equal: far below any thread's tolerance.
const SAME: f64 = 1e-7;
/// Halvings of the span between the bounds of a mixed packing; leaves under 0.1 % of it.
const HALVINGS: usize = 11;

/// Radius of a circle that surely holds `n` equal circles of radius 1.
///
/// Exact (the published optimum) up to 12. Beyond, the better of two arrangements that exist, so
/// the answer is never too small: the triangular lattice (the densest of the plane: Thue; Fejes
/// Tóth) laid round its best centre, or a ring along the wall with the rest inside it. It stays
/// within 15 % of what Groemer's inequality leaves possible.
#[must_use]
pub fn equal_circles(n: usize) -> f64 {
    if n <= TIGHTEST.len() {
        return n.checked_sub(1).map_or(0.0, |index| TIGHTEST[index]);
    }
    let mut radius = TIGHTEST.to_vec();
    for count in TIGHTEST.len() + 1..=n {
        let ringed = (3..count)
            .map(|ring| {
                let wall = 1.0 + 1.0 / (std::f64::consts::PI / ring as f64).sin();
                wall.max(radius[count - ring - 1] + 2.0)
            })
            .fold(f64::INFINITY, f64::min);
        radius.push(ringed.min(lattice_circle(count)));
    }
    radius[n - 1]
}

/// The smallest of three concentric cuts out of the triangular lattice with `n` circles of radius 1:
/// round a circle, round the touching point of two, round the gap between three.
fn lattice_circle(n: usize) -> f64 {
    let row = 3f64.sqrt();
    let centres = [(0.0, 0.0), (1.0, 0.0), (1.0, row / 3.0)];
    // A hexagon of k rings holds 1 + 3k(k + 1) circles; two rings more serve the other centres.
    let mut rings = 1i32;
    while (1 + 3 * rings * (rings + 1)) < i32::try_from(n).unwrap_or(i32::MAX / 64) {
        rings += 1;
    }
    let reach = rings + 2;
    centres
        .iter()
        .map(|(cx, cy)| {
            let mut distances: Vec<f64> = (-reach..=reach)
                .flat_map(|v| (-2 * reach..=2 * reach).map(move |u| (u, v)))
                .map(|(u, v)| {
                    let x = 2.0 * f64::from(u) + f64::from(v);
                    (x - cx).hypot(row * f64::from(v) - cy)
                })
                .collect();
            distances.sort_by(f64::total_cmp);
            1.0 + distances.get(n - 1).copied().unwrap_or(f64::INFINITY)
        })
        .fold(f64::INFINITY, f64::min)
}

/// Diameter of a circle that surely holds circles of these diameters.
///
/// Exact for equal circles up to 12, for one circle and for two, and for more wherever the others
/// fit beside the two largest. Otherwise conservative: the smallest of three arrangements that
/// exist (all as big as the largest; each size packed alone, side by side; circles laid one by one
/// into the corners of a circle that is made smaller step by step). Threads are soft and take less.
#[must_use]
pub fn enclosing(diameters: &[Mm]) -> Mm {
    let d = largest_first(diameters);
    let [largest, second, ..] = d.as_slice() else {
        return Mm(d.first().copied().unwrap_or(0.0));
    };
    let mut high = easily(&d);
    if all_equal(&d) {
        return Mm(high);
    }
    // Neither the two largest nor all areas together fit into less.
    let area: f64 = d.iter().map(|x| x * x).sum();
    let mut low = (largest + second).max(area.sqrt());
    if can_be_laid(&d, low) {
        return Mm(low);
    }
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if can_be_laid(&d, middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    Mm(high)
}

/// Whether a circle of this diameter surely holds circles of these diameters: the question that
/// [`enclosing`] answers step by step, asked once.
#[must_use]
pub fn holds(diameters: &[Mm], room: Mm) -> bool {
    let d = largest_first(diameters);
    easily(&d) <= room.0 * (1.0 + SAME) || (!all_equal(&d) && can_be_laid(&d, room.0))
}

fn largest_first(diameters: &[Mm]) -> Vec<f64> {
    let mut d: Vec<f64> = diameters.iter().map(|m| m.0).filter(|d| *d > 0.0).collect();
    d.sort_by(|a, b| b.total_cmp(a));
    d
}

fn all_equal(sorted: &[f64]) -> bool {
    sorted.iter().all(|x| (x - sorted[0]).abs() <= SAME * sorted[0])
}

/// The better of the two arrangements that need no trying.
fn easily(sorted: &[f64]) -> f64 {
    let largest = sorted.first().copied().unwrap_or(0.0);
    (largest * equal_circles(sorted.len())).min(side_by_side(sorted))
}

/// Each size in a circle of its own, those circles in a row.
fn side_by_side(sorted: &[f64]) -> f64 {
    sorted.chunk_by(|a, b| (a - b).abs() <= SAME * a).map(|same| same[0] * equal_circles(same.len())).sum()
}

/// A circle laid down: its centre and radius.
#[derive(Clone, Copy)]
struct Laid {
    x: f64,
    y: f64,
    r: f64,
}

/// Whether the circles, largest first, can be laid one by one into corners of a circle of this
/// diameter. A yes is an arrangement found; a no proves nothing.
fn can_be_laid(sorted: &[f64], diameter: f64) -> bool {
    [Corner::Outermost, Corner::Lowest].iter().any(|rule| lay(sorted, diameter / 2.0, *rule))
}

/// Which corner is filled first.
#[derive(Clone, Copy)]
enum Corner {
    /// The one farthest from the middle.
    Outermost,
    /// The one nearest the first circle laid.
    Lowest,
}

fn lay(sorted: &[f64], outer: f64, rule: Corner) -> bool {
    let mut laid: Vec<Laid> = Vec::with_capacity(sorted.len());
    for d in sorted {
        let r = d / 2.0;
        let rank = |c: &Laid| match rule {
            Corner::Outermost => -c.x.hypot(c.y),
            Corner::Lowest => c.y,
        };
        let best = if laid.is_empty() {
            (r <= outer * (1.0 + SAME)).then_some(Laid { x: 0.0, y: -(outer - r).max(0.0), r })
        } else {
            corners(&laid, outer, r)
                .into_iter()
                .filter(|c| free(c, &laid, outer))
                .min_by(|a, b| rank(a).total_cmp(&rank(b)).then(a.y.total_cmp(&b.y)))
        };
        match best {
            Some(circle) => laid.push(circle),
            None => return false,
        }
    }
    true
}

/// Places where a circle of radius `r` touches two of the things already there.
fn corners(laid: &[Laid], outer: f64, r: f64) -> Vec<Laid> {
    let mut found = Vec::new();
    let wall = Laid { x: 0.0, y: 0.0, r: outer - r };
    for (index, one) in laid.iter().enumerate() {
        let round_one = Laid { r: one.r + r, ..*one };
        found.extend(crossings(&wall, &round_one, r));
        for other in &laid[index + 1..] {
            let round_other = Laid { r: other.r + r, ..*other };
            found.extend(crossings(&round_one, &round_other, r));
        }
    }
    found
}

/// Where two circles cross, as centres of a circle of radius `r`.
fn crossings(a: &Laid, b: &Laid, r: f64) -> Vec<Laid> {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let distance = dx.hypot(dy);
    let slack = SAME * (a.r + b.r);
    if distance <= slack || distance > a.r + b.r + slack || distance < (a.r - b.r).abs() - slack {
        return Vec::new();
    }
    let along = (distance * distance + a.r * a.r - b.r * b.r) / (2.0 * distance);
    let aside = (a.r * a.r - along * along).max(0.0).sqrt();
    let (ux, uy) = (dx / distance, dy / distance);
    [aside, -aside]
        .iter()
        .map(|s| Laid { x: a.x + along * ux - s * uy, y: a.y + along * uy + s * ux, r })
        .collect()
}

/// Whether a circle lies inside the outer one and on no other.
fn free(circle: &Laid, laid: &[Laid], outer: f64) -> bool {
    let slack = SAME * outer;
    circle.x.hypot(circle.y) + circle.r <= outer + slack
        && laid.iter().all(|o| (o.x - circle.x).hypot(o.y - circle.y) + slack >= o.r + circle.r)
}
