//! `cards`: cards that a pair is sold on.

use super::commands::Ending;
use super::editions::{EditionArgs, SheetArgs};
use super::make::make_all;
use super::settings::Settings;
use clap::Args;
use std::path::PathBuf;

/// What `cards` is told.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  fringebook cards heron.yaml
  fringebook cards heron.yaml --each-colourway --language de

The cards of heron.yaml are heron-cards.pdf: a sheet of fronts, with crosses where the ear wires go
through and the name at the foot, and a sheet of backs with how to look after the earrings, to be
printed on the other side. The crosses are as far apart as the pair needs to hang side by side.")]
pub(super) struct CardArgs {
    /// Design files
    #[arg(value_name = "DESIGN", required = true)]
    designs: Vec<PathBuf>,
    #[command(flatten)]
    sheet: SheetArgs,
    #[command(flatten)]
    edition: EditionArgs,
}

/// Makes the sheets.
pub(super) fn run(args: &CardArgs) -> Ending {
    let settings = Settings { cards: true, ..args.edition.settings(args.sheet.settings()) };
    make_all(&args.designs, &args.sheet, &settings, args.edition.each_colourway)
}
