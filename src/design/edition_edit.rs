//! The next edition of a design, in its file.

use super::edit::edits;
use super::yaml::{Node, sound_tree};
use crate::diagnostic::{Place, Problem, Source};
use serde_yaml::Value;
use std::sync::Arc;

/// The key of the edition.
const KEY: &str = "edition";

/// The text of a design with `edition` as the number of its edition; all else stays, byte for byte.
///
/// # Errors
/// The text is no design, or the edition is written in a way that cannot be edited safely.
pub fn set_edition(name: &str, text: &str, edition: u32) -> Result<String, Problem> {
    let source = Arc::new(Source { name: name.to_owned(), text: text.to_owned() });
    let root = sound_tree(&source).map_err(|mut problems| match problems.is_empty() {
        true => Problem::error("this design cannot be read"),
        false => problems.swap_remove(0),
    })?;
    let number = edition.to_string();
    let after_title = || after_title(text, &root, &number);
    let edited = if root.entry(KEY).is_some() { None } else { after_title() };
    edited
        .into_iter()
        .chain(edits(text, &root, KEY, &number))
        .find(|new| changes_only_that(text, new, edition))
        .ok_or_else(|| {
            let at = root.entry(KEY).map_or(root.span.start..root.span.start, |(key, _)| key.span.clone());
            Problem::error("the edition is written in a way that cannot be edited safely")
                .at(Place::new(&source, at))
                .hint(format!("write `{KEY}: {number}` by hand"))
        })
}

/// The text with a line for the edition below that of the title, where it stands on a line of its own.
fn after_title(text: &str, root: &Node, number: &str) -> Option<String> {
    let (key, value) = root.entry("title")?;
    let line = text[..key.span.start].rfind('\n').map_or(0, |at| at + 1);
    let end = value.span.end + text.get(value.span.end..)?.find('\n')? + 1;
    let line_end = if text[..end].ends_with("\r\n") { "\r\n" } else { "\n" };
    (line == key.span.start).then(|| format!("{}{KEY}: {number}{line_end}{}", &text[..end], &text[end..]))
}

/// Whether the two texts say the same but for the edition.
fn changes_only_that(before: &str, after: &str, edition: u32) -> bool {
    let (Ok(mut before), Ok(after)) =
        (serde_yaml::from_str::<Value>(before), serde_yaml::from_str::<Value>(after))
    else {
        return false;
    };
    let Some(design) = before.as_mapping_mut() else { return false };
    design.insert(KEY.into(), edition.into());
    before == after
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_edition_is_the_only_thing_that_changes() {
        let set = |text: &str| set_edition("heron.yaml", text, 3).expect("it can be edited");
        assert_eq!(
            set("title: Heron # a bird\nedition: 2   # spring\nbody: {}\n"),
            "title: Heron # a bird\nedition: 3   # spring\nbody: {}\n"
        );
        assert_eq!(
            set("title: Heron # a bird\nbody:\n  picture: |\n    A\n"),
            "title: Heron # a bird\nedition: 3\nbody:\n  picture: |\n    A\n"
        );
        assert_eq!(
            set("# words\r\ntitle: Heron\r\npair: same\r\n"),
            "# words\r\ntitle: Heron\r\nedition: 3\r\npair: same\r\n"
        );
        assert_eq!(set("{\"title\": \"Heron\", \"edition\": 2}"), "{\"title\": \"Heron\", \"edition\": 3}");
        assert_eq!(set("{title: Heron, pair: same}\n"), "{title: Heron, pair: same, edition: 3}\n");
        assert_eq!(
            set("title:\n  en: Heron\n  de: Reiher\npair: same\n"),
            "title:\n  en: Heron\n  de: Reiher\npair: same\nedition: 3\n"
        );
    }

    #[test]
    fn what_cannot_be_edited_safely_is_left_alone() {
        let problem =
            set_edition("heron.yaml", "title: Heron\nedition: &e 2\nother: *e\n", 3).expect_err("an alias");
        assert!(problem.hint.contains("edition: 3"), "{problem:?}");
    }
}
