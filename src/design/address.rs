//! Web addresses that become links: only what a booklet's reader expects to open.

use crate::diagnostic::shown;

/// Schemes that a link may have.
const SCHEMES: [&str; 3] = ["https", "http", "mailto"];

/// The address a link goes to: `willow.example` is reached by https.
#[must_use]
pub fn link_to(address: &str) -> String {
    match scheme(address) {
        Some(_) => address.to_owned(),
        None => format!("https://{address}"),
    }
}

/// What is wrong with an address that becomes a link, and what to do about it.
pub(super) fn wrong_link(address: &str) -> Option<(String, &'static str)> {
    let odd = |c: char| c.is_whitespace() || matches!(c, '\\' | '<' | '>' | '"');
    match scheme(address).filter(|scheme| !is_expected(scheme)) {
        Some(scheme) => Some(unexpected(scheme)),
        None => address.contains(odd).then(|| ("this is not the address of a page".to_owned(), HINT)),
    }
}

/// What is wrong with a line that need not hold an address, but of which a reader's program may make links.
pub(super) fn wrong_line(line: &str) -> Option<(String, &'static str)> {
    line.match_indices("://")
        .map(|(at, _)| line[..at].rsplit(|c| !in_scheme(c)).next().unwrap_or(""))
        .find(|scheme| !is_expected(scheme))
        .map(unexpected)
}

const HINT: &str = "give a page as in `willow.example/shop` or `https://willow.example`, or an address of mail as in `mailto:hello@willow.example`";

fn unexpected(scheme: &str) -> (String, &'static str) {
    let message = format!(
        "a link to `{}:` cannot stand in a booklet: it may open something on the reader's own machine",
        shown(scheme)
    );
    (message, HINT)
}

fn is_expected(scheme: &str) -> bool {
    SCHEMES.iter().any(|known| scheme.eq_ignore_ascii_case(known))
}

fn in_scheme(c: char) -> bool {
    c.is_ascii_alphanumeric() || matches!(c, '+' | '-' | '.')
}

/// The scheme of an address (RFC 3986, 3.1). `willow.example:8080` is a host with a port.
fn scheme(address: &str) -> Option<&str> {
    let (scheme, rest) = address.split_once(':')?;
    let is_scheme = scheme.starts_with(|c: char| c.is_ascii_alphabetic()) && scheme.chars().all(in_scheme);
    let is_port = rest.split('/').next().is_some_and(|port| port.parse::<u16>().is_ok());
    (is_scheme && !is_port).then_some(scheme)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_without_a_scheme_is_reached_by_https() {
        for (address, link) in [
            ("willow.example", "https://willow.example"),
            ("willow.example:8080/shop", "https://willow.example:8080/shop"),
            ("http://willow.example", "http://willow.example"),
            ("HTTPS://willow.example", "HTTPS://willow.example"),
            ("mailto:hello@willow.example", "mailto:hello@willow.example"),
        ] {
            assert_eq!((wrong_link(address), link_to(address).as_str()), (None, link));
        }
    }

    #[test]
    fn nothing_else_becomes_a_link() {
        for address in [
            "file:///etc/passwd",
            "smb://host/share",
            "FILE:x",
            "javascript:alert(1)",
            "data:text/html,x",
            r"\\host\share",
            "a b",
        ] {
            assert!(wrong_link(address).is_some(), "{address}");
        }
        assert!(wrong_line("our shop: smb://host/share").is_some());
        assert!(wrong_line("Tel:+49 30 000000, or https://willow.example").is_none());
    }
}
