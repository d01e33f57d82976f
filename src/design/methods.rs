//! Looking things up in a checked design.

use super::model::{Bead, Body, Design, EarWire, Hang, Hanging, Letter, LetterId, Row, StackPlace};
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

    /// Whether the body narrows by half a stack at both sides of every row above its foundation, and has none below:
    /// the shape that needs least said.
    #[must_use]
    pub fn is_plain(&self) -> bool {
        let rows = &self.body.rows;
        let narrows = |pair: &[Row]| {
            pair[1].lead == pair[0].lead + 1 && pair[1].stacks.len() + 1 == pair[0].stacks.len()
        };
        rows.len() > 1 && self.body.above == rows.len() && rows.windows(2).all(narrows)
    }

    /// Whether one strand hangs on each stack of the foundation and none elsewhere.
    #[must_use]
    pub fn hangs_on_its_foundation(&self) -> bool {
        let strands = self.fringe.strands.iter().map(|strand| strand.hangs_on);
        strands.eq((0..self.body.rows[0].stacks.len()).map(|stack| StackPlace { row: 0, stack }))
    }

    /// Stacks of the widest row.
    #[must_use]
    pub fn widest(&self) -> usize {
        self.body.rows.iter().map(|row| row.stacks.len()).max().unwrap_or(0)
    }

    /// Distance of the holes of the thread guard among the findings; `None` where none gives it.
    #[must_use]
    pub fn guard_holes(&self) -> Option<Mm> {
        self.findings.iter().find_map(|finding| finding.holes)
    }

    /// What goes through the ear: the first of the findings that says so, or a hook.
    #[must_use]
    pub fn ear_wire(&self) -> EarWire {
        self.findings.iter().find_map(|finding| finding.kind).unwrap_or(EarWire::Hook)
    }

    /// Whether the earring is its own mirror image: then both earrings of a pair are alike.
    #[must_use]
    pub fn is_symmetrical(&self) -> bool {
        let mirror = self.mirrored();
        let mut rows = self.body.rows.iter().zip(&mirror.body.rows);
        let mut strands = self.fringe.strands.iter().zip(&mirror.fringe.strands);
        self.hangings == mirror.hangings
            && rows.all(|(a, b)| a.lead == b.lead && a.stacks == b.stacks)
            && strands.all(|(a, b)| a.beads == b.beads && a.turn == b.turn && a.hangs_on == b.hangs_on)
    }

    /// This design in one of its colourways; `None` when it has none of that name.
    #[must_use]
    pub fn in_colourway(&self, name: &str) -> Option<Design> {
        let colourway = self.colourways.iter().find(|c| c.key == name)?;
        let mut design = self.clone();
        for (letter, changed) in &colourway.changes {
            design.letters[letter.0] = changed.clone();
        }
        design.colourway = Some(colourway.key.clone());
        Some(design)
    }

    /// The name of the colourway that this design stands in, as printed; `None` for the design as written.
    #[must_use]
    pub fn colourway_name(&self) -> Option<&str> {
        let key = self.colourway.as_ref()?;
        let named = self.colourways.iter().find(|colourway| colourway.key == *key);
        Some(named.map_or(key, |colourway| colourway.name.as_str()))
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

impl Body {
    /// The topmost row: the earring hangs from it.
    #[must_use]
    pub fn top_row(&self) -> &Row {
        &self.rows[self.above - 1]
    }
}

impl Hanging {
    /// A thread guard in the middle.
    #[must_use]
    pub fn guard() -> Hanging {
        Hanging { by: Hang::ThreadGuard, on: None }
    }
}

impl EarWire {
    /// Whether a small loop hangs below it, to be opened and closed; a hoop goes through the earring itself.
    #[must_use]
    pub fn has_loop(self) -> bool {
        match self {
            EarWire::Hook | EarWire::LeverBack | EarWire::Stud => true,
            EarWire::Hoop => false,
        }
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
