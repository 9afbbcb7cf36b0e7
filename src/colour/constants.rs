//! Every constant of the colour method, with where it comes from and how far to trust it.

/// The first band's wavelength in nanometres. ISO/CIE 11664-3 asks for steps of at most 20 nm for paints.
pub(crate) const FIRST_BAND: f64 = 380.0;

/// From one band to the next, in nanometres.
pub(crate) const BAND_STEP: f64 = 10.0;

/// D65's white point from its chromaticity (0.3127, 0.3290), as IEC 61966-2-1 rounds it: X of a perfect white.
pub(crate) const WHITE_X: f64 = 0.312_7 / 0.329_0;

/// D65's white point, as above: Z of a perfect white.
pub(crate) const WHITE_Z: f64 = (1.0 - 0.312_7 - 0.329_0) / 0.329_0;

/// Chromaticities (x, y) of the screen's red, green and blue. IEC 61966-2-1 (after ITU-R BT.709).
pub(crate) const PRIMARIES: [[f64; 2]; 3] = [[0.64, 0.33], [0.30, 0.60], [0.15, 0.06]];

/// The share of diffuse light that the surface throws back into the film, for a binder of refractive index 1.5.
/// Saunderson, J. Opt. Soc. Am. 32 (1942) 727; Judd (1942) computes 0.596. Well known.
pub(crate) const INNER_MIRROR: f64 = 0.6;

/// The most that an outer mirror adds to a measured colour: some 0.04 is the theory for index 1.5; what is left after
/// a usual camera or a 45°/0° instrument is less. An estimate.
pub(crate) const MOST_OUTER_MIRROR: f64 = 0.03;

/// The outer mirror of matt paint as a part of the darkest luminance on file: a paint can't be darker than its mirror.
/// Nearer to 1, rounding to eight bits decides the hue of what is left of a black. Fitted to measured films.
pub(crate) const OUTER_MIRROR_OF_DARKEST: f64 = 0.7;

/// The outer mirror of matt paint where no colour on file is dark enough to tell: a matt black is seen at L* 11, a satin
/// one at 7, a gloss one at 3. Measured on brushed films.
pub(crate) const USUAL_OUTER_MIRROR: f64 = 0.0095;

/// What is left of the outer mirror under satin: between matt (all) and gloss (none). From the same films.
pub(crate) const OUTER_MIRROR_OF_SATIN: f64 = 0.5;

/// Inner reflectances are kept this far from 0 and 1, so that every formula stays finite.
pub(crate) const REFLECTANCE_MARGIN: f64 = 1e-5;

/// Linear red, green and blue are kept this far from 0 and 1 before a reflectance is looked for.
pub(crate) const GAMUT_MARGIN: f64 = 1e-4;

/// Outer reflectance of the white card of a brush-out, in every band. ISO 6504-3: a luminance of 80 ± 2 % for charts;
/// good white paper and card measure 0.84 to 0.88.
pub const WHITE_CARD: f64 = 0.85;

/// Outer reflectance of the black card. ISO 6504-3: at most 5 %; matt black paper measures 0.02 to 0.05.
pub const BLACK_CARD: f64 = 0.02;

/// The contrast ratio at which a coating hides. ISO 6504-3.
pub const HIDES: f64 = 0.98;

/// Above this contrast ratio a brush-out looks the same over black and white, and tells no strength.
pub(crate) const TELLS_NO_STRENGTH: f64 = 0.95;

/// Below this encoded value a channel is too dark to tell strength (8 of 255).
pub(crate) const TELLS_NO_CHANNEL: f64 = 8.0 / 255.0;

/// Standard deviation of a swatch's encoded channel: a good photograph or scan, 5 of 255. An estimate.
pub(crate) const SWATCH_SPREAD: f64 = 0.02;

/// Standard deviation of an encoded channel of the colour that an author gives for a paint, while its pigments are
/// weighed.
pub(crate) const LABEL_SPREAD: f64 = 0.01;

/// The same at the end: the colour is to come out as given, as nearly as a film can show it.
pub(crate) const OWN_SPREAD: f64 = 0.001;

/// From so far off (CIEDE2000) a paint is taken to mirror less than the others: half of what is just seen.
pub(crate) const OWN_REACHED: f64 = 0.5;

/// A paint darker than this in CIE lightness tells hardly which way it leans when it is thinned. An estimate.
pub(crate) const DARK: f64 = 25.0;

/// The chroma at which a dark, and a thin film over white, leans half as far towards its hue as it can. Estimates.
pub(crate) const LEANS_FULLY: (f64, f64) = (10.0, 30.0);

/// How far makers' darks lean another way when they are thinned, as a standard deviation. An estimate; half of it makes
/// measured films worse.
pub(crate) const LEANS_WITHIN: f64 = 0.6;

/// Darks of these hue angles (CIE a and b, in degrees) are browns.
pub(crate) const BROWN_HUES: (f64, f64) = (40.0, 100.0);

/// The same of browns, across the direction in which they lean: makers make them of earths, which thin to a tan. An estimate;
/// with twice as much an umber thinned to a pink.
pub(crate) const BROWN_LEANS_WITHIN: f64 = 0.3;

/// Paints of these hue angles (CIE a and b, in degrees), of more than this chroma and darker than this are warm reds. Estimates: scarlets
/// and pyrrole reds lie at 30 to 45, roses and magentas below 20.
pub(crate) const WARM_REDS: ((f64, f64), f64, f64) = ((22.0, 55.0), 38.0, 55.0);

/// How far they lean another way when they are thinned, as [`LEANS_WITHIN`], across the direction of their hue. An estimate; measured
/// oils and films are predicted alike with it, and reds and yellows mixed of measured acrylics better (`tests/colour/mixes.rs`).
pub(crate) const WARM_REDS_LEAN_WITHIN: f64 = 0.2;

/// A dark that is called opaque or semi-opaque has so many times its chroma where it is thinned over white, with this standard
/// deviation: a fixed part, and a part of its own chroma. Makers mix dull darks with black and white; one strong transparent pigment
/// would thin to a bright colour. Estimates; no measured paint is predicted worse with them.
pub(crate) const BODY_THINS_TO: f64 = 1.2;
/// See [`BODY_THINS_TO`].
pub(crate) const BODY_KEEPS_WITHIN: (f64, f64) = (3.0, 0.2);

/// A dark whose chroma is below the first of these has no cast of its own, one above the second all that it shows: so little is what
/// one step of eight bits makes. Estimates.
pub(crate) const CASTS_OF_BLACKS: (f64, f64) = (3.0, 5.0);

/// The same of one that is called opaque or semi-opaque. An estimate.
pub(crate) const CASTS_WITH_BODY: (f64, f64) = (4.0, 7.0);

/// The same of a brown: makers warm their blacks with earths, and those show at once.
pub(crate) const CASTS_OF_BROWNS: (f64, f64) = (1.0, 2.5);

/// The same of the CIE lightness of the dark: the lighter one is, the better its cast can be seen.
pub(crate) const BLACKS_WITH_CASTS: (f64, f64) = (18.0, 25.0);

/// Of a paint so dark (CIE lightness), what its darkest channel shows is taken for mirror up to a bound: for all of it where it is
/// a grey, and for so much less the more colour it has. Where the mirror was all of that channel, one step of eight bits decided
/// how strongly it tints: a dark brown turned orange when it was thinned. An estimate; no measured paint is so dark.
pub(crate) const OWN_MIRROR_OF_DARK: (f64, f64) = (18.0, 0.7);

/// What is left of a mirror, step by step, until a paint's own colour can be shown.
pub(crate) const OWN_MIRRORS: [f64; 5] = [1.0, 0.75, 0.5, 0.25, 0.0];

/// What ln K may give way for that where ln S does not, or the other way, and the distance in nanometres over which it does.
pub(crate) const OWN_WAVES: (f64, f64) = (2.0, 45.0);

/// What ln K may give way where both do. Where a paint covers only K/S shows, so a darker channel tells of less scattering as well as of
/// more absorption; with ln K alone an ultramarine absorbed hundreds of times what it does. Fitted to measured oils and films.
pub(crate) const OWN_WAVE_OF_BOTH: f64 = 1.0;

/// Mean ln S of an ordinary coat (30 µm wet, some 8 µm dry) by hiding class, from opaque to transparent. Makers' words go
/// with scattering (0.6 with ln S) and hardly with the contrast ratio (0.14), measured on films of 84 paints: a dark
/// blue hides and is called transparent, because it does not scatter.
pub(crate) const CLASS_SCATTER: [f64; 4] = [0.3, -0.7, -1.5, -2.1];

/// Standard deviation of ln S within a hiding class. Measured on the same films.
pub(crate) const CLASS_SPREAD: f64 = 1.0;

/// The same of light paints (CIE lightness of [`LIGHT_PAINTS`]): what is light hides only by what it scatters, and is light mostly by a
/// white that is in it, while a darker paint hides by what it absorbs as well; so the same word stands for less there. Yellows, ochres,
/// turquoises and bones that are mixed of measured acrylics (Berns, as in `known.rs`) have a mean ln S of 0 to 1 in an ordinary
/// coat, reds, browns and navies −0.4 to −2. An opaque and a semi-opaque one hide as a white of their class (contrast ratio some 0.7 and
/// 0.5), a semi-transparent one scatters 0.7 more than others of its class, and what is called transparent may be an extender.
/// Estimates: with less a red, a blue and a brown swallow every yellow; with these the films over black of a yellow that is held to be
/// semi-transparent come out 3 to 6 too light in L* (2 to 4 too dark with the class alone), within what paints of one class differ by.
pub(crate) const LIGHT_SCATTER: [f64; 4] = [0.5, -0.2, -0.8, -2.1];

/// From the first lightness on (CIE) a class means more than [`CLASS_SCATTER`], from the second on [`LIGHT_SCATTER`]; the first is about
/// the middle of the paints that those were measured on. An estimate.
pub(crate) const LIGHT_PAINTS: (f64, f64) = (45.0, 80.0);

/// So much less does the mean ln S of a class mean with each step of lightness below the first of those, down to [`DARKEST_OF_CLASS`]. An estimate, half of what
/// the mixes of measured acrylics show; with all of it oils are predicted worse, whose darks are as strong as their class says.
pub(crate) const DARKER_SCATTER: f64 = 0.013;
/// See [`DARKER_SCATTER`]. An estimate; further down watery films are predicted worse.
pub(crate) const DARKEST_OF_CLASS: f64 = 25.0;

/// Yellows that one sees through: the hue angles (CIE a and b, in degrees) between which a paint begins to be one, and those between
/// which it ends; and the chroma. Estimates: golden yellows lie at 80, lemon yellows at 100. Oranges are left out: as clean they turn a
/// blue green, where measured ones turn it grey.
pub(crate) const CLEAN_HUES: ((f64, f64), (f64, f64)) = ((65.0, 80.0), (104.0, 112.0));
/// See [`CLEAN_HUES`].
pub(crate) const CLEAN_CHROMA: (f64, f64) = (50.0, 65.0);

/// So many times what it scatters does such a paint absorb at the least, as the mean over [`CLEAN_BANDS`]. An estimate, set on what a
/// painter has from a semi-transparent yellow with black, blue, red and brown. Measured acrylic yellows (Berns) have 4 to 7, but those
/// scatter twice to four times what that word means, and mixes of such paints are predicted worse with more.
pub(crate) const CLEAN_RATIO: f64 = 15.0;

/// So much does an ordinary coat of an ink of such a colour absorb there, at the least: what shows no blue in two coats over white may be
/// as much stronger as one likes. An estimate: measured yellows have 3 to 7, and an ink is strong.
pub(crate) const CLEAN_INK: f64 = 2.5;

/// Standard deviation of the logarithm of both. An estimate.
pub(crate) const CLEAN_SPREAD: f64 = 0.3;

/// So much less ln S does a class mean of such a paint, over all bands: it is what those of blue scatter less. So a yellow over black
/// is no more than 6 lighter than the one that was measured.
pub(crate) const CLEAN_SCATTER: f64 = 0.3;

/// The bands of blue, 400 to 470 nm: from one to before the other.
pub(crate) const CLEAN_BANDS: (usize, usize) = (2, 10);

/// How much an ordinary coat of a wash, an ink or a one-coat paint scatters, as a part of the luminance of its colour, by its
/// hiding class, from opaque to transparent: it is made so that what it lies on shows. An estimate; set so that a brown wash
/// on bone, a yellow ink over brown and a flood over black come out as painters have them.
pub(crate) const STAIN_SCATTER: [f64; 4] = [0.5, 0.25, 0.12, 0.05];

/// No stain scatters as if its colour were of less luminance than that of a black pigment where it covers.
pub(crate) const STAIN_LEAST: f64 = 0.012;

/// Standard deviation of its logarithm. An estimate.
pub(crate) const STAIN_SPREAD: f64 = 0.4;

/// The contrast ratio of an ordinary coat of a white by its hiding class, from opaque to transparent: a white absorbs
/// nothing, so its word can be taken by what it hides. Strong and weak whites measured 0.78 and 0.29.
pub(crate) const WHITE_RATIO: [f64; 4] = [0.75, 0.55, 0.38, 0.22];

/// Standard deviation of its logit. An estimate.
pub(crate) const WHITE_SPREAD: f64 = 0.8;

/// The contrast ratio of an ordinary coat of a black by its hiding class, from opaque to transparent: it scatters nothing
/// that tells, so its word is taken by what it hides. A coat that lets an eighth of the light of a white card through to the
/// black's own depth has 0.6. An estimate.
pub(crate) const BLACK_RATIO: [f64; 4] = [0.6, 0.4, 0.25, 0.12];

/// Standard deviation of its logit. An estimate.
pub(crate) const BLACK_SPREAD: f64 = 1.2;

/// The contrast ratio of an ordinary coat of metal flakes by its hiding class, from opaque to transparent. A flake lets
/// nothing through, so what counts is how often flakes lie over a place: a dry coat of 8 µm with 7 % of flakes that are
/// 0.3 µm thick covers some two times over and leaves a seventh bare. An estimate, not measured on paints for models.
pub(crate) const FLAKE_RATIO: [f64; 4] = [0.85, 0.65, 0.45, 0.3];

/// Standard deviation of its logit. An estimate.
pub(crate) const FLAKE_SPREAD: f64 = 0.8;

/// So many coats of another sheen make all but a third of the surface their own: a film that is thinner than what
/// roughens it does not level it. An estimate.
pub(crate) const COATS_OF_A_SKIN: f64 = 0.1;

/// Contrast ratio of one nominal coat of a tinted clear; with no scattering at all it would be some 0.02 to 0.03.
/// Clears are dyes and fine transparent pigments. An estimate, not measured.
pub(crate) const CLEAR_RATIO: f64 = 0.05;

/// Standard deviation of its logit. An estimate.
pub(crate) const CLEAR_SPREAD: f64 = 0.3;

/// Prior mean of ln K and of ln S per nominal coat. Fitted by eye to four measured sets of paint.
pub(crate) const PRIOR_MEAN_K: f64 = -1.5;
/// See [`PRIOR_MEAN_K`].
pub(crate) const PRIOR_MEAN_S: f64 = -1.0;

/// ln K: standard deviation of its smooth part, and the distance in nanometres over which it holds together.
pub(crate) const PRIOR_K_SMOOTH: (f64, f64) = (2.6, 45.0);
/// ln K: standard deviation of its level.
pub(crate) const PRIOR_K_LEVEL: f64 = 1.2;
/// ln K: standard deviation of what each band has of its own.
pub(crate) const PRIOR_K_NOISE: f64 = 0.05;
/// ln S: standard deviation of its level.
pub(crate) const PRIOR_S_LEVEL: f64 = 0.9;
/// ln S: standard deviation of its smooth part, and its distance in nanometres.
pub(crate) const PRIOR_S_SMOOTH: (f64, f64) = (0.6, 60.0);
/// ln S: standard deviation of what each band has of its own.
pub(crate) const PRIOR_S_NOISE: f64 = 0.03;
/// Pigments scatter less where they absorb on the long side (anomalous dispersion): ln S falls by this times the mean
/// of ln K, seen through a bell of the given offset and width in nanometres.
pub(crate) const PRIOR_DISPERSION: f64 = -0.25;
/// See [`PRIOR_DISPERSION`]: offset and standard deviation of the bell.
pub(crate) const PRIOR_DISPERSION_BELL: (f64, f64) = (100.0, 60.0);

/// A paint of known pigments: standard deviation of its strength, as a logarithm. This and what follows is fitted to
/// measured paints, each left out; two halves of them taken by turns ask for the same.
pub(crate) const KNOWN_STRENGTH: f64 = 0.9;
/// The same around one of the strengths at which a film is tried.
pub(crate) const TRIED_STRENGTH: f64 = 0.5;
/// Standard deviation of what its ln S has of its own in all bands: how finely a pigment is ground.
pub(crate) const KNOWN_S_LEVEL: f64 = 0.7;
/// What its ln K may wander from the pigments', and the distance in nanometres over which that holds together.
pub(crate) const KNOWN_K_REST: (f64, f64) = (0.8, 45.0);
/// The same of ln S.
pub(crate) const KNOWN_S_REST: (f64, f64) = (0.6, 60.0);

/// The same three where the maker names the pigments: what they are is known, and little is left open.
pub(crate) const NAMED_RESTS: (f64, (f64, f64), (f64, f64)) = (0.1, (0.5, 45.0), (0.4, 60.0));

/// A pigment that nobody measured is often a relative of a known one, with its bands moved by so many nanometres; and how
/// likely that is against the known one.
pub(crate) const RELATIVES: [(f64, f64); 4] = [(-30.0, 0.3), (-15.0, 0.7), (15.0, 0.7), (30.0, 0.3)];

/// Pigments that no maker of paints for models uses by now, for what is in them (lead, mercury, arsenic) or because they fade: so
/// many times less likely than others, unless the paint's own maker names them. An estimate; the acrylics' films are predicted alike with it.
pub(crate) const OUTDATED: ([&str; 6], f64) = (["PY34", "PR105", "PR106", "PG21", "PR90", "NR4"], 0.15);

/// ln K and ln S are kept between these.
pub(crate) const LOG_DEPTH_RANGE: (f64, f64) = (-12.0, 6.0);

/// The part of the diffuse path that light takes when it is mirrored by metal and seen near the glint: half of the
/// diffuse path (2) over the cosine of 25° inside the film. Theory alone.
pub(crate) const GLINT_PATH: f64 = 0.55;

/// How much of a metal one sees near the glint at arm's length; the rest is in the shade. With this, two coats of a clear
/// over silver look much like two over white, as painters have it. An estimate, not measured.
pub(crate) const SEEN_GLINT: f64 = 0.35;

/// Two colours nearer than this are taken for one: about what is seen side by side. CIE 142:2001.
pub const JUST_SEEN: f64 = 1.0;

/// From this difference on everybody sees two colours apart. An estimate.
pub const PLAINLY_SEEN: f64 = 3.0;

/// Two colours nearer than this pass for each other on two models that stand apart; further off, each is a colour of its
/// own. Trades that match paint accept 2 to 5. An estimate, not measured on models.
pub const CLOSE: f64 = 5.0;

/// A colour that somebody states is off by this (CIEDE2000), in half of the cases and in nine of ten: one read from a
/// photographed card was off by 1 and at most 2 on rendered photographs. An estimate for everything else.
pub(crate) const STATED_IS_OFF: (f64, f64) = (1.0, 2.0);

/// Two colours nearer than this are mostly called by one name; an estimate.
pub(crate) const NAMED_ALIKE: f64 = 12.0;

/// What the theory of films itself misses, in CIEDE2000. Fitted to measured films, each left out of what was learnt.
pub(crate) const THEORY_IS_OFF: f64 = 2.0;

/// From the root of the mean square to what half of the predictions are off by, and nine in ten at most. Fitted to the
/// same.
pub(crate) const HALF_WITHIN: f64 = 0.82;
/// See [`HALF_WITHIN`].
pub(crate) const NINE_IN_TEN: f64 = 2.1;

/// What is not seen of a paint is so many times further off than its fit leaves open, and so much more with each further
/// swatch: its prior was weighed with the same data that it is fitted to. Fitted to the same.
pub(crate) const UNSEEN_IS_WIDER: (f64, f64) = (1.3, 0.4);

/// Coats are counted up to here when one asks how many it takes: nobody lays more to hide what is beneath, and what needs
/// more is a glaze or a stain.
pub const MOST_COATS: u32 = 12;
