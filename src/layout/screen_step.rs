//! A step of a tablet edition: its words at the left and its diagrams at the right of one page, or on further ones where
//! that would be too small to read.

use super::blocks::Slot;
use super::fragment::{Fragment, Slab, height, stack};
use super::measures::{FIGURE_SPACE, FIGURES_APART};
use super::setter::Setter;
use super::tree::Tree;
use super::{NodeId, Role};
use crate::booklet::{Block, Figure, Step};
use crate::drawn::Face;
use crate::units::{Mm, Point};

/// Shares of the width that the words may take beside diagrams, in the order in which they are tried.
const WORDS: [f64; 4] = [0.5, 0.42, 0.58, 0.36];
/// Shares of their usual size that words and diagrams may have.
const TYPE: [f64; 3] = [1.0, 0.93, 0.86];
const FIGURES: [f64; 5] = [1.0, 0.87, 0.76, 0.66, 0.58];
/// How much of the room that they have the letters and numbers of diagrams may want more, at their least size.
const CROWDED: f64 = 1.18;
/// Under the title; grows with the type.
const UNDER_TITLE: Mm = Mm(1.5);

/// Where the diagrams of a step stand.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Figures {
    /// At the right of the words, in so many columns; the words take this share of the width.
    Beside { words: f64, columns: usize },
    /// At the right of the words side by side, with their captions under the words, which take this share of the width.
    Apart { words: f64 },
    /// Under the words, side by side.
    Below,
}

/// A way to set a step on one page.
#[derive(Clone, Copy, Debug)]
struct Look {
    figures: Figures,
    /// Shares of the usual size of words and of diagrams.
    type_size: f64,
    figure_size: f64,
}

/// The ways to set a step with so many diagrams, the best first.
fn looks(figures: usize) -> Vec<Look> {
    let columns = 1..=figures.clamp(1, 2);
    let beside = WORDS.into_iter().flat_map(|words| columns.clone().map(move |columns| (words, columns)));
    let mut places: Vec<Figures> =
        beside.map(|(words, columns)| Figures::Beside { words, columns }).collect();
    places.extend(WORDS.into_iter().map(|words| Figures::Apart { words }));
    // Several stand better side by side than pressed into a column.
    places.insert(if figures > 1 { 1 } else { places.len() }, Figures::Below);
    let sizes = TYPE.into_iter().flat_map(|words| FIGURES.into_iter().map(move |figures| (words, figures)));
    let of = |(type_size, figure_size)| {
        places.iter().map(move |&figures| Look { figures, type_size, figure_size }).collect::<Vec<_>>()
    };
    sizes.flat_map(of).collect()
}

impl Setter<'_> {
    /// A step, on one page if that can hold it.
    pub(super) fn step_screens(&mut self, step: &Step, slot: Slot) -> Vec<Slab> {
        // With all its diagrams, or with the first of them and the others on the pages that follow.
        for first in (0..=step.figures.len()).rev() {
            let (with, rest) = step.figures.split_at(first);
            let part = Step { figures: with.to_vec(), ..step.clone() };
            for look in looks(first) {
                if self.tried(|on| on.step_page(&part, look, Slot { parent: Tree::ROOT, ..slot })).is_some()
                    && let Some(page) = self.step_page(&part, look, slot)
                {
                    let mut slabs = vec![Slab { fragment: page, ..Slab::default() }];
                    slabs.extend(self.further_pages(step, rest, slot));
                    return slabs;
                }
            }
        }
        self.step_pages(step, slot)
    }

    /// Diagrams that the step's own page could not hold.
    fn further_pages(&mut self, step: &Step, figures: &[Figure], slot: Slot) -> Vec<Slab> {
        if figures.is_empty() {
            return Vec::new();
        }
        let parent = self.tree.add(slot.parent, Role::Section);
        let rows = self.figures_of_pages(figures, Slot { parent, ..slot });
        let room = slot.room - self.goes_on_height();
        packed(rows, |_| room).into_iter().map(|slabs| self.further_page(step, slabs)).collect()
    }

    /// A page of a step that is not its first.
    fn further_page(&mut self, step: &Step, slabs: Vec<Slab>) -> Slab {
        let mut fragment = self.goes_on(step);
        let stacked = stack(slabs);
        fragment.put_below(stacked, Mm::ZERO);
        fragment.on_chart = step.on_chart.as_ref().map(|(place, _)| *place);
        Slab { fragment, ..Slab::default() }
    }

    /// The step on one page; `None` where it does not fit, or could not be read.
    fn step_page(&mut self, step: &Step, look: Look, slot: Slot) -> Option<Fragment> {
        let usual = self.sheet.figures;
        self.sheet.figures = usual * look.figure_size;
        let set = self.sized(look.type_size, |on| on.step_page_in(step, look.figures, slot));
        self.sheet.figures = usual;
        set
    }

    fn step_page_in(&mut self, step: &Step, figures: Figures, slot: Slot) -> Option<Fragment> {
        let gap = self.sheet.grown(FIGURES_APART);
        let measure = slot.width.min(self.sheet.measure());
        let (width, columns, all) = match figures {
            _ if step.figures.is_empty() => (measure, 1, Mm::ZERO),
            Figures::Beside { words, columns } => {
                let width = (slot.width * words).min(measure);
                (width, columns, slot.width - width - gap)
            }
            Figures::Apart { words } => return self.step_page_apart(step, slot.width * words, slot),
            Figures::Below => (measure, step.figures.len(), slot.width),
        };
        let column = (all + gap) / columns as f64 - gap;
        // Below its drawing a figure has its caption.
        let can_be_read = |on: &mut Self, room: Mm| {
            step.figures.iter().all(|figure| {
                let caption = on.caption_height(figure, column);
                on.least_share(figure, column, room - caption) <= CROWDED
            })
        };
        if !can_be_read(self, slot.room) {
            return None;
        }
        let node = self.tree.add(slot.parent, Role::Section);
        let mut page = self.step_words(step, width, Slot { parent: node, ..slot });
        let at = match figures {
            Figures::Beside { .. } => Point { x: width + gap, y: Mm::ZERO },
            Figures::Apart { .. } | Figures::Below => {
                Point { x: Mm::ZERO, y: page.height + self.sheet.grown(FIGURE_SPACE) }
            }
        };
        let room = slot.room - at.y;
        if page.height > slot.room || !can_be_read(self, room) {
            return None;
        }
        if !step.figures.is_empty() {
            let set = self.figures_in_columns(&step.figures, column, (columns, room), node);
            page.height = page.height.max(at.y + set.height);
            page.absorb(set, at.x, at.y);
        }
        (page.height <= slot.room).then_some(page)
    }

    /// The same with the diagrams in a row beside the words, all at one scale, and their captions under the words.
    fn step_page_apart(&mut self, step: &Step, width: Mm, slot: Slot) -> Option<Fragment> {
        let gap = self.sheet.grown(FIGURES_APART);
        let gaps = gap * step.figures.len() as f64;
        let wide: Mm = step.figures.iter().map(|figure| figure.drawing.size.width).sum();
        let high = step.figures.iter().map(|figure| figure.drawing.size.height).fold(Mm(1.0), Mm::max);
        let scale = ((slot.width - width - gaps) / wide).min(slot.room / high).min(self.sheet.figures);
        let of = |figure: &Figure| figure.drawing.size.width * scale;
        if scale <= 0.0 || step.figures.iter().any(|f| self.least_share(f, of(f), slot.room) > CROWDED) {
            return None;
        }
        let node = self.tree.add(slot.parent, Role::Section);
        let mut page = self.step_words(step, width, Slot { parent: node, ..slot });
        let mut x = slot.width;
        let mut drawn = Vec::new();
        for figure in &step.figures {
            let (set, caption) = self.figure_apart(figure, of(figure), slot.room, width, node);
            if caption.height > Mm::ZERO {
                page.put_below(caption, self.sheet.grown(FIGURE_SPACE) / 2.0);
            }
            x -= of(figure) + gap;
            drawn.push(set);
        }
        // They end at the right edge.
        x += gap;
        for (figure, set) in step.figures.iter().zip(drawn) {
            page.height = page.height.max(set.height);
            page.absorb(set, x, Mm::ZERO);
            x += of(figure) + gap;
        }
        (page.height <= slot.room).then_some(page)
    }

    /// Title and words of a step, one under the other.
    fn step_words(&mut self, step: &Step, width: Mm, slot: Slot) -> Fragment {
        let mut slabs = vec![self.screen_step_title(step, width, slot.parent)];
        slabs.extend(self.blocks(&step.blocks, Slot { width, ..slot }));
        stack(slabs)
    }

    fn screen_step_title(&mut self, step: &Step, width: Mm, node: NodeId) -> Slab {
        let number = format!("{} ", step.number);
        let style = self.number_style();
        let indent = self.shaper.width(Face::Title, &number, style.size);
        let title = self.step_title(step, indent, width - indent, node);
        Slab { after: self.sheet.grown(UNDER_TITLE), ..title }
    }

    /// Figures with their captions one under the other, in one column or two.
    fn figures_in_columns(
        &mut self,
        figures: &[Figure],
        column: Mm,
        (columns, room): (usize, Mm),
        node: NodeId,
    ) -> Fragment {
        let gap = self.sheet.grown(FIGURES_APART);
        let space = self.sheet.grown(FIGURE_SPACE);
        let mut whole = Fragment::default();
        let mut y = Mm::ZERO;
        for row in figures.chunks(columns) {
            let mut high = Mm::ZERO;
            for (i, figure) in row.iter().enumerate() {
                let set = self.figure(figure, column, room, node);
                high = high.max(set.height);
                whole.absorb(set, (column + gap) * i as f64, y);
            }
            whole.height = y + high;
            y += high + space;
        }
        whole
    }

    /// A step that one page cannot hold: its words, then its diagrams, as many to a page as it holds.
    fn step_pages(&mut self, step: &Step, slot: Slot) -> Vec<Slab> {
        let node = self.tree.add(slot.parent, Role::Section);
        let inner = Slot { parent: node, ..slot };
        let measure = slot.width.min(self.sheet.measure());
        let mut slabs = vec![self.screen_step_title(step, measure, node)];
        for block in &step.blocks {
            let mut set = self.blocks(std::slice::from_ref(block), Slot { width: measure, ..inner });
            // What is set apart stays in one piece.
            if matches!(block, Block::Callout { .. }) {
                let last = set.len().saturating_sub(1);
                set[..last].iter_mut().for_each(|slab| slab.keep_next = true);
            }
            slabs.extend(set);
        }
        slabs.extend(self.figures_of_pages(&step.figures, inner));
        let further = slot.room - self.goes_on_height();
        let mut set = Vec::new();
        for slabs in packed(slabs, |page| if page == 0 { slot.room } else { further }) {
            set.push(if set.is_empty() {
                Slab { fragment: stack(slabs), ..Slab::default() }
            } else {
                self.further_page(step, slabs)
            });
        }
        set
    }

    /// Figures side by side in rows that a page can hold.
    fn figures_of_pages(&mut self, figures: &[Figure], slot: Slot) -> Vec<Slab> {
        if figures.is_empty() {
            return Vec::new();
        }
        let usual = self.sheet.figures;
        let fits = FIGURES.into_iter().find(|share| {
            self.sheet.figures = usual * share;
            let room = slot.room - self.goes_on_height();
            let rows = self.tried(|on| on.figure_rows(figures, slot.width, room, Tree::ROOT));
            rows.iter().all(|row| row.fragment.height <= room)
        });
        self.sheet.figures = usual * fits.unwrap_or(1.0);
        let room = slot.room - self.goes_on_height();
        let rows = self.figure_rows(figures, slot.width, room, slot.parent);
        self.sheet.figures = usual;
        rows
    }

    /// Sets something with text at a share of its usual size.
    fn sized<T>(&mut self, share: f64, set: impl FnOnce(&mut Self) -> T) -> T {
        let usual = (self.sheet.body, self.sheet.small);
        for style in [&mut self.sheet.body, &mut self.sheet.small] {
            style.size = (style.size * share).max(self.sheet.least);
            style.leading = style.leading * share;
        }
        let set = set(self);
        (self.sheet.body, self.sheet.small) = usual;
        set
    }
}

/// Slabs on pages, as many to each as it has room for.
fn packed(slabs: Vec<Slab>, room: impl Fn(usize) -> Mm) -> Vec<Vec<Slab>> {
    let mut pages: Vec<Vec<Slab>> = Vec::new();
    for group in groups(slabs) {
        let room = room(pages.len().saturating_sub(1));
        match pages.last_mut() {
            Some(page) if height_with(page, &group) <= room => page.extend(group),
            _ => pages.push(group),
        }
    }
    pages
}

/// Slabs that stay on one page together.
fn groups(slabs: Vec<Slab>) -> Vec<Vec<Slab>> {
    let mut groups: Vec<Vec<Slab>> = Vec::new();
    let mut stays = false;
    for slab in slabs {
        let next = slab.keep_next;
        match groups.last_mut().filter(|_| stays) {
            Some(group) => group.push(slab),
            None => groups.push(vec![slab]),
        }
        stays = next;
    }
    groups
}

/// Height of a page with more on it.
fn height_with(page: &[Slab], more: &[Slab]) -> Mm {
    let between =
        page.last().zip(more.first()).map_or(Mm::ZERO, |(last, first)| last.after.max(first.before));
    height(page) + between + height(more)
}
