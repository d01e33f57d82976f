//! Why a booklet is no longer current, in words.

use super::other::fields;
use super::parts::{PROGRAM, is_input};
use super::value::HASHED;
use std::collections::BTreeMap;

/// What differs between the parts a booklet was made from and those it would be made from now.
pub(in crate::cli) fn reasons(before: &[(String, String)], now: &[(String, String)]) -> Vec<String> {
    let then: BTreeMap<&str, &str> = inputs(before).collect();
    let current: BTreeMap<&str, &str> = inputs(now).collect();
    let mut said: Vec<String> = inputs(now)
        .filter_map(|(name, value)| match then.get(name) {
            None => Some(format!("{name} added")),
            Some(old) if *old == value => None,
            Some(old) => Some(changed(name, old, value)),
        })
        .collect();
    said.extend(
        inputs(before)
            .filter(|(name, _)| !current.contains_key(name))
            .map(|(name, _)| format!("{name} no longer used")),
    );
    said
}

fn inputs(parts: &[(String, String)]) -> impl Iterator<Item = (&str, &str)> {
    parts.iter().map(|(name, value)| (name.as_str(), value.as_str())).filter(|(name, _)| is_input(name))
}

fn changed(name: &str, old: &str, new: &str) -> String {
    if name == PROGRAM {
        return format!("{name} {old} → {new}");
    }
    let (then, now) = (fields(old), fields(new));
    let mut said: Vec<String> = Vec::new();
    for (field, value) in &now {
        match then.get(field) {
            Some(before) if before == value => {}
            Some(before) if readable(before) && readable(value) => {
                said.push(format!("{field} {before} → {value}"));
            }
            Some(_) => said.push((*field).to_owned()),
            None if readable(value) => said.push(format!("{field} {value} added")),
            None => said.push(format!("{field} added")),
        }
    }
    said.extend(then.keys().filter(|f| !now.contains_key(*f)).map(|f| format!("{f} taken out")));
    if said.is_empty() { format!("{name} changed") } else { format!("{name}: {}", said.join(", ")) }
}

fn readable(value: &str) -> bool {
    !value.starts_with(HASHED)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts(parts: &[(&str, &str)]) -> Vec<(String, String)> {
        parts.iter().map(|(n, v)| ((*n).to_owned(), (*v).to_owned())).collect()
    }

    #[test]
    fn each_kind_of_change_has_its_words() {
        let before = parts(&[
            ("program", "0.1.0"),
            ("design", "title=Heron body=~aa"),
            ("bead ink", "colour=#1b1c20 name=~ab"),
            ("bead reed", "colour=#777777 code=QF-1"),
            ("bead mist", "colour=#eeeeee"),
            ("templates", "~11"),
            ("made pages", "12"),
        ]);
        let now = parts(&[
            ("program", "0.2.0"),
            ("design", "title=Heron body=~bb"),
            ("bead ink", "colour=#222222 name=~ab"),
            ("bead reed", "colour=#777777 price=2.5"),
            ("bead slate", "colour=#445566"),
            ("templates", "~12"),
        ]);
        assert_eq!(
            reasons(&before, &now),
            [
                "program 0.1.0 → 0.2.0",
                "design: body",
                "bead ink: colour #1b1c20 → #222222",
                "bead reed: price 2.5 added, code taken out",
                "bead slate added",
                "templates changed",
                "bead mist no longer used",
            ]
        );
    }

    #[test]
    fn nothing_changed_nothing_said() {
        let same = parts(&[("program", "0.1.0"), ("bead ink", "colour=#1b1c20")]);
        assert_eq!(reasons(&same, &same), Vec::<String>::new());
    }
}
