//! A civil day: a date on the wall calendar, with no clock and no time zone.
//!
//! Reads no clock: *today* is always handed in by the caller.

use std::fmt;

use jiff::civil::{Date, Weekday};
use jiff::{Span, Unit};
use thiserror::Error;

/// One day of the civil (Gregorian) calendar, from year 1900 to 2199.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(Date);

/// Why a text is not a day.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum DayError {
    /// Not of the form 2027-05-14.
    #[error("\"{text}\" is not a day: write it as year-month-day, like 2027-05-14")]
    Form {
        /// What stood there.
        text: String,
    },
    /// A day that no calendar has, like 30 February.
    #[error("\"{text}\" is not in the calendar: that month has no such day")]
    NoSuchDay {
        /// What stood there.
        text: String,
    },
    /// Outside 1900 to 2199.
    #[error("\"{text}\" is too far away: years from 1900 to 2199 are understood")]
    TooFar {
        /// What stood there.
        text: String,
    },
}

/// English month names, January first.
pub const MONTH_NAMES: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

const FIRST_YEAR: i16 = 1900;
const LAST_YEAR: i16 = 2199;

impl Day {
    /// The earliest day understood: 1 January 1900.
    pub const EARLIEST: Self = Self(Date::constant(FIRST_YEAR, 1, 1));

    /// The day with this year, month (1 to 12) and day of the month, if the calendar has it.
    pub fn new(year: i16, month: i8, day_of_month: i8) -> Option<Self> {
        if !(FIRST_YEAR..=LAST_YEAR).contains(&year) {
            return None;
        }
        Date::new(year, month, day_of_month).ok().map(Self)
    }

    /// Reads `2027-05-14`.
    ///
    /// # Errors
    /// Says whether the form, the month's length or the year is at fault.
    pub fn parse_iso(text: &str) -> Result<Self, DayError> {
        let form = || DayError::Form {
            text: text.to_owned(),
        };
        let mut parts = text.trim().split('-');
        let (Some(year), Some(month), Some(day), None) =
            (parts.next(), parts.next(), parts.next(), parts.next())
        else {
            return Err(form());
        };
        let all_digits = [year, month, day]
            .iter()
            .all(|part| part.bytes().all(|byte| byte.is_ascii_digit()));
        if year.len() != 4 || month.len() != 2 || day.len() != 2 || !all_digits {
            return Err(form());
        }
        let year: i16 = year.parse().map_err(|_| form())?;
        let month: i8 = month.parse().map_err(|_| form())?;
        let day: i8 = day.parse().map_err(|_| form())?;
        if !(FIRST_YEAR..=LAST_YEAR).contains(&year) {
            return Err(DayError::TooFar {
                text: text.to_owned(),
            });
        }
        Self::new(year, month, day).ok_or_else(|| DayError::NoSuchDay {
            text: text.to_owned(),
        })
    }

    /// Reads what a person types: `2027-05-14`, `14 may`, `may 14`, `14 May 2027`, `14.5.2027`, `14/5`.
    /// Where the year is left out it is the year of `near`.
    pub fn parse_typed(text: &str, near: Self) -> Option<Self> {
        if let Ok(day) = Self::parse_iso(text) {
            return Some(day);
        }
        let words: Vec<&str> = text
            .split(|c: char| !c.is_alphanumeric())
            .filter(|word| !word.is_empty())
            .collect();
        let mut month = None;
        let mut numbers: Vec<i16> = Vec::new();
        for word in &words {
            if let Ok(number) = word.parse::<i16>() {
                numbers.push(number);
            } else if WEEKDAY_NAMES.iter().any(|name| starts_as(name, word)) {
                // "Friday 14 May": the weekday says nothing that the date does not.
            } else {
                let found = MONTH_NAMES.iter().position(|name| starts_as(name, word))?;
                month = i8::try_from(found + 1).ok();
            }
        }
        let mut numbers = numbers.into_iter();
        let day_of_month = i8::try_from(numbers.next()?).ok()?;
        let month = match month {
            Some(month) => month,
            None => i8::try_from(numbers.next()?).ok()?,
        };
        let year = numbers.next().unwrap_or_else(|| near.year());
        if numbers.next().is_some() {
            return None;
        }
        Self::new(year, month, day_of_month)
    }

    /// The day `n` days later (earlier where `n` is below 0), held inside the years understood.
    #[must_use]
    pub fn plus_days(self, n: i64) -> Self {
        let held = n.clamp(-120_000, 120_000);
        let moved = self.0.checked_add(Span::new().days(held)).unwrap_or(self.0);
        let first = Date::constant(FIRST_YEAR, 1, 1);
        let last = Date::constant(LAST_YEAR, 12, 31);
        Self(moved.clamp(first, last))
    }

    /// The day `n` calendar months later (earlier where `n` is below 0); the month's last day where that month is too
    /// short for it, and held inside the years understood.
    #[must_use]
    pub fn plus_months(self, n: i32) -> Self {
        let held = n.clamp(-4_800, 4_800);
        let moved = self
            .0
            .checked_add(Span::new().months(held))
            .unwrap_or(if held < 0 { Date::MIN } else { Date::MAX });
        let first = Date::constant(FIRST_YEAR, 1, 1);
        let last = Date::constant(LAST_YEAR, 12, 31);
        Self(moved.clamp(first, last))
    }

    /// Whole days from `earlier` to this day; below 0 where this day is the earlier one.
    pub fn days_since(self, earlier: Self) -> i64 {
        earlier
            .0
            .until((Unit::Day, self.0))
            .map_or(0, |span| i64::from(span.get_days()))
    }

    /// The year.
    pub fn year(self) -> i16 {
        self.0.year()
    }

    /// The month, 1 to 12.
    pub fn month(self) -> i8 {
        self.0.month()
    }

    /// The month as an index, 0 for January.
    pub fn month_index(self) -> usize {
        usize::try_from(self.0.month() - 1).unwrap_or(0)
    }

    /// The day of the month, from 1.
    pub fn day_of_month(self) -> i8 {
        self.0.day()
    }

    /// The Monday of this day's week.
    #[must_use]
    pub fn monday(self) -> Self {
        self.plus_days(-i64::from(self.0.weekday().to_monday_zero_offset()))
    }

    /// The week of the year (ISO 8601: Monday first, week 1 holds the first Thursday).
    pub fn week(self) -> i8 {
        self.0.iso_week_date().week()
    }

    /// `14 May`.
    pub fn short_text(self) -> String {
        format!("{} {}", self.day_of_month(), self.month_name())
    }

    /// `Friday 14 May 2027`.
    pub fn long_text(self) -> String {
        format!(
            "{} {} {}",
            self.weekday_name(),
            self.short_text(),
            self.year()
        )
    }

    /// `Fri 14 May`.
    pub fn row_text(self) -> String {
        let weekday: String = self.weekday_name().chars().take(3).collect();
        let month: String = self.month_name().chars().take(3).collect();
        format!("{weekday} {} {month}", self.day_of_month())
    }

    /// The English name of the month.
    pub fn month_name(self) -> &'static str {
        MONTH_NAMES.get(self.month_index()).copied().unwrap_or("")
    }

    fn weekday_name(self) -> &'static str {
        let place = match self.0.weekday() {
            Weekday::Monday => 0,
            Weekday::Tuesday => 1,
            Weekday::Wednesday => 2,
            Weekday::Thursday => 3,
            Weekday::Friday => 4,
            Weekday::Saturday => 5,
            Weekday::Sunday => 6,
        };
        WEEKDAY_NAMES.get(place).copied().unwrap_or("")
    }
}

const WEEKDAY_NAMES: [&str; 7] = [
    "Monday",
    "Tuesday",
    "Wednesday",
    "Thursday",
    "Friday",
    "Saturday",
    "Sunday",
];

/// Whether `word` is the beginning of `name`, three letters at least, capitals aside.
fn starts_as(name: &str, word: &str) -> bool {
    word.len() >= 3 && name.to_lowercase().starts_with(&word.to_lowercase())
}

/// `2027-05-14`.
impl fmt::Display for Day {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            formatter,
            "{:04}-{:02}-{:02}",
            self.year(),
            self.month(),
            self.day_of_month()
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> Day {
        Day::parse_iso(text).unwrap_or(Day(Date::constant(1900, 1, 1)))
    }

    #[test]
    fn iso_text_reads_back_as_written() {
        for text in ["2027-05-14", "2028-02-29", "1900-01-01", "2199-12-31"] {
            assert_eq!(day(text).to_string(), text);
        }
    }

    #[test]
    fn faults_are_told_apart() {
        assert!(matches!(
            Day::parse_iso("14 May"),
            Err(DayError::Form { .. })
        ));
        assert!(matches!(
            Day::parse_iso("2027-02-29"),
            Err(DayError::NoSuchDay { .. })
        ));
        assert!(matches!(
            Day::parse_iso("0027-02-09"),
            Err(DayError::TooFar { .. })
        ));
        assert!(matches!(
            Day::parse_iso("2027-5-14"),
            Err(DayError::Form { .. })
        ));
    }

    #[test]
    fn typed_days_take_the_year_of_the_day_in_view() {
        let near = day("2027-04-01");
        for text in [
            "7 may",
            "May 7",
            "7/5",
            "7.5.2027",
            "Friday 7 May 2027",
            "2027-05-07",
        ] {
            assert_eq!(
                Day::parse_typed(text, near),
                Some(day("2027-05-07")),
                "{text}"
            );
        }
        assert_eq!(Day::parse_typed("split", near), None);
        assert_eq!(Day::parse_typed("31 feb", near), None);
    }

    #[test]
    fn calendar_months_end_where_the_month_ends() {
        assert_eq!(day("2026-08-31").plus_months(6), day("2027-02-28"));
        assert_eq!(day("2028-02-29").plus_months(12), day("2029-02-28"));
        assert_eq!(day("2026-04-01").plus_months(4), day("2026-08-01"));
        assert_eq!(day("2026-10-31").plus_months(-1), day("2026-09-30"));
        assert_eq!(day("2199-01-01").plus_months(i32::MAX), day("2199-12-31"));
    }

    #[test]
    fn weeks_begin_on_monday_and_the_first_holds_the_first_thursday() {
        // ISO 8601: 1 January 2027 is a Friday, in week 53 of the year before.
        assert_eq!(
            (day("2027-01-01").week(), day("2027-01-04").week()),
            (53, 1)
        );
        assert_eq!(day("2027-05-14").monday(), day("2027-05-10"));
        assert_eq!(day("2027-05-10").monday(), day("2027-05-10"));
    }

    #[test]
    fn days_count_over_leap_years_and_stay_in_range() {
        assert_eq!(day("2028-03-01").days_since(day("2028-02-01")), 29);
        assert_eq!(day("2027-12-31").plus_days(1), day("2028-01-01"));
        assert_eq!(day("2027-01-01").plus_days(i64::MAX), day("2199-12-31"));
        assert_eq!(day("2027-05-14").long_text(), "Friday 14 May 2027");
    }
}
