//! Pieces taller than a page are sliced where nothing is cut: between lines of text, under rules.

use super::fragment::Fragment;
use super::{Item, Paint};
use crate::units::Mm;

/// No slice is lower.
const LEAST: Mm = Mm(1.0);

/// Slices a piece into pieces no taller than `limit`, as far as there are gaps to slice at.
pub(super) fn slices(whole: Fragment, limit: Mm) -> Vec<Fragment> {
    let mut done = Vec::new();
    let mut rest = whole;
    while rest.height > limit {
        let Some(at) = gap(&rest, limit) else { break };
        let (upper, lower) = parted(rest, at);
        done.push(upper);
        rest = lower;
    }
    done.push(rest);
    done
}

/// The lowest place above `limit` that no item reaches over: going down by the tops of the items, one
/// that no item from above it reaches beyond.
fn gap(piece: &Fragment, limit: Mm) -> Option<Mm> {
    let mut reaches: Vec<(Mm, Mm)> = piece.items.iter().map(reach).filter(|r| r.0 < limit).collect();
    reaches.sort_by(|a, b| a.0.0.total_cmp(&b.0.0));
    let mut lowest = None;
    let mut reached = Mm(f64::MIN);
    let mut at = 0;
    while at <= reaches.len() {
        let y = reaches.get(at).map_or(limit, |r| r.0);
        if y > LEAST && reached <= y {
            lowest = Some(y);
        }
        // Items that begin at one place do not reach over it.
        let beginning = reaches[at..].iter().take_while(|r| r.0 == y);
        let (count, bottom) = beginning.fold((0, reached), |(n, bottom), r| (n + 1, bottom.max(r.1)));
        reached = bottom;
        at += count.max(1);
    }
    lowest
}

fn parted(piece: Fragment, at: Mm) -> (Fragment, Fragment) {
    let mut upper = Fragment { height: at, ..Fragment::default() };
    let mut lower = Fragment::default();
    let below = piece.height - at;
    for item in piece.items {
        if reach(&item).0 < at { &mut upper } else { &mut lower }.items.push(item);
    }
    for link in piece.links {
        if link.at.y + link.size.height / 2.0 < at { &mut upper } else { &mut lower }.links.push(link);
    }
    for tick in piece.ticks {
        if tick.at.y + tick.side / 2.0 < at { &mut upper } else { &mut lower }.ticks.push(tick);
    }
    for goal in piece.goals {
        if goal.y < at { &mut upper } else { &mut lower }.goals.push(goal);
    }
    let mut moved = Fragment { height: below, ..Fragment::default() };
    moved.absorb(lower, Mm::ZERO, -at);
    (upper, moved)
}

/// How far an item reaches, from its top to its bottom.
pub(super) fn reach(item: &Item) -> (Mm, Mm) {
    match &item.paint {
        Paint::Glyphs(g) => (g.at.y - g.size.mm() * 0.8, g.at.y + g.size.mm() * 0.25),
        Paint::Bead(b) => {
            let half = b.width.max(b.length) / 2.0;
            (b.centre.y - half, b.centre.y + half)
        }
        Paint::Image(i) => (i.at.y, i.at.y + i.size.height),
        Paint::Path(p) => {
            let ys = p.segments.iter().flat_map(|s| s.points()).map(|p| p.y);
            ys.fold((Mm(f64::MAX), Mm(f64::MIN)), |(t, b), y| (t.min(y), b.max(y)))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::fragment::filled;
    use proptest::prelude::*;

    /// As it is defined: tried at every top, against every item.
    fn tried(piece: &Fragment, limit: Mm) -> Option<Mm> {
        let reaches: Vec<(Mm, Mm)> = piece.items.iter().map(reach).collect();
        let tops = reaches.iter().map(|r| r.0).chain([limit]);
        tops.filter(|&y| y > LEAST && y <= limit && reaches.iter().all(|r| r.1 <= y || r.0 >= y))
            .max_by(|a, b| a.0.total_cmp(&b.0))
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn the_lowest_gap_is_found(bars in proptest::collection::vec((0u8..40, 1u8..9), 0..12), limit in 1u8..45) {
            let mut piece = Fragment::default();
            for (top, height) in bars {
                let (y, height) = (Mm(f64::from(top)), Mm(f64::from(height)));
                piece.rule(filled(Mm::ZERO, y, Mm(1.0), height, crate::colour::Colour::new(0, 0, 0)));
            }
            let limit = Mm(f64::from(limit));
            prop_assert_eq!(gap(&piece, limit), tried(&piece, limit));
        }
    }
}
