//! The net area is the ground less what lies on it, each metre taken off once; the planner reckons with it.

use foldcourse::farm::{Farm, Ground, GroundId, Kind, MobId, Neighbourhood, net_areas};
use foldcourse::planning::problem_from;

use super::sample::{day, ewes, line, put, rectangle, two_strip_farm};

/// A ley of 80 m by 100 m in two strips with a hedge across both, a tree line on one, a pond that the hedge crosses.
fn crowded() -> (Farm, GroundId, [GroundId; 2]) {
    let (mut farm, ley, strips) = two_strip_farm();
    put(
        &mut farm,
        Ground::new(
            "Old hedge",
            Kind::Hedge,
            line(&[(-20.0, 50.0), (100.0, 50.0)]),
        ),
    );
    put(
        &mut farm,
        Ground::new(
            "Apples",
            Kind::TreeLine,
            line(&[(10.0, 10.0), (10.0, 40.0)]),
        ),
    );
    put(
        &mut farm,
        Ground::new("Pond", Kind::Water, rectangle(60.0, 45.0, 10.0, 10.0)),
    );
    put(
        &mut farm,
        Ground::new("Fence", Kind::Fence, line(&[(20.0, 0.0), (20.0, 100.0)])),
    );
    put(
        &mut farm,
        Ground::new(
            "Trough",
            Kind::Trough,
            foldcourse::farm::Shape::Place(foldcourse::geometry::Point::new(5.0, 5.0)),
        ),
    );
    (farm, ley, strips)
}

#[test]
fn what_lies_on_a_strip_is_taken_off_once_and_named() {
    let (farm, ley, [west, east]) = crowded();
    let net = net_areas(&farm);
    // Hedge 2 m, tree line 4 m wide (usual widths); the hedge takes 2 m by 10 m of the pond first.
    let (hedge_m2, trees_m2, pond_m2) = (2.0 * 40.0, 4.0 * 30.0, 100.0 - 20.0);
    for (id, whole_m2, wanted) in [
        (
            west,
            4000.0,
            vec![("Old hedge", hedge_m2), ("Apples", trees_m2)],
        ),
        (
            east,
            4000.0,
            vec![("Old hedge", hedge_m2), ("Pond", pond_m2)],
        ),
        (
            ley,
            8000.0,
            vec![
                ("Old hedge", 2.0 * hedge_m2),
                ("Apples", trees_m2),
                ("Pond", pond_m2),
            ],
        ),
    ] {
        let area = &net[&id];
        let names: Vec<&str> = area.taken.iter().map(|taken| taken.name.as_str()).collect();
        assert_eq!(
            names,
            wanted.iter().map(|(name, _)| *name).collect::<Vec<_>>()
        );
        for (taken, (_, m2)) in area.taken.iter().zip(&wanted) {
            assert!((taken.area_m2 - m2).abs() < 0.01, "{taken:?}");
        }
        let less_m2: f64 = wanted.iter().map(|(_, m2)| m2).sum();
        assert!(
            (area.net_m2 - (whole_m2 - less_m2)).abs() < 0.02,
            "{}",
            area.net_m2
        );
    }
}

#[test]
fn the_planner_reckons_with_net_areas() {
    let (mut farm, _, [west, _]) = crowded();
    farm.mobs.insert(MobId(90), ewes());
    let problem = problem_from(&farm, day("2027-04-01"), 30).unwrap().problem;
    let area_ha = problem
        .strips
        .iter()
        .find(|strip| strip.name == "A1")
        .unwrap()
        .area_ha;
    let net_ha = net_areas(&farm)[&west].net_m2 / 10_000.0;
    assert!(
        (area_ha - net_ha).abs() < 1e-12 && (area_ha - 0.38).abs() < 1e-4,
        "{area_ha}"
    );
}

#[test]
fn what_is_kept_up_to_date_agrees_with_a_fresh_look() {
    let (mut farm, _, [west, _]) = crowded();
    let mut kept = Neighbourhood::of(&farm);
    let hedge = farm
        .ground
        .iter()
        .find(|(_, ground)| ground.kind == Kind::Hedge)
        .map(|(id, _)| *id)
        .unwrap();
    farm.ground.remove(&hedge);
    kept.renew(&farm, &[hedge]);
    let fresh = Neighbourhood::of(&farm);
    assert_eq!(kept.net_area(west), fresh.net_area(west));
    assert!((kept.net_area(west).unwrap().net_m2 - 3880.0).abs() < 0.01);
}
