// SPDX-License-Identifier: MIT
//! Paper: sizes, weights and thicknesses against the standards and trade tables they come from.

use hingeleaf::length::Length;
use hingeleaf::paper::{
    BULK_COATED, CALIPER_DOUBT, Grade, PaperError, caliper_at_bulk, estimate_caliper, grammage_from_pounds,
    named_sheets, parse_grammage, parse_size, pounds_from_grammage, sheet, sheet_mass, trimmed_tolerance,
    untrimmed_tolerance,
};
use proptest::prelude::*;

fn mm(mm: f64) -> Length {
    Length::from_mm(mm)
}

fn size(name: &str) -> (f64, f64) {
    let sheet = sheet(name).unwrap_or_else(|| panic!("no sheet {name}"));
    (sheet.width.mm(), sheet.height.mm())
}

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found} is not {expected} +- {tolerance}");
}

fn refused<T: std::fmt::Debug>(result: Result<T, PaperError>, parts: &[&str]) {
    let error = match result {
        Ok(value) => panic!("{value:?} should be refused with {parts:?}"),
        Err(error) => error.to_string(),
    };
    for part in parts {
        assert!(error.contains(part), "{part:?} is not in {error:?}");
    }
}

#[test]
fn sheets_have_their_standard_sizes() {
    for (name, width, height, source) in [
        // ISO 216:2007, A and B series.
        ("A2", 420.0, 594.0, "ISO 216:2007"),
        ("A3", 297.0, 420.0, "ISO 216:2007"),
        ("A4", 210.0, 297.0, "ISO 216:2007"),
        ("A5", 148.0, 210.0, "ISO 216:2007"),
        ("A6", 105.0, 148.0, "ISO 216:2007"),
        ("B3", 353.0, 500.0, "ISO 216:2007"),
        ("B4", 250.0, 353.0, "ISO 216:2007"),
        ("B5", 176.0, 250.0, "ISO 216:2007"),
        // ISO 217:2013 cl. 5.1, 5.2 (numbers from secondary tables).
        ("RA2", 430.0, 610.0, "ISO 217:2013"),
        ("RA3", 305.0, 430.0, "ISO 217:2013"),
        ("RA4", 215.0, 305.0, "ISO 217:2013"),
        ("SRA2", 450.0, 640.0, "ISO 217:2013"),
        ("SRA3", 320.0, 450.0, "ISO 217:2013"),
        ("SRA4", 225.0, 320.0, "ISO 217:2013"),
        // ASME Y14.1 sizes A and B: 8 1/2 x 11 in, 11 x 17 in.
        ("letter", 215.9, 279.4, "ASME Y14.1"),
        ("tabloid", 279.4, 431.8, "ASME Y14.1"),
        // Common practice, no source (not in ASME Y14.1): 8 1/2 x 14 in.
        ("legal", 215.9, 355.6, "common practice, no source"),
    ] {
        assert_eq!(size(name), (width, height), "{name}");
        assert!(sheet(name).unwrap().source.starts_with(source), "{name}");
        for spelling in [name.to_lowercase(), name.to_uppercase(), format!(" {name} ")] {
            assert_eq!(sheet(&spelling).map(|sheet| sheet.name), Some(name), "{spelling}");
        }
    }
    assert_eq!(named_sheets().len(), 17);
    assert!(named_sheets().iter().all(|sheet| sheet.width < sheet.height));
    assert!(["A0", "A1", "A7", "", "A 4", "lettre"].into_iter().all(|name| sheet(name).is_none()));
    assert_eq!(parse_size("8 1/2 x 11 in"), Ok((mm(215.9), mm(279.4))));
    assert_eq!(parse_size("8 1/2 x 14 in"), Ok((mm(215.9), mm(355.6))));
    assert_eq!(parse_size("11 x 17 in"), Ok((mm(279.4), mm(431.8))));
}

#[test]
fn sheets_have_their_standard_tolerances() {
    // ISO 216, from memory (clause not seen).
    for (side, off) in [(105.0, 1.5), (150.0, 1.5), (150.1, 2.0), (600.0, 2.0), (600.1, 3.0)] {
        assert_eq!(trimmed_tolerance(mm(side)), mm(off), "{side}");
    }
    // ISO 479:1975 cl. 4 (since replaced by ISO 217).
    for (side, off) in [(215.0, 3.0), (600.0, 3.0), (600.1, 4.0), (1000.0, 4.0), (1000.1, 5.0)] {
        assert_eq!(untrimmed_tolerance(mm(side)), mm(off), "{side}");
    }
    let tolerance = |name| sheet(name).unwrap().tolerance();
    assert_eq!(tolerance("A5"), Some((mm(1.5), mm(2.0))));
    assert_eq!(tolerance("SRA2"), Some((mm(3.0), mm(4.0))));
    assert_eq!(tolerance("letter"), None);
}

/// Craft squares; common practice, no source.
#[test]
fn a_twelve_inch_square_wants_the_larger_sheet() {
    for (text, side) in [("12x12in", 304.8), ("8x8in", 203.2), ("6x6in", 152.4)] {
        assert_eq!(parse_size(text), Ok((mm(side), mm(side))));
    }
    let twelve = 304.8;
    assert!(twelve > size("A3").0);
    near(size("RA3").0 - twelve, 0.2, 1e-9);
}

/// Computed: letter is wider than A4, A4 taller than letter.
#[test]
fn letter_and_a4_do_not_stand_in_for_each_other() {
    let (letter, a4) = (size("letter"), size("A4"));
    assert!(letter.0 > a4.0 && a4.1 > letter.1);
    assert!(named_sheets().iter().filter(|sheet| sheet.width == mm(215.9)).all(|sheet| sheet.name.starts_with("le")));
}

#[test]
fn sizes_of_ones_own() {
    for text in [
        "12x12in",
        "12 x 12 in",
        "12×12in",
        "12X12IN",
        "12in x 12in",
        "12\" x 12\"",
        "12in x 12",
        "304.8x304.8mm",
        "30.48x30.48cm",
        "12in x 304.8 mm",
        " 24/2 x 12.0 inches ",
    ] {
        assert_eq!(parse_size(text), Ok((mm(304.8), mm(304.8))), "{text}");
    }
    for text in ["300x200mm", "300 x 200 mm", "30x20cm", "300mm×20cm"] {
        assert_eq!(parse_size(text), Ok((mm(300.0), mm(200.0))), "{text}");
    }
    assert_eq!(parse_size("8½x11in"), Ok((mm(215.9), mm(279.4))));
    assert_eq!(parse_size("11 x 8½″"), Ok((mm(279.4), mm(215.9))));
    refused(parse_size("12x12"), &["\"12x12\" has no unit", "\"12x12in\" or \"12x12mm\""]);
    refused(parse_size("0x12in"), &["not more than zero", "\"300x200mm\""]);
    refused(parse_size("12x-12in"), &["not more than zero", "\"12x12in\""]);
    refused(parse_size("12x12x1in"), &["not a width and a height", "\"12x12in\""]);
    for text in ["", "x", "12in", "12x", "x12in", "lettre", "executive", "A4", "mm x mm"] {
        refused(parse_size(text), &["not a width and a height", "\"300x200mm\""]);
    }
    refused(parse_size("30,5x20cm"), &["in \"30,5x20cm\"", "30.5 with a point"]);
    refused(parse_size("12x12 inchs"), &["there is no unit \"inchs\"", "did you mean \"12 in\"?"]);
    refused(parse_size("1/0x12in"), &["divides by zero"]);
    refused(parse_size("12x12pt"), &["is in points"]);
    refused(parse_size("1e9x12mm"), &["more than 100 m"]);
}

/// Computed: 453.59237 g x 1 / (500 x W x H x 0.0254^2) = 1406.139 / (W x H in inches) g/m² a pound. Basic sizes from
/// US paper trade conversion tables (several agree).
#[test]
fn pounds_of_each_grade() {
    for (grade, (width, height), factor) in [
        (Grade::Bond, (17.0, 22.0), 3.759_730),
        (Grade::Text, (25.0, 38.0), 1.480_146),
        (Grade::Cover, (20.0, 26.0), 2.704_114),
        (Grade::Bristol, (22.5, 28.5), 2.192_810),
        (Grade::Index, (25.5, 30.5), 1.807_958),
        (Grade::Tag, (24.0, 36.0), 1.627_476),
    ] {
        assert_eq!(grade.basic_size(), (Length::from_inches(width), Length::from_inches(height)));
        near(grammage_from_pounds(1.0, grade), factor, 1e-6);
        near(grammage_from_pounds(1.0, grade), 1406.139 / (width * height), 1e-5);
        // The trade constant 1406.5 is 0.026 % high; printed tables may be 0.05 % off.
        near(grammage_from_pounds(1.0, grade) * width * height / 1406.5, 1.0, 0.0005);
        near(pounds_from_grammage(grammage_from_pounds(110.0, grade), grade), 110.0, 1e-9);
        assert_eq!(Grade::parse(&grade.name().to_uppercase()), Some(grade));
    }
}

/// Computed from the factors above.
#[test]
fn weights_of_common_card() {
    for (pounds, grade, gsm) in [
        (65.0, Grade::Cover, 175.8),
        (80.0, Grade::Cover, 216.3),
        (100.0, Grade::Cover, 270.4),
        (110.0, Grade::Cover, 297.5),
        (90.0, Grade::Index, 162.7),
        (110.0, Grade::Index, 198.9),
        (140.0, Grade::Index, 253.1),
        (70.0, Grade::Text, 103.6),
        (80.0, Grade::Text, 118.4),
        (100.0, Grade::Text, 148.0),
        (67.0, Grade::Bristol, 146.9),
        (125.0, Grade::Tag, 203.4),
    ] {
        near(grammage_from_pounds(pounds, grade), gsm, 0.05);
        for text in [format!("{pounds} lb {}", grade.name()), format!("{pounds}# {}", grade.name())] {
            near(parse_grammage(&text).expect(&text), gsm, 0.05);
        }
    }
    // Computed; a trade chart prints 146.
    near(pounds_from_grammage(grammage_from_pounds(80.0, Grade::Cover), Grade::Text), 146.2, 0.1);
}

/// Computed: 110 lb is three different papers.
#[test]
fn pounds_without_a_grade_are_refused() {
    let parts = ["what grade", "cover 297.5", "index 198.9", "text 162.8", "\"110 lb cover\""];
    for text in ["110 lb", "110lb", "110 lbs.", "110#", "110 pounds"] {
        refused(parse_grammage(text), &parts);
    }
}

#[test]
fn weights_as_people_write_them() {
    for text in ["280 gsm", "280gsm", "280 g/m2", "280 g/m²", "280 G/M²", "280.0 GSM", " 280 g/m^2 "] {
        near(parse_grammage(text).expect(text), 280.0, 1e-12);
    }
    for text in ["65 lb cover", "65# cover", "65lb Cover", "65 lbs cover", "65 lb. cover", "65 pound cover", "65#cover"]
    {
        near(parse_grammage(text).expect(text), 175.77, 0.01);
    }
    refused(parse_grammage(""), &["does not begin with a weight", "\"280 gsm\""]);
    refused(parse_grammage("heavy"), &["does not begin with a weight", "\"65 lb cover\""]);
    refused(parse_grammage("280"), &["\"280\" has no unit", "\"280 gsm\""]);
    refused(parse_grammage("280 g"), &["no unit \"g\"", "did you mean \"280 gsm\"?"]);
    refused(parse_grammage("280 gms"), &["did you mean \"280 gsm\"?"]);
    refused(parse_grammage("97,5 gsm"), &["comma", "\"97.5 gsm\""]);
    refused(parse_grammage("65 cover"), &["did you mean \"65 lb cover\"?"]);
    refused(parse_grammage("65 lb covr"), &["no grade \"covr\"", "did you mean \"65 lb cover\"?"]);
    refused(parse_grammage("110 lb indx"), &["did you mean \"110 lb index\"?"]);
    refused(parse_grammage("67 lb brsitol"), &["did you mean \"67 lb bristol\"?"]);
    refused(parse_grammage("65 lb cardstock"), &["did you mean \"65 lb cover\"?"]);
    refused(parse_grammage("60 lb book"), &["did you mean \"60 lb text\"?"]);
    refused(parse_grammage("65 lb cheese"), &["no grade \"cheese\"", "bond, text, cover, bristol, index, tag"]);
    refused(parse_grammage("0 gsm"), &["not more than zero"]);
    refused(parse_grammage("-5 lb cover"), &["not more than zero"]);
    refused(parse_grammage("10001 gsm"), &["heavier than any card or board"]);
    refused(parse_grammage("12 oz"), &["no unit \"oz\"", "\"280 gsm\""]);
}

/// Definition of specific volume, ISO 534: caliper in µm = g/m² x cm³/g.
#[test]
fn caliper_from_grammage() {
    let mm_of = |gsm, bulk| caliper_at_bulk(gsm, bulk).mm();
    near(mm_of(175.77, 1.2), 0.2109, 0.000_05);
    assert_eq!(estimate_caliper(175.77), caliper_at_bulk(175.77, 1.2));
    // Common practice: bulk 1.0 to 1.4, default 1.2, 15 % either way. A US weight and caliper chart implies 1.03 to
    // 1.16, which lies within.
    for bulk in [1.03, 1.16] {
        near(mm_of(200.0, bulk) / estimate_caliper(200.0).mm(), 1.0, CALIPER_DOUBT);
    }
    // Common practice, no source: coated card 0.8 to 1.0, default 0.9.
    near(mm_of(300.0, BULK_COATED), 0.27, 1e-12);
    for bulk in [0.8, 1.0] {
        near(bulk / BULK_COATED, 1.0, CALIPER_DOUBT);
    }
    // University papermaking course notes: copy paper of 75 g/m² is 0.102 mm, bulk 1.35.
    near(0.102 / mm_of(75.0, 1.0), 1.35, 0.03);
    near(mm_of(75.0, 1.35), 0.102, 0.002);
}

/// Computed from the definition of grammage, ISO 536.
#[test]
fn mass_of_a_sheet() {
    // 0.3048 m x 0.3048 m x 175.77 g/m² = 16.33 g.
    near(sheet_mass(mm(304.8), mm(304.8), 175.77), 16.33, 0.01);
    // 0.2159 m x 0.2794 m x 198.88 g/m² = 12.00 g.
    near(sheet_mass(mm(215.9), mm(279.4), 198.88), 12.00, 0.01);
    // 500 sheets of the basic size weigh what the grade says.
    let (width, height) = Grade::Cover.basic_size();
    near(500.0 * sheet_mass(width, height, grammage_from_pounds(65.0, Grade::Cover)), 65.0 * 453.592_37, 1e-6);
}

proptest! {
    #[test]
    fn no_text_makes_it_panic(text in any::<String>()) {
        let _ = (sheet(&text), parse_size(&text), parse_grammage(&text), Grade::parse(&text));
    }

    #[test]
    fn no_text_like_a_size_or_weight_makes_it_panic(text in "[0-9./½ -]{0,6}[xX× ]?[0-9./½ ]{0,6}(in|mm|cm|lb|#|gsm| )?[a-z]{0,9}") {
        if let Ok((width, height)) = parse_size(&text) {
            prop_assert!(width > Length::ZERO && height > Length::ZERO);
        }
        if let Ok(gsm) = parse_grammage(&text) {
            prop_assert!(gsm > 0.0 && gsm <= 10_000.0);
        }
    }

    /// The other way round, a size has its sides the other way round.
    #[test]
    fn a_turned_size(width in 1..2000_u32, height in 1..2000_u32) {
        let one = parse_size(&format!("{width}x{height}mm")).unwrap();
        let other = parse_size(&format!("{height}mm x {width}mm")).unwrap();
        prop_assert_eq!(one, (other.1, other.0));
        prop_assert_eq!(one, (mm(f64::from(width)), mm(f64::from(height))));
    }

    #[test]
    fn pounds_there_and_back(pounds in 1.0..500.0_f64) {
        for grade in Grade::ALL {
            let back = pounds_from_grammage(grammage_from_pounds(pounds, grade), grade);
            prop_assert!((back - pounds).abs() < 1e-9);
        }
    }
}
