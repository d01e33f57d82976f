//! The built-in templates as files to start from.

use super::{LANGUAGES, Word};
use crate::design::quoted;
use std::fmt::Write;

/// What stands over the texts.
const WORDS_HEAD: &str = "# Everything a booklet says. Change what you like and delete all the rest: what is not here stays as it is built in.
# `{{ … }}` is filled in with the design’s own numbers; `**strong**` and `_emphasised_` words are set so.
# Filters: num, dec(places), mm, length, cut, grams, money, percent, plural(one, many).
";
/// What stands over the settings of a language.
const LANGUAGE_HEAD: &str =
    "# How numbers and dates are written, and the order of the sections. Delete what you do not change.
";
/// What stands over the order of sections.
const ORDER_HEAD: &str =
    "# A section of your own is a Markdown file beside this one, named where it is to stand, as in
# `order: [cover, welcome.md, glance]`. It begins with its title, as in `# Welcome`.
";

/// A file to start from: its name, and what it holds.
pub type StartFile = (&'static str, String);

/// The `words.yaml` and `language.yaml` of a built-in language; `None` where there is none of that name.
#[must_use]
pub fn start_files(language: &str) -> Option<[StartFile; 2]> {
    let built_in = LANGUAGES.iter().find(|l| l.folder == language)?;
    let mut words = WORDS_HEAD.to_owned();
    let mut group = "";
    for (word, text) in Word::all().iter().zip(built_in.texts) {
        let (of, key) = word.name().split_once('.').unwrap_or(("", word.name()));
        // Writing to a string cannot fail.
        if of != group {
            let _ = write!(words, "\n{of}:\n");
            group = of;
        }
        let _ = writeln!(words, "  {key}: {}", quoted(text));
    }
    let said = &built_in.language;
    let months: Vec<String> = said.months.iter().map(|month| quoted(month)).collect();
    let order: Vec<&str> = said.order.iter().map(|section| section.name()).collect();
    let mut settings = LANGUAGE_HEAD.to_owned();
    for (key, text) in [
        ("tag", &said.tag),
        ("name", &said.name),
        ("decimal", &said.decimal),
        ("thousands", &said.thousands),
        ("before_percent", &said.before_percent),
        ("date", &said.date),
    ] {
        let _ = writeln!(settings, "{key}: {}", quoted(text));
    }
    let singular = if said.zero_is_singular { "yes" } else { "no" };
    let _ = writeln!(settings, "zero_is_singular: {singular}");
    let _ = writeln!(settings, "months: [{}]", months.join(", "));
    let _ = writeln!(settings, "{ORDER_HEAD}order: [{}]", order.join(", "));
    Some([("words.yaml", words), ("language.yaml", settings)])
}
