//! The same beads are counted everywhere: chart, word chart, bead list, materials table.

use crate::support::editions::plain;
use fringebook::booklet::Wording;
use fringebook::booklet::{Block, Booklet, Cell, ChartPart, Section, Table, compose};
use fringebook::design::{Paper, Wishes, read};
use fringebook::stitch::stitch;
use fringebook::tally::{Tally, tally};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

type Counts = BTreeMap<char, usize>;

fn demos() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-designs");
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("demo-designs")
        .map(|e| e.expect("entry").path())
        .filter(|p| p.extension().is_some_and(|e| e == "yaml"))
        .filter(|p| !["palette.yaml", "studio.yaml"].iter().any(|n| p.ends_with(n)))
        .collect();
    files.sort();
    assert!(files.len() >= 3, "three demo designs at least");
    files
}

fn booklet_of(path: &Path) -> (Booklet, Tally, Vec<char>) {
    let reading = read(path, &Wishes::default());
    let design = reading.design.expect("the demo design reads");
    let work = stitch(&design);
    let tally = tally(&design, &work);
    let wording = Wording::built_in("en").expect("English is built in");
    let edition = plain(Paper::A4);
    let booklet = compose(&design, &work, &tally, &wording, &edition).expect("the booklet composes");
    let symbols = design.letters.iter().map(|l| l.symbol).collect();
    (booklet, tally, symbols)
}

fn section<'a>(booklet: &'a Booklet, name: &str) -> &'a Section {
    booklet.sections.iter().find(|s| s.name == name).expect("the section is there")
}

fn first_table(section: &Section) -> &Table {
    let table = section.blocks.iter().find_map(|b| match b {
        Block::Table(t) => Some(t),
        _ => None,
    });
    table.expect("the section has a table")
}

fn words(cell: &Cell) -> String {
    match cell {
        Cell::Text(t) => t.words().replace('\u{a0}', " "),
        _ => String::new(),
    }
}

fn add(counts: &mut Counts, letters: &str, times: usize) {
    for c in letters.chars().filter(|c| c.is_ascii_alphabetic()) {
        *counts.entry(c).or_default() += times;
    }
}

/// Reads `3 AB · 1 C` as a person would.
fn add_runs(counts: &mut Counts, text: &str, times: usize) {
    for run in text.split('·').map(str::trim).filter(|r| !r.is_empty()) {
        let (count, letters) = run.split_once(' ').expect("a count and letters");
        add(counts, letters, times * count.parse::<usize>().expect("a count"));
    }
}

fn number(text: &str) -> usize {
    text.replace(',', "").parse().expect("a number")
}

/// Where the column of a heading stands.
fn column(table: &Table, head: &str) -> usize {
    table.head.iter().position(|text| text.words() == head).expect("the column is there")
}

/// Rows as printed: the beads of each by letter, and the count printed beside it.
fn from_word_chart(booklet: &Booklet) -> Counts {
    let mut all = Counts::new();
    let mut sum = 0;
    let table = first_table(section(booklet, "rows"));
    let [start, then, beads] = ["Start with", "Then", "Beads"].map(|head| column(table, head));
    for row in &table.rows {
        let cells: Vec<String> = row.cells.iter().map(words).collect();
        let mut counts = Counts::new();
        add(&mut counts, &cells[start], 1);
        add_runs(&mut counts, &cells[then], 1);
        let printed = number(&cells[beads]);
        if counts.is_empty() {
            assert_eq!(printed, sum, "the total of the word chart");
            continue;
        }
        assert_eq!(counts.values().sum::<usize>(), printed, "row {}", cells[0]);
        sum += printed;
        for (letter, n) in counts {
            *all.entry(letter).or_default() += n;
        }
    }
    all
}

fn from_bead_list(booklet: &Booklet) -> Counts {
    let mut all = Counts::new();
    let table = first_table(section(booklet, "strands"));
    let [runs, turn, beads] = ["From the body down", "Turn", "Beads"].map(|head| column(table, head));
    for row in &table.rows {
        let cells: Vec<String> = row.cells.iter().map(words).collect();
        if cells[0].is_empty() {
            assert_eq!(number(&cells[beads]), all.values().sum::<usize>(), "the total of the bead list");
            continue;
        }
        let strands = match cells[0].split_once('–') {
            Some((a, b)) => number(b) - number(a) + 1,
            None => 1,
        };
        let before: usize = all.values().sum();
        add_runs(&mut all, &cells[runs], strands);
        add_runs(&mut all, &cells[turn], strands);
        let each = number(cells[beads].trim_end_matches(" each"));
        assert_eq!(all.values().sum::<usize>() - before, each * strands, "strand {}", cells[0]);
    }
    all
}

fn from_materials(booklet: &Booklet) -> Counts {
    let table = first_table(section(booklet, "materials"));
    let one = table.head.iter().position(|h| h.words() == "One earring").expect("a column for one earring");
    let mut all = Counts::new();
    for row in &table.rows {
        match &row.cells[0] {
            Cell::Swatches(swatches) => {
                let [swatch] = swatches.as_slice() else { panic!("two letters for one bead") };
                all.insert(swatch.letter.expect("a letter"), number(&words(&row.cells[one])));
            }
            _ => assert_eq!(number(&words(&row.cells[one])), all.values().sum::<usize>(), "the total"),
        }
    }
    all
}

/// From each way of showing the whole earring: its picture, its chart, and its charts in parts.
fn from_charts(booklet: &Booklet) -> Vec<Counts> {
    let (mut ways, mut parts) = (Vec::new(), Counts::new());
    let mut blocks: Vec<&Block> = section(booklet, "chart").blocks.iter().rev().collect();
    while let Some(block) = blocks.pop() {
        let chart = match block {
            Block::ChartOnOnePage { chart, otherwise } => {
                blocks.extend(otherwise.iter().rev());
                chart
            }
            Block::Chart(chart) => chart,
            Block::Float(inner) => {
                blocks.extend(inner.blocks.iter().rev());
                continue;
            }
            _ => continue,
        };
        let mut whole = Counts::new();
        let all = if chart.part == ChartPart::Whole { &mut whole } else { &mut parts };
        for bead in chart.beads.iter().filter(|b| !b.faded) {
            *all.entry(bead.letter).or_default() += 1;
        }
        if chart.part == ChartPart::Whole {
            ways.push(whole);
        }
    }
    ways.push(parts);
    ways
}

#[test]
fn chart_words_strands_and_materials_count_the_same_beads() {
    for path in demos() {
        let (booklet, tally, symbols) = booklet_of(&path);
        let mut written = from_word_chart(&booklet);
        for (letter, n) in from_bead_list(&booklet) {
            *written.entry(letter).or_default() += n;
        }
        let counted: Counts =
            tally.beads.iter().filter(|b| b.one > 0).map(|b| (symbols[b.letter.0], b.one)).collect();
        assert_eq!(written, counted, "{}: words and tally", path.display());
        assert_eq!(from_materials(&booklet), counted, "{}: materials and tally", path.display());
        let charts = from_charts(&booklet);
        assert!(charts.len() >= 2, "{}", path.display());
        for charted in charts {
            assert_eq!(charted, counted, "{}: chart and tally", path.display());
        }
    }
}
