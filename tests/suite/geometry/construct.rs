//! Shapes made from figures.

use foldcourse::geometry::construct::{
    circle, mirrored, moved, rectangle, rectangle_by_three_points, row_of_copies, turned,
};
use foldcourse::geometry::{Outline, Point};

use super::shapes::{Chance, star_with_holes};

#[test]
fn a_rectangle_by_three_points_is_square_and_reaches_the_third() {
    let (from, to) = (Point::new(1.0, 2.0), Point::new(31.0, 42.0));
    for reach in [Point::new(-20.0, 40.0), Point::new(60.0, 10.0)] {
        let made = rectangle_by_three_points(from, to, reach).expect("a rectangle");
        let corners = &made.parts[0].outer.corners;
        assert_eq!((corners[0], corners[1]), (from, to));
        assert!(
            (corners[0].distance_m(corners[2]) - corners[1].distance_m(corners[3])).abs() < 1e-9
        );
        assert!(reach.distance_m(reach.nearest_on_side(corners[3], corners[2])) < 20.0);
        let side = foldcourse::geometry::sides::turn(corners[2], corners[3], reach);
        let off_m = made.nearest_side(reach).expect("sides").distance_m;
        assert!(off_m < 1e-9 || side != foldcourse::geometry::sides::Turn::Straight);
        assert!((made.area_m2() - 50.0 * depth_m(from, to, reach)).abs() < 1e-9);
    }
    assert_eq!(rectangle_by_three_points(from, from, to), None);
    assert_eq!(
        rectangle_by_three_points(from, to, from.between(to, 0.5)),
        None
    );
}

fn depth_m(from: Point, to: Point, reach: Point) -> f64 {
    let far = from.between(to, 50.0);
    let back = to.between(from, 50.0);
    reach.distance_m(reach.nearest_on_side(back, far))
}

#[test]
fn a_tunnel_by_corner_bearing_length_and_width_lies_to_the_right() {
    let tunnel = rectangle(Point::new(10.0, 10.0), 90.0, 30.0, 8.0).expect("a rectangle");
    let bounds = tunnel.bounds().expect("corners");
    assert!(bounds.least.distance_m(Point::new(10.0, 2.0)) < 1e-9);
    assert!(bounds.most.distance_m(Point::new(40.0, 10.0)) < 1e-9);
    for (length_m, width_m) in [(0.0, 8.0), (30.0, -8.0), (f64::NAN, 8.0)] {
        assert_eq!(rectangle(Point::default(), 0.0, length_m, width_m), None);
    }
}

#[test]
fn copies_stand_in_a_row_at_their_spacing() {
    let bed = rectangle(Point::default(), 0.0, 30.0, 0.75).expect("a bed");
    let row = row_of_copies(&bed, 90.0, 1.2, 10);
    assert_eq!(row.len(), 10);
    assert_eq!(row[0], bed);
    let last = row[9].bounds().expect("corners").least;
    assert!((last.east_m - 10.8).abs() < 1e-9 && last.north_m.abs() < 1e-9);
    assert!(row_of_copies(&bed, 0.0, 1.0, 0).is_empty());
}

#[test]
fn turning_and_mirroring_keep_area_and_come_back() {
    let mut chance = Chance(61);
    for _ in 0..20 {
        let outline = star_with_holes(&mut chance, Point::new(100.0, 50.0), 80.0);
        let about = Point::new(chance.between(-99.0, 99.0), 7.0);
        let there = turned(&outline, about, 77.0);
        let back = turned(&there, about, -77.0);
        let axis = (
            Point::new(0.0, 3.0),
            Point::new(chance.between(1.0, 9.0), 9.0),
        );
        let image = mirrored(&outline, axis.0, axis.1).expect("a line");
        let twice = mirrored(&image, axis.0, axis.1).expect("a line");
        for changed in [&there, &image] {
            assert!((changed.area_m2() - outline.area_m2()).abs() < 1e-7);
            let wound = changed.parts[0].outer.signed_area_m2().is_sign_positive();
            assert_eq!(
                wound,
                outline.parts[0].outer.signed_area_m2().is_sign_positive()
            );
        }
        for same in [&back, &twice] {
            for (ring, other) in same.rings().zip(outline.rings()) {
                for (corner, expected) in ring.corners.iter().zip(&other.corners) {
                    assert!(corner.distance_m(*expected) < 1e-9);
                }
            }
        }
    }
    let east = turned(
        &Outline::simple(vec![Point::new(0.0, 10.0)]),
        Point::default(),
        90.0,
    );
    assert!(east.parts[0].outer.corners[0].distance_m(Point::new(10.0, 0.0)) < 1e-12);
    assert_eq!(
        mirrored(&Outline::default(), Point::default(), Point::default()),
        None
    );
    assert_eq!(moved(&east, 1.0, 1.0).parts.len(), 1);
}

#[test]
fn a_circle_of_corners_falls_short_by_the_share_stated() {
    let round = circle(Point::new(5.0, 5.0), 10.0, 48).expect("a circle");
    let short = 1.0 - round.area_m2() / (std::f64::consts::PI * 100.0);
    assert!((short * 48.0 * 48.0 - 6.58).abs() < 0.02, "{short}");
    assert_eq!(circle(Point::default(), 1.0, 2), None);
    assert_eq!(circle(Point::default(), 0.0, 20), None);
}
