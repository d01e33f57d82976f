//! A section is set block by block into a galley: slabs that do not know yet on which pages they will stand.

use super::NodeId;
use super::blocks::Slot;
use super::chart::small_charts;
use super::fit::Begins;
use super::fragment::{Fragment, Goal, Slab, height};
use super::setter::Setter;
use super::slice::slices;
use super::tree::Tree;
use crate::booklet::{Block, Section};
use crate::units::Mm;
use std::collections::BTreeMap;

/// White above a block when the room that is left for it is judged.
const OVER_BLOCK: Mm = Mm(2.0);
/// What stands above a chart stays with it while it takes no more than this share of a page.
const MOST_ABOVE_CHART: f64 = 0.45;

/// Cost of a section that begins below another, in usual print, in large print and on bench copies, and of one that has
/// no wish to begin a page: see [`super::fit`].
const BELOW: [f64; 3] = [40.0, 4.0, 3.0];
/// Cost of a part that would rather begin a page.
const PART_BELOW: f64 = 12.0;

/// What is set of one block, with a structure of its own whose root stands for the section.
pub(super) struct Piece {
    pub slabs: Vec<Slab>,
    pub tree: Tree,
    /// The block, when it is a chart that can be set anew in less room.
    pub chart: Option<usize>,
    /// Whether it may stand at the end of another section.
    pub floats: bool,
    /// By how much the numbers of its nodes grew when its structure was taken into the booklet's.
    taken_in: Option<usize>,
}

/// A section that is set.
pub(super) struct Galley<'b> {
    pub section: &'b Section,
    pub pieces: Vec<Piece>,
    /// Characters that no font has, with the texts they were met in.
    pub missing: BTreeMap<char, String>,
    /// Height of a page.
    room: Mm,
    /// The piece that the last chart may share its page with, from its head on.
    head: usize,
}

impl Setter<'_> {
    /// Sets a section for pages of this height.
    pub fn galley<'b>(&mut self, section: &'b Section, room: Mm) -> Galley<'b> {
        let mut galley = Galley { section, pieces: Vec::new(), missing: BTreeMap::new(), room, head: 0 };
        if !section.title.is_empty() {
            let title = self.section_title(&section.name, &section.title, section.listed, Tree::ROOT);
            galley.push(vec![title], self);
        }
        let mut rest = section.blocks.as_slice();
        let mut part = false;
        while let Some(first) = rest.first() {
            let at = section.blocks.len() - rest.len();
            let small = small_charts(rest);
            let taken = if small.len() > 1 { small.len() } else { 1 };
            let before = galley.pieces.len();
            match first {
                Block::NewPage => part = true,
                Block::Chart(chart) if chart.max_height.is_none() => {
                    if part {
                        galley.head = galley.pieces.len();
                    }
                    self.chart_in_galley(chart, at, &mut galley);
                }
                _ => self.block_in_galley(first, &rest[..taken], part, &mut galley),
            }
            if let (true, Some(slab)) =
                (part, galley.pieces.get_mut(before).and_then(|p| p.slabs.first_mut()))
            {
                slab.begins = Begins::Part;
                slab.below_others = PART_BELOW;
                part = false;
            }
            rest = &rest[taken..];
        }
        self.begin(&mut galley);
        galley.missing = std::mem::take(&mut self.shaper.missing);
        galley
    }

    /// Sets a block, or small charts side by side.
    fn block_in_galley(&mut self, block: &Block, blocks: &[Block], part: bool, galley: &mut Galley) {
        if part {
            galley.head = galley.pieces.len();
        }
        let slot = Slot { width: self.sheet.width(), room: galley.room_below_heading(), parent: Tree::ROOT };
        match block {
            Block::Cover(cover) => {
                let mut page = self.cover(cover, Tree::ROOT);
                page.height = galley.room;
                galley.push(vec![Slab { fragment: page, begins: Begins::Page, ..Slab::default() }], self);
            }
            Block::Float(blocks) => {
                let slabs = self.together(blocks, slot);
                galley.push(slabs, self);
                if let Some(piece) = galley.pieces.last_mut() {
                    piece.float(slot.room);
                }
            }
            Block::Together(blocks) => {
                let slabs = self.together(blocks, slot);
                galley.push(slabs, self);
            }
            _ => {
                let slabs = self.blocks(blocks, slot);
                galley.push(slabs, self);
            }
        }
    }

    /// Says what begins with the first slab of a section.
    fn begin(&self, galley: &mut Galley) {
        let section = galley.section;
        let Some(first) = galley.pieces.first_mut().and_then(|piece| piece.slabs.first_mut()) else { return };
        if section.title.is_empty() {
            first.fragment.goals.push(Goal {
                y: Mm::ZERO,
                section: Some(section.name.clone()),
                bookmark: None,
            });
        }
        if first.begins == Begins::Page {
            return;
        }
        first.begins = Begins::Section;
        first.faces = section.faces;
        let [usual, large, bench] = BELOW;
        let setting = &self.booklet.setting;
        first.below_others = match (section.new_page, setting.bench, setting.large_print) {
            (false, ..) => 0.0,
            (true, true, _) => bench,
            (true, false, true) => large,
            (true, false, false) => usual,
        };
    }

    /// Blocks kept on one page; charts among them take what the others leave.
    fn together(&mut self, blocks: &[Block], slot: Slot) -> Vec<Slab> {
        let charts = blocks.iter().filter(|b| matches!(b, Block::Chart(c) if c.max_height.is_none())).count();
        let room = if charts == 0 { slot.room } else { self.room_beside(blocks, slot) / charts as f64 };
        let mut slabs = self.blocks(blocks, Slot { room, ..slot });
        let last = slabs.len().saturating_sub(1);
        slabs[..last].iter_mut().for_each(|s| s.keep_next = true);
        slabs
    }

    /// Height that blocks leave to the charts among them: found by setting them once without the charts.
    fn room_beside(&mut self, blocks: &[Block], slot: Slot) -> Mm {
        let others: Vec<Block> = blocks.iter().filter(|b| !matches!(b, Block::Chart(_))).cloned().collect();
        let slabs = self.tried(|on| on.blocks(&others, Slot { parent: Tree::ROOT, ..slot }));
        let spaces = self.sheet.grown(super::measures::CHART_SPACE * 2.0);
        (slot.room - height(&slabs) - spaces).max(slot.room * 0.3)
    }

    /// Sets a chart for a page that begins with what stands above it.
    fn chart_in_galley(&mut self, chart: &crate::booklet::Chart, at: usize, galley: &mut Galley) {
        let space = self.sheet.grown(super::measures::CHART_SPACE);
        let stays = galley.height_from(galley.head) <= galley.room * MOST_ABOVE_CHART;
        let above = if stays { galley.height_from(galley.head) } else { galley.height_of_heading() };
        if stays {
            let pieces = galley.pieces[galley.head..].iter_mut();
            pieces.flat_map(|piece| &mut piece.slabs).for_each(|slab| slab.keep_next = true);
        }
        let over = if above.0 > 0.0 { galley.space_below().max(space) } else { Mm::ZERO };
        let set = self.chart_for_page(chart, galley.room - above - over, galley.room);
        let can_be_less = set.iter().any(|slab| slab.least.is_some());
        galley.push(set, self);
        if let Some(piece) = galley.pieces.last_mut() {
            piece.chart = can_be_less.then_some(at);
        }
        galley.head = galley.pieces.len();
    }
}

impl Galley<'_> {
    /// Adds what was set of a block, and takes its structure from the setter. What is taller than a page is sliced.
    fn push(&mut self, slabs: Vec<Slab>, setter: &mut Setter) {
        let tree = std::mem::replace(&mut setter.tree, Tree::new());
        let slabs = slabs.into_iter().flat_map(|slab| sliced(slab, self.room)).collect();
        self.pieces.push(Piece::of(slabs, tree));
    }

    fn slabs_from(&self, piece: usize) -> impl DoubleEndedIterator<Item = &Slab> {
        self.pieces[piece..].iter().flat_map(|piece| &piece.slabs)
    }

    /// Height of the slabs from a piece on.
    fn height_from(&self, piece: usize) -> Mm {
        let mut whole = Mm::ZERO;
        let mut after: Option<Mm> = None;
        for slab in self.slabs_from(piece) {
            whole += after.map_or(Mm::ZERO, |after| after.max(slab.before)) + slab.fragment.height;
            after = Some(slab.after);
        }
        whole
    }

    /// Height of what must stand on the page of the next block.
    fn height_of_heading(&self) -> Mm {
        let tied = self.slabs_from(0).rev().take_while(|slab| slab.keep_next);
        tied.map(|slab| slab.fragment.height + slab.after).sum()
    }

    /// Room for the next block below what must stand on its page.
    fn room_below_heading(&self) -> Mm {
        let heading = self.height_of_heading();
        self.room - if heading.0 > 0.0 { heading + OVER_BLOCK } else { Mm::ZERO }
    }

    fn space_below(&self) -> Mm {
        self.slabs_from(0).next_back().map_or(Mm::ZERO, |slab| slab.after)
    }
}

impl Piece {
    /// What stays where it is and as it is.
    pub fn of(slabs: Vec<Slab>, tree: Tree) -> Piece {
        Piece { slabs, tree, chart: None, floats: false, taken_in: None }
    }

    /// Takes its structure into the booklet's, under the node of a section, unless it is there; gives by how much the
    /// numbers of its nodes grow.
    pub fn take_in(&mut self, section: NodeId, booklet: &mut Tree) -> usize {
        *self
            .taken_in
            .get_or_insert_with(|| booklet.append(section, std::mem::replace(&mut self.tree, Tree::new())))
    }

    /// Makes one slab of what may stand elsewhere, if a page can hold it.
    fn float(&mut self, room: Mm) {
        if self.slabs.is_empty() || height(&self.slabs) > room {
            return;
        }
        let slabs = std::mem::take(&mut self.slabs);
        let (before, after) = (slabs[0].before, slabs[slabs.len() - 1].after);
        self.slabs = vec![Slab { fragment: super::fragment::stack(slabs), before, after, ..Slab::default() }];
        self.floats = true;
    }
}

/// A slab in slices that a page can hold.
fn sliced(slab: Slab, room: Mm) -> Vec<Slab> {
    let room = room - slab.repeat.as_ref().map_or(Mm::ZERO, |repeat| repeat.height);
    if slab.fragment.height <= room || slab.begins == Begins::Page {
        return vec![slab];
    }
    let Slab { fragment, before, after, repeat, begins, .. } = slab;
    let slice = |(index, fragment): (usize, Fragment)| Slab {
        fragment,
        before: if index == 0 { before } else { Mm::ZERO },
        after,
        repeat: repeat.clone(),
        begins: if index == 0 { begins } else { Begins::Nothing },
        ..Slab::default()
    };
    slices(fragment, room).into_iter().enumerate().map(slice).collect()
}
