//! The little markup of the templates: `**strong**`, `_emphasis_`, `[words](#section)`.

use super::{Place, RunStyle, Text, TextRun};

/// Parses marked text; a mark without its partner stands as it is.
pub(in crate::booklet) fn parse(text: &str) -> Text {
    let mut runs = Vec::new();
    let mut plain = String::new();
    let mut rest = text;
    let mut before: Option<char> = None;
    while let Some(first) = rest.chars().next() {
        if let Some((style, words, len)) = marked_run(rest, before) {
            flush(&mut plain, &mut runs);
            match style {
                RunStyle::Strong if words.contains("](@") => runs.extend(strong(&words)),
                _ => runs.push(TextRun { text: words, style }),
            }
            rest = &rest[len..];
            before = Some(' ');
        } else {
            plain.push(first);
            rest = &rest[first.len_utf8()..];
            before = Some(first);
        }
    }
    flush(&mut plain, &mut runs);
    Text(runs)
}

/// Strong words with marks of the chart among them.
fn strong(words: &str) -> impl Iterator<Item = TextRun> {
    parse(words).0.into_iter().map(|run| {
        let style = match run.style {
            RunStyle::Plain => RunStyle::Strong,
            RunStyle::Leads { to, here, .. } => RunStyle::Leads { to, here, strong: true },
            other => other,
        };
        TextRun { style, ..run }
    })
}

/// Whether a text holds a link without words: there is nothing to press, and nothing to read aloud.
pub(in crate::booklet) fn has_silent_link(text: &str) -> bool {
    let is_link = |run: &TextRun| matches!(run.style, RunStyle::SectionLink(_) | RunStyle::WebLink(_));
    text.contains("](") && parse(text).0.iter().any(|run| is_link(run) && run.text.trim().is_empty())
}

/// Whether a text has no words but its marks, and characters that are not seen: blanks, soft hyphens, joiners.
pub(in crate::booklet) fn says_nothing(text: &str) -> bool {
    let unseen = |c: char| {
        c.is_whitespace() || matches!(c, '\u{ad}' | '\u{200b}'..='\u{200d}' | '\u{2060}' | '\u{feff}')
    };
    let may_be = |c: char| unseen(c) || matches!(c, '*' | '_' | '[');
    text.chars().next().is_none_or(may_be) && parse(text).0.iter().all(|run| run.text.chars().all(unseen))
}

fn flush(plain: &mut String, runs: &mut Vec<TextRun>) {
    if !plain.is_empty() {
        runs.push(TextRun { text: std::mem::take(plain), style: RunStyle::Plain });
    }
}

/// A marked run at the start of `rest`: its style, its words, and how many bytes it takes.
fn marked_run(rest: &str, before: Option<char>) -> Option<(RunStyle, String, usize)> {
    if let Some(inner) = rest.strip_prefix("**") {
        let end = inner.find("**").filter(|&e| e > 0)?;
        return Some((RunStyle::Strong, inner[..end].to_owned(), end + 4));
    }
    if let Some(inner) = rest.strip_prefix('_') {
        if before.is_some_and(char::is_alphanumeric) {
            return None;
        }
        let end = inner.find('_').filter(|&e| e > 0)?;
        if inner[end + 1..].chars().next().is_some_and(char::is_alphanumeric) {
            return None;
        }
        return Some((RunStyle::Emphasis, inner[..end].to_owned(), end + 2));
    }
    if let Some(inner) = rest.strip_prefix('[') {
        let close = inner.find("](")?;
        let end = inner[close..].find(')')? + close;
        let target = &inner[close + 2..end];
        let style = match target.strip_prefix('#') {
            Some(section) => RunStyle::SectionLink(section.to_owned()),
            None if target.starts_with("https://") => RunStyle::WebLink(target.to_owned()),
            None => RunStyle::Leads { to: Place::mark_named(target)?, here: None, strong: false },
        };
        return Some((style, inner[..close].to_owned(), end + 2));
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn strong_emphasis_and_links_are_found_and_lone_marks_stay() {
        let text = parse("Pick up **2 A**, _gently_; see [the chart](#chart). 2*3 a_b");
        let styles: Vec<_> = text.0.iter().map(|r| (r.text.as_str(), &r.style)).collect();
        assert_eq!(
            styles,
            [
                ("Pick up ", &RunStyle::Plain),
                ("2 A", &RunStyle::Strong),
                (", ", &RunStyle::Plain),
                ("gently", &RunStyle::Emphasis),
                ("; see ", &RunStyle::Plain),
                ("the chart", &RunStyle::SectionLink("chart".into())),
                (". 2*3 a_b", &RunStyle::Plain),
            ]
        );
    }

    #[test]
    fn marks_of_the_chart_are_found_within_strong_words() {
        let mark = Place { earring: 2, what: crate::booklet::Placed::ChartMark(3) };
        let leads = |strong| RunStyle::Leads { to: mark, here: None, strong };
        let text = parse("at **[iv](@2.3)** and [iv](@2.3), [no](@2) mark");
        let styles: Vec<_> = text.0.iter().map(|r| (r.text.as_str(), &r.style)).collect();
        assert_eq!(
            styles,
            [
                ("at ", &RunStyle::Plain),
                ("iv", &leads(true)),
                (" and ", &RunStyle::Plain),
                ("iv", &leads(false)),
                (", [no](@2) mark", &RunStyle::Plain),
            ]
        );
    }
}
