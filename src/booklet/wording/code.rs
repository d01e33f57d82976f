//! The code in a text, `{{ … }}` and `{% … %}`: what it asks for, and what is wrong in it.
//!
//! Read before minijinja reads it, so that a slip is told where it stands and with what is known there, and
//! so that nothing reaches minijinja that is longer or deeper than its parser's stack bears. The build
//! script reads the built-in languages with this same file, so it names nothing else of the crate.

use std::ops::Range;

/// Longest text, in bytes (the longest built-in one takes 700).
pub(super) const LONGEST_TEXT: usize = 4_000;
/// Most words and signs of one piece of code (the longest built-in one takes 12).
pub(super) const LONGEST_CODE: usize = 100;
/// Deepest nesting of statements (built-in texts need 2); an `elif` counts as one within its `if`.
pub(super) const DEEPEST: usize = 10;

/// Values that are known only when the pages are set: layout puts them in.
pub(super) const LATE: [(&str, &[&str]); 6] = [
    ("page.page_of", &["page", "pages"]),
    ("page.chart_part", &["part", "parts"]),
    ("page.chart_part_pale", &["part", "parts"]),
    ("page.row", &["number"]),
    ("page.strand", &["number"]),
    ("page.step", &["number"]),
];

/// What numbers and lengths are written with.
pub(super) const FILTERS: [&str; 11] =
    ["num", "dec", "mm", "length", "short", "part", "cut", "grams", "money", "percent", "plural"];

/// Statements that a text may hold.
pub(super) const STATEMENTS: [&str; 6] = ["if", "elif", "else", "endif", "for", "endfor"];

/// Words of the code itself: no values.
const KEYWORDS: [&str; 16] = [
    "if", "elif", "else", "for", "in", "not", "and", "or", "is", "true", "false", "none", "True", "False",
    "None", "loop",
];

/// What is wrong with a text's code.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Wrong {
    /// The text is longer than any page needs.
    TooLong,
    /// A piece of code is longer than any text needs.
    CodeTooLong,
    /// Statements stand in one another deeper than any text needs.
    TooDeep,
    /// A brace of its own, with the name that stands in it.
    Brace(Option<String>),
    /// Code that is not closed, with what would close it.
    Open(&'static str),
    /// A quoted text in code that is not closed.
    OpenQuote,
    /// A character that code does not know.
    Sign(char),
    /// A blank that is none to code: a no-break space or the like.
    Blank,
    /// A backslash in a quoted text.
    Backslash,
    /// A statement that there is not; empty where no word stands.
    Statement(String),
    /// A statement that ends or goes on with something that was never begun.
    NotBegun(String),
    /// The end of another statement than the last one begun, with what would end that.
    EndsOther(String, &'static str),
    /// A statement that is not ended, with what would end it.
    NotEnded(&'static str),
    /// A filter that there is not.
    Filter(String),
    /// Something called like a function.
    Call(String),
    /// `is`, for which there are no tests.
    Is,
    /// A value that this text does not have.
    Value(String),
    /// A value known only when the pages are set, in something other than `{{ name }}`.
    Late(String),
}

/// What is wrong, and where in the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Fault {
    /// Bytes of the text.
    pub(super) at: Range<usize>,
    /// What it is.
    pub(super) wrong: Wrong,
}

/// A stretch of a text.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Part {
    /// Words to print.
    Words(Range<usize>),
    /// Code that prints a value.
    Print(Vec<Token>),
    /// Code that decides or repeats, with its place.
    Statement(Range<usize>, Vec<Token>),
}

#[derive(Clone, Debug, PartialEq, Eq)]
struct Token {
    at: Range<usize>,
    kind: Kind,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Name,
    Quoted,
    Number,
    Sign,
}

/// All that is wrong with a text which may ask for these values; `name` is its `section.key`.
pub(super) fn faults(name: &str, text: &str, values: &[&str]) -> Vec<Fault> {
    if text.len() > LONGEST_TEXT {
        return vec![Fault { at: 0..text.len(), wrong: Wrong::TooLong }];
    }
    let mut reader = Reader::new(text, values);
    reader.late = late(name);
    reader.read();
    reader.faults
}

/// The values of a text that are known only when the pages are set.
pub(super) fn late(name: &str) -> &'static [&'static str] {
    LATE.iter().find(|(text, _)| *text == name).map_or(&[], |(_, values)| values)
}

/// Reads a text once from front to end.
struct Reader<'t> {
    text: &'t str,
    values: &'t [&'t str],
    late: &'t [&'t str],
    faults: Vec<Fault>,
    /// Statements begun and not ended.
    begun: Vec<Begun<'t>>,
}

/// A statement that has begun: `if` or `for`, or a branch of theirs.
struct Begun<'t> {
    at: Range<usize>,
    word: &'t str,
    /// The names that a `for` gives.
    names: Vec<&'t str>,
}

impl<'t> Reader<'t> {
    fn new(text: &'t str, values: &'t [&'t str]) -> Reader<'t> {
        Reader { text, values, late: &[], faults: Vec::new(), begun: Vec::new() }
    }

    fn fault(&mut self, at: Range<usize>, wrong: Wrong) {
        self.faults.push(Fault { at, wrong });
    }

    fn read(&mut self) {
        let mut from = 0;
        while from < self.text.len() {
            let Some((part, end)) = self.part(from) else { return };
            from = end;
            match part {
                Part::Words(at) => self.words(at),
                Part::Print(code) => self.code(&code, true),
                Part::Statement(at, code) => self.statement(at, &code),
            }
        }
        for Begun { at, word, .. } in std::mem::take(&mut self.begun) {
            if let Some(end) = end_of(word) {
                self.fault(at, Wrong::NotEnded(end));
            }
        }
    }

    /// The part that begins here, and its end; `None` after a fault that hides all that follows.
    fn part(&mut self, from: usize) -> Option<(Part, usize)> {
        let rest = &self.text[from..];
        let close = match rest.get(..2) {
            Some("{{") => "}}",
            Some("{%") => "%}",
            Some("{#") => {
                let Some(len) = rest.find("#}") else {
                    self.fault(from..from + 2, Wrong::Open("#}"));
                    return None;
                };
                return Some((Part::Words(from..from), from + len + 2));
            }
            _ => {
                let code = ["{{", "{%", "{#"].iter().filter_map(|open| rest.find(open)).min();
                let end = code.map_or(self.text.len(), |len| from + len);
                return Some((Part::Words(from..end), end));
            }
        };
        let (code, end) = self.tokens(from, close)?;
        let part = if close == "}}" { Part::Print(code) } else { Part::Statement(from..end, code) };
        Some((part, end))
    }

    /// The words and signs of the code that opens here, and the end of what closes it.
    fn tokens(&mut self, open: usize, close: &'static str) -> Option<(Vec<Token>, usize)> {
        let mut tokens = Vec::new();
        let mut at = open + 2;
        // A sign of white space control may stand at both ends.
        if self.text[at..].starts_with(['-', '+']) {
            at += 1;
        }
        loop {
            let rest = &self.text[at..];
            let Some(first) = rest.chars().next() else {
                self.fault(open..open + 2, Wrong::Open(close));
                return None;
            };
            let trimmed = rest.strip_prefix(['-', '+']).unwrap_or(rest);
            if trimmed.starts_with(close) {
                return Some((tokens, self.text.len() - trimmed.len() + 2));
            }
            if tokens.len() >= LONGEST_CODE {
                self.fault(open..at, Wrong::CodeTooLong);
                return None;
            }
            let (kind, len) = match first {
                c if c.is_ascii_whitespace() => {
                    at += 1;
                    continue;
                }
                c if c.is_whitespace() => {
                    self.fault(at..at + c.len_utf8(), Wrong::Blank);
                    return None;
                }
                c if c.is_alphabetic() || c == '_' => {
                    (Kind::Name, span(rest, |c| c.is_alphanumeric() || c == '_'))
                }
                c if c.is_ascii_digit() => {
                    (Kind::Number, span(rest, |c| c.is_ascii_alphanumeric() || c == '.' || c == '_'))
                }
                '\'' | '"' => match rest[1..].find(first) {
                    Some(len) => (Kind::Quoted, len + 2),
                    None => {
                        self.fault(at..at + 1, Wrong::OpenQuote);
                        return None;
                    }
                },
                '=' | '!' | '<' | '>' | '/' | '*' if rest[1..].starts_with(['=', '/', '*']) => {
                    (Kind::Sign, 2)
                }
                c if "=<>+-*/%|.,:()[]~".contains(c) => (Kind::Sign, 1),
                c => {
                    self.fault(at..at + c.len_utf8(), Wrong::Sign(c));
                    return None;
                }
            };
            if kind == Kind::Quoted
                && let Some(i) = rest[..len].find('\\')
            {
                self.fault(at + i..at + i + 1, Wrong::Backslash);
                return None;
            }
            tokens.push(Token { at: at..at + len, kind });
            at += len;
        }
    }

    /// Words to print hold no brace.
    fn words(&mut self, at: Range<usize>) {
        let mut from = at.start;
        while let Some(i) = self.text[from..at.end].find(['{', '}']) {
            let start = from + i;
            let rest = &self.text[start..at.end];
            let name = rest.strip_prefix('{').and_then(|r| r.split_once('}')).map(|(name, _)| name);
            let name = name.filter(|n| !n.contains(['{', ' ', '\n']));
            let len = name.map_or(1, |n| n.len() + 2);
            self.fault(start..start + len, Wrong::Brace(name.filter(|n| !n.is_empty()).map(str::to_owned)));
            from = start + len;
        }
    }

    fn statement(&mut self, at: Range<usize>, code: &[Token]) {
        let (word, rest) = match code.split_first() {
            Some((first, rest)) if first.kind == Kind::Name => (self.word(first), rest),
            _ => ("", code),
        };
        let inside = self.begun.last().map_or("", |b| b.word);
        match word {
            "if" => {
                self.begin(at, word, Vec::new());
                self.code(rest, false);
            }
            "for" => {
                let (given, rest) = rest.split_at(rest.iter().take_while(|t| self.word(t) != "in").count());
                let names = given.iter().filter(|t| t.kind == Kind::Name).map(|t| self.word(t)).collect();
                self.begin(at, word, names);
                self.code(rest, false);
            }
            "elif" if matches!(inside, "if" | "elif") => {
                self.begin(at, word, Vec::new());
                self.code(rest, false);
            }
            "else" if matches!(inside, "if" | "elif" | "for") => self.begin(at, word, Vec::new()),
            "endif" | "endfor" => self.end(at, word),
            "elif" | "else" => self.fault(at, Wrong::NotBegun(word.to_owned())),
            other => {
                let place = code.first().map_or(at, |t| t.at.clone());
                self.fault(place, Wrong::Statement(other.to_owned()));
            }
        }
    }

    fn begin(&mut self, at: Range<usize>, word: &'t str, names: Vec<&'t str>) {
        if self.begun.len() == DEEPEST {
            self.fault(at.clone(), Wrong::TooDeep);
        }
        self.begun.push(Begun { at, word, names });
    }

    fn end(&mut self, at: Range<usize>, word: &str) {
        let last = self.begun.iter().enumerate().rev().find_map(|(i, b)| Some((i, end_of(b.word)?)));
        match last {
            Some((i, end)) => {
                self.begun.truncate(i);
                if end != word {
                    self.fault(at, Wrong::EndsOther(word.to_owned(), end));
                }
            }
            None => self.fault(at, Wrong::NotBegun(word.to_owned())),
        }
    }

    /// What code names: values, filters and what there is not.
    fn code(&mut self, code: &[Token], prints: bool) {
        for (i, token) in code.iter().enumerate() {
            if token.kind != Kind::Name {
                continue;
            }
            let word = self.word(token);
            let before = i.checked_sub(1).map_or("", |i| self.word(&code[i]));
            let called = code.get(i + 1).is_some_and(|t| self.word(t) == "(");
            let wrong = match before {
                "|" if FILTERS.contains(&word) => None,
                "|" => Some(Wrong::Filter(word.to_owned())),
                "is" => None,
                "not" if i > 1 && self.word(&code[i - 2]) == "is" => None,
                _ if word == "is" => Some(Wrong::Is),
                _ if KEYWORDS.contains(&word) && word != "loop" => None,
                _ if called => Some(Wrong::Call(word.to_owned())),
                "." => None,
                _ if word == "loop" || self.begun.iter().any(|b| b.names.contains(&word)) => None,
                _ if self.late.contains(&word) => {
                    (!prints || code.len() > 1).then(|| Wrong::Late(word.to_owned()))
                }
                _ if self.values.contains(&word) => None,
                _ => Some(Wrong::Value(word.to_owned())),
            };
            if let Some(wrong) = wrong {
                self.fault(token.at.clone(), wrong);
            }
        }
    }

    fn word(&self, token: &Token) -> &'t str {
        &self.text[token.at.clone()]
    }
}

/// What ends a statement; `None` for one that is a branch of another.
fn end_of(word: &str) -> Option<&'static str> {
    match word {
        "if" => Some("endif"),
        "for" => Some("endfor"),
        _ => None,
    }
}

/// Bytes of the characters at the beginning that are such.
fn span(text: &str, such: impl Fn(char) -> bool) -> usize {
    text.find(|c| !such(c)).unwrap_or(text.len())
}
