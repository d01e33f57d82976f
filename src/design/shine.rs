//! What light does to a bead, in words: as `shine:` gives it, or else as the words of its finish say.

use super::phrase::Phrase;
use crate::drawn::{Glass, Shine, Surface};

/// What one word says.
#[derive(Clone, Copy)]
enum Says {
    Glass(Glass),
    Surface(Surface),
}

/// The words of `shine:`.
const WORDS: [(&str, Says); 8] = [
    ("opaque", Says::Glass(Glass::Opaque)),
    ("transparent", Says::Glass(Glass::Transparent)),
    ("lined", Says::Glass(Glass::Lined)),
    ("metallic", Says::Glass(Glass::Metallic)),
    ("glossy", Says::Surface(Surface::Glossy)),
    ("matte", Says::Surface(Surface::Matte)),
    ("lustre", Says::Surface(Surface::Lustre)),
    ("pearl", Says::Surface(Surface::Pearl)),
];

/// How words of finishes begin, in the languages of the booklets and in small letters. Where several are met, the first
/// here holds: a coating in the hole shows through clear glass, and a frosted bead may have lustre. Words of the
/// trade, from memory.
const FINISHES: [(&[&str], Says); 6] = [
    (&["lined", "einzug", "silbereinzug", "doublé", "interior"], Says::Glass(Glass::Lined)),
    (&["metal", "métal", "galvan", "plated", "vergoldet"], Says::Glass(Glass::Metallic)),
    (
        &["transparent", "translu", "translú", "clear", "crystal", "kristall", "cristal"],
        Says::Glass(Glass::Transparent),
    ),
    (&["mat", "frosted", "satin", "givré", "esmeril"], Says::Surface(Surface::Matte)),
    (&["pearl", "perl", "nacr", "ceylon", "ceylan"], Says::Surface(Surface::Pearl)),
    (&["lust", "lüst"], Says::Surface(Surface::Lustre)),
];

/// The shine that words apart by spaces name: one for what the bead is made of, one for its surface, or either.
pub(super) fn named(words: &str) -> Option<Shine> {
    let (mut glass, mut surface) = (None, None);
    for word in words.split_whitespace() {
        let (_, says) = WORDS.iter().find(|(known, _)| known.eq_ignore_ascii_case(word))?;
        let twice = match says {
            Says::Glass(made) => glass.replace(*made).is_some(),
            Says::Surface(surfaced) => surface.replace(*surfaced).is_some(),
        };
        if twice {
            return None;
        }
    }
    let some = glass.is_some() || surface.is_some();
    some.then(|| Shine { glass: glass.unwrap_or_default(), surface: surface.unwrap_or_default() })
}

/// The shine that a finish tells by its words: polished and opaque where they tell nothing.
pub(super) fn of_finish(finish: &Phrase) -> Shine {
    let texts: Vec<String> = finish.texts().map(str::to_lowercase).collect();
    let words = || texts.iter().flat_map(|text| text.split(|c: char| !c.is_alphabetic()));
    let mut shine = Shine::default();
    // The first holds: it is taken last.
    for (begins, says) in FINISHES.iter().rev() {
        if words().any(|word| begins.iter().any(|begin| word.starts_with(begin))) {
            match says {
                Says::Glass(glass) => shine.glass = *glass,
                Says::Surface(surface) => shine.surface = *surface,
            }
        }
    }
    shine
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shine(glass: Glass, surface: Surface) -> Shine {
        Shine { glass, surface }
    }

    #[test]
    fn words_name_glass_and_surface_once_each() {
        assert_eq!(named("matte"), Some(shine(Glass::Opaque, Surface::Matte)));
        assert_eq!(named(" Lustre  transparent "), Some(shine(Glass::Transparent, Surface::Lustre)));
        assert_eq!(named("lined"), Some(shine(Glass::Lined, Surface::Glossy)));
        for wrong in ["", "matte glossy", "lined transparent", "shiny", "matte matte"] {
            assert_eq!(named(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn finishes_tell_it_in_each_language() {
        let of = |text: &str| of_finish(&Phrase::plain(text.to_owned(), None));
        for frosted in [
            "silver-lined frosted",
            "Silbereinzug, mattiert",
            "doublé argent, givré",
            "interior plateado, esmerilado",
        ] {
            assert_eq!(of(frosted), shine(Glass::Lined, Surface::Matte), "{frosted}");
        }
        for honey in [
            "transparent lustre",
            "transparent luster",
            "transparent mit Lüster",
            "transparent lustré",
            "transparente lustrado",
        ] {
            assert_eq!(of(honey), shine(Glass::Transparent, Surface::Lustre), "{honey}");
        }
        for ember in ["matte metallic", "metallic matt", "métallisé mat", "metalizado mate"] {
            assert_eq!(of(ember), shine(Glass::Metallic, Surface::Matte), "{ember}");
        }
        for mist in ["ceylon pearl", "Ceylon-Perlglanz", "ceylan nacré", "ceylon perlado"] {
            assert_eq!(of(mist), shine(Glass::Opaque, Surface::Pearl), "{mist}");
        }
        assert_eq!(of("opaque"), Shine::default());
        assert_eq!(of(""), Shine::default());
    }
}
