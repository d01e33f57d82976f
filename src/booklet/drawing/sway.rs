//! How the strands of a finished earring hang: each a little aside and bent, as thread and beads let them. The same
//! earring hangs the same way each time it is drawn.

use crate::stitch::{Fabric, Lying, SectionKind};
use crate::units::Point;

/// How far a strand swings aside at most, in degrees: what it shares with its neighbours, and what is its own. Small
/// enough that it lies beside them to its end. All measures here were chosen by eye.
const SHARED: f64 = 0.35;
const OWN: f64 = 0.3;
/// How far its middle bends aside at most, in millimetres.
const BENT: f64 = 0.16;
/// How far one bead is turned on the thread at most, in degrees.
const TURNED: f64 = 1.3;
/// Steps in which beads are turned, in degrees, and stand aside, in millimetres: finer than is seen, and a file says the
/// same thing often.
const STEP: f64 = 0.5;
const ASIDE_STEP: f64 = 0.02;
/// How many strands lie between one swing of the fringe and the next.
const WAVE: f64 = 9.0;

/// The beads of a fabric as they lie when it hangs: those of strands a little aside. `earring` tells the two of a pair
/// apart.
pub(super) fn hanging(fabric: &Fabric, earring: u64) -> Vec<Lying> {
    let mut beads = fabric.beads.clone();
    for (_, strand) in fabric.of_kind(SectionKind::Strand) {
        let (Some(first), Some(last)) = (strand.beads.first(), strand.beads.last()) else { continue };
        let (top, foot) = (fabric[*first].centre, fabric[*last].centre);
        let (length, seed) = (foot.y.0 - top.y.0, (earring, strand.source as u64));
        let wave = (strand.source as f64 / WAVE + chance(seed.0, 0, 0)) * std::f64::consts::TAU;
        let angle = SHARED * wave.sin() + OWN * chance(seed.0, seed.1, 1);
        let bent = BENT * chance(seed.0, seed.1, 2);
        for spot in &strand.beads {
            let lying = &fabric[*spot];
            let down = lying.centre.y.0 - top.y.0;
            let share = if length > 0.0 { down / length } else { 0.0 };
            let arc = std::f64::consts::PI * share;
            let aside = down * angle.to_radians().tan() + bent * arc.sin();
            let slope = if length > 0.0 { bent * std::f64::consts::PI * arc.cos() / length } else { 0.0 };
            let turned = TURNED * chance(seed.0, seed.1, 3 + lying.place as u64);
            let bead = &mut beads[spot.number()];
            bead.centre = Point::new(lying.centre.x.0 - stepped(aside, ASIDE_STEP), lying.centre.y.0);
            bead.turned += stepped(angle + slope.atan().to_degrees() + turned, STEP);
        }
    }
    beads
}

fn stepped(value: f64, step: f64) -> f64 {
    (value / step).round() * step
}

/// A number from -1 to 1 that looks like chance and is always the same: splitmix64 (Steele, Lea and Flood, "Fast
/// splittable pseudorandom number generators", 2014; its constants from memory).
fn chance(earring: u64, strand: u64, which: u64) -> f64 {
    let mut z = (earring << 48 ^ strand << 24 ^ which).wrapping_add(1).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    z = (z ^ z >> 30).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ z >> 27).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^= z >> 31;
    (z >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chance_lies_between_both_ends_and_evenly() {
        let all: Vec<f64> = (0..2000).map(|n| chance(n % 2, n / 40, n % 40)).collect();
        assert!(all.iter().all(|c| (-1.0..1.0).contains(c)));
        let mean = all.iter().sum::<f64>() / all.len() as f64;
        assert!(mean.abs() < 0.05, "{mean}");
        assert_eq!(chance(1, 2, 3).to_bits(), chance(1, 2, 3).to_bits());
        assert_ne!(chance(1, 2, 3).to_bits(), chance(0, 2, 3).to_bits());
    }
}
