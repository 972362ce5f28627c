//! Random shapes for the tests, the same on every machine: a seed gives the same shape for ever.

use foldcourse::geometry::{Outline, Point, Polygon, Ring};

/// A small generator (splitmix64: G. Steele, D. Lea, C. Flood, *Fast splittable pseudorandom number generators*,
/// OOPSLA 2014).
pub(super) struct Chance(pub(super) u64);

impl Chance {
    pub(super) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// From 0 up to, not reaching, 1.
    pub(super) fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub(super) fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.share()
    }

    pub(super) fn count(&mut self, least: usize, most: usize) -> usize {
        least + (self.next() % (most - least + 1) as u64) as usize
    }
}

/// Corners at random distances round a centre: never crosses itself.
pub(super) fn star_ring(
    chance: &mut Chance,
    centre: Point,
    corners: usize,
    least_m: f64,
    most_m: f64,
) -> Ring {
    let step_deg = 360.0 / corners as f64;
    Ring::new(
        (0..corners)
            .map(|index| {
                let bearing_deg = step_deg * (index as f64 + chance.between(0.1, 0.9));
                centre.towards(bearing_deg, chance.between(least_m, most_m))
            })
            .collect(),
    )
}

/// A star of `size_m` with holes in its kernel that do not touch.
pub(super) fn star_with_holes(chance: &mut Chance, centre: Point, size_m: f64) -> Outline {
    let corners = chance.count(5, 60);
    let outer = star_ring(chance, centre, corners, size_m * 0.5, size_m);
    let holes = (0..chance.count(0, 4))
        .map(|index| {
            let place = centre.towards(90.0 * index as f64 + 10.0, size_m * 0.2);
            let corners = chance.count(3, 12);
            star_ring(chance, place, corners, size_m * 0.03, size_m * 0.08)
        })
        .collect();
    Outline {
        parts: vec![Polygon { outer, holes }],
    }
}

/// A comb: a spine with `teeth` teeth of random length, standing north.
pub(super) fn comb(
    chance: &mut Chance,
    corner: Point,
    teeth: usize,
    width_m: f64,
    depth_m: f64,
) -> Outline {
    let pitch_m = width_m / teeth as f64;
    let mut corners = vec![corner, corner.moved(width_m, 0.0)];
    for tooth in (0..teeth).rev() {
        let west_m = pitch_m * tooth as f64;
        let reach_m = chance.between(0.3, 1.0) * depth_m;
        corners.push(corner.moved(west_m + pitch_m, 0.2 * depth_m));
        corners.push(corner.moved(west_m + pitch_m * 0.9, reach_m));
        corners.push(corner.moved(west_m + pitch_m * 0.3, reach_m * 0.97));
        corners.push(corner.moved(west_m + pitch_m * 0.2, 0.2 * depth_m));
    }
    Outline::simple(corners)
}

/// The outline turned clockwise about the origin.
pub(super) fn turned(outline: &Outline, degrees: f64) -> Outline {
    let (sine, cosine) = degrees.to_radians().sin_cos();
    let mut turned = outline.clone();
    for ring in turned.rings_mut() {
        for corner in &mut ring.corners {
            *corner = Point::new(
                corner.east_m * cosine + corner.north_m * sine,
                corner.north_m * cosine - corner.east_m * sine,
            );
        }
    }
    turned
}

/// The outline moved.
pub(super) fn moved(outline: &Outline, east_m: f64, north_m: f64) -> Outline {
    let mut moved = outline.clone();
    for ring in moved.rings_mut() {
        for corner in &mut ring.corners {
            *corner = corner.moved(east_m, north_m);
        }
    }
    moved
}

/// The corners of a square, from its south-west corner on, anticlockwise.
pub(super) fn square(west_m: f64, south_m: f64, side_m: f64) -> Vec<Point> {
    let corner = Point::new(west_m, south_m);
    vec![
        corner,
        corner.moved(side_m, 0.0),
        corner.moved(side_m, side_m),
        corner.moved(0.0, side_m),
    ]
}

/// Ground of square cells, so that cut lines meet many corners and sides at once.
pub(super) fn cells(chance: &mut Chance, columns: usize) -> Outline {
    let heights: Vec<f64> = (0..columns)
        .map(|_| chance.count(2, 7) as f64 * 10.0)
        .collect();
    let mut corners = vec![Point::new(0.0, 0.0), Point::new(10.0 * columns as f64, 0.0)];
    for (column, height_m) in heights.iter().enumerate().rev() {
        corners.push(Point::new(10.0 * (column + 1) as f64, *height_m));
        corners.push(Point::new(10.0 * column as f64, *height_m));
    }
    let holes = (1..columns - 1)
        .filter(|_| chance.share() < 0.5)
        .map(|column| {
            let (west, south) = (10.0 * column as f64, 5.0);
            let tips = [(5.0, 0.0), (10.0, 5.0), (5.0, 10.0), (0.0, 5.0)];
            Ring::new(
                tips.iter()
                    .map(|(east, north)| Point::new(west + east, south + north))
                    .collect(),
            )
        })
        .collect();
    Outline {
        parts: vec![Polygon {
            outer: Ring::new(corners),
            holes,
        }],
    }
}
