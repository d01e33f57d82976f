//! A row or strand of a tablet edition: title, what is picked up as large as the page allows, the row as it lies and its
//! beads at the left, the place on the earring at the right.

use super::blocks::Slot;
use super::faces::cap_height;
use super::fragment::{Fragment, Goal, Slab};
use super::setter::{Ink, Setter, baseline};
use super::tree::Tree;
use super::{Artifact, Item, NodeId, Role, Standing};
use crate::booklet::{Figure, Screen, Strung, StrungRun, Swatch, Text};
use crate::drawn::{Align, Face, Mark};
use crate::units::{Mm, Point, Pt};

/// Share of the width that the outline of the earring takes, and the white beside it; grows with the type.
const OUTLINE: f64 = 0.21;
const BESIDE: Mm = Mm(6.0);
/// Sizes of counts to try, as shares of running text's, the largest first, each with the least share of a page's height that
/// the row as it lies takes beside them.
const SIZES: [(f64, f64); 8] =
    [(2.1, 0.24), (1.8, 0.24), (1.5, 0.22), (1.3, 0.2), (1.3, 0.13), (1.1, 0.18), (1.1, 0.13), (1.0, 0.13)];
/// Side of a bead, as a share of the size of counts beside it; between a count and its beads, and between runs.
const BEAD: f64 = 1.5;
const COUNT_APART: f64 = 0.3;
const RUNS_APART: f64 = 1.15;
/// From line to line of runs, in sides of a bead.
const LINE: f64 = 1.22;
/// White over each part; grows with the type.
const OVER_PART: Mm = Mm(2.6);
/// Most of a page's height that the row as it lies takes.
const MOST_LYING: f64 = 0.36;
/// How far a row as it lies is scaled up at most.
const LYING_SCALE: f64 = 8.0;

/// How a page of a screen is set.
#[derive(Clone, Copy, Debug)]
struct Look {
    /// Size of counts.
    size: Pt,
    /// Least share of the page's height that the row as it lies takes.
    lying: f64,
    /// Whether it is the screen's first page: those that go on have its beads alone.
    first: bool,
}

/// What of a screen's beads is still to be shown: for each part what is left of its runs.
type Rest<'s> = Vec<(&'s Strung, &'s [StrungRun])>;

impl Setter<'_> {
    /// A screen; several pages only where one cannot hold all beads at the least size.
    pub(super) fn screen(&mut self, screen: &Screen, slot: Slot) -> Vec<Slab> {
        let outline = slot.width * OUTLINE;
        let column = slot.width - outline - self.sheet.grown(BESIDE);
        let whole = Slot { width: column, parent: Tree::ROOT, ..slot };
        let all: Rest = screen.strung.iter().map(|part| (part, part.runs.as_slice())).collect();
        let body = self.sheet.body.size;
        for (share, lying) in SIZES {
            let look = Look { size: body * share, lying, first: true };
            let (piece, rest) = self.tried(|on| on.screen_words(screen, &all, look, whole));
            if rest.is_empty() && piece.height <= slot.room {
                return vec![self.screen_page(screen, &all, look, slot).0];
            }
        }
        // All that one page can hold, then the rest of the runs.
        let (least, lying) = SIZES[SIZES.len() - 1];
        let mut look = Look { size: body * least, lying, first: true };
        let (mut rest, mut slabs) = (all, Vec::new());
        while !rest.is_empty() {
            let (slab, left) = self.screen_page(screen, &rest, look, slot);
            slabs.push(slab);
            let went_on = count(&left) < count(&rest);
            // A page that goes on holds a line of beads, whatever else the first one has to say.
            if !look.first && !went_on {
                break;
            }
            look.first = false;
            rest = left;
        }
        slabs
    }

    /// One page, and what is left for the next.
    fn screen_page<'s>(
        &mut self,
        screen: &Screen,
        runs: &Rest<'s>,
        look: Look,
        slot: Slot,
    ) -> (Slab, Rest<'s>) {
        let outline = slot.width * OUTLINE;
        let column = slot.width - outline - self.sheet.grown(BESIDE);
        let parent = self.tree.add(slot.parent, Role::Section);
        let (words, rest) = self.screen_words(screen, runs, look, Slot { width: column, parent, ..slot });
        let mut piece = Fragment { on_chart: Some(screen.on_chart), ..words };
        let figure = self.fitted(&screen.whereabouts, outline, slot.room, f64::INFINITY, parent);
        piece.height = piece.height.max(figure.height);
        piece.absorb(figure, column + self.sheet.grown(BESIDE), Mm::ZERO);
        (Slab { fragment: piece, ..Slab::default() }, rest)
    }

    /// The column of words with counts of a size and so much at least of the row as it lies, and the runs that found no room
    /// in it.
    fn screen_words<'s>(
        &mut self,
        screen: &Screen,
        runs: &Rest<'s>,
        look: Look,
        slot: Slot,
    ) -> (Fragment, Rest<'s>) {
        let mut piece = self.screen_title(screen, look.first, slot);
        let alone = Slot { parent: Tree::ROOT, ..slot };
        let below = self.tried(|on| on.below_runs(screen, alone, look)).height;
        let mut rest = Rest::new();
        for (part, runs) in runs {
            let space = self.sheet.grown(OVER_PART);
            let room = slot.room - piece.height - below - space;
            let (set, left) = if rest.is_empty() {
                self.strung(part, runs, look.size, Slot { room, ..slot })
            } else {
                (Fragment::default(), *runs)
            };
            if set.height > Mm::ZERO {
                piece.put_below(set, space);
            }
            if !left.is_empty() {
                rest.push((part, left));
            }
        }
        // The row as it lies takes what is left.
        let spare = (slot.room - piece.height - below) / slot.room + look.lying;
        let lying = spare.clamp(look.lying, MOST_LYING);
        let below = self.below_runs(screen, slot, Look { lying, ..look });
        piece.put_below(below, Mm::ZERO);
        (piece, rest)
    }

    /// Title and facts.
    fn screen_title(&mut self, screen: &Screen, is_first: bool, slot: Slot) -> Fragment {
        let style = self.sheet.heading(1);
        let heading = self.tree.add(slot.parent, Role::Heading(2));
        let mut title = screen.title.clone();
        if !is_first {
            title = format!("{title}, {}", self.booklet.words.continued);
        }
        let wide = self.shaper.width(style.face, &title, style.size);
        let how = self.balanced();
        let mut piece = self.block(&Text::plain(title), &style, slot.width, how, Align::Start, heading);
        if is_first {
            let bookmark = Some((screen.title.clone(), 2));
            piece.goals.push(Goal { y: Mm::ZERO, section: None, place: None, bookmark });
            let place = |place: &_| Goal { y: Mm::ZERO, section: None, place: Some(*place), bookmark: None };
            piece.goals.extend(screen.here.iter().map(place));
        }
        let body = self.sheet.body;
        let aside = self.shaper.width(Face::Bold, &screen.aside, body.size);
        let gap = style.size.mm() * 0.7;
        if !screen.aside.is_empty() {
            let node = self.tree.add(slot.parent, Role::Paragraph);
            let ink = Ink { face: Face::Bold, size: body.size, colour: self.sheet.accent_text };
            // Beside the title, or under it where there is no room.
            let (x, y) = if wide + gap + aside <= slot.width {
                (wide + gap, piece.height - style.leading + baseline(&style))
            } else {
                piece.height += body.leading;
                (Mm::ZERO, piece.height - body.leading + baseline(&body))
            };
            let words = self.label(ink, &screen.aside, Point { x, y }, Align::Start, node);
            piece.items.extend(words);
        }
        // Beside the title too where there is room.
        let facts = super::lines::natural_width(&mut self.shaper, &screen.facts, &body);
        let node = self.tree.add(slot.parent, Role::Paragraph);
        let how = self.plain();
        let x = wide + gap + if aside > Mm::ZERO { aside + gap } else { Mm::ZERO };
        let beside = piece.height < style.leading * 1.5 && x + facts <= slot.width;
        let width = if beside { slot.width - x + Mm(0.01) } else { slot.width };
        let facts = self.block(&screen.facts, &body, width, how, Align::Start, node);
        let (x, y) = if beside {
            (x, piece.height - style.leading + baseline(&style) - baseline(&body))
        } else {
            (Mm::ZERO, piece.height)
        };
        piece.height = piece.height.max(y + facts.height);
        piece.absorb(facts, x, y);
        piece
    }

    /// The row as it lies, so much of the page's height, what is to be known, and the beads.
    fn below_runs(&mut self, screen: &Screen, slot: Slot, look: Look) -> Fragment {
        let space = self.sheet.grown(OVER_PART);
        let mut piece = Fragment::default();
        let mut add = |set: Fragment| {
            piece.put_below(set, space);
        };
        if let Some(lying) = screen.lying.as_ref().filter(|_| look.first) {
            add(self.lying(lying, slot, slot.room * look.lying));
        }
        if look.first && !screen.notes.is_empty() {
            let mut notes = Fragment::default();
            for note in &screen.notes {
                let node = self.tree.add(slot.parent, Role::Paragraph);
                let (style, how) = (self.sheet.cell, self.plain());
                let set = self.block(note, &style, slot.width, how, Align::Start, node);
                notes.put_below(set, Mm::ZERO);
            }
            add(notes);
        }
        add(self.legend(&screen.legend, slot.width, slot.parent));
        piece
    }

    /// The row as it lies; without letters where these would be larger than their beads have room for.
    fn lying(&mut self, figure: &Figure, slot: Slot, room: Mm) -> Fragment {
        let size = figure.drawing.size;
        let scale = (slot.width / size.width).min(room / size.height).min(LYING_SCALE);
        let least = self.sheet.least_letter;
        let too_small = |mark: &Mark| matches!(mark, Mark::Label(label) if label.size * scale < least);
        if !figure.drawing.marks.iter().any(too_small) {
            return self.fitted(figure, slot.width, room, LYING_SCALE, slot.parent);
        }
        let mut bare = figure.clone();
        bare.drawing.marks.retain(|mark| !matches!(mark, Mark::Label(_)));
        self.fitted(&bare, slot.width, room, LYING_SCALE, slot.parent)
    }

    /// A figure as large as its place, but no larger than that.
    fn fitted(&mut self, figure: &Figure, width: Mm, room: Mm, most: f64, parent: NodeId) -> Fragment {
        let size = figure.drawing.size;
        let scale = (width / size.width).min(room / size.height).min(most);
        let node = self.tree.add(parent, Role::Figure { alt: figure.alt.clone() });
        let scale = if scale.is_finite() { scale } else { 1.0 };
        self.drawing(&figure.drawing, scale, node)
    }

    /// A part: what it is, and its runs one after the other, count before beads, as far as there is room; and those left.
    fn strung<'s>(
        &mut self,
        part: &Strung,
        runs: &'s [StrungRun],
        size: Pt,
        slot: Slot,
    ) -> (Fragment, &'s [StrungRun]) {
        let label = self.sheet.column_head;
        let node = self.tree.add(slot.parent, Role::Paragraph);
        let how = self.plain();
        let words = Text::plain(format!("{} ", part.label));
        let mut piece = self.block(&words, &label, slot.width, how, Align::Start, node);
        let em = size.mm();
        let side = em * BEAD;
        let line = side * LINE;
        let (mut x, mut y) = (Mm::ZERO, piece.height);
        for (i, run) in runs.iter().enumerate() {
            let count = run.count.map_or(String::new(), |count| count.to_string());
            let wide = self.shaper.width(Face::Bold, &count, size);
            let gap = if count.is_empty() { Mm::ZERO } else { em * COUNT_APART };
            let beads = side * run.beads.len() as f64;
            if x > Mm::ZERO && x + wide + gap + beads.min(slot.width - wide - gap) > slot.width {
                (x, y) = (Mm::ZERO, y + line);
            }
            if y + line > slot.room {
                // Not even the first line: the label alone helps nobody.
                let set = if i == 0 { Fragment::default() } else { piece };
                return (set, &runs[i..]);
            }
            if !count.is_empty() {
                let at = Point { x, y: y + line / 2.0 + cap_height(Face::Bold, size) / 2.0 };
                let ink = Ink { face: Face::Bold, size, colour: self.sheet.ink };
                piece.items.extend(self.label(ink, &count, at, Align::Start, node));
                x += wide + gap;
            }
            for swatch in &run.beads {
                if x > Mm::ZERO && x + side > slot.width + Mm(0.01) {
                    (x, y) = (Mm::ZERO, y + line);
                }
                let bead = self.told_by_its_letter(swatch, side, node);
                piece.absorb(bead, x, y + (line - side) / 2.0);
                x += side;
            }
            x += em * RUNS_APART;
        }
        piece.height = y + line;
        (piece, &[])
    }

    /// A bead with its letter. The letter is read; the bead behind it says the same to the eye.
    fn told_by_its_letter(&mut self, swatch: &Swatch, side: Mm, node: NodeId) -> Fragment {
        let mut piece = self.swatch(swatch, side, node);
        for item in &mut piece.items {
            if matches!(item.paint, super::Paint::Bead(_)) {
                *item = Item { standing: Standing::Artifact(Artifact::Layout), ..item.clone() };
            }
        }
        piece
    }
}

/// How many runs there are.
fn count(rest: &Rest) -> usize {
    rest.iter().map(|(_, runs)| runs.len()).sum()
}
