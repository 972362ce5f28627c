//! `GeoJSON` (RFC 7946, IETF 2016) brought in as ground.
//!
//! Longitude and latitude of WGS 84 only, as the standard has it (section 4): anything else is refused with the reason,
//! never guessed at. What was left out or assumed is told in notes. Degrees in, metres of the farm's plane out.

mod pieces;
mod properties;
mod reference;

use geojson::GeoJson;

use self::pieces::{Piece, pieces_of};
use self::properties::Reader;
use super::imported::{Imported, ImportedGround, ImportedPiece, LONGEST_NAME, stem};
use super::middle;
use super::{FileError, LARGEST_FILE_BYTES};
use crate::geometry::{GroundFrame, LonLat};
use crate::quantity::Day;

/// The most things that are brought in at once.
const MOST_PIECES: usize = 100_000;

/// Makes a farm of a `GeoJSON` text; `source_name` is what errors and the farm's name call it.
///
/// # Errors
/// No `GeoJSON`; not longitude and latitude; spread over more than 2,000 km from its middle.
pub fn import_geojson(
    text: &str,
    source_name: &str,
    season_first_day: Day,
) -> Result<Imported, FileError> {
    let parsed = parse(text, source_name)?;
    let source = Source::of(&parsed, source_name)?;
    // Of a file without a shape comes an empty farm; a note tells that it lies nowhere yet.
    let middle = middle::middle_of(&source.places()).unwrap_or_default();
    let frame = GroundFrame::new(middle).map_err(|error| {
        FileError::new(
            source_name,
            error.to_string(),
            "look at the coordinates in the file",
        )
    })?;
    let name = own_name(&parsed).unwrap_or_else(|| stem(source_name));
    let imported = onto(&source, source_name, frame)?;
    Ok(imported.into_farm(name, frame, season_first_day))
}

/// Ground of a `GeoJSON` text on the plane of a farm that is there already.
///
/// # Errors
/// As [`import_geojson`], the 2,000 km counted from the farm's origin.
pub fn import_geojson_onto(
    text: &str,
    source_name: &str,
    frame: GroundFrame,
) -> Result<ImportedGround, FileError> {
    let parsed = parse(text, source_name)?;
    onto(&Source::of(&parsed, source_name)?, source_name, frame)
}

/// What a text holds, checked to be longitude and latitude.
struct Source<'file> {
    pieces: Vec<Piece<'file>>,
    without_shape: usize,
    heights: usize,
}

impl<'file> Source<'file> {
    fn of(parsed: &'file GeoJson, name: &str) -> Result<Self, FileError> {
        reference::refuse_other_than_lonlat(parsed, name)?;
        let mut without_shape = 0;
        let pieces = pieces_of(parsed, &mut without_shape);
        if pieces.len() > MOST_PIECES {
            return Err(FileError::new(
                name,
                format!(
                    "it holds {} things, and {MOST_PIECES} are the most that are brought in",
                    pieces.len()
                ),
                "cut it down to the ground of one farm first",
            ));
        }
        Ok(Self {
            heights: pieces::check_places(&pieces, name)?,
            pieces,
            without_shape,
        })
    }

    fn places(&self) -> Vec<LonLat> {
        self.pieces.iter().flat_map(Piece::places).collect()
    }
}

fn parse(text: &str, name: &str) -> Result<GeoJson, FileError> {
    if u64::try_from(text.len()).is_ok_and(|length| length > LARGEST_FILE_BYTES) {
        return Err(FileError::new(
            name,
            "the text is too large to bring in",
            "cut it into smaller files",
        ));
    }
    let text = text.trim_start_matches('\u{feff}');
    text.parse()
        .map_err(|error| parse_error(name, text, &error))
}

/// The name that the file gives itself.
fn own_name(parsed: &GeoJson) -> Option<String> {
    let GeoJson::FeatureCollection(collection) = parsed else {
        return None;
    };
    let name = collection.foreign_members.as_ref()?.get("name")?.as_str()?;
    let name: String = name.trim().chars().take(LONGEST_NAME).collect();
    (!name.is_empty()).then_some(name)
}

fn onto(source: &Source, name: &str, frame: GroundFrame) -> Result<ImportedGround, FileError> {
    let mut reader = Reader::default();
    let mut grounds: Vec<ImportedPiece> = Vec::new();
    let mut leys: Vec<Option<String>> = Vec::new();
    for piece in &source.pieces {
        let Some(shape) = piece.shape(frame, name)? else {
            reader.too_few_corners += 1;
            continue;
        };
        let (ground, ley) = reader.ground(piece, shape);
        grounds.push(ImportedPiece {
            ground,
            strip_of: None,
        });
        leys.push(ley);
    }
    join_strips(&mut grounds, &leys);
    Ok(ImportedGround {
        notes: notes(source, &reader),
        pieces: grounds,
    })
}

/// Joins each strip to the one piece of ground that carries the name of its ley.
fn join_strips(grounds: &mut [ImportedPiece], leys: &[Option<String>]) {
    let names: Vec<(usize, String)> = grounds
        .iter()
        .enumerate()
        .filter(|(_, piece)| {
            matches!(
                piece.ground.kind,
                crate::farm::Kind::Ley | crate::farm::Kind::Plot
            )
        })
        .map(|(place, piece)| (place, piece.ground.name.clone()))
        .collect();
    for (piece, ley) in grounds.iter_mut().zip(leys) {
        let mut found = names.iter().filter(|(_, name)| Some(name) == ley.as_ref());
        if let (Some((place, _)), None) = (found.next(), found.next()) {
            piece.strip_of = Some(*place);
        }
    }
}

fn notes(source: &Source, reader: &Reader) -> Vec<String> {
    let mut notes = Vec::new();
    let mut tell = |count: usize, one: &str, many: &str| match count {
        0 => {}
        1 => notes.push(format!("1 {one}.")),
        _ => notes.push(format!("{count} {many}.")),
    };
    tell(
        source.without_shape,
        "entry has no shape and was left out",
        "entries have no shape and were left out",
    );
    tell(
        reader.too_few_corners,
        "shape has too few corners and was left out",
        "shapes have too few corners and were left out",
    );
    tell(
        source.heights,
        "corner carries a height, which was left out",
        "corners carry heights, which were left out",
    );
    tell(
        reader.without_kind,
        "thing has no kind in the file: an area became a plot, a line a fence, a place a trough",
        "things have no kind in the file: areas became plots, lines fences, places troughs",
    );
    let kinds: Vec<&str> = reader.unknown_kinds.iter().map(String::as_str).collect();
    let kinds = format!(
        "not known here or does not lie so ({}): an area became a plot, a line a fence, a place a trough",
        kinds.join(", ")
    );
    tell(
        reader.with_unknown_kind,
        &format!("thing has a kind that is {kinds}"),
        &format!("things have a kind that is {kinds}"),
    );
    if source.pieces.is_empty() {
        notes.push("There is no outline, line or place in this file: nothing came in.".to_owned());
    }
    notes
}

fn parse_error(name: &str, text: &str, error: &geojson::Error) -> FileError {
    if text.trim().is_empty() {
        return FileError::new(
            name,
            "the file is empty",
            "look whether it is the right one",
        );
    }
    let geojson::Error::MalformedGeoJson(fault) = error else {
        return FileError::new(
            name,
            format!("this is not sound GeoJSON ({error})"),
            "have it written again by the program it comes from",
        );
    };
    let (cause, remedy) = if fault.is_eof() {
        (
            "the file ends in the middle, as if it had been cut off".to_owned(),
            "fetch it again",
        )
    } else if fault.is_syntax() {
        (
            "this is not GeoJSON: the text breaks the rules of JSON here".to_owned(),
            "look whether it is the right file, or fetch it again",
        )
    } else {
        (
            format!("this is JSON, but not sound GeoJSON ({fault})"),
            "look whether it is the right file, or have it written again by the program it comes from",
        )
    };
    let told = FileError::new(name, cause, remedy);
    if fault.line() == 0 {
        return told;
    }
    told.at(format!("line {}, column {}", fault.line(), fault.column()))
}
