//! What stands at the top of a YAML or JSON text, however it is written and as far as it can be read: enough
//! to tell what kind of file it is.

use crate::design::bounds::DEEPEST;
use saphyr_parser::{Event, Parser};

/// What stands at the top of a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Top {
    /// Keys with values: the keys, also those before the place where a broken text cannot be read on.
    Keys(Vec<String>),
    /// A list.
    List,
    /// Nothing that a file could be made of: nothing at all, a single word, or no YAML from its beginning.
    Nothing,
}

/// Looks at the top of a text.
#[must_use]
pub fn top_of(text: &str) -> Top {
    let mut keys = None;
    let mut depth = 0;
    // At the first level, keys and values take turns.
    let mut key_comes = true;
    for event in Parser::new_from_str(text) {
        let Ok((event, _)) = event else { break };
        match &event {
            Event::SequenceStart(..) if depth == 0 => return Top::List,
            Event::MappingStart(..) if depth == 0 => keys = Some(Vec::new()),
            Event::Scalar(key, ..) if depth == 1 && key_comes => {
                keys.get_or_insert_default().push(key.to_string());
            }
            Event::DocumentEnd => break,
            _ => {}
        }
        if depth == 1 && begins_a_node(&event) {
            key_comes = !key_comes;
        }
        match event {
            Event::SequenceStart(..) | Event::MappingStart(..) => depth += 1,
            Event::SequenceEnd | Event::MappingEnd => depth -= 1,
            _ => {}
        }
        if depth > DEEPEST {
            break;
        }
    }
    keys.map_or(Top::Nothing, Top::Keys)
}

fn begins_a_node(event: &Event<'_>) -> bool {
    matches!(event, Event::Scalar(..) | Event::SequenceStart(..) | Event::MappingStart(..) | Event::Alias(..))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn keys(keys: &[&str]) -> Top {
        Top::Keys(keys.iter().map(|key| (*key).to_owned()).collect())
    }

    #[test]
    fn keys_are_found_however_they_are_written() {
        let wanted = keys(&["title", "body", "fringe"]);
        for text in [
            "title: Heron\nbody:\n  drop: 2\nfringe: []\n",
            "  title: Heron\n  body:\n    drop: 2\n  fringe:\n  - a\n",
            "---\n'title' : Heron\n\"body\": {drop: 2, rows: [1, {a: b}]}\n? fringe\n: x\n",
            "{\"title\": \"Heron\",\n \"body\": {\"drop\": 2}, \"fringe\": [\"body: 2\"]}",
            "# title: no\n%YAML 1.2\n--- {title: &a Heron, body: *a, fringe: ~}",
        ] {
            assert_eq!(top_of(text), wanted, "{text}");
        }
    }

    #[test]
    fn a_broken_text_still_tells_the_keys_before_the_break() {
        assert_eq!(top_of("title: Heron\nbody: [1, 2\nfringe: x"), keys(&["title", "body"]));
    }

    #[test]
    fn what_has_no_keys_is_told_apart() {
        assert_eq!(top_of("- heron\n- body: 2\n"), Top::List);
        // Brackets may hold a key, so nothing is known before they close.
        let cut = "{\"title\": \"Heron\", \"body\": {\"dr";
        let (deep, deeper) = ("[".repeat(100_000), "{a: ".repeat(100_000));
        for nothing in ["", "# a note\n", "tit", "\u{0}\u{0}", "%&", cut, &deep, &deeper] {
            assert_eq!(top_of(nothing), Top::Nothing, "{:?}", nothing.get(..40));
        }
    }
}
