use super::{Problem, Severity, harmless, is_obeyed, number_of};
use std::fmt::Write;
use unicode_width::UnicodeWidthChar;

/// Whether problems are shown with colours and bold type of a terminal; the caller decides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// Text only.
    Plain,
    /// With ANSI escape sequences (ECMA-48 SGR).
    Coloured,
}

/// Columns between tab stops, as terminals have them.
const TAB_STOP: usize = 8;
/// Longest part of a line that is shown, in columns; a longer line is cut round the place.
const WINDOW: usize = 100;
/// Columns kept before the place when a line is cut.
const KEPT_BEFORE: usize = 40;

/// One problem as the user reads it: place and message, the line with the text underlined, what to do.
#[must_use]
pub fn render(problem: &Problem, look: Look) -> String {
    let mut out = String::new();
    let paint = |text: &str, code: &str| match look {
        Look::Plain => text.to_owned(),
        Look::Coloured => format!("\x1b[{code}m{text}\x1b[0m"),
    };
    let (word, code) = match problem.severity {
        Severity::Error => ("error", "1;31"),
        Severity::Warning => ("warning", "1;33"),
        Severity::Advice => ("advice", "1;36"),
    };
    if let Some(place) = &problem.place {
        let (line, column) = place.line_column();
        let _ = write!(out, "{}: ", paint(&harmless(&format!("{}:{line}:{column}", place.source.name)), "1"));
    }
    let _ = writeln!(out, "{}: {}", paint(word, code), harmless(&problem.message));
    if let Some(place) = problem.place.as_ref().filter(|p| !p.source.text.is_empty()) {
        let (before, marked) = place.on_line();
        let shown = Shown::of(place.line(), before, marked);
        let number = place.line_column().0.to_string();
        let _ = writeln!(out, "  {number} | {}", shown.line);
        let _ = writeln!(
            out,
            "  {} | {}{}",
            " ".repeat(number.len()),
            " ".repeat(shown.indent),
            paint(&"^".repeat(shown.carets), code)
        );
    }
    if !problem.hint.is_empty() {
        let _ = writeln!(out, "  {} {}", paint("what to do:", "1"), harmless(&problem.hint));
    }
    out
}

/// All problems, an empty line between two.
#[must_use]
pub fn render_all(problems: &[Problem], look: Look) -> String {
    problems.iter().map(|p| render(p, look)).collect::<Vec<_>>().join("\n")
}

/// How many problems of each kind, as in `2 errors and 1 warning`; empty when there are none.
#[must_use]
pub fn summary(problems: &[Problem]) -> String {
    let kinds =
        [(Severity::Error, "error"), (Severity::Warning, "warning"), (Severity::Advice, "piece of advice")];
    let counts: Vec<String> = kinds
        .iter()
        .map(|(severity, word)| (problems.iter().filter(|p| p.severity == *severity).count(), word))
        .filter(|(n, _)| *n > 0)
        .map(|(n, word)| match (n, *word) {
            (2.., "piece of advice") => format!("{n} pieces of advice"),
            _ => number_of(n, word),
        })
        .collect();
    super::list(&counts)
}

/// A line as shown: tabs as spaces, control characters made visible, cut when it is long.
struct Shown {
    line: String,
    indent: usize,
    carets: usize,
}

impl Shown {
    fn of(line: &str, before: &str, marked: &str) -> Shown {
        let indent = expand(before, 0);
        let mark = expand(marked, indent.columns);
        let rest = line.get(before.len() + marked.len()..).unwrap_or("");
        let tail = expand(rest, indent.columns + mark.columns);
        let mut shown = Shown {
            line: format!("{}{}{}", indent.text, mark.text, tail.text),
            indent: indent.columns,
            carets: mark.columns.max(1),
        };
        if indent.columns + mark.columns + tail.columns > WINDOW {
            shown.cut();
        }
        shown
    }

    fn cut(&mut self) {
        let skip = self.indent.saturating_sub(KEPT_BEFORE);
        let mut column = 0;
        let mut line = String::new();
        let mut first = None;
        for c in self.line.chars() {
            if column >= skip && column < skip + WINDOW {
                first.get_or_insert(column);
                line.push(c);
            }
            column += c.width().unwrap_or(0);
        }
        let first = first.unwrap_or(0);
        let ended = column <= skip + WINDOW;
        let lead = if first > 0 { "… " } else { "" };
        self.indent = self.indent - first + lead.chars().count();
        self.carets = self.carets.min(WINDOW.saturating_sub(self.indent).max(1));
        self.line = format!("{lead}{line}{}", if ended { "" } else { " …" });
    }
}

struct Expanded {
    text: String,
    columns: usize,
}

/// The text as a terminal shows it from a column on, with its width in columns.
fn expand(text: &str, from: usize) -> Expanded {
    let mut out = Expanded { text: String::new(), columns: 0 };
    for c in text.chars() {
        match c {
            '\t' => {
                let width = TAB_STOP - (from + out.columns) % TAB_STOP;
                out.text.push_str(&" ".repeat(width));
                out.columns += width;
            }
            c if is_obeyed(c) || c == '\u{feff}' => {
                out.text.push('·');
                out.columns += 1;
            }
            c => {
                out.text.push(c);
                out.columns += c.width().unwrap_or(0);
            }
        }
    }
    out
}
