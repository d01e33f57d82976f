//! A section is set block by block into a galley: slabs that do not know yet on which pages they will stand.

use super::NodeId;
use super::blocks::Slot;
use super::chart::{Plan, small_charts};
use super::contents::Listed;
use super::fit::Begins;
use super::fragment::{Fragment, Goal, Slab, height, stack};
use super::measures::CHART_SPACE;
use super::setter::Setter;
use super::slice::slices;
use super::step::Look;
use super::tree::Tree;
use crate::booklet::{Block, CalloutKind, Chart, Floating, ParagraphStyle, Section, Step};
use crate::fonts::OwnFont;
use crate::units::Mm;
use std::collections::{BTreeMap, BTreeSet};

/// White above a block when the room that is left for it is judged.
const OVER_BLOCK: Mm = Mm(2.0);
/// What stands above a chart stays with it while it takes no more than this share of a page.
const MOST_ABOVE_CHART: f64 = 0.45;

/// Cost of a section that begins below another, in usual print, in large print and on bench copies, and of one that has
/// no wish to begin a page: see [`super::fit`].
const BELOW: [f64; 3] = [40.0, 4.0, 3.0];
/// Cost of a page to take out that begins below another section.
const TAKEN_OUT_BELOW: f64 = 600.0;
/// Cost of a note that parts from what it is about.
const BEFORE_NOTE: f64 = 40.0;
/// Cost of a picture that parts from what stands above it.
const BEFORE_PICTURE: f64 = 120.0;
/// Cost of a part that would rather begin a page, and of one that must.
const PART_BELOW: f64 = 12.0;
const SCREEN_BELOW: f64 = 1e9;

/// How much larger diagrams may be where there is room, and whether several stand one under the other for it.
pub(super) const ROOMIER: [(f64, bool); 7] =
    [(1.4, true), (1.25, true), (1.12, true), (1.0, true), (1.4, false), (1.25, false), (1.12, false)];

/// Shares of a page that the parts of a chart may have, where their usual ones would leave pages empty.
const PARTS: [f64; 3] = [0.94, 0.87, 0.8];
/// Share of a page that the first part of a chart must have where it begins below other things.
const LEAST_PART: f64 = 0.25;

/// What is set of a block, with a structure of its own whose root stands for the section.
pub(super) struct Version {
    pub slabs: Vec<Slab>,
    pub tree: Tree,
    /// The look of a step.
    pub look: Look,
}

/// A block that is set.
pub(super) struct Piece<'b> {
    /// As it is usually set, and in other ways.
    pub versions: Vec<Version>,
    /// What it was made of, and the height that it was made for.
    pub made_of: Option<(&'b Block, Mm)>,
    /// Whether it may stand at the end of another section.
    pub floats: bool,
    /// By how much the numbers of its nodes grew when its structure was taken into the booklet's.
    taken_in: Option<usize>,
}

/// A section that is set.
pub(super) struct Galley<'b> {
    pub section: &'b Section,
    pub pieces: Vec<Piece<'b>>,
    /// What of it has a line of its own in the contents.
    pub listed: Option<Listed>,
    /// Characters that no font has, with the texts they were met in.
    pub missing: BTreeMap<char, String>,
    /// Characters that the maker's fonts have not.
    pub stand_ins: BTreeSet<(OwnFont, char)>,
    /// Height of a page.
    room: Mm,
    /// The piece that the page of the next chart begins with.
    head: usize,
    /// Whether what is set next begins a part.
    part: bool,
    /// Whether what was set last has its page for itself.
    screen: bool,
}

impl Version {
    /// The same in so many slabs at most: what is beyond them is part of the last.
    pub fn in_slabs(mut self, most: usize) -> Version {
        if most > 0 && self.slabs.len() > most {
            let last = self.slabs.split_off(most - 1);
            self.slabs.push(as_one(last));
        }
        self
    }

    /// Shows what was set anew in as many slabs, which stay what they are to the pages.
    pub fn show(&mut self, anew: Version) {
        self.tree = anew.tree;
        for (slab, new) in self.slabs.iter_mut().zip(anew.slabs) {
            slab.fragment = new.fragment;
        }
    }
}

impl Setter<'_> {
    /// Sets a section for pages of this height.
    pub fn galley<'b>(&mut self, section: &'b Section, room: Mm) -> Galley<'b> {
        let mut galley = Galley {
            section,
            pieces: Vec::new(),
            listed: None,
            missing: BTreeMap::new(),
            stand_ins: BTreeSet::new(),
            room,
            head: 0,
            part: false,
            screen: false,
        };
        if !section.title.is_empty() {
            let title = self.section_title(&section.name, &section.title, section.listed, Tree::ROOT);
            galley.push(vec![title], None, self);
        }
        self.blocks_in_galley(&section.blocks, &mut galley);
        self.begin(&mut galley);
        galley.missing = std::mem::take(&mut self.shaper.missing);
        galley.stand_ins = std::mem::take(&mut self.shaper.stand_ins);
        galley
    }

    /// Sets blocks one after the other; small charts that follow one another stand side by side.
    fn blocks_in_galley<'b>(&mut self, blocks: &'b [Block], galley: &mut Galley<'b>) {
        let mut rest = blocks;
        while let Some(first) = rest.first() {
            let taken = small_charts(rest).len().max(1);
            match first {
                Block::NewPage => galley.begin_part(),
                Block::ChartOnOnePage { chart, otherwise } => {
                    let room = self.room_for_chart(galley);
                    if self.one_page_holds(chart, room) {
                        self.chart_in_galley(chart, first, galley);
                    } else {
                        self.blocks_in_galley(otherwise, galley);
                    }
                }
                Block::Float(floating) => self.float_in_galley(first, floating, galley),
                Block::Screen(_) => self.screens_in_galley(first, galley),
                Block::Step(_) if self.booklet.setting.tablet => self.screens_in_galley(first, galley),
                Block::Chart(chart) if chart.max_height.is_none() => {
                    self.chart_in_galley(chart, first, galley)
                }
                _ => self.block_in_galley(&rest[..taken], galley),
            }
            rest = &rest[taken..];
        }
    }

    /// Sets a block, or small charts side by side.
    fn block_in_galley<'b>(&mut self, blocks: &'b [Block], galley: &mut Galley<'b>) {
        let slot = Slot { width: self.sheet.width(), room: galley.room_below_heading(), parent: Tree::ROOT };
        let made_of = Some((&blocks[0], slot.room));
        match &blocks[0] {
            Block::Paragraph { style: ParagraphStyle::Small, .. }
            | Block::Callout { kind: CalloutKind::Note, .. } => galley.tie_last(BEFORE_NOTE),
            // A code and a check stay with what they are about; lines to write on fill what is left of a page, they do not
            // begin one.
            Block::Code(_) | Block::Callout { kind: CalloutKind::Check, .. } | Block::WritingLines(_) => {
                galley.keep_last()
            }
            _ => {}
        }
        let slabs = match &blocks[0] {
            Block::Cover(cover) => {
                let mut page = self.cover(cover, Tree::ROOT);
                page.height = galley.room;
                vec![Slab { fragment: page, begins: Begins::Page, ..Slab::default() }]
            }
            Block::Back(back) => {
                let mut page = self.back(back, Tree::ROOT);
                page.height = galley.room;
                vec![Slab { fragment: page, begins: Begins::Page, ..Slab::default() }]
            }
            Block::EarringCards(cards) => {
                let mut page = self.earring_cards(cards, Tree::ROOT);
                page.height = galley.room;
                vec![Slab { fragment: page, begins: Begins::Page, ..Slab::default() }]
            }
            Block::Together(blocks) => self.together(blocks, slot),
            _ => self.blocks(blocks, slot),
        };
        galley.push(slabs, made_of, self);
    }

    /// Sets a block that has pages for itself.
    fn screens_in_galley<'b>(&mut self, block: &'b Block, galley: &mut Galley<'b>) {
        let slot = Slot { width: self.sheet.width(), room: galley.room, parent: Tree::ROOT };
        let mut slabs = match block {
            Block::Screen(screen) => self.screen(screen, slot),
            Block::Step(step) => self.step_screens(step, slot),
            _ => return,
        };
        for slab in &mut slabs {
            (slab.begins, slab.below_others) = (Begins::Part, SCREEN_BELOW);
        }
        galley.part = false;
        galley.push(slabs, None, self);
        // Nothing follows on the same page.
        galley.screen = true;
    }

    /// Sets blocks that may stand at the end of another section, if a page can hold them.
    fn float_in_galley<'b>(&mut self, block: &'b Block, floating: &'b Floating, galley: &mut Galley<'b>) {
        let (blocks, begins) = (&floating.blocks, galley.pieces.len());
        let slot = Slot { width: self.sheet.width(), room: galley.room, parent: Tree::ROOT };
        let charts: Vec<&Chart> = blocks.iter().filter_map(Block::chart).collect();
        let room = if charts.is_empty() { slot.room } else { self.room_beside(blocks, slot) };
        let held = charts.iter().all(|chart| self.one_page_holds(chart, room));
        let slabs = if held { self.blocks(blocks, Slot { room, ..slot }) } else { Vec::new() };
        if slabs.is_empty() || height(&slabs) > galley.room {
            self.tree = Tree::new();
            galley.begin_part();
            self.blocks_in_galley(blocks, galley);
        } else {
            galley.part = false;
            galley.push(vec![as_one(slabs)], Some((block, galley.room)), self);
            galley.pieces.iter_mut().next_back().into_iter().for_each(|piece| piece.floats = true);
        }
        let first = galley.pieces.get_mut(begins).and_then(Piece::first);
        if let (Some(title), Some(first)) = (&floating.listed, first) {
            let name = format!("{}: {title}", galley.section.name);
            first.fragment.goals.push(Goal {
                y: Mm::ZERO,
                section: Some(name.clone()),
                bookmark: None,
                place: None,
            });
            galley.listed = Some(Listed { title: title.clone(), name });
        }
    }

    /// Sets a piece of a section in other ways, if there are any: for a page that would look empty with so much room to
    /// spare.
    pub fn vary(&mut self, galley: &mut Galley, piece: usize, spare: Mm) {
        let room = galley.room;
        let (above, piece) = galley.above_and_at(piece);
        let others: Vec<Version> = match piece.made_of {
            _ if piece.versions.iter().skip(1).any(|version| !version.look.is_higher()) => return,
            Some((Block::Step(step), room)) => {
                let slot = Slot { width: self.sheet.width(), room, parent: Tree::ROOT };
                let others = Look::OTHERS.map(|look| self.step_apart(step, look, slot));
                others.into_iter().flatten().collect()
            }
            // A chart in parts may begin on the page that looks empty, or be parted elsewhere.
            Some((Block::Chart(chart), _)) if piece.versions[0].slabs.len() > 1 => {
                let rooms = PARTS
                    .map(|share| (room - above) * share)
                    .map(|first| (first, room * (first / (room - above))));
                let here = (spare - above, room);
                let rooms = rooms.into_iter().chain((here.0 > room * LEAST_PART).then_some(here));
                let plans = self.plans(chart, rooms);
                let set = |plan: &Plan| self.apart(|on| Some(on.chart_as_planned(chart, plan)));
                plans.iter().filter_map(set).collect()
            }
            _ => return,
        };
        let heights = |slabs: &[Slab]| slabs.iter().map(|slab| slab.fragment.height).collect::<Vec<_>>();
        for version in others {
            let version = piece.in_place_of_usual(version, room);
            if !piece.versions.iter().any(|known| heights(&known.slabs) == heights(&version.slabs)) {
                piece.versions.push(version);
            }
        }
    }

    /// Sets a step in ways that take more height too, if there are any.
    pub fn vary_higher(&mut self, galley: &mut Galley, piece: usize) {
        let Some((Block::Step(step), room)) = galley.pieces[piece].made_of else { return };
        let slot = Slot { width: self.sheet.width(), room, parent: Tree::ROOT };
        for look in Look::HIGHER {
            let Some(version) = self.step_apart(step, look, slot) else { continue };
            let piece = &mut galley.pieces[piece];
            piece.versions.push(piece.in_place_of_usual(version, galley.room));
        }
    }

    /// A step with larger diagrams, if it has any and they are not made smaller for want of room; those abreast of two
    /// others one under the other, if asked for.
    pub fn larger(
        &mut self,
        galley: &Galley,
        piece: usize,
        version: usize,
        (share, alone): (f64, bool),
    ) -> Option<Version> {
        let piece = &galley.pieces[piece];
        let Some((Block::Step(step), room)) = piece.made_of else { return None };
        let slot = Slot { width: self.sheet.width(), room, parent: Tree::ROOT };
        let look = piece.versions[version].look.larger(share)?;
        let look = if alone { look.alone(step) } else { look };
        self.step_apart(step, look, slot)
    }

    /// A step in another look, if it has any.
    pub fn step_apart(&mut self, step: &Step, look: Look, slot: Slot) -> Option<Version> {
        let set = self.apart(|on| on.step_otherwise(step, look, slot))?;
        Some(Version { look, ..set })
    }

    /// What is set with a structure of its own.
    pub fn apart(&mut self, set: impl FnOnce(&mut Self) -> Option<Vec<Slab>>) -> Option<Version> {
        let kept = std::mem::replace(&mut self.tree, Tree::new());
        let slabs = set(self);
        let tree = std::mem::replace(&mut self.tree, kept);
        slabs.map(|slabs| Version { slabs, tree, look: Look::USUAL })
    }

    /// Says what begins with the first slab of a section.
    fn begin(&self, galley: &mut Galley) {
        let (section, taken_out) = (galley.section, galley.is_taken_out());
        let Some(first) = galley.pieces.first_mut().and_then(Piece::first) else { return };
        if section.title.is_empty() {
            first.fragment.goals.push(Goal {
                y: Mm::ZERO,
                section: Some(section.name.clone()),
                place: None,
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
            (true, ..) if taken_out => TAKEN_OUT_BELOW,
            (false, ..) => 0.0,
            (true, true, _) if section.blocks.iter().any(is_chart) => usual,
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
        let spaces = self.sheet.grown(CHART_SPACE * 2.0);
        (slot.room - height(&slabs) - spaces).max(slot.room * 0.3)
    }

    /// Sets a chart for a page that begins with what stands above it.
    fn chart_in_galley<'b>(&mut self, chart: &'b Chart, block: &'b Block, galley: &mut Galley<'b>) {
        let set = self.chart_for_page(chart, self.room_for_chart(galley), galley.room);
        if galley.stays_with_chart() {
            let pieces = galley.pieces[galley.head..].iter_mut();
            let mut above: Vec<&mut Slab> = pieces.flat_map(|piece| &mut piece.versions[0].slabs).collect();
            above.iter_mut().for_each(|slab| slab.keep_next = true);
            // A picture may part from what is said of the chart, if it must.
            if let (true, [.., last]) = (chart.bare, above.as_mut_slice()) {
                (last.keep_next, last.tie) = (false, BEFORE_PICTURE);
            }
        }
        galley.push(set, Some((block, galley.room)), self);
        galley.head = galley.pieces.len();
    }

    /// Height that a page leaves to a chart below what stands above it.
    fn room_for_chart(&self, galley: &Galley) -> Mm {
        let stays = galley.stays_with_chart();
        let above = if stays { galley.height_from(galley.head) } else { galley.height_of_heading() };
        let space = self.sheet.grown(CHART_SPACE).max(galley.space_below());
        galley.room - if above.0 > 0.0 { above + space } else { Mm::ZERO }
    }
}

impl<'b> Galley<'b> {
    /// What is set next would rather begin a page.
    fn begin_part(&mut self) {
        self.part = true;
        self.head = self.pieces.len();
    }

    /// Adds what was set of a block, and takes its structure from the setter. What is taller than a page is sliced.
    fn push(&mut self, slabs: Vec<Slab>, made_of: Option<(&'b Block, Mm)>, setter: &mut Setter) {
        let tree = std::mem::replace(&mut setter.tree, Tree::new());
        let mut slabs = sliced(slabs, self.room);
        if let (true, Some(first)) = (self.part || self.screen, slabs.first_mut()) {
            first.begins = Begins::Part;
            first.below_others = if self.screen { SCREEN_BELOW } else { PART_BELOW };
            (self.part, self.screen) = (false, false);
        }
        let versions = vec![Version { slabs, tree, look: Look::USUAL }];
        self.pieces.push(Piece { versions, made_of, floats: false, taken_in: None });
    }

    /// Makes it cost at least so much to end a page after what was set last.
    fn tie_last(&mut self, cost: f64) {
        if let Some(slab) = self.pieces.last_mut().and_then(|piece| piece.versions[0].slabs.last_mut()) {
            slab.tie = slab.tie.max(cost);
        }
    }

    /// Lets no page end after what was set last.
    fn keep_last(&mut self) {
        if let Some(slab) = self.pieces.last_mut().and_then(|piece| piece.versions[0].slabs.last_mut()) {
            slab.keep_next = true;
        }
    }

    /// Whether it is a page to take out: one with lines to write on.
    pub fn is_taken_out(&self) -> bool {
        self.section.blocks.iter().any(|block| matches!(block, Block::WritingLines(_)))
    }

    /// Whether all that stands above a chart on its page stays with it.
    fn stays_with_chart(&self) -> bool {
        self.height_from(self.head) <= self.room * MOST_ABOVE_CHART
    }

    fn slabs_from(&self, piece: usize) -> impl DoubleEndedIterator<Item = &Slab> {
        self.pieces[piece..].iter().flat_map(|piece| &piece.versions[0].slabs)
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

    /// A piece, and the height of what must stand on the page that it begins on.
    fn above_and_at(&mut self, piece: usize) -> (Mm, &mut Piece<'b>) {
        let tied = self.pieces[..piece].iter().flat_map(|piece| &piece.versions[0].slabs);
        let tied = tied.rev().take_while(|slab| slab.keep_next);
        (tied.map(|slab| slab.fragment.height + slab.before.max(slab.after)).sum(), &mut self.pieces[piece])
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

impl Piece<'_> {
    /// Its first slab, as it is usually set.
    fn first(&mut self) -> Option<&mut Slab> {
        self.versions[0].slabs.first_mut()
    }

    /// Another version of it, sliced where no page can hold it, that begins what its usual one begins.
    pub fn in_place_of_usual(&self, version: Version, room: Mm) -> Version {
        let mut slabs = sliced(version.slabs, room);
        if let (Some(first), Some(usual)) = (slabs.first_mut(), self.versions[0].slabs.first()) {
            (first.begins, first.below_others) = (usual.begins, usual.below_others);
        }
        Version { slabs, ..version }
    }

    /// Takes the structure of one of its versions into the booklet's, under the node of a section, unless it is there;
    /// gives by how much the numbers of its nodes grow.
    pub fn take_in(&mut self, version: usize, section: NodeId, booklet: &mut Tree) -> usize {
        let tree = &mut self.versions[version].tree;
        *self.taken_in.get_or_insert_with(|| booklet.append(section, std::mem::replace(tree, Tree::new())))
    }
}

/// One slab of several.
fn as_one(slabs: Vec<Slab>) -> Slab {
    let before = slabs.first().map_or(Mm::ZERO, |slab| slab.before);
    let after = slabs.last().map_or(Mm::ZERO, |slab| slab.after);
    Slab { fragment: stack(slabs), before, after, ..Slab::default() }
}

/// Slabs, those that no page can hold in slices.
fn sliced(slabs: Vec<Slab>, room: Mm) -> Vec<Slab> {
    slabs.into_iter().flat_map(|slab| slices_of(slab, room)).collect()
}

fn slices_of(slab: Slab, room: Mm) -> Vec<Slab> {
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

/// Whether a block is the chart of an earring, which takes all of a page that it can get.
fn is_chart(block: &Block) -> bool {
    matches!(block, Block::Chart(_) | Block::ChartOnOnePage { .. })
}
