//! Reads the text of a recorded walk (GPX): lines of places with their names, single places, nothing else.
//!
//! GPX 1.1 and 1.0 (TopoGrafix, *GPX 1.1 Schema Documentation*, 2004: `gpx`, `trk`, `trkseg`, `trkpt`, `rte`, `rtept`,
//! `wpt`, `name`). Receivers write much beside that – heart rates, broken times, elements of their own – so whatever is
//! not asked for is passed over, not refused. Degrees of WGS 84, which the schema fixes.

use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};

use crate::files::imported::LONGEST_NAME;
use crate::files::{FileError, LARGEST_FILE_BYTES};
use crate::geometry::LonLat;

/// A line of places in the order in which they were recorded.
#[derive(Debug, Clone, PartialEq)]
pub struct RecordedLine {
    /// Its name: the file's, or "Track 2".
    pub name: String,
    /// Places, none standing on the one before.
    pub places: Vec<LonLat>,
}

/// A single place that was marked.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkedPlace {
    /// Its name, empty where the file gives none.
    pub name: String,
    /// Where.
    pub place: LonLat,
}

/// What a file holds.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Recorded {
    /// The name that the file gives itself.
    pub name: Option<String>,
    /// A line for each unbroken piece of a track and for each route, of two places or more.
    pub lines: Vec<RecordedLine>,
    /// Single places.
    pub marked: Vec<MarkedPlace>,
    /// What was left out, a sentence each.
    pub notes: Vec<String>,
}

/// Deeper than this no element is read; real files nest six deep or so.
const DEEPEST: usize = 64;

/// The most lines and single places together.
const MOST_PIECES: usize = 100_000;

/// What an open element is to us.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Open {
    File,
    FileFacts,
    Track,
    Segment,
    Route,
    Marked,
    Point,
    Name,
    Other,
}

/// Reads a text; `source_name` is what errors call it.
///
/// # Errors
/// No GPX, cut off, broken, or a point that lies nowhere on the earth, each with its line.
pub fn read_gpx(text: &str, source_name: &str) -> Result<Recorded, FileError> {
    if u64::try_from(text.len()).is_ok_and(|length| length > LARGEST_FILE_BYTES) {
        return Err(FileError::new(
            source_name,
            "the text is too large to bring in",
            "cut it into smaller files",
        ));
    }
    let text = text.trim_start_matches('\u{feff}').trim_start();
    if text.is_empty() {
        return Err(FileError::new(
            source_name,
            "the file is empty",
            "look whether it is the right one",
        ));
    }
    let mut walk = Walk {
        source_name,
        text,
        reader: Reader::from_str(text),
        open: Vec::new(),
        read: Recorded::default(),
        line: Vec::new(),
        line_name: String::new(),
        pieces_of_track: 0,
        names: String::new(),
        tracks: 0,
        routes: 0,
        short: 0,
        repeated: 0,
    };
    walk.all()?;
    Ok(walk.told())
}

struct Walk<'text> {
    source_name: &'text str,
    text: &'text str,
    reader: Reader<&'text [u8]>,
    open: Vec<Open>,
    read: Recorded,
    line: Vec<LonLat>,
    line_name: String,
    /// Lines of the track in hand so far.
    pieces_of_track: usize,
    names: String,
    tracks: usize,
    routes: usize,
    short: usize,
    repeated: usize,
}

impl<'text> Walk<'text> {
    fn all(&mut self) -> Result<(), FileError> {
        let mut has_begun = false;
        loop {
            let event = self.reader.read_event();
            match event.map_err(|error| self.broken(&error))? {
                Event::Start(element) => {
                    self.begin(&element)?;
                    has_begun = true;
                }
                Event::Empty(element) => {
                    self.begin(&element)?;
                    has_begun = true;
                    self.end()?;
                }
                Event::End(_) => self.end()?,
                Event::Text(words) => self.name_goes_on(words.decode().ok().as_deref()),
                Event::CData(words) => self.name_goes_on(words.decode().ok().as_deref()),
                Event::GeneralRef(sign) => {
                    let letter = sign.resolve_char_ref().ok().flatten();
                    let known = match sign.decode().as_deref() {
                        Ok("amp") => Some('&'),
                        Ok("lt") => Some('<'),
                        Ok("gt") => Some('>'),
                        Ok("quot") => Some('"'),
                        Ok("apos") => Some('\''),
                        _ => None,
                    };
                    let letter = letter.or(known).map(String::from);
                    self.name_goes_on(letter.as_deref());
                }
                Event::Eof => break,
                Event::Comment(_) | Event::Decl(_) | Event::PI(_) | Event::DocType(_) => {}
            }
        }
        if !has_begun {
            return Err(self.refused(
                "this is not a recorded walk (GPX)",
                "look whether it is the right file",
            ));
        }
        if !self.open.is_empty() {
            return Err(self.refused(
                "the file ends in the middle, as if it had been cut off",
                "fetch it again from the phone or receiver",
            ));
        }
        Ok(())
    }

    fn begin(&mut self, element: &BytesStart<'_>) -> Result<(), FileError> {
        if self.open.len() >= DEEPEST {
            return Err(self.refused(
                &format!("elements stand more than {DEEPEST} deep in each other"),
                "have it written again by the program it comes from",
            ));
        }
        let name = element.local_name();
        let name = name.as_ref();
        let opened = match (self.open.last().copied(), name) {
            (None, b"gpx") => Open::File,
            (None, other) => {
                let other: String = String::from_utf8_lossy(other).chars().take(40).collect();
                return Err(self.refused(
                    &format!("this is not a recorded walk (GPX): it begins with <{other}>"),
                    "look whether it is the right file, or have the walk written out as GPX",
                ));
            }
            (Some(Open::File), b"metadata") => Open::FileFacts,
            (Some(Open::File), b"trk") => Open::Track,
            (Some(Open::File), b"rte") => Open::Route,
            (Some(Open::File), b"wpt") => Open::Marked,
            (Some(Open::Track), b"trkseg") => Open::Segment,
            (Some(Open::Segment), b"trkpt") | (Some(Open::Route), b"rtept") => Open::Point,
            (
                Some(Open::File | Open::FileFacts | Open::Track | Open::Route | Open::Marked),
                b"name",
            ) => Open::Name,
            _ => Open::Other,
        };
        match opened {
            Open::Track | Open::Route => {
                self.tracks += usize::from(opened == Open::Track);
                self.routes += usize::from(opened == Open::Route);
                self.line_name.clear();
                self.pieces_of_track = 0;
                self.line.clear();
            }
            Open::Segment => self.line.clear(),
            Open::Point => {
                let place = self.place_of(element)?;
                if self.line.last() == Some(&place) {
                    self.repeated += 1;
                } else {
                    self.line.push(place);
                }
            }
            Open::Marked => {
                let place = self.place_of(element)?;
                let name = String::new();
                self.read.marked.push(MarkedPlace { name, place });
                self.check_count()?;
            }
            Open::Name => self.names.clear(),
            Open::File | Open::FileFacts | Open::Other => {}
        }
        self.open.push(opened);
        Ok(())
    }

    fn end(&mut self) -> Result<(), FileError> {
        let Some(closed) = self.open.pop() else {
            return Ok(());
        };
        match closed {
            Open::Segment | Open::Route => self.line_ends(closed)?,
            Open::Track => self.number_pieces(),
            Open::Name => self.name_ends(),
            _ => {}
        }
        Ok(())
    }

    fn line_ends(&mut self, closed: Open) -> Result<(), FileError> {
        let places = std::mem::take(&mut self.line);
        if places.len() < 2 {
            self.short += 1;
            return Ok(());
        }
        let name = if self.line_name.is_empty() {
            match closed {
                Open::Route => format!("Route {}", self.routes),
                _ => format!("Track {}", self.tracks),
            }
        } else {
            self.line_name.clone()
        };
        self.pieces_of_track += 1;
        self.read.lines.push(RecordedLine { name, places });
        self.check_count()
    }

    /// Several pieces of one track are told apart by number. A name may stand behind the pieces it belongs to.
    fn number_pieces(&mut self) {
        let first = self.read.lines.len().saturating_sub(self.pieces_of_track);
        let several = self.pieces_of_track > 1;
        let pieces = self.read.lines.iter_mut().skip(first);
        for (line, number) in pieces.zip(1..) {
            if !self.line_name.is_empty() {
                line.name.clone_from(&self.line_name);
            }
            if several {
                line.name = format!("{} {number}", line.name);
            }
        }
    }

    fn name_goes_on(&mut self, words: Option<&str>) {
        if self.open.last() == Some(&Open::Name) && self.names.len() < 8 * LONGEST_NAME {
            self.names.push_str(words.unwrap_or_default());
        }
    }

    fn name_ends(&mut self) {
        let name = self
            .names
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ")
            .chars()
            .take(LONGEST_NAME)
            .collect::<String>();
        match self.open.last() {
            Some(Open::Track | Open::Route) => self.line_name = name,
            Some(Open::Marked) => {
                if let Some(marked) = self.read.marked.last_mut() {
                    marked.name = name;
                }
            }
            _ if !name.is_empty() => self.read.name = Some(name),
            _ => {}
        }
    }

    fn check_count(&self) -> Result<(), FileError> {
        if self.read.lines.len() + self.read.marked.len() <= MOST_PIECES {
            return Ok(());
        }
        Err(FileError::new(
            self.source_name,
            format!("it holds more than {MOST_PIECES} tracks and places"),
            "cut it down to the walks on one farm first",
        ))
    }

    fn place_of(&self, element: &BytesStart<'_>) -> Result<LonLat, FileError> {
        let figure = |name: &str| -> Option<f64> {
            let attribute = element.try_get_attribute(name).ok()??;
            let text = std::str::from_utf8(&attribute.value).ok()?;
            text.trim()
                .parse()
                .ok()
                .filter(|figure: &f64| figure.is_finite())
        };
        let (Some(lat_deg), Some(lon_deg)) = (figure("lat"), figure("lon")) else {
            return Err(self.refused(
                "a point has no figures for lat and lon",
                "have it written again by the program it comes from",
            ));
        };
        if lat_deg.abs() > 90.0 || lon_deg.abs() > 180.0 {
            return Err(self.refused(
                &format!("lat {lat_deg}, lon {lon_deg} lies nowhere on the earth"),
                "have it written again in degrees of WGS 84, as GPX asks for",
            ));
        }
        Ok(LonLat::new(lon_deg, lat_deg))
    }

    fn broken(&self, error: &quick_xml::Error) -> FileError {
        let is_cut_off = matches!(error, quick_xml::Error::Syntax(_));
        if is_cut_off {
            return self.refused(
                "the file ends in the middle, as if it had been cut off",
                "fetch it again from the phone or receiver",
            );
        }
        self.refused(
            &format!("the text breaks the rules of XML here ({error})"),
            "fetch it again, or have it written again by the program it comes from",
        )
    }

    /// An error at the line that was read last.
    fn refused(&self, cause: &str, remedy: &str) -> FileError {
        let read = usize::try_from(self.reader.buffer_position()).unwrap_or(usize::MAX);
        let before = self.text.as_bytes().iter().take(read);
        let line = 1 + before.filter(|byte| **byte == b'\n').count();
        FileError::new(self.source_name, cause, remedy).at(format!("line {line}"))
    }

    fn told(mut self) -> Recorded {
        let mut tell = |count: usize, one: &str, many: &str| match count {
            0 => {}
            1 => self.read.notes.push(format!("1 {one}.")),
            _ => self.read.notes.push(format!("{count} {many}.")),
        };
        tell(
            self.short,
            "track of fewer than two points was left out",
            "tracks of fewer than two points were left out",
        );
        tell(
            self.repeated,
            "point stands on the one before and was left out",
            "points stand on the one before and were left out",
        );
        self.read
    }
}
