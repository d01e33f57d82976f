//! Small booklets made by hand, for tests of layout: every kind of block, and a chart of any size.

use fringebook::booklet::*;
use fringebook::colour::Colour;
use fringebook::design::{CoverWay, Paper, Side};
use fringebook::drawn::{
    Align, BeadLook, BeadMark, Drawing, Face, LabelMark, Mark, OwnFaces, PathMark, Segment, Shape, Shine,
    Stroke,
};
use fringebook::stitch::SectionKind;
use fringebook::units::{Mm, Point, Pt, Size};

pub fn setting(paper: Paper) -> Setting {
    Setting {
        paper,
        large_print: false,
        grey: false,
        accent: Colour::new(0x2f, 0x6f, 0x73),
        tint: None,
        fonts: OwnFaces::NONE,
        bench: false,
        tablet: false,
    }
}

pub fn words() -> PageWords {
    let said = |words: &str| LatePiece::Words(words.to_owned());
    PageWords {
        cover: "Cover".into(),
        back: "Back".into(),
        page_of: Late(vec![said("Page "), LatePiece::Value(0), said(" of "), LatePiece::Value(1)]),
        continued: "continued".into(),
        chart_part: Late(vec![said("Part "), LatePiece::Value(0), said(" of "), LatePiece::Value(1)]),
        chart_part_pale: Late(vec![
            said("Part "),
            LatePiece::Value(0),
            said(" of "),
            LatePiece::Value(1),
            said(" (pale beads stand in another part)"),
        ]),
        layer_letters: "Letters".into(),
        layer_marks: "Marks".into(),
        layer_grid: "Grid".into(),
        row: Late(vec![said("Row "), LatePiece::Value(0)]),
        from_left: "from the left".into(),
        from_right: "from the right".into(),
        strand: Late(vec![said("Strand "), LatePiece::Value(0)]),
        step: Late(vec![said("Step "), LatePiece::Value(0)]),
        on_chart: "on the chart".into(),
        in_rows: "in the word chart".into(),
        in_strands: "in the bead list".into(),
        screen_links: ["Back", "Contents", "Chart", "Forward"].map(String::from),
    }
}

pub fn booklet(setting: Setting, sections: Vec<Section>) -> Booklet {
    Booklet {
        meta: Meta {
            title: "Reed Bed".into(),
            author: "Studio".into(),
            subject: "Earrings".into(),
            keywords: vec!["fringe".into()],
            language: "en-GB".into(),
            date: None,
            edition: 1,
            rights: "©".into(),
            digest: "00".into(),
            digest_parts: Vec::new(),
            stamp: None,
        },
        setting,
        running_title: "Reed Bed".into(),
        foot_line: "© 2026 Lantern & Loom. For your own making; please do not pass this file on.".into(),
        head: None,
        foot: None,
        stamp: None,
        words: words(),
        sections,
    }
}

pub fn section(name: &str, title: &str, blocks: Vec<Block>) -> Section {
    Section { name: name.into(), title: title.into(), new_page: true, faces: false, listed: true, blocks }
}

pub fn para(text: &str) -> Block {
    Block::Paragraph { text: Text::marked(text), style: ParagraphStyle::Body }
}

pub fn heading(level: u8, text: &str) -> Block {
    Block::Heading { level, text: Text::plain(text) }
}

pub const PROSE: &str = "Begin with the foundation row in ladder stitch: neighbouring stacks are joined by thread \
    bridges along the edge, and every later row hangs on them. Keep the tension even, so that the stacks stand \
    upright, and **count each row** before going on to the next; a missing bead is easily added now and hardly later.";

pub const COLOURS: [(char, Colour); 4] = [
    ('A', Colour::new(0x1b, 0x1c, 0x20)),
    ('B', Colour::new(0xc9, 0xd6, 0xd8)),
    ('C', Colour::new(0xb2, 0x8b, 0x3e)),
    ('D', Colour::new(0xc2, 0x4d, 0x2c)),
];

pub fn swatch(i: usize) -> Swatch {
    let (letter, colour) = COLOURS[i % COLOURS.len()];
    Swatch {
        letter: Some(letter),
        colour,
        shape: Shape::Cylinder,
        pattern: None,
        alt: format!("bead {letter}"),
    }
}

pub fn legend() -> Vec<LegendEntry> {
    let names = ["Ink black", "Mist", "Old gold", "Ember"];
    (0..4)
        .map(|i| LegendEntry {
            swatch: swatch(i),
            name: names[i].into(),
            note: format!("{} in one earring", 40 + i * 31),
        })
        .collect()
}

/// A chart of a triangle of two-drop rows, from this many foundation stacks to three, over a pointed fringe
/// of this many beads at its sides.
pub fn chart(stacks: usize, side_beads: usize) -> Chart {
    let (w, l) = (1.6, 1.3);
    let mut beads = Vec::new();
    let mut rows = Vec::new();
    let count = stacks - 2;
    for row in 0..count {
        let n = stacks - row;
        let lead = row as f64 * w / 2.0;
        let top = (count - 1 - row) as f64 * 2.0 * l;
        for stack in 0..n {
            for level in 0..2 {
                let (letter, colour) = COLOURS[(stack.min(n - 1 - stack) + row) % 3];
                beads.push(ChartBead {
                    kind: SectionKind::Row,
                    number: row + 1,
                    letter,
                    colour,
                    centre: Point::new(lead + (stack as f64 + 0.5) * w, top + (level as f64 + 0.5) * l),
                    width: Mm(w),
                    length: Mm(l),
                    shape: Shape::Cylinder,
                    turned: 0.0,
                    pattern: None,
                    faded: false,
                });
            }
        }
        rows.push(ChartRow {
            number: row + 1,
            from: if row % 2 == 0 { Side::Left } else { Side::Right },
            top: Mm(top),
            bottom: Mm(top + 2.0 * l),
            joints: vec![Mm(top + l)],
            left: Mm(lead),
            right: Mm(lead + n as f64 * w),
        });
    }
    let foot = count as f64 * 2.0 * l;
    let mut strands = Vec::new();
    for strand in 0..stacks {
        let n = side_beads + strand.min(stacks - 1 - strand);
        let x = (strand as f64 + 0.5) * w;
        for bead in 0..n {
            let (letter, colour) = COLOURS[if bead + 1 == n { 3 } else { bead / 5 % 3 }];
            beads.push(ChartBead {
                kind: SectionKind::Strand,
                number: strand + 1,
                letter,
                colour,
                centre: Point::new(x, foot + (bead as f64 + 0.5) * l),
                width: Mm(w),
                length: Mm(l),
                shape: Shape::Cylinder,
                turned: 0.0,
                pattern: None,
                faded: false,
            });
        }
        strands.push(ChartStrand {
            number: strand + 1,
            x: Mm(x),
            wide: Mm(w),
            top: Mm(foot),
            bottom: Mm(foot + n as f64 * l),
            middles: [Mm(foot + 0.5 * l), Mm(foot + (n as f64 - 0.5) * l)],
            fifths: (1..=n / 5).map(|k| Mm(foot + 5.0 * k as f64 * l)).collect(),
        });
    }
    let anchor = &rows[2.min(rows.len() - 1)];
    let at = Point { x: anchor.left + Mm(w), y: (anchor.top + anchor.bottom) / 2.0 };
    Chart {
        part: ChartPart::Whole,
        beads,
        anchors: vec![ChartAnchor { at, width: Mm(2.0 * w), height: Mm(2.0 * l), mark: "1".into() }],
        rows,
        strands,
        legend: legend(),
        alt: "Colour chart".into(),
        caption: Text::plain("Each row is read from its number; bars mark every fifth bead of a strand."),
        ticks: None,
        leads: None,
        max_height: None,
        bare: false,
    }
}

pub fn drawing(width: f64, height: f64) -> Drawing {
    let bead = |x: f64, y: f64, (_, colour): (char, Colour)| {
        Mark::Bead(BeadMark {
            centre: Point::new(x, y),
            width: Mm(4.8),
            length: Mm(3.9),
            shape: Shape::Cylinder,
            colour,
            turned: 0.0,
            look: BeadLook::Flat,
        })
    };
    let mut marks = Vec::new();
    for i in 0..((width / 4.8) as usize) {
        for j in 0..2 {
            marks.push(bead(2.4 + 4.8 * i as f64, height - 6.0 + 3.9 * j as f64, COLOURS[(i + j) % 4]));
        }
    }
    let stroke =
        Stroke { colour: Colour::new(0xb0, 0x20, 0x30), width: Mm(0.4), dash: Vec::new(), round: true };
    marks.push(Mark::Path(PathMark {
        segments: vec![
            Segment::Move(Point::new(2.0, height - 9.0)),
            Segment::Curve(
                Point::new(4.0, 0.0),
                Point::new(width - 4.0, 0.0),
                Point::new(width - 3.0, height - 9.0),
            ),
        ],
        fill: None,
        stroke: Some(stroke),
    }));
    marks.push(Mark::Label(LabelMark {
        at: Point::new(width / 2.0, height / 4.0),
        text: "3".into(),
        size: Pt(7.0),
        colour: Colour::BLACK,
        align: Align::Middle,
        middle: true,
        face: Face::Bold,
        halo: Some(Colour::WHITE),
    }));
    Drawing { size: Size { width: Mm(width), height: Mm(height) }, true_size: false, marks }
}

pub fn figure(width: f64, height: f64) -> Figure {
    Figure {
        drawing: drawing(width, height),
        moves: Vec::new(),
        caption: Text::plain("Under the bridge, then back up through the stack just added."),
        alt: "Thread path".into(),
    }
}

pub fn materials(rows: usize) -> Table {
    let fit = |align| Column { align, width: ColumnWidth::Fit };
    let text = |s: &str| Cell::Text(Text::plain(s));
    let head = ["", "Bead", "Finish", "Shape and size", "Code", "One", "Pair", "Grams", "Packs"];
    let mut body: Vec<TableRow> = vec![TableRow { cells: vec![text("Beads")], kind: RowKind::Group }];
    for i in 0..rows {
        body.push(TableRow {
            cells: vec![
                Cell::Swatches(vec![swatch(i)]),
                text(["Ink black", "Mist over the marsh", "Old gold", "Ember"][i % 4]),
                text(["opaque matte", "transparent rainbow", "metallic", "silver-lined"][i % 4]),
                text("cylinder 11/0"),
                text("QF-010"),
                text(&(100 + i * 7).to_string()),
                text(&(200 + i * 14).to_string()),
                text("1.24 g"),
                text("1"),
            ],
            kind: RowKind::Plain,
        });
    }
    let mut total = vec![Cell::Empty, text("Together")];
    total.extend([Cell::Empty, Cell::Empty, Cell::Empty, text("300"), text("600"), text("3.1 g"), text("4")]);
    body.push(TableRow { cells: total, kind: RowKind::Total });
    Table {
        summary: "Materials".into(),
        columns: vec![
            fit(Align::Start),
            Column { align: Align::Start, width: ColumnWidth::Share(1.0) },
            Column { align: Align::Start, width: ColumnWidth::Share(1.0) },
            fit(Align::Start),
            fit(Align::Start),
            fit(Align::End),
            fit(Align::End),
            fit(Align::End),
            fit(Align::End),
        ],
        head: head.iter().map(|h| if h.is_empty() { Text::default() } else { Text::plain(*h) }).collect(),
        rows: body,
        row_header: Some(1),
    }
}

pub fn word_chart(rows: usize) -> Table {
    let text = |s: String| Cell::Text(Text::plain(s));
    let fit = |align| Column { align, width: ColumnWidth::Fit };
    Table {
        summary: "Word chart".into(),
        columns: vec![
            fit(Align::Start),
            fit(Align::End),
            fit(Align::Start),
            fit(Align::Start),
            Column { align: Align::Start, width: ColumnWidth::Share(1.0) },
            fit(Align::End),
        ],
        head: ["Done", "Row", "From the", "Start with", "Then", "Beads"]
            .iter()
            .map(|h| Text::plain(*h))
            .collect(),
        rows: (1..=rows)
            .map(|r| TableRow {
                cells: vec![
                    Cell::Tick(Tick { name: format!("row-{r}"), tooltip: format!("Row {r} done") }),
                    text(r.to_string()),
                    text(if r % 2 == 1 { "left" } else { "right" }.into()),
                    text("A B B A".into()),
                    text("3\u{a0}AB · 1\u{a0}BB · 5\u{a0}CC · 1\u{a0}BB · 3\u{a0}AB".into()),
                    text((36 - 2 * (r % 15)).to_string()),
                ],
                kind: RowKind::Plain,
            })
            .collect(),
        row_header: Some(1),
    }
}

pub fn step(number: usize, figures: Vec<Figure>) -> Block {
    Block::Step(Step {
        number,
        on_chart: None,
        title: Text::plain("Add the third stack of the foundation"),
        blocks: vec![
            para(
                "String **2 A**, slide them down to the work, and pass through the stack before again, from the top.",
            ),
            para(
                "Then go up through the new stack once more. The thread leaves at the top; pull until it stands close.",
            ),
        ],
        figures,
    })
}

pub fn cover() -> Section {
    let mut drawn = drawing(60.0, 90.0);
    for i in 0..12 {
        for j in 0..20 {
            drawn.marks.push(Mark::Bead(BeadMark {
                centre: Point::new(3.0 + 4.9 * f64::from(i), 4.0 + 4.2 * f64::from(j)),
                width: Mm(4.8),
                length: Mm(3.9),
                shape: Shape::Cylinder,
                colour: COLOURS[((i + j) % 4) as usize].1,
                turned: 0.0,
                look: BeadLook::Lifelike(Shine::default()),
            }));
        }
    }
    Section {
        name: "cover".into(),
        title: String::new(),
        new_page: true,
        faces: false,
        listed: false,
        blocks: vec![Block::Cover(Cover {
            kind: "Pattern for bead-stitched fringe earrings".into(),
            title: "Reed Bed".into(),
            colourway: None,
            summary: Text::plain("A two-drop triangle in marsh colours over a long pointed fringe."),
            art: CoverArt::Drawn(drawn),
            alt: "The finished earrings".into(),
            facts: [
                ("Finished size", "26 × 84 mm without the ear wire (1 × 3 ¼ in)"),
                ("Skill level", "Intermediate"),
                ("Technique", "Ladder stitch, brick stitch, fringe"),
                ("Weight", "4.1 g each"),
                ("Time", "About six hours"),
            ]
            .iter()
            .map(|(a, b)| ((*a).into(), (*b).into()))
            .collect(),
            studio: "Lantern & Loom".into(),
            web: "https://lantern-and-loom.example".into(),
            edition: "Edition 1 · March 2026".into(),
            way: CoverWay::Framed,
            logo: None,
        })],
    }
}

/// Every kind of block.
pub fn full(setting: Setting) -> Booklet {
    let callout =
        |kind, title: &str| Block::Callout { kind, title: Text::plain(title), blocks: vec![para(PROSE)] };
    let sections = vec![
        cover(),
        section(
            "glance",
            "At a glance",
            vec![
                Block::Paragraph { text: Text::plain("Two earrings, one evening each, and a fringe that moves."), style: ParagraphStyle::Small },
                Block::Contents,
                heading(2, "How to read the charts"),
                para(PROSE),
                para(&PROSE.replace("upright", "upright; see [the colour chart](#chart) and [our page](https://lantern-and-loom.example)")),
                Block::List { numbered: false, items: vec![Text::plain("A stack is two beads."), Text::marked(PROSE), Text::plain("A strand ends in a turning bead.")] },
                Block::List { numbered: true, items: (0..11).map(|i| Text::plain(format!("Item {i} of a list that is numbered."))).collect() },
                callout(CalloutKind::Note, "Good to know"),
                callout(CalloutKind::Check, "Check before going on"),
                callout(CalloutKind::Caution, "Small parts"),
            ],
        ),
        section("materials", "Materials", vec![Block::Table(materials(6))]),
        section("chart", "Colour chart", vec![para("Seen from the front, as it hangs."), Block::Chart(chart(17, 20))]),
        section("words", "Word chart", vec![para(PROSE), Block::Table(word_chart(45))]),
        section(
            "steps",
            "Steps",
            vec![
                step(1, vec![figure(58.0, 30.0)]),
                step(2, vec![figure(60.0, 24.0), figure(40.0, 24.0)]),
                step(3, vec![]),
                step(4, vec![figure(58.0, 24.0), figure(58.0, 24.0), figure(58.0, 24.0)]),
                step(10, vec![figure(150.0, 50.0)]),
            ],
        ),
        section(
            "colourways",
            "Colourways",
            (0..3).map(|_| Block::Chart(Chart { max_height: Some(Mm(70.0)), ..chart(9, 12) })).collect(),
        ),
    ];
    booklet(setting, sections)
}
