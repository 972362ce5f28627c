//! The shapes in a `GeoJSON` text, each on its own, and whether their figures can be longitude and latitude.
//!
//! Lines and places of one entry become a piece each; the polygons of one entry stay together. Degrees.

use geojson::{Feature, GeoJson, GeometryValue, JsonObject, Position, feature};

use crate::farm::Shape;
use crate::files::FileError;
use crate::files::imported::FARTHEST_M;
use crate::geometry::{GroundFrame, LonLat, Outline, Point, Polygon, Ring};

/// One thing to become ground.
#[derive(Debug, Clone, Copy)]
pub(super) struct Piece<'file> {
    /// Which entry of the file, from 1.
    entry: usize,
    /// What the entry says.
    pub(super) properties: Option<&'file JsonObject>,
    /// The entry's own mark.
    pub(super) id: Option<&'file feature::Id>,
    /// Which of several pieces of its entry, from 1; absent where it is the only one.
    pub(super) part: Option<usize>,
    form: RawForm<'file>,
}

#[derive(Debug, Clone, Copy)]
enum RawForm<'file> {
    Area(&'file [Vec<Vec<Position>>]),
    Line(&'file [Position]),
    Place(&'file Position),
}

/// Every piece, in order; entries without a shape are counted.
pub(super) fn pieces_of<'file>(
    parsed: &'file GeoJson,
    without_shape: &mut usize,
) -> Vec<Piece<'file>> {
    let mut pieces = Vec::new();
    match parsed {
        GeoJson::FeatureCollection(collection) => {
            for (place, feature) in collection.features.iter().enumerate() {
                add_feature(place + 1, feature, &mut pieces, without_shape);
            }
        }
        GeoJson::Feature(feature) => add_feature(1, feature, &mut pieces, without_shape),
        GeoJson::Geometry(geometry) => {
            let mut forms = Vec::new();
            add_forms(&geometry.value, &mut forms);
            add_pieces((1, None, None), forms, &mut pieces);
        }
    }
    pieces
}

fn add_feature<'file>(
    entry: usize,
    feature: &'file Feature,
    pieces: &mut Vec<Piece<'file>>,
    without_shape: &mut usize,
) {
    let mut forms = Vec::new();
    if let Some(geometry) = &feature.geometry {
        add_forms(&geometry.value, &mut forms);
    }
    *without_shape += usize::from(forms.is_empty());
    add_pieces(
        (entry, feature.properties.as_ref(), feature.id.as_ref()),
        forms,
        pieces,
    );
}

fn add_pieces<'file>(
    (entry, properties, id): (usize, Option<&'file JsonObject>, Option<&'file feature::Id>),
    forms: Vec<RawForm<'file>>,
    pieces: &mut Vec<Piece<'file>>,
) {
    let several = forms.len() > 1;
    pieces.extend(forms.into_iter().enumerate().map(|(place, form)| Piece {
        entry,
        properties,
        id,
        part: several.then_some(place + 1),
        form,
    }));
}

/// The depth of collections within collections is bounded by the JSON reader.
fn add_forms<'file>(value: &'file GeometryValue, forms: &mut Vec<RawForm<'file>>) {
    match value {
        GeometryValue::Point { coordinates } => forms.push(RawForm::Place(coordinates)),
        GeometryValue::MultiPoint { coordinates } => {
            forms.extend(coordinates.iter().map(RawForm::Place));
        }
        GeometryValue::LineString { coordinates } => forms.push(RawForm::Line(coordinates)),
        GeometryValue::MultiLineString { coordinates } => {
            forms.extend(coordinates.iter().map(|line| RawForm::Line(line)));
        }
        GeometryValue::Polygon { coordinates } => {
            forms.push(RawForm::Area(std::slice::from_ref(coordinates)));
        }
        GeometryValue::MultiPolygon { coordinates } => forms.push(RawForm::Area(coordinates)),
        GeometryValue::GeometryCollection { geometries } => {
            for geometry in geometries {
                add_forms(&geometry.value, forms);
            }
        }
    }
}

/// Checks every figure; how many corners carry heights.
///
/// # Errors
/// Figures that cannot be longitude and latitude, with their place.
pub(super) fn check_places(pieces: &[Piece<'_>], name: &str) -> Result<usize, FileError> {
    let mut heights = 0;
    for piece in pieces {
        for (place, position) in piece.positions().enumerate() {
            let (lon_deg, lat_deg) = figures(position);
            if lon_deg.abs() > 180.0
                || lat_deg.abs() > 90.0
                || !lon_deg.is_finite()
                || !lat_deg.is_finite()
            {
                return Err(FileError::new(
                    name,
                    format!(
                        "{lon_deg}, {lat_deg} is no longitude and latitude, so the file holds the metres of some grid or has the two the wrong way round"
                    ),
                    "have it written again as GeoJSON in WGS 84 (EPSG:4326), longitude first",
                )
                .at(format!("entry {}, corner {}", piece.entry, place + 1)));
            }
            heights += usize::from(position.len() > 2);
        }
    }
    Ok(heights)
}

impl Piece<'_> {
    /// The shape on the farm's plane; `None` where it has too few corners to be one.
    ///
    /// # Errors
    /// A corner too far from the farm.
    pub(super) fn shape(&self, frame: GroundFrame, name: &str) -> Result<Option<Shape>, FileError> {
        let points = |positions: &[Position]| -> Result<Vec<Point>, FileError> {
            positions
                .iter()
                .map(|position| self.point(position, frame, name))
                .collect()
        };
        match self.form {
            RawForm::Place(position) => Ok(Some(Shape::Place(self.point(position, frame, name)?))),
            RawForm::Line(positions) if positions.len() < 2 => Ok(None),
            RawForm::Line(positions) => Ok(Some(Shape::Line(points(positions)?))),
            RawForm::Area(parts) => {
                let mut outline = Outline::default();
                for part in parts {
                    let mut rings = Vec::new();
                    for ring in part {
                        rings.push(Ring::new(points(ring)?));
                    }
                    outline.parts.extend(polygon_of(rings));
                }
                Ok((!outline.parts.is_empty()).then_some(Shape::Area(outline)))
            }
        }
    }

    fn point(
        &self,
        position: &Position,
        frame: GroundFrame,
        name: &str,
    ) -> Result<Point, FileError> {
        let refusal = |cause: String, remedy: &str| {
            FileError::new(name, cause, remedy).at(format!("entry {}", self.entry))
        };
        let point = frame
            .point_from_lonlat(lonlat(position))
            .map_err(|error| refusal(error.to_string(), "look at the coordinates in the file"))?;
        let distance_m = point.distance_m(Point::default());
        if distance_m > FARTHEST_M || !distance_m.is_finite() {
            return Err(refusal(
                "this lies more than 2,000 km from the middle of the farm".to_owned(),
                "bring in the ground of one farm at a time",
            ));
        }
        Ok(point)
    }

    /// Every corner as a place on the earth, as the file has it.
    pub(super) fn places(&self) -> impl Iterator<Item = LonLat> + '_ {
        self.positions().map(lonlat)
    }

    fn positions(&self) -> Box<dyn Iterator<Item = &Position> + '_> {
        match self.form {
            RawForm::Area(parts) => Box::new(parts.iter().flatten().flatten()),
            RawForm::Line(positions) => Box::new(positions.iter()),
            RawForm::Place(position) => Box::new(std::iter::once(position)),
        }
    }
}

/// A polygon of its rings, the outer one first; holes that are none are dropped.
fn polygon_of(rings: Vec<Ring>) -> Option<Polygon> {
    let mut rings = rings.into_iter();
    let outer = rings.next().filter(|ring| ring.corners.len() >= 3)?;
    Some(Polygon {
        outer,
        holes: rings.filter(|ring| ring.corners.len() >= 3).collect(),
    })
}

/// Longitude and latitude; not numbers where the file gives fewer than two.
fn figures(position: &Position) -> (f64, f64) {
    let figure = |place: usize| position.as_slice().get(place).copied().unwrap_or(f64::NAN);
    (figure(0), figure(1))
}

fn lonlat(position: &Position) -> LonLat {
    let (lon_deg, lat_deg) = figures(position);
    LonLat::new(lon_deg, lat_deg)
}
