# SPDX-License-Identifier: MIT
"""Cost and price, reckoned again from cost.csv, the report and the file that was asked, over orders made up at random."""

import csv
import json
import random
from fractions import Fraction
from math import ceil

import pytest

from conftest import ROOT, run_kit

#: Their stocks do not run out.
ALBUMS = ["tide-table", "sketchbook", "night-train", "harbour-songs", "field-notes", "seed-ledger"]
SHARES = ["overhead", "profit", "fees", "tax"]


def amount(rng, most):
    return round(rng.uniform(0.01, most), rng.choice([0, 1, 2, 4])) or 1


def terms(rng, stocks):
    """Packs, supplies and selling, each field there or not."""
    said = {"packs": {}, "supplies": {}, "selling": {}}
    for stock in stocks:
        if rng.random() < 0.6:
            said["packs"][stock] = {"of": rng.choice([1, 3, 10, 25, 100]), "price": amount(rng, 40)}
    supplies = {"tape": "33 m", "tape 6 mm": "25 m", "tape 12 mm": "10 yd", "glue": "0.1 l", "ribbon": "500 cm", "thread": "30 ft", "corners": 100}
    for name, of in supplies.items():
        if rng.random() < 0.5:
            said["supplies"][name] = {"of": of, "price": amount(rng, 9)}
    for name, most in {"hour": 40, "machine_hour": 20, "minutes_a_kit": 50, "packaging": 3}.items():
        if rng.random() < 0.8:
            said["selling"][name] = amount(rng, most)
    for name in SHARES:
        if rng.random() < 0.8:
            said["selling"][name] = f"{rng.choice(['0', '5', '7.5', '19', '33.333', '45'])} %"
    said["selling"]["currency"] = rng.choice(["EUR", "JPY", "KWD", "£"])
    return said


def decimals(currency):
    return {"JPY": 0, "KWD": 3}.get(currency, 2)


def shown(value, places):
    """Rounded once, a half up."""
    whole = int(value * 10**places * 2 + 1) // 2
    digits = str(whole).rjust(places + 1, "0")
    return digits if places == 0 else f"{digits[:-places]}.{digits[-places:]}"


def share(selling, name):
    return Fraction(selling.get(name, "0 %").rstrip(" %")) / 100


def asked(cost, selling):
    """From a cost to the price that leaves room for everything."""
    overhead = cost * share(selling, "overhead")
    profit = (cost + overhead) * share(selling, "profit")
    fees, tax = share(selling, "fees"), share(selling, "tax")
    price = (cost + overhead + profit) / (1 - fees - tax)
    return {"cost": cost, "overhead": overhead, "profit": profit, "fees": price * fees, "tax": price * tax, "price to ask": price}


def reckon(folder, said, kits):
    """Every amount of cost.csv and of the report; `kits` have a name, how many are sold, how many are made."""
    with open(folder / "cost.csv", encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    report = json.loads((folder / "report.json").read_text(encoding="utf-8"))
    selling = said["selling"]
    places = decimals(selling["currency"])
    summary = {*asked(Fraction(1), {}), "one more", "made", "sold"}
    order = [row for row in rows if row["of"] == "order" and row["what"] not in summary]
    assert order, "nothing is taken"
    costs, at_use = {}, {}
    for row in order:
        name = row["what"]
        if not row["price"] or not row["quantity"]:
            assert row["cost"] == ""
            assert name in report["cost"]["without_price"]
            costs[name] = at_use[name] = None
            continue
        quantity, per, price = (Fraction(row[field]) for field in ("quantity", "per", "price"))
        at_use[name] = quantity / per * price
        costs[name] = ceil(quantity / per) * price if row["packs"] else at_use[name]
        if row["packs"]:
            assert int(row["packs"]) == ceil(quantity / per)
        assert row["cost"] == shown(costs[name], places), row
    # The file's own words: what a pack holds and costs, and what an hour does.
    for row in order:
        stock = row["what"].split(" ")[0]
        if row["unit"] == "sheets" and stock.split(".")[0] in said["packs"]:
            pack = said["packs"][stock.split(".")[0]]
            assert (Fraction(row["per"]), Fraction(row["price"])) == (pack["of"], Fraction(str(pack["price"])))
        for name, field in {"hands": "hour", "machine": "machine_hour", "packaging": "packaging"}.items():
            if row["what"] == name and field in selling:
                assert Fraction(row["price"]) == Fraction(str(selling[field]))
    # Sheets are those of the report.
    for row in (row for row in order if row["unit"] == "sheets"):
        stock = row["what"].split(" ")[0]
        sheets = sum(sheet["times"] for sheet in report["sheets"] if sheet["stock"] == stock)
        assert sheets == sum(int(other["quantity"]) for other in order if other["what"].split(" ")[0] == stock and other["unit"] == "sheets")
    whole = sum(cost for cost in costs.values() if cost is not None)
    amounts = {(row["of"], row["what"]): row for row in rows}
    for what, value in asked(whole, selling).items():
        assert amounts["order", what]["cost"] == shown(value, places), ("order", what)
    kit_rows = {of: [row for row in rows if row["of"] == of] for of, _, _ in kits}
    totals = {}
    for row in (row for of in kit_rows for row in kit_rows[of] if row["unit"] and row["what"] not in summary):
        totals[row["what"]] = totals.get(row["what"], 0) + Fraction(row["quantity"])
    made_all = sum(made for _, _, made in kits)
    for of, sold, made in kits:
        assert (amounts[of, "made"]["quantity"], amounts[of, "sold"]["quantity"]) == (str(made), str(sold))
        cost, one_more = Fraction(0), Fraction(0)
        for row in kit_rows[of]:
            name = row["what"]
            if not row["unit"] or name in summary:
                continue
            part = Fraction(row["quantity"]) / totals[name] if totals[name] else Fraction(made, made_all)
            if costs[name] is None:
                assert row["cost"] == ""
                continue
            assert row["cost"] == shown(costs[name] * part / sold, places), row
            cost += costs[name] * part / sold
            one_more += at_use[name] * part / (sold if name == "packaging" else made)
        for what, value in asked(cost, selling).items():
            assert amounts[of, what]["cost"] == shown(value, places), (of, what)
        assert amounts[of, "one more"]["cost"] == shown(one_more, places), of
    return report, amounts, order


def areas(report, stock, kits):
    """By kit, the area of its parts on a stock."""
    found = {of: 0.0 for of, _, _ in kits}
    for part in report["parts"]:
        if part["stock"] == stock:
            each = part.get("kits") or {"": part["count"]}
            takes = {of: each.get(of.removeprefix("kit").strip(), 0) * made for of, _, made in kits}
            # Outside a batch a count is of one kit, in it of all.
            many = part["count"] if part.get("kits") else sum(takes.values())
            for of, own in takes.items():
                found[of] += part["area_mm2"] * many * own / sum(takes.values())
    return found


def check_areas(report, amounts, order, kits):
    for row in (row for row in order if row["unit"] == "sheets"):
        for of, area in areas(report, row["what"].split(" ")[0], kits).items():
            said = amounts.get((of, row["what"]))
            assert abs((int(said["quantity"]) if said else 0) - area) <= 1, (of, row["what"])


@pytest.mark.parametrize("seed", range(12))
def test_albums(seed, tmp_path):
    rng = random.Random(f"cost of an album {seed}")
    album = json.loads((ROOT / "fixtures" / f"{rng.choice(ALBUMS)}.json").read_text(encoding="utf-8"))
    said = terms(rng, album.get("stocks", {"card": {}}))
    copies = rng.choice([1, 2, 7, 30])
    file, cutter = tmp_path / "album.json", tmp_path / "cutter.json"
    file.write_text(json.dumps({**album, **said, "copies": copies}))
    cutter.write_text(json.dumps({"format": "hingeleaf-cutter/1", "speed": rng.choice([20, {"cut": 12.5, "score": 40}]), "lift": 0.4}))
    words = ["--formats", "csv", "--effort", "low", *rng.choice([[], ["--cutter", cutter], ["--trimmer"]])]
    run_kit(file, tmp_path / "out", *words)
    kits = [("kit", copies, copies)]
    check_areas(*reckon(tmp_path / "out", said, kits), kits)


@pytest.mark.parametrize("seed", range(12))
def test_batches(seed, tmp_path):
    rng = random.Random(f"cost of a batch {seed}")
    name = rng.choice(ALBUMS)
    album = json.loads((ROOT / "fixtures" / f"{name}.json").read_text(encoding="utf-8"))
    stocks = list(album.get("stocks", {"card": {}}))
    spare = rng.choice([0, 1])
    entries, kits = [], []
    for number in range(rng.choice([1, 2, 3])):
        copies = rng.choice([1, 4, 9])
        change = {f"stocks.{stocks[0]}.price": 1.25} if stocks[0] in album.get("stocks", {}) and rng.random() < 0.5 else {}
        entries.append({"name": f"k{number}", "album": str(ROOT / "fixtures" / f"{name}.json"), "copies": copies, "change": change})
        kits.append((f"kit k{number}", copies, copies + spare))
    said = terms(rng, stocks)
    file = tmp_path / "order.json"
    spares = {"kits": spare, "parts": rng.choice([0, 1, "5 %"])}
    together = rng.choice(["batch", "kit"])
    file.write_text(json.dumps({"format": "hingeleaf-batch/1", "kits": entries, "spares": spares, "together": together, **said}))
    run_kit(file, tmp_path / "out", "--formats", "csv", "--effort", "low")
    report, amounts, order = reckon(tmp_path / "out", said, kits)
    if together == "batch":
        check_areas(report, amounts, order, kits)


def test_a_wrong_cent_is_found(tmp_path):
    """The reckoning finds one amount that is a cent off."""
    file, out = tmp_path / "order.json", tmp_path / "out"
    said = json.loads((ROOT / "fixtures/batches/spring-fair.json").read_text(encoding="utf-8"))
    for kit in said["kits"]:
        kit["album"] = str(ROOT / "fixtures" / "tide-table.json")
    file.write_text(json.dumps(said))
    run_kit(file, out, "--formats", "csv", "--effort", "low")
    kits = [(f"kit {kit['name']}", kit["copies"], kit["copies"] + 1) for kit in said["kits"]]
    check_areas(*reckon(out, said, kits), kits)
    text = (out / "cost.csv").read_text(encoding="utf-8")
    line = next(line for line in text.splitlines() if line.startswith("kit deep,price to ask"))
    money = line.split(",")[-2]
    (out / "cost.csv").write_text(text.replace(line, line.replace(money, f"{float(money) + 0.01:.2f}")))
    with pytest.raises(AssertionError):
        reckon(out, said, kits)
