//! Areas, lengths, bearings and places on the ellipsoid.

use foldcourse::geometry::geodesic::{
    bearing_deg, distance_between_m, outline_measures, ring_measures,
};
use foldcourse::geometry::{GroundFrame, LonLat, Outline, Point};
use foldcourse::planning::grazing_sums::long_side_m;

use super::{Row, row};

const LIBRARY: &str =
    "GeographicLib documentation, C. F. F. Karney, examples of Geodesic and PolygonArea";
const PLANIMETER: &str = "GeographicLib test set, C. F. F. Karney, Planimeter";
const GDA: &str = "Geocentric Datum of Australia Technical Manual, Intergovernmental Committee on Surveying and Mapping, test line Flinders Peak to Buninyong (distance and bearing from memory)";
const SCOTT: &str = "D. Scott, fencing and shape of paddocks, New Zealand Grassland Association";

/// Corners as latitude, longitude.
const ANTARCTICA: [(f64, f64); 18] = [
    (-63.1, -58.0),
    (-72.9, -74.0),
    (-71.9, -102.0),
    (-74.9, -102.0),
    (-74.3, -131.0),
    (-77.5, -163.0),
    (-77.4, 163.0),
    (-71.7, 172.0),
    (-65.9, 140.0),
    (-65.7, 113.0),
    (-66.6, 88.0),
    (-66.9, 59.0),
    (-69.8, 25.0),
    (-70.0, -4.0),
    (-71.0, -14.0),
    (-77.3, -33.0),
    (-77.9, -46.0),
    (-74.7, -61.0),
];
const DIAMOND: [(f64, f64); 4] = [(0.0, -1.0), (-1.0, 0.0), (0.0, 1.0), (1.0, 0.0)];
const TRIANGLE: [(f64, f64); 3] = [(2.0, 1.0), (1.0, 2.0), (3.0, 3.0)];
const EIGHTH: [(f64, f64); 3] = [(90.0, 0.0), (0.0, 0.0), (0.0, 90.0)];
const ROUND_POLE: [(f64, f64); 4] = [(89.0, 0.0), (89.0, 90.0), (89.0, 180.0), (89.0, 270.0)];

fn places(corners: &[(f64, f64)]) -> Vec<LonLat> {
    corners
        .iter()
        .map(|(lat, lon)| LonLat::new(*lon, *lat))
        .collect()
}

fn area_m2(corners: &[(f64, f64)]) -> f64 {
    ring_measures(&places(corners)).signed_area_m2.abs()
}

fn round_m(corners: &[(f64, f64)]) -> f64 {
    ring_measures(&places(corners)).perimeter_m
}

fn degrees(whole: f64, minutes: f64, seconds: f64) -> f64 {
    whole.signum() * (whole.abs() + minutes / 60.0 + seconds / 3600.0)
}

fn flinders_peak() -> LonLat {
    LonLat::new(degrees(144.0, 25.0, 29.5244), degrees(-37.0, 57.0, 3.7203))
}

fn buninyong() -> LonLat {
    LonLat::new(degrees(143.0, 55.0, 35.3839), degrees(-37.0, 39.0, 10.1561))
}

fn bearing_between_deg(from: LonLat, to: LonLat) -> f64 {
    let frame = GroundFrame::new(from).unwrap();
    bearing_deg(
        frame,
        Point::default(),
        frame.point_from_lonlat(to).unwrap(),
    )
}

/// Where one comes out on a geodesic from a place, by the farm's own plane.
fn place_along(from: LonLat, bearing_deg: f64, distance_m: f64) -> LonLat {
    let frame = GroundFrame::new(from).unwrap();
    frame.lonlat_from_point(Point::default().towards(bearing_deg, distance_m))
}

fn first_test_line() -> LonLat {
    place_along(
        LonLat::new(0.0, 36.530_042_355_041),
        176.125_875_162_171,
        9_398_502.043_468_7,
    )
}

fn fence_m(corners: &[(f64, f64)]) -> f64 {
    let frame = GroundFrame::new(LonLat::new(-1.0, 52.0)).unwrap();
    let corners = corners
        .iter()
        .map(|(east, north)| Point::new(*east, *north));
    outline_measures(frame, &Outline::simple(corners.collect())).outer_perimeter_m
}

/// Fence of a hectare as a rectangle of sides as `ratio` to 1, against that of a square hectare.
fn fence_against_square(ratio: f64) -> f64 {
    let rectangle_m = |ratio: f64| {
        let long_m = long_side_m(10_000.0, ratio).unwrap();
        let short_m = 10_000.0 / long_m;
        fence_m(&[(0.0, 0.0), (long_m, 0.0), (long_m, short_m), (0.0, short_m)])
    };
    rectangle_m(ratio) / rectangle_m(1.0)
}

fn fence_of_right_triangle() -> f64 {
    let side_m = 20_000.0_f64.sqrt();
    fence_m(&[(0.0, 0.0), (side_m, 0.0), (0.0, side_m)]) / 400.0
}

pub(super) fn rows() -> Vec<Row> {
    let mut rows = ring_rows();
    rows.extend(fence_rows());
    rows.extend(line_rows());
    rows
}

fn ring_rows() -> Vec<Row> {
    vec![
        row(
            "round Antarctica",
            LIBRARY,
            || round_m(&ANTARCTICA),
            16_831_067.893,
            0.0005,
        ),
        row(
            "area of Antarctica",
            LIBRARY,
            || area_m2(&ANTARCTICA),
            13_662_703_680_020.1,
            0.05,
        ),
        // Printed cut off, not rounded.
        row(
            "round a diamond on the equator",
            PLANIMETER,
            || round_m(&DIAMOND),
            627_598.273_1,
            0.0001,
        ),
        row(
            "area of a diamond on the equator",
            PLANIMETER,
            || area_m2(&DIAMOND),
            24_619_419_146.0,
            1.0,
        ),
        row(
            "area of a triangle",
            PLANIMETER,
            || area_m2(&TRIANGLE),
            18_454_562_325.45,
            0.005,
        ),
        row(
            "round an eighth of the globe",
            PLANIMETER,
            || round_m(&EIGHTH),
            30_022_685.63,
            0.005,
        ),
        row(
            "area of an eighth of the globe",
            PLANIMETER,
            || area_m2(&EIGHTH),
            63_758_202_715_511.06,
            0.05,
        ),
        row(
            "round the pole",
            PLANIMETER,
            || round_m(&ROUND_POLE),
            631_819.874_5,
            0.000_05,
        ),
        row(
            "area round the pole",
            PLANIMETER,
            || area_m2(&ROUND_POLE),
            24_952_305_678.0,
            0.5,
        ),
    ]
}

fn fence_rows() -> Vec<Row> {
    vec![
        row(
            "fence of 2 to 1 against a square",
            SCOTT,
            || fence_against_square(2.0),
            1.06,
            0.005,
        ),
        row(
            "fence of 4 to 1 against a square",
            SCOTT,
            || fence_against_square(4.0),
            1.25,
            0.005,
        ),
        row(
            "fence of a right-angled triangle against a square",
            SCOTT,
            fence_of_right_triangle,
            1.21,
            0.005,
        ),
    ]
}

fn line_rows() -> Vec<Row> {
    vec![
        row(
            "Wellington to Salamanca",
            LIBRARY,
            || distance_between_m(LonLat::new(174.81, -41.32), LonLat::new(-5.5, 40.96)),
            19_959_679.267,
            0.0005,
        ),
        row(
            "Flinders Peak to Buninyong",
            GDA,
            || distance_between_m(flinders_peak(), buninyong()),
            54_972.271,
            0.0005,
        ),
        row(
            "bearing from Flinders Peak to Buninyong",
            GDA,
            || bearing_between_deg(flinders_peak(), buninyong()),
            degrees(306.0, 52.0, 5.37),
            0.005 / 3600.0,
        ),
        row(
            "bearing from Buninyong to Flinders Peak",
            GDA,
            || bearing_between_deg(buninyong(), flinders_peak()),
            degrees(127.0, 10.0, 25.07),
            0.005 / 3600.0,
        ),
        row(
            "latitude at the end of the first test line",
            "GeodTest data, C. F. F. Karney, first line",
            || first_test_line().lat_deg,
            -48.164_270_779_097_77,
            1e-12,
        ),
        row(
            "longitude at the end of the first test line",
            "GeodTest data, C. F. F. Karney, first line",
            || first_test_line().lon_deg,
            5.762_344_694_676_51,
            1e-12,
        ),
        row(
            "length of the first line of the unit tests",
            "GeographicLib unit tests, C. F. F. Karney, first row",
            || {
                distance_between_m(
                    LonLat::new(-139.44815, 35.60777),
                    LonLat::new(-69.95921, -11.17491),
                )
            },
            8_935_244.560_481_83,
            1e-7,
        ),
        row(
            "bearing of the first line of the unit tests",
            "GeographicLib unit tests, C. F. F. Karney, first row",
            || {
                bearing_between_deg(
                    LonLat::new(-139.44815, 35.60777),
                    LonLat::new(-69.95921, -11.17491),
                )
            },
            111.098_748_429_560_33,
            1e-10,
        ),
    ]
}
