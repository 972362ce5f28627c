//! Area for a mob and some days, days that an area lasts, rest of a number of strips: against published examples.

use foldcourse::farm::{Mob, StockClass};
use foldcourse::planning::{StripFeed, days_text, rest_told};
use foldcourse::quantity::UnitSystem;

fn feed(demand_kg: f64, cover_kg_per_ha: f64, leave_kg_per_ha: f64) -> StripFeed {
    StripFeed {
        demand_kg,
        cover_kg_per_ha,
        leave_kg_per_ha,
    }
}

/// *Set up a grazing plan*, AHDB Beef and Lamb, grazing days: 2 ha of 2,500 grazed to 1,600 kg/ha by 60 head of 650 kg
/// that eat 2.5 % last about two days.
#[test]
fn two_hectares_last_the_published_herd_about_two_days() {
    let herd = feed(60.0 * 650.0 * 0.025, 2500.0, 1600.0);
    let days = herd.days_on(20_000.0).unwrap();
    assert!((days - 1800.0 / 975.0).abs() < 1e-12);
    assert!((days.round() - 2.0).abs() < f64::EPSILON);
    assert!((herd.area_m2(days).unwrap() - 20_000.0).abs() < 1e-6);
}

/// Winter rotational grazing note, EBLEX and SAC, December 2013: 4 ha of 2,300 left at 900 kg/ha, 950 ewes of 65 kg that
/// eat 1.5 %. The author rounds what a ewe eats up to 1 kg; unrounded it is 6.05 days.
#[test]
fn the_published_winter_field_lasts_six_days() {
    let ewes = feed(950.0 * 65.0 * 0.015, 2300.0, 900.0);
    assert!((ewes.days_on(40_000.0).unwrap() - 6.05).abs() < 0.005);
    let rounded = feed(950.0, 2300.0, 900.0);
    assert!((rounded.days_on(40_000.0).unwrap() - 5.89).abs() < 0.005);
}

/// *Four steps to rotational grazing*, Pennsylvania State University, Agronomy Facts 43, step 3: 35 days' rest and
/// 3 days' grazing need 13 paddocks.
#[test]
fn a_rest_of_thirty_five_days_at_three_days_takes_thirteen() {
    let told = rest_told(9, 3, "July", 35);
    assert_eq!(
        told,
        "9 strips × 3 days: each rests 8 × 3 = 24 days; wanted in July: 35. That asks for 13 strips."
    );
    assert_eq!(
        rest_told(13, 3, "July", 35),
        "13 strips × 3 days: each rests 12 × 3 = 36 days; wanted in July: 35."
    );
}

#[test]
fn the_sum_is_said_with_its_figures() {
    let mob = Mob {
        name: "Ewes".to_owned(),
        class: StockClass::DryEwes,
        head: 40,
        liveweight_kg: 70.0,
        eats_kg_per_head: Some(2.2),
        gain_g_per_day: 0.0,
        lambed_on: None,
        changes: Vec::new(),
        visits: Vec::new(),
        yard: None,
        follows: None,
    };
    let told = feed(mob.demand_kg(), 1900.0, 1500.0).told(&mob, UnitSystem::Metric);
    assert_eq!(
        told,
        "40 dry ewes eat 88 kg DM a day; 1900 − 1500 = 400 kg DM/ha may be eaten: 0.2200 ha a day."
    );
}

#[test]
fn nothing_may_be_eaten_below_the_residual() {
    let bare = feed(88.0, 1400.0, 1500.0);
    assert_eq!(bare.area_m2(2.0), None);
    assert_eq!(bare.days_on(1000.0), Some(0.0));
    assert_eq!(feed(0.0, 1900.0, 1500.0).area_m2(2.0), None);
}

#[test]
fn days_are_said_whole_where_they_are() {
    for (days, text) in [
        (2.0, "2 days"),
        (1.0, "1 day"),
        (0.6, "0.6 days"),
        (1.98, "2 days"),
    ] {
        assert_eq!(days_text(days), text);
    }
}
