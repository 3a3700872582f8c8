//! Text from a spec never becomes a command to the terminal.

/// The same text with control and direction-changing characters shown as harmless ones of the same length in bytes.
#[must_use]
pub fn clean(text: &str) -> String {
    text.chars().fold(String::with_capacity(text.len()), |mut out, letter| {
        let harmless = matches!(letter, '\n' | '\t' | '\r');
        if (letter.is_control() && !harmless) || hidden(letter) {
            match letter.len_utf8() {
                3 => out.push('\u{fffd}'),
                length => out.extend(std::iter::repeat_n('?', length)),
            }
        } else {
            out.push(letter);
        }
        out
    })
}

/// Letters that turn the direction of writing, end a line, or are not seen; and two that XML does not allow.
fn hidden(letter: char) -> bool {
    matches!(letter,
        '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200b}'..='\u{200f}' | '\u{61c}'
        | '\u{2028}' | '\u{2029}' | '\u{feff}' | '\u{fffe}' | '\u{ffff}' | '\u{e0000}'..='\u{e007f}')
}

/// A name of the spec, short enough for a line.
pub(crate) fn short(name: &str) -> String {
    const MOST: usize = 80;
    let name = clean(name).replace(['\n', '\r', '\t'], " ");
    if name.chars().count() <= MOST { name } else { name.chars().take(MOST).chain(['…']).collect() }
}

#[cfg(test)]
mod tests {
    use super::clean;

    #[test]
    fn escape_codes_and_turned_text_lose_their_power_and_keep_their_length() {
        let text = "a\u{1b}[31mred\u{202e}txt\u{9b}x";
        let cleaned = clean(text);
        assert_eq!(cleaned, "a?[31mred\u{fffd}txt??x");
        assert_eq!(cleaned.len(), text.len());
    }
}
