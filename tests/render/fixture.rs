use levelcup::sheet::{
    Allergens, BatchAmount, Bench, BenchComponent, BenchLine, Caution, Chapter, Length, LinkGroup, Nutrition,
    Reference, ScaledAmount, Sheet, SheetComponent, SheetCorrection, SheetLine, SheetLink, SheetPhoto, SheetStep,
    SheetTaking, SheetVideo, Tag, Times,
};
use levelcup::workspace::Site;

/// The bakery that publishes in our examples.
pub(crate) fn site() -> Site {
    Site {
        name: "Tern Quay".into(),
        tagline: "A bakery on the water".into(),
        url: "https://tern-quay.example/".into(),
        author: "Tern Quay".into(),
        ..Site::default()
    }
}

/// A tart in which every field of a sheet is filled.
pub(crate) fn tart() -> Sheet {
    Sheet {
        slug: "pear-rye-tart".into(),
        title: "Pear and rye tart with hazelnut brittle".into(),
        summary: Some(
            "A dark rye crust, pears baked in set cream, and brittle broken over the top just before serving.".into(),
        ),
        published: Some("2026-09-12".into()),
        updated: Some("2026-09-20".into()),
        makes: Some("one 24 cm tart".into()),
        serves: Some(levelcup::recipe::Servings { low: 10, high: 10 }),
        tags: vec![tag("autumn", "autumn"), tag("make ahead", "make-ahead")],
        video: Some(video()),
        photo: Some(SheetPhoto {
            file: "pear rye tart.jpg".into(),
            alt: "A cut tart, pear halves under shards of brittle".into(),
        }),
        links: links(),
        any_paid: true,
        times: Times {
            in_the_oven: Some(length("about 55 min", "PT55M", 3300)),
            hands_on: Some(length("1 h 10 min", "PT1H10M", 4200)),
            waiting: Some(length("3 h", "PT3H", 10800)),
            start_to_finish: Some(length("4 h 10 min", "PT4H10M", 15000)),
        },
        components: vec![pastry(), filling(), brittle(), finish()],
        cautions: vec![
            caution(
                "hot sugar",
                "Hot sugar sticks and goes on burning: long sleeves, and a bowl of cold water within reach.",
            ),
            caution("nuts", "Hazelnuts in the brittle: say so when you serve it."),
            caution("author", "Let nobody under the age of four have the brittle."),
        ],
        allergens: Allergens {
            us: vec!["wheat".into(), "milk".into(), "egg".into(), "hazelnut".into()],
            eu: vec![
                "cereals containing gluten (wheat, rye)".into(),
                "milk".into(),
                "eggs".into(),
                "nuts (hazelnut)".into(),
            ],
            unknown: vec!["pear leather".into()],
        },
        corrections: vec![SheetCorrection {
            on: "2026-09-20".into(),
            what: "The pastry takes 40 g caster sugar; the video says 45 g".into(),
        }],
        mass: "1,212 g".into(),
        was: vec!["buckwheat-tart".into()],
        nutrition: Some(Nutrition {
            serving: "1/10 of the recipe".into(),
            kcal: "320".into(),
            fat: Some("18 g".into()),
            saturated: Some("11 g".into()),
            carbohydrate: Some("34 g".into()),
            sugars: Some("20 g".into()),
            fibre: Some("less than 1 g".into()),
            protein: Some("5 g".into()),
            sodium: Some("120 mg".into()),
        }),
    }
}

/// The tart with the same text in every field that an author writes.
pub(crate) fn poisoned(text: &str) -> Sheet {
    let mut sheet = tart();
    let all = || text.to_owned();
    sheet.title = all();
    sheet.summary = Some(all());
    sheet.makes = Some(all());
    sheet.tags.iter_mut().for_each(|tag| tag.name = all());
    sheet.photo = Some(SheetPhoto { file: all(), alt: all() });
    if let Some(video) = &mut sheet.video {
        video.url = all();
        video.chapters.iter_mut().for_each(|chapter| (chapter.name, chapter.url) = (all(), all()));
    }
    let links = sheet.links.iter_mut().flat_map(|group| &mut group.links);
    links.for_each(|link| (link.what, link.url) = (all(), all()));
    sheet.components.iter_mut().for_each(|component| poison(component, text));
    sheet.cautions.iter_mut().for_each(|caution| caution.text = all());
    sheet.allergens = Allergens { us: vec![all()], eu: vec![all()], unknown: vec![all()] };
    sheet.corrections.iter_mut().for_each(|correction| correction.what = all());
    sheet
}

/// A sheet's amounts as if they were those of two batches.
pub(crate) fn bench(sheet: &Sheet) -> Bench {
    let line = |line: &SheetLine| BenchLine {
        name: line.name.clone(),
        prep: line.prep.clone(),
        note: line.note.clone(),
        optional: line.optional,
        amounts: vec![ScaledAmount { weight: line.weight.clone(), measure: line.measure.clone() }; 2],
    };
    let component = |component: &SheetComponent| BenchComponent {
        name: component.name.clone(),
        mass: component.mass.iter().cycle().take(2).cloned().collect(),
        lines: component.lines.iter().map(line).collect(),
    };
    Bench {
        batches: vec!["1/2".into(), "12".into()],
        mass: vec![sheet.mass.clone(); 2],
        components: sheet.components.iter().map(component).collect(),
    }
}

fn poison(component: &mut SheetComponent, text: &str) {
    let all = || text.to_owned();
    component.name = all();
    component.uses.iter_mut().for_each(|part| part.name = all());
    for line in &mut component.lines {
        (line.name, line.prep, line.note, line.link) = (all(), Some(all()), Some(all()), Some(all()));
        (line.weight, line.measure) = (Some(all()), Some(all()));
    }
    for step in &mut component.steps {
        (step.text, step.markdown) = (all(), all());
        (step.oven, step.heat, step.until, step.mind) = (Some(all()), Some(all()), Some(all()), Some(all()));
        step.time = Some(length(text, "PT1M", 60));
        step.wait = Some(length(text, "PT1M", 60));
    }
}

fn pastry() -> SheetComponent {
    let mut flour = line("rye flour", Some("150 g"), Some("1 1/4 cups + 2 tbsp"), 150_000);
    flour.link = Some("https://shop.example/rye".into());
    flour.source = Some("USDA SR28".into());
    flour.error_percent = Some(-1.4);
    flour.batches =
        vec![BatchAmount { batch: "two", weight: Some("300 g".into()), measure: Some("2 3/4 cups".into()) }];
    let mut butter = line("butter", Some("110 g"), Some("1/2 cup"), 110_000);
    butter.prep = Some("cold, diced".into());
    let mut rest = step(2, "Rest the dough in the refrigerator");
    rest.wait = Some(length("1 h", "PT1H", 3600));
    let mut bake = step(3, "Line a 24 cm (9 1/2 in) ring and bake *blind*.");
    bake.text = "Line a 24 cm (9 1/2 in) ring and bake blind.".into();
    bake.oven = Some("180 °C (350 °F)".into());
    bake.time = Some(length("22–25 min", "PT25M", 1500));
    bake.until = Some("dry and biscuit-coloured at the rim".into());
    bake.at = Some("2:35".into());
    bake.takes = vec![SheetTaking {
        line: 0,
        share: "part",
        weight: Some("75 g".into()),
        measure: Some("1/2 cup".into()),
        batches: vec![BatchAmount { batch: "one", weight: Some("75 g".into()), measure: Some("1/2 cup".into()) }],
    }];
    let mut pastry = component(1, "Rye pastry", "rye-pastry");
    pastry.mass = Some("318 g".into());
    pastry.share = 26;
    pastry.ratio = Some("flour : butter = 15 : 11".into());
    pastry.lines = vec![
        flour,
        butter,
        line("caster sugar", Some("40 g"), Some("3 tbsp + 1 tsp"), 40_000),
        line("egg yolk", Some("18 g"), Some("1 large"), 18_000),
        line("fine salt", None, Some("a pinch"), 0),
    ];
    pastry.steps = vec![step(1, "Rub the butter into the flour, sugar and salt, then bind with the yolk."), rest, bake];
    pastry
}

fn filling() -> SheetComponent {
    let mut pears = line("ripe pears", Some("480 g"), Some("3 medium"), 480_000);
    pears.prep = Some("peeled and halved".into());
    let mut pepper = line("black pepper", None, Some("to taste"), 0);
    pepper.optional = true;
    let mut gelatin = line("agar powder", Some("0.4 g"), Some("1/8 tsp"), 400);
    gelatin.weigh = true;
    gelatin.note = Some("for a firmer slice".into());
    let mut bake = step(2, "Pour round the pears and bake.");
    bake.oven = Some("150 °C (300 °F)".into());
    bake.heat = Some("82 °C (180 °F)".into());
    bake.time = Some(length("30 min", "PT30M", 1800));
    bake.uses = vec![reference("Rye pastry", "rye-pastry")];
    let mut filling = component(2, "Pears in cream", "pears-in-cream");
    filling.uses = vec![reference("Rye pastry", "rye-pastry")];
    filling.lines = vec![pears, line("double cream", Some("250 g"), Some("1 cup + 1 tbsp"), 250_000), pepper, gelatin];
    filling.steps = vec![step(1, "Whisk the cream with the agar."), bake];
    filling
}

fn brittle() -> SheetComponent {
    let mut boil = step(1, "Boil the sugar without stirring, tip in the nuts and pour onto a mat.");
    boil.cautions = vec!["hot sugar".into()];
    boil.heat = Some("165 °C (329 °F)".into());
    boil.until = Some("amber".into());
    boil.at = Some("7:10".into());
    boil.mind = Some("Let nobody under the age of four have the brittle".into());
    let mut brittle = component(3, "Hazelnut brittle", "hazelnut-brittle");
    brittle.mass = Some("180 g".into());
    brittle.lines = vec![
        line("hazelnuts", Some("80 g"), Some("2/3 cup"), 80_000),
        line("caster sugar", Some("100 g"), Some("1/2 cup"), 100_000),
    ];
    brittle.steps = vec![boil];
    brittle
}

fn finish() -> SheetComponent {
    let mut finish = component(4, "To finish", "to-finish");
    finish.uses =
        vec![reference("Pears in cream", "pears-in-cream"), reference("Hazelnut brittle", "hazelnut-brittle")];
    finish.steps = vec![step(1, "Break the brittle over the cooled tart just before serving.")];
    finish
}

fn video() -> SheetVideo {
    let url = "https://video.example/pear-rye-tart";
    let chapter = |seconds: u32, end: u32, stamp: &str, name: &str| Chapter {
        seconds,
        end: Some(end),
        stamp: stamp.into(),
        name: name.into(),
        url: format!("{url}?t={seconds}"),
    };
    SheetVideo {
        url: url.into(),
        length: Some(length("11 min 40 s", "PT11M40S", 700)),
        chapters: vec![
            chapter(0, 155, "0:00", "Rye pastry"),
            chapter(155, 430, "2:35", "Rye pastry: bake blind"),
            chapter(430, 700, "7:10", "Hazelnut brittle"),
        ],
    }
}

fn links() -> Vec<LinkGroup> {
    let link = |what: &str, url: &str, paid: bool| SheetLink { what: what.into(), url: url.into(), paid };
    vec![
        LinkGroup {
            kind: "gear".into(),
            links: vec![
                link("fluted ring, 24 cm across, 3 cm deep", "https://shop.example/ring-24", true),
                link("probe thermometer", "https://shop.example/probe", false),
            ],
        },
        LinkGroup { kind: "ingredient".into(), links: vec![link("dark rye flour", "https://shop.example/rye", false)] },
    ]
}

fn component(number: usize, name: &str, slug: &str) -> SheetComponent {
    SheetComponent {
        number,
        name: name.into(),
        slug: slug.into(),
        uses: vec![],
        mass: None,
        share: 0,
        ratio: None,
        lines: vec![],
        steps: vec![],
    }
}

fn line(name: &str, weight: Option<&str>, measure: Option<&str>, milligrams: u64) -> SheetLine {
    SheetLine {
        name: name.into(),
        prep: None,
        note: None,
        optional: false,
        ingredient: Some(name.replace(' ', "-")),
        link: None,
        batches: vec![],
        weight: weight.map(Into::into),
        measure: measure.map(Into::into),
        milligrams,
        error_percent: None,
        source: None,
        weigh: false,
        weigh_only: false,
        to_taste: measure == Some("to taste"),
        vague: measure.is_some_and(|measure| measure.starts_with("a ")),
        of: String::new(),
    }
}

fn step(number: usize, text: &str) -> SheetStep {
    SheetStep {
        number,
        text: text.into(),
        markdown: text.into(),
        oven: None,
        heat: None,
        time: None,
        wait: None,
        until: None,
        at: None,
        mind: None,
        cautions: Vec::new(),
        uses: vec![],
        starts: 0,
        takes: vec![],
    }
}

fn length(text: &str, iso: &str, seconds: u64) -> Length {
    Length { text: text.into(), iso: iso.into(), seconds, least: seconds }
}

fn tag(name: &str, slug: &str) -> Tag {
    Tag { name: name.into(), slug: slug.into() }
}

fn reference(name: &str, slug: &str) -> Reference {
    Reference { name: name.into(), slug: slug.into() }
}

fn caution(topic: &str, text: &str) -> Caution {
    Caution { topic: topic.into(), text: text.into() }
}
