//! Text that is fit to be shown: names go to terminals, tables, pages and pictures as they are.

/// True of text with nothing in it that a terminal, a table or a page acts upon instead of showing it: no control characters
/// (Unicode's category Cc), no ends of lines or paragraphs, and nothing that turns the direction of what follows (the
/// explicit formatting characters of Unicode Standard Annex 9).
#[must_use]
pub fn is_plain(text: &str) -> bool {
    !text.chars().any(acts)
}

fn acts(c: char) -> bool {
    let turns =
        matches!(c, '\u{2028}' | '\u{2029}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    c.is_control() || turns
}

/// A message as it can be shown, whatever was quoted in it: what acts on a terminal or a page is written as an escape. Lines stay
/// lines.
#[must_use]
pub fn shown(message: &str) -> String {
    let mut shown = String::with_capacity(message.len());
    for c in message.chars() {
        if acts(c) && c != '\n' {
            shown.extend(c.escape_default());
        } else {
            shown.push(c);
        }
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_of_any_language_are_plain_and_what_acts_is_not() {
        for plain in [
            "",
            "The 7th",
            "Möwenbucht",
            "海辺",
            "👩‍🦳 7°",
            "حفرة",
            "a\u{a0}b",
        ] {
            assert!(is_plain(plain), "{plain:?}");
        }
        for acts in [
            "\0",
            "\n",
            "\t",
            "\u{1b}[31m",
            "\u{7f}",
            "\u{9b}",
            "\u{2028}",
            "\u{202e}",
            "\u{2066}",
        ] {
            assert!(!is_plain(&format!("a{acts}b")), "{acts:?}");
        }
    }

    #[test]
    fn what_acts_is_shown_as_an_escape() {
        assert_eq!(shown("é\u{1b}[31m\nb\u{202e}"), "é\\u{1b}[31m\nb\\u{202e}");
    }
}
