//! Which slabs stand on which page: a choice over the whole booklet, not page by page. Every page has a cost – its
//! white, what it parts, where its sections begin – and the pages with the least sum are taken, found by dynamic
//! programming (in the spirit of Knuth and Plass, Breaking Paragraphs into Lines, 1981). What floats is put where it
//! fills what a section leaves. Only heights are known here.

mod cost;
mod height;
#[cfg(test)]
mod tests;
mod walk;

use crate::units::Mm;
use cost::HALF;
use height::Height;
use walk::Begun;

pub(super) use height::height;

/// Most that can float; more stand where they are.
pub(super) const MOST_FLOATS: usize = 4;
/// Rounding may make a page higher by this.
const HAIR: f64 = 0.001;

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
    /// How many have begun where it must stand at the latest.
    pub until: usize,
    /// How it is to be seen together with the section that it is about, if it is about one; it never stands before its
    /// own then.
    pub shown_with: Option<Shown>,
}

/// How what floats is to be seen together with a section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Shown {
    /// Facing it: one on the left page, the other on the right.
    Facing {
        /// The first slab of the section.
        first: usize,
        /// The slab after its last.
        next: usize,
    },
    /// Near it: it takes several pages.
    Near,
}

/// The slabs of a booklet in their order. What is set in several versions stands there in each, one behind the other.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Line {
    /// All slabs.
    pub slabs: Vec<Measure>,
    /// Where each of several versions of one piece begins and where the last ends.
    pub versions: Vec<Vec<usize>>,
}

/// The slabs and floats of one page.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Stretch {
    /// Its slabs.
    pub slabs: Vec<usize>,
    /// The floats below them.
    pub floats: Vec<usize>,
    /// The height that it leaves white, where it looks empty and does not end the booklet.
    pub empty: Option<Mm>,
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
    /// The slab that follows each.
    next: Vec<usize>,
    /// The slabs that other versions of what begins with a slab begin with.
    others: Vec<Vec<usize>>,
    /// Whether a page may end after each slab.
    ends: Vec<bool>,
    /// How many sections have begun with each slab.
    sections: Vec<usize>,
    /// The best way to each state: before a slab, on a left or right page, with some floats placed.
    ways: Vec<Way>,
}

/// Puts slabs on pages of a height, the first of them a right one. One that is higher than a page has one to itself.
pub(super) fn fit(line: &Line, floats: &[Float], room: Mm) -> Vec<Stretch> {
    let slabs = line.slabs.as_slice();
    if slabs.is_empty() {
        return Vec::new();
    }
    let is_other = |at: usize| {
        line.versions.iter().any(|starts| starts.len() > 2 && starts[1..starts.len() - 1].contains(&at))
    };
    let begun = slabs.iter().enumerate().scan(0, |sections, (at, slab)| {
        *sections += usize::from(slab.begins_section() && !is_other(at));
        Some(*sections)
    });
    let states = ((slabs.len() + 1) * 2) << floats.len();
    let unknown = Way { cost: f64::INFINITY, from: 0, placed: 0 };
    let mut fit = Fit {
        slabs,
        floats,
        room,
        next: (1..=slabs.len()).collect(),
        others: vec![Vec::new(); slabs.len()],
        ends: Vec::new(),
        sections: begun.collect(),
        ways: vec![unknown; states],
    };
    for piece in &line.versions {
        let [first, others @ .., end] = piece.as_slice() else { continue };
        others.iter().for_each(|&other| fit.next[other - 1] = *end);
        fit.others[*first] = others.to_vec();
    }
    fit.find_ends();
    let first = fit.state(0, 0, 0);
    fit.ways[first].cost = 0.0;
    for from in 0..=slabs.len() {
        fit.page_of_floats(from);
        fit.pages_from(from);
    }
    fit.chosen()
}

impl Measure {
    fn begins_section(&self) -> bool {
        matches!(self.begins, Begins::Section | Begins::Page)
    }
}

impl Fit<'_> {
    fn state(&self, at: usize, side: usize, placed: usize) -> usize {
        ((at * 2 + side) << self.floats.len()) + placed
    }

    fn masks(&self) -> usize {
        1 << self.floats.len()
    }

    /// Whether a section ends before a slab.
    fn is_section_end(&self, at: usize) -> bool {
        at > 0 && self.slabs.get(at).is_none_or(Measure::begins_section)
    }

    /// Whether nothing follows but what has the last page to itself.
    fn ends_before(&self, at: usize) -> bool {
        match &self.slabs[at..] {
            [] => true,
            [last] => last.begins == Begins::Page,
            _ => false,
        }
    }

    /// Where pages may end: between what is tied only where it is too high for one page.
    fn find_ends(&mut self) {
        let tied = |at: usize| self.slabs[at].tied && !self.is_section_end(self.next[at]);
        let mut ends: Vec<bool> = (0..self.slabs.len()).map(|at| !tied(at)).collect();
        let starts = (0..self.slabs.len()).filter(|&at| at == 0 || !tied(at - 1));
        for from in starts.chain(self.others.iter().flatten().copied()) {
            let run = std::iter::successors(Some(from), |&at| tied(at).then(|| self.next[at]));
            let run: Vec<usize> = run.collect();
            let mut height = Height::default();
            run.iter().for_each(|&at| height.add(&self.slabs[at]));
            if height.least > self.room + Mm(HAIR) {
                run.into_iter().for_each(|at| ends[at] = true);
            }
        }
        self.ends = ends;
    }

    /// Every page that begins with a slab.
    fn pages_from(&mut self, from: usize) {
        let states = self.state(from, 0, 0)..self.state(from, 1, self.masks() - 1) + 1;
        if from == self.slabs.len() || self.ways[states].iter().all(|way| way.cost.is_infinite()) {
            return;
        }
        let mut found: Vec<(Begun, usize, usize)> = Vec::new();
        self.walk(from, &mut |ended| found.push((ended.begun, ended.to, ended.path[0])));
        for (begun, to, first) in found {
            let alone = self.slabs[first].begins == Begins::Page;
            let choices = if self.is_section_end(to) && !alone { self.masks() } else { 1 };
            (0..choices).for_each(|more| self.reach(from, to, begun, more));
        }
    }

    /// A page of floats alone, between two sections.
    fn page_of_floats(&mut self, at: usize) {
        if self.is_section_end(at) {
            (1..self.masks()).for_each(|more| self.reach(at, at, Begun::default(), more));
        }
    }

    /// A page with these floats below its slabs, from every state that still has them.
    fn reach(&mut self, from: usize, to: usize, begun: Begun, more: usize) {
        let Some(begun) = self.with_floats(from, to, begun, more) else { return };
        for side in 0..2 {
            let cost = self.page_cost(from, to, side, &begun);
            for placed in (0..self.masks()).filter(|placed| placed & more == 0) {
                let before = self.ways[self.state(from, side, placed)].cost;
                let state = self.state(to, 1 - side, placed | more);
                if before + cost < self.ways[state].cost {
                    self.ways[state] = Way { cost: before + cost, from, placed };
                }
            }
        }
    }

    /// The pages that cost least.
    fn chosen(&self) -> Vec<Stretch> {
        let (mut at, mut placed) = (self.slabs.len(), self.masks() - 1);
        let cost = |side| self.ways[self.state(at, side, placed)].cost;
        let mut side = usize::from(cost(1) < cost(0));
        let mut pages = Vec::new();
        while at > 0 || placed > 0 {
            let way = self.ways[self.state(at, side, placed)];
            if way.cost.is_infinite() {
                break;
            }
            side = 1 - side;
            pages.push(self.page(way.from, at, side, placed & !way.placed));
            (at, placed) = (way.from, way.placed);
        }
        pages.reverse();
        pages
    }

    /// The page between two slabs that costs least, with these floats.
    fn page(&self, from: usize, to: usize, side: usize, more: usize) -> Stretch {
        let mut best = (f64::INFINITY, Vec::new(), 0.0);
        let mut judge = |path: &[usize], begun: Begun| {
            let Some(begun) = self.with_floats(from, to, begun, more) else { return };
            let cost = self.page_cost(from, to, side, &begun);
            if cost < best.0 {
                best = (cost, path.to_vec(), self.fill(&begun.height));
            }
        };
        if from == to {
            judge(&[], Begun::default());
        } else {
            self.walk(from, &mut |ended| {
                if ended.to == to {
                    judge(ended.path, ended.begun);
                }
            });
        }
        let (_, slabs, fill) = best;
        let alone = slabs.first().is_some_and(|&at| self.slabs[at].begins == Begins::Page);
        Stretch {
            slabs,
            floats: (0..self.floats.len()).filter(|index| more >> index & 1 == 1).collect(),
            empty: (fill < HALF && !self.ends_before(to) && !alone).then(|| self.room * (1.0 - fill)),
        }
    }
}
