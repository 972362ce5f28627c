//! What is built in unusual sizes, or cannot be reckoned: good to know, never an error. Metres.
//!
//! Usual sizes of round-hooped tunnels, 14 to 34 ft wide and 28 to 150 ft long, and 6 ft high at least: practice 798,
//! high tunnel system, Natural Resources Conservation Service, Idaho 2010.

use super::{about_ground, called};
use crate::farm::{
    BedGap, Farm, Finding, FindingCode, Ground, GroundId, Severity, TunnelGap, basin_sums,
    lay_out_beds, tunnel_floor, tunnel_sums,
};
use crate::quantity::M_PER_FOOT;

/// Least and most of a tunnel's width and length, and its least height, metres.
const WIDTH_M: (f64, f64) = (14.0 * M_PER_FOOT, 34.0 * M_PER_FOOT);
const LENGTH_M: (f64, f64) = (28.0 * M_PER_FOOT, 150.0 * M_PER_FOOT);
const LEAST_HEIGHT_M: f64 = 6.0 * M_PER_FOOT;

pub(super) fn look(farm: &Farm, found: &mut Vec<Finding>) {
    for (id, ground) in &farm.ground {
        let piece = (*id, ground);
        // An outline alone may be anything yet; sizes are judged once it is said how it is built.
        if ground.kind.has_frame() && ground.frame.is_some() {
            tunnel(piece, found);
        }
        if ground.kind.has_beds()
            && let (Some(outline), Some(beds)) = (ground.outline(), ground.beds)
            && let Err(gap) = lay_out_beds(outline, beds)
        {
            let remedy = match gap {
                BedGap::NoRoom => "Give narrower beds, or another bearing.",
                BedGap::TooMany => "Give wider beds.",
            };
            note(piece, FindingCode::BedsUnfit, gap.sentence(), remedy, found);
        }
        if ground.has_basin()
            && let Some(sums) = basin_sums(farm, ground).filter(|sums| sums.is_closed)
        {
            let what = format!(
                "Its sides meet {:.2} m down, before the depth that is said; the water is reckoned to there.",
                sums.depth_m
            );
            let remedy = "Give steeper sides, less depth, or a wider pond.";
            note(piece, FindingCode::BasinCloses, &what, remedy, found);
        }
    }
}

fn tunnel(piece: (GroundId, &Ground), found: &mut Vec<Finding>) {
    let Some(floor) = piece.1.outline().and_then(tunnel_floor) else {
        return;
    };
    let sizes = [
        ("wide", floor.width_m, WIDTH_M),
        ("long", floor.length_m, LENGTH_M),
    ];
    for (way, size_m, (least_m, most_m)) in sizes {
        // A decimetre is forgiven: the figures were feet.
        if size_m < least_m - 0.1 || size_m > most_m + 0.1 {
            let what = format!(
                "It is {size_m:.1} m {way}; most stand {least_m:.1} to {most_m:.1} m {way}."
            );
            let remedy = "Nothing need be done where it is meant so.";
            note(piece, FindingCode::TunnelUnusual, &what, remedy, found);
        }
    }
    if piece
        .1
        .height_m
        .is_some_and(|height_m| height_m < LEAST_HEIGHT_M)
    {
        let what =
            format!("Its ridge is lower than {LEAST_HEIGHT_M:.2} m: nobody stands upright in it.");
        let remedy = "Nothing need be done where it is meant so.";
        note(piece, FindingCode::TunnelUnusual, &what, remedy, found);
    }
    match tunnel_sums(piece.1) {
        Some(Ok(sums)) if sums.bow.bulges() => note(
            piece,
            FindingCode::TunnelUnusual,
            "Its bow is higher than half its width, so it would bulge out over its feet.",
            "Check the ridge height, or give it a straight side.",
            found,
        ),
        // A height that is not said yet is asked for beside its field.
        Some(Err(gap @ TunnelGap::NoBow)) => note(
            piece,
            FindingCode::TunnelUnusual,
            "Its hoops and cover cannot be reckoned yet.",
            gap.sentence(),
            found,
        ),
        _ => {}
    }
}

fn note(
    piece: (GroundId, &Ground),
    code: FindingCode,
    what: &str,
    remedy: &str,
    found: &mut Vec<Finding>,
) {
    let what = format!("{}: {}", called(piece.1), lower_first(what));
    found.push(about_ground(piece, Severity::Note, code, what, remedy));
}

/// The sentence as it goes on behind a colon.
fn lower_first(sentence: &str) -> String {
    let mut letters = sentence.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}
