//! The palette for the three colour-vision deficiencies and on grey paper: words stay readable, patterns stay seen.
//!
//! Simulation: Machado, Oliveira and Fernandes, A Physiologically-based Model for Simulation of Color Vision
//! Deficiency, IEEE Transactions on Visualization and Computer Graphics 15(6), 2009, matrices for severity 1.0
//! (values from memory; that white and greys stay as they are is tested). Contrast: Web Content Accessibility
//! Guidelines 2.2, W3C, 2023, success criteria 1.4.3 and 1.4.11.

use foldcourse::sheets::palette::{Ink, Light, contrast_ratio};

type Eyes = [[f64; 3]; 3];

const PROTAN: Eyes = [
    [0.152_286, 1.052_583, -0.204_868],
    [0.114_503, 0.786_281, 0.099_216],
    [-0.003_882, -0.048_116, 1.051_998],
];
const DEUTAN: Eyes = [
    [0.367_322, 0.860_646, -0.227_968],
    [0.280_085, 0.672_501, 0.047_413],
    [-0.011_820, 0.042_940, 0.968_881],
];
const TRITAN: Eyes = [
    [1.255_528, -0.076_749, -0.178_779],
    [-0.078_411, 0.930_809, 0.147_602],
    [0.004_733, 0.691_367, 0.303_900],
];
/// Grey paper keeps the luminance alone (ITU-R BT.709-6, 2015, item 3.2).
const GREY: Eyes = [[0.2126, 0.7152, 0.0722]; 3];

const ALL_EYES: [(&str, Eyes); 4] = [
    ("protan", PROTAN),
    ("deutan", DEUTAN),
    ("tritan", TRITAN),
    ("grey paper", GREY),
];

fn seen_by(eyes: Eyes, rgb: [u8; 3]) -> [u8; 3] {
    let linear = rgb.map(|channel| {
        let share = f64::from(channel) / 255.0;
        if share <= 0.04045 {
            share / 12.92
        } else {
            ((share + 0.055) / 1.055).powf(2.4)
        }
    });
    eyes.map(|row| {
        let sum: f64 = row
            .iter()
            .zip(linear)
            .map(|(weight, light)| weight * light)
            .sum();
        let light = sum.clamp(0.0, 1.0);
        let share = if light <= 0.003_130_8 {
            light * 12.92
        } else {
            1.055 * light.powf(1.0 / 2.4) - 0.055
        };
        (share * 255.0).round() as u8
    })
}

#[test]
fn greys_stay_as_they_are_to_all_eyes() {
    for (name, eyes) in ALL_EYES {
        for grey in [0, 64, 128, 255] {
            for channel in seen_by(eyes, [grey; 3]) {
                assert!(
                    channel.abs_diff(grey) <= 1,
                    "{name}: {grey} became {channel}"
                );
            }
        }
    }
}

#[test]
fn words_on_the_map_read_at_four_and_a_half_to_one_to_all_eyes() {
    let grounds = [
        Ink::Paper,
        Ink::Panel,
        Ink::Field,
        Ink::ActTint,
        Ink::WarnGround,
        Ink::Crop,
        Ink::LeyShort,
        Ink::LeyTall,
        Ink::Tunnel,
        Ink::Water,
        Ink::Building,
        Ink::Track,
    ];
    for (name, eyes) in ALL_EYES {
        for light in [Light::Day, Light::Night] {
            for ground in grounds {
                let ratio = contrast_ratio(
                    seen_by(eyes, Ink::Ink.rgb(light)),
                    seen_by(eyes, ground.rgb(light)),
                );
                assert!(ratio >= 4.5, "{name}, {light:?}, on {ground:?}: {ratio:.2}");
            }
            let act = seen_by(eyes, Ink::Act.rgb(light));
            let ratio = contrast_ratio(act, seen_by(eyes, Ink::Panel.rgb(light)));
            assert!(
                ratio >= 4.5,
                "{name}, {light:?}, what is selected: {ratio:.2}"
            );
        }
    }
}

#[test]
fn what_is_selected_stands_out_from_every_tint_to_all_eyes() {
    let tints = [
        Ink::Paper,
        Ink::Crop,
        Ink::LeyShort,
        Ink::LeyTall,
        Ink::Tunnel,
        Ink::Water,
        Ink::Building,
    ];
    for (name, eyes) in ALL_EYES {
        for light in [Light::Day, Light::Night] {
            for tint in tints {
                let ratio = contrast_ratio(
                    seen_by(eyes, Ink::Act.rgb(light)),
                    seen_by(eyes, tint.rgb(light)),
                );
                // 1.4.11: what must be seen to use it differs by three to one.
                assert!(ratio >= 3.0, "{name}, {light:?}, on {tint:?}: {ratio:.2}");
            }
        }
    }
}

#[test]
fn every_kind_is_told_by_its_pattern_where_its_tint_is_not_seen() {
    // Pattern or edge against its own tint.
    let drawn = [
        ("plot", Ink::Furrow, Ink::Crop),
        ("ley", Ink::Blade, Ink::LeyTall),
        ("grazed ley", Ink::Blade, Ink::LeyShort),
        ("tunnel", Ink::Hoop, Ink::Tunnel),
        ("tree", Ink::TreeRing, Ink::Tree),
        ("hedge", Ink::HedgeEdge, Ink::Hedge),
        ("water", Ink::Ripple, Ink::Water),
        ("building", Ink::Roof, Ink::Building),
    ];
    for (name, eyes) in ALL_EYES {
        for light in [Light::Day, Light::Night] {
            for (kind, pattern, tint) in drawn {
                let ratio = contrast_ratio(
                    seen_by(eyes, pattern.rgb(light)),
                    seen_by(eyes, tint.rgb(light)),
                );
                assert!(ratio >= 1.3, "{name}, {light:?}, {kind}: {ratio:.2}");
            }
        }
    }
}
