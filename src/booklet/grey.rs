//! Booklets without colour: beads whose greys are too close to be told apart carry patterns. The greys
//! themselves are printed by layout.

use crate::design::Design;
use crate::drawn::PATTERNS;
use crate::tally::Tally;

/// Lightness (CIE L*) by which two greys of a print must differ to be told apart without a pattern.
/// The design sets 8 as the CIEDE2000 difference of colours side by side; a print's greys lie apart from
/// their legend and spread by the printer's screen, so half as much again is asked for.
const TOLD_APART: f64 = 12.0;

/// A pattern for each letter, `None` where its grey stands alone. Letters in the order of the design.
pub(super) fn patterns(design: &Design, tally: &Tally) -> Vec<Option<u8>> {
    let used: Vec<(usize, f64)> = tally
        .beads
        .iter()
        .filter(|b| b.one > 0)
        .map(|b| (b.letter.0, design.palette.beads[b.bead.0].colour.lab().l))
        .collect();
    let mut patterns = vec![None; design.letters.len()];
    let mut next = 0;
    for (i, &(letter, lightness)) in used.iter().enumerate() {
        // Of a group of like greys the first stays plain, the others get a pattern each.
        let like_one_before = used[..i].iter().any(|&(_, l)| (l - lightness).abs() < TOLD_APART);
        if like_one_before {
            patterns[letter] = Some(next % PATTERNS);
            next += 1;
        }
    }
    patterns
}
