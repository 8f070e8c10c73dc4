"""The question which semen to take: read as one only where it is one."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import datetime
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from dialogs.grammar.place import Place
from dialogs.grammar.read import read
from service.husbandry.forms import dump
from service.husbandry.herd import Herd, Known, Sex, Status
from service.husbandry.kinds import Ask
from service.husbandry.units import Money

NOW = datetime(2026, 3, 2, 8, 0, tzinfo=ZoneInfo("Africa/Dar_es_Salaam"))
HERD = Herd(
    tuple(
        Known(name=name, names=(name,), sex=Sex.FEMALE, status=Status.MILKING) for name in ("Neema", "Zawadi")
    )
)
WITH_MILK = Herd((*HERD.animals, replace(HERD.animals[0], name="Maziwa", names=("Maziwa",))))
"""With a cow called like an aim."""


def asked(text: str, herd: Herd | None = HERD) -> list[dict[str, Any]]:
    reading = read(text, herd, now=NOW, language="sw", place=Place())
    return [dump(entry) for entry in reading.entries if isinstance(entry, Ask) and entry.topic == "semen"]


def price(amount: int) -> dict[str, str]:
    return {"amount": str(Money.of(Decimal(amount), "TZS").amount), "currency": "TZS"}


@pytest.mark.parametrize(
    ("text", "animal", "aims", "most"),
    [
        ("MBEGU NEEMA maziwa, kiwele bei 20000", "Neema", ["milk", "udder"], 20000),
        ("SEMEN FOR NEEMA milk, udder under 20000", "Neema", ["milk", "udder"], 20000),
        ("mbegu neema kiwele na maziwa", "Neema", ["udder", "milk"], None),
        ("Mbegu ya dume kwa Zawadi kwanza uzazi halafu miguu na kwato",
         "Zawadi", ["fertility", "feet_and_legs"], None),
        ("mbegu neema kuzaa kwa urahisi, maisha marefu hadi elfu kumi na tano",
         "Neema", ["calving_ease", "longevity"], 15000),
        ("semen zawadi easy calving then fertility, max 25k", "Zawadi", ["calving_ease", "fertility"], 25000),
        ("Straw for Neema: feet and legs, long life up to 18,000/=",
         "Neema", ["feet_and_legs", "longevity"], 18000),
        ("MBEGU NEEMA hadi 20000", "Neema", None, 20000),
        ("Which bull should I use for Neema?", "Neema", None, None),
        ("Nimpandishe Neema mbegu gani? nataka maziwa", "Neema", ["milk"], None),
        ("which semen is best for milk?", None, ["milk"], None),
        ("MBEGU NGOLI maziwa, kiwele", None, ["milk", "udder"], None),
        ("MBEGU NEEMA NA ZAWADI kiwele, maziwa", None, ["udder", "milk"], None),
    ],
)  # fmt: skip
def test_a_question_about_semen_has_its_cow_its_aims_in_order_and_her_price(text, animal, aims, most):
    (found,) = asked(text)
    assert found["animal"] == animal
    assert found.get("aims") == aims
    assert found.get("price") == (None if most is None else price(most))
    json.dumps(found)


@pytest.mark.parametrize(
    ("text", "animal", "aims"),
    [
        ("MBEGU NEEMA maziwa, kiwele", "Neema", ["milk", "udder"]),
        ("MBEGU MAZIWA kiwele, maziwa", "Maziwa", ["udder", "milk"]),
    ],
)
def test_a_cow_called_like_an_aim_is_meant_where_no_other_is(text, animal, aims):
    (found,) = asked(text, WITH_MILK)
    assert (found["animal"], found["aims"]) == (animal, aims)


def test_without_a_herd_any_name_is_the_cows():
    (found,) = asked("MBEGU PENDO maziwa bei 20000", None)
    assert found["animal"] == "Pendo"


@pytest.mark.parametrize(
    "text",
    [
        "MBEGU NEEMA",
        "Semen for Neema",
        "MBEGU NEEMA 20000",
        "Neema mbegu ya dume Shujaa elfu ishirini",
        "semen neema kilele",
        "Neema amepandishwa leo mbegu Kilele",
        "mbegu neema kiwele kimevimba",
        "mbegu neema maziwa 6",
        "Neema alipandishwa mbegu gani?",
        "Dume gani alimpanda Neema?",
        "which bull was used on Neema?",
        "mbegu ya mahindi kwa maziwa bei 20000",
        "nimenunua mbegu za nyasi 12000",
        "mbegu gani nzuri ya mahindi?",
        "MAZIWA NEEMA 6",
    ],
)
def test_a_telling_and_seed_for_the_field_are_none(text):
    assert asked(text) == []


@pytest.mark.parametrize(
    ("text", "sire", "cost"),
    [
        ("Neema amepandishwa leo mbegu IG-101", "IG-101", None),
        ("Neema inseminated today straw IG-101 20000", "IG-101", 20000),
        ("neema ai straw code fr-0099", "fr-0099", None),
        ("Neema ai straw IG101", "IG101", None),
    ],
)
def test_a_straws_code_is_kept_whole_and_is_no_sum(text, sire, cost):
    (entry,) = read(text, HERD, now=NOW, language="sw", place=Place()).entries
    told = dump(entry)
    assert told["sire"] == sire
    assert told["cost"] == (None if cost is None else price(cost))
