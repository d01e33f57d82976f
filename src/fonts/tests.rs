//! Fonts that are taken, and what is said of those that are not.

use super::*;

const SANS: &[u8] = include_bytes!("../../fonts/SourceSans3_400Regular.ttf");

/// A built-in font with other permission bits.
fn with_bits(bits: u16) -> Vec<u8> {
    let mut bytes = SANS.to_vec();
    let entry = (0..).map(|table| 12 + 16 * table).find(|&at| &bytes[at..at + 4] == b"OS/2").expect("OS/2");
    let start = u32::from_be_bytes(bytes[entry + 8..entry + 12].try_into().expect("four bytes")) as usize;
    bytes[start + 8..start + 10].copy_from_slice(&bits.to_be_bytes());
    bytes
}

fn fault(bytes: Vec<u8>) -> Option<Fault> {
    read(bytes).err()
}

#[test]
fn the_same_file_is_the_same_font() {
    let (one, other) = (read(SANS.to_vec()).expect("a font"), read(SANS.to_vec()).expect("a font"));
    assert_eq!(one, other);
    assert_eq!(one.name, "SourceSans3-Regular");
    assert_eq!(one.outlines, Outlines::TrueType);
    assert!(one.has('A') && !one.has('中'));
    assert_ne!(read(with_bits(0x0008)).expect("a font"), one);
}

#[test]
fn permission_bits_are_respected() {
    for allowed in [0x0000, 0x0004, 0x0008, 0x0006, 0x000a] {
        assert_eq!(fault(with_bits(allowed)), None, "{allowed:#06x}");
    }
    for (bits, wrong) in [
        (0x0002, Fault::Restricted),
        (0x0100, Fault::OnlyWhole),
        (0x0104, Fault::OnlyWhole),
        (0x0200, Fault::OnlyBitmaps),
        (0x0208, Fault::OnlyBitmaps),
    ] {
        assert_eq!(fault(with_bits(bits)), Some(wrong), "{bits:#06x}");
    }
}

#[test]
fn what_is_no_font_is_told() {
    assert_eq!(fault(Vec::new()), Some(Fault::NotAFont));
    assert_eq!(fault(b"a letter to the printer".to_vec()), Some(Fault::NotAFont));
    assert_eq!(fault(b"ttcf\0\x01\0\0\0\0\0\x01".to_vec()), Some(Fault::Collection));
    assert_eq!(fault(b"wOF2 and more".to_vec()), Some(Fault::ForTheWeb));
    assert_eq!(fault(SANS[..SANS.len() / 2].to_vec()), Some(Fault::Damaged));
    assert_eq!(fault(SANS[..200].to_vec()), Some(Fault::Damaged));
}

#[test]
fn a_font_without_permissions_or_with_axes_is_told() {
    let renamed = |from: &[u8; 4], to: &[u8; 4]| {
        let mut bytes = SANS.to_vec();
        let entry =
            (0..).map(|table| 12 + 16 * table).find(|&at| bytes[at..at + 4] == *from).expect("a table");
        bytes[entry..entry + 4].copy_from_slice(to);
        bytes
    };
    assert_eq!(fault(renamed(b"OS/2", b"OS/9")), Some(Fault::NothingSaid));
    assert_eq!(fault(renamed(b"glyf", b"glyg")), Some(Fault::NoOutlines));
    assert_eq!(fault(renamed(b"gasp", b"fvar")), Some(Fault::Variable));
}

#[test]
fn a_font_that_is_spoilt_anywhere_is_taken_or_told() {
    let whole = include_bytes!("../../tests/fonts/marsh-plain.ttf");
    let curved = include_bytes!("../../tests/fonts/marsh-title.otf");
    let mut state = 1_u64;
    // A linear congruential generator (Knuth, MMIX).
    let mut next = |below: usize| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as usize % below
    };
    let mut refused = 0;
    for round in 0..200 {
        let mut bytes = if round % 2 == 0 { whole.to_vec() } else { curved.to_vec() };
        // Half of the faults go where the tables are listed.
        let reach = if round % 4 < 2 { 400 } else { bytes.len() };
        for _ in 0..=next(4) {
            let at = next(reach);
            bytes[at] = next(256) as u8;
        }
        if round % 10 == 0 {
            bytes.truncate(next(bytes.len()));
        }
        refused += usize::from(read(bytes).is_err());
    }
    assert!(refused > 20, "{refused}");
}
