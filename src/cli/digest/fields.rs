//! The fields of each part. Every type of a design is taken apart without `..`: a new field stops the
//! build here until it is said whether a booklet shows it, so that no booklet goes stale unseen. A field
//! that is left out is named with `_` and the reason.

use super::value::Fields;
use crate::colour::Colour;
use crate::design::{
    Allowances, Bead, BeadId, Body, Colourway, CoverWay, Date, Design, Film, FilmTime, Finding, Fringe, Hang,
    Hanging, HouseFont, Letter, LetterId, Order, Ordered, OwnSection, Pack, Palette, Photograph, Photographs,
    Row, Running, Spool, Stack, StackPlace, StepRef, Strand, Studio, Thread, Tools,
};
use crate::images::Image;
use std::fmt::Write;

pub(super) fn of_design(design: &Design) -> String {
    let Design {
        slug: _, // a part of its own
        title,
        summary,
        edition,
        date,
        skill,
        letters,
        body,
        fringe,
        pair,
        hangings,
        start,
        body_thread,
        fringe_thread,
        allowances,
        findings: _, // parts of their own
        colourways,
        colourway,
        palette,   // a part of its own; here it gives the letters the keys of their beads
        studio: _, // a part of its own
        photographs,
        film,
        checked: _, // a proof, and nothing that could be shown
    } = design;
    let Allowances { arm_span, tail, handling, spare } = allowances;
    let letter = |letter: &Letter| letter_text(letter, palette);
    Fields::default()
        .add("title", title)
        .add("summary", summary)
        .add("edition", edition)
        .maybe("date", date.map(|Date { year, month, day }| format!("{year}-{month}-{day}")))
        .add("skill", format!("{skill:?}"))
        .add("colours", list(letters.iter().map(letter)))
        .add("body", body_text(body))
        .add("fringe", fringe_text(fringe))
        .add("pair", format!("{pair:?}"))
        .add("hang", list(hangings.iter().map(hanging_text)))
        .add("start", format!("{start:?}"))
        .add("one-thread", body_thread.key == fringe_thread.key)
        .add("allowances", format!("{} {} {handling} {spare}", arm_span.0, tail.0))
        .add("colourways", list(colourways.iter().map(|c| colourway_text(c, letter))))
        .maybe("colourway", colourway.as_ref())
        .maybe("photos", photographs_text(photographs))
        .maybe("film", film.as_ref().map(film_text))
        .done()
}

fn photographs_text(photographs: &Photographs) -> Option<String> {
    let Photographs { cover, back, details, steps } = photographs;
    let one = |photograph: &Photograph| {
        let Photograph { picture, caption } = photograph;
        list([image_text(&picture.image).as_str(), caption])
    };
    let of_step = |(StepRef { name, place: _ }, photographs): &(StepRef, Vec<Photograph>)| {
        list([name.clone(), list(photographs.iter().map(one))])
    };
    let all = [
        list(cover.iter().map(|picture| image_text(&picture.image))),
        list(back.iter().map(one)),
        list(details.iter().map(one)),
        list(steps.iter().map(of_step)),
    ];
    all.iter().any(|text| !text.is_empty()).then(|| list(all))
}

fn film_text(film: &Film) -> String {
    let Film { address, times } = film;
    let time = |FilmTime { step: StepRef { name, place: _ }, at }: &FilmTime| format!("{at} {name}");
    format!("{address} {}", list(times.iter().map(time)))
}

fn letter_text(letter: &Letter, palette: &Palette) -> String {
    let Letter {
        symbol,
        bead,
        replaces,
        place: _, // where it stands in the file shows in no booklet
    } = letter;
    let key = |id: BeadId| palette.beads[id.0].key.as_str();
    let replaced = replaces.map(|id| format!(" for {}", key(id))).unwrap_or_default();
    format!("{symbol}:{}{replaced}", key(*bead))
}

fn colourway_text(colourway: &Colourway, letter: impl Fn(&Letter) -> String) -> String {
    let Colourway { key, name, changes } = colourway;
    let changes = changes.iter().map(|(id, l)| format!("{} {}", id.0, letter(l)));
    format!("{}: {}", list([key.as_str(), name.as_str()]), list(changes))
}

fn body_text(body: &Body) -> String {
    let Body { stitch, drop, rows, above } = body;
    let mut text = format!("{stitch:?} {drop} {above}");
    for row in rows {
        let Row {
            lead,
            stacks,
            place: _, // where it stands in the file
        } = row;
        let _ = write!(text, "\n{lead}");
        for Stack(beads) in stacks {
            let _ = write!(text, " {}", beads_text(beads));
        }
    }
    text
}

fn fringe_text(fringe: &Fringe) -> String {
    let Fringe { strands, mirrored } = fringe;
    let mut text = format!("mirrored {mirrored}");
    for strand in strands {
        let Strand {
            beads,
            turn,
            hangs_on: StackPlace { row, stack },
            place: _, // where it stands in the file
        } = strand;
        let _ = write!(text, "\n{row}.{stack} {turn} {}", beads_text(beads));
    }
    text
}

fn hanging_text(hanging: &Hanging) -> String {
    let Hanging { by, on } = hanging;
    let on = on.map(|[left, right]| format!(" on {left}-{right}")).unwrap_or_default();
    format!("{}{on}", hang_text(by))
}

fn hang_text(hang: &Hang) -> String {
    match hang {
        Hang::ThreadGuard => "thread guard".to_owned(),
        Hang::Loop(beads) => format!("loop {}", beads_text(beads)),
    }
}

fn beads_text(beads: &[LetterId]) -> String {
    beads.iter().map(|b| b.0.to_string()).collect::<Vec<_>>().join(".")
}

/// `priced`: whether the booklet tells what it costs.
pub(super) fn of_bead(bead: &Bead, priced: bool) -> String {
    let Bead {
        key: _, // the name of the part
        name,
        finish,
        shine,
        colour,
        code,
        supplier,
        shape,
        size,
        width,
        length,
        hole,
        per_gram,
        pack,
        stock: _,       // what is on the shelf is the maker's alone: `count` tells it
        replaced_by: _, // told by the letters whose beads it replaces
        place: _,       // where it stands in the file
    } = bead;
    let (grams, price) = pack.map_or((None, None), |Pack { grams, price }| (Some(grams), price));
    Fields::default()
        .add("name", name)
        .add("finish", finish)
        .add("shine", format!("{:?} {:?}", shine.glass, shine.surface))
        .add("colour", colour.hex())
        .maybe("code", code.as_ref())
        .maybe("supplier", supplier.as_ref())
        .add("shape", format!("{shape:?}"))
        .maybe("size", size.as_ref())
        .add("width", width.0)
        .add("length", length.0)
        .add("hole", hole.0)
        .add("per-gram", per_gram)
        .maybe("pack", grams.map(|g| g.0))
        .maybe("price", price.filter(|_| priced))
        .done()
}

/// `priced`: whether the booklet tells what it costs.
pub(super) fn of_thread(thread: &Thread, priced: bool) -> String {
    let Thread {
        key: _, // what it decides, the spools that both uses share, stands in the part of the design
        name,
        colour,
        diameter,
        stretch_first,
        spool,
        stock: _, // as of beads
        place: _, // where it stands in the file
    } = thread;
    let (spool_length, price) = spool.map_or((None, None), |Spool { length, price }| (Some(length), price));
    Fields::default()
        .add("name", name)
        .add("colour", colour.hex())
        .add("diameter", diameter.0)
        .add("stretch-first", stretch_first)
        .maybe("spool", spool_length.map(|l| l.0))
        .maybe("price", price.filter(|_| priced))
        .done()
}

pub(super) fn of_finding(finding: &Finding) -> String {
    let Finding {
        key: _, // the name of the part
        name,
        kind,
        per_earring,
        holes,
        price,
        stock: _, // as of beads
        place: _, // where it stands in the file
    } = finding;
    Fields::default()
        .add("name", name)
        .maybe("kind", kind.map(|kind| format!("{kind:?}")))
        .add("per-earring", per_earring)
        .maybe("holes", holes.map(|h| h.0))
        .maybe("price", *price)
        .done()
}

/// `priced`: whether the booklet tells any price.
pub(super) fn of_palette(palette: &Palette, priced: bool) -> String {
    let Palette {
        beads: _,    // those that the booklet shows are parts of their own
        threads: _,  // likewise
        findings: _, // likewise
        tools,
        needle,
        currency,
    } = palette;
    Fields::default()
        .add("tools", tools_text(tools))
        .maybe("needle", needle.map(|n| n.0))
        .maybe("currency", currency.as_ref().filter(|_| priced))
        .done()
}

fn tools_text(tools: &Tools) -> String {
    match tools {
        Tools::ByUse(tools) => list(tools.iter().map(|(tool, name)| format!("{tool:?} {name}"))),
        Tools::Listed(names) => format!("listed {}", list(names)),
    }
}

pub(super) fn of_studio(studio: &Studio) -> String {
    let Studio {
        name,
        web,
        contact,
        copyright,
        terms,
        accent,
        tint,
        fonts,
        cover,
        head,
        foot,
        order,
        logo,
        paper: _, // a booklet has one paper, and its settings say which
        language,
        written_in: _,  // which of the texts are printed, shows in these
        language_at: _, // where it stands in the file
        units,
        large_print,
        beads_an_hour,
        source: _, // the file, of which the others are read
    } = studio;
    Fields::default()
        .add("name", name)
        .add("web", web)
        .add("contact", contact)
        .add("copyright", copyright)
        .add("terms", list(terms))
        .add("accent", accent.hex())
        .maybe("tint", tint.map(Colour::hex))
        .maybe("fonts", (!fonts.is_empty()).then(|| list(fonts.iter().map(font_text))))
        .maybe("cover", (*cover != CoverWay::default()).then(|| format!("{cover:?}")))
        .maybe("head", head.as_ref().map(running_text))
        .maybe("foot", foot.as_ref().map(running_text))
        .maybe("order", order.as_ref().map(order_text))
        .maybe("logo", logo.as_ref().map(|logo| image_text(&logo.image)))
        .add("language", language)
        .add("units", format!("{units:?}"))
        .add("large-print", large_print)
        .maybe("pace", *beads_an_hour)
        .done()
}

fn font_text(font: &HouseFont) -> String {
    let HouseFont {
        key,
        faces: _, // follow from the key
        font,
        name: _,  // where it was read from
        place: _, // where that is named
    } = font;
    format!("{key} {}", font.hash)
}

fn running_text(running: &Running) -> String {
    let Running { left, middle, right } = running;
    list([left, middle, right])
}

fn order_text(order: &Order) -> String {
    let Order { place: _, entries } = order;
    let entry = |entry: &Ordered| {
        let Ordered { written: _, place: _, own: _ } = entry; // told by the next two
        list([entry.name().to_owned(), entry.own().map(|own| own_section_text(own)).unwrap_or_default()])
    };
    list(entries.iter().map(entry))
}

fn own_section_text(section: &OwnSection) -> String {
    let pictures = section.pictures();
    let OwnSection {
        title: _, // these three are read from the file
        blocks: _,
        leads: _,
        hash,
        source: _, // the file
    } = section;
    let pictures = pictures.into_iter().map(|picture| image_text(&picture.image));
    list(std::iter::once(hash.clone()).chain(pictures))
}

fn image_text(image: &Image) -> String {
    let Image {
        name: _,  // where it was read from
        place: _, // where that is named
        file,
        alt,
    } = image;
    format!("{} {alt}", file.hash())
}

/// Items joined so that no two lists read alike: each with its length before it.
fn list(items: impl IntoIterator<Item = impl AsRef<str>>) -> String {
    items.into_iter().fold(String::new(), |mut text, item| {
        let item = item.as_ref();
        let _ = write!(text, "{}:{item}", item.len());
        text
    })
}
