//! Shared boundaries, misfits, and keeping neighbours' corners one.

use foldcourse::geometry::neighbours::{
    corners_at, gaps, overlaps, share_all_corners, share_corner, shared_length_m, shared_stretches,
    sides_through,
};
use foldcourse::geometry::{Outline, Point};

use super::shapes::square;

/// A large field with two smaller ones along its east side.
fn fields() -> Vec<Outline> {
    vec![
        Outline::simple(square(0.0, 0.0, 100.0)),
        Outline::simple(square(100.0, 0.0, 50.0)),
        Outline::simple(square(100.0, 50.0, 50.0)),
    ]
}

#[test]
fn a_corner_shared_by_neighbours_is_found_in_each() {
    let found = corners_at(&fields(), Point::new(100.0005, 50.0));
    let found: Vec<(usize, usize)> = found.iter().map(|at| (at.outline, at.corner)).collect();
    assert_eq!(found, [(1, 3), (2, 0)]);
    let sides = sides_through(&fields(), Point::new(100.0, 50.0));
    assert_eq!(
        sides
            .iter()
            .map(|at| (at.outline, at.corner))
            .collect::<Vec<_>>(),
        [(0, 1)]
    );
}

#[test]
fn a_corner_put_in_is_in_every_outline_to_the_last_digit() {
    let mut fields = fields();
    let place = Point::new(100.0003, 50.0002);
    assert_eq!(share_corner(&mut fields, place), 1);
    assert_eq!(fields[0].parts[0].outer.corners.len(), 5);
    assert_eq!(fields[0].parts[0].outer.corners[2], place);
    assert_eq!(corners_at(&fields, place).len(), 3);
    assert_eq!(share_corner(&mut fields, place), 0);
    for at in corners_at(&fields, place) {
        assert_eq!(fields[at.outline].parts[0].outer.corners[at.corner], place);
    }
}

#[test]
fn sharing_all_corners_leaves_no_corner_on_a_bare_side() {
    let mut fields = fields();
    assert_eq!(share_all_corners(&mut fields), 1);
    for place in fields.clone().iter().flat_map(|field| {
        field
            .rings()
            .flat_map(|ring| ring.corners.clone())
            .collect::<Vec<_>>()
    }) {
        assert!(sides_through(&fields, place).is_empty());
    }
    let total_m2: f64 = fields.iter().map(Outline::area_m2).sum();
    assert!((total_m2 - 15_000.0).abs() < 1e-6);
}

#[test]
fn shared_boundary_is_measured_once_for_the_fence() {
    let fields = fields();
    assert!((shared_length_m(&fields[0], &fields[1]) - 50.0).abs() < 1e-9);
    assert!((shared_length_m(&fields[1], &fields[0]) - 50.0).abs() < 1e-9);
    assert!((shared_length_m(&fields[1], &fields[2]) - 50.0).abs() < 1e-9);
    assert_eq!(
        shared_stretches(&fields[0], &fields[2]),
        [(Point::new(100.0, 50.0), Point::new(100.0, 100.0))]
    );
    let away = Outline::simple(square(100.002, 0.0, 50.0));
    assert_eq!(shared_length_m(&fields[0], &away), 0.0);
    // Meeting at a corner alone is no shared boundary.
    let corner = Outline::simple(square(100.0, 100.0, 50.0));
    assert_eq!(shared_length_m(&fields[0], &corner), 0.0);
}

#[test]
fn overlaps_and_gaps_are_found_with_their_areas() {
    let field = Outline::simple(square(0.0, 0.0, 100.0));
    let over = Outline::simple(square(99.5, 20.0, 50.0));
    let found = overlaps(&field, &over, 0.01);
    assert_eq!(found.len(), 1);
    assert!((found[0].area_m2 - 25.0).abs() < 1e-3);
    assert!(overlaps(&field, &Outline::simple(square(100.0, 0.0, 100.0)), 0.01).is_empty());
    let short = Outline::simple(square(100.4, 0.0, 100.0));
    let found = gaps(&[field.clone(), short], 1.0);
    assert_eq!(found.len(), 1);
    assert!(
        (found[0].area_m2 / 40.0 - 1.0).abs() < 0.02,
        "{}",
        found[0].area_m2
    );
    assert!(gaps(&fields(), 1.0).is_empty());
    let wide = Outline::simple(square(101.5, 0.0, 100.0));
    assert!(gaps(&[field.clone(), wide], 1.0).is_empty());
    assert!(gaps(&[field], 0.0).is_empty());
}
