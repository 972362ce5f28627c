//! Rounds on real ground: both sides, lanes, things in the way, towing, orders, what is settled, sheep that lead.

use std::collections::BTreeMap;

use foldcourse::farm::{
    Closed, Farm, FlockStep, Grazing, Ground, GroundId, HenHouse, HenHouseId, HenMark, HenStop,
    Kind, LeftStretch, LineOrder, LineSide, Shape, StopKind, StretchTrouble, TreeRow,
};
use foldcourse::geometry::Point;
use foldcourse::planning::{
    HenPlace, HenWalk, NitrogenSet, hen_findings, hen_remedies, hen_sums, hen_walk,
};
use proptest::prelude::*;

use crate::farm::sample::{day, empty_farm, hens, line, put, rectangle};

pub(super) const HOUSE: HenHouseId = HenHouseId(900);

/// Rows that run east, so far north and so long, and a house along them.
pub(super) fn farm_of(rows: &[(f64, f64)], change: impl Fn(&mut HenHouse)) -> Farm {
    let mut farm = empty_farm();
    let ids: Vec<GroundId> = rows
        .iter()
        .enumerate()
        .map(|(number, (north_m, length_m))| {
            let corners = [(0.0, *north_m), (*length_m, *north_m)];
            put(
                &mut farm,
                Ground::new(format!("Row {number}"), Kind::TreeLine, line(&corners)),
            )
        })
        .collect();
    let mut house = hens(ids);
    house.rest_days_wanted = 0;
    change(&mut house);
    farm.hen_houses.insert(HOUSE, house);
    farm
}

pub(super) fn walk(farm: &Farm, days: u32) -> HenWalk {
    hen_walk(farm, HOUSE, day("2027-04-01"), days).unwrap()
}

/// Whether a place lies inside an oblong, by its four sides.
fn is_inside(place: Point, oblong: &[Point; 4], by_m: f64) -> bool {
    (0..4).all(|side| {
        let (from, to) = (oblong[side], oblong[(side + 1) % 4]);
        let cross = (to.east_m - from.east_m) * (place.north_m - from.north_m)
            - (to.north_m - from.north_m) * (place.east_m - from.east_m);
        cross / from.distance_m(to) > by_m
    })
}

/// Places of an oblong, a grid of them.
fn grid(oblong: &[Point; 4]) -> Vec<Point> {
    let [a, b, c, d] = *oblong;
    let mut places = Vec::new();
    for along in 0..=12 {
        let (near, far) = (
            a.between(b, f64::from(along) / 12.0),
            d.between(c, f64::from(along) / 12.0),
        );
        places.extend((0..=12).map(|across| near.between(far, f64::from(across) / 12.0)));
    }
    places
}

/// No two places share ground, what they may overlap along the line left aside.
fn check_apart(places: &[HenPlace], overlap_m: f64) {
    for (index, one) in places.iter().enumerate() {
        for other in &places[..index] {
            let shared = grid(&one.outline)
                .into_iter()
                .filter(|place| is_inside(*place, &other.outline, overlap_m.max(0.0) + 0.01))
                .count();
            assert_eq!(shared, 0, "places {} and {}", one.number, other.number);
        }
    }
}

#[test]
fn both_sides_are_walked_up_and_back() {
    let farm = farm_of(&[(0.0, 29.0)], |house| house.side = LineSide::Both);
    let walk = walk(&farm, 20);
    // 29 m hold five places of 5 m with 1 m between, on each side.
    assert_eq!(walk.facts.places, 10);
    check_apart(&walk.places, 0.0);
    let along: Vec<f64> = walk.places.iter().map(|place| place.along_m).collect();
    assert_eq!(
        along,
        [0.0, 6.0, 12.0, 18.0, 24.0, 24.0, 18.0, 12.0, 6.0, 0.0]
    );
    let sides: Vec<LineSide> = walk.places.iter().map(|place| place.side).collect();
    assert!(sides[..5].iter().all(|side| *side == LineSide::Left));
    assert!(sides[5..].iter().all(|side| *side == LineSide::Right));
    // A row nobody said the stems of is not towed through: round its end, not the 6 m across.
    assert!(walk.tows[4].length_m > 8.0, "{:?}", walk.tows[4]);
    assert!(walk.tows.iter().all(|tow| !tow.is_blocked));
}

#[test]
fn lanes_lie_inside_the_ley_and_every_other_one_runs_back() {
    let mut farm = farm_of(&[], |_| {});
    let ley = put(
        &mut farm,
        Ground::new("Ley", Kind::Ley, rectangle(0.0, 0.0, 10.0, 40.0)),
    );
    let house = farm.hen_houses.get_mut(&HOUSE).unwrap();
    house.lines = vec![ley];
    house.gap_m = 0.0;
    let walk = walk(&farm, 5);
    // Three lanes of 3 m in 10 m, eight places of 5 m in each.
    assert_eq!(walk.facts.places, 24);
    check_apart(&walk.places, 0.0);
    for place in &walk.places {
        for corner in place.outline {
            assert!((-0.002..=10.002).contains(&corner.east_m), "{corner:?}");
            assert!((-0.002..=40.002).contains(&corner.north_m), "{corner:?}");
        }
    }
    let north: Vec<f64> = walk
        .places
        .iter()
        .map(|place| place.middle.north_m)
        .collect();
    assert!(
        (north[7] - north[8]).abs() < 1e-6,
        "the next lane begins where this one ends"
    );
}

#[test]
fn a_stated_overlap_is_kept_and_no_more() {
    let farm = farm_of(&[(0.0, 29.0)], |house| house.gap_m = -1.0);
    let walk = walk(&farm, 5);
    assert_eq!(walk.facts.places, 7);
    check_apart(&walk.places, 1.0);
    let step_m = walk.places[1].middle.distance_m(walk.places[0].middle);
    assert!((step_m - 4.0).abs() < 1e-9);
}

#[test]
fn a_pond_a_trunk_and_a_plot_are_passed_by_and_said() {
    let mut farm = farm_of(&[(0.0, 60.0)], |_| {});
    put(
        &mut farm,
        Ground::new("Pond", Kind::Water, rectangle(14.0, 1.0, 10.0, 6.0)),
    );
    put(
        &mut farm,
        Ground::new("Leeks", Kind::Plot, rectangle(40.0, 2.0, 6.0, 20.0)),
    );
    let walk = walk(&farm, 5);
    for place in &walk.places {
        for at in grid(&place.outline) {
            let in_pond = (14.01..23.99).contains(&at.east_m) && (1.01..6.99).contains(&at.north_m);
            let in_plot = (40.01..45.99).contains(&at.east_m) && at.north_m > 2.01;
            assert!(!in_pond && !in_plot, "place {}", place.number);
        }
    }
    let notes = walk.notes.join("; ");
    assert!(notes.contains("water \"Pond\" is in the way"), "{notes}");
    assert!(notes.contains("plot \"Leeks\" is in the way"), "{notes}");
    check_ways(
        &walk,
        &[(14.0, 1.0, 10.0, 6.0), (40.0, 2.0, 6.0, 20.0)],
        1.5,
    );
}

/// Every way keeps off these boxes by nearly the house's half width.
pub(super) fn check_ways(walk: &HenWalk, boxes: &[(f64, f64, f64, f64)], half_m: f64) {
    for tow in walk.tows.iter().filter(|tow| !tow.is_blocked) {
        for pair in tow.way.windows(2) {
            for step in 0..=50 {
                let at = pair[0].between(pair[1], f64::from(step) / 50.0);
                for (east_m, north_m, width_m, height_m) in boxes {
                    let east = (east_m - at.east_m)
                        .max(at.east_m - east_m - width_m)
                        .max(0.0);
                    let north = (north_m - at.north_m)
                        .max(at.north_m - north_m - height_m)
                        .max(0.0);
                    assert!(east.hypot(north) > half_m * 0.99, "{at:?}");
                }
            }
        }
    }
}

#[test]
fn a_house_over_its_row_stands_between_the_stems() {
    let mut farm = farm_of(&[(0.0, 40.0)], |house| {
        house.offset_m = 0.0;
        house.length_m = 4.0;
    });
    let row = farm.hen_houses[&HOUSE].lines[0];
    farm.ground.get_mut(&row).unwrap().trees = Some(TreeRow {
        spacing_m: 6.0,
        first_m: 0.0,
        crown_m: 2.0,
        varieties: Vec::new(),
    });
    let walk = walk(&farm, 5);
    assert_eq!(walk.facts.places, 6);
    for place in &walk.places {
        let from_m = place.along_m.rem_euclid(6.0);
        assert!(from_m >= 0.24 && from_m + 4.0 <= 5.76, "{}", place.along_m);
    }
}

#[test]
fn a_fence_is_passed_at_its_gate_where_the_house_fits_through() {
    let mut farm = farm_of(&[(0.0, 11.0), (40.0, 11.0)], |house| {
        house.handling.house_width_m = Some(2.0);
    });
    put(
        &mut farm,
        Ground::new("Fence", Kind::Fence, line(&[(-100.0, 20.0), (100.0, 20.0)])),
    );
    let shut = walk(&farm, 3);
    let around_m = shut.tows[1].length_m;
    assert!(around_m > 150.0, "round the fence's end: {around_m}");
    put(
        &mut farm,
        Ground::new("Gate", Kind::Gate, Shape::Place(Point::new(30.0, 20.0))),
    );
    let open = walk(&farm, 3);
    assert!(open.tows[1].length_m < 80.0, "{}", open.tows[1].length_m);
    farm.hen_houses
        .get_mut(&HOUSE)
        .unwrap()
        .handling
        .house_width_m = Some(4.5);
    let wide = walk(&farm, 3);
    assert!(wide.tows[1].length_m > 150.0, "wider than the gate");
}

#[test]
fn the_order_keeps_off_windfalls_and_then_tows_least() {
    let rows = [(0.0, 29.0), (10.0, 29.0), (20.0, 29.0)];
    let mut farm = farm_of(&rows, |house| house.handling.line_order = LineOrder::Chosen);
    farm.season.days = 15;
    let free = walk(&farm, 15);
    let order = free.order.as_ref().unwrap();
    assert!(order.is_proven && order.cost.closed_days == 0, "{order:?}");
    // Row 0 is closed for the first ten days: it comes last.
    let row = farm.hen_houses[&HOUSE].lines[0];
    farm.hen_houses.get_mut(&HOUSE).unwrap().handling.stops = vec![HenStop {
        from: day("2027-04-01"),
        to: day("2027-04-10"),
        kind: StopKind::KeepOff(row),
        why: "windfalls".to_owned(),
    }];
    let kept = walk(&farm, 15);
    assert_eq!(kept.legs.last().unwrap().line, row);
    assert!(kept.closed.is_empty(), "{:?}", kept.closed);
    farm.hen_houses.get_mut(&HOUSE).unwrap().handling.line_order = LineOrder::AsListed;
    let listed = walk(&farm, 15);
    assert_eq!(listed.closed.len(), 5);
    assert!(
        listed.notes.iter().any(|note| note.contains("windfalls")),
        "{:?}",
        listed.notes
    );
    let best = listed.order.unwrap().best.unwrap();
    assert_eq!(best.closed_days, 0);
}

#[test]
fn rest_owed_from_before_the_walk_puts_a_line_later() {
    let mut farm = farm_of(&[(0.0, 29.0), (10.0, 29.0)], |house| {
        house.handling.line_order = LineOrder::Chosen;
        house.rest_days_wanted = 5;
    });
    let row = farm.hen_houses[&HOUSE].lines[0];
    farm.hen_houses
        .get_mut(&HOUSE)
        .unwrap()
        .handling
        .left_on
        .insert(row, day("2027-03-31"));
    let walk = walk(&farm, 10);
    assert_eq!(walk.legs[1].line, row);
    assert_eq!(walk.order.as_ref().unwrap().cost.unrested_days, 0);
    assert_eq!(walk.days[5].rested_days, Some(5));
    assert_eq!(walk.days[0].rested_days, None);
}

#[test]
fn closed_leys_under_the_places_count_like_windfalls() {
    let mut farm = farm_of(&[(0.0, 29.0), (30.0, 29.0)], |house| {
        house.handling.line_order = LineOrder::Chosen;
    });
    farm.season.days = 10;
    let ley = put(
        &mut farm,
        Ground::new("Hay", Kind::Ley, rectangle(0.0, 1.0, 40.0, 10.0)),
    );
    let grazing = Grazing {
        closed: vec![Closed {
            from: day("2027-04-01"),
            to: day("2027-04-05"),
            why: "hay".to_owned(),
        }],
        ..Grazing::default()
    };
    farm.ground.get_mut(&ley).unwrap().grazing = Some(grazing);
    let walk = walk(&farm, 10);
    assert_eq!(walk.legs[0].line, farm.hen_houses[&HOUSE].lines[1]);
    assert!(walk.closed.is_empty());
}

fn places_by_day(walk: &HenWalk) -> Vec<usize> {
    walk.days.iter().map(|day| day.place).collect()
}

#[test]
fn late_and_left_out_days_shift_the_walk_from_that_day_on() {
    let plain = farm_of(&[(0.0, 60.0)], |_| {});
    let before = places_by_day(&walk(&plain, 8));
    assert_eq!(before, [1, 2, 3, 4, 5, 6, 7, 8]);
    let with = |marks: &[(&str, HenMark)]| {
        let farm = farm_of(&[(0.0, 60.0)], |house| {
            house.handling.marks = marks.iter().map(|(on, mark)| (day(on), *mark)).collect();
        });
        places_by_day(&walk(&farm, 8))
    };
    assert_eq!(
        with(&[("2027-04-04", HenMark::Late)]),
        [1, 2, 3, 3, 4, 5, 6, 7]
    );
    assert_eq!(
        with(&[("2027-04-04", HenMark::Skipped)]),
        [1, 2, 3, 5, 6, 7, 8, 9]
    );
    let spot = walk(&plain, 1).places[6].spot();
    let fixed = HenMark::At { spot, lived: false };
    assert_eq!(with(&[("2027-04-04", fixed)]), [1, 2, 3, 7, 8, 9, 10, 1]);
}

#[test]
fn lived_days_stay_and_the_rest_of_the_round_is_ordered_after_them() {
    let rows = [(0.0, 17.0), (10.0, 17.0), (20.0, 17.0)];
    let mut farm = farm_of(&rows, |house| house.handling.line_order = LineOrder::Chosen);
    farm.season.days = 9;
    let first = walk(&farm, 9);
    let begun = first.legs[0].line;
    let house = farm.hen_houses.get_mut(&HOUSE).unwrap();
    for stand in &first.days[..2] {
        let spot = first.place(stand.place).unwrap().spot();
        house
            .handling
            .marks
            .insert(stand.day, HenMark::At { spot, lived: true });
    }
    // Now the line that was begun closes for its first days: what was lived does not change.
    house.handling.stops = vec![HenStop {
        from: day("2027-04-01"),
        to: day("2027-04-03"),
        kind: StopKind::KeepOff(begun),
        why: "harvest".to_owned(),
    }];
    let after = walk(&farm, 9);
    let at = |walk: &HenWalk, day: usize| walk.place(walk.days[day].place).unwrap().middle;
    for day in 0..3 {
        assert!(
            at(&first, day).distance_m(at(&after, day)) < 1e-9,
            "day {day}"
        );
    }
    let mut lines: Vec<GroundId> = after.legs.iter().map(|leg| leg.line).collect();
    assert_eq!(lines[0], begun);
    lines.sort_unstable();
    lines.dedup();
    assert_eq!(lines.len(), 3, "every line once");
}

#[test]
fn shut_in_hens_stay_while_the_ground_rests_and_frost_lengthens_a_stay() {
    let stop = |kind| HenStop {
        from: day("2027-04-03"),
        to: day("2027-04-04"),
        kind,
        why: String::new(),
    };
    let farm = |kind| {
        farm_of(&[(0.0, 60.0)], |house| {
            house.handling.stops = vec![stop(kind)];
        })
    };
    let housed = walk(&farm(StopKind::Housed), 6);
    assert_eq!(places_by_day(&housed), [1, 2, 2, 2, 3, 4]);
    let is_housed: Vec<bool> = housed.days.iter().map(|day| day.is_housed).collect();
    assert_eq!(is_housed, [false, false, true, true, false, false]);
    let frozen = walk(&farm(StopKind::NoTowing), 6);
    assert_eq!(places_by_day(&frozen), [1, 2, 2, 2, 3, 4]);
    assert_eq!(frozen.days[3].day_of_stay, 3);
}

#[test]
fn remedies_of_a_short_round_do_what_they_say() {
    let mut farm = farm_of(&[(0.0, 60.0)], |house| house.rest_days_wanted = 14);
    let other = put(
        &mut farm,
        Ground::new("Hedge", Kind::Hedge, line(&[(0.0, 80.0), (60.0, 80.0)])),
    );
    let remedies = hen_remedies(&farm, HOUSE);
    let text: Vec<&str> = remedies.iter().map(|remedy| remedy.what.as_str()).collect();
    assert_eq!(remedies.len(), 5, "{text:?}");
    assert!(remedies.iter().all(|remedy| remedy.rest_days >= 14));
    // Ten places on 60 m; fifteen need 89 m.
    assert!(
        text[0].contains("29.") || text[0].contains("30."),
        "{}",
        text[0]
    );
    assert!(text[1].contains("stay 1 day longer"), "{}", text[1]);
    assert!(text[2].contains("25 hens fewer (25 left)"), "{}", text[2]);
    assert!(text[3].contains("both sides"), "{}", text[3]);
    assert!(text[4].contains("hedge \"Hedge\""), "{}", text[4]);
    farm.hen_houses.get_mut(&HOUSE).unwrap().lines.push(other);
    assert!(hen_remedies(&farm, HOUSE).is_empty());
    assert!(walk(&farm, 1).facts.rest_days >= 14);
}

#[test]
fn sums_of_a_round_follow_from_birds_and_ground() {
    // 50 hens for a day on 100 m2 leave 10.1 kg N/ha (170 kg and 230 hens to the hectare and year).
    let farm = farm_of(&[(0.0, 100.0)], |house| {
        (house.length_m, house.width_m) = (10.0, 10.0);
    });
    let walk = walk(&farm, 200);
    let sums = hen_sums(&farm.hen_houses[&HOUSE], &walk, NitrogenSet::EuOrganic);
    assert!(
        (sums.n_kg_per_ha_in_round - 10.1).abs() < 0.05,
        "{}",
        sums.n_kg_per_ha_in_round
    );
    // Nine places; April to the season's end, counted by place.
    let mut by_place: BTreeMap<usize, f64> = BTreeMap::new();
    for stand in &walk.days {
        *by_place.entry(stand.place).or_default() += 50.0 * 170.0 / 230.0 / 365.0 / 0.01;
    }
    let most = by_place.values().copied().fold(0.0, f64::max);
    assert!((sums.n_kg_per_ha_in_year[&2027] - most).abs() < 1e-9);
    assert_eq!(sums.nets, 1);
    assert!(
        (sums.feed_kg_a_day.0 - 5.0).abs() < 1e-12 && (sums.water_l_a_day.1 - 15.0).abs() < 1e-12
    );
}

#[test]
fn birds_that_outgrow_their_run_are_told_with_the_day() {
    let step = |from: &str, birds, m2_each| FlockStep {
        from: day(from),
        birds,
        m2_each,
    };
    let farm = farm_of(&[(0.0, 60.0)], |house| {
        house.handling.flock_steps = vec![step("2027-04-01", 60, 0.1), step("2027-04-20", 60, 0.3)];
    });
    let walk = walk(&farm, 40);
    let found = hen_findings(&farm, &[(HOUSE, walk.clone())].into());
    assert_eq!(found.len(), 1, "{found:?}");
    // 60 birds at 0.3 m2 want 18 m2; 5 m by 3 m give 15: 1 m longer or ten fewer.
    let remedy = &found[0].remedy;
    assert!(
        remedy.contains("20 April")
            && remedy.contains("1.0 m longer")
            && remedy.contains("10 birds fewer"),
        "{remedy}"
    );
    assert_eq!(farm.hen_houses[&HOUSE].birds_on(day("2027-03-01")), 50);
}

#[test]
fn a_steep_stretch_bears_no_place_and_the_next_begins_behind_it() {
    let farm = farm_of(&[(0.0, 60.0)], |house| {
        house.side = LineSide::Both;
        house.handling.left_stretches = vec![LeftStretch {
            line: house.lines[0],
            from_m: 14.0,
            to_m: 31.5,
            why: StretchTrouble::Steep,
        }];
    });
    let walk = walk(&farm, 5);
    // 5 m each and 1 m between: two before 14 m, and from 31.5 m on as many as end by 60 m.
    let up: Vec<f64> = walk.places[..6].iter().map(|place| place.along_m).collect();
    assert_eq!(up[..2], [0.0, 6.0]);
    assert_eq!(up[2..], [31.5, 37.5, 43.5, 49.5]);
    assert_eq!(walk.facts.places, 2 * 7 - 2);
    let told = "no place from 14.0 m to 31.5 m along it, too steep by your word";
    assert!(walk.notes.join("; ").contains(told), "{:?}", walk.notes);
}

#[test]
fn a_row_left_out_whole_is_said_to_be_so() {
    let farm = farm_of(&[(0.0, 30.0), (30.0, 30.0)], |house| {
        house.handling.left_stretches = vec![LeftStretch {
            line: house.lines[0],
            from_m: 0.0,
            to_m: 27.0,
            why: StretchTrouble::Narrow,
        }];
    });
    let walk = walk(&farm, 5);
    assert_eq!(walk.legs.len(), 1);
    let notes = walk.notes.join("; ");
    assert!(notes.contains("beside the stretches left out"), "{notes}");
}

#[test]
fn two_houses_on_one_place_are_told() {
    let mut farm = farm_of(&[(0.0, 60.0)], |_| {});
    let second = farm.hen_houses[&HOUSE].clone();
    farm.hen_houses.insert(HenHouseId(902), second);
    let walks: BTreeMap<HenHouseId, HenWalk> = farm
        .hen_houses
        .keys()
        .map(|id| (*id, hen_walk(&farm, *id, day("2027-04-01"), 5).unwrap()))
        .collect();
    let found = hen_findings(&farm, &walks);
    assert!(
        found
            .iter()
            .any(|finding| finding.what.contains("same ground")),
        "{found:?}"
    );
}

#[test]
fn a_house_that_comes_too_soon_after_another_is_told_with_the_days() {
    // Ten places of a day each: the second house stands each day where the first stood three days before.
    let told = |wanted_days| {
        let mut farm = farm_of(&[(0.0, 59.0)], |house| {
            house.days_per_place = 1;
            house.rest_days_wanted = wanted_days;
        });
        let mut second = farm.hen_houses[&HOUSE].clone();
        second.first_day = second.first_day.plus_days(3);
        second.name = "Second".to_owned();
        farm.hen_houses.insert(HenHouseId(902), second);
        let walks: BTreeMap<HenHouseId, HenWalk> = farm
            .hen_houses
            .keys()
            .map(|id| {
                (
                    *id,
                    hen_walk(&farm, *id, farm.hen_houses[id].first_day, 9).unwrap(),
                )
            })
            .collect();
        let found = hen_findings(&farm, &walks);
        let words = found.into_iter().map(|finding| finding.what);
        words
            .filter(|what| what.contains("comes onto ground"))
            .collect::<Vec<String>>()
    };
    // The first house has not come round within its nine days.
    let found = told(3);
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].starts_with("Second: "), "{found:?}");
    assert!(
        found[0].contains("2 days before, where 3 days of rest are wanted"),
        "{found:?}"
    );
    assert!(told(2).is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn places_of_a_round_share_no_ground_and_every_way_keeps_off_what_is_there(
        rows in prop::collection::vec(10.0..60.0_f64, 1..4),
        ponds in prop::collection::vec((-20.0..70.0_f64, -20.0..70.0_f64, 1.0..15.0_f64, 1.0..15.0_f64), 0..5),
        size in (2.0..6.0_f64, 1.0..4.0_f64), gap_m in -1.0..2.0_f64, is_both: bool,
    ) {
        let rows: Vec<(f64, f64)> = rows.iter().enumerate()
            .map(|(number, length_m)| (20.0 * f64::from(u8::try_from(number).unwrap()), *length_m)).collect();
        let mut farm = farm_of(&rows, |house| {
            (house.length_m, house.width_m, house.gap_m, house.offset_m) = (size.0, size.1, gap_m, 3.0);
            house.side = if is_both { LineSide::Both } else { LineSide::Left };
            house.handling.line_order = LineOrder::Chosen;
        });
        for (number, (east_m, north_m, width_m, height_m)) in ponds.iter().enumerate() {
            let pond = Ground::new(format!("Pond {number}"), Kind::Water, rectangle(*east_m, *north_m, *width_m, *height_m));
            put(&mut farm, pond);
        }
        let Ok(walk) = hen_walk(&farm, HOUSE, day("2027-04-01"), 30) else {
            return Ok(());
        };
        check_apart(&walk.places, -gap_m);
        for place in &walk.places {
            for at in grid(&place.outline) {
                let is_wet = ponds.iter().any(|(e, n, w, h)| at.east_m > e + 0.01 && at.east_m < e + w - 0.01
                    && at.north_m > n + 0.01 && at.north_m < n + h - 0.01);
                prop_assert!(!is_wet, "place {}", place.number);
            }
        }
        // A house beside a pond stands nearer than it may be towed: such ends are left aside.
        for tow in walk.tows.iter().filter(|tow| !tow.is_blocked) {
            let is_near = |at: &Point, one: &(f64, f64, f64, f64)| off_m(*at, *one) < size.1 / 2.0 * 1.02;
            let far: Vec<(f64, f64, f64, f64)> = ponds.iter().copied()
                .filter(|one| !tow.way.iter().take(1).chain(tow.way.last()).any(|end| is_near(end, one)))
                .collect();
            for pair in tow.way.windows(2) {
                for step in 0..=40 {
                    let at = pair[0].between(pair[1], f64::from(step) / 40.0);
                    for one in &far {
                        prop_assert!(off_m(at, *one) > size.1 / 2.0 * 0.99, "{:?}", at);
                    }
                }
            }
        }
        let mut lines: Vec<GroundId> = walk.legs.iter().map(|leg| leg.line).collect();
        lines.sort_unstable();
        lines.dedup();
        prop_assert_eq!(lines.len(), walk.legs.len());
    }
}

fn off_m(at: Point, (east_m, north_m, width_m, height_m): (f64, f64, f64, f64)) -> f64 {
    let east = (east_m - at.east_m)
        .max(at.east_m - east_m - width_m)
        .max(0.0);
    let north = (north_m - at.north_m)
        .max(at.north_m - north_m - height_m)
        .max(0.0);
    east.hypot(north)
}
