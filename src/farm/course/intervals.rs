//! How many years a family stays away from a piece of ground, as published.
//!
//! "1 in N" means that N years lie from crop to crop: 2024 and then 2028 is 1 in 4.

use super::{Courses, Family};
use crate::farm::GroundId;

/// Years from crop to crop of a family.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Interval {
    /// The family.
    pub family: Family,
    /// Only this crop of the family, by its first word; the whole family where absent.
    pub crop: Option<&'static str>,
    /// Fewer years than this are too few.
    pub least_years: u8,
    /// Years that are advised.
    pub advised_years: u8,
    /// Title, body, year, section; or "common practice, no source".
    pub source: &'static str,
}

const PEST_GUIDANCE: &str = "Guidance for integrated pest management, prepared for the European Commission, 2009, Table 10, field vegetables \
     (read as quoted)";
const CARROT_SOURCE: &str = "Guidance for integrated pest management, prepared for the European Commission, 2009, Table 10; IOBC-WPRS \
     guideline for Apiaceae, 1 in 6 crop cycles";
const FROM_MEMORY: &str = "general advice, from memory: put your own years in";

/// At this pH and above the shorter of the two published years holds for the cabbage family.
const LIMY_PH: f64 = 7.0;

const fn row(family: Family, least_years: u8, advised_years: u8, source: &'static str) -> Interval {
    Interval {
        family,
        crop: None,
        least_years,
        advised_years,
        source,
    }
}

/// The table; rows of a single crop come before their family's.
pub const INTERVALS: [Interval; 9] = [
    row(Family::Cabbage, 4, 6, PEST_GUIDANCE),
    row(Family::Carrot, 4, 6, CARROT_SOURCE),
    row(Family::Onion, 3, 4, PEST_GUIDANCE),
    row(Family::Daisy, 3, 3, PEST_GUIDANCE),
    row(Family::Beet, 3, 3, PEST_GUIDANCE),
    Interval {
        family: Family::Nightshade,
        crop: Some("potato"),
        least_years: 4,
        advised_years: 6,
        source: FROM_MEMORY,
    },
    row(Family::Nightshade, 3, 4, FROM_MEMORY),
    row(Family::Gourd, 3, 4, FROM_MEMORY),
    row(Family::Pea, 3, 4, FROM_MEMORY),
];

/// What holds for a crop on a piece of ground: the grower's own years, else the table's with the soil's pH looked at.
/// `None` for families that may follow themselves.
pub fn interval_of(
    courses: &Courses,
    ground: GroundId,
    family: Family,
    crop: &str,
) -> Option<Interval> {
    let crop = crop.to_lowercase();
    let published = INTERVALS
        .iter()
        .find(|row| row.family == family && row.crop.is_none_or(|word| crop.starts_with(word)))
        .copied();
    if let Some(own) = courses.own_intervals.get(&family) {
        return (*own > 0).then_some(row(family, *own, *own, "your own figure"));
    }
    let mut interval = published?;
    let is_limy = courses
        .soil_ph
        .get(&ground)
        .is_some_and(|ph| *ph >= LIMY_PH);
    if family == Family::Cabbage && is_limy {
        interval.advised_years = interval.least_years;
    }
    Some(interval)
}
