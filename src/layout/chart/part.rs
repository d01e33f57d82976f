//! One part of a chart on its page: beads, numbers, legend and caption.

use super::extent::{Extent, of_beads};
use super::labels::clear_numbers;
use super::plan::{Beside, Plan};
use super::strands::strand_ticks;
use crate::booklet::{Chart, ChartBead, LegendEntry};
use crate::drawn::Align;
use crate::layout::fragment::{Fragment, Slab};
use crate::layout::measures::CHART_SPACE;
use crate::layout::setter::Setter;
use crate::layout::tree::Tree;
use crate::layout::{NodeId, Role};
use crate::stitch::SectionKind;
use crate::units::{Mm, Point, Pt};

/// Between a chart and its caption; grows with the type.
const OVER_CAPTION: Mm = Mm(2.2);
/// How many times as much stands over the legend.
const OVER_LEGEND: f64 = 1.6;
/// Longest line of a chart's caption, in ems.
const CAPTION_EMS: f64 = 46.0;

/// From millimetres of the earring to the page.
#[derive(Clone, Copy, Debug)]
pub(super) struct View {
    /// What is shown.
    pub window: Extent,
    /// The extent of the beads shown.
    pub shown: Extent,
    /// Page millimetres to one of the earring.
    pub scale: f64,
    /// Where the top left of what is shown stands.
    pub at: Point,
    /// By how much strands stand lower, so that their numbers have room between body and fringe.
    pub gap: Mm,
    /// Size of letters; `None` where they would be too small to read.
    pub letter: Option<Pt>,
    /// White between letters and the edges of their beads.
    pub clear: Mm,
    /// The chart's node.
    pub node: NodeId,
}

impl View {
    pub fn x(&self, x: Mm) -> Mm {
        self.at.x + (x - self.shown.left) * self.scale
    }
    pub fn y(&self, y: Mm) -> Mm {
        self.at.y + (y - self.shown.top) * self.scale
    }
    pub fn point(&self, p: Point) -> Point {
        Point { x: self.x(p.x), y: self.y(p.y) }
    }
    /// The height of something of a strand.
    pub fn hung(&self, y: Mm) -> Mm {
        self.y(y) + self.gap
    }
    /// The middle of a bead.
    pub fn centre(&self, bead: &ChartBead) -> Point {
        let Point { x, y } = self.point(bead.centre);
        let gap = if bead.kind == SectionKind::Strand { self.gap } else { Mm::ZERO };
        Point { x, y: y + gap }
    }
}

impl Setter<'_> {
    /// Every part of a chart as a slab of its own.
    pub fn chart_parts(&mut self, chart: &Chart, plan: &Plan, width: Mm, parent: NodeId) -> Vec<Slab> {
        let usual = std::mem::replace(&mut self.sheet.chart_label, plan.label);
        let mut counted = vec![false; chart.beads.len()];
        let parts = plan.windows.len();
        let mut slabs = Vec::new();
        // Where windows come band by band, each band's beads are picked out once.
        let mut band_reach: Option<(Mm, Mm)> = None;
        let mut band: Vec<(usize, &ChartBead)> = Vec::new();
        for (i, window) in plan.windows.iter().enumerate() {
            if band_reach != Some((window.top, window.bottom)) {
                let inside =
                    |(_, b): &(usize, &ChartBead)| b.centre.y >= window.top && b.centre.y <= window.bottom;
                let beads = chart.beads.iter().enumerate().filter(inside).collect();
                (band_reach, band) = (Some((window.top, window.bottom)), beads);
            }
            let shown: Vec<_> = band.iter().copied().filter(|(_, b)| window.holds(b.centre)).collect();
            let words = &self.booklet.words;
            let repeats = shown.iter().any(|(index, _)| counted[*index]);
            let [plain, pale] =
                [&words.chart_part, &words.chart_part_pale].map(|said| said.with([i + 1, parts]));
            let alt = if parts > 1 { format!("{} ({plain})", chart.alt) } else { chart.alt.clone() };
            let part = if repeats { pale } else { plain };
            let node = self.tree.add(parent, Role::Figure { alt });
            let mut piece = Fragment::default();
            if parts > 1 {
                let head = self.map(chart, (&plan.whole, window), &part, width, node);
                piece.height = head.height;
                piece.absorb(head, Mm::ZERO, Mm::ZERO);
            }
            let drawn = self.chart_part(chart, plan, (*window, &shown), width, node, &mut counted);
            piece.put_below(drawn, Mm::ZERO);
            let below = self.caption_and_legend(chart, width, (i == 0, parts > 1), (node, parent));
            piece.put_below(below, Mm::ZERO);
            slabs.push(Slab::spaced(piece, self.sheet.grown(CHART_SPACE)));
        }
        self.sheet.chart_label = usual;
        slabs
    }

    fn chart_part(
        &mut self,
        chart: &Chart,
        plan: &Plan,
        (window, shown): (Extent, &[(usize, &ChartBead)]),
        width: Mm,
        node: NodeId,
        counted: &mut [bool],
    ) -> Fragment {
        let reach = of_beads(shown.iter().map(|(_, b)| *b));
        let ticks = strand_ticks(chart, plan.scale);
        let Beside { gutters, mut labels, mut marked } =
            self.beside(chart, (&window, &reach), plan.scale, ticks);
        let hangs = shown.iter().any(|(_, bead)| bead.kind == SectionKind::Strand);
        let gap = if hangs { gutters.gap } else { Mm::ZERO };
        let drawn = reach.width() * plan.scale;
        // In the middle, unless the numbers of one side need more white than that leaves.
        let middle = (width - drawn) / 2.0;
        let x = middle.max(gutters.left).min((width - gutters.right - drawn).max(gutters.left));
        let at = Point { x, y: gutters.head };
        let view = View {
            window,
            shown: reach,
            scale: plan.scale,
            at,
            gap,
            letter: Some(plan.letter),
            clear: plan.clear,
            node,
        };
        let mut piece = Fragment {
            height: gutters.head + reach.height() * plan.scale + gap + gutters.foot,
            ..Fragment::default()
        };
        self.chart_beads(shown, &view, counted, &mut piece);
        self.fifths(chart, &view, &mut piece);
        labels.iter_mut().for_each(|label| label.shift(at));
        marked.iter_mut().for_each(|mark| mark.shift(at));
        self.anchors(chart, &marked, &view, &mut piece);
        clear_numbers(&labels, &marked, &mut piece);
        self.number_rows(chart, &labels, &view, &mut piece);
        self.strand_labels(chart, &view, &mut piece);
        piece
    }

    /// Height of everything under a chart, or under the first part of one that is split.
    pub(super) fn below_chart(&mut self, chart: &Chart, width: Mm, split: bool) -> Mm {
        let root = (Tree::ROOT, Tree::ROOT);
        self.tried(|on| on.caption_and_legend(chart, width, (true, split), root)).height
    }

    fn caption_and_legend(
        &mut self,
        chart: &Chart,
        width: Mm,
        (first, split): (bool, bool),
        (figure, parent): (NodeId, NodeId),
    ) -> Fragment {
        let mut piece = Fragment::default();
        let gap = self.sheet.grown(OVER_CAPTION);
        if first && !chart.caption.0.is_empty() {
            let node = self.tree.add(figure, Role::Caption);
            let style = self.sheet.small;
            let how = self.plain();
            let measure = width.min(style.size.mm() * CAPTION_EMS);
            let words = self.block(&chart.caption, &style, measure, how, Align::Start, node);
            piece.height = gap + words.height;
            piece.absorb(words, Mm::ZERO, gap);
        }
        if !chart.legend.is_empty() {
            // A part leaves the notes out: its beads are not all that are counted there.
            let bare = |e: &LegendEntry| LegendEntry { note: String::new(), ..e.clone() };
            let entries: Vec<_> =
                chart.legend.iter().map(|e| if split { bare(e) } else { e.clone() }).collect();
            let legend = self.legend(&entries, width, parent);
            piece.put_below(legend, gap * OVER_LEGEND);
        }
        piece
    }
}
