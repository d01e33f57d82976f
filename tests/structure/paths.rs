//! The paths that Rust code names: in `use` lines, nested ones taken apart, and written out in the code.

/// A path that code names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Named {
    /// Its names from the left: `crate`, `layout`, `Page`. One of this crate begins with `crate`, however it is
    /// written; of `use crate::layout::*` the last name is `*`.
    pub names: Vec<String>,
    /// Whether a `pub use` hands it on.
    pub handed_on: bool,
}

impl Named {
    /// The room of this crate that it leads into; `*` when it leads into all of them.
    pub fn room(&self) -> Option<&str> {
        match &self.names[..] {
            [root] if root == "crate" => Some("*"),
            [root, room, ..] if root == "crate" => Some(room),
            _ => None,
        }
    }
}

/// The paths in the code of a module of this crate; comments and what stands in quotes are no code.
pub fn paths(module: &[String], code: &str) -> Vec<Named> {
    let mut reader = Reader { tokens: tokens(code), at: 0, braces: Vec::new(), found: Vec::new() };
    reader.read(module);
    reader.found
}

/// Whether code names something by this name alone or as part of a path.
pub fn names(code: &str, name: &str) -> bool {
    tokens(code).iter().any(|token| token == name)
}

/// Names, `::` and single signs.
fn tokens(code: &str) -> Vec<String> {
    let chars: Vec<char> = code.chars().collect();
    let mut tokens = Vec::new();
    let mut at = 0;
    while at < chars.len() {
        let next = chars.get(at + 1).copied().unwrap_or(' ');
        let part_of_name = |c: char| c.is_alphanumeric() || c == '_';
        match chars[at] {
            '/' if next == '/' => at = until(&chars, at, &['\n']),
            '/' if next == '*' => at = end_of_comment(&chars, at),
            '"' => at = end_of_text(&chars, at),
            '\'' => at = end_of_character(&chars, at),
            c if part_of_name(c) => {
                let end = (at..chars.len()).find(|&i| !part_of_name(chars[i])).unwrap_or(chars.len());
                let name: String = chars[at..end].iter().collect();
                at = match (name.as_str(), raw_text(&chars, end)) {
                    ("r" | "br" | "cr", Some(after)) => after,
                    _ => {
                        tokens.push(name);
                        end
                    }
                };
            }
            ':' if next == ':' => {
                tokens.push("::".to_owned());
                at += 2;
            }
            c => {
                if !c.is_whitespace() {
                    tokens.push(c.to_string());
                }
                at += 1;
            }
        }
    }
    tokens
}

/// Where one of these signs stands next, or the end.
fn until(chars: &[char], from: usize, signs: &[char]) -> usize {
    (from..chars.len()).find(|&i| signs.contains(&chars[i])).unwrap_or(chars.len())
}

fn end_of_comment(chars: &[char], from: usize) -> usize {
    let (mut at, mut depth) = (from, 0);
    while at < chars.len() {
        match chars[at..].get(..2) {
            Some(['/', '*']) => depth += 1,
            Some(['*', '/']) => depth -= 1,
            _ => {
                at += 1;
                continue;
            }
        }
        at += 2;
        if depth == 0 {
            break;
        }
    }
    at
}

fn end_of_text(chars: &[char], from: usize) -> usize {
    let mut at = from + 1;
    loop {
        at = until(chars, at, &['"', '\\']);
        match chars.get(at) {
            Some('\\') => at += 2,
            _ => return (at + 1).min(chars.len()),
        }
    }
}

/// After a raw text whose quotes or number signs begin here; `None` if there is none.
fn raw_text(chars: &[char], from: usize) -> Option<usize> {
    let signs = chars[from..].iter().take_while(|c| **c == '#').count();
    let open = from + signs;
    if chars.get(open) != Some(&'"') {
        return None;
    }
    let closes =
        |&i: &usize| chars[i] == '"' && chars[i + 1..].iter().take_while(|c| **c == '#').count() >= signs;
    Some((open + 1..chars.len()).find(closes).map_or(chars.len(), |i| i + 1 + signs))
}

/// After a character in quotes; of a lifetime only the sign itself is passed.
fn end_of_character(chars: &[char], from: usize) -> usize {
    match (chars.get(from + 1), chars.get(from + 2)) {
        (Some('\\'), _) => until(chars, from + 3, &['\'']) + 1,
        (Some(_), Some('\'')) => from + 3,
        _ => from + 1,
    }
}

/// Reads tokens from the left; `braces` are the open ones, each with the name of the module that it opened.
struct Reader {
    tokens: Vec<String>,
    at: usize,
    braces: Vec<Option<String>>,
    found: Vec<Named>,
}

impl Reader {
    fn token(&self, ahead: usize) -> &str {
        self.tokens.get(self.at + ahead).map_or("", String::as_str)
    }

    fn read(&mut self, module: &[String]) {
        // Whether a visibility stands just before, with how many brackets it has open.
        let mut visible = false;
        while self.at < self.tokens.len() {
            match self.token(0) {
                "pub" => {
                    visible = true;
                    if self.token(1) == "(" {
                        while !matches!(self.token(0), ")" | "") {
                            self.at += 1;
                        }
                    }
                    self.at += 1;
                    continue;
                }
                "use" => {
                    self.at += 1;
                    while self.token(0) == "::" {
                        self.at += 1;
                    }
                    let before = self.found.len();
                    self.tree(&[]);
                    self.settle(before, module, visible);
                }
                "mod" if self.token(2) == "{" => {
                    self.braces.push(Some(self.token(1).to_owned()));
                    self.at += 3;
                }
                "{" => {
                    self.braces.push(None);
                    self.at += 1;
                }
                "}" => {
                    self.braces.pop();
                    self.at += 1;
                }
                token if is_name(token) => {
                    let before = self.found.len();
                    self.written_out();
                    self.settle(before, module, false);
                }
                _ => self.at += 1,
            }
            visible = false;
        }
    }

    /// A path in the code; what is one name alone is none.
    fn written_out(&mut self) {
        let mut names = vec![self.token(0).to_owned()];
        self.at += 1;
        while self.token(0) == "::" && is_name(self.token(1)) {
            names.push(self.token(1).to_owned());
            self.at += 2;
        }
        if names.len() > 1 {
            self.found.push(Named { names, handed_on: false });
        }
    }

    /// A tree of a `use` line below these names.
    fn tree(&mut self, above: &[String]) {
        let mut names = above.to_vec();
        loop {
            match self.token(0) {
                "{" => {
                    self.at += 1;
                    while !matches!(self.token(0), "}" | "") {
                        self.tree(&names);
                        if self.token(0) == "," {
                            self.at += 1;
                        }
                    }
                    self.at += 1;
                    return;
                }
                // `{self, …}` names what stands above.
                "self" if !names.is_empty() => self.at += 1,
                token if token == "*" || is_name(token) => {
                    names.push(token.to_owned());
                    self.at += 1;
                }
                _ => {
                    self.at += 1;
                    return;
                }
            }
            match self.token(0) {
                "::" => self.at += 1,
                "as" => {
                    self.at += 2;
                    break;
                }
                _ => break,
            }
        }
        self.found.push(Named { names, handed_on: false });
    }

    /// Paths found since then begin with `crate` if they are of this crate.
    fn settle(&mut self, since: usize, module: &[String], handed_on: bool) {
        let inside = self.braces.iter().flatten();
        let here: Vec<String> = module.iter().chain(inside).cloned().collect();
        for named in &mut self.found[since..] {
            named.handed_on = handed_on;
            if !matches!(named.names[0].as_str(), "self" | "super") {
                continue;
            }
            let ups = named.names.iter().filter(|name| *name == "super").count();
            let kept = here.len().saturating_sub(ups);
            let rest = named.names.iter().filter(|name| !matches!(name.as_str(), "self" | "super"));
            let root = "crate".to_owned();
            named.names = std::iter::once(&root).chain(&here[..kept]).chain(rest).cloned().collect();
        }
    }
}

fn is_name(token: &str) -> bool {
    token.chars().next().is_some_and(|c| c.is_alphabetic() || c == '_')
}
