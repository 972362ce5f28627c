//! An independent checker of plans, written from the planning model's text alone.
//!
//! Shares no code with the program: reads JSON values by itself, counts days by itself, lives the plan by itself.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::Value;

/// What a plan comes to, and what it breaks.
#[derive(Debug, Clone, Default)]
pub struct Verdict {
    /// The sums of the plan by their field names.
    pub figures: BTreeMap<&'static str, f64>,
    /// Broken rules and wrong figures.
    pub broken: Vec<String>,
    /// Breaches by lived days.
    pub warnings: Vec<String>,
}

/// Days since 1970-01-01 of an ISO date (the civil calendar's own counting of leap years).
pub fn day_count(text: &str) -> i64 {
    let mut parts = text.split('-').map(|part| part.parse::<i64>().unwrap());
    let (year, month, day) = (
        parts.next().unwrap(),
        parts.next().unwrap(),
        parts.next().unwrap(),
    );
    let is_leap = |year: i64| (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    let mut days = 0;
    for y in 1970..year {
        days += if is_leap(y) { 366 } else { 365 };
    }
    for y in year..1970 {
        days -= if is_leap(y) { 366 } else { 365 };
    }
    let lengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    for (index, length) in lengths.iter().enumerate().take(month as usize - 1) {
        days += length + i64::from(index == 1 && is_leap(year));
    }
    days + day - 1
}

/// The season of a problem, as the checker reads it.
struct Reading<'a> {
    raw: &'a Value,
    first: i64,
    n: usize,
}

impl<'a> Reading<'a> {
    fn new(raw: &'a Value) -> Self {
        Self {
            raw,
            first: day_count(raw["first_day"].as_str().unwrap()),
            n: raw["days"].as_u64().unwrap() as usize,
        }
    }

    fn number(&self, date: &Value) -> i64 {
        day_count(date.as_str().unwrap()) - self.first
    }

    fn step(&self, steps: &Value, day: i64) -> f64 {
        let mut value = f64::NAN;
        for step in steps.as_array().unwrap() {
            if self.number(&step[0]) <= day {
                value = step[1].as_f64().unwrap();
            }
        }
        value
    }

    fn in_spans(&self, spans: &Value, day: i64) -> bool {
        let spans = spans.as_array().map_or(&[][..], Vec::as_slice);
        spans
            .iter()
            .any(|span| self.number(&span[0]) <= day && day <= self.number(&span[1]))
    }

    fn list(&self, name: &str) -> &'a [Value] {
        self.raw[name].as_array().map_or(&[], Vec::as_slice)
    }

    fn strip(&self, name: &str) -> &'a Value {
        self.list("strips")
            .iter()
            .find(|strip| strip["name"] == name)
            .unwrap()
    }

    fn weight(&self, name: &str, usual: f64) -> f64 {
        self.raw["weights"][name].as_f64().unwrap_or(usual)
    }

    /// Where a mob stands on the map: a strip's middle or its yard.
    fn spot(&self, mob: &Value, place: Option<&str>) -> (f64, f64) {
        let pair = match place {
            Some(name) => &self.strip(name)["at"],
            None => &mob["yard"],
        };
        (pair[0].as_f64().unwrap(), pair[1].as_f64().unwrap())
    }

    /// Whether a visit begins on this day (or runs into day 0), and so where the mob comes from.
    fn comes_from(&self, mob: &'a Value, day: i64, before: Option<&'a str>) -> Option<&'a str> {
        let visits = mob["visits"].as_array().unwrap();
        let begins = visits
            .iter()
            .any(|visit| self.number(&visit[0]).max(0) == day && self.number(&visit[1]) >= day);
        if !begins {
            before
        } else if day == 0 {
            mob["stood"].as_str()
        } else {
            None
        }
    }
}

/// Judges a plan of a problem.
pub fn judge(problem: &Value, plan: &Value) -> Verdict {
    let reading = Reading::new(problem);
    let mut verdict = Verdict::default();
    if !has_right_shape(&reading, plan, &mut verdict) {
        return verdict;
    }
    let cover = live(&reading, plan, &mut verdict);
    for strip in reading.list("strips") {
        judge_strip(&reading, plan, strip, &cover, &mut verdict);
    }
    judge_fixed(&reading, plan, &mut verdict);
    verdict
}

fn has_right_shape(reading: &Reading<'_>, plan: &Value, verdict: &mut Verdict) -> bool {
    let days = plan["days"].as_array().unwrap();
    if plan["model"] != 1 || days.len() != reading.n {
        verdict.broken.push("model or number of days".to_owned());
        return false;
    }
    for (t, day) in days.iter().enumerate() {
        let number = t as i64;
        let here: BTreeSet<&str> = reading
            .list("mobs")
            .iter()
            .filter(|mob| reading.in_spans(&mob["visits"], number))
            .map(|mob| mob["name"].as_str().unwrap())
            .collect();
        for field in ["stands", "short_kg"] {
            let named: BTreeSet<&str> = day[field]
                .as_object()
                .unwrap()
                .keys()
                .map(String::as_str)
                .collect();
            if named != here || reading.number(&day["day"]) != number {
                verdict.broken.push(format!("day {t}: mobs of {field}"));
                return false;
            }
        }
    }
    true
}

/// What a cover gains in a day whose growth is `g`: up to the ceiling, or along the logistic curve (DEVELOPERS.md, beyond the
/// model's first version).
fn kept_kg(cover: f64, g: f64, ceiling: f64, is_logistic: bool) -> f64 {
    if !is_logistic {
        return g.min(ceiling - cover).max(0.0);
    }
    if cover <= 0.0 || cover >= ceiling {
        return 0.0;
    }
    ceiling / (1.0 + (ceiling - cover) / cover * (-4.0 * g / ceiling).exp()) - cover
}

/// Lives the plan and compares every figure.
fn live(reading: &Reading<'_>, plan: &Value, verdict: &mut Verdict) -> BTreeMap<String, Vec<f64>> {
    let mut cover: BTreeMap<String, Vec<f64>> = BTreeMap::new();
    let mut now: BTreeMap<&str, f64> = BTreeMap::new();
    for strip in reading.list("strips") {
        let name = strip["name"].as_str().unwrap();
        now.insert(name, strip["cover"].as_f64().unwrap());
        cover.insert(name.to_owned(), vec![now[name]]);
    }
    let (mut short, mut lost, mut walk, mut moves) = (0.0, 0.0, 0.0, 0.0);
    let mut before: BTreeMap<&str, Option<&str>> = BTreeMap::new();
    for t in 0..reading.n {
        let day = t as i64;
        let row = &plan["days"][t];
        for mob in reading.list("mobs") {
            let name = mob["name"].as_str().unwrap();
            let Some(place) = row["stands"].get(name).map(Value::as_str) else {
                continue;
            };
            let demand = reading.step(&mob["demand"], day);
            let mut eaten = 0.0;
            if let Some(strip_name) = place {
                let strip = reading.strip(strip_name);
                let area = strip["area_ha"].as_f64().unwrap();
                let above = now[strip_name] - strip["leave"].as_f64().unwrap();
                eaten = demand.min(area * above.max(0.0));
                *now.get_mut(strip_name).unwrap() -= eaten / area;
            }
            short += demand - eaten;
            let said = row["short_kg"][name].as_f64().unwrap();
            compare(
                verdict,
                &format!("short of {name} on day {t}"),
                said,
                demand - eaten,
            );
            let from = reading.comes_from(mob, day, before.get(name).copied().flatten());
            if from != place {
                let (a, b) = (reading.spot(mob, from), reading.spot(mob, place));
                walk += (a.0 - b.0).hypot(a.1 - b.1);
                moves += 1.0;
            }
            before.insert(name, place);
        }
        for strip in reading.list("strips") {
            let name = strip["name"].as_str().unwrap();
            let g = reading.step(&reading.raw["growth"], day)
                * strip["growth_factor"].as_f64().unwrap();
            let ceiling = strip["ceiling"].as_f64().unwrap();
            let is_logistic = reading.raw["growth_shape"] == "logistic";
            let kept = kept_kg(now[name], g, ceiling, is_logistic);
            if !is_logistic && !reading.in_spans(&strip["closed"], day) {
                lost += (g - kept) * strip["area_ha"].as_f64().unwrap();
            }
            *now.get_mut(name).unwrap() += kept;
            cover.get_mut(name).unwrap().push(now[name]);
        }
    }
    let bare = bare_kg(reading, &now);
    let score = reading.weight("short", 1.0) * short
        + reading.weight("lost", 0.05) * lost
        + reading.weight("walk_per_m", 0.01) * walk
        + reading.weight("move", 0.0) * moves
        + reading.weight("bare", 0.2) * bare;
    let figures = [
        ("score", score),
        ("short_kg", short),
        ("lost_kg", lost),
        ("walk_m", walk),
        ("moves", moves),
        ("bare_kg", bare),
    ];
    for (name, value) in figures {
        compare(verdict, name, plan[name].as_f64().unwrap(), value);
    }
    verdict.figures = figures.into_iter().collect();
    compare_cover(plan, &cover, verdict);
    cover
}

/// What is wanted on the last morning and does not stand there.
fn bare_kg(reading: &Reading<'_>, now: &BTreeMap<&str, f64>) -> f64 {
    let strips = reading.list("strips").iter();
    let bare = strips.filter_map(|strip| {
        let wanted = strip["end_cover"].as_f64()?;
        let last = now[strip["name"].as_str().unwrap()];
        Some(strip["area_ha"].as_f64().unwrap() * (wanted - last).max(0.0))
    });
    bare.sum()
}

fn compare_cover(plan: &Value, cover: &BTreeMap<String, Vec<f64>>, verdict: &mut Verdict) {
    for (name, values) in cover {
        let said = plan["cover"][name].as_array().unwrap();
        if said.len() != values.len() {
            verdict.broken.push(format!("cover of {name}: length"));
        }
        for (t, (said, value)) in said.iter().zip(values).enumerate() {
            let what = format!("cover of {name} on day {t}");
            compare(verdict, &what, said.as_f64().unwrap(), *value);
        }
    }
}

fn compare(verdict: &mut Verdict, what: &str, said: f64, found: f64) {
    let slack = 1e-6 * said.abs().max(found.abs()).max(1.0);
    let agrees = (said - found).abs() <= slack;
    if !agrees {
        verdict
            .broken
            .push(format!("{what}: the plan says {said}, lived {found}"));
    }
}

fn judge_strip(
    reading: &Reading<'_>,
    plan: &Value,
    strip: &Value,
    cover: &BTreeMap<String, Vec<f64>>,
    verdict: &mut Verdict,
) {
    let name = strip["name"].as_str().unwrap();
    let longest = reading.raw["longest_stay_days"].as_u64().unwrap();
    let leave = strip["leave"].as_f64().unwrap();
    let enter = strip["enter"].as_f64().unwrap_or(leave);
    let mut spell = strip["stood_days"].as_u64().unwrap_or(0);
    // (last day of the former spell, rest it owes)
    let mut former: Option<(i64, f64)> = None;
    if spell > 0 || strip["rested_days"].is_number() {
        let usual = reading.step(&reading.raw["rest_days"], 0);
        former = Some((
            -1 - strip["rested_days"].as_i64().unwrap_or(0),
            strip["rest_owed_days"].as_f64().unwrap_or(usual),
        ));
    }
    for t in 0..reading.n {
        let day = t as i64;
        let stands = plan["days"][t]["stands"].as_object().unwrap();
        let here: Vec<&str> = stands
            .iter()
            .filter(|(_, place)| place.as_str() == Some(name))
            .map(|(mob, _)| mob.as_str())
            .collect();
        if here.is_empty() {
            if spell > 0 && t > 0 {
                former = Some((day - 1, reading.step(&reading.raw["rest_days"], day - 1)));
            }
            spell = 0;
            continue;
        }
        spell += 1;
        let mut charge = |rule: &str| {
            for mob in &here {
                let is_lived = reading.list("fixed").iter().any(|fixed| {
                    fixed["mob"] == **mob
                        && reading.number(&fixed["day"]) == day
                        && fixed["strip"] == name
                        && fixed["lived"] == true
                });
                let text = format!("{rule} day {t} {mob} on {name}");
                if is_lived {
                    verdict.warnings.push(text);
                } else {
                    verdict.broken.push(text);
                }
            }
        };
        if here.len() > 1 {
            charge("R1");
        }
        if reading.in_spans(&strip["closed"], day) {
            charge("R2");
        }
        if spell > longest {
            charge("R3");
        }
        if spell == 1 {
            if former.is_some_and(|(last, owed)| ((day - last - 1) as f64) < owed) {
                charge("R4");
            }
            if cover[name][t] < enter * (1.0 - 1e-9) {
                charge("R5");
            }
        }
    }
}

fn judge_fixed(reading: &Reading<'_>, plan: &Value, verdict: &mut Verdict) {
    let mut seen = BTreeSet::new();
    for fixed in reading.list("fixed") {
        let mob = fixed["mob"].as_str().unwrap();
        let day = reading.number(&fixed["day"]);
        let stands = usize::try_from(day)
            .ok()
            .and_then(|t| plan["days"].get(t))
            .and_then(|row| row["stands"].get(mob));
        if stands != Some(&fixed["strip"]) || !seen.insert((mob, day)) {
            verdict.broken.push(format!("R6 day {day} {mob}"));
        }
    }
}
