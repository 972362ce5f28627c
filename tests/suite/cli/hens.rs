//! `hens` and the hens of `season`: what is told of a walk, as words and as fields.

use super::{fennywick, fields, told};

#[test]
fn a_walk_is_told_with_its_order_its_sums_and_their_sources() {
    let form = told(&["hens", &fennywick()]);
    for words in [
        "in a round of",
        "kg N/ha",
        "Home Hen Handbook",
        "Slopes are not known",
    ] {
        assert!(form.contains(words), "{words}: {form}");
    }
    let houses = fields(&["hens", "--json", &fennywick()]);
    let house = &houses.as_array().unwrap()[0];
    let number = |name: &str| {
        house[name]
            .as_f64()
            .unwrap_or_else(|| panic!("{name}: {house}"))
    };
    let places = number("places");
    assert!(places > 1.0);
    let stay = number("round_days") / places;
    assert!((number("rest_days") - (places - 1.0) * stay).abs() < 1e-9);
    // 24 hens for a day on 4 m by 2.4 m, 170 kg N from 230 hens in a year.
    let n_kg_per_ha = 24.0 * 170.0 / 230.0 / 365.0 / (9.6 / 10_000.0) * stay;
    assert!((number("n_kg_per_ha_in_round") - n_kg_per_ha).abs() < 1e-6);
    assert!((number("feed_least_kg_a_day") - 2.4).abs() < 1e-9);
    assert!(number("order_tow_mm") > 0.0 && number("tow_m") > 0.0);
    let legs = house["legs"].as_array().unwrap();
    assert_eq!(legs.len(), 2);
    assert_eq!(legs[0]["first_place"], 1);
    assert_eq!(legs[1]["last_place"].as_f64(), Some(places));
    assert!(
        house["why"].as_array().is_some_and(|why| !why.is_empty()),
        "{house}"
    );
}

#[test]
fn a_day_of_the_season_says_how_far_a_house_is_towed() {
    let days = fields(&[
        "season",
        "--json",
        "--from",
        "2027-05-09",
        "--days",
        "3",
        &fennywick(),
    ]);
    for day in days.as_array().unwrap() {
        let house = &day["hens"].as_array().unwrap()[0];
        assert_eq!(house["moves"], true, "a place a day: {house}");
        assert!(
            house["tow_m"].as_f64().is_some_and(|tow_m| tow_m > 4.0),
            "{house}"
        );
        assert_eq!(house["is_housed"], false);
        assert_eq!(house["state"], "planned");
    }
}
