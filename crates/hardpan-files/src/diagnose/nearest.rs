//! The known word that a mistyped one is most like.

/// Words longer than this are not compared.
const LONGEST: usize = 40;

/// The nearest of the known words, if it is near enough to be meant.
pub(crate) fn nearest<'w>(word: &str, known: impl IntoIterator<Item = &'w str>) -> Option<&'w str> {
    if word.is_empty() || word.len() > LONGEST {
        return None;
    }
    let plain = plain(word);
    let mut best: Option<(usize, &str)> = None;
    for candidate in known {
        let distance = strsim::damerau_levenshtein(&plain, &self::plain(candidate));
        let allowed = (plain.len().max(candidate.len()) / 3).max(1);
        if distance <= allowed && best.is_none_or(|(least, _)| distance < least) {
            best = Some((distance, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

fn plain(word: &str) -> String {
    word.to_lowercase().replace(['-', ' '], "_")
}

/// Words in a sentence: `a`, `a or b`, `a, b or c`; not more than a reader takes in.
pub(crate) fn list(words: &[&str]) -> String {
    const MOST: usize = 24;
    if let Some(head) = words.get(..MOST).filter(|_| words.len() > MOST) {
        return format!("{} and {} more", head.join(", "), words.len() - MOST);
    }
    match words.split_last() {
        None => String::new(),
        Some((last, [])) => (*last).to_owned(),
        Some((last, head)) => format!("{} or {last}", head.join(", ")),
    }
}
