//! Tables: whole, in their column, with their heading on every page.

use super::probe::{area, content_runs, pages, words};
use crate::support::booklets::{booklet, heading, materials, para, section, setting, word_chart};
use fringebook::booklet::{Block, Cell, Column, ColumnWidth, RowKind, Table, TableRow, Text};
use fringebook::design::Paper;
use fringebook::drawn::Align;
use fringebook::layout::{Artifact, DisplayList, Paint, Role, Standing};

fn set(table: Table, large_print: bool) -> DisplayList {
    let mut setting = setting(Paper::A4);
    setting.large_print = large_print;
    pages(&booklet(setting, vec![section("one", "One", vec![para("Before."), Block::Table(table)])]))
}

fn count(list: &DisplayList, role: &Role) -> usize {
    list.nodes.iter().filter(|n| n.role == *role).count()
}

#[test]
fn a_table_over_pages_is_one_table_whose_heading_is_repeated_as_decoration() {
    let list = set(word_chart(120), false);
    assert!(list.pages.len() >= 3);
    assert_eq!(count(&list, &Role::Table { summary: "Word chart".into() }), 1);
    assert_eq!(count(&list, &Role::TableHead), 1);
    assert_eq!(count(&list, &Role::TableRow), 121);
    for (i, page) in list.pages.iter().enumerate() {
        let heads = |standing_is: fn(Standing) -> bool| {
            page.items
                .iter()
                .filter(|item| standing_is(item.standing))
                .filter(|item| matches!(&item.paint, Paint::Glyphs(g) if words(g) == "Start with"))
                .count()
        };
        let content = heads(|s| matches!(s, Standing::Content(_)));
        let decoration = heads(|s| s == Standing::Artifact(Artifact::Layout));
        assert_eq!((content, decoration), if i == 0 { (1, 0) } else { (0, 1) }, "page {}", i + 1);
        let continued = page
            .items
            .iter()
            .any(|item| matches!(&item.paint, Paint::Glyphs(g) if words(g).trim() == "continued"));
        assert_eq!(continued, i > 0);
    }
}

#[test]
fn rows_stay_whole() {
    let list = set(materials(60), false);
    for (id, node) in list.nodes.iter().enumerate().filter(|(_, n)| n.role == Role::TableRow) {
        let on = |page: &fringebook::layout::Page| {
            content_runs(page).any(|(item, _)| {
                let Standing::Content(mut at) = item.standing else { return false };
                while let Some(parent) = list.nodes[at.0].parent {
                    if at.0 == id {
                        return true;
                    }
                    at = parent;
                }
                false
            })
        };
        assert_eq!(list.pages.iter().filter(|p| on(p)).count(), 1, "row {id} {node:?}");
    }
}

#[test]
fn a_group_heading_never_closes_a_page_and_a_sum_never_opens_one() {
    for before in 0..30 {
        let mut table = materials(40);
        for i in 0..5 {
            let row = TableRow { cells: vec![Cell::Text(Text::plain("Group"))], kind: RowKind::Group };
            table.rows.insert(3 + i * 7, row);
        }
        let mut blocks: Vec<Block> = (0..before).map(|i| para(&format!("Line {i}."))).collect();
        blocks.push(heading(2, "Beads"));
        blocks.push(Block::Table(table));
        let list = pages(&booklet(setting(Paper::A4), vec![section("one", "One", blocks)]));
        for page in &list.pages {
            let runs: Vec<String> = content_runs(page).map(|(_, g)| words(g).trim().to_owned()).collect();
            assert_ne!(runs.last().map(String::as_str), Some("Group"), "{before} lines before");
            assert_ne!(runs.first().map(String::as_str), Some("Together"), "{before} lines before");
        }
    }
}

#[test]
fn columns_do_not_meet_and_end_in_the_margin() {
    for large in [false, true] {
        for table in [materials(8), word_chart(8)] {
            let list = set(table, large);
            for page in &list.pages {
                for (_, g) in content_runs(page) {
                    let end = g.at.x.0 + super::probe::seen_width(g);
                    assert!(end <= page.size.width.0 - 13.9, "“{}” ends at {end}", words(g));
                }
            }
        }
    }
}

#[test]
fn numbers_end_on_one_line() {
    let list = set(materials(8), false);
    let ends: Vec<f64> = content_runs(&list.pages[0])
        .filter(|(_, g)| {
            words(g).trim().parse::<u32>().is_ok_and(|n| (200..400).contains(&n) && n % 14 == 200 % 14)
        })
        .map(|(_, g)| g.at.x.0 + super::probe::seen_width(g))
        .collect();
    assert!(ends.len() >= 6, "{ends:?}");
    assert!(ends.iter().all(|e| (e - ends[0]).abs() < 0.01), "{ends:?}");
}

#[test]
fn a_table_that_no_width_will_do_for_becomes_cards_with_every_value_under_its_label() {
    let columns = 14;
    let word = "Unbreakably";
    let table = Table {
        summary: "Wide".into(),
        columns: (0..columns).map(|_| Column { align: Align::Start, width: ColumnWidth::Fit }).collect(),
        head: (0..columns).map(|i| Text::plain(format!("Head{i}"))).collect(),
        rows: (0..3)
            .map(|r| TableRow {
                cells: (0..columns).map(|i| Cell::Text(Text::plain(format!("{word}{r}x{i}")))).collect(),
                kind: RowKind::Plain,
            })
            .collect(),
        row_header: Some(0),
    };
    let list = set(table, false);
    let found: String = list.pages.iter().flat_map(|p| content_runs(p).map(|(_, g)| words(g))).collect();
    for r in 0..3 {
        for i in 0..columns {
            assert!(found.contains(&format!("Head{i}: {word}{r}x{i}")), "{found}");
        }
    }
    for page in &list.pages {
        assert!(page.items.iter().all(|i| area(i).right <= page.size.width.0 - 19.9));
    }
}

#[test]
fn a_column_that_may_fold_goes_under_the_names_only_where_the_table_is_too_wide() {
    let folding = |rows| {
        let mut table = materials(rows);
        for name in ["Finish", "Shape and size", "Code"] {
            let column = table.head.iter().position(|h| h.words() == name).expect("the column");
            table.columns[column].width = ColumnWidth::Fold;
        }
        table
    };
    let text = |list: &DisplayList| -> String {
        list.pages.iter().flat_map(|p| content_runs(p).map(|(_, g)| words(g))).collect()
    };
    let (wide, narrow) = (set(folding(3), false), set(folding(3), true));
    assert!(!text(&wide).contains("· Code"));
    let found = text(&narrow);
    assert!(found.contains("· Code"), "{found}");
    let heads = |list| count(list, &Role::ColumnHeader { span: 1 });
    assert_eq!(heads(&narrow) + 3, heads(&wide));
    assert_eq!(found.matches("QF-0").count(), 3, "{found}");
}
