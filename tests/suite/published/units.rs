//! Units against each other, and days counted on the calendar.

use foldcourse::quantity::{Day, UnitSystem, acres_from_m2, parse_area_m2, parse_length_m};

use super::{Row, row};

const NRCS: &str =
    "Seasonal high tunnels, USDA Natural Resources Conservation Service, Idaho, 2010, sizes";
const PENN: &str =
    "Lamont et al., Design and Construction of the Penn State High Tunnel, size of a tunnel";
const ORGANIC: &str =
    "National Organic Program, 7 CFR 205.203(c)(1), days counted from 1 April 2026";
const YARD: &str =
    "International yard and pound agreement, 1959; 22 yards to the chain (from memory)";

fn length_m(text: &str) -> f64 {
    parse_length_m(text, UnitSystem::Metric).unwrap_or(f64::NAN)
}

fn area_m2(text: &str) -> f64 {
    parse_area_m2(text, UnitSystem::Metric).unwrap_or(f64::NAN)
}

/// A day as the number YYYYMMDD, the way a calendar file prints it.
fn printed_day(day: Day) -> f64 {
    f64::from(day.year()) * 1.0e4 + f64::from(day.month()) * 100.0 + f64::from(day.day_of_month())
}

fn days_after(text: &str, days: i64) -> f64 {
    Day::parse_iso(text).map_or(f64::NAN, |day| printed_day(day.plus_days(days)))
}

pub(super) fn rows() -> Vec<Row> {
    vec![
        row(
            "an acre in square metres",
            YARD,
            || area_m2("1 acre"),
            4_046.856_422_4,
            5e-8,
        ),
        row(
            "a chain in metres",
            YARD,
            || length_m("22 yd"),
            20.1168,
            5e-5,
        ),
        row(
            "a rood in square metres",
            YARD,
            || area_m2("1210 sq yd"),
            1_011.714_105_6,
            5e-8,
        ),
        row("14 ft of width", NRCS, || length_m("14 ft"), 4.3, 0.05),
        row("34 ft of width", NRCS, || length_m("34 ft"), 10.4, 0.05),
        row("28 ft of length", NRCS, || length_m("28 ft"), 8.5, 0.05),
        row("150 ft of length", NRCS, || length_m("150 ft"), 45.7, 0.05),
        row("17 ft of width", PENN, || length_m("17 ft"), 5.2, 0.05),
        row("9 ft of height", PENN, || length_m("9 ft"), 2.7, 0.05),
        row(
            "2 ha in acres",
            "Temporary fencing for sheep, Teagasc (C. Lynch): 2 ha (5 ac) each",
            || acres_from_m2(area_m2("2 ha")),
            5.0,
            0.5,
        ),
        row(
            "2.8 ha in acres",
            "A simple approach to rotational grazing, SRUC / EU SheepNet: 2.8 ha (7 ac)",
            || acres_from_m2(area_m2("2.8 ha")),
            7.0,
            0.5,
        ),
        row(
            "90 days from 1 April 2026",
            ORGANIC,
            || days_after("2026-04-01", 90),
            20_260_630.0,
            0.0,
        ),
        row(
            "120 days from 1 April 2026",
            ORGANIC,
            || days_after("2026-04-01", 120),
            20_260_730.0,
            0.0,
        ),
        row(
            "the day after 8 July 2007",
            "RFC 5545, Internet Calendaring and Scheduling, IETF, 2009, section 3.6.1, example of DTEND",
            || days_after("2007-07-08", 1),
            20_070_709.0,
            0.0,
        ),
    ]
}
