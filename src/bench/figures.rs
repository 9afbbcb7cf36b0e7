//! Every figure that a result rests on: unit, source, trust. One of an author's own, under `bench`, takes its place by its key.

use super::entry::{Entry, Trust, Unit};

with_sizes! {
    // Wet films, averaged over the area that a step reaches. Nobody has published any: off by half is nothing unusual.
    /// Wet film of a brushed coat of colour (20 to 50).
    WetBrush = "wet-brush", 30.0 Micrometres, Low;
    /// Wet film of a brushed layer or glaze (8 to 25).
    WetLayer = "wet-layer", 18.0 Micrometres, Low;
    /// Wet film that an all-over wash leaves (30 to 90).
    WetWash = "wet-wash", 50.0 Micrometres, Low;
    /// Wet film of a pin wash, where it runs (20 to 80).
    WetPinWash = "wet-pin-wash", 40.0 Micrometres, Low;
    /// Wet film of a one-coat paint: flooded on undiluted, so that it pools (60 to 90).
    WetOneCoat = "wet-one-coat", 85.0 Micrometres, Low;
    /// Wet film of a filter (8 to 20).
    WetFilter = "wet-filter", 12.0 Micrometres, Low;
    /// Wet film of drybrushing, spread over the area (1 to 4).
    WetDrybrush = "wet-drybrush", 2.0 Micrometres, Low;
    /// Wet film of a line or a spot, where it is (20 to 50).
    WetLine = "wet-line", 30.0 Micrometres, Low;
    /// Wet film that a large brush lays on terrain (60 to 100).
    WetTerrain = "wet-terrain", 70.0 Micrometres, Low;
    /// Wet film of a colour wash that floods terrain (100 to 250; own estimate).
    WetTerrainWash = "wet-terrain-wash", 150.0 Micrometres, Low;
    /// Wet film of a large drybrush on terrain, spread over its rough surface (own estimate).
    WetTerrainDrybrush = "wet-terrain-drybrush", 5.0 Micrometres, Low;
    /// Wet film of dabbing with a sponge or a stippling brush, spread over the area (own estimate).
    WetDabbed = "wet-dabbed", 15.0 Micrometres, Low;
    /// Wet film of a full airbrushed coat of three to five passes (10 to 30).
    WetAirbrush = "wet-airbrush", 20.0 Micrometres, Low;
    /// Wet film of a coat from a can (20 to 60).
    WetCan = "wet-can", 35.0 Micrometres, Low;
    /// Wet film of a sprayed varnish coat (15 to 40).
    WetSprayedVarnish = "wet-sprayed-varnish", 25.0 Micrometres, Low;
    /// Wet film of a brushed varnish coat (30 to 70).
    WetBrushedVarnish = "wet-brushed-varnish", 45.0 Micrometres, Low;
    /// Wet layer of a texture paste (own estimate).
    WetTexture = "wet-texture", 500.0 Micrometres, Low;
    /// How deep one layer of water gel or lamp-hardened resin may be poured (2 to 3).
    GelDeepest = "gel-deepest", 3.0 Millimetres, Medium;
    /// How deep one layer of casting resin may be poured (10 to 25; products differ).
    ResinDeepest = "resin-deepest", 20.0 Millimetres, Low;
    /// Thickness of a water-slide decal (own estimate).
    DecalFilm = "decal-film", 10.0 Micrometres, Low;
    /// Glue in a joint, with what is squeezed out (own estimate).
    WetGlue = "wet-glue", 300.0 Micrometres, Low;
    /// The share of a model's surface that its joints are, both sides and what squeezes out (own estimate).
    JointShare = "joint-share", 0.1 Share, Low;
    /// How much more of a wash lies in the recesses than on average.
    WashInRecesses = "wash-in-recesses", 3.0 Share, Low;
    /// How much of a wash stays on faces and edges, of its average: most of it runs off.
    WashOnFaces = "wash-on-faces", 0.1 Share, Low;
    /// How much of a one-coat paint gathers in recesses, of its average: it is made to run there.
    OneCoatInRecesses = "one-coat-in-recesses", 2.0 Share, Low;
    /// How much of it stays on faces, of its average.
    OneCoatOnFaces = "one-coat-on-faces", 0.8 Share, Low;
    /// How much of it stays on edges, of its average: it draws back from them.
    OneCoatOnEdges = "one-coat-on-edges", 0.4 Share, Low;
    /// How much of a directional spray lands where it is aimed, of a full coat.
    PreshadeShare = "preshade-share", 0.5 Share, Low;
    /// The share of the faces that looks to one side, and gets what comes from there (30 to 60 for light from above).
    AimedOnFaces = "aimed-on-faces", 0.5 Share, Low;
    /// The share of the edges that gets what comes from one side (own estimate).
    AimedOnEdges = "aimed-on-edges", 0.5 Share, Low;
    /// The share of the recesses that gets what comes from one side: little flies into them (own estimate).
    AimedInRecesses = "aimed-in-recesses", 0.2 Share, Low;
    // How much colour a film holds, in coats as a painter judges a hiding class: an ordinary brushed coat, undiluted. A step's
    // wet film, less its thinner and medium, over this film: so thinning counts once, and a basecoat of 1:1 is half a coat.
    /// The wet film, undiluted, that counts as one coat of colour: an ordinary brushed coat.
    HidingCoat = "hiding-coat", 30.0 Micrometres, Low;
    /// How much of what a can lays is paint; the rest is the thinner that is in the can already (own estimate).
    CanShare = "can-share", 0.5 Share, Low;
    /// The share of the edges that one drybrushed coat catches (0.15 to 0.35).
    DrybrushOnEdges = "drybrush-on-edges", 0.35 Share, Low;
    /// The share of faces and recesses that one drybrushed coat catches (0.15 to 0.35).
    DrybrushOnFaces = "drybrush-on-faces", 0.15 Share, Low;
    /// The share that one coat with a sponge or a stippling brush touches (own estimate).
    DabbedShare = "dabbed-share", 0.5 Share, Low;
    /// The share that loose powder lies on where it is brushed in (own estimate).
    PowderShare = "powder-share", 0.4 Share, Low;
    /// The share of an edge or a face that chipping bares or paints (own estimate).
    ChippedShare = "chipped-share", 0.3 Share, Low;
    /// The share of faces that freehand and other details on their colour cover (own estimate; a chequer covers half).
    DetailShare = "detail-share", 0.3 Share, Low;
    /// The lightness of the bare model: plastic and resin are mostly a light grey (own estimate).
    BareModel = "bare-model", 65.0 Lightness, Low;
    /// A lighter or darker coat is seen from this difference of colour on (CIEDE2000; just seen side by side).
    HighlightSeenFrom = "highlight-seen-from", 1.0 ColourDifference, Medium;
    /// Two areas are clearly different from this difference of colour on (CIEDE2000, the trade's ladder).
    AreasDifferFrom = "areas-differ-from", 10.0 ColourDifference, Low;
    /// Two areas are taken for one below this difference of colour (CIEDE2000, the trade's ladder).
    AreasAlikeBelow = "areas-alike-below", 2.0 ColourDifference, Low;
    /// From this difference on a finished colour over dark is another than the paint's (CIEDE2000, the trade's ladder).
    ColourNotReachedFrom = "colour-not-reached-from", 15.0 ColourDifference, Low;
    /// A ground darker than this at its lightest swallows a stain (steps of CIE lightness; own estimate).
    StainGroundFrom = "stain-ground-from", 30.0 Lightness, Low;
    /// Up to this share of the model an area is a lens or a gem, and what is brushed there a dab (own estimate).
    DabUpTo = "dab-up-to", 0.05 Share, Low;
    /// An area with this share of a model is one of its broad faces (own estimate).
    BroadFrom = "broad-from", 0.3 Share, Low;
    /// A highlight that takes away so much lightness is darker at a glance (steps of CIE lightness; own estimate).
    DarkerFrom = "darker-from", 5.0 Lightness, Low;
    /// Paint over a soluble film chips easily up to this thickness, dry: two thin coats (own estimate).
    ChipsUpTo = "chips-up-to", 20.0 Micrometres, Low;
    /// Metal that is less of a model than this is matted with all else on purpose (own estimate).
    MetalMattedBelow = "metal-matted-below", 0.2 Share, Low;
    /// From this share of metal flake among its colours on a mix shines like metal (own estimate).
    MetalShowsFrom = "metal-shows-from", 0.25 Share, Low;
    /// A coat that leaves this share of what is under it uncovered is thin: its coats are worth counting (own estimate).
    ThinCoatFrom = "thin-coat-from", 0.5 Share, Low;
    /// A highlight with this share of coloured paint in it is a drawn line; one with less is a glaze (own estimate).
    DrawnFrom = "drawn-from", 0.5 Share, Low;
    /// So many steps of paint after a varnish are more than touching up (own estimate).
    PaintAfterVarnish = "paint-after-varnish", 4.0 Steps, Low;
    /// Above this relative humidity a sprayed film may frost (the trade says 55 to 60).
    FrostDamp = "frost-damp", 60.0 Percent, High;
    /// Below this temperature a sprayed film may frost or stay rough (the trade says 15 to 25).
    FrostCold = "frost-cold", 15.0 Celsius, High;
    /// A washed model is surely wet before this (painters wait an hour to a night).
    WashedDriesIn = "washed-dries-in", 60.0 Minutes, Medium;
    // Volume solids, in the bottle.
    /// Solids of water-based colour (0.20 to 0.35).
    SolidsWater = "solids-water", 0.28 Share, Low;
    /// Solids of inks and other fluid water-based colour (0.12 to 0.25).
    SolidsInk = "solids-ink", 0.18 Share, Low;
    /// Solids of water-based washes (0.05 to 0.15).
    SolidsWash = "solids-wash", 0.10 Share, Low;
    /// Solids of water-based primers and varnishes (0.28 to 0.38).
    SolidsWaterClear = "solids-water-clear", 0.33 Share, Low;
    /// Solids of alcohol-carried colour (0.12 to 0.25).
    SolidsAlcohol = "solids-alcohol", 0.18 Share, Low;
    /// Solids of tinted clears (0.08 to 0.20).
    SolidsClear = "solids-clear", 0.14 Share, Low;
    /// Solids of lacquer (0.15 to 0.30).
    SolidsLacquer = "solids-lacquer", 0.22 Share, Medium;
    /// Solids of enamel and of varnish in white spirit (0.35 to 0.50).
    SolidsEnamel = "solids-enamel", 0.42 Share, Medium;
    /// Solids of artist's oil (0.95 to 1).
    SolidsOil = "solids-oil", 0.97 Share, High;
    /// Solids of two-part clears (own estimate).
    SolidsTwoPack = "solids-two-pack", 0.50 Share, Low;
    /// Solids of pastes and glue (own estimate).
    SolidsTexture = "solids-texture", 0.60 Share, Low;
    /// Solids of chipping film (own estimate).
    SolidsResist = "solids-resist", 0.10 Share, Low;
    // How much of the ground one hiding coat covers: contrast ratio after ISO 6504-3, taken as the share covered.
    /// What one coat of an opaque paint covers.
    CoverOpaque = "cover-opaque", 0.80 Share, Low;
    /// What one coat of a semi-opaque paint covers.
    CoverSemiOpaque = "cover-semi-opaque", 0.65 Share, Low;
    /// What one coat of a semi-transparent paint covers.
    CoverSemiTransparent = "cover-semi-transparent", 0.45 Share, Low;
    /// What one coat of a transparent paint covers.
    CoverTransparent = "cover-transparent", 0.25 Share, Low;
    /// From this share on a coat counts as opaque.
    OpaqueFrom = "opaque-from", 0.90 Share, Low;
    /// From this share on a coat counts as covering.
    CoveringFrom = "covering-from", 0.70 Share, Low;
    /// From this share on colour that is laid over finished eyes or other small details veils them (own estimate).
    VeiledFrom = "veiled-from", 0.50 Share, Low;
    /// Where a coat leaves less of what drybrushed edges stood out by, their light is gone (own estimate).
    LightLeft = "light-left", 0.45 Share, Low;
    /// From this share on a coat over a decal hides it.
    DecalHiddenFrom = "decal-hidden-from", 0.65 Share, Low;
    /// From so many coats of a tinted clear on decals beneath take its colour (own estimate).
    DecalTintedFrom = "decal-tinted-from", 0.5 Factor, Low;
    /// From this share on dirt over an area hides its colours.
    BuriedFrom = "buried-from", 0.80 Share, Low;
    // Shine, within the bands of ISO 2813 at 60 degrees.
    /// What a matt film shines (below 10).
    GlossOfMatt = "gloss-of-matt", 5.0 GlossUnits, High;
    /// What a satin film shines (10 to 70).
    GlossOfSatin = "gloss-of-satin", 40.0 GlossUnits, Medium;
    /// What a gloss film shines (above 70).
    GlossOfGloss = "gloss-of-gloss", 85.0 GlossUnits, High;
    /// What a film of metal flakes shines (own estimate; it varies widely).
    GlossOfMetal = "gloss-of-metal", 45.0 GlossUnits, Low;
    /// Below this a film is matt.
    MattBelow = "matt-below", 10.0 GlossUnits, High;
    /// Above this a film is gloss.
    GlossAbove = "gloss-above", 70.0 GlossUnits, High;
    /// What a decal needs to lie without silvering: gloss, or a strong satin.
    DecalGloss = "decal-gloss", 35.0 GlossUnits, Medium;
    /// What a pin wash needs to run and to wipe clean.
    PinWashGloss = "pin-wash-gloss", 15.0 GlossUnits, Medium;
    /// Below this lightness a ground swallows a tinted clear (own estimate).
    DarkGround = "dark-ground", 45.0 Lightness, Low;
    // Waits beyond the table of drying times.
    /// Hands-on minutes for one model and one coat of any step that does not say; 0: what is usual for its stage.
    HandsOn = "hands-on", 0.0 Minutes, Low;
    /// Rest of a water- or alcohol-based gloss before a decal (4 to 24 hours).
    DecalAfterWater = "decal-after-water", 240.0 Minutes, Medium;
    /// Rest of a lacquer gloss before a decal (own estimate).
    DecalAfterLacquer = "decal-after-lacquer", 120.0 Minutes, Low;
    /// Rest of an enamel gloss before a decal (24 to 72 hours).
    DecalAfterEnamel = "decal-after-enamel", 1440.0 Minutes, Medium;
    /// Rest of a thin water-based film before a water-based varnish; the cautious wait is a day.
    VarnishAfterWater = "varnish-after-water", 240.0 Minutes, Medium;
    /// Rest of a water-based film before a solvent varnish, or before any stronger solvent (24 to 72 hours).
    SolventAfterWater = "solvent-after-water", 1440.0 Minutes, Medium;
    /// Rest of colour and of base paste before a varnish, and of a water-based seal under chipping medium: a night.
    VarnishRest = "varnish-rest", 720.0 Minutes, Medium;
    /// Rest of water-based paint under poured resin (a day, by practice).
    RestUnderResin = "rest-under-resin", 1440.0 Minutes, Medium;
    /// Rest of gloss lacquer under sprayed metal lacquer, which bites into it (a night to a day, by practice).
    GlossUnderMetal = "gloss-under-metal", 1440.0 Minutes, Medium;
    /// Rest of a water-based mist under a wash or one-coat paint that floods it (own estimate).
    MistUnderFlood = "mist-under-flood", 20.0 Minutes, Low;
    /// Rest of any colour before a varnish below which it clouds or drags for certain.
    VarnishLeast = "varnish-least", 40.0 Minutes, Medium;
    /// Rest of a washed model before anything is laid on it: a night.
    WashedRest = "washed-rest", 720.0 Minutes, Medium;
    /// Between two mists of an airbrush (1 to 3).
    MistRest = "mist-rest", 3.0 Minutes, Medium;
    /// Between two airbrushed coats of clear or varnish: they lie wet and whole (10 to 15).
    ClearRest = "clear-rest", 12.0 Minutes, Medium;
    /// Between two coats from a can, where its label says nothing (5 to 15).
    CanRest = "can-rest", 10.0 Minutes, Low;
    /// Between two coats from a can below which the film runs.
    CanLeast = "can-least", 5.0 Minutes, Low;
    /// How much of the time until a brushed film is touch dry it can be worked wet in wet (own estimate).
    OpenShare = "open-share", 0.33 Share, Low;
    /// From this share of thinner on a brushed coat counts as thin.
    ThinFromThinner = "thin-from-thinner", 0.4 Share, Low;
    /// A blend may take so many times as long as it stays wet without a word: the prediction is no finer (own estimate).
    BlendForgiven = "blend-forgiven", 1.5 Factor, Low;
    /// By this share a wait may fall short of what a film needs without a word: times on labels are no finer.
    ShortfallForgiven = "shortfall-forgiven", 0.2 Share, Low;
    /// By this share a wait may fall short of a label's time that the air of the room made longer: that is a prediction.
    RoomForgiven = "room-forgiven", 0.05 Share, Low;
    /// How long a mask on open paint may stay when the last coat beside it is laid; best is an hour or two.
    MaskLongest = "mask-longest", 720.0 Minutes, Medium;
    /// The most thinner in a brushed coat: one to one, and a little over it is within the size of a drop.
    ThinnerBrushed = "thinner-brushed", 0.55 Share, Medium;
    /// The most thinner in a sprayed coat: one to two, in thin passes that dry as they land.
    ThinnerSprayed = "thinner-sprayed", 0.70 Share, Medium;
    /// The most thinner in a layer, a highlight or a detail: one to three.
    ThinnerInALayer = "thinner-in-a-layer", 0.75 Share, Medium;
    /// For so long paint over chipping film can be chipped: the trade says a few hours; after a working day it is over.
    ChipWithin = "chip-within", 480.0 Minutes, Medium;
    /// Rest of any paint below which tape ruins it.
    TapeLeast = "tape-least", 20.0 Minutes, Medium;
    /// Rest of what a brush laid before putty is pressed on it, which pulls at nothing but prints itself (own estimate).
    PuttyLeast = "putty-least", 60.0 Minutes, Low;
    /// Rest of streaks, dots and washes in oil or enamel before something shuts them in: the least (12 to 24 hours).
    ThinOilLeast = "thin-oil-least", 1440.0 Minutes, Medium;
    /// The same for oil colour until nobody has a word to say (1 to 7 days).
    ThinOilRest = "thin-oil-rest", 2880.0 Minutes, Medium;
    /// A model with more surface than this is terrain or a large vehicle, with coarser detail than a figure of its scale.
    ThickLarge = "thick-large", 400.0 SquareCentimetres, Low;
    /// How much thicker the paint on such a model may get than on a figure.
    ThickLargeTakes = "thick-large-takes", 2.5 Factor, Low;
    /// How thick the paint on a figure of 28 mm may get. The trade sees detail go soft from 60 to 80; the films are estimates.
    ThickFrom = "thick-from", 100.0 Micrometres, Low;
    /// The share of its time to be safe for solvents after which a film takes a mild one, unrubbed.
    SolventSafeShare = "solvent-safe-share", 0.5 Share, Low;
    /// More thinner than this and an oil or enamel counts as a wash.
    WashFromThinner = "wash-from-thinner", 0.6 Share, Low;
    /// More thinner than this and a coat counts as a filter (1 part of paint to 9 and more).
    FilterFromThinner = "filter-from-thinner", 0.88 Share, Medium;
    /// Where a drying time comes from a family's default, the share of it below which a wait is surely too short.
    SurelyTooShort = "surely-too-short", 0.5 Share, Low;
    // The desk: what a plan needs beside the hands-on minutes of the steps. Bench knowledge of the trade.
    /// How long an evening at the desk lasts, where nothing says how long (own estimate).
    Evening = "evening", 150.0 Minutes, Low;
    /// Making an airbrush ready, with its first colour (5 to 10).
    AirbrushSetUp = "airbrush-set-up", 8.0 Minutes, Low;
    /// From one colour in an airbrush to the next (1 to 3).
    AirbrushChange = "airbrush-change", 2.0 Minutes, Low;
    /// Stripping and cleaning an airbrush in the end (10 to 20).
    AirbrushStrip = "airbrush-strip", 15.0 Minutes, Low;
    /// How long paint stays wet in the nozzle of an airbrush that stands (rule of thumb for water-based paint).
    WetInNozzle = "wet-in-nozzle", 10.0 Minutes, Low;
    /// Taking up another brush or colour, and cleaning the one before (1 to 2).
    BrushChange = "brush-change", 1.5 Minutes, Low;
    /// Shaking a can, and going where one may spray (own estimate).
    CanSetUp = "can-set-up", 3.0 Minutes, Low;
    /// A painter takes nothing up for less than this just before an evening ends, if that costs nothing (own estimate).
    LeastPiece = "least-piece", 10.0 Minutes, Low;
    /// A painter does not wait longer than this for the next thing to dry, if something else can be done (own estimate).
    Patience = "patience", 30.0 Minutes, Low;
    /// A wait in an evening that is shorter than this is not worth a line (own estimate).
    WaitWorthALine = "wait-worth-a-line", 5.0 Minutes, Low;
    // Hands-on minutes for one model of 28 to 32 mm on foot and one coat where a step does not say; in brackets fast to careful.
    /// Cleaning and assembling (5 to 25).
    MinutesPrepare = "minutes-prepare", 10.0 Minutes, Low;
    /// Hands-on minutes to glue a figure together, or its parts when they are painted (own estimate).
    MinutesAssemble = "minutes-assemble", 5.0 Minutes, Low;
    /// Putting a mask on (own estimate).
    MinutesMask = "minutes-mask", 3.0 Minutes, Low;
    /// Spraying a ground or a preshade (0.3 to 1.5).
    MinutesSprayedGround = "minutes-sprayed-ground", 0.7 Minutes, Medium;
    /// A brushed basecoat of one colour (1 to 5).
    MinutesBasecoat = "minutes-basecoat", 2.0 Minutes, Medium;
    /// An all-over wash (0.5 to 2).
    MinutesShade = "minutes-shade", 1.0 Minutes, Medium;
    /// Drybrushing (0.5 to 2).
    MinutesDrybrush = "minutes-drybrush", 1.0 Minutes, Medium;
    /// A layer or a glaze of one colour (1 to 10).
    MinutesLayer = "minutes-layer", 3.0 Minutes, Low;
    /// Edges of a whole figure (3 to 25).
    MinutesHighlight = "minutes-highlight", 8.0 Minutes, Low;
    /// Eyes and faces (0.3 to 20).
    MinutesDetail = "minutes-detail", 3.0 Minutes, Low;
    /// A decal (2 to 8).
    MinutesDecal = "minutes-decal", 4.0 Minutes, Medium;
    /// A pin wash and tidying it (1 to 6).
    MinutesPinWash = "minutes-pin-wash", 3.0 Minutes, Medium;
    /// Chips and weather (0.5 to 4).
    MinutesChip = "minutes-chip", 1.5 Minutes, Medium;
    /// Powders (0.5 to 3).
    MinutesPowder = "minutes-powder", 1.0 Minutes, Medium;
    /// A sprayed varnish (0.3 to 1).
    MinutesSprayedVarnish = "minutes-sprayed-varnish", 0.5 Minutes, Medium;
    /// A brushed varnish (1 to 4).
    MinutesBrushedVarnish = "minutes-brushed-varnish", 1.5 Minutes, Medium;
    /// Texture, paint and grass of a base (2 to 12).
    MinutesBasing = "minutes-basing", 5.0 Minutes, Medium;
    /// The minutes of a basecoat, layer or glaze are for a colour on this much of a figure (own estimate: four colours dress one).
    MinutesColourShare = "minutes-colour-share", 0.25 Share, Low;
    /// By which power of its areas brushwork takes longer: four times the area takes twice as long, as more of it is broad
    /// (own estimate).
    MinutesShareGrowth = "minutes-share-growth", 0.5 Factor, Low;
    /// However small an area is, the least share of the usual minutes: each brush has to find it (own estimate).
    MinutesShareLeast = "minutes-share-least", 0.3 Share, Low;
    // Other kinds of models take so many times as long at that scale, and any kind takes longer with its height.
    /// How many times as long as a foot figure a bulky hero takes.
    MinutesHero = "minutes-hero", 2.0 Factor, Low;
    /// How many times as long as a foot figure a rider with the mount takes.
    MinutesRider = "minutes-rider", 2.0 Factor, Medium;
    /// How many times as long as a foot figure a horse without its rider takes: more surface, fewer colours (own estimate).
    MinutesMount = "minutes-mount", 1.5 Factor, Low;
    /// How many times as long as a foot figure a monster or walker takes (own estimate).
    MinutesBeast = "minutes-beast", 5.0 Factor, Low;
    /// How many times as long as a foot figure a fighting vehicle takes (4 to 8; a tank of 1/56 is 5 to 7 hours).
    MinutesVehicle = "minutes-vehicle", 7.0 Factor, Low;
    /// How many times as long as a foot figure a small aircraft takes (own estimate).
    MinutesAircraft = "minutes-aircraft", 6.0 Factor, Low;
    /// How many times as long as a foot figure a bust of that scale takes; one of 1/10 comes to 20 to 40 hours in all.
    MinutesBust = "minutes-bust", 5.0 Factor, Low;
    /// By which power of its surface a model without a kind takes longer: 300 cm² five times as long (own
    /// estimate).
    MinutesGrowth = "minutes-growth", 0.62 Factor, Low;
    /// Terrain and buildings that take as long as a foot figure: a tile of 30 by 30 cm gets a coat in 5 to 10 (own estimate).
    MinutesTerrain = "minutes-terrain", 400.0 SquareCentimetres, Low;
    // What the amounts rest on beside the film: how much of an area a coat touches.
    /// What a line along edges or a chip touches of the zone it is on (2 to 5 % of an area).
    LineShare = "line-share", 0.2 Share, Low;
    /// What a pin wash touches of the recesses (5 to 10 % of an area).
    PinWashShare = "pin-wash-share", 0.4 Share, Low;
    /// What single spots cover of an area (own estimate).
    SpotsShare = "spots-share", 0.03 Share, Low;
    /// What decals cover of an area (own estimate).
    DecalShare = "decal-share", 0.05 Share, Low;
    /// What a filler touches of an area (own estimate).
    FillerShare = "filler-share", 0.02 Share, Low;
    /// How large a base is against the model on it, where a step is about the base alone and its size is not known.
    BaseShare = "base-share", 0.5 Share, Low;
    /// How wide a figure's base is where the model does not say, against the height that names its scale: 25 mm at 28 mm.
    BaseWidth = "base-width", 0.9 Factor, Medium;
    /// Up to this scale, in millimetres of height, figures stand on bases that are painted with them (own estimate).
    BaseUpTo = "base-up-to", 40.0 Millimetres, Low;
    /// How high the rim of a base is (3 to 4 mm).
    BaseRim = "base-rim", 3.4 Millimetres, Medium;
    /// The part of a base's top that a paste lies on: feet, rocks and a rim stay free (own estimate).
    BaseCovered = "base-covered", 0.9 Share, Low;
    /// How much thicker a first coat must be on foam, plaster, cork and raw wood, which drink it (own estimate).
    Thirsty = "thirsty", 1.3 Factor, Low;
    /// How thick powder is heaped on where it is rubbed in, before most is brushed off again, and how much fixer fills it (own
    /// estimate).
    PowderHeap = "powder-heap", 80.0 Micrometres, Low;
    /// Wet film of decal softener on and around a decal (own estimate).
    WetSoftener = "wet-softener", 60.0 Micrometres, Low;
    /// Wet film of what wets or wipes and leaves no coat: water, thinner, cleaner (own estimate).
    WetWiped = "wet-wiped", 100.0 Micrometres, Low;
    // Of what leaves the bottle, how much lies on the model.
    /// Brush and a wet palette, in water-based paint.
    BrushEfficiency = "brush-efficiency", 0.65 Share, Low;
    /// Brush and a dry palette, in everything else.
    DryPaletteEfficiency = "dry-palette-efficiency", 0.45 Share, Low;
    /// Drybrushing: most is wiped off before.
    DrybrushEfficiency = "drybrush-efficiency", 0.2 Share, Low;
    /// Washes and filters that flood an area; what is too much is soaked up again (0.6 to 0.8).
    WashEfficiency = "wash-efficiency", 0.7 Share, Low;
    /// Pin washes: they are laid wider than the line and wiped off beside it (own estimate).
    PinWashEfficiency = "pin-wash-efficiency", 0.15 Share, Low;
    /// A large brush on terrain, straight from pot or cup (own estimate).
    TerrainBrushEfficiency = "terrain-brush-efficiency", 0.8 Share, Low;
    /// What is poured or trowelled to a depth (own estimate).
    DepthEfficiency = "depth-efficiency", 0.95 Share, Low;
    /// Brushed varnish.
    VarnishEfficiency = "varnish-efficiency", 0.7 Share, Low;
    /// Sponge and stippling brush (own estimate).
    DabbedEfficiency = "dabbed-efficiency", 0.45 Share, Low;
    /// Pastes, glue and fillers (own estimate).
    PasteEfficiency = "paste-efficiency", 0.7 Share, Low;
    /// Powders (own estimate).
    PowderEfficiency = "powder-efficiency", 0.4 Share, Low;
    /// Airbrush on a single figure (0.10 to 0.30).
    AirbrushSingle = "airbrush-single", 0.18 Share, Low;
    /// Airbrush on a row of figures (0.25 to 0.35).
    AirbrushRow = "airbrush-row", 0.25 Share, Low;
    /// Airbrush on a vehicle (0.35 to 0.50).
    AirbrushVehicle = "airbrush-vehicle", 0.42 Share, Low;
    /// Airbrush on terrain (0.50 to 0.60).
    AirbrushTerrain = "airbrush-terrain", 0.55 Share, Low;
    /// A model of this surface is half-way from a figure to a vehicle where it is sprayed: at half of it a figure, at twice it a
    /// vehicle.
    VehicleFrom = "vehicle-from", 90.0 SquareCentimetres, Low;
    /// From this surface on what a step covers of terrain is painted with a large brush (own estimate).
    LargeBrushFrom = "large-brush-from", 200.0 SquareCentimetres, Low;
    /// From this surface on a model is sprayed like terrain.
    TerrainFrom = "terrain-from", 1200.0 SquareCentimetres, Low;
    /// What a can leaves on a flat panel of all that is in it, propellant too: 400 ml for 2 m² at 35 µm.
    CanYield = "can-yield", 0.175 Share, Medium;
    /// What a row of figures catches of what a flat panel would (0.10 to 0.20; a can does 50 to 120 figures a coat).
    CanOnFigures = "can-on-figures", 0.1 Share, Low;
    /// The same for a vehicle (a tank of 1/56 takes 27 to 50 ml a coat).
    CanOnVehicle = "can-on-vehicle", 0.17 Share, Low;
    /// The same for terrain (own estimate).
    CanOnTerrain = "can-on-terrain", 0.6 Share, Low;
    // What is lost with every lot that is mixed, and what goes to cleaning.
    /// Left in the airbrush's cup and needle (0.05 to 0.2).
    AirbrushResidue = "airbrush-residue", 0.1 Millilitres, Low;
    /// Left on the wall of a mixing cup (0.1 to 0.3).
    MixingCupResidue = "mixing-cup-residue", 0.2 Millilitres, Low;
    /// Cleaner for another colour in the airbrush (1 to 3).
    CleanerColour = "cleaner-colour", 2.0 Millilitres, Low;
    /// Cleaner for the last flush of the airbrush (3 to 8).
    CleanerFlush = "cleaner-flush", 5.0 Millilitres, Low;
    /// Solvent to clean a brush that was in anything but water-based paint (own estimate).
    CleanerBrush = "cleaner-brush", 1.0 Millilitres, Low;
    /// What an airbrush's cup holds.
    CupSize = "cup-size", 2.0 Millilitres, Medium;
    /// What lies on a palette at a time: some ten drops (own estimate).
    PaletteLoad = "palette-load", 0.3 Millilitres, Low;
    /// Paint on a palette is fresh for so long; then it is refilled (10 to 20).
    PaletteFresh = "palette-fresh", 15.0 Minutes, Low;
    /// What lies on a palette to paint lines and small things from: a drop.
    PaletteRefill = "palette-refill", 0.04 Millilitres, Low;
    /// From this volume on a mix is poured by marks and not counted in drops.
    PourFrom = "pour-from", 5.0 Millilitres, Medium;
    /// What one mark of a measuring cup is.
    PourMark = "pour-mark", 0.5 Millilitres, Medium;
    /// The smallest cup that anybody mixes in: a drop or two.
    LeastCup = "least-cup", 0.1 Millilitres, Low;
    /// A recipe of more parts than this is not counted out where a smaller one is near (own estimate).
    RecipeSmall = "recipe-small", 24.0 Parts, Low;
    /// A near recipe gives every line its share of the mix to within this share of it; drops differ by more.
    RecipeNear = "recipe-near", 0.05 Share, Medium;
    /// A recipe of more parts than this is not counted out at all (own estimate).
    RecipeLargest = "recipe-largest", 120.0 Parts, Low;
    /// So much of one recipe may be missing from a lot before one more is counted (own estimate).
    RecipeMissing = "recipe-missing", 0.1 Share, Low;
    /// So many times the need may a lot be that is poured by a cup; a larger one is drawn up in a syringe (own estimate).
    PourCoarse = "pour-coarse", 1.1 Factor, Low;
    /// So many times the need may a lot be that is poured at all; a larger one is counted in drops (own estimate).
    PourTooMuch = "pour-too-much", 1.33 Factor, Low;
    /// So many times the need may the smallest lot be before it is said (own estimate).
    LotTooLarge = "lot-too-large", 4.0 Factor, Low;
    /// As many models as are on the desk at a time where nobody says (trade norm 5 to 10).
    Batch = "batch", 10.0 Models, Medium;
    /// What a lot for all models holds beyond the need (0.25 to 0.30).
    LotReserve = "lot-reserve", 0.25 Share, Medium;
    /// The least of that.
    LotReserveLeast = "lot-reserve-least", 1.0 Millilitres, Medium;
    /// How much of a bottle can be got out of it (0.92 to 0.95).
    BottleUsable = "bottle-usable", 0.93 Share, Low;
    // How far a figure may be off, as a factor up and down; they are combined by the squares of their logarithms.
    /// A surface that the author gives (own estimate).
    SpreadGiven = "spread-given", 1.15 Factor, Low;
    /// A surface from a mesh: hidden faces (own estimate).
    SpreadMesh = "spread-mesh", 1.2 Factor, Low;
    /// A surface from the table of scales and kinds.
    SpreadGuessed = "spread-guessed", 1.4 Factor, Low;
    /// The share of lines and spots.
    SpreadLines = "spread-lines", 1.6 Factor, Low;
    /// A wet film.
    SpreadFilm = "spread-film", 1.5 Factor, Low;
    /// What a spray leaves on the model.
    SpreadSpray = "spread-spray", 1.45 Factor, Low;
    /// What brush and palette leave on the model.
    SpreadBrush = "spread-brush", 1.3 Factor, Low;
    /// A drop.
    SpreadDrop = "spread-drop", 1.2 Factor, Medium;
    /// What goes to cleaning.
    SpreadCleaner = "spread-cleaner", 1.65 Factor, Low;
}
