//! The inks of the map and of the window, by day and by night.
//!
//! The only place with colour values; everything else names an [`Ink`]. Red, green and blue from 0 to 255.

/// A named colour; what it means, not what it looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ink {
    /// The map's margin.
    Paper,
    /// Columns beside the map.
    Panel,
    /// A field to type in, a button.
    Field,
    /// Text and outlines.
    Ink,
    /// The second voice.
    Soft,
    /// Lines between columns.
    Rule,
    /// The finest lines, the grid.
    Hair,
    /// Selected, to be pressed, where they go next.
    Act,
    /// Text on `Act`.
    OnAct,
    /// Behind what is selected in a list.
    ActTint,
    /// Ground of a finding.
    WarnGround,
    /// Edge of a finding.
    WarnEdge,
    /// Plot.
    Crop,
    /// Beds between their paths.
    Bed,
    /// Furrows.
    Furrow,
    /// Ley and strips, short.
    LeyShort,
    /// Ley and strips.
    Ley,
    /// Ley and strips, tall.
    LeyTall,
    /// Blades.
    Blade,
    /// Tunnel sheet.
    Tunnel,
    /// Hoops.
    Hoop,
    /// Crowns.
    Tree,
    /// Edge of a crown.
    TreeRing,
    /// Hedge and wood.
    Hedge,
    /// Edge of a hedge.
    HedgeEdge,
    /// Water.
    Water,
    /// Ripples.
    Ripple,
    /// Track.
    Track,
    /// Roof.
    Building,
    /// Lines of a roof.
    Roof,
    /// Spell in the ribbon.
    Spell,
    /// Planned spell in the ribbon.
    SpellPlanned,
    /// Rest in the ribbon.
    Rest,
    /// Row of the ribbon.
    RowGround,
    /// Hens.
    Hen,
    /// Places hens have left.
    HenTrail,
    /// Fleece.
    Fleece,
    /// Grass by its height: a step of one hue, from 0 (grazed down) to [`Ink::COVER_STEPS`] (at its ceiling).
    Cover(u8),
    /// A family of crops by its place in the list of families; the last one from [`Ink::FAMILIES`] on.
    Family(u8),
}

/// Whether the colours are for day or night.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Light {
    /// Dark ink on light paper.
    Day,
    /// Light ink on dark paper.
    Night,
}

impl Ink {
    /// Every ink, in order.
    pub const ALL: [Self; 37] = [
        Self::Paper,
        Self::Panel,
        Self::Field,
        Self::Ink,
        Self::Soft,
        Self::Rule,
        Self::Hair,
        Self::Act,
        Self::OnAct,
        Self::ActTint,
        Self::WarnGround,
        Self::WarnEdge,
        Self::Crop,
        Self::Bed,
        Self::Furrow,
        Self::LeyShort,
        Self::Ley,
        Self::LeyTall,
        Self::Blade,
        Self::Tunnel,
        Self::Hoop,
        Self::Tree,
        Self::TreeRing,
        Self::Hedge,
        Self::HedgeEdge,
        Self::Water,
        Self::Ripple,
        Self::Track,
        Self::Building,
        Self::Roof,
        Self::Spell,
        Self::SpellPlanned,
        Self::Rest,
        Self::RowGround,
        Self::Hen,
        Self::HenTrail,
        Self::Fleece,
    ];

    /// Steps of [`Ink::Cover`] above the lowest.
    pub const COVER_STEPS: u8 = 8;

    /// How many families have a tint.
    pub const FAMILIES: u8 = 10;

    /// Red, green and blue in a light.
    pub fn rgb(self, light: Light) -> [u8; 3] {
        if let Self::Cover(step) = self {
            return cover_rgb(step, light);
        }
        let (day, night) = match self {
            Self::Family(family) => family_day_and_night(family),
            other => other.day_and_night(),
        };
        let packed = match light {
            Light::Day => day,
            Light::Night => night,
        };
        let [_, red, green, blue] = u32::to_be_bytes(packed);
        [red, green, blue]
    }

    const fn day_and_night(self) -> (u32, u32) {
        match self {
            Self::Paper => (0xF4_EDDC, 0x1D_201D),
            Self::Panel => (0xFB_F8F0, 0x23_2622),
            Self::Field => (0xF5_F0E2, 0x2C_302B),
            Self::Ink => (0x2A_2A25, 0xEC_E7DA),
            Self::Soft => (0x5F_5B50, 0xB3_AD9D),
            Self::Rule => (0xB9_AE93, 0x4A_4E46),
            Self::Hair => (0xD8_CFBA, 0x36_3A34),
            Self::Act => (0x8A_3B22, 0xE5_9A6F),
            Self::OnAct => (0xFF_F8EE, 0x2A_1A10),
            Self::ActTint => (0xEF_E3CD, 0x3B_342A),
            Self::WarnGround => (0xF6_E7D2, 0x3D_3222),
            Self::WarnEdge => (0xD9_A766, 0xA9_7B3C),
            Self::Crop => (0xEB_DCAF, 0x55_492A),
            Self::Bed => (0xDD_C68B, 0x66_5831),
            Self::Furrow => (0xA9_8843, 0xB6_975A),
            Self::LeyShort => (0xE4_E4BB, 0x43_4A2B),
            // Steps of cover are worked out in `cover_rgb`, families in `family_day_and_night`.
            Self::Ley | Self::Cover(_) | Self::Family(_) => (0xD5_E2B8, 0x3A_4A2E),
            Self::LeyTall => (0xAF_CF8A, 0x2F_4F2C),
            Self::Blade => (0x6C_8A42, 0x8F_A868),
            Self::Tunnel => (0xDC_E7EA, 0x2F_3A40),
            Self::Hoop => (0x5F_8192, 0x8F_B0BE),
            Self::Tree => (0x86_A873, 0x5C_7A4C),
            Self::TreeRing => (0x4E_6B40, 0x9B_BB84),
            Self::Hedge => (0x6B_8F5B, 0x47_633C),
            Self::HedgeEdge => (0x41_5E36, 0x86_A873),
            Self::Water => (0xBF_D8E2, 0x24_3F4D),
            Self::Ripple => (0x4C_7F9B, 0x7F_B0C8),
            Self::Track => (0xE6_DAC2, 0x3A_362D),
            Self::Building => (0xCD_B4A4, 0x4E_4038),
            Self::Roof => (0x80_6254, 0xB3_9384),
            Self::Spell => (0x3F_6B3A, 0x8F_BF7F),
            Self::SpellPlanned => (0x84_A37C, 0x6A_8D5E),
            Self::Rest => (0xBF_D29A, 0x4A_5E38),
            Self::RowGround => (0xF0_EBDB, 0x2C_302B),
            Self::Hen => (0xB5_562B, 0xE0_8A5A),
            Self::HenTrail => (0xDE_A98B, 0x7A_4E36),
            Self::Fleece => (0xFF_FFFF, 0xF4_F1E8),
        }
    }
}

/// Tints of the families, in the order in which lists show them; words stand on each.
const fn family_day_and_night(family: u8) -> (u32, u32) {
    match family {
        0 => (0xC4_DACE, 0x2C_4A42),
        1 => (0xF3_CDA2, 0x5A_3D20),
        2 => (0xE2_D2E8, 0x48_3950),
        3 => (0xDF_EBAC, 0x40_4E22),
        4 => (0xEA_C2CA, 0x56_303B),
        5 => (0xEE_C0AB, 0x57_3326),
        6 => (0xF6_E49C, 0x54_4A1C),
        7 => (0xC2_DAE8, 0x29_4251),
        8 => (0xE8_DCB8, 0x4A_432F),
        _ => (0xDB_D8CE, 0x3C_3C37),
    }
}

/// Between the short and the tall sward, by way of the usual one.
fn cover_rgb(step: u8, light: Light) -> [u8; 3] {
    let half = Ink::COVER_STEPS / 2;
    let step = step.min(Ink::COVER_STEPS);
    let (low, high, along) = if step <= half {
        (Ink::LeyShort, Ink::Ley, step)
    } else {
        (Ink::Ley, Ink::LeyTall, step - half)
    };
    let (low, high) = (low.rgb(light), high.rgb(light));
    let mut mixed = [0; 3];
    for ((mix, low), high) in mixed.iter_mut().zip(low).zip(high) {
        let sum = u16::from(low) * u16::from(half - along) + u16::from(high) * u16::from(along);
        *mix = u8::try_from(sum / u16::from(half)).unwrap_or(u8::MAX);
    }
    mixed
}

/// How strongly two colours differ: the contrast ratio, 1 to 21
/// (Web Content Accessibility Guidelines 2.2, W3C, 2023, definition of contrast ratio and relative luminance).
pub fn contrast_ratio(one: [u8; 3], other: [u8; 3]) -> f64 {
    let (a, b) = (relative_luminance(one), relative_luminance(other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

fn relative_luminance(rgb: [u8; 3]) -> f64 {
    let linear = rgb.map(|channel| {
        let share = f64::from(channel) / 255.0;
        if share <= 0.04045 {
            share / 12.92
        } else {
            ((share + 0.055) / 1.055).powf(2.4)
        }
    });
    let [red, green, blue] = linear;
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_reads_on_every_ground_it_stands_on() {
        let pairs = [
            (Ink::Ink, Ink::Paper),
            (Ink::Ink, Ink::Panel),
            (Ink::Ink, Ink::Field),
            (Ink::Soft, Ink::Panel),
            (Ink::Soft, Ink::Field),
            (Ink::Act, Ink::Panel),
            (Ink::Act, Ink::ActTint),
            (Ink::OnAct, Ink::Act),
            (Ink::Act, Ink::WarnGround),
            (Ink::Ink, Ink::WarnGround),
            (Ink::Ink, Ink::ActTint),
            (Ink::Ink, Ink::Crop),
            (Ink::Ink, Ink::Bed),
            (Ink::Ink, Ink::LeyTall),
            (Ink::Ink, Ink::LeyShort),
            (Ink::Ink, Ink::Tunnel),
            (Ink::Ink, Ink::Water),
            (Ink::Ink, Ink::Building),
        ];
        let families = (0..Ink::FAMILIES).map(|family| (Ink::Ink, Ink::Family(family)));
        for light in [Light::Day, Light::Night] {
            for (text, ground) in pairs.into_iter().chain(families.clone()) {
                let ratio = contrast_ratio(text.rgb(light), ground.rgb(light));
                assert!(
                    ratio >= 4.5,
                    "{text:?} on {ground:?} by {light:?}: {ratio:.2}"
                );
            }
        }
    }

    #[test]
    fn black_on_white_is_twenty_one() {
        assert!((contrast_ratio([0; 3], [255; 3]) - 21.0).abs() < 1e-9);
    }
}
