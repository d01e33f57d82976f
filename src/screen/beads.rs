//! The parts of a bead.

use super::defs::Defs;
use super::text::{decimals, hex, matrix, number, path};
use crate::drawn::{Gradient, Part, Pen, Run, Tint};

/// Parts of a bead, in order. Areas and gradients become definitions.
pub(super) fn painted(parts: &[Part], defs: &mut Defs) -> String {
    parts.iter().map(|part| one(part, defs)).collect()
}

fn one(part: &Part, defs: &mut Defs) -> String {
    match part {
        Part::Fill(outline, tint) => {
            format!("<path d=\"{}\"{} stroke=\"none\"/>", path(outline), tinted("fill", *tint))
        }
        Part::Stroke(line, pen) => format!("<path d=\"{}\" fill=\"none\"{}/>", path(line), drawn_with(pen)),
        Part::Shade(area, gradient) => {
            let name = defs.fresh();
            defs.add(&definition(gradient, &name));
            format!("<path d=\"{}\" fill=\"url(#{name})\" stroke=\"none\"/>", path(area))
        }
        Part::Within(area, parts) => {
            let name = defs.fresh();
            let d: String = area.iter().map(path).collect();
            defs.add(&format!(
                "<clipPath id=\"{name}\"><path d=\"{d}\" clip-rule=\"evenodd\"/></clipPath>\n"
            ));
            format!("<g clip-path=\"url(#{name})\">{}</g>", painted(parts, defs))
        }
    }
}

/// A colour where it is not what the bead brings along.
fn tinted(attribute: &str, tint: Tint) -> String {
    match tint {
        Tint::Own | Tint::Ink => String::new(),
        Tint::Fixed(colour) => format!(" {attribute}=\"{}\"", hex(colour)),
    }
}

fn drawn_with(pen: &Pen) -> String {
    let round = if pen.round { " stroke-linecap=\"round\"" } else { "" };
    format!("{} stroke-width=\"{}\"{round}", tinted("stroke", pen.tint), decimals(pen.width, 3))
}

/// A gradient under a name.
fn definition(gradient: &Gradient, name: &str) -> String {
    let stop = |(at, colour): &(f64, _)| {
        format!("<stop offset=\"{}\" stop-color=\"{}\"/>", number(*at), hex(*colour))
    };
    let stops: String = gradient.stops.iter().map(stop).collect();
    match gradient.run {
        Run::Line((x1, y1), (x2, y2)) => format!(
            "<linearGradient id=\"{name}\" gradientUnits=\"userSpaceOnUse\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\">{stops}</linearGradient>\n",
            number(x1),
            number(y1),
            number(x2),
            number(y2)
        ),
        Run::Ellipse { centre, axes, focus, reach } => format!(
            "<radialGradient id=\"{name}\" gradientUnits=\"userSpaceOnUse\" cx=\"0\" cy=\"0\" r=\"{}\" fx=\"{}\" fy=\"{}\" gradientTransform=\"{}\">{stops}</radialGradient>\n",
            number(reach),
            number(focus.0),
            number(focus.1),
            matrix([axes.0, 0.0, 0.0, axes.1, centre.0, centre.1])
        ),
    }
}
