//! Lengths, stations and lines beside lines.

use foldcourse::geometry::Point;
use foldcourse::geometry::line::{length_m, parallel_line, station_at, stations};

fn bent() -> [Point; 3] {
    [
        Point::new(0.0, 0.0),
        Point::new(30.0, 40.0),
        Point::new(30.0, 140.0),
    ]
}

#[test]
fn stations_lie_by_length_along_the_line_and_know_its_bearing() {
    assert_eq!(length_m(&bent()), 150.0);
    let at = station_at(&bent(), 25.0).expect("a line");
    assert!(at.place.distance_m(Point::new(15.0, 20.0)) < 1e-9);
    assert!((at.bearing_deg - 36.869_897_645_844).abs() < 1e-9);
    let beyond = station_at(&bent(), 200.0).expect("a line");
    assert_eq!(
        (beyond.place, beyond.along_m),
        (Point::new(30.0, 140.0), 150.0)
    );
    assert_eq!(
        station_at(&bent(), -5.0).expect("a line").place,
        Point::default()
    );
    assert_eq!(station_at(&bent()[..1], 0.0), None);
    assert_eq!(station_at(&[Point::default(); 3], 0.0), None);
}

#[test]
fn posts_every_ten_metres_include_both_ends() {
    let posts = stations(&bent(), 0.0, 10.0);
    assert_eq!(posts.len(), 16);
    assert_eq!(posts[15].place, Point::new(30.0, 140.0));
    for (index, post) in posts.iter().enumerate() {
        assert!((post.along_m - 10.0 * index as f64).abs() < 1e-9);
    }
    // A spacing that does not divide evenly in binary figures still reaches the end.
    assert_eq!(
        stations(&[Point::default(), Point::new(0.0, 0.3)], 0.0, 0.1).len(),
        4
    );
    assert_eq!(stations(&bent(), 5.0, 50.0).len(), 3);
    for (first_m, spacing_m) in [
        (0.0, 0.0),
        (0.0, -1.0),
        (0.0, f64::NAN),
        (200.0, 10.0),
        (0.0, 1e-9),
    ] {
        assert!(stations(&bent(), first_m, spacing_m).is_empty());
    }
}

#[test]
fn a_line_beside_keeps_its_distance_at_bends() {
    let beside = parallel_line(&bent(), 5.0);
    assert_eq!(beside.len(), 3);
    for point in &beside {
        let nearest =
            foldcourse::geometry::nearest::nearest_on_line(&bent(), *point).expect("a line");
        assert!(nearest.distance_m > 5.0 - 1e-9 && nearest.distance_m < 5.6);
    }
    assert!(beside[0].distance_m(Point::new(4.0, -3.0)) < 1e-9);
    assert!(parallel_line(&bent(), -5.0)[0].distance_m(Point::new(-4.0, 3.0)) < 1e-9);
    // A hairpin is cut off, not drawn out to nowhere.
    let hairpin = [
        Point::new(0.0, 0.0),
        Point::new(100.0, 0.0),
        Point::new(0.0, 1.0),
    ];
    assert!(
        parallel_line(&hairpin, -5.0)
            .iter()
            .all(|point| point.distance_m(Point::new(50.0, 0.0)) < 60.0)
    );
    assert!(parallel_line(&[Point::default(); 2], 5.0).is_empty());
}
