//! The whole tally of one small design, in a form to read.

use crate::maker::{DESIGN, Folder};

#[test]
fn a_small_design_is_counted_as_before() {
    let counted = Folder::new()
        .with("heron.yaml", &DESIGN.replace("C: ember", "C: ember, D: frost"))
        .count("heron.yaml");
    let mut told = serde_json::to_value(&counted.tally).expect("plain data");
    round(&mut told);
    insta::assert_yaml_snapshot!(told);
}

/// Numbers to six decimals: beyond them lies only the rounding of sums.
fn round(value: &mut serde_json::Value) {
    match value {
        serde_json::Value::Number(n) if n.is_f64() => {
            *value = ((n.as_f64().expect("a float") * 1e6).round() / 1e6).into();
        }
        serde_json::Value::Array(items) => items.iter_mut().for_each(round),
        serde_json::Value::Object(fields) => fields.values_mut().for_each(round),
        _ => {}
    }
}
