//! What to do about the cautions, as one short line: what to wear, which air, what to keep away, who keeps out.
//!
//! A page, a card and a plain text show the line **before** the mix and the instruction; the texts in full stand once on
//! the same page. The line of one step is `to_do([cautions])`, that of an evening, a scheme or a shopping list
//! `to_do(cautions of all their steps)`: what says less than another action of the set is left out. The words are
//! [`CautionTexts::action`](super::CautionTexts::action), the drawings `draw::action`.

use std::collections::BTreeSet;

use serde::{Deserialize, Deserializer, de};

use super::{CautionKind, Gear, StepCautions};
use crate::measure::FromText;
use crate::trade::choice;

choice! {
    /// One plain thing to do, in the order of the line.
    Action, "an action" {
        /// A respirator against vapour and particles.
        VapourMask = "vapour-mask",
        /// A mask against fine, harmful dust.
        DustMask = "dust-mask",
        /// A mask against the mist of water-based paint.
        MistMask = "mist-mask",
        /// Glasses that seal all round.
        Goggles = "goggles",
        /// Glasses against what flies off.
        Glasses = "glasses",
        /// Gloves that solvents do not soften at once.
        Gloves = "gloves",
        /// Gloves for whoever's skin reacts.
        GlovesIfSensitive = "gloves-if-sensitive",
        /// In the open air and nowhere else.
        Outdoors = "outdoors",
        /// In the open air, or with moving air that leads there.
        Extraction = "extraction",
        /// An open window.
        FreshAir = "fresh-air",
        /// No flame, heater or spark near it.
        NoFlame = "no-flame",
        /// Fingers off what is hot.
        HotTip = "hot-tip",
        /// Eyes off the lamp.
        LampShield = "lamp-shield",
        /// Fingers off what has high voltage.
        HighVoltage = "high-voltage",
        /// The plug pulled before a bit is changed.
        Unplug = "unplug",
        /// Bottles and cups closed.
        LidsOn = "lids-on",
        /// Sand and wipe wet.
        SandWet = "sand-wet",
        /// Powder wiped up wet and never blown off.
        WipeWet = "wipe-wet",
        /// The blade away from fingers and body.
        CutAway = "cut-away",
        /// Hands washed afterwards.
        WashHands = "wash-hands",
        /// Nobody else in the room.
        OthersOut = "others-out",
        /// No children and no animals near.
        ChildrenOut = "children-out",
        /// Cloths laid out flat in the open air.
        RagsFlat = "rags-flat",
        /// Nothing into the drain.
        NotDrain = "not-drain",
        /// The safety data sheet read first.
        DataSheet = "data-sheet",
        /// What the author adds read first.
        AuthorNote = "author-note",
    }
}

impl<'de> Deserialize<'de> for Action {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::from_text(&String::deserialize(deserializer)?).map_err(de::Error::custom)
    }
}

impl Action {
    /// The thing that has to lie ready for it, if there is one.
    pub(super) const fn gear(self) -> Option<Gear> {
        Some(match self {
            Self::VapourMask => Gear::VapourMask,
            Self::DustMask => Gear::DustMask,
            Self::MistMask => Gear::MistMask,
            Self::Extraction => Gear::Extraction,
            Self::Goggles => Gear::Goggles,
            Self::Glasses => Gear::Glasses,
            Self::Gloves => Gear::Gloves,
            Self::RagsFlat => Gear::LiddedTin,
            _ => return None,
        })
    }

    /// The actions that say less: none of them is asked for beside this one.
    pub(super) const fn covers(self) -> &'static [Self] {
        match self {
            Self::VapourMask => &[Self::DustMask, Self::MistMask],
            Self::DustMask => &[Self::MistMask],
            Self::Goggles => &[Self::Glasses],
            Self::Gloves => &[Self::GlovesIfSensitive, Self::WashHands],
            Self::GlovesIfSensitive => &[Self::WashHands],
            Self::Outdoors => &[Self::Extraction, Self::FreshAir],
            Self::Extraction => &[Self::FreshAir],
            Self::OthersOut => &[Self::ChildrenOut],
            _ => &[],
        }
    }
}

/// What the caution of a kind asks a painter to do.
pub(super) const fn asked_by(kind: CautionKind) -> &'static [Action] {
    use Action::{
        ChildrenOut, CutAway, DataSheet, DustMask, Extraction, FreshAir, Glasses, Gloves, GlovesIfSensitive, Goggles,
        HighVoltage, HotTip, LampShield, LidsOn, MistMask, NoFlame, NotDrain, OthersOut, Outdoors, RagsFlat, SandWet,
        Unplug, VapourMask, WashHands, WipeWet,
    };
    match kind {
        CautionKind::SprayMist => &[Extraction, OthersOut],
        CautionKind::ParticleMask => &[MistMask],
        CautionKind::SpraySolvent => &[VapourMask, Goggles, Gloves, OthersOut],
        CautionKind::AerosolCan => &[Outdoors, NoFlame, OthersOut],
        CautionKind::Solvent => &[FreshAir, LidsOn],
        CautionKind::Softener => &[FreshAir, DataSheet],
        CautionKind::Varnish => &[FreshAir],
        CautionKind::Dust => &[DustMask, SandWet, WashHands],
        // Powder is not sanded: a mask for particles, and nothing that stirs it up.
        CautionKind::Powder => &[MistMask, WipeWet, WashHands],
        CautionKind::Lead => &[DustMask, Gloves, SandWet],
        CautionKind::HarmfulPigment => &[DustMask, Gloves, OthersOut],
        CautionKind::Heat => &[NoFlame],
        CautionKind::OilyRags => &[RagsFlat],
        CautionKind::Blade => &[Glasses, CutAway],
        CautionKind::PowerTool => &[Glasses, Unplug],
        CautionKind::HotTool => &[HotTip, Extraction],
        CautionKind::HotWater => &[HotTip],
        CautionKind::Lamp => &[LampShield, Gloves],
        CautionKind::HighVoltage => &[HighVoltage],
        CautionKind::Glue => &[Glasses, FreshAir],
        CautionKind::TwoPack | CautionKind::Hardener => &[Goggles, Gloves, FreshAir, DataSheet],
        CautionKind::HotPour => &[HotTip, FreshAir],
        CautionKind::Skin => &[Goggles, Gloves, WashHands],
        CautionKind::Allergy => &[GlovesIfSensitive, WashHands],
        CautionKind::RinseWater => &[NotDrain],
        CautionKind::Children => &[ChildrenOut],
        CautionKind::SmallLabel => &[DataSheet],
        // They say more about what others ask for already.
        CautionKind::MaskFit | CautionKind::Pregnancy => &[],
    }
}

/// What to do before some steps, in the order of the line: nothing twice, and nothing that a stronger action says too.
///
/// Where any of the steps has a caution, an author's note or a statement, the line is never empty.
pub fn to_do<'a>(steps: impl IntoIterator<Item = &'a StepCautions>) -> Vec<Action> {
    let mut asked: BTreeSet<Action> = BTreeSet::new();
    for cautions in steps {
        asked.extend(cautions.kinds.iter().flat_map(|kind| asked_by(*kind)));
        asked.extend((!cautions.statements.is_empty() && cautions.kinds.is_empty()).then_some(Action::DataSheet));
        asked.extend((!cautions.notes.is_empty()).then_some(Action::AuthorNote));
    }
    let covered: BTreeSet<Action> = asked.iter().flat_map(|action| action.covers()).copied().collect();
    asked.difference(&covered).copied().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use CautionKind::{
        AerosolCan, Blade, Children, Dust, Glue, Heat, MaskFit, OilyRags, ParticleMask, Pregnancy, Skin, Solvent,
        SprayMist, SpraySolvent,
    };

    fn line(steps: &[&[CautionKind]]) -> String {
        let steps: Vec<StepCautions> =
            steps.iter().map(|kinds| StepCautions { kinds: kinds.to_vec(), ..StepCautions::default() }).collect();
        to_do(&steps).iter().map(|action| action.name()).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn the_stronger_action_stands_for_the_weaker() {
        assert_eq!(line(&[&[SprayMist, ParticleMask, Children]]), "mist-mask extraction others-out");
        assert_eq!(
            line(&[&[SprayMist, SpraySolvent, Solvent, Skin, Heat, Children]]),
            "vapour-mask goggles gloves extraction no-flame lids-on others-out"
        );
        assert_eq!(
            line(&[&[SprayMist, SpraySolvent, AerosolCan, Skin]]),
            "vapour-mask goggles gloves outdoors no-flame others-out"
        );
        assert_eq!(line(&[&[Blade, Glue, Children]]), "glasses fresh-air cut-away children-out");
    }

    #[test]
    fn an_evening_says_each_thing_once() {
        let mist: &[CautionKind] = &[SprayMist, ParticleMask, Children];
        let rags: &[CautionKind] = &[Solvent, OilyRags, Skin, Heat, Children];
        let said = "mist-mask goggles gloves extraction no-flame lids-on others-out rags-flat";
        assert_eq!(line(&[mist, rags]), said);
        assert_eq!(line(&[&[Dust], &[SpraySolvent]]).matches("mask").count(), 1);
    }

    #[test]
    fn no_mask_for_particles_stands_beside_vapour() {
        for other in CautionKind::ALL {
            let said = line(&[&[SpraySolvent, *other]]);
            assert!(said.starts_with("vapour-mask ") && !said.contains("mist-mask") && !said.contains("dust-mask"));
        }
    }

    #[test]
    fn whatever_there_is_to_read_has_a_line() {
        for kind in CautionKind::ALL {
            assert_eq!(line(&[&[*kind]]).is_empty(), [MaskFit, Pregnancy].contains(kind), "{kind}");
        }
        assert_eq!(line(&[&[]]), "");
        let noted = StepCautions { notes: vec!["Change the cartridges.".to_owned()], ..StepCautions::default() };
        assert_eq!(to_do([&noted]), [Action::AuthorNote]);
    }
}
