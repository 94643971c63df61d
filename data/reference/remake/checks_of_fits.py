"""What each call of SciPy gives for fit-checks.json, and the doses, temperature series and mixtures of dose.json."""

import json
from pathlib import Path

import numpy as np
from scipy import integrate, optimize, stats

from curves import CURVES, R_GAS, f_target, fit, jacobian
from fits import sets_by_id

INVENTED = "invented"

GIVEN = {
    "fit-checks.json": {
        "shapiroWilk/samples/*/values/*": INVENTED,
        "*/x/*": INVENTED,
        "*/y/*": INVENTED,
        "*/sigma": INVENTED,
        "weightedHyperbola/sigmaY/*": INVENTED,
        "weightedHyperbola/fits/*/sigmaIsAbsolute": "which fit",
        "correlatedHyperbola/ownSigma": INVENTED,
        "correlatedHyperbola/commonSigma": INVENTED,
        "correlatedHyperbola/fits/*/sigmaIsAbsolute": "which fit",
        "sharedHyperbola/sets/*/x/*": INVENTED,
        "sharedHyperbola/sets/*/y/*": INVENTED,
        "meanBootstrap/values/*": INVENTED,
        "meanBootstrap/confidence": INVENTED,
    },
    "dose.json": {
        "hill/doses/*/percent": INVENTED,
        "hyperbola/cases/*/start": INVENTED,
        "hyperbola/cases/*/target": INVENTED,
        "gac/start": "from memory",
        "gac/doses/*/target": "from memory",
        "gac/doses/*/weighed": "from memory",
        "gac/nonlinear/*/target": INVENTED,
        "vanTHoff/molarMass": INVENTED,
        "vanTHoff/kelvin/*": INVENTED,
        "vanTHoff/K_L_L_mg/*": INVENTED,
        "idealAdsorbedSolution/cases/*/solutes/**": INVENTED,
        "idealAdsorbedSolution/cases/*/residues/*": INVENTED,
    },
}

EXACT = {"xtol": 1e-15, "ftol": 1e-15, "gtol": 1e-15}
saturation = lambda x, q, k: q * k * x / (1 + k * x)


def fit_checks(d):
    for i, sample in enumerate(d["shapiroWilk"]["samples"]):
        found = stats.shapiro(sample["values"])
        # W by single precision weights in old versions, p from a polynomial in W.
        yield f"shapiroWilk/samples/{i}", {"w": found.statistic, "p": found.pvalue}, 1e-10
    yield from robust(d["robustLine"], "robustLine", lambda x, a, b: a + b * x, [1, 1])
    yield from robust(d["robustHyperbola"], "robustHyperbola", saturation, [200, 0.03])
    yield from weighted(d)
    yield from at_bound(d["boundActive"])
    yield from shared(d["sharedHyperbola"])
    yield from bootstrap(d["meanBootstrap"])
    x, y = np.array(d["lackOfFitLine"]["x"]), np.array(d["lackOfFitLine"]["y"])
    rss = float(np.linalg.lstsq(np.column_stack([np.ones_like(x), x]), y, rcond=None)[1][0])
    pure = sum(np.sum((y[x == v] - y[x == v].mean()) ** 2) for v in np.unique(x))
    f = (rss - pure) / 3 / (pure / 7)
    yield "lackOfFitLine", {"rss": rss, "pure": pure, "f": f, "p": stats.f.sf(f, 3, 7)}, 1e-11


def robust(d, at, curve, start):
    x, y = np.array(d["x"]), np.array(d["y"])
    for i, (loss, scale) in enumerate((("huber", 1.345), ("cauchy", 2.385))):
        residuals = lambda p: (y - curve(x, *p)) / d["sigma"]
        found = optimize.least_squares(residuals, start, loss=loss, f_scale=scale, x_scale=np.abs(start), **EXACT)
        yield f"{at}/fits/{i}/parameters", found.x, 1e-6


def weighted(d):
    w, c = d["weightedHyperbola"], d["correlatedHyperbola"]
    n = len(c["x"])
    covariance = np.eye(n) * c["ownSigma"] ** 2 + c["commonSigma"] ** 2
    for at, data, sigma in (("weightedHyperbola", w, w["sigmaY"]), ("correlatedHyperbola", c, covariance)):
        for i, absolute in enumerate((True, False)):
            p, spread = optimize.curve_fit(saturation, data["x"], data["y"], p0=[200, 0.04], sigma=sigma, absolute_sigma=absolute, **EXACT)
            yield f"{at}/fits/{i}/parameters", p, 1e-7
            yield f"{at}/fits/{i}/standardErrors", np.sqrt(np.diag(spread)), 1e-5


def at_bound(d):
    x, y = np.array(d["x"]), np.array(d["y"])
    decay = lambda x, a, b, k: a + b * np.exp(-k * x)
    free, _ = optimize.curve_fit(decay, x, y, p0=[1, 40, 0.5], **EXACT)
    bounded, _ = optimize.curve_fit(decay, x, y, p0=[1, 40, 0.5], bounds=([0, -np.inf, -np.inf], np.inf))
    held, spread = optimize.curve_fit(lambda x, b, k: decay(x, 0, b, k), x, y, p0=[40, 0.5], **EXACT)
    assert bounded[0] < 1e-6 and free[0] < 0
    yield "boundActive/parameters", [0, *held], 1e-7
    yield "boundActive/standardErrors", np.sqrt(np.diag(spread)), 1e-5
    yield "boundActive/unbounded", free, 1e-6


def shared(d):
    sets = d["sets"]
    which = np.concatenate([[i] * len(s["x"]) for i, s in enumerate(sets)])
    x, y = (np.concatenate([s[k] for s in sets]) for k in ("x", "y"))
    curve = lambda x, k, *q: np.array(q)[which] * k * x / (1 + k * x)
    p, spread = optimize.curve_fit(curve, x, y, p0=[0.03, 200, 200, 200], **EXACT)
    se = np.sqrt(np.diag(spread))
    yield "sharedHyperbola", {"k": p[0], "q": p[1:], "rss": np.sum((y - curve(x, *p)) ** 2)}, 1e-7
    yield "sharedHyperbola", {"standardErrorK": se[0], "standardErrorsQ": se[1:]}, 1e-5


def bootstrap(d):
    """Chance: three seeds of their own; the ends of three other seeds lay within 0.013 of each other, which is 0.3 %."""
    for key in ("BCa", "percentile"):
        ends = []
        for seed in (1, 2, 3):
            found = stats.bootstrap((np.array(d["values"]),), np.mean, n_resamples=400_000, batch=50_000, method=key, rng=np.random.default_rng(seed))
            ends.append([found.confidence_interval.low, found.confidence_interval.high])
        yield f"meanBootstrap/{key}", np.mean(ends, axis=0), 3e-3


def public_set(name):
    whole = json.loads((Path(__file__).parent.parent / "public-fits.json").read_text())
    return next(s for s in whole["sets"] if s["id"] == name)


def doses(d):
    yield from removal(d["hill"])
    s = public_set("Puromycin-treated")
    x, y = np.array(s["x"]), np.array(s["y"])
    (vm, k), ssr = fit("hyperbola", x, y, [200, 0.1])
    for i, case in enumerate(d["hyperbola"]["cases"]):
        yield from stages(f"hyperbola/cases/{i}", case, x, y, vm, k, ssr)
    yield from carbon(d["gac"])
    yield from heat(d["vanTHoff"])
    for i, case in enumerate(d["idealAdsorbedSolution"]["cases"]):
        yield from mixture(f"idealAdsorbedSolution/cases/{i}", case)


def removal(d):
    s = sets_by_id()["hill4-1"]
    x, y = np.array(s["x"]), np.array(s["y"])
    (a, top, c, h), ssr = fit("hill4", x, y, s["truth"])
    target = f_target(ssr, len(y), 4)
    for i, row in enumerate(d["doses"]):
        share = lambda a, top: (top - a) / (row["percent"] - a) - 1
        best = c * share(a, top) ** (-1 / h)

        def over(dose):
            def residuals(p):
                a, top, h = p
                middle = dose * max(share(a, top), 1e-12) ** (1 / h)
                return y - CURVES["hill4"](x, [a, top, middle, h], {})

            return 2 * optimize.least_squares(residuals, [a, top, h], x_scale=[1, 10, 1], **EXACT).cost - target

        ends = [optimize.brentq(over, *sorted((best, best * f)), xtol=1e-11) for f in (0.7, 1.4)]
        yield f"hill/doses/{i}", {"dose": best, "profile": ends}, 1e-7


def error_of_log(x, y, vm, k, ssr, c):
    """Standard error of ln q(c) = ln Vm + ln c - ln(K + c), to first order."""
    covariance = np.linalg.inv(jacobian("hyperbola", x, [vm, k], {}).T @ jacobian("hyperbola", x, [vm, k], {})) * ssr / (len(y) - 2)
    slope = np.array([1 / vm, -1 / (k + c)])
    return np.sqrt(slope @ covariance @ slope)


def stages(at, case, x, y, vm, k, ssr):
    """Doses in g per litre: all at once, fresh char in each stage (least total, or equal doses), and char against the stream."""
    start, target = case["start"], case["target"]
    q = lambda c: vm * c / (k + c)
    fall = start - target
    half = stats.t.ppf(0.975, len(y) - 2) * error_of_log(x, y, vm, k, ssr, target)
    dose = fall / q(target)
    yield at, {"dose": dose, "low": dose * np.exp(-half), "high": dose * np.exp(half)}, 1e-7

    def total(between):
        steps = [start, *between, target]
        return sum((b - a) / q(a) for b, a in zip(steps, steps[1:]))

    two = optimize.minimize_scalar(lambda c: total([c]), bounds=(target, start), method="bounded", options={"xatol": 1e-12}).fun
    three = optimize.minimize(lambda p: total(target * (start / target) ** np.sort(p)[::-1]), [0.3, 0.6], method="Nelder-Mead", options={"xatol": 1e-10, "fatol": 1e-18}).fun

    def left_after_equal(dose):
        c = start
        for _ in range(3):
            before = c
            c = optimize.brentq(lambda v: before - v - dose / 3 * q(v), 0, before, xtol=1e-15)
        return c - target

    def start_against(dose):
        c, loaded = target, 0.0
        for _ in range(3):
            c, loaded = c + dose * (q(c) - loaded), q(c)
        return c - start

    one = fall / q(target)
    equal = optimize.brentq(left_after_equal, one / 10, one, xtol=1e-15)
    counter = optimize.brentq(start_against, one / 10, one, xtol=1e-15)
    yield at, {"crossCurrent2": two, "crossCurrent3": three, "equalDoses3": equal, "counterCurrent3": counter}, 1e-8


def carbon(d):
    s = public_set("GAC-handbook-Freundlich")
    line = stats.linregress(np.log10(s["x"]), np.log10(s["y"]))
    k, n = 10**line.intercept, line.slope
    yield "gac", {"K": k, "nInv": n}, 1e-10
    for i, row in enumerate(d["doses"]):
        yield f"gac/doses/{i}/dose", (d["start"] - row["target"]) / (k * row["target"] ** n), 1e-10
    (k, n), _ = fit("power", s["x"], s["y"], [1, 3])
    for i, row in enumerate(d["nonlinear"]):
        yield f"gac/nonlinear/{i}/dose", (d["start"] - row["target"]) / (k * row["target"] ** n), 1e-8


def heat(d):
    inverse = 1 / np.array(d["kelvin"])
    line = stats.linregress(inverse, np.log(np.array(d["K_L_L_mg"]) * 1000 * d["molarMass"]))
    h, e = -R_GAS * line.slope / 1000, R_GAS * line.stderr / 1000
    t = stats.t.ppf(0.975, len(inverse) - 2)
    yield "vanTHoff", {
        "enthalpy": h, "enthalpyError": e, "entropy": R_GAS * line.intercept, "entropyError": R_GAS * line.intercept_stderr,
        "enthalpyLow": h - t * e, "enthalpyHigh": h + t * e,
    }, 1e-9  # fmt: skip


FORMS = {"Langmuir": "langmuir", "Freundlich": "freundlich", "Sips": "sips"}


def mixture(at, case):
    """Where both solutes spread alike and the shares of their own concentrations add to one; amounts in mmol."""
    solutes = case["solutes"]
    alone = lambda s, c: CURVES[FORMS[s["form"]]](c, s["parameters"], {})

    def spreading(s, c):
        return integrate.quad(lambda u: alone(s, np.exp(u)), -120, np.log(c), epsabs=0, epsrel=1e-12, limit=500)[0] / s["molarMass"]

    def own(s, pressure):
        return np.exp(optimize.brentq(lambda u: spreading(s, np.exp(u)) - pressure, -15, 25, xtol=1e-13))

    def surplus(log_pressure):
        return sum(c / own(s, np.exp(log_pressure)) for s, c in zip(solutes, case["residues"])) - 1

    least = max(spreading(s, c) for s, c in zip(solutes, case["residues"]))
    pressure = np.exp(optimize.brentq(surplus, np.log(least), np.log(least) + 3, xtol=1e-12))
    owns = [own(s, pressure) for s in solutes]
    shares = [c / o for c, o in zip(case["residues"], owns)]
    total = 1 / sum(x / (alone(s, o) / s["molarMass"]) for x, s, o in zip(shares, solutes, owns))
    yield at, {"uptakes": [x * total * s["molarMass"] for x, s in zip(shares, solutes)], "spreading": pressure}, 1e-8


def values(data, name):
    return {"fit-checks.json": fit_checks, "dose.json": doses}[name](data)
