//! Whatever happens to the bytes of a file, opening it gives a farm or one line, and never stops the program.

use foldcourse::files::{farm_from_text, farm_text, import_geojson, open_farm};
use proptest::prelude::*;

use super::sample::{day, full_farm};

/// What may be done to the bytes of a file.
#[derive(Debug, Clone)]
enum Harm {
    Set(usize, u8),
    Cut(usize, usize),
    Twice(usize, usize),
    Put(usize, &'static str),
}

fn any_harm() -> impl Strategy<Value = Harm> {
    let puts = prop_oneof![
        Just("("),
        Just(")"),
        Just("["),
        Just("{"),
        Just("\""),
        Just("/*"),
        Just("//"),
        Just(","),
        Just(":"),
        Just("NaN"),
        Just("inf"),
        Just("1e999"),
        Just("-"),
        Just("r#\""),
        Just("Some("),
        Just("99999999999999999999"),
        Just("\u{0}"),
        Just("'"),
        Just("b\""),
        Just("\\u{110000}"),
        Just("#![enable(x)]"),
        Just("null"),
        Just("]]]]"),
    ];
    prop_oneof![
        (any::<usize>(), any::<u8>()).prop_map(|(at, byte)| Harm::Set(at, byte)),
        (any::<usize>(), 1_usize..40).prop_map(|(at, length)| Harm::Cut(at, length)),
        (any::<usize>(), 1_usize..200).prop_map(|(at, length)| Harm::Twice(at, length)),
        (any::<usize>(), puts).prop_map(|(at, text)| Harm::Put(at, text)),
    ]
}

fn harmed(text: &str, harms: &[Harm]) -> Vec<u8> {
    let mut bytes = text.as_bytes().to_vec();
    for harm in harms {
        let count = bytes.len().max(1);
        let span = |at: usize, length: usize| at % count..(at % count + length).min(bytes.len());
        match harm {
            Harm::Set(at, byte) => {
                if let Some(slot) = bytes.get_mut(at % count) {
                    *slot = *byte;
                }
            }
            Harm::Cut(at, length) => drop(bytes.drain(span(*at, *length))),
            Harm::Twice(at, length) => {
                let piece = bytes[span(*at, *length)].to_vec();
                bytes.splice(at % count..at % count, piece);
            }
            Harm::Put(at, text) => drop(bytes.splice(at % count..at % count, text.bytes())),
        }
    }
    bytes
}

fn is_one_line(error: &impl ToString) -> bool {
    let line = error.to_string();
    line.len() < 4000 && !line.chars().any(char::is_control)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 512, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_harmed_farm_opens_or_is_refused(harms in prop::collection::vec(any_harm(), 1..6)) {
        let bytes = harmed(&farm_text(&full_farm()), &harms);
        match String::from_utf8(bytes) {
            Ok(text) => match farm_from_text(&text, "harmed") {
                // What opens can be saved and opened again.
                Ok(farm) => prop_assert_eq!(farm_from_text(&farm_text(&farm), "again").ok(), Some(farm)),
                Err(error) => prop_assert!(is_one_line(&error), "{}", error),
            },
            Err(error) => {
                let folder = tempfile::tempdir()?;
                let path = folder.path().join("harmed.ron");
                std::fs::write(&path, error.as_bytes())?;
                let error = open_farm(&path).unwrap_err();
                prop_assert!(is_one_line(&error) && error.cause.contains("not a text file"), "{}", error);
            }
        }
    }

    #[test]
    fn harmed_geojson_comes_in_or_is_refused(harms in prop::collection::vec(any_harm(), 1..6)) {
        let whole = foldcourse::files::export_geojson(&full_farm());
        let text = String::from_utf8_lossy(&harmed(&whole, &harms)).into_owned();
        match import_geojson(&text, "harmed", day("2027-04-01")) {
            // What came in can be saved and opened again.
            Ok(imported) => {
                let again = farm_from_text(&farm_text(&imported.farm), "again");
                prop_assert_eq!(again.map_err(|error| error.to_string()), Ok(imported.farm));
            }
            Err(error) => prop_assert!(is_one_line(&error), "{}", error),
        }
    }
}
