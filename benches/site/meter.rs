//! Time, processor time and memory of a run.

use std::fs;
use std::time::Instant;

/// What a run cost.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Cost {
    /// Seconds by the clock.
    pub(crate) wall: f64,
    /// Seconds of processor time.
    pub(crate) processor: f64,
    /// The most memory that the process ever held, in kB.
    pub(crate) peak_kb: u64,
}

impl Cost {
    /// Runs something.
    pub(crate) fn of(work: impl FnOnce()) -> Self {
        let (start, before) = (Instant::now(), processor("self"));
        work();
        Self { wall: start.elapsed().as_secs_f64(), processor: processor("self") - before, peak_kb: peak() }
    }

    /// The cost as a line of text.
    pub(crate) fn line(&self) -> String {
        format!("{} {} {}", self.wall, self.processor, self.peak_kb)
    }

    /// Reads such a line.
    pub(crate) fn read(line: &str) -> Self {
        let mut parts = line.split_whitespace();
        let mut next = || parts.next().unwrap();
        let (wall, processor) = (next().parse().unwrap(), next().parse().unwrap());
        Self { wall, processor, peak_kb: next().parse().unwrap() }
    }
}

/// The middle one of some figures.
pub(crate) fn median(figures: impl Iterator<Item = f64>) -> f64 {
    let mut figures: Vec<f64> = figures.collect();
    figures.sort_by(f64::total_cmp);
    figures[figures.len() / 2]
}

/// Processor time of a process in seconds, user and system: fields 14 and 15 of its `stat`, in ticks of a hundredth.
pub(crate) fn processor(process: &str) -> f64 {
    let stat = fs::read_to_string(format!("/proc/{process}/stat")).unwrap();
    let behind_name = stat.rsplit_once(')').unwrap().1;
    let fields: Vec<&str> = behind_name.split_whitespace().collect();
    let ticks = |at: usize| fields[at].parse::<f64>().unwrap();
    (ticks(11) + ticks(12)) / 100.0
}

fn peak() -> u64 {
    let status = fs::read_to_string("/proc/self/status").unwrap();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap();
    line.trim().trim_end_matches(" kB").parse().unwrap()
}
