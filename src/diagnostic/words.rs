use super::harmless;
use std::collections::BTreeSet;

/// How far a word may be from a known one to be suggested: the normalised Damerau–Levenshtein
/// similarity must be at least this (our choice: one slip in a word of three letters, two in six).
const NEAR_ENOUGH: f64 = 0.6;
/// Longest text repeated inside a message, in characters.
const LONGEST_SHOWN: usize = 40;

/// A count with its noun: `1 stack`, `3 stacks`.
#[must_use]
pub fn number_of(count: usize, noun: &str) -> String {
    if count == 1 {
        return format!("1 {noun}");
    }
    let plural = match noun.strip_suffix('y') {
        Some(stem) if !stem.ends_with(['a', 'e', 'o', 'u']) => format!("{stem}ies"),
        _ => format!("{noun}s"),
    };
    format!("{count} {plural}")
}

/// A whole number with its thousands set apart: `2,000`.
#[must_use]
pub fn thousands(number: usize) -> String {
    let digits = number.to_string();
    let groups: Vec<&str> =
        digits.as_bytes().rchunks(3).rev().filter_map(|g| std::str::from_utf8(g).ok()).collect();
    groups.join(",")
}

/// A list in a sentence: `a`, `a and b`, `a, b and c`.
#[must_use]
pub fn list<S: AsRef<str>>(items: &[S]) -> String {
    joined(items, "and")
}

/// A choice in a sentence: `a`, `a or b`, `a, b or c`.
#[must_use]
pub fn either<S: AsRef<str>>(items: &[S]) -> String {
    joined(items, "or")
}

fn joined<S: AsRef<str>>(items: &[S], word: &str) -> String {
    match items {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [first @ .., last] => {
            let first: Vec<&str> = first.iter().map(AsRef::as_ref).collect();
            format!("{} {word} {}", first.join(", "), last.as_ref())
        }
    }
}

/// Whole numbers in ascending order, neighbours drawn together: `1–3`, `7`.
#[must_use]
pub fn ranges(numbers: &BTreeSet<usize>) -> Vec<String> {
    let numbers: Vec<usize> = numbers.iter().copied().collect();
    numbers
        .chunk_by(|a, b| a + 1 == *b)
        .map(|run| match run {
            [first, .., last] => format!("{first}–{last}"),
            one => one.iter().map(usize::to_string).collect(),
        })
        .collect()
}

/// The known word nearest to one that is not known, if any is near.
#[must_use]
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    /// A longer text is no slip of a word, and comparing takes the product of both lengths.
    const LONGEST_WORD: usize = 100;
    if word.len() > LONGEST_WORD {
        return None;
    }
    let word = word.to_lowercase();
    let mut best: Option<(f64, &str)> = None;
    for candidate in known.into_iter().filter(|known| known.len() <= LONGEST_WORD) {
        let near = strsim::normalized_damerau_levenshtein(&word, &candidate.to_lowercase());
        if near >= NEAR_ENOUGH && best.is_none_or(|(so_far, _)| near > so_far) {
            best = Some((near, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

/// A hint that names the nearest known word, or else all of them (under a heading such as `the keys here are`).
#[must_use]
pub fn did_you_mean(word: &str, known: &[&str], heading: &str) -> String {
    /// More would bury the answer.
    const LONGEST_LIST: usize = 24;
    let quoted = |names: &[&str]| names.iter().map(|n| format!("`{}`", shown(n))).collect::<Vec<_>>();
    match nearest(word, known.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None if known.is_empty() => String::new(),
        None if known.len() > LONGEST_LIST => {
            format!(
                "{heading} {}, and {} more",
                quoted(&known[..LONGEST_LIST]).join(", "),
                known.len() - LONGEST_LIST
            )
        }
        None => format!("{heading} {}", list(&quoted(known))),
    }
}

/// A text from a file as it may be repeated inside a message: on one line, and not too long.
#[must_use]
pub fn shown(text: &str) -> String {
    let short: String =
        text.chars().map(|c| if c.is_control() { '·' } else { c }).take(LONGEST_SHOWN).collect();
    let end = if text.chars().nth(LONGEST_SHOWN).is_some() { "…" } else { "" };
    format!("{}{end}", harmless(&short))
}
