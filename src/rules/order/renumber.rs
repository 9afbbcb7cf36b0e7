//! New numbers for step files, so that they are in another order. As few files as possible get a new name, and no
//! new name is one that another file has or had.

/// One file that gets another name; both without their ending.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rename {
    /// The name that it has.
    pub from: String,
    /// The name that it gets.
    pub to: String,
}

/// The renames that put the files with these names, which stand in the order of their numbers, into `order`
/// (positions in `stems`).
pub fn renumber(stems: &[&str], order: &[usize]) -> Vec<Rename> {
    let ordered: Vec<(Option<u32>, &str)> =
        order.iter().filter_map(|at| stems.get(*at)).map(|stem| split(stem)).collect();
    let numbers = in_gaps(&ordered).unwrap_or_else(|| (1..).map(|at: u32| at * 10).take(ordered.len()).collect());
    let widest = stems.iter().map(|stem| stem.find('-').unwrap_or(0)).max().unwrap_or(2);
    let old = |at: usize| order.get(at).and_then(|at| stems.get(*at)).copied().unwrap_or_default();
    let with_width = |width: usize| -> Vec<String> {
        let pairs = numbers.iter().zip(&ordered).enumerate();
        let named = |(at, (number, (before, rest))): (usize, (&u32, &(Option<u32>, &str)))| {
            if *before == Some(*number) { old(at).to_owned() } else { format!("{number:0width$}-{rest}") }
        };
        pairs.map(named).collect()
    };
    // Where a new name is already another file's, one more digit makes all that are new differ from all that are there.
    let narrow = with_width(widest);
    let taken = narrow.iter().enumerate().any(|(at, name)| *name != old(at) && stems.contains(&name.as_str()));
    let names = if taken { with_width(widest + 1) } else { narrow };
    let pairs = names.into_iter().enumerate().map(|(at, to)| Rename { from: old(at).to_owned(), to });
    pairs.filter(|rename| rename.from != rename.to).collect()
}

/// The number in front of a name, and the rest.
fn split(stem: &str) -> (Option<u32>, &str) {
    match stem.split_once('-') {
        Some((number, rest)) if number.bytes().all(|byte| byte.is_ascii_digit()) => (number.parse().ok(), rest),
        _ => (None, stem),
    }
}

/// Numbers that leave as many files as possible as they are, and put the others into the gaps between them.
fn in_gaps(steps: &[(Option<u32>, &str)]) -> Option<Vec<u32>> {
    let kept = longest_rise(steps);
    let mut numbers = Vec::with_capacity(steps.len());
    let mut below: u32 = 0;
    let mut at = 0;
    while at < steps.len() {
        let next = (at..steps.len()).find(|later| kept.contains(later));
        let end_of_all = || below.checked_add(u32::try_from(steps.len()).ok()?.checked_add(1)?.checked_mul(10)?);
        let above = next.and_then(|later| steps[later].0).or_else(end_of_all)?;
        let end = next.unwrap_or(steps.len());
        let count = u32::try_from(end - at).ok()?;
        let gap = if next.is_none() { 10 } else { (above - below) / (count + 1) };
        if count > 0 && gap == 0 {
            return None;
        }
        numbers.extend((1..=count).map(|place| below + gap * place));
        if let Some(later) = next {
            numbers.push(steps[later].0?);
            below = above;
            at = later + 1;
        } else {
            at = end;
        }
    }
    Some(numbers)
}

/// The places of a longest run of numbers that rise.
fn longest_rise(steps: &[(Option<u32>, &str)]) -> Vec<usize> {
    let mut best: Vec<Vec<usize>> = Vec::with_capacity(steps.len());
    for (at, (number, _)) in steps.iter().enumerate() {
        let before =
            (0..at).filter(|earlier| number.is_some() && !best[*earlier].is_empty() && steps[*earlier].0 < *number);
        let mut run =
            before.max_by_key(|earlier| best[*earlier].len()).map(|earlier| best[earlier].clone()).unwrap_or_default();
        if number.is_some() {
            run.push(at);
        }
        best.push(run);
    }
    best.into_iter().max_by_key(Vec::len).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn renames(stems: &[&str], order: &[usize]) -> Vec<(String, String)> {
        renumber(stems, order).into_iter().map(|rename| (rename.from, rename.to)).collect()
    }

    #[test]
    fn a_moved_step_goes_into_the_gap() {
        let found = renames(&["10-wash", "20-decal", "30-gloss", "40-matt"], &[0, 2, 1, 3]);
        assert_eq!(found.len(), 1);
        let (from, to) = &found[0];
        assert!(from == "20-decal" && to == "35-decal" || from == "30-gloss" && to == "15-gloss", "{found:?}");
    }

    #[test]
    fn without_a_gap_all_get_new_numbers() {
        let found = renames(&["1-a", "2-b", "3-c"], &[2, 0, 1]);
        let names: Vec<&str> = found.iter().map(|(_, to)| to.as_str()).collect();
        assert_eq!(names, ["10-c", "20-a", "30-b"]);
    }

    #[test]
    fn no_new_name_is_one_that_is_taken() {
        let stems = ["10-seal", "11-paint", "12-seal"];
        let found = renumber(&stems, &[2, 1, 0]);
        for rename in &found {
            assert!(!stems.contains(&rename.to.as_str()), "{found:?}");
        }
    }

    #[test]
    fn what_does_not_move_keeps_its_name() {
        let found = renames(&["1-clean", "3-green", "40-leather", "45-undercoat"], &[0, 3, 1, 2]);
        assert_eq!(found, [("45-undercoat".to_owned(), "02-undercoat".to_owned())]);
    }

    #[test]
    fn numbers_at_the_end_of_counting_are_laid_out_anew() {
        let found = renames(&["4294967295-a", "b", "c"], &[0, 1, 2]);
        assert_eq!(found.first().map(|(_, to)| to.ends_with("10-a")), Some(true), "{found:?}");
    }

    #[test]
    fn the_right_order_needs_nothing() {
        assert_eq!(renumber(&["10-a", "20-b"], &[0, 1]), []);
    }
}
