//! Questions a grower asks: the answers against sums by hand, and against what a change must do.

use std::collections::BTreeSet;

use foldcourse::farm::{Closed, Farm, GroundId, History, LivestockUnitSet, MobId, Visit};
use foldcourse::planning::questions::{
    Asked, Change, QuestionError, RemedyKind, compared, head_carried, lasts_until, remedies,
    stop_day, strip_now,
};
use foldcourse::planning::{
    Nearness, Replan, SeasonPlan, Stand, densities, live_season, replanned,
};
use foldcourse::quantity::Day;

use crate::farm::sample::{day, ewes, two_strip_farm};

const EWES: MobId = MobId(90);

/// Two strips of 0.4 ha each, nothing grows, no rest is owed: 2 × 0.4 ha × (2,500 − 1,500) = 800 kg DM for 40 ewes that
/// eat 2 kg each, which is ten days.
fn ten_days_of_grass() -> (Farm, [GroundId; 2]) {
    let (mut farm, _, strips) = two_strip_farm();
    farm.season.first_day = day("2027-05-01");
    farm.season.days = 30;
    farm.sward.growth_by_month = [0.0; 12];
    farm.sward.rest_days_by_month = [0; 12];
    farm.sward.leave_kg_per_ha = 1500.0;
    farm.sward.enter_kg_per_ha = 1500.0;
    farm.sward.ceiling_kg_per_ha = 4000.0;
    farm.sward.longest_stay_days = 30;
    for strip in strips {
        let grazing = farm.ground.get_mut(&strip).unwrap();
        let grazing = grazing.grazing.get_or_insert_default();
        grazing.readings.push(foldcourse::farm::Reading {
            day: day("2027-05-01"),
            cover_kg_per_ha: 2500.0,
        });
    }
    let mut mob = ewes();
    mob.head = 40;
    mob.eats_kg_per_head = Some(2.0);
    mob.visits = vec![Visit {
        from: day("2027-05-01"),
        to: day("2027-05-30"),
    }];
    farm.mobs.insert(EWES, mob);
    (farm, strips)
}

fn plan_of(farm: &Farm) -> SeasonPlan {
    live_season(farm, &mut |_| true).unwrap()
}

fn span(from: &str, to: &str) -> (Day, Day) {
    (day(from), day(to))
}

#[test]
fn head_and_days_come_out_as_by_hand_where_nothing_grows() {
    let (farm, strips) = ten_days_of_grass();
    let plan = plan_of(&farm);
    let all = BTreeSet::new();
    let mut watch = |_: f64| true;
    let mut asked = Asked::new(&farm, &plan, span("2027-05-01", "2027-05-10"), &mut watch).unwrap();
    let carried = head_carried(&mut asked, EWES, &all).unwrap();
    // 800 kg over ten days at 2 kg: 40 head, and half a kilogram may be missing on a day.
    assert_eq!(carried.head, 40, "{carried:?}");
    assert!(carried.with_them.unwrap().is_fed());
    assert!(!carried.with_one_more.unwrap().is_fed());
    let mut asked = Asked::new(&farm, &plan, span("2027-05-01", "2027-05-30"), &mut watch).unwrap();
    let until = lasts_until(&mut asked, EWES, &all).unwrap();
    assert_eq!(until.last, Some(day("2027-05-10")), "{until:?}");
    // One strip alone is half of it, whether named itself or asked about with the other closed.
    let one = BTreeSet::from([strips[0]]);
    let mut asked = Asked::new(&farm, &plan, span("2027-05-01", "2027-05-30"), &mut watch).unwrap();
    let until = lasts_until(&mut asked, EWES, &one).unwrap();
    assert_eq!(until.last, Some(day("2027-05-05")), "{until:?}");
}

#[test]
fn the_strip_for_a_day_is_demand_over_what_may_be_eaten() {
    let (farm, strips) = ten_days_of_grass();
    let plan = plan_of(&farm);
    let found = strip_now(&farm, &plan, EWES, strips[0], day("2027-05-01")).unwrap();
    // 80 kg a day off 1,000 kg/ha.
    assert!((found.area_m2.unwrap() - 800.0).abs() < 1e-6);
    assert!((found.piece_days.unwrap() - 5.0).abs() < 0.02, "{found:?}");
}

#[test]
fn grazing_stops_when_what_is_left_is_what_was_to_be_kept() {
    let (farm, _) = ten_days_of_grass();
    let plan = plan_of(&farm);
    let mut watch = |_: f64| true;
    let mut asked = Asked::new(&farm, &plan, span("2027-05-01", "2027-05-30"), &mut watch).unwrap();
    // 80 kg a day off 0.8 ha are 100 kg/ha a day: after six days 1,900 of 2,500 stand.
    let found = stop_day(&mut asked, 1895.0).unwrap();
    assert_eq!(found.last, Some(day("2027-05-06")), "{found:?}");
    assert!((found.then.end_cover_kg_per_ha.unwrap() - 1900.0).abs() < 5.0);
    let mut asked = Asked::new(&farm, &plan, span("2027-05-01", "2027-05-30"), &mut watch).unwrap();
    assert_eq!(stop_day(&mut asked, 2600.0).unwrap().last, None);
}

#[test]
fn side_by_side_more_head_go_short_and_the_farm_is_untouched() {
    let (farm, _) = ten_days_of_grass();
    let before = farm.clone();
    let plan = plan_of(&farm);
    let mut watch = |_: f64| true;
    let mut asked = Asked::new(&farm, &plan, span("2027-05-01", "2027-05-10"), &mut watch).unwrap();
    let found = compared(&mut asked, &[Change::Head(EWES, 60)]).unwrap();
    assert!(found.as_is.short_kg < 1.0, "{found:?}");
    // 1,200 kg wanted, 800 there.
    assert!((found.changed.short_kg - 400.0).abs() < 5.0, "{found:?}");
    assert_eq!(farm, before);
}

#[test]
fn every_remedy_is_planned_again_and_leaves_less_to_be_carried() {
    let (mut farm, strips) = ten_days_of_grass();
    let east = farm.ground.get_mut(&strips[1]).unwrap();
    east.grazing.as_mut().unwrap().closed.push(Closed {
        from: day("2027-05-01"),
        to: day("2027-05-30"),
        why: "hay".to_owned(),
    });
    let visit = &mut farm.mobs.get_mut(&EWES).unwrap().visits[0];
    visit.to = day("2027-05-10");
    farm.season.days = 10;
    let plan = plan_of(&farm);
    let mut watch = |_: f64| true;
    let mut asked = Asked::new(&farm, &plan, span("2027-05-01", "2027-05-10"), &mut watch).unwrap();
    let found = remedies(&mut asked, 16.0).unwrap();
    // Half the grass is shut away: 400 kg of 800 are short, 25 bales.
    assert!((found.as_is.short_kg - 400.0).abs() < 5.0, "{found:?}");
    let is_fed = |wanted: &dyn Fn(&RemedyKind) -> bool| {
        let remedy = found.remedies.iter().find(|remedy| wanted(&remedy.kind));
        remedy.is_some_and(|remedy| remedy.with_it.is_fed())
    };
    assert!(
        is_fed(&|kind| matches!(kind, RemedyKind::Hay { bales: 25 | 26, .. })),
        "{found:?}"
    );
    assert!(
        is_fed(&|kind| matches!(kind, RemedyKind::Fewer { head: 20, .. })),
        "{found:?}"
    );
    let opened = found
        .remedies
        .iter()
        .find(|remedy| matches!(remedy.kind, RemedyKind::OpenSooner { .. }))
        .unwrap();
    assert!(opened.with_it.is_fed(), "{found:?}");
    // Put into force it is one step, and the farm's own plan is then fed.
    let mut history = History::new(farm);
    let edits = opened.edits(history.farm());
    history.commit("Open sooner", edits).unwrap();
    let after = plan_of(history.farm());
    assert!((0..10).all(|index| after.short_on(index) < 0.5));
    for remedy in &found.remedies {
        assert!(remedy.with_it.short_kg < found.as_is.short_kg);
    }
}

#[test]
fn a_question_is_called_off_at_once() {
    let (farm, _) = ten_days_of_grass();
    let plan = plan_of(&farm);
    let mut looks = 0;
    let mut watch = |_: f64| {
        looks += 1;
        looks < 3
    };
    let mut asked = Asked::new(&farm, &plan, span("2027-05-01", "2027-05-10"), &mut watch).unwrap();
    let found = head_carried(&mut asked, EWES, &BTreeSet::new());
    assert_eq!(found, Err(QuestionError::CalledOff));
}

#[test]
fn a_new_figure_leaves_the_days_before_today_where_they_were() {
    let (mut farm, _) = ten_days_of_grass();
    farm.sward.longest_stay_days = 2;
    farm.sward.rest_days_by_month = [1; 12];
    let before = plan_of(&farm);
    let today = day("2027-05-08");
    let mob = farm.mobs.get_mut(&EWES).unwrap();
    mob.head = 25;
    let replan = Replan {
        before: Some(&before),
        today,
        is_preview: false,
    };
    let after = replanned(&farm, &replan, &mut |_| true).unwrap();
    let stood = |plan: &SeasonPlan| -> Vec<Stand> {
        (0..7).map(|index| plan.stand_at(EWES, index)).collect()
    };
    assert_eq!(stood(&after), stood(&before));
    assert!(stood(&before).iter().any(|stand| *stand != Stand::Yard));
    assert_ne!(after.short_kg, before.short_kg, "the rest is planned anew");
}

#[test]
fn the_bound_never_claims_more_than_a_plan_reaches() {
    let (farm, _) = ten_days_of_grass();
    let plan = plan_of(&farm);
    let found = Nearness::of_farm(&farm, &plan, farm.season.first_day, &|| true).unwrap();
    assert!(found.bound <= found.score && found.bound > 0.0, "{found:?}");
    // Twenty days of 80 kg cannot be grazed by any plan.
    assert!(found.bound >= 1400.0, "{found:?}");
    let words = found.wording().to_lowercase();
    assert!(words.contains("proven"), "{words}");
}

#[test]
fn densities_are_by_strip_by_ley_and_by_season() {
    let (farm, strips) = ten_days_of_grass();
    let plan = plan_of(&farm);
    let set = LivestockUnitSet::England2023;
    let stood = strips[0];
    let on = plan.day_at(plan.spells_of(stood).first().unwrap().from);
    let found = densities(&farm, &plan, stood, on, set);
    // 40 head on 0.4 ha, on 0.8 ha.
    assert!((found.on_strip.unwrap().head_per_ha - 100.0).abs() < 0.1);
    assert!((found.over_plot.unwrap().head_per_ha - 50.0).abs() < 0.1);
    let days = strips
        .iter()
        .flat_map(|strip| plan.spells_of(*strip))
        .map(|spell| spell.to - spell.from + 1)
        .sum::<usize>();
    let by_hand = 50.0 * days as f64 / 30.0;
    assert!((found.over_season.unwrap().head_per_ha - by_hand).abs() < 0.1);
}
