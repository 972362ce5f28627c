//! A mob through the days: growth, lactation, changes, and the rest that lambs ask for.

use foldcourse::farm::{MobChange, StockClass};
use foldcourse::planning::problem_from;

use super::sample::{day, ewes};
use crate::farm::sample::{empty_farm, put, rectangle};
use foldcourse::farm::{Ground, Kind, MobId};

#[test]
fn lambs_that_gain_eat_more_week_by_week() {
    let mut lambs = ewes();
    lambs.class = StockClass::Lambs;
    lambs.liveweight_kg = 30.0;
    lambs.gain_g_per_day = 200.0;
    // 4 % of liveweight for growing lambs: 30 kg eat 1.2 kg (All grass wintering of sheep, EBLEX/AHDB and SAC).
    let each = |on: &str| lambs.as_on(day(on)).demand_kg() / 40.0;
    assert!((each("2027-04-01") - 1.2).abs() < 1e-12);
    assert!(
        (each("2027-04-07") - 1.2).abs() < 1e-12,
        "not before a week is over"
    );
    assert!((each("2027-04-08") - 0.04 * 31.4).abs() < 1e-12);
    assert!(
        (each("2027-06-10") - 0.04 * 44.0).abs() < 1e-12,
        "ten weeks of 1.4 kg"
    );
}

#[test]
fn ewes_eat_less_again_from_eight_weeks_after_lambing() {
    let mut milking = ewes();
    milking.class = StockClass::EwesWithLambs;
    milking.lambed_on = Some(day("2027-04-05"));
    let each = |on: &str| milking.as_on(day(on)).eats_kg_each();
    // 70 kg: early lactation 3 % or 2.1 kg, mid to late lactation 2.5 % (the same table).
    assert!((each("2027-05-30") - 2.1).abs() < 1e-12);
    assert!((each("2027-05-31") - 1.75).abs() < 1e-12);
    milking.eats_kg_per_head = Some(2.6);
    assert!(
        (milking.as_on(day("2027-06-20")).eats_kg_each() - 2.6).abs() < 1e-12,
        "the grower's figure stands"
    );
}

#[test]
fn demand_follows_every_change_into_the_problem() {
    let mut farm = empty_farm();
    let ley = Ground::new("Ley", Kind::Ley, rectangle(0.0, 0.0, 100.0, 100.0));
    put(&mut farm, ley);
    let mut mob = ewes();
    mob.changes.push(MobChange {
        from: day("2027-05-10"),
        class: StockClass::Lambs,
        head: 25,
        liveweight_kg: 32.0,
        gain_g_per_day: 0.0,
    });
    farm.mobs.insert(MobId(90), mob);
    let problem = problem_from(&farm, day("2027-05-01"), 20).unwrap().problem;
    let steps: Vec<(String, f64)> = problem.mobs[0]
        .demand
        .iter()
        .map(|step| (step.from.to_string(), step.value))
        .collect();
    assert_eq!(steps.len(), 2, "{steps:?}");
    assert_eq!(steps[0].0, "2027-05-01");
    assert!((steps[0].1 - 40.0 * 70.0 * 0.015).abs() < 1e-9);
    assert_eq!(steps[1].0, "2027-05-10");
    assert!((steps[1].1 - 25.0 * 32.0 * 0.04).abs() < 1e-9);
}

#[test]
fn the_rest_for_worms_holds_only_while_lambs_are_here_and_never_shortens_the_grasss_own() {
    let mut farm = empty_farm();
    let mut mob = ewes();
    mob.changes.push(MobChange {
        from: day("2027-05-10"),
        class: StockClass::EwesWithLambs,
        ..MobChange {
            from: day("2027-05-10"),
            class: StockClass::DryEwes,
            head: 40,
            liveweight_kg: 70.0,
            gain_g_per_day: 0.0,
        }
    });
    farm.mobs.insert(MobId(90), mob);
    farm.sward.rest_days_by_month = [21; 12];
    farm.sward.lamb_rest_days = Some(40);
    assert_eq!(farm.rest_days_on(day("2027-05-09")), 21);
    assert_eq!(farm.rest_days_on(day("2027-05-10")), 40);
    assert_eq!(farm.rest_days_on(day("2027-07-01")), 21, "they have gone");
    farm.sward.lamb_rest_days = Some(10);
    assert_eq!(farm.rest_days_on(day("2027-05-20")), 21);
}
