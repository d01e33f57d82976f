//! The tools that the steps of this booklet use.

use crate::booklet::Word;
use crate::booklet::book::Book;
use crate::design::{Tool, Tools};

/// What the tools are called: by the palette, or else as usual. A list of the maker's own stands as it is.
pub(super) fn names(book: &Book) -> Vec<String> {
    let words = &book.words;
    let given = match &book.design.palette.tools {
        Tools::Listed(names) => return names.iter().map(|name| words.own(name)).collect(),
        Tools::ByUse(given) => given,
    };
    let name = |tool: Tool| {
        let named = given.iter().find(|(of, _)| *of == tool);
        named.map_or_else(|| words.fixed(usual(tool)), |(_, name)| words.own(name))
    };
    used(book).into_iter().map(name).collect()
}

/// Every step is worked with needle and scissors; beads are sorted on a mat, strands measured with a ruler. Pliers
/// open what is made of wire: the loop of an ear wire, and the jump rings that join several hangings.
fn used(book: &Book) -> Vec<Tool> {
    let opened = book.design.ear_wire().has_loop() || book.work.hangings.len() > 1;
    let pliers = opened.then_some(Tool::Pliers);
    [Some(Tool::Needle), Some(Tool::Scissors), pliers, Some(Tool::Mat), Some(Tool::Ruler)]
        .into_iter()
        .flatten()
        .collect()
}

fn usual(tool: Tool) -> Word {
    match tool {
        Tool::Needle => Word::ToolNeedle,
        Tool::Scissors => Word::ToolScissors,
        Tool::Pliers => Word::ToolPliers,
        Tool::Mat => Word::ToolMat,
        Tool::Ruler => Word::ToolRuler,
    }
}
