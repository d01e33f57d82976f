//! Every language says the same things as English, in its own words and with its own marks.

use fringebook::booklet::{Word, Wording};
use minijinja::{Environment, UndefinedBehavior, Value, context};
use std::collections::{BTreeMap, BTreeSet};

/// Texts that are rightly the same as in English: `language` (or `*` for all) and `section.key`.
const SAME_AS_ENGLISH: &[(&str, &str)] = &[
    ("*", "shopping.grams"),
    ("*", "shopping.packs"),
    ("fr", "notes.title"),
    // Nothing but values and punctuation.
    ("*", "diagram.moves"),
    ("*", "materials.bead_line"),
    ("*", "materials.bead_line_2"),
    ("*", "materials.letter"),
    ("*", "materials.thread_line"),
    ("*", "safety.seller"),
    // The same word in both languages.
    ("fr", "cover.technique"),
    ("fr", "name.brick"),
    ("fr", "glance.w_picot"),
];

/// Languages that stand by themselves, English aside.
fn translations() -> Vec<(&'static str, Wording)> {
    let all = Wording::languages().into_iter().map(|name| (name, wording(name)));
    all.filter(|(name, w)| *name != "en" && w.language.base.is_none()).collect()
}

fn wording(name: &str) -> Wording {
    Wording::built_in(name).unwrap_or_else(|| panic!("{name} is built in"))
}

/// A text without its template code: what a reader sees.
fn prose(template: &str) -> String {
    let mut out = String::new();
    let mut rest = template;
    while let Some(at) = rest.find("{{").into_iter().chain(rest.find("{%")).min() {
        out.push_str(&rest[..at]);
        let end = if rest[at..].starts_with("{{") { "}}" } else { "%}" };
        let len = rest[at..].find(end).expect("the code ends") + 2;
        rest = &rest[at + len..];
    }
    out + rest
}

/// The quoted words inside a text's template code, as in `plural('bead', 'beads')`.
fn quoted_in_code(template: &str) -> Vec<&str> {
    template
        .split("{{")
        .skip(1)
        .flat_map(|c| c.split("}}").next())
        .flat_map(|c| c.split('\'').skip(1).step_by(2))
        .collect()
}

/// All that is wrong, one line each, so that one run shows everything.
fn assert_none(wrong: &[String]) {
    assert!(wrong.is_empty(), "\n{}\n", wrong.join("\n"));
}

/// An environment with filters of the names and arguments that a booklet has.
fn environment() -> Environment<'static> {
    let mut environment = Environment::new();
    environment.set_undefined_behavior(UndefinedBehavior::Strict);
    for name in ["num", "mm", "length", "short", "part", "cut", "grams", "money", "percent"] {
        environment.add_filter(name, |x: f64| x.to_string());
    }
    environment.add_filter("dec", |x: f64, places: usize| format!("{x:.places$}"));
    environment.add_filter(
        "plural",
        |x: f64, one: String, many: String| if (x - 1.0).abs() < 0.5 { one } else { many },
    );
    environment
}

/// A value for each name that a text asks for; `count` stands for every number.
fn values(names: &BTreeSet<String>, count: usize) -> Value {
    names
        .iter()
        .map(|name| {
            let value = match name.as_str() {
                "anchors" => Value::from(vec![context! { mark => "i", what => "x" }; 2]),
                "moves" => Value::from(vec![context! { number => 1, what => "x" }; 2]),
                _ => Value::from(count),
            };
            (name.clone(), value)
        })
        .collect::<BTreeMap<_, _>>()
        .into()
}

#[test]
fn every_text_asks_for_the_values_that_the_english_asks_for() {
    let environment = Environment::new();
    let names = |w: &Wording, word: Word| {
        let template = environment.template_from_str(w.text(word));
        template
            .map(|t| t.undeclared_variables(true).into_iter().collect::<BTreeSet<_>>())
            .map_err(|e| e.to_string())
    };
    let english = wording("en");
    let mut wrong = Vec::new();
    for language in Wording::languages() {
        let w = wording(language);
        for &word in Word::all() {
            let (ours, theirs) = (names(&w, word), names(&english, word));
            if ours.is_err() || ours != theirs {
                wrong.push(format!("{language} {}: {ours:?}, in English {theirs:?}", word.name()));
            }
        }
    }
    assert_none(&wrong);
}

#[test]
fn every_text_can_be_filled_in_with_none_one_and_many() {
    let environment = environment();
    let mut wrong = Vec::new();
    for language in Wording::languages() {
        let w = wording(language);
        for &word in Word::all() {
            let template = environment.template_from_str(w.text(word)).expect("tested above");
            let names = template.undeclared_variables(false).into_iter().collect();
            for count in [0, 1, 2] {
                match template.render(values(&names, count)) {
                    Ok(text) if text.contains("  ") => {
                        wrong.push(format!("{language} {}: two spaces in \"{text}\"", word.name()));
                    }
                    Ok(_) => {}
                    Err(e) => wrong.push(format!("{language} {}: {e}", word.name())),
                }
            }
        }
    }
    assert_none(&wrong);
}

#[test]
fn marks_are_those_of_the_english() {
    let english = wording("en");
    let mut wrong = Vec::new();
    for language in Wording::languages() {
        let w = wording(language);
        for &word in Word::all() {
            let (ours, theirs) = (w.text(word), english.text(word));
            let (n, m) = (ours.matches("**").count(), theirs.matches("**").count());
            if n != m {
                wrong.push(format!("{language} {}: {n} × **, in English {m}", word.name()));
            }
            // An underscore in code is part of a name.
            let (n, m) = (prose(ours).matches('_').count(), prose(theirs).matches('_').count());
            if n != m || ours.matches("**").count() % 2 != 0 {
                wrong.push(format!("{language} {}: marks without a partner", word.name()));
            }
        }
    }
    assert_none(&wrong);
}

#[test]
fn nothing_is_left_in_english() {
    let english = wording("en");
    let mut wrong = Vec::new();
    for (language, w) in translations() {
        for &word in Word::all() {
            let allowed = |&(l, key): &(&str, &str)| (l == "*" || l == language) && key == word.name();
            let same =
                w.text(word) == english.text(word) && prose(w.text(word)).contains(char::is_alphabetic);
            if same && !SAME_AS_ENGLISH.iter().any(allowed) {
                wrong.push(format!("{language} {}: {}", word.name(), w.text(word)));
            }
            // The words of a plural are in the code, so a translated sentence may still hide them.
            for quoted in quoted_in_code(w.text(word)) {
                if quoted_in_code(english.text(word)).contains(&quoted) {
                    wrong.push(format!("{language} {}: '{quoted}'", word.name()));
                }
            }
        }
    }
    assert_none(&wrong);
}

#[test]
fn quotation_marks_and_apostrophes_are_those_of_the_language() {
    let mut wrong = Vec::new();
    for (language, w) in translations() {
        // Straight marks belong to no language; the others are another language's.
        let foreign: &[char] = match language {
            "de" => &['"', '\'', '”', '«', '»'],
            "fr" | "es" => &['"', '\'', '“', '”', '„'],
            _ => &['"', '\''],
        };
        for &word in Word::all() {
            let text = prose(w.text(word));
            let hidden = quoted_in_code(w.text(word)).concat();
            if text.contains(foreign) || hidden.contains(['"', '“', '”']) {
                wrong.push(format!("{language} {}: {text}", word.name()));
            }
            let paired = [('„', '“'), ('«', '»')]
                .iter()
                .all(|&(open, close)| text.matches(open).count() == text.matches(close).count());
            if !paired {
                wrong.push(format!("{language} {}: an open quotation: {text}", word.name()));
            }
        }
    }
    assert_none(&wrong);
}

/// Common practice of French typography: a no-break space before the colon and inside guillemets, a
/// narrow one before the semicolon, the exclamation mark and the question mark.
#[test]
fn french_keeps_its_high_punctuation_with_the_word_before() {
    let french = wording("fr");
    let mut wrong = Vec::new();
    for &word in Word::all() {
        // Code ends in a word or a number, to which the same rule applies.
        let text: Vec<char> = prose(french.text(word)).chars().collect();
        for (i, &c) in text.iter().enumerate() {
            let before = i.checked_sub(1).map(|j| text[j]);
            let good = match c {
                ':' | '»' => before == Some('\u{a0}'),
                ';' | '!' | '?' => before == Some('\u{202f}'),
                '«' => text.get(i + 1) == Some(&'\u{a0}'),
                '%' => before == Some('\u{202f}'),
                _ => true,
            };
            if !good {
                wrong.push(format!("{} at \"{c}\": {}", word.name(), french.text(word)));
            }
        }
    }
    assert_none(&wrong);
}

#[test]
fn spanish_questions_and_exclamations_open_and_close() {
    for &word in Word::all() {
        let text = wording("es").text(word).to_owned();
        for (open, close) in [('¿', '?'), ('¡', '!')] {
            assert_eq!(text.matches(open).count(), text.matches(close).count(), "{}: {text}", word.name());
        }
    }
}

/// What Americans write otherwise: whole words, and where a word alone would say too little (`a second round`, `go on
/// to the end`) as much of the phrase as tells it apart. Nothing else may differ.
const AMERICAN: [(&str, &str); 36] = [
    ("colour", "color"),
    ("colours", "colors"),
    ("Colour", "Color"),
    ("colourway", "colorway"),
    ("Colourway", "Colorway"),
    ("Colourways", "Colorways"),
    ("neighbouring", "neighboring"),
    ("Neighbouring", "Neighboring"),
    ("wraps round", "wraps around"),
    ("wrap round", "wrap around"),
    ("twice round", "twice around"),
    ("wrapped round", "wrapped around"),
    ("goes round", "goes around"),
    ("go round", "go around"),
    ("Go round", "Go around"),
    ("turns round", "turns around"),
    ("way round", "way around"),
    ("down on to", "down onto"),
    ("slip it on to", "slip it onto"),
    ("towards", "toward"),
    ("outwards", "outward"),
    ("inwards", "inward"),
    ("jewellery", "jewelry"),
    ("millimetres", "millimeters"),
    ("unpick", "undo"),
    ("grey", "gray"),
    ("centre", "center"),
    ("sport", "sports"),
    ("ear lobe", "earlobe"),
    ("near by", "nearby"),
    ("to and fro", "back and forth"),
    ("Tick each line", "Check off each line"),
    ("tick them", "check them off"),
    ("ticked as right", "checked as right"),
    ("tick what you have", "check off what you have"),
    ("box to tick for each", "box to check for each"),
];

/// English prose as Americans write it.
fn american(prose: &str) -> String {
    let mut text = prose.to_owned();
    for (british, american) in AMERICAN {
        let mut out = String::new();
        let mut rest = text.as_str();
        while let Some(at) = rest.find(british) {
            let (before, after) = (&rest[..at], &rest[at + british.len()..]);
            let whole = !before.ends_with(char::is_alphabetic) && !after.starts_with(char::is_alphabetic);
            out.push_str(before);
            out.push_str(if whole { american } else { british });
            rest = after;
        }
        text = out + rest;
    }
    text
}

/// A template as Americans write it: code stays, but for the words that it chooses from.
fn american_template(template: &str) -> String {
    let mut out = String::new();
    let mut rest = template;
    while let Some(at) = rest.find("{{").into_iter().chain(rest.find("{%")).min() {
        let end = if rest[at..].starts_with("{{") { "}}" } else { "%}" };
        let len = rest[at..].find(end).expect("the code ends") + 2;
        out.push_str(&american(&rest[..at]));
        for (i, part) in rest[at..at + len].split('\'').enumerate() {
            let quote = if i > 0 { "'" } else { "" };
            out.push_str(quote);
            out.push_str(&if i % 2 == 1 { american(part) } else { part.to_owned() });
        }
        rest = &rest[at + len..];
    }
    out + &american(rest)
}

#[test]
fn american_english_differs_in_the_words_listed_and_in_no_others() {
    let (us, english) = (wording("en-US"), wording("en"));
    let mut wrong = Vec::new();
    for &word in Word::all() {
        let (ours, due) = (us.text(word), american_template(english.text(word)));
        if ours != due {
            wrong.push(format!("{}: {ours}\n  due: {due}", word.name()));
        }
    }
    assert_none(&wrong);
    assert_eq!(us.language.base.as_deref(), Some("en"));
    assert_eq!(us.text(Word::ChartTitle), "Color chart");
    // Phrases in which the words mean something else stay.
    for kept in ["before the second round", "Go on to the end", "a round bead", "discoloured"] {
        assert_eq!(american(kept), kept);
    }
}

/// Code that stands within a word would change a part of it: whoever reads the template sees no word, and who
/// translates it breaks one.
#[test]
fn no_choice_stands_within_a_word() {
    let mut wrong = Vec::new();
    for language in Wording::languages() {
        let w = wording(language);
        for &word in Word::all() {
            let text = w.text(word);
            for (at, _) in text.match_indices("{%") {
                let end = at + text[at..].find("%}").expect("the code ends") + 2;
                let inside = text[at + 2..end - 2].trim();
                let glued =
                    text[..at].ends_with(char::is_alphabetic) && text[end..].starts_with(char::is_alphabetic);
                if glued && (inside.starts_with("if ") || inside == "endif") {
                    wrong.push(format!("{language} {}: {}", word.name(), &text[at..end]));
                }
            }
        }
    }
    assert_none(&wrong);
}

/// A thread is called what its maker calls it, often with a colour at the end (`nylon, smoke`): brackets keep that
/// apart from the next word.
#[test]
fn the_name_of_a_thread_stands_in_brackets() {
    let mut wrong = Vec::new();
    for language in Wording::languages() {
        let w = wording(language);
        for &word in Word::all().iter().filter(|word| word.name().starts_with("steps.")) {
            let text = w.text(word);
            if text.matches("{{ thread }}").count() != text.matches("({{ thread }})").count() {
                wrong.push(format!("{language} {}: {text}", word.name()));
            }
        }
    }
    assert_none(&wrong);
}

#[test]
fn settings_say_how_each_language_writes_numbers_and_dates() {
    let english = wording("en");
    for name in Wording::languages() {
        let language = wording(name).language;
        assert!(language.tag.starts_with(&name[..2]), "{name}: {}", language.tag);
        assert_eq!(language.order, english.language.order, "{name}");
        assert_ne!(language.decimal, language.thousands, "{name}");
        for part in ["{{ day }}", "{{ month }}", "{{ year }}"] {
            assert_eq!(language.date.matches(part).count(), 1, "{name}: {part}");
        }
        let months: BTreeSet<_> = language.months.iter().collect();
        assert_eq!(months.len(), 12, "{name}");
    }
    assert_eq!(wording("en-US").language.date, "{{ month }} {{ day }}, {{ year }}");
    assert!(wording("fr").language.zero_is_singular);
}
