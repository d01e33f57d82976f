//! A numbered step, as a good cookery book sets one: the number large at the left, title and words beside
//! it, diagrams at the right or below.

use super::blocks::Slot;
use super::fragment::{Fragment, Slab, height, stack};
use super::measures::FIGURES_APART;
use super::setter::{Ink, Linked, Setter, baseline};
use super::sheet::Style;
use super::{Artifact, Item, NodeId, Role, Standing};
use crate::booklet::{Figure, Place, Step, Text};
use crate::drawn::{Align, Face};
use crate::units::{Mm, Point, Size};
use std::sync::Arc;

/// Above and below a step; grows with the type, as do those below.
const SPACE: Mm = Mm(7.5);
/// Between a step's number and its words.
const NUMBER_APART: Mm = Mm(4.0);
/// Below its title.
const UNDER_TITLE: Mm = Mm(1.0);
/// Least height for each of the figures beside the words; does not grow.
const LEAST_ROOM: Mm = Mm(35.0);

/// Share of the width that a step's words take when diagrams stand beside them.
const WORDS: f64 = 0.55;

/// Figures are set smaller by this share at least, or not at all.
const LEAST_SMALLER: f64 = 0.03;

/// Figures go below the words where the step then takes no more than this share of its height.
const MUCH_LOWER: f64 = 0.85;

/// Share of a page's height that each of the figures below the words may take.
const FIGURES: f64 = 0.7;

/// Share of a page's height that a figure beside the words may take, and several together: usual print, large print.
const BESIDE: f64 = 0.6;
const SEVERAL: f64 = 0.7;
const SEVERAL_LARGE: f64 = 0.92;

/// Lines of a caption that this allows for; longer ones take more.
const USUAL_CAPTION: f64 = 3.0;

/// Least width of the words beside figures in large print, in ems.
const LEAST_WORDS: f64 = 14.0;

/// Height of the line over the further pages of a step, in lines of a table.
const GOES_ON: f64 = 1.7;

/// So many figures abreast are small.
pub(super) const SQUEEZED: usize = 3;

/// What it costs to part a step within a paragraph: see `layout::fit`.
pub(super) const WITHIN_SENTENCE: f64 = 320.0;

/// What it costs to part it between its words, its words from its figures, and its figures.
struct Parted {
    words: f64,
    from_figures: f64,
    figures: f64,
}

const PARTED: Parted = Parted { words: 60.0, from_figures: 160.0, figures: 90.0 };

/// A way to set a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Look {
    /// Whether figures stand below the words, even where there is room beside them.
    below: bool,
    /// Whether each of them stands alone then, with its words beside it.
    alone: bool,
    /// How large figures are against their usual size.
    share: f64,
}

impl Look {
    /// As all are.
    pub const USUAL: Look = Look { below: false, alone: false, share: 1.0 };
    const BELOW: Look = Look { below: true, ..Look::USUAL };
    /// Those for pages that would look empty.
    pub const OTHERS: [Look; 8] = [
        Look::BELOW,
        Look { alone: true, ..Look::BELOW },
        Look { share: 0.86, ..Look::USUAL },
        Look { share: 0.86, ..Look::BELOW },
        Look { share: 0.86, alone: true, ..Look::BELOW },
        Look { share: 0.66, ..Look::USUAL },
        Look { share: 0.66, ..Look::BELOW },
        Look { share: 1.18, ..Look::USUAL },
    ];

    /// Those for steps that are to fill a page by themselves.
    pub const HIGHER: [Look; 4] = [
        Look { share: 1.4, ..Look::USUAL },
        Look { share: 1.4, ..Look::BELOW },
        Look { share: 1.25, ..Look::BELOW },
        Look { share: 1.25, alone: true, ..Look::BELOW },
    ];

    /// Whether it is one of those that take more height.
    pub fn is_higher(self) -> bool {
        Look::HIGHER.contains(&self)
    }

    /// The same with each figure alone, where more than two could stand abreast.
    pub fn alone(self, step: &Step) -> Look {
        if step.figures.len() >= SQUEEZED { Look { below: true, alone: true, ..self } } else { self }
    }

    /// The same with figures larger than usual; none where they are smaller for want of room.
    pub fn larger(self, share: f64) -> Option<Look> {
        (self.share >= 1.0).then_some(Look { share, ..self })
    }
}

impl Setter<'_> {
    /// A step; words and diagrams stay together where one page can hold them.
    pub fn step(&mut self, step: &Step, slot: Slot) -> Vec<Slab> {
        self.step_in_look(step, Look::USUAL, slot)
    }

    /// A step in another way than usual, for pages that would stay half empty: its figures below its words, from which
    /// they then may part, or a little smaller or larger. `None` where that is no other way, or is too small to read.
    pub fn step_otherwise(&mut self, step: &Step, look: Look, slot: Slot) -> Option<Vec<Slab>> {
        let room = slot.room * FIGURES;
        let of = |figure: &Figure| self.least_share(figure, slot.width, room);
        let least = step.figures.iter().map(of).fold(0.0, f64::max);
        // As small as can be read is still smaller.
        let look = Look { share: if look.share < 1.0 { look.share.max(least) } else { look.share }, ..look };
        if step.figures.is_empty() || look.share > 1.0 - LEAST_SMALLER && look.share < 1.0 {
            return None;
        }
        let usual = self.sheet.figures;
        self.sheet.figures = usual * look.share;
        self.sheet.filled = look.share.min(1.0);
        let set = self.step_in_look(step, look, slot);
        (self.sheet.figures, self.sheet.filled) = (usual, 1.0);
        Some(set)
    }

    fn step_in_look(&mut self, step: &Step, look: Look, slot: Slot) -> Vec<Slab> {
        // Several figures may make a much higher column than their words: side by side under these they are lower.
        let set = |below| move |on: &mut Self| on.step_set(step, Look { below, ..look }, slot);
        if step.figures.len() < 2 || look.below || !self.is_beside(step, slot) {
            return set(look.below)(self);
        }
        let before = self.tree.clone();
        let slabs = set(false)(self);
        let below = height(&self.tried(set(true)));
        if below >= height(&slabs) * MUCH_LOWER {
            return slabs;
        }
        self.tree = before;
        set(true)(self)
    }

    /// How far a step's words stand from the left, and from figures beside them.
    fn step_gaps(&mut self) -> (Mm, Mm) {
        let number = self.number_style();
        let indent = self.shaper.width(Face::Title, "00", number.size) + self.sheet.grown(NUMBER_APART);
        (indent, self.sheet.grown(FIGURES_APART))
    }

    /// Whether the figures of a step may stand beside its words.
    fn is_beside(&mut self, step: &Step, slot: Slot) -> bool {
        let (indent, gap) = self.step_gaps();
        let width = slot.width - indent;
        self.stands_beside(&step.figures, width, gap)
            && !self.is_pressed(&step.figures, width, (gap, slot.room))
    }

    fn step_set(&mut self, step: &Step, look: Look, slot: Slot) -> Vec<Slab> {
        let (indent, gap) = self.step_gaps();
        let beside = !look.below && self.is_beside(step, slot);
        let before = beside.then(|| self.tree.clone());
        let node = self.tree.add(slot.parent, Role::Section);
        let words_width = if beside {
            self.words_beside(&step.figures, slot.width - indent, gap)
        } else {
            (slot.width - indent).min(self.sheet.measure())
        };
        let mut slabs = vec![self.step_title(step, indent, words_width, node)];
        let inner = Slot { width: words_width, parent: node, ..slot };
        for mut slab in self.blocks(&step.blocks, inner) {
            slab.fragment = indented(slab.fragment, indent);
            slabs.push(slab);
        }
        let space = self.sheet.grown(SPACE);
        let words = slabs.len();
        if beside {
            let column = slot.width - indent - words_width - gap;
            let room = slot.room * look.share.min(1.0);
            let figures = self.figures_beside(&step.figures, column, Slot { parent: node, room, ..slot });
            let top = self.sheet.heading(2).leading * 0.2;
            if height(&slabs).max(height(&figures) + top) <= slot.room {
                let (mut whole, figures) = (stack(slabs), stack(figures));
                whole.height = whole.height.max(figures.height + top);
                whole.absorb(figures, indent + words_width + gap, top);
                return vec![Slab::spaced(whole, space)];
            }
            // What no page holds is not kept narrow: its figures stand under words of the usual width.
            if let Some(before) = before {
                self.tree = before;
            }
            return self.step_set(step, Look { below: true, ..look }, slot);
        } else if !step.figures.is_empty() {
            let figures_room = slot.room * FIGURES * look.share.min(1.0);
            let rows = match step.figures.as_slice() {
                several if several.len() > 1 && !look.alone => {
                    self.figure_rows(several, slot.width - indent, figures_room, node)
                }
                figures => figures
                    .iter()
                    .map(|one| self.figure_with_words(one, slot.width - indent, figures_room, node))
                    .collect(),
            };
            slabs.extend(rows.into_iter().map(|s| Slab { fragment: indented(s.fragment, indent), ..s }));
        }
        let goes_on = (slabs.len() > 1).then(|| Arc::new(self.goes_on(step)));
        for (index, slab) in slabs.iter_mut().enumerate() {
            // What heads a page says which step it belongs to.
            slab.repeat = slab.repeat.take().or_else(|| goes_on.clone().filter(|_| index > 0));
            slab.tie = slab.tie.max(match index + 1 {
                before if before < words && slab.tie > 0.0 => WITHIN_SENTENCE,
                before if before < words => PARTED.words,
                before if before == words => PARTED.from_figures,
                _ => PARTED.figures,
            });
        }
        if let Some(first) = slabs.first_mut() {
            first.before = space;
        }
        if let Some(last) = slabs.last_mut() {
            last.after = space;
            last.tie = 0.0;
        }
        slabs
    }

    /// Figures one under the other in a column, each with its caption under it.
    fn figures_beside(&mut self, figures: &[Figure], column: Mm, slot: Slot) -> Vec<Slab> {
        let rooms = self.rooms_beside(figures, column, slot.room);
        let set = figures.iter().zip(rooms);
        set.map(|(figure, room)| self.figure_slab(figure, column, room, slot.parent)).collect()
    }

    /// How high each of the figures beside the words may be, with its caption. Several take what they need of what there
    /// is: pressed together, their letters and numbers, which keep their size, would not be read.
    fn rooms_beside(&mut self, figures: &[Figure], column: Mm, room: Mm) -> Vec<Mm> {
        if figures.len() < 2 {
            // A long caption makes no drawing smaller.
            let least = self.sheet.small.leading * USUAL_CAPTION;
            let more = |on: &mut Self, figure| (on.caption_height(figure, column) - least).max(Mm::ZERO);
            return figures.iter().map(|f| (room * BESIDE).max(LEAST_ROOM) + more(self, f)).collect();
        }
        let (share, wanted) = self.share_of_room(figures, column, room);
        wanted.into_iter().map(|high| (high * share.min(1.0)).max(LEAST_ROOM)).collect()
    }

    /// What share of the height that several figures beside the words want there is for them, and that height of each.
    fn share_of_room(&mut self, figures: &[Figure], column: Mm, room: Mm) -> (f64, Vec<Mm>) {
        let high = |figure: &Figure| {
            let size = figure.drawing.size;
            size.height * self.most_growth(figure).min(column / size.width)
                + self.caption_height(figure, column)
        };
        let wanted: Vec<Mm> = figures.iter().map(high).collect();
        let share = if self.booklet.setting.large_print { SEVERAL_LARGE } else { SEVERAL };
        (room * share / wanted.iter().copied().sum::<Mm>(), wanted)
    }

    pub fn number_style(&self) -> Style {
        let style = self.sheet.heading(2);
        Style { size: style.size * 1.55, ..style }
    }

    /// Whether the figures are narrow enough to stand beside the words.
    fn stands_beside(&self, figures: &[Figure], width: Mm, gap: Mm) -> bool {
        if figures.is_empty() || figures.len() > 2 {
            return false;
        }
        if self.booklet.setting.large_print {
            return self.words_beside(figures, width, gap) >= self.sheet.body.size.mm() * LEAST_WORDS;
        }
        let column = width * (1.0 - WORDS) - gap;
        figures.iter().all(|f| column / f.drawing.size.width >= if f.drawing.true_size { 1.0 } else { 0.72 })
    }

    /// Whether figures beside the words would be made smaller for want of height in large print, where their letters keep
    /// their size.
    fn is_pressed(&mut self, figures: &[Figure], width: Mm, (gap, room): (Mm, Mm)) -> bool {
        if !self.booklet.setting.large_print || figures.len() < 2 {
            return false;
        }
        let column = width - self.words_beside(figures, width, gap) - gap;
        self.share_of_room(figures, column, room).0 < 1.0
    }

    /// Width of the words beside figures: a fixed share, but in large print whatever the figures leave.
    fn words_beside(&self, figures: &[Figure], width: Mm, gap: Mm) -> Mm {
        if !self.booklet.setting.large_print {
            return width * WORDS;
        }
        let wide = |figure: &Figure| self.figure_width(figure).max(self.caption_least());
        width - gap - figures.iter().map(wide).fold(Mm::ZERO, Mm::max)
    }

    /// Height of the line over the further pages of a step.
    pub fn goes_on_height(&self) -> Mm {
        self.sheet.cell.leading * GOES_ON
    }

    /// `8 Hanging: the thread guard, continued`: no content, the step has its heading.
    pub fn goes_on(&mut self, step: &Step) -> Fragment {
        let called = format!("{} {}", step.number, step.title.words());
        let words = self.goes_on_words(&called, self.sheet.width());
        Fragment { height: self.goes_on_height(), ..words }
    }

    /// That what is so called goes on: a quiet line in a width, no content.
    pub fn goes_on_words(&mut self, called: &str, width: Mm) -> Fragment {
        let style = self.sheet.cell;
        let words = format!("{called}, {}", self.booklet.words.continued);
        let words = self.shortened(style.face, &words, style.size, width);
        let ink = Ink { face: style.face, size: style.size, colour: self.sheet.muted };
        let at = Point { x: Mm::ZERO, y: baseline(&style) };
        let mut piece = Fragment { height: style.leading, ..Fragment::default() };
        let standing = Standing::Artifact(Artifact::Running);
        let items = self.label(ink, &words, at, Align::Start, NodeId(0)).into_iter();
        piece.items.extend(items.map(|item| Item { standing, ..item }));
        piece
    }

    pub fn step_title(&mut self, step: &Step, indent: Mm, width: Mm, node: NodeId) -> Slab {
        let style = self.sheet.heading(2);
        let number = self.number_style();
        let heading = self.tree.add(node, Role::Heading(2));
        let how = self.balanced();
        let on_chart = step.on_chart.as_ref().map(|(place, _)| *place);
        let mut piece = Fragment { on_chart, ..Fragment::default() };
        let at = Point { x: Mm::ZERO, y: baseline(&style) };
        let words = format!("{} ", step.number);
        let ink = Ink { face: number.face, size: number.size, colour: self.sheet.accent_text };
        let here = Some(Place::step(step.number));
        let numbered = match &step.on_chart {
            Some(_) => self.tree.add(heading, Role::Link),
            None => heading,
        };
        piece.items = self.label(ink, &words, at, Align::Start, numbered);
        if let Some((to, said)) = &step.on_chart {
            let area = (Point::default(), Size { width: indent, height: style.leading });
            self.number_link(&mut piece, numbered, area, Linked { to: *to, here: None, said });
        }
        let title =
            self.block(&step.title, &style.coloured(self.sheet.ink), width, how, Align::Start, heading);
        piece.height = title.height;
        piece.absorb(title, indent, Mm::ZERO);
        let bookmark = Text::plain(format!("{words}{}", step.title.words()));
        piece.goals.push(super::fragment::Goal {
            y: Mm::ZERO,
            section: None,
            place: here,
            bookmark: Some((bookmark.words(), 2)),
        });
        Slab { fragment: piece, after: self.sheet.grown(UNDER_TITLE), keep_next: true, ..Slab::default() }
    }
}

fn indented(piece: Fragment, dx: Mm) -> Fragment {
    let mut moved = Fragment { height: piece.height, ..Fragment::default() };
    moved.absorb(piece, dx, Mm::ZERO);
    moved
}
