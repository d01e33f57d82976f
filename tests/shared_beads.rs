//! Letters that stand for one bead share a row wherever beads are listed, and are counted as one colour.

use crate::maker::{DESIGN, Folder};
use fringebook::booklet::{Block, Booklet, Cell, Edition, Table, Templates, Wording, compose};
use fringebook::design::{Paper, Wishes, read};
use fringebook::stitch::stitch;
use fringebook::tally::tally;

/// A booklet of the small design with these letters and colourways.
fn booklet(letters: &str, colourways: &str, wishes: &Wishes) -> Booklet {
    let design = DESIGN.replace("{A: ink, B: mist, C: ember}", letters) + colourways;
    let folder = Folder::new().with("heron.yaml", &design);
    let design = read(&folder.path("heron.yaml"), wishes).design.expect("a design");
    let work = stitch(&design);
    let tally = tally(&design, &work);
    let wording = Wording::with(&design.studio.language, &Templates::BUILT_IN).expect("a built-in language");
    let edition = Edition {
        paper: Paper::A4,
        grey: false,
        large_print: false,
        tablet: false,
        stamp: None,
        digest: String::new(),
        digest_parts: Vec::new(),
        before: None,
    };
    compose(&design, &work, &tally, &wording, &edition).expect("composed")
}

fn tables<'b>(booklet: &'b Booklet, section: &str) -> Vec<&'b Table> {
    fn of<'b>(block: &'b Block, tables: &mut Vec<&'b Table>) {
        match block {
            Block::Table(table) => tables.push(table),
            Block::Together(blocks) => blocks.iter().for_each(|block| of(block, tables)),
            _ => {}
        }
    }
    let section = booklet.sections.iter().find(|s| s.name == section).expect("the section");
    let mut tables = Vec::new();
    section.blocks.iter().for_each(|block| of(block, &mut tables));
    tables
}

/// The cells of a table as texts; of swatches their letters.
fn rows(table: &Table) -> Vec<Vec<String>> {
    let text = |cell: &Cell| match cell {
        Cell::Text(text) => text.words(),
        Cell::Swatches(swatches) => {
            swatches.iter().filter_map(|s| s.letter).map(String::from).collect::<Vec<_>>().join(", ")
        }
        Cell::Empty | Cell::Tick(_) | Cell::Parts(_) | Cell::Across(_) => String::new(),
    };
    table.rows.iter().map(|row| row.cells.iter().map(text).collect()).collect()
}

#[test]
fn letters_of_one_bead_share_a_row_of_the_materials() {
    // A 23, B 6, C 4: with A and C of one bead, 27 and 6.
    let booklet = booklet("{A: ink, B: mist, C: ink}", "", &Wishes::default());
    let beads = rows(tables(&booklet, "materials")[0]);
    let told: Vec<Vec<&str>> =
        beads.iter().map(|row| [0, 3, 4, 6, 7].iter().map(|&i| row[i].as_str()).collect()).collect();
    assert_eq!(
        told,
        [
            vec!["A, C", "27", "54", "1", "2.90"],
            vec!["B", "6", "12", "1", "3.10"],
            vec!["", "33", "66", "2", "6.00"]
        ]
    );
    assert!(format!("{booklet:?}").contains("66 in the pair, 2 colours"));
}

#[test]
fn letters_that_change_to_one_bead_share_a_row_of_their_colourway() {
    let booklet = booklet(
        "{A: ink, B: mist, C: ember}",
        "colourways:\n  Pale: {C: frost, A: frost, B: ember}\n",
        &Wishes::default(),
    );
    let [changes] = tables(&booklet, "colourways")[..] else { panic!("one table") };
    assert_eq!(
        rows(changes),
        [vec!["A, C", "Frost", "Ink black, Ember"], vec!["B", "Ember", "Mist"]]
            .map(|row| row.into_iter().map(str::to_owned).collect::<Vec<_>>())
    );
    assert!(format!("{booklet:?}").contains("in colourway Pale: A and C are Frost and B is Ember."));
}

#[test]
fn the_booklet_of_a_colourway_counts_its_own_beads() {
    let wishes = Wishes { colourway: Some("Dark".to_owned()), ..Wishes::default() };
    let booklet = booklet("{A: ink, B: mist, C: ember}", "colourways:\n  Dark: {B: ink, C: ink}\n", &wishes);
    let beads = rows(tables(&booklet, "materials")[0]);
    assert_eq!((beads.len(), beads[0][0].as_str(), beads[0][3].as_str()), (2, "A, B, C", "33"));
    assert!(format!("{booklet:?}").contains("66 in the pair, 1 colour\""));
}

#[test]
fn a_letter_that_is_never_strung_is_no_colour() {
    let booklet = booklet("{A: ink, B: mist, C: ember, D: frost}", "", &Wishes::default());
    assert!(format!("{booklet:?}").contains("66 in the pair, 3 colours"));
}

/// A title that is only the file's name would tell nothing of the file.
#[test]
fn the_title_of_the_file_says_what_it_is_in_each_language() {
    let title = |language: &str| {
        let wishes = Wishes { language: Some(language.to_owned()), ..Wishes::default() };
        let booklet = booklet("{A: ink, B: mist, C: ember}", "", &wishes);
        assert_eq!(booklet.running_title, "Small Heron");
        booklet.meta.title
    };
    assert_eq!(title("en"), "Small Heron: pattern booklet");
    assert_eq!(title("en-US"), "Small Heron: pattern booklet");
    assert_eq!(title("de"), "Small Heron: Anleitungsheft");
    assert_eq!(title("fr"), "Small Heron\u{a0}: livret de modèle");
    assert_eq!(title("es"), "Small Heron: cuaderno de patrón");
}

/// Headings help where they are fewer than what they head.
#[test]
fn a_table_of_few_cells_has_no_headings_of_its_rows() {
    let booklet = booklet("{A: ink, B: mist, C: ember}", "", &Wishes::default());
    for section in ["materials", "rows", "strands"] {
        for table in tables(&booklet, section) {
            let heads = table.head.len() + table.told_header().map_or(0, |_| table.rows.len());
            let cells = table.rows.len() * table.columns.len() + table.head.len() - heads;
            assert!(heads <= cells, "{}: {heads} headings of {cells} cells", table.summary);
        }
    }
    let beads = tables(&booklet, "materials")[0];
    assert_eq!(beads.told_header(), Some(1));
}
