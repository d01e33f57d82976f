//! `picture`: pictures for a listing.

use super::commands::Ending;
use super::editions::{EditionArgs, SheetArgs};
use super::make::make_all;
use super::settings::{PictureSettings, Settings, Shows};
use crate::colour::Colour;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// What `picture` is told.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  fringebook picture heron.yaml
  fringebook picture heron.yaml --shows detail --ground dark
  fringebook picture heron.yaml --each-colourway --pixels 1200
  fringebook picture heron.yaml --page 3
  fringebook picture heron.yaml --step 4
  fringebook picture heron.yaml --step 4 --moves --seconds 2

With --moves one file shows the step's thread move by move, heron-step-4-moves.png (animated PNG),
and beside it stands a picture for each move, from heron-step-4-move-00.png on: with nothing behind
them, to lay over a film. The picture of the pair of heron.yaml is heron-pair.png. `fringebook
remake` keeps pictures up to date as it does booklets.")]
pub(super) struct PictureArgs {
    /// Design files
    #[arg(value_name = "DESIGN", required = true)]
    designs: Vec<PathBuf>,
    /// What it shows: the pair, one earring near by, the colours as swatches, or some pages of the booklet
    #[arg(long, value_enum, default_value_t = Wish::Pair, hide_default_value = true, hide_possible_values = true, value_name = "pair|detail|colours|fan")]
    shows: Wish,
    /// A page of the booklet, as it prints
    #[arg(long, value_name = "NUMBER", conflicts_with_all = ["shows", "ground", "margin"], value_parser = clap::value_parser!(u16).range(1..))]
    page: Option<u16>,
    /// The diagrams of a step of the booklet
    #[arg(long, value_name = "NUMBER", conflicts_with_all = ["shows", "page"], value_parser = clap::value_parser!(u16).range(1..))]
    step: Option<u16>,
    /// The step's thread move by move: a file that moves, and a picture for each move
    #[arg(long, requires = "step", conflicts_with = "svg")]
    moves: bool,
    /// How long each move is seen
    #[arg(long, requires = "moves", value_name = "SECONDS", default_value = "1.2", value_parser = milliseconds)]
    seconds: u16,
    /// Pixels across
    #[arg(long, value_name = "NUMBER", default_value_t = PictureSettings::PIXELS, value_parser = clap::value_parser!(u32).range(100..=8000))]
    pixels: u32,
    /// An SVG, which is sharp at any size, in place of pixels
    #[arg(long, conflicts_with = "pixels")]
    svg: bool,
    /// What is behind the earrings
    #[arg(long, value_name = "light|dark|none|#RRGGBB", value_parser = ground)]
    ground: Option<String>,
    /// Margin at each side, in hundredths of the picture
    #[arg(long, value_name = "NUMBER", default_value_t = PictureSettings::MARGIN, value_parser = clap::value_parser!(u8).range(0..=40))]
    margin: u8,
    #[command(flatten)]
    sheet: SheetArgs,
    #[command(flatten)]
    edition: EditionArgs,
}

/// What a picture can show beside pages.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Wish {
    /// The pair
    Pair,
    /// One earring near by
    Detail,
    /// The colours
    Colours,
    /// Pages of the booklet
    Fan,
}

/// Makes the pictures.
pub(super) fn run(args: &PictureArgs) -> Ending {
    let shows = match (args.page, args.step, args.shows) {
        (Some(number), ..) => Shows::Page(usize::from(number)),
        (None, Some(step), _) if args.moves => Shows::Moves { step: usize::from(step), each: args.seconds },
        (None, Some(step), _) => Shows::Step(usize::from(step)),
        (None, None, Wish::Pair) => Shows::Pair,
        (None, None, Wish::Detail) => Shows::Detail,
        (None, None, Wish::Colours) => Shows::Colours,
        (None, None, Wish::Fan) => Shows::Fan,
    };
    let ground = args.ground.clone().unwrap_or_else(|| PictureSettings::usual_ground(shows).to_owned());
    let pixels = (!args.svg).then_some(args.pixels);
    let picture = PictureSettings { shows, pixels, ground, margin: args.margin };
    let settings = Settings { picture: Some(picture), ..args.edition.settings(args.sheet.settings()) };
    make_all(&args.designs, &args.sheet, &settings, args.edition.each_colourway)
}

/// A ground: a name, or a colour as design files write them.
fn ground(text: &str) -> Result<String, String> {
    match text {
        "light" | "dark" | PictureSettings::CLEAR => Ok(text.to_owned()),
        other => match Colour::from_hex(other) {
            Some(colour) => Ok(colour.hex()),
            None => Err("say `light`, `dark`, `none`, or a colour as `#f4f1ea`".to_owned()),
        },
    }
}

/// Seconds as milliseconds.
fn milliseconds(text: &str) -> Result<u16, String> {
    let wanted = || "give seconds from 0.05 to 30, as in `1.5`".to_owned();
    let seconds: f64 = text.parse().map_err(|_| wanted())?;
    // In range: it is a whole number below 30,001.
    if (0.05..=30.0).contains(&seconds) { Ok((seconds * 1000.0).round() as u16) } else { Err(wanted()) }
}
