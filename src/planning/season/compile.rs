//! Checks a problem's values and turns its dates into day numbers.
//!
//! Stops at the first fault. Knows nothing of files; places are named as in the problem's text.

use std::collections::BTreeMap;

use crate::quantity::Day;

use super::super::fault::{FaultCause, ProblemFault};
use super::super::problem::{
    DaySpan, MOST_DAYS, MOST_MOBS, MOST_STRIP_DAYS, MOST_STRIPS, Problem, ProblemMob, ProblemStrip,
    Step,
};
use super::{FormerSpell, Place, Season, SeasonFixed, SeasonMob, SeasonStrip};

/// The largest mass, factor or weight understood.
const MOST_FIGURE: f64 = 1e9;
/// The largest area of one strip, ha.
const MOST_AREA_HA: f64 = 1e6;
/// The farthest place from the plane's origin, m.
const FARTHEST_M: f64 = 1e7;

type Checked<T> = Result<T, ProblemFault>;

impl Season {
    /// Checks a problem and counts its days.
    ///
    /// # Errors
    /// The first value that makes no sense, with its place, cause and remedy.
    pub fn compile(problem: &Problem) -> Checked<Self> {
        check_sizes(problem)?;
        let n_days = usize::try_from(problem.days).unwrap_or(usize::MAX);
        let calendar = Calendar {
            first: problem.first_day,
            n_days,
        };
        let growth = calendar.values("growth", &problem.growth)?;
        let rest = calendar.values("rest_days", &problem.rest_days)?;
        check_weights(problem)?;
        let strip_index = unique_names("strips", problem.strips.iter().map(|strip| &strip.name))?;
        let mob_index = unique_names("mobs", problem.mobs.iter().map(|mob| &mob.name))?;
        let rest_at_first = rest.first().copied().unwrap_or(0.0);
        let strips = problem.strips.iter().enumerate().map(|(index, strip)| {
            compile_strip(&calendar, &format!("strips[{index}]"), strip, rest_at_first)
        });
        let mobs = problem.mobs.iter().enumerate().map(|(index, mob)| {
            compile_mob(&calendar, &format!("mobs[{index}]"), mob, &strip_index)
        });
        Ok(Self {
            first_day: problem.first_day,
            n_days,
            growth,
            growth_shape: problem.growth_shape,
            rest,
            longest_stay: usize::try_from(problem.longest_stay_days).unwrap_or(usize::MAX),
            strips: strips.collect::<Checked<_>>()?,
            mobs: mobs.collect::<Checked<_>>()?,
            fixed: compile_fixed(problem, &strip_index, &mob_index)?,
            weights: problem.weights,
        })
    }
}

/// The days of the season, to look dates up in.
struct Calendar {
    first: Day,
    n_days: usize,
}

impl Calendar {
    /// The value on each day of steps that must hold from the first day on.
    fn values(&self, place: &str, steps: &[Step]) -> Checked<Vec<f64>> {
        check_steps(place, steps)?;
        let first = steps
            .first()
            .ok_or_else(|| fault(place, FaultCause::None { what: "value" }))?;
        if first.from > self.first {
            return Err(fault(
                place,
                FaultCause::StartsLate {
                    first: first.from,
                    needed: self.first,
                },
            ));
        }
        Ok(self.spread(steps))
    }

    /// The value on each day; 0 before the first step.
    fn spread(&self, steps: &[Step]) -> Vec<f64> {
        let mut values = vec![0.0; self.n_days];
        for step in steps {
            let from = self.number(step.from).max(0);
            let from = usize::try_from(from).unwrap_or(usize::MAX);
            values
                .iter_mut()
                .skip(from)
                .for_each(|value| *value = step.value);
        }
        values
    }

    fn number(&self, day: Day) -> i64 {
        day.days_since(self.first)
    }

    /// The day numbers of a span that fall inside the season.
    fn numbers(&self, span: DaySpan) -> std::ops::Range<usize> {
        let held = |number: i64| usize::try_from(number.max(0)).unwrap_or(0);
        let end = held(self.number(span.last) + 1).min(self.n_days);
        held(self.number(span.first)).min(end)..end
    }
}

fn check_sizes(problem: &Problem) -> Checked<()> {
    if problem.days == 0 {
        return Err(fault("days", FaultCause::NotAboveZero { value: 0.0 }));
    }
    if problem.days > MOST_DAYS {
        let days = u64::from(problem.days);
        let most = MOST_DAYS;
        return Err(fault("days", FaultCause::TooManyDays { days, most }));
    }
    if problem.longest_stay_days == 0 {
        return Err(fault(
            "longest_stay_days",
            FaultCause::NotAboveZero { value: 0.0 },
        ));
    }
    let n_days = i64::from(problem.days);
    let end = problem.first_day.plus_days(n_days);
    if end.days_since(problem.first_day) != n_days {
        return Err(fault("days", FaultCause::PastCalendar));
    }
    check_count("strips", problem.strips.len(), MOST_STRIPS)?;
    check_count("mobs", problem.mobs.len(), MOST_MOBS)?;
    let days = usize::try_from(problem.days).unwrap_or(usize::MAX);
    let strip_days = problem.strips.len().saturating_mul(days);
    let fixed_most = problem.mobs.len().saturating_mul(days).saturating_add(1000);
    check_count("fixed", problem.fixed.len(), fixed_most)?;
    if strip_days > MOST_STRIP_DAYS {
        return Err(fault(
            "days",
            FaultCause::TooMany {
                what: "strips times days",
                count: strip_days,
                most: MOST_STRIP_DAYS,
            },
        ));
    }
    Ok(())
}

fn check_count(what: &'static str, count: usize, most: usize) -> Checked<()> {
    if count > most {
        return Err(fault(what, FaultCause::TooMany { what, count, most }));
    }
    Ok(())
}

fn check_weights(problem: &Problem) -> Checked<()> {
    let weights = &problem.weights;
    let named = [
        ("short", weights.short),
        ("lost", weights.lost),
        ("walk_per_m", weights.walk_per_m),
        ("move", weights.move_each),
        ("bare", weights.bare),
    ];
    for (name, value) in named {
        check_figure(&format!("weights.{name}"), value, 0.0, MOST_FIGURE)?;
    }
    Ok(())
}

fn check_figure(place: &str, value: f64, low: f64, high: f64) -> Checked<()> {
    if !value.is_finite() {
        return Err(fault(place, FaultCause::NotFinite));
    }
    if value < low || value > high {
        return Err(fault(place, FaultCause::OutOfRange { value, low, high }));
    }
    Ok(())
}

fn check_steps(place: &str, steps: &[Step]) -> Checked<()> {
    let mut before: Option<Day> = None;
    for (index, step) in steps.iter().enumerate() {
        check_figure(
            &format!("{place}[{index}][1]"),
            step.value,
            0.0,
            MOST_FIGURE,
        )?;
        if let Some(before) = before.filter(|before| *before >= step.from) {
            let day = step.from;
            return Err(fault(
                &format!("{place}[{index}][0]"),
                FaultCause::Unsorted { day, before },
            ));
        }
        before = Some(step.from);
    }
    Ok(())
}

fn check_span(place: &str, span: DaySpan) -> Checked<()> {
    let DaySpan { first, last } = span;
    if last < first {
        return Err(fault(place, FaultCause::SpanBackwards { first, last }));
    }
    Ok(())
}

/// The index of each name, refusing the empty and the doubled.
fn unique_names<'a>(
    list: &str,
    names: impl Iterator<Item = &'a String>,
) -> Checked<BTreeMap<&'a str, usize>> {
    let mut found = BTreeMap::new();
    for (index, name) in names.enumerate() {
        let place = format!("{list}[{index}].name");
        if name.trim().is_empty() {
            return Err(fault(&place, FaultCause::EmptyName));
        }
        if let Some(other) = found.insert(name.as_str(), index) {
            return Err(fault(
                &place,
                FaultCause::NameTwice {
                    name: name.clone(),
                    other: format!("{list}[{other}].name"),
                },
            ));
        }
    }
    Ok(found)
}

fn compile_strip(
    calendar: &Calendar,
    place: &str,
    strip: &ProblemStrip,
    rest_at_first: f64,
) -> Checked<SeasonStrip> {
    let field = |name: &str| format!("{place}.{name}");
    if strip.area_ha.is_finite() && strip.area_ha <= 0.0 {
        let value = strip.area_ha;
        return Err(fault(&field("area_ha"), FaultCause::NotAboveZero { value }));
    }
    check_figure(&field("area_ha"), strip.area_ha, 0.0, MOST_AREA_HA)?;
    let enter = strip.enter.unwrap_or(strip.leave);
    let masses = [
        ("cover", strip.cover),
        ("leave", strip.leave),
        ("enter", enter),
        ("ceiling", strip.ceiling),
        ("growth_factor", strip.growth_factor),
        ("end_cover", strip.end_cover.unwrap_or(0.0)),
        ("rest_owed_days", strip.rest_owed_days.unwrap_or(0.0)),
    ];
    for (name, value) in masses {
        check_figure(&field(name), value, 0.0, MOST_FIGURE)?;
    }
    check_place(&field("at"), strip.at)?;
    if strip.stood_days.is_some() && strip.rested_days.is_some() {
        return Err(fault(&field("rested_days"), FaultCause::RestedAndStood));
    }
    if strip.stood_days == Some(0) {
        let value = 0.0;
        return Err(fault(
            &field("stood_days"),
            FaultCause::NotAboveZero { value },
        ));
    }
    let mut closed = vec![false; calendar.n_days];
    for (index, span) in strip.closed.iter().enumerate() {
        check_span(&field(&format!("closed[{index}]")), *span)?;
        let days = closed.get_mut(calendar.numbers(*span));
        days.into_iter().flatten().for_each(|day| *day = true);
    }
    let count = |days: u32| usize::try_from(days).unwrap_or(usize::MAX);
    let remembered = strip.stood_days.map(|_| 0).or(strip.rested_days);
    Ok(SeasonStrip {
        name: strip.name.clone(),
        area: strip.area_ha,
        cover: strip.cover,
        leave: strip.leave,
        enter,
        ceiling: strip.ceiling,
        growth_factor: strip.growth_factor,
        at: strip.at,
        stood_days: strip.stood_days.map_or(0, count),
        former: remembered.map(|rested| FormerSpell {
            rested: count(rested),
            owed: strip.rest_owed_days.unwrap_or(rest_at_first),
        }),
        end_cover: strip.end_cover,
        closed,
    })
}

fn check_place(place: &str, at: [f64; 2]) -> Checked<()> {
    for (index, value) in at.into_iter().enumerate() {
        check_figure(&format!("{place}[{index}]"), value, -FARTHEST_M, FARTHEST_M)?;
    }
    Ok(())
}

fn compile_mob(
    calendar: &Calendar,
    place: &str,
    mob: &ProblemMob,
    strip_index: &BTreeMap<&str, usize>,
) -> Checked<SeasonMob> {
    check_place(&format!("{place}.yard"), mob.yard)?;
    check_visits(place, &mob.visits)?;
    let demand_place = format!("{place}.demand");
    check_steps(&demand_place, &mob.demand)?;
    let mut present = vec![false; calendar.n_days];
    let mut starts = vec![false; calendar.n_days];
    for span in &mob.visits {
        let days = calendar.numbers(*span);
        if days.is_empty() {
            continue;
        }
        if let Some(start) = starts.get_mut(days.start) {
            *start = true;
        }
        let here = present.get_mut(days);
        here.into_iter().flatten().for_each(|day| *day = true);
    }
    if let Some(needed) = present.iter().position(|&here| here) {
        let first = mob.demand.first();
        let first =
            first.ok_or_else(|| fault(&demand_place, FaultCause::None { what: "value" }))?;
        let needed = i64::try_from(needed).unwrap_or(i64::MAX);
        if calendar.number(first.from) > needed {
            let (first, needed) = (first.from, calendar.first.plus_days(needed));
            return Err(fault(
                &demand_place,
                FaultCause::StartsLate { first, needed },
            ));
        }
    }
    let mut demand = calendar.spread(&mob.demand);
    for (value, here) in demand.iter_mut().zip(&present) {
        if !here {
            *value = 0.0;
        }
    }
    let stood = match &mob.stood {
        None => Place::Yard,
        Some(name) => Place::Strip(look_up(
            "strip",
            &format!("{place}.stood"),
            name,
            strip_index,
        )?),
    };
    Ok(SeasonMob {
        name: mob.name.clone(),
        present,
        starts,
        demand,
        yard: mob.yard,
        stood,
    })
}

fn check_visits(place: &str, visits: &[DaySpan]) -> Checked<()> {
    let mut sorted: Vec<(Day, usize, DaySpan)> = Vec::new();
    for (index, span) in visits.iter().enumerate() {
        check_span(&format!("{place}.visits[{index}]"), *span)?;
        sorted.push((span.first, index, *span));
    }
    sorted.sort_by_key(|(first, index, _)| (*first, *index));
    for (former, latter) in sorted.iter().zip(sorted.iter().skip(1)) {
        if latter.2.first <= former.2.last {
            return Err(fault(
                &format!("{place}.visits[{}]", latter.1),
                FaultCause::Overlap { other: former.1 },
            ));
        }
    }
    Ok(())
}

fn compile_fixed(
    problem: &Problem,
    strip_index: &BTreeMap<&str, usize>,
    mob_index: &BTreeMap<&str, usize>,
) -> Checked<Vec<SeasonFixed>> {
    let compile = |(index, fixed): (usize, &super::super::problem::FixedDay)| {
        let place = |field: &str| format!("fixed[{index}].{field}");
        let stands = match &fixed.strip {
            None => Place::Yard,
            Some(name) => Place::Strip(look_up("strip", &place("strip"), name, strip_index)?),
        };
        Ok(SeasonFixed {
            mob: look_up("mob", &place("mob"), &fixed.mob, mob_index)?,
            day: fixed.day.days_since(problem.first_day),
            place: stands,
            lived: fixed.lived,
        })
    };
    problem.fixed.iter().enumerate().map(compile).collect()
}

fn look_up(
    what: &'static str,
    place: &str,
    name: &str,
    index: &BTreeMap<&str, usize>,
) -> Checked<usize> {
    index.get(name).copied().ok_or_else(|| {
        let name = name.to_owned();
        fault(place, FaultCause::UnknownName { what, name })
    })
}

fn fault(place: &str, cause: FaultCause) -> ProblemFault {
    ProblemFault {
        place: place.to_owned(),
        cause,
    }
}
