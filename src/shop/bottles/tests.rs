//! Bottles against hand-made cases, against plain counting, and against sizes that nobody sells.

use proptest::prelude::*;

use super::*;
use crate::measure::FromText;

/// Sizes as an author would list them: millilitres, and a price or `-`.
fn shelf(sizes: &[(f64, &str)]) -> Vec<Bottle> {
    let price = |text: &str| Money::from_text(text).ok();
    sizes.iter().map(|(size, text)| Bottle { size: Millilitres(*size), price: price(text) }).collect()
}

fn bought(sizes: &[(f64, &str)], need: f64) -> String {
    let picks = choose(&shelf(sizes), Millilitres(need), 1.0);
    let shown: Vec<String> = picks.iter().map(|pick| format!("{} x {}", pick.count, pick.bottle.size.0)).collect();
    shown.join(" + ")
}

fn cost(picks: &[Pick]) -> Decimal {
    picks.iter().map(|pick| pick.bottle.price.map_or(Decimal::ZERO, |price| price.0) * Decimal::from(pick.count)).sum()
}

fn volume(picks: &[Pick]) -> f64 {
    picks.iter().map(|pick| pick.bottle.size.0 * pick.count as f64).sum()
}

#[test]
fn the_cheapest_set_is_found() {
    let two = &[(17.0, "2.80"), (60.0, "7.50")];
    assert_eq!(bought(two, 0.0), "");
    assert_eq!(bought(two, 0.5), "1 x 17");
    assert_eq!(bought(two, 17.0), "1 x 17");
    assert_eq!(bought(two, 17.01), "2 x 17", "5.60 and not 7.50");
    assert_eq!(bought(two, 35.0), "1 x 60", "7.50 and not 8.40");
    assert_eq!(bought(two, 70.0), "1 x 60 + 1 x 17");
    assert_eq!(bought(two, 600_000.0), "10000 x 60");
}

#[test]
fn equal_prices_buy_fewer_bottles() {
    assert_eq!(bought(&[(10.0, "2"), (20.0, "4")], 20.0), "1 x 20");
    assert_eq!(bought(&[(20.0, "4"), (10.0, "2")], 30.0), "1 x 20 + 1 x 10");
    assert_eq!(bought(&[(10.0, "0"), (20.0, "0")], 35.0), "2 x 20", "even when they are free");
}

#[test]
fn without_prices_it_is_the_fewest_and_of_those_the_smallest() {
    let plain = &[(17.0, "-"), (60.0, "-")];
    assert_eq!(bought(plain, 12.0), "1 x 17");
    assert_eq!(bought(plain, 50.0), "1 x 60");
    assert_eq!(bought(plain, 70.0), "1 x 60 + 1 x 17");
    assert_eq!(bought(&[(17.0, "3"), (60.0, "-")], 50.0), "3 x 17", "a size without a price can't be weighed");
    assert_eq!(bought(&[], 50.0), "");
}

#[test]
fn what_stays_in_the_bottle_is_bought_too() {
    let picks = choose(&shelf(&[(17.0, "2.80")]), Millilitres(16.0), 0.93);
    assert_eq!(picks.first().map(|pick| pick.count), Some(2), "0.93 of 17 ml is 15.81 ml");
    let picks = choose(&shelf(&[(17.0, "2.80")]), Millilitres(15.81), 0.93);
    assert_eq!(picks.first().map(|pick| pick.count), Some(1));
}

#[test]
fn sizes_that_nobody_sells_are_no_trouble() {
    let strange: &[&[(f64, &str)]] = &[
        &[(999.99, "3"), (999.98, "2.999"), (0.01, "0.00001")],
        &[(0.01, "0"), (999_999_000.0, "999999.999999")],
        &[(999_999_999.0, "0.000001"), (0.03, "0.000001"), (1e-9, "1")],
        &[(1e-9, "1")],
    ];
    for sizes in strange {
        for need in [1e-9, 1.0, 1e6, 1e15, 1e300, f64::INFINITY, f64::NAN] {
            let picks = choose(&shelf(sizes), Millilitres(need), 0.93);
            assert!(picks.len() <= sizes.len());
        }
    }
    let many: Vec<Bottle> = (1..20_000)
        .map(|at| Bottle { size: Millilitres(f64::from(at) * 1.01), price: Some(Money(Decimal::from(20_000 - at))) })
        .collect();
    assert_eq!(choose(&many, Millilitres(1e9), 0.93).len(), 1);
}

/// The least cost by going through every count of every size.
fn counted(sizes: &[Bottle], need: f64) -> Decimal {
    let Some((first, rest)) = sizes.split_first() else {
        return if need <= 0.0 { Decimal::ZERO } else { Decimal::from(1_000_000) };
    };
    let price = first.price.map_or(Decimal::ZERO, |price| price.0);
    let (mut least, mut left, mut paid) = (Decimal::from(1_000_000), need, Decimal::ZERO);
    loop {
        least = least.min(paid + counted(rest, left));
        if left <= 0.0 {
            return least;
        }
        left -= first.size.0;
        paid += price;
    }
}

fn any_shelf() -> impl Strategy<Value = Vec<Bottle>> {
    let bottle = (1_u32..80, 1_u32..2000).prop_map(|(size, cents)| Bottle {
        size: Millilitres(f64::from(size)),
        price: Some(Money(Decimal::new(i64::from(cents), 2))),
    });
    prop::collection::vec(bottle, 1..4)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn nothing_is_cheaper(sizes in any_shelf(), need in 0_u32..150) {
        let picks = choose(&sizes, Millilitres(f64::from(need)), 1.0);
        prop_assert!(volume(&picks) >= f64::from(need));
        prop_assert_eq!(cost(&picks), counted(&sizes, f64::from(need)));
    }

    #[test]
    fn bottles_cover_the_need_and_beat_one_size_alone(
        sizes in prop::collection::vec((0.05_f64..5000.0, 1_u32..200_000), 1..6),
        need in 0.0_f64..1e7,
    ) {
        let sizes: Vec<Bottle> = sizes
            .iter()
            .map(|(size, cents)| Bottle { size: Millilitres(*size), price: Some(Money(Decimal::new(i64::from(*cents), 2))) })
            .collect();
        let picks = choose(&sizes, Millilitres(need), 0.93);
        prop_assert!(volume(&picks) * 0.93 >= need - 1e-4, "{} for {need}", volume(&picks));
        for size in &sizes {
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "need and size are small here")]
            let alone = (need / 0.93 / contents(size.size) as f64 * 100.0).ceil() as u64;
            let price = size.price.map_or(Decimal::ZERO, |price| price.0);
            prop_assert!(cost(&picks) <= price * Decimal::from(alone.max(u64::from(need > 0.0))));
        }
    }

    #[test]
    fn who_needs_less_never_pays_more(sizes in any_shelf(), need in 0.0_f64..1e6, less in 0.0_f64..1.0) {
        let all = choose(&sizes, Millilitres(need), 0.93);
        let some = choose(&sizes, Millilitres(need * less), 0.93);
        prop_assert!(cost(&some) <= cost(&all));
    }
}
