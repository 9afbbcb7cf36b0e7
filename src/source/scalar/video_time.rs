//! Where in a video something is shown.

use crate::measure::FromText;

/// Seconds from a video's beginning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct VideoTime(pub u32);

impl FromText for VideoTime {
    const EXPECTED: &'static str = "a place in the video such as \"4:10\" or \"1:02:30\", in quotes";
    const EXAMPLE: &'static str = "\"4:10\"";

    fn from_text(text: &str) -> Result<Self, String> {
        let error = || "minutes and seconds have a colon between them".to_owned();
        let parts: Vec<&str> = text.trim().split(':').collect();
        let plain = |part: &&str| !part.is_empty() && part.len() <= 3 && part.bytes().all(|byte| byte.is_ascii_digit());
        if !(2..=3).contains(&parts.len()) || !parts.iter().all(plain) {
            return Err(error());
        }
        let numbers: Vec<u32> = parts.iter().filter_map(|part| part.parse().ok()).collect();
        if numbers.iter().skip(1).any(|number| *number > 59) || parts[1..].iter().any(|part| part.len() != 2) {
            return Err(error());
        }
        Ok(Self(numbers.iter().fold(0, |sum, number| sum * 60 + number)))
    }
}

impl std::fmt::Display for VideoTime {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (hours, minutes, seconds) = (self.0 / 3600, self.0 / 60 % 60, self.0 % 60);
        if hours > 0 { write!(f, "{hours}:{minutes:02}:{seconds:02}") } else { write!(f, "{minutes}:{seconds:02}") }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn video_times_read() {
        assert_eq!(VideoTime::from_text("4:10"), Ok(VideoTime(250)));
        assert_eq!(VideoTime::from_text("1:02:30").unwrap().to_string(), "1:02:30");
        for text in ["250", "4:1", "4:70", ":10", "4:10:"] {
            assert!(VideoTime::from_text(text).is_err(), "{text}");
        }
    }
}
