//! How long opening, saving and bringing in take.

use std::path::PathBuf;

use foldcourse::farm::{Farm, Ground, GroundId, Kind, Shape};
use foldcourse::files::{export_geojson, farm_from_text, farm_text, import_geojson, save_farm};
use foldcourse::geometry::{GroundFrame, LonLat, Outline, Point};
use foldcourse::quantity::Day;

fn main() {
    divan::main();
}

fn first_day() -> Day {
    Day::new(2027, 4, 1).unwrap_or_else(|| unreachable!("a day of the calendar"))
}

/// 3,000 pieces of ground of 12 corners each, on whole millimetres.
fn large_farm() -> Farm {
    let frame =
        GroundFrame::new(LonLat::new(-1.0, 52.0)).unwrap_or_else(|_| unreachable!("a place"));
    let mut farm = Farm::new("Large", frame, first_day());
    for number in 1..=3000_u32 {
        let centre = Point::new(f64::from(number % 60) * 70.0, f64::from(number / 60) * 70.0);
        let corners = (0..12).map(|corner| {
            centre
                .towards(f64::from(corner) * -30.0, 30.0)
                .on_whole_mm()
        });
        let shape = Shape::Area(Outline::simple(corners.collect()));
        farm.ground.insert(
            GroundId(number),
            Ground::new(format!("Plot {number}"), Kind::Plot, shape),
        );
    }
    farm.next_id = 3001;
    farm
}

#[divan::bench]
fn lay_out_3000(bencher: divan::Bencher<'_, '_>) {
    let farm = large_farm();
    bencher.bench(|| farm_text(&farm));
}

#[divan::bench]
fn read_3000(bencher: divan::Bencher<'_, '_>) {
    let text = farm_text(&large_farm());
    bencher.bench(|| farm_from_text(&text, "large"));
}

/// With the reading back and the pushing to the disk.
#[divan::bench]
fn save_3000(bencher: divan::Bencher<'_, '_>) {
    let mut farm = large_farm();
    let path = std::env::temp_dir().join(format!("foldcourse-bench-{}.ron", std::process::id()));
    let mut turn = 0_u64;
    bencher.bench_local(|| {
        turn += 1;
        farm.season.seed = turn;
        save_farm(&farm, &path)
    });
    drop(std::fs::remove_file(foldcourse::files::previous_path(
        &path,
    )));
    drop(std::fs::remove_file(path));
}

#[divan::bench]
fn import_100_fields(bencher: divan::Bencher<'_, '_>) {
    let text = fields();
    bencher.bench(|| import_geojson(&text, "fields", first_day()));
}

#[divan::bench]
fn export_100_fields(bencher: divan::Bencher<'_, '_>) {
    let Ok(imported) = import_geojson(&fields(), "fields", first_day()) else {
        return;
    };
    bencher.bench(|| export_geojson(&imported.farm));
}

fn fields() -> String {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("tests/data/geometry/at-fields-2025.geojson");
    std::fs::read_to_string(path).unwrap_or_default()
}
