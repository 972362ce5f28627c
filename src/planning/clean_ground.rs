//! Ground that must be clear of animals for a crop: from the last allowed day to the end of its harvest.
//!
//! Follows from the course, the figures of the crops and the rule that the grower chose; what was closed by hand is
//! not looked at here. Days are civil days.

mod hens_beside;

pub use hens_beside::{FruitLine, HensOnClean, fruit_lines, hens_on_clean};

use super::DaySpan;
use crate::farm::{
    Contact, Courses, CropFigures, Family, Farm, GroundId, HarvestWait, Kind, RuleFacts, Use,
    cell_at, course_grounds, crop_figures,
};
use crate::quantity::Day;

/// A crop of a year on a piece of ground, with the days that animals must keep.
#[derive(Debug, Clone, PartialEq)]
pub struct CleanCrop {
    /// The plot, ley or tunnel.
    pub ground: GroundId,
    /// The year of its first harvest.
    pub year: i16,
    /// Its place in the year, 0 the main crop.
    pub crop: u8,
    /// The crop.
    pub name: String,
    /// Its family.
    pub family: Family,
    /// How near the eaten part comes to the soil.
    pub contact: Contact,
    /// Sown or planted out.
    pub planted: Day,
    /// First picked.
    pub first_harvest: Day,
    /// Last picked.
    pub last_harvest: Day,
    /// The last day on which animals may stand here, by each of what asks for it.
    pub last_by: [(CleanCause, Day); 3],
}

/// What keeps animals off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CleanCause {
    /// Clearing the ground before sowing.
    Clearing,
    /// The wait to the first harvest.
    Harvest,
    /// The wait to sowing or planting.
    Planting,
}

/// Days on which no animal may stand on a piece of ground, and why.
#[derive(Debug, Clone, PartialEq)]
pub struct CleanSpan {
    /// The plot, ley or tunnel.
    pub ground: GroundId,
    /// First and last closed day.
    pub span: DaySpan,
    /// Why, in a sentence without a full stop.
    pub why: String,
}

impl CleanCrop {
    /// The last day on which animals may stand here, and what asks for it; the earliest of all.
    pub fn last_animals(&self) -> (CleanCause, Day) {
        let [first, rest @ ..] = self.last_by;
        rest.into_iter().fold(
            first,
            |least, next| if next.1 < least.1 { next } else { least },
        )
    }

    /// The days on which the ground is closed for this crop.
    pub fn closed(&self) -> DaySpan {
        let first = self.last_animals().1.plus_days(1);
        DaySpan {
            first,
            last: self.last_harvest.max(first),
        }
    }

    /// What asks for the earliest day, in a few words.
    pub fn why_in_short(&self, farm: &Farm) -> String {
        let facts = rule_of(farm);
        match self.last_animals().0 {
            CleanCause::Clearing => {
                format!("{} days to clear the ground", farm.course.days_to_clear())
            }
            CleanCause::Harvest => {
                format!("{} to picking", facts.to_harvest(self.contact).words())
            }
            CleanCause::Planting => {
                format!("{} to planting", facts.to_planting(self.contact).words())
            }
        }
    }

    /// Why the ground is closed: the crop, and what asks for the earliest day.
    pub fn why(&self, farm: &Farm) -> String {
        let facts = rule_of(farm);
        let name = &self.name;
        match self.last_animals().0 {
            CleanCause::Clearing => format!(
                "{name} go in on {}, {} days to clear the ground before",
                day_year(self.planted),
                farm.course.days_to_clear()
            ),
            CleanCause::Harvest => format!(
                "{name} are picked from {}, {} after the last animals ({})",
                day_year(self.first_harvest),
                facts.to_harvest(self.contact).words(),
                facts.source
            ),
            CleanCause::Planting => format!(
                "{name} go in on {}, {} after the last animals ({})",
                day_year(self.planted),
                facts.to_planting(self.contact).words(),
                facts.source
            ),
        }
    }
}

/// `12 June 2028`.
fn day_year(day: Day) -> String {
    format!("{} {}", day.short_text(), day.year())
}

/// The rule that the grower follows, with its waits.
pub fn rule_of(farm: &Farm) -> RuleFacts {
    farm.course.harvest_rule.facts(farm.course.own_wait)
}

/// Every crop of the course whose closed days touch the days from `first` to `last`, by ground and day.
pub fn clean_crops(farm: &Farm, first: Day, last: Day) -> Vec<CleanCrop> {
    let facts = rule_of(farm);
    let mut found = Vec::new();
    if farm.course == Courses::default() {
        return found;
    }
    // The longest waits are years ahead of a harvest, and a harvest may last into the next year.
    let years =
        first.year().saturating_sub(1)..=last.year().saturating_add(years_ahead(farm)).min(2198);
    for ground in course_grounds(farm) {
        for year in years.clone() {
            for crop in 0..Courses::MOST_CROPS_A_YEAR {
                let cell = cell_at(&farm.course, ground, year, crop);
                let Use::Crop { name, family } = cell.used else {
                    continue;
                };
                if cell.is_before_course {
                    continue;
                }
                let made = clean_crop(farm, &facts, (ground, year, crop), name, family);
                let closed = made.closed();
                if closed.first <= last && closed.last >= first {
                    found.push(made);
                }
            }
        }
    }
    found.sort_by_key(|crop| (crop.ground, crop.closed().first, crop.crop));
    found
}

/// Years by which a crop may reach back: planted the autumn before, and the longest wait before that.
fn years_ahead(farm: &Farm) -> i16 {
    let facts = rule_of(farm);
    let longest_days = [facts.touching, facts.clear, facts.planting]
        .map(|wait| match wait {
            HarvestWait::None => 0,
            HarvestWait::Days(days) => i32::from(days),
            HarvestWait::Months(months) => i32::from(months) * 31,
        })
        .into_iter()
        .fold(i32::from(farm.course.days_to_clear()), i32::max);
    i16::try_from(longest_days / 365).unwrap_or(0).min(200) + 2
}

fn clean_crop(
    farm: &Farm,
    facts: &RuleFacts,
    (ground, year, crop): (GroundId, i16, u8),
    name: String,
    family: Family,
) -> CleanCrop {
    let is_south = farm.frame.origin().lat_deg < 0.0;
    let figures = crop_figures(&farm.course, &name, is_south);
    let (planted, first_harvest, last_harvest) = crop_days(&figures, year);
    let contact = figures.contact;
    let clearing = HarvestWait::Days(farm.course.days_to_clear());
    CleanCrop {
        ground,
        year,
        crop,
        name,
        family,
        contact,
        planted,
        first_harvest,
        last_harvest,
        last_by: [
            (CleanCause::Clearing, clearing.last_before(planted)),
            (
                CleanCause::Harvest,
                facts.to_harvest(contact).last_before(first_harvest),
            ),
            (
                CleanCause::Planting,
                facts.to_planting(contact).last_before(planted),
            ),
        ],
    }
}

/// Planted, first and last picked, of a crop whose first harvest falls in `year`: planting is the last such day before
/// the first harvest, the last picking the first such day from it on.
pub fn crop_days(figures: &CropFigures, year: i16) -> (Day, Day, Day) {
    let first_harvest = figures.first_harvest.in_year(year);
    let mut planted = figures.planted.in_year(year);
    if planted > first_harvest {
        planted = figures.planted.in_year(year.saturating_sub(1));
    }
    let mut last_harvest = figures.last_harvest.in_year(year);
    if last_harvest < first_harvest {
        last_harvest = figures.last_harvest.in_year(year.saturating_add(1));
    }
    (planted, first_harvest, last_harvest)
}

/// The days from `first` to `last` on which ground is closed for its crops.
pub fn clean_spans(farm: &Farm, first: Day, last: Day) -> Vec<CleanSpan> {
    clean_crops(farm, first, last)
        .into_iter()
        .map(|crop| CleanSpan {
            ground: crop.ground,
            span: crop.closed(),
            why: crop.why(farm),
        })
        .collect()
}

/// The ground in the course that a piece belongs to: itself, or the ley that it is a strip of.
pub fn course_ground_of(farm: &Farm, id: GroundId) -> GroundId {
    farm.ground
        .get(&id)
        .filter(|ground| ground.kind == Kind::Strip)
        .and_then(|ground| ground.within)
        .unwrap_or(id)
}

/// Settled days on ground that should be clear by then: the days are kept, and this says so.
pub fn settled_on_clean(farm: &Farm, spans: &[CleanSpan]) -> Vec<(GroundId, Day, String)> {
    let mut found = Vec::new();
    for ((_, day), fixed) in &farm.fixed {
        let Some(place) = fixed.place else { continue };
        let ground = course_ground_of(farm, place);
        let span = spans
            .iter()
            .find(|span| span.ground == ground && (span.span.first..=span.span.last).contains(day));
        if let Some(span) = span {
            found.push((place, *day, span.why.clone()));
        }
    }
    found.sort();
    found.dedup();
    found
}
