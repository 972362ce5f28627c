//! The grazier's sums against figures worked by hand, and against each other turned round.

use foldcourse::planning::grazing_sums::{
    LENGTH_OF_ROLL_M, WaterNeed, animal_unit_days, area_for_days_ha, days_lasting,
    days_lasting_with_growth, days_to_grow, feed_kg, growth_between, head_per_ha, long_side_m,
    mean_cover_kg_per_ha, paddock_area_ha, paddocks_needed, rest_reached_days, rolls_needed,
    square_share_of_fence, strip_length_m, supply_kg_per_ha, used_feed_kg, water_litres_a_day,
};
use proptest::prelude::*;

#[track_caller]
fn check_near(found: Option<f64>, expected: f64, tolerance: f64) {
    let found = found.unwrap();
    assert!(
        (found - expected).abs() <= tolerance,
        "{found} is not {expected}"
    );
}

/// 40 ewes of 70 kg at 3 % eat 84 kg a day; 2,500 to 1,600 kg/ha leaves them 900 kg to the hectare.
#[test]
fn a_day_and_three_days_of_forty_ewes() {
    check_near(area_for_days_ha(84.0, 1.0, 900.0, 1.0), 0.0933, 0.000_05);
    check_near(area_for_days_ha(84.0, 3.0, 900.0, 1.0), 0.28, 1e-12);
    assert_eq!(paddocks_needed(24, 3), Some(9));
    // Utilisation of all that stands gives the same: 900 of 2,500 is 36 %.
    check_near(area_for_days_ha(84.0, 1.0, 2500.0, 0.36), 0.0933, 0.000_05);
    check_near(strip_length_m(933.0, 30.5), 30.59, 0.005);
    check_near(animal_unit_days(8.0, 21.0), 168.0, 1e-12);
}

#[test]
fn paddocks_are_rounded_up_and_an_exact_quotient_adds_none() {
    assert_eq!(
        [21, 24, 35, 42].map(|rest| paddocks_needed(rest, 3).unwrap()),
        [8, 9, 13, 15]
    );
    assert_eq!(paddocks_needed(0, 3), Some(1));
    assert_eq!(paddocks_needed(21, 0), None);
    assert_eq!(
        (
            rest_reached_days(8, 3),
            rest_reached_days(1, 3),
            rest_reached_days(0, 3)
        ),
        (21, 0, 0)
    );
}

/// A strip of 930 m² as a square of 30.5 m needs 122 m: three rolls; with one side standing 91.5 m: two.
#[test]
fn netting_comes_in_whole_rolls_less_what_stands() {
    let rolls =
        |perimeter_m, standing_m| rolls_needed(perimeter_m, standing_m, LENGTH_OF_ROLL_M).unwrap();
    assert_eq!((rolls(122.0, 0.0).rolls, rolls(122.0, 30.5).rolls), (3, 2));
    assert!((rolls(122.0, 0.0).spare_m - 28.0).abs() < 1e-9);
    assert_eq!(
        rolls(100.0004, 0.0).rolls,
        2,
        "half a millimetre is forgiven"
    );
    assert_eq!(rolls(100.01, 0.0).rolls, 3);
    assert_eq!(rolls(80.0, 100.0).rolls, 0);
    assert_eq!(rolls_needed(80.0, 0.0, 0.0), None);
    assert_eq!(rolls_needed(f64::NAN, 0.0, 50.0), None);
    // Four rolls round a square hold 2,500 m², round 20 by 80 m 1,600 m²: 64 % of it.
    check_near(square_share_of_fence(4.0), 0.64, 1e-12);
    check_near(square_share_of_fence(2.0), 0.889, 0.0005);
    check_near(long_side_m(1600.0, 4.0), 80.0, 1e-12);
}

/// 40 milking ewes of 70 kg drink 348 litres a day (359 ml for each kg to the power 0.75, worked by hand).
#[test]
fn water_of_a_milking_flock() {
    let each = water_litres_a_day(WaterNeed::Milking, 70.0).unwrap();
    assert!((40.0 * each.most_l - 347.6).abs() < 0.5, "{each:?}");
    assert_eq!(water_litres_a_day(WaterNeed::Milking, 0.0), None);
    assert_eq!(water_litres_a_day(WaterNeed::InLamb, f64::NAN), None);
}

#[test]
fn sums_without_a_sensible_answer_give_none() {
    assert_eq!(days_lasting(100.0, 0.0), None);
    assert_eq!(
        days_lasting_with_growth(100.0, 40.0, 1.0, 40.0),
        None,
        "it grows as fast as it is eaten"
    );
    assert_eq!(area_for_days_ha(84.0, 1.0, 0.0, 1.0), None);
    assert_eq!(area_for_days_ha(84.0, 1.0, 900.0, 1.2), None);
    assert_eq!(used_feed_kg(1.0, 2000.0, 1.1), None);
    assert_eq!(growth_between(1500.0, 1600.0, 0.0), None);
    assert_eq!(days_to_grow(1500.0, 3000.0, 0.0), None);
    assert_eq!(head_per_ha(1880.0, 0.0, 0.15, 42.0), None);
    assert_eq!(paddock_area_ha(2.0, 0), None);
    assert_eq!(mean_cover_kg_per_ha(&[]), None);
    assert_eq!(strip_length_m(900.0, 0.0), None);
    for bad in [f64::NAN, f64::INFINITY] {
        assert_eq!(feed_kg(bad, 2500.0, 1600.0), None);
        assert_eq!(supply_kg_per_ha(bad, 1500.0, 40.0, 42.0), None);
        assert_eq!(days_lasting(bad, 40.0), None);
    }
    assert_eq!(
        feed_kg(2.0, 1400.0, 1600.0),
        Some(0.0),
        "below the residual there is nothing, not less"
    );
    assert_eq!(
        growth_between(1600.0, 1500.0, 10.0),
        Some(-10.0),
        "grass may shrink"
    );
    assert_eq!(days_to_grow(3000.0, 1500.0, 60.0), Some(0.0));
}

proptest! {
    /// The area for some days lasts those days, and a shorter rest never needs more paddocks.
    #[test]
    fn sums_turned_round_give_back_what_went_in(
        demand_kg in 1.0..500.0_f64, days in 0.1..60.0_f64, leave in 500.0..2000.0_f64, above in 50.0..2500.0_f64,
        rest in 0_u32..200, stay in 1_u32..10,
    ) {
        let area_ha = area_for_days_ha(demand_kg, days, above, 1.0).unwrap();
        let feed = feed_kg(area_ha, leave + above, leave).unwrap();
        let lasts = days_lasting(feed, demand_kg).unwrap();
        prop_assert!((lasts - days).abs() < 1e-6 * days);
        prop_assert!(days_lasting_with_growth(feed, demand_kg, area_ha, 0.0) == Some(lasts));
        let paddocks = paddocks_needed(rest, stay).unwrap();
        prop_assert!(rest_reached_days(paddocks, stay) >= rest);
        prop_assert!(paddocks == 1 || rest_reached_days(paddocks - 1, stay) < rest);
    }

    /// A day at a time: growth comes, the mob eats; the sum says when the strip is bare.
    #[test]
    fn a_growing_strip_lasts_as_long_as_living_it(
        demand_kg in 60.0..200.0_f64, area_ha in 0.1..1.0_f64, feed in 100.0..5000.0_f64, growth in 0.0..50.0_f64,
    ) {
        let days = days_lasting_with_growth(feed, demand_kg, area_ha, growth).unwrap();
        let step = 0.001;
        let mut left_kg = feed;
        let mut lived = 0.0;
        while left_kg > 0.0 && lived < 400.0 {
            left_kg += (growth * area_ha - demand_kg) * step;
            lived += step;
        }
        prop_assert!(lived >= 400.0 || (lived - days).abs() < 0.01, "{lived} {days}");
    }
}
