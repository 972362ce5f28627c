//! A planned season: where everyone stands, what it comes to, and the lived days that broke a rule.
//!
//! Made from stands by replaying them; knows nothing of how they were found. Masses kg DM, distances metres.

use std::collections::BTreeMap;

use super::replay::{Figures, replay};
use super::rules::{Breach, breaches};
use super::season::{Place, Season, Stands};

/// A season's moves with all their figures.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// Where each mob stands, by mob and day.
    pub stands: Stands,
    /// The sums.
    pub figures: Figures,
    /// Demand not met by grazing, by mob and day, kg DM.
    pub short: Vec<Vec<f64>>,
    /// Cover by strip on each morning, and on the one after the last day, kg DM/ha.
    pub cover: Vec<Vec<f64>>,
    /// Growth lost at the ceiling, by strip, kg DM.
    pub lost: Vec<f64>,
    /// Rules broken by lived days: facts that the plan goes on from.
    pub warnings: Vec<Breach>,
}

impl Plan {
    /// The plan of these stands.
    ///
    /// # Errors
    /// The breaches, where the stands break a rule by more than lived days.
    pub fn from_stands(season: &Season, stands: Stands) -> Result<Self, Vec<Breach>> {
        let lived_out = replay(season, &stands);
        let (warnings, broken): (Vec<_>, Vec<_>) = breaches(season, &stands, &lived_out.cover)
            .into_iter()
            .partition(|breach| breach.lived);
        if !broken.is_empty() {
            return Err(broken);
        }
        Ok(Self {
            stands,
            figures: lived_out.figures,
            short: lived_out.short,
            cover: lived_out.cover,
            lost: lived_out.lost,
            warnings,
        })
    }

    /// Where a mob stands on a day.
    pub fn place(&self, mob: usize, day: usize) -> Place {
        let places = self.stands.get(mob);
        places
            .and_then(|places| places.get(day))
            .copied()
            .unwrap_or(Place::Away)
    }

    /// Demand not met over the season, by mob's name, kg DM.
    pub fn short_by_mob<'a>(&self, season: &'a Season) -> BTreeMap<&'a str, f64> {
        let sums = self.short.iter().map(|days| days.iter().sum());
        let names = season.mobs.iter().map(|mob| mob.name.as_str());
        names.zip(sums).collect()
    }
}
