use serde_json::Value as Json;

/// What may stand at a place of a file: its JSON Schema, in the form that is looked up most quickly.
#[derive(Debug, Default)]
pub(super) struct Shape {
    /// Any text; a number or a truth value counts as its own spelling.
    pub(super) text: bool,
    /// Nothing, which leaves the key out.
    pub(super) nothing: bool,
    /// A whole number from nought.
    pub(super) whole: bool,
    pub(super) number: bool,
    /// True or false.
    pub(super) truth: bool,
    /// Texts of which one may stand.
    pub(super) choices: Vec<String>,
    /// Characters of a text, at most.
    pub(super) longest: Option<usize>,
    pub(super) list: Option<Box<List>>,
    pub(super) mapping: Option<Mapping>,
}

/// A list's items.
#[derive(Debug)]
pub(super) struct List {
    pub(super) item: Shape,
    pub(super) most: Option<usize>,
}

/// A mapping's keys.
#[derive(Debug)]
pub(super) struct Mapping {
    /// In the order of the format.
    pub(super) keys: Vec<KnownKey>,
    /// What stands under any other key, where others may be there.
    pub(super) others: Option<Box<Shape>>,
}

/// A key that the format knows.
#[derive(Debug)]
pub(super) struct KnownKey {
    pub(super) name: String,
    pub(super) shape: Shape,
    /// What it is for; may be empty.
    pub(super) about: String,
    pub(super) required: bool,
}

impl Shape {
    /// The shape that a schema describes. Types that hold themselves have none; no format has such.
    pub(super) fn of(schema: &Json) -> Self {
        let mut shape = Self::default();
        shape.add(schema, schema);
        shape
    }

    /// Adds what one schema lets stand to what others do.
    fn add(&mut self, schema: &Json, root: &Json) {
        if let Some(name) = schema.get("$ref").and_then(Json::as_str) {
            if let Some(target) = root.pointer(name.trim_start_matches('#')) {
                self.add(target, root);
            }
            return;
        }
        for option in ["anyOf", "oneOf"].iter().filter_map(|key| schema.get(*key)?.as_array()).flatten() {
            self.add(option, root);
        }
        let choices = schema.get("enum").and_then(Json::as_array).into_iter().flatten();
        let choices = choices.chain(schema.get("const")).filter_map(Json::as_str);
        let known = self.choices.len();
        self.choices.extend(choices.map(String::from));
        let is_choice = self.choices.len() > known;
        self.longest = self.longest.or(count(schema, "maxLength"));
        match schema.get("type") {
            Some(Json::String(kind)) => self.add_kind(kind, is_choice, schema, root),
            Some(Json::Array(kinds)) => {
                kinds.iter().filter_map(Json::as_str).for_each(|kind| self.add_kind(kind, is_choice, schema, root));
            }
            _ => {}
        }
    }

    fn add_kind(&mut self, kind: &str, is_choice: bool, schema: &Json, root: &Json) {
        match kind {
            "string" => self.text |= !is_choice,
            "null" => self.nothing = true,
            "integer" => self.whole = true,
            "number" => self.number = true,
            "boolean" => self.truth = true,
            "array" => {
                let mut item = Self::default();
                item.add(schema.get("items").unwrap_or(&Json::Null), root);
                self.list = Some(Box::new(List { item, most: count(schema, "maxItems") }));
            }
            "object" => self.mapping = Some(Mapping::of(schema, root)),
            _ => {}
        }
    }

    /// Whether any place has a key of the name.
    pub(super) fn has_key(&self, name: &str) -> bool {
        let of_mapping = |mapping: &Mapping| {
            mapping.keys.iter().any(|key| key.name == name || key.shape.has_key(name))
                || mapping.others.as_ref().is_some_and(|others| others.has_key(name))
        };
        self.mapping.as_ref().is_some_and(of_mapping) || self.list.as_ref().is_some_and(|list| list.item.has_key(name))
    }

    /// The choices for people, where they are few.
    fn choices(&self) -> String {
        match self.choices.as_slice() {
            [first @ .., last] if !first.is_empty() && first.len() < 12 => format!("{} or {last}", first.join(", ")),
            _ => "a word of the format".into(),
        }
    }

    /// What may stand here, for people.
    pub(super) fn wanted(&self) -> String {
        let kinds = [
            (self.text, "text"),
            (self.whole, "a whole number"),
            (self.number && !self.text, "a number"),
            (self.truth, "`true` or `false`"),
            (!self.choices.is_empty(), &self.choices()),
            (self.list.is_some(), "a list"),
            (self.mapping.is_some(), "keys with values"),
        ];
        kinds.iter().filter(|(may, _)| *may).map(|(_, kind)| *kind).collect::<Vec<_>>().join(" or ")
    }
}

impl Mapping {
    fn of(schema: &Json, root: &Json) -> Self {
        let required = schema.get("required").and_then(Json::as_array);
        let is_required = |name: &str| required.is_some_and(|all| all.iter().any(|key| key.as_str() == Some(name)));
        let key = |(name, schema): (&String, &Json)| {
            let mut shape = Shape::default();
            shape.add(schema, root);
            let about = schema.get("description").and_then(Json::as_str).unwrap_or_default();
            let about = about.trim_end_matches('.').replace('\n', " ");
            KnownKey { name: name.clone(), shape, about, required: is_required(name) }
        };
        let keys = schema.get("properties").and_then(Json::as_object).into_iter().flatten().map(key).collect();
        let others = schema.get("additionalProperties").filter(|others| others.is_object());
        let others = others.map(|schema| {
            let mut shape = Shape::default();
            shape.add(schema, root);
            Box::new(shape)
        });
        Self { keys, others }
    }

    pub(super) fn key(&self, name: &str) -> Option<&KnownKey> {
        self.keys.iter().find(|key| key.name == name)
    }
}

fn count(schema: &Json, key: &str) -> Option<usize> {
    schema.get(key).and_then(Json::as_u64).and_then(|count| usize::try_from(count).ok())
}
