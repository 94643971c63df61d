"""Curves by least squares with SciPy, as several files need them: parameters, standard errors, criteria, intervals."""

import numpy as np
from scipy import optimize, stats

R_GAS, KELVIN = 8.314462618, 298.15

# The curves of the reference files by name: f(x, parameters, constants).
CURVES = {
    "henry": lambda x, p, c: p[0] * x,
    "langmuir": lambda x, p, c: p[0] * p[1] * x / (1 + p[1] * x),
    "freundlich": lambda x, p, c: p[0] * x ** p[1],
    "sips": lambda x, p, c: p[0] * (p[1] * x) ** p[2] / (1 + (p[1] * x) ** p[2]),
    "toth": lambda x, p, c: p[0] * p[1] * x / (1 + (p[1] * x) ** p[2]) ** (1 / p[2]),
    "redlichPeterson": lambda x, p, c: p[0] * x / (1 + p[1] * x ** p[2]),
    "temkin": lambda x, p, c: p[0] * np.log(p[1] * x),
    "drOneOverC": lambda x, p, c: p[0] * np.exp(-p[1] * (R_GAS * KELVIN / 1000 * np.log(1 + 1 / x)) ** 2),
    "drPolanyi": lambda x, p, c: p[0] * np.exp(-p[1] * (R_GAS * KELVIN / 1000 * np.log(c["Cs"] / x)) ** 2),
    "dualSiteLangmuir": lambda x, p, c: p[0] * p[1] * x / (1 + p[1] * x) + p[2] * p[3] * x / (1 + p[3] * x),
    "betLiquid": lambda x, p, c: p[0] * p[1] * x / ((c["Cs"] - x) * (1 + (p[1] - 1) * x / c["Cs"])),
    "hill4": lambda x, p, c: p[0] + (p[1] - p[0]) / (1 + (p[2] / x) ** p[3]),
    "pfo": lambda x, p, c: p[0] * (1 - np.exp(-p[1] * x)),
    "pso": lambda x, p, c: p[1] * p[0] ** 2 * x / (1 + p[1] * p[0] * x),
    "elovich": lambda x, p, c: np.log(1 + p[0] * p[1] * x) / p[1],
    "intraparticle": lambda x, p, c: p[0] * np.sqrt(x) + p[1],
    "thomas": lambda x, p, c: 1 / (1 + np.exp(p[0] * p[1] * c["m"] / c["Q"] - p[0] * c["C0"] * x)),
    "bohartAdams": lambda x, p, c: 1 / (1 + np.exp(p[0] * p[1] * c["Z"] / c["U"] - p[0] * c["C0"] * x)),
    "yoonNelson": lambda x, p, c: 1 / (1 + np.exp(p[0] * (p[1] - x))),
    "clark": lambda x, p, c: (1 / (1 + p[0] * np.exp(-p[1] * x))) ** (1 / (c["n"] - 1)),
    "hyperbola": lambda x, p, c: p[0] * x / (p[1] + x),
    "firstOrder": lambda x, p, c: p[0] * (1 - np.exp(-p[1] * x)),
    "power": lambda x, p, c: p[0] * x ** p[1],
}


def jacobian(model, x, p, constants):
    """Derivatives by complex steps, exact to rounding."""
    columns = []
    for j in range(len(p)):
        moved = np.array(p, complex)
        step = 1e-30 * max(abs(p[j]), 1e-30)
        moved[j] += 1j * step
        with np.errstate(all="ignore"):
            columns.append(CURVES[model](x, moved, constants).imag / step)
    return np.nan_to_num(np.array(columns).T, nan=0.0, posinf=0.0, neginf=0.0)


def fit(model, x, y, start, constants=None, weights=None, held=None, evaluations=400):
    """Least squares over the logarithms of the parameters that are not held (all of them are positive), ended by steps of Gauss and Newton.

    Gives (parameters, sum of squares)."""
    x, y, constants, held = np.asarray(x, float), np.asarray(y, float), constants or {}, held or {}
    root = np.ones_like(y) if weights is None else np.sqrt(weights)
    whole = np.array([held.get(j, v) for j, v in enumerate(start)], float)
    free = [j for j in range(len(start)) if j not in held]

    def at(logs):
        full = whole.copy()
        full[free] = np.exp(np.clip(logs, -690, 690))
        return full

    def residuals(logs):
        with np.errstate(all="ignore"):
            r = root * (y - CURVES[model](x, at(logs), constants))
        return np.where(np.isfinite(r), r, 1e150)

    def slopes(logs):
        full = at(logs)
        return -(root[:, None] * jacobian(model, x, full, constants) * full)[:, free]

    def squares(logs):
        return float(np.sum(residuals(logs) ** 2))

    logs = np.log(whole[free])
    if free:
        logs = optimize.least_squares(residuals, logs, jac=slopes, xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=evaluations).x
    for _ in range(6 if free else 0):
        step = np.linalg.lstsq(slopes(logs), -residuals(logs), rcond=None)[0]
        if not squares(logs + step) <= squares(logs):
            break
        logs = logs + step
    return at(logs), squares(logs)


def summary(model, x, y, p, ssr, constants=None, weights=None):
    """Standard errors, criteria (the variance counted as a parameter) and symmetric intervals."""
    x, y = np.asarray(x, float), np.asarray(y, float)
    w = np.ones_like(y) if weights is None else np.asarray(weights)
    n, k = len(y), len(p)
    df = n - k
    j = np.sqrt(w)[:, None] * jacobian(model, x, p, constants or {})
    scale = np.linalg.norm(j, axis=0)
    inverse = np.linalg.inv((j / scale).T @ (j / scale))
    se = np.sqrt(np.diag(inverse) * ssr / df) / scale
    spread = np.sqrt(np.diag(inverse))
    t = stats.t.ppf(0.975, df)
    counted = k + 1
    aic = n * np.log(ssr / n) + 2 * counted
    mean = np.sum(w * y) / np.sum(w)
    return {
        "params": p,
        "se": se,
        "ssr": ssr,
        "residualSD": np.sqrt(ssr / df),
        "df": df,
        "n": n,
        "p": k,
        "r2": 1 - ssr / np.sum(w * (y - mean) ** 2),
        "aic": aic,
        "aicc": aic + 2 * counted * (counted + 1) / (n - counted - 1) if n > counted + 1 else None,
        "bic": n * np.log(ssr / n) + counted * np.log(n),
        "waldCI95": [[v - t * e, v + t * e] for v, e in zip(p, se)],
        "correlation": inverse / np.outer(spread, spread),
    }


def profile(model, x, y, p, ssr, target, se, constants=None, weights=None, only=None):
    """Where the sum of squares, the other parameters refitted, reaches the target; None where it does not within a factor of 1e4."""
    ends = []
    for j in range(len(p)) if only is None else only:
        pair = []
        for side in (-1, 1):

            def over(value):
                return fit(model, x, y, p, constants, weights, {j: value})[1] - target

            # All parameters here are positive: the steps are factors, which grow.
            factor = (1 + se[j] / p[j]) ** side
            while over(p[j] * factor) < 0 and abs(np.log(factor)) < np.log(1e4):
                factor **= 1.5
            far = p[j] * factor
            pair.append(optimize.brentq(over, p[j], far, xtol=1e-13 * abs(p[j]), rtol=1e-13) if over(far) >= 0 else None)
        ends.append(pair)
    return ends


def f_target(ssr, n, k, level=0.95):
    return ssr * (1 + stats.f.ppf(level, 1, n - k) / (n - k))
