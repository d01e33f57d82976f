//! Where threads fill a hole, in words: beads that say the same share one warning.

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::stitch::Spot;
use crate::tally::{Fit, FitGrade};
use minijinja::context;

/// A warning for each group of beads among those concerned that are equally full, worst first.
pub(super) fn warnings(book: &Book, concerns: impl Fn(&Spot) -> bool) -> Vec<String> {
    let mut groups: Vec<(Fit, Vec<String>)> = Vec::new();
    for fit in book.tally.fit.iter().filter(|f| f.grade != FitGrade::Fits) {
        let spots: Vec<Spot> = fit.spots.iter().copied().filter(&concerns).collect();
        if spots.is_empty() {
            continue;
        }
        let name = book.words.own(&book.design.palette.beads[fit.bead.0].name);
        match groups.iter_mut().find(|(group, _)| same(group, fit)) {
            Some((group, names)) => {
                group.spots.extend(spots);
                names.push(name);
            }
            None => groups.push((Fit { spots, ..fit.clone() }, vec![name])),
        }
    }
    groups.iter().map(|(fit, names)| text(book, fit, names)).collect()
}

fn same(a: &Fit, b: &Fit) -> bool {
    a.grade == b.grade && a.passes == b.passes && a.needed == b.needed && a.hole == b.hole
}

fn text(book: &Book, fit: &Fit, names: &[String]) -> String {
    let word = match fit.grade {
        FitGrade::WillNotPass => Word::FitBlocked,
        FitGrade::Tight | FitGrade::Fits => Word::FitTight,
    };
    book.words.say(
        word,
        context! {
            where => book.where_spots(&fit.spots), bead => book.words.list(names),
            passes => fit.passes.iter().map(|(_, n)| n).sum::<usize>(), needed => fit.needed.0, hole => fit.hole.0,
        },
    )
}
