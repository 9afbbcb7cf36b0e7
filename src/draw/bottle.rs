//! A bottle, filled as far as what is bought is needed: one sees what will be left over.

/// The foot of the bottle, and how high it is to the shoulder, in user units.
const FOOT: f64 = 30.0;
const DEEP: f64 = 20.0;

/// A bottle that is filled to a share of it. The words beside it say how much that is, so it is hidden from screen
/// readers. A script moves the level: the filling is as high as its path says.
pub(crate) fn bottle(share: f64) -> String {
    let level = FOOT - DEEP * share.clamp(0.0, 1.0);
    format!(
        "<svg class=\"slip-bottle\" viewBox=\"0 0 20 32\" aria-hidden=\"true\">\
         <path fill=\"currentColor\" d=\"M3 {level:.1}h14V30H3z\"/><path fill=\"none\" stroke=\"currentColor\" \
         stroke-width=\"1.6\" stroke-linejoin=\"round\" d=\"M7 2h6v4c3 1 4 2 4 4v20H3V10c0-2 1-3 4-4z\"/></svg>"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bottle_is_filled_to_the_need() {
        assert!(bottle(0.5).contains("M3 20.0h14V30") && bottle(0.0).contains("M3 30.0h14"));
        assert!(bottle(7.0).contains("M3 10.0h14V30"));
    }
}
