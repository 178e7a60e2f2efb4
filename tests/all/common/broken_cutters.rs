// SPDX-License-Identifier: MIT
//! Broken cutter files, each answered once, at its place, in words that help.

use hingeleaf::cutter;
use hingeleaf::fields::Source;

/// What is wrong, at the last letter sequence that is at fault, and words of the answer.
pub(crate) type BrokenCutter = (&'static str, &'static str, &'static [&'static str]);

/// Holds each to its one answer; `besides` stands in the file before what is wrong.
pub(crate) fn broken_cutters_are_answered(besides: &str, broken: &[BrokenCutter]) {
    for (fields, at, says) in broken {
        let text = format!("{{ \"format\": \"hingeleaf-cutter/1\", {besides}{fields} }}");
        let read = cutter::read(&Source::new("cutter.json", text.clone().into()).unwrap());
        let [finding] = read.findings.as_slice() else { panic!("{text}: {:?}", read.findings) };
        let words = format!("{} {}", finding.text, finding.help);
        for say in *says {
            assert!(words.contains(say), "{text}: {words}");
        }
        let place = finding.place.as_ref().unwrap_or_else(|| panic!("{text}: no place"));
        assert_eq!(place.column, text.rfind(at).unwrap() + 1, "{text}: {words}");
    }
}
