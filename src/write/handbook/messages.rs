// SPDX-License-Identifier: MIT
//! Files that are wrong, and what is answered: a sort of each. The answers are those that the tests hold the program to.

macro_rules! answered {
    ($($name:literal)*) => {
        /// What is wrong, the file, the answer with how the program ends in front.
        pub(super) const ANSWERED: &[(&str, &str, &str)] = &[$((
            $name,
            include_str!(concat!("../../../fixtures/broken/", $name, ".json")),
            include_str!(concat!("../../../fixtures/broken/", $name, ".txt")),
        )),*];
    };
}

answered! {
    "comma-missing" "comma-too-many" "name-without-quotes" "single-quotes" "cut-off" "unknown-field" "twice" "page-missing" "kind-misspelt"
    "unit-misspelt" "text-for-a-length" "comma-decimal" "stock-unknown" "sheet-misspelt" "page-number-unknown" "grade-missing"
    "flap-too-short" "pocket-wider-than-its-page" "insert-too-wide" "page-larger-than-its-sheet" "too-few-sheets" "many-at-once"
}
