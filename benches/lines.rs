//! Reading and converting ingredient lines: at least 200,000 a second on one core.

#![allow(missing_docs, reason = "the macro makes the functions")]

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use levelcup::kitchen::Kitchen;
use levelcup::language::Dictionary;
use levelcup::pantry::Pantry;
use levelcup::recipe::LineReader;
use levelcup::workspace::Site;
use mimalloc::MiMalloc;

/// The program's own.
#[global_allocator]
static ALLOCATOR: MiMalloc = MiMalloc;

const LINES: [&str; 12] = [
    "140 g plain flour",
    "60 g (1/2 cup) buckwheat flour",
    "120 g cold unsalted butter, diced",
    "1 2/3 cups icing sugar, sifted",
    "3 large eggs",
    "2–3 tbsp honey",
    "1½ tsp baking powder",
    "a pinch of salt",
    "1 (14 oz / 397 g) can condensed milk",
    "juice of 1 lemon",
    "200 g 70 % dark chocolate, chopped",
    "250 ml whole milk",
];

fn lines(criterion: &mut Criterion) {
    let site = Site::default();
    let kitchen = Kitchen::new(Pantry::embedded(), &site).expect("the usual settings are right");
    let reader = LineReader::new(Dictionary::of("en-US").expect("English is there"), site.cups.into());
    let mut group = criterion.benchmark_group("lines");
    group.throughput(Throughput::Elements(LINES.len() as u64));
    group.bench_function("read", |bench| {
        bench.iter(|| LINES.iter().filter(|line| reader.read(line).is_ok()).count());
    });
    group.bench_function("read and convert", |bench| {
        bench.iter(|| {
            let convert = |line: &&str| {
                let line = reader.read(line).ok()?;
                let row = kitchen.ingredient(&line)?;
                let weighed = kitchen.weigh_as(&line, Some(row)).ok()?;
                kitchen.measure(row, &line, weighed.high)
            };
            LINES.iter().filter_map(convert).count()
        });
    });
    group.finish();
}

fn start(criterion: &mut Criterion) {
    criterion.bench_function("open the pantry", |bench| bench.iter(Pantry::embedded));
}

criterion_group!(benches, lines, start);
criterion_main!(benches);
