//! How colours look to eyes that lack one kind of cone.

use super::Colour;

/// Rows of a matrix on linear red, green and blue.
type Matrix = [[f64; 3]; 3];

/// The three colour-vision deficiencies, each at its full strength.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sight {
    /// No long-wave (red) cones.
    Protanopia,
    /// No middle-wave (green) cones.
    Deuteranopia,
    /// No short-wave (blue) cones.
    Tritanopia,
}

impl Sight {
    /// All three, the commonest kinds first.
    pub const ALL: [Sight; 3] = [Sight::Deuteranopia, Sight::Protanopia, Sight::Tritanopia];

    /// The colour as these eyes see it.
    #[must_use]
    pub fn simulate(self, colour: Colour) -> Colour {
        let linear = colour.linear();
        Colour::from_linear(self.matrix().map(|row| row.iter().zip(linear).map(|(k, c)| k * c).sum()))
    }

    /// Machado, Oliveira, Fernandes, "A physiologically-based model for simulation of color vision
    /// deficiency", IEEE Transactions on Visualization and Computer Graphics 15 (2009), severity 1.0.
    #[must_use]
    pub const fn matrix(self) -> Matrix {
        match self {
            Sight::Protanopia => [
                [0.152286, 1.052583, -0.204868],
                [0.114503, 0.786281, 0.099216],
                [-0.003882, -0.048116, 1.051998],
            ],
            Sight::Deuteranopia => [
                [0.367322, 0.860646, -0.227968],
                [0.280085, 0.672501, 0.047413],
                [-0.011820, 0.042940, 0.968881],
            ],
            Sight::Tritanopia => [
                [1.255528, -0.076749, -0.178779],
                [-0.078411, 0.930809, 0.147602],
                [0.004733, 0.691367, 0.303900],
            ],
        }
    }
}
