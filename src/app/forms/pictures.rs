//! The page of pictures: the feed wedge, supply and demand, rest, and what each strip bore; each as a table too.
//!
//! Rows first, as plain data; `chart` paints them. A press on a bar picks its strip, on a day brings it into view.

use egui::Ui;

use super::chart::{Bar, CurveDay, bars_ui, curves_ui};
use super::course::words_table_ui;
use super::field::{heading_ui, small_ui};
use crate::app::desk::Desk;
use crate::farm::{Farm, GroundId};
use crate::planning::{
    BorneBar, LIMIT_SOURCE, MOST_N_KG_PER_HA, NitrogenSet, RestBar, SeasonPlan, SupplyDay,
    WedgeBar, borne, feed_wedge, rests, supply_and_demand,
};
use crate::quantity::{Day, MONTH_NAMES, decimal_text, plural_text};
use crate::sheets::palette::Ink;

/// From how much missing feed a day counts as short, kg DM.
const SHORT_KG: f64 = 0.5;

/// What a press on a picture asks for.
enum Wish {
    Ground(GroundId),
    Day(Day),
}

/// The page.
pub(super) fn pictures_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some(plan) = desk.plan.clone() else {
        ui.label("The pictures come with the plan: put in a flock, and draw what it grazes.");
        return;
    };
    let farm = desk.farm();
    let mut wish = wedge_ui(ui, farm, &plan, desk.day);
    wish = wish.or(supply_ui(ui, farm, &plan, desk.day));
    wish = wish.or(rests_ui(ui, &rests(farm, &plan)));
    wish = wish.or(borne_ui(ui, &borne(farm, &plan, NitrogenSet::EuOrganic)));
    match wish {
        Some(Wish::Ground(ground)) => desk.select_only(ground),
        Some(Wish::Day(day)) => desk.go_to(day),
        None => {}
    }
}

fn wedge_ui(ui: &mut Ui, farm: &Farm, plan: &SeasonPlan, day: Day) -> Option<Wish> {
    let wedge = feed_wedge(farm, plan, day);
    heading_ui(ui, &format!("Grass in hand, {}", day.short_text()));
    if wedge.is_empty() {
        ui.label("This day is not planned, or nothing is open on it.");
        return None;
    }
    let spoken = wedge_text(&wedge);
    small_ui(ui, &spoken);
    let bars: Vec<Bar> = wedge.iter().map(wedge_bar).collect();
    let pressed = bars_ui(ui, &bars, Ink::Spell, true, &spoken);
    small_ui(
        ui,
        "Tallest first; the line falls from the cover to enter at down to what is left. A strip under it is behind.",
    );
    let head = ["Strip", "Cover kg/ha", "Line kg/ha"];
    let rows = wedge.iter().map(|bar| {
        let figure = |value| decimal_text(value, 0);
        vec![
            bar.name.clone(),
            figure(bar.cover_kg_per_ha),
            figure(bar.line_kg_per_ha),
        ]
    });
    table_ui(ui, "wedge", &head, rows);
    pressed
        .and_then(|place| wedge.get(place))
        .map(|bar| Wish::Ground(bar.ground))
}

/// How the strips stand against the line, in words.
fn wedge_text(wedge: &[WedgeBar]) -> String {
    #[expect(clippy::cast_precision_loss, reason = "strips of a farm are few")]
    let count = wedge.len().max(1) as f64;
    let mean = |pick: fn(&WedgeBar) -> f64| wedge.iter().map(pick).sum::<f64>() / count;
    let cover = mean(|bar| bar.cover_kg_per_ha);
    let ahead = cover - mean(|bar| bar.line_kg_per_ha);
    let behind = wedge.iter().filter(|bar| is_behind(bar)).count();
    format!(
        "{} with {} kg/ha in the mean, {} kg/ha {} the line; {behind} behind it.",
        plural_text(
            u64::try_from(wedge.len()).unwrap_or(0),
            "open strip",
            "open strips"
        ),
        decimal_text(cover, 0),
        decimal_text(ahead.abs(), 0),
        if ahead < 0.0 { "under" } else { "over" }
    )
}

fn is_behind(bar: &WedgeBar) -> bool {
    bar.cover_kg_per_ha < bar.line_kg_per_ha
}

fn wedge_bar(bar: &WedgeBar) -> Bar {
    Bar {
        value: bar.cover_kg_per_ha,
        mark: Some(bar.line_kg_per_ha),
        is_behind: is_behind(bar),
        words: format!(
            "{}: {} kg DM/ha, the line asks for {}",
            bar.name,
            decimal_text(bar.cover_kg_per_ha, 0),
            decimal_text(bar.line_kg_per_ha, 0)
        ),
    }
}

fn supply_ui(ui: &mut Ui, farm: &Farm, plan: &SeasonPlan, in_view: Day) -> Option<Wish> {
    let days = supply_and_demand(farm, plan);
    heading_ui(ui, "Growth and appetite");
    let short = days.iter().filter(|day| day.short_kg > SHORT_KG).count();
    let sum = |pick: fn(&SupplyDay) -> f64| days.iter().map(pick).sum::<f64>() / 1000.0;
    let spoken = format!(
        "Over the season {} t DM grow on open ground and {} t are wanted; {}, {} t in all.",
        decimal_text(sum(|day| day.growth_kg), 1),
        decimal_text(sum(|day| day.demand_kg), 1),
        plural_text(
            u64::try_from(short).unwrap_or(0),
            "day is short",
            "days are short"
        ),
        decimal_text(sum(|day| day.short_kg), 1)
    );
    small_ui(ui, &spoken);
    let curves: Vec<CurveDay> = days.iter().map(|day| curve_day(day, in_view)).collect();
    let pressed = curves_ui(ui, &curves, (Ink::Spell, Ink::Ink), &spoken);
    small_ui(
        ui,
        "Filled: what grows in a day; line: what all flocks want; marked at the foot: short days.",
    );
    let head = ["From", "Grown t", "Wanted t", "Short t"];
    table_ui(ui, "supply", &head, by_month(&days).into_iter());
    pressed
        .and_then(|place| days.get(place))
        .map(|day| Wish::Day(day.day))
}

fn curve_day(day: &SupplyDay, in_view: Day) -> CurveDay {
    let is_first = day.day.day_of_month() == 1;
    let month = MONTH_NAMES.get(day.day.month_index()).copied();
    CurveDay {
        one: day.growth_kg,
        other: day.demand_kg,
        is_marked: day.short_kg > SHORT_KG,
        is_in_view: day.day == in_view,
        tick: month.filter(|_| is_first).and_then(|name| name.get(..3)),
        words: format!(
            "{}: grows {} kg DM, wanted {} kg, short {} kg",
            day.day.short_text(),
            decimal_text(day.growth_kg, 0),
            decimal_text(day.demand_kg, 0),
            decimal_text(day.short_kg, 0)
        ),
    }
}

/// Sums of each month, as rows of a table.
fn by_month(days: &[SupplyDay]) -> Vec<Vec<String>> {
    let months = days.chunk_by(|one, other| one.day.month_index() == other.day.month_index());
    months
        .filter_map(|month| {
            let tonnes = |pick: fn(&SupplyDay) -> f64| {
                decimal_text(month.iter().map(pick).sum::<f64>() / 1000.0, 2)
            };
            Some(vec![
                month.first()?.day.short_text(),
                tonnes(|day| day.growth_kg),
                tonnes(|day| day.demand_kg),
                tonnes(|day| day.short_kg),
            ])
        })
        .collect()
}

fn rests_ui(ui: &mut Ui, rests: &[RestBar]) -> Option<Wish> {
    heading_ui(ui, "Rest between stays");
    let is_short = |bar: &RestBar| {
        let owed = usize::try_from(bar.owed_days).unwrap_or(usize::MAX);
        bar.shortest_days.is_some_and(|days| days < owed)
    };
    let missed = rests.iter().filter(|bar| is_short(bar)).count();
    let spoken = format!(
        "The shortest rest of each strip; {} short of what was owed.",
        plural_text(u64::try_from(missed).unwrap_or(0), "strip is", "strips are")
    );
    small_ui(ui, &spoken);
    #[expect(clippy::cast_precision_loss, reason = "days of a season")]
    let bars: Vec<Bar> = rests
        .iter()
        .map(|bar| Bar {
            value: bar.shortest_days.unwrap_or(0) as f64,
            mark: bar.shortest_days.map(|_| f64::from(bar.owed_days)),
            is_behind: is_short(bar),
            words: rest_words(bar),
        })
        .collect();
    let pressed = bars_ui(ui, &bars, Ink::Hoop, false, &spoken);
    small_ui(ui, "The stroke across a bar is the rest that was owed.");
    let head = ["Strip", "Stays", "Shortest rest", "Owed"];
    let rows = rests.iter().map(|bar| {
        let shortest = bar
            .shortest_days
            .map_or_else(|| "–".to_owned(), |days| days.to_string());
        vec![
            bar.name.clone(),
            bar.stays.to_string(),
            shortest,
            bar.owed_days.to_string(),
        ]
    });
    table_ui(ui, "rests", &head, rows);
    pressed
        .and_then(|place| rests.get(place))
        .map(|bar| Wish::Ground(bar.ground))
}

fn rest_words(bar: &RestBar) -> String {
    match bar.shortest_days {
        Some(days) => format!(
            "{}: {days} days at the least, {} owed",
            bar.name, bar.owed_days
        ),
        None if bar.stays == 0 => format!("{}: no stay", bar.name),
        None => format!("{}: one stay, so no rest between two", bar.name),
    }
}

fn borne_ui(ui: &mut Ui, borne: &[BorneBar]) -> Option<Wish> {
    heading_ui(ui, "Sheep days and nitrogen to the hectare");
    let most = borne.iter().map(|bar| bar.n_kg_per_ha).fold(0.0, f64::max);
    let spoken = format!(
        "By the season's end; at most {} kg N/ha from sheep on one strip. The limit is {MOST_N_KG_PER_HA} kg N/ha a year \
         over the farm, all manure counted.",
        decimal_text(most, 0)
    );
    small_ui(ui, &spoken);
    let bars: Vec<Bar> = borne
        .iter()
        .map(|bar| Bar {
            value: bar.sheep_days_per_ha,
            mark: None,
            is_behind: false,
            words: format!(
                "{}: {} sheep days/ha, {} kg N/ha",
                bar.name,
                decimal_text(bar.sheep_days_per_ha, 0),
                decimal_text(bar.n_kg_per_ha, 0)
            ),
        })
        .collect();
    let pressed = bars_ui(ui, &bars, Ink::Tree, false, &spoken);
    let head = ["Strip", "Sheep days/ha", "kg N/ha"];
    let rows = borne.iter().map(|bar| {
        let figure = |value| decimal_text(value, 0);
        vec![
            bar.name.clone(),
            figure(bar.sheep_days_per_ha),
            figure(bar.n_kg_per_ha),
        ]
    });
    table_ui(ui, "borne", &head, rows);
    small_ui(ui, NitrogenSet::EuOrganic.source());
    small_ui(ui, &format!("{LIMIT_SOURCE}. Local law decides."));
    pressed
        .and_then(|place| borne.get(place))
        .map(|bar| Wish::Ground(bar.ground))
}

/// The same figures as a table, folded away until they are asked for.
fn table_ui(ui: &mut Ui, id: &str, head: &[&str], rows: impl Iterator<Item = Vec<String>>) {
    let shown = egui::CollapsingHeader::new("As a table").id_salt(("picture table", id));
    shown.show(ui, |ui| {
        let head = head.iter().map(|&word| word.to_owned()).collect();
        let rows: Vec<Vec<String>> = std::iter::once(head).chain(rows).collect();
        words_table_ui(ui, id, &rows);
    });
}
