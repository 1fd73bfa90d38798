//! Three recipes of the quay-side bakery, made by hand as sheets.

use levelcup::sheet::*;
use levelcup::workspace::Site;

pub(crate) fn site() -> Site {
    Site {
        name: "Tern Quay".into(),
        tagline: "Bread, tarts and buns from the end of the pier".into(),
        url: "https://tern-quay.example/".into(),
        author: "Tern Quay bakery".into(),
        ..Site::default()
    }
}

pub(crate) fn sheets() -> Vec<Sheet> {
    vec![tart(), buns(), bare()]
}

/// An ingredient line; empty amounts stand for none.
fn line(name: &str, prep: &str, grams: u64, amounts: [(&'static str, &str, &str); 4]) -> SheetLine {
    let given = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    let batches: Vec<BatchAmount> = amounts
        .iter()
        .map(|(batch, weight, measure)| BatchAmount { batch, weight: given(weight), measure: given(measure) })
        .collect();
    SheetLine {
        name: name.into(),
        prep: given(prep),
        note: None,
        optional: false,
        ingredient: Some(name.replace(' ', "-")),
        link: None,
        weight: batches[1].weight.clone(),
        measure: batches[1].measure.clone(),
        batches,
        milligrams: grams * 1000,
        error_percent: Some(-1.25),
        source: Some("USDA SR28".into()),
        weigh: false,
        weigh_only: false,
        to_taste: false,
        vague: false,
        of: String::new(),
    }
}

fn weighed(name: &str, prep: &str, grams: u64, measures: [&str; 4]) -> SheetLine {
    let weights = [grams.div_ceil(2), grams, grams * 2, grams * 3].map(|grams| format!("{grams} g"));
    let names = ["half", "one", "two", "three"];
    let amounts: Vec<_> = (0..4).map(|i| (names[i], weights[i].as_str(), measures[i])).collect();
    line(name, prep, grams, amounts.try_into().expect("four batches"))
}

fn taking(line: usize) -> SheetTaking {
    SheetTaking { line, share: "all", weight: None, measure: None, batches: vec![] }
}

fn step(number: usize, text: &str, lines: &[usize]) -> SheetStep {
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
        uses: Vec::new(),
        starts: 0,
        takes: lines.iter().map(|line| taking(*line)).collect(),
    }
}

fn length(text: &str, iso: &str, seconds: u64) -> Length {
    Length { text: text.into(), iso: iso.into(), seconds, least: seconds }
}

fn component(
    number: usize,
    name: &str,
    slug: &str,
    mass: &str,
    share: u32,
    lines: Vec<SheetLine>,
    steps: Vec<SheetStep>,
) -> SheetComponent {
    SheetComponent {
        number,
        name: name.into(),
        slug: slug.into(),
        uses: Vec::new(),
        mass: (!mass.is_empty()).then(|| mass.into()),
        share,
        ratio: None,
        lines,
        steps,
    }
}

fn tag(name: &str, slug: &str) -> Tag {
    Tag { name: name.into(), slug: slug.into() }
}

fn reference(name: &str, slug: &str) -> Reference {
    Reference { name: name.into(), slug: slug.into() }
}

/// A recipe with everything that a page can show.
pub(crate) fn tart() -> Sheet {
    Sheet {
        slug: "apricot-tart".into(),
        title: "Apricot and thyme tart".into(),
        summary: Some(
            "Buckwheat pastry, a baked yoghurt custard and roast apricots, made the day before and served cool.".into(),
        ),
        published: Some("2026-07-04".into()),
        updated: Some("2026-07-09".into()),
        makes: Some("one 24 cm (9 1/2 in) tart".into()),
        serves: Some(levelcup::recipe::Servings { low: 10, high: 10 }),
        tags: vec![tag("summer", "summer"), tag("tart", "tart"), tag("make ahead", "make-ahead")],
        video: Some(tart_video()),
        photo: None,
        links: tart_links(),
        any_paid: true,
        times: Times {
            in_the_oven: None,
            hands_on: Some(length("1 h 25 min", "PT1H25M", 5100)),
            waiting: Some(length("3 h", "PT3H", 10800)),
            start_to_finish: Some(length("4 h 25 min", "PT4H25M", 15900)),
        },
        components: vec![tart_pastry(), tart_custard(), tart_apricots(), tart_finish()],
        cautions: vec![
            Caution {
                topic: "raw flour".into(),
                text: "Flour is raw: do not taste the dough, and wash hands and tools after it.".into(),
            },
            Caution {
                topic: "egg".into(),
                text: "Keep eggs refrigerated and cook the custard until it is set; keep the tart refrigerated and eat it within two days.".into(),
            },
        ],
        allergens: Allergens {
            us: vec!["wheat".into(), "milk".into(), "egg".into()],
            eu: vec!["cereals containing gluten".into(), "milk".into(), "eggs".into()],
            unknown: vec!["quay honey".into()],
        },
        corrections: vec![SheetCorrection {
            on: "2026-07-09".into(),
            what: "The pastry takes 35 g caster sugar; the video says 53 g.".into(),
        }],
        mass: "1,388 g".into(),
        was: Vec::new(),
        nutrition: None,
    }
}

fn tart_video() -> SheetVideo {
    let chapter = |seconds, end, stamp: &str, name: &str| Chapter {
        seconds,
        end,
        stamp: stamp.into(),
        name: name.into(),
        url: format!("https://video.example/apricot-tart?t={seconds}"),
    };
    SheetVideo {
        url: "https://video.example/apricot-tart".into(),
        length: Some(length("12 min 40 s", "PT12M40S", 760)),
        chapters: vec![
            chapter(0, Some(155), "0:00", "Buckwheat pastry"),
            chapter(155, Some(390), "2:35", "Yoghurt custard"),
            chapter(390, Some(760), "6:30", "To finish"),
        ],
    }
}

fn tart_links() -> Vec<LinkGroup> {
    let link = |what: &str, url: &str, paid| SheetLink { what: what.into(), url: url.into(), paid };
    vec![
        LinkGroup {
            kind: "gear".into(),
            links: vec![link("fluted ring, 24 cm across, 3 cm deep", "https://shop.example/ring-24", true)],
        },
        LinkGroup {
            kind: "ingredient".into(),
            links: vec![link("buckwheat flour", "https://shop.example/buckwheat", false)],
        },
    ]
}

fn tart_pastry() -> SheetComponent {
    let mut yolk = weighed("egg yolk", "", 18, ["1/2 large", "1 large", "2 large", "3 large"]);
    yolk.note = Some("keep the white for a glaze".into());
    let lines = vec![
        weighed("plain flour", "", 140, ["1/2 cup + 1 tbsp", "1 cup + 2 tbsp", "2 1/4 cups", "3 1/3 cups"]),
        weighed("buckwheat flour", "", 60, ["1/4 cup", "1/2 cup", "1 cup", "1 1/2 cups"]),
        weighed("cold butter", "diced", 120, ["4 tbsp + 1 tsp", "1/2 cup + 1 tsp", "1 cup + 1 tbsp", "1 1/2 cups"]),
        weighed("caster sugar", "", 35, ["1 tbsp + 1 tsp", "3 tbsp", "1/3 cup", "1/2 cup"]),
        yolk,
        line(
            "fine salt",
            "",
            1,
            [
                ("half", "0.5 g", "a pinch"),
                ("one", "1 g", "1/8 tsp"),
                ("two", "2 g", "1/4 tsp"),
                ("three", "3 g", "1/2 tsp"),
            ],
        ),
    ];
    let mut rest = step(2, "Rest the dough in the refrigerator.", &[]);
    rest.wait = Some(length("1 h", "PT1H", 3600));
    let mut bake = step(3, "Line the ring and bake blind.", &[]);
    bake.oven = Some("180 °C (350 °F)".into());
    bake.time = Some(length("22–25 min", "PT25M", 1500));
    bake.until = Some("dry and biscuit-coloured at the rim".into());
    bake.at = Some("2:35".into());
    let steps = vec![
        step(
            1,
            "Rub the butter into both flours, the sugar and the salt, then bind with the yolk.",
            &[0, 1, 2, 3, 4, 5],
        ),
        rest,
        bake,
    ];
    let mut pastry = component(1, "Buckwheat pastry", "buckwheat-pastry", "374 g", 27, lines, steps);
    pastry.ratio = Some("flour : butter = 5 : 3".into());
    pastry
}

fn tart_custard() -> SheetComponent {
    let mut gelling = weighed("cornflour", "", 12, ["2 tsp", "1 tbsp + 1 tsp", "3 tbsp", "1/4 cup"]);
    gelling.weigh = true;
    let lines = vec![
        weighed(
            "whole-milk yoghurt",
            "drained overnight",
            400,
            ["3/4 cup + 1 tbsp", "1 2/3 cups", "3 1/4 cups", "5 cups"],
        ),
        weighed("eggs", "", 100, ["1 large", "2 large", "4 large", "6 large"]),
        weighed("quay honey", "", 60, ["", "", "", ""]),
        gelling,
        line(
            "vanilla",
            "",
            0,
            [("half", "", "to taste"), ("one", "", "to taste"), ("two", "", "to taste"), ("three", "", "to taste")],
        ),
    ];
    let mut whisk = step(
        1,
        "Whisk everything <em>gently</em>, so that no froth forms, and pass it through a sieve.",
        &[0, 1, 2, 3, 4],
    );
    whisk.text = whisk.text.replace("<em>", "").replace("</em>", "");
    whisk.markdown = whisk.markdown.replace("<em>", "*").replace("</em>", "*");
    whisk.mind = Some("the custard holds raw egg until it is baked.".into());
    component(2, "Yoghurt custard", "yoghurt-custard", "572 g", 41, lines, vec![whisk])
}

fn tart_apricots() -> SheetComponent {
    let lines = vec![
        weighed("apricots", "halved and stoned", 420, ["6 halves", "12 halves", "24 halves", "36 halves"]),
        weighed("light brown sugar", "", 20, ["2 tsp", "1 tbsp + 1 tsp", "3 tbsp", "1/4 cup"]),
        weighed("thyme", "leaves only", 2, ["1/2 tsp", "1 tsp", "2 tsp", "1 tbsp"]),
    ];
    let mut roast = step(1, "Roast the apricots, cut side up, under the sugar and the thyme.", &[0, 1, 2]);
    roast.oven = Some("220 °C (425 °F)".into());
    roast.time = Some(length("15 min", "PT15M", 900));
    roast.until = Some("brown at the edges and still whole".into());
    component(3, "Roast apricots", "roast-apricots", "442 g", 32, lines, vec![roast])
}

fn tart_finish() -> SheetComponent {
    let parts = vec![
        reference("Buckwheat pastry", "buckwheat-pastry"),
        reference("Yoghurt custard", "yoghurt-custard"),
        reference("Roast apricots", "roast-apricots"),
    ];
    let mut bake = step(1, "Pour the custard into the pastry and bake until it trembles.", &[]);
    bake.oven = Some("150 °C (300 °F)".into());
    bake.heat = Some("82 °C (180 °F)".into());
    bake.time = Some(length("30 min", "PT30M", 1800));
    bake.uses = parts[..2].to_vec();
    let mut cool = step(2, "Cool, lay the apricots on top and keep cold.", &[]);
    cool.wait = Some(length("2 h", "PT2H", 7200));
    cool.uses = parts[2..].to_vec();
    let mut finish = component(4, "To finish", "to-finish", "", 0, Vec::new(), vec![bake, cool]);
    finish.uses = parts;
    finish
}

/// A plain recipe of one component, older than the tart.
pub(crate) fn buns() -> Sheet {
    let lines = vec![
        weighed("strong flour", "", 500, ["1 3/4 cups", "3 1/2 cups", "7 cups", "10 1/2 cups"]),
        weighed("whole milk", "lukewarm", 300, ["2/3 cup", "1 1/4 cups", "2 1/2 cups", "3 3/4 cups"]),
        weighed("butter", "soft", 80, ["3 tbsp", "1/3 cup", "2/3 cup", "1 cup + 1 tbsp"]),
    ];
    let mut prove = step(2, "Let it rise.", &[]);
    prove.wait = Some(length("overnight", "PT8H", 28800));
    let steps = vec![step(1, "Knead all of it to a smooth dough.", &[0, 1, 2]), prove];
    Sheet {
        slug: "ferry-buns".into(),
        title: "Ferry buns".into(),
        summary: Some("Soft milk buns for the first boat.".into()),
        published: Some("2026-05-18".into()),
        updated: Some("2026-05-18".into()),
        makes: Some("12 buns".into()),
        tags: vec![tag("bread", "bread"), tag("make ahead", "make-ahead")],
        components: vec![component(1, "Dough", "dough", "880 g", 100, lines, steps)],
        mass: "880 g".into(),
        ..bare()
    }
}

/// A recipe of which nearly nothing is given.
pub(crate) fn bare() -> Sheet {
    Sheet {
        slug: "toast".into(),
        title: "Toast".into(),
        summary: None,
        published: None,
        updated: None,
        makes: None,
        serves: None,
        tags: Vec::new(),
        video: None,
        photo: None,
        links: Vec::new(),
        any_paid: false,
        times: Times::default(),
        components: vec![component(1, "Toast", "toast", "", 0, Vec::new(), vec![step(1, "Toast the bread.", &[])])],
        cautions: Vec::new(),
        allergens: Allergens::default(),
        corrections: Vec::new(),
        mass: "0 g".into(),
        was: Vec::new(),
        nutrition: None,
    }
}
