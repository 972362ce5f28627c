//! Nitrogen, head and room: sums of a planned season against sums by hand.

use foldcourse::farm::{Farm, FixedPlace, GroundId, HenHouseId, Kind, MobId, Visit};
use foldcourse::planning::{
    NitrogenSet, SeasonPlan, live_season, load_checks, loads, mixed_stock_cautions,
};

use crate::farm::sample::{day, ewes, hens, line, put, two_strip_farm};

const EWES: MobId = MobId(90);

/// Forty ewes here for ten days, all of them lived on the first strip.
fn ten_days_on_a_strip() -> (Farm, GroundId, GroundId, SeasonPlan) {
    let (mut farm, ley, strips) = two_strip_farm();
    let mut mob = ewes();
    mob.visits = vec![Visit {
        from: day("2027-05-01"),
        to: day("2027-05-10"),
    }];
    farm.mobs.insert(EWES, mob);
    for step in 0..10 {
        let place = Some(strips[0]);
        let on = day("2027-05-01").plus_days(step);
        farm.fixed
            .insert((EWES, on), FixedPlace { place, lived: true });
    }
    let plan = live_season(&farm, &mut |_| true).unwrap();
    (farm, ley, strips[0], plan)
}

#[test]
fn a_flock_counts_for_the_days_on_which_it_is_here() {
    let (farm, ley, _, plan) = ten_days_on_a_strip();
    for (set, kg_a_year) in [
        (NitrogenSet::EuOrganic, 170.0 / 13.3),
        (NitrogenSet::England, 0.033 * 365.0),
        (NitrogenSet::Ireland, 13.0),
    ] {
        let sums = loads(&farm, &plan, set);
        let by_hand = 40.0 * 10.0 / 365.0 * kg_a_year;
        let on_ley = sums.by_ground[&(2027, Some(ley))];
        assert!((on_ley.sheep_kg - by_hand).abs() < 1e-9, "{set:?}");
        assert!((on_ley.sheep_days - 400.0).abs() < 1e-9);
        let whole = sums.holding[&2027];
        assert!((whole.kg() - by_hand).abs() < 1e-9);
        assert!((whole.kg_per_ha().unwrap() - by_hand / whole.area_ha).abs() < 1e-9);
    }
}

#[test]
fn hens_on_ground_count_there_and_along_a_line_outside_it_they_count_to_the_holding() {
    let (mut farm, _, _, _) = ten_days_on_a_strip();
    let far = foldcourse::farm::Ground::new(
        "Far hedge",
        Kind::Hedge,
        line(&[(500.0, 500.0), (580.0, 500.0)]),
    );
    let far = put(&mut farm, far);
    let mut house = hens(vec![far]);
    (house.first_day, house.last_day) = (day("2027-05-01"), Some(day("2027-05-20")));
    let count = f64::from(house.hens);
    farm.hen_houses.insert(HenHouseId(91), house);
    let plan = live_season(&farm, &mut |_| true).unwrap();
    let sums = loads(&farm, &plan, NitrogenSet::EuOrganic);
    let by_hand = count * 20.0 / 365.0 * 170.0 / 230.0;
    let outside = sums.by_ground[&(2027, None)];
    assert!((outside.hens_kg - by_hand).abs() < 1e-9, "{outside:?}");
    assert!((outside.hen_days - count * 20.0).abs() < 1e-9);
    let checks = load_checks(&farm, &plan, &sums);
    assert!(
        checks
            .iter()
            .any(|check| check.what.starts_with("Hens through"))
    );
    assert!(checks.iter().all(|check| check.source.len() > 20));
    let cautions = mixed_stock_cautions(&farm, &plan);
    assert!(
        cautions
            .iter()
            .any(|caution| caution.what.contains("copper"))
    );
    assert!(
        cautions
            .iter()
            .any(|caution| caution.what.contains("housing order"))
    );
}
