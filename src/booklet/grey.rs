//! Booklets without colour: every colour becomes its grey, and beads whose greys are too close to be
//! told apart carry patterns.

use super::drawing::{Drawing, Mark};
use super::{Block, Booklet, Cell, Chart, Cover, CoverPicture, Figure, LegendEntry, Table};
use crate::colour::Colour;
use crate::design::Design;
use crate::tally::Tally;

/// Lightness (CIE L*) by which two greys of a print must differ to be told apart without a pattern.
/// The design sets 8 as the CIEDE2000 difference of colours side by side; a print's greys lie apart from
/// their legend and spread by the printer's screen, so half as much again is asked for.
const TOLD_APART: f64 = 12.0;
/// How many patterns there are.
const PATTERNS: u8 = 8;

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

/// The same booklet without colour.
pub(super) fn without_colour(mut booklet: Booklet) -> Booklet {
    booklet.setting.accent = grey(booklet.setting.accent);
    for section in &mut booklet.sections {
        section.blocks.iter_mut().for_each(block);
    }
    booklet
}

fn grey(colour: Colour) -> Colour {
    colour.grey()
}

fn block(b: &mut Block) {
    match b {
        Block::Cover(cover) => self::cover(cover),
        Block::Table(table) => self::table(table),
        Block::Figure(f) => figure(f),
        Block::Figures(all) => all.iter_mut().for_each(figure),
        Block::Chart(c) => chart(c),
        Block::Legend(entries) => entries.iter_mut().for_each(entry),
        Block::Step(step) => {
            step.blocks.iter_mut().for_each(block);
            step.figures.iter_mut().for_each(figure);
        }
        Block::Callout { blocks, .. } | Block::Together(blocks) => blocks.iter_mut().for_each(block),
        Block::Heading { .. }
        | Block::Paragraph { .. }
        | Block::List { .. }
        | Block::Contents
        | Block::NewPage
        | Block::Space(_) => {}
    }
}

fn cover(cover: &mut Cover) {
    match &mut cover.picture {
        CoverPicture::Drawn(d) => drawing(d),
        // A photo stays as it is: a printer makes its greys.
        CoverPicture::Photo(_) => {}
    }
}

fn table(table: &mut Table) {
    for cell in table.rows.iter_mut().flat_map(|r| &mut r.cells) {
        match cell {
            Cell::Swatch(swatch) => swatch.colour = grey(swatch.colour),
            Cell::Text(_) | Cell::Tick(_) | Cell::Parts(_) | Cell::Empty => {}
        }
    }
}

fn figure(f: &mut Figure) {
    drawing(&mut f.drawing);
}

fn drawing(d: &mut Drawing) {
    for mark in &mut d.marks {
        match mark {
            Mark::Bead(bead) => bead.colour = grey(bead.colour),
            Mark::Path(path) => {
                path.fill = path.fill.map(grey);
                if let Some(stroke) = &mut path.stroke {
                    stroke.colour = grey(stroke.colour);
                }
            }
            Mark::Label(label) => {
                label.colour = grey(label.colour);
                label.halo = label.halo.map(grey);
            }
        }
    }
}

fn chart(c: &mut Chart) {
    for bead in &mut c.beads {
        bead.colour = grey(bead.colour);
    }
    c.legend.iter_mut().for_each(entry);
}

fn entry(e: &mut LegendEntry) {
    e.swatch.colour = grey(e.swatch.colour);
}
