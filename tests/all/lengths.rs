// SPDX-License-Identifier: MIT
//! Lengths: what people write, what they read, and that nothing is lost between the two.

use hingeleaf::length::{Allow, Length, LengthError, Ruler, Units, parse};
use proptest::prelude::*;

fn plain(text: &str) -> Result<Length, LengthError> {
    parse(text, Units::Mm, Allow::Plain)
}

fn refusal(text: &str) -> String {
    match plain(text) {
        Ok(length) => panic!("{text:?} was read as {length:?}"),
        Err(error) => error.to_string(),
    }
}

/// Every way of writing it that people use, each giving the very same bits.
#[test]
fn one_length_written_many_ways() {
    let same = [
        "8 1/2 in",
        "8½ in",
        "17/2 in",
        "8-1/2 in",
        "8.5in",
        "8 1/2\"",
        "8½″",
        "8 1/2 inch",
        "8 1/2 inches",
        "  8 1/2 in  ",
        "8\u{a0}½\u{a0}in",
        "8 1⁄2 in",
        "8 ½ IN",
        "8–1/2 in",
        "8 2/4 in.",
        "8.500 in",
        "34/4 Inches",
        "+8.5 in",
        "8.5''",
        "8.5”",
        "215.9 mm",
        "215.9",
        "21.59 cm",
        "21.59cm",
        "215.90 millimetres",
        "215.9 millimeters",
        "2.159e2 mm",
        "2159/10 mm",
        "21.59 centimeters",
    ];
    for text in same {
        assert_eq!(plain(text), Ok(Length::from_mm(215.9)), "{text}");
        assert_eq!(plain(text).unwrap(), Length::from_inches(8.5), "{text}");
    }
    for (text, mm) in [
        ("216 mm", 216.0),
        ("21.6 cm", 216.0),
        ("5/16 in", 7.9375),
        ("½", 0.5),
        (".5 mm", 0.5),
        ("8. mm", 8.0),
        ("⅛ in", 3.175),
        ("¼ in", 6.35),
        ("⅜ in", 9.525),
        ("¾ in", 19.05),
        ("⅝ in", 15.875),
        ("⅞ in", 22.225),
        ("3⅓ cm", 100.0 / 3.0),
        ("⅔ mm", 2.0 / 3.0),
        ("-3 mm", -3.0),
        ("- 1/2 in", -12.7),
        ("−½ in", -12.7),
        ("0 in", 0.0),
        ("-0", 0.0),
        ("100000 mm", 100_000.0),
        ("0.35", 0.35),
        ("0.035 cm", 0.35),
    ] {
        assert_eq!(plain(text), Ok(Length::from_mm(mm)), "{text}");
    }
    assert!(plain("-0").unwrap().mm().is_sign_positive());
}

#[test]
fn a_bare_number_is_in_the_albums_unit() {
    for (unit, mm) in [(Units::Mm, 8.5), (Units::Cm, 85.0), (Units::In, 215.9)] {
        assert_eq!(parse("8 1/2", unit, Allow::Plain), Ok(Length::from_mm(mm)));
        assert_eq!(Length::from_number(8.5, unit), Ok(Length::from_mm(mm)));
        assert_eq!(Units::parse(unit.name()), Some(unit));
    }
    assert_eq!(Units::parse("MM"), None);
}

/// A point of caliper is 0.001 in (the paper trade's definition), and not the 1/72 in of type.
#[test]
fn points_of_caliper() {
    for (text, mm) in [("8 pt", 0.2032), ("10 pt", 0.2540), ("12 pt", 0.3048), ("24pt", 0.6096), ("1 point", 0.0254)] {
        assert_eq!(parse(text, Units::In, Allow::Caliper), Ok(Length::from_mm(mm)), "{text}");
    }
    assert_eq!(parse("12 pt", Units::Mm, Allow::Caliper), plain("0.012 in"));
    let error = refusal("12 pt");
    assert!(error.contains("1/72 in for type") && error.contains("0.001 in for card"), "{error}");
}

/// 1/64 in = 25.4 / 64 mm = 0.396875 mm = 3175 eighths of a micrometre: every mark of a ruler up to 40 in.
#[test]
fn every_sixty_fourth_survives_printing_and_reading() {
    for n in -64..=40 * 64 {
        let inches = f64::from(n) / 64.0;
        let length = Length::from_inches(inches);
        assert_eq!(length.eighths(), 3175 * i64::from(n));
        assert_eq!(Length::from_eighths(3175 * i64::from(n)), length);
        assert!((length.inches() - inches).abs() < 1e-13);
        let shown = length.show(Units::In, Ruler::SixtyFourth);
        assert_eq!(plain(&shown), Ok(length), "{shown}");
        let short = length.plain(Units::In);
        assert_eq!(format!("{short} in"), shown);
        assert_eq!(parse(&short, Units::In, Allow::Plain), Ok(length));
        assert_eq!(plain(&format!("{n}/64 in")), Ok(length));
        assert_eq!(plain(&format!("{inches} in")), Ok(length), "as a decimal");
        for (ruler, den) in [(Ruler::Sixteenth, 16), (Ruler::ThirtySecond, 32)] {
            let on_the_mark = n * den % 64 == 0;
            let text = length.show(Units::In, ruler);
            assert_eq!(!text.contains('('), on_the_mark || inches.abs() < 0.5 / f64::from(den), "{text}");
        }
    }
}

#[test]
fn printed_for_people() {
    let show = |mm: f64, units| Length::from_mm(mm).show(units, Ruler::Sixteenth);
    for (mm, text) in [
        (148.0, "148 mm"),
        (0.35, "0.35 mm"),
        (0.0, "0 mm"),
        (-0.0, "0 mm"),
        (-0.0001, "0 mm"),
        (-3.0, "-3 mm"),
        (1000.0, "1000 mm"),
        (0.1 + 0.2, "0.3 mm"),
        (2.0 / 3.0, "0.667 mm"),
    ] {
        assert_eq!(show(mm, Units::Mm), text);
    }
    for (mm, text) in [(216.0, "21.6 cm"), (0.35, "0.035 cm"), (0.0, "0 cm"), (-0.0001, "0 cm"), (100.0, "10 cm")] {
        assert_eq!(show(mm, Units::Cm), text);
    }
    for (mm, text) in [
        (215.9, "8 1/2 in"),
        (7.9375, "5/16 in"),
        (0.0, "0 in"),
        (-0.0, "0 in"),
        (304.8, "12 in"),
        (-12.7, "-1/2 in"),
        // 5 13/16 in = 147.6375 mm, 0.3625 less than 148.
        (148.0, "5 13/16 in (0.36 mm under)"),
        (-148.0, "-5 13/16 in (0.36 mm under)"),
        // 3/16 in = 4.7625 mm.
        (4.5, "3/16 in (0.26 mm over)"),
        (12.701, "1/2 in (0.001 mm under)"),
        (12.7002, "1/2 in"),
        // Less than half a sixteenth: a caliper of 0.35 mm is 13.8 thousandths of an inch.
        (0.35, "0.0138 in"),
        (-0.35, "-0.0138 in"),
        (0.0004, "0 in"),
        (0.001, "0 in"),
    ] {
        assert_eq!(show(mm, Units::In), text, "{mm}");
    }
    let width = Length::from_mm(148.0);
    // 5 26/32 in is 5 13/16 in, the nearer of 147.6375 and 148.43 mm; 5 53/64 in = 148.034 mm.
    assert_eq!(width.show(Units::In, Ruler::ThirtySecond), "5 13/16 in (0.36 mm under)");
    assert_eq!(width.show(Units::In, Ruler::SixtyFourth), "5 53/64 in (0.03 mm over)");
    assert_eq!(width.plain(Units::In), "5 53/64");
    assert_eq!(Length::from_inches(2.0 + 1e-7).plain(Units::In), "2");
    // 31.488 sixty-fourths: nearly a half, but not one.
    assert_eq!(Length::from_inches(0.492).plain(Units::In), "31/64");
    assert_eq!(Length::from_mm(-0.001).plain(Units::In), "0");
}

/// Each refusal says what was found and how to write it.
#[test]
fn refusals_tell_the_way_out() {
    for (text, parts) in [
        ("", ["no length given", "\"216 mm\""]),
        ("   ", ["no length given", "\"8 1/2 in\""]),
        ("wide", ["\"wide\" does not begin with a number", "mm, cm or in"]),
        ("in 8", ["does not begin with a number", "\"216 mm\""]),
        (".", ["does not begin with a number", "\"216 mm\""]),
        ("-", ["does not begin with a number", "\"216 mm\""]),
        ("/2 in", ["does not begin with a number", "\"216 mm\""]),
        ("1/0 in", ["divides by zero", "\"5/16 in\""]),
        ("8 1/0 in", ["divides by zero", "\"5/16 in\""]),
        ("1/0.5 in", ["fraction that cannot be read", "\"17/2 in\""]),
        ("8 17/2 in", ["fraction that cannot be read", "less than 1 after a whole number"]),
        ("8 1/ in", ["fraction that cannot be read", "\"8 1/2 in\""]),
        ("21,6 cm", ["\"21,6 cm\" has a comma", "write 21.6 with a point"]),
        (",5 mm", ["has a comma", "write .5 with a point"]),
        ("1,250 mm", ["has a comma", "write 1.250 with a point, or 1250 without the comma"]),
        ("1,250.5 mm", ["has a comma", "write 1250.5 with a point"]),
        ("1.250,5 mm", ["has a comma", "write 1250.5 with a point"]),
        ("216 milimeter", ["there is no unit \"milimeter\"", "did you mean \"216 mm\"?"]),
        ("8 1/2 inchs", ["there is no unit \"inchs\"", "did you mean \"8 1/2 in\"?"]),
        ("21.6 centimetters", ["there is no unit", "did you mean \"21.6 cm\"?"]),
        ("3 nm", ["there is no unit \"nm\"", "did you mean \"3 mm\"?"]),
        ("12 mil", ["there is no unit \"mil\"", "use mm, cm or in"]),
        ("2 metres", ["there is no unit \"metres\"", "use mm, cm or in"]),
        ("12 px", ["there is no unit \"px\"", "use mm, cm or in"]),
        ("12 pt", ["is in points", "for a caliper only"]),
        ("NaN", ["is not a number that can be measured", "\"216 mm\""]),
        ("inf", ["is not a number that can be measured", "\"216 mm\""]),
        ("-Infinity mm", ["is not a number that can be measured", "\"216 mm\""]),
        ("1e999", ["is more than 100 m", "check the number and its unit"]),
        ("100001 mm", ["is more than 100 m", "check the number and its unit"]),
        ("-4000 in", ["is more than 100 m", "check the number and its unit"]),
        ("8 in 4 mm", ["has more than one unit", "\"216 mm\""]),
        ("8 mm in", ["has more than one unit", "\"216 mm\""]),
        ("8 8 in", ["has more than one number", "\"216 mm\""]),
        ("12 x 12 in", ["has more than one number", "\"216 mm\""]),
        ("5 13/16 in (0.36 mm under)", ["more than one unit", "\"216 mm\""]),
        ("5 ft", ["is in feet", "12 to the foot"]),
        ("5' 6\"", ["is in feet", "12 to the foot"]),
        ("5 feet 6 inches", ["is in feet", "12 to the foot"]),
    ] {
        let error = refusal(text);
        assert!(parts.iter().all(|part| error.contains(part)), "{text:?}: {error}");
    }
    let long = refusal(&format!("7 {}", "very ".repeat(500)));
    assert!(long.chars().count() < 400 && long.contains('…'), "{long}");
    assert!(!refusal("7 \u{1b}[31m\n").contains(char::is_control));
    assert_eq!(Length::from_number(f64::INFINITY, Units::Mm), Err(LengthError::NotFinite { found: "inf".into() }));
    assert!(matches!(Length::from_number(1e300, Units::In), Err(LengthError::TooLong { .. })));
    assert_eq!(Length::from_number(-4000.0, Units::In), Err(LengthError::TooLong { found: "-4000 in".into() }));
}

/// What a message tells people to write can be written: every quoted example in a help reads back.
#[test]
fn examples_in_messages_can_be_copied() {
    for text in ["", "wide", "1/0", "8 17/2", "3 milimetres", "3 px", "3 pt", "3 ft", "3 in mm", "3 3", "1e999"] {
        let help = plain(text).expect_err(text).help().to_string();
        for example in help.split('"').skip(1).step_by(2) {
            assert!(plain(example).is_ok(), "{text:?}: {example:?}");
        }
    }
}

#[test]
fn arithmetic() {
    let (three, five) = (Length::from_mm(3.0), Length::from_mm(5.0));
    assert_eq!(three + five, Length::from_mm(8.0));
    assert_eq!(three - five, -Length::from_mm(2.0));
    assert_eq!(five * 2.0 / 4.0, Length::from_mm(2.5));
    assert_eq!([three, five].iter().sum::<Length>(), [three, five].into_iter().sum::<Length>());
    assert_eq!((three.max(five), three.min(five), (-five).abs()), (five, three, five));
    assert_eq!(Length::default(), Length::ZERO);
    let mut stack = three;
    stack += five;
    stack -= three;
    assert_eq!(stack, five);
}

/// CSS Values and Units, SVG 2: 1 in = 96 px = 72 pt, so 12 in = 1152 px and 1 mm = 3.779528 px.
#[test]
fn pixels_of_svg() {
    let twelve = plain("12 in").unwrap();
    assert!((twelve.inches() * 96.0 - 1152.0).abs() < 1e-6);
    assert!((twelve.inches() * 72.0 - 864.0).abs() < 1e-6);
    assert!((Length::from_mm(1.0).inches() * 96.0 - 3.779_528).abs() < 1e-6);
}

#[test]
fn eighths_saturate() {
    assert_eq!(Length::from_mm(f64::MAX).eighths(), i64::MAX);
    assert_eq!(Length::from_mm(f64::MIN).eighths(), i64::MIN);
    assert_eq!(Length::from_mm(f64::NAN).eighths(), 0);
    assert_eq!(Length::from_mm(0.000_062).eighths(), 0);
    assert_eq!(Length::from_mm(-0.000_063).eighths(), -1);
}

const RULERS: [Ruler; 3] = [Ruler::Sixteenth, Ruler::ThirtySecond, Ruler::SixtyFourth];

proptest! {
    #[test]
    fn no_text_makes_it_panic(text in any::<String>()) {
        for allow in [Allow::Plain, Allow::Caliper] {
            if let Err(error) = parse(&text, Units::In, allow) {
                prop_assert!(!error.to_string().contains(char::is_control));
            }
        }
    }

    #[test]
    fn no_text_like_a_length_makes_it_panic(text in "[-+−]?[0-9./⁄,eE ½⅓x\"'″-]{0,12}[a-z\"″'. ]{0,6}[0-9]{0,2}") {
        for allow in [Allow::Plain, Allow::Caliper] {
            if let Ok(length) = parse(&text, Units::In, allow) {
                prop_assert!(length.mm().abs() <= 100_000.0);
            }
        }
    }

    #[test]
    fn no_number_makes_it_panic(bits in any::<u64>()) {
        let length = Length::from_mm(f64::from_bits(bits));
        for units in Units::ALL {
            for ruler in RULERS {
                let text = length.show(units, ruler);
                prop_assert!(!text.starts_with("-0 "), "{}", text);
            }
            let text = length.plain(units);
            prop_assert!(!text.is_empty() && text != "-0", "{}", text);
        }
        let _ = (length.eighths(), Length::from_number(f64::from_bits(bits), Units::Cm));
    }

    /// Millimetres and centimetres keep three decimals of a millimetre, whatever unit a bare number would have.
    #[test]
    fn micrometres_survive_printing_and_reading(micrometres in -100_000_000..=100_000_000_i32) {
        let length = Length::from_mm(f64::from(micrometres) / 1000.0);
        for units in [Units::Mm, Units::Cm] {
            let text = length.show(units, Ruler::Sixteenth);
            prop_assert_eq!(parse(&text, Units::In, Allow::Plain), Ok(length), "{}", text);
            prop_assert_eq!(parse(&length.plain(units), units, Allow::Plain), Ok(length));
        }
    }

    #[test]
    fn any_length_is_shown_to_half_a_micrometre(mm in -100_000.0..100_000.0_f64) {
        let text = Length::from_mm(mm).show(Units::Mm, Ruler::Sixteenth);
        let back = parse(&text, Units::Mm, Allow::Plain).unwrap();
        prop_assert!((back.mm() - mm).abs() <= 0.000_500_001, "{}", text);
    }

    /// The remark, taken off the printed size, gives the true one.
    #[test]
    fn the_remark_is_true(mm in 2.0..2000.0_f64) {
        for ruler in RULERS {
            let text = Length::from_mm(mm).show(Units::In, ruler);
            let (size, remark) = text.split_once(" (").unwrap_or((&text, "0 mm over)"));
            let (error, side) = remark.split_once(" mm ").unwrap();
            let sign = if side == "over)" { 1.0 } else { -1.0 };
            let true_mm = plain(size).unwrap().mm() - sign * error.parse::<f64>().unwrap();
            prop_assert!((true_mm - mm).abs() <= 0.005_001, "{} for {}", text, mm);
        }
    }

    #[test]
    fn eighths_and_back(n in -1_000_000_000_000..1_000_000_000_000_i64) {
        prop_assert_eq!(Length::from_eighths(n).eighths(), n);
    }

    /// A unit changes the writing, not the length.
    #[test]
    fn inches_written_as_millimetres(n in 0..100_000_i64) {
        let inches = parse(&format!("{n}/1000 in"), Units::Mm, Allow::Plain);
        prop_assert_eq!(&inches, &parse(&format!("{}/10000 mm", n * 254), Units::Mm, Allow::Plain));
        prop_assert_eq!(&inches, &parse(&format!("{n} pt"), Units::Mm, Allow::Caliper));
        let decimal = format!("{}.{:03} in", n / 1000, n % 1000);
        prop_assert_eq!(&inches, &parse(&decimal, Units::Mm, Allow::Plain));
    }
}
