//! The command `count`, as a maker uses it.

use crate::maker::{DESIGN, Folder, PALETTE, err, out};
use std::process::Command;

fn two_designs() -> Folder {
    let other = DESIGN.replace("Small Heron", "Orchard, \"ripe\"").replace("B: mist", "B: frost");
    Folder::new().with("heron.yaml", DESIGN).with("orchard.yaml", &other)
}

#[test]
fn a_table_of_everything_for_several_designs() {
    let folder = two_designs();
    let run = folder.run(&["count", "heron.yaml=12", "orchard.yaml", "--pairs", "5"]);
    assert_eq!((run.status.code(), err(&run)), (Some(0), String::new()));
    assert_eq!(
        out(&run),
        r#"Design           pairs  beads
Small Heron         12    792
Orchard, "ripe"      5    330

Bead       code    beads  with spare  in stock  missing  a pack  to buy  price
Ink black  QF-010    782      4.30 g    1.50 g   2.80 g     5 g  1 pack   2.90
Mist       QF-022    144      0.79 g             0.79 g     5 g  1 pack   3.10
Ember                136      0.75 g             0.75 g     5 g  1 pack   3.40
Frost                 60      0.33 g             0.33 g     5 g  1 pack   3.20

Thread                length  in stock  missing   to buy  price
braided thread 6 lb  13.60 m            13.60 m  1 spool   6.50
beading nylon        11.90 m   12.00 m        –        –      –

Finding              pieces  in stock  missing  price
thread guard             34         3       31   6.20
lever-back ear wire      34                 34  18.70

To buy: 44.00 EUR
"#
    );
}

#[test]
fn a_colourway_is_counted_with_its_own_beads_and_named() {
    let design = format!("{DESIGN}colourways:\n  Snow: {{B: frost}}\n");
    let folder = Folder::new().with("heron.yaml", &design);
    let run = folder.run(&["count", "heron.yaml", "--colourway", "Snow"]);
    assert_eq!((run.status.code(), err(&run)), (Some(0), String::new()));
    let text = out(&run);
    assert!(text.contains("\nSmall Heron (Snow)      1     66\n"), "{text}");
    assert!(text.contains("\nFrost ") && !text.contains("\nMist "), "{text}");
}

/// What another program's standard library reads out of both files.
fn read_by_python(folder: &Folder) -> Vec<Vec<String>> {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/outside/read_count.py");
    let read = Command::new("python3")
        .arg(script)
        .arg(folder.path("count.csv"))
        .arg(folder.path("count.json"))
        .output()
        .expect("python3 is needed to read the files back");
    assert!(read.status.success(), "{}", String::from_utf8_lossy(&read.stderr));
    String::from_utf8(read.stdout)
        .expect("text")
        .lines()
        .map(|line| line.split('\t').map(str::to_owned).collect())
        .collect()
}

#[test]
fn csv_and_json_read_back_are_the_sums_of_the_designs() {
    let folder = two_designs();
    let words = ["count", "heron.yaml=12", "orchard.yaml=5"];
    for (form, file) in [("--csv", "count.csv"), ("--json", "count.json")] {
        let run = folder.run(&[&words[..], &[form]].concat());
        assert_eq!((run.status.code(), err(&run)), (Some(0), String::new()));
        std::fs::write(folder.path(file), &run.stdout).expect("a file");
    }
    let read = read_by_python(&folder);
    let counted = [(folder.count("heron.yaml"), 12.0), (folder.count("orchard.yaml"), 5.0)];
    let mut met = 0;
    for line in &read {
        let needed: f64 = match line[0].as_str() {
            "bead" => counted
                .iter()
                .flat_map(|(c, pairs)| c.tally.beads.iter().map(move |b| (c, b, pairs)))
                .filter(|(c, b, _)| c.design.palette.beads[b.bead.0].key == line[1])
                .map(|(_, b, pairs)| b.grams.0 * pairs)
                .sum(),
            "thread" => counted
                .iter()
                .flat_map(|(c, pairs)| c.tally.threads.iter().map(move |t| (t, pairs)))
                .filter(|(t, _)| format!("{:?}", t.thread).to_lowercase() == line[1])
                .map(|(t, pairs)| t.pair.0 * pairs)
                .sum(),
            "finding" => 17.0 * 2.0,
            _ => continue,
        };
        let got: f64 = line[2].parse().expect("a number");
        assert!((got - needed).abs() < 1e-5, "{line:?}: {needed}");
        met += 1;
    }
    assert_eq!(met, 4 + 2 + 2);
    assert_eq!(
        read.last().map(Vec::as_slice),
        Some(&["designs", "heron=12", "orchard=5"].map(str::to_owned)[..])
    );
}

#[test]
fn a_missing_price_or_currency_leaves_the_sum_out_and_says_why() {
    for (change, told) in [
        (("currency: EUR\n", ""), "To buy: no sum, because the palettes give no currency, or several\n"),
        ((", price: 3.40", ""), "To buy: no sum, because these have no price: Ember\n"),
    ] {
        let folder = Folder::new()
            .with("palette.yaml", &PALETTE.replace(change.0, change.1))
            .with("heron.yaml", DESIGN);
        let run = folder.run(&["count", "heron.yaml"]);
        assert!(out(&run).ends_with(told), "{}", out(&run));
    }
}

#[test]
fn a_design_that_cannot_be_read_leaves_no_half_sum() {
    let folder = two_designs().with("broken.yaml", "title: Broken\n");
    let run = folder.run(&["count", "heron.yaml", "broken.yaml"]);
    assert_eq!((run.status.code(), out(&run)), (Some(1), String::new()));
    assert!(err(&run).contains("broken.yaml"), "{}", err(&run));
    assert!(
        err(&run).ends_with(
            "error: nothing is counted, because a design cannot be read\n  what to do: mend it, or leave it out\n\n"
        ),
        "{}",
        err(&run)
    );
}

#[test]
fn wrong_words_are_wrong_usage() {
    let folder = two_designs();
    for words in [
        &["count"][..],
        &["count", "heron.yaml", "--pairs", "0"],
        &["count", "heron.yaml", "--csv", "--json"],
        &["count", "heron.yaml=x"],
    ] {
        let run = folder.run(words);
        assert_eq!((run.status.code(), out(&run)), (Some(2), String::new()), "{words:?}");
        assert!(!err(&run).is_empty(), "{words:?}");
    }
}
