//! The ear wire that the palette names is drawn and told, with the tools that its steps use.

use crate::maker::{DESIGN, Folder, PALETTE};
use crate::support::editions::plain;
use fringebook::booklet::{Block, Booklet, Figure, Wording, compose, drawing::pair};
use fringebook::design::{Design, EarWire, Paper, Wishes, read};
use fringebook::drawn::{Drawing, Mark};
use fringebook::stitch::stitch;
use fringebook::tally::tally;

/// The small design with an ear wire and tools as a palette gives them, hung as the design says.
fn design(wire: &str, tools: &str, hang: &str, language: &str) -> Design {
    // A top wide enough for two places to hang from.
    let body = DESIGN.replace("    ..A A A\n    .A B B A\n", "    A A A A A\n    .A B B A A\n");
    let palette = PALETTE
        .replace("{name: lever-back ear wire,", &format!("{{name: ear wire,{wire}"))
        .replace("tools: [scissors]\n", tools);
    let folder = Folder::new()
        .with("palette.yaml", &palette)
        .with("heron.yaml", &body.replace("hang: thread guard", hang));
    let wishes = Wishes { language: Some(language.to_owned()), ..Wishes::default() };
    let reading = read(&folder.path("heron.yaml"), &wishes);
    reading.design.unwrap_or_else(|| panic!("{:#?}", reading.problems))
}

fn booklet(design: &Design) -> Booklet {
    let work = stitch(design);
    let tally = tally(design, &work);
    let wording = Wording::built_in(&design.studio.language).expect("built in");
    compose(design, &work, &tally, &wording, &plain(Paper::A4)).expect("composed")
}

const KINDS: [(&str, EarWire); 5] = [
    ("", EarWire::Hook),
    (" kind: hook,", EarWire::Hook),
    (" kind: lever back,", EarWire::LeverBack),
    (" kind: stud,", EarWire::Stud),
    (" kind: hoop,", EarWire::Hoop),
];

/// How far a drawing reaches above its topmost bead, in millimetres.
fn above(drawing: &Drawing) -> f64 {
    let beads = drawing.marks.iter().filter_map(|mark| match mark {
        Mark::Bead(bead) => Some(bead.centre.y.0 - bead.length.0 / 2.0),
        _ => None,
    });
    beads.fold(f64::INFINITY, f64::min)
}

#[test]
fn each_kind_has_a_drawing_of_its_own_that_hangs_from_the_same_place() {
    let mut seen: Vec<(EarWire, Drawing)> = Vec::new();
    for (wire, kind) in KINDS {
        for hang in ["hang: thread guard", "hang: {loop: 8A}"] {
            let design = design(wire, "", hang, "en");
            assert_eq!(design.ear_wire(), kind);
            let drawing = pair(&design, &stitch(&design));
            let above = above(&drawing);
            // From the ball of a stud to the bend of a hook.
            assert!((5.0..25.0).contains(&above), "{kind:?}, {hang}: {above} mm above the beads");
            if hang == "hang: thread guard" {
                for (other, known) in &seen {
                    assert_eq!(*other == kind, *known == drawing, "{other:?} and {kind:?}");
                }
                seen.push((kind, drawing));
            }
        }
    }
}

#[test]
fn finishing_draws_how_each_loop_is_opened() {
    let mut seen: Vec<(EarWire, Drawing)> = Vec::new();
    for (wire, kind) in KINDS {
        let booklet = booklet(&design(wire, "", "hang: thread guard", "en"));
        let finishing =
            booklet.sections.iter().find(|section| section.name == "finishing").expect("finishing");
        let drawn: Vec<&Figure> = finishing.blocks.iter().flat_map(figures).collect();
        // A hoop opens at its catch: there is no loop to bend.
        assert_eq!(drawn.len(), usize::from(kind.has_loop()), "{kind:?}");
        for figure in drawn {
            let numbers: Vec<&str> = figure.drawing.marks.iter().filter_map(label).collect();
            assert_eq!(numbers, ["1", "2", "3"]);
            assert!(figure.caption.words().starts_with("1 the loop from the front; 2 right"), "{kind:?}");
            assert!(figure.alt.contains("crossed out as wrong"));
            for (other, known) in &seen {
                assert_eq!(*other == kind, *known == figure.drawing, "{other:?} and {kind:?}");
            }
            seen.push((kind, figure.drawing.clone()));
        }
    }
}

fn figures(block: &Block) -> Vec<&Figure> {
    match block {
        Block::Figure(figure) => vec![figure],
        Block::Together(blocks) => blocks.iter().flat_map(figures).collect(),
        _ => Vec::new(),
    }
}

fn label(mark: &Mark) -> Option<&str> {
    if let Mark::Label(label) = mark { Some(&label.text) } else { None }
}

#[test]
fn the_words_are_those_of_the_kind_in_each_language() {
    for (language, wire, wanted) in [
        ("en", " kind: hook,", ["Open the loop of the ear wire", "The ear wire"]),
        ("en", " kind: stud,", ["Open the loop of the ear stud", "The ear stud"]),
        ("en", " kind: hoop,", ["Open the hoop, lead it through the thread guard", "The hoop"]),
        ("de", " kind: lever back,", ["Die Öse der Brisur", "Die Brisur"]),
        ("de", " kind: hoop,", ["Die Creole öffnen", "Die Creole"]),
        ("fr", " kind: lever back,", ["Ouvrir l’œillet de la dormeuse", "La dormeuse"]),
        ("fr", " kind: stud,", ["Ouvrir l’œillet du clou d’oreille", "Le clou d’oreille"]),
        ("es", " kind: hoop,", ["Abrir el aro", "El aro"]),
    ] {
        let text = format!("{:?}", booklet(&design(wire, "", "hang: thread guard", language)));
        for part in wanted {
            assert!(text.contains(part), "{language}{wire} {part}");
        }
    }
    // A hoop has no loop that might be closed.
    let closed = |wire: &str| {
        format!("{:?}", booklet(&design(wire, "", "hang: thread guard", "en")))
            .contains("is closed, it goes on now")
    };
    assert!(closed(" kind: stud,") && !closed(" kind: hoop,"));
}

/// The items of the list of tools.
fn tools(design: &Design) -> Vec<String> {
    use fringebook::booklet::Block;
    let booklet = booklet(design);
    let materials = booklet.sections.iter().find(|s| s.name == "materials").expect("materials");
    let lists = materials.blocks.iter().filter_map(|block| match block {
        Block::Together(blocks) => blocks.iter().find_map(|block| match block {
            Block::List { items, .. } => Some(items.iter().map(|item| item.words()).collect()),
            _ => None,
        }),
        _ => None,
    });
    let lists: Vec<Vec<String>> = lists.collect();
    let [list] = lists.as_slice() else { panic!("one list: {lists:?}") };
    list.clone()
}

#[test]
fn the_tools_listed_are_those_that_the_steps_use() {
    let named = "tools: {ruler: steel ruler, needle: needle no. 12, pliers: two pliers}\n";
    let guard = "hang: thread guard";
    assert_eq!(
        tools(&design(" kind: hook,", named, guard, "en")),
        ["needle no. 12", "small sharp scissors", "two pliers", "beading mat", "steel ruler"]
    );
    // Nothing is bent open for a hoop, unless something joins several hangings.
    assert_eq!(
        tools(&design(" kind: hoop,", named, guard, "en")),
        ["needle no. 12", "small sharp scissors", "beading mat", "steel ruler"]
    );
    let two = "hang: [{loop: 6A, at: 1-2}, {loop: 6A, at: 4-5}]\nfindings: [ear wire]";
    assert!(tools(&design(" kind: hoop,", named, two, "en")).contains(&"two pliers".to_owned()));
    // Without names of the maker's own they are called as usual; a list stays as it is.
    assert_eq!(
        tools(&design(" kind: hook,", "", guard, "de")),
        ["Perlennadel", "kleine scharfe Schere", "zwei Flachzangen", "Perlenmatte", "Lineal"]
    );
    assert_eq!(tools(&design("", "tools: [tweezers]\n", guard, "de")), ["tweezers"]);
}

/// The finished size is that of the whole earring; the step measures the body, and says so.
#[test]
fn each_width_says_what_it_measures() {
    let text = format!("{:?}", booklet(&design("", "", "hang: thread guard", "en")));
    assert!(text.contains(" wide, "), "the cover");
    assert!(text.contains("By itself, without the fringe, it measures about "), "the check of the body");
}
