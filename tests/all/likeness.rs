// SPDX-License-Identifier: MIT
//! Stocks that look like themselves: a picture with known corners lands at known places, on sheets, parts, backs, in every file.

use crate::common::instances::Dice;
use crate::common::{TempDir, album, cutter, files, hingeleaf, near};
use glam::{DAffine3, DVec3};
use hingeleaf::contour::{Contour, Point, turned};
use hingeleaf::fields::Source;
use hingeleaf::finding::Level;
use hingeleaf::guide;
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::net::Net;
use hingeleaf::parts::Part;
use hingeleaf::picture::{self, Fill, Folding, Mark, Picture, Stuff, Tint};
use hingeleaf::raster::{PaperPicture, RasterFault};
use hingeleaf::sheets::{Placed, Search, Sheet};
use hingeleaf::toolpath::Labels;
use hingeleaf::work::Work;
use hingeleaf::write;
use image::{ExtendedColorType, ImageEncoder};
use std::fs;
use std::path::Path;

/// Light enough to be shown as they are: upper left, upper right, lower left, lower right.
pub(crate) const FRONT: [[u8; 3]; 4] = [[255, 150, 150], [150, 230, 150], [170, 190, 255], [250, 230, 120]];
const BACK: [[u8; 3]; 4] = [[255, 200, 120], [130, 230, 230], [230, 170, 250], [200, 240, 90]];
/// Of the view that every folded thing is drawn in, degrees.
const TURN: f64 = 24.0;
const TILT: f64 = 47.0;

/// Which quarter of a picture a point of it is in, both from 0 to 1, down from the top.
fn quarter(across: f64, down: f64) -> usize {
    usize::from(across.rem_euclid(1.0) >= 0.5) + 2 * usize::from(down.rem_euclid(1.0) >= 0.5)
}

/// A PNG of four quarters.
pub(crate) fn quarters((width, height): (u32, u32), colours: [[u8; 3]; 4]) -> Vec<u8> {
    let point = |at: u32| {
        let (x, y) = (f64::from(at % width) + 0.5, f64::from(at / width) + 0.5);
        colours[quarter(x / f64::from(width), y / f64::from(height))]
    };
    png((width, height), &(0..width * height).flat_map(point).collect::<Vec<u8>>())
}

pub(crate) fn png((width, height): (u32, u32), points: &[u8]) -> Vec<u8> {
    let mut bytes = Vec::new();
    let encoder = image::codecs::png::PngEncoder::new(&mut bytes);
    encoder.write_image(points, width, height, ExtendedColorType::Rgb8).unwrap();
    bytes
}

pub(crate) fn jpeg((width, height): (u32, u32), points: &[u8]) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = image::codecs::jpeg::JpegEncoder::new_with_quality(&mut bytes, 95);
    encoder.encode(points, width, height, ExtendedColorType::Rgb8).unwrap();
    bytes
}

/// An album of pockets on a stock of which this is said, laid out; its front and its back are the pictures of four quarters.
pub(crate) fn pictured(stock: &str, page: (i64, i64)) -> Work {
    let text = format!(
        r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "card": {{ "caliper": 0.3, "picture": "f.png",
        "picture_back": "b.png", {stock} }} }}, "page": {{ "width": {}, "height": {}, "seam": 10 }},
        "pages": [{{ "kind": "pocket" }}, {{ "kind": "pocket" }}, {{ "kind": "divider" }}, {{ "kind": "pocket" }}] }}"#,
        page.0, page.1
    );
    let mut album = album(&text);
    for stock in &mut album.stocks {
        let shown = stock.clone();
        let sheet = &shown.sheets[0];
        // As many points as half millimetres, so that it has the sheet's proportions.
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a sheet has some hundred millimetres"
        )]
        let size = ((sheet.width.mm() / 2.0) as u32, (sheet.height.mm() / 2.0) as u32);
        let front = shown.pictures.width.map_or(quarters(size, FRONT), |_| quarters((80, 80), FRONT));
        let back = shown.pictures.width.map_or(quarters(size, BACK), |_| quarters((80, 80), BACK));
        for (picture, bytes) in stock.pictures.files().zip([front, back]) {
            assert_eq!(picture.read(&bytes, &shown), []);
        }
    }
    let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
    let work = Work::new(album, cutter(0.1, 1.0, 3.0), Labels::default(), search, &Unwatched);
    assert!(!work.stopped(), "{:?}", work.findings);
    work
}

fn placed(work: &Work) -> Vec<(&Sheet, &Placed, &Part)> {
    let sheets = work.stocks.iter().flat_map(|stock| &stock.sheets);
    let all = sheets.flat_map(|sheet| sheet.placements.iter().map(move |placed| (sheet, placed)));
    all.map(|(sheet, placed)| (sheet, placed, &work.kit.parts[placed.part])).collect()
}

/// Where a point of a part is on the sheet as it is named, as shares of its sides, from the left and from the top.
///
/// A sheet that stands turned was turned counter-clockwise: its top is at the left, its right is at the top.
fn on_the_sheet(work: &Work, (sheet, placed, part): (&Sheet, &Placed, &Part), at: Point) -> (f64, f64) {
    let at = turned(at, placed.quarters, (part.flat.width, part.flat.height));
    let (x, y) = ((at.x + placed.x) / sheet.width, (at.y + placed.y) / sheet.height);
    let named = &work.album.stocks[part.stock].sheets[sheet.size];
    if (named.width.mm() - sheet.width).abs() < 1e-9 { (x, 1.0 - y) } else { (y, x) }
}

/// Where a point is on a picture that fills so: shares from the left and the top.
pub(crate) fn on_the_picture(fill: &Fill, at: Point) -> (f64, f64) {
    let Fill::Pictured { tile, .. } = fill else { panic!("{fill:?} is no picture") };
    let at = tile.inverse() * at;
    (at.x, 1.0 - at.y)
}

/// The colours of a drawing: how many points across a mm, and what is at a place of it in mm, y up.
struct Seen {
    image: image::RgbImage,
    height: f64,
    fine: f64,
}

impl Seen {
    fn of(picture: &Picture) -> Self {
        let image = image::load_from_memory(&write::png(picture).unwrap()).unwrap().to_rgb8();
        let fine = f64::from(image.width()) / picture.width;
        Self { image, height: picture.height, fine }
    }

    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "within a drawing")]
    fn at(&self, at: Point) -> [u8; 3] {
        let (x, y) = (at.x * self.fine, (self.height - at.y) * self.fine);
        let (x, y) =
            (x.clamp(0.0, f64::from(self.image.width() - 1)), y.clamp(0.0, f64::from(self.image.height() - 1)));
        self.image.get_pixel(x as u32, y as u32).0
    }
}

fn alike(one: [u8; 3], other: [u8; 3]) -> bool {
    one.iter().zip(other).all(|(one, other)| one.abs_diff(other) <= 3)
}

/// Whether a place of a picture is so near to where its colours meet that either may be seen.
fn on_a_seam((across, down): (f64, f64)) -> bool {
    [across, down].iter().any(|share| {
        let share = share.rem_euclid(0.5);
        share.min(0.5 - share) < 0.012
    })
}

/// Every sheet's own picture: no point of a part shows the colour of another quarter, and most show that of their own.
#[test]
fn parts_on_a_sheet_show_what_lies_there() {
    for stock in [r#""sheet": "A4""#, r#""sheet": "A4", "grain": "short""#, r#""sheet": "300x200mm", "grain": "long""#]
    {
        let work = pictured(stock, (70, 90));
        let stock = &work.stocks[0];
        let mut dice = Dice(7);
        let (mut own, mut all) = (0, 0);
        for sheet in &stock.sheets {
            let seen = Seen::of(&picture::sheet(work.album.order(), &work.kit, stock.stock, sheet, &|_| String::new()));
            for placed in &sheet.placements {
                let part = &work.kit.parts[placed.part];
                for _ in 0..60 {
                    let at = Point::new(share(&mut dice) * part.flat.width, share(&mut dice) * part.flat.height);
                    let place = on_the_sheet(&work, (sheet, placed, part), at);
                    if !part.flat.outline.contains(at) || on_a_seam(place) {
                        continue;
                    }
                    let on = turned(at, placed.quarters, (part.flat.width, part.flat.height));
                    let colour = seen.at(Point::new(on.x + placed.x, on.y + placed.y));
                    let expected = quarter(place.0, place.1);
                    for (number, other) in FRONT.iter().enumerate() {
                        assert!(number == expected || !alike(colour, *other), "{place:?}: {colour:?}");
                    }
                    own += usize::from(alike(colour, FRONT[expected]));
                    all += 1;
                }
            }
        }
        assert!(all > 300 && own * 3 > all * 2, "{own} of {all}");
    }
}

#[allow(clippy::cast_precision_loss, reason = "a share of a million")]
fn share(dice: &mut Dice) -> f64 {
    dice.from(0, 1_000_000) as f64 / 1_000_000.0
}

/// Random albums, sheets, grains, patterns: each part by itself lies on the picture where it is cut first, its back where that is
/// when the sheet is turned over about an upright line.
#[test]
fn a_part_is_shown_as_it_is_cut_wherever_it_lies() {
    let mut dice = Dice(19);
    let mut turns = [0; 4];
    for _ in 0..24 {
        let sheet = format!("{}x{}mm", dice.from(190, 420), dice.from(190, 420));
        let grain = ["long", "short", "width", "height"][usize::try_from(dice.from(0, 3)).unwrap()];
        let said = if dice.from(0, 2) > 0 { format!(r#", "grain": "{grain}""#) } else { String::new() };
        let pattern = ["none", "all-over"][usize::try_from(dice.from(0, 1)).unwrap()];
        let page = (dice.from(60, 90), dice.from(80, 110));
        let work = pictured(&format!(r#""sheet": "{sheet}", "pattern": "{pattern}"{said}"#), page);
        let mut met = vec![false; work.kit.parts.len()];
        for (sheet, placed, part) in placed(&work) {
            turns[usize::from(placed.quarters)] += 1;
            if std::mem::replace(&mut met[placed.part], true) {
                continue;
            }
            let stuff = picture::stuff(&work.album, part);
            let stock = &work.album.stocks[part.stock];
            // As tall as its points make it, which is the sheet's height but for less than two of them.
            let wide = stock.picture_width();
            let tall = wide * stock.pictures.read().next().unwrap().tall();
            let high = stock.sheets[sheet.size].height.mm();
            near(tall, high, 4.0);
            for _ in 0..5 {
                let at = Point::new(share(&mut dice) * part.flat.width, share(&mut dice) * part.flat.height);
                let (across, down) = on_the_sheet(&work, (sheet, placed, part), at);
                let front = on_the_picture(&stuff.flat(), at);
                near(front.0, across, 1e-6);
                near(front.1 * tall, down * high, 1e-6);
                let back = on_the_picture(&stuff.back(), at);
                near(back.0, 1.0 - across, 1e-6);
                near(back.1 * tall, down * high, 1e-6);
            }
        }
    }
    assert!(turns.iter().filter(|turns| **turns > 0).count() >= 2, "nothing lay turned: {turns:?}");
}

/// A one-way paper that is never turned shows its up at the head of every part.
#[test]
fn one_way_paper_has_its_up_at_the_head() {
    let work = pictured(r#""sheet": "A3", "pattern": "one-way""#, (70, 90));
    for part in &work.kit.parts {
        let fill = picture::stuff(&work.album, part).flat();
        let (foot, head) = (on_the_picture(&fill, Point::ZERO), on_the_picture(&fill, Point::new(0.0, 10.0)));
        near(head.0, foot.0, 1e-9);
        let tall = 297.0 * work.album.stocks[0].pictures.read().next().unwrap().tall();
        near((foot.1 - head.1) * tall, 10.0, 1e-9);
    }
}

/// A picture of less than the sheet is at its true width, again and again.
#[test]
fn a_small_picture_repeats_at_its_true_width() {
    let work = pictured(r#""sheet": "A4", "picture_width": 40"#, (70, 90));
    let part = &work.kit.parts[0];
    let fill = picture::stuff(&work.album, part).flat();
    let (here, there) = (on_the_picture(&fill, Point::ZERO), on_the_picture(&fill, Point::new(40.0, 0.0)));
    near((there.0 - here.0).hypot(there.1 - here.1), 1.0, 1e-9);
    // Drawn by itself as large as it is, each point shows its own quarter of the picture, in points and on the page's way.
    let contours = vec![Contour::rectangle(0.0, 0.0, part.flat.width, part.flat.height)];
    let marks = vec![Mark::Shape { contours, fill: Some(fill.clone()), pen: None }];
    let drawn = Picture { width: part.flat.width, height: part.flat.height, marks };
    let seen = Seen::of(&drawn);
    let (mut dice, mut looked) = (Dice(3), 0);
    for _ in 0..400 {
        let at = Point::new(share(&mut dice) * part.flat.width, share(&mut dice) * part.flat.height);
        let place = on_the_picture(&fill, at);
        if !on_a_seam(place) {
            assert!(alike(seen.at(at), FRONT[quarter(place.0, place.1)]), "{at:?}: {:?}", seen.at(at));
            looked += 1;
        }
    }
    assert!(looked > 250, "{looked}");
}

/// Seen in space from the front and from the back; the view by hand, as in `solid.rs`.
#[test]
fn folded_things_show_the_face_that_is_up() {
    let work = pictured(r#""sheet": "A4""#, (70, 90));
    let stock = &work.album.stocks[0];
    let net = Net::single("leaf", Contour::rectangle(0.0, 0.0, 210.0, 297.0));
    let mut whole = work.kit.parts[0].clone();
    whole.flat = net.flat().unwrap();
    whole.cut = None;
    let stuff = picture::stuff(&work.album, &whole);
    near(stock.picture_width(), 210.0, 1e-9);
    let view = DAffine3::from_rotation_x(-TILT.to_radians()) * DAffine3::from_rotation_z(TURN.to_radians());
    for over in [false, true] {
        let drawn = Folding { over, ..Folding::flat(&net, 0.2, stuff.clone()) }.picture((1000.0, 1000.0));
        let seen = Seen::of(&drawn);
        // Turned over, left and right change places.
        let stand = |x: f64, y: f64| view.transform_point3(DVec3::new(if over { -x } else { x }, y, 0.0));
        let corners = [(0.0, 0.0), (210.0, 0.0), (0.0, 297.0), (210.0, 297.0)].map(|(x, y)| stand(x, y));
        let low = corners.iter().fold(DVec3::MAX, |low, corner| low.min(*corner));
        let colours = if over { BACK } else { FRONT };
        for (across, down) in [(0.25, 0.25), (0.75, 0.25), (0.25, 0.75), (0.75, 0.75), (0.4, 0.1), (0.6, 0.9)] {
            // As one looks at the face that is up.
            let x = if over { 1.0 - across } else { across } * 210.0;
            let at = stand(x, (1.0 - down) * 297.0) - low;
            let colour = seen.at(Point::new(at.x + 2.0, at.y + 2.0));
            assert!(alike(colour, colours[quarter(across, down)]), "over {over}, {across} {down}: {colour:?}");
        }
    }
}

/// Dark paper is shown as light as lines and words on it want (WCAG 2.2, 1.4.3), light paper as it is.
#[test]
fn lines_are_read_on_every_picture() {
    let ink = picture::INK.luminance() + 0.05;
    for dark in [0_u8, 20, 60, 100, 140, 200] {
        let points: Vec<u8> =
            (0..100_u32).flat_map(|at| if at % 10 < 3 { [dark; 3] } else { [230, 220, 210] }).collect();
        let raster = PaperPicture::read(&png((10, 10), &points), 10.0).unwrap();
        let shown = Tint([raster.points()[0], raster.points()[1], raster.points()[2]]);
        assert!((shown.luminance() + 0.05) / ink >= 4.4, "{dark}: {shown}");
        let light = Tint([dark; 3]).luminance() + 0.05 >= 4.5 * ink;
        assert_eq!(shown == Tint([dark; 3]), light, "{dark}: {shown}");
    }
}

/// Large photographs are kept no finer than print shows, and no larger than 2,000 points.
#[test]
fn a_picture_is_no_finer_than_it_is_seen() {
    let points = |count: usize| (0..count * 3).map(|at| 128 + u8::try_from(at % 100).unwrap()).collect::<Vec<u8>>();
    let wide = jpeg((2600, 40), &points(2600 * 40));
    assert_eq!(PaperPicture::read(&wide, 900.0).unwrap().size().0, 2000);
    // 40 mm at 11.8 to a millimetre.
    assert_eq!(PaperPicture::read(&wide, 40.0).unwrap().size().0, 472);
    let small = png((30, 30), &points(900));
    assert_eq!(PaperPicture::read(&small, 300.0).unwrap().size(), (30, 30));
    // A photograph goes out as a JPEG, few colours as they are.
    assert!(PaperPicture::read(&jpeg((60, 60), &noise(60 * 60)), 60.0).unwrap().file().jpeg);
    assert!(!PaperPicture::read(&quarters((60, 60), FRONT), 60.0).unwrap().file().jpeg);
}

fn noise(points: u32) -> Vec<u8> {
    (0..points * 3).map(|at| u8::try_from(at.wrapping_mul(2_654_435_761) >> 24).unwrap()).collect()
}

/// Whatever the bytes are, they are a picture or they are refused.
#[test]
fn no_bytes_are_too_much() {
    let sound = [quarters((20, 30), FRONT), jpeg((24, 24), &noise(576))];
    let mut dice = Dice(5);
    for _ in 0..300 {
        let mut bytes = sound[usize::try_from(dice.from(0, 1)).unwrap()].clone();
        for _ in 0..dice.from(1, 6) {
            let at = usize::try_from(dice.from(0, i64::try_from(bytes.len()).unwrap() - 1)).unwrap();
            match dice.from(0, 2) {
                0 => bytes.truncate(at.max(1)),
                1 => bytes[at] = u8::try_from(dice.from(0, 255)).unwrap(),
                _ => bytes.insert(at, 0),
            }
        }
        let _ = PaperPicture::read(&bytes, 100.0);
    }
    assert_eq!(PaperPicture::read(b"no picture", 100.0), Err(RasterFault::NoPicture));
    assert_eq!(PaperPicture::read(b"GIF89a\x01\0\x01\0\0\0\0;", 100.0), Err(RasterFault::NoPicture));
    assert_eq!(PaperPicture::read(&sound[0][..40], 100.0), Err(RasterFault::Broken));
    // A header that promises a large picture is not believed.
    let mut large = sound[0].clone();
    large[16..24].copy_from_slice(&[0, 0, 60, 0, 0, 0, 60, 0]);
    let crc = flate_crc(&large[12..29]);
    large[29..33].copy_from_slice(&crc.to_be_bytes());
    assert_eq!(PaperPicture::read(&large, 100.0), Err(RasterFault::TooLarge(15360, 15360)));
}

/// PNG, 5.5 and annex D.
fn flate_crc(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |crc, _| if crc & 1 == 1 { 0xEDB8_8320 ^ (crc >> 1) } else { crc >> 1 })
    })
}

const ALBUM: &str = r#"{ "format": "hingeleaf-album/1", "title": "Reeds", "stocks": { "card": { "sheet": "A4", "caliper": 0.3 },
  "paper": { "sheet": "200x200mm", "caliper": 0.2, "pattern": "one-way", STOCK } },
  "page": { "width": 90, "height": 120 }, "pages": [{ "kind": "pocket" }, { "kind": "pocket" }],
  "panels": { "reveal": 3, "stock": "paper" } }"#;

fn checked(folder: &TempDir, stock: &str) -> (i32, String) {
    let file = folder.put("album.json", ALBUM.replace("STOCK", stock));
    let run = hingeleaf([Path::new("check"), &file]);
    (run.code, run.out + &run.err)
}

/// Each thing that may be wrong with a picture is told at its field, stops nothing, and a sound one is quiet.
#[test]
fn a_picture_that_can_not_be_used_is_told_and_missed_by_nobody() {
    let folder = TempDir::new("likeness-told");
    folder.put("reeds.png", quarters((50, 50), FRONT));
    folder.put("tall.png", quarters((40, 60), FRONT));
    folder.put("words.png", "no picture");
    folder.put("broken.png", &quarters((50, 50), FRONT)[..60]);
    folder.put("heavy.jpg", vec![0; 9_000_000]);
    for (stock, says) in [
        (r#""picture": "reeds.png""#, ""),
        (r#""picture": "tall.png", "picture_width": 40"#, ""),
        (r#""picture": "weeds.png""#, "weeds.png"),
        (r#""picture": "words.png""#, "neither PNG nor JPEG"),
        (r#""picture": "broken.png""#, "breaks off, or is damaged"),
        (r#""picture": "heavy.jpg""#, "more than 8 MB"),
        (r#""picture_back": "weeds.png""#, "weeds.png"),
        (r#""picture": "tall.png""#, "300 mm tall at the sheet's width of 200 mm"),
    ] {
        let (code, said) = checked(&folder, stock);
        assert_eq!(code, 0, "{stock}: {said}");
        assert_eq!(said.contains("picture"), !says.is_empty(), "{stock}: {said}");
        assert!(said.contains(says), "{stock}: {said}");
        assert!(says.is_empty() || said.contains("line 2, column"), "{stock}: {said}");
    }
    // A sheet that is not square can lie on its side.
    let text = ALBUM.replace("200x200mm", "300x200mm").replace("STOCK", r#""picture": "tall.png""#);
    let run = hingeleaf([Path::new("check"), &folder.put("album.json", text)]);
    assert!((run.out.clone() + &run.err).contains("lies on its side"), "{run:?}");
    // Misspelt fields are told as all are.
    let (code, said) = checked(&folder, r#""picture_widht": 40"#);
    assert_eq!(code, 2, "{said}");
    assert!(said.contains("picture_width"), "{said}");
    // What a library reads has its level.
    let mut album = album(&ALBUM.replace("STOCK", r#""picture": "x.png""#));
    let shown = album.stocks[1].clone();
    let told = album.stocks[1].pictures.files().next().unwrap().read(b"x", &shown);
    assert_eq!(told.iter().map(|finding| finding.level).collect::<Vec<_>>(), [Level::Warn]);
}

/// A kit with a picture: the same bytes each time; cutting files and lists are those of the plain kit; what people look at holds
/// the picture once a file.
#[test]
fn a_kit_holds_the_picture_where_people_look_and_nowhere_else() {
    let folder = TempDir::new("likeness-kit");
    folder.put("reeds.png", quarters((60, 60), FRONT));
    let made = |name: &str, stock: &str| {
        let file = folder.put("album.json", ALBUM.replace("STOCK", stock));
        let out = folder.join(name);
        let run = hingeleaf([Path::new("kit"), &file, Path::new("--out"), &out]);
        assert_eq!(run.code, 0, "{run:?}");
        files(&out)
    };
    let plain = made("plain", r#""price": 1"#);
    let with = made("with", r#""price": 1, "picture": "reeds.png""#);
    assert_eq!(with, made("again", r#""price": 1, "picture": "reeds.png""#));
    assert_eq!(plain.keys().collect::<Vec<_>>(), with.keys().collect::<Vec<_>>());
    for (path, bytes) in &with {
        let name = path.to_string_lossy();
        let looked_at = name.ends_with("guide.html")
            || name.ends_with("guide.pdf")
            || (name.contains("paper-") && name.ends_with(".png"));
        if !looked_at && name != "report.json" {
            assert_eq!(*bytes, plain[path], "{name}");
        }
        if name.ends_with("guide.html") {
            let text = String::from_utf8(bytes.clone()).unwrap();
            assert_eq!(text.matches("data:image/").count(), 1, "the picture stands once");
            assert!(text.matches("<use href=\"#stock-").count() > 3);
            assert_ne!(*bytes, plain[path]);
        }
        if name.ends_with("guide.pdf") {
            let images = |bytes: &[u8]| {
                bytes.windows(14).filter(|part| *part == b"/Subtype/Image" || *part == b"/Subtype /Imag").count()
            };
            assert_eq!((images(&plain[path]), images(bytes)), (0, 1), "the picture stands once");
        }
    }
    assert!(fs::read(folder.join("with/sheets/paper-01.png")).unwrap() != plain[Path::new("sheets/paper-01.png")]);
}

/// What is of no picture is as it was: colours alone.
#[test]
fn a_stock_without_a_picture_has_none() {
    let album = album(&ALBUM.replace("STOCK", r#""price": 1"#));
    assert!(album.stocks.iter().all(|stock| !picture::stuff_of(std::slice::from_ref(stock), 0).is_pictured()));
    assert_eq!(picture::stuff_of(&album.stocks, 9), Stuff::CARD);
}

/// The arrow of one-way paper, on this picture: from its foot to its tip.
fn arrows(picture: &Picture) -> Vec<(Point, Point)> {
    let marks = picture.marks.windows(2);
    let one = |pair: &[Mark]| match pair {
        [Mark::Line { points, .. }, Mark::Shape { contours, fill: Some(Fill::Flat(picture::INK)), pen: None }]
            if points.len() == 2
                && contours[0].vertices().len() == 3
                && contours[0].bounds().inflate(1e-6, 1e-6).contains(points[1]) =>
        {
            Some((points[0], contours[0].vertices()[0].at))
        }
        _ => None,
    };
    marks.filter_map(one).collect()
}

/// One-way paper without a picture has an arrow to its up on each part that has room for one: up on every sheet, and on a part by itself
/// as it is cut; paper without an up has none.
#[test]
fn an_arrow_says_where_the_up_of_one_way_paper_lies() {
    let made = |pattern: &str, bound: &str| {
        let text = ALBUM.replace("\"title\"", &format!("\"bound\": \"{bound}\", \"title\""));
        crate::common::work(&text.replace("one-way", pattern).replace("STOCK", r#""price": 1"#), cutter(0.0, 0.0, 0.0))
    };
    for (pattern, bound, way) in
        [("one-way", "left", (0.0, 1.0)), ("one-way", "top", (-1.0, 0.0)), ("all-over", "left", (0.0, 0.0))]
    {
        let work = made(pattern, bound);
        let mut seen = 0;
        for (sheet, placed, part) in placed(&work) {
            let drawn = picture::sheet(work.album.order(), &work.kit, part.stock, sheet, &|_| String::new());
            for (foot, tip) in arrows(&drawn) {
                assert!((tip.x - foot.x).abs() < 1e-9 && tip.y > foot.y, "{pattern} {bound}: {foot:?} {tip:?}");
                seen += 1;
            }
            let alone = picture::part(part, &picture::stuff(&work.album, part), 0.5, &|mm| format!("{mm:.0}"));
            let wanted = usize::from(work.album.stocks[part.stock].name == "paper" && pattern == "one-way");
            // Running dimensions end in arrow heads, too: they have no shaft of two points just before.
            let ways: Vec<(f64, f64)> = arrows(&alone)
                .into_iter()
                .map(|(foot, tip)| ((tip - foot).normalize().x, (tip - foot).normalize().y))
                .filter(|found| (found.0 - way.0).abs() + (found.1 - way.1).abs() < 1e-9)
                .collect();
            assert_eq!(ways.len(), wanted, "{pattern} {bound}, {} {:?}", part.id, placed.quarters);
        }
        assert_eq!(seen > 0, pattern == "one-way", "{pattern} {bound}: {seen}");
    }
}

/// How wide the paper in a picture is says nothing where there is none: told in each such case, and in no other.
#[test]
fn a_width_without_a_picture_is_told() {
    for number in 0..8 {
        let named = |bit: usize, field: &str| if number & bit == 0 { String::new() } else { format!(", {field}") };
        let [front, back, width] =
            [(1, r#""picture": "f.png""#), (2, r#""picture_back": "b.png""#), (4, r#""picture_width": 40"#)]
                .map(|(bit, field)| named(bit, field));
        let text = format!(
            r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "card": {{ "sheet": "A4"{front}{back}{width} }} }},
            "page": {{ "width": 70, "height": 90 }}, "pages": [{{ "kind": "pocket" }}] }}"#
        );
        let source = Source::new("album.json", text.into_bytes()).unwrap();
        let told = hingeleaf::album::read(&source, &hingeleaf::parts::kinds()).findings;
        let told: Vec<_> = told.iter().filter(|finding| finding.id == "picture-width-alone").collect();
        assert_eq!(told.len(), usize::from(number == 4), "{number}: {told:?}");
        for finding in told {
            assert_eq!(finding.level, Level::Note);
            assert_eq!(finding.place.as_ref().unwrap().path, "stocks.card.picture_width");
        }
    }
}

/// The guide says that backs are darker; where one is shown as it is printed, it says that, too.
#[test]
fn the_guide_says_what_backs_look_like_in_its_pictures() {
    let said = |work: &Work| write::guide(&guide::guide(&work.guide_job(false)));
    let mut work = pictured(r#""sheet": "A4""#, (70, 90));
    let (dark, printed) = ("is darker than its front", "it shows that print");
    assert!(said(&work).contains(dark) && said(&work).contains(printed));
    work.album.stocks[0].pictures.back = None;
    assert!(said(&work).contains(dark) && !said(&work).contains(printed));
}
