//! Which slabs stand on which page: a choice over the whole booklet, not page by page. Every page has a cost – its
//! white, what it parts, where its sections begin – and the pages with the least sum are taken, found by dynamic
//! programming (in the spirit of Knuth and Plass, Breaking Paragraphs into Lines, 1981). What floats is put where it
//! fills what a section leaves. Only heights are known here.

use crate::units::Mm;

/// Most that can float; more stand where they are.
pub(super) const MOST_FLOATS: usize = 4;
/// Rounding may make a page higher by this.
const HAIR: f64 = 0.001;
/// A page that is filled less looks empty; a little more is asked for, as descenders are not drawn to the end.
const HALF: f64 = 0.515;

/// Cost of a page that is less than half full, and of each further share that it lacks.
const EMPTY: (f64, f64) = (4_000.0, 4_000.0);
/// Cost of white, by the square of its share: below what goes on overleaf, and below the end of a section.
const WHITE: (f64, f64) = (100.0, 35.0);
/// Cost of parting what belongs together, which only what is taller than a page may ask for.
const PARTED: f64 = 100_000.0;
/// Cost of a section's title with too little below it.
const CLOSE_TO_FOOT: f64 = 400.0;
/// Cost of a page more.
const PAGE: f64 = 8.0;
/// Cost of a chart made smaller, by the share that it loses.
const SMALLER: f64 = 60.0;
/// Cost of a float for each section that lies between it and its own.
const STRAYED: f64 = 6.0;
/// Cost of sections that could face each other and do not.
const TURNED: f64 = 150.0;
/// Cost of a last page with next to nothing on it, by the share that it lacks of this one.
const LAST: (f64, f64) = (0.25, 80.0);

/// What begins with a slab.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) enum Begins {
    /// Nothing.
    #[default]
    Nothing,
    /// A part of a section that rather begins a page.
    Part,
    /// A section.
    Section,
    /// A section that has a page to itself.
    Page,
}

/// A slab as far as pages ask for it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Measure {
    /// Its height.
    pub height: Mm,
    /// Least height that it can be set in.
    pub least: Mm,
    /// Space above it, but at the head of a page.
    pub before: Mm,
    /// Space below it.
    pub after: Mm,
    /// Height of what is repeated above it at the head of a page.
    pub repeat: Mm,
    /// Height that must be free from its top on, or it begins a page.
    pub wants: Mm,
    /// Cost of a page that ends after it, besides its white.
    pub tie: f64,
    /// Whether no page ends after it, as long as a page can hold what is so tied.
    pub tied: bool,
    /// What begins with it.
    pub begins: Begins,
    /// Cost of what begins with it when it does not begin a page.
    pub below_others: f64,
    /// Whether it begins a section that faces the one before.
    pub faces: bool,
}

/// What may stand at the end of another section than its own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Float {
    /// Its height.
    pub height: Mm,
    /// Space above it.
    pub before: Mm,
    /// How many sections begin before its own ends.
    pub home: usize,
}

/// The slabs and floats of one page.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Stretch {
    /// Its first slab.
    pub from: usize,
    /// The slab after its last.
    pub to: usize,
    /// The floats below them.
    pub floats: Vec<usize>,
}

/// A way to a state: what it costs, and the page that leads there.
#[derive(Clone, Copy, Debug)]
struct Way {
    cost: f64,
    from: usize,
    /// The floats that were placed before.
    placed: usize,
}

/// What is known while pages are chosen.
struct Fit<'m> {
    slabs: &'m [Measure],
    floats: &'m [Float],
    room: Mm,
    /// Whether a page may end after each slab.
    ends: Vec<bool>,
    /// How many sections have begun with each slab.
    sections: Vec<usize>,
    /// The best way to each state: before a slab, on a left or right page, with some floats placed.
    ways: Vec<Way>,
}

/// Puts slabs on pages of a height, the first of them a right one. None is higher than a page.
pub(super) fn fit(slabs: &[Measure], floats: &[Float], room: Mm) -> Vec<Stretch> {
    if slabs.is_empty() {
        return Vec::new();
    }
    let begun = slabs.iter().scan(0, |sections, slab| {
        *sections += usize::from(matches!(slab.begins, Begins::Section | Begins::Page));
        Some(*sections)
    });
    let states = (slabs.len() + 1) * 2 << floats.len();
    let unknown = Way { cost: f64::INFINITY, from: 0, placed: 0 };
    let mut fit = Fit {
        slabs,
        floats,
        room,
        ends: ends(slabs, room),
        sections: begun.collect(),
        ways: vec![unknown; states],
    };
    let first = fit.state(0, 0, 0);
    fit.ways[first].cost = 0.0;
    for from in 0..=slabs.len() {
        fit.page_of_floats(from);
        fit.pages_from(from);
    }
    fit.chosen()
}

/// Where pages may end: between what is tied only where it is too high for one page.
fn ends(slabs: &[Measure], room: Mm) -> Vec<bool> {
    let mut ends: Vec<bool> = slabs.iter().map(|slab| !slab.tied).collect();
    let mut from = 0;
    while from < slabs.len() {
        let to = (from..slabs.len()).find(|&at| !slabs[at].tied).unwrap_or(slabs.len() - 1);
        let mut height = Height::default();
        slabs[from..=to].iter().for_each(|slab| height.add(slab));
        if height.least > room + Mm(HAIR) {
            ends[from..=to].fill(true);
        }
        from = to + 1;
    }
    ends
}

/// Height of slabs on one page.
pub(super) fn height<'m>(slabs: impl Iterator<Item = &'m Measure>) -> Mm {
    let mut height = Height::default();
    slabs.for_each(|slab| height.add(slab));
    height.whole
}

/// Height of slabs one under the other.
#[derive(Clone, Copy, Debug, Default)]
struct Height {
    whole: Mm,
    least: Mm,
    after: Mm,
    any: bool,
}

impl Height {
    fn add(&mut self, slab: &Measure) {
        let over = if self.any { self.after.max(slab.before) } else { slab.repeat };
        self.whole += over + slab.height;
        self.least += over + slab.least;
        self.after = slab.after;
        self.any = true;
    }

    fn float(&mut self, float: &Float) {
        let over = if self.any { self.after.max(float.before) } else { Mm::ZERO };
        self.whole += over + float.height;
        self.least += over + float.height;
        self.after = float.before;
        self.any = true;
    }
}

impl Fit<'_> {
    fn state(&self, at: usize, side: usize, placed: usize) -> usize {
        ((at * 2 + side) << self.floats.len()) + placed
    }

    /// Whether a section ends before a slab.
    fn is_section_end(&self, at: usize) -> bool {
        at > 0 && self.slabs.get(at).is_none_or(|slab| matches!(slab.begins, Begins::Section | Begins::Page))
    }

    /// Every page that begins with a slab.
    fn pages_from(&mut self, from: usize) {
        let masks = 1 << self.floats.len();
        let known = (0..2 * masks).any(|state| self.ways[from * 2 * masks + state].cost.is_finite());
        if !known {
            return;
        }
        let mut height = Height::default();
        let mut cost = 0.0;
        for at in from..self.slabs.len() {
            let slab = self.slabs[at];
            if at > from {
                if slab.begins == Begins::Page {
                    break;
                }
                cost += slab.below_others;
                let over = height.after.max(slab.before);
                let left = self.room - height.whole - over;
                if left < slab.wants && !self.ends_within(at, left) {
                    cost += CLOSE_TO_FOOT;
                }
            }
            height.add(&slab);
            if height.least > self.room + Mm(HAIR) {
                break;
            }
            if self.ends[at] {
                self.end_page(from, at + 1, height, cost);
            }
            if slab.begins == Begins::Page {
                break;
            }
        }
    }

    /// Whether the section that begins with a slab ends within a height.
    fn ends_within(&self, at: usize, room: Mm) -> bool {
        let mut height = Height::default();
        for (index, slab) in self.slabs.iter().enumerate().skip(at) {
            height.add(&Measure { repeat: Mm::ZERO, ..*slab });
            if height.least > room {
                return false;
            }
            if self.is_section_end(index + 1) {
                return true;
            }
        }
        true
    }

    /// Ends a page, with each choice of floats below it where a section ends.
    fn end_page(&mut self, from: usize, to: usize, height: Height, cost: f64) {
        let tie = self.slabs[to - 1];
        let tie = tie.tie + if tie.tied { PARTED } else { 0.0 };
        let cost = cost + if to < self.slabs.len() { tie } else { 0.0 };
        self.with_floats(from, to, height, cost, 0);
        if self.is_section_end(to) && self.slabs[from].begins != Begins::Page {
            for more in 1..1 << self.floats.len() {
                self.with_floats(from, to, height, cost, more);
            }
        }
    }

    /// A page of floats alone, between two sections.
    fn page_of_floats(&mut self, at: usize) {
        if !self.is_section_end(at) {
            return;
        }
        for more in 1..1 << self.floats.len() {
            self.with_floats(at, at, Height::default(), 0.0, more);
        }
    }

    /// A page with these floats below its slabs, from every state that still has them.
    fn with_floats(&mut self, from: usize, to: usize, mut height: Height, mut cost: f64, more: usize) {
        let here = self.sections[to.max(1) - 1];
        let floats = self.floats.iter().enumerate().filter(|(index, _)| more >> index & 1 == 1);
        for (_, float) in floats {
            height.float(float);
            // What is told of should not be told of long before.
            let strayed = (here as f64 - float.home as f64) * if here < float.home { 2.0 } else { 1.0 };
            cost += strayed.abs() * STRAYED;
        }
        if height.least > self.room + Mm(HAIR) {
            return;
        }
        let masks = 1 << self.floats.len();
        for side in 0..2 {
            let cost = cost + self.page_cost(from, to, side, &height);
            for placed in (0..masks).filter(|placed| placed & more == 0) {
                let before = self.ways[self.state(from, side, placed)].cost;
                let state = self.state(to, 1 - side, placed | more);
                if before + cost < self.ways[state].cost {
                    self.ways[state] = Way { cost: before + cost, from, placed };
                }
            }
        }
    }

    /// Cost of a page by its height, on the right (0) or left (1).
    fn page_cost(&self, from: usize, to: usize, side: usize, height: &Height) -> f64 {
        if from < to && self.slabs[from].begins == Begins::Page {
            return 0.0;
        }
        let over = (height.whole - self.room).max(Mm::ZERO);
        let fill = (height.whole / self.room).min(1.0);
        let mut cost = PAGE + SMALLER * (over / height.whole);
        if to == self.slabs.len() {
            cost += (LAST.0 - fill).max(0.0) / LAST.0 * LAST.1;
        } else {
            let ended = self.is_section_end(to) || self.slabs[to].begins == Begins::Part;
            let white = 1.0 - fill;
            cost += white * white * if ended { WHITE.1 } else { WHITE.0 };
            if fill < HALF {
                cost += EMPTY.0 + EMPTY.1 * (HALF - fill);
            }
        }
        let turned = |at: usize| self.slabs[at].faces && !(at == from && side == 0);
        cost + if (from..to).any(turned) { TURNED } else { 0.0 }
    }

    /// The pages that cost least.
    fn chosen(&self) -> Vec<Stretch> {
        let all = (1 << self.floats.len()) - 1;
        let (mut at, mut placed) = (self.slabs.len(), all);
        let cost = |side| self.ways[self.state(at, side, placed)].cost;
        let mut side = usize::from(cost(1) < cost(0));
        let mut pages = Vec::new();
        while at > 0 || placed > 0 {
            let way = self.ways[self.state(at, side, placed)];
            if way.cost.is_infinite() {
                break;
            }
            let more = placed & !way.placed;
            let floats = (0..self.floats.len()).filter(|index| more >> index & 1 == 1).collect();
            pages.push(Stretch { from: way.from, to: at, floats });
            (at, placed, side) = (way.from, way.placed, 1 - side);
        }
        pages.reverse();
        pages
    }
}
