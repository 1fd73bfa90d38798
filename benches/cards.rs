//! Setting cards: a thousand one-page A5 cards in two seconds on two cores.

#![allow(missing_docs, reason = "the macro makes the functions")]

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use levelcup::typeset::{Card, CardSize, Foot, Labels, Layout, typeset};
use mimalloc::MiMalloc;
use rayon::prelude::*;

/// The program's own.
#[global_allocator]
static ALLOCATOR: MiMalloc = MiMalloc;

const CARD: &str = include_str!("../tests/cards/sesame-shortbread.md");

/// A card like others of an archive: most words are the same, title and weights are its own.
fn markdown(number: usize) -> String {
    CARD.replacen("# ", &format!("# No {number}: "), 1).replace("0 g", &format!("{} g", number % 10))
}

fn layout(number: usize) -> Layout {
    Layout {
        size: CardSize::A5,
        accent: "#0b4f6c".parse().expect("a colour"),
        language: "en-GB".into(),
        title: format!("Card {number}"),
        author: "Tern Quay".into(),
        subject: "A recipe by weight".into(),
        foot: Foot { source: "Tern Quay".into(), date: "4 October 2026".into() },
        link: Some(format!("https://tern-quay.example/card-{number}/")),
        date: Some(jiff::civil::date(2026, 10, 4)),
        labels: Labels::default(),
    }
}

fn card(number: usize) -> Card {
    let card = typeset(&markdown(number), &layout(number)).expect("a card");
    assert!(card.pages == 1 && card.pdf.len() <= 40 * 1024);
    card
}

fn cards(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("cards");
    group.sample_size(10);
    group.throughput(Throughput::Elements(1));
    group.bench_function("one", |bencher| bencher.iter(|| card(7)));
    group.throughput(Throughput::Elements(1000));
    group.bench_function("a thousand on all cores", |bencher| {
        bencher.iter(|| (0..1000).into_par_iter().map(|number| card(number).pdf.len()).sum::<usize>());
    });
    group.finish();
}

criterion_group!(benches, cards);
criterion_main!(benches);
