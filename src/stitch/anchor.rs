//! Places to anchor a thread: where its wraps show least, and the free path there.

use super::ground::Ground;
use super::needle::Needle;
use super::needs::Needs;
use super::{Anchor, MoveKind, StackAt, ThreadUse, Way, practice};
use crate::colour::Colour;
use crate::design::Side;
use crate::units::Point;
use std::collections::BTreeMap;
use std::ops::Range;

/// A thread that has just passed a stack, and stands at the end where it came out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Standing {
    /// The stack passed.
    pub stack: StackAt,
    /// Which way.
    pub way: Way,
}

/// How a thread that ends goes into its anchor.
pub(super) struct AnchorWalk {
    /// Stacks passed on the way to the pair.
    pub travel: Vec<Standing>,
    /// The stacks it runs through after the wraps, before it is cut.
    pub away: Vec<Standing>,
    /// Row of the pair.
    pub row: usize,
    /// Left stack of the pair.
    pub left: usize,
    /// Mean CIEDE2000 difference between the thread and the beads of the pair.
    pub difference: f64,
}

impl AnchorWalk {
    /// The anchor as reported.
    pub fn anchor(&self, thread: ThreadUse, begins: bool) -> Anchor {
        Anchor { thread, begins, row: self.row, stack: self.left, difference: self.difference }
    }

    /// Ends a thread: to the pair, round it, away from it.
    pub fn end(&self, needle: &mut Needle, anchor: usize, start: Side) {
        pass_all(needle, self.travel.iter().copied());
        self.wrap(needle, anchor, start);
        pass_all(needle, self.away.iter().copied());
    }

    /// Begins a thread: the same walk from its far end, up to the wraps.
    pub fn begin(&self, needle: &mut Needle, anchor: usize, start: Side) {
        pass_all(needle, turned_round(&self.away));
        self.wrap(needle, anchor, start);
    }

    /// Goes on from the wraps of a beginning thread to where the walk was planned from.
    pub fn come_back(&self, needle: &mut Needle) {
        pass_all(needle, turned_round(&self.travel));
    }

    /// Where a thread that begins here is entered.
    pub fn far_end(&self, ground: &Ground) -> Option<Point> {
        let last = self.away.last()?;
        Some(ground.hole_end(last.stack, last.way))
    }

    /// Wraps in front of the pair and back behind it.
    fn wrap(&self, needle: &mut Needle, anchor: usize, start: Side) {
        let ground = needle.ground;
        let right = (self.left + 1).min(ground.stacks(self.row) - 1);
        let (left_edge, _) = ground.edges(StackAt { row: self.row, stack: self.left });
        let (_, right_edge) = ground.edges(StackAt { row: self.row, stack: right });
        let y = ground.row_middle(self.row);
        let aside = needle.stands().x - (left_edge + right_edge) / 2.0;
        let near_left = match aside.0 {
            x if x < -1e-9 => true,
            x if x > 1e-9 => false,
            _ => start == Side::Left,
        };
        let (near, far) = match near_left {
            true => (left_edge, right_edge),
            false => (right_edge, left_edge),
        };
        let (near, far) = (Point { x: near, y }, Point { x: far, y });
        for _ in 0..practice::ANCHOR_WRAPS {
            needle.make(MoveKind::Wrap { anchor }, [near, far, near]);
        }
    }
}

fn pass_all(needle: &mut Needle, steps: impl IntoIterator<Item = Standing>) {
    for step in steps {
        needle.pass(step.stack, step.way);
    }
}

fn turned_round(steps: &[Standing]) -> impl Iterator<Item = Standing> + '_ {
    steps.iter().rev().map(|s| Standing { stack: s.stack, way: s.way.back() })
}

/// Chooses places to anchor for one thread colour.
pub(super) struct Chooser<'a> {
    ground: &'a Ground,
    needs: &'a Needs<'a>,
    /// CIEDE2000 difference of each letter's bead to the thread.
    differences: Vec<f64>,
}

/// A place that a thread can reach, as a candidate.
struct Candidate {
    row: usize,
    left: usize,
    /// The stack of the pair through which the thread runs down after the wraps.
    down: StackAt,
    reached: Standing,
    passes: usize,
}

impl<'a> Chooser<'a> {
    /// For a thread of this colour.
    pub fn new(ground: &'a Ground, needs: &'a Needs, thread: Colour) -> Chooser<'a> {
        let thread = thread.lab();
        let differences =
            needs.beads.iter().map(|bead| crate::colour::delta_e(bead.colour.lab(), thread)).collect();
        Chooser { ground, needs, differences }
    }

    /// The best place to end a thread that stands somewhere: of the places near it the least
    /// difference in colour, then the fewest stacks passed, then the nearest to the starting side.
    /// Only when none of them is close in colour is it looked for further away, and then only up
    /// to `reach` stacks. `taken` are pairs that already hold an anchor.
    pub fn choose(&self, from: Standing, taken: &[Anchor], reach: usize) -> AnchorWalk {
        let (parents, reached) = self.reach(from, reach);
        let candidates: Vec<Candidate> =
            reached.iter().flat_map(|&(standing, passes)| self.pairs_at(standing, passes)).collect();
        let near = self.best(&candidates, taken, practice::ANCHOR_NEAR.min(reach));
        let close = |c: &&Candidate| self.difference(c.row, c.left) <= practice::CLOSE_COLOUR;
        let best = near.filter(close).or_else(|| self.best(&candidates, taken, reach));
        match best {
            Some(best) => AnchorWalk {
                travel: way_to(best.reached, &parents),
                away: self.away_from(best),
                row: best.row,
                left: best.left,
                difference: self.difference(best.row, best.left),
            },
            // A single stack has no neighbour: the thread is wrapped round it where it stands.
            None => AnchorWalk {
                travel: Vec::new(),
                away: vec![Standing { stack: from.stack, way: from.way.back() }],
                row: from.stack.row,
                left: from.stack.stack,
                difference: self.difference(from.stack.row, from.stack.stack),
            },
        }
    }

    /// The best of the candidates within a number of passes.
    ///
    /// Not in the top row, nor in the foundation, from which the thread could not run down two
    /// stacks more; a body of one or two rows has no other place, and takes these.
    fn best<'c>(&self, all: &'c [Candidate], taken: &[Anchor], passes: usize) -> Option<&'c Candidate> {
        let top = self.ground.rows() - 1;
        let within = |rows: Range<usize>| {
            all.iter()
                .filter(|c| c.passes <= passes && rows.contains(&c.row))
                .min_by_key(|c| self.rank(c, taken))
        };
        within(1..top).or_else(|| within(0..top)).or_else(|| within(0..top + 1))
    }

    /// Every standing in reach with the passes to it, nearest first, and where each is come from.
    fn reach(&self, from: Standing, most: usize) -> (BTreeMap<Standing, Standing>, Vec<(Standing, usize)>) {
        let mut parents = BTreeMap::new();
        let mut reached = vec![(from, 0)];
        let mut next = 0;
        while let Some(&(standing, passes)) = reached.get(next) {
            next += 1;
            if passes == most {
                continue;
            }
            for step in self.steps(standing) {
                if step != from && !parents.contains_key(&step) {
                    parents.insert(step, standing);
                    reached.push((step, passes + 1));
                }
            }
        }
        (parents, reached)
    }

    /// The stacks a thread can pass next: one that touches the end where it stands, or a neighbour
    /// back the other way. Where there is none, it goes back through the same stack.
    fn steps(&self, at: Standing) -> Vec<Standing> {
        let mut onward = self.ground.touching(at.stack, at.way);
        let mut beside = self.ground.beside(at.stack);
        if self.needs.start == Side::Right {
            onward.reverse();
            beside.reverse();
        }
        let onward = onward.into_iter().map(|stack| Standing { stack, way: at.way });
        let beside = beside.into_iter().map(|stack| Standing { stack, way: at.way.back() });
        let steps: Vec<Standing> = onward.chain(beside).collect();
        match steps.is_empty() {
            true => vec![Standing { stack: at.stack, way: at.way.back() }],
            false => steps,
        }
    }

    /// The pairs round which a thread can be wrapped from where it stands: it must be at their
    /// upper edge, so that it can run down from there.
    fn pairs_at(&self, standing: Standing, passes: usize) -> Vec<Candidate> {
        let at = standing.stack;
        let candidate = |a: StackAt, b: StackAt, down: StackAt| Candidate {
            row: a.row,
            left: a.stack.min(b.stack),
            down,
            reached: standing,
            passes,
        };
        match standing.way {
            Way::Up => self.ground.beside(at).into_iter().map(|other| candidate(at, other, other)).collect(),
            Way::Down => match self.ground.touching(at, Way::Down)[..] {
                [left, right] => {
                    let down = match self.needs.start {
                        Side::Left => left,
                        Side::Right => right,
                    };
                    vec![candidate(left, right, down)]
                }
                _ => Vec::new(),
            },
        }
    }

    /// Rank of a candidate: the least is the best.
    fn rank(&self, c: &Candidate, taken: &[Anchor]) -> (i64, usize, usize) {
        let crowded = taken.iter().any(|a| a.row == c.row && a.stack.abs_diff(c.left) <= 1);
        let difference = self.difference(c.row, c.left) + if crowded { practice::CROWDED } else { 0.0 };
        let from_start = match self.needs.start {
            Side::Left => c.left,
            Side::Right => self.ground.stacks(c.row) - 1 - c.left,
        };
        // In millionths, so that the order of summing decides nothing.
        ((difference * 1e6).round() as i64, c.passes, from_start)
    }

    /// Mean difference between the thread and the beads of a pair.
    fn difference(&self, row: usize, left: usize) -> f64 {
        let beads = self.needs.stacks(row)[left..].iter().take(2).flat_map(|stack| &stack.0);
        let (count, sum) =
            beads.fold((0usize, 0.0), |(n, sum), letter| (n + 1, sum + self.differences[letter.0]));
        sum / count.max(1) as f64
    }

    /// Two stacks down from a pair; in the foundation down one and up its neighbour.
    fn away_from(&self, c: &Candidate) -> Vec<Standing> {
        let mut below = self.ground.touching(c.down, Way::Down);
        if self.needs.start == Side::Right {
            below.reverse();
        }
        let first = Standing { stack: c.down, way: Way::Down };
        let second = match below.first() {
            Some(&stack) => Some(Standing { stack, way: Way::Down }),
            None => {
                let other = if c.down.stack == c.left { c.left + 1 } else { c.left };
                let stack = StackAt { row: c.row, stack: other };
                Some(Standing { stack, way: Way::Up })
            }
        };
        [first].into_iter().chain(second).collect()
    }
}

/// The steps to a standing, by where each was come from.
fn way_to(standing: Standing, parents: &BTreeMap<Standing, Standing>) -> Vec<Standing> {
    let mut steps = Vec::new();
    let mut at = standing;
    while let Some(&before) = parents.get(&at) {
        steps.push(at);
        at = before;
    }
    steps.reverse();
    steps
}
