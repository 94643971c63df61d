"""SciPy's side of the fit benchmark: the same data and start values as the TypeScript side, one core.

Reads a JSON task from standard input, writes seconds of processor time and results as JSON to standard output.
"""

import json
import sys
import time

import numpy as np
from scipy.optimize import brentq, curve_fit

RT = 8.314462618e-3 * 298.15  # kJ/mol
SOLUBILITY = 1300.0
SATURATION = 250.0

CURVES = {
    "Henry": lambda c, k: k * c,
    "Langmuir": lambda c, q, k: q * k * c / (1 + k * c),
    "Freundlich": lambda c, k, m: k * c**m,
    "Temkin": lambda c, b, a: b * np.log(a * c),
    "Sips": lambda c, q, k, n: q * (k * c) ** n / (1 + (k * c) ** n),
    "Toth": lambda c, q, k, t: q * k * c / (1 + (k * c) ** t) ** (1 / t),
    "Redlich-Peterson": lambda c, a, b, g: a * c / (1 + b * c**g),
    "Dubinin-Radushkevich": lambda c, q, beta: q
    * np.exp(-beta * (RT * np.log(SOLUBILITY / c)) ** 2),
    "dual-site Langmuir": lambda c, q1, b1, q2, b2: q1 * b1 * c / (1 + b1 * c)
    + q2 * b2 * c / (1 + b2 * c),
    "BET (liquid phase)": lambda c, q, b: q
    * b
    * c
    / ((SATURATION - c) * (1 + (b - 1) * c / SATURATION)),
}


def fits(model, x, ys, starts):
    """All sets once: parameters and standard errors."""
    curve = CURVES[model]
    out = []
    for y, start in zip(ys, starts):
        p, cov = curve_fit(curve, x, y, p0=start, maxfev=5000)
        out.append((p, np.sqrt(np.diag(cov))))
    return out


def aicc(model, x, ys, results):
    n = len(x)
    out = []
    for y, (p, _) in zip(ys, results):
        rss = np.sum((y - CURVES[model](x, *p)) ** 2)
        k = len(p) + 1
        out.append(n * np.log(rss / n) + 2 * k + 2 * k * (k + 1) / (n - k - 1))
    return out


def bootstrap_loop(x, y, p, count, rng):
    """Residual bootstrap of a Langmuir fit, one curve_fit a resample."""
    curve = CURVES["Langmuir"]
    fitted = curve(x, *p)
    r = y - fitted
    draws = np.empty((count, 2))
    for i in range(count):
        draws[i] = curve_fit(curve, x, fitted + rng.choice(r, len(r)), p0=p)[0]
    return np.percentile(draws, [2.5, 97.5], axis=0)


def bootstrap_vectorised(x, y, p, count, rng):
    """The same by Gauss-Newton on all resamples at once, written by hand, to steps below 1e-6 of the parameters."""
    q, k = p
    fitted = q * k * x / (1 + k * x)
    r = y - fitted
    ys = fitted + r[rng.integers(0, len(r), (count, len(r)))]
    qs = np.full(count, q)
    ks = np.full(count, k)
    for _ in range(20):
        d = 1 / (1 + ks[:, None] * x)
        j1 = ks[:, None] * x * d
        j2 = qs[:, None] * x * d * d
        res = ys - qs[:, None] * j1
        a = np.einsum("ij,ij->i", j1, j1)
        b = np.einsum("ij,ij->i", j1, j2)
        c = np.einsum("ij,ij->i", j2, j2)
        g = np.einsum("ij,ij->i", j1, res)
        h = np.einsum("ij,ij->i", j2, res)
        det = a * c - b * b
        dq = (c * g - b * h) / det
        dk = (a * h - b * g) / det
        qs += dq
        ks += dk
        if np.max(np.abs(dq / qs)) < 1e-6 and np.max(np.abs(dk / ks)) < 1e-6:
            break
    return np.percentile(np.column_stack([qs, ks]), [2.5, 97.5], axis=0)


def profile(x, y, p, se, target):
    """Ends of both profile intervals of a Langmuir fit: the other parameter refitted at every step of a root search."""
    ends = []
    for j in range(2):
        for direction in (-1, 1):
            other = p[1 - j]

            def miss(value):
                nonlocal other
                if j == 0:
                    curve = lambda c, k: value * k * c / (1 + k * c)  # noqa: E731
                else:
                    curve = lambda c, q: q * value * c / (1 + value * c)  # noqa: E731
                best = curve_fit(curve, x, y, p0=[other])[0]
                other = best[0]
                return np.sum((y - curve(x, *best)) ** 2) - target

            far = p[j] + direction * 2.0 * se[j]
            while miss(far) < 0:
                far += direction * se[j]
            ends.append(brentq(miss, p[j], far, rtol=1e-8))
    return ends


def best_of(rounds, work):
    """Shortest of some rounds, in seconds of processor time, and the last result."""
    shortest = float("inf")
    result = None
    for _ in range(rounds):
        start = time.process_time()
        result = work()
        shortest = min(shortest, time.process_time() - start)
    return shortest, result


def main():
    task = json.load(sys.stdin)
    out = {"fits": {}}
    for model, t in task["fits"].items():
        x = np.array(t["x"])
        ys = [np.array(y) for y in t["ys"]]
        seconds, results = best_of(3, lambda: fits(model, x, ys, t["starts"]))
        with_aicc, _ = best_of(
            3, lambda: aicc(model, x, ys, fits(model, x, ys, t["starts"]))
        )
        out["fits"][model] = {
            "seconds": seconds,
            "withCriteria": with_aicc,
            "parameters": [list(p) for p, _ in results],
            "errors": [list(s) for _, s in results],
        }
    t = task["langmuir"]
    x, y, p = np.array(t["x"]), np.array(t["y"]), np.array(t["parameters"])
    rng = np.random.default_rng(1)
    out["bootstrapLoop"], out["bootstrapInterval"] = best_of(
        1, lambda: bootstrap_loop(x, y, p, t["resamples"], rng).tolist()
    )
    out["bootstrapVectorised"], _ = best_of(
        15, lambda: bootstrap_vectorised(x, y, p, t["resamples"], rng)
    )
    out["profile"], out["profileEnds"] = best_of(
        8, lambda: profile(x, y, p, t["errors"], t["target"])
    )
    json.dump(out, sys.stdout)


main()
