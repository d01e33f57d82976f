//! A table too wide for its column: each row becomes a card of labels and values.

use crate::booklet::{Cell, RowKind, RunStyle, Table, TableRow, Text, TextRun};
use crate::drawn::Align;
use crate::layout::fragment::{Fragment, Slab, line};
use crate::layout::measures::{FINE_RULE, TABLE_SPACE};
use crate::layout::setter::Setter;
use crate::layout::{NodeId, Role};
use crate::units::{Mm, Point};

/// Between signs (swatches, boxes) one under the other at the left of a card.
const SIGNS_APART: Mm = Mm(1.5);

impl Setter<'_> {
    /// Sets every row as a card. The structure is a list: there are no columns left that heads could head.
    pub fn cards(&mut self, table: &Table, width: Mm, parent: NodeId) -> Vec<Slab> {
        let list = self.tree.add(parent, Role::List { numbered: false });
        let mut slabs: Vec<Slab> = Vec::new();
        for row in &table.rows {
            let item = self.tree.add(list, Role::ListItem);
            let body = self.tree.add(item, Role::ListBody);
            let fragment = self.card(table, row, width, body);
            let space = self.sheet.cell.leading * 0.3;
            slabs.push(Slab {
                fragment,
                before: space,
                after: space,
                keep_next: row.kind == RowKind::Group,
                ..Slab::default()
            });
        }
        if let Some(last) = slabs.last_mut() {
            last.keep_next = false;
            last.after = self.sheet.grown(TABLE_SPACE);
        }
        slabs
    }

    fn card(&mut self, table: &Table, row: &TableRow, width: Mm, node: NodeId) -> Fragment {
        let how = self.plain();
        let mut piece = Fragment::default();
        let signs = row.cells.iter().any(|c| matches!(c, Cell::Swatches(_) | Cell::Tick(_)));
        let side = self.cell_swatch();
        let indent = if signs { side + self.sheet.cell.size.mm() * 0.8 } else { Mm::ZERO };
        let mut signs_end = Mm::ZERO;
        for (i, cell) in row.cells.iter().enumerate() {
            match cell {
                Cell::Text(text) if text.0.is_empty() => {}
                Cell::Text(text) => {
                    let style = self.cell_style(row.kind);
                    let names = row.kind == RowKind::Total && !words_before(&row.cells[..i]);
                    let labelled =
                        if names { text.clone() } else { labelled(table.head.get(i), text, row.kind) };
                    let words = self.block(&labelled, &style, width - indent, how, Align::Start, node);
                    let y = piece.height;
                    piece.height += words.height;
                    piece.absorb(words, indent, y);
                }
                Cell::Swatches(swatches) => {
                    for swatch in swatches {
                        let figure = self.tree.add(node, Role::Figure { alt: swatch.alt.clone() });
                        let bead = self.swatch(swatch, side, figure);
                        piece.absorb(bead, Mm::ZERO, signs_end);
                        signs_end += side + SIGNS_APART;
                    }
                }
                Cell::Tick(tick) => {
                    let ticked = self.tick(tick, node);
                    let step = ticked.height + SIGNS_APART;
                    piece.absorb(ticked, Mm::ZERO, signs_end);
                    signs_end += step;
                }
                Cell::Parts(parts) => {
                    let style = self.cell_style(row.kind);
                    let set = self.parts(parts, &style, width - indent, node);
                    let y = piece.height;
                    piece.height += set.height;
                    piece.absorb(set, indent, y);
                }
                Cell::Across(text) => {
                    let style = self.cell_style(row.kind);
                    let set = self.block(text, &style, width - indent, self.plain(), Align::Start, node);
                    let y = piece.height;
                    piece.height += set.height;
                    piece.absorb(set, indent, y);
                }
                Cell::Empty => {}
            }
        }
        let y = piece.height.max(signs_end) + self.sheet.cell.leading * 0.3;
        piece.rule(line(Point { x: Mm::ZERO, y }, Point { x: width, y }, self.sheet.hairline, FINE_RULE));
        piece.height = y;
        piece
    }
}

/// Whether any of some cells holds words: the first that does names a row of totals.
fn words_before(cells: &[Cell]) -> bool {
    cells.iter().any(|cell| matches!(cell, Cell::Text(text) if !text.0.is_empty()))
}

/// `Label: value`; groups have no label.
fn labelled(head: Option<&Text>, text: &Text, kind: RowKind) -> Text {
    match head {
        Some(head) if kind != RowKind::Group && !head.0.is_empty() => {
            let mut runs = vec![TextRun { text: format!("{}: ", head.words()), style: RunStyle::Emphasis }];
            runs.extend(text.0.iter().cloned());
            Text(runs)
        }
        _ => text.clone(),
    }
}
