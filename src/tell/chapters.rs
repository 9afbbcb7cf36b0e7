//! The chapters of a scheme's video: as `WebVTT` (W3C) for players, and as the plain list that goes below a video.

use std::fmt::Write as _;

use crate::guide::Scheme;
use crate::source::VideoTime;

/// How long the last chapter is said to be, in seconds: nobody here knows where the video ends, and players stop there anyway.
const LAST: u32 = 3600;

/// Where a chapter begins, and what it is called.
type Chapter = (VideoTime, String);

/// Whether any step says where in the video it is shown.
pub(crate) fn has_chapters(scheme: &Scheme) -> bool {
    scheme.steps.iter().any(|step| step.video.is_some())
}

/// The chapters as `WebVTT`, in the language of the guide.
pub(crate) fn track(scheme: &Scheme, language: &str) -> String {
    vtt(&chapters(scheme), language)
}

/// The chapters as a list to paste.
pub(crate) fn list(scheme: &Scheme) -> String {
    plain(&chapters(scheme))
}

/// The chapters in the order of the video. The first begins with it; steps that begin at the same second are one chapter.
fn chapters(scheme: &Scheme) -> Vec<Chapter> {
    let timed = scheme.steps.iter().filter_map(|step| Some((step.video?, one_line(&step.title))));
    let mut timed: Vec<Chapter> = timed.collect();
    timed.sort_by_key(|(time, _)| *time);
    let mut chapters: Vec<Chapter> = Vec::new();
    if timed.first().is_some_and(|(time, _)| *time > VideoTime(0)) {
        chapters.push((VideoTime(0), one_line(&scheme.title)));
    }
    for (time, title) in timed {
        match chapters.last_mut().filter(|(last, _)| *last == time) {
            Some((_, titles)) => *titles = format!("{titles}; {title}"),
            None => chapters.push((time, title)),
        }
    }
    chapters
}

/// A text on one line, without anything that is not seen.
fn one_line(text: &str) -> String {
    let seen: String = text.chars().filter(|letter| !crate::report::wording::is_hidden(*letter)).collect();
    seen.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn vtt(chapters: &[Chapter], language: &str) -> String {
    let mut text = format!("WEBVTT\nKind: chapters\nLanguage: {}\n", one_line(language));
    let ends = chapters.iter().skip(1).map(|(time, _)| time.0);
    let last = chapters.last().map(|(time, _)| time.0.saturating_add(LAST));
    for (at, ((start, title), end)) in chapters.iter().zip(ends.chain(last)).enumerate() {
        let title = title.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
        // Writing to a string can't fail.
        let _ = write!(text, "\n{}\n{} --> {}\n{title}\n", at + 1, stamp(start.0), stamp(end));
    }
    text
}

fn stamp(seconds: u32) -> String {
    format!("{:02}:{:02}:{:02}.000", seconds / 3600, seconds / 60 % 60, seconds % 60)
}

fn plain(chapters: &[Chapter]) -> String {
    chapters.iter().map(|(time, title)| format!("{time} {title}\n")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn some() -> Vec<Chapter> {
        vec![
            (VideoTime(0), "Warden".to_owned()),
            (VideoTime(35), "Wash & dry --> <b>".to_owned()),
            (VideoTime(3725), "Gold".to_owned()),
        ]
    }

    #[test]
    fn a_track_has_times_that_follow_each_other_and_titles_that_are_no_markup() {
        let expected = "WEBVTT\nKind: chapters\nLanguage: en\n\n\
            1\n00:00:00.000 --> 00:00:35.000\nWarden\n\n\
            2\n00:00:35.000 --> 01:02:05.000\nWash &amp; dry --&gt; &lt;b&gt;\n\n\
            3\n01:02:05.000 --> 02:02:05.000\nGold\n";
        assert_eq!(vtt(&some(), "en"), expected);
    }

    #[test]
    fn a_list_to_paste_has_one_line_a_chapter() {
        assert_eq!(plain(&some()), "0:00 Warden\n0:35 Wash & dry --> <b>\n1:02:05 Gold\n");
    }

    #[test]
    fn a_title_stays_on_its_line() {
        assert_eq!(one_line(" two\n\nlines \u{202e}here "), "two lines here");
    }
}
