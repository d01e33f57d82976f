//! The ground the thread moves on: where the body's stacks lie, and which touch which.

use super::needs::Needs;
use super::rows::starts_from;
use super::{Fabric, Lies, Manner, Pass, Section, SectionId, SectionKind, Spot, Stack, StackId, Way};
use crate::design::Side;
use crate::stitch::Lying;
use crate::units::{Mm, Point};
use std::collections::BTreeMap;

/// Where the body's stacks lie. Half stacks are counted from the body's left edge.
pub(super) struct Ground {
    /// The rows with their stacks and beads.
    pub fabric: Fabric,
    /// Width of one stack: of the widest bead that has a neighbour, so that none overlaps another.
    pub stack_width: Mm,
    rows: Vec<RowGround>,
    /// The row that lies in each line.
    lines: Vec<usize>,
    /// Stacks by line and half stacks.
    by_column: BTreeMap<(usize, usize), StackId>,
}

/// Where a row lies.
struct RowGround {
    /// Half stacks to its first stack.
    lead: usize,
    /// Its line: 0 is the lowest.
    line: usize,
    top: Mm,
    /// Height of each level from the top: of the longest bead that lies in it.
    levels: Vec<Mm>,
}

impl RowGround {
    fn height(&self) -> Mm {
        self.levels.iter().copied().sum()
    }
}

/// How far apart the middles of neighbouring stacks lie: as far as the widest bead that has a neighbour needs. The bead
/// of a row of one stack, at a tip, pushes none aside. Common practice, no source.
fn stack_width(needs: &Needs) -> Mm {
    let widest = |least: usize| {
        let rows = needs.body.rows.iter().filter(move |row| row.stacks.len() >= least);
        let beads = rows.flat_map(|row| row.stacks.iter().flat_map(|stack| &stack.0));
        beads.map(|bead| needs.bead(*bead).width).reduce(Mm::max)
    };
    widest(2).or_else(|| widest(1)).unwrap_or_default()
}

impl Ground {
    /// The ground of a body.
    pub fn of(needs: &Needs) -> Ground {
        let body = needs.body;
        let stack_width = stack_width(needs);
        let first_lead = body.rows.iter().map(|row| row.lead).min().unwrap_or(0);
        let mut rows: Vec<RowGround> = body
            .rows
            .iter()
            .enumerate()
            .map(|(index, row)| {
                let mut levels = vec![Mm::ZERO; body.drop];
                for stack in &row.stacks {
                    for (level, &bead) in levels.iter_mut().zip(&stack.0) {
                        *level = level.max(needs.bead(bead).length);
                    }
                }
                let below = body.rows.len() - body.above;
                let line = if index < body.above { below + index } else { body.rows.len() - 1 - index };
                RowGround { lead: row.lead - first_lead, line, top: Mm::ZERO, levels }
            })
            .collect();
        let mut lines: Vec<usize> = (0..rows.len()).collect();
        lines.sort_by_key(|row| rows[*row].line);
        let mut top = Mm::ZERO;
        for row in lines.iter().rev() {
            rows[*row].top = top;
            top += rows[*row].height();
        }
        let (fabric, by_column) = (Fabric::default(), BTreeMap::new());
        let mut ground = Ground { fabric, stack_width, rows, lines, by_column };
        for row in 0..body.rows.len() {
            ground.lay_row(needs, row);
        }
        ground
    }

    /// Lays the stacks and beads of a row.
    fn lay_row(&mut self, needs: &Needs, row: usize) {
        let from = starts_from(row, needs.start);
        let lies = self.lies(needs, row, from);
        let manner = manner(row, needs.stacks(row).len(), lies, needs.body.above);
        let section = SectionId(self.fabric.sections.len());
        let ground = &self.rows[row];
        let mut stacks = Vec::new();
        let mut all = Vec::new();
        for (place, letters) in needs.stacks(row).iter().enumerate() {
            let stack = StackId(self.fabric.stacks.len());
            let column = ground.lead + 2 * place;
            let x = self.stack_width * (column + 1) as f64 / 2.0;
            let mut y = ground.top;
            let mut beads = Vec::with_capacity(letters.0.len());
            for (level, (&letter, height)) in letters.0.iter().zip(&ground.levels).enumerate() {
                let spot = Spot(self.fabric.beads.len());
                let centre = Point { x, y: y + *height / 2.0 };
                let stack = Some(stack);
                self.fabric.beads.push(Lying {
                    spot,
                    letter,
                    centre,
                    turned: 0.0,
                    section,
                    stack,
                    place: level,
                });
                beads.push(spot);
                y += *height;
            }
            all.extend(&beads);
            let (upper, lower) = (Point { x, y: ground.top }, Point { x, y: ground.top + ground.height() });
            self.fabric.stacks.push(Stack { section, place, line: ground.line, beads, upper, lower });
            self.by_column.insert((ground.line, column), stack);
            stacks.push(stack);
        }
        self.fabric.sections.push(Section {
            kind: SectionKind::Row,
            number: row + 1,
            source: row,
            from,
            manner,
            stacks,
            beads: all,
            hangs_on: None,
            lies,
        });
    }

    /// How a row lies on the one it hangs on.
    fn lies(&self, needs: &Needs, row: usize, from: Side) -> Option<Lies> {
        let above = needs.body.above;
        let on = match row {
            0 => return None,
            row if row == above => 0,
            row => row - 1,
        };
        let edges = |row: usize| {
            let lead = self.rows[row].lead as i32;
            (lead, lead + 2 * needs.stacks(row).len() as i32)
        };
        let ((left, right), (under_left, under_right)) = (edges(row), edges(on));
        let (out_left, out_right) = (under_left - left, right - under_right);
        let (starts, ends) = match from {
            Side::Left => (out_left, out_right),
            Side::Right => (out_right, out_left),
        };
        let away = if row < above { Way::Up } else { Way::Down };
        Some(Lies { on: SectionId(on), away, starts, ends })
    }

    /// Rows of the body.
    pub fn rows(&self) -> usize {
        self.rows.len()
    }

    /// The topmost row.
    pub fn top_row(&self) -> usize {
        self.lines.last().copied().unwrap_or(0)
    }

    /// Stacks in a row.
    pub fn stacks(&self, row: usize) -> usize {
        self.row(row).len()
    }

    /// The stacks of a row from left to right.
    pub fn row(&self, row: usize) -> &[StackId] {
        &self.fabric.sections[row].stacks
    }

    /// The row that a stack belongs to.
    pub fn row_of(&self, stack: StackId) -> usize {
        self.fabric[self.fabric[stack].section].source
    }

    /// Width of the body.
    pub fn width(&self) -> Mm {
        let half_stacks = (0..self.rows()).map(|row| self.rows[row].lead + 2 * self.stacks(row)).max();
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
    pub fn counted_from(&self, row: usize, from: Side, k: usize) -> StackId {
        let stacks = self.row(row);
        match from {
            Side::Left => stacks[k - 1],
            Side::Right => stacks[stacks.len() - k],
        }
    }

    /// Where the hole of a stack ends: `Up` its upper, `Down` its lower end.
    pub fn hole_end(&self, stack: StackId, end: Way) -> Point {
        self.fabric[stack].end(end)
    }

    /// Left and right edge of a stack.
    pub fn edges(&self, stack: StackId) -> (Mm, Mm) {
        let middle = self.fabric[stack].upper.x;
        (middle - self.stack_width / 2.0, middle + self.stack_width / 2.0)
    }

    /// Half way up a stack's row.
    pub fn middle(&self, stack: StackId) -> Mm {
        let row = &self.rows[self.row_of(stack)];
        row.top + row.height() / 2.0
    }

    /// The pair of neighbouring stacks over whose bridge a stack lies, at the end where it hangs; or the last
    /// pair on its side where it overhangs; `None` when nothing there has a bridge.
    pub fn pair_at(&self, stack: StackId, end: Way) -> Option<[StackId; 2]> {
        let (line, column) = self.place_of(stack);
        let row = *self.lines.get(beyond(line, end)?)?;
        let ground = &self.rows[row];
        let stacks = self.row(row);
        let last = stacks.len().checked_sub(2)?;
        let left = (column.saturating_sub(ground.lead + 1) / 2).min(last);
        Some([stacks[left], stacks[left + 1]])
    }

    /// Stacks of the next line that touch the upper (`Up`) or lower (`Down`) end of a stack, from the left.
    pub fn touching(&self, stack: StackId, end: Way) -> Vec<StackId> {
        let (line, column) = self.place_of(stack);
        let Some(line) = beyond(line, end) else { return Vec::new() };
        let columns = [column.checked_sub(1), Some(column + 1)];
        columns.into_iter().flatten().filter_map(|c| self.by_column.get(&(line, c)).copied()).collect()
    }

    /// The neighbours of a stack in its row, from the left.
    pub fn beside(&self, stack: StackId) -> Vec<StackId> {
        let at = &self.fabric[stack];
        let row = &self.fabric[at.section].stacks;
        let places = [at.place.checked_sub(1), Some(at.place + 1)];
        places.into_iter().flatten().filter_map(|place| row.get(place).copied()).collect()
    }

    /// The stacks of a row that lie between two others of it, from the one to the other.
    pub fn between(&self, one: StackId, other: StackId) -> Vec<StackId> {
        let (a, b) = (self.fabric[one].place, self.fabric[other].place);
        let row = &self.fabric[self.fabric[one].section].stacks;
        let inner = a.min(b) + 1..a.max(b).max(a.min(b) + 1);
        let mut between = row.get(inner).unwrap_or_default().to_vec();
        if a > b {
            between.reverse();
        }
        between
    }

    /// Whether two stacks are neighbours in a row, and if so from left to right.
    pub fn neighbours(&self, one: StackId, other: StackId) -> Option<[StackId; 2]> {
        let (a, b) = (&self.fabric[one], &self.fabric[other]);
        if a.section != b.section || a.place.abs_diff(b.place) != 1 {
            return None;
        }
        Some(if a.place < b.place { [one, other] } else { [other, one] })
    }

    /// The beads of a pass in the order passed.
    pub fn beads_of(&self, pass: Pass) -> Vec<Spot> {
        let beads = &self.fabric[pass.stack].beads;
        match pass.way {
            Way::Down => beads.clone(),
            Way::Up => beads.iter().rev().copied().collect(),
        }
    }

    /// Line and half stacks of a stack.
    fn place_of(&self, stack: StackId) -> (usize, usize) {
        let at = &self.fabric[stack];
        (at.line, self.rows[self.row_of(stack)].lead + 2 * at.place)
    }
}

/// How a row begins.
fn manner(row: usize, stacks: usize, lies: Option<Lies>, above: usize) -> Manner {
    match lies {
        None => Manner::Ladder,
        Some(_) if row == above => Manner::Turned,
        Some(lies) if lies.starts >= 1 => Manner::Wider,
        Some(lies) if lies.starts <= -3 => Manner::WalkIn,
        Some(_) if stacks == 1 => Manner::Alone,
        Some(_) => Manner::Narrower,
    }
}

/// The line next to a line.
fn beyond(line: usize, end: Way) -> Option<usize> {
    match end {
        Way::Up => Some(line + 1),
        Way::Down => line.checked_sub(1),
    }
}
