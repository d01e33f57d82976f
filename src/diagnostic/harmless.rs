use std::borrow::Cow;

/// Shown in place of a character that a terminal would obey.
const STAND_IN: char = '·';

/// Whether a character is not shown but obeyed: by a terminal (control characters and escapes, ECMA-48),
/// by what sets lines (invisible line ends), or by what sets the direction of writing (UAX #9, which lets
/// a text look like another). The same for what is no character at all (Unicode, 23.7).
#[must_use]
pub fn is_obeyed(c: char) -> bool {
    matches!(c,
        '\0'..='\u{1f}' | '\u{7f}'..='\u{9f}'
        | '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}'
        | '\u{fdd0}'..='\u{fdef}' | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
        || (c as u32) & 0xfffe == 0xfffe
}

/// A text as it can be shown on a terminal: line ends and tabs stay, what would be obeyed is a dot.
#[must_use]
pub fn harmless(text: &str) -> Cow<'_, str> {
    let obeyed = |c: char| is_obeyed(c) && !matches!(c, '\n' | '\t');
    if text.contains(obeyed) {
        text.chars().map(|c| if obeyed(c) { STAND_IN } else { c }).collect::<String>().into()
    } else {
        text.into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_terminal_would_obey_is_shown_as_a_dot() {
        assert_eq!(harmless("\u{1b}[31mred\u{9b}2J\u{7f}\r\n"), "·[31mred·2J··\n");
        assert_eq!(harmless("birds\u{202e}fdp.exe\u{2066}\u{2028}\u{fffe}\u{1ffff}"), "birds·fdp.exe····");
    }

    #[test]
    fn what_is_shown_stays_as_it_is() {
        let text = "Café\tcrème “№ 7”\n鷺 🪶 e\u{301} \u{ad}\u{200b}\u{a0}";
        assert!(matches!(harmless(text), Cow::Borrowed(same) if same == text));
    }
}
