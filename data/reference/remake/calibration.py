"""Calibration lines and what is read on them, and the NIST sets worked in exact arithmetic."""

from decimal import Decimal, getcontext
from fractions import Fraction
from pathlib import Path

import numpy as np
from scipy import optimize, stats

getcontext().prec = 40

REFERENCE = Path(__file__).parent.parent
ANOVA = sorted(p.relative_to(REFERENCE).as_posix() for p in (REFERENCE / "nist-anova").glob("*.json"))
LINEAR = sorted(p.relative_to(REFERENCE).as_posix() for p in (REFERENCE / "nist-linear").glob("*.json"))
NONLINEAR = sorted(p.relative_to(REFERENCE).as_posix() for p in (REFERENCE / "nist-nonlinear").glob("*.json"))

INVENTED = "invented"
NIST = "NIST StRD, as each file says: published, NoInt1 and NoInt2 from memory"

GIVEN = {
    "calibration-inverse.json": {
        "c_mg_L/*": INVENTED,
        "A/*": INVENTED,
        "sampleReplicates/*": INVENTED,
        "minimumDetectable/degreesOfFreedom/*": INVENTED,
    },
    "calibration-shapes.json": {
        "*/c_mg_L/*": INVENTED,
        "*/A/*": INVENTED,
        "*/signal": INVENTED,
        "*/readings": INVENTED,
    },
    **{name: {"groups": NIST, "nObs": NIST, "certified/**": NIST, "data/**": NIST} for name in ANOVA},
    **{name: {"nObs": NIST, "certified/**": NIST, "x/*": NIST, "y/*": NIST} for name in LINEAR},
    **{name: {"**": NIST} for name in NONLINEAR},
}


def inverse(d):
    c, a = np.array(d["c_mg_L"]), np.array(d["A"])
    n, m = len(c), len(d["sampleReplicates"])
    line = stats.linregress(c, a)
    b = line.slope
    sy = np.sqrt(np.sum((a - line.intercept - b * c) ** 2) / (n - 2))
    sxx = np.sum((c - c.mean()) ** 2)
    y = np.mean(d["sampleReplicates"])
    x0, sx0 = (y - line.intercept) / b, sy / b
    u = sx0 * np.sqrt(1 / m + 1 / n + (y - a.mean()) ** 2 / (b**2 * sxx))
    t, t95 = stats.t.ppf(0.975, n - 2), stats.t.ppf(0.95, n - 2)
    g = t**2 * sy**2 / (b**2 * sxx)
    # Fieller: the roots in x of (y - a - b x)^2 = t^2 s^2 (1/m + 1/n + (x - mean)^2 / Sxx), about the mean of the line.
    middle = (y - a.mean()) / b
    half = t * sx0 * np.sqrt((1 - g) * (1 / m + 1 / n) + middle**2 / sxx)
    detection = sx0 * t95 * np.sqrt(1 / m + 1 / n + c.mean() ** 2 / sxx)
    relative = lambda x: x - 3 * sx0 * t * np.sqrt(1 / m + 1 / n + (x - c.mean()) ** 2 / sxx)
    through = np.sum(c * a) / np.sum(c * c)
    yield "", {
        "slope": b, "intercept": line.intercept, "r2": line.rvalue**2, "sy": sy, "seSlope": line.stderr,
        "seIntercept": line.intercept_stderr, "sxx": sxx, "processSD_sx0": sx0, "processCV_percent": 100 * sx0 / c.mean(),
        "x0": x0, "se_x0": u, "t975": t, "ci95_delta": [x0 - t * u, x0 + t * u], "g": g,
        "ci95_fieller": [c.mean() + (middle - half) / (1 - g), c.mean() + (middle + half) / (1 - g)],
        "xNG_detection": detection, "xEG": 2 * detection, "xBG_k3": optimize.brentq(relative, 0, 10, xtol=1e-15),
        "corr_a_b": -c.mean() / np.sqrt(np.mean(c**2)),
        "throughOrigin": {"slope": through, "s": np.sqrt(np.sum((a - through * c) ** 2) / (n - 1))},
    }, 1e-9  # fmt: skip
    for i, df in enumerate(d["minimumDetectable"]["degreesOfFreedom"]):
        yield f"minimumDetectable/delta/{i}", detectable(df), 2e-4


def detectable(df):
    """The noncentrality at which Student's t stays below its own 95 % point with probability 5 %."""
    return optimize.brentq(lambda delta: stats.nct.cdf(stats.t.ppf(0.95, df), df, delta) - 0.05, 1, 20, xtol=1e-10)


def root(x):
    return (Decimal(x.numerator) / Decimal(x.denominator)).sqrt()


def exactly(numbers):
    return [Fraction(repr(v)) for v in numbers]


def solve(matrix, right):
    """Gauss and Jordan over fractions."""
    n = len(right)
    rows = [list(r) + [v] for r, v in zip(matrix, right)]
    for i in range(n):
        pivot = next(k for k in range(i, n) if rows[k][i] != 0)
        rows[i], rows[pivot] = rows[pivot], rows[i]
        rows[i] = [v / rows[i][i] for v in rows[i]]
        for k in range(n):
            if k != i:
                rows[k] = [v - rows[k][i] * w for v, w in zip(rows[k], rows[i])]
    return [r[n] for r in rows]


def polynomial(x, y, powers, weights=None):
    """Exact weighted least squares; gives (coefficients, inverse normal matrix, weighted sum of squares)."""
    w = weights or [Fraction(1)] * len(x)
    normal = [[sum(v * p ** (i + j) for v, p in zip(w, x)) for j in powers] for i in powers]
    right = [sum(v * p**i * q for v, p, q in zip(w, x, y)) for i in powers]
    coefficients = solve(normal, right)
    size = range(len(powers))
    inverse = [solve(normal, [Fraction(int(i == j)) for i in size]) for j in size]
    left = [q - sum(c * p**i for c, i in zip(coefficients, powers)) for p, q in zip(x, y)]
    return coefficients, inverse, sum(v * r * r for v, r in zip(w, left))


def shapes(d):
    yield from bent(d["bent"])
    yield from weighted(d["weighted"])
    yield from lack_of_fit(d["lackOfFit"])


def bent(d):
    x, y = exactly(d["c_mg_L"]), exactly(d["A"])
    (a, b, k), inverse, rss = polynomial(x, y, [0, 1, 2])
    s2 = rss / (len(x) - 3)
    signal = Fraction(repr(d["signal"]))
    # The root between the doses, by the form that does not cancel.
    x0 = Decimal(2) * decimal(signal - a) / (decimal(b) + root(b * b + 4 * k * (signal - a)))
    at = [Decimal(1), x0, x0 * x0]
    spread = sum(at[i] * decimal(inverse[i][j]) * at[j] for i in range(3) for j in range(3))
    variance = decimal(s2) * (Decimal(1) / d["readings"] + spread)
    u = variance.sqrt() / (decimal(b) + 2 * decimal(k) * x0)
    _, _, straight = polynomial(x, y, [0, 1])
    yield "bent", {"a": a, "b": b, "k": k, "s": root(s2), "x0": x0, "u": u, "mandelF": (straight - rss) / s2}, 1e-13


def decimal(x):
    return Decimal(x.numerator) / Decimal(x.denominator)


def weighted(d):
    """Weights 1/signal, so that s is the scatter at a signal of 1; an unknown's own reading scatters as its signal has it."""
    x, y = exactly(d["c_mg_L"]), exactly(d["A"])
    (a, b), inverse, rss = polynomial(x, y, [0, 1], [1 / v for v in y])
    s2 = rss / (len(x) - 2)
    signal = Fraction(repr(d["signal"]))
    x0 = (signal - a) / b
    own = signal / d["readings"]
    spread = inverse[0][0] + 2 * x0 * inverse[0][1] + x0 * x0 * inverse[1][1]
    yield "weighted", {"a": a, "b": b, "s": root(s2), "seB": root(s2 * inverse[1][1]), "x0": x0, "u": root(s2 * (own + spread)) / decimal(b)}, 1e-13


def lack_of_fit(d):
    x, y = exactly(d["c_mg_L"]), exactly(d["A"])
    _, _, rss = polynomial(x, y, [0, 1])
    levels = sorted(set(x))
    groups = [[q for p, q in zip(x, y) if p == level] for level in levels]
    pure = sum((q - sum(g) / len(g)) ** 2 for g in groups for q in g)
    df = [len(levels) - 2, len(x) - len(levels)]
    yield "lackOfFit", {"F": (rss - pure) / df[0] / (pure / df[1]), "df": df}, 1e-13


def anova(d):
    groups = [exactly(g) for g in d["data"]]
    n, grand = sum(map(len, groups)), sum(map(sum, groups)) / sum(map(len, groups))
    between = sum(len(g) * (sum(g) / len(g) - grand) ** 2 for g in groups)
    within = sum((v - sum(g) / len(g)) ** 2 for g in groups for v in g)
    f = between / (len(groups) - 1) / (within / (n - len(groups)))
    yield "recomputedExact", {"F": f, "ssBetween": between, "ssWithin": within}, 1e-14


def linear(d):
    x, y = [exactly(d[k]) for k in ("x", "y")]
    powers = [0, 1] if "B0" in d["certified"] else [1]
    coefficients, inverse, rss = polynomial(x, y, powers)
    s2 = rss / (len(x) - len(powers))
    made = {"residualSD": root(s2), "rss": rss}
    for k, power in enumerate(powers):
        made[f"B{power}"] = coefficients[k]
        made[f"seB{power}"] = root(s2 * inverse[k][k])
    if "rSquared" in d["recomputedExact"]:
        mean = sum(y) / len(y)
        made["rSquared"] = 1 - rss / sum((v - mean) ** 2 for v in y)
    yield "recomputedExact", made, 1e-14


def values(data, name):
    makers = {"calibration-inverse.json": inverse, "calibration-shapes.json": shapes, **dict.fromkeys(ANOVA, anova), **dict.fromkeys(LINEAR, linear)}
    return makers[name](data) if name in makers else ()
