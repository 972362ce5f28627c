//! The season as people ask of it: who stands where on a day, how tall the grass is, when a strip has rested.
//!
//! A reading of a finished plan in the farm's own numbers; it finds nothing itself. Days are civil days, covers
//! kg DM/ha on the morning.

use std::collections::BTreeMap;

use crate::farm::{Farm, Finding, GroundId, HenHouseId, MobId};
use crate::quantity::Day;

use super::clean_ground::{CleanSpan, course_ground_of};
use super::hen_walk::HenWalk;

/// A planned season of one farm.
#[derive(Debug, Clone, PartialEq)]
pub struct SeasonPlan {
    /// First planned day.
    pub first_day: Day,
    /// Planned days.
    pub days: usize,
    /// For each mob and day: not here, in the yard, or on a piece of ground.
    pub stands: BTreeMap<MobId, Vec<Stand>>,
    /// For each mob and day: feed that is short, kg DM.
    pub short_kg: BTreeMap<MobId, Vec<f64>>,
    /// For each piece: cover on each morning, one more than there are days, kg DM/ha.
    pub cover: BTreeMap<GroundId, Vec<f64>>,
    /// For each piece: net grazable area as the planner has it, hectares.
    pub area_ha: BTreeMap<GroundId, f64>,
    /// For each mob and day: metres walked from the place of the day before.
    pub walked_m: BTreeMap<MobId, Vec<f64>>,
    /// For each hen house that can walk: its walk.
    pub hens: BTreeMap<HenHouseId, HenWalk>,
    /// What is to be mended about those walks.
    pub hen_findings: Vec<Finding>,
    /// Ground that is closed for a crop of the course, and why.
    pub clean: Vec<CleanSpan>,
    /// What had to be assumed, in sentences.
    pub assumptions: Vec<String>,
    /// Breaches by lived days, in sentences.
    pub warnings: Vec<String>,
    /// The figure the planner makes small (kg DM and its equivalents).
    pub score: f64,
    /// Why each move is as it is, by mob and day index.
    pub why: BTreeMap<(MobId, usize), Vec<String>>,
}

/// Where a mob is on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stand {
    /// Not on the farm.
    Away,
    /// In the yard.
    Yard,
    /// On a ley or strip.
    On(GroundId),
}

/// A run of days on one piece of ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spell {
    /// The mob.
    pub mob: MobId,
    /// First day index.
    pub from: usize,
    /// Last day index.
    pub to: usize,
}

impl SeasonPlan {
    /// The index of a day, where it is planned.
    pub fn index_of(&self, day: Day) -> Option<usize> {
        usize::try_from(day.days_since(self.first_day))
            .ok()
            .filter(|index| *index < self.days)
    }

    /// The day with an index.
    pub fn day_at(&self, index: usize) -> Day {
        self.first_day.plus_days(i64::try_from(index).unwrap_or(0))
    }

    /// Where a mob is on a day.
    pub fn stand_on(&self, mob: MobId, day: Day) -> Stand {
        self.index_of(day)
            .map_or(Stand::Away, |index| self.stand_at(mob, index))
    }

    /// Where a mob is on the day with an index.
    pub fn stand_at(&self, mob: MobId, index: usize) -> Stand {
        self.stands
            .get(&mob)
            .and_then(|days| days.get(index))
            .copied()
            .unwrap_or(Stand::Away)
    }

    /// Metres a mob walks to its place on the day with an index, straight.
    pub fn walk_m(&self, mob: MobId, index: usize) -> f64 {
        self.walked_m
            .get(&mob)
            .and_then(|days| days.get(index))
            .copied()
            .unwrap_or(0.0)
    }

    /// The mobs on a piece of ground on a day.
    pub fn mobs_on(&self, ground: GroundId, day: Day) -> Vec<MobId> {
        self.stands
            .keys()
            .copied()
            .filter(|mob| self.stand_on(*mob, day) == Stand::On(ground))
            .collect()
    }

    /// Cover on the morning of a day, kg DM/ha.
    pub fn cover_on(&self, ground: GroundId, day: Day) -> Option<f64> {
        self.cover.get(&ground)?.get(self.index_of(day)?).copied()
    }

    /// Every run of days on a piece of ground, in order.
    pub fn spells_of(&self, ground: GroundId) -> Vec<Spell> {
        let mut spells: Vec<Spell> = Vec::new();
        for (mob, days) in &self.stands {
            for (index, stand) in days.iter().enumerate() {
                if *stand != Stand::On(ground) {
                    continue;
                }
                match spells.last_mut() {
                    Some(last) if last.mob == *mob && last.to + 1 == index => last.to = index,
                    _ => spells.push(Spell {
                        mob: *mob,
                        from: index,
                        to: index,
                    }),
                }
            }
        }
        spells.sort_by_key(|spell| (spell.from, spell.mob));
        spells
    }

    /// The run of days that holds a day, on the ground where the mob stands then.
    pub fn spell_at(&self, mob: MobId, index: usize) -> Option<(GroundId, Spell)> {
        let Stand::On(ground) = self.stand_at(mob, index) else {
            return None;
        };
        let spell = self
            .spells_of(ground)
            .into_iter()
            .find(|s| s.mob == mob && (s.from..=s.to).contains(&index))?;
        Some((ground, spell))
    }

    /// The next place the mob goes to after a day, with its day index.
    pub fn next_move(&self, mob: MobId, index: usize) -> Option<(usize, Stand)> {
        let now = self.stand_at(mob, index);
        (index + 1..self.days)
            .map(|later| (later, self.stand_at(mob, later)))
            .find(|(_, stand)| *stand != now)
    }

    /// Full days since the last spell on a piece of ground ended, as the morning of a day finds it; `None` where
    /// nothing has stood there in this season, 0 where something stood there the day before.
    pub fn days_since_grazed(&self, ground: GroundId, index: usize) -> Option<usize> {
        self.spells_of(ground)
            .iter()
            .filter(|spell| spell.to < index)
            .map(|spell| index - spell.to - 1)
            .min()
    }

    /// The first span from a day on for which a piece is closed for a crop, and the days until it begins; 0 on its days.
    pub fn next_clean(&self, farm: &Farm, piece: GroundId, day: Day) -> Option<(&CleanSpan, i64)> {
        let ground = course_ground_of(farm, piece);
        self.clean
            .iter()
            .filter(|span| span.ground == ground && span.span.last >= day)
            .map(|span| (span, span.span.first.days_since(day).max(0)))
            .min_by_key(|(_, days)| *days)
    }

    /// Feed short on a day over all mobs, kg DM.
    pub fn short_on(&self, index: usize) -> f64 {
        self.short_kg
            .values()
            .filter_map(|days| days.get(index))
            .sum()
    }
}
