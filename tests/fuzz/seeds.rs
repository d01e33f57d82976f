//! What is mutated: the demo files, the good files of other tests, and files that use every key there is.

use crate::wrong_design_files::good;

/// A design with every key.
const EVERY_KEY: &str = r##"title: "Wren & Reed: “late”"
summary: Every key once.
edition: 3
date: 2026-11-02
skill: complex
palette: palette.yaml
studio: studio.yaml
colours: {A: ink, B: mist, C: reed}
body:
  stitch: brick
  drop: 1
  picture: |
    ....A B
    ...A C A
    ..A B C A
  below: |
    ...A B C
    ..C A B C
fringe:
  along: lowest row
  from: 1
  to: 4
  every: 1
  each: 1
  turn: 3
  strands:
    - 6A 1B 3C
    - {beads: 2(3A 1B) 1C, turn: 1}
    - 9A 2(1B 1C) 3A
    - 7A 3B 3C
pair: mirrored
hang: {loop: 14A}
start: right
threads: {body: body, fringe: fringe}
thread: {arm span: 150 cm, tail: 12 cm, allowance: 10 %, spare beads: 5 %}
findings: [ear wire]
colourways:
  River: {name: {en: River, de: Fluss}, A: slate}
  Grey: {A: mist, B: ink}
"##;

/// A palette with every key.
const EVERY_PALETTE_KEY: &str = r##"currency: EUR
needle: 0.40 mm
beads:
  ink: {name: {en: Ink, de: Tinte}, finish: {en-US: matte, de: matt}, colour: "#23262d", code: QF-1, supplier: Reed Lane Beads, shape: cylinder, size: 11/0, pack: {grams: 5, price: 2.60}, stock: 3}
  mist: {name: Mist, colour: "#c3d2d8", shape: round, size: 11/0, replaced by: slate}
  slate: {name: Slate, colour: "#5f7d95", shape: cylinder, size: 11/0, stock: 3}
  reed: {name: Reed, colour: "#9c9352", shape: cylinder, width: 1.6 mm, length: 1.3 mm, hole: 0.8 mm, per gram: 200}
threads:
  body: {name: braided thread, colour: "#ffffff", diameter: 0.15 mm, spool: {length: 50 m, price: 4.20}, stock: 4 m}
  fringe: {name: nylon, colour: "#ffffff", diameter: 0.20 mm, stretch first: true}
findings:
  thread guard: {name: thread guard, holes: 4.0 mm apart, per earring: 1, price: 0.40, stock: 6}
  ear wire: {name: ear wire, kind: lever back, per earring: 1}
tools: {needle: {fr: aiguille 0.40 mm, en: needle}, scissors: scissors, pliers: pliers, mat: mat, ruler: ruler}
"##;

/// A studio with every key but the pictures.
const EVERY_STUDIO_KEY: &str = r##"name: Studio Willow Weir
web: willow-weir.example
contact: hello@willow-weir.example
copyright: {en: © Studio Willow Weir, de: Alle Rechte vorbehalten}
terms:
  - {de: Bitte nicht kopieren., en: Please do not copy it.}
  - "Sell what you made: [ask us](https://willow-weir.example)."
accent: "#2f5563"
paper: both
language: de
units: imperial
large print: true
thread: {arm span: 5 ft, tail: 4 in}
"##;

const HERON: &str = include_str!("../../demo-designs/heron-at-dusk.yaml");
const PEAR: &str = include_str!("../../demo-designs/pear-blossom.yaml");
const TIDE: &str = include_str!("../../demo-designs/tide-line.yaml");
const MOON: &str = include_str!("../../demo-designs/waning-moon.yaml");
const WELL: &str = include_str!("../../demo-designs/well-of-stars.yaml");
const BED: &str = include_str!("../../demo-designs/reed-bed.yaml");
const DEMO_PALETTE: &str = include_str!("../../demo-designs/palette.yaml");
const DEMO_STUDIO: &str = include_str!("../../demo-designs/studio.yaml");

/// A design with the palette and the studio that it goes with.
#[derive(Clone, Copy)]
pub struct Set {
    /// The three texts.
    pub design: &'static str,
    pub palette: &'static str,
    pub studio: &'static str,
}

/// The small set of other tests.
pub const SMALL: Set = Set { design: good::DESIGN, palette: good::PALETTE, studio: good::STUDIO };
/// Every key once.
pub const FULL: Set = Set { design: EVERY_KEY, palette: EVERY_PALETTE_KEY, studio: EVERY_STUDIO_KEY };

const fn demo(design: &'static str) -> Set {
    Set { design, palette: DEMO_PALETTE, studio: DEMO_STUDIO }
}

/// All sets. The small ones come first and are taken most: more inputs in the same time.
pub const SETS: [Set; 8] =
    [SMALL, FULL, demo(WELL), demo(BED), demo(PEAR), demo(HERON), demo(TIDE), demo(MOON)];

/// All texts, for pieces of one in another.
pub const TEXTS: [&str; 12] = [
    good::DESIGN,
    EVERY_KEY,
    WELL,
    BED,
    PEAR,
    HERON,
    TIDE,
    MOON,
    good::PALETTE,
    EVERY_PALETTE_KEY,
    EVERY_STUDIO_KEY,
    DEMO_STUDIO,
];
