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

/// The most characters of a name.
pub const LONGEST_NAME: usize = 200;
/// The most characters of a credit, or of a sentence that goes with a hole.
pub const LONGEST_CREDIT: usize = 500;

/// True of a name or a credit that can be shown as it is: plain, and not endless.
#[must_use]
pub fn is_fit(text: &str, longest: usize) -> bool {
    is_plain(text) && text.chars().count() <= longest
}

/// What [`is_fit`] asks of a text, in words.
#[must_use]
pub fn allowed(longest: usize) -> String {
    format!("at most {longest} characters and no control characters")
}

/// A text from elsewhere as it can be shown: what acts is a space, and what is very long is cut.
#[must_use]
pub fn tidied(text: &str, longest: usize) -> String {
    let plain = text.chars().map(|c| if acts(c) { ' ' } else { c });
    let cut: String = plain.take(longest).collect();
    cut.trim().to_owned()
}

/// The most characters of a word, and of a line, of a message: longer ones were given so, and are known by how they begin and end.
const LONGEST_WORD: usize = 90;
const LONGEST_LINE: usize = 1_000;

/// A message as it can be shown, whatever was quoted in it: what acts on a terminal or a page is written as an escape, and of
/// endless words and lines the middle is left out. Lines stay lines.
#[must_use]
pub fn shown(message: &str) -> String {
    let lines: Vec<String> = message.split('\n').map(shown_line).collect();
    lines.join("\n")
}

fn shown_line(line: &str) -> String {
    let mut plain = String::with_capacity(line.len());
    for c in line.chars() {
        if acts(c) {
            plain.extend(c.escape_default());
        } else {
            plain.push(c);
        }
    }
    // The parts of a path are words.
    let words = plain.split_inclusive([' ', '/', '\\']);
    let line: String = words.map(|word| cut(word, LONGEST_WORD)).collect();
    cut(&line, LONGEST_LINE)
}

/// A text without its middle where it is longer than that.
fn cut(text: &str, longest: usize) -> String {
    let count = text.chars().count();
    if count <= longest {
        return text.to_owned();
    }
    let (first, last) = (2 * longest / 3, longest / 3);
    let begin = text.chars().take(first).chain(std::iter::once('…'));
    begin.chain(text.chars().skip(count - last)).collect()
}

/// How a row of a table is told, by its line: as an editor or a spreadsheet shows it, blank lines counted.
#[must_use]
pub fn table_row(line: usize) -> String {
    format!("row {line} (the header is row 1)")
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

    #[test]
    fn of_endless_words_and_lines_the_middle_is_left_out() {
        let digits = format!("x is {:.0}; it must be 0 to 1", 1e308);
        let cut = shown(&digits);
        assert!(cut.starts_with("x is 10") && cut.ends_with("; it must be 0 to 1"));
        assert!(cut.contains('…') && cut.chars().count() < 130, "{cut}");
        let words = format!("name is {:?}; it must be short", "é ".repeat(50_000));
        let cut = shown(&format!("{words}\n{words}"));
        for line in cut.lines() {
            assert!(line.starts_with("name is \"é é") && line.ends_with("it must be short"));
            assert_eq!(line.chars().count(), 1_000);
        }
        for whole in [
            "",
            "\n",
            "a\n\nb\n",
            &"/folder".repeat(30),
            &"word ".repeat(200),
        ] {
            assert_eq!(shown(whole), whole);
        }
    }

    #[test]
    fn texts_from_elsewhere_are_tidied() {
        assert_eq!(tidied(" a\u{1b}[2J\u{202e}b\n", 6), "a [2J");
        for text in ["a\u{1b}", "\u{2028}", "aaaa"] {
            assert!(!is_fit(text, 3) && is_fit(&tidied(text, 3), 3), "{text:?}");
        }
        assert!(is_fit("aaa", 3));
    }
}
