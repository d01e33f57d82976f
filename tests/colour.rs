//! Colour against tables from outside the project; their sources stand in `check-values/SOURCES.md`.

use fringebook::colour::{Colour, Lab, Sight, delta_e, ink_on};

/// Rows of a table of check values without its heading.
fn table(name: &str) -> Vec<Vec<String>> {
    let path = format!("{}/tests/check-values/{name}", env!("CARGO_MANIFEST_DIR"));
    let mut reader = csv::Reader::from_path(path).expect("the table is there");
    reader.records().map(|row| row.expect("a row").iter().map(str::to_owned).collect()).collect()
}

fn number(text: &str) -> f64 {
    text.parse().expect("a number")
}

fn near(got: f64, expected: f64, tolerance: f64, what: &str) {
    assert!((got - expected).abs() <= tolerance, "{what}: got {got}, expected {expected} within {tolerance}");
}

#[test]
fn the_34_published_pairs_of_ciede2000_are_met_both_ways_round() {
    let rows = table("ciede2000.csv");
    assert_eq!(rows.len(), 34);
    for (index, row) in rows.iter().enumerate() {
        let n: Vec<f64> = row.iter().map(|cell| number(cell)).collect();
        let one = Lab { l: n[0], a: n[1], b: n[2] };
        let two = Lab { l: n[3], a: n[4], b: n[5] };
        near(delta_e(one, two), n[6], 1e-4, &format!("pair {}", index + 1));
        near(delta_e(two, one), n[6], 1e-4, &format!("pair {} turned round", index + 1));
    }
}

#[test]
fn srgb_becomes_cielab_as_in_three_other_implementations() {
    let rows = table("srgb_lab.csv");
    assert_eq!(rows.len(), 15);
    for row in rows {
        let lab = Colour::from_hex(&row[0]).expect("a colour").lab();
        for source in 0..3 {
            let expected = &row[1 + 3 * source..4 + 3 * source];
            near(lab.l, number(&expected[0]), 0.02, &row[0]);
            near(lab.a, number(&expected[1]), 0.02, &row[0]);
            near(lab.b, number(&expected[2]), 0.02, &row[0]);
        }
    }
}

#[test]
fn contrast_is_the_ratio_of_wcag_2_2() {
    let rows = table("wcag_contrast.csv");
    assert_eq!(rows.len(), 16);
    for row in rows {
        let (one, two) =
            (Colour::from_hex(&row[0]).expect("a colour"), Colour::from_hex(&row[1]).expect("a colour"));
        near(one.luminance(), number(&row[2]), 1e-6, &row[0]);
        near(two.luminance(), number(&row[3]), 1e-6, &row[1]);
        near(one.contrast(two), number(&row[4]), 1e-4, &format!("{} on {}", row[0], row[1]));
        near(two.contrast(one), number(&row[4]), 1e-4, &format!("{} on {}", row[1], row[0]));
    }
}

fn sight(name: &str) -> Sight {
    match name {
        "protan" | "Protanomaly" => Sight::Protanopia,
        "deutan" | "Deuteranomaly" => Sight::Deuteranopia,
        "tritan" | "Tritanomaly" => Sight::Tritanopia,
        other => panic!("no such deficiency: {other}"),
    }
}

#[test]
fn the_matrices_are_those_of_machado_2009_at_full_severity() {
    let mut met = 0;
    for row in table("machado2009.csv") {
        if row[1] == "1.0" {
            let expected: Vec<f64> = row[2..].iter().map(|cell| number(cell)).collect();
            assert_eq!(sight(&row[0]).matrix().concat(), expected, "{}", row[0]);
            met += 1;
        }
    }
    assert_eq!(met, 3);
}

#[test]
fn colours_look_to_colour_blind_eyes_as_another_implementation_shows_them() {
    let mut met = 0;
    for row in table("cvd_samples.csv") {
        if row[0] != "Machado2009" {
            continue;
        }
        let c: Vec<u8> = row[3..].iter().map(|cell| cell.parse().expect("a channel")).collect();
        let seen = sight(&row[1]).simulate(Colour::new(c[0], c[1], c[2]));
        for (got, expected) in [(seen.r, c[3]), (seen.g, c[4]), (seen.b, c[5])] {
            assert!(got.abs_diff(expected) <= 1, "{row:?}: got {seen}");
        }
        met += 1;
    }
    assert_eq!(met, 21);
}

#[test]
fn letters_are_written_in_the_ink_that_contrasts_more_and_enough_for_text() {
    assert_eq!(ink_on(Colour::WHITE), Colour::BLACK);
    assert_eq!(ink_on(Colour::BLACK), Colour::WHITE);
    // The two contrasts cross where (Y + 0.05)² = 1.05 × 0.05, between these greys.
    assert_eq!(ink_on(Colour::new(0x76, 0x76, 0x76)), Colour::BLACK);
    assert_eq!(ink_on(Colour::new(0x75, 0x75, 0x75)), Colour::WHITE);
    for r in (0..=255).step_by(15) {
        for g in (0..=255).step_by(15) {
            for b in (0..=255).step_by(15) {
                let ground = Colour::new(r, g, b);
                let ink = ink_on(ground);
                let other = if ink == Colour::BLACK { Colour::WHITE } else { Colour::BLACK };
                assert!(ground.contrast(ink) >= ground.contrast(other), "{ground}");
                assert!(ground.contrast(ink) >= 4.5, "{ground}");
            }
        }
    }
}

#[test]
fn grey_keeps_the_luminance_and_a_mix_lies_between() {
    for hex in ["#1b1c20", "#ff0000", "#ffa500", "#123456", "#ffffff", "#000000"] {
        let colour = Colour::from_hex(hex).expect("a colour");
        let grey = colour.grey();
        assert!(grey.r == grey.g && grey.g == grey.b, "{hex}");
        near(grey.lab().l, colour.lab().l, 0.5, hex);
    }
    let (red, blue) = (Colour::new(200, 0, 0), Colour::new(0, 0, 100));
    assert_eq!(red.mix(blue, 0.0), red);
    assert_eq!(red.mix(blue, 1.0), blue);
    assert_eq!(red.mix(blue, 0.5), Colour::new(100, 0, 50));
    assert_eq!(red.mix(blue, -3.0), red);
    assert_eq!(red.mix(blue, 7.0), blue);
}

#[test]
fn colours_are_read_and_written_as_hex() {
    let colour = Colour::from_hex("#1B1c20").expect("a colour");
    assert_eq!(colour, Colour::new(0x1b, 0x1c, 0x20));
    assert_eq!(colour.to_string(), "#1b1c20");
    for wrong in ["", "1b1c20", "#1b1c2", "#1b1c200", "#1b1c2g", "#+b1c20", "#é1c20"] {
        assert_eq!(Colour::from_hex(wrong), None, "{wrong}");
    }
}
