//! Where threads fill a hole, in words: beads that say the same share one warning.

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::stitch::Spot;
use crate::tally::{Fit, FitGrade};
use minijinja::context;

/// A warning of the beads among those concerned that threads do not all go through, and one of those that they nearly
/// fill; each tells of beads that are equally full together.
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
    // What is to be done is said once of all that are alike in that.
    let grades = [
        (FitGrade::WillNotPass, Word::FitBlocked, Word::FitBlockedDo),
        (FitGrade::Tight, Word::FitTight, Word::FitTightDo),
    ];
    let told = grades.into_iter().filter_map(|(grade, fact, then)| {
        let alike = groups.iter().filter(|(fit, _)| fit.grade == grade);
        let mut told: Vec<String> = alike.map(|(fit, names)| text(book, fact, fit, names)).collect();
        if told.is_empty() {
            return None;
        }
        told.push(book.words.fixed(then));
        Some(told.join(" "))
    });
    told.collect()
}

fn same(a: &Fit, b: &Fit) -> bool {
    a.grade == b.grade && a.passes == b.passes && a.needed == b.needed && a.hole == b.hole
}

fn text(book: &Book, fact: Word, fit: &Fit, names: &[String]) -> String {
    book.words.say(
        fact,
        context! {
            where => book.where_spots(&fit.spots), bead => book.words.list(names),
            passes => fit.passes.iter().map(|(_, n)| n).sum::<usize>(), needed => fit.needed.0, hole => fit.hole.0,
        },
    )
}
