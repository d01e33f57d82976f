//! Advice: what a maker should look at before selling a design, though nothing in it is wrong.
//!
//! One file a subject: [`shape`] (weight, top row, strands), [`colours`], [`bought`] (letters and packs),
//! [`passes`] (threads in holes), [`anchors`]. [`naming`] says things the same way in all of them, [`gathered`] keeps many of one kind together.

mod anchors;
mod bought;
mod colours;
mod gathered;
mod naming;
mod passes;
mod shape;

use super::Tally;
use crate::design::Design;
use crate::diagnostic::Problem;
use crate::stitch::Work;

/// Everything worth telling the maker of a design, the heaviest first: what cannot be sewn, then how
/// the earring hangs, then what can be seen, then what is bought.
#[must_use]
pub fn advise(design: &Design, work: &Work, tally: &Tally) -> Vec<Problem> {
    let mut advice = passes::advise(design, work, tally);
    advice.extend(shape::advise(design, work, tally));
    advice.extend(anchors::advise(design, work));
    advice.extend(colours::advise(design, tally));
    advice.extend(bought::advise(design, tally));
    advice
}
