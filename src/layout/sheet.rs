//! The style sheet: page grid, type sizes, leadings and colours. Everything that decides how a
//! booklet looks in general stands here.

use crate::booklet::{ParagraphStyle, Setting};
use crate::colour::{CAUTION, Colour, INK, QUIET, darkened};
use crate::design::Paper;
use crate::drawn::Face;
use crate::units::{Mm, Pt, Size};

/// Least size of anything printed, and of letters on the beads of a chart: usual print. A choice of this program.
const LEAST: Pt = Pt(7.0);
const LEAST_LETTER: Pt = Pt(8.0);
/// Least size of anything in large print (RNIB clear print guidance).
const LARGE_LEAST: Pt = Pt(16.0);
/// How far large print scales drawings up at most: the widest diagrams, of 85 mm, become as wide as the text, and letters
/// of 8.5 pt become 16 pt.
const LARGE_FIGURES: f64 = 1.92;
/// Least side of a box that can be ticked with a pen: common practice, no source.
pub(super) const LEAST_TICK: Mm = Mm(5.0);
/// Least size of a chart's cells in large print.
pub(super) const LARGE_CELL: Mm = Mm(7.0);
/// Unprinted by some home printers at the foot of a page (driver tables of one maker family: up to 17 mm).
const UNPRINTED_FOOT: Mm = Mm(17.0);

/// Longest comfortable line, in ems: about 75 characters (common practice of book setting, no source).
const COMFORTABLE_EMS: f64 = 36.5;
/// How far lengths grow with the type: by this share of what the type grows by.
const GROWS: f64 = 0.6;

/// The size of a paper: A4 and A5 by ISO 216, US Letter by ANSI/ASME Y14.1, and its half.
#[must_use]
pub fn paper_size(paper: Paper) -> Size {
    match paper {
        Paper::A4 => Size { width: Mm(210.0), height: Mm(297.0) },
        Paper::Letter => Size { width: Mm::from_inches(8.5), height: Mm::from_inches(11.0) },
        Paper::A5 => Size { width: Mm(148.0), height: Mm(210.0) },
        Paper::HalfLetter => Size { width: Mm::from_inches(5.5), height: Mm::from_inches(8.5) },
    }
}

/// A page of a tablet edition: as wide to its height as many tablets are (4 : 3), and about as large as the screen of one of
/// ten inches, so that type has about its size there. A choice of this program.
const SCREEN: Size = Size { width: Mm(200.0), height: Mm(150.0) };
/// Height of the links at its foot: a finger's width (WCAG 2.2, 2.5.5: 44 CSS pixels, 11.6 mm).
pub(super) const SCREEN_LINKS: Mm = Mm(12.0);
/// Least size of anything on it.
const SCREEN_LEAST: Pt = Pt(9.0);
/// How far drawings are scaled up on it.
const SCREEN_FIGURES: f64 = 1.5;
/// From its top to its content, to the baseline of its running head, and how far above its links the last foot line and the
/// stamp stand.
const SCREEN_TOP: Mm = Mm(13.5);
const SCREEN_HEAD: Mm = Mm(8.0);
const SCREEN_FOOT: Mm = Mm(4.6);
const SCREEN_STAMP: Mm = Mm(1.4);

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
    /// Longest line that is read with comfort in this style.
    pub fn comfortable_width(&self) -> Mm {
        self.size.mm() * COMFORTABLE_EMS
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
    /// Least size of anything.
    pub least: Pt,
    /// Least size of letters on the beads of a chart.
    pub least_letter: Pt,
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
    /// How far drawings with numbered moves may be scaled up.
    pub figures: f64,
    /// How far all others may be, which are compared with one another.
    pub steady: f64,
    /// What share of their place drawings fill that are as wide as it.
    pub filled: f64,
}

/// Sizes of one way of printing, in points, and the white at either side of its pages.
struct Print {
    body: f64,
    small: f64,
    cell: f64,
    column_head: f64,
    /// Headings by level from 1.
    headings: [f64; 3],
    running: f64,
    cover_title: f64,
    cover_summary: f64,
    chart_label: f64,
    side: Mm,
}

/// Booklets.
const USUAL: Print = Print {
    body: 10.0,
    small: 8.5,
    cell: 9.0,
    column_head: 8.5,
    headings: [25.0, 13.5, 10.5],
    running: 8.0,
    cover_title: 40.0,
    cover_summary: 14.5,
    chart_label: 7.0,
    side: Mm(20.0),
};
/// Bench copies: read at arm's length.
const BENCH: Print = Print {
    body: 12.5,
    small: 11.0,
    cell: 12.0,
    column_head: 11.5,
    headings: [22.0, 15.5, 13.0],
    running: 9.0,
    cover_title: 34.0,
    cover_summary: 15.0,
    chart_label: 11.0,
    side: Mm(17.0),
};
/// Large print, of both.
const LARGE: Print = Print {
    body: 18.0,
    small: 16.0,
    cell: 16.0,
    column_head: 16.0,
    headings: [29.0, 22.0, 19.0],
    running: 16.0,
    cover_title: 44.0,
    cover_summary: 20.0,
    chart_label: 16.0,
    side: Mm(14.0),
};

/// Tablet editions.
const TABLET: Print = Print {
    body: 14.0,
    small: 11.5,
    cell: 12.5,
    column_head: 11.0,
    headings: [23.0, 17.0, 14.5],
    running: 9.0,
    cover_title: 32.0,
    cover_summary: 14.5,
    chart_label: 10.0,
    side: Mm(12.0),
};

/// Pages of half the size, as pocket books have them.
const SMALL: Print = Print {
    body: 9.0,
    small: 8.0,
    cell: 8.0,
    column_head: 7.5,
    headings: [19.0, 12.0, 9.5],
    running: 7.0,
    cover_title: 28.0,
    cover_summary: 11.5,
    chart_label: 7.0,
    side: Mm(13.0),
};

/// From the page's top to its content, and to the baseline of the running head: of whole pages, of half ones.
const TOP: [Mm; 2] = [Mm(26.0), Mm(18.0)];
const HEAD: [Mm; 2] = [Mm(16.5), Mm(10.5)];
/// How much less than a whole page's foot stays unprinted on a half one, which is printed along the sheet's side.
const LESS_FOOT: Mm = Mm(6.0);
/// How far above what may stay unprinted the last foot line and the stamp stand.
const FOOT_LINE: Mm = Mm(4.6);
const STAMP_LINE: Mm = Mm(0.9);

/// Sans serif at a size in points, with a leading in sizes.
fn sans(size: f64, leading: f64, colour: Colour) -> Style {
    Style {
        face: Face::Regular,
        strong: Face::Bold,
        emphasis: Face::Italic,
        size: Pt(size),
        leading: Pt(size * leading).mm(),
        colour,
    }
}

/// Serif for titles, likewise.
fn serif(face: Face, size: f64, leading: f64, colour: Colour) -> Style {
    Style {
        face,
        strong: Face::Title,
        emphasis: face,
        size: Pt(size),
        leading: Pt(size * leading).mm(),
        colour,
    }
}

impl Sheet {
    /// The style sheet for a setting.
    pub fn new(setting: &Setting) -> Sheet {
        let page = if setting.tablet { SCREEN } else { paper_size(setting.paper) };
        let accent = if setting.grey { setting.accent.grey() } else { setting.accent };
        let own_tint = setting.tint.map(|tint| if setting.grey { tint.grey() } else { tint });
        let tint = own_tint.unwrap_or_else(|| accent.mix(Colour::WHITE, 0.93));
        let accent_text = darkened(accent, tint);
        let (ink, muted) = (INK, QUIET);
        let small = !setting.tablet && setting.paper == setting.paper.half();
        let print = match (setting.large_print, setting.bench) {
            (true, _) => LARGE,
            (false, true) => BENCH,
            (false, false) if setting.tablet => TABLET,
            (false, false) if small => SMALL,
            (false, false) => USUAL,
        };
        let [foot, stamp] = if setting.tablet {
            [SCREEN_FOOT, SCREEN_STAMP].map(|over| page.height - SCREEN_LINKS - over)
        } else {
            let unprinted = if small { UNPRINTED_FOOT - LESS_FOOT } else { UNPRINTED_FOOT };
            [FOOT_LINE, STAMP_LINE].map(|over| page.height - unprinted - over)
        };
        let (least, least_letter) = match (setting.large_print, setting.tablet) {
            (true, _) => (LARGE_LEAST, LARGE_LEAST),
            (false, true) => (SCREEN_LEAST, SCREEN_LEAST),
            (false, false) => (LEAST, LEAST_LETTER),
        };
        let figures = match (setting.large_print, setting.tablet) {
            (true, _) => LARGE_FIGURES,
            (false, true) => SCREEN_FIGURES,
            (false, false) => 1.0,
        };
        let side = if small { print.side.min(SMALL.side) } else { print.side };
        let [title, heading, small_heading] = print.headings;
        Sheet {
            page,
            side,
            top: if setting.tablet { SCREEN_TOP } else { TOP[usize::from(small)] },
            head: if setting.tablet { SCREEN_HEAD } else { HEAD[usize::from(small)] },
            foot,
            stamp,
            body: sans(print.body, 1.4, ink),
            small: sans(print.small, 1.35, muted),
            cell: sans(print.cell, 1.32, ink),
            column_head: Style { face: Face::Bold, ..sans(print.column_head, 1.25, accent_text) },
            headings: [
                serif(Face::Title, title, 1.14, ink),
                serif(Face::Title, heading, 1.25, accent_text),
                Style { face: Face::Bold, ..sans(small_heading, 1.35, ink) },
            ],
            running: sans(print.running, 1.25, muted),
            cover_title: serif(Face::Title, print.cover_title, 1.08, ink),
            cover_summary: serif(Face::TitleLight, print.cover_summary, 1.38, ink),
            chart_label: Pt(print.chart_label),
            least,
            least_letter,
            accent,
            accent_text,
            ink,
            muted,
            hairline: Colour::new(0xcf, 0xcf, 0xd2),
            tint: (!setting.bench).then_some(tint),
            caution: if setting.grey { ink } else { CAUTION },
            enlarged: print.body / USUAL.body,
            figures,
            steady: figures,
            filled: 1.0,
        }
    }

    /// Width of the content.
    pub fn width(&self) -> Mm {
        self.page.width - self.side * 2.0
    }
    /// Width of running text: a comfortable measure of about 75 characters at most.
    pub fn measure(&self) -> Mm {
        self.width().min(self.body.comfortable_width())
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
    /// A length that grows with the type, if not as fast.
    pub fn grown(&self, length: Mm) -> Mm {
        length * (1.0 + (self.enlarged - 1.0) * GROWS)
    }
}
