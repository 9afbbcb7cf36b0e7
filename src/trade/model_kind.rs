//! What sort of model is painted, as far as its surface follows from it.

use super::choice;

choice! {
    /// The sort of a model.
    ModelKind, "a kind of model" {
        /// A figure on foot.
        Foot = "foot",
        /// A bulky or armoured figure, a head taller than the others.
        Hero = "hero",
        /// A figure with its mount.
        Rider = "rider",
        /// A horse, an ox or a large hound by itself.
        Mount = "mount",
        /// A monster or a walking machine, three figures tall.
        Beast = "beast",
        /// A fighting vehicle, a cart or a boat with a crew.
        Vehicle = "vehicle",
        /// An aircraft with one or two seats.
        Aircraft = "aircraft",
        /// A small building or ruin, walls inside and out.
        Building = "building",
        /// Head and shoulders alone.
        Bust = "bust",
        /// A piece of ground: a tile, a hill, a pier, a river.
        Terrain = "terrain",
    }
}

impl ModelKind {
    /// Whether it is ground or a building: no figure, and worked on by its surface.
    pub const fn is_ground(self) -> bool {
        matches!(self, Self::Terrain | Self::Building)
    }

    /// Whether it stands on a base of its own without anybody saying so.
    pub const fn stands_on_base(self) -> bool {
        matches!(self, Self::Foot | Self::Hero | Self::Rider | Self::Mount | Self::Beast)
    }
}
