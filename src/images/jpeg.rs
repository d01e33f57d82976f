//! A JPEG file taken apart (ITU-T T.81, annex B): its size, its colours, and its data without what a
//! camera or program tells beside them. Places, names and thumbnails must not get into a booklet.

use super::fault::Fault;
use super::turn::Turn;
use std::collections::BTreeSet;
use std::ops::Range;

/// What stands before each marker.
const MARK: u8 = 0xff;

/// A JPEG file.
#[derive(Debug)]
pub(super) struct Jpeg {
    /// Pixels across and down, as saved.
    pub(super) size: (u32, u32),
    /// How it is to be held.
    pub(super) turn: Turn,
    /// 1, 3 or 4 samples a pixel.
    pub(super) channels: u8,
    /// How Adobe's marker says that colours are transformed, where there is one.
    pub(super) transform: Option<u8>,
    /// Its colour profile.
    pub(super) profile: Vec<u8>,
    /// The file without anything that is not needed to show it.
    pub(super) bare: Vec<u8>,
}

/// Takes a JPEG file apart. What follows its end is dropped.
pub(super) fn look(bytes: &[u8]) -> Result<Jpeg, Fault> {
    let mut walk =
        Walk { bytes, at: 2, frame: None, scanned: false, scans: 0, bare: vec![MARK, 0xd8], adobe: None };
    let (mut turn, mut profile) = (Turn::UPRIGHT, Vec::<&[u8]>::new());
    loop {
        match walk.marker()? {
            0xd9 => break,
            // Markers without a length: starts, restarts, and what has no meaning here.
            0 | 1 | 0xd0..=0xd8 if walk.scanned => return Err(Fault::Damaged),
            0 | 1 | 0xd0..=0xd8 => {}
            marker => {
                let whole = walk.segment()?;
                let content = &bytes[whole.start + 2..whole.end];
                match marker {
                    0xe0 => walk.keep_jfif(content),
                    0xe1 => {
                        if let Some(exif) = content.strip_prefix(b"Exif\0\0") {
                            turn = Turn::of_exif(exif);
                        }
                    }
                    0xe2 => {
                        if let Some(part) = content.strip_prefix(b"ICC_PROFILE\0") {
                            profile.push(part);
                        }
                    }
                    0xee => walk.note_adobe(content),
                    0xe3..=0xef | 0xfe => {}
                    0xc0..=0xc2 => walk.frame(marker, whole, content)?,
                    0xc3 | 0xc5..=0xc7 | 0xc9..=0xcb | 0xcd..=0xcf | 0xdc => return Err(Fault::RareJpeg),
                    0xda => {
                        walk.scan(content)?;
                        walk.keep(marker, whole);
                        walk.keep_scan()?;
                    }
                    _ => walk.keep(marker, whole),
                }
            }
        }
    }
    walk.bare.extend([MARK, 0xd9]);
    // Photographs stay in memory as long as a booklet is made of them.
    walk.bare.shrink_to_fit();
    let transform = walk.keep_adobe()?;
    let Frame { size, channels, progressive, .. } =
        walk.frame.filter(Frame::is_whole).ok_or(Fault::Damaged)?;
    // The decoder takes channels of unlike density amiss where each has a scan of its own; no camera saves them so.
    if !progressive && walk.scans > 1 {
        return Err(Fault::RareJpeg);
    }
    let channels = channels.len() as u8;
    // Each part of a profile begins with its number and how many there are (ICC.1:2022, B.4).
    profile.sort_by_key(|part| part.first().copied());
    let profile = profile.iter().flat_map(|part| part.iter().skip(2)).copied().collect();
    Ok(Jpeg { size, turn, channels, transform, profile, bare: walk.bare })
}

/// The way through a file.
struct Walk<'b> {
    bytes: &'b [u8],
    at: usize,
    frame: Option<Frame>,
    scanned: bool,
    scans: usize,
    bare: Vec<u8>,
    /// Adobe's marker, and where it would stand in what is kept.
    adobe: Option<(usize, [u8; 12])>,
}

/// What a frame header says (B.2.2), and what has been seen of it.
struct Frame {
    size: (u32, u32),
    /// Saved from coarse to fine.
    progressive: bool,
    channels: Vec<Channel>,
}

/// One of the samples of a pixel.
struct Channel {
    id: u8,
    /// Samples across and down in the smallest group of pixels.
    density: (u8, u8),
    /// Whether a scan holds it; of progressive files, the scan that begins it.
    scanned: bool,
}

impl Frame {
    fn is_whole(&self) -> bool {
        self.channels.iter().all(|channel| channel.scanned)
    }
}

impl Walk<'_> {
    fn byte(&self, at: usize) -> Result<u8, Fault> {
        self.bytes.get(at).copied().ok_or(Fault::CutShort)
    }

    /// The next marker. Some cameras leave bytes between the first segments; behind the first scan they
    /// would be data that a spoiled byte has cut off.
    fn marker(&mut self) -> Result<u8, Fault> {
        while self.byte(self.at)? != MARK {
            if self.scanned {
                return Err(Fault::Damaged);
            }
            self.at += 1;
        }
        while self.byte(self.at)? == MARK {
            self.at += 1;
        }
        self.at += 1;
        self.byte(self.at - 1)
    }

    /// The segment that begins here: its length, counted with itself, and its content.
    fn segment(&mut self) -> Result<Range<usize>, Fault> {
        let start = self.at;
        let length = usize::from(u16::from_be_bytes([self.byte(start)?, self.byte(start + 1)?]));
        self.at = start + length;
        match length {
            0 | 1 => Err(Fault::Damaged),
            _ if self.at > self.bytes.len() => Err(Fault::CutShort),
            _ => Ok(start..self.at),
        }
    }

    fn keep(&mut self, marker: u8, segment: Range<usize>) {
        self.bare.extend([MARK, marker]);
        self.bare.extend_from_slice(&self.bytes[segment]);
    }

    /// Keeps what says that the colours are luminance and two differences; not its thumbnail.
    fn keep_jfif(&mut self, content: &[u8]) {
        if content.starts_with(b"JFIF\0") && content.len() >= 14 {
            self.bare.extend([MARK, 0xe0, 0, 16]);
            self.bare.extend_from_slice(&content[..12]);
            self.bare.extend([0, 0]);
        }
    }

    /// Notes what says how the colours are transformed (Adobe TN 5116).
    fn note_adobe(&mut self, content: &[u8]) {
        let noted = content.first_chunk().filter(|c| c.starts_with(b"Adobe"));
        self.adobe = noted.map(|c| (self.bare.len(), *c)).or(self.adobe);
    }

    /// Keeps that where it has a meaning, and gives it: there is nothing to transform in a grey image.
    fn keep_adobe(&mut self) -> Result<Option<u8>, Fault> {
        let (Some((at, content)), Some(frame)) = (self.adobe, &self.frame) else { return Ok(None) };
        match (frame.channels.len(), content[11]) {
            (1, _) => Ok(None),
            (3, transform @ (0 | 1)) | (4, transform @ (0 | 2)) => {
                let segment = [&[MARK, 0xee, 0, 14], &content[..]].concat();
                self.bare.splice(at..at, segment);
                Ok(Some(transform))
            }
            _ => Err(Fault::RareJpeg),
        }
    }

    /// Reads the frame header: baseline, extended or progressive, 8 bits a sample.
    fn frame(&mut self, marker: u8, whole: Range<usize>, content: &[u8]) -> Result<(), Fault> {
        let [bits, h1, h0, w1, w0, channels, rest @ ..] = content else { return Err(Fault::Damaged) };
        let [bits, h1, h0, w1, w0, channels] = [bits, h1, h0, w1, w0, channels].map(|b| *b);
        let size = (u32::from(u16::from_be_bytes([w1, w0])), u32::from(u16::from_be_bytes([h1, h0])));
        if bits != 8 || !matches!(channels, 1 | 3 | 4) {
            return Err(Fault::RareJpeg);
        }
        let is_long_enough = rest.len() == 3 * usize::from(channels);
        if self.frame.is_some() || size.0 == 0 || size.1 == 0 || !is_long_enough {
            return Err(Fault::Damaged);
        }
        let channels: Vec<Channel> = rest
            .chunks_exact(3)
            .map(|c| Channel { id: c[0], density: (c[1] >> 4, c[1] & 15), scanned: false })
            .collect();
        let ids: BTreeSet<u8> = channels.iter().map(|c| c.id).collect();
        let (across, down) = channels[0].density;
        if ids.len() < channels.len() || channels.iter().any(|c| c.density.0 == 0 || c.density.1 == 0) {
            return Err(Fault::Damaged);
        }
        // The first is lightness, or as good as any: no camera or program saves another one denser.
        if channels.iter().any(|c| c.density.0 > across || c.density.1 > down) || across.max(down) > 4 {
            return Err(Fault::RareJpeg);
        }
        self.frame = Some(Frame { size, progressive: marker == 0xc2, channels });
        self.keep(marker, whole);
        Ok(())
    }

    /// Reads the header of a scan (B.2.3): which channels it holds, each of them once in a file that is not
    /// progressive.
    fn scan(&mut self, content: &[u8]) -> Result<(), Fault> {
        let (Some(frame), Some((count, rest))) = (&mut self.frame, content.split_first()) else {
            return Err(Fault::Damaged);
        };
        let count = usize::from(*count);
        if count == 0 || rest.len() != 2 * count + 3 {
            return Err(Fault::Damaged);
        }
        let begins = rest[2 * count] == 0 && rest[2 * count + 2] >> 4 == 0;
        for held in rest.chunks_exact(2).take(count) {
            let channel = frame.channels.iter_mut().find(|c| c.id == held[0]).ok_or(Fault::Damaged)?;
            if channel.scanned && !frame.progressive {
                return Err(Fault::Damaged);
            }
            channel.scanned |= begins;
        }
        Ok(())
    }

    /// Keeps the data of a scan: up to the next marker that is no restart. A nought after the byte that
    /// begins a marker says that it begins none.
    fn keep_scan(&mut self) -> Result<(), Fault> {
        let start = self.at;
        self.scanned = true;
        self.scans += 1;
        loop {
            let rest = self.bytes.get(self.at..).unwrap_or_default();
            let ahead = rest.iter().position(|b| *b == MARK).ok_or(Fault::CutShort)?;
            self.at += ahead;
            match self.byte(self.at + 1)? {
                0 | 0xd0..=0xd7 => self.at += 2,
                MARK => self.at += 1,
                _ => break,
            }
        }
        self.bare.extend_from_slice(&self.bytes[start..self.at]);
        Ok(())
    }
}
