//! What is saved comes back the same, and reads well.

use foldcourse::farm::Farm;
use foldcourse::files::{farm_from_text, farm_text, open_farm, save_farm};
use proptest::prelude::*;

use super::random_farm::any_farm;
use super::sample::full_farm;

/// Bit by bit: `-0.0` and `0.0` are equal as numbers, their texts are not.
fn bits(farm: &Farm) -> Vec<(u64, u64)> {
    let corners = farm
        .ground
        .values()
        .flat_map(|ground| ground.shape.corners());
    corners
        .map(|corner| (corner.east_m.to_bits(), corner.north_m.to_bits()))
        .collect()
}

#[test]
fn every_field_comes_back_from_disk() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("full.ron");
    let farm = full_farm();
    save_farm(&farm, &path).unwrap();
    let opened = open_farm(&path).unwrap();
    assert_eq!(opened, farm);
    assert_eq!(bits(&opened), bits(&farm));
}

#[test]
fn the_text_reads_as_a_person_would_write_it() {
    insta::assert_snapshot!(farm_text(&full_farm()));
}

#[test]
fn an_edit_by_hand_with_remarks_and_blanks_is_understood() {
    let text = farm_text(&full_farm())
        .replace("kind: trough", "/* moved */ kind :trough ")
        .replace('\n', "\r\n");
    assert_eq!(
        farm_from_text(&text, "by hand").unwrap().ground,
        full_farm().ground
    );
}

#[test]
fn a_ring_closed_by_hand_opens_as_the_open_ring() {
    let text = farm_text(&full_farm());
    let closed = text.replace("(12.0, 30.0),", "(12.0, 30.0),(0.0, 0.0),");
    assert_ne!(closed, text);
    assert_eq!(farm_from_text(&closed, "by hand").unwrap(), full_farm());
}

#[test]
fn a_strip_whose_ley_was_removed_still_opens() {
    let mut farm = full_farm();
    farm.ground.remove(&foldcourse::farm::GroundId(1));
    farm.mobs.clear();
    assert_eq!(farm_from_text(&farm_text(&farm), "x").unwrap(), farm);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_farm_opens_as_it_was_saved(farm in any_farm()) {
        let text = farm_text(&farm);
        let opened = farm_from_text(&text, "any").map_err(|error| TestCaseError::fail(error.to_string()))?;
        prop_assert_eq!(bits(&opened), bits(&farm));
        prop_assert_eq!(farm_text(&opened), text);
        prop_assert_eq!(opened, farm);
    }
}
