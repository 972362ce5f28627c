//! What stands in a field notebook is read as it was meant, or refused with an example.

use foldcourse::quantity::{
    UnitSystem, parse_along_m, parse_aside_m, parse_compass_deg, parse_place, parse_tape_m,
};

const METRIC: UnitSystem = UnitSystem::Metric;
const IMPERIAL: UnitSystem = UnitSystem::Imperial;

#[track_caller]
fn about(found: Result<f64, impl std::fmt::Display>, wanted: f64) {
    match found {
        Ok(found) => assert!((found - wanted).abs() < 1e-9, "{found} for {wanted}"),
        Err(error) => panic!("{error}"),
    }
}

#[test]
fn a_tape_may_read_nothing_and_feet_carry_inches() {
    about(parse_tape_m("0", METRIC), 0.0);
    about(parse_tape_m("0.0", IMPERIAL), 0.0);
    about(parse_tape_m("12,5", METRIC), 12.5);
    about(parse_tape_m("10", IMPERIAL), 9.144);
    about(parse_tape_m("30 ft", METRIC), 9.144);
    about(parse_tape_m("12 ft 6 in", METRIC), 12.5 * 0.3048);
    about(parse_tape_m("12' 6\"", IMPERIAL), 12.5 * 0.3048);
    for text in [
        "",
        "-1",
        "wide",
        "1.2.3",
        "12 ft 13 in",
        "nan",
        "5 furlongs",
    ] {
        assert!(parse_tape_m(text, METRIC).is_err(), "{text}");
    }
}

#[test]
fn offsets_lie_to_the_hand_that_is_written() {
    for text in [
        "3.2",
        "3.2 r",
        "r 3.2",
        "Right 3.2 m",
        "3,2 m right",
        "3.2R",
    ] {
        about(parse_aside_m(text, METRIC), 3.2);
    }
    for text in ["-3.2", "−3.2", "3.2 l", "left 3.2", "L3.2 m", "3.2 m left"] {
        about(parse_aside_m(text, METRIC), -3.2);
    }
    about(parse_aside_m("3 meter", METRIC), 3.0);
    about(parse_aside_m("2 ft l", METRIC), -0.6096);
    about(parse_aside_m("0", METRIC), 0.0);
    about(parse_along_m("-5", METRIC), -5.0);
    for text in ["", "left", "r", "-3 left", "3 up"] {
        assert!(parse_aside_m(text, METRIC).is_err(), "{text}");
    }
}

#[test]
fn bearings_are_read_as_degrees_minutes_and_quarters() {
    for (text, wanted) in [
        ("75", 75.0),
        ("75.5°", 75.5),
        ("75° 30'", 75.5),
        ("75 30 36", 75.51),
        ("75-30-36", 75.51),
        ("360", 0.0),
        ("-15", 345.0),
        ("N 45 E", 45.0),
        ("s 12° 30' e", 167.5),
        ("S12W", 192.0),
        ("north 10 west", 350.0),
        ("N 0 E", 0.0),
        ("S 90 W", 270.0),
    ] {
        about(parse_compass_deg(text), wanted);
    }
    for text in [
        "", "N", "N E", "N 91 E", "N 45", "75° 61'", "400", "east", "75.5 30", "7 5 3 1", "é",
    ] {
        assert!(parse_compass_deg(text).is_err(), "{text}");
    }
}

/// C. D. Ghilani and P. R. Wolf, *Elementary Surveying*, chapter 7, has bearings and azimuths side by side in its
/// definitions: N70°E is 70°, S35°E is 145°, S55°W is 235°, N30°W is 330° (from memory).
#[test]
fn quarters_are_the_azimuths_of_the_text_book() {
    for (text, wanted) in [
        ("N70°E", 70.0),
        ("S35°E", 145.0),
        ("S55°W", 235.0),
        ("N30°W", 330.0),
    ] {
        about(parse_compass_deg(text), wanted);
    }
}

#[test]
fn a_place_is_read_in_every_way_a_phone_shows_it() {
    let (lat, lon) = (
        52.0 + 7.0 / 60.0 + 24.0 / 3600.0,
        -(1.0 + 14.0 / 60.0 + 4.0 / 3600.0),
    );
    for text in [
        "52.123333333333, -1.234444444444",
        "52.123333333333 -1.234444444444",
        "52.123333333333;-1.234444444444",
        "52,123333333333, -1,234444444444",
        "52.123333333333N 1.234444444444W",
        "N52.123333333333 W1.234444444444",
        "1.234444444444 W, 52.123333333333 N",
        "52° 7' 24\" N 1° 14' 4\" W",
        "52°07′24″N, 1°14′04″W",
        "N 52 07.4 W 1 14.0666666666",
        "52.123333333333\t-1.234444444444",
    ] {
        let place = parse_place(text).unwrap_or_else(|error| panic!("{text}: {error}"));
        assert!((place.lat_deg - lat).abs() < 1e-6, "{text}: {place:?}");
        assert!((place.lon_deg - lon).abs() < 1e-6, "{text}: {place:?}");
    }
    for text in [
        "",
        "52",
        "52.1, -1.2, 3",
        "95, 1",
        "52, 181",
        "north, west",
        "52 N 1 N",
        "52.1.1, 2",
        "NNNN",
        "é, é",
    ] {
        assert!(parse_place(text).is_err(), "{text}");
    }
}
