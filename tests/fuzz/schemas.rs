// SPDX-License-Identifier: MIT
//! Values as a schema allows them, and just beyond.

use super::draws::Draws;
use super::tree::Json;
use serde_json::Value;

/// Deeper than this, values are plain.
const DEEPEST: usize = 5;

/// A schema and all its objects.
pub(crate) struct Schema {
    root: Value,
    /// Every object with fields, by its way.
    objects: Vec<String>,
}

impl Schema {
    pub(crate) fn of(root: Value) -> Self {
        let mut objects = Vec::new();
        collect(&root, "", &mut objects);
        Self { root, objects }
    }

    /// A field that an object like this one may have, with a value; the ones whose fields it shares most are asked.
    pub(crate) fn field(&self, names: &[String], draws: &mut Draws) -> Option<(String, Json)> {
        let fields = |way: &String| self.root.pointer(way).and_then(|object| object["properties"].as_object());
        let shared =
            |way: &String| fields(way).map_or(0, |all| names.iter().filter(|name| all.contains_key(*name)).count());
        let most = self.objects.iter().map(shared).max()?;
        let like: Vec<&String> = self.objects.iter().filter(|way| shared(way) == most || draws.once_in(40)).collect();
        let all = fields(like[draws.below(like.len())])?;
        let (name, schema) = all.iter().nth(draws.below(all.len()))?;
        Some((name.clone(), self.value(schema, draws, 0)))
    }

    /// A value of a field of this name, as some object has it.
    pub(crate) fn named(&self, name: &str, draws: &mut Draws) -> Option<Json> {
        let ways: Vec<&Value> =
            self.objects.iter().filter_map(|way| self.root.pointer(way)?["properties"].get(name)).collect();
        (!ways.is_empty()).then(|| self.value(ways[draws.below(ways.len())], draws, 0))
    }

    /// A whole file.
    pub(crate) fn whole(&self, draws: &mut Draws) -> Json {
        self.value(&self.root, draws, 0)
    }

    fn value(&self, schema: &Value, draws: &mut Draws, depth: usize) -> Json {
        if let Some(way) = schema["$ref"].as_str().and_then(|way| way.strip_prefix('#')) {
            return self
                .root
                .pointer(way)
                .map_or_else(|| Json::Bare("null".into()), |schema| self.value(schema, draws, depth));
        }
        if let Some(value) = schema.get("const") {
            return Json::of(value);
        }
        for choice in ["enum", "oneOf", "anyOf"] {
            if let Some(all) = schema[choice].as_array().filter(|all| !all.is_empty()) {
                let one = &draws.pick(all);
                return if choice == "enum" { Json::of(one) } else { self.value(one, draws, depth + 1) };
            }
        }
        let kind = match &schema["type"] {
            Value::Array(kinds) if !kinds.is_empty() => draws.pick(kinds).as_str().unwrap_or_default().to_owned(),
            kind => {
                kind.as_str().unwrap_or(if schema["properties"].is_object() { "object" } else { "string" }).to_owned()
            }
        };
        match kind.as_str() {
            "object" => self.object(schema, draws, depth),
            "array" => {
                let count = if depth > DEEPEST { 0 } else { draws.below(4) };
                Json::List((0..count).map(|_| self.value(&schema["items"], draws, depth + 1)).collect())
            }
            "integer" | "number" => Json::Bare(number(schema, draws)),
            "boolean" => Json::Bare((draws.pick(&["true", "false"])).into()),
            "null" => Json::Bare("null".into()),
            _ => Json::text(draws.pick(&TEXTS)),
        }
    }

    fn object(&self, schema: &Value, draws: &mut Draws, depth: usize) -> Json {
        let empty = serde_json::Map::new();
        let fields = schema["properties"].as_object().unwrap_or(&empty);
        let needed = |name: &str| schema["required"].as_array().is_some_and(|all| all.iter().any(|one| one == name));
        let often = 1 + draws.below(8);
        let mut made = Vec::new();
        for (name, of) in fields {
            if needed(name) || (depth <= DEEPEST && draws.once_in(often)) {
                made.push((name.clone(), self.value(of, draws, depth + 1)));
            }
        }
        if let Some(more) = schema.get("additionalProperties").filter(|more| more.is_object()) {
            for _ in 0..=draws.below(2) {
                made.push((
                    (draws.pick(&["card", "paper", "a", "b-2"])).to_owned(),
                    self.value(more, draws, depth + 1),
                ));
            }
        }
        Json::Object(made)
    }
}

/// What stands in fields that take text: lengths, names, formulas.
const TEXTS: [&str; 22] = [
    "12 mm",
    "8 1/2 in",
    "21.6 cm",
    "1/64 in",
    "A4",
    "210x297mm",
    "12x12in",
    "card",
    "paper",
    "pocket",
    "width",
    "height / 2",
    "min(width, height) - 2 * seam",
    "leaf/page",
    "front",
    "250 gsm",
    "2 %",
    "25 m",
    "5x7",
    "#8FA3B0",
    "a name",
    "caliper * 3",
];

/// A number at, within or beyond its limits.
fn number(schema: &Value, draws: &mut Draws) -> String {
    let at = |name: &str| schema[name].as_f64();
    let (least, most) = (at("minimum").or(at("exclusiveMinimum")), at("maximum").or(at("exclusiveMaximum")));
    match (draws.below(8), least, most) {
        (0, Some(least), _) => format!("{least}"),
        (1, _, Some(most)) => format!("{most}"),
        (2, Some(least), _) => format!("{}", least - 1.0),
        (3, _, Some(most)) => format!("{}", most + 1.0),
        (4, ..) => format!("{}", draws.below(3)),
        (5, ..) => format!("{}.{}", draws.below(300), draws.below(100)),
        _ => format!("{}", draws.below(400)),
    }
}

fn collect(schema: &Value, way: &str, into: &mut Vec<String>) {
    match schema {
        Value::Object(fields) => {
            if schema["properties"].as_object().is_some_and(|all| !all.is_empty()) {
                into.push(way.to_owned());
            }
            for (name, value) in fields {
                collect(value, &format!("{way}/{}", name.replace('~', "~0").replace('/', "~1")), into);
            }
        }
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(number, value)| collect(value, &format!("{way}/{number}"), into));
        }
        _ => {}
    }
}
