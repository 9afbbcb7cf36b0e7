//! A table of words and what they mean, and how it is looked up in a text.

use rustc_hash::{FxHashMap, FxHashSet};
use unicode_normalization::UnicodeNormalization as _;

/// Whether a word says that something is not used or not done.
// Every word of a guide is asked: as a pattern most are told by their length alone.
fn says_no(word: &str) -> bool {
    matches!(
        word,
        "no" | "not" | "never" | "without" | "don" | "instead" // English
            | "kein" | "keine" | "keinen" | "nicht" | "nie" | "ohne" | "statt" // German
            | "pas" | "jamais" | "sans" | "ni" // French
            | "nunca" | "sin" // Spanish
    )
}

/// Those of them that stand before what is not used, so that what stands before them is: `in spirit without rubbing`.
const WITHOUT: &[&str] = &["without", "instead", "ohne", "statt", "sans", "sin"];

/// Words that begin a thought of its own within a sentence.
pub(super) const JOINTS: &[&str] = &["and", "but", "und", "aber", "sondern", "et", "mais", "y", "pero", "sino"];

/// The most words of a phrase.
const LONGEST: usize = 5;

/// Words and phrases with their meanings.
#[derive(Debug)]
pub(super) struct Table<M> {
    /// Phrases of two words and more.
    phrases: FxHashMap<String, M>,
    /// The first words of phrases, so that each word of a text is looked up once: most begin none.
    firsts: FxHashMap<String, First<M>>,
    beginnings: Vec<(String, M)>,
    endings: Vec<(String, M)>,
    /// The bytes with which one of the endings ends, and those with which one of the beginnings begins.
    outer: [ByteSet; 2],
}

/// What begins with a word.
#[derive(Debug)]
struct First<M> {
    /// What it means alone.
    alone: Option<M>,
    /// How many words the longest phrase has that it begins.
    longest: usize,
    /// The second words of those phrases: most words that follow are none, and no phrase need be put together.
    seconds: FxHashSet<String>,
}

/// Some of all bytes.
#[derive(Debug)]
struct ByteSet([bool; 256]);

impl ByteSet {
    fn of(bytes: impl Iterator<Item = u8>) -> Self {
        let mut set = Self([false; 256]);
        bytes.for_each(|byte| set.0[usize::from(byte)] = true);
        set
    }

    fn has(&self, byte: Option<&u8>) -> bool {
        byte.is_some_and(|byte| self.0[usize::from(*byte)])
    }
}

impl Table<()> {
    /// A table in which all words mean one thing; that is its first column.
    pub(super) fn of_one(file: &str, meaning: &str) -> Self {
        Self::read(file, |name| (name == meaning).then_some(()))
    }

    /// Whether a text holds one of its words.
    pub(super) fn is_in(&self, text: &str) -> bool {
        self.look(&words(&folded(text))).into_iter().any(|(_, meaning)| meaning.is_some())
    }
}

impl<M: Copy> Table<M> {
    /// A table from its file; `meaning` reads the first column.
    pub(super) fn read(file: &str, meaning: impl Fn(&str) -> Option<M>) -> Self {
        let (mut phrases, mut beginnings, mut endings) = (FxHashMap::default(), Vec::new(), Vec::new());
        let lines = file.lines().filter(|line| !line.starts_with('#')).filter_map(|line| line.split_once('\t'));
        for (name, words) in lines {
            let Some(meaning) = meaning(name) else { continue };
            for (word, folded) in words.split(',').map(str::trim).flat_map(spellings) {
                if word.starts_with('-') {
                    endings.push((folded, meaning));
                } else if word.ends_with('-') {
                    phrases.insert(folded.clone(), meaning);
                    beginnings.push((folded, meaning));
                } else {
                    phrases.insert(folded, meaning);
                }
            }
        }
        let mut firsts: FxHashMap<String, First<M>> = FxHashMap::default();
        for phrase in phrases.keys() {
            let mut words = phrase.split(' ');
            let word = words.next().unwrap_or_default();
            let first = firsts.entry(word.to_owned()).or_insert_with(|| First {
                alone: phrases.get(word).copied(),
                longest: 1,
                seconds: FxHashSet::default(),
            });
            first.longest = phrase.split(' ').count().max(first.longest);
            first.seconds.extend(words.next().map(str::to_owned));
        }
        phrases.retain(|phrase, _| phrase.contains(' '));
        let outer = [
            ByteSet::of(endings.iter().filter_map(|(ending, _)| ending.bytes().last())),
            ByteSet::of(beginnings.iter().filter_map(|(beginning, _)| beginning.bytes().next())),
        ];
        Self { phrases, firsts, beginnings, endings, outer }
    }

    /// What a text says: every word or phrase, the longest first, with what it means if it is known.
    pub(super) fn look<'a, 't>(&self, words: &'a [&'t str]) -> Vec<(&'a [&'t str], Option<M>)> {
        let mut found = Vec::with_capacity(words.len());
        let mut rest = words;
        while let Some(word) = rest.first() {
            let first = self.firsts.get(*word);
            let goes_on = |first: &&First<M>| rest.get(1).is_some_and(|next| first.seconds.contains(*next));
            let longest = first.filter(goes_on).map_or(1, |first| first.longest.min(LONGEST));
            let phrase = (2..=rest.len().min(longest)).rev().find_map(|count| {
                let phrase = rest.get(..count)?.join(" ");
                Some((count, *self.phrases.get(&phrase)?))
            });
            let alone = || first.and_then(|first| first.alone).or_else(|| self.by_its_parts(word));
            let (count, meaning) = phrase.map_or_else(|| (1, alone()), |(count, meaning)| (count, Some(meaning)));
            let (phrase, behind) = rest.split_at(count);
            found.push((phrase, meaning));
            rest = behind;
        }
        found
    }

    /// What a word means by its ending or its beginning.
    fn by_its_parts(&self, word: &str) -> Option<M> {
        let [ends, begins] = &self.outer;
        let by_ending = || self.endings.iter().find(|(ending, _)| word.ends_with(ending.as_str()));
        let by_beginning = || self.beginnings.iter().find(|(beginning, _)| word.starts_with(beginning.as_str()));
        let (first, last) = (word.as_bytes().first(), word.as_bytes().last());
        let ends = if ends.has(last) { by_ending() } else { None };
        let begins = || if begins.has(first) { by_beginning() } else { None };
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
    pub(super) fn said(&self, words: &[&str], is_name: bool) -> Vec<M> {
        let meanings = self.look(words).into_iter().filter_map(|(_, meaning)| meaning);
        meanings.filter(|(_, anywhere)| *anywhere || is_name).map(|(meaning, _)| meaning).collect()
    }
}

/// The sentences of a folded text as far as they say no to nothing, as their words: what stands behind a no, or in one
/// thought with it, is neither used nor done. The Greek question mark is a semicolon by then.
pub(super) fn affirmed(folded: &str) -> impl Iterator<Item = Vec<&str>> {
    let said = |sentence| {
        let mut said = Vec::new();
        before_a_no(sentence, |thought| said.extend(thought));
        said
    };
    sentences(folded).map(said).filter(|words| !words.is_empty())
}

/// The same, cut at the commas: what is said in one of these thoughts says nothing of the next.
pub(super) fn affirmed_thoughts(folded: &str) -> impl Iterator<Item = Vec<&str>> {
    let said = |sentence| {
        let mut said = Vec::new();
        before_a_no(sentence, |thought| said.push(thought.to_vec()));
        said
    };
    sentences(folded).flat_map(said).filter(|words| !words.is_empty())
}

fn sentences(folded: &str) -> impl Iterator<Item = &str> {
    folded.split(ends_sentence)
}

fn ends_sentence(letter: char) -> bool {
    matches!(letter, '.' | '!' | '?' | ';' | ':' | '\n')
}

/// Hands on the thoughts of a sentence before the one that says no: `in spirit, not in water`, `rinse it and do not rub`.
fn before_a_no<'t>(sentence: &'t str, mut say: impl FnMut(&[&'t str])) {
    for thought in sentence.split(',') {
        let words = words(thought);
        let Some((no, word)) = words.iter().enumerate().find(|(_, word)| says_no(word)) else {
            say(&words);
            continue;
        };
        // 'and do not': a verb may stand between; more words are what is not needed, as in 'knife and saw are not needed'.
        let joint = (no.saturating_sub(2)..no).find(|at| words.get(*at).is_some_and(|word| JOINTS.contains(word)));
        let kept = if WITHOUT.contains(word) { no } else { joint.unwrap_or(0) };
        say(words.get(..kept).unwrap_or_default());
        break;
    }
}

/// A word as it is looked up, and with its German vowels spelled in two letters, as ids have them: `loetkolben`.
fn spellings(word: &str) -> impl Iterator<Item = (&str, String)> {
    let whole = word.to_lowercase().nfc().collect::<String>();
    let spelled = whole.replace('ä', "ae").replace('ö', "oe").replace('ü', "ue");
    let spelled = (spelled != whole).then(|| words_of(&spelled).join(" "));
    std::iter::once(words_of(word).join(" ")).chain(spelled).map(move |folded| (word, folded))
}

/// A text in small letters and without accents, as [`words`] takes it.
pub(super) fn folded(text: &str) -> String {
    if text.is_ascii() { text.to_ascii_lowercase() } else { without_accents(text) }
}

/// The words of a folded text.
pub(super) fn words(folded: &str) -> Vec<&str> {
    if folded.is_ascii() {
        return parted(folded, folded.bytes().map(|letter| letter.is_ascii_alphanumeric()).enumerate());
    }
    parted(folded, folded.char_indices().map(|(at, letter)| (at, letter.is_alphanumeric())))
}

/// The words of a text of which each letter, by its place, is told whether it is of a word.
fn parted(folded: &str, letters: impl Iterator<Item = (usize, bool)>) -> Vec<&str> {
    // A word of English has five letters and what parts it from the next.
    let mut words = Vec::with_capacity(folded.len() / 6 + 1);
    let mut begun = None;
    for (at, is_of_word) in letters {
        if is_of_word {
            begun = begun.or(Some(at));
        } else if let Some(begun) = begun.take() {
            words.extend(folded.get(begun..at));
        }
    }
    words.extend(begun.and_then(|begun| folded.get(begun..)));
    words
}

/// The words of a text in small letters and without accents.
pub(super) fn words_of(text: &str) -> Vec<String> {
    words(&folded(text)).into_iter().map(str::to_owned).collect()
}

fn without_accents(text: &str) -> String {
    let plain: String = text.nfd().filter(|letter| !unicode_normalization::char::is_combining_mark(*letter)).collect();
    plain.to_lowercase().replace('ß', "ss")
}
