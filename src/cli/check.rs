//! `check`: problems and advice, without a booklet.

use super::commands::Ending;
use super::make::designs_among;
use super::pipeline::{self, Desk};
use super::say;
use super::settings::{PaperName, Settings};
use crate::diagnostic::{self, Severity};
use clap::Args;
use rayon::prelude::*;
use std::path::PathBuf;

/// What `check` is told.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  fringebook check heron.yaml
  fringebook check catalogue/*.yaml
  fringebook check heron.yaml --colourway River")]
pub(super) struct CheckArgs {
    /// Design files
    #[arg(value_name = "DESIGN", required = true)]
    designs: Vec<PathBuf>,
    /// In this colourway of the design
    #[arg(long, value_name = "NAME")]
    colourway: Option<String>,
    /// Give a letter another bead of the palette, for this time only; may be given several times
    #[arg(long = "colour", value_name = "LETTER=BEAD")]
    colours: Vec<String>,
    /// Treat warnings as errors in the exit status
    #[arg(long)]
    strict: bool,
}

/// Checks the designs, and says of each in a line how it stands.
pub(super) fn run(args: &CheckArgs) -> Ending {
    let settings = Settings {
        colourway: args.colourway.clone(),
        colours: args.colours.clone(),
        ..Settings::plain(PaperName::A4, false)
    };
    let designs = match designs_among(&args.designs) {
        Ok(designs) => designs,
        Err(wrong) => return wrong,
    };
    let desk = Desk::new(None);
    let checked: Vec<_> = designs
        .par_iter()
        .map(|path| {
            let reading = desk.read(path, &settings);
            match reading.design {
                Some(design) => pipeline::stitched(design, reading.problems).problems,
                None => reading.problems,
            }
        })
        .collect();
    let mut ending = Ending::Done;
    for (path, problems) in designs.iter().zip(&checked) {
        say::problems(problems);
        let stands = match diagnostic::summary(problems) {
            nothing if nothing.is_empty() => "nothing to report".to_owned(),
            some => some,
        };
        say::result(&format!("{}: {stands}", path.display()));
        let limit = if args.strict { Severity::Warning } else { Severity::Error };
        if problems.iter().any(|p| p.severity >= limit) {
            ending = Ending::NotAll;
        }
    }
    ending
}
