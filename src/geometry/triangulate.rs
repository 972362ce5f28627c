//! Fills ground with triangles, holes left open, for painting. Metres.
//!
//! Ear clipping (D. Eberly, *Triangulation by Ear Clipping*, 2002), which also copes with outlines that are not sound.

use earcut::Earcut;

use super::{Outline, Point, Polygon, Ring};

/// Corners and the triangles between them.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FillMesh {
    /// All corners of all rings, in order: parts, each outer ring first.
    pub positions: Vec<Point>,
    /// Three places in `positions` for each triangle.
    pub triangles: Vec<[u32; 3]>,
}

impl FillMesh {
    /// The corners of each triangle.
    pub fn corners(&self) -> impl Iterator<Item = [Point; 3]> + '_ {
        let position = |index: u32| self.positions.get(usize::try_from(index).ok()?).copied();
        self.triangles
            .iter()
            .filter_map(move |[a, b, c]| Some([position(*a)?, position(*b)?, position(*c)?]))
    }

    /// Area of all triangles on the plane, square metres.
    pub fn area_m2(&self) -> f64 {
        self.corners()
            .map(|corners| Outline::simple(corners.to_vec()).area_m2())
            .sum()
    }
}

/// Triangles that fill `outline`. Parts with figures that are not numbers are left out.
pub fn fill_mesh(outline: &Outline) -> FillMesh {
    let mut mesh = FillMesh::default();
    let mut ear_cutter: Earcut<f64> = Earcut::new();
    for part in &outline.parts {
        if part.rings().all(Ring::is_finite) {
            add_part(part, &mut mesh, &mut ear_cutter);
        }
    }
    mesh
}

fn add_part(part: &Polygon, mesh: &mut FillMesh, ear_cutter: &mut Earcut<f64>) {
    let base = part.outer.corners.first().copied().unwrap_or_default();
    let Ok(first) = u32::try_from(mesh.positions.len()) else {
        return;
    };
    let mut hole_starts: Vec<u32> = Vec::new();
    // About the first corner, so that ground far from the origin loses no digits.
    let mut data: Vec<[f64; 2]> = Vec::new();
    for ring in part.rings().filter(|ring| ring.corners.len() > 2) {
        if let (false, Ok(start)) = (data.is_empty(), u32::try_from(data.len())) {
            hole_starts.push(start);
        }
        let shifted = |at: &Point| [at.east_m - base.east_m, at.north_m - base.north_m];
        data.extend(ring.corners.iter().map(shifted));
        mesh.positions.extend(&ring.corners);
    }
    let mut indices: Vec<u32> = Vec::new();
    ear_cutter.earcut(data, &hole_starts, &mut indices);
    let triples = indices
        .chunks_exact(3)
        .filter_map(|three| <[u32; 3]>::try_from(three).ok());
    mesh.triangles
        .extend(triples.map(|three| three.map(|index| index + first)));
}
