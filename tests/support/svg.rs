//! A drawing as SVG, to be looked at.

use fringebook::booklet::drawing::{Align, BeadLook, Drawing, Mark, Segment};
use fringebook::colour::Colour;
use fringebook::design::Shape;
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
            let faded = b.colour.mix(Colour::WHITE, 0.65);
            let (fill, edge) = match b.look {
                BeadLook::Faded => (faded.hex(), "#bbb"),
                BeadLook::Silhouette => ("#888888".into(), "none"),
                BeadLook::Flat | BeadLook::Lifelike => (b.colour.hex(), "#444"),
            };
            let (w, l) = (b.width.0, b.length.0);
            let style = format!("fill='{fill}' stroke='{edge}' stroke-width='0.12'");
            let turn = format!(
                "transform='translate({:.2} {:.2}) rotate({:.1})'",
                b.centre.x.0, b.centre.y.0, b.turned
            );
            let _ = match b.shape {
                Shape::Drop => writeln!(
                    out,
                    "<path {turn} {style} d='M0 {t} C{a} {t} {c} {m} {c} {n} A{c} {c} 0 0 1 -{c} {n} C-{c} {m} -{a} {t} 0 {t}Z'/>",
                    t = -l / 2.0,
                    a = w * 0.3,
                    c = w / 2.0,
                    m = -l * 0.1,
                    n = l / 2.0 - w / 2.0,
                ),
                Shape::Cylinder | Shape::Bugle | Shape::Cube => writeln!(
                    out,
                    "<rect {turn} {style} x='{}' y='{}' width='{w}' height='{l}' rx='{}'/>",
                    -w / 2.0,
                    -l / 2.0,
                    w * 0.1
                ),
                Shape::Round | Shape::Faceted => writeln!(
                    out,
                    "<rect {turn} {style} x='{}' y='{}' width='{w}' height='{l}' rx='{}'/>",
                    -w / 2.0,
                    -l / 2.0,
                    l * 0.45
                ),
            };
        }
        Mark::Path(p) => {
            let mut d = String::new();
            for s in &p.segments {
                let _ = match s {
                    Segment::Move(a) => write!(d, "M{:.3} {:.3}", a.x.0, a.y.0),
                    Segment::Line(a) => write!(d, "L{:.3} {:.3}", a.x.0, a.y.0),
                    Segment::Curve(a, b, c) => write!(
                        d,
                        "C{:.3} {:.3} {:.3} {:.3} {:.3} {:.3}",
                        a.x.0, a.y.0, b.x.0, b.y.0, c.x.0, c.y.0
                    ),
                    Segment::Close => write!(d, "Z"),
                };
            }
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
