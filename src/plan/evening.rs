//! The plan as a painter reads it: evenings, and what is done on each.

use super::Seconds;
use super::calendar::Calendar;
use super::hands::Kit;
use super::schedule::{Deed, Schedule, Stretch};
use super::workload::Workload;
use crate::measure::{Date, Time};

/// The seconds of a day.
const DAY_SECONDS: i64 = 86_400;

/// A plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// The evenings on which something is done, in order.
    pub evenings: Vec<Evening>,
    /// What it is done with; tasks name kits by their places here.
    pub kits: Vec<Kit>,
    /// How long the longest evening is.
    pub longest: Time,
    /// Hands-on time of all models, steps and coats.
    pub hands_on: Seconds,
    /// Time for making tools ready and cleaning them.
    pub changing: Seconds,
    /// How many evenings of the calendar it takes from the first to the last, with those on which everything dries.
    pub takes_evenings: u64,
    /// How many no plan can do without.
    pub least_evenings: u64,
    /// When it ends, in seconds at the desk: all evenings before, and the time of the last one.
    pub finish: Seconds,
    /// Before which no plan can end.
    pub bound: Seconds,
}

/// One evening.
#[derive(Debug, Clone, PartialEq)]
pub struct Evening {
    /// Its place in the calendar, from 1; evenings on which everything dries are counted too.
    pub number: usize,
    /// The day.
    pub date: Date,
    /// When it begins, in seconds since midnight.
    pub from: u32,
    /// When it could end; after midnight it goes on past 24 hours.
    pub to: u32,
    /// What is done, in order.
    pub blocks: Vec<Block>,
    /// What has not dried when the last block ends.
    pub resting: Vec<Resting>,
}

/// One stretch of work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Block {
    /// When it begins, in seconds since the midnight before the evening.
    pub start: u32,
    /// When it ends.
    pub end: u32,
    /// What is done.
    pub task: Task,
}

/// What is done in one stretch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Task {
    /// One coat of one step, on some models of a unit.
    Paint {
        /// The unit, by its place in the army.
        unit: usize,
        /// The step, by its place in the scheme.
        step: usize,
        /// Which coat, from 1.
        coat: u32,
        /// The first model, from 1.
        first: u32,
        /// The last model.
        last: u32,
        /// What it is done with.
        kit: usize,
        /// When the last of these models has dried enough for what follows it on the same areas.
        dry: u32,
    },
    /// Making a tool ready with its colour.
    Ready {
        /// What is made ready.
        kit: usize,
        /// Whether an airbrush that is set up only changes its colour.
        rinse: bool,
    },
    /// Stripping and cleaning the airbrush.
    Strip {
        /// What goes into it next, where it is stripped because that has another carrier.
        next: Option<usize>,
    },
    /// Nothing can be done: everything dries.
    Wait,
}

/// What dries when the evening is over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Resting {
    /// The unit.
    pub unit: usize,
    /// The step.
    pub step: usize,
    /// The first model, from 1.
    pub first: u32,
    /// The last model.
    pub last: u32,
    /// The last coat that was laid on them.
    pub coat: u32,
    /// For how long after the last block.
    pub rests: Time,
}

impl Plan {
    /// By how much the plan lies above the bound, in tenths of a per cent.
    pub fn gap(&self) -> u64 {
        ((self.finish - self.bound) * 1000).checked_div(self.bound).unwrap_or_default()
    }

    /// The day on which the last coat is laid; none where nothing is done.
    pub fn painted(&self) -> Option<Date> {
        self.evenings.last().map(|evening| evening.date)
    }

    /// The day on which all is painted and dry; none where nothing is done.
    pub fn ready(&self) -> Option<Date> {
        self.evenings.iter().map(|evening| evening.dry().max(evening.date)).max()
    }

    /// How many days before a date all is painted and dry; less than none where it is late for it.
    pub fn days_to_spare(&self, by: Date) -> Option<i32> {
        Some((by.0 - self.ready()?.0).get_days())
    }
}

impl Evening {
    /// When the last block ends.
    pub fn ends(&self) -> u32 {
        self.blocks.last().map_or(self.from, |block| block.end)
    }

    /// The day on which all that was done on it is dry.
    fn dry(&self) -> Date {
        let rests = self.resting.iter().map(|rest| rest.rests.as_seconds()).max().unwrap_or_default();
        let days = i64::from(self.ends()).saturating_add(i64::from(rests)) / DAY_SECONDS;
        Date(self.date.0.saturating_add(jiff::Span::new().days(days)))
    }

    /// How long hands are busy.
    pub fn busy(&self) -> Time {
        let busy = self.blocks.iter().filter(|block| block.task != Task::Wait);
        busy.map(|block| Time::seconds(block.end - block.start)).sum()
    }
}

/// The plan of a schedule.
pub(super) fn plan(work: &Workload, calendar: &Calendar, found: &Schedule, bound: Seconds) -> Plan {
    let mut evenings: Vec<Evening> = Vec::new();
    for stretches in found.stretches.chunk_by(|a, b| a.evening == b.evening) {
        evenings.extend(evening(work, calendar, stretches));
    }
    let finish = calendar.worked(found.finish);
    let evenings_in = |time: Seconds| if time > 0 { calendar.evening_of(time) as u64 + 1 } else { 0 };
    Plan {
        evenings,
        kits: work.kits.clone(),
        longest: Time::seconds(u32::try_from(calendar.longest()).unwrap_or(u32::MAX)),
        hands_on: work.passes.iter().map(|pass| work.hands_on(pass)).sum(),
        changing: found.changing,
        takes_evenings: evenings_in(finish),
        least_evenings: evenings_in(bound),
        finish,
        bound,
    }
}

fn evening(work: &Workload, calendar: &Calendar, stretches: &[Stretch]) -> Option<Evening> {
    let at = stretches.first()?.evening;
    let clock = |moment| calendar.clock(at, moment);
    let block = |stretch: &Stretch| {
        Some(Block { start: clock(stretch.start), end: clock(stretch.end), task: task(work, stretch, &clock)? })
    };
    let blocks = with_waits(work, stretches.iter().filter_map(block), clock(calendar.start(at)));
    let over = blocks.last().map_or(0, |block| block.end);
    Some(Evening {
        number: at + 1,
        date: calendar.date(at),
        from: clock(calendar.start(at)),
        to: clock(calendar.end(at)),
        resting: resting(&blocks, over),
        blocks,
    })
}

fn task(work: &Workload, stretch: &Stretch, clock: &impl Fn(Seconds) -> u32) -> Option<Task> {
    Some(match stretch.deed {
        Deed::Paint { pass, from, to } => {
            let pass = work.passes.get(pass)?;
            Task::Paint {
                unit: pass.unit,
                step: pass.step,
                coat: pass.coat,
                first: from + 1,
                last: to,
                kit: pass.kit,
                dry: clock(stretch.end + pass.rest),
            }
        }
        Deed::Ready { kit, rinse } => Task::Ready { kit, rinse },
        Deed::Strip { next } => Task::Strip { next },
    })
}

/// The blocks of an evening, with the waits between them.
fn with_waits(work: &Workload, blocks: impl Iterator<Item = Block>, from: u32) -> Vec<Block> {
    let mut all: Vec<Block> = Vec::new();
    let mut free = from;
    for block in blocks {
        if Seconds::from(block.start.saturating_sub(free)) >= work.habits.worth_a_line {
            all.push(Block { start: free, end: block.start, task: Task::Wait });
        }
        free = block.end;
        all.push(block);
    }
    all
}

/// One coat on models that were done one after the other.
#[derive(Debug, Clone, Copy)]
struct Wet {
    unit: usize,
    step: usize,
    first: u32,
    last: u32,
    coat: u32,
    /// When the last of the models is dry.
    dry: u32,
    /// How much earlier the model before another is.
    each: u32,
}

impl Wet {
    /// What a later coat of the same step leaves of it: the models before those that got it, and those after them.
    fn beside(self, later: Self) -> impl Iterator<Item = Self> {
        let is_same = (self.unit, self.step) == (later.unit, later.step);
        let front = Self { last: self.last.min(later.first.saturating_sub(1)), ..self };
        let dry = front.dry.saturating_sub(self.each.saturating_mul(self.last - front.last));
        let back = Self { first: self.first.max(later.last.saturating_add(1)), ..self };
        let pieces = if is_same { [Some(Self { dry, ..front }), Some(back)] } else { [Some(self), None] };
        pieces.into_iter().flatten().filter(|piece| piece.first <= piece.last)
    }
}

/// What still dries at a moment: for each step and its models the last coat only.
fn resting(blocks: &[Block], over: u32) -> Vec<Resting> {
    let mut wet: Vec<Wet> = Vec::new();
    for block in blocks {
        let Task::Paint { unit, step, coat, first, last, dry, .. } = block.task else { continue };
        let each = (block.end - block.start).checked_div(last - first + 1).unwrap_or_default();
        let laid = Wet { unit, step, first, last, coat, dry, each };
        wet = wet.into_iter().flat_map(|earlier| earlier.beside(laid)).collect();
        wet.push(laid);
    }
    let rest = |Wet { unit, step, first, last, coat, dry, .. }: Wet| {
        let rests = Time::seconds(dry.checked_sub(over).filter(|rests| *rests > 0)?);
        Some(Resting { unit, step, first, last, coat, rests })
    };
    wet.into_iter().filter_map(rest).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// One coat of the first step on some models, 60 s for each, which dries for an hour.
    fn coat(start: u32, coat: u32, first: u32, last: u32) -> Block {
        let end = start + 60 * (last - first + 1);
        Block { start, end, task: Task::Paint { unit: 0, step: 0, coat, first, last, kit: 0, dry: end + 3600 } }
    }

    /// What rests after some blocks: coat, first and last model, and the seconds.
    fn rests(blocks: &[Block]) -> Vec<(u32, u32, u32, u32)> {
        let rests = resting(blocks, blocks.last().unwrap().end);
        rests.iter().map(|rest| (rest.coat, rest.first, rest.last, rest.rests.as_seconds())).collect()
    }

    #[test]
    fn models_that_a_second_coat_did_not_reach_still_dry() {
        let first = coat(0, 1, 1, 24);
        // The first coat ends at 1440 s; the second, on some of the models only, from then on.
        assert_eq!(rests(&[first, coat(1440, 2, 1, 6)]), [(1, 7, 24, 3600 - 360), (2, 1, 6, 3600)]);
        // Model 18 was done 360 s before model 24.
        assert_eq!(rests(&[first, coat(1440, 2, 19, 24)]), [(1, 1, 18, 3600 - 720), (2, 19, 24, 3600)]);
        assert_eq!(
            rests(&[first, coat(1440, 2, 7, 12)]),
            [(1, 1, 6, 3600 - 360 - 18 * 60), (1, 13, 24, 3600 - 360), (2, 7, 12, 3600)]
        );
        assert_eq!(rests(&[first, coat(1440, 2, 1, 24)]), [(2, 1, 24, 3600)]);
    }

    #[test]
    fn what_is_dry_and_what_is_beside_is_left_as_it_is() {
        let first = coat(0, 1, 1, 6);
        assert_eq!(rests(&[first, coat(360, 1, 7, 12)]), [(1, 1, 6, 3600 - 360), (1, 7, 12, 3600)]);
        // The first six are dry when the second coat on others ends.
        assert_eq!(rests(&[first, coat(5000, 1, 7, 12)]), [(1, 7, 12, 3600)]);
    }
}
