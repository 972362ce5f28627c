//! Nitrogen, head and room by plot and year, held against published limits.
//!
//! kg N, kg N/ha, head/ha, m². Every figure names its text; local law decides. Only days that are planned or lived in
//! the season count.

mod cautions;
mod checks;

use std::collections::BTreeMap;

pub use cautions::{Caution, mixed_stock_cautions};
pub use checks::{LoadCheck, load_checks};

use super::{HenWalk, SeasonPlan, Stand, course_ground_of};
use crate::farm::{Farm, GroundId, HenHouse, Mob, StockClass, course_grounds, measure_ground};

/// A named set of nitrogen figures; a sum means nothing without its set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum NitrogenSet {
    /// The European organic annex: 13.3 ewes or 230 hens are taken for 170 kg.
    #[default]
    EuOrganic,
    /// England, nitrate vulnerable zones.
    England,
    /// Ireland, nitrates rules.
    Ireland,
}

/// Holding limit, kg N/ha and year, from manure with grazing.
pub const MOST_N_KG_PER_HA: f64 = 170.0;
/// Ewes to the hectare that the European organic annex takes for the limit.
pub const EWES_PER_HA: f64 = 13.3;
/// Laying hens to the hectare that it takes for the limit.
pub const HENS_PER_HA: f64 = 230.0;
/// Where the limit stands.
pub const LIMIT_SOURCE: &str =
    "Council Directive 91/676/EEC (nitrates), Annex III; Regulation (EC) 889/2008, Article 15(1)";
/// Days of a year.
const YEAR_DAYS: f64 = 365.0;
/// The weight from which England's figures call a ewe heavy, kg.
const HEAVY_EWE_KG: f64 = 60.0;

impl NitrogenSet {
    /// Every set.
    pub const ALL: [Self; 3] = [Self::EuOrganic, Self::England, Self::Ireland];

    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::EuOrganic => "EU organic",
            Self::England => "England, nitrate zones",
            Self::Ireland => "Ireland",
        }
    }

    /// The stable word for scripts.
    pub const fn code(self) -> &'static str {
        match self {
            Self::EuOrganic => "eu_organic",
            Self::England => "england",
            Self::Ireland => "ireland",
        }
    }

    /// Where its figures stand, and how sure they are.
    pub const fn source(self) -> &'static str {
        match self {
            Self::EuOrganic => {
                "Regulation (EC) 889/2008, Annex IV: 13.3 ewes (as printed in an act that mirrors it) or 230 laying hens \
                 per ha; weaned lambs as in England"
            }
            Self::England => {
                "Nitrate Pollution Prevention Regulations 2008 (SI 2008/2349), Schedule 1: 33 g a day from 60 kg, 21 g \
                 below, lambs 5.5 g; hens 1.5 g a day (SI 2015/668, from memory)"
            }
            Self::Ireland => {
                "Ireland, nitrates rules as printed in the Irish Farmers Journal, 2021: ewe with lambs 13, ram 9, store \
                 lamb 2.4 kg a year; hens 0.56 kg (Environmental Sciences Europe, 2021, 00554-3, Table 3)"
            }
        }
    }

    /// kg N of one sheep in a year.
    pub fn sheep_kg_a_year(self, class: StockClass, liveweight_kg: f64) -> f64 {
        let is_lamb = class == StockClass::Lambs;
        match self {
            Self::EuOrganic | Self::England if is_lamb => 0.0055 * YEAR_DAYS,
            Self::EuOrganic => MOST_N_KG_PER_HA / EWES_PER_HA,
            Self::England if liveweight_kg < HEAVY_EWE_KG => 0.021 * YEAR_DAYS,
            Self::England => 0.033 * YEAR_DAYS,
            Self::Ireland => match class {
                StockClass::Lambs => 2.4,
                StockClass::Rams => 9.0,
                _ => 13.0,
            },
        }
    }

    /// kg N of one laying hen in a year.
    pub fn hen_kg_a_year(self) -> f64 {
        match self {
            Self::EuOrganic => MOST_N_KG_PER_HA / HENS_PER_HA,
            Self::England => 0.0015 * YEAR_DAYS,
            Self::Ireland => 0.56,
        }
    }

    fn mob_kg_a_day(self, mob: &Mob) -> f64 {
        f64::from(mob.head) * self.sheep_kg_a_year(mob.class, mob.liveweight_kg) / YEAR_DAYS
    }
}

/// What fell in a year on a piece of ground, or on none.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Load {
    /// Nitrogen of sheep, kg.
    pub sheep_kg: f64,
    /// Nitrogen of hens, kg.
    pub hens_kg: f64,
    /// Days of one sheep.
    pub sheep_days: f64,
    /// Days of one hen.
    pub hen_days: f64,
    /// Area, hectares; 0 where it is no area.
    pub area_ha: f64,
}

/// The loads of a season.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Loads {
    /// By year and ground: plots, leys, tunnels; `None` is the yard and what lies outside all of them.
    pub by_ground: BTreeMap<(i16, Option<GroundId>), Load>,
    /// By year, the whole holding over its farmed area.
    pub holding: BTreeMap<i16, Load>,
}

impl Load {
    /// All nitrogen, kg.
    pub fn kg(&self) -> f64 {
        self.sheep_kg + self.hens_kg
    }

    /// kg N/ha; `None` without an area.
    pub fn kg_per_ha(&self) -> Option<f64> {
        (self.area_ha > 0.0).then(|| self.kg() / self.area_ha)
    }

    /// Sheep to the hectare over the year, as if they had been there throughout.
    pub fn sheep_per_ha(&self) -> Option<f64> {
        (self.area_ha > 0.0).then(|| self.sheep_days / YEAR_DAYS / self.area_ha)
    }

    /// Hens to the hectare over the year, as if they had been there throughout.
    pub fn hens_per_ha(&self) -> Option<f64> {
        (self.area_ha > 0.0).then(|| self.hen_days / YEAR_DAYS / self.area_ha)
    }

    fn add(&mut self, other: &Self) {
        self.sheep_kg += other.sheep_kg;
        self.hens_kg += other.hens_kg;
        self.sheep_days += other.sheep_days;
        self.hen_days += other.hen_days;
    }
}

/// The loads of a planned season by a set of figures.
pub fn loads(farm: &Farm, plan: &SeasonPlan, set: NitrogenSet) -> Loads {
    let mut sums = Loads::default();
    let areas: BTreeMap<GroundId, f64> = course_grounds(farm)
        .into_iter()
        .filter_map(|id| {
            Some((
                id,
                measure_ground(farm, farm.ground.get(&id)?).area_m2? / 10_000.0,
            ))
        })
        .collect();
    for (id, mob) in &farm.mobs {
        let day_kg = set.mob_kg_a_day(mob);
        for index in 0..plan.days {
            let place = match plan.stand_at(*id, index) {
                Stand::Away => continue,
                Stand::Yard => None,
                Stand::On(piece) => Some(course_ground_of(farm, piece)),
            };
            let load = Load {
                sheep_kg: day_kg,
                sheep_days: f64::from(mob.head),
                ..Load::default()
            };
            put(&mut sums, (plan.day_at(index).year(), place), &load);
        }
    }
    for (house, walk) in &plan.hens {
        if let Some(house) = farm.hen_houses.get(house) {
            hen_loads(farm, walk, house, set, &mut sums);
        }
    }
    let farmed_ha: f64 = areas.values().sum();
    for ((_, ground), load) in &mut sums.by_ground {
        load.area_ha = ground.and_then(|id| areas.get(&id).copied()).unwrap_or(0.0);
    }
    for ((year, _), load) in &sums.by_ground {
        let whole = sums.holding.entry(*year).or_default();
        whole.add(load);
        whole.area_ha = farmed_ha;
    }
    sums
}

fn hen_loads(farm: &Farm, walk: &HenWalk, house: &HenHouse, set: NitrogenSet, sums: &mut Loads) {
    // Places come round again, so that each is looked for once.
    let ground_of: Vec<Option<GroundId>> = walk
        .places
        .iter()
        .map(|place| {
            course_grounds(farm).into_iter().find(|id| {
                let outline = farm.ground.get(id).and_then(|ground| ground.outline());
                outline.is_some_and(|outline| outline.contains(place.middle))
            })
        })
        .collect();
    for day in &walk.days {
        let ground = day
            .place
            .checked_sub(1)
            .and_then(|place| ground_of.get(place).copied())
            .flatten()
            // What shut-in hens leave stays in the house.
            .filter(|_| !day.is_housed);
        let hens = f64::from(house.birds_on(day.day));
        let load = Load {
            hens_kg: hens * set.hen_kg_a_year() / YEAR_DAYS,
            hen_days: hens,
            ..Load::default()
        };
        put(sums, (day.day.year(), ground), &load);
    }
}

fn put(sums: &mut Loads, key: (i16, Option<GroundId>), load: &Load) {
    sums.by_ground.entry(key).or_default().add(load);
}

/// kg N/ha that a day of hens or sheep leaves on ground, each by itself.
pub fn visit_kg_per_ha(kg_a_day: f64, days: f64, area_m2: f64) -> Option<f64> {
    (area_m2 > 0.0).then(|| kg_a_day * days * 10_000.0 / area_m2)
}
