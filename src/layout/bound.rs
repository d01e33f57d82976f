//! What a line break does not part: numbers and the words that they belong to.

/// Longest word that stays on the line of a number beside it, in letters: longer ones are rather hyphenated.
const LONGEST_BOUND: usize = 10;

/// Longest number that stays on the line of its word, in characters: `17`, `4–5`, `viii`.
const LONGEST_NUMBER: usize = 5;

/// Whether a stretch of text ends in a number that counts or measures what comes next: `3 years`, `0.71 in`. They are not
/// parted (common practice of book setting, no source).
pub(super) fn counts(before: &str, after: &str) -> bool {
    let is_number = |word: &str| {
        word.starts_with(|c: char| c.is_ascii_digit())
            && word.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '\u{a0}' | '\u{202f}'))
            && word.ends_with(|c: char| c.is_ascii_digit())
    };
    let Some(last) = last_word(before) else { return false };
    let next = next_word(after);
    is_number(last.trim_start_matches('('))
        && next.starts_with(char::is_alphabetic)
        && next.chars().count() <= LONGEST_BOUND
}

/// Whether a stretch of text ends in a word that the number or mark after it tells apart: `row 2`, `mark iv`, `stacks 4 and
/// 5`; or in a measure that is told again in brackets: `78 mm (3.08 in)`. They are parted only where the lines would be
/// much worse (common practice of book setting, no source).
pub(super) fn named(before: &str, after: &str) -> bool {
    let Some(last) = last_word(before) else { return false };
    let begins_with_digit = |word: &str| word.starts_with(|c: char| c.is_ascii_digit());
    if begins_with_digit(last) && last.ends_with(char::is_alphabetic) && after.starts_with('(') {
        return begins_with_digit(&after[1..]);
    }
    let word = last.trim_start_matches(['(', '\u{201c}', '\u{201e}', '«']);
    let number = next_word(after).trim_start_matches('(').trim_end_matches(|c: char| !c.is_alphanumeric());
    let tens = |c: char| matches!(c, 'x' | 'l' | 'c');
    let is_mark = |mark: &str| mark.trim_start_matches(tens).chars().all(|c| matches!(c, 'i' | 'v' | 'x'));
    let is_number = |number: &str| {
        begins_with_digit(number) && number.chars().all(|c| c.is_ascii_digit() || matches!(c, '–' | '/'))
    };
    !word.is_empty()
        && word.chars().all(char::is_alphabetic)
        && word.chars().count() <= LONGEST_BOUND
        && (1..=LONGEST_NUMBER).contains(&number.chars().count())
        && (is_number(number) || is_mark(number))
}

/// The last word of a stretch of text that ends in a word space.
fn last_word(before: &str) -> Option<&str> {
    before.strip_suffix(' ').and_then(|before| before.rsplit(' ').next())
}

/// The first word of a stretch of text.
fn next_word(after: &str) -> &str {
    after.split(' ').next().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::{counts, named};

    #[test]
    fn a_number_stays_with_what_it_counts() {
        for (before, after) in [
            ("under 3 ", "years and"),
            ("(0.71 ", "in) wide"),
            ("1,5 ", "mm."),
            ("etwa 7 ", "Stunden"),
            ("10\u{202f}000 ", "perles"),
        ] {
            assert!(counts(before, after), "{before}{after}");
        }
        for (before, after) in [
            ("The end of row 2. ", "Pick up"),
            ("step ", "3 shows"),
            ("1 ", "· 2"),
            ("die 12 ", "Fadenbrückenreihen"),
            ("QF-010 ", "is"),
            ("3-", "drop"),
        ] {
            assert!(!counts(before, after), "{before}{after}");
        }
    }

    #[test]
    fn a_number_stays_with_the_word_that_it_tells_apart() {
        for (before, after) in [
            ("at the end of row ", "2, go"),
            ("stacks 4 and ", "5 of"),
            ("see mark ", "iv."),
            ("(mark ", "xliii)"),
            ("(Strang ", "1 aufnehmen"),
            ("le brin ", "1\u{a0}: monter"),
            ("rows ", "9–14 below"),
            ("wide, 78\u{a0}mm ", "(3.08\u{a0}in) long"),
        ] {
            assert!(named(before, after), "{before}{after}");
        }
        for (before, after) in [
            ("the end. ", "2 of them"),
            ("row 2 ", "3 beads"),
            ("about ", "1,250 beads"),
            ("row ", "below"),
            ("dit ", "il faut"),
            ("Fadenbrückenreihe ", "2"),
            ("row", "2"),
        ] {
            assert!(!named(before, after), "{before}{after}");
        }
    }
}
