//! Mirror images: the second earring of a pair.

use super::{Design, Row, Side, StackPlace};

impl Design {
    /// The mirror image, worked from the other side: the same pick-ups with left and right exchanged.
    #[must_use]
    pub fn mirrored(&self) -> Design {
        let mut design = self.clone();
        let right_edge = |row: &Row| row.lead + 2 * row.stacks.len();
        let widest = self.body.rows.iter().map(right_edge).max().unwrap_or(0);
        for row in &mut design.body.rows {
            row.lead = widest - right_edge(row);
            row.stacks.reverse();
        }
        design.fringe.strands.reverse();
        for strand in &mut design.fringe.strands {
            let StackPlace { row, stack } = &mut strand.hangs_on;
            *stack = self.body.rows[*row].stacks.len() - 1 - *stack;
        }
        let top = self.body.top_row().stacks.len();
        // A loop is strung from the other side, so its order in the hand stays.
        design.hangings.reverse();
        for hanging in &mut design.hangings {
            hanging.on = hanging.on.map(|[left, right]| [top + 1 - right, top + 1 - left]);
        }
        design.start = match self.start {
            Side::Left => Side::Right,
            Side::Right => Side::Left,
        };
        design
    }
}
