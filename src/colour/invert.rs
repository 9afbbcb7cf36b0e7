//! From a film measured over black and over white back to its depths, in one band and in closed form.
//!
//! Kubelka (1948), solved for the film. It needs measured spectra; for colours of three channels there is the
//! estimator in [`super::estimate`].

/// The depths of a film from its reflectances over a dark and a light ground, all without the skin (see
/// [`super::Surface::inner`]): the absorbed depth K·X, then the scattered depth S·X.
///
/// Readings that no film could give are moved to the nearest that one could.
pub fn depths(over_dark: f64, over_light: f64, dark: f64, light: f64) -> (f64, f64) {
    let most = over_dark.min(over_light).max(1e-6);
    let reflectance = ((light * over_dark - dark * over_light)
        / (light * (1.0 + over_dark * dark) - dark * (1.0 + over_light * light)))
        .clamp(1e-6, most);
    let squared = (over_light - reflectance) * (1.0 - reflectance * light) / light;
    let transmittance = squared.max(0.0).sqrt().clamp(0.003, (1.0 - reflectance - 1e-4).max(0.003));
    let above_one = (1.0 - reflectance - transmittance) * (1.0 - reflectance + transmittance) / (2.0 * reflectance);
    let above_one = above_one.max(1e-9);
    let root = (above_one * (above_one + 2.0)).sqrt();
    let path = (root * reflectance / transmittance).asinh();
    let scattered = path / root;
    (above_one * scattered, scattered)
}
