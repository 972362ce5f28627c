//! Opening the page, clicks on the map that belong to it, and putting what was measured onto the farm.

use std::collections::BTreeSet;

use super::walked::WalkFile;
use super::{KnownCorner, Taping, Wanting, Way, known_at};
use crate::app::desk::Desk;
use crate::app::map::feed;
use crate::app::tools::{MapEvent, Tool, piece_of};
use crate::farm::{Edit, Farm, Ground, GroundId, Kind, Shape};
use crate::files;
use crate::geometry::{Outline, Point};
use crate::quantity::{area_text, length_text_precise, plural_text};

/// Opens the page at one of the four; what was typed there before is still there.
pub fn open(desk: &mut Desk, way: Way) {
    let taping = &mut desk.taping;
    taping.is_open = true;
    taping.way = way;
    taping.go_on();
    desk.notice = None;
}

/// Takes an event of the pointer where it belongs to the page; gives it back where it does not.
/// `holds_still` leaves the pointer alone.
pub fn take_event(desk: &mut Desk, event: MapEvent, holds_still: bool) -> Option<MapEvent> {
    if !desk.taping.is_open {
        return Some(event);
    }
    if let Some(number) = desk.taping.wants {
        return match event {
            MapEvent::Moved(at) => {
                snapped(desk, at, holds_still);
                None
            }
            MapEvent::Clicked { at, .. } => {
                let place = snapped(desk, at, holds_still);
                let corner = known_at(desk.farm(), place, desk.units());
                desk.taping.set_end(number, corner);
                None
            }
            MapEvent::DoubleClicked(_) => None,
            other => Some(other),
        };
    }
    let Ok(corners) = tape_corners(desk) else {
        return Some(event);
    };
    match event {
        MapEvent::Clicked { at, .. } | MapEvent::DoubleClicked(at) => {
            let tapes = &mut desk.taping.two_tapes;
            tapes.chosen = None;
            tapes.chosen = Some(tapes.hand(corners, Some(at)));
            if matches!(event, MapEvent::DoubleClicked(_)) {
                put(desk);
            }
            None
        }
        other => Some(other),
    }
}

fn snapped(desk: &mut Desk, at: Point, holds_still: bool) -> Point {
    if holds_still {
        return at;
    }
    let (snapping, history, m_per_point) =
        (&mut desk.snapping, &desk.history, desk.view.m_per_point);
    snapping.place(
        history.farm(),
        (&BTreeSet::new(), &desk.hidden),
        at,
        None,
        m_per_point,
    )
}

fn tape_corners(desk: &Desk) -> Result<[Point; 2], Wanting> {
    let taping = &desk.taping;
    if taping.way != Way::TwoTapes {
        return Err(Wanting::missing(""));
    }
    taping.two_tapes.corners(taping.both_ends(), desk.units())
}

/// Whether there is something to put onto the farm.
pub fn is_ready(desk: &Desk) -> bool {
    let (taping, units) = (&desk.taping, desk.units());
    taping.is_open
        && match taping.way {
            Way::TwoTapes => tape_corners(desk).is_ok(),
            Way::BaseLine => taping.base_line.shape(taping.both_ends(), units).is_ok(),
            Way::WalkRound => taping
                .walk_round
                .walk(taping.ends[0].as_ref(), units)
                .is_ok(),
            Way::Walked => taping.walked.answer().is_ok(),
        }
}

/// Puts what was measured onto the farm, or down as the next corner of what is being drawn. What is missing is told.
pub fn put(desk: &mut Desk) {
    let done = match desk.taping.way {
        Way::TwoTapes => put_corner(desk),
        Way::BaseLine => put_offsets(desk),
        Way::WalkRound => put_walk(desk),
        Way::Walked => put_walked(desk),
    };
    if let Err(wanting) = done {
        desk.tell_trouble(wanting.text);
    }
}

fn put_corner(desk: &mut Desk) -> Result<(), Wanting> {
    let corners = tape_corners(desk)?;
    let hand = desk.taping.two_tapes.hand(corners, desk.last_pointer);
    let Some(at) = corners.get(hand.index()).copied() else {
        return Ok(());
    };
    if matches!(desk.tool, Tool::Pick(_)) {
        let kind = desk.taping.place_kind;
        let shape = Shape::Place(at.on_whole_mm());
        let ground = piece_of(desk.farm(), kind, shape);
        commit(desk, vec![ground]);
    } else {
        feed(desk, MapEvent::Clicked { at, adds: false });
        desk.tell(format!("Corner {} is put down.", hand.letter()));
    }
    desk.taping.two_tapes = super::TwoTapes::default();
    desk.taping.focus = Some(super::Focus::Tape(0));
    Ok(())
}

fn put_offsets(desk: &mut Desk) -> Result<(), Wanting> {
    let (taping, units) = (&desk.taping, desk.units());
    let shape = taping.base_line.shape(taping.both_ends(), units)?;
    let mut ground = piece_of(desk.farm(), kind_for(desk, &shape), shape);
    let [first, second] = taping.both_ends()?;
    ground.note = format!(
        "Taped: offsets from a line, {} to {}.",
        first.name, second.name
    );
    commit(desk, vec![ground]);
    desk.taping.base_line = super::BaseLine {
        is_line: desk.taping.base_line.is_line,
        ..super::BaseLine::default()
    };
    Ok(())
}

fn put_walk(desk: &mut Desk) -> Result<(), Wanting> {
    let (taping, units) = (&desk.taping, desk.units());
    let walk = taping.walk_round.walk(taping.ends[0].as_ref(), units)?;
    let corners = walk.adjusted.iter().map(|corner| corner.on_whole_mm());
    let shape = Shape::Area(Outline::simple(corners.collect()));
    let mut ground = piece_of(desk.farm(), kind_for(desk, &shape), shape);
    ground.note = format!(
        "Walked with compass and tape: {} round, missed its start by {}, shared out.",
        length_text_precise(walk.length_m, units),
        length_text_precise(walk.misclosure_m(), units)
    );
    commit(desk, vec![ground]);
    desk.taping.walk_round = super::WalkRound {
        needle: desk.taping.walk_round.needle.clone(),
        ..super::WalkRound::default()
    };
    Ok(())
}

fn put_walked(desk: &mut Desk) -> Result<(), Wanting> {
    let mut walked = std::mem::take(&mut desk.taping.walked);
    let shapes = walked.work_out(desk).map(<[_]>::to_vec);
    desk.taping.walked = walked;
    let shapes = shapes?;
    let frame = shapes
        .first()
        .map_or(desk.farm().frame, |shape| shape.frame);
    let mut pieces: Vec<Ground> = Vec::new();
    for walked in &shapes {
        let shape = walked.shape();
        let mut ground = piece_of(desk.farm(), kind_for(desk, &shape), shape);
        let is_taken = |name: &str| {
            let others = desk.farm().ground.values().chain(&pieces);
            others.into_iter().any(|other| other.name == name)
        };
        if !walked.name.is_empty() {
            ground.name.clone_from(&walked.name);
        }
        ground.name = free_name(&ground.name, is_taken);
        ground.note = note_of(walked, desk);
        pieces.push(ground);
    }
    pieces.extend(marked_places(desk, frame)?);
    if frame != desk.farm().frame {
        // Nothing is drawn yet and the farm lies elsewhere: it is laid about the walk, as other imports do.
        let open = desk.farm().clone();
        let taping = std::mem::take(&mut desk.taping);
        desk.put_on(Farm { frame, ..open }, None);
        desk.taping = taping;
        desk.history.mark_unsaved();
    }
    commit(desk, pieces);
    desk.wants_fit = true;
    desk.taping.walked.clear();
    Ok(())
}

fn marked_places(desk: &Desk, frame: crate::geometry::GroundFrame) -> Result<Vec<Ground>, Wanting> {
    let walked = &desk.taping.walked;
    let Some(file) = walked.file.as_ref().filter(|_| walked.brings_marked) else {
        return Ok(Vec::new());
    };
    let kind = desk.taping.place_kind;
    let marked = file
        .recorded
        .marked
        .iter()
        .zip(1..)
        .map(|(marked, number)| {
            let place = frame
                .point_from_lonlat(marked.place)
                .map_err(|error| Wanting::wrong(error.to_string()))?;
            let name = match marked.name.as_str() {
                "" => format!("Marked place {number}"),
                name => name.to_owned(),
            };
            Ok(Ground::new(name, kind, Shape::Place(place)))
        });
    marked.collect()
}

fn note_of(walked: &super::WalkedShape, desk: &Desk) -> String {
    let units = desk.units();
    let kept = format!(
        "Walked: {} of {} points kept, thinned to {}",
        walked.after.len(),
        walked.before.len(),
        length_text_precise(walked.thinning_m, units)
    );
    if walked.is_ring {
        format!(
            "{kept}; with points sure to {} its area is sure to {} (two walks in three).",
            length_text_precise(walked.point_error_m, units),
            area_text(walked.area_error_m2, units)
        )
    } else {
        format!("{kept}.")
    }
}

/// A name that is not taken: itself, or with the first free number behind it.
fn free_name(name: &str, is_taken: impl Fn(&str) -> bool) -> String {
    let numbered = (2..100_000).map(|number| format!("{name} {number}"));
    std::iter::once(name.to_owned())
        .chain(numbered)
        .find(|name| !is_taken(name))
        .unwrap_or_else(|| name.to_owned())
}

fn kind_for(desk: &Desk, shape: &Shape) -> Kind {
    match shape {
        Shape::Area(_) => desk.area_kind,
        Shape::Line(_) => desk.line_kind,
        Shape::Place(_) => desk.taping.place_kind,
    }
}

/// New pieces of ground in one step; they are selected afterwards.
fn commit(desk: &mut Desk, pieces: Vec<Ground>) {
    let first = desk.farm().next_id;
    let label = match pieces.as_slice() {
        [] => return,
        [only] => format!("Measure {}", only.name),
        several => format!("Bring in {} walked things", several.len()),
    };
    let ids: Vec<GroundId> = (first..).take(pieces.len()).map(GroundId).collect();
    let count = u64::try_from(pieces.len()).unwrap_or(u64::MAX);
    let name = pieces.first().map(|ground| ground.name.clone());
    let edits = ids
        .iter()
        .zip(pieces)
        .map(|(id, ground)| Edit::add_ground(*id, ground))
        .collect();
    desk.commit(&label, edits);
    desk.selected = ids
        .into_iter()
        .filter(|id| desk.farm().ground.contains_key(id))
        .collect();
    if desk.selected.is_empty() {
        return;
    }
    desk.tell(match (count, name) {
        (1, Some(name)) => format!("{name} is on the map."),
        _ => format!("{} are on the map.", plural_text(count, "thing", "things")),
    });
}

/// Opens a recorded walk on the page, where it is looked at before anything is done with it.
///
/// # Errors
/// Why it cannot be read, or that nothing is in it.
pub fn open_walk_file(desk: &mut Desk, text: &str, name: &str) -> Result<(), String> {
    let recorded = files::read_gpx(text, name).map_err(|error| error.to_string())?;
    if recorded.lines.is_empty() && recorded.marked.is_empty() {
        return Err(format!(
            "{name}: there is no track, route or place in this file; look whether it is the right one"
        ));
    }
    // What lies too far off is refused here, as other imports are, and nothing is opened.
    let frame = if desk.farm().ground.is_empty() {
        recorded.frame(name)
    } else {
        Ok(desk.farm().frame)
    };
    let frame = frame.map_err(|error| error.to_string())?;
    for line in &recorded.lines {
        line.points(frame, name)
            .map_err(|error| error.to_string())?;
    }
    open(desk, Way::Walked);
    let walked = &mut desk.taping.walked;
    walked.clear();
    walked.brings_marked = recorded.lines.is_empty();
    walked.line = (recorded.lines.len() == 1).then_some(0);
    walked.file = Some(WalkFile {
        name: name.to_owned(),
        recorded,
    });
    show(desk);
    Ok(())
}

/// Brings the walk into view beside what is drawn.
fn show(desk: &mut Desk) {
    let mut walked = std::mem::take(&mut desk.taping.walked);
    let corners: Option<Vec<Point>> = walked.work_out(desk).ok().map(|shapes| {
        shapes
            .iter()
            .flat_map(|shape| shape.before.iter().copied())
            .collect()
    });
    desk.taping.walked = walked;
    if let Some(corners) = corners.filter(|corners| !corners.is_empty()) {
        desk.is_fitted = false;
        desk.wants_fit = false;
        desk.view.fit(&corners);
    }
}

impl Taping {
    /// What to do on the map, in one sentence, where the page waits for it.
    pub fn hint(&self) -> Option<&'static str> {
        if !self.is_open {
            return None;
        }
        match (self.wants, self.way) {
            (Some(0), Way::WalkRound) => Some("Click where the walk began."),
            (Some(0), _) => Some("Click the first known corner."),
            (Some(_), _) => Some("Click the second known corner."),
            (None, _) => None,
        }
    }

    /// The known corners from which it is measured.
    pub fn known(&self) -> impl Iterator<Item = &KnownCorner> {
        self.ends.iter().take(self.way.known_corners()).flatten()
    }
}
