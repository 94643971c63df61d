"""Critical values of 40 to 500 comparisons whose correlations are a_i a_j + b_i b_j: sums over the two common normals and the chi."""

import numpy as np
from scipy import optimize, special, stats

from comparisons import legendre

GIVEN = {
    "many-comparisons.json": {
        "cases/*/groups/**": "invented",
        "cases/*/degreesOfFreedom": "which value",
        "cases/*/pmvtError": "what mvtnorm stated as its error; it serves as the tolerance",
    }
}

NODES = 110


def within(t, groups, df):
    """P(all |T_i| <= t)."""
    at, weights = legendre(NODES)
    z, w = 7 * at, 7 * weights * stats.norm.pdf(7 * at)
    one_factor = all(g["b"] == 0 for g in groups)
    y, wy = (np.zeros(1), np.ones(1)) if one_factor else (z, w)
    if np.isfinite(df):
        low, high = (np.sqrt(q / df) for q in (stats.chi2.ppf(1e-13, df), stats.chi2.isf(1e-13, df)))
        s = low + (high - low) * (at + 1) / 2
        ws = (high - low) / 2 * weights * stats.chi.pdf(s * np.sqrt(df), df) * np.sqrt(df)
    else:
        s, ws = np.ones(1), np.ones(1)
    product = np.ones((len(z), len(y), len(s)))
    for g in groups:
        root = np.sqrt(1 - g["a"] ** 2 - g["b"] ** 2)
        middle = (g["a"] * z[:, None] + g["b"] * y[None, :])[:, :, None]
        share = special.ndtr((t * s - middle) / root) - special.ndtr((-t * s - middle) / root)
        product *= share ** g["count"]
    return float(np.einsum("i,j,k,ijk", w, wy, ws, product, optimize=True))


def values(data, _):
    for i, case in enumerate(data["cases"]):
        df = float(case["degreesOfFreedom"])
        found = optimize.brentq(lambda t: within(t, case["groups"], df) - 0.95, 3, 6, xtol=1e-7)
        yield f"cases/{i}/criticalValue", found, 1e-6
        if "outsideByPmvt" in case:
            # 5 % by what a critical value is; mvtnorm found it by chance.
            yield f"cases/{i}/outsideByPmvt", 0.05, case["pmvtError"] / case["outsideByPmvt"]
