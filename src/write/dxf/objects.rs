// SPDX-License-Identifier: MIT
//! What versions from R2000 on ask for besides what is drawn: blocks for model and paper space, and their layouts.

use super::tags::DxfFile;
use crate::contour::Point;

impl DxfFile {
    pub(super) fn blocks(&mut self) {
        if self.old {
            self.section("BLOCKS", |_| {});
            return;
        }
        let records = [("*Model_Space", self.space), ("*Paper_Space", self.space + 1)];
        self.section("BLOCKS", |file| {
            for (name, record) in records {
                file.entity("BLOCK", "0", record);
                file.put(100, "AcDbBlockBegin");
                file.put(2, name);
                file.put(70, 0);
                file.point(10, Point::ZERO);
                file.put(3, name);
                file.put(1, "");
                file.entity("ENDBLK", "0", record);
                file.put(100, "AcDbBlockEnd");
            }
        });
    }

    pub(super) fn objects(&mut self) {
        let (model, paper) = (self.space, self.space + 1);
        self.section("OBJECTS", |file| {
            let first = file.next;
            let [root, group, layouts, styles, one, two, normal] = [0, 1, 2, 3, 4, 5, 6].map(|step| first + step);
            file.dictionary(
                root,
                0,
                &[("ACAD_GROUP", group), ("ACAD_LAYOUT", layouts), ("ACAD_PLOTSTYLENAME", styles)],
            );
            file.dictionary(group, root, &[]);
            file.dictionary(layouts, root, &[("Model", one), ("Layout1", two)]);
            file.put(0, "ACDBDICTIONARYWDFLT");
            file.handle(5);
            file.owner(root);
            file.put(100, "AcDbDictionary");
            file.put(281, 1);
            file.put(3, "Normal");
            file.put(350, format_args!("{normal:X}"));
            file.put(100, "AcDbDictionaryWithDefault");
            file.put(340, format_args!("{normal:X}"));
            for (name, order, record) in [("Model", 0, model), ("Layout1", 1, paper)] {
                file.layout(name, order, record, layouts);
            }
            file.put(0, "ACDBPLACEHOLDER");
            file.handle(5);
            file.owner(styles);
        });
    }

    fn dictionary(&mut self, expected: u32, owner: u32, entries: &[(&str, u32)]) {
        self.put(0, "DICTIONARY");
        let handle = self.handle(5);
        debug_assert_eq!(handle, expected);
        self.owner(owner);
        self.put(100, "AcDbDictionary");
        self.put(281, 1);
        for (name, handle) in entries {
            self.put(3, name);
            self.put(350, format_args!("{handle:X}"));
        }
    }

    fn layout(&mut self, name: &str, order: u8, record: u32, owner: u32) {
        self.put(0, "LAYOUT");
        self.handle(5);
        self.owner(owner);
        self.put(100, "AcDbPlotSettings");
        self.put(1, "");
        self.put(100, "AcDbLayout");
        self.put(1, name);
        self.put(70, 1);
        self.put(71, order);
        self.put(330, format_args!("{record:X}"));
    }
}
