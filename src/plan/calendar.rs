//! The evenings on which there is time to paint.
//!
//! Two scales of time meet here: moments, in seconds since the midnight before the first day, through which paint dries;
//! and time at the desk, which runs through the evenings alone, one behind the other.

use jiff::{Span, civil};

use super::Seconds;
use crate::guide::Evenings;
use crate::measure::Date;

const DAY: Seconds = 86_400;
const WEEK: Seconds = 7 * DAY;

/// All evenings, from the first day on, without end.
#[derive(Debug, Clone)]
pub(super) struct Calendar {
    first: civil::Date,
    /// Days from the first day to the evenings of its week.
    days: Vec<Seconds>,
    from: Seconds,
    length: Seconds,
}

impl Calendar {
    /// The evenings of an army; `None` where there are no days or no time. An evening ends where the next begins.
    pub(super) fn of(evenings: &Evenings) -> Option<Self> {
        let first = evenings.first.0;
        let weekday = usize::try_from(first.weekday().to_monday_zero_offset()).unwrap_or_default();
        let mut days: Vec<Seconds> = evenings.days.iter().map(|day| ((day.0 + 7 - weekday) % 7) as Seconds).collect();
        days.sort_unstable();
        days.dedup();
        let from = Seconds::from(evenings.from.0) * 60;
        let shortest = days.iter().zip(days.iter().skip(1)).map(|(a, b)| (b - a) * DAY).min().unwrap_or(WEEK);
        let around = days.first().zip(days.last()).map_or(WEEK, |(first, last)| WEEK + first * DAY - last * DAY);
        let length = Seconds::from(evenings.length.as_seconds()).min(shortest).min(around);
        (!days.is_empty() && length > 0).then_some(Self { first, days, from, length })
    }

    /// How long an evening is.
    pub(super) fn length(&self) -> Seconds {
        self.length
    }

    /// On average, how long it is from the beginning of an evening to that of the next.
    pub(super) fn rhythm(&self) -> Seconds {
        WEEK / (self.days.len().max(1) as Seconds)
    }

    /// When an evening begins.
    pub(super) fn start(&self, evening: usize) -> Seconds {
        let count = self.days.len().max(1);
        let day = self.days.get(evening % count).copied().unwrap_or_default();
        (evening / count) as Seconds * WEEK + day * DAY + self.from
    }

    /// When an evening ends.
    pub(super) fn end(&self, evening: usize) -> Seconds {
        self.start(evening) + self.length
    }

    /// The first evening that is not over at a moment.
    pub(super) fn evening_at(&self, moment: Seconds) -> usize {
        let weeks = usize::try_from(moment.saturating_sub(self.from + self.length) / WEEK).unwrap_or_default();
        let from = weeks.saturating_sub(1).saturating_mul(self.days.len());
        let most = from + 3 * self.days.len();
        (from..most).find(|evening| self.end(*evening) > moment).unwrap_or(most)
    }

    /// The time at the desk before a moment.
    pub(super) fn worked(&self, moment: Seconds) -> Seconds {
        let evening = self.evening_at(moment);
        evening as Seconds * self.length + moment.saturating_sub(self.start(evening)).min(self.length)
    }

    /// The moment at which so much time at the desk is over: the end of an evening rather than the start of the next.
    pub(super) fn moment(&self, worked: Seconds) -> Seconds {
        let whole = worked.saturating_sub(1) / self.length.max(1);
        self.start(usize::try_from(whole).unwrap_or_default()) + (worked - whole * self.length)
    }

    /// When a piece of work that can't be split may begin at the earliest, if it goes into an evening at all.
    pub(super) fn begin(&self, earliest: Seconds, takes: Seconds) -> Seconds {
        let evening = self.evening_at(earliest);
        let start = earliest.max(self.start(evening));
        if start + takes <= self.end(evening) { start } else { self.start(evening + 1) }
    }

    /// When a piece of work that can't be split must begin at the latest; `None` where there was no evening yet.
    pub(super) fn begin_by(&self, latest_end: Seconds, takes: Seconds) -> Option<Seconds> {
        let latest = latest_end.checked_sub(takes)?;
        let evening = self.evening_at(latest);
        let fits = |evening: usize| {
            let begin = latest.min(self.end(evening).checked_sub(takes)?);
            (begin >= self.start(evening)).then_some(begin)
        };
        fits(evening).or_else(|| fits(evening.checked_sub(1)?))
    }

    /// The day of an evening.
    pub(super) fn date(&self, evening: usize) -> Date {
        let days = (self.start(evening) - self.from) / DAY;
        let span = i64::try_from(days).ok().and_then(|days| Span::new().try_days(days).ok()).unwrap_or_default();
        Date(self.first.saturating_add(span))
    }

    /// What a moment is on the clock of an evening's day, in seconds; after midnight it goes on past 24 hours.
    pub(super) fn clock(&self, evening: usize, moment: Seconds) -> u32 {
        let midnight = self.start(evening) - self.from;
        u32::try_from(moment.saturating_sub(midnight)).unwrap_or(u32::MAX)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Clock, Time, Weekday};

    fn calendar(days: &[usize], minutes: u32) -> Calendar {
        let days = days.iter().copied().map(Weekday).collect();
        let first = Date(civil::date(2027, 1, 13));
        Calendar::of(&Evenings {
            days,
            from: Clock(19 * 60),
            length: Time::from_minutes(minutes),
            first,
            place: crate::report::Place::default(),
        })
        .unwrap()
    }

    #[test]
    fn evenings_follow_the_days_of_the_week() {
        // The first day is a Wednesday; there is time on Tuesdays and Thursdays.
        let calendar = calendar(&[1, 3], 120);
        let dates: Vec<String> = (0..4).map(|evening| calendar.date(evening).to_string()).collect();
        assert_eq!(dates, ["2027-01-14", "2027-01-19", "2027-01-21", "2027-01-26"]);
        assert_eq!(calendar.clock(2, calendar.start(2)), 19 * 3600);
    }

    #[test]
    fn moments_and_time_at_the_desk_lead_to_each_other() {
        let calendar = calendar(&[0, 1, 4], 90);
        for worked in [1, 10, 5400, 5401, 10_800, 54_000] {
            assert_eq!(calendar.worked(calendar.moment(worked)), worked);
        }
        assert_eq!(calendar.evening_at(calendar.end(3) - 1), 3);
        assert_eq!(calendar.evening_at(calendar.end(3)), 4);
    }

    #[test]
    fn work_that_cannot_be_split_stays_in_one_evening() {
        let calendar = calendar(&[2], 60);
        assert_eq!(calendar.begin(calendar.start(0) + 1800, 1800), calendar.start(0) + 1800);
        assert_eq!(calendar.begin(calendar.start(0) + 1801, 1800), calendar.start(1));
        assert_eq!(calendar.begin_by(calendar.start(1) + 100, 1800), Some(calendar.end(0) - 1800));
        assert_eq!(calendar.begin_by(calendar.start(0) + 100, 1800), None);
    }

    #[test]
    fn evenings_never_overlap() {
        let calendar = calendar(&[0, 1], 2000);
        assert_eq!(calendar.end(0), calendar.start(1).min(calendar.end(0)));
        assert_eq!(calendar.length(), DAY);
    }
}
