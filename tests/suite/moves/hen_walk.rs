//! The hens' walk, judged by a checker that knows the rules and none of the code that lays the places.

use std::collections::BTreeMap;

use foldcourse::farm::{Farm, Ground, GroundId, HenHouse, HenHouseId, Kind, LineSide};
use foldcourse::geometry::Point;
use foldcourse::planning::{HenWalk, HenWalkError, hen_walk};
use foldcourse::quantity::Day;
use proptest::prelude::*;

use crate::farm::sample::{day, empty_farm, hens, line, put, rectangle};

const HOUSE: HenHouseId = HenHouseId(900);

/// A farm with a house on these lines.
fn farm_with(lines: &[&[(f64, f64)]], change: impl Fn(&mut HenHouse)) -> Farm {
    let mut farm = empty_farm();
    let ids: Vec<GroundId> = lines
        .iter()
        .enumerate()
        .map(|(number, corners)| {
            let ground = Ground::new(format!("Row {number}"), Kind::TreeLine, line(corners));
            put(&mut farm, ground)
        })
        .collect();
    let mut house = hens(ids);
    change(&mut house);
    farm.hen_houses.insert(HOUSE, house);
    farm
}

/// Everything that a walk promises, found again from the farm, the places and the days alone.
fn check_walk(farm: &Farm, walk: &HenWalk, from: Day, days: u32) {
    let house = &farm.hen_houses[&HOUSE];
    for (index, place) in walk.places.iter().enumerate() {
        assert_eq!(place.number, index + 1);
        check_place(farm, house, place);
    }
    for (earlier, later) in walk.places.iter().zip(walk.places.iter().skip(1)) {
        let order = |id: GroundId| house.lines.iter().position(|line| *line == id);
        assert!(order(earlier.line) <= order(later.line), "lines in order");
        if earlier.line == later.line {
            let step_m = later.along_m - earlier.along_m;
            assert!(step_m >= house.length_m + house.gap_m - 1e-6, "{step_m}");
        }
    }
    check_days(farm, walk, from, days);
}

fn check_place(farm: &Farm, house: &HenHouse, place: &foldcourse::planning::HenPlace) {
    let [a, b, c, d] = place.outline;
    let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 1e-6, "{found} {wanted}");
    near(a.distance_m(b), house.length_m);
    near(b.distance_m(c), house.width_m);
    near(a.distance_m(c), house.length_m.hypot(house.width_m));
    near(b.distance_m(d), house.length_m.hypot(house.width_m));
    near(a.between(c, 0.5).distance_m(place.middle), 0.0);
    let twice_area: f64 = [(a, b), (b, c), (c, d), (d, a)]
        .iter()
        .map(|(p, q)| p.east_m * q.north_m - q.east_m * p.north_m)
        .sum();
    assert!(twice_area > 0.0, "anticlockwise");
    let length_m: f64 = sides(farm, place.line)
        .iter()
        .map(|(p, q)| p.distance_m(*q))
        .sum();
    assert!(place.along_m >= 0.0);
    assert!(place.along_m + house.length_m <= length_m + 0.001 + 1e-9);
}

fn sides(farm: &Farm, id: GroundId) -> Vec<(Point, Point)> {
    let corners = farm.ground[&id].shape.corners();
    corners
        .iter()
        .copied()
        .zip(corners.iter().copied().skip(1))
        .collect()
}

/// Follows the house from its very first day, one day at a time, and remembers when each place was last left.
fn check_days(farm: &Farm, walk: &HenWalk, from: Day, days: u32) {
    let house = &farm.hen_houses[&HOUSE];
    let last = house.last_day.unwrap_or_else(|| farm.season.last_day());
    let end = from.plus_days(i64::from(days));
    let mut told = walk.days.iter();
    let mut last_day_on: BTreeMap<usize, Day> = BTreeMap::new();
    let (mut place, mut day_of_stay) = (1, 0);
    let mut rested = None;
    let mut day = house.first_day;
    while day < end && day <= last {
        if day_of_stay == house.days_per_place {
            place = if place == walk.places.len() {
                1
            } else {
                place + 1
            };
            day_of_stay = 0;
        }
        day_of_stay += 1;
        if day_of_stay == 1 {
            rested = last_day_on
                .get(&place)
                .map(|left| day.days_since(*left) - 1);
        }
        last_day_on.insert(place, day);
        if day >= from {
            let stand = told.next().unwrap();
            assert_eq!(
                (stand.day, stand.place, stand.day_of_stay),
                (day, place, day_of_stay)
            );
            assert_eq!(stand.rested_days.map(i64::from), rested, "{day}");
            let wanted = i64::from(house.rest_days_wanted);
            assert_eq!(stand.is_rested, rested.map(|rested| rested >= wanted));
            let (_, found) = walk.on(day).unwrap();
            assert_eq!(found.number, place);
        }
        day = day.plus_days(1);
    }
    assert_eq!(told.next(), None, "no day too many");
}

/// Ground shared by two places, square metres, by counting small squares.
fn shared_m2(one: &[Point; 4], other: &[Point; 4], grid_m: f64) -> f64 {
    let inside = |place: Point| {
        (0..4).all(|side| {
            let (from, to) = (other[side], other[(side + 1) % 4]);
            (to.east_m - from.east_m) * (place.north_m - from.north_m)
                > (to.north_m - from.north_m) * (place.east_m - from.east_m)
        })
    };
    let [start, ahead, _, aside] = *one;
    let steps = |length_m: f64| (length_m / grid_m).ceil();
    let (along, across) = (
        steps(start.distance_m(ahead)),
        steps(start.distance_m(aside)),
    );
    let (aside_east_m, aside_north_m) =
        (aside.east_m - start.east_m, aside.north_m - start.north_m);
    let mut count = 0.0;
    let mut row = 0.5;
    while row < along {
        let mut column = 0.5;
        while column < across {
            let share = column / across;
            let front = start.between(ahead, row / along);
            let place = front.moved(aside_east_m * share, aside_north_m * share);
            count += f64::from(u8::from(inside(place)));
            column += 1.0;
        }
        row += 1.0;
    }
    count * grid_m * grid_m
}

#[test]
fn a_straight_row_is_walked_end_to_end_and_round_again() {
    // 80 m hold 13 places of 5 m with 1 m between: 13 x 5 + 12 x 1 = 77 m, and a fourteenth would need 83 m.
    let farm = farm_with(&[&[(0.0, 0.0), (80.0, 0.0)]], |_| {});
    let walk = hen_walk(&farm, HOUSE, day("2027-04-01"), 30).unwrap();
    check_walk(&farm, &walk, day("2027-04-01"), 30);
    assert_eq!(walk.facts.places, 13);
    assert_eq!((walk.facts.round_days, walk.facts.rest_days), (13, 12));
    assert_eq!(walk.facts.m2_per_hen, Some(0.3));
    assert!((walk.facts.m2_per_hen_in_round.unwrap() - 3.9).abs() < 1e-12);
    let stand = walk.days[13];
    assert_eq!(
        (stand.place, stand.rested_days, stand.is_rested),
        (1, Some(12), Some(false))
    );
    assert_eq!(walk.notes.len(), 1, "{:?}", walk.notes);
    assert!(walk.notes[0].contains("15 places"), "{:?}", walk.notes);
    let place = walk.place(2).unwrap();
    assert!((place.bearing_deg - 90.0).abs() < 1e-9);
    assert!(
        place.middle.distance_m(Point::new(8.5, 3.0)) < 1e-9,
        "left of a row that runs east is north"
    );
}

#[test]
fn the_right_hand_side_lies_on_the_other_side_of_the_row() {
    let row: &[(f64, f64)] = &[(0.0, 0.0), (0.0, 20.0)];
    let farm = farm_with(&[row], |house| house.side = LineSide::Right);
    let walk = hen_walk(&farm, HOUSE, day("2027-04-01"), 1).unwrap();
    assert!(walk.places[0].middle.distance_m(Point::new(3.0, 2.5)) < 1e-9);
}

#[test]
fn a_row_just_long_enough_holds_its_last_place() {
    let places = |length_m: f64| {
        let farm = farm_with(&[&[(0.0, 0.0), (length_m, 0.0)]], |_| {});
        hen_walk(&farm, HOUSE, day("2027-04-01"), 1).map(|walk| walk.facts.places)
    };
    assert_eq!(places(11.0), Ok(2));
    assert_eq!(places(10.99), Ok(1));
    assert_eq!(places(5.0), Ok(1));
    assert!(matches!(places(4.9), Err(HenWalkError::NoRoom { .. })));
}

#[test]
fn lines_follow_each_other_and_a_bad_one_is_left_out_aloud() {
    let mut farm = farm_with(
        &[
            &[(0.0, 0.0), (12.0, 0.0)],
            &[(0.0, 50.0), (4.0, 50.0)],
            &[(0.0, 90.0), (12.0, 90.0)],
        ],
        |_| {},
    );
    let field = put(
        &mut farm,
        Ground::new("Field", Kind::Plot, rectangle(0.0, 200.0, 9.0, 9.0)),
    );
    let house = farm.hen_houses.get_mut(&HOUSE).unwrap();
    house.rest_days_wanted = 3;
    house.lines.extend([field, GroundId(777)]);
    let walk = hen_walk(&farm, HOUSE, day("2027-04-01"), 10).unwrap();
    check_walk(&farm, &walk, day("2027-04-01"), 10);
    assert_eq!(walk.facts.places, 4);
    assert_eq!(walk.notes.len(), 3, "{:?}", walk.notes);
    assert!(walk.notes[0].contains("\"Row 1\" is too short: it is 4.0 m long"));
}

#[test]
fn a_sharp_bend_is_passed_without_standing_on_the_same_ground_twice() {
    let farm = farm_with(
        &[&[(0.0, 0.0), (23.0, 0.0), (23.0, 30.0), (0.0, 30.0)]],
        |_| {},
    );
    let walk = hen_walk(&farm, HOUSE, day("2027-04-01"), 40).unwrap();
    check_walk(&farm, &walk, day("2027-04-01"), 40);
    for (later, place) in walk.places.iter().enumerate() {
        for earlier in walk.places.iter().take(later) {
            let shared = shared_m2(&earlier.outline, &place.outline, 0.05);
            assert!(
                shared < 0.02,
                "{} on {}: {shared} m2",
                place.number,
                earlier.number
            );
        }
    }
}

#[test]
fn rows_so_close_that_places_overlap_are_told() {
    let farm = farm_with(
        &[&[(0.0, 0.0), (20.0, 0.0)], &[(0.0, 1.0), (20.0, 1.0)]],
        |house| {
            house.rest_days_wanted = 0;
        },
    );
    let walk = hen_walk(&farm, HOUSE, day("2027-04-01"), 1).unwrap();
    assert!(walk.notes[0].contains("another line"), "{:?}", walk.notes);
    let apart = farm_with(
        &[&[(0.0, 0.0), (20.0, 0.0)], &[(0.0, 9.0), (20.0, 9.0)]],
        |house| {
            house.rest_days_wanted = 0;
        },
    );
    assert!(
        hen_walk(&apart, HOUSE, day("2027-04-01"), 1)
            .unwrap()
            .notes
            .is_empty()
    );
}

#[test]
fn figures_that_no_house_has_are_refused_in_words() {
    let change: [fn(&mut HenHouse); 6] = [
        |house| house.length_m = 0.0,
        |house| house.width_m = f64::NAN,
        |house| house.gap_m = -5.0,
        |house| house.offset_m = f64::INFINITY,
        |house| house.days_per_place = 0,
        |house| house.lines.clear(),
    ];
    for (number, change) in change.into_iter().enumerate() {
        let farm = farm_with(&[&[(0.0, 0.0), (80.0, 0.0)]], change);
        let error = hen_walk(&farm, HOUSE, day("2027-04-01"), 5).unwrap_err();
        assert!(error.to_string().contains("Hens"), "case {number}: {error}");
    }
    let farm = farm_with(&[&[(0.0, 0.0), (80.0, 0.0)]], |house| {
        house.length_m = 1e-6;
        house.gap_m = 0.0;
    });
    let error = hen_walk(&farm, HOUSE, day("2027-04-01"), 5);
    assert!(matches!(error, Err(HenWalkError::TooManyPlaces { .. })));
    let error = hen_walk(&farm, HenHouseId(1), day("2027-04-01"), 5);
    assert_eq!(error, Err(HenWalkError::NoSuchHouse));
    let error = hen_walk(&farm, HOUSE, day("2027-04-01"), u32::MAX);
    assert!(matches!(error, Err(HenWalkError::TooManyDays { .. })));
}

proptest! {
    #[test]
    fn no_two_places_of_a_straight_row_share_ground_and_every_day_has_its_place(
        row_m in 6.0..120.0_f64, bearing_deg in 0.0..360.0_f64,
        length_m in 2.0..6.0_f64, width_m in 1.0..8.0_f64, gap_m in 0.0..3.0_f64, offset_m in 0.0..10.0_f64,
        stay in 1_u32..5, wanted in 0_u32..60, skip in -5_i64..70, days in 0_u32..90, is_left: bool,
    ) {
        let end = Point::new(40.0, -30.0).towards(bearing_deg, row_m);
        let farm = farm_with(&[&[(40.0, -30.0), (end.east_m, end.north_m)]], |house| {
            (house.length_m, house.width_m, house.gap_m, house.offset_m) = (length_m, width_m, gap_m, offset_m);
            (house.days_per_place, house.rest_days_wanted) = (stay, wanted);
            house.side = if is_left { LineSide::Left } else { LineSide::Right };
            house.last_day = Some(day("2027-05-31"));
        });
        let from = day("2027-04-01").plus_days(skip);
        let walk = hen_walk(&farm, HOUSE, from, days).unwrap();
        check_walk(&farm, &walk, from, days);
        // As many as fit: one more would not.
        let count = f64::from(u32::try_from(walk.places.len()).unwrap());
        prop_assert!(count * length_m + (count - 1.0) * gap_m <= row_m + 0.001 + 1e-6);
        prop_assert!((count + 1.0) * length_m + count * gap_m > row_m);
        for pair in walk.places.windows(2) {
            prop_assert!(shared_m2(&pair[0].outline, &pair[1].outline, 0.1) < 1e-9);
        }
    }

    #[test]
    fn bent_rows_keep_every_promise_too(
        turns in prop::collection::vec((-120.0..120.0_f64, 3.0..40.0_f64), 1..7), offset_m in 0.0..8.0_f64, stay in 1_u32..4,
    ) {
        let mut corners = vec![(0.0, 0.0)];
        let (mut at, mut bearing_deg) = (Point::default(), 0.0);
        for (turn_deg, length_m) in turns {
            bearing_deg += turn_deg;
            at = at.towards(bearing_deg, length_m);
            corners.push((at.east_m, at.north_m));
        }
        let farm = farm_with(&[&corners], |house| {
            house.offset_m = offset_m;
            house.days_per_place = stay;
        });
        let Ok(walk) = hen_walk(&farm, HOUSE, day("2027-04-01"), 60) else {
            let length_m: f64 = sides(&farm, GroundId(1)).iter().map(|(a, b)| a.distance_m(*b)).sum();
            prop_assert!(length_m < 5.0);
            return Ok(());
        };
        check_walk(&farm, &walk, day("2027-04-01"), 60);
        for (later, place) in walk.places.iter().enumerate() {
            for earlier in walk.places.iter().take(later) {
                let shared = shared_m2(&earlier.outline, &place.outline, 0.25);
                prop_assert!(shared < 0.2, "{} on {}: {shared} m2", place.number, earlier.number);
            }
        }
    }
}
