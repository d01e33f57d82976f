//! The demo designs as stitched: the thread's whole way in a form that a person can read.

use fringebook::design::{self, Design, Wishes};
use fringebook::stitch;
use std::path::Path;

fn demo(name: &str) -> Design {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-designs").join(name).with_extension("yaml");
    let reading = design::read(&path, &Wishes::default());
    reading.design.unwrap_or_else(|| panic!("{name}: {:?}", reading.problems))
}

#[test]
fn dump() {
    for name in ["heron-at-dusk", "pear-blossom", "tide-line", "waning-moon"] {
        let design = demo(name);
        let t = std::time::Instant::now();
        let work = stitch::stitch(&design);
        println!("{name} {:?}", t.elapsed());
        for a in &work.anchors {
            println!("  {a:?} of {} rows", work.rows.len());
        }
        for c in &work.cuts {
            println!("  {c:?}");
        }
        for e in stitch::excerpts(&work) {
            println!("  {:?} {:?}", e.kind, e.moves);
        }
        let p = stitch::passes(&work);
        let max = p.iter().max_by_key(|(_, c)| c[0] + c[1]);
        println!("  {max:?} bounds {:?} {:?}", work.geometry.bounds, work.geometry.body_height);
        for phase in [stitch::Phase::Hanging, stitch::Phase::Tail] {
            for m in work.moves_of(phase) {
                println!(
                    "    {:?} {:?}",
                    m.kind,
                    m.points
                        .iter()
                        .map(|p| ((p.x.0 * 100.0).round() / 100.0, (p.y.0 * 100.0).round() / 100.0))
                        .collect::<Vec<_>>()
                );
            }
        }
    }
}
