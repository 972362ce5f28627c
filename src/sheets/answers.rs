//! Answers to a grower's questions in words, the same in the window and on paper. kg DM, head, days.

use std::fmt::Write as _;

use crate::planning::questions::{
    CarryAnswer, Comparison, Outcome, Remedies, StopAnswer, UntilAnswer,
};
use crate::quantity::{Day, UnitSystem, count_text, decimal_text, length_text};

/// What every searched answer rests on.
pub const RESTS_ON: &str = "Found by planning with more and fewer, and planned again in full: the figures of the grass \
                            and every rule as set, days before the first as planned. A better plan may be there; the eye \
                            decides.";

/// What every remedy rests on.
pub const REMEDIES_TOLD: &str =
    "Each was planned again in full, by itself, with feed before walks and lost growth.";

/// How many head.
pub fn head_text(found: &CarryAnswer, (from, to): (Day, Day)) -> String {
    let mut text = if found.head == 0 {
        format!(
            "Not one head from {} to {} without a short day.",
            from.short_text(),
            to.short_text()
        )
    } else {
        format!(
            "{} head from {} to {} with no day short.",
            count_text(u64::from(found.head)),
            from.short_text(),
            to.short_text()
        )
    };
    if let Some(more) = &found.with_one_more {
        let _written = write!(text, " With one more: {}.", more.short_text());
    }
    if let Some(plan) = &found.with_them {
        text += &end_text(plan);
    }
    format!("{text}\n{RESTS_ON}")
}

/// Until what day.
pub fn until_text(found: &UntilAnswer, who: &str, (from, to): (Day, Day)) -> String {
    let mut text = match found.last {
        None => format!("{who}: {} is short already.", from.long_text()),
        Some(last) if last >= to => format!(
            "{who}: to {} and longer, the last day asked about, with no day short.",
            last.long_text()
        ),
        Some(last) => format!("{who}: to {} with no day short.", last.long_text()),
    };
    if let Some(more) = &found.a_day_more {
        let _written = write!(text, " A day more: {}.", more.short_text());
    }
    if let Some(plan) = &found.to_then {
        text += &end_text(plan);
    }
    format!("{text}\n{RESTS_ON}")
}

/// When to stop.
pub fn stop_text(found: &StopAnswer, keep: f64, (from, to): (Day, Day)) -> String {
    let keep = decimal_text(keep, 0);
    let mut text = match found.last {
        None => format!(
            "Not to be had: with no sheep from {} on, {} kg DM/ha stand on average after {}, and {keep} are wanted.",
            from.short_text(),
            cover_text(&found.then),
            to.short_text()
        ),
        Some(last) if last < from => format!(
            "Stop now: with no sheep from {} on, {} kg DM/ha stand on average after {}.",
            from.short_text(),
            cover_text(&found.then),
            to.short_text()
        ),
        Some(last) => format!(
            "Last day of grazing: {}. Then {} kg DM/ha stand on average after {}; {}.",
            last.long_text(),
            cover_text(&found.then),
            to.short_text(),
            found.then.short_text()
        ),
    };
    if let Some(more) = &found.a_day_more {
        let _written = write!(text, " A day more of grazing leaves {}.", cover_text(more));
    }
    format!("{text}\nThe average is over all grazed ground, by area.\n{RESTS_ON}")
}

/// Rows of two plans: what, as it is, changed, difference.
pub fn comparison_rows(found: &Comparison) -> Vec<[String; 4]> {
    let (a, b) = (&found.as_is, &found.changed);
    let whole = |figure: f64| decimal_text(figure, 0);
    let by = |name: &str, a: f64, b: f64, text: &dyn Fn(f64) -> String| {
        let difference = b - a;
        let sign = if difference > 0.0 { "+" } else { "" };
        let told = if difference.abs() < 0.5 {
            "the same".to_owned()
        } else {
            format!("{sign}{}", text(difference))
        };
        [name.to_owned(), text(a), text(b), told]
    };
    let count = |count: usize| f64::from(u32::try_from(count).unwrap_or(u32::MAX));
    let metres = |m: f64| {
        let sign = if m < 0.0 { "−" } else { "" };
        format!("{sign}{}", length_text(m.abs(), UnitSystem::Metric))
    };
    let cover = |outcome: &Outcome| outcome.end_cover_kg_per_ha.unwrap_or(0.0);
    vec![
        by(
            "Short days",
            count(a.short_days),
            count(b.short_days),
            &whole,
        ),
        by("Hay, kg DM", a.short_kg, b.short_kg, &whole),
        by("Moves", count(a.moves), count(b.moves), &whole),
        by("Walk", a.walk_m, b.walk_m, &metres),
        by("Cover at the end, kg DM/ha", cover(a), cover(b), &whole),
    ]
}

/// Two plans side by side.
pub fn comparison_text(found: &Comparison) -> String {
    let mut text = format!(
        "{:<28}{:>12}{:>12}{:>12}\n",
        "", "as it is", "changed", "difference"
    );
    for [name, a, b, difference] in comparison_rows(found) {
        let _written = writeln!(text, "{name:<28}{a:>12}{b:>12}{difference:>12}");
    }
    text
}

/// What helps.
pub fn remedies_text(found: &Remedies) -> String {
    if found.as_is.is_fed() {
        return "No day is short.".to_owned();
    }
    let mut text = format!("As it is: {}.\n", found.as_is.short_text());
    for remedy in &found.remedies {
        let _written = writeln!(text, "{}: {}.", remedy.words, remedy.with_it.short_text());
    }
    if found.remedies.is_empty() {
        text += "Nothing that was tried helps.\n";
    }
    text + REMEDIES_TOLD
}

fn cover_text(outcome: &Outcome) -> String {
    outcome.end_cover_kg_per_ha.map_or_else(
        || "no cover known".to_owned(),
        |cover| decimal_text(cover, 0),
    )
}

fn end_text(plan: &Outcome) -> String {
    format!(
        " {} moves; {} kg DM/ha stand on average after {}.",
        plan.moves,
        cover_text(plan),
        plan.last.short_text()
    )
}
