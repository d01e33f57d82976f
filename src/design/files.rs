//! The three files as they are written: their keys, and the type of each value.

use super::measure::{
    Apart, Day, Hex, Length, NotNegative, Papers, Positive, ShapeWord, Share, ShineWords, SkillWord,
    UnitWord, Whole, WireWord, YesNo,
};
use super::yaml::{EachOrMore, Entries, Field, OneOrEach, OneOrMore, Part, PartOrMore, Text, TextOr};
use serde::Deserialize;
use serde::de::value::{MapAccessDeserializer, SeqAccessDeserializer};
use serde::de::{Deserializer, Error, MapAccess, SeqAccess, Visitor};
use std::fmt;

macro_rules! file_part {
    ($(#[$doc:meta])* $name:ident, $wanted:literal { $($field:ident $(= $key:literal)? : $type:ty,)+ }) => {
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq, Default, Deserialize)]
        #[serde(default, expecting = $wanted)]
        pub(super) struct $name {
            $( $(#[serde(rename = $key)])? pub $field: Field<$type>, )+
        }

        impl Part for $name {
            const KEYS: &'static [&'static str] = &[$(file_part!(@key $field $($key)?)),+];
            const WANTED: &'static str = $wanted;
        }
    };
    (@key $field:ident) => { stringify!($field) };
    (@key $field:ident $key:literal) => { $key };
}

file_part! {
    /// A design file.
    DesignFile, "keys with values, as in `title: Heron at Dusk`" {
        title: OneOrEach,
        summary: OneOrEach,
        edition: Whole,
        date: Day,
        skill: SkillWord,
        palette: Text,
        studio: Text,
        colours: Entries<Text>,
        body: BodyPart,
        fringe: FringePart,
        pair: Text,
        hang: PartOrMore<LoopKeys>,
        start: Text,
        threads: ThreadsPart,
        thread: ThreadPart,
        findings: OneOrMore,
        colourways: Entries<Entries<OneOrEach>>,
        photos: PhotosPart,
        film: FilmPart,
    }
}

file_part! {
    /// The body of a design.
    BodyPart, "keys with values: `stitch`, `drop` and `picture`" {
        stitch: Text,
        drop: Whole,
        picture: Text,
        below: Text,
    }
}

file_part! {
    /// The fringe of a design.
    FringePart, "keys with values: `strands` or `picture`, and `mirror`, `turn` or `along` if they apply" {
        mirror: YesNo,
        strands: Strands,
        picture: Text,
        turn: Whole,
        along: Text,
        from: Whole,
        to: Whole,
        every: Whole,
        each: Whole,
    }
}

/// The strands as written, one after another.
#[derive(Clone, Debug, PartialEq, Default)]
pub(super) struct Strands(pub Vec<Field<TextOr<StrandKeys>>>);

impl<'de> Deserialize<'de> for Strands {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let wanted = "a list: one strand a line, each after a hyphen and a blank";
        Vec::deserialize(deserializer).map(Strands).map_err(|_| D::Error::custom(wanted))
    }
}

file_part! {
    /// A strand with its own turn.
    StrandKeys, "runs as in `8A 2B 1D`, or `{beads: 8A 2B 3D, turn: 3}`" {
        beads: Text,
        turn: Whole,
    }
}

file_part! {
    /// A loop of beads, or a guard with its place.
    LoopKeys, "`thread guard`, or `{loop: 8A}`, with `at: 2-4` where it is to hang from those stacks" {
        beads = "loop": Text,
        guard = "thread guard": Text,
        at: Text,
    }
}

file_part! {
    /// Which threads of the palette a design takes.
    ThreadsPart, "`{body: …, fringe: …}` with names of threads in the palette" {
        body: Text,
        fringe: Text,
    }
}

file_part! {
    /// Lengths allowed on top of the path.
    ThreadPart, "keys with values: `arm span`, `tail`, `allowance`, `spare beads`" {
        arm_span = "arm span": Length,
        tail: Length,
        allowance: Share,
        spare_beads = "spare beads": Share,
    }
}

file_part! {
    /// A picture file with what it shows.
    ImagePart, "`{file: …, shows: …}`" {
        file: Text,
        shows: OneOrEach,
    }
}

file_part! {
    /// The photographs of a design, by where they stand in its booklet.
    PhotosPart, "photographs by their place, as in `{cover: {file: heron.jpg, shows: …}}`" {
        cover: ImagePart,
        back: PhotoPart,
        details: PartOrMore<PhotoPart>,
        steps: Entries<PartOrMore<PhotoPart>>,
    }
}

file_part! {
    /// A photograph with what it shows, and what stands below it.
    PhotoPart, "`{file: …, shows: …}`, and `caption` if words are to stand below it" {
        file: Text,
        shows: OneOrEach,
        caption: OneOrEach,
    }
}

file_part! {
    /// A film of how the earring is made.
    FilmPart, "`{address: …, times: {ladder: 1:42}}`" {
        address: OneOrEach,
        times: Entries<OneOrEach>,
    }
}

file_part! {
    /// A palette file.
    PaletteFile, "keys with values: `beads`, `threads`, `findings` and `tools`" {
        currency: Text,
        beads: Entries<BeadPart>,
        threads: Entries<ThreadEntry>,
        findings: Entries<FindingPart>,
        tools: ToolsField,
        needle: Length,
    }
}

/// The tools as written: by what they are used for, or a list.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum ToolsField {
    /// `{scissors: small sharp scissors}`
    ByUse(Entries<OneOrEach>),
    /// `[scissors, ruler]`
    Listed(EachOrMore),
}

impl<'de> Deserialize<'de> for ToolsField {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Either;
        impl<'de> Visitor<'de> for Either {
            type Value = ToolsField;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(
                    "tools by their use, as in `{scissors: small sharp scissors}`, or a list of texts",
                )
            }
            fn visit_str<E: Error>(self, text: &str) -> Result<ToolsField, E> {
                let one = OneOrEach::One(Text(text.to_owned()));
                Ok(ToolsField::Listed(EachOrMore(vec![Field::Given(one)])))
            }
            fn visit_map<M: MapAccess<'de>>(self, map: M) -> Result<ToolsField, M::Error> {
                Entries::deserialize(MapAccessDeserializer::new(map)).map(ToolsField::ByUse)
            }
            fn visit_seq<S: SeqAccess<'de>>(self, items: S) -> Result<ToolsField, S::Error> {
                EachOrMore::deserialize(SeqAccessDeserializer::new(items)).map(ToolsField::Listed)
            }
        }
        deserializer.deserialize_any(Either)
    }
}

file_part! {
    /// A bead of the palette.
    BeadPart, "keys with values, as in `{name: Ink, colour: \"#1b1c20\", shape: cylinder, size: 11/0}`" {
        name: OneOrEach,
        finish: OneOrEach,
        shine: ShineWords,
        colour: Hex,
        code: Text,
        supplier: Text,
        shape: ShapeWord,
        size: Text,
        width: Length,
        length: Length,
        hole: Length,
        per_gram = "per gram": Positive,
        pack: PackPart,
        stock: NotNegative,
        replaced_by = "replaced by": Text,
    }
}

file_part! {
    /// A pack of beads.
    PackPart, "`{grams: 5, price: 2.90}`" {
        grams: Positive,
        price: NotNegative,
    }
}

file_part! {
    /// A thread of the palette.
    ThreadEntry, "keys with values, as in `{name: nylon, colour: \"#ffffff\", diameter: 0.25 mm}`" {
        name: OneOrEach,
        colour: Hex,
        diameter: Length,
        stretch_first = "stretch first": YesNo,
        spool: SpoolPart,
        stock: Length,
    }
}

file_part! {
    /// A spool of thread.
    SpoolPart, "`{length: 50 m, price: 4.20}`" {
        length: Length,
        price: NotNegative,
    }
}

file_part! {
    /// A finding.
    FindingPart, "keys with values, as in `{name: lever-back ear wire, kind: lever back, per earring: 1}`" {
        name: OneOrEach,
        kind: WireWord,
        holes: Apart,
        per_earring = "per earring": Whole,
        price: NotNegative,
        stock: NotNegative,
    }
}

file_part! {
    /// A studio file.
    StudioFile, "keys with values, as in `name: Studio Hollow Reed`" {
        name: Text,
        web: Text,
        contact: Text,
        copyright: OneOrEach,
        terms: EachOrMore,
        accent: Hex,
        tint: Hex,
        fonts: FontsPart,
        cover: Text,
        head: RunningPart,
        foot: RunningPart,
        order: EachOrMore,
        logo: ImagePart,
        photos: Text,
        paper: Papers,
        language: Text,
        units: UnitWord,
        large_print = "large print": YesNo,
        beads_an_hour = "beads an hour": Whole,
        thread: ThreadPart,
    }
}

file_part! {
    /// The house style in a folder of templates.
    StyleFile, "keys with values, as in `accent: \"#2f5563\"`" {
        accent: Hex,
        tint: Hex,
        fonts: FontsPart,
        cover: Text,
        head: RunningPart,
        foot: RunningPart,
        logo: ImagePart,
    }
}

file_part! {
    /// Font files by what is set in them.
    FontsPart, "font files by what is set in them, as in `{text: body.ttf, title: title.otf}`" {
        text: Text,
        strong: Text,
        emphasis: Text,
        title: Text,
    }
}

file_part! {
    /// What stands at the head or foot of every page.
    RunningPart, "what stands at the left, in the middle and at the right, as in `{left: \"{{ title }}\", right: \"{{ page }}\"}`" {
        left: OneOrEach,
        middle: OneOrEach,
        right: OneOrEach,
    }
}
