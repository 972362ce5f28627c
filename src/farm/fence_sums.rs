//! What a fence takes: posts, wire, rolls. Metres.

use super::tunnel_sums::gaps_along;
use super::{Farm, Ground};
use crate::geometry::{Point, geodesic};

/// Posts, wire and rolls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FenceSums {
    /// Length of the fence, metres.
    pub length_m: f64,
    /// Posts: one at each end and corner, and between them at the spacing or closer.
    pub posts: u64,
    /// Of these at ends and corners.
    pub corner_posts: u64,
    /// All strands together, metres.
    pub wire_m: f64,
    /// Whole rolls that hold them.
    pub rolls: u32,
}

/// The sums of a fence whose posts are said; none for other ground.
pub fn fence_sums(farm: &Farm, ground: &Ground) -> Option<FenceSums> {
    let (line, posts) = (ground.line()?, ground.posts?);
    let stretches_m: Vec<f64> = line
        .iter()
        .zip(line.iter().skip(1))
        .map(|(from, to)| geodesic::distance_m(farm.frame, *from, *to))
        .filter(|length_m| *length_m > 0.0)
        .collect();
    if stretches_m.is_empty() {
        return None;
    }
    // A fence that comes back to its beginning shares that post.
    let ends = u64::from(!is_closed(line));
    let between = |length_m: &f64| u64::from(gaps_along(*length_m, posts.spacing_m));
    let length_m: f64 = stretches_m.iter().sum();
    let wire_m = length_m * f64::from(posts.strands);
    Some(FenceSums {
        length_m,
        posts: stretches_m.iter().map(between).sum::<u64>() + ends,
        corner_posts: u64::try_from(stretches_m.len()).unwrap_or(0) + ends,
        wire_m,
        rolls: gaps_along(wire_m, posts.roll_m),
    })
}

/// The places of the posts, on the plane.
pub fn fence_posts(line: &[Point], spacing_m: f64) -> Vec<Point> {
    let mut places: Vec<Point> = line.first().copied().into_iter().collect();
    for (from, to) in line.iter().zip(line.iter().skip(1)) {
        let length_m = from.distance_m(*to);
        if length_m > 0.0 {
            let gaps = gaps_along(length_m, spacing_m);
            let posts = (1..=gaps).map(|post| f64::from(post) / f64::from(gaps));
            places.extend(posts.map(|share| from.between(*to, share)));
        }
    }
    if is_closed(line) {
        places.pop();
    }
    places
}

fn is_closed(line: &[Point]) -> bool {
    line.len() > 2 && line.first() == line.last()
}
