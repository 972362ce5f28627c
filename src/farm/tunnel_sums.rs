//! What a tunnel is made of, from its outline, height and frame: hoops, cover, end walls, air.
//!
//! The hoop is a part of a circle on upright sides. Figures are those of the plane, metres: a tunnel is far too short
//! for the earth to be round under it.

use super::{Ground, TunnelEnds, TunnelFrame};
use crate::geometry::chord::reach_along_and_across;
use crate::geometry::cut::bearing_across_longest_side;
use crate::geometry::{Bow, FourSided, Outline};

/// Farther than this from square, a tunnel's corner is drawn askew on purpose, degrees.
const OUT_OF_SQUARE_DEG: f64 = 5.0;

/// The floor a tunnel stands on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TunnelFloor {
    /// Along it, metres.
    pub length_m: f64,
    /// Across it, metres.
    pub width_m: f64,
    /// The way it runs, degrees, 0 to 180.
    pub bearing_deg: f64,
    /// Its four corners, where they are as good as square.
    pub rectangle: Option<FourSided>,
}

/// Hoops, cover and air of a tunnel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TunnelSums {
    /// The floor.
    pub floor: TunnelFloor,
    /// The bow above the upright sides.
    pub bow: Bow,
    /// Length of a whole hoop above ground, upright sides included, metres.
    pub hoop_m: f64,
    /// Hoops, one at each end.
    pub hoops: u32,
    /// Metres between two hoops: as asked for or a little less, so that they divide the length.
    pub hoop_gap_m: f64,
    /// Width of the sheet over the hoops, skirts included, metres.
    pub sheet_m: f64,
    /// Area of one end wall above ground, square metres.
    pub end_wall_m2: f64,
    /// All the cover, square metres: sheet by length, and both ends with a skirt where the cover closes them.
    pub cover_m2: f64,
    /// Length of a single sheet that is pulled down over both ends too, metres, where the cover closes them.
    pub one_sheet_length_m: Option<f64>,
    /// Air under it, cubic metres.
    pub air_m3: f64,
}

/// Why the sums of a tunnel cannot be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TunnelGap {
    /// No ridge height is said.
    NoHeight,
    /// The upright sides reach the ridge.
    NoBow,
}

impl TunnelGap {
    /// What is missing, in a sentence.
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::NoHeight => "Say how high the ridge is: hoops and cover follow from it.",
            Self::NoBow => {
                "The straight sides reach the ridge, so no bow is left: raise the ridge or lower them."
            }
        }
    }
}

/// The floor of a tunnel: mean length and width of four corners, else the box round it along its longest side.
pub fn tunnel_floor(outline: &Outline) -> Option<TunnelFloor> {
    if let Some(four) = FourSided::of(outline) {
        let is_square = four.out_of_square_deg() <= OUT_OF_SQUARE_DEG;
        return Some(TunnelFloor {
            length_m: four.length_m(),
            width_m: four.width_m(),
            bearing_deg: four.bearing_deg(),
            rectangle: is_square.then_some(four),
        });
    }
    let bearing_deg = (bearing_across_longest_side(outline)? - 90.0).rem_euclid(180.0);
    let (along, across) = reach_along_and_across(outline, bearing_deg)?;
    Some(TunnelFloor {
        length_m: along.1 - along.0,
        width_m: across.1 - across.0,
        bearing_deg,
        rectangle: None,
    })
}

/// The sums of a tunnel whose frame is said; none for other ground.
pub fn tunnel_sums(ground: &Ground) -> Option<Result<TunnelSums, TunnelGap>> {
    let frame = ground.frame?;
    let floor = tunnel_floor(ground.outline()?)?;
    let Some(height_m) = ground.height_m else {
        return Some(Err(TunnelGap::NoHeight));
    };
    let bow = Bow::new(floor.width_m, height_m - frame.straight_side_m);
    Some(
        bow.map(|bow| sums(floor, bow, frame, height_m))
            .ok_or(TunnelGap::NoBow),
    )
}

fn sums(floor: TunnelFloor, bow: Bow, frame: TunnelFrame, height_m: f64) -> TunnelSums {
    let hoop_m = bow.arc_m() + 2.0 * frame.straight_side_m;
    let gaps = gaps_along(floor.length_m, frame.hoop_spacing_m);
    let sheet_m = hoop_m + 2.0 * frame.skirt_m;
    let end_wall_m2 = bow.area_m2() + floor.width_m * frame.straight_side_m;
    let is_covered = frame.ends == TunnelEnds::Covered;
    let ends_m2 = if is_covered {
        2.0 * (end_wall_m2 + floor.width_m * frame.skirt_m)
    } else {
        0.0
    };
    TunnelSums {
        floor,
        bow,
        hoop_m,
        hoops: gaps + 1,
        hoop_gap_m: floor.length_m / f64::from(gaps),
        sheet_m,
        end_wall_m2,
        cover_m2: sheet_m * floor.length_m + ends_m2,
        one_sheet_length_m: is_covered.then_some(floor.length_m + 2.0 * (height_m + frame.skirt_m)),
        air_m3: end_wall_m2 * floor.length_m,
    }
}

/// Equal gaps of at most `most_m` along a length, 1 at least; a millimetre is forgiven.
pub fn gaps_along(length_m: f64, most_m: f64) -> u32 {
    let gaps = ((length_m - 0.001) / most_m).ceil().clamp(1.0, 100_000.0);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held between 1 and 100 000; what is no number becomes 0 and is raised to 1"
    )]
    let whole = gaps as u32;
    whole.max(1)
}
