//! A good design with its palette and studio, to be spoiled one thing at a time.

pub const DESIGN: &str = r#"title: Little Triangle
summary: A small two-drop triangle.
edition: 1
date: 2026-03-21
skill: easy

colours: {A: ink, B: mist, C: reed}

body:
  stitch: brick
  drop: 2
  picture: |
    ..A A
    ..B B
    .A B A
    .B C B
    A B B A
    A C C A

fringe:
  mirror: true
  strands:
    - 8A 2B 1C
    - 9A 2(1B 1C)

pair: same
hang: thread guard
colourways:
  River: {A: slate}
"#;

pub const PALETTE: &str = r##"currency: EUR
beads:
  ink:
    name: Ink
    colour: "#23262d"
    shape: cylinder
    size: 11/0
    pack: {grams: 5, price: 2.60}
  mist: {name: Mist, colour: "#c3d2d8", shape: cylinder, size: 11/0}
  slate: {name: Slate, colour: "#5f7d95", shape: cylinder, size: 11/0, stock: 3}
  reed: {name: Reed, colour: "#9c9352", shape: cylinder, width: 1.6 mm, length: 1.3 mm, hole: 0.8 mm, per gram: 200}
threads:
  body: {name: braided thread, colour: "#ffffff", diameter: 0.15 mm}
  fringe: {name: beading nylon, colour: "#ffffff", diameter: 0.25 mm, stretch first: true}
findings:
  thread guard: {name: thread guard, holes: 4.0 mm apart, per earring: 1}
  ear wire: {name: ear wire, per earring: 1}
needle: 0.40 mm
tools: [beading needle size 12, scissors]
"##;

pub const STUDIO: &str = "name: Studio Willow Weir\npaper: both\n";
