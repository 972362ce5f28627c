//! The printed form as text: eighty columns, a block for each day, blanks to write in.
//!
//! Words only; every figure comes from the rows.

use super::day_rows::{HenRow, MobRow, SheetDay};
use super::sums::{StripSums, WATER_WALK_M};
use crate::farm::Farm;
use crate::planning::SeasonPlan;
use crate::quantity::{
    Day, UnitSystem, area_both_text, count_text, length_text, mass_text, plural_text,
};

/// The whole form with a block for each day.
pub fn sheet_text(farm: &Farm, plan: &SeasonPlan, days: &[SheetDay]) -> String {
    let mut text = format!("{}\n", farm.name);
    push_note(&mut text, farm);
    for day in days {
        push_line(&mut text, "");
        push_line(&mut text, &"─".repeat(80));
        push_line(&mut text, &day.day.long_text());
        for mob in &day.mobs {
            push_mob(&mut text, mob);
        }
        for house in &day.hens {
            push_hens(&mut text, house);
        }
        if day.mobs.is_empty() && day.hens.is_empty() {
            push_line(&mut text, "  No animal is on the farm.");
        }
    }
    push_footer(&mut text, farm, plan);
    text
}

/// One line for each mob and house and day.
pub fn sheet_text_short(days: &[SheetDay]) -> String {
    let mut text = String::new();
    for day in days {
        let name = day.day.row_text();
        for mob in &day.mobs {
            let place = mob.strip.as_deref().unwrap_or("the yard");
            let act = match &mob.moved_from {
                Some(from) if from == "arrive" => "arrive on".to_owned(),
                Some(from) => format!("from {from} to"),
                None => "stay on".to_owned(),
            };
            let stay = format!("day {} of {}", mob.stay.0, mob.stay.1);
            let short = if mob.short_kg > 0.05 {
                format!(", {} short", mass_text(mob.short_kg))
            } else {
                String::new()
            };
            push_line(
                &mut text,
                &format!("{name:<10}  {}: {act} {place} ({stay}{short})", mob.mob),
            );
        }
        for house in &day.hens {
            let act = if house.moves { "move to" } else { "stay on" };
            let (place, of) = house.place;
            push_line(
                &mut text,
                &format!(
                    "{name:<10}  {}: {act} {} place {place} of {of}",
                    house.house, house.line
                ),
            );
        }
    }
    text
}

fn push_line(text: &mut String, line: &str) {
    text.push_str(line);
    text.push('\n');
}

fn push_note(text: &mut String, farm: &Farm) {
    if !farm.note.is_empty() {
        push_line(text, &farm.note);
    }
}

fn push_mob(text: &mut String, mob: &MobRow) {
    let head = count_text(u64::from(mob.head));
    push_line(text, "");
    push_line(
        text,
        &format!("  {} – {head} {} ({})", mob.mob, mob.class, mob.state),
    );
    let place = match (&mob.strip, &mob.ley) {
        (Some(strip), Some(ley)) => format!("{strip} in {ley}"),
        (Some(strip), None) => strip.clone(),
        (None, _) => "the yard: hay to be carried".to_owned(),
    };
    match &mob.moved_from {
        Some(from) if from == "arrive" => push_fact(text, "Where", &format!("arrive on {place}")),
        Some(from) => push_fact(
            text,
            "Where",
            &format!(
                "MOVE from {from} to {place}, {} to walk",
                length_text(mob.walk_m, UnitSystem::Metric)
            ),
        ),
        None => push_fact(text, "Where", &format!("stay on {place}")),
    }
    push_fact(text, "Stay", &stay_text(mob));
    if let Some(sums) = &mob.sums {
        push_sums(text, mob, sums);
    }
    if mob.short_kg > 0.05 {
        push_fact(
            text,
            "SHORT",
            &format!("{} DM: carry hay", mass_text(mob.short_kg)),
        );
    }
    if let Some(days) = mob.days_ahead {
        push_fact(
            text,
            "Ahead",
            &format!("{days:.1} days of standing grass for this mob alone, growth left out"),
        );
    }
    for why in &mob.why {
        push_fact(text, "Why", why);
    }
    push_fact(
        text,
        "Noted",
        "counted in ____ out ____  volts ____  height out ____ cm  lame or ill ____",
    );
    push_fact(
        text,
        "",
        "weather ______________________  signed ______________________",
    );
}

fn stay_text(mob: &MobRow) -> String {
    let (now, of) = mob.stay;
    let next = match (&mob.next, mob.leaves_on) {
        (Some(next), Some(day)) => format!("; {} they go to {next}", day.row_text()),
        _ => "; the plan ends here".to_owned(),
    };
    format!("day {now} of {of}{next}").replace("go to off the farm", "leave the farm")
}

fn push_sums(text: &mut String, mob: &MobRow, sums: &StripSums) {
    let metric = UnitSystem::Metric;
    if mob.moved_from.is_some() {
        let fence = if sums.fence_m > 0.5 {
            let rolls = plural_text(u64::from(sums.rolls), "roll", "rolls");
            format!(
                "{} to put up, {rolls} of 50 m netting",
                length_text(sums.fence_m, metric)
            )
        } else {
            "none to put up: its boundary stands".to_owned()
        };
        push_fact(
            text,
            "Fence",
            &format!("{fence}; {} round it", length_text(sums.round_m, metric)),
        );
    }
    push_way_in(text, mob, sums);
    push_fact(text, "Area", &area_both_text(sums.area_m2, metric));
    let each = sums.demand_kg / f64::from(mob.head.max(1));
    let head = count_text(u64::from(mob.head));
    push_fact(
        text,
        "Feed",
        &format!(
            "{head} × {each:.2} = {} DM a day",
            mass_text(sums.demand_kg)
        ),
    );
    let lasts = sums
        .lasts_days
        .map_or("grows as fast as it is eaten".to_owned(), |days| {
            format!("lasts {days:.1} days")
        });
    push_fact(
        text,
        "",
        &format!(
            "cover in {:.0}, target out {:.0} (planned {:.0}) kg DM/ha: {} DM, {lasts}",
            sums.cover_in_kg_per_ha,
            sums.leave_kg_per_ha,
            sums.cover_out_kg_per_ha,
            mass_text(sums.feed_kg)
        ),
    );
    let rested = match (sums.rested_days, &sums.last_by) {
        (Some(days), Some(who)) => {
            format!(
                "{} since {who}",
                plural_text(u64::try_from(days).unwrap_or(0), "day", "days")
            )
        }
        _ => "not grazed before in this season".to_owned(),
    };
    push_fact(
        text,
        "Rested",
        &format!("{rested}; ready again {}", sums.ready_on.row_text()),
    );
    push_water(text, sums);
    for caution in &sums.cautions {
        push_fact(text, "Look out", caution);
    }
}

fn push_water(text: &mut String, sums: &StripSums) {
    let metric = UnitSystem::Metric;
    let (least, most) = sums.water_l;
    let litres = if most - least > 1.0 {
        format!("{least:.0}–{most:.0} L a day")
    } else {
        format!("{most:.0} L a day")
    };
    let trough = match (&sums.water_name, sums.water_farthest_m) {
        (Some(name), Some(distance_m)) if distance_m > WATER_WALK_M => {
            format!(
                "{name}, {} to the farthest corner: TOO FAR, bring a trough",
                length_text(distance_m, metric)
            )
        }
        (Some(name), Some(distance_m)) => {
            format!(
                "{name}, {} to the farthest corner",
                length_text(distance_m, metric)
            )
        }
        _ => "no trough on the map: carry water".to_owned(),
    };
    push_fact(text, "Water", &format!("{litres}; {trough}"));
}

/// On the day of a move: which gate, and the fence that is closed behind them.
fn push_way_in(text: &mut String, mob: &MobRow, sums: &StripSums) {
    let Some(from) = &mob.moved_from else { return };
    let gate = match &sums.gate {
        Some((name, distance_m)) if *distance_m < 1.0 => format!("{name}, into the strip"),
        Some((name, distance_m)) => format!(
            "{name}, {} from the strip",
            length_text(*distance_m, UnitSystem::Metric)
        ),
        None => "no gate on the map".to_owned(),
    };
    push_fact(text, "Gate", &gate);
    if from != "arrive" && from != "the yard" {
        // Regrowth shows three days after a bite (grazing advice of Teagasc and of USDA-NRCS, seen in extracts).
        push_fact(
            text,
            "Back",
            &format!("fence {from} off behind them today: its regrowth shows from the third day"),
        );
    }
}

fn push_hens(text: &mut String, house: &HenRow) {
    let (place, of) = house.place;
    push_line(text, "");
    push_line(
        text,
        &format!(
            "  {} – {} hens ({})",
            house.house,
            count_text(u64::from(house.hens)),
            house.state.replace('_', " ")
        ),
    );
    let act = match (house.moves, house.is_housed) {
        (true, _) => "MOVE to",
        (false, true) => "SHUT IN, stay on",
        (false, false) => "stay on",
    };
    let along = length_text(house.along_m, UnitSystem::Metric);
    push_fact(
        text,
        "Where",
        &format!(
            "{act} {}, place {place} of {of}, {along} along it",
            house.line
        ),
    );
    let rested = house
        .rested_days
        .map_or("first time on this ground".to_owned(), |days| {
            format!(
                "{} without hens",
                plural_text(u64::from(days), "day", "days")
            )
        });
    push_fact(
        text,
        "Rested",
        &format!(
            "{rested}; {} wanted",
            plural_text(u64::from(house.rest_days_wanted), "day", "days")
        ),
    );
    if let Some(m2) = house.m2_per_hen {
        push_fact(text, "Ground", &format!("{m2:.2} m² for each hen today"));
    }
    if let Some(tow_m) = house.tow_m {
        let way = length_text(tow_m, UnitSystem::Metric);
        push_fact(
            text,
            "Tow",
            &format!("{way}, clear of trunks, water, crops and fences"),
        );
    }
    for caution in &house.cautions {
        push_fact(text, "Look out", caution);
    }
    push_fact(
        text,
        "Noted",
        "moved ____  shut in ____  eggs ____  feed ____ kg  water ____ L",
    );
}

/// A fact under its name, broken at eighty columns.
fn push_fact(text: &mut String, name: &str, fact: &str) {
    let mut line = format!("    {name:<9}");
    let mut width = 13;
    for word in fact.split(' ') {
        let length = word.chars().count();
        if width + length + 1 > 80 && width > 13 {
            push_line(text, line.trim_end());
            line = " ".repeat(13);
            width = 13;
        }
        line.push_str(word);
        line.push(' ');
        width += length + 1;
    }
    push_line(text, line.trim_end());
}

/// What becomes of the season where grass grows half as fast from a day's month on, as `halved` has it.
pub fn half_growth_text(halved: &SeasonPlan, from: Day) -> String {
    let first = halved.index_of(from).unwrap_or(if from < halved.first_day {
        0
    } else {
        halved.days
    });
    let short: Vec<usize> = (first..halved.days)
        .filter(|day| halved.short_on(*day) > 0.5)
        .collect();
    let outcome = match short.first() {
        None => "still no day short".to_owned(),
        Some(day) => {
            let total_kg: f64 = short.iter().map(|day| halved.short_on(*day)).sum();
            format!(
                "short from {}, {} in all, {} DM: carry hay or keep fewer head",
                halved.day_at(*day).long_text(),
                plural_text(u64::try_from(short.len()).unwrap_or(0), "day", "days"),
                mass_text(total_kg)
            )
        }
    };
    let mut text = String::from("If growth falls by half\n");
    let line = format!("from {} {} on: {outcome}", from.month_name(), from.year());
    push_fact(&mut text, "·", &line);
    text
}

/// Cautions with hen houses that are towed.
const HENS_EVERY_DAY: [&str; 3] = [
    "Towing a house: the program does not know slopes. Go straight up or down, never turn across steep ground, keep people \
     from between house and tractor, shut hens in first (common practice, no source).",
    "Electric netting can trap lambs, wildlife and children, and a flat battery is no fence: look along it daily (common \
     practice, no source).",
    "A housing order may shut hens in at short notice; keep sheep from hen feed, whose copper harms them (poultry feed may \
     hold 25 mg to the kg, sheep feed 15: Regulation (EU) 2018/1039, as read in trade summaries).",
];

/// What was assumed, and the cautions that hold every day.
fn push_footer(text: &mut String, farm: &Farm, plan: &SeasonPlan) {
    push_line(text, "");
    push_line(text, &"─".repeat(80));
    push_line(text, "Assumed");
    for line in plan.assumptions.iter().chain(&plan.warnings) {
        push_fact(text, "·", line);
    }
    push_fact(text, "·", &format!("Sward figures: {}", farm.sward.source));
    for mob in farm.mobs.values() {
        let source = mob.class.facts().intake_share.source;
        let line = match mob.eats_kg_per_head {
            Some(kg) => format!(
                "{}: {kg:.2} kg DM a head and day, the grower's own figure",
                mob.name
            ),
            None => format!("{}: intake by class, {source}", mob.name),
        };
        push_fact(text, "·", &line);
    }
    push_line(text, "Every day");
    if !farm.hen_houses.is_empty() {
        for line in HENS_EVERY_DAY {
            push_fact(text, "·", line);
        }
    }
    for line in [
        "Look at every animal, the water and the volts; count in and out.",
        "Electric fence: warning signs along paths and roads; horned sheep and netting do not go together \
         (Code of Recommendations for the Welfare of Livestock: Sheep, Defra PB5162, paragraphs 50-51).",
        "Keep fences well away from overhead lines, and cross beneath them at right angles; ask before digging in posts \
         where cables or pipes may lie.",
        "Days of rest for grass are not days of rest from worms: ask your vet.",
        "The plan is advice; the eye, local rules and the vet decide.",
    ] {
        push_fact(text, "·", line);
    }
}
