"""
What cattle need in a day: dry matter, energy, protein, water, minerals; published equations.

Weights in kilograms, milk in kilograms or litres as each name says, energy in MJ (or Mcal) a day, all as
Decimal. Each equation's source and status: docs/trade/feeds.md. Needs are counted by the older, simpler
British energy standard; the American equations stand beside it as a check.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from service.husbandry.units import MILK_KG_PER_LITRE

D = Decimal

THREE_QUARTERS = D("0.75")

# --- how much she eats -----------------------------------------------------------------------------


def fcm(milk_kg: Decimal, fat_pct: Decimal) -> Decimal:
    """Milk of 4 % fat with the energy of *milk_kg*. Source: Gaines 1928 (0.4 + 0.15 F)."""
    return milk_kg * (D("0.4") + D("0.15") * fat_pct)


def nrc_dmi(milk_kg: Decimal, fat_pct: Decimal, kg: Decimal, week: Decimal) -> Decimal:
    """Dry matter a milking cow eats, kg a day; *week* of lactation. Source: NRC 2001; verified."""
    rising = 1 - (-D("0.192") * (week + D("3.67"))).exp()
    return (D("0.372") * fcm(milk_kg, fat_pct) + D("0.0968") * kg**THREE_QUARTERS) * rising


def nasem_dmi(
    milk_mcal: Decimal, kg: Decimal, condition: Decimal, days_in_milk: Decimal, parity: Decimal
) -> Decimal:
    """Dry matter a milking cow eats, kg a day; *parity* 1..2. Source: NASEM 2021; verified."""
    later = parity - 1
    level = D("3.7") + D("5.7") * later + D("0.305") * milk_mcal + D("0.022") * kg
    level += (-D("0.689") - D("1.87") * later) * condition
    return level * (1 - (D("0.212") + D("0.136") * later) * (-D("0.053") * days_in_milk).exp())


def nasem_heifer_dmi(kg: Decimal, mature_kg: Decimal) -> Decimal:
    """Dry matter a heifer eats, kg a day. Source: NASEM 2021 eq 2-3; verified."""
    return D("0.022") * mature_kg * (1 - (-D("1.54") * kg / mature_kg).exp())


MILKING_PART = D("0.03")
"""Dry matter a milking cow eats in a day, of her weight (Kenyan dairy consultant in press; verified)."""

DRY_PART = D("0.0225")
"""The same of a dry cow or heifer: 2-2.5 % (texts; from memory), the middle."""

# --- energy and protein ----------------------------------------------------------------------------

ME_A_LITRE = D("5.0")
"""MJ for a litre of milk of 3.8-4 % fat (MAFF Technical Bulletin 33, 1975; from memory)."""

CP_A_KG_OF_MILK = D("87.5")
"""Grams of crude protein for a kilogram of milk of 4 % fat: 85-90 (NRC tables; from memory), the middle."""

CP_KEPT = ((D(350), D(350)), (D(600), D(450)))
"""(Weight, grams of crude protein to live on): about 0.35-0.45 kg a day (NRC tables; from memory), laid
between the weights of a crossbred and of a large cow (Byreline's own choice)."""

CP_UNBORN_A_KG = D("1.4")
"""Grams a day for each kilogram of her weight in the last two months in calf: 572 g at 400 kg, 801 g at
600 kg by the tables of NRC 1989 (from memory), rounded."""

CP_OF_GROWING = D("0.12")
"""Of a growing heifer's dry matter: 12 % (texts; common practice, no source)."""

ENERGY_DENSITY = D(10)
"""MJ/kg DM of a ration on which heifers grow, for how well it is used (Byreline's own choice)."""


def nel_maintenance_nrc(kg: Decimal) -> Decimal:
    """Mcal a day. Source: NRC 2001, 0.080 W^0.75; from memory."""
    return D("0.080") * kg**THREE_QUARTERS


def nel_maintenance_nasem(kg: Decimal) -> Decimal:
    """Mcal a day. Source: NASEM 2021 eq 3-13, 0.10 W^0.75; verified."""
    return D("0.10") * kg**THREE_QUARTERS


def nel_milk_by_fat(fat_pct: Decimal) -> Decimal:
    """Mcal a kilogram of milk. Source: NRC 2001, the same in NASEM 2021; verified."""
    return D("0.360") + D("0.0969") * fat_pct


def nel_milk_nrc(fat_pct: Decimal, crude_protein_pct: Decimal, lactose_pct: Decimal) -> Decimal:
    """Mcal a kilogram of milk. Source: NRC 2001; from memory."""
    return D("0.0929") * fat_pct + D("0.0547") * crude_protein_pct + D("0.0395") * lactose_pct


def nel_milk_nasem(fat_pct: Decimal, true_protein_pct: Decimal, lactose_pct: Decimal) -> Decimal:
    """Mcal a kilogram of milk. Source: NASEM 2021; verified."""
    return D("0.0929") * fat_pct + D("0.0585") * true_protein_pct + D("0.0395") * lactose_pct


def me_maintenance(kg: Decimal) -> Decimal:
    """MJ a day to live on. Source: MAFF Technical Bulletin 33 (1975); from memory."""
    return D("8.3") + D("0.091") * kg


def me_unborn(days_in_calf: int) -> Decimal:
    """MJ a day for the unborn calf. Source: MAFF Technical Bulletin 33, 1.13 e^(0.0106 t); from memory."""
    return D("1.13") * (D("0.0106") * days_in_calf).exp()


def me_growth(kg: Decimal, gain_kg: Decimal) -> Decimal:
    """
    MJ a day for growing *gain_kg* a day.

    Source: MAFF Technical Bulletin 33: energy laid down G (6.28 + 0.0188 W) / (1 - 0.3 G), used with the
    efficiency 0.0435 M/D; from memory.
    """
    laid_down = gain_kg * (D("6.28") + D("0.0188") * kg) / (1 - D("0.3") * gain_kg)
    return laid_down / (D("0.0435") * ENERGY_DENSITY)


def cp_maintenance(kg: Decimal) -> Decimal:
    """Grams of crude protein a day to live on."""
    (light, least), (heavy, most) = CP_KEPT
    between = least + (most - least) * (kg - light) / (heavy - light)
    return min(max(between, least), most)


# --- water -----------------------------------------------------------------------------------------


def water_murphy(dmi_kg: Decimal, milk_kg: Decimal, sodium_g: Decimal, coldest_c: Decimal) -> Decimal:
    """Litres drunk a day. Source: Murphy, Davis & McCoy 1983; verified."""
    drunk = D("15.99") + D("1.58") * dmi_kg + D("0.90") * milk_kg
    return drunk + D("0.05") * sodium_g + D("1.20") * coldest_c


def water_castle(dmi_kg: Decimal, milk_kg: Decimal) -> Decimal:
    """Litres drunk a day. Source: Castle & Thomas 1975, 16 British cows; verified, authors from memory."""
    return D("12.3") + D("2.15") * dmi_kg + D("0.73") * milk_kg


def water_stockdale(dmi_kg: Decimal, dm_g_a_kg: Decimal, mean_c: Decimal) -> Decimal:
    """Litres a day with the feed's own. Source: Stockdale & King 1983; verified, authors from memory."""
    return D("11.34") + D("4.63") * dmi_kg - D("0.036") * dm_g_a_kg + D("0.84") * mean_c


def water_nasem(
    dmi_kg: Decimal, dm_pct: Decimal, sodium_pct: Decimal, potassium_pct: Decimal, cp_pct: Decimal, c: Decimal
) -> Decimal:
    """Litres a milking cow drinks. Source: NASEM 2021, read in nasem-dairy; verified."""
    salts = D("0.062") * (sodium_pct / D("0.023") + potassium_pct / D("0.039")) * 10
    return -D("91.1") + D("2.93") * dmi_kg + D("0.61") * dm_pct + salts + D("2.49") * cp_pct + D("0.76") * c


def water_nasem_dry(dmi_kg: Decimal, dm_pct: Decimal, c: Decimal) -> Decimal:
    """Litres a dry cow or heifer drinks. Source: NASEM 2021, read in nasem-dairy; verified."""
    return D("1.16") * dmi_kg + D("0.23") * dm_pct + D("0.44") * c + D("0.061") * (c - D("16.4")) ** 2


SODIUM_G, COLDEST_C = D(20), D(12)
"""What Murphy's equation is counted with where nothing is measured: a cow with a lick, a mild night of the
Southern Highlands (Byreline's own choice)."""

WATER_DRY = (D(34), D(49))
WATER_HEIFER = (D("14.4"), D("36.3"))
"""Litres a day of a dry cow, of a heifer of 5-24 months (Ontario's table as reproduced; verified)."""

MINERALS_G, MINERALS_HEIFER_G = (D(100), D(150)), (D(50), D(80))
"""Grams of a mineral lick a day for a cow, for a heifer (common practice, no source)."""

# --- all that one animal needs ---------------------------------------------------------------------

USUAL_KG = D(350)
"""A productive crossbred cow in good order (common practice, no source): where no weight is known."""

GAIN_KG = D("0.5")
"""What a heifer of a dairy cross should gain a day: 0.45-0.575 in the South African table for Guernsey and
Ayrshire (verified); Byreline's own choice of them."""

UNBORN_COUNTS_FROM = 190
"""Days in calf from which the unborn is fed for: the last three months (common practice, no source)."""

CP_UNBORN_FROM = 220
"""The same of protein: the last two months, as in the tables."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """What a need follows from; ``days_in_calf`` 0: not in calf, or not known to be."""

    kg: Decimal
    litres: Decimal = D(0)
    days_in_calf: int = 0
    gain_kg: Decimal = D(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """
    What an animal needs in a day.

    ``dm_kg`` is what it can be expected to eat, ``me_mj`` and ``cp_g`` what must be in it; litres of water
    drunk and grams of minerals from the least to the most.
    """

    dm_kg: Decimal
    me_mj: Decimal
    cp_g: Decimal
    water_l: tuple[Decimal, Decimal]
    minerals_g: tuple[Decimal, Decimal]


def need(body: Body) -> Need:
    """What an animal of that *body* needs in a day."""
    dm_kg = body.kg * (MILKING_PART if body.litres else DRY_PART)
    return Need(
        dm_kg=dm_kg,
        me_mj=me_need(body),
        cp_g=cp_need(body, dm_kg),
        water_l=_water(body, dm_kg),
        minerals_g=MINERALS_HEIFER_G if body.gain_kg else MINERALS_G,
    )


def me_need(body: Body) -> Decimal:
    """MJ a day: to live on, milk, growth, and the unborn calf in the last three months."""
    unborn = me_unborn(body.days_in_calf) if body.days_in_calf >= UNBORN_COUNTS_FROM else D(0)
    growth = me_growth(body.kg, body.gain_kg) if body.gain_kg else D(0)
    return me_maintenance(body.kg) + ME_A_LITRE * body.litres + unborn + growth


def cp_need(body: Body, dm_kg: Decimal) -> Decimal:
    """Grams of crude protein a day; of a growing heifer as a part of *dm_kg*, if that is more."""
    unborn = CP_UNBORN_A_KG * body.kg if body.days_in_calf >= CP_UNBORN_FROM else D(0)
    milk = CP_A_KG_OF_MILK * body.litres * MILK_KG_PER_LITRE
    lived_on = cp_maintenance(body.kg)
    growing = CP_OF_GROWING * dm_kg * 1000 if body.gain_kg else D(0)
    return max(lived_on + milk, growing) + unborn


def _water(body: Body, dm_kg: Decimal) -> tuple[Decimal, Decimal]:
    if body.gain_kg:
        return WATER_HEIFER
    if not body.litres:
        return WATER_DRY
    milk_kg = body.litres * MILK_KG_PER_LITRE
    drunk = water_murphy(dm_kg, milk_kg, SODIUM_G, COLDEST_C)
    return drunk, drunk
