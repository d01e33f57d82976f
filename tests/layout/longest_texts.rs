//! The longest texts that a file may hold stay on the paper, and cost a few pages.

use super::probe::{area, pages};
use crate::maker::{DESIGN, Folder, PALETTE};
use crate::support::editions::plain;
use fringebook::booklet::{Edition, Wording, compose};
use fringebook::design::Paper;
use fringebook::layout::DisplayList;

/// Room round a page that no text may use, in millimetres.
const EDGE: f64 = 3.0;

/// A booklet whose every text is as long as it may be.
fn longest(word: &str, paper: Paper, large_print: bool) -> DisplayList {
    let of = |most: usize| word.chars().cycle().take(most).collect::<String>().trim_end().replace("  ", " ");
    let name = of(200);
    let named = PALETTE
        .replace("name: Ink black", &format!("name: {name}, supplier: {name}, finish: {name}"))
        .replace("QF-010", &name)
        .replace("name: Mist", &format!("name: {}", of(199)))
        .replace("name: braided thread 6 lb", &format!("name: {name}"))
        .replace("name: lever-back ear wire", &format!("name: {name}"))
        .replace("[scissors]", &format!("[{name}, {name}]"));
    let design = DESIGN
        .replace("Small Heron", &of(120))
        .replace("For tests.", &of(500))
        .replace("pair: same", &format!("pair: mirrored\ncolourways:\n  {}: {{A: frost}}", of(119)));
    let line = of(300);
    let studio = format!(
        "name: {name}\nweb: {}\ncontact: {line}\ncopyright: {line}\nterms: [{}, {name}]\n",
        of(300).replace(' ', "-"),
        of(9000)
    );
    let folder =
        Folder::new().with("palette.yaml", &named).with("studio.yaml", &studio).with("heron.yaml", &design);
    let counted = folder.count("heron.yaml");
    let coloured = counted.design.in_colourway(&counted.design.colourways[0].key).expect("a colourway");
    let edition = Edition { large_print, stamp: Some(of(100)), ..plain(paper) };
    let wording = Wording::built_in("en").expect("built in");
    let booklet = compose(&coloured, &counted.work, &counted.tally, &wording, &edition);
    pages(&booklet.expect("a booklet"))
}

#[test]
fn the_longest_texts_stay_on_the_paper() {
    for word in ["W", "Heron and reed ", "ÅÖ-"] {
        for (paper, large_print) in [(Paper::A4, false), (Paper::Letter, false), (Paper::A4, true)] {
            let list = longest(word, paper, large_print);
            let most = if large_print { 90 } else { 40 };
            assert!(
                list.pages.len() < most,
                "{word:?}, {paper:?}, {large_print}: {} pages",
                list.pages.len()
            );
            for (number, page) in list.pages.iter().enumerate() {
                for item in &page.items {
                    let a = area(item);
                    let inside = a.left >= EDGE
                        && a.top >= EDGE
                        && a.right <= page.size.width.0 - EDGE
                        && a.bottom <= page.size.height.0 - EDGE;
                    assert!(
                        inside,
                        "{word:?}, {paper:?}, {large_print}, page {}: {a:?} {item:?}",
                        number + 1
                    );
                }
            }
        }
    }
}
