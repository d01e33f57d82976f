//! Places to anchor a thread: where its wraps show least, and the free path there.

use super::ground::Ground;
use super::needle::Needle;
use super::needs::Needs;
use super::room::Room;
use super::strung::Strung;
use super::travel::{Travel, way_to};
use super::{Anchor, MoveKind, Pass, SectionId, StackId, ThreadUse, Way, practice};
use crate::design::Side;
use crate::units::Point;
use std::collections::BTreeSet;
use std::ops::RangeInclusive;

/// How a thread that ends goes into its anchor.
pub(super) struct AnchorWalk {
    /// Stacks passed on the way to the pair.
    pub travel: Vec<Pass>,
    /// The stacks it runs through after the wraps, before it is cut.
    pub away: Vec<Pass>,
    /// The pair, from left to right; a stack without a neighbour is both.
    pub pair: [StackId; 2],
    /// Mean CIEDE2000 difference between the thread and the beads of the pair.
    pub difference: f64,
}

impl AnchorWalk {
    /// The anchor as reported; `join` where lengths of a thread join.
    pub fn anchor(&self, thread: ThreadUse, begins: bool, join: Option<SectionId>) -> Anchor {
        Anchor { thread, begins, join, stacks: self.pair, difference: self.difference }
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
        let [left, right] = self.pair;
        let (left_edge, _) = ground.edges(left);
        let (_, right_edge) = ground.edges(right);
        let y = ground.middle(left);
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
            needle.make(MoveKind::Wrap { anchor }, Vec::new(), [near, far, near]);
        }
    }
}

fn pass_all(needle: &mut Needle, steps: impl IntoIterator<Item = Pass>) {
    for step in steps {
        needle.pass(step.stack, step.way);
    }
}

fn turned_round(steps: &[Pass]) -> impl Iterator<Item = Pass> + '_ {
    steps.iter().rev().map(|s| Pass { stack: s.stack, way: s.way.back() })
}

/// What is worked when a place to anchor is chosen.
pub(super) struct Worked<'w> {
    /// The stacks strung so far.
    pub strung: &'w Strung,
    /// Which holes take another pass.
    pub room: &'w Room,
}

/// Chooses places to anchor for one thread colour.
pub(super) struct Chooser<'a> {
    ground: &'a Ground,
    needs: &'a Needs<'a>,
    thread: ThreadUse,
    /// CIEDE2000 difference of each letter's bead to the thread.
    differences: Vec<f64>,
}

/// Places to anchor by what matters most, best first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Class {
    /// Close in colour, and no other anchor round either stack.
    Good,
    /// Close in colour, but with an anchor round one of the stacks.
    Beside,
    /// Close in colour, but with an anchor round the same pair.
    Taken,
    /// Wraps show there.
    Shows,
}

/// A place that a thread can reach, as a candidate.
struct Candidate {
    pair: [StackId; 2],
    /// The stack of the pair through which the thread runs down after the wraps.
    down: StackId,
    reached: Pass,
    passes: usize,
}

/// Which anchors there are.
struct Held {
    pairs: BTreeSet<[StackId; 2]>,
    stacks: BTreeSet<StackId>,
}

impl Held {
    fn by(taken: &[Anchor]) -> Held {
        Held {
            pairs: taken.iter().map(|anchor| anchor.stacks).collect(),
            stacks: taken.iter().flat_map(|anchor| anchor.stacks).collect(),
        }
    }
}

/// Which holes a thread may go through on its way to an anchor and from it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Holes {
    /// Those that another pass leaves easy.
    Easy,
    /// Tight ones too, as few as can be, where there is no other way.
    Any,
}

impl<'a> Chooser<'a> {
    /// For a thread.
    pub fn new(ground: &'a Ground, needs: &'a Needs, thread: ThreadUse) -> Chooser<'a> {
        let colour = match thread {
            ThreadUse::Body => needs.body_thread.colour.lab(),
            ThreadUse::Fringe => needs.fringe_thread.colour.lab(),
        };
        let differences =
            needs.beads.iter().map(|bead| crate::colour::delta_e(bead.colour.lab(), colour)).collect();
        Chooser { ground, needs, thread, differences }
    }

    /// The best place to end a thread that stands somewhere: of the places near it the least
    /// difference in colour, then the fewest stacks passed, then the nearest to the starting side.
    /// Only when none of them is close in colour and free of other anchors is it looked for further away, and then
    /// only up to `reach` stacks. A place that makes holes tight is taken only where there is no other. `taken` are pairs that
    /// already hold an anchor.
    pub fn choose(&self, worked: &Worked, from: Pass, taken: &[Anchor], reach: usize) -> AnchorWalk {
        let held = Held::by(taken);
        let near = self.within(worked, from, &held, practice::ANCHOR_NEAR.min(reach), Holes::Easy);
        let good = |walk: &AnchorWalk| self.class(walk.pair, &held) == Class::Good;
        let found = near.filter(good).or_else(|| self.within(worked, from, &held, reach, Holes::Any));
        // A single stack has no neighbour: the thread is wrapped round it where it stands.
        found.unwrap_or_else(|| AnchorWalk {
            travel: Vec::new(),
            away: vec![Pass { stack: from.stack, way: from.way.back() }],
            pair: [from.stack; 2],
            difference: self.difference([from.stack; 2]),
        })
    }

    /// The best place within a number of passes.
    ///
    /// Not in the top row, nor in the foundation, from which the thread could not run down two
    /// stacks more; a body of one or two rows has no other place, and takes these.
    fn within(
        &self,
        worked: &Worked,
        from: Pass,
        held: &Held,
        passes: usize,
        holes: Holes,
    ) -> Option<AnchorWalk> {
        let travel = Travel { ground: self.ground, first: self.needs.start };
        let (parents, reached) = travel.reach(from, passes, |stack| worked.strung.contains(stack));
        let all: Vec<Candidate> =
            reached.iter().flat_map(|&(standing, passes)| self.pairs_at(worked, standing, passes)).collect();
        let (lowest, top) = self.lines(worked).into_inner();
        let line = |c: &Candidate| self.ground.fabric[c.pair[0]].line;
        let lines = [lowest + 1..top, lowest..top, lowest..top + 1];
        let lines = lines.into_iter().find(|lines| all.iter().any(|c| lines.contains(&line(c))))?;
        let mut ranked: Vec<Candidate> = all.into_iter().filter(|c| lines.contains(&line(c))).collect();
        ranked.sort_by_cached_key(|c| self.rank(c, held));
        let walk = |c: &Candidate| AnchorWalk {
            travel: way_to(c.reached, &parents),
            away: self.away_from(worked, c),
            pair: c.pair,
            difference: self.difference(c.pair),
        };
        // How many passes of a walk would be through tight holes.
        let tight =
            |walk: &AnchorWalk| worked.room.lacking(&[&walk.travel[..], &walk.away].concat(), self.thread);
        // A walk passes this stack, whatever else it passes.
        let may_be_easy = |c: &&Candidate| worked.room.takes(c.down, self.thread);
        let easy = ranked.iter().filter(may_be_easy).map(walk).find(|walk| tight(walk) == 0);
        match holes {
            Holes::Easy => easy,
            Holes::Any => easy.or_else(|| ranked.iter().map(walk).min_by_key(tight)),
        }
    }

    /// The lines of stacks that are strung, from the lowest to the topmost.
    fn lines(&self, worked: &Worked) -> RangeInclusive<usize> {
        let is_strung = |stack: &&StackId| worked.strung.contains(**stack);
        // Stacks are strung row by row, each from one of its ends.
        let rows = self.ground.fabric.sections.iter();
        let begun = rows
            .filter_map(|row| [row.stacks.first(), row.stacks.last()].into_iter().flatten().find(is_strung));
        let lines: Vec<usize> = begun.map(|stack| self.ground.fabric[*stack].line).collect();
        lines.iter().copied().min().unwrap_or(0)..=lines.iter().copied().max().unwrap_or(0)
    }

    /// The pairs round which a thread can be wrapped from where it stands: it must be at their
    /// upper edge, so that it can run down from there.
    fn pairs_at(&self, worked: &Worked, standing: Pass, passes: usize) -> Vec<Candidate> {
        let at = standing.stack;
        let candidate = |a: StackId, b: StackId, down: StackId| {
            let pair = self.ground.neighbours(a, b)?;
            if !pair.iter().all(|stack| worked.strung.contains(*stack)) {
                return None;
            }
            Some(Candidate { pair, down, reached: standing, passes })
        };
        match standing.way {
            Way::Up => {
                self.ground.beside(at).into_iter().filter_map(|other| candidate(at, other, other)).collect()
            }
            Way::Down => match self.ground.touching(at, Way::Down)[..] {
                [left, right] => {
                    let down = match self.needs.start {
                        Side::Left => left,
                        Side::Right => right,
                    };
                    candidate(left, right, down).into_iter().collect()
                }
                _ => Vec::new(),
            },
        }
    }

    /// How good a pair is in colour, and whether it is free.
    fn class(&self, pair: [StackId; 2], held: &Held) -> Class {
        if self.difference(pair) > practice::CLOSE_COLOUR {
            Class::Shows
        } else if held.pairs.contains(&pair) {
            Class::Taken
        } else if pair.iter().any(|stack| held.stacks.contains(stack)) {
            Class::Beside
        } else {
            Class::Good
        }
    }

    /// Rank of a candidate: the least is the best of those that make no hole tight.
    fn rank(&self, c: &Candidate, held: &Held) -> (Class, i64, usize, usize) {
        let crowded = if held.pairs.contains(&c.pair) {
            practice::TAKEN
        } else if c.pair.iter().any(|stack| held.stacks.contains(stack)) {
            practice::CROWDED
        } else {
            0.0
        };
        let difference = self.difference(c.pair) + crowded;
        let left = &self.ground.fabric[c.pair[0]];
        let from_start = match self.needs.start {
            Side::Left => left.place,
            Side::Right => self.ground.fabric[left.section].stacks.len() - 1 - left.place,
        };
        // In millionths, so that the order of summing decides nothing.
        (self.class(c.pair, held), (difference * 1e6).round() as i64, c.passes, from_start)
    }

    /// Mean difference between the thread and the beads of a pair.
    fn difference(&self, pair: [StackId; 2]) -> f64 {
        let fabric = &self.ground.fabric;
        let letters = pair.iter().flat_map(|stack| &fabric[*stack].beads).map(|spot| fabric[*spot].letter);
        let (count, sum) =
            letters.fold((0usize, 0.0), |(n, sum), letter| (n + 1, sum + self.differences[letter.0]));
        sum / count.max(1) as f64
    }

    /// Two stacks down from a pair; in the foundation down one and up its neighbour.
    fn away_from(&self, worked: &Worked, c: &Candidate) -> Vec<Pass> {
        let mut below = self.ground.touching(c.down, Way::Down);
        below.retain(|stack| worked.strung.contains(*stack));
        if self.needs.start == Side::Right {
            below.reverse();
        }
        let first = Pass { stack: c.down, way: Way::Down };
        let second = match below.first() {
            Some(&stack) => Some(Pass { stack, way: Way::Down }),
            None => {
                let [left, right] = c.pair;
                let stack = if c.down == left { right } else { left };
                Some(Pass { stack, way: Way::Up })
            }
        };
        [first].into_iter().chain(second).collect()
    }
}
