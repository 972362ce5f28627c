//! A piece of ground cut into strips, as edits.
//!
//! The cut itself is geometry's; here it gets names, kinds and its place in the ley, and the settled days that lie on
//! what goes away are put right.

use super::strip_names::strip_name;
use super::{Edit, Farm, FixedPlace, Ground, GroundId, Kind, MobId, Shape, with_shared_corners};
use crate::geometry::cut::StripPiece;
use crate::geometry::overlay::in_both;
use crate::quantity::{Day, plural_text};

/// What a cut does away with.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Replaced {
    /// Names of the strips that are there now and go.
    pub strips: Vec<String>,
    /// Days decided but not lived on ground that is cut: they are let go.
    pub decided_days: usize,
    /// Days lived on strips that go: they move to the new strip that holds most of the ground.
    pub moved_days: usize,
    /// Days lived on the ley while it was one piece: they stay written down there.
    pub kept_days: usize,
}

/// What undo calls the cut, and the edits that make it: strips of a ley lie within it, a plot that is cut becomes a
/// ley, a strip that is cut again gives way to smaller ones. Strips that were there before are replaced.
pub fn cut_edits(
    farm: &Farm,
    id: GroundId,
    ground: &Ground,
    strips: &[StripPiece],
    stem: &str,
) -> (String, Vec<Edit>) {
    let mut edits: Vec<Edit> = farm
        .strips_of(id)
        .map(|(old, strip)| Edit::remove_ground(old, strip))
        .collect();
    // A strip that is cut again gives way to smaller strips of the same ley.
    let is_strip = ground.kind == Kind::Strip;
    let ley = if is_strip { ground.within } else { Some(id) };
    if is_strip {
        edits.push(Edit::remove_ground(id, ground));
    } else if ground.kind != Kind::Ley {
        edits.push(Edit::change_ground(
            id,
            ground,
            Ground {
                kind: Kind::Ley,
                ..ground.clone()
            },
        ));
    }
    for (next, (place, piece)) in (farm.next_id..).zip(strips.iter().enumerate()) {
        let name = strip_name(stem, place + 1);
        let mut strip = Ground::new(name, Kind::Strip, Shape::Area(piece.outline.clone()));
        strip.within = ley;
        strip.grazing.clone_from(&ground.grazing);
        edits.push(Edit::add_ground(GroundId(next), strip));
    }
    edits.extend(settled_edits(farm, id, ground, strips));
    let count = u64::try_from(strips.len()).unwrap_or(u64::MAX);
    let count = plural_text(count, "strip", "strips");
    (
        format!("Cut {} into {count}", ground.name),
        // The ends of the cuts lie on the ley's boundary: ley and neighbours get them too.
        with_shared_corners(farm, edits),
    )
}

/// What cutting this ground does away with, to be told before it is done.
pub fn replaced_by_cut(farm: &Farm, id: GroundId, ground: &Ground) -> Replaced {
    let mut replaced = Replaced {
        strips: farm
            .strips_of(id)
            .map(|(_, strip)| strip.name.clone())
            .collect(),
        ..Replaced::default()
    };
    for (_, place, fixed) in settled_on(farm, id) {
        let goes = place != id || ground.kind == Kind::Strip;
        match (fixed.lived, goes) {
            (false, _) => replaced.decided_days += 1,
            (true, true) => replaced.moved_days += 1,
            (true, false) => replaced.kept_days += 1,
        }
    }
    replaced
}

/// Every settled day on a ley or on one of its strips, with the piece it lies on.
fn settled_on(
    farm: &Farm,
    id: GroundId,
) -> impl Iterator<Item = ((MobId, Day), GroundId, FixedPlace)> + '_ {
    farm.fixed.iter().filter_map(move |(key, fixed)| {
        let place = fixed.place?;
        let within = farm.ground.get(&place).and_then(|ground| ground.within);
        (place == id || within == Some(id)).then_some((*key, place, *fixed))
    })
}

/// Decided days are let go, lived ones move with the ground.
fn settled_edits(farm: &Farm, id: GroundId, ground: &Ground, strips: &[StripPiece]) -> Vec<Edit> {
    let mut edits = Vec::new();
    let mut most_of: std::collections::BTreeMap<GroundId, Option<GroundId>> =
        std::collections::BTreeMap::new();
    for (key, place, old) in settled_on(farm, id) {
        let goes = place != id || ground.kind == Kind::Strip;
        if old.lived && !goes {
            continue;
        }
        let new = if old.lived {
            let holder = *most_of
                .entry(place)
                .or_insert_with(|| holder_of(farm, place, strips));
            holder.map(|holder| FixedPlace {
                place: Some(holder),
                lived: true,
            })
        } else {
            None
        };
        edits.push(Edit::Fixed {
            key,
            old: Some(old),
            new,
        });
    }
    edits
}

/// The number that the strip with most of a piece's ground will have; of equals the first.
fn holder_of(farm: &Farm, place: GroundId, strips: &[StripPiece]) -> Option<GroundId> {
    let old = farm.ground.get(&place)?.outline()?;
    let mut most: Option<(f64, GroundId)> = None;
    for (next, strip) in (farm.next_id..).zip(strips) {
        let shared_m2 = in_both(old, &strip.outline).area_m2();
        // A strip that shares only what rounding makes of a common side is not preferred.
        let least_m2 = most.map_or(0.0, |(most_m2, _)| most_m2 * (1.0 + 1e-6));
        if shared_m2 > least_m2 {
            most = Some((shared_m2, GroundId(next)));
        }
    }
    most.map(|(_, id)| id)
}

impl Replaced {
    /// What is done away with, in sentences; none where nothing is.
    pub fn told(&self) -> Vec<String> {
        let days = |count: usize| plural_text(u64::try_from(count).unwrap_or(0), "day", "days");
        let mut told = Vec::new();
        if let (Some(first), Some(last)) = (self.strips.first(), self.strips.last()) {
            told.push(match self.strips.len() {
                1 => format!("The strip that is there now, {first}, is replaced."),
                count => {
                    format!(
                        "The {count} strips that are there now, {first} to {last}, are replaced."
                    )
                }
            });
        }
        if self.decided_days > 0 {
            told.push(format!(
                "{} decided on this ground {} let go: decide anew on the new strips.",
                days(self.decided_days),
                if self.decided_days == 1 { "is" } else { "are" },
            ));
        }
        if self.moved_days > 0 {
            told.push(format!(
                "{} lived on the old strips {} put down to the new strip that holds most of the ground.",
                days(self.moved_days),
                if self.moved_days == 1 { "is" } else { "are" },
            ));
        }
        if self.kept_days > 0 {
            told.push(format!(
                "{} lived while it was one piece {} written down there, and count for no strip.",
                days(self.kept_days),
                if self.kept_days == 1 { "stays" } else { "stay" },
            ));
        }
        told
    }
}
