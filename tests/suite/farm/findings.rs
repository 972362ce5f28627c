//! Each rule speaks on a farm that breaks it, and keeps still on one that does not.

use foldcourse::farm::{
    Closed, Farm, Finding, FindingCode, FixedPlace, Grazing, Ground, GroundId, HenHouseId, Kind,
    MobId, Reading, Severity, Shape, Subject, Visit, findings,
};
use foldcourse::geometry::Point;

use super::sample::{day, empty_farm, ewes, hens, line, put, rectangle, strip, two_strip_farm};

/// The one finding with this code; stops where there is none or more.
#[track_caller]
fn only(farm: &Farm, code: FindingCode) -> Finding {
    let mut with_code: Vec<Finding> = all(farm, code);
    assert_eq!(with_code.len(), 1, "{:#?}", findings(farm));
    with_code.remove(0)
}

fn all(farm: &Farm, code: FindingCode) -> Vec<Finding> {
    findings(farm)
        .into_iter()
        .filter(|finding| finding.code == code)
        .collect()
}

#[track_caller]
fn check_quiet(farm: &Farm) {
    assert_eq!(findings(farm), [], "nothing is to be said here");
}

/// A farm with a bit of everything and nothing wrong.
fn sound_farm() -> (Farm, [GroundId; 2], GroundId) {
    let (mut farm, _, strips) = two_strip_farm();
    let row = put(
        &mut farm,
        Ground::new(
            "Apples",
            Kind::TreeLine,
            line(&[(0.0, 120.0), (80.0, 120.0)]),
        ),
    );
    farm.mobs.insert(MobId(90), ewes());
    farm.hen_houses.insert(HenHouseId(91), hens(vec![row]));
    farm.next_id = 92;
    (farm, strips, row)
}

fn grazing_of(farm: &mut Farm, id: GroundId) -> &mut Grazing {
    let ground = farm.ground.get_mut(&id).unwrap();
    ground.grazing.get_or_insert_default()
}

#[test]
fn a_sound_farm_and_an_empty_one_give_no_findings() {
    check_quiet(&sound_farm().0);
    check_quiet(&empty_farm());
}

#[test]
fn every_finding_is_whole_sentences_with_a_remedy() {
    let (mut farm, [west, _], row) = sound_farm();
    farm.ground.get_mut(&west).unwrap().within = None;
    farm.sward.enter_kg_per_ha = f64::NAN;
    farm.mobs.get_mut(&MobId(90)).unwrap().visits.clear();
    farm.ground.remove(&row);
    let found = findings(&farm);
    assert!(found.len() >= 4, "{found:#?}");
    for finding in &found {
        assert!(finding.what.ends_with('.'), "{finding:?}");
        assert!(finding.remedy.ends_with('.'), "{finding:?}");
    }
    let severities: Vec<Severity> = found.iter().map(|finding| finding.severity).collect();
    assert!(severities.is_sorted_by(|a, b| a >= b), "gravest first");
}

#[test]
fn names_are_wanted_where_moves_are_told_by_name() {
    let (mut farm, [west, east], row) = sound_farm();
    farm.ground.get_mut(&row).unwrap().name.clear();
    check_quiet(&farm);
    farm.ground.get_mut(&west).unwrap().name = "  ".to_owned();
    assert_eq!(
        only(&farm, FindingCode::NameMissing).about,
        Subject::Ground(west)
    );
    farm.ground.get_mut(&west).unwrap().name = " a2 ".to_owned();
    assert_eq!(
        only(&farm, FindingCode::NameTwice).about,
        Subject::Ground(east)
    );
    farm.ground.get_mut(&west).unwrap().name = "A1".to_owned();
    farm.mobs.insert(MobId(92), ewes());
    assert_eq!(
        only(&farm, FindingCode::NameTwice).about,
        Subject::Mob(MobId(92))
    );
}

#[test]
fn a_form_that_a_kind_does_not_take_is_told() {
    let (mut farm, _, _) = sound_farm();
    let fence = Ground::new("Fence", Kind::Fence, rectangle(200.0, 0.0, 10.0, 10.0));
    let id = put(&mut farm, fence);
    assert_eq!(
        only(&farm, FindingCode::FormUnusual).about,
        Subject::Ground(id)
    );
}

#[test]
fn a_strip_needs_a_ley_that_is_there() {
    let (mut farm, [west, _], row) = sound_farm();
    for within in [None, Some(GroundId(777)), Some(row)] {
        farm.ground.get_mut(&west).unwrap().within = within;
        assert_eq!(
            only(&farm, FindingCode::StripAlone).about,
            Subject::Ground(west)
        );
    }
}

#[test]
fn strips_that_do_not_make_up_their_ley_are_told_in_square_metres() {
    let (mut farm, [_, east], _) = sound_farm();
    // A hand's breadth of 9 mm along 100 m is under a square metre.
    farm.ground.get_mut(&east).unwrap().shape = rectangle(40.0, 0.0, 39.991, 100.0);
    check_quiet(&farm);
    farm.ground.get_mut(&east).unwrap().shape = rectangle(40.0, 0.0, 39.98, 100.0);
    let finding = only(&farm, FindingCode::StripsUneven);
    assert!(finding.what.contains("2.0 m² less"), "{}", finding.what);
    assert_eq!(finding.severity, Severity::Note, "a lane may be kept out");
    farm.ground.get_mut(&east).unwrap().shape = rectangle(40.0, 0.0, 45.0, 100.0);
    let told = all(&farm, FindingCode::StripsUneven);
    assert!(told[0].what.contains("500 m² more"), "{told:?}");
    assert!(
        told[1].what.contains("500 m² of its 4500 m² outside"),
        "{told:?}"
    );
    assert!(
        told.iter()
            .all(|finding| finding.severity == Severity::Warning)
    );
    // Moved away whole, the sum is right and the place is not.
    farm.ground.get_mut(&east).unwrap().shape = rectangle(140.0, 0.0, 40.0, 100.0);
    assert_eq!(
        only(&farm, FindingCode::StripsUneven).about,
        Subject::Ground(east)
    );
}

#[test]
fn a_tenth_of_a_percent_counts_on_a_small_ley() {
    let mut farm = empty_farm();
    let ley = put(
        &mut farm,
        Ground::new("Orchard", Kind::Ley, rectangle(0.0, 0.0, 20.0, 20.0)),
    );
    let piece = strip("O1", rectangle(0.0, 0.0, 20.0, 19.97), ley);
    put(&mut farm, piece);
    let finding = only(&farm, FindingCode::StripsUneven);
    assert!(finding.what.contains("0.6 m² less"), "{}", finding.what);
}

#[test]
fn sward_figures_that_contradict_each_other_are_errors() {
    let change: [fn(&mut Farm); 8] = [
        |farm| farm.sward.leave_kg_per_ha = farm.sward.ceiling_kg_per_ha,
        |farm| farm.sward.enter_kg_per_ha = farm.sward.leave_kg_per_ha - 1.0,
        |farm| farm.sward.enter_kg_per_ha = farm.sward.ceiling_kg_per_ha + 1.0,
        |farm| farm.sward.growth_by_month[3] = -0.1,
        |farm| farm.sward.growth_by_month[3] = f64::INFINITY,
        |farm| farm.sward.leave_kg_per_ha = f64::NAN,
        |farm| farm.sward.ceiling_kg_per_ha = -1.0,
        |farm| farm.sward.longest_stay_days = 0,
    ];
    for (number, change) in change.into_iter().enumerate() {
        let (mut farm, _, _) = sound_farm();
        change(&mut farm);
        let finding = only(&farm, FindingCode::SwardFigure);
        assert_eq!(finding.severity, Severity::Error, "case {number}");
        assert_eq!(finding.about, Subject::Farm, "case {number}");
    }
    let (mut farm, _, _) = sound_farm();
    farm.sward.enter_kg_per_ha = farm.sward.leave_kg_per_ha;
    check_quiet(&farm);
    farm.sward.leave_kg_per_ha = farm.sward.ceiling_kg_per_ha;
    let finding = only(&farm, FindingCode::SwardFigure);
    assert!(
        finding.what.contains("never anything to eat"),
        "{}",
        finding.what
    );
}

#[test]
fn sward_figures_of_one_strip_are_told_there() {
    let change: [fn(&mut Grazing); 7] = [
        |grazing| grazing.leave_kg_per_ha = Some(3800.0),
        |grazing| grazing.enter_kg_per_ha = Some(1500.0),
        |grazing| grazing.growth_factor = f64::NAN,
        |grazing| grazing.end_cover_kg_per_ha = Some(5000.0),
        |grazing| {
            let reading = |cover| Reading {
                day: day("2027-04-01"),
                cover_kg_per_ha: cover,
            };
            grazing.readings = vec![reading(2000.0), reading(2100.0)];
        },
        |grazing| {
            grazing.readings = vec![Reading {
                day: day("2027-04-01"),
                cover_kg_per_ha: -5.0,
            }];
        },
        |grazing| {
            let (from, to) = (day("2027-05-02"), day("2027-05-01"));
            grazing.closed = vec![Closed {
                from,
                to,
                why: "hay".to_owned(),
            }];
        },
    ];
    for (number, change) in change.into_iter().enumerate() {
        let (mut farm, [west, _], _) = sound_farm();
        change(grazing_of(&mut farm, west));
        let finding = only(&farm, FindingCode::SwardFigure);
        assert_eq!(finding.about, Subject::Ground(west), "case {number}");
        assert!(finding.place.is_some(), "case {number}");
    }
}

#[test]
fn visits_that_overlap_or_run_backwards_are_errors() {
    let visit = |from: &str, to: &str| Visit {
        from: day(from),
        to: day(to),
    };
    let with = |visits: Vec<Visit>| {
        let (mut farm, _, _) = sound_farm();
        farm.mobs.get_mut(&MobId(90)).unwrap().visits = visits;
        farm
    };
    let touching = with(vec![
        visit("2027-05-02", "2027-05-03"),
        visit("2027-05-01", "2027-05-01"),
    ]);
    check_quiet(&touching);
    let overlapping = with(vec![
        visit("2027-05-02", "2027-05-03"),
        visit("2027-05-01", "2027-05-02"),
    ]);
    assert_eq!(
        only(&overlapping, FindingCode::VisitFault).severity,
        Severity::Error
    );
    let backwards = with(vec![visit("2027-05-02", "2027-05-01")]);
    assert_eq!(
        only(&backwards, FindingCode::VisitFault).severity,
        Severity::Error
    );
    assert_eq!(
        only(&with(Vec::new()), FindingCode::VisitFault).severity,
        Severity::Note
    );
}

#[test]
fn figures_that_no_animal_has_are_told() {
    let (mut farm, _, _) = sound_farm();
    farm.mobs.get_mut(&MobId(90)).unwrap().liveweight_kg = 0.0;
    farm.hen_houses
        .get_mut(&HenHouseId(91))
        .unwrap()
        .days_per_place = 0;
    let about: Vec<Subject> = all(&farm, FindingCode::StockFigure)
        .iter()
        .map(|finding| finding.about)
        .collect();
    assert_eq!(
        about,
        [Subject::Mob(MobId(90)), Subject::HenHouse(HenHouseId(91))]
    );
}

#[test]
fn settled_days_that_cannot_be_are_told_together() {
    let (mut farm, [west, _], row) = sound_farm();
    let mob = MobId(90);
    let settle = |farm: &mut Farm, text: &str, place: Option<GroundId>, lived: bool| {
        farm.fixed
            .insert((mob, day(text)), FixedPlace { place, lived });
    };
    settle(&mut farm, "2027-04-05", Some(west), false);
    settle(&mut farm, "2027-04-06", None, true);
    check_quiet(&farm);
    for text in ["2027-07-01", "2027-07-02", "2027-07-03"] {
        settle(&mut farm, text, Some(west), false);
    }
    let finding = only(&farm, FindingCode::FixedFault);
    assert!(
        finding
            .what
            .contains("3 settled days (2027-07-01 to 2027-07-03)"),
        "{}",
        finding.what
    );
    assert_eq!(finding.severity, Severity::Error);

    farm.fixed.clear();
    settle(&mut farm, "2027-07-01", None, true);
    assert_eq!(
        only(&farm, FindingCode::FixedFault).severity,
        Severity::Warning
    );

    for place in [GroundId(777), row] {
        farm.fixed.clear();
        settle(&mut farm, "2027-04-05", Some(place), false);
        assert_eq!(
            only(&farm, FindingCode::FixedFault).severity,
            Severity::Error
        );
    }

    farm.fixed.clear();
    settle(&mut farm, "2027-04-05", Some(west), false);
    let span = Closed {
        from: day("2027-04-05"),
        to: day("2027-04-05"),
        why: "nest".to_owned(),
    };
    grazing_of(&mut farm, west).closed.push(span);
    assert!(only(&farm, FindingCode::FixedFault).what.contains("closed"));
}

#[test]
fn two_mobs_settled_on_one_strip_and_days_of_a_mob_that_is_gone_are_told() {
    let (mut farm, [west, _], _) = sound_farm();
    let place = FixedPlace {
        place: Some(west),
        lived: false,
    };
    let mut rams = ewes();
    rams.name = "Rams".to_owned();
    farm.mobs.insert(MobId(95), rams);
    farm.fixed.insert((MobId(90), day("2027-04-05")), place);
    farm.fixed.insert((MobId(95), day("2027-04-05")), place);
    let finding = only(&farm, FindingCode::FixedFault);
    assert_eq!(finding.about, Subject::Mob(MobId(95)));
    assert!(finding.what.contains("Ewes"), "{}", finding.what);
    farm.mobs.remove(&MobId(95));
    assert!(only(&farm, FindingCode::FixedFault).what.contains("gone"));
}

#[test]
fn a_hen_house_needs_a_line_it_fits_on() {
    let (mut farm, [west, _], row) = sound_farm();
    let house = HenHouseId(91);
    let mut check = |change: &dyn Fn(&mut Farm), severity: Severity, word: &str| {
        let before = farm.clone();
        change(&mut farm);
        let finding = only(&farm, FindingCode::HenLine);
        assert_eq!(
            (finding.severity, finding.about),
            (severity, Subject::HenHouse(house))
        );
        assert!(finding.what.contains(word), "{}", finding.what);
        farm = before;
    };
    let lines = |farm: &mut Farm, lines: Vec<GroundId>| {
        farm.hen_houses.get_mut(&house).unwrap().lines = lines;
    };
    check(&|farm| lines(farm, vec![]), Severity::Warning, "no line");
    check(
        &|farm| lines(farm, vec![GroundId(777)]),
        Severity::Error,
        "gone",
    );
    let as_plot = |farm: &mut Farm| {
        farm.ground.get_mut(&west).unwrap().kind = Kind::Plot;
        lines(farm, vec![west]);
    };
    check(&as_plot, Severity::Error, "an area");
    check(
        &|farm| farm.ground.get_mut(&row).unwrap().shape = line(&[(0.0, 0.0), (4.9, 0.0)]),
        Severity::Error,
        "4.9 m long",
    );
    check(
        &|farm| farm.ground.get_mut(&row).unwrap().kind = Kind::Track,
        Severity::Note,
        "track",
    );
    check(
        &|farm| farm.hen_houses.get_mut(&house).unwrap().offset_m = 1.4,
        Severity::Warning,
        "over its line",
    );
}

/// Above 1,200 sheep to the hectare: 40 ewes stand at 1,200 on 333.3 m².
#[test]
fn a_density_at_which_dung_falls_in_patches_is_told() {
    let mut farm = empty_farm();
    farm.mobs.insert(MobId(90), ewes());
    let id = put(
        &mut farm,
        Ground::new("Small ley", Kind::Ley, rectangle(0.0, 0.0, 10.0, 33.4)),
    );
    check_quiet(&farm);
    farm.ground.get_mut(&id).unwrap().shape = rectangle(0.0, 0.0, 10.0, 33.3);
    assert_eq!(
        only(&farm, FindingCode::DensityHigh).about,
        Subject::Ground(id)
    );
    farm.mobs.get_mut(&MobId(90)).unwrap().visits.clear();
    assert_eq!(all(&farm, FindingCode::DensityHigh), []);
}

#[test]
fn shapes_that_are_no_shapes_are_errors() {
    let bow = |corners: [(f64, f64); 4]| {
        let corners = corners
            .map(|(east, north)| Point::new(east, north))
            .to_vec();
        Shape::Area(foldcourse::geometry::Outline::simple(corners))
    };
    for (name, shape) in [
        (
            "crossing",
            bow([(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0)]),
        ),
        ("not a number", rectangle(f64::NAN, 0.0, 10.0, 10.0)),
        ("flat", rectangle(0.0, 0.0, 10.0, 0.0)),
        ("one corner", line(&[(0.0, 0.0)])),
    ] {
        let mut farm = empty_farm();
        let kind = if matches!(shape, Shape::Line(_)) {
            Kind::Hedge
        } else {
            Kind::Plot
        };
        let id = put(&mut farm, Ground::new("Odd", kind, shape));
        let found = all(&farm, FindingCode::ShapeFault);
        assert!(!found.is_empty(), "{name}");
        assert!(
            found
                .iter()
                .all(|finding| finding.about == Subject::Ground(id)),
            "{name}"
        );
        assert_eq!(found[0].severity, Severity::Error, "{name}");
    }
}

#[test]
fn strips_that_lie_on_each_other_are_told_with_their_square_metres() {
    let (mut farm, [_, east], _) = sound_farm();
    farm.ground.get_mut(&east).unwrap().shape = rectangle(35.0, 0.0, 40.0, 100.0);
    let finding = only(&farm, FindingCode::StripsOverlap);
    assert!(finding.what.contains("500 m²"), "{}", finding.what);
}
