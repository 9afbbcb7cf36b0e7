//! The evenings on which there is time to paint.
//!
//! Two scales of time meet here: moments, in seconds since the midnight before the first day, through which paint dries;
//! and time at the desk, which runs through the evenings alone, one after the other.

use jiff::{Span, civil};
use num_integer::gcd;

use super::Seconds;
use crate::guide::{EveningDay, Evenings};
use crate::measure::Date;

/// More evenings than this are not planned: five years of two evenings a week.
pub(super) const MOST_EVENINGS: usize = 520;

/// Evenings that are known beyond those, for what dries after the last one.
const BEYOND: usize = 8;

const DAY: Seconds = 86_400;
const WEEK: Seconds = 7 * DAY;

/// The evenings from the first day on.
#[derive(Debug, Clone)]
pub(super) struct Calendar {
    first: civil::Date,
    sessions: Vec<Session>,
    longest: Seconds,
    clipped: Vec<(EveningDay, Seconds)>,
}

/// How work lies in an evening: what it loses before and after, and the measure of which all its turns are multiples.
#[derive(Debug, Clone, Copy)]
pub(super) struct Grain {
    pub(super) lead: Seconds,
    pub(super) trail: Seconds,
    pub(super) turn: Seconds,
}

impl Grain {
    /// Of two kinds of work, either of which may fill an evening.
    pub(super) fn with(self, other: Self) -> Self {
        Self { lead: self.lead.min(other.lead), trail: self.trail.min(other.trail), turn: gcd(self.turn, other.turn) }
    }

    /// The same where changes of tools lie between the turns.
    pub(super) fn loose(self) -> Self {
        Self { lead: 0, trail: self.trail, turn: 1 }
    }

    /// How much of some time whole turns fill.
    fn whole(self, time: Seconds) -> Seconds {
        time - time.checked_rem(self.turn).unwrap_or_default()
    }
}

/// One evening.
#[derive(Debug, Clone, Copy, Default)]
struct Session {
    /// Its day, counted from the first one.
    day: Seconds,
    start: Seconds,
    length: Seconds,
    /// Time at the desk of all evenings before it.
    before: Seconds,
}

impl Calendar {
    /// The evenings of an army; `None` where there are no days or no time. An evening ends where the next begins.
    pub(super) fn of(evenings: &Evenings) -> Option<Self> {
        let week: Vec<(EveningDay, Seconds)> =
            clipped(&evenings.days).into_iter().filter(|(_, length)| *length > 0).collect();
        let first = evenings.first.0;
        let weekday = usize::try_from(first.weekday().to_monday_zero_offset()).unwrap_or_default();
        let off: Vec<i32> = evenings.not.iter().map(|day| days_between(first, day.value.0)).collect();
        let most = (MOST_EVENINGS + BEYOND + off.len()) * 7;
        let mut sessions: Vec<Session> = Vec::new();
        let mut before = 0;
        let days = (0..most).filter(|day| !off.iter().any(|off| usize::try_from(*off) == Ok(*day)));
        for day in days.take_while(|_| !week.is_empty()) {
            let Some((hours, length)) = week.iter().find(|(hours, _)| hours.day.0 == (weekday + day) % 7) else {
                continue;
            };
            let day = day as Seconds;
            sessions.push(Session { day, start: day * DAY + from(hours), length: *length, before });
            before += length;
            if sessions.len() == MOST_EVENINGS + BEYOND {
                break;
            }
        }
        let longest = week.iter().map(|(_, length)| *length).max()?;
        let clipped = week.into_iter().filter(|(hours, length)| *length < asked(hours)).collect();
        (!sessions.is_empty()).then_some(Self { first, sessions, longest, clipped })
    }

    /// How long the longest evening is.
    pub(super) fn longest(&self) -> Seconds {
        self.longest
    }

    /// How long an evening is on average.
    pub(super) fn usual(&self) -> Seconds {
        self.last()
            .before
            .checked_div((self.sessions.len() as Seconds).saturating_sub(1))
            .unwrap_or(self.longest)
            .max(1)
    }

    /// Days of the week whose evenings would run into the next one, and how long they are planned.
    pub(super) fn clipped(&self) -> &[(EveningDay, Seconds)] {
        &self.clipped
    }

    /// On average, how long it is from the beginning of an evening to that of the next.
    pub(super) fn rhythm(&self) -> Seconds {
        let through = self.last().start - self.start(0);
        through.checked_div((self.sessions.len() as Seconds).saturating_sub(1)).unwrap_or(WEEK).max(1)
    }

    fn last(&self) -> Session {
        self.sessions.last().copied().unwrap_or_default()
    }

    /// An evening; those beyond the known ones are a week apart.
    fn session(&self, evening: usize) -> Session {
        self.sessions.get(evening).copied().unwrap_or_else(|| {
            let (last, weeks) = (self.last(), (evening + 1).saturating_sub(self.sessions.len()) as Seconds);
            Session {
                day: last.day + 7 * weeks,
                start: last.start + WEEK * weeks,
                length: last.length,
                before: last.before + last.length * weeks,
            }
        })
    }

    /// When an evening begins.
    pub(super) fn start(&self, evening: usize) -> Seconds {
        self.session(evening).start
    }

    /// When an evening ends.
    pub(super) fn end(&self, evening: usize) -> Seconds {
        let session = self.session(evening);
        session.start + session.length
    }

    /// The first evening that is not over at a moment.
    pub(super) fn evening_at(&self, moment: Seconds) -> usize {
        self.sessions.partition_point(|session| session.start + session.length <= moment)
    }

    /// The time at the desk before a moment.
    pub(super) fn worked(&self, moment: Seconds) -> Seconds {
        let session = self.session(self.evening_at(moment));
        session.before + moment.saturating_sub(session.start).min(session.length)
    }

    /// The moment at which so much time at the desk is over: the end of an evening rather than the start of the next.
    pub(super) fn moment(&self, worked: Seconds) -> Seconds {
        let session = self.session(self.evening_of(worked));
        session.start + worked.saturating_sub(session.before)
    }

    /// The latest moment at which no more time at the desk is over: the start of an evening rather than the end of the one
    /// before.
    pub(super) fn latest(&self, worked: Seconds) -> Seconds {
        let evening = self.sessions.partition_point(|session| session.before + session.length <= worked);
        let session = self.session(evening);
        session.start + worked.saturating_sub(session.before)
    }

    /// The evening on which so much time at the desk is over.
    pub(super) fn evening_of(&self, worked: Seconds) -> usize {
        self.sessions.partition_point(|session| session.before + session.length < worked)
    }

    /// When work is through at the earliest that consists of whole turns and may be cut between them; [`Grain`] says what
    /// every evening loses to it.
    pub(super) fn through(&self, earliest: Seconds, mut takes: Seconds, grain: Grain) -> Seconds {
        for evening in self.evening_at(earliest)..self.sessions.len() {
            let begin = earliest.max(self.start(evening) + grain.lead);
            let holds = grain.whole(self.end(evening).saturating_sub(begin + grain.trail));
            if takes <= holds {
                return begin + takes;
            }
            takes -= holds;
        }
        earliest
    }

    /// The same backwards: when such work must be begun at the latest; `None` where there is no time for it.
    pub(super) fn back_through(&self, latest: Seconds, mut takes: Seconds, grain: Grain) -> Option<Seconds> {
        for evening in (0..=self.evening_at(latest.saturating_sub(1))).rev() {
            let end = latest.min(self.end(evening).saturating_sub(grain.trail));
            let holds = grain.whole(end.saturating_sub(self.start(evening) + grain.lead));
            if takes <= holds {
                return Some(end - takes);
            }
            takes -= holds;
        }
        None
    }

    /// When a piece of work that can't be split may begin at the earliest, if it goes into an evening at all. So much of
    /// the evening's beginning, and so much after the work, is not there for it.
    pub(super) fn begin(&self, earliest: Seconds, (lead, takes, trail): (Seconds, Seconds, Seconds)) -> Seconds {
        let evenings = self.evening_at(earliest)..=self.sessions.len();
        let mut starts = evenings.map(|evening| (evening, earliest.max(self.start(evening) + lead)));
        let fits = |(evening, start): &(usize, Seconds)| start + takes + trail <= self.end(*evening);
        starts.find(fits).map_or(earliest, |(_, start)| start)
    }

    /// When a piece of work that can't be split must begin at the latest; `None` where there was no evening yet.
    pub(super) fn begin_by(
        &self,
        latest_end: Seconds,
        (lead, takes, trail): (Seconds, Seconds, Seconds),
    ) -> Option<Seconds> {
        let latest = latest_end.checked_sub(takes)?;
        let begin = |evening: usize| Some((evening, latest.min(self.end(evening).checked_sub(takes + trail)?)));
        let mut begins = (0..=self.evening_at(latest)).rev().filter_map(begin);
        begins.find(|(evening, begin)| *begin >= self.start(*evening) + lead).map(|(_, begin)| begin)
    }

    /// The day of an evening.
    pub(super) fn date(&self, evening: usize) -> Date {
        self.date_after(self.session(evening).day)
    }

    /// The day of a moment.
    pub(super) fn date_of(&self, moment: Seconds) -> Date {
        self.date_after(moment / DAY)
    }

    fn date_after(&self, days: Seconds) -> Date {
        let span = i64::try_from(days).ok().and_then(|days| Span::new().try_days(days).ok());
        Date(self.first.saturating_add(span.unwrap_or_default()))
    }

    /// What a moment is on the clock of an evening's day, in seconds; after midnight it goes on past 24 hours.
    pub(super) fn clock(&self, evening: usize, moment: Seconds) -> u32 {
        let midnight = self.session(evening).day * DAY;
        u32::try_from(moment.saturating_sub(midnight)).unwrap_or(u32::MAX)
    }
}

/// When an evening begins, in seconds since midnight.
fn from(hours: &EveningDay) -> Seconds {
    Seconds::from(hours.from.0) * 60
}

/// How long an author says that an evening is.
fn asked(hours: &EveningDay) -> Seconds {
    Seconds::from(hours.length.as_seconds())
}

/// Each day with its length: at most until the next evening of the week begins.
fn clipped(days: &[EveningDay]) -> Vec<(EveningDay, Seconds)> {
    let followers = days.iter().cycle().skip(1);
    let clip = |(day, next): (&EveningDay, &EveningDay)| {
        let apart = match (next.day.0 + 7 - day.day.0) % 7 {
            0 => 7,
            apart => apart as Seconds,
        };
        (*day, asked(day).min((apart * DAY + from(next)).saturating_sub(from(day))))
    };
    days.iter().zip(followers).map(clip).collect()
}

/// How many days one date is after another; negative where it is before it.
fn days_between(first: civil::Date, other: civil::Date) -> i32 {
    (other - first).get_days()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Clock, Time, Weekday};
    use crate::report::Placed;

    fn evenings(days: Vec<EveningDay>, not: &[civil::Date]) -> Evenings {
        let place = crate::report::Place::default();
        let not = not.iter().map(|day| Placed::new(Date(*day), place)).collect();
        Evenings { days, first: Date(civil::date(2027, 1, 13)), not, by: None, place }
    }

    fn calendar(days: &[usize], minutes: u32) -> Calendar {
        let alike =
            |day: &usize| EveningDay { day: Weekday(*day), from: Clock(19 * 60), length: Time::from_minutes(minutes) };
        Calendar::of(&evenings(days.iter().map(alike).collect(), &[])).unwrap()
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
        assert_eq!(calendar.begin(calendar.start(0) + 1800, (0, 1800, 0)), calendar.start(0) + 1800);
        assert_eq!(calendar.begin(calendar.start(0) + 1801, (0, 1800, 0)), calendar.start(1));
        assert_eq!(calendar.begin_by(calendar.start(1) + 100, (0, 1800, 0)), Some(calendar.end(0) - 1800));
        assert_eq!(calendar.begin_by(calendar.start(0) + 100, (0, 1800, 0)), None);
    }

    #[test]
    fn evenings_never_overlap() {
        let calendar = calendar(&[0, 1], 2000);
        // Monday's evening ends where Tuesday's begins; Tuesday's has time until the next Monday. The first day is a Wednesday.
        assert_eq!((calendar.end(0), calendar.end(1)), (calendar.start(1), calendar.start(1) + 2000 * 60));
        assert_eq!(
            calendar.clipped().iter().map(|(hours, length)| (hours.day.0, *length)).collect::<Vec<_>>(),
            [(0, DAY)]
        );
    }

    #[test]
    fn days_have_hours_of_their_own_and_days_off_have_none() {
        let day = |day, from: u16, hours: u32| EveningDay {
            day: Weekday(day),
            from: Clock(from * 60),
            length: Time::from_minutes(hours * 60),
        };
        let off = [civil::date(2027, 1, 17), civil::date(2027, 1, 20)];
        let calendar = Calendar::of(&evenings(vec![day(3, 19, 2), day(6, 10, 5)], &off)).unwrap();
        let dates: Vec<String> = (0..4).map(|evening| calendar.date(evening).to_string()).collect();
        assert_eq!(dates, ["2027-01-14", "2027-01-21", "2027-01-24", "2027-01-28"]);
        assert_eq!((calendar.clock(2, calendar.start(2)), calendar.longest()), (36_000, 18_000));
        assert_eq!(calendar.worked(calendar.start(2)), 4 * 3600);
        // Three hours go into no Thursday.
        assert_eq!(calendar.begin(calendar.start(0), (0, 10_800, 0)), calendar.start(2));
        assert_eq!(calendar.begin_by(calendar.end(3), (0, 10_800, 0)), Some(calendar.end(2) - 10_800));
    }
}
