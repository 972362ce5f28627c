//! A beam: day by day, the most hopeful part plans are gone on with, judged by the worth of their strips on the next morning.
//!
//! Part plans share the strips that are alike in them, so that a strip is reckoned once a day for all of them. Covers
//! kg DM/ha, scores kg DM.

#![expect(
    clippy::indexing_slicing,
    reason = "every index is a strip, mob, day, step or part plan whose lengths made the lists"
)]

mod standing;
mod trail;

use super::ground::{AWAY, Ground, place_number};
use super::worth::{Worth, work_of_growth};
use standing::Standings;
use trail::Trail;

/// A plan that keeps the most hopeful `width` part plans each day; adds what it did to `work`.
pub(super) fn beam_places(
    worth: &Worth<'_>,
    plainest: &[u16],
    width: usize,
    work: &mut u64,
) -> Vec<u16> {
    let n_days = worth.ground.n_days;
    let mut beam = Beam {
        ground: worth.ground,
        plainest,
        width,
        standings: Standings::new(worth, plainest),
        trail: Trail::new(worth.ground),
        steps: Vec::new(),
        ranks: Vec::new(),
        signs: Vec::new(),
        work: 0,
    };
    let mut plans = beam.beginning();
    for day in 0..n_days {
        plans = beam.live_day(&plans, day);
    }
    *work += beam.work * u64::try_from(work_of_growth(worth.ground)).unwrap_or(1);
    beam.standings.turn(n_days);
    let best = beam.best_at_the_end(&plans);
    beam.trail.places_along(plainest, best)
}

/// Work of a beam of some width, about.
pub(super) fn work_of_beam(ground: &Ground, width: usize) -> u64 {
    let strip_days = ground.n_strips * ground.n_days * work_of_growth(ground);
    u64::try_from((7 * width / 4 + 5) * strip_days).unwrap_or(u64::MAX)
}

struct Beam<'a> {
    ground: &'a Ground,
    plainest: &'a [u16],
    width: usize,
    standings: Standings<'a>,
    trail: Trail,
    /// Room for what is done each day.
    steps: Vec<Step>,
    ranks: Vec<(u64, u32)>,
    signs: Vec<(u64, u32)>,
    work: u64,
}

/// Plans of the days before a morning.
struct PartPlans {
    each: Vec<PartPlan>,
    /// The number of each strip's standing, by plan.
    strips: Vec<u32>,
    /// Where each mob stood last, by plan.
    places: Vec<u16>,
}

#[derive(Clone, Copy)]
struct PartPlan {
    score: f64,
    /// The same for plans that go on alike: made of where mobs stand and when strips were left.
    sign: u64,
    /// Its newest day in the trail.
    day: Option<u32>,
}

/// Part plans with the first mobs placed for the day.
struct BegunDays {
    each: Vec<BegunDay>,
    /// The places of the mobs, by plan; away where they are not placed yet.
    places: Vec<u16>,
}

#[derive(Clone, Copy)]
struct BegunDay {
    plan: usize,
    /// The score with this day's, as if no further mob stood anywhere.
    score: f64,
    /// The score with the worth of all strips on the next morning.
    hope: f64,
    sign: u64,
}

/// A begun day with one more mob placed.
struct Step {
    from: usize,
    place: u16,
    score: f64,
    hope: f64,
    sign: u64,
}

impl Beam<'_> {
    fn beginning(&mut self) -> PartPlans {
        let nothing = PartPlan {
            score: 0.0,
            sign: 1,
            day: None,
        };
        PartPlans {
            each: vec![nothing],
            strips: self.standings.begin(),
            places: self.ground.stood.clone(),
        }
    }

    fn live_day(&mut self, plans: &PartPlans, day: usize) -> PartPlans {
        self.standings.live_day(day);
        let mut begun = self.begin_day(plans);
        let work = 3 * self.standings.n_today() + plans.strips.len() / 8;
        self.work += u64::try_from(work).unwrap_or(0);
        for mob in 0..self.ground.n_mobs {
            self.steps.clear();
            for from in 0..begun.each.len() {
                self.place_mob(plans, &begun, from, (mob, day));
            }
            self.work += u64::try_from(3 * self.steps.len()).unwrap_or(0);
            begun = self.most_hopeful(&begun, mob);
        }
        self.close_day(plans, &begun)
    }

    fn begin_day(&self, plans: &PartPlans) -> BegunDays {
        let begin = |(index, plan): (usize, &PartPlan)| {
            let (mut score, mut hope) = (plan.score, plan.score);
            for &at in of_plan(&plans.strips, index, self.ground.n_strips) {
                let alone = self.standings.left_alone(at);
                score += alone.score;
                hope += alone.hope();
            }
            BegunDay {
                plan: index,
                score,
                hope,
                sign: plan.sign,
            }
        };
        BegunDays {
            each: plans.each.iter().enumerate().map(begin).collect(),
            places: vec![AWAY; plans.each.len() * self.ground.n_mobs],
        }
    }

    /// Notes each place where a mob may stand on a day.
    fn place_mob(
        &mut self,
        plans: &PartPlans,
        begun: &BegunDays,
        from: usize,
        (mob, day): (usize, usize),
    ) {
        let ground = self.ground;
        let before = begun.each[from];
        let mut step = |place, score: f64, hope: f64, sign: u64| {
            self.steps.push(Step {
                from,
                place,
                score: before.score + score,
                hope: before.hope + hope,
                sign: before.sign ^ sign,
            });
        };
        let cell = mob * ground.n_days + day;
        let fixed = self.plainest[cell];
        if fixed == AWAY {
            step(AWAY, 0.0, 0.0, 0);
            return;
        }
        let is_free = ground.free[cell] && fixed == ground.yard;
        let stood = plans.places[before.plan * ground.n_mobs + mob];
        let comes_from = comes_from(ground, stood, mob, day);
        let left = self.trail.place_sign(mob, stood);
        if fixed == ground.yard {
            let hay = ground.short_weight * ground.demand[cell];
            let score = hay + ground.walk_score(mob, comes_from, fixed);
            step(
                fixed,
                score,
                score,
                left ^ self.trail.place_sign(mob, fixed),
            );
        }
        let taken = &of_plan(&begun.places, from, ground.n_mobs)[..mob];
        let strips = of_plan(&plans.strips, before.plan, ground.n_strips);
        for (strip, &at) in strips.iter().enumerate() {
            let place = place_number(strip);
            let may = if is_free {
                !taken.contains(&place)
            } else {
                place == fixed
            };
            let stand = self.standings.stood_on(at, mob).filter(|_| may);
            if let Some(stand) = stand {
                let walk = ground.walk_score(mob, comes_from, place);
                let sign = left ^ self.trail.place_sign(mob, place) ^ stand.sign;
                step(place, stand.score + walk, stand.hope + walk, sign);
            }
        }
    }

    /// The most hopeful steps, of those that go on alike only the best.
    fn most_hopeful(&mut self, begun: &BegunDays, mob: usize) -> BegunDays {
        let (ranks, signs, n_mobs) = (&mut self.ranks, &mut self.signs, self.ground.n_mobs);
        ranks.clear();
        ranks.extend(self.steps.iter().map(|step| rank(step.hope)).zip(0..));
        // Some more than wanted, since some will go on alike.
        let most = self.width + self.width / 2;
        if ranks.len() > most {
            ranks.select_nth_unstable(most);
            ranks.truncate(most);
        }
        ranks.sort_unstable();
        signs.clear();
        let sign_of = |&(_, index): &(u64, u32)| self.steps[index as usize].sign;
        signs.extend(ranks.iter().map(sign_of).zip(0..));
        signs.sort_unstable();
        let mut goes_on_alike = vec![false; ranks.len()];
        for pair in signs.windows(2) {
            goes_on_alike[pair[1].1 as usize] = pair[0].0 == pair[1].0;
        }
        let mut kept = BegunDays {
            each: Vec::with_capacity(self.width),
            places: Vec::with_capacity(self.width * n_mobs),
        };
        let ranks = ranks.iter().zip(&goes_on_alike);
        for (&(_, index), _) in ranks.filter(|(_, alike)| !**alike).take(self.width) {
            let step = &self.steps[index as usize];
            kept.each.push(BegunDay {
                plan: begun.each[step.from].plan,
                score: step.score,
                hope: step.hope,
                sign: step.sign,
            });
            let first = kept.places.len();
            let places = of_plan(&begun.places, step.from, n_mobs);
            kept.places.extend_from_slice(places);
            kept.places[first + mob] = step.place;
        }
        kept
    }

    /// The part plans of the next morning.
    fn close_day(&mut self, plans: &PartPlans, begun: &BegunDays) -> PartPlans {
        let (n_mobs, n_strips) = (self.ground.n_mobs, self.ground.n_strips);
        let mut next = PartPlans {
            each: Vec::with_capacity(begun.each.len()),
            strips: Vec::with_capacity(begun.each.len() * n_strips),
            places: Vec::with_capacity(begun.each.len() * n_mobs),
        };
        for (index, day) in begun.each.iter().enumerate() {
            let before = of_plan(&plans.strips, day.plan, n_strips);
            let stood = of_plan(&plans.places, day.plan, n_mobs);
            let places = of_plan(&begun.places, index, n_mobs);
            for (strip, &at) in before.iter().enumerate() {
                let mob = places
                    .iter()
                    .rposition(|&place| usize::from(place) == strip);
                let then = mob.and_then(|mob| self.standings.after_stand(at, mob));
                let then = then.unwrap_or_else(|| self.standings.after_alone(at));
                next.strips.push(then);
            }
            let last_places = places.iter().zip(stood);
            let last_places =
                last_places.map(|(&place, &stood)| if place == AWAY { stood } else { place });
            next.places.extend(last_places);
            next.each.push(PartPlan {
                score: day.score,
                sign: day.sign,
                day: self.trail.add(places, plans.each[day.plan].day),
            });
        }
        next
    }

    /// The newest day of the plan that is best once all is reckoned that its strips still lose and lack.
    fn best_at_the_end(&self, plans: &PartPlans) -> Option<u32> {
        let end_score = |(index, plan): (usize, &PartPlan)| {
            let strips = of_plan(&plans.strips, index, self.ground.n_strips).iter();
            let lost: f64 = strips.map(|&at| self.standings.end_worth(at)).sum();
            (plan.score + lost, plan.day)
        };
        let ends = plans.each.iter().enumerate().map(end_score);
        ends.min_by(|a, b| a.0.total_cmp(&b.0))?.1
    }
}

/// Where a mob comes from on a day, if it stood there the day before.
fn comes_from(ground: &Ground, stood: u16, mob: usize, day: usize) -> u16 {
    let starts = day > 0 && ground.starts[mob * ground.n_days + day];
    if starts || stood == AWAY {
        ground.yard
    } else {
        stood
    }
}

/// What belongs to a part plan in a list that has `n` of each.
fn of_plan<T>(list: &[T], plan: usize, n: usize) -> &[T] {
    &list[plan * n..(plan + 1) * n]
}

/// A whole number that is the greater, the greater a figure is: quicker to compare.
fn rank(figure: f64) -> u64 {
    let bits = figure.to_bits();
    if bits >> 63 == 0 {
        bits | 1 << 63
    } else {
        !bits
    }
}
