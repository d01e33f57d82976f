//! What is counted for one design, and for several together.

use crate::maker::{DESIGN, Folder, PALETTE};
use fringebook::tally::{Order, gather};
use fringebook::units::{Grams, Mm};

fn near(got: f64, expected: f64) {
    assert!((got - expected).abs() < 1e-9, "got {got}, expected {expected}");
}

#[test]
fn beads_are_counted_by_letter_for_one_earring_and_the_pair() {
    let counted = Folder::new().with("heron.yaml", DESIGN).count("heron.yaml");
    // Counted by hand on the picture and the strands: letter, body, fringe.
    let by_hand = [('A', 8, 15), ('B', 4, 2), ('C', 0, 4)];
    let got: Vec<(char, usize, usize)> =
        counted.tally.beads.iter().map(|b| (counted.design.symbol(b.letter), b.body, b.fringe)).collect();
    assert_eq!(got, by_hand);
    for bead in &counted.tally.beads {
        assert_eq!(bead.one, bead.body + bead.fringe);
        assert_eq!(bead.pair, 2 * bead.one);
    }
    assert_eq!((counted.tally.beads_one, counted.tally.beads_pair), (33, 66));
}

#[test]
fn grams_carry_the_spare_and_packs_are_rounded_up() {
    let counted = Folder::new().with("heron.yaml", DESIGN).count("heron.yaml");
    let ink = &counted.tally.beads[0];
    // 46 beads at 200 to the gram, and a tenth more.
    near(ink.grams.0, 46.0 / 200.0 * 1.1);
    assert_eq!((ink.packs, ink.price), (Some(1), Some(2.90)));
    // 33 beads of one earring; a cylinder bead 11/0 by its glass: 2.52 g/cm³ × π/4 × (1.6² − 0.8²) × 1.3 mm³.
    let by_geometry = 33.0 * 2.52e-3 * std::f64::consts::FRAC_PI_4 * (1.6 * 1.6 - 0.8 * 0.8) * 1.3;
    let weight = counted.tally.weight.0;
    assert!((weight / by_geometry - 1.0).abs() < 0.3, "{weight} g, by geometry {by_geometry} g");
}

#[test]
fn letters_of_one_bead_share_its_packs() {
    let design = DESIGN.replace("C: ember", "C: ink");
    let counted = Folder::new().with("heron.yaml", &design).count("heron.yaml");
    let packs: Vec<Option<u32>> = counted.tally.beads.iter().map(|b| b.packs).collect();
    assert_eq!(packs, [Some(1), Some(1), Some(0)]);
    let palette = PALETTE.replacen("grams: 5", "grams: 0.15", 1);
    let counted =
        Folder::new().with("palette.yaml", &palette).with("heron.yaml", &design).count("heron.yaml");
    // A has 46 beads and C 8: (46 + 8) / 200 × 1.1 = 0.297 g, together 2 packs of 0.15 g; apart 2 and 1.
    let packs: Vec<Option<u32>> = counted.tally.beads.iter().map(|b| b.packs).collect();
    assert_eq!(packs, [Some(2), Some(1), Some(0)]);
}

#[test]
fn the_cost_is_of_everything_or_not_given() {
    let folder = Folder::new().with("heron.yaml", DESIGN);
    let counted = folder.count("heron.yaml");
    // A pack of each bead, a spool of each thread, two guards and two ear wires.
    near(counted.tally.cost.expect("all prices are given"), 2.90 + 3.10 + 3.40 + 6.50 + 4.20 + 0.40 + 1.10);
    for price in [", price: 3.40", ", price: 6.50", ", price: 0.55"] {
        assert!(PALETTE.contains(price), "{price}");
        let folder =
            Folder::new().with("palette.yaml", &PALETTE.replace(price, "")).with("heron.yaml", DESIGN);
        assert_eq!(folder.count("heron.yaml").tally.cost, None, "without {price}");
    }
}

#[test]
fn one_spool_serves_both_uses_of_one_thread() {
    let design = format!("{DESIGN}threads: {{body: body, fringe: body}}\n");
    let folder = Folder::new().with("heron.yaml", &design);
    let counted = folder.count("heron.yaml");
    let spools: Vec<(Option<u32>, Option<f64>)> =
        counted.tally.threads.iter().map(|t| (t.spools, t.price)).collect();
    assert_eq!(spools, [(Some(1), Some(6.50)), (Some(0), Some(0.0))]);
    // Each use alone needs less than the metre of this spool, both together more.
    let palette = PALETTE.replace("spool: {length: 45 m", "spool: {length: 1 m");
    let counted =
        Folder::new().with("palette.yaml", &palette).with("heron.yaml", &design).count("heron.yaml");
    assert!(counted.tally.threads.iter().all(|t| t.pair < Mm(1000.0)));
    assert_eq!(counted.tally.threads[0].spools, Some(2));
}

#[test]
fn thread_and_size_come_from_the_work() {
    let counted = Folder::new().with("heron.yaml", DESIGN).count("heron.yaml");
    let (tally, work) = (&counted.tally, &counted.work);
    assert_eq!(tally.threads.len(), 2);
    let cut: Mm = work.cuts.iter().map(|cut| cut.cut).sum();
    let counted_cut: Mm = tally.threads.iter().flat_map(|thread| thread.cuts.iter().copied()).sum();
    assert_eq!(cut, counted_cut);
    let pair: Mm = tally.threads.iter().map(|thread| thread.pair).sum();
    near(pair.0, 2.0 * cut.0);
    // Five stacks 1.6 mm wide; three rows 1.3 mm high; the longest strand has five beads.
    near(tally.size.width.0, 8.0);
    near(tally.size.body_height.0, 3.9);
    assert!((tally.size.longest_strand.0 - 5.0 * 1.3).abs() < 0.5, "{:?}", tally.size);
    assert!(tally.size.drop >= tally.size.body_height + tally.size.longest_strand);
}

#[test]
fn a_gathering_is_the_sum_of_its_designs() {
    let other =
        DESIGN.replace("Small Heron", "Orchard").replace("B: mist", "B: frost").replace("3A 1C", "40A 1C");
    let folder = Folder::new().with("heron.yaml", DESIGN).with("orchard.yaml", &other);
    let (one, two) = (folder.count("heron.yaml"), folder.count("orchard.yaml"));
    let orders = [
        Order { design: &one.design, tally: &one.tally, pairs: 12 },
        Order { design: &two.design, tally: &two.tally, pairs: 5 },
    ];
    let gathering = gather(&orders);
    let keys: Vec<&str> = gathering.beads.iter().map(|b| b.key.as_str()).collect();
    assert_eq!(keys, ["ink", "mist", "ember", "frost"]);
    for line in &gathering.beads {
        let (mut count, mut grams) = (0, Grams::ZERO);
        for order in &orders {
            for bead in &order.tally.beads {
                if order.design.palette.beads[bead.bead.0].key == line.key {
                    count += bead.pair as u64 * u64::from(order.pairs);
                    grams += bead.grams * f64::from(order.pairs);
                }
            }
        }
        assert_eq!(line.count, count, "{}", line.key);
        near(line.grams.0, grams.0);
        let missing = (line.grams.0 - line.stock.map_or(0.0, |g| g.0)).max(0.0);
        near(line.missing.0, missing);
        assert_eq!(line.packs_to_buy, Some((missing / 5.0).ceil() as u32), "{}", line.key);
    }
    // The shelf has 1.5 g of ink.
    assert_eq!(gathering.beads[0].stock, Some(Grams(1.5)));
    for line in &gathering.threads {
        let length: Mm = orders
            .iter()
            .flat_map(|o| o.tally.threads.iter().map(move |t| (o, t)))
            .filter(|(_, t)| format!("{:?}", t.thread).to_lowercase() == line.key)
            .map(|(o, t)| t.pair * f64::from(o.pairs))
            .sum();
        near(line.length.0, length.0);
    }
    // 17 pairs, two of each finding a pair; three guards are on the shelf.
    let findings: Vec<(u64, u64)> = gathering.findings.iter().map(|f| (f.count, f.missing)).collect();
    assert_eq!(findings, [(34, 31), (34, 34)]);
    let prices = gathering.beads.iter().map(|b| b.price);
    let sum: Option<f64> = prices
        .chain(gathering.threads.iter().map(|t| t.price))
        .chain(gathering.findings.iter().map(|f| f.price))
        .sum();
    near(gathering.cost.expect("all prices are given"), sum.expect("all prices are given"));
}

#[test]
fn one_pair_gathered_costs_what_its_booklet_says_but_for_the_shelf() {
    let bare = PALETTE.replace(", stock: 1.5", "").replace(", stock: 12 m", "").replace(", stock: 3", "");
    let folder = Folder::new().with("palette.yaml", &bare).with("heron.yaml", DESIGN);
    let one = folder.count("heron.yaml");
    let gathering = gather(&[Order { design: &one.design, tally: &one.tally, pairs: 1 }]);
    near(gathering.cost.expect("prices"), one.tally.cost.expect("prices"));
}

#[test]
fn packs_are_rounded_up_once_for_all_designs() {
    // 46 beads of ink a pair weigh 0.253 g with spare: 19 pairs need 4.807 g, one pack, not 19.
    let folder = Folder::new().with("heron.yaml", DESIGN);
    let one = folder.count("heron.yaml");
    let gathered =
        |pairs| gather(&[Order { design: &one.design, tally: &one.tally, pairs }]).beads[0].clone();
    assert_eq!(gathered(19).packs, Some(1));
    assert_eq!(gathered(20).packs, Some(2));
    // The shelf has 1.5 g.
    assert_eq!(gathered(20).packs_to_buy, Some(1));
    assert_eq!(gathered(5).packs_to_buy, Some(0));
}

#[test]
fn beads_of_one_name_in_two_palettes_are_not_added_up() {
    let other = PALETTE.replace("QF-010", "QF-099");
    let (here, there) = (
        Folder::new().with("heron.yaml", DESIGN),
        Folder::new().with("palette.yaml", &other).with("heron.yaml", DESIGN),
    );
    let (one, two) = (here.count("heron.yaml"), there.count("heron.yaml"));
    let gathering = gather(&[
        Order { design: &one.design, tally: &one.tally, pairs: 1 },
        Order { design: &two.design, tally: &two.tally, pairs: 1 },
    ]);
    let lines: Vec<(&str, Option<&str>)> =
        gathering.beads.iter().map(|b| (b.key.as_str(), b.code.as_deref())).collect();
    assert_eq!(
        lines,
        [("ink", Some("QF-010")), ("mist", Some("QF-022")), ("ember", None), ("ink", Some("QF-099"))]
    );
    assert_eq!(gathering.beads[1].count, 2 * one.tally.beads[1].pair as u64);
}
