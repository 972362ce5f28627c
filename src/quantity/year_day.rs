//! A day of any year: a month and a day of it, as crops are planted and harvested by.
//!
//! Knows no year until one is given.

use std::fmt;

use super::Day;
use super::day::MONTH_NAMES;

/// A day of the year, such as 15 May; 29 February is the 28th in a common year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct YearDay {
    month: i8,
    day_of_month: i8,
}

impl YearDay {
    /// The day with this month (1 to 12) and day of the month, if some year has it.
    pub fn new(month: i8, day_of_month: i8) -> Option<Self> {
        // 2028 is a leap year, so 29 February is among its days.
        Day::new(2028, month, day_of_month).map(|day| Self {
            month: day.month(),
            day_of_month: day.day_of_month(),
        })
    }

    /// A day for a table, in a month from 1 to 12; what the month does not have is held inside it.
    pub const fn of(month: i8, day_of_month: i8) -> Self {
        let month = held(month, 12);
        let most = match month {
            2 => 29,
            4 | 6 | 9 | 11 => 30,
            _ => 31,
        };
        Self {
            month,
            day_of_month: held(day_of_month, most),
        }
    }

    /// This day in a year; the end of February where the year has no 29th.
    pub fn in_year(self, year: i16) -> Day {
        (0..4)
            .find_map(|back| Day::new(year, self.month, self.day_of_month - back))
            .unwrap_or(Day::EARLIEST)
    }

    /// The same day half a year on, as seasons fall south of the equator.
    #[must_use]
    pub fn half_a_year_on(self) -> Self {
        let month = if self.month > 6 {
            self.month - 6
        } else {
            self.month + 6
        };
        (0..4)
            .find_map(|back| Self::new(month, self.day_of_month - back))
            .unwrap_or(self)
    }

    /// The month, 1 to 12.
    pub fn month(self) -> i8 {
        self.month
    }

    /// The day of the month.
    pub fn day_of_month(self) -> i8 {
        self.day_of_month
    }

    /// Reads what a person types: `15 may`, `15/5`, `05-15`.
    pub fn parse_typed(text: &str) -> Option<Self> {
        if let Some((month, day)) = text.trim().split_once('-')
            && let (Ok(month), Ok(day)) = (month.parse(), day.parse())
        {
            return Self::new(month, day);
        }
        // Near a leap year, so that 29 February is understood.
        let day = Day::parse_typed(text, Day::new(2028, 1, 1)?)?;
        Self::new(day.month(), day.day_of_month())
    }
}

const fn held(value: i8, most: i8) -> i8 {
    if value < 1 {
        1
    } else if value > most {
        most
    } else {
        value
    }
}

/// `15 May`.
impl fmt::Display for YearDay {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let month = usize::try_from(self.month - 1)
            .ok()
            .and_then(|month| MONTH_NAMES.get(month));
        write!(
            formatter,
            "{} {}",
            self.day_of_month,
            month.copied().unwrap_or("")
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_29th_of_february_is_the_28th_in_a_common_year() {
        let leap = YearDay::new(2, 29);
        assert_eq!(
            leap.map(|day| day.in_year(2027).to_string()).as_deref(),
            Some("2027-02-28")
        );
        assert_eq!(
            leap.map(|day| day.in_year(2028).to_string()).as_deref(),
            Some("2028-02-29")
        );
        assert_eq!(YearDay::new(2, 30), None);
    }

    #[test]
    fn a_day_is_read_as_people_write_it() {
        for text in ["15 May", "may 15", "15/5", "05-15"] {
            assert_eq!(YearDay::parse_typed(text), YearDay::new(5, 15), "{text}");
        }
        assert_eq!(YearDay::parse_typed("leeks"), None);
    }

    #[test]
    fn a_day_of_a_table_is_held_inside_its_month() {
        for (month, most) in [(1, 31), (2, 29), (4, 30), (12, 31)] {
            assert_eq!(YearDay::of(month, most), YearDay::of(month, 99));
            assert_eq!(Some(YearDay::of(month, most)), YearDay::new(month, most));
            assert_eq!(YearDay::new(month, most + 1), None);
        }
    }

    #[test]
    fn half_a_year_on_and_on_again_is_the_same_day() {
        let may = YearDay::of(5, 15);
        assert_eq!(may.half_a_year_on(), YearDay::of(11, 15));
        assert_eq!(may.half_a_year_on().half_a_year_on(), may);
    }
}
