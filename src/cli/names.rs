//! What the files are called that the commands write: the one place that decides.
//!
//! A booklet is called after its design file: `heron.yaml` makes `heron.pdf`. Whatever is asked for on
//! top of the design's own files is added in a fixed order:
//! `heron-river-right-large-print-grey-de-for-order-1042-bench-rows-5-12-earring-2-a4.pdf`.
//!
//! Pictures are called after what they show: `heron-river-pair.png`, and what of them is not as usual.
//!
//! Names keep only letters and digits, so two editions may still share one (a colourway `Grey` and charts in
//! grey): the booklet itself says which edition it is, and none is written over another.

use super::settings::Settings;
use std::collections::BTreeMap;
use std::path::Path;

/// The file name of a booklet or bench copy.
pub(super) fn file_name(slug: &str, settings: &Settings) -> String {
    let mut name = slug.to_owned();
    let mut add = |part: &str| {
        name.push('-');
        name.push_str(&words_or_signs(part));
    };
    if let Some(colourway) = &settings.colourway {
        add(colourway);
    }
    settings.colours.iter().for_each(|colour| add(colour));
    if let Some(side) = settings.start {
        add(side.word());
    }
    if settings.large_print {
        add("large print");
    }
    if settings.grey {
        add("grey");
    }
    if let Some(language) = &settings.language {
        add(language);
    }
    if settings.fold {
        add("folded");
    }
    if settings.fold_marks {
        add("marked");
    }
    if settings.tablet {
        add("tablet");
    }
    if let Some(stamp) = &settings.stamp {
        add("for");
        add(stamp);
    }
    if let Some(bench) = &settings.bench {
        add("bench");
        if let Some((first, last)) = bench.rows {
            add(&format!("rows {first} {last}"));
        }
        if let Some(earring) = bench.earring {
            add(&format!("earring {earring}"));
        }
    }
    if settings.cards {
        add("cards");
    }
    if settings.paper_in_name {
        add(settings.paper.word());
    }
    if let Some(picture) = &settings.picture {
        let mut add = |part: &str| {
            name.push('-');
            name.push_str(&words_or_signs(part));
        };
        add(&picture.shows.told());
        picture.unusual().iter().for_each(|part| add(part));
        return format!("{name}.{}", picture.ending());
    }
    name.push_str(".pdf");
    name
}

/// The words of a text joined by hyphens, in small letters: `Heron at Dusk` is `heron-at-dusk`.
pub(super) fn words(text: &str) -> String {
    text.split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect::<Vec<_>>()
        .join("-")
}

/// The words of a text; where it has none, the names of its characters, so that whatever was asked for
/// shows in the name: `!` is `exclamation-mark`.
fn words_or_signs(text: &str) -> String {
    let words_of = |text: &str| Some(words(text)).filter(|words| !words.is_empty());
    let sign = |c: char| match unicode_names2::name(c) {
        Some(name) => words(&name.to_string()),
        None => format!("{:x}", u32::from(c)),
    };
    let signs = || text.chars().filter(|c| !c.is_whitespace()).map(sign).collect::<Vec<_>>().join("-");
    words_of(text).unwrap_or_else(signs)
}

/// A path without `./` before it, as a person would write it.
pub(super) fn tidy(path: &Path) -> &Path {
    path.strip_prefix(".").unwrap_or(path)
}

/// The places of the first path in a list that stands there twice, if one does. Case is ignored, as many
/// disks do.
pub(super) fn collision<'a>(paths: impl IntoIterator<Item = &'a Path>) -> Option<(usize, usize)> {
    let mut seen = BTreeMap::new();
    paths
        .into_iter()
        .enumerate()
        .find_map(|(at, path)| Some((seen.insert(path.to_string_lossy().to_lowercase(), at)?, at)))
}

#[cfg(test)]
mod tests {
    use super::super::settings::{BenchSettings, PaperName, PictureSettings, Shows, SideName};
    use super::*;

    #[test]
    fn a_plain_booklet_is_called_after_its_design() {
        assert_eq!(file_name("heron", &Settings::plain(PaperName::Letter, false)), "heron.pdf");
    }

    #[test]
    fn papers_made_together_are_told_apart() {
        assert_eq!(file_name("heron", &Settings::plain(PaperName::A4, true)), "heron-a4.pdf");
        assert_eq!(file_name("heron", &Settings::plain(PaperName::Letter, true)), "heron-letter.pdf");
    }

    #[test]
    fn everything_asked_for_is_in_the_name() {
        let settings = Settings {
            paper: PaperName::A4,
            paper_in_name: true,
            colourway: Some("River in Spate".to_owned()),
            colours: vec!["C=slate".to_owned()],
            start: Some(SideName::Right),
            large_print: true,
            grey: true,
            language: Some("de".to_owned()),
            stamp: Some("Order 1042".to_owned()),
            bench: Some(BenchSettings { rows: Some((5, 12)), earring: Some(2) }),
            fold: false,
            fold_marks: false,
            tablet: false,
            cards: false,
            picture: None,
        };
        assert_eq!(
            file_name("heron", &settings),
            "heron-river-in-spate-c-slate-right-large-print-grey-de-for-order-1042-bench-rows-5-12-earring-2-a4.pdf"
        );
    }

    #[test]
    fn pictures_are_called_after_what_they_show() {
        let named = |shows, pixels, ground: &str| {
            let ground = ground.to_owned();
            let picture = PictureSettings { shows, pixels, ground, margin: PictureSettings::MARGIN };
            let picture = Some(picture);
            file_name("heron", &Settings { picture, ..Settings::plain(PaperName::A4, false) })
        };
        assert_eq!(named(Shows::Pair, Some(2000), "light"), "heron-pair.png");
        assert_eq!(named(Shows::Detail, Some(1200), "dark"), "heron-detail-1200-pixels-on-dark.png");
        assert_eq!(named(Shows::Page(3), None, "light"), "heron-page-3.svg");
    }

    #[test]
    fn what_has_no_letters_still_shows_in_the_name() {
        let plain = Settings::plain(PaperName::A4, false);
        let named = |colourway: &str| {
            file_name("heron", &Settings { colourway: Some(colourway.to_owned()), ..plain.clone() })
        };
        assert_eq!(named("!"), "heron-exclamation-mark.pdf");
        assert_eq!(named("★ ★"), "heron-black-star-black-star.pdf");
        assert_eq!(named("\u{e000}"), "heron-e000.pdf");
        assert_eq!(named("Low Sun!"), "heron-low-sun.pdf");
    }

    #[test]
    fn a_name_twice_is_found_whatever_its_case() {
        let paths = ["out/heron.pdf", "out/orchard.pdf", "out/Heron.pdf"].map(Path::new);
        assert_eq!(collision(paths), Some((0, 2)));
        assert_eq!(collision(paths.into_iter().take(2)), None);
    }
}
