//! Places on what is drawn: corners, middles, crossings, places along a side; and the grid.

use super::super::Point;
use super::super::sides::{Meeting, meeting};
use super::{Candidate, Snap, SnapKind, SnapRequest, SnapSide};

/// The places on these sides that may be meant.
pub(super) fn on_sides(sides: &[SnapSide], request: &SnapRequest) -> Vec<Candidate> {
    let mut found = Vec::new();
    for side in sides {
        let ends = [(side.corner, side.from), (side.corner + 1, side.to)];
        for (corner, place) in ends {
            found.push(on_side(side, SnapKind::Corner, corner, place, request));
        }
        if side.from.distance_m(side.to) > 0.0 {
            let middle = side.from.between(side.to, 0.5);
            found.push(on_side(
                side,
                SnapKind::Middle,
                side.corner,
                middle,
                request,
            ));
            let along = request.pointer.nearest_on_side(side.from, side.to);
            found.push(on_side(
                side,
                SnapKind::AlongSide,
                side.corner,
                along,
                request,
            ));
        }
    }
    for (index, one) in sides.iter().enumerate() {
        for two in sides.iter().skip(index + 1) {
            found.extend(crossing(one, two, request));
        }
    }
    found
}

fn on_side(
    side: &SnapSide,
    kind: SnapKind,
    corner: usize,
    place: Point,
    request: &SnapRequest,
) -> Candidate {
    let guides = match kind {
        SnapKind::Corner => Vec::new(),
        _ => vec![(side.from, side.to)],
    };
    Candidate {
        off_m: request.pointer.distance_m(place),
        doubly: false,
        tie: side.order,
        snap: Snap {
            place,
            kind,
            target: Some((side.owner, corner)),
            guides,
        },
    }
}

fn crossing(one: &SnapSide, two: &SnapSide, request: &SnapRequest) -> Option<Candidate> {
    if one.from == one.to || two.from == two.to {
        return None;
    }
    let Meeting::Cross(place) = meeting(one.from, one.to, two.from, two.to) else {
        return None;
    };
    let mut found = on_side(one, SnapKind::Crossing, one.corner, place, request);
    found.snap.guides.push((two.from, two.to));
    Some(found)
}

/// The nearest point of the grid.
pub(super) fn on_grid(request: &SnapRequest) -> Option<Candidate> {
    let spacing_m = request.grid_m;
    if !(spacing_m > 0.0 && spacing_m.is_finite()) {
        return None;
    }
    let nearest = |figure_m: f64| (figure_m / spacing_m).round() * spacing_m;
    let place = Point::new(
        nearest(request.pointer.east_m),
        nearest(request.pointer.north_m),
    );
    Some(Candidate {
        off_m: request.pointer.distance_m(place),
        doubly: false,
        tie: super::LAST,
        snap: Snap {
            place,
            kind: SnapKind::Grid,
            target: None,
            guides: Vec::new(),
        },
    })
}
