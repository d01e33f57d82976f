use fringebook::{booklet::*, design::*, layout, paint, stitch::stitch, tally::tally};
#[test]
fn look() {
    let out = std::env::var("LOOK").unwrap();
    for n in ["heron-at-dusk", "pear-blossom", "tide-line", "waning-moon"] {
        let p = std::path::PathBuf::from(format!("demo-designs/{n}.yaml"));
        let r = read(&p, &Wishes::default());
        let d = r.design.unwrap();
        let w = stitch(&d);
        let t = tally(&d, &w);
        let wording = Wording::built_in("en").unwrap();
        let e = Edition {
            paper: if std::env::var("LETTER").is_ok() { Paper::Letter } else { Paper::A4 },
            grey: std::env::var("GREY").is_ok(),
            large_print: std::env::var("LARGE").is_ok(),
            stamp: None,
            digest: "x".into(),
            digest_parts: vec![],
        };
        let b = compose(&d, &w, &t, &wording, &e).unwrap();
        let l = layout::lay_out(&b).unwrap();
        let bytes = paint::pdf(&l, &paint::Times::default()).unwrap();
        std::fs::write(format!("{out}/{n}.pdf"), bytes).unwrap();
        let m = d.mirrored();
        let mw = stitch(&m);
        let mt = tally(&m, &mw);
        let b = bench(
            &[
                BenchEarring { number: 1, design: &d, work: &w, tally: &t },
                BenchEarring { number: 2, design: &m, work: &mw, tally: &mt },
            ],
            &wording,
            &e,
            None,
        )
        .unwrap();
        let l = layout::lay_out(&b).unwrap();
        let bytes = paint::pdf(&l, &paint::Times::default()).unwrap();
        std::fs::write(format!("{out}/{n}-bench.pdf"), bytes).unwrap();
    }
}
