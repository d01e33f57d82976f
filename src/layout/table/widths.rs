//! How wide the columns of a table are.

use crate::booklet::{Cell, ColumnWidth, RowKind, Table, Text};
use crate::layout::lines::least_and_natural;
use crate::layout::setter::Setter;
use crate::layout::sheet::Style;
use crate::units::Mm;

/// Most lines of a heading cell before it widens its column.
const HEAD_LINES: f64 = 2.0;
/// A heading this wide or less stands on one line, in ems: breaking it would save hardly a figure's width.
const SHORT_HEAD: f64 = 3.6;
/// Width of a share column that counts as comfortable, in ems of the cell.
const COMFORTABLE_SHARE: f64 = 9.0;

/// Below this share of the comfortable width words stand one a line, and cards read better.
const CRAMPED: f64 = 0.7;

/// How much wider than its words a table without sharing columns may become, as a share of their width.
const LOOSEST: f64 = 0.5;
/// A column is wider than its words by this, so that rounding never breaks a line.
const HAIR: Mm = Mm(0.05);

/// What a column asks for.
#[derive(Clone, Copy, Debug)]
struct Wish {
    /// Less than this cuts words.
    least: Mm,
    /// At this width no cell wraps; its heading may, once.
    natural: Mm,
    /// At this width nothing wraps.
    whole: Mm,
    /// Whether it holds words, which look better with some air.
    airy: bool,
    /// Its share of what is left; 0 for a column that fits its cells.
    share: f64,
}

impl Setter<'_> {
    /// Widths of the columns, without the gaps between them; `None` when words would have to be cut.
    pub fn column_widths(&mut self, table: &Table, width: Mm) -> Option<Vec<Mm>> {
        let gaps = self.column_gap() * table.columns.len().saturating_sub(1) as f64;
        let wishes: Vec<Wish> = (0..table.columns.len()).map(|i| self.wish(table, i)).collect();
        share_out(&wishes, width - gaps, self.sheet.cell.size.mm() * COMFORTABLE_SHARE)
    }

    /// Whether a column of words is narrower than is comfortable.
    pub fn is_narrow(&mut self, table: &Table, widths: &[Mm]) -> bool {
        let comfortable = self.sheet.cell.size.mm() * COMFORTABLE_SHARE;
        widths.iter().enumerate().any(|(i, set)| {
            let wish = self.wish(table, i);
            wish.share > 0.0 && *set < comfortable.min(wish.natural)
        })
    }

    fn wish(&mut self, table: &Table, column: usize) -> Wish {
        let (mut least, mut natural, mut whole) = (Mm::ZERO, Mm::ZERO, Mm::ZERO);
        let mut airy = false;
        let head_style = self.sheet.column_head;
        if let Some(head) = table.head.get(column) {
            let (word, wide) = least_and_natural(&mut self.shaper, head, &head_style);
            least = word;
            whole = wide;
            let is_short = whole <= head_style.size.mm() * SHORT_HEAD;
            natural = if is_short { whole } else { word.max(whole / HEAD_LINES) };
        }
        for row in table.rows.iter().filter(|r| r.kind != RowKind::Group) {
            let style = self.cell_style(row.kind);
            let (l, n) = match row.cells.get(column) {
                Some(Cell::Text(text)) => {
                    airy |= !text.0.is_empty();
                    let larger = self.booklet.setting.bench
                        && table.row_header == Some(column)
                        && super::rows::numbered(table, row).is_some();
                    let size = style.size * if larger { super::rows::BENCH_NUMBER } else { 1.0 };
                    self.text_wish(text, &Style { size, ..style })
                }
                Some(Cell::Swatches(swatches)) => {
                    (self.swatches_width(swatches), self.swatches_width(swatches))
                }
                Some(Cell::Tick(_)) => (self.tick_side(), self.tick_side()),
                Some(Cell::Parts(parts)) => {
                    let wide: Vec<Mm> = parts.iter().map(|p| self.part_width(p, &style)).collect();
                    let gaps = self.part_gap(&style) * wide.len().saturating_sub(1) as f64;
                    let line = wide.iter().copied().sum::<Mm>() + gaps;
                    (wide.into_iter().fold(Mm::ZERO, Mm::max), line)
                }
                // What runs over several columns asks none of them for its width.
                Some(Cell::Across(_) | Cell::Empty) | None => (Mm::ZERO, Mm::ZERO),
            };
            least = least.max(l);
            natural = natural.max(n);
        }
        let share = match table.columns[column].width {
            ColumnWidth::Fit | ColumnWidth::Fold => 0.0,
            ColumnWidth::Swatches(abreast) => {
                let room = self.swatches_room(abreast);
                (least, natural) = (least.max(room), natural.max(room));
                0.0
            }
            ColumnWidth::Share(share) => share.max(0.01),
        };
        let natural = natural.max(least);
        Wish { least: least + HAIR, natural: natural + HAIR, whole: natural.max(whole) + HAIR, share, airy }
    }

    fn text_wish(&mut self, text: &Text, style: &Style) -> (Mm, Mm) {
        least_and_natural(&mut self.shaper, text, style)
    }

    /// The style of a row's cells.
    pub fn cell_style(&self, kind: RowKind) -> Style {
        match kind {
            RowKind::Total => self.sheet.cell.strong(),
            RowKind::Group => self.sheet.cell.strong().coloured(self.sheet.accent_text),
            RowKind::Plain => self.sheet.cell,
        }
    }
}

fn share_out(wishes: &[Wish], width: Mm, comfortable: Mm) -> Option<Vec<Mm>> {
    let least: Mm = wishes.iter().map(|w| w.least).sum();
    if least > width {
        return None;
    }
    let shares: f64 = wishes.iter().map(|w| w.share).sum();
    let fitted: Mm = wishes.iter().filter(|w| w.share == 0.0).map(|w| w.natural).sum();
    let wanted: Mm =
        wishes.iter().filter(|w| w.share > 0.0).map(|w| w.least.max(comfortable.min(w.natural))).sum();
    let spare = width - wishes.iter().map(|w| w.whole).sum();
    if spare >= Mm::ZERO {
        return Some(aired(wishes, spare, shares));
    }
    if shares == 0.0 && fitted <= width {
        return Some(wishes.iter().map(|w| w.natural).collect());
    }
    if fitted + wanted <= width {
        let fixed = |w: &Wish| w.natural;
        return Some(by_share(wishes, width, fixed, shares));
    }
    // Too much for all: every column gives up the same part of what lies between its least and its wish.
    let wish = |w: &Wish| if w.share > 0.0 { w.least.max(comfortable.min(w.natural)) } else { w.natural };
    let slack: Mm = wishes.iter().map(|w| wish(w) - w.least).sum();
    let part = if slack.0 > 0.0 { ((width - least) / slack).min(1.0) } else { 0.0 };
    let widths: Vec<Mm> = wishes.iter().map(|w| w.least + (wish(w) - w.least) * part).collect();
    let cramped = |(w, set): (&Wish, &Mm)| w.share > 0.0 && *set < w.natural.min(comfortable * CRAMPED);
    (!wishes.iter().zip(&widths).any(cramped)).then_some(widths)
}

/// Everything has room: what is spare goes half to the columns that share it, half to all that hold words, so that
/// the last column does not stand far from the others.
fn aired(wishes: &[Wish], spare: Mm, shares: f64) -> Vec<Mm> {
    let airy = wishes.iter().filter(|w| w.airy).count().max(1) as f64;
    let most = wishes.iter().map(|w| w.whole).sum::<Mm>() * LOOSEST;
    let spare = if shares > 0.0 { spare } else { spare.min(most) };
    let by_share = if shares > 0.0 { 0.5 } else { 0.0 };
    let part = |w: &Wish| {
        let shared = if shares > 0.0 { by_share * w.share / shares } else { 0.0 };
        shared + if w.airy { (1.0 - by_share) / airy } else { 0.0 }
    };
    wishes.iter().map(|w| w.whole + spare * part(w)).collect()
}

/// Gives the columns that share what is left their parts, none less than its longest word, nor more than its words take
/// while others wrap.
fn by_share(wishes: &[Wish], width: Mm, fixed: impl Fn(&Wish) -> Mm, shares: f64) -> Vec<Mm> {
    let mut widths: Vec<Option<Mm>> = wishes.iter().map(|w| (w.share == 0.0).then(|| fixed(w))).collect();
    let (mut left, mut parts) = (width - widths.iter().flatten().copied().sum(), shares);
    // Columns whose part would be too narrow take their least and leave the rest to the others.
    loop {
        let tight = wishes
            .iter()
            .enumerate()
            .find(|(i, w)| widths[*i].is_none() && left * (w.share / parts) < w.least)
            .map(|(i, _)| i);
        let Some(i) = tight else { break };
        widths[i] = Some(wishes[i].least);
        left -= wishes[i].least;
        parts -= wishes[i].share;
    }
    // Those whose part would be more than they can fill leave the rest to the others, which wrap less.
    loop {
        let filled = wishes
            .iter()
            .enumerate()
            .find(|(i, w)| widths[*i].is_none() && w.share < parts && left * (w.share / parts) > w.whole)
            .map(|(i, _)| i);
        let Some(i) = filled else { break };
        widths[i] = Some(wishes[i].whole);
        left -= wishes[i].whole;
        parts -= wishes[i].share;
    }
    wishes.iter().zip(widths).map(|(w, set)| set.unwrap_or(left * (w.share / parts))).collect()
}
