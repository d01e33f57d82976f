//! Rows of a table as slabs.

use crate::booklet::{Cell, RowKind, Table, TableRow, Text, Tick};
use crate::drawn::Align;
use crate::layout::fragment::{Fragment, Slab, filled, line, stroked};
use crate::layout::measures::{BOX_LINE, FINE_RULE, TABLE_SPACE};
use crate::layout::setter::{Ink, Setter};
use crate::layout::{Artifact, Item, NodeId, Role, Standing, TickBox};
use crate::units::{Mm, Point};
use std::sync::Arc;

/// A table shorter than this share of the page's height stays on one page.
const SHORT: f64 = 0.3;

/// What it costs to part a table: see `layout::fit`.
const PARTED: f64 = 10.0;

/// How much larger the numbers of rows and strands are on a bench copy, to be found from an arm's length.
pub(super) const BENCH_NUMBER: f64 = 1.35;

/// The number that a row is found by, when its heading is one.
pub(super) fn numbered(table: &Table, row: &TableRow) -> Option<usize> {
    match row.cells.get(table.row_header?) {
        Some(Cell::Text(text)) => text.words().parse().ok(),
        _ => None,
    }
}

/// A cell that is set, still without its row.
struct SetCell {
    piece: Fragment,
    x: Mm,
}

/// Thickness of the rules under the heading, over a sum, and under every fifth row of a bench copy.
const HEAD_RULE: Mm = Mm(0.35);
const TOTAL_RULE: Mm = Mm(0.3);
const FIFTH_RULE: Mm = Mm(0.5);
/// The same in a booklet, whose rows are read and not searched from afar.
const FIFTH_QUIET_RULE: Mm = Mm(0.25);

/// Where the columns of a table lie.
struct Grid<'t> {
    table: &'t Table,
    widths: &'t [Mm],
    gap: Mm,
}

impl Grid<'_> {
    fn x(&self, column: usize) -> Mm {
        self.widths[..column].iter().copied().sum::<Mm>() + self.gap * column as f64
    }
    fn width(&self) -> Mm {
        self.x(self.widths.len()) - self.gap
    }
}

impl Setter<'_> {
    /// Sets heading and rows on columns of these widths.
    pub fn table_rows(&mut self, table: &Table, widths: &[Mm], parent: NodeId) -> Vec<Slab> {
        let grid = Grid { table, widths, gap: self.column_gap() };
        let node = self.tree.add(parent, Role::Table { summary: table.summary.clone() });
        let mut slabs = Vec::new();
        let mut repeat = None;
        if table.head.iter().any(|t| !t.0.is_empty()) {
            let head = self.tree.add(node, Role::TableHead);
            let row = self.tree.add(head, Role::TableRow);
            let piece = self.head_row(&grid, row);
            repeat = Some(Arc::new(self.repeated(&piece, grid.width())));
            slabs.push(Slab { fragment: piece, keep_next: true, ..Slab::default() });
        }
        let body = self.tree.add(node, Role::TableBody);
        let last = table.rows.len().saturating_sub(1);
        for (i, row) in table.rows.iter().enumerate() {
            let row_node = self.tree.add(body, Role::TableRow);
            let next = table.rows.get(i + 1).map(|r| r.kind);
            let fragment = self.row(&grid, row, next, row_node);
            // A heading needs rows under it, a sum rows above it, and no row stands alone on a page.
            let keeps = row.kind == RowKind::Group
                || next == Some(RowKind::Total)
                || (i == 0 && last > 0)
                || (i + 1 == last && last > 2)
                || (i + 2 == last && last > 4);
            slabs.push(Slab {
                fragment,
                keep_next: keeps && i < last,
                tie: PARTED,
                repeat: repeat.clone(),
                ..Slab::default()
            });
        }
        let whole: Mm = slabs.iter().map(|s| s.fragment.height).sum();
        if whole < self.sheet.page.height * SHORT {
            slabs.iter_mut().for_each(|s| s.keep_next = true);
        }
        let space = self.sheet.grown(TABLE_SPACE);
        if let Some(first) = slabs.first_mut() {
            first.before = space;
        }
        if let Some(last) = slabs.last_mut() {
            last.after = space;
            last.keep_next = false;
            last.tie = 0.0;
        }
        slabs
    }

    fn head_row(&mut self, grid: &Grid, row: NodeId) -> Fragment {
        let style = self.sheet.column_head;
        let how = self.plain();
        let mut cells = Vec::new();
        for (i, text) in grid.table.head.iter().enumerate().take(grid.widths.len()) {
            let node = self.tree.add(row, Role::ColumnHeader { span: 1 });
            let piece = self.block(text, &style, grid.widths[i], how, grid.table.columns[i].align, node);
            cells.push(SetCell { piece, x: grid.x(i) });
        }
        let pad = style.size.mm() * 0.35;
        let height = cells.iter().map(|c| c.piece.height).fold(Mm::ZERO, Mm::max);
        let mut whole = Fragment { height: height + pad * 1.6, ..Fragment::default() };
        for cell in cells {
            // Headings of one line stand at the foot of the row, near their cells.
            let y = height - cell.piece.height;
            whole.absorb(cell.piece, cell.x, y);
        }
        let y = whole.height;
        whole.rule(line(
            Point { x: Mm::ZERO, y },
            Point { x: grid.width(), y },
            self.sheet.accent,
            HEAD_RULE,
        ));
        whole
    }

    /// The heading as it is repeated on later pages: no content, and a word that this goes on.
    fn repeated(&mut self, head: &Fragment, width: Mm) -> Fragment {
        let mut piece = Fragment::default();
        let style = self.sheet.running;
        if !self.booklet.words.continued.is_empty() {
            let words = self.booklet.words.continued.clone();
            let at = Point { x: width, y: style.leading * 0.6 };
            let items = self.label(
                Ink { face: style.emphasis, size: style.size, colour: self.sheet.muted },
                &words,
                at,
                Align::End,
                NodeId(0),
            );
            piece.items.extend(items);
            piece.height = style.leading;
        }
        let y = piece.height;
        piece.height += head.height;
        piece.absorb(head.clone(), Mm::ZERO, y);
        let artifact = |item: Item| Item { standing: Standing::Artifact(Artifact::Layout), ..item };
        piece.items = piece.items.into_iter().map(artifact).collect();
        piece.links.clear();
        piece.goals.clear();
        piece
    }

    fn row(&mut self, grid: &Grid, row: &TableRow, next: Option<RowKind>, node: NodeId) -> Fragment {
        let setting = &self.booklet.setting;
        let ems = match (setting.bench, setting.large_print) {
            (true, _) => 0.5,
            (false, true) => 0.27,
            (false, false) => 0.36,
        };
        let pad = self.sheet.cell.size.mm() * ems;
        let pad_top = if row.kind == RowKind::Group { pad * 2.6 } else { pad };
        let cells = self.row_cells(grid, row, node);
        let height = cells.iter().map(|c| c.piece.height).fold(self.sheet.cell.leading, Mm::max);
        let single = self.sheet.cell.leading;
        let mut whole = Fragment { height: pad_top + height + pad, ..Fragment::default() };
        let rule =
            |y: Mm, colour, pen| line(Point { x: Mm::ZERO, y }, Point { x: grid.width(), y }, colour, pen);
        if row.kind == RowKind::Total {
            whole.rule(rule(Mm::ZERO, self.sheet.muted, TOTAL_RULE));
        }
        for cell in cells {
            // Swatches and boxes stand on the middle of the first line.
            let y = if cell.piece.height < single {
                pad_top + (single - cell.piece.height) / 2.0
            } else {
                pad_top
            };
            whole.absorb(cell.piece, cell.x, y);
        }
        let is_fifth = numbered(grid.table, row).is_some_and(|n| n.is_multiple_of(5));
        if is_fifth && self.booklet.setting.bench {
            // A heavier rule under every fifth helps to find the place again.
            whole.rule(rule(whole.height, self.sheet.ink, FIFTH_RULE));
        } else if is_fifth && next == Some(RowKind::Plain) {
            whole.rule(rule(whole.height, self.sheet.muted, FIFTH_QUIET_RULE));
        } else if next.is_some_and(|k| k == RowKind::Plain) && row.kind != RowKind::Group || next.is_none() {
            whole.rule(rule(whole.height, self.sheet.hairline, FINE_RULE));
        }
        whole
    }

    fn row_cells(&mut self, grid: &Grid, row: &TableRow, node: NodeId) -> Vec<SetCell> {
        if row.kind == RowKind::Group {
            return self.group_cell(grid, row, node);
        }
        let how = self.plain();
        let mut cells = Vec::new();
        for (i, cell) in row.cells.iter().enumerate().take(grid.widths.len()) {
            let header = grid.table.row_header == Some(i);
            let told = grid.table.told_header() == Some(i);
            let span = if matches!(cell, Cell::Across(_)) { grid.widths.len() - i } else { 1 };
            let role = if told { Role::RowHeader { span } } else { Role::TableCell { span } };
            let cell_node = self.tree.add(node, role);
            let (align, width) = (grid.table.columns[i].align, grid.widths[i]);
            let piece = match cell {
                Cell::Text(text) => {
                    let mut style = self.cell_style(row.kind);
                    if header && self.booklet.setting.bench && numbered(grid.table, row).is_some() {
                        style.size = style.size * BENCH_NUMBER;
                    }
                    self.block(text, &style, width, how, align, cell_node)
                }
                Cell::Swatches(swatches) => {
                    let side = self.swatches_width(swatches);
                    aligned(self.swatches(swatches, cell_node), side, width, align)
                }
                Cell::Tick(tick) => {
                    let piece = self.tick(tick, cell_node);
                    aligned(piece, self.tick_side(), width, align)
                }
                Cell::Parts(parts) => {
                    let style = self.cell_style(row.kind);
                    self.parts(parts, &style, width, cell_node)
                }
                Cell::Across(text) => {
                    let style = self.cell_style(row.kind);
                    self.block(text, &style, grid.width() - grid.x(i), how, Align::Start, cell_node)
                }
                Cell::Empty => Fragment::default(),
            };
            cells.push(SetCell { piece, x: grid.x(i) });
            if span > 1 {
                break;
            }
        }
        cells
    }

    /// A group's heading over the whole width.
    fn group_cell(&mut self, grid: &Grid, row: &TableRow, node: NodeId) -> Vec<SetCell> {
        let span = grid.widths.len();
        let cell_node = self.tree.add(node, Role::RowHeader { span });
        let style = self.cell_style(RowKind::Group);
        let empty = Text::default();
        let text = row.cells.iter().find_map(|c| if let Cell::Text(t) = c { Some(t) } else { None });
        let how = self.plain();
        let piece = self.block(text.unwrap_or(&empty), &style, grid.width(), how, Align::Start, cell_node);
        vec![SetCell { piece, x: Mm::ZERO }]
    }

    /// A box to tick: printed, and a form field on top of it.
    pub fn tick(&mut self, tick: &Tick, parent: NodeId) -> Fragment {
        let side = self.tick_side();
        let node = self.tree.add(parent, Role::Form);
        let mut piece = Fragment { height: side, ..Fragment::default() };
        piece.rule(stroked(Mm::ZERO, Mm::ZERO, side, side, self.sheet.muted, BOX_LINE));
        piece.ticks.push(TickBox {
            at: Point::default(),
            side,
            name: tick.name.clone(),
            tooltip: tick.tooltip.clone(),
            ticked: false,
            node,
        });
        piece
    }

    /// A tinted ground behind a piece.
    pub fn on_tint(&self, piece: &mut Fragment, x: Mm, y: Mm, width: Mm, height: Mm) {
        if let Some(tint) = self.sheet.tint {
            piece.rule(filled(x, y, width, height, tint));
        }
    }
}

fn aligned(piece: Fragment, side: Mm, width: Mm, align: Align) -> Fragment {
    let dx = match align {
        Align::Start => Mm::ZERO,
        Align::Middle => (width - side) / 2.0,
        Align::End => width - side,
    };
    let mut moved = Fragment { height: piece.height, ..Fragment::default() };
    moved.absorb(piece, dx, Mm::ZERO);
    moved
}
