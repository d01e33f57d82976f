//! Boxes become lines: the breaks of a whole paragraph are chosen together, so that its ragged edge
//! is even and hyphens are few.

use super::Glyph;
use super::collect::{Hyphens, Joint, Unit, Whole, face_of, units};
use super::shape::Shaper;
use super::sheet::Style;
use crate::booklet::Text;
use crate::drawn::Face;
use crate::units::Mm;

/// What a hyphen at a line's end costs, against the square of a line's white (a whole empty line costs 100).
const HYPHEN_COST: f64 = 12.0;
/// What a break inside a word that will not fit otherwise costs.
const SQUEEZE_COST: f64 = 400.0;
/// What a break between a word and its number costs.
const TIE_COST: f64 = 45.0;
/// What each line costs, so that no paragraph runs longer for a little more evenness.
const LINE_COST: f64 = 30.0;
/// What a last line shorter than a tenth of the measure costs.
const STUB_COST: f64 = 10.0;

/// How to break.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Breaking {
    /// When words may be hyphenated.
    pub hyphens: Hyphens,
    /// Whether the lines are to be of like length, the last one too (headings).
    pub balanced: bool,
}

/// A stretch of glyphs of one run in one face on a line.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    /// Index of its run in the text.
    pub run: usize,
    /// Its face.
    pub face: Face,
    /// Its glyphs.
    pub glyphs: Vec<Glyph>,
    /// Its width.
    pub width: Mm,
}

/// A line of text, set.
#[derive(Clone, Debug, Default)]
pub(super) struct SetLine {
    /// What stands on it, from left to right.
    pub pieces: Vec<Piece>,
    /// Its width, without the space at its end.
    pub width: Mm,
}

/// Breaks a text into lines of a width.
pub(super) fn break_text(
    shaper: &mut Shaper,
    text: &Text,
    style: &Style,
    width: Mm,
    how: Breaking,
) -> Vec<SetLine> {
    let whole = Whole::of(text);
    let boxes = units(shaper, &whole, style, width, how.hyphens);
    if boxes.is_empty() {
        return Vec::new();
    }
    breaks(&boxes, width, how.balanced)
        .into_iter()
        .map(|(from, to)| set_line(shaper, &whole, style, &boxes, from, to))
        .collect()
}

/// Widest line of a text when it is broken only where it must be.
pub(super) fn natural_width(shaper: &mut Shaper, text: &Text, style: &Style) -> Mm {
    least_and_natural(shaper, text, style).1
}

/// Widest box of a text: the narrowest that it can be set without cutting words.
pub(super) fn least_width(shaper: &mut Shaper, text: &Text, style: &Style) -> Mm {
    least_and_natural(shaper, text, style).0
}

/// Both at once: the narrowest that cuts no word, and the width at which nothing wraps.
pub(super) fn least_and_natural(shaper: &mut Shaper, text: &Text, style: &Style) -> (Mm, Mm) {
    let boxes = units(shaper, &Whole::of(text), style, Mm(f64::MAX), Hyphens::IfNeeded(None));
    let (mut least, mut natural, mut line) = (Mm::ZERO, Mm::ZERO, Mm::ZERO);
    for (i, unit) in boxes.iter().enumerate() {
        line += unit.width;
        least = least.max(unit.width);
        natural = natural.max(line);
        match unit.joint {
            Joint::Space(space) | Joint::Tied(space) if i + 1 < boxes.len() => line += space,
            Joint::Forced => line = Mm::ZERO,
            _ => {}
        }
    }
    (least, natural)
}

/// The best breaks: ranges of boxes, one a line.
fn breaks(boxes: &[Unit], width: Mm, balanced: bool) -> Vec<(usize, usize)> {
    let n = boxes.len();
    let mut best: Vec<(f64, usize)> = vec![(f64::INFINITY, 0); n + 1];
    best[0].0 = 0.0;
    for from in 0..n {
        let base = best[from].0;
        if !base.is_finite() {
            continue;
        }
        let mut line = Mm::ZERO;
        for to in from + 1..=n {
            let unit = &boxes[to - 1];
            line += unit.width;
            let last = to == n;
            let ended = line + if let (Joint::Hyphen(h), false) = (unit.joint, last) { h } else { Mm::ZERO };
            let fits = ended.0 <= width.0 + 0.01;
            if !fits && to > from + 1 && line.0 > width.0 + 0.01 {
                break;
            }
            if fits || to == from + 1 {
                let cost = base + LINE_COST + line_cost(unit.joint, ended, width, last, balanced, from > 0);
                if cost < best[to].0 {
                    best[to] = (cost, from);
                }
            }
            match unit.joint {
                Joint::Forced => break,
                Joint::Space(space) | Joint::Tied(space) => line += space,
                _ => {}
            }
        }
    }
    let mut lines = Vec::new();
    let mut to = n;
    while to > 0 {
        let from = best[to].1;
        lines.push((from, to));
        to = from;
    }
    lines.reverse();
    lines
}

fn line_cost(joint: Joint, ended: Mm, width: Mm, last: bool, balanced: bool, has_before: bool) -> f64 {
    let white = ((width - ended) / width).max(0.0);
    let ragged = 100.0 * white * white;
    match (last, balanced) {
        (true, false) if has_before && white > 0.9 => STUB_COST,
        (true, false) => 0.0,
        _ => match joint {
            Joint::Hyphen(_) => ragged + HYPHEN_COST,
            Joint::Squeeze => ragged + SQUEEZE_COST,
            Joint::Tied(_) => ragged + TIE_COST,
            Joint::Forced => 0.0,
            Joint::Space(_) | Joint::Break => ragged,
        },
    }
}

fn set_line(
    shaper: &mut Shaper,
    whole: &Whole,
    style: &Style,
    boxes: &[Unit],
    from: usize,
    to: usize,
) -> SetLine {
    let mut line = SetLine::default();
    let mut word = Word::default();
    for (i, unit) in boxes[from..to].iter().enumerate() {
        let ends = from + i + 1 == to;
        for (run, part) in whole.parts(unit.from, unit.to) {
            if word.run != run {
                put(shaper, whole.text, style, &mut line, &mut word);
                word.run = run;
            }
            word.text.push_str(part);
        }
        match unit.joint {
            Joint::Hyphen(_) if ends && to < boxes.len() => word.text.push('-'),
            Joint::Space(_) | Joint::Tied(_) | Joint::Forced if to < boxes.len() || !ends => {
                put(shaper, whole.text, style, &mut line, &mut word);
                if ends {
                    line.width = line.pieces.iter().map(|p| p.width).sum();
                }
                word.run = whole.parts(unit.from, unit.to).last().map_or(0, |(run, _)| run);
                word.text.push(' ');
                put(shaper, whole.text, style, &mut line, &mut word);
                if ends {
                    return line;
                }
            }
            _ => {}
        }
    }
    put(shaper, whole.text, style, &mut line, &mut word);
    line.width = line.pieces.iter().map(|p| p.width).sum();
    line
}

/// A word, or the part of one that belongs to one run, while a line is set.
#[derive(Default)]
struct Word {
    /// Index of its run.
    run: usize,
    /// What of it is known.
    text: String,
}

/// Puts a word at a line's end, and forgets it.
fn put(shaper: &mut Shaper, text: &Text, style: &Style, line: &mut SetLine, word: &mut Word) {
    if word.text.is_empty() {
        return;
    }
    let run = word.run;
    let Some(text_run) = text.0.get(run) else { return };
    let shaped = shaper.shape(face_of(style, &text_run.style), &word.text);
    word.text.clear();
    for stretch in &shaped.stretches {
        let width = style.size.mm() * (stretch.glyphs.iter().map(|g| g.advance).sum::<f64>() / 1000.0);
        match line.pieces.last_mut() {
            Some(p) if p.run == run && p.face == stretch.face => {
                p.glyphs.extend_from_slice(&stretch.glyphs);
                p.width += width;
            }
            _ => line.pieces.push(Piece { run, face: stretch.face, glyphs: stretch.glyphs.clone(), width }),
        }
    }
}
