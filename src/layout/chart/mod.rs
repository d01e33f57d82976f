//! Colour charts: scaled to the page so that letters can be read, split over pages where one is not
//! enough, and small ones side by side.

mod anchors;
mod beads;
mod extent;
mod grid;
mod labels;
mod map;
mod marks;
mod part;
mod plan;
mod small;

use super::NodeId;
use super::blocks::Slot;
use super::flow::Flow;
use super::fragment::Slab;
use super::measures::CHART_SPACE;
use super::setter::Setter;
use crate::booklet::{Block, Chart};
use crate::units::Mm;
use plan::Rooms;

/// How much smaller a chart may be on the rest of a page than on a fresh one before it goes to the fresh one.
const WORTH_A_PAGE: f64 = 0.7;
/// The same on a bench copy, which is to take few pages.
const WORTH_A_BENCH_PAGE: f64 = 0.6;
/// Share of a page that a split chart's first part must fill there.
const LEAST_BEGUN: f64 = 0.2;
/// Less height than this on the rest of a page is no place for a chart.
const LEAST_REST: Mm = Mm(40.0);
/// Share of a page that must be left for a picture of the earring.
const LEAST_PICTURE: f64 = 0.45;
/// Share of a page that must be free for a split chart to begin on it when that takes one part more.
const MOSTLY_FREE: f64 = 0.6;

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
    /// Whether one page holds a chart with letters of full size: the one that stands here, or, where little is left of
    /// that, a fresh one.
    pub fn one_page_holds(&mut self, chart: &Chart, flow: &Flow, width: Mm) -> bool {
        let (here, fresh) = flow.rooms(self.sheet.grown(CHART_SPACE));
        let room = if here < fresh * MOSTLY_FREE { fresh } else { here };
        self.plan(chart, width, Rooms { first: room, rest: room }).parts() == 1
    }

    /// A chart where the page stands: on the rest of it when there it is nearly as large as on a fresh one.
    pub fn chart_for_flow(&mut self, chart: &Chart, flow: &mut Flow, slot: Slot) -> Vec<Slab> {
        let space = self.sheet.grown(CHART_SPACE);
        let (here, fresh) = flow.rooms(space);
        if chart.bare {
            let room = if here < fresh * LEAST_PICTURE { fresh } else { here };
            return vec![Slab::spaced(self.bare_chart(chart, Slot { room, ..slot }), space)];
        }
        let rest = flow.whole_room();
        let begun = Rooms { first: here, rest };
        let anew = Rooms { first: fresh, rest };
        let here_plan = self.plan(chart, slot.width, begun);
        let fresh_plan = self.plan(chart, slot.width, anew);
        let worth = if self.booklet.setting.bench { WORTH_A_BENCH_PAGE } else { WORTH_A_PAGE };
        let stays = if here < LEAST_REST {
            false
        } else if here_plan.parts() == 1 {
            here_plan.scale >= fresh_plan.scale * worth
        } else {
            let begins = here_plan.windows[0].height() * here_plan.scale;
            let more = here_plan.parts() - fresh_plan.parts().min(here_plan.parts());
            fresh_plan.parts() > 1
                && begins > fresh * LEAST_BEGUN
                && (more == 0 || more == 1 && here > fresh * MOSTLY_FREE)
        };
        let plan = if stays { here_plan } else { fresh_plan };
        self.chart_parts(chart, &plan, slot.width, slot.parent)
    }

    /// A chart in a column; several slabs when it is split.
    pub fn chart(&mut self, chart: &Chart, width: Mm, room: Mm, parent: NodeId) -> Vec<Slab> {
        if chart.max_height.is_some() || chart.bare {
            return self.small_charts(&[chart], Slot { width, room, parent });
        }
        let plan = self.plan(chart, width, Rooms { first: room, rest: room });
        self.chart_parts(chart, &plan, width, parent)
    }
}
