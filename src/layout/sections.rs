//! The whole booklet: section by section onto pages.

use super::blocks::Slot;
use super::chart::small_charts;
use super::flow::{Draft, Flow};
use super::fragment::Goal;
use super::lines::break_text;
use super::measures::CHART_SPACE;
use super::setter::Setter;
use super::tree::Tree;
use super::{DisplayList, LayerNames, NodeId, Role, TextArea};
use crate::booklet::{Block, Booklet, Section, Text};
use crate::units::Mm;
use rayon::prelude::*;
use std::collections::BTreeMap;

/// White above a block when the room that is left for it is judged.
const OVER_BLOCK: Mm = Mm(2.0);

/// A character that no built-in font has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MissingGlyph {
    /// The character.
    pub character: char,
    /// The text that it was met in.
    pub text: String,
}

/// Sets a booklet on pages.
///
/// # Errors
/// Every character that no built-in font has.
pub fn lay_out(booklet: &Booklet) -> Result<DisplayList, Vec<MissingGlyph>> {
    let mut setter = Setter::new(booklet);
    let foot_lines = setter.foot_lines();
    let content_foot = setter.sheet.foot - setter.sheet.running.leading * (foot_lines.len() as f64 + 0.8);
    let room = content_foot - setter.sheet.top;
    let set: Vec<Set> = apart(booklet).par_iter().map(|sections| set(booklet, sections, room)).collect();
    let mut drafts = Vec::new();
    for mut part in set {
        let by = setter.tree.append(part.tree);
        part.pages.iter_mut().for_each(|page| page.content.renumber(by));
        drafts.append(&mut part.pages);
        for (character, text) in part.missing {
            setter.shaper.missing.entry(character).or_insert(text);
        }
    }
    let (pages, bookmarks) = setter.finish(drafts, foot_lines);
    let missing = std::mem::take(&mut setter.shaper.missing);
    if !missing.is_empty() {
        return Err(missing.into_iter().map(|(character, text)| MissingGlyph { character, text }).collect());
    }
    let words = &booklet.words;
    Ok(DisplayList {
        meta: booklet.meta.clone(),
        pages,
        text_area: TextArea { top: setter.sheet.top, height: room },
        nodes: setter.tree.into_nodes(),
        bookmarks,
        layer_names: LayerNames {
            letters: words.layer_letters.clone(),
            marks: words.layer_marks.clone(),
            grid: words.layer_grid.clone(),
        },
    })
}

/// Sections that have been set by themselves.
struct Set {
    pages: Vec<Draft>,
    tree: Tree,
    missing: BTreeMap<char, String>,
}

/// A booklet's sections in runs that begin a page whatever comes before them: those know nothing of each other, so
/// both processors set some. On bench copies and in large print sections run on where there is room.
fn apart(booklet: &Booklet) -> Vec<&[Section]> {
    if booklet.setting.bench || booklet.setting.large_print {
        return vec![&booklet.sections];
    }
    booklet.sections.chunk_by(|_, next| !next.new_page).collect()
}

/// Sets some sections, with pages of this height for their content.
fn set(booklet: &Booklet, sections: &[Section], room: Mm) -> Set {
    let mut setter = Setter::new(booklet);
    let mut flow = Flow::new(setter.sheet.side, setter.sheet.top, room);
    for section in sections {
        setter.section(section, &mut flow);
    }
    flow.flush();
    let missing = std::mem::take(&mut setter.shaper.missing);
    Set { pages: flow.pages, tree: setter.tree, missing }
}

impl Setter<'_> {
    /// The copyright line, broken where it must be; it leaves room for the page number.
    fn foot_lines(&mut self) -> Vec<super::lines::SetLine> {
        let style = self.sheet.running;
        let width = self.sheet.width() * 0.76;
        let how = self.plain();
        break_text(&mut self.shaper, &Text::plain(&self.booklet.foot_line), &style, width, how)
    }

    fn section(&mut self, section: &Section, flow: &mut Flow) {
        let node = self.tree.add(Tree::ROOT, Role::Section);
        if section.new_page && !self.runs_on(section, flow) {
            flow.new_page();
        }
        flow.begin_section(&section.title);
        let mut goal = None;
        if section.title.is_empty() {
            goal = Some(Goal { y: Mm::ZERO, section: Some(section.name.clone()), bookmark: None });
        } else {
            let title = self.section_title(&section.name, &section.title, section.listed, node);
            flow.push(vec![title]);
        }
        self.blocks_of_section(&section.blocks, node, &mut goal, flow);
        flow.flush();
    }

    /// Puts blocks one after the other where the pages stand.
    fn blocks_of_section(
        &mut self,
        blocks: &[Block],
        node: NodeId,
        goal: &mut Option<Goal>,
        flow: &mut Flow,
    ) {
        let mut rest = blocks;
        let mut under_heading = false;
        while let Some(first) = rest.first() {
            let taken = self.next_of_section(rest, under_heading, node, goal, flow);
            under_heading = matches!(first, Block::Heading { .. });
            rest = &rest[taken..];
        }
    }

    /// Puts the first of some blocks where the page stands, with those that go beside it; gives how many
    /// those are. A section without a title begins at its first block, which takes its `goal`.
    fn next_of_section(
        &mut self,
        blocks: &[Block],
        under_heading: bool,
        node: NodeId,
        goal: &mut Option<Goal>,
        flow: &mut Flow,
    ) -> usize {
        let slot = Slot { width: self.sheet.width(), room: flow.rooms(OVER_BLOCK).1, parent: node };
        let small = small_charts(blocks);
        if small.len() > 1 {
            flow.push(self.small_charts(&small, slot));
            return small.len();
        }
        let slabs = match &blocks[0] {
            Block::Cover(cover) => {
                let mut page = self.cover(cover, node);
                page.goals.extend(goal.take());
                flow.push_page(page);
                return 1;
            }
            Block::NewPage => {
                flow.new_page();
                return 1;
            }
            Block::Chart(chart) => self.chart_for_flow(chart, flow, slot),
            Block::ChartOnOnePage { chart, otherwise } => {
                if !self.one_page_holds(chart, flow, slot.width) {
                    self.blocks_of_section(otherwise, node, goal, flow);
                    return 1;
                }
                self.chart_for_flow(chart, flow, slot)
            }
            Block::Step(step) => self.step_for_flow(step, flow, slot),
            Block::Together(blocks) => self.together(blocks, slot),
            block => {
                let mut slabs = self.block_slabs(block, slot);
                if let (Some(goal), Some(slab)) = (goal.take(), slabs.first_mut()) {
                    slab.fragment.goals.push(goal);
                }
                // A heading with a few words does not part from the chart that it announces.
                if under_heading && matches!(blocks.get(1), Some(Block::Chart(_))) {
                    slabs.iter_mut().for_each(|s| s.keep_next = true);
                }
                slabs
            }
        };
        flow.push(slabs);
        1
    }

    /// Whether a section that would begin a page goes on below another: in large print where little stands there,
    /// on a bench copy where all of it fits.
    fn runs_on(&mut self, section: &Section, flow: &mut Flow) -> bool {
        let setting = &self.booklet.setting;
        let charted =
            section.blocks.iter().any(|b| matches!(b, Block::Chart(_) | Block::ChartOnOnePage { .. }));
        if setting.bench && charted {
            return false;
        }
        if setting.large_print || !setting.bench {
            return setting.large_print && flow.is_mostly_free();
        }
        flow.flush();
        self.tried(|on| {
            let title = on.section_title(&section.name, &section.title, section.listed, Tree::ROOT);
            let (here, fresh) = flow.rooms(title.before);
            let slot = Slot { width: on.sheet.width(), room: fresh, parent: Tree::ROOT };
            let mut slabs = vec![title];
            slabs.extend(on.blocks(&section.blocks, slot));
            super::fragment::height(&slabs) <= here
        })
    }

    /// Blocks kept on one page; charts among them take what the others leave.
    fn together(&mut self, blocks: &[Block], slot: Slot) -> Vec<super::fragment::Slab> {
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
        (slot.room - super::fragment::height(&slabs) - spaces).max(slot.room * 0.3)
    }
}
