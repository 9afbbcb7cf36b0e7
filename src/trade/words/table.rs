//! A table of words and what they mean, and how it is looked up in a text.

use std::collections::HashMap;

use unicode_normalization::UnicodeNormalization as _;

/// Words that say that something is not used or not done.
const NEGATIONS: &[&str] = &[
    "no", "not", "never", "without", "don", "instead", "kein", "keine", "keinen", "nicht", "nie", "ohne", "statt",
    "pas", "jamais", "sans", "ni", "nunca", "sin",
];

/// The most words of a phrase.
const LONGEST: usize = 4;

/// Words and phrases with their meanings.
#[derive(Debug)]
pub(super) struct Table<M> {
    phrases: HashMap<String, M>,
    /// The first words of phrases, each with how many words the longest of them has: most words of a text begin none, and
    /// are looked up alone.
    firsts: HashMap<String, usize>,
    beginnings: Vec<(String, M)>,
    endings: Vec<(String, M)>,
}

impl<M: Copy> Table<M> {
    /// A table from its file; `meaning` reads the first column.
    pub(super) fn read(file: &str, meaning: impl Fn(&str) -> Option<M>) -> Self {
        let mut table =
            Self { phrases: HashMap::new(), firsts: HashMap::new(), beginnings: Vec::new(), endings: Vec::new() };
        let lines = file.lines().filter(|line| !line.starts_with('#')).filter_map(|line| line.split_once('\t'));
        for (name, words) in lines {
            let Some(meaning) = meaning(name) else { continue };
            for (word, folded) in words.split(',').map(str::trim).flat_map(spellings) {
                if word.starts_with('-') {
                    table.endings.push((folded, meaning));
                } else if word.ends_with('-') {
                    table.phrases.insert(folded.clone(), meaning);
                    table.beginnings.push((folded, meaning));
                } else {
                    table.phrases.insert(folded, meaning);
                }
            }
        }
        for phrase in table.phrases.keys() {
            let words = phrase.split(' ').count();
            let first = phrase.split(' ').next().unwrap_or_default().to_owned();
            let longest = table.firsts.entry(first).or_default();
            *longest = words.max(*longest);
        }
        table
    }

    /// What a text says: every word or phrase, the longest first, with what it means if it is known.
    pub(super) fn look<'a>(&self, words: &'a [String]) -> Vec<(&'a [String], Option<M>)> {
        let mut found = Vec::new();
        let mut rest = words;
        while !rest.is_empty() {
            let longest =
                rest.first().and_then(|first| self.firsts.get(first)).map_or(1, |words| (*words).min(LONGEST));
            let lengths = (1..=rest.len().min(longest)).rev();
            let known = lengths.into_iter().find_map(|count| {
                let phrase = rest.get(..count)?;
                Some((count, self.meaning(phrase)?))
            });
            let (count, meaning) = known.map_or((1, None), |(count, meaning)| (count, Some(meaning)));
            let (phrase, behind) = rest.split_at(count);
            found.push((phrase, meaning));
            rest = behind;
        }
        found
    }

    fn meaning(&self, phrase: &[String]) -> Option<M> {
        let [word] = phrase else { return self.phrases.get(&phrase.join(" ")).copied() };
        if let Some(known) = self.phrases.get(word) {
            return Some(*known);
        }
        let ends = self.endings.iter().find(|(ending, _)| word.ends_with(ending.as_str()));
        let begins = || self.beginnings.iter().find(|(beginning, _)| word.starts_with(beginning.as_str()));
        ends.or_else(begins).map(|(_, meaning)| *meaning)
    }
}

impl<M: Copy> Table<(M, bool)> {
    /// A table in which a meaning with `?` behind it counts in names alone: in a sentence the word may be something else.
    pub(super) fn of_names(file: &str, meanings: &[M], name: impl Fn(M) -> &'static str) -> Self {
        Self::read(file, |known| {
            let word = meanings.iter().copied().find(|one| name(*one) == known.trim_end_matches('?'))?;
            Some((word, !known.ends_with('?')))
        })
    }

    /// What the words of a name or a sentence say, in their order.
    pub(super) fn said(&self, words: &[String], is_name: bool) -> Vec<M> {
        let meanings = self.look(words).into_iter().filter_map(|(_, meaning)| meaning);
        meanings.filter(|(_, anywhere)| *anywhere || is_name).map(|(meaning, _)| meaning).collect()
    }
}

/// The sentences of a text that say no to nothing, as their words: one that does names nothing that is used or done.
pub(super) fn affirmed(text: &str) -> impl Iterator<Item = Vec<String>> {
    let says_no = |words: &[String]| words.iter().any(|word| NEGATIONS.contains(&word.as_str()));
    text.split(['.', '!', '?', ';', ':', '\n']).map(words_of).filter(move |words| !says_no(words))
}

/// A word as it is looked up, and with its German vowels spelled in two letters, as ids have them: `loetkolben`.
fn spellings(word: &str) -> impl Iterator<Item = (&str, String)> {
    let whole = word.to_lowercase().nfc().collect::<String>();
    let spelled = whole.replace('ä', "ae").replace('ö', "oe").replace('ü', "ue");
    let spelled = (spelled != whole).then(|| words_of(&spelled).join(" "));
    std::iter::once(words_of(word).join(" ")).chain(spelled).map(move |folded| (word, folded))
}

/// The words of a text in small letters and without accents.
pub(super) fn words_of(text: &str) -> Vec<String> {
    let folded = if text.is_ascii() { text.to_ascii_lowercase() } else { without_accents(text) };
    folded.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty()).map(str::to_owned).collect()
}

fn without_accents(text: &str) -> String {
    let plain: String = text.nfd().filter(|letter| !unicode_normalization::char::is_combining_mark(*letter)).collect();
    plain.to_lowercase().replace('ß', "ss")
}
