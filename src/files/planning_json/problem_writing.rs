//! The planning problem written as JSON, so that it reads back equal.

use serde_json::{Map, Value, json};

use crate::farm::GrowthShape;
use crate::planning::{DaySpan, Problem, ProblemMob, ProblemStrip, Step};

/// The problem as indented JSON text, ending in a line break.
pub fn problem_text(problem: &Problem) -> String {
    let weights = &problem.weights;
    let fixed = problem.fixed.iter().map(|fixed| {
        let mut value = json!({
            "mob": fixed.mob,
            "day": fixed.day.to_string(),
            "strip": fixed.strip,
        });
        if fixed.lived
            && let Some(fields) = value.as_object_mut()
        {
            fields.insert("lived".to_owned(), json!(true));
        }
        value
    });
    let mut value = json!({
        "model": 1,
        "first_day": problem.first_day.to_string(),
        "days": problem.days,
        "growth": steps_value(&problem.growth),
        "rest_days": steps_value(&problem.rest_days),
        "longest_stay_days": problem.longest_stay_days,
        "strips": problem.strips.iter().map(strip_value).collect::<Vec<_>>(),
        "mobs": problem.mobs.iter().map(mob_value).collect::<Vec<_>>(),
        "fixed": fixed.collect::<Vec<_>>(),
        "weights": {
            "short": weights.short,
            "lost": weights.lost,
            "walk_per_m": weights.walk_per_m,
            "move": weights.move_each,
            "bare": weights.bare,
        },
    });
    if problem.growth_shape == GrowthShape::Logistic
        && let Some(fields) = value.as_object_mut()
    {
        fields.insert("growth_shape".to_owned(), json!("logistic"));
    }
    format!("{value:#}\n")
}

fn steps_value(steps: &[Step]) -> Value {
    steps
        .iter()
        .map(|step| json!([step.from.to_string(), step.value]))
        .collect()
}

fn spans_value(spans: &[DaySpan]) -> Value {
    spans
        .iter()
        .map(|span| json!([span.first.to_string(), span.last.to_string()]))
        .collect()
}

fn strip_value(strip: &ProblemStrip) -> Value {
    let mut fields = Map::new();
    let mut put = |name: &str, value: Value| {
        if !value.is_null() {
            fields.insert(name.to_owned(), value);
        }
    };
    put("name", json!(strip.name));
    put("area_ha", json!(strip.area_ha));
    put("cover", json!(strip.cover));
    put("leave", json!(strip.leave));
    put("enter", json!(strip.enter));
    put("ceiling", json!(strip.ceiling));
    put("growth_factor", json!(strip.growth_factor));
    put("at", json!(strip.at));
    put("rested_days", json!(strip.rested_days));
    put("stood_days", json!(strip.stood_days));
    put("end_cover", json!(strip.end_cover));
    put("rest_owed_days", json!(strip.rest_owed_days));
    if !strip.closed.is_empty() {
        put("closed", spans_value(&strip.closed));
    }
    Value::Object(fields)
}

fn mob_value(mob: &ProblemMob) -> Value {
    let mut value = json!({
        "name": mob.name,
        "visits": spans_value(&mob.visits),
        "demand": steps_value(&mob.demand),
        "yard": mob.yard,
    });
    if let (Some(stood), Some(fields)) = (&mob.stood, value.as_object_mut()) {
        fields.insert("stood".to_owned(), json!(stood));
    }
    value
}
