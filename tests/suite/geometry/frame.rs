//! The farm's plane against geodesics.

use foldcourse::geometry::{GroundFrame, LonLat, Outline, PlaceError, Point, geodesic};

use super::shapes::{Chance, star_ring};

/// Origins over the earth: temperate, southern, on the date line, equator, high north, near the southern pole.
const ORIGINS: [(f64, f64); 8] = [
    (15.03, 48.27),
    (-0.1, 51.5),
    (175.5, -40.3),
    (179.999, -16.8),
    (-180.0, 65.0),
    (36.8, 0.0),
    (25.7, 78.2),
    (-64.0, -84.0),
];

fn frames() -> impl Iterator<Item = GroundFrame> {
    ORIGINS.iter().map(|(lon, lat)| {
        GroundFrame::new(LonLat::new(*lon, *lat)).expect("the origins are places")
    })
}

#[test]
fn areas_and_lengths_agree_with_geodesic_ones_to_a_millionth_within_five_kilometres() {
    let mut chance = Chance(1);
    let (mut worst_area, mut worst_length) = (0.0_f64, 0.0_f64);
    for frame in frames() {
        for _ in 0..60 {
            let size_m = 10.0_f64.powf(chance.between(1.0, 3.39));
            let reach_m = 5000.0 - size_m;
            let centre =
                Point::default().towards(chance.between(0.0, 360.0), chance.between(0.0, reach_m));
            let corners = chance.count(3, 40);
            let ring = star_ring(&mut chance, centre, corners, size_m * 0.4, size_m);
            let outline = Outline::simple(ring.corners);
            let measured = geodesic::outline_measures(frame, &outline);
            let plane_m2 = outline.area_m2();
            // Two implementations of the geodesic area differ by some 1e-5 m², so a garden is not asked for more.
            let slack_m2 = 1e-6 * plane_m2 + 5e-5;
            assert!(
                (measured.area_m2 - plane_m2).abs() < slack_m2,
                "{measured:?} {plane_m2} {frame:?}"
            );
            if size_m > 300.0 {
                worst_area = worst_area.max((measured.area_m2 / plane_m2 - 1.0).abs());
            }
            let plane_m: f64 = outline
                .rings()
                .map(foldcourse::geometry::Ring::perimeter_m)
                .sum();
            worst_length = worst_length.max((measured.outer_perimeter_m / plane_m - 1.0).abs());
        }
    }
    eprintln!("largest share off: area {worst_area:.2e}, length {worst_length:.2e}");
    assert!(
        worst_area < 1e-6 && worst_length < 1e-6,
        "{worst_area} {worst_length}"
    );
}

#[test]
fn a_place_comes_back_from_the_plane_to_the_nanometre() {
    let mut chance = Chance(2);
    let mut worst_m = 0.0_f64;
    for frame in frames() {
        for _ in 0..500 {
            let point = Point::new(chance.between(-5e3, 5e3), chance.between(-5e3, 5e3));
            let place = frame.lonlat_from_point(point);
            assert!((-180.0..180.0).contains(&place.lon_deg), "{place:?}");
            let back = frame.point_from_lonlat(place).expect("a place");
            worst_m = worst_m.max(back.distance_m(point));
        }
    }
    eprintln!("largest way off there and back: {worst_m:.2e} m");
    assert!(worst_m < 5e-9, "{worst_m}");
}

#[test]
fn the_date_line_is_crossed_the_short_way() {
    let frame = GroundFrame::new(LonLat::new(179.999, -16.8)).expect("a place");
    let east = frame
        .point_from_lonlat(LonLat::new(-179.999, -16.8))
        .expect("a place");
    assert!((east.east_m - 213.1).abs() < 0.2, "{east:?}");
    let same = frame
        .point_from_lonlat(LonLat::new(180.001, -16.8))
        .expect("a place");
    assert!(same.distance_m(east) < 1e-6);
    let west = frame.lonlat_from_point(Point::new(-10.0, 0.0));
    let over = frame.lonlat_from_point(Point::new(300.0, 0.0));
    assert!(
        west.lon_deg > 179.9 && over.lon_deg < -179.9,
        "{west:?} {over:?}"
    );
}

#[test]
fn the_origin_is_the_zero_of_its_plane_and_east_and_north_are_where_they_should() {
    for frame in frames() {
        let zero = frame.point_from_lonlat(frame.origin()).expect("a place");
        assert!(zero.distance_m(Point::default()) < 1e-9);
        let north = frame.lonlat_from_point(Point::new(0.0, 100.0));
        assert!(north.lat_deg > frame.origin().lat_deg);
        let bearing_deg = geodesic::bearing_deg(frame, Point::default(), Point::new(100.0, 0.0));
        assert!((bearing_deg - 90.0).abs() < 1e-6, "{bearing_deg}");
    }
}

#[test]
fn what_is_no_place_is_refused_with_the_cause() {
    let beyond = GroundFrame::new(LonLat::new(0.0, 90.5));
    assert_eq!(beyond, Err(PlaceError::BeyondPole { lat_deg: 90.5 }));
    let frame = GroundFrame::new(LonLat::new(0.0, 50.0)).expect("a place");
    for (lon_deg, lat_deg) in [
        (f64::NAN, 0.0),
        (0.0, f64::NAN),
        (f64::INFINITY, 0.0),
        (0.0, f64::NEG_INFINITY),
    ] {
        assert_eq!(
            frame.point_from_lonlat(LonLat::new(lon_deg, lat_deg)),
            Err(PlaceError::NotANumber)
        );
    }
    assert!(frame.point_from_lonlat(LonLat::new(0.0, -90.0)).is_ok());
}
