//! Swatches: patches of a bead's colour on a terminal that shows colours.

use crate::colour::Colour;
use anstyle::{Ansi256Color, Color, RgbColor, Style};
use std::io::{self, IsTerminal};

/// What standard output can show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Shades {
    /// No colours, or none wanted.
    None,
    /// The colour cube of 256-colour terminals.
    Cube,
    /// Every colour.
    All,
}

/// A patch is this many blanks wide.
const PATCH: &str = "    ";

impl Shades {
    /// What standard output can show, and the user wants (the convention of no-color.org).
    pub(super) fn of_standard_output() -> Shades {
        let variable = |name: &str| std::env::var(name).unwrap_or_default();
        Shades::of(
            io::stdout().is_terminal(),
            &variable("NO_COLOR"),
            &variable("TERM"),
            &variable("COLORTERM"),
        )
    }

    fn of(terminal: bool, no_color: &str, term: &str, colorterm: &str) -> Shades {
        if !terminal || !no_color.is_empty() || term == "dumb" {
            Shades::None
        } else if matches!(colorterm, "truecolor" | "24bit") {
            Shades::All
        } else {
            Shades::Cube
        }
    }

    /// A patch of this colour with a gap behind it; nothing where no colours are shown.
    pub(super) fn patch(self, colour: Colour) -> String {
        let background: Color = match self {
            Shades::None => return String::new(),
            Shades::Cube => Ansi256Color(in_cube(colour)).into(),
            Shades::All => RgbColor(colour.r, colour.g, colour.b).into(),
        };
        let style = Style::new().bg_color(Some(background));
        format!("{style}{PATCH}{style:#}  ")
    }
}

/// The nearest of the 216 colours of the cube and 24 greys that 256-colour terminals share.
fn in_cube(colour: Colour) -> u8 {
    const STEPS: [u8; 6] = [0, 95, 135, 175, 215, 255];
    let cube = (0..216u8).map(|i| {
        let step = |n: u8| STEPS[usize::from(n % 6)];
        (16 + i, Colour::new(step(i / 36), step(i / 6), step(i)))
    });
    let greys = (0..24u8).map(|i| (232 + i, Colour::new(8 + 10 * i, 8 + 10 * i, 8 + 10 * i)));
    cube.chain(greys)
        .min_by(|a, b| colour.delta_e(a.1).total_cmp(&colour.delta_e(b.1)))
        .map_or(16, |(index, _)| index)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colours_are_shown_only_where_they_can_be_and_are_wanted() {
        assert_eq!(Shades::of(true, "", "xterm-256color", "truecolor"), Shades::All);
        assert_eq!(Shades::of(true, "", "xterm-256color", ""), Shades::Cube);
        assert_eq!(Shades::of(false, "", "xterm-256color", "truecolor"), Shades::None);
        assert_eq!(Shades::of(true, "1", "xterm-256color", "truecolor"), Shades::None);
        assert_eq!(Shades::of(true, "", "dumb", ""), Shades::None);
    }

    #[test]
    fn a_patch_is_painted_and_put_back() {
        let teal = Colour::new(0, 128, 128);
        assert_eq!(Shades::All.patch(teal), "\u{1b}[48;2;0;128;128m    \u{1b}[0m  ");
        assert_eq!(Shades::Cube.patch(teal), "\u{1b}[48;5;30m    \u{1b}[0m  ");
        assert_eq!(Shades::None.patch(teal), "");
        assert_eq!(in_cube(Colour::new(255, 255, 255)), 231);
        assert_eq!(in_cube(Colour::new(8, 8, 8)), 232);
    }
}
