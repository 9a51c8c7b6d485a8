//! What stands on every printed page, for whoever has only some of them in hand: of which job it is, which of
//! how many pages, and on those of a job that does not hold that nothing is built by it.
//!
//! Pages are made by the browser (CSS Paged Media, margin boxes). Texts of callers and makers get into a
//! style sheet there, so whatever is no plain letter or digit is written as its code point.

use std::fmt::Write;

use maud::{Markup, PreEscaped, html};

use crate::drawing::Caption;
use crate::language::Words;
use crate::wire::remarks::Verdict;

use super::{Content, stop};

/// Most characters of the name of a job in the margin.
const MOST_OF_TITLE: usize = 60;

/// Most characters of the reason why a job does not hold.
const MOST_OF_REASON: usize = 130;

/// The style sheet of the margins.
pub fn margins(title: &str, content: &Content<'_>, caption: &Caption, words: &Words) -> Markup {
    let origin = caption.footer.last().map(String::as_str).unwrap_or_default();
    let job = format!("{} · {origin}", cut(title, MOST_OF_TITLE));
    let (page, of) = (text(&format!("{} ", words.page)), text(&format!(" {} ", words.of_pages)));
    let mut style = format!(
        "@page {{ @bottom-left {{ content: {}; font: 7pt sans-serif; width: 85% }} \
         @bottom-right {{ content: {page} counter(page) {of} counter(pages); \
         font: 8pt sans-serif; white-space: nowrap }} }}",
        text(&job)
    );
    if let Some(title) = stop::title(content, words) {
        let reason = match content.verdict {
            Verdict::Fails => format!("\n{}", cut(content.headline, MOST_OF_REASON)),
            Verdict::Incomplete | Verdict::Holds | Verdict::HoldsWithWarnings => String::new(),
        };
        let notice = text(&format!("{title}{reason}"));
        // Writing to a string in memory does not fail.
        let _ = write!(
            style,
            " @page {{ @top-center {{ content: {notice}; font: bold 8.5pt sans-serif; \
             white-space: pre-line; width: 100% }} }}"
        );
    }
    if let Some(warned) = warned(content, words) {
        let warned = text(warned);
        // A box of the margin is laid out anew for pages of either format, so what is drawn from it across
        // the page stands in its middle. Browsers that print no such boxes keep the notice that is fixed;
        // they are told by a property that came after the boxes.
        let _ = write!(
            style,
            " @supports (reading-flow: normal) {{ @media print {{ .every-page {{ display: none }} }} \
             @page {{ @left-middle {{ content: {warned}; font: bold 58pt sans-serif; \
             color: rgb(160 0 0 / .16); white-space: nowrap; text-align: center; \
             width: 186mm; margin-right: -186mm }} }} \
             @page across {{ @left-middle {{ width: 273mm; margin-right: -273mm }} }} }}"
        );
    }
    html! { style { (PreEscaped(style)) } }
}

/// What is said across every page of a job that fails.
fn warned<'a>(content: &Content<'_>, words: &'a Words) -> Option<&'a str> {
    let fails = content.verdict == Verdict::Fails;
    fails.then(|| if content.event.is_some() { words.inspect_across } else { words.stop_across })
}

/// Across every page of a job that fails: that it is not built.
pub fn across(content: &Content<'_>, words: &Words) -> Markup {
    // On the screen the notice stands on top, and readers who listen have heard it there.
    html! {
        @if let Some(warned) = warned(content, words) {
            div .every-page aria-hidden="true" { span { (warned) } }
        }
    }
}

/// So many characters of a text at most.
fn cut(text: &str, most: usize) -> String {
    match text.char_indices().nth(most) {
        Some((end, _)) => format!("{}…", text[..end].trim_end()),
        None => text.to_owned(),
    }
}

/// A text as a string of a style sheet (CSS Syntax 3, 4.3.7): no character of it ends the string, the rule or
/// the element around it.
fn text(of: &str) -> String {
    let mut string = String::from("\"");
    for character in of.chars() {
        if character.is_ascii_alphanumeric() || character == ' ' {
            string.push(character);
        } else {
            let _ = write!(string, "\\{:x} ", u32::from(character));
        }
    }
    string.push('"');
    string
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_text_leaves_its_string() {
        assert_eq!(text("Barn 2"), "\"Barn 2\"");
        let hostile = text("\"}</style><script>\\");
        let inside = &hostile[1..hostile.len() - 1];
        assert!(!inside.contains(['"', '<', '>', '}', '/']), "{hostile}");
        assert!(hostile.starts_with("\"\\22 \\7d \\3c \\2f style"), "{hostile}");
        assert_eq!(text("ü\n"), "\"\\fc \\a \"");
    }

    #[test]
    fn a_long_text_is_cut_between_characters() {
        assert_eq!(cut("Südhang", 3), "Süd…");
        assert_eq!(cut("Südhang", 7), "Südhang");
        assert_eq!(cut("ab cd", 3), "ab…");
    }
}
