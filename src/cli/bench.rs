//! `bench`: bench copies, on which rows, strands and long runs are ticked off.

use super::commands::Ending;
use super::editions::{EditionArgs, SheetArgs};
use super::make::make_all;
use super::settings::{BenchSettings, Settings};
use super::tablet::no_bench_copy;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// What `bench` is told.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  fringebook bench heron.yaml
  fringebook bench heron.yaml --rows 5-12
  fringebook bench heron.yaml --earring 2 --large-print
  fringebook bench heron.yaml --start right --colourway River

The bench copy of heron.yaml is heron-bench.pdf; whatever is asked for on top is added to its
name, as with booklets. Its boxes can be ticked on paper and on a tablet. A copy that is current is
left as it is, with its ticks. In a newer copy rows and strands that have not changed keep theirs;
with --replace it is empty.")]
pub(super) struct BenchArgs {
    /// Design files
    #[arg(value_name = "DESIGN", required = true)]
    designs: Vec<PathBuf>,
    /// Only these rows, counted from the foundation
    #[arg(long, value_name = "FIRST-LAST", value_parser = rows)]
    rows: Option<(usize, usize)>,
    /// Which earring of the pair
    #[arg(long, value_enum, default_value_t = Earring::Both, hide_default_value = true, hide_possible_values = true, value_name = "1|2|both")]
    earring: Earring,
    #[command(flatten)]
    sheet: SheetArgs,
    #[command(flatten)]
    edition: EditionArgs,
    /// There is no such edition, which is to be said
    #[arg(long, hide = true)]
    tablet: bool,
}

/// An earring of the pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Earring {
    /// The first
    #[value(name = "1")]
    First,
    /// The second
    #[value(name = "2")]
    Second,
    /// Both
    Both,
}

/// Makes the bench copies.
pub(super) fn run(args: &BenchArgs) -> Ending {
    if let Err(wrong) = no_bench_copy(args.tablet) {
        return wrong;
    }
    let earring = match args.earring {
        Earring::First => Some(1),
        Earring::Second => Some(2),
        Earring::Both => None,
    };
    let bench = BenchSettings { rows: args.rows, earring };
    let settings = Settings { bench: Some(bench), ..args.edition.settings(args.sheet.settings()) };
    make_all(&args.designs, &args.sheet, &settings, args.edition.each_colourway)
}

/// `5-12`, or one row as `5`.
fn rows(text: &str) -> Result<(usize, usize), String> {
    let (first, last) = text.split_once(['-', '–']).unwrap_or((text, text));
    let number = |text: &str| {
        text.trim()
            .parse::<usize>()
            .ok()
            .filter(|&n| n > 0)
            .ok_or_else(|| "rows are counted from 1, as in `5-12`".to_owned())
    };
    let (first, last) = (number(first)?, number(last)?);
    if first > last { Err(format!("row {first} comes after row {last}")) } else { Ok((first, last)) }
}

#[cfg(test)]
mod tests {
    use super::rows;

    #[test]
    fn rows_are_a_range_or_one() {
        assert_eq!(rows("5-12"), Ok((5, 12)));
        assert_eq!(rows("7"), Ok((7, 7)));
        assert_eq!(rows("12-5"), Err("row 12 comes after row 5".to_owned()));
        assert!(rows("0-5").is_err() && rows("five").is_err() && rows("-3").is_err() && rows("").is_err());
    }
}
