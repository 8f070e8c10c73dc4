"""Kinds that a drug's own words tell: at drying off, against a disease, for an illness."""

from __future__ import annotations

import re
from collections.abc import Sequence

from dialogs.grammar.items import Item


def tubes(items: Sequence[Item], told: set[str]) -> bool:
    """A drug put in at drying off; a "dry cow" alone is an animal."""
    if not told.isdisjoint(_NO_TUBES):
        return False
    named = next((i for i in items if i.has("dry_tube") and not i.denied), None)
    if named is not None:
        return not named.has("cow") or "treat" in told or "give" in told or drug_put_in(items) is not None
    dried = any(is_drying(i) for i in items) and told.isdisjoint(("deworm", "spray", "vaccinate"))
    put_in = drug_put_in(items)
    if put_in is None or any(i.word in ("baada", "after", "sababu", "because") for i in items):
        return False
    return dried or (_into_the_udder(items) and _given(items))


_NO_TUBES = ("buy", "spend", "feed", "new", "sell", "milk_pay", "pay", "wish", "price_word")


def is_drying(item: Item) -> bool:
    """Whether a cue is of drying a cow off; one that dries up by herself ("amekauka") was given nothing."""
    if item.sort != "cue" or not item.has("dry") or item.denied or _NOT_A_COW.match(item.prefix):
        return False
    return not item.word.endswith(("kauka", "kaukia"))


_NOT_A_COW = re.compile(r"(?:u|ki|vi|li|zi|pa)(?:me|na|li|ta)")


def drug_put_in(items: Sequence[Item]) -> Item | None:
    """The noun of the drug: "dawa", "tubes", "antibiotic", an injection or a product by name."""
    return next((i for i in items if i.sort == "cue" and not i.denied and _is_drug(i)), None)


def _is_drug(item: Item) -> bool:
    with_verb = item.has("treat") and item.end - item.start > 1  # "amewekewa dawa"
    return item.has("drug", "product") or with_verb or (item.has("treat") and item.word in _DRUGS)


_DRUGS = ("intramammary", "tubed", "infused", "tube", "tubes", "tyubu", "tiba", "medicated")
INTO_THE_UDDER = frozenset({
    "chuchu", "machuchu", "kiwele", "teat", "teats", "quarter", "quarters", "udder", "titi", "matiti",
})  # fmt: skip


def _into_the_udder(items: Sequence[Item]) -> bool:
    return any(item.word in INTO_THE_UDDER for item in items)


def _given(items: Sequence[Item]) -> bool:
    """Whether it is told that the drug was put in: "dawa imewekwa", "tubes put in", "dawa ya chuchu"."""
    for drug, joint, place in zip(items, items[1:], items[2:], strict=False):
        if drug.has("drug") and joint.word in ("ya", "za") and place.word in INTO_THE_UDDER:
            return True
    return any(_PUT.search(item.word) for item in items) and not any(item.has("feed") for item in items)


_PUT = re.compile(
    r"(?:me|li|ka)[a-z]{0,3}(?:wekwa|weka|wekewa|wekea|tiwa|tia|tilia)$|^(?:put|inserted|infused|given)$"
)


def given_drug(items: Sequence[Item], told: set[str]) -> bool:
    """ "Neema amepewa dripu", "given tablets": a noun for a drug, and that an animal was given it."""
    animal = any(
        i.sort == "animal" or i.has("cow", "calf", "heifer", "everyone", "bull_animal") for i in items
    )
    drug = any(i.has("drug") and not i.denied for i in items if i.sort == "cue")
    other = (
        *_NO_TUBES,
        "spray",
        "deworm",
        "vaccinate",
        "shed",
        "disinfect",
        "worm_drug",
        "feed_verb",
        "sold",
    )
    return animal and drug and not told.isdisjoint(("give", "got")) and told.isdisjoint(other)


def drug_for(items: Sequence[Item], told: set[str]) -> bool:
    """ "sindano ya kushika mimba", "drenched for bloat", "sprayed the wound": what a drug was for."""
    needle = any(_is_needle(i) and i.end - i.start > 1 for i in items) and "pregnant" in told
    drenched = any(i.word in ("drench", "drenched", "drenching") for i in items)
    ill = any(c.startswith("sign.") and c != "sign.ticks" for c in told)
    wound = "spray" in told and any(i.word in ("wound", "wounds", "kidonda", "vidonda") for i in items)
    meant = needle or (drenched and ill) or wound
    return meant and told.isdisjoint((*_NO_TUBES, "pd", "measure", "worm_drug"))


def has_disease(items: Sequence[Item], told: set[str]) -> bool:
    """ "Neema ana ndigana": a disease named of an animal; its signs are asked for."""
    named = any(i.starts("disease.") and not i.denied for i in items if i.sort == "cue")
    has = any(i.word in ("ana", "has", "amepata", "kapata", "anaumwa", "got", "wana", "have") for i in items)
    only = all(i.starts("disease.") is not None or i.has("unwell", "got") for i in items if i.sort == "cue")
    return named and has and only and any(i.sort == "animal" for i in items)


def injected(items: Sequence[Item], told: set[str]) -> bool:
    """ "kumchoma penicillin", "nimemtia OTC": a drug by name, and a verb of putting it in."""
    put = any(i.sort in ("word", "cue") and not i.denied and _INJECT.search(i.word) for i in items)
    named = any(i.has("product") and not i.denied for i in items if i.sort == "cue")
    return (
        put and named and told.isdisjoint((*_NO_TUBES, "spray", "deworm", "vaccinate", "shed", "disinfect"))
    )


_INJECT = re.compile(
    r"(?:[mw]|wa|me|ku|ka|li)(?:choma|chomwa|tia|tiwa|wekea|wekewa|dunga|dungwa|paka|pakwa)$"
)


def jabbed(items: Sequence[Item], told: set[str]) -> bool:
    """ "kapigwa sindano ya kimeta", "the lumpy skin jab": a needle against what is vaccinated against."""
    if not told.isdisjoint((*_NO_TUBES, "product", "unwell", "recover", "degrees", "deworm", "calve")):
        return False
    for index, item in enumerate(items):
        if not _is_needle(item):
            continue
        rest = [i for i in items[index + 1 :] if i.sort != "animal"]
        after = next((i for i in rest if i.word not in _AGAINST or i.starts("disease.")), None)
        before = items[index - 1] if index else None
        if any(i is not None and _is_vaccinated_against(i) for i in (after, before)):
            return True
    return False


def _is_needle(item: Item) -> bool:
    return item.sort == "cue" and not item.denied and item.has("treat", "drug") and (
        item.word in _NEEDLES or _BY_NEEDLE.search(item.word) is not None)  # fmt: skip


def _is_vaccinated_against(item: Item) -> bool:
    """East Coast fever is left out: an injection for it is as often its cure."""
    return not item.denied and item.starts("disease.") not in (None, "ecf")


_NEEDLES = frozenset(
    {"sindano", "injection", "injections", "jab", "jabbed", "shot", "injected", "injecting", "inject"}
)
_BY_NEEDLE = re.compile(r"(?:chom(?:a|wa|ea|ewa)|pig(?:a|wa|ia|iwa)|dung(?:a|wa))$")
_AGAINST = frozenset({
    "ya", "za", "for", "against", "the", "of", "dhidi", "kuzuia", "kukinga", "kinga", "ugonjwa", "wa",
    "disease", "na",
    "and", "to", "prevent", "magonjwa", "yangu", "my", "wote", "zote", "all",
})  # fmt: skip
