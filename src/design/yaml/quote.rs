//! Writing a text into a YAML file.

use serde_yaml::Value;

/// A text as YAML reads it back: as it is where that is safe (inside braces too), in quotes elsewhere.
pub(crate) fn quoted(text: &str) -> String {
    let plain = text.starts_with(|c: char| c.is_alphabetic())
        && text.ends_with(|c: char| c.is_alphanumeric())
        && text.chars().all(|c| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_' | '\'' | '/'))
        && matches!(serde_yaml::from_str(text), Ok(Value::String(read)) if read == text);
    // A JSON string is a double-quoted YAML scalar (YAML 1.2, 1.3).
    if plain { text.to_owned() } else { serde_json::Value::from(text).to_string() }
}
