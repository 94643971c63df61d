"""Curves fitted to invented and to published points: synthetic-fits.json, public-fits.json, hard-cases.json, model-ranking.json, linearised-fits.json."""

import json
from pathlib import Path

import numpy as np
from scipy import stats

from curves import CURVES, R_GAS, KELVIN, f_target, fit, profile, summary

POINTS = "invented points"

GIVEN = {
    "synthetic-fits.json": {
        "sets/*/x/*": POINTS,
        "sets/*/y/*": POINTS,
        "sets/*/truth/*": POINTS,
        "sets/*/constants/*": POINTS,
        "sets/*/seed": POINTS,
        "sets/*/derived/T_K": POINTS,
    },
    "public-fits.json": {
        "sets/3/x/*": "from memory",
        "sets/3/dose_g/*": "from memory",
        "sets/3/C0_mg_L": "from memory",
    },
    "hard-cases.json": {
        "cases/*/x/*": POINTS,
        "cases/*/y/*": POINTS,
        "cases/*/truth/*": POINTS,
    },
    "model-ranking.json": {},
    "linearised-fits.json": {},
}

PUBLIC = {"rate = Vm*x/(K+x)": "hyperbola", "demand = A*(1-exp(-k*t))": "firstOrder", "q = K*C^nInv": "power",
          "y = b1*(1-exp[-b2*x]) + e": "firstOrder", "y = b1*b2*x*((1+b2*x)**(-1)) + e": "langmuir", "y = b1*x**b2 + e": "power"}  # fmt: skip


def near(truth, seed, spread=1.3):
    """Start values within a factor of the truth, so that no fit starts where it should end."""
    return np.asarray(truth, float) * np.exp(np.random.default_rng(seed).uniform(-np.log(spread), np.log(spread), len(truth)))


def best_of(model, x, y, truth, constants=None, weights=None, tries=8, spread=1.3):
    found = [fit(model, x, y, near(truth, k, spread), constants, weights) for k in range(tries)]
    return min(found, key=lambda f: f[1])


def synthetic(data):
    for i, s in enumerate(data["sets"]):
        at, model, x, y, constants = f"sets/{i}", s["model"], s["x"], s["y"], s["constants"]
        weights = 1 / np.array(y) ** 2 if s["weights"] == "1/y^2" else None
        p, ssr = best_of(model, x, y, s["truth"], constants, weights)
        made = summary(model, x, y, p, ssr, constants, weights)
        made["aicc_K_is_p_plus_1"] = made.pop("aicc")
        for key, value in made.items():
            if key in s["fit"]:
                yield f"{at}/fit/{key}", value, 1e-6 if key in ("se", "waldCI95", "correlation") else 1e-8
        if "profileCI95" in s:
            n = len(y)
            targets = {"tBased": f_target(ssr, n, len(p)), "chiSquare": ssr * np.exp(stats.chi2.ppf(0.95, 1) / n)}
            for rule, target in targets.items():
                yield f"{at}/profileCI95/{rule}/ci", profile(model, x, y, p, ssr, target, made["se"], constants, weights), 1e-7
        yield from derived(at, s, p)


def derived(at, s, p):
    named = dict(zip(s["paramNames"], p))
    formulas = {
        "RL_at_C0_200": lambda: 1 / (1 + 200 * named["KL"]),
        "b_J_per_mol": lambda: R_GAS * KELVIN / named["B"],
        "E_kJ_per_mol": lambda: 1 / np.sqrt(2 * named["beta"]),
        "initialRate_h": lambda: named["k2"] * named["qe"] ** 2,
        "halfTime": lambda: 1 / (named["k2"] * named["qe"]),
    }
    for key in s.get("derived", {}):
        if key != "T_K":
            yield f"{at}/derived/{key}", formulas[key](), 1e-8


def points(at, s):
    """Points of NIST as its own files have them, uptakes of the handbook from its doses; those of R come from R."""
    certified = Path(__file__).parent.parent / "nist-nonlinear" / f"{s['id']}.json"
    if certified.exists():
        yield at, {k: json.loads(certified.read_text())[k] for k in ("x", "y")}, 0
    if "dose_g" in s:
        yield f"{at}/y", (s["C0_mg_L"] - np.array(s["x"])) / np.array(s["dose_g"]), 1e-12


def public(data):
    for i, s in enumerate(data["sets"]):
        at, x, y = f"sets/{i}", s["x"], s["y"]
        yield from points(at, s)
        model = PUBLIC[s["model"]]
        rough = {"hyperbola": [200, 0.1], "firstOrder": [max(y), 1 / np.mean(x)], "power": [1, 3], "langmuir": [400, 5e-4]}[model]
        p, ssr = best_of(model, x, y, rough)
        made = summary(model, x, y, p, ssr)
        made["corr"] = made["correlation"][0][1]
        made["profileCI95_tBased"] = profile(model, x, y, p, ssr, f_target(ssr, len(y), 2), made["se"])
        for key, value in made.items():
            if key in s:
                yield f"{at}/{key}", value, 1e-8 if key in ("params", "ssr", "residualSD", "df", "aicc") else 1e-6
        if "logLogOLS" in s:
            line = stats.linregress(np.log10(x), np.log10(y))
            yield f"{at}/logLogOLS", {
                "K": 10**line.intercept, "nInv": line.slope, "r": line.rvalue, "r2": line.rvalue**2,
                "seSlope": line.stderr, "seIntercept": line.intercept_stderr,
            }, 1e-9  # fmt: skip


ROUGH = {"langmuir": [40, 0.02], "sips": [1000, 1e-4, 0.5], "toth": [1e4, 1, 0.1]}


def hard(data):
    for i, s in enumerate(data["cases"]):
        if s["model"] in ROUGH:
            yield from hard_case(f"cases/{i}", s, s["model"], np.array(s["x"]), np.array(s["y"]))


def hard_case(at, s, model, x, y):
    p, ssr = best_of(model, x, y, ROUGH[model], tries=12, spread=10)
    k = float(x @ y / (x @ x))
    henry = float(np.sum((y - k * x) ** 2))
    by_name = {"henryK": k, "ssrHenry": henry, "ssrHenryLimit": henry, "ssr": ssr, "finiteOptimum": bool(ssr < henry * (1 - 1e-9))}
    yield at, {key: value for key, value in by_name.items() if key in s}, 1e-9
    if "bestParams" not in s:
        return
    # Sips and Toth on five points of Freundlich: a valley so flat that its floor is found to seven digits.
    flat = model != "langmuir"
    made = summary(model, x, y, p, ssr)
    yield f"{at}/bestParams", p, 1e-6 if flat else 1e-7
    if "se" in s:
        yield f"{at}/se", made["se"], 1e-5 if flat else 1e-6
    target = f_target(ssr, len(y), len(p))
    for key, only in (("profileCI95_tBased", [0, 1]), ("profileCI95_tBased_qm", [0])):
        if key in s:
            ends = profile(model, x, y, p, ssr, target, made["se"], only=only)
            yield f"{at}/{key}", ends if len(only) > 1 else ends[0], 1e-6


def sets_by_id():
    whole = json.loads((Path(__file__).parent.parent / "synthetic-fits.json").read_text())
    return {s["id"]: s for s in whole["sets"]}


def ranking(data):
    s = sets_by_id()[data["dataset"]]
    rough = {"langmuir": [250, 0.05], "sips": [250, 0.05, 0.9], "toth": [250, 0.05, 0.9], "redlichPeterson": [14, 0.06, 0.95], "temkin": [45, 1], "freundlich": [40, 0.35]}
    rows = []
    for row in data["ranking"]:
        p, ssr = best_of(row["model"], s["x"], s["y"], rough[row["model"]])
        rows.append((p, ssr, summary(row["model"], s["x"], s["y"], p, ssr)["aicc"]))
    least = min(a for _, _, a in rows)
    total = sum(np.exp(-(a - least) / 2) for _, _, a in rows)
    for i, (p, ssr, aicc) in enumerate(rows):
        weight = np.exp(-(aicc - least) / 2) / total
        yield f"ranking/{i}", {"params": p, "ssr": ssr, "aicc": aicc, "delta": aicc - least, "weight": weight}, 1e-8


def linearised(data):
    sets = sets_by_id()
    c, q = (np.array(sets["langmuir-1"][k]) for k in ("x", "y"))
    hanes = np.polyfit(c, c / q, 1)
    double = np.polyfit(1 / c, 1 / q, 1)
    eadie = np.polyfit(q / c, q, 1)
    pairs = [(1 / hanes[0], hanes[0] / hanes[1]), (1 / double[1], double[1] / double[0]), (eadie[1], -1 / eadie[0])]
    for i, (qm, kl) in enumerate(pairs):
        yield f"langmuir1/{i}", {"qm": qm, "KL": kl}, 1e-10
    t, q = (np.array(sets["pso-1"][k]) for k in ("x", "y"))
    slope, intercept = np.polyfit(t, t / q, 1)
    yield "pso1", {"qe": 1 / slope, "k2": slope**2 / intercept}, 1e-10
    c, q = (np.array(sets["freundlich-1"][k]) for k in ("x", "y"))
    slope, intercept = np.polyfit(np.log(c), np.log(q), 1)
    yield "freundlich1", {"KF": np.exp(intercept), "nInv": slope}, 1e-10


def values(data, name):
    makers = {
        "synthetic-fits.json": synthetic,
        "public-fits.json": public,
        "hard-cases.json": hard,
        "model-ranking.json": ranking,
        "linearised-fits.json": linearised,
    }
    return makers[name](data)
