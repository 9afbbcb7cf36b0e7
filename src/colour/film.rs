//! One film in one band: what it throws back and what it lets through.
//!
//! Kubelka and Munk's two streams (Kubelka, Journal of the Optical Society of America 38 (1948) 448), written so that
//! a clear, an opaque white and a thick film are all finite.

/// Below this optical path the series stands in for the quotient.
const SHORT_PATH: f64 = 1e-6;

/// What a film does to diffuse light.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Film {
    /// The reflectance over nothing.
    pub reflectance: f64,
    /// The share that passes once.
    pub transmittance: f64,
}

impl Film {
    /// A film of the optical depths K·X (absorbed) and S·X (scattered), both at least 0.
    pub fn new(absorbed: f64, scattered: f64) -> Self {
        Parts::new(absorbed, scattered).film(scattered)
    }

    /// The reflectance of the film on a ground; both without the skin.
    pub fn over(self, ground: f64) -> f64 {
        self.reflectance + self.transmittance * self.transmittance * ground / self.bounces(ground)
    }

    /// What is left of one after light has gone to and fro between the film and its ground.
    fn bounces(self, ground: f64) -> f64 {
        (1.0 - self.reflectance * ground).max(1e-9)
    }
}

/// The reflectance of a film so thick that nothing beneath it shows.
pub fn opaque(absorbed: f64, scattered: f64) -> f64 {
    let ratio = absorbed / scattered.max(1e-12);
    1.0 / (1.0 + ratio + (ratio * (ratio + 2.0)).sqrt())
}

/// A reflectance, and how fast it grows with the two depths.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Slopes {
    /// The reflectance itself.
    pub(crate) value: f64,
    /// By the absorbed depth.
    pub(crate) by_absorbed: f64,
    /// By the scattered depth.
    pub(crate) by_scattered: f64,
}

/// A film over a ground, with slopes.
pub(crate) fn slopes_over(absorbed: f64, scattered: f64, ground: f64) -> Slopes {
    let parts = Parts::new(absorbed, scattered);
    let film = parts.film(scattered);
    let bounces = film.bounces(ground);
    let own = 1.0 + film.transmittance * film.transmittance * ground * ground / (bounces * bounces);
    let through = 2.0 * film.transmittance * ground / bounces;
    let grow = |[slab, below, path]: [f64; 3], direct: f64| {
        let reflectance = (direct * parts.slab + scattered * slab - film.reflectance * below) / parts.below;
        let transmittance = -film.transmittance * (path + below / parts.below);
        own * reflectance + through * transmittance
    };
    let [by_absorbed, by_scattered] = parts.slopes(absorbed, scattered);
    Slopes { value: film.over(ground), by_absorbed: grow(by_absorbed, 0.0), by_scattered: grow(by_scattered, 1.0) }
}

/// An opaque film, with slopes.
pub(crate) fn slopes_opaque(absorbed: f64, scattered: f64) -> Slopes {
    let scattered = scattered.max(1e-12);
    let ratio = absorbed / scattered;
    let value = opaque(absorbed, scattered);
    let root = (ratio * (ratio + 2.0)).sqrt().max(1e-12);
    let by_ratio = -value * value * (1.0 + (ratio + 1.0) / root);
    Slopes { value, by_absorbed: by_ratio / scattered, by_scattered: -by_ratio * ratio / scattered }
}

/// The pieces of which reflectance and transmittance are made.
struct Parts {
    /// p, the optical path.
    path: f64,
    /// e^−p.
    passed: f64,
    /// sinh(p) / p, over e^p.
    slab: f64,
    /// The common denominator, over e^p.
    below: f64,
}

impl Parts {
    fn new(absorbed: f64, scattered: f64) -> Self {
        let path = (absorbed * (absorbed + 2.0 * scattered)).sqrt();
        // One call of the exponential, the dearest of all, is enough: e^−2p is its square, and 1 − e^−2p its two factors.
        let lost = -(-path).exp_m1();
        let passed = 1.0 - lost;
        let slab = if path < SHORT_PATH { 1.0 - path } else { lost * (1.0 + passed) / (2.0 * path) };
        let round = f64::midpoint(1.0, passed * passed);
        Self { path, passed, slab, below: (absorbed + scattered) * slab + round }
    }

    fn film(&self, scattered: f64) -> Film {
        Film { reflectance: scattered * self.slab / self.below, transmittance: self.passed / self.below }
    }

    /// The slopes of slab, denominator and path: by the absorbed depth, then by the scattered depth.
    fn slopes(&self, absorbed: f64, scattered: f64) -> [[f64; 3]; 2] {
        let path = self.path.max(1e-9);
        let fade = self.passed * self.passed;
        let slab = if path < SHORT_PATH { -1.0 } else { (fade - self.slab) / path };
        let below = (absorbed + scattered) * slab - fade;
        [(absorbed + scattered) / path, absorbed / path]
            .map(|by_path| [slab * by_path, self.slab + below * by_path, by_path])
    }
}
