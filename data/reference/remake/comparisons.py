"""Tests and critical values for groups: Dunnett's example and table, outliers, textbook tests, power, variance components."""

import json
import random
import warnings
from collections import Counter
from functools import cache
from pathlib import Path

import numpy as np
import pandas as pd
import statsmodels.formula.api as smf
from scipy import optimize, special, stats
from statsmodels.stats.multitest import multipletests
from statsmodels.stats.oneway import anova_oneway
from statsmodels.stats.power import TTestIndPower

MEMORY = "from memory of Dunnett (1955)"
INVENTED = "invented"

GIVEN = {
    "dunnett-example.json": {"data/**": MEMORY},
    "dunnett-example-one-sided.json": {},
    "dunnett-critical.csv": {"rows/*/k": "which value", "rows/*/df": "which value", "rows/*/alpha": "which value"},
    "grubbs-cochran.csv": {"rows/*/n_or_groups": "which value", "rows/*/reps": "which value", "rows/*/alpha": "which value"},
    "treatment-comparison.json": {
        "data/**": MEMORY,
        "pairedSleep/x1/*": "published: Student (1908), data set sleep of R",
        "pairedSleep/x2/*": "published: Student (1908), data set sleep of R",
        "tost/a/*": INVENTED,
        "tost/b/*": INVENTED,
        "tost/*/margin": INVENTED,
        "pAdjust/p/*": INVENTED,
        "power/*/n": INVENTED,
        "power/*/delta": INVENTED,
        "power/*/sd": INVENTED,
        "power/*/alpha": INVENTED,
        "sampleSize/delta": INVENTED,
        "sampleSize/sd": INVENTED,
        "sampleSize/alpha": INVENTED,
    },
    "variance-components.json": {},
}


legendre = cache(np.polynomial.legendre.leggauss)


def inside(t, factors, df, two_sided, nodes=300):
    """P(all T_i <= t), or |T_i| <= t, where the correlations are products of the factors: Gauss and Legendre over the common normal and the chi."""
    at, weights = legendre(nodes)
    z, wz = 8.5 * at, 8.5 * weights * stats.norm.pdf(8.5 * at)
    if np.isfinite(df):
        low, high = (np.sqrt(q / df) for q in (stats.chi2.ppf(1e-17, df), stats.chi2.isf(1e-17, df)))
        s = low + (high - low) * (at + 1) / 2
        ws = (high - low) / 2 * weights * stats.chi.pdf(s * np.sqrt(df), df) * np.sqrt(df)
    else:
        s, ws = np.ones(1), np.ones(1)
    # One block for all factors that are alike.
    product = np.ones((len(z), len(s)))
    for factor, times in Counter(factors).items():
        root = np.sqrt(1 - factor * factor)
        share = special.ndtr((t * s[None, :] - factor * z[:, None]) / root)
        if two_sided:
            share = share - special.ndtr((-t * s[None, :] - factor * z[:, None]) / root)
        product *= share**times
    return float(wz @ product @ ws)


def dunnett(data):
    groups = {k: np.array(data[k]) for k in ("control", "A", "B")}
    control = groups.pop("control")
    df = sum(map(len, groups.values())) + len(control) - 3
    mean_square = (sum(np.sum((g - g.mean()) ** 2) for g in groups.values()) + np.sum((control - control.mean()) ** 2)) / df
    factors = [np.sqrt(len(g) / (len(g) + len(control))) for g in groups.values()]
    rows = {}
    for name, g in groups.items():
        se = np.sqrt(mean_square * (1 / len(g) + 1 / len(control)))
        rows[name] = (g.mean() - control.mean(), se)
    return df, mean_square, factors, rows


def dunnett_two_sided(data):
    df, mean_square, factors, rows = dunnett(data["data"])
    critical = optimize.brentq(lambda t: inside(t, factors, df, True) - 0.95, 1, 6, xtol=1e-13)
    made = {"crit95": critical}
    for name, (diff, se) in rows.items():
        made[name] = {"diff": diff, "se": se, "t": diff / se, "p": 1 - inside(abs(diff / se), factors, df, True), "ci95": [diff - critical * se, diff + critical * se]}
    yield "expected", {"meanSquare": mean_square, "degreesOfFreedom": df, "correlation": factors[0] * factors[1], "twoSided": made}, 1e-10


def dunnett_one_sided(_):
    counts = json.loads((Path(__file__).parent.parent / "dunnett-example.json").read_text())["data"]
    df, _, factors, rows = dunnett(counts)
    critical = optimize.brentq(lambda t: inside(t, factors, df, False) - 0.95, 1, 6, xtol=1e-13)
    made = {"crit95": critical}
    for name, (diff, se) in rows.items():
        made[name] = {"diff": diff, "se": se, "t": diff / se, "p": 1 - inside(diff / se, factors, df, False), "ci95": [diff - critical * se, None]}
    yield "", {"correlation": factors[0] * factors[1], "degreesOfFreedom": df, "greater": made}, 1e-10


def dunnett_table(data):
    """Equal groups: correlations of one half. The file has seven decimals."""
    for i, row in enumerate(data["rows"]):
        k, df, alpha, two = int(row["k"]), float(row["df"]), float(row["alpha"]), row["sided"] == "two"
        factors = [np.sqrt(0.5)] * k
        around = float(row["d"])
        found = optimize.brentq(lambda t: inside(t, factors, df, two, 120) - 1 + alpha, around - 0.01, around + 0.01, xtol=1e-10)
        yield f"rows/{i}/d", found, 1.2e-7 / 2


def outliers(data):
    """Grubbs by Student's t, Cochran's C by F; the file has eight decimals."""
    for i, row in enumerate(data["rows"]):
        n, alpha = int(row["n_or_groups"]), float(row["alpha"])
        if row["test"] == "grubbs":
            t = stats.t.isf(alpha / n / (2 if row["sided"] == "two" else 1), n - 2)
            critical = (n - 1) / np.sqrt(n) * np.sqrt(t * t / (n - 2 + t * t))
        else:
            own = int(row["reps"]) - 1
            f = stats.f.isf(alpha / n, own, own * (n - 1))
            critical = f / (f + n - 1)
        yield f"rows/{i}/critical", critical, 5e-8


def textbook(d):
    groups = [np.array(d["data"][k]) for k in ("control", "A", "B")]
    control, _, b = groups
    f = stats.f_oneway(*groups)
    yield "anova", {"F": f.statistic, "df1": 2, "df2": 12, "p": f.pvalue}, 1e-11
    welch = anova_oneway(groups, use_var="unequal", welch_correction=True)
    yield "welchAnova", {"F": welch.statistic, "df1": 2, "df2": welch.df_denom, "p": welch.pvalue, "statsmodelsF": welch.statistic}, 1e-11
    levene = stats.levene(*groups, center="median")
    yield "brownForsythe", {"F": levene.statistic, "p": levene.pvalue}, 1e-11
    kruskal = stats.kruskal(*groups)
    yield "kruskal", {"H": kruskal.statistic, "p": kruskal.pvalue}, 1e-11
    bartlett = stats.bartlett(*groups)
    yield "bartlett", {"K2": bartlett.statistic, "p": bartlett.pvalue}, 1e-10
    yield "welchT_B_minus_C", two_means(b, control, False), 1e-10
    pooled = two_means(b, control, True)
    sp = np.sqrt(((len(b) - 1) * b.var(ddof=1) + (len(control) - 1) * control.var(ddof=1)) / pooled["df"])
    d_value = pooled["diff"] / sp
    yield "pooledT_B_minus_C", {**pooled, "sp": sp, "cohen_d": d_value, "hedges_g": d_value * (1 - 3 / (4 * pooled["df"] - 1))}, 1e-10
    rank = stats.mannwhitneyu(b, control, method="exact")
    yield "mannWhitney_B_C", {"U": rank.statistic, "pExact": rank.pvalue}, 1e-12
    x1, x2 = np.array(d["pairedSleep"]["x1"]), np.array(d["pairedSleep"]["x2"])
    paired = stats.ttest_rel(x1, x2)
    interval = paired.confidence_interval(0.95)
    yield "pairedSleep", {
        "meanDiff": (x1 - x2).mean(), "sdDiff": (x1 - x2).std(ddof=1), "t": paired.statistic, "df": paired.df,
        "p": paired.pvalue, "ci95": [interval.low, interval.high],
    }, 1e-10  # fmt: skip
    yield from equivalence(d["tost"])
    yield from adjusted(d["pAdjust"])
    yield from power(d)


def two_means(a, b, equal):
    test = stats.ttest_ind(a, b, equal_var=equal)
    interval = test.confidence_interval(0.95)
    diff = a.mean() - b.mean()
    return {"diff": diff, "se": diff / test.statistic, "df": test.df, "t": test.statistic, "p": test.pvalue, "ci95": [interval.low, interval.high]}


def equivalence(d):
    a, b = np.array(d["a"], float), np.array(d["b"], float)
    for key in ("welch", "pooled", "welchMargin8"):
        equal, margin = key == "pooled", d[key]["margin"]
        base = stats.ttest_ind(a, b, equal_var=equal)
        lower = stats.ttest_ind(a + margin, b, equal_var=equal, alternative="greater")
        upper = stats.ttest_ind(a - margin, b, equal_var=equal, alternative="less")
        interval = base.confidence_interval(0.90)
        diff = a.mean() - b.mean()
        yield f"tost/{key}", {
            "diff": diff, "se": diff / base.statistic, "df": base.df, "tLower": lower.statistic, "pLower": lower.pvalue,
            "tUpper": upper.statistic, "pUpper": upper.pvalue, "p": max(lower.pvalue, upper.pvalue), "ci90": [interval.low, interval.high],
        }, 1e-9  # fmt: skip


def adjusted(d):
    names = {"holm": "holm", "bonferroni": "bonferroni", "BH": "fdr_bh", "hochberg": "simes-hochberg"}
    for key, method in names.items():
        yield f"pAdjust/{key}", multipletests(d["p"], method=method)[1], 1e-12


def power(d):
    """Of a two-sided t test of two equal groups; "non strict" leaves out the far tail."""
    tool = TTestIndPower()
    for i, row in enumerate(d["power"]):
        n, df = row["n"], 2 * row["n"] - 2
        t = stats.t.isf(row["alpha"] / 2, df)
        shift = lambda delta: delta / row["sd"] * np.sqrt(n / 2)
        whole = lambda delta: stats.nct.sf(t, df, shift(delta)) + stats.nct.cdf(-t, df, shift(delta))
        least = optimize.brentq(lambda delta: whole(delta) - 0.8, row["sd"] / 100, 6 * row["sd"], xtol=1e-12, rtol=1e-14)
        by_tool = tool.power(row["delta"] / row["sd"], n, row["alpha"])
        yield f"power/{i}", {"power": whole(row["delta"]), "powerNonStrict": stats.nct.sf(t, df, shift(row["delta"])), "statsmodels": by_tool, "mdd80": least}, 1e-10
    s = d["sampleSize"]
    for key, wanted in (("n80", 0.8), ("n90", 0.9)):
        # The solver of statsmodels ends at eight digits; its power function is exact.
        yield f"sampleSize/{key}", optimize.brentq(lambda n: tool.power(s["delta"] / s["sd"], n, s["alpha"]) - wanted, 2, 30, xtol=1e-13), 1e-10


LEVELS = ["day", "soak", "flask"]


def invented_rows(seed, treatments, soaks, flasks, days):
    draw = random.Random(seed)
    effect = {d: draw.gauss(0, 3) for d in range(days)}
    out = []
    for t in range(treatments):
        for s in range(soaks):
            soak = draw.gauss(0, 4)
            for f in range(flasks(t, s)):
                flask = draw.gauss(0, 2)
                day = (s + f) % days
                for _ in range(1 + (s + t + f) % 2):
                    y = round(100 + 10 * t + effect[day] + soak + flask + draw.gauss(0, 1), 2)
                    out.append((y, f"t{t}", f"d{day}", f"t{t}s{s}", f"t{t}s{s}f{f}"))
    return pd.DataFrame(out, columns=["y", "treatment", "day", "soak", "flask"])


def henderson(frame):
    """Sums of squares in the order of the levels by projections, held against ordinary least squares of statsmodels; their expectations as traces."""
    n, order = len(frame), ["treatment", *LEVELS]
    indicators = [pd.get_dummies(frame[v]).to_numpy(float) for v in order]
    steps = []
    for k in range(len(order)):
        x = np.hstack(indicators[: k + 1])
        steps.append(x @ np.linalg.pinv(x))
    steps.append(np.eye(n))
    units = [*indicators[1:], np.eye(n)]
    y = frame.y.to_numpy()
    squares, degrees, expected = [], [], []
    for before, after in zip(steps, steps[1:]):
        m = after - before
        squares.append(float(y @ m @ y))
        degrees.append(int(round(np.trace(m))))
        expected.append([float(np.trace(z.T @ m @ z)) for z in units])
    with warnings.catch_warnings():
        # Nested levels hold each other: the design has more columns than rank, which the residuals do not mind.
        warnings.simplefilter("ignore")
        left = [smf.ols("y ~ " + " + ".join(f"C({o})" for o in order[: k + 1]), frame).fit().ssr for k in range(len(order))]
    for made, before, after in zip(squares, left, [*left[1:], 0.0]):
        assert abs((before - after) / made - 1) < 1e-8
    return degrees, np.linalg.solve(np.array(expected), np.array(squares))


def components(data):
    designs = [(1, 3, 4, lambda t, s: 1 + (t + s) % 3, 4), (2, 2, 5, lambda t, s: 2 + s % 2, 2), (3, 3, 2, lambda t, s: 3, 2)]
    for i, design in enumerate(designs):
        frame = invented_rows(*design)
        degrees, made = henderson(frame)
        yield f"sets/{i}/values", frame.y.tolist(), 0
        yield f"sets/{i}/degreesOfFreedom", degrees, 0
        yield f"sets/{i}/components", made, 1e-9


def values(data, name):
    makers = {
        "dunnett-example.json": dunnett_two_sided,
        "dunnett-example-one-sided.json": dunnett_one_sided,
        "dunnett-critical.csv": dunnett_table,
        "grubbs-cochran.csv": outliers,
        "treatment-comparison.json": textbook,
        "variance-components.json": components,
    }
    return makers[name](data)
