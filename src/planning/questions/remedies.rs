//! What helps against short days: fewer head, hay, a strip opened sooner, a longer stay, a mob behind others led otherwise;
//! each planned again in full.
//!
//! The cheapest first: what leaves least hay to be carried, then what changes least. kg DM, head, days.

mod led_otherwise;

use super::asked::{Asked, QuestionError};
use super::outcome::{Outcome, SHORT_FROM_KG};
use crate::farm::{ComesBehind, Edit, Farm, GroundId, Mob, MobId};
use crate::planning::{SeasonPlan, Step};
use crate::quantity::{Day, count_text, decimal_text, plural_text};

/// Dry matter of one small bale of hay: common practice, no source; weigh one and say what it is.
pub const USUAL_BALE_KG_DM: f64 = 16.0;
/// Days by which a stay is made longer at most.
const MOST_LONGER_DAYS: u32 = 3;

/// A remedy.
#[derive(Debug, Clone, PartialEq)]
pub enum RemedyKind {
    /// Feed before all else: longer walks, more growth lost.
    FeedFirst,
    /// Hay on the short days.
    Hay {
        /// Bales in all.
        bales: u32,
        /// Dry matter of one, kg.
        bale_kg_dm: f64,
    },
    /// Fewer head in a mob from the first day asked about on.
    Fewer {
        /// The mob.
        mob: MobId,
        /// By so many.
        by: u32,
        /// Head that are left.
        head: u32,
    },
    /// A closed strip opened sooner.
    OpenSooner {
        /// The strip.
        ground: GroundId,
        /// By so many days.
        days: u32,
        /// The first day on which it is open.
        open_from: Day,
    },
    /// A longer longest stay.
    LongerStay {
        /// By so many days.
        days: u32,
        /// Which makes it so many.
        longest_days: u32,
    },
    /// A mob behind another comes later after it, or goes its own way.
    LedOtherwise {
        /// The mob behind.
        mob: MobId,
        /// How it comes behind from then on; nothing where it goes its own way.
        follows: Option<ComesBehind>,
    },
}

/// A remedy with what the plan comes to with it.
#[derive(Debug, Clone, PartialEq)]
pub struct Remedy {
    /// What is done.
    pub kind: RemedyKind,
    /// In words.
    pub words: String,
    /// The plan with it.
    pub with_it: Outcome,
}

/// Short days, and what helps.
#[derive(Debug, Clone, PartialEq)]
pub struct Remedies {
    /// The plan as it is, from the first day asked about on.
    pub as_is: Outcome,
    /// What helps, the cheapest first; empty where no day is short, or nothing helps.
    pub remedies: Vec<Remedy>,
}

/// Looks for what helps against the short days among the days asked about.
///
/// # Errors
/// See [`QuestionError`].
pub fn remedies(asked: &mut Asked<'_>, bale_kg_dm: f64) -> Result<Remedies, QuestionError> {
    if !(bale_kg_dm.is_finite() && bale_kg_dm > 0.0) {
        return Err(QuestionError::Senseless(
            "A bale holds more than 0 kg of dry matter.".to_owned(),
        ));
    }
    let farm = asked.farm.clone();
    let plan = asked.planned(&farm, asked.to)?;
    let as_is = Outcome::of(&plan);
    let mut found = Vec::new();
    if !as_is.is_fed() {
        // A plan may spare a long walk at the price of a few kilograms; a remedy is judged by feed alone.
        asked.is_feed_first = true;
        found.push(feed_first(asked, &plan)?);
        found.extend(open_sooner(asked, &plan)?);
        found.extend(longer_stay(asked)?);
        found.extend(led_otherwise::led_otherwise(asked)?);
        found.push(hay(asked, &plan, bale_kg_dm)?);
        found.extend(fewer(asked, &plan)?);
    }
    // What does not help is no remedy. Sorting keeps the order above among equals.
    found.retain(|remedy| remedy.with_it.short_kg < as_is.short_kg - SHORT_FROM_KG);
    found.sort_by(|a, b| a.with_it.short_kg.total_cmp(&b.with_it.short_kg));
    Ok(Remedies {
        as_is,
        remedies: found,
    })
}

/// The same season planned with feed before all else.
fn feed_first(asked: &mut Asked<'_>, plan: &SeasonPlan) -> Result<Remedy, QuestionError> {
    let farm = asked.farm.clone();
    let with_it = Outcome::of(&asked.planned_with(&farm, plan, &|_| ())?);
    Ok(Remedy {
        kind: RemedyKind::FeedFirst,
        words: format!(
            "Put feed before walks: {} m on foot in all instead of {}",
            decimal_text(with_it.walk_m, 0),
            decimal_text(Outcome::of(plan).walk_m, 0)
        ),
        with_it,
    })
}

/// Hay for what is short on each day; planned again with so much less to be grazed on those days.
fn hay(asked: &mut Asked<'_>, plan: &SeasonPlan, bale_kg_dm: f64) -> Result<Remedy, QuestionError> {
    let farm = asked.farm.clone();
    let fed = plan.short_kg.clone();
    let with_hay = asked.planned_with(&farm, plan, &|made| {
        for mob in &mut made.problem.mobs {
            let Some(short) = made.mob_of.get(&mob.name).and_then(|id| fed.get(id)) else {
                continue;
            };
            let usual = mob.demand.first().map_or(0.0, |step| step.value);
            let grazed = short.iter().enumerate().map(|(index, short_kg)| Step {
                from: plan.day_at(index),
                // The last digits of a day that is all hay are not grazed either.
                value: (usual - short_kg).max(0.0),
            });
            mob.demand = grazed.collect();
        }
    })?;
    let kg: f64 = plan.short_kg.values().flatten().sum();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held between 0 and what fits"
    )]
    let bales = (kg / bale_kg_dm).ceil().clamp(0.0, f64::from(u32::MAX)) as u32;
    Ok(Remedy {
        kind: RemedyKind::Hay { bales, bale_kg_dm },
        words: format!(
            "Carry {} of {} kg DM",
            plural_text(u64::from(bales), "bale", "bales"),
            decimal_text(bale_kg_dm, 0)
        ),
        with_it: Outcome::of(&with_hay),
    })
}

/// The least number of head fewer, in the mob that is shortest, with which no day is short.
fn fewer(asked: &mut Asked<'_>, plan: &SeasonPlan) -> Result<Option<Remedy>, QuestionError> {
    let sum = |days: &Vec<f64>| days.iter().sum::<f64>();
    let shortest = plan
        .short_kg
        .iter()
        .max_by(|a, b| sum(a.1).total_cmp(&sum(b.1)));
    let Some((&id, _)) = shortest else {
        return Ok(None);
    };
    let mob = asked.mob(id)?;
    let with = |asked: &Asked<'_>, head: u32| {
        let mut farm = asked.farm.clone();
        if let Some(mob) = farm.mobs.get_mut(&id) {
            mob.head = head;
        }
        farm
    };
    let (mut fed, mut not_fed) = (0, mob.head);
    while not_fed.saturating_sub(fed) > 1 {
        let middle = fed + (not_fed - fed) / 2;
        let farm = with(asked, middle);
        if Outcome::of(&asked.felt(&farm, asked.to)?).is_fed() {
            fed = middle;
        } else {
            not_fed = middle;
        }
    }
    // Planned in full, a few more may be fed, or a few fewer are needed.
    let most = (fed + 3).min(mob.head.saturating_sub(1));
    let mut best = None;
    for head in (fed.saturating_sub(3).max(1)..=most).rev() {
        let farm = with(asked, head);
        let with_it = Outcome::of(&asked.planned(&farm, asked.to)?);
        if with_it.is_fed() {
            best = Some((head, with_it));
            break;
        }
    }
    Ok(best.map(|(head, with_it)| {
        let by = mob.head - head;
        Remedy {
            kind: RemedyKind::Fewer { mob: id, by, head },
            words: format!(
                "Keep {} fewer in {}: {} instead of {}",
                count_text(u64::from(by)),
                mob.name,
                count_text(u64::from(head)),
                count_text(u64::from(mob.head))
            ),
            with_it,
        }
    }))
}

/// Each strip closed by hand on a short day, opened on the first such day.
fn open_sooner(asked: &mut Asked<'_>, plan: &SeasonPlan) -> Result<Vec<Remedy>, QuestionError> {
    let short: Vec<Day> = (0..plan.days)
        .filter(|index| plan.short_on(*index) > SHORT_FROM_KG)
        .map(|index| plan.day_at(index))
        .collect();
    let mut closures: Vec<(GroundId, usize, Day, Day)> = Vec::new();
    for (id, ground) in &asked.farm.ground {
        let spans = ground.grazing.iter().flat_map(|grazing| &grazing.closed);
        for (place, span) in spans.enumerate() {
            let first = short
                .iter()
                .find(|day| (span.from..=span.to).contains(*day));
            closures.extend(first.map(|day| (*id, place, *day, span.to)));
        }
    }
    let mut found = Vec::new();
    for (ground, place, open_from, closed_to) in closures {
        let mut farm = asked.farm.clone();
        open_from_day(&mut farm, ground, place, open_from);
        let with_it = Outcome::of(&asked.planned(&farm, asked.to)?);
        let days = u32::try_from(closed_to.days_since(open_from) + 1).unwrap_or(0);
        let name = asked
            .farm
            .ground
            .get(&ground)
            .map_or("", |piece| &piece.name);
        found.push(Remedy {
            kind: RemedyKind::OpenSooner {
                ground,
                days,
                open_from,
            },
            words: format!(
                "Open {name} {} sooner, on {}",
                plural_text(u64::from(days), "day", "days"),
                open_from.short_text()
            ),
            with_it,
        });
    }
    Ok(found)
}

/// Ends one closed span of a piece before a day; a span of which nothing is left goes.
fn open_from_day(farm: &mut Farm, ground: GroundId, place: usize, open_from: Day) {
    let grazing = farm
        .ground
        .get_mut(&ground)
        .and_then(|piece| piece.grazing.as_mut());
    let Some(grazing) = grazing else { return };
    if let Some(span) = grazing.closed.get_mut(place) {
        span.to = open_from.plus_days(-1);
        if span.to < span.from {
            grazing.closed.remove(place);
        }
    }
}

/// The longer stay that helps most, the shortest of equals.
fn longer_stay(asked: &mut Asked<'_>) -> Result<Option<Remedy>, QuestionError> {
    let now = asked.farm.sward.longest_stay_days;
    let mut best: Option<Remedy> = None;
    for days in 1..=MOST_LONGER_DAYS {
        let mut farm = asked.farm.clone();
        farm.sward.longest_stay_days = now + days;
        let with_it = Outcome::of(&asked.planned(&farm, asked.to)?);
        let is_better = best
            .as_ref()
            .is_none_or(|best| with_it.short_kg < best.with_it.short_kg - SHORT_FROM_KG);
        if is_better {
            best = Some(Remedy {
                kind: RemedyKind::LongerStay {
                    days,
                    longest_days: now + days,
                },
                words: format!(
                    "Let them stay {} longer: up to {}",
                    plural_text(u64::from(days), "day", "days"),
                    plural_text(u64::from(now + days), "day", "days")
                ),
                with_it,
            });
        }
    }
    Ok(best)
}

impl Remedy {
    /// The edits that put it into force on the farm; none for hay, which is carried, nor for feed first, which
    /// is how days are then settled. Fewer head hold for the whole
    /// season, as a flock has one number of head.
    pub fn edits(&self, farm: &Farm) -> Vec<Edit> {
        match self.kind {
            RemedyKind::FeedFirst | RemedyKind::Hay { .. } => Vec::new(),
            RemedyKind::Fewer { mob: id, head, .. } => mob_edit(farm, id, |mob| mob.head = head),
            RemedyKind::LedOtherwise { mob: id, follows } => {
                mob_edit(farm, id, |mob| mob.follows = follows)
            }
            RemedyKind::LongerStay { longest_days, .. } => {
                let mut sward = farm.sward.clone();
                sward.longest_stay_days = longest_days;
                vec![Edit::Sward {
                    old: Box::new(farm.sward.clone()),
                    new: Box::new(sward),
                }]
            }
            RemedyKind::OpenSooner {
                ground, open_from, ..
            } => {
                let mut opened = farm.clone();
                let spans = farm
                    .ground
                    .get(&ground)
                    .and_then(|piece| piece.grazing.as_ref());
                let place = spans.and_then(|grazing| {
                    let holds =
                        |span: &crate::farm::Closed| (span.from..=span.to).contains(&open_from);
                    grazing.closed.iter().position(holds)
                });
                if let Some(place) = place {
                    open_from_day(&mut opened, ground, place, open_from);
                }
                match (farm.ground.get(&ground), opened.ground.remove(&ground)) {
                    (Some(old), Some(new)) => vec![Edit::change_ground(ground, old, new)],
                    _ => Vec::new(),
                }
            }
        }
    }
}

/// The edit that changes a mob; none where it is gone.
fn mob_edit(farm: &Farm, id: MobId, change: impl FnOnce(&mut Mob)) -> Vec<Edit> {
    let Some(old) = farm.mobs.get(&id) else {
        return Vec::new();
    };
    let mut new = old.clone();
    change(&mut new);
    vec![Edit::Mob {
        id,
        old: Some(Box::new(old.clone())),
        new: Some(Box::new(new)),
    }]
}
