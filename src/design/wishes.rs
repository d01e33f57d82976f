//! What a command asks for beyond the files.

use super::letters::{one_letter, unknown_bead_hint};
use super::model::{Design, Side};
use super::phrase::Tongue;
use super::studio::is_language;
use crate::diagnostic::{Problem, did_you_mean, list};

/// What a command asks for beyond the files.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Wishes {
    /// A colourway of the design, by name.
    pub colourway: Option<String>,
    /// Other beads for letters, as in `C=slate`.
    pub colours: Vec<String>,
    /// The side row 1 starts from.
    pub start: Option<Side>,
    /// Large print, whatever the studio says.
    pub large_print: bool,
    /// Language, whatever the studio says.
    pub language: Option<String>,
}

/// The design as wished; wishes that cannot be met are noted.
pub(super) fn apply(mut design: Design, wishes: &Wishes, problems: &mut Vec<Problem>) -> Design {
    if let Some(name) = &wishes.colourway {
        match design.in_colourway(name) {
            Some(changed) => design = changed,
            None => problems.push(no_colourway(&design, name)),
        }
    }
    for wish in &wishes.colours {
        match recoloured(&design, wish) {
            Ok(changed) => design = changed,
            Err(problem) => problems.push(problem),
        }
    }
    design.start = wishes.start.unwrap_or(design.start);
    design.studio.large_print |= wishes.large_print;
    if let Some(language) = &wishes.language {
        if is_language(language) {
            design.studio.language.clone_from(language);
            design.studio.language_at = None;
        } else {
            problems.push(
                Problem::error(format!("`{language}` is not the name of a language"))
                    .hint("as in `--language de`"),
            );
        }
    }
    let tongue = Tongue::of(&design.studio.language, &design.studio.written_in);
    design.speak(&tongue);
    design
}

fn no_colourway(design: &Design, name: &str) -> Problem {
    let names: Vec<&str> = design.colourways.iter().map(|c| c.key.as_str()).collect();
    let hint = if names.is_empty() {
        "it has none; they are listed under `colourways:`".to_owned()
    } else {
        did_you_mean(name, &names, "its colourways are")
    };
    Problem::error(format!("`{}` has no colourway `{name}`", design.slug)).hint(hint)
}

fn recoloured(design: &Design, wish: &str) -> Result<Design, Problem> {
    let parts = wish.split_once('=').map(|(l, b)| (one_letter(l.trim()), b.trim()));
    let Some((Some(symbol), bead)) = parts else {
        return Err(Problem::error(format!("`{wish}` is not a letter with its bead"))
            .hint("write the letter, an equals sign and a bead of the palette, as in `C=slate`"));
    };
    if design.letter(symbol).is_none() {
        let symbols: Vec<String> = design.letters.iter().map(|l| format!("`{}`", l.symbol)).collect();
        return Err(Problem::error(format!("`{}` has no letter `{symbol}`", design.slug))
            .hint(format!("its letters are {}", list(&symbols))));
    }
    design.with_bead(symbol, bead).ok_or_else(|| {
        Problem::error(format!("the palette has no bead `{bead}`"))
            .hint(unknown_bead_hint(&design.palette, bead))
    })
}
