//! A Markdown file's two halves: the front matter between two lines `---`, and the body.

/// The halves of a file, and where each begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Halves<'a> {
    /// The YAML.
    pub(crate) yaml: &'a str,
    /// The byte at which the YAML begins.
    pub(crate) yaml_start: usize,
    /// The byte at which the body begins; the body is the rest of the file.
    pub(crate) body_start: usize,
}

/// Splits a file, or `None` where there is no front matter with an end.
pub(crate) fn split(text: &str) -> Option<Halves<'_>> {
    let first = text.split_inclusive('\n').next()?;
    if first.trim_end() != "---" {
        return None;
    }
    let yaml_start = first.len();
    let mut at = yaml_start;
    for line in text[yaml_start..].split_inclusive('\n') {
        if line.trim_end() == "---" {
            return Some(Halves { yaml: &text[yaml_start..at], yaml_start, body_start: at + line.len() });
        }
        at += line.len();
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_split_at_its_lines() {
        let text = "---\r\ntitle: A\r\n---\r\nBody --- here\n";
        let halves = split(text).unwrap();
        assert_eq!(halves.yaml, "title: A\r\n");
        assert_eq!(&text[halves.body_start..], "Body --- here\n");
        assert_eq!(split("title: A\n"), None);
        assert_eq!(split("---\ntitle: A\n"), None);
        assert_eq!(split(""), None);
        assert_eq!(split("---\n---").map(|halves| halves.yaml), Some(""));
    }
}
