//! The output intent's colour profile: sRGB as IEC 61966-2-1 defines it, in the ICC's format of
//! version 2.1 (ICC.1:1998-09). Built here from the standard's numbers, so that nobody's profile has
//! to be shipped.

use std::sync::OnceLock;

/// Chromaticities of the primaries (IEC 61966-2-1, table 1, after ITU-R BT.709).
const PRIMARIES: [(f64, f64); 3] = [(0.64, 0.33), (0.3, 0.6), (0.15, 0.06)];
/// Chromaticity of its white, D65.
const WHITE: (f64, f64) = (0.3127, 0.329);
/// The profile connection space's white, D50, as the ICC writes it.
const D50: [f64; 3] = [0.9642, 1.0, 0.8249];
/// The Bradford matrix, from CIE XYZ to sharpened cone responses (as ICC.1:2010, annex E, gives it).
const BRADFORD: [[f64; 3]; 3] =
    [[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]];
/// Entries of the tone curve: between them it strays from the standard by less than a step of 16 bits in 20,000.
const CURVE: usize = 256;

/// The profile's bytes.
pub(super) fn srgb() -> &'static [u8] {
    static MADE: OnceLock<Vec<u8>> = OnceLock::new();
    MADE.get_or_init(build)
}

type Matrix = [[f64; 3]; 3];

fn build() -> Vec<u8> {
    let [red, green, blue] = colorants();
    let curve = curve();
    let tags: Vec<(&[u8; 4], Vec<u8>)> = vec![
        (b"desc", description("sRGB (IEC 61966-2-1)")),
        (b"cprt", text("No copyright, use freely")),
        (b"wtpt", xyz(D50)),
        (b"rXYZ", xyz(red)),
        (b"gXYZ", xyz(green)),
        (b"bXYZ", xyz(blue)),
        (b"rTRC", curve.clone()),
        (b"gTRC", curve.clone()),
        (b"bTRC", curve),
    ];
    let mut table = Vec::new();
    let mut data: Vec<u8> = Vec::new();
    let start = 128 + 4 + 12 * tags.len();
    let mut last: Option<(usize, Vec<u8>)> = None;
    for (name, content) in &tags {
        // The three curves are one.
        let offset = match &last {
            Some((offset, same)) if same == content => *offset,
            _ => {
                let offset = start + data.len();
                data.extend(content);
                data.resize(data.len().next_multiple_of(4), 0);
                offset
            }
        };
        last = Some((offset, content.clone()));
        table.extend(*name);
        table.extend((offset as u32).to_be_bytes());
        table.extend((content.len() as u32).to_be_bytes());
    }
    let size = start + data.len();
    let mut profile = header(size as u32);
    profile.extend((tags.len() as u32).to_be_bytes());
    profile.extend(table);
    profile.extend(data);
    profile
}

fn header(size: u32) -> Vec<u8> {
    let mut h = vec![0u8; 128];
    h[0..4].copy_from_slice(&size.to_be_bytes());
    h[8..12].copy_from_slice(&[2, 0x10, 0, 0]);
    h[12..16].copy_from_slice(b"mntr");
    h[16..20].copy_from_slice(b"RGB ");
    h[20..24].copy_from_slice(b"XYZ ");
    // A date is asked for; this is when the standard was published, October 1999.
    for (i, part) in [1999u16, 10, 1, 0, 0, 0].into_iter().enumerate() {
        h[24 + 2 * i..26 + 2 * i].copy_from_slice(&part.to_be_bytes());
    }
    h[36..40].copy_from_slice(b"acsp");
    for (i, value) in D50.into_iter().enumerate() {
        h[68 + 4 * i..72 + 4 * i].copy_from_slice(&fixed(value));
    }
    h
}

/// `s15Fixed16Number`.
fn fixed(value: f64) -> [u8; 4] {
    ((value * 65_536.0).round() as i32).to_be_bytes()
}

fn xyz(values: [f64; 3]) -> Vec<u8> {
    let mut out = b"XYZ \0\0\0\0".to_vec();
    out.extend(values.into_iter().flat_map(fixed));
    out
}

fn text(words: &str) -> Vec<u8> {
    let mut out = b"text\0\0\0\0".to_vec();
    out.extend(words.bytes());
    out.push(0);
    out
}

/// `textDescriptionType`: ASCII, no Unicode, no ScriptCode.
fn description(words: &str) -> Vec<u8> {
    let mut out = b"desc\0\0\0\0".to_vec();
    out.extend((words.len() as u32 + 1).to_be_bytes());
    out.extend(words.bytes());
    out.push(0);
    out.extend([0; 4 + 4 + 2 + 1 + 67]);
    out
}

/// The transfer function (IEC 61966-2-1, 4.2) as a sampled curve.
fn curve() -> Vec<u8> {
    let mut out = b"curv\0\0\0\0".to_vec();
    out.extend((CURVE as u32).to_be_bytes());
    for i in 0..CURVE {
        let v = i as f64 / (CURVE - 1) as f64;
        let linear = if v <= 0.040_45 { v / 12.92 } else { ((v + 0.055) / 1.055).powf(2.4) };
        out.extend(((linear * 65_535.0).round() as u16).to_be_bytes());
    }
    out
}

/// The primaries' CIE XYZ, adapted to D50.
fn colorants() -> [[f64; 3]; 3] {
    let of = |(x, y): (f64, f64)| [x / y, 1.0, (1.0 - x - y) / y];
    let [r, g, b] = PRIMARIES.map(of);
    let white = of(WHITE);
    // Scale the primaries so that together they make white.
    let columns: Matrix = [[r[0], g[0], b[0]], [r[1], g[1], b[1]], [r[2], g[2], b[2]]];
    let share = times(inverse(columns), white);
    let adapt = adaptation(white);
    [
        times(adapt, r.map(|v| v * share[0])),
        times(adapt, g.map(|v| v * share[1])),
        times(adapt, b.map(|v| v * share[2])),
    ]
}

/// From one white to D50, by scaling cone responses.
fn adaptation(white: [f64; 3]) -> Matrix {
    let (from, to) = (times(BRADFORD, white), times(BRADFORD, D50));
    let scaled: Matrix = [0, 1, 2].map(|i| BRADFORD[i].map(|v| v * to[i] / from[i]));
    let back = inverse(BRADFORD);
    [0, 1, 2].map(|i| [0, 1, 2].map(|j| (0..3).map(|k| back[i][k] * scaled[k][j]).sum()))
}

fn times(m: Matrix, v: [f64; 3]) -> [f64; 3] {
    m.map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2])
}

/// By cofactors. The matrices inverted here are constants with a determinant far from zero.
fn inverse(m: Matrix) -> Matrix {
    let cofactor = |i: usize, j: usize| {
        let (a, b, c, d) = ((i + 1) % 3, (i + 2) % 3, (j + 1) % 3, (j + 2) % 3);
        m[a][c] * m[b][d] - m[a][d] * m[b][c]
    };
    let determinant: f64 = (0..3).map(|j| m[0][j] * cofactor(0, j)).sum();
    [0, 1, 2].map(|i| [0, 1, 2].map(|j| cofactor(j, i) / determinant))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Colorants of sRGB adapted to D50, as published in the ICC's own sRGB profiles, 4 decimals
    /// (from memory).
    const PUBLISHED: [[f64; 3]; 3] =
        [[0.4361, 0.2225, 0.0139], [0.3851, 0.7169, 0.0971], [0.1431, 0.0606, 0.7141]];

    #[test]
    fn colorants_are_the_published_ones() {
        for (made, known) in colorants().iter().zip(PUBLISHED) {
            for (a, b) in made.iter().zip(known) {
                assert!((a - b).abs() < 5e-4, "{made:?} {known:?}");
            }
        }
    }

    #[test]
    fn the_three_colorants_make_white() {
        let [r, g, b] = colorants();
        for i in 0..3 {
            assert!((r[i] + g[i] + b[i] - D50[i]).abs() < 1e-9);
        }
    }

    #[test]
    fn the_profile_says_how_long_it_is() {
        let bytes = srgb();
        assert_eq!(u32::from_be_bytes([bytes[0], bytes[1], bytes[2], bytes[3]]) as usize, bytes.len());
        assert!(bytes.len() < 3000);
    }
}
