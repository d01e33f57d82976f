//! The beads of a chart and their letters.

use super::part::View;
use crate::booklet::ChartBead;
use crate::colour::{Colour, ink_on};
use crate::drawn::{BeadLook, FADED, Face};
use crate::layout::faces::cap_height;
use crate::layout::fragment::Fragment;
use crate::layout::legend::{letter_drop, letter_ground};
use crate::layout::setter::Setter;
use crate::layout::tree::within;
use crate::layout::{Bead, Glyph, Glyphs, Item, Layer, Paint};
use crate::units::{Mm, Point};
use std::collections::BTreeMap;

/// Letters on one baseline in one colour: place of the line in micrometres, and the ink.
type LetterLine = (i64, Colour);

impl Setter<'_> {
    /// Paints the beads of a view. Each bead is painted flat once in the whole chart; where parts overlap it is
    /// faded the second time, so that flat beads can be counted.
    pub(super) fn chart_beads(
        &mut self,
        shown: &[(usize, &ChartBead)],
        view: &View,
        counted: &mut [bool],
        piece: &mut Fragment,
    ) {
        let mut letters: BTreeMap<LetterLine, Vec<(Mm, char)>> = BTreeMap::new();
        let mut grounds = Vec::new();
        piece.items.reserve(shown.len());
        let rings = view.letter.map(|size| self.rings(shown, view, size));
        for &(index, bead) in shown {
            let again = std::mem::replace(&mut counted[index], true);
            let faded = bead.faded || again;
            let printed = self.chart_colour(bead.colour);
            let colour = if faded { printed.mix(Colour::WHITE, FADED) } else { printed };
            let centre = view.centre(bead);
            let painted = Bead {
                centre,
                width: bead.width * view.scale,
                length: bead.length * view.scale,
                shape: bead.shape,
                colour,
                turned: bead.turned,
                look: if faded { BeadLook::Faded } else { BeadLook::Flat },
                pattern: bead.pattern.filter(|_| !faded),
            };
            if let (Some(size), Some(rings)) = (view.letter, &rings) {
                let at = rings.letter(bead, centre, view.scale);
                let drop = letter_drop(bead.shape, bead.length * view.scale);
                let turn = bead.turned.to_radians().cos();
                let baseline = at.y + drop * turn + cap_height(Face::Letters, size) / 2.0;
                if painted.pattern.is_some() {
                    let under = Point { x: at.x, y: at.y + drop * turn };
                    grounds.push(letter_ground(&painted, under));
                }
                let line = ((baseline.0 * 1000.0).round() as i64, ink_on(colour));
                letters.entry(line).or_default().push((at.x, bead.letter));
            }
            let item = Item { standing: within(view.node), layer: None, paint: Paint::Bead(painted) };
            piece.items.push(item);
        }
        piece.items.append(&mut grounds);
        if let Some(size) = view.letter {
            for (place, line) in letters {
                self.letter_line(place, line, size, view, piece);
            }
        }
    }

    /// Letters of one colour on one baseline as one run, each glyph's advance reaching to the next bead.
    fn letter_line(
        &mut self,
        (y, colour): LetterLine,
        mut line: Vec<(Mm, char)>,
        size: crate::units::Pt,
        view: &View,
        piece: &mut Fragment,
    ) {
        let y = Mm(y as f64 / 1000.0);
        line.sort_by(|a, b| a.0.0.total_cmp(&b.0.0));
        let mut run: Option<(Face, Mm, Vec<Glyph>)> = None;
        let mut end = Mm::ZERO;
        let mut runs = Vec::new();
        for (x, letter) in line {
            let shaped = self.shaper.shape(Face::Letters, &letter.to_string());
            let Some(stretch) = shaped.stretches.first() else { continue };
            let start = x - shaped.width(size) / 2.0;
            match &mut run {
                Some((face, _, glyphs)) if *face == stretch.face => {
                    if let Some(last) = glyphs.last_mut() {
                        let more = (start - end) / size.mm() * 1000.0;
                        last.advance = round(last.advance + more);
                    }
                    glyphs.extend_from_slice(&stretch.glyphs);
                }
                _ => {
                    runs.extend(run.take());
                    run = Some((stretch.face, start, stretch.glyphs.clone()));
                }
            }
            // Where the rounded advances put the pen, so that rounding does not add up along a line.
            if let Some((_, first, glyphs)) = &run {
                end = *first + size.mm() * (glyphs.iter().map(|g| g.advance).sum::<f64>() / 1000.0);
            }
        }
        runs.extend(run);
        for (face, x, glyphs) in runs {
            let paint = Paint::Glyphs(Glyphs { face, size, colour, at: Point { x, y }, glyphs, halo: None });
            piece.items.push(Item { standing: within(view.node), layer: Some(Layer::Letters), paint });
        }
    }
}

fn round(thousandths: f64) -> f64 {
    (thousandths * 10.0).round() / 10.0
}
