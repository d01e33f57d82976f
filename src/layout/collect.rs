//! Text becomes boxes that a line break may stand between.

use super::shape::Shaper;
use super::sheet::Style;
use crate::booklet::drawing::Face;
use crate::booklet::{RunStyle, Text};
use crate::units::Mm;
use unicode_linebreak::{BreakOpportunity, linebreaks};
use unicode_segmentation::UnicodeSegmentation;

/// Shortest word that is hyphenated, in letters: common practice of book setting, no source.
const SHORTEST_HYPHENATED: usize = 7;

/// Marks between parts of a text that may end a line but never begin one.
const HANGING: [char; 4] = ['·', '–', '×', '→'];

/// Fewest letters of a word that are carried over to the next line: common practice of book setting, no source.
const LEAST_CARRIED: usize = 3;

/// When words may be hyphenated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Hyphens {
    /// Where it makes better lines.
    Freely(hypher::Lang),
    /// Only words that are wider than the line.
    IfNeeded(Option<hypher::Lang>),
}

/// What follows a box.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Joint {
    /// A word space of this width; the line may end here.
    Space(Mm),
    /// Nothing; the line may end here.
    Break,
    /// A hyphen of this width if the line ends here.
    Hyphen(Mm),
    /// Nothing; the line may end here only in need.
    Squeeze,
    /// The line ends here.
    Forced,
}

/// A stretch of text that stays on one line.
#[derive(Clone, Debug)]
pub(super) struct Unit {
    /// Its parts: index of the run, and its text.
    pub parts: Vec<(usize, String)>,
    /// Its width.
    pub width: Mm,
    /// What follows it.
    pub joint: Joint,
}

/// The face of a run in a style.
pub(super) fn face_of(style: &Style, run: &RunStyle) -> Face {
    match run {
        RunStyle::Plain | RunStyle::SectionLink(_) | RunStyle::WebLink(_) => style.face,
        RunStyle::Strong => style.strong,
        RunStyle::Emphasis => style.emphasis,
    }
}

/// The boxes of a text for lines of this width.
pub(super) fn units(
    shaper: &mut Shaper,
    text: &Text,
    style: &Style,
    line: Mm,
    hyphens: Hyphens,
) -> Vec<Unit> {
    let whole = text.words();
    let mut units = Vec::new();
    let mut start = 0;
    for (end, opportunity) in linebreaks(&whole) {
        let hangs = |c: char| HANGING.contains(&c);
        if opportunity == BreakOpportunity::Allowed && whole[end..].starts_with(hangs) {
            continue;
        }
        let segment = &whole[start..end];
        let words = segment.trim_end_matches([' ', '\n', '\r', '\t', '\u{200b}']);
        let parts = parts(text, start, start + words.len());
        let last_run = run_at(text, end.saturating_sub(1));
        let forced = opportunity == BreakOpportunity::Mandatory && end < whole.len();
        let joint = if forced {
            Joint::Forced
        } else if segment.len() > words.len() && segment[words.len()..].contains([' ', '\t', '\n']) {
            let face = text.0.get(last_run).map_or(style.face, |r| face_of(style, &r.style));
            Joint::Space(shaper.width(face, " ", style.size))
        } else {
            Joint::Break
        };
        start = end;
        let width = width(shaper, text, style, &parts);
        if parts.is_empty() && !forced {
            continue;
        }
        let unit = Unit { parts, width, joint };
        split(shaper, text, style, line, hyphens, unit, &mut units);
    }
    units
}

fn width(shaper: &mut Shaper, text: &Text, style: &Style, parts: &[(usize, String)]) -> Mm {
    parts
        .iter()
        .map(|(run, words)| shaper.width(face_of(style, &text.0[*run].style), words, style.size))
        .sum()
}

/// The parts of a byte range of the whole text, by run.
fn parts(text: &Text, from: usize, to: usize) -> Vec<(usize, String)> {
    let mut parts = Vec::new();
    let mut at = 0;
    for (i, run) in text.0.iter().enumerate() {
        let (a, b) = (from.max(at), to.min(at + run.text.len()));
        if a < b {
            parts.push((i, run.text[a - at..b - at].to_owned()));
        }
        at += run.text.len();
    }
    parts
}

fn run_at(text: &Text, byte: usize) -> usize {
    let mut at = 0;
    text.0
        .iter()
        .position(|r| {
            at += r.text.len();
            byte < at
        })
        .unwrap_or(0)
}

/// Adds a box, split at syllables where that is wanted, and anywhere where nothing else helps.
fn split(
    shaper: &mut Shaper,
    text: &Text,
    style: &Style,
    line: Mm,
    hyphens: Hyphens,
    unit: Unit,
    units: &mut Vec<Unit>,
) {
    let lang = match hyphens {
        Hyphens::Freely(lang) => Some(lang),
        Hyphens::IfNeeded(lang) => lang.filter(|_| unit.width > line),
    };
    let pieces = lang.and_then(|lang| syllables(&unit, lang));
    let Some(pieces) = pieces else {
        squeeze(shaper, text, style, line, unit, units);
        return;
    };
    let last = pieces.len() - 1;
    let run = unit.parts[0].0;
    let face = face_of(style, &text.0[run].style);
    let hyphen = shaper.width(face, "-", style.size);
    for (i, piece) in pieces.into_iter().enumerate() {
        let width = shaper.width(face, &piece, style.size);
        let joint = if i == last { unit.joint } else { Joint::Hyphen(hyphen) };
        squeeze(shaper, text, style, line, Unit { parts: vec![(run, piece)], width, joint }, units);
    }
}

/// The syllables of a box that is one plain word; punctuation stays with its neighbours.
fn syllables(unit: &Unit, lang: hypher::Lang) -> Option<Vec<String>> {
    let [(_, whole)] = unit.parts.as_slice() else { return None };
    let first = whole.find(char::is_alphabetic)?;
    let end =
        whole.rfind(char::is_alphabetic).map(|i| i + whole[i..].chars().next().map_or(1, char::len_utf8))?;
    let word = &whole[first..end];
    if word.chars().count() < SHORTEST_HYPHENATED || !word.chars().all(char::is_alphabetic) {
        return None;
    }
    let mut pieces: Vec<String> = hypher::hyphenate(word, lang).map(str::to_owned).collect();
    // Two letters are too little to carry over to the next line.
    if pieces.len() > 1 && pieces.last().is_some_and(|p| p.chars().count() < LEAST_CARRIED) {
        let last = pieces.pop().unwrap_or_default();
        if let Some(before) = pieces.last_mut() {
            before.push_str(&last);
        }
    }
    if pieces.len() < 2 {
        return None;
    }
    pieces[0].insert_str(0, &whole[..first]);
    if let Some(last) = pieces.last_mut() {
        last.push_str(&whole[end..]);
    }
    Some(pieces)
}

/// Adds a box; one wider than the line is cut between characters.
fn squeeze(shaper: &mut Shaper, text: &Text, style: &Style, line: Mm, unit: Unit, units: &mut Vec<Unit>) {
    if unit.width <= line {
        units.push(unit);
        return;
    }
    let mut cut = Vec::new();
    for (run, words) in &unit.parts {
        let face = face_of(style, &text.0[*run].style);
        for character in words.graphemes(true) {
            let width = shaper.width(face, character, style.size);
            cut.push(Unit { parts: vec![(*run, character.to_owned())], width, joint: Joint::Squeeze });
        }
    }
    if let Some(last) = cut.last_mut() {
        last.joint = unit.joint;
    }
    units.extend(cut);
}
