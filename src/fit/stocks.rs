// SPDX-License-Identifier: MIT
//! What should be known of the stocks: calipers that nobody measured, sheets that are never quite as large
//! as their name, sheets that the machine does not take.

use crate::album::Album;
use crate::cutter::Cutter;
use crate::finding::Finding;
use crate::length::{Ruler, Units};
use crate::parts::Kit;
use crate::stock::{CaliperFrom, SheetSize, Stock, paper};

pub(super) fn check(album: &Album, kit: &Kit, cutter: &Cutter) -> Vec<Finding> {
    let mut findings: Vec<Finding> = kerf(cutter).into_iter().collect();
    for (number, stock) in album.stocks.iter().enumerate() {
        if !kit.parts.iter().any(|part| part.stock == number) {
            continue;
        }
        findings.extend(caliper(album, stock));
        for size in &stock.sheets {
            findings.extend(bed(album, stock, size, cutter));
            findings.extend(tolerance(album, kit, number, size, cutter));
        }
    }
    findings
}

/// Lasers take 0.08 to 0.3 mm out of card, blades next to nothing (shop tables; common practice, no source).
fn kerf(cutter: &Cutter) -> Option<Finding> {
    let text = || {
        format!(
            "a kerf of {} is far more than a laser or a blade takes out of card",
            cutter.kerf.show(Units::Mm, Ruler::SixtyFourth)
        )
    };
    (cutter.kerf.mm() > 1.0).then(|| {
        Finding::note("kerf-large", "", text()).help("a bare number is in mm; a laser's kerf is about 0.13 mm")
    })
}

fn caliper(album: &Album, stock: &Stock) -> Option<Finding> {
    let shown = match album.units {
        Units::In => format!("{:.1} pt ({:.4} in)", stock.caliper.inches() * 1000.0, stock.caliper.inches()),
        Units::Mm | Units::Cm => stock.caliper.show(Units::Mm, Ruler::SixtyFourth),
    };
    let text = match stock.caliper_from {
        CaliperFrom::Measured => return None,
        CaliperFrom::Grammage => format!("its caliper is worked out from its weight: {shown}, give or take 15 %"),
        CaliperFrom::Guess => format!("its caliper is not given: {shown} is taken"),
    };
    Some(
        Finding::note("caliper-unknown", format!("stock {}", stock.name), text)
            .help("measure a stack of ten sheets and give a tenth of it as \"caliper\"")
            .at(stock.place.as_ref()),
    )
}

fn bed(album: &Album, stock: &Stock, size: &SheetSize, cutter: &Cutter) -> Option<Finding> {
    let (width, height) = cutter.bed.filter(|_| !cutter.takes(size))?;
    let (width, height) = (album.show(width.mm()), album.show(height.mm()));
    let text = format!("a sheet of {} does not go into the machine, whose bed is {width} x {height}", size.name);
    let about = format!("stock {}", stock.name);
    let finding = if stock.sheets.iter().any(|size| cutter.takes(size)) {
        Finding::note("bed-too-small", about, text + ": it is left out")
    } else {
        Finding::stop("bed-too-small", about, text)
    };
    let help = "take a smaller sheet, or cut the sheets down and give the size they have then";
    Some(finding.help(help).at(stock.place.as_ref()))
}

/// Sheets are cut to within a tolerance of their name (ISO 216, values from memory; ISO 217 for untrimmed
/// ones). A part that needs more than is certain deserves a note.
fn tolerance(album: &Album, kit: &Kit, number: usize, size: &SheetSize, cutter: &Cutter) -> Option<Finding> {
    let stock = &album.stocks[number];
    let (across, up) = paper::sheet(&size.name).and_then(paper::NamedSheet::tolerance)?;
    let doubt = across.max(up).mm();
    let (long, short) = (size.width.mm().max(size.height.mm()), size.width.mm().min(size.height.mm()));
    let used = 2.0f64.mul_add(cutter.margin.mm(), cutter.kerf.mm());
    let tight = |part: &&crate::parts::Part| {
        let (wide, narrow) =
            (part.flat.width.max(part.flat.height) + used, part.flat.width.min(part.flat.height) + used);
        part.stock == number && wide <= long && narrow <= short && (wide > long - doubt || narrow > short - doubt)
    };
    let part = kit.parts.iter().find(tight)?;
    let name = part.used_in.first().unwrap_or(&part.id);
    let text = format!(
        "{name} uses a sheet of {} to its edge, and sheets may be cut up to {} small",
        size.name,
        album.show(doubt)
    );
    Some(
        Finding::note("sheet-tolerance", format!("stock {}", stock.name), text)
            .help("measure a sheet of your pack before you cut")
            .at(stock.place.as_ref()),
    )
}
