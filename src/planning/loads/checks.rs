//! Loads held against limits: each with its figure, its limit, its text and whether it is kept.

use super::{EWES_PER_HA, HENS_PER_HA, LIMIT_SOURCE, Loads, MOST_N_KG_PER_HA};
use crate::farm::{Farm, HenHouse};
use crate::planning::{HenFacts, SeasonPlan};
use crate::quantity::decimal_text;

/// A figure against its limit.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadCheck {
    /// What is held against the limit.
    pub what: String,
    /// The figure, with its unit.
    pub figure: String,
    /// The limit, with its unit.
    pub limit: String,
    /// Whether it is kept.
    pub is_kept: bool,
    /// Title, section, and how sure.
    pub source: &'static str,
}

const ANNEX_IV: &str = "Regulation (EC) 889/2008, Annex IV (hens as read in a German state's extract, ewes in an act \
     that mirrors it)";
const ORGANIC_RUN: &str =
    "Regulation (EU) 2020/464, Annex I, Part IV (hen rows from memory and from summaries)";
const FREE_RANGE: &str = "Regulation (EC) 589/2008, Annex II, 1(c) and (d)";

/// Room for each hen on an organic run, m².
const ORGANIC_M2: f64 = 4.0;
/// Room for each hen on free range, and the two figures where runs are rotated, m².
const FREE_RANGE_M2: (f64, f64, f64) = (4.0, 10.0, 2.5);
/// The farthest a run may reach from the house, metres.
const FARTHEST_M: f64 = 150.0;

/// Figures less than this share above a limit count as on it: the limits are rounded themselves.
const ROUNDING: f64 = 1e-9;

/// Every check, year by year and then house by house.
pub fn load_checks(farm: &Farm, plan: &SeasonPlan, loads: &Loads) -> Vec<LoadCheck> {
    let mut checks = Vec::new();
    for (year, load) in &loads.holding {
        let mut against = |what: &str, figure: Option<f64>, most: f64, unit: &str, source| {
            let Some(figure) = figure else { return };
            checks.push(LoadCheck {
                what: format!("{what}, {year}"),
                figure: format!("{} {unit}", decimal_text(figure, 1)),
                limit: format!("at most {most} {unit}"),
                is_kept: figure <= most * (1.0 + ROUNDING),
                source,
            });
        };
        against(
            "Nitrogen on the whole holding",
            load.kg_per_ha(),
            MOST_N_KG_PER_HA,
            "kg N/ha",
            LIMIT_SOURCE,
        );
        against(
            "Sheep through the year",
            load.sheep_per_ha(),
            EWES_PER_HA,
            "head/ha",
            ANNEX_IV,
        );
        against(
            "Hens through the year",
            load.hens_per_ha(),
            HENS_PER_HA,
            "hens/ha",
            ANNEX_IV,
        );
    }
    for (id, walk) in &plan.hens {
        if let Some(house) = farm.hen_houses.get(id) {
            run_checks(house, &walk.facts, &mut checks);
        }
    }
    checks
}

/// Room on the run of a house that moves: over a whole round, and in the run in use.
fn run_checks(house: &HenHouse, facts: &HenFacts, checks: &mut Vec<LoadCheck>) {
    let (Some(in_round), Some(in_use)) = (facts.m2_per_hen_in_round, facts.m2_per_hen) else {
        return;
    };
    let name = house.name.trim();
    let m2 = |value: f64| format!("{} m² per hen", decimal_text(value, 2));
    let (everywhere, total, run) = FREE_RANGE_M2;
    checks.push(LoadCheck {
        what: format!("{name}: if sold as organic, room in a round"),
        figure: m2(in_round),
        limit: format!("at least {ORGANIC_M2} m² per hen"),
        is_kept: in_round >= ORGANIC_M2 * (1.0 - ROUNDING),
        source: ORGANIC_RUN,
    });
    checks.push(LoadCheck {
        what: format!("{name}: if sold as free range, runs in turn"),
        figure: format!(
            "{} in all, {} in the run",
            decimal_text(in_round, 2),
            m2(in_use)
        ),
        limit: format!(
            "{everywhere} m² at all times, or {total} in all and {run} in the run in use"
        ),
        is_kept: is_room_kept(in_round, in_use),
        source: FREE_RANGE,
    });
    let reach_m = house.length_m.hypot(house.width_m);
    checks.push(LoadCheck {
        what: format!("{name}: farthest corner of the run"),
        figure: format!("{} m", decimal_text(reach_m, 1)),
        limit: format!("at most {FARTHEST_M} m"),
        is_kept: reach_m <= FARTHEST_M,
        source: FREE_RANGE,
    });
}

/// Whether free-range hens have room: all of it in the run in use, or more in all and less in the run.
pub(super) fn is_room_kept(in_all_m2: f64, in_use_m2: f64) -> bool {
    let (everywhere, total, run) = FREE_RANGE_M2;
    let reaches = |value: f64, least: f64| value >= least * (1.0 - ROUNDING);
    reaches(in_use_m2, everywhere) || reaches(in_all_m2, total) && reaches(in_use_m2, run)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Reg. (EC) 589/2008, Annex II, 1(c), for 100 hens.
    #[test]
    fn runs_in_turn_need_ten_in_all_and_two_and_a_half_in_use() {
        for (in_all_m2, in_use_m2, wanted) in [
            (1_000.0, 250.0, true),
            (1_000.0, 249.0, false),
            (999.0, 399.0, false),
            (400.0, 400.0, true),
        ] {
            let kept = is_room_kept(in_all_m2 / 100.0, in_use_m2 / 100.0);
            assert_eq!(kept, wanted, "{in_all_m2} m² in all, {in_use_m2} m² in use");
        }
    }
}
