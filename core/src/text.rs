//! Text that is fit to be shown: names go to terminals, tables, pages and pictures as they are.

/// True of text with nothing in it that a terminal, a table or a page acts upon instead of showing it: no control characters
/// (Unicode's category Cc), no ends of lines or paragraphs, and nothing that turns the direction of what follows (the
/// explicit formatting characters of Unicode Standard Annex 9).
#[must_use]
pub fn is_plain(text: &str) -> bool {
    !text.chars().any(|c| {
        let acts = matches!(c, '\u{2028}' | '\u{2029}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
        c.is_control() || acts
    })
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
}
