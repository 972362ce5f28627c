//! One piece of ground checked: its form, its corners, its figures, its days.

use super::fault::{Fault, figure, in_order, key, maybe, point};
use super::numbers::Numbers;
use super::{Checked, built};
use crate::farm::{Closed, Form, Grazing, Ground, GroundId, Kind, Reading, Shape};
use crate::files::saved_farm::place::Step;
use crate::files::saved_farm::v1::{
    SavedGrazing, SavedGround, SavedKind, SavedPart, SavedPoint, SavedShape,
};
use crate::geometry::{Outline, Point, Polygon, Ring};

/// The ground that a file holds.
pub(super) fn ground(saved: SavedGround, numbers: &Numbers) -> Checked<Ground> {
    let kind = kind(saved.kind);
    let shape = shape(saved.shape).map_err(|fault| fault.within(&[key("shape")]))?;
    if !kind.allows(shape.form()) {
        return Err(Fault::new(
            format!(
                "a {} cannot lie as {}",
                kind.name(),
                form_words(shape.form())
            ),
            format!(
                "write another kind or shape; a {} lies as {}",
                kind.name(),
                forms_of(kind)
            ),
        )
        .within(&[key("kind")]));
    }
    if let Some(ley) = saved.within {
        numbers
            .ground(ley)
            .map_err(|fault| fault.within(&[key("within")]))?;
    }
    Ok(Ground {
        name: saved.name,
        kind,
        shape,
        within: saved.within.map(GroundId),
        width_m: maybe("width_m", saved.width_m, 0.0, 10_000.0, "m")?,
        height_m: maybe("height_m", saved.height_m, 0.0, 1_000.0, "m")?,
        trees: part("trees", saved.trees, built::trees)?,
        frame: part("frame", saved.frame, |frame| built::frame(&frame))?,
        beds: part("beds", saved.beds, |beds| built::beds(&beds))?,
        posts: part("posts", saved.posts, |posts| built::posts(&posts))?,
        basin: part("basin", saved.basin, |basin| built::basin(&basin))?,
        crop: saved.crop,
        grazing: part("grazing", saved.grazing, grazing)?,
        note: saved.note,
        is_locked: saved.is_locked,
        shows_lengths: saved.shows_lengths,
        raised: saved.raised,
    })
}

/// A part that may be left out, its fault told with its name.
fn part<S, T>(
    name: &str,
    saved: Option<S>,
    check: impl FnOnce(S) -> Checked<T>,
) -> Checked<Option<T>> {
    saved
        .map(check)
        .transpose()
        .map_err(|fault| fault.within(&[key(name)]))
}

fn shape(saved: SavedShape) -> Checked<Shape> {
    // The brackets behind the form's word hold one thing.
    let inside = |fault: Fault| fault.within(&[Step::Item(0)]);
    match saved {
        SavedShape::Area(parts) => outline(parts).map(Shape::Area).map_err(inside),
        SavedShape::Line(corners) => corners_of(&corners, 2, "a line")
            .map(Shape::Line)
            .map_err(inside),
        SavedShape::Place(east_m, north_m) => point((east_m, north_m)).map(Shape::Place),
    }
}

fn outline(parts: Vec<SavedPart>) -> Checked<Outline> {
    if parts.is_empty() {
        return Err(Fault::new(
            "this area has no outline",
            "write one, or take the ground out",
        ));
    }
    let parts = parts
        .into_iter()
        .enumerate()
        .map(|(place, part)| polygon(&part).map_err(|fault| fault.within(&[Step::Item(place)])));
    Ok(Outline {
        parts: parts.collect::<Checked<_>>()?,
    })
}

fn polygon(saved: &SavedPart) -> Checked<Polygon> {
    let outer = ring(&saved.outer).map_err(|fault| fault.within(&[key("outer")]))?;
    let holes = saved.holes.iter().enumerate().map(|(place, hole)| {
        ring(hole).map_err(|fault| fault.within(&[key("holes"), Step::Item(place)]))
    });
    Ok(Polygon {
        outer,
        holes: holes.collect::<Checked<_>>()?,
    })
}

/// A ring; a first corner that is repeated at the end is forgiven.
fn ring(saved: &[SavedPoint]) -> Checked<Ring> {
    let ring = Ring::new(corners_of(saved, 3, "a ring")?);
    if ring.corners.len() < 3 {
        return Err(too_few(ring.corners.len(), 3, "a ring"));
    }
    Ok(ring)
}

fn corners_of(saved: &[SavedPoint], least: usize, what: &str) -> Checked<Vec<Point>> {
    if saved.len() < least {
        return Err(too_few(saved.len(), least, what));
    }
    let corners = saved
        .iter()
        .enumerate()
        .map(|(place, corner)| point(*corner).map_err(|fault| fault.within(&[Step::Item(place)])));
    corners.collect()
}

fn too_few(count: usize, least: usize, what: &str) -> Fault {
    let corners = if count == 1 { "corner" } else { "corners" };
    Fault::new(
        format!("{what} of {count} {corners} is none"),
        format!("write {least} corners at least, or take the ground out"),
    )
}

fn grazing(saved: SavedGrazing) -> Checked<Grazing> {
    let mass = |field: &str, value: Option<f64>| maybe(field, value, -1e6, 1e6, "kg DM/ha");
    let mut readings = Vec::with_capacity(saved.readings.len());
    for (place, (day, cover_kg_per_ha)) in saved.readings.into_iter().enumerate() {
        figure(cover_kg_per_ha)
            .map_err(|fault| fault.within(&[key("readings"), Step::Item(place), Step::Item(1)]))?;
        readings.push(Reading {
            day: day.0,
            cover_kg_per_ha,
        });
    }
    let mut closed = Vec::with_capacity(saved.closed.len());
    for (place, (from, to, why)) in saved.closed.into_iter().enumerate() {
        in_order(from, to).map_err(|fault| fault.within(&[key("closed"), Step::Item(place)]))?;
        closed.push(Closed {
            from: from.0,
            to: to.0,
            why,
        });
    }
    Ok(Grazing {
        growth_factor: figure(saved.growth_factor)
            .map_err(|fault| fault.within(&[key("growth_factor")]))?,
        leave_kg_per_ha: mass("leave_kg_per_ha", saved.leave_kg_per_ha)?,
        enter_kg_per_ha: mass("enter_kg_per_ha", saved.enter_kg_per_ha)?,
        ceiling_kg_per_ha: mass("ceiling_kg_per_ha", saved.ceiling_kg_per_ha)?,
        end_cover_kg_per_ha: mass("end_cover_kg_per_ha", saved.end_cover_kg_per_ha)?,
        readings,
        last_grazed: saved.last_grazed.map(|day| day.0),
        closed,
    })
}

fn form_words(form: Form) -> &'static str {
    match form {
        Form::Area => "an area",
        Form::Line => "a line",
        Form::Place => "a single place",
    }
}

fn forms_of(kind: Kind) -> String {
    let forms = [Form::Area, Form::Line, Form::Place];
    let allowed = forms.into_iter().filter(|form| kind.allows(*form));
    allowed.map(form_words).collect::<Vec<_>>().join(" or ")
}

fn kind(saved: SavedKind) -> Kind {
    match saved {
        SavedKind::Plot => Kind::Plot,
        SavedKind::Ley => Kind::Ley,
        SavedKind::Strip => Kind::Strip,
        SavedKind::Tunnel => Kind::Tunnel,
        SavedKind::TreeLine => Kind::TreeLine,
        SavedKind::Hedge => Kind::Hedge,
        SavedKind::Fence => Kind::Fence,
        SavedKind::Gate => Kind::Gate,
        SavedKind::Track => Kind::Track,
        SavedKind::Water => Kind::Water,
        SavedKind::Trough => Kind::Trough,
        SavedKind::Building => Kind::Building,
        SavedKind::Wood => Kind::Wood,
        SavedKind::KeepOut => Kind::KeepOut,
        SavedKind::Note => Kind::Note,
    }
}
