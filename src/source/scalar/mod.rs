//! Single values that only the guide's files know: names, addresses, codes.

mod currency;
mod flag;
mod have;
mod hazard;
mod id;
mod language;
mod mention;
mod pigment;
mod text;
mod video_time;
mod web_address;
mod when;

pub(super) use currency::Currency;
pub(super) use flag::Flag;
pub use have::Have;
pub use hazard::HazardCode;
pub use id::Id;
pub(super) use language::Language;
pub use mention::Mention;
pub(super) use pigment::PigmentName;
pub use video_time::VideoTime;
pub(super) use web_address::SiteAddress;
pub use web_address::WebAddress;
pub use when::When;
