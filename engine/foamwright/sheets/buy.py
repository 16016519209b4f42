"""What to buy, in the packs that are sold there, and what it costs."""

from datetime import date
from typing import Any, Final

from foamwright.reader import N_, NP_
from foamwright.sheets.desk import Block, Desk
from foamwright.sheets.fields import CHOICES
from foamwright.sheets.finishes import to_buy
from foamwright.sheets.problems import notes_block

ID: Final = "buy"
SECTION: Final = "money"
TITLE: Final = N_("What to buy")


def _needs(desk: Desk) -> Block:
    s = desk.s
    bag = s.quantity(desk.project.market.cement_bag_kg, "mass")
    rows: list[list[dict[str, Any]]] = [
        [
            {"text": s._("Cement, bags of %(mass)s", mass=bag), "head": True},
            desk.cell("batches.cement_bags"),
            {"text": s._("%(exact)s bags before rounding; %(left)s left over",
                         exact=desk.text("batches.bags_exact"), left=desk.text("batches.cement_left_kg"))},
        ],
        [
            {"text": s._("Foaming agent, concentrate"), "head": True},
            desk.cell("batches.concentrate_l"),
            {"text": s._("One part to %(parts)s parts of water",
                         parts=s.number(desk.project.foam.agent_dilution, significant=4, trim=True))},
        ],
        [
            {"text": s._("Water"), "head": True},
            desk.cell("batches.water_l"),
            {"text": s._("Clean, with little lime and salt; washing water comes on top")},
        ],
    ]  # fmt: skip
    head = [
        {"text": s._("What"), "number": False},
        {"text": s._("How much"), "number": True},
        {"text": s._("Remark"), "number": False},
    ]
    return {"kind": "table", "caption": s._("For the foamed concrete, waste counted"), "head": head, "rows": rows}


def _waste(desk: Desk) -> Block:
    s = desk.s
    words = {
        "lost_batches": N_("Batches lost"),
        "breakage": N_("Blocks broken"),
        "calibration": N_("Batches to find the foam's weight"),
    }
    # Cutting alone has another origin than what was typed.
    origin = {
        "typed": N_("Cut away, as typed"),
        "as_laid": N_("Cut away, counted from the lay plan"),
        "by_volume": N_("Cut away, the usual share"),
        "mixed": NP_("masonry", "Cut away, counted where courses are laid and the usual share elsewhere"),
    }
    rows = [
        [{"text": desk.say(origin[item.basis] if item.code == "cutting" else words[item.code]), "head": True},
         desk.cell(f"waste.batches#{i}")]
        for i, item in enumerate(desk.e.batches.waste)
    ]  # fmt: skip
    foot = [[{"text": s._("All batches, waste counted"), "head": True}, desk.cell("batches.count")]]
    head = [{"text": s._("Waste"), "number": False}, {"text": s._("Batches"), "number": True}]
    return {"kind": "table", "caption": s._("What is mixed and never stands in the wall"),
            "head": head, "rows": rows, "foot": foot}  # fmt: skip


def _date(desk: Desk, text: str) -> str:
    """A date as the reader writes it; reading a project lets only real dates through."""
    return desk.s.date(date.fromisoformat(text)) if text else ""


def _quantity(desk: Desk, index: int) -> dict[str, Any]:
    """How much of a line is paid for, in the unit of its price."""
    line = desk.e.money.lines[index]
    if line.price_quantity is None or line.price_unit is None:
        return {"text": ""}
    unit = desk.say(CHOICES["market.prices[].unit"][line.price_unit])
    text = desk.s._("%(quantity)s × %(unit)s", quantity=desk.text(f"money.quantity#{index}"), unit=unit)
    return {"text": text, "figure": f"money.quantity#{index}", "number": True}


def _prices(desk: Desk) -> list[Block]:
    s, money = desk.s, desk.e.money
    if not money.priced:
        return [{"kind": "missing", "path": "market.prices",
                 "text": s._("No prices yet: put in what things cost where the landowner buys.")}]  # fmt: skip
    rows = []
    for i, line in enumerate(money.lines):
        name = line.label or desk.say(CHOICES["market.prices[].item"][line.code])
        rows.append([
            {"text": name, "head": True},
            _quantity(desk, i),
            {"text": ""} if line.price is None else desk.cell(f"money.price#{i}"),
            desk.cell(f"money.line#{i}") if line.amount is not None else {"text": s._("no price"), "number": True},
        ])  # fmt: skip
    head = [
        {"text": s._("What"), "number": False},
        {"text": s._("How much"), "number": True},
        {"text": s._("Price of one"), "number": True},
        {"text": s._("Amount"), "number": True},
    ]
    out: list[Block] = [{"kind": "table", "caption": s._("What it costs"), "head": head, "rows": rows}]
    if desk.value("money.total") is not None:
        out.append({"kind": "figures", "items": [
            desk.item("money.total", big=True, note=covered(desk)),
            *([desk.item("money.per_floor_area")] if desk.value("money.per_floor_area") is not None else []),
        ]})  # fmt: skip
    rate = desk.project.market.converted
    if rate.rate is not None:
        out.append({"kind": "text", "tone": "small", "text": s._(
            "Prices were converted from %(currency)s at %(rate)s, a rate that somebody typed on %(date)s.",
            currency=s.currency(rate.from_currency).name, rate=s.number(rate.rate, significant=6, trim=True),
            date=_date(desk, rate.date))})  # fmt: skip
    return out


def covered(desk: Desk) -> str:
    """Return what of the job the bill covers."""
    s, finishes = desk.s, desk.e.finishes
    if finishes is None:
        return s._("Foamed concrete only")
    if desk.e.money.allowance is None:
        return s._("Foamed concrete, base and skins")
    return s._("Foamed concrete, and base and skins as far as they are stated")


def _finishes(desk: Desk) -> list[Block]:
    """What base and skins take, and the bags of all together."""
    if desk.e.finishes is None:
        return []
    figures = desk.figures("money.cement_bags", "money.cement_left_kg")
    return [to_buy(desk), figures]


def cement_words(desk: Desk) -> list[Block]:
    """Return which cements serve and what to photograph."""
    s = desk.s
    groups: dict[str, list[str]] = {"serves": [], "serves_slow": [], "not_suited": []}
    for kind in desk.e.cement.types:
        if kind.verdict in groups:
            groups[kind.verdict].append(desk.say(CHOICES["market.cement_type"][kind.code]))
    return [
        {"kind": "heading", "text": s._("Which cement")},
        {"kind": "points", "items": [
            s._("Serves: %(types)s.", types=s.list_join(groups["serves"])),
            s._("Serves, but slowly; give blocks more days: %(types)s.", types=s.list_join(groups["serves_slow"])),
            s._("Does not serve: %(types)s.", types=s.list_join(groups["not_suited"])),
            s._("Of two classes the higher one, and R (rapid) before N: blocks leave the mould the next day."),
        ]},
        {"kind": "text", "tone": "small", "text": s._(
            "Names are those of EN 197-1, ASTM C150 and ASTM C595; which serve is common practice, no source. A trial batch decides.")},
        {"kind": "heading", "text": s._("Photograph the bag and send it")},
        {"kind": "points", "items": [
            s._("The face with the type and the strength class."),
            s._("The net mass."),
            s._("The date of packing: fresh cement, at most three months old and without lumps (common practice, no source)."),
            s._("The safety signs and the maker's address."),
        ]},
    ]  # fmt: skip


def blocks(desk: Desk) -> list[Block]:
    """Return the blocks of the sheet."""
    return [
        notes_block(desk, desk.notes("foamed_concrete_only", "base_unstated", "skins_unstated")),
        _needs(desk),
        *_finishes(desk),
        desk.figures("money.allowance_low_bags", "money.allowance_high_bags"),
        *_prices(desk),
        notes_block(desk, desk.notes(
            "price_missing", "price_repeated", "price_unit_unusable", "price_unused", "cement_unstated", "cement_slow", "cement_not_suited")),
        notes_block(desk, desk.notes("cutting_more_than_stated")),
        _waste(desk),
        *cement_words(desk),
    ]  # fmt: skip
