//! The last of the [figures](super::figures): how large drops and models are, how heavy what is laid on them, the minutes of work
//! that goes over a whole model at once, and how many layers anybody pours.

/// Makes the one list of figures: those that are given, then these.
macro_rules! with_sizes {
    ($($others:tt)*) => { figures! {
        $($others)*
        // A drop where nobody says: by surface tension and tips (Tate's law), and as counted; one sort differs by a fifth.
        /// A drop of an alcohol- or lacquer-based clear, ink, thinner or cleaner (0.012 to 0.025).
        DropThinSolvent = "drop-thin-solvent", 0.018 Millilitres, Low;
        /// A drop of enamel, of any other paint on alcohol or lacquer thinner, of white spirit, or of thinner for oil (0.015 to 0.03).
        DropSpirit = "drop-spirit", 0.02 Millilitres, Low;
        /// A drop of a wash, an ink, a clear or a one-coat paint (0.02 to 0.04).
        DropThin = "drop-thin", 0.03 Millilitres, Low;
        /// A drop of ordinary paint from a dropper bottle (0.025 to 0.055).
        DropPaint = "drop-paint", 0.04 Millilitres, Low;
        /// A drop of thick paint: metal, varnish, primer, glue (0.035 to 0.07); of tube oil off a stirring spoon.
        DropThick = "drop-thick", 0.05 Millilitres, Low;
        /// A drop of water, or of a thinner that is mostly water (0.04 to 0.06).
        DropWater = "drop-water", 0.05 Millilitres, High;
        // Surfaces by scale and kind, and from meshes.
        /// A foot figure's height against the height that names its scale: 32 mm where the box says 28.
        FigureHeight = "figure-height", 1.14 Factor, Medium;
        /// The height of a grown figure, in millimetres of the real world.
        GrownHeight = "grown-height", 1770.0 Millimetres, High;
        /// The surface of a foot figure with its kit, in squares of its height.
        SurfaceFoot = "surface-foot", 1.3 Factor, Medium;
        /// The surface of a bulky hero, in foot figures.
        SurfaceHero = "surface-hero", 1.9 Factor, Medium;
        /// The surface of a rider with the mount, in foot figures.
        SurfaceRider = "surface-rider", 3.0 Factor, Medium;
        /// The surface of a horse without its rider, in foot figures (own estimate: a rider with the mount less a figure).
        SurfaceMount = "surface-mount", 2.0 Factor, Low;
        /// The surface of a monster or walker, in foot figures (6 to 23).
        SurfaceBeast = "surface-beast", 10.0 Factor, Low;
        /// The surface of a fighting vehicle, in foot figures.
        SurfaceVehicle = "surface-vehicle", 23.5 Factor, Low;
        /// The surface of a small aircraft, in foot figures.
        SurfaceAircraft = "surface-aircraft", 17.5 Factor, Low;
        /// The surface of a small ruin with its walls on both sides, in foot figures.
        SurfaceBuilding = "surface-building", 150.0 Factor, Low;
        /// The surface of a bust, in foot figures of its scale (own estimate).
        SurfaceBust = "surface-bust", 0.15 Factor, Low;
        /// The surface of a terrain tile of 30 by 30 cm at 28 mm, rough, in foot figures.
        SurfaceTerrain = "surface-terrain", 102.0 Factor, Low;
        /// The part of a mesh's faces that a brush or a spray can reach (own estimate).
        MeshVisible = "mesh-visible", 0.9 Share, Low;
        // Minutes of what goes over a whole figure at once, beside those of its stages.
        /// Washing a figure before paint and rinsing it (0.5 to 2; 5 to 15 for a batch).
        MinutesWashed = "minutes-washed", 1.5 Minutes, Medium;
        /// An airbrushed colour, light or shadow (own estimate, between a sprayed ground and a brushed basecoat).
        MinutesSprayedColour = "minutes-sprayed-colour", 1.6 Minutes, Low;
        /// A filter: very thin oil, enamel or paint over everything (own estimate, as an all-over wash: 0.5 to 2).
        MinutesFilter = "minutes-filter", 1.8 Minutes, Low;
        /// Filing the seams of a figure in one piece of metal (2 to 4).
        MinutesPrepareMetal = "minutes-prepare-metal", 3.0 Minutes, Medium;
        /// Rest of what was laid beside a mask before the mask comes off, at the least (10 min to 2 h).
        UnmaskRest = "unmask-rest", 10.0 Minutes, Low;
        /// How soon a wash, dots or streaks in oil or enamel are wiped and drawn out (10 to 30).
        WipeRest = "wipe-rest", 15.0 Minutes, Medium;
        /// White glue in a joint until it may be painted (4 to 24 h).
        WhiteGlueRest = "white-glue-rest", 480.0 Minutes, Low;
        /// Cement in a joint until it may be sanded or painted (2 to 24 h).
        CementRest = "cement-rest", 240.0 Minutes, Low;
        /// Instant glue in a joint until it may be painted (own estimate).
        InstantGlueRest = "instant-glue-rest", 10.0 Minutes, Low;
        /// A ground of this lightness is no dark one: what falls short over it is noted (steps of CIE lightness; own estimate).
        DarkGroundBelow = "dark-ground-below", 45.0 ColourDifference, Low;
        /// So much of the difference at least is one of lightness where a dark ground is to blame (own estimate).
        DarkerPart = "darker-part", 0.5 Share, Low;
        /// A dot, a pupil, a badge: what is set in single spots, on a figure on foot (own estimate).
        MinutesSpots = "minutes-spots", 1.5 Minutes, Low;
        /// Taking a mask off (own estimate).
        MinutesUnmask = "minutes-unmask", 0.7 Minutes, Low;
        /// Lines sprayed along panels, into hollows or onto edges (own estimate: 10 to 20 on a fighter of 1/72).
        MinutesSprayedLines = "minutes-sprayed-lines", 3.0 Minutes, Low;
        /// A glaze of one colour (1 to 10).
        MinutesGlaze = "minutes-glaze", 3.0 Minutes, Low;
        /// The minutes of a detail are for so much of a figure: a face (own estimate).
        MinutesDetailShare = "minutes-detail-share", 0.05 Share, Low;
        /// However little there is to do, one coat on one model takes so long with taking it up (own estimate).
        MinutesLeast = "minutes-least", 0.25 Minutes, Low;
        /// The same of terrain (own estimate).
        MinutesLeastGround = "minutes-least-ground", 1.0 Minutes, Low;
        /// From so many times the deepest layer on casting resin grows hot enough to crack (own estimate).
        ResinHotFrom = "resin-hot-from", 1.4 Factor, Low;
        /// Up to this share of thinner a sprayed coat is only noted: it dries in the air (1:3 to 1:4, own estimate).
        ThinnerMisted = "thinner-misted", 0.8 Share, Low;
        /// A drybrush dusts its neighbours where the part it is for is so much of the model; smaller ones are met with care (own
        /// estimate).
        DrybrushDustsFrom = "drybrush-dusts-from", 0.3 Share, Low;
        /// A smaller part of a building is painted neatly, and not with a house brush (own estimate: half of a house at 28 mm).
        NeatBelow = "neat-below", 1000.0 SquareCentimetres, Low;
        /// From so long on, a plan counts a rest in evenings and not to the minute (own estimate).
        EveningRestFrom = "evening-rest-from", 1200.0 Minutes, Low;
        /// So much of such a rest may then be missing: far less than what counts as too short (own estimate).
        EveningRestShort = "evening-rest-short", 0.125 Share, Low;
        /// The most of it that may be missing (own estimate).
        EveningRestShortMost = "evening-rest-short-most", 240.0 Minutes, Low;
        /// How thick powder lies that is dusted over much of a model and not rubbed into tracks (own estimate).
        PowderDust = "powder-dust", 22.0 Micrometres, Low;
        /// From this share of a model on, powder is dusted over it (own estimate).
        PowderDustFrom = "powder-dust-from", 0.35 Share, Low;
        /// Glue that grass or sand is scattered on, wet (0.2 to 0.3 mm).
        WetScatterGlue = "wet-scatter-glue", 250.0 Micrometres, Low;
        /// What the dabs of glue under tufts and bushes cover of an area (own estimate).
        TuftShare = "tuft-share", 0.05 Share, Low;
        /// From this share of powder on, a mix is a paste (own estimate).
        PasteFromPowder = "paste-from-powder", 0.2 Share, Low;
        /// The most layers in which anybody pours gel or resin (own estimate).
        PourLayers = "pour-layers", 5.0 Layers, Low;
        /// Wet film of neat oil that is dotted on and drawn out, spread over the area (own estimate: match-heads on a tank).
        WetOilDots = "wet-oil-dots", 2.5 Micrometres, Low;
        // A drybrush that is still half loaded, on painters' word. It lays the ground of a sketch, and not the last light.
        /// Wet film of a heavy drybrush, spread over the area (own estimate).
        WetOverbrush = "wet-overbrush", 5.0 Micrometres, Low;
        /// The share of the edges that one coat of a heavy drybrush catches (own estimate).
        OverbrushOnEdges = "overbrush-on-edges", 0.70 Share, Low;
        /// The share of faces and recesses that one coat of a heavy drybrush catches (own estimate).
        OverbrushOnFaces = "overbrush-on-faces", 0.45 Share, Low;
        // Density, to weigh what drops can't repeat.
        /// Water-based paint (1.05 to 1.4).
        DensityWater = "density-water", 1.2 GramsPerMillilitre, Medium;
        /// Water-based inks, washes, clears, mediums and varnishes (1.0 to 1.15).
        DensityThinWater = "density-thin-water", 1.05 GramsPerMillilitre, Low;
        /// Alcohol-carried paint (0.90 to 1.05).
        DensityAlcohol = "density-alcohol", 0.97 GramsPerMillilitre, Low;
        /// Lacquer (0.85 to 1.05).
        DensityLacquer = "density-lacquer", 0.95 GramsPerMillilitre, Low;
        /// Enamel (0.92 to 1.25).
        DensityEnamel = "density-enamel", 1.08 GramsPerMillilitre, Low;
        /// Artist's oil (1.1 to 2.0).
        DensityOil = "density-oil", 1.5 GramsPerMillilitre, Low;
        /// Alcohol-, lacquer- and white spirit-based clears, thinners and cleaners (0.78 to 0.95).
        DensityThinSolvent = "density-thin-solvent", 0.85 GramsPerMillilitre, Low;
        /// Powder, as it lies (0.3 to 1.0).
        DensityPowder = "density-powder", 0.6 GramsPerMillilitre, Low;
        /// Pastes with grit (own estimate).
        DensityPaste = "density-paste", 1.5 GramsPerMillilitre, Low;
    } };
}
