//! The exact text a maker reads for each wrong file.

use super::spoiled::good;
use fringebook::design::Wishes;

macro_rules! told {
    ($($name:ident: $files:expr;)+) => { $(
        #[test]
        fn $name() {
            insta::with_settings!({ prepend_module_to_snapshot => false, snapshot_path => "snapshots", omit_expression => true }, {
                insta::assert_snapshot!(stringify!($name), $files.told());
            });
        }
    )+ };
}

// Files.
told! {
    empty_file: good().file("little.yaml", "");
    only_comments: good().file("little.yaml", "# to do\n\n# colours\n");
    binary_file: good().file("little.yaml", [0x89, b'P', b'N', b'G', 0, 1, 2, 3]);
    not_utf8: good().file("little.yaml", b"title: Caf\xe9\n".to_vec());
    design_missing: good().without("little.yaml");
    palette_missing: good().without("palette.yaml");
    palette_named_but_missing: good().design("edition: 1", "palette: beads.yaml");
    palette_is_the_design: good().design("edition: 1", "palette: little.yaml");
    palette_is_empty: good().file("palette.yaml", "\n");
    a_list_not_a_design: good().file("little.yaml", "- title\n- colours\n");
    a_text_not_a_design: good().file("little.yaml", "Heron at Dusk\n");
    larger_than_any_design: good().file("little.yaml", vec![b'#'; 4_000_001]);
    control_characters: good().design("Little", "Little\u{7}");
    two_documents: good().design("pair: same", "---\npair: same");
}

// Characters that nobody sees.
told! {
    delete_character: good().design("Little", "Little\u{7f}");
    escape_of_eight_bits: good().palette("name: Ink", "name: Ink\u{9b}31m");
    no_character: good().studio("Willow", "Wil\u{fffe}low");
    line_separator: good().design("Little Triangle", "Little\u{2028}Triangle");
    next_line: good().design("Little Triangle", "Little\u{85}Triangle");
    turned_writing: good().design("Little Triangle", "Little \u{202e}elgnairT");
    escape_in_quotes: good().design("title: Little Triangle", r#"title: "Little \e[31mTriangle""#);
    escape_in_a_key: good().palette("  ink:\n", "  \"in\\e[2Jk\":\n").design("A: ink", "A: mist");
}

// YAML.
told! {
    tab_indents: good().design("  drop: 2", "\tdrop: 2");
    brace_left_open: good().design("C: reed}", "C: reed");
    quote_left_open: good().design("title: Little", "title: \"Little");
    uneven_indentation: good().design("  drop: 2", "    drop: 2");
    key_twice: good().design("pair: same", "pair: same\npair: mirrored");
    letter_twice: good().design("C: reed}", "C: reed, A: slate}");
    aliases_that_multiply: good().file("little.yaml", alias_bomb());
    alias_of_itself: good().design("C: reed}", "C: &a {D: *a}}");
    unknown_alias: good().design("C: reed}", "C: *gone}");
    deep_nesting: good().design("title: Little Triangle", &format!("title: {}{}", "[".repeat(500), "]".repeat(500)));
    colon_in_a_title: good().design("Little Triangle", "Little: a Triangle");
    quote_left_open_in_braces: good().palette("{name: Mist,", "{name: \"Mist,");
    key_is_a_list: good().design("pair: same", "[a, b]: same");
}

fn alias_bomb() -> String {
    let mut text = String::from("a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n");
    for i in 1..12 {
        let names = vec![format!("*a{}", i - 1); 10].join(", ");
        text.push_str(&format!("a{i}: &a{i} [{names}]\n"));
    }
    text
}

// Keys and values.
told! {
    unknown_key: good().design("summary:", "sumary:");
    unknown_key_in_body: good().design("  drop: 2", "  drops: 2");
    title_missing: good().design("title: Little Triangle\n", "");
    title_empty: good().design("title: Little Triangle", "title:");
    edition_zero: good().design("edition: 1", "edition: 0");
    edition_of_words: good().design("edition: 1", "edition: first");
    date_of_no_calendar: good().design("2026-03-21", "2026-02-30");
    skill_unknown: good().design("skill: easy", "skill: hard");
    pair_unknown: good().design("pair: same", "pair: mirror");
    hang_unknown: good().design("hang: thread guard", "hang: thread gard");
    loop_without_beads: good().design("hang: thread guard", "hang: loop");
    loop_too_small: good().design("hang: thread guard", "hang: {loop: 2A}");
    colours_missing: good().design("colours: {A: ink, B: mist, C: reed}\n", "");
    edition_beyond_numbers: good().design("edition: 1", "edition: 99999999999999999999");
    key_is_a_number: good().design("edition: 1", "1: 1");
    body_is_a_list: good().design("body:\n", "body: [brick, 2]\nbdy:\n");
    loop_is_a_list: good().design("hang: thread guard", "hang: [8A]");
    body_is_a_number: good().design("body:\n", "body: 3\nbdy:\n");
}

// Letters and beads.
told! {
    unknown_bead: good().design("B: mist", "B: mits");
    unknown_bead_in_colourway: good().design("A: slate", "A: slat");
    unknown_letter_in_colourway: good().design("A: slate", "Z: slate");
    letter_of_two: good().design("C: reed}", "CC: reed}");
    letter_in_picture_unknown: good().design(".A B A", ".A Q A");
    small_letter: good().design(".A B A", ".A b A");
    digit_in_picture: good().design(".A B A", ".A 1 A");
    letter_with_an_accent: good().design(".A B A", ".A É A");
    fifty_three_letters: good().design("{A: ink, B: mist, C: reed}", &fifty_three());
}

fn fifty_three() -> String {
    let letters: Vec<String> =
        ('A'..='Z').chain('a'..='z').chain(['Ä']).map(|c| format!("{c}: ink")).collect();
    format!("{{{}}}", letters.join(", "))
}

// The picture.
told! {
    ragged_row: good().design("    A B B A\n", "    A B B\n");
    row_of_wrong_width: good().design("    .A B A\n    .B C B\n", "    A B B A\n    A C C A\n");
    lines_shifted_against_each_other: good().design("    .B C B\n", "    ..B C B\n");
    row_shifted: good().design("    .A B A\n    .B C B\n", "    A B A\n    B C B\n");
    line_missing: good().design("    .B C B\n", "");
    shifted_with_spaces: good().design("    ..A A\n    ..B B\n", "      A A\n      B B\n");
    spaces_in_a_later_row: good().design("    .A B A\n", "     A B A\n");
    letters_side_by_side: good().design("    A B B A\n", "    ABBA\n");
    gap_in_a_row: good().design("    A B B A\n", "    A B   A\n");
    dot_in_a_row: good().design("    A B B A\n", "    A . B A\n");
    tab_in_a_row: good().design("    A B B A\n", "    A\tB B A\n");
    picture_without_bar: good().design("picture: |", "picture:");
    picture_folded: good().design("picture: |", "picture: >");
    picture_empty: good().design("drop: 2\n  picture: |\n", "drop: 2\n  picture: |\n  x: |\n");
    row_of_one_width_without_dots: good().design("    ..A A\n    ..B B\n    .A B A\n    .B C B\n", "    A B B A\n    A B B A\n");
    row_that_floats: good().design("    .A B A\n    .B C B\n", "    .........A B A\n    .........B C B\n").design("    ..A A\n    ..B B\n", "");
    row_below_not_aside: good().design("  drop: 2", "  below: |\n    A A\n    A A\n  drop: 2");
    wrong_row_over_a_fringe_elsewhere: good().design("    .A B A\n    .B C B\n", "    A B A\n    B C B\n").design("  mirror: true\n", "  along: lowest row\n  every: 2\n");
    row_half_in_and_out_of_step: good().design("    ..A A\n    ..B B\n    .A B A\n    .B C B\n", "    ..A A\n    ..B B\n    ..A B\n    ..B C\n");
    row_that_overhangs_the_only_bridge: good().design("    ..A A\n    ..B B\n    .A B A\n    .B C B\n    A B B A\n    A C C A\n", "    A B\n    A B\n    ...A B\n    ...A B\n").design("    - 8A 2B 1C\n", "");
    row_below_that_floats: good().design("  drop: 2", "  below: |\n    .......A B\n    .......A B\n  drop: 2").design("  mirror: true\n", "");
    hole_in_a_row_below: good().design("  drop: 2", "  below: |\n    .A   A\n    .A B A\n  drop: 2");
    row_under_a_single_one: good().design("  drop: 2", "  below: |\n    .A B A\n    .A B A\n    ..A A\n    ..A A\n    ...A\n    ...A\n    ....A\n    ....A\n  drop: 2");
    strands_for_another_edge: good().design("  drop: 2", "  below: |\n    .A B A\n    .A B A\n    ..A A\n    ..A A\n  drop: 2");
    hung_from_no_two_stacks: good().design("hang: thread guard", "hang: {thread guard: middle}");
    hung_from_beyond_the_top: good().design("hang: thread guard", "hang: {loop: 8A, at: 2-9}");
    hung_from_several_without_places: good().design("hang: thread guard", "hang: [thread guard, {loop: 8A}]");
    hung_from_several_on_one_stack: good().design("hang: thread guard", "hang: [{loop: 8A, at: 1-2}, {loop: 9A, at: 1-2}]");
    hung_from_nothing: good().design("hang: thread guard", "hang: []");
    hung_from_an_empty_item: good().design("hang: thread guard", "hang:\n  - thread guard\n  -");
    hung_twice: good().design("hang: thread guard", "hang: {thread guard: 1-2, at: 1-2}");
    along_nothing_known: good().design("  mirror: true\n", "  mirror: true\n  along: fundation\n");
    stretch_of_no_fringe: good().design("  mirror: true\n", "  mirror: true\n  from: 3\n  to: 9\n");
    a_bundle_on_every_stack: good().design("  mirror: true\n", "  mirror: true\n  each: 40\n");
    stack_on_a_single_one: good().design("    ..A A\n", "    ....A\n    ....A\n    ...A\n    ...A\n    ..A A\n");
    drop_of_four: good().design("drop: 2", "drop: 4");
    stitch_unknown: good().design("stitch: brick", "stitch: bricks");
    rows_below: good().design("  drop: 2", "  below: |\n    A A\n  drop: 2");
    too_wide: good().design("    A B B A\n    A C C A\n", &format!("    {}\n    {}\n", wide(401), wide(401)));
    too_tall: good().design("    ..A A\n    ..B B\n", &"    ..A A\n".repeat(4001));
}

fn wide(stacks: usize) -> String {
    vec!["A"; stacks].join(" ")
}

// The fringe.
told! {
    strand_too_few: good().design("    - 9A 2(1B 1C)\n", "");
    strand_too_many: good().design("  mirror: true\n", "").design("    - 9A 2(1B 1C)\n", &"    - 9A 1B\n".repeat(4));
    strand_of_one_bead: good().design("    - 8A 2B 1C\n", "    - 1C\n");
    strand_too_short_for_its_picot: good().design("    - 8A 2B 1C\n", "    - {beads: 2A 1C, turn: 3}\n");
    strand_letter_unknown: good().design("8A 2B 1C", "8A 2B 1D");
    letter_unknown_in_picture_and_strand: good().design(".A B A", ".A Q A").design("8A 2B 1C", "8A 2Q 1C");
    strands_on_one_line: good().design("strands:\n    - 8A 2B 1C\n    - 9A 2(1B 1C)\n", "strands: 3A 1B\n");
    strand_number: good().design("8A 2B 1C", "25");
    strand_empty: good().design("- 8A 2B 1C", "-");
    count_zero: good().design("8A 2B 1C", "8A 0B 1C");
    count_of_a_billion: good().design("8A 2B 1C", "1000000000000A");
    count_beyond_numbers: good().design("8A 2B 1C", "99999999999999999999999999A");
    group_bomb: good().design("8A 2B 1C", "999(999(999(9A)))");
    groups_too_deep: good().design("8A 2B 1C", "((((((((((A))))))))))");
    group_left_open: good().design("2(1B 1C)", "2(1B 1C");
    group_never_opened: good().design("2(1B 1C)", "1B 1C)");
    group_of_nothing: good().design("2(1B 1C)", "2()");
    comma_in_a_strand: good().design("8A 2B 1C", "8A, 2B, 1C");
    strands_and_picture: good().design("  mirror: true\n", "  picture: |\n    A A A A\n");
    no_strands: good().design("    - 8A 2B 1C\n    - 9A 2(1B 1C)\n", "").design("  strands:\n", "  strands: []\n");
    bead_below_a_gap: good().design("  strands:\n    - 8A 2B 1C\n    - 9A 2(1B 1C)\n", "  picture: |\n    A A\n    . A\n    A B\n");
    too_many_strands: good().design("    - 8A 2B 1C\n", &"    - 2A\n".repeat(501));
    turn_zero: good().design("  mirror: true\n", "  mirror: true\n  turn: 0\n");
    mirror_unknown: good().design("mirror: true", "mirror: twice");
}

// The palette and the studio.
told! {
    colour_without_quotes: good().palette("\"#23262d\"", "#23262d");
    colour_without_quotes_in_braces: good().palette("\"#c3d2d8\"", "#c3d2d8");
    bad_hex: good().palette("#23262d", "#23262g");
    short_hex: good().palette("#23262d", "#232");
    colour_by_name: good().palette("\"#23262d\"", "black");
    negative_pack: good().palette("grams: 5", "grams: -5");
    negative_price: good().palette("price: 2.60", "price: -2.60");
    price_not_a_number: good().palette("price: 2.60", "price: .nan");
    length_without_unit: good().palette("width: 1.6 mm", "width: 1.6");
    length_in_an_unknown_unit: good().palette("width: 1.6 mm", "width: 1.6 em");
    size_unknown: good().palette("    size: 11/0\n", "    size: 12/0\n");
    no_size: good().palette("    size: 11/0\n", "");
    hole_wider_than_the_bead: good().palette("hole: 0.8 mm", "hole: 2 mm");
    shape_unknown: good().palette("    shape: cylinder", "    shape: cilinder");
    palette_key_unknown: good().palette("stretch first", "stretched first");
    replaced_by_nothing_known: good().palette("stock: 3", "replaced by: slait");
    replaced_in_a_ring: good()
        .palette("stock: 3", "replaced by: mist").palette("#c3d2d8\",", "#c3d2d8\", replaced by: slate,");
    replaced_by_a_bead_of_a_ring: good()
        .palette("stock: 3", "replaced by: mist").palette("#c3d2d8\",", "#c3d2d8\", replaced by: slate,")
        .palette("per gram: 200", "per gram: 200, replaced by: slate");
    no_body_thread: good().palette("  body: {name", "  boddy: {name");
    no_thread_guard: good().palette("  thread guard: {name", "  guard: {name");
    thread_named_wrongly: good().design("pair: same", "threads: {body: silk}\npair: same");
    finding_named_wrongly: good().design("pair: same", "findings: [ear wier]\npair: same");
    paper_unknown: good().studio("paper: both", "paper: a6");
    studio_nameless: good().studio("name: Studio Willow Weir\n", "");
    studio_name_empty: good().studio("name: Studio Willow Weir\n", "name: ''\n");
    logo_that_shows_nothing: good().file("reed.png", "reeds").studio("paper: both", "logo: {file: reed.png, shows: ' '}");
    logo_missing: good().studio("paper: both", "logo: {file: reed.png}");
    logo_not_a_picture: good().file("reed.png", "reeds").studio("paper: both", "logo: {file: reed.png}");
    tails_longer_than_the_thread: good().design("pair: same", "thread: {arm span: 1.6 m, tail: 900 mm}\npair: same");
}

// More than is beaded, printed or bought: bounds, and units that are slips.
told! {
    title_of_a_book: good().design("Little Triangle", &"Little ".repeat(857));
    summary_of_a_book: good().design("A small two-drop triangle.", &"A triangle. ".repeat(200));
    copyright_of_a_book: good().studio("paper: both", &format!("copyright: {}", "all ".repeat(2000)));
    terms_of_a_book: good().studio("paper: both", &format!("terms: [short, {}]", "all ".repeat(2600)));
    bead_with_a_long_name: good().palette("name: Ink", &format!("name: {}", "Ink".repeat(100)));
    bead_with_a_long_key: good().palette("  slate:", &format!("  {}:", "slate".repeat(50))).design("A: slate", "A: mist");
    bead_without_letters_in_its_name: good().palette("name: Ink", "name: ' '");
    long_strand: good().design("8A 2B 1C", &format!("8A {}2B 1C", " ".repeat(20_000)));
    earring_of_too_many_beads: good()
        .design("    ..A A\n    ..B B\n    .A B A\n    .B C B\n    A B B A\n    A C C A\n", &under(400))
        .design("    - 8A 2B 1C\n    - 9A 2(1B 1C)\n", &"    - 1999A 1B\n".repeat(200));
    too_many_colourways: good().design("  River: {A: slate}\n", &many("  River", ": {A: slate}\n", 101));
    too_many_tools: good().palette("tools: [", &format!("tools: [{}", many("tool ", ", ", 200)));
    bead_of_ten_kilometres: good().palette("width: 1.6 mm", "width: 10000 m");
    bead_of_metres: good().palette("width: 1.6 mm", "width: 1.6 m").palette("length: 1.3 mm", "length: 13 cm");
    beads_so_unlike: good().palette("width: 1.6 mm, length: 1.3 mm", "width: 1.6 mm, length: 45 mm")
        .palette("size: 11/0, stock: 3", "width: 1 mm, length: 0.9 mm, hole: 0.5 mm, per gram: 500");
    bead_of_nothing: good().palette("width: 1.6 mm", "width: 0.016 mm");
    thread_of_centimetres: good().palette("0.15 mm", "0.15 cm").palette("0.25 mm", "25 mm");
    needle_of_metres: good().palette("needle: 0.40 mm", "needle: 0.40 m");
    holes_of_a_guard_in_metres: good().palette("4.0 mm apart", "4.0 m apart");
    bead_of_a_ton: good().palette("per gram: 200", "per gram: 0.0000001");
    arm_span_of_a_giant: good().design("pair: same", "thread: {arm span: 180 ft, tail: 1 mm}\npair: same");
    replaced_in_a_long_ring: good().palette("threads:\n", &ring_of(3000));
}

/// A foundation of so many stacks, and rows up to one of two.
fn under(stacks: usize) -> String {
    (2..=stacks).flat_map(|n| [n, n]).map(|n| format!("    {}\n", wide(n))).collect()
}

fn many(before: &str, after: &str, count: usize) -> String {
    (0..count).map(|n| format!("{before}{n}{after}")).collect()
}

/// Beads that each replace the one before, the first again the last.
fn ring_of(beads: usize) -> String {
    let next = |n: usize| (n + 1) % beads;
    let bead = |n: usize| {
        let size = "shape: cylinder, size: 11/0";
        format!("  b{n}: {{name: B, colour: \"#ffffff\", {size}, replaced by: b{}}}\n", next(n))
    };
    (0..beads).map(bead).collect::<String>() + "threads:\n"
}

// Links that would not lead to a page.
told! {
    link_to_a_file: good().studio("paper: both", "web: file:///etc/passwd");
    link_to_a_share: good().studio("paper: both", "web: SMB://willow/shop");
    link_that_runs: good().studio("paper: both", "web: \"javascript:alert(1)\"");
    link_of_several_words: good().studio("paper: both", "web: willow weir.example");
    link_in_the_contact: good().studio("paper: both", "contact: write to ftp://willow.example");
}

// Many at once, and what a command asks for.
told! {
    problems_of_all_three_files: good()
        .design("edition: 1", "editon: 1").design(".A B A", ".A Q A").design("pair: same", "pair: both")
        .palette("grams: 5", "grams: none").palette("0.15 mm", "0.15")
        .studio("paper: both", "papers: both");
    colourway_unknown: good().wishing(Wishes { colourway: Some("Rivver".into()), ..Wishes::default() });
    wish_for_an_unknown_bead: good().wishing(Wishes { colours: vec!["C=slat".into()], ..Wishes::default() });
    wish_for_an_unknown_letter: good().wishing(Wishes { colours: vec!["X=slate".into()], ..Wishes::default() });
    wish_that_is_none: good().wishing(Wishes { colours: vec!["slate".into()], ..Wishes::default() });
    language_that_leads_out: good().wishing(Wishes { language: Some("../en".into()), ..Wishes::default() });
}

#[test]
fn a_folder_in_place_of_a_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let reading = fringebook::design::read(folder.path(), &Wishes::default());
    let message = format!("`{}` is a folder, not a design file", folder.path().display());
    assert!(reading.design.is_none());
    assert_eq!(reading.problems.iter().map(|p| p.message.clone()).collect::<Vec<_>>(), [message]);
}

// Texts in several languages.
told! {
    no_language: good().palette("name: Ink", "name: {}");
    not_a_language: good().palette("name: Ink", "name: {english text: Ink}");
    an_empty_language: good().palette("name: Ink", "name: {en: Ink, de: }");
    an_empty_text_in_a_language: good().palette("name: Ink", "name: {en: Ink, de: \"\"}");
    a_list_for_a_text: good().palette("name: Ink", "name: [Ink, Tinte]");
    a_long_text_in_a_language: good().palette("name: Ink", &format!("name: {{en: Ink, de: {}}}", "x".repeat(201)));
}

// Findings and tools.
told! {
    an_unknown_kind_of_ear_wire: good().palette("{name: ear wire, per", "{name: ear wire, kind: fish hook, per");
    an_empty_kind_of_ear_wire: good().palette("{name: ear wire, per", "{name: ear wire, kind: , per");
    a_tool_of_no_step: good().palette("tools: [beading needle size 12, scissors]", "tools: {needle: size 12, sissors: small ones}");
    tools_in_two_languages_and_of_no_use: good().palette("tools: [beading needle size 12, scissors]", "tools: {en: needle, de: Nadel}");
    a_tool_without_a_name: good().palette("tools: [beading needle size 12, scissors]", "tools: {needle: \"\", ruler: }");
}
