//! **Shop**: what has to be bought for schemes and armies, less what is in the cupboard.
//!
//! An [`Order`] says for what and for how many models, a [`List`] what that takes. Bottles are chosen so that the upper
//! figure of each need is covered, because who runs out in the middle of a unit can't match the rest of it; a line
//! also tells what would do by the likely figure.

mod bottles;
mod cupboard;
mod gathered;
mod list;
mod order;
mod pieces;
mod role;
mod substitutes;
mod uses;

pub use bottles::{Pick, choose};
pub use cupboard::Cupboard;
pub(crate) use gathered::pots;
pub(crate) use list::count;
pub use list::{GearLine, Line, List};
pub use order::{Order, usual_models};
pub use role::Role;
pub use substitutes::Substitute;
pub use uses::Use;
