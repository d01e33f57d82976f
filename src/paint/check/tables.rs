//! Tables: as many columns in each row, and a header for every cell.

use super::survey::Survey;
use crate::layout::{DisplayList, Node, NodeId, Role};
use crate::paint::error::PaintError;

pub(super) fn check(list: &DisplayList, survey: &Survey) -> Result<(), PaintError> {
    for at in &survey.order {
        if let Role::Table { summary } = &list.nodes[at.0].role {
            let table = Table { list, survey, node: *at, summary };
            table.check()?;
        }
    }
    Ok(())
}

struct Table<'a> {
    list: &'a DisplayList,
    survey: &'a Survey,
    node: NodeId,
    summary: &'a str,
}

impl Table<'_> {
    fn check(&self) -> Result<(), PaintError> {
        let rows = self.rows();
        let columns = rows.first().map_or(0, |row| self.columns(row));
        // Which columns have a header so far.
        let mut headed = vec![false; columns];
        for (number, row) in (1..).zip(&rows) {
            let of_row = self.columns(row);
            if of_row != columns {
                return Err(PaintError::UnevenRow {
                    page: self.page(),
                    table: self.name(),
                    row: number,
                    columns: of_row,
                    wanted: columns,
                });
            }
            self.row(number, row, &mut headed)?;
        }
        Ok(())
    }

    fn row(&self, number: usize, row: &Node, headed: &mut [bool]) -> Result<(), PaintError> {
        let of_row = row.children.iter().any(|cell| {
            matches!(self.list.nodes[cell.0].role, Role::RowHeader { .. }) && self.survey.has_words[cell.0]
        });
        let mut column = 0;
        for cell in &row.children {
            let role = &self.list.nodes[cell.0].role;
            let span = span(role);
            if span == 0 {
                return Err(PaintError::NoSpan { page: self.page(), table: self.name(), row: number });
            }
            let below = &mut headed[column..column + span];
            match role {
                Role::ColumnHeader { .. } if self.survey.has_words[cell.0] => below.fill(true),
                Role::TableCell { .. } if !of_row && !below.contains(&true) => {
                    return Err(PaintError::NoHeader {
                        page: self.page(),
                        table: self.name(),
                        row: number,
                        column: column + 1,
                    });
                }
                _ => {}
            }
            column += span;
        }
        Ok(())
    }

    /// Its rows, those of its head and body in one.
    fn rows(&self) -> Vec<&Node> {
        let node = |id: &NodeId| &self.list.nodes[id.0];
        let children = self.list.nodes[self.node.0].children.iter().map(node);
        children
            .flat_map(|child| match child.role {
                Role::TableRow => vec![child],
                Role::TableHead | Role::TableBody => child.children.iter().map(node).collect(),
                _ => Vec::new(),
            })
            .collect()
    }

    fn columns(&self, row: &Node) -> usize {
        row.children.iter().map(|cell| span(&self.list.nodes[cell.0].role)).sum()
    }

    fn page(&self) -> String {
        self.survey.page_label(self.list, self.node)
    }

    fn name(&self) -> String {
        self.summary.to_owned()
    }
}

fn span(role: &Role) -> usize {
    match role {
        Role::ColumnHeader { span } | Role::RowHeader { span } | Role::TableCell { span } => *span,
        _ => 0,
    }
}
