//! Looking things up in a checked design.

use super::letters::resolve;
use super::model::{Bead, Design, Letter, LetterId, Stack};

impl Design {
    /// The bead a letter stands for.
    #[must_use]
    pub fn bead(&self, letter: LetterId) -> &Bead {
        &self.palette.beads[self.letters[letter.0].bead.0]
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

    /// A stack as text, its beads from top to bottom: `AB`.
    #[must_use]
    pub fn stack_symbols(&self, stack: &Stack) -> String {
        self.symbols(&stack.0)
    }

    /// Stacks of the foundation row.
    #[must_use]
    pub fn width(&self) -> usize {
        self.body.rows.first().map_or(0, |row| row.stacks.len())
    }

    /// The letters that the design really uses, in the order of [`Design::letters`].
    #[must_use]
    pub fn letters_used(&self) -> Vec<LetterId> {
        let mut used = vec![false; self.letters.len()];
        self.each_bead(|letter| used[letter.0] = true);
        (0..used.len()).filter(|&i| used[i]).map(LetterId).collect()
    }

    /// Calls `take` with the letter of every bead of one earring: body, loop, fringe.
    pub fn each_bead(&self, mut take: impl FnMut(LetterId)) {
        let body = self.body.rows.iter().flat_map(|row| &row.stacks).flat_map(|stack| &stack.0);
        let hanging: &[LetterId] = match &self.hang {
            super::Hang::Loop(beads) => beads,
            super::Hang::ThreadGuard => &[],
        };
        let fringe = self.fringe.strands.iter().flat_map(|strand| &strand.beads);
        body.chain(hanging).chain(fringe).for_each(|letter| take(*letter));
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
        let (bead, replaces) = resolve(&self.palette, bead)?;
        let mut design = self.clone();
        let place = design.letters[letter.0].place.clone();
        design.letters[letter.0] = Letter { symbol, bead, replaces, place };
        Some(design)
    }
}
