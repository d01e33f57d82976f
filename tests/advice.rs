//! What a maker is advised, word for word.

use crate::maker::{DESIGN, Folder, PALETTE};

/// The advice on a design with a palette: line (0 where it has no place), message, hint.
fn advice(design: &str, palette: &str) -> Vec<(usize, String, String)> {
    Folder::new().with("palette.yaml", palette).with("heron.yaml", design).count("heron.yaml").advice()
}

/// Changes a text in a file of the tests, which must have it.
fn with(text: &str, old: &str, new: &str) -> String {
    assert!(text.contains(old), "no `{old}`");
    text.replace(old, new)
}

/// Asserts that this is all the advice there is.
fn only(advice: &[(usize, String, String)], line: usize, message: &str, hint: &str) {
    let told: Vec<(usize, &str, &str)> =
        advice.iter().map(|(line, message, hint)| (*line, message.as_str(), hint.as_str())).collect();
    assert_eq!(told, [(line, message, hint)]);
}

#[test]
fn a_design_with_nothing_amiss_gets_no_advice() {
    assert_eq!(advice(DESIGN, PALETTE), []);
}

#[test]
fn a_heavy_earring() {
    // 23 beads at 1.8 to the gram, and 10 at 200.
    let palette = with(PALETTE, "size: 11/0, pack: {grams: 5, price: 2.90}", "size: 11/0, per gram: 1.8");
    only(
        &advice(DESIGN, &palette),
        0,
        "one earring weighs 12.8 g, over 10 g",
        "shorten the strands or choose smaller beads: heavy earrings pull on the ear",
    );
}

#[test]
fn a_top_row_too_narrow_or_too_wide_for_the_guard() {
    let narrow = with(DESIGN, "    ..A A A\n    .A B B A\n    A B A B A\n", "    .A A\n    A A A\n");
    let narrow = with(&narrow, "    - 3A 1C\n    - 3A 1C\n", "    - 3B 1C\n");
    let told = advice(&narrow, &with(PALETTE, r##""#1b1c20""##, r##""#e8e8e8""##));
    let told: Vec<_> = told.into_iter().filter(|(_, message, _)| message.contains("top row")).collect();
    only(
        &told,
        9,
        "the top row is too narrow for the thread guard: its outer stacks are 1.6 mm apart, the guard's holes 4.0 mm",
        "end the body with 3 or 4 stacks, or choose another guard",
    );
    only(
        &advice(DESIGN, &with(PALETTE, "holes: 4.0 mm apart", "holes: 1.8 mm apart")),
        9,
        "the top row is too wide for the thread guard: its outer stacks are 3.2 mm apart, the guard's holes 1.8 mm",
        "end the body with 2 stacks, or choose another guard",
    );
    // A loop of beads takes any top row.
    let looped = with(DESIGN, "hang: thread guard", "hang: {loop: 8A}");
    assert_eq!(advice(&looped, &with(PALETTE, "holes: 4.0 mm apart", "holes: 9.0 mm apart")), []);
}

#[test]
fn several_hangings_are_joined_and_stand_clear_of_each_other() {
    let hang = |hang: &str| {
        with(DESIGN, "..A A A\n    .A B B A\n    A B A B A", "A A A A A")
            .replace("hang: thread guard", &format!("hang: [{hang}]"))
    };
    let joined = with(PALETTE, "findings:", "findings:\n  bar: {name: connector bar}");
    let advice = |design: &str, palette: &str| {
        let mut told = advice(design, palette);
        told.retain(|(_, message, _)| !message.contains("will show"));
        told
    };
    let told = advice(&hang("{loop: 6A, at: 1-2}, {loop: 6A, at: 4-5}"), PALETTE);
    only(
        &told,
        0,
        "the earring hangs from 2 places, and nothing joins them to its ear wire",
        "list what does under `findings:`, such as a connector bar, two jump rings or a chain",
    );
    let with_bar = |text: String| text + "findings: [thread guard, bar, ear wire]\n";
    let apart = with_bar(hang("{loop: 6A, at: 1-2}, {loop: 6A, at: 4-5}"));
    assert_eq!(advice(&apart, &joined), []);
    only(
        &advice(&with_bar(hang("{thread guard: 1-3}, {loop: 6A, at: 4-5}")), &joined),
        9,
        "what hangs on stacks 1 and 3 of the top row reaches 0.8 mm into what hangs on 4 and 5",
        "hang them further apart, or choose a smaller guard or loop",
    );
}

#[test]
fn long_strands() {
    only(
        &advice(&with(DESIGN, "3A 2B", "90A 2B"), PALETTE),
        17,
        "strand 3 from the left is 120 mm long, over 100 mm",
        "shorten it, or warn the customer: long strands tangle and catch in collars",
    );
    only(
        &advice(&with(DESIGN, "3A 1C", "80A 1C"), PALETTE),
        15,
        "strands 1–2 and 4–5 from the left are over 100 mm long, the longest 105 mm",
        "shorten them, or warn the customer: long strands tangle and catch in collars",
    );
}

#[test]
fn strands_have_the_numbers_by_which_the_booklet_works_them() {
    let whole = with(DESIGN, "  mirror: true\n", "");
    let lines = "    - 90A 1C\n    - 3A 1C\n    - 3A 2B\n    - 3A 1C\n    - 3A 1C\n";
    let whole = with(&whole, "    - 3A 1C\n    - 3A 1C\n    - 3A 2B\n", lines);
    let started_right = format!("{}\nstart: right\n", whole.trim_end());
    let told = advice(&started_right, PALETTE);
    assert_eq!(
        told[0].1, "strand 5 from the right is 118 mm long, over 100 mm",
        "the left strand is worked last"
    );
    let started_left = with(&started_right, "start: right", "start: left");
    assert_eq!(advice(&started_left, PALETTE)[0].1, "strand 1 from the left is 118 mm long, over 100 mm");
}

#[test]
fn a_pair_of_strands_that_breaks_the_mirror_of_all_others() {
    let wide = with(DESIGN, "    A B A B A\n", "    A B A B A\n   A B A A B A\n  A B A B A B A\n");
    let wide = wide.replace(
        "    ..A A A\n    .A B B A\n    A B A B A\n",
        "    ....A A A\n    ...A B B A\n    ..A B A B A\n",
    );
    let wide = with(&wide, "   A B A A B A\n  A B A B A B A\n", "    .A B A A B A\n    A B A B A B A\n");
    let strands = |second: &str| {
        let lines: String = ["3A 1C", second, "5A 1C", "6A 1C", "5A 1C", "4A 1C", "3A 1C"]
            .map(|s| format!("    - {s}\n"))
            .concat();
        let head = with(&wide, "  mirror: true\n", "");
        with(&head, "    - 3A 1C\n    - 3A 1C\n    - 3A 2B\n", &lines)
    };
    assert_eq!(advice(&strands("4A 1C"), PALETTE), []);
    only(
        &advice(&strands("3A 1C"), PALETTE),
        21,
        "strands 2 and 6 from the left are 5.2 mm and 6.5 mm long, while the lengths of 2 of 3 pairs mirror each other",
        "if the fringe is to be mirrored, write `mirror: true` and the left half with the middle strand only",
    );
    // A fringe that slants on purpose is nobody's slip.
    let slanting = strands("4A 1C").replace("    - 3A 1C\n    - 4A 1C\n", "    - 9A 1C\n    - 8A 1C\n");
    assert_eq!(advice(&slanting, PALETTE), []);
}

#[test]
fn letters_that_are_never_used() {
    only(
        &advice(&with(DESIGN, "C: ember", "C: ember, D: frost"), PALETTE),
        4,
        "D (Frost) is never used, nor the pack of 5 g that it is sold in",
        "use the letter in the picture or the strands, or take it out of `colours`",
    );
    // No pack is bought for nothing where another letter uses the bead, or where none is known.
    for (colours, message) in
        [("C: ember, D: ember", "D (Ember) is never used"), ("C: ember, D: pearl", "D (Pearl) is never used")]
    {
        only(
            &advice(&with(DESIGN, "C: ember", colours), PALETTE),
            4,
            message,
            "use the letter in the picture or the strands, or take it out of `colours`",
        );
    }
}

#[test]
fn a_pack_that_only_the_spare_beads_open() {
    // 46 beads a pair at 200 to the gram: 0.23 g, with spare 0.253 g.
    only(
        &advice(DESIGN, &with(PALETTE, "{grams: 5, price: 2.90}", "{grams: 0.12, price: 2.90}")),
        4,
        "only the spare beads of A (Ink black) open pack 3: the pair takes 0.2 g, and 2 packs hold 0.2 g",
        "use a few beads less of it and save the customer a pack",
    );
}

#[test]
fn colours_that_look_alike() {
    only(
        &advice(&with(DESIGN, "C: ember", "C: frost"), PALETTE),
        4,
        "B (Mist) and C (Frost) are hard to tell apart: they differ by 4.8, under 8 (CIEDE2000)",
        "make one of them clearly lighter or darker, or keep the letters on the chart",
    );
    only(
        &advice(&with(DESIGN, "C: ember", "C: mist"), PALETTE),
        4,
        "B and C (Mist) are one and the same bead",
        "use one letter for both: customers look for a second bead",
    );
    // A bead of another shape is told apart by its shape.
    assert_eq!(advice(&with(DESIGN, "C: ember", "C: pearl"), PALETTE), []);
}

#[test]
fn colours_that_look_alike_to_colour_blind_eyes_or_in_grey() {
    // Values of the Python package colour-science 0.4.7: Machado matrices, CIEDE2000, CIELAB lightness.
    let cases = [
        ("#b2f4f4", "#f3ffff", "for red-blind eyes (4.1)"),
        ("#d0cae8", "#ffcfff", "for green-blind eyes (4.5) and for red-blind eyes (4.1)"),
        ("#b2beb2", "#71c8ad", "for green-blind eyes (1.9), for red-blind eyes (2.9) and in grey (1.0)"),
        ("#c4dce2", "#c9d2ff", "for blue-blind eyes (4.4) and in grey (1.4)"),
        ("#dcbeca", "#96d29d", "in grey (0.7)"),
    ];
    for (one, other, whom) in cases {
        let palette = with(PALETTE, r##""#c9d3d8""##, &format!("\"{one}\""));
        let palette = with(&palette, r##""#d2452b""##, &format!("\"{other}\""));
        let told = advice(DESIGN, &palette);
        let told: Vec<_> =
            told.into_iter().filter(|(_, m, _)| m.starts_with("B (Mist) and C (Ember)")).collect();
        only(
            &told,
            4,
            &format!("B (Mist) and C (Ember) are hard to tell apart {whom}"),
            "make one of them clearly lighter or darker, or keep the letters on the chart",
        );
    }
}

#[test]
fn beads_that_the_thread_hardly_passes_or_not_at_all() {
    let thick = with(PALETTE, "0.12 mm", "0.20 mm");
    let told = advice(DESIGN, &with(&thick, "0.15 mm", "0.30 mm"));
    let told: Vec<(usize, &str, &str)> =
        told.iter().map(|(line, message, hint)| (*line, message.as_str(), hint.as_str())).collect();
    assert_eq!(
        told,
        [
            (
                11,
                "the thread will not pass Mist in row 1: 6 passes of braided thread 6 lb (0.20 mm) and 3 passes of beading nylon (0.30 mm), the last with a needle of 0.40 mm, need 0.90 mm, and the hole has 0.80 mm",
                "take a thread of 0.16 mm or less for beading nylon, or choose a bead with a hole of at least 0.91 mm"
            ),
            (
                11,
                "the thread is tight in Ink black in rows 1–2 and strands 1–5 from the left: 3 passes of braided thread 6 lb (0.20 mm) and 3 passes of beading nylon (0.30 mm), the last with a needle of 0.40 mm, need 0.80 mm, and the hole has 0.80 mm",
                "take a thread of 0.14 mm or less for beading nylon, or choose a bead with a hole of at least 0.94 mm"
            ),
            (
                11,
                "the thread is tight in Mist in rows 1–2 and strand 3 from the left: 6 passes of braided thread 6 lb (0.20 mm) and 1 pass of beading nylon (0.30 mm), the last with a needle of 0.40 mm, need 0.76 mm, and the hole has 0.80 mm",
                "take a thread of 0.29 mm or less for beading nylon and a needle of 0.25 mm, or choose a bead with a hole of at least 0.90 mm"
            ),
            (
                17,
                "beading nylon will show where it begins: the closest stacks to anchor in, row 2, stacks 1 and 2 from the left, differ from it by 34, over 25 (CIEDE2000)",
                "no one colour hides in them: give a row below the top two neighbouring stacks of one colour"
            ),
        ]
    );
}

#[test]
fn a_remedy_for_a_thread_that_does_not_pass_makes_it_pass() {
    let thick = with(PALETTE, "0.12 mm", "0.20 mm");
    let will_not = |palette: &str| {
        advice(DESIGN, palette).iter().filter(|(_, message, _)| message.contains("will not pass")).count()
    };
    assert_eq!(will_not(&with(&thick, "0.15 mm", "0.30 mm")), 1);
    assert_eq!(will_not(&with(&thick, "0.15 mm", "0.17 mm")), 0);
    // Larger holes in the beads that are written on one line, of which Mist is one.
    let wider = with(&with(&thick, "0.15 mm", "0.30 mm"), "size: 11/0", "size: 11/0, hole: 0.94 mm");
    assert_eq!(will_not(&wider.replace("    size: 11/0, hole: 0.94 mm", "    size: 11/0")), 0);
}

#[test]
fn anchors_that_show() {
    only(
        &advice(DESIGN, &with(PALETTE, r##""#b8c2c8""##, r##""#00c020""##)),
        17,
        "beading nylon will show where it begins: the closest stacks to anchor in, row 2, stacks 2 and 3 from the left, differ from it by 35, over 25 (CIEDE2000)",
        "use a thread of the colour of braided thread 6 lb (#ffffff) from the palette: it differs by 11",
    );
    // Both threads green: no other thread to point to, so the beads' own colour.
    let green = with(PALETTE, r##""#b8c2c8""##, r##""#00c020""##);
    let told = advice(DESIGN, &with(&green, r##""#ffffff""##, r##""#00c020""##));
    let hints: Vec<&str> = told.iter().map(|(_, _, hint)| hint.as_str()).collect();
    assert_eq!(hints, ["use a thread near the colour of Mist (#c9d3d8); the palette has none"; 2]);
    // Black and white stacks side by side everywhere below the top: no thread hides.
    let checked = with(DESIGN, ".A B B A", ".B A B A");
    let told = advice(&checked, &green);
    let hints: Vec<&str> = told.iter().map(|(_, _, hint)| hint.as_str()).collect();
    assert_eq!(
        hints,
        ["no one colour hides in them: give a row below the top two neighbouring stacks of one colour"; 2]
    );
}

/// A design of 52 letters, each with a bead of its own, and its palette: greys of every kind.
fn of_all_letters() -> (String, String) {
    let letters: Vec<char> = ('A'..='Z').chain('a'..='z').collect();
    let colours: Vec<String> = letters.iter().enumerate().map(|(i, c)| format!("{c}: b{i}")).collect();
    let beads: String = (0..letters.len())
        .map(|i| {
            let shade = 40 + 4 * i;
            let colour = format!("\"#{shade:02x}{shade:02x}{shade:02x}\"");
            format!("  b{i}: {{name: Grey {i}, colour: {colour}, shape: cylinder, size: 11/0, pack: {{grams: 5}}}}\n")
        })
        .collect();
    let palette = with(PALETTE, "beads:\n", &format!("beads:\n{beads}"));
    let runs: String = letters[..48].iter().collect();
    let design = with(DESIGN, "{A: ink, B: mist, C: ember}", &format!("{{{}}}", colours.join(", ")));
    (with(&design, "- 3A 2B", &format!("- {runs}")), palette)
}

#[test]
fn many_letters_are_told_together() {
    let (design, palette) = of_all_letters();
    let told: Vec<String> = advice(&design, &palette)
        .into_iter()
        .map(|(line, message, _)| format!("{line}: {message}"))
        .collect();
    insta::assert_snapshot!(told.join("\n"));
}

#[test]
fn many_tight_beads_and_unused_letters_are_told_together() {
    let (design, palette) = of_all_letters();
    let palette = with(&palette, "diameter: 0.15 mm", "diameter: 0.6 mm");
    let few: String = "ABCDEFGHIJ".into();
    let all: String = ('A'..='Z').chain('a'..='v').collect();
    let told: Vec<String> = advice(&with(&design, &all, &few), &palette)
        .into_iter()
        .filter(|(_, message, _)| message.contains("thread") || message.contains("never used"))
        .map(|(line, message, hint)| format!("{line}: {message}\n  {hint}"))
        .collect();
    insta::assert_snapshot!(told.join("\n"));
}
