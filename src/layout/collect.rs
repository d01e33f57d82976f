//! Text becomes boxes that a line break may stand between.

use super::bound::{counts, named};
use super::shape::Shaper;
use super::sheet::Style;
use crate::booklet::{RunStyle, Text, TextRun};
use crate::drawn::{Face, OwnFaces};
use crate::units::{Mm, Pt};
use rustc_hash::FxHashMap;
use std::cell::RefCell;
use std::rc::Rc;
use unicode_linebreak::{BreakOpportunity, linebreaks};
use unicode_segmentation::UnicodeSegmentation;

/// Shortest word that is hyphenated, in letters: common practice of book setting, no source.
const SHORTEST_HYPHENATED: usize = 7;

/// Marks between parts of a text that may end a line but never begin one.
const HANGING: [char; 4] = ['·', '–', '×', '→'];

/// Fewest letters of a word that stay on a line, and that are carried over to the next: common practice of book setting, no source.
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
    /// A word space of this width between what belongs together; the line rather ends elsewhere.
    Tied(Mm),
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
#[derive(Clone, Copy, Debug)]
pub(super) struct Unit {
    /// Where it begins in the whole text, in bytes.
    pub from: usize,
    /// Where it ends.
    pub to: usize,
    /// Its width.
    pub width: Mm,
    /// What follows it.
    pub joint: Joint,
}

/// The face of a run in a style.
pub(super) fn face_of(style: &Style, run: &RunStyle) -> Face {
    match run {
        RunStyle::Plain
        | RunStyle::SectionLink(_)
        | RunStyle::WebLink(_)
        | RunStyle::Leads { strong: false, .. } => style.face,
        RunStyle::Strong | RunStyle::Leads { strong: true, .. } => style.strong,
        RunStyle::Emphasis => style.emphasis,
    }
}

/// A text with its words joined, as boxes are measured in it.
pub(super) struct Whole<'t> {
    /// The text.
    pub text: &'t Text,
    /// All of its words.
    pub words: String,
}

impl<'t> Whole<'t> {
    /// The words of a text.
    pub fn of(text: &'t Text) -> Whole<'t> {
        Whole { text, words: text.words() }
    }

    /// The parts of a byte range: index of the run, and its words.
    pub fn parts(&self, from: usize, to: usize) -> impl Iterator<Item = (usize, &str)> {
        let mut at = 0;
        self.text.0.iter().enumerate().filter_map(move |(index, run)| {
            let start = at;
            at += run.text.len();
            let (from, to) = (from.max(start), to.min(at));
            (from < to).then(|| (index, &self.words[from..to]))
        })
    }

    /// The run that a byte belongs to.
    fn run_at(&self, byte: usize) -> usize {
        let mut at = 0;
        let holds = |run: &TextRun| {
            at += run.text.len();
            byte < at
        };
        self.text.0.iter().position(holds).unwrap_or(0)
    }
}

/// Most texts remembered before all are forgotten, so that a long run over a catalogue stays small.
const REMEMBERED: usize = 4_000;

thread_local! {
    /// The boxes of texts set on this thread, by their words.
    static KNOWN: RefCell<FxHashMap<Box<str>, Vec<Boxed>>> = RefCell::default();
}

/// The boxes of a text of certain words, none of them too wide for its lines.
struct Boxed {
    /// Face and length of each run.
    runs: Vec<(Face, usize)>,
    size: Pt,
    /// How words are hyphenated where they freely are.
    freely: Option<hypher::Lang>,
    /// The widest of the boxes.
    widest: Mm,
    made: Rc<[Unit]>,
}

impl Boxed {
    fn made(&self) -> (Mm, Rc<[Unit]>) {
        (self.widest, Rc::clone(&self.made))
    }
}

/// What boxes are made with.
struct Boxes<'a, 't> {
    shaper: &'a mut Shaper,
    whole: &'a Whole<'t>,
    style: &'a Style,
    line: Mm,
    hyphens: Hyphens,
    made: Vec<Unit>,
}

/// The boxes of a text for lines of this width. A text is set several times, alone and against others: its boxes are
/// remembered.
pub(super) fn units(
    shaper: &mut Shaper,
    whole: &Whole,
    style: &Style,
    line: Mm,
    hyphens: Hyphens,
) -> Rc<[Unit]> {
    // What the maker's fonts lack is noted by what is shaped.
    if shaper.own != OwnFaces::NONE {
        return boxes_of(shaper, whole, style, line, hyphens).into();
    }
    // Hyphens that are only wanted in need change nothing while there is none.
    let freely = match hyphens {
        Hyphens::Freely(lang) => Some(lang),
        Hyphens::IfNeeded(_) => None,
    };
    let set = |known: &&Boxed| {
        let runs = whole.text.0.iter().map(|run| (face_of(style, &run.style), run.text.len()));
        known.size == style.size && known.freely == freely && known.runs.iter().copied().eq(runs)
    };
    let found = KNOWN.with_borrow(|all| all.get(whole.words.as_str())?.iter().find(set).map(Boxed::made));
    if let Some((widest, made)) = found {
        if widest <= line {
            return made;
        }
        return boxes_of(shaper, whole, style, line, hyphens).into();
    }
    let lacking = shaper.missing.len();
    let made: Rc<[Unit]> = boxes_of(shaper, whole, style, line, hyphens).into();
    let widest = made.iter().map(|unit| unit.width).fold(Mm::ZERO, Mm::max);
    let whole_words = made.iter().all(|unit| unit.joint != Joint::Squeeze);
    let split = freely.is_none() && made.iter().any(|unit| matches!(unit.joint, Joint::Hyphen(_)));
    if whole_words && !split && shaper.missing.len() == lacking {
        let runs = whole.text.0.iter().map(|run| (face_of(style, &run.style), run.text.len())).collect();
        let boxed = Boxed { runs, size: style.size, freely, widest, made: Rc::clone(&made) };
        KNOWN.with_borrow_mut(|all| {
            if all.len() >= REMEMBERED {
                all.clear();
            }
            all.entry(whole.words.as_str().into()).or_default().push(boxed);
        });
    }
    made
}

fn boxes_of(shaper: &mut Shaper, whole: &Whole, style: &Style, line: Mm, hyphens: Hyphens) -> Vec<Unit> {
    let mut boxes = Boxes { shaper, whole, style, line, hyphens, made: Vec::new() };
    let words = whole.words.as_str();
    let mut start = 0;
    for (end, opportunity) in linebreaks(words) {
        let hangs = |c: char| HANGING.contains(&c);
        if opportunity == BreakOpportunity::Allowed
            && (words[end..].starts_with(hangs) || counts(&words[start..end], &words[end..]))
        {
            continue;
        }
        let segment = &words[start..end];
        let kept = segment.trim_end_matches([' ', '\n', '\r', '\t', '\u{200b}']);
        let forced = opportunity == BreakOpportunity::Mandatory && end < words.len();
        let joint = if forced {
            Joint::Forced
        } else if segment.len() > kept.len() && segment[kept.len()..].contains([' ', '\t', '\n']) {
            let last_run = whole.run_at(end.saturating_sub(1));
            let space = boxes.width(last_run, " ");
            if named(segment, &words[end..]) { Joint::Tied(space) } else { Joint::Space(space) }
        } else {
            Joint::Break
        };
        let (from, to) = (start, start + kept.len());
        start = end;
        if from < to || forced {
            let width = whole.parts(from, to).map(|(run, words)| boxes.width(run, words)).sum();
            boxes.split(Unit { from, to, width, joint });
        }
    }
    boxes.made
}

impl Boxes<'_, '_> {
    /// Width of some words of a run.
    fn width(&mut self, run: usize, words: &str) -> Mm {
        let face = self.whole.text.0.get(run).map_or(self.style.face, |run| face_of(self.style, &run.style));
        self.shaper.width(face, words, self.style.size)
    }

    /// Adds a box, split at syllables where that is wanted, and anywhere where nothing else helps.
    fn split(&mut self, unit: Unit) {
        let lang = match self.hyphens {
            Hyphens::Freely(lang) => Some(lang),
            Hyphens::IfNeeded(lang) => lang.filter(|_| unit.width > self.line),
        };
        let whole = self.whole;
        let (Some(lang), Some(word)) = (lang, only(whole.parts(unit.from, unit.to))) else {
            return self.squeeze(unit);
        };
        let (run, words) = word;
        let ends = syllables(words, lang);
        if ends.len() < 2 {
            return self.squeeze(unit);
        }
        let hyphen = self.width(run, "-");
        let mut from = 0;
        for end in ends {
            let width = self.width(run, &words[from..end]);
            let joint = if end == words.len() { unit.joint } else { Joint::Hyphen(hyphen) };
            self.squeeze(Unit { from: unit.from + from, to: unit.from + end, width, joint });
            from = end;
        }
    }

    /// Adds a box; one wider than the line is cut between characters.
    fn squeeze(&mut self, unit: Unit) {
        if unit.width <= self.line {
            self.made.push(unit);
            return;
        }
        let whole = self.whole;
        let (before, mut from) = (self.made.len(), unit.from);
        for (run, words) in whole.parts(unit.from, unit.to) {
            for character in words.graphemes(true) {
                let width = self.width(run, character);
                let to = from + character.len();
                self.made.push(Unit { from, to, width, joint: Joint::Squeeze });
                from = to;
            }
        }
        if let Some(last) = self.made[before..].last_mut() {
            last.joint = unit.joint;
        }
    }
}

/// The only one of some; `None` of none or several.
fn only<T>(mut all: impl Iterator<Item = T>) -> Option<T> {
    let first = all.next()?;
    all.next().is_none().then_some(first)
}

/// Where the syllables of a box end that is one plain word; punctuation stays with its neighbours. Fewer than two
/// where it is not to be hyphenated.
fn syllables(whole: &str, lang: hypher::Lang) -> Vec<usize> {
    let Some(first) = whole.find(char::is_alphabetic) else { return Vec::new() };
    let word = whole[first..].trim_end_matches(|c: char| !c.is_alphabetic());
    if word.chars().count() < SHORTEST_HYPHENATED || !word.chars().all(char::is_alphabetic) {
        return Vec::new();
    }
    let mut end = first;
    let mut last = 0;
    let mut ends: Vec<usize> = hypher::hyphenate(word, lang)
        .map(|syllable| {
            last = syllable.chars().count();
            end += syllable.len();
            end
        })
        .collect();
    // Two letters are too little to leave on a line, or to carry over to the next.
    if ends.len() > 1 && word[..ends[0] - first].chars().count() < LEAST_CARRIED {
        ends.remove(0);
    }
    if ends.len() > 1 && last < LEAST_CARRIED {
        ends.pop();
    }
    if let Some(end) = ends.last_mut() {
        *end = whole.len();
    }
    ends
}
