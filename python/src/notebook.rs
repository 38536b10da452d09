//! Texts as notebooks show them.

/// Text as HTML that keeps its lines.
pub(crate) fn preformatted(text: &str) -> String {
    let escaped = text
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;");
    format!("<pre>{escaped}</pre>")
}
