//! Lines no wider than the terminal.

/// The words of `text` in lines of at most `width` columns, each line indented; a longer word has a line to itself. Units
/// and signs stay with what stands before them.
#[must_use]
pub fn fold(text: &str, indent: usize, width: usize) -> String {
    let margin = " ".repeat(indent);
    let (mut out, mut line) = (String::new(), String::new());
    for word in words(text) {
        if !line.is_empty() && indent + line.chars().count() + 1 + word.chars().count() > width {
            out.push_str(&format!("{margin}{line}\n"));
            line.clear();
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(&word);
    }
    if !line.is_empty() {
        out.push_str(&format!("{margin}{line}\n"));
    }
    out
}

fn words(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match words.last_mut() {
            Some(last) if word.starts_with(['°', '%', '·', '→']) => {
                last.push(' ');
                last.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

/// The same text in at most `width` columns, with a sign where it was cut.
pub(crate) fn cut(text: &str, width: usize) -> String {
    if text.chars().count() <= width {
        return text.to_owned();
    }
    text.chars().take(width.saturating_sub(1)).chain(['…']).collect()
}

#[cfg(test)]
mod tests {
    use super::{cut, fold};

    #[test]
    fn lines_keep_to_the_width_and_lose_no_word() {
        let text = "the bush makes more heat than it gets rid of, extraordinarily so";
        for width in 12..70 {
            let folded = fold(text, 2, width);
            assert!(folded.lines().all(|line| line.chars().count() <= width.max(18)), "{width}: {folded}");
            assert_eq!(folded.split_whitespace().collect::<Vec<_>>(), text.split_whitespace().collect::<Vec<_>>());
        }
        assert_eq!(fold("", 2, 20), "");
        assert_eq!(fold("left in the cold of -30 °C", 0, 24), "left in the cold of\n-30 °C\n");
    }

    #[test]
    fn what_is_cut_says_so() {
        assert_eq!((cut("idler", 5).as_str(), cut("idlers", 5).as_str()), ("idler", "idle…"));
    }
}
