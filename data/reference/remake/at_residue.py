"""Three treatments compared at one residue, each on a Langmuir isotherm fitted to the residues of its flasks: comparison-at-residue.json.

A flask with uptake q and residue C lies on the line slope C + q = constant; it should show the residue at which the isotherm meets that line.
"""

import numpy as np
from scipy import linalg, optimize

from comparisons import inside

INVENTED = "invented"

GIVEN = {
    "comparison-at-residue.json": {
        "balanceSlope": INVENTED,
        "ownResidue": INVENTED,
        "ownUptake": INVENTED,
        "residue": INVENTED,
        "flasks/*/residue": INVENTED,
        "flasks/*/uptake": INVENTED,
        "flasks/*/shared/*": INVENTED,
    }
}

langmuir = lambda p, c: p[0] * p[1] * c / (1 + p[1] * c)
steepness = lambda p, c: p[0] * p[1] / (1 + p[1] * c) ** 2
gradient = lambda p, c: np.array([p[1] * c / (1 + p[1] * c), p[0] * c / (1 + p[1] * c) ** 2])


def meeting(p, slope, constant):
    """The positive root of slope k C^2 + (slope + q k - k constant) C - constant = 0."""
    qm, k = p
    middle = slope + qm * k - k * constant
    return 2 * constant / (middle + np.sqrt(middle**2 + 4 * slope * k * constant))


def fitted(d, residues, uptakes):
    """Curve and standard deviations in turn until neither moves."""
    constant = d["balanceSlope"] * residues + uptakes
    p, deviation = np.array([300.0, 0.004]), None
    for _ in range(30):
        at = meeting(p, d["balanceSlope"], constant) if deviation is not None else residues
        rise = steepness(p, at)
        deviation = np.sqrt((rise * d["ownResidue"]) ** 2 + d["ownUptake"] ** 2) / (d["balanceSlope"] + rise)
        before = p
        misses = lambda u: (residues - meeting(np.exp(u), d["balanceSlope"], constant)) / deviation
        found = optimize.least_squares(misses, np.log(p), jac="3-point", xtol=1e-15, ftol=1e-15, gtol=1e-15)
        p = np.exp(found.x)
        if np.max(np.abs(p / before - 1)) < 1e-12:
            break
    return p, deviation


def curve(d, name):
    flasks = [f for f in d["flasks"] if f["treatment"] == name]
    residues, uptakes = (np.array([f[k] for f in flasks]) for k in ("residue", "uptake"))
    p, deviation = fitted(d, residues, uptakes)
    at = meeting(p, d["balanceSlope"], d["balanceSlope"] * residues + uptakes)
    rise = d["balanceSlope"] + steepness(p, at)
    j = -gradient(p, at).T / (rise * deviation)[:, None]
    miss = (residues - at) / deviation
    effects = {k: np.array([f["shared"][k] for f in flasks]) for k in flasks[0]["shared"]}
    moved = np.array([-e / rise / deviation for e in effects.values()]).T

    # Restricted maximum likelihood: what is left of the residuals free of the curve's own directions has covariance s^2 + W W'.
    free = linalg.null_space(j.T)
    z, w = free.T @ miss, free.T @ moved
    values, vectors = np.linalg.eigh(w @ w.T)
    along = (vectors.T @ z) ** 2
    values = np.where(values > 1e-12 * values.max(), values, 0)
    unlikely = lambda u: np.sum(np.log(np.exp(u) + values) + along / (np.exp(u) + values))
    grid = np.linspace(np.log(z @ z) - 25, np.log(z @ z), 400)
    start = grid[np.argmin([unlikely(u) for u in grid])]
    variance = np.exp(optimize.minimize_scalar(unlikely, bounds=(start - 0.1, start + 0.1), method="bounded", options={"xatol": 1e-12}).x)
    df = np.sum((variance / (variance + values)) ** 2)

    inverse = np.linalg.inv(j.T @ j)
    g = gradient(p, d["residue"])
    # The reading errors where the points lie closer to the curve than these allow.
    even = g @ inverse @ g * max(1, variance)
    leverage = np.einsum("ij,jk,ik->i", j, inverse, j)
    uneven = np.sum((j @ inverse @ g * miss) ** 2 / (1 - leverage))
    first_order = {k: g @ inverse @ j.T @ moved[:, i] for i, k in enumerate(effects)}
    return {
        "theta": p, "scale": np.sqrt(variance), "uptake": langmuir(p, d["residue"]), "scatterVariance": max(even, uneven),
        "evenScatterVariance": even, "unevenScatterVariance": uneven, "effects": first_order, "df": df,
    }  # fmt: skip


def values(d, name):
    curves = {t: curve(d, t) for t in dict.fromkeys(f["treatment"] for f in d["flasks"])}
    for treatment, made in curves.items():
        for key, value in made.items():
            yield f"curves/{treatment}/{key}", value, TOLERANCES.get(key, 1e-7)
    control = curves["water"]
    rows = []
    for treatment in ("ash lye", "steam"):
        c = curves[treatment]
        shared = {k: c["effects"][k] - control["effects"][k] for k in c["effects"]}
        scatter = c["scatterVariance"] + control["scatterVariance"]
        variance = scatter + sum(v * v for v in shared.values())
        below = c["scatterVariance"] ** 2 / c["df"] + control["scatterVariance"] ** 2 / control["df"]
        rows.append((c["uptake"] - control["uptake"], variance, variance**2 / below, shared))
    common = control["scatterVariance"] + sum(rows[0][3][k] * rows[1][3][k] for k in rows[0][3])
    correlation = common / np.sqrt(rows[0][1] * rows[1][1])
    yield "correlation", correlation, 1e-6
    for i, (estimate, variance, df, _) in enumerate(rows):
        critical = optimize.brentq(lambda t: inside(t, [np.sqrt(correlation)] * 2, df, True) - 0.95, 1.5, 5, xtol=1e-9)
        se = np.sqrt(variance)
        yield f"differences/{i}", {
            "estimate": estimate, "standardError": se, "low": estimate - critical * se, "high": estimate + critical * se,
            "degreesOfFreedom": df, "critical": critical,
        }, 1e-6  # fmt: skip


# The least of a flat likelihood is found to half the digits.
TOLERANCES = {"scale": 1e-6, "df": 1e-6}
