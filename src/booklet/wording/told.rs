//! What is said of what is wrong in the code of a text.

use super::code::{self, DEEPEST, FILTERS, LONGEST_CODE, LONGEST_TEXT, STATEMENTS, Wrong};
use crate::diagnostic::{did_you_mean, either, list, shown, thousands};

/// What is wrong, and what to do; the text may ask for these values.
pub(super) fn told(wrong: &Wrong, values: &[&str]) -> (String, String) {
    let values_here = |word: &str| match values {
        [] | [_] => values_told(values),
        _ => did_you_mean(word, values, "its values are"),
    };
    match wrong {
        Wrong::TooLong => (
            format!("this text is longer than {} bytes", thousands(LONGEST_TEXT)),
            "shorten it: no text of a booklet takes more than a paragraph".to_owned(),
        ),
        Wrong::CodeTooLong => (
            format!("this code has more than {LONGEST_CODE} words and signs"),
            "shorten it; no text needs more than a few".to_owned(),
        ),
        Wrong::TooDeep => (
            format!("statements stand in one another more than {DEEPEST} deep"),
            "take some of them out; no text needs more than two".to_owned(),
        ),
        Wrong::Brace(Some(name)) if values.contains(&name.as_str()) => {
            ("a value stands in two braces, not in one".to_owned(), format!("write `{{{{ {name} }}}}`"))
        }
        Wrong::Brace(Some(name)) if values.is_empty() => (
            "a value stands in two braces, not in one".to_owned(),
            format!("this text has no values; write `{name}` without braces"),
        ),
        Wrong::Brace(Some(name)) => {
            ("a value stands in two braces, not in one".to_owned(), values_here(name))
        }
        Wrong::Brace(None) => (
            "a brace stands here by itself".to_owned(),
            "values are written in two braces, as in `{{ name }}`; a brace to be printed as `{{ '{' }}`"
                .to_owned(),
        ),
        Wrong::Open(close) => {
            ("the code that begins here is not closed".to_owned(), format!("add the `{close}`"))
        }
        Wrong::OpenQuote => (
            "the quote that begins here is not closed".to_owned(),
            "add the quote that belongs to it".to_owned(),
        ),
        Wrong::Sign('“' | '”' | '„' | '‘' | '’' | '«' | '»') => {
            ("code takes straight quotes only".to_owned(), "write ' or \" here".to_owned())
        }
        Wrong::Sign(sign) => (
            format!("`{}` cannot stand in code", shown(&sign.to_string())),
            "code is values, filters, `if` and `for`, as in `{{ beads|num }}`".to_owned(),
        ),
        Wrong::Blank => (
            "a no-break space or the like cannot stand in code".to_owned(),
            "write an ordinary blank here".to_owned(),
        ),
        Wrong::Backslash => {
            ("a backslash cannot stand in code".to_owned(), "write the character itself".to_owned())
        }
        Wrong::Statement(word) if word.is_empty() => (
            "no statement stands here".to_owned(),
            format!("write {}; a value stands in two braces", either(&quoted(&STATEMENTS))),
        ),
        Wrong::Statement(word) => (
            format!("`{}` is no statement of a text", shown(word)),
            did_you_mean(word, &STATEMENTS, "the statements are"),
        ),
        Wrong::NotBegun(word) => (
            format!("nothing has begun that `{word}` could belong to"),
            "an `if` or `for` stands before it, and each has its own end".to_owned(),
        ),
        Wrong::EndsOther(word, end) => {
            (format!("`{word}` does not end what has begun last"), format!("write `{{% {end} %}}` first"))
        }
        Wrong::NotEnded(end) => {
            ("the statement that begins here is not ended".to_owned(), format!("add `{{% {end} %}}`"))
        }
        Wrong::Filter(word) => {
            (format!("`{}` is no filter", shown(word)), did_you_mean(word, &FILTERS, "the filters are"))
        }
        Wrong::Call(word) => (
            format!("`{}` cannot be called in a text", shown(word)),
            "texts have values and filters, as in `{{ beads|num }}`, and no functions".to_owned(),
        ),
        Wrong::Is => (
            "`is` has no meaning in a text".to_owned(),
            "a value that may be missing is asked for as in `{% if date %}`".to_owned(),
        ),
        Wrong::Value(word) => (format!("this text has no value `{}`", shown(word)), values_here(word)),
        Wrong::Late(word) => (
            format!("`{word}` is known only when the pages are set"),
            format!("write it by itself, as in `{{{{ {word} }}}}`"),
        ),
    }
}

/// What is wrong in the code of a text, in the order of the text, each with its place there.
pub(super) fn faults_told(
    name: &str,
    text: &str,
    values: &[&str],
) -> Vec<(std::ops::Range<usize>, (String, String))> {
    code::faults(name, text, values).into_iter().map(|f| (f.at, told(&f.wrong, values))).collect()
}

/// The values that a text has.
pub(super) fn values_told(values: &[&str]) -> String {
    match values {
        [] => "write the words themselves: it has no values".to_owned(),
        [only] => format!("its only value is `{only}`"),
        _ => format!("its values are {}", list(&quoted(values))),
    }
}

fn quoted(words: &[&str]) -> Vec<String> {
    words.iter().map(|w| format!("`{w}`")).collect()
}
