// SPDX-License-Identifier: MIT
//! Verdicts on machines and pictures of stocks, held on random cases to reckonings of these tests' own: in whole numbers, or by what comes
//! out of the files and off the sheets.

use crate::common::instances::Dice;
use crate::common::{cutter, said, work};
use hingeleaf::contour::{Edge, Point};
use hingeleaf::cutter::{self as machine, Cutter, DxfLayers, LayerOrder, ScoreMode};
use hingeleaf::fields::Source;
use hingeleaf::finding::Finding;
use hingeleaf::length::{Length, Units};
use hingeleaf::net::Use;
use hingeleaf::parts::Part;
use hingeleaf::sheets::Placed;
use hingeleaf::stock::PictureFile;
use hingeleaf::toolpath::{Layer, StrokePath};
use hingeleaf::work::Work;
use std::collections::{BTreeMap, BTreeSet};

/// An album of few parts.
const ALBUM: &str = r#"{
    "format": "hingeleaf-album/1",
    "page": { "width": 90, "height": 120, "seam": 10 },
    "pages": [{ "kind": "pocket" }, { "kind": "pocket" }],
    "spine": { "kind": "plain-hinge" }
}"#;

fn read(fields: &str) -> Cutter {
    let text = format!("{{ \"format\": \"hingeleaf-cutter/1\", {fields} }}");
    let read = machine::read(&Source::new("cutter.json", text.into()).unwrap());
    assert!(read.findings.is_empty(), "{fields}: {}", said(&read.findings));
    read.value.unwrap()
}

/// Hundredths of a millimetre as files say them.
fn mm(hundredths: i64) -> String {
    format!("{}.{:02}", hundredths / 100, hundredths % 100)
}

fn length(hundredths: i64) -> Length {
    Length::from_mm(f64::from(i32::try_from(hundredths).unwrap()) / 100.0)
}

fn pick(dice: &mut Dice, count: usize) -> usize {
    usize::try_from(dice.from(0, i64::try_from(count).unwrap() - 1)).unwrap()
}

/// The numbered colours of DXF in whole numbers: 24 hues, 15 degrees apart, of each the pure and the half whitened at 100, 65, 50, 30 and
/// 15 per cent, rounded down. Seen so in the table of an open reader (`ezdxf`), but for 21 dark ones that break its own rows.
fn numbered() -> Vec<(i64, [i64; 3])> {
    let mut all: Vec<(i64, [i64; 3])> =
        [0xFF_0000, 0xFF_FF00, 0x00_FF00, 0x00_FFFF, 0x00_00FF, 0xFF_00FF, 0, 0xFF_FFFF]
            .iter()
            .zip([1, 2, 3, 4, 5, 6, 7, 7])
            .map(|(code, number)| (number, [code >> 16, code >> 8 & 255, code & 255]))
            .collect();
    for number in 10..250_i64 {
        let light = [100, 65, 50, 30, 15][usize::try_from(number % 10 / 2).unwrap()];
        let colour = [0, 8, 16].map(|primary| {
            let away = (number / 10 - 1 - primary).rem_euclid(24);
            let quarters = (8 - away.min(24 - away)).clamp(0, 4);
            255 * light * if number % 2 == 1 { 4 + quarters } else { 2 * quarters } / 800
        });
        all.push((number, colour));
    }
    all
}

fn number_of(table: &[(i64, [i64; 3])], colour: [i64; 3]) -> i64 {
    let apart = |one: &[i64; 3]| (0..3).map(|part| (one[part] - colour[part]).pow(2)).sum::<i64>();
    table.iter().min_by_key(|(number, one)| (apart(one), *number)).unwrap().0
}

/// Whatever three colours there are and whatever DXF files tell layers apart by: two are told to be alike where the table above, searched
/// here, has one number for both, and a file's layers then have that number; the order of layers is told where its last word is no cut.
#[test]
fn random_colours_and_orders_are_told_as_the_table_has_them() {
    let (table, mut dice) = (numbered(), Dice(61));
    let (mut alike, mut apart, mut late) = (0, 0, 0);
    for _ in 0..700 {
        let mut colours = [[0_i64; 3]; 3];
        for layer in 0..3 {
            // As often near to one before it as anywhere.
            let near = (layer > 0 && dice.from(0, 1) == 0).then(|| colours[pick(&mut dice, layer)]);
            let reach = dice.from(0, 40);
            colours[layer] = [0, 1, 2].map(|part| match near {
                Some(near) => (near[part] + dice.from(-reach, reach)).clamp(0, 255),
                None => dice.from(0, 255),
            });
        }
        let code = |colour: [i64; 3]| format!("#{:02X}{:02X}{:02X}", colour[0], colour[1], colour[2]);
        let (by, order) = (DxfLayers::ALL[pick(&mut dice, 3)], LayerOrder::ALL[pick(&mut dice, 6)]);
        let cutter = read(&format!(
            "\"dxf_layers\": \"{}\", \"layer_order\": \"{}\", \"colours\": {{ \"cut\": \"{}\", \"score\": \"{}\", \"draw\": \"{}\" }}",
            by.word(),
            order.word(),
            code(colours[0]),
            code(colours[1]),
            code(colours[2])
        ));
        let findings = cutter.findings();
        let told: Vec<String> =
            findings.iter().filter(|one| one.id == "colours-alike").map(|one| one.text.to_string()).collect();
        let numbers = colours.map(|colour| number_of(&table, colour));
        let mut wanted = Vec::new();
        for (layer, name) in [(1, "score"), (2, "draw")] {
            let first = (0..layer).find(|other| numbers[*other] == numbers[layer]);
            if let Some(first) = first.filter(|_| by == DxfLayers::Colours) {
                wanted.push(format!("the colours of \"{}\" and \"{name}\" ", ["cut", "score"][first]));
            }
        }
        assert_eq!(told.len(), wanted.len(), "{colours:?} are {numbers:?}: {told:?}");
        assert!(told.iter().zip(&wanted).all(|(told, wanted)| told.starts_with(wanted)), "{told:?}, not {wanted:?}");
        if by == DxfLayers::Colours {
            alike += wanted.len();
            apart += usize::from(wanted.is_empty());
        }
        let last = findings.iter().filter(|one| one.id == "cuts-not-last").count();
        assert_eq!(last, usize::from(!order.word().ends_with("-cut")), "{}", order.word());
        late += last;
    }
    assert!(alike > 60 && apart > 60 && late > 300, "{alike}, {apart} and {late}");
}

/// Whatever is chosen, in hundredths of a millimetre, which are whole: two neighbours' bleeds take what is between their cuts, gap and
/// kerf; one takes what is between a cut and the sheet's edge, margin and half the kerf. What is advised does, a hundredth less does not.
#[test]
fn random_bleeds_are_told_where_prints_meet() {
    let mut dice = Dice(67);
    let mut seen = BTreeMap::new();
    for _ in 0..900 {
        let (kerf, bleed) = (dice.from(0, 60), dice.from(0, 300));
        // About as much as is needed, more often than not, and just as much, now and then.
        let off = |dice: &mut Dice| if dice.from(0, 4) == 0 { 0 } else { dice.from(-120, 120) };
        let gap = (2 * bleed - kerf + off(&mut dice)).clamp(0, 2000);
        let margin = (bleed - kerf / 2 + off(&mut dice)).clamp(0, 5000);
        let told = |gap: i64, margin: i64| {
            let (kerf, gap, margin, bleed) = (mm(kerf), mm(gap), mm(margin), mm(bleed));
            let fields =
                format!("\"kerf\": {kerf}, \"gap\": {gap}, \"margin\": {margin}, \"marks\": {{ \"bleed\": {bleed} }}");
            let findings = read(&fields).findings();
            ["bleed-gap", "bleed-margin"].map(|id| {
                findings.iter().find(|one: &&Finding| one.id == id).map(|one| {
                    let words = one.help.to_string();
                    let (_, advised) = words.split_once(" to ").unwrap();
                    let advised: f64 = advised.split_once(' ').unwrap().0.parse().unwrap();
                    #[allow(clippy::cast_possible_truncation, reason = "some hundreds")]
                    let advised = (advised * 100.0).round() as i64;
                    advised
                })
            })
        };
        let wanted = [gap + kerf < 2 * bleed, 2 * margin + kerf < 2 * bleed];
        let found = told(gap, margin);
        assert_eq!(found.map(|one| one.is_some()), wanted, "kerf {kerf}, bleed {bleed}, gap {gap}, margin {margin}");
        let enough = [found[0].unwrap_or(gap), found[1].unwrap_or(margin)];
        assert_eq!(told(enough[0], enough[1]), [None; 2], "{enough:?} for kerf {kerf}, bleed {bleed}");
        for (which, advised) in found.iter().enumerate() {
            if let Some(advised) = advised {
                let less = if which == 0 { (advised - 1, enough[1]) } else { (enough[0], advised - 1) };
                assert!(told(less.0, less.1)[which].is_some(), "{advised} is more than is needed");
            }
        }
        *seen.entry(wanted).or_insert(0) += 1;
    }
    assert!(seen.len() == 4 && seen.values().all(|count| *count > 40), "{seen:?}");
}

/// A part's box on its sheet: left, foot, right, head.
fn box_of(work: &Work, placed: &Placed) -> [f64; 4] {
    let part = &work.kit.parts[placed.part];
    let (wide, tall) = (part.flat.width, part.flat.height);
    let (wide, tall) = if placed.quarters.is_multiple_of(2) { (wide, tall) } else { (tall, wide) };
    [placed.x, placed.y, placed.x + wide, placed.y + tall]
}

/// On sheets as they are laid: what is told to print on each other does where parts lie as near as they may, and nothing that is not told
/// does, whatever the layout.
#[test]
fn bleeds_meet_on_the_sheet_as_they_are_told() {
    let mut dice = Dice(71);
    let (mut told, mut quiet) = (0, 0);
    for _ in 0..12 {
        let (kerf, gap, margin, bleed) = (dice.from(0, 40), dice.from(0, 300), dice.from(100, 400), dice.from(20, 200));
        let made =
            work(ALBUM, Cutter { kerf: length(kerf), gap: length(gap), margin: length(margin), ..Cutter::default() });
        let (mut between, mut beside) = (f64::MAX, f64::MAX);
        for sheet in made.stocks.iter().flat_map(|stock| &stock.sheets) {
            let boxes: Vec<[f64; 4]> = sheet.placements.iter().map(|placed| box_of(&made, placed)).collect();
            for (index, one) in boxes.iter().enumerate() {
                beside = beside.min(one[0]).min(one[1]).min(sheet.width - one[2]).min(sheet.height - one[3]);
                for other in &boxes[..index] {
                    let apart = [one[0] - other[2], other[0] - one[2], one[1] - other[3], other[1] - one[3]];
                    between = between.min(apart.into_iter().fold(f64::MIN, f64::max));
                }
            }
        }
        let marks = format!(
            "\"kerf\": {}, \"gap\": {}, \"margin\": {}, \"marks\": {{ \"bleed\": {} }}",
            mm(kerf),
            mm(gap),
            mm(margin),
            mm(bleed)
        );
        let ids: BTreeSet<&str> = read(&marks).findings().iter().map(|one| one.id).collect();
        let bleed = length(bleed).mm();
        for (id, room) in [("bleed-gap", between - 2.0 * bleed), ("bleed-margin", beside - bleed)] {
            // Parts may lie up to an eighth of a micrometre farther off than they need.
            assert_eq!(ids.contains(id), room < -1e-3, "{id}: {room} mm of room, {marks}");
            told += usize::from(ids.contains(id));
            quiet += usize::from(!ids.contains(id));
        }
    }
    assert!(told > 4 && quiet > 4, "{told} and {quiet}");
}

/// A picture of one colour, so many points across and down.
fn plain((across, down): (i64, i64)) -> Vec<u8> {
    use image::ImageEncoder;
    let (across, down) = (u32::try_from(across).unwrap(), u32::try_from(down).unwrap());
    let mut bytes = Vec::new();
    let points = vec![220_u8; usize::try_from(3 * across * down).unwrap()];
    let encoder = image::codecs::png::PngEncoder::new(&mut bytes);
    encoder.write_image(&points, across, down, image::ExtendedColorType::Rgb8).unwrap();
    bytes
}

/// Sheets and pictures of any shape: whether a picture is of the whole sheet, to one part in fifty, or of the sheet on its side, in whole
/// numbers from the points that are in the file. Where it is said how wide its paper is, nothing is told.
#[test]
fn random_pictures_are_told_by_their_proportions() {
    let mut dice = Dice(73);
    let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
    for case in 0..720 {
        // Now and then a strip whose picture has more points than are kept, near to what is allowed.
        let strip = case % 24 == 0;
        let (wide, tall) = (dice.from(100, 600), if strip { dice.from(20, 40) } else { dice.from(100, 600) });
        let across = if strip { dice.from(2001, 2600) } else { dice.from(20, 60) };
        let around = if strip { [975, 1015][pick(&mut dice, 2)] + dice.from(0, 10) } else { dice.from(940, 1060) };
        let down = match case % 3 {
            0 => (across * tall * around + wide * 500) / (wide * 1000),
            1 if !strip => across * wide * around / (tall * 1000),
            _ => dice.from(20, 90),
        };
        let alone = dice.from(0, 5) > 0;
        let width = if alone { String::new() } else { format!(", \"picture_width\": {}", dice.from(20, 200)) };
        let text = ALBUM.replacen(
            "\"page\"",
            &format!("\"stocks\": {{ \"card\": {{ \"sheet\": \"{wide}x{tall}mm\"{width} }} }}, \"page\""),
            1,
        );
        let stock = crate::common::album(&text).stocks.remove(0);
        let mut file = PictureFile::new("card.png".into(), None, Units::Mm);
        let findings = file.read(&plain((across, down)), &stock);
        // Points of the file over points of the sheet's own proportions, less one: at most a fiftieth.
        let is = |wide: i64, tall: i64| 50 * (down * wide - tall * across).abs() <= tall * across;
        let wanted = match (alone, is(wide, tall), is(tall, wide)) {
            (false, ..) | (_, true, _) => "",
            (_, _, true) => "lies on its side",
            _ => "it is no picture of the whole sheet",
        };
        let told = findings.first().map_or(String::new(), |one| format!("{}: {}", one.id, one.text));
        assert_eq!(findings.len(), usize::from(!wanted.is_empty()), "{across} x {down} of {wide} x {tall}: {told}");
        assert!(wanted.is_empty() || told.starts_with("picture-shape: ") && told.contains(wanted), "{told}");
        *seen.entry(wanted).or_default() += 1;
    }
    assert!(seen.len() == 3 && seen.values().all(|count| *count > 50), "{seen:?}");
}

/// Whether the line of a score is an edge that a tab or a gusset has in common with what is beside it: by the panels' outlines.
fn hangs(part: &Part, from: Point, to: Point) -> bool {
    let low = part
        .net
        .panels
        .iter()
        .map(|panel| panel.outline.bounds())
        .fold((f64::MAX, f64::MAX), |low, one| (low.0.min(one.x0), low.1.min(one.y0)));
    part.net.panels.iter().filter(|panel| matches!(panel.purpose, Use::Tab | Use::Gusset)).any(|panel| {
        let corners = panel.outline.vertices();
        (0..corners.len()).any(|index| {
            let shift = |at: Point| Point::new(at.x - low.0, at.y - low.1);
            let edge =
                Edge { from: shift(corners[index].at), to: shift(corners[(index + 1) % corners.len()].at), bulge: 0.0 };
            [from, to].iter().all(|end| edge.distance(*end) < 1e-6)
        })
    })
}

/// Random albums on every spine, cut by a machine that scores by lines or by random cuts and ties: what is told names as many folds, and
/// their parts, as the panels' outlines have; of each less than half is cut.
#[test]
fn random_hinges_are_told_where_they_are_perforated() {
    let mut dice = Dice(79);
    let (mut notes, mut quiet, mut folds) = (0, 0, 0);
    for case in 0..120 {
        let spine = ["flexi-hinge", "concertina", "stubs", "plain-hinge"][case % 4];
        let kinds: Vec<String> = (0..dice.from(1, 3))
            .map(|_| format!("{{ \"kind\": \"{}\" }}", ["pocket", "divider", "gate-fold"][pick(&mut dice, 3)]))
            .collect();
        let text = format!(
            r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "card": {{ "sheet": "A2" }} }}, "page": {{ "width": {}, "height": {}, "seam": 10 }},
            "pages": [{}], "spine": {{ "kind": "{spine}" }} }}"#,
            dice.from(80, 110),
            dice.from(90, 130),
            kinds.join(", ")
        );
        let tenths = |dice: &mut Dice, most: i64| length(10 * dice.from(2, most));
        let dash = dice.from(0, 4) > 0;
        let score = if dash {
            ScoreMode::Dash { dash: tenths(&mut dice, 60), gap: tenths(&mut dice, 30) }
        } else {
            ScoreMode::Line
        };
        let made = work(&text, Cutter { score, ..cutter(0.1, 2.0, 5.0) });
        let counts: Vec<(&str, usize)> = made
            .kit
            .parts
            .iter()
            .map(|part| (part.id.as_str(), part.flat.scores.iter().filter(|one| hangs(part, one.from, one.to)).count()))
            .filter(|(_, count)| *count > 0)
            .collect();
        let told: Vec<&Finding> = made.findings.iter().filter(|one| one.id == "perforated-hinge").collect();
        assert_eq!(told.len(), usize::from(dash && !counts.is_empty()), "{text}: {counts:?}, {}", said(&made.findings));
        notes += told.len();
        quiet += 1 - told.len();
        if let [one] = told[..] {
            let (sum, words) = (counts.iter().map(|(_, count)| count).sum::<usize>(), one.text.to_string());
            let numbers: Vec<usize> =
                words.split(|c: char| !c.is_ascii_digit()).filter_map(|word| word.parse().ok()).collect();
            assert!(sum == 1 || numbers.contains(&sum), "{sum} in {words}");
            assert!(counts.iter().take(3).all(|(id, _)| words.contains(id)), "{counts:?} in {words}");
        }
        for stroke in made.paths.iter().flat_map(|sheet| &sheet.strokes).filter(|one| dash && one.layer == Layer::Score)
        {
            let StrokePath::Straight(cuts) = &stroke.run else { panic!("a score that is no line") };
            // Where it lies on its part is told by how long it is: cuts and ties of one that carries are as many lengths, ends included.
            let carries = made.kit.parts[stroke.part]
                .flat
                .scores
                .iter()
                .filter(|one| hangs(&made.kit.parts[stroke.part], one.from, one.to));
            let cut: f64 = cuts.iter().map(|(from, to)| from.distance(*to)).sum();
            let every = made.kit.parts[stroke.part].flat.scores.len();
            let carried: Vec<f64> = carries.map(|one| one.from.distance(one.to)).collect();
            if carried.len() == every {
                let longest = carried.iter().copied().fold(0.0, f64::max);
                assert!(cut <= longest / 2.0 + 1e-6, "{cut} of {longest}");
                folds += 1;
            }
        }
    }
    assert!(notes > 60 && quiet > 15 && folds > 60, "{notes}, {quiet} and {folds}");
}
