//! How fast ground is cut, filled and measured.
//!
//! `cargo bench --no-default-features --bench geometry`. Prints; asserts nothing about time.

#![expect(
    clippy::unwrap_used,
    reason = "a bench stops where its own data are wrong"
)]

use foldcourse::geometry::cut::strips_of_equal_area;
use foldcourse::geometry::triangulate::fill_mesh;
use foldcourse::geometry::validity::faults;
use foldcourse::geometry::{GroundFrame, LonLat, Outline, Point, Polygon, Ring, geodesic};

fn main() {
    divan::main();
}

/// A bent field of 1,000 corners with a pond in it, some 12 ha.
fn field() -> Outline {
    let ring = |corners: u32, size_m: f64, uneven: f64| {
        let corner = |index: u32| {
            let turn = f64::from(index) * 360.0 / f64::from(corners);
            let reach_m = size_m * (1.0 + uneven * (turn.to_radians() * 5.0).sin());
            Point::default().towards(turn, reach_m)
        };
        Ring::new((0..corners).map(corner).collect())
    };
    Outline {
        parts: vec![Polygon {
            outer: ring(1000, 200.0, 0.2),
            holes: vec![ring(60, 30.0, 0.1)],
        }],
    }
}

#[divan::bench]
fn cut_into_1000_equal_strips(bencher: divan::Bencher<'_, '_>) {
    let field = field();
    bencher.bench_local(|| strips_of_equal_area(&field, 17.0, 1000).unwrap());
}

#[divan::bench]
fn cut_into_6_equal_strips(bencher: divan::Bencher<'_, '_>) {
    let field = field();
    bencher.bench_local(|| strips_of_equal_area(&field, 17.0, 6).unwrap());
}

#[divan::bench]
fn fill_1000_corners(bencher: divan::Bencher<'_, '_>) {
    let field = field();
    bencher.bench_local(|| fill_mesh(&field));
}

#[divan::bench]
fn find_faults_of_1000_corners(bencher: divan::Bencher<'_, '_>) {
    let field = field();
    bencher.bench_local(|| faults(&field));
}

#[divan::bench]
fn measure_1000_corners_on_the_ellipsoid(bencher: divan::Bencher<'_, '_>) {
    let field = field();
    let frame = GroundFrame::new(LonLat::new(-2.0, 53.0)).unwrap();
    bencher.bench_local(|| geodesic::outline_measures(frame, &field));
}
