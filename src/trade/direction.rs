//! From where a coat comes.

use super::choice;

choice! {
    /// From where a coat comes: what looks that way gets it, the rest is left as it was.
    Direction, "a direction" {
        /// Light from above, dust that settles.
        Above = "above",
        /// Mud that is thrown up, a glow from the ground.
        Below = "below",
        /// Onto what the model's face looks at.
        Front = "front",
        /// Onto the model's back.
        Back = "back",
        /// Onto the side that is on the left of a picture from the front.
        Left = "left",
        /// Onto the side that is on the right of a picture from the front.
        Right = "right",
    }
}
