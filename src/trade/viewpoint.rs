//! From where a model is looked at, and which way up its file lies.

use super::choice;

choice! {
    /// The side from which a model is looked at.
    Side, "a side of the model" {
        /// Into its face.
        Front = "front",
        /// From its front, the camera further to the left.
        FrontLeft = "front-left",
        /// From the left of the picture.
        Left = "left",
        /// From behind, the camera further to the left of the picture's front.
        BackLeft = "back-left",
        /// From behind.
        Back = "back",
        /// From behind, the camera further to the right of the picture's front.
        BackRight = "back-right",
        /// From the right of the picture.
        Right = "right",
        /// From its front, the camera further to the right.
        FrontRight = "front-right",
    }
}

choice! {
    /// The axis of a mesh that points up.
    Up, "an axis" {
        /// As most programs for sculpting save it.
        Y = "y",
        /// As files for printing lie.
        Z = "z",
    }
}

impl Side {
    /// How far around the camera stands, in degrees from the front, to the right.
    pub fn turn(self) -> f32 {
        match self {
            Self::Front => 0.0,
            Self::FrontRight => 30.0,
            Self::Right => 90.0,
            Self::BackRight => 150.0,
            Self::Back => 180.0,
            Self::BackLeft => 210.0,
            Self::Left => 270.0,
            Self::FrontLeft => 330.0,
        }
    }
}
