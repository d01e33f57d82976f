//! A section of the maker's own, from its Markdown file.

use crate::booklet::drawing::photograph;
use crate::booklet::{
    Block, CalloutKind, Cell, Column, ColumnWidth, Figure, ParagraphStyle, RowKind, RunStyle, Section, Table,
    TableRow, Text, TextRun,
};
use crate::design::{ColumnSide, OwnSection, Photograph, Phrase, Prose, ProseTable, Span, SpanStyle};
use crate::drawn::Align;

/// How much larger a picture stands than one in a step, whose words it stands beside.
const LARGER: f64 = 1.5;
/// Cells of so many characters and less stay on one line; wider columns share what is left.
const SHORT_CELL: usize = 24;

/// The section, by the name that links call it.
pub(in crate::booklet) fn section(name: &str, own: &OwnSection) -> Section {
    Section {
        name: name.to_owned(),
        title: own.title.clone(),
        new_page: true,
        faces: false,
        listed: true,
        blocks: blocks(&own.blocks, &own.title),
    }
}

/// Prose as blocks; `under` are the words of the heading that it stands under.
fn blocks(prose: &[Prose], under: &str) -> Vec<Block> {
    let mut under = under.to_owned();
    let mut blocks = Vec::new();
    let mut rest = prose;
    while let Some(first) = rest.first() {
        let pictures = rest.iter().take_while(|block| matches!(block, Prose::Picture { .. })).count();
        if pictures > 1 {
            blocks.push(Block::Pictures(rest[..pictures].iter().filter_map(figure).collect()));
            rest = &rest[pictures..];
            continue;
        }
        match first {
            Prose::Heading { level, words } => {
                let text = text(words);
                under = text.words();
                blocks.push(Block::Heading { level: *level, text });
            }
            Prose::Paragraph(words) => {
                blocks.push(Block::Paragraph { text: text(words), style: ParagraphStyle::Body });
            }
            Prose::List { from, items } => blocks.push(Block::Items {
                from: *from,
                items: items.iter().map(|item| self::blocks(item, &under)).collect(),
            }),
            Prose::Table(table) => blocks.push(Block::Table(self::table(table, &under))),
            Prose::Picture { .. } => blocks.extend(figure(first).map(Block::Figure)),
            Prose::Quote(within) => blocks.push(Block::Callout {
                kind: CalloutKind::Note,
                title: Text::default(),
                blocks: self::blocks(within, &under),
            }),
            Prose::NewPage => blocks.push(Block::NewPage),
        }
        rest = &rest[1..];
    }
    blocks
}

fn text(words: &[Span]) -> Text {
    let run = |Span { words, style }: &Span| TextRun {
        text: words.clone(),
        style: match style {
            SpanStyle::Plain => RunStyle::Plain,
            SpanStyle::Strong => RunStyle::Strong,
            SpanStyle::Emphasis => RunStyle::Emphasis,
            SpanStyle::Web(address) => RunStyle::WebLink(address.clone()),
            SpanStyle::Section(name) => RunStyle::SectionLink(name.clone()),
        },
    };
    Text(words.iter().map(run).collect())
}

fn figure(prose: &Prose) -> Option<Figure> {
    let Prose::Picture { picture, caption } = prose else { return None };
    let shown = Photograph { picture: picture.clone(), caption: Phrase::default() };
    let mut figure = photograph(&shown, caption.clone());
    figure.drawing = figure.drawing.scaled(LARGER);
    Some(figure)
}

fn table(table: &ProseTable, under: &str) -> Table {
    let ProseTable { columns, head, rows } = table;
    let column = |(at, side): (usize, &ColumnSide)| {
        let cells = std::iter::once(head).chain(rows).filter_map(|row| row.get(at));
        let longest = cells.map(|cell| text(cell).words().chars().count()).max().unwrap_or(0);
        Column {
            align: match side {
                ColumnSide::Left => Align::Start,
                ColumnSide::Middle => Align::Middle,
                ColumnSide::Right => Align::End,
            },
            width: if longest <= SHORT_CELL { ColumnWidth::Fit } else { ColumnWidth::Share(longest as f64) },
        }
    };
    let cells = |row: &Vec<Vec<Span>>| TableRow {
        cells: row.iter().map(|cell| Cell::Text(text(cell))).collect(),
        kind: RowKind::Plain,
    };
    Table {
        summary: under.to_owned(),
        columns: columns.iter().enumerate().map(column).collect(),
        head: head.iter().map(|cell| text(cell)).collect(),
        rows: rows.iter().map(cells).collect(),
        row_header: None,
    }
}
