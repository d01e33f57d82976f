//! A drawing as SVG, to be looked at.

use fringebook::colour::Colour;
use fringebook::drawn::{Align, BeadLook, Drawing, FADED, Mark, Segment, outline};
use std::fmt::Write;

/// The drawing at its natural size.
pub fn svg(drawing: &Drawing) -> String {
    let (w, h) = (drawing.size.width.0, drawing.size.height.0);
    let mut out = format!(
        "<svg xmlns='http://www.w3.org/2000/svg' width='{w}mm' height='{h}mm' viewBox='0 0 {w} {h}'>\n<rect width='100%' height='100%' fill='white'/>\n"
    );
    for mark in &drawing.marks {
        write(&mut out, mark);
    }
    out.push_str("</svg>\n");
    out
}

fn write(out: &mut String, mark: &Mark) {
    match mark {
        Mark::Bead(b) => {
            let (fill, edge) = match b.look {
                BeadLook::Faded => (b.colour.mix(Colour::WHITE, FADED).hex(), "#bbb"),
                BeadLook::Silhouette => ("#888888".into(), "none"),
                BeadLook::Flat | BeadLook::Lifelike => (b.colour.hex(), "#444"),
            };
            let outline = outline(b.shape, b.width.0, b.length.0);
            let _ = writeln!(
                out,
                "<path transform='translate({:.2} {:.2}) rotate({:.1})' fill='{fill}' stroke='{edge}' stroke-width='0.12' d='{}'/>",
                b.centre.x.0,
                b.centre.y.0,
                b.turned,
                path(outline.into_iter())
            );
        }
        Mark::Path(p) => {
            let d = path(p.segments.iter().map(|s| s.map(|p| (p.x.0, p.y.0))));
            let fill = p.fill.map_or("none".into(), Colour::hex);
            let _ = write!(out, "<path d='{d}' fill='{fill}'");
            if let Some(s) = &p.stroke {
                let _ = write!(out, " stroke='{}' stroke-width='{}'", s.colour.hex(), s.width.0);
                if s.round {
                    out.push_str(" stroke-linecap='round' stroke-linejoin='round'");
                }
                if !s.dash.is_empty() {
                    let dash: Vec<String> = s.dash.iter().map(|d| d.0.to_string()).collect();
                    let _ = write!(out, " stroke-dasharray='{}'", dash.join(" "));
                }
            }
            out.push_str("/>\n");
        }
        Mark::Label(l) => {
            let size = l.size.mm().0;
            let anchor = match l.align {
                Align::Start => "start",
                Align::Middle => "middle",
                Align::End => "end",
            };
            let y = if l.middle { l.at.y.0 + size * 0.34 } else { l.at.y.0 };
            let _ = writeln!(
                out,
                "<text x='{:.3}' y='{y:.3}' font-size='{size:.3}' text-anchor='{anchor}' fill='{}' font-family='DejaVu Sans Condensed' font-weight='bold'>{}</text>",
                l.at.x.0,
                l.colour.hex(),
                l.text
            );
        }
    }
}

/// The pieces of a path as the attribute `d` says them.
fn path(segments: impl Iterator<Item = Segment<(f64, f64)>>) -> String {
    let mut d = String::new();
    for segment in segments {
        d.push(match segment {
            Segment::Move(_) => 'M',
            Segment::Line(_) => 'L',
            Segment::Curve(..) => 'C',
            Segment::Close => 'Z',
        });
        let numbers: Vec<String> = segment.points().map(|(x, y)| format!("{x:.3} {y:.3}")).collect();
        d.push_str(&numbers.join(" "));
    }
    d
}
