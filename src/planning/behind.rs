//! Mobs that come behind others: onto each strip when those before them leave it, in the same order.
//!
//! Two steps. First the season is planned for the mobs in front, which eat for those behind as well and stay so short
//! that each strip has done with both within the longest stay. Then where they stand is fixed, and so is where those
//! behind follow; whatever cannot be kept legal is left free, and the planner finds its place. The model itself knows
//! nothing of this: its rules hold as always. Days are day numbers, masses kg DM.

use std::collections::{BTreeMap, BTreeSet};

use super::contradictions::plainest_stands;
use super::from_farm::FarmProblem;
use super::plan::Plan;
use super::problem::{FixedDay, Problem, ProblemMob, Step};
use super::rules::Breach;
use super::season::{Place, Season};
use crate::farm::{Farm, MobId};
use crate::quantity::{Day, plural_text};

/// How often days that break a rule are freed before all of those behind are.
const MOST_ROUNDS: usize = 200;

/// A mob that comes behind another, by their names in the problem.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Pair {
    front: String,
    behind: String,
    /// It is as many mobs behind the one in front, from 1.
    place: usize,
    days_after: u32,
}

/// The mobs of a problem that come behind others.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Behind {
    pairs: Vec<Pair>,
}

impl Behind {
    /// Those of a farm; none where no mob follows another. What cannot be is said among the assumptions.
    pub(super) fn of(farm: &Farm, made: &mut FarmProblem) -> Option<Self> {
        let names: BTreeMap<MobId, &String> =
            made.mob_of.iter().map(|(name, id)| (*id, name)).collect();
        let mut pairs: Vec<Pair> = Vec::new();
        let mut told = Vec::new();
        for (id, mob) in &farm.mobs {
            let (Some(follows), Some(behind)) = (mob.follows, names.get(id)) else {
                continue;
            };
            let leads = farm.mobs.get(&follows.mob);
            if follows.mob == *id || leads.is_some_and(|front| front.follows.is_some()) {
                told.push(format!(
                    "{behind} cannot come behind a mob that itself comes behind another: planned on its own."
                ));
                continue;
            }
            let Some(front) = names.get(&follows.mob) else {
                continue;
            };
            let before = pairs.iter().filter(|pair| pair.front == **front);
            pairs.push(Pair {
                place: before.count() + 1,
                front: (*front).clone(),
                behind: (*behind).clone(),
                days_after: follows.days_after.max(1),
            });
        }
        made.assumptions.append(&mut told);
        (!pairs.is_empty()).then_some(Self { pairs })
    }

    /// Longest stays of the mobs in front that are worth a try: shared evenly with those behind, and as long as leaves
    /// them a day.
    pub(super) fn stays(&self, longest: u32) -> Vec<u32> {
        let spells = self.spells();
        let after = self.pairs.iter().map(|pair| pair.days_after).min();
        let most = after.unwrap_or(longest).min(longest).max(1);
        let tried = [
            longest / spells,
            longest.div_ceil(spells),
            longest.saturating_sub(spells - 1),
        ];
        let held: BTreeSet<u32> = tried.iter().map(|stay| (*stay).clamp(1, most)).collect();
        held.into_iter().collect()
    }

    /// Mobs that stand on a strip one after the other, at most.
    fn spells(&self) -> u32 {
        let most = self.pairs.iter().map(|pair| pair.place).max().unwrap_or(0);
        u32::try_from(most).unwrap_or(u32::MAX).saturating_add(1)
    }

    /// The problem of the mobs in front: they eat for those behind, and leave each strip to them in time.
    pub(super) fn in_front(&self, problem: &Problem, stay: u32) -> Problem {
        let mut front = problem.clone();
        front.mobs.retain(|mob| !self.is_behind(&mob.name));
        front.fixed.retain(|fixed| !self.is_behind(&fixed.mob));
        // Settled days may stand longer than is wanted here: they are kept as facts.
        for fixed in &mut front.fixed {
            fixed.lived = true;
        }
        for mob in &mut front.mobs {
            let pairs = self.pairs.iter().filter(|pair| pair.front == mob.name);
            let names: Vec<&String> = pairs.map(|pair| &pair.behind).collect();
            let behind = problem.mobs.iter().filter(|mob| names.contains(&&mob.name));
            let behind: Vec<&ProblemMob> = behind.collect();
            if !behind.is_empty() {
                mob.demand = demand_of_all(problem, mob, &behind);
            }
        }
        let others_stay = stay.saturating_mul(self.spells() - 1);
        let others_stay = others_stay.min(problem.longest_stay_days.saturating_sub(1));
        front.longest_stay_days = stay;
        for step in &mut front.rest_days {
            step.value += f64::from(others_stay);
        }
        front
    }

    /// The whole problem with the mobs in front fixed as planned and those behind fixed after them, as far as the rules
    /// allow. What was added is given too, by mob and day, for it is no settled day of the grower's. `stay` is the
    /// longest that the mobs in front were planned with.
    pub(super) fn fixed_after(
        &self,
        problem: &Problem,
        (front, plan): (&Season, &Plan),
        stay: u32,
    ) -> Option<(Problem, Followed)> {
        let mut wanted = self.wanted_days(problem, (front, plan), stay);
        let settled: BTreeSet<(&str, i64)> = problem
            .fixed
            .iter()
            .map(|fixed| (fixed.mob.as_str(), fixed.day.days_since(problem.first_day)))
            .collect();
        wanted.retain(|(mob, day), _| !settled.contains(&(mob.as_str(), *day)));
        let asked = self.count_behind(&wanted);
        for round in 0..=MOST_ROUNDS {
            let mut whole = problem.clone();
            whole
                .fixed
                .extend(wanted.iter().map(|((mob, day), strip)| FixedDay {
                    mob: mob.clone(),
                    day: problem.first_day.plus_days(*day),
                    strip: strip.clone(),
                    lived: false,
                }));
            let season = Season::compile(&whole).ok()?;
            let breaches = match plainest_stands(&season) {
                Err(breaches) => breaches,
                Ok(plainest) => {
                    let followed = Followed {
                        left_free: asked - self.count_behind(&wanted),
                        days: wanted.into_keys().collect(),
                        score: Plan::from_stands(&season, plainest).ok()?.figures.score,
                    };
                    return Some((whole, followed));
                }
            };
            let before = wanted.len();
            if round + 1 == MOST_ROUNDS {
                wanted.retain(|(mob, _), _| !self.is_behind(mob));
            }
            for breach in &breaches {
                self.free(&mut wanted, &season, breach);
            }
            if wanted.len() == before {
                return None;
            }
        }
        None
    }

    /// Frees the day of a mob behind that breaks a rule, or the last one on which such a mob stood on the strip before;
    /// where there is none, for what is settled stands against it, that of the mob in front.
    fn free(&self, wanted: &mut Wanted, season: &Season, breach: &Breach) {
        let Some(mob) = season.mobs.get(breach.mob) else {
            return;
        };
        let own = (mob.name.clone(), breach.day);
        if self.is_behind(&mob.name) && wanted.remove(&own).is_some() {
            return;
        }
        let strip = strip_name(season, breach.place);
        let before = wanted
            .iter()
            .filter(|((name, day), place)| {
                self.is_behind(name) && *day < breach.day && **place == strip && strip.is_some()
            })
            .max_by_key(|((_, day), _)| *day)
            .map(|(key, _)| key.clone());
        wanted.remove(&before.unwrap_or(own));
    }

    fn is_behind(&self, name: &str) -> bool {
        self.pairs.iter().any(|pair| pair.behind == name)
    }

    fn count_behind(&self, wanted: &Wanted) -> usize {
        wanted.keys().filter(|(mob, _)| self.is_behind(mob)).count()
    }

    /// Where everyone should stand: in front as planned, behind on the strip left last.
    fn wanted_days(&self, problem: &Problem, (front, plan): (&Season, &Plan), stay: u32) -> Wanted {
        let mut wanted = Wanted::new();
        for (mob, stands) in front.mobs.iter().zip(&plan.stands) {
            let pairs: Vec<&Pair> = self
                .pairs
                .iter()
                .filter(|pair| pair.front == mob.name)
                .collect();
            if pairs.is_empty() {
                continue;
            }
            for (day, place) in (0_i64..).zip(stands) {
                if *place != Place::Away {
                    wanted.insert((mob.name.clone(), day), strip_name(front, *place));
                }
            }
            let left = strips_left(stands);
            for pair in pairs {
                for (day, strip) in behind_days(&left, pair.place, stay) {
                    let date = problem.first_day.plus_days(day);
                    let mut behind = problem.mobs.iter().filter(|mob| mob.name == pair.behind);
                    if behind.any(|mob| is_here(mob, date)) {
                        let strip = strip_name(front, Place::Strip(strip));
                        wanted.insert((pair.behind.clone(), day), strip);
                    }
                }
            }
        }
        wanted
    }

    /// Why a mob behind moves; nothing for others.
    pub(super) fn reason_of(&self, mob: &str) -> Option<String> {
        let pair = self.pairs.iter().find(|pair| pair.behind == mob)?;
        Some(format!(
            "It comes behind {}: onto each strip when they leave it.",
            pair.front
        ))
    }

    /// What is said of the season.
    pub(super) fn sentences(&self, followed: Option<&Followed>) -> Vec<String> {
        let Some(followed) = followed else {
            let pairs = self.pairs.iter();
            return pairs
                .map(|pair| {
                    format!(
                        "{} could not be led behind {}: days settled already, or the rules, stand against it. They are planned on their own.",
                        pair.behind, pair.front
                    )
                })
                .collect();
        };
        let mut sentences: Vec<String> = self
            .pairs
            .iter()
            .map(|pair| {
                format!(
                    "{} come behind {}: onto each strip when they leave it, at most {} after they came.",
                    pair.behind,
                    pair.front,
                    plural_text(u64::from(pair.days_after), "day", "days")
                )
            })
            .collect();
        if followed.left_free > 0 {
            let days = u64::try_from(followed.left_free).unwrap_or(u64::MAX);
            sentences.push(format!(
                "On {} the rules let nobody follow: planned freely.",
                plural_text(days, "day", "days")
            ));
        }
        sentences
    }
}

/// A strip for a mob on a day, by its name; none for the yard.
type Wanted = BTreeMap<(String, i64), Option<String>>;

/// The days that were fixed so that mobs follow.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Followed {
    /// By the mob's name and the day number.
    pub(super) days: BTreeSet<(String, i64)>,
    /// Days of those behind on which the rules do not let them follow.
    pub(super) left_free: usize,
    /// Score with all free days in the yard.
    pub(super) score: f64,
}

/// A stay on a strip in front: the strip, and its last day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Left {
    strip: usize,
    last: i64,
}

/// The stays of a mob that end before its last day here, in order; the yard and days away lie between.
fn strips_left(stands: &[Place]) -> Vec<Left> {
    let mut left: Vec<Left> = Vec::new();
    let mut now: Option<usize> = None;
    for (day, place) in (0_i64..).zip(stands) {
        let strip = match place {
            Place::Strip(strip) => Some(*strip),
            Place::Yard | Place::Away => None,
        };
        if let Some(ended) = now.filter(|_| now != strip) {
            left.push(Left {
                strip: ended,
                last: day - 1,
            });
        }
        now = strip;
    }
    left
}

/// The days of the mob so many places behind, each with its strip: from the day after the stay before it ends, until the
/// next one ends, `stay` days at most.
fn behind_days(left: &[Left], place: usize, stay: u32) -> Vec<(i64, usize)> {
    let mut days = Vec::new();
    for (number, stay_left) in left.iter().enumerate() {
        // The second behind waits until the first behind has left as well.
        let Some(enters) = left.get(number + place - 1) else {
            break;
        };
        let first = enters.last + 1;
        let longest = first + i64::from(stay) - 1;
        let last = left
            .get(number + place)
            .map_or(longest, |next| next.last.min(longest));
        days.extend((first..=last).map(|day| (day, stay_left.strip)));
    }
    days
}

fn strip_name(season: &Season, place: Place) -> Option<String> {
    match place {
        Place::Strip(strip) => season.strips.get(strip).map(|strip| strip.name.clone()),
        Place::Yard | Place::Away => None,
    }
}

/// What a mob and those behind it eat, a step on each day on which that changes.
fn demand_of_all(problem: &Problem, mob: &ProblemMob, behind: &[&ProblemMob]) -> Vec<Step> {
    let mut steps: Vec<Step> = Vec::new();
    for day in 0..i64::from(problem.days) {
        let date = problem.first_day.plus_days(day);
        let here = behind.iter().filter(|mob| is_here(mob, date));
        let value =
            value_on(&mob.demand, date) + here.map(|mob| value_on(&mob.demand, date)).sum::<f64>();
        let is_same = |last: &Step| last.value.to_bits() == value.to_bits();
        if !steps.last().is_some_and(is_same) {
            steps.push(Step { from: date, value });
        }
    }
    steps
}

fn is_here(mob: &ProblemMob, date: Day) -> bool {
    let mut visits = mob.visits.iter();
    visits.any(|visit| (visit.first..=visit.last).contains(&date))
}

fn value_on(steps: &[Step], date: Day) -> f64 {
    let held = steps.iter().take_while(|step| step.from <= date).last();
    held.map_or(0.0, |step| step.value)
}
