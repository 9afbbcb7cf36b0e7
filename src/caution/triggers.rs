//! Which cautions a step needs: one line a danger, from the technique, the stage, the model, the products and the tools.
//!
//! No two cautions say the same: what holds for all vapour that burns is said by `heat` alone, what holds for every spray
//! by `spray-mist` alone. So a page can show each text once.

use std::sync::Arc;

use super::{CautionKind, product};
use crate::guide::{Paint, Scheme, Step, Tool};
use crate::trade::{
    Kind, Material, Materials, Stage, Technique, ToolKind, ToolWord, Working, may_scrape, names_powder, only_bends,
    only_washes, sprays_from_a_can, tool_words, tools_in_sentences, tools_used_in_sentences, working,
    working_beside_paint,
};

/// Materials that a blade does not turn into dust worth a mask.
const SOFT: &[Material] =
    &[Material::Plastic, Material::SoftPlastic, Material::Pvc, Material::Polystyrene, Material::Card];

/// Materials of models that are younger than paint with lead in it: what is stripped off them in a bath leaves no dust.
const YOUNG: &[Material] =
    &[Material::Plastic, Material::SoftPlastic, Material::Pvc, Material::Polystyrene, Material::Card, Material::Resin];

/// From this depth on, in millimetres, resin that sets with a hardener gets hot by itself: the heat of a thick layer has
/// nowhere to go. Own estimate on a painter's word; products and the warmth of the room differ.
const HOT_FROM_MM: f64 = 10.0;

/// The cautions of a step, in their order; `beside` are products that it uses up beside its mix, such as cleaner.
pub(super) fn kinds(scheme: &Scheme, step: &Step, beside: &[Arc<Paint>]) -> Vec<CautionKind> {
    let materials = Materials::of(scheme.model.material.as_deref().unwrap_or_default());
    let can = sprays_from_a_can(sentences(step), step.technique == Technique::Airbrush);
    // Elsewhere powder is a thing that is got ready, or the name of a colour.
    let powder = matches!(step.stage, Stage::Basing | Stage::Weather | Stage::Pigment) && names_powder(sentences(step));
    let scene = Scene { materials, step, beside, tools: tools(step), work: work(step), can, powder };
    CautionKind::ALL.iter().copied().filter(|kind| scene.needs(*kind)).collect()
}

/// The tools that a step lists, and those that its title and its instruction name.
fn tools(step: &Step) -> Vec<ToolWord> {
    let mut tools: Vec<ToolWord> = Vec::new();
    for tool in step.tools.iter().filter(|tool| tool.kind != ToolKind::Protection) {
        tools.extend(of_tool(tool));
    }
    let (paints, wears, readies) = (paints(step), wears(step), readies(step));
    for sentences in sentences(step) {
        let named = if paints { tools_used_in_sentences(sentences, wears) } else { tools_in_sentences(sentences) };
        // A strap of lead that is painted has been cut before.
        let counts =
            |word: &ToolWord| (readies || !OF_A_BATH.contains(word)) && (!paints || *word != ToolWord::LeadFoil);
        tools.extend(named.into_iter().filter(counts));
    }
    tools
}

/// What a model that is got ready lies in; where it is painted, slime is caustic and a pot holds brake fluid.
const OF_A_BATH: &[ToolWord] = &[ToolWord::Caustic, ToolWord::BrakeFluid];

/// Whether the model is got ready or put together.
fn readies(step: &Step) -> bool {
    matches!(step.stage, Stage::Prepare | Stage::Assemble)
}

/// Whether paint that is on the model is scratched or dirtied, for which a blade or a candle is taken as well as a brush.
fn wears(step: &Step) -> bool {
    matches!(step.stage, Stage::Chip | Stage::Weather | Stage::Pigment)
}

/// The title, the name of the file and the instruction of a step.
fn sentences(step: &Step) -> [&str; 3] {
    [&step.title, &step.stem, step.body.text.get(step.body.start..).unwrap_or_default()]
}

/// Whether colour is put on with a brush or a spray: a blade that is named there may be one that is painted.
fn paints(step: &Step) -> bool {
    use Stage::{Assemble, Basing, Decal, Mask, Prepare, Undercoat, Unmask};
    is_for_paint(step.technique)
        && !matches!(step.stage, Prepare | Assemble | Basing | Decal | Mask | Undercoat | Unmask)
}

/// Whether a technique is one that puts colour on.
fn is_for_paint(by: Technique) -> bool {
    by.sprays() || matches!(by, Technique::Brush | Technique::Drybrush | Technique::Stipple)
}

/// What is done by hand in a step that builds a model or its ground. Elsewhere the words mean other things, but for a flame
/// that soots or stretches; and where a ground is painted, trim is a thing and black is cut with brown.
fn work(step: &Step) -> Vec<Working> {
    let by_paint = is_for_paint(step.technique) && !readies(step);
    let mut work = if by_paint { working_beside_paint(sentences(step)) } else { working(sentences(step)) };
    let lays = by_paint
        && step
            .mix
            .parts
            .iter()
            .any(|part| matches!(part.paint.kind, Kind::Paint | Kind::Metal | Kind::Wash | Kind::Ink));
    work.retain(|one| match step.stage {
        Stage::Prepare | Stage::Assemble => true,
        Stage::Basing => !lays || !matches!(one, Working::Cutting | Working::Candle),
        _ => *one == Working::Flame || (*one == Working::Candle && wears(step)),
    });
    work
}

/// What a listed tool is, by its name and its id.
fn of_tool(tool: &Tool) -> Vec<ToolWord> {
    let mut words = tool_words(&tool.name);
    words.extend(tool_words(&tool.id));
    if is_turned_by_hand(tool) {
        words.retain(|word| *word != ToolWord::PowerTool);
    }
    words
}

/// What a drill may be beside one that the hand turns, or be driven by; and what joins two things to one entry.
const NO_HAND: &[&str] = &[
    "sand", "grind", "burr", "electr", "elektr", "électr", "eléctr", "cordless", "batter", "bater", "motor", "mains",
    "usb", "akku", " and ", " or ", " und ", " oder ", " et ", " ou ", " y ", " o ", ",", "+", "/", "&", ";",
];

/// Whether a drill has no motor: its name says that the hand turns it, and nothing in its name or its id says more.
fn is_turned_by_hand(tool: &Tool) -> bool {
    let says = |name: &str, word: ToolWord| tools_in_sentences(name).contains(&word);
    says(&tool.name, ToolWord::HandDrill)
        && [&tool.name, &tool.id].into_iter().all(|name| {
            let folded = name.to_lowercase();
            !says(name, ToolWord::PowerTool) && !NO_HAND.iter().any(|word| folded.contains(word))
        })
}

/// A step and what it is done to.
struct Scene<'a> {
    materials: Materials,
    step: &'a Step,
    beside: &'a [Arc<Paint>],
    tools: Vec<ToolWord>,
    work: Vec<Working>,
    /// Whether its words say that something comes out of a can under pressure.
    can: bool,
    /// Whether its words name dry powder where that is scattered or brushed on.
    powder: bool,
}

impl Scene<'_> {
    fn needs(&self, kind: CautionKind) -> bool {
        match kind {
            // What comes out of a can is sprayed outdoors; its own cautions say so.
            CautionKind::SprayMist => self.sprays() && !self.is_aerosol(),
            CautionKind::ParticleMask => self.sprays() && !self.sprays_vapour(),
            CautionKind::SpraySolvent => self.sprays_vapour(),
            CautionKind::AerosolCan => self.is_aerosol(),
            CautionKind::Solvent => self.holds_solvent(),
            CautionKind::Softener => self.any(product::is_softener),
            CautionKind::Varnish => self.varnishes(),
            CautionKind::Dust => self.scrapes(),
            CautionKind::Powder => self.powders(),
            CautionKind::Lead => self.handles_lead(),
            CautionKind::HarmfulPigment => self.any(product::has_heavy_pigment) && (self.sprays() || self.dusts()),
            // A mask for mist has no cartridges; its own caution says how it seals.
            CautionKind::MaskFit => {
                let masks = [CautionKind::Lead, CautionKind::HarmfulPigment];
                self.sprays_vapour() || self.dusts() || masks.iter().any(|kind| self.needs(*kind))
            }
            CautionKind::Heat => self.burns(),
            CautionKind::OilyRags => self.heats_rags(),
            CautionKind::Blade => self.cuts(),
            CautionKind::PowerTool => self.has(&[ToolWord::PowerTool]),
            CautionKind::HotTool => {
                let named = self.has(&[ToolWord::HotTool]) || self.readies_with(&[ToolWord::Solder]);
                named || self.work.iter().any(|work| matches!(work, Working::Flame | Working::Candle))
            }
            // In a step that paints, hot water is what brushes are washed in.
            CautionKind::HotWater => self.readies_with(&[ToolWord::HotWater]),
            CautionKind::Lamp => self.any(product::is_hardened_by_a_lamp) || self.has(&[ToolWord::Lamp]),
            CautionKind::HighVoltage => self.has(&[ToolWord::Grass]),
            CautionKind::Glue => {
                self.any(product::is_glue) || self.has(&[ToolWord::InstantGlue]) || self.glues_with_any()
            }
            CautionKind::TwoPack => self.harms_lungs(),
            CautionKind::Hardener => self.hardens() && !self.harms_lungs(),
            CautionKind::HotPour => self.any(product::is_hardener) && self.is_deep(),
            CautionKind::Skin => self.hurts_skin(),
            CautionKind::Allergy => self.any(product::has_allergen) && !self.hurts_skin(),
            CautionKind::Pregnancy => self.sprays_vapour() || self.harms_the_unborn(),
            CautionKind::RinseWater => self.any(product::harms_water) && !self.needs(CautionKind::Solvent),
            CautionKind::Children => self.endangers_children(),
            CautionKind::SmallLabel => self.any(product::may_have_a_bare_label),
        }
    }

    fn any(&self, test: fn(&Paint) -> bool) -> bool {
        self.step.mix.parts.iter().any(|part| test(&part.paint))
    }

    /// Whether something that the step is cleaned with is so; a cleaner counts where it gives off vapour.
    fn cleans(&self, test: fn(&Paint) -> bool) -> bool {
        self.beside.iter().any(|paint| product::has_vapour(paint) && test(paint))
    }

    /// Whether it is glued with what melts plastic; where nothing is glued, the word means something else.
    fn cements(&self) -> bool {
        let hard = [Material::Plastic, Material::Polystyrene, Material::Pvc].iter().any(|one| self.materials.has(*one));
        self.readies_with(&[ToolWord::Cement]) || (hard && self.glues_with_any())
    }

    /// Whether it is glued and nobody says with what: instant glue, or on hard plastic cement. What is built of card, wood
    /// and foam is held by white glue, and so is what is scattered on a base.
    fn glues_with_any(&self) -> bool {
        use ToolWord::{Cement, Hardener, InstantGlue, WhiteGlue};
        let named = self.has(&[Cement, Hardener, InstantGlue, WhiteGlue]) || self.any(|paint| paint.kind == Kind::Glue);
        let scatters = self.step.stage == Stage::Basing && self.work.contains(&Working::Ground);
        self.work.contains(&Working::Gluing) && !named && !scatters && !self.materials.are_built()
    }

    /// Whether the model is got ready with one of these, whose words mean something else where it is painted.
    fn readies_with(&self, words: &[ToolWord]) -> bool {
        readies(self.step) && self.has(words)
    }

    /// Whether the step names a solvent, be it among its products or not.
    fn names_solvent(&self) -> bool {
        use ToolWord::{BrakeFluid, GlueSpray, Solvent, Spirit, Stripper};
        self.has(&[Solvent, Spirit, Stripper, BrakeFluid, GlueSpray])
            || self.readies_with(&[ToolWord::Thinner, ToolWord::Accelerator])
            || (self.has(&[ToolWord::Accelerator]) && self.has(&[ToolWord::InstantGlue]))
    }

    /// Whether there is a solvent or a lye on the desk, or vapour that harms.
    fn holds_solvent(&self) -> bool {
        let given = self.any(product::is_solvent) || self.cleans(product::is_solvent);
        given || self.cements() || self.names_solvent() || self.has(&[ToolWord::Caustic])
    }

    fn heats_rags(&self) -> bool {
        self.any(product::heats_rags) || self.cleans(product::heats_rags) || self.has(&[ToolWord::Spirit])
    }

    /// Whether something sets with a hardener.
    fn hardens(&self) -> bool {
        self.any(product::is_hardener) || self.has(&[ToolWord::Hardener])
    }

    fn has(&self, words: &[ToolWord]) -> bool {
        self.tools.iter().any(|tool| words.contains(tool))
    }

    fn is_aerosol(&self) -> bool {
        let is_can = self.step.technique == Technique::SprayCan || self.any(product::is_pressurised);
        is_can || self.can || self.has(&[ToolWord::GlueSpray, ToolWord::SprayCan])
    }

    /// Whether something flies through the air. Who pours paint out of an aerosol can for the brush sprays it first.
    fn sprays(&self) -> bool {
        self.step.technique.sprays() || self.is_aerosol()
    }

    /// Whether solvent flies through the air. Most cans hold one, and the gas of the others burns; an airbrush is sprayed
    /// clean with what cleans it.
    fn sprays_vapour(&self) -> bool {
        let airbrush = self.step.technique == Technique::Airbrush;
        let vapour = self.any(product::is_solvent) || self.any(product::is_softener);
        self.is_aerosol() || (self.sprays() && vapour) || (airbrush && self.cleans(|_| true))
    }

    /// Whether the lungs may take an allergy: from what says so, and from any hardener that is sprayed.
    fn harms_lungs(&self) -> bool {
        self.any(product::sensitises_lungs) || (self.sprays() && self.any(product::is_hardener))
    }

    /// Whether it is poured so deep that what sets with a hardener gets hot.
    fn is_deep(&self) -> bool {
        self.step.deep.is_some_and(|deep| deep.0 >= HOT_FROM_MM)
    }

    fn burns(&self) -> bool {
        let given = self.any(product::has_vapour) || self.cleans(product::has_vapour);
        self.is_aerosol() || given || self.cements() || self.names_solvent()
    }

    fn hurts_skin(&self) -> bool {
        let given = self.any(product::hurts_skin) || self.cleans(product::hurts_skin);
        // Glass fibre breaks into splinters that stick in the skin.
        let words = [ToolWord::Hardener, ToolWord::RawResin, ToolWord::Caustic, ToolWord::GlassFibre];
        let named = self.names_solvent() || self.has(&words);
        self.is_aerosol() || given || self.cements() || named
    }

    fn varnishes(&self) -> bool {
        self.step.stage == Stage::Varnish || self.any(|paint| paint.kind == Kind::Varnish)
    }

    /// Whether dust rises: from powders, and from what is scraped, sawn and sanded.
    fn dusts(&self) -> bool {
        self.scrapes() || self.powders()
    }

    /// Whether dry powder lies about, loose or about to be fixed.
    fn powders(&self) -> bool {
        self.step.stage == Stage::Pigment || self.powder || self.any(product::is_powder)
    }

    fn scrapes(&self) -> bool {
        match self.step.stage {
            // A transfer sheet or a mask is cut and not scraped.
            Stage::Decal | Stage::Mask | Stage::Unmask => false,
            Stage::Prepare => {
                self.rubs_off() || ((self.sands() || !self.materials.are_only(SOFT)) && !self.makes_no_dust())
            }
            // Parts are dry-fitted, sanded and drilled as they are put together, and laying them out makes no dust.
            Stage::Assemble => {
                self.rubs_off() || (self.may_scrape() && (self.sands() || !self.materials.are_only(SOFT)))
            }
            _ => self.rubs_off(),
        }
    }

    /// Whether it is rubbed, cut or sawn, or old paint comes off dry.
    fn rubs_off(&self) -> bool {
        self.is_blade() || self.grinds() || (self.is_old_paint() && !self.strips_wet())
    }

    /// Whether it lies in what dissolves something: a solvent or a lye.
    fn is_dissolved(&self) -> bool {
        self.names_solvent() || self.has(&[ToolWord::Caustic])
    }

    /// Whether old paint comes off in a bath, and off something that is too young for lead.
    fn strips_wet(&self) -> bool {
        self.is_dissolved() && self.materials.are_only(YOUNG) && !self.may_scrape()
    }

    /// Whether a word of the step means scraping, or may mean it.
    fn may_scrape(&self) -> bool {
        may_scrape(self.names_of(&|tool| tool.kind != ToolKind::Protection), self.instruction())
    }

    /// Whether a step that prepares the model says what it does, and nothing of that can dust: it washes it, bends it in hot
    /// water, takes something off it with a solvent. Where it says nothing, a casting is scraped.
    fn makes_no_dust(&self) -> bool {
        let dissolved = || self.is_dissolved() && !self.may_scrape();
        self.washes() || only_bends(self.names_of(&|_| true), self.instruction()) || dissolved()
    }

    /// Whether a step that prepares the model scrapes or sands: a sanding sponge and an abrasive cloth do.
    fn sands(&self) -> bool {
        self.is_blade() || self.grinds() || matches!(self.step.technique, Technique::Sponge | Technique::Cloth)
    }

    /// Whether the model is washed and nothing else is done to it: what is wet does not dust.
    fn washes(&self) -> bool {
        only_washes(self.names_of(&|_| true), self.instruction())
    }

    /// What the step and some of its tools are called.
    fn names_of<'s>(&'s self, counts: &'s dyn Fn(&Tool) -> bool) -> impl Iterator<Item = &'s str> {
        let tools = self.step.tools.iter().filter(|tool| counts(tool));
        let tools = tools.flat_map(|tool| [tool.id.as_str(), tool.name.as_str()]);
        tools.chain([self.step.stem.as_str(), self.step.title.as_str()])
    }

    fn instruction(&self) -> &str {
        self.step.body.text.get(self.step.body.start..).unwrap_or_default()
    }

    fn grinds(&self) -> bool {
        let named = self.has(&[ToolWord::Sanding, ToolWord::GlassFibre, ToolWord::Saw, ToolWord::PowerTool]);
        named || self.work.contains(&Working::Sawing)
    }

    /// Whether lead is cut or bent, or what may hold it is scraped.
    fn handles_lead(&self) -> bool {
        let scraped = (self.materials.has(Material::WhiteMetal) || self.is_old_paint()) && self.scrapes();
        scraped || self.has(&[ToolWord::LeadFoil])
    }

    /// Whether it takes off paint of which nobody knows what is in it.
    fn is_old_paint(&self) -> bool {
        self.has(&[ToolWord::OldPaint, ToolWord::Stripper, ToolWord::BrakeFluid])
    }

    /// Whether it is done with a blade; a spatula is none.
    fn is_blade(&self) -> bool {
        self.step.technique == Technique::Blade && (!self.has(&[ToolWord::NoBlade]) || self.has(&[ToolWord::Knife]))
    }

    fn cuts(&self) -> bool {
        let scraped = self.readies_with(&[ToolWord::Scraping]) && !self.has(&[ToolWord::Fingernail]);
        let clipped = self.readies_with(&[ToolWord::Frame]);
        let works = |work: &Working| matches!(work, Working::Sawing | Working::Drilling | Working::Cutting);
        let worked = self.work.iter().any(works);
        let named = self.has(&[ToolWord::Knife, ToolWord::Cutters, ToolWord::Saw]);
        self.is_blade() || scraped || clipped || worked || named
    }

    fn harms_the_unborn(&self) -> bool {
        const KINDS: &[CautionKind] = &[CautionKind::Lead, CautionKind::HarmfulPigment, CautionKind::TwoPack];
        self.any(product::harms_the_unborn) || KINDS.iter().any(|kind| self.needs(*kind))
    }

    fn endangers_children(&self) -> bool {
        const DANGERS: &[CautionKind] = &[
            CautionKind::SprayMist,
            CautionKind::AerosolCan,
            CautionKind::Solvent,
            CautionKind::Dust,
            CautionKind::Powder,
            CautionKind::Lead,
            CautionKind::OilyRags,
            CautionKind::Blade,
            CautionKind::PowerTool,
            CautionKind::HotTool,
            CautionKind::HotWater,
            CautionKind::Lamp,
            CautionKind::HighVoltage,
            CautionKind::Glue,
            CautionKind::TwoPack,
            CautionKind::Hardener,
            CautionKind::HotPour,
        ];
        DANGERS.iter().any(|kind| self.needs(*kind)) || self.any(product::is_grave)
    }
}

#[cfg(test)]
mod instructed;
#[cfg(test)]
mod tests;
