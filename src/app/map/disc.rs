//! Discs of one size with an edge, as triangles: thousands of crowns cost a few corners each.
//!
//! Points of the screen. Edges fade out over a point, so that they do not break up into steps.

use egui::epaint::{Mesh, Vertex, WHITE_UV};
use egui::{Color32, Pos2, Shape, Stroke, Vec2};

/// How far a chord may miss the circle, points.
const MISS: f32 = 0.12;
/// Half of the width over which an edge fades.
const FADE: f32 = 0.5;

/// A disc that is put down again and again.
pub(super) struct Disc {
    corners: Vec<(Vec2, Color32)>,
    triangles: Vec<[u32; 3]>,
}

impl Disc {
    /// A disc of a radius; an edge of no width is none.
    pub(super) fn new(radius: f32, fill: Color32, edge: Stroke) -> Self {
        let rings = rings_of(radius, fill, edge);
        let around = corners_round(radius);
        let mut corners = vec![(Vec2::ZERO, fill)];
        for (reach, color) in &rings {
            #[expect(clippy::cast_precision_loss, reason = "some dozens of corners")]
            corners.extend((0..around).map(|corner| {
                let turn = corner as f32 * std::f32::consts::TAU / around as f32;
                (Vec2::angled(turn) * *reach, *color)
            }));
        }
        let mut triangles = Vec::new();
        for corner in 0..around {
            let next = (corner + 1) % around;
            triangles.push([0, 1 + corner, 1 + next]);
            for ring in 1..u32::try_from(rings.len()).unwrap_or(0) {
                let (inner, outer) = (1 + (ring - 1) * around, 1 + ring * around);
                triangles.push([inner + corner, inner + next, outer + corner]);
                triangles.push([inner + next, outer + next, outer + corner]);
            }
        }
        Self { corners, triangles }
    }

    /// One mesh of a disc at each place.
    pub(super) fn mesh_at(&self, middles: impl Iterator<Item = Pos2>) -> Shape {
        let mut mesh = Mesh::default();
        for middle in middles {
            let base = u32::try_from(mesh.vertices.len()).unwrap_or(0);
            let corners = self.corners.iter().map(|(offset, color)| Vertex {
                pos: middle + *offset,
                uv: WHITE_UV,
                color: *color,
            });
            mesh.vertices.extend(corners);
            let triangles = self.triangles.iter().flatten();
            mesh.indices.extend(triangles.map(|corner| base + corner));
        }
        Shape::mesh(mesh)
    }
}

/// Reach and colour of each ring of corners, from within.
fn rings_of(radius: f32, fill: Color32, edge: Stroke) -> Vec<(f32, Color32)> {
    let held = |reach: f32| reach.max(0.0);
    if edge.width <= 0.0 {
        return vec![
            (held(radius - FADE), fill),
            (held(radius + FADE), Color32::TRANSPARENT),
        ];
    }
    // An edge thinner than a point is drawn a point wide and paler.
    let ink = edge.color.gamma_multiply(edge.width.min(1.0));
    let half = edge.width.max(1.0) / 2.0;
    let under = fill.blend(ink);
    let mut rings = vec![
        (held(radius - half - FADE), fill),
        (held(radius - half + FADE), under),
    ];
    if half > FADE {
        rings.push((held(radius + half - FADE), ink));
    }
    rings.push((held(radius + half + FADE), Color32::TRANSPARENT));
    rings
}

/// Corners of a circle whose chords miss it by `MISS` at most.
fn corners_round(radius: f32) -> u32 {
    let step = 2.0 * (1.0 - MISS / radius.max(MISS * 2.0)).acos();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held between 6 and 96"
    )]
    let corners = (std::f32::consts::TAU / step).ceil().clamp(6.0, 96.0) as u32;
    corners
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_disc_covers_its_circle_and_no_more_than_its_fading_edge() {
        for radius in [1.0, 4.5, 30.0, 400.0] {
            let disc = Disc::new(radius, Color32::WHITE, Stroke::new(0.9, Color32::BLACK));
            let reach = |(offset, _): &(Vec2, Color32)| offset.length();
            let most = disc.corners.iter().map(reach).fold(0.0, f32::max);
            assert!((most - (radius + 1.0)).abs() < 0.01, "{radius}: {most}");
            let count = u32::try_from(disc.corners.len()).unwrap_or(0);
            assert!(
                disc.triangles
                    .iter()
                    .flatten()
                    .all(|corner| *corner < count)
            );
        }
    }

    #[test]
    fn a_larger_disc_has_more_corners() {
        assert!(corners_round(2.0) < corners_round(9.0));
        assert!(corners_round(9.0) < corners_round(60.0));
    }
}
