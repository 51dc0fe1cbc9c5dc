"""Makes `vectors/finder_bm25.json` with bm25s, an independent library: `python -m tests.support.bm25_reference`.

The first documents and their query are a published example (see the test); the others are drawn. Fields are texts that
are written so many times, which is what the weights of fields stand for.
"""

from __future__ import annotations

import json
import random
from typing import Any

import bm25s

from tests.support.places import VECTORS

FILE = VECTORS / "finder_bm25.json"
K1, B = 1.2, 0.75


def reference(documents: list[list[str]], queries: list[list[str]]) -> list[list[float]]:
    """Scores of each query for each document, by bm25s in its `lucene` variant."""
    engine = bm25s.BM25(method="lucene", k1=K1, b=B)
    vocabulary = {term: number for number, term in enumerate(sorted({term for each in documents for term in each}))}
    numbers = [[vocabulary[term] for term in each] for each in documents]
    engine.index((numbers, vocabulary), show_progress=False)
    return [[float(score) for score in engine.get_scores(query)] for query in queries]


def cases() -> list[dict[str, Any]]:
    """Documents by field, weights of the fields and queries, without the scores."""
    example = [
        "stator winding open circuit no charge",
        "regulator rectifier overheating no charge battery flat",
        "fuel pump relay fails hot",
        "battery flat after night parasitic drain",
        "clutch drag when hot",
    ]
    chance = random.Random(20260601)
    terms = [f"t{number}" for number in range(30)]

    def drawn(most: int) -> list[str]:
        return [terms[min(int(chance.expovariate(0.15)), 29)] for _ in range(chance.randint(0, most))]

    fielded = [{"title": drawn(4), "causes": drawn(12), "other": drawn(20)} for _ in range(40)]
    asked = [chance.sample(terms[:12], 3) for _ in range(12)]
    return [
        {"documents": [{"other": text.split()} for text in example], "queries": [["battery", "drain"]]},
        {"documents": fielded, "queries": asked},
    ]


def written_out(document: dict[str, list[str]], weights: dict[str, int]) -> list[str]:
    """The document as one text in which each field stands as often as it weighs."""
    return [term for field, terms in document.items() for term in terms * weights[field]]


WEIGHTS = {"title": 5, "causes": 2, "other": 1}


def main() -> None:
    made = [
        each
        | {
            "scores": [
                [round(score, 6) for score in scores]
                for scores in reference([written_out(one, WEIGHTS) for one in each["documents"]], each["queries"])
            ]
        }
        for each in cases()
    ]
    about = "Scores by bm25s, variant lucene, k1 1.2, b 0.75; made by tests.support.bm25_reference. `weights` by field."
    FILE.write_text(json.dumps({"about": about, "weights": WEIGHTS, "cases": made}) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
