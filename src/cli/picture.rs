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

The picture of the pair of heron.yaml is heron-pair.png. `fringebook remake` keeps pictures up
to date as it does booklets.")]
pub(super) struct PictureArgs {
    /// Design files
    #[arg(value_name = "DESIGN", required = true)]
    designs: Vec<PathBuf>,
    /// What it shows: the pair, one earring near by, or the colours as swatches
    #[arg(long, value_enum, default_value_t = Wish::Pair, hide_default_value = true, hide_possible_values = true, value_name = "pair|detail|colours")]
    shows: Wish,
    /// A page of the booklet, as it prints
    #[arg(long, value_name = "NUMBER", conflicts_with_all = ["shows", "ground", "margin"], value_parser = clap::value_parser!(u16).range(1..))]
    page: Option<u16>,
    /// Pixels across
    #[arg(long, value_name = "NUMBER", default_value_t = PictureSettings::PIXELS, value_parser = clap::value_parser!(u32).range(100..=8000))]
    pixels: u32,
    /// An SVG, which is sharp at any size, in place of pixels
    #[arg(long, conflicts_with = "pixels")]
    svg: bool,
    /// What is behind the earrings
    #[arg(long, value_name = "light|dark|#RRGGBB", default_value = PictureSettings::GROUND, value_parser = ground)]
    ground: String,
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
}

/// Makes the pictures.
pub(super) fn run(args: &PictureArgs) -> Ending {
    let shows = match (args.page, args.shows) {
        (Some(number), _) => Shows::Page(usize::from(number)),
        (None, Wish::Pair) => Shows::Pair,
        (None, Wish::Detail) => Shows::Detail,
        (None, Wish::Colours) => Shows::Colours,
    };
    let pixels = (!args.svg).then_some(args.pixels);
    let picture = PictureSettings { shows, pixels, ground: args.ground.clone(), margin: args.margin };
    let settings = Settings { picture: Some(picture), ..args.edition.settings(args.sheet.settings()) };
    make_all(&args.designs, &args.sheet, &settings, args.edition.each_colourway)
}

/// A ground: a name, or a colour as design files write them.
fn ground(text: &str) -> Result<String, String> {
    match text {
        "light" | "dark" => Ok(text.to_owned()),
        other => match Colour::from_hex(other) {
            Some(colour) => Ok(colour.hex()),
            None => Err("say `light`, `dark`, or a colour as `#f4f1ea`".to_owned()),
        },
    }
}
