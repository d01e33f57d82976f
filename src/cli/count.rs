//! `count`: beads, grams, packs, thread, findings and cost of several designs together.

use super::commands::Ending;
use super::{count_forms, say};
use crate::design::{self, Design, Wishes};
use crate::diagnostic::{Problem, Severity};
use crate::stitch;
use crate::tally::{self, Order, Tally};
use clap::Args;
use std::path::{Path, PathBuf};

/// Pairs of one design beyond which a number is taken for a slip of the keyboard.
const MOST_PAIRS: u32 = 100_000;

/// What `count` is told.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  fringebook count heron.yaml
  fringebook count heron.yaml orchard.yaml --pairs 5
  fringebook count heron.yaml=12 orchard.yaml=6 --csv > order.csv

Grams include the spare beads. What stands as `stock:` in the palette is on the shelf; the rest is
missing, and packs and spools are rounded up once for all designs together.")]
pub(super) struct CountArgs {
    /// Design files, each with its own number of pairs where one is given
    #[arg(value_name = "DESIGN[=PAIRS]", required = true)]
    designs: Vec<String>,
    /// Pairs to make of each design that gives no number of its own
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=i64::from(MOST_PAIRS)))]
    pairs: u32,
    /// Count in this colourway
    #[arg(long, value_name = "NAME")]
    colourway: Option<String>,
    /// Write a table for spreadsheets (RFC 4180)
    #[arg(long, conflicts_with = "json")]
    csv: bool,
    /// Write everything as JSON
    #[arg(long)]
    json: bool,
}

/// A design with its pairs, counted.
struct Counted {
    design: Design,
    tally: Tally,
    pairs: u32,
}

/// Counts and writes the result to standard output.
pub(super) fn run(args: &CountArgs) -> Ending {
    let mut wanted = Vec::new();
    for word in &args.designs {
        match design_and_pairs(word, args.pairs) {
            Ok(order) => wanted.push(order),
            Err(problem) => {
                say::problem(&problem);
                return Ending::WrongUse;
            }
        }
    }
    let wishes = Wishes { colourway: args.colourway.clone(), ..Wishes::default() };
    let counted: Vec<Counted> =
        wanted.iter().filter_map(|(path, pairs)| counted(path, *pairs, &wishes)).collect();
    // A sum that leaves a design out would be taken for the whole.
    if counted.len() < wanted.len() {
        if wanted.len() > 1 {
            say::problem(
                &Problem::error("nothing is counted, because a design cannot be read")
                    .hint("mend it, or leave it out"),
            );
        }
        return Ending::NotAll;
    }
    let orders: Vec<Order> =
        counted.iter().map(|c| Order { design: &c.design, tally: &c.tally, pairs: c.pairs }).collect();
    let gathering = tally::gather(&orders);
    let form = if args.csv {
        count_forms::csv(&gathering)
    } else if args.json {
        count_forms::json(&gathering)
    } else {
        Ok(count_forms::table(&gathering).into_bytes())
    };
    match form {
        Ok(bytes) => say::result_bytes(&bytes),
        Err(problem) => {
            say::problem(&problem);
            Ending::NotAll
        }
    }
}

fn counted(path: &Path, pairs: u32, wishes: &Wishes) -> Option<Counted> {
    let reading = design::read(path, wishes);
    // Advice belongs to `check`; here it would stand between the maker and the numbers.
    let problems: Vec<Problem> =
        reading.problems.into_iter().filter(|p| p.severity > Severity::Advice).collect();
    say::problems(&problems);
    let design = reading.design?;
    let work = stitch::stitch(&design);
    let tally = tally::tally(&design, &work);
    Some(Counted { design, tally, pairs })
}

/// `heron.yaml=12` as a path and a number. A file that is called so, sign and all, is taken as it is.
fn design_and_pairs(word: &str, otherwise: u32) -> Result<(PathBuf, u32), Problem> {
    let whole = PathBuf::from(word);
    let Some((path, number)) = word.rsplit_once('=') else {
        return Ok((whole, otherwise));
    };
    if whole.exists() {
        return Ok((whole, otherwise));
    }
    let path_given = !path.is_empty();
    match number.parse::<u32>() {
        Ok(pairs) if path_given && (1..=MOST_PAIRS).contains(&pairs) => Ok((PathBuf::from(path), pairs)),
        _ => Err(Problem::error(format!("`{word}` does not say how many pairs"))
            .hint(format!("write a design file and a number from 1 to {MOST_PAIRS}, as in `heron.yaml=12`"))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_design_may_say_its_own_number_of_pairs() {
        let read = |word: &str| design_and_pairs(word, 4);
        assert_eq!(read("heron.yaml"), Ok((PathBuf::from("heron.yaml"), 4)));
        assert_eq!(read("heron.yaml=12"), Ok((PathBuf::from("heron.yaml"), 12)));
        assert_eq!(read("a=b.yaml=2"), Ok((PathBuf::from("a=b.yaml"), 2)));
        for wrong in ["heron.yaml=", "heron.yaml=x", "heron.yaml=0", "heron.yaml=-3", "=3", "h.yaml=100001"] {
            let problem = read(wrong).expect_err(wrong);
            assert_eq!(problem.message, format!("`{wrong}` does not say how many pairs"));
            assert_eq!(
                problem.hint,
                "write a design file and a number from 1 to 100000, as in `heron.yaml=12`"
            );
        }
    }
}
