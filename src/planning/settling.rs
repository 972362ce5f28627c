//! Settling days by whole spells: a spell moved, lengthened, shortened, left today; and what then has to be planned round.
//!
//! Plain values from farm and plan: nothing is changed here, and nothing before today is touched. Civil days.

use thiserror::Error;

use super::farm_season::{SeasonPlan, Stand};
use crate::farm::{Closed, Edit, Farm, FixedPlace, Grazing, GroundId, MobId};
use crate::quantity::Day;

/// A mob's run of days on one piece, as settled or else as planned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RunningSpell {
    /// The mob.
    pub mob: MobId,
    /// Where it stands.
    pub ground: GroundId,
    /// First day.
    pub first: Day,
    /// Last day.
    pub last: Day,
}

/// Where and when a spell should be instead.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SpellWish {
    /// Where.
    pub ground: GroundId,
    /// First day.
    pub first: Day,
    /// Last day.
    pub last: Day,
}

/// A day on which a mob should be somewhere else than on this piece; where, the planner finds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct KeepOff {
    /// The mob.
    pub mob: MobId,
    /// Not here.
    pub ground: GroundId,
    /// On this day.
    pub day: Day,
}

/// Days to be settled or freed, and days to be kept off.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Settling {
    /// Each day with its new place, `None` to free it.
    pub fixed: Vec<((MobId, Day), Option<FixedPlace>)>,
    /// Days whose place the planner must find elsewhere.
    pub keep_off: Vec<KeepOff>,
}

/// Why a spell cannot be as wished.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum SettlingError {
    /// It would change what has been.
    #[error("What lies before today stays as it was.")]
    Past,
    /// Nothing is left of it.
    #[error("A spell has at least one day.")]
    Empty,
    /// The day is logged.
    #[error("{} is logged already: free it first.", .0.short_text())]
    Lived(Day),
    /// The mob is away.
    #[error("{who} are not on the farm on {}.", .day.short_text())]
    Away {
        /// The mob's name.
        who: String,
        /// The day.
        day: Day,
    },
}

/// Where a mob is on a day: as settled, else as planned.
pub fn settled_stand(farm: &Farm, plan: &SeasonPlan, mob: MobId, day: Day) -> Stand {
    let is_here = farm.mobs.get(&mob).is_some_and(|mob| mob.is_here(day));
    match farm.fixed.get(&(mob, day)) {
        Some(fixed) if is_here => fixed.place.map_or(Stand::Yard, Stand::On),
        _ => plan.stand_on(mob, day),
    }
}

impl RunningSpell {
    /// The spell of a mob that holds a day; none where it stands on no piece.
    pub fn at(farm: &Farm, plan: &SeasonPlan, mob: MobId, day: Day) -> Option<Self> {
        let Stand::On(ground) = settled_stand(farm, plan, mob, day) else {
            return None;
        };
        let holds = |day: Day| settled_stand(farm, plan, mob, day) == Stand::On(ground);
        let last_planned = plan.day_at(plan.days.saturating_sub(1));
        let (mut first, mut last) = (day, day);
        while first > plan.first_day && holds(first.plus_days(-1)) {
            first = first.plus_days(-1);
        }
        while last < last_planned && holds(last.plus_days(1)) {
            last = last.plus_days(1);
        }
        Some(Self {
            mob,
            ground,
            first,
            last,
        })
    }

    /// As it is.
    pub const fn as_wish(&self) -> SpellWish {
        SpellWish {
            ground: self.ground,
            first: self.first,
            last: self.last,
        }
    }

    /// What has to be settled for it to be as wished. The days it gives up on its own piece are kept off it, so that it
    /// is really shorter or later; where the mob goes on them is the planner's to find.
    ///
    /// # Errors
    /// Where it would change the past or a logged day, or have the mob where it is not.
    pub fn moved(
        &self,
        farm: &Farm,
        wish: SpellWish,
        today: Day,
    ) -> Result<Settling, SettlingError> {
        if wish.first > wish.last {
            return Err(SettlingError::Empty);
        }
        let keeps_past = wish.ground == self.ground && wish.first == self.first;
        if wish.first < today && !keeps_past || wish.last < today {
            return Err(SettlingError::Past);
        }
        let mut settling = Settling::default();
        for day in days(wish.first.max(today), wish.last) {
            self.check_free(farm, day)?;
            let place = FixedPlace {
                place: Some(wish.ground),
                lived: false,
            };
            settling.fixed.push(((self.mob, day), Some(place)));
        }
        let is_left = |day: &Day| !(wish.first..=wish.last).contains(day);
        for day in days(self.first.max(today), self.last).filter(is_left) {
            self.check_free(farm, day)?;
            if farm.fixed.contains_key(&(self.mob, day)) {
                settling.fixed.push(((self.mob, day), None));
            }
            if wish.ground == self.ground {
                settling.keep_off.push(KeepOff {
                    mob: self.mob,
                    ground: self.ground,
                    day,
                });
            }
        }
        Ok(settling)
    }

    fn check_free(&self, farm: &Farm, day: Day) -> Result<(), SettlingError> {
        let mob = farm.mobs.get(&self.mob);
        if !mob.is_some_and(|mob| mob.is_here(day)) {
            let who = mob.map_or_else(String::new, |mob| mob.name.clone());
            return Err(SettlingError::Away { who, day });
        }
        match farm.fixed.get(&(self.mob, day)) {
            Some(fixed) if fixed.lived => Err(SettlingError::Lived(day)),
            _ => Ok(()),
        }
    }
}

impl Settling {
    /// Leaves a piece on a day for wherever the planner finds best.
    ///
    /// # Errors
    /// Where the mob is not here that day or the day is logged.
    pub fn leaving(farm: &Farm, spell: RunningSpell, day: Day) -> Result<Self, SettlingError> {
        spell.check_free(farm, day)?;
        let is_fixed = farm.fixed.contains_key(&(spell.mob, day));
        Ok(Self {
            fixed: is_fixed
                .then_some(((spell.mob, day), None))
                .into_iter()
                .collect(),
            keep_off: vec![KeepOff {
                mob: spell.mob,
                ground: spell.ground,
                day,
            }],
        })
    }

    /// The edits that settle it, with the days kept off settled where a plan of [`with_settled`] has the mob.
    pub fn edits(&self, farm: &Farm, planned: &SeasonPlan) -> Vec<Edit> {
        let found = self.keep_off.iter().filter_map(|off| {
            let place = match planned.stand_on(off.mob, off.day) {
                Stand::Away => return None,
                Stand::Yard => None,
                Stand::On(ground) => Some(ground),
            };
            let place = FixedPlace {
                place,
                lived: false,
            };
            Some(((off.mob, off.day), Some(place)))
        });
        let mut wanted: std::collections::BTreeMap<_, _> = self.fixed.iter().copied().collect();
        wanted.extend(found);
        let edits = wanted.into_iter().map(|(key, new)| Edit::Fixed {
            key,
            old: farm.fixed.get(&key).copied(),
            new,
        });
        edits.filter(|edit| !edit.is_idle()).collect()
    }
}

/// The farm with days settled, and the days that are kept off a piece closed there.
pub fn with_settled(farm: &Farm, settling: &Settling) -> Farm {
    let mut farm = farm.clone();
    for (key, place) in &settling.fixed {
        match place {
            Some(place) => farm.fixed.insert(*key, *place),
            None => farm.fixed.remove(key),
        };
    }
    for off in &settling.keep_off {
        farm.fixed.remove(&(off.mob, off.day));
        if let Some(ground) = farm.ground.get_mut(&off.ground) {
            let grazing = ground.grazing.get_or_insert_with(Grazing::default);
            grazing.closed.push(Closed {
                from: off.day,
                to: off.day,
                why: String::new(),
            });
        }
    }
    farm
}

fn days(first: Day, last: Day) -> impl Iterator<Item = Day> {
    (0..=last.days_since(first)).map(move |step| first.plus_days(step))
}
