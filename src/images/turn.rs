//! How an image is to be held: cameras save what they see and note how they were held.

/// How an image is turned and mirrored to be seen upright: the value of the tag `Orientation`
/// (Exif 3.0, 4.6.5.1.6), 1 to 8.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Turn(u8);

impl Turn {
    /// As it is saved.
    pub const UPRIGHT: Turn = Turn(1);

    /// What a block of Exif data says; upright where it says nothing that has a meaning.
    pub(super) fn of_exif(exif: &[u8]) -> Turn {
        image::metadata::Orientation::from_exif_chunk(exif).map_or(Turn::UPRIGHT, |o| Turn(o.to_exif()))
    }

    /// The sides of a saved image as they are seen: width and height, exchanged where it lies on its side.
    #[must_use]
    pub fn seen(self, (across, down): (u32, u32)) -> (u32, u32) {
        if self.0 >= 5 { (down, across) } else { (across, down) }
    }

    /// Where the saved image's corners go when it fills a square of side 1 whose corner at the left
    /// foot is the origin: the matrix `[a b c d e f]` of x′ = ax + cy + e, y′ = bx + dy + f.
    #[must_use]
    pub fn matrix(self) -> [f64; 6] {
        match self.0 {
            2 => [-1.0, 0.0, 0.0, 1.0, 1.0, 0.0],
            3 => [-1.0, 0.0, 0.0, -1.0, 1.0, 1.0],
            4 => [1.0, 0.0, 0.0, -1.0, 0.0, 1.0],
            5 => [0.0, -1.0, -1.0, 0.0, 1.0, 1.0],
            6 => [0.0, -1.0, 1.0, 0.0, 0.0, 1.0],
            7 => [0.0, 1.0, 1.0, 0.0, 0.0, 0.0],
            8 => [0.0, 1.0, -1.0, 0.0, 1.0, 0.0],
            _ => [1.0, 0.0, 0.0, 1.0, 0.0, 0.0],
        }
    }
}
