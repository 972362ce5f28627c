//! A plan built by a beam: many part plans are lived side by side, day by day and mob by mob, and the most hopeful kept.
//!
//! A part plan is as hopeful as its score so far with the worth of all its strips is low (P. S. Ow and T. E. Morton,
//! "Filtered beam search in scheduling", International Journal of Production Research 26, 1988, from memory; here the
//! judgement is that of [`super::worth`]). Keeps every rule but those that only a fixed day to come would break.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob or day of the season whose lengths made the lists"
)]
#![expect(clippy::cast_precision_loss, reason = "day counts stay far below 2^53")]

mod part_plan;

use std::cmp::Ordering;
use std::collections::BTreeSet;

use super::ground::{AWAY, Ground, place_number};
use super::strip_days::{first_free_day, grazed_day, rest_owed, wait};
use super::strip_sum::{is_closed, next_set};
use super::worth::{Worth, work_of_growth};
use part_plan::{Alone, BegunDay, PartPlan, Step, StripNow, left_sign, place_sign};

/// A plan that keeps the most hopeful `width` part plans each day; adds what it did to `work`.
pub(super) fn beam_places(
    worth: &Worth<'_>,
    plainest: &[u16],
    width: usize,
    work: &mut u64,
) -> Vec<u16> {
    let mut beam = Beam {
        ground: worth.ground,
        worth,
        plainest,
        width,
        trail: Vec::new(),
        work: 0,
    };
    let mut plans = vec![beam.beginning()];
    for day in 0..worth.ground.n_days {
        plans = beam.live_day(plans, day);
    }
    *work += beam.work * u64::try_from(work_of_growth(worth.ground)).unwrap_or(1);
    let bare_score = |plan: &PartPlan| plan.score + beam.end_worth(plan);
    let best = plans
        .iter()
        .min_by(|a, b| bare_score(a).total_cmp(&bare_score(b)));
    beam.places_along(best.and_then(|plan| plan.day))
}

struct Beam<'a> {
    ground: &'a Ground,
    worth: &'a Worth<'a>,
    plainest: &'a [u16],
    width: usize,
    /// The places of a day, and the day before it in the same plan.
    trail: Vec<(Vec<u16>, Option<usize>)>,
    work: u64,
}

impl Beam<'_> {
    fn beginning(&self) -> PartPlan {
        let strips = (0..self.ground.n_strips).map(|strip| {
            let fixed = &self.ground.strips[strip];
            let first = first_free_day(self.ground, strip);
            let (grown, lost) = wait(self.ground, strip, fixed.cover, 0, first);
            StripNow {
                cover: fixed.cover,
                since: 0,
                length: fixed.stood,
                release: if fixed.stood > 0 { 0 } else { first },
                worth: lost + self.worth.free(strip, first, grown),
                left: 0,
            }
        });
        PartPlan {
            score: 0.0,
            strips: strips.collect(),
            places: self.ground.stood.clone(),
            sign: 1,
            day: None,
        }
    }

    fn live_day(&mut self, mut plans: Vec<PartPlan>, day: usize) -> Vec<PartPlan> {
        let n_strips = self.ground.n_strips;
        let mut alone = Vec::with_capacity(plans.len() * n_strips);
        let mut begun = Vec::with_capacity(plans.len());
        for (index, plan) in plans.iter_mut().enumerate() {
            let first = alone.len();
            for strip in 0..n_strips {
                self.bring_up(plan, strip, day);
                alone.push(self.left_alone(strip, &plan.strips[strip], day));
            }
            let hope = |alone: &Alone| alone.score + alone.then.worth;
            begun.push(BegunDay {
                plan: index,
                score: plan.score,
                hope: plan.score + alone[first..].iter().map(hope).sum::<f64>(),
                places: Vec::new(),
                sign: plan.sign,
            });
        }
        self.work += u64::try_from(3 * alone.len() / 2).unwrap_or(0);
        for mob in 0..self.ground.n_mobs {
            let mut steps = Vec::new();
            for from in 0..begun.len() {
                self.place_mob(&plans, &alone, &begun, from, (mob, day), &mut steps);
            }
            self.work += u64::try_from(5 * steps.len() / 2).unwrap_or(0);
            begun = self.most_hopeful(&begun, steps);
        }
        let closed = begun.into_iter();
        closed
            .map(|begun| self.close_day(&plans[begun.plan], &alone, begun, day))
            .collect()
    }

    /// Grows a strip that has had its rest up to this morning.
    fn bring_up(&self, plan: &mut PartPlan, strip: usize, day: usize) {
        let now = &mut plan.strips[strip];
        if now.length == 0 && now.release <= day && now.since < day {
            let (grown, lost) = wait(self.ground, strip, now.cover, now.since, day);
            plan.score += lost;
            now.cover = grown;
            now.since = day;
        }
    }

    fn left_alone(&self, strip: usize, now: &StripNow, day: usize) -> Alone {
        if now.length > 0 {
            // A spell ends: the worth holds all that is lost until its rest is over.
            let rest = rest_owed(self.ground, strip, day);
            let then = StripNow {
                length: 0,
                release: (day + rest).min(self.ground.n_days),
                worth: self.worth.ended(strip, day, now.cover),
                ..*now
            };
            return Alone { then, score: 0.0 };
        }
        if now.release > day {
            return Alone {
                then: *now,
                score: 0.0,
            };
        }
        let (cover, score) = wait(self.ground, strip, now.cover, day, day + 1);
        let then = StripNow {
            cover,
            since: day + 1,
            worth: self.worth.free(strip, day + 1, cover),
            ..*now
        };
        Alone { then, score }
    }

    /// Notes each place where a mob may stand on a day.
    fn place_mob(
        &self,
        plans: &[PartPlan],
        alone: &[Alone],
        begun: &[BegunDay],
        from: usize,
        (mob, day): (usize, usize),
        steps: &mut Vec<Step>,
    ) {
        let (ground, before) = (self.ground, &begun[from]);
        let plan = &plans[before.plan];
        let cell = mob * ground.n_days + day;
        let mut add = |place: u16| steps.push(self.step(plan, alone, (before, from), cell, place));
        if !ground.free[cell] || self.plainest[cell] != ground.yard {
            add(self.plainest[cell]);
            return;
        }
        add(ground.yard);
        for strip in 0..ground.n_strips {
            let place = place_number(strip);
            if self.may_stand(strip, &plan.strips[strip], day) && !before.places.contains(&place) {
                add(place);
            }
        }
    }

    /// One mob placed for a day.
    fn step(
        &self,
        plan: &PartPlan,
        alone: &[Alone],
        (before, from): (&BegunDay, usize),
        cell: usize,
        place: u16,
    ) -> Step {
        let ground = self.ground;
        let mut step = Step {
            from,
            place,
            score: before.score,
            hope: before.hope,
            sign: before.sign,
        };
        if place == AWAY {
            return step;
        }
        let (mob, day) = (cell / ground.n_days, cell % ground.n_days);
        let strip = usize::from(place);
        let mut score = ground.walk_score(mob, self.comes_from(plan, mob, day), place);
        step.sign ^= place_sign(mob, plan.places[mob]) ^ place_sign(mob, place);
        if strip < ground.n_strips {
            let now = &plan.strips[strip];
            let left_alone = &alone[before.plan * ground.n_strips + strip];
            let (grown, grazed) = grazed_day(ground, strip, day, now.cover, ground.demand[cell]);
            score += grazed;
            step.hope += self.worth.stood(strip, day + 1, now.length + 1, grown);
            step.hope -= left_alone.then.worth + left_alone.score;
            step.sign ^= left_sign(strip, now.left, now.length);
            step.sign ^= left_sign(strip, day + 1, now.length + 1);
        } else {
            score += ground.short_weight * ground.demand[cell];
        }
        step.score += score;
        step.hope += score;
        step
    }

    fn comes_from(&self, plan: &PartPlan, mob: usize, day: usize) -> u16 {
        let ground = self.ground;
        let from = if !ground.starts[mob * ground.n_days + day] || day == 0 {
            plan.places[mob]
        } else {
            ground.yard
        };
        if from == AWAY { ground.yard } else { from }
    }

    fn may_stand(&self, strip: usize, now: &StripNow, day: usize) -> bool {
        let ground = self.ground;
        if now.release > day || now.length >= ground.longest || is_closed(ground, strip, day) {
            return false;
        }
        if now.length == 0 && now.cover < ground.strips[strip].enter {
            return false;
        }
        // A fixed stand soon after would come too early, so the strip is kept free for it.
        let next = next_set(self.worth.held_row(strip), day);
        next.is_none_or(|next| (next - day) as f64 > ground.rest[day] + ground.longest as f64)
    }

    /// The most hopeful steps, of those that go on alike only the best.
    fn most_hopeful(&self, begun: &[BegunDay], mut steps: Vec<Step>) -> Vec<BegunDay> {
        let by_hope = |a: &Step, b: &Step| -> Ordering {
            let order = a.hope.total_cmp(&b.hope);
            order.then(a.from.cmp(&b.from)).then(a.place.cmp(&b.place))
        };
        // Some more than wanted, since some will go on alike.
        let most = self.width + self.width / 2;
        if steps.len() > most {
            steps.select_nth_unstable_by(most, by_hope);
            steps.truncate(most);
        }
        steps.sort_unstable_by(by_hope);
        let mut seen = BTreeSet::new();
        steps.retain(|step| seen.insert(step.sign));
        steps.truncate(self.width);
        let places_of = |step: &Step| {
            let mut places = begun[step.from].places.clone();
            places.push(step.place);
            places
        };
        let kept = steps.iter().map(|step| BegunDay {
            plan: begun[step.from].plan,
            score: step.score,
            hope: step.hope,
            places: places_of(step),
            sign: step.sign,
        });
        kept.collect()
    }

    /// The part plan of the next morning.
    fn close_day(
        &mut self,
        before: &PartPlan,
        alone: &[Alone],
        begun: BegunDay,
        day: usize,
    ) -> PartPlan {
        let ground = self.ground;
        let alone = &alone[begun.plan * ground.n_strips..(begun.plan + 1) * ground.n_strips];
        let mut strips: Vec<StripNow> = alone.iter().map(|alone| alone.then).collect();
        let mut score = begun.score + alone.iter().map(|alone| alone.score).sum::<f64>();
        let mut places = before.places.clone();
        for (mob, &place) in begun.places.iter().enumerate() {
            if place != AWAY {
                places[mob] = place;
            }
            let strip = usize::from(place);
            if strip >= ground.n_strips {
                continue;
            }
            score -= alone[strip].score;
            let demand = ground.demand[mob * ground.n_days + day];
            strips[strip] = stood_on(ground, strip, &before.strips[strip], (day, demand));
        }
        self.trail.push((begun.places, before.day));
        PartPlan {
            score,
            strips,
            places,
            sign: begun.sign,
            day: Some(self.trail.len() - 1),
        }
    }

    /// What is missing from the wanted covers after the last day, and what strips at rest still lose until then.
    fn end_worth(&self, plan: &PartPlan) -> f64 {
        let n_days = self.ground.n_days;
        let strips = plan.strips.iter().enumerate();
        let worth = strips.map(|(strip, now)| {
            let (cover, lost) = wait(self.ground, strip, now.cover, now.since.min(n_days), n_days);
            lost + self.worth.free(strip, n_days, cover)
        });
        worth.sum()
    }

    fn places_along(&self, last: Option<usize>) -> Vec<u16> {
        let mut places = self.plainest.to_vec();
        let mut at = last;
        for day in (0..self.ground.n_days).rev() {
            let Some(index) = at else { break };
            let (stands, before) = &self.trail[index];
            for (mob, &place) in stands.iter().enumerate() {
                places[mob * self.ground.n_days + day] = place;
            }
            at = *before;
        }
        places
    }
}

/// A strip on the morning after a mob stood there.
fn stood_on(
    ground: &Ground,
    strip: usize,
    now: &StripNow,
    (day, demand): (usize, f64),
) -> StripNow {
    StripNow {
        cover: grazed_day(ground, strip, day, now.cover, demand).0,
        since: day + 1,
        length: now.length + 1,
        release: 0,
        worth: 0.0,
        left: day + 1,
    }
}
