//! The patterns of areas: furrows, blades, hoops, ripples, crowns, tiles, crossed lines.
//!
//! Each takes an outline and a scale and gives marks. Metres; strokes in points.

use super::hatch::{longest_side_bearing_deg, rows_across, scattered, wobble};
use super::{MapScale, Mark};
use crate::geometry::{Outline, Point};
use crate::sheets::palette::Ink;

/// Furrows along the beds of a plot.
pub(super) fn furrows(outline: &Outline, scale: MapScale) -> Mark {
    let spacing_m = scale.spacing_m(0.75, 5.0);
    Mark::Hatch {
        strokes: rows_across(outline, longest_side_bearing_deg(outline), spacing_m),
        ink: Ink::Furrow,
        width: 0.7,
    }
}

/// Tufts of a few blades each; the denser the taller the sward (`tallness` 0 to 1).
pub(super) fn blades(outline: &Outline, tallness: f64, scale: MapScale) -> Mark {
    let spacing_m = scale.spacing_m(1.5, 19.0 - 6.0 * tallness);
    let blade_m = scale.m_per_point * (3.2 + 1.4 * tallness);
    let mut strokes = Vec::new();
    for (count, place) in scattered(outline, spacing_m).into_iter().enumerate() {
        strokes.push((place, place.moved(-0.55 * blade_m, 0.75 * blade_m)));
        strokes.push((place, place.moved(0.55 * blade_m, 0.75 * blade_m)));
        if count % 3 != 0 {
            strokes.push((place, place.moved(0.05 * blade_m, 1.1 * blade_m)));
        }
    }
    Mark::Hatch {
        strokes,
        ink: Ink::Blade,
        width: 0.8,
    }
}

/// Hoops over a tunnel, bowed along it, at 2 m or as near as the scale allows.
pub(super) fn hoops(outline: &Outline, scale: MapScale) -> Vec<Mark> {
    let bearing_deg = longest_side_bearing_deg(outline);
    let spacing_m = scale.spacing_m(2.0, 5.0);
    let bow_m = (spacing_m * 0.9).min(2.5);
    rows_across(outline, bearing_deg + 90.0, spacing_m)
        .into_iter()
        .map(|(from, to)| {
            let line = (0..=8u8)
                .map(|step| {
                    let share = f64::from(step) / 8.0;
                    let rise = 1.0 - (2.0 * share - 1.0) * (2.0 * share - 1.0);
                    from.between(to, share)
                        .towards(bearing_deg, bow_m * (rise - 0.5))
                })
                .collect();
            Mark::Stroke {
                line,
                is_closed: false,
                ink: Ink::Hoop,
                width: 0.9,
                dash: None,
            }
        })
        .collect()
}

/// Short wavy strokes on water.
pub(super) fn ripples(outline: &Outline, scale: MapScale) -> Vec<Mark> {
    let spacing_m = scale.spacing_m(1.0, 22.0);
    let long_m = scale.m_per_point * 13.0;
    scattered(outline, spacing_m)
        .into_iter()
        .map(|middle| {
            let line = (0..=10u8)
                .map(|step| {
                    let share = f64::from(step) / 10.0;
                    let wave = (share * std::f64::consts::TAU).sin();
                    middle.moved((share - 0.5) * long_m, wave * long_m * 0.1)
                })
                .collect();
            Mark::Stroke {
                line,
                is_closed: false,
                ink: Ink::Ripple,
                width: 0.9,
                dash: None,
            }
        })
        .collect()
}

/// Crowns scattered over a wood.
pub(super) fn crowns(outline: &Outline, scale: MapScale) -> Mark {
    let spacing_m = scale.spacing_m(5.0, 9.0);
    Mark::Discs {
        middles: scattered(outline, spacing_m),
        radius_m: spacing_m * 0.46,
        ink: Ink::Tree,
        edge: Ink::TreeRing,
        edge_width: 0.9,
    }
}

/// Lines of a roof along its length.
pub(super) fn tiles(outline: &Outline, scale: MapScale) -> Mark {
    let spacing_m = scale.spacing_m(0.5, 4.5);
    Mark::Hatch {
        strokes: rows_across(outline, longest_side_bearing_deg(outline), spacing_m),
        ink: Ink::Roof,
        width: 0.8,
    }
}

/// Lines crossed both ways over ground where nothing may stand.
pub(super) fn crossed(outline: &Outline, scale: MapScale) -> Mark {
    let spacing_m = scale.spacing_m(1.0, 10.0);
    let mut strokes = rows_across(outline, 45.0, spacing_m);
    strokes.extend(rows_across(outline, 135.0, spacing_m));
    Mark::Hatch {
        strokes,
        ink: Ink::Soft,
        width: 0.7,
    }
}

/// Discs along a line, touching, a little uneven: a hedge.
pub(super) fn hedge_discs(line: &[Point], width_m: f64, scale: MapScale) -> Mark {
    let radius_m = (width_m / 2.0).max(scale.m_per_point * 2.2);
    let step_m = radius_m * 1.35;
    let middles = places_along(line, step_m / 2.0, step_m)
        .into_iter()
        .enumerate()
        .map(|(count, (place, bearing_deg))| {
            #[expect(clippy::cast_precision_loss, reason = "a few thousand discs at most")]
            let (shift, _) = wobble(count as f64, 7.0);
            place.towards(bearing_deg + 90.0, (shift - 0.5) * radius_m * 0.5)
        })
        .collect();
    Mark::Discs {
        middles,
        radius_m,
        ink: Ink::Hedge,
        edge: Ink::HedgeEdge,
        edge_width: 0.8,
    }
}

/// Places along a line every `step_m` from `first_m` on, each with the bearing of the line there; 20 000 at most.
pub(super) fn places_along(line: &[Point], first_m: f64, step_m: f64) -> Vec<(Point, f64)> {
    let mut places = Vec::new();
    if step_m <= 0.0 {
        return places;
    }
    let mut next_m = first_m;
    let mut done_m = 0.0;
    for (from, to) in line.iter().zip(line.iter().skip(1)) {
        let length_m = from.distance_m(*to);
        // A millimetre is forgiven, so that the last place on a line of whole steps is there.
        while next_m <= done_m + length_m + 0.001 && places.len() < 20_000 && length_m > 0.0 {
            places.push((
                from.between(*to, (next_m - done_m) / length_m),
                from.bearing_deg(*to),
            ));
            next_m += step_m;
        }
        done_m += length_m;
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_along_a_line_turn_with_it() {
        let line = [
            Point::new(0.0, 0.0),
            Point::new(10.0, 0.0),
            Point::new(10.0, 10.0),
        ];
        let places = places_along(&line, 0.0, 5.0);
        assert_eq!(places.len(), 5);
        assert_eq!(places.first().map(|(_, bearing)| *bearing), Some(90.0));
        assert_eq!(
            places.last().map(|(place, _)| *place),
            Some(Point::new(10.0, 10.0))
        );
    }
}
