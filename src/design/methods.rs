//! Looking things up in a checked design.

use super::model::{Bead, Design, Hang, Letter, LetterId};
use super::replaced::used;
use crate::diagnostic::Source;
use crate::units::Mm;
use std::sync::Arc;

impl Design {
    /// The bead a letter stands for.
    #[must_use]
    pub fn bead(&self, letter: LetterId) -> &Bead {
        &self.palette.beads[self.letters[letter.0].bead.0]
    }

    /// The files it was read from: its own, its palette, its studio.
    #[must_use]
    pub fn sources(&self) -> Vec<&Arc<Source>> {
        let design = self.letters.first().map(|letter| &letter.place.source);
        let palette = self.palette.beads.first().map(|bead| &bead.place.source);
        design.into_iter().chain(palette).chain(&self.studio.source).collect()
    }

    /// The letter's character.
    #[must_use]
    pub fn symbol(&self, letter: LetterId) -> char {
        self.letters[letter.0].symbol
    }

    /// The letter with a character.
    #[must_use]
    pub fn letter(&self, symbol: char) -> Option<LetterId> {
        self.letters.iter().position(|l| l.symbol == symbol).map(LetterId)
    }

    /// Letters as text, without spaces: `ABBA`.
    #[must_use]
    pub fn symbols(&self, letters: &[LetterId]) -> String {
        letters.iter().map(|l| self.symbol(*l)).collect()
    }

    /// Distance of the holes of the thread guard among the findings; `None` where none gives it.
    #[must_use]
    pub fn guard_holes(&self) -> Option<Mm> {
        self.findings.iter().find_map(|finding| finding.holes)
    }

    /// Whether the earring is its own mirror image: then both earrings of a pair are alike.
    #[must_use]
    pub fn is_symmetrical(&self) -> bool {
        let rows = self.body.rows.iter().all(|r| r.stacks.iter().eq(r.stacks.iter().rev()));
        let strands = &self.fringe.strands;
        rows && strands.iter().zip(strands.iter().rev()).all(|(a, b)| a.beads == b.beads && a.turn == b.turn)
    }

    /// This design in one of its colourways; `None` when it has none of that name.
    #[must_use]
    pub fn in_colourway(&self, name: &str) -> Option<Design> {
        let colourway = self.colourways.iter().find(|c| c.name == name)?;
        let mut design = self.clone();
        for (letter, changed) in &colourway.changes {
            design.letters[letter.0] = changed.clone();
        }
        design.colourway = Some(colourway.name.clone());
        Some(design)
    }

    /// This design with another bead of the palette for a letter; `None` when either is not there.
    #[must_use]
    pub fn with_bead(&self, symbol: char, bead: &str) -> Option<Design> {
        let letter = self.letter(symbol)?;
        let (bead, replaces) = *used(&self.palette).get(bead)?;
        let mut design = self.clone();
        let place = design.letters[letter.0].place.clone();
        design.letters[letter.0] = Letter { symbol, bead, replaces, place };
        Some(design)
    }
}

impl Hang {
    /// The beads of the loop, in the order strung; none with a thread guard.
    #[must_use]
    pub fn loop_beads(&self) -> &[LetterId] {
        match self {
            Hang::Loop(beads) => beads,
            Hang::ThreadGuard => &[],
        }
    }
}
