// SPDX-License-Identifier: MIT
//! Sheets of a stock that has a picture, printed before they are cut: the picture as it came, where the sheets' own pictures show it.
//! Other people's readers look at the pages in `tests/outside/test_printed_first.py`.

use crate::common::instances::Dice;
use crate::common::{TempDir, cutter, files, hingeleaf, near};
use crate::likeness::{FRONT, jpeg, on_the_picture, pictured, png, quarters};
use hingeleaf::contour::{Contour, Point, turned};
use hingeleaf::cutter::{Cutter, MarkShape, MarkSides, RegisterMarks};
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::length::Length;
use hingeleaf::picture::{self, Fill, Mark, PrintedPage};
use hingeleaf::prepress;
use hingeleaf::raster::PaperPicture;
use hingeleaf::sheets::Search;
use hingeleaf::toolpath::Labels;
use hingeleaf::work::Work;
use hingeleaf::write;
use std::path::Path;
use std::sync::Arc;

fn marked(bleed: f64) -> Cutter {
    let mm = Length::from_mm;
    let (shape, along) = (MarkShape::Ring, MarkSides::Short);
    let marks =
        RegisterMarks { shape, size: mm(6.0), inset: mm(8.0), number: 3, line: mm(0.5), along, bleed: mm(bleed) };
    Cutter { marks: Some(marks), ..cutter(0.1, 4.0, 6.0) }
}

fn printed(stock: &str, bleed: f64) -> (Work, Vec<PrintedPage>) {
    let plain = pictured(stock, (70, 90));
    let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
    let work = Work::new(plain.album, marked(bleed), Labels::default(), search, &Unwatched);
    let laid = (work.stocks.as_slice(), work.paths.as_slice());
    let pages = prepress::pages(work.album.order(), &work.kit, laid, &work.cutter, work.album.language);
    (work, pages)
}

fn fills(picture: &picture::Picture) -> Vec<(&[Contour], &Fill)> {
    let pictured = picture.marks.iter().filter_map(|mark| match mark {
        Mark::Shape { contours, fill: Some(fill @ Fill::Pictured { .. }), .. } => Some((contours.as_slice(), fill)),
        _ => None,
    });
    pictured.collect()
}

/// Every part of every sheet, standing or turned: on the page there is at each place what the picture of the sheet has there, and the bleed
/// goes on past the part on all sides, into its holes.
#[test]
fn a_page_shows_what_the_picture_of_its_sheet_shows() {
    let (mut looked, mut turns) = (0, [0; 4]);
    for stock in [
        r#""sheet": "A4""#,
        r#""sheet": "A4", "grain": "short""#,
        r#""sheet": "300x200mm", "grain": "long""#,
        r#""sheet": "A3", "pattern": "one-way", "picture_width": 61"#,
    ] {
        for bleed in [0.0, 1.5] {
            let (work, pages) = printed(stock, bleed);
            let sheets: Vec<_> = work.stocks.iter().flat_map(|laid| &laid.sheets).collect();
            assert_eq!(pages.len(), sheets.len());
            for (page, sheet) in pages.iter().zip(sheets) {
                let drawn = picture::sheet(work.album.order(), &work.kit, 0, sheet, &|_| String::new());
                let (on_page, on_sheet) = (fills(&page.picture), fills(&drawn));
                assert_eq!((on_page.len(), on_sheet.len()), (sheet.placements.len(), sheet.placements.len()));
                for ((placed, printed), shown) in sheet.placements.iter().zip(&on_page).zip(&on_sheet) {
                    turns[usize::from(placed.quarters)] += 1;
                    let part = &work.kit.parts[placed.part];
                    for (x, y) in [(0.0, 0.0), (0.3, 0.9), (1.0, 0.5)] {
                        let size = (part.flat.width, part.flat.height);
                        let at = turned(Point::new(x * size.0, y * size.1), placed.quarters, size);
                        let at = Point::new(at.x + placed.x, at.y + placed.y);
                        let (one, other) = (on_the_picture(printed.1, at), on_the_picture(shown.1, at));
                        near(one.0, other.0, 1e-9);
                        near(one.1, other.1, 1e-9);
                        looked += 1;
                    }
                    assert_eq!(printed.0.len(), shown.0.len());
                    for (number, (past, cut)) in printed.0.iter().zip(shown.0).enumerate() {
                        let by = if number == 0 { bleed } else { -bleed };
                        let (past, cut) = (past.bounds(), cut.bounds().inflate(by, by));
                        let corners = [(past.x0, cut.x0), (past.y0, cut.y0), (past.x1, cut.x1), (past.y1, cut.y1)];
                        for (one, other) in corners {
                            near(one, other, 1e-6);
                        }
                    }
                }
            }
        }
    }
    assert!(looked > 50 && turns.iter().filter(|turns| **turns > 0).count() > 1, "{looked}, {turns:?}");
}

/// What is printed is neither lightened nor made coarser; a file that is upright and hides nothing is kept, byte for byte.
#[test]
fn what_is_printed_is_as_it_came() {
    let dark: Vec<u8> = (0..3000 * 30_u32).flat_map(|at| if at % 7 < 3 { [20, 0, 40] } else { [90, 60, 10] }).collect();
    let file = png((3000, 30), &dark);
    let read = PaperPicture::read(&file, 400.0).unwrap();
    assert!(read.size().0 == 2000 && read.points()[0] > 60, "it is shown coarser and lighter");
    let print = read.to_print().unwrap();
    assert!(print.is_to_print() && !read.is_to_print() && print.name() != read.name());
    assert_eq!((print.file().bytes.as_slice(), print.file().jpeg), (file.as_slice(), false));
    assert_eq!(print.points_across(), 3000);
    near(print.proportion(), 0.01, 1e-12);
    let small = PaperPicture::read(&png((40, 30), &dark[..3600]), 40.0).unwrap().to_print().unwrap();
    assert_eq!(small.points(), &dark[..3600]);
    let photograph = jpeg((64, 32), &dark[..64 * 32 * 3]);
    let print = PaperPicture::read(&photograph, 40.0).unwrap().to_print().unwrap();
    assert!(print.file().jpeg);
    assert_eq!(print.file().bytes, photograph);
    // What is seen through is on white, as pictures for people have it.
    let mut clear = Vec::new();
    let points = image::RgbaImage::from_fn(20, 10, |x, _| image::Rgba([0, 0, 200, if x < 10 { 0 } else { 255 }]));
    points.write_to(&mut std::io::Cursor::new(&mut clear), image::ImageFormat::Png).unwrap();
    let print = PaperPicture::read(&clear, 40.0).unwrap().to_print().unwrap();
    let written = image::load_from_memory(&print.file().bytes).unwrap();
    assert!(!written.color().has_alpha());
    let written = written.to_rgb8();
    assert_eq!((written.get_pixel(2, 5).0, written.get_pixel(15, 5).0), ([255; 3], [0, 0, 200]));
}

/// The pages are the same bytes each time and hold the picture once, however many parts and sheets show it; a small one, which many
/// pictures for people would have as a colour, too.
#[test]
fn a_pdf_holds_the_picture_once() {
    for stock in [r#""sheet": "A4""#, r#""sheet": "A4", "picture_width": 3"#] {
        let (work, pages) = printed(stock, 1.5);
        assert!(work.kit.parts.len() > 2 && !pages.is_empty());
        let made = || write::pdf("pages", "en", &pages).unwrap();
        let bytes = made();
        assert_eq!(bytes, made());
        let images = bytes.windows(14).filter(|part| *part == b"/Subtype/Image" || *part == b"/Subtype /Imag").count();
        assert_eq!(images, 1, "{stock}");
    }
}

/// Grey, colours, eight bits and sixteen, seen through or not, PNG and JPEG: each is in the page as a picture, with all its points.
#[test]
fn every_sort_of_picture_is_printed() {
    use image::{DynamicImage, ImageFormat};
    let shades = image::ImageBuffer::from_fn(30, 20, |x, y| image::Luma([u8::try_from(x * 8 + y).unwrap()]));
    let grey = DynamicImage::ImageLuma8(shades);
    let sorts = [
        (grey.clone(), ImageFormat::Png),
        (grey.clone(), ImageFormat::Jpeg),
        (DynamicImage::ImageRgb8(grey.to_rgb8()), ImageFormat::Png),
        (DynamicImage::ImageRgb8(grey.to_rgb8()), ImageFormat::Jpeg),
        (DynamicImage::ImageLuma16(grey.to_luma16()), ImageFormat::Png),
        (DynamicImage::ImageRgb16(grey.to_rgb16()), ImageFormat::Png),
        (DynamicImage::ImageLumaA8(grey.to_luma_alpha8()), ImageFormat::Png),
        (DynamicImage::ImageRgba8(grey.to_rgba8()), ImageFormat::Png),
        (DynamicImage::ImageRgba16(grey.to_rgba16()), ImageFormat::Png),
    ];
    for (number, (picture, format)) in sorts.into_iter().enumerate() {
        let mut file = Vec::new();
        picture.write_to(&mut std::io::Cursor::new(&mut file), format).unwrap();
        let raster = Arc::new(PaperPicture::read(&file, 60.0).unwrap().to_print().unwrap());
        let contours = vec![Contour::rectangle(5.0, 5.0, 50.0, 30.0)];
        let tile = kurbo::Affine::new([60.0, 0.0, 0.0, 40.0, 0.0, 0.0]);
        let marks = vec![Mark::Shape { contours, fill: Some(Fill::Pictured { raster, tile }), pen: None }];
        let drawn = picture::Picture { width: 60.0, height: 40.0, marks };
        let page = PrintedPage::new(drawn, "one".into(), "one".into());
        let bytes = write::pdf("pages", "en", &[page]).unwrap();
        let has = |words: &[u8]| bytes.windows(words.len()).any(|some| some == words);
        assert!(has(b"/Width 30") && has(b"/Height 20") && !has(b"/SMask"), "sort {number}");
    }
}

/// A kit whose stock has a picture as fine as 150 points to an inch, or a little less, with marks and without them.
#[test]
fn a_picture_too_coarse_to_be_printed_is_told() {
    let folder = TempDir::new("printed-coarse");
    let file = r#"{ "format": "hingeleaf-cutter/1", "kerf": 0.1, "gap": 4, "margin": 6, "marks": { "number": 4 } }"#;
    let marks = folder.put("marks.json", file);
    let plain = folder.put("plain.json", r#"{ "format": "hingeleaf-cutter/1", "kerf": 0.1, "gap": 4, "margin": 6 }"#);
    let album = |stock: &str| {
        format!(
            r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.3, {stock} }} }},
            "page": {{ "width": 70, "height": 90 }}, "pages": [{{ "kind": "pocket" }}] }}"#
        )
    };
    let said = |across: u32, stock: &str, cutter: &Path| {
        folder.put("reeds.png", quarters((across, across), FRONT));
        let file = folder.put("album.json", album(stock));
        let run = hingeleaf([Path::new("check"), &file, Path::new("--cutter"), cutter]);
        (run.code, run.out + &run.err)
    };
    // 4 inches of 600 points are 150 to an inch.
    let four = r#""picture": "reeds.png", "picture_width": "4 in""#;
    let told = |said: &(i32, String)| said.1.contains("points to an inch");
    let coarse = said(599, four, &marks);
    assert!(coarse.0 == 0 && told(&coarse), "{coarse:?}");
    assert!(coarse.1.contains("149 points") && coarse.1.contains("600 points across") && coarse.1.contains("1200"));
    let sound = said(600, four, &marks);
    assert!(sound.0 == 0 && !told(&sound), "{sound:?}");
    for (across, stock, cutter) in [
        (599, four, &plain),
        (599, r#""by": "trimmer", "picture": "reeds.png", "picture_width": "4 in""#, &marks),
        (599, r#""by": "trimmer", "cutter": "marks.json", "picture": "reeds.png", "picture_width": "4 in""#, &plain),
        (599, r#""picture_back": "reeds.png", "picture_width": "4 in""#, &marks),
        (599, r#""picture": "reeds.png", "picture_width": "4 in", "cutter": "plain.json""#, &marks),
        (599, r#""picture": "reeds.png", "picture_width": "3.9 in""#, &marks),
    ] {
        let quiet = said(across, stock, cutter);
        assert!(quiet.0 == 0 && !told(&quiet), "{stock}: {quiet:?}");
    }
    // Any number of points on any width: told just where they are fewer than 150 to an inch.
    let mut dice = Dice(5);
    let mut coarse = 0;
    for _ in 0..40 {
        let (across, width) = (u32::try_from(dice.from(40, 940)).unwrap(), i32::try_from(dice.from(20, 200)).unwrap());
        // So near to it that rounding decides is not asked.
        let inch = f64::from(across) * 25.4 / f64::from(width);
        if (inch - 150.0).abs() < 0.5 {
            continue;
        }
        let said = said(across, &format!(r#""picture": "reeds.png", "picture_width": {width}"#), &marks);
        assert_eq!((said.0, told(&said)), (0, inch < 150.0), "{across} points on {width} mm: {said:?}");
        coarse += usize::from(inch < 150.0);
    }
    assert!(coarse > 8 && coarse < 32, "{coarse}");
    // As wide as the sheet where nothing else is said: 599 points on 210 mm.
    let wide = said(599, r#""picture": "reeds.png""#, &marks);
    assert!(told(&wide) && wide.1.contains("72 points"), "{wide:?}");
}

/// Nothing but the page that is printed holds the picture of a stock as it came.
#[test]
fn cutting_files_know_nothing_of_it() {
    let folder = TempDir::new("printed-kit");
    folder.put("reeds.png", quarters((700, 990), FRONT));
    let cutter = r#"{ "format": "hingeleaf-cutter/1", "gap": 4, "margin": 6, "marks": { "number": 4, "bleed": 1 } }"#;
    let cutter = folder.put("cutter.json", cutter);
    let made = |name: &str, stock: &str| {
        let text = format!(
            r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.3{stock} }} }},
            "page": {{ "width": 70, "height": 90 }}, "pages": [{{ "kind": "pocket" }}] }}"#
        );
        let (file, out) = (folder.put("album.json", text), folder.join(name));
        let run = hingeleaf([
            Path::new("kit"),
            &file,
            Path::new("--cutter"),
            &cutter,
            Path::new("--formats"),
            Path::new("svg,dxf,pdf"),
            Path::new("--out"),
            &out,
        ]);
        assert_eq!(run.code, 0, "{run:?}");
        files(&out)
    };
    let (plain, with) = (made("plain", ""), made("with", r#", "picture": "reeds.png""#));
    assert_ne!(plain[Path::new("print-first.pdf")], with[Path::new("print-first.pdf")]);
    for (path, bytes) in with.iter().filter(|(path, _)| path.starts_with("sheets")) {
        assert_eq!(*bytes, plain[path], "{}", path.display());
    }
}
