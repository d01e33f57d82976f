//! The style sheet: page grid, type sizes, leadings and colours. Everything that decides how a
//! booklet looks in general stands here.

use crate::booklet::drawing::Face;
use crate::booklet::{ParagraphStyle, Setting};
use crate::colour::Colour;
use crate::design::Paper;
use crate::units::{Mm, Pt, Size};

/// Least contrast of text against its ground (WCAG 2.2, success criterion 1.4.3, level AA).
pub(super) const TEXT_CONTRAST: f64 = 4.5;
/// Least size of letters anywhere: the floor of the charts.
pub(super) const SMALLEST_LETTER: Pt = Pt(5.0);
/// How far large print scales drawings up: letters of 8.5 pt become 14 pt and more.
const LARGE_FIGURES: f64 = 1.7;
/// Least size of numbers and words in large print's drawings.
pub(super) const LARGE_LABEL: Pt = Pt(14.0);
/// How far large print enlarges the numbers of rulers, whose ticks stay where they are; more would not fit
/// between them.
pub(super) const LARGE_RULER: f64 = 1.28;
/// Least side of a box that can be ticked with a pen: common practice, no source.
pub(super) const LEAST_TICK: Mm = Mm(5.0);
/// Least size of a chart's cells in large print.
pub(super) const LARGE_CELL: Mm = Mm(7.0);
/// Unprinted by some home printers at the foot of a page (driver tables of one maker family: up to 17 mm).
const UNPRINTED_FOOT: Mm = Mm(17.0);

/// The size of a paper: A4 by ISO 216, US Letter by ANSI/ASME Y14.1.
#[must_use]
pub fn paper_size(paper: Paper) -> Size {
    match paper {
        Paper::A4 => Size { width: Mm(210.0), height: Mm(297.0) },
        Paper::Letter => Size { width: Mm::from_inches(8.5), height: Mm::from_inches(11.0) },
    }
}

/// A style of text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Style {
    /// Face of plain runs.
    pub face: Face,
    /// Face of strong runs.
    pub strong: Face,
    /// Face of emphasised runs.
    pub emphasis: Face,
    /// Size.
    pub size: Pt,
    /// From baseline to baseline.
    pub leading: Mm,
    /// Colour.
    pub colour: Colour,
}

impl Style {
    /// The same in another colour.
    pub fn coloured(self, colour: Colour) -> Style {
        Style { colour, ..self }
    }
    /// The same with everything strong.
    pub fn strong(self) -> Style {
        Style { face: self.strong, emphasis: self.strong, ..self }
    }
}

/// The style sheet of one booklet.
pub(super) struct Sheet {
    /// The page.
    pub page: Size,
    /// White at the left and right.
    pub side: Mm,
    /// From the page's top to its content.
    pub top: Mm,
    /// Baseline of the running head.
    pub head: Mm,
    /// Baseline of the last foot line.
    pub foot: Mm,
    /// Baseline of the stamp.
    pub stamp: Mm,
    /// Running text.
    pub body: Style,
    /// Notes.
    pub small: Style,
    /// Table cells.
    pub cell: Style,
    /// Heads of table columns.
    pub column_head: Style,
    /// Headings by level from 1.
    pub headings: [Style; 3],
    /// Running head and foot.
    pub running: Style,
    /// The cover's title.
    pub cover_title: Style,
    /// The cover's summary.
    pub cover_summary: Style,
    /// Labels beside charts: row and strand numbers.
    pub chart_label: Pt,
    /// Accent for rules, as given.
    pub accent: Colour,
    /// Accent for text: dark enough on paper and on the tint.
    pub accent_text: Colour,
    /// Text.
    pub ink: Colour,
    /// Quiet text.
    pub muted: Colour,
    /// Fine rules.
    pub hairline: Colour,
    /// Ground of boxes; `None` on bench copies, which spare ink.
    pub tint: Option<Colour>,
    /// Stronger colour of cautions.
    pub caution: Colour,
    /// How much everything is enlarged against the usual print.
    pub enlarged: f64,
    /// How far drawings may be scaled up.
    pub figures: f64,
}

impl Sheet {
    /// The style sheet for a setting.
    pub fn new(setting: &Setting) -> Sheet {
        let page = paper_size(setting.paper);
        let accent = if setting.grey { setting.accent.grey() } else { setting.accent };
        let tint = accent.mix(Colour::WHITE, 0.93);
        let accent_text = darkened(accent, tint);
        let ink = Colour::new(0x21, 0x21, 0x24);
        let muted = Colour::new(0x59, 0x59, 0x5e);
        // Body, small, lead, headings 3 to 1, running, cover title, cover summary; all in points.
        let sizes: [f64; 9] = match (setting.large_print, setting.bench) {
            (true, _) => [18.0, 16.0, 20.0, 19.0, 22.0, 29.0, 14.0, 44.0, 20.0],
            (false, true) => [12.5, 11.0, 14.0, 13.0, 15.5, 22.0, 9.0, 34.0, 15.0],
            (false, false) => [10.0, 8.5, 12.5, 10.5, 13.5, 25.0, 8.0, 40.0, 14.5],
        };
        let enlarged = sizes[0] / 10.0;
        let sans = |size: f64, leading: f64, colour| Style {
            face: Face::Regular,
            strong: Face::Bold,
            emphasis: Face::Italic,
            size: Pt(size),
            leading: Pt(size * leading).mm(),
            colour,
        };
        let serif = |face, size: f64, leading: f64, colour| Style {
            face,
            strong: Face::Title,
            emphasis: face,
            size: Pt(size),
            leading: Pt(size * leading).mm(),
            colour,
        };
        let cell_size = if setting.large_print {
            16.0
        } else if setting.bench {
            12.0
        } else {
            9.0
        };
        let foot = page.height - UNPRINTED_FOOT - Mm(4.6);
        Sheet {
            page,
            side: if setting.large_print {
                Mm(14.0)
            } else if setting.bench {
                Mm(17.0)
            } else {
                Mm(20.0)
            },
            top: Mm(26.0),
            head: Mm(16.5),
            foot,
            stamp: page.height - UNPRINTED_FOOT - Mm(0.9),
            body: sans(sizes[0], 1.4, ink),
            small: sans(sizes[1], 1.35, muted),
            cell: sans(cell_size, 1.32, ink),
            column_head: Style {
                face: Face::Bold,
                ..sans(if setting.large_print { 16.0 } else { cell_size - 0.5 }, 1.25, accent_text)
            },
            headings: [
                serif(Face::Title, sizes[5], 1.14, ink),
                serif(Face::Title, sizes[4], 1.25, accent_text),
                Style { face: Face::Bold, ..sans(sizes[3], 1.35, ink) },
            ],
            running: sans(sizes[6], 1.25, muted),
            cover_title: serif(Face::Title, sizes[7], 1.08, ink),
            cover_summary: serif(Face::TitleLight, sizes[8], 1.38, ink),
            chart_label: Pt(if setting.large_print {
                13.0
            } else if setting.bench {
                11.0
            } else {
                7.0
            }),
            accent,
            accent_text,
            ink,
            muted,
            hairline: Colour::new(0xcf, 0xcf, 0xd2),
            tint: (!setting.bench).then_some(tint),
            caution: if setting.grey { ink } else { Colour::new(0xa3, 0x2a, 0x1e) },
            enlarged,
            figures: if setting.large_print { LARGE_FIGURES } else { 1.0 },
        }
    }

    /// Width of the content.
    pub fn width(&self) -> Mm {
        self.page.width - self.side * 2.0
    }
    /// Width of running text: a comfortable measure of about 75 characters at most.
    pub fn measure(&self) -> Mm {
        self.width().min(self.body.size.mm() * 36.5)
    }
    /// The style of a paragraph.
    pub fn paragraph(&self, style: ParagraphStyle) -> Style {
        match style {
            ParagraphStyle::Body => self.body,
            ParagraphStyle::Small => self.small,
        }
    }
    /// The style of a heading.
    pub fn heading(&self, level: u8) -> Style {
        self.headings[usize::from(level.clamp(1, 3)) - 1]
    }
    /// A length that grows with the type.
    pub fn grown(&self, mm: f64) -> Mm {
        Mm(mm * (1.0 + (self.enlarged - 1.0) * 0.6))
    }
}

/// A colour mixed towards black until text in it can be read on paper and on a ground.
pub(super) fn darkened(colour: Colour, ground: Colour) -> Colour {
    let enough = |c: Colour| c.contrast(Colour::WHITE).min(c.contrast(ground)) >= TEXT_CONTRAST;
    (0..=20)
        .map(|step| colour.mix(Colour::BLACK, f64::from(step) / 20.0))
        .find(|&c| enough(c))
        .unwrap_or(Colour::BLACK)
}
