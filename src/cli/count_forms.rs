//! The forms in which `count` writes its result: a table, CSV, JSON.

use super::table::{Align, Table};
use crate::diagnostic::{Problem, list, number_of};
use crate::tally::{BeadLine, FindingLine, Gathering, ThreadLine};
use crate::units::{Grams, Mm};
use serde_json::Value;

/// Decimals kept of numbers for other programs: beyond them lies only the rounding of sums.
const DECIMALS: i32 = 6;
/// Nothing missing, nothing to buy.
const NOTHING: &str = "–";
/// Columns of the CSV form; grams, millimetres or pieces as `unit` says.
const CSV_COLUMNS: [&str; 14] = [
    "kind",
    "key",
    "name",
    "code",
    "beads",
    "needed",
    "unit",
    "in stock",
    "missing",
    "pack holds",
    "packs",
    "packs to buy",
    "price",
    "currency",
];

/// A table to read.
pub(super) fn table(gathering: &Gathering) -> String {
    let mut sections = vec![designs(gathering).lines()];
    let others = [beads(gathering), threads(gathering), findings(gathering)];
    sections.extend(others.iter().filter(|t| !t.is_empty()).map(Table::lines));
    sections.push(cost(gathering));
    sections.join("\n")
}

fn designs(gathering: &Gathering) -> Table {
    let mut table = Table::new(&[("Design", Align::Left), ("pairs", Align::Right), ("beads", Align::Right)]);
    for line in &gathering.designs {
        let colourway = line.colourway.as_ref().map_or(String::new(), |name| format!(" ({name})"));
        table.row(vec![format!("{}{colourway}", line.title), line.pairs.to_string(), line.beads.to_string()]);
    }
    table
}

fn beads(gathering: &Gathering) -> Table {
    let mut table = Table::new(&[
        ("Bead", Align::Left),
        ("code", Align::Left),
        ("beads", Align::Right),
        ("with spare", Align::Right),
        ("in stock", Align::Right),
        ("missing", Align::Right),
        ("a pack", Align::Right),
        ("to buy", Align::Right),
        ("price", Align::Right),
    ]);
    for bead in &gathering.beads {
        table.row(vec![
            bead.name.clone(),
            bead.code.clone().unwrap_or_default(),
            bead.count.to_string(),
            grams(bead.grams),
            bead.stock.map(grams).unwrap_or_default(),
            some(bead.missing.0, grams(bead.missing)),
            bead.pack.map(pack).unwrap_or_default(),
            to_buy(bead.packs_to_buy, "pack"),
            some(bead.missing.0, money(bead.price)),
        ]);
    }
    table
}

fn threads(gathering: &Gathering) -> Table {
    let mut table = Table::new(&[
        ("Thread", Align::Left),
        ("length", Align::Right),
        ("in stock", Align::Right),
        ("missing", Align::Right),
        ("to buy", Align::Right),
        ("price", Align::Right),
    ]);
    for thread in &gathering.threads {
        table.row(vec![
            thread.name.clone(),
            metres(thread.length),
            thread.stock.map(metres).unwrap_or_default(),
            some(thread.missing.0, metres(thread.missing)),
            to_buy(thread.spools_to_buy, "spool"),
            some(thread.missing.0, money(thread.price)),
        ]);
    }
    table
}

fn findings(gathering: &Gathering) -> Table {
    let mut table = Table::new(&[
        ("Finding", Align::Left),
        ("pieces", Align::Right),
        ("in stock", Align::Right),
        ("missing", Align::Right),
        ("price", Align::Right),
    ]);
    for finding in &gathering.findings {
        table.row(vec![
            finding.name.clone(),
            finding.count.to_string(),
            finding.stock.map(|n| n.to_string()).unwrap_or_default(),
            some(finding.missing as f64, finding.missing.to_string()),
            some(finding.missing as f64, money(finding.price)),
        ]);
    }
    table
}

fn cost(gathering: &Gathering) -> String {
    match (gathering.cost, &gathering.currency) {
        (Some(cost), Some(currency)) => format!("To buy: {cost:.2} {currency}\n"),
        _ if gathering.without_price.is_empty() => {
            "To buy: no sum, because the palettes give no currency, or several\n".to_owned()
        }
        _ => format!("To buy: no sum, because these have no price: {}\n", list(&gathering.without_price)),
    }
}

/// A table for spreadsheets, a row for each bead, thread and finding.
pub(super) fn csv(gathering: &Gathering) -> Result<Vec<u8>, Problem> {
    let currency = gathering.currency.as_deref().unwrap_or_default();
    let rows = [CSV_COLUMNS.map(str::to_owned)]
        .into_iter()
        .chain(gathering.beads.iter().map(|bead| bead_row(bead, currency)))
        .chain(gathering.threads.iter().map(|thread| thread_row(thread, currency)))
        .chain(gathering.findings.iter().map(|finding| finding_row(finding, currency)));
    let unwritten = |e: String| Problem::error(format!("the table cannot be written: {e}"));
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    for row in rows {
        writer.write_record(row.map(inert)).map_err(|e| unwritten(e.to_string()))?;
    }
    writer.into_inner().map_err(|e| unwritten(e.to_string()))
}

fn bead_row(bead: &BeadLine, currency: &str) -> [String; CSV_COLUMNS.len()] {
    [
        "bead".to_owned(),
        bead.key.clone(),
        bead.name.clone(),
        bead.code.clone().unwrap_or_default(),
        bead.count.to_string(),
        plain(bead.grams.0),
        "g".to_owned(),
        optional(bead.stock.map(|g| g.0)),
        plain(bead.missing.0),
        optional(bead.pack.map(|g| g.0)),
        optional(bead.packs.map(f64::from)),
        optional(bead.packs_to_buy.map(f64::from)),
        money(bead.price),
        currency.to_owned(),
    ]
}

fn thread_row(thread: &ThreadLine, currency: &str) -> [String; CSV_COLUMNS.len()] {
    [
        "thread".to_owned(),
        thread.key.clone(),
        thread.name.clone(),
        String::new(),
        String::new(),
        plain(thread.length.0),
        "mm".to_owned(),
        optional(thread.stock.map(|l| l.0)),
        plain(thread.missing.0),
        optional(thread.spool.map(|l| l.0)),
        optional(thread.spools.map(f64::from)),
        optional(thread.spools_to_buy.map(f64::from)),
        money(thread.price),
        currency.to_owned(),
    ]
}

fn finding_row(finding: &FindingLine, currency: &str) -> [String; CSV_COLUMNS.len()] {
    [
        "finding".to_owned(),
        finding.key.clone(),
        finding.name.clone(),
        String::new(),
        String::new(),
        finding.count.to_string(),
        "piece".to_owned(),
        optional(finding.stock.map(f64::from)),
        finding.missing.to_string(),
        String::new(),
        String::new(),
        String::new(),
        money(finding.price),
        currency.to_owned(),
    ]
}

/// A cell that no spreadsheet takes for a formula: an apostrophe before it says that it is text. Numbers
/// stay numbers.
fn inert(cell: String) -> String {
    let begins_formula = cell.trim_start().starts_with(['=', '+', '-', '@', '＝', '＋', '－', '＠']);
    if begins_formula && cell.parse::<f64>().is_err() { format!("'{cell}") } else { cell }
}

/// Everything, as JSON.
pub(super) fn json(gathering: &Gathering) -> Result<Vec<u8>, Problem> {
    let unwritten = |e: serde_json::Error| Problem::error(format!("the count cannot be written: {e}"));
    let mut value = serde_json::to_value(gathering).map_err(unwritten)?;
    round(&mut value);
    let mut bytes = serde_json::to_vec_pretty(&value).map_err(unwritten)?;
    bytes.push(b'\n');
    Ok(bytes)
}

/// Takes the rounding of floating-point sums out of every number.
fn round(value: &mut Value) {
    match value {
        Value::Number(number) if number.is_f64() => {
            if let Some(rounded) = number.as_f64().map(rounded) {
                *value = Value::from(rounded);
            }
        }
        Value::Array(items) => items.iter_mut().for_each(round),
        Value::Object(fields) => fields.values_mut().for_each(round),
        _ => {}
    }
}

fn rounded(number: f64) -> f64 {
    let scale = 10f64.powi(DECIMALS);
    (number * scale).round() / scale
}

fn plain(number: f64) -> String {
    rounded(number).to_string()
}

fn optional(number: Option<f64>) -> String {
    number.map(plain).unwrap_or_default()
}

/// What is shown of an amount where there is one; a dash where nothing is missing, so that the eye
/// finds what is.
fn some(amount: f64, shown: String) -> String {
    if amount > 0.0 { shown } else { NOTHING.to_owned() }
}

fn to_buy(number: Option<u32>, noun: &str) -> String {
    match number {
        None => String::new(),
        Some(0) => NOTHING.to_owned(),
        Some(n) => number_of(n as usize, noun),
    }
}

fn grams(grams: Grams) -> String {
    format!("{:.2} g", grams.0)
}

fn pack(grams: Grams) -> String {
    format!("{} g", plain(grams.0))
}

fn metres(length: Mm) -> String {
    format!("{:.2} m", length.0 / 1000.0)
}

fn money(price: Option<f64>) -> String {
    price.map(|price| format!("{price:.2}")).unwrap_or_default()
}
