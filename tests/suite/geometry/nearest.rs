//! Distances, nearest corners and sides, and what lies inside.

use foldcourse::geometry::nearest::nearest_on_line;
use foldcourse::geometry::{Outline, Point, Polygon, Ring, Whereabouts};

use super::shapes::square;

fn field_with_pond() -> Outline {
    Outline {
        parts: vec![Polygon {
            outer: Ring::new(square(0.0, 0.0, 100.0)),
            holes: vec![Ring::new(square(40.0, 40.0, 20.0))],
        }],
    }
}

#[test]
fn inside_outside_and_on_the_boundary_are_told_apart_exactly() {
    let field = field_with_pond();
    let cases = [
        ((10.0, 10.0), Whereabouts::Inside),
        ((50.0, 50.0), Whereabouts::Outside),
        ((40.0, 50.0), Whereabouts::OnBoundary),
        ((0.0, 0.0), Whereabouts::OnBoundary),
        ((100.0, 50.0), Whereabouts::OnBoundary),
        ((100.0 + 1e-12, 50.0), Whereabouts::Outside),
        ((-5.0, 100.0), Whereabouts::Outside),
        ((50.0, 0.0), Whereabouts::OnBoundary),
        ((200.0, 40.0), Whereabouts::Outside),
    ];
    for ((east_m, north_m), expected) in cases {
        assert_eq!(
            field.whereabouts(Point::new(east_m, north_m)),
            expected,
            "{east_m} {north_m}"
        );
    }
}

#[test]
fn the_nearest_corner_and_side_are_named_with_their_distance() {
    let field = field_with_pond();
    let corner = field
        .corner_within(Point::new(58.0, 61.0), 3.0)
        .expect("a corner of the pond");
    assert_eq!((corner.part, corner.ring, corner.corner), (0, 1, 2));
    assert!((corner.distance_m - 5.0_f64.sqrt()).abs() < 1e-12);
    assert_eq!(field.corner_within(Point::new(58.0, 61.0), 2.0), None);
    let side = field
        .side_within(Point::new(30.0, -2.0), 5.0)
        .expect("the south side");
    assert_eq!(
        (side.ring, side.corner, side.place),
        (0, 0, Point::new(30.0, 0.0))
    );
    assert_eq!(side.distance_m, 2.0);
    assert_eq!(field.distance_m(Point::new(103.0, 104.0)), 5.0);
    assert_eq!(field.distance_m(Point::new(50.0, 45.0)), 5.0);
    assert_eq!(field.distance_m(Point::new(10.0, 45.0)), 0.0);
    assert_eq!(
        Outline::default().distance_m(Point::default()),
        f64::INFINITY
    );
}

#[test]
fn the_nearest_place_on_a_line_knows_its_stretch_and_share() {
    let line = [
        Point::new(0.0, 0.0),
        Point::new(10.0, 0.0),
        Point::new(10.0, 10.0),
    ];
    let found = nearest_on_line(&line, Point::new(13.0, 5.0)).expect("a line");
    assert_eq!(
        (found.stretch, found.share, found.distance_m),
        (1, 0.5, 3.0)
    );
    assert_eq!(
        nearest_on_line(&line[..1], Point::new(3.0, 4.0))
            .expect("a point")
            .distance_m,
        5.0
    );
    assert_eq!(nearest_on_line(&[], Point::default()), None);
}
