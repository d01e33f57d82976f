//! Threads in a hole: circle packing against published tables and bounds (see `check-values/SOURCES.md`).

use fringebook::holes::needed;
use fringebook::holes::packing::{enclosing, equal_circles, holds};
use fringebook::units::Mm;

/// Rows of a table of check values without its heading, with the heading.
fn table(name: &str) -> (Vec<String>, Vec<Vec<f64>>) {
    let path = format!("{}/tests/check-values/{name}", env!("CARGO_MANIFEST_DIR"));
    let mut reader = csv::Reader::from_path(path).expect("the table is there");
    let heading = reader.headers().expect("a heading").iter().map(str::to_owned).collect();
    let rows = reader
        .records()
        .map(|row| row.expect("a row").iter().map(|c| c.parse().expect("a number")).collect())
        .collect();
    (heading, rows)
}

#[test]
fn equal_circles_are_packed_as_tightly_as_published() {
    let (_, rows) = table("circle_packing.csv");
    assert_eq!(rows.len(), 12);
    for row in rows {
        let n = row[0] as usize;
        assert!((equal_circles(n) - row[1]).abs() < 1e-6, "{n} circles: {}", equal_circles(n));
        let hole = enclosing(&vec![Mm(0.15); n]);
        assert!((hole.0 - 0.15 * row[1]).abs() < 1e-6, "{n} threads: {hole:?}");
    }
}

#[test]
fn a_thread_passes_a_hole_as_often_as_the_table_says() {
    let (heading, rows) = table("thread_passes.csv");
    let mut met = 0;
    for row in &rows {
        for (name, expected) in heading[1..].iter().zip(&row[1..]) {
            let thread: f64 =
                name.trim_start_matches("thread_").trim_end_matches("_mm").parse().expect("a diameter");
            // The table ends at 12.
            let passes = (1..=12).take_while(|n| enclosing(&vec![Mm(thread); *n]).0 <= row[0] + 1e-9).count();
            assert_eq!(passes as f64, *expected, "{thread} mm through {} mm", row[0]);
            met += 1;
        }
    }
    assert_eq!(met, 63);
}

/// Groemer 1960 (Mathematische Zeitschrift 73) and Oler 1961 (Acta Mathematica 105), cited from
/// memory: of points no nearer than 1 to each other, a convex region holds at most
/// 2/√3 × area + ½ × perimeter + 1.
fn most_that_can_fit(outer_over_inner: f64) -> f64 {
    let rho = (outer_over_inner - 1.0) / 2.0;
    let pi = std::f64::consts::PI;
    2.0 / 3f64.sqrt() * pi * rho * rho + pi * rho + 1.0
}

#[test]
fn beyond_the_table_the_answer_stands_between_published_bounds() {
    let mut before = equal_circles(12);
    for n in 13..=61 {
        let r = equal_circles(n);
        assert!(r >= before, "{n} circles need no less than {}", n - 1);
        assert!(most_that_can_fit(r) >= n as f64, "{n} circles in {r} break Groemer's inequality");
        assert!(
            most_that_can_fit(r / 1.15) < n as f64,
            "{n} circles in {r}: more than 15 % above what the inequality leaves possible"
        );
        before = r;
    }
    // A hexagon of k rings round one circle: 1 + 3k(k + 1) circles in 2k + 1.
    assert!((equal_circles(19) - 5.0).abs() < 1e-9);
    assert!((equal_circles(37) - 7.0).abs() < 0.3 && equal_circles(37) <= 7.0 + 1e-9);
}

#[test]
fn mixed_threads_are_exact_where_geometry_gives_the_answer() {
    // Two circles lie side by side.
    assert!((enclosing(&[Mm(0.4), Mm(0.15)]).0 - 0.55).abs() < 1e-9);
    // Two circles of 1 and one of 2/3 beside them just fill a circle of 2 (Descartes' theorem:
    // curvatures 2, 2, -1 and 3).
    assert!((enclosing(&[Mm(1.0), Mm(1.0), Mm(2.0 / 3.0)]).0 - 2.0).abs() < 1e-5);
    assert!(enclosing(&[Mm(1.0), Mm(1.0), Mm(0.67)]).0 > 2.0);
    // Six round one, the middle one smaller: no change while the six touch the wall and each other.
    let mut seven = vec![Mm(1.0); 6];
    seven.push(Mm(0.9));
    assert!((enclosing(&seven).0 - 3.0).abs() < 0.01, "{:?}", enclosing(&seven));
    assert_eq!(enclosing(&[]), Mm(0.0));
}

#[test]
fn mixed_threads_never_need_less_than_their_area_nor_more_than_if_all_were_the_largest() {
    for body in 1..=8 {
        for fringe in 0..=3 {
            let mut d = vec![Mm(0.15); body];
            d.extend(vec![Mm(0.25); fringe]);
            d.push(Mm(0.40));
            let hole = enclosing(&d).0;
            let area: f64 = d.iter().map(|x| x.0 * x.0).sum();
            assert!(hole * hole >= area, "{body} and {fringe}");
            assert!(hole <= 0.40 * equal_circles(d.len()) + 1e-9, "{body} and {fringe}");
            // Coarse but independent: no plane packing of such sizes fills much over 0.86 of a hole
            // this small, and a laying that fills under half of it is no use to a maker.
            let filled = area / (hole * hole);
            assert!(filled > 0.5, "{body} and {fringe}: only {filled:.2} filled");
            let one_more: Vec<Mm> = d.iter().copied().chain([Mm(0.15)]).collect();
            assert!(enclosing(&one_more).0 > hole * 0.97, "{body} and {fringe}: one more needs less");
        }
    }
}

#[test]
fn mixed_threads_need_hardly_more_than_the_best_that_another_program_found() {
    let (_, rows) = table("mixed_packing.csv");
    assert_eq!(rows.len(), 15);
    for row in rows {
        let mut d = vec![Mm(row[1]); row[0] as usize];
        d.extend(vec![Mm(row[3]); row[2] as usize]);
        d.push(Mm(row[4]));
        let ratio = enclosing(&d).0 / row[5];
        assert!(holds(&d, enclosing(&d)) && !holds(&d, Mm(row[5] * 0.995)), "{row:?}");
        assert!((0.995..1.05).contains(&ratio), "{row:?}: {ratio:.4} of the best found");
    }
}

#[test]
fn the_needle_counts_on_its_way_through() {
    let threads = [Mm(0.15), Mm(0.20)];
    let needle = Some(Mm(0.40));
    // The last of three passes goes beside two threads with the needle, then leaves three.
    assert_eq!(needed([3, 0], threads, None), enclosing(&[Mm(0.15); 3]));
    assert_eq!(needed([3, 0], threads, needle), enclosing(&[Mm(0.15), Mm(0.15), Mm(0.40)]));
    // The fringe thread comes last where both pass.
    assert_eq!(needed([2, 1], threads, needle), enclosing(&[Mm(0.15), Mm(0.15), Mm(0.40)]));
    assert_eq!(needed([1, 2], threads, needle), enclosing(&[Mm(0.15), Mm(0.20), Mm(0.40)]));
    // A first pass finds an empty hole, and a bead that nothing passes needs none.
    assert_eq!(needed([1, 0], threads, needle), Mm(0.40));
    assert_eq!(needed([0, 0], threads, needle), Mm(0.0));
    // A thread thicker than its needle fills the hole more once it is through.
    assert_eq!(needed([1, 0], [Mm(0.5), Mm(0.5)], needle), Mm(0.5));
}
