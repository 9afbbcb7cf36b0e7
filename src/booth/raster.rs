//! Which pixels a triangle covers, and how deep it lies there.

/// A corner on a picture: across, down, and how deep.
pub(crate) type Spot = [f32; 3];

/// Calls `set` with place and depth of every pixel whose middle lies in a triangle; depth runs evenly over the picture.
pub(crate) fn fill(width: usize, height: usize, [a, b, c]: [Spot; 3], mut set: impl FnMut(usize, f32)) {
    let double = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
    if double == 0.0 || !double.is_finite() {
        return;
    }
    let Some((left, right)) = span(a[0].min(b[0]).min(c[0]), a[0].max(b[0]).max(c[0]), width) else { return };
    let Some((top, foot)) = span(a[1].min(b[1]).min(c[1]), a[1].max(b[1]).max(c[1]), height) else { return };
    let part = 1.0 / double;
    // How much of corner b and of corner c is in a pixel, and how that changes from pixel to pixel.
    let (b_across, b_down) = ((c[1] - a[1]) * part, (a[0] - c[0]) * part);
    let (c_across, c_down) = ((a[1] - b[1]) * part, (b[0] - a[0]) * part);
    let (b_deep, c_deep) = (b[2] - a[2], c[2] - a[2]);
    for y in top..foot {
        let (from_left, from_top) = (left as f32 + 0.5 - a[0], y as f32 + 0.5 - a[1]);
        let mut of_b = from_left * b_across + from_top * b_down;
        let mut of_c = from_left * c_across + from_top * c_down;
        for x in left..right {
            if of_b >= 0.0 && of_c >= 0.0 && of_b + of_c <= 1.0 {
                set(y * width + x, a[2] + of_b * b_deep + of_c * c_deep);
            }
            of_b += b_across;
            of_c += c_across;
        }
    }
}

/// The pixels whose middles lie between two places, within a picture.
fn span(low: f32, high: f32, most: usize) -> Option<(usize, usize)> {
    let low = (low - 0.5).ceil().max(0.0);
    let high = (high - 0.5).floor().min(most as f32 - 1.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "both lie within the picture")]
    (low <= high).then(|| (low as usize, high as usize + 1))
}
