//! A bead's dimensions: from its size where that is known by name, each overridden where it is given.

use super::bounds::{self, text};
use super::files::BeadPart;
use super::sizes;
use super::yaml::{Check, Field, Node};
use crate::diagnostic::{list, shown};
use crate::drawn::Shape;
use crate::units::Mm;

/// The name of the size; width, length and hole; beads in a gram.
pub(super) type Dimensions = (Option<String>, [Mm; 3], f64);

/// Width, length, hole and beads a gram: from the size where it is known, each overridden where it is given.
pub(super) fn dimensions(
    check: &mut Check<'_>,
    part: &BeadPart,
    node: &Node,
    shape: Option<Shape>,
) -> Option<Dimensions> {
    let named = check.text(&part.size, node, "size", text::NAME);
    let given: [Option<Mm>; 3] = [
        check.length(&part.width, node, "width", &bounds::BEAD),
        check.length(&part.length, node, "length", &bounds::BEAD),
        check.length(&part.hole, node, "hole", &bounds::HOLE),
    ];
    let per_gram = check.take(&part.per_gram, node, "per gram").map(|n| n.0);
    let known = named.as_deref().zip(shape).and_then(|(name, shape)| sizes::known_size(shape, name));
    let of_size = [known.map(|k| Mm(k.width)), known.map(|k| Mm(k.length)), known.map(|k| Mm(k.hole))];
    let per_gram = per_gram.or(known.map(|k| k.per_gram));
    let all: Vec<Option<Mm>> = given.iter().zip(of_size).map(|(given, known)| given.or(known)).collect();
    let (&[Some(width), Some(length), Some(hole)], Some(per_gram)) = (all.as_slice(), per_gram) else {
        missing_dimensions(check, part, node, shape, &all, per_gram);
        return None;
    };
    if hole.0 >= width.0 {
        check.error(
            node.get("hole").span.clone(),
            format!("the hole ({} mm) is not smaller than the bead is wide ({} mm)", hole.0, width.0),
            "correct `hole` or `width`",
        );
        return None;
    }
    Some((named, [width, length, hole], per_gram))
}

/// Notes which dimensions are neither given nor known from the size; a wrong one has been told already.
fn missing_dimensions(
    check: &mut Check<'_>,
    part: &BeadPart,
    node: &Node,
    shape: Option<Shape>,
    all: &[Option<Mm>],
    per_gram: Option<f64>,
) {
    let keys = ["width", "length", "hole", "per gram"];
    let there = [&part.width, &part.length, &part.hole].map(|f| !matches!(f, Field::Missing));
    let there = [there[0], there[1], there[2], !matches!(part.per_gram, Field::Missing)];
    let found = [all[0].is_some(), all[1].is_some(), all[2].is_some(), per_gram.is_some()];
    let missing: Vec<String> =
        (0..4).filter(|&i| !found[i] && !there[i]).map(|i| format!("`{}`", keys[i])).collect();
    let Some(shape) = shape else { return };
    if missing.is_empty() {
        return;
    }
    let sizes: Vec<String> = sizes::sizes_of(shape).iter().map(|s| format!("`{s}`")).collect();
    let give = format!("give {}, as in `width: 1.6 mm` and `per gram: 200`", list(&missing));
    let hint = if sizes.is_empty() {
        give
    } else {
        format!("sizes known for this shape are {}; or {give}", list(&sizes))
    };
    match &part.size {
        Field::Given(_) => {
            let size = node.get("size");
            let message = format!("the size `{}` of this shape is not known by name", shown(size.text()));
            check.error(size.span.clone(), message, hint);
        }
        Field::Missing => {
            check.error(node.span.clone(), "neither a known `size` nor all dimensions are given", hint)
        }
        Field::Empty | Field::Wrong(_) => {}
    }
}
