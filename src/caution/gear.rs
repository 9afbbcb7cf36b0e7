//! What has to lie ready so that the cautions of a step can be followed: it is on the shopping list.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Deserializer, de};

use super::StepCautions;
use super::action::{self, Action};
use crate::measure::FromText;
use crate::trade::choice;

choice! {
    /// A thing that keeps people safe, in the order of the list: the air first, then eyes and hands, then fire.
    Gear, "a piece of safety gear" {
        /// A respirator against vapour and particles.
        VapourMask = "vapour-mask",
        /// A mask against fine, harmful dust.
        DustMask = "dust-mask",
        /// A mask against the mist of water-based paint.
        MistMask = "mist-mask",
        /// Moving air that leads to the outside.
        Extraction = "extraction",
        /// Closed glasses against splashes.
        Goggles = "goggles",
        /// Glasses against what flies off.
        Glasses = "glasses",
        /// Gloves that solvents do not soften at once.
        Gloves = "gloves",
        /// A tin in which rags can't catch fire.
        LiddedTin = "lidded-tin",
    }
}

impl<'de> Deserialize<'de> for Gear {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::from_text(&String::deserialize(deserializer)?).map_err(de::Error::custom)
    }
}

impl Gear {
    /// Whether it keeps off all that another one is for, as the line of things to do has it.
    pub fn serves_as(self, other: Self) -> bool {
        let own = || Action::ALL.iter().filter(|action| action.gear() == Some(self));
        self == other || own().any(|action| action.covers().iter().any(|less| less.gear() == Some(other)))
    }
}

/// The gear for some steps, each with the keys of the steps that ask for it, rising.
///
/// What a step asks for is what its line of things to do asks for: no mask beside a respirator, no glasses beside goggles.
/// Where a mask against dust is on the list, the same mask is named for mist, because the caution says "FFP2 or better".
pub fn gear<'a, K: Clone + Ord>(steps: impl IntoIterator<Item = (K, &'a StepCautions)>) -> Vec<(Gear, Vec<K>)> {
    let mut asked: BTreeMap<Gear, BTreeSet<K>> = BTreeMap::new();
    for (key, cautions) in steps {
        let actions: Vec<Action> = cautions.kinds.iter().flat_map(|kind| action::asked_by(*kind)).copied().collect();
        let is_covered = |action: &Action| actions.iter().any(|other| other.covers().contains(action));
        for gear in actions.iter().filter(|action| !is_covered(action)).filter_map(|action| action.gear()) {
            asked.entry(gear).or_default().insert(key.clone());
        }
    }
    if asked.contains_key(&Gear::DustMask) {
        let mist = asked.remove(&Gear::MistMask).unwrap_or_default();
        asked.entry(Gear::DustMask).or_default().extend(mist);
    }
    asked.into_iter().map(|(gear, keys)| (gear, keys.into_iter().collect())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::caution::CautionKind;

    fn cautions(kinds: &[CautionKind]) -> StepCautions {
        StepCautions { kinds: kinds.to_vec(), ..StepCautions::default() }
    }

    fn listed(steps: &[&[CautionKind]]) -> String {
        let steps: Vec<(usize, StepCautions)> =
            steps.iter().enumerate().map(|(at, kinds)| (at + 1, cautions(kinds))).collect();
        let found = gear(steps.iter().map(|(number, cautions)| (*number, cautions)));
        let shown: Vec<String> = found.iter().map(|(gear, steps)| format!("{gear} {steps:?}")).collect();
        shown.join(", ")
    }

    #[test]
    fn a_solvent_spray_asks_for_the_respirator_and_not_for_a_dust_mask() {
        use CautionKind::{ParticleMask, Skin, SprayMist, SpraySolvent};
        assert_eq!(
            listed(&[&[SprayMist, SpraySolvent, Skin]]),
            "vapour-mask [1], extraction [1], goggles [1], gloves [1]"
        );
        assert_eq!(listed(&[&[SprayMist, ParticleMask]]), "mist-mask [1], extraction [1]");
    }

    #[test]
    fn the_better_particle_mask_stands_for_both() {
        use CautionKind::{Dust, ParticleMask, SprayMist};
        assert_eq!(
            listed(&[&[SprayMist, ParticleMask], &[Dust], &[SprayMist, ParticleMask, Dust]]),
            "dust-mask [1, 2, 3], extraction [1, 3]"
        );
    }

    #[test]
    fn what_covers_more_is_listed_alone() {
        use CautionKind::{Dust, PowerTool, SpraySolvent};
        assert!(listed(&[&[PowerTool]]).contains("glasses [1]"));
        let both = listed(&[&[PowerTool, SpraySolvent]]);
        assert!(both.contains("goggles [1]") && !both.contains("glasses"), "{both}");
        let sanded = listed(&[&[Dust, SpraySolvent]]);
        assert!(sanded.contains("vapour-mask [1]") && !sanded.contains("dust-mask"), "{sanded}");
        assert!(listed(&[&[SpraySolvent], &[Dust]]).contains("dust-mask [2]"));
    }

    #[test]
    fn every_caution_that_names_a_thing_to_wear_has_it_on_the_list() {
        for kind in CautionKind::ALL {
            let text = &crate::caution::CautionTexts::of("en").caution(*kind).text.to_lowercase();
            for (word, gear) in [
                ("wear a particle mask", Gear::MistMask),
                ("wear a vapour-and-particle respirator", Gear::VapourMask),
                ("ffp3", Gear::DustMask),
                ("sealed goggles", Gear::Goggles),
                ("safety glasses", Gear::Glasses),
                ("nitrile gloves", Gear::Gloves),
                ("lidded metal tin", Gear::LiddedTin),
            ] {
                let asked = action::asked_by(*kind).iter().any(|action| action.gear() == Some(gear));
                assert!(!text.contains(word) || asked, "{kind}: {word}");
            }
        }
    }
}
