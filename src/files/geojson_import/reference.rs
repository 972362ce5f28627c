//! Whether a `GeoJSON` text says that it is longitude and latitude.
//!
//! RFC 7946 (IETF 2016) knows nothing else; the older `crs` member, which many programs still write, may name what the
//! figures really are. Knows nothing of the shapes.

use geojson::{Feature, GeoJson, JsonObject, JsonValue};

use crate::files::FileError;

/// # Errors
/// Where a `crs` member names anything but longitude and latitude of WGS 84.
pub(super) fn refuse_other_than_lonlat(parsed: &GeoJson, name: &str) -> Result<(), FileError> {
    let of_feature = |feature: &Feature| {
        let of_shape = feature
            .geometry
            .as_ref()
            .and_then(|geometry| other_than_lonlat(geometry.foreign_members.as_ref()));
        other_than_lonlat(feature.foreign_members.as_ref()).or(of_shape)
    };
    let other = match parsed {
        GeoJson::FeatureCollection(collection) => {
            other_than_lonlat(collection.foreign_members.as_ref())
                .or_else(|| collection.features.iter().find_map(of_feature))
        }
        GeoJson::Feature(feature) => of_feature(feature),
        GeoJson::Geometry(geometry) => other_than_lonlat(geometry.foreign_members.as_ref()),
    };
    other.map_or(Ok(()), |reference| {
        Err(FileError::new(
            name,
            format!(
                "the figures are not longitude and latitude: its crs member says {reference}, which is some other grid"
            ),
            "have it written again as GeoJSON in WGS 84 (EPSG:4326), longitude first",
        )
        .at("crs"))
    })
}

/// What the `crs` member names, where that is not longitude and latitude.
fn other_than_lonlat(members: Option<&JsonObject>) -> Option<String> {
    let reference = members?.get("crs")?;
    if reference.is_null() {
        return None;
    }
    let named = reference
        .get("properties")
        .and_then(|properties| properties.get("name"));
    // Some programs write the name itself in place of the object.
    let named = named.or(Some(reference)).and_then(JsonValue::as_str);
    let Some(named) = named else {
        return Some("a reference system that is not named".to_owned());
    };
    let upper = named.trim().to_uppercase();
    let code = upper.rsplit([':', '/', '#']).next().unwrap_or_default();
    let is_lonlat = code == "CRS84"
        || code == "CRS84H"
        || (code == "4326" && upper.contains("EPSG"))
        || code == "4326" && upper.len() == 4;
    (!is_lonlat).then(|| named.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_spelling_of_wgs84_passes_and_others_do_not() {
        let said = |name: &str| {
            let text = format!(r#"{{"crs":{{"type":"name","properties":{{"name":"{name}"}}}}}}"#);
            let members: JsonObject = serde_json::from_str(&text).unwrap_or_default();
            assert!(members.contains_key("crs"));
            other_than_lonlat(Some(&members))
        };
        for name in [
            "EPSG:4326",
            "urn:ogc:def:crs:OGC:1.3:CRS84",
            "urn:ogc:def:crs:EPSG::4326",
            "http://www.opengis.net/def/crs/OGC/1.3/CRS84",
            "crs84",
        ] {
            assert_eq!(said(name), None, "{name}");
        }
        for name in [
            "EPSG:3857",
            "urn:ogc:def:crs:EPSG::25833",
            "EPSG:43260",
            "OGC:CRS83",
        ] {
            assert_eq!(said(name).as_deref(), Some(name));
        }
    }
}
