//! The middle of places on the earth, from which a new farm's plane is laid.
//!
//! Degrees. Knows nothing of files.

use crate::geometry::LonLat;

/// The middle of places whose longitudes lie from −180 to 180; across the date line the short way is taken.
/// `None` where there are none.
pub(super) fn middle_of(places: &[LonLat]) -> Option<LonLat> {
    let plain = spread(places.iter().map(|place| place.lon_deg))?;
    let round = spread(places.iter().map(|place| place.lon_deg.rem_euclid(360.0)))?;
    let (south, north) = spread(places.iter().map(|place| place.lat_deg))?;
    let width = |(west, east): (f64, f64)| east - west;
    let (west, east) = if width(plain) <= width(round) {
        plain
    } else {
        round
    };
    // An origin of six decimals reads well in the file and lies within 0.1 m of the middle.
    let rounded = |degrees: f64| (degrees * 1e6).round() / 1e6;
    Some(LonLat::new(
        rounded(f64::midpoint(west, east)),
        rounded(f64::midpoint(south, north)),
    ))
}

fn spread(figures: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    figures.fold(None, |spread, figure| {
        let (least, most) = spread.unwrap_or((figure, figure));
        Some((figure.min(least), figure.max(most)))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_middle_of_a_farm_on_the_date_line_is_on_the_date_line() {
        let places = [LonLat::new(179.99, -17.0), LonLat::new(-179.97, -16.9)];
        let middle = middle_of(&places);
        assert_eq!(middle, Some(LonLat::new(180.01, -16.95)));
        assert_eq!(middle_of(&[]), None);
    }
}
