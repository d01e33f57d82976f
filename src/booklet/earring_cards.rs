//! Cards that a pair is sold on: fronts with places to pierce, backs with how to look after it.

use super::book::Edition;
use super::compose::{finish, open};
use super::sections::safety::{is_mail, linked};
use super::{Block, Booklet, CardBack, CardFace, CardFront, EarringCards, Section, Text, Word, Wording};
use crate::design::{Design, EarWire, link_to};
use crate::diagnostic::Problem;
use crate::stitch::Work;
use crate::tally::Tally;
use crate::units::{Mm, Size};
use minijinja::context;

/// How far below a card's upper edge its holes are. This and the measures below were chosen for wires as shops sell them
/// (from memory).
const HOLES_BELOW: Mm = Mm(19.0);
/// Between the two earrings, and from them to the card's sides.
const BETWEEN: Mm = Mm(6.0);
const BESIDE: Mm = Mm(7.0);
/// Below the earrings, for the name.
const FOOT: Mm = Mm(24.0);
/// The least that a card measures: smaller ones are lost on a stand (common practice, no source).
const LEAST: Size = Size { width: Mm(50.0), height: Mm(70.0) };

/// Sheets of cards: the fronts, and the backs for the other side of the paper.
///
/// # Errors
/// When a text of the wording cannot be filled in.
pub fn earring_cards(
    design: &Design,
    work: &Work,
    tally: &Tally,
    wording: &Wording,
    edition: &Edition,
) -> Result<Booklet, Vec<Problem>> {
    let book = open(design, work, tally, wording, edition);
    let words = &book.words;
    let apart = tally.size.width + BETWEEN;
    let hangs = tally.size.drop + hanging_length(design.ear_wire());
    let size = Size {
        width: (apart + tally.size.width + BESIDE * 2.0).max(LEAST.width),
        height: (HOLES_BELOW + hangs + FOOT).max(LEAST.height),
    };
    let title = words.own(&design.title);
    let front = CardFront {
        holes: (apart, HOLES_BELOW),
        studio: design.studio.name.clone(),
        title: title.clone(),
        colourway: design.colourway_name().map(|name| words.own(name)),
        web: match design.studio.web.as_str() {
            "" => Text::default(),
            web => linked(web, &[(web, link_to(web))]),
        },
        alt: words.say(Word::CardsAlt, context! { apart => apart.0 }),
    };
    let back = CardBack {
        holes_below: HOLES_BELOW,
        title: words.fixed(Word::FinishingCare),
        texts: [Word::FinishingCareText, Word::SafetyChildren, Word::CardsMetal]
            .map(|word| Text::marked(&words.fixed(word)))
            .to_vec(),
        foot: [Some(Text::plain(design.studio.name.as_str())), contact(&design.studio.contact)]
            .into_iter()
            .flatten()
            .collect(),
    };
    let section = |name: &str, face: CardFace| Section {
        name: name.into(),
        title: String::new(),
        new_page: true,
        faces: false,
        listed: false,
        blocks: vec![Block::EarringCards(EarringCards { size, face })],
    };
    let sections =
        vec![section("cards", CardFace::Front(front)), section("card-backs", CardFace::Back(back))];
    let document = words.say(Word::CardsDocument, context! { title => title.as_str() });
    let mut booklet = finish(book, sections, false, Vec::new())?;
    booklet.meta.title = document;
    Ok(booklet)
}

/// A contact line, if there is one; an address of mail is a link.
fn contact(line: &str) -> Option<Text> {
    match line {
        "" => None,
        mail if is_mail(mail) => Some(linked(mail, &[(mail, format!("mailto:{mail}"))])),
        other => Some(Text::plain(other)),
    }
}

/// How far below the hole the work begins: what a wire measures that hangs in it.
fn hanging_length(wire: EarWire) -> Mm {
    Mm(match wire {
        EarWire::Hook => 16.0,
        EarWire::LeverBack => 14.0,
        EarWire::Stud => 4.0,
        EarWire::Hoop => 14.0,
    })
}
