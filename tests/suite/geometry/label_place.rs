//! Names lie inside, with about as much room as there is.

use foldcourse::geometry::label_place::{label_place, label_place_of_line};
use foldcourse::geometry::{Outline, Point, Polygon, Ring, Whereabouts};

use super::shapes::{Chance, comb, square, star_ring, star_with_holes, turned};

#[test]
fn the_place_has_as_much_room_as_a_fine_search_finds() {
    let mut chance = Chance(31);
    for round in 0..40 {
        let outline = match round % 2 {
            0 => star_with_holes(&mut chance, Point::default(), 100.0),
            _ => turned(&comb(&mut chance, Point::default(), 6, 100.0, 60.0), 33.0),
        };
        let found = label_place(&outline).expect("ground");
        assert_eq!(outline.whereabouts(found.place), Whereabouts::Inside);
        let clearance_m = |place| outline.nearest_side(place).expect("sides").distance_m;
        assert!((clearance_m(found.place) - found.clearance_m).abs() < 1e-9);
        let bounds = outline.bounds().expect("corners");
        for _ in 0..3000 {
            let place = bounds.least.moved(
                chance.share() * bounds.width_m(),
                chance.share() * bounds.height_m(),
            );
            if outline.whereabouts(place) == Whereabouts::Inside {
                assert!(
                    clearance_m(place) <= found.clearance_m * 1.011,
                    "round {round}"
                );
            }
        }
    }
}

#[test]
fn a_square_is_named_in_its_middle_and_a_hole_is_kept_clear_of() {
    let field = Outline::simple(square(10.0, 10.0, 100.0));
    let found = label_place(&field).expect("ground");
    assert!(found.place.distance_m(Point::new(60.0, 60.0)) < 1.0 && found.clearance_m > 49.0);
    let pond = Outline {
        parts: vec![Polygon {
            outer: Ring::new(square(0.0, 0.0, 100.0)),
            holes: vec![Ring::new(square(20.0, 20.0, 60.0))],
        }],
    };
    let found = label_place(&pond).expect("ground");
    assert_eq!(pond.whereabouts(found.place), Whereabouts::Inside);
}

#[test]
fn needle_thin_and_very_large_ground_is_named_in_bounded_time() {
    let needle = [
        (0.0, 0.0),
        (10_000.0, 10_000.0),
        (10_000.0, 10_000.2),
        (0.0, 0.2),
    ];
    let needle = Outline::simple(
        needle
            .iter()
            .map(|(east, north)| Point::new(*east, *north))
            .collect(),
    );
    let large = Outline::simple(
        star_ring(&mut Chance(32), Point::default(), 14_741, 500.0, 1000.0).corners,
    );
    for outline in [needle, large] {
        let begun = std::time::Instant::now();
        let found = label_place(&outline).expect("ground");
        eprintln!("named in {:?}, {found:?}", begun.elapsed());
        assert!(outline.contains(found.place));
        assert!(begun.elapsed().as_secs_f64() < 1.0);
    }
}

#[test]
fn a_line_is_named_in_its_middle_and_nothing_is_not_named() {
    let line = [
        Point::new(0.0, 0.0),
        Point::new(30.0, 0.0),
        Point::new(30.0, 70.0),
    ];
    let middle = label_place_of_line(&line).expect("a line");
    assert_eq!(
        (middle.place, middle.bearing_deg),
        (Point::new(30.0, 20.0), 0.0)
    );
    assert_eq!(label_place_of_line(&line[..1]), None);
    assert_eq!(label_place(&Outline::default()), None);
    assert_eq!(
        label_place(&Outline::simple(vec![
            Point::default(),
            Point::new(1.0, 0.0)
        ])),
        None
    );
}
