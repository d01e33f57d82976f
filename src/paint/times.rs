//! The dates that a file carries. Nothing here reads a clock: the caller hands them in.

use crate::design::Date;

/// Seconds in a day of civil time.
const DAY: i64 = 86_400;

/// When a booklet was made, in seconds since 1970-01-01T00:00:00Z; `None` leaves dates out of the file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Times {
    /// Seconds since the epoch.
    pub made: Option<i64>,
}

impl Times {
    /// The edition's date where there is one, else the time that the caller found in
    /// `SOURCE_DATE_EPOCH` (seconds since 1970, as reproducible-builds.org defines it), else none.
    #[must_use]
    pub fn of(edition: Option<Date>, source_date_epoch: Option<i64>) -> Times {
        Times { made: edition.map(|d| days_from_epoch(d) * DAY).or(source_date_epoch) }
    }

    /// `D:20260731000000Z` (ISO 32000-1, 7.9.4).
    pub(super) fn pdf(self) -> Option<String> {
        let (y, m, d, hh, mm, ss) = self.parts()?;
        Some(format!("D:{y:04}{m:02}{d:02}{hh:02}{mm:02}{ss:02}Z"))
    }

    /// `2026-07-31T00:00:00Z` (ISO 8601, as XMP writes it).
    pub(super) fn iso(self) -> Option<String> {
        let (y, m, d, hh, mm, ss) = self.parts()?;
        Some(format!("{y:04}-{m:02}-{d:02}T{hh:02}:{mm:02}:{ss:02}Z"))
    }

    /// Year, month, day, hour, minute, second; `None` outside the years 1 to 9999, which neither
    /// format can write.
    fn parts(self) -> Option<(i64, i64, i64, i64, i64, i64)> {
        let seconds = self.made?;
        let (day, rest) = (seconds.div_euclid(DAY), seconds.rem_euclid(DAY));
        let (y, m, d) = civil(day);
        (1..=9999).contains(&y).then_some((y, m, d, rest / 3600, rest / 60 % 60, rest % 60))
    }
}

/// Days from 1970-01-01 to a date of the Gregorian calendar. Years are counted from March, so that
/// the leap day ends one; 146,097 days make 400 years (the calendar's own rule).
fn days_from_epoch(date: Date) -> i64 {
    let (month, day) = (i64::from(date.month), i64::from(date.day));
    let year = i64::from(date.year) - i64::from(month <= 2);
    let era = year.div_euclid(400);
    let year_of_era = year.rem_euclid(400);
    let day_of_year = (153 * ((month + 9) % 12) + 2) / 5 + day - 1;
    era * 146_097 + year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year - 719_468
}

/// The reverse of [`days_from_epoch`]: year, month, day.
fn civil(days: i64) -> (i64, i64, i64) {
    let shifted = days + 719_468;
    let era = shifted.div_euclid(146_097);
    let day_of_era = shifted.rem_euclid(146_097);
    let year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36_524 - day_of_era / 146_096) / 365;
    let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let shifted_month = (5 * day_of_year + 2) / 153;
    let day = day_of_year - (153 * shifted_month + 2) / 5 + 1;
    let month = if shifted_month < 10 { shifted_month + 3 } else { shifted_month - 9 };
    (year_of_era + era * 400 + i64::from(month <= 2), month, day)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_edition_date_is_midnight_of_that_day() {
        let t = Times::of(Some(Date { year: 2024, month: 2, day: 29 }), Some(5));
        assert_eq!(t.pdf().as_deref(), Some("D:20240229000000Z"));
        assert_eq!(t.iso().as_deref(), Some("2024-02-29T00:00:00Z"));
    }

    #[test]
    fn a_time_of_the_environment_keeps_its_seconds() {
        // 1,700,000,000 s is 2023-11-14 22:13:20 UTC (`date -u -d @1700000000`).
        assert_eq!(Times::of(None, Some(1_700_000_000)).iso().as_deref(), Some("2023-11-14T22:13:20Z"));
    }

    #[test]
    fn every_day_of_eight_centuries_comes_back() {
        for days in -150_000..150_000 {
            let (y, m, d) = civil(days);
            let date = Date { year: y as i32, month: m as u8, day: d as u8 };
            assert_eq!(days_from_epoch(date), days);
        }
    }

    #[test]
    fn without_either_there_are_no_dates() {
        assert_eq!(Times::of(None, None).pdf(), None);
        assert_eq!(Times { made: Some(i64::MAX) }.pdf(), None);
    }
}
