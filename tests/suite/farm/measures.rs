//! Measures of ground, counts of trees, densities, and which pieces are grazed.

use foldcourse::farm::{
    Farm, Ground, Kind, LivestockUnitSet, Shape, TreeRow, density_on, farm_area_m2, grazed_units,
    measure_ground, sheep_days_per_ha, trees_on,
};
use foldcourse::geometry::{Outline, Point, Polygon, Ring};
use proptest::prelude::*;

use super::sample::{empty_farm, ewes, line, put, rectangle, strip, two_strip_farm};

#[track_caller]
fn check_near(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "{found} is not within {tolerance} of {expected}"
    );
}

fn area_of(farm: &Farm, shape: Shape) -> f64 {
    let ground = Ground::new("Any", Kind::Plot, shape);
    measure_ground(farm, &ground).area_m2.unwrap()
}

/// Forty by a hundred metres are 4000 m², and the plane is true to parts in ten million this near its origin.
#[test]
fn a_rectangle_near_the_origin_measures_what_was_drawn() {
    let farm = empty_farm();
    let measures = measure_ground(
        &farm,
        &Ground::new("A", Kind::Plot, rectangle(0.0, 0.0, 40.0, 100.0)),
    );
    check_near(measures.area_m2.unwrap(), 4000.0, 0.001);
    check_near(measures.perimeter_m.unwrap(), 280.0, 0.001);
    assert_eq!(
        (measures.parts, measures.holes, measures.corners),
        (1, 0, 4)
    );
    assert_eq!(measures.length_m, None);
}

#[test]
fn holes_come_off_the_area_and_go_onto_the_fence() {
    let farm = empty_farm();
    let ring = |side: f64, at: f64| {
        Ring::new(vec![
            Point::new(at, at),
            Point::new(at + side, at),
            Point::new(at + side, at + side),
            Point::new(at, at + side),
        ])
    };
    let island = Polygon::simple(ring(10.0, 200.0).corners);
    let outline = Outline {
        parts: vec![
            Polygon {
                outer: ring(100.0, 0.0),
                holes: vec![ring(20.0, 40.0)],
            },
            island,
        ],
    };
    let measures = measure_ground(
        &farm,
        &Ground::new("A", Kind::Plot, Shape::Area(outline.clone())),
    );
    check_near(measures.area_m2.unwrap(), 10_000.0 - 400.0 + 100.0, 0.005);
    check_near(measures.perimeter_m.unwrap(), 400.0 + 80.0 + 40.0, 0.001);
    assert_eq!(
        (measures.parts, measures.holes, measures.corners),
        (2, 1, 12)
    );
    // Drawn the other way round it is the same ground.
    let mut turned = outline;
    turned.rings_mut().for_each(|ring| ring.corners.reverse());
    check_near(
        area_of(&farm, Shape::Area(turned)),
        measures.area_m2.unwrap(),
        1e-6,
    );
}

#[test]
fn a_line_has_length_and_trees_and_a_place_has_neither() {
    let farm = empty_farm();
    let mut row = Ground::new(
        "Apples",
        Kind::TreeLine,
        line(&[(0.0, 0.0), (0.0, 50.0), (38.0, 50.0)]),
    );
    row.trees = Some(TreeRow {
        spacing_m: 4.0,
        first_m: 0.0,
        crown_m: 3.0,
        varieties: Vec::new(),
    });
    let measures = measure_ground(&farm, &row);
    check_near(measures.length_m.unwrap(), 88.0, 0.001);
    assert_eq!(measures.area_m2, None);
    assert_eq!(
        measures.trees,
        Some(23),
        "88 m at 4 m with a tree at both ends"
    );
    let gate = Ground::new("Gate", Kind::Gate, Shape::Place(Point::new(1.0, 1.0)));
    let measures = measure_ground(&farm, &gate);
    assert_eq!(
        (measures.area_m2, measures.length_m, measures.trees),
        (None, None, None)
    );
}

#[test]
fn trees_are_counted_from_the_first_stem_and_never_past_the_end() {
    let row = |spacing_m: f64, first_m: f64| TreeRow {
        spacing_m,
        first_m,
        crown_m: 3.0,
        varieties: Vec::new(),
    };
    assert_eq!(row(4.0, 0.0).count_on(87.0), 22);
    assert_eq!(row(4.0, 1.5).count_on(87.0), 22);
    assert_eq!(row(4.0, 4.0).count_on(3.0), 0);
    assert_eq!(row(0.0, 0.0).count_on(87.0), 0);
    assert_eq!(row(f64::NAN, 0.0).count_on(87.0), 0);
}

#[test]
fn trees_round_a_loop_count_the_stem_where_it_closes_once() {
    let farm = empty_farm();
    let corners = [
        (0.0, 0.0),
        (10.0, 0.0),
        (10.0, 10.0),
        (0.0, 10.0),
        (0.0, 0.0),
    ];
    let line = corners.map(|(east_m, north_m)| Point::new(east_m, north_m));
    let trees = |corners: usize, spacing_m: f64, first_m: f64| {
        let line = line.iter().copied().take(corners).collect();
        let row = TreeRow {
            spacing_m,
            first_m,
            crown_m: 3.0,
            varieties: Vec::new(),
        };
        let ground = Ground {
            trees: Some(row),
            ..Ground::new("Ring", Kind::TreeLine, Shape::Line(line))
        };
        let listed = trees_on(&farm, &ground).len();
        assert_eq!(measure_ground(&farm, &ground).trees, Some(listed));
        listed
    };
    assert_eq!(trees(5, 5.0, 0.0), 8, "40 m round, a stem every 5 m");
    assert_eq!(trees(5, 7.0, 0.0), 6, "the last stands 5 m from the first");
    assert_eq!(trees(5, 5.0, 2.0), 8, "begun past the corner");
    assert_eq!(trees(4, 5.0, 0.0), 7, "open: both ends have one");
}

#[test]
fn pieces_of_a_ley_are_not_counted_twice_in_the_farm() {
    let (mut farm, _, _) = two_strip_farm();
    put(
        &mut farm,
        Ground::new("Plot", Kind::Plot, rectangle(200.0, 0.0, 50.0, 20.0)),
    );
    let area_m2 = farm_area_m2(&farm, |id| measure_ground(&farm, &farm.ground[&id]));
    check_near(area_m2, 9000.0, 0.01);
}

#[test]
fn a_ley_is_grazed_whole_until_it_is_cut_into_strips() {
    let (mut farm, _, [west, east]) = two_strip_farm();
    let whole = put(
        &mut farm,
        Ground::new("Home ley", Kind::Ley, rectangle(200.0, 0.0, 50.0, 20.0)),
    );
    put(
        &mut farm,
        Ground::new("Leeks", Kind::Plot, rectangle(300.0, 0.0, 50.0, 20.0)),
    );
    let ids: Vec<_> = grazed_units(&farm).iter().map(|unit| unit.id).collect();
    assert_eq!(ids, [west, east, whole]);
    let piece = strip("H1", rectangle(200.0, 0.0, 25.0, 20.0), whole);
    let piece = put(&mut farm, piece);
    let ids: Vec<_> = grazed_units(&farm).iter().map(|unit| unit.id).collect();
    assert_eq!(ids, [west, east, piece]);
}

/// 40 ewes of 70 kg on 0.093 ha are 430 to the hectare and 30.1 t of liveweight to the hectare (worked by hand).
#[test]
fn density_is_head_over_the_ground_they_stand_on_now() {
    let density = density_on(&ewes(), 930.0, LivestockUnitSet::England2023).unwrap();
    check_near(density.head_per_ha, 430.1, 0.05);
    check_near(density.liveweight_kg_per_ha, 30_108.0, 1.0);
    check_near(density.livestock_units_per_ha, 51.6, 0.05);
    assert_eq!(
        density_on(&ewes(), 0.0, LivestockUnitSet::England2023),
        None
    );
    // 40 head 3 days and 20 head 5 days on half a hectare.
    assert_eq!(sheep_days_per_ha([(40, 3), (20, 5)], 5000.0), Some(440.0));
}

proptest! {
    /// The plane's own area and the earth's differ by parts in a million at most within 3 km of the origin.
    #[test]
    fn where_a_field_lies_does_not_change_its_size(
        east_m in -3000.0..3000.0_f64, north_m in -3000.0..3000.0_f64, turn_deg in 0.0..360.0_f64,
    ) {
        let farm = empty_farm();
        let middle = Point::new(east_m, north_m);
        let corners = [45.0, 135.0, 225.0, 315.0].map(|bearing: f64| middle.towards(bearing + turn_deg, 50.0));
        // A square whose half diagonal is 50 m.
        let area_m2 = area_of(&farm, Shape::Area(Outline::simple(corners.to_vec())));
        prop_assert!((area_m2 - 5000.0).abs() < 5000.0 * 1e-6, "{area_m2}");
    }

    /// A rectangle cut across anywhere has the area of its two pieces.
    #[test]
    fn pieces_add_up_to_the_whole(width_m in 1.0..400.0_f64, depth_m in 1.0..400.0_f64, share in 0.01..0.99_f64) {
        let farm = empty_farm();
        let whole = area_of(&farm, rectangle(10.0, 20.0, width_m, depth_m));
        let west = area_of(&farm, rectangle(10.0, 20.0, width_m * share, depth_m));
        let east = area_of(&farm, rectangle(10.0 + width_m * share, 20.0, width_m * (1.0 - share), depth_m));
        prop_assert!((whole - west - east).abs() < 0.001, "{whole} {west} {east}");
    }
}
