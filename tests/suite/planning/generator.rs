//! Seeded planning problems of many kinds, as JSON values: easy and tight, with fixed and lived days, several mobs,
//! closed days, running spells and owed rest.

use serde_json::{Value, json};

/// A small generator of chance (`SplitMix64`: Steele, Lea and Flood, "Fast splittable pseudorandom number generators",
/// OOPSLA 2014, figure 16), so that problems do not hang on a library's version.
pub struct Chance(u64);

impl Chance {
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub fn word(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A whole number from `low` to `high`, both included.
    pub fn whole(&mut self, low: i64, high: i64) -> i64 {
        low + (self.word() % u64::try_from(high - low + 1).unwrap()) as i64
    }

    /// A number in a range, rounded to `step`.
    pub fn figure(&mut self, low: f64, high: f64, step: f64) -> f64 {
        let share = (self.word() >> 11) as f64 / (1_u64 << 53) as f64;
        let value = ((low + share * (high - low)) / step).round() * step;
        (value * 1000.0).round() / 1000.0
    }

    pub fn one_in(&mut self, n: i64) -> bool {
        self.whole(1, n) == 1
    }
}

/// What a generated problem is like.
#[derive(Debug, Clone, Copy)]
pub struct Kind {
    pub strips: i64,
    pub days: i64,
    pub mobs: i64,
    /// Demand as a share of what grows: 1 is tight.
    pub pressure: f64,
    /// Lived days at the start.
    pub lived_days: i64,
    pub seed: u64,
}

const FIRST_DAY: &str = "2027-04-01";

/// The date so many days after the first day of generated problems.
pub fn date(day: i64) -> String {
    let lengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    let (mut year, mut month, mut rest) = (2027, 3, day);
    while rest < 0 {
        month = (month + 11) % 12;
        if month == 11 {
            year -= 1;
        }
        rest += length(year, month, &lengths);
    }
    while rest >= length(year, month, &lengths) {
        rest -= length(year, month, &lengths);
        month = (month + 1) % 12;
        if month == 0 {
            year += 1;
        }
    }
    format!("{year:04}-{:02}-{:02}", month + 1, rest + 1)
}

fn length(year: i64, month: usize, lengths: &[i64; 12]) -> i64 {
    lengths[month] + i64::from(month == 1 && year % 4 == 0)
}

/// A problem of this kind.
pub fn problem(kind: &Kind) -> Value {
    let mut chance = Chance::new(kind.seed);
    let longest = chance.whole(1, 5);
    let growth: Vec<Value> = steps(&mut chance, kind.days, 15, 15.0, 100.0);
    let rest: Vec<Value> = steps(&mut chance, kind.days, 30, 12.0, 40.0)
        .into_iter()
        .map(|step| json!([step[0], step[1].as_f64().unwrap().round()]))
        .collect();
    let mean_growth: f64 = growth
        .iter()
        .map(|step| step[1].as_f64().unwrap())
        .sum::<f64>()
        / growth.len() as f64;
    let mut east = 10.0;
    let mut area_sum = 0.0;
    let strips: Vec<Value> = (0..kind.strips)
        .map(|index| {
            let strip = strip(&mut chance, kind, index, &mut east);
            area_sum += strip["area_ha"].as_f64().unwrap();
            strip
        })
        .collect();
    let daily = kind.pressure * mean_growth * area_sum / kind.mobs as f64;
    let mobs: Vec<Value> = (0..kind.mobs)
        .map(|index| mob(&mut chance, kind, index, daily))
        .collect();
    let fixed = fixed_days(&mut chance, kind, &strips, &mobs);
    let mut problem = json!({
        "model": 1,
        "first_day": FIRST_DAY,
        "days": kind.days,
        "growth": growth,
        "rest_days": rest,
        "longest_stay_days": longest,
        "strips": strips,
        "mobs": mobs,
        "fixed": fixed,
    });
    if chance.one_in(2) {
        problem["weights"] = json!({"bare": 1.0, "move": chance.figure(0.0, 2.0, 0.5)});
    }
    problem
}

fn steps(chance: &mut Chance, days: i64, every: i64, low: f64, high: f64) -> Vec<Value> {
    let mut found = vec![json!([
        date(-chance.whole(0, 20)),
        chance.figure(low, high, 0.1)
    ])];
    let mut day = chance.whole(5, every);
    while day < days {
        found.push(json!([date(day), chance.figure(low, high, 0.1)]));
        day += chance.whole(8, every + 5);
    }
    found
}

fn strip(chance: &mut Chance, kind: &Kind, index: i64, east: &mut f64) -> Value {
    *east += chance.figure(12.0, 25.0, 0.1);
    let leave = 1400 + 100 * chance.whole(0, 3);
    let mut strip = json!({
        "name": format!("{}{}", ["A", "B", "C", "D"][(index % 4) as usize], index / 4 + 1),
        "area_ha": chance.figure(0.12, 0.4, 0.001),
        "cover": leave + chance.whole(0, 1400),
        "leave": leave,
        "ceiling": 3200 + 400 * chance.whole(0, 2),
        "growth_factor": chance.figure(0.7, 1.25, 0.01),
        "at": [(*east * 10.0).round() / 10.0, 40.0 + 60.0 * (index % 2) as f64],
    });
    if chance.one_in(2) {
        strip["enter"] = json!(leave + 100 * chance.whole(2, 9));
    }
    if chance.one_in(3) {
        strip["rested_days"] = json!(chance.whole(0, 40));
    } else if chance.one_in(8) {
        strip["stood_days"] = json!(chance.whole(1, 3));
    }
    if chance.one_in(3) {
        strip["rest_owed_days"] = json!(chance.whole(10, 40));
    }
    if chance.one_in(3) {
        strip["end_cover"] = json!(leave + 100 * chance.whole(2, 8));
    }
    if chance.one_in(4) {
        let from = chance.whole(-5, kind.days);
        strip["closed"] = json!([[date(from), date(from + chance.whole(0, 50))]]);
    }
    strip
}

fn mob(chance: &mut Chance, kind: &Kind, index: i64, daily: f64) -> Value {
    let start = if chance.one_in(2) {
        -chance.whole(0, 30)
    } else {
        chance.whole(0, kind.days / 4)
    };
    let end = kind.days - chance.whole(0, kind.days / 4);
    let middle = start + (end - start) / 2;
    let visits = match chance.whole(0, 2) {
        0 => json!([[date(start), date(middle)], [date(middle + 1), date(end)]]),
        1 if middle + 4 < end => {
            json!([[date(start), date(middle)], [date(middle + 4), date(end)]])
        }
        _ => json!([[date(start), date(end)]]),
    };
    let mut demand = vec![json!([date(start), (daily * 10.0).round() / 10.0])];
    if chance.one_in(2) && middle > start {
        demand.push(json!([
            date(middle),
            chance.figure(daily * 0.5, daily * 1.5, 0.1)
        ]));
    }
    let names = ["ewes", "rams", "lambs", "goats"];
    let mut mob = json!({
        "name": names[index as usize % 4],
        "visits": visits,
        "demand": demand,
        "yard": [-15.0 - 20.0 * index as f64, 20.0],
    });
    if start <= 0 && chance.one_in(2) {
        mob["stood"] = Value::Null;
    }
    mob
}

/// Lived days at the start, as a careless hand would log them: rules may be broken, strips even shared.
fn fixed_days(chance: &mut Chance, kind: &Kind, strips: &[Value], mobs: &[Value]) -> Vec<Value> {
    let mut fixed = Vec::new();
    for mob in mobs {
        let visits = mob["visits"].as_array().unwrap();
        let mut place = Value::Null;
        for day in 0..kind.lived_days.min(kind.days) {
            let date_text = date(day);
            let here = visits.iter().any(|visit| {
                visit[0].as_str().unwrap() <= date_text.as_str()
                    && date_text.as_str() <= visit[1].as_str().unwrap()
            });
            if chance.one_in(3) {
                let pick = chance.whole(0, strips.len() as i64 - 1) as usize;
                place = strips[pick]["name"].clone();
            }
            if here {
                fixed.push(
                    json!({"mob": mob["name"], "day": date_text, "strip": place, "lived": true}),
                );
            }
        }
    }
    fixed
}

/// A spread of kinds by number, from tiny to middling.
pub fn kind_number(number: u64) -> Kind {
    let mut chance = Chance::new(number.wrapping_mul(77_777) + 5);
    Kind {
        strips: chance.whole(2, 14),
        days: chance.whole(5, 100),
        mobs: chance.whole(1, 3),
        pressure: chance.figure(0.3, 1.6, 0.1),
        lived_days: if chance.one_in(2) {
            0
        } else {
            chance.whole(1, 15)
        },
        seed: number,
    }
}
