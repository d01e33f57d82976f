//! The ground the thread moves on: where stacks, their hole ends and thread bridges lie.

use super::needs::Needs;
use super::{StackAt, Way};
use crate::design::Side;
use crate::units::{Mm, Point};

/// Where stacks lie, and which stack lies over which.
pub(super) struct Ground {
    /// Width of one stack: of the widest bead of the body, so that none overlaps its neighbour.
    pub stack_width: Mm,
    rows: Vec<RowGround>,
}

/// Where a row lies.
struct RowGround {
    lead: usize,
    stacks: usize,
    top: Mm,
    /// Height of each level from the top: of the longest bead that lies in it.
    levels: Vec<Mm>,
}

impl RowGround {
    fn height(&self) -> Mm {
        self.levels.iter().copied().sum()
    }
}

impl Ground {
    /// The ground of a body.
    pub fn of(needs: &Needs) -> Ground {
        let body = needs.body;
        let stack_width = body
            .rows
            .iter()
            .flat_map(|row| row.stacks.iter().flat_map(|s| &s.0))
            .fold(Mm::ZERO, |widest, &b| widest.max(needs.bead(b).width));
        let first_lead = body.rows.iter().map(|row| row.lead).min().unwrap_or(0);
        let mut rows: Vec<RowGround> = body
            .rows
            .iter()
            .map(|row| {
                let mut levels = vec![Mm::ZERO; body.drop];
                for stack in &row.stacks {
                    for (level, &bead) in levels.iter_mut().zip(&stack.0) {
                        *level = level.max(needs.bead(bead).length);
                    }
                }
                RowGround { lead: row.lead - first_lead, stacks: row.stacks.len(), top: Mm::ZERO, levels }
            })
            .collect();
        let mut top = Mm::ZERO;
        for row in rows.iter_mut().rev() {
            row.top = top;
            top += row.height();
        }
        Ground { stack_width, rows }
    }

    /// Rows of the body.
    pub fn rows(&self) -> usize {
        self.rows.len()
    }

    /// Stacks in a row.
    pub fn stacks(&self, row: usize) -> usize {
        self.rows[row].stacks
    }

    /// Beads in a stack of a row.
    pub fn levels(&self, row: usize) -> usize {
        self.rows[row].levels.len()
    }

    /// Width of the body.
    pub fn width(&self) -> Mm {
        let half_stacks = self.rows.iter().map(|r| r.lead + 2 * r.stacks).max();
        self.stack_width * half_stacks.unwrap_or(0) as f64 / 2.0
    }

    /// Height of the body.
    pub fn height(&self) -> Mm {
        self.rows.iter().map(RowGround::height).sum()
    }

    /// Height of the highest row.
    pub fn stack_height(&self) -> Mm {
        self.rows.iter().fold(Mm::ZERO, |highest, r| highest.max(r.height()))
    }

    /// Stack `k` of a row counted from one side, from 1.
    pub fn counted_from(&self, row: usize, from: Side, k: usize) -> StackAt {
        let stack = match from {
            Side::Left => k - 1,
            Side::Right => self.rows[row].stacks - k,
        };
        StackAt { row, stack }
    }

    /// Where the hole of a stack ends: `Up` its upper, `Down` its lower end.
    pub fn hole_end(&self, at: StackAt, end: Way) -> Point {
        let row = &self.rows[at.row];
        let y = match end {
            Way::Up => row.top,
            Way::Down => row.top + row.height(),
        };
        Point { x: self.stack_middle(at), y }
    }

    /// Centre of a bead of the body.
    pub fn bead_centre(&self, at: StackAt, level: usize) -> Point {
        let row = &self.rows[at.row];
        let above: Mm = row.levels[..level].iter().copied().sum();
        Point { x: self.stack_middle(at), y: row.top + above + row.levels[level] / 2.0 }
    }

    /// Left and right edge of a stack.
    pub fn edges(&self, at: StackAt) -> (Mm, Mm) {
        let middle = self.stack_middle(at);
        (middle - self.stack_width / 2.0, middle + self.stack_width / 2.0)
    }

    /// Half way up a row.
    pub fn row_middle(&self, row: usize) -> Mm {
        self.rows[row].top + self.rows[row].height() / 2.0
    }

    /// The thread bridge between stacks `bridge` and `bridge + 1` of a row, at its upper edge.
    pub fn bridge_point(&self, row: usize, bridge: usize) -> Point {
        let at = StackAt { row, stack: bridge };
        Point { x: self.edges(at).1, y: self.rows[row].top }
    }

    /// The bridge of the row below on which a stack hangs: the one it lies over, or the last one
    /// on its side where it overhangs; `None` when the row below has no bridge.
    pub fn bridge_below(&self, at: StackAt) -> Option<usize> {
        let below = self.rows.get(at.row.checked_sub(1)?)?;
        let last = below.stacks.checked_sub(2)?;
        let half_stacks = self.half_stacks(at);
        Some((half_stacks.saturating_sub(below.lead + 1) / 2).min(last))
    }

    /// Stacks of the next row that touch the upper (`Up`) or lower (`Down`) end of a stack, from the left.
    pub fn touching(&self, at: StackAt, end: Way) -> Vec<StackAt> {
        let row = match end {
            Way::Up => at.row.checked_add(1),
            Way::Down => at.row.checked_sub(1),
        };
        let Some((row, ground)) = row.and_then(|r| Some((r, self.rows.get(r)?))) else {
            return Vec::new();
        };
        let half_stacks = self.half_stacks(at);
        [half_stacks.checked_sub(1), Some(half_stacks + 1)]
            .into_iter()
            .flatten()
            .filter_map(|h| {
                let aside = h.checked_sub(ground.lead)?;
                (aside % 2 == 0 && aside / 2 < ground.stacks).then_some(StackAt { row, stack: aside / 2 })
            })
            .collect()
    }

    /// The neighbours of a stack in its row, from the left.
    pub fn beside(&self, at: StackAt) -> Vec<StackAt> {
        let right = at.stack + 1;
        [at.stack.checked_sub(1), Some(right)]
            .into_iter()
            .flatten()
            .filter(|&stack| stack < self.rows[at.row].stacks)
            .map(|stack| StackAt { row: at.row, stack })
            .collect()
    }

    /// Half stacks from the body's left edge to a stack.
    fn half_stacks(&self, at: StackAt) -> usize {
        self.rows[at.row].lead + 2 * at.stack
    }

    fn stack_middle(&self, at: StackAt) -> Mm {
        self.stack_width * (self.half_stacks(at) + 1) as f64 / 2.0
    }
}
