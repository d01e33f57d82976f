//! Telling what happened and why.

use super::work::{Outcome, Row};
use std::fmt::Write;
use std::path::PathBuf;

/// Current booklets are listed one by one only in a catalogue of up to this many; in a larger one they
/// would bury those that were made.
const LISTED: usize = 30;
/// Widest column of names, in characters; a longer name takes its room from the words after it.
const WIDEST_NAME: usize = 40;

/// A whole report.
pub(super) struct Report<'a> {
    /// What became of each entry.
    pub(super) rows: &'a [Row],
    /// Booklets without a design.
    pub(super) gone: &'a [PathBuf],
    /// Whether all folders could be looked into; in others the designs may still be there.
    pub(super) all_seen: bool,
    /// Whether nothing was written.
    pub(super) dry_run: bool,
    /// Designs that were given their next edition, with its number.
    pub(super) next: &'a [(String, u32)],
}

impl Report<'_> {
    /// Whether something could not be made.
    pub(super) fn failed(&self) -> bool {
        self.count(Outcome::Failed) > 0
    }

    /// Whether there is anything to tell but that all is well.
    pub(super) fn eventful(&self) -> bool {
        self.count(Outcome::Current) < self.rows.len() || !self.gone.is_empty()
    }

    fn count(&self, outcome: Outcome) -> usize {
        self.rows.iter().filter(|row| row.outcome == outcome).count()
    }

    /// The report as text: a table, booklets without a design, and the sum.
    pub(super) fn text(&self) -> String {
        let mut text = self.table();
        if !self.gone.is_empty() {
            text.push_str(match self.all_seen {
                true => "Their designs are gone; these booklets are kept:\n",
                false => "Their designs are not where they could be seen; these booklets are kept:\n",
            });
            for path in self.gone {
                let _ = writeln!(text, "  {}", path.display());
            }
            text.push('\n');
        }
        for (design, edition) in self.next {
            let would = if self.dry_run { "would be" } else { "is" };
            let _ = writeln!(text, "{design} {would} edition {edition} now");
        }
        match self.rows.iter().filter(|row| row.otherwise).count() {
            0 => {}
            1 => text.push_str("1 booklet shows a buyer something else than its edition did at first"),
            n => {
                let _ =
                    write!(text, "{n} booklets show a buyer something else than their edition did at first");
            }
        }
        if self.rows.iter().any(|row| row.otherwise) {
            text.push_str(":\n  `--next-edition` numbers the designs on, and lists in the booklets what has changed\n\n");
        }
        let _ = writeln!(
            text,
            "{}: {} {}, {} current, {}{} failed",
            match self.rows.len() {
                1 => "1 booklet".to_owned(),
                n => format!("{n} booklets"),
            },
            self.count(Outcome::Made),
            self.word(Outcome::Made),
            self.count(Outcome::Current),
            match self.count(Outcome::Removed) {
                0 => String::new(),
                n => format!("{n} {}, ", self.word(Outcome::Removed)),
            },
            self.count(Outcome::Failed)
        );
        text
    }

    fn word(&self, outcome: Outcome) -> &'static str {
        match outcome {
            Outcome::Current => "current",
            Outcome::Made if self.dry_run => "to make",
            Outcome::Made => "made",
            Outcome::Removed if self.dry_run => "to remove",
            Outcome::Removed => "removed",
            Outcome::Failed => "failed",
        }
    }

    fn table(&self) -> String {
        let all = self.rows.len() <= LISTED;
        let listed: Vec<&Row> =
            self.rows.iter().filter(|row| all || row.outcome != Outcome::Current).collect();
        if listed.is_empty() {
            return String::new();
        }
        let widest = listed.iter().map(|row| row.name.chars().count()).max().unwrap_or(0);
        let width = widest.clamp("booklet".len(), WIDEST_NAME);
        let mut text = String::new();
        let mut line = |name: &str, word: &str, pages: &str, warnings: &str, why: &str| {
            let _ = writeln!(
                text,
                "{}",
                format!("{name:<width$}  {word:<7}  {pages:>5}  {warnings:>8}  {why}").trim_end()
            );
        };
        line("booklet", "", "pages", "warnings", "why");
        for row in listed {
            let number = |n: Option<usize>| n.map_or_else(|| "–".to_owned(), |n| n.to_string());
            line(
                &row.name,
                self.word(row.outcome),
                &number(row.pages),
                &number(row.warnings),
                &row.why.join("; "),
            );
        }
        text.push('\n');
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(name: &str, outcome: Outcome, why: &[&str], pages: Option<usize>) -> Row {
        Row {
            name: name.to_owned(),
            outcome,
            why: why.iter().map(|w| (*w).to_owned()).collect(),
            pages,
            warnings: pages.map(|_| 0),
            problems: Vec::new(),
            otherwise: false,
        }
    }

    #[test]
    fn the_table_says_what_and_why() {
        let rows = [
            row("heron.pdf", Outcome::Made, &["bead ink: colour #1b1c20 → #222222", "studio: web"], Some(12)),
            row("orchard-letter.pdf", Outcome::Current, &[], Some(11)),
            row("wren.yaml", Outcome::Failed, &["there is no bead `inc` in the palette"], None),
        ];
        let report = Report {
            rows: &rows,
            gone: &[PathBuf::from("owl.pdf")],
            all_seen: true,
            dry_run: false,
            next: &[],
        };
        assert_eq!(
            report.text(),
            "\
booklet                      pages  warnings  why
heron.pdf           made        12         0  bead ink: colour #1b1c20 → #222222; studio: web
orchard-letter.pdf  current     11         0
wren.yaml           failed       –         –  there is no bead `inc` in the palette

Their designs are gone; these booklets are kept:
  owl.pdf

3 booklets: 1 made, 1 current, 1 failed
"
        );
    }

    #[test]
    fn a_large_catalogue_lists_what_happened_only() {
        let mut rows: Vec<Row> =
            (0..100).map(|n| row(&format!("d{n}.pdf"), Outcome::Current, &[], Some(9))).collect();
        let told = |rows: &[Row]| Report { rows, gone: &[], all_seen: true, dry_run: true, next: &[] }.text();
        assert_eq!(told(&rows), "100 booklets: 0 to make, 100 current, 0 failed\n");
        rows[7].outcome = Outcome::Made;
        assert_eq!(
            told(&rows),
            "\
booklet           pages  warnings  why
d7.pdf   to make      9         0

100 booklets: 1 to make, 99 current, 0 failed
"
        );
    }
}
