//! Web addresses that become links: only what a booklet's reader expects to open.

use super::film::SECONDS;
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

/// What is wrong with the address of a film, and what to do about it: only pages of the web, in the characters that
/// addresses are made of (RFC 3986, 2), with no other place to fill in than that for a time.
pub(super) fn wrong_film(address: &str) -> Option<(String, &'static str)> {
    let page = |s: &&str| !["http", "https"].iter().any(|known| s.eq_ignore_ascii_case(known));
    if let Some(scheme) = scheme(address).filter(page) {
        let message = format!("a film is reached by `https:` or `http:`, not by `{}:`", shown(scheme));
        return Some((message, FILM_HINT));
    }
    let rest = address.split_once("://").map_or(address, |(_, rest)| rest);
    let filled = address.replace(SECONDS, "0");
    if let Some(odd) = filled.chars().find(|c| !in_address(*c)) {
        return Some(match odd {
            '{' | '}' => ("only `{seconds}` is filled in in an address".to_owned(), FILM_HINT),
            odd => (format!("an address cannot hold `{}`", shown(&odd.to_string())), ENCODED_HINT),
        });
    }
    let host = rest.split(['/', '?', '#']).next().unwrap_or("");
    (host.is_empty() || host.contains(SECONDS))
        .then(|| ("this is not the address of a page".to_owned(), FILM_HINT))
}

const FILM_HINT: &str = "give the page of the film, as in `https://example.org/film`, or `\"https://example.org/film#t={seconds}\"` where its address takes a time in seconds";
const ENCODED_HINT: &str = "copy the address from your browser, which writes such characters with `%`";

/// Characters that addresses are made of (RFC 3986, 2.2 and 2.3), and `%`.
fn in_address(c: char) -> bool {
    c.is_ascii_alphanumeric() || "-._~:/?#[]@!$&'()*+,;=%".contains(c)
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
    fn a_film_is_a_page_of_the_web() {
        for address in [
            "example.org",
            "https://example.org/film?v=1&t={seconds}",
            "http://example.org:8080/a%20b#t={seconds}",
        ] {
            assert_eq!(wrong_film(address), None, "{address}");
        }
        for address in [
            "mailto:hello@example.org",
            "ftp://example.org",
            "file:///film",
            "javascript:alert(1)",
            "https://",
            "https:///film",
            "https://{seconds}/film",
            "https://example.org/{start}",
            "https://example.org/a b",
            "https://example.org/f\u{fc}r",
            "https://example.org/\u{202e}",
        ] {
            assert!(wrong_film(address).is_some(), "{address}");
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
