//! CIEDE2000 against the 34 pairs of Sharma, Wu and Dalal, Color Research and Application 30 (2005) 21, table 1.

use maulstick::colour::lab_difference;
use maulstick::colour::space::Lab;

const PAIRS: &str = include_str!("../data/sharma2005_ciede2000_34pairs.csv");

#[test]
fn all_published_pairs_agree_to_the_digits_given() {
    let mut count = 0;
    for line in PAIRS.lines().skip(1).filter(|line| !line.trim().is_empty()) {
        let numbers: Vec<f64> = line.split(',').map(|number| number.trim().parse().unwrap()).collect();
        let [_, l1, a1, b1, l2, a2, b2, wanted] = numbers[..] else { panic!("{line}") };
        let (first, second) = (Lab::new(l1, a1, b1), Lab::new(l2, a2, b2));
        let (there, back) = (lab_difference(first, second), lab_difference(second, first));
        assert!((there - wanted).abs() <= 5.1e-5, "{line}: {there}");
        assert!((there - back).abs() < 1e-9, "{line}: {there} there and {back} back");
        count += 1;
    }
    assert_eq!(count, 34);
}
