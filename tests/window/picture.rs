//! Holds a drawn window against a kept picture of it, at half its size and in few colours.
//!
//! Half size and few colours keep the pictures small and let renderers round an edge as they like; what has moved,
//! gone or changed its colour still shows. Renewed by `UPDATE_SNAPSHOTS=1 cargo test --test window pictures`; look at
//! each before it is kept.

use std::path::{Path, PathBuf};

use image::codecs::png::{CompressionType, FilterType, PngEncoder};
use image::{Rgb, RgbImage, RgbaImage};

/// Screen points to a pixel of the kept picture.
const POINTS_TO_A_PIXEL: u32 = 2;
/// Colours are kept in steps of this, of 256.
const COLOUR_STEP: u8 = 16;
/// How far a colour may be off before its pixel counts as another, of 256.
const LARGEST_DIFFERENCE: u8 = 28;
/// Pixels that may be others: a glyph or two, never a line or a label.
const MOST_OTHERS: usize = 40;
/// The most bytes of a kept picture.
const MOST_BYTES: u64 = 60 * 1024;

/// Fails, with what was drawn kept under `target/tmp`, where a drawn window differs from the picture of that name.
#[track_caller]
pub(crate) fn check(drawn: &RgbaImage, pixels_to_a_point: f32, name: &str) {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "one or two"
    )]
    let now = reduced(drawn, POINTS_TO_A_PIXEL * pixels_to_a_point as u32);
    let kept_at = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/window/pictures")
        .join(format!("{name}.png"));
    if std::env::var_os("UPDATE_SNAPSHOTS").is_some() {
        write(&now, &kept_at);
        return;
    }
    let kept = image::open(&kept_at)
        .unwrap_or_else(|error| panic!("{}: {error}", kept_at.display()))
        .to_rgb8();
    let others = if kept.dimensions() == now.dimensions() {
        let pairs = kept.pixels().zip(now.pixels());
        pairs
            .filter(|(kept, now)| is_another(**kept, **now))
            .count()
    } else {
        usize::MAX
    };
    if others > MOST_OTHERS {
        let told = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}-now.png"));
        write(&now, &told);
        panic!(
            "{name}: {others} pixels differ, {MOST_OTHERS} may; drawn now: {}, kept: {}",
            told.display(),
            kept_at.display()
        );
    }
    let bytes = std::fs::metadata(&kept_at).unwrap().len();
    assert!(bytes <= MOST_BYTES, "{name}: {bytes} bytes");
}

fn is_another(kept: Rgb<u8>, now: Rgb<u8>) -> bool {
    let parts = kept.0.iter().zip(now.0);
    parts
        .map(|(kept, now)| kept.abs_diff(now))
        .any(|difference| difference > LARGEST_DIFFERENCE)
}

/// The mean of every square of `by` by `by` pixels, in steps of colour.
fn reduced(drawn: &RgbaImage, by: u32) -> RgbImage {
    RgbImage::from_fn(drawn.width() / by, drawn.height() / by, |x, y| {
        let mut sums = [0_u32; 3];
        for place in 0..by * by {
            let pixel = drawn.get_pixel(x * by + place % by, y * by + place / by);
            for (sum, part) in sums.iter_mut().zip(pixel.0) {
                *sum += u32::from(part);
            }
        }
        Rgb(sums.map(|sum| stepped(u8::try_from(sum / (by * by)).unwrap_or(u8::MAX))))
    })
}

fn stepped(part: u8) -> u8 {
    part.saturating_add(COLOUR_STEP / 2) / COLOUR_STEP * COLOUR_STEP
}

fn write(picture: &RgbImage, path: &Path) {
    std::fs::create_dir_all(path.parent().unwrap()).unwrap();
    let file = std::io::BufWriter::new(std::fs::File::create(path).unwrap());
    let encoder = PngEncoder::new_with_quality(file, CompressionType::Best, FilterType::NoFilter);
    picture.write_with_encoder(encoder).unwrap();
}

#[test]
fn a_moved_line_is_another_picture_and_a_shade_is_not() {
    let drawn = |line: u32, shade: u8| {
        RgbaImage::from_fn(400, 400, |x, _| {
            let part = if x / 2 == line { 40 } else { shade };
            image::Rgba([part, part, part, 255])
        })
    };
    let others = |one: &RgbaImage, two: &RgbaImage| {
        let (one, two) = (reduced(one, 2), reduced(two, 2));
        one.pixels()
            .zip(two.pixels())
            .filter(|(a, b)| is_another(**a, **b))
            .count()
    };
    assert!(others(&drawn(50, 240), &drawn(51, 240)) > MOST_OTHERS);
    assert_eq!(others(&drawn(50, 240), &drawn(50, 236)), 0);
}
