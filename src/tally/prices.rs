//! Which prices a booklet tells. The tables of materials, the sum of the cost and the digest of what went
//! into a booklet all ask here.

use crate::design::{Bead, Design};

/// Which prices the booklet of a design tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Prices {
    /// Those of beads: at least one bead that is strung has a price.
    pub beads: bool,
    /// Those of findings: at least one has a price.
    pub findings: bool,
    /// The cost of everything, and with it the prices of threads: only where nothing that the design uses
    /// is without a price, for a sum that leaves something out would read as the price of all.
    pub cost: bool,
}

impl Prices {
    /// Whether any price is told, and with it the currency.
    #[must_use]
    pub fn any(self) -> bool {
        self.beads || self.findings || self.cost
    }
}

/// Which prices the booklet of a design tells.
#[must_use]
pub fn prices(design: &Design) -> Prices {
    let strung = letters_strung(design);
    let bead_of = |index: usize| &design.palette.beads[design.letters[index].bead.0];
    let beads: Vec<&Bead> = (0..strung.len()).filter(|&index| strung[index]).map(bead_of).collect();
    let has_price = |bead: &Bead| bead.pack.is_some_and(|pack| pack.price.is_some());
    let threads = [&design.body_thread, &design.fringe_thread];
    Prices {
        beads: beads.iter().any(|bead| has_price(bead)),
        findings: design.findings.iter().any(|finding| finding.price.is_some()),
        cost: beads.iter().all(|bead| has_price(bead))
            && threads.iter().all(|thread| thread.spool.is_some_and(|spool| spool.price.is_some()))
            && design.findings.iter().all(|finding| finding.price.is_some()),
    }
}

/// For each letter of the design, whether any bead of it is strung.
#[must_use]
pub fn letters_strung(design: &Design) -> Vec<bool> {
    let body = design.body.rows.iter().flat_map(|row| &row.stacks).flat_map(|stack| &stack.0);
    let fringe = design.fringe.strands.iter().flat_map(|strand| &strand.beads);
    let loops = design.hangings.iter().flat_map(|hanging| hanging.by.loop_beads());
    let mut strung = vec![false; design.letters.len()];
    for letter in body.chain(fringe).chain(loops) {
        strung[letter.0] = true;
    }
    strung
}
