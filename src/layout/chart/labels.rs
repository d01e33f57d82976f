//! Row numbers of a chart at their starting side, with their boxes to tick.

use super::anchors::Marked;
use super::extent::Extent;
use super::part::View;
use crate::booklet::{Chart, ChartLeads, ChartRow, Placed, Tick};
use crate::colour::Colour;
use crate::design::Side;
use crate::drawn::{Align, Face};
use crate::layout::faces::cap_height;
use crate::layout::fragment::{Fragment, filled, stroked};
use crate::layout::measures::BOX_LINE;
use crate::layout::setter::{Ink, Linked, Setter};
use crate::layout::{NodeId, Paint, Role};
use crate::units::{Mm, Point, Pt, Size};

/// White between a row and its number, and between that and its box, in sizes of its type.
const BESIDE_ROW: f64 = 0.45;

/// White between a number and a leader that runs behind it.
const OFF_LEADER: Mm = Mm(0.3);

/// The number of a row, where it stands.
pub(super) struct RowLabel<'c> {
    pub row: &'c ChartRow,
    pub text: String,
    pub size: Pt,
    /// The edge of the words that is nearer to the row.
    pub near: Mm,
    /// Their width.
    pub wide: Mm,
    /// The middle of their capitals.
    pub middle: Mm,
}

impl RowLabel<'_> {
    /// The box of its words.
    pub fn area(&self) -> Extent {
        let high = cap_height(Face::Bold, self.size) / 2.0;
        let far = if self.row.from == Side::Left { -self.wide } else { self.wide };
        Extent {
            left: self.near.min(self.near + far),
            right: self.near.max(self.near + far),
            top: self.middle - high,
            bottom: self.middle + high,
        }
    }

    /// Seen from a point to the left of and above the one that it was seen from, by so much.
    pub fn shift(&mut self, by: Point) {
        self.near += by.x;
        self.middle += by.y;
    }
}

impl Setter<'_> {
    /// Where the numbers of the rows in a view stand.
    pub(super) fn row_labels<'c>(&mut self, chart: &'c Chart, view: &View) -> Vec<RowLabel<'c>> {
        chart.rows.iter().filter_map(|row| self.row_label(row, view)).collect()
    }

    fn row_label<'c>(&mut self, row: &'c ChartRow, view: &View) -> Option<RowLabel<'c>> {
        let middle = (row.top + row.bottom) / 2.0;
        let shown = &view.shown;
        let beside = row.left >= shown.right || row.right <= shown.left;
        let above = middle < shown.top.max(view.window.top);
        let below = middle > shown.bottom.min(view.window.bottom);
        // A part shows no number of a row that has its beads in other parts.
        if beside || above || below {
            return None;
        }
        let high = (row.bottom - row.top) * view.scale;
        let size = Pt(self.sheet.chart_label.0.min(high.pt().0 * 0.95).max(self.sheet.least.0));
        let gap = size.mm() * BESIDE_ROW;
        // Where its beginning lies in another part, the number says which row goes on here.
        let (goes_on, text, near) = match row.from {
            Side::Left => {
                (row.left < shown.left, format!("{} →", row.number), view.x(row.left.max(shown.left)) - gap)
            }
            Side::Right => (
                row.right > shown.right,
                format!("← {}", row.number),
                view.x(row.right.min(shown.right)) + gap,
            ),
        };
        let text = match row.from {
            _ if !goes_on => text,
            Side::Left => format!("{} …", row.number),
            Side::Right => format!("… {}", row.number),
        };
        let wide = self.shaper.width(Face::Bold, &text, size);
        Some(RowLabel { row, text, size, near, wide, middle: view.y(middle) })
    }

    /// Row numbers with the arrow of their direction, on the side where the row starts.
    pub(super) fn number_rows(
        &mut self,
        chart: &Chart,
        labels: &[RowLabel],
        view: &View,
        piece: &mut Fragment,
    ) {
        for label in labels {
            let (size, colour, from) = (label.size, self.sheet.ink, label.row.from);
            let at = Point { x: label.near, y: label.middle + cap_height(Face::Bold, size) / 2.0 };
            let align = if from == Side::Left { Align::End } else { Align::Start };
            let number = label.row.number;
            let of = |leads: &ChartLeads| {
                (leads.place(Placed::Row(number)), leads.place(Placed::ChartRow(number)))
            };
            let leads = chart.leads.as_ref().map(of);
            let node = self.label_node(chart, leads.is_some(), view);
            if let Some((to, here)) = leads {
                // As high as the row, and a little wider than its words: numbers of a side are two rows apart.
                let high = ((label.row.bottom - label.row.top) * view.scale).max(size.mm());
                let wide = label.wide + size.mm() * BESIDE_ROW * 2.0;
                let left = if from == Side::Left { label.near - label.wide } else { label.near };
                let at = Point { x: left - size.mm() * BESIDE_ROW, y: label.middle - high / 2.0 };
                let area = (at, Size { width: wide, height: high });
                self.number_link(
                    piece,
                    node,
                    area,
                    Linked { to, here: Some((here, label.middle - size.mm())), said: &label.text },
                );
            }
            piece.items.extend(self.label(
                Ink { face: Face::Bold, size, colour },
                &label.text,
                at,
                align,
                node,
            ));
            if let Some(name) = chart.ticks.as_ref().and_then(|ticks| ticks.rows.get(&label.row.number)) {
                // The next box on this side is two rows away.
                let high = (label.row.bottom - label.row.top) * view.scale;
                let side = self.tick_side().min(high * 1.84);
                let beyond = label.wide + size.mm() * BESIDE_ROW;
                let x = if from == Side::Left { label.near - beyond - side } else { label.near + beyond };
                let words = &self.booklet.words;
                let side_said = if from == Side::Left { &words.from_left } else { &words.from_right };
                let tooltip = format!("{} {side_said}", words.row.with([label.row.number]));
                let at = Point { x, y: label.middle - side / 2.0 };
                self.chart_tick(name.clone(), tooltip, at, side, view, piece);
            }
        }
    }

    /// What a number belongs to: one that leads somewhere is a link, and one beside a box an element of its own, so that it
    /// is read just before the box.
    pub(super) fn label_node(&mut self, chart: &Chart, leads: bool, view: &View) -> NodeId {
        match (leads, chart.ticks.is_some()) {
            (true, _) => self.tree.add(view.node, Role::Link),
            (false, true) => self.tree.add(view.node, Role::Span),
            (false, false) => view.node,
        }
    }

    /// A box beside a chart; its name is made unique in the booklet.
    pub(super) fn chart_tick(
        &mut self,
        name: String,
        tooltip: String,
        at: Point,
        side: Mm,
        view: &View,
        piece: &mut Fragment,
    ) {
        let name = self.unique(name);
        let mut tick = self.tick(&Tick { name, tooltip }, view.node);
        let share = side / self.tick_side();
        for item in &mut tick.items {
            if let Paint::Path(path) = &mut item.paint {
                *path = stroked(Mm::ZERO, Mm::ZERO, side, side, self.sheet.muted, BOX_LINE);
            }
        }
        for one in &mut tick.ticks {
            one.side = one.side * share;
        }
        piece.absorb(tick, at.x, at.y);
    }
}

/// White under the row numbers that a leader runs behind, where a body has so many places to anchor that it has no
/// other way.
pub(super) fn clear_numbers(labels: &[RowLabel], marked: &[Marked], piece: &mut Fragment) {
    for area in labels.iter().map(RowLabel::area) {
        if marked.iter().any(|one| one.runs_through(&area)) {
            let Extent { left, top, .. } = area.grown(OFF_LEADER);
            let (wide, high) = (area.width() + OFF_LEADER * 2.0, area.height() + OFF_LEADER * 2.0);
            piece.rule(filled(left, top, wide, high, Colour::WHITE));
        }
    }
}
