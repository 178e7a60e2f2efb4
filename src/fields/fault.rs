// SPDX-License-Identifier: MIT
//! Where a text stops being JSON (RFC 8259), and why.
//!
//! `serde_json` judges whether a text is JSON; its errors are English sentences that may change with any release. This scanner
//! finds the first fault itself, and calls it by what a crafter did.

/// Deeper than this nothing is read (it is `serde_json`'s own bound).
const DEEPEST: usize = 127;

/// What is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Fault {
    /// There is nothing but white space.
    Empty,
    /// The text ends within something.
    EndsEarly,
    /// Brackets within brackets within brackets …
    TooDeep,
    /// A comma with a closing bracket behind it.
    LastComma,
    /// A number beyond what a computer counts with.
    TooLarge,
    /// Something stands where a comma should.
    NoComma,
    /// A name that is not followed by a colon.
    NoColon,
    /// A name without its quotes.
    BareName,
    /// Neither a number nor a text nor anything else that can stand here.
    NoValue,
    /// A text that goes over the end of its line, or holds another control character.
    OpenText,
    /// A backslash before a letter that it does not go with.
    Backslash,
    /// Something behind the end.
    Behind,
}

impl Fault {
    /// What there is to say of it, and what to do.
    pub(super) const fn keys(self) -> [&'static str; 2] {
        match self {
            Self::Empty => ["not-json-empty", "not-json-empty-help"],
            Self::EndsEarly => ["not-json-ends-early", "not-json-ends-early-help"],
            Self::TooDeep => ["not-json-too-deep", "not-json-too-deep-help"],
            Self::LastComma => ["not-json-last-comma", "not-json-last-comma-help"],
            Self::TooLarge => ["not-json-too-large", "not-json-too-large-help"],
            Self::NoComma => ["not-json-no-comma", "not-json-no-comma-help"],
            Self::NoColon => ["not-json-no-colon", "not-json-no-colon-help"],
            Self::BareName => ["not-json-bare-name", "not-json-bare-name-help"],
            Self::NoValue => ["not-json-no-value", "not-json-no-value-help"],
            Self::OpenText => ["not-json-open-text", "not-json-open-text-help"],
            Self::Backslash => ["not-json-backslash", "not-json-backslash-help"],
            Self::Behind => ["not-json-behind", "not-json-behind-help"],
        }
    }
}

/// What may come next.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Next {
    Value,
    /// Right behind `[`.
    ValueOrEnd,
    /// Right behind `{`.
    NameOrEnd,
    Name,
    Colon,
    /// Behind a value.
    CommaOrEnd,
}

/// The first fault and the byte it stands at; none where the text is JSON.
pub(super) fn first(text: &str) -> Option<(usize, Fault)> {
    Scanner { text: text.as_bytes(), at: 0, open: Vec::new() }.scan().err()
}

struct Scanner<'a> {
    text: &'a [u8],
    at: usize,
    /// The brackets that are open: `{` or `[`.
    open: Vec<u8>,
}

type PathStep<T> = Result<T, (usize, Fault)>;

impl Scanner<'_> {
    fn scan(&mut self) -> PathStep<()> {
        let mut next = Next::Value;
        loop {
            self.skip(|byte| matches!(byte, b' ' | b'\t' | b'\n' | b'\r'));
            let Some(&byte) = self.text.get(self.at) else {
                return match (next, self.open.is_empty()) {
                    (Next::CommaOrEnd, true) => Ok(()),
                    (Next::Value, true) => Err((self.at, Fault::Empty)),
                    _ => Err((self.at.saturating_sub(1), Fault::EndsEarly)),
                };
            };
            next = self.step(next, byte)?;
        }
    }

    fn step(&mut self, next: Next, byte: u8) -> PathStep<Next> {
        let fault = |fault| Err((self.at, fault));
        match (next, byte) {
            (Next::CommaOrEnd, _) if self.open.is_empty() => fault(Fault::Behind),
            (Next::NameOrEnd | Next::CommaOrEnd, b'}') if self.open.last() == Some(&b'{') => Ok(self.close()),
            (Next::ValueOrEnd | Next::CommaOrEnd, b']') if self.open.last() == Some(&b'[') => Ok(self.close()),
            (Next::CommaOrEnd, b',') => {
                self.at += 1;
                Ok(if self.open.last() == Some(&b'{') { Next::Name } else { Next::Value })
            }
            (Next::CommaOrEnd, _) => fault(Fault::NoComma),
            (Next::NameOrEnd | Next::Name, b'"') => self.string().map(|()| Next::Colon),
            (Next::Name, b'}') | (Next::Value, b']') if !self.open.is_empty() => fault(Fault::LastComma),
            (Next::NameOrEnd | Next::Name, _) => fault(Fault::BareName),
            (Next::Colon, b':') => {
                self.at += 1;
                Ok(Next::Value)
            }
            (Next::Colon, _) => fault(Fault::NoColon),
            (Next::Value | Next::ValueOrEnd, _) => self.value(byte),
        }
    }

    fn value(&mut self, byte: u8) -> PathStep<Next> {
        match byte {
            b'{' | b'[' => {
                self.open.push(byte);
                if self.open.len() > DEEPEST {
                    return Err((self.at, Fault::TooDeep));
                }
                self.at += 1;
                return Ok(if byte == b'{' { Next::NameOrEnd } else { Next::ValueOrEnd });
            }
            b'"' => self.string()?,
            b'-' | b'0'..=b'9' => self.number()?,
            _ => {
                let word = ["true", "false", "null"]
                    .into_iter()
                    .find(|word| self.text[self.at..].starts_with(word.as_bytes()));
                self.at += word.ok_or((self.at, Fault::NoValue))?.len();
            }
        }
        Ok(Next::CommaOrEnd)
    }

    fn close(&mut self) -> Next {
        self.open.pop();
        self.at += 1;
        Next::CommaOrEnd
    }

    fn skip(&mut self, passes: impl Fn(u8) -> bool) -> usize {
        let start = self.at;
        while self.text.get(self.at).is_some_and(|byte| passes(*byte)) {
            self.at += 1;
        }
        self.at - start
    }

    fn string(&mut self) -> PathStep<()> {
        self.at += 1;
        loop {
            match self.text.get(self.at) {
                None => return Err((self.at.saturating_sub(1), Fault::EndsEarly)),
                Some(b'"') => break,
                Some(0..=0x1f) => return Err((self.at, Fault::OpenText)),
                Some(b'\\') => self.escape()?,
                Some(_) => self.at += 1,
            }
        }
        self.at += 1;
        Ok(())
    }

    fn escape(&mut self) -> PathStep<()> {
        let start = self.at;
        self.at += 2;
        match self.text.get(start + 1) {
            None => Err((start, Fault::EndsEarly)),
            Some(b'"' | b'\\' | b'/' | b'b' | b'f' | b'n' | b'r' | b't') => Ok(()),
            Some(b'u') => {
                let first = self.unit(start)?;
                // A letter beyond the first 65,536 takes two units, the second alone is none.
                let whole = match first {
                    0xd800..=0xdbff if self.text[self.at..].starts_with(b"\\u") => {
                        self.at += 2;
                        (0xdc00..=0xdfff).contains(&self.unit(start)?)
                    }
                    0xd800..=0xdfff => false,
                    _ => true,
                };
                if whole { Ok(()) } else { Err((start, Fault::Backslash)) }
            }
            Some(_) => Err((start, Fault::Backslash)),
        }
    }

    /// Four hexadecimal digits.
    fn unit(&mut self, start: usize) -> PathStep<u32> {
        let digits = self.text.get(self.at..self.at + 4).and_then(|digits| std::str::from_utf8(digits).ok());
        let digits = digits.filter(|digits| digits.bytes().all(|byte| byte.is_ascii_hexdigit()));
        self.at += 4;
        digits.and_then(|digits| u32::from_str_radix(digits, 16).ok()).ok_or((start, Fault::Backslash))
    }

    fn number(&mut self) -> PathStep<()> {
        let start = self.at;
        let digit = |byte: u8| byte.is_ascii_digit();
        self.skip(|byte| byte == b'-');
        let leads = self.text.get(self.at) == Some(&b'0');
        let whole = self.skip(digit);
        let mut sound = whole > 0 && !(leads && whole > 1) && self.at - start - whole <= 1;
        if self.text.get(self.at) == Some(&b'.') {
            self.at += 1;
            sound &= self.skip(digit) > 0;
        }
        if matches!(self.text.get(self.at), Some(b'e' | b'E')) {
            self.at += 1;
            if matches!(self.text.get(self.at), Some(b'+' | b'-')) {
                self.at += 1;
            }
            sound &= self.skip(digit) > 0;
        }
        if !sound {
            return Err((start, Fault::NoValue));
        }
        let text = std::str::from_utf8(&self.text[start..self.at]).unwrap_or_default();
        let finite = text.parse::<f64>().is_ok_and(f64::is_finite);
        if finite { Ok(()) } else { Err((self.at - 1, Fault::TooLarge)) }
    }
}

#[cfg(test)]
mod tests {
    use super::{Fault, first};
    use proptest::prelude::*;

    #[test]
    fn faults_are_called_by_what_was_done() {
        for (text, at, fault) in [
            (" \n", 2, Fault::Empty),
            (r#"{ "a": 1"#, 7, Fault::EndsEarly),
            (r#"{ "a": "b"#, 8, Fault::EndsEarly),
            (r#"{ "a": 1, }"#, 10, Fault::LastComma),
            ("[1, ]", 4, Fault::LastComma),
            ("1e999", 4, Fault::TooLarge),
            (r#"{ "a": 1 "b": 2 }"#, 9, Fault::NoComma),
            (r#"{ "a" 1 }"#, 6, Fault::NoColon),
            ("{ a: 1 }", 2, Fault::BareName),
            ("{ // why\n}", 2, Fault::BareName),
            ("[ NaN ]", 2, Fault::NoValue),
            ("[ 01 ]", 2, Fault::NoValue),
            ("[ --1 ]", 2, Fault::NoValue),
            ("[ 1. ]", 2, Fault::NoValue),
            ("[ +1 ]", 2, Fault::NoValue),
            ("[ \"a\nb\" ]", 4, Fault::OpenText),
            (r#"[ "C:\card" ]"#, 5, Fault::Backslash),
            (r#"[ "\ud800" ]"#, 3, Fault::Backslash),
            ("{} {}", 3, Fault::Behind),
        ] {
            assert_eq!(first(text), Some((at, fault)), "{text}");
        }
        assert_eq!(first(&"[".repeat(200)).map(|(_, fault)| fault), Some(Fault::TooDeep));
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(4000))]
        /// `serde_json` (a library of the registry) is the other opinion: both refuse the same texts.
        #[test]
        fn it_agrees_with_another_reader(pieces in prop::collection::vec(prop::sample::select(vec![
            "{", "}", "[", "]", ",", ":", "\"a\"", "\"", "1", "-", "0", ".5", "1e5", "E", "true", "nul", "null", " ", "\n", "\\n",
            "\\u00e9", "\\ud83d\\ude00", "\\ud83d", "é", "\u{1}", "/", "1.5", "false", "\"b\":", "[1,2]", "{\"c\":3}",
        ]), 0..12)) {
            let text = pieces.concat();
            let other = serde_json::from_str::<serde_json::Value>(&text);
            prop_assert_eq!(first(&text).is_none(), other.is_ok(), "{:?}: {:?} {:?}", text, first(&text), other);
        }
    }
}
