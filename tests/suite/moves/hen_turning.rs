//! Turning a house about that is towed from one end: room for the circle, its way, and what the order makes of it.

use std::f64::consts::PI;

use foldcourse::farm::{Farm, Ground, GroundId, HenHouse, Kind, LineOrder, LineSide, TowSide};
use foldcourse::planning::{HenWalk, hen_findings};

use super::hen_round::{HOUSE, check_ways, farm_of, walk};
use crate::farm::sample::{put, rectangle};

fn from_one_end(house: &mut HenHouse) {
    house.side = LineSide::Both;
    house.handling.tow_side = TowSide::OneEnd;
}

fn along_m(walk: &HenWalk, place: usize) -> f64 {
    let way = &walk.tows[place].way;
    way.windows(2).map(|leg| leg[0].distance_m(leg[1])).sum()
}

fn pond(farm: &mut Farm, (east_m, north_m, width_m, height_m): (f64, f64, f64, f64)) -> GroundId {
    let shape = rectangle(east_m, north_m, width_m, height_m);
    put(farm, Ground::new("Pond", Kind::Water, shape))
}

#[test]
fn a_house_towed_from_one_end_is_turned_on_a_circle_of_its_own_length() {
    let both = walk(
        &farm_of(&[(0.0, 29.0)], |house| house.side = LineSide::Both),
        2,
    );
    let one = walk(&farm_of(&[(0.0, 29.0)], from_one_end), 2);
    assert!(both.tows.iter().all(|tow| !tow.turns));
    let turned: Vec<usize> = (0..10).filter(|place| one.tows[*place].turns).collect();
    assert_eq!(turned, [4, 9], "at both ends of the row");
    for place in turned {
        let tow = &one.tows[place];
        assert!(!tow.lacks_room_to_turn && !tow.is_blocked);
        // Never sharper than the circle, so half of it at least.
        assert!(tow.length_m > PI * 5.0, "{}", tow.length_m);
        // Chords of 15 degrees are up to 0.3 % shorter than their arcs.
        let lost_m = tow.length_m - along_m(&one, place);
        assert!((0.0..0.003 * tow.length_m).contains(&lost_m), "{lost_m}");
        let next = &one.places[(place + 1) % 10];
        assert!(tow.way[0].distance_m(one.places[place].middle) < 1e-9);
        assert!(tow.way.last().unwrap().distance_m(next.middle) < 1e-9);
    }
    check_ways(&one, &[(0.0, -0.25, 29.0, 0.5)], 1.5);
}

#[test]
fn a_house_that_turns_on_the_spot_is_towed_as_one_from_both_ends() {
    let both = walk(
        &farm_of(&[(0.0, 29.0)], |house| house.side = LineSide::Both),
        2,
    );
    let spot = walk(
        &farm_of(&[(0.0, 29.0)], |house| {
            from_one_end(house);
            house.handling.turn_radius_m = Some(0.0);
        }),
        2,
    );
    assert!(spot.tows.iter().all(|tow| !tow.lacks_room_to_turn));
    assert!(spot.facts.tow_m >= both.facts.tow_m - 1e-9);
    assert!(
        spot.facts.tow_m < both.facts.tow_m * 1.5,
        "{}",
        spot.facts.tow_m
    );
}

#[test]
fn no_room_at_a_rows_end_is_found_and_a_smaller_circle_mends_it() {
    // Water across the way, 3.9 m beyond the row's end: the house is 3 m wide, and a circle of 5 m reaches 2.5 m past it.
    let farm = |radius_m| {
        let mut farm = farm_of(&[(0.0, 29.0)], |house| {
            from_one_end(house);
            house.handling.turn_radius_m = radius_m;
        });
        pond(&mut farm, (32.9, -200.0, 5.0, 400.0));
        farm
    };
    let told = |farm: &Farm| {
        let walks = [(HOUSE, walk(farm, 12))].into();
        let found = hen_findings(farm, &walks).into_iter();
        found
            .map(|finding| finding.what)
            .filter(|what| what.contains("turned about"))
            .collect::<Vec<String>>()
    };
    let tight = farm(None);
    let found = told(&tight);
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].contains("after place 5"), "{found:?}");
    assert_eq!(told(&farm(Some(1.5))), Vec::<String>::new());
    check_ways(
        &walk(&farm(Some(1.5)), 12),
        &[(32.9, -200.0, 5.0, 400.0)],
        1.5,
    );
}

#[test]
fn a_chosen_order_turns_where_there_is_room_and_nowhere_else() {
    let farm = |east_m: Option<f64>| {
        let mut farm = farm_of(&[(0.0, 29.0), (14.0, 29.0)], |house| {
            house.handling.tow_side = TowSide::OneEnd;
            house.handling.line_order = LineOrder::Chosen;
        });
        if let Some(east_m) = east_m {
            pond(&mut farm, (east_m, -200.0, 5.0, 400.0));
        }
        walk(&farm, 30)
    };
    // There and back: the second row is walked from its far end.
    let open = farm(None);
    assert_eq!(open.order.as_ref().unwrap().cost.barred_moves, 0);
    assert_eq!(open.legs.iter().filter(|leg| leg.is_backwards).count(), 1);
    // With water at the far end both rows are walked the same way, and no turn is asked for.
    let shut = farm(Some(31.0));
    assert_eq!(shut.order.as_ref().unwrap().cost.barred_moves, 0);
    assert!(shut.tows.iter().all(|tow| !tow.lacks_room_to_turn));
    let back = shut.legs.iter().filter(|leg| leg.is_backwards).count();
    assert!(back == 0 || back == 2, "{:?}", shut.legs);
}
