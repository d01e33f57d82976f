//! Colour charts: scaled to the page so that letters can be read, split over pages where one is not
//! enough, and small ones side by side.

mod anchors;
mod beads;
mod extent;
mod frames;
mod grid;
mod labels;
mod map;
mod marks;
mod part;
mod plan;
mod ring;
mod small;
mod strands;
mod taken;

use super::NodeId;
use super::blocks::Slot;
use super::fragment::Slab;
use super::measures::CHART_SPACE;
use super::setter::Setter;
use super::tree::Tree;
use crate::booklet::{Block, Chart};
use crate::units::Mm;
pub(super) use plan::Plan;
use plan::Rooms;

/// By how much a chart may be made lower so that it shares its page: by the first of these that leaves it in one part.
const WORTH: [f64; 3] = [0.7, 0.8, 0.9];
/// Share of its room that a picture of the earring takes at least.
const LEAST_PICTURE: f64 = 0.5;

/// Rounding may make letters smaller by so many points.
const HAIR: f64 = 1e-6;

/// The small charts that the blocks begin with; they stand side by side.
pub(super) fn small_charts(blocks: &[Block]) -> Vec<&Chart> {
    blocks
        .iter()
        .map_while(|b| match b {
            Block::Chart(chart) if chart.max_height.is_some() => Some(chart),
            _ => None,
        })
        .collect()
}

impl Setter<'_> {
    /// Whether a page that leaves it this height holds a chart with letters of full size.
    pub fn one_page_holds(&mut self, chart: &Chart, room: Mm) -> bool {
        let width = self.sheet.width();
        let needs = self.needs(chart);
        self.plan(chart, &needs, width, Rooms { first: room, rest: room }).parts() == 1
    }

    /// How a chart stands on pages of these heights, the first and the others: those ways that leave its letters large
    /// enough to read.
    pub fn plans(&mut self, chart: &Chart, heights: impl IntoIterator<Item = (Mm, Mm)>) -> Vec<Plan> {
        let width = self.sheet.width();
        let needs = self.needs(chart);
        let rooms = heights.into_iter().map(|(first, rest)| Rooms { first, rest });
        let mut plans: Vec<Plan> = rooms.map(|rooms| self.plan(chart, &needs, width, rooms)).collect();
        plans.retain(|plan| plan.letter.0 >= self.sheet.least_letter.0 - HAIR);
        plans
    }

    /// A chart as it is planned.
    pub fn chart_as_planned(&mut self, chart: &Chart, plan: &Plan) -> Vec<Slab> {
        self.chart_parts(chart, plan, self.sheet.width(), Tree::ROOT)
    }

    /// A chart that has this height on its first page, and so much on those that follow. One in one part says in how much
    /// less it can be set anew.
    pub fn chart_for_page(&mut self, chart: &Chart, first: Mm, rest: Mm) -> Vec<Slab> {
        let width = self.sheet.width();
        if chart.bare {
            let slot = Slot { width, room: first, parent: Tree::ROOT };
            let picture = self.bare_chart(chart, slot);
            let least = picture.height.min(first * LEAST_PICTURE);
            let slab = Slab::spaced(picture, self.sheet.grown(CHART_SPACE));
            return vec![Slab { least: Some(least), ..slab }];
        }
        let needs = self.needs(chart);
        let plan = self.plan(chart, &needs, width, Rooms { first, rest });
        let mut slabs = self.chart_parts(chart, &plan, width, Tree::ROOT);
        if let [slab] = slabs.as_mut_slice() {
            let whole = slab.fragment.height;
            let is_whole =
                |least: &Mm| self.plan(chart, &needs, width, Rooms { first: *least, rest }).parts() == 1;
            slab.least = WORTH.map(|share| whole * share).into_iter().find(is_whole);
        }
        slabs
    }

    /// A chart in a column; several slabs when it is split.
    pub fn chart(&mut self, chart: &Chart, width: Mm, room: Mm, parent: NodeId) -> Vec<Slab> {
        if chart.max_height.is_some() || chart.bare {
            return self.small_charts(&[chart], Slot { width, room, parent });
        }
        let needs = self.needs(chart);
        let plan = self.plan(chart, &needs, width, Rooms { first: room, rest: room });
        self.chart_parts(chart, &plan, width, parent)
    }
}
