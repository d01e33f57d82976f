//! A maker's own templates: built-in texts and settings with code, numbers and marks of every kind put in,
//! written as YAML in every way, so that most of them are read and many are filled in.

use super::chance::Chance;
use super::text;
use fringebook::booklet::{Word, Wording};
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// What differs: `language.yaml` and `words.yaml`.
pub struct Own {
    pub settings: Vec<u8>,
    pub words: Vec<u8>,
}

/// The built-in files, whole.
const BUILT_IN: [(&str, &str, &str); 5] = [
    ("en", include_str!("../../templates/en/language.yaml"), include_str!("../../templates/en/words.yaml")),
    ("de", include_str!("../../templates/de/language.yaml"), include_str!("../../templates/de/words.yaml")),
    ("fr", include_str!("../../templates/fr/language.yaml"), include_str!("../../templates/fr/words.yaml")),
    ("es", include_str!("../../templates/es/language.yaml"), include_str!("../../templates/es/words.yaml")),
    (
        "en-US",
        include_str!("../../templates/en-US/language.yaml"),
        include_str!("../../templates/en-US/words.yaml"),
    ),
];

/// Filters of a text, two of other programs, and one misspelt.
const FILTERS: &[&str] = &[
    "num",
    "dec(2)",
    "dec(6)",
    "dec(65536)",
    "dec(-1)",
    "dec",
    "mm",
    "length",
    "short",
    "part",
    "cut",
    "grams",
    "money",
    "percent",
    "plural('a', 'b')",
    "plural('', 'b')",
    "plural(a)",
    "nums",
    "batch(2)",
    "list",
];
/// Numbers at the edges of what something can hold, and small ones.
const NUMBERS: &[&str] = &[
    "0",
    "1",
    "2",
    "3",
    "7",
    "1.5",
    "0.0",
    "1e300",
    "1e308",
    "1e999",
    "1e-320",
    "999999999",
    "1000000000",
    "1000000001",
    "9223372036854775807",
    "9223372036854775808",
    "18446744073709551616",
    "170141183460469231731687303715884105727",
    "340282366920938463463374607431768211456",
    "0x7f",
    "0b1",
    "1_000",
    "65536",
    "4294967296",
];
const OPERATORS: &[&str] = &[
    " + ", " - ", " * ", " / ", " // ", " % ", " ** ", " ~ ", " == ", " != ", " < ", " >= ", " and ", " or ",
    " in ", " not in ", ".", "|", ", ", " if ", " is ",
];
/// What stands in texts beside code: markup, links, marks that fonts, lines and tags have trouble with.
const PLAIN: &[&str] = &[
    "**",
    "_",
    "[the chart](#chart)",
    "[x](#nowhere)",
    "[x](https://a.example)",
    "[x](file:///a)",
    "](",
    "{",
    "}",
    "{nope}",
    "{{",
    "}}",
    "{%",
    "%}",
    "{#",
    "#}",
    "{# later #}",
    "\\",
    "\n",
    "\n\n",
    " ",
    "\t",
    "\u{a0}",
    "\u{2028}",
    "\u{85}",
    "\u{0}",
    "\u{ad}",
    "\u{200b}",
    "\u{202e}",
    "\u{feff}",
    "\u{fffe}",
    "é\u{301}",
    "鷺",
    "🧵",
    "שלום",
    "ﬁ",
    "'",
    "\"",
    "|",
    ":",
    "#",
    "%%EOF",
    "words that go on",
    "Überraschungsgefäßverschluss",
];
/// What stands in a `language.yaml`.
const SETTINGS: &[&str] = &[
    "decimal: \",\"\n",
    "decimal: .\n",
    "decimal: 1\n",
    "thousands: \" \"\n",
    "thousands: \"\"\n",
    "thousands: \"\u{202f}\"\n",
    "before_percent: \" \"\n",
    "zero_is_singular: yes\n",
    "zero_is_singular: 3\n",
    "name: Nederlands\n",
    "base: en\n",
    "base: de\n",
    "base: nl\n",
    "tag: de-DE\n",
    "tag: nl-NL\n",
    "tag: x\n",
    "tag: \"\"\n",
    "months: [a, b, c, d, e, f, g, h, i, j, k, l]\n",
    "months: [January]\n",
    "months:\n",
    "order: []\n",
    "order: [cover]\n",
    "order: [colourways]\n",
    "order: [safety, cover]\n",
    "order: [chart, rows, strands, steps]\n",
    "order: [cover, chrat]\n",
    "order: [glance, materials]\n",
    "order:\n  - chart\n  - finishing\n",
    "date: \"{{ day }}. {{ month }}\"\n",
    "date: \"{{ day }}{{ day * 3 }}\"\n",
    "date: \"{{ 'x' * 5000 }}\"\n",
    "date: \"{% if day > 40 %}x{% endif %}\"\n",
    "date: \"{{ nope }}\"\n",
    "date: \"\"\n",
];

/// A maker's own templates that differ from a language.
pub fn own(language: &str, chance: &mut Chance) -> Own {
    let mut own = Own { settings: settings(language, chance), words: Vec::new() };
    if chance.once_in(12) {
        let (_, settings, words) = BUILT_IN[chance.below(BUILT_IN.len())];
        let others = [settings, words];
        own.words = text::mutated(words, &others, chance);
        if chance.once_in(2) {
            own.settings = text::mutated(settings, &others, chance);
        }
        return own;
    }
    let words = words(language, chance);
    own.words =
        if chance.once_in(8) { text::mutated(&words, &[BUILT_IN[0].2], chance) } else { words.into_bytes() };
    own
}

fn settings(language: &str, chance: &mut Chance) -> Vec<u8> {
    if !chance.once_in(3) {
        return Vec::new();
    }
    let mut lines: Vec<&str> = BUILT_IN
        .iter()
        .find(|(name, ..)| *name == language && chance.once_in(2))
        .map_or(Vec::new(), |(_, settings, _)| settings.split_inclusive('\n').collect());
    for _ in 0..chance.few() {
        let line = chance.one_of(SETTINGS);
        let key = line.split(':').next();
        // Mostly in place of the line with the same key: a key that stands twice is refused.
        match lines.iter().position(|l| l.split(':').next() == key).filter(|_| !chance.once_in(20)) {
            Some(at) => lines[at] = line,
            None => lines.insert(chance.below(lines.len() + 1), line),
        }
    }
    let settings = lines.concat();
    if chance.once_in(6) { text::mutated(&settings, &[BUILT_IN[0].1], chance) } else { settings.into_bytes() }
}

/// A `words.yaml` of a few texts.
fn words(language: &str, chance: &mut Chance) -> String {
    let wording = Wording::built_in(language).or_else(|| Wording::built_in("en")).expect("built in");
    let mut groups: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    // What reads like a text gets further, and what does not finds other faults.
    let tame = !chance.once_in(3);
    for _ in 0..chance.few() {
        let word = Word::all()[chance.below(Word::all().len())];
        let (group, key) = word.name().split_once('.').expect("section.key");
        let mut text = wording.text(word).to_owned();
        for _ in 0..chance.few() {
            match word.values() {
                values if tame => tame_change(&mut text, values, chance),
                values => change(&mut text, values, chance),
            }
        }
        let texts = groups.entry(group).or_default();
        let given = format!("  {key}: ");
        if !texts.iter().any(|t| t.starts_with(&given)) {
            texts.push(given + &as_yaml(&text, chance));
        }
    }
    let mut file = String::new();
    for (group, texts) in groups {
        let _ = write!(file, "{group}:\n{}", texts.concat());
    }
    file
}

/// A text in one of YAML's ways of writing it. Quoted twice, every character arrives.
fn as_yaml(text: &str, chance: &mut Chance) -> String {
    let block = |head: &str| format!("{head}\n    {}\n", text.replace('\n', "\n    "));
    match chance.below(8) {
        0 => format!("'{}'\n", text.replace('\'', "''")),
        1 => block("|-"),
        2 => block(">-"),
        3 => format!("{text}\n"),
        _ => format!("{}\n", serde_json::Value::from(text)),
    }
}

/// A change that leaves most texts such as can be filled in.
fn tame_change(text: &mut String, values: &[&str], chance: &mut Chance) {
    let value = if values.is_empty() { "7" } else { chance.one_of(values) };
    let filter = chance.one_of(&[
        "",
        "|num",
        "|dec(3)",
        "|mm",
        "|length",
        "|cut",
        "|grams",
        "|money",
        "|percent",
        "|plural('bead', 'beads')",
    ]);
    let middle = match chance.below(3) {
        // Between words, where no code can stand.
        0 => text.len(),
        1 => 0,
        _ => text.find(' ').filter(|at| text.find('{').is_none_or(|brace| *at < brace)).unwrap_or(0),
    };
    match chance.below(9) {
        0 => text.insert_str(middle, &format!("{{{{ {value}{filter} }}}}")),
        1 => text.insert_str(middle, &format!("{{% if {value} %}}x{{% elif {value} == 3 %}}y{{% endif %}}")),
        2 => *text = format!("{{% if {value} %}}{text}{{% endif %}}"),
        3 => *text = format!("{{% for letter in 'abc' %}}{text} {{% endfor %}}"),
        4 => *text = format!("{text} {text}"),
        5 => *text = format!("{{{{ {value} }}}}"),
        6 => {
            *text = match chance.below(6) {
                0 => format!("{{% if not {value} %}}{text}{{% endif %}}"),
                1 => format!("{{{{ 'reed ' * {} }}}}", [20, 400, 2_000, 5_900][chance.below(4)]),
                2 => chance.one_of(&["r", "Ringelnatter", "i i i", "m_m", "•"]).repeat(1 + chance.below(300)),
                3 => "{{ '' }}".to_owned(),
                4 => "{{ 'r' * 900 }}".to_owned(),
                _ => "r".to_owned(),
            }
        }
        _ => text.insert_str(
            middle,
            chance.one_of(&[
                "**",
                "** **",
                "_",
                "_ _",
                "[the chart](#chart)",
                "[ ](#chart)",
                "[](#chart)",
                "[x](https://a.example)",
                "\n",
                "\n\n",
                "\t",
                "\u{a0}",
                "\u{2028}",
                "\u{ad}",
                "\u{200b}",
                "\u{202e}",
                "\u{feff}",
                "e\u{301}",
                "鷺",
                "שלום",
                "ﬁ",
                "{# later #}",
                "{{ '{' }}",
                "\\",
                "'",
                "\"",
                " | ",
                ": ",
                " # ",
                "%%EOF",
                "\u{a0}\u{a0}",
                "{{ 1.5 }}",
                "{{ 7 // 2 }}",
            ]),
        ),
    }
}

fn change(text: &mut String, values: &[&str], chance: &mut Chance) {
    match chance.below(16) {
        0..=4 => {
            let code = format!("{{{{ {} }}}}", expression(3, values, chance));
            put(text, &code, chance);
        }
        5 => {
            // Other code in the place of a value.
            if let (Some(from), Some(to)) = (text.find("{{"), text.find("}}"))
                && from < to
            {
                text.replace_range(from + 2..to, &format!(" {} ", expression(3, values, chance)));
            }
        }
        6 => {
            let deep = [1, 1, 2, 5, 9, 10, 11, 400][chance.below(8)];
            let condition = expression(1, values, chance);
            *text = format!(
                "{}{text}{}",
                format!("{{% if {condition} %}}").repeat(deep),
                "{% endif %}".repeat(if chance.once_in(5) { deep - 1 } else { deep })
            );
        }
        7 => {
            let deep = [1, 2, 4, 10][chance.below(4)];
            let over = chance.one_of(&[
                "'abcdefgh'",
                "[1, 2, 3] * 50000000",
                "'x' * 300",
                "(1, 2) * 9",
                "[[1, 2], 3]",
            ]);
            let over = if chance.once_in(2) { over.to_owned() } else { expression(2, values, chance) };
            *text = format!(
                "{}{text}{}",
                format!("{{% for a in {over} %}}").repeat(deep),
                "{% endfor %}".repeat(deep)
            );
        }
        8 => {
            let (open, close) = chance.one_of(&[
                &("not ", ""),
                &("-", ""),
                &("(", ")"),
                &("[", "]"),
                &("1 + ", ""),
                &("1 ~ ", ""),
            ]);
            let deep = [1, 7, 40, 49, 90, 99, 100_000][chance.below(7)].min(60_000 / open.len());
            let inner = expression(0, values, chance);
            put(text, &format!("{{{{ {}{inner}{} }}}}", open.repeat(deep), close.repeat(deep)), chance);
        }
        9 => {
            // Texts that come to nothing, to little, and to much.
            let condition = expression(1, values, chance);
            *text = match chance.below(6) {
                0 => format!("{{% if not ({condition}) %}}{text}{{% endif %}}"),
                1 => "{{ '' }}".to_owned(),
                2 => "{% if false %}x{% endif %}".to_owned(),
                3 => "{{ ' ' }}".to_owned(),
                4 => format!("{{{{ 'reed ' * {} }}}}", [20, 400, 2_000, 5_900, 7_000][chance.below(5)]),
                _ => "r".repeat([100, 900, 3_900][chance.below(3)]),
            };
        }
        10..=12 => put(text, chance.one_of(PLAIN), chance),
        13 => {
            let piece = inside(text, chance);
            let piece = text[piece].to_owned();
            put(text, &piece, chance);
        }
        14 => {
            let piece = inside(text, chance);
            text.replace_range(piece, "");
        }
        _ => {
            // A text of another language or with other values.
            let language = Wording::languages()[chance.below(Wording::languages().len())];
            let word = Word::all()[chance.below(Word::all().len())];
            *text = Wording::built_in(language).expect("built in").text(word).to_owned();
        }
    }
}

/// Code for a value of a text.
fn expression(deep: usize, values: &[&str], chance: &mut Chance) -> String {
    if deep == 0 {
        return match chance.below(7) {
            0..=2 if !values.is_empty() => chance.one_of(values).to_owned(),
            3 => chance.one_of(NUMBERS).to_owned(),
            4 => chance.one_of(&["'x'", "\"reed\"", "''", "' '", "'{'", "'é'"]).to_owned(),
            5 => chance
                .one_of(&["true", "none", "a", "loop.index", "loop", "nope", "range(9)", "[]", "()"])
                .to_owned(),
            _ => chance.below(400).to_string(),
        };
    }
    let mut one = || expression(deep - 1, values, chance);
    let (a, b, c) = (one(), one(), one());
    match chance.below(14) {
        0..=3 => format!("{a}|{}", chance.one_of(FILTERS)),
        4..=6 => format!("{a}{}{b}", chance.one_of(OPERATORS)),
        7 => format!("({a}{}{b})|{}", chance.one_of(OPERATORS), chance.one_of(FILTERS)),
        8 => format!("[{a}, {b}] * {c}"),
        9 => format!("{a}[{b}:{c}]"),
        10 => format!("{a}[{b}]"),
        11 => format!("{a} if {b} else {c}"),
        12 => format!("-{a}"),
        _ => format!("not {a}"),
    }
}

/// Puts a piece in somewhere.
fn put(text: &mut String, piece: &str, chance: &mut Chance) {
    let at = boundary(text, chance.below(text.len() + 1));
    text.insert_str(at, piece);
}

/// A stretch of at most thirty bytes.
fn inside(text: &str, chance: &mut Chance) -> std::ops::Range<usize> {
    let piece = text::stretch(text.len(), 30, chance);
    boundary(text, piece.start)..boundary(text, piece.end)
}

/// The beginning of the character that a byte belongs to.
fn boundary(text: &str, at: usize) -> usize {
    (0..=at).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0)
}
