//! Codes that a camera reads (QR codes, ISO/IEC 18004).

use crate::colour::Colour;
use crate::drawn::{Drawing, Mark, PathMark, rectangle};
use crate::units::{Mm, Point, Size};
use qrcode::{Color, EcLevel, QrCode};

/// Side of a module. Phones read 0.33 mm from the page in their hand; half as much again is for print on an old
/// printer and for shaky hands (common practice, no source).
const MODULE: Mm = Mm(0.5);
/// Modules of white round a code (ISO/IEC 18004:2015, 5.3.8).
const QUIET: usize = 4;

/// White round a code, which belongs to its drawing.
pub const QUIET_ZONE: Mm = Mm(MODULE.0 * QUIET as f64);

/// An address as a code with the white that it needs round it; `None` where it is too long for any.
#[must_use]
pub fn code(address: &str) -> Option<Drawing> {
    // A code with a fifteenth of it stained can still be read: that is more than a print suffers.
    let code = QrCode::with_error_correction_level(address, EcLevel::M).ok()?;
    let (width, modules) = (code.width(), code.to_colors());
    // All in one path: where two paths meet, readers draw a hair of light.
    let mut segments = Vec::new();
    for (y, row) in modules.chunks(width).enumerate() {
        let mut x = 0;
        for run in row.chunk_by(|a, b| a == b) {
            if run[0] == Color::Dark {
                let at = Point { x: MODULE * (x + QUIET) as f64, y: MODULE * (y + QUIET) as f64 };
                segments.extend(rectangle(at, Size { width: MODULE * run.len() as f64, height: MODULE }));
            }
            x += run.len();
        }
    }
    let side = MODULE * (width + 2 * QUIET) as f64;
    let path = PathMark { segments, fill: Some(Colour::BLACK), stroke: None };
    Some(Drawing { size: Size { width: side, height: side }, true_size: true, marks: vec![Mark::Path(path)] })
}
