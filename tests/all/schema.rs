// SPDX-License-Identifier: MIT
//! The committed schemas are the ones that the program prints. An outside validator tries them on every file.

use hingeleaf::{album, batch, coupon, cutter, drawer, kind_file, parts, write};

#[test]
fn committed_schemas_are_the_programs_own() {
    for (name, schema) in [
        ("album", album::schema(&parts::kinds())),
        ("batch", batch::schema()),
        ("cutter", cutter::schema()),
        ("drawer", drawer::schema()),
        ("kind", kind_file::schema()),
        ("measured", coupon::schema()),
        ("report", write::report_schema()),
        ("compare", write::compare_schema()),
    ] {
        let path = format!("{}/fixtures/schemas/{name}.json", env!("CARGO_MANIFEST_DIR"));
        let written = std::fs::read_to_string(&path).unwrap_or_default();
        let wanted = format!("{schema:#}\n");
        if written != wanted && std::env::var_os("UPDATE_GOLDEN").is_some() {
            std::fs::write(&path, &wanted).unwrap();
        }
        assert_eq!(written, wanted, "{name}: run again with UPDATE_GOLDEN=1 and look at what changes");
    }
}
